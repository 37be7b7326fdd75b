//! `lidsheet build`

use std::num::NonZeroUsize;
use std::path::PathBuf;

use clap::ValueEnum;

use super::Status;
use super::check::{boards_and_jobs, count, judge};
use super::terminal::Terminal;
use crate::build::{self, FileKind, Order, Outcome, Report};
use crate::page::Paper;
use crate::source::Sources;

/// Compile every board and every job under the paths into sheets
///
/// A file's sheets lie in a folder named after it. The board `specs/heron-8.yaml` gives
/// `out/heron-8/wiring-sheets.pdf`, `intake-form.pdf` and each figure as a separate SVG file; the
/// job `specs/jobs/2231.yaml` gives `out/2231/work-card.pdf`, `lid-insert.pdf` and the board plan as
/// an SVG file. `out/index.html` lists all sheets. Only what changed is written. What is refused
/// leaves the sheets of its last good build as they are.
#[derive(Debug, clap::Args)]
#[command(after_help = "\
Examples:
  lidsheet build
  lidsheet build specs/heron-8.yaml --paper letter
  lidsheet build specs/jobs/2231.yaml --paper a5
  lidsheet build boards --out /tmp/sheets --deny-warnings")]
pub struct Args {
    /// Specifications, and folders to search for them
    #[arg(default_value = "specs", value_name = "PATH")]
    paths: Vec<PathBuf>,

    /// The folder that sheets go to
    #[arg(long, default_value = "out", value_name = "DIR")]
    out: PathBuf,

    /// The paper that sheets are made for
    #[arg(long, value_enum, default_value_t = PaperName::A4)]
    paper: PaperName,

    /// A folder with templates of your own, in place of those of the same name
    #[arg(long, value_name = "DIR")]
    templates: Option<PathBuf>,

    /// How many boards are compiled at once [default: the number of processor cores]
    #[arg(long, value_name = "N")]
    threads: Option<NonZeroUsize>,

    /// Let warnings fail, too; sheets are made all the same
    #[arg(long)]
    deny_warnings: bool,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum PaperName {
    A4,
    A5,
    Letter,
}

impl From<PaperName> for Paper {
    fn from(name: PaperName) -> Self {
        match name {
            PaperName::A4 => Paper::A4,
            PaperName::A5 => Paper::A5,
            PaperName::Letter => Paper::Letter,
        }
    }
}

pub fn run(args: &Args, terminal: &Terminal) -> Status {
    let order = Order {
        paths: args.paths.clone(),
        out: args.out.clone(),
        paper: args.paper.into(),
        templates: args.templates.clone(),
        threads: args.threads.map(NonZeroUsize::get),
    };
    let bar = terminal.bar();
    let report = build::run(&order, &|progress| bar.show(progress));
    bar.end();
    terminal.problems(&report.general, &Sources::default());
    for file in &report.files {
        terminal.problems(&file.problems, &file.sources);
    }
    let files = report.files.iter().map(|file| &file.problems);
    let status = judge(&report.general, files, args.deny_warnings);
    status.max(terminal.summary(&summary(&report)))
}

/// A line for each board and job, and one for all.
fn summary(report: &Report) -> String {
    let mut text = String::new();
    let (mut boards, mut jobs, mut refused, mut written, mut kept) = (0, 0, 0, 0, 0);
    for file in &report.files {
        match &file.outcome {
            Outcome::Made { placed, of } => {
                match of {
                    FileKind::Board => boards += 1,
                    FileKind::Job => jobs += 1,
                }
                written += placed.written.len();
                kept += placed.kept.len();
                for path in &placed.written {
                    text.push_str(&format!("wrote {path}\n"));
                }
                for path in &placed.stale {
                    text.push_str(&format!(
                        "note: {path} is from an earlier build; nothing makes it now\n"
                    ));
                }
            }
            Outcome::Refused => {
                refused += 1;
                text.push_str(&format!("refused {}\n", file.shown));
            }
        }
    }
    if let Some(index) = &report.index {
        written += index.written.len();
        kept += index.kept.len();
        for path in &index.written {
            text.push_str(&format!("wrote {path}\n"));
        }
    }
    text.push_str(&format!(
        "{} compiled, {} written, {} unchanged",
        boards_and_jobs(boards, jobs),
        count(written, "file"),
        kept
    ));
    if refused > 0 {
        text.push_str(&format!(
            "; {refused} refused, and what was there of them is left as it was"
        ));
    }
    text.push('\n');
    text
}
