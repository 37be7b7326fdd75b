//! Jobs: what is decided for them, and what is refused.

use std::path::Path;

use crate::compile::job::{Outcome, plan_on};
use lidsheet::board::Allowance;
use lidsheet::build;
use lidsheet::compile::Content;
use lidsheet::decide::reason::AllowanceReason;
use lidsheet::diagnostic::{Code, Colour, render};

const HERON: &str = include_str!("../version-1/heron-8.yaml");
const JOB_2231: &str = include_str!("../version-1/jobs/2231.yaml");

#[track_caller]
fn near(found: f64, wanted: f64) {
    assert!((found - wanted).abs() < 0.005, "{found}, not {wanted}");
}

fn heron(job: &str) -> Outcome {
    plan_on(HERON, job)
}

/// The heater is 4000 W / 240 V = 16.667 A. L1 carries everything: 16.667 + 1.4 + 10.8 + 9.6 + 5.5
/// + 0.4 A; L2 what lies between the lines: 16.667 + 10.8 + 9.6 A; N the rest: 1.4 + 5.5 + 0.4 A.
///
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
    assert_eq!(wiring.breaker.allowance, Some(Allowance::Loads(4)));
    assert_eq!(wiring.breaker.allowance_because, AllowanceReason::Highest);
    near(wiring.breaker.needed.0, 48.98);
    assert_eq!(wiring.breaker.smallest.map(|size| size.0), Some(50.0));
    // 8 AWG carries 40 A at 60 °C and 50 A at 75 °C (NEC table 310.16).
    let told: Vec<&str> = outcome.problems.iter().map(|problem| problem.code.text()).collect();
    assert_eq!(told, ["L626"], "{}", outcome.shown());
    let groups: Vec<&str> =
        wiring.jumpers.iter().map(|plan| outcome.board[plan.group].code.as_str()).collect();
    assert_eq!(groups, ["A", "A", "B", "B", "B"]);
    let positions: Vec<bool> = wiring.switches[0].positions.clone();
    assert_eq!(positions, [true, true, false, false, false, false, false, false]);
}

/// The folder of the samples; their boards lie below it.
const SAMPLES: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/diagnostics/jobs");

fn samples() -> Vec<String> {
    let mut names: Vec<String> = std::fs::read_dir(SAMPLES)
        .expect("the folder is there")
        .map(|entry| entry.expect("readable").file_name().to_string_lossy().into_owned())
        .filter_map(|name| name.strip_suffix(".yaml").map(str::to_owned))
        .collect();
    names.sort();
    names
}

/// Each file of `tests/diagnostics/jobs/` is the smallest job that causes a code. Its first line
/// names the codes to expect, so that accepting a changed snapshot blindly still fails.
#[test]
fn every_sample_causes_what_its_first_line_says() {
    let mut wrong = Vec::new();
    for name in samples() {
        let bytes = std::fs::read(format!("{SAMPLES}/{name}.yaml")).expect("readable");
        let text = String::from_utf8_lossy(&bytes).into_owned();
        let first = text.lines().next().unwrap_or("");
        let expected = first.strip_prefix("# expect:").expect("the first line says what to expect");
        let expected: Vec<&str> = expected.split_whitespace().collect();
        let shown = format!("tests/diagnostics/jobs/{name}.yaml");
        let checked = build::check_bytes(&shown, bytes, Path::new(SAMPLES));
        let problems = checked.problems.sorted();
        let mut codes: Vec<&str> = problems.iter().map(|problem| problem.code.text()).collect();
        codes.dedup();
        let told: Vec<String> =
            problems.iter().map(|p| render(p, &checked.sources, Colour::Plain)).collect();
        let told = told.join("\n\n");
        if codes != expected {
            wrong.push(format!("{name}: {codes:?}, not {expected:?}\n{told}"));
        }
        let errors = checked.problems.counts().0 > 0;
        let sound =
            matches!(&checked.content, Content::Job(Some(job)) if job.plan.sound().is_some());
        assert_eq!(sound, !errors, "{name}: a job is planned if nothing refuses it");
        insta::with_settings!({
            snapshot_path => "../diagnostics/jobs",
            prepend_module_to_snapshot => false,
            omit_expression => true,
        }, {
            insta::assert_snapshot!(name, told);
        });
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n\n"));
}

#[test]
fn every_code_of_jobs_has_a_sample() {
    let samples = samples();
    let of_jobs = Code::ALL.iter().filter(|code| code.text().starts_with("L6"));
    let lacking: Vec<_> =
        of_jobs.filter(|code| !samples.contains(&code.text().to_owned())).collect();
    assert!(lacking.is_empty(), "{lacking:?}");
}
