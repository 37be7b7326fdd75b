//! The intake form: a page to fill in at the tub with what a job file of this board needs.

use super::board_facts::BoardFacts;
use super::compose::{Material, compose};
use super::facts;
use super::templates::Templates;
use crate::board::Board;
use crate::diagnostic::{Problems, Reported};
use crate::document::{Density, Document};

/// The form for a board whose specification lies in a file of the name `file`.
///
/// # Errors
/// A template that cannot be filled, or that holds what a sheet cannot hold.
pub fn intake_form(
    board: &Board,
    file: &str,
    templates: &Templates,
    problems: &mut Problems,
) -> Result<Document, Reported> {
    intake_form_of(&BoardFacts::new(board, templates), file, problems)
}

/// The same of a board whose facts are gathered.
///
/// # Errors
/// As [`intake_form`].
pub fn intake_form_of(
    known: &BoardFacts<'_>,
    file: &str,
    problems: &mut Problems,
) -> Result<Document, Reported> {
    let &BoardFacts { board, templates, ref bare, mark } = known;
    let facts = facts::facts_of_intake(bare.clone(), templates.words(), board, file);
    compose(&Material::new(board, templates, "intake", &facts, mark, Density::Close), problems)
}
