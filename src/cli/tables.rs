//! `lidsheet tables`

use std::path::PathBuf;

use clap::ValueEnum;
use clap::builder::PossibleValuesParser;
use serde::Serialize;
use serde::ser::{SerializeMap, Serializer};

use super::Status;
use super::check::read_one;
use super::terminal::Terminal;
use super::verdict::judge;
use crate::board::Board;
use crate::build;
use crate::compile::{Checked, Content, mark_of_board};
use crate::diagnostic::Problems;
use crate::report::ProblemJson;
use crate::source::Sources;
use crate::tables::{SCHEMA, Table, csv, kinds, tables};

/// Write the decision tables of a board as data
///
/// For parts lists and web pages: headers, groups and voltages by supply, layouts, services, settings
/// of the switches, heater allowances by breaker, and pins by cord. `--columns` tells what each column
/// holds. The same tables have the same columns for every board.
#[derive(Debug, clap::Args)]
#[command(after_help = "\
Examples:
  lidsheet tables --columns
  lidsheet tables specs/heron-8.yaml --format json
  lidsheet tables specs/heron-8.yaml --table pins
  lidsheet tables specs/heron-8.yaml --out out/heron-8/tables

CSV is that of RFC 4180 in UTF-8, with the names of the columns in the first line and CR LF at the
end of each. An empty cell means that there is none. A text that a spreadsheet would run as a
formula (it begins with `=`, `+`, `-` or `@`) gets an apostrophe before it, and so does one that
begins with an apostrophe: a program takes one apostrophe off. JSON holds the text as it is.")]
pub struct Args {
    /// The specification of a board; `-` is standard input
    #[arg(value_name = "BOARD", required_unless_present = "columns")]
    path: Option<PathBuf>,

    /// How to write the tables
    #[arg(long, value_enum, default_value_t = Format::Csv)]
    format: Format,

    /// One of the tables alone
    #[arg(long, value_name = "NAME", value_parser = names())]
    table: Option<String>,

    /// The folder that the tables go to: a CSV file for each, or `tables.json`. Without it they go to
    /// standard output, which takes one table as CSV
    #[arg(long, value_name = "DIR")]
    out: Option<PathBuf>,

    /// Tell what each column of each table holds instead
    #[arg(long, conflicts_with_all = ["path", "format", "table", "out"])]
    columns: bool,
}

fn names() -> PossibleValuesParser {
    PossibleValuesParser::new(kinds().map(|kind| kind.name))
}

/// How tables are written.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
enum Format {
    /// For spreadsheets and databases, with problems on standard error
    Csv,
    /// For programs: one object, problems included
    Json,
}

/// The tables of a board. All but the problems is null if the board has errors.
#[derive(Debug, Serialize)]
struct TablesJson<'a> {
    /// [`SCHEMA`].
    schema: u32,
    board: Option<&'a str>,
    part: Option<&'a str>,
    revision: Option<&'a str>,
    dated: Option<String>,
    /// The content mark of its English sheets.
    mark: Option<String>,
    tables: Option<Named<'a>>,
    problems: Vec<ProblemJson>,
}

/// Tables by their names, in their order.
#[derive(Debug)]
struct Named<'a>(&'a [Table]);

impl Serialize for Named<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut map = serializer.serialize_map(Some(self.0.len()))?;
        for table in self.0 {
            map.serialize_entry(table.kind.name, table)?;
        }
        map.end()
    }
}

pub fn run(args: &Args, terminal: &Terminal) -> Status {
    let path = match &args.path {
        Some(path) if !args.columns => path,
        _ => return terminal.result(&columns()),
    };
    let mut general = Problems::default();
    let file = match read_one(path, "name one board", &mut general) {
        Ok(file) => file,
        Err(message) => return terminal.trouble(&message),
    };
    let board = match file.as_ref().map(|file| &file.content) {
        Some(Content::Board(board)) => Some(&**board),
        Some(Content::Job(_)) => {
            return terminal.trouble("this is a job; name the specification of its board");
        }
        Some(Content::Refused) | None => None,
    };
    // Of a board that cannot be read this is told instead.
    let sound = board.is_some();
    if sound && args.format == Format::Csv && args.table.is_none() && args.out.is_none() {
        return terminal.trouble(
            "several tables do not go into one CSV; name one with `--table`, or with `--out` a \
             folder for all",
        );
    }
    let mut all: Vec<Table> = board.map(|board| tables(board).into()).unwrap_or_default();
    if let Some(name) = &args.table {
        all.retain(|table| table.kind.name == name);
    }
    let status = judge(&general, file.as_ref().map(|file| &file.problems).into_iter(), false);
    let written = match args.format {
        Format::Json => json(args, board, &all, (&general, file.as_ref()), terminal),
        Format::Csv => {
            terminal.problems(&general, &Sources::default());
            if let Some(file) = &file {
                terminal.problems(&file.problems, &file.sources);
            }
            match board {
                Some(_) => as_csv(args, &all, terminal),
                None => terminal.summary("the board is refused; no tables are written\n"),
            }
        }
    };
    status.max(written)
}

fn json(
    args: &Args,
    board: Option<&Board>,
    all: &[Table],
    (general, file): (&Problems, Option<&Checked>),
    terminal: &Terminal,
) -> Status {
    let mut problems = ProblemJson::all(general, &Sources::default());
    if let Some(file) = file {
        problems.extend(ProblemJson::all(&file.problems, &file.sources));
    }
    let about = board.map(|board| &board.about);
    let value = TablesJson {
        schema: SCHEMA,
        board: about.map(|about| about.name.as_str()),
        part: about.map(|about| about.part.as_str()),
        revision: about.map(|about| about.revision.as_str()),
        dated: about.map(|about| about.dated.to_string()),
        mark: board.map(|board| mark_of_board(board).to_string()),
        tables: board.map(|_| Named(all)),
        problems,
    };
    // A board that is refused has nothing to be kept in a folder.
    match (&args.out, board) {
        (Some(_), Some(_)) => match serde_json::to_string_pretty(&value) {
            Ok(text) => {
                place(args, vec![("tables.json".to_owned(), format!("{text}\n").into())], terminal)
            }
            Err(error) => terminal.trouble(&error.to_string()),
        },
        _ => terminal.json(&value),
    }
}

fn as_csv(args: &Args, all: &[Table], terminal: &Terminal) -> Status {
    let written: Result<Vec<(String, Vec<u8>)>, String> = all
        .iter()
        .map(|table| csv(table).map(|bytes| (format!("{}.csv", table.kind.name), bytes)))
        .collect();
    match written {
        Ok(files) if args.out.is_some() => place(args, files, terminal),
        Ok(files) => {
            let bytes = files.into_iter().flat_map(|(_, bytes)| bytes).collect();
            terminal.result(&String::from_utf8(bytes).unwrap_or_default())
        }
        Err(message) => terminal.trouble(&message),
    }
}

fn place(args: &Args, files: Vec<(String, Vec<u8>)>, terminal: &Terminal) -> Status {
    let Some(out) = &args.out else { return Status::Clean };
    match build::place_files(out, files) {
        Ok(placed) => {
            let lines = placed.written.iter().map(|path| format!("wrote {path}\n"));
            let (written, kept) = (placed.written.len(), placed.kept.len());
            let text: String = lines.collect();
            terminal.summary(&format!("{text}{written} written, {kept} unchanged\n"))
        }
        Err(problem) => terminal.prevented(*problem),
    }
}

/// What each column of each table holds, as Markdown.
fn columns() -> String {
    let mut text = String::new();
    for kind in kinds() {
        let separator = if text.is_empty() { "" } else { "\n" };
        text.push_str(&format!(
            "{separator}**{}**: each row is {}\n\n| column | holds | what it says |\n| --- | --- | --- |\n",
            kind.name,
            lower(kind.about.trim())
        ));
        for column in kind.columns {
            let optional = if column.optional { " or empty" } else { "" };
            let about = column.about.trim();
            text.push_str(&format!("| {} | {}{optional} | {about} |\n", column.name, column.kind));
        }
    }
    text
}

fn lower(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_lowercase().chain(letters).collect())
}
