//! Problems found in a file, as data. Nothing here prints.

mod code;
mod explain;
mod render;

pub use code::{Code, Severity};
pub use explain::{CodePage, explain, page};
pub use render::{Colour, render};

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
    /// The change itself, only if it can be nothing else: the text to put at a place.
    pub edit: Option<(Span, String)>,
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

    /// What to do, as a ready edit: `with` in the place of what stands at `span`. Only if it can be
    /// nothing else.
    pub fn edit(mut self, text: impl Into<String>, span: Span, with: impl Into<String>) -> Self {
        self.help = Some(Help { text: text.into(), edit: Some((span, with.into())) });
        self
    }

    /// The nearest of `names` as a ready edit of the marked place, if it can be no other: it is near
    /// enough, no second one is as near, and its digits are the same; a name of one or two characters
    /// may differ in capitals alone. `T5` could be meant for `T1` as well as for `T2`, and on a board
    /// that is no small matter.
    pub fn nearest<'a>(mut self, name: &str, names: impl IntoIterator<Item = &'a str>) -> Self {
        let Some(primary) = &self.primary else { return self };
        // No name is as long as this; comparing would cost a hostile file's length squared.
        if name.len() > 80 {
            return self;
        }
        let digits = |text: &str| text.chars().filter(char::is_ascii_digit).collect::<String>();
        let own = digits(name);
        let short = name.chars().count() < 3;
        let limit = (name.chars().count() / 3).max(1);
        let mut near: Vec<(usize, &str)> = names
            .into_iter()
            .filter(|known| digits(known) == own)
            .filter(|known| !short || known.eq_ignore_ascii_case(name))
            .map(|known| (strsim::damerau_levenshtein(name, known), known))
            .filter(|(distance, _)| *distance <= limit)
            .collect();
        near.sort();
        let known = match near.as_slice() {
            [(_, known)] => known,
            [(first, known), (second, _), ..] if first < second => known,
            _ => return self,
        };
        self.help = Some(Help {
            text: format!("the nearest name is `{known}`"),
            edit: Some((primary.span, (*known).to_owned())),
        });
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::source::FileId;

    fn nearest(name: &str, names: &[&'static str]) -> Option<String> {
        let problem = Problem::new(Code::UnknownName, Span::new(FileId(0), 0..1), "no such name");
        let help = problem.nearest(name, names.iter().copied()).help?;
        help.edit.map(|(_, text)| text)
    }

    #[test]
    fn a_name_is_suggested_only_if_it_can_be_no_other() {
        assert_eq!(nearest("nroth", &["north", "south"]).as_deref(), Some("north"));
        assert_eq!(nearest("circulaton", &["circulation"]).as_deref(), Some("circulation"));
        assert_eq!(nearest("w2", &["W2", "W3"]).as_deref(), Some("W2"));
        // Another number is another thing, and of two that are as near nobody knows which.
        assert_eq!(nearest("T5", &["T1"]), None);
        assert_eq!(nearest("pump 10", &["pump 1", "pump 2"]), None);
        assert_eq!(nearest("nort", &["nord", "norm"]), None);
        assert_eq!(nearest("C", &["A"]), None);
        assert_eq!(nearest("T", &["TG"]), None);
        assert_eq!(nearest("east", &["north", "south"]), None);
    }

    #[test]
    fn one_letter_is_one_third_of_three() {
        assert_eq!(nearest("abx", &["abc"]).as_deref(), Some("abc"));
        assert_eq!(nearest("axx", &["abc"]), None);
    }
}
