//! Bookmarks out of the headings.

use krilla::outline::{Outline, OutlineNode};

use crate::geometry::Point;
use crate::page::Heading;

/// The bookmarks, nested by level. PDF/UA asks for one at least: the title if there is no heading.
pub(super) fn outline(headings: &[Heading], title: &str) -> Outline {
    let mut outline = Outline::new();
    if headings.is_empty() {
        let destination = super::links::destination(0, Point::default());
        outline.push_child(OutlineNode::new(title.to_owned(), destination));
    }
    // Bookmarks that are still open to deeper ones, the deepest last.
    let mut open: Vec<(u8, OutlineNode)> = Vec::new();
    for heading in headings {
        while open.last().is_some_and(|(level, _)| *level >= heading.level) {
            close(&mut open, &mut outline);
        }
        let destination = super::links::destination(heading.page, heading.at);
        let text = if heading.text.is_empty() { "–" } else { &heading.text };
        let node = OutlineNode::new(text.to_owned(), destination);
        open.push((heading.level, node));
    }
    while !open.is_empty() {
        close(&mut open, &mut outline);
    }
    outline
}

/// Hangs the deepest open bookmark on the one before it.
fn close(open: &mut Vec<(u8, OutlineNode)>, outline: &mut Outline) {
    let Some((_, node)) = open.pop() else { return };
    match open.last_mut() {
        Some((_, parent)) => parent.push_child(node),
        None => outline.push_child(node),
    }
}
