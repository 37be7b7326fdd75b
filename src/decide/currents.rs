//! What each supply conductor carries at the worst, over every state that is allowed.
//!
//! A state says which devices are off, on low or on high. While the heater is on, only so many
//! pumps and blowers as its allowance says may be on high. The current in a conductor is the
//! phasor sum over its devices, and its worst is found without going through the states: whatever
//! the direction of the worst sum is, along that direction each device does its best by itself and
//! the allowance goes to the devices that gain most. Which devices these are changes only at the
//! directions in which two gains are equal or one is nought, so one try between any two
//! neighbouring ones of these is exact.
//!
//! Where the allowance is a current, the heater waits if the sum of all currents would be above it.
//! Which states that leaves no longer hangs on one device by itself, so with the heater on the states
//! are gone through ([`super::budget`]).

use num_complex::Complex;

use super::budget::{self, Take, keeps};
use crate::board::{Allowance, Conductor};

/// How a device counts for the heater allowance in a state.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum AllowanceClass {
    /// The heater: while it is on, the allowance holds.
    Heater,
    /// Off or on, whatever the heater does.
    Free,
    /// A pump or a blower: on high within the allowance, if the heater is on.
    Limited,
}

/// How a device runs in a state.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Running {
    /// It draws nothing, or nothing here.
    Off,
    /// On low.
    Low,
    /// On high, or on.
    High,
}

/// What a device does when others run.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Together {
    /// It runs by itself.
    #[default]
    Alone,
    /// All with this number are on, or all are off. Each must be among the draws, also where nothing
    /// of it flows.
    With(u8),
    /// It is on, on low if it can: what it runs with is on. Set by [`Together::cases`] alone.
    On,
}

impl Together {
    /// The draws in every case of what runs together being on or off: in each nothing is tied any
    /// more. `change` makes one draw what it is then.
    pub(super) fn cases<T: Clone>(all: &[T], draw: impl Fn(&mut T) -> &mut Draw) -> Vec<Vec<T>> {
        let mut cases = vec![all.to_vec()];
        let tied = |one: &T| match draw(&mut one.clone()).together {
            Together::With(number) => Some(number),
            Together::Alone | Together::On => None,
        };
        let mut numbers: Vec<u8> = all.iter().filter_map(tied).collect();
        numbers.sort_unstable();
        numbers.dedup();
        for number in numbers {
            let set = |case: &Vec<T>, on: bool| {
                let mut case = case.clone();
                for one in &mut case {
                    let draw = draw(one);
                    if draw.together == Together::With(number) {
                        *draw = if on { draw.on() } else { draw.off() };
                    }
                }
                case
            };
            cases = cases.iter().flat_map(|case| [set(case, false), set(case, true)]).collect();
        }
        cases
    }
}

/// What a device draws here: amounts along one direction of the phasor plane.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Draw {
    /// The direction in which its current flows out here, usually of length 1.
    pub along: Complex<f64>,
    /// On low; 0 if it has no low speed. Not negative.
    pub low: f64,
    /// On high, or on. Not negative.
    pub high: f64,
    /// How it counts for the heater allowance.
    pub class: AllowanceClass,
    /// What the board adds up for it, where the allowance is a current: on low and on high.
    pub adds: [f64; 2],
    /// What it does when others run.
    pub together: Together,
}

impl Draw {
    fn off(self) -> Self {
        let class = AllowanceClass::Free;
        Self { low: 0.0, high: 0.0, class, adds: [0.0; 2], together: Together::Alone, ..self }
    }

    fn on(self) -> Self {
        Self { together: Together::On, ..self }
    }

    fn must_run(&self) -> bool {
        self.together == Together::On
    }

    fn has_low(&self) -> bool {
        self.class == AllowanceClass::Limited && self.low > 0.0
    }

    /// How one that must run adds the least to what the board adds up, what it draws then, and what is
    /// added. A low speed may draw more than the high one.
    fn that_adds_least(&self) -> (Running, f64, f64) {
        let [low, high] = self.adds;
        if self.has_low() && (low <= high || self.high <= 0.0) {
            (Running::Low, self.low, low)
        } else {
            (Running::High, self.high, high)
        }
    }

    /// How it can run beside the heater, but for off, with what it draws and adds then.
    fn takes(&self) -> Vec<(Running, Take)> {
        let [low, high] = self.adds;
        let mut all = Vec::new();
        if self.must_run() {
            let (least, amps, adds) = self.that_adds_least();
            let (other, more, cost) = match least {
                Running::Low => (Running::High, self.high, high),
                _ => (Running::Low, self.low, low),
            };
            if more > 0.0 && self.has_low() {
                let worth = (more - amps).max(0.0) * size(self.along);
                all.push((other, Take { worth, cost: cost - adds }));
            }
            return all;
        }
        if self.class == AllowanceClass::Limited && self.low > 0.0 {
            all.push((Running::Low, Take { worth: self.low * size(self.along), cost: low }));
        }
        if self.high > 0.0 {
            all.push((Running::High, Take { worth: self.high * size(self.along), cost: high }));
        }
        all
    }

    /// What it draws at least where it may, and what high adds to that.
    pub(super) fn base_and_gain(self) -> (f64, f64) {
        match self.class {
            AllowanceClass::Heater | AllowanceClass::Free => (self.high, 0.0),
            AllowanceClass::Limited if self.must_run() && self.low <= 0.0 => (self.high, 0.0),
            // It may be on low or on high, not off: where it counts against the rest, the less is better.
            AllowanceClass::Limited if self.must_run() => (self.low, self.high - self.low),
            AllowanceClass::Limited => (self.low, (self.high - self.low).max(0.0)),
        }
    }
}

/// How many of the draws run on high whatever is chosen, and count for the heater allowance.
pub(super) fn always_high(draws: &[Draw]) -> usize {
    let always =
        |draw: &&Draw| draw.class == AllowanceClass::Limited && draw.must_run() && !draw.has_low();
    draws.iter().filter(always).count()
}

/// The largest sum and a state that has it.
#[derive(Clone, Debug, PartialEq)]
pub struct Worst {
    /// The sum as a phasor.
    pub sum: Complex<f64>,
    /// How each device runs, in the order of the draws.
    pub running: Vec<Running>,
}

impl Worst {
    /// The size of the sum.
    pub fn amount(&self) -> f64 {
        size(self.sum)
    }
}

/// The largest sum that any allowed state gives. No `allowance` means that all may run on high
/// beside the heater.
pub fn worst(draws: &[Draw], allowance: Option<Allowance>) -> Worst {
    let mut best = Worst { sum: Complex::new(0.0, 0.0), running: vec![Running::Off; draws.len()] };
    for case in Together::cases(draws, |draw| draw) {
        let found = worst_of(&case, allowance);
        if size(found.sum) > best.amount() * (1.0 + 1e-12) + 1e-12 {
            best = found;
        }
    }
    // What must be known of because it runs with another one need not flow here.
    for (running, draw) in best.running.iter_mut().zip(draws) {
        if size(draw.along) <= 0.0 {
            *running = Running::Off;
        }
    }
    best
}

/// The same where nothing is tied to another.
fn worst_of(draws: &[Draw], allowance: Option<Allowance>) -> Worst {
    let mut best = Worst { sum: Complex::new(0.0, 0.0), running: vec![Running::Off; draws.len()] };
    let mut scratch = Scratch::default();
    let (allowance, keeping) = kind(draws, allowance);
    for direction in directions(draws, allowance, &mut scratch) {
        for heating in heats_or_not(draws, allowance, keeping) {
            let sum = pick(draws, allowance, direction, *heating, &mut scratch.gains);
            // What differs in the last digits is the same, and the first found is kept.
            if size(sum) > best.amount() * (1.0 + 1e-12) + 1e-12 {
                best.sum = sum;
                best.running = running(draws, direction, *heating, &scratch.gains);
            }
        }
    }
    let beside = keeping.and_then(|budget| {
        beside_heater(draws, budget, best.amount(), &mut |states| size(sum(draws, states)))
    });
    if let Some((_, running)) = beside {
        best = Worst { sum: sum(draws, &running), running };
    }
    best
}

/// An allowance as a count, or as a current that is not kept to by itself.
pub(super) fn kind(draws: &[Draw], allowance: Option<Allowance>) -> (Option<u8>, Option<f64>) {
    match allowance {
        None => (None, None),
        Some(Allowance::Loads(most)) => (Some(most), None),
        Some(Allowance::Amps(amps)) => {
            let all: f64 = draws.iter().map(|draw| draw.adds[1].max(draw.adds[0])).sum();
            (None, (!keeps(amps.0, all)).then_some(amps.0))
        }
    }
}

/// Whether the heater is on, in the states that are found direction by direction.
pub(super) fn heats_or_not(
    draws: &[Draw],
    allowance: Option<u8>,
    keeping: Option<f64>,
) -> &'static [bool] {
    let too_many = allowance.is_some_and(|most| always_high(draws) > usize::from(most));
    if keeping.is_some() || too_many { &[false] } else { &[false, true] }
}

/// The state with the heater on whose value is the largest above `known`, of all that keep to a
/// budget. `value` gives the value of a state, never more than the plain sum of what runs.
pub(super) fn beside_heater(
    draws: &[Draw],
    budget: f64,
    known: f64,
    value: &mut dyn FnMut(&[Running]) -> f64,
) -> Option<(f64, Vec<Running>)> {
    let heater = draws.iter().position(|draw| draw.class == AllowanceClass::Heater)?;
    let always = draws.iter().filter(|draw| draw.must_run());
    let always: f64 = always.map(|draw| draw.that_adds_least().2).sum();
    let left = budget * (1.0 + 1e-9) - draws.get(heater)?.adds[1] - always;
    if left < 0.0 {
        return None;
    }
    let ways: Vec<Vec<(Running, Take)>> = draws
        .iter()
        .map(|draw| if draw.class == AllowanceClass::Heater { Vec::new() } else { draw.takes() })
        .collect();
    let takes: Vec<Vec<Take>> =
        ways.iter().map(|ways| ways.iter().map(|(_, take)| *take).collect()).collect();
    let states = |chosen: &[usize]| -> Vec<Running> {
        let mut states: Vec<Running> = chosen
            .iter()
            .zip(&ways)
            .zip(draws)
            .map(|((way, ways), draw)| {
                let on = way.checked_sub(1).and_then(|way| ways.get(way));
                let least = if draw.must_run() { draw.that_adds_least().0 } else { Running::Off };
                on.map_or(least, |(running, _)| *running)
            })
            .collect();
        states.get_mut(heater).into_iter().for_each(|state| *state = Running::High);
        states
    };
    // The heater is on in all of them: it takes its part of the budget, and adds to each value.
    let own = draws.get(heater).map_or(0.0, |draw| draw.high * size(draw.along));
    let own = draws
        .iter()
        .filter(|draw| draw.must_run())
        .fold(own, |sum, draw| sum + draw.that_adds_least().1 * size(draw.along));
    let (_, chosen) =
        budget::best(&takes, left, known - own, &mut |chosen| value(&states(chosen)) - own)?;
    let running = states(&chosen);
    Some((value(&running), running))
}

/// The sum of a state.
fn sum(draws: &[Draw], states: &[Running]) -> Complex<f64> {
    let all = draws.iter().zip(states).map(|(draw, running)| match running {
        Running::Off => draw.along * 0.0,
        Running::Low => draw.along * draw.low,
        Running::High => draw.along * draw.high,
    });
    all.sum()
}

/// The size of the largest sum that any allowed state gives.
pub fn peak(draws: &[Draw], allowance: Option<Allowance>, scratch: &mut Scratch) -> f64 {
    if draws.iter().all(|draw| draw.together == Together::Alone) {
        return peak_of(draws, allowance, scratch);
    }
    let cases = Together::cases(draws, |draw| draw);
    cases.iter().map(|case| peak_of(case, allowance, scratch)).fold(0.0, f64::max)
}

/// The same where nothing is tied to another.
fn peak_of(draws: &[Draw], allowance: Option<Allowance>, scratch: &mut Scratch) -> f64 {
    let mut best: f64 = 0.0;
    let (allowance, keeping) = kind(draws, allowance);
    let found = directions(draws, allowance, scratch);
    for direction in &found {
        for heating in heats_or_not(draws, allowance, keeping) {
            best = best.max(size(pick(draws, allowance, *direction, *heating, &mut scratch.gains)));
        }
    }
    scratch.directions = found;
    let beside = keeping.and_then(|budget| {
        beside_heater(draws, budget, best, &mut |states| size(sum(draws, states)))
    });
    beside.map_or(best, |(amount, _)| amount)
}

/// A sum that some allowed state has, along the direction of all that can be there: a bound from
/// below that is found at once. Where all draws have one direction, it is the largest. What runs only
/// together is left off, as what it runs with may be yet to come.
pub fn at_least(draws: &[Draw], allowance: Option<Allowance>, scratch: &mut Scratch) -> f64 {
    if draws.iter().any(|draw| draw.together != Together::Alone) {
        let alone = draws.iter().filter(|draw| draw.together == Together::Alone);
        return at_least(&alone.copied().collect::<Vec<_>>(), allowance, scratch);
    }
    let (allowance, keeping) = kind(draws, allowance);
    let all: Complex<f64> = draws.iter().map(|draw| draw.along * draw.high).sum();
    let off = pick(draws, allowance, all, false, &mut scratch.gains);
    let heats = draws.iter().any(|draw| draw.class == AllowanceClass::Heater);
    if !heats {
        return size(off);
    }
    if let Some(budget) = keeping {
        return size(off).max(some_beside_heater(draws, budget));
    }
    size(off).max(size(pick(draws, allowance, all, true, &mut scratch.gains)))
}

/// The sum of one state with the heater on that keeps to a budget: each device in turn runs as much
/// as is left for it.
fn some_beside_heater(draws: &[Draw], budget: f64) -> f64 {
    let heater = draws.iter().filter(|draw| draw.class == AllowanceClass::Heater);
    let mut left = budget * (1.0 + 1e-9) - heater.clone().map(|draw| draw.adds[1]).sum::<f64>();
    if left < 0.0 {
        return 0.0;
    }
    let mut sum: Complex<f64> = heater.map(|draw| draw.along * draw.high).sum();
    for draw in draws.iter().filter(|draw| draw.class != AllowanceClass::Heater) {
        let [low, high] = draw.adds;
        if draw.high > 0.0 && high <= left {
            left -= high;
            sum += draw.along * draw.high;
        } else if draw.class == AllowanceClass::Limited && low <= left {
            left -= low;
            sum += draw.along * draw.low;
        }
    }
    size(sum)
}

/// Room that is used again, so that a search does not ask for memory at every step.
#[derive(Clone, Debug, Default)]
pub struct Scratch {
    directions: Vec<Complex<f64>>,
    gains: Vec<(f64, usize)>,
}

/// The size of a phasor. Currents are far from the ends of what a number can hold.
pub fn size(phasor: Complex<f64>) -> f64 {
    (phasor.re * phasor.re + phasor.im * phasor.im).sqrt()
}

/// The part of `a` along `b`, if `b` has length 1.
pub(super) fn dot(a: Complex<f64>, b: Complex<f64>) -> f64 {
    a.re * b.re + a.im * b.im
}

/// Above nought if `b` is ahead of `a` by less than half a turn.
pub(super) fn cross(a: Complex<f64>, b: Complex<f64>) -> f64 {
    a.re * b.im - a.im * b.re
}

/// How far beside a direction of equal gains the next one is tried, radians. Two such directions
/// that lie closer together than this can cost the result this part of a current at the most.
const DIRECTION_OFFSET: f64 = 1e-9;

/// Directions to try: at least one between any two neighbouring ones in which the choice of
/// devices changes.
fn directions(draws: &[Draw], allowance: Option<u8>, scratch: &mut Scratch) -> Vec<Complex<f64>> {
    let mut out = std::mem::take(&mut scratch.directions);
    out.clear();
    let Some(first) = draws.iter().find(|draw| size(draw.along) > 0.0) else { return out };
    let flat = |draw: &Draw| cross(first.along, draw.along).abs() <= 1e-12;
    if draws.iter().all(flat) {
        out.extend([first.along, -first.along]);
        return out;
    }
    let mut beside = |w: Complex<f64>| {
        let length = size(w);
        if length > 1e-12 {
            let across = Complex::new(-w.im, w.re) / length;
            let along = w / length * DIRECTION_OFFSET;
            out.extend([across + along, across - along, -across + along, -across - along]);
        }
    };
    for draw in draws {
        beside(draw.along);
    }
    let limited = || draws.iter().filter(|draw| draw.base_and_gain().1 != 0.0);
    let heats = draws.iter().any(|draw| draw.class == AllowanceClass::Heater);
    // Those that are on high whatever is chosen use up the allowance first.
    let asked = limited().count() + always_high(draws);
    if heats && allowance.is_some_and(|most| usize::from(most) < asked) {
        for (index, a) in limited().enumerate() {
            for b in limited().skip(index + 1) {
                beside(a.along * a.base_and_gain().1 - b.along * b.base_and_gain().1);
            }
        }
    }
    out
}

/// The sum of what is best along `direction`; the gains that count are left in `gains`, the
/// largest first.
pub(super) fn pick(
    draws: &[Draw],
    allowance: Option<u8>,
    direction: Complex<f64>,
    heating: bool,
    gains: &mut Vec<(f64, usize)>,
) -> Complex<f64> {
    let mut sum = Complex::new(0.0, 0.0);
    gains.clear();
    for (index, draw) in draws.iter().enumerate() {
        let towards = dot(draw.along, direction);
        if draw.must_run() {
            let (base, gain) = draw.base_and_gain();
            sum += draw.along * base;
            if gain * towards > 0.0 {
                gains.push((gain * towards, index));
            }
            continue;
        }
        // What is at right angles to the direction adds nothing, and is left off.
        if towards <= 0.0 || (draw.class == AllowanceClass::Heater && !heating) {
            continue;
        }
        let (base, gain) = draw.base_and_gain();
        sum += draw.along * base;
        if gain > 0.0 {
            gains.push((gain * towards, index));
        }
    }
    let most = most(allowance, heating).saturating_sub(always_high(draws));
    if gains.len() > most {
        gains.sort_unstable_by(|(a, i), (b, j)| b.total_cmp(a).then(i.cmp(j)));
        gains.truncate(most);
    }
    for (_, index) in gains.iter() {
        if let Some(draw) = draws.get(*index) {
            sum += draw.along * draw.base_and_gain().1;
        }
    }
    sum
}

fn most(allowance: Option<u8>, heating: bool) -> usize {
    match allowance {
        Some(most) if heating => usize::from(most),
        _ => usize::MAX,
    }
}

/// The state that [`pick`] took.
pub(super) fn running(
    draws: &[Draw],
    direction: Complex<f64>,
    heating: bool,
    high: &[(f64, usize)],
) -> Vec<Running> {
    draws
        .iter()
        .enumerate()
        .map(|(index, draw)| {
            let off = dot(draw.along, direction) <= 0.0
                || (draw.class == AllowanceClass::Heater && !heating)
                || draw.high <= 0.0;
            if draw.must_run() {
                if high.iter().any(|(_, i)| *i == index) {
                    Running::High
                } else if draw.has_low() {
                    Running::Low
                } else {
                    Running::High
                }
            } else if off {
                Running::Off
            } else if draw.class != AllowanceClass::Limited || high.iter().any(|(_, i)| *i == index)
            {
                Running::High
            } else if draw.low > 0.0 {
                Running::Low
            } else {
                Running::Off
            }
        })
        .collect()
}

/// How a power factor from 0 to 1 turns a current: it lags, by a phasor of length 1.
pub fn lagging(power_factor: f64) -> Complex<f64> {
    let cos = power_factor.clamp(0.0, 1.0);
    Complex::new(cos, -(1.0 - cos * cos).sqrt())
}

/// Where a device's current flows: out of one supply conductor and back through another.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Flow {
    /// It flows out of this one.
    pub from: Conductor,
    /// It comes back through this one.
    pub to: Conductor,
    /// The direction of the current's phasor in the first, of length 1.
    pub phase: Complex<f64>,
}

impl Flow {
    /// The flow between two conductors with `volts` from the first to the second: in phase with
    /// it, or turned back by a motor's power factor.
    pub fn new(
        [from, to]: [Conductor; 2],
        volts: Complex<f64>,
        power_factor: Option<f64>,
    ) -> Option<Self> {
        let length = size(volts);
        if length <= 0.0 {
            return None;
        }
        Some(Self { from, to, phase: volts / length * lagging(power_factor.unwrap_or(1.0)) })
    }

    /// Its direction in `conductor`: nought where it does not flow. What is drawn between two lines
    /// is never in the neutral.
    pub fn in_conductor(self, conductor: Conductor) -> Complex<f64> {
        let mut sum = Complex::new(0.0, 0.0);
        if self.from == conductor {
            sum += self.phase;
        }
        if self.to == conductor {
            sum -= self.phase;
        }
        sum
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::units::Amps;

    /// Every state, one after the other.
    fn by_trying_all(draws: &[Draw], allowance: Option<Allowance>) -> f64 {
        let mut best: f64 = 0.0;
        for number in 0..3_usize.pow(draws.len() as u32) {
            let digit = |index: usize| number / 3_usize.pow(index as u32) % 3;
            let (mut sum, mut heating, mut high, mut there) =
                (Complex::new(0.0, 0.0), false, 0, true);
            let mut added = 0.0;
            for (index, draw) in draws.iter().enumerate() {
                match digit(index) {
                    0 => {}
                    1 => {
                        // Without a low speed that would be off, which counts where others run too.
                        let has_low = draw.low > 0.0 || draw.together == Together::Alone;
                        there &= draw.class == AllowanceClass::Limited && has_low;
                        sum += draw.along * draw.low;
                        added += draw.adds[0];
                    }
                    _ => {
                        heating |= draw.class == AllowanceClass::Heater;
                        high += usize::from(draw.class == AllowanceClass::Limited);
                        sum += draw.along * draw.high;
                        added += draw.adds[1];
                    }
                }
            }
            // All that run together are on, or all are off.
            let all = || draws.iter().enumerate();
            let together = all().all(|(a, one)| {
                let with = |other: &Draw| {
                    matches!(one.together, Together::With(_)) && other.together == one.together
                };
                all().all(|(b, other)| !with(other) || (digit(a) > 0) == (digit(b) > 0))
            });
            let allowed = !heating || may_run(allowance, high, added);
            if there && allowed && together {
                best = best.max(size(sum));
            }
        }
        best
    }

    fn may_run(allowance: Option<Allowance>, high: usize, added: f64) -> bool {
        match allowance {
            None => true,
            Some(Allowance::Loads(most)) => high <= usize::from(most),
            Some(Allowance::Amps(Amps(most))) => added <= most * (1.0 + 1e-9),
        }
    }

    /// The sum of the state that was found, and whether it is allowed.
    fn of_state(draws: &[Draw], found: &Worst, allowance: Option<Allowance>) -> Option<f64> {
        let all = || draws.iter().zip(&found.running);
        let on = |class| all().filter(|(d, r)| d.class == class && **r == Running::High).count();
        let added = all().map(|(draw, running)| match running {
            Running::Off => 0.0,
            Running::Low => draw.adds[0],
            Running::High => draw.adds[1],
        });
        let allowed = on(AllowanceClass::Heater) == 0
            || may_run(allowance, on(AllowanceClass::Limited), added.sum());
        let sum: Complex<f64> = all()
            .map(|(draw, running)| match running {
                Running::Off => draw.along * 0.0,
                Running::Low => draw.along * draw.low,
                Running::High => draw.along * draw.high,
            })
            .sum();
        allowed.then(|| size(sum))
    }

    fn allowance() -> impl Strategy<Value = Allowance> {
        let amps = (1_u32..600).prop_map(|tenths| Allowance::Amps(Amps(f64::from(tenths) / 10.0)));
        prop_oneof![(0_u8..5).prop_map(Allowance::Loads), amps]
    }

    /// A draw along one of a few directions, as real supplies give them, or along any.
    fn draw() -> impl Strategy<Value = Draw> {
        let angle = prop_oneof![
            3 => prop::sample::select(vec![0.0, 180.0, 30.0, -30.0, 120.0, -120.0, 150.0]),
            1 => -180.0..180.0,
        ];
        let class = prop_oneof![
            Just(AllowanceClass::Free),
            Just(AllowanceClass::Limited),
            Just(AllowanceClass::Limited)
        ];
        (angle, 0_u32..40, 1_u32..120, class, 1_u32..=2, 0_u32..=4).prop_map(
            |(degrees, low, high, class, length, parts)| {
                let angle = crate::units::Angle::degrees(degrees);
                let along = Complex::new(angle.cos(), angle.sin()) * f64::from(length);
                let low =
                    if class == AllowanceClass::Limited { f64::from(low) / 10.0 } else { 0.0 };
                let high = f64::from(high) / 10.0;
                // What counts on a breaker is up to a quarter more than what the board adds up.
                let part = 1.0 - f64::from(parts) * 0.05;
                Draw {
                    along,
                    low,
                    high,
                    class,
                    adds: [low * part, high * part],
                    together: Together::Alone,
                }
            },
        )
    }

    proptest! {
        #![proptest_config(ProptestConfig {
            failure_persistence: None,
            ..ProptestConfig::with_cases(6000)
        })]

        #[test]
        fn no_state_is_worse_than_the_worst(
            mut draws in prop::collection::vec(draw(), 0..7),
            heater in prop::option::of(draw()),
            allowance in prop::option::of(allowance()),
            tied in prop::collection::vec(0_u8..6, 7),
        ) {
            // One in three runs with another one.
            for (draw, number) in draws.iter_mut().zip(tied) {
                if number < 2 {
                    draw.together = Together::With(number);
                }
            }
            draws.extend(heater.map(|heater| Draw { class: AllowanceClass::Heater, low: 0.0, ..heater }));
            let found = worst(&draws, allowance);
            let tried = by_trying_all(&draws, allowance);
            prop_assert!((found.amount() - tried).abs() < 1e-6, "{} {}", found.amount(), tried);
            let least = peak(&draws, allowance, &mut Scratch::default());
            prop_assert!((least - tried).abs() < 1e-6, "{} {}", least, tried);
            let bound = at_least(&draws, allowance, &mut Scratch::default());
            prop_assert!(bound <= tried + 1e-6, "{} {}", bound, tried);
            let state = of_state(&draws, &found, allowance);
            prop_assert!(state.is_some_and(|sum| (sum - tried).abs() < 1e-6), "{:?}", found);
        }
    }

    /// By hand: a pump of 10 A on one line and a lamp of 4 A on the other, which is on when the pump
    /// is. In the neutral they take from each other: 6 A, and never the 10 A or 4 A of one alone. Beside
    /// a heater that allows no pump on high the lamp is off, too.
    #[test]
    fn what_runs_together_is_on_at_once() {
        let draw = |along, high, class, together| {
            let along = Complex::new(along, 0.0);
            Draw { along, low: 0.0, high, class, adds: [0.0, high], together }
        };
        let with = Together::With(0);
        let pump = draw(1.0, 10.0, AllowanceClass::Limited, with);
        let lamp = draw(-1.0, 4.0, AllowanceClass::Free, with);
        assert!((worst(&[pump, lamp], None).amount() - 6.0).abs() < 1e-12);
        let heater = draw(-1.0, 20.0, AllowanceClass::Heater, Together::Alone);
        let most = |allowance| worst(&[heater, pump, lamp], Some(allowance));
        // Heater and lamp would be 24 A.
        let none = most(Allowance::Loads(0));
        assert_eq!(none.running, [Running::High, Running::Off, Running::Off]);
        assert!((none.amount() - 20.0).abs() < 1e-12);
        // As a current: 33.9 A are too little for all three.
        assert!((most(Allowance::Amps(Amps(33.9))).amount() - 20.0).abs() < 1e-12);
    }

    /// By hand: a pump that draws 2.0 A on low and 0.1 A on high, with a lamp of 2.5 A that is on when it
    /// is, and a heater of 10.8 A. Of 13.5 A that the heater allows, low is too much (15.3 A); high is not
    /// (13.4 A).
    #[test]
    fn a_low_speed_may_draw_more_than_the_high_one() {
        let along = Complex::new(1.0, 0.0);
        let draw = |low, high, class, together| Draw {
            along,
            low,
            high,
            class,
            adds: [low, high],
            together,
        };
        let with = Together::With(0);
        let draws = [
            draw(2.0, 0.1, AllowanceClass::Limited, with),
            draw(0.0, 2.5, AllowanceClass::Free, with),
            draw(0.0, 10.8, AllowanceClass::Heater, Together::Alone),
        ];
        let most = |amps| worst(&draws, Some(Allowance::Amps(Amps(amps)))).amount();
        assert!((most(13.5) - 13.4).abs() < 1e-12);
        assert!((most(13.3) - 10.8).abs() < 1e-12);
        assert!((most(15.4) - 15.3).abs() < 1e-12);
    }

    /// Two pumps of 10 A and 6 A, a heater of 16 A, all in one direction: with an allowance of one
    /// the larger pump runs on high and the smaller on low.
    #[test]
    fn the_allowance_goes_to_those_that_gain_most() {
        let along = Complex::new(1.0, 0.0);
        let together = Together::Alone;
        let draw = |low, high, class| Draw { along, low, high, class, adds: [low, high], together };
        let draws = [
            draw(0.0, 16.0, AllowanceClass::Heater),
            draw(2.0, 6.0, AllowanceClass::Limited),
            draw(3.0, 10.0, AllowanceClass::Limited),
        ];
        let found = worst(&draws, Some(Allowance::Loads(1)));
        assert_eq!(found.running, [Running::High, Running::Low, Running::High]);
        assert!((found.amount() - 28.0).abs() < 1e-12);
        // Without the heater both may run on high, but that is less.
        assert!((worst(&draws, Some(Allowance::Loads(0))).amount() - 21.0).abs() < 1e-12);
        // As a current: 28 A is kept to by the same state, 27.9 A by the small pump on high and the
        // large one on low (25 A), or the large one alone (26 A). 15.9 A holds the heater off: 16 A.
        let amps = |amps| worst(&draws, Some(Allowance::Amps(Amps(amps))));
        assert_eq!(amps(28.0).running, [Running::High, Running::Low, Running::High]);
        assert_eq!(amps(27.9).running, [Running::High, Running::Off, Running::High]);
        assert!((amps(27.9).amount() - 26.0).abs() < 1e-12);
        assert_eq!(amps(15.9).running, [Running::Off, Running::High, Running::High]);
        // All three at once, which no count of two holds back.
        assert!((amps(32.0).amount() - 32.0).abs() < 1e-12);
    }
}
