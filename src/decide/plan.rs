//! All decisions for one job, joined.

mod types;
mod wiring;

pub use types::{
    DeviceId, DevicePlan, HeaterPlan, JumperPlan, LayoutChoice, LinkPlan, Plan, Wiring,
};

use super::breaker::rules;
use super::jumpers::{Fit, fit};
use super::layout::{but_for_circulation, fitting, nearest, wanted};
use super::reason::LayoutReason;
use super::refusals;
use super::voltages::SupplyVoltages;
use crate::board::{Board, Heater, Job, Layout, LayoutNumber};
use crate::diagnostic::Problems;
use wiring::wiring;

/// How many layouts are named where none fits.
pub const NEAREST: usize = 3;

/// Decides everything for `job` on `board`.
pub fn plan(board: &Board, job: &Job) -> Plan {
    let mut problems = Problems::default();
    refusals::before(board, job, &mut problems);
    let asked = wanted(job);
    let numbers = fitting(board, &asked);
    if numbers.is_empty() {
        let nearest = nearest(board, &asked, NEAREST);
        refusals::no_layout(board, job, &nearest, &mut problems);
        return Plan { layout: None, nearest, wiring: None, problems };
    }
    let element = element(board, job);
    let rules = rules(board, job).rules;
    let voltages = SupplyVoltages::of(board, job.supply.value);
    let mut first: Option<Attempt> = None;
    let mut passed = Vec::new();
    for number in &numbers {
        let Some(layout) = board.layout(*number) else { continue };
        let fit = fit(board, job, layout, &voltages, rules, element);
        let attempt = attempt(board, job, layout, &voltages, fit, element);
        let works = attempt.problems.failed().is_none();
        if works || first.is_none() {
            first = Some(Attempt { number: *number, passed: passed.clone(), ..attempt });
        }
        if works {
            break;
        }
        passed.push(*number);
    }
    let Some(Attempt { number, passed, wiring, problems: found }) = first else {
        return Plan { layout: None, nearest: Vec::new(), wiring: None, problems };
    };
    problems.extend(found);
    let because = match (passed.is_empty(), numbers.len()) {
        (true, 1) => LayoutReason::OnlyFit,
        (true, _) => LayoutReason::LowestNumber,
        (false, _) => LayoutReason::LowestThatWorks { passed },
    };
    let layout = LayoutChoice {
        number,
        because,
        others: numbers.into_iter().filter(|other| *other != number).collect(),
        but_for_circulation: but_for_circulation(board, number),
    };
    Plan { layout: Some(layout), nearest: Vec::new(), wiring, problems }
}

/// The heater's element: the job's, or the board's.
fn element(board: &Board, job: &Job) -> Option<Heater> {
    job.heater.map(|heater| heater.value).or(board.heater)
}

/// A layout that was tried.
struct Attempt {
    number: LayoutNumber,
    passed: Vec<LayoutNumber>,
    wiring: Option<Wiring>,
    problems: Problems,
}

fn attempt(
    board: &Board,
    job: &Job,
    layout: &Layout,
    voltages: &SupplyVoltages,
    fit: Option<Fit>,
    element: Option<Heater>,
) -> Attempt {
    let mut problems = Problems::default();
    refusals::heater(board, job, layout, element, &mut problems);
    let wiring = match fit {
        None => {
            refusals::voltages(board, job, layout, &mut problems);
            None
        }
        Some(fit) => {
            let wiring = wiring(board, job, layout, voltages, &fit, element);
            refusals::wiring(board, job, &fit, &wiring, &mut problems);
            Some(wiring)
        }
    };
    Attempt { number: layout.number, passed: Vec::new(), wiring, problems }
}
