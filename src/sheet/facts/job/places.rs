//! What is connected, moved and left where it is: supply wires, links, jumpers.

use super::super::supplies::system_volts;
use super::types::{Landing, Lead};
use crate::board::{Board, Conductor, Device, SupplyId, TerminalId};
use crate::decide::Wiring;
use crate::units::Volts;
use crate::words::Words;

/// Every terminal with its wire. The ground wire is connected first.
pub fn landings(words: &Words, board: &Board, supply: SupplyId) -> Vec<Landing> {
    let mut ids: Vec<TerminalId> = (0..board.terminals.len()).map(TerminalId).collect();
    ids.sort_by_key(|id| !board[*id].ground);
    ids.into_iter()
        .map(|id| Landing {
            terminal: board[id].code.clone(),
            ground: board[id].ground,
            wire: board[id].wire.map(|wire| words.wire_colour(wire)),
            conductor: board[supply]
                .lands
                .get(id.0)
                .copied()
                .flatten()
                .map(|conductor| conductor.to_string()),
        })
        .collect()
}

/// The nominal voltages of a supply: line to neutral, and between lines; those that it brings.
pub fn volts(words: &Words, board: &Board, supply: SupplyId) -> String {
    let supply = &board[supply];
    let lines = supply.conductors().iter().filter(|wire| wire.is_line()).count();
    let (to_neutral, between) = system_volts(supply.system);
    let volts = |volts: f64| words.shortest(volts, 0);
    let number = match (lines > 1, supply.has_neutral()) {
        (true, true) => format!("{}/{}", volts(to_neutral), volts(between)),
        (true, false) => volts(between),
        (false, _) => volts(to_neutral),
    };
    words.quantity(&number, Volts::UNIT)
}

/// Every two wires of a supply, between which there must be no voltage.
pub fn pairs(words: &Words, wires: &[Conductor]) -> Vec<String> {
    let mut all = Vec::new();
    for (index, other) in wires.iter().enumerate() {
        for one in wires.iter().take(index) {
            all.push(words.measured_between(&one.to_string(), &other.to_string()));
        }
    }
    all
}

pub fn links(board: &Board, wiring: &Wiring) -> Vec<Lead> {
    wiring
        .links
        .iter()
        .map(|link| Lead {
            code: board[link.link].code.clone(),
            to: board[link.terminal].code.clone(),
            volts: None,
            moved: link.moved,
            shipped: board[board[link.link].shipped].code.clone(),
            feeds: String::new(),
            counts: true,
        })
        .collect()
}

pub fn jumpers(words: &Words, board: &Board, supply: SupplyId, wiring: &Wiring) -> Vec<Lead> {
    wiring
        .jumpers
        .iter()
        .map(|plan| {
            let jumper = &board[plan.jumper];
            let fed: Vec<Device> = wiring
                .devices
                .iter()
                .filter(|device| device.jumper == Some(plan.jumper))
                .map(|device| device.device)
                .collect();
            let fed: Vec<String> = fed.iter().map(|device| words.the_device(*device)).collect();
            Lead {
                code: jumper.code.clone(),
                to: board[plan.group].code.clone(),
                volts: board.group_volts(supply, plan.group).map(|volts| words.whole_volts(volts)),
                moved: plan.moved,
                shipped: board[jumper.shipped].code.clone(),
                feeds: words.and(&fed),
                counts: plan.moved || !fed.is_empty(),
            }
        })
        .collect()
}

/// `3 jumpers, 2 links, 1 switch`; `None` if nothing moves.
pub fn moving(words: &Words, wiring: &Wiring) -> Option<String> {
    let jumpers = wiring.jumpers.iter().filter(|plan| plan.moved).count();
    let links = wiring.links.iter().filter(|plan| plan.moved).count();
    let mut all = Vec::new();
    if jumpers > 0 {
        all.push(words.jumpers_counted(jumpers));
    }
    if links > 0 {
        all.push(words.links_counted(links));
    }
    let switches: usize = wiring.switches.iter().map(|setting| setting.moved.len()).sum();
    if switches > 0 {
        all.push(words.switches_counted(switches));
    }
    (!all.is_empty()).then(|| words.commas(&all))
}
