//! Words to lines: paragraphs, headings, captions, cells.

use std::borrow::Cow;
use std::collections::BTreeMap;

use crate::document::Inline;
use crate::geometry::{Path, Point, Rect, Size};
use crate::scene::{Ink, Item, Stroke};
use crate::text::{Flow, FlowLine, Line, Span, Style, Typesetter, Weight};
use crate::units::Length;

use super::collector::{Collector, Column, Within};
use super::look::TextLook;
use super::strip::{After, Strip};
use super::{Role, look};

/// Pushes a paragraph of running text.
pub(super) fn push(to: &mut Collector<'_>, inlines: &[Inline], column: Column, within: Within) {
    if inlines.is_empty() {
        return;
    }
    let node = to.node(Role::Paragraph, within.parent);
    let mut strips = strips(to, inlines, column, to.look.body_text(), Some(node));
    keep_lines_together(&mut strips);
    if let Some(first) = strips.first_mut() {
        first.before = to.gap(to.look.gap);
    }
    to.to.strips.append(&mut strips);
}

/// No line alone at the foot of a page, and none at the head.
pub(super) fn keep_lines_together(strips: &mut [Strip]) {
    let count = strips.len();
    for (index, strip) in strips.iter_mut().enumerate() {
        if index + 1 < count && (index == 0 || index + 2 == count) {
            strip.after = After::Avoid;
        }
    }
}

/// The lines of `inlines`, a strip for each, without space above.
pub(super) fn strips(
    to: &mut Collector<'_>,
    inlines: &[Inline],
    column: Column,
    set: TextLook,
    node: Option<usize>,
) -> Vec<Strip> {
    let words = UnbrokenText::new(to.types, inlines, set.style);
    let nodes = inline_nodes(to, inlines, node);
    let context = LineContext { inlines, nodes: &nodes, node, ink: set.ink };
    words
        .broken(column.width)
        .into_iter()
        .map(|line| {
            let height = line.height(set.line_height());
            let mut items = Vec::new();
            context.items(&line, Point::new(column.left, line.baseline(height)), &mut items);
            Strip { height, items, ..Strip::default() }
        })
        .collect()
}

/// A node for each link, box to tick and line to write on.
pub(super) fn inline_nodes(
    to: &mut Collector<'_>,
    inlines: &[Inline],
    parent: Option<usize>,
) -> BTreeMap<usize, usize> {
    let role = |inline: &Inline| match inline {
        Inline::Link { .. } => Some(Role::Link),
        Inline::Tick => Some(Role::Tick),
        Inline::Blank { .. } => Some(Role::Blank),
        Inline::Plain(_) | Inline::Strong(_) | Inline::Break => None,
    };
    let roles = inlines.iter().enumerate();
    let roles = roles.filter_map(|(index, inline)| Some((index, role(inline)?)));
    roles.map(|(index, role)| (index, to.node(role, parent))).collect()
}

/// Words ready to be measured and broken: the flows between forced line breaks.
pub(super) struct UnbrokenText {
    segments: Vec<Segment>,
}

struct Segment {
    flow: Flow,
    /// The inline that the flow's first span is.
    first: usize,
}

impl UnbrokenText {
    /// Shapes the words of `inlines`.
    pub fn new(types: &mut Typesetter, inlines: &[Inline], style: Style) -> Self {
        let texts: Vec<Cow<'_, str>> =
            inlines.iter().map(|inline| text_of(types, inline, style)).collect();
        let mut segments = Vec::new();
        let mut spans = Vec::new();
        let mut first = 0;
        for (index, (inline, text)) in inlines.iter().zip(&texts).enumerate() {
            let weight = match inline {
                Inline::Plain(_)
                | Inline::Link { strong: false, .. }
                | Inline::Tick
                | Inline::Blank { .. } => style.weight,
                Inline::Strong(_) | Inline::Link { strong: true, .. } => Weight::Bold,
                Inline::Break => {
                    segments.push(Segment { flow: types.flow(&spans, style.size_pt), first });
                    spans.clear();
                    first = index + 1;
                    continue;
                }
            };
            spans.push(Span { text, weight });
        }
        // A break at the end begins no line.
        if !spans.is_empty() || segments.is_empty() {
            segments.push(Segment { flow: types.flow(&spans, style.size_pt), first });
        }
        Self { segments }
    }

    /// The width below which a word is cut, mm.
    pub fn min_width(&self) -> f64 {
        self.segments.iter().map(|segment| segment.flow.min_width()).fold(0.0, f64::max)
    }

    /// The width that needs no breaks but the forced ones, mm.
    pub fn max_width(&self) -> f64 {
        self.segments.iter().map(|segment| segment.flow.max_width()).fold(0.0, f64::max)
    }

    /// The lines at a width.
    pub fn broken(&self, width: f64) -> Vec<SetLine> {
        let mut lines = Vec::new();
        for segment in &self.segments {
            let first = segment.first;
            lines
                .extend(segment.flow.broken(width).into_iter().map(|line| SetLine { line, first }));
        }
        lines
    }
}

/// The text of an inline; spaces that no line ends at where there is something to be drawn.
fn text_of<'a>(types: &mut Typesetter, inline: &'a Inline, style: Style) -> Cow<'a, str> {
    let width = match inline {
        Inline::Plain(text) | Inline::Strong(text) | Inline::Link { text, .. } => {
            return Cow::Borrowed(text);
        }
        Inline::Break => return Cow::Borrowed(""),
        Inline::Tick => Length::from_pt(style.size_pt).0 * TICK * 1.15,
        Inline::Blank { width } => *width,
    };
    let space = types.line("\u{a0}", style).width.max(0.1);
    // No page is wider than a metre.
    let count = (width.clamp(0.0, 1000.0) / space).ceil().max(1.0) as usize;
    Cow::Owned("\u{a0}".repeat(count))
}

/// Side of a box to tick among words, in sizes of type.
const TICK: f64 = 0.9;

/// A line, with the inline that its flow began at.
pub(super) struct SetLine {
    pub line: FlowLine,
    first: usize,
}

impl SetLine {
    /// Height: the wished distance of baselines, more if the type needs it.
    pub fn height(&self, wished: f64) -> f64 {
        wished.max(self.line.ascent + self.line.descent)
    }

    /// Where the baseline is in a box of a height.
    pub fn baseline(&self, height: f64) -> f64 {
        (height - self.line.ascent - self.line.descent) / 2.0 + self.line.ascent
    }
}

/// What lines belong to.
pub(super) struct LineContext<'a> {
    pub inlines: &'a [Inline],
    /// The nodes of links, boxes and lines to write on, by inline.
    pub nodes: &'a BTreeMap<usize, usize>,
    /// The node of all other words; `None` for decoration, whose links do not work either.
    pub node: Option<usize>,
    pub ink: Ink,
}

/// What is drawn for an inline that is no text: a box to tick, a line to write on.
fn mark(inline: &Inline, at: Point, line: &Line) -> Option<Item> {
    // A space before it, if any, is set with it.
    let glyphs = line.runs.first().map(|run| (run, run.glyphs.iter()));
    let before: f64 = glyphs.map_or(0.0, |(run, glyphs)| {
        let space = |bytes: &std::ops::Range<usize>| run.text.get(bytes.clone()) == Some(" ");
        glyphs.take_while(|glyph| space(&glyph.bytes)).map(|glyph| glyph.advance).sum()
    });
    let (at, width) = (at.moved(before, 0.0), line.width - before);
    let path = match inline {
        Inline::Tick => {
            let size = line.runs.first().map_or(0.0, |run| Length::from_pt(run.size_pt).0);
            let side = (size * TICK).min(width);
            // The box stands about the middle of the letters.
            let middle = at.moved(width / 2.0, -size * 0.34);
            Path::rect(Rect::around(middle, Size::new(side, side)))
        }
        Inline::Blank { .. } => {
            let low = at.moved(0.0, line.descent * 0.5);
            Path::polyline(&[low, low.moved(width, 0.0)])
        }
        _ => return None,
    };
    Some(Item::Shape { path, fill: None, stroke: Some(Stroke::solid(Ink::BLACK, 0.25)) })
}

impl LineContext<'_> {
    /// Pushes a line whose baseline begins at `at`.
    pub fn items(&self, line: &SetLine, at: Point, to: &mut Vec<Item>) {
        let mut plain = Vec::new();
        for piece in &line.line.pieces {
            let index = line.first + piece.span;
            let at = at.moved(piece.x, 0.0);
            let link = match (self.inlines.get(index), self.nodes.get(&index)) {
                (Some(Inline::Link { target, text, .. }), Some(node)) => Some((target, text, node)),
                _ => None,
            };
            if let Some(drawn) =
                self.inlines.get(index).and_then(|inline| mark(inline, at, &piece.line))
            {
                self.flush(&mut plain, to);
                let node = self.nodes.get(&index).copied();
                to.push(Item::Tagged { node, items: vec![drawn] });
                continue;
            }
            let Some((target, text, node)) = link else {
                plain.push(Item::Text { at, line: piece.line.clone(), ink: self.ink });
                continue;
            };
            self.flush(&mut plain, to);
            let width = piece.line.width;
            let area = Rect {
                left: at.x,
                top: at.y - piece.line.ascent,
                right: at.x + width,
                bottom: at.y + piece.line.descent,
            };
            let low = at.y + piece.line.descent * 0.4;
            let under = Path::polyline(&[Point::new(at.x, low), Point::new(at.x + width, low)]);
            let stroke = Some(Stroke::solid(look::LINK, 0.15));
            to.push(Item::Tagged {
                node: Some(*node),
                items: vec![
                    Item::Shape { path: under, fill: None, stroke },
                    Item::Text { at, line: piece.line.clone(), ink: look::LINK },
                    Item::Link { area, target: target.clone(), description: text.clone() },
                ],
            });
        }
        self.flush(&mut plain, to);
    }

    fn flush(&self, plain: &mut Vec<Item>, to: &mut Vec<Item>) {
        if !plain.is_empty() {
            to.push(Item::Tagged { node: self.node, items: std::mem::take(plain) });
        }
    }
}
