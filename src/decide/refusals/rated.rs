//! Tabs, headers and fuses that get more than they take.

use super::super::jumpers::Fit;
use super::super::wiring::{DevicePlan, Wiring};
use super::heater_span;
use crate::board::{Board, FuseId, GroupId, Job};
use crate::diagnostic::{Code, Problem, Problems};
use crate::english::and;
use crate::source::Span;

/// Reports groups that more jumpers must go to than they have tabs.
pub fn tabs(board: &Board, job: &Job, fit: &Fit, wiring: &Wiring, problems: &mut Problems) {
    if fit.tabs {
        return;
    }
    for (index, group) in board.groups.iter().enumerate() {
        let here = |plan: &&super::super::wiring::JumperPlan| plan.group == GroupId(index);
        let on: Vec<_> = wiring.jumpers.iter().filter(here).collect();
        if on.len() <= usize::from(group.tabs) {
            continue;
        }
        let codes: Vec<String> = on.iter().map(|plan| board[plan.jumper].code.clone()).collect();
        let fed = wiring
            .devices
            .iter()
            .rev()
            .find(|device| device.jumper.is_some() && device.group == GroupId(index));
        let fitted = fed.and_then(|device| job.equipment.get(device.fitted?));
        let place = fitted.map_or(job.supply.span, |fitted| fitted.volts.span);
        problems.error(
            Problem::new(
                Code::TabsTaken,
                place,
                format!(
                    "group {} has {}, but {} must go there",
                    group.code,
                    super::count(usize::from(group.tabs), "tab"),
                    and(&codes)
                ),
            )
            .label(format!("needs group {}", group.code))
            .other(group.span, super::count(usize::from(group.tabs), "tab"))
            .help("fit fewer devices of this voltage"),
        );
    }
}

/// Reports headers and fuses that carry more than they may.
pub fn ratings(board: &Board, job: &Job, wiring: &Wiring, problems: &mut Problems) {
    for load in wiring.headers.iter().filter(|load| !load.holds()) {
        let Some(device) = wiring.devices.iter().find(|device| device.header == load.of) else {
            continue;
        };
        let header = &board[load.of];
        let may = load.rating.map_or_else(String::new, |rating| format!("may carry {rating}"));
        problems.error(
            Problem::new(
                Code::HeaderOverload,
                amps_span(job, device),
                format!("{} draws more than header {} may carry", device.device.the(), header.code),
            )
            .label(format!("draws {}", load.amps))
            .other(header.span, may)
            .help("fit a smaller device, or feed it by a contactor of its own"),
        );
    }
    for load in wiring.fuses.iter().filter(|load| !load.holds()) {
        fuse(board, job, wiring, load.of, problems);
    }
}

fn fuse(board: &Board, job: &Job, wiring: &Wiring, id: FuseId, problems: &mut Problems) {
    let Some(load) = wiring.fuses.iter().find(|load| load.of == id) else { return };
    let mut behind: Vec<&DevicePlan> =
        wiring.devices.iter().filter(|device| device.fuse == Some(id)).collect();
    behind.sort_by(|a, b| b.amps.0.total_cmp(&a.amps.0));
    let Some((largest, rest)) = behind.split_first() else { return };
    let fuse = &board[id];
    let names: Vec<String> = behind.iter().map(|device| device.device.the()).collect();
    let draw = if names.len() == 1 { "draws" } else { "draw" };
    let together = if names.len() == 1 { "" } else { " together" };
    let mut problem = Problem::new(
        Code::FuseOverload,
        amps_span(job, largest),
        format!("{} {draw}{together} more than fuse {} carries", and(&names), fuse.code),
    )
    .label(format!("draws {}", largest.amps))
    .other(fuse.span, format!("rated {}", fuse.rating));
    for device in rest {
        problem = problem.other(amps_span(job, device), format!("draws {}", device.amps));
    }
    if !rest.is_empty() {
        problem = problem.note(format!("at the worst they draw {} at once", load.amps));
    }
    problems.error(problem.help("fit a smaller device; never fit a larger fuse"));
}

fn amps_span(job: &Job, device: &DevicePlan) -> Span {
    let fitted = device.fitted.and_then(|index| job.equipment.get(index));
    fitted.map_or_else(|| heater_span(job), |fitted| fitted.high.span)
}
