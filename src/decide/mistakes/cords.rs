//! Which wire of a cord meets which pin of a header.

use super::super::pins::is_wired;
use crate::board::{Pin, Socket, Speeds};

/// How the wires of a cord meet the pins of a header.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum CordFit {
    /// Each meets its own pin.
    Correct,
    /// Wired from the wrong end of the list of pins, or plugged in turned round.
    Turned,
    /// The wires lie side by side: the cavity that must stay empty is not.
    Closed,
    /// One pin off, towards the end of the list of pins.
    OneDown,
    /// One pin off, towards its beginning.
    OneUp,
    /// Not plugged in.
    Out,
    /// Each wire is in a cavity of its own choice, as in a plug that was made for another order of pins.
    Rearranged(Cavities),
}

/// The cavity of each wire of a cord.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Cavities([u8; MOST]);

/// No board has a socket with more pins.
const MOST: usize = 12;
/// A wire that is in no cavity.
const NOWHERE: u8 = u8::MAX;

impl Cavities {
    /// Of each wire in the order of the list of pins, from 0; `None` for one that is in none. Those beyond the
    /// most pins that a socket has are in none.
    pub fn new(places: &[Option<usize>]) -> Self {
        let mut all = [NOWHERE; MOST];
        for (to, place) in all.iter_mut().zip(places) {
            *to = place.and_then(|place| u8::try_from(place).ok()).unwrap_or(NOWHERE);
        }
        Self(all)
    }

    /// That of the wire with this place among the wires.
    pub fn of(self, wire: usize) -> Option<usize> {
        self.0.get(wire).filter(|place| **place != NOWHERE).map(|place| usize::from(*place))
    }
}

/// The wires of a cord in the order of the socket's list of pins; `None` for an empty cavity.
pub fn wires(socket: &Socket, speeds: Speeds) -> Vec<Option<Pin>> {
    socket.pins.iter().map(|pin| is_wired(socket, *pin, speeds).then_some(*pin)).collect()
}

/// For each wire the pin that it meets: `None` where it meets nothing.
pub fn meet(wires: &[Option<Pin>], pins: &[Pin], fit: CordFit) -> Vec<(Pin, Option<Pin>)> {
    let there = wires.iter().enumerate().filter_map(|(at, wire)| Some((at, (*wire)?)));
    there
        .enumerate()
        .map(|(count, (at, wire))| {
            let cavity = match fit {
                CordFit::Correct => Some(at),
                CordFit::Turned => pins.len().checked_sub(at + 1),
                CordFit::Closed => Some(count),
                CordFit::OneDown => Some(at + 1),
                CordFit::OneUp => at.checked_sub(1),
                CordFit::Out => None,
                CordFit::Rearranged(cavities) => cavities.of(count),
            };
            (wire, cavity.and_then(|cavity| pins.get(cavity)).copied())
        })
        .collect()
}

/// How the cord of a device can be got wrong at a socket. Ring lugs and the like (a family without
/// a key) are fastened one by one and can change ends; a plug can also sit one pin off.
pub fn wrong_fits(socket: &Socket, speeds: Speeds) -> Vec<CordFit> {
    let wires = wires(socket, speeds);
    let right = meet(&wires, &socket.pins, CordFit::Correct);
    let all: &[CordFit] = if socket.key_drawn.is_none() {
        &[CordFit::Turned]
    } else {
        &[CordFit::Turned, CordFit::Closed, CordFit::OneDown, CordFit::OneUp]
    };
    let differs = |fit: &CordFit| meet(&wires, &socket.pins, *fit) != right;
    all.iter().copied().filter(differs).collect()
}
