//! What stands against a job, in words: each with its place in the job and what to do about it.

mod circuit;
mod lag;
mod layouts;
mod rated;
mod voltages;

pub use circuit::{before, breaker, run};
pub use lag::lag;
pub use layouts::{difference_words, no_layout};
pub use rated::{ratings, tabs};
pub use voltages::{edges, heater, voltages};

use super::currents::Running;
use super::jumpers::Fit;
use super::wiring::Wiring;
use crate::board::{Board, Device, Job, Role};
use crate::diagnostic::Problems;
use crate::english::and;
use crate::source::Span;

/// What is wrong with a job whose devices all get their voltage.
pub fn wiring(board: &Board, job: &Job, fit: &Fit, wiring: &Wiring, problems: &mut Problems) {
    tabs(board, job, fit, wiring, problems);
    ratings(board, job, wiring, problems);
    breaker(board, job, fit, wiring, problems);
    edges(board, job, wiring, problems);
    lag(board, job, wiring, problems);
    run(job, wiring, problems);
}

/// A device whose number may not be decided yet, as it stands in a sentence.
fn the_role(role: Role) -> String {
    match role {
        Role::AnyPump => "this pump".to_owned(),
        Role::Named(device) => device.the(),
    }
}

/// What runs, as it stands after *with*: `the heater, pump 1 on low`.
fn running(all: &[(Device, Running)]) -> String {
    let words: Vec<String> = all
        .iter()
        .map(|(device, running)| match running {
            Running::Low => format!("{} on low", device.the()),
            Running::High if device.counts_for_allowance() => format!("{} on high", device.the()),
            _ => device.the(),
        })
        .collect();
    and(&words)
}

/// `1 tab`, `3 tabs`.
fn count(number: usize, one: &str) -> String {
    if number == 1 { format!("1 {one}") } else { format!("{number} {one}s") }
}

/// Where a job speaks of its heater: the element that it gives, or the supply that feeds it.
fn heater_span(job: &Job) -> Span {
    job.heater.map_or(job.supply.span, |heater| heater.span)
}
