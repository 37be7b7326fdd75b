//! From filled templates to one document.

use minijinja::Value;

use std::borrow::Cow;

use super::board_facts::BoardFacts;
use super::facts;
use super::figures::Room;
use super::filling::{self, Filled};
use super::links::check_links;
use super::markdown::{self, Insert, Inserts, MarkdownFault};
use super::panel::panel_prose_of;
use super::templates::{Template, Templates};
use super::{Figure, cautions, sentences};
use crate::board::Board;
use crate::diagnostic::{Problem, Problems, Reported};
use crate::document::{Block, Density, Document, House, Inline, ListKind, Paper, plain_text};
use crate::mark::Mark;
use crate::source::FileId;
use crate::words::Words;

/// The wiring sheets of a board: every section in order, with its figures, which were drawn for a
/// paper.
///
/// # Errors
/// A template that cannot be filled, or that holds what a sheet cannot hold; a figure that has no
/// room for all that it should show. All templates are read before it gives up.
pub fn wiring_sheets(
    board: &Board,
    figures: &[Figure],
    templates: &Templates,
    paper: Paper,
    problems: &mut Problems,
) -> Result<Document, Reported> {
    wiring_sheets_of(&BoardFacts::new(board, templates), figures, paper, problems)
}

/// The same of a board whose facts are gathered.
///
/// # Errors
/// As [`wiring_sheets`].
pub fn wiring_sheets_of(
    known: &BoardFacts<'_>,
    figures: &[Figure],
    paper: Paper,
    problems: &mut Problems,
) -> Result<Document, Reported> {
    let &BoardFacts { board, templates, ref bare, mark } = known;
    let names = super::figures::names(figures);
    let room = Room::of(board, figures, paper);
    let words = templates.words();
    let facts = facts::facts_of_sheets(bare.clone(), board, &names, room);
    let material = Material {
        templates: templates.sections(),
        figures,
        prose: &|name| panel_prose_of(board, name, &words.any_layout_number()),
        ..Material::new(board, templates, "front", &facts, mark, Density::Roomy)
    };
    compose(&material, problems)
}

/// What a sheet is made of.
pub(super) struct Material<'a> {
    /// The board that it is about.
    pub board: &'a Board,
    /// The phrases of its language.
    pub words: &'a Words,
    /// The safety messages of its language.
    pub cautions: Option<&'a (FileId, Cow<'static, str>)>,
    /// The looks of the house.
    pub house: &'a House,
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
    /// The mark of its contents.
    pub mark: Mark,
    /// How close it is set.
    pub density: Density,
}

impl<'a> Material<'a> {
    /// A sheet of the template of that name, with nothing but words in it.
    pub fn new(
        board: &'a Board,
        templates: &'a Templates,
        name: &str,
        facts: &'a Value,
        mark: Mark,
        density: Density,
    ) -> Self {
        Self {
            board,
            words: templates.words(),
            cautions: templates.own_cautions(),
            house: templates.house(),
            templates: templates.named(name),
            facts,
            figures: &[],
            prose: &|_| None,
            pieces: &[],
            mark,
            density,
        }
    }
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
    let cautions = match cautions::mandatory(material.cautions, facts) {
        Ok(cautions) => cautions,
        Err(problem) => return Err(problems.error(*problem)),
    };

    let mut found: Vec<Problem> = figures.iter().flat_map(|f| f.lost.iter().cloned()).collect();
    let mut front = Front::of(board);
    let mut sections: Vec<(Filled, Vec<Block>)> = Vec::new();
    for (index, template) in material.templates.iter().enumerate() {
        let filled = match filling::fill(template, facts) {
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
                    caution.map(|caution| caution.blocks.clone())
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
            Ok(front.document(material, blocks))
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
    let filled = filling::fill(template, facts).map_err(|problem| problems.error(*problem))?;
    let inserts = Inserts {
        figure: &|name| figures.iter().find(|f| f.name == name).map(|f| &f.scene),
        blocks: &|_| None,
    };
    let (blocks, faults) = markdown::read_template(&filled.text, &inserts);
    if template.own {
        // It is filled once for each exercise: what is said of it is said once.
        let said = sentences::too_long(&filled, 0).into_iter();
        let new: Vec<Problem> = said.filter(|problem| !problems.contains(problem)).collect();
        new.into_iter().for_each(|problem| problems.warning(problem));
    }
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

    fn document(self, material: &Material<'_>, mut blocks: Vec<Block>) -> Document {
        let about = &material.board.about;
        let title = Block::Title { text: self.title.clone(), subtitle: self.subtitle };
        let unchecked = material.words.unchecked_notice();
        let unchecked =
            unchecked.map(|both| Block::Paragraph(vec![Inline::Strong(both.join(" "))]));
        let stand_ins = material.words.stand_ins(&material.board.stand_ins);
        let stand_ins = stand_ins.map(|text| Block::Paragraph(vec![Inline::Plain(text)]));
        cautions::opening(&mut blocks, |head| {
            head.splice(0..0, [title].into_iter().chain(unchecked).chain(stand_ins));
        });
        Document {
            title: self.title,
            language: material.words.tag().to_owned(),
            signal_words: material.words.signal_words(),
            author: about.maker.clone(),
            dated: (about.dated.year, about.dated.month, about.dated.day),
            head: self.head,
            foot: material.words.foot_and_mark(&self.foot, &material.mark.to_string()),
            mark: Some(material.mark),
            page_of: self.page_of,
            house: material.house.clone(),
            density: material.density,
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
