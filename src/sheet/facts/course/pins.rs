//! Drawing the pins of a socket.

use serde::Serialize;

use super::{PlaceOf, code, listed_from, read_from, side_words, speeds_words};
use crate::board::{Board, Speeds};
use crate::decide::PinOrder;
use crate::decide::exercises::{self, PinSlip};

#[derive(Clone, Serialize)]
pub struct DrawPins {
    header: String,
    title: String,
    socket: String,
    speeds: &'static str,
    one_speed: bool,
    /// The list with the key as drawn.
    listed: Vec<String>,
    listed_key: Option<&'static str>,
    listed_from: &'static str,
    key: Option<&'static str>,
    turned: bool,
    gap: bool,
    /// What is seen, and from where it is read.
    pins: Vec<String>,
    read_from: &'static str,
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
    speeds: Option<&'static str>,
}

/// The name of the drawing of an empty socket, by its header's place.
pub fn blank_name(header: usize) -> String {
    format!("empty-{}", header + 1)
}

/// The name of the drawing of the answer to an exercise.
pub fn drawn_name(number: usize) -> String {
    format!("filled-{number}")
}

pub fn draw(
    board: &Board,
    number: usize,
    task: &exercises::DrawPins,
    place: PlaceOf<'_>,
) -> DrawPins {
    let header = &board[task.header];
    let socket = &board[header.socket];
    DrawPins {
        header: code(board, task.header),
        title: header.title.clone(),
        socket: socket.title.clone(),
        speeds: speeds_words(task.speeds),
        one_speed: task.speeds == Speeds::One,
        listed: socket.pins.iter().map(|pin| pin.to_string()).collect(),
        listed_key: socket.key_drawn.map(side_words),
        listed_from: listed_from(socket.key_drawn),
        key: header.key.map(side_words),
        turned: task.turn.is_some_and(|(drawn, key)| drawn != key),
        gap: task.gap,
        pins: pin_words(&task.answer),
        read_from: read_from(task.answer.read_from),
        blank: blank_name(task.header.0),
        drawn: drawn_name(number),
        line: place(task.header_line),
        socket_line: place(task.socket_line),
        traps: task
            .traps
            .iter()
            .map(|trap| {
                let (slip, speeds) = match trap.mistake {
                    PinSlip::NotTurned => ("not turned", None),
                    PinSlip::WrongEnd => ("wrong end", None),
                    PinSlip::GapLeftOut => ("gap", None),
                    PinSlip::OtherSpeeds(speeds) => ("speeds", Some(speeds_words(speeds))),
                };
                PinTrap { pins: pin_words(&trap.answer), slip, speeds }
            })
            .collect(),
    }
}

fn pin_words(order: &PinOrder) -> Vec<String> {
    let words = order.pins.iter();
    words.map(|pin| pin.map_or_else(|| "empty".to_owned(), |pin| pin.to_string())).collect()
}
