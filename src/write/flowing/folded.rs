//! A document whose sections open one by one, for a small screen and without a script.

use super::Piece;
use crate::document::{Block, Document, Fold};

/// A document as [`flowing_html`](super::flowing_html) writes it, but each of its sections is closed until
/// somebody opens it. `first` is opened in the same way and stands before them. The list of the contents is
/// left out: the closed sections are one.
pub fn folded_html(
    document: &Document,
    first_level: u8,
    names: &str,
    first: Option<&Fold>,
) -> String {
    let mut piece = Piece { one_of_many: true, ..Piece::new(document, first_level, names) };
    piece.to.push_str("<article class=\"sheet\" lang=\"");
    piece.text(&document.language);
    piece.to.push_str("\">\n");
    let blocks = flat(&document.blocks);
    let begins = |block: &&Block| begins_section(block);
    let sections = blocks.iter().position(begins).unwrap_or(blocks.len());
    let (front, sections) = blocks.split_at(sections);
    piece.all(front);
    if let Some(fold) = first {
        let group = format!("{names}answers");
        piece.fold(fold, &group, &mut 0);
    }
    for section in sections.chunk_by(|_, next| !begins(next)) {
        let [Block::Heading { text, anchor, level }, rest @ ..] = section else { continue };
        piece.to.push_str("<details class=\"section\">\n<summary>");
        piece.heading(*level, text, anchor.as_deref());
        piece.to.push_str("</summary>\n");
        piece.all(rest);
        piece.to.push_str("</details>\n");
    }
    piece.to.push_str("<p class=\"sheet-foot\">");
    piece.text(&document.foot);
    piece.to.push_str("</p>\n</article>\n");
    piece.to
}

/// The safety messages of the first section of a document, which hold for all that follows. `names` as of
/// [`folded_html`].
pub fn first_cautions_html(document: &Document, names: &str) -> String {
    let mut piece = Piece::new(document, 1, names);
    let mut sections = 0;
    for block in flat(&document.blocks) {
        sections += usize::from(begins_section(block));
        if sections > 1 {
            break;
        }
        if matches!(block, Block::Caution { .. }) {
            piece.block(block);
        }
    }
    piece.to
}

fn begins_section(block: &Block) -> bool {
    matches!(block, Block::Heading { level: 1, .. })
}

/// The blocks without those that only say how pages are filled: a section begins nowhere else than among them.
fn flat(blocks: &[Block]) -> Vec<&Block> {
    let mut all = Vec::new();
    for block in blocks {
        match block {
            Block::Together(blocks) | Block::Landscape(blocks) => all.extend(flat(blocks)),
            Block::Beside { parts, .. } if parts.iter().flatten().any(begins_section) => {
                all.extend(parts.iter().flat_map(|part| flat(part)));
            }
            block => all.push(block),
        }
    }
    all
}

impl Piece<'_> {
    fn all(&mut self, blocks: &[&Block]) {
        blocks.iter().for_each(|block| self.block(block));
    }

    /// `groups` counts the groups of folds of which one at a time is open.
    fn fold(&mut self, fold: &Fold, group: &str, groups: &mut usize) {
        self.to.push_str("<details class=\"fold\"");
        if *groups > 0 {
            self.to.push_str(" name=\"");
            self.text(group);
            self.to.push('"');
        }
        self.to.push_str(">\n<summary>");
        self.text(&fold.summary);
        self.to.push_str("</summary>\n<div class=\"folded\">\n");
        self.blocks(&fold.blocks);
        *groups += 1;
        let inner = format!("{}answers-{groups}", self.names);
        fold.folds.iter().for_each(|next| self.fold(next, &inner, groups));
        self.to.push_str("</div>\n</details>\n");
    }
}
