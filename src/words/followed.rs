//! What of a language follows which English text: so that a translation shows what has changed since
//! somebody compared the two.
//!
//! Each phrase and each page of English has a sum. The folder of a language keeps, for each of its own, the
//! sum of the English one that it was last compared with, in `about/looked-at.txt`: one line each, the sum,
//! the file, and for a phrase its name.

use std::collections::BTreeMap;
use std::fmt::Write;
use std::ops::Range;

use fluent_syntax::ast::{Entry, Resource};
use fluent_syntax::{parser, serializer};

use crate::mark::sum_of;

/// The file of sums, from the folder of a language.
pub const LOOKED_AT: &str = "about/looked-at.txt";

/// Characters of a sum that are kept: enough that two texts of one name do not have the same.
const SUM: usize = 12;

/// A phrase or a page of a language.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FollowedText {
    /// The name of its file.
    pub file: String,
    /// The name of the phrase; `None` for a page, which is a file of its own.
    pub phrase: Option<String>,
    /// Where its name stands in the file, bytes; the start of a page.
    pub place: Range<usize>,
    /// Its sum: another for other words, the same for other comments and spaces at the ends of lines.
    pub sum: String,
}

impl FollowedText {
    /// What it is called in `about/looked-at.txt` and by whoever looks at it: `front.md`, or
    /// `sheets.ftl foot_and_mark`.
    pub fn key(&self) -> String {
        match &self.phrase {
            Some(phrase) => format!("{} {phrase}", self.file),
            None => self.file.clone(),
        }
    }

    /// Its own name: that of the phrase, or of the page's file.
    pub fn name(&self) -> &str {
        self.phrase.as_deref().unwrap_or(&self.file)
    }
}

/// The phrases and pages of files, by their names, in their order.
pub fn followed_texts<'a>(
    files: impl IntoIterator<Item = (&'a str, &'a str)>,
) -> Vec<FollowedText> {
    let mut all = Vec::new();
    for (file, text) in files {
        if file.ends_with(".ftl") {
            all.extend(phrases(file, text));
        } else {
            let lines: Vec<&str> = text.lines().map(str::trim_end).collect();
            all.push(FollowedText {
                file: file.to_owned(),
                phrase: None,
                place: 0..0,
                sum: short(lines.join("\n").trim()),
            });
        }
    }
    all
}

fn phrases(file: &str, text: &str) -> Vec<FollowedText> {
    // What cannot be read is told by whoever reads the phrases.
    let resource = parser::parse(text).unwrap_or_else(|(resource, _)| resource);
    let mut all = Vec::new();
    for entry in resource.body {
        let Entry::Message(mut message) = entry else { continue };
        message.comment = None;
        let phrase = message.id.name.to_owned();
        // The parser borrows from the text: a name is a piece of it.
        let start = message.id.name.as_ptr() as usize - text.as_ptr() as usize;
        let alone = Resource { body: vec![Entry::Message(message)] };
        all.push(FollowedText {
            file: file.to_owned(),
            place: start..start + phrase.len(),
            phrase: Some(phrase),
            sum: short(&serializer::serialize(&alone)),
        });
    }
    all
}

fn short(text: &str) -> String {
    let mut sum = sum_of(text.as_bytes());
    sum.truncate(SUM);
    sum
}

/// The sums that a language was last compared with, by key. A line that cannot be read is left out: its text
/// then counts as never compared.
pub fn read_looked_at(text: &str) -> BTreeMap<String, String> {
    let line = |line: &str| {
        let (sum, key) = line.trim().split_once(' ')?;
        let whole = sum.len() == SUM && sum.bytes().all(|b| b.is_ascii_hexdigit());
        whole.then(|| (key.trim().to_owned(), sum.to_owned()))
    };
    text.lines().filter_map(line).collect()
}

/// The same as a text, in the order of the keys.
pub fn write_looked_at(sums: &BTreeMap<String, String>) -> String {
    let mut out = include_str!("looked-at.txt").to_owned();
    for (key, sum) in sums {
        // Writing to a string cannot fail.
        let _ = writeln!(out, "{sum} {key}");
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    fn sums(text: &str) -> Vec<(String, String)> {
        followed_texts([("a.ftl", text)]).into_iter().map(|it| (it.key(), it.sum)).collect()
    }

    #[test]
    fn comments_and_order_change_no_sum_and_words_do() {
        let first = sums("# one\na = Wire { $x }\n    .the = the wire\nb = Fuse\n");
        assert_eq!(first.len(), 2);
        let mut other = sums("b =   Fuse\n# two\na = Wire { $x }\n  .the = the wire\n");
        other.reverse();
        assert_eq!(first, other);
        let changed = sums("a = Wire { $x }\n    .the = a wire\nb = Fuse\n");
        assert_ne!(first.first(), changed.first());
        assert_eq!(first.last(), changed.last());
    }

    #[test]
    fn sums_are_read_as_they_are_written() {
        let texts = followed_texts([("front.md", "# A\n\nText.\n"), ("a.ftl", "b = Fuse\n")]);
        let sums: BTreeMap<_, _> = texts.iter().map(|it| (it.key(), it.sum.clone())).collect();
        assert_eq!(read_looked_at(&write_looked_at(&sums)), sums);
        assert!(read_looked_at("nonsense\n1234 b\n").is_empty());
        let place = texts.last().map(|it| it.place.clone());
        assert_eq!(place, Some(0..1));
    }
}
