//! Heaters that get no voltage, too much or too little, and where nobody gives the element.

use super::super::heater::watts_on;
use super::super::jumpers::suits;
use super::super::voltages::{GroupVoltage, group_voltage};
use super::finding::{Finding, HeaterOnOther};
use crate::board::{Board, Device, GroupId, HeaderId, Heater, Job, Layout};
use crate::source::Span;
use crate::units::Volts;

/// What is wrong with the heater's voltage under `layout`, and where nobody gives its element.
pub fn heater(board: &Board, job: &Job, layout: &Layout, element: Option<Heater>) -> Vec<Finding> {
    let driven = |header: &HeaderId| board.device_at(*header, layout) == Some(Device::Heater);
    board
        .header_ids()
        .filter(driven)
        .filter_map(|header| match element {
            None => Some(Finding::HeaterUnknown { header }),
            Some(element) => at(board, job, header, element),
        })
        .collect()
}

/// Where a job speaks of its heater: the element that it gives, or the supply that feeds it.
pub fn heater_place(job: &Job) -> Span {
    job.heater.map_or(job.supply.span, |heater| heater.span)
}

fn at(board: &Board, job: &Job, header: HeaderId, element: Heater) -> Option<Finding> {
    let groups: Vec<(GroupId, GroupVoltage)> = board
        .groups_of(header)
        .into_iter()
        .map(|group| (group, group_voltage(board, job.supply.value, group)))
        .collect();
    let volts: Vec<Volts> = groups.iter().filter_map(|(_, voltage)| voltage.volts()).collect();
    if volts.is_empty() {
        return Some(Finding::HeaterWithoutVoltage { header, groups });
    }
    if volts.iter().any(|volts| suits(*volts, element.at)) {
        return None;
    }
    let on = |volts: Volts| {
        let watts = watts_on(element, volts);
        HeaterOnOther { header, element, volts, watts, place: heater_place(job) }
    };
    Some(match highest_below(&volts, element.at) {
        Some(best) => Finding::HeaterWeak(on(best)),
        None => {
            let lowest = volts.iter().map(|volts| volts.0).fold(f64::INFINITY, f64::min);
            Finding::HeaterTooHigh(on(Volts(lowest)))
        }
    })
}

fn highest_below(volts: &[Volts], plate: Volts) -> Option<Volts> {
    let below = volts.iter().filter(|volts| volts.0 < plate.0);
    below.copied().max_by(|a, b| a.0.total_cmp(&b.0))
}
