//! How a board is set up for one job, as far as the plan shows it.

use crate::board::{
    Board, Device, Feed, FuseId, GroupId, HeaderId, JumperId, LinkId, SupplyId, TerminalId,
};
use crate::decide::Wiring;

use super::wording::Type;

/// What the plan shows.
#[derive(Clone, Copy, Debug)]
pub enum Show<'a> {
    /// The board as it is delivered, and everything that may be moved.
    Board,
    /// What one job uses.
    Job(&'a Setup),
}

impl Show<'_> {
    /// How large its words are set: an insert is read at arm's length.
    pub fn type_sizes(&self) -> Type {
        match self {
            Show::Board => Type::SHEET,
            Show::Job(_) => Type::INSERT,
        }
    }
}

/// What a job uses of a board.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Setup {
    /// How it is fed.
    pub supply: SupplyId,
    /// What is plugged in at each header; `None` where it stays empty.
    headers: Vec<Option<Device>>,
    /// The group of each jumper.
    jumpers: Vec<GroupId>,
    /// The position of the rotary selector, if the board has one.
    pub selector: Option<usize>,
}

/// How a component is shown.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Strength {
    /// As something that matters.
    Full,
    /// As something that is there and does nothing.
    Faint,
    /// As a header that nothing may be plugged into.
    Empty,
}

impl Setup {
    /// What the wiring of a job uses under a supply.
    pub fn of(board: &Board, supply: SupplyId, wiring: &Wiring) -> Self {
        let device = |header| {
            wiring.devices.iter().find(|plan| plan.header == header).map(|plan| plan.device)
        };
        let group = |index: usize| {
            let planned = wiring.jumpers.iter().find(|plan| plan.jumper == JumperId(index));
            planned.map_or(board[JumperId(index)].shipped, |plan| plan.group)
        };
        Self {
            supply,
            headers: board.header_ids().map(device).collect(),
            jumpers: (0..board.jumpers.len()).map(group).collect(),
            selector: wiring.selector.map(|setting| setting.position),
        }
    }

    /// What is plugged in.
    pub fn device(&self, header: HeaderId) -> Option<Device> {
        self.headers.get(header.0).copied().flatten()
    }

    /// Where a jumper is.
    pub fn group(&self, board: &Board, jumper: JumperId) -> GroupId {
        self.jumpers.get(jumper.0).copied().unwrap_or(board[jumper].shipped)
    }

    /// Where a link is.
    pub fn terminal(&self, board: &Board, link: LinkId) -> TerminalId {
        board[self.supply].links[link]
    }

    /// Whether something is plugged in behind it.
    pub fn uses_jumper(&self, board: &Board, jumper: JumperId) -> bool {
        self.used(board, |header| board[header].feed == Feed::Jumper(jumper))
    }

    /// Whether something is plugged in behind it.
    pub fn uses_fuse(&self, board: &Board, fuse: FuseId) -> bool {
        self.used(board, |header| board[header].fuse == Some(fuse))
    }

    /// Whether something that is plugged in is fed from it.
    pub fn uses_group(&self, board: &Board, group: GroupId) -> bool {
        self.used(board, |header| match board[header].feed {
            Feed::Group(fed) => fed == group,
            Feed::Jumper(jumper) => self.group(board, jumper) == group,
        })
    }

    fn used(&self, board: &Board, behind: impl Fn(HeaderId) -> bool) -> bool {
        board.header_ids().any(|header| self.device(header).is_some() && behind(header))
    }
}
