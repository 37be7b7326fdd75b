//! What a board says, gathered once for all of its sheets.

use minijinja::Value;

use super::facts;
use super::templates::Templates;
use crate::board::Board;
use crate::mark::Mark;
use crate::meaning;

/// A board, the templates of its sheets, and what these can name.
pub struct BoardFacts<'a> {
    /// The board.
    pub(super) board: &'a Board,
    /// The templates.
    pub(super) templates: &'a Templates,
    /// All that the board says.
    pub(super) bare: Value,
    /// The mark of its sheets.
    pub(super) mark: Mark,
}

impl<'a> BoardFacts<'a> {
    /// Gathers what a board says in the words of the templates.
    pub fn new(board: &'a Board, templates: &'a Templates) -> Self {
        let bare = facts::bare_facts(templates.words(), board);
        let mark = templates.mark(&[&meaning::of_board(board)]);
        Self { board, templates, bare, mark }
    }
}
