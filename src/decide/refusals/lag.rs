//! Power factors that nobody gives, where they can make a current larger than what is printed.

use super::super::currents::Running;
use super::super::lag::{Beyond, LOWEST, Lag, UpTo};
use super::super::rules::carries;
use super::super::wiring::Wiring;
use super::the_role;
use crate::board::{Board, Conductor, Device, Job};
use crate::diagnostic::{Code, Problem, Problems};
use crate::english::and;
use crate::units::{Amps, fixed};

/// Warns of conductors that can carry more than is printed.
pub fn lag(board: &Board, job: &Job, wiring: &Wiring, problems: &mut Problems) {
    let Some(lag) = &wiring.lag else { return };
    let first = lag.unknown.first().and_then(|index| job.equipment.get(*index));
    let Some(first) = first else { return };
    let name = |index: &usize| {
        let plan = wiring.devices.iter().find(|plan| plan.fitted == Some(*index));
        let fitted = job.equipment.get(*index);
        plan.map(|plan| plan.device.the()).or(fitted.map(|fitted| the_role(fitted.role)))
    };
    let names: Vec<String> = lag.unknown.iter().filter_map(name).collect();
    let up_to: Vec<String> =
        lag.conductors.iter().map(|one| format!("{} {}", one.conductor, amps(one.amps))).collect();
    let message = if up_to.is_empty() {
        "a current may be larger than is printed, for want of a power factor".to_owned()
    } else {
        format!(
            "for want of a power factor, a current may be larger than is printed: up to {}",
            and(&up_to)
        )
    };
    let mut problem = Problem::new(Code::FactorUnknown, first.span, message)
        .label("has no `power factor`")
        .note(format!(
            "in step with the voltage for want of a power factor: {}; here each may lag, down to a \
             power factor of {LOWEST}",
            and(&names),
        ));
    for one in &lag.conductors {
        problem = problem.note(how(one));
    }
    let neutral = lag.conductors.iter().find(|one| one.conductor == Conductor::N);
    let breaker = job.breaker.value;
    if neutral.is_some_and(|one| !carries(breaker, one.amps)) {
        problem = problem.note(format!(
            "that is more than {breaker}, and a breaker in the lines does not see what flows in N"
        ));
    }
    if let Some(beyond) = lag.breaker {
        let what = format!("a breaker of {breaker} does not carry that");
        problem = problem.note(too_much(&beyond, &what, "may count for"));
    }
    if let (Some(beyond), Some(max)) = (lag.board, board.about.max_current) {
        let what = format!("that is more than the board may carry, {max}");
        problem = problem.note(too_much(&beyond, &what, "may carry"));
    }
    problems.warning(problem.help(help(lag)));
}

/// `N: 17.32 A in place of 10.00 A, with pump 1 on high at 0.5 and the heater at 1`.
fn how(one: &UpTo) -> String {
    let words: Vec<String> = one
        .running
        .iter()
        .map(|(device, running, factor)| {
            let how = match running {
                Running::Low => " on low",
                Running::High if device.counts_for_allowance() => " on high",
                _ => "",
            };
            match device {
                Device::Heater => device.the(),
                _ => format!("{}{how} at {}", device.the(), fixed(*factor, 2)),
            }
        })
        .collect();
    format!(
        "{} up to {} in place of {}, with {}",
        one.conductor,
        amps(one.amps),
        amps(one.printed),
        and(&words)
    )
}

fn too_much(beyond: &Beyond, what: &str, verb: &str) -> String {
    let Beyond { conductor, amps: most, lower } = beyond;
    let lower = match lower {
        Some(lower) => format!("a heater allowance of {lower} would keep within it"),
        None => "no lower heater allowance keeps within it".to_owned(),
    };
    format!("{conductor} {verb} {}: {what}; {lower}", amps(*most))
}

fn help(lag: &Lag) -> &'static str {
    let beyond: Vec<&Beyond> = lag.breaker.iter().chain(&lag.board).collect();
    let lower = beyond.iter().all(|one| one.lower.is_some());
    match (!beyond.is_empty()).then_some(lower) {
        None => {
            "write the `power factor` of the plate, or have it measured; till then allow for what \
             is said here"
        }
        Some(true) => {
            "write the `power factor` of the plate, or have it measured; till then set the switches \
             for the lower heater allowance"
        }
        Some(false) => {
            "write the `power factor` of the plate, or have it measured, before this is wired"
        }
    }
}

fn amps(amps: Amps) -> String {
    format!("{}\u{a0}A", fixed(amps.0, 2))
}
