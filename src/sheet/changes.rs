//! The change sheet: what differs between two boards, and what to do at the boxes of their jobs.

use super::compared::ChangeSheet;
use super::compose::{Material, compose};
use super::facts;
use super::pictured::pictures;
use super::templates::Templates;
use crate::diagnostic::{Problems, Reported};
use crate::document::{Density, Document, Paper};
use crate::meaning;
use crate::text::Typesetter;

/// The change sheet of two boards.
///
/// # Errors
/// A template that cannot be filled, or that holds what a sheet cannot hold.
pub fn change_sheet(
    sheet: &ChangeSheet<'_>,
    set: &mut Typesetter,
    paper: Paper,
    templates: &Templates,
    problems: &mut Problems,
) -> Result<Document, Reported> {
    let both = [sheet.old, sheet.new].map(meaning::of_board);
    let facts = facts::facts_of_changes(templates.words(), sheet);
    let mark = templates.mark(&[&both[0], &both[1]]);
    let material = Material {
        figures: &pictures(sheet, templates.words(), set, paper),
        ..Material::new(sheet.new, templates, "changes", &facts, mark, Density::Close)
    };
    compose(&material, problems)
}
