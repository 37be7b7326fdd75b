//! `lidsheet plan`

mod answer;
mod text;
mod with;

use std::path::PathBuf;

use clap::ValueEnum;

use super::Status;
use super::check::read_one;
use super::terminal::Terminal;
use super::verdict::{count, judge};
use crate::compile::{Checked, Content, PlannedJob};
use crate::diagnostic::Problems;
use crate::report::{PlanJson, ProblemJson};
use crate::source::Sources;

/// Decide what a job asks for, and say why
///
/// A job names a board, what feeds it and what is fitted. Out come the layout number, what goes
/// where, jumpers, switches, pin orders, currents, breaker and supply run, each with its reason. A
/// job that cannot be wired soundly is refused: what is wrong is told, and no plan is shown.
#[derive(Debug, clap::Args)]
#[command(after_help = "\
Examples:
  lidsheet plan specs/jobs/2231.yaml
  lidsheet plan specs/jobs/2231.yaml --format json
  lidsheet plan - < specs/jobs/draft.yaml
  lidsheet plan specs/heron-8.yaml --with \"circulation, pump:2, pump:1, blower\"")]
pub struct Args {
    /// A job, or with `--with` a board; `-` is standard input, and a board is then sought from the
    /// present folder
    #[arg(value_name = "JOB")]
    path: PathBuf,

    /// Ask a board, without a job, which layouts fit these devices. `pump:2` is a jet pump with
    /// two speeds, `pump 1:2` one that must be pump 1; what is written without a number has one
    /// speed, but a pump needs its number. The status is 1 if none fits
    #[arg(long, value_name = "DEVICES")]
    with: Option<String>,

    /// How to write what is decided
    #[arg(long, value_enum, default_value_t = Format::Text)]
    format: Format,
}

/// How a plan is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
enum Format {
    /// For people: tables, with problems on standard error
    Text,
    /// For machines: one object on standard output, problems included
    Json,
}

pub fn run(args: &Args, terminal: &Terminal) -> Status {
    let mut general = Problems::default();
    let file = match read_one(&args.path, "name one", &mut general) {
        Ok(file) => file,
        Err(message) => return terminal.trouble(&message),
    };
    let file = file.as_ref();
    let found = Found { general: &general, file };
    let board = match file.map(|file| &file.content) {
        Some(Content::Board(board)) => Some(&**board),
        _ => None,
    };
    let wanted = match args.with.as_deref().map(|text| with::parse(text, board)).transpose() {
        Ok(wanted) => wanted,
        // Nobody knows the devices of a board that is refused.
        Err(_) if matches!(file.map(|file| &file.content), Some(Content::Refused)) => {
            Some(Vec::new())
        }
        Err(message) => return terminal.trouble(&message),
    };
    match (file.map(|file| &file.content), &wanted) {
        (Some(Content::Board(board)), Some(wanted)) => {
            answer::run(board, wanted, &found, args.format, terminal)
        }
        (Some(Content::Board(_)), None) => {
            terminal.trouble("this is a board; name a job, or say with `--with` what is installed")
        }
        (Some(Content::Job(_)), Some(_)) => {
            terminal.trouble("this is a job; `--with` asks a board, without a job")
        }
        (Some(Content::Job(planned)), None) => {
            show(planned.as_deref(), &found, args.format, terminal)
        }
        (Some(Content::Refused) | None, Some(wanted)) => {
            answer::refused(wanted, &found, args.format, terminal)
        }
        (Some(Content::Refused) | None, None) => show(None, &found, args.format, terminal),
    }
}

/// Shows what is decided for a job, unless something refuses it.
fn show(
    planned: Option<&PlannedJob>,
    found: &Found<'_>,
    format: Format,
    terminal: &Terminal,
) -> Status {
    let written = match format {
        Format::Json => terminal.json(&PlanJson::new(planned, found.json())),
        Format::Text => {
            found.tell(terminal);
            match planned.and_then(text::text) {
                Some(text) => terminal.summary(&text),
                None => terminal.summary(&refused(planned, found)),
            }
        }
    };
    found.status().max(written)
}

fn refused(planned: Option<&PlannedJob>, found: &Found<'_>) -> String {
    let what = match planned {
        Some(planned) => format!("job {}", planned.job.name),
        None => "the job".to_owned(),
    };
    format!("{what} is refused: {}; no plan is shown\n", count(found.errors(), "error"))
}

/// The file that was named, if it could be read, and what is wrong.
struct Found<'a> {
    general: &'a Problems,
    file: Option<&'a Checked>,
}

impl Found<'_> {
    fn tell(&self, terminal: &Terminal) {
        terminal.problems(self.general, &Sources::default());
        if let Some(file) = self.file {
            terminal.problems(&file.problems, &file.sources);
        }
    }

    fn json(&self) -> Vec<ProblemJson> {
        let mut all = ProblemJson::all(self.general, &Sources::default());
        if let Some(file) = self.file {
            all.extend(ProblemJson::all(&file.problems, &file.sources));
        }
        all
    }

    fn errors(&self) -> usize {
        let of_file = self.file.map_or(0, |file| file.problems.counts().0);
        self.general.counts().0 + of_file
    }

    fn status(&self) -> Status {
        judge(self.general, self.file.map(|file| &file.problems).into_iter(), false)
    }
}
