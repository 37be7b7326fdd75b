//! A document to pages: what stands where, and in which order it is read.
//!
//! Every text box of a page lies inside its margins (or, for the running head and foot, in the
//! edge zone that belongs to them), and no two text boxes of a page overlap as long as those of
//! the document's own figures do not.

mod break_pages;
mod cards;
mod caution;
mod collect;
mod collector;
mod columns;
mod contents;
mod figure;
mod finish;
mod groups;
mod list;
mod look;
mod paragraph;
mod settle;
mod side_by_side;
mod step;
mod strip;
mod summary;
mod table;
mod title;

use std::num::NonZeroU32;

use crate::document::{Density, Document, ListKind};
use crate::geometry::{Point, Rect, Size};
use crate::mark::Mark;
use crate::scene::Item;
use crate::text::Typesetter;

pub use crate::document::Paper;

/// Lays a document out on paper.
pub fn lay_out(document: &Document, paper: Paper, types: &mut Typesetter) -> Pages {
    types.hyphenate_in(Some(&document.language));
    let pages = lay_out_parted(document, paper, types);
    types.hyphenate_in(None);
    pages
}

fn lay_out_parted(document: &Document, paper: Paper, types: &mut Typesetter) -> Pages {
    let mut collected = collect::collect(document, paper, types);
    let heights = break_pages::Heights {
        upright: paper.area_for(document.density).height(),
        landscape: paper.landscape_area(document.density).height(),
    };
    let look = look::Look::of(document.density, paper);
    let least = FEWEST_LINES * (look.body_text().line_height() + look.gap);
    let broken = settle::break_and_settle(&mut collected, heights, least);
    finish::finish(document, paper, collected, &broken, types)
}

/// No page is begun for fewer lines with the space between them, if that can be spared.
const FEWEST_LINES: f64 = 6.0;

impl Paper {
    /// The width of one of `count` columns side by side in a document of a density, mm.
    pub fn column(self, density: Density, count: u8) -> f64 {
        let gutter = look::Look::of(density, self).gutter;
        let count = f64::from(count.max(1));
        (self.area_for(density).width() - gutter * (count - 1.0)) / count
    }

    /// The width of a drawing beside the words of a step in a document of a density, mm.
    pub fn step_drawing(self, density: Density) -> f64 {
        step::drawing_width(self.area_for(density).width())
    }

    /// The width of one of the parts beside each other that share the width of a page in a document
    /// of a density, mm; of a page that lies on its long side, if `landscape`.
    pub fn share(self, density: Density, landscape: bool, shares: &[u8], part: usize) -> f64 {
        let area = if landscape { self.landscape_area(density) } else { self.area_for(density) };
        let gutter = look::Look::of(density, self).gutter;
        let widths = side_by_side::widths(shares, area.width(), gutter);
        widths.get(part).copied().unwrap_or_default()
    }

    /// The width of the first of parts beside each other that share the width of a page in a document of
    /// a density, mm; `None` if one of them would be too narrow, so that they stand under each other.
    pub fn beside(self, density: Density, shares: &[u8]) -> Option<f64> {
        let gutter = look::Look::of(density, self).gutter;
        let width = self.area_for(density).width();
        side_by_side::widths_beside(shares, width, gutter)?.first().copied()
    }

    /// The width inside a card in a document of a density, mm.
    pub fn card(self, density: Density) -> f64 {
        cards::inner_width(self.area_for(density).width()).1
    }
}

/// A document laid out.
#[derive(Clone, Debug, PartialEq)]
pub struct Pages {
    /// The paper of all pages.
    pub paper: Paper,
    /// A page that stands on its short side, without its margins, mm.
    pub area: Rect,
    /// The pages in order; one at least.
    pub pages: Vec<Page>,
    /// The reading order: what [`Item::Tagged`] points into. A node comes after its parent; the
    /// children of a node are read in the order in which they are drawn.
    pub nodes: Vec<StructureNode>,
    /// The headings in order, for the bookmarks.
    pub headings: Vec<Heading>,
    /// What is said of the document as a whole.
    pub about: About,
}

/// One page.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Page {
    /// Things drawn, back to front and in reading order; each is a [`Item::Tagged`] or a group of
    /// such.
    pub items: Vec<Item>,
    /// Width and height, mm. A page may lie on its long side.
    pub size: Size,
    /// It without its margins, mm.
    pub area: Rect,
}

impl Page {
    /// The boxes of all text, from ascent to descent, in the page's coordinates.
    pub fn text_boxes(&self) -> Vec<(Rect, String)> {
        crate::scene::text_boxes(&self.items)
    }
}

/// What a reader is told about a part of the document.
#[derive(Clone, Debug, PartialEq)]
pub struct StructureNode {
    /// What it is.
    pub role: Role,
    /// What it is part of; `None` for the document itself.
    pub parent: Option<usize>,
}

/// What a part of the document is.
#[derive(Clone, Debug, PartialEq)]
pub enum Role {
    /// A heading: the title, if there is one, a section's, a signal word. From 1; no level is left
    /// out on the way down.
    Heading {
        /// The level.
        level: u8,
        /// Its words.
        text: String,
    },
    /// A paragraph.
    Paragraph,
    /// A list.
    List(ListKind),
    /// An item of a list.
    ListItem,
    /// The number or bullet of an item.
    Label(ListKind),
    /// The words of an item.
    Body,
    /// A table, with what it shows.
    Table(String),
    /// The head rows of a table.
    TableHead,
    /// The other rows of a table.
    TableBody,
    /// A row of a table.
    Row,
    /// A cell that heads its column.
    HeadCell,
    /// A cell that spans so many columns and heads the rows under it.
    GroupHead(NonZeroU32),
    /// A cell that heads its row.
    RowHead,
    /// Any other cell.
    Cell,
    /// A figure with its caption.
    FigureBlock,
    /// A drawing.
    Figure {
        /// What a reader who cannot see it is told.
        alternative: String,
        /// Where it is on its page, mm.
        area: Rect,
        /// Its page, from 0.
        page: usize,
    },
    /// The caption of a figure.
    Caption,
    /// Words that lead somewhere.
    Link,
    /// An empty box to tick.
    Tick,
    /// A line to write on.
    Blank,
    /// A safety message.
    Caution,
    /// One of the parts that stand beside each other; it is read before the next.
    Part,
    /// The list of contents.
    Contents,
    /// A line of the contents.
    ContentsLine,
}

/// A heading and where it is.
#[derive(Clone, Debug, PartialEq)]
pub struct Heading {
    /// From 1.
    pub level: u8,
    /// The words.
    pub text: String,
    /// Its page, from 0.
    pub page: usize,
    /// Its top left corner on the page, mm.
    pub at: Point,
}

/// What is said of the document as a whole.
#[derive(Clone, Debug, PartialEq)]
pub struct About {
    /// Title.
    pub title: String,
    /// Language tag.
    pub language: String,
    /// Who issues it.
    pub author: String,
    /// Year, month, day.
    pub dated: (u16, u8, u8),
    /// The mark of its contents.
    pub mark: Option<Mark>,
}
