//! A specification or a job: read, and checked.

use std::borrow::Cow;
use std::panic::{AssertUnwindSafe, catch_unwind};

use super::files::NamedFiles;
use super::making::our_fault;
use super::planned_job::{self, PlannedJob};
use super::spoken::Spoken;
use crate::board::{self, Board};
use crate::diagnostic::{Problem, Problems};
use crate::source::{FileId, Sources};
use crate::spec;

/// What was found in a file.
#[derive(Clone, Debug)]
pub enum Content {
    /// A sound board.
    Board(Box<Board>),
    /// A job: one installation of a board; `None` if an error was reported before it was planned.
    Job(Option<Box<PlannedJob>>),
    /// Something that an error was reported of.
    Refused,
}

/// A file that was read and checked.
#[derive(Clone, Debug)]
pub struct Checked {
    /// The file as people are shown it.
    pub shown: String,
    /// Its text and that of its tables.
    pub sources: Sources,
    /// What is wrong with them.
    pub problems: Problems,
    /// What is in it; words that are given by language in English, or else in the first that there is.
    pub content: Content,
    /// The words of the board in other languages, if they are given by language.
    pub spoken: Option<Box<Spoken>>,
}

impl Checked {
    /// A file of which nothing is known yet.
    pub fn new(shown: &str) -> Self {
        Self {
            shown: shown.to_owned(),
            sources: Sources::default(),
            problems: Problems::default(),
            content: Content::Refused,
            spoken: None,
        }
    }

    /// Reports an error that leaves nothing in it.
    pub fn refuse(&mut self, problem: Problem) {
        self.problems.error(problem);
        self.content = Content::Refused;
    }

    /// What is in it, with the words of the board in the language of a tag.
    pub fn content_in(&self, tag: &str) -> Cow<'_, Content> {
        let board = self.spoken.as_ref().and_then(|spoken| spoken.board_in(tag, &self.sources));
        match (board, &self.content) {
            (Some(board), Content::Board(_)) => Cow::Owned(Content::Board(Box::new(board))),
            (Some(board), Content::Job(Some(planned))) => {
                let PlannedJob { job, plan, .. } = (**planned).clone();
                Cow::Owned(Content::Job(Some(Box::new(PlannedJob { board, job, plan }))))
            }
            _ => Cow::Borrowed(&self.content),
        }
    }

    /// Warns if the board's words are given by language and none of them is in that of a tag.
    pub fn warn_of_language(&mut self, tag: &str) {
        let Content::Board(_) = self.content else { return };
        if let Some(problem) = self.spoken.as_ref().and_then(|spoken| spoken.lacks(tag)) {
            self.problems.warning(problem);
        }
    }
}

/// Checks a text that people are shown as `shown`; what it names is in `files`.
pub fn check(shown: &str, bytes: Vec<u8>, files: &dyn NamedFiles) -> Checked {
    caught(shown, |checked| judge(checked, bytes, files))
}

/// The same for a text that must be a board: a job is not planned.
pub fn check_board(shown: &str, bytes: Vec<u8>, files: &dyn NamedFiles) -> Checked {
    caught(shown, |checked| {
        let Checked { shown, sources, problems, .. } = checked;
        let Ok(file) = spec::admit(shown.as_str(), bytes, sources, problems) else { return };
        if spec::is_job(&sources.file(file).text) {
            checked.content = Content::Job(None);
            return;
        }
        judge_board(checked, file, files);
    })
}

/// What `judge` makes of a file. If it stops half-way, that is a mistake of ours, and an error of the
/// file.
fn caught(shown: &str, judge: impl FnOnce(&mut Checked)) -> Checked {
    let mut checked = Checked::new(shown);
    let outcome = catch_unwind(AssertUnwindSafe(|| judge(&mut checked)));
    if outcome.is_err() {
        checked.refuse(our_fault(shown, "checking stopped half-way"));
    }
    checked
}

fn judge(checked: &mut Checked, bytes: Vec<u8>, files: &dyn NamedFiles) {
    let Checked { shown, sources, problems, content, spoken } = checked;
    let Ok(file) = spec::admit(shown.as_str(), bytes, sources, problems) else { return };
    if spec::is_job(&sources.file(file).text) {
        *content = Content::Job(match planned_job::plan(file, files, (sources, problems)) {
            Ok((planned, words)) => {
                *spoken = words;
                Some(Box::new(planned))
            }
            Err(_) => None,
        });
        return;
    }
    judge_board(checked, file, files);
}

fn judge_board(checked: &mut Checked, file: FileId, files: &dyn NamedFiles) {
    let Checked { sources, problems, content, spoken, .. } = checked;
    let Ok(spec) =
        spec::parse(file, sources, &mut |table: &str| files.table(None, table), problems)
    else {
        return;
    };
    if let Ok(checked) = board::check_languages(&spec, sources, problems) {
        let (board, words) = Spoken::of(spec, checked);
        *content = Content::Board(Box::new(board));
        *spoken = words;
    }
}
