//! Problems found in a file, as data. Nothing here prints.

mod code;
mod edit;
mod explain;
mod render;
mod risk;

pub use code::{Code, Severity};
pub use edit::{Edit, EditKind};
pub use explain::{CodePage, explain, page};
pub use render::{Colour, clean_line, is_harmful, render};
pub use risk::Risk;

use crate::source::{Sources, Span};

/// A place and a few words that may lean on it.
#[derive(Clone, Debug, PartialEq)]
pub struct Label {
    /// The place.
    pub span: Span,
    /// Short; empty if the place says enough.
    pub text: String,
}

/// What to do about a problem.
#[derive(Clone, Debug, PartialEq)]
pub struct Help {
    /// One doable change, never a question.
    pub text: String,
    /// The change itself, only if it can hardly be anything else.
    pub edit: Option<Edit>,
}

/// One thing that is wrong.
#[derive(Clone, Debug, PartialEq)]
pub struct Problem {
    /// Which of the catalogue.
    pub code: Code,
    /// What is wrong, true on its own: small first letter, no full stop.
    pub message: String,
    /// The smallest text that is wrong. `None` only if a file as a whole could not be read.
    pub primary: Option<Label>,
    /// The file that the problem is in, if it has no place there (it could not be read).
    pub file: Option<String>,
    /// The other side of a clash, perhaps in another file.
    pub others: Vec<Label>,
    /// Computed facts, or what would happen at the board.
    pub notes: Vec<String>,
    /// What to do.
    pub help: Option<Help>,
    /// What it should look like: lines of the compiler's own, shown below the help.
    pub shape: Option<&'static str>,
}

impl Problem {
    /// A problem at a place; `message` is what is wrong.
    pub fn new(code: Code, span: Span, message: impl Into<String>) -> Self {
        Self {
            code,
            message: message.into(),
            primary: Some(Label { span, text: String::new() }),
            file: None,
            others: Vec::new(),
            notes: Vec::new(),
            help: None,
            shape: None,
        }
    }

    /// A problem with a file that could not be read at all.
    pub fn of_file(code: Code, file: impl Into<String>, message: impl Into<String>) -> Self {
        Self {
            code,
            message: message.into(),
            primary: None,
            file: Some(file.into()),
            others: Vec::new(),
            notes: Vec::new(),
            help: None,
            shape: None,
        }
    }

    /// The name of its file, and line and column there, both from 1.
    pub fn place<'a>(&'a self, sources: &'a Sources) -> (&'a str, Option<(usize, usize)>) {
        match &self.primary {
            Some(label) => {
                let file = sources.file(label.span.file);
                (&file.name, Some(file.position(label.span.start)))
            }
            None => (self.file.as_deref().unwrap_or(""), None),
        }
    }

    /// Words for the marked place.
    pub fn label(mut self, text: impl Into<String>) -> Self {
        if let Some(primary) = &mut self.primary {
            primary.text = text.into();
        }
        self
    }

    /// Another place that takes part.
    pub fn other(mut self, span: Span, text: impl Into<String>) -> Self {
        self.others.push(Label { span, text: text.into() });
        self
    }

    /// A fact that persuades or teaches.
    pub fn note(mut self, text: impl Into<String>) -> Self {
        self.notes.push(text.into());
        self
    }

    /// What it should look like.
    pub fn shape(mut self, lines: &'static str) -> Self {
        self.shape = Some(lines);
        self
    }

    /// What to do, in words.
    pub fn help(mut self, text: impl Into<String>) -> Self {
        self.help = Some(Help { text: text.into(), edit: None });
        self
    }
}

/// Proof that an error is in a [`Problems`]; only [`Problems::error`] makes one.
#[derive(Debug)]
pub struct Reported(());

/// All problems of one compilation.
#[derive(Clone, Debug, Default)]
pub struct Problems {
    found: Vec<Problem>,
    accepted: Vec<Accepted>,
}

/// A warning that was weighed.
#[derive(Clone, Debug, PartialEq)]
pub struct Accepted {
    /// The warning.
    pub problem: Problem,
    /// Why it is accepted, in the words of the specification.
    pub reason: String,
}

impl Problems {
    /// Adds a problem whose code is an error and gives the proof.
    pub fn error(&mut self, problem: Problem) -> Reported {
        debug_assert_eq!(problem.code.severity(), Severity::Error);
        self.found.push(problem);
        Reported(())
    }

    /// Adds a problem whose code is a warning.
    pub fn warning(&mut self, problem: Problem) {
        debug_assert_eq!(problem.code.severity(), Severity::Warning);
        self.found.push(problem);
    }

    /// Whether there is an error among them, with its proof.
    pub fn failed(&self) -> Option<Reported> {
        let any = self.found.iter().any(|p| p.code.severity() == Severity::Error);
        any.then_some(Reported(()))
    }

    /// Whether the same was said already.
    pub fn contains(&self, problem: &Problem) -> bool {
        self.found.contains(problem)
    }

    /// All, by file and place, doubles removed; problems without a place come first.
    pub fn sorted(&self) -> Vec<Problem> {
        let mut all = self.found.clone();
        all.sort_by_key(|p| (p.primary.as_ref().map(|label| label.span), p.code));
        all.dedup();
        all
    }

    /// Leaves out warnings; an error stays whatever `keep` says of it.
    pub fn retain(&mut self, mut keep: impl FnMut(&Problem) -> bool) {
        self.found.retain(|p| p.code.severity() == Severity::Error || keep(p));
    }

    /// Takes the warnings of this code out of those that count; gives whether there was one.
    pub fn accept(&mut self, code: Code, reason: &str) -> bool {
        let matches = |problem: &Problem| problem.code == code && code.acceptable();
        let (taken, left) = std::mem::take(&mut self.found).into_iter().partition(matches);
        self.found = left;
        let taken: Vec<Problem> = taken;
        let any = !taken.is_empty();
        let reason = || reason.to_owned();
        self.accepted
            .extend(taken.into_iter().map(|problem| Accepted { problem, reason: reason() }));
        any
    }

    /// The warnings that were accepted, by file and place.
    pub fn accepted(&self) -> Vec<Accepted> {
        let mut all = self.accepted.clone();
        all.sort_by_key(|it| (it.problem.primary.as_ref().map(|l| l.span), it.problem.code));
        all.dedup();
        all
    }

    /// Takes in the problems of another.
    pub fn extend(&mut self, other: Problems) {
        self.found.extend(other.found);
        self.accepted.extend(other.accepted);
    }

    /// Those that are not among others.
    pub fn beyond(mut self, known: &Problems) -> Problems {
        self.found.retain(|problem| !known.found.contains(problem));
        self.accepted.retain(|accepted| !known.accepted.contains(accepted));
        self
    }

    /// Whether there is none.
    pub fn is_empty(&self) -> bool {
        self.found.is_empty()
    }

    /// How many errors and how many warnings there are.
    pub fn counts(&self) -> (usize, usize) {
        let all = self.sorted();
        let errors = all.iter().filter(|p| p.code.severity() == Severity::Error).count();
        (errors, all.len() - errors)
    }
}
