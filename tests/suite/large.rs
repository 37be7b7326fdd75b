//! The largest sensible job is planned to the end of the search, so nothing better can be had. How
//! long it takes is for the benchmark; here it is only printed.
#![allow(clippy::print_stdout)]

use std::time::{Duration, Instant};

use crate::compile::job;
use crate::generate::largest;
use lidsheet::decide;

#[track_caller]
fn planned(board: &str, job: &str) -> (job::Outcome, Duration) {
    let outcome = job::plan_on(board, job);
    let asked = outcome.job.as_ref().unwrap_or_else(|| panic!("{}", outcome.shown()));
    let start = Instant::now();
    let plan = decide::plan(&outcome.board, asked);
    let took = start.elapsed();
    assert!(plan.wiring.is_some_and(|wiring| wiring.optimal), "{}", outcome.shown());
    (outcome, took)
}

/// Twelve devices, no two alike, on six groups of three lines: the worst line is within a fifth of
/// a per cent of a third of the sum, which no choice can be below.
#[test]
fn the_largest_sensible_job_is_spread_over_its_lines() {
    let board = largest::board();
    for breaker in [63, 32, 25, 24, 20, 16, 10] {
        for factors in [false, true] {
            let (outcome, took) = planned(&board, &largest::job(breaker, factors));
            let wiring = outcome.plan.as_ref().and_then(|plan| plan.wiring.as_ref());
            let wiring = wiring.expect("it is wired");
            let carried: f64 = wiring.conductors.iter().take(3).map(|load| load.amps.0).sum();
            let needed = wiring.breaker.settings[0].counted.0;
            println!("{breaker} A, {factors}: {took:?}, allowance {:?}", wiring.breaker.allowance);
            if breaker > 24 && !factors {
                assert!(needed < carried / 3.0 * 1.002, "{needed} {carried}");
            }
        }
    }
}

/// The same between the lines of an American service, where the currents of two lines lie apart.
#[test]
fn the_largest_job_between_lines_is_planned_to_the_end() {
    let board = largest::board().replace("wye 230/400 V", "wye 120/208 V");
    let mut board = board.replace("volts: 230 }\n", "volts: 208 }\n");
    for (line, next) in [("T1", "T2"), ("T2", "T3"), ("T3", "T1")] {
        board = board.replace(&format!("[{line}, T4]"), &format!("[{line}, {next}]"));
    }
    for breaker in [100, 60, 45, 40, 35, 30, 25, 15] {
        for factors in [false, true] {
            let job = largest::job(breaker, factors).replace("volts: 230", "volts: 208");
            let (outcome, took) = planned(&board, &job);
            let wiring = outcome.plan.as_ref().and_then(|plan| plan.wiring.as_ref());
            let breaker_plan = &wiring.expect("it is wired").breaker;
            println!(
                "{breaker} A, {factors}: {took:?}, allowance {:?}, needed {:.2}",
                breaker_plan.allowance, breaker_plan.needed.0
            );
        }
    }
}
