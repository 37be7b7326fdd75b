//! A device as a linear load on points of the supply that hang on nothing.

use std::sync::Arc;

use num_complex::Complex;

use super::super::currents::{AllowanceClass, size};
use super::circuit::LEAK;
use super::state::Command;

/// What is measured at a device, each a linear function of the floating potentials.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Probes([Complex<f64>; COUNT]);

/// How many probes there are.
pub const COUNT: usize = 5;

/// One of the probes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Probe {
    /// Across the winding for low speed, volts.
    Low,
    /// Across the winding for high speed, volts.
    High,
    /// The potential of the *common* wire, volts.
    Common,
    /// The potential of the metalwork, volts.
    Metal,
    /// The current into the ground, amperes.
    Earth,
}

impl Probe {
    /// All of them.
    pub const ALL: [Probe; COUNT] =
        [Probe::Low, Probe::High, Probe::Common, Probe::Metal, Probe::Earth];

    /// Its value among all.
    pub fn of(self, probes: &Probes) -> Complex<f64> {
        let Probes([low, high, common, metal, earth]) = probes;
        match self {
            Probe::Low => *low,
            Probe::High => *high,
            Probe::Common => *common,
            Probe::Metal => *metal,
            Probe::Earth => *earth,
        }
    }
}

impl Probes {
    /// In the order of [`Probe`].
    pub fn new(values: [Complex<f64>; COUNT]) -> Self {
        Self(values)
    }
}

/// A device on one command, as a load on the floating points.
#[derive(Clone, Debug, PartialEq)]
pub struct Part {
    /// The command.
    pub command: Command,
    /// The probes with all floating points at nought.
    pub constant: Probes,
    /// What 1 V at each floating point adds to the probes.
    pub slopes: Vec<Probes>,
    /// The current into each floating point with all of them at nought, amperes.
    pub injects: Vec<Complex<f64>>,
    /// For each floating point, and 1 V at each: what then flows off from the first, siemens.
    pub admits: Vec<Vec<Complex<f64>>>,
}

impl Part {
    /// Whether it draws from or feeds that floating point.
    pub fn loads(&self, point: usize) -> bool {
        let admits = self.admits.get(point).into_iter().flatten();
        admits.chain(self.injects.get(point)).any(|value| size(*value) > 10.0 * LEAK)
    }

    /// Whether any probe depends on that floating point.
    pub fn feels(&self, point: usize) -> bool {
        self.slopes.get(point).is_some_and(|Probes(all)| all.iter().any(|it| size(*it) > 1e-9))
    }

    /// A probe at potentials of the floating points.
    pub fn at(&self, probe: Probe, potentials: &[Complex<f64>]) -> Complex<f64> {
        let moved =
            self.slopes.iter().zip(potentials).map(|(slope, volts)| probe.of(slope) * volts);
        probe.of(&self.constant) + moved.sum::<Complex<f64>>()
    }

    /// A probe, and what 1 V at a floating point adds to it.
    pub fn line(&self, probe: Probe, point: usize) -> (Complex<f64>, Complex<f64>) {
        let slope = self.slopes.get(point).map(|slope| probe.of(slope)).unwrap_or_default();
        (probe.of(&self.constant), slope)
    }
}

/// A device with the commands that its header can have, *off* first.
#[derive(Clone, Debug, PartialEq)]
pub struct Player {
    /// One for each command.
    pub parts: Vec<Arc<Part>>,
    /// How it counts for the heater allowance.
    pub class: AllowanceClass,
    /// Whether it moves the water that the heater waits for, or runs with what does.
    pub moves_water: bool,
    /// All with the same number are on, or all are off.
    pub together: Option<u8>,
    /// The admittances of its windings for low and for high speed, siemens: what they draw from the
    /// supply. Nought if it does not draw from there.
    pub windings: [f64; 2],
}

impl Player {
    /// What the board adds up for it on a command, at potentials of the floating points.
    pub fn adds(&self, part: &Part, potentials: &[Complex<f64>]) -> f64 {
        let [low, high] = self.windings;
        let amps = |probe, siemens: f64| {
            let draws = siemens != 0.0;
            if draws { size(part.at(probe, potentials)) * siemens } else { 0.0 }
        };
        amps(Probe::Low, low) + amps(Probe::High, high)
    }

    /// Whether it must be on while the heater is. A pump that would use up an allowance of nought is
    /// left out of this: what then moves the water is not known.
    pub fn must_move_water(&self, allowance: usize) -> bool {
        let gently = self.parts.iter().any(|part| part.command == Command::Low);
        let counts = self.class == AllowanceClass::Limited && !gently;
        self.moves_water && !(counts && allowance == 0)
    }
}
