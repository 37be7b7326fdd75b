//! Problems for people: as a page shows them.

use serde::Serialize;

use crate::diagnostic::{Problem, Problems, Severity};
use crate::source::Sources;

/// A problem as it is shown.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Told {
    /// `error` or `warning`.
    pub severity: &'static str,
    /// Its code: `L401`.
    pub code: &'static str,
    /// What is wrong.
    pub message: String,
    /// The file.
    pub file: String,
    /// The line, from 1; `None` for a file as a whole.
    pub line: Option<usize>,
    /// The column, from 1.
    pub column: Option<usize>,
    /// What is said beside its place.
    pub label: String,
    /// What follows from it.
    pub notes: Vec<String>,
    /// What to do.
    pub help: Option<String>,
    /// What it should look like, as lines of a file.
    pub shape: Option<&'static str>,
}

impl Told {
    /// Problems in the order in which `check` tells them.
    pub fn all(problems: &Problems, sources: &Sources) -> Vec<Self> {
        problems.sorted().iter().map(|problem| Self::one(problem, sources)).collect()
    }

    fn one(problem: &Problem, sources: &Sources) -> Self {
        let place = problem.primary.as_ref().and_then(|label| {
            let file = sources.get(label.span.file)?;
            Some((file.name.clone(), file.position(label.span.start), label.text.clone()))
        });
        let (file, position, label) = match place {
            Some((file, position, label)) => (file, Some(position), label),
            None => (problem.file.clone().unwrap_or_default(), None, String::new()),
        };
        Self {
            severity: problem.code.severity().word(),
            code: problem.code.text(),
            message: problem.message.clone(),
            file,
            line: position.map(|(line, _)| line),
            column: position.map(|(_, column)| column),
            label,
            notes: problem.notes.clone(),
            help: problem.help.as_ref().map(|help| help.text.clone()),
            shape: problem.shape,
        }
    }

    /// Whether it keeps sheets from being made.
    pub fn is_error(&self) -> bool {
        self.severity == Severity::Error.word()
    }
}
