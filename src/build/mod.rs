//! Which inputs, which outputs, what changed. Boards are compiled in parallel; what comes of them
//! is put together in the order of the inputs, so the same inputs give the same report and the
//! same bytes on any number of threads. Nothing here prints.

mod changes;
mod deps;
mod field_page;
mod find;
mod fix;
mod git;
mod handout;
mod index;
mod language;
mod manifest;
mod marks;
mod output;
mod own;
mod printed;
mod read;
mod reference;
mod run;
mod start;
mod state;

pub use changes::{
    ChangeSheetOrder, ChangeSheetReport, ComparedJob, Comparison, ComparisonOrder, PlannedOn,
    compare, write_change_sheet,
};
pub use find::{Input, find, shown};
pub use fix::{MadeEdit, fix};
pub use handout::{Cards, HandoutMade, HandoutOrder, HandoutReport, handout, stem_of};
pub use language::{LanguageReport, check_language, note_looked_at};
pub use manifest::{Fate, Stale};
pub use marks::{MarkOwner, MarkSearch, owners_of_mark};
pub use output::Placed;
pub use own::own_folder;
pub use read::{check_bytes, check_open, text_of};
pub use reference::{reference_files, schema_text, start_specification, write_reference};
pub use run::run;
pub use start::{GUIDE, guide, start_templates};

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use rayon::prelude::*;

use crate::compile::{Checked, OutFile};
use crate::diagnostic::{Code, Problem, Problems};
use crate::page::Paper;
use crate::source::Sources;
use crate::words::Language;
use crate::write::Dpi;
use output::Unwritten;

/// What to build, and where to.
#[derive(Clone, Debug)]
pub struct Order {
    /// Files, and folders that are searched.
    pub paths: Vec<PathBuf>,
    /// The folder that outputs go to.
    pub out: PathBuf,
    /// The paper that sheets are made for.
    pub paper: Paper,
    /// The languages that sheets are made in. With more than one, those of each lie in a folder of its
    /// own, named after its tag.
    pub languages: Vec<&'static Language>,
    /// A folder with templates of the user's own.
    pub templates: Option<PathBuf>,
    /// How many boards are compiled at once; as many as the machine has cores, if `None`.
    pub threads: Option<usize>,
    /// Whether outputs that nothing makes any more are deleted.
    pub prune: bool,
    /// Whether figures are drawn as PNG, too, and how fine.
    pub png: Option<Dpi>,
    /// Whether the field page is made, too.
    pub field_page: bool,
}

/// How far a build is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Progress {
    /// So many files were found.
    Found(usize),
    /// One of them is done. Comes from several threads.
    Done,
    /// Another build writes into the same folder: this one waits until it is done.
    Waits,
}

/// What came of a build.
#[derive(Clone, Debug, Default)]
pub struct Report {
    /// Problems that belong to no one file's text.
    pub general: Problems,
    /// Every file, in the order in which they were found.
    pub files: Vec<FileReport>,
    /// The index of all sheets.
    pub index: Option<Placed>,
    /// The field page with the boards of this build.
    pub field_page: Option<Placed>,
    /// Whether one of an earlier build lies there: it shows boards as they were then.
    pub field_page_left: bool,
    /// Outputs of earlier builds that nothing makes any more.
    pub stale: Vec<Stale>,
    /// Whether somebody stopped it: what was not made yet is as it was.
    pub stopped: bool,
}

/// What came of one file.
#[derive(Clone, Debug)]
pub struct FileReport {
    /// The file as people are shown it.
    pub shown: String,
    /// Its text and that of its tables.
    pub sources: Sources,
    /// What is wrong with it.
    pub problems: Problems,
    /// What was made of it.
    pub outcome: Outcome,
}

/// What a file holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FileKind {
    /// A board.
    Board,
    /// A job.
    Job,
}

/// What was made of a file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Outcome {
    /// Sheets.
    Made {
        /// What became of the files.
        placed: Placed,
        /// What they are sheets of.
        of: FileKind,
    },
    /// Nothing, because of an error. Sheets of an earlier build are left as they are.
    Refused,
    /// Nothing, because the build was stopped before.
    Stopped,
}

/// Reads and checks every specification at and under `paths`; problems that belong to no file's
/// text go to `general`.
pub fn check(paths: &[PathBuf], general: &mut Problems) -> Vec<Checked> {
    let inputs = find::find(paths, general);
    check_all(&inputs)
}

fn check_all(inputs: &[Input]) -> Vec<Checked> {
    let mut all: Vec<Checked> = inputs.par_iter().map(read::check_file).collect();
    for (index, problem) in clashes(inputs) {
        if let Some(checked) = all.get_mut(index) {
            checked.refuse(problem);
        }
    }
    all
}

/// Reads and checks one file of those that were found; it clashes with the others as it does for [`check`].
pub fn check_one(input: &Input, inputs: &[Input]) -> Checked {
    let mut checked = read::check_file(input);
    let own = |index: usize| inputs.get(index).is_some_and(|other| other.path == input.path);
    if let Some((_, problem)) = clashes(inputs).into_iter().find(|(index, _)| own(*index)) {
        checked.refuse(problem);
    }
    checked
}

/// Writes which output came of which inputs to a file: as JSON if its name ends in `.json`, or else as rules
/// of Make.
///
/// # Errors
/// Why it cannot be written, as a problem.
pub fn write_dependencies(report: &Report, path: &Path) -> Result<(), Box<Problem>> {
    deps::place(report, path).map_err(|error| Box::new(unwritten(error)))
}

/// Puts files with their names into a folder, which is made if it is not there: each whole or not at all, and
/// only those that changed.
///
/// # Errors
/// Why one cannot be written, as a problem.
pub fn place_files(folder: &Path, files: Vec<(String, Vec<u8>)>) -> Result<Placed, Box<Problem>> {
    let files: Vec<OutFile> =
        files.into_iter().map(|(name, bytes)| OutFile { name, bytes }).collect();
    let placed = output::place(folder, &files).map_err(|error| Box::new(unwritten(error)))?;
    Ok(Placed { stale: Vec::new(), ..placed })
}

fn unwritten(error: Unwritten) -> Problem {
    let message = format!("this output cannot be written: {}", error.why);
    Problem::of_file(Code::OutputUnwritten, error.path, message)
}

/// The files whose outputs have no folder of their own: another has the same name (some systems do
/// not tell capitals apart), or the name cannot be that of a folder in the outputs.
fn clashes(inputs: &[Input]) -> Vec<(usize, Problem)> {
    let mut of_stem: BTreeMap<String, Vec<usize>> = BTreeMap::new();
    for (index, input) in inputs.iter().enumerate() {
        of_stem.entry(input.stem.to_lowercase()).or_default().push(index);
    }
    let mut found = Vec::new();
    for (index, input) in inputs.iter().enumerate() {
        let same = of_stem.get(&input.stem.to_lowercase());
        let other = same.and_then(|same| same.iter().find(|other| **other != index));
        let ours = [index::NAME, field_page::NAME, manifest::NAME];
        let is_ours = ours.iter().any(|name| input.stem.eq_ignore_ascii_case(name));
        let (code, message) = if input.stem.starts_with('.') || is_ours {
            (Code::OutputName, format!("`{}` cannot name a folder of outputs", input.stem))
        } else if let Some(other) = other.and_then(|other| inputs.get(*other)) {
            let other = &other.shown;
            (
                Code::SameOutput,
                format!("its outputs would lie in the same folder as those of {other}"),
            )
        } else {
            continue;
        };
        let problem = Problem::of_file(code, &input.shown, message);
        found.push((index, problem.help("give the file another name")));
    }
    found
}
