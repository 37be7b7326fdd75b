//! Two boards and the jobs on them, read to be compared. The old board may be a revision of a git
//! checkout.

use std::ffi::OsStr;
use std::fs;
use std::path::{Path, PathBuf};

use super::find::{self, Input, shown};
use super::git;
use super::index;
use super::manifest;
use super::output::{self, Placed};
use super::own::own_folder;
use super::printed::printed;
use super::read::{check_file, read};
use super::state::note_other;
use super::unwritten;
use crate::board::{Board, Job};
use crate::compare::{Changes, JobFate, JobOn, ThingChange};
use crate::compile::{
    Checked, Content, FileContext, OutFile, SheetOptions, catching_panics, check_board, plan_on,
    sheet_file, templates,
};
use crate::decide::Plan;
use crate::diagnostic::{Code, Problem, Problems, Severity};
use crate::page::{self, Paper};
use crate::sheet::{self, ChangeSheet, Printed, SheetJob, Templates};
use crate::source::Sources;
use crate::spec;
use crate::text::Typesetter;
use crate::words::Language;

/// What to compare.
#[derive(Clone, Copy, Debug)]
pub struct ComparisonOrder<'a> {
    /// The old board: a file, or `REV:path` of a git checkout.
    pub old: &'a Path,
    /// The new board.
    pub new: &'a Path,
    /// The folder of jobs; without one the folder `jobs` beside the new board, if there is one.
    pub jobs: Option<&'a Path>,
}

/// Two boards compared, and the jobs on them.
#[derive(Debug)]
pub struct Comparison {
    /// Problems that belong to no file's text.
    pub general: Problems,
    /// The old board.
    pub old: Checked,
    /// The new board.
    pub new: Checked,
    /// What is another; `None` if one of them has errors.
    pub changes: Option<Changes>,
    /// What is another besides in further languages, by their tags: words.
    pub in_languages: Vec<(String, Vec<ThingChange>)>,
    /// The jobs on one of them, in the order of their files.
    pub jobs: Vec<ComparedJob>,
}

/// A job that is planned on both boards.
#[derive(Debug)]
pub struct ComparedJob {
    /// The file as people are shown it.
    pub shown: String,
    /// The name of the job; that of its file if it has none.
    pub name: String,
    /// On the old board.
    pub old: PlannedOn,
    /// On the new board.
    pub new: PlannedOn,
    /// What becomes of it.
    pub fate: JobFate,
}

/// A job planned on one of two boards.
#[derive(Debug)]
pub struct PlannedOn {
    /// Its text.
    pub sources: Sources,
    /// What is wrong with it there.
    pub problems: Problems,
    /// The job and its plan; `None` if an error was reported before it was planned.
    pub planned: Option<(Job, Plan)>,
}

impl PlannedOn {
    /// The codes of the errors, each once, in their order.
    pub fn error_codes(&self) -> Vec<&'static str> {
        let errors = self.problems.sorted().into_iter();
        let errors = errors.filter(|problem| problem.code.severity() == Severity::Error);
        let mut codes: Vec<&str> = errors.map(|problem| problem.code.text()).collect();
        codes.dedup();
        codes
    }

    /// Code and message of each error, in their order.
    pub fn errors(&self) -> Vec<(&'static str, String)> {
        let errors = self.problems.sorted().into_iter();
        let errors = errors.filter(|problem| problem.code.severity() == Severity::Error);
        errors.map(|problem| (problem.code.text(), problem.message)).collect()
    }

    /// The job on the board that it was planned on.
    pub fn on<'a>(&'a self, board: &'a Board) -> JobOn<'a> {
        JobOn { board, planned: self.planned.as_ref().map(|(job, plan)| (job, plan)) }
    }
}

impl Comparison {
    /// Whether anything is another in any language; `None` if a board has errors.
    pub fn differs(&self) -> Option<bool> {
        Some(!self.changes.as_ref()?.is_empty() || !self.in_languages.is_empty())
    }

    /// Both boards, if they are sound.
    pub fn boards(&self) -> Option<(&Board, &Board)> {
        match (&self.old.content, &self.new.content) {
            (Content::Board(old), Content::Board(new)) => Some((old, new)),
            _ => None,
        }
    }
}

/// Reads and compares.
pub fn compare(order: &ComparisonOrder<'_>) -> Comparison {
    let mut general = Problems::default();
    let (old, old_name) = read_old(order.old);
    let new = check_file(&input(order.new));
    let comparison = Comparison {
        general: Problems::default(),
        old,
        new,
        changes: None,
        in_languages: Vec::new(),
        jobs: Vec::new(),
    };
    let Some((old, new)) = comparison.boards() else { return comparison };
    let changes = Changes::between(old, new);
    let in_languages = in_languages(&comparison, &changes);
    let names = [old_name.as_deref(), order.new.file_name()];
    let folder = match order.jobs {
        Some(folder) => Some(folder.to_owned()),
        None => Some(order.new.with_file_name("jobs")).filter(|folder| folder.is_dir()),
    };
    let inputs = folder.map(|folder| jobs_in(&folder, &mut general)).unwrap_or_default();
    let both = [(&comparison.old.sources, old), (&comparison.new.sources, new)];
    let jobs = inputs.iter().filter_map(|input| job(input, names, both, &changes, &mut general));
    let jobs: Vec<ComparedJob> = jobs.collect();
    Comparison { general, changes: Some(changes), in_languages, jobs, ..comparison }
}

/// What is another in the further languages of both boards and is not among `changes`.
fn in_languages(found: &Comparison, changes: &Changes) -> Vec<(String, Vec<ThingChange>)> {
    let mut tags: Vec<&String> = Vec::new();
    for spoken in [&found.old, &found.new].into_iter().filter_map(|it| it.spoken.as_ref()) {
        for (tag, _) in spoken.others() {
            if !tags.contains(&tag) {
                tags.push(tag);
            }
        }
    }
    let beyond = |tag: &String| {
        let (old, new) = (found.old.content_in(tag), found.new.content_in(tag));
        let (Content::Board(old), Content::Board(new)) = (&*old, &*new) else { return None };
        let beyond = Changes::between(old, new).beyond(changes);
        (!beyond.is_empty()).then(|| (tag.clone(), beyond))
    };
    tags.into_iter().filter_map(beyond).collect()
}

/// The specifications in a folder of jobs; that there are none is no error.
fn jobs_in(folder: &Path, general: &mut Problems) -> Vec<Input> {
    let mut found = Problems::default();
    let inputs = find::find(&[folder.to_owned()], &mut found);
    found.retain(|problem| problem.code != Code::NothingFound);
    general.extend(found);
    inputs
}

fn input(path: &Path) -> Input {
    let stem = path.file_stem().unwrap_or_default().to_string_lossy().into_owned();
    Input { path: path.to_owned(), shown: shown(path), stem }
}

/// The old board, and the name of its file. A file of that name wins over a revision.
fn read_old(old: &Path) -> (Checked, Option<std::ffi::OsString>) {
    let text = old.to_string_lossy();
    let revision = match fs::metadata(old) {
        Err(_) => git::Revision::parse(&text),
        Ok(_) => None,
    };
    let Some(revision) = revision else {
        return (check_file(&input(old)), old.file_name().map(OsStr::to_owned));
    };
    let name = PathBuf::from(revision.path()).file_name().map(OsStr::to_owned);
    let shown = shown(old);
    let checked = match revision.read() {
        Ok(bytes) => check_board(&shown, bytes, &revision),
        Err(why) => {
            let mut checked = Checked::new(&shown);
            let message = format!("this cannot be read: {why}");
            checked.problems.error(Problem::of_file(Code::FileUnread, shown, message));
            checked
        }
    };
    (checked, name)
}

/// The job of a file, if it is one on a board of these names.
fn job(
    input: &Input,
    names: [Option<&OsStr>; 2],
    boards: [(&Sources, &Board); 2],
    changes: &Changes,
    general: &mut Problems,
) -> Option<ComparedJob> {
    let bytes = match read(&input.path) {
        Ok(bytes) => bytes,
        Err(why) => {
            general.error(why.of(&input.shown));
            return None;
        }
    };
    if !is_on(&bytes, &input.shown, names) {
        return None;
    }
    let [(old_sources, old_board), (new_sources, new_board)] = boards;
    let planned = |sources: &Sources, board: &Board| {
        let (mut sources, mut problems) = (sources.clone(), Problems::default());
        let planned = spec::admit(input.shown.as_str(), bytes.clone(), &mut sources, &mut problems)
            .and_then(|file| plan_on(file, board, &sources, &mut problems))
            .ok();
        PlannedOn { sources, problems, planned }
    };
    let (old, new) = (planned(old_sources, old_board), planned(new_sources, new_board));
    let fate = JobFate::between(old.on(old_board), new.on(new_board), changes);
    let named = new.planned.as_ref().or(old.planned.as_ref());
    let name = named.map_or_else(|| input.stem.clone(), |(job, _)| job.name.clone());
    Some(ComparedJob { shown: input.shown.clone(), name, old, new, fate })
}

/// Whether bytes are a job whose board's file has one of these names.
fn is_on(bytes: &[u8], shown: &str, names: [Option<&OsStr>; 2]) -> bool {
    let (mut sources, mut problems) = (Sources::default(), Problems::default());
    let Ok(file) = spec::admit(shown, bytes.to_vec(), &mut sources, &mut problems) else {
        return false;
    };
    if !spec::is_job(&sources.file(file).text) {
        return false;
    }
    let Ok(job) = spec::parse_job(file, &sources, &mut problems) else { return false };
    let path = job.board.get().map(|path| PathBuf::from(&path.value));
    let name = path.as_deref().and_then(Path::file_name);
    name.is_some_and(|name| names.contains(&Some(name)))
}

/// Where a change sheet goes, and how it looks.
#[derive(Clone, Copy, Debug)]
pub struct ChangeSheetOrder<'a> {
    /// The folder of outputs.
    pub out: &'a Path,
    /// The paper.
    pub paper: Paper,
    /// The language.
    pub language: &'static Language,
    /// A folder with templates of the user's own.
    pub templates: Option<&'a Path>,
    /// The file of the new board, which the manifest of the outputs knows it by.
    pub input: &'a Path,
}

/// What came of a change sheet.
#[derive(Debug, Default)]
pub struct ChangeSheetReport {
    /// What is wrong with templates or outputs.
    pub problems: Problems,
    /// The texts of the templates.
    pub sources: Sources,
    /// What became of the file; `None` if there is an error.
    pub placed: Option<Placed>,
}

/// Writes the change sheet of two boards; nothing if one of them has errors.
pub fn write_change_sheet(found: &Comparison, order: &ChangeSheetOrder<'_>) -> ChangeSheetReport {
    let mut report = ChangeSheetReport::default();
    let own = order.templates.map(|folder| own_folder(folder, &mut report.problems));
    if report.problems.failed().is_some() {
        return report;
    }
    let look = SheetOptions::new(order.paper, order.language, own.unwrap_or_default());
    let Some(files) = make(found, &look, &mut report) else { return report };
    match output::place(order.out, &files) {
        // Drawings in the folder are none of this sheet's business.
        Ok(placed) => {
            if let Err(problem) = note(&found.new, order, &placed) {
                report.problems.error(*problem);
            }
            report.placed = Some(Placed { stale: Vec::new(), ..placed });
        }
        Err(error) => drop(report.problems.error(unwritten(error))),
    }
    report
}

/// The change sheet as a file.
fn make(
    found: &Comparison,
    look: &SheetOptions,
    report: &mut ChangeSheetReport,
) -> Option<Vec<OutFile>> {
    let tag = look.words.tag();
    let spoken = [found.old.content_in(tag), found.new.content_in(tag)];
    let [Content::Board(old), Content::Board(new)] = spoken.each_ref().map(AsRef::as_ref) else {
        return None;
    };
    let (old, new): (&Board, &Board) = (old, new);
    // In the language of the sheet: its words are no others' words.
    let changes = &Changes::between(old, new);
    let jobs = found.jobs.iter().map(|job| SheetJob {
        name: &job.name,
        fate: &job.fate,
        case: job.new.on(new).case(),
        errors: job.new.errors(),
    });
    let jobs: Vec<SheetJob<'_>> = jobs.collect();
    let marks = [look.mark_of_board(old), look.mark_of_board(new)];
    let ChangeSheetReport { problems, sources, .. } = report;
    let mut texts = FileContext { shown: &found.new.shown, sources, problems };
    let files = catching_panics(&mut texts, &mut Typesetter::new(), |texts, set| {
        let templates = templates(look, texts)?;
        let printed = new_sheets(new, &templates, look, set);
        let printed = printed.as_ref();
        let sheet = ChangeSheet { old, new, marks, changes, jobs: &jobs, printed };
        let document = sheet::change_sheet(&sheet, set, look.paper, &templates, texts.problems)?;
        Ok(vec![sheet_file(index::CHANGES, &document, texts, look, set)?])
    });
    files.ok()
}

/// What stands where on the wiring sheets of the new board; `None` if they cannot be made, which their own
/// build tells.
fn new_sheets(
    board: &Board,
    templates: &Templates,
    look: &SheetOptions,
    set: &mut Typesetter,
) -> Option<Printed> {
    let figures = sheet::figures(board, templates.words(), set, look.paper);
    let mut problems = Problems::default();
    let sheets =
        sheet::wiring_sheets(board, &figures, templates, look.paper, &mut problems).ok()?;
    Some(printed(&page::lay_out(&sheets, look.paper, set)))
}

/// Notes the change sheet in the manifest of the outputs: of its own folder, or of the one around it. Where
/// there is none, the folder is none of outputs.
fn note(
    checked: &Checked,
    order: &ChangeSheetOrder<'_>,
    placed: &Placed,
) -> Result<(), Box<Problem>> {
    let folder = order.out.file_name().map(|name| name.to_string_lossy().into_owned());
    let around = order.out.parent().map(|around| match around.as_os_str().is_empty() {
        true => Path::new("."),
        false => around,
    });
    let (out, before) = match (order.out.join(manifest::NAME).is_file(), around, folder) {
        (true, ..) => (order.out, String::new()),
        (false, Some(around), Some(folder)) if around.join(manifest::NAME).is_file() => {
            (around, format!("{folder}/"))
        }
        _ => return Ok(()),
    };
    let stem = order.input.file_stem().unwrap_or_default().to_string_lossy();
    let path = |(name, sum): &(String, String)| (format!("{before}{name}"), sum.clone());
    let files = ("changes", placed.sums.iter().map(path).collect());
    note_other(out, (checked, order.input), &stem, files)
}
