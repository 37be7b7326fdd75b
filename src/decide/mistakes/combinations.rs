//! What devices get over every combination of them that can run, where a point of the supply hangs on
//! nothing and its potential depends on what runs.
//!
//! A device on a command is a linear load on the floating points. It is solved once with these held
//! at nought, and once for each of them with that one at 1 V; all else is superposition. So a
//! combination costs one division (or the elimination of a few rows), and devices that are equal are
//! not told apart. Where there are still too many combinations, a bound is found instead
//! ([`super::bound`]): never less than the most, never more than the least.

use num_complex::Complex;

use super::super::budget::keeps;
use super::super::currents::{AllowanceClass, size};
use super::bound;
use super::circuit::{LEAK, eliminate};
use super::device_load::{COUNT, Part, Player, Probe, Probes};
use super::state::Command;
use crate::board::Allowance;

/// The least and the most of each probe, as sizes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Extremes {
    least: [f64; COUNT],
    most: [f64; COUNT],
}

impl Extremes {
    const NONE: Self = Self { least: [f64::INFINITY; COUNT], most: [0.0; COUNT] };

    fn take(&mut self, probe: Probe, (least, most): (f64, f64)) {
        let at = probe as usize;
        if let (Some(known_least), Some(known_most)) =
            (self.least.get_mut(at), self.most.get_mut(at))
        {
            *known_least = known_least.min(least);
            *known_most = known_most.max(most);
        }
    }

    /// The least and the most of one.
    pub fn of(&self, probe: Probe) -> (f64, f64) {
        let at = |all: &[f64; COUNT]| all.get(probe as usize).copied().unwrap_or(0.0);
        (at(&self.least).min(at(&self.most)), at(&self.most))
    }
}

/// Up to how many combinations are gone through one by one.
const ENUMERATED: u64 = 4_096;
/// The same where the allowance is a current, to which no bound keeps.
const ENUMERATED_KEEPING: u64 = 32_768;

/// For each device and each of its commands the extremes over every combination that can run: what
/// runs beside the heater is within the allowance (a current only where they are gone through), and the heater is on only while the water
/// is told to flow.
pub fn extremes(
    players: &[Player],
    points: usize,
    allowance: Option<Allowance>,
) -> Vec<Vec<Extremes>> {
    let enumerated = match allowance {
        Some(Allowance::Amps(_)) => ENUMERATED_KEEPING,
        Some(Allowance::Loads(_)) | None => ENUMERATED,
    };
    extremes_within(players, points, allowance, enumerated)
}

/// The same with another limit on what is gone through one by one.
fn extremes_within(
    players: &[Player],
    points: usize,
    allowance: Option<Allowance>,
    enumerated: u64,
) -> Vec<Vec<Extremes>> {
    let none = |player: &Player| vec![Extremes::NONE; player.parts.len()];
    let mut found: Vec<Vec<Extremes>> = players.iter().map(none).collect();
    let nought = vec![Complex::default(); points];
    for (player, all) in players.iter().zip(&mut found) {
        for (part, extremes) in player.parts.iter().zip(all) {
            if !(0..points).any(|point| part.feels(point)) {
                take_at(part, &nought, extremes);
            }
        }
    }
    let islands = islands(players, points);
    let drawn: Vec<usize> = islands.iter().flatten().copied().collect();
    for island in islands {
        let search = Search::new(players, island, allowance);
        if search.combinations() <= enumerated {
            search.go_through(&mut found);
        } else {
            search.bounded(&mut found);
        }
    }
    // Where nothing draws from a floating point, it stays at nought. What nothing was found for
    // elsewhere is a command that the allowance never lets be.
    for (player, all) in players.iter().zip(&mut found) {
        for (part, extremes) in player.parts.iter().zip(all) {
            let never = drawn.iter().any(|point| part.feels(*point) || part.loads(*point));
            if *extremes == Extremes::NONE && !never {
                take_at(part, &nought, extremes);
            }
        }
    }
    found
}

fn take_at(part: &Part, potentials: &[Complex<f64>], extremes: &mut Extremes) {
    for probe in Probe::ALL {
        let found = size(part.at(probe, potentials));
        extremes.take(probe, (found, found));
    }
}

/// Floating points that depend on each other. What nothing draws from is left out.
fn islands(players: &[Player], points: usize) -> Vec<Vec<usize>> {
    let parts = || players.iter().flat_map(|player| &player.parts);
    let loaded: Vec<usize> =
        (0..points).filter(|point| parts().any(|part| part.loads(*point))).collect();
    let mut islands: Vec<Vec<usize>> = Vec::new();
    for point in &loaded {
        islands.push(vec![*point]);
    }
    for player in players {
        let touches =
            |point: &usize| player.parts.iter().any(|it| it.loads(*point) || it.feels(*point));
        let (mut joined, rest): (Vec<_>, Vec<_>) =
            islands.into_iter().partition(|island| island.iter().any(touches));
        islands = rest;
        if !joined.is_empty() {
            let mut all: Vec<usize> = joined.drain(..).flatten().collect();
            all.sort_unstable();
            islands.push(all);
        }
    }
    islands
}

/// A search over one island.
struct Search<'a> {
    players: &'a [Player],
    /// The points of the island.
    island: Vec<usize>,
    allowance: usize,
    /// What all that runs may add up to while the heater is on, where the allowance is a current.
    budget: f64,
    /// Those that draw from it or feed it; equal ones follow each other.
    loads: Vec<usize>,
    /// Whether each is equal to the one before it.
    like_before: Vec<bool>,
    /// Those that only feel it.
    feel: Vec<usize>,
}

/// What is summed up on the way to a combination.
#[derive(Clone, Debug, Default)]
struct Sum {
    injects: Vec<Complex<f64>>,
    /// Row by row.
    admits: Vec<Complex<f64>>,
    heating: bool,
    water: bool,
    high: usize,
    /// What runs together, and whether it is on.
    together: Vec<(u8, bool)>,
    chosen: Vec<usize>,
}

impl Sum {
    /// Whether a device can be on or off beside what runs together with it.
    fn fits(&self, player: &Player, on: bool) -> bool {
        let tied = |(number, _): &&(u8, bool)| player.together == Some(*number);
        self.together.iter().find(tied).is_none_or(|(_, others)| *others == on)
    }

    /// Becomes the same as another, in the room that it has.
    fn take(&mut self, other: &Self) {
        let Self { injects, admits, together, chosen, .. } = self;
        injects.clone_from(&other.injects);
        admits.clone_from(&other.admits);
        together.clone_from(&other.together);
        chosen.clone_from(&other.chosen);
        (self.heating, self.water, self.high) = (other.heating, other.water, other.high);
    }
}

/// A device on a command as the points of an island move it.
struct Moved {
    constant: Probes,
    /// For each point of the island.
    slopes: Vec<Probes>,
    /// Whether a probe depends on any of them.
    moves: [bool; COUNT],
    /// The least and the most of each probe so far, as squares: a root is for the end.
    found: Option<[(f64, f64); COUNT]>,
}

impl Moved {
    fn new(part: &Part, island: &[usize]) -> Self {
        let slopes: Vec<Probes> =
            island.iter().map(|at| part.slopes.get(*at).copied().unwrap_or_default()).collect();
        let moves = Probe::ALL
            .map(|probe| slopes.iter().any(|slope| probe.of(slope) != Complex::default()));
        Self { constant: part.constant, slopes, moves, found: None }
    }

    /// Takes what is there with the points of the island at these potentials.
    fn take(&mut self, potentials: &[Complex<f64>]) {
        let first = self.found.is_none();
        let found = self.found.get_or_insert([(f64::INFINITY, 0.0); COUNT]);
        for ((probe, moves), (least, most)) in Probe::ALL.into_iter().zip(self.moves).zip(found) {
            if !moves && !first {
                continue;
            }
            let by =
                self.slopes.iter().zip(potentials).map(|(slope, volts)| probe.of(slope) * volts);
            let value = (probe.of(&self.constant) + by.sum::<Complex<f64>>()).norm_sqr();
            (*least, *most) = (least.min(value), most.max(value));
        }
    }
}

/// A walk over all combinations, with room that is used again.
struct Walk {
    /// What is summed up after each device.
    sums: Vec<Sum>,
    /// For each player and each of its commands.
    moved: Vec<Vec<Moved>>,
    rows: Vec<Complex<f64>>,
    solved: Vec<Complex<f64>>,
    /// Of all points, those beyond the island at nought.
    potentials: Vec<Complex<f64>>,
}

impl<'a> Search<'a> {
    fn new(players: &'a [Player], island: Vec<usize>, allowance: Option<Allowance>) -> Self {
        let any = |player: &Player, is: &dyn Fn(&Part, usize) -> bool| {
            player.parts.iter().any(|part| island.iter().any(|point| is(part, *point)))
        };
        let all = || players.iter().enumerate();
        let draws = |player: &Player| any(player, &Part::loads);
        let drawing: Vec<usize> = all().filter(|(_, it)| draws(it)).map(|(at, _)| at).collect();
        let feeling = all().filter(|(_, it)| !draws(it) && any(it, &Part::feels));
        let feel = feeling.map(|(at, _)| at).collect();
        let mut loads: Vec<usize> = Vec::new();
        let mut like_before = Vec::new();
        for at in drawing {
            let same = |other: &usize| players.get(*other) == players.get(at);
            match loads.iter().rposition(same) {
                Some(last) => {
                    loads.insert(last + 1, at);
                    like_before.insert(last + 1, true);
                }
                None => {
                    loads.push(at);
                    like_before.push(false);
                }
            }
        }
        let (allowance, budget) = match allowance {
            None => (usize::MAX, f64::INFINITY),
            Some(Allowance::Loads(most)) => (usize::from(most), f64::INFINITY),
            Some(Allowance::Amps(amps)) => (usize::MAX, amps.0),
        };
        Self { players, island, allowance, budget, loads, like_before, feel }
    }

    fn player(&self, place: usize) -> Option<&'a Player> {
        self.loads.get(place).and_then(|at| self.players.get(*at))
    }

    /// How many combinations there are at the most, equal devices not told apart.
    fn combinations(&self) -> u64 {
        let (mut all, mut alike): (u64, u64) = (1, 0);
        for (place, like) in self.like_before.iter().enumerate() {
            let parts = self.player(place).map_or(1, |player| player.parts.len() as u64);
            alike = if *like { alike + 1 } else { 1 };
            // So many ways to choose `alike` times from `parts`, order apart: built up one by one.
            all = all.saturating_mul(parts + alike - 1) / alike;
        }
        all
    }

    fn go_through(&self, found: &mut [Vec<Extremes>]) {
        let nought = Complex::default();
        let count = self.island.len();
        // What no device of this island is need not be: the water can flow, all others be off.
        let must = |player: &Player| player.must_move_water(self.allowance);
        let water = !(0..self.loads.len()).any(|place| self.player(place).is_some_and(must));
        let sum = Sum {
            injects: vec![nought; count],
            admits: vec![nought; count * count],
            water,
            ..Sum::default()
        };
        let mut sums = vec![Sum::default(); self.loads.len()];
        sums.insert(0, sum);
        let moved = |player: &Player| -> Vec<Moved> {
            player.parts.iter().map(|part| Moved::new(part, &self.island)).collect()
        };
        let mut walk = Walk {
            sums,
            moved: self.players.iter().map(moved).collect(),
            rows: Vec::new(),
            solved: Vec::new(),
            potentials: Vec::new(),
        };
        self.next(0, &mut walk);
        for (all, moved) in found.iter_mut().zip(&walk.moved) {
            for (extremes, moved) in all.iter_mut().zip(moved) {
                let Some(found) = moved.found else { continue };
                for (probe, (least, most)) in Probe::ALL.into_iter().zip(found) {
                    extremes.take(probe, (least.sqrt(), most.sqrt()));
                }
            }
        }
        // Equal devices can change places: what one of them gets each can get.
        for (place, like) in self.like_before.iter().enumerate().rev() {
            if *like {
                self.share(place - 1, place, found);
            }
        }
        for (place, like) in self.like_before.iter().enumerate() {
            if *like {
                self.share(place, place - 1, found);
            }
        }
    }

    /// Adds what the device at one place gets to that at another, which is equal to it.
    fn share(&self, to: usize, from: usize, found: &mut [Vec<Extremes>]) {
        let (Some(to), Some(from)) = (self.loads.get(to), self.loads.get(from)) else { return };
        let all = found.get(*from).cloned().unwrap_or_default();
        for (extremes, other) in found.get_mut(*to).into_iter().flatten().zip(&all) {
            for probe in Probe::ALL {
                extremes.take(probe, other.of(probe));
            }
        }
    }

    fn next(&self, place: usize, walk: &mut Walk) {
        let Some(player) = self.player(place) else {
            self.measure(place, walk);
            return;
        };
        let like = self.like_before.get(place).copied().unwrap_or(false);
        let last = walk.sums.get(place).and_then(|sum| sum.chosen.last()).copied();
        let first = if like { last.unwrap_or(0) } else { 0 };
        for (index, part) in player.parts.iter().enumerate().skip(first) {
            let on = part.command != Command::Off;
            let [sum, with] = match walk.sums.get_mut(place..) {
                Some([sum, with, ..]) => [sum, with],
                _ => return,
            };
            if !sum.fits(player, on) {
                continue;
            }
            with.take(sum);
            with.chosen.push(index);
            with.together.extend(player.together.map(|number| (number, on)));
            with.heating |= on && player.class == AllowanceClass::Heater;
            with.water |= on && player.moves_water;
            let limited = player.class == AllowanceClass::Limited;
            with.high += usize::from(limited && part.command == Command::High);
            let rows = with.admits.chunks_exact_mut(self.island.len());
            for ((point, inject), row) in self.island.iter().zip(&mut with.injects).zip(rows) {
                *inject += part.injects.get(*point).copied().unwrap_or_default();
                for (sum, other) in row.iter_mut().zip(&self.island) {
                    let admits = part.admits.get(*point).and_then(|row| row.get(*other));
                    *sum += admits.copied().unwrap_or_default();
                }
            }
            self.next(place + 1, walk);
        }
    }

    /// One combination: the sum behind so many devices.
    fn measure(&self, place: usize, walk: &mut Walk) {
        let Walk { sums, moved, rows, solved, potentials } = walk;
        let Some(sum) = sums.get(place) else { return };
        if sum.heating && !(sum.water && sum.high <= self.allowance) {
            return;
        }
        let count = self.island.len();
        rows.clear();
        for (at, (admits, injects)) in sum.admits.chunks_exact(count).zip(&sum.injects).enumerate()
        {
            rows.extend_from_slice(admits);
            rows.get_mut(at * (count + 1) + at).into_iter().for_each(|value| *value += LEAK);
            rows.push(*injects);
        }
        eliminate(rows, count, solved);
        let points = self.island.iter().max().map_or(0, |most| most + 1);
        potentials.clear();
        potentials.resize(points, Complex::default());
        for (point, volts) in self.island.iter().zip(&*solved) {
            potentials.get_mut(*point).into_iter().for_each(|place| *place = *volts);
        }
        // What the board adds up is what flows then. What this island does not touch may be off.
        // Nothing is held back while the heater is off.
        let limited = sum.heating && self.budget < f64::INFINITY;
        let adds = |at: usize, index: usize| {
            let player = self.players.get(at).filter(|_| limited);
            let part = player.and_then(|player| player.parts.get(index));
            player.zip(part).map_or(0.0, |(player, part)| player.adds(part, potentials))
        };
        let chosen = self.loads.iter().zip(&sum.chosen);
        let added: f64 = chosen.clone().map(|(at, index)| adds(*at, *index)).sum();
        if sum.heating && !keeps(self.budget, added) {
            return;
        }
        let mut take = |at: usize, index: usize| {
            let moved = moved.get_mut(at).and_then(|all| all.get_mut(index));
            moved.into_iter().for_each(|moved| moved.take(solved));
        };
        for (at, index) in chosen {
            take(*at, *index);
        }
        for at in &self.feel {
            let Some(player) = self.players.get(*at) else { continue };
            for (index, part) in player.parts.iter().enumerate() {
                if !sum.fits(player, part.command != Command::Off) {
                    continue;
                }
                let fits = || keeps(self.budget, added + adds(*at, index));
                let beside = || self.beside_heater(player, part.command, sum.high);
                if !sum.heating || (fits() && beside()) {
                    take(*at, index);
                }
            }
        }
    }

    /// Whether a device that only feels the points can have a command while the heater is on, beside
    /// so many others on high.
    fn beside_heater(&self, player: &Player, command: Command, high: usize) -> bool {
        match command {
            Command::Off => !player.must_move_water(self.allowance),
            Command::Low => true,
            Command::High => player.class != AllowanceClass::Limited || high < self.allowance,
        }
    }

    /// The bound, for each probe by itself.
    fn bounded(&self, found: &mut [Vec<Extremes>]) {
        let loads: Vec<&Player> =
            self.loads.iter().filter_map(|at| self.players.get(*at)).collect();
        let bounds = bound::Bounds::new(&loads, &self.island, self.allowance);
        let places = self.loads.iter().enumerate().map(|(place, at)| (Some(place), *at));
        let all: Vec<_> = places.chain(self.feel.iter().map(|at| (None, *at))).collect();
        for (place, at) in all {
            let Some(player) = self.players.get(at) else { continue };
            for (index, part) in player.parts.iter().enumerate() {
                let extremes = found.get_mut(at).and_then(|all| all.get_mut(index));
                let Some(extremes) = extremes else { continue };
                for probe in Probe::ALL {
                    extremes.take(probe, bounds.of(place.map(|place| (place, index)), part, probe));
                }
            }
        }
    }
}

#[cfg(test)]
mod tests;
