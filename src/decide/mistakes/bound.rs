//! Bounds on what a device gets, where there are too many combinations to go through.
//!
//! With one floating point its potential is the ratio of two sums, V = I / Y (Millman), and a probe
//! c + s V is (c Y + s I) / Y: again a ratio N / D of sums, to which each device adds by itself. All
//! admittances lie within an angle; let w be the middle of it and h its half. Then for every
//! combination cos h |D| <= Re(w* D) <= |D|, and for directions u that are 2 pi / K apart some Re(u*
//! N) >= cos(pi / K) |N|. So |N| / |D| is at most the largest Re(u* N) / Re(w* D) over cos(pi / K),
//! and at least cos h times it for any u. The largest ratio of two such sums is found exactly by
//! Dinkelbach's iteration (1967): for a ratio that is tried, each device does its best by itself, and
//! the allowance goes to those that gain most. With one power factor for all, h is nought.

use std::sync::Arc;

use num_complex::Complex;

use super::super::currents::{AllowanceClass, size};
use super::circuit::LEAK;
use super::device_load::{Part, Player, Probe};
use super::state::Command;
use crate::units::Angle;

/// In how many directions a sum is measured: the bound is at most 0.5 % above for that.
const DIRECTIONS: u16 = 32;

/// Bounds over the combinations of the devices that load an island of floating points.
pub struct Bounds<'a> {
    loads: &'a [&'a Player],
    island: &'a [usize],
    allowance: usize,
    /// The middle of the angle in which all admittances lie, of length 1.
    middle: Complex<f64>,
    /// The cosine of half of it.
    cosine: f64,
}

/// What each part of each device adds to the two sums of a ratio.
type Terms = Vec<Vec<Sums>>;

/// Two sums, or what is added to them: above and below the line of a ratio.
type Sums = (f64, f64);

impl<'a> Bounds<'a> {
    /// `loads` are all that draw from the island or feed it.
    pub fn new(loads: &'a [&'a Player], island: &'a [usize], allowance: usize) -> Self {
        let parts = || loads.iter().flat_map(|player| &player.parts).map(|part| &**part);
        let own = |part: &'a Part| {
            let own = move |point: &usize| part.admits.get(*point)?.get(*point).copied();
            island.iter().filter_map(own)
        };
        let angles = parts().flat_map(own).filter(|it| size(*it) > 10.0 * LEAK);
        let angles = angles.map(|it| libm::atan2(it.im, it.re));
        let (least, most) = angles
            .fold(None, |known: Option<(f64, f64)>, angle| {
                let (least, most) = known.unwrap_or((angle, angle));
                Some((least.min(angle), most.max(angle)))
            })
            .unwrap_or_default();
        let (middle, half) = ((least + most) / 2.0, ((most - least) / 2.0).max(0.0));
        let middle = Complex::new(libm::cos(middle), libm::sin(middle));
        Self { loads, island, allowance, middle, cosine: libm::cos(half) }
    }

    /// The least and the most of the size of a probe. `own` is the device of the probe among the
    /// loads with the part that it is on; `None` if it is none of them.
    pub fn of(&self, own: Option<(usize, usize)>, part: &Part, probe: Probe) -> (f64, f64) {
        match self.island {
            [point] => self.of_ratio(own, part.line(probe, *point), *point),
            points => (0.0, self.of_several(part, probe, points)),
        }
    }

    fn of_ratio(
        &self,
        own: Option<(usize, usize)>,
        (constant, slope): (Complex<f64>, Complex<f64>),
        point: usize,
    ) -> (f64, f64) {
        if size(slope) <= 1e-9 {
            return (size(constant), size(constant));
        }
        let sums = |part: &Part| {
            let admits = part.admits.get(point).and_then(|row| row.get(point));
            let admits = admits.copied().unwrap_or_default();
            let injects = part.injects.get(point).copied().unwrap_or_default();
            (constant * admits + slope * injects, (self.middle.conj() * admits).re)
        };
        let along = |direction: Complex<f64>, sign: f64| -> Terms {
            let term = |part: &Arc<Part>| {
                let (above, below) = sums(part);
                (sign * (direction.conj() * above).re, below)
            };
            self.loads.iter().map(|player| player.parts.iter().map(term).collect()).collect()
        };
        // The leak is taken to lie in the middle of the angle: too little to matter where anything
        // runs, and exact where nothing does.
        let leak = |direction: Complex<f64>, sign: f64| {
            (sign * (direction.conj() * constant * self.middle).re * LEAK, LEAK)
        };
        let (mut most, mut least): (f64, f64) = (0.0, 0.0);
        for step in 0..DIRECTIONS {
            let angle = Angle::degrees(360.0 * f64::from(step) / f64::from(DIRECTIONS));
            let direction = Complex::new(angle.cos(), angle.sin());
            most = self.largest(own, &along(direction, 1.0), leak(direction, 1.0), most);
            // The smallest along a direction is the largest against it.
            let against = along(direction, -1.0);
            let start = -LARGE;
            let smallest = -self.largest(own, &against, leak(direction, -1.0), start);
            least = least.max(smallest);
        }
        let step = Angle::degrees(180.0 / f64::from(DIRECTIONS)).cos();
        (least * self.cosine, most / step)
    }

    /// The largest ratio of the two sums, if it is more than `known`; else that.
    fn largest(
        &self,
        own: Option<(usize, usize)>,
        terms: &Terms,
        leak: (f64, f64),
        known: f64,
    ) -> f64 {
        let mut ratio = known;
        // Each round gives the ratio of a combination, which is larger than any before it: so this
        // ends. Rounding is the reason for the limit.
        for _ in 0..50 {
            let (above, below) = self.best(own, terms, ratio);
            let (above, below) = (above + leak.0, below + leak.1);
            let next = above / below.max(f64::MIN_POSITIVE);
            if next <= ratio + 1e-12 * ratio.abs() {
                break;
            }
            ratio = next;
        }
        ratio
    }

    /// The two sums of the combination with the largest `above - ratio * below`.
    fn best(&self, own: Option<(usize, usize)>, terms: &Terms, ratio: f64) -> (f64, f64) {
        let off = self.combination(own, terms, ratio, false);
        let on = self.combination(own, terms, ratio, true);
        let value = |(above, below): (f64, f64)| above - ratio * below;
        match (off, on) {
            (Some(off), Some(on)) => {
                if value(on) > value(off) {
                    on
                } else {
                    off
                }
            }
            (off, on) => off.or(on).unwrap_or((0.0, 0.0)),
        }
    }

    /// The best combination with the heater off or on; `None` if there is none.
    fn combination(
        &self,
        own: Option<(usize, usize)>,
        terms: &Terms,
        ratio: f64,
        heating: bool,
    ) -> Option<(f64, f64)> {
        let value = |(above, below): (f64, f64)| above - ratio * below;
        let mut sum = (0.0, 0.0);
        let add = |sum: &mut (f64, f64), it: (f64, f64)| *sum = (sum.0 + it.0, sum.1 + it.1);
        // What running on high instead of what is best without it gains, and changes.
        let mut gains: Vec<(f64, (f64, f64))> = Vec::new();
        let (mut heats, mut left) = (false, self.allowance);
        for (place, (player, terms)) in self.loads.iter().zip(terms).enumerate() {
            let fixed = own.filter(|(known, _)| *known == place).map(|(_, index)| index);
            let is_heater = player.class == AllowanceClass::Heater;
            heats |= is_heater;
            let limited = player.class == AllowanceClass::Limited && heating;
            let allowed = |index: usize, part: &Part| {
                let on = part.command != Command::Off;
                fixed.is_none_or(|fixed| fixed == index)
                    && (!is_heater || on == heating)
                    && (on || !heating || !player.must_move_water(self.allowance))
            };
            let (mut base, mut high): (Option<Sums>, Option<Sums>) = (None, None);
            for (index, (part, term)) in player.parts.iter().zip(terms).enumerate() {
                if !allowed(index, part) {
                    continue;
                }
                let best =
                    if limited && part.command == Command::High { &mut high } else { &mut base };
                if best.is_none_or(|known| value(*term) > value(known)) {
                    *best = Some(*term);
                }
            }
            match (base, high) {
                (Some(base), Some(high)) => {
                    add(&mut sum, base);
                    if value(high) > value(base) {
                        let change = (high.0 - base.0, high.1 - base.1);
                        gains.push((value(change), change));
                    }
                }
                (Some(base), None) => add(&mut sum, base),
                // It must be on high.
                (None, Some(high)) => {
                    left = left.checked_sub(1)?;
                    add(&mut sum, high);
                }
                (None, None) => return None,
            }
        }
        if heating && !heats {
            return None;
        }
        gains.sort_by(|(a, _), (b, _)| b.total_cmp(a));
        gains.iter().take(left).for_each(|(_, change)| add(&mut sum, *change));
        Some(sum)
    }

    /// Several floating points that depend on each other: each is taken to be anywhere between the
    /// potentials that it is joined to, and nought. With one power factor for all that is certain (no
    /// point of a network is beyond what it hangs on); with several it is widened by the same factor
    /// as for one point, which is not proved.
    fn of_several(&self, part: &Part, probe: Probe, points: &[usize]) -> f64 {
        let parts = || self.loads.iter().flat_map(|player| &player.parts);
        let reached = points.iter().flat_map(|point| {
            parts().filter_map(move |part| {
                let admits = size(*part.admits.get(*point)?.get(*point)?);
                let injects = size(*part.injects.get(*point)?);
                (admits > 10.0 * LEAK).then_some(injects / admits)
            })
        });
        let furthest = reached.fold(0.0, f64::max) / self.cosine.max(0.1);
        let lines = points.iter().map(|point| part.line(probe, *point));
        let moved: f64 = lines.map(|(_, slope)| size(slope) * furthest).sum();
        points.first().map_or(0.0, |point| size(part.line(probe, *point).0)) + moved
    }
}

/// Far beyond every voltage and current.
const LARGE: f64 = 1e9;
