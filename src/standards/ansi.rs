//! Standards of the American National Standards Institute.

use super::{Clause, Known, Nominal, Table};

/// Nominal voltages of 60 Hz low-voltage systems that boards of this kind are fed from.
pub const NOMINAL_SYSTEMS: Table<Nominal> = Table {
    values: &[
        Nominal::TwoWire { volts: 120.0 },
        Nominal::ThreeWire { to_neutral: 120.0, between_lines: 240.0 },
        Nominal::Star { to_neutral: 120.0, between_lines: 208.0 },
    ],
    // The values were compared; the edition and the table number are from memory.
    clause: Clause { edition: "ANSI C84.1-2020", clause: "table 1", known: Known::Reproduction },
};
