//! What may stand at a place of a file that is being written.
//!
//! A file that is being written is seldom whole. So a word of our own is put where the person writes,
//! and the file is read with it: what the language takes that word for is what belongs there. If the
//! file cannot be read because of what stands behind the place, all of that is left out.

use std::ops::Range;

use super::document::{Mark, What, marks};
use super::names::Names;
use crate::board::vocabulary;
use crate::diagnostic::Code;
use crate::reference::{default_of, value};
use crate::spec::language::{Form, Key, Kind, Thing, Words};
use crate::standards::conductors::Wire;

/// Something that may stand at a place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Proposal {
    /// The bytes that it takes the place of.
    pub replaces: Range<usize>,
    /// As it is written.
    pub text: String,
    /// What it says, in Markdown; may be empty.
    pub says: String,
    /// What it is.
    pub kind: ProposalKind,
}

/// What a proposal is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ProposalKind {
    /// A key of the language.
    Key,
    /// A word of the language.
    Word,
    /// A name that the board gives.
    Name,
}

/// Stands where the person writes; nobody gives a thing this name.
const WORD: &str = "qqcursorqq";

/// What may stand at byte `offset` of a text whose outermost map is of that form, in the order in which
/// the language has it. `names` are those of the board.
pub fn complete(text: &str, form: &'static Form, names: &Names, offset: usize) -> Vec<Proposal> {
    let word = word_at(text, offset);
    let (Some(before), Some(after)) = (text.get(..word.start), text.get(word.end..)) else {
        return Vec::new();
    };
    let closes = closing(before);
    let line_end = after.find('\n').unwrap_or(after.len());
    let rest_of_line = after.get(..line_end).unwrap_or("");
    // As a value and as a key, with what stands behind it and without.
    let readings = [
        format!("{before}{WORD}{after}"),
        format!("{before}{WORD}: {WORD}{after}"),
        format!("{before}{WORD}{}{}", rest_of_line, closing(&format!("{before}{rest_of_line}"))),
        format!("{before}{WORD}{closes}"),
        format!("{before}{WORD}: {WORD}{closes}"),
    ];
    let found = readings.iter().find_map(|reading| {
        let marks = marks(reading, form)?;
        belongs(&marks)
    });
    let Some(found) = found else { return Vec::new() };
    let mut all = match found {
        Belongs::Keys(form, there) => {
            let open = form.keys.iter().filter(|key| !there.contains(&key.name));
            open.map(of_key).collect()
        }
        Belongs::Value(kind) => of_kind(kind, names),
    };
    all.iter_mut().for_each(|proposal| proposal.replaces = word.clone());
    all
}

/// What belongs where the word was put.
enum Belongs {
    /// A key of a form that has these already.
    Keys(&'static Form, Vec<&'static str>),
    /// A value.
    Value(&'static Kind),
}

fn belongs(marks: &[Mark]) -> Option<Belongs> {
    let value = marks.iter().find_map(|mark| match mark.what {
        What::Value(kind) if mark.text == WORD => Some(Belongs::Value(kind)),
        _ => None,
    });
    value.or_else(|| {
        let strange = marks.iter().find_map(|mark| match mark.what {
            What::Strange(form) if mark.text == WORD => Some((form, mark)),
            _ => None,
        });
        let (form, mark) = strange?;
        let around = marks.iter().filter(|map| {
            let same = matches!(map.what, What::Map(of) if std::ptr::eq(of, form));
            same && map.range.start <= mark.range.start && mark.range.end <= map.range.end
        });
        let map = around.min_by_key(|map| map.range.len())?;
        let there = marks.iter().filter_map(|other| match other.what {
            What::Key(of, key) if std::ptr::eq(of, form) => {
                let inside = map.range.contains(&other.range.start);
                inside.then_some(key.name)
            }
            _ => None,
        });
        Some(Belongs::Keys(form, there.collect()))
    })
}

/// The word that a person writes at a byte: from what parts it from the text before up to what parts it
/// from the text behind.
fn word_at(text: &str, offset: usize) -> Range<usize> {
    let mut offset = offset.min(text.len());
    while !text.is_char_boundary(offset) {
        offset -= 1;
    }
    let before = text.get(..offset).unwrap_or("");
    let parts = |c: char| matches!(c, '\n' | '{' | '[' | ',');
    let start = before.rfind(parts).map_or(0, |at| at + 1);
    let line = before.get(start..).unwrap_or("");
    let value = line.rfind(": ").map_or(0, |at| at + 2);
    let rest = line.get(value..).unwrap_or("");
    let item = rest.trim_start().strip_prefix("- ").map_or(0, |it| rest.len() - it.len());
    let rest = rest.get(item..).unwrap_or("");
    let blanks = rest.len() - rest.trim_start().len();
    let start = start + value + item + blanks;
    let after = text.get(offset..).unwrap_or("");
    let end = after.find(['\n', '\r', '}', ']', ',', ':', '#']).unwrap_or(after.len());
    let end = after.get(..end).unwrap_or("").trim_end().len();
    start..offset + end
}

/// What closes the brackets that are open at the end of a text.
fn closing(before: &str) -> String {
    let mut open = Vec::new();
    for line in before.lines() {
        let mut quoted = None;
        for (at, char) in line.char_indices() {
            match (quoted, char) {
                (None, '#')
                    if line.get(..at).is_none_or(|it| it.is_empty() || it.ends_with(' ')) =>
                {
                    break;
                }
                (None, '"' | '\'') => quoted = Some(char),
                (Some(quote), char) if quote == char => quoted = None,
                (None, '{') => open.push('}'),
                (None, '[') => open.push(']'),
                (None, '}' | ']') => {
                    open.pop();
                }
                _ => {}
            }
        }
    }
    open.into_iter().rev().collect()
}

fn proposal(text: impl Into<String>, says: impl Into<String>, kind: ProposalKind) -> Proposal {
    Proposal { replaces: 0..0, text: text.into(), says: says.into(), kind }
}

fn of_key(key: &'static Key) -> Proposal {
    proposal(key.name, explained(key), ProposalKind::Key)
}

/// What a key says, in Markdown.
pub fn explained(key: &'static Key) -> String {
    let mut says = format!("{} *{}.*", key.says, value(&key.kind));
    match default_of(key) {
        None => says.push_str(" Required."),
        Some(without) => says.push_str(&format!(" Without it: {without}.")),
    }
    says
}

/// The values of a kind that can be listed.
fn of_kind(kind: &'static Kind, names: &Names) -> Vec<Proposal> {
    let words = |all: &[&str]| -> Vec<Proposal> {
        all.iter().map(|word| proposal(*word, "", ProposalKind::Word)).collect()
    };
    match kind {
        Kind::Version => words(&["1"]),
        Kind::Truth => words(&["true", "false"]),
        Kind::Side => words(&["up", "right", "down", "left"]),
        Kind::Speeds => words(&["0", "1", "2"]),
        Kind::Positions => words(&["off", "on"]),
        Kind::Exactly(word) => words(&[word]),
        Kind::System => words(&[
            "split-phase 120/240 V",
            "wye 120/208 V",
            "wye 230/400 V",
            "single-phase 120 V",
            "single-phase 230 V",
        ]),
        Kind::Wire => {
            Wire::words().into_iter().map(|wire| proposal(wire, "", ProposalKind::Word)).collect()
        }
        Kind::Word(list) => {
            let known = vocabulary(*list).into_iter();
            let mut all: Vec<Proposal> =
                known.map(|(word, says)| proposal(word, says, ProposalKind::Word)).collect();
            if matches!(list, Words::Device | Words::Fitted) {
                let own = names.of(Thing::Device);
                all.extend(own.map(|name| proposal(name, "", ProposalKind::Name)));
            }
            all
        }
        Kind::Name(things) => {
            let all = things.iter().flat_map(|thing| names.of(*thing));
            all.map(|name| proposal(name, "", ProposalKind::Name)).collect()
        }
        Kind::LayoutOrNone => {
            let numbers = names.layouts.iter().map(|it| proposal(it, "", ProposalKind::Name));
            numbers.chain(words(&["no layout"])).collect()
        }
        Kind::Code => {
            let warns = Code::ALL.iter().filter(|code| code.severity().word() == "warning");
            let page = |code: &Code| crate::diagnostic::page(*code).title;
            warns.map(|code| proposal(code.text(), page(code), ProposalKind::Word)).collect()
        }
        Kind::Either(kinds) => kinds.iter().flat_map(|kind| of_kind(kind, names)).collect(),
        _ => Vec::new(),
    }
}
