//! `lidsheet handout`

use std::path::{Path, PathBuf};

use super::Status;
use super::build::PaperName;
use super::check::read_one;
use super::tag::language;
use super::terminal::Terminal;
use super::verdict::{count, judge};
use crate::board::Board;
use crate::build::{self, Cards, HandoutMade, HandoutOrder};
use crate::compile::{Checked, Content};
use crate::diagnostic::Problems;
use crate::source::Sources;
use crate::words::Language;

/// Make the handout of a course in reading the sheets of a board, and its answers
///
/// The handout explains how to read the sheets, works one example, and asks questions about the
/// board, with room to write and empty figures to draw on. The answers say why, and which mistake
/// is behind each wrong answer. The board `specs/heron-8.yaml` gives
/// `out/heron-8/course-handout.pdf`, `course-answers.pdf` and with `--cards` also
/// `course-cards.pdf`. The same seed gives the same exercises.
#[derive(Debug, clap::Args)]
#[command(after_help = "\
Examples:
  lidsheet handout specs/heron-8.yaml --exercises 14 --seed 1
  lidsheet handout specs/heron-8.yaml --exercises 24 --seed 2 --cards --paper letter")]
pub struct Args {
    /// The specification of a board; `-` is standard input, and the folder is then named after the
    /// board
    #[arg(value_name = "BOARD")]
    path: PathBuf,

    /// How many exercises; a small board may give fewer
    #[arg(long, value_name = "N", value_parser = exercises)]
    exercises: usize,

    /// The number that the exercises are made from; another number gives others
    #[arg(long, value_name = "S")]
    seed: u64,

    /// Print the exercises as cards, too, to be cut out: four to a page, or two on small paper
    #[arg(long)]
    cards: bool,

    /// The folder that sheets go to
    #[arg(long, default_value = "out", value_name = "DIR")]
    out: PathBuf,

    /// The paper that sheets are made for
    #[arg(long, value_enum, default_value_t = PaperName::A4)]
    paper: PaperName,

    /// The language of the sheets
    #[arg(long, default_value = "en", value_name = "LANGUAGE", value_parser = language)]
    language: &'static Language,

    /// A folder with templates of your own, in place of those of the same name
    #[arg(long, value_name = "DIR")]
    templates: Option<PathBuf>,
}

/// The most exercises that one handout holds.
const MOST: usize = 200;

fn exercises(text: &str) -> Result<usize, String> {
    match text.parse::<usize>() {
        Ok(0) => Err("a handout has at least one exercise".to_owned()),
        Ok(number) if number <= MOST => Ok(number),
        Ok(_) => Err(format!("a handout has at most {MOST} exercises; take another seed for more")),
        Err(_) => Err(format!("this is a whole number from 1 to {MOST}")),
    }
}

pub fn run(args: &Args, terminal: &Terminal) -> Status {
    let mut general = Problems::default();
    let file = match read_one(&args.path, "name one", &mut general) {
        Ok(file) => file,
        Err(message) => return terminal.trouble(&message),
    };
    terminal.problems(&general, &Sources::default());
    let Some(mut checked) = file else { return judge(&general, [].into_iter(), false) };
    let board = match &checked.content {
        Content::Board(board) => board,
        Content::Job(_) => {
            return terminal.trouble("this is a job; name the specification of its board");
        }
        Content::Refused => {
            terminal.problems(&checked.problems, &checked.sources);
            return judge(&general, [&checked.problems].into_iter(), false);
        }
    };
    let name = board.about.name.clone();
    let order = HandoutOrder {
        exercises: args.exercises,
        seed: args.seed,
        cards: if args.cards { Cards::Printed } else { Cards::None },
        out: args.out.clone(),
        stem: stem(&args.path, board, &checked),
        input: input(&args.path, &checked),
        paper: args.paper.into(),
        language: args.language,
        templates: args.templates.clone(),
    };
    let report = build::handout(&mut checked, &order);
    terminal.problems(&report.general, &Sources::default());
    terminal.problems(&checked.problems, &checked.sources);
    let status = judge(&report.general, [&general, &checked.problems].into_iter(), false);
    let Some(made) = report.made else { return status };
    if made.exercises == 0 {
        terminal.say(&format!("error: {name} gives no exercises; nothing was written\n"));
        return status.max(Status::Errors);
    }
    if made.exercises < args.exercises {
        terminal.say(&format!(
            "note: {name} gives {} that differ, with {} asked for\n",
            count(made.exercises, "exercise"),
            args.exercises
        ));
    }
    status.max(terminal.summary(&summary(&made)))
}

/// The name of the board's folder: that of its file, as for its sheets.
fn stem(path: &Path, board: &Board, checked: &Checked) -> String {
    if path == Path::new("-") {
        return build::stem_of(board);
    }
    // A folder with one board in it was named, or the board itself.
    let shown = if path.is_dir() { Path::new(&checked.shown) } else { path };
    shown.file_stem().unwrap_or_default().to_string_lossy().into_owned()
}

/// The file of the board; `None` for standard input.
fn input(path: &Path, checked: &Checked) -> Option<PathBuf> {
    if path == Path::new("-") {
        return None;
    }
    Some(if path.is_dir() { PathBuf::from(&checked.shown) } else { path.to_owned() })
}

fn summary(made: &HandoutMade) -> String {
    let mut text = String::new();
    for path in &made.placed.written {
        text.push_str(&format!("wrote {path}\n"));
    }
    if let Some(path) = &made.older_cards {
        text.push_str(&format!(
            "note: {path} is from an earlier handout; its exercises can be others\n"
        ));
    }
    text.push_str(&format!(
        "{}, {} written, {} unchanged\n",
        count(made.exercises, "exercise"),
        count(made.placed.written.len(), "file"),
        made.placed.kept.len()
    ));
    text
}
