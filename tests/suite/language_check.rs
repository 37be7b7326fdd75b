//! `lidsheet check --language`: what a language lacks, what nothing asks for, and what follows an English text
//! that has changed since.

use std::fs;
use std::path::Path;

use lidsheet::build::check_language;
use lidsheet::words::LANGUAGES;

use crate::cli::Project;
use crate::compile::told;

const RECORD: &str = "my/about/looked-at.txt";

/// A folder with the German files, `my`.
fn german() -> Project {
    let from = Path::new(env!("CARGO_MANIFEST_DIR")).join("templates/de");
    let mut project = Project::new();
    for entry in fs::read_dir(&from).expect("it is there").flatten() {
        if entry.path().is_file() {
            let name = entry.file_name().to_string_lossy().into_owned();
            project = project.file(&format!("my/{name}"), fs::read(entry.path()).expect("read"));
        }
    }
    project.file(RECORD, fs::read(from.join("about/looked-at.txt")).expect("read"))
}

fn text(project: &Project, path: &str) -> String {
    fs::read_to_string(project.at(path)).expect("a text")
}

/// With another text in place of a part of a file.
fn with(project: Project, path: &str, from: &str, to: &str) -> Project {
    let old = text(&project, path);
    assert!(old.contains(from), "{from}");
    project.file(path, old.replacen(from, to, 1))
}

/// The line of the record for a text, without its sum.
fn line_of(project: &Project, key: &str) -> String {
    let record = text(project, RECORD);
    let line = record.lines().find(|line| line.ends_with(&format!(" {key}")));
    line.unwrap_or_else(|| panic!("{key} is not in\n{record}")).to_owned()
}

/// Whoever changes an English phrase or page looks at each translation, and notes it:
/// `lidsheet check --language de --templates templates/de --looked-at NAME`.
#[test]
fn the_languages_that_are_compiled_in_follow_english() {
    for language in &LANGUAGES {
        let report = check_language(language, None);
        let all = told(&report.problems.sorted(), &report.sources);
        assert!(report.problems.is_empty(), "{}: {all}", language.tag);
        let english = check_language(&LANGUAGES[0], None);
        assert_eq!(report.phrases, english.phrases, "{}", language.tag);
        assert!(report.phrases > 400, "{}", report.phrases);
        assert_eq!(report.pages, if language.tag == "en" { 0 } else { 19 });
    }
}

#[test]
fn a_whole_language_has_nothing_to_tell() {
    let project = german().run("check --language de --templates my --deny-warnings").ok();
    project.says("0 missing, 0 unused, 0 outdated").run("check --language de").ok();
}

#[test]
fn what_is_missing_or_unused_is_an_error_at_its_place() {
    let project =
        with(german(), "my/figures.ftl", "\nswitches_and_effect =", "\nswitches_and_use =");
    let project = project.run("check --language de --templates my").fails();
    let project = project
        .complains("error[L915]: the language lacks the phrase `switches_and_effect`")
        .complains("error[L913]: no sheet has a phrase `switches_and_use`")
        .complains("my/figures.ftl:")
        .says("1 missing, 1 unused");
    fs::remove_file(project.at("my/supply.md")).unwrap();
    project
        .run("check --language de --templates my")
        .fails()
        .complains("error[L916]: the language lacks the file `supply.md`")
        .says("2 missing, 1 unused");
}

#[test]
fn what_follows_an_older_english_text_is_outdated_until_it_is_looked_at() {
    let project = german();
    let phrase = line_of(&project, "sheets.ftl foot_and_mark");
    let page = line_of(&project, "supply.md");
    let older = |line: &str| format!("0123456789ab{}", &line[12..]);
    let project = with(project, RECORD, &phrase, &older(&phrase));
    let project = with(project, RECORD, &page, &older(&page));
    let project = project.run("check --language de --templates my").ok();
    let project = project
        .complains("warning[L917]: the English phrase `foot_and_mark` has changed since")
        .complains("warning[L917]: the English page `supply.md` has changed since")
        .complains("my/sheets.ftl:")
        .says("0 missing, 0 unused, 2 outdated")
        .run("check --language de --templates my --deny-warnings")
        .fails()
        .run("check --language de --templates my --format json")
        .ok();
    let found: serde_json::Value = serde_json::from_str(&project.out()).expect("JSON");
    let told: Vec<(&str, &str)> = found
        .as_array()
        .expect("a list")
        .iter()
        .map(|it| (it["code"].as_str().unwrap(), it["file"].as_str().unwrap()))
        .collect();
    assert_eq!(told, [("L917", "my/sheets.ftl"), ("L917", "my/supply.md")], "{found:#}");
    // One of them is looked at, then all.
    let project = project.run("check --language de --templates my --looked-at foot_and_mark").ok();
    assert_eq!(line_of(&project, "sheets.ftl foot_and_mark"), phrase);
    let project = project.run("check --language de --templates my").ok();
    let project = project.says("0 missing, 0 unused, 1 outdated");
    let project = project.run("check --language de --templates my --looked-at").ok();
    assert_eq!(line_of(&project, "supply.md"), page);
    project
        .run("check --language de --templates my --deny-warnings")
        .ok()
        .run("check --language de --templates my --looked-at no_such_phrase")
        .trouble()
        .complains("is called `no_such_phrase`");
}

#[test]
fn a_folder_without_a_record_is_told_once() {
    let project = german();
    fs::remove_file(project.at(RECORD)).unwrap();
    let project = project.run("check --language de --templates my").ok();
    assert_eq!(project.err().matches("L917").count(), 1, "{}", project.err());
    // A text that the record does not know is one of its own.
    let project = project.run("check --language de --templates my --looked-at").ok();
    let line = line_of(&project, "front.md") + "\n";
    let project = with(project, RECORD, &line, "");
    project
        .run("check --language de --templates my")
        .ok()
        .complains("nothing says which English page `front.md` follows");
}

#[test]
fn the_command_line_is_judged() {
    let project = german();
    project
        .run("check --language xx")
        .trouble()
        .run("check --looked-at")
        .trouble()
        .run("check --templates my")
        .trouble()
        .complains("belongs to")
        .run("check --language fr --templates my")
        .trouble()
        .complains("the language of that folder is `de`");
}
