//! What is wrong.

use super::way_numbers;
use crate::board::{Conductor, Device, HeaderId, TerminalId};
use crate::decide::DeviceId;
use crate::decide::mistakes::{CordFit, Mistake, PlannedCase};
use crate::decide::pins::list_ends;
use crate::words::Words;

/// What is wrong, with the codes and numbers of the board: `W3 is on group A`.
pub fn mistake(words: &Words, planned: &PlannedCase<'_>, mistake: Mistake) -> String {
    let board = planned.board;
    let code = |header: HeaderId| board[header].code.as_str();
    match mistake {
        Mistake::Selector { selector, position } => {
            let position = board[selector].positions.get(position);
            let name = position.map_or("", |position| position.name.as_str());
            words.selector_is_at(&board[selector].code, name)
        }
        Mistake::Layout(number) => words.layout_number_is(&number.to_string()),
        Mistake::Jumper { jumper, on } => words.jumper_is_on(&board[jumper].code, &board[on].code),
        Mistake::JumpersSwapped([a, b]) => words.jumpers_swapped(&board[a].code, &board[b].code),
        Mistake::Plug { device, into } => words.plug_is_in(named(planned, device).0, code(into)),
        Mistake::PlugsSwapped([a, b]) => {
            let ((a, at_a), (b, at_b)) = (named(planned, a), named(planned, b));
            words.plugs_swapped(a, code(at_b), b, code(at_a))
        }
        Mistake::Way { bank, way } => {
            let setting = planned.wiring.switches.iter().find(|setting| setting.bank == bank);
            let at = usize::from(way).saturating_sub(1);
            let stands = setting.and_then(|setting| setting.positions.get(at).copied());
            words.way_is(&way.to_string(), &board[bank].code, stands != Some(true))
        }
        Mistake::BankAsShipped(bank) => {
            let setting = planned.wiring.switches.iter().find(|setting| setting.bank == bank);
            let moved = setting.map_or(&[][..], |setting| setting.moved.as_slice());
            words.ways_as_shipped(moved.len(), &way_numbers(words, moved), &board[bank].code)
        }
        Mistake::Supply(supply) => words.house_gives(&board[supply].title),
        Mistake::SameLine([line, taken]) => words.lines_are_one(line, taken),
        Mistake::NeutralPast => words.neutral_is_past(),
        Mistake::NeutralGrounded => words.neutral_is_grounded(),
        Mistake::Missing(terminal) => {
            let lands = landed(planned, terminal);
            let wire = lands.map_or_else(|| words.a_wire(), |wire| words.wire_name(wire));
            words.wire_not_landed(&wire, &board[terminal].code)
        }
        Mistake::Swapped(both) => {
            let one = |terminal: TerminalId, other: TerminalId| {
                let lands = landed(planned, other);
                let wire = lands.map_or_else(|| words.no_wire(), |wire| words.wire_name(wire));
                words.wire_is_on(&wire, &board[terminal].code)
            };
            let [a, b] = both;
            words.and(&[one(a, b), one(b, a)])
        }
        Mistake::Link { link, on } => words.link_is_on(&board[link].code, &board[on].code),
        Mistake::Cord { device, fit } => cord(words, planned, device, fit),
    }
}

fn cord(words: &Words, planned: &PlannedCase<'_>, device: DeviceId, fit: CordFit) -> String {
    let (device, header) = named(planned, device);
    let code = &planned.board[header].code;
    let socket = &planned.board[planned.board[header].socket];
    let end = list_ends(socket, planned.board[header].key);
    match fit {
        CordFit::Correct => words.cord_is_right(device, code),
        CordFit::Turned if socket.key_drawn.is_none() => words.wires_changed_ends(device, code),
        CordFit::Turned => words.cord_is_turned(device, code),
        CordFit::Closed => words.cord_has_no_gap(device, code),
        CordFit::Out => words.plug_is_out(device, code),
        CordFit::OneDown => words.plug_is_off(device, end, code),
        CordFit::OneUp => words.plug_is_off(device, end.opposite(), code),
        CordFit::Rearranged(_) => words.wires_as_before(device, code),
    }
}

/// A device of the plan and its header.
fn named(planned: &PlannedCase<'_>, device: DeviceId) -> (Device, HeaderId) {
    let plan = &planned.wiring[device];
    (plan.device, plan.header)
}

/// What lands on a terminal if all is right.
fn landed(planned: &PlannedCase<'_>, terminal: TerminalId) -> Option<Conductor> {
    planned.board[planned.job.supply.value].lands[terminal]
}
