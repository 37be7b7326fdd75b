//! What to check, and what right looks like.

use super::wire;
use crate::board::{BankId, Board, Device, Pin, SupplyId, TerminalId};
use crate::decide::currents::size;
use crate::decide::faults::CheckTarget;
use crate::decide::mistakes::PlannedCase;
use crate::decide::{DevicePlan, PinOrder, ReadFrom};
use crate::figure::whole_volts;
use crate::units::Volts;
use crate::words::Words;

/// What right looks like for a job: `W3 on group B`.
pub fn look(_words: &Words, planned: &PlannedCase<'_>, thing: CheckTarget) -> String {
    let board = planned.board;
    match thing {
        CheckTarget::Layout => format!("layout number {}", planned.layout.number),
        CheckTarget::Jumper(jumper) => {
            let plan = planned.wiring.jumpers.iter().find(|plan| plan.jumper == jumper);
            let group = plan.map_or("", |plan| board[plan.group].code.as_str());
            format!("{} on group {group}", board[jumper].code)
        }
        CheckTarget::Plug(device) => {
            let header = plan(planned, device).map_or("", |plan| board[plan.header].code.as_str());
            format!("plug of {} in {header}", device.the())
        }
        CheckTarget::Cord(device) => match plan(planned, device) {
            Some(plan) => {
                let keyed = board[board[plan.header].socket].key_drawn.is_some();
                let how = if keyed { "key to key; " } else { "" };
                format!(
                    "{} at {}: {how}{}",
                    device.the(),
                    board[plan.header].code,
                    pins(&plan.pins)
                )
            }
            None => device.the(),
        },
        CheckTarget::Bank(it) => bank(planned, it),
        CheckTarget::Link(link) => {
            let plan = planned.wiring.links.iter().find(|plan| plan.link == link);
            let on = plan.map_or("", |plan| board[plan.terminal].code.as_str());
            format!("{} on {on}", board[link].code)
        }
        CheckTarget::Landing => landing(board, planned.job.supply.value),
        CheckTarget::House => house(board, planned.job.supply.value),
    }
}

/// The pins of a cord as they are seen: `from the left: ground, common, empty, high`.
pub fn pins(order: &PinOrder) -> String {
    let from = match order.read_from {
        ReadFrom::Top => "top",
        ReadFrom::Left => "left",
    };
    let words: Vec<String> = order
        .pins
        .iter()
        .map(|pin: &Option<Pin>| pin.map_or("empty".into(), |pin| pin.to_string()))
        .collect();
    format!("from the {from}: {}", words.join(", "))
}

/// How a bank stands: `S1: 1 and 2 on, all others off`.
pub fn bank(planned: &PlannedCase<'_>, bank: BankId) -> String {
    let code = &planned.board[bank].code;
    let setting = planned.wiring.switches.iter().find(|setting| setting.bank == bank);
    let positions = setting.map_or(&[][..], |setting| setting.positions.as_slice());
    let on: Vec<u8> = (1..).zip(positions).filter(|(_, on)| **on).map(|(way, _)| way).collect();
    match on.len() {
        0 => format!("{code}: all ways off"),
        all if all == positions.len() => format!("{code}: all ways on"),
        _ => format!("{code}: {} on, all others off", super::ways(&on)),
    }
}

/// What lands where: `L1 on T1, L2 on T2, the neutral (N) on T3, the ground (PE) on TG`.
pub fn landing(board: &Board, supply: SupplyId) -> String {
    let lands = board[supply].lands.iter().zip(&board.terminals);
    let words: Vec<String> = lands
        .filter_map(|(conductor, terminal)| Some((wire((*conductor)?), &terminal.code)))
        .map(|(conductor, code)| format!("{conductor} on {code}"))
        .collect();
    words.join(", ")
}

/// What a meter reads between the terminals: `240 V T1–T2; 120 V T1–T3, T2–T3`. What lies at the
/// same potential is left out.
pub fn house(board: &Board, supply: SupplyId) -> String {
    let supply = &board[supply];
    let landed: Vec<_> = (0..board.terminals.len())
        .map(TerminalId)
        .filter_map(|id| {
            Some((id, supply.system.phasor(supply.lands.get(id.0).copied().flatten()?)?))
        })
        .collect();
    let mut words: Vec<(String, Vec<String>)> = Vec::new();
    for (index, (a, from)) in landed.iter().enumerate() {
        for (b, to) in landed.iter().skip(index + 1) {
            let volts = size(from - to);
            if volts > 1.0 {
                let pair = format!("{}\u{2013}{}", board[*a].code, board[*b].code);
                let volts = whole_volts(Volts(volts));
                match words.iter_mut().find(|(known, _)| *known == volts) {
                    Some((_, pairs)) => pairs.push(pair),
                    None => words.push((volts, vec![pair])),
                }
            }
        }
    }
    let words: Vec<String> =
        words.iter().map(|(volts, pairs)| format!("{volts} {}", pairs.join(", "))).collect();
    words.join("; ")
}

fn plan<'a>(planned: &PlannedCase<'a>, device: Device) -> Option<&'a DevicePlan> {
    planned.wiring.devices.iter().find(|plan| plan.device == device)
}
