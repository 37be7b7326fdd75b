//! Which strips stand on which page.
//!
//! A page takes strips as long as there is room, then gives back those after the best place to
//! end.

use std::ops::Range;

use super::strip::{After, Begins, Frame, Strip, TableHead};

/// Rounding of sums, mm.
const SLACK: f64 = 1e-6;
/// A page is not left emptier than this, of its height, to spare a line that stands alone.
const EMPTIEST: f64 = 0.12;

/// The strips of one page with their places.
#[derive(Clone, Debug, Default)]
pub(super) struct BrokenPage {
    /// The table head repeated at the top.
    pub head: Option<usize>,
    /// The strips.
    pub strips: Range<usize>,
    /// The top of each, mm from the top of the page's area.
    pub tops: Vec<f64>,
    /// Whether it lies on its long side.
    pub landscape: bool,
}

/// Strips to be broken into pages, with what they point into.
#[derive(Clone, Copy, Debug)]
pub(super) struct Material<'a> {
    pub strips: &'a [Strip],
    pub frames: &'a [Frame],
    pub heads: &'a [TableHead],
}

/// How high pages are, mm.
#[derive(Clone, Copy, Debug)]
pub(super) struct Heights {
    /// Those that stand on their short side.
    pub upright: f64,
    /// Those that lie on their long side.
    pub landscape: f64,
}

impl Heights {
    /// Of one height, however they lie.
    pub fn all(height: f64) -> Self {
        Self { upright: height, landscape: height }
    }
}

/// Breaks the strips into pages. A page is as its first strip asks for. There is one page at least, and one strip at least
/// on a page if there is any.
pub(super) fn break_pages(material: Material<'_>, heights: Heights) -> Vec<BrokenPage> {
    let mut pages = Vec::new();
    let mut start = 0;
    while start < material.strips.len() {
        let page = fill(material, start, heights);
        start = page.strips.end;
        pages.push(page);
    }
    if pages.is_empty() {
        pages.push(BrokenPage::default());
    }
    pages
}

fn fill(material: Material<'_>, start: usize, heights: Heights) -> BrokenPage {
    let rest = material.strips.get(start..).unwrap_or_default();
    let landscape = rest.first().is_some_and(|strip| strip.landscape);
    let height = if landscape { heights.landscape } else { heights.upright };
    let head = rest.first().and_then(|strip| strip.head);
    let height_of_head =
        head.and_then(|head| material.heads.get(head)).map_or(0.0, |head| head.height);
    let mut y = height_of_head;
    let mut tops = Vec::new();
    let mut ends = Ends::default();
    for (index, strip) in rest.iter().enumerate() {
        if index > 0 && (strip.begins == Begins::Page || strip.landscape != landscape) {
            ends.free = Some((index, y));
            break;
        }
        // A page break alone leaves a strip without height: what follows begins the page too.
        let begins = y <= height_of_head;
        let top = y + if begins { top_gap(material, start) } else { strip.before };
        if index > 0 && top + strip.height > height + SLACK {
            break;
        }
        tops.push(top);
        y = top + strip.height;
        ends.note(index + 1, y, strip);
    }
    let count = if tops.len() == rest.len() { tops.len() } else { ends.best(tops.len(), height) };
    tops.truncate(count);
    BrokenPage { head, strips: start..start + count, tops, landscape }
}

/// Space above the first strip of a page: none, but inside a frame that goes on from the page
/// before there is the frame's own.
fn top_gap(material: Material<'_>, start: usize) -> f64 {
    let frame = |index: usize| material.strips.get(index).and_then(|strip| strip.frame);
    let before =
        start.checked_sub(1).and_then(frame).filter(|before| frame(start) == Some(*before));
    before.and_then(|frame| material.frames.get(frame)).map_or(0.0, |frame| frame.end)
}

/// The last places where the page may end: after how many strips, and how far down that is.
#[derive(Default)]
struct Ends {
    free: Option<(usize, f64)>,
    avoid: Option<(usize, f64)>,
}

impl Ends {
    fn note(&mut self, count: usize, y: f64, strip: &Strip) {
        match strip.after {
            After::Free => self.free = Some((count, y)),
            After::Avoid => self.avoid = Some((count, y)),
            After::Never => {}
        }
    }

    /// After how many strips the page ends if `most` have room.
    fn best(&self, most: usize, height: f64) -> usize {
        let full_enough = |end: &&(usize, f64)| end.1 >= EMPTIEST * height;
        let best = self.free.as_ref().filter(full_enough);
        let best = best.or(self.avoid.as_ref().filter(full_enough));
        let best = best.or(self.free.as_ref()).or(self.avoid.as_ref());
        best.map_or(most, |(count, _)| *count).max(1)
    }
}
