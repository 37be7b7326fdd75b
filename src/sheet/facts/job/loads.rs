//! What is drawn, and what carries it: currents, breaker, heater, fuses.

use super::super::fuse_words;
use crate::board::{Board, CurrentSource, Device};
use crate::decide::reason::AllowanceReason;
use crate::decide::{DevicePlan, Wiring};
use crate::standards::conductors::Wire;
use crate::words::Words;

/// `8 AWG copper`, `6 mm² copper`.
pub fn wire_words(words: &Words, wire: Wire) -> String {
    words.copper_wire(&match wire {
        Wire::Awg(row) => format!("{} AWG", row.awg),
        Wire::Metric(row) => format!("{} mm\u{b2}", words.shortest(row.mm2, 1)),
    })
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

pub fn allowance(words: &Words, wiring: &Wiring) -> Option<String> {
    let allowed = usize::from(wiring.heater?.allowance?);
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

pub fn why_allowance(words: &Words, wiring: &Wiring) -> Option<String> {
    match wiring.breaker.allowance_because {
        AllowanceReason::Breaker { next, needed } => {
            Some(words.why_breaker(&next.to_string(), &words.amps_drawn(needed)))
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
