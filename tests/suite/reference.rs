//! What the language says of itself: the reference, its examples, files to begin with, and whether the
//! reader holds to what is said of each key.

use std::path::Path;

use lidsheet::board::vocabulary;
use lidsheet::build::{self, reference_files};
use lidsheet::compile::Content;
use lidsheet::diagnostic::{Code, Problem, Problems};
use lidsheet::reference::{SAMPLES, Sample, example};
use lidsheet::source::{FileId, Sources, Span};
use lidsheet::spec::language::board::BOARD;
use lidsheet::spec::language::job::JOB;
use lidsheet::spec::language::{Form, Key, Kind, Need, Words};
use lidsheet::spec::walk::{Item, walk_form};
use lidsheet::spec::{parse, parse_job, tree};

use crate::cli::Project;
use crate::compile::compile_bytes;

/// Every form with every key, those of boards first.
pub fn keys() -> Vec<(&'static Form, &'static Key)> {
    let forms = BOARD.within().into_iter().chain(JOB.within());
    forms.flat_map(|form| form.keys.iter().map(move |key| (form, key))).collect()
}

/// An entry of a sample: what it is, where its key and its value stand.
pub struct Found {
    pub form: &'static Form,
    pub key: &'static Key,
    pub key_span: Span,
    pub span: Span,
}

/// All entries of a text whose outermost map is of that form.
pub fn entries(text: &str, form: &'static Form) -> Vec<Found> {
    let root = tree::read(FileId(0), text, &mut Problems::default()).expect("a sample is YAML");
    let mut all = Vec::new();
    walk_form(&root, form, &mut |item| {
        if let Item::Entry(form, key, entry) = item {
            let mut span = entry.value.span;
            // The sign of a text in lines belongs to it.
            let between = &text[entry.key.span.range().end..span.range().start];
            if let Some(at) = between.find('|') {
                span.start = entry.key.span.end + at as u32;
                span.end = span.start + text[span.range()].trim_end().len() as u32;
            }
            all.push(Found { form, key, key_span: entry.key.span, span });
        }
    });
    all
}

/// The text with something else at a place.
pub fn changed(text: &str, span: Span, new: &str) -> String {
    let mut text = text.to_owned();
    text.replace_range(span.range(), new);
    text
}

/// What the reader says of a text, without the checks of names.
fn read(sample: &Sample, text: &str) -> Vec<Problem> {
    let (mut sources, mut problems) = (Sources::default(), Problems::default());
    let file = sources.add(sample.name, text);
    if std::ptr::eq(sample.form, &JOB) {
        let _ = parse_job(file, &sources, &mut problems);
    } else {
        let _ = parse(file, &mut sources, &mut table, &mut problems);
    }
    problems.sorted()
}

/// A table of the demo.
fn table(path: &str) -> Result<Vec<u8>, String> {
    let specs = Path::new(env!("CARGO_MANIFEST_DIR")).join("specs");
    std::fs::read(specs.join(path)).map_err(|error| error.to_string())
}

/// A sample that has the key, and where.
fn place(form: &'static Form, key: &Key) -> (&'static Sample, Found) {
    let found = SAMPLES.iter().find_map(|sample| {
        let mut all = entries(sample.text, sample.form).into_iter();
        let same = |it: &Found| std::ptr::eq(it.form, form) && it.key.name == key.name;
        all.find(same).map(|found| (sample, found))
    });
    found.unwrap_or_else(|| panic!("no sample has the key `{}` of {}", key.name, form.name))
}

#[test]
fn the_reference_in_specs_is_that_of_the_program() {
    let specs = Path::new(env!("CARGO_MANIFEST_DIR")).join("specs");
    let files = reference_files();
    assert_eq!(files.len(), 4, "the page and three drawings");
    for file in files {
        let there = std::fs::read(specs.join(&file.name)).unwrap_or_default();
        let same = there == file.bytes;
        assert!(same, "{} is stale: run `lidsheet reference --out specs`", file.name);
    }
}

/// Each key stands in the reference with what it says, what may stand there and, if it is short, an
/// example; each code with its page.
#[test]
fn every_key_word_and_code_is_in_the_reference() {
    let page = lidsheet::reference::markdown("language-");
    for (form, key) in keys() {
        let line = format!("- `{}`", key.name);
        let found = page.lines().any(|it| it.starts_with(&line) && it.contains(key.says));
        assert!(found, "`{}` of {}", key.name, form.name);
        assert!(key.says.ends_with('.') && key.says.len() > 7, "`{}`: {}", key.name, key.says);
        let shown = example(form, key).expect("it has an example");
        assert!(!shown.is_empty(), "`{}` of {}", key.name, form.name);
    }
    for code in Code::ALL {
        assert!(page.contains(&format!("### {} (", code.text())), "{}", code.text());
    }
    for words in [Words::Effect, Words::Pin, Words::Device, Words::Color, Words::Fuse] {
        for (word, _) in vocabulary(words) {
            assert!(page.contains(&format!("\n- `{word}`")), "{word}");
        }
    }
}

#[test]
fn every_sample_is_sound() {
    let folder = tempfile::tempdir().expect("a folder");
    let specs = Path::new(env!("CARGO_MANIFEST_DIR")).join("specs");
    for sample in &SAMPLES {
        std::fs::write(folder.path().join(sample.name), sample.text).expect("written");
    }
    for table in ["curlew-10-layouts.csv", "plover-40-layouts.csv"] {
        std::fs::copy(specs.join(table), folder.path().join(table)).expect("copied");
    }
    for sample in &SAMPLES {
        let text = sample.text.replace("../", "");
        let checked = build::check_bytes(sample.name, text.into(), folder.path());
        assert!(checked.problems.failed().is_none(), "{}: {:#?}", sample.name, checked.problems);
        assert!(!matches!(checked.content, Content::Refused), "{}", sample.name);
    }
}

/// Without a key that must be there the reader says so, without one that need not it does not.
#[test]
fn the_reader_asks_for_exactly_the_keys_that_must_be_there() {
    for (form, key) in keys() {
        let (sample, found) = place(form, key);
        // A name that is like none: what stands there is reported, and the key is missing.
        let text = changed(sample.text, found.key_span, "qqqqqqqq");
        let lacks = read(sample, &text).into_iter().any(|it| it.code == Code::MissingKey);
        // `columns` may be missing only beside a table.
        let must = key.need == Need::Must || key.name == "columns";
        assert_eq!(lacks, must, "`{}` of {} in {}", key.name, form.name, sample.name);
    }
}

/// Every key is read: what cannot stand there is reported, at its place.
#[test]
fn what_is_of_another_kind_is_reported_where_it_stands() {
    for (form, key) in keys() {
        let (sample, found) = place(form, key);
        let text = changed(sample.text, found.span, "[[x], { y: z }]");
        let told = read(sample, &text);
        let place = found.span.start..=found.span.start + 15;
        let there =
            |it: &Problem| it.primary.as_ref().is_some_and(|it| place.contains(&it.span.start));
        assert!(told.iter().any(there), "`{}` of {}: {told:#?}", key.name, form.name);
    }
}

/// Words may be given by language exactly where it is said.
#[test]
fn words_by_language_are_taken_where_it_is_said() {
    for (form, key) in keys() {
        let is_words = matches!(key.kind, Kind::Title(_) | Kind::Prose(_));
        if !is_words && !matches!(key.kind, Kind::Line(_)) {
            continue;
        }
        let (sample, found) = place(form, key);
        let text = changed(sample.text, found.span, "{ en: one, de: eins }");
        let taken = read(sample, &text).iter().all(|it| it.code != Code::WrongKind);
        assert_eq!(taken, is_words, "`{}` of {}", key.name, form.name);
    }
}

/// What is said of a value's limits holds: both ends are taken, and what is beyond is not.
#[test]
fn the_limits_are_those_of_the_reader() {
    let mut tried = 0;
    for (form, key) in keys() {
        let kinds: Vec<&Kind> = match &key.kind {
            Kind::Either(kinds) => kinds.iter().collect(),
            kind => vec![kind],
        };
        for kind in kinds {
            let (good, bad) = limits(kind);
            let (sample, found) = place(form, key);
            let beyond = |text: &str| {
                let text = changed(sample.text, found.span, text);
                let codes = [Code::OutOfRange, Code::TextTooLong, Code::WrongValue];
                read(sample, &text).iter().any(|it| codes.contains(&it.code))
            };
            for text in &good {
                assert!(!beyond(text), "`{}` of {}: {text}", key.name, form.name);
            }
            for text in &bad {
                assert!(beyond(text), "`{}` of {}: {text}", key.name, form.name);
            }
            tried += good.len() + bad.len();
        }
    }
    assert!(tried > 150, "{tried}");
}

/// A number as a person writes it.
fn plain(value: f64) -> String {
    format!("{value:.5}").trim_end_matches('0').trim_end_matches('.').to_owned()
}

/// So little beyond an end is beyond it.
const BEYOND: f64 = 1.001;

/// Values at the ends of what a kind takes, and values beyond them.
fn limits(kind: &Kind) -> (Vec<String>, Vec<String>) {
    let unit = |unit: &str| if unit.is_empty() { String::new() } else { format!(" {unit}") };
    match kind {
        Kind::Line(most) | Kind::Title(most) | Kind::Prose(most) => {
            (vec!["x".repeat(*most)], vec!["x".repeat(most + 1)])
        }
        Kind::Quantity(it) | Kind::Run(it) => {
            let said = |value: f64| format!("{}{}", plain(value), unit(it.unit));
            let bad = vec![
                said(it.least / BEYOND),
                said(it.most * BEYOND),
                said(it.least).replace(it.unit, ""),
            ];
            (vec![said(it.least), said(it.most)], bad)
        }
        Kind::Number(it) | Kind::Horsepower(it) => {
            let bad = vec![plain(it.least / BEYOND), plain(it.most * BEYOND), "7 z".to_owned()];
            (vec![it.least.to_string(), it.most.to_string()], bad)
        }
        Kind::Whole(least, most) => {
            (vec![least.to_string(), most.to_string()], vec!["0".into(), (most + 1).to_string()])
        }
        _ => Default::default(),
    }
}

/// The words of a list are those that are taken where the list belongs, and no others are.
#[test]
fn the_words_of_a_list_are_those_that_are_taken() {
    let whole = |sample: &Sample, text: String| {
        compile_bytes(sample.name, text.into(), &mut table).problems
    };
    let unknown = [Code::UnknownWord, Code::UnknownEffect, Code::HouseLetters, Code::NoTableRow];
    for (form, key) in keys() {
        let Kind::Word(words) = key.kind else { continue };
        let (sample, found) = place(form, key);
        let is_job = std::ptr::eq(sample.form, &JOB);
        let refused = |word: &str| {
            let text = changed(sample.text, found.span, word);
            let told = if is_job {
                let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("src/reference/starters");
                let text = text.replace("../", "../../../specs/");
                let text = text.replace("board: plover", "board: ../../../specs/plover");
                let checked = build::check_bytes("sample.yaml", text.into(), &folder);
                checked.problems.sorted()
            } else {
                whole(sample, text)
            };
            told.iter().any(|it| unknown.contains(&it.code))
        };
        for (word, _) in vocabulary(words) {
            assert!(!refused(word), "`{}` of {}: {word}", key.name, form.name);
        }
        assert!(refused("banana"), "`{}` of {}", key.name, form.name);
    }
}

#[test]
fn what_start_writes_builds_at_once() {
    for like in &lidsheet::reference::LIKE {
        let project = Project::new()
            .run(&format!("start new/my-board --like {}", like.name))
            .ok()
            .says("next: lidsheet build new/my-board.yaml new/my-board-job.yaml")
            .has("new/my-board.yaml")
            .has("new/my-board-job.yaml")
            .run("build new/my-board.yaml new/my-board-job.yaml")
            .ok()
            .has("out/my-board/wiring-sheets.pdf");
        let text = std::fs::read_to_string(project.at("new/my-board.yaml")).expect("it is there");
        assert!(text.starts_with("# yaml-language-server: $schema=lidsheet-board.schema.json\n"));
        assert!(text.contains("name: \"my-board\""), "{text}");
        // Every section is explained, and every key of it.
        for (form, key) in keys().iter().filter(|(form, _)| std::ptr::eq(*form, &BOARD)) {
            let there = text.lines().any(|line| line.starts_with(&format!("{}:", key.name)));
            let said = text.contains(&format!("# {}", key.says.split(' ').next().unwrap_or("")));
            assert!(!there || said, "`{}` of {}", key.name, form.name);
        }
        assert!(text.lines().all(|line| !line.starts_with('#') || line.chars().count() <= 100));
        let schema = std::fs::read(project.at("new/lidsheet-board.schema.json")).expect("there");
        assert_eq!(schema, build::schema_text(&BOARD).into_bytes());
        // What is there stays.
        project
            .run("start new/my-board")
            .trouble()
            .complains("error[L056]")
            .complains("nothing was written");
    }
}

#[test]
fn a_board_is_begun_in_this_folder() {
    let project = Project::new()
        .run("start my-board")
        .ok()
        .says("next: lidsheet build my-board.yaml my-board-job.yaml")
        .has("my-board.yaml")
        .run("check my-board.yaml my-board-job.yaml")
        .ok();
    assert!(project.err().is_empty() || !project.err().contains("error"), "{}", project.err());
}

#[test]
fn start_refuses_what_is_no_name() {
    for name in ["../..", ".hidden", "x.yaml", "an-endless-name-for-a-control-board"] {
        Project::new().run(&format!("start {name}")).trouble();
    }
    Project::new().run("start").trouble();
    Project::new().run("start x --like banana").trouble().complains("small, heron-8, dense");
}

/// A set of layouts with a comma between curly brackets, without quotes.
#[test]
fn a_set_that_ends_at_its_comma_is_told_with_its_quotes() {
    let text =
        SAMPLES[0].text.replace("{ 2: waterfall, \"3-4\": waterfall }", "{ 2, 3-4: waterfall }");
    assert_ne!(text, SAMPLES[0].text);
    let told = read(&SAMPLES[0], &text);
    assert_eq!(told.len(), 1, "{told:#?}");
    let edit = told[0].help.as_ref().and_then(|help| help.edit.as_ref()).expect("an edit");
    assert_eq!((told[0].code, edit.text.as_str()), (Code::NoValue, "\"2, 3-4\""));
    let mended = changed(&text, edit.span, &edit.text);
    assert!(read(&SAMPLES[0], &mended).is_empty());
}
