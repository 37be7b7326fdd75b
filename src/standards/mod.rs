//! Published tables. One file for each body of standards; every table names its edition and clause
//! and how its values are known. Nothing here decides anything.

pub mod ansi;
pub mod colours;
pub mod conductors;
pub mod designators;
pub mod fuses;
pub mod iec;
pub mod languages;
pub mod nec;
pub mod trips;
mod used;
pub mod wcag;

pub use used::clauses;

use std::fmt;

use crate::units::Volts;

/// Where a published value stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Clause {
    /// The standard with its edition; clause numbers move between editions, so one is never given
    /// without the other.
    pub edition: &'static str,
    /// The clause or table.
    pub clause: &'static str,
    /// How the values are known.
    pub known: Known,
}

/// How a value came into this project. The publishers' own texts were not at hand.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Known {
    /// Compared with a public reproduction of the standard.
    Reproduction,
    /// From memory; not compared with anything.
    Memory,
}

impl fmt::Display for Clause {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}, {}", self.edition, self.clause)
    }
}

/// Published values with the clause that they stand in.
#[derive(Clone, Copy, Debug)]
pub struct Table<T: 'static> {
    /// The values in the clause's order.
    pub values: &'static [T],
    /// Where they stand.
    pub clause: Clause,
}

/// The shape of a supply system, as far as its nominal voltages go.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Nominal {
    /// A line and a neutral.
    TwoWire {
        /// Line to neutral, V.
        volts: f64,
    },
    /// Two lines half a turn apart with a neutral in the middle.
    ThreeWire {
        /// Line to neutral, V.
        to_neutral: f64,
        /// Line to line, V.
        between_lines: f64,
    },
    /// Three lines a third of a turn apart with a neutral at the star point.
    Star {
        /// Line to neutral, V.
        to_neutral: f64,
        /// Line to line, V, as the standard rounds it.
        between_lines: f64,
    },
}

/// A voltage by the name of its system: between the lines of a listed star system it is what the
/// standard rounds it to (400 V, not the 398.37 V that follow from 230 V). Any other comes back as
/// it is.
pub fn nominal(volts: Volts) -> Volts {
    let listed = ansi::NOMINAL_SYSTEMS.values.iter().chain(iec::NOMINAL_SYSTEMS.values);
    let mut named = listed.filter_map(|system| match system {
        Nominal::Star { to_neutral, between_lines } => {
            let follows = to_neutral * libm::sqrt(3.0);
            ((volts.0 - follows).abs() < 0.01).then_some(Volts(*between_lines))
        }
        Nominal::TwoWire { .. } | Nominal::ThreeWire { .. } => None,
    });
    named.next_back().unwrap_or(volts)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_a_voltage_of_a_listed_system_is_named_by_it() {
        assert_eq!(nominal(Volts(230.0 * libm::sqrt(3.0))), Volts(400.0));
        assert_eq!(nominal(Volts(120.0 * libm::sqrt(3.0))), Volts(208.0));
        for other in [398.0, 398.4, 207.0, 230.0, 120.0, 0.0, f64::NAN] {
            let found = nominal(Volts(other)).0;
            assert!(found == other || found.is_nan() && other.is_nan(), "{other}: {found}");
        }
    }
}
