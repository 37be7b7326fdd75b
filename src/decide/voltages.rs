//! What every group gives under every supply, and what its *common* pin then is.

use std::ops::Index;

use num_complex::Complex;

use crate::board::{Board, Conductor, GroupId, GroupSource, HandleMap, Node, SupplyId, TerminalId};
use crate::units::Volts;

/// A group's voltage under one supply, with its reason.
#[derive(Clone, Debug, PartialEq)]
pub enum GroupVoltage {
    /// It lies between two supply conductors.
    Between {
        /// The magnitude of the difference of their phasors.
        volts: Volts,
        /// The group's two points.
        nodes: [Node; 2],
        /// The conductor that reaches each.
        conductors: [Conductor; 2],
        /// What the *common* pins that hang on the second point are.
        common: Common,
    },
    /// It comes from a transformer or supply unit on the board, whatever the supply.
    Isolated {
        /// What the unit gives.
        volts: Volts,
    },
    /// It gives nothing.
    NotAvailable {
        /// Why.
        because: NoVoltage,
    },
}

/// What a *common* pin is against earth.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Common {
    /// The neutral.
    Neutral,
    /// A line: as dangerous to touch as the other pins.
    Live(Conductor),
}

/// Why a group gives nothing.
#[derive(Clone, Debug, PartialEq)]
pub enum NoVoltage {
    /// No conductor reaches one of its points, or both.
    Missing(Vec<MissingConductor>),
    /// Both points are on the same potential.
    SamePotential {
        /// The conductor that reaches each.
        conductors: [Conductor; 2],
    },
}

/// A terminal that a group needs and that the supply leaves empty.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct MissingConductor {
    /// The terminal.
    pub terminal: TerminalId,
    /// What the board's other supplies land there, in the order L1, L2, L3, L, N; doubles removed.
    pub elsewhere: Vec<Conductor>,
}

impl GroupVoltage {
    /// The voltage, if there is one.
    pub fn volts(&self) -> Option<Volts> {
        match self {
            GroupVoltage::Between { volts, .. } | GroupVoltage::Isolated { volts } => Some(*volts),
            GroupVoltage::NotAvailable { .. } => None,
        }
    }

    /// The line whose voltage is on the *common* pins, if they are live.
    pub fn live_common(&self) -> Option<Conductor> {
        match self {
            GroupVoltage::Between { common: Common::Live(line), .. } => Some(*line),
            _ => None,
        }
    }
}

/// What `group` gives under `supply`.
pub fn group_voltage(board: &Board, supply: SupplyId, group: GroupId) -> GroupVoltage {
    let nodes = match board[group].source {
        GroupSource::Isolated(volts) => return GroupVoltage::Isolated { volts },
        GroupSource::Between { nodes, .. } => nodes,
    };
    let terminals = nodes.map(|node| terminal_of(board, supply, node));
    let landed = nodes.map(|node| board[supply].conductor_at(node));
    let ([Some(a), Some(b)], Some(volts)) = (landed, board.group_volts(supply, group)) else {
        let mut missing: Vec<MissingConductor> = Vec::new();
        for (terminal, conductor) in terminals.into_iter().zip(landed) {
            if conductor.is_none() && missing.iter().all(|m| m.terminal != terminal) {
                missing.push(MissingConductor {
                    terminal,
                    elsewhere: landed_elsewhere(board, terminal),
                });
            }
        }
        return GroupVoltage::NotAvailable { because: NoVoltage::Missing(missing) };
    };
    let conductors = [a, b];
    // The phasors of two different conductors never meet, so half a volt parts "same" from "not".
    if volts.0 < 0.5 {
        return GroupVoltage::NotAvailable { because: NoVoltage::SamePotential { conductors } };
    }
    let common = if b.is_line() { Common::Live(b) } else { Common::Neutral };
    GroupVoltage::Between { volts, nodes, conductors, common }
}

/// What every group of a board gives under one supply: found once, and passed to all that ask.
#[derive(Clone, Debug)]
pub struct SupplyVoltages {
    supply: SupplyId,
    groups: HandleMap<GroupId, GroupVoltage>,
    phasors: HandleMap<GroupId, Option<Complex<f64>>>,
}

impl SupplyVoltages {
    /// Of a supply of a board.
    pub fn of(board: &Board, supply: SupplyId) -> Self {
        let phasor = |group: GroupId| match board[group].source {
            GroupSource::Between { nodes, .. } => board[supply].between(nodes),
            GroupSource::Isolated(_) => None,
        };
        Self {
            supply,
            groups: HandleMap::of(board, |group| group_voltage(board, supply, group)),
            phasors: HandleMap::of(board, phasor),
        }
    }

    /// The supply.
    pub fn supply(&self) -> SupplyId {
        self.supply
    }

    /// The voltage of a group, if there is one.
    pub fn volts(&self, group: GroupId) -> Option<Volts> {
        self[group].volts()
    }

    /// The voltage of a group from its second point to its first, as a phasor in volts; `None` if
    /// no conductor reaches one of them, or if it is apart from the mains.
    pub fn phasor(&self, group: GroupId) -> Option<Complex<f64>> {
        self.phasors[group]
    }

    /// Every group with what it gives, in the specification's order of groups.
    pub fn iter(&self) -> impl Iterator<Item = (GroupId, &GroupVoltage)> {
        self.groups.entries()
    }
}

impl Index<GroupId> for SupplyVoltages {
    type Output = GroupVoltage;

    fn index(&self, group: GroupId) -> &GroupVoltage {
        &self.groups[group]
    }
}

/// The terminal that a point is joined to under `supply`.
fn terminal_of(board: &Board, supply: SupplyId, node: Node) -> TerminalId {
    match node {
        Node::Terminal(terminal) => terminal,
        Node::Link(link) => board[supply].links[link],
    }
}

fn landed_elsewhere(board: &Board, terminal: TerminalId) -> Vec<Conductor> {
    let node = Node::Terminal(terminal);
    let mut all: Vec<_> =
        board.supplies.iter().filter_map(|supply| supply.conductor_at(node)).collect();
    all.sort();
    all.dedup();
    all
}

#[cfg(test)]
mod tests {
    use super::super::sample::{group, heron, supply};
    use super::*;

    #[track_caller]
    fn near(found: &GroupVoltage, volts: f64) {
        let found = found.volts().expect("available").0;
        assert!((found - volts).abs() < 0.005, "{found}");
    }

    #[test]
    fn a_group_between_lines_has_a_live_common() {
        let board = heron(&[]);
        let of = |s, g| group_voltage(&board, supply(&board, s), group(&board, g));
        let (a, b) = (of("four-wire", "A"), of("four-wire", "B"));
        near(&a, 240.0);
        near(&b, 120.0);
        assert_eq!(a.live_common(), Some(Conductor::L2));
        assert_eq!(b.live_common(), None);
        // sqrt(3) times 120.
        near(&of("wye", "A"), 207.846);
        assert_eq!(of("wye", "A").live_common(), Some(Conductor::L2));
        let GroupVoltage::Between { conductors, common, .. } = b else { panic!("{b:?}") };
        assert_eq!(conductors, [Conductor::L1, Conductor::N]);
        assert_eq!(common, Common::Neutral);
    }

    #[test]
    fn a_group_without_its_neutral_says_what_is_missing() {
        let board = heron(&[]);
        let found = group_voltage(&board, supply(&board, "three-wire"), group(&board, "B"));
        let GroupVoltage::NotAvailable { because: NoVoltage::Missing(missing) } = found else {
            panic!("{found:?}")
        };
        let [one] = missing.as_slice() else { panic!("{missing:?}") };
        assert_eq!(board[one.terminal].code, "T3");
        assert_eq!(one.elsewhere, [Conductor::N]);
    }

    #[test]
    fn an_isolated_group_has_its_own_voltage_under_every_supply() {
        let board = heron(&[("between: [T1, T3], volts: 120", "isolated: 12 V")]);
        for found in (0..3).map(|s| group_voltage(&board, SupplyId(s), group(&board, "B"))) {
            assert_eq!(found, GroupVoltage::Isolated { volts: Volts(12.0) });
        }
    }
}
