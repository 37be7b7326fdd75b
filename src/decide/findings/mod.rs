//! What stands against a job, and what whoever follows its plan must be told, as data: each with
//! its place in the job and all that is needed to say what to do about it.

mod circuit;
mod factors;
mod finding;
mod heater;
mod layouts;
mod misfits;
mod ratings;
mod voltages;

pub use finding::{
    Behind, BeyondEveryHeader, BoardOverload, BreakerTooSmall, FactorUnknown, Fed, Finding,
    FuseOverload, HeaderOverload, HeaterOnOther, HeaterWaits, JumperConflict, LargerBreaker,
    MarkBelowLoad, Need, NoLayout, NoVoltage, OddBreaker, OtherSupply, TabsTaken, VoltageEdge,
};

use super::jumpers::Fit;
use super::layout::{NearLayout, Wanted};
use super::plan::Wiring;
use crate::board::{Board, Heater, Job, Layout};

/// What is found before any layout is looked at.
pub fn before(board: &Board, job: &Job) -> Vec<Finding> {
    circuit::before(board, job)
}

/// What is found where no layout fits; `nearest` are those that nearly fit what is `asked`.
pub fn no_layout(
    board: &Board,
    job: &Job,
    asked: &[Wanted],
    nearest: Vec<NearLayout>,
) -> Vec<Finding> {
    let mut found = vec![layouts::no_layout(job, asked, nearest)];
    found.extend(voltages::anywhere(board, job));
    found
}

/// What is found under `layout` where no choice of places and groups gives every device its
/// voltage. It always refuses the job.
pub fn unwired(board: &Board, job: &Job, layout: &Layout, element: Option<Heater>) -> Vec<Finding> {
    let mut found = heater::heater(board, job, layout, element);
    found.extend(voltages::voltages(board, job, layout, element));
    if !found.iter().any(Finding::refuses) {
        found.push(Finding::NeededHeaderEmpty { layout: layout.number });
    }
    found
}

/// What is found under `layout` with the wiring that follows from `fit`.
pub fn wired(
    board: &Board,
    job: &Job,
    layout: &Layout,
    fit: &Fit,
    wiring: &Wiring,
    element: Option<Heater>,
) -> Vec<Finding> {
    let mut found = heater::heater(board, job, layout, element);
    found.extend(ratings::tabs(board, job, fit, wiring));
    found.extend(ratings::headers(job, wiring));
    found.extend(ratings::fuses(job, wiring));
    found.extend(circuit::breaker(board, job, fit, wiring));
    found.extend(voltages::edges(board, job, wiring));
    found.extend(factors::factors(job, wiring));
    found.extend(circuit::marks(job, wiring));
    if fit.carried {
        found.extend(circuit::wire_marks(job, wiring));
    }
    found.extend(circuit::run(job, wiring));
    found
}
