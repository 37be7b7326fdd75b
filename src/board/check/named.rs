//! What the sentences of a specification name: ways, headers and other things with a code.

use std::collections::BTreeSet;

use super::super::Conductor;
use super::names::codes;
use crate::diagnostic::{Code, Problem, Problems};
use crate::source::Span;
use crate::spec::{Spec, way_range};

/// Words that a code follows: whatever stands behind them in capitals is one.
const BEFORE_A_CODE: [&str; 11] = [
    "header", "terminal", "fuse", "jumper", "link", "strap", "group", "bank", "lead", "socket",
    "plug",
];

/// Reports what `text` names and the board lacks; `place` finds a part of it in the file.
pub fn check(spec: &Spec, text: &str, place: &dyn Fn(&str) -> Span, problems: &mut Problems) {
    ways(spec, text, place, problems);
    things(spec, text, place, problems);
}

/// Reports `way 9 of S1` and `switch 9 of S1` where S1 has no way 9.
fn ways(spec: &Spec, text: &str, place: &dyn Fn(&str) -> Span, problems: &mut Problems) {
    for bank in &spec.switches.entries {
        let ways = bank.ways.entries.iter().filter_map(|w| way_range(&w.name.value));
        let Some(most) = ways.map(|(_, last)| last).max().filter(|_| bank.ways.whole) else {
            continue;
        };
        let of = format!(" of {}", bank.name.value);
        for (at, _) in text.match_indices(&of) {
            let after = text.get(at + of.len()..).and_then(|rest| rest.chars().next());
            if after.is_some_and(char::is_alphanumeric) {
                continue;
            }
            let before = text.get(..at).unwrap_or("");
            let digits = before.len() - before.trim_end_matches(|c: char| c.is_ascii_digit()).len();
            let (before, number) = before.split_at(before.len() - digits);
            let lowered = before.trim_end().to_lowercase();
            let named = ["way", "ways", "switch", "switches"].iter().any(|w| lowered.ends_with(w));
            let Some(number) = number.parse::<u32>().ok().filter(|_| named) else { continue };
            if number == 0 || number > u32::from(most) {
                let code = &bank.name.value;
                problems.error(
                    Problem::new(
                        Code::WayLacking,
                        place(&format!("{number}{of}")),
                        format!("switch bank {code} has no way {number}"),
                    )
                    .label("no such way")
                    .other(bank.name.span, format!("has ways 1 to {most}")),
                );
            }
        }
    }
}

/// Warns of a word that reads as a code of this board and is none: its letters are those of another
/// code and a number follows, or a word such as *header* stands before it.
fn things(spec: &Spec, text: &str, place: &dyn Fn(&str) -> Span, problems: &mut Problems) {
    let codes = codes(spec);
    // What could not be read may be what is named.
    if !whole(spec) {
        return;
    }
    let known: BTreeSet<&str> = codes.iter().map(|(_, _, name)| name.value.as_str()).collect();
    let numbered = |code: &&str| letters_and_number(code).is_some_and(|(_, number)| number);
    let letters: BTreeSet<&str> = known
        .iter()
        .filter(|code| numbered(code))
        .filter_map(|code| letters_and_number(code).map(|(letters, _)| letters))
        .collect();
    let mut told = BTreeSet::new();
    let mut before = "";
    for word in text.split_whitespace() {
        let called = before.trim_end_matches('s').to_lowercase();
        let called = BEFORE_A_CODE.iter().find(|word| **word == called);
        let inner = word.trim_matches(|c: char| !c.is_alphanumeric());
        before = if word.ends_with(inner) { inner } else { "" };
        let Some((start, number)) = letters_and_number(inner) else { continue };
        // Letters alone may be a word of their own: `socket USB`.
        let lettered = called.is_some_and(|word| matches!(*word, "terminal" | "group"));
        let reads_as_code = lettered || number && (called.is_some() || letters.contains(start));
        if !reads_as_code
            || known.contains(inner)
            || Conductor::parse(inner).is_some()
            || !told.insert(inner)
        {
            continue;
        }
        let message = match called {
            Some(what) => format!("a sentence names the {what} {inner}, which the board lacks"),
            None => format!("a sentence names {inner}, which is nothing on this board"),
        };
        let mut problem = Problem::new(Code::NamedInProse, place(inner), message)
            .label("no code of this board")
            .note("who follows the sentence looks for it in vain, or takes another one for it");
        problem = problem.nearest(inner, known.iter().copied());
        if problem.help.is_none() {
            let same: Vec<&str> = known
                .iter()
                .copied()
                .filter(|code| letters_and_number(code).is_some_and(|(l, _)| l == start))
                .collect();
            if !same.is_empty() && same.len() <= 12 {
                problem = problem.help(format!("the board has {}", same.join(", ")));
            }
        }
        problems.warning(problem);
    }
}

/// Whether all things with codes could be read.
fn whole(spec: &Spec) -> bool {
    spec.terminals.whole
        && spec.links.whole
        && spec.groups.whole
        && spec.jumpers.whole
        && spec.fuses.whole
        && spec.headers.whole
        && spec.switches.whole
}

/// One to three capitals and up to three digits: the capitals, and whether a number follows.
fn letters_and_number(word: &str) -> Option<(&str, bool)> {
    let letters = word.trim_end_matches(|c: char| c.is_ascii_digit());
    let capitals = letters.chars().all(|c| c.is_ascii_uppercase());
    let digits = word.len() - letters.len();
    (capitals && (1..=3).contains(&letters.len()) && digits <= 3).then_some((letters, digits > 0))
}
