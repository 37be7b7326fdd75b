//! How pages look: sizes of type, distances, colours. Lengths are mm, sizes of type points.

use crate::document::Density;
use crate::scene::{Ink, Stroke};
use crate::text::Style;
use crate::units::Length;

use super::Paper;

/// Sizes of type and distances. Nothing is set in less than 7 pt.
#[derive(Debug)]
pub(super) struct Look {
    /// Running text.
    pub body: Style,
    /// Cells of tables.
    pub cell: Style,
    /// What is worked through with a finger on the line: as small as can be read where it is, so
    /// that it takes few pages.
    pub matrix: Style,
    /// Captions.
    pub caption: Style,
    /// Running head and foot.
    pub edge: Style,
    /// The document's title.
    pub title: Style,
    /// The line under the title.
    pub subtitle: Style,
    /// Height of the logo, mm: no more than a title of one line and the line under it have, so that it
    /// takes no room.
    pub logo: f64,
    /// The signal word of a safety message.
    pub signal: Style,
    /// Headings by level.
    pub headings: [HeadingLook; 3],
    /// Distance of baselines in sizes of type.
    pub leading: f64,
    /// The same for titles and headings, which are short.
    pub tight_leading: f64,
    /// Space above a paragraph.
    pub gap: f64,
    /// Space above what follows a heading.
    pub after_heading: f64,
    /// Space above a heading that follows a heading.
    pub heading_gap: f64,
    /// Space above a table, figure, safety message.
    pub block_gap: f64,
    /// Space above an item of a list.
    pub item_gap: f64,
    /// How far a list's words stand to the right of its bullets, numbers, and ticks with numbers.
    pub bullet_indent: f64,
    pub number_indent: f64,
    pub step_indent: f64,
    /// Side of a box to tick.
    pub tick: f64,
    /// Space inside a cell, left and right.
    pub cell_side: f64,
    /// Space inside a cell, above and below.
    pub cell_end: f64,
    /// Height of a row that is written into by hand.
    pub writing: f64,
    /// Space above a caption.
    pub caption_gap: f64,
    /// Space inside the frame of a safety message.
    pub frame_side: f64,
    pub frame_end: f64,
    /// Height of the panel with a signal word.
    pub panel: f64,
    /// Between columns that stand side by side.
    pub gutter: f64,
}

/// How a heading looks.
#[derive(Clone, Copy, Debug)]
pub(super) struct HeadingLook {
    pub style: Style,
    /// Space above.
    pub before: f64,
}

/// Sheets that are read at a desk.
const ROOMY: Look = Look {
    body: Style::regular(9.5),
    cell: Style::regular(9.0),
    matrix: Style::regular(8.0),
    caption: Style::regular(8.5),
    edge: Style::regular(8.0),
    title: Style::bold(20.0),
    subtitle: Style::regular(11.5),
    logo: 12.0,
    signal: Style::bold(11.0),
    headings: [
        HeadingLook { style: Style::bold(15.0), before: 7.5 },
        HeadingLook { style: Style::bold(11.5), before: 5.2 },
        HeadingLook { style: Style::bold(9.5), before: 4.0 },
    ],
    leading: 1.3,
    tight_leading: 1.31,
    gap: 2.0,
    after_heading: 1.5,
    heading_gap: 2.6,
    block_gap: 3.2,
    item_gap: 0.9,
    bullet_indent: 4.5,
    number_indent: 7.0,
    step_indent: 12.0,
    tick: 3.4,
    cell_side: 1.6,
    cell_end: 0.65,
    writing: 8.0,
    caption_gap: 1.8,
    frame_side: 3.0,
    frame_end: 1.7,
    panel: 6.6,
    gutter: 6.5,
};

/// A sheet that must be one page.
const CLOSE: Look = Look {
    body: Style::regular(8.0),
    cell: Style::regular(7.6),
    matrix: Style::regular(7.6),
    caption: Style::regular(7.2),
    edge: Style::regular(7.2),
    title: Style::bold(13.5),
    subtitle: Style::regular(8.8),
    logo: 9.0,
    signal: Style::bold(8.6),
    headings: [
        HeadingLook { style: Style::bold(10.0), before: 3.0 },
        HeadingLook { style: Style::bold(9.2), before: 2.4 },
        HeadingLook { style: Style::bold(8.0), before: 1.8 },
    ],
    leading: 1.25,
    tight_leading: 1.2,
    gap: 1.0,
    after_heading: 0.6,
    heading_gap: 0.9,
    block_gap: 1.5,
    item_gap: 0.45,
    bullet_indent: 3.2,
    number_indent: 4.6,
    step_indent: 8.2,
    tick: 2.9,
    cell_side: 1.1,
    cell_end: 0.3,
    writing: 6.2,
    caption_gap: 0.8,
    frame_side: 2.0,
    frame_end: 0.8,
    panel: 4.2,
    gutter: 6.0,
};

/// The same on small paper.
const CLOSEST: Look = Look {
    body: Style::regular(7.0),
    cell: Style::regular(7.0),
    matrix: Style::regular(7.0),
    caption: Style::regular(7.0),
    edge: Style::regular(7.0),
    title: Style::bold(11.0),
    subtitle: Style::regular(7.5),
    logo: 7.5,
    signal: Style::bold(8.0),
    headings: [
        HeadingLook { style: Style::bold(8.5), before: 2.2 },
        HeadingLook { style: Style::bold(8.0), before: 2.0 },
        HeadingLook { style: Style::bold(7.2), before: 1.6 },
    ],
    leading: 1.17,
    tight_leading: 1.2,
    gap: 0.8,
    after_heading: 0.5,
    heading_gap: 0.8,
    block_gap: 1.3,
    item_gap: 0.4,
    bullet_indent: 2.8,
    number_indent: 4.2,
    step_indent: 7.6,
    tick: 2.6,
    cell_side: 0.9,
    cell_end: 0.25,
    writing: 5.6,
    caption_gap: 0.6,
    frame_side: 1.6,
    frame_end: 0.8,
    panel: 4.0,
    gutter: 4.5,
};

/// What is read at arm's length: capitals of 2.3 mm and more, for 400 to 500 mm.
const REACH: Look = Look {
    body: Style::regular(10.0),
    cell: Style::regular(10.0),
    matrix: Style::regular(9.0),
    caption: Style::regular(9.0),
    edge: Style::regular(9.0),
    title: Style::bold(18.0),
    subtitle: Style::regular(10.5),
    logo: 12.0,
    signal: Style::bold(10.5),
    headings: [
        HeadingLook { style: Style::bold(14.0), before: 6.0 },
        HeadingLook { style: Style::bold(11.5), before: 4.6 },
        HeadingLook { style: Style::bold(10.0), before: 3.6 },
    ],
    leading: 1.3,
    tight_leading: 1.25,
    gap: 1.7,
    after_heading: 1.1,
    heading_gap: 1.8,
    block_gap: 2.6,
    item_gap: 1.2,
    bullet_indent: 4.2,
    number_indent: 6.5,
    step_indent: 11.5,
    tick: 4.2,
    cell_side: 1.4,
    cell_end: 0.6,
    writing: 8.0,
    caption_gap: 1.2,
    frame_side: 2.6,
    frame_end: 1.4,
    panel: 5.4,
    gutter: 6.0,
};

/// The same on small paper.
const REACH_SMALL: Look = Look {
    body: Style::regular(9.5),
    cell: Style::regular(9.0),
    title: Style::bold(15.0),
    subtitle: Style::regular(9.5),
    logo: 10.0,
    signal: Style::bold(10.0),
    headings: [
        HeadingLook { style: Style::bold(12.0), before: 4.6 },
        HeadingLook { style: Style::bold(10.5), before: 3.8 },
        HeadingLook { style: Style::bold(9.5), before: 3.0 },
    ],
    leading: 1.26,
    tight_leading: 1.2,
    gap: 1.4,
    block_gap: 2.2,
    item_gap: 1.0,
    cell_side: 1.1,
    cell_end: 0.5,
    frame_side: 2.0,
    frame_end: 1.2,
    panel: 5.0,
    gutter: 5.0,
    ..REACH
};

impl Look {
    /// Running text.
    pub fn body_text(&self) -> TextLook {
        TextLook { style: self.body, leading: self.leading, ink: Ink::BLACK }
    }

    /// The look of a document on a paper.
    pub fn of(density: Density, paper: Paper) -> &'static Look {
        match (density, paper) {
            (Density::Roomy, _) => &ROOMY,
            (Density::Close, Paper::A5) => &CLOSEST,
            (Density::Close, Paper::A4 | Paper::Letter) => &CLOSE,
            (Density::Reach, Paper::A5) => &REACH_SMALL,
            (Density::Reach, Paper::A4 | Paper::Letter) => &REACH,
        }
    }
}

/// Narrowest column that is still divided by indents and frames.
pub(super) const NARROWEST: f64 = 45.0;
/// The same for a matrix: its lines hold a check with what is correct.
pub(super) const NARROWEST_MATRIX: f64 = 75.0;
/// Least width of a part that stands beside another, mm: a table in less breaks its words.
pub(super) const NARROWEST_PART: f64 = 62.0;

/// Text of less weight: subtitle, captions' keys, head and foot.
pub(super) const QUIET: Ink = Ink(64, 64, 64);
/// Links.
pub(super) const LINK: Ink = Ink(0, 60, 110);
/// A table's head.
pub(super) const HEAD_TINT: Ink = Ink(226, 232, 238);
/// A row that heads those under it.
pub(super) const GROUP_TINT: Ink = Ink(240, 243, 246);
/// The line above what must not be done by everybody.
pub(super) const HEAVY_RULE: Stroke = Stroke::solid(Ink::BLACK, 0.8);
/// Distance of the baselines of a matrix in sizes of type, at most.
pub(super) const MATRIX_LEADING: f64 = 1.2;
/// Space inside its cells, left and right, mm.
pub(super) const MATRIX_SIDE: f64 = 0.9;
/// Space inside its cells, above and below, mm.
pub(super) const MATRIX_END: f64 = 0.45;
/// The line between rows.
pub(super) const RULE: Stroke = Stroke::solid(Ink(150, 150, 150), 0.15);
/// The line under a head and at the end of a table.
pub(super) const STRONG_RULE: Stroke = Stroke::solid(Ink(64, 64, 64), 0.3);
/// A line in the accent of a house, if it has one.
pub(super) fn accented(stroke: Stroke, accent: Option<Ink>) -> Stroke {
    Stroke { ink: accent.unwrap_or(stroke.ink), ..stroke }
}

/// The frame of a safety message.
pub(super) const FRAME: Stroke = Stroke::solid(Ink::BLACK, 0.4);

/// How words look.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct TextLook {
    pub style: Style,
    /// Distance of baselines in sizes of type.
    pub leading: f64,
    pub ink: Ink,
}

impl TextLook {
    /// Distance of baselines, mm.
    pub fn line_height(self) -> f64 {
        Length::from_pt(self.style.size_pt).0 * self.leading
    }
}
