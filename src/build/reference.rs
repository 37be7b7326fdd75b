//! The reference of the language as files, and files to begin with.

use std::path::Path;

use super::find::shown;
use super::output::{self, Placed};
use super::start::none_is_there;
use super::unwritten;
use crate::board;
use crate::compile::OutFile;
use crate::diagnostic::{Code, Problem, Problems};
use crate::figure;
use crate::reference::{self, Like, SAMPLES, Starter};
use crate::source::Sources;
use crate::spec;
use crate::spec::language::Form;
use crate::spec::language::board::BOARD;
use crate::spec::language::job::JOB;
use crate::text::Typesetter;
use crate::words::Words;
use crate::write;

/// The page of the reference.
const PAGE: &str = "LANGUAGE.md";
/// What the names of its drawings begin with.
const DRAWINGS: &str = "language-";
/// The schemas that editors read: of a board, of a job.
const SCHEMAS: [(&str, &Form); 2] =
    [("lidsheet-board.schema.json", &BOARD), ("lidsheet-job.schema.json", &JOB)];
/// Longest name of a board to begin with, characters.
const NAME: usize = 24;

/// The reference and its drawings.
pub fn reference_files() -> Vec<OutFile> {
    let page = OutFile { name: PAGE.to_owned(), bytes: reference::markdown(DRAWINGS).into_bytes() };
    let mut files = vec![page];
    let mut set = Typesetter::new();
    if let Some(board) = drawn_board() {
        for (name, scene) in figure::directions(&board, &Words::english(), &mut set) {
            let bytes = write::svg(&scene).into_bytes();
            files.push(OutFile { name: format!("{DRAWINGS}{name}.svg"), bytes });
        }
    }
    files
}

/// The plainest sample as a board; a test sees to it that it is one.
fn drawn_board() -> Option<board::Board> {
    let sample = SAMPLES.first()?;
    let mut sources = Sources::default();
    let file = sources.add(sample.name, sample.text);
    let mut problems = Problems::default();
    let no_table = &mut |_: &str| Err(String::new());
    let spec = spec::parse(file, &mut sources, no_table, &mut problems).ok()?;
    board::check(&spec, &sources, &mut problems).ok()
}

/// A schema as it is written: sorted, with a line feed at its end.
pub fn schema_text(form: &'static Form) -> String {
    // A tree of texts and numbers can always be written.
    let mut text = serde_json::to_string_pretty(&reference::schema(form)).unwrap_or_default();
    text.push('\n');
    text
}

/// Writes the reference and its drawings into a folder.
///
/// # Errors
/// A file that cannot be written.
pub fn write_reference(folder: &Path) -> Result<Placed, Box<Problem>> {
    output::place(folder, &reference_files()).map_err(|error| Box::new(unwritten(error)))
}

/// Writes a board and a job to begin with, and the schemas that editors read; `name` is that of the
/// board, perhaps behind that of a folder. Gives also the names of the board's and the job's file.
///
/// # Errors
/// A name that no file should have, a file that is there already, one that cannot be written.
pub fn start_specification(
    name: &Path,
    like: &Like,
) -> Result<(Placed, [String; 2]), Box<Problem>> {
    let beside = name.parent().filter(|folder| !folder.as_os_str().is_empty());
    let folder = beside.unwrap_or(Path::new("."));
    let stem = name.file_name().and_then(|stem| stem.to_str()).unwrap_or_default();
    let fits = stem.chars().count() <= NAME
        && stem.starts_with(|c: char| c.is_ascii_alphanumeric())
        && stem.chars().all(|c| c.is_ascii_alphanumeric() || matches!(c, '-' | '_' | ' '));
    if !fits {
        let message = "this is no name for a board".to_owned();
        let problem = Problem::of_file(Code::OutputUnwritten, shown(name), message);
        let help =
            format!("up to {NAME} letters from A to Z, digits, `-` and `_`, without an ending");
        return Err(Box::new(problem.help(help)));
    }
    let starters = reference::starter(like, stem, SCHEMAS.map(|(file, _)| file));
    let names = || {
        let inside =
            |file: &Starter| beside.map_or(file.file.clone().into(), |it| it.join(&file.file));
        starters.iter().map(move |file| shown(&inside(file)))
    };
    none_is_there(
        starters.iter().map(|file| folder.join(&file.file)),
        "give the board another name, or name another folder",
    )?;
    let mut all = names();
    let both = [all.next().unwrap_or_default(), all.next().unwrap_or_default()];
    let mut files: Vec<OutFile> = starters
        .iter()
        .map(|Starter { file, text }| OutFile { name: file.clone(), bytes: text.clone().into() })
        .collect();
    // A schema that is there belongs to whoever put it there.
    for (file, form) in SCHEMAS {
        if folder.join(file).symlink_metadata().is_err() {
            files.push(OutFile { name: file.to_owned(), bytes: schema_text(form).into_bytes() });
        }
    }
    let placed = output::place(folder, &files).map_err(|error| Box::new(unwritten(error)))?;
    Ok((placed, both))
}
