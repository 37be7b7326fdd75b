//! The drawings beside the steps of a work card. They are read at arm's length: nothing in them is
//! set in less than 9 pt.

mod connect;
mod lock_off;
mod moves;
mod plug;

pub use connect::connections;
pub use lock_off::lock_off;
pub use moves::{jumper_moves, link_moves};
pub use plug::plug;

use crate::scene::{Dash, Ink, Stroke};
use crate::text::Style;

/// Codes of things: what is looked for first.
const CODE: Style = Style::bold(11.0);
/// Other words.
const WORDS: Style = Style::regular(9.0);
/// Other words that must be seen.
const STRONG: Style = Style::bold(9.0);

/// Edges of things.
const EDGE: Stroke = Stroke::solid(Ink::BLACK, 0.5);
/// Where something was.
const LEFT_BEHIND: Stroke =
    Stroke { ink: Ink(88, 88, 88), width: 0.35, dash: Dash::Broken { on: 110, off: 80 } };
