//! What making any sheets needs.

use std::panic::{AssertUnwindSafe, catch_unwind};

use crate::diagnostic::{Code, Problem, Problems, Reported};
use crate::source::Sources;
use crate::text::Typesetter;

/// A file to be.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OutFile {
    /// Its name in its folder; with `/` if it lies in one of that.
    pub name: String,
    /// What it holds.
    pub bytes: Vec<u8>,
}

/// What `make` gives. If it stops half-way, that is a mistake of ours, and an error of the file.
pub fn catching_panics<T>(
    texts: &mut FileContext<'_>,
    set: &mut Typesetter,
    make: impl FnOnce(&mut FileContext<'_>, &mut Typesetter) -> Result<T, Reported>,
) -> Result<T, Reported> {
    let made = catch_unwind(AssertUnwindSafe(|| make(texts, set)));
    made.unwrap_or_else(|_| {
        *set = Typesetter::new();
        let fault = our_fault(texts.shown, "making the sheets stopped half-way");
        Err(texts.problems.error(fault))
    })
}

/// What belongs to a file while its sheets are made.
pub struct FileContext<'a> {
    /// The file as people are shown it.
    pub shown: &'a str,
    /// Takes the texts of the templates.
    pub sources: &'a mut Sources,
    /// Takes what is wrong with them.
    pub problems: &'a mut Problems,
}

/// A mistake of our own.
pub fn our_fault(shown: &str, what: &str) -> Problem {
    Problem::of_file(Code::Internal, shown, format!("{what}; this is a mistake in lidsheet"))
        .help("report it, with this file; the last good sheets were left as they are")
}
