//! Standards of the International Electrotechnical Commission.

use super::{Clause, Known, Nominal, Table};
use crate::units::Amps;

/// Preferred rated currents of circuit-breakers for household and similar installations,
/// ascending.
///
/// An 8 A value also appears in the clause (from memory) and is left out: a smaller list never
/// names a breaker that cannot be had.
pub const BREAKER_SIZES: Table<Amps> = Table {
    values: &[
        Amps(6.0),
        Amps(10.0),
        Amps(13.0),
        Amps(16.0),
        Amps(20.0),
        Amps(25.0),
        Amps(32.0),
        Amps(40.0),
        Amps(50.0),
        Amps(63.0),
        Amps(80.0),
        Amps(100.0),
        Amps(125.0),
    ],
    // The list was compared; the clause number and the edition are from memory.
    clause: Clause { edition: "IEC 60898-1:2015", clause: "5.3.2", known: Known::Reproduction },
};

/// The rule that a breaker's rated current is not below the design current; no 125 % factor.
pub const DESIGN_CLAUSE: Clause =
    Clause { edition: "IEC 60364-4-43:2008", clause: "433.1", known: Known::Memory };

/// Nominal voltages of 50 Hz low-voltage systems that boards of this kind are fed from.
pub const NOMINAL_SYSTEMS: Table<Nominal> = Table {
    values: &[
        Nominal::TwoWire { volts: 230.0 },
        Nominal::Star { to_neutral: 230.0, between_lines: 400.0 },
    ],
    // The values were compared; the table number is from memory.
    clause: Clause { edition: "IEC 60038:2009", clause: "table 1", known: Known::Reproduction },
};

/// A row of [`COPPER`].
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WireRow {
    /// Nominal cross-section, square millimetres.
    pub mm2: f64,
    /// Largest direct-current resistance at 20 degrees Celsius, ohm in 1000 m.
    pub ohms_per_km: f64,
}

const fn wire(mm2: f64, ohms_per_km: f64) -> WireRow {
    WireRow { mm2, ohms_per_km }
}

/// Largest resistance of stranded conductors (class 2) of plain copper at 20 degrees Celsius.
pub const COPPER: Table<WireRow> = Table {
    values: &[
        wire(1.5, 12.1),
        wire(2.5, 7.41),
        wire(4.0, 4.61),
        wire(6.0, 3.08),
        wire(10.0, 1.83),
        wire(16.0, 1.15),
        wire(25.0, 0.727),
    ],
    // The values were compared; the table number and the edition are from memory.
    clause: Clause { edition: "IEC 60228:2004", clause: "table 2", known: Known::Reproduction },
};

/// Temperature coefficient of annealed copper at 20 degrees Celsius, for each kelvin: the
/// International Annealed Copper Standard (reproduction).
pub const COPPER_COEFFICIENT: f64 = 0.00393;

/// The highest temperature of a PVC-insulated conductor in service, degrees Celsius, at which a
/// run's resistance is taken (IEC 60364-5-52; from memory).
pub const SERVICE_CELSIUS: f64 = 70.0;
