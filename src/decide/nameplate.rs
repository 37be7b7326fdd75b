//! What the nameplate of a device says, and how one jet pump is told from the others by it: a
//! layout numbers its pumps, but no pump has its number printed on it.

use super::plan::{DevicePlan, Wiring};
use crate::board::{CurrentSource, Device, Fitted, Job, Role, Speeds};
use crate::units::{Amps, Horsepower, Volts, Watts};

/// What a nameplate says of the load.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum PlateLoad {
    /// A current.
    Amps(Amps),
    /// The power at the shaft of a motor.
    Power(Horsepower),
    /// The power that is drawn.
    Watts(Watts),
}

/// What the nameplate of a device says, as the job has it.
#[derive(Clone, Debug, PartialEq)]
pub struct Nameplate {
    /// One or two.
    pub speeds: Speeds,
    /// The voltage.
    pub volts: Volts,
    /// The load at high speed, or of a device with one speed.
    pub high: PlateLoad,
    /// The load at low speed, if the nameplate says it.
    pub low: Option<PlateLoad>,
}

/// By what a jet pump is known among those of its job.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum PumpMark {
    /// There is no other jet pump.
    Only,
    /// No other has as many speeds and the same load at high speed.
    SpeedsAndLoad,
    /// No other has the same nameplate.
    Nameplate,
    /// Others have the same nameplate.
    Alike {
        /// All of them with this one, in the order of the headers.
        all: Vec<Device>,
        /// Whether each can take the place of each: the job gives none of them a number.
        any: bool,
    },
}

/// The nameplate of a device; `None` for the heater, whose element is told elsewhere.
pub fn nameplate(job: &Job, plan: &DevicePlan) -> Option<Nameplate> {
    let fitted = fitted(job, plan)?;
    Some(Nameplate {
        speeds: fitted.speeds,
        volts: fitted.volts.value,
        high: load(fitted.high.source, fitted.high.amps)?,
        low: fitted.low.and_then(|low| load(low.source, low.amps)),
    })
}

/// By what a jet pump is known; `None` for any other device.
pub fn pump_mark(job: &Job, wiring: &Wiring, plan: &DevicePlan) -> Option<PumpMark> {
    if !matches!(plan.device, Device::Pump(_)) {
        return None;
    }
    let own = nameplate(job, plan)?;
    let others: Vec<&DevicePlan> = wiring
        .devices
        .iter()
        .filter(|other| matches!(other.device, Device::Pump(_)) && other.device != plan.device)
        .collect();
    if others.is_empty() {
        return Some(PumpMark::Only);
    }
    let plates: Vec<Option<Nameplate>> = others.iter().map(|other| nameplate(job, other)).collect();
    let same = |plate: &Option<Nameplate>| plate.as_ref() == Some(&own);
    if plates.iter().any(same) {
        let alike = |one: &&DevicePlan| {
            one.device == plan.device
                || matches!(one.device, Device::Pump(_))
                    && nameplate(job, one).as_ref() == Some(&own)
        };
        let alike: Vec<&DevicePlan> = wiring.devices.iter().filter(alike).collect();
        let free = |one: &&&DevicePlan| {
            fitted(job, one).is_some_and(|fitted| fitted.role == Role::AnyPump)
        };
        let any = alike.iter().filter(free).count() == alike.len();
        return Some(PumpMark::Alike { all: alike.iter().map(|one| one.device).collect(), any });
    }
    let near = |plate: &Option<Nameplate>| {
        plate.as_ref().is_some_and(|plate| plate.speeds == own.speeds && plate.high == own.high)
    };
    Some(match plates.iter().any(near) {
        true => PumpMark::Nameplate,
        false => PumpMark::SpeedsAndLoad,
    })
}

fn fitted<'a>(job: &'a Job, plan: &DevicePlan) -> Option<&'a Fitted> {
    job.equipment.get(plan.fitted?)
}

/// What the nameplate says where a current comes from; `None` if it says nothing.
fn load(source: CurrentSource, amps: Amps) -> Option<PlateLoad> {
    match source {
        CurrentSource::Plate => Some(PlateLoad::Amps(amps)),
        CurrentSource::Table(power) => Some(PlateLoad::Power(power)),
        CurrentSource::Watts(watts) => Some(PlateLoad::Watts(watts)),
        CurrentSource::NoMoreThanHigh => None,
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{Case, JOB};
    use super::*;

    /// Pump 1 and pump 2 of layout 12, both with two speeds, beside pump 3 with one.
    fn marks(second: &str) -> [Option<PumpMark>; 2] {
        let first = "{ device: pump, speeds: 2, volts: 240, amps: { low: 3.1, high: 10.8 } }";
        let job = JOB.replace(first, &format!("{first}\n  - {second}"));
        let case = Case::new(&job);
        let (_, wiring) = case.plan.sound().expect("it is sound");
        [1, 2].map(|number| {
            let plan = &wiring[case.device(Device::Pump(number))];
            pump_mark(&case.job, wiring, plan)
        })
    }

    /// Two pumps with one nameplate can each be either; one that the job calls pump 2 cannot. Another
    /// voltage alone is no difference in speed or current.
    #[test]
    fn pumps_that_look_alike() {
        let both = vec![Device::Pump(1), Device::Pump(2)];
        let of = |any| PumpMark::Alike { all: both.clone(), any };
        let plate = |device: &str, volts: u16, high: f64| {
            marks(&format!(
                "{{ device: {device}, speeds: 2, volts: {volts}, amps: {{ low: 3.1, high: {high} }} }}"
            ))
        };
        assert_eq!(plate("pump", 240, 10.8), [Some(of(true)), Some(of(true))]);
        assert_eq!(plate("pump 2", 240, 10.8), [Some(of(false)), Some(of(false))]);
        let by_plate = Some(PumpMark::Nameplate);
        assert_eq!(plate("pump", 230, 10.8), [by_plate.clone(), by_plate]);
        let by_load = Some(PumpMark::SpeedsAndLoad);
        assert_eq!(plate("pump", 240, 10.7), [by_load.clone(), by_load]);
    }
}
