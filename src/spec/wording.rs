//! Words for people: the same in every language, or given by language.

use std::ops::Deref;

use super::fields::{Value, wrong_kind};
use super::tree::YamlKind;
use super::values::{pairs, text, title};
use crate::diagnostic::{Code, Problem, Problems};
use crate::source::{Span, Spanned};
use crate::standards::languages::{CODES, is_tag, language_of};

type Name = Spanned<String>;

/// Stands behind words that are in another language than the one that was asked for.
pub const STAND_IN: char = '\u{2020}';

/// Words for people. It reads as the words in the language that the specification speaks, at first the
/// first that is given.
#[derive(Clone, Debug)]
pub struct Wording {
    versions: Vec<Version>,
    spoken: usize,
    /// Whether the words spoken are in another language than the one that was asked for.
    stands_in: bool,
}

#[derive(Clone, Debug)]
struct Version {
    /// Its language; `None` for words that are the same in every one.
    language: Option<Name>,
    words: Name,
}

/// Equal wordings have the same words in the same languages, whichever is spoken.
impl PartialEq for Wording {
    fn eq(&self, other: &Self) -> bool {
        let said = |wording: &Self| {
            let all = wording.versions.iter();
            all.map(|it| (it.language.clone().map(|tag| tag.value), it.words.value.clone()))
                .collect::<Vec<_>>()
        };
        said(self) == said(other)
    }
}

impl Deref for Wording {
    type Target = String;

    fn deref(&self) -> &String {
        static NOTHING: String = String::new();
        self.versions.get(self.spoken).map_or(&NOTHING, |version| &version.words.value)
    }
}

impl Wording {
    /// The same words in every language.
    pub fn plain(words: &str, span: Span) -> Self {
        let words = Name::new(words.to_owned(), span);
        let versions = vec![Version { language: None, words }];
        Self { versions, spoken: 0, stands_in: false }
    }

    /// Whether there are words for single languages.
    pub fn is_by_language(&self) -> bool {
        self.versions.iter().any(|version| version.language.is_some())
    }

    /// The words of each language, in the order in which they are given.
    pub fn by_language(&self) -> impl Iterator<Item = (&Name, &Name)> {
        self.versions.iter().filter_map(|it| it.language.as_ref().map(|tag| (tag, &it.words)))
    }

    /// The language of the words that are spoken; `None` if they are the same in every one.
    pub fn language(&self) -> Option<&str> {
        self.versions.get(self.spoken)?.language.as_ref().map(|tag| tag.value.as_str())
    }

    /// Whether it has words for the language of a tag.
    pub fn has(&self, tag: &str) -> bool {
        !self.is_by_language() || self.version_for(tag).is_some()
    }

    /// Whether the words that are spoken are in another language than the one that was asked for.
    pub fn stands_in(&self) -> bool {
        self.stands_in
    }

    /// The place of the words that are spoken.
    pub fn span(&self) -> Option<Span> {
        self.versions.get(self.spoken).map(|version| version.words.span)
    }

    /// The words that are spoken as a sheet shows them: each paragraph and each item of a list marked if
    /// they are in another language than the one that was asked for.
    pub fn shown(&self) -> String {
        if self.stands_in { marked(self) } else { String::clone(self) }
    }

    fn version_for(&self, tag: &str) -> Option<usize> {
        let of = |same: &dyn Fn(&str) -> bool| {
            let language = |it: &Version| it.language.as_ref().is_some_and(|it| same(&it.value));
            self.versions.iter().position(language)
        };
        of(&|given| given == tag).or_else(|| of(&|given| language_of(given) == language_of(tag)))
    }

    /// Speaks the language of a tag from now on, or the first that is given.
    pub(super) fn speak(&mut self, tag: &str) {
        let found = self.version_for(tag);
        self.stands_in = found.is_none() && self.is_by_language();
        self.spoken = found.unwrap_or(0);
    }
}

/// A text with the mark behind each paragraph and each item of a list.
fn marked(text: &str) -> String {
    let begins_item = |line: &str| {
        let line = line.trim_start();
        let rest = line.trim_start_matches(|c: char| c.is_ascii_digit());
        line.starts_with("- ")
            || line.starts_with("* ")
            || (rest.len() < line.len() && rest.starts_with(['.', ')']))
    };
    let lines: Vec<&str> = text.lines().collect();
    let mut out = String::with_capacity(text.len() + 8);
    for (index, line) in lines.iter().enumerate() {
        let ends =
            lines.get(index + 1).is_none_or(|next| next.trim().is_empty() || begins_item(next));
        out.push_str(line.trim_end());
        if ends && !line.trim().is_empty() {
            out.push(STAND_IN);
        }
        if index + 1 < lines.len() {
            out.push('\n');
        }
    }
    out
}

/// Reads a title, or one for each language.
pub fn titles(value: Value<'_>, problems: &mut Problems) -> Option<Wording> {
    let longest = 60;
    let wording = wording(value.clone(), longest, &title, problems)?;
    let lines = wording.by_language().find(|(_, words)| words.value.contains('\n'));
    if let Some((_, words)) = lines {
        let message = format!("{} runs over several lines", value.name);
        problems.error(
            Problem::new(Code::WrongValue, words.span, message).label("one line belongs here"),
        );
        return None;
    }
    Some(wording)
}

/// Reads a text, or one for each language, of at most `longest` characters each.
pub fn texts(value: Value<'_>, longest: usize, problems: &mut Problems) -> Option<Wording> {
    let one = |value: Value<'_>, problems: &mut Problems| text(value, longest, problems);
    wording(value, longest, &one, problems)
}

/// Reads a map of keys to texts, or to one for each language.
pub fn text_pairs(
    value: Value<'_>,
    longest: usize,
    problems: &mut Problems,
) -> Option<Vec<(Name, Spanned<Wording>)>> {
    let by_language = |node: &super::tree::YamlNode| matches!(node.kind, YamlKind::Map(_));
    let YamlKind::Map(entries) = &value.node.kind else {
        wrong_kind(value.node, &value.name, "a map", problems);
        return None;
    };
    if !entries.iter().any(|entry| by_language(&entry.value)) {
        let plain = |(key, words): (Name, Name)| {
            let wording = Wording::plain(&words.value, words.span);
            (key, Spanned::new(wording, words.span))
        };
        return pairs(value, longest, problems).map(|all| all.into_iter().map(plain).collect());
    }
    let mut all = Some(Vec::with_capacity(entries.len()));
    for entry in entries {
        let name = format!("`{}` in {}", entry.key.value, value.name);
        let read = texts(Value { node: &entry.value, name }, longest, problems);
        all = all.zip(read).map(|(mut all, wording)| {
            all.push((entry.key.clone(), Spanned::new(wording, entry.value.span)));
            all
        });
    }
    all
}

fn wording(
    value: Value<'_>,
    longest: usize,
    one: &dyn for<'v> Fn(Value<'v>, &mut Problems) -> Option<String>,
    problems: &mut Problems,
) -> Option<Wording> {
    let span = value.node.span;
    let name = value.name.clone();
    if !matches!(value.node.kind, YamlKind::Map(_)) {
        return one(value, problems).map(|words| Wording::plain(&words, span));
    }
    let mut versions: Vec<Version> = Vec::new();
    let mut sound = true;
    for (tag, words) in pairs(value, longest, problems)? {
        if !is_tag(&tag.value) {
            let message = format!("`{}` in {name} is no language", tag.value);
            let problem = Problem::new(Code::UnknownWord, tag.span, message)
                .label("no tag of a language")
                .help("write a tag such as `en`, `de` or `pt-BR` before the words of a language");
            problems.error(problem.nearest(&tag.value, CODES.values.iter().copied()));
            sound = false;
        }
        let same = |it: &&Version| it.language.as_ref().is_some_and(|it| it.value == tag.value);
        if let Some(first) = versions.iter().find(same).and_then(|it| it.language.as_ref()) {
            let message = format!("{name} has words for `{}` twice", tag.value);
            problems.error(
                Problem::new(Code::RepeatedKey, tag.span, message)
                    .label("given again here")
                    .other(first.span, "first given here"),
            );
            sound = false;
            continue;
        }
        versions.push(Version { language: Some(tag), words });
    }
    if versions.is_empty() {
        let message = format!("{name} has words in no language");
        problems.error(
            Problem::new(Code::NoValue, span, message).label("needs words for a language at least"),
        );
        return None;
    }
    sound.then_some(Wording { versions, spoken: 0, stands_in: false })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_paragraph_and_item_is_marked() {
        assert_eq!(marked("Blower"), "Blower\u{2020}");
        assert_eq!(
            marked("1. Press\n   it.\n2. Wait.\n"),
            "1. Press\n   it.\u{2020}\n2. Wait.\u{2020}"
        );
        assert_eq!(marked("One.\n\nTwo."), "One.\u{2020}\n\nTwo.\u{2020}");
    }
}
