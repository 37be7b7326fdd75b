//! `accepted`: warnings that were weighed, each with its reason.

use crate::diagnostic::{Code, Problem, Problems, Severity};
use crate::source::Span;
use crate::spec::{Field, Name};

/// A code whose warnings are accepted.
#[derive(Clone, Debug)]
struct Acceptance {
    code: Code,
    reason: String,
    span: Span,
}

/// What a specification or a job accepts.
#[derive(Clone, Debug, Default)]
pub struct Acceptances(Vec<Acceptance>);

impl Acceptances {
    /// Reads `accepted`; reports what cannot be accepted.
    pub fn read(field: &Field<Vec<(Name, Name)>>, problems: &mut Problems) -> Self {
        let mut all: Vec<Acceptance> = Vec::new();
        for (code, reason) in field.value().into_iter().flatten() {
            let wrong = |message: String| Problem::new(Code::NotAcceptable, code.span, message);
            let Some(known) = Code::parse(&code.value) else {
                let message = format!("there is no code `{}`", code.value);
                problems.error(wrong(message).help("write the code as it is shown, such as L105"));
                continue;
            };
            if let Some(first) = all.iter().find(|it| it.code == known) {
                let message = format!("{} is accepted twice", known.text());
                problems.error(
                    Problem::new(Code::RepeatedKey, code.span, message)
                        .label("again here")
                        .other(first.span, "first here")
                        .help("keep one, with all reasons"),
                );
                continue;
            }
            if !known.acceptable() {
                let code = known.text();
                let (message, note) = match known.severity() {
                    Severity::Error => (
                        format!("{code} is an error, and no error can be accepted"),
                        "no true sheet can be made as long as there is one",
                    ),
                    Severity::Warning => (
                        format!("{code} cannot be accepted"),
                        "what concerns safety of life is shown whenever it is found",
                    ),
                };
                problems.error(wrong(message).note(note).help("mend what it tells of"));
                continue;
            }
            let reason = reason.value.clone();
            all.push(Acceptance { code: known, reason, span: code.span });
        }
        Self(all)
    }

    /// Takes the accepted warnings out of `problems`. If nothing else is wrong, an acceptance that
    /// nothing needs is itself a warning; beside an error what it is for may not have been found.
    pub fn apply(&self, problems: &mut Problems) {
        let sound = problems.failed().is_none();
        for Acceptance { code, reason, span } in &self.0 {
            if !problems.accept(*code, reason) && sound {
                let message = format!("{} is accepted, but there is no such warning", code.text());
                problems.warning(
                    Problem::new(Code::AcceptedInVain, *span, message)
                        .label("nothing needs this any more")
                        .help("remove it"),
                );
            }
        }
    }
}
