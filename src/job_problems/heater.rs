//! The heater: nobody gives its element, or it gets another voltage than that of its plate.

use super::phrases::{tenths, what_it_gives};
use crate::board::{Board, GroupId, HeaderId, Job};
use crate::decide::GroupVoltage;
use crate::decide::findings::HeaterOnOther;
use crate::diagnostic::{Code, Problem};
use crate::units::shortest;

pub fn unknown(board: &Board, job: &Job, header: HeaderId) -> Problem {
    Problem::new(
        Code::HeaterUnknown,
        job.equipment_span,
        "nothing says what the heater's element draws",
    )
    .label("has no entry for the heater")
    .other(board[header].span, "feeds a heater")
    .note("the board's specification gives no element")
    .help("add `{ device: heater, watts: \u{2026}, volts: \u{2026} }` from its plate")
}

pub fn without_voltage(
    board: &Board,
    job: &Job,
    header: HeaderId,
    groups: &[(GroupId, GroupVoltage)],
) -> Problem {
    let supply = &board[job.supply.value].name;
    let mut problem = Problem::new(
        Code::NoVoltage,
        job.supply.span,
        format!("no group gives the heater any voltage on supply {supply}"),
    )
    .other(board[header].span, "feeds the heater");
    for (group, voltage) in groups {
        problem = problem.note(what_it_gives(board, *group, voltage));
    }
    problem.help("feed the board by another supply")
}

pub fn too_high(board: &Board, found: &HeaterOnOther) -> Problem {
    let HeaterOnOther { header, element, volts, watts, place } = found;
    Problem::new(
        Code::HeaterTooHigh,
        *place,
        format!("the heater's element is for {}, and gets {}", element.at, tenths(*volts)),
    )
    .label(format!("would give {} W", shortest(watts.0, 0)))
    .other(board[*header].span, "feeds the heater")
    .note(format!("its plate says {} W", shortest(element.watts.0, 0)))
    .help("fit an element for the voltage that it gets")
}

pub fn weak(board: &Board, found: &HeaterOnOther) -> Problem {
    let HeaterOnOther { header, element, volts, watts, place } = found;
    let (watts, full) = (shortest(watts.0, 0), shortest(element.watts.0, 0));
    let got = tenths(*volts);
    Problem::new(
        Code::HeaterWeak,
        *place,
        format!("the heater gets {got} in place of {}, and gives {watts} W", element.at),
    )
    .label(format!("{watts} W in place of {full} W"))
    .other(board[*header].span, "feeds the heater")
    .note("watts fall with the square of the voltage")
    .help("tell the customer that heating takes longer, or fit an element for this voltage")
}
