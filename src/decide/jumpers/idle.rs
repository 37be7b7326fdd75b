//! The jumpers that nothing hangs on: they stay where they are shipped unless another needs the
//! tab.

use super::state::State;
use crate::board::{Board, GroupId, HandleMap, JumperId};

/// Steps after which the search for free tabs gives up.
const STEPS: usize = 4_000;

/// Idle jumpers on their way to a tab.
pub struct IdleJumpers<'s> {
    board: &'s Board,
    /// Those that no device holds.
    waiting: Vec<JumperId>,
    /// How many jumpers are on each group.
    on_group: HandleMap<GroupId, usize>,
    tabs: bool,
    /// Where each jumper is: those that a device holds stay there.
    groups: HandleMap<JumperId, GroupId>,
    moves: usize,
    steps: usize,
}

impl<'s> IdleJumpers<'s> {
    /// The jumpers that no device of `state` holds.
    pub fn new(state: &State<'s>) -> Self {
        let held = |jumper: JumperId| state.group_of(jumper);
        let groups = HandleMap::of(state.board, |jumper| {
            held(jumper).unwrap_or(state.board[jumper].shipped)
        });
        Self {
            board: state.board,
            waiting: state.board.handles().filter(|jumper| held(*jumper).is_none()).collect(),
            on_group: state.on_group.clone(),
            tabs: state.terms.tabs,
            groups,
            moves: 0,
            steps: 0,
        }
    }

    /// Whether all find a tab with fewer moves than `limit`; with as few as can be.
    pub fn fits(&mut self, limit: usize) -> bool {
        for allowed in 0..limit.min(self.waiting.len() + 1) {
            self.moves = allowed;
            if self.place(0, allowed) {
                return true;
            }
            if self.gave_up() {
                break;
            }
        }
        false
    }

    /// How many of them moved.
    pub fn moves(&self) -> usize {
        self.moves
    }

    /// Where every jumper of the board is, those that a device holds included.
    pub fn groups(&self) -> HandleMap<JumperId, GroupId> {
        self.groups.clone()
    }

    /// Whether the search gave up.
    pub fn gave_up(&self) -> bool {
        self.steps > STEPS
    }

    /// Puts the jumpers from the one at `at` on, with no more moves than these.
    fn place(&mut self, at: usize, moves: usize) -> bool {
        self.steps += 1;
        let Some(id) = self.waiting.get(at).copied() else { return true };
        let jumper = &self.board[id];
        let others = jumper.groups.iter().copied().filter(|group| *group != jumper.shipped);
        for group in std::iter::once(jumper.shipped).chain(others) {
            let cost = usize::from(group != jumper.shipped);
            let free = !self.tabs || self.on_group[group] < usize::from(self.board[group].tabs);
            if cost > moves || !free || self.gave_up() {
                continue;
            }
            self.on_group[group] += 1;
            self.groups[id] = group;
            if self.place(at + 1, moves - cost) {
                return true;
            }
            self.on_group[group] -= 1;
        }
        false
    }
}
