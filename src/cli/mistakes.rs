//! `lidsheet mistakes`

use std::path::PathBuf;

use serde::Serialize;

use super::Status;
use super::check::read_one;
use super::json::ResultFormat;
use super::table::{columns, paragraph};
use super::terminal::Terminal;
use super::verdict::judge;
use crate::compile::{Checked, Content, PlannedJob};
use crate::decide::mistakes::{
    Consequence, Danger, Mistake, Observation, Pair, PlannedCase, State, consequences, pairs,
    unnoticed, worst,
};
use crate::diagnostic::Problems;
use crate::report::{ProblemJson, danger_word};
use crate::sheet::words;
use crate::source::Sources;
use crate::words::Words;

/// Show what comes of every single mistake in a job
///
/// From the job's plan every single mistake is made that a person can make: another layout number,
/// a jumper on another group, a plug in another header, a way the other way round, the supply landed
/// wrong, a cord wired wrong. Shown is what each of them does, what is dangerous and not noticed
/// first. A mistake that changes nothing is not shown.
#[derive(Debug, clap::Args)]
#[command(after_help = "\
Examples:
  lidsheet mistakes specs/jobs/2231.yaml
  lidsheet mistakes specs/jobs/2231.yaml --pairs
  lidsheet mistakes specs/jobs/2231.yaml --format json")]
pub struct Args {
    /// A job; `-` is standard input
    #[arg(value_name = "JOB")]
    path: PathBuf,

    /// Show pairs of mistakes instead that together do more or less than one by one
    #[arg(long)]
    pairs: bool,

    /// How to write what is found
    #[arg(long, value_enum, default_value_t = ResultFormat::Text)]
    format: ResultFormat,
}

/// Mistakes and what comes of them, in words.
#[derive(Debug, Serialize)]
struct Entry {
    mistakes: Vec<String>,
    danger: &'static str,
    noticed: bool,
    signs: Vec<String>,
    #[serde(skip)]
    class: Class,
}

#[derive(Debug, Serialize)]
struct List {
    job: Option<String>,
    board: Option<String>,
    list: Option<Vec<Entry>>,
    problems: Vec<ProblemJson>,
}

pub fn run(args: &Args, terminal: &Terminal) -> Status {
    let mut general = Problems::default();
    let file = match read_one(&args.path, "name one job", &mut general) {
        Ok(file) => file,
        Err(message) => return terminal.trouble(&message),
    };
    let file = file.as_ref();
    let planned = match file.map(|file| &file.content) {
        Some(Content::Board(_)) => return terminal.trouble("this is a board; name a job"),
        Some(Content::Job(planned)) => planned.as_deref(),
        Some(Content::Refused) | None => None,
    };
    let list = planned.and_then(|planned| {
        let case = PlannedCase::new(&planned.board, &planned.job, planned.plan.sound()?);
        Some(if args.pairs { of_pairs(&case, terminal) } else { of_single(&case) })
    });
    let written = match args.format {
        ResultFormat::Json => json(planned, list, &general, file, terminal),
        ResultFormat::Text => {
            terminal.problems(&general, &Sources::default());
            if let Some(file) = file {
                terminal.problems(&file.problems, &file.sources);
            }
            match (planned, &list) {
                (Some(planned), Some(list)) => terminal.result(&text(planned, list, args.pairs)),
                _ => terminal.summary("the job is refused; no mistakes are shown\n"),
            }
        }
    };
    judge(&general, file.map(|file| &file.problems).into_iter(), false).max(written)
}

fn json(
    planned: Option<&PlannedJob>,
    list: Option<Vec<Entry>>,
    general: &Problems,
    file: Option<&Checked>,
    terminal: &Terminal,
) -> Status {
    let mut problems = ProblemJson::all(general, &Sources::default());
    if let Some(file) = file {
        problems.extend(ProblemJson::all(&file.problems, &file.sources));
    }
    let value = List {
        job: planned.map(|planned| planned.job.name.clone()),
        board: planned.map(|planned| planned.board.about.name.clone()),
        list,
        problems,
    };
    terminal.json(&value)
}

fn of_single(planned: &PlannedCase<'_>) -> Vec<Entry> {
    let one = |found: Consequence| entry(planned, &[found.mistake], &found.state, &found.signs);
    consequences(planned).into_iter().map(one).collect()
}

fn of_pairs(planned: &PlannedCase<'_>, terminal: &Terminal) -> Vec<Entry> {
    let one = |pair: Pair| entry(planned, &pair.mistakes, &pair.state, &pair.signs);
    let bar = terminal.bar("mistakes");
    let found = pairs(planned, &mut |done, of| match done {
        0 => bar.of(of),
        _ => bar.one_more(),
    });
    bar.end();
    let mut all: Vec<Entry> = found.into_iter().map(one).collect();
    all.sort_by_key(|entry| entry.class);
    all
}

fn entry(
    planned: &PlannedCase<'_>,
    mistakes: &[Mistake],
    state: &State,
    signs: &[Observation],
) -> Entry {
    let danger = worst(signs);
    let noticed = !unnoticed(signs);
    let english = Words::english();
    Entry {
        mistakes: mistakes.iter().map(|it| words::mistake(&english, planned, *it)).collect(),
        danger: danger_word(danger),
        noticed,
        signs: signs.iter().map(|seen| words::observed(&english, planned, state, seen)).collect(),
        class: Class::of(danger, noticed),
    }
}

/// How the list is parted, in its order.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Class {
    Hidden,
    Deadly,
    Fire,
    Damage,
    Harmless,
}

impl Class {
    fn of(danger: Danger, noticed: bool) -> Self {
        match danger {
            Danger::None => Class::Harmless,
            _ if !noticed => Class::Hidden,
            Danger::Deadly => Class::Deadly,
            Danger::Fire => Class::Fire,
            Danger::Damage => Class::Damage,
        }
    }

    fn title(self) -> &'static str {
        match self {
            Class::Hidden => "Dangerous, but not seen in use",
            Class::Deadly => "Can kill",
            Class::Fire => "Can start a fire",
            Class::Damage => "Can break something",
            Class::Harmless => "Does no harm, but does not work as it should",
        }
    }
}

fn text(planned: &PlannedJob, list: &[Entry], pairs: bool) -> String {
    let (job, board) = (&planned.job.name, &planned.board.about.name);
    let what = match pairs {
        true => "pairs of mistakes that together do more or less than one by one",
        false => "single mistakes that change something",
    };
    let mut out = format!("Job {job} on {board}: {} {what}\n", list.len());
    let mut class = None;
    for entry in list {
        if class != Some(entry.class) {
            class = Some(entry.class);
            out.push_str(&format!("\n{}\n", entry.class.title().to_uppercase()));
        }
        out.push_str(&paragraph(
            &words::sentence(&Words::english(), &entry.mistakes.join("; and ")),
            2,
        ));
        for sign in &entry.signs {
            out.push_str(&columns("    - ", sign));
        }
        if entry.signs.is_empty() {
            out.push_str("    - nothing is wrong: the one makes up for the other\n");
        }
    }
    out.push_str("\nAll work on the box is done with the breaker locked off and tested. ");
    out.push_str("One trained\nperson does it; the local code and the nameplates come first.\n");
    out
}
