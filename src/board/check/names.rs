//! Names: what each section defines, and finding what a name stands for.

use std::collections::BTreeMap;

use crate::diagnostic::{Code, Problem, Problems};
use crate::source::Span;
use crate::spec::{Field, Name, Section, Spec};
use crate::standards::designators::Class;

use super::super::Designators;
use super::{letters, looks};

/// The names that one section defines.
pub struct Names<'s> {
    one: &'static str,
    many: &'static str,
    whole: bool,
    list: Vec<&'s str>,
    index: BTreeMap<&'s str, usize>,
}

impl<'s> Names<'s> {
    fn of<T>(
        one: &'static str,
        many: &'static str,
        section: &'s Section<T>,
        name: impl Fn(&'s T) -> &'s Name,
    ) -> Self {
        let list: Vec<&str> = section.entries.iter().map(|e| name(e).value.as_str()).collect();
        let index = list.iter().enumerate().map(|(i, name)| (*name, i)).collect();
        Self { one, many, whole: section.whole, list, index }
    }

    /// What `name` stands for. `asker` is who names it: `header J1`. Silent where the section
    /// itself could not be read whole, because the name may be one of those left out.
    pub fn find(
        &self,
        name: &Name,
        asker: &str,
        all: &Directory<'_>,
        problems: &mut Problems,
    ) -> Option<usize> {
        let found = self.index.get(name.value.as_str()).copied();
        if found.is_none() && self.whole {
            problems.error(self.unknown(name, asker, all));
        }
        found
    }

    /// The same for a field.
    pub fn find_field(
        &self,
        field: &Field<String>,
        asker: &str,
        all: &Directory<'_>,
        problems: &mut Problems,
    ) -> Option<usize> {
        self.find(field.get()?, asker, all, problems)
    }

    fn unknown(&self, name: &Name, asker: &str, all: &Directory<'_>) -> Problem {
        let article = if self.one.starts_with(['a', 'e', 'i', 'o', 'u']) { "an" } else { "a" };
        let message = format!("{asker} names {article} {} that does not exist", self.one);
        let mut problem = Problem::new(Code::UnknownName, name.span, message)
            .label(format!("no {} has this name", self.one));
        if let Some(other) = all.kind_of(&name.value) {
            problem = problem.note(format!("{} is a {other}", name.value));
        }
        // A name of other letters, which looks like the right one, would puzzle for long.
        let alike = |known: &&&str| looks::likeness(&name.value, known).is_some();
        let strange = looks::strange(&name.value);
        if let (Some(known), Some(note)) = (self.list.iter().find(alike), strange) {
            return problem.note(note).same_look(&name.value, known);
        }
        let near = problem.nearest(&name.value, self.list.iter().copied());
        if near.help.is_some() || self.list.is_empty() || self.list.len() > 12 {
            return near;
        }
        let names = self.list.join(", ");
        near.help(format!("the {} are {names}", self.many))
    }
}

/// The names of all sections.
pub struct Directory<'s> {
    /// `parts`.
    pub parts: Names<'s>,
    /// `terminals`.
    pub terminals: Names<'s>,
    /// `links`.
    pub links: Names<'s>,
    /// `groups`.
    pub groups: Names<'s>,
    /// `jumpers`.
    pub jumpers: Names<'s>,
    /// `fuses`.
    pub fuses: Names<'s>,
    /// `sockets`.
    pub sockets: Names<'s>,
    /// `headers`.
    pub headers: Names<'s>,
    /// `switches`.
    pub banks: Names<'s>,
    /// `selectors`.
    pub selectors: Names<'s>,
}

impl<'s> Directory<'s> {
    /// Collects the names of a specification.
    pub fn of(spec: &'s Spec) -> Self {
        Self {
            parts: Names::of("part", "parts", &spec.parts, |e| &e.name),
            terminals: Names::of("terminal", "terminals", &spec.terminals, |e| &e.name),
            links: Names::of("link", "links", &spec.links, |e| &e.name),
            groups: Names::of("voltage group", "groups", &spec.groups, |e| &e.name),
            jumpers: Names::of("jumper", "jumpers", &spec.jumpers, |e| &e.name),
            fuses: Names::of("fuse", "fuses", &spec.fuses, |e| &e.name),
            sockets: Names::of("socket family", "socket families", &spec.sockets, |e| &e.name),
            headers: Names::of("header", "headers", &spec.headers, |e| &e.name),
            banks: Names::of("switch bank", "switch banks", &spec.switches, |e| &e.name),
            selectors: Names::of("selector", "selectors", &spec.selectors, |e| &e.name),
        }
    }

    fn kind_of(&self, name: &str) -> Option<&'static str> {
        let all = [
            &self.parts,
            &self.terminals,
            &self.links,
            &self.groups,
            &self.jumpers,
            &self.fuses,
            &self.sockets,
            &self.headers,
            &self.banks,
            &self.selectors,
        ];
        all.into_iter().find(|names| names.index.contains_key(name)).map(|names| names.one)
    }
}

/// Checks the names themselves: their shape, that no two printed codes are the same, and the class
/// letters of the standard that the board follows.
pub fn check(spec: &Spec, standard: Option<Designators>, problems: &mut Problems) {
    let codes = codes(spec);
    let mut seen: BTreeMap<&str, (&str, Span)> = BTreeMap::new();
    for (what, _, name) in &codes {
        if shape(what, name, problems) {
            characters(what, name, problems);
        }
        match seen.get(name.value.as_str()) {
            // Twice in one section is found when the section is read.
            Some((first, span)) if first != what => {
                problems.error(
                    Problem::new(
                        Code::DefinedTwice,
                        name.span,
                        format!("{} is both a {first} and a {what}", name.value),
                    )
                    .label(format!("a {what} here"))
                    .other(*span, format!("a {first} here"))
                    .help("give one of them another code"),
                );
            }
            Some(_) => {}
            None => {
                seen.insert(&name.value, (what, name.span));
            }
        }
    }
    letters::check(spec, &codes, standard, problems);
    let parts = spec.parts.entries.iter().map(|e| ("part", &e.name));
    let supplies = spec.supplies.entries.iter().map(|e| ("supply", &e.name));
    let sockets = spec.sockets.entries.iter().map(|e| ("socket family", &e.name));
    let panels = spec.panels.entries.iter().map(|e| ("panel", &e.name));
    let devices = spec.devices.entries.iter().map(|e| ("device", &e.name));
    let all = parts.clone().chain(supplies.clone()).chain(sockets.clone());
    for (what, name) in all.chain(panels.clone()).chain(devices) {
        shape(what, name, problems);
    }
    // Codes stand side by side on the board; the others only beside their own kind.
    // Of one with strange letters that was told already.
    let plain = codes.iter().filter(|(_, _, name)| name.value.is_ascii());
    looks::check(plain.map(|(what, _, name)| (*what, *name)), problems);
    looks::check(parts, problems);
    looks::check(supplies, problems);
    looks::check(sockets, problems);
    looks::check(panels, problems);
}

/// A code is printed on the board, so it has the characters that are printed there.
fn characters(what: &str, name: &Name, problems: &mut Problems) {
    let odd = name.value.chars().find(|c| !c.is_ascii_alphanumeric() && *c != '-');
    let Some(odd) = odd else { return };
    let article = if what.starts_with(['a', 'e', 'i', 'o', 'u']) { "an" } else { "a" };
    let shown = if odd == ' ' { "a blank".to_owned() } else { format!("`{odd}`") };
    let mut problem = Problem::new(
        Code::CodeCharacters,
        name.span,
        format!("the code of {article} {what} holds {shown}"),
    )
    .label("letters from A to Z, digits and `-` alone");
    if let Some(note) = looks::strange(&name.value) {
        problem = problem.note(note);
    }
    problems.error(problem.help("write it as it is printed on the board"));
}

/// Everything with a code that is printed on the board, in the order of the sections.
pub fn codes(spec: &Spec) -> Vec<(&'static str, Option<Class>, &Name)> {
    let mut all = Vec::new();
    all.extend(spec.terminals.entries.iter().map(|e| ("terminal", Some(Class::Terminal), &e.name)));
    all.extend(spec.links.entries.iter().map(|e| ("link", Some(Class::Link), &e.name)));
    all.extend(spec.groups.entries.iter().map(|e| ("voltage group", None, &e.name)));
    all.extend(spec.jumpers.entries.iter().map(|e| ("jumper", Some(Class::Jumper), &e.name)));
    all.extend(spec.fuses.entries.iter().map(|e| ("fuse", Some(Class::Fuse), &e.name)));
    all.extend(spec.headers.entries.iter().map(|e| ("header", Some(Class::Header), &e.name)));
    all.extend(spec.switches.entries.iter().map(|e| ("switch bank", Some(Class::Bank), &e.name)));
    all.extend(spec.selectors.entries.iter().map(|e| ("selector", Some(Class::Bank), &e.name)));
    all
}

/// A name is printed in small places and becomes part of file names and links. Whether it can.
fn shape(what: &str, name: &Name, problems: &mut Problems) -> bool {
    let fits = name.value.chars().count() <= 24
        && name.value.starts_with(|c: char| c.is_alphanumeric())
        && name.value.chars().all(|c| c.is_alphanumeric() || matches!(c, '-' | '_' | '.' | ' '));
    if !fits {
        problems.error(
            Problem::new(
                Code::NameShape,
                name.span,
                format!("the name of a {what} does not fit on a sheet"),
            )
            .label("at most 24 letters, digits, blanks, `-`, `_` and `.`")
            .help("start with a letter or a digit"),
        );
    }
    fits
}
