//! Strips to the items of pages: places, page numbers, frames, running head and foot.

use std::collections::BTreeMap;
use std::sync::Arc;

use crate::document::{Density, Document};
use crate::geometry::{Path, Point, Rect, Size};
use crate::scene::{Ink, Item};
use crate::text::{Line, Style, Typesetter};

use super::break_pages::BrokenPage;
use super::look::Look;
use super::strip::{Collected, Frame, Strip};
use super::{About, Heading, Page, Pages, Paper, Role, caution, look};

/// From the top of the paper to the baseline of the running head, and from its bottom to that of
/// the foot, in parts of the margin there.
const HEAD_AT: f64 = 0.55;
const FOOT_AT: f64 = 0.5;

/// The pages.
pub(super) fn finish(
    document: &Document,
    paper: Paper,
    mut collected: Collected,
    broken: &[BrokenPage],
    types: &mut Typesetter,
) -> Pages {
    let sheets = Sheets { paper, density: document.density };
    let look = Look::of(document.density, paper);
    let (headings, pages_of) = survey(&mut collected, broken, sheets);
    let mut strips = std::mem::take(&mut collected.strips).into_iter();
    let mut pages = Vec::with_capacity(broken.len());
    for (number, broken_page) in broken.iter().enumerate() {
        let (size, area) = sheets.of(broken_page);
        let of = (number + 1, broken.len());
        let mut under = head_and_foot(document, look.edge, (size, area), of, types);
        let mut words = Vec::new();
        if let Some(head) = broken_page.head.and_then(|head| collected.heads.get(head)) {
            let shift = area.corner();
            let group = |items: &[Item]| Item::Group { shift, clip: None, items: items.to_vec() };
            under.push(group(&head.under));
            words.push(group(&head.items));
        }
        let on_page: Vec<Strip> = strips.by_ref().take(broken_page.strips.len()).collect();
        let mut spans = Vec::with_capacity(on_page.len());
        for (mut strip, top) in on_page.into_iter().zip(&broken_page.tops) {
            for number in &strip.numbers {
                let page = pages_of.get(&number.anchor).map_or(0, |page| page + 1);
                let line = types.line(&page.to_string(), look.body);
                let at = number.at.moved(-line.width, 0.0);
                let items = vec![Item::Text { at, line, ink: Ink::BLACK }];
                strip.items.push(Item::Tagged { node: Some(number.node), items });
            }
            spans.push((strip.frame, *top, top + strip.height));
            let shift = area.corner().moved(0.0, *top);
            for (to, items) in [(&mut under, strip.under), (&mut words, strip.items)] {
                if !items.is_empty() {
                    to.push(Item::Group { shift, clip: None, items });
                }
            }
        }
        under.extend(frames(&collected.frames, &spans, area.corner()));
        let mut items = vec![Item::Tagged { node: None, items: under }];
        items.append(&mut words);
        pages.push(Page { items, size, area });
    }
    let about = About {
        title: document.title.clone(),
        language: document.language.clone(),
        author: document.author.clone(),
        dated: document.dated,
        mark: document.mark,
    };
    let area = paper.area_for(document.density);
    Pages { paper, area, pages, nodes: collected.nodes, headings, about }
}

/// The paper of a document's pages.
#[derive(Clone, Copy)]
struct Sheets {
    paper: Paper,
    density: Density,
}

impl Sheets {
    /// Size and area of a page.
    fn of(self, page: &BrokenPage) -> (Size, Rect) {
        let Self { paper, density } = self;
        match page.landscape {
            true => (paper.landscape_size(), paper.landscape_area(density)),
            false => (paper.size(), paper.area_for(density)),
        }
    }
}

/// Where the headings are, and on which page each anchor of a strip is. Completes the places of
/// figures.
fn survey(
    collected: &mut Collected,
    broken: &[BrokenPage],
    sheets: Sheets,
) -> (Vec<Heading>, BTreeMap<String, usize>) {
    let mut pages_of = BTreeMap::new();
    let mut places = Vec::with_capacity(collected.strips.len());
    for (number, page) in broken.iter().enumerate() {
        let (_, area) = sheets.of(page);
        let strips = collected.strips.get(page.strips.clone()).unwrap_or_default();
        for (strip, top) in strips.iter().zip(&page.tops) {
            places.push((number, area.corner().moved(0.0, *top)));
            for item in &strip.items {
                if let Item::Anchor { name, .. } = item {
                    pages_of.entry(name.clone()).or_insert(number);
                }
            }
        }
    }
    for (strip, node) in &collected.figures {
        let Some((number, corner)) = places.get(*strip) else { continue };
        let node = collected.nodes.get_mut(*node).map(|node| &mut node.role);
        if let Some(Role::Figure { area, page, .. }) = node {
            *area = area.moved(corner.x, corner.y);
            *page = *number;
        }
    }
    let headings = collected
        .headings
        .iter()
        .filter_map(|heading| {
            let (page, at) = *places.get(heading.strip)?;
            let at = at.moved(heading.at.x, heading.at.y);
            Some(Heading { level: heading.level, text: heading.text.clone(), page, at })
        })
        .collect();
    (headings, pages_of)
}

/// The frames round neighbours that share one: each strip's frame, top and bottom.
pub(super) fn frames(
    frames: &[Frame],
    strips: &[(Option<usize>, f64, f64)],
    corner: Point,
) -> Vec<Item> {
    let mut items = Vec::new();
    for framed in strips.chunk_by(|a, b| a.0 == b.0) {
        let (Some((Some(frame), top, _)), Some((_, _, bottom))) = (framed.first(), framed.last())
        else {
            continue;
        };
        let Some(frame) = frames.get(*frame) else { continue };
        let rect = Rect { left: frame.left, top: *top, right: frame.right, bottom: *bottom };
        items.extend(caution::frame(frame.signal, rect.moved(corner.x, corner.y)));
    }
    items
}

fn head_and_foot(
    document: &Document,
    edge: Style,
    (Size { height: bottom, .. }, area): (Size, Rect),
    (number, of): (usize, usize),
    types: &mut Typesetter,
) -> Vec<Item> {
    let (left, right) = (area.left, area.right);
    let mut items = Vec::new();
    let head = (document.head.0.as_str(), document.head.1.as_str());
    edge_line(head, (left, right, area.top * HEAD_AT), edge, types, &mut items);
    let rule_at = area.top * HEAD_AT + 1.9;
    let rule = Path::polyline(&[Point::new(left, rule_at), Point::new(right, rule_at)]);
    if !items.is_empty() {
        let stroke = look::accented(look::RULE, document.house.accent);
        items.push(Item::Shape { path: rule, fill: None, stroke: Some(stroke) });
    }
    let page_of = document.page_of.replace("{n}", &number.to_string());
    let page_of = page_of.replace("{m}", &of.to_string());
    let foot_at = bottom - (bottom - area.bottom) * FOOT_AT;
    edge_line((&document.foot, &page_of), (left, right, foot_at), edge, types, &mut items);
    items
}

/// Two texts at the ends of a line; the left one is cut if they do not both fit.
fn edge_line(
    (left_text, right_text): (&str, &str),
    (left, right, y): (f64, f64, f64),
    style: Style,
    types: &mut Typesetter,
    to: &mut Vec<Item>,
) {
    let most = (right - left) * 0.6;
    let at_right = fitted(right_text, style, most, types);
    let room = right - left - at_right.width - 5.0;
    let at_left = fitted(left_text, style, room, types);
    let ink = look::QUIET;
    if !at_left.runs.is_empty() {
        to.push(Item::Text { at: Point::new(left, y), line: at_left, ink });
    }
    if !at_right.runs.is_empty() {
        let at = Point::new(right - at_right.width, y);
        to.push(Item::Text { at, line: at_right, ink });
    }
}

/// The text, or as much of its beginning as fits, with an ellipsis.
fn fitted(text: &str, style: Style, room: f64, types: &mut Typesetter) -> Arc<Line> {
    let line = types.line(text, style);
    if line.width <= room {
        return line;
    }
    let ellipsis = types.line("…", style).width;
    let broken = types.lines(text, style, room - ellipsis);
    let begin = broken.first().map(|line| line.text()).unwrap_or_default();
    types.line(&format!("{}…", begin.trim_end()), style)
}
