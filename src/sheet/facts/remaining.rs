//! What breakers leave for everything else while the heater is on, for a template: one table for all
//! supplies, and the sum worked through once.

use serde::Serialize;

use super::amps_left;
use super::heater_case::HeaterCase;
use crate::board::{Allowance, Board, Conductor};
use crate::decide::headroom::{BreakerRow, HeadroomLimit, HeaterOn, Outcome};
use crate::decide::jumpers::allowances;
use crate::decide::{Rules, headrooms};
use crate::units::Amps;
use crate::words::Words;

/// The table of what remains.
#[derive(Serialize)]
pub struct Remaining {
    /// The heater under each supply, in the order of the columns.
    heaters: Vec<HeaterCase>,
    /// The heads of the columns after the first: the number of a heater, and its lines.
    columns: Vec<Column>,
    rows: Vec<Row>,
    /// Whether somewhere what can run for three hours or more counts at 125 %.
    nec: bool,
    /// Whether the limit of the board, not the breaker, sets a value.
    by_board: bool,
}

#[derive(Serialize)]
struct Column {
    number: usize,
    lines: Vec<String>,
}

#[derive(Serialize)]
struct Row {
    breaker: String,
    /// One for each column; `None` where the breaker does not carry the heater alone.
    left: Vec<Option<Left>>,
}

#[derive(Serialize)]
struct Left {
    amps: String,
    /// Whether the board's own limit sets it, not the breaker.
    by_board: bool,
}

/// The table for all supplies on which the heater heats; `None` if there is none.
pub fn remaining(words: &Words, board: &Board) -> Option<Remaining> {
    let mut heaters = Vec::new();
    let mut columns: Vec<(Column, Vec<BreakerRow>, usize)> = Vec::new();
    for headroom in headrooms(board) {
        for case in headroom.cases {
            let Outcome::On(on) = &case.outcome else { continue };
            let number = heaters.len() + 1;
            for (lines, index) in alike(on) {
                let lines = lines.iter().map(ToString::to_string).collect();
                columns.push((Column { number, lines }, on.rows.clone(), index));
            }
            heaters.push(HeaterCase::new(
                words,
                board,
                (headroom.supply, headroom.rules.rules),
                (&case, on),
                number,
            ));
        }
    }
    let mut breakers: Vec<Amps> =
        columns.iter().flat_map(|(_, rows, _)| rows.iter().map(|row| row.breaker)).collect();
    breakers.sort_by(|a, b| a.0.total_cmp(&b.0));
    breakers.dedup();
    let left = |breaker: Amps, (_, rows, line): &(Column, Vec<BreakerRow>, usize)| {
        let row = rows.iter().find(|row| row.breaker == breaker)?;
        let left = row.left.get(*line)?;
        let by_board = left.limit == HeadroomLimit::Board;
        Some(Left { amps: amps_left(words, left.amps), by_board })
    };
    let rows: Vec<Row> = breakers
        .into_iter()
        .map(|breaker| Row {
            breaker: words.amps(breaker),
            left: columns.iter().map(|column| left(breaker, column)).collect(),
        })
        .collect();
    (!rows.is_empty()).then(|| Remaining {
        nec: heaters.iter().any(|heater| heater.nec),
        by_board: rows.iter().any(|row| row.left.iter().flatten().any(|left| left.by_board)),
        heaters,
        columns: columns.into_iter().map(|(column, ..)| column).collect(),
        rows,
    })
}

/// The lines of a supply, those together on which every breaker leaves the same, each with the
/// place of its first.
fn alike(on: &HeaterOn) -> Vec<(Vec<Conductor>, usize)> {
    let Some(first) = on.rows.first() else { return Vec::new() };
    let column = |index: usize| -> Vec<Option<(Amps, HeadroomLimit)>> {
        on.rows.iter().map(|row| row.left.get(index).map(|left| (left.amps, left.limit))).collect()
    };
    let mut found: Vec<(Vec<Conductor>, usize)> = Vec::new();
    for (index, left) in first.left.iter().enumerate() {
        match found.iter_mut().find(|(_, same)| column(*same) == column(index)) {
            Some((lines, _)) => lines.push(left.line),
            None => found.push((vec![left.line], index)),
        }
    }
    found
}

/// The sum worked through once, with loads that are only an example.
#[derive(Serialize)]
pub struct Example {
    supply: String,
    breaker: String,
    line: String,
    left: String,
    nec: bool,
    /// `None` on a board that runs none.
    circulation: Option<Circulation>,
    /// What is left for the pumps.
    rest: String,
    pump: String,
    /// How many such pumps fit.
    times: u32,
}

/// The circulation pump of the example.
#[derive(Serialize)]
struct Circulation {
    amps: String,
    /// What it takes of the breaker.
    counted: String,
}

/// Loads of the worked example, A: a small circulation pump where the board runs one, and jet pumps of which the first that
/// leads to a setting of the bank is taken. Only an example; the sheet says so.
const CIRCULATION: f64 = 1.4;
const PUMPS: [f64; 4] = [10.0, 8.0, 12.0, 6.0];

/// The sum for a breaker of the first supply on which the heater heats: the largest for which it
/// ends on a heater allowance that can be set.
pub fn example(words: &Words, board: &Board) -> Option<Example> {
    let allowances = allowances(board);
    let loads = || PUMPS.into_iter();
    let has_circulation = super::runs_circulation(board);
    for headroom in headrooms(board) {
        for case in &headroom.cases {
            let Outcome::On(on) = &case.outcome else { continue };
            let sums = on.rows.iter().rev().flat_map(|row| loads().map(move |pump| (row, pump)));
            for (row, pump) in sums {
                let left = row.left.iter().min_by(|a, b| a.amps.0.total_cmp(&b.amps.0))?;
                // What is printed as left, to a tenth, rounded down: the reader can follow the sum.
                let start = (left.amps.0 * 10.0 + 1e-6).floor() / 10.0;
                let counted = CIRCULATION * headroom.rules.rules.continuous_factor();
                let rest = if has_circulation { start - counted } else { start };
                let times = (rest / pump).floor();
                if times < 1.0 || !allowances.iter().any(|a| is_count(*a, times)) {
                    continue;
                }
                let amps = |value: f64| words.amps(Amps(value));
                return Some(Example {
                    supply: board[headroom.supply].title.clone(),
                    breaker: words.amps(row.breaker),
                    line: left.line.to_string(),
                    left: amps(start),
                    nec: headroom.rules.rules == Rules::Nec,
                    circulation: has_circulation
                        .then(|| Circulation { amps: amps(CIRCULATION), counted: amps(counted) }),
                    rest: amps(rest),
                    pump: amps(pump),
                    times: times as u32,
                });
            }
        }
    }
    None
}

/// Whether a heater allowance is a count of so many.
fn is_count(allowance: Option<Allowance>, times: f64) -> bool {
    matches!(allowance, Some(Allowance::Loads(count)) if f64::from(count) == times)
}
