//! The search itself: depth first over the plugs, in three rounds; see the head of [`super`].

use super::super::layout::Slot;
use super::super::voltages::SupplyVoltages;
use super::idle::IdleJumpers;
use super::state::{PlugId, State};
use super::types::{Plug, SearchLimits, Solution, micro};
use crate::board::{Board, GroupId, HandleMap, JumperId};

/// Steps after which a search gives up and takes the best that it has found. No sensible board
/// comes near.
const STEPS: usize = 300_000;

/// The best choice within `terms`: the smallest needed current, then the fewest moves, then the
/// first in order. `None` if there is none.
pub fn best<'a>(
    board: &'a Board,
    voltages: &SupplyVoltages,
    slots: &'a [Slot],
    plugs: &'a [Plug],
    terms: SearchLimits,
) -> Option<Solution<'a>> {
    let free = SearchLimits { tabs: false, ..terms };
    let mut search = Search::new(State::new(board, voltages, slots, plugs, free));
    search.heaviest_first();
    search.least_needed(0);
    // What cannot be had without regard to the tabs cannot be had at all.
    let rough = search.found.take()?;
    search.start_anew();
    search.fewest_moves_roughly(0, 0);
    search.start_anew();
    search.order = search.in_order();
    search.enough = search.moves;
    search.moves = search.moves.saturating_add(1);
    search.fewest_moves(0, 0);
    let found = search.found.take().unwrap_or(rough);
    let found = Solution { optimal: !search.gave_up, ..found };
    if !terms.tabs || has_tabs(board, &found.jumpers) {
        return Some(found);
    }
    let mut search = Search::new(State::new(board, voltages, slots, plugs, terms));
    search.heaviest_first();
    search.least_needed(0);
    let rough = search.found.take()?;
    search.start_anew();
    search.order = search.in_order();
    search.moves = usize::MAX;
    search.fewest_moves(0, 0);
    let found = search.found.take().unwrap_or(rough);
    Some(Solution { optimal: !search.gave_up, ..found })
}

fn has_tabs(board: &Board, jumpers: &HandleMap<JumperId, GroupId>) -> bool {
    board.handles().all(|group: GroupId| {
        jumpers.iter().filter(|on| **on == group).count() <= usize::from(board[group].tabs)
    })
}

struct Search<'a> {
    state: State<'a>,
    /// The plugs in the order in which they are plugged in.
    order: Vec<PlugId>,
    /// The smallest needed current so far, microamps.
    least: u64,
    /// The fewest moves so far.
    moves: usize,
    /// So few moves that none can be fewer.
    enough: usize,
    found: Option<Solution<'a>>,
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

    /// The plugs in the order of the job.
    fn in_order(&self) -> Vec<PlugId> {
        self.state.plugs().into_iter().map(|(id, _)| id).collect()
    }

    fn heaviest_first(&mut self) {
        let weight = |plug: &Plug| {
            let options = plug.places.iter().flat_map(|place| &place.options);
            options.map(|option| micro(option.counted.high)).max().unwrap_or(0)
        };
        let mut plugs = self.state.plugs();
        plugs.sort_by_key(|(_, plug)| std::cmp::Reverse(weight(plug)));
        self.order = plugs.into_iter().map(|(id, _)| id).collect();
    }

    /// Finds the smallest needed current.
    fn least_needed(&mut self, depth: usize) {
        let Some(plug) = self.order.get(depth).copied() else {
            if !self.state.keeps_to_terms() {
                return;
            }
            let needed = micro(self.state.needed());
            if needed < self.least {
                let mut idle = IdleJumpers::new(&self.state);
                if idle.fits(usize::MAX) {
                    self.least = needed;
                    self.found = self.solution(&idle);
                }
                self.gave_up |= idle.gave_up();
            }
            return;
        };
        let mut tries = Vec::new();
        for seat in self.state.open_unlike(plug) {
            if self.step() {
                return;
            }
            if let Some(step) = self.state.plug_in(plug, seat) {
                tries.push((micro(self.state.at_least()), seat));
                self.state.take_out(step);
            }
        }
        tries.sort_by_key(|(needed, _)| *needed);
        for (needed, seat) in tries {
            if needed >= self.least || self.steps > STEPS {
                return;
            }
            if let Some(step) = self.state.plug_in(plug, seat) {
                self.least_needed(depth + 1);
                self.state.take_out(step);
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
        for seat in self.state.open_unlike(plug) {
            tries.push((usize::from(self.state.costs_a_move(seat)), seat));
        }
        tries.sort_by_key(|(cost, _)| *cost);
        for (cost, seat) in tries {
            if self.step() {
                return;
            }
            if let Some(step) = self.state.plug_in(plug, seat) {
                self.fewest_moves_roughly(depth + 1, moves + cost);
                self.state.take_out(step);
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
                let mut idle = IdleJumpers::new(&self.state);
                if idle.fits(self.moves - moves) {
                    self.moves = moves + idle.moves();
                    self.found = self.solution(&idle);
                }
                self.gave_up |= idle.gave_up();
            }
            return;
        };
        for seat in self.state.open(plug) {
            if self.step() || (self.moves <= self.enough && self.found.is_some()) {
                return;
            }
            if let Some(step) = self.state.plug_in(plug, seat) {
                let moved = usize::from(self.state.has_moved(&step));
                self.fewest_moves(depth + 1, moves + moved);
                self.state.take_out(step);
            }
        }
    }

    fn solution(&self, idle: &IdleJumpers<'_>) -> Option<Solution<'a>> {
        Some(Solution { seats: self.state.seats()?, jumpers: idle.groups(), optimal: true })
    }
}
