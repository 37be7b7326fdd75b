//! What each supply conductor carries at the worst, over every state that is allowed.
//!
//! A state says which devices are off, on low or on high. While the heater is on, only so many
//! pumps and blowers as its allowance says may be on high. The current in a conductor is the
//! phasor sum over its devices, and its worst is found without going through the states: whatever
//! the direction of the worst sum is, along that direction each device does its best by itself and
//! the allowance goes to the devices that gain most. Which devices these are changes only at the
//! directions in which two gains are equal or one is nought, so one try between any two
//! neighbouring ones of these is exact.

use num_complex::Complex;

use crate::board::Conductor;

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
}

impl Draw {
    /// What it draws at least where it may, and what high adds to that.
    pub(super) fn base_and_gain(self) -> (f64, f64) {
        match self.class {
            AllowanceClass::Heater | AllowanceClass::Free => (self.high, 0.0),
            AllowanceClass::Limited => (self.low, (self.high - self.low).max(0.0)),
        }
    }
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
pub fn worst(draws: &[Draw], allowance: Option<u8>) -> Worst {
    let mut best = Worst { sum: Complex::new(0.0, 0.0), running: vec![Running::Off; draws.len()] };
    let mut scratch = Scratch::default();
    for direction in directions(draws, allowance, &mut scratch) {
        for heating in [false, true] {
            let sum = pick(draws, allowance, direction, heating, &mut scratch.gains);
            // What differs in the last digits is the same, and the first found is kept.
            if size(sum) > best.amount() * (1.0 + 1e-12) + 1e-12 {
                best.sum = sum;
                best.running = running(draws, direction, heating, &scratch.gains);
            }
        }
    }
    best
}

/// The size of the largest sum that any allowed state gives.
pub fn peak(draws: &[Draw], allowance: Option<u8>, scratch: &mut Scratch) -> f64 {
    let mut best: f64 = 0.0;
    let found = directions(draws, allowance, scratch);
    for direction in &found {
        for heating in [false, true] {
            best = best.max(size(pick(draws, allowance, *direction, heating, &mut scratch.gains)));
        }
    }
    scratch.directions = found;
    best
}

/// A sum that some allowed state has, along the direction of all that can be there: a bound from
/// below that is found at once. Where all draws have one direction, it is the largest.
pub fn at_least(draws: &[Draw], allowance: Option<u8>, scratch: &mut Scratch) -> f64 {
    let all: Complex<f64> = draws.iter().map(|draw| draw.along * draw.high).sum();
    let off = pick(draws, allowance, all, false, &mut scratch.gains);
    let heats = draws.iter().any(|draw| draw.class == AllowanceClass::Heater);
    if !heats {
        return size(off);
    }
    size(off).max(size(pick(draws, allowance, all, true, &mut scratch.gains)))
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
    let limited = || draws.iter().filter(|draw| draw.base_and_gain().1 > 0.0);
    let heats = draws.iter().any(|draw| draw.class == AllowanceClass::Heater);
    if heats && allowance.is_some_and(|most| usize::from(most) < limited().count()) {
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
    let most = most(allowance, heating);
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
            if off {
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

    /// Every state, one after the other.
    fn by_trying_all(draws: &[Draw], allowance: Option<u8>) -> f64 {
        let mut best: f64 = 0.0;
        for number in 0..3_usize.pow(draws.len() as u32) {
            let digit = |index: usize| number / 3_usize.pow(index as u32) % 3;
            let (mut sum, mut heating, mut high, mut there) =
                (Complex::new(0.0, 0.0), false, 0, true);
            for (index, draw) in draws.iter().enumerate() {
                match digit(index) {
                    0 => {}
                    1 => {
                        there &= draw.class == AllowanceClass::Limited;
                        sum += draw.along * draw.low;
                    }
                    _ => {
                        heating |= draw.class == AllowanceClass::Heater;
                        high += usize::from(draw.class == AllowanceClass::Limited);
                        sum += draw.along * draw.high;
                    }
                }
            }
            let allowed = !heating || allowance.is_none_or(|most| high <= usize::from(most));
            if there && allowed {
                best = best.max(size(sum));
            }
        }
        best
    }

    /// The sum of the state that was found, and whether it is allowed.
    fn of_state(draws: &[Draw], found: &Worst, allowance: Option<u8>) -> Option<f64> {
        let all = || draws.iter().zip(&found.running);
        let on = |class| all().filter(|(d, r)| d.class == class && **r == Running::High).count();
        let allowed = on(AllowanceClass::Heater) == 0
            || allowance.is_none_or(|most| on(AllowanceClass::Limited) <= usize::from(most));
        let sum: Complex<f64> = all()
            .map(|(draw, running)| match running {
                Running::Off => draw.along * 0.0,
                Running::Low => draw.along * draw.low,
                Running::High => draw.along * draw.high,
            })
            .sum();
        allowed.then(|| size(sum))
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
        (angle, 0_u32..40, 1_u32..120, class, 1_u32..=2).prop_map(
            |(degrees, low, high, class, length)| {
                let angle = crate::units::Angle::degrees(degrees);
                let along = Complex::new(angle.cos(), angle.sin()) * f64::from(length);
                let low =
                    if class == AllowanceClass::Limited { f64::from(low) / 10.0 } else { 0.0 };
                Draw { along, low, high: f64::from(high) / 10.0, class }
            },
        )
    }

    proptest! {
        #![proptest_config(ProptestConfig {
            failure_persistence: None,
            ..ProptestConfig::with_cases(2000)
        })]

        #[test]
        fn no_state_is_worse_than_the_worst(
            mut draws in prop::collection::vec(draw(), 0..7),
            heater in prop::option::of(draw()),
            allowance in prop::option::of(0_u8..5),
        ) {
            draws.extend(heater.map(|heater| Draw { class: AllowanceClass::Heater, low: 0.0, ..heater }));
            let found = worst(&draws, allowance);
            let tried = by_trying_all(&draws, allowance);
            prop_assert!((found.amount() - tried).abs() < 1e-6, "{} {}", found.amount(), tried);
            let least = peak(&draws, allowance, &mut Scratch::default());
            prop_assert!((least - tried).abs() < 1e-6, "{} {}", least, tried);
            let state = of_state(&draws, &found, allowance);
            prop_assert!(state.is_some_and(|sum| (sum - tried).abs() < 1e-6), "{:?}", found);
        }
    }

    /// Two pumps of 10 A and 6 A, a heater of 16 A, all in one direction: with an allowance of one
    /// the larger pump runs on high and the smaller on low.
    #[test]
    fn the_allowance_goes_to_those_that_gain_most() {
        let along = Complex::new(1.0, 0.0);
        let draws = [
            Draw { along, low: 0.0, high: 16.0, class: AllowanceClass::Heater },
            Draw { along, low: 2.0, high: 6.0, class: AllowanceClass::Limited },
            Draw { along, low: 3.0, high: 10.0, class: AllowanceClass::Limited },
        ];
        let found = worst(&draws, Some(1));
        assert_eq!(found.running, [Running::High, Running::Low, Running::High]);
        assert!((found.amount() - 28.0).abs() < 1e-12);
        // Without the heater both may run on high, but that is less.
        assert!((worst(&draws, Some(0)).amount() - 21.0).abs() < 1e-12);
    }
}
