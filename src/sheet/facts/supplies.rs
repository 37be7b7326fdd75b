//! Supplies, groups and links for a template.

use minijinja::Value;
use serde::Serialize;

use super::socket_link;
use crate::board::{
    Board, Conductor, Feed, GroupId, GroupSource, HeaderId, Node, SupplyId, System,
};
use crate::decide::{GroupVoltage, group_voltage, group_voltages};
use crate::figure::whole_volts;
use crate::units::shortest;
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

pub fn supplies(board: &Board) -> Vec<Supply> {
    (0..board.supplies.len()).map(|index| supply(board, SupplyId(index))).collect()
}

fn supply(board: &Board, id: SupplyId) -> Supply {
    let supply = &board[id];
    let voltages = group_voltages(board, id);
    let gives_nothing = |group: GroupId| {
        matches!(group_voltage(board, id, group), GroupVoltage::NotAvailable { .. })
    };
    let dead = |header: &HeaderId| board.groups_of(*header).into_iter().all(gives_nothing);
    Supply {
        title: supply.title.clone(),
        system: system_words(supply.system),
        number: id.0 + 1,
        has_neutral: supply.has_neutral(),
        landings: board
            .terminals
            .iter()
            .zip(&supply.lands)
            .map(|(terminal, conductor)| Landing {
                terminal: terminal.code.clone(),
                wire: terminal.wire.map(|wire| format!("{} ({})", wire.words, wire.letters)),
                ground: terminal.ground,
                conductor: conductor.map(conductor_words),
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
        missing_groups: voltages
            .iter()
            .filter(|(_, voltage)| voltage.volts().is_none())
            .map(|(group, _)| board[*group].code.clone())
            .collect(),
        dead_headers: board
            .header_ids()
            .filter(dead)
            .map(|header| DeadHeader {
                link: socket_link(&board[header].code),
                title: board[header].title.clone(),
            })
            .collect(),
        stranded: board.header_ids().filter_map(|header| stranded(board, id, header)).collect(),
        live_groups: voltages
            .iter()
            .filter_map(|(group, voltage)| {
                let line = voltage.live_common()?;
                Some(LiveGroup { code: board[*group].code.clone(), line: line.to_string() })
            })
            .collect(),
    }
}

/// The header, if its jumper is shipped on a group that gives nothing here and may go to others
/// that do.
fn stranded(board: &Board, supply: SupplyId, header: HeaderId) -> Option<Stranded> {
    let Feed::Jumper(jumper) = board[header].feed else { return None };
    let volts = |group: GroupId| group_voltage(board, supply, group).volts();
    if volts(board[jumper].shipped).is_some() {
        return None;
    }
    let choices: Vec<_> = board[jumper]
        .groups
        .iter()
        .filter_map(|group| {
            let volts = whole_volts(volts(*group)?);
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

/// `L1, line 1`: the letters on the conductor and what they mean.
fn conductor_words(conductor: Conductor) -> String {
    let words = match conductor {
        Conductor::L1 => "line 1",
        Conductor::L2 => "line 2",
        Conductor::L3 => "line 3",
        Conductor::L => "line",
        Conductor::N => "neutral",
        Conductor::Pe => "protective earth",
    };
    format!("{conductor}, {words}")
}

fn system_words(system: System) -> String {
    let volts = |v: f64| shortest(v, 0);
    match system {
        System::SplitPhase { to_neutral } => {
            format!("{}/{} V, split phase", volts(to_neutral.0), volts(2.0 * to_neutral.0))
        }
        System::Wye { to_neutral } => {
            // Named by the line-to-line voltage as people round it: 120/208, 230/400.
            let line = to_neutral.0 * libm::sqrt(3.0);
            let nominal = if (line - 400.0).abs() < 2.0 { 400.0 } else { line };
            format!("{}/{} V, wye", volts(to_neutral.0), volts(nominal))
        }
        System::SinglePhase { to_neutral } => format!("{} V, single phase", volts(to_neutral.0)),
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

pub fn groups(board: &Board) -> Vec<Group> {
    (0..board.groups.len())
        .map(GroupId)
        .map(|id| {
            let group = &board[id];
            Group {
                code: group.code.clone(),
                part: super::part_title(&Words::english(), &board[group.part]),
                tabs: group.tabs,
                isolated: matches!(group.source, GroupSource::Isolated(_)),
                under: (0..board.supplies.len())
                    .map(|supply| group_under(&group_voltage(board, SupplyId(supply), id)))
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
                        Some(format!("{} and {}", node_code(board, a), node_code(board, b)))
                    }
                },
            }
        })
        .collect()
}

fn group_under(voltage: &GroupVoltage) -> GroupUnder {
    let conductors = match voltage {
        GroupVoltage::Between { conductors: [a, b], .. } => Some(format!("{a} and {b}")),
        _ => None,
    };
    GroupUnder {
        volts: voltage.volts().map(whole_volts),
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

pub fn links(board: &Board) -> Vec<Link> {
    board
        .links
        .iter()
        .map(|link| Link {
            code: link.code.clone(),
            part: super::part_title(&Words::english(), &board[link.part]),
            positions: link.positions.iter().map(|id| board[*id].code.clone()).collect(),
            shipped: board[link.shipped].code.clone(),
        })
        .collect()
}
