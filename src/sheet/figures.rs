//! The list of a board's drawings, made once for the sheets and for the separate SVG files.

use crate::board::{BankId, Board, SupplyId};
use crate::decide::questions;
use crate::figure;
use crate::geometry::Size;
use crate::scene::Scene;
use crate::text::Typesetter;
use crate::words::Words;

/// A drawing and the name that templates and files know it by.
#[derive(Clone, Debug)]
pub struct Figure {
    /// `board-plan`, `supply-1`, `questions-1`, `switches-1`, `sockets-1` …
    pub name: String,
    /// The drawing.
    pub scene: Scene,
}

/// Room for a caption under a drawing, mm.
const CAPTION: f64 = 10.0;
/// Room above the first drawing of a section: its heading and the words before it, mm.
const OPENING: f64 = 34.0;

/// All drawings of the board, in the order of the sheets, for pages whose own words have `room`.
pub fn figures(board: &Board, words: &Words, set: &mut Typesetter, room: Size) -> Vec<Figure> {
    let mut all = Vec::new();
    let width = room.width;
    let mut add = |name: String, scene: Scene| all.push(Figure { name, scene });
    add("board-plan".to_owned(), figure::plan::board_plan(board, set, width).scene);
    for index in 0..board.supplies.len() {
        let scene = figure::supply_landing(board, SupplyId(index), words, set, width);
        add(format!("supply-{}", index + 1), scene);
    }
    if let Some(questions) = questions(board) {
        let height = (room.height - CAPTION).min(230.0);
        let scenes = figure::question_tree(&questions.tree, words, set, width, height);
        for (index, scene) in scenes.into_iter().enumerate() {
            add(format!("questions-{}", index + 1), scene);
        }
    }
    for index in 0..board.banks.len() {
        let scene = figure::switch_bank(&board[BankId(index)], words, set, width);
        add(format!("switches-{}", index + 1), scene);
    }
    let height = (room.height - CAPTION - OPENING).min(200.0);
    let scenes = figure::socket_pages(board, words, set, width, height);
    for (index, scene) in scenes.into_iter().enumerate() {
        add(format!("sockets-{}", index + 1), scene);
    }
    all
}
