//! The list of contents.

use crate::document::Inline;
use crate::geometry::Point;
use crate::scene::Ink;

use super::collect::{Collector, Column, Within, link_target};
use super::paragraph::{self, TextLook};
use super::strip::{After, PageNumber};
use super::{Role, look};

/// Room for the page number.
const NUMBER: f64 = 12.0;

/// Pushes the list of the document's sections. Page numbers are written when the pages are known.
pub(super) fn push(to: &mut Collector<'_>, title: &str, column: Column, within: Within) {
    let node = to.node(Role::Contents, within.parent);
    if !title.is_empty() {
        let title_node = to.node(Role::Paragraph, Some(node));
        let style = look::HEADINGS[1].style;
        let set = TextLook { style, leading: look::TIGHT_LEADING, ink: Ink::BLACK };
        let words = [Inline::Plain(title.to_owned())];
        let before = to.gap(look::HEADINGS[1].before);
        for (index, mut strip) in
            paragraph::strips(to, &words, column, set, Some(title_node)).into_iter().enumerate()
        {
            strip.before = if index == 0 { before } else { 0.0 };
            strip.after = After::Never;
            to.to.strips.push(strip);
        }
    }
    let words_column = Column { width: (column.width - NUMBER).max(1.0), ..column };
    for section in to.sections.clone() {
        let line = to.node(Role::ContentsLine, Some(node));
        let target = link_target(&section.anchor);
        let words = [Inline::Link { text: section.text, strong: false, target }];
        let set = TextLook::BODY;
        let mut strips = paragraph::strips(to, &words, words_column, set, Some(line));
        paragraph::keep_lines_together(&mut strips);
        if let Some(first) = strips.first_mut() {
            first.before = look::ITEM_GAP;
        }
        if let Some(last) = strips.last_mut() {
            let height = set.line_height();
            let facts = to.types.line("", set.style);
            let baseline = (height - facts.height()) / 2.0 + facts.ascent;
            let at = Point::new(column.left + column.width, baseline);
            last.numbers.push(PageNumber { anchor: section.anchor, at, node: line });
        }
        to.to.strips.append(&mut strips);
    }
}
