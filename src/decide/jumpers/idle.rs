//! The jumpers that nothing hangs on: they stay where they are shipped unless another needs the
//! tab.

use super::state::State;
use crate::board::{Board, GroupId};

/// Steps after which the search for free tabs gives up.
const STEPS: usize = 4_000;

/// Idle jumpers on their way to a tab.
pub struct Idle<'s> {
    board: &'s Board,
    waiting: Vec<usize>,
    on_group: Vec<usize>,
    tabs: bool,
    groups: Vec<Option<GroupId>>,
    moves: usize,
    steps: usize,
}

impl<'s> Idle<'s> {
    /// The jumpers that no device of `state` holds.
    pub fn new(state: &State<'s>) -> Self {
        let waiting = state.jumpers.iter().enumerate().filter(|(_, on)| on.is_none());
        Self {
            board: state.board,
            waiting: waiting.map(|(index, _)| index).collect(),
            on_group: state.on_group.clone(),
            tabs: state.terms.tabs,
            groups: vec![None; state.jumpers.len()],
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

    /// Where a jumper went.
    pub fn group(&self, jumper: usize) -> Option<GroupId> {
        self.groups.get(jumper).copied().flatten()
    }

    /// Whether the search gave up.
    pub fn gave_up(&self) -> bool {
        self.steps > STEPS
    }

    fn place(&mut self, at: usize, moves: usize) -> bool {
        self.steps += 1;
        let Some(index) = self.waiting.get(at).copied() else { return true };
        let Some(jumper) = self.board.jumpers.get(index) else { return false };
        let others = jumper.groups.iter().copied().filter(|group| *group != jumper.shipped);
        for group in std::iter::once(jumper.shipped).chain(others) {
            let cost = usize::from(group != jumper.shipped);
            let used = self.on_group.get(group.0).copied().unwrap_or(0);
            let free = !self.tabs || used < usize::from(self.board[group].tabs);
            if cost > moves || !free || self.gave_up() {
                continue;
            }
            if let (Some(count), Some(on)) =
                (self.on_group.get_mut(group.0), self.groups.get_mut(index))
            {
                *count += 1;
                *on = Some(group);
            }
            if self.place(at + 1, moves - cost) {
                return true;
            }
            if let Some(count) = self.on_group.get_mut(group.0) {
                *count -= 1;
            }
        }
        false
    }
}
