//! The list of contents.

use crate::document::Inline;
use crate::geometry::{Path, Point};
use crate::scene::{Dash, Ink, Item, Stroke};

use super::collector::{Collector, Column, Within, link_target};
use super::look::TextLook;
use super::paragraph;
use super::strip::{After, PageNumber};
use super::{Role, look};

/// Room for the page number.
const NUMBER: f64 = 12.0;
/// Dots that lead the eye to the page number.
const LEADER: Stroke =
    Stroke { ink: look::QUIET, width: 0.25, dash: Dash::Broken { on: 25, off: 175 } };

/// Pushes the list of the document's sections. Page numbers are written when the pages are known.
pub(super) fn push(to: &mut Collector<'_>, title: &str, column: Column, within: Within) {
    if !title.is_empty() {
        let title_node = to.heading_node(1, title.to_owned(), within.parent);
        // What follows is heard below it.
        to.level = 1;
        let style = to.look.headings[1].style;
        let set = TextLook { style, leading: to.look.tight_leading, ink: Ink::BLACK };
        let words = [Inline::Plain(title.to_owned())];
        let before = to.gap(to.look.headings[1].before);
        for (index, mut strip) in
            paragraph::strips(to, &words, column, set, Some(title_node)).into_iter().enumerate()
        {
            strip.before = if index == 0 { before } else { 0.0 };
            strip.after = After::Never;
            to.to.strips.push(strip);
        }
    }
    let node = to.node(Role::Contents, within.parent);
    let words_column = Column { width: (column.width - NUMBER).max(1.0), ..column };
    for section in to.sections.clone() {
        let line = to.node(Role::ContentsLine, Some(node));
        let target = link_target(&section.anchor);
        let words = [Inline::Link { text: section.text, strong: false, target }];
        let set = to.look.body_text();
        let mut strips = paragraph::strips(to, &words, words_column, set, Some(line));
        paragraph::keep_lines_together(&mut strips);
        if let Some(first) = strips.first_mut() {
            first.before = to.look.item_gap;
        }
        if let Some(last) = strips.last_mut() {
            let height = to.line_height();
            let facts = to.types.line("", set.style);
            let baseline = (height - facts.height()) / 2.0 + facts.ascent;
            let at = Point::new(column.left + column.width, baseline);
            let words = crate::scene::text_boxes(&last.items).into_iter().map(|(area, _)| area);
            let from = words.map(|area| area.right).fold(column.left, f64::max);
            last.under.push(leader(from + 2.0, at));
            last.numbers.push(PageNumber { anchor: section.anchor, at, node: line });
        }
        to.to.strips.append(&mut strips);
    }
}

/// A dotted line on the baseline to the number whose right end is at `number`.
fn leader(from: f64, number: Point) -> Item {
    // All leaders end at the same place, and their dots lie under each other.
    let (step, to) = (2.0, number.x - NUMBER + 4.0);
    let from = to - ((to - from) / step).floor().max(0.0) * step;
    let path = Path::polyline(&[Point::new(from, number.y), Point::new(to, number.y)]);
    Item::Shape { path, fill: None, stroke: Some(LEADER) }
}
