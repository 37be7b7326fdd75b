//! The layout matrix.

use std::fmt;
use std::num::NonZeroU8;

use super::{Device, Speeds};
use crate::source::Span;

/// The number that is entered on a panel.
///
/// Invariant: never 0, which a panel uses for "not chosen".
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct LayoutNumber(NonZeroU8);

impl LayoutNumber {
    /// Returns `None` for 0.
    pub fn new(number: u8) -> Option<Self> {
        NonZeroU8::new(number).map(Self)
    }

    /// The number, 1 to 255.
    pub fn get(self) -> u8 {
        self.0.get()
    }
}

impl fmt::Display for LayoutNumber {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.fmt(f)
    }
}

/// A set of layout numbers: `1-7`, `1-3, 6`, or all of them.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum LayoutSet {
    /// Every layout.
    All,
    /// Inclusive ranges, ascending and apart.
    Ranges(Vec<(LayoutNumber, LayoutNumber)>),
}

impl LayoutSet {
    /// Whether `number` is one of them.
    pub fn contains(&self, number: LayoutNumber) -> bool {
        match self {
            LayoutSet::All => true,
            LayoutSet::Ranges(ranges) => {
                ranges.iter().any(|(first, last)| (*first..=*last).contains(&number))
            }
        }
    }
}

/// One row of the matrix.
#[derive(Clone, Debug)]
pub struct Layout {
    /// Its number.
    pub number: LayoutNumber,
    /// One entry a column of [`super::Board::columns`].
    pub speeds: Vec<Speeds>,
    /// Its line in the specification.
    pub span: Span,
}

impl Layout {
    /// The entry of `device`, if the matrix has a column for it.
    pub fn speeds_of(&self, columns: &[Device], device: Device) -> Option<Speeds> {
        let column = columns.iter().position(|c| *c == device)?;
        self.speeds.get(column).copied()
    }
}
