//! Safety messages: a signal panel over the message or, if that is short, beside it, in one frame.
//!
//! Form and colours after ANSI Z535 as the project's check values give it (section 9): white on
//! red for DANGER, black on orange for WARNING, black on yellow for CAUTION, blue for NOTICE, which
//! never has the alert triangle. The colours are the RAL ones that ISO 3864-4 names, as sRGB;
//! contrast 7.86, 5.28, 10.63 and 8.12 to 1.
//!
//! Without colours they differ as well: DANGER has a heavy frame, WARNING a bar down its left side,
//! CAUTION a broken frame, and NOTICE neither panel nor sides.

use crate::document::{Block, Inline, Signal};
use crate::geometry::{Path, Point, Rect, Size};
use crate::scene::{Dash, Ink, Item, Stroke};

use super::collector::{Collector, Column, Within};
use super::strip::{After, Frame, Strip};
use super::{Role, look, paragraph};

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
    let words = signal.word_in(to.signal_words).to_owned();
    let word = to.heading_node(to.level + 1, words, Some(node));
    let frame = to.to.frames.len();
    let end = to.look.frame_end + edge(signal);
    let (left, right) = (column.left, column.left + column.width);
    to.to.frames.push(Frame { signal, left, right, end });
    let start = to.to.strips.len();
    let before = to.gap(to.look.block_gap);
    if let [Block::Paragraph(words)] = blocks
        && let Some(strip) = beside(to, signal, words, column, (node, word))
    {
        to.to.strips.push(Strip { before, frame: Some(frame), ..strip });
        return;
    }
    let (under, items) = panel(to, signal, column, word);
    to.to.strips.push(Strip {
        before,
        height: to.look.panel,
        under,
        items,
        after: After::Never,
        ..Strip::default()
    });
    let side = to.look.frame_side;
    let inner = Column {
        left: column.left + bar(signal) + side,
        width: column.width - bar(signal) - edge(signal) - 2.0 * side,
    };
    to.first = Some((to.to.strips.len(), end));
    to.below += end;
    to.blocks(blocks, inner, Within { parent: Some(node), depth: within.depth + 1 });
    to.below -= end;
    close(to, start, frame, end);

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

/// A message of so many lines has its signal word beside it.
const SHORT: usize = 4;

/// A short message as one strip, its signal panel at the left; `None` if it is not short or has no
/// room there. `nodes` are those of the message and of its signal word.
fn beside(
    to: &mut Collector<'_>,
    signal: Signal,
    words: &[Inline],
    column: Column,
    (node, word): (usize, usize),
) -> Option<Strip> {
    let (side, end) = (to.look.frame_side, to.look.frame_end);
    let cell = cell_width(to);
    let inner = Column {
        left: column.left + cell + side,
        width: column.width - cell - 2.0 * side - edge(signal),
    };
    if inner.width < look::NARROWEST || words.is_empty() {
        return None;
    }
    let message = to.node(Role::Paragraph, Some(node));
    let set = to.look.body_text();
    let lines = paragraph::strips(to, words, inner, set, Some(message));
    if lines.len() > SHORT {
        return None;
    }
    let text: f64 = lines.iter().map(|line| line.height).sum();
    let height = (text + 2.0 * (end * CLOSER + edge(signal))).max(to.look.panel);
    let area = Rect::at(Point::new(column.left, 0.0), Size::new(cell, height));
    let (under, mut items) = field(to, signal, area, word);
    let mut top = (height - text) / 2.0;
    for line in lines {
        items.push(Item::Group { shift: Point::new(0.0, top), clip: None, items: line.items });
        top += line.height;
    }
    Some(Strip { height, under, items, ..Strip::default() })
}

/// Space above and below a short message, in that of others.
const CLOSER: f64 = 0.6;

/// Width of a panel at the left: the same for all signal words, so that messages under each other
/// line up.
fn cell_width(to: &mut Collector<'_>) -> f64 {
    let look = to.look;
    let words = to.signal_words;
    let widths = words.iter().map(|word| to.types.line(word, look.signal).width);
    let widest = widths.fold(0.0, f64::max);
    let triangle = look.panel * ALERT_HEIGHT * TRIANGLE + AFTER_TRIANGLE;
    bar(Signal::Warning) + 2.0 * look.frame_side + triangle + widest
}

/// The space at the end of a frame: part of the last strip in it, so that no page holds only that.
fn close(to: &mut Collector<'_>, start: usize, frame: usize, end: f64) {
    let most = to.area_height;
    let last = to.to.strips.get_mut(start..).and_then(<[Strip]>::last_mut);
    match last {
        Some(last) if last.frame.is_none_or(|own| own == frame) && last.height + end <= most => {
            last.height += end;
            last.after = After::Free;
        }
        Some(last) => {
            last.after = After::Never;
            to.to.strips.push(Strip { height: end, ..Strip::default() });
        }
        None => {}
    }
}

/// The panel over a message, and the signal word on it.
fn panel(
    to: &mut Collector<'_>,
    signal: Signal,
    column: Column,
    node: usize,
) -> (Vec<Item>, Vec<Item>) {
    let size = Size::new(column.width, to.look.panel);
    field(to, signal, Rect::at(Point::new(column.left, 0.0), size), node)
}

/// The height of the alert triangle in heights of a panel, and the space after it, mm.
const ALERT_HEIGHT: f64 = 2.0 / 3.0;
const AFTER_TRIANGLE: f64 = 2.0;

/// The coloured field with its triangle, and the signal word on it.
fn field(
    to: &mut Collector<'_>,
    signal: Signal,
    area: Rect,
    node: usize,
) -> (Vec<Item>, Vec<Item>) {
    let (field, ink) = colours(signal);
    let mut drawn = Vec::new();
    if signal != Signal::Notice {
        let path = Path::rect(area);
        // A broken frame would be closed by it.
        let stroke = Some(look::FRAME).filter(|_| signal != Signal::Caution);
        drawn.push(Item::Shape { path, fill: Some(field), stroke });
    }
    let middle = (area.top + area.bottom) / 2.0;
    let mut left = area.left + bar(signal) + to.look.frame_side;
    if signal != Signal::Notice {
        let height = to.look.panel * ALERT_HEIGHT;
        let at = Point::new(left, middle - height / 2.0);
        alert_triangle(at, height, (ink, field), &mut drawn);
        left += height * TRIANGLE + AFTER_TRIANGLE;
    }
    let line = to.types.line(signal.word_in(to.signal_words), to.look.signal);
    let baseline = middle - line.height() / 2.0 + line.ascent;
    let text = Item::Text { at: Point::new(left, baseline), line, ink };
    (drawn, vec![Item::Tagged { node: Some(node), items: vec![text] }])
}

/// Width of what the frame has on the left side, mm.
fn bar(signal: Signal) -> f64 {
    if signal == Signal::Warning { 1.6 } else { edge(signal) }
}

/// Width of the frame on its other sides, as far as it is more than a line, mm.
fn edge(signal: Signal) -> f64 {
    if signal == Signal::Danger { 0.8 } else { 0.0 }
}

/// What is drawn round a message, or round the part of it that a page holds.
pub(super) fn frame(signal: Signal, area: Rect) -> Vec<Item> {
    let shape = |path: Path, fill: Option<Ink>, stroke: Option<Stroke>| {
        vec![Item::Shape { path, fill, stroke }]
    };
    let thin = look::FRAME;
    match signal {
        Signal::Danger => {
            let heavy = Stroke { width: thin.width + edge(signal), ..thin };
            // No wider than the others: the edge lies inside.
            shape(Path::rect(area.grown(-(heavy.width - thin.width) / 2.0)), None, Some(heavy))
        }
        Signal::Warning => {
            let bar = Rect { right: area.left + bar(signal), ..area };
            let mut drawn = shape(Path::rect(bar), Some(thin.ink), None);
            drawn.extend(shape(Path::rect(area), None, Some(thin)));
            drawn
        }
        Signal::Caution => {
            let broken = Stroke { dash: Dash::Broken { on: 250, off: 120 }, ..thin };
            shape(Path::rect(area), None, Some(broken))
        }
        Signal::Notice => {
            let (_, ink) = colours(signal);
            let stroke = Some(Stroke { ink, ..thin });
            let level =
                |y: f64| Path::polyline(&[Point::new(area.left, y), Point::new(area.right, y)]);
            let mut drawn = shape(level(area.top), None, stroke);
            drawn.extend(shape(level(area.bottom), None, stroke));
            drawn
        }
    }
}

/// The field and what stands on it.
fn colours(signal: Signal) -> (Ink, Ink) {
    match signal {
        Signal::Danger => (Ink(0x9b, 0x24, 0x23), Ink::WHITE),
        Signal::Warning => (Ink(0xd0, 0x5d, 0x29), Ink::BLACK),
        Signal::Caution => (Ink(0xf9, 0xa8, 0x00), Ink::BLACK),
        // No field: in grey it would look like DANGER.
        Signal::Notice => (Ink::WHITE, Ink(0x00, 0x53, 0x87)),
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
