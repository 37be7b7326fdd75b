//! How pages look: sizes of type, distances, colours. Lengths are mm, sizes of type points.

use crate::scene::{Ink, Stroke};
use crate::text::Style;

/// Running text.
pub(super) const BODY: Style = Style::regular(9.5);
/// Cells of tables.
pub(super) const CELL: Style = Style::regular(9.0);
/// Captions.
pub(super) const CAPTION: Style = Style::regular(8.5);
/// Running head and foot.
pub(super) const EDGE: Style = Style::regular(8.0);
/// The document's title.
pub(super) const TITLE: Style = Style::bold(20.0);
/// The line under the title.
pub(super) const SUBTITLE: Style = Style::regular(11.5);
/// The signal word of a safety message.
pub(super) const SIGNAL: Style = Style::bold(11.0);

/// Headings by level.
pub(super) const HEADINGS: [HeadingLook; 3] = [
    HeadingLook { style: Style::bold(15.0), before: 9.0 },
    HeadingLook { style: Style::bold(11.5), before: 6.5 },
    HeadingLook { style: Style::bold(9.5), before: 5.0 },
];

/// How a heading looks.
pub(super) struct HeadingLook {
    pub style: Style,
    /// Space above.
    pub before: f64,
}

/// Distance of baselines in sizes of type.
pub(super) const LEADING: f64 = 1.36;
/// The same for titles and headings, which are short.
pub(super) const TIGHT_LEADING: f64 = 1.31;

/// Space above a paragraph.
pub(super) const GAP: f64 = 2.3;
/// Space above what follows a heading.
pub(super) const AFTER_HEADING: f64 = 1.5;
/// Space above a heading that follows a heading.
pub(super) const HEADING_GAP: f64 = 3.2;
/// Space above a table, figure, safety message.
pub(super) const BLOCK_GAP: f64 = 4.0;
/// Space above an item of a list.
pub(super) const ITEM_GAP: f64 = 1.1;
/// How far a list's words stand to the right of its bullets, and of its ticks and numbers.
pub(super) const BULLET_INDENT: f64 = 4.5;
pub(super) const NUMBER_INDENT: f64 = 7.0;
pub(super) const STEP_INDENT: f64 = 12.0;
/// Side of a box to tick.
pub(super) const TICK: f64 = 3.4;
/// Narrowest column that is still divided by indents and frames.
pub(super) const NARROWEST: f64 = 45.0;

/// Space inside a cell, left and right.
pub(super) const CELL_SIDE: f64 = 1.6;
/// Space inside a cell, above and below.
pub(super) const CELL_END: f64 = 0.75;
/// Space above a caption.
pub(super) const CAPTION_GAP: f64 = 1.8;
/// Space inside the frame of a safety message.
pub(super) const FRAME_SIDE: f64 = 3.0;
pub(super) const FRAME_END: f64 = 2.2;

/// Text of less weight: subtitle, captions' keys, head and foot.
pub(super) const QUIET: Ink = Ink(64, 64, 64);
/// Links.
pub(super) const LINK: Ink = Ink(0, 60, 110);
/// A table's head.
pub(super) const HEAD_TINT: Ink = Ink(226, 232, 238);
/// The line between rows.
pub(super) const RULE: Stroke = Stroke::solid(Ink(150, 150, 150), 0.15);
/// The line under a head and at the end of a table.
pub(super) const STRONG_RULE: Stroke = Stroke::solid(Ink(64, 64, 64), 0.3);
/// The frame of a safety message.
pub(super) const FRAME: Stroke = Stroke::solid(Ink::BLACK, 0.4);
