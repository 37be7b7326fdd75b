//! What a board does with and without mistakes, on demo jobs and on generated ones.
#![allow(clippy::print_stderr)] // What was gone through is told to who runs it with `--nocapture`.

mod common;

use common::{boards, demo, jobs};
use lidsheet::board::{Board, Job};
use lidsheet::decide::mistakes::{
    AsBuilt, Command, Danger, Metal, Mistake, PlannedCase, consequences, simulate, single_mistakes,
};
use lidsheet::decide::{self, Plan};

/// Everything that must hold of a plan without a mistake.
fn works(board: &Board, job: &Job, plan: &Plan, name: &str) {
    let right = PlannedCase::new(board, job, plan.sound().expect("it is sound"));
    let state = simulate(&right, &AsBuilt::as_planned(&right));
    let nought = |volts: f64| volts.abs() < 1e-6;
    for (device, plan) in state.devices.iter().zip(&right.wiring.devices) {
        let say = format!("{name}: {} {device:?}", plan.device);
        assert_eq!(device.role, Some(plan.device), "{say}");
        let off = device.on(Command::Off).expect("everything can be off").measured;
        assert!(nought(off.low.most.0) && nought(off.high.most.0), "{say}");
        let high = device.on(Command::High).expect("everything can be on").measured;
        assert!((high.high.least.0 - plan.volts.0).abs() < 1e-6, "{say}");
        assert!((high.high.most.0 - plan.volts.0).abs() < 1e-6, "{say}");
        assert!(nought(high.low.most.0), "{say}");
        assert_eq!(device.on(Command::Low).is_some(), plan.low.is_some(), "{say}");
        if let Some(low) = device.on(Command::Low) {
            assert!((low.measured.low.least.0 - plan.volts.0).abs() < 1e-6, "{say}");
            assert!(nought(low.measured.high.most.0), "{say}");
        }
        // A plate within a tenth of what it gets; the heater may be on less, with a warning.
        let apart = (high.high.most.0 - plan.plate.0).abs();
        assert!(apart <= plan.plate.0 * 0.1 + 1e-6 || plan.fitted.is_none(), "{say}");
        for run in &device.runs {
            assert!(!matches!(run.measured.metal, Metal::Live(_)), "{say}");
            assert!(run.measured.earth.0 < 1e-9, "{say}");
        }
    }
    assert_eq!(state.loads.conductors.len(), right.wiring.conductors.len(), "{name}");
    for (found, planned) in state.loads.conductors.iter().zip(&right.wiring.conductors) {
        assert_eq!(found.conductor, planned.conductor, "{name}");
        let apart = (found.amps.0 - planned.amps.0).abs();
        assert!(apart < 1e-6 * planned.amps.0.max(1.0), "{name}: {found:?} {planned:?}");
    }
    if job.marked.circuit.is_none() {
        let counted = state.loads.counted.as_ref().map_or(0.0, |load| load.amps.0);
        let needed = right.wiring.breaker.needed.0;
        assert!((counted - needed).abs() < 1e-6 * needed.max(1.0), "{name}: {counted} {needed}");
    }
    for load in &right.wiring.fuses {
        let found = state.loads.fuses.iter().find(|(fuse, _)| *fuse == load.of);
        let found = found.map_or(0.0, |(_, amps)| amps.0);
        assert!((found - load.amps.0).abs() < 1e-6, "{name}: {load:?} {found}");
    }
    for load in &right.wiring.headers {
        let found = state.loads.headers.iter().find(|(header, _)| *header == load.of);
        let found = found.map_or(0.0, |(_, amps)| amps.0);
        assert!((found - load.amps.0).abs() < 1e-6, "{name}: {load:?} {found}");
    }
    assert_eq!(state.allowance, right.wiring.breaker.allowance, "{name}");
}

/// Everything that must hold of the list of mistakes. Gives how many mistakes there are, and how
/// many change anything.
fn listed(board: &Board, job: &Job, plan: &Plan, name: &str) -> (usize, usize) {
    let right = PlannedCase::new(board, job, plan.sound().expect("it is sound"));
    let built = AsBuilt::as_planned(&right);
    let before = simulate(&right, &built);
    let all = single_mistakes(&right);
    for mistake in &all {
        assert_ne!(built.with(&right, *mistake), built, "{name}: {mistake:?} changes nothing");
    }
    let mut once: Vec<Mistake> = all.clone();
    once.sort();
    once.dedup();
    assert_eq!(once.len(), all.len(), "{name}: a mistake is made twice");

    let found = consequences(&right);
    let hidden = |at: &usize| found[*at].unnoticed() && found[*at].danger() > Danger::None;
    let ranks: Vec<_> = (0..found.len()).map(|at| (!hidden(&at), found[at].danger())).collect();
    assert!(ranks.is_sorted_by_key(|(seen, _)| *seen), "{name}");
    for one in &found {
        assert!(!one.signs.is_empty(), "{name}: {:?}", one.mistake);
        let mut signs: Vec<_> = one.signs.iter().map(|seen| seen.sign).collect();
        assert!(signs.is_sorted_by_key(|sign| std::cmp::Reverse(sign.danger())), "{name}");
        signs.dedup();
        assert_eq!(signs.len(), one.signs.len(), "{name}: {:?}", one.mistake);
        let state = simulate(&right, &built.with(&right, one.mistake));
        assert_eq!(state, one.state, "{name}");
    }
    // What is not listed differs from the right state in nothing that matters: no device gets
    // another voltage by more than a tenth of it, none follows another button, none is live.
    for mistake in &all {
        if found.iter().any(|one| one.mistake == *mistake) {
            continue;
        }
        let after = simulate(&right, &built.with(&right, *mistake));
        assert_eq!(before.ground, after.ground, "{name}: {mistake:?}");
        let pairs = before.devices.iter().zip(&after.devices).zip(&right.wiring.devices);
        for ((was, is), plan) in pairs {
            assert_eq!(was.role, is.role, "{name}: {mistake:?}");
            for run in &was.runs {
                let now = is.on(run.command).map(|run| run.measured);
                let now = now.unwrap_or_else(|| panic!("{name}: {mistake:?} takes a speed away"));
                assert_eq!(run.measured.metal, now.metal, "{name}: {mistake:?}");
                for (was, is) in [(run.measured.low, now.low), (run.measured.high, now.high)] {
                    let apart =
                        (was.most.0 - is.most.0).abs().max((was.least.0 - is.least.0).abs());
                    assert!(
                        apart <= 0.2 * plan.plate.0,
                        "{name}: {mistake:?} gives {is:?} for {was:?}"
                    );
                }
            }
        }
    }
    (all.len(), found.len())
}

#[test]
fn demo_jobs_work_and_their_mistakes_are_listed() {
    for planned in demo::jobs() {
        let demo::Planned { name, board, job, plan } = &planned;
        works(board, job, plan, name);
        let (all, changing) = listed(board, job, plan, name);
        eprintln!("{name}: {all} mistakes, {changing} change something");
        assert!(changing > 20, "{name}: {changing}");
    }
}

/// Generated jobs on generated boards: of any size, with links, isolated groups, three phases.
#[test]
fn generated_jobs_work_and_their_mistakes_are_listed() {
    let (mut count, mut mistakes, mut changing) = (0, 0, 0);
    for seed in 0.. {
        assert!(seed < 3000, "only {count} jobs are sound");
        let board = common::sound(&boards::generate(seed));
        let Some((job, plan)) = jobs::sound(&board, seed) else { continue };
        works(&board, &job, &plan, &format!("seed {seed}"));
        let (all, some) = listed(&board, &job, &plan, &format!("seed {seed}"));
        mistakes += all;
        changing += some;
        count += 1;
        if count == 150 {
            break;
        }
    }
    eprintln!("{count} jobs, {mistakes} mistakes, {changing} change something");
}

/// The board's own fault finder never panics and names what is there.
#[test]
fn generated_boards_have_a_fault_finder() {
    let mut with = 0;
    for seed in 0..60 {
        let board = common::sound(&boards::generate(seed));
        with += usize::from(!decide::board_faults(&board).is_empty());
    }
    assert!(with > 40, "{with}");
}
