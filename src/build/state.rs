//! What a checked file says, and what the manifest of the outputs keeps of it.

use std::collections::BTreeMap;
use std::path::Path;

use super::find::{Input, shown};
use super::manifest::{self, Made, Manifest, Marks};
use super::output::OutputRoot;
use super::{FileKind, FileReport, Outcome};
use crate::board::{Board, Job};
use crate::compile::{Checked, Content, SheetOptions};
use crate::diagnostic::{Code, Problem};
use crate::mark::{Mark, sum_of};
use crate::meaning;

/// What a sound board or job says.
pub struct State {
    /// What it is.
    pub kind: FileKind,
    /// The name of the board or job.
    pub name: String,
    /// Revision and date of the board.
    pub revision: String,
    /// The sum of what the file itself says, whatever the language and the edition of the sheets.
    said: String,
}

impl State {
    /// That of a file; `None` if it has errors.
    pub fn of(checked: &Checked) -> Option<Self> {
        let (board, job) = board_and_job(&checked.content)?;
        let mut said = facts(&checked.content).pop().unwrap_or_default();
        // What a board says in other languages belongs to it, too.
        if let (None, Some(spoken)) = (job, &checked.spoken) {
            for (tag, board) in spoken.others() {
                said.push_str(tag);
                said.push('\n');
                said.push_str(&meaning::of_board(board).lines());
            }
        }
        Some(Self {
            kind: if job.is_some() { FileKind::Job } else { FileKind::Board },
            name: job.map_or(&board.about.name, |job| &job.name).clone(),
            revision: board.about.dated_revision(),
            said: sum_of(said.as_bytes()),
        })
    }
}

fn board_and_job(content: &Content) -> Option<(&Board, Option<&Job>)> {
    match content {
        Content::Board(board) => Some((board, None)),
        Content::Job(Some(planned)) => Some((&planned.board, Some(&planned.job))),
        Content::Job(None) | Content::Refused => None,
    }
}

/// The facts of the board, one a line, and those of the job, if it is one; none if there are errors.
fn facts(content: &Content) -> Vec<String> {
    let Some((board, job)) = board_and_job(content) else { return Vec::new() };
    let of_job = job.map(|job| meaning::of_job(board, job).lines());
    [meaning::of_board(board).lines()].into_iter().chain(of_job).collect()
}

/// The mark of a file's sheets in each language, by the tag: of its words in that language.
pub fn marks(checked: &Checked, looks: &[SheetOptions]) -> Vec<(String, Mark)> {
    let mark = |look: &SheetOptions| {
        let tag = look.words.tag();
        (tag.to_owned(), look.mark(&facts(&checked.content_in(tag))))
    };
    looks.iter().map(mark).collect()
}

/// The error of a file whose outputs would take the place of those of another that is still there.
pub fn taken(input: &Input, key: &str, manifest: &Manifest, out: &Path) -> Option<Problem> {
    let holder = shown(&out.join(manifest.holder(out, &input.stem, key)?));
    let message = format!("its outputs would take the place of those of {holder}");
    let problem = Problem::of_file(Code::SameOutput, &input.shown, message);
    let problem = problem.note("an earlier build made them, and that file is still there");
    Some(
        problem
            .help("give one of the two files another name, or build them into different folders"),
    )
}

/// Notes in the manifest what was made of a file, and warns if the file says something else than its
/// revision did before.
pub fn note(
    manifest: &mut Manifest,
    report: &mut FileReport,
    (state, marks): (State, Vec<(String, Mark)>),
    (input, key): (&Input, &str),
    out: &Path,
) {
    let Outcome::Made { placed, of } = &report.outcome else { return };
    let State { name, revision, said, .. } = state;
    let before = manifest.of(key);
    let silent = before.is_some_and(|before| before.revision == revision && before.said != said);
    if silent && *of == FileKind::Board {
        let message =
            format!("the board says something else than before under revision {revision}");
        let problem = Problem::of_file(Code::SameRevision, &report.shown, message)
            .help("give it a new revision, or a new date: sheets of both may be in use");
        report.problems.warning(problem);
    }
    let path = |name: &str| format!("{}/{name}", input.stem);
    let files = placed.sums.iter().map(|(name, sum)| (path(name), sum.clone())).collect();
    let now = |mark: Mark| Marks { now: mark.to_string(), earlier: Vec::new() };
    let made = Made {
        folder: input.stem.clone(),
        name,
        revision,
        said,
        marks: marks.into_iter().map(|(tag, mark)| (tag, now(mark))).collect(),
        files,
        others: BTreeMap::new(),
        stale: BTreeMap::new(),
    };
    manifest.take(out, key, made);
}

/// Notes in the manifest of the outputs in `out` what a command other than `build` made of a checked file,
/// whose sheets lie or would lie in the folder `stem` of it: the paths are from there. A folder without a
/// manifest gets one.
///
/// # Errors
/// The manifest cannot be used or written.
pub fn note_other(
    out: &Path,
    (checked, input): (&Checked, &Path),
    stem: &str,
    (command, files): (&str, BTreeMap<String, String>),
) -> Result<(), Box<Problem>> {
    let Some(state) = State::of(checked) else { return Ok(()) };
    let told = |error| Box::new(super::unwritten(error));
    let root = OutputRoot::open(out, &|| true).map_err(told)?;
    let mut manifest = Manifest::read(out).map_err(|why| {
        let path = shown(&out.join(manifest::NAME));
        let message = format!("the manifest of the outputs cannot be used: {why}");
        Box::new(Problem::of_file(Code::ManifestUnread, path, message))
    })?;
    let State { name, revision, said, .. } = state;
    let (marks, none) = (BTreeMap::new(), BTreeMap::new);
    let unbuilt = Made {
        folder: stem.to_owned(),
        name,
        revision,
        said,
        marks,
        files: none(),
        others: BTreeMap::new(),
        stale: none(),
    };
    manifest.take_of(command, &manifest::path_from(out, input), files, unbuilt);
    manifest.place(&root).map_err(told)
}
