//! Columns that stand side by side: blocks run down the first, then down the next, or each column
//! has blocks of its own.
//!
//! The blocks are set as strips of a column's width and broken into columns as if those were
//! pages. The columns of one row become a single strip, so that they stay on one page together;
//! blocks that are longer than a page of columns go on in a next row.

use crate::document::{Block, TableKind};
use crate::geometry::Point;
use crate::scene::Item;

use super::break_pages::{BrokenPage, Heights, Material, break_pages};
use super::collector::{Collector, Column, Within};
use super::figure::kept_above;
use super::finish::frames;
use super::strip::{Marked, PageNumber, Strip, since_page_break};
use super::{Role, look};

/// Columns begin no further down on a page than this, of its height, if they have to be cut.
const LATEST: f64 = 0.8;

/// How finely the height of columns is sought, mm.
const STEP: f64 = 0.5;

/// Pushes blocks that run through `count` columns; through fewer, if those would be too narrow.
pub(super) fn push(
    to: &mut Collector<'_>,
    count: u8,
    blocks: &[Block],
    column: Column,
    within: Within,
) {
    let gutter = to.look.gutter;
    let least = if blocks.iter().any(is_matrix) { look::NARROWEST_MATRIX } else { look::NARROWEST };
    let most = ((column.width + gutter) / (least + gutter)).floor();
    let count = f64::from(count).min(most).max(1.0);
    let within = Within { depth: within.depth + 1, ..within };
    if count < 2.0 {
        return to.blocks(blocks, column, within);
    }
    let width = (column.width - gutter * (count - 1.0)) / count;
    let before = to.gap(to.look.block_gap);
    let whole = to.area_height - to.above - used(to, before);
    let Apart { mut strips, headings, figures } =
        apart(to, blocks, Column { width, ..column }, before, within);

    let longest = strips.iter().map(|strip| strip.before + strip.height).sum::<f64>() / count;
    let mut room = match longest <= whole {
        true => whole,
        false => to.area_height - to.above - used_before_cut(to, before),
    };
    let mut places = Vec::with_capacity(strips.len());
    while !strips.is_empty() {
        let columns = columns(to, &strips, count as usize, room);
        room = to.area_height;
        let taken: usize = columns.iter().map(|column| column.strips.len()).sum();
        let rest = strips.split_off(taken.clamp(1, strips.len()));
        let row = side_by_side(to, strips, &columns, width + gutter, &mut places);
        to.to.strips.push(Strip { before, ..row });
        strips = rest;
    }
    moved_aside(to, headings, figures, &places);
}

/// Pushes parts that stand beside each other, each in its share of the width; under each other, if
/// one would be too narrow. What is longer than a page goes on in a next row.
pub(super) fn push_beside(
    to: &mut Collector<'_>,
    shares: &[u8],
    parts: &[Vec<Block>],
    column: Column,
    within: Within,
) {
    let within = Within { depth: within.depth + 1, ..within };
    let gutter = to.look.gutter;
    let widths = widths_beside(shares, column.width, gutter);
    let Some(widths) = widths.filter(|widths| widths.len() >= parts.len()) else {
        return parts.iter().for_each(|part| to.blocks(part, column, within));
    };
    let before = to.gap(to.look.block_gap);
    let room = to.area_height - to.above - used(to, before);
    let mut left = column.left;
    let mut waiting: Vec<Part> = Vec::with_capacity(parts.len());
    for (blocks, width) in parts.iter().zip(widths) {
        let node = to.node(Role::Part, within.parent);
        let within = Within { parent: Some(node), ..within };
        let apart = apart(to, blocks, Column { left, width }, before, within);
        waiting.push(Part { apart, places: Vec::new() });
        left += width + gutter;
    }
    // The frames that it lies in need room above and below.
    let framed = (within.depth - 1) as f64 * (2.0 * to.look.frame_end + to.look.block_gap);
    let mut height = room - framed;
    while waiting.iter().any(|part| !part.apart.strips.is_empty()) {
        push_row(to, &mut waiting, before, height);
        // A part that goes on may need a little more than it measured: its head is set anew.
        height = to.area_height - framed - to.look.block_gap;
    }
    for Part { apart: Apart { headings, figures, .. }, places } in waiting {
        moved_aside(to, headings, figures, &places);
    }
}

/// A part that stands beside others: what of it has not landed yet, and where the rest did.
struct Part {
    apart: Apart,
    places: Vec<(usize, Point)>,
}

/// Pushes one row of parts: of each as much as a height has room for.
fn push_row(to: &mut Collector<'_>, waiting: &mut [Part], before: f64, height: f64) {
    let (mut strips, mut columns) = (Vec::new(), Vec::new());
    for part in waiting.iter_mut() {
        let own = &part.apart.strips;
        let material = Material { strips: own, frames: &to.to.frames, heads: &to.to.heads };
        let first = break_pages(material, Heights::all(height)).into_iter().next();
        let first = first.unwrap_or_default();
        let rest = part.apart.strips.split_off(first.strips.len());
        let start = strips.len();
        strips.append(&mut std::mem::replace(&mut part.apart.strips, rest));
        columns.push(BrokenPage { strips: start..strips.len(), ..first });
    }
    let mut places = Vec::with_capacity(strips.len());
    // Each part was set where it stands: none is moved to the right.
    let row = side_by_side(to, strips, &columns, 0.0, &mut places);
    to.to.strips.push(Strip { before, ..row });
    let mut places = places.into_iter();
    for (part, column) in waiting.iter_mut().zip(&columns) {
        part.places.extend(places.by_ref().take(column.strips.len()));
    }
}

/// The widths of columns that share a width, with gutters between them, mm.
pub(super) fn widths(shares: &[u8], width: f64, gutter: f64) -> Vec<f64> {
    let all: f64 = shares.iter().copied().map(f64::from).sum();
    let room = width - gutter * (shares.len() as f64 - 1.0);
    shares.iter().map(|share| room * f64::from(*share) / all.max(1.0)).collect()
}

/// The same; `None` if one of them would be too narrow, so that what shares the width stands under each
/// other.
pub(super) fn widths_beside(shares: &[u8], width: f64, gutter: f64) -> Option<Vec<f64>> {
    let widths = widths(shares, width, gutter);
    widths.iter().all(|width| *width >= look::NARROWEST_PART).then_some(widths)
}

/// What was set apart from the strips of the page: it counts its own until it is known where each
/// lands.
struct Apart {
    strips: Vec<Strip>,
    headings: Vec<Marked>,
    figures: Vec<(usize, usize)>,
}

/// Sets blocks apart. `before` is the space above the columns.
fn apart(
    to: &mut Collector<'_>,
    blocks: &[Block],
    column: Column,
    before: f64,
    within: Within,
) -> Apart {
    let above = std::mem::replace(&mut to.above, 0.0);
    to.above = above + used(to, before);
    let outer_strips = std::mem::take(&mut to.to.strips);
    let outer_headings = std::mem::take(&mut to.to.headings);
    let outer_figures = std::mem::take(&mut to.to.figures);
    to.first = None;
    to.blocks(blocks, column, within);
    to.first = None;
    to.above = above;
    Apart {
        strips: std::mem::replace(&mut to.to.strips, outer_strips),
        headings: std::mem::replace(&mut to.to.headings, outer_headings),
        figures: std::mem::replace(&mut to.to.figures, outer_figures),
    }
}

/// What is worked through line by line.
fn is_matrix(block: &Block) -> bool {
    matches!(block, Block::Table(table) if table.kind == TableKind::Matrix)
}

/// Height that the page has no more room for where columns begin, if they can begin a page. Only
/// landscape pages begin at a known place; of others that is what must stay with the columns: the
/// headings above.
fn used(to: &Collector<'_>, before: f64) -> f64 {
    let used = before + kept_above(to);
    if used > to.area_height / 2.0 { 0.0 } else { used }
}

/// The same for columns that a page does not hold: they begin where what is set so far ends, unless
/// that is too far down.
fn used_before_cut(to: &Collector<'_>, before: f64) -> f64 {
    let (strips, pages) = open_pages(to);
    let used = before + pages.last().map_or(0.0, |page| bottom(page, strips));
    if used < to.area_height * LATEST { used } else { self::used(to, before) }
}

/// What is set since the last page break, and the pages that it takes.
pub(super) fn open_pages<'a>(to: &'a Collector<'_>) -> (&'a [Strip], Vec<BrokenPage>) {
    let strips = since_page_break(&to.to.strips);
    let material = Material { strips, frames: &to.to.frames, heads: &to.to.heads };
    (strips, break_pages(material, Heights::all(to.area_height)))
}

/// Puts headings and figures where the strips that they lie in landed: `places` has the new strip
/// of each, and its place in it.
pub(super) fn moved_aside(
    to: &mut Collector<'_>,
    headings: Vec<Marked>,
    figures: Vec<(usize, usize)>,
    places: &[(usize, Point)],
) {
    for heading in headings {
        if let Some((strip, shift)) = places.get(heading.strip).copied() {
            let at = heading.at.moved(shift.x, shift.y);
            to.to.headings.push(Marked { strip, at, ..heading });
        }
    }
    for (strip, node) in figures {
        if let Some((strip, shift)) = places.get(strip).copied() {
            if let Some(Role::Figure { area, .. }) =
                to.to.nodes.get_mut(node).map(|node| &mut node.role)
            {
                *area = area.moved(shift.x, shift.y);
            }
            to.to.figures.push((strip, node));
        }
    }
}

/// The columns of the next row: level, if all that is left has room in them, or else of a height.
fn columns(to: &Collector<'_>, strips: &[Strip], count: usize, most: f64) -> Vec<BrokenPage> {
    let material = Material { strips, frames: &to.to.frames, heads: &to.to.heads };
    let whole: f64 = strips.iter().map(|strip| strip.before + strip.height).sum();
    let mut height = (whole / count as f64 - STEP).max(STEP);
    while height < most {
        let columns = break_pages(material, Heights::all(height));
        let fits = |column: &BrokenPage| bottom(column, strips) <= height + 1e-6;
        if columns.len() <= count && columns.iter().all(fits) {
            return columns;
        }
        height += STEP;
    }
    let mut columns = break_pages(material, Heights::all(most));
    columns.truncate(count);
    columns
}

/// How far down the last strip of a column ends, mm.
pub(super) fn bottom(column: &BrokenPage, strips: &[Strip]) -> f64 {
    let last = column.strips.end.checked_sub(1).and_then(|last| strips.get(last));
    let (Some(top), Some(last)) = (column.tops.last(), last) else { return 0.0 };
    top + last.height
}

/// One strip of columns whose left edges lie `step` mm apart. For each of `strips` its row and its
/// place in it are added to `places`.
pub(super) fn side_by_side(
    to: &Collector<'_>,
    strips: Vec<Strip>,
    columns: &[BrokenPage],
    step: f64,
    places: &mut Vec<(usize, Point)>,
) -> Strip {
    let height = columns.iter().map(|column| bottom(column, &strips)).fold(0.0, f64::max);
    let mut row = Strip { height, ..Strip::default() };
    let mut strips = strips.into_iter();
    for (index, column) in columns.iter().enumerate() {
        let left = Point::new(index as f64 * step, 0.0);
        if let Some(head) = column.head.and_then(|head| to.to.heads.get(head)) {
            for (to, items) in [(&mut row.under, &head.under), (&mut row.items, &head.items)] {
                to.push(Item::Group { shift: left, clip: None, items: items.clone() });
            }
        }
        let mut spans = Vec::with_capacity(column.strips.len());
        let mut placed = Vec::with_capacity(column.strips.len());
        for (top, strip) in column.tops.iter().zip(strips.by_ref()) {
            let shift = left.moved(0.0, *top);
            places.push((to.to.strips.len(), shift));
            spans.push((strip.frame, *top, top + strip.height));
            row.numbers.extend(
                strip
                    .numbers
                    .into_iter()
                    .map(|number| PageNumber { at: number.at.moved(shift.x, shift.y), ..number }),
            );
            // The page looks for anchors on strips, not inside groups.
            let (anchors, items): (Vec<_>, Vec<_>) =
                strip.items.into_iter().partition(|item| matches!(item, Item::Anchor { .. }));
            row.items.extend(anchors.into_iter().map(|item| match item {
                Item::Anchor { name, at } => Item::Anchor { name, at: at.moved(shift.x, shift.y) },
                item => item,
            }));
            for (to, items) in [(&mut row.under, strip.under), (&mut placed, items)] {
                if !items.is_empty() {
                    to.push(Item::Group { shift, clip: None, items });
                }
            }
        }
        row.under.extend(frames(&to.to.frames, &spans, left));
        row.items.append(&mut placed);
    }
    row
}
