//! What a person has really done.

use super::{CordFit, Mistake, PlannedCase};
use crate::board::{
    BankId, Board, Conductor, Effect, GroupId, HeaderId, LayoutNumber, Meaning, Node, System,
    TerminalId,
};

/// How a board is set up and what is plugged into it, whether that is right or not.
#[derive(Clone, Debug, PartialEq)]
pub struct AsBuilt {
    /// What the house gives.
    pub system: System,
    /// The conductor on each terminal of the board.
    pub lands: Vec<Option<Conductor>>,
    /// The terminal that each link of the board is on.
    pub links: Vec<TerminalId>,
    /// The number that is entered.
    pub layout: LayoutNumber,
    /// The group that each jumper of the board is on.
    pub jumpers: Vec<GroupId>,
    /// Where the cord of each device of the plan is plugged in.
    pub cords: Vec<CordAt>,
    /// The ways of each bank of the board, `true` for on.
    pub ways: Vec<Vec<bool>>,
}

/// A cord in a header.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct CordAt {
    /// The header.
    pub header: HeaderId,
    /// How its wires meet the pins.
    pub fit: CordFit,
}

impl AsBuilt {
    /// Everything as the plan says.
    pub fn as_planned(planned: &PlannedCase<'_>) -> Self {
        let PlannedCase { board, job, layout, wiring } = planned;
        let supply = &board[job.supply.value];
        let cord = |header| CordAt { header, fit: CordFit::Correct };
        Self {
            system: supply.system,
            lands: supply.lands.clone(),
            links: supply.links.clone(),
            layout: layout.number,
            jumpers: wiring.jumpers.iter().map(|plan| plan.group).collect(),
            cords: wiring.devices.iter().map(|device| cord(device.header)).collect(),
            ways: wiring.switches.iter().map(|bank| bank.positions.clone()).collect(),
        }
    }

    /// The same with one mistake.
    pub fn with(&self, planned: &PlannedCase<'_>, mistake: Mistake) -> Self {
        let mut built = self.clone();
        built.make(planned, mistake);
        built
    }

    fn make(&mut self, planned: &PlannedCase<'_>, mistake: Mistake) {
        let board = planned.board;
        match mistake {
            Mistake::Layout(number) => self.layout = number,
            Mistake::Jumper { jumper, on } => set(&mut self.jumpers, jumper.0, on),
            Mistake::JumpersSwapped([a, b]) => swap(&mut self.jumpers, a.0, b.0),
            Mistake::Plug { device, into } => {
                if let Some(cord) = self.cords.get_mut(device) {
                    cord.header = into;
                }
            }
            Mistake::PlugsSwapped([a, b]) => swap(&mut self.cords, a, b),
            Mistake::Way { bank, way } => {
                let ways = self.ways.get_mut(bank.0);
                let at = usize::from(way).checked_sub(1);
                if let Some(on) = ways.zip(at).and_then(|(ways, at)| ways.get_mut(at)) {
                    *on = !*on;
                }
            }
            Mistake::BankAsShipped(bank) => set(&mut self.ways, bank.0, board[bank].shipped()),
            Mistake::Supply(supply) => {
                self.system = board[supply].system;
                self.lands.clone_from(&board[supply].lands);
            }
            Mistake::Missing(terminal) => set(&mut self.lands, terminal.0, None),
            Mistake::Swapped([a, b]) => swap(&mut self.lands, a.0, b.0),
            Mistake::Link { link, on } => set(&mut self.links, link.0, on),
            Mistake::Cord { device, fit } => {
                if let Some(cord) = self.cords.get_mut(device) {
                    cord.fit = fit;
                }
            }
        }
    }

    /// The terminal that a point is joined to.
    pub fn terminal(&self, node: Node) -> Option<TerminalId> {
        match node {
            Node::Terminal(terminal) => Some(terminal),
            Node::Link(link) => self.links.get(link.0).copied(),
        }
    }

    /// How many pumps and blowers may run on high while the heater is on, as the ways stand;
    /// `None` if no switch sets it.
    pub fn allowance(&self, board: &Board) -> Option<u8> {
        let fields = board.banks.iter().enumerate().flat_map(|(bank, it)| {
            it.fields.iter().enumerate().map(move |(field, it)| (BankId(bank), field, it))
        });
        fields.filter(|(_, _, field)| field.effect == Some(Effect::HeaterAllowance)).find_map(
            |(bank, field, _)| match self.meaning(board, bank, field) {
                Some(Meaning::Allowance(number)) => Some(*number),
                _ => None,
            },
        )
    }

    /// What a field of a bank means as its ways stand; `None` if it is not used.
    pub fn meaning<'b>(&self, board: &'b Board, bank: BankId, field: usize) -> Option<&'b Meaning> {
        let field = board[bank].fields.get(field)?;
        let first = usize::from(field.first).checked_sub(1)?;
        let stands = self.ways.get(bank.0)?.get(first..usize::from(field.last))?;
        field.settings.iter().find(|set| set.positions == stands).map(|set| &set.meaning)
    }
}

fn set<T>(all: &mut [T], at: usize, value: T) {
    if let Some(place) = all.get_mut(at) {
        *place = value;
    }
}

fn swap<T>(all: &mut [T], a: usize, b: usize) {
    if a < all.len() && b < all.len() {
        all.swap(a, b);
    }
}
