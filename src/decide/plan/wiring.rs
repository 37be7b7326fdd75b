//! Everything that follows from a layout and a choice of places and groups.

use super::super::breaker::breaker;
use super::super::heater::watts_on;
use super::super::jumpers::{Fit, suits};
use super::super::lag::lag;
use super::super::loads::{conductor_loads, fuse_loads, header_loads};
use super::super::pins::pin_order_for;
use super::super::reason::{EmptyReason, JumperReason};
use super::super::supply_run::run_drop;
use super::super::switches::{bank_settings, selector_setting};
use super::super::voltages::SupplyVoltages;
use super::super::wire::wire;
use super::types::{DevicePlan, HeaterPlan, JumperPlan, LinkPlan, Wiring};
use crate::board::{
    Board, Feed, GroupId, HandleMap, HeaderId, Heater, Job, JumperId, Layout, LinkId, TerminalId,
};
use crate::units::Amps;

/// What follows from `fit`, the choice that was made under `layout`.
pub fn wiring(
    board: &Board,
    job: &Job,
    layout: &Layout,
    voltages: &SupplyVoltages,
    fit: &Fit,
    element: Option<Heater>,
) -> Wiring {
    let devices: Vec<DevicePlan> = devices(board, job, voltages, fit, element);
    let heater = devices.iter().find(|device| device.fitted.is_none()).zip(element);
    let heater = heater.map(|(device, element)| HeaterPlan {
        element,
        from_job: job.heater.is_some(),
        volts: device.volts,
        watts: watts_on(element, device.volts),
        allowance: fit.allowance,
    });
    let conductors = conductor_loads(board, job, fit, fit.allowance);
    let breaker = breaker(board, job, fit);
    // What the breaker is needed for, or what really flows where that is more: in the neutral, or
    // with a marked ampacity.
    let most = conductors.iter().map(|load| load.amps.0).fold(breaker.needed.0, f64::max);
    Wiring {
        empty: empty(board, layout, &devices),
        jumpers: jumpers(board, voltages, fit, &devices),
        links: links(board, job),
        switches: bank_settings(board, fit.allowance, layout.number),
        selector: selector_setting(board, layout.number),
        heater,
        lag: lag(board, job, fit, &conductors),
        conductors,
        headers: header_loads(board, fit),
        fuses: fuse_loads(board, fit),
        breaker,
        wire: wire(board, job, Some(Amps(most))),
        run: job.run.as_ref().and_then(|run| run_drop(board, job, run, fit)),
        optimal: fit.optimal,
        devices: HandleMap::new(devices),
    }
}

fn devices(
    board: &Board,
    job: &Job,
    voltages: &SupplyVoltages,
    fit: &Fit,
    element: Option<Heater>,
) -> Vec<DevicePlan> {
    fit.plugged
        .iter()
        .filter_map(|plugged| {
            let slot = plugged.slot;
            let header = &board[slot.header];
            let fitted = plugged.fitted.and_then(|index| job.equipment.get(index));
            let group = plugged.choice.group;
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
                volts: voltages.volts(group)?,
                voltage: voltages[group].clone(),
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

fn jumpers(
    board: &Board,
    voltages: &SupplyVoltages,
    fit: &Fit,
    devices: &[DevicePlan],
) -> Vec<JumperPlan> {
    let plan = |(jumper, group): (JumperId, &GroupId)| {
        let fed: Vec<&DevicePlan> =
            devices.iter().filter(|device| device.jumper == Some(jumper)).collect();
        let moved = *group != board[jumper].shipped;
        let volts = voltages.volts(*group).filter(|_| !fed.is_empty());
        let because = match volts {
            None if moved => JumperReason::MakesRoom,
            None => JumperReason::Unused,
            Some(volts) => {
                let suits_all = |group: &GroupId| {
                    let volts = voltages.volts(*group);
                    volts.is_some_and(|volts| fed.iter().all(|d| suits(volts, d.plate)))
                };
                let others = board[jumper].groups.iter().copied().filter(|other| other != group);
                let others: Vec<GroupId> = others.filter(suits_all).collect();
                if others.is_empty() {
                    JumperReason::OnlyVoltage { volts }
                } else {
                    JumperReason::Together { volts, others }
                }
            }
        };
        JumperPlan { jumper, group: *group, moved, because }
    };
    fit.jumpers.entries().map(plan).collect()
}

fn links(board: &Board, job: &Job) -> Vec<LinkPlan> {
    let plan = |(link, terminal): (LinkId, &TerminalId)| {
        let moved = *terminal != board[link].shipped;
        LinkPlan { link, terminal: *terminal, moved }
    };
    board[job.supply.value].links.entries().map(plan).collect()
}
