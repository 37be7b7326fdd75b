//! Devices that no group gives their voltage, jumpers that must be in two places, and motors at the
//! edge of their voltage.

use super::phrases::{group_list, tenths, the_role, what_it_gives};
use crate::board::{Board, Job, LayoutNumber};
use crate::decide::findings::{JumperConflict, Need, NoVoltage, VoltageEdge};
use crate::diagnostic::{Code, Problem};
use crate::english::and;
use crate::units::shortest;

pub fn no_voltage(board: &Board, job: &Job, found: &NoVoltage) -> Problem {
    let NoVoltage { role, plate, allowed, headers, groups, other } = found;
    let supply = &board[job.supply.value].name;
    let [low, high] = allowed.map(|volts| shortest(volts.0, 1));
    let mut problem = Problem::new(
        Code::NoVoltage,
        plate.span,
        format!("no group gives {} its {} on supply {supply}", the_role(*role), plate.value),
    )
    .label(format!("from {low} to {high}\u{a0}V would do"));
    let codes: Vec<String> = headers.iter().map(|h| board[*h].code.clone()).collect();
    if let Some(first) = headers.first() {
        let groups = group_list(board, groups.iter().map(|(group, _)| *group));
        let feeds = format!("{} can be fed from {groups}", and(&codes));
        problem = problem.other(board[*first].span, feeds);
    }
    for (group, voltage) in groups {
        problem = problem.note(what_it_gives(board, *group, voltage));
    }
    match other {
        Some(other) => {
            let what = if other.brings_neutral { ", which brings a neutral" } else { "" };
            problem.help(format!("feed the board by supply `{}`{what}", board[other.supply].name))
        }
        None => problem.help("fit a device for one of these voltages, or feed it from elsewhere"),
    }
}

pub fn needed_header_empty(job: &Job, layout: LayoutNumber) -> Problem {
    let what = format!("not every header that layout {layout} needs gets its device");
    Problem::new(Code::NoVoltage, job.equipment_span, what)
        .help("give each pump its number, as in `device: pump 1`")
}

pub fn jumper_conflict(board: &Board, found: &JumperConflict) -> Problem {
    let JumperConflict { jumper, fed, last } = found;
    let code = &board[*jumper].code;
    let names: Vec<String> = fed.iter().map(|one| one.device.the()).collect();
    let needs = |need: &Need| {
        let groups = group_list(board, need.groups.iter().copied());
        format!("needs {code} on {groups}, {}", need.plate.value)
    };
    let message = format!("jumper {code} cannot suit {} at once", and(&names));
    let mut problem =
        Problem::new(Code::JumperConflict, last.plate.span, message).label(needs(last));
    for one in fed {
        match &one.need {
            Some(other) if other.plate.span != last.plate.span => {
                problem = problem.other(other.plate.span, needs(other));
            }
            _ => {}
        }
        let feeds = format!("feeds {}", one.device.the());
        problem = problem.other(board[one.header].span, feeds);
    }
    let headers: Vec<String> = fed.iter().map(|one| board[one.header].code.clone()).collect();
    problem.help(format!("fit devices of the same voltage on {}", and(&headers)))
}

pub fn edge(board: &Board, found: &VoltageEdge) -> Problem {
    let [low, high] = found.allowed.map(tenths);
    Problem::new(
        Code::VoltageEdge,
        found.place,
        format!("{} is at the edge of its voltage", found.device.the()),
    )
    .label(format!("gets {} from group {}", tenths(found.volts), board[found.group].code))
    .note(format!(
        "ANSI C84.1 lets the service bring {}, and its plate allows {low} to {high}",
        tenths(found.end)
    ))
    .help("measure the voltage under load before you leave")
}
