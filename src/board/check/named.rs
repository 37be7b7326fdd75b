//! What the sentences of a specification name: ways, headers and other things with a code.

use std::collections::BTreeSet;

use super::super::Conductor;
use super::names::codes;
use crate::diagnostic::{Code, Problem, Problems};
use crate::source::Span;
use crate::spec::{Name, Spec, way_range};

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

/// Reports `way 9 of S1` and `switches 3 and 9 of S1` where S1 has no way 9, and warns of `switch 9`
/// where no bank has one.
fn ways(spec: &Spec, text: &str, place: &dyn Fn(&str) -> Span, problems: &mut Problems) {
    let banks: Vec<(&Name, u8)> = spec
        .switches
        .entries
        .iter()
        .filter_map(|bank| {
            let ways = bank.ways.entries.iter().filter_map(|w| way_range(&w.name.value));
            let most = ways.map(|(_, last)| last).max();
            most.filter(|_| bank.ways.whole).map(|most| (&bank.name, most))
        })
        .collect();
    // A bank that could not be read may be the one that is meant.
    let whole = spec.switches.whole && banks.len() == spec.switches.entries.len();
    let words: Vec<&str> = text.split_whitespace().collect();
    for start in 0..words.len() {
        let Some(named) = named_ways(&words, start) else { continue };
        let bank = named.bank.map(|code| banks.iter().find(|(name, _)| name.value == code));
        let most = match bank {
            // A bank that is not there is told with the other codes.
            Some(None) => continue,
            Some(Some((_, most))) => Some(*most),
            None => banks.iter().map(|(_, most)| *most).max().filter(|_| whole),
        };
        let Some(most) = most else { continue };
        let lacking = named.numbers.iter().find(|(_, n)| *n == 0 || *n > u32::from(most));
        let Some((at, number)) = lacking else { continue };
        let span = place(&words.get(*at..named.end).unwrap_or_default().join(" "));
        match bank.flatten() {
            Some((name, most)) => problems.error(
                Problem::new(
                    Code::WayLacking,
                    span,
                    format!("switch bank {} has no way {number}", name.value),
                )
                .label("no such way")
                .other(name.span, format!("has ways 1 to {most}")),
            ),
            None => {
                let message = format!("a sentence names switch {number}, but no bank has as many");
                let mut problem =
                    Problem::new(Code::NamedInProse, span, message).label("no such way");
                for (name, most) in &banks {
                    problem = problem.other(name.span, format!("has ways 1 to {most}"));
                }
                problems.warning(problem.note(IN_VAIN));
                continue;
            }
        };
    }
}

/// Why a wrong name matters.
const IN_VAIN: &str = "who follows the sentence looks for it in vain, or takes another one for it";

/// Ways that a sentence names: `switches 1-2 and 9 of S1`.
struct NamedWays<'t> {
    /// Each number with the index of its word.
    numbers: Vec<(usize, u32)>,
    /// The code behind `of`, if there is one.
    bank: Option<&'t str>,
    /// The first word behind.
    end: usize,
}

/// The ways that are named from the word at `start` on, which must be *switch* or *way*.
fn named_ways<'t>(words: &[&'t str], start: usize) -> Option<NamedWays<'t>> {
    let first = words.get(start)?.trim_start_matches(|c: char| !c.is_alphanumeric());
    let first = first.to_lowercase();
    if !matches!(first.as_str(), "way" | "ways" | "switch" | "switches") {
        return None;
    }
    let mut numbers = Vec::new();
    let mut at = start + 1;
    let mut sentence_ends = false;
    while let Some(word) = words.get(at).filter(|_| !sentence_ends) {
        let core = inner(word);
        let parts: Option<Vec<u32>> =
            core.split(['-', '\u{2013}']).map(|part| part.parse().ok()).collect();
        match parts {
            Some(parts) => {
                numbers.extend(parts.into_iter().map(|number| (at, number)));
                sentence_ends = word.ends_with(['.', ';', ':', '!', '?', ')']);
            }
            None if !numbers.is_empty() && matches!(*word, "and" | "or" | "to") => {}
            None => break,
        }
        at += 1;
    }
    let rest = words.get(at..).unwrap_or_default();
    let bank = match rest {
        ["of", code, ..] if !sentence_ends => Some(inner(code)),
        // A number with its unit: `switch 20 A`.
        [unit, ..] if !sentence_ends && matches!(inner(unit), "A" | "V" | "W" | "Hz") => {
            return None;
        }
        _ => None,
    };
    let (last, _) = numbers.last()?;
    let end = if bank.is_some() { at + 2 } else { last + 1 };
    Some(NamedWays { numbers, bank, end })
}

/// A word without what stands round it.
fn inner(word: &str) -> &str {
    word.trim_matches(|c: char| !c.is_alphanumeric())
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
        let inner = inner(word);
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
            .note(IN_VAIN);
        // What a sentence says is its writer's, and the sheets have it as it is.
        problem = problem.nearest(inner, known.iter().copied()).for_a_person();
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
        && spec.selectors.whole
}

/// One to three capitals and up to three digits: the capitals, and whether a number follows.
fn letters_and_number(word: &str) -> Option<(&str, bool)> {
    let letters = word.trim_end_matches(|c: char| c.is_ascii_digit());
    let capitals = letters.chars().all(|c| c.is_ascii_uppercase());
    let digits = word.len() - letters.len();
    (capitals && (1..=3).contains(&letters.len()) && digits <= 3).then_some((letters, digits > 0))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn numbers(text: &str) -> Option<(Vec<u32>, Option<&str>)> {
        let words: Vec<&str> = text.split_whitespace().collect();
        let named = (0..words.len()).find_map(|start| named_ways(&words, start))?;
        Some((named.numbers.iter().map(|(_, number)| *number).collect(), named.bank))
    }

    #[test]
    fn ways_are_read_in_the_ways_that_people_write_them() {
        assert_eq!(numbers("Set switch 8 of S1 to **on**."), Some((vec![8], Some("S1"))));
        assert_eq!(numbers("Put ways 1-2 and 9 of **S1** on."), Some((vec![1, 2, 9], Some("S1"))));
        assert_eq!(numbers("Leave switches 3, 4 or 5."), Some((vec![3, 4, 5], None)));
        // What begins the next sentence belongs to it.
        assert_eq!(numbers("Look at way 3. Of S1 the rest is off."), Some((vec![3], None)));
        assert_eq!(numbers("Look at way 3; 4 more are free."), Some((vec![3], None)));
        for none in
            ["The way 3 of them went.", "Switch it off.", "Switch 20 A breakers off.", "way"]
        {
            let found = numbers(none).filter(|(_, bank)| bank != &Some("them"));
            assert_eq!(found, None, "{none}");
        }
    }

    #[test]
    fn a_code_is_capitals_and_a_number() {
        for (word, found) in [
            ("J12", Some(("J", true))),
            ("TB1", Some(("TB", true))),
            ("X", Some(("X", false))),
            ("1J", None),
            ("j1", None),
            ("J1234", None),
            ("ABCD1", None),
            ("", None),
        ] {
            assert_eq!(letters_and_number(word), found, "{word}");
        }
    }
}
