//! The prose of a sheet, to be measured.

use crate::document::{Block, Document, Inline, plain_text};
use crate::reading::{Counts, ReadingLanguage};

/// A section of a sheet: what comes before the first heading, or what follows one.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Section {
    /// Its heading; the title of the document, for what comes before the first.
    pub title: String,
    /// Its paragraphs, items of lists and safety messages, one text each, in reading order. No
    /// headings, tables, captions or signal words: they are not sentences. Nor what stands behind a
    /// box to tick within a line: that is an entry.
    pub texts: Vec<String>,
}

impl Section {
    /// How easy it is to read.
    pub fn counts(&self) -> Counts {
        self.counts_in(ReadingLanguage::English)
    }

    /// How easy it is to read, in a language.
    pub fn counts_in(&self, language: ReadingLanguage) -> Counts {
        self.texts.iter().map(|text| language.count(text)).sum()
    }
}

/// The sections of a sheet that hold prose. They begin with the headings of the highest level that
/// there is.
pub fn sections(document: &Document) -> Vec<Section> {
    let mut levels = Vec::new();
    walk(&document.blocks, &mut |part| {
        if let ReadPiece::Heading(level, _) = part {
            levels.push(level);
        }
    });
    let highest = levels.into_iter().min().unwrap_or(1);
    let mut all = vec![Section { title: document.title.clone(), texts: Vec::new() }];
    walk(&document.blocks, &mut |part| match part {
        ReadPiece::Heading(level, title) if level == highest => {
            all.push(Section { title, texts: Vec::new() });
        }
        ReadPiece::Heading(..) => {}
        ReadPiece::Text(text) => {
            if let Some(section) = all.last_mut() {
                section.texts.push(text);
            }
        }
    });
    all.retain(|section| !section.texts.is_empty());
    all
}

enum ReadPiece {
    Heading(u8, String),
    Text(String),
}

/// Every heading and every running text of blocks in reading order. Lists and the like lie in each
/// other as deep as the reader of Markdown lets them.
fn walk(blocks: &[Block], take: &mut impl FnMut(ReadPiece)) {
    for block in blocks {
        match block {
            Block::Heading { level, text, .. } => {
                take(ReadPiece::Heading(*level, plain_text(text).trim().to_owned()));
            }
            Block::Paragraph(words) => {
                let end = words.iter().position(|word| matches!(word, Inline::Tick));
                let text = plain_text(words.get(..end.unwrap_or(words.len())).unwrap_or_default());
                if !text.trim().is_empty() {
                    take(ReadPiece::Text(text.trim().to_owned()));
                }
            }
            Block::List { items, .. } => items.iter().for_each(|item| walk(item, take)),
            Block::Caution { blocks, .. }
            | Block::Columns { blocks, .. }
            | Block::Step { blocks, .. }
            | Block::Together(blocks)
            | Block::Landscape(blocks) => walk(blocks, take),
            Block::Cards(cards) | Block::Beside { parts: cards, .. } => {
                cards.iter().for_each(|card| walk(card, take))
            }
            Block::Title { .. }
            | Block::Table(_)
            | Block::Figure { .. }
            | Block::Contents { .. }
            | Block::PageBreak => {}
        }
    }
}
