//! `lidsheet start`

use std::path::PathBuf;

use super::Status;
use super::tag::language;
use super::terminal::Terminal;
use crate::build;
use crate::words::{LANGUAGES, Language};

/// Write a copy of the built-in templates to begin your own with
///
/// Beside the files lies a page, README.md, that lists them, the facts that they name and their macros.
/// Nothing that is there is overwritten. Build with the copy by `lidsheet build --templates DIR`.
#[derive(Debug, clap::Args)]
#[command(after_help = "\
Examples:
  lidsheet start --templates house
  lidsheet start --templates house --language de")]
pub struct Args {
    /// The folder that the templates go to: those of one language into it, of several each into a
    /// folder in it, such as `house/fr`
    #[arg(long, value_name = "DIR")]
    templates: PathBuf,

    /// The languages: `de`, or several as `en,fr` [default: all]
    #[arg(
        long = "language",
        value_name = "LANGUAGES",
        value_delimiter = ',',
        value_parser = language
    )]
    languages: Vec<&'static Language>,
}

pub fn run(args: &Args, terminal: &Terminal) -> Status {
    let mut languages = args.languages.clone();
    if languages.is_empty() {
        languages.extend(&LANGUAGES);
    }
    match build::start_templates(&args.templates, &languages) {
        Ok(placed) => {
            let lines = placed.written.iter().map(|path| format!("wrote {path}\n"));
            terminal.summary(&lines.collect::<String>())
        }
        Err(problem) => terminal.prevented(*problem),
    }
}
