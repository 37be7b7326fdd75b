//! `lidsheet start`

use std::path::{Path, PathBuf};

use super::Status;
use super::reference::written;
use super::tag::language;
use super::terminal::Terminal;
use crate::build;
use crate::reference::{LIKE, Like};
use crate::words::{LANGUAGES, Language};

/// Write files to begin with: a board and a job of it, or a copy of the built-in templates
///
/// The board and the job are commented and can be built at once. The templates go into a folder of their
/// own, with a page, README.md, that lists them, the facts that they name and their macros; build with
/// them by `lidsheet build --templates DIR`. Nothing that is there is overwritten.
#[derive(Debug, clap::Args)]
#[command(after_help = "\
Examples:
  lidsheet start my-board
  lidsheet start boards/my-board --like heron-8
  lidsheet start --templates house
  lidsheet start --templates house --language de")]
pub struct Args {
    /// The name of the board, perhaps behind a folder: NAME.yaml and NAME-job.yaml are written
    #[arg(required_unless_present = "templates", conflicts_with = "templates")]
    name: Option<PathBuf>,

    /// What the board is like
    #[arg(long, value_name = "BOARD", value_parser = like, default_value = LIKE[0].name, conflicts_with = "templates")]
    like: &'static Like,

    /// The folder that the templates go to: those of one language into it, of several each into a
    /// folder in it, such as `house/fr`
    #[arg(long, value_name = "DIR")]
    templates: Option<PathBuf>,

    /// The languages of the templates: `de`, or several as `en,fr` [default: all]
    #[arg(
        long = "language",
        value_name = "LANGUAGES",
        value_delimiter = ',',
        value_parser = language,
        conflicts_with = "name"
    )]
    languages: Vec<&'static Language>,
}

/// A board to begin with something like.
fn like(name: &str) -> Result<&'static Like, String> {
    LIKE.iter().find(|like| like.name == name).ok_or_else(|| {
        let known: Vec<&str> = LIKE.iter().map(|like| like.name).collect();
        format!("it can be like {}", known.join(", "))
    })
}

pub fn run(args: &Args, terminal: &Terminal) -> Status {
    match (&args.name, &args.templates) {
        (Some(name), _) => board(name, args.like, terminal),
        (None, Some(folder)) => templates(folder, &args.languages, terminal),
        // The command line asks for one of the two.
        (None, None) => Status::Trouble,
    }
}

fn board(name: &Path, like: &Like, terminal: &Terminal) -> Status {
    match build::start_specification(name, like) {
        Ok((placed, [board, job])) => {
            let next = format!("next: lidsheet build {} {}\n", quoted(&board), quoted(&job));
            terminal.summary(&(written(&placed) + &next))
        }
        Err(problem) => terminal.prevented(*problem),
    }
}

/// A path as a shell takes it.
fn quoted(path: &str) -> String {
    if path.contains(' ') { format!("'{path}'") } else { path.to_owned() }
}

fn templates(folder: &Path, languages: &[&'static Language], terminal: &Terminal) -> Status {
    let mut languages = languages.to_vec();
    if languages.is_empty() {
        languages.extend(&LANGUAGES);
    }
    match build::start_templates(folder, &languages) {
        Ok(placed) => terminal.summary(&written(&placed)),
        Err(problem) => terminal.prevented(*problem),
    }
}
