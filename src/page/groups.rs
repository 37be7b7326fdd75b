//! Rows of a table that others belong to: a head over all columns, and what keeps them together.

use std::num::NonZeroU32;

use crate::document::Inline;
use crate::geometry::{Path, Point, Rect};
use crate::scene::{Ink, Item, Stroke};

use super::collector::Collector;
use super::paragraph::{LineContext, SetLine, inline_nodes};
use super::strip::{After, Strip, TableHead};
use super::{Role, look};

/// Words of a head higher than this, of the page's height, go on in a strip of their own.
const HIGHEST_HEAD: f64 = 0.3;
/// Heads that are repeated are no higher than this, of the page's height: a row can be as high as what
/// is left.
const HIGHEST_HEADS: f64 = 0.5;
/// A group no higher than this, of the page's height, stays whole.
const KEPT_WHOLE: f64 = 0.3;

/// What a row over all columns needs to know of its table; lengths are mm.
pub(super) struct Across {
    pub left: f64,
    pub right: f64,
    /// Space inside a cell, left and right.
    pub side: f64,
    /// Space inside a cell, above and below.
    pub end: f64,
    pub line_height: f64,
    pub columns: NonZeroU32,
    /// The node of the reading order that the row belongs to.
    pub parent: usize,
    /// The head of the table, which is repeated above it.
    pub head: Option<usize>,
}

impl Across {
    /// Width of the words.
    pub fn width(&self) -> f64 {
        self.right - self.left - 2.0 * self.side
    }

    fn rule(&self, y: f64, stroke: Stroke) -> Item {
        let path = Path::polyline(&[Point::new(self.left, y), Point::new(self.right, y)]);
        Item::Shape { path, fill: None, stroke: Some(stroke) }
    }
}

/// Pushes the row that heads a group: one cell over all columns. `lines` are its words.
pub(super) fn push_head(
    to: &mut Collector<'_>,
    inlines: &[Inline],
    lines: &[SetLine],
    across: &Across,
) {
    let node = to.node(Role::Row, Some(across.parent));
    let cell = to.node(Role::GroupHead(across.columns), Some(node));
    let links = inline_nodes(to, inlines, Some(cell));
    let context = LineContext { inlines, nodes: &links, node: Some(cell), ink: Ink::BLACK };
    // Words that no page has room for go on in further strips.
    let most = ((to.area_height * HIGHEST_HEAD / across.line_height) as usize).max(1);
    let mut parts: Vec<&[SetLine]> = lines.chunks(most).collect();
    if parts.is_empty() {
        parts.push(&[]);
    }
    let last = parts.len() - 1;
    for (index, lines) in parts.into_iter().enumerate() {
        let mut items = Vec::new();
        let above = if index == 0 { across.end } else { 0.0 };
        let mut y = above;
        for line in lines {
            let height = line.height(across.line_height);
            let at = Point::new(across.left + across.side, y + line.baseline(height));
            context.items(line, at, &mut items);
            y += height;
        }
        if items.is_empty() {
            items.push(Item::Tagged { node: Some(cell), items: Vec::new() });
        }
        let end = if index == last { across.end } else { 0.0 };
        let height = y.max(above + across.line_height) + end;
        let tint = Rect { left: across.left, top: 0.0, right: across.right, bottom: height };
        let path = Path::rect(tint);
        let mut under = vec![Item::Shape { path, fill: Some(look::GROUP_TINT), stroke: None }];
        if index == 0 {
            under.push(across.rule(0.0, look::STRONG_RULE));
        }
        if index == last {
            under.push(across.rule(height, look::RULE));
        }
        to.to.strips.push(Strip { height, under, items, head: across.head, ..Strip::default() });
    }
}

/// Keeps each group on one page; of one that is too high for that, repeats its head above what goes
/// on, under the table's head. `starts` are the strips that groups begin with, up to the last strip.
pub(super) fn keep_together(to: &mut Collector<'_>, starts: &[usize], head: Option<usize>) {
    let ends = starts.iter().skip(1).copied().chain([to.to.strips.len()]);
    for (start, end) in starts.iter().copied().zip(ends) {
        let strips = to.to.strips.get(start..end).unwrap_or_default();
        let height: f64 = strips.iter().map(|strip| strip.height).sum();
        let whole = height <= KEPT_WHOLE * to.area_height;
        let repeated = if whole { None } else { repeated_head(to, start, head) };
        let strips = to.to.strips.get_mut(start..end).unwrap_or_default();
        let count = strips.len();
        for (index, strip) in strips.iter_mut().enumerate() {
            if index > 0 && repeated.is_some() {
                strip.head = repeated;
            }
            strip.after = match index + 1 == count {
                true => After::Free,
                false if whole || index == 0 => After::Never,
                // No row alone under the head, and none alone on the next page.
                false if index == 1 || index + 2 == count => After::Avoid,
                false => After::Free,
            };
        }
    }
}

/// The head of the table with that of a group below it, as both are repeated; `None` if they leave a
/// row too little room.
fn repeated_head(to: &mut Collector<'_>, start: usize, head: Option<usize>) -> Option<usize> {
    let table = head.and_then(|head| to.to.heads.get(head));
    let (mut height, mut under, mut items) = match table {
        Some(head) => (head.height, head.under.clone(), head.items.clone()),
        None => (0.0, Vec::new(), Vec::new()),
    };
    if let Some(strip) = to.to.strips.get(start) {
        let shift = Point::new(0.0, height);
        under.push(Item::Group { shift, clip: None, items: strip.under.clone() });
        items.push(Item::Group { shift, clip: None, items: decoration(&strip.items) });
        height += strip.height;
    }
    if height > HIGHEST_HEADS * to.area_height {
        return None;
    }
    to.to.heads.push(TableHead { height, under, items });
    Some(to.to.heads.len() - 1)
}

/// The same to be seen but not read aloud again, and without places to press.
fn decoration(items: &[Item]) -> Vec<Item> {
    let seen = |item: &Item| match item {
        Item::Tagged { items, .. } => {
            let items = items.iter().filter(|item| !matches!(item, Item::Link { .. }));
            Some(Item::Tagged { node: None, items: items.cloned().collect() })
        }
        Item::Anchor { .. } | Item::Link { .. } => None,
        item => Some(item.clone()),
    };
    items.iter().filter_map(seen).collect()
}
