//! What `lidsheet check --reading` shows.

use super::table::{paragraph, table};
use crate::compile::{self, Checked, Reading};
use crate::reading::{ENOUGH_WORDS, HIGHEST_GRADE, LEAST_EASE, ReadingLanguage, grade};
use crate::text::Typesetter;
use crate::units::fixed;
use crate::words::Language;

/// A table for each file that is sound, in a language, and what its columns mean.
pub fn measured(files: &mut [Checked], language: &'static Language) -> String {
    let Some(reads_as) = ReadingLanguage::of_tag(language.tag) else { return String::new() };
    let english = reads_as == ReadingLanguage::English;
    let mut set = Typesetter::new();
    let mut out = String::new();
    for file in files {
        let all = compile::reading(file, language, &mut set);
        if all.is_empty() {
            continue;
        }
        let mut head = vec!["part", "words", "a sentence", "a word", "ease"];
        if english {
            head.push("grade");
        }
        let rows: Vec<Vec<String>> = all.iter().map(|reading| row(reading, reads_as)).collect();
        out.push_str(&format!("{}\n{}\n", file.shown, table(&head, &rows)));
    }
    if !out.is_empty() {
        let formula = reads_as.formula();
        let grades = format!(
            "60 to 70 is plain; school grade by Flesch and Kincaid (1975), plain up to {HIGHEST_GRADE}"
        );
        let grades =
            if english { grades } else { format!("60 to 70 is plain, below {LEAST_EASE} is hard") };
        out.push_str(&paragraph(
            &format!(
                "Words in a sentence and syllables in a word on average; reading ease by {formula}, \
                 {grades}. \u{2013}: fewer than {ENOUGH_WORDS} words are too few."
            ),
            0,
        ));
        out.push('\n');
    }
    out
}

fn row(reading: &Reading, language: ReadingLanguage) -> Vec<String> {
    let Reading { of, section, counts } = reading;
    let part = if section.is_empty() { (*of).to_owned() } else { format!("{of}: {section}") };
    let shown = |value: Option<f64>, decimals| {
        value.filter(|_| counts.enough()).map_or("\u{2013}".to_owned(), |v| fixed(v, decimals))
    };
    let mut row = vec![
        part,
        counts.words.to_string(),
        shown(counts.words_per_sentence(), 1),
        shown(counts.syllables_per_word(), 2),
        shown(language.ease(*counts), 1),
    ];
    if language == ReadingLanguage::English {
        row.push(shown(grade(*counts), 1));
    }
    row
}
