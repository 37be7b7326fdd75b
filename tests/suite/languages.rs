//! The languages that are compiled in: whole, without English, and honest about who checked them.

use std::collections::BTreeSet;
use std::path::Path;

use lidsheet::compile::{Content, SheetKind, job_pages};
use lidsheet::diagnostic::Problems;
use lidsheet::page::{Paper, lay_out};
use lidsheet::sheet::{Templates, board_fault_finder, figures, intake_form, wiring_sheets};
use lidsheet::source::Sources;
use lidsheet::text::Typesetter;
use lidsheet::words::{LANGUAGES, Language, english};

use crate::another_language::{allowed, said};
use crate::compile::{self, demo};

/// The languages that are translations.
fn translations() -> impl Iterator<Item = &'static Language> {
    LANGUAGES.iter().filter(|language| language.tag != "en")
}

/// Words that English sentences cannot do without, and that are no words of any of the other languages.
const ENGLISH: &[&str] = &[
    "the", "of", "with", "and", "is", "are", "this", "that", "from", "which", "does", "not",
    "when", "each", "wire", "wires", "switch", "layout", "ground", "before", "only", "check",
    "set", "turn", "press", "empty", "high", "low", "shipped", "unused",
];

/// The English words of a text, those of the board left out.
fn english_in(text: &str, allowed: &BTreeSet<String>) -> Vec<String> {
    let letters = |c: char| !c.is_alphabetic();
    text.split(letters)
        .filter(|word| ENGLISH.contains(&word.to_lowercase().as_str()) && !allowed.contains(*word))
        .map(str::to_owned)
        .collect()
}

/// A text without spaces and hyphens of parted words: its lines are read with spaces of their own.
fn closed_up(text: &str) -> String {
    text.chars().filter(|c| !c.is_whitespace() && *c != '\u{ad}').collect()
}

/// The same check as for a user's own language: every file, every phrase, every safety message of the
/// same rank.
#[test]
fn every_language_is_whole() {
    for language in translations() {
        let mut sources = Sources::default();
        let texts = language.phrases.iter().chain(language.templates);
        let files: Vec<_> = texts
            .map(|(name, text)| (*name, sources.add(*name, *text), (*text).to_owned()))
            .collect();
        let mut templates = Templates::built_in(&mut sources);
        let mut problems = Problems::default();
        let taken = templates.take_language(&files, &mut problems);
        assert!(taken.is_ok(), "{}", compile::told(&problems.sorted(), &sources));
        assert_eq!(templates.words().tag(), language.tag);
        // What lies in its folder is what is compiled in.
        let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("templates").join(language.tag);
        let mut lies: Vec<String> = std::fs::read_dir(&folder)
            .expect("it is there")
            .map(|entry| entry.expect("it can be read").path())
            .filter(|path| path.is_file())
            .map(|path| path.file_name().unwrap().to_string_lossy().into_owned())
            .collect();
        lies.sort();
        let mut known: Vec<&str> = files.iter().map(|(name, ..)| *name).collect();
        known.sort_unstable();
        assert_eq!(lies, known, "{}", language.tag);
    }
}

/// While nobody of the trade has checked a language, each sheet says so in it and in English.
#[test]
fn what_nobody_checked_says_so_and_holds_no_english() {
    let mut set = Typesetter::new();
    for language in translations() {
        let words = language.words();
        let notice = words.unchecked_notice();
        let [own, honest] = notice.expect("whoever checked it changes this test");
        let mut sheets: Vec<(String, Vec<String>, BTreeSet<String>)> = Vec::new();
        for name in demo::BOARDS {
            let board = demo::board_in(name, language.tag);
            let mut sources = Sources::default();
            let templates = Templates::in_language(language, &mut sources);
            for paper in Paper::ALL {
                let mut problems = Problems::default();
                let drawn = figures(&board, templates.words(), &mut set, paper);
                let made = wiring_sheets(&board, &drawn, &templates, paper, &mut problems);
                let Ok(made) = made else {
                    panic!("{name}: {}", compile::told(&problems.sorted(), &sources));
                };
                let pages = lay_out(&made, paper, &mut set);
                sheets.push((format!("{name} {paper:?}"), said(&pages), allowed(&board)));
            }
            let mut problems = Problems::default();
            let finder = board_fault_finder(&board, &templates, &mut problems);
            let finder = finder.expect("it is made").expect("its layouts can be planned");
            for paper in Paper::ALL {
                let name = format!("finder of {name} {paper:?}");
                sheets.push((name, said(&lay_out(&finder, paper, &mut set)), allowed(&board)));
            }
            let form = intake_form(&board, &format!("{name}.yaml"), &templates, &mut problems);
            let pages = lay_out(&form.expect("it is made"), Paper::A4, &mut set);
            // The form has the words of a job file.
            let mut known = allowed(&board);
            known.extend(["layout", "low", "high"].map(str::to_owned));
            sheets.push((format!("form of {name}"), said(&pages), known));
        }
        let jobs = Path::new(env!("CARGO_MANIFEST_DIR")).join("specs/jobs");
        for checked in lidsheet::build::check(&[jobs], &mut Problems::default()) {
            let Content::Job(Some(planned)) = checked.content_in(language.tag).into_owned() else {
                panic!("{}", checked.shown)
            };
            let mut sources = Sources::default();
            let templates = Templates::in_language(language, &mut sources);
            for paper in [Paper::A4, Paper::A5] {
                let mut problems = Problems::default();
                for kind in SheetKind::OF_JOB {
                    let look = (&templates, paper);
                    let made = job_pages(&planned, kind, look, &mut set, &mut problems);
                    let Ok(Some(pages)) = made else {
                        panic!(
                            "{}: {}",
                            checked.shown,
                            compile::told(&problems.sorted(), &sources)
                        );
                    };
                    let name = format!("{} of {} {paper:?}", kind.name(), checked.shown);
                    sheets.push((name, said(&pages), allowed(&planned.board)));
                }
            }
        }
        for (name, texts, allowed) in sheets {
            // A paragraph is read line by line.
            let notice = closed_up(&own) + &closed_up(&honest);
            assert!(closed_up(&texts.concat()).contains(&notice), "{}: {name}", language.tag);
            let is_notice = |text: &&String| notice.contains(&closed_up(text));
            for text in texts.iter().filter(|text| !is_notice(text)) {
                let left = english_in(&text.replace('\u{ad}', ""), &allowed);
                assert!(left.is_empty(), "{}: {name}: {left:?} in {text:?}", language.tag);
            }
        }
    }
    assert!(english().words().is_checked());
}
