//! The layout matrix for a template.

use serde::Serialize;

use crate::board::{Board, Device, Speeds};
use crate::decide;
use crate::words::Words;

#[derive(Serialize)]
pub struct Layout {
    number: u8,
    /// One for each column: `–`, `1` or `2`.
    entries: Vec<&'static str>,
    /// How it is set: `1 off, 2 on`, or `A`; `None` where it is entered on a panel.
    set: Option<String>,
}

pub fn layouts(words: &Words, board: &Board) -> Vec<Layout> {
    board
        .layouts
        .iter()
        .map(|layout| Layout {
            number: layout.number.get(),
            entries: layout.speeds.iter().map(|speeds| entry(*speeds)).collect(),
            set: super::entry::setting(words, board, layout.number),
        })
        .collect()
}

fn entry(speeds: Speeds) -> &'static str {
    match speeds {
        Speeds::None => "\u{2013}",
        Speeds::One => "1",
        Speeds::Two => "2",
    }
}

/// Two layouts that differ in the circulation pump only.
#[derive(Serialize)]
pub struct Pair {
    without: u8,
    with: u8,
}

pub fn pairs(board: &Board) -> Vec<Pair> {
    let Some(column) = board.columns.iter().position(|device| *device == Device::Circulation)
    else {
        return Vec::new();
    };
    let others = |speeds: &[Speeds]| -> Vec<Speeds> {
        let mut rest = speeds.to_vec();
        if column < rest.len() {
            rest.remove(column);
        }
        rest
    };
    let mut found = Vec::new();
    for without in &board.layouts {
        for with in &board.layouts {
            let has = |layout: &crate::board::Layout| layout.speeds.get(column).copied();
            if has(without) == Some(Speeds::None)
                && has(with).is_some_and(|speeds| speeds != Speeds::None)
                && others(&without.speeds) == others(&with.speeds)
            {
                found.push(Pair { without: without.number.get(), with: with.number.get() });
            }
        }
    }
    found
}

#[derive(Serialize)]
pub struct Questions {
    worst: usize,
    average: String,
}

pub fn questions(words: &Words, board: &Board) -> Option<Questions> {
    let questions = decide::questions(board)?;
    Some(Questions { worst: questions.worst, average: words.shortest(questions.average(), 1) })
}
