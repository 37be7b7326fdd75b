//! The boards in `specs` are what a reader meets first: they are sound, and warn of nothing but
//! what their maker meant.

use std::fs;
use std::path::{Path, PathBuf};

use lidsheet::board::{self, Board};
use lidsheet::diagnostic::Problems;
use lidsheet::source::Sources;
use lidsheet::spec;

fn specs() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("specs")
}

/// Layouts that differ in the circulation pump alone: people do forget its column, and every real
/// matrix has such pairs.
const ONLY_CIRCULATION: [&str; 1] = ["L309 circulation"];

/// The board of a file in `specs`, and its warnings as code and the text at their place.
fn compiled(name: &str) -> (Board, Vec<String>) {
    let text = fs::read(specs().join(name)).expect("the file is there");
    let mut sources = Sources::default();
    let mut problems = Problems::default();
    let mut load = |path: &str| fs::read(specs().join(path)).map_err(|error| error.to_string());
    let board = spec::admit(name, text, &mut sources, &mut problems)
        .and_then(|file| spec::parse(file, &mut sources, &mut load, &mut problems))
        .and_then(|spec| board::check(&spec, &sources, &mut problems));
    let told: Vec<String> = problems
        .sorted()
        .iter()
        .map(|problem| {
            let place = problem.primary.as_ref().map_or("", |label| sources.text(label.span));
            format!("{} {place}", problem.code.text())
        })
        .collect();
    (board.unwrap_or_else(|_| panic!("{name}: {told:#?}")), told)
}

#[test]
fn heron_8() {
    let (board, warnings) = compiled("heron-8.yaml");
    assert_eq!((board.headers.len(), board.layouts.len()), (7, 12));
    assert_eq!(warnings, ONLY_CIRCULATION);
}

#[test]
fn wren_3() {
    let (board, warnings) = compiled("wren-3.yaml");
    assert_eq!((board.headers.len(), board.layouts.len()), (5, 4));
    assert_eq!(warnings, ONLY_CIRCULATION);
}

#[test]
fn curlew_10() {
    let (board, warnings) = compiled("curlew-10.yaml");
    assert_eq!((board.headers.len(), board.layouts.len()), (12, 24));
    assert_eq!(warnings, ONLY_CIRCULATION);
}
