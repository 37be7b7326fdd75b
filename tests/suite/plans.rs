//! Plans of generated jobs on generated boards against a plain oracle: it goes through every way
//! to spread the devices, every position of every jumper, and every state.
#![allow(clippy::print_stderr)] // What was compared is told to who runs it with `--nocapture`.

use crate::compile;
use crate::generate::{boards, jobs};
use crate::oracle::search::{self, Verdict};
use crate::oracle::wires::{self, Judged};
use lidsheet::board::{self, Board, Job};
use lidsheet::decide::{self, Finding, Plan, WireVerdict};
use lidsheet::diagnostic::{Problem, Problems};
use lidsheet::job_problems::job_problems;
use lidsheet::source::Sources;
use lidsheet::spec;
use proptest::prelude::*;

use boards::Knobs;

/// Sizes small enough for the oracle. They shrink; what fills them does not.
fn knobs() -> impl Strategy<Value = Knobs> {
    let supply = (1..=2_usize, 1..=5_usize, 0..=1_usize, 0..=1_usize);
    let plugs = (0..=6_usize, 0..=6_usize, 1..=7_usize, 1..=6_usize, 1..=10_usize);
    (supply, plugs).prop_map(|(supply, plugs)| {
        let (supplies, groups, isolated, links) = supply;
        let (jumpers, fuses, headers, columns, layouts) = plugs;
        Knobs {
            parts: 1,
            supplies,
            groups,
            isolated,
            links,
            jumpers,
            fuses,
            headers,
            columns,
            layouts,
            banks: 3,
            panels: 1,
            iec: false,
            awkward: false,
        }
    })
}

fn job_on(board: &Board, text: &str) -> Result<(Job, Plan), Vec<Problem>> {
    let (mut sources, mut problems) = (Sources::default(), Problems::default());
    let file = sources.add("jobs/generated.yaml", text);
    let job = spec::parse_job(file, &sources, &mut problems)
        .and_then(|spec| board::check_job(&spec, board, &mut problems));
    match job {
        Ok(job) => {
            let plan = decide::plan(board, &job);
            Ok((job, plan))
        }
        Err(_) => Err(problems.sorted()),
    }
}

/// What a run of the oracle found, to be counted.
#[derive(Default)]
struct Tally {
    planned: usize,
    refused: usize,
    too_large: usize,
    unread: usize,
    several: usize,
    moved: usize,
    lower_allowance: usize,
    /// Supply runs that were judged, those that need marked terminals, and those that are too thin.
    wires: usize,
    at_75: usize,
    thin: usize,
}

fn compare(board: &Board, text: &str, tally: &mut Tally) -> Result<(), TestCaseError> {
    let (job, plan) = match job_on(board, text) {
        Ok(found) => found,
        Err(_) => {
            tally.unread += 1;
            return Ok(());
        }
    };
    let numbers = search::fitting(board, &job);
    let found = plan.layout.as_ref().map(|layout| {
        let mut all = layout.others.clone();
        all.push(layout.number);
        all.sort();
        all
    });
    prop_assert_eq!(found.unwrap_or_default(), numbers.clone(), "layouts\n{}", text);
    let Some(layout) = &plan.layout else {
        prop_assert!(plan.refused());
        let least = search::fewest_differences(board, &job);
        let nearest = plan.findings.iter().find_map(|finding| match finding {
            Finding::NoLayout(found) => Some(&found.nearest),
            _ => None,
        });
        let found: Vec<usize> =
            nearest.into_iter().flatten().map(|near| near.differences.len()).collect();
        prop_assert_eq!(found.first().copied(), least, "nearest\n{}", text);
        tally.refused += 1;
        return Ok(());
    };
    let mut first_that_works = None;
    let mut of_taken = None;
    for number in &numbers {
        let verdict = search::judge(board, &job, *number);
        if let Verdict::TooLarge = verdict {
            tally.too_large += 1;
            return Ok(());
        }
        let works = matches!(verdict, Verdict::Works(_));
        if *number == layout.number {
            of_taken = Some(verdict);
        }
        if works {
            first_that_works = Some(*number);
            break;
        }
    }
    let expected = first_that_works.or(numbers.first().copied());
    prop_assert_eq!(Some(layout.number), expected, "layout\n{}", text);
    let told = || {
        let problems = job_problems(board, &job, &plan).sorted();
        let all: Vec<String> =
            problems.iter().map(|p| format!("{} {}", p.code.text(), p.message)).collect();
        format!("{}\n{text}", all.join("\n"))
    };
    match of_taken {
        Some(Verdict::Works(best)) => {
            // A breaker above the mark is refused whatever else is decided.
            let above =
                job.marked.largest.is_some_and(|largest| job.breaker.value.0 > largest.value.0);
            // So are conductors that the breaker does not protect.
            let thin = wires::judged(board, &job, 0.0) == Judged::TooThin;
            prop_assert_eq!(plan.sound().is_none(), above || thin, "refused\n{}", told());
            let wiring = plan.wiring.as_ref().expect("it is sound");
            prop_assert!(wiring.optimal);
            let jumpers: Vec<_> = wiring.jumpers.iter().map(|jumper| jumper.group).collect();
            let places: Vec<_> = wiring
                .devices
                .iter()
                .map(|device| (device.fitted, device.header, device.group))
                .collect();
            prop_assert_eq!(wiring.breaker.allowance, best.allowance, "allowance\n{}", text);
            let counted = wiring
                .breaker
                .settings
                .iter()
                .find(|setting| setting.allowance == best.allowance)
                .expect("it is one of the settings");
            near(counted.counted.0, best.needed, "needed", text)?;
            for (load, (conductor, amps)) in wiring.conductors.iter().zip(&best.conductors) {
                prop_assert_eq!(load.conductor, *conductor);
                near(load.amps.0, *amps, "conductor", text)?;
            }
            prop_assert_eq!(wiring.conductors.len(), best.conductors.len());
            for load in &wiring.fuses {
                near(load.amps.0, best.fuses[load.of.0], "fuse", text)?;
            }
            let loaded = (0..best.fuses.len()).filter(|fuse| best.fuses[*fuse] > 0.0);
            let listed = wiring.fuses.iter().map(|load| load.of.0);
            let (loaded, mut listed): (Vec<_>, Vec<_>) = (loaded.collect(), listed.collect());
            listed.sort();
            prop_assert_eq!(listed, loaded, "fuses\n{}", text);
            match (&wiring.run, best.drop_percent) {
                (None, None) => {}
                (Some(run), Some(percent)) => {
                    // The directions that were tried lie an eighth of a degree off at the most.
                    let off = (run.percent / percent - 1.0).abs();
                    prop_assert!(off < 1e-5, "run: {}, not {}\n{}", run.percent, percent, text);
                }
                other => prop_assert!(false, "run {:?}\n{}", other, text),
            }
            let most = wiring.conductors.iter().map(|load| load.amps.0).fold(0.0, f64::max);
            let judged = wires::judged(board, &job, most.max(wiring.breaker.needed.0));
            let found = match wiring.wire.verdict {
                WireVerdict::Suits | WireVerdict::OnlyAt75 { .. } => {
                    let only = matches!(wiring.wire.verdict, WireVerdict::OnlyAt75 { .. });
                    tally.at_75 += usize::from(only);
                    tally.wires += 1;
                    let limit = decide::wire::load_limit(board, &job).expect("it is known").0;
                    if only { Judged::OnlyAt75(limit) } else { Judged::Suits(limit) }
                }
                WireVerdict::TooThin(_) => Judged::TooThin,
                WireVerdict::Unjudged(_) => Judged::Unjudged,
            };
            tally.thin += usize::from(thin);
            prop_assert_eq!(found, judged, "wire\n{}", text);
            prop_assert_eq!(jumpers, best.jumpers, "jumpers\n{}", text);
            prop_assert_eq!(places, best.places, "places\n{}", text);
            tally.planned += 1;
            tally.several += usize::from(best.ways > 1);
            tally.moved += usize::from(wiring.jumpers.iter().any(|jumper| jumper.moved));
            let highest = decide::jumpers::allowances(board)[0];
            tally.lower_allowance += usize::from(best.allowance != highest);
        }
        Some(Verdict::Refused { wired }) => {
            prop_assert!(plan.refused(), "not refused\n{}", text);
            prop_assert_eq!(plan.wiring.is_some(), wired, "wiring\n{}", told());
            tally.refused += 1;
        }
        _ => prop_assert!(false, "the layout was not judged\n{}", text),
    }
    Ok(())
}

fn near(found: f64, wanted: f64, what: &str, text: &str) -> Result<(), TestCaseError> {
    prop_assert!((found - wanted).abs() < 1e-6, "{}: {}, not {}\n{}", what, found, wanted, text);
    Ok(())
}

/// Jobs whose boards and numbers come from proptest, so that a failed one shrinks.
#[test]
fn plans_agree_with_the_oracle() {
    let mut runner = proptest::test_runner::TestRunner::new(crate::generate::cases(1500));
    let tally = std::cell::RefCell::new(Tally::default());
    let result = runner.run(&(knobs(), any::<u64>(), any::<u64>()), |(knobs, seed, jobs)| {
        let text = boards::board(&knobs, seed);
        let board = compile::sound(&text);
        for number in 0..4 {
            let job = jobs::generate(&board, jobs.wrapping_add(number));
            compare(&board, &job, &mut tally.borrow_mut())
                .map_err(|error| TestCaseError::fail(format!("{error}\n{text}")))?;
        }
        Ok(())
    });
    if let Err(error) = result {
        panic!("{error}");
    }
    counted(&tally.into_inner(), 6000);
}

/// The generator is worth no more than what it makes.
fn counted(tally: &Tally, jobs: usize) {
    let Tally { planned, refused, too_large, unread, several, moved, lower_allowance, .. } = *tally;
    let Tally { wires, at_75, thin, .. } = *tally;
    eprintln!(
        "{jobs} jobs: {planned} planned ({several} with a choice, {moved} with a move, \
         {lower_allowance} below the highest allowance), {refused} refused, {too_large} too large, \
         {unread} not read; {wires} runs suit ({at_75} at 75 °C alone), {thin} are too thin"
    );
    assert_eq!(planned + refused + too_large + unread, jobs);
    assert!(planned * 3 > jobs, "{planned} of {jobs} planned");
    assert!(refused * 20 > jobs, "{refused} of {jobs} refused");
    assert!(too_large * 5 < jobs, "{too_large} of {jobs} too large for the oracle");
    assert!(at_75 > 2, "{at_75} of {jobs}");
    for some in [several, moved, lower_allowance, wires, thin] {
        assert!(some * 100 > jobs, "{some} of {jobs}");
    }
}
