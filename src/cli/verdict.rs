//! How a command ends, and how many things it met.

use super::Status;
use crate::diagnostic::{Code, Problem, Problems};

/// How a command ends that met these problems.
pub fn judge<'a>(
    general: &'a Problems,
    files: impl Iterator<Item = &'a Problems>,
    deny_warnings: bool,
) -> Status {
    let mut status = Status::Clean;
    for problems in std::iter::once(general).chain(files) {
        let trouble = |p: &Problem| {
            matches!(
                p.code,
                Code::FileUnread | Code::TableUnread | Code::NothingFound | Code::OutputUnwritten
            )
        };
        if problems.sorted().iter().any(trouble) {
            status = status.max(Status::Trouble);
        }
        let (errors, warnings) = problems.counts();
        if errors > 0 || (deny_warnings && warnings > 0) {
            status = status.max(Status::Errors);
        }
    }
    status
}

/// `3 boards`, `1 job`, `3 boards and 1 job`.
pub fn boards_and_jobs(boards: usize, jobs: usize) -> String {
    match (boards, jobs) {
        (_, 0) => count(boards, "board"),
        (0, _) => count(jobs, "job"),
        _ => format!("{} and {}", count(boards, "board"), count(jobs, "job")),
    }
}

/// `no errors`, `1 error`, `2 errors`.
pub fn count(number: usize, one: &str) -> String {
    match number {
        0 => format!("no {one}s"),
        1 => format!("1 {one}"),
        _ => format!("{number} {one}s"),
    }
}
