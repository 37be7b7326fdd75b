//! Links of a document, and the places that they lead to.

use super::filling::Filled;
use super::markdown::MarkdownFault;
use super::templates::Template;
use crate::board::Board;
use crate::diagnostic::Problem;
use crate::document::{Block, Inline};
use crate::figure::places;
use crate::scene::{self, Target};

/// A link to a place that the sheet does not have becomes plain words if it is a place that our
/// own templates have (a header, a section): a template of the user's left it out. Any other is a
/// problem.
pub(super) fn check_links(
    board: &Board,
    templates: &[&Template],
    sections: &mut [(Filled, Vec<Block>)],
    found: &mut Vec<Problem>,
) {
    let mut there: Vec<String> = Vec::new();
    for (_, blocks) in sections.iter() {
        blocks.iter().for_each(|block| anchors(block, &mut there));
    }
    there.sort();
    let codes = board.headers.iter().map(|h| &h.code);
    let mut known: Vec<String> = codes
        .flat_map(|code| [places::socket(code), places::plan(code)])
        .chain(templates.iter().map(|template| template.name.clone()))
        // The first page of the wiring sheets has the board plan.
        .chain(["plan".to_owned()])
        .collect();
    known.sort();
    for (filled, blocks) in sections {
        let mut judge = |inline: &mut Inline| {
            let Inline::Link { text, strong, target: Target::Anchor(name) } = inline else {
                return;
            };
            if there.binary_search(name).is_ok() {
                return;
            }
            if known.binary_search(name).is_err() {
                let message = format!("there is no place `{name}` in the sheet");
                let range = filled
                    .text
                    .find(&format!("](#{name})"))
                    .map_or(0..0, |at| at..at + name.len() + 4);
                found.push(filled.problem(&MarkdownFault { message, range }));
            }
            let text = std::mem::take(text);
            *inline = if *strong { Inline::Strong(text) } else { Inline::Plain(text) };
        };
        blocks.iter_mut().for_each(|block| inlines(block, &mut judge));
    }
}

/// Every name that a link can lead to.
fn anchors(block: &Block, found: &mut Vec<String>) {
    match block {
        Block::Heading { anchor, .. } => found.extend(anchor.clone()),
        Block::Figure { scene, anchor, .. } => {
            found.extend(anchor.clone());
            scene::anchors(&scene.items, found);
        }
        Block::List { items, .. } => items.iter().flatten().for_each(|b| anchors(b, found)),
        Block::Caution { blocks, .. }
        | Block::Columns { blocks, .. }
        | Block::Together(blocks)
        | Block::Landscape(blocks)
        | Block::Step { blocks, .. } => {
            blocks.iter().for_each(|b| anchors(b, found));
        }
        Block::Cards(cards) | Block::Beside { parts: cards, .. } => {
            cards.iter().flatten().for_each(|b| anchors(b, found))
        }
        Block::Title { .. }
        | Block::Paragraph(_)
        | Block::Table(_)
        | Block::Contents { .. }
        | Block::PageBreak => {}
    }
}

/// Calls `judge` with every inline of a block.
fn inlines(block: &mut Block, judge: &mut impl FnMut(&mut Inline)) {
    match block {
        Block::Heading { text, .. } | Block::Paragraph(text) => text.iter_mut().for_each(judge),
        Block::Figure { caption, .. } => caption.iter_mut().for_each(judge),
        Block::List { items, .. } => items.iter_mut().flatten().for_each(|b| inlines(b, judge)),
        Block::Caution { blocks, .. }
        | Block::Columns { blocks, .. }
        | Block::Together(blocks)
        | Block::Landscape(blocks)
        | Block::Step { blocks, .. } => {
            blocks.iter_mut().for_each(|b| inlines(b, judge));
        }
        Block::Cards(cards) | Block::Beside { parts: cards, .. } => {
            cards.iter_mut().flatten().for_each(|b| inlines(b, judge))
        }
        Block::Table(table) => {
            table.head.iter_mut().flatten().for_each(&mut *judge);
            table.rows.iter_mut().flatten().flatten().for_each(&mut *judge);
        }
        Block::Title { .. } | Block::Contents { .. } | Block::PageBreak => {}
    }
}
