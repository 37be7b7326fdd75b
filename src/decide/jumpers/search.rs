//! The exact search for the best places and groups: depth first, with bounds.
//!
//! A state that adds a device to a conductor can leave the device off, so the worst current of a
//! part of the devices is never more than that of all of them: it bounds what can still come. A
//! device whose current is the same in a conductor wherever it goes is counted there from the start.
//!
//! First the smallest needed current is found, going through the devices from the largest down and
//! trying first what adds least. Then, among all choices with this current, the one with the fewest
//! moves, the first in the order of the job and of the board.

use super::super::currents::{Draw, Scratch, peak};
use super::super::layout::Slot;
use super::super::rules::carries;
use super::plugs::{Amount, Choice, Plug, carried_by};
use crate::board::{Board, Conductor, Feed, FuseId, GroupId, Supply};
use crate::units::Amps;

/// Steps after which a search gives up and takes the best that it has found. No sensible board
/// comes near.
const STEPS: usize = 400_000;

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
    let mut search = Search::new(board, supply, slots, plugs, terms);
    search.order = search.heaviest_first();
    search.least_needed(0);
    let found = search.found.take()?;
    search.goal = search.least;
    search.order = (0..plugs.len()).collect();
    search.gave_up |= search.steps > STEPS;
    search.steps = 0;
    search.fewest_moves(0, 0);
    let optimal = !search.gave_up && search.steps <= STEPS;
    let best = search.found.take().unwrap_or(found);
    Some(Solution { optimal, ..best })
}

/// Amps as whole microamps: what differs by less is the same.
fn micro(amps: f64) -> u64 {
    (amps * 1e6).round() as u64
}

/// A supply conductor in the search.
struct Wire {
    conductor: Conductor,
    line: bool,
    counted: Vec<Draw>,
    real: Vec<Draw>,
    /// The worst of what is there, as it counts.
    peak: f64,
}

struct Search<'a> {
    board: &'a Board,
    slots: &'a [Slot],
    plugs: &'a [Plug],
    terms: Terms,
    wires: Vec<Wire>,
    /// For each plug and wire, whether it draws the same there wherever it goes.
    certain: Vec<Vec<bool>>,
    /// For each plug, whether ratings are not asked of it: no place carries it.
    exempt: Vec<bool>,
    fuses: Vec<Vec<Draw>>,
    /// Slots of the same number can change places without a change of any current.
    class: Vec<usize>,
    jumpers: Vec<Option<GroupId>>,
    /// How many plugs hold each jumper where it is.
    held: Vec<usize>,
    on_group: Vec<usize>,
    taken: Vec<bool>,
    chosen: Vec<(usize, usize)>,
    order: Vec<usize>,
    /// The smallest needed current so far, microamps.
    least: u64,
    /// The needed current that must not be passed.
    goal: u64,
    /// The fewest moves so far.
    moves: usize,
    found: Option<Solution>,
    steps: usize,
    gave_up: bool,
    scratch: Scratch,
}

/// What a step changed, to be undone.
struct Step {
    peaks: Vec<(usize, f64)>,
    wires: Vec<usize>,
    fuse: Option<FuseId>,
    slot: usize,
    jumper: Option<usize>,
}

impl<'a> Search<'a> {
    fn new(
        board: &'a Board,
        supply: &Supply,
        slots: &'a [Slot],
        plugs: &'a [Plug],
        terms: Terms,
    ) -> Self {
        let conductors = supply.conductors();
        let wires = conductors
            .into_iter()
            .filter(|conductor| *conductor != Conductor::Pe)
            .map(|conductor| Wire {
                conductor,
                line: conductor.is_line(),
                counted: Vec::new(),
                real: Vec::new(),
                peak: 0.0,
            })
            .collect();
        let exempt = plugs.iter().map(|plug| {
            let carried = |place: &super::plugs::Place| {
                let slot = slots.get(place.slot);
                let high = place.options.iter().map(|o| o.real.high).fold(f64::INFINITY, f64::min);
                slot.is_some_and(|slot| carried_by(board, *slot, high))
            };
            !plug.places.iter().any(carried)
        });
        let mut search = Self {
            board,
            slots,
            plugs,
            terms,
            wires,
            certain: Vec::new(),
            exempt: exempt.collect(),
            fuses: vec![Vec::new(); board.fuses.len()],
            class: classes(board, slots, plugs),
            jumpers: vec![None; board.jumpers.len()],
            held: vec![0; board.jumpers.len()],
            on_group: vec![0; board.groups.len()],
            taken: vec![false; slots.len()],
            chosen: vec![(0, 0); plugs.len()],
            order: Vec::new(),
            least: u64::MAX,
            goal: u64::MAX,
            moves: usize::MAX,
            found: None,
            steps: 0,
            gave_up: false,
            scratch: Scratch::default(),
        };
        search.count_what_is_certain();
        search
    }

    /// Puts into every wire what is there whatever is chosen.
    fn count_what_is_certain(&mut self) {
        for plug in self.plugs {
            let mut certain = Vec::with_capacity(self.wires.len());
            for wire in &mut self.wires {
                let mut all = plug.places.iter().flat_map(|place| &place.options).map(|option| {
                    let draw = |amount| option.draw(wire.conductor, amount, plug.part);
                    (draw(option.counted), draw(option.real))
                });
                let first = all.next();
                let same = match first {
                    Some((Some(counted), Some(real))) if all.all(|other| Some(other) == first) => {
                        wire.counted.push(counted);
                        wire.real.push(real);
                        true
                    }
                    _ => false,
                };
                certain.push(same);
            }
            self.certain.push(certain);
        }
        for index in 0..self.wires.len() {
            self.measure(index);
        }
    }

    fn heaviest_first(&self) -> Vec<usize> {
        let weight = |index: &usize| {
            let options = self.plugs.get(*index).map(|plug| {
                plug.places.iter().flat_map(|place| &place.options).map(|o| micro(o.counted.high))
            });
            options.and_then(Iterator::max).unwrap_or(0)
        };
        let mut order: Vec<usize> = (0..self.plugs.len()).collect();
        order.sort_by_key(|index| std::cmp::Reverse(weight(index)));
        order
    }

    /// The worst of a wire as it counts, kept in the wire.
    fn measure(&mut self, index: usize) {
        if let Some(wire) = self.wires.get_mut(index)
            && wire.line
        {
            wire.peak = peak(&wire.counted, self.terms.allowance, &mut self.scratch);
        }
    }

    /// What is needed at least, whatever follows.
    fn needed(&self) -> f64 {
        self.wires.iter().filter(|wire| wire.line).map(|wire| wire.peak).fold(0.0, f64::max)
    }

    /// Whether the wires keep to the terms so far.
    fn within_terms(&mut self) -> bool {
        let Terms { allowance, counted, line, neutral, .. } = self.terms;
        if let Some(limit) = counted
            && !carries(limit, Amps(self.needed()))
        {
            return false;
        }
        for wire in &self.wires {
            let Some(limit) = (if wire.line { line } else { neutral }) else { continue };
            // The plain sum is never less, and is found at once.
            let sum: f64 = wire.real.iter().map(|draw| draw.high.max(draw.low)).sum();
            if carries(limit, Amps(sum)) {
                continue;
            }
            if !carries(limit, Amps(peak(&wire.real, allowance, &mut self.scratch))) {
                return false;
            }
        }
        true
    }

    /// The places and options that are open to a plug, as indices.
    fn open(&self, plug: usize, by_class: bool) -> Vec<(usize, usize)> {
        let Some(places) = self.plugs.get(plug).map(|plug| &plug.places) else { return Vec::new() };
        let mut open = Vec::new();
        let mut classes: Vec<usize> = Vec::new();
        for (index, place) in places.iter().enumerate() {
            let (Some(slot), Some(false)) =
                (self.slots.get(place.slot), self.taken.get(place.slot))
            else {
                continue;
            };
            if by_class && let Some(class) = self.class.get(place.slot) {
                if classes.contains(class) {
                    continue;
                }
                classes.push(*class);
            }
            let on = match self.board[slot.header].feed {
                Feed::Jumper(jumper) => self.jumpers.get(jumper.0).copied().flatten(),
                Feed::Group(_) => None,
            };
            for (number, option) in place.options.iter().enumerate() {
                if on.is_none_or(|group| group == option.group) {
                    open.push((index, number));
                }
            }
        }
        open
    }

    fn option(&self, plug: usize, at: (usize, usize)) -> Option<(usize, &'a Choice)> {
        let place = self.plugs.get(plug)?.places.get(at.0)?;
        Some((place.slot, place.options.get(at.1)?))
    }

    /// Plugs a device in; `None`, with nothing changed, if it cannot go there.
    fn put(&mut self, plug: usize, at: (usize, usize)) -> Option<Step> {
        let (slot_index, option) = self.option(plug, at)?;
        let slot = *self.slots.get(slot_index)?;
        let part = self.plugs.get(plug)?.part;
        let mut step = Step {
            peaks: Vec::new(),
            wires: Vec::new(),
            fuse: None,
            slot: slot_index,
            jumper: None,
        };
        let rated = self.terms.ratings && !self.exempt.get(plug).copied().unwrap_or(false);
        if rated && !carried_by(self.board, slot, option.real.high) {
            return None;
        }
        if let Feed::Jumper(jumper) = self.board[slot.header].feed {
            if self.jumpers.get(jumper.0)?.is_none() {
                let used = self.on_group.get(option.group.0).copied().unwrap_or(0);
                if self.terms.tabs && used >= usize::from(self.board[option.group].tabs) {
                    return None;
                }
                *self.jumpers.get_mut(jumper.0)? = Some(option.group);
                *self.on_group.get_mut(option.group.0)? += 1;
            }
            *self.held.get_mut(jumper.0)? += 1;
            step.jumper = Some(jumper.0);
        }
        *self.taken.get_mut(slot_index)? = true;
        *self.chosen.get_mut(plug)? = at;
        if let (true, Some(fuse)) = (rated, self.board[slot.header].fuse) {
            let Amount { low, high } = option.real;
            let along = num_complex::Complex::new(1.0, 0.0);
            self.fuses.get_mut(fuse.0)?.push(Draw { along, low, high, part });
            step.fuse = Some(fuse);
        }
        for index in 0..self.wires.len() {
            let certain = self.certain.get(plug).and_then(|all| all.get(index)).copied();
            let wire = self.wires.get_mut(index)?;
            let draw = |amount| option.draw(wire.conductor, amount, part);
            if let (Some(false), Some(counted), Some(real)) =
                (certain, draw(option.counted), draw(option.real))
            {
                step.peaks.push((index, wire.peak));
                step.wires.push(index);
                wire.counted.push(counted);
                wire.real.push(real);
                self.measure(index);
            }
        }
        let fuse_holds = step.fuse.is_none_or(|fuse| self.fuse_holds(fuse));
        if fuse_holds && self.within_terms() {
            return Some(step);
        }
        self.take_back(step);
        None
    }

    fn fuse_holds(&mut self, fuse: FuseId) -> bool {
        let Some(draws) = self.fuses.get(fuse.0) else { return true };
        let carried = peak(draws, self.terms.allowance, &mut self.scratch);
        carries(self.board[fuse].rating, Amps(carried))
    }

    fn take_back(&mut self, step: Step) {
        for index in step.wires {
            if let Some(wire) = self.wires.get_mut(index) {
                wire.counted.pop();
                wire.real.pop();
            }
        }
        for (index, peak) in step.peaks {
            if let Some(wire) = self.wires.get_mut(index) {
                wire.peak = peak;
            }
        }
        if let Some(draws) = step.fuse.and_then(|fuse| self.fuses.get_mut(fuse.0)) {
            draws.pop();
        }
        if let Some(taken) = self.taken.get_mut(step.slot) {
            *taken = false;
        }
        if let Some(jumper) = step.jumper
            && let (Some(held), Some(on)) =
                (self.held.get_mut(jumper), self.jumpers.get_mut(jumper))
        {
            *held -= 1;
            if *held == 0
                && let Some(group) = on.take()
                && let Some(count) = self.on_group.get_mut(group.0)
            {
                *count -= 1;
            }
        }
    }

    /// Finds the smallest needed current.
    fn least_needed(&mut self, depth: usize) {
        let Some(plug) = self.order.get(depth).copied() else {
            let mut idle = Idle::new(self);
            let needed = micro(self.needed());
            if needed < self.least && idle.fits(usize::MAX) {
                self.least = needed;
                self.found = Some(self.solution(&idle.groups));
            }
            self.gave_up |= idle.gave_up();
            return;
        };
        let mut tries = Vec::new();
        for at in self.open(plug, true) {
            self.steps += 1;
            if let Some(step) = self.put(plug, at) {
                tries.push((micro(self.needed()), at));
                self.take_back(step);
            }
        }
        tries.sort_by_key(|(needed, _)| *needed);
        for (needed, at) in tries {
            if needed >= self.least || self.steps > STEPS {
                return;
            }
            if let Some(step) = self.put(plug, at) {
                self.least_needed(depth + 1);
                self.take_back(step);
            }
        }
    }

    /// Among all choices that need no more than the goal, finds the first with the fewest moves.
    fn fewest_moves(&mut self, depth: usize, moves: usize) {
        let Some(plug) = self.order.get(depth).copied() else {
            let mut idle = Idle::new(self);
            if idle.fits(self.moves.saturating_sub(moves)) {
                self.moves = moves + idle.moves;
                self.found = Some(self.solution(&idle.groups));
            }
            self.gave_up |= idle.gave_up();
            return;
        };
        for at in self.open(plug, false) {
            self.steps += 1;
            if self.steps > STEPS {
                return;
            }
            let Some(step) = self.put(plug, at) else { continue };
            let moved = step.jumper.is_some_and(|jumper| {
                let group = self.jumpers.get(jumper).copied().flatten();
                let shipped = self.board.jumpers.get(jumper).map(|jumper| jumper.shipped);
                self.held.get(jumper) == Some(&1) && group != shipped
            });
            let moves = moves + usize::from(moved);
            if moves < self.moves && micro(self.needed()) <= self.goal {
                self.fewest_moves(depth + 1, moves);
            }
            self.take_back(step);
        }
    }

    fn solution(&self, idle: &[Option<GroupId>]) -> Solution {
        let jumpers = self.board.jumpers.iter().enumerate().map(|(index, jumper)| {
            let held = self.jumpers.get(index).copied().flatten();
            held.or(idle.get(index).copied().flatten()).unwrap_or(jumper.shipped)
        });
        Solution { plugs: self.chosen.clone(), jumpers: jumpers.collect(), optimal: true }
    }
}

/// The jumpers that nothing hangs on: they stay where they are shipped unless another needs the
/// tab.
struct Idle<'s> {
    board: &'s Board,
    waiting: Vec<usize>,
    on_group: Vec<usize>,
    tabs: bool,
    groups: Vec<Option<GroupId>>,
    moves: usize,
    steps: usize,
}

impl<'s> Idle<'s> {
    fn new(search: &Search<'s>) -> Self {
        let waiting = search.jumpers.iter().enumerate().filter(|(_, on)| on.is_none());
        Self {
            board: search.board,
            waiting: waiting.map(|(index, _)| index).collect(),
            on_group: search.on_group.clone(),
            tabs: search.terms.tabs,
            groups: vec![None; search.jumpers.len()],
            moves: 0,
            steps: 0,
        }
    }

    /// Whether all find a tab with fewer moves than `limit`; with as few as can be.
    fn fits(&mut self, limit: usize) -> bool {
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

    fn gave_up(&self) -> bool {
        self.steps > STEPS / 100
    }

    fn place(&mut self, at: usize, moves: usize) -> bool {
        self.steps += 1;
        let Some(index) = self.waiting.get(at).copied() else { return true };
        let Some(jumper) = self.board.jumpers.get(index) else { return false };
        let others = jumper.groups.iter().copied().filter(|group| *group != jumper.shipped);
        let wanted: Vec<GroupId> = std::iter::once(jumper.shipped).chain(others).collect();
        for group in wanted {
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

/// Numbers slots so that those of one number differ in nothing that a current depends on: each has
/// a jumper of its own with the same groups, the same rating, and no fuse with another.
fn classes(board: &Board, slots: &[Slot], plugs: &[Plug]) -> Vec<usize> {
    let alone = |slot: &Slot| {
        let jumper = match board[slot.header].feed {
            Feed::Jumper(jumper) => jumper,
            Feed::Group(_) => return false,
        };
        let shares = |other: &&Slot| other.header != slot.header;
        let jumper_shared = slots
            .iter()
            .filter(shares)
            .any(|other| board[other.header].feed == Feed::Jumper(jumper));
        let fuse = board[slot.header].fuse;
        let fuse_shared =
            fuse.is_some() && slots.iter().filter(shares).any(|o| board[o.header].fuse == fuse);
        !jumper_shared && !fuse_shared && slot.needed
    };
    let key = |slot: &Slot| {
        let mut groups = board.groups_of(slot.header);
        groups.sort();
        let header = &board[slot.header];
        let fuse = header.fuse.map(|fuse| micro(board[fuse].rating.0));
        (groups, header.max.map(|max| micro(max.0)), fuse, slot.speeds)
    };
    // A slot that a plug must have is no other's to leave for it.
    let bound = |index: usize| {
        plugs.iter().any(|plug| matches!(plug.places.as_slice(), [only] if only.slot == index))
    };
    let mut class: Vec<usize> = (0..slots.len()).collect();
    for (index, slot) in slots.iter().enumerate() {
        if bound(index) || !alone(slot) {
            continue;
        }
        let same = slots.iter().enumerate().take(index).find(|(other, candidate)| {
            !bound(*other) && alone(candidate) && key(candidate) == key(slot)
        });
        if let (Some((other, _)), Some(own)) = (same, class.get_mut(index)) {
            *own = other;
        }
    }
    class
}
