//! Jobs: what is decided for them, and what is refused.

#[path = "common/job.rs"]
mod common;

use common::{Outcome, plan_on};
use lidsheet::decide::reason::AllowanceReason;

const HERON: &str = include_str!("../specs/heron-8.yaml");
const JOB_2231: &str = include_str!("../specs/jobs/2231.yaml");

#[track_caller]
fn near(found: f64, wanted: f64) {
    assert!((found - wanted).abs() < 0.005, "{found}, not {wanted}");
}

fn heron(job: &str) -> Outcome {
    plan_on(HERON, job)
}

/// The heater is 4000 W / 240 V = 16.667 A. L1 carries everything: 16.667 + 1.4 + 10.8 + 9.6 + 5.5
/// + 0.4 A; L2 what lies between the lines: 16.667 + 10.8 + 9.6 A; N the rest: 1.4 + 5.5 + 0.4 A.
/// Needed: 1.25 (16.667 + 1.4 + 0.4) + 10.8 + 9.6 + 5.5 A. Worked by hand.
#[test]
fn job_2231_is_decided_as_it_was_worked_by_hand() {
    let outcome = heron(JOB_2231);
    let (_, plan) = outcome.sound();
    let (layout, wiring) = plan.sound().expect("nothing refuses it");
    assert_eq!(layout.number.get(), 7);
    assert_eq!(layout.but_for_circulation.map(|number| number.get()), Some(6));
    near(wiring.heater.expect("it has one").watts.0, 4000.0);
    let carried: Vec<(String, f64)> =
        wiring.conductors.iter().map(|load| (load.conductor.to_string(), load.amps.0)).collect();
    let [(l1, a), (l2, b), (n, c)] = carried.as_slice() else { panic!("{carried:?}") };
    assert_eq!([l1, l2, n], ["L1", "L2", "N"]);
    near(*a, 44.37);
    near(*b, 37.07);
    near(*c, 7.30);
    assert_eq!(wiring.breaker.allowance, Some(4));
    assert_eq!(wiring.breaker.allowance_because, AllowanceReason::Highest);
    near(wiring.breaker.needed.0, 48.98);
    assert_eq!(wiring.breaker.smallest.map(|size| size.0), Some(50.0));
    assert_eq!(outcome.problems, [], "{}", outcome.shown());
    let groups: Vec<&str> =
        wiring.jumpers.iter().map(|plan| outcome.board[plan.group].code.as_str()).collect();
    assert_eq!(groups, ["A", "A", "B", "B", "B"]);
    let positions: Vec<bool> = wiring.switches[0].positions.clone();
    assert_eq!(positions, [true, true, false, false, false, false, false, false]);
}
