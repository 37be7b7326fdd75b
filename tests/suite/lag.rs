//! What unknown power factors can bring, over generated boards and jobs.
#![allow(clippy::print_stderr)] // What was compared is told to who runs it with `--nocapture`.

use crate::compile;
use crate::generate::{boards, jobs};
use lidsheet::board::{self, Board, Job, System};
use lidsheet::decide::lag::{LOWEST, TELL};
use lidsheet::decide::{self, Finding, Wiring};
use lidsheet::diagnostic::Problems;
use lidsheet::source::Sources;
use lidsheet::spec;

fn planned(board: &Board, text: String) -> Option<(Job, Wiring, bool)> {
    let (mut sources, mut problems) = (Sources::default(), Problems::default());
    let file = sources.add("job.yaml", text);
    let spec = spec::parse_job(file, &sources, &mut problems).ok()?;
    let job = board::check_job(&spec, board, &mut problems).ok()?;
    let plan = decide::plan(board, &job);
    let told = plan.findings.iter().any(|found| matches!(found, Finding::FactorUnknown(_)));
    let (_, wiring) = plan.sound()?;
    let wiring = wiring.clone();
    Some((job, wiring, told))
}

/// On one phase nothing is worse than in step, unless some power factors are given (the proof is in
/// `decide::lag`); on three phases it often is. Where all are given, nothing is told anywhere.
#[test]
fn only_three_phases_or_mixed_knowledge_are_told() {
    let (mut single, mut wye, mut told_on_wye, mut known, mut together) = (0, 0, 0, 0, 0);
    for seed in 0..600 {
        let board = compile::sound(&boards::generate(seed));
        let text = jobs::generate(&board, seed);
        let without: Vec<String> = text
            .lines()
            .map(|line| match line.split_once(", power factor") {
                Some((start, _)) => format!("{start} }}"),
                None => line.to_owned(),
            })
            .collect();
        let with: Vec<String> = without
            .iter()
            .map(|line| match line.strip_suffix(" }") {
                Some(start) if line.contains("device: ") && !line.contains("device: heater") => {
                    format!("{start}, power factor: 0.8 }}")
                }
                _ => line.clone(),
            })
            .collect();
        if let Some((_, wiring, told)) = planned(&board, with.join("\n")) {
            assert!(wiring.lag.is_none() && !told, "seed {seed}: {:?}", wiring.lag);
            known += 1;
        }
        let Some((job, wiring, told)) = planned(&board, without.join("\n")) else { continue };
        assert_eq!(told, wiring.lag.is_some(), "seed {seed}");
        if matches!(board[job.supply.value].system, System::Wye { .. }) {
            wye += 1;
            told_on_wye += usize::from(told);
        } else {
            single += 1;
            // What runs together can be worse late than in step: see `decide::lag`.
            let tied = wiring.devices.iter().any(|it| board.together(it.device).is_some());
            together += usize::from(tied && wiring.lag.is_some());
            assert!(tied || wiring.lag.is_none(), "seed {seed}: {:?}", wiring.lag);
        }
        assert!(wiring.lag.as_ref().is_none_or(|lag| !lag.conductors.is_empty()), "seed {seed}");
        for one in wiring.lag.iter().flat_map(|lag| &lag.conductors) {
            assert!(!one.running.is_empty(), "seed {seed}");
            let load = wiring.conductors.iter().find(|load| load.conductor == one.conductor);
            assert_eq!(load.map(|load| load.amps), Some(one.printed), "seed {seed}");
            assert!(one.amps.0 > one.printed.0 * (1.0 + TELL), "seed {seed}");
            let inside = |factor: f64| factor > LOWEST - 1e-9 && factor < 1.0 + 1e-9;
            assert!(one.running.iter().all(|(_, _, factor)| inside(*factor)), "seed {seed}");
        }
    }
    eprintln!(
        "{single} on one phase, {wye} on three, {told_on_wye} of these told; {known} known; {together} together"
    );
    assert!(single > 40 && told_on_wye > 20 && known > 80, "{single} {told_on_wye} {known}");
}
