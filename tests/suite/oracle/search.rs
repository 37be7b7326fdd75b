//! Decides a job by going through everything: no bound, no short cut, no code of `decide`.
//!
//! What follows from a job is written out again here from the design: voltages from phasors, a band
//! of a tenth round each plate, every state of every device.

use std::collections::BTreeMap;

use lidsheet::board::{
    Allowance, Board, Conductor, Device, Effect, Feed, GroupId, GroupSource, HeaderId, Heater, Job,
    LayoutNumber, Meaning, Node, Role, Rules, Speeds, SupplyId, System,
};

/// The most choices and the most states that are gone through.
const CHOICES: usize = 40_000;
const EVALUATIONS: usize = 3_000_000;

pub enum Verdict {
    Works(Box<Best>),
    Refused { wired: bool },
    TooLarge,
}

pub struct Best {
    pub allowance: Option<Allowance>,
    pub needed: f64,
    pub moves: usize,
    pub jumpers: Vec<GroupId>,
    /// In the order of the headers.
    pub places: Vec<(Option<usize>, HeaderId, GroupId)>,
    pub conductors: Vec<(Conductor, f64)>,
    /// For each fuse of the board.
    pub fuses: Vec<f64>,
    pub drop_percent: Option<f64>,
    /// How many choices kept to everything at this allowance.
    pub ways: usize,
}

#[derive(Clone, Copy, Debug)]
pub struct Slot {
    pub header: HeaderId,
    pub device: Device,
    pub speeds: Speeds,
    pub needed: bool,
}

/// What a layout makes of each header that it uses.
pub fn slots(board: &Board, number: LayoutNumber) -> Vec<Slot> {
    let layout = board.layouts.iter().find(|layout| layout.number == number).expect("it is there");
    let mut all = Vec::new();
    for (index, header) in board.headers.iter().enumerate() {
        for (set, device) in &header.serves {
            if !set.contains(number) {
                continue;
            }
            // A further cord is there whenever its device is.
            let own = board.devices.iter().find(|own| own.device == *device && own.is_cord);
            let of = own.and_then(|own| own.runs_with).unwrap_or(*device);
            let column = board.columns.iter().position(|column| *column == of);
            let speeds = column.map(|column| layout.speeds[column]);
            let speeds = if own.is_some() { speeds.map(|it| it.min(Speeds::One)) } else { speeds };
            if speeds != Some(Speeds::None) {
                all.push(Slot {
                    header: HeaderId(index),
                    device: *device,
                    speeds: speeds.unwrap_or(Speeds::One),
                    needed: column.is_some(),
                });
            }
        }
    }
    all
}

fn may_be(role: Role, device: Device) -> bool {
    match role {
        Role::AnyPump => matches!(device, Device::Pump(_)),
        Role::Named(named) => named == device,
    }
}

/// Whether a current on high lasts.
pub fn long(device: Device) -> bool {
    match device {
        Device::Own(_) => device.traits().continuous,
        _ => matches!(device, Device::Heater | Device::Circulation | Device::Ozonator),
    }
}

/// Whether the heater allowance holds it back.
pub fn limited(device: Device) -> bool {
    match device {
        Device::Own(_) => device.traits().counted,
        _ => matches!(device, Device::Pump(_) | Device::Blower),
    }
}

/// Whether it moves the water that the heater waits for.
pub fn moves(device: Device) -> bool {
    match device {
        Device::Own(_) => device.traits().moves_water,
        _ => matches!(device, Device::Pump(_) | Device::Circulation),
    }
}

/// Whether one of two is on exactly when the other is, as the board's specification says.
pub fn tied(board: &Board, one: Device, other: Device) -> bool {
    let with = |device: Device| {
        board.devices.iter().find(|own| own.device == device).and_then(|own| own.runs_with)
    };
    one != other
        && (with(one) == Some(other)
            || with(other) == Some(one)
            || with(one).is_some() && with(one) == with(other))
}

/// The layouts that fit, by trying every way to spread the devices.
pub fn fitting(board: &Board, job: &Job) -> Vec<LayoutNumber> {
    let fits = |number: &LayoutNumber| spread(job, &slots(board, *number), 0, &mut Vec::new());
    board.layouts.iter().map(|layout| layout.number).filter(fits).collect()
}

fn spread(job: &Job, slots: &[Slot], at: usize, taken: &mut Vec<usize>) -> bool {
    let Some(fitted) = job.equipment.get(at) else {
        return slots
            .iter()
            .enumerate()
            .all(|(index, slot)| !slot.needed || taken.contains(&index));
    };
    for (index, slot) in slots.iter().enumerate() {
        let fits = may_be(fitted.role, slot.device) && fitted.speeds == slot.speeds;
        if fits && !taken.contains(&index) {
            taken.push(index);
            let found = spread(job, slots, at + 1, taken);
            taken.pop();
            if found {
                return true;
            }
        }
    }
    false
}

/// The fewest differences of any layout: a device without a place, a place without a device and a
/// wrong number of speeds count one each; a pump of one speed in the circulation pump's place, and
/// a circulation pump in a jet pump's, count one.
pub fn fewest_differences(board: &Board, job: &Job) -> Option<usize> {
    let cost = |number| cheapest(job, &slots(board, number), 0, &mut Vec::new());
    board.layouts.iter().map(|layout| cost(layout.number)).min()
}

fn cheapest(job: &Job, slots: &[Slot], at: usize, taken: &mut Vec<usize>) -> usize {
    let Some(fitted) = job.equipment.get(at) else {
        return slots
            .iter()
            .enumerate()
            .filter(|(index, slot)| slot.needed && !taken.contains(index))
            .count();
    };
    // Left out.
    let mut best = 1 + cheapest(job, slots, at + 1, taken);
    for (index, slot) in slots.iter().enumerate() {
        if taken.contains(&index) {
            continue;
        }
        let is_pump = matches!(slot.device, Device::Pump(_));
        let any_one = fitted.role == Role::AnyPump && fitted.speeds == Speeds::One;
        let cost = if may_be(fitted.role, slot.device) {
            if fitted.speeds == slot.speeds {
                0
            } else if slot.needed || fitted.role != Role::AnyPump {
                1
            } else {
                continue;
            }
        } else if (any_one && slot.device == Device::Circulation && slot.needed)
            || (fitted.role == Role::Named(Device::Circulation) && is_pump && slot.needed)
        {
            1
        } else {
            continue;
        };
        taken.push(index);
        best = best.min(cost + cheapest(job, slots, at + 1, taken));
        taken.pop();
    }
    best
}

pub type Phasor = (f64, f64);

pub fn potential(system: System, conductor: Conductor) -> Phasor {
    let half_root_3 = 3.0_f64.sqrt() / 2.0;
    match (system, conductor) {
        (_, Conductor::N | Conductor::Pe) => (0.0, 0.0),
        (System::SplitPhase { to_neutral: v }, Conductor::L2) => (-v.0, 0.0),
        (System::Wye { to_neutral: v }, Conductor::L2) => (-0.5 * v.0, -half_root_3 * v.0),
        (System::Wye { to_neutral: v }, Conductor::L3) => (-0.5 * v.0, half_root_3 * v.0),
        (
            System::SplitPhase { to_neutral: v }
            | System::Wye { to_neutral: v }
            | System::SinglePhase { to_neutral: v },
            _,
        ) => (v.0, 0.0),
    }
}

/// What a group gives: its conductors and the phasor between them, or volts alone.
pub enum Gives {
    Mains(Conductor, Conductor, Phasor),
    Apart(f64),
    Nothing,
}

impl Gives {
    pub fn volts(&self) -> Option<f64> {
        match self {
            Gives::Mains(_, _, (x, y)) => Some((x * x + y * y).sqrt()),
            Gives::Apart(volts) => Some(*volts),
            Gives::Nothing => None,
        }
    }
}

pub fn gives(board: &Board, supply: SupplyId, group: GroupId) -> Gives {
    let supply = &board.supplies[supply.0];
    match board.groups[group.0].source {
        GroupSource::Isolated(volts) => Gives::Apart(volts.0),
        GroupSource::Between { nodes, .. } => {
            let landed = nodes.map(|node| match node {
                Node::Terminal(terminal) => supply.lands[terminal],
                Node::Link(link) => supply.lands[supply.links[link]],
            });
            let [Some(a), Some(b)] = landed else { return Gives::Nothing };
            let (p, q) = (potential(supply.system, a), potential(supply.system, b));
            let between = (p.0 - q.0, p.1 - q.1);
            if between.0.abs() + between.1.abs() < 0.5 {
                return Gives::Nothing;
            }
            Gives::Mains(a, b, between)
        }
    }
}

#[derive(Clone, Copy, PartialEq)]
enum Kind {
    Heater,
    Free,
    Limited,
}

/// A device where it is plugged in.
#[derive(Clone)]
struct Load {
    fitted: Option<usize>,
    device: Device,
    header: HeaderId,
    group: GroupId,
    kind: Kind,
    low: Option<f64>,
    high: f64,
    counted_low: f64,
    counted_high: f64,
    flow: Option<(Conductor, Conductor, Phasor)>,
}

struct Oracle<'a> {
    board: &'a Board,
    job: &'a Job,
    slots: Vec<Slot>,
    element: Option<Heater>,
    factor: f64,
    complete: Vec<(Vec<Load>, Vec<GroupId>)>,
    too_large: bool,
    known: BTreeMap<String, Numbers>,
    evaluations: usize,
    order: Vec<Option<usize>>,
}

/// What one choice comes to, for each allowance.
#[derive(Clone)]
struct Numbers {
    needed: Vec<f64>,
    conductors: Vec<Vec<(Conductor, f64)>>,
}

fn allowances(board: &Board) -> Vec<Option<Allowance>> {
    let mut all = Vec::new();
    for field in board.banks.iter().flat_map(|bank| &bank.fields) {
        if field.effect == Some(Effect::HeaterAllowance) {
            for setting in &field.settings {
                if let Meaning::Allowance(allowance) = setting.meaning {
                    all.push(Some(allowance));
                }
            }
        }
    }
    all.sort_by(|a, b| b.partial_cmp(a).expect("plain numbers of one kind"));
    all.dedup();
    if all.is_empty() { vec![None] } else { all }
}

fn is_nec(board: &Board, job: &Job) -> bool {
    if let Some(rules) = job.rules {
        return rules.value == Rules::Nec;
    }
    // 230 V and 230/400 V are European; the rest is taken as American.
    match board.supplies[job.supply.value.0].system {
        System::SinglePhase { to_neutral } | System::Wye { to_neutral } => to_neutral.0 != 230.0,
        System::SplitPhase { .. } => true,
    }
}

/// Decides the job under a layout that fits it.
pub fn judge(board: &Board, job: &Job, number: LayoutNumber) -> Verdict {
    let slots = slots(board, number);
    let element = job.heater.map(|heater| heater.value).or(board.heater);
    let heated = slots.iter().any(|slot| slot.device == Device::Heater);
    let mut order: Vec<Option<usize>> = Vec::new();
    if heated && element.is_some() {
        order.push(None);
    }
    order.extend((0..job.equipment.len()).map(Some));
    let mut oracle = Oracle {
        board,
        job,
        slots,
        element,
        factor: if is_nec(board, job) { 1.25 } else { 1.0 },
        complete: Vec::new(),
        too_large: false,
        known: BTreeMap::new(),
        evaluations: 0,
        order,
    };
    oracle.enumerate(&mut Vec::new(), &mut vec![None; board.jumpers.len()]);
    if oracle.too_large {
        return Verdict::TooLarge;
    }
    let refused = heated && element.is_none();
    let wired = !oracle.complete.is_empty();
    match oracle.best() {
        _ if oracle.too_large => Verdict::TooLarge,
        Some(best) if !refused => Verdict::Works(Box::new(best)),
        _ => Verdict::Refused { wired },
    }
}

impl Oracle<'_> {
    /// Every way to put every device somewhere and every jumper on one of its groups, such that
    /// each device gets its voltage.
    fn enumerate(&mut self, loads: &mut Vec<Load>, jumpers: &mut Vec<Option<GroupId>>) {
        if self.too_large {
            return;
        }
        let Some(next) = self.order.get(loads.len()).copied() else {
            // The layout has every device of its row: none of their headers may stay empty.
            let served = |slot: &Slot| loads.iter().any(|load| load.header == slot.header);
            if self.slots.iter().filter(|slot| slot.needed).all(served) {
                self.idle(loads, jumpers, 0);
            }
            return;
        };
        for index in 0..self.slots.len() {
            let slot = self.slots[index];
            if loads.iter().any(|load| load.header == slot.header) || !self.fits(next, slot) {
                continue;
            }
            let header = &self.board.headers[slot.header.0];
            let (jumper, groups) = match header.feed {
                Feed::Group(group) => (None, vec![group]),
                Feed::Jumper(jumper) => {
                    let info = &self.board.jumpers[jumper.0];
                    let mut groups = vec![info.shipped];
                    groups.extend(info.groups.iter().filter(|group| **group != info.shipped));
                    (Some(jumper.0), groups)
                }
            };
            for group in &groups {
                let before = jumper.and_then(|jumper| jumpers[jumper]);
                if before.is_some_and(|before| before != *group) {
                    continue;
                }
                let Some(load) = self.load(next, slot, *group, &groups) else { continue };
                if let Some(jumper) = jumper {
                    jumpers[jumper] = Some(*group);
                }
                loads.push(load);
                self.enumerate(loads, jumpers);
                loads.pop();
                if let Some(jumper) = jumper {
                    jumpers[jumper] = before;
                }
            }
        }
    }

    /// Jumpers that nothing hangs on go everywhere, too.
    fn idle(&mut self, loads: &[Load], jumpers: &mut Vec<Option<GroupId>>, from: usize) {
        let Some(free) = (from..jumpers.len()).find(|index| jumpers[*index].is_none()) else {
            if self.complete.len() >= CHOICES {
                self.too_large = true;
                return;
            }
            let groups = jumpers.iter().map(|group| group.expect("all are set")).collect();
            self.complete.push((loads.to_vec(), groups));
            return;
        };
        let info = &self.board.jumpers[free];
        let mut groups = vec![info.shipped];
        groups.extend(info.groups.iter().filter(|group| **group != info.shipped));
        for group in groups {
            if self.too_large {
                break;
            }
            jumpers[free] = Some(group);
            self.idle(loads, jumpers, free + 1);
        }
        jumpers[free] = None;
    }

    fn fits(&self, next: Option<usize>, slot: Slot) -> bool {
        match next {
            None => slot.device == Device::Heater,
            Some(index) => {
                let fitted = &self.job.equipment[index];
                may_be(fitted.role, slot.device) && fitted.speeds == slot.speeds
            }
        }
    }

    fn load(
        &self,
        next: Option<usize>,
        slot: Slot,
        group: GroupId,
        groups: &[GroupId],
    ) -> Option<Load> {
        let given = gives(self.board, self.job.supply.value, group);
        let volts = given.volts()?;
        let inside = |volts: f64, plate: f64| {
            volts >= plate * 0.9 - plate * 1e-9 && volts <= plate * 1.1 + plate * 1e-9
        };
        let (kind, low, high, counted_low, counted_high, power_factor) = match next {
            None => {
                let element = self.element?;
                let plate = element.at.0;
                let others: Vec<f64> = groups
                    .iter()
                    .filter_map(|group| gives(self.board, self.job.supply.value, *group).volts())
                    .collect();
                if others.iter().any(|volts| inside(*volts, plate)) {
                    if !inside(volts, plate) {
                        return None;
                    }
                } else {
                    let below = others.iter().copied().filter(|volts| *volts < plate);
                    let highest = below.fold(0.0, f64::max);
                    if volts >= plate || volts < highest - 0.5 {
                        return None;
                    }
                }
                let (rated, real) =
                    (element.watts.0 / plate, element.watts.0 / plate * volts / plate);
                let sizing = if inside(volts, plate) { f64::max(rated, real) } else { real };
                (Kind::Heater, None, real, 0.0, sizing * self.factor, 1.0)
            }
            Some(index) => {
                let fitted = &self.job.equipment[index];
                if !inside(volts, fitted.volts.value.0) {
                    return None;
                }
                let low = fitted.low.map(|low| low.amps.0);
                let high = fitted.high.amps.0;
                let kind = if limited(slot.device) { Kind::Limited } else { Kind::Free };
                let on_high = if long(slot.device) { self.factor } else { 1.0 };
                let counted_low = low.unwrap_or(0.0) * self.factor;
                (kind, low, high, counted_low, high * on_high, fitted.power_factor.unwrap_or(1.0))
            }
        };
        let flow = match given {
            Gives::Mains(a, b, (x, y)) => {
                let (x, y) = (x / volts, y / volts);
                let sin = -(1.0 - power_factor * power_factor).sqrt();
                Some((a, b, (x * power_factor - y * sin, x * sin + y * power_factor)))
            }
            _ => None,
        };
        Some(Load {
            fitted: next,
            device: slot.device,
            header: slot.header,
            group,
            kind,
            low,
            high,
            counted_low,
            counted_high,
            flow,
        })
    }

    fn best(&mut self) -> Option<Best> {
        let complete = std::mem::take(&mut self.complete);
        let kept: Vec<(Vec<Load>, Vec<GroupId>)> =
            complete.into_iter().filter(|(_, jumpers)| self.tabs_hold(jumpers)).collect();
        for (number, allowance) in allowances(self.board).into_iter().enumerate() {
            let mut best: Option<Best> = None;
            let mut ways = 0;
            for (loads, jumpers) in &kept {
                let fuses = self.fuses(loads, allowance);
                let fused = fuses
                    .iter()
                    .zip(&self.board.fuses)
                    .all(|(amps, fuse)| *amps <= fuse.rating.0 * (1.0 + 1e-9));
                let headers = loads.iter().all(|load| {
                    let max = self.board.headers[load.header.0].max;
                    max.is_none_or(|max| load.high <= max.0 * (1.0 + 1e-9))
                });
                if !fused || !headers || !self.heats(loads, allowance) {
                    continue;
                }
                let numbers = self.numbers(loads)?;
                let needed = numbers.needed[number];
                let conductors = numbers.conductors[number].clone();
                if !self.carried(needed, &conductors) {
                    continue;
                }
                ways += 1;
                let moves = jumpers
                    .iter()
                    .zip(&self.board.jumpers)
                    .filter(|(group, jumper)| **group != jumper.shipped)
                    .count();
                let micro = |amps: f64| (amps * 1e6).round() as u64;
                let better = best
                    .as_ref()
                    .is_none_or(|best| (micro(needed), moves) < (micro(best.needed), best.moves));
                if better {
                    let mut places: Vec<_> =
                        loads.iter().map(|load| (load.fitted, load.header, load.group)).collect();
                    places.sort_by_key(|place| place.1);
                    best = Some(Best {
                        allowance,
                        needed,
                        moves,
                        jumpers: jumpers.clone(),
                        places,
                        conductors,
                        fuses,
                        drop_percent: self.drop(loads, allowance),
                        ways: 0,
                    });
                }
            }
            if let Some(best) = best {
                return Some(Best { ways, ..best });
            }
        }
        None
    }

    /// Whether the heater can run at all with what moves its water: the circulation pump, or else the
    /// first jet pump on its lowest speed.
    fn heats(&self, loads: &[Load], allowance: Option<Allowance>) -> bool {
        let Some(Allowance::Amps(most)) = allowance else { return true };
        let Some(heater) = loads.iter().find(|load| load.kind == Kind::Heater) else { return true };
        let device = |load: &Load| {
            let slot = self.slots.iter().find(|slot| slot.header == load.header);
            slot.expect("every load has a slot").device
        };
        let circulation = loads.iter().find(|load| device(load) == Device::Circulation);
        let jets = (1..=9)
            .find_map(|number| loads.iter().find(|load| device(load) == Device::Pump(number)));
        let fed = |load: &Load, amps: f64| if load.flow.is_some() { amps } else { 0.0 };
        let others = || loads.iter().filter(|load| matches!(device(load), Device::Own(_)));
        let own = others().filter(|load| moves(device(load))).min_by_key(|load| device(load));
        let water = circulation.or(jets).or(own);
        let with = water.map_or(0.0, |water| {
            let with = loads.iter().filter(|load| tied(self.board, device(load), device(water)));
            with.map(|load| fed(load, load.high)).sum()
        });
        let water = water.map_or(0.0, |load| fed(load, load.low.unwrap_or(load.high)));
        fed(heater, heater.high) + water + with <= most.0 * (1.0 + 1e-9)
    }

    fn tabs_hold(&self, jumpers: &[GroupId]) -> bool {
        self.board.groups.iter().enumerate().all(|(index, group)| {
            jumpers.iter().filter(|on| on.0 == index).count() <= usize::from(group.tabs)
        })
    }

    fn carried(&self, needed: f64, conductors: &[(Conductor, f64)]) -> bool {
        let most = |limit: f64| limit * (1.0 + 1e-9);
        let breaker = self.job.breaker.value.0;
        let board = [
            self.board.about.max_current,
            self.board.supplies[self.job.supply.value.0].max_current,
        ];
        let board = board.iter().flatten().map(|max| max.0).fold(f64::INFINITY, f64::min);
        let by_breaker = match self.job.marked.circuit {
            Some(marked) => {
                marked.value.0 <= most(breaker)
                    && conductors
                        .iter()
                        .filter(|(conductor, _)| conductor.is_line())
                        .all(|(_, amps)| *amps <= most(breaker))
            }
            None => needed <= most(breaker),
        };
        let wire = super::wires::judged(self.board, self.job, 0.0).limit();
        let counted = self.job.marked.circuit.map_or(needed, |marked| marked.value.0);
        let by_wire = counted <= most(wire);
        let limit = board.min(wire);
        by_breaker && by_wire && conductors.iter().all(|(_, amps)| *amps <= most(limit))
    }

    /// Every state that the allowance permits; for each the speed of each load: 0, 1 or 2.
    fn states(&self, loads: &[&Load], allowance: Option<Allowance>) -> Vec<Vec<u8>> {
        let mut all: Vec<Vec<u8>> = vec![Vec::new()];
        for load in loads {
            let speeds: &[u8] = if load.low.is_some() { &[0, 1, 2] } else { &[0, 2] };
            all = all
                .into_iter()
                .flat_map(|state| {
                    speeds.iter().map(move |speed| {
                        let mut state = state.clone();
                        state.push(*speed);
                        state
                    })
                })
                .collect();
        }
        all.retain(|state| {
            let together = |(at, load): (usize, &&Load)| {
                loads.iter().zip(state).all(|(other, speed)| {
                    let tied = tied(self.board, load.device, other.device);
                    !tied || (*speed > 0) == (state[at] > 0)
                })
            };
            loads.iter().enumerate().all(together)
        });
        all.retain(|state| {
            let on = |kind| {
                state.iter().zip(loads).filter(|(s, load)| **s == 2 && load.kind == kind).count()
            };
            // What the supply feeds adds up, whatever its phase.
            let added = state.iter().zip(loads).map(|(speed, load)| match speed {
                _ if load.flow.is_none() => 0.0,
                0 => 0.0,
                1 => load.low.unwrap_or(0.0),
                _ => load.high,
            });
            on(Kind::Heater) == 0
                || match allowance {
                    None => true,
                    Some(Allowance::Loads(most)) => on(Kind::Limited) <= usize::from(most),
                    Some(Allowance::Amps(most)) => added.sum::<f64>() <= most.0 * (1.0 + 1e-9),
                }
        });
        all
    }

    /// The largest sum of `part` of each load over all states, `part` giving direction and amounts.
    fn largest(
        &mut self,
        loads: &[&Load],
        allowance: Option<Allowance>,
        part: &dyn Fn(&Load) -> (Phasor, f64, f64),
    ) -> f64 {
        let here: Vec<&Load> = loads
            .iter()
            .copied()
            .filter(|load| {
                let with = loads.iter().any(|it| tied(self.board, it.device, load.device));
                load.kind == Kind::Heater || with || part(load).0 != (0.0, 0.0)
            })
            .collect();
        let states = self.states(&here, allowance);
        self.evaluations += states.len() * here.len();
        let mut largest: f64 = 0.0;
        for state in states {
            let (mut x, mut y) = (0.0, 0.0);
            for (speed, load) in state.iter().zip(&here) {
                let (along, low, high) = part(load);
                let amount = match speed {
                    0 => 0.0,
                    1 => low,
                    _ => high,
                };
                x += along.0 * amount;
                y += along.1 * amount;
            }
            largest = largest.max((x * x + y * y).sqrt());
        }
        largest
    }

    /// The same where every load whose power factor nobody gives may lag by up to 60 degrees: along
    /// each of many directions every load turns as near to it as it can. `None` if that is too much
    /// to go through.
    fn largest_turned(
        &mut self,
        loads: &[&Load],
        allowance: Option<Allowance>,
        part: &dyn Fn(&Load) -> (Phasor, f64, f64),
    ) -> Option<f64> {
        let here: Vec<&Load> = loads
            .iter()
            .copied()
            .filter(|load| {
                let with = loads.iter().any(|it| tied(self.board, it.device, load.device));
                load.kind == Kind::Heater || with || part(load).0 != (0.0, 0.0)
            })
            .collect();
        let unknown = |load: &Load| {
            load.fitted.is_some_and(|index| self.job.equipment[index].power_factor.is_none())
        };
        if !here.iter().any(|load| unknown(load)) {
            return Some(self.largest(loads, allowance, part));
        }
        let states = self.states(&here, allowance);
        let steps = 1440;
        if states.len() * here.len() > 20_000 {
            self.too_large = true;
            return None;
        }
        let turn = std::f64::consts::TAU / f64::from(steps);
        let mut largest: f64 = 0.0;
        for step in 0..steps {
            let direction = f64::from(step) * turn;
            // What an ampere of each load adds along the direction.
            let gains: Vec<f64> = here
                .iter()
                .map(|load| {
                    let (x, y) = part(load).0;
                    let (size, angle) = ((x * x + y * y).sqrt(), libm::atan2(y, x));
                    let ahead = (direction - angle).rem_euclid(std::f64::consts::TAU);
                    // It lags, so its arc is behind it.
                    let behind = std::f64::consts::TAU - ahead;
                    let arc = if unknown(load) { std::f64::consts::FRAC_PI_3 } else { 0.0 };
                    let off = if behind <= arc { 0.0 } else { ahead.min(behind - arc) };
                    size * libm::cos(off)
                })
                .collect();
            for state in &states {
                let sum = state.iter().zip(&here).zip(&gains).map(|((speed, load), gain)| {
                    let (_, low, high) = part(load);
                    gain * match speed {
                        0 => 0.0,
                        1 => low,
                        _ => high,
                    }
                });
                largest = largest.max(sum.sum());
            }
        }
        Some(largest)
    }

    fn conductors(&self) -> Vec<Conductor> {
        let supply = &self.board.supplies[self.job.supply.value.0];
        let mut all: Vec<Conductor> =
            supply.lands.iter().flatten().copied().filter(|c| *c != Conductor::Pe).collect();
        all.sort();
        all.dedup();
        all
    }

    /// Needed current and conductors at every allowance; choices whose currents flow alike are
    /// gone through once.
    fn numbers(&mut self, loads: &[Load]) -> Option<Numbers> {
        let key: Vec<String> = loads
            .iter()
            .map(|load| format!("{:?} {:?} {:?}", load.fitted, load.flow, load.high))
            .collect();
        let key = key.join(";");
        if let Some(known) = self.known.get(&key) {
            return Some(known.clone());
        }
        if self.evaluations > EVALUATIONS {
            self.too_large = true;
            return None;
        }
        let all: Vec<&Load> = loads.iter().collect();
        let mut numbers = Numbers { needed: Vec::new(), conductors: Vec::new() };
        for allowance in allowances(self.board) {
            let (mut needed, mut conductors): (f64, _) = (0.0, Vec::new());
            for conductor in self.conductors() {
                let real = |load: &Load| {
                    (in_conductor(load, conductor), load.low.unwrap_or(0.0), load.high)
                };
                conductors.push((conductor, self.largest(&all, allowance, &real)));
                if conductor.is_line() {
                    let counted = |load: &Load| {
                        (in_conductor(load, conductor), load.counted_low, load.counted_high)
                    };
                    needed = needed.max(self.largest(&all, allowance, &counted));
                }
            }
            numbers.needed.push(needed);
            numbers.conductors.push(conductors);
        }
        self.known.insert(key, numbers.clone());
        Some(numbers)
    }

    fn fuses(&mut self, loads: &[Load], allowance: Option<Allowance>) -> Vec<f64> {
        let mut all = Vec::new();
        for index in 0..self.board.fuses.len() {
            let behind: Vec<&Load> = loads
                .iter()
                .filter(|load| {
                    self.board.headers[load.header.0].fuse.is_some_and(|fuse| fuse.0 == index)
                })
                .collect();
            let real = |load: &Load| ((1.0, 0.0), load.low.unwrap_or(0.0), load.high);
            all.push(self.largest(&behind, allowance, &real));
        }
        all
    }

    /// The largest part in a hundred that any pair of conductors in use loses on the way.
    fn drop(&mut self, loads: &[Load], allowance: Option<Allowance>) -> Option<f64> {
        let run = self.job.run?;
        let system = self.board.supplies[self.job.supply.value.0].system;
        // The tables are compared with published ones elsewhere.
        let ohms = run.wire.ohms_per_km() * run.length.0 / 1e6;
        let mut worst: Option<f64> = None;
        let all: Vec<&Load> = loads.iter().collect();
        for load in loads {
            let Some((a, b, _)) = load.flow else { continue };
            let (p, q) = (potential(system, a), potential(system, b));
            let volts = ((p.0 - q.0).powi(2) + (p.1 - q.1).powi(2)).sqrt();
            let pair = |load: &Load| {
                let (in_a, in_b) = (in_conductor(load, a), in_conductor(load, b));
                ((in_a.0 - in_b.0, in_a.1 - in_b.1), load.low.unwrap_or(0.0), load.high)
            };
            let percent = 100.0 * ohms * self.largest_turned(&all, allowance, &pair)? / volts;
            worst = Some(worst.map_or(percent, |worst| worst.max(percent)));
        }
        worst
    }
}

/// What flows out of a conductor for one ampere of a load.
fn in_conductor(load: &Load, conductor: Conductor) -> Phasor {
    match load.flow {
        Some((from, _, (x, y))) if from == conductor => (x, y),
        Some((_, to, (x, y))) if to == conductor => (-x, -y),
        _ => (0.0, 0.0),
    }
}
