//! The fault finder of a board or of a job: from what is noticed to what to check. It has sheets of its
//! own: wiring is read on the day a box is wired, faults are looked for on another.

use super::compose::{Material, compose};
use super::facts;
use super::insert::SoundJob;
use super::templates::Templates;
use crate::board::Board;
use crate::diagnostic::{Problems, Reported};
use crate::document::{Density, Document};
use crate::mark::Mark;
use crate::meaning;

/// The fault finder of a board; `None` for one of which no job can be planned whose plates suit it.
///
/// # Errors
/// A template that cannot be filled, or that holds what a sheet cannot hold.
pub fn board_fault_finder(
    board: &Board,
    templates: &Templates,
    problems: &mut Problems,
) -> Result<Option<Document>, Reported> {
    let Some(facts) = facts::facts_of_board_faults(templates.words(), board) else {
        return Ok(None);
    };
    let mark = templates.mark(&[&meaning::of_board(board)]);
    composed(board, &facts, mark, templates, problems).map(Some)
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
    composed(job.case.board, &facts, templates.mark_of_job(&job.case), templates, problems)
}

fn composed(
    board: &Board,
    facts: &minijinja::Value,
    mark: Mark,
    templates: &Templates,
    problems: &mut Problems,
) -> Result<Document, Reported> {
    let material = Material {
        board,
        words: templates.words(),
        cautions: templates.own_cautions(),
        templates: templates.named("fault-finder"),
        facts,
        figures: &[],
        prose: &|_| None,
        pieces: &[],
        mark,
        density: Density::Reach,
    };
    compose(&material, problems)
}
