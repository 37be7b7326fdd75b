//! What a person has really done.

use num_complex::Complex;

use super::super::plan::DeviceId;
use super::{CordFit, Mistake, PlannedCase};
use crate::board::{
    Allowance, BankId, Board, Conductor, Effect, GroupId, HandleMap, HeaderId, JumperId,
    LayoutEntry, LayoutNumber, LinkId, Meaning, Node, SelectorId, System, TerminalId,
};

/// How a board is set up and what is plugged into it, whether that is right or not.
#[derive(Clone, Debug, PartialEq)]
pub struct AsBuilt {
    /// What the house gives.
    pub system: System,
    /// Two lines that are taken from one: the second has the potential of the first, and each is still a
    /// wire of its own.
    pub same_line: Option<[Conductor; 2]>,
    /// Where the neutral goes.
    pub neutral: NeutralPath,
    /// The conductor on each terminal of the board.
    pub lands: HandleMap<TerminalId, Option<Conductor>>,
    /// The terminal that each link of the board is on.
    pub links: HandleMap<LinkId, TerminalId>,
    /// The number that is entered, where it is entered on a panel; see [`AsBuilt::layout`].
    pub entered: LayoutNumber,
    /// The position of each rotary selector of the board.
    pub selectors: HandleMap<SelectorId, usize>,
    /// The group that each jumper of the board is on.
    pub jumpers: HandleMap<JumperId, GroupId>,
    /// Where the cord of each device of the plan is plugged in.
    pub cords: HandleMap<DeviceId, CordAt>,
    /// The ways of each bank of the board, `true` for on.
    pub ways: HandleMap<BankId, Vec<bool>>,
}

/// Where the spa's neutral goes on its way from the ground-fault protection.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NeutralPath {
    /// Through the protection, and nowhere else.
    Right,
    /// Past it, from a bar that it does not watch.
    Past,
    /// Through it, and also to the ground behind it.
    Grounded,
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
            same_line: None,
            neutral: NeutralPath::Right,
            lands: supply.lands.clone(),
            links: supply.links.clone(),
            entered: layout.number,
            selectors: wiring.selector.iter().map(|setting| setting.position).collect(),
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
            Mistake::Layout(number) => self.entered = number,
            Mistake::Selector { selector, position } => self.selectors[selector] = position,
            Mistake::Jumper { jumper, on } => self.jumpers[jumper] = on,
            Mistake::JumpersSwapped([a, b]) => self.jumpers.exchange(a, b),
            Mistake::Plug { device, into } => self.cords[device].header = into,
            Mistake::PlugsSwapped([a, b]) => self.cords.exchange(a, b),
            Mistake::Way { bank, way } => {
                let ways = (1..).zip(&mut self.ways[bank]);
                for (_, on) in ways.filter(|(number, _)| *number == way) {
                    *on = !*on;
                }
            }
            Mistake::BankAsShipped(bank) => self.ways[bank] = board[bank].shipped(),
            Mistake::Supply(supply) => {
                self.system = board[supply].system;
                self.lands.clone_from(&board[supply].lands);
            }
            Mistake::SameLine(both) => self.same_line = Some(both),
            Mistake::NeutralPast => self.neutral = NeutralPath::Past,
            Mistake::NeutralGrounded => self.neutral = NeutralPath::Grounded,
            Mistake::Missing(terminal) => self.lands[terminal] = None,
            Mistake::Swapped([a, b]) => self.lands.exchange(a, b),
            Mistake::Link { link, on } => self.links[link] = on,
            Mistake::Cord { device, fit } => self.cords[device].fit = fit,
        }
    }

    /// The potential of a conductor against the neutral, volts; `None` if the house has none.
    pub fn phasor(&self, conductor: Conductor) -> Option<Complex<f64>> {
        let of = match self.same_line {
            Some([line, taken]) if taken == conductor => line,
            _ => conductor,
        };
        self.system.phasor(of)
    }

    /// The terminal that a point is joined to.
    pub fn terminal(&self, node: Node) -> TerminalId {
        match node {
            Node::Terminal(terminal) => terminal,
            Node::Link(link) => self.links[link],
        }
    }

    /// The layout that the board then has; `None` if ways or selector set none.
    pub fn layout(&self, board: &Board) -> Option<LayoutNumber> {
        match board.layout_entry() {
            LayoutEntry::Panel => Some(self.entered),
            LayoutEntry::Ways { bank, field } => match self.meaning(board, bank, field)? {
                Meaning::Layout(number) => *number,
                _ => None,
            },
            LayoutEntry::Selector(selector) => {
                board[selector].positions.get(self.selectors[selector])?.layout
            }
        }
    }

    /// What may run while the heater is on, as the ways stand; `None` if no switch sets it.
    pub fn allowance(&self, board: &Board) -> Option<Allowance> {
        let fields = board.handles().flat_map(|bank: BankId| {
            board[bank].fields.iter().enumerate().map(move |(field, it)| (bank, field, it))
        });
        fields.filter(|(_, _, field)| field.effect == Some(Effect::HeaterAllowance)).find_map(
            |(bank, field, _)| match self.meaning(board, bank, field) {
                Some(Meaning::Allowance(allowance)) => Some(*allowance),
                _ => None,
            },
        )
    }

    /// What a field of a bank means as its ways stand; `None` if it is not used.
    pub fn meaning<'b>(&self, board: &'b Board, bank: BankId, field: usize) -> Option<&'b Meaning> {
        board[bank].fields.get(field)?.meaning_in(&self.ways[bank])
    }
}
