//! `lidsheet build`

use std::collections::BTreeMap;
use std::num::NonZeroUsize;
use std::path::PathBuf;

use clap::ValueEnum;

use super::Status;
use super::stop::StopSignal;
use super::tag::language;
use super::terminal::Terminal;
use super::verdict::{boards_and_jobs, count, judge};
use crate::build::{self, Fate, FileKind, Order, Outcome, Progress, Report};
use crate::page::Paper;
use crate::source::Sources;
use crate::words::Language;
use crate::write::Dpi;

const WAITS: &str = "note: another program writes into this folder; waiting until it is done\n";

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

    /// The languages of the sheets: `en`, or several as `en,fr`; the sheets of each then lie in a folder of
    /// its own, such as `out/heron-8/fr`
    #[arg(
        long = "language",
        default_value = "en",
        value_name = "LANGUAGES",
        value_delimiter = ',',
        value_parser = language
    )]
    languages: Vec<&'static Language>,

    /// A folder with templates of your own, in place of those of the same name
    #[arg(long, value_name = "DIR")]
    templates: Option<PathBuf>,

    /// How many boards are compiled at once [default: the number of processor cores]
    #[arg(long, value_name = "N")]
    threads: Option<NonZeroUsize>,

    /// Let warnings fail, too; sheets are made all the same
    #[arg(long)]
    deny_warnings: bool,

    /// Delete what earlier builds wrote and no input makes any more, unless somebody changed it
    #[arg(long)]
    prune: bool,

    /// Write which output came of which inputs to this file: rules of Make, or JSON if its name ends in
    /// `.json`; also if the build fails
    #[arg(long, value_name = "FILE")]
    deps: Option<PathBuf>,

    /// Write each figure as a PNG picture, too, with so many dots to the inch: 150 for a web page, 300
    /// for print
    #[arg(long, value_name = "DPI", value_parser = dpi)]
    png: Option<Dpi>,

    /// Let outputs that no input makes any more fail, too
    #[arg(long)]
    deny_stale: bool,

    /// Make `out/field.html`, too: one file with the boards of this build that plans jobs on a phone, offline
    #[arg(long)]
    field_page: bool,
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

fn dpi(text: &str) -> Result<Dpi, String> {
    let [least, most] = Dpi::RANGE;
    let dots = text.parse().ok().and_then(Dpi::new);
    dots.ok_or_else(|| format!("this is a whole number from {least} to {most}"))
}

pub fn run(args: &Args, terminal: &Terminal) -> Status {
    let mut tags: Vec<&str> = args.languages.iter().map(|language| language.tag).collect();
    tags.sort_unstable();
    if let Some((twice, _)) = tags.iter().zip(tags.iter().skip(1)).find(|(a, b)| a == b) {
        return terminal.trouble(&format!("`--language` names `{twice}` twice"));
    }
    let order = Order {
        paths: args.paths.clone(),
        out: args.out.clone(),
        paper: args.paper.into(),
        languages: args.languages.clone(),
        templates: args.templates.clone(),
        threads: args.threads.map(NonZeroUsize::get),
        prune: args.prune,
        png: args.png,
        field_page: args.field_page,
    };
    let bar = terminal.bar("boards");
    let stop = StopSignal::watch();
    let shown = |progress| match progress {
        Progress::Waits => terminal.say(WAITS),
        Progress::Found(count) => bar.of(count),
        Progress::Done => bar.one_more(),
    };
    let report = build::run(&order, &shown, &|| stop.came().is_some());
    bar.end();
    let mut report = report;
    if let Some(path) = &args.deps
        && let Err(problem) = build::write_dependencies(&report, path)
    {
        report.general.error(*problem);
    }
    terminal.problems(&report.general, &Sources::default());
    for file in &report.files {
        terminal.problems(&file.problems, &file.sources);
    }
    let files = report.files.iter().map(|file| &file.problems);
    let status = judge(&report.general, files, args.deny_warnings);
    if report.field_page_left {
        let page = build::shown(&args.out.join("field.html"));
        terminal
            .say(&format!("note: {page} is from an earlier build; `--field-page` makes it anew\n"));
    }
    let stale = stale(&report);
    let left = stale.iter().any(|(_, fate)| *fate != Fate::Deleted);
    let denied = if args.deny_stale && left { Status::Errors } else { Status::Clean };
    let stopped = stop.came().filter(|_| report.stopped).unwrap_or(Status::Clean);
    status
        .max(denied)
        .max(stopped)
        .max(terminal.summary(&(stale_lines(&stale) + &summary(&report))))
}

/// Outputs that nothing makes any more, by their paths: those that the manifest knows, and drawings in
/// the folders of this build that look like some.
fn stale(report: &Report) -> BTreeMap<&str, Fate> {
    let made = report.files.iter().filter_map(|file| match &file.outcome {
        Outcome::Made { placed, .. } => Some(placed),
        Outcome::Refused | Outcome::Stopped => None,
    });
    let drawings = made.flat_map(|placed| &placed.stale).map(|path| (path.as_str(), Fate::Left));
    drawings.chain(report.stale.iter().map(|stale| (stale.path.as_str(), stale.fate))).collect()
}

fn stale_lines(stale: &BTreeMap<&str, Fate>) -> String {
    let line = |(path, fate): (&&str, &Fate)| match fate {
        Fate::Left => {
            format!("note: {path} is from an earlier build; nothing makes it now\n")
        }
        Fate::Deleted => format!("deleted {path}\n"),
        Fate::Changed => format!(
            "note: {path} is from an earlier build, and somebody changed it; it is not deleted\n"
        ),
    };
    stale.iter().map(line).collect()
}

/// A line for each board and job, and one for all.
fn summary(report: &Report) -> String {
    let mut text = String::new();
    let (mut boards, mut jobs, mut refused, mut left, mut written, mut kept) = (0, 0, 0, 0, 0, 0);
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
            }
            Outcome::Stopped => left += 1,
            Outcome::Refused => {
                refused += 1;
                text.push_str(&format!("refused {}\n", file.shown));
            }
        }
    }
    for placed in report.index.iter().chain(&report.field_page) {
        written += placed.written.len();
        kept += placed.kept.len();
        for path in &placed.written {
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
    if left > 0 {
        text.push_str(&format!("; stopped, and {} left as it was", count(left, "specification")));
    }
    text.push('\n');
    text
}
