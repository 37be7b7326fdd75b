//! What DEVELOPERS.md says that hostile input cannot do is held by tests that are there.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

/// The names of all functions in the files of a folder and below.
fn functions(folder: &Path, found: &mut BTreeSet<String>) {
    let paths = fs::read_dir(folder).expect("it is there").map(|it| it.expect("readable").path());
    for path in paths.collect::<Vec<PathBuf>>() {
        if path.is_dir() {
            functions(&path, found);
        } else if path.extension().is_some_and(|ending| ending == "rs") {
            let text = fs::read_to_string(&path).expect("readable");
            // The name of a test is followed by its parameters; in front of it stands what makes it one.
            let tests = text.split("#[test]").skip(1).filter_map(|rest| {
                let rest = rest.split_once("fn ")?.1;
                Some(rest.split_once('(')?.0.to_owned())
            });
            found.extend(tests);
        }
    }
}

#[test]
fn every_promise_about_hostile_input_names_tests_that_are_there() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let text = fs::read_to_string(root.join("DEVELOPERS.md")).expect("it is there");
    let section = text.split("## What hostile input can do").nth(1).expect("the section");
    let section = section.split("\n## ").next().unwrap_or_default();
    let mut there = BTreeSet::new();
    functions(&root.join("src"), &mut there);
    functions(&root.join("tests"), &mut there);
    let rows = section.lines().filter(|line| line.starts_with("| ") && !line.starts_with("| it "));
    let mut promises = 0;
    for row in rows.filter(|row| !row.starts_with("| --")) {
        let tests = row.trim_end_matches(" |").rsplit(" | ").next().unwrap_or_default();
        let named: Vec<&str> = tests.split(", ").map(|name| name.trim_matches('`')).collect();
        for name in &named {
            assert!(there.contains(*name), "no test is called {name}: {row}");
        }
        promises += usize::from(!named.is_empty());
    }
    assert!(promises > 8, "{promises}");
}
