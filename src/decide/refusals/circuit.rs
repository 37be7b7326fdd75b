//! The breaker, what is marked, what the board may carry, and the supply run.

use super::super::breaker::{SettingNeed, fits_without, rules};
use super::super::jumpers::Fit;
use super::super::rules::Rules;
use super::super::supply_run::LIMIT_PERCENT;
use super::super::wiring::Wiring;
use super::running;
use crate::board::{Board, Device, Job};
use crate::diagnostic::{Code, Problem, Problems};
use crate::english::and;
use crate::units::{Amps, fixed};

/// What is wrong with the breaker whatever is fitted.
pub fn before(board: &Board, job: &Job, problems: &mut Problems) {
    let rules = rules(board, job).rules;
    let breaker = job.breaker;
    if !rules.sizes().contains(&breaker.value) {
        let larger = rules.sizes().iter().find(|size| size.0 > breaker.value.0);
        let smaller = rules.sizes().iter().rev().find(|size| size.0 < breaker.value.0);
        let near: Vec<String> = smaller.into_iter().chain(larger).map(Amps::to_string).collect();
        problems.warning(
            Problem::new(
                Code::OddBreaker,
                breaker.span,
                format!("{} is no standard size of a breaker", breaker.value),
            )
            .label("not in the list")
            .note(format!("the sizes beside it are {} ({})", and(&near), rules.sizes_clause()))
            .help("read the breaker again"),
        );
    }
    if let Some(largest) = job.marked.largest
        && breaker.value.0 > largest.value.0
    {
        problems.error(
            Problem::new(
                Code::BreakerAboveMark,
                breaker.span,
                "the breaker is larger than the largest that is marked",
            )
            .label(format!("{}", breaker.value))
            .other(largest.span, "the plate governs")
            .help("fit a breaker that is no larger than the mark"),
        );
    }
}

/// Reports a breaker or a board that carries no setting of the heater allowance.
pub fn breaker(board: &Board, job: &Job, fit: &Fit, wiring: &Wiring, problems: &mut Problems) {
    if fit.carried {
        return;
    }
    let settings = &wiring.breaker.settings;
    let Some(lowest) = settings.last() else { return };
    if !lowest.by_breaker {
        too_small(board, job, fit, wiring, lowest, problems);
    }
    let max = board.about.max_current.filter(|_| !lowest.by_board);
    if let (Some(max), Some((conductor, amps))) = (max, lowest.most) {
        let load = wiring.conductors.iter().find(|load| load.conductor == conductor);
        let with = load.map_or_else(String::new, |load| running(&load.running));
        problems.error(
            Problem::new(
                Code::BoardOverload,
                job.supply.span,
                format!("supply conductor {conductor} carries more than the board may"),
            )
            .label(format!("{} A, and the board may carry {max}", fixed(amps.0, 2)))
            .note(format!("it is worst with {with}"))
            .help(help_without(&fits_without(board, job, fit))),
        );
    }
}

fn too_small(
    board: &Board,
    job: &Job,
    fit: &Fit,
    wiring: &Wiring,
    lowest: &SettingNeed,
    problems: &mut Problems,
) {
    let fitted = job.breaker;
    if let Some(marked) = job.marked.circuit.filter(|marked| marked.value.0 > fitted.value.0) {
        problems.error(
            Problem::new(
                Code::BreakerTooSmall,
                fitted.span,
                "the breaker is smaller than the minimum circuit ampacity that is marked",
            )
            .label(format!("{}", fitted.value))
            .other(marked.span, "the plate governs")
            .help(larger(job, wiring.breaker.smallest)),
        );
        return;
    }
    let at = match lowest.allowance {
        Some(allowance) => format!(", even at a heater allowance of {allowance}, the lowest"),
        None => String::new(),
    };
    let line = lowest.line.map_or_else(String::new, |line| format!(" in {line}"));
    let mut problem = Problem::new(
        Code::BreakerTooSmall,
        fitted.span,
        format!("a breaker of {} carries too little for what is fitted{at}", fitted.value),
    )
    .label(format!("{} A is needed{line}", fixed(lowest.counted.0, 2)))
    .note(format!("it is worst with {}", running(&lowest.running)));
    if wiring.breaker.rules.rules == Rules::Nec {
        problem = problem.note(
            "what can run for three hours or more counts at 125 %: heater, circulation pump, \
             ozonator and anything on low",
        );
    }
    let without = fits_without(board, job, fit);
    let smallest = lowest.smallest.filter(|_| job.marked.circuit.is_none());
    let mut help = larger(job, smallest);
    if !without.is_empty() {
        help = format!("{help}; or {}", help_without(&without));
    }
    problems.error(problem.help(help));
}

/// The breaker that would do.
fn larger(job: &Job, size: Option<Amps>) -> String {
    let marked = job.marked.largest.map(|largest| largest.value);
    match size {
        Some(size) if marked.is_none_or(|largest| size.0 <= largest.0) => {
            format!("a breaker of {size} would carry it, if the wires of the run may have it")
        }
        Some(_) => "no breaker within the mark carries it".to_owned(),
        None => "no standard breaker carries it".to_owned(),
    }
}

/// What to leave out, any one of `devices`; the heater needs a smaller element instead.
fn help_without(devices: &[Device]) -> String {
    let smaller = devices.contains(&Device::Heater);
    let others: Vec<String> =
        devices.iter().filter(|device| **device != Device::Heater).map(|d| d.the()).collect();
    let feed = match others.split_last() {
        None => None,
        Some((only, [])) => Some(format!("feed {only} from elsewhere")),
        Some((last, rest)) => {
            Some(format!("feed one of these from elsewhere: {} or {last}", rest.join(", ")))
        }
    };
    match (feed, smaller) {
        (Some(feed), false) => feed,
        (Some(feed), true) => format!("{feed}; or fit a heater element of fewer watts"),
        (None, true) => "fit a heater element of fewer watts".to_owned(),
        (None, false) => "feed two or more of the devices from elsewhere".to_owned(),
    }
}

/// Warns of a supply run that loses too much.
pub fn run(job: &Job, wiring: &Wiring, problems: &mut Problems) {
    let (Some(run), Some(drop)) = (&job.run, &wiring.run) else { return };
    if !drop.too_much() {
        return;
    }
    let [a, b] = drop.between;
    problems.warning(
        Problem::new(
            Code::RunDrop,
            run.span,
            format!(
                "the supply run loses {} % of the voltage between {a} and {b}",
                fixed(drop.percent, 2)
            ),
        )
        .label(format!("{} V of {} V", fixed(drop.drop.0, 2), fixed(drop.volts.0, 0)))
        .note(format!("codes advise no more than {LIMIT_PERCENT} %"))
        .help("run thicker conductors, or shorten the run"),
    );
}
