//! Words of a specification by language: each sheet has its own, what lacks one is marked, and a mark or a
//! change sheet tells the words of one language from those of another.

use lidsheet::build::check_bytes;
use lidsheet::compile::{Checked, Content};
use lidsheet::meaning;
use lidsheet::spec;

use crate::cli::{GOOD, Project};
use crate::compile::{compile, told};
use crate::readers::reading;

const TITLE: &str = "title: Blower, ";
const BOTH: &str = "title: { en: Blower, de: Gebläse }, ";
const ENGLISH: &str = "title: { en: Blower }, ";

fn by_language() -> String {
    assert!(GOOD.contains("title: Pump 1, ") && GOOD.contains(TITLE));
    GOOD.replace("title: Pump 1, ", "title: { en: Pump 1, de: Pumpe eins }, ").replace(TITLE, BOTH)
}

fn checked(text: &str) -> Checked {
    check_bytes("a.yaml", text.into(), std::path::Path::new("."))
}

/// The titles of the headers in the language of a tag.
fn titles(checked: &Checked, tag: &str) -> Vec<String> {
    match &*checked.content_in(tag) {
        Content::Board(board) => board.headers.iter().map(|header| header.title.clone()).collect(),
        _ => panic!("{}", told(&checked.problems.sorted(), &checked.sources)),
    }
}

fn facts(checked: &Checked, tag: &str) -> String {
    match &*checked.content_in(tag) {
        Content::Board(board) => meaning::of_board(board).lines(),
        _ => panic!("{}", told(&checked.problems.sorted(), &checked.sources)),
    }
}

#[test]
fn a_board_has_the_words_of_the_language_that_is_built() {
    let checked = checked(&by_language());
    let [english, german, austrian, french] =
        ["en", "de", "de-AT", "fr"].map(|tag| titles(&checked, tag));
    assert!(english.contains(&"Blower".to_owned()) && english.contains(&"Pump 1".to_owned()));
    assert!(german.contains(&"Gebläse".to_owned()) && german.contains(&"Pumpe eins".to_owned()));
    assert_eq!(german, austrian);
    // A plain text is the same in every language, and marked in none.
    assert!(german.contains(&"Pump 2".to_owned()) && french.contains(&"Pump 2".to_owned()));
    assert!(french.contains(&"Blower\u{2020}".to_owned()), "{french:?}");
}

#[test]
fn words_that_lack_a_language_are_a_warning_with_its_place() {
    let text = by_language().replace(BOTH, ENGLISH);
    let found = compile(&text);
    assert_eq!(found.codes().iter().filter(|code| **code == "L707").count(), 1);
    let all = told(&found.problems, &found.sources);
    let line = text.lines().position(|line| line.contains(ENGLISH)).unwrap() + 1;
    let wanted = "L707 the title of header J8 has no words for `de`: `Blower`";
    assert!(
        all.lines().any(|it| it.starts_with(&format!("{line}:")) && it.ends_with(wanted)),
        "{all}"
    );
    // Whole in both: no warning, until a third language is built.
    let project = Project::new().file("specs/a.yaml", by_language());
    let project = project.run("check").ok();
    assert!(!project.err().contains("L707"), "{}", project.err());
    let project = project.run("build --language en,de").ok();
    assert!(!project.err().contains("L707"), "{}", project.err());
    let project = project.run("build --language fr").ok();
    assert_eq!(project.err().matches("warning[L707]").count(), 1, "{}", project.err());
    project
        .complains("the board has no words for `fr`, the language of these sheets")
        .run("build --language fr --deny-warnings")
        .fails();
}

#[test]
fn what_is_wrong_in_words_by_language_is_told() {
    let with = |title: &str| {
        let found = compile(&GOOD.replace(TITLE, title));
        (found.board.is_none(), told(&found.problems, &found.sources))
    };
    let (refused, all) = with("title: { en: Blower, dt: Gebläse }, ");
    assert!(
        refused && all.contains("L020 `dt` in `title` of header J8 is no language: `dt`"),
        "{all}"
    );
    let (refused, all) = with("title: { en: Blower, de: Gebläse, de: Luft }, ");
    assert!(refused && all.contains("L013"), "{all}");
    let (refused, all) = with("title: {}, ");
    assert!(refused && all.contains("L021"), "{all}");
    let (refused, all) = with("title: [Blower], ");
    assert!(refused && all.contains("L014"), "{all}");
    let long = "Gebläse".repeat(10);
    let (refused, all) = with(&format!("title: {{ en: Blower, de: {long} }}, "));
    assert!(refused && all.contains("L019"), "{all}");
    // A current decides what is wired: it cannot be another in each language.
    let amps = include_str!("../../specs/heron-8.yaml");
    let text = amps.replace("off off: 20 A", "off off: { en: 20 A, de: 28 A }");
    assert_ne!(text, amps);
    let found = compile(&text);
    assert!(found.board.is_none() && found.codes().contains(&"L014"), "{:?}", found.codes());
    // What is wrong in one language alone is found by a plain check.
    let steps = GOOD.replace(
        "panels:",
        "panels:\n  more:\n    title: More\n    choose layout: { en: \"Press {{ layout }}.\", de: \"Auf {{ leyout }} drücken.\" }",
    );
    let found = compile(&steps);
    let all = told(&found.problems, &found.sources);
    assert!(
        found.board.is_none() && all.contains("L703") && all.contains("`{{ leyout }}`"),
        "{all}"
    );
}

#[test]
fn a_specification_by_language_is_printed_as_it_is() {
    let found = compile(include_str!("../../specs/heron-8.yaml"));
    let written = found.spec.expect("it can be read");
    let printed = spec::print(&written);
    let again = compile(&printed).spec.expect("it can be read");
    assert_eq!(written, again, "{printed}");
    assert_eq!(written.languages(), ["en", "de", "es", "fr"]);
}

#[test]
fn the_words_of_a_language_change_the_facts_of_that_language_alone() {
    let before = checked(&by_language());
    let after = checked(&by_language().replace("Gebläse", "Luftgebläse"));
    assert_eq!(facts(&before, "en"), facts(&after, "en"));
    assert_ne!(facts(&before, "de"), facts(&after, "de"));
    // In the marks that a build prints, too.
    let project = Project::new().file("specs/a.yaml", by_language());
    let marks = |project: &Project| {
        let text = std::fs::read(project.at("out/manifest.json")).expect("a manifest");
        let read: serde_json::Value = serde_json::from_slice(&text).expect("JSON");
        let marks = &read["inputs"]["../specs/a.yaml"]["marks"];
        ["en", "de"].map(|tag| marks[tag]["now"].as_str().expect("a mark").to_owned())
    };
    let project = project.run("build --language en,de").ok();
    let [english, german] = marks(&project);
    let project = project.file("specs/a.yaml", by_language().replace("Gebläse", "Luftgebläse"));
    let project = project.run("build --language en,de").ok();
    // Other German words under the same revision are other words.
    assert!(project.err().contains("L058"), "{}", project.err());
    let [same, other] = marks(&project);
    assert_eq!(english, same);
    assert_ne!(german, other);
}

#[test]
fn changes_tell_the_words_of_every_language() {
    let new = by_language().replace("Gebläse", "Luftgebläse");
    let project = Project::new().file("old.yaml", by_language()).file("new.yaml", &new);
    let project = project.run("changes old.yaml new.yaml").fails();
    let project = project.says("WORDS IN OTHER LANGUAGES: DE").says("Luftgebläse");
    let project = project.run("changes old.yaml new.yaml --format json").fails();
    let found: serde_json::Value = serde_json::from_str(&project.out()).expect("JSON");
    assert_eq!((&found["differs"], &found["changes"]), (&true.into(), &serde_json::json!([])));
    let german = &found["in_languages"][0];
    assert_eq!((&german["language"], &german["changes"][0]["name"]), (&"de".into(), &"J8".into()));
    assert_eq!(german["changes"].as_array().map(Vec::len), Some(1), "{found:#}");
    // The sheet in German has them, that in English does not.
    let sheet = |project: &Project| {
        let bytes = std::fs::read(project.at("to/change-sheet.pdf")).expect("a sheet");
        reading::read(&bytes).said.into_iter().map(|said| said.text).collect::<String>()
    };
    let project = project.run("changes old.yaml new.yaml --out to --language de").fails();
    assert!(sheet(&project).contains("Luftgebläse"));
    let project = project.run("changes old.yaml new.yaml --out to").fails();
    assert!(!sheet(&project).contains("Luftgebläse"));
    // What is the same in all languages is told once.
    let both = by_language().replace("title: Pump 2, ", "title: Pump two, ");
    let project = project.file("new.yaml", &both).run("changes old.yaml new.yaml").fails();
    assert_eq!(project.out().matches("Pump two").count(), 1, "{}", project.out());
    assert!(!project.out().contains("WORDS IN OTHER"), "{}", project.out());
}

/// Every sheet that shows words in another language says so once, and marks each of them.
#[test]
fn words_in_another_language_are_marked_on_the_sheets() {
    let project = Project::new().file("specs/a.yaml", by_language());
    let said = |project: &Project, sheet: &str| {
        let bytes = std::fs::read(project.at(&format!("out/a/{sheet}"))).expect("a sheet");
        reading::read(&bytes).said.into_iter().map(|said| said.text).collect::<Vec<_>>().join(" ")
    };
    let legends = [
        ("fr", "\u{2020} Ces mots sont en anglais."),
        ("es", "\u{2020} Estas palabras están en inglés."),
    ];
    for (tag, legend) in legends {
        let project = Project::new().file("specs/a.yaml", by_language());
        let project = project.run(&format!("build --language {tag}")).ok();
        for sheet in ["wiring-sheets.pdf", "intake-form.pdf"] {
            let text = said(&project, sheet);
            assert_eq!(text.matches(legend).count(), 1, "{tag} {sheet}: {text}");
        }
        let text = said(&project, "wiring-sheets.pdf");
        assert!(text.contains("Blower\u{2020}") && text.contains("Pump 1\u{2020}"), "{text}");
        assert!(!text.contains("Pump 2\u{2020}"));
    }
    let project = project.run("build --language de").ok();
    assert!(!said(&project, "wiring-sheets.pdf").contains('\u{2020}'));
}

/// Words that are German first show what language they are in on English sheets.
#[test]
fn the_first_language_stands_in() {
    let german = GOOD.replace(TITLE, "title: { de: Gebläse, fr: Soufflante }, ");
    let project = Project::new().file("specs/a.yaml", german).run("build").ok();
    let project = project.complains("no words for `en`");
    let bytes = std::fs::read(project.at("out/a/wiring-sheets.pdf")).expect("a sheet");
    let text: String = reading::read(&bytes).said.into_iter().map(|said| said.text + " ").collect();
    assert!(text.contains("Gebläse\u{2020}"), "{text}");
    assert!(text.contains("\u{2020} These words are in German."), "{text}");
}
