//! The heater allowance where it is a current, for a template: which breaker each setting needs, and
//! what remains beside the heater.

use serde::Serialize;

use super::amps_left;
use super::heater_case::HeaterCase;
use crate::board::{Allowance, Board};
use crate::decide::headroom::Outcome;
use crate::decide::jumpers::allowances;
use crate::decide::{Rules, headrooms, limits};
use crate::units::Amps;
use crate::words::Words;

/// The table of the settings.
#[derive(Serialize)]
pub struct Limits {
    /// The heater under each supply, in the order of the columns.
    heaters: Vec<HeaterCase>,
    rows: Vec<Row>,
    /// Whether somewhere what can run for three hours or more counts at 125 %.
    nec: bool,
    example: Option<Example>,
}

#[derive(Serialize)]
struct Row {
    allowance: String,
    /// The smallest breaker that carries whatever the setting permits, for each heater.
    breakers: Vec<Option<String>>,
    /// What remains beside each heater; `None` if the heater alone is above the allowance.
    left: Vec<Option<String>>,
}

/// One setting worked through, with loads that are only an example.
#[derive(Serialize)]
struct Example {
    supply: String,
    allowance: String,
    heater: String,
    left: String,
    /// `10 A and 8 A`: pumps that run together, and how many they are.
    run: String,
    count: usize,
    /// What they add up to.
    sum: String,
    /// The pump that makes the heater wait, and what all add up to with it.
    next: String,
    with_next: String,
}

/// Loads of the worked example, A.
const PUMPS: [f64; 5] = [10.0, 8.0, 6.0, 10.0, 8.0];

/// The table of a board whose heater allowance is a current; `None` for any other, or if its heater
/// heats on no supply.
pub fn limits(words: &Words, board: &Board) -> Option<Limits> {
    let amps = |allowance: Option<Allowance>| match allowance? {
        Allowance::Amps(amps) => Some(amps),
        Allowance::Loads(_) => None,
    };
    let mut settings: Vec<Amps> = allowances(board).into_iter().filter_map(amps).collect();
    settings.reverse();
    let mut heaters: Vec<(HeaterCase, Amps, Rules)> = Vec::new();
    for headroom in headrooms(board) {
        for case in headroom.cases {
            let Outcome::On(on) = &case.outcome else { continue };
            let rules = headroom.rules.rules;
            let of = (headroom.supply, rules);
            let heater = HeaterCase::new(words, board, of, (&case, on), heaters.len() + 1);
            heaters.push((heater, on.amps, rules));
        }
    }
    if settings.is_empty() || heaters.is_empty() {
        return None;
    }
    let rows = settings.iter().map(|setting| Row {
        allowance: words.amps(*setting),
        breakers: heaters
            .iter()
            .map(|(_, _, rules)| limits::breaker_for(*setting, *rules).map(|size| words.amps(size)))
            .collect(),
        left: heaters
            .iter()
            .map(|(_, heater, _)| {
                limits::left_beside(*setting, *heater).map(|left| amps_left(words, left))
            })
            .collect(),
    });
    Some(Limits {
        rows: rows.collect(),
        nec: heaters.iter().any(|(heater, ..)| heater.nec),
        example: heaters.first().and_then(|(heater, amps, _)| {
            settings.iter().rev().find_map(|setting| example(words, heater, *amps, *setting))
        }),
        heaters: heaters.into_iter().map(|(heater, ..)| heater).collect(),
    })
}

/// Pumps that run with the heater, and one more that makes it wait; `None` if not even one runs or
/// all do.
fn example(words: &Words, heater: &HeaterCase, amps: Amps, setting: Amps) -> Option<Example> {
    // To a tenth, as it is printed: the reader can follow the sum.
    let left = ((setting.0 - amps.0) * 10.0 + 1e-6).floor() / 10.0;
    let mut run: Vec<f64> = Vec::new();
    for pump in PUMPS {
        let sum: f64 = run.iter().sum();
        if sum + pump > left {
            let next = (!run.is_empty()).then_some(pump)?;
            return Some(Example {
                supply: heater.supply.clone(),
                allowance: words.amps(setting),
                heater: heater.amps.clone(),
                left: words.amps(Amps(left)),
                run: words.and(&run.iter().map(|pump| words.amps(Amps(*pump))).collect::<Vec<_>>()),
                count: run.len(),
                sum: words.amps(Amps(sum)),
                next: words.amps(Amps(next)),
                with_next: words.amps(Amps(sum + next)),
            });
        }
        run.push(pump);
    }
    None
}
