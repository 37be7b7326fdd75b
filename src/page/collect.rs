//! The document's blocks to strips.

use std::collections::BTreeSet;

use crate::document::{Block, Document, Inline, TableKind, plain_text};
use crate::geometry::{Point, Size};
use crate::scene::Item;
use crate::text::Typesetter;

use super::collector::{Collector, Column, Section, Within};
use super::look::{Look, TextLook};
use super::strip::{After, Begins, Collected, Marked, Strip};
use super::{
    Paper, Role, cards, caution, contents, figure, list, look, paragraph, side_by_side, step,
    summary, table, title,
};

/// Blocks may lie inside each other so deep; what lies deeper is set as plain words.
const DEEPEST: usize = 24;

/// The strips of a document, in order.
pub(super) fn collect(document: &Document, paper: Paper, types: &mut Typesetter) -> Collected {
    let area = paper.area_for(document.density);
    let mut collector = Collector {
        signal_words: &document.signal_words,
        logo: document.house.logo.as_ref(),
        accent: document.house.accent,
        types,
        look: Look::of(document.density, paper),
        area_height: area.height(),
        landscape: false,
        above: 0.0,
        sections: sections(document),
        section: 0,
        level: 0,
        titled: false,
        first: None,
        below: 0.0,
        to: Collected::default(),
    };
    let column = Column { left: 0.0, width: area.width() };
    let within = Within { parent: None, depth: 0 };
    for run in document.blocks.chunk_by(|_, next| !matches!(next, Block::Landscape(_))) {
        let run = match run.split_first() {
            Some((Block::Landscape(inner), rest)) => {
                let area = paper.landscape_area(document.density);
                match rest.split_first() {
                    Some((Block::Together(below), after)) => {
                        let stands = collector.landscape(inner, below, area.size(), within);
                        if stands { after } else { rest }
                    }
                    _ => {
                        collector.landscape(inner, &[], area.size(), within);
                        rest
                    }
                }
            }
            _ => run,
        };
        collector.blocks(run, column, within);
    }
    // Nothing follows it.
    if collector.to.strips.len() > 1 {
        collector.drop_page_break();
    }
    collector.to
}

impl Collector<'_> {
    /// Collects blocks that stand under each other.
    pub fn blocks(&mut self, blocks: &[Block], column: Column, within: Within) {
        if within.depth > DEEPEST {
            let words = loose_words(blocks);
            return paragraph::push(self, &words, column, within);
        }
        for (index, block) in blocks.iter().enumerate() {
            let first = self.to.strips.len();
            self.block(block, column, within);
            let next = blocks.get(index + 1);
            let before = index.checked_sub(1).and_then(|before| blocks.get(before));
            let strips = self.to.strips.get_mut(first..).unwrap_or_default();
            if let Some(after) = leads_to(before, block, next) {
                introduce(strips, after);
            }
        }
    }

    fn block(&mut self, block: &Block, column: Column, within: Within) {
        match block {
            Block::Title { text, subtitle } => title::push(self, text, subtitle, column, within),
            Block::Heading { level, text, anchor } => {
                self.heading(*level, text, anchor.as_deref(), column, within);
            }
            Block::Paragraph(inlines) => paragraph::push(self, inlines, column, within),
            // Too narrow to be divided further: the words without their form.
            Block::List { .. } | Block::Caution { .. } if column.width < look::NARROWEST => {
                paragraph::push(self, &loose_words(std::slice::from_ref(block)), column, within);
            }
            Block::List { kind, items } => list::push(self, *kind, items, column, within),
            Block::Table(table) if table.kind == TableKind::Summary => {
                summary::push(self, table, column, within);
            }
            Block::Table(table) => table::push(self, table, column, within),
            Block::Figure { scene, alternative, caption, anchor } => {
                let words = figure::FigureText { alternative, caption, anchor: anchor.as_deref() };
                figure::push(self, scene, &words, column, within);
            }
            Block::Caution { signal, blocks } => {
                caution::push(self, *signal, blocks, column, within);
            }
            Block::Contents { title } => contents::push(self, title, column, within),
            Block::Columns { count, blocks } => {
                side_by_side::push(self, *count, blocks, column, within);
            }
            Block::Beside { shares, parts } => {
                side_by_side::push_beside(self, shares, parts, column, within);
            }
            // Inside other blocks the paper cannot be turned.
            Block::Landscape(blocks) => {
                let within = Within { depth: within.depth + 1, ..within };
                self.blocks(blocks, column, within);
            }
            Block::Together(blocks) => self.together(blocks, column, within),
            Block::Step { number, blocks } => step::push(self, *number, blocks, column, within),
            Block::Cards(cards) => cards::push(self, cards, column, within),
            // What stands inside of something begins no page.
            Block::PageBreak if within.depth > 0 => {}
            Block::PageBreak => self.page_break(),
        }
    }

    fn heading(
        &mut self,
        level: u8,
        text: &[Inline],
        anchor: Option<&str>,
        column: Column,
        within: Within,
    ) {
        let shown = level.clamp(1, 3);
        let own_level = shown.min(self.level + 1);
        let words = plain_text(text);
        if !words.trim().is_empty() {
            self.level = own_level;
        }
        let node = self.heading_node(own_level, words.clone(), within.parent);
        let [first, second, third] = &self.look.headings;
        let head = match shown {
            1 => first,
            2 => second,
            _ => third,
        };
        let before = match self.fixed_gap() {
            Some(gap) => gap,
            None if self.after_heading() => self.look.heading_gap,
            None => head.before,
        };
        // A safety message has the colors of its signal word alone.
        let accent = self.accent.filter(|_| self.safety_message(within.parent).is_none());
        let ink = accent.unwrap_or(crate::scene::Ink::BLACK);
        let set = TextLook { style: head.style, leading: self.look.tight_leading, ink };
        let mut strips = paragraph::strips(self, text, column, set, Some(node));
        for strip in &mut strips {
            strip.after = After::Never;
        }
        if let Some(strip) = strips.first_mut() {
            strip.before = before;
            let at = Point::new(column.left, 0.0);
            let anchors =
                anchor.into_iter().map(str::to_owned).chain(self.section_anchor(level, within));
            let anchors = anchors.map(|name| Item::Anchor { name, at });
            strip.items.splice(0..0, anchors);
        }
        let (strip, at) = (self.to.strips.len(), Point::default());
        let marked = Marked { level: own_level, text: words, strip, at };
        self.to.headings.push(marked);
        self.to.strips.append(&mut strips);
    }

    /// The safety message that a node lies in, if any.
    fn safety_message(&self, node: Option<usize>) -> Option<usize> {
        let mut open = node;
        while let Some(node) = open {
            let of = self.to.nodes.get(node)?;
            if of.role == Role::Caution {
                return Some(node);
            }
            // A parent comes before its children, so this ends.
            open = of.parent.filter(|parent| *parent < node);
        }
        None
    }

    /// The anchor of the section that a heading begins.
    fn section_anchor(&mut self, level: u8, within: Within) -> Option<String> {
        // A list or a safety message has no sections.
        let role = within.parent.and_then(|parent| self.to.nodes.get(parent)).map(|of| &of.role);
        if level > 1 || role.is_some_and(|role| *role != Role::Part) {
            return None;
        }
        let section = self.sections.get(self.section)?;
        self.section += 1;
        Some(section.anchor.clone())
    }

    /// Blocks on one page. What is higher than a page is broken as its own blocks allow.
    fn together(&mut self, blocks: &[Block], column: Column, within: Within) {
        let first = self.to.strips.len();
        self.blocks(blocks, column, Within { depth: within.depth + 1, ..within });
        let strips = self.to.strips.get_mut(first..).unwrap_or_default();
        let spaces: f64 = strips.iter().skip(1).map(|strip| strip.before).sum();
        let height = spaces + strips.iter().map(|strip| strip.height).sum::<f64>();
        if height > self.area_height {
            return;
        }
        if let [most @ .., _] = strips {
            most.iter_mut().for_each(|strip| strip.after = After::Never);
        }
    }

    /// Blocks on pages that lie on their long side and whose area has a size, and `below` them what
    /// stands on the last of these pages if all of it has room there; whether it has.
    fn landscape(
        &mut self,
        blocks: &[Block],
        below: &[Block],
        Size { width, height }: Size,
        within: Within,
    ) -> bool {
        if blocks.is_empty() {
            return false;
        }
        let upright = std::mem::replace(&mut self.area_height, height);
        self.landscape = true;
        self.page_break();
        let first = self.to.strips.len().saturating_sub(1);
        let column = Column { left: 0.0, width };
        self.blocks(blocks, column, within);
        self.drop_page_break();
        let stands = !below.is_empty() && self.stands_below(below, column, within);
        self.landscape = false;
        self.area_height = upright;
        for strip in self.to.strips.iter_mut().skip(first) {
            strip.landscape = true;
        }
        self.page_break();
        stands
    }

    /// Collects blocks if all of them have room below what is set; whether they have.
    fn stands_below(&mut self, blocks: &[Block], column: Column, within: Within) -> bool {
        let pages = |to: &Self| side_by_side::open_pages(to).1.len();
        let before = pages(self);
        let (to, section, level) = (self.to.clone(), self.section, self.level);
        self.together(blocks, column, within);
        if pages(self) == before {
            return true;
        }
        (self.to, self.section, self.level) = (to, section, level);
        false
    }

    /// Takes a page break away that nothing follows.
    fn drop_page_break(&mut self) {
        if self.to.strips.last().is_some_and(Strip::is_page_break) {
            self.to.strips.pop();
        }
    }

    /// What follows begins a page; one break is enough.
    fn page_break(&mut self) {
        self.drop_page_break();
        let begins = Begins::Page;
        self.to.strips.push(Strip { begins, ..Strip::default() });
    }
}

/// How closely a block belongs to the next one; `None` if it stands by itself.
fn leads_to(before: Option<&Block>, block: &Block, next: Option<&Block>) -> Option<After> {
    let next = next.filter(|next| !matches!(next, Block::PageBreak | Block::Landscape(_)))?;
    let drawn = matches!(next, Block::Figure { .. } | Block::Table(_) | Block::List { .. });
    let telling = drawn || matches!(next, Block::Caution { .. });
    let opens = matches!(before, Some(Block::Heading { .. }));
    match block {
        // What it ends with is said by the next.
        Block::Paragraph(words) if plain_text(words).trim_end().ends_with(':') => {
            Some(After::Never)
        }
        // A drawing would be made smaller for it.
        Block::Paragraph(_) if opens && !matches!(next, Block::Figure { .. }) && telling => {
            Some(After::Never)
        }
        Block::Paragraph(_) if drawn => Some(After::Avoid),
        // A step says what is seen in the drawing under it.
        Block::List { .. } if matches!(next, Block::Figure { .. }) => Some(After::Avoid),
        // Read with what it warns of.
        Block::Caution { .. } => Some(After::Never),
        _ => None,
    }
}

/// Keeps an introduction on the page of what it introduces.
fn introduce(strips: &mut [Strip], after: After) {
    if let Some(last) = strips.last_mut() {
        last.after = last.after.max(after);
    }
}

/// The sections of a document with anchors of our own, which no name of the document equals.
fn sections(document: &Document) -> Vec<Section> {
    let mut taken = BTreeSet::new();
    let mut sections: Vec<Section> = Vec::new();
    let mut open: Vec<&Block> = document.blocks.iter().rev().collect();
    while let Some(block) = open.pop() {
        match block {
            Block::Heading { level, text, anchor } => {
                taken.extend(anchor.as_deref());
                if *level <= 1 {
                    sections.push(Section { text: plain_text(text), anchor: String::new() });
                }
            }
            Block::Figure { anchor, .. } => taken.extend(anchor.as_deref()),
            Block::Columns { blocks, .. }
            | Block::Together(blocks)
            | Block::Landscape(blocks)
            | Block::Step { blocks, .. } => open.extend(blocks.iter().rev()),
            Block::Cards(parts) | Block::Beside { parts, .. } => {
                open.extend(parts.iter().flatten().rev());
            }
            _ => {}
        }
    }
    for (index, section) in sections.iter_mut().enumerate() {
        section.anchor = format!("section {}", index + 1);
        while taken.contains(section.anchor.as_str()) {
            section.anchor.push('\'');
        }
    }
    sections
}

/// The words of blocks that lie too deep to be set as what they are.
fn loose_words(blocks: &[Block]) -> Vec<Inline> {
    let mut words = Vec::new();
    let mut open: Vec<&Block> = blocks.iter().rev().collect();
    let mut add = |inlines: &[Inline]| {
        words.extend_from_slice(inlines);
        words.push(Inline::Break);
    };
    while let Some(block) = open.pop() {
        match block {
            Block::Heading { text, .. } | Block::Paragraph(text) => add(text),
            Block::Title { text, subtitle } => {
                add(&[Inline::Plain(format!("{text} {subtitle}"))]);
            }
            Block::List { items, .. } => open.extend(items.iter().flatten().rev()),
            Block::Columns { blocks, .. }
            | Block::Together(blocks)
            | Block::Landscape(blocks)
            | Block::Step { blocks, .. } => {
                open.extend(blocks.iter().rev());
            }
            Block::Cards(cards) | Block::Beside { parts: cards, .. } => {
                open.extend(cards.iter().flatten().rev())
            }
            Block::Caution { signal, blocks } => {
                add(&[Inline::Strong(signal.word().to_owned())]);
                open.extend(blocks.iter().rev());
            }
            Block::Table(table) => {
                for row in std::iter::once(&table.head).chain(&table.rows) {
                    let cells = row.join(&Inline::Plain(" ".to_owned()));
                    add(&cells);
                }
            }
            Block::Figure { alternative, caption, .. } => {
                add(&[Inline::Plain(alternative.clone())]);
                add(caption);
            }
            Block::Contents { .. } | Block::PageBreak => {}
        }
    }
    words
}
