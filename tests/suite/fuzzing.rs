//! The targets of the fuzzer, with the inputs that they begin with and those that once broke something; and
//! the words that the fuzzer puts together.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

use hayro::hayro_syntax::Pdf;
use lidsheet::board::vocabulary;
use lidsheet::spec::language::board::BOARD;
use lidsheet::spec::language::job::JOB;
use lidsheet::spec::language::{Form, Kind};

use crate::generate::{documents, specimen};

#[path = "../../fuzz/targets.rs"]
mod targets;

use targets::TARGETS;

const ROOT: &str = env!("CARGO_MANIFEST_DIR");

/// The files of a folder by name; none if there is no folder.
fn files(folder: PathBuf) -> Vec<PathBuf> {
    let entries = fs::read_dir(folder).into_iter().flatten();
    let mut all: Vec<PathBuf> =
        entries.map(|it| it.unwrap().path()).filter(|it| it.is_file()).collect();
    all.sort();
    all
}

#[test]
fn inputs_that_broke_something_are_mended() {
    let found = Path::new(ROOT).join("fuzz/found");
    let known: Vec<&str> = TARGETS.iter().map(|(name, _)| *name).collect();
    for path in fs::read_dir(&found).unwrap().map(|it| it.unwrap().path()).filter(|it| it.is_dir())
    {
        let name = path.file_name().and_then(|name| name.to_str()).unwrap_or_default();
        assert!(known.contains(&name), "{name} is no target");
    }
    for (name, target) in TARGETS {
        files(found.join(name)).iter().for_each(|path| target(&fs::read(path).unwrap()));
    }
}

/// So that no target says yes to everything, or no.
#[test]
fn every_target_takes_what_it_begins_with() {
    let seeds = |name: &str| match name {
        "specification" | "change-sheet" => vec!["tests/version-1/wren-3.yaml"],
        "job" => vec!["specs/jobs/2231.yaml", "specs/jobs/2235.yaml"],
        "table" => vec!["specs/curlew-10-layouts.csv"],
        "template" => vec!["templates/en/panel.md"],
        "language-server" => vec!["fuzz/messages/session", "fuzz/messages/strange"],
        "page-layout" => vec!["templates/en/figures.ftl", "specs/wren-3.yaml"],
        other => panic!("{other} has nothing to begin with"),
    };
    for (name, target) in TARGETS {
        for seed in seeds(name) {
            target(&fs::read(Path::new(ROOT).join(seed)).unwrap());
        }
    }
}

/// Renewed with `INSTA_UPDATE=always`, as the snapshots are.
#[test]
fn the_dictionary_has_every_word_of_the_language() {
    let mut words = BTreeSet::new();
    [&BOARD, &JOB].into_iter().for_each(|form| words_of(form, &mut words, &mut Vec::new()));
    assert!(words.len() > 150 && words.contains("key drawn") && words.contains("heater allowance"));
    let line = |word: &String| format!("\"{}\"\n", word.replace('\\', "\\\\").replace('"', "\\\""));
    let text: String = words.iter().map(line).collect();
    let path = Path::new(ROOT).join("fuzz/dictionary.txt");
    if std::env::var("INSTA_UPDATE").is_ok_and(|it| it == "always") {
        fs::write(&path, &text).unwrap();
    }
    assert_eq!(fs::read_to_string(path).unwrap_or_default(), text);
}

fn words_of(form: &'static Form, words: &mut BTreeSet<String>, told: &mut Vec<&'static str>) {
    if told.contains(&form.name) {
        return;
    }
    told.push(form.name);
    for key in form.keys {
        words.insert(key.name.to_owned());
        for inner in key.kind.forms() {
            words_of(inner, words, told);
        }
        of_kind(&key.kind, words);
    }
}

fn of_kind(kind: &'static Kind, words: &mut BTreeSet<String>) {
    match kind {
        Kind::Word(list) => {
            words.extend(vocabulary(*list).into_iter().map(|(word, _)| word.to_string()))
        }
        Kind::List(inner, ..) => of_kind(inner, words),
        Kind::Map(key, inner, ..) => [key, inner].into_iter().for_each(|it| of_kind(it, words)),
        Kind::Exactly(word) => drop(words.insert((*word).to_owned())),
        Kind::Either(kinds) => kinds.iter().for_each(|kind| of_kind(kind, words)),
        _ => {}
    }
}
