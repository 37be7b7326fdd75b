//! What to check, and what right looks like.

use super::way_numbers;
use crate::board::voltage::magnitude;
use crate::board::{BankId, Board, Device, LayoutEntry, Node, Pin, SupplyId, TerminalId};
use crate::decide::faults::CheckTarget;
use crate::decide::mistakes::PlannedCase;
use crate::decide::{DevicePlan, PinOrder};
use crate::words::Words;

/// What right looks like for a job: `W3 on group B`.
pub fn look(words: &Words, planned: &PlannedCase<'_>, target: CheckTarget) -> String {
    let board = planned.board;
    match target {
        CheckTarget::Layout => words.layout_number(&layout(words, planned)),
        CheckTarget::Jumper(jumper) => {
            let plan = planned.wiring.jumpers.iter().find(|plan| plan.jumper == jumper);
            let group = plan.map_or("", |plan| board[plan.group].code.as_str());
            words.jumper_on(&board[jumper].code, group)
        }
        CheckTarget::Plug(device) => {
            let header = plan(planned, device).map_or("", |plan| board[plan.header].code.as_str());
            words.plug_of_in(device, header)
        }
        CheckTarget::Cord(device) => match plan(planned, device) {
            Some(plan) => {
                let keyed = board[board[plan.header].socket].key_drawn.is_some();
                let pins = pins(words, &plan.pins);
                words.cord_seen(device, &board[plan.header].code, keyed, &pins)
            }
            None => words.the_device(device),
        },
        CheckTarget::Bank(it) => bank(words, planned, it),
        CheckTarget::Link(link) => {
            let plan = planned.wiring.links.iter().find(|plan| plan.link == link);
            let on = plan.map_or("", |plan| board[plan.terminal].code.as_str());
            words.link_on(&board[link].code, on)
        }
        CheckTarget::Landing => landing(words, board, planned.job.supply.value),
        CheckTarget::NeutralPath => words.neutral_path(),
        CheckTarget::NeutralGround => words.neutral_ground(),
        CheckTarget::House => house(words, board, planned.job.supply.value),
    }
}

/// The layout number of a job, and how it is set where it is not entered on a panel: `10 (S2 at A)`.
pub fn layout(words: &Words, planned: &PlannedCase<'_>) -> String {
    let board = planned.board;
    let number = planned.layout.number.to_string();
    let how = match board.layout_entry() {
        LayoutEntry::Panel => None,
        LayoutEntry::Ways { bank, field } => {
            let setting = planned.wiring.switches.iter().find(|setting| setting.bank == bank);
            let stands = board[bank].fields.get(field).zip(setting);
            stands.map(|(field, setting)| {
                let ways = (1..).zip(&setting.positions);
                let ours = ways.filter(|(way, _)| (field.first..=field.last).contains(way));
                let all: Vec<String> =
                    ours.map(|(way, on)| words.set_way(usize::from(way), *on)).collect();
                words.switches_at(&board[bank].code, &words.commas(&all))
            })
        }
        LayoutEntry::Selector(id) => {
            let position = planned.wiring.selector.map(|setting| setting.position);
            let position = position.and_then(|at| board[id].positions.get(at));
            position.map(|position| words.selector_at(&board[id].code, &position.name))
        }
    };
    match how {
        Some(how) => words.layout_set(&number, &how),
        None => number,
    }
}

/// The pins of a cord as they are seen: `from the left: ground, common, empty, high`.
pub fn pins(words: &Words, order: &PinOrder) -> String {
    let name = |pin: &Option<Pin>| {
        pin.map_or_else(|| words.cavity_empty(), |pin: Pin| words.pin_name(pin))
    };
    let all: Vec<String> = order.pins.iter().map(name).collect();
    words.pins_from(order.read_from, &words.commas(&all))
}

/// How a bank stands: `S1: 1 and 2 on, all others off`.
pub fn bank(words: &Words, planned: &PlannedCase<'_>, bank: BankId) -> String {
    let code = &planned.board[bank].code;
    let setting = planned.wiring.switches.iter().find(|setting| setting.bank == bank);
    let positions = setting.map_or(&[][..], |setting| setting.positions.as_slice());
    let on: Vec<u8> = (1..).zip(positions).filter(|(_, on)| **on).map(|(way, _)| way).collect();
    match on.len() {
        0 => words.bank_all_off(code),
        all if all == positions.len() => words.bank_all_on(code),
        some => words.bank_some_on(code, some, &way_numbers(words, &on)),
    }
}

/// What lands where: `L1 on T1, L2 on T2, the neutral (N) on T3, the ground (PE) on TG`.
fn landing(words: &Words, board: &Board, supply: SupplyId) -> String {
    let lands = board[supply].lands.iter().zip(&board.terminals);
    let all: Vec<String> = lands
        .filter_map(|(conductor, terminal)| Some(((*conductor)?, &terminal.code)))
        .map(|(conductor, code)| words.wire_on(&words.wire_name(conductor), code))
        .collect();
    words.commas(&all)
}

/// The same by letters, of the terminals that are `wanted` or else of all: `L1 on T1, N on T3`. A
/// terminal that nothing lands on is named.
pub fn landing_of(words: &Words, board: &Board, supply: SupplyId, wanted: &[TerminalId]) -> String {
    let lands = board[supply].lands.iter().zip(&board.terminals).enumerate();
    let all: Vec<String> = lands
        .filter(|(index, (conductor, _))| match wanted {
            [] => conductor.is_some(),
            wanted => wanted.contains(&TerminalId(*index)),
        })
        .map(|(_, (conductor, terminal))| {
            let wire = conductor.map_or_else(|| words.no_wire(), |wire| wire.to_string());
            words.wire_on(&wire, &terminal.code)
        })
        .collect();
    words.commas(&all)
}

/// What a meter reads between all terminals under a supply.
fn house(words: &Words, board: &Board, supply: SupplyId) -> String {
    expected(words, board, &[supply], &[])
}

/// `T1 to T2: 240 V; T1 to T3, T2 to T3: 120 V`: what is expected between the pairs of terminals
/// that are `wanted`, all of them if there are none; with several supplies, `240 V or 208 V`. Where a
/// pair has a voltage under some supplies alone, these are named.
pub fn expected(
    words: &Words,
    board: &Board,
    supplies: &[SupplyId],
    wanted: &[(TerminalId, TerminalId)],
) -> String {
    let ids = || (0..board.terminals.len()).map(TerminalId);
    let pairs = ids().flat_map(|a| ids().map(move |b| (a, b))).filter(|(a, b)| a < b);
    let pairs = pairs.filter(|pair| wanted.is_empty() || wanted.contains(pair));
    let mut found: Vec<(String, Vec<String>)> = Vec::new();
    for (a, b) in pairs {
        let mut volts: Vec<String> = Vec::new();
        let (mut under, mut lacking) = (Vec::new(), Vec::new());
        for supply in supplies {
            let between = board[*supply].between([Node::Terminal(a), Node::Terminal(b)]);
            let title = words.quoted(&board[*supply].title);
            let Some(size) = between.map(magnitude).filter(|size| size.0 > 1.0) else {
                lacking.push(title);
                continue;
            };
            under.push(title);
            let said = words.whole_volts(size);
            if !volts.contains(&said) {
                volts.push(said);
            }
        }
        if volts.is_empty() {
            continue;
        }
        let volts = words.or(&volts);
        // The fewer are named: those that have it, or those that lack it.
        let volts = match lacking.len() {
            0 => volts,
            lack if lack < under.len() => words.volts_not_under(&volts, &words.or(&lacking)),
            _ => words.volts_under(&volts, &words.or(&under)),
        };
        let pair = words.terminal_pair(&board[a].code, &board[b].code);
        match found.iter_mut().find(|(known, _)| *known == volts) {
            Some((_, pairs)) => pairs.push(pair),
            None => found.push((volts, vec![pair])),
        }
    }
    let all = found.iter().map(|(volts, pairs)| words.pairs_and_volts(&words.commas(pairs), volts));
    all.reduce(|listed, next| words.semicolon(&listed, &next)).unwrap_or_default()
}

fn plan<'a>(planned: &PlannedCase<'a>, device: Device) -> Option<&'a DevicePlan> {
    planned.wiring.devices.iter().find(|plan| plan.device == device)
}
