//! The breaker, what is marked, what the board may carry, and the supply run.

use super::super::breaker::{SettingNeed, fits_without, rules};
use super::super::jumpers::Fit;
use super::super::plan::Wiring;
use super::super::rules::carries;
use super::super::wire::{WireVerdict, above_tables, wire};
use super::finding::{
    BoardOverload, BreakerTooSmall, Finding, HeaterWaits, LargerBreaker, MarkBelowLoad, OddBreaker,
};
use crate::board::{Board, Job};
use crate::units::Amps;

/// What is wrong with the breaker whatever is fitted.
pub fn before(board: &Board, job: &Job) -> Vec<Finding> {
    let rules = rules(board, job).rules;
    let breaker = job.breaker.value;
    let mut found = Vec::new();
    if !rules.sizes().contains(&breaker) {
        let larger = rules.sizes().iter().find(|size| size.0 > breaker.0).copied();
        let smaller = rules.sizes().iter().rev().find(|size| size.0 < breaker.0).copied();
        found.push(Finding::OddBreaker(OddBreaker { rules, smaller, larger }));
    }
    let above = job.marked.largest.filter(|largest| breaker.0 > largest.value.0);
    found.extend(above.map(|largest| Finding::BreakerAboveMark { largest }));
    let above = job.run.as_ref().and_then(above_tables);
    found.extend(above.map(Finding::CapacityAboveTables));
    if let (Some(run), WireVerdict::TooThin(thin)) = (&job.run, wire(board, job, None).verdict) {
        found.push(Finding::WireTooThin { place: run.wire_span, found: thin });
    }
    found
}

/// Conductors that suit only with terminals that nobody has said to be there.
pub fn wire_marks(job: &Job, wiring: &Wiring) -> Option<Finding> {
    let place = job.run.as_ref()?.wire_span;
    match wiring.wire.verdict {
        WireVerdict::OnlyAt75 { at_60, would_do } => {
            Some(Finding::WireNeeds75 { place, at_60, would_do })
        }
        WireVerdict::Suits | WireVerdict::TooThin(_) | WireVerdict::Unjudged(_) => None,
    }
}

/// A nameplate of the circuit that allows for less than what is fitted draws: it belongs to what was
/// fitted before.
pub fn marks(job: &Job, wiring: &Wiring) -> Vec<Finding> {
    let lines = wiring.conductors.iter().filter(|load| load.conductor.is_line());
    let Some(most) = lines.max_by(|a, b| a.amps.0.total_cmp(&b.amps.0)) else { return Vec::new() };
    let marks = [(job.marked.circuit, false), (job.marked.largest, true)];
    let below = marks.into_iter().filter_map(|(marked, largest_breaker)| {
        let marked = marked.filter(|marked| !carries(marked.value, most.amps))?;
        Some(Finding::MarkBelowLoad(MarkBelowLoad {
            marked,
            largest_breaker,
            line: most.conductor,
            amps: most.amps,
            running: most.running.clone(),
        }))
    });
    below.collect()
}

/// A breaker or a board that carries no setting of the heater allowance.
pub fn breaker(board: &Board, job: &Job, fit: &Fit, wiring: &Wiring) -> Vec<Finding> {
    let mut found = Vec::new();
    if fit.carried {
        return found;
    }
    let settings = &wiring.breaker.settings;
    let Some(lowest) = settings.last() else { return found };
    // The highest that is carried does not let the heater run, and no lower one can.
    let carried = settings.iter().find(|setting| setting.carried());
    if let (Some(setting), Some(needs)) = (carried.filter(|it| !it.heats), fit.heater_needs(board))
    {
        let next = settings.iter().rev().find(|setting| setting.heats);
        let next = next.and_then(|setting| setting.allowance);
        let waits = setting.allowance.map(|allowance| HeaterWaits { allowance, needs, next });
        found.extend(waits.map(Finding::HeaterWaits));
        return found;
    }
    if !lowest.by_breaker {
        found.push(too_small(board, job, fit, wiring, lowest));
    }
    if lowest.by_breaker && !lowest.by_wire {
        let thin = match wiring.wire.verdict {
            WireVerdict::TooThin(thin) => Some(thin),
            WireVerdict::Suits | WireVerdict::OnlyAt75 { .. } | WireVerdict::Unjudged(_) => None,
        };
        let place = job.run.as_ref().map(|run| run.wire_span);
        found.extend(place.zip(thin).map(|(place, found)| Finding::WireTooThin { place, found }));
    }
    let max = board.max_current(job.supply.value).filter(|_| !lowest.by_board);
    if let (Some(max), Some((conductor, amps))) = (max, lowest.most) {
        let load = wiring.conductors.iter().find(|load| load.conductor == conductor);
        found.push(Finding::BoardOverload(BoardOverload {
            conductor,
            amps,
            max,
            running: load.map_or_else(Vec::new, |load| load.running.clone()),
            without: fits_without(board, job, fit),
        }));
    }
    found
}

fn too_small(
    board: &Board,
    job: &Job,
    fit: &Fit,
    wiring: &Wiring,
    lowest: &SettingNeed,
) -> Finding {
    let marked = job.marked.circuit;
    if let Some(circuit) = marked.filter(|marked| marked.value.0 > job.breaker.value.0) {
        let larger = larger(job, wiring.breaker.smallest);
        return Finding::BreakerBelowMark { circuit, larger };
    }
    Finding::BreakerTooSmall(BreakerTooSmall {
        allowance: lowest.allowance,
        counted: lowest.counted,
        line: lowest.line,
        running: lowest.running.clone(),
        rules: wiring.breaker.rules.rules,
        larger: larger(job, lowest.smallest.filter(|_| marked.is_none())),
        without: fits_without(board, job, fit),
    })
}

/// The breaker that would do; `size` is the smallest that carries what is needed.
fn larger(job: &Job, size: Option<Amps>) -> LargerBreaker {
    match size {
        Some(size) if job.marked.largest.is_none_or(|largest| size.0 <= largest.value.0) => {
            LargerBreaker::Size(size)
        }
        Some(_) => LargerBreaker::AboveMark,
        None => LargerBreaker::None,
    }
}

/// A supply run that loses too much.
pub fn run(job: &Job, wiring: &Wiring) -> Option<Finding> {
    let (run, drop) = job.run.as_ref().zip(wiring.run.as_ref())?;
    drop.too_much().then(|| Finding::RunDrop { place: run.span, drop: drop.clone() })
}
