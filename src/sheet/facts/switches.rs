//! Switch banks and breakers for a template.

use minijinja::Value;
use serde::Serialize;

use super::{amps_left, part_title, socket_link};
use crate::board::{self, Board, Effect, Meaning};
use crate::decide::headroom::{HeadroomLimit, Outcome};
use crate::decide::{Rules, headrooms};
use crate::units::{Amps, Watts};
use crate::words::Words;

#[derive(Serialize)]
pub struct Bank {
    code: String,
    part: String,
    /// Number from 1, for the figure's name.
    number: usize,
    /// The edge that ON is printed at.
    on_edge: String,
    fields: Vec<Field>,
    /// Whether one of its fields sets the heater allowance.
    sets_allowance: bool,
}

#[derive(Serialize)]
struct Field {
    ways: String,
    /// `None` if the specification gives no word.
    effect: Option<String>,
    unused: bool,
    settings: Vec<Setting>,
}

#[derive(Serialize)]
struct Setting {
    /// `1 off, 2 on`.
    positions: String,
    /// `None` for a heater allowance.
    meaning: Option<String>,
    allowance: Option<u8>,
    shipped: bool,
}

pub fn banks(words: &Words, board: &Board) -> Vec<Bank> {
    board
        .banks
        .iter()
        .enumerate()
        .map(|(index, bank)| Bank {
            code: bank.code.clone(),
            part: part_title(words, &board[bank.part]),
            number: index + 1,
            on_edge: words.side_name(bank.on_side),
            sets_allowance: bank
                .fields
                .iter()
                .any(|field| field.effect == Some(Effect::HeaterAllowance)),
            fields: bank.fields.iter().map(|one| field(words, one)).collect(),
        })
        .collect()
}

fn field(words: &Words, field: &board::Field) -> Field {
    Field {
        ways: field.label(),
        effect: field.effect.as_ref().map(|effect| words.effect_name(effect)),
        unused: field.unused(),
        settings: field
            .settings
            .iter()
            .map(|setting| Setting {
                positions: words.way_positions(field, &setting.positions),
                meaning: match &setting.meaning {
                    Meaning::Allowance(_) => None,
                    Meaning::Words(text) => Some(text.clone()),
                },
                allowance: match setting.meaning {
                    Meaning::Allowance(number) => Some(number),
                    Meaning::Words(_) => None,
                },
                shipped: setting.positions == field.shipped,
            })
            .collect(),
    }
}

/// What breakers leave for everything else while the heater is on.
#[derive(Serialize)]
pub struct Headroom {
    supply: String,
    header: Value,
    group: String,
    volts: String,
    watts: String,
    amps: String,
    /// What the heater takes of a breaker.
    counted: String,
    /// Whether what can run for three hours or more counts at 125 %.
    nec: bool,
    lines: Vec<String>,
    rows: Vec<BreakerRow>,
}

#[derive(Serialize)]
struct BreakerRow {
    breaker: String,
    /// One for each line.
    left: Vec<Left>,
}

#[derive(Serialize)]
struct Left {
    amps: String,
    /// Whether the board's own limit sets it, not the breaker.
    by_board: bool,
}

/// The sum worked through once, with loads that are only an example.
#[derive(Serialize)]
pub struct Example {
    supply: String,
    breaker: String,
    line: String,
    left: String,
    nec: bool,
    circulation: String,
    circulation_counted: String,
    rest: String,
    pump: String,
    /// How many such pumps fit.
    times: u32,
}

pub fn headroom(words: &Words, board: &Board) -> Vec<Headroom> {
    let mut all = Vec::new();
    for headroom in headrooms(board) {
        for case in headroom.cases {
            let Outcome::On(on) = case.outcome else { continue };
            let lines: Vec<_> = on
                .rows
                .first()
                .map(|row| row.left.iter().map(|left| left.line.to_string()).collect())
                .unwrap_or_default();
            let nec = headroom.rules.rules == Rules::Nec;
            all.push(Headroom {
                supply: board[headroom.supply].title.clone(),
                header: socket_link(&board[case.header].code),
                group: board[case.group].code.clone(),
                volts: words.whole_volts(on.volts),
                watts: words.measure(on.watts.0, 0, Watts::UNIT),
                amps: words.amps_drawn(on.amps),
                counted: words.amps_drawn(on.counted),
                nec,
                lines,
                rows: on
                    .rows
                    .iter()
                    .map(|row| BreakerRow {
                        breaker: words.amps(row.breaker),
                        left: row
                            .left
                            .iter()
                            .map(|left| Left {
                                amps: amps_left(words, left.amps),
                                by_board: left.limit == HeadroomLimit::Board,
                            })
                            .collect(),
                    })
                    .collect(),
            });
        }
    }
    all
}

/// Loads of the worked example, A: a small circulation pump and a jet pump. Only an example; the
/// sheet says so.
const CIRCULATION: f64 = 1.4;
const PUMP: f64 = 10.0;

/// The sum for the largest breaker of the first supply on which the heater heats.
pub fn example(words: &Words, board: &Board) -> Option<Example> {
    for headroom in headrooms(board) {
        for case in &headroom.cases {
            let Outcome::On(on) = &case.outcome else { continue };
            let row = on.rows.last()?;
            let left = row.left.iter().min_by(|a, b| a.amps.0.total_cmp(&b.amps.0))?;
            // What is printed as left, to a tenth, rounded down: the reader can follow the sum.
            let start = (left.amps.0 * 10.0 + 1e-6).floor() / 10.0;
            let counted = CIRCULATION * headroom.rules.rules.continuous_factor();
            let rest = start - counted;
            if rest < PUMP {
                return None;
            }
            let amps = |value: f64| words.amps(Amps(value));
            return Some(Example {
                supply: board[headroom.supply].title.clone(),
                breaker: words.amps(row.breaker),
                line: left.line.to_string(),
                left: amps(start),
                nec: headroom.rules.rules == Rules::Nec,
                circulation: amps(CIRCULATION),
                circulation_counted: amps(counted),
                rest: amps(rest),
                pump: amps(PUMP),
                times: (rest / PUMP).floor() as u32,
            });
        }
    }
    None
}
