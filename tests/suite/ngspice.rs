//! The currents of generated jobs against a circuit simulator: an independent program that solves
//! the same loads as impedances. It needs `ngspice` (a Debian package), so it is left out unless it
//! is asked for; `tests/all` asks for it wherever the program is there, and says where it is not.
#![allow(clippy::print_stderr)] // What was compared is told to who runs it with `--nocapture`.

use std::fmt::Write as _;

use crate::compile;
use crate::generate::{boards, jobs};
use crate::readers::spice;
use lidsheet::board::{Board, Conductor, GroupSource, Job, System};
use lidsheet::build;
use lidsheet::compile::Content;
use lidsheet::decide::currents::Running;
use lidsheet::decide::{ConductorLoad, Wiring};

/// How many jobs are compared.
const JOBS: usize = 80;
/// How far the currents may lie apart, as a part of one.
const TOLERANCE: f64 = 0.001;

#[test]
#[ignore = "needs ngspice; tests/all runs it where it is installed"]
fn currents_agree_with_ngspice() {
    let (mut compared, mut currents, mut wye, mut turned, mut neutrals) = (0, 0, 0, 0, 0);
    for seed in 0.. {
        assert!(seed < 5000, "only {compared} jobs can be compared");
        let board = compile::sound(&boards::generate(seed));
        let Some((job, wiring)) = sound_job(&board, seed) else { continue };
        let mut text = String::from("worst states of one job\n");
        for (number, load) in wiring.conductors.iter().enumerate() {
            circuit(&mut text, &board, &job, &wiring, load, number).expect("a String takes all");
        }
        text += ".control\nset numdgt=9\nac lin 1 60 60\n";
        for number in 0..wiring.conductors.len() {
            writeln!(text, "print mag(i(vmeter{number}))").expect("a String takes all");
        }
        text += ".endc\n.end\n";
        let measured = spice::magnitudes(&text);
        assert_eq!(measured.len(), wiring.conductors.len(), "{text}");
        for (load, amps) in wiring.conductors.iter().zip(&measured) {
            let apart = (load.amps.0 - amps).abs();
            assert!(
                apart <= TOLERANCE * amps.max(0.01),
                "seed {seed}, {}: {} A, ngspice {amps} A\n{text}",
                load.conductor,
                load.amps.0
            );
            currents += 1;
            neutrals += usize::from(load.conductor == Conductor::N && *amps > 0.1);
        }
        compared += 1;
        wye += usize::from(matches!(board[job.supply.value].system, System::Wye { .. }));
        turned += usize::from(job.equipment.iter().any(|fitted| fitted.power_factor.is_some()));
        if compared == JOBS {
            break;
        }
    }
    eprintln!(
        "{compared} jobs, {currents} currents ({neutrals} of neutrals), {wye} on three phases, \
         {turned} with a power factor"
    );
    assert!(wye >= 10 && turned >= 10 && neutrals >= 20, "{wye} {turned} {neutrals}");
}

/// Jobs whose devices have no power factor: with the ones that the plan warns of, the simulator
/// finds the very currents of the warning, and more than is printed.
#[test]
#[ignore = "needs ngspice; tests/all runs it where it is installed"]
fn what_lagging_motors_reach_agrees_with_ngspice() {
    for (name, conductor) in
        [("lagging-motors", Conductor::L1), ("../../specs/jobs/2237", Conductor::N)]
    {
        let home = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/jobs-refused");
        let path = home.join(format!("{name}.yaml"));
        let bytes = std::fs::read(&path).expect("the job is there");
        let folder = path.parent().expect("in a folder");
        let checked = build::check_bytes("job.yaml", bytes, folder);
        let Content::Job(Some(planned)) = &checked.content else { panic!("{name} is no job") };
        let (_, wiring) = planned.plan.sound().expect("nothing refuses it");
        let lag = wiring.lag.as_ref().expect("it warns");
        let up_to = lag.conductors.iter().find(|one| one.conductor == conductor);
        let up_to = up_to.expect("of this conductor");
        // The state of the warning, with its power factors on the plates.
        let mut job = planned.job.clone();
        for (device, _, factor) in &up_to.running {
            let plan = wiring.devices.iter().find(|plan| plan.device == *device);
            if let Some(index) = plan.expect("it is there").fitted {
                job.equipment[index].power_factor = Some(*factor);
            }
        }
        let load = ConductorLoad {
            conductor,
            amps: up_to.amps,
            running: up_to.running.iter().map(|(device, running, _)| (*device, *running)).collect(),
        };
        let mut text = String::from("what a warning tells of\n");
        circuit(&mut text, &planned.board, &job, wiring, &load, 0).expect("a String takes all");
        text += ".control\nset numdgt=9\nac lin 1 60 60\nprint mag(i(vmeter0))\n.endc\n.end\n";
        let measured = spice::magnitudes(&text);
        let [amps] = measured.as_slice() else { panic!("{measured:?}") };
        eprintln!("{name}, {conductor}: {} A, ngspice {amps} A", up_to.amps.0);
        assert!((up_to.amps.0 - amps).abs() <= TOLERANCE * amps, "{} {amps}", up_to.amps.0);
        assert!(*amps > up_to.printed.0 * 1.01, "{amps} {}", up_to.printed.0);
    }
}

/// A job on the board that nothing refuses, with at least two devices.
fn sound_job(board: &Board, seed: u64) -> Option<(Job, Wiring)> {
    let (job, plan) = jobs::sound(board, seed)?;
    let wiring = plan.wiring.filter(|wiring| wiring.devices.len() > 1)?;
    Some((job, wiring))
}

/// The state that is worst for one conductor, as a circuit of its own with an ammeter there.
fn circuit(
    out: &mut String,
    board: &Board,
    job: &Job,
    wiring: &Wiring,
    load: &ConductorLoad,
    number: usize,
) -> std::fmt::Result {
    let supply = &board[job.supply.value];
    let source = |conductor: Conductor| spice::source(supply.system, conductor);
    let node = |conductor: Conductor| format!("{}_{number}", conductor.to_string().to_lowercase());
    for conductor in supply.conductors() {
        if conductor == Conductor::Pe {
            continue;
        }
        let (volts, degrees) = source(conductor);
        let (at, name) = (node(conductor), format!("{conductor}_{number}"));
        writeln!(out, "Vs{name} s{at} 0 AC {volts} {degrees}")?;
        if conductor == load.conductor {
            writeln!(out, "Vmeter{number} s{at} {at} AC 0")?;
        } else {
            writeln!(out, "Vwire{name} s{at} {at} AC 0")?;
        }
        // So that no node hangs free; a thousandth of a milliamp.
        writeln!(out, "Rleak{name} {at} 0 1e9")?;
    }
    for (index, (device, running)) in load.running.iter().enumerate() {
        let plan = wiring.devices.iter().find(|plan| plan.device == *device).expect("it is there");
        let GroupSource::Between { nodes, .. } = board[plan.group].source else {
            panic!("{device} draws nothing from the mains")
        };
        let [a, b] = nodes.map(|at| supply.conductor_at(at).expect("it is fed"));
        let ((va, da), (vb, db)) = (source(a), source(b));
        let (ra, rb) = (f64::to_radians(da), f64::to_radians(db));
        let (x, y) =
            (va * libm::cos(ra) - vb * libm::cos(rb), va * libm::sin(ra) - vb * libm::sin(rb));
        let amps = if *running == Running::Low { plan.low.expect("has low") } else { plan.amps };
        let ohms = (x * x + y * y).sqrt() / amps.0;
        let fitted = plan.fitted.map(|index| &job.equipment[index]);
        let cos = fitted.and_then(|fitted| fitted.power_factor).unwrap_or(1.0);
        let name = format!("{number}_{index}");
        spice::load(out, &name, [&node(a), &node(b)], ohms, cos)?;
    }
    Ok(())
}
