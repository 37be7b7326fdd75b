//! What a person would say of the plan over the phone: the words for those who cannot see it.

use super::components::moved;
use super::setup::{Setup, Show};
use crate::board::{Board, JumperId};
use crate::words::Words;

/// The title and the description of a plan.
pub fn describe(board: &Board, show: Show<'_>, words: &Words) -> (String, String) {
    match show {
        Show::Board => (words.board_plan_of(&board.about.name), whole_board(board, words)),
        Show::Job(setup) => (words.board_set_up(&board.about.name), set_up(board, setup, words)),
    }
}

fn whole_board(board: &Board, words: &Words) -> String {
    let counts = [
        (board.parts.len(), words.parts_counted(board.parts.len())),
        (board.headers.len(), words.headers_counted(board.headers.len())),
        (board.groups.len(), words.groups_counted(board.groups.len())),
        (board.jumpers.len(), words.jumpers_counted(board.jumpers.len())),
        (board.fuses.len(), words.fuses_counted(board.fuses.len())),
        (board.banks.len(), words.banks_counted(board.banks.len())),
    ];
    // What a board does not have is not spoken of.
    let counts: Vec<String> =
        counts.into_iter().filter(|(count, _)| *count > 0).map(|(_, words)| words).collect();
    let mut sentences = vec![words.board_plan_described(&board.about.name, &words.commas(&counts))];
    for jumper in &board.jumpers {
        sentences.push(words.jumper_stands(&jumper.code, &board[jumper.shipped].code, false));
        let others: Vec<String> = jumper
            .groups
            .iter()
            .filter(|group| **group != jumper.shipped)
            .map(|group| board[*group].code.clone())
            .collect();
        if !others.is_empty() {
            sentences.push(words.jumper_may_go(&words.commas(&others)));
        }
    }
    sentences.join(" ")
}

fn set_up(board: &Board, setup: &Setup, words: &Words) -> String {
    let mut sentences = vec![words.board_set_up_described(&board.about.name)];
    for header in board.header_ids() {
        let code = &board[header].code;
        sentences.push(match setup.device(header) {
            Some(device) => words.header_takes(code, device),
            None => words.header_stays_empty(code),
        });
    }
    for (index, jumper) in board.jumpers.iter().enumerate() {
        let id = JumperId(index);
        let group = &board[setup.group(board, id)].code;
        sentences.push(words.jumper_stands(&jumper.code, group, moved(board, setup, id)));
    }
    sentences.join(" ")
}
