//! What flows at the worst, as the board is built.

use num_complex::Complex;

use super::super::breaker;
use super::super::currents::{AllowanceClass, Draw, size, worst};
use super::super::heater::{amps_on, sizing_amps};
use super::super::jumpers::is_continuous;
use super::super::loads::ConductorLoad;
use super::state::{Command, DeviceState, Loads};
use super::{AsBuilt, PlannedCase};
use crate::board::{Conductor, Device, FuseId, HeaderId};
use crate::units::{Amps, Volts};

/// What one device draws, amperes.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Flows {
    /// From each conductor of the supply, as a phasor.
    conductors: Vec<(Conductor, Complex<f64>)>,
    /// What its windings carry together.
    pub drawn: f64,
}

impl Flows {
    /// Adds a current out of a conductor.
    pub fn add(&mut self, conductor: Option<Conductor>, amps: Complex<f64>) {
        let Some(conductor) = conductor else { return };
        match self.conductors.iter_mut().find(|(known, _)| *known == conductor) {
            Some((_, sum)) => *sum += amps,
            None => self.conductors.push((conductor, amps)),
        }
    }

    /// The current out of a conductor.
    pub fn of(&self, conductor: Conductor) -> Complex<f64> {
        let found = self.conductors.iter().find(|(known, _)| *known == conductor);
        found.map(|(_, amps)| *amps).unwrap_or_default()
    }
}

/// What flows at the worst over all states that the board allows. It goes by what it takes each
/// header for: the pumps and blowers among these count for the heater allowance.
pub fn loads(
    planned: &PlannedCase<'_>,
    built: &AsBuilt,
    devices: &[DeviceState],
    flows: &[(Flows, Flows)],
    allowance: Option<u8>,
) -> Loads {
    let factor = breaker::rules(planned.board, planned.job).rules.continuous_factor();
    let mut conductors: Vec<Conductor> = built.lands.iter().flatten().copied().collect();
    conductors.retain(|conductor| *conductor != Conductor::Pe);
    conductors.sort();
    conductors.dedup();
    let all: Vec<Load<'_>> = devices
        .iter()
        .zip(&planned.wiring.devices)
        .zip(flows)
        .filter_map(|((state, plan), (low, high))| {
            let class = class(state.role?);
            let volts = state.on(Command::High).map_or(Volts(0.0), |run| run.measured.high.most);
            let sizing = if plan.fitted.is_none() { sizing(planned, volts) } else { 1.0 };
            Some(Load { device: plan.device, class, low, high, sizing })
        })
        .collect();
    let worst_in = |conductor: Conductor, counts: &dyn Fn(&Load<'_>) -> (f64, f64)| {
        let (names, draws): (Vec<Device>, Vec<Draw>) = all
            .iter()
            .filter_map(|load| Some((load.device, load.draw(conductor, counts(load))?)))
            .unzip();
        ConductorLoad::new(conductor, &names, &worst(&draws, allowance))
    };
    let counts = |load: &Load<'_>| {
        (factor, if is_continuous(load.device) { factor * load.sizing } else { 1.0 })
    };
    let lines = conductors.iter().copied().filter(|conductor| conductor.is_line());
    let counted = lines
        .map(|line| worst_in(line, &counts))
        .reduce(|a, b| if b.amps.0 > a.amps.0 * (1.0 + 1e-9) { b } else { a });
    let loads = conductors.iter().map(|conductor| worst_in(*conductor, &|_| (1.0, 1.0)));
    let headers: Vec<(HeaderId, Amps)> = built
        .cords
        .iter()
        .zip(flows)
        .map(|(cord, (low, high))| (cord.header, Amps(low.drawn.max(high.drawn))))
        .collect();
    Loads {
        conductors: loads.collect(),
        counted,
        fuses: fuses(planned, built, devices, flows, allowance),
        headers,
    }
}

/// A device as it draws.
struct Load<'a> {
    device: Device,
    class: AllowanceClass,
    low: &'a Flows,
    high: &'a Flows,
    /// By what part a heater counts for more than it draws.
    sizing: f64,
}

/// A heater counts with its plate's current where its voltage sags a little.
fn sizing(planned: &PlannedCase<'_>, volts: Volts) -> f64 {
    let Some(heater) = planned.wiring.heater.filter(|_| volts.0 > 0.0) else { return 1.0 };
    sizing_amps(heater.element, volts).amps.0 / amps_on(heater.element, volts).0
}

impl Load<'_> {
    /// What it draws from a conductor, by these factors on low and on high; `None` if nothing.
    /// Where a cord that is wired wrong turns the current on low another way than on high, the
    /// direction on high is taken for both: a little more may be found than flows.
    fn draw(&self, conductor: Conductor, (low, high): (f64, f64)) -> Option<Draw> {
        let (on_low, on_high) = (self.low.of(conductor), self.high.of(conductor));
        let towards = if size(on_high) > 0.0 { on_high } else { on_low };
        let length = size(towards);
        if length <= 0.0 {
            return None;
        }
        Some(Draw {
            along: towards / length,
            low: size(on_low) * low,
            high: (size(on_high) * high).max(size(on_low) * low),
            class: self.class,
        })
    }
}

fn class(role: Device) -> AllowanceClass {
    match role {
        Device::Heater => AllowanceClass::Heater,
        role if role.counts_for_allowance() => AllowanceClass::Limited,
        _ => AllowanceClass::Free,
    }
}

/// What each fuse carries at the worst: the plain sum, as in the plan.
fn fuses(
    planned: &PlannedCase<'_>,
    built: &AsBuilt,
    devices: &[DeviceState],
    flows: &[(Flows, Flows)],
    allowance: Option<u8>,
) -> Vec<(FuseId, Amps)> {
    let along = Complex::new(1.0, 0.0);
    planned
        .board
        .handles()
        .filter_map(|fuse: FuseId| {
            let behind = built.cords.iter().zip(devices).zip(flows);
            let draws: Vec<Draw> = behind
                .filter(|((cord, _), _)| planned.board[cord.header].fuse == Some(fuse))
                .filter_map(|((_, state), (low, high))| {
                    let class = class(state.role?);
                    let (low, high) = (low.drawn, high.drawn.max(low.drawn));
                    Some(Draw { along, low, high, class })
                })
                .collect();
            (!draws.is_empty()).then(|| (fuse, Amps(worst(&draws, allowance).amount())))
        })
        .collect()
}
