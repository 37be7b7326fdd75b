//! `lidsheet check --mark`

use std::path::{Path, PathBuf};

use super::Status;
use super::terminal::Terminal;
use crate::build::{FileKind, MarkOwner, MarkSearch, owners_of_mark};
use crate::diagnostic::Problems;
use crate::mark::Mark;
use crate::source::Sources;

/// Tells whose sheets have the mark `text`, and whether they are today's.
pub fn run(
    text: &str,
    paths: &[PathBuf],
    (out, templates): (&Path, Option<&Path>),
    terminal: &Terminal,
) -> Status {
    let Some(mark) = Mark::parse(text) else {
        return terminal.trouble(&format!(
            "`{text}` is no mark: a mark is eight letters and digits in the foot of a page, such as \
             7F3A-94KD"
        ));
    };
    let mut general = Problems::default();
    let search = MarkSearch { paths, out, templates };
    let owners = match owners_of_mark(mark, search, &mut general) {
        Ok(owners) => owners,
        Err(why) => return terminal.trouble(&format!("the manifest cannot be used: {why}")),
    };
    terminal.problems(&general, &Sources::default());
    if general.failed().is_some() {
        return Status::Trouble;
    }
    let text = match owners.as_slice() {
        [] => format!("{mark}: no board and no job here has this mark, now or before.\n"),
        owners => owners.iter().map(|owner| told(mark, owner)).collect(),
    };
    let todays = owners.iter().any(|owner| owner.today == Some(mark));
    let status = if todays { Status::Clean } else { Status::Errors };
    status.max(terminal.result(&text))
}

fn told(mark: Mark, owner: &MarkOwner) -> String {
    let MarkOwner { file, kind, name, revision, today } = owner;
    let of = match kind {
        Some(FileKind::Board) => format!("board {name}, revision {revision}, {file}"),
        Some(FileKind::Job) => format!("job {name}, board of revision {revision}, {file}"),
        None => format!("{name}, revision {revision}, {file}"),
    };
    match today {
        Some(today) if *today == mark => format!("{mark}: today's sheets of {of}.\n"),
        Some(today) => format!(
            "{mark}: NOT TODAY'S. Earlier sheets of {of}.\n  Today's have the mark {today}. Do not work \
             by the earlier ones.\n"
        ),
        None => format!(
            "{mark}: NOT TODAY'S. Earlier sheets of {of}.\n  This file is gone or has errors now. Do \
             not work by them.\n"
        ),
    }
}
