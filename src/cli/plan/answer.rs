//! The quick question: which layouts of a board fit what is fitted, and which nearly do.

use serde::Serialize;

use super::super::Status;
use super::super::table::paragraph;
use super::super::terminal::Terminal;
use super::with::{short, words};
use super::{Format, Found};
use crate::board::{Board, LayoutNumber};
use crate::decide::{NEAREST, NearLayout, Wanted, but_for_circulation, fitting, nearest};
use crate::english::and;
use crate::job_problems::difference_words;
use crate::report::ProblemJson;

/// Answers for `board`; the status is 1 if no layout fits. Warnings of the board are left to
/// `check`.
pub fn run(
    board: &Board,
    wanted: &[Wanted],
    found: &Found<'_>,
    format: Format,
    terminal: &Terminal,
) -> Status {
    let fits = fitting(board, wanted);
    let near: Vec<NearLayout> = nearest(board, wanted, NEAREST + fits.len())
        .into_iter()
        .filter(|near| !near.differences.is_empty())
        .collect();
    let status = if fits.is_empty() { Status::Errors } else { Status::Clean };
    let written = match format {
        Format::Json => terminal.json(&Answer::new(Some(board), wanted, &fits, &near, found)),
        Format::Text => terminal.summary(&text(board, wanted, &fits, &near)),
    };
    status.max(written)
}

/// The same where the board has errors.
pub fn refused(
    wanted: &[Wanted],
    found: &Found<'_>,
    format: Format,
    terminal: &Terminal,
) -> Status {
    let written = match format {
        Format::Json => terminal.json(&Answer::new(None, wanted, &[], &[], found)),
        Format::Text => {
            found.tell(terminal);
            Status::Clean
        }
    };
    found.status().max(written)
}

fn text(board: &Board, wanted: &[Wanted], fits: &[LayoutNumber], near: &[NearLayout]) -> String {
    let fitted: Vec<String> = wanted.iter().map(|one| words(*one)).collect();
    let mut out = paragraph(&format!("{} with {}", board.about.name, and(&fitted)), 0);
    out.push('\n');
    if fits.is_empty() {
        out.push_str("No layout fits.\n");
    }
    for number in fits {
        out.push_str(&paragraph(&format!("Layout {number} fits."), 0));
        if let Some(other) = but_for_circulation(board, *number) {
            let same = format!(
                "Layout {other} is the same but for the circulation pump: be sure whether the tub \
                 has a dedicated one."
            );
            out.push_str(&paragraph(&same, 2));
        }
    }
    if !near.is_empty() {
        out.push_str("\nThe nearest others:\n");
    }
    for one in near {
        let differences: Vec<String> = one
            .differences
            .iter()
            .map(|difference| difference_words(wanted, *difference))
            .collect();
        let line = format!("layout {}: {}", one.layout, differences.join("; "));
        out.push_str(&paragraph(&line, 2));
    }
    out
}

#[derive(Serialize)]
struct Answer {
    board: Option<String>,
    with: Vec<String>,
    layouts: Vec<u8>,
    nearest: Vec<Near>,
    problems: Vec<ProblemJson>,
}

#[derive(Serialize)]
struct Near {
    layout: u8,
    differences: Vec<String>,
}

impl Answer {
    fn new(
        board: Option<&Board>,
        wanted: &[Wanted],
        fits: &[LayoutNumber],
        near: &[NearLayout],
        found: &Found<'_>,
    ) -> Self {
        Self {
            board: board.map(|board| board.about.name.clone()),
            with: wanted.iter().map(|one| short(*one)).collect(),
            layouts: fits.iter().map(|number| number.get()).collect(),
            nearest: near
                .iter()
                .map(|one| Near {
                    layout: one.layout.get(),
                    differences: one
                        .differences
                        .iter()
                        .map(|difference| difference_words(wanted, *difference))
                        .collect(),
                })
                .collect(),
            problems: found.json(),
        }
    }
}
