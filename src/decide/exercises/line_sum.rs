//! The sum of what counts in one line, as it is done by hand: the heater and what runs by itself,
//! each pump and blower at the least, and on high as many as may be, those that add most first.

use super::super::currents::Running;
use super::super::rules::carries;
use crate::board::{Conductor, Device, GroupId, HeaderId};
use crate::units::{Amps, Volts};

/// A device at its header, with its currents.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LoadAt {
    /// The header.
    pub header: HeaderId,
    /// The device.
    pub device: Device,
    /// The group that feeds it.
    pub group: GroupId,
    /// The conductors that it draws from; `None` if it is fed apart from the mains and draws
    /// nothing from a line.
    pub conductors: Option<[Conductor; 2]>,
    /// On its plate.
    pub volts: Volts,
    /// On low; there if it has two speeds.
    pub low: Option<Amps>,
    /// On high, or when it is on. For the heater the current that a breaker is sized for.
    pub high: Amps,
    /// Whether `high` counts with the factor, too; what is on low always does.
    pub continuous: bool,
}

/// The sum of what counts in one line.
#[derive(Clone, Debug, PartialEq)]
pub struct LineSum {
    /// The line.
    pub line: Conductor,
    /// What runs there when it is worst, in the order of the headers.
    pub terms: Vec<Term>,
    /// Their sum.
    pub amps: Amps,
}

/// A term of a sum.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Term {
    /// Of [`super::SetSwitches::loads`].
    pub load: usize,
    /// How it runs.
    pub running: Running,
    /// What it draws.
    pub amps: Amps,
    /// What that counts for.
    pub counted: Amps,
}

/// Loads and the factor on what runs for three hours or more.
#[derive(Clone, Copy)]
pub struct Reading<'a> {
    /// What draws.
    pub loads: &'a [LoadAt],
    /// The factor.
    pub factor: f64,
}

/// The sum of the line that is worst under an allowance, of equal ones the first; `None` if
/// nothing draws from a line.
pub fn worst_line(reading: Reading<'_>, allowance: u8) -> Option<LineSum> {
    let mut lines: Vec<Conductor> = reading
        .loads
        .iter()
        .filter_map(|load| load.conductors)
        .flatten()
        .filter(|conductor| conductor.is_line())
        .collect();
    lines.sort();
    lines.dedup();
    let sums = lines
        .into_iter()
        .flat_map(|line| [line_sum(reading, line, Some(allowance)), line_sum(reading, line, None)]);
    sums.fold(None, |worst: Option<LineSum>, sum| match worst {
        Some(known) if known.amps.0 >= sum.amps.0 - 1e-9 => Some(known),
        _ => Some(sum),
    })
}

/// The highest of `settings` whose sum `breaker` carries.
pub fn highest(settings: &[u8], breaker: Amps, sum: impl Fn(u8) -> Option<LineSum>) -> Option<u8> {
    let carried = |allowance: &u8| sum(*allowance).is_some_and(|sum| carries(breaker, sum.amps));
    settings.iter().copied().filter(carried).max()
}

/// The sum of one line with the heater on under an allowance, or with the heater off.
fn line_sum(reading: Reading<'_>, line: Conductor, allowance: Option<u8>) -> LineSum {
    let Reading { loads, factor } = reading;
    let mut terms: Vec<Term> = Vec::new();
    // What each gains on high, and where its term is.
    let mut gains: Vec<(f64, usize, Term)> = Vec::new();
    for (index, load) in loads.iter().enumerate() {
        let draws = load.conductors.is_some_and(|pair| pair.contains(&line));
        let off = load.device == Device::Heater && allowance.is_none();
        if !draws || off {
            continue;
        }
        let term = |running, amps: Amps, continuous| {
            let counted = Amps(if continuous { amps.0 * factor } else { amps.0 });
            Term { load: index, running, amps, counted }
        };
        let high = term(Running::High, load.high, load.continuous);
        if !load.device.counts_for_allowance() {
            terms.push(high);
            continue;
        }
        let low = match load.low {
            Some(low) => term(Running::Low, low, true),
            None => term(Running::Off, Amps(0.0), false),
        };
        gains.push((high.counted.0 - low.counted.0, terms.len(), high));
        terms.push(low);
    }
    gains.sort_by(|(a, i, _), (b, j, _)| b.total_cmp(a).then(i.cmp(j)));
    gains.truncate(allowance.map_or(usize::MAX, usize::from));
    for (gain, at, high) in gains {
        if let Some(term) = terms.get_mut(at).filter(|_| gain > 0.0) {
            *term = high;
        }
    }
    terms.retain(|term| term.running != Running::Off);
    let amps = Amps(terms.iter().map(|term| term.counted.0).sum());
    LineSum { line, terms, amps }
}
