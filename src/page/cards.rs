//! Cards to be cut out, with lines to cut along.
//!
//! The blocks of each card are set as strips of the cell's inner width. Cards run down the first
//! column of a page, then down the next: so they fill their pages. The columns of a page become a
//! single strip, and no card is cut.

use crate::document::Block;
use crate::geometry::{Path, Point, Rect, Size};
use crate::scene::{Dash, Ink, Item, Stroke};

use super::break_pages::{BrokenPage, Heights, Material, break_pages};
use super::collector::{Collector, Column, Within};
use super::look;
use super::side_by_side::{bottom, moved_aside, side_by_side};
use super::strip::{After, Begins, Marked, Strip};

/// Space inside a card, at its sides, above and below, mm.
const PAD: f64 = 5.0;
/// Left free between the words before the cards and the first ones, and below these, mm.
const BELOW_WORDS: f64 = 6.0;

/// Where to cut: no line that means anything else is broken like this.
const CUT: Stroke =
    Stroke { ink: Ink(64, 64, 64), width: 0.2, dash: Dash::Broken { on: 250, off: 180 } };

/// Pushes cards, below whatever stands before them.
pub(super) fn push(to: &mut Collector<'_>, cards: &[Vec<Block>], column: Column, within: Within) {
    let inside = within.depth > 0;
    let within = Within { depth: within.depth + 1, ..within };
    if inside {
        // Inside of something else there is no page to cut.
        return cards.iter().for_each(|card| to.blocks(card, column, within));
    }
    let before = (to.to.nodes.len(), to.to.frames.len(), to.to.heads.len());
    let (most, _) = inner_width(column.width);
    for across in [most, 1] {
        // What an attempt before this one set is set anew.
        to.to.nodes.truncate(before.0);
        to.to.frames.truncate(before.1);
        to.to.heads.truncate(before.2);
        let cell = column.width / across as f64;
        let inner = Column { left: column.left + PAD, width: cell - 2.0 * PAD };
        let cards = set(to, cards, inner, within);
        let tallest = cards.heights.iter().copied().fold(0.0, f64::max);
        if tallest <= to.area_height {
            return place(to, cards, column.left, cell, across);
        }
        if across == 1 {
            // Too much for any card: nothing is lost, but there is nothing to be cut.
            return loose(to, cards);
        }
    }
}

/// Puts cards `width` mm wide on pages of so many columns.
fn place(to: &mut Collector<'_>, cards: SetCards, left: f64, width: f64, across: usize) {
    let used: f64 = to.to.strips.iter().map(|strip| strip.before + strip.height).sum();
    let first = to.area_height - used - BELOW_WORDS;
    let SetCards { mut strips, columns, heights, headings, figures } = cards;
    let mut places = Vec::with_capacity(strips.len());
    let mut columns = columns.into_iter();
    for page in pages(&heights, first, to.area_height, across) {
        let mut broken = Vec::with_capacity(page.columns.len());
        let mut lines = Vec::new();
        let (mut taken, mut height) = (0, 0.0_f64);
        for (index, column) in page.columns.iter().enumerate() {
            let mut down = 0.0;
            let mut one = BrokenPage::default();
            let start = taken;
            for height in column {
                let Some(card) = columns.next() else { break };
                one.tops.extend(card.tops.iter().map(|top| down + PAD + top));
                taken += card.strips.len();
                let corner = Point::new(left + width * index as f64, down);
                lines.extend(cuts(Rect::at(corner, Size::new(width, *height))));
                down += height;
            }
            one.strips = start..taken;
            height = height.max(down);
            broken.push(one);
        }
        let rest = strips.split_off(taken.min(strips.len()));
        let row = side_by_side(to, strips, &broken, width, &mut places);
        strips = rest;
        let mut strip = Strip { height, after: After::Free, ..row };
        strip.under.extend(lines);
        (strip.before, strip.begins) = match page.first {
            true => (BELOW_WORDS / 2.0, Begins::Anywhere),
            false => (0.0, Begins::Page),
        };
        to.to.strips.push(strip);
    }
    moved_aside(to, headings, figures, &places);
}

/// The heights of the cards of one page, column by column.
struct CardPage {
    /// Whether it goes on below the words before the cards.
    first: bool,
    columns: Vec<Vec<f64>>,
}

/// Which cards stand where: down the first column, then down the next. The first page has less room.
fn pages(heights: &[f64], first: f64, room: f64, across: usize) -> Vec<CardPage> {
    let empty = |first| CardPage { first, columns: vec![Vec::new()] };
    let mut all = Vec::new();
    let mut page = empty(true);
    for height in heights {
        loop {
            let room = if page.first { first } else { room };
            let used: f64 = page.columns.last().map_or(0.0, |column| column.iter().sum());
            if used + height <= room + 1e-9 {
                break;
            }
            let untouched = page.columns.iter().all(Vec::is_empty);
            if untouched && !page.first {
                // It is not higher than a page, so this cannot happen; nothing is lost if it does.
                break;
            }
            if page.columns.len() < across && !untouched {
                page.columns.push(Vec::new());
            } else {
                all.push(std::mem::replace(&mut page, empty(false)));
            }
        }
        if let Some(column) = page.columns.last_mut() {
            column.push(*height);
        }
    }
    all.push(page);
    all.retain(|page| page.columns.iter().any(|column| !column.is_empty()));
    all
}

/// How many cards stand side by side in a width, and the width inside each, mm.
pub(super) fn inner_width(width: f64) -> (usize, f64) {
    let inner = |across: usize| width / across as f64 - 2.0 * PAD;
    let across = if inner(2) >= look::NARROWEST { 2 } else { 1 };
    (across, inner(across))
}

/// Cards, set.
struct SetCards {
    /// The strips of all of them, one card after the other.
    strips: Vec<Strip>,
    /// Each card's strips with their places.
    columns: Vec<BrokenPage>,
    /// Height of each with the space inside it, mm.
    heights: Vec<f64>,
    headings: Vec<Marked>,
    figures: Vec<(usize, usize)>,
}

fn set(to: &mut Collector<'_>, cards: &[Vec<Block>], column: Column, within: Within) -> SetCards {
    let outer_strips = std::mem::take(&mut to.to.strips);
    let outer_headings = std::mem::take(&mut to.to.headings);
    let outer_figures = std::mem::take(&mut to.to.figures);
    let mut columns = Vec::with_capacity(cards.len());
    let mut heights = Vec::with_capacity(cards.len());
    for card in cards {
        let start = to.to.strips.len();
        to.first = Some((start, 0.0));
        to.blocks(card, column, within);
        let strips = to.to.strips.get(start..).unwrap_or_default();
        let material = Material { strips, frames: &to.to.frames, heads: &to.to.heads };
        let broken = break_pages(material, Heights::all(f64::INFINITY))
            .into_iter()
            .next()
            .unwrap_or_default();
        heights.push(bottom(&broken, strips) + 2.0 * PAD);
        columns.push(broken);
    }
    to.first = None;
    SetCards {
        strips: std::mem::replace(&mut to.to.strips, outer_strips),
        columns,
        heights,
        headings: std::mem::replace(&mut to.to.headings, outer_headings),
        figures: std::mem::replace(&mut to.to.figures, outer_figures),
    }
}

/// Cards that no page holds, one under the other.
fn loose(to: &mut Collector<'_>, cards: SetCards) {
    let start = to.to.strips.len();
    let places: Vec<(usize, Point)> =
        (0..cards.strips.len()).map(|index| (start + index, Point::default())).collect();
    moved_aside(to, cards.headings, cards.figures, &places);
    to.to.strips.extend(cards.strips);
}

/// Where to cut round a card: the lines of neighbours lie on one another.
fn cuts(card: Rect) -> impl Iterator<Item = Item> {
    let Rect { left, top, right, bottom } = card;
    let corners = [(left, top), (right, top), (right, bottom), (left, bottom), (left, top)];
    let corners = corners.map(|(x, y)| Point::new(x, y));
    (0..4).map(move |side| Item::Shape {
        path: Path::polyline(&corners[side..=side + 1]),
        fill: None,
        stroke: Some(CUT),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn arranged(heights: &[f64], first: f64, across: usize) -> Vec<(bool, Vec<Vec<f64>>)> {
        let pages = pages(heights, first, 100.0, across);
        pages.into_iter().map(|page| (page.first, page.columns)).collect()
    }

    #[test]
    fn cards_run_down_the_columns_of_each_page() {
        assert_eq!(
            arranged(&[30.0, 40.0, 20.0, 60.0, 50.0, 100.0], 75.0, 2),
            [
                (true, vec![vec![30.0, 40.0], vec![20.0]]),
                (false, vec![vec![60.0], vec![50.0]]),
                (false, vec![vec![100.0]]),
            ]
        );
        // Nothing fits below the words, or they take more than a page.
        for first in [10.0, -500.0] {
            let all = arranged(&[30.0, 90.0], first, 2);
            assert_eq!(all, [(false, vec![vec![30.0], vec![90.0]])]);
        }
        assert!(arranged(&[], 75.0, 2).is_empty());
    }
}
