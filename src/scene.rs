//! The closed list of things that can be drawn. A writer draws a scene and decides nothing.

mod picture;

use std::sync::Arc;

use crate::geometry::{Path, Point, Rect, Size};
use crate::text::Line;

pub use picture::{
    MOST_PICTURE_PIXELS, MOST_PICTURE_STEPS, NotTaken, Outline, Picture, PictureContent,
    PictureFault, Pixels,
};

/// An opaque colour, sRGB.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Ink(pub u8, pub u8, pub u8);

impl Ink {
    /// Text and edges.
    pub const BLACK: Ink = Ink(0, 0, 0);
    /// Paper.
    pub const WHITE: Ink = Ink(255, 255, 255);
}

/// How a line is broken up.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Dash {
    /// One piece.
    Solid,
    /// Strokes of `on` hundredths of a mm with gaps of `off`.
    Broken {
        /// Length of a stroke, 1/100 mm.
        on: u16,
        /// Length of a gap, 1/100 mm.
        off: u16,
    },
}

/// A line's look. Ends are flat, corners are round.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stroke {
    /// Colour.
    pub ink: Ink,
    /// Width, mm.
    pub width: f64,
    /// Dashes.
    pub dash: Dash,
}

impl Stroke {
    /// A whole line.
    pub const fn solid(ink: Ink, width: f64) -> Self {
        Self { ink, width, dash: Dash::Solid }
    }
}

/// Where a link leads.
#[derive(Clone, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Target {
    /// An anchor of the same document.
    Anchor(String),
}

/// One thing drawn. Later ones cover earlier ones.
#[derive(Clone, Debug, PartialEq)]
pub enum Item {
    /// An outline, filled, stroked or both.
    Shape {
        /// The outline.
        path: Path,
        /// Colour of the inside.
        fill: Option<Ink>,
        /// Look of the edge.
        stroke: Option<Stroke>,
    },
    /// A line of text whose baseline begins at `at`.
    Text {
        /// Left end of the baseline.
        at: Point,
        /// The shaped text.
        line: Arc<Line>,
        /// Colour.
        ink: Ink,
    },
    /// A picture from outside, stretched to `area` and cut there.
    Picture {
        /// Where.
        area: Rect,
        /// What.
        picture: Arc<Picture>,
    },
    /// Items moved by `shift`, and cut at `clip` (in the moved coordinates) if there is one.
    Group {
        /// Added to every place inside.
        shift: Point,
        /// What is outside is not drawn.
        clip: Option<Rect>,
        /// The items.
        items: Vec<Item>,
    },
    /// Items made smaller or larger about the origin, as a figure that is too wide for its page.
    Scaled {
        /// The factor; more than 0.
        by: f64,
        /// The items.
        items: Vec<Item>,
    },
    /// A place that a link can lead to.
    Anchor {
        /// Its name, unique in the document.
        name: String,
        /// Its place.
        at: Point,
    },
    /// A place that leads somewhere when it is pressed; draws nothing.
    Link {
        /// Where to press.
        area: Rect,
        /// Where it leads.
        target: Target,
        /// What a screen reader says.
        description: String,
    },
    /// Items that belong to one node of the page's reading order; `page` makes these, figures
    /// never do. `None` marks decoration that a reader skips.
    Tagged {
        /// The node of the reading order.
        node: Option<usize>,
        /// The items.
        items: Vec<Item>,
    },
}

/// A drawing of a known size with its words for people who cannot see it.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Scene {
    /// Width and height, mm; everything is drawn inside.
    pub size: Size,
    /// What it is, in a few words.
    pub title: String,
    /// What it shows, in a sentence or more.
    pub description: String,
    /// Things drawn, back to front.
    pub items: Vec<Item>,
}

impl Scene {
    /// An empty drawing.
    pub fn new(size: Size, title: impl Into<String>, description: impl Into<String>) -> Self {
        Self { size, title: title.into(), description: description.into(), items: Vec::new() }
    }

    /// Draws an outline.
    pub fn shape(&mut self, path: Path, fill: Option<Ink>, stroke: Option<Stroke>) {
        self.items.push(Item::Shape { path, fill, stroke });
    }

    /// Draws a line of black text from the left end of its baseline.
    pub fn text(&mut self, at: Point, line: Arc<Line>) {
        self.items.push(Item::Text { at, line, ink: Ink::BLACK });
    }

    /// Draws a line of black text with its middle over `x`.
    pub fn text_centred(&mut self, at: Point, line: Arc<Line>) {
        let left = at.x - line.width / 2.0;
        self.text(Point::new(left, at.y), line);
    }

    /// The boxes of all text, from ascent to descent, in the scene's own coordinates.
    pub fn text_boxes(&self) -> Vec<(Rect, String)> {
        text_boxes(&self.items)
    }
}

/// Adds the names of all places that links can lead to, in their order.
pub fn anchors(items: &[Item], found: &mut Vec<String>) {
    for item in items {
        match item {
            Item::Anchor { name, .. } => found.push(name.clone()),
            Item::Group { items, .. } | Item::Scaled { items, .. } | Item::Tagged { items, .. } => {
                anchors(items, found);
            }
            Item::Shape { .. } | Item::Text { .. } | Item::Picture { .. } | Item::Link { .. } => {}
        }
    }
}

/// The names of all places that links can lead to, each with its place in the coordinates of the whole.
pub fn anchor_places(items: &[Item]) -> Vec<(Point, String)> {
    let mut found = Vec::new();
    collect_anchors(items, Placement::default(), &mut found);
    found
}

/// The boxes of all text, from ascent to descent, with the text.
pub fn text_boxes(items: &[Item]) -> Vec<(Rect, String)> {
    let mut found = Vec::new();
    collect_text(items, Placement::default(), &mut found);
    found
}

/// Where the coordinates of nested items lie in those of the whole: scaled, then moved.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Placement {
    /// The factor.
    pub scale: f64,
    /// Where the origin comes to lie, mm.
    pub origin: Point,
}

impl Default for Placement {
    /// The coordinates of the whole.
    fn default() -> Self {
        Self { scale: 1.0, origin: Point::default() }
    }
}

impl Placement {
    /// The coordinates inside a group moved by `shift`.
    pub fn moved(self, shift: Point) -> Self {
        Self { origin: self.point(shift), ..self }
    }

    /// The coordinates inside a group scaled by `factor`.
    pub fn scaled(self, factor: f64) -> Self {
        Self { scale: self.scale * factor, ..self }
    }

    /// A place inside as a place of the whole.
    pub fn point(self, point: Point) -> Point {
        self.origin.moved(point.x * self.scale, point.y * self.scale)
    }

    /// A rectangle inside as one of the whole.
    pub fn rect(self, rect: Rect) -> Rect {
        let size = Size::new(rect.width() * self.scale, rect.height() * self.scale);
        Rect::at(self.point(rect.corner()), size)
    }
}

fn collect_anchors(items: &[Item], placement: Placement, found: &mut Vec<(Point, String)>) {
    for item in items {
        match item {
            Item::Anchor { name, at } => found.push((placement.point(*at), name.clone())),
            Item::Group { shift, items, .. } => {
                collect_anchors(items, placement.moved(*shift), found);
            }
            Item::Scaled { by, items } => collect_anchors(items, placement.scaled(*by), found),
            Item::Tagged { items, .. } => collect_anchors(items, placement, found),
            Item::Shape { .. } | Item::Text { .. } | Item::Picture { .. } | Item::Link { .. } => {}
        }
    }
}

fn collect_text(items: &[Item], placement: Placement, found: &mut Vec<(Rect, String)>) {
    for item in items {
        match item {
            Item::Text { at, line, .. } => {
                let corner = at.moved(0.0, -line.ascent);
                let size = Size::new(line.width, line.height());
                found.push((placement.rect(Rect::at(corner, size)), line.text()));
            }
            Item::Group { shift, items, .. } => collect_text(items, placement.moved(*shift), found),
            Item::Scaled { by, items } => collect_text(items, placement.scaled(*by), found),
            Item::Tagged { items, .. } => collect_text(items, placement, found),
            Item::Shape { .. } | Item::Picture { .. } | Item::Anchor { .. } | Item::Link { .. } => {
            }
        }
    }
}
