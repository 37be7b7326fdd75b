//! `lidsheet start --templates`: a copy of the templates, and a page about them.

use std::collections::BTreeSet;

use lidsheet::build::guide;
use lidsheet::sheet::template_files;
use lidsheet::words::LANGUAGES;

use crate::cli::{GOOD, Project};
use crate::readers::reading;

/// Sheets made with the copy are those that are made without it.
#[test]
fn a_copy_makes_the_same_sheets() {
    for language in ["en", "fr"] {
        let project = Project::new()
            .file("specs/heron-8.yaml", GOOD)
            .run(&format!("build --language {language}"))
            .ok();
        let sheets = std::fs::read(project.at("out/heron-8/wiring-sheets.pdf")).expect("made");
        let project = project
            .run(&format!("start --templates house --language {language}"))
            .ok()
            .has("house/front.md")
            .has("house/cautions.md")
            .has("house/language.ftl")
            .has("house/README.md")
            .run(&format!("build --language {language} --templates house"))
            .ok();
        let own = std::fs::read(project.at("out/heron-8/wiring-sheets.pdf")).expect("made");
        // Marks and what else is no part of the text may tell that the templates are one's own.
        let (own, sheets) = (reading::read(&own), reading::read(&sheets));
        assert_eq!(own.text(), sheets.text(), "{language}");
        assert_eq!(own.alternatives, sheets.alternatives, "{language}");
        assert!(sheets.text().len() > 5000 && !project.err().contains("L9"), "{}", project.err());
    }
}

/// Nothing in a fresh copy is missing, unused or outdated, whether of one language or of several.
#[test]
fn a_fresh_copy_is_clean() {
    let mut project = Project::new().run("start --templates all").ok();
    for language in &LANGUAGES {
        let tag = language.tag;
        project = project
            .run(&format!("start --templates one-{tag} --language {tag}"))
            .ok()
            .has(&format!("one-{tag}/about/looked-at.txt"));
        for folder in [format!("one-{tag}"), format!("all/{tag}")] {
            project = project
                .run(&format!("check --language {tag} --templates {folder} --deny-warnings"))
                .ok()
                .says("19 pages checked: 0 missing, 0 unused, 0 outdated");
        }
    }
    // The record counts: without it all would be outdated.
    std::fs::remove_file(project.at("one-de/about/looked-at.txt")).expect("it is there");
    project
        .run("check --language de --templates one-de --deny-warnings")
        .fails()
        .complains("warning[L917]");
}

#[test]
fn nothing_is_overwritten() {
    let project = Project::new().run("start --templates house").ok();
    for language in &LANGUAGES {
        for (name, text) in template_files(language) {
            let path = project.at(&format!("house/{}/{name}", language.tag));
            assert_eq!(std::fs::read_to_string(path).expect("it is there"), text, "{name}");
        }
    }
    let project = project
        .file("house/de/front.md", "mine")
        .run("start --templates house")
        .trouble()
        .complains("error[L056]")
        .complains("nothing was written");
    let mine = std::fs::read_to_string(project.at("house/de/front.md")).expect("it is there");
    assert_eq!(mine, "mine");
    // One file in the way is enough, whatever its language.
    project
        .file("other/fr/fault-finder.md", "mine")
        .run("start --templates other")
        .trouble()
        .lacks("other/en/front.md");
}

/// The folder of every language holds what its own folder in the source holds.
#[test]
fn every_file_of_the_source_is_copied() {
    for language in &LANGUAGES {
        let folder = format!("{}/templates/{}", env!("CARGO_MANIFEST_DIR"), language.tag);
        let entries = std::fs::read_dir(folder).expect("it is there");
        let entries = entries.map(|entry| entry.expect("readable"));
        let files = entries.filter(|entry| entry.path().is_file());
        let there: BTreeSet<String> =
            files.map(|entry| entry.file_name().to_string_lossy().into_owned()).collect();
        let copied: BTreeSet<String> =
            template_files(language).into_iter().map(|(name, _)| name).collect();
        assert_eq!(copied, there, "{}", language.tag);
    }
}

/// The page names every file, and every fact that a file puts in at its outermost.
#[test]
fn the_page_lists_files_facts_and_macros() {
    let (mut facts, mut macros) = (0, 0);
    for language in &LANGUAGES {
        let page = guide(language);
        assert!(!page.contains("TEMPLATES") && !page.contains("PHRASES"), "{page}");
        for (name, text) in template_files(language) {
            let line = page.lines().find(|line| line.starts_with(&format!("| `{name}` |")));
            let line = line.unwrap_or_else(|| panic!("{name} is not listed"));
            // What is put in by its name alone and is no variable of the template itself.
            for part in text.split("{{ ").skip(1) {
                let end = part.find(|c: char| !c.is_alphanumeric() && c != '_' && c != '.');
                let fact = &part[..end.unwrap_or(part.len())];
                let own = ["for ", "set ", ", ", "("].iter().any(|before| {
                    let root = fact.split('.').next().unwrap_or_default();
                    text.contains(&format!("{before}{root} in "))
                        || text.contains(&format!("{before}{root} ="))
                        || text.contains(&format!("{before}{root},"))
                        || text.contains(&format!("{before}{root})"))
                });
                if !name.ends_with(".md") || own || !fact.contains('.') || fact.starts_with("loop")
                {
                    continue;
                }
                assert!(line.contains(&format!("`{fact}`")), "{name}: {fact} is not in {line}");
                facts += 1;
            }
            for part in text.split("{% macro ").skip(1).filter(|_| name.ends_with(".md")) {
                let end = part.find('(').expect("parameters");
                assert!(line.contains(&format!("`{}(", &part[..end])), "{name}: {line}");
                macros += 1;
            }
        }
    }
    assert!(facts > 100 && macros >= 8, "{facts} facts, {macros} macros");
}
