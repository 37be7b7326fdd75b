//! Rotary selectors.

use crate::geometry::Point;
use crate::source::Span;

use super::{LayoutNumber, PartId};

/// A rotary selector that a person turns to a layout.
#[derive(Clone, Debug)]
pub struct Selector {
    /// Reference designator.
    pub code: String,
    /// The circuit board it sits on.
    pub part: PartId,
    /// Middle, mm from the part's top left corner.
    pub at: Point,
    /// Its positions clockwise, the first at the top; at least two.
    pub positions: Vec<Position>,
    /// Where it points when the board is delivered, by its place among `positions`.
    pub shipped: usize,
    /// Its line in the specification.
    pub span: Span,
}

/// A position of a selector.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Position {
    /// What is printed there.
    pub name: String,
    /// The layout that it sets; `None` if the board then drives nothing.
    pub layout: Option<LayoutNumber>,
}

impl Selector {
    /// The position that sets a layout, by its place among `positions`.
    pub fn position_of(&self, layout: LayoutNumber) -> Option<usize> {
        self.positions.iter().position(|position| position.layout == Some(layout))
    }
}
