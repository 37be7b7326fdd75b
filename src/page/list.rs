//! Lists: bullets, numbers, and steps with a box to tick. Bullets and boxes are drawn.

use crate::document::{Block, ListKind};
use crate::geometry::{Path, Point, Rect, Size};
use crate::scene::{Ink, Item, Stroke};

use super::Role;
use super::collector::{Collector, Column, Within, strong};
use super::strip::{After, Strip};

/// Pushes a list.
pub(super) fn push(
    to: &mut Collector<'_>,
    kind: ListKind,
    items: &[Vec<Block>],
    column: Column,
    within: Within,
) {
    if items.is_empty() {
        return;
    }
    let list = to.node(Role::List(kind), within.parent);
    let indent = indent(to, kind, items.len());
    // Boxes at the right edge stand in a column of their own.
    let at_right = if kind == ListKind::Ticks { to.look.tick + TICK_GAP } else { 0.0 };
    let column = Column { left: column.left + indent, width: column.width - indent - at_right };
    for (index, blocks) in items.iter().enumerate() {
        let item = to.node(Role::ListItem, Some(list));
        let label = to.node(Role::Label(kind), Some(item));
        let body = to.node(Role::Body, Some(item));
        let start = to.to.strips.len();
        let gap = to.gap(if index == 0 { to.look.gap } else { to.look.item_gap });
        if !matches!(blocks.first(), Some(Block::Paragraph(words)) if !words.is_empty()) {
            // The label stands beside a line of words; where there is none, it has its own.
            let height = to.line_height();
            let after = if blocks.is_empty() { After::Free } else { After::Never };
            to.to.strips.push(Strip { before: gap, height, after, ..Strip::default() });
        }
        to.first = Some((start, gap));
        to.blocks(blocks, column, Within { parent: Some(body), depth: within.depth + 1 });
        let edge = if kind == ListKind::Ticks { column.width + at_right } else { -indent };
        let items_of_label = label_items(to, kind, index, (column.left, column.left + edge), label);
        if let Some(first) = to.to.strips.get_mut(start) {
            first.items.splice(0..0, items_of_label);
        }
        if let Some(last) = to.to.strips.last_mut()
            && last.after == After::Free
            && (index == 0 || index + 2 == items.len())
            && index + 1 < items.len()
        {
            last.after = After::Avoid;
        }
    }
}

/// How far the words stand to the right of the labels: more if the numbers are long.
fn indent(to: &mut Collector<'_>, kind: ListKind, count: usize) -> f64 {
    let look = to.look;
    let mut number = |from: u32| {
        let last = u64::from(from) + count as u64;
        // No digit is wider than 0.
        let zeros = "0".repeat(last.to_string().len());
        to.types.line(&zeros, strong(look.body)).width + LABEL_GAP
    };
    match kind {
        ListKind::Ticks => 0.0,
        ListKind::Bullets => look.bullet_indent,
        ListKind::Numbers(from) => look.number_indent.max(number(from)),
        ListKind::Steps(from) => look.step_indent.max(look.tick + LABEL_GAP + number(from)),
    }
}

/// Space between a number and what stands beside it.
const LABEL_GAP: f64 = 2.0;

/// Space between words and a box to tick at their right.
const TICK_GAP: f64 = 4.0;

/// The label of an item, drawn for a line of running text at the top of a strip. The words begin at
/// `left`; `edge` is the left edge of the label, or for boxes at the right their right edge.
fn label_items(
    to: &mut Collector<'_>,
    kind: ListKind,
    index: usize,
    (left, edge): (f64, f64),
    node: usize,
) -> Vec<Item> {
    let line_height = to.line_height();
    let tick = to.look.tick;
    let number = |from: u32| u64::from(from) + index as u64;
    let (mut label, mut items) = (Vec::new(), Vec::new());
    let tick_at = |left: f64| {
        let corner = Point::new(left, (line_height - tick) / 2.0);
        let path = Path::rect(Rect::at(corner, Size::new(tick, tick)));
        let stroke = Some(Stroke::solid(Ink::BLACK, 0.25));
        Item::Shape { path, fill: Some(Ink::WHITE), stroke }
    };
    let from = match kind {
        ListKind::Bullets => {
            let middle = Point::new(edge + 1.6, line_height * 0.53);
            let path = Path::circle(middle, 0.55);
            items.push(Item::Shape { path, fill: Some(Ink::BLACK), stroke: None });
            None
        }
        ListKind::Numbers(from) => Some(from),
        ListKind::Steps(from) => {
            let box_node = to.node(Role::Tick, Some(node));
            label.push(Item::Tagged { node: Some(box_node), items: vec![tick_at(edge)] });
            Some(from)
        }
        ListKind::Ticks => {
            let box_node = to.node(Role::Tick, Some(node));
            label.push(Item::Tagged { node: Some(box_node), items: vec![tick_at(edge - tick)] });
            None
        }
    };
    if let Some(from) = from {
        let line = to.types.line(&number(from).to_string(), strong(to.look.body));
        let baseline = (line_height - line.height()) / 2.0 + line.ascent;
        let at = Point::new(left - LABEL_GAP - line.width, baseline);
        items.push(Item::Text { at, line, ink: Ink::BLACK });
    }
    label.push(Item::Tagged { node: Some(node), items });
    label
}
