//! Reading a map key by key, so that one wrong value never hides another.

use std::collections::BTreeMap;

use super::language::{Form, Kind, Need};
use super::tree::{Entry, YamlKind, YamlNode};
use crate::diagnostic::{Code, Problem, Problems};
use crate::source::{Span, Spanned};

/// A value that a key may have.
#[derive(Clone, Debug, PartialEq, Default)]
pub enum Field<T> {
    /// The key is not there, and need not be.
    #[default]
    Absent,
    /// The value could not be read, or the key had to be there and is not: reported already.
    Unread,
    /// The value, and where it stands.
    Is(Spanned<T>),
}

impl<T> Field<T> {
    /// The value with its place, if there is one.
    pub fn get(&self) -> Option<&Spanned<T>> {
        match self {
            Field::Is(value) => Some(value),
            _ => None,
        }
    }

    /// The value, if there is one.
    pub fn value(&self) -> Option<&T> {
        self.get().map(|spanned| &spanned.value)
    }

    /// The value, to be changed, if there is one.
    pub fn value_mut(&mut self) -> Option<&mut T> {
        match self {
            Field::Is(value) => Some(&mut value.value),
            _ => None,
        }
    }

    /// Whether the key is not there.
    pub fn is_absent(&self) -> bool {
        matches!(self, Field::Absent)
    }

    /// Whether what was written could not be read.
    pub fn is_unread(&self) -> bool {
        matches!(self, Field::Unread)
    }
}

/// A value on its way to being read, and what a person calls it: `` `max` of header J1 ``.
#[derive(Clone, Debug)]
pub struct Value<'n> {
    /// The value.
    pub node: &'n YamlNode,
    /// What a person calls it.
    pub name: String,
}

/// The entries of a map whose keys the language fixes.
pub struct Fields<'n> {
    form: &'static Form,
    what: String,
    place: Span,
    found: Vec<(&'static str, &'n Entry)>,
    readable: bool,
    /// Whether all that is missing was told in one message.
    missing_told: bool,
}

/// So many missing keys are told without showing the shape of the whole.
const FEW: usize = 2;

/// The problem of a text between curly brackets that ends at its comma, because it is not between
/// quotes: `before` has the text, `rest` is what stands alone behind its commas.
pub fn comma_in_text(before: &Entry, rest: &[Entry], prose: bool) -> Option<Problem> {
    let YamlKind::Text(text) = &before.value.kind else { return None };
    let (first, last) = (rest.first()?, rest.last()?);
    let mut whole = text.clone();
    let mut end = before.value.span.end;
    for entry in rest {
        whole.push_str(if entry.key.span.start == end + 1 { "," } else { ", " });
        whole.push_str(&entry.key.value);
        end = entry.key.span.end;
    }
    let whole = format!("\"{}\"", whole.replace('\\', "\\\\").replace('"', "\\\""));
    let span = before.value.span;
    let problem = Problem::new(
        Code::CommaInText,
        first.key.span.to(last.key.span),
        format!("the text of `{}` ends at its comma", before.key.value),
    )
    .label("stands alone, as a key without a value")
    .other(span, "the text");
    Some(if prose {
        problem.spelling("put the whole text between quotes", span.to(last.key.span), whole)
    } else {
        problem.help("give the key and colon that are missing, or put the whole text in quotes")
    })
}

/// How many of `entries` from the start are keys by their place alone, and none that `known` knows.
pub fn bare(entries: &[Entry], known: impl Fn(&str) -> bool) -> usize {
    let alone = |entry: &&Entry| entry.bare && !known(&entry.key.value);
    entries.iter().take_while(alone).count()
}

impl<'n> Fields<'n> {
    /// Opens the map `node`, which a person calls `what`; `place` is where it is named. Keys that
    /// are not among those of `form` are reported. A key that is nearly a known one that is not there
    /// is reported and then read as that one: one mistake, one message.
    pub fn open(
        node: &'n YamlNode,
        what: impl Into<String>,
        place: Span,
        form: &'static Form,
        problems: &mut Problems,
    ) -> Self {
        let mut fields = Self {
            form,
            what: what.into(),
            place,
            found: Vec::new(),
            readable: true,
            missing_told: false,
        };
        let YamlKind::Map(entries) = &node.kind else {
            fields.readable = false;
            wrong_kind(node, &fields.what, "a map of keys and values", problems);
            return fields;
        };
        let mut strange = Vec::new();
        let mut rest = entries.as_slice();
        while let [entry, after @ ..] = rest {
            rest = after;
            let Some(key) = form.key(&entry.key.value) else {
                strange.push(entry);
                continue;
            };
            fields.found(key.name, entry, problems);
            let (alone, others) = rest.split_at(bare(rest, |word| form.key(word).is_some()));
            // `key right` behind a comma lacks its colon rather than quotes.
            let as_key = |entry: &Entry| {
                form.names().any(|key| entry.key.value.split(' ').next() == Some(key))
            };
            let prose = key.kind.is_words() && !alone.iter().any(as_key);
            if let Some(problem) = comma_in_text(entry, alone, prose) {
                problems.error(problem);
                rest = others;
            }
        }
        for entry in strange {
            let absent = || form.names().filter(|key| !fields.has(key));
            let mut problem = Problem::new(
                Code::UnknownKey,
                entry.key.span,
                format!("{} has no key `{}`", fields.what, entry.key.value),
            )
            .label("not a key of the language here")
            .nearest(&entry.key.value, absent());
            let meant = problem.help.as_ref().and_then(|help| help.edit.as_ref());
            let meant = meant.and_then(|edit| form.key(&edit.text));
            if meant.is_none() {
                let known: Vec<&str> = form.names().collect();
                problem = problem.help(format!("the keys here are {}", list(&known)));
            }
            problems.error(problem);
            if let Some(key) = meant {
                fields.found.push((key.name, entry));
            }
        }
        fields
    }

    /// Reports those keys that must be there and are not in one message, which shows `shape` where
    /// more than a few are missing; [`Fields::get`] says nothing of them then.
    pub fn require(&mut self, shape: &'static str, problems: &mut Problems) {
        self.missing_told = true;
        let missing: Vec<&str> = self.form.required().filter(|key| !self.has(key)).collect();
        let (Some(first), true) = (missing.first(), self.readable) else { return };
        let several = missing.len() > 1;
        let message = format!(
            "{} lacks the key{} {}",
            self.what,
            if several { "s" } else { "" },
            list(&missing)
        );
        let label = if several {
            format!("has none of these {}", missing.len())
        } else {
            format!("has no `{first}`")
        };
        let problem = Problem::new(Code::MissingKey, self.place, message).label(label);
        problems.error(if missing.len() > FEW {
            problem
                .help(format!("{} has this shape; put your own values in", self.what))
                .shape(shape)
        } else {
            problem
        });
    }

    fn has(&self, key: &str) -> bool {
        self.found.iter().any(|(found, _)| *found == key)
    }

    fn found(&mut self, key: &'static str, entry: &'n Entry, problems: &mut Problems) {
        match self.found.iter().find(|(found, _)| *found == key) {
            None => self.found.push((key, entry)),
            Some((_, first)) => {
                problems.error(
                    Problem::new(
                        Code::RepeatedKey,
                        entry.key.span,
                        format!("{} has the key `{key}` twice", self.what),
                    )
                    .label("given again here")
                    .other(first.key.span, "first given here")
                    .help("remove one of the two"),
                );
            }
        }
    }

    /// Reads the value of a key. Of one that the form says must be there the result is never
    /// [`Field::Absent`].
    pub fn get<T>(
        &self,
        key: &'static str,
        problems: &mut Problems,
        read: impl FnOnce(Value<'n>, &mut Problems) -> Option<T>,
    ) -> Field<T> {
        let entry = self.found.iter().find(|(found, _)| *found == key).map(|(_, entry)| entry);
        let must = self.form.key(key).is_some_and(|key| key.need == Need::Must);
        let Some(entry) = entry else {
            if must && self.readable && !self.missing_told {
                let message = format!("{} lacks the key `{key}`", self.what);
                problems.error(
                    Problem::new(Code::MissingKey, self.place, message)
                        .label(format!("has no `{key}`")),
                );
            }
            return if must || !self.readable { Field::Unread } else { Field::Absent };
        };
        let value = Value { node: &entry.value, name: format!("`{key}` of {}", self.what) };
        match read(value, problems) {
            Some(read) => Field::Is(Spanned::new(read, entry.value.span)),
            None => Field::Unread,
        }
    }

    /// The place of a key, if it is there.
    pub fn key_span(&self, key: &str) -> Option<Span> {
        self.found.iter().find(|(found, _)| *found == key).map(|(_, entry)| entry.key.span)
    }

    /// Whether there was a map to read at all.
    pub fn is_readable(&self) -> bool {
        self.readable
    }
}

/// Things of one kind by name, in the file's order.
#[derive(Clone, Debug)]
pub struct Section<T> {
    /// The section's key; of a section that is not there, the first key of the file.
    pub place: Span,
    /// Whether everything that was written there was taken in. If not, a name that is not found
    /// may be one of those left out.
    pub whole: bool,
    /// The things.
    pub entries: Vec<T>,
}

/// Equal things are equal wherever they stand.
impl<T: PartialEq> PartialEq for Section<T> {
    fn eq(&self, other: &Self) -> bool {
        self.whole == other.whole && self.entries == other.entries
    }
}

impl<T> Section<T> {
    /// A section that is not there.
    pub fn absent(place: Span) -> Self {
        Self { place, whole: true, entries: Vec::new() }
    }
}

/// What a section holds.
pub struct Named {
    /// One of them: `header`.
    pub one: &'static str,
    /// Several of them: `headers`.
    pub many: &'static str,
    /// How many there may be.
    pub limit: usize,
}

impl Named {
    /// What the section `key` of `form` holds.
    pub fn of(form: &'static Form, key: &'static str) -> Self {
        match form.key(key).map(|key| key.kind) {
            Some(Kind::Things(_, one, limit)) => Self { one: one.name, many: key, limit },
            _ => Self { one: key, many: key, limit: usize::MAX },
        }
    }
}

/// Reads a map of names to things. Names given twice and names beyond the limit are reported.
pub fn section<T>(
    value: Value<'_>,
    named: &Named,
    place: Span,
    problems: &mut Problems,
    mut read: impl FnMut(&Spanned<String>, Value<'_>, &mut Problems) -> T,
) -> Section<T> {
    let mut section = Section { place, whole: false, entries: Vec::new() };
    let YamlKind::Map(entries) = &value.node.kind else {
        wrong_kind(value.node, &value.name, &format!("a map of {}", named.many), problems);
        return section;
    };
    section.whole = true;
    let mut seen: BTreeMap<&str, Span> = BTreeMap::new();
    for entry in entries {
        if let Some(first) = seen.get(entry.key.value.as_str()) {
            problems.error(
                Problem::new(
                    Code::DefinedTwice,
                    entry.key.span,
                    format!("{} {} is defined twice", named.one, entry.key.value),
                )
                .label("defined again here")
                .other(*first, "first defined here")
                .help("give one of them another name, or remove it"),
            );
            continue;
        }
        if section.entries.len() >= named.limit {
            let message = format!("the file has more than {} {}", named.limit, named.many);
            let label = format!("number {}", named.limit + 1);
            problems.error(Problem::new(Code::TooMany, entry.key.span, message).label(label));
            section.whole = false;
            break;
        }
        seen.insert(&entry.key.value, entry.key.span);
        let name = format!("{} {}", named.one, entry.key.value);
        section.entries.push(read(&entry.key, Value { node: &entry.value, name }, problems));
    }
    section
}

/// Reports that `node` is not what belongs there.
pub fn wrong_kind(node: &YamlNode, name: &str, wanted: &str, problems: &mut Problems) {
    let has = match node.kind {
        YamlKind::Map(_) => "a map",
        YamlKind::List(_) => "a list",
        YamlKind::Text(_) => "a text",
        YamlKind::Refused => return,
        YamlKind::Nothing => {
            problems.error(
                Problem::new(Code::NoValue, node.span, format!("{name} has no value"))
                    .label(format!("needs {wanted}")),
            );
            return;
        }
    };
    problems.error(
        Problem::new(Code::WrongKind, node.span, format!("{name} is {has}, not {wanted}"))
            .label(format!("{wanted} belongs here")),
    );
}

/// `a`, `b` and `c`, each between backticks.
pub fn list<'a>(words: impl IntoIterator<Item = &'a &'a str>) -> String {
    let words: Vec<String> = words.into_iter().map(|word| format!("`{word}`")).collect();
    match words.split_last() {
        None => String::new(),
        Some((last, [])) => last.clone(),
        Some((last, rest)) => format!("{} and {last}", rest.join(", ")),
    }
}
