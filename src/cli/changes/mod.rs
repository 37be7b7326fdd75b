//! `lidsheet changes`

mod json;
mod text;
mod words;

use std::path::PathBuf;

use clap::ValueEnum;

use super::Status;
use super::json::ProblemJson;
use super::terminal::Terminal;
use crate::build::{Comparison, ComparisonOrder, Content, compare};
use crate::diagnostic::Problems;
use crate::source::Sources;

/// Show what differs between two boards, and what that means for their jobs
///
/// Two specifications are compared by what they say: order, comments and spelling make no difference.
/// Every job on the board is planned on both. For a job with other results, the steps at the control
/// box are shown, with the danger first if the old wiring is dangerous on the new board.
///
/// OLD is a file, or REV:path for a revision of a git checkout; the program `git` reads it. A file of
/// that name has priority. As with `diff`, the exit status is 0 if nothing differs, 1 if something
/// does, and 2 if a file cannot be read or has errors.
#[derive(Debug, clap::Args)]
#[command(after_help = "\
Examples:
  lidsheet changes old/heron-8.yaml specs/heron-8.yaml
  lidsheet changes HEAD~1:specs/heron-8.yaml specs/heron-8.yaml
  lidsheet changes v2:specs/heron-8.yaml specs/heron-8.yaml --jobs specs/jobs
  lidsheet changes old/heron-8.yaml specs/heron-8.yaml --format json")]
pub struct Args {
    /// The old board: a file, or REV:path of a git checkout
    #[arg(value_name = "OLD")]
    old: PathBuf,

    /// The new board
    #[arg(value_name = "NEW")]
    new: PathBuf,

    /// The folder of jobs [default: the folder `jobs` beside NEW]
    #[arg(long, value_name = "DIR")]
    jobs: Option<PathBuf>,

    /// How to write what differs
    #[arg(long, value_enum, default_value_t = Format::Text)]
    format: Format,
}

/// How the differences are written.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
enum Format {
    /// For people, with problems on standard error
    Text,
    /// For machines: one object on standard output, problems included
    Json,
}

pub fn run(args: &Args, terminal: &Terminal) -> Status {
    let order = ComparisonOrder { old: &args.old, new: &args.new, jobs: args.jobs.as_deref() };
    let found = compare(&order);
    for file in [&found.old, &found.new] {
        if matches!(file.content, Content::Job(_)) {
            let message = format!("{} is a job; name two boards", file.shown);
            return terminal.trouble(&message);
        }
    }
    let written = match args.format {
        Format::Json => terminal.json(&json::ChangesJson::new(&found, problems(&found))),
        Format::Text => {
            terminal.problems(&found.general, &Sources::default());
            for file in [&found.old, &found.new] {
                let mut errors = file.problems.clone();
                errors.retain(|problem| problem.code.severity().word() == "error");
                terminal.problems(&errors, &file.sources);
            }
            match text::text(&found) {
                Some(text) => terminal.result(&text),
                None => terminal.summary("nothing is compared: a board has errors\n"),
            }
        }
    };
    status(&found).max(written)
}

fn status(found: &Comparison) -> Status {
    match &found.changes {
        Some(_) if found.general.counts().0 > 0 => Status::Trouble,
        Some(changes) if changes.is_empty() => Status::Clean,
        Some(_) => Status::Errors,
        None => Status::Trouble,
    }
}

/// What is wrong with the boards and the folder of jobs. What is wrong with a job stands with it.
fn problems(found: &Comparison) -> Vec<ProblemJson> {
    let none = Sources::default();
    let files: [(&Problems, &Sources); 3] = [
        (&found.general, &none),
        (&found.old.problems, &found.old.sources),
        (&found.new.problems, &found.new.sources),
    ];
    files.into_iter().flat_map(|(problems, sources)| ProblemJson::all(problems, sources)).collect()
}
