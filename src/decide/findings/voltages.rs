//! Devices that no group gives their voltage, and motors at the edge of it.

use super::super::jumpers::{BAND, HeaderOption, Plug, carried_by, plugs, suits};
use super::super::layout::Slot;
use super::super::plan::{DevicePlan, Wiring};
use super::super::rules::{Rules, RulesReason};
use super::super::voltages::{GroupVoltage, group_voltage};
use super::finding::{
    BeyondEveryHeader, Fed, Finding, JumperConflict, Need, NoVoltage, OtherSupply, VoltageEdge,
};
use super::misfits::{Misfit, fewest_misfits};
use crate::board::{Board, Fitted, GroupId, HeaderId, Heater, Job, JumperId, Layout, SupplyId};
use crate::source::Spanned;
use crate::standards::ansi;
use crate::units::Volts;

/// Why no choice of places and groups gives every device its voltage under `layout`.
pub fn voltages(
    board: &Board,
    job: &Job,
    layout: &Layout,
    element: Option<Heater>,
) -> Vec<Finding> {
    let (slots, plugs) = plugs(board, job, layout, Rules::Iec, element);
    let hopeless = |plug: &&Plug| plug.places.iter().all(|place| place.options.is_empty());
    let mut found = Vec::new();
    for plug in plugs.iter().filter(hopeless) {
        if let Some(fitted) = fitted(job, plug) {
            let headers = plug.places.iter().filter_map(|place| slots.get(place.slot));
            let headers = headers.map(|slot| slot.header).collect();
            found.push(no_voltage(board, job, fitted, headers));
        }
    }
    let rest: Vec<&Plug> = plugs.iter().filter(|plug| !hopeless(plug)).collect();
    found.extend(rest.iter().filter_map(|plug| beyond_every_header(board, job, &slots, plug)));
    let misfits = fewest_misfits(board, &slots, &rest);
    found.extend(misfits.iter().filter_map(|misfit| match misfit {
        Misfit::Place { plug, slot } => {
            let headers = vec![slots.get(*slot)?.header];
            Some(no_voltage(board, job, fitted(job, plug)?, headers))
        }
        Misfit::Jumper { jumper, plugs } => conflict(job, &slots, *jumper, plugs),
    }));
    found
}

/// The same where no layout fits: each device against every header that can ever serve it.
pub fn anywhere(board: &Board, job: &Job) -> Vec<Finding> {
    let unfed = |fitted: &Fitted| {
        let serves = |header: &HeaderId| {
            board[*header].serves.iter().any(|(_, device)| fitted.role.can_be(*device))
        };
        let headers: Vec<HeaderId> = board.header_ids().filter(serves).collect();
        let fed = headers.iter().flat_map(|header| board.groups_of(*header)).any(|group| {
            let volts = group_voltage(board, job.supply.value, group).volts();
            volts.is_some_and(|volts| suits(volts, fitted.volts.value))
        });
        (!fed && !headers.is_empty()).then(|| no_voltage(board, job, fitted, headers))
    };
    job.equipment.iter().filter_map(unfed).collect()
}

fn fitted<'j>(job: &'j Job, plug: &Plug) -> Option<&'j Fitted> {
    job.equipment.get(plug.fitted?)
}

fn no_voltage(board: &Board, job: &Job, fitted: &Fitted, headers: Vec<HeaderId>) -> Finding {
    let plate = fitted.volts;
    let mut groups: Vec<GroupId> = headers.iter().flat_map(|h| board.groups_of(*h)).collect();
    groups.sort();
    groups.dedup();
    let gives = |supply: &SupplyId| {
        groups.iter().any(|group| {
            let volts = group_voltage(board, *supply, *group).volts();
            volts.is_some_and(|volts| suits(volts, plate.value))
        })
    };
    let other = (0..board.supplies.len()).map(SupplyId).find(gives);
    let own = &board[job.supply.value];
    Finding::NoVoltage(NoVoltage {
        role: fitted.role,
        plate,
        allowed: allowed(plate.value),
        headers,
        other: other.map(|supply| OtherSupply {
            supply,
            brings_neutral: board[supply].has_neutral() && !own.has_neutral(),
        }),
        groups: groups
            .into_iter()
            .map(|group| (group, group_voltage(board, job.supply.value, group)))
            .collect(),
    })
}

/// From which voltage to which a device may be fed: what [`suits`].
fn allowed(plate: Volts) -> [Volts; 2] {
    [1.0 - BAND, 1.0 + BAND].map(|part| Volts(plate.0 * part))
}

/// A device that every header which could take it carries too little for.
fn beyond_every_header(board: &Board, job: &Job, slots: &[Slot], plug: &Plug) -> Option<Finding> {
    let fitted = fitted(job, plug)?;
    let amps = fitted.high.amps;
    let places = || plug.places.iter().filter_map(|place| slots.get(place.slot));
    if places().any(|slot| carried_by(board, *slot, amps.0)) {
        return None;
    }
    Some(Finding::BeyondEveryHeader(BeyondEveryHeader {
        role: fitted.role,
        amps: Spanned::new(amps, fitted.high.span),
        header: places().next()?.header,
    }))
}

/// The devices on `jumper` have no group in common; `None` if none of them is in the job's list.
fn conflict(
    job: &Job,
    slots: &[Slot],
    jumper: JumperId,
    plugs: &[(&Plug, &HeaderOption)],
) -> Option<Finding> {
    let fed = |(plug, place): &(&Plug, &HeaderOption)| {
        let slot = slots.get(place.slot)?;
        let need = fitted(job, plug).map(|fitted| Need {
            plate: fitted.volts,
            groups: place.options.iter().map(|option| option.group).collect(),
        });
        Some(Fed { header: slot.header, device: slot.device, need })
    };
    let fed: Vec<Fed> = plugs.iter().filter_map(fed).collect();
    let last = fed.iter().rev().find_map(|one| one.need.clone())?;
    Some(Finding::JumperConflict(JumperConflict { jumper, fed, last }))
}

/// How far a service voltage may lie from its nominal one: ANSI C84.1, range A.
const SERVICE: f64 = 0.05;

/// Motors whose voltage suits their plate, but not at the ends of what the service may bring.
pub fn edges(board: &Board, job: &Job, wiring: &Wiring) -> Vec<Finding> {
    let listed = Rules::default_for(board[job.supply.value].system).because;
    if listed != RulesReason::Listed(ansi::NOMINAL_SYSTEMS.clause) {
        return Vec::new();
    }
    let at_edge = |plan: &DevicePlan| {
        let fitted = job.equipment.get(plan.fitted?)?;
        let motor = plan.device.is_motor();
        let mains = matches!(plan.voltage, GroupVoltage::Between { .. });
        let ends = [1.0 - SERVICE, 1.0 + SERVICE].map(|part| Volts(plan.volts.0 * part));
        let end = ends.into_iter().find(|end| !suits(*end, plan.plate))?;
        (motor && mains).then_some(Finding::VoltageEdge(VoltageEdge {
            device: plan.device,
            group: plan.group,
            volts: plan.volts,
            end,
            allowed: allowed(plan.plate),
            place: fitted.volts.span,
        }))
    };
    wiring.devices.iter().filter_map(at_edge).collect()
}
