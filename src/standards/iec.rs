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

/// A row of [`COPPER`] or [`ALUMINIUM`].
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
        wire(35.0, 0.524),
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

/// The same as [`COPPER`] of aluminium, which begins at 10 mm² (from memory).
pub const ALUMINIUM: Table<WireRow> = Table {
    values: &[wire(10.0, 3.08), wire(16.0, 1.91), wire(25.0, 1.2), wire(35.0, 0.868)],
    clause: COPPER.clause,
};

/// Temperature coefficient of aluminium at 20 degrees Celsius, for each kelvin (reproduction).
pub const ALUMINIUM_COEFFICIENT: f64 = 0.00403;

/// A method of installation.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Method {
    /// Conductors in conduit in an insulated wall.
    A1,
    /// A cable in conduit in an insulated wall.
    A2,
    /// Conductors in conduit on a wall.
    B1,
    /// A cable in conduit on a wall.
    B2,
    /// A cable on a wall.
    C,
    /// A cable in a duct in the ground.
    D1,
    /// A cable in the ground.
    D2,
}

impl Method {
    /// All of them, in the order of the standard.
    pub const ALL: [Method; 7] =
        [Method::A1, Method::A2, Method::B1, Method::B2, Method::C, Method::D1, Method::D2];

    /// Its letters.
    pub fn word(self) -> &'static str {
        match self {
            Method::A1 => "A1",
            Method::A2 => "A2",
            Method::B1 => "B1",
            Method::B2 => "B2",
            Method::C => "C",
            Method::D1 => "D1",
            Method::D2 => "D2",
        }
    }
}

/// What the conductors of a cable are insulated with.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Insulation {
    /// Polyvinyl chloride: 70 degrees Celsius at the conductor.
    Pvc,
    /// Cross-linked polyethylene or ethylene propylene rubber: 90 degrees.
    Xlpe,
}

impl Insulation {
    /// Its letters.
    pub fn word(self) -> &'static str {
        match self {
            Insulation::Pvc => "PVC",
            Insulation::Xlpe => "XLPE",
        }
    }
}

/// What copper conductors of [`CAPACITY_MM2`] carry, A, by insulation and by whether two or three of
/// them are loaded, for each of [`Method::ALL`]: in air of 30 degrees Celsius, in ground of 20 with a
/// thermal resistivity of 2.5 K m/W, no other circuit beside them.
pub struct Capacities {
    /// The insulation.
    pub insulation: Insulation,
    /// Whether three conductors are loaded, else two.
    pub three: bool,
    /// One row for each of [`Method::ALL`].
    pub amps: [[f64; 8]; 7],
    /// Where they stand.
    pub clause: Clause,
}

/// The columns of [`CAPACITIES`]: nominal cross-sections, square millimetres.
pub const CAPACITY_MM2: [f64; 8] = [1.5, 2.5, 4.0, 6.0, 10.0, 16.0, 25.0, 35.0];

const fn table(clause: &'static str) -> Clause {
    Clause { edition: "IEC 60364-5-52:2009", clause, known: Known::Reproduction }
}

/// Tables B.52.2 to B.52.5.
pub const CAPACITIES: [Capacities; 4] = [
    Capacities {
        insulation: Insulation::Pvc,
        three: false,
        amps: [
            [14.5, 19.5, 26.0, 34.0, 46.0, 61.0, 80.0, 99.0],
            [14.0, 18.5, 25.0, 32.0, 43.0, 57.0, 75.0, 92.0],
            [17.5, 24.0, 32.0, 41.0, 57.0, 76.0, 101.0, 125.0],
            [16.5, 23.0, 30.0, 38.0, 52.0, 69.0, 90.0, 111.0],
            [19.5, 27.0, 36.0, 46.0, 63.0, 85.0, 112.0, 138.0],
            [22.0, 29.0, 37.0, 46.0, 60.0, 78.0, 99.0, 119.0],
            [22.0, 28.0, 38.0, 48.0, 64.0, 83.0, 110.0, 132.0],
        ],
        clause: table("table B.52.2"),
    },
    Capacities {
        insulation: Insulation::Xlpe,
        three: false,
        amps: [
            [19.0, 26.0, 35.0, 45.0, 61.0, 81.0, 106.0, 131.0],
            [18.5, 25.0, 33.0, 42.0, 57.0, 76.0, 99.0, 121.0],
            [23.0, 31.0, 42.0, 54.0, 75.0, 100.0, 133.0, 164.0],
            [22.0, 30.0, 40.0, 51.0, 69.0, 91.0, 119.0, 146.0],
            [24.0, 33.0, 45.0, 58.0, 80.0, 107.0, 138.0, 171.0],
            [25.0, 33.0, 43.0, 53.0, 71.0, 91.0, 116.0, 139.0],
            [27.0, 35.0, 46.0, 58.0, 77.0, 100.0, 129.0, 155.0],
        ],
        clause: table("table B.52.3"),
    },
    Capacities {
        insulation: Insulation::Pvc,
        three: true,
        amps: [
            [13.5, 18.0, 24.0, 31.0, 42.0, 56.0, 73.0, 89.0],
            [13.0, 17.5, 23.0, 29.0, 39.0, 52.0, 68.0, 83.0],
            [15.5, 21.0, 28.0, 36.0, 50.0, 68.0, 89.0, 110.0],
            [15.0, 20.0, 27.0, 34.0, 46.0, 62.0, 80.0, 99.0],
            [17.5, 24.0, 32.0, 41.0, 57.0, 76.0, 96.0, 119.0],
            [18.0, 24.0, 30.0, 38.0, 50.0, 64.0, 82.0, 98.0],
            [19.0, 24.0, 33.0, 41.0, 54.0, 70.0, 92.0, 110.0],
        ],
        clause: table("table B.52.4"),
    },
    Capacities {
        insulation: Insulation::Xlpe,
        three: true,
        amps: [
            [17.0, 23.0, 31.0, 40.0, 54.0, 73.0, 95.0, 117.0],
            [16.5, 22.0, 30.0, 38.0, 51.0, 68.0, 89.0, 109.0],
            [20.0, 28.0, 37.0, 48.0, 66.0, 88.0, 117.0, 144.0],
            [19.5, 26.0, 35.0, 44.0, 60.0, 80.0, 105.0, 128.0],
            [22.0, 30.0, 40.0, 52.0, 71.0, 96.0, 119.0, 147.0],
            [21.0, 28.0, 36.0, 44.0, 58.0, 75.0, 96.0, 115.0],
            [23.0, 30.0, 39.0, 49.0, 65.0, 84.0, 107.0, 129.0],
        ],
        clause: table("table B.52.5"),
    },
];
