//! What is drawn, and what carries it: currents, breaker, heater, fuses.

use super::super::fuse_words;
use crate::board::{Allowance, Board, CurrentSource, Device, Job, Speeds};
use crate::decide::reason::AllowanceReason;
use crate::decide::waits::{Waits, waits};
use crate::decide::wire::CapacityBasis;
use crate::decide::{DevicePlan, WireCheck, WireVerdict, Wiring};
use crate::standards::conductors::{Metal, Wire, WireSize};
use crate::words::Words;

/// `8 AWG copper`, `6 mm² copper`.
pub fn wire_words(words: &Words, wire: Wire) -> String {
    let size = match wire.size {
        WireSize::Awg(0) => "1/0 AWG".to_owned(),
        WireSize::Awg(awg) => format!("{awg} AWG"),
        WireSize::Mm2(mm2) => format!("{} mm\u{b2}", words.shortest(mm2, 1)),
    };
    match wire.metal {
        Metal::Copper => words.copper_wire(&size),
        Metal::Aluminum => words.aluminum_wire(&size),
    }
}

/// Whether the supply wires suit, and what that supposes.
pub fn wire_judged(words: &Words, job: &Job, check: &WireCheck) -> String {
    let breaker = words.amps(job.breaker.value);
    match (check.verdict, check.capacity.map(|capacity| capacity.basis)) {
        (WireVerdict::OnlyAt75 { .. }, _) => words.wire_needs_75(&breaker),
        (WireVerdict::Suits, Some(CapacityBasis::Terminals(terminals))) => {
            words.wire_suits_terminals(&breaker, usize::from(terminals.celsius()))
        }
        (WireVerdict::Suits, Some(CapacityBasis::Method { method, insulation, three, .. })) => {
            let loaded = if three { 3 } else { 2 };
            words.wire_suits_method(&breaker, method.word(), insulation.word(), loaded)
        }
        (WireVerdict::Suits, Some(CapacityBasis::Stated) | None) => {
            words.wire_suits_stated(&breaker)
        }
        (WireVerdict::Unjudged(_) | WireVerdict::TooThin(_), _) => words.wire_unjudged(),
    }
}

/// `20 A time-lag: F1, F2`.
pub fn fuses(words: &Words, board: &Board, wiring: &Wiring) -> Vec<String> {
    let mut found: Vec<(String, Vec<String>)> = Vec::new();
    for load in &wiring.fuses {
        let fuse = &board[load.of];
        let kind = fuse_words(words, fuse);
        match found.iter_mut().find(|(known, _)| *known == kind) {
            Some((_, codes)) => codes.push(fuse.code.clone()),
            None => found.push((kind, vec![fuse.code.clone()])),
        }
    }
    found
        .into_iter()
        .map(|(kind, codes)| words.fuses_listed(&kind, &words.commas(&codes)))
        .collect()
}

pub fn allowance(words: &Words, board: &Board, wiring: &Wiring) -> Option<String> {
    let allowed = match wiring.heater?.allowance? {
        Allowance::Loads(count) => usize::from(count),
        Allowance::Amps(_) => {
            return waits(board, wiring).map(|found| waits_words(words, wiring, &found));
        }
    };
    let counted: Vec<Device> = wiring
        .devices
        .iter()
        .map(|plan| plan.device)
        .filter(|device| device.counts_for_allowance())
        .collect();
    let count = counted.len();
    Some(match allowed {
        _ if count == 0 => return None,
        0 => words.allowance_none(count, &counted),
        allowed if allowed >= count => words.allowance_all(count, &counted),
        allowed => words.allowance_some(allowed, &counted),
    })
}

/// So many sets of devices that make the heater wait are listed; of more, the sum alone is told.
const SETS: usize = 6;

/// What the heater waits for.
fn waits_words(words: &Words, wiring: &Wiring, found: &Waits) -> String {
    let limit = words.amps(found.limit);
    let two = |device: Device| {
        let mut plans = wiring.devices.iter();
        plans.any(|plan| plan.device == device && plan.speeds == Speeds::Two)
    };
    let one = |device: &Device| match two(*device) {
        true => words.device_on_high(*device),
        false => words.the_device(*device),
    };
    let sets: Vec<String> =
        found.sets.iter().map(|set| words.and(&set.iter().map(one).collect::<Vec<_>>())).collect();
    match sets.len() {
        0 => words.allowance_amps_all(&limit),
        1..=SETS => {
            let listed = sets.into_iter().reduce(|all, next| words.semicolon(&all, &next));
            words.allowance_amps_waits(&limit, &listed.unwrap_or_default())
        }
        _ => words.allowance_amps(&limit, &words.amps_drawn(found.remains)),
    }
}

pub fn why_allowance(words: &Words, wiring: &Wiring) -> Option<String> {
    match wiring.breaker.allowance_because {
        AllowanceReason::Breaker { next, needed } => {
            Some(words.why_breaker(&next.to_string(), &words.amps_drawn(needed)))
        }
        AllowanceReason::Wire { next, needed } => {
            Some(words.why_wire(&next.to_string(), &words.amps_drawn(needed)))
        }
        AllowanceReason::Board { next, amps } => {
            Some(words.why_board(&next.to_string(), &words.amps_drawn(amps)))
        }
        AllowanceReason::Highest | AllowanceReason::NoSwitch | AllowanceReason::NoneCarried => None,
    }
}

/// The devices that have a current from such a source.
pub fn with_source(
    words: &Words,
    wiring: &Wiring,
    wanted: impl Fn(&CurrentSource) -> bool,
) -> Vec<String> {
    let has = |plan: &&DevicePlan| {
        let (high, low) = &plan.sources;
        high.iter().chain(low).any(&wanted)
    };
    wiring.devices.iter().filter(has).map(|plan| words.the_device(plan.device)).collect()
}
