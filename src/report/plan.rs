//! The wire types of `plan --format json`. The keys are an interface, versioned with the language.

use serde::{Serialize, Serializer};

use super::{ProblemJson, words};
use crate::board::{Allowance, Board, Job, LayoutNumber, Speeds};
use crate::compile::{PlannedJob, mark_of_job};
use crate::decide::reason::LayoutReason;
use crate::decide::{
    DevicePlan, LayoutChoice, PumpMark, ReadFrom, WireVerdict, Wiring, nameplate, pump_mark,
};
use crate::units::fixed;

/// What is decided for a job. A refused job has its problems and nothing that could be followed:
/// all that is not known, or not sound, is null.
#[derive(Debug, Serialize)]
pub struct PlanJson {
    board: Option<String>,
    /// The content mark of its English sheets.
    mark: Option<String>,
    supply: Option<String>,
    layout: Option<u8>,
    other_layouts: Option<Vec<u8>>,
    /// Of these, lower ones that fit the devices but cannot be wired as the job asks.
    passed_layouts: Option<Vec<u8>>,
    devices: Option<Vec<DeviceJson>>,
    empty_headers: Option<Vec<String>>,
    jumpers: Option<Named<String>>,
    switches: Option<Named<Vec<&'static str>>>,
    /// The rotary selector and its position; null where the layout number is entered otherwise.
    selector: Option<Named<String>>,
    heater: Option<HeaterJson>,
    conductors: Option<Named<Number>>,
    breaker: Option<BreakerJson>,
    supply_run: Option<RunJson>,
    wire: Option<WireJson>,
    problems: Vec<ProblemJson>,
}

#[derive(Debug, Serialize)]
struct DeviceJson {
    device: String,
    header: String,
    group: String,
    jumper: Option<String>,
    volts: Number,
    amps: Number,
    fuse: Option<String>,
    /// The device whose further cord it is; absent for all others.
    #[serde(skip_serializing_if = "Option::is_none")]
    cord_of: Option<String>,
    pins: Vec<Option<String>>,
    read_from: &'static str,
    /// The letters of the wire in each cavity (IEC 60757, or `bare`); absent if none is known.
    #[serde(skip_serializing_if = "Option::is_none")]
    wires: Option<Vec<Option<&'static str>>>,
    /// What the nameplate says, by which one jet pump is told from another; null for the heater.
    nameplate: Option<NameplateJson>,
}

#[derive(Debug, Serialize)]
struct NameplateJson {
    speeds: u8,
    volts: Number,
    /// `10.8 A`, `1 1/2 hp`, `90 W`.
    high: String,
    low: Option<String>,
    /// Jet pumps of the job with the same nameplate.
    same_as: Vec<String>,
}

#[derive(Debug, Serialize)]
struct HeaterJson {
    volts: Number,
    watts: Number,
    /// How many pumps and blowers may run on high meanwhile; null if that is not what is set.
    allowance: Option<u8>,
    /// What all that runs may add up to meanwhile; null if that is not what is set.
    allowance_amps: Option<Number>,
}

#[derive(Debug, Serialize)]
struct BreakerJson {
    fitted: Number,
    needed_amps: Number,
    smallest: Option<Number>,
    rules: &'static str,
    /// What the heater counts for before any factor, where that is not what it draws.
    heater_nameplate_amps: Option<Number>,
}

/// What was found about the conductors of the supply run.
#[derive(Debug, Serialize)]
struct WireJson {
    /// As the job writes it.
    conductor: Option<String>,
    /// What one conductor may carry; `null` if that is not known.
    capacity_amps: Option<Number>,
    /// `suits`, `only with terminals for 75 C` or `not judged`; else the job is refused.
    verdict: &'static str,
}

#[derive(Debug, Serialize)]
struct RunJson {
    drop_volts: Number,
    drop_percent: Number,
}

/// A number without the noise of its last digits.
#[derive(Debug)]
struct Number(f64);

impl Serialize for Number {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let rounded: f64 = fixed(self.0, 6).parse().unwrap_or(self.0);
        serializer.serialize_f64(rounded)
    }
}

/// An object whose keys stand in the board's order.
#[derive(Debug)]
struct Named<T>(Vec<(String, T)>);

impl<T: Serialize> Serialize for Named<T> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_map(self.0.iter().map(|(name, value)| (name, value)))
    }
}

impl PlanJson {
    /// The wire form; `planned` is `None` if the job could not be read.
    pub fn new(planned: Option<&PlannedJob>, problems: Vec<ProblemJson>) -> Self {
        let sound = planned.and_then(|planned| {
            let (layout, wiring) = planned.plan.sound()?;
            Some((planned, layout, wiring))
        });
        let refused = Self {
            board: planned.map(|planned| planned.board.about.name.clone()),
            mark: None,
            supply: planned.map(|planned| planned.board[planned.job.supply.value].name.clone()),
            layout: None,
            other_layouts: None,
            passed_layouts: None,
            devices: None,
            empty_headers: None,
            jumpers: None,
            switches: None,
            selector: None,
            heater: None,
            conductors: None,
            breaker: None,
            supply_run: None,
            wire: None,
            problems,
        };
        match sound {
            Some((planned, layout, wiring)) => refused.with(planned, layout, wiring),
            None => refused,
        }
    }

    fn with(self, planned: &PlannedJob, layout: &LayoutChoice, wiring: &Wiring) -> Self {
        let (board, job) = (&planned.board, &planned.job);
        let breaker = &wiring.breaker;
        Self {
            mark: Some(mark_of_job(planned).to_string()),
            layout: Some(layout.number.get()),
            other_layouts: Some(layout.others.iter().map(|number| number.get()).collect()),
            passed_layouts: Some(passed(layout).iter().map(|number| number.get()).collect()),
            devices: Some(
                wiring.devices.iter().map(|one| device(board, job, wiring, one)).collect(),
            ),
            empty_headers: Some(
                wiring.empty.iter().map(|(header, _)| board[*header].code.clone()).collect(),
            ),
            jumpers: Some(Named(
                wiring
                    .jumpers
                    .iter()
                    .map(|one| (board[one.jumper].code.clone(), board[one.group].code.clone()))
                    .collect(),
            )),
            switches: Some(Named(
                wiring
                    .switches
                    .iter()
                    .map(|one| {
                        let words = one.positions.iter().map(|on| if *on { "on" } else { "off" });
                        (board[one.bank].code.clone(), words.collect())
                    })
                    .collect(),
            )),
            selector: wiring.selector.map(|one| {
                let selector = &board[one.selector];
                let position = selector.positions.get(one.position);
                let name = position.map_or_else(String::new, |position| position.name.clone());
                Named(vec![(selector.code.clone(), name)])
            }),
            heater: wiring.heater.map(|heater| HeaterJson {
                volts: Number(heater.volts.0),
                watts: Number(heater.watts.0),
                allowance: match heater.allowance {
                    Some(Allowance::Loads(count)) => Some(count),
                    _ => None,
                },
                allowance_amps: match heater.allowance {
                    Some(Allowance::Amps(amps)) => Some(Number(amps.0)),
                    _ => None,
                },
            }),
            conductors: Some(Named(
                wiring
                    .conductors
                    .iter()
                    .map(|load| (load.conductor.to_string(), Number(load.amps.0)))
                    .collect(),
            )),
            breaker: Some(BreakerJson {
                fitted: Number(breaker.fitted.0),
                needed_amps: Number(breaker.needed.0),
                smallest: breaker.smallest.map(|size| Number(size.0)),
                rules: breaker.rules.rules.word(),
                heater_nameplate_amps: breaker.heater.map(|heater| Number(heater.nameplate.0)),
            }),
            supply_run: wiring.run.as_ref().map(|run| RunJson {
                drop_volts: Number(run.drop.0),
                drop_percent: Number(run.percent),
            }),
            wire: Some(WireJson {
                conductor: job.run.map(|run| run.wire.to_string()),
                capacity_amps: wiring.wire.capacity.map(|capacity| Number(capacity.amps.0)),
                verdict: match wiring.wire.verdict {
                    WireVerdict::Suits => "suits",
                    WireVerdict::OnlyAt75 { .. } => "only with terminals for 75 C",
                    WireVerdict::TooThin(_) => "too thin",
                    WireVerdict::Unjudged(_) => "not judged",
                },
            }),
            ..self
        }
    }
}

fn passed(layout: &LayoutChoice) -> &[LayoutNumber] {
    match &layout.because {
        LayoutReason::LowestThatWorks { passed } => passed,
        LayoutReason::OnlyFit | LayoutReason::LowestNumber => &[],
    }
}

fn device(board: &Board, job: &Job, wiring: &Wiring, one: &DevicePlan) -> DeviceJson {
    DeviceJson {
        device: one.device.to_string(),
        header: board[one.header].code.clone(),
        group: board[one.group].code.clone(),
        jumper: one.jumper.map(|jumper| board[jumper].code.clone()),
        volts: Number(one.volts.0),
        amps: Number(one.amps.0),
        fuse: one.fuse.map(|fuse| board[fuse].code.clone()),
        cord_of: board.cord_of(one.device).map(|device| device.to_string()),
        pins: one.pins.pins.iter().map(|pin| pin.map(|pin| pin.to_string())).collect(),
        read_from: match one.pins.read_from {
            ReadFrom::Top => "top",
            ReadFrom::Left => "left",
        },
        wires: one
            .pins
            .colours
            .iter()
            .any(Option::is_some)
            .then(|| one.pins.colours.iter().map(|wire| wire.map(|wire| wire.letters)).collect()),
        nameplate: plate(job, wiring, one),
    }
}

fn plate(job: &Job, wiring: &Wiring, one: &DevicePlan) -> Option<NameplateJson> {
    let plate = nameplate(job, one)?;
    let plain = |load| words::load(load).replace('\u{a0}', " ");
    let alike = match pump_mark(job, wiring, one) {
        Some(PumpMark::Alike { all, .. }) => all,
        _ => Vec::new(),
    };
    Some(NameplateJson {
        speeds: if plate.speeds == Speeds::Two { 2 } else { 1 },
        volts: Number(plate.volts.0),
        high: plain(plate.high),
        low: plate.low.map(plain),
        same_as: alike
            .iter()
            .filter(|device| **device != one.device)
            .map(ToString::to_string)
            .collect(),
    })
}
