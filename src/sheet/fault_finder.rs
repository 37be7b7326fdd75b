//! The fault finder of a board or of a job: from what is noticed to what to check. It has sheets of its
//! own: wiring is read on the day a box is wired, faults are looked for on another.

use super::board_facts::BoardFacts;
use super::compose::{Material, compose};
use super::facts;
use super::insert::SoundJob;
use super::templates::Templates;
use crate::board::Board;
use crate::diagnostic::{Problems, Reported};
use crate::document::{Density, Document};

/// The template of both: a job is a fact that one of a board lacks.
const TEMPLATE: &str = "fault-finder";

/// The fault finder of a board; `None` for one of which no job can be planned whose plates suit it.
///
/// # Errors
/// A template that cannot be filled, or that holds what a sheet cannot hold.
pub fn board_fault_finder(
    board: &Board,
    templates: &Templates,
    problems: &mut Problems,
) -> Result<Option<Document>, Reported> {
    board_fault_finder_of(&BoardFacts::new(board, templates), problems)
}

/// The same of a board whose facts are gathered.
///
/// # Errors
/// As [`board_fault_finder`].
pub fn board_fault_finder_of(
    known: &BoardFacts<'_>,
    problems: &mut Problems,
) -> Result<Option<Document>, Reported> {
    let &BoardFacts { board, templates, ref bare, mark } = known;
    let Some(facts) = facts::facts_of_board_faults(bare.clone(), templates.words(), board) else {
        return Ok(None);
    };
    let material = Material::new(board, templates, TEMPLATE, &facts, mark, Density::Reach);
    compose(&material, problems).map(Some)
}

/// The fault finder of a job.
///
/// # Errors
/// As [`board_fault_finder`].
pub fn job_fault_finder(
    job: &SoundJob<'_>,
    templates: &Templates,
    problems: &mut Problems,
) -> Result<Document, Reported> {
    let facts = facts::facts_of_job_faults(templates.words(), &job.case, job.findings);
    let mark = templates.mark_of_job(&job.case);
    let material = Material::new(job.case.board, templates, TEMPLATE, &facts, mark, Density::Reach);
    compose(&material, problems)
}
