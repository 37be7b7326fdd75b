//! Safety messages that no template can take away.
//!
//! `cautions.md` is compiled in. It lists them under headings `# SECTION/NAME`; one whose cause a
//! board does not have is empty there. Rules of work and the checks of a work card, which are no box,
//! stand there as plain blocks. A template puts each where it matters with
//! `:: caution NAME`; what a section lacks is put at its head.

use std::borrow::Cow;

use super::filling;
use super::markdown::{self, Inserts};
use super::templates;
use crate::diagnostic::{Code, Problem};
use crate::document::{Block, ListKind, Signal, plain_text};
use crate::source::{FileId, Span};

/// One safety message, or rules of work, or checks.
#[derive(Clone, Debug, PartialEq)]
pub struct Caution {
    /// The template whose section it belongs to.
    pub section: String,
    /// Its name.
    pub name: String,
    /// The message: one box, or for rules of work plain blocks; nothing if this board gives no cause
    /// for it.
    pub blocks: Vec<Block>,
}

impl Caution {
    /// What a language may not weaken: whether there is something, and its signal word.
    fn rank(&self) -> Option<Option<Signal>> {
        self.blocks.first().map(|block| match block {
            Block::Caution { signal, .. } => Some(*signal),
            _ => None,
        })
    }
}

/// All safety messages for a board; `own` is the file of a language that is not English.
///
/// # Errors
/// A message that the language lacks, or that cannot be filled in.
pub fn mandatory(
    own: Option<&(FileId, Cow<'static, str>)>,
    facts: &minijinja::Value,
) -> Result<Vec<Caution>, Box<Problem>> {
    let text = filling::fill_own("cautions", templates::CAUTIONS, facts)?;
    let english = read(&text).map_err(|message| {
        Box::new(Problem::of_file(Code::Internal, "templates/en/cautions.md", message))
    })?;
    let Some((file, text)) = own else { return Ok(english) };
    let place = Span::new(*file, 0..0);
    let lacking =
        |message: String| Box::new(Problem::new(Code::LanguageIncomplete, place, message));
    let filled = filling::fill_cautions(*file, text, facts)?;
    let own = read(&filled).map_err(lacking)?;
    for caution in &english {
        let Caution { section, name, .. } = caution;
        let same = own.iter().find(|own| own.section == *section && own.name == *name);
        if same.is_none_or(|own| own.rank() != caution.rank()) {
            let message = format!("the language lacks the safety message `{section}/{name}`");
            return Err(lacking(message));
        }
    }
    Ok(own)
}

/// Reads the filled file; what is wrong with it as an error.
fn read(text: &str) -> Result<Vec<Caution>, String> {
    let nothing = Inserts { figure: &|_| None, blocks: &|_| None };
    let (blocks, faults) = markdown::read_template(text, &nothing);
    if let Some(fault) = faults.first() {
        return Err(fault.message.clone());
    }
    let mut all: Vec<Caution> = Vec::new();
    for block in blocks {
        match (&block, all.last_mut()) {
            (Block::Heading { text, .. }, _) => {
                let title = plain_text(text);
                let Some((section, name)) = title.split_once('/') else {
                    return Err(format!("the heading `{title}` names no section"));
                };
                let (section, name) = (section.to_owned(), name.to_owned());
                all.push(Caution { section, name, blocks: Vec::new() });
            }
            (Block::Caution { .. }, Some(Caution { blocks, .. })) if blocks.is_empty() => {
                blocks.push(block);
            }
            (Block::Paragraph(_) | Block::List { .. }, Some(rules))
                if rules.rank().flatten().is_none() =>
            {
                rules.blocks.push(block);
            }
            _ => return Err("there is something that is no safety message".to_owned()),
        }
    }
    Ok(all)
}

/// The message of a name: that of the section that asks for it, if it has one, or of any other.
pub fn called<'a>(cautions: &'a [Caution], name: &str, section: &str) -> Option<&'a Caution> {
    let own = |caution: &&Caution| caution.section == section && caution.name == name;
    cautions.iter().find(own).or_else(|| cautions.iter().find(|caution| caution.name == name))
}

fn contains(blocks: &[Block], wanted: &Block) -> bool {
    blocks.iter().any(|block| match block {
        Block::Columns { blocks, .. }
        | Block::Together(blocks)
        | Block::Landscape(blocks)
        | Block::Step { blocks, .. } => contains(blocks, wanted),
        Block::Beside { parts, .. } => parts.iter().any(|part| contains(part, wanted)),
        block => is_same(block, wanted),
    })
}

/// Whether it is that block; in a step the boxes of a list stand at the right, and it is the same
/// list all the same.
fn is_same(block: &Block, wanted: &Block) -> bool {
    let ticked = |kind: ListKind| matches!(kind, ListKind::Steps(_) | ListKind::Ticks);
    match (block, wanted) {
        (Block::List { kind, items }, Block::List { kind: other, items: others }) => {
            (kind == other || ticked(*kind) && ticked(*other)) && items == others
        }
        _ => block == wanted,
    }
}

/// Puts every message that a section lacks at its head, behind its heading.
pub fn complete(blocks: &mut Vec<Block>, section: &str, cautions: &[Caution]) {
    let own = cautions.iter().filter(|caution| caution.section == section);
    let missing: Vec<Block> = own
        .flat_map(|caution| caution.blocks.iter().cloned())
        .filter(|message| !contains(blocks, message))
        .collect();
    opening(blocks, |head| {
        let at = usize::from(matches!(head.first(), Some(Block::Heading { .. })));
        head.splice(at..at, missing);
    });
}

/// Changes the blocks that a section opens with: those of its first pages, if these lie on their
/// long side.
pub fn opening(blocks: &mut Vec<Block>, change: impl FnOnce(&mut Vec<Block>)) {
    match blocks.first_mut() {
        Some(Block::Landscape(inner)) => change(inner),
        _ => change(blocks),
    }
}
