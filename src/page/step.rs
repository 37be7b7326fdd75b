//! Steps of a work card: the number and the drawing at the left, what is done beside them, and
//! boxes to tick at the right edge.

use crate::document::Block;
use crate::geometry::{Path, Point, Rect};
use crate::scene::{Ink, Item, Scene};

use super::collector::{Collector, Column, Within, strong};
use super::strip::{After, Strip};
use super::{Role, look};

/// Room for the number, and between the drawing and the words, mm.
const NUMBER: f64 = 9.0;
const GAP: f64 = 4.5;
/// Part of the page's width that a drawing may take, and the least and most of it, mm.
const PART: f64 = 0.29;
const DRAWING: (f64, f64) = (38.0, 54.0);
/// Space above the line over a step, and below it, mm.
const ABOVE: f64 = 2.6;
const BELOW: f64 = 2.2;
/// A drawing higher than this, of the page's height, stands above the words.
const HIGHEST: f64 = 0.6;

/// The width of the drawing beside a step on a page of a width, mm.
pub(super) fn drawing_width(width: f64) -> f64 {
    let (least, most) = DRAWING;
    (width * PART).clamp(least, most)
}

/// Pushes a step. It stays on one page if a page can hold it.
pub(super) fn push(
    to: &mut Collector<'_>,
    number: u32,
    blocks: &[Block],
    column: Column,
    within: Within,
) {
    let within = Within { depth: within.depth + 1, ..within };
    let start = to.to.strips.len();
    let before = to.gap(ABOVE);
    let rule = Path::polyline(&[
        Point::new(column.left, 0.0),
        Point::new(column.left + column.width, 0.0),
    ]);
    let under = vec![Item::Shape { path: rule, fill: None, stroke: Some(look::STRONG_RULE) }];
    let rule = Strip { before, height: BELOW, under, after: After::Never, ..Strip::default() };
    to.to.strips.push(rule);

    let drawing_width = drawing_width(column.width);
    let beside = column.width - NUMBER - drawing_width - GAP;
    let fits = |scene: &Scene| {
        scene.size.width <= drawing_width + 1e-6
            && scene.size.height <= to.area_height * HIGHEST
            && beside >= look::NARROWEST
    };
    let drawn = blocks.iter().position(
        |block| matches!(block, Block::Figure { scene, caption, .. } if caption.is_empty() && fits(scene)),
    );
    let indent = if drawn.is_some() || !has_figure(blocks) && beside >= look::NARROWEST {
        NUMBER + drawing_width + GAP
    } else {
        NUMBER
    };
    let text = Column { left: column.left + indent, width: column.width - indent };
    to.first = Some((start + 1, 0.0));
    let (nodes, headings) = (to.to.nodes.len(), to.to.headings.len());
    let words: Vec<Block> = blocks
        .iter()
        .enumerate()
        .filter(|(index, _)| Some(*index) != drawn)
        .map(|(_, block)| block.clone())
        .collect();
    to.blocks(&words, text, within);
    if to.to.strips.len() == start + 1 {
        let height = to.line_height();
        to.to.strips.push(Strip { height, ..Strip::default() });
    }
    let heading = match words.first() {
        Some(Block::Heading { level, .. }) => Some((nodes, headings, *level)),
        _ => None,
    };
    label(to, number, (start + 1, heading), column.left, within);
    let height = match drawn.and_then(|index| blocks.get(index)) {
        Some(Block::Figure { scene, alternative, .. }) => {
            drawing(to, scene, alternative, (start + 1, column.left + NUMBER), within);
            scene.size.height
        }
        _ => 0.0,
    };
    keep(to, start, height);
}

fn has_figure(blocks: &[Block]) -> bool {
    blocks.iter().any(|block| matches!(block, Block::Figure { .. }))
}

/// Draws the number beside the first line of the words. It is a part of their heading, if they begin
/// with one: `heading` is where its node and its mark lie, and its level.
fn label(
    to: &mut Collector<'_>,
    number: u32,
    (strip, heading): (usize, Option<(usize, usize, u8)>),
    left: f64,
    within: Within,
) {
    let number = number.to_string();
    let node = match heading {
        Some((node, mark, _)) => {
            if let Some(Role::Heading { text, .. }) = to.to.nodes.get_mut(node).map(|n| &mut n.role)
            {
                *text = format!("{number} {text}");
            }
            if let Some(marked) = to.to.headings.get_mut(mark) {
                marked.text = format!("{number} {}", marked.text);
            }
            node
        }
        None => to.node(Role::Paragraph, within.parent),
    };
    // As high as the words beside it: a larger number would reach into what is above.
    let [large, middle, small] = &to.look.headings;
    let style = match heading.map(|(_, _, level)| level) {
        Some(0 | 1) => large.style,
        Some(2) => middle.style,
        Some(_) => small.style,
        None => strong(to.look.body),
    };
    let line = to.types.line(&number, style);
    let Some(first) = to.to.strips.get_mut(strip) else { return };
    first.height = first.height.max(line.height());
    let baseline = (first.height - line.ascent - line.descent) / 2.0 + line.ascent;
    let text = Item::Text { at: Point::new(left, baseline), line, ink: Ink::BLACK };
    first.items.insert(0, Item::Tagged { node: Some(node), items: vec![text] });
}

/// Puts a drawing at a place beside the words.
fn drawing(
    to: &mut Collector<'_>,
    scene: &Scene,
    alternative: &str,
    (strip, left): (usize, f64),
    within: Within,
) {
    let block = to.node(Role::FigureBlock, within.parent);
    let area = Rect::at(Point::new(left, 0.0), scene.size);
    let role = Role::Figure { alternative: alternative.to_owned(), area, page: 0 };
    let node = to.node(role, Some(block));
    to.to.figures.push((strip, node));
    let shift = Point::new(left, 0.0);
    let drawn = Item::Group { shift, clip: None, items: scene.items.clone() };
    if let Some(first) = to.to.strips.get_mut(strip) {
        first.items.push(Item::Tagged { node: Some(node), items: vec![drawn] });
    }
}

/// Gives the drawing of a height the room that the words leave it short of, and keeps the step on
/// one page: all of it if a page holds it, or else as far down as the drawing reaches.
fn keep(to: &mut Collector<'_>, start: usize, drawing: f64) {
    let most = to.area_height;
    let mut strips = to.to.strips.iter().skip(start + 1);
    let first = strips.next().map_or(0.0, |strip| strip.height);
    let words = strips.fold(first, |sum, strip| sum + strip.before + strip.height);
    if drawing > words {
        to.to.strips.push(Strip { height: drawing - words, ..Strip::default() });
    }
    let whole = words.max(drawing) + BELOW <= most;
    let mut down = 0.0;
    let strips = to.to.strips.get_mut(start..).unwrap_or_default();
    if let [most @ .., _] = strips {
        for strip in most {
            down += strip.before + strip.height;
            if whole || down <= drawing + ABOVE + BELOW {
                strip.after = After::Never;
            }
        }
    }
}
