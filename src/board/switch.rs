//! Switch banks.

use std::fmt;

use crate::geometry::{Point, Side};
use crate::source::Span;
use crate::units::Amps;

use super::{LayoutNumber, PartId};

/// A switch bank.
#[derive(Clone, Debug)]
pub struct Bank {
    /// Reference designator.
    pub code: String,
    /// The circuit board it sits on.
    pub part: PartId,
    /// Middle of the bank, mm from the part's top left corner.
    pub at: Point,
    /// The edge that ON is printed at.
    pub on_side: Side,
    /// The fields in the order of their ways; together they hold every way from 1 once.
    pub fields: Vec<Field>,
    /// Its line in the specification.
    pub span: Span,
}

impl Bank {
    /// How many ways it has.
    pub fn ways(&self) -> u8 {
        self.fields.last().map_or(0, |field| field.last)
    }

    /// The shipped position of every way in order, `true` for on.
    pub fn shipped(&self) -> Vec<bool> {
        self.fields.iter().flat_map(|field| field.shipped.iter().copied()).collect()
    }
}

/// One or more neighbouring ways that are set together.
#[derive(Clone, Debug)]
pub struct Field {
    /// First way, from 1.
    pub first: u8,
    /// Last way.
    pub last: u8,
    /// What it is for; `None` if the specification gives neither effect nor title.
    pub effect: Option<Effect>,
    /// Every combination of positions once, all-off first. Empty if the ways are not used.
    pub settings: Vec<Setting>,
    /// The shipped position of each way, `true` for on.
    pub shipped: Vec<bool>,
    /// Its line in the specification.
    pub span: Span,
}

impl Field {
    /// Whether the ways do nothing.
    pub fn unused(&self) -> bool {
        self.settings.is_empty()
    }

    /// `1` or `1-2`.
    pub fn label(&self) -> String {
        if self.first == self.last {
            self.first.to_string()
        } else {
            format!("{}\u{2013}{}", self.first, self.last)
        }
    }

    /// The settings in the order of what they set: an allowance by its number, others as the
    /// specification writes them. The order of the positions says nothing to a reader.
    pub fn by_meaning(&self) -> Vec<&Setting> {
        let mut all: Vec<&Setting> = self.settings.iter().collect();
        all.sort_by_key(|setting| match &setting.meaning {
            Meaning::Allowance(Allowance::Loads(number)) => usize::from(*number),
            Meaning::Allowance(Allowance::Amps(amps)) => (amps.0 * 1000.0) as usize,
            // Those without a layout come last.
            Meaning::Layout(number) => {
                number.map_or(usize::MAX, |number| usize::from(number.get()))
            }
            Meaning::Words(_) => setting.written,
        });
        all
    }

    /// What its ways mean as those of their bank stand; `None` if they are not used.
    pub fn meaning_in(&self, bank: &[bool]) -> Option<&Meaning> {
        let first = usize::from(self.first).checked_sub(1)?;
        let stands = bank.get(first..usize::from(self.last))?;
        self.settings.iter().find(|setting| setting.positions == stands).map(|it| &it.meaning)
    }

    /// What the shipped setting means.
    pub fn shipped_meaning(&self) -> Option<&Meaning> {
        self.settings.iter().find(|s| s.positions == self.shipped).map(|s| &s.meaning)
    }
}

/// What a field is for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Effect {
    /// What may run while the heater is on: see [`Allowance`].
    HeaterAllowance,
    /// The supply frequency.
    Frequency,
    /// Return to shipped values.
    Restore,
    /// Whether the layout number can be changed.
    LayoutChange,
    /// The layout number itself.
    LayoutNumber,
    /// Nothing that is computed with: what the specification calls it in its own words.
    Titled(String),
}

/// How much may run while the heater is on; those of one board are of one kind.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub enum Allowance {
    /// So many pumps and blowers on high.
    Loads(u8),
    /// What keeps the sum of the currents of all that runs, the heater's among them, to this. If the
    /// sum would be above it, the heater waits. Currents are added as plain numbers, and only of
    /// what the supply feeds.
    Amps(Amps),
}

/// `4`, `32 A`.
impl fmt::Display for Allowance {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Allowance::Loads(number) => number.fmt(f),
            Allowance::Amps(amps) => amps.fmt(f),
        }
    }
}

/// One combination of positions and what it means.
#[derive(Clone, Debug, PartialEq)]
pub struct Setting {
    /// One for each way of the field, `true` for on.
    pub positions: Vec<bool>,
    /// What it means.
    pub meaning: Meaning,
    /// Its place among the settings as the specification writes them, from 0.
    pub written: usize,
}

/// What a setting means.
#[derive(Clone, Debug, PartialEq)]
pub enum Meaning {
    /// This much may run while the heater is on.
    Allowance(Allowance),
    /// This layout; `None` if the board then drives nothing.
    Layout(Option<LayoutNumber>),
    /// A sentence of the specification.
    Words(String),
}
