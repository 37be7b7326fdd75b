//! Everything that follows from a layout and the choice of places and groups: what is plugged in
//! where, where jumpers and links go, what the conductors carry.

use super::breaker::{BreakerChoice, breaker};
use super::heater::watts_on;
use super::jumpers::{Fit, suits};
use super::lag::{Lag, lag};
use super::loads::{ConductorLoad, RatedLoad, conductor_loads, fuse_loads, header_loads};
use super::pins::{PinOrder, pin_order_for};
use super::reason::{EmptyReason, JumperReason};
use super::supply_run::{RunDrop, run_drop};
use super::switches::{BankSetting, bank_settings};
use super::voltages::{GroupVoltage, group_voltage};
use crate::board::{
    Board, CurrentSource, Device, Feed, FuseId, GroupId, HeaderId, Heater, Job, JumperId, Layout,
    LinkId, Speeds, TerminalId,
};
use crate::units::{Amps, Volts, Watts};

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

/// What follows from `fit`, the choice under `layout`.
pub fn wiring(
    board: &Board,
    job: &Job,
    layout: &Layout,
    fit: &Fit,
    element: Option<Heater>,
) -> Wiring {
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
