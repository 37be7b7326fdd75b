//! Content marks: another for each change of meaning, the same for each change of form.

use std::collections::BTreeSet;

use lidsheet::board::Board;
use lidsheet::diagnostic::Severity;
use lidsheet::mark::{Contents, Edition, Mark};
use lidsheet::meaning;
use lidsheet::spec;
use proptest::prelude::*;

use crate::compile::{self, compile};
use crate::generate::specimen::Dice;
use crate::generate::{self};

/// The sound board of a text.
fn board_of(text: &str) -> Option<Board> {
    let found = compile(text);
    let sound = found.problems.iter().all(|problem| problem.code.severity() != Severity::Error);
    found.board.filter(|_| sound)
}

fn mark(board: &Board) -> Mark {
    let said = [meaning::of_board(board).lines()];
    Mark::of(&Contents { said: &said, language: "en", edition: &Edition::of(["a template"]) })
}

/// The canonical text of a board in another form: comments, quotes, the things of each section in
/// another order.
pub fn in_another_form(text: &str, dice: &mut Dice) -> String {
    // Rows of layouts and switches are lists, whose order is their own.
    let loose =
        ["terminals", "links", "groups", "jumpers", "fuses", "sockets", "headers", "panels"];
    let mut out = String::from("# A comment.\n");
    let mut waiting: Vec<String> = Vec::new();
    let mut is_loose = false;
    for line in text.lines().chain(["end:"]) {
        if line.starts_with("  ") && is_loose {
            let at = dice.roll(waiting.len() as u64 + 1) as usize;
            waiting.insert(at, format!("  {line}   # on the board\n"));
            continue;
        }
        waiting.drain(..).for_each(|line| out.push_str(&line));
        is_loose = loose.iter().any(|name| line == format!("{name}:"));
        if line != "end:" {
            out.push_str(line);
            out.push('\n');
        }
    }
    out
}

/// The text with one number or word of one line changed; `None` where the dice met neither.
fn mutated(text: &str, dice: &mut Dice) -> Option<String> {
    let mut places: Vec<(usize, usize)> = Vec::new();
    let bytes = text.as_bytes();
    let mut at = 0;
    while at < bytes.len() {
        let start = at;
        while at < bytes.len() && bytes[at].is_ascii_digit() {
            at += 1;
        }
        if at > start {
            places.push((start, at));
        }
        at = at.max(start + 1);
    }
    let words = ["up", "down", "left", "right", "true", "false", "on", "off", "A,", "B,", "B }"];
    let to = ["down", "up", "right", "left", "false", "true", "off", "on", "B,", "A,", "A }"];
    if dice.roll(2) == 0 {
        let (from, until) = *places.get(dice.roll(places.len().max(1) as u64) as usize)?;
        let number: u64 = text[from..until].parse().ok()?;
        return Some(format!("{}{}{}", &text[..from], number + 1, &text[until..]));
    }
    let which = dice.roll(words.len() as u64) as usize;
    let wanted = format!(" {}", words[which]);
    let found: Vec<usize> = text.match_indices(&wanted).map(|(at, _)| at).collect();
    let at = *found.get(dice.roll(found.len().max(1) as u64) as usize)?;
    Some(format!("{} {}{}", &text[..at], to[which], &text[at + wanted.len()..]))
}

proptest! {
    #![proptest_config(generate::cases(96))]

    /// The language has no mutation that a mark would not show, but for those that change no sheet.
    #[test]
    fn a_mark_tells_meanings_apart_and_nothing_else(text in generate::any_board(), seed in any::<u64>()) {
        let mut dice = Dice::new(seed);
        let spec = compile(&text).spec.expect("it can be read");
        let board = board_of(&text).expect("sound");
        let printed = spec::print(&spec);
        let form = in_another_form(&printed, &mut dice);
        let again = board_of(&form);
        prop_assert!(again.is_some(), "{}\n{form}", compile::told(&compile(&form).problems, &compile(&form).sources));
        prop_assert_eq!(mark(&again.expect("checked")), mark(&board));

        for _ in 0..24 {
            let Some(other) = mutated(&printed, &mut dice) else { continue };
            let Some(changed) = board_of(&other) else { continue };
            if mark(&changed) == mark(&board) {
                prop_assert_eq!(sheets(&changed), sheets(&board), "{}", &other);
            }
        }
    }
}

/// All words of the wiring sheets, as laid out without the plan.
fn sheets(board: &Board) -> String {
    use lidsheet::diagnostic::Problems;
    use lidsheet::page::Paper;
    use lidsheet::sheet::{self, Templates};
    use lidsheet::source::Sources;
    use lidsheet::text::Typesetter;
    let templates = Templates::built_in(&mut Sources::default());
    let figures = sheet::figures(board, templates.words(), &mut Typesetter::new(), Paper::A4);
    let mut problems = Problems::default();
    let document = sheet::wiring_sheets(board, &figures, &templates, Paper::A4, &mut problems);
    format!("{:?}", document.map(|document| document.blocks))
}

/// Every demo board and job has a mark of its own, and these are what this edition gives them on any
/// machine: a change of the way in which marks are made, without a change of a sheet, would make all
/// printed marks unknown.
#[test]
fn marks_of_the_demo_differ() {
    let mut all = BTreeSet::new();
    for name in compile::demo::BOARDS {
        assert!(all.insert(mark(&compile::demo::board(name)).to_string()), "{name}");
    }
    let version_1 = include_str!("../version-1/heron-8.yaml");
    let board = board_of(version_1).expect("sound");
    assert_snapshot!("marks__marks_of_a_board", mark(&board).to_string());
}

/// A revision, a title, a place and a jumper's group each give another mark; so do the language and the
/// edition.
#[test]
fn small_changes_of_meaning_give_another_mark() {
    let text = include_str!("../version-1/heron-8.yaml");
    let before = mark(&board_of(text).expect("sound"));
    for (from, to) in [
        ("revision: D", "revision: E"),
        ("title: Pump 1", "title: Pump one"),
        ("key: right", "key: left"),
        ("shipped: B", "shipped: A"),
        ("rating: 20 A", "rating: 15 A"),
    ] {
        assert!(text.contains(from), "{from}");
        let after = board_of(&text.replacen(from, to, 1)).expect(to);
        assert_ne!(mark(&after), before, "{to}");
    }
}
