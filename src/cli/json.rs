//! The wire types of `--format json`: renaming a field inside never breaks a user's script.

use clap::ValueEnum;
use serde::Serialize;

use crate::decide::mistakes::Danger;
use crate::diagnostic::{Accepted, Problem, Problems};
use crate::source::Sources;

/// How a result is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum ResultFormat {
    /// For people, with problems on standard error
    Text,
    /// For machines: one object on standard output, problems included
    Json,
}

/// One problem. Lines and columns count from 1; they are null for a problem with a file as a whole.
#[derive(Debug, Serialize)]
pub struct ProblemJson {
    code: &'static str,
    severity: &'static str,
    file: String,
    line: Option<usize>,
    column: Option<usize>,
    message: String,
    help: Option<String>,
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
        let place = problem.primary.as_ref().map(|label| {
            let file = sources.file(label.span.file);
            (file.name.clone(), file.position(label.span.start))
        });
        let (file, position) = match place {
            Some((file, position)) => (file, Some(position)),
            None => (problem.file.clone().unwrap_or_default(), None),
        };
        Self {
            code: problem.code.text(),
            severity: problem.code.severity().word(),
            file,
            line: position.map(|(line, _)| line),
            column: position.map(|(_, column)| column),
            message: problem.message.clone(),
            help: problem.help.as_ref().map(|help| match problem.shape {
                Some(shape) => format!("{}:\n\n{shape}", help.text),
                None => help.text.clone(),
            }),
            accepted: None,
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
