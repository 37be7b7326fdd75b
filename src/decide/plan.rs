//! All decisions for one job, joined.

use super::breaker::rules;
use super::jumpers::{Fit, fit};
use super::layout::{NearLayout, but_for_circulation, fitting, nearest, wanted};
use super::reason::LayoutReason;
use super::refusals;
use super::wiring::{Wiring, wiring};
use crate::board::{Board, Heater, Job, Layout, LayoutNumber};
use crate::diagnostic::Problems;

/// How many layouts are named where none fits.
pub const NEAREST: usize = 3;

/// What is decided for a job.
#[derive(Clone, Debug)]
pub struct Plan {
    /// The layout; `None` if none fits.
    pub layout: Option<LayoutChoice>,
    /// Where none fits, those that nearly do, the nearest first.
    pub nearest: Vec<NearLayout>,
    /// Everything that follows from the layout; `None` if no layout fits, or if some device cannot
    /// get its voltage. It may hold what `problems` refuses: see [`Plan::sound`].
    pub wiring: Option<Wiring>,
    /// What is wrong, each with its place in the job.
    pub problems: Problems,
}

impl Plan {
    /// The wiring, if nothing refuses it: only this may be put on a sheet.
    pub fn sound(&self) -> Option<(&LayoutChoice, &Wiring)> {
        if self.problems.failed().is_some() {
            return None;
        }
        Some((self.layout.as_ref()?, self.wiring.as_ref()?))
    }
}

/// The layout of a job.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LayoutChoice {
    /// Its number.
    pub number: LayoutNumber,
    /// Why.
    pub because: LayoutReason,
    /// The others that fit.
    pub others: Vec<LayoutNumber>,
    /// The layout that is the same but for the circulation pump, whether there is one.
    pub but_for_circulation: Option<LayoutNumber>,
}

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
    let mut first: Option<Attempt> = None;
    let mut passed = Vec::new();
    for number in &numbers {
        let Some(layout) = board.layout(*number) else { continue };
        let fit = fit(board, job, layout, rules, element);
        let attempt = attempt(board, job, layout, fit, element);
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
            let wiring = wiring(board, job, layout, &fit, element);
            refusals::wiring(board, job, &fit, &wiring, &mut problems);
            Some(wiring)
        }
    };
    Attempt { number: layout.number, passed: Vec::new(), wiring, problems }
}
