//! What a change sheet is about: two boards and the jobs on them.

use super::printed::Printed;
use crate::board::Board;
use crate::compare::{Changes, JobFate};
use crate::decide::mistakes::PlannedCase;
use crate::mark::Mark;

/// What a change sheet is about.
#[derive(Clone, Copy, Debug)]
pub struct ChangeSheet<'a> {
    /// The old board.
    pub old: &'a Board,
    /// The new board.
    pub new: &'a Board,
    /// The content marks of their sheets.
    pub marks: [Mark; 2],
    /// What differs.
    pub changes: &'a Changes,
    /// The jobs that were planned on both.
    pub jobs: &'a [SheetJob<'a>],
    /// What stands on which page of the new board's wiring sheets; `None` if they cannot be made.
    pub printed: Option<&'a Printed>,
}

/// A job of a change sheet.
#[derive(Clone, Debug)]
pub struct SheetJob<'a> {
    /// Its name.
    pub name: &'a str,
    /// What becomes of it.
    pub fate: &'a JobFate,
    /// The job on the new board; `None` if it is refused there.
    pub case: Option<PlannedCase<'a>>,
    /// What refuses it there: codes and messages, which are English.
    pub errors: Vec<(&'static str, String)>,
}
