//! All decisions for one job, joined.

use super::breaker::{BreakerChoice, breaker, rules};
use super::heater::watts_on;
use super::jumpers::{Fit, fit, suits};
use super::lag::{Lag, lag};
use super::layout::{NearLayout, but_for_circulation, fitting, nearest, wanted};
use super::loads::{ConductorLoad, RatedLoad, conductor_loads, fuse_loads, header_loads};
use super::pins::{PinOrder, pin_order_for};
use super::reason::{EmptyReason, JumperReason, LayoutReason};
use super::refusals;
use super::supply_run::{RunDrop, run_drop};
use super::switches::{BankSetting, bank_settings};
use super::voltages::{GroupVoltage, group_voltage};
use crate::board::{
    Board, CurrentSource, Device, Feed, FuseId, GroupId, HeaderId, Heater, Job, JumperId, Layout,
    LayoutNumber, LinkId, Speeds, TerminalId,
};
use crate::diagnostic::Problems;
use crate::units::{Amps, Volts, Watts};

/// How many layouts are named where none fits.
pub const NEAREST: usize = 3;

/// What is decided for a job.
#[derive(Clone, Debug)]
pub struct Plan {
    /// The layout; `None` if none fits.
    pub layout: Option<LayoutChoice>,
    /// Where none fits, those that nearly do, the nearest first.
    pub nearest: Vec<NearLayout>,
    /// Everything that follows from the layout; `None` if no layout fits, or if some device cannot
    /// get its voltage. It may hold what `problems` refuses: see [`Plan::sound`].
    pub wiring: Option<Wiring>,
    /// What is wrong, each with its place in the job.
    pub problems: Problems,
}

impl Plan {
    /// The wiring, if nothing refuses it: only this may be put on a sheet.
    pub fn sound(&self) -> Option<(&LayoutChoice, &Wiring)> {
        if self.problems.failed().is_some() {
            return None;
        }
        Some((self.layout.as_ref()?, self.wiring.as_ref()?))
    }
}

/// The layout of a job.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LayoutChoice {
    /// Its number.
    pub number: LayoutNumber,
    /// Why.
    pub because: LayoutReason,
    /// The others that fit.
    pub others: Vec<LayoutNumber>,
    /// The layout that is the same but for the circulation pump, whether there is one.
    pub but_for_circulation: Option<LayoutNumber>,
}

/// Everything that follows from a layout.
#[derive(Clone, Debug)]
pub struct Wiring {
    /// What is plugged in where, in the order of the headers.
    pub devices: Vec<DevicePlan>,
    /// What must stay empty, in the order of the headers.
    pub empty: Vec<(HeaderId, EmptyReason)>,
    /// Every jumper of the board.
    pub jumpers: Vec<JumperPlan>,
    /// Every link of the board.
    pub links: Vec<LinkPlan>,
    /// Every switch bank of the board.
    pub switches: Vec<BankSetting>,
    /// The heater, if the board drives one.
    pub heater: Option<HeaterPlan>,
    /// What each supply conductor carries at the worst, in the order L1, L2, L3, L, N.
    pub conductors: Vec<ConductorLoad>,
    /// How much more they can carry because of power factors that nobody gives; `None` if that is
    /// too little to be told.
    pub lag: Option<Lag>,
    /// What each header in use carries at the worst.
    pub headers: Vec<RatedLoad<HeaderId>>,
    /// What each fuse in use carries at the worst.
    pub fuses: Vec<RatedLoad<FuseId>>,
    /// The breaker and the heater allowance.
    pub breaker: BreakerChoice,
    /// What is lost on the way, if the job tells of the supply run.
    pub run: Option<RunDrop>,
    /// Whether no other choice of places and groups is better. False only for boards beyond all
    /// measure, where the search gave up.
    pub optimal: bool,
}

/// A device at its header.
#[derive(Clone, Debug, PartialEq)]
pub struct DevicePlan {
    /// What it is there: a jet pump has its number.
    pub device: Device,
    /// Which of the job's equipment; `None` for the heater.
    pub fitted: Option<usize>,
    /// Its speeds.
    pub speeds: Speeds,
    /// The header.
    pub header: HeaderId,
    /// The group that feeds it.
    pub group: GroupId,
    /// The jumper that picks the group, if one does.
    pub jumper: Option<JumperId>,
    /// What the group gives, whether its *common* pin is live included.
    pub voltage: GroupVoltage,
    /// The same as a number.
    pub volts: Volts,
    /// What its plate says.
    pub plate: Volts,
    /// What it draws on high, or when it is on.
    pub amps: Amps,
    /// What it draws on low, if it has two speeds.
    pub low: Option<Amps>,
    /// Where the currents come from: on high, and on low; the heater's follow from its element.
    pub sources: (Option<CurrentSource>, Option<CurrentSource>),
    /// The fuse in front of it.
    pub fuse: Option<FuseId>,
    /// The pins of its cord as a person sees them at the header.
    pub pins: PinOrder,
}

/// Where a jumper goes.
#[derive(Clone, Debug, PartialEq)]
pub struct JumperPlan {
    /// The jumper.
    pub jumper: JumperId,
    /// Its group.
    pub group: GroupId,
    /// Whether a person must move it from where it is shipped.
    pub moved: bool,
    /// Why.
    pub because: JumperReason,
}

/// Where a link goes: the supply says it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct LinkPlan {
    /// The link.
    pub link: LinkId,
    /// Its terminal.
    pub terminal: TerminalId,
    /// Whether a person must move it from where it is shipped.
    pub moved: bool,
}

/// The heater of a job.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HeaterPlan {
    /// Its element.
    pub element: Heater,
    /// Whether the job gave the element, in place of the board's specification.
    pub from_job: bool,
    /// What it gets.
    pub volts: Volts,
    /// What it gives then.
    pub watts: Watts,
    /// How many pumps and blowers may run on high meanwhile; `None` if no switch sets it.
    pub allowance: Option<u8>,
}

/// Decides everything for `job` on `board`.
pub fn plan(board: &Board, job: &Job) -> Plan {
    let mut problems = Problems::default();
    refusals::before(board, job, &mut problems);
    let asked = wanted(job);
    let numbers = fitting(board, &asked);
    if numbers.is_empty() {
        let nearest = nearest(board, &asked, NEAREST);
        refusals::no_layout(board, job, &nearest, &mut problems);
        return Plan { layout: None, nearest, wiring: None, problems };
    }
    let element = element(board, job);
    let rules = rules(board, job).rules;
    let mut first: Option<Attempt> = None;
    let mut passed = Vec::new();
    for number in &numbers {
        let Some(layout) = board.layout(*number) else { continue };
        let fit = fit(board, job, layout, rules, element);
        let attempt = attempt(board, job, layout, fit, element);
        let works = attempt.problems.failed().is_none();
        if works || first.is_none() {
            first = Some(Attempt { number: *number, passed: passed.clone(), ..attempt });
        }
        if works {
            break;
        }
        passed.push(*number);
    }
    let Some(Attempt { number, passed, wiring, problems: found }) = first else {
        return Plan { layout: None, nearest: Vec::new(), wiring: None, problems };
    };
    problems.extend(found);
    let because = match (passed.is_empty(), numbers.len()) {
        (true, 1) => LayoutReason::OnlyFit,
        (true, _) => LayoutReason::LowestNumber,
        (false, _) => LayoutReason::LowestThatWorks { passed },
    };
    let layout = LayoutChoice {
        number,
        because,
        others: numbers.into_iter().filter(|other| *other != number).collect(),
        but_for_circulation: but_for_circulation(board, number),
    };
    Plan { layout: Some(layout), nearest: Vec::new(), wiring, problems }
}

/// The heater's element: the job's, or the board's.
fn element(board: &Board, job: &Job) -> Option<Heater> {
    job.heater.map(|heater| heater.value).or(board.heater)
}

/// A layout that was tried.
struct Attempt {
    number: LayoutNumber,
    passed: Vec<LayoutNumber>,
    wiring: Option<Wiring>,
    problems: Problems,
}

fn attempt(
    board: &Board,
    job: &Job,
    layout: &Layout,
    fit: Option<Fit>,
    element: Option<Heater>,
) -> Attempt {
    let mut problems = Problems::default();
    refusals::heater(board, job, layout, element, &mut problems);
    let wiring = match fit {
        None => {
            refusals::voltages(board, job, layout, &mut problems);
            None
        }
        Some(fit) => {
            let wiring = wiring(board, job, layout, &fit, element);
            refusals::wiring(board, job, &fit, &wiring, &mut problems);
            Some(wiring)
        }
    };
    Attempt { number: layout.number, passed: Vec::new(), wiring, problems }
}

fn wiring(board: &Board, job: &Job, layout: &Layout, fit: &Fit, element: Option<Heater>) -> Wiring {
    let devices = devices(board, job, fit, element);
    let heater = devices.iter().find(|device| device.fitted.is_none()).zip(element);
    let heater = heater.map(|(device, element)| HeaterPlan {
        element,
        from_job: job.heater.is_some(),
        volts: device.volts,
        watts: watts_on(element, device.volts),
        allowance: fit.allowance,
    });
    let conductors = conductor_loads(board, job, fit, fit.allowance);
    Wiring {
        empty: empty(board, layout, &devices),
        jumpers: jumpers(board, job, fit, &devices),
        links: links(board, job),
        switches: bank_settings(board, fit.allowance),
        heater,
        lag: lag(board, job, fit, &conductors),
        conductors,
        headers: header_loads(board, fit),
        fuses: fuse_loads(board, fit),
        breaker: breaker(board, job, fit),
        run: job.run.as_ref().and_then(|run| run_drop(board, job, run, fit)),
        optimal: fit.optimal,
        devices,
    }
}

fn devices(board: &Board, job: &Job, fit: &Fit, element: Option<Heater>) -> Vec<DevicePlan> {
    fit.plugged
        .iter()
        .filter_map(|plugged| {
            let slot = fit.slots.get(plugged.slot)?;
            let header = &board[slot.header];
            let fitted = plugged.fitted.and_then(|index| job.equipment.get(index));
            let group = plugged.choice.group;
            let voltage = group_voltage(board, job.supply.value, group);
            let low = fitted.and_then(|fitted| fitted.low);
            Some(DevicePlan {
                device: slot.device,
                fitted: plugged.fitted,
                speeds: slot.speeds,
                header: slot.header,
                group,
                jumper: match header.feed {
                    Feed::Jumper(jumper) => Some(jumper),
                    Feed::Group(_) => None,
                },
                volts: voltage.volts()?,
                voltage,
                plate: match fitted {
                    Some(fitted) => fitted.volts.value,
                    None => element?.at,
                },
                amps: Amps(plugged.choice.real.high),
                low: low.map(|low| low.amps),
                sources: (fitted.map(|fitted| fitted.high.source), low.map(|low| low.source)),
                fuse: header.fuse,
                pins: pin_order_for(&board[header.socket], header.key, slot.speeds),
            })
        })
        .collect()
}

fn empty(board: &Board, layout: &Layout, devices: &[DevicePlan]) -> Vec<(HeaderId, EmptyReason)> {
    let free = |header: &HeaderId| devices.iter().all(|device| device.header != *header);
    board
        .header_ids()
        .filter(free)
        .map(|header| {
            let because = match board.device_at(header, layout) {
                Some(device) => EmptyReason::NotFitted(device),
                None => EmptyReason::Idle,
            };
            (header, because)
        })
        .collect()
}

fn jumpers(board: &Board, job: &Job, fit: &Fit, devices: &[DevicePlan]) -> Vec<JumperPlan> {
    let all = board.jumpers.iter().zip(&fit.jumpers).enumerate();
    all.map(|(index, (jumper, group))| {
        let id = JumperId(index);
        let fed: Vec<&DevicePlan> =
            devices.iter().filter(|device| device.jumper == Some(id)).collect();
        let moved = *group != jumper.shipped;
        let volts = group_voltage(board, job.supply.value, *group).volts();
        let because = match (fed.is_empty(), volts) {
            (true, _) | (_, None) if moved => JumperReason::MakesRoom,
            (true, _) | (_, None) => JumperReason::Unused,
            (false, Some(volts)) => {
                let others: Vec<GroupId> = jumper
                    .groups
                    .iter()
                    .copied()
                    .filter(|other| other != group)
                    .filter(|other| {
                        let volts = group_voltage(board, job.supply.value, *other).volts();
                        volts.is_some_and(|volts| fed.iter().all(|d| suits(volts, d.plate)))
                    })
                    .collect();
                if others.is_empty() {
                    JumperReason::OnlyVoltage { volts }
                } else {
                    JumperReason::Together { volts, others }
                }
            }
        };
        JumperPlan { jumper: id, group: *group, moved, because }
    })
    .collect()
}

fn links(board: &Board, job: &Job) -> Vec<LinkPlan> {
    let positions = board[job.supply.value].links.iter();
    board
        .links
        .iter()
        .zip(positions)
        .enumerate()
        .map(|(index, (link, terminal))| LinkPlan {
            link: LinkId(index),
            terminal: *terminal,
            moved: *terminal != link.shipped,
        })
        .collect()
}
