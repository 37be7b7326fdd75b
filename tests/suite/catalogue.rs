//! The samples in the pages of the codes do what the pages say.
//!
//! A sample is some sections of a specification. Here they take the place of the sections of the
//! same name in `tests/diagnostics/base.yaml`, a small sound board.

use std::path::Path;

use crate::compile::{Outcome, compile_bytes, compile_file};
use lidsheet::build;
use lidsheet::compile::Checked;
use lidsheet::compile::Content;
use lidsheet::diagnostic::{Code, explain, page};

const BASE: &str = include_str!("../diagnostics/base.yaml");

/// Sections of a text: the key at the start of a line, and all lines up to the next such key.
fn sections(text: &str) -> Vec<(&str, String)> {
    let mut all: Vec<(&str, String)> = Vec::new();
    for line in text.lines() {
        let second_document = all.iter().any(|(key, _)| *key == "---");
        let key = if line == "---" { Some("---") } else { line.split_once(':').map(|(k, _)| k) };
        let starts = line.starts_with(|c: char| c.is_ascii_lowercase() || c == '-');
        match key.filter(|_| starts && !second_document) {
            Some(key) => all.push((key, line.to_owned())),
            None => match all.last_mut() {
                Some((_, text)) => *text += &format!("\n{line}"),
                None => all.push(("", line.to_owned())),
            },
        }
    }
    all
}

/// A sample of a job takes the place of keys of `tests/diagnostics/jobs/base.yaml`.
fn of_jobs(code: &str, wrong: &str, right: &str) {
    let base = include_str!("../diagnostics/jobs/base.yaml");
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/diagnostics/jobs");
    let check = |sample| build::check_bytes("sample.yaml", merged(base, sample).into(), &folder);
    let told = |checked: &Checked| -> Vec<&str> {
        checked.problems.sorted().iter().map(|problem| problem.code.text()).collect()
    };
    let (wrong, right) = (check(wrong), check(right));
    assert!(told(&wrong).contains(&code), "{code}: {:#?}", wrong.problems.sorted());
    assert!(right.problems.is_empty(), "{code}: {:#?}", right.problems.sorted());
    assert!(matches!(right.content, Content::Job(Some(_))), "{code}");
}

/// What comes of a sample on the base.
fn on_base(sample: &str) -> Outcome {
    // A sample that starts as a file does and names its board is a whole one.
    let whole = sample.starts_with("lidsheet:") && sample.contains("\nboard:");
    let text = if whole { sample.to_owned() } else { merged(BASE, sample) };
    let tables = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/diagnostics");
    compile_bytes("sample.yaml", text.into_bytes(), &mut |path| {
        std::fs::read(tables.join(path)).map_err(|_| "no such file".to_owned())
    })
}

/// The base with the sample's sections in place of its own.
pub fn merged(base: &str, sample: &str) -> String {
    let mut merged = sections(base);
    for (key, text) in sections(sample) {
        match merged.iter_mut().find(|(known, _)| *known == key && !key.is_empty()) {
            Some(place) => place.1 = text,
            None if key.is_empty() => merged = vec![("", text)],
            None => merged.push((key, text)),
        }
    }
    let text: Vec<String> = merged.into_iter().map(|(_, text)| text).collect();
    text.join("\n")
}

#[test]
fn the_base_is_sound() {
    let outcome = compile_file("tests/diagnostics/base.yaml");
    assert!(outcome.problems.is_empty(), "{}", outcome.shown());
    assert!(outcome.board.is_some());
}

#[test]
fn every_sample_does_what_its_page_says() {
    // Too large to be shown, not text, or caused by no specification.
    let without = ["L001", "L002", "L006"];
    for code in Code::ALL {
        let page = page(*code);
        assert!(!page.title.is_empty() && !page.text.is_empty(), "{}", code.text());
        // Files, the drawn plan and templates are tested where they are dealt with.
        if code.text().starts_with("L6") {
            of_jobs(code.text(), page.wrong, page.right);
            continue;
        }
        let elsewhere = ["L05", "L705", "L9"];
        if elsewhere.iter().any(|start| code.text().starts_with(start)) {
            continue;
        }
        if without.contains(&code.text()) {
            assert!(page.wrong.is_empty() && page.right.is_empty(), "{}", code.text());
            continue;
        }
        let wrong = on_base(page.wrong);
        assert!(wrong.codes().contains(&code.text()), "{}: {}", code.text(), wrong.shown());
        let right = on_base(page.right);
        assert!(right.problems.is_empty(), "{}: {}", code.text(), right.shown());
        assert!(right.board.is_some(), "{}", code.text());
    }
}

#[test]
fn a_page_reads_well() {
    assert_snapshot!("catalogue__a_page_reads_well", explain(Code::GroupOnEarth));
}

#[test]
fn codes_are_in_order_and_never_the_same() {
    let texts: Vec<&str> = Code::ALL.iter().map(|code| code.text()).collect();
    assert!(texts.windows(2).all(|pair| pair[0] < pair[1]), "{texts:?}");
    for code in Code::ALL {
        assert_eq!(Code::parse(&code.text().to_lowercase()), Some(*code));
    }
    assert_eq!(Code::parse("L999"), None);
}
