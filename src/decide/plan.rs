//! All decisions for one job, joined.

mod types;
mod wiring;

pub use types::{
    DeviceId, DevicePlan, HeaterPlan, JumperPlan, LayoutChoice, LinkPlan, Plan, Wiring,
};

use super::breaker::rules;
use super::findings::{self, Finding};
use super::jumpers::{Fit, fit};
use super::layout::{but_for_circulation, fitting, nearest, wanted};
use super::reason::LayoutReason;
use super::voltages::SupplyVoltages;
use crate::board::{Board, Heater, Job, Layout, LayoutNumber};
use wiring::wiring;

/// How many layouts are named where none fits.
pub const NEAREST: usize = 3;

/// Decides everything for `job` on `board`.
pub fn plan(board: &Board, job: &Job) -> Plan {
    let mut findings = findings::before(board, job);
    let asked = wanted(job);
    let numbers = fitting(board, &asked);
    if numbers.is_empty() {
        let nearest = nearest(board, &asked, NEAREST);
        findings.extend(findings::no_layout(board, job, &asked, nearest));
        return Plan { layout: None, wiring: None, findings };
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
        let works = !attempt.findings.iter().any(Finding::refuses);
        if works || first.is_none() {
            first = Some(Attempt { number: *number, passed: passed.clone(), ..attempt });
        }
        if works {
            break;
        }
        passed.push(*number);
    }
    let Some(Attempt { number, passed, wiring, findings: found }) = first else {
        return Plan { layout: None, wiring: None, findings };
    };
    findings.extend(found);
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
    Plan { layout: Some(layout), wiring, findings }
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
    findings: Vec<Finding>,
}

fn attempt(
    board: &Board,
    job: &Job,
    layout: &Layout,
    voltages: &SupplyVoltages,
    fit: Option<Fit>,
    element: Option<Heater>,
) -> Attempt {
    let (wiring, findings) = match fit {
        None => (None, findings::unwired(board, job, layout, element)),
        Some(fit) => {
            let wiring = wiring(board, job, layout, voltages, &fit, element);
            let findings = findings::wired(board, job, layout, &fit, &wiring, element);
            (Some(wiring), findings)
        }
    };
    Attempt { number: layout.number, passed: Vec::new(), wiring, findings }
}
