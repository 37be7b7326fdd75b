//! Power factors that nobody gives, where they can make a current larger than what is printed.

use super::phrases::the_role;
use crate::board::{Board, Device, Job};
use crate::decide::Lag;
use crate::decide::currents::Running;
use crate::decide::findings::FactorUnknown;
use crate::decide::lag::{Beyond, LOWEST, UpTo};
use crate::diagnostic::{Code, Problem};
use crate::english::and;
use crate::units::{Amps, fixed};

pub fn unknown(board: &Board, job: &Job, found: &FactorUnknown) -> Problem {
    let FactorUnknown { devices, place, lag, neutral_unseen } = found;
    let names: Vec<String> = devices.iter().map(|role| the_role(*role)).collect();
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
    let mut problem = Problem::new(Code::FactorUnknown, *place, message)
        .label("has no `power factor`")
        .note(format!(
            "in step with the voltage for want of a power factor: {}; here each may lag, down to a \
             power factor of {LOWEST}",
            and(&names),
        ));
    for one in &lag.conductors {
        problem = problem.note(how(one));
    }
    let breaker = job.breaker.value;
    if *neutral_unseen {
        problem = problem.note(format!(
            "that is more than {breaker}, and a breaker in the lines does not see what flows in N"
        ));
    }
    if let Some(beyond) = lag.breaker {
        let what = format!("a breaker of {breaker} does not carry that");
        problem = problem.note(too_much(&beyond, &what, "may count for"));
    }
    if let (Some(beyond), Some(max)) = (lag.board, board.max_current(job.supply.value)) {
        let what = format!("that is more than the board may carry, {max}");
        problem = problem.note(too_much(&beyond, &what, "may carry"));
    }
    problem.help(help(lag))
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
