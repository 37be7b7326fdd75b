//! Safety messages: a signal panel over the message, in one frame.
//!
//! Form and colours after ANSI Z535 as the project's check values give it (section 9): white on
//! red for DANGER, black on orange for WARNING, black on yellow for CAUTION, white on blue for
//! NOTICE, which never has the alert triangle. The colours are the RAL ones that ISO 3864-4 names,
//! as sRGB; contrast 7.86, 5.28, 10.63 and 8.12 to 1.

use crate::document::{Block, Signal};
use crate::geometry::{Path, Point, Rect, Size};
use crate::scene::{Ink, Item};

use super::collector::{Collector, Column, Within};
use super::strip::{After, Frame, Strip};
use super::{Role, look};

/// Pushes a safety message. It stays on one page if a page can hold it; its signal word always
/// stays with its beginning.
pub(super) fn push(
    to: &mut Collector<'_>,
    signal: Signal,
    blocks: &[Block],
    column: Column,
    within: Within,
) {
    let node = to.node(Role::Caution, within.parent);
    let word = to.node(Role::Paragraph, Some(node));
    let frame = to.to.frames.len();
    let end = to.look.frame_end;
    to.to.frames.push(Frame { left: column.left, right: column.left + column.width, end });
    let start = to.to.strips.len();
    let before = to.gap(to.look.block_gap);
    let (under, items) = panel(to, signal, column, word);
    to.to.strips.push(Strip {
        before,
        height: to.look.panel,
        under,
        items,
        after: After::Never,
        ..Strip::default()
    });
    let inner = Column {
        left: column.left + to.look.frame_side,
        width: column.width - 2.0 * to.look.frame_side,
    };
    to.first = Some((to.to.strips.len(), end));
    to.below += end;
    to.blocks(blocks, inner, Within { parent: Some(node), depth: within.depth + 1 });
    to.below -= end;
    if let Some(last) = to.to.strips.last_mut() {
        last.after = After::Never;
    }
    to.to.strips.push(Strip { height: to.look.frame_end, ..Strip::default() });

    let strips = to.to.strips.get_mut(start..).unwrap_or_default();
    let height: f64 = strips.iter().map(|strip| strip.before + strip.height).sum();
    let whole = height <= to.area_height;
    let last = strips.len().saturating_sub(1);
    for (index, strip) in strips.iter_mut().enumerate() {
        // The innermost frame is the one that is drawn round a strip.
        strip.frame = strip.frame.or(Some(frame));
        if whole && index < last {
            strip.after = After::Never;
        }
    }
}

/// The coloured field with its triangle, and the signal word on it.
fn panel(
    to: &mut Collector<'_>,
    signal: Signal,
    column: Column,
    node: usize,
) -> (Vec<Item>, Vec<Item>) {
    let (field, ink) = colours(signal);
    let panel = to.look.panel;
    let corner = Point::new(column.left, 0.0);
    let path = Path::rect(Rect::at(corner, Size::new(column.width, panel)));
    let mut drawn = vec![Item::Shape { path, fill: Some(field), stroke: Some(look::FRAME) }];
    let mut left = column.left + to.look.frame_side;
    if signal != Signal::Notice {
        let height = panel * 2.0 / 3.0;
        alert_triangle(Point::new(left, (panel - height) / 2.0), height, (ink, field), &mut drawn);
        left += height * TRIANGLE + 2.0;
    }
    let line = to.types.line(word_of(to.signal_words, signal), to.look.signal);
    let baseline = (panel - line.height()) / 2.0 + line.ascent;
    let text = Item::Text { at: Point::new(left, baseline), line, ink };
    (drawn, vec![Item::Tagged { node: Some(node), items: vec![text] }])
}

/// The field and what stands on it.
fn word_of(words: &[String; 4], signal: Signal) -> &str {
    let [danger, warning, caution, notice] = words;
    match signal {
        Signal::Danger => danger,
        Signal::Warning => warning,
        Signal::Caution => caution,
        Signal::Notice => notice,
    }
}

fn colours(signal: Signal) -> (Ink, Ink) {
    match signal {
        Signal::Danger => (Ink(0x9b, 0x24, 0x23), Ink::WHITE),
        Signal::Warning => (Ink(0xd0, 0x5d, 0x29), Ink::BLACK),
        Signal::Caution => (Ink(0xf9, 0xa8, 0x00), Ink::BLACK),
        Signal::Notice => (Ink(0x00, 0x53, 0x87), Ink::WHITE),
    }
}

/// Width of the triangle in heights: its sides are equal.
const TRIANGLE: f64 = 1.1547;

/// An upright triangle with an exclamation mark, drawn from its box's top left corner.
fn alert_triangle(at: Point, height: f64, (ink, mark): (Ink, Ink), to: &mut Vec<Item>) {
    let width = height * TRIANGLE;
    let p = |x: f64, y: f64| at.moved(x * width, y * height);
    let outline = Path::polygon(&[p(0.5, 0.0), p(1.0, 1.0), p(0.0, 1.0)]);
    to.push(Item::Shape { path: outline, fill: Some(ink), stroke: None });
    let stroke = Path::polygon(&[p(0.44, 0.34), p(0.56, 0.34), p(0.535, 0.70), p(0.465, 0.70)]);
    to.push(Item::Shape { path: stroke, fill: Some(mark), stroke: None });
    let dot = Path::circle(p(0.5, 0.825), height * 0.065);
    to.push(Item::Shape { path: dot, fill: Some(mark), stroke: None });
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Contrast by WCAG 2.1: relative luminance, then (L1 + 0.05) / (L2 + 0.05).
    fn contrast(a: Ink, b: Ink) -> f64 {
        let linear = |c: u8| {
            let c = f64::from(c) / 255.0;
            if c <= 0.04045 { c / 12.92 } else { libm::pow((c + 0.055) / 1.055, 2.4) }
        };
        let light =
            |Ink(r, g, b): Ink| 0.2126 * linear(r) + 0.7152 * linear(g) + 0.0722 * linear(b) + 0.05;
        let (a, b) = (light(a), light(b));
        a.max(b) / a.min(b)
    }

    /// The project's check values, section 9; tolerance of their rounding.
    #[test]
    fn signal_words_can_be_read_on_their_fields() {
        for (signal, published) in [
            (Signal::Danger, 7.86),
            (Signal::Warning, 5.28),
            (Signal::Caution, 10.63),
            (Signal::Notice, 8.12),
        ] {
            let (field, ink) = colours(signal);
            assert!((contrast(field, ink) - published).abs() < 0.005, "{signal:?}");
        }
    }
}
