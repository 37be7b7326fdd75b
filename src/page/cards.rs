//! Cards to be cut out, with lines to cut along.
//!
//! The blocks of each card are set as strips of the cell's inner width. Cards stand two side by side
//! where the page is wide enough, and those of one row are as high as the higher one: so they fill
//! their pages. The cells of one row become a single strip, which no page end cuts.

use crate::document::Block;
use crate::geometry::{Path, Point, Size};
use crate::scene::{Dash, Ink, Item, Stroke};

use super::break_pages::{BrokenPage, Heights, Material, break_pages};
use super::collector::{Collector, Column, Within};
use super::look;
use super::side_by_side::{bottom, moved_aside, side_by_side};
use super::strip::{After, Begins, Marked, Strip};

/// Space inside a card, at its sides, above and below, mm.
const PAD: f64 = 5.0;

/// Where to cut: no line that means anything else is broken like this.
const CUT: Stroke =
    Stroke { ink: Ink(64, 64, 64), width: 0.2, dash: Dash::Broken { on: 250, off: 180 } };

/// Pushes cards, below whatever stands before them.
pub(super) fn push(to: &mut Collector<'_>, cards: &[Vec<Block>], column: Column, within: Within) {
    let within = Within { depth: within.depth + 1, ..within };
    let before = (to.to.nodes.len(), to.to.frames.len(), to.to.heads.len());
    let (most, _) = inner_width(column.width);
    for across in [most, 1] {
        // What an attempt before this one set is set anew.
        to.to.nodes.truncate(before.0);
        to.to.frames.truncate(before.1);
        to.to.heads.truncate(before.2);
        let cell = column.width / across as f64;
        let inner = Column { left: column.left + PAD, width: cell - 2.0 * PAD };
        let rows: Vec<CardRow> =
            cards.chunks(across).map(|row| set(to, row, inner, within)).collect();
        let tallest = rows.iter().map(|row| row.height).fold(0.0, f64::max) + 2.0 * PAD;
        if tallest <= to.area_height {
            return place(to, rows, column.left, cell);
        }
        if across == 1 {
            // Too much for any card: nothing is lost, but there is nothing to be cut.
            return rows.into_iter().for_each(|row| loose(to, row));
        }
    }
}

/// Puts rows of cards, each card `width` mm wide, one below the other.
fn place(to: &mut Collector<'_>, rows: Vec<CardRow>, left: f64, width: f64) {
    let mut places = Vec::new();
    for row in rows {
        let (count, size) = (row.columns.len(), Size::new(width, row.height + 2.0 * PAD));
        places.clear();
        let strip = side_by_side(to, row.strips, &row.columns, size.width, &mut places);
        let down = Point::new(0.0, PAD);
        let mut strip = moved(strip, down);
        strip.under.extend(cuts(left, size, count));
        strip.height = size.height;
        strip.begins = Begins::Anywhere;
        strip.after = After::Free;
        for (_, place) in &mut places {
            *place = place.moved(down.x, down.y);
        }
        moved_aside(to, row.headings, row.figures, &places);
        to.to.strips.push(strip);
    }
}

/// How many cards stand side by side in a width, and the width inside each, mm.
pub(super) fn inner_width(width: f64) -> (usize, f64) {
    let inner = |across: usize| width / across as f64 - 2.0 * PAD;
    let across = if inner(2) >= look::NARROWEST { 2 } else { 1 };
    (across, inner(across))
}

/// The cards of one row, set.
struct CardRow {
    /// The strips of all of them, one card after the other.
    strips: Vec<Strip>,
    /// Each card's strips with their places.
    columns: Vec<BrokenPage>,
    /// Height of the highest card.
    height: f64,
    headings: Vec<Marked>,
    figures: Vec<(usize, usize)>,
}

fn set(to: &mut Collector<'_>, cards: &[Vec<Block>], column: Column, within: Within) -> CardRow {
    let outer_strips = std::mem::take(&mut to.to.strips);
    let outer_headings = std::mem::take(&mut to.to.headings);
    let outer_figures = std::mem::take(&mut to.to.figures);
    let mut columns = Vec::with_capacity(cards.len());
    let mut height = 0.0_f64;
    for card in cards {
        let start = to.to.strips.len();
        to.first = Some((start, 0.0));
        let blocks: Vec<Block> =
            card.iter().filter(|block| **block != Block::PageBreak).cloned().collect();
        to.blocks(&blocks, column, within);
        let strips = to.to.strips.get(start..).unwrap_or_default();
        let material = Material { strips, frames: &to.to.frames, heads: &to.to.heads };
        let broken = break_pages(material, Heights::all(f64::INFINITY))
            .into_iter()
            .next()
            .unwrap_or_default();
        height = height.max(bottom(&broken, strips));
        let range = broken.strips.start + start..broken.strips.end + start;
        columns.push(BrokenPage { strips: range, ..broken });
    }
    to.first = None;
    CardRow {
        strips: std::mem::replace(&mut to.to.strips, outer_strips),
        columns,
        height,
        headings: std::mem::replace(&mut to.to.headings, outer_headings),
        figures: std::mem::replace(&mut to.to.figures, outer_figures),
    }
}

/// Cards that no page holds, one under the other.
fn loose(to: &mut Collector<'_>, row: CardRow) {
    let start = to.to.strips.len();
    let places: Vec<(usize, Point)> =
        (0..row.strips.len()).map(|index| (start + index, Point::default())).collect();
    moved_aside(to, row.headings, row.figures, &places);
    to.to.strips.extend(row.strips);
}

/// A strip whose content lies elsewhere in it.
fn moved(strip: Strip, by: Point) -> Strip {
    let (mut under, mut items) = (Vec::new(), Vec::new());
    for (from, to) in [(strip.under, &mut under), (strip.items, &mut items)] {
        // The page looks for anchors on strips, not inside groups.
        let (anchors, rest): (Vec<_>, Vec<_>) =
            from.into_iter().partition(|item| matches!(item, Item::Anchor { .. }));
        to.extend(anchors);
        to.push(Item::Group { shift: by, clip: None, items: rest });
    }
    Strip { under, items, ..strip }
}

/// Where to cut round a row of cards of a size: above it, below it, and at the sides of every card.
fn cuts(left: f64, size: Size, count: usize) -> Vec<Item> {
    let right = left + size.width * count as f64;
    let level = |y: f64| [Point::new(left, y), Point::new(right, y)];
    let upright = |index: usize| {
        let x = left + size.width * index as f64;
        [Point::new(x, 0.0), Point::new(x, size.height)]
    };
    let all = (0..=count).map(upright).chain([level(0.0), level(size.height)]);
    all.map(|line| Item::Shape { path: Path::polyline(&line), fill: None, stroke: Some(CUT) })
        .collect()
}
