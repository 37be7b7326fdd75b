//! The breaker, what is marked, what the board may carry, and the supply run.

use super::phrases::running;
use crate::board::{Device, Job, Rules};
use crate::decide::RunDrop;
use crate::decide::findings::{
    BoardOverload, BreakerTooSmall, HeaterWaits, LargerBreaker, MarkBelowLoad, OddBreaker,
};
use crate::decide::supply_run::LIMIT_PERCENT;
use crate::decide::wire::{AboveTables, ThinReason, TooThin};
use crate::diagnostic::{Code, Problem};
use crate::english::and;
use crate::source::{Span, Spanned};
use crate::standards::conductors::{Wire, WireSize};
use crate::standards::{Clause, iec, nec};
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

pub fn heater_waits(job: &Job, found: &HeaterWaits) -> Problem {
    let HeaterWaits { allowance, needs, next } = found;
    let needs = fixed(needs.0, 2);
    let problem = Problem::new(
        Code::HeaterWaits,
        job.breaker.span,
        format!("a breaker of {} leaves a heater allowance too low to heat", job.breaker.value),
    )
    .label(format!("{allowance} is the highest that it carries here"))
    .note(format!("the heater and the pump that moves its water add up to {needs} A"));
    match next {
        Some(next) => problem.help(format!(
            "the next setting, {next}, would do; it needs a larger breaker, wire or board"
        )),
        None => problem.help("no setting of this board lets this heater run; fit a smaller one"),
    }
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

pub fn wire_too_thin(job: &Job, place: Span, found: &TooThin) -> Problem {
    let breaker = job.breaker.value;
    let wire = job.run.map_or_else(String::new, |run| run.wire.to_string());
    let (message, label, clause) = match found.why {
        ThinReason::Breaker(largest) => (
            format!("a breaker of {breaker} does not protect {wire}"),
            format!("protected by {largest} at most"),
            by_size(job, nec::NEXT_SIZE_UP, iec::DESIGN_CLAUSE),
        ),
        ThinReason::SmallConductor(largest) => (
            format!("a breaker of {breaker} does not protect {wire}"),
            format!("a small conductor: {largest} at most"),
            nec::SMALL_CONDUCTORS.clause,
        ),
        ThinReason::Load(load) => (
            format!("{wire} may carry less than the load"),
            format!("the load counts {} A", fixed(load.0, 2)),
            by_size(job, nec::CONDUCTOR_LOAD, iec::DESIGN_CLAUSE),
        ),
    };
    let help = match (found.would_do, job.run.and_then(|run| run.capacity)) {
        (Some(size), _) => format!(
            "{size} would do; or fit a smaller breaker, if it carries the load; a licensed \
             electrician decides"
        ),
        (None, Some(capacity)) => format!(
            "the job states that the conductors may carry {}: run thicker ones; a licensed \
             electrician decides",
            capacity.value
        ),
        (None, None) => "no size in the tables would do; a licensed electrician decides".to_owned(),
    };
    Problem::new(Code::WireTooThin, place, message)
        .label(label)
        .other(job.breaker.span, "the breaker")
        .note(match job.run.and_then(|run| run.capacity) {
            Some(_) => clause.to_string(),
            None => format!("{clause}; {ASSUMED}"),
        })
        .help(help)
}

/// What the tables of capacities suppose.
const ASSUMED: &str = "for an ambient temperature of 30 \u{b0}C and no other circuit beside it";

fn by_size(job: &Job, awg: Clause, metric: Clause) -> Clause {
    match job.run.map(|run| run.wire.size) {
        Some(WireSize::Mm2(_)) => metric,
        Some(WireSize::Awg(_)) | None => awg,
    }
}

pub fn wire_needs_75(job: &Job, place: Span, at_60: Amps, would_do: Option<Wire>) -> Problem {
    let wire = job.run.map_or_else(String::new, |run| run.wire.to_string());
    let mut help =
        "read the marks of the terminals at the breaker and at the board: if both say 75 \u{b0}C, \
                    write `terminals: 75 C`"
            .to_owned();
    if let Some(size) = would_do {
        help = format!("{help}; if not, {size} would do");
    }
    Problem::new(
        Code::WireNeeds75,
        place,
        format!("{wire} suits only if both of its terminals are marked 75 \u{b0}C"),
    )
    .label(format!("at 60 \u{b0}C it may carry {at_60}"))
    .note(format!("{}; {}, {ASSUMED}", nec::TERMINALS, nec::AMPACITY.clause))
    .help(help)
}

pub fn capacity_above_tables(job: &Job, found: &AboveTables) -> Problem {
    let wire = job.run.map_or_else(String::new, |run| run.wire.to_string());
    let AboveTables { stated, most, clause } = found;
    let how = match job.run.map(|run| run.wire.size) {
        Some(WireSize::Mm2(_)) => "by the method that allows most",
        Some(WireSize::Awg(_)) | None => "at 90 \u{b0}C",
    };
    Problem::new(
        Code::CapacityAboveTables,
        stated.span,
        format!("{wire} is said to carry {}, which is more than any table gives", stated.value),
    )
    .label(format!("a table gives {most} at most"))
    .note(format!("{clause}, {how}; {ASSUMED}"))
    .note("it takes the place of every other check of the conductors")
    .help("correct it, or have a licensed electrician confirm it: only free air or cold allow more")
}

pub fn mark_below_load(found: &MarkBelowLoad) -> Problem {
    let what = if found.largest_breaker { "largest breaker" } else { "minimum circuit ampacity" };
    Problem::new(
        Code::MarkBelowLoad,
        found.marked.span,
        format!("what is fitted draws more than the marked {what} allows for"),
    )
    .label(format!("{} carries {} A", found.line, fixed(found.amps.0, 2)))
    .note(format!("it is worst with {}", running(&found.running)))
    .help(
        "the nameplate belongs to what was fitted before: ask a licensed electrician to size the circuit for what \
         is fitted now",
    )
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
