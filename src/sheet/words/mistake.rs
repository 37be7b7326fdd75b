//! What is wrong.

use super::{ways, wire};
use crate::board::{Conductor, Device, HeaderId, TerminalId};
use crate::decide::mistakes::{CordFit, Mistake, PlannedCase};
use crate::decide::pins::list_ends;
use crate::english::and;
use crate::geometry::Side;
use crate::words::Words;

/// What is wrong, with the codes and numbers of the board: `W3 is on group A`.
pub fn mistake(_words: &Words, planned: &PlannedCase<'_>, mistake: Mistake) -> String {
    let board = planned.board;
    let code = |header: HeaderId| board[header].code.clone();
    match mistake {
        Mistake::Layout(number) => format!("the layout number is {number}"),
        Mistake::Jumper { jumper, on } => {
            format!("{} is on group {}", board[jumper].code, board[on].code)
        }
        Mistake::JumpersSwapped([a, b]) => {
            format!("{} and {} have changed places", board[a].code, board[b].code)
        }
        Mistake::Plug { device, into } => {
            format!("the plug of {} is in {}", named(planned, device).0.the(), code(into))
        }
        Mistake::PlugsSwapped([a, b]) => {
            let ((a, at_a), (b, at_b)) = (named(planned, a), named(planned, b));
            let (at_a, at_b) = (code(at_a), code(at_b));
            format!("the plug of {} is in {at_b} and that of {} in {at_a}", a.the(), b.the())
        }
        Mistake::Way { bank, way } => {
            let setting = planned.wiring.switches.iter().find(|setting| setting.bank == bank);
            let at = usize::from(way).saturating_sub(1);
            let stands = setting.and_then(|setting| setting.positions.get(at).copied());
            let is = if stands == Some(true) { "off" } else { "on" };
            format!("way {way} of {} is {is}", board[bank].code)
        }
        Mistake::BankAsShipped(bank) => {
            let setting = planned.wiring.switches.iter().find(|setting| setting.bank == bank);
            let moved = setting.map_or(&[][..], |setting| setting.moved.as_slice());
            format!("{} of {} stand as shipped", ways(moved), board[bank].code)
        }
        Mistake::Supply(supply) => format!("the house gives {}", board[supply].title),
        Mistake::Missing(terminal) => {
            let lands = landed(planned, terminal).map_or("the wire".to_owned(), wire);
            format!("{lands} is not landed on {}", board[terminal].code)
        }
        Mistake::Swapped(both) => {
            let one = |terminal: TerminalId, other: TerminalId| {
                let lands = landed(planned, other).map_or("nothing".to_owned(), wire);
                format!("{lands} is on {}", board[terminal].code)
            };
            let [a, b] = both;
            and(&[one(a, b), one(b, a)])
        }
        Mistake::Link { link, on } => format!("{} is on {}", board[link].code, board[on].code),
        Mistake::Cord { device, fit } => cord(planned, device, fit),
    }
}

fn cord(planned: &PlannedCase<'_>, device: usize, fit: CordFit) -> String {
    let (device, header) = named(planned, device);
    let (name, code) = (device.the(), &planned.board[header].code);
    let socket = &planned.board[planned.board[header].socket];
    let end = list_ends(socket, planned.board[header].key);
    let off = |side: Side| {
        let to = match side {
            Side::Up => "up",
            Side::Right => "to the right",
            Side::Down => "down",
            Side::Left => "to the left",
        };
        format!("the plug of {name} sits one pin too far {to} at {code}")
    };
    match fit {
        CordFit::Correct => format!("the cord of {name} is right at {code}"),
        CordFit::Turned if socket.key_drawn.is_none() => {
            format!("the wires of {name} have changed ends at {code}")
        }
        CordFit::Turned => format!("the cord of {name} is turned round at {code}"),
        CordFit::Closed => {
            format!("the cord of {name} has no gap at {code}: its wires lie side by side")
        }
        CordFit::OneDown => off(end),
        CordFit::OneUp => off(end.opposite()),
    }
}

/// A device of the plan and its header.
fn named(planned: &PlannedCase<'_>, device: usize) -> (Device, HeaderId) {
    let plan = planned.wiring.devices.get(device);
    plan.map_or((Device::Heater, HeaderId(0)), |plan| (plan.device, plan.header))
}

/// What lands on a terminal if all is right.
fn landed(planned: &PlannedCase<'_>, terminal: TerminalId) -> Option<Conductor> {
    planned.board[planned.job.supply.value].lands.get(terminal.0).copied().flatten()
}
