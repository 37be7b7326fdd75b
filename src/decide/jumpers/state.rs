//! Where the search stands: what is plugged in, where the jumpers are, what the conductors carry.

use num_complex::Complex;

use super::super::budget::keeps;
use super::super::currents::{Draw, Scratch, Together, at_least, peak};
use super::super::layout::Slot;
use super::super::rules::carries;
use super::super::voltages::SupplyVoltages;
use super::alike::{alike_groups, alike_headers, is_independent};
use super::plugs::header_carries;
use super::types::{Amount, HeaderOption, Plug, SearchLimits, Seat, heater_needs};
use crate::board::{
    Allowance, Board, Conductor, Feed, FuseId, GroupId, Handle, HandleMap, HeaderId, JumperId,
};
use crate::units::Amps;

/// Which of the plugs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PlugId(usize);

impl Handle for PlugId {
    fn new(index: usize) -> Self {
        Self(index)
    }

    fn index(self) -> usize {
        self.0
    }
}

/// A plug in the search.
struct PlugState<'a> {
    plug: &'a Plug,
    /// Where it was put last.
    seat: Option<Seat<'a>>,
    /// For each conductor, whether it draws the same there wherever it goes: then it is counted
    /// there from the start.
    certain: Vec<bool>,
    /// Whether ratings are not asked of it: no place carries it.
    exempt: bool,
}

/// A jumper in the search.
#[derive(Clone, Copy, Default)]
struct JumperState {
    /// Where it is, if a device holds it.
    on: Option<GroupId>,
    /// How many plugs hold it there.
    held: usize,
}

/// A header in the search.
struct HeaderState {
    taken: bool,
    /// Headers with the same one here can change places without a change of any current.
    alike: HeaderId,
    /// Whether it shares neither jumper nor fuse.
    independent: bool,
}

/// A supply conductor in the search.
struct ConductorState {
    conductor: Conductor,
    counted: Vec<Draw>,
    real: Vec<Draw>,
    /// What counts there at least, if it is a line.
    bound: f64,
}

impl ConductorState {
    fn measure(&mut self, allowance: Option<Allowance>, scratch: &mut Scratch) {
        if self.conductor.is_line() {
            self.bound = at_least(&self.counted, allowance, scratch);
        }
    }

    fn limit(&self, terms: &SearchLimits) -> Option<Amps> {
        if self.conductor.is_line() { terms.line } else { terms.neutral }
    }
}

/// Where the search stands.
pub struct State<'a> {
    pub board: &'a Board,
    pub terms: SearchLimits,
    /// How many jumpers are on each group.
    pub on_group: HandleMap<GroupId, usize>,
    slots: &'a [Slot],
    plugs: HandleMap<PlugId, PlugState<'a>>,
    headers: HandleMap<HeaderId, HeaderState>,
    jumpers: HandleMap<JumperId, JumperState>,
    conductors: Vec<ConductorState>,
    fuses: HandleMap<FuseId, Vec<Draw>>,
    /// Groups with the same one here give the same currents.
    alike_group: HandleMap<GroupId, GroupId>,
    scratch: Scratch,
}

/// What a step changed, to be undone.
pub struct Step {
    /// For each conductor, the bound before, if the plug draws there.
    bounds: Vec<Option<f64>>,
    fuse: Option<FuseId>,
    header: HeaderId,
    jumper: Option<JumperId>,
}

impl<'a> State<'a> {
    /// Nothing plugged in.
    pub fn new(
        board: &'a Board,
        voltages: &SupplyVoltages,
        slots: &'a [Slot],
        plugs: &'a [Plug],
        terms: SearchLimits,
    ) -> Self {
        let conductors = board[voltages.supply()].conductors();
        let conductors = conductors.into_iter().filter(|conductor| *conductor != Conductor::Pe);
        let alike = alike_headers(board, slots, plugs);
        let header = |header| HeaderState {
            taken: false,
            alike: alike[header],
            independent: is_independent(board, slots, header),
        };
        let plug = |plug: &'a Plug| {
            let carried = |place: &HeaderOption| {
                let high = place.options.iter().map(|o| o.real.high).fold(f64::INFINITY, f64::min);
                header_carries(board, place.header, high)
            };
            let exempt = !plug.places.iter().any(carried);
            PlugState { plug, seat: None, certain: Vec::new(), exempt }
        };
        let mut state = Self {
            board,
            terms,
            on_group: HandleMap::of(board, |_| 0),
            slots,
            plugs: plugs.iter().map(plug).collect(),
            headers: HandleMap::of(board, header),
            jumpers: HandleMap::of(board, |_| JumperState::default()),
            conductors: conductors
                .map(|conductor| ConductorState {
                    conductor,
                    counted: Vec::new(),
                    real: Vec::new(),
                    bound: 0.0,
                })
                .collect(),
            fuses: HandleMap::of(board, |_| Vec::new()),
            alike_group: alike_groups(voltages),
            scratch: Scratch::default(),
        };
        state.count_what_is_certain();
        state
    }

    /// Puts into every conductor what is there whatever is chosen.
    fn count_what_is_certain(&mut self) {
        for PlugState { plug, certain, .. } in self.plugs.iter_mut() {
            for conductor in &mut self.conductors {
                let mut all = plug.places.iter().flat_map(|place| &place.options).map(|option| {
                    let draw = |amount| option.draw(conductor.conductor, amount, plug.class);
                    (draw(option.counted), draw(option.real))
                });
                let first = all.next();
                let same = match first {
                    Some((Some(counted), Some(real))) if all.all(|other| Some(other) == first) => {
                        conductor.counted.push(counted);
                        conductor.real.push(real);
                        true
                    }
                    _ => false,
                };
                certain.push(same);
            }
        }
        for conductor in &mut self.conductors {
            conductor.measure(self.terms.allowance, &mut self.scratch);
        }
    }

    /// The plugs in the order of the job, the heater first.
    pub fn plugs(&self) -> Vec<(PlugId, &'a Plug)> {
        self.plugs.entries().map(|(id, state)| (id, state.plug)).collect()
    }

    /// The group of a jumper, if a device holds it.
    pub fn group_of(&self, jumper: JumperId) -> Option<GroupId> {
        self.jumpers[jumper].on
    }

    /// Where every plug is; `None` unless all are plugged in.
    pub fn seats(&self) -> Option<Vec<Seat<'a>>> {
        self.plugs.iter().map(|plug| plug.seat).collect()
    }

    /// What is needed at least, whatever follows.
    pub fn at_least(&self) -> f64 {
        self.conductors.iter().map(|conductor| conductor.bound).fold(0.0, f64::max)
    }

    /// What is needed of the breaker by all that is plugged in.
    pub fn needed(&mut self) -> f64 {
        let (allowance, scratch) = (self.terms.allowance, &mut self.scratch);
        let lines = self.conductors.iter().filter(|line| line.conductor.is_line());
        lines.map(|line| peak(&line.counted, allowance, scratch)).fold(0.0, f64::max)
    }

    /// Whether all that is plugged in keeps to the terms, and no header that the layout needs is
    /// left for one without a column in the matrix.
    pub fn keeps_to_terms(&mut self) -> bool {
        if self.slots.iter().any(|slot| slot.needed && !self.headers[slot.header].taken) {
            return false;
        }
        if self.terms.heats && !self.lets_the_heater_run() {
            return false;
        }
        let needed = self.needed();
        self.within_terms(needed, peak)
    }

    /// Whether an allowance that is a current is enough for the heater with what moves its water: the
    /// circulation pump, or else the first jet pump on its lowest speed.
    fn lets_the_heater_run(&self) -> bool {
        let Some(Allowance::Amps(amps)) = self.terms.allowance else { return true };
        let seated = || {
            let seats = self.plugs.iter().filter_map(|plug| Some((plug.plug, plug.seat?)));
            seats.filter_map(|(plug, seat)| {
                Some((self.slots.get(seat.place.slot)?.device, plug.class, seat.option.adds()))
            })
        };
        heater_needs(self.board, seated()).is_none_or(|needs| keeps(amps.0, needs))
    }

    /// Whether it can still keep to the terms, as far as that is seen at once.
    fn may_keep_to_terms(&mut self) -> bool {
        self.within_terms(self.at_least(), at_least)
    }

    /// Whether `counted` and what `carries_in` finds for each conductor keep to the terms.
    fn within_terms(
        &mut self,
        counted: f64,
        carries_in: impl Fn(&[Draw], Option<Allowance>, &mut Scratch) -> f64,
    ) -> bool {
        if self.terms.counted.is_some_and(|limit| !carries(limit, Amps(counted))) {
            return false;
        }
        let (terms, scratch) = (self.terms, &mut self.scratch);
        self.conductors.iter().all(|conductor| {
            conductor.limit(&terms).is_none_or(|limit| {
                carries(limit, Amps(carries_in(&conductor.real, terms.allowance, scratch)))
            })
        })
    }

    /// The seats that are open to a plug, in order. Of groups on the same conductors only the first
    /// is given, which is the shipped one if it is among them; where tabs count, every group is for
    /// itself.
    pub fn open(&self, plug: PlugId) -> Vec<Seat<'a>> {
        self.free_places(plug).flat_map(|place| self.seats_at(place)).collect()
    }

    /// The same with headers that are alike only once, unless tabs count.
    pub fn open_unlike(&self, plug: PlugId) -> Vec<Seat<'a>> {
        if self.terms.tabs {
            return self.open(plug);
        }
        let mut open = Vec::new();
        let mut seen: Vec<HeaderId> = Vec::new();
        for place in self.free_places(plug) {
            let alike = self.headers[place.header].alike;
            if !seen.contains(&alike) {
                seen.push(alike);
                open.extend(self.seats_at(place));
            }
        }
        open
    }

    fn seats_at(&self, place: &'a HeaderOption) -> Vec<Seat<'a>> {
        let alike = |group| if self.terms.tabs { group } else { self.alike_group[group] };
        let on = self.jumper_on(place).map(alike);
        let mut seen: Vec<GroupId> = Vec::new();
        let mut open = Vec::new();
        for option in &place.options {
            let group = alike(option.group);
            if on.is_none_or(|on| on == group) && !seen.contains(&group) {
                seen.push(group);
                open.push(Seat { place, option });
            }
        }
        open
    }

    fn free_places(&self, plug: PlugId) -> impl Iterator<Item = &'a HeaderOption> {
        let places = self.plugs[plug].plug.places.iter();
        places.filter(|place| !self.headers[place.header].taken)
    }

    /// The group that the jumper of a place is on, if a device holds it.
    fn jumper_on(&self, place: &HeaderOption) -> Option<GroupId> {
        match self.board[place.header].feed {
            Feed::Jumper(jumper) => self.jumpers[jumper].on,
            Feed::Group(_) => None,
        }
    }

    /// Whether a device makes a move needed, headers that are alike taken as one: whether more of
    /// them go to groups of one sort than are shipped there.
    pub fn costs_a_move(&self, Seat { place, option }: Seat<'a>) -> bool {
        let Feed::Jumper(jumper) = self.board[place.header].feed else { return false };
        let group = self.alike_group[option.group];
        let HeaderState { independent, alike, .. } = self.headers[place.header];
        let is_shipped = |jumper: JumperId| self.alike_group[self.board[jumper].shipped] == group;
        if !independent {
            return self.jumpers[jumper].held == 0 && !is_shipped(jumper);
        }
        let (mut shipped, mut there) = (0, 0);
        for other in self.slots.iter().map(|slot| slot.header) {
            let Feed::Jumper(jumper) = self.board[other].feed else { continue };
            if self.headers[other].alike != alike {
                continue;
            }
            shipped += usize::from(is_shipped(jumper));
            let on = self.jumpers[jumper].on;
            there += usize::from(on.is_some_and(|on| self.alike_group[on] == group));
        }
        there >= shipped
    }

    /// Whether a step moved a jumper from where it is shipped.
    pub fn has_moved(&self, step: &Step) -> bool {
        let Some(jumper) = step.jumper else { return false };
        let JumperState { on, held } = self.jumpers[jumper];
        held == 1 && on != Some(self.board[jumper].shipped)
    }

    /// Plugs a device in; `None`, with nothing changed, if it cannot go there.
    pub fn plug_in(&mut self, plug: PlugId, seat: Seat<'a>) -> Option<Step> {
        let Seat { place, option } = seat;
        let header = &self.board[place.header];
        let state = &mut self.plugs[plug];
        let class = state.plug.class;
        let rated = self.terms.ratings && !state.exempt;
        if rated && !header_carries(self.board, place.header, option.real.high) {
            return None;
        }
        let jumper = match header.feed {
            Feed::Jumper(jumper) => Some(jumper),
            Feed::Group(_) => None,
        };
        if let Some(jumper) = jumper {
            let jumper = &mut self.jumpers[jumper];
            if jumper.on.is_none() {
                let tabs = usize::from(self.board[option.group].tabs);
                if self.terms.tabs && self.on_group[option.group] >= tabs {
                    return None;
                }
                jumper.on = Some(option.group);
                self.on_group[option.group] += 1;
            }
            jumper.held += 1;
        }
        self.headers[place.header].taken = true;
        state.seat = Some(seat);
        let fuse = header.fuse.filter(|_| rated);
        if let Some(fuse) = fuse {
            let Amount { low, high } = option.real;
            let along = Complex::new(1.0, 0.0);
            // What runs only together counts by itself here: never less than what flows.
            let (adds, together) = (option.adds(), Together::Alone);
            self.fuses[fuse].push(Draw { along, low, high, class, adds, together });
        }
        let mut bounds = Vec::with_capacity(self.conductors.len());
        for (conductor, certain) in self.conductors.iter_mut().zip(&state.certain) {
            let draw = |amount| option.draw(conductor.conductor, amount, class);
            let draws = draw(option.counted).zip(draw(option.real)).filter(|_| !certain);
            bounds.push(draws.map(|(counted, real)| {
                let before = conductor.bound;
                conductor.counted.push(counted);
                conductor.real.push(real);
                conductor.measure(self.terms.allowance, &mut self.scratch);
                before
            }));
        }
        let step = Step { bounds, fuse, header: place.header, jumper };
        if fuse.is_none_or(|fuse| self.fuse_holds(fuse)) && self.may_keep_to_terms() {
            return Some(step);
        }
        self.take_out(step);
        None
    }

    fn fuse_holds(&mut self, fuse: FuseId) -> bool {
        let carried = peak(&self.fuses[fuse], self.terms.allowance, &mut self.scratch);
        carries(self.board[fuse].rating, Amps(carried))
    }

    /// Undoes a step; the last one first.
    pub fn take_out(&mut self, step: Step) {
        for (conductor, bound) in self.conductors.iter_mut().zip(step.bounds) {
            if let Some(bound) = bound {
                conductor.counted.pop();
                conductor.real.pop();
                conductor.bound = bound;
            }
        }
        if let Some(fuse) = step.fuse {
            self.fuses[fuse].pop();
        }
        self.headers[step.header].taken = false;
        if let Some(jumper) = step.jumper {
            let jumper = &mut self.jumpers[jumper];
            jumper.held -= 1;
            if jumper.held == 0
                && let Some(group) = jumper.on.take()
            {
                self.on_group[group] -= 1;
            }
        }
    }
}
