//! What is in each cavity of a socket.

use super::super::pins::{PinOrder, pin_order_for};
use super::{Exercise, Task, Trap};
use crate::board::{Board, HeaderId, Pin, Socket, Speeds};
use crate::geometry::Side;
use crate::source::Span;

/// What is in each cavity of a socket.
///
/// Level 1: one of three steps is asked for (turn the list, read it from its other end, leave a
/// gap); 2: two of them; 3: all. Not trivial: the answer is not the list as it is drawn. Two
/// questions are alike if socket, key and speeds are the same.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct DrawPins {
    /// Given: the header; its socket's list of pins and the side of its key are given with it.
    pub header: HeaderId,
    /// Given: how many speeds the cord is for.
    pub speeds: Speeds,
    /// The pins as seen from the front.
    pub answer: PinOrder,
    /// The side of the key in the list, and on this header; `None` without a key.
    pub turn: Option<(Side, Side)>,
    /// Whether a cavity stays empty.
    pub gap: bool,
    /// The socket's line.
    pub socket_line: Span,
    /// The header's line.
    pub header_line: Span,
    /// At least one. Each reads from the same end as the answer.
    pub traps: Vec<Trap<PinOrder, PinSlip>>,
}

/// How pins get into another order.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PinSlip {
    /// The list is written down as it stands, not turned.
    NotTurned,
    /// It is read from the wrong end.
    WrongEnd,
    /// The empty cavity is left out, and what follows moves up.
    GapLeftOut,
    /// The cord is taken for one of this number of speeds.
    OtherSpeeds(Speeds),
}

/// The exercise on the cord of a header; `None` if its pins are the list as it is drawn.
pub fn pose(board: &Board, header: HeaderId, speeds: Speeds) -> Option<Exercise> {
    let (key, socket) = (board[header].key, &board[board[header].socket]);
    // The list that is to be turned names functions, not colours.
    let answer = pin_order_for(socket, key, speeds).without_colours();
    let listed = pin_order_for(socket, socket.key_drawn, speeds);
    let turn = socket.key_drawn.zip(key);
    let turned = turn.is_some_and(|(drawn, key)| drawn != key);
    let backwards = answer.pins != listed.pins;
    let gap = answer.pins.contains(&None);
    let level = u8::from(turned) + u8::from(backwards) + u8::from(gap);
    if level == 0 {
        return None;
    }
    let traps = traps(socket, key, &answer, &listed.pins, speeds);
    if traps.is_empty() {
        return None;
    }
    let task = DrawPins {
        header,
        speeds,
        answer,
        turn,
        gap,
        socket_line: socket.span,
        header_line: board[header].span,
        traps,
    };
    Some(Exercise { level, task: Task::DrawPins(task) })
}

fn traps(
    socket: &Socket,
    key: Option<Side>,
    answer: &PinOrder,
    listed: &[Option<Pin>],
    speeds: Speeds,
) -> Vec<Trap<PinOrder, PinSlip>> {
    let reversed: Vec<Option<Pin>> = answer.pins.iter().rev().copied().collect();
    let mut closed: Vec<Option<Pin>> =
        answer.pins.iter().copied().filter(Option::is_some).collect();
    closed.resize(answer.pins.len(), None);
    let other = if speeds == Speeds::Two { Speeds::One } else { Speeds::Two };
    let all = [
        (PinSlip::NotTurned, listed.to_vec()),
        (PinSlip::WrongEnd, reversed),
        (PinSlip::GapLeftOut, closed),
        (PinSlip::OtherSpeeds(other), pin_order_for(socket, key, other).pins),
    ];
    let mut traps: Vec<Trap<PinOrder, PinSlip>> = Vec::new();
    for (mistake, pins) in all {
        let wrong = PinOrder { pins, ..answer.clone() };
        if wrong != *answer && traps.iter().all(|trap| trap.answer != wrong) {
            traps.push(Trap { answer: wrong, mistake });
        }
    }
    traps
}
