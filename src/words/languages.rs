//! The languages that are compiled in.

use std::sync::{Arc, OnceLock};

use super::{BUILT_IN, Words};

/// A language of the sheets.
#[derive(Debug)]
pub struct Language {
    /// Its tag (BCP 47).
    pub tag: &'static str,
    /// What its speakers call it.
    pub name: &'static str,
    /// Its files of phrases, by name.
    pub phrases: &'static [(&'static str, &'static str)],
    /// Its templates and safety messages, by name; none of English, which `sheet` has.
    pub templates: &'static [(&'static str, &'static str)],
    /// The English texts that it was last compared with; empty for English itself.
    pub looked_at: &'static str,
    words: OnceLock<Arc<Words>>,
}

macro_rules! files {
    ($tag:literal: $($name:literal),* $(,)?) => {
        &[$(($name, include_str!(concat!("../../templates/", $tag, "/", $name)))),*]
    };
}

macro_rules! language {
    ($tag:literal, $name:literal) => {
        Language {
            tag: $tag,
            name: $name,
            phrases: files!($tag: "language.ftl", "devices.ftl", "figures.ftl", "faults.ftl", "sheets.ftl", "course.ftl", "field-page.ftl"),
            templates: files!($tag:
                "cautions.md", "front.md", "supply.md", "voltages.md", "layouts.md", "switches.md", "panel.md",
                "sockets.md", "fault-finder.md", "intake.md", "work-card.md", "lid-insert.md",
                "handout.md", "answers.md", "cards.md", "exercise.md", "answer.md", "example.md", "changes.md"),
            looked_at: include_str!(concat!("../../templates/", $tag, "/about/looked-at.txt")),
            words: OnceLock::new(),
        }
    };
}

/// All of them, English first: the others are translations of it.
pub static LANGUAGES: [Language; 4] = [
    Language {
        tag: "en",
        name: "English",
        phrases: BUILT_IN,
        templates: &[],
        looked_at: "",
        words: OnceLock::new(),
    },
    language!("de", "Deutsch"),
    language!("es", "español"),
    language!("fr", "français"),
];

/// English.
pub fn english() -> &'static Language {
    let [english, ..] = &LANGUAGES;
    english
}

impl Language {
    /// The language of a tag.
    pub fn of_tag(tag: &str) -> Option<&'static Self> {
        LANGUAGES.iter().find(|language| language.tag == tag)
    }

    /// Its phrases. The tests read the same files with [`Words::read`], which checks them.
    pub fn words(&'static self) -> Arc<Words> {
        let read = || {
            let texts: Vec<&str> = self.phrases.iter().map(|(_, text)| *text).collect();
            Arc::new(Words::unchecked(&texts).0)
        };
        Arc::clone(self.words.get_or_init(read))
    }
}
