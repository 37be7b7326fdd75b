//! What flows at the worst, as the board is built.

use num_complex::Complex;

use super::super::currents::{AllowanceClass, Draw, Together, size, worst};
use super::super::loads::ConductorLoad;
use super::super::rules::carries;
use super::state::{DeviceState, Loads};
use super::{AsBuilt, PlannedCase};
use crate::board::{Allowance, Conductor, Device, FuseId, HeaderId};
use crate::units::Amps;

/// What one device draws, amperes.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Flows {
    /// From each conductor of the supply, as a phasor; `None` where nothing was added. No supply has more
    /// conductors.
    conductors: [Option<(Conductor, Complex<f64>)>; CONDUCTORS],
    /// What its windings carry together.
    pub drawn: f64,
}

/// Three lines, the neutral and the protective earth.
const CONDUCTORS: usize = 5;

impl Flows {
    /// Adds a current out of a conductor.
    pub fn add(&mut self, conductor: Option<Conductor>, amps: Complex<f64>) {
        let Some(conductor) = conductor else { return };
        let place = self
            .conductors
            .iter_mut()
            .find(|place| place.is_none_or(|(known, _)| known == conductor));
        match place {
            Some(Some((_, sum))) => *sum += amps,
            Some(free) => *free = Some((conductor, amps)),
            None => {}
        }
    }

    /// Whether any of it comes from the supply.
    fn is_from_supply(&self) -> bool {
        self.conductors.iter().flatten().any(|(_, amps)| size(*amps) > 0.0)
    }

    /// The current out of a conductor.
    pub fn of(&self, conductor: Conductor) -> Complex<f64> {
        let found = self.conductors.iter().flatten().find(|(known, _)| *known == conductor);
        found.map(|(_, amps)| *amps).unwrap_or_default()
    }
}

/// Which loads are asked for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Asked {
    /// All of them.
    All,
    /// Those that can be too much: a conductor that carries no more than this however its devices run is
    /// left out, and a fuse that carries no more than its rating.
    Above(Amps),
}

/// What flows at the worst over all states that the board allows. It goes by what it takes each
/// header for: the pumps and blowers among these count for the heater allowance. Where that is a
/// current, it adds up what really flows.
pub fn loads(
    planned: &PlannedCase<'_>,
    built: &AsBuilt,
    devices: &[DeviceState],
    flows: &[[&Flows; 2]],
    allowance: Option<Allowance>,
    asked: Asked,
) -> Loads {
    let mut conductors: Vec<Conductor> = built.lands.iter().flatten().copied().collect();
    conductors.retain(|conductor| *conductor != Conductor::Pe);
    conductors.sort();
    conductors.dedup();
    let all: Vec<Load<'_>> = devices
        .iter()
        .zip(&planned.wiring.devices)
        .zip(flows)
        .filter_map(|((state, plan), [low, high])| {
            let role = state.role?;
            let together = planned.board.together(role).map_or(Together::Alone, Together::With);
            Some(Load { device: plan.device, class: class(role), together, low, high })
        })
        .collect();
    let worst_in = |conductor: &Conductor| {
        let draws = || all.iter().filter_map(|load| Some((load.device, load.draw(*conductor)?)));
        let asked = match asked {
            Asked::All => true,
            Asked::Above(limit) => can_be_above(limit, draws().map(|(_, draw)| draw)),
        };
        asked.then(|| {
            let (names, draws): (Vec<Device>, Vec<Draw>) = draws().unzip();
            ConductorLoad::new(*conductor, &names, &worst(&draws, allowance))
        })
    };
    let headers: Vec<(HeaderId, Amps)> = built
        .cords
        .iter()
        .zip(flows)
        .map(|(cord, [low, high])| (cord.header, Amps(low.drawn.max(high.drawn))))
        .collect();
    let added = all.iter().map(|load| adds(load.low, load.high)[1]).sum();
    Loads {
        added: Amps(added),
        conductors: conductors.iter().filter_map(worst_in).collect(),
        fuses: fuses(planned, built, devices, flows, allowance, asked),
        headers,
    }
}

/// Whether draws can come to more than a limit: no sum of phasors is more than that of their sizes.
fn can_be_above(limit: Amps, draws: impl Iterator<Item = Draw>) -> bool {
    let most: f64 = draws.map(|draw| size(draw.along) * draw.high.max(draw.low)).sum();
    // Far more than what rounding can take from the sum.
    !carries(limit, Amps(most * (1.0 + 1e-9)))
}

/// A device as it draws.
struct Load<'a> {
    device: Device,
    class: AllowanceClass,
    together: Together,
    low: &'a Flows,
    high: &'a Flows,
}

impl Load<'_> {
    /// What it draws from a conductor; `None` if nothing, unless it runs only together with others.
    /// Where a cord that is wired wrong turns the current on low another way than on high, the
    /// direction on high is taken for both: a little more may be found than flows.
    fn draw(&self, conductor: Conductor) -> Option<Draw> {
        let (on_low, on_high) = (self.low.of(conductor), self.high.of(conductor));
        let towards = if size(on_high) > 0.0 { on_high } else { on_low };
        let length = size(towards);
        if length <= 0.0 && self.together == Together::Alone {
            return None;
        }
        Some(Draw {
            along: if length > 0.0 { towards / length } else { towards },
            low: size(on_low),
            high: size(on_high).max(size(on_low)),
            class: self.class,
            adds: adds(self.low, self.high),
            together: self.together,
        })
    }
}

/// What the board adds up for a device, on low and on high: what it draws from the supply.
pub fn adds(low: &Flows, high: &Flows) -> [f64; 2] {
    let of = |flows: &Flows| if flows.is_from_supply() { flows.drawn } else { 0.0 };
    [of(low), of(high).max(of(low))]
}

/// How what the board takes a header for counts for the heater allowance.
pub fn class(role: Device) -> AllowanceClass {
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
    flows: &[[&Flows; 2]],
    allowance: Option<Allowance>,
    asked: Asked,
) -> Vec<(FuseId, Amps)> {
    let along = Complex::new(1.0, 0.0);
    planned
        .board
        .handles()
        .filter_map(|fuse: FuseId| {
            let behind = || built.cords.iter().zip(devices).zip(flows);
            let draws = || {
                behind()
                    .filter(|((cord, _), _)| planned.board[cord.header].fuse == Some(fuse))
                    .filter_map(|((_, state), [low, high])| {
                        let class = class(state.role?);
                        let adds = adds(low, high);
                        let (low, high) = (low.drawn, high.drawn.max(low.drawn));
                        let together = Together::Alone;
                        Some(Draw { along, low, high, class, adds, together })
                    })
            };
            let asked = match asked {
                Asked::All => draws().next().is_some(),
                Asked::Above(_) => can_be_above(planned.board[fuse].rating, draws()),
            };
            asked.then(|| {
                let draws: Vec<Draw> = draws().collect();
                (fuse, Amps(worst(&draws, allowance).amount()))
            })
        })
        .collect()
}
