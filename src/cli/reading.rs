//! What `lidsheet check --reading` shows.

use super::table::{paragraph, table};
use crate::build::{self, Checked, Reading};
use crate::reading::{ENOUGH_WORDS, HIGHEST_GRADE, flesch, grade};
use crate::text::Typesetter;
use crate::units::fixed;

/// A table for each file that is sound, and what its columns mean.
pub fn measured(files: &mut [Checked]) -> String {
    let mut set = Typesetter::new();
    let mut out = String::new();
    for file in files {
        let all = build::reading(file, &mut set);
        if all.is_empty() {
            continue;
        }
        let head = ["part", "words", "a sentence", "a word", "ease", "grade"];
        let rows: Vec<Vec<String>> = all.iter().map(row).collect();
        out.push_str(&format!("{}\n{}\n", file.shown, table(&head, &rows)));
    }
    if !out.is_empty() {
        out.push_str(&paragraph(
            &format!(
                "Words in a sentence and syllables in a word on average; reading ease by Flesch \
                 (1948), 60 to 70 is plain; school grade by Flesch and Kincaid (1975), plain up to \
                 {HIGHEST_GRADE}. \u{2013}: fewer than {ENOUGH_WORDS} words are too few."
            ),
            0,
        ));
        out.push('\n');
    }
    out
}

fn row(reading: &Reading) -> Vec<String> {
    let Reading { of, section, counts } = reading;
    let part = if section.is_empty() { (*of).to_owned() } else { format!("{of}: {section}") };
    let shown = |value: Option<f64>, decimals| {
        value.filter(|_| counts.enough()).map_or("\u{2013}".to_owned(), |v| fixed(v, decimals))
    };
    vec![
        part,
        counts.words.to_string(),
        shown(counts.words_per_sentence(), 1),
        shown(counts.syllables_per_word(), 2),
        shown(flesch(*counts), 1),
        shown(grade(*counts), 1),
    ]
}
