//! Tabs, headers and fuses that get more than they take.

use super::super::jumpers::Fit;
use super::super::loads::RatedLoad;
use super::super::plan::{DevicePlan, JumperPlan, Wiring};
use super::finding::{Behind, Finding, FuseOverload, HeaderOverload, TabsTaken};
use super::heater::heater_place;
use crate::board::{Board, FuseId, GroupId, Job, JumperId};
use crate::source::Spanned;
use crate::units::Amps;

/// Groups that more jumpers must go to than they have tabs.
pub fn tabs(board: &Board, job: &Job, fit: &Fit, wiring: &Wiring) -> Vec<Finding> {
    if fit.tabs {
        return Vec::new();
    }
    let taken = |(index, tabs): (usize, u8)| {
        let group = GroupId(index);
        let here = |plan: &&JumperPlan| plan.group == group;
        let jumpers: Vec<JumperId> =
            wiring.jumpers.iter().filter(here).map(|plan| plan.jumper).collect();
        if jumpers.len() <= usize::from(tabs) {
            return None;
        }
        let fed = |device: &&DevicePlan| device.jumper.is_some() && device.group == group;
        let last = wiring.devices.iter().rev().find(fed);
        let fitted = last.and_then(|device| job.equipment.get(device.fitted?));
        let place = fitted.map_or(job.supply.span, |fitted| fitted.volts.span);
        Some(Finding::TabsTaken(TabsTaken { group, jumpers, place }))
    };
    board.groups.iter().map(|group| group.tabs).enumerate().filter_map(taken).collect()
}

/// Headers that carry more than they may.
pub fn headers(job: &Job, wiring: &Wiring) -> Vec<Finding> {
    let over = wiring.headers.iter().filter(|load| !load.holds());
    over.filter_map(|load| {
        let device = wiring.devices.iter().find(|device| device.header == load.of)?;
        Some(Finding::HeaderOverload(HeaderOverload {
            header: load.of,
            device: device.device,
            amps: Spanned::new(load.amps, drawn(job, device).span),
            rating: load.rating?,
        }))
    })
    .collect()
}

/// Fuses that carry more than they may.
pub fn fuses(job: &Job, wiring: &Wiring) -> Vec<Finding> {
    let over = wiring.fuses.iter().filter(|load| !load.holds());
    over.filter_map(|load| fuse(job, wiring, load)).collect()
}

fn fuse(job: &Job, wiring: &Wiring, load: &RatedLoad<FuseId>) -> Option<Finding> {
    let mut behind: Vec<&DevicePlan> =
        wiring.devices.iter().filter(|device| device.fuse == Some(load.of)).collect();
    behind.sort_by(|a, b| b.amps.0.total_cmp(&a.amps.0));
    let mut behind =
        behind.into_iter().map(|device| Behind { device: device.device, amps: drawn(job, device) });
    let largest = behind.next()?;
    let rest = behind.collect();
    Some(Finding::FuseOverload(FuseOverload { fuse: load.of, largest, rest, amps: load.amps }))
}

/// What a device draws, and where the job says so.
fn drawn(job: &Job, device: &DevicePlan) -> Spanned<Amps> {
    let fitted = device.fitted.and_then(|index| job.equipment.get(index));
    let place = fitted.map_or_else(|| heater_place(job), |fitted| fitted.high.span);
    Spanned::new(device.amps, place)
}
