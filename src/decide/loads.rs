//! What supply conductors, headers and fuses carry at the worst, and what then runs.

use num_complex::Complex;

use super::currents::{Draw, Running, Together, Worst, worst};
use super::jumpers::{Amount, Fit, GroupOption};
use super::rules::carries;
use crate::board::{Allowance, Board, Conductor, Device, FuseId, HeaderId, Job};
use crate::units::Amps;

/// What a supply conductor carries at the worst.
#[derive(Clone, Debug, PartialEq)]
pub struct ConductorLoad {
    /// The conductor.
    pub conductor: Conductor,
    /// The size of the phasor sum.
    pub amps: Amps,
    /// What runs then of all that flows here, in the order of the headers.
    pub running: Vec<(Device, Running)>,
}

impl ConductorLoad {
    /// What was found for the `devices` that flow in `conductor`.
    pub fn new(conductor: Conductor, devices: &[Device], found: &Worst) -> Self {
        Self { conductor, amps: Amps(found.amount()), running: running(devices, found) }
    }
}

/// What a header or a fuse carries at the worst.
#[derive(Clone, Debug, PartialEq)]
pub struct RatedLoad<T> {
    /// The header or the fuse.
    pub of: T,
    /// The plain sum of the currents, which is never less than what flows.
    pub amps: Amps,
    /// What it may carry; `None` if the specification does not say.
    pub rating: Option<Amps>,
    /// What runs then, in the order of the headers.
    pub running: Vec<(Device, Running)>,
}

impl<T> RatedLoad<T> {
    /// Whether it may carry this.
    pub fn holds(&self) -> bool {
        self.rating.is_none_or(|rating| carries(rating, self.amps))
    }
}

/// Every supply conductor but the protective earth, in the order L1, L2, L3, L, N.
pub fn conductor_loads(
    board: &Board,
    job: &Job,
    fit: &Fit,
    allowance: Option<Allowance>,
) -> Vec<ConductorLoad> {
    let real = |choice: &GroupOption| -> Amount { choice.real };
    let conductors = board[job.supply.value].conductors().into_iter();
    conductors
        .filter(|conductor| *conductor != Conductor::Pe)
        .map(|conductor| {
            let (devices, all) = draws(fit, conductor, real);
            ConductorLoad::new(conductor, &devices, &worst(&all, allowance))
        })
        .collect()
}

/// The devices that flow in a conductor, and what they draw there.
pub fn draws(
    fit: &Fit,
    conductor: Conductor,
    amount: impl Fn(&GroupOption) -> Amount,
) -> (Vec<Device>, Vec<Draw>) {
    fit.plugged
        .iter()
        .filter_map(|plugged| {
            let draw = plugged.choice.draw(conductor, amount(&plugged.choice), plugged.class)?;
            Some((plugged.slot.device, draw))
        })
        .unzip()
}

/// Every header that something is plugged into.
pub fn header_loads(board: &Board, fit: &Fit) -> Vec<RatedLoad<HeaderId>> {
    fit.plugged
        .iter()
        .map(|plugged| RatedLoad {
            of: plugged.slot.header,
            amps: Amps(plugged.choice.real.high),
            rating: board[plugged.slot.header].max,
            running: vec![(plugged.slot.device, Running::High)],
        })
        .collect()
}

/// Every fuse that something hangs on.
pub fn fuse_loads(board: &Board, fit: &Fit) -> Vec<RatedLoad<FuseId>> {
    board
        .handles()
        .filter_map(|fuse: FuseId| {
            let behind = fit.plugged.iter().filter(|p| board[p.slot.header].fuse == Some(fuse));
            let (devices, all): (Vec<Device>, Vec<Draw>) = behind
                .map(|plugged| {
                    let Amount { low, high } = plugged.choice.real;
                    let (along, class) = (Complex::new(1.0, 0.0), plugged.class);
                    let (adds, together) = (plugged.choice.adds(), Together::Alone);
                    let draw = Draw { along, low, high, class, adds, together };
                    (plugged.slot.device, draw)
                })
                .unzip();
            let found = worst(&all, fit.allowance);
            (!devices.is_empty()).then(|| RatedLoad {
                of: fuse,
                amps: Amps(found.amount()),
                rating: Some(board[fuse].rating),
                running: running(&devices, &found),
            })
        })
        .collect()
}

fn running(devices: &[Device], found: &Worst) -> Vec<(Device, Running)> {
    let all = devices.iter().copied().zip(found.running.iter().copied());
    all.filter(|(_, running)| *running != Running::Off).collect()
}
