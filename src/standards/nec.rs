//! NFPA 70, the National Electrical Code of the United States.

use super::{Clause, Known, Table};
use crate::units::Amps;

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
