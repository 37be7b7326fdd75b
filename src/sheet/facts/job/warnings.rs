//! What a plan warns of, for those who open the control box later.

use super::loads::wire_words;
use crate::board::Job;
use crate::decide::Finding;
use crate::decide::findings::FactorUnknown;
use crate::decide::supply_run::LIMIT_PERCENT;
use crate::units::{Volts, Watts};
use crate::words::Words;

/// Every warning of a plan, a few sentences each, in the order of the plan. A finding that refuses
/// the job is none of them: then there is no sheet.
pub fn warnings(words: &Words, job: &Job, findings: &[Finding]) -> Vec<String> {
    findings.iter().flat_map(|finding| warning(words, job, finding)).collect()
}

fn warning(words: &Words, job: &Job, finding: &Finding) -> Vec<String> {
    match finding {
        Finding::HeaterWeak(found) => vec![words.warn_heater_weak(
            &words.whole_volts(found.volts),
            &words.volts(found.element.at),
            &words.measure(found.watts.0, 0, Watts::UNIT),
            &words.watts(found.element.watts),
        )],
        Finding::VoltageEdge(found) => {
            let volts = |volts: Volts| words.measure(volts.0, 1, Volts::UNIT);
            let [low, high] = found.allowed.map(volts);
            vec![words.warn_voltage_edge(
                found.device,
                &volts(found.volts),
                &volts(found.end),
                &low,
                &high,
            )]
        }
        Finding::OddBreaker(_) => vec![words.warn_odd_breaker(&words.amps(job.breaker.value))],
        Finding::WireNeeds75 { would_do, .. } => {
            let size = would_do.map(|wire| wire_words(words, wire));
            let wire = job.run.map_or_else(String::new, |run| wire_words(words, run.wire));
            vec![words.warn_wire_needs_75(&wire, size.is_some(), &size.unwrap_or_default())]
        }
        Finding::CapacityAboveTables(found) => {
            vec![words.warn_capacity_above_tables(
                &words.amps(found.stated.value),
                &words.amps(found.most),
            )]
        }
        Finding::MarkBelowLoad(found) => {
            let devices: Vec<_> = found.running.iter().map(|(device, _)| *device).collect();
            vec![words.warn_mark_below_load(
                found.largest_breaker,
                &words.amps(found.marked.value),
                &found.line.to_string(),
                &words.amps_drawn(found.amps),
                &devices,
            )]
        }
        Finding::RunDrop { drop, .. } => vec![words.warn_run_drop(
            &words.measure(drop.drop.0, 1, Volts::UNIT),
            &words.measure(drop.percent, 1, "%"),
            &words.measure(LIMIT_PERCENT, 1, "%"),
        )],
        Finding::FactorUnknown(found) => factor_unknown(words, job, found),
        // These refuse the job: nothing of its plan may be followed, so it has no sheets.
        Finding::NoLayout(_)
        | Finding::NoVoltage(_)
        | Finding::NeededHeaderEmpty { .. }
        | Finding::JumperConflict(_)
        | Finding::TabsTaken(_)
        | Finding::BeyondEveryHeader(_)
        | Finding::HeaderOverload(_)
        | Finding::FuseOverload(_)
        | Finding::HeaterUnknown { .. }
        | Finding::HeaterWithoutVoltage { .. }
        | Finding::HeaterTooHigh(_)
        | Finding::BreakerAboveMark { .. }
        | Finding::BreakerBelowMark { .. }
        | Finding::BreakerTooSmall(_)
        | Finding::WireTooThin { .. }
        | Finding::HeaterWaits(_)
        | Finding::BoardOverload(_) => Vec::new(),
    }
}

fn factor_unknown(words: &Words, job: &Job, found: &FactorUnknown) -> Vec<String> {
    let breaker = words.amps(job.breaker.value);
    let currents: Vec<String> = found
        .lag
        .conductors
        .iter()
        .map(|one| words.conductor_amps(&one.conductor.to_string(), &words.amps_drawn(one.amps)))
        .collect();
    let mut sentences =
        vec![words.warn_factor_unknown(!currents.is_empty(), &words.and(&currents))];
    if found.neutral_unseen {
        sentences.push(words.warn_neutral_unseen(&breaker));
    }
    if let Some(beyond) = found.lag.breaker {
        sentences.push(words.warn_breaker_lag(&words.amps_drawn(beyond.amps), &breaker));
    }
    if let Some(beyond) = found.lag.board {
        let conductor = beyond.conductor.to_string();
        sentences.push(words.warn_board_lag(&conductor, &words.amps_drawn(beyond.amps)));
    }
    vec![sentences.join(" ")]
}
