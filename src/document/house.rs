//! What the sheets of a house look like besides their words: a logo and an accent.

use std::sync::Arc;

use crate::geometry::Size;
use crate::scene::{Ink, Picture};

/// The looks of a house.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct House {
    /// Drawn beside the title.
    pub logo: Option<Logo>,
    /// The colour of headings and of the rules of the head, in place of black and gray. Never that of
    /// a safety message, and never the only thing that tells something.
    pub accent: Option<Ink>,
}

/// The sign of a house.
#[derive(Clone, Debug, PartialEq)]
pub struct Logo {
    /// The drawing.
    pub picture: Arc<Picture>,
    /// What it says to those who cannot see it.
    pub says: String,
}

impl Logo {
    /// The room that no logo goes beyond, mm.
    pub const ROOM: Size = Size { width: 45.0, height: 12.0 };
}
