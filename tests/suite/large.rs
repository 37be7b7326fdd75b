//! The largest sensible job is planned to the end of the search, so nothing better can be had, and
//! the plan and its page do not depend on how many threads there are. How long it takes is for the
//! benchmark.

use crate::compile::job::{self, Outcome};
use crate::generate::largest;
use lidsheet::board::Allowance;
use lidsheet::build::{self, Order};
use lidsheet::decide::Wiring;
use lidsheet::page::Paper;

/// The plan of a job that is searched to the end; and the same plan, if it is made again.
#[track_caller]
fn planned(board: &str, job: &str) -> Outcome {
    let outcome = job::plan_on(board, job);
    let again = job::plan_on(board, job);
    assert_eq!(format!("{:?}", wiring(&outcome)), format!("{:?}", wiring(&again)));
    assert!(wiring(&outcome).optimal, "{}", outcome.shown());
    outcome
}

#[track_caller]
fn wiring(outcome: &Outcome) -> &Wiring {
    let wiring = outcome.plan.as_ref().and_then(|plan| plan.wiring.as_ref());
    wiring.unwrap_or_else(|| panic!("{}", outcome.shown()))
}

/// Nothing is left out: every device of the job once, and the heater, each at a header of its own
/// on a group that gives about what its plate says; every jumper, and every line.
#[track_caller]
fn whole(outcome: &Outcome) {
    let wiring = wiring(outcome);
    let job = outcome.job.as_ref().expect("a plan has its job");
    let mut fitted: Vec<usize> = wiring.devices.iter().filter_map(|it| it.fitted).collect();
    fitted.sort();
    assert_eq!(fitted, (0..job.equipment.len()).collect::<Vec<_>>());
    assert_eq!(wiring.devices.len(), job.equipment.len() + usize::from(wiring.heater.is_some()));
    let mut headers: Vec<_> = wiring.devices.iter().map(|it| it.header).collect();
    headers.sort();
    headers.dedup();
    assert_eq!(headers.len(), wiring.devices.len(), "two in one header");
    for device in &wiring.devices {
        assert!((device.volts.0 - device.plate.0).abs() <= 0.1 * device.plate.0, "{device:?}");
    }
    assert_eq!(wiring.jumpers.len(), outcome.board.jumpers.len());
    let lines = wiring.conductors.iter().filter(|load| load.conductor.is_line()).count();
    assert_eq!(lines, 3, "{:?}", wiring.conductors);
    assert!(wiring.conductors.iter().all(|load| load.amps.0 > 0.0 || !load.conductor.is_line()));
}

/// A breaker carries what the chosen allowance needs, or the job is refused; a smaller breaker never
/// allows more to run beside the heater.
#[track_caller]
fn carried(outcomes: &[(u32, Outcome)]) {
    let (mut sound, mut refused) = (0, 0);
    let mut last: Option<(u32, Allowance)> = None;
    for (breaker, outcome) in outcomes {
        let chosen = &wiring(outcome).breaker;
        let plan = outcome.plan.as_ref().expect("it has wiring");
        if plan.sound().is_none() {
            refused += 1;
            assert!(outcome.problems.iter().any(|one| one.code.text() == "L617"), "{breaker}");
            continue;
        }
        sound += 1;
        assert!(chosen.needed.0 <= f64::from(*breaker) + 1e-6, "{} on {breaker}", chosen.needed.0);
        let allowance = chosen.allowance.expect("a switch sets it");
        if let Some((larger, more)) = last {
            assert!(larger > *breaker && more >= allowance, "{breaker}: {allowance}, {more}");
        }
        last = Some((*breaker, allowance));
    }
    assert!(sound >= 3 && refused >= 1, "{sound} sound, {refused} refused");
}

/// Twelve devices, no two alike, on six groups of three lines: the worst line is within a fifth of
/// a per cent of a third of the sum, which no choice can be below.
#[test]
fn the_largest_sensible_job_is_spread_over_its_lines() {
    let board = largest::board();
    for factors in [false, true] {
        let mut all = Vec::new();
        for breaker in [63, 32, 25, 24, 20, 16, 10] {
            let outcome = planned(&board, &largest::job(breaker, factors));
            whole(&outcome);
            let wiring = wiring(&outcome);
            let carried: f64 = wiring.conductors.iter().take(3).map(|load| load.amps.0).sum();
            let needed = wiring.breaker.settings[0].counted.0;
            if breaker > 24 && !factors {
                assert!(needed < carried / 3.0 * 1.002, "{needed} {carried}");
            }
            all.push((breaker, outcome));
        }
        self::carried(&all);
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
    for factors in [false, true] {
        let mut all = Vec::new();
        for breaker in [100, 60, 45, 40, 35, 30, 25, 15] {
            let job = largest::job(breaker, factors).replace("volts: 230", "volts: 208");
            let outcome = planned(&board, &job);
            whole(&outcome);
            all.push((breaker, outcome));
        }
        carried(&all);
    }
}

/// The files of a board and its jobs, made by one thread and by two. The largest board has no sheets:
/// its plan has no room for everything.
#[test]
fn any_number_of_threads_gives_the_same_pages() {
    let root = std::path::Path::new(env!("CARGO_MANIFEST_DIR"));
    let desk = tempfile::tempdir().expect("a folder");
    let made = |threads: usize| {
        let out = desk.path().join(threads.to_string());
        let order = Order {
            paths: vec![root.join("specs/curlew-10.yaml"), root.join("specs/jobs/2238.yaml")],
            out: out.clone(),
            paper: Paper::A4,
            languages: vec![lidsheet::words::english()],
            templates: None,
            threads: Some(threads),
            prune: false,
            png: None,
            field_page: false,
        };
        let report = build::run(&order, &|_| {}, &|| false);
        assert_eq!(report.files.len(), 2);
        ["curlew-10/wiring-sheets.pdf", "2238/work-card.pdf", "2238/lid-insert.pdf"]
            .map(|file| std::fs::read(out.join(file)).unwrap_or_else(|why| panic!("{file}: {why}")))
    };
    assert!(made(1) == made(2), "other bytes");
}
