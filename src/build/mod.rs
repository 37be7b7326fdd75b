//! Which inputs, which outputs, what changed. Boards are compiled in parallel; what comes of them
//! is put together in the order of the inputs, so the same inputs give the same report and the
//! same bytes on any number of threads. Nothing here prints.

mod changes;
mod compile;
mod deps;
mod find;
mod fix;
mod git;
mod handout;
mod house;
mod index;
mod insert;
mod job;
mod language;
mod manifest;
mod marks;
mod output;
mod own;
mod printed;
mod read;
mod reading;
mod reference;
mod sheet_pages;
mod spoken;
mod start;
mod state;

pub use changes::{
    ChangeSheetOrder, ChangeSheetReport, ComparedJob, Comparison, ComparisonOrder, PlannedOn,
    compare, write_change_sheet,
};
pub use compile::{Checked, Content, SheetOptions, check_bytes, check_open};
pub use find::{Input, find, shown};
pub use fix::{MadeEdit, fix};
pub use handout::{Cards, HandoutMade, HandoutOrder, HandoutReport, handout, stem_of};
pub use insert::{card_pages, finder_pages, insert_pages};
pub use job::PlannedJob;
pub use language::{LanguageReport, check_language, note_looked_at};
pub use manifest::{Fate, Stale};
pub use marks::{MarkOwner, MarkSearch, mark_of_board, mark_of_job, owners_of_mark};
pub use output::Placed;
pub use own::{OwnFolder, own_folder};
pub use read::text_of;
pub use reading::{Reading, reading};
pub use reference::{reference_files, schema_text, start_specification, write_reference};
pub use sheet_pages::{SheetKind, SheetPages, sheet_pages};
pub use start::{GUIDE, guide, start_templates};

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

use rayon::prelude::*;

use crate::diagnostic::{Code, Problem, Problems, Reported};
use crate::mark::Mark;
use crate::page::Paper;
use crate::source::Sources;
use crate::text::Typesetter;
use crate::words::Language;
use crate::write::Dpi;
use compile::FileContext;
use index::Listed;
use manifest::Manifest;
use output::{OutFile, OutputRoot, Unwritten};
use state::State;

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
    let mut all: Vec<Checked> = inputs.par_iter().map(compile::check_file).collect();
    for (index, problem) in clashes(inputs) {
        if let Some(checked) = all.get_mut(index) {
            checked.problems.error(problem);
            checked.content = Content::Refused;
        }
    }
    all
}

/// Reads and checks one file of those that were found; it clashes with the others as it does for [`check`].
pub fn check_one(input: &Input, inputs: &[Input]) -> Checked {
    let mut checked = compile::check_file(input);
    let own = |index: usize| inputs.get(index).is_some_and(|other| other.path == input.path);
    if let Some((_, problem)) = clashes(inputs).into_iter().find(|(index, _)| own(*index)) {
        checked.problems.error(problem);
        checked.content = Content::Refused;
    }
    checked
}

/// What came of a file, and what it says with the mark of its sheets in each language.
type Noted = (FileReport, Option<(State, Vec<(String, Mark)>)>);

/// Compiles every specification of `order` and puts the sheets in their places. Once `stopped` says so, no
/// other file is begun.
pub fn run(
    order: &Order,
    progress: &(dyn Fn(Progress) + Sync),
    stopped: &(dyn Fn() -> bool + Sync),
) -> Report {
    let mut general = Problems::default();
    let inputs = find::find(&order.paths, &mut general);
    let mut of_templates = Problems::default();
    let own = order.templates.as_ref().map(|folder| own_folder(folder, &mut of_templates));
    let unusable = of_templates.failed().is_some();
    general.extend(of_templates);
    if unusable {
        // Sheets with other words than those that were asked for are not made.
        return Report { general, ..Report::default() };
    }
    let own = own.unwrap_or_default();
    let looks: Vec<SheetOptions> = order
        .languages
        .iter()
        .map(|language| SheetOptions {
            png: order.png,
            ..SheetOptions::new(order.paper, language, own.clone())
        })
        .collect();
    let Some(first) = looks.first() else { return Report { general, ..Report::default() } };
    let root = match OutputRoot::open(&order.out, &|| progress(Progress::Waits)) {
        Ok(root) => root,
        Err(error) => {
            general.error(unwritten(error));
            return Report { general, ..Report::default() };
        }
    };
    root.clear_left_over();
    let mut kept = match Manifest::read(&order.out) {
        Ok(manifest) => Some(manifest),
        Err(why) => {
            let path = find::shown(&order.out.join(manifest::NAME));
            let message = format!("the manifest of the outputs cannot be used: {why}");
            general.error(Problem::of_file(Code::ManifestUnread, path, message));
            None
        }
    };
    let keys: Vec<String> =
        inputs.iter().map(|input| manifest::path_from(&order.out, &input.path)).collect();
    progress(Progress::Found(inputs.len()));
    let work = || {
        let mut checked = check_all(&inputs);
        if let Some(manifest) = &kept {
            state::refuse_taken(&mut checked, &inputs, &keys, manifest, &order.out);
        }
        checked
            .into_par_iter()
            .zip(&inputs)
            .map_init(Typesetter::new, |set, (checked, input)| {
                if stopped() {
                    let Checked { shown, sources, problems, .. } = checked;
                    let report = FileReport { shown, sources, problems, outcome: Outcome::Stopped };
                    return ((report, None), Listed::unknown());
                }
                let state = State::of(&checked);
                let marks = state.as_ref().map(|_| state::marks(&checked, &looks));
                let marks = marks.unwrap_or_default();
                let listed = match &*checked.content_in(first.words.tag()) {
                    Content::Board(board) => Listed::of_board(board),
                    Content::Job(Some(planned)) => Listed::of_job(planned),
                    Content::Job(None) | Content::Refused => Listed::unknown(),
                };
                let report = make(checked, input, &root, &looks, set);
                let (errors, _) = report.problems.counts();
                let refused = report.outcome == Outcome::Refused;
                let listed = listed.refused(refused.then_some(errors)).marked(marks.clone());
                progress(Progress::Done);
                ((report, state.map(|state| (state, marks))), listed)
            })
            .collect()
    };
    let done: Vec<(Noted, Listed)> = match pool(order.threads) {
        Some(pool) => pool.install(work),
        None => work(),
    };
    let (made, listed): (Vec<Noted>, Vec<Listed>) = done.into_iter().unzip();
    let (mut files, states): (Vec<FileReport>, Vec<_>) = made.into_iter().unzip();
    once(&mut files);
    let mut stale = Vec::new();
    let was_stopped = files.iter().any(|file| file.outcome == Outcome::Stopped);
    if let Some(manifest) = &mut kept {
        for (((report, state), input), key) in files.iter_mut().zip(states).zip(&inputs).zip(&keys)
        {
            let Some(state) = state else { continue };
            state::note(manifest, report, state, (input, key), &order.out);
        }
        // Of a build that was stopped nobody knows what is left over.
        if !was_stopped {
            match manifest.sweep(&order.out, order.prune) {
                Ok(found) => stale = found,
                Err(error) => drop(general.error(unwritten(error))),
            }
        }
    }
    // Two files of one name are both refused, and have one row.
    let known: BTreeMap<String, Listed> =
        inputs.iter().map(|input| input.stem.clone()).zip(listed).collect();
    // A list of nothing but refusals is made only where sheets of theirs may lie.
    let worth =
        |(stem, listed): (&String, &Listed)| listed.is_made() || order.out.join(stem).is_dir();
    let mut report = Report { general, files, index: None, stale, stopped: was_stopped };
    if !was_stopped && known.iter().any(worth) {
        match index::place(&first.words, &root, &known) {
            Ok(placed) => report.index = Some(placed),
            Err(error) => drop(report.general.error(unwritten(error))),
        }
    }
    if let Some(Err(error)) =
        kept.filter(|kept| kept.is_needed(&order.out)).map(|it| it.place(&root))
    {
        report.general.error(unwritten(error));
    }
    report
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

/// What is said of templates, and the same whatever they are filled with.
const ONCE: [Code; 2] = [Code::LongTemplateSentence, Code::LogoCoarse];

/// Leaves out what was said of a template for an earlier file already: its sentences are the same
/// whatever they are filled with.
fn once(files: &mut [FileReport]) {
    let mut told = BTreeSet::new();
    for FileReport { problems, sources, .. } in files {
        problems.retain(|problem| {
            let (file, place) = problem.place(sources);
            !ONCE.contains(&problem.code) || told.insert((file.to_owned(), place))
        });
    }
}

/// A pool of so many threads; `None` for the common one, also if the system gives no threads.
fn pool(threads: Option<usize>) -> Option<rayon::ThreadPool> {
    rayon::ThreadPoolBuilder::new().num_threads(threads?).build().ok()
}

/// The sheets of one file that was checked, in their places.
fn make(
    mut checked: Checked,
    input: &Input,
    out: &OutputRoot,
    looks: &[SheetOptions],
    set: &mut Typesetter,
) -> FileReport {
    looks.iter().for_each(|look| checked.warn_of_language(look.words.tag()));
    let spoken: Vec<Content> =
        looks.iter().map(|look| checked.content_in(look.words.tag()).into_owned()).collect();
    let Checked { shown, mut sources, mut problems, content, .. } = checked;
    let of = match &content {
        Content::Job(Some(_)) => FileKind::Job,
        Content::Board(_) => FileKind::Board,
        Content::Job(None) | Content::Refused => {
            return FileReport { shown, sources, problems, outcome: Outcome::Refused };
        }
    };
    let mut texts = FileContext { shown: &shown, sources: &mut sources, problems: &mut problems };
    let made = looks.iter().zip(&spoken).filter_map(|(look, content)| match content {
        Content::Job(Some(planned)) => Some(insert::job_sheets(planned, &mut texts, look, set)),
        Content::Board(board) => Some(compile::sheets(board, &mut texts, look, set)),
        Content::Job(None) | Content::Refused => None,
    });
    let sheets: Result<Vec<_>, Reported> = made.collect();
    // All languages or none: the sheets of one must not tell what those of another do not.
    let outcome = match sheets {
        Ok(sheets) => match place_each(out, &input.stem, looks, sheets) {
            Ok(placed) => Outcome::Made { placed, of },
            Err(error) => {
                problems.error(unwritten(error));
                Outcome::Refused
            }
        },
        Err(_) => Outcome::Refused,
    };
    FileReport { shown, sources, problems, outcome }
}

/// Puts the sheets of all languages into the folder `name` as one set: into the folder itself, or those of
/// each language into one of its own if there are several.
fn place_each(
    out: &OutputRoot,
    name: &str,
    looks: &[SheetOptions],
    sheets: Vec<Vec<OutFile>>,
) -> Result<Placed, Unwritten> {
    let several = looks.len() > 1;
    let of_language = looks.iter().zip(sheets).flat_map(|(look, files)| {
        let tag = look.words.tag();
        files.into_iter().map(move |file| match several {
            true => OutFile { name: format!("{tag}/{}", file.name), ..file },
            false => file,
        })
    });
    out.place(name, &of_language.collect::<Vec<_>>())
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
        let (code, message) =
            if input.stem.starts_with('.') || input.stem.eq_ignore_ascii_case(index::NAME) {
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
