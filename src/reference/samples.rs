//! Examples, cut out of whole files that the tests build.

use crate::diagnostic::Problems;
use crate::source::{FileId, Span};
use crate::spec::language::board::BOARD;
use crate::spec::language::job::JOB;
use crate::spec::language::{Form, Key};
use crate::spec::tree;
use crate::spec::walk::{Item, walk_form};

/// A whole file of the language.
#[derive(Clone, Copy, Debug)]
pub struct Sample {
    /// Its name.
    pub name: &'static str,
    /// Its text.
    pub text: &'static str,
    /// The form of its outermost map.
    pub form: &'static Form,
}

const fn board(name: &'static str, text: &'static str) -> Sample {
    Sample { name, text, form: &BOARD }
}

const fn job(name: &'static str, text: &'static str) -> Sample {
    Sample { name, text, form: &JOB }
}

/// The files that examples are taken from, the plainest first.
pub const SAMPLES: [Sample; 9] = [
    board("small.yaml", include_str!("starters/small.yaml")),
    job("small-job.yaml", include_str!("starters/small-job.yaml")),
    board("heron-8.yaml", include_str!("../../specs/heron-8.yaml")),
    job("2231.yaml", include_str!("../../specs/jobs/2231.yaml")),
    board("wren-3.yaml", include_str!("../../specs/wren-3.yaml")),
    board("curlew-10.yaml", include_str!("../../specs/curlew-10.yaml")),
    job("2238.yaml", include_str!("../../specs/jobs/2238.yaml")),
    board("plover-40.yaml", include_str!("../../specs/plover-40.yaml")),
    job("dense-job.yaml", include_str!("starters/dense-job.yaml")),
];

/// The value of a key as a sample writes it; `None` if no sample has the key.
pub fn example(form: &Form, key: &Key) -> Option<String> {
    SAMPLES.iter().find_map(|sample| {
        find(sample, |item| match item {
            Item::Entry(of, found, entry) if same(of, form) && found.name == key.name => {
                Some(entry.value.span)
            }
            _ => None,
        })
    })
}

/// A map of that form as a sample writes it, with its name if the file gives it one.
pub fn whole(form: &Form) -> Option<String> {
    SAMPLES.iter().find_map(|sample| {
        find(sample, |item| match item {
            Item::Thing(_, of, entry) if same(of, form) => {
                Some(entry.key.span.to(entry.value.span))
            }
            Item::Map(of, node) if same(of, form) => Some(node.span),
            _ => None,
        })
    })
}

fn same(one: &Form, other: &Form) -> bool {
    std::ptr::eq(one, other)
}

fn find(sample: &Sample, mut place: impl FnMut(Item<'_>) -> Option<Span>) -> Option<String> {
    // A text of the project's own; the tests read each of them.
    let root = tree::read(FileId(0), sample.text, &mut Problems::default()).ok()?;
    let mut found = None;
    walk_form(&root, sample.form, &mut |item| {
        if found.is_none() {
            found = place(item);
        }
    });
    let span = found?;
    let column = sample.text.get(..span.range().start)?.lines().next_back().map_or(0, str::len);
    let text = sample.text.get(span.range())?.trim_end();
    Some(text.lines().map(|line| outdented(line, column)).collect::<Vec<_>>().join("\n"))
}

/// The line without so many of the blanks that it begins with.
fn outdented(line: &str, column: usize) -> &str {
    let blanks = line.bytes().take(column).take_while(|byte| *byte == b' ').count();
    line.get(blanks..).unwrap_or(line)
}
