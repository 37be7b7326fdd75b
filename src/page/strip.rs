//! The material of pages: strips, each as high as it is, never cut.

use crate::geometry::Point;
use crate::scene::Item;

use super::StructureNode;
use crate::document::Signal;

/// A slice of the document that stays on one page. Its items' coordinates are from its own top
/// left corner; the left edge is that of the page's area.
#[derive(Clone, Debug, Default)]
pub(super) struct Strip {
    /// Space above, unless it begins a page.
    pub before: f64,
    /// Height; never more than the page's area has.
    pub height: f64,
    /// Tints and rules, which lie under the words of the whole page.
    pub under: Vec<Item>,
    /// What is drawn.
    pub items: Vec<Item>,
    /// Whether a page may end after it.
    pub after: After,
    /// The frame that it lies in.
    pub frame: Option<usize>,
    /// The table head that is repeated above it if it begins a page.
    pub head: Option<usize>,
    /// The numbers of pages that are known only later.
    pub numbers: Vec<PageNumber>,
    /// Whether it must begin a page.
    pub begins: Begins,
    /// Whether its page lies on its long side.
    pub landscape: bool,
}

impl Strip {
    /// Whether it only begins a page.
    pub fn is_page_break(&self) -> bool {
        self.begins == Begins::Page && self.height <= 0.0 && self.items.is_empty()
    }
}

/// Where a strip may begin.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) enum Begins {
    /// Wherever there is room.
    #[default]
    Anywhere,
    /// Only at the top of a page.
    Page,
}

/// How good a place for a page to end is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum After {
    /// As good as any.
    #[default]
    Free,
    /// Only if there is no better place: a line or row would stand alone.
    Avoid,
    /// Only if a page is too short for what belongs together.
    Never,
}

/// A page number to be written when the pages are known.
#[derive(Clone, Debug)]
pub(super) struct PageNumber {
    /// The anchor whose page it is.
    pub anchor: String,
    /// Right end of its baseline.
    pub at: Point,
    /// Its node of the reading order.
    pub node: usize,
}

/// The frame of a safety message, round strips that follow each other.
#[derive(Clone, Copy, Debug)]
pub(super) struct Frame {
    pub signal: Signal,
    pub left: f64,
    pub right: f64,
    /// Space above the first line of what goes on in it on another page.
    pub end: f64,
}

/// The head of a table, as it is repeated.
#[derive(Clone, Debug)]
pub(super) struct TableHead {
    pub height: f64,
    pub under: Vec<Item>,
    pub items: Vec<Item>,
}

/// A heading of the bookmarks: the strip that it begins, or that it lies in at a place.
#[derive(Clone, Debug)]
pub(super) struct Marked {
    pub level: u8,
    pub text: String,
    pub strip: usize,
    pub at: Point,
}

/// All of a document, ready to be broken into pages.
#[derive(Clone, Debug, Default)]
pub(super) struct Collected {
    pub strips: Vec<Strip>,
    pub nodes: Vec<StructureNode>,
    pub headings: Vec<Marked>,
    pub frames: Vec<Frame>,
    pub heads: Vec<TableHead>,
    /// Figures: the strip of each and its node.
    pub figures: Vec<(usize, usize)>,
}

/// The strips since the last that begins a page.
pub(super) fn since_page_break(strips: &[Strip]) -> &[Strip] {
    let begin = strips.iter().rposition(|strip| strip.begins == Begins::Page);
    strips.get(begin.unwrap_or_default()..).unwrap_or_default()
}

/// Their height.
pub(super) fn height_since_page_break(strips: &[Strip]) -> f64 {
    since_page_break(strips).iter().map(|strip| strip.before + strip.height).sum()
}
