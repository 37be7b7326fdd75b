//! Supplies, groups and links for a template.

use minijinja::Value;
use serde::Serialize;

use super::socket_link;
use crate::board::{Board, Feed, GroupId, GroupSource, HeaderId, Node, SupplyId, System};
use crate::decide::{GroupVoltage, SupplyVoltages, group_voltage};
use crate::standards::nominal;
use crate::units::Volts;
use crate::words::Words;

#[derive(Serialize)]
pub struct Supply {
    title: String,
    system: String,
    /// Number from 1, for the figure's name.
    number: usize,
    has_neutral: bool,
    landings: Vec<Landing>,
    /// Where each link must be.
    links: Vec<LinkPosition>,
    /// The most that one of its wires may carry.
    max_current: Option<String>,
    /// Codes of groups that give nothing.
    missing_groups: Vec<String>,
    /// Headers that can get no voltage at all.
    dead_headers: Vec<DeadHeader>,
    /// Headers that are shipped on a group that gives nothing, and can be moved to one that does.
    stranded: Vec<Stranded>,
    /// Groups whose *common* pin is live.
    live_groups: Vec<LiveGroup>,
}

#[derive(Serialize)]
struct Landing {
    terminal: String,
    wire: Option<String>,
    ground: bool,
    /// `None` if nothing lands there.
    conductor: Option<String>,
    /// Its letters alone: `L1`.
    letters: Option<String>,
}

#[derive(Serialize)]
struct LinkPosition {
    code: String,
    terminal: String,
}

#[derive(Serialize)]
struct DeadHeader {
    link: Value,
    title: String,
}

#[derive(Serialize)]
struct Stranded {
    link: Value,
    title: String,
    jumper: String,
    choices: Vec<StrandedChoice>,
}

#[derive(Serialize)]
struct StrandedChoice {
    group: String,
    volts: String,
}

#[derive(Serialize)]
struct LiveGroup {
    code: String,
    line: String,
}

pub fn supplies(words: &Words, board: &Board) -> Vec<Supply> {
    (0..board.supplies.len()).map(|index| supply(words, board, SupplyId(index))).collect()
}

fn supply(words: &Words, board: &Board, id: SupplyId) -> Supply {
    let supply = &board[id];
    let voltages = SupplyVoltages::of(board, id);
    let gives_nothing =
        |group: GroupId| matches!(voltages[group], GroupVoltage::NotAvailable { .. });
    let dead = |header: &HeaderId| board.groups_of(*header).into_iter().all(gives_nothing);
    Supply {
        title: supply.title.clone(),
        system: system_words(words, supply.system),
        number: id.0 + 1,
        has_neutral: supply.has_neutral(),
        landings: board
            .terminals
            .iter()
            .zip(&supply.lands)
            .map(|(terminal, conductor)| Landing {
                terminal: terminal.code.clone(),
                wire: terminal.wire.map(|wire| words.colour_and_letters(wire)),
                ground: terminal.ground,
                letters: conductor.map(|one| one.to_string()),
                conductor: conductor.map(|one| {
                    words.conductor_and_name(&one.to_string(), &words.conductor_name(one))
                }),
            })
            .collect(),
        links: board
            .links
            .iter()
            .zip(&supply.links)
            .map(|(link, position)| LinkPosition {
                code: link.code.clone(),
                terminal: board[*position].code.clone(),
            })
            .collect(),
        max_current: board.max_current(id).map(|amps| words.amps(amps)),
        missing_groups: voltages
            .iter()
            .filter(|(_, voltage)| voltage.volts().is_none())
            .map(|(group, _)| board[group].code.clone())
            .collect(),
        dead_headers: board
            .header_ids()
            .filter(dead)
            .map(|header| DeadHeader {
                link: socket_link(&board[header].code),
                title: board[header].title.clone(),
            })
            .collect(),
        stranded: board
            .header_ids()
            .filter_map(|header| stranded(words, board, id, header))
            .collect(),
        live_groups: voltages
            .iter()
            .filter_map(|(group, voltage)| {
                let line = voltage.live_common()?;
                Some(LiveGroup { code: board[group].code.clone(), line: line.to_string() })
            })
            .collect(),
    }
}

/// The header, if its jumper is shipped on a group that gives nothing here and may go to others
/// that do.
fn stranded(words: &Words, board: &Board, supply: SupplyId, header: HeaderId) -> Option<Stranded> {
    let Feed::Jumper(jumper) = board[header].feed else { return None };
    let volts = |group: GroupId| group_voltage(board, supply, group).volts();
    if volts(board[jumper].shipped).is_some() {
        return None;
    }
    let choices: Vec<_> = board[jumper]
        .groups
        .iter()
        .filter_map(|group| {
            let volts = words.whole_volts(volts(*group)?);
            Some(StrandedChoice { group: board[*group].code.clone(), volts })
        })
        .collect();
    (!choices.is_empty()).then(|| Stranded {
        link: socket_link(&board[header].code),
        title: board[header].title.clone(),
        jumper: board[jumper].code.clone(),
        choices,
    })
}

/// Nominal voltages of a system: line to neutral, and between two lines, by the line-to-line voltage
/// as people round it: 120/208, 230/400. One line has the same twice.
pub fn system_volts(system: System) -> (f64, f64) {
    match system {
        System::SplitPhase { to_neutral: Volts(v) } => (v, 2.0 * v),
        System::Wye { to_neutral: Volts(v) } => (v, nominal(Volts(v * libm::sqrt(3.0))).0),
        System::SinglePhase { to_neutral: Volts(v) } => (v, v),
    }
}

pub fn system_words(words: &Words, system: System) -> String {
    let volts = |v: f64| words.shortest(v, 0);
    match system {
        System::SplitPhase { to_neutral: Volts(v) } => {
            words.split_phase(&format!("{}/{}", volts(v), volts(2.0 * v)))
        }
        System::Wye { to_neutral: Volts(v) } => {
            words.wye(&format!("{}/{}", volts(v), volts(system_volts(system).1)))
        }
        System::SinglePhase { to_neutral: Volts(v) } => words.single_phase(&volts(v)),
    }
}

#[derive(Serialize)]
pub struct Group {
    code: String,
    part: String,
    tabs: u8,
    isolated: bool,
    /// Under each supply: the voltage, and between which conductors.
    under: Vec<GroupUnder>,
    /// Jumpers that may go to it.
    jumpers: Vec<String>,
    /// Headers that are on it for good.
    headers: Vec<Value>,
    /// What it lies between: `T1 and T2`.
    between: Option<String>,
}

#[derive(Serialize)]
struct GroupUnder {
    volts: Option<String>,
    /// `L1 and L2`.
    conductors: Option<String>,
    common_live: bool,
}

pub fn groups(words: &Words, board: &Board) -> Vec<Group> {
    (0..board.groups.len())
        .map(GroupId)
        .map(|id| {
            let group = &board[id];
            Group {
                code: group.code.clone(),
                part: super::part_title(words, &board[group.part]),
                tabs: group.tabs,
                isolated: matches!(group.source, GroupSource::Isolated(_)),
                under: (0..board.supplies.len())
                    .map(|supply| group_under(words, &group_voltage(board, SupplyId(supply), id)))
                    .collect(),
                jumpers: board
                    .jumpers
                    .iter()
                    .filter(|jumper| jumper.groups.contains(&id))
                    .map(|jumper| jumper.code.clone())
                    .collect(),
                headers: board
                    .headers
                    .iter()
                    .filter(|header| header.feed == Feed::Group(id))
                    .map(|header| socket_link(&header.code))
                    .collect(),
                between: match group.source {
                    GroupSource::Isolated(_) => None,
                    GroupSource::Between { nodes: [a, b], .. } => {
                        Some(words.and_two(node_code(board, a), node_code(board, b)))
                    }
                },
            }
        })
        .collect()
}

fn group_under(words: &Words, voltage: &GroupVoltage) -> GroupUnder {
    let conductors = match voltage {
        GroupVoltage::Between { conductors: [a, b], .. } => {
            Some(words.and_two(&a.to_string(), &b.to_string()))
        }
        _ => None,
    };
    GroupUnder {
        volts: voltage.volts().map(|volts| words.whole_volts(volts)),
        conductors,
        common_live: voltage.live_common().is_some(),
    }
}

fn node_code(board: &Board, node: Node) -> &str {
    match node {
        Node::Terminal(id) => &board[id].code,
        Node::Link(id) => &board[id].code,
    }
}

#[derive(Serialize)]
pub struct Link {
    code: String,
    part: String,
    positions: Vec<String>,
    shipped: String,
}

pub fn links(words: &Words, board: &Board) -> Vec<Link> {
    board
        .links
        .iter()
        .map(|link| Link {
            code: link.code.clone(),
            part: super::part_title(words, &board[link.part]),
            positions: link.positions.iter().map(|id| board[*id].code.clone()).collect(),
            shipped: board[link.shipped].code.clone(),
        })
        .collect()
}
