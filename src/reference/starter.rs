//! Files to begin with: a board and a job that build at once, with what each key says.

use super::samples::SAMPLES;
use super::values::default_of;
use crate::spec::language::{Form, Key};

/// A board to begin with something like.
#[derive(Clone, Copy, Debug)]
pub struct Like {
    /// Its name on the command line.
    pub name: &'static str,
    /// What it is.
    pub says: &'static str,
    /// Samples: the board, and a job of it.
    files: [&'static str; 2],
    /// Its tables, each with its name.
    tables: &'static [(&'static str, &'static str)],
}

/// All of them; the first is the default.
pub const LIKE: [Like; 3] = [
    Like {
        name: "small",
        says: "five headers, two jumpers, a switch bank, one layout number entered on a panel",
        files: ["small.yaml", "small-job.yaml"],
        tables: &[],
    },
    Like {
        name: "heron-8",
        says: "eight headers on two circuit boards, twelve layouts, a rotary selector, four languages",
        files: ["heron-8.yaml", "2231.yaml"],
        tables: &[],
    },
    Like {
        name: "dense",
        says: "forty headers on three circuit boards, layouts in a table",
        files: ["plover-40.yaml", "dense-job.yaml"],
        tables: &[("plover-40-layouts.csv", include_str!("../../specs/plover-40-layouts.csv"))],
    },
];

/// A file to begin with.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Starter {
    /// Its name.
    pub file: String,
    /// Its text.
    pub text: String,
}

/// The files of a board called `name`, and of a job of it: the board first, the job second, then tables.
/// `schemas` names the schema of a board and of a job, which editors read.
pub fn starter(like: &Like, name: &str, schemas: [&str; 2]) -> Vec<Starter> {
    let [board, _] = like.files;
    let stem = board.trim_end_matches(".yaml");
    let mut files = Vec::new();
    for ((sample, ending), schema) in like.files.iter().zip(["", "-job"]).zip(schemas) {
        let Some(sample) = SAMPLES.iter().find(|one| one.name == *sample) else { continue };
        let text = renamed(sample.text, stem, name, ending.is_empty());
        let text = annotated(&text, sample.form);
        let text = format!("# yaml-language-server: $schema={schema}\n{text}");
        files.push(Starter { file: format!("{name}{ending}.yaml"), text });
    }
    for (file, text) in like.tables {
        files.push(Starter { file: file.replacen(stem, name, 1), text: (*text).to_owned() });
    }
    files
}

/// The text with its own name in place of the sample's: of the board, of its file, of its tables.
fn renamed(text: &str, stem: &str, name: &str, is_board: bool) -> String {
    let mut out = String::with_capacity(text.len());
    let mut named = !is_board;
    for line in text.lines() {
        let trimmed = line.trim_start();
        if !named && trimmed.starts_with("name: ") {
            named = true;
            let indent = &line[..line.len() - trimmed.len()];
            out.push_str(&format!("{indent}name: \"{name}\""));
        } else if !is_board && line.starts_with("board: ") {
            out.push_str(&format!("board: \"{name}.yaml\""));
        } else {
            out.push_str(&line.replace(&format!("{stem}-"), &format!("{name}-")));
        }
        out.push('\n');
    }
    out
}

/// The text with a comment before each section that says what it is and which keys it takes.
fn annotated(text: &str, form: &'static Form) -> String {
    let mut out = String::with_capacity(text.len() * 2);
    for line in text.lines() {
        let section = line.split_once(':').map(|(key, _)| key).and_then(|key| form.key(key));
        if let Some(key) = section.filter(|_| !line.starts_with([' ', '#'])) {
            comment(key, &mut out);
        }
        out.push_str(line);
        out.push('\n');
    }
    out
}

fn comment(key: &'static Key, out: &mut String) {
    let inner: Vec<_> = key.kind.forms().into_iter().flat_map(Form::within).collect();
    if !inner.is_empty() && !out.ends_with("\n\n") {
        out.push('\n');
    }
    let without = default_of(key).map(|it| format!(" Without it: {it}.")).unwrap_or_default();
    wrapped(&format!("{}{without}", key.says), "# ", "# ", out);
    for (index, form) in inner.into_iter().enumerate() {
        if index > 0 {
            wrapped(&format!("{}: {}", form.name, form.says), "#  ", "#  ", out);
        }
        let widest = form.names().map(str::len).max().unwrap_or(0);
        for key in form.keys {
            let need = if default_of(key).is_none() { "" } else { "(optional) " };
            let name = format!("#   {:<widest$}  ", key.name);
            let blank = format!("#   {:<widest$}  ", "");
            wrapped(&format!("{need}{}", key.says), &name, &blank, out);
        }
    }
}

/// Longest line of a comment, characters.
const WIDTH: usize = 100;

/// The text in lines that begin with `first`, and then with `next`.
fn wrapped(text: &str, first: &str, next: &str, out: &mut String) {
    let mut line = first.to_owned();
    let mut empty = true;
    for word in text.split(' ') {
        if !empty && line.chars().count() + 1 + word.chars().count() > WIDTH {
            out.push_str(line.trim_end());
            out.push('\n');
            line = next.to_owned();
            empty = true;
        }
        if !empty {
            line.push(' ');
        }
        line.push_str(word);
        empty = false;
    }
    out.push_str(line.trim_end());
    out.push('\n');
}
