//! What is wrong, for machines: renaming a field inside never breaks a user's script.

use serde::Serialize;

use crate::decide::mistakes::Danger;
use crate::diagnostic::{Accepted, Edit, Problem, Problems};
use crate::source::Sources;

/// One problem. Lines and columns count from 1, a column is a code point, the end is one past the last;
/// they are null for a problem with a file as a whole.
#[derive(Debug, Serialize)]
pub struct ProblemJson {
    code: &'static str,
    severity: &'static str,
    file: String,
    line: Option<usize>,
    column: Option<usize>,
    end_line: Option<usize>,
    end_column: Option<usize>,
    message: String,
    help: Option<String>,
    edits: Vec<EditJson>,
    /// Why it is accepted; absent where it is not.
    #[serde(skip_serializing_if = "Option::is_none")]
    accepted: Option<String>,
}

impl ProblemJson {
    /// The wire form of all `problems` in their order.
    pub fn all(problems: &Problems, sources: &Sources) -> Vec<Self> {
        problems.sorted().iter().map(|problem| Self::one(problem, sources)).collect()
    }

    /// The same for those that are accepted.
    pub fn accepted(problems: &Problems, sources: &Sources) -> Vec<Self> {
        let accepted = problems.accepted().into_iter();
        let one =
            |it: Accepted| Self { accepted: Some(it.reason), ..Self::one(&it.problem, sources) };
        accepted.map(one).collect()
    }

    fn one(problem: &Problem, sources: &Sources) -> Self {
        let (file, start) = problem.place(sources);
        let end = problem.primary.as_ref().map(|label| sources.end(label.span));
        let edit = problem.help.as_ref().and_then(|help| help.edit.as_ref());
        Self {
            code: problem.code.text(),
            severity: problem.code.severity().word(),
            file: file.to_owned(),
            line: start.map(|(line, _)| line),
            column: start.map(|(_, column)| column),
            end_line: end.map(|(line, _)| line),
            end_column: end.map(|(_, column)| column),
            message: problem.message.clone(),
            help: problem.help.as_ref().map(|help| match problem.shape {
                Some(shape) => format!("{}:\n\n{shape}", help.text),
                None => help.text.clone(),
            }),
            edits: edit.map(|edit| EditJson::of(edit, sources)).into_iter().collect(),
            accepted: None,
        }
    }
}

/// A ready edit: what to put in the place of a text.
#[derive(Debug, Serialize)]
pub struct EditJson {
    /// `spelling` or `value`: whether `--fix` makes it, or a person.
    kind: &'static str,
    file: String,
    line: usize,
    column: usize,
    end_line: usize,
    end_column: usize,
    /// What stands there.
    old: String,
    /// What belongs there.
    new: String,
}

impl EditJson {
    fn of(edit: &Edit, sources: &Sources) -> Self {
        let file = sources.file(edit.span.file);
        let (line, column) = file.position(edit.span.start);
        let (end_line, end_column) = sources.end(edit.span);
        Self {
            kind: edit.kind.word(),
            file: file.name.clone(),
            line,
            column,
            end_line,
            end_column,
            old: sources.text(edit.span).to_owned(),
            new: edit.text.clone(),
        }
    }
}

/// The word for how bad something is.
pub fn danger_word(danger: Danger) -> &'static str {
    match danger {
        Danger::Deadly => "deadly",
        Danger::Fire => "fire",
        Danger::Damage => "damage",
        Danger::None => "none",
    }
}
