//! How easy the words of a checked file, and of the sheets that come of it, are to read.

use super::checked::{Checked, Content};
use super::job_sheets;
use crate::document::Document;
use crate::page::Paper;
use crate::reading::{Counts, ReadingLanguage};
use crate::sheet::{self, Section, Templates};
use crate::text::Typesetter;
use crate::words::Language;

/// A text that is measured by itself.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Reading {
    /// What it belongs to: `specification`, `wiring sheets`, `intake form`, `work card`, `lid insert`,
    /// `fault finder`.
    pub of: &'static str,
    /// The section; empty for all of it.
    pub section: String,
    /// Its words, sentences and syllables.
    pub counts: Counts,
}

/// Measures the prose of a file in a language, and section by section that of its sheets in the words that
/// are compiled in. Nothing for a file that is refused, and nothing in a language without a formula. What is
/// wrong on the way is added to its problems.
pub fn reading(
    checked: &mut Checked,
    language: &'static Language,
    set: &mut Typesetter,
) -> Vec<Reading> {
    let content = checked.content_in(language.tag).into_owned();
    let Checked { shown, sources, problems, .. } = checked;
    let Some(reads_as) = ReadingLanguage::of_tag(language.tag) else { return Vec::new() };
    let of_sheet = |of, document: &Document| of_sheet(of, document, reads_as);
    let mut all = Vec::new();
    let templates = Templates::in_language(language, sources);
    match &content {
        Content::Board(board) => {
            let (of, section) = ("specification", String::new());
            all.push(Reading { of, section, counts: board.prose });
            let figures = sheet::figures(board, templates.words(), set, Paper::A4);
            if let Ok(sheets) =
                sheet::wiring_sheets(board, &figures, &templates, Paper::A4, problems)
            {
                all.extend(of_sheet("wiring sheets", &sheets));
            }
            if let Ok(Some(finder)) = sheet::board_fault_finder(board, &templates, problems) {
                all.extend(of_sheet("fault finder", &finder));
            }
            let file = shown.rsplit('/').next().unwrap_or_default();
            if let Ok(form) = sheet::intake_form(board, file, &templates, problems) {
                all.extend(of_sheet("intake form", &form));
            }
        }
        Content::Job(Some(planned)) => {
            for (of, sheet) in job_sheets::job_words(planned, &templates, Paper::A4, set, problems)
            {
                all.extend(of_sheet(of, &sheet));
            }
        }
        Content::Job(None) | Content::Refused => {}
    }
    all
}

fn of_sheet(of: &'static str, document: &Document, language: ReadingLanguage) -> Vec<Reading> {
    let reading = |section: Section| Reading {
        of,
        counts: section.counts_in(language),
        section: section.title,
    };
    sheet::sections(document).into_iter().map(reading).collect()
}
