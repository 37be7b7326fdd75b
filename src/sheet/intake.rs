//! The intake form: a page to fill in at the tub with what a job file of this board needs.

use super::compose::{Material, compose};
use super::facts;
use super::templates::Templates;
use crate::board::Board;
use crate::diagnostic::{Problems, Reported};
use crate::document::{Density, Document};
use crate::meaning;

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
    let facts = facts::facts_of_intake(templates.words(), board, file);
    let mark = templates.mark(&[&meaning::of_board(board)]);
    compose(&Material::new(board, templates, "intake", &facts, mark, Density::Close), problems)
}
