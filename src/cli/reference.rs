//! `lidsheet reference` and `lidsheet schema`

use std::path::PathBuf;

use super::Status;
use super::terminal::Terminal;
use crate::build;
use crate::reference;
use crate::spec::language::board::BOARD;
use crate::spec::language::job::JOB;

/// Write the reference of the specification language: every key, word, table and code
///
/// It is Markdown, on standard output or, with its drawings, in a folder.
#[derive(Debug, clap::Args)]
#[command(after_help = "\
Examples:
  lidsheet reference | less
  lidsheet reference --out docs")]
pub struct Args {
    /// Write LANGUAGE.md and its drawings into this folder
    #[arg(long, value_name = "DIR")]
    out: Option<PathBuf>,
}

pub fn run(args: &Args, terminal: &Terminal) -> Status {
    let Some(folder) = &args.out else {
        return terminal.result(&reference::markdown("language-"));
    };
    match build::write_reference(folder) {
        Ok(placed) => terminal.summary(&written(&placed)),
        Err(problem) => terminal.prevented(*problem),
    }
}

/// A line for each file that was written.
pub fn written(placed: &build::Placed) -> String {
    placed.written.iter().map(|path| format!("wrote {path}\n")).collect()
}

/// Write the language as a JSON Schema (draft 2020-12), for editors
#[derive(Debug, clap::Args)]
#[command(after_help = "\
Examples:
  lidsheet schema board > lidsheet-board.schema.json
  lidsheet schema job > lidsheet-job.schema.json")]
pub struct SchemaArgs {
    /// What it is the schema of
    #[arg(value_enum)]
    of: Of,
}

#[derive(Clone, Copy, Debug, clap::ValueEnum)]
enum Of {
    /// The specification of a board
    Board,
    /// A job
    Job,
}

pub fn schema(args: &SchemaArgs, terminal: &Terminal) -> Status {
    let form = match args.of {
        Of::Board => &BOARD,
        Of::Job => &JOB,
    };
    terminal.result(&build::schema_text(form))
}
