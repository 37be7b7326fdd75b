//! Figures with their captions.

use crate::document::Inline;
use crate::geometry::{Point, Rect};
use crate::scene::{Item, Scene};

use super::collector::{Collector, Column, Within};
use super::look::TextLook;
use super::paragraph;
use super::strip::height_since_page_break;
use super::strip::{After, Strip};
use super::{Role, look};

/// What goes with a drawing.
pub(super) struct FigureText<'a> {
    pub alternative: &'a str,
    pub caption: &'a [Inline],
    pub anchor: Option<&'a str>,
}

/// Room that a heading above a figure may claim of a page's height; what needs more is left on
/// the page before.
const MOST_ABOVE: f64 = 0.5;

/// Pushes a drawing at its own size, smaller only if it has no room on a page, with its caption.
pub(super) fn push(
    to: &mut Collector<'_>,
    scene: &Scene,
    words: &FigureText<'_>,
    column: Column,
    within: Within,
) {
    let block = to.node(Role::FigureBlock, within.parent);
    let role =
        Role::Figure { alternative: words.alternative.to_owned(), area: Rect::default(), page: 0 };
    let node = to.node(role, Some(block));
    let mut caption = caption(to, words.caption, column, block);
    let caption_height: f64 = caption.iter().map(|strip| strip.before + strip.height).sum();
    let before = to.gap(to.look.block_gap);

    let room = to.area_height - caption_height - kept_above(to) - before - to.below - to.above;
    let scale = scale(scene, column.width, room);
    let (width, height) = (length(scene.size.width) * scale, length(scene.size.height) * scale);
    let left = column.left;
    let items = if scale < 1.0 {
        vec![Item::Scaled { by: scale, items: scene.items.clone() }]
    } else {
        scene.items.clone()
    };
    let shift = Point::new(left, 0.0);
    let drawn = Item::Group { shift, clip: None, items };
    let mut items = vec![Item::Tagged { node: Some(node), items: vec![drawn] }];
    if let Some(name) = words.anchor {
        let at = Point::new(column.left, 0.0);
        items.insert(0, Item::Anchor { name: name.to_owned(), at });
    }
    // The area is completed with its place when the page is known.
    if let Some(Role::Figure { area, .. }) = to.to.nodes.get_mut(node).map(|node| &mut node.role) {
        *area = Rect { left, top: 0.0, right: left + width, bottom: height };
    }
    to.to.figures.push((to.to.strips.len(), node));
    let after = if caption.is_empty() { After::Free } else { After::Never };
    to.to.strips.push(Strip { before, height, items, after, ..Strip::default() });
    to.to.strips.append(&mut caption);
}

/// The caption's lines, which keep together.
fn caption(
    to: &mut Collector<'_>,
    inlines: &[Inline],
    column: Column,
    parent: usize,
) -> Vec<Strip> {
    if inlines.is_empty() {
        return Vec::new();
    }
    let node = to.node(Role::Caption, Some(parent));
    let set = TextLook { style: to.look.caption, leading: to.look.leading, ink: look::QUIET };
    let mut strips = paragraph::strips(to, inlines, column, set, Some(node));
    // A caption longer than a page cannot keep together with anything.
    let most = (to.area_height * MOST_ABOVE / set.line_height()) as usize;
    let count = strips.len();
    for (index, strip) in strips.iter_mut().enumerate() {
        if index + 1 < count && index < most {
            strip.after = After::Never;
        }
    }
    if let Some(first) = strips.first_mut() {
        first.before = to.look.caption_gap;
    }
    if count > most {
        strips.iter_mut().for_each(|strip| strip.after = After::Free)
    }
    strips
}

/// Height of what is above on the same page: the headings that must stay there. A landscape page
/// begins at a known place, and all that is on it counts: the drawing fills what is left.
pub(super) fn kept_above(to: &Collector<'_>) -> f64 {
    if to.landscape {
        let used = height_since_page_break(&to.to.strips);
        if used <= to.area_height * MOST_ABOVE {
            return used;
        }
    }
    let kept = to.to.strips.iter().rev().take_while(|strip| strip.after == After::Never);
    let height: f64 = kept.map(|strip| strip.before + strip.height).sum();
    if height > to.area_height * MOST_ABOVE { 0.0 } else { height }
}

/// 1, or less if the drawing has no room.
fn scale(scene: &Scene, width: f64, height: f64) -> f64 {
    let fit = |room: f64, needed: f64| if needed > room { room / needed } else { 1.0 };
    let scale = fit(width, length(scene.size.width)).min(fit(height, length(scene.size.height)));
    scale.clamp(0.0, 1.0)
}

/// A length that can be laid out; a fault elsewhere must not spoil the page.
fn length(length: f64) -> f64 {
    if length.is_finite() { length.clamp(0.0, 1e5) } else { 0.0 }
}
