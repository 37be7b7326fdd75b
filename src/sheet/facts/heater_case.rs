//! The heater under a supply for a template.

use minijinja::Value;
use serde::Serialize;

use super::socket_link;
use crate::board::{Board, SupplyId};
use crate::decide::Rules;
use crate::decide::headroom::{self, HeaterOn};
use crate::units::Watts;
use crate::words::Words;

/// A heater that heats under a supply, and what it takes.
#[derive(Serialize)]
pub struct HeaterCase {
    /// From 1, in the order of the columns.
    number: usize,
    pub supply: String,
    header: Value,
    group: String,
    volts: String,
    watts: String,
    pub amps: String,
    /// What it takes of a breaker.
    counted: String,
    /// Whether what can run for three hours or more counts at 125 %.
    pub nec: bool,
}

impl HeaterCase {
    pub fn new(
        words: &Words,
        board: &Board,
        (supply, rules): (SupplyId, Rules),
        (case, on): (&headroom::HeaterCase, &HeaterOn),
        number: usize,
    ) -> Self {
        Self {
            number,
            supply: board[supply].title.clone(),
            header: socket_link(&board[case.header].code),
            group: board[case.group].code.clone(),
            volts: words.whole_volts(on.volts),
            watts: words.measure(on.watts.0, 0, Watts::UNIT),
            amps: words.amps_drawn(on.amps),
            counted: words.amps_drawn(on.counted),
            nec: rules == Rules::Nec,
        }
    }
}
