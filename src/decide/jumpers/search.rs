//! The exact search for the best places and groups: depth first, with bounds.
//!
//! A state that adds a device to a conductor can leave the device off, so the worst current of a
//! part of the devices is never more than that of all of them: it bounds what can still come.
//!
//! 1. The smallest needed current is found, from the largest device down, trying first what adds
//!    least. Groups on the same conductors are one here, and so are headers that differ in nothing
//!    that a current depends on.
//! 2. In the same way the fewest moves are found of all that need no more than that.
//! 3. The first choice in order is found that has both.
//!
//! All this leaves the tabs out of account. If what is found lacks no tab, nothing better can be
//! had with them. If it does, the search starts anew with every group and every tab for itself.

use super::super::layout::Slot;
use super::idle::Idle;
use super::plugs::Plug;
use super::state::{State, micro};
use crate::board::{Board, GroupId, Supply};
use crate::units::Amps;

/// Steps after which a search gives up and takes the best that it has found. No sensible board
/// comes near.
const STEPS: usize = 300_000;

/// What a choice must keep to.
#[derive(Clone, Copy, Debug)]
pub struct Terms {
    /// The heater allowance; `None` if the board sets no limit.
    pub allowance: Option<u8>,
    /// The most that may count on a line.
    pub counted: Option<Amps>,
    /// The most that a line may really carry.
    pub line: Option<Amps>,
    /// The most that a neutral may really carry.
    pub neutral: Option<Amps>,
    /// Whether each jumper needs a tab of its own.
    pub tabs: bool,
    /// Whether headers and fuses must carry what they get.
    pub ratings: bool,
}

/// A choice of places and groups.
#[derive(Clone, Debug)]
pub struct Solution {
    /// For each plug, which of its places and which of that place's options.
    pub plugs: Vec<(usize, usize)>,
    /// The group of each jumper of the board.
    pub jumpers: Vec<GroupId>,
    /// Whether no other choice is better. False only where the search gave up.
    pub optimal: bool,
}

/// The best choice within `terms`: the smallest needed current, then the fewest moves, then the
/// first in order. `None` if there is none.
pub fn best(
    board: &Board,
    supply: &Supply,
    slots: &[Slot],
    plugs: &[Plug],
    terms: Terms,
) -> Option<Solution> {
    let free = Terms { tabs: false, ..terms };
    let mut search = Search::new(State::new(board, supply, slots, plugs, free));
    search.heaviest_first();
    search.least_needed(0);
    // What cannot be had without regard to the tabs cannot be had at all.
    let rough = search.found.take()?;
    search.start_anew();
    search.fewest_moves_roughly(0, 0);
    search.start_anew();
    search.order = (0..plugs.len()).collect();
    search.enough = search.moves;
    search.moves = search.moves.saturating_add(1);
    search.fewest_moves(0, 0);
    let found = search.found.take().unwrap_or(rough);
    let found = Solution { optimal: !search.gave_up, ..found };
    if !terms.tabs || has_tabs(board, &found.jumpers) {
        return Some(found);
    }
    let mut search = Search::new(State::new(board, supply, slots, plugs, terms));
    search.heaviest_first();
    search.least_needed(0);
    let rough = search.found.take()?;
    search.start_anew();
    search.order = (0..plugs.len()).collect();
    search.moves = usize::MAX;
    search.fewest_moves(0, 0);
    let found = search.found.take().unwrap_or(rough);
    Some(Solution { optimal: !search.gave_up, ..found })
}

fn has_tabs(board: &Board, jumpers: &[GroupId]) -> bool {
    board.groups.iter().enumerate().all(|(index, group)| {
        jumpers.iter().filter(|on| **on == GroupId(index)).count() <= usize::from(group.tabs)
    })
}

struct Search<'a> {
    state: State<'a>,
    order: Vec<usize>,
    /// The smallest needed current so far, microamps.
    least: u64,
    /// The fewest moves so far.
    moves: usize,
    /// So few moves that none can be fewer.
    enough: usize,
    found: Option<Solution>,
    steps: usize,
    gave_up: bool,
}

impl<'a> Search<'a> {
    fn new(state: State<'a>) -> Self {
        Self {
            state,
            order: Vec::new(),
            least: u64::MAX,
            moves: usize::MAX,
            enough: 0,
            found: None,
            steps: 0,
            gave_up: false,
        }
    }

    fn start_anew(&mut self) {
        self.steps = 0;
    }

    /// Counts a step; whether there have been too many.
    fn step(&mut self) -> bool {
        self.steps += 1;
        self.gave_up |= self.steps > STEPS;
        self.steps > STEPS
    }

    fn heaviest_first(&mut self) {
        let weight = |plug: &Plug| {
            let options = plug.places.iter().flat_map(|place| &place.options);
            options.map(|option| micro(option.counted.high)).max().unwrap_or(0)
        };
        let plugs = self.state.plugs;
        self.order = (0..plugs.len()).collect();
        self.order.sort_by_key(|index| std::cmp::Reverse(plugs.get(*index).map_or(0, weight)));
    }

    /// Finds the smallest needed current.
    fn least_needed(&mut self, depth: usize) {
        let Some(plug) = self.order.get(depth).copied() else {
            if !self.state.keeps_to_terms() {
                return;
            }
            let needed = micro(self.state.needed());
            if needed < self.least {
                let mut idle = Idle::new(&self.state);
                if idle.fits(usize::MAX) {
                    self.least = needed;
                    self.found = Some(self.solution(&idle));
                }
                self.gave_up |= idle.gave_up();
            }
            return;
        };
        let mut tries = Vec::new();
        for at in self.state.open_kinds(plug) {
            if self.step() {
                return;
            }
            if let Some(step) = self.state.plug_in(plug, at) {
                tries.push((micro(self.state.at_least()), at));
                self.state.take_back(step);
            }
        }
        tries.sort_by_key(|(needed, _)| *needed);
        for (needed, at) in tries {
            if needed >= self.least || self.steps > STEPS {
                return;
            }
            if let Some(step) = self.state.plug_in(plug, at) {
                self.least_needed(depth + 1);
                self.state.take_back(step);
            }
        }
    }

    /// Finds the fewest moves of all that need no more than the least, where tabs do not count and
    /// what is alike is one.
    fn fewest_moves_roughly(&mut self, depth: usize, moves: usize) {
        if moves >= self.moves || micro(self.state.at_least()) > self.least {
            return;
        }
        let Some(plug) = self.order.get(depth).copied() else {
            if self.state.keeps_to_terms() && micro(self.state.needed()) <= self.least {
                self.moves = moves;
            }
            return;
        };
        let mut tries = Vec::new();
        for at in self.state.open_kinds(plug) {
            tries.push((usize::from(self.state.costs_a_move(plug, at)), at));
        }
        tries.sort_by_key(|(cost, _)| *cost);
        for (cost, at) in tries {
            if self.step() {
                return;
            }
            if let Some(step) = self.state.plug_in(plug, at) {
                self.fewest_moves_roughly(depth + 1, moves + cost);
                self.state.take_back(step);
            }
        }
    }

    /// Among all choices that need no more than the least, finds the first with the fewest moves.
    fn fewest_moves(&mut self, depth: usize, moves: usize) {
        if moves >= self.moves || micro(self.state.at_least()) > self.least {
            return;
        }
        let Some(plug) = self.order.get(depth).copied() else {
            if self.state.keeps_to_terms() && micro(self.state.needed()) <= self.least {
                let mut idle = Idle::new(&self.state);
                if idle.fits(self.moves - moves) {
                    self.moves = moves + idle.moves();
                    self.found = Some(self.solution(&idle));
                }
                self.gave_up |= idle.gave_up();
            }
            return;
        };
        for at in self.state.open(plug) {
            if self.step() || (self.moves <= self.enough && self.found.is_some()) {
                return;
            }
            if let Some(step) = self.state.plug_in(plug, at) {
                let moved = usize::from(self.state.has_moved(&step));
                self.fewest_moves(depth + 1, moves + moved);
                self.state.take_back(step);
            }
        }
    }

    fn solution(&self, idle: &Idle<'_>) -> Solution {
        Solution {
            plugs: self.state.chosen.clone(),
            jumpers: self.state.groups_with(idle),
            optimal: true,
        }
    }
}
