//! A file as the language sees it: what stands where.

use std::ops::Range;

use crate::diagnostic::Problems;
use crate::source::FileId;
use crate::spec::language::board::BOARD;
use crate::spec::language::job::JOB;
use crate::spec::language::{Form, Key, Kind, Thing};
use crate::spec::walk::{Item, walk_form};
use crate::spec::{is_job, tree};

/// A text and what stands in it. Of a text that is not YAML nothing is known but its form.
#[derive(Clone, Debug)]
pub struct Document {
    /// The form of its outermost map: a specification or a job.
    pub form: &'static Form,
    /// What stands where, in the order of the text.
    pub marks: Vec<Mark>,
}

/// Something that stands at a place.
#[derive(Clone, Debug)]
pub struct Mark {
    /// Its bytes.
    pub range: Range<usize>,
    /// The bytes of all that belongs to it: of a thing, its name and its map.
    pub whole: Range<usize>,
    /// Its text.
    pub text: String,
    /// What it is.
    pub what: What,
}

/// What a text is.
#[derive(Clone, Copy, Debug)]
pub enum What {
    /// A key of the language.
    Key(&'static Form, &'static Key),
    /// The name that the file gives a thing.
    Thing(Thing, &'static Form),
    /// A value, or a key that is a value.
    Value(&'static Kind),
    /// A place for such a value, with nothing in it.
    Nothing(&'static Kind),
    /// A map of that form.
    Map(&'static Form),
    /// A key that its form does not know.
    Strange(&'static Form),
}

impl Document {
    /// Reads a text.
    pub fn read(text: &str) -> Self {
        let form = if is_job(text) { &JOB } else { &BOARD };
        Self { form, marks: marks(text, form).unwrap_or_default() }
    }

    /// What stands at a byte, the smallest that does. The place behind a word belongs to it.
    pub fn at(&self, offset: usize) -> Option<&Mark> {
        let there = self.marks.iter().filter(|mark| {
            !matches!(mark.what, What::Map(_))
                && mark.range.start <= offset
                && offset <= mark.range.end
        });
        there.min_by_key(|mark| mark.range.len())
    }
}

/// What stands in a text whose outermost map is of that form; `None` if it is not YAML.
pub fn marks(text: &str, form: &'static Form) -> Option<Vec<Mark>> {
    let root = tree::read(FileId(0), text, &mut Problems::default()).ok()?;
    let mut marks = Vec::new();
    walk_form(&root, form, &mut |item| {
        let (span, whole, text, what) = match item {
            Item::Map(form, node) => (node.span, node.span, "", What::Map(form)),
            Item::Entry(form, key, entry) => {
                let whole = entry.key.span.to(entry.value.span);
                (entry.key.span, whole, entry.key.value.as_str(), What::Key(form, key))
            }
            Item::Strange(form, entry) => {
                let span = entry.key.span;
                (span, span, entry.key.value.as_str(), What::Strange(form))
            }
            Item::Thing(thing, form, entry) => {
                let whole = entry.key.span.to(entry.value.span);
                (entry.key.span, whole, entry.key.value.as_str(), What::Thing(thing, form))
            }
            Item::Value(kind, text, span) => (span, span, text, What::Value(kind)),
            Item::Nothing(kind, span) => (span, span, "", What::Nothing(kind)),
        };
        marks.push(Mark {
            range: span.range(),
            whole: whole.range(),
            text: text.trim().to_owned(),
            what,
        });
    });
    Some(marks)
}
