//! What is lost on the way from the breaker to the board.
//!
//! Both conductors of a circuit lose voltage. What a device lacks is the difference of what its
//! group's two conductors lose, and that is worst in another state than the current of either: it is
//! found for the pair itself. For two equal and opposite currents this is 2 I R L, for a balanced
//! three-phase load between lines the root of 3 times I R L. A device whose power factor nobody gives
//! counts with the one that makes it worst, as for the currents. Reactance is left out: at these
//! sizes it is small beside the resistance.

use super::currents::Running;
use super::jumpers::Fit;
use super::lag::between;
use crate::board::{Board, Conductor, Device, Job, SupplyRun};
use crate::standards::Clause;
use crate::standards::conductors::Wire;
use crate::units::{Length, Volts};

/// Loss above which a job is warned, per cent: NEC 210.19(A) and 215.2(A), informational notes;
/// IEC 60364-5-52, annex G, has the same for lighting.
pub const LIMIT_PERCENT: f64 = 3.0;

/// What is lost in a supply run.
#[derive(Clone, Debug, PartialEq)]
pub struct RunDrop {
    /// The two conductors between which the largest part is lost.
    pub between: [Conductor; 2],
    /// Their voltage without any loss.
    pub volts: Volts,
    /// What is lost of it at the worst.
    pub drop: Volts,
    /// The same as a part of a hundred.
    pub percent: f64,
    /// What runs then.
    pub running: Vec<(Device, Running)>,
    /// Resistance of one conductor of the run, ohm.
    pub ohms: f64,
    /// Where the resistance comes from.
    pub clause: Clause,
}

impl RunDrop {
    /// Whether it is more than [`LIMIT_PERCENT`]; what is equal but for its last digits is not.
    pub fn too_much(&self) -> bool {
        self.percent > LIMIT_PERCENT * (1.0 + 1e-9)
    }
}

/// Resistance of one conductor of a run, ohm.
pub fn ohms(wire: Wire, length: Length) -> f64 {
    wire.ohms_per_km() * length.to_metres() / 1000.0
}

/// The largest part of a voltage that the run takes from anything that is plugged in; `None` if
/// nothing draws from the supply.
pub fn run_drop(board: &Board, job: &Job, run: &SupplyRun, fit: &Fit) -> Option<RunDrop> {
    let ohms = ohms(run.wire, run.length);
    let system = board[job.supply.value].system;
    let mut pairs: Vec<[Conductor; 2]> = fit
        .plugged
        .iter()
        .filter_map(|plugged| plugged.choice.flow)
        .map(|flow| if flow.from < flow.to { [flow.from, flow.to] } else { [flow.to, flow.from] })
        .collect();
    pairs.sort();
    pairs.dedup();
    let mut largest: Option<RunDrop> = None;
    for [a, b] in pairs {
        let (Some(first), Some(second)) = (system.phasor(a), system.phasor(b)) else { continue };
        let volts = super::currents::size(first - second);
        let (devices, found) = between(board, job, fit, [a, b]);
        let drop = found.amount * ohms;
        let percent = 100.0 * drop / volts;
        if largest.as_ref().is_none_or(|known| percent > known.percent * (1.0 + 1e-9)) {
            let running = devices.into_iter().zip(found.running);
            largest = Some(RunDrop {
                between: [a, b],
                volts: Volts(volts),
                drop: Volts(drop),
                percent,
                running: running.filter(|(_, running)| *running != Running::Off).collect(),
                ohms,
                clause: run.wire.clause(),
            });
        }
    }
    largest
}
