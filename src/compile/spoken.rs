//! A board whose words are given by language.

use crate::board::{self, Board, SpokenBoard};
use crate::diagnostic::Problem;
use crate::source::Sources;
use crate::spec::Spec;

/// A board whose words are given by language.
#[derive(Clone, Debug)]
pub struct Spoken {
    /// What was read.
    spec: Spec,
    /// The board in each language but the first, by its tag.
    others: Vec<(String, Board)>,
}

impl Spoken {
    /// The board and what comes of it, if words are given by language.
    pub fn of(spec: Spec, checked: SpokenBoard) -> (Board, Option<Box<Self>>) {
        let SpokenBoard { board, others } = checked;
        let by_language = !spec.languages().is_empty();
        (board, by_language.then(|| Box::new(Self { spec, others })))
    }

    /// The boards in other languages than the first, by their tags.
    pub fn others(&self) -> &[(String, Board)] {
        &self.others
    }

    /// The board in the language of a tag; one without words of that language has them in the first that are
    /// given, marked.
    pub fn board_in(&self, tag: &str, sources: &Sources) -> Option<Board> {
        match self.others.iter().find(|(language, _)| language == tag) {
            Some((_, board)) => Some(board.clone()),
            None => board::in_other_language(&self.spec, tag, sources),
        }
    }

    /// What is to be told if no words are in the language of a tag.
    pub fn lacks(&self, tag: &str) -> Option<Problem> {
        board::lacks_language(&self.spec, tag)
    }
}
