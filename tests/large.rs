//! The largest sensible job, and jobs beyond all measure.

#[path = "common/largest.rs"]
mod largest;

#[path = "common/job.rs"]
mod job;

use std::time::Instant;

#[test]
fn largest() {
    let board = largest::board();
    for (breaker, factors) in
        [(63, false), (32, false), (25, false), (63, true), (32, true), (6, true)]
    {
        let start = Instant::now();
        let outcome = job::plan_on(&board, &largest::job(breaker, factors));
        let took = start.elapsed();
        let plan = outcome.plan.as_ref().expect("planned");
        let w = plan.wiring.as_ref().expect("wired");
        let start = Instant::now();
        let _ = lidsheet::decide::plan(&outcome.board, outcome.job.as_ref().unwrap());
        eprintln!(
            "{breaker} {factors}: all {took:?}, plan {:?} optimal {} allowance {:?} needed {:.3} {:?}",
            start.elapsed(),
            w.optimal,
            w.breaker.allowance,
            w.breaker.needed.0,
            w.conductors.iter().map(|c| c.amps.0).collect::<Vec<_>>()
        );
        eprintln!("{:?}", outcome.codes());
    }
}
