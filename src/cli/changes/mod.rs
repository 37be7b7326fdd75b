//! `lidsheet changes`

mod json;
mod text;
mod words;

use std::path::PathBuf;

use super::Status;
use super::build::PaperName;
use super::json::ResultFormat;
use super::tag::language;
use super::terminal::Terminal;
use crate::build::{
    ChangeSheetOrder, ChangeSheetReport, Comparison, ComparisonOrder, compare, write_change_sheet,
};
use crate::compile::Content;
use crate::diagnostic::Problems;
use crate::report::ProblemJson;
use crate::source::Sources;
use crate::words::Language;

/// Show what differs between two boards, and what that means for their jobs
///
/// Two specifications are compared by what they say: order, comments and spelling make no difference.
/// Every job on the board is planned on both. For a job with other results, the steps at the control
/// box are shown, with the danger first if the old wiring is dangerous on the new board. The steps begin
/// with the new board as it is shipped.
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
  lidsheet changes old/heron-8.yaml specs/heron-8.yaml --out out/changes
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

    /// Write change-sheet.pdf into this folder, too
    #[arg(long, value_name = "DIR")]
    out: Option<PathBuf>,

    /// The paper of the change sheet
    #[arg(long, value_enum, default_value_t = PaperName::A4, requires = "out")]
    paper: PaperName,

    /// The language of the change sheet
    #[arg(long, default_value = "en", value_name = "LANGUAGE", value_parser = language, requires = "out")]
    language: &'static Language,

    /// A folder with templates of your own, in place of those of the same name
    #[arg(long, value_name = "DIR", requires = "out")]
    templates: Option<PathBuf>,

    /// How to write what differs
    #[arg(long, value_enum, default_value_t = ResultFormat::Text)]
    format: ResultFormat,
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
    let sheet = match &args.out {
        Some(out) => {
            let (paper, templates) = (args.paper.into(), args.templates.as_deref());
            write_change_sheet(
                &found,
                &ChangeSheetOrder {
                    out,
                    paper,
                    language: args.language,
                    templates,
                    input: &args.new,
                },
            )
        }
        None => ChangeSheetReport::default(),
    };
    let written = match args.format {
        ResultFormat::Json => {
            terminal.json(&json::ChangesJson::new(&found, problems(&found, &sheet)))
        }
        ResultFormat::Text => {
            terminal.problems(&found.general, &Sources::default());
            terminal.problems(&sheet.problems, &sheet.sources);
            for file in [&found.old, &found.new] {
                let mut errors = file.problems.clone();
                errors.retain(|problem| problem.code.severity().word() == "error");
                terminal.problems(&errors, &file.sources);
            }
            match text::text(&found) {
                Some(text) => terminal.result(&(text + &wrote(&sheet))),
                None => terminal.summary("nothing is compared: a board has errors\n"),
            }
        }
    };
    let made = if sheet.problems.counts().0 > 0 { Status::Trouble } else { Status::Clean };
    status(&found).max(made).max(written)
}

/// A line for the sheet that was written, or was there already as it is.
fn wrote(sheet: &ChangeSheetReport) -> String {
    let lines = sheet.placed.iter().flat_map(|placed| {
        let written = placed.written.iter().map(|path| format!("\nwrote {path}\n"));
        written.chain(placed.kept.iter().map(|path| format!("\nunchanged {path}\n")))
    });
    lines.collect()
}

fn status(found: &Comparison) -> Status {
    match found.differs() {
        Some(_) if found.general.counts().0 > 0 => Status::Trouble,
        Some(false) => Status::Clean,
        Some(true) => Status::Errors,
        None => Status::Trouble,
    }
}

/// What is wrong with the boards and the folder of jobs. What is wrong with a job stands with it.
fn problems(found: &Comparison, sheet: &ChangeSheetReport) -> Vec<ProblemJson> {
    let none = Sources::default();
    let files: [(&Problems, &Sources); 4] = [
        (&found.general, &none),
        (&sheet.problems, &sheet.sources),
        (&found.old.problems, &found.old.sources),
        (&found.new.problems, &found.new.sources),
    ];
    files.into_iter().flat_map(|(problems, sources)| ProblemJson::all(problems, sources)).collect()
}
