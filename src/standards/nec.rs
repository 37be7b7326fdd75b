//! NFPA 70, the National Electrical Code of the United States.

use super::{Clause, Known, Table};
use crate::units::{Amps, Horsepower, Volts};

/// Standard ampere ratings of fuses and inverse-time circuit breakers, ascending.
///
/// The extra fuse sizes of the same clause (1, 3, 6, 10 and 601 A) are not breaker sizes and are
/// left out. The 2023 edition also counts 10 A among the breaker sizes (from memory); it is left
/// out because every other edition begins at 15 A and no spa is fed by less.
pub const BREAKER_SIZES: Table<Amps> = Table {
    values: &[
        Amps(15.0),
        Amps(20.0),
        Amps(25.0),
        Amps(30.0),
        Amps(35.0),
        Amps(40.0),
        Amps(45.0),
        Amps(50.0),
        Amps(60.0),
        Amps(70.0),
        Amps(80.0),
        Amps(90.0),
        Amps(100.0),
        Amps(110.0),
        Amps(125.0),
        Amps(150.0),
        Amps(175.0),
        Amps(200.0),
        Amps(225.0),
        Amps(250.0),
        Amps(300.0),
        Amps(350.0),
        Amps(400.0),
        Amps(450.0),
        Amps(500.0),
        Amps(600.0),
        Amps(700.0),
        Amps(800.0),
        Amps(1000.0),
        Amps(1200.0),
        Amps(1600.0),
        Amps(2000.0),
        Amps(2500.0),
        Amps(3000.0),
        Amps(4000.0),
        Amps(5000.0),
        Amps(6000.0),
    ],
    clause: Clause { edition: "NEC 2023", clause: "240.6(A)", known: Known::Reproduction },
};

/// What a current that can flow for three hours or more counts for when a breaker is sized.
pub const CONTINUOUS_FACTOR: f64 = 1.25;

/// The clauses of [`CONTINUOUS_FACTOR`]: branch circuits and feeders. That a spa's heater counts
/// as continuous is common practice by analogy (422.13, 424 and 680.10 all say 125 % for theirs).
pub const CONTINUOUS_CLAUSE: Clause =
    Clause { edition: "NEC 2023", clause: "210.20(A), 215.3", known: Known::Reproduction };

/// A row of [`MOTOR_AMPS`].
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MotorRow {
    /// Power at the shaft.
    pub power: Horsepower,
    /// Full-load current of motors rated 115, 200, 208 and 230 V, as in [`MOTOR_VOLTS`].
    pub amps: [f64; 4],
}

/// The columns of [`MOTOR_AMPS`]: rated volts of the motor, not of the supply.
pub const MOTOR_VOLTS: [Volts; 4] = [Volts(115.0), Volts(200.0), Volts(208.0), Volts(230.0)];

const fn row(power: f64, amps: [f64; 4]) -> MotorRow {
    MotorRow { power: Horsepower(power), amps }
}

/// Full-load currents of single-phase alternating-current motors at usual speeds.
pub const MOTOR_AMPS: Table<MotorRow> = Table {
    values: &[
        row(1.0 / 6.0, [4.4, 2.5, 2.4, 2.2]),
        row(1.0 / 4.0, [5.8, 3.3, 3.2, 2.9]),
        row(1.0 / 3.0, [7.2, 4.1, 4.0, 3.6]),
        row(1.0 / 2.0, [9.8, 5.6, 5.4, 4.9]),
        row(3.0 / 4.0, [13.8, 7.9, 7.6, 6.9]),
        row(1.0, [16.0, 9.2, 8.8, 8.0]),
        row(1.5, [20.0, 11.5, 11.0, 10.0]),
        row(2.0, [24.0, 13.8, 13.2, 12.0]),
        row(3.0, [34.0, 19.6, 18.7, 17.0]),
        row(5.0, [56.0, 32.2, 30.8, 28.0]),
        row(7.5, [80.0, 46.0, 44.0, 40.0]),
        row(10.0, [100.0, 57.5, 55.0, 50.0]),
    ],
    clause: Clause { edition: "NEC 2023", clause: "table 430.248", known: Known::Reproduction },
};

/// The column of [`MOTOR_AMPS`] for a motor whose plate says `volts`. The clause lets the currents
/// be used on systems of 110 to 120 V and of 220 to 240 V, so plates of these voltages read the
/// columns of 115 and 230 V; between and beyond there is no column.
pub fn motor_column(volts: Volts) -> Option<usize> {
    match volts.0 {
        110.0..=120.0 => Some(0),
        200.0 => Some(1),
        208.0 => Some(2),
        220.0..=240.0 => Some(3),
        _ => None,
    }
}

/// The full-load current of a motor of that power whose plate says `volts`; `None` where the table
/// has no such row or column. Nothing is read between rows. A sixth and a third may be written with
/// two decimals.
pub fn motor_amps(power: Horsepower, volts: Volts) -> Option<Amps> {
    let row = MOTOR_AMPS.values.iter().find(|row| (row.power.0 - power.0).abs() < 0.004)?;
    row.amps.get(motor_column(volts)?).copied().map(Amps)
}

/// A row of [`COPPER`] or [`ALUMINUM`].
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WireRow {
    /// American wire gauge; 0 is 1/0.
    pub awg: u8,
    /// Circular mils, as the table rounds them.
    pub circular_mils: u32,
    /// Direct-current resistance of uncoated stranded copper at 75 degrees Celsius, ohm in 1000 ft.
    pub ohms_per_kft: f64,
}

const fn wire(awg: u8, circular_mils: u32, ohms_per_kft: f64) -> WireRow {
    WireRow { awg, circular_mils, ohms_per_kft }
}

// 3.14 is a resistance here, not the number pi.
#[allow(clippy::approx_constant)]
/// Conductor properties: copper, uncoated, stranded, at 75 degrees Celsius.
pub const COPPER: Table<WireRow> = Table {
    values: &[
        wire(14, 4110, 3.14),
        wire(12, 6530, 1.98),
        wire(10, 10380, 1.24),
        wire(8, 16510, 0.778),
        wire(6, 26240, 0.491),
        wire(4, 41740, 0.308),
        wire(3, 52620, 0.245),
        wire(2, 66360, 0.194),
        wire(1, 83690, 0.154),
        wire(0, 105600, 0.122),
    ],
    clause: Clause {
        edition: "NEC 2023",
        clause: "chapter 9, table 8",
        known: Known::Reproduction,
    },
};

/// A row of [`AMPACITY`].
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AmpacityRow {
    /// American wire gauge; 0 is 1/0.
    pub awg: u8,
    /// Copper, A, in the columns of 60 and 75 degrees Celsius.
    pub copper: [f64; 2],
    /// Aluminum, A, in the same columns; `None` where the table has copper-clad wire alone.
    pub aluminum: Option<[f64; 2]>,
}

const fn ampacity(awg: u8, copper: [f64; 2], aluminum: Option<[f64; 2]>) -> AmpacityRow {
    AmpacityRow { awg, copper, aluminum }
}

/// What insulated conductors carry: no more than three of them with a current in one raceway or
/// cable, in air of 30 degrees Celsius. The column of 90 degrees stands apart: no terminal of these
/// sizes may be loaded by it.
pub const AMPACITY: Table<AmpacityRow> = Table {
    values: &[
        ampacity(14, [15.0, 20.0], None),
        ampacity(12, [20.0, 25.0], Some([15.0, 20.0])),
        ampacity(10, [30.0, 35.0], Some([25.0, 30.0])),
        ampacity(8, [40.0, 50.0], Some([35.0, 40.0])),
        ampacity(6, [55.0, 65.0], Some([40.0, 50.0])),
        ampacity(4, [70.0, 85.0], Some([55.0, 65.0])),
        ampacity(3, [85.0, 100.0], Some([65.0, 75.0])),
        ampacity(2, [95.0, 115.0], Some([75.0, 90.0])),
        ampacity(1, [110.0, 130.0], Some([85.0, 100.0])),
        ampacity(0, [125.0, 150.0], Some([100.0, 120.0])),
    ],
    clause: Clause { edition: "NEC 2023", clause: "table 310.16", known: Known::Reproduction },
};

/// The column of 90 degrees of the same table: gauge, copper and aluminum, A. It is where an electrician
/// begins to correct for heat and neighbors, so no stated capacity is above it in still air of 30
/// degrees.
pub const AMPACITY_90: Table<(u8, f64, Option<f64>)> = Table {
    values: &[
        (14, 25.0, None),
        (12, 30.0, Some(25.0)),
        (10, 40.0, Some(35.0)),
        (8, 55.0, Some(45.0)),
        (6, 75.0, Some(55.0)),
        (4, 95.0, Some(75.0)),
        (3, 115.0, Some(85.0)),
        (2, 130.0, Some(100.0)),
        (1, 145.0, Some(115.0)),
        (0, 170.0, Some(135.0)),
    ],
    clause: Clause { edition: "NEC 2023", clause: "table 310.16", known: Known::Reproduction },
};

/// Which column of [`AMPACITY`] a terminal allows: on a circuit of 100 A or less that of 60 degrees,
/// unless it is marked for more.
pub const TERMINALS: Clause =
    Clause { edition: "NEC 2023", clause: "110.14(C)(1)", known: Known::Reproduction };

/// Up to this breaker [`TERMINALS`] asks for the column of 60 degrees, A.
pub const SIXTY_DEGREES_UP_TO: Amps = Amps(100.0);

/// That a breaker of the next standard size may protect a conductor whose ampacity is no standard
/// size, up to 800 A.
pub const NEXT_SIZE_UP: Clause =
    Clause { edition: "NEC 2023", clause: "240.4(B)", known: Known::Reproduction };

/// The largest breaker of [`NEXT_SIZE_UP`].
pub const NEXT_SIZE_UP_TO: Amps = Amps(800.0);

/// The largest breaker on small conductors: gauge, copper, aluminum. Its items were numbered anew in
/// 2023, so none is named.
pub const SMALL_CONDUCTORS: Table<(u8, Amps, Option<Amps>)> = Table {
    values: &[
        (14, Amps(15.0), None),
        (12, Amps(20.0), Some(Amps(15.0))),
        (10, Amps(30.0), Some(Amps(25.0))),
    ],
    clause: Clause { edition: "NEC 2023", clause: "240.4(D)", known: Known::Reproduction },
};

/// That a conductor carries what counts of a load, 125 % of the continuous part included.
pub const CONDUCTOR_LOAD: Clause =
    Clause { edition: "NEC 2023", clause: "210.19(A), 215.2(A)", known: Known::Reproduction };

/// The same as [`COPPER`] of aluminum, which begins at 12.
pub const ALUMINUM: Table<WireRow> = Table {
    values: &[
        wire(12, 6530, 3.25),
        wire(10, 10380, 2.04),
        wire(8, 16510, 1.28),
        wire(6, 26240, 0.808),
        wire(4, 41740, 0.508),
        wire(3, 52620, 0.403),
        wire(2, 66360, 0.319),
        wire(1, 83690, 0.253),
        wire(0, 105600, 0.201),
    ],
    clause: COPPER.clause,
};
