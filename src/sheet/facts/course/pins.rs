//! Drawing the pins of a socket.

use serde::Serialize;

use super::{code, listed_from};
use crate::board::{Board, Pin, Speeds};
use crate::decide::PinOrder;
use crate::decide::exercises::{self, PinSlip};
use crate::words::Words;

#[derive(Clone, Serialize)]
pub struct DrawPins {
    header: String,
    title: String,
    socket: String,
    speeds: String,
    one_speed: bool,
    /// The list with the key as drawn.
    listed: Vec<String>,
    listed_key: Option<String>,
    listed_from: String,
    key: Option<String>,
    turned: bool,
    gap: bool,
    /// What is seen, and from where it is read.
    pins: Vec<String>,
    read_from: String,
    /// The empty socket, and the filled one.
    blank: String,
    drawn: String,
    line: String,
    socket_line: String,
    traps: Vec<PinTrap>,
}

#[derive(Clone, Serialize)]
struct PinTrap {
    pins: Vec<String>,
    slip: &'static str,
    speeds: Option<String>,
}

/// The name of the drawing of an empty socket, by its header's place.
pub fn blank_name(header: usize) -> String {
    format!("empty-{}", header + 1)
}

/// The name of the drawing of the answer to an exercise.
pub fn drawn_name(number: usize) -> String {
    format!("filled-{number}")
}

pub fn draw(words: &Words, board: &Board, number: usize, task: &exercises::DrawPins) -> DrawPins {
    let header = &board[task.header];
    let socket = &board[header.socket];
    DrawPins {
        header: code(board, task.header),
        title: header.title.clone(),
        socket: socket.title.clone(),
        speeds: words.device_speeds(task.speeds),
        one_speed: task.speeds == Speeds::One,
        listed: socket.pins.iter().map(|pin| words.pin_name(*pin)).collect(),
        listed_key: socket.key_drawn.map(|side| words.key_side(side)),
        listed_from: words.pins_read_from(listed_from(socket.key_drawn)),
        key: header.key.map(|side| words.key_side(side)),
        turned: task.turn.is_some_and(|(drawn, key)| drawn != key),
        gap: task.gap,
        pins: pin_words(words, &task.answer),
        read_from: words.pins_read_from(task.answer.read_from),
        blank: blank_name(task.header.0),
        drawn: drawn_name(number),
        line: words.row_of_header(&code(board, task.header)),
        socket_line: words.row_of_pins(&socket.title),
        traps: task
            .traps
            .iter()
            .map(|trap| {
                let (slip, speeds) = match trap.mistake {
                    PinSlip::NotTurned => ("not-turned", None),
                    PinSlip::WrongEnd => ("wrong-end", None),
                    PinSlip::GapLeftOut => ("gap", None),
                    PinSlip::OtherSpeeds(speeds) => ("speeds", Some(words.device_speeds(speeds))),
                };
                PinTrap { pins: pin_words(words, &trap.answer), slip, speeds }
            })
            .collect(),
    }
}

fn pin_words(words: &Words, order: &PinOrder) -> Vec<String> {
    let said = |pin: &Option<Pin>| match pin {
        Some(pin) => words.pin_name(*pin),
        None => words.cavity_empty(),
    };
    order.pins.iter().map(said).collect()
}
