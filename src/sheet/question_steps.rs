//! The questions that find a layout number, one after the other, for a page that opens as it is answered.

use super::facts::setting;
use crate::board::{Board, Layout, LayoutEntry, LayoutNumber, Speeds};
use crate::decide::{Tree, questions};
use crate::document::{Block, Fold, Inline, ListKind};
use crate::english::capital;
use crate::words::Words;

/// The questions of a board, each answer leading to the next or to a layout number with what is plugged in
/// where; `None` if the board has no layouts.
pub fn question_steps(board: &Board, words: &Words) -> Option<Fold> {
    let questions = questions(board)?;
    let (blocks, folds) = step(board, words, &questions.tree);
    Some(Fold { summary: words.field_questions(), blocks, folds })
}

fn step(board: &Board, words: &Words, tree: &Tree) -> (Vec<Block>, Vec<Fold>) {
    match tree {
        Tree::Layout(number) => (layout_found(board, words, *number), Vec::new()),
        Tree::Ask { device, answers, .. } => {
            let question = capital(&words.question_about(*device));
            let answer = |(speeds, next): &(Speeds, Tree)| {
                let (blocks, folds) = step(board, words, next);
                Fold { summary: capital(&words.speeds_fitted(*speeds)), blocks, folds }
            };
            (vec![paragraph(Inline::Strong(question))], answers.iter().map(answer).collect())
        }
    }
}

/// The number, how it is set, and what it is the number of.
fn layout_found(board: &Board, words: &Words, number: LayoutNumber) -> Vec<Block> {
    let mut blocks = vec![paragraph(Inline::Strong(words.field_layout_found(&number.to_string())))];
    blocks.push(paragraph(Inline::Plain(entered(board, words, number))));
    let Some(layout) = board.layouts.iter().find(|layout| layout.number == number) else {
        return blocks;
    };
    blocks.push(paragraph(Inline::Plain(words.field_compare())));
    blocks.push(list(
        board
            .columns
            .iter()
            .zip(&layout.speeds)
            .map(|(device, speeds)| capital(&words.question_answered(*device, *speeds))),
    ));
    blocks.push(list(plugged(board, words, layout).into_iter()));
    blocks
}

/// How the number is set or entered.
fn entered(board: &Board, words: &Words, number: LayoutNumber) -> String {
    match (board.layout_entry(), setting(words, board, number)) {
        (LayoutEntry::Ways { bank, .. }, Some(positions)) => {
            words.field_enter_switches(&board[bank].code, &positions)
        }
        (LayoutEntry::Selector(id), Some(position)) => {
            words.field_enter_selector(&board[id].code, &position)
        }
        _ => words.field_enter_panel(),
    }
}

/// What every header drives, and which stay empty.
fn plugged(board: &Board, words: &Words, layout: &Layout) -> Vec<String> {
    let (mut lines, mut empty) = (Vec::new(), Vec::new());
    for id in board.header_ids() {
        let code = &board[id].code;
        match board.device_at(id, layout) {
            Some(device) => {
                let device = match board.speeds_at(layout, device) {
                    Some(speeds) => words.served_with_speeds(device, speeds),
                    None => words.device_noun(device),
                };
                lines.push(words.field_plugged(code, &device));
            }
            None => empty.push(code.clone()),
        }
    }
    if !empty.is_empty() {
        lines.push(words.field_unplugged(&words.commas(&empty)));
    }
    lines
}

fn paragraph(inline: Inline) -> Block {
    Block::Paragraph(vec![inline])
}

fn list(lines: impl Iterator<Item = String>) -> Block {
    let items = lines.map(|line| vec![paragraph(Inline::Plain(line))]).collect();
    Block::List { kind: ListKind::Bullets, items }
}
