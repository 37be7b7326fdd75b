//! From filled templates to one document.

use minijinja::Value;

use super::facts::{self, panel_prose};
use super::markdown::{self, Insert, Inserts, MarkdownFault};
use super::templates::{self, Filled, Template, Templates};
use super::{Figure, cautions, sentences};
use crate::board::Board;
use crate::diagnostic::{Problem, Problems, Reported};
use crate::document::{Block, Density, Document, Inline, ListKind, plain_text};
use crate::figure::places;
use crate::scene::{Item, Target};

/// The wiring sheets of a board: every section in order, with its figures.
///
/// # Errors
/// A template that cannot be filled, or that holds what a sheet cannot hold; a figure that has no
/// room for all that it should show. All templates are read before it gives up.
pub fn wiring_sheets(
    board: &Board,
    figures: &[Figure],
    templates: &Templates,
    problems: &mut Problems,
) -> Result<Document, Reported> {
    let names: Vec<(String, String)> =
        figures.iter().map(|f| (f.name.clone(), f.scene.title.clone())).collect();
    let material = Material {
        board,
        templates: templates.sections(),
        facts: &facts::facts_of_sheets(board, &names),
        figures,
        prose: &|name| panel_prose_of(board, name, "the layout number"),
        pieces: &[],
        density: Density::Roomy,
    };
    compose(&material, problems)
}

/// What a sheet is made of.
pub(super) struct Material<'a> {
    /// The board that it is about.
    pub board: &'a Board,
    /// Its templates in order. The first begins with the lines of the title and the running head.
    pub templates: Vec<&'a Template>,
    /// What they can name.
    pub facts: &'a Value,
    /// The drawings that they can put in.
    pub figures: &'a [Figure],
    /// The user's own words that they can put in, by the name after `:: prose`.
    pub prose: &'a dyn Fn(&str) -> Option<String>,
    /// Parts that were composed already and that a template can put in, by the words of the command:
    /// `exercise 3`, `cards`.
    pub pieces: &'a [(String, Vec<Block>)],
    /// How close it is set.
    pub density: Density,
}

/// Fills the templates and reads them.
///
/// # Errors
/// As [`wiring_sheets`].
pub(super) fn compose(
    material: &Material<'_>,
    problems: &mut Problems,
) -> Result<Document, Reported> {
    let Material { board, facts, figures, .. } = material;
    let cautions = match cautions::mandatory(facts) {
        Ok(cautions) => cautions,
        Err(problem) => return Err(problems.error(*problem)),
    };

    let mut found: Vec<Problem> = figures.iter().flat_map(|f| f.lost.iter().cloned()).collect();
    let mut front = Front::of(board);
    let mut sections: Vec<(Filled, Vec<Block>)> = Vec::new();
    for (index, template) in material.templates.iter().enumerate() {
        let filled = match templates::fill(template, facts) {
            Ok(filled) => filled,
            Err(problem) => {
                found.push(*problem);
                continue;
            }
        };
        let inserts = Inserts {
            figure: &|name| figures.iter().find(|f| f.name == name).map(|f| &f.scene),
            blocks: &|insert| match insert {
                Insert::Caution(name) => {
                    let caution = cautions::called(&cautions, name, &template.name);
                    caution.map(|caution| caution.block.iter().cloned().collect())
                }
                Insert::Prose { name, from } => {
                    let mut blocks = markdown::read_prose(&(material.prose)(name)?);
                    number_from(*from, &mut blocks);
                    Some(blocks)
                }
                Insert::Piece(name) => {
                    let piece = material.pieces.iter().find(|(piece, _)| piece == name);
                    piece.map(|(_, blocks)| blocks.clone())
                }
            },
        };
        let start = if index == 0 { front.read(&filled) } else { 0 };
        let body = filled.text.get(start..).unwrap_or_default();
        let (mut blocks, faults) = markdown::read_template(body, &inserts);
        if template.own {
            sentences::too_long(&filled, start).into_iter().for_each(|p| problems.warning(p));
        }
        for MarkdownFault { message, range } in faults {
            let range = range.start + start..range.end + start;
            found.push(filled.problem(&MarkdownFault { message, range }));
        }
        cautions::complete(&mut blocks, &template.name, &cautions);
        sections.push((filled, blocks));
    }
    check_links(board, &material.templates, &mut sections, &mut found);

    let mut reported = None;
    for problem in found {
        reported = Some(problems.error(problem));
    }
    match reported {
        Some(reported) => Err(reported),
        None => {
            let blocks = sections.into_iter().flat_map(|(_, blocks)| blocks).collect();
            Ok(front.document(board, blocks, material.density))
        }
    }
}

/// A part of a sheet: one template, filled and read. It has no head of its own and no links.
///
/// # Errors
/// As [`wiring_sheets`].
pub(super) fn piece(
    template: &Template,
    facts: &Value,
    figures: &[Figure],
    problems: &mut Problems,
) -> Result<Vec<Block>, Reported> {
    let filled = templates::fill(template, facts).map_err(|problem| problems.error(*problem))?;
    let inserts = Inserts {
        figure: &|name| figures.iter().find(|f| f.name == name).map(|f| &f.scene),
        blocks: &|_| None,
    };
    let (blocks, faults) = markdown::read_template(&filled.text, &inserts);
    let mut reported = None;
    for fault in faults {
        reported = Some(problems.error(filled.problem(&fault)));
    }
    match reported {
        Some(reported) => Err(reported),
        None => Ok(blocks),
    }
}

/// Steps that go on counting where those before them end.
fn number_from(first: u32, blocks: &mut [Block]) {
    for block in blocks {
        if let Block::List { kind: ListKind::Steps(from), .. } = block {
            *from = from.saturating_add(first.saturating_sub(1));
        }
    }
}

/// How many steps the prose of a panel has.
pub(super) fn steps_of(prose: &str) -> u32 {
    let blocks = markdown::read_prose(prose);
    let last = blocks.iter().filter_map(|block| match block {
        Block::List { kind: ListKind::Steps(from), items } => {
            Some(from.saturating_add(u32::try_from(items.len()).unwrap_or(u32::MAX)) - 1)
        }
        _ => None,
    });
    last.max().unwrap_or(0)
}

/// The steps of the panel that a template calls by `name`; `layout` stands for the layout number.
pub(super) fn panel_prose_of(board: &Board, name: &str, layout: &str) -> Option<String> {
    let mut panels = board.panels.iter().enumerate();
    let (_, panel) = panels.find(|(index, _)| panel_prose(*index) == name)?;
    Some(with_layout(&panel.choose_layout, layout))
}

/// The steps of a panel are the user's own text and never a template: the one placeholder that
/// they may have is replaced, and nothing else is looked at.
fn with_layout(steps: &str, layout: &str) -> String {
    let mut out = String::with_capacity(steps.len());
    let mut rest = steps;
    while let Some(start) = rest.find("{{") {
        let (before, after) = rest.split_at(start);
        out.push_str(before);
        let inside = after.get(2..).unwrap_or_default();
        match inside.find("}}") {
            Some(end) if inside.get(..end).is_some_and(|name| name.trim() == "layout") => {
                out.push_str(layout);
                rest = inside.get(end + 2..).unwrap_or_default();
            }
            _ => {
                out.push_str("{{");
                rest = inside;
            }
        }
    }
    out.push_str(rest);
    out
}

/// What the lines at the head of the front template say: `key: words`, up to the first empty
/// line.
struct Front {
    title: String,
    subtitle: String,
    head: (String, String),
    foot: String,
    page_of: String,
}

impl Front {
    /// What holds if the template says nothing.
    fn of(board: &Board) -> Self {
        let about = &board.about;
        Self {
            title: about.name.clone(),
            subtitle: about.summary.clone(),
            head: (about.name.clone(), about.part.clone()),
            foot: about.dated.to_string(),
            page_of: "{n} / {m}".to_owned(),
        }
    }

    /// Takes the lines at the head; gives where the rest begins.
    fn read(&mut self, filled: &Filled) -> usize {
        let mut start = 0;
        for line in filled.text.split_inclusive('\n') {
            let Some((key, words)) = line.split_once(':') else { break };
            let words = words_of(words);
            let place = match key.trim() {
                "title" => Some(&mut self.title),
                "subtitle" => Some(&mut self.subtitle),
                "head left" => Some(&mut self.head.0),
                "head right" => Some(&mut self.head.1),
                "foot" => Some(&mut self.foot),
                "page of" => Some(&mut self.page_of),
                _ => None,
            };
            match place {
                Some(place) if !words.is_empty() => *place = words,
                Some(_) => {}
                // Another line with a colon belongs to the text already.
                None => break,
            }
            start += line.len();
        }
        start
    }

    fn document(self, board: &Board, mut blocks: Vec<Block>, density: Density) -> Document {
        let about = &board.about;
        blocks.insert(0, Block::Title { text: self.title.clone(), subtitle: self.subtitle });
        Document {
            title: self.title,
            language: "en".to_owned(),
            author: about.maker.clone(),
            dated: (about.dated.year, about.dated.month, about.dated.day),
            head: self.head,
            foot: self.foot,
            page_of: self.page_of,
            density,
            blocks,
        }
    }
}

/// The words of one line of Markdown, without their looks.
fn words_of(markdown: &str) -> String {
    match markdown::read_prose(markdown).first() {
        Some(Block::Paragraph(words)) => plain_text(words),
        _ => markdown.trim().to_owned(),
    }
}

/// A link to a place that the sheet does not have becomes plain words if it is a place that our
/// own templates have (a header, a section): a template of the user's left it out. Any other is a
/// problem.
fn check_links(
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
            item_anchors(&scene.items, found);
        }
        Block::List { items, .. } => items.iter().flatten().for_each(|b| anchors(b, found)),
        Block::Caution { blocks, .. } | Block::Columns { blocks, .. } | Block::Together(blocks) => {
            blocks.iter().for_each(|b| anchors(b, found));
        }
        Block::Cards(cards) => cards.iter().flatten().for_each(|b| anchors(b, found)),
        Block::Title { .. }
        | Block::Paragraph(_)
        | Block::Table(_)
        | Block::Contents { .. }
        | Block::PageBreak => {}
    }
}

fn item_anchors(items: &[Item], found: &mut Vec<String>) {
    for item in items {
        match item {
            Item::Anchor { name, .. } => found.push(name.clone()),
            Item::Group { items, .. } | Item::Scaled { items, .. } | Item::Tagged { items, .. } => {
                item_anchors(items, found);
            }
            Item::Shape { .. } | Item::Text { .. } | Item::Link { .. } => {}
        }
    }
}

/// Calls `judge` with every inline of a block.
fn inlines(block: &mut Block, judge: &mut impl FnMut(&mut Inline)) {
    match block {
        Block::Heading { text, .. } | Block::Paragraph(text) => text.iter_mut().for_each(judge),
        Block::Figure { caption, .. } => caption.iter_mut().for_each(judge),
        Block::List { items, .. } => items.iter_mut().flatten().for_each(|b| inlines(b, judge)),
        Block::Caution { blocks, .. } | Block::Columns { blocks, .. } | Block::Together(blocks) => {
            blocks.iter_mut().for_each(|b| inlines(b, judge));
        }
        Block::Cards(cards) => cards.iter_mut().flatten().for_each(|b| inlines(b, judge)),
        Block::Table(table) => {
            table.head.iter_mut().flatten().for_each(&mut *judge);
            table.rows.iter_mut().flatten().flatten().for_each(&mut *judge);
        }
        Block::Title { .. } | Block::Contents { .. } | Block::PageBreak => {}
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_the_layout_placeholder_of_a_panel_is_filled() {
        let steps =
            "Press **{{ layout }}**, {{layout}}, {{ board.name }}, {{ 7 * 7 }}, {% x %}, {{";
        assert_eq!(
            with_layout(steps, "the layout number"),
            "Press **the layout number**, the layout number, {{ board.name }}, {{ 7 * 7 }}, {% x %}, {{"
        );
    }
}
