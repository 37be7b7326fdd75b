//! The common look of all drawings: sizes of type, widths of line, colours.
//!
//! Colour never carries a meaning alone, so a copy in grey says as much. Text is black; tints lie
//! under it and keep a contrast of at least 7 : 1; lines and edges are dark.

use crate::scene::{Ink, Stroke};
use crate::text::Style;

/// Names of headers, terminals, banks and layouts where a thing is drawn large.
pub const NAME: Style = Style::bold(10.0);
/// Words beside things that are drawn large: pins, meanings, answers.
pub const NOTE: Style = Style::regular(9.0);
/// The same, bold: what must not be overlooked, switch numbers, questions.
pub const NOTE_BOLD: Style = Style::bold(9.0);
/// Edges of things.
pub const EDGE: Stroke = Stroke::solid(Ink::BLACK, 0.3);
/// Fine lines: ticks, grids.
pub const FINE: Stroke = Stroke::solid(Ink(64, 64, 64), 0.15);
/// Outline of a circuit board.
pub const BOARD: Stroke = Stroke::solid(Ink::BLACK, 0.5);
/// A leader from a component to its name; 3 : 1 on the board's tint.
pub const LEADER: Stroke = Stroke::solid(Ink(90, 90, 90), 0.2);
/// Words and edges of what a job has no use for; 7 : 1 on white.
pub const FAINT: Ink = Ink(88, 88, 88);
/// Edges of such things.
pub const FAINT_EDGE: Stroke = Stroke::solid(FAINT, 0.15);

/// A circuit board.
pub const BOARD_TINT: Ink = Ink(246, 246, 240);
/// A thing that a person plugs into, moves or sets.
pub const ACTIVE_TINT: Ink = Ink(255, 255, 255);
/// A table head, a key, a field behind a code.
pub const HEAD_TINT: Ink = Ink(226, 232, 238);
/// A thing that stays empty or is not available.
pub const EMPTY_TINT: Ink = Ink(222, 222, 222);
