//! The breaker, what is marked, what the board may carry, and the supply run.

use super::phrases::running;
use crate::board::{Device, Job, Rules};
use crate::decide::RunDrop;
use crate::decide::findings::{BoardOverload, BreakerTooSmall, LargerBreaker, OddBreaker};
use crate::decide::supply_run::LIMIT_PERCENT;
use crate::diagnostic::{Code, Problem};
use crate::english::and;
use crate::source::{Span, Spanned};
use crate::units::{Amps, fixed};

pub fn odd_breaker(job: &Job, found: &OddBreaker) -> Problem {
    let OddBreaker { rules, smaller, larger } = found;
    let breaker = job.breaker;
    let near: Vec<String> = smaller.iter().chain(larger).map(Amps::to_string).collect();
    Problem::new(
        Code::OddBreaker,
        breaker.span,
        format!("{} is no standard size of a breaker", breaker.value),
    )
    .label("not in the list")
    .note(format!("the sizes beside it are {} ({})", and(&near), rules.sizes_clause()))
    .help("read the breaker again")
}

pub fn above_mark(job: &Job, largest: Spanned<Amps>) -> Problem {
    Problem::new(
        Code::BreakerAboveMark,
        job.breaker.span,
        "the breaker is larger than the largest that is marked",
    )
    .label(format!("{}", job.breaker.value))
    .other(largest.span, "the plate governs")
    .help("fit a breaker that is no larger than the mark")
}

pub fn below_mark(job: &Job, circuit: Spanned<Amps>, larger: LargerBreaker) -> Problem {
    Problem::new(
        Code::BreakerTooSmall,
        job.breaker.span,
        "the breaker is smaller than the minimum circuit ampacity that is marked",
    )
    .label(format!("{}", job.breaker.value))
    .other(circuit.span, "the plate governs")
    .help(larger_breaker(larger))
}

pub fn too_small(job: &Job, found: &BreakerTooSmall) -> Problem {
    let fitted = job.breaker;
    let at = match found.allowance {
        Some(allowance) => format!(", even at a heater allowance of {allowance}, the lowest"),
        None => String::new(),
    };
    let line = found.line.map_or_else(String::new, |line| format!(" in {line}"));
    let mut problem = Problem::new(
        Code::BreakerTooSmall,
        fitted.span,
        format!("a breaker of {} carries too little for what is fitted{at}", fitted.value),
    )
    .label(format!("{} A is needed{line}", fixed(found.counted.0, 2)))
    .note(format!("it is worst with {}", running(&found.running)));
    if found.rules == Rules::Nec {
        problem = problem.note(
            "what can run for three hours or more counts at 125 %: heater, circulation pump, \
             ozonator and anything on low",
        );
    }
    let mut help = larger_breaker(found.larger);
    if !found.without.is_empty() {
        help = format!("{help}; or {}", help_without(&found.without));
    }
    problem.help(help)
}

pub fn board_overload(job: &Job, found: &BoardOverload) -> Problem {
    let BoardOverload { conductor, amps, max, running: with, without } = found;
    Problem::new(
        Code::BoardOverload,
        job.supply.span,
        format!("supply conductor {conductor} carries more than the board may"),
    )
    .label(format!("{} A, and the board may carry {max}", fixed(amps.0, 2)))
    .note(format!("it is worst with {}", running(with)))
    .help(help_without(without))
}

pub fn run_drop(place: Span, drop: &RunDrop) -> Problem {
    let [a, b] = drop.between;
    Problem::new(
        Code::RunDrop,
        place,
        format!(
            "the supply run loses {} % of the voltage between {a} and {b}",
            fixed(drop.percent, 2)
        ),
    )
    .label(format!("{} V of {} V", fixed(drop.drop.0, 2), fixed(drop.volts.0, 0)))
    .note(format!("codes advise no more than {LIMIT_PERCENT} %"))
    .help("run thicker conductors, or shorten the run")
}

fn larger_breaker(larger: LargerBreaker) -> String {
    match larger {
        LargerBreaker::Size(size) => {
            format!(
                "the load needs a breaker of {size}; fit it only if the wires of the run and the plates allow \
                 it, and a licensed electrician decides"
            )
        }
        LargerBreaker::AboveMark => "no breaker within the mark carries it".to_owned(),
        LargerBreaker::None => "no standard breaker carries it".to_owned(),
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
