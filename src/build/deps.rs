//! Which outputs came of which inputs, for programs that decide what to build: rules of Make, or JSON.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

use serde::Serialize;

use super::output::{self, Unwritten};
use super::{Outcome, Report};
use crate::compile::OutFile;
use crate::sheet::Templates;

/// What an output was made of.
#[derive(Debug, Serialize)]
struct Dependencies<'a> {
    /// Each output with every file that was read for it.
    outputs: BTreeMap<&'a str, BTreeSet<&'a str>>,
    /// The files that were refused or not begun, with every file that was read for them: their last outputs
    /// stay.
    refused: BTreeMap<&'a str, BTreeSet<&'a str>>,
}

/// Writes the dependencies of a build to `path`, whole or not at all: as JSON if its name ends in `.json`,
/// or else as rules of Make.
///
/// # Errors
/// If it cannot be written.
pub fn place(report: &Report, path: &Path) -> Result<(), Unwritten> {
    let all = of(report);
    let json = path.extension().is_some_and(|ending| ending == "json");
    let mut text = if json {
        serde_json::to_string_pretty(&all).unwrap_or_default()
    } else {
        rules(&all.outputs)
    };
    if !text.ends_with('\n') {
        text.push('\n');
    }
    let name = path.file_name().map(|name| name.to_string_lossy().into_owned());
    let folder = path.parent().filter(|parent| !parent.as_os_str().is_empty());
    let file = OutFile { name: name.unwrap_or_default(), bytes: text.into_bytes() };
    output::place(folder.unwrap_or(Path::new(".")), &[file]).map(drop)
}

fn of(report: &Report) -> Dependencies<'_> {
    let mut all = Dependencies { outputs: BTreeMap::new(), refused: BTreeMap::new() };
    let compiled_in = Templates::compiled_in();
    let mut every = BTreeSet::new();
    for file in &report.files {
        let read = file.sources.iter().map(|(_, file)| file.name.as_str());
        let read = read.filter(|name| !compiled_in.contains(*name));
        let inputs: BTreeSet<&str> = read.chain([file.shown.as_str()]).collect();
        every.extend(inputs.iter().copied());
        match &file.outcome {
            Outcome::Made { placed, .. } => {
                for path in placed.written.iter().chain(&placed.kept) {
                    all.outputs.insert(path, inputs.clone());
                }
            }
            Outcome::Refused | Outcome::Stopped => drop(all.refused.insert(&file.shown, inputs)),
        }
    }
    for path in report.index.iter().flat_map(|index| index.written.iter().chain(&index.kept)) {
        all.outputs.insert(path, every.clone());
    }
    all
}

/// Rules of Make without recipes. An empty rule for each input keeps Make going when one is gone.
fn rules(outputs: &BTreeMap<&str, BTreeSet<&str>>) -> String {
    let mut text = String::new();
    for (output, inputs) in outputs {
        text.push_str(&escaped(output));
        text.push(':');
        for input in inputs {
            text.push_str(" \\\n  ");
            text.push_str(&escaped(input));
        }
        text.push('\n');
    }
    let inputs: BTreeSet<&str> = outputs.values().flatten().copied().collect();
    for input in inputs {
        text.push_str(&format!("\n{}:\n", escaped(input)));
    }
    text
}

/// A path as Make reads it.
fn escaped(path: &str) -> String {
    let mut out = String::with_capacity(path.len());
    for letter in path.chars() {
        match letter {
            '$' => out.push_str("$$"),
            ' ' | '#' | '%' | ':' => out.extend(['\\', letter]),
            letter => out.push(letter),
        }
    }
    out
}
