//! A plug that was made for the old board, at its header on the new one.

use crate::board::{Header, Pin, Socket};
use crate::decide::mistakes::{Cavities, PlannedCase};
use crate::decide::{DeviceId, DevicePlan, PinOrder, pin_order_for};
use crate::geometry::Side;

use super::decisions::Plug;

/// What the new board makes of a plug.
#[derive(Clone, Debug, PartialEq)]
pub enum PlugFit {
    /// Its wires are as they must be, whichever way it faces.
    AsItIs,
    /// Its wires belong in other cavities.
    Rewired(Rewiring),
    /// It brings other wires, or has another number of cavities.
    Other,
}

/// Wires that belong in other cavities of a plug.
#[derive(Clone, Debug, PartialEq)]
pub struct Rewiring {
    /// The wires that move, in the order in which they are seen now.
    pub moved: Vec<Pin>,
    /// The plug as it was, as it would be seen at its header now.
    pub before: PinOrder,
    /// Where each wire of the right cord lies, for the simulation.
    pub cavities: Cavities,
}

/// A device of a case by its place in the job.
pub fn device_of<'a>(case: &PlannedCase<'a>, plug: Plug) -> Option<(DeviceId, &'a DevicePlan)> {
    case.wiring.devices.entries().find(|(_, device)| device.fitted == plug)
}

/// The header of a device.
pub fn header_of<'a>(case: &PlannedCase<'a>, plug: Plug) -> Option<&'a Header> {
    device_of(case, plug).map(|(_, device)| &case.board[device.header])
}

/// What the new board makes of a plug; `None` if it is not on both boards.
pub fn fit(old: &PlannedCase<'_>, new: &PlannedCase<'_>, plug: Plug) -> Option<PlugFit> {
    let ((_, was), (_, is)) = (device_of(old, plug)?, device_of(new, plug)?);
    let of = |case: &PlannedCase<'_>, device: &DevicePlan| {
        let socket = &case.board[case.board[device.header].socket];
        (socket.key_drawn, along_key(socket, listed(socket, device)))
    };
    let ((key_before, before), (key, now)) = (of(old, was), of(new, is));
    if before.len() != now.len() || key_before.is_some() != key.is_some() {
        return Some(PlugFit::Other);
    }
    if before == now {
        return Some(PlugFit::AsItIs);
    }
    let sorted = |wires: &[Option<Pin>]| {
        let mut wires: Vec<Pin> = wires.iter().copied().flatten().collect();
        wires.sort();
        wires
    };
    if sorted(&before) != sorted(&now) {
        return Some(PlugFit::Other);
    }
    let socket = &new.board[new.board[is.header].socket];
    // In the order of the new list of pins.
    let (before, now) = (along_key(socket, before), along_key(socket, now));
    let cavities = places(&now, &before);
    // As a person sees it at the header: the same turn of the list that gives the pins their order now.
    let seen = is.pins.pins == now;
    let before = if seen { before } else { before.into_iter().rev().collect() };
    let moved = is.pins.pins.iter().zip(&before);
    let moved = moved.filter(|(now, was)| now != was).filter_map(|(now, _)| *now).collect();
    let colours = vec![None; before.len()];
    let before = PinOrder { read_from: is.pins.read_from, pins: before, colours };
    Some(PlugFit::Rewired(Rewiring { moved, before, cavities }))
}

/// How far the key of the header of a plug that stays is turned: clockwise quarter turns, and the side that
/// it faces now. `None` if it is not turned, or the plug moves to another header.
pub fn turn(
    old: &PlannedCase<'_>,
    new: &PlannedCase<'_>,
    plug: Plug,
    old_name: &str,
) -> Option<(u8, Side)> {
    let (was, is) = (header_of(old, plug)?, header_of(new, plug)?);
    if old_name != is.code {
        return None;
    }
    let quarters = was.key?.turn_to(is.key?).quarters();
    (quarters > 0).then_some((quarters, is.key?))
}

/// The wires of a cord in the order of its socket's list of pins.
fn listed(socket: &Socket, device: &DevicePlan) -> Vec<Option<Pin>> {
    pin_order_for(socket, socket.key_drawn, device.speeds).pins
}

/// A list of pins as it runs along the key, or such a list as it stands in the specification: with the key
/// drawn to the right or upwards both are the same.
fn along_key(socket: &Socket, mut list: Vec<Option<Pin>>) -> Vec<Option<Pin>> {
    if matches!(socket.key_drawn, Some(Side::Left | Side::Down)) {
        list.reverse();
    }
    list
}

/// Of each wire of one list its place in another with the same wires.
fn places(wires: &[Option<Pin>], others: &[Option<Pin>]) -> Cavities {
    let mut free: Vec<(usize, Option<Pin>)> = others.iter().copied().enumerate().collect();
    let place = |wire: &Pin| {
        let at = free.iter().position(|(_, other)| *other == Some(*wire))?;
        Some(free.remove(at).0)
    };
    let places: Vec<Option<usize>> = wires.iter().flatten().map(place).collect();
    Cavities::new(&places)
}
