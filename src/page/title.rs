//! The head of page one: title and subtitle, the logo at their right, and a rule below.

use crate::document::{Inline, Logo};
use crate::geometry::{Path, Point, Rect, Size};
use crate::scene::{Ink, Item};
use crate::text::Style;

use super::collector::{Collector, Column, Within};
use super::look::TextLook;
use super::strip::{After, Strip};
use super::{Role, look, paragraph};

/// The logo takes no more of the width.
const MOST_OF_WIDTH: f64 = 0.3;
/// Space between the words and the logo, mm.
const BESIDE: f64 = 5.0;
/// From the words to the rule, and from there to the end, mm.
const ABOVE_RULE: f64 = 1.6;
const BELOW_RULE: f64 = 1.0;

/// Pushes the head. It is read before the logo, which names who made it.
pub(super) fn push(
    to: &mut Collector<'_>,
    text: &str,
    subtitle: &str,
    column: Column,
    within: Within,
) {
    // A screen reader announces levels, and one that is left out sounds like lost text.
    // What has no words is not announced.
    if !text.trim().is_empty() {
        (to.level, to.titled) = (0, true);
    }
    let node = to.heading_node(0, text.to_owned(), within.parent);
    let start = to.to.strips.len();
    let title = to.look.title;
    let before = to.gap(to.look.headings[0].before);
    let all = [(text, title, Ink::BLACK), (subtitle, to.look.subtitle, look::QUIET)];
    let logo = to.logo.take().map(|logo| (logo, logo_size(to, logo, all, column.width)));
    let taken = logo.map_or(0.0, |(_, size)| size.width + BESIDE);
    let words_at = Column { width: column.width - taken, ..column };
    for (text, style, ink) in all {
        if text.is_empty() {
            continue;
        }
        let node = if style == title { node } else { to.node(Role::Paragraph, within.parent) };
        let leading = to.look.tight_leading;
        let set = TextLook { style, leading, ink };
        let words = [Inline::Plain(text.to_owned())];
        for strip in paragraph::strips(to, &words, words_at, set, Some(node)) {
            to.to.strips.push(Strip { after: After::Never, ..strip });
        }
    }
    let mut items = Vec::new();
    if let Some((logo, size)) = logo {
        let words: f64 = to.to.strips.iter().skip(start).map(|strip| strip.height).sum();
        let lacks = size.height - words;
        if lacks > 0.0 {
            to.to.strips.push(Strip { height: lacks, after: After::Never, ..Strip::default() });
        }
        let left = column.left + column.width - size.width;
        // In the middle beside the words, counted from below them.
        let top = -(words.max(size.height) + size.height) / 2.0;
        items.push(drawn(to, logo, Rect::at(Point::new(left, top), size), within));
    }
    let rule = Path::polyline(&[
        Point::new(column.left, ABOVE_RULE),
        Point::new(column.left + column.width, ABOVE_RULE),
    ]);
    let stroke = Some(look::accented(look::STRONG_RULE, to.accent));
    let under = vec![Item::Shape { path: rule, fill: None, stroke }];
    let height = ABOVE_RULE + BELOW_RULE;
    to.to.strips.push(Strip { height, under, items, after: After::Never, ..Strip::default() });
    if let Some(first) = to.to.strips.get_mut(start) {
        first.before = before;
    }
}

/// How much smaller a logo may be so that the words beside it need no further line.
const SMALLER: [f64; 4] = [1.0, 0.8, 0.6, 0.45];

/// The size of the logo: as large as may be with the fewest lines beside it.
fn logo_size(
    to: &mut Collector<'_>,
    logo: &Logo,
    words: [(&str, Style, Ink); 2],
    width: f64,
) -> Size {
    let room = Size::new(Logo::ROOM.width.min(width * MOST_OF_WIDTH), to.look.logo);
    let largest = logo.picture.fitted(room);
    let leading = to.look.tight_leading;
    let flows = words.map(|(text, style, ink)| {
        let set = TextLook { style, leading, ink };
        let words = [Inline::Plain(text.to_owned())];
        let words = paragraph::UnbrokenText::new(to.types, &words, style);
        (words, if text.is_empty() { 0.0 } else { set.line_height() })
    });
    let height = |size: Size| -> f64 {
        let beside = width - size.width - BESIDE;
        let heights = flows.iter().map(|(words, line)| words.broken(beside).len() as f64 * line);
        heights.sum::<f64>().max(largest.height)
    };
    let sizes = SMALLER.map(|by| Size::new(largest.width * by, largest.height * by));
    let better = |best: Size, size: Size| if height(size) < height(best) { size } else { best };
    sizes.into_iter().fold(largest, better)
}

/// The logo as a figure of the strip that comes next, from whose top `area` is counted.
fn drawn(to: &mut Collector<'_>, logo: &Logo, area: Rect, within: Within) -> Item {
    // Its area is completed with its place when the page is known.
    let role = Role::Figure { alternative: logo.says.clone(), area, page: 0 };
    let node = to.node(role, within.parent);
    to.to.figures.push((to.to.strips.len(), node));
    let items = vec![Item::Picture { area, picture: logo.picture.clone() }];
    Item::Tagged { node: Some(node), items }
}
