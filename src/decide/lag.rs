//! What supply conductors can carry if the devices lag whose power factor nobody gives.
//!
//! The currents of a plan count such a device in phase with its voltage. Where every device does,
//! and the supply has one phase, split or not, nothing can be worse than that:
//!
//! - In a line all currents then have one direction, and no sum is larger than that of the sizes.
//! - In the neutral they have two opposite directions. Lagging by 60 degrees at the most, those of
//!   one line lie within 60 degrees, those of the other within the opposite 60. So the sums a and b
//!   of the two are at least 120 degrees apart, and |a + b|² ≤ |a|² + |b|² - |a| |b|, which is no
//!   more than the larger of |a|² and |b|². The larger alone is a state too, as what runs in an
//!   allowed state may always be off.
//!
//! What runs only together with another device may not be off by itself: in step its current can take
//! from that of the other in the neutral, and late it takes less. So this holds only without such.
//!
//! It can be worse on three phases, where a current between two lines leads that to the neutral by
//! 30 degrees and two lines meet in the neutral 120 degrees apart; and wherever some power factors
//! are given and others not, as one that lags as much as a known one adds to it in full. So the
//! largest sum is found for every supply alike.
//!
//! Harmonics are left out: what electronic devices of this size put into the neutral is small
//! beside a pump.

use num_complex::Complex;

use super::arcs::{LargestSum, Turning, largest_sum};
use super::currents::{Draw, Running, Together, dot, lagging};
use super::jumpers::{Amount, Fit, GroupOption, Plugged, allowances};
use super::loads::ConductorLoad;
use super::rules::carries;
use crate::board::{Allowance, Board, Conductor, Device, Job};
use crate::units::Amps;

/// The lowest power factor that a device is taken to have if none is given. Common practice, from
/// memory: at the current of their plates single-phase motors lie from about 0.5 (small, shaded
/// pole) by 0.6 to 0.8 (capacitor start) up to above 0.9 (running capacitor); ballasts and
/// transformers are not below. A current that leads is not thought of.
pub const LOWEST: f64 = 0.5;

/// By how much a conductor's current may exceed what is printed before anybody is told, as a part
/// of it.
pub const TELL: f64 = 0.01;

/// What unknown power factors can bring.
#[derive(Clone, Debug, PartialEq)]
pub struct Lag {
    /// Which of the job's equipment, in its order: what has no power factor and draws from the
    /// mains.
    pub unknown: Vec<usize>,
    /// Conductors that can carry more than [`TELL`] above what is printed.
    pub conductors: Vec<UpTo>,
    /// If the fitted breaker, which carries what is printed, does not carry this.
    pub breaker: Option<Beyond>,
    /// If the board, which may carry what is printed, may not carry this.
    pub board: Option<Beyond>,
}

/// What a conductor can carry.
#[derive(Clone, Debug, PartialEq)]
pub struct UpTo {
    /// The conductor.
    pub conductor: Conductor,
    /// What is printed.
    pub printed: Amps,
    /// The most that it can carry.
    pub amps: Amps,
    /// What runs then, and at which power factor, in the order of the headers.
    pub running: Vec<(Device, Running, f64)>,
}

/// A conductor that can carry too much.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Beyond {
    /// The conductor.
    pub conductor: Conductor,
    /// What it can carry; for the breaker, what that counts for.
    pub amps: Amps,
    /// The highest of the lower heater allowances at which it is carried all the same.
    pub lower: Option<Allowance>,
}

/// What can be worse than `printed`, the currents of the plan; `None` if nothing can.
pub fn lag(board: &Board, job: &Job, fit: &Fit, printed: &[ConductorLoad]) -> Option<Lag> {
    let case = LagCase { board, job, fit };
    let unknown: Vec<usize> = (0..job.equipment.len())
        .filter(|index| {
            let here = |plugged: &&Plugged| plugged.fitted == Some(*index);
            let plugged = fit.plugged.iter().find(here);
            plugged.is_some_and(|plugged| {
                plugged.choice.flow.is_some() && case.power_factor(plugged).is_none()
            })
        })
        .collect();
    if unknown.is_empty() {
        return None;
    }
    let conductors: Vec<UpTo> = printed
        .iter()
        .map(|load| case.up_to(load))
        .filter(|up_to| up_to.amps.0 > up_to.printed.0 * (1.0 + TELL))
        .collect();
    // What is refused as it is printed has been told already.
    let (breaker, over) = if fit.carried { case.beyond() } else { (None, None) };
    let worse = !conductors.is_empty() || breaker.is_some() || over.is_some();
    worse.then_some(Lag { unknown, conductors, breaker, board: over })
}

/// The largest difference of the currents in two conductors, whatever the power factors that nobody
/// gives: which devices there are, and what they carry.
pub fn between(
    board: &Board,
    job: &Job,
    fit: &Fit,
    [a, b]: [Conductor; 2],
) -> (Vec<Device>, LargestSum) {
    LagCase { board, job, fit }.largest_between(a, b)
}

#[derive(Clone, Copy)]
struct LagCase<'a> {
    board: &'a Board,
    job: &'a Job,
    fit: &'a Fit,
}

impl LagCase<'_> {
    fn up_to(&self, load: &ConductorLoad) -> UpTo {
        let (devices, found) =
            self.largest_sum(load.conductor, |choice| choice.real, self.fit.allowance);
        let states = devices.into_iter().zip(found.running).zip(found.along);
        let running = states.filter(|((_, running), _)| *running != Running::Off);
        UpTo {
            conductor: load.conductor,
            printed: load.amps,
            amps: Amps(found.amount),
            running: running
                .map(|(((device, in_phase), running), along)| {
                    (device, running, dot(in_phase, along))
                })
                .collect(),
        }
    }

    /// What is too much for the breaker, and what for the board.
    fn beyond(&self) -> (Option<Beyond>, Option<Beyond>) {
        let breaker = self.job.breaker.value;
        let over = |most: Option<(Conductor, Amps)>, limit: Amps| {
            most.filter(|(_, amps)| !carries(limit, *amps))
        };
        let on_breaker = |allowance| over(self.most_counted(allowance), breaker);
        let on_board = |allowance| {
            self.board
                .max_current(self.job.supply.value)
                .and_then(|max| over(self.most(allowance), max))
        };
        let allowance = self.fit.allowance;
        let lower = |is_over: &dyn Fn(Option<Allowance>) -> bool| {
            let lower = allowances(self.board).into_iter().filter(|other| *other < allowance);
            // The highest comes first.
            lower.filter(|other| !is_over(*other)).flatten().next()
        };
        let beyond = |found: Option<(Conductor, Amps)>,
                      is_over: &dyn Fn(Option<Allowance>) -> bool| {
            found.map(|(conductor, amps)| Beyond { conductor, amps, lower: lower(is_over) })
        };
        (
            beyond(on_breaker(allowance), &|other| on_breaker(other).is_some()),
            beyond(on_board(allowance), &|other| on_board(other).is_some()),
        )
    }

    /// The most that a line can count for. A marked circuit governs what counts; what really flows
    /// must be carried then.
    fn most_counted(&self, allowance: Option<Allowance>) -> Option<(Conductor, Amps)> {
        let marked = self.job.marked.circuit.is_some();
        let lines = self.conductors().filter(|conductor| conductor.is_line());
        largest(lines.map(|line| {
            let amount = |choice: &GroupOption| if marked { choice.real } else { choice.counted };
            (line, Amps(self.largest_sum(line, amount, allowance).1.amount))
        }))
    }

    /// The most that any conductor can carry.
    fn most(&self, allowance: Option<Allowance>) -> Option<(Conductor, Amps)> {
        largest(self.conductors().map(|conductor| {
            (conductor, Amps(self.largest_sum(conductor, |choice| choice.real, allowance).1.amount))
        }))
    }

    fn conductors(&self) -> impl Iterator<Item = Conductor> {
        let all = self.board[self.job.supply.value].conductors().into_iter();
        all.filter(|conductor| *conductor != Conductor::Pe)
    }

    /// The largest difference of the currents in two conductors: what a supply run takes from the
    /// voltage between them, for each ohm of one.
    fn largest_between(&self, a: Conductor, b: Conductor) -> (Vec<Device>, LargestSum) {
        let late = lagging(LOWEST);
        let all = self.fit.plugged.iter().filter_map(|plugged| {
            let choice = &plugged.choice;
            let along = match choice.flow {
                Some(flow) => flow.in_conductor(a) - flow.in_conductor(b),
                None if choice.together == Together::Alone => return None,
                None => Complex::new(0.0, 0.0),
            };
            let (Amount { low, high }, together) = (choice.real, choice.together);
            let (class, adds) = (plugged.class, choice.adds());
            let draw = Draw { along, low, high, class, adds, together };
            let latest = match self.power_factor(plugged) {
                Some(_) => along,
                None => along * late,
            };
            Some((plugged.slot.device, Turning { draw, latest }))
        });
        let (devices, draws): (Vec<Device>, Vec<Turning>) = all.unzip();
        (devices, largest_sum(&draws, self.fit.allowance))
    }

    /// The most in a conductor; and each device that flows there, with the direction that its
    /// current has at a power factor of 1.
    fn largest_sum(
        &self,
        conductor: Conductor,
        amount: impl Fn(&GroupOption) -> Amount,
        allowance: Option<Allowance>,
    ) -> (Vec<(Device, Complex<f64>)>, LargestSum) {
        let late = lagging(LOWEST);
        let all = self.fit.plugged.iter().filter_map(|plugged| {
            let choice = &plugged.choice;
            let draw = choice.draw(conductor, amount(choice), plugged.class)?;
            let (in_phase, latest) = match self.power_factor(plugged) {
                Some(known) => (draw.along * lagging(known).conj(), draw.along),
                None => (draw.along, draw.along * late),
            };
            Some(((plugged.slot.device, in_phase), Turning { draw, latest }))
        });
        let (devices, draws): (Vec<(Device, Complex<f64>)>, Vec<Turning>) = all.unzip();
        (devices, largest_sum(&draws, allowance))
    }

    /// The power factor, if anybody gives it. That of a heater is 1: it is a resistance. Whatever
    /// else is plugged in has iron or electronics in it, an ozonator's ballast no less than a pump.
    fn power_factor(&self, plugged: &Plugged) -> Option<f64> {
        match plugged.fitted {
            None => Some(1.0),
            Some(index) => self.job.equipment.get(index)?.power_factor,
        }
    }
}

/// The first of those that are the largest but for the last digits.
fn largest(all: impl Iterator<Item = (Conductor, Amps)>) -> Option<(Conductor, Amps)> {
    all.fold(None, |most: Option<(Conductor, Amps)>, (conductor, amps)| match most {
        Some((_, known)) if amps.0 <= known.0 * (1.0 + 1e-9) => most,
        _ => Some((conductor, amps)),
    })
}
