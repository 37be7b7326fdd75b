//! Where the search stands: what is plugged in, where the jumpers are, what the conductors carry.

use num_complex::Complex;

use super::super::currents::{Draw, Scratch, at_least, peak};
use super::super::layout::Slot;
use super::super::rules::carries;
use super::alike::{alike_groups, alike_slots, is_independent};
use super::idle::Idle;
use super::plugs::{Amount, GroupOption, HeaderOption, Plug, carried_by};
use super::search::Terms;
use crate::board::{Board, Conductor, Feed, FuseId, GroupId, Supply};
use crate::units::Amps;

/// Amps as whole microamps: what differs by less is the same.
pub fn micro(amps: f64) -> u64 {
    (amps * 1e6).round() as u64
}

/// A supply conductor in the search.
struct ConductorState {
    conductor: Conductor,
    line: bool,
    counted: Vec<Draw>,
    real: Vec<Draw>,
    /// What counts there at least.
    bound: f64,
}

/// Where the search stands.
pub struct State<'a> {
    pub board: &'a Board,
    pub plugs: &'a [Plug],
    pub terms: Terms,
    /// The group of each jumper that a device holds.
    pub jumpers: Vec<Option<GroupId>>,
    /// How many jumpers are on each group.
    pub on_group: Vec<usize>,
    /// For each plug, its place and its option there.
    pub chosen: Vec<(usize, usize)>,
    slots: &'a [Slot],
    wires: Vec<ConductorState>,
    /// For each plug and wire, whether it draws the same there wherever it goes: then it is counted
    /// there from the start.
    certain: Vec<Vec<bool>>,
    /// For each plug, whether ratings are not asked of it: no place carries it.
    exempt: Vec<bool>,
    fuses: Vec<Vec<Draw>>,
    /// Slots of the same number can change places without a change of any current.
    alike_slot: Vec<usize>,
    /// Whether a slot shares neither jumper nor fuse.
    independent: Vec<bool>,
    /// Groups of the same kind give the same currents.
    alike_group: Vec<GroupId>,
    /// How many plugs hold each jumper where it is.
    held: Vec<usize>,
    taken: Vec<bool>,
    scratch: Scratch,
}

/// What a step changed, to be undone.
pub struct Step {
    bounds: Vec<(usize, f64)>,
    fuse: Option<FuseId>,
    slot: usize,
    jumper: Option<usize>,
}

impl<'a> State<'a> {
    /// Nothing plugged in.
    pub fn new(
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
            .map(|conductor| ConductorState {
                conductor,
                line: conductor.is_line(),
                counted: Vec::new(),
                real: Vec::new(),
                bound: 0.0,
            })
            .collect();
        let exempt = plugs.iter().map(|plug| {
            let carried = |place: &HeaderOption| {
                let slot = slots.get(place.slot);
                let high = place.options.iter().map(|o| o.real.high).fold(f64::INFINITY, f64::min);
                slot.is_some_and(|slot| carried_by(board, *slot, high))
            };
            !plug.places.iter().any(carried)
        });
        let mut state = Self {
            board,
            plugs,
            terms,
            jumpers: vec![None; board.jumpers.len()],
            on_group: vec![0; board.groups.len()],
            chosen: vec![(0, 0); plugs.len()],
            slots,
            wires,
            certain: Vec::new(),
            exempt: exempt.collect(),
            fuses: vec![Vec::new(); board.fuses.len()],
            alike_slot: alike_slots(board, slots, plugs),
            independent: slots.iter().map(|slot| is_independent(board, slots, slot)).collect(),
            alike_group: alike_groups(board, supply),
            held: vec![0; board.jumpers.len()],
            taken: vec![false; slots.len()],
            scratch: Scratch::default(),
        };
        state.count_what_is_certain();
        state
    }

    /// Puts into every wire what is there whatever is chosen.
    fn count_what_is_certain(&mut self) {
        for plug in self.plugs {
            let mut certain = Vec::with_capacity(self.wires.len());
            for wire in &mut self.wires {
                let mut all = plug.places.iter().flat_map(|place| &place.options).map(|option| {
                    let draw = |amount| option.draw(wire.conductor, amount, plug.class);
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

    fn measure(&mut self, index: usize) {
        if let Some(wire) = self.wires.get_mut(index)
            && wire.line
        {
            wire.bound = at_least(&wire.counted, self.terms.allowance, &mut self.scratch);
        }
    }

    /// What is needed at least, whatever follows.
    pub fn at_least(&self) -> f64 {
        self.wires.iter().filter(|wire| wire.line).map(|wire| wire.bound).fold(0.0, f64::max)
    }

    /// What is needed of the breaker by all that is plugged in.
    pub fn needed(&mut self) -> f64 {
        let allowance = self.terms.allowance;
        let lines = self.wires.iter().filter(|wire| wire.line);
        lines.map(|wire| peak(&wire.counted, allowance, &mut self.scratch)).fold(0.0, f64::max)
    }

    /// Whether all that is plugged in keeps to the terms, and no header that the layout needs is
    /// left for one without a column in the matrix.
    pub fn keeps_to_terms(&mut self) -> bool {
        let mut slots = self.slots.iter().zip(&self.taken);
        if slots.any(|(slot, taken)| slot.needed && !taken) {
            return false;
        }
        let needed = self.needed();
        let Terms { allowance, counted, line, neutral, .. } = self.terms;
        if counted.is_some_and(|limit| !carries(limit, Amps(needed))) {
            return false;
        }
        self.wires.iter().all(|wire| {
            let limit = if wire.line { line } else { neutral };
            limit.is_none_or(|limit| {
                carries(limit, Amps(peak(&wire.real, allowance, &mut self.scratch)))
            })
        })
    }

    /// Whether it can still keep to the terms, as far as that is seen at once.
    fn may_keep_to_terms(&mut self) -> bool {
        let Terms { allowance, counted, line, neutral, .. } = self.terms;
        if counted.is_some_and(|limit| !carries(limit, Amps(self.at_least()))) {
            return false;
        }
        self.wires.iter().all(|wire| {
            let limit = if wire.line { line } else { neutral };
            limit.is_none_or(|limit| {
                carries(limit, Amps(at_least(&wire.real, allowance, &mut self.scratch)))
            })
        })
    }

    /// The places and options that are open to a plug, in order. Of groups on the same conductors
    /// only the first is given, which is the shipped one if it is among them; where tabs count, every
    /// group is for itself.
    pub fn open(&self, plug: usize) -> Vec<(usize, usize)> {
        self.free_places(plug).flat_map(|(index, place)| self.options(index, place)).collect()
    }

    /// The same with headers that are alike only once, unless tabs count.
    pub fn open_kinds(&self, plug: usize) -> Vec<(usize, usize)> {
        if self.terms.tabs {
            return self.open(plug);
        }
        let mut open = Vec::new();
        let mut classes: Vec<usize> = Vec::new();
        for (index, place) in self.free_places(plug) {
            if let Some(class) = self.alike_slot.get(place.slot) {
                if classes.contains(class) {
                    continue;
                }
                classes.push(*class);
            }
            open.extend(self.options(index, place));
        }
        open
    }

    fn options(&self, index: usize, place: &HeaderOption) -> Vec<(usize, usize)> {
        let kind = |group: GroupId| if self.terms.tabs { group } else { self.kind_of(group) };
        let on = self.jumper_on(place).map(kind);
        let mut kinds: Vec<GroupId> = Vec::new();
        let mut open = Vec::new();
        for (number, option) in place.options.iter().enumerate() {
            let kind = kind(option.group);
            if on.is_none_or(|on| on == kind) && !kinds.contains(&kind) {
                kinds.push(kind);
                open.push((index, number));
            }
        }
        open
    }

    fn free_places(&self, plug: usize) -> impl Iterator<Item = (usize, &'a HeaderOption)> {
        let places = self.plugs.get(plug).map_or([].as_slice(), |plug| plug.places.as_slice());
        let free = |place: &HeaderOption| self.taken.get(place.slot) == Some(&false);
        places.iter().enumerate().filter(move |(_, place)| free(place))
    }

    /// The group that the jumper of a place is on, if a device holds it.
    fn jumper_on(&self, place: &HeaderOption) -> Option<GroupId> {
        match self.board[self.slots.get(place.slot)?.header].feed {
            Feed::Jumper(jumper) => self.jumpers.get(jumper.0).copied().flatten(),
            Feed::Group(_) => None,
        }
    }

    fn kind_of(&self, group: GroupId) -> GroupId {
        self.alike_group.get(group.0).copied().unwrap_or(group)
    }

    fn option(&self, plug: usize, at: (usize, usize)) -> Option<(usize, &'a GroupOption)> {
        let place = self.plugs.get(plug)?.places.get(at.0)?;
        Some((place.slot, place.options.get(at.1)?))
    }

    /// Whether a device makes a move needed, headers that are alike taken as one: whether more of
    /// them go to a kind of group than are shipped there.
    pub fn costs_a_move(&self, plug: usize, at: (usize, usize)) -> bool {
        let Some((slot_index, option)) = self.option(plug, at) else { return false };
        let Some(slot) = self.slots.get(slot_index) else { return false };
        let Feed::Jumper(jumper) = self.board[slot.header].feed else { return false };
        let kind = self.kind_of(option.group);
        if self.independent.get(slot_index) != Some(&true) {
            let held = self.held.get(jumper.0).copied().unwrap_or(0) > 0;
            return !held && self.kind_of(self.board[jumper].shipped) != kind;
        }
        let class = self.alike_slot.get(slot_index);
        let (mut shipped, mut there) = (0, 0);
        for (index, other) in self.slots.iter().enumerate() {
            let Feed::Jumper(jumper) = self.board[other.header].feed else { continue };
            if self.alike_slot.get(index) != class {
                continue;
            }
            shipped += usize::from(self.kind_of(self.board[jumper].shipped) == kind);
            let on = self.jumpers.get(jumper.0).copied().flatten();
            there += usize::from(on.is_some_and(|on| self.kind_of(on) == kind));
        }
        there >= shipped
    }

    /// Whether a step moved a jumper from where it is shipped.
    pub fn has_moved(&self, step: &Step) -> bool {
        let Some(jumper) = step.jumper else { return false };
        let group = self.jumpers.get(jumper).copied().flatten();
        let shipped = self.board.jumpers.get(jumper).map(|jumper| jumper.shipped);
        self.held.get(jumper) == Some(&1) && group != shipped
    }

    /// Plugs a device in; `None`, with nothing changed, if it cannot go there.
    pub fn plug_in(&mut self, plug: usize, at: (usize, usize)) -> Option<Step> {
        let (slot_index, option) = self.option(plug, at)?;
        let slot = *self.slots.get(slot_index)?;
        let class = self.plugs.get(plug)?.class;
        let rated = self.terms.ratings && !self.exempt.get(plug).copied().unwrap_or(false);
        if rated && !carried_by(self.board, slot, option.real.high) {
            return None;
        }
        let mut step = Step { bounds: Vec::new(), fuse: None, slot: slot_index, jumper: None };
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
            let along = Complex::new(1.0, 0.0);
            self.fuses.get_mut(fuse.0)?.push(Draw { along, low, high, class });
            step.fuse = Some(fuse);
        }
        for index in 0..self.wires.len() {
            let certain = self.certain.get(plug).and_then(|all| all.get(index)).copied();
            let wire = self.wires.get_mut(index)?;
            let draw = |amount| option.draw(wire.conductor, amount, class);
            if let (Some(false), Some(counted), Some(real)) =
                (certain, draw(option.counted), draw(option.real))
            {
                step.bounds.push((index, wire.bound));
                wire.counted.push(counted);
                wire.real.push(real);
                self.measure(index);
            }
        }
        let fuse_holds = step.fuse.is_none_or(|fuse| self.fuse_holds(fuse));
        if fuse_holds && self.may_keep_to_terms() {
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

    /// Undoes a step; the last one first.
    pub fn take_back(&mut self, step: Step) {
        for (index, bound) in step.bounds {
            if let Some(wire) = self.wires.get_mut(index) {
                wire.counted.pop();
                wire.real.pop();
                wire.bound = bound;
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

    /// Where every jumper of the board is, the idle ones included.
    pub fn groups_with(&self, idle: &Idle<'_>) -> Vec<GroupId> {
        let jumpers = self.board.jumpers.iter().enumerate();
        jumpers
            .map(|(index, jumper)| {
                let held = self.jumpers.get(index).copied().flatten();
                held.or(idle.group(index)).unwrap_or(jumper.shipped)
            })
            .collect()
    }
}
