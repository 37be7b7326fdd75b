//! Setting the switches for a breaker.

use serde::Serialize;

use super::code;
use crate::board::{Board, Device, Effect, Rules};
use crate::decide::exercises::{self, SwitchAnswer, SwitchSlip};
use crate::units::Watts;
use crate::words::Words;

#[derive(Clone, Serialize)]
pub struct SetSwitches {
    supply: String,
    layout: String,
    breaker: String,
    nec: bool,
    /// `1.25`; `1` if nothing counts more.
    factor: String,
    counts_more: bool,
    watts: String,
    at: String,
    loads: Vec<Load>,
    /// The lines in which there is something to add up.
    lines: Vec<String>,
    answer: Answer,
    sum: Sum,
    next: Option<Next>,
    /// Banks whose ways set the allowance: their numbers from 1.
    banks: Vec<usize>,
    /// The drawing of the answer.
    drawn: String,
    line: String,
    traps: Vec<SwitchTrap>,
}

#[derive(Clone, Serialize)]
struct Load {
    header: String,
    device: String,
    volts: String,
    /// `L1 and L2`; `None` if it draws nothing from the mains.
    from: Option<String>,
    low: Option<String>,
    high: String,
    continuous: bool,
}

#[derive(Clone, Serialize)]
struct Answer {
    allowance: u8,
    /// Whether a way must be moved from where it is shipped.
    moved: bool,
    /// `S1: 1 off, 2 on`.
    positions: Vec<Positions>,
}

#[derive(Clone, Serialize)]
struct Positions {
    bank: String,
    words: String,
}

#[derive(Clone, Serialize)]
struct Sum {
    line: String,
    /// Whether the heater runs in it.
    heater: bool,
    terms: Vec<Term>,
    amps: String,
}

#[derive(Clone, Serialize)]
struct Term {
    device: String,
    running: String,
    amps: String,
    counted: String,
    /// Whether it counts for more than it draws.
    more: bool,
}

#[derive(Clone, Serialize)]
struct Next {
    allowance: u8,
    sum: Sum,
}

#[derive(Clone, Serialize)]
struct SwitchTrap {
    answer: Answer,
    slip: &'static str,
    sum: Option<Sum>,
}

/// The name of the drawing of the answer to an exercise.
pub fn set_name(number: usize) -> String {
    format!("set-{number}")
}

/// Where the settings of the allowance are: `settings table of S1, switches 1–2`.
fn allowance_row(words: &Words, board: &Board) -> String {
    let mut all = board.banks.iter().flat_map(|bank| bank.fields.iter().map(move |f| (bank, f)));
    let found = all.find(|(_, field)| sets_allowance(field));
    found.map_or_else(String::new, |(bank, field)| {
        let ways = usize::from(field.last - field.first) + 1;
        words.row_of_settings(&bank.code, ways, &field.label())
    })
}

pub fn set(
    words: &Words,
    board: &Board,
    number: usize,
    task: &exercises::SetSwitches,
) -> SetSwitches {
    let mut lines: Vec<_> = task
        .loads
        .iter()
        .flat_map(|load| load.conductors.into_iter().flatten())
        .filter(|conductor| conductor.is_line())
        .collect();
    lines.sort();
    lines.dedup();
    SetSwitches {
        supply: board[task.supply].title.clone(),
        layout: task.layout.to_string(),
        breaker: words.amps(task.breaker),
        nec: task.rules == Rules::Nec,
        factor: words.shortest(task.factor, 2),
        counts_more: task.factor > 1.0,
        watts: words.measure(task.element.watts.0, 0, Watts::UNIT),
        at: words.whole_volts(task.element.at),
        loads: task.loads.iter().map(|load| self::load(words, board, load)).collect(),
        lines: lines.into_iter().map(|line| line.to_string()).collect(),
        answer: answer(words, board, &task.answer),
        sum: sum(words, task, &task.sum),
        next: task
            .next
            .as_ref()
            .map(|(allowance, over)| Next { allowance: *allowance, sum: sum(words, task, over) }),
        banks: (1..)
            .zip(&board.banks)
            .filter(|(_, bank)| bank.fields.iter().any(sets_allowance))
            .map(|(number, _)| number)
            .collect(),
        drawn: set_name(number),
        line: allowance_row(words, board),
        traps: task
            .traps
            .iter()
            .map(|trap| {
                let (slip, over) = match &trap.mistake {
                    SwitchSlip::OneHigher(over) => ("one-higher", Some(sum(words, task, over))),
                    SwitchSlip::FactorForgotten => ("factor", None),
                    SwitchSlip::LinesAdded => ("lines-added", None),
                    SwitchSlip::HeaterForgotten => ("heater", None),
                    SwitchSlip::WaysBackwards => ("backwards", None),
                };
                SwitchTrap { answer: answer(words, board, &trap.answer), slip, sum: over }
            })
            .collect(),
    }
}

fn load(words: &Words, board: &Board, load: &exercises::LoadAt) -> Load {
    Load {
        header: code(board, load.header),
        device: words.device_noun(load.device),
        volts: words.whole_volts(load.volts),
        from: load.conductors.map(|pair| words.and(&pair.map(|conductor| conductor.to_string()))),
        low: load.low.map(|low| words.amps(low)),
        high: words.amps(load.high),
        continuous: load.continuous,
    }
}

fn answer(words: &Words, board: &Board, answer: &SwitchAnswer) -> Answer {
    let mut positions = Vec::new();
    for setting in &answer.banks {
        let bank = &board[setting.bank];
        for field in bank.fields.iter().filter(|field| sets_allowance(field)) {
            let from = usize::from(field.first.saturating_sub(1));
            let stand = setting.positions.get(from..usize::from(field.last)).unwrap_or_default();
            let stands = words.way_positions(field, stand);
            positions.push(Positions { bank: bank.code.clone(), words: stands });
        }
    }
    let moved = answer.banks.iter().any(|setting| !setting.moved.is_empty());
    Answer { allowance: answer.allowance, moved, positions }
}

fn sets_allowance(field: &crate::board::Field) -> bool {
    field.effect == Some(Effect::HeaterAllowance)
}

fn sum(words: &Words, task: &exercises::SetSwitches, sum: &exercises::LineSum) -> Sum {
    let is_heater = |term: &exercises::Term| {
        task.loads.get(term.load).is_some_and(|load| load.device == Device::Heater)
    };
    Sum {
        line: sum.line.to_string(),
        heater: sum.terms.iter().any(is_heater),
        // To a hundredth: what is added up by hand must come out as printed.
        amps: words.amps(sum.amps),
        terms: sum
            .terms
            .iter()
            .map(|term| {
                let load = task.loads.get(term.load);
                Term {
                    device: load.map_or_else(String::new, |load| words.device_noun(load.device)),
                    running: words
                        .device_runs(term.running, load.is_some_and(|load| load.low.is_some())),
                    amps: words.amps(term.amps),
                    counted: words.amps(term.counted),
                    more: term.counted.0 > term.amps.0 + 1e-9,
                }
            })
            .collect(),
    }
}
