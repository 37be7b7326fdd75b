//! What is found about a job, in English: each finding as a problem with its place in the job and
//! what to do about it. What is found, and whether it refuses the job, was decided before; nothing
//! here can change it.

mod circuit;
mod factors;
mod heater;
mod layouts;
mod phrases;
mod ratings;
mod voltages;

pub use layouts::difference_words;

use crate::board::{Board, Job};
use crate::decide::{Finding, Plan};
use crate::diagnostic::{Problem, Problems};

/// All findings of a plan, in their order, as problems.
pub fn job_problems(board: &Board, job: &Job, plan: &Plan) -> Problems {
    let mut problems = Problems::default();
    for finding in &plan.findings {
        let problem = problem(board, job, finding);
        if finding.refuses() {
            problems.error(problem);
        } else {
            problems.warning(problem);
        }
    }
    problems
}

/// One finding about `job` as a problem.
pub fn problem(board: &Board, job: &Job, finding: &Finding) -> Problem {
    match finding {
        Finding::NoLayout(found) => layouts::no_layout(board, found),
        Finding::NoVoltage(found) => voltages::no_voltage(board, job, found),
        Finding::NeededHeaderEmpty { layout } => voltages::needed_header_empty(job, *layout),
        Finding::JumperConflict(found) => voltages::jumper_conflict(board, found),
        Finding::VoltageEdge(found) => voltages::edge(board, found),
        Finding::TabsTaken(found) => ratings::tabs_taken(board, found),
        Finding::BeyondEveryHeader(found) => ratings::beyond_every_header(board, found),
        Finding::HeaderOverload(found) => ratings::header_overload(board, found),
        Finding::FuseOverload(found) => ratings::fuse_overload(board, found),
        Finding::HeaterUnknown { header } => heater::unknown(board, job, *header),
        Finding::HeaterWithoutVoltage { header, groups } => {
            heater::without_voltage(board, job, *header, groups)
        }
        Finding::HeaterTooHigh(found) => heater::too_high(board, found),
        Finding::HeaterWeak(found) => heater::weak(board, found),
        Finding::OddBreaker(found) => circuit::odd_breaker(job, found),
        Finding::BreakerAboveMark { largest } => circuit::above_mark(job, *largest),
        Finding::BreakerBelowMark { circuit, larger } => {
            circuit::below_mark(job, *circuit, *larger)
        }
        Finding::BreakerTooSmall(found) => circuit::too_small(job, found),
        Finding::HeaterWaits(found) => circuit::heater_waits(job, found),
        Finding::BoardOverload(found) => circuit::board_overload(job, found),
        Finding::WireTooThin { place, found } => circuit::wire_too_thin(job, *place, found),
        Finding::WireNeeds75 { place, at_60, would_do } => {
            circuit::wire_needs_75(job, *place, *at_60, *would_do)
        }
        Finding::CapacityAboveTables(found) => circuit::capacity_above_tables(job, found),
        Finding::MarkBelowLoad(found) => circuit::mark_below_load(found),
        Finding::RunDrop { place, drop } => circuit::run_drop(*place, drop),
        Finding::FactorUnknown(found) => factors::unknown(board, job, found),
    }
}

/// What no job of the tests is found to have; all else is in their snapshots.
#[cfg(test)]
mod tests {
    use super::*;
    use crate::decide::group_voltage;
    use crate::decide::sample::{Case, JOB, group, header};
    use crate::diagnostic::Severity;

    fn refused(case: &Case, finding: &Finding) -> Problem {
        assert!(finding.refuses());
        let problem = problem(&case.board, &case.job, finding);
        assert_eq!((problem.code.text(), problem.code.severity()), ("L605", Severity::Error));
        problem
    }

    #[test]
    fn a_header_that_cannot_be_filled_is_told() {
        let case = Case::new(JOB);
        let (layout, _) = case.plan.sound().expect("it is sound");
        let found = refused(&case, &Finding::NeededHeaderEmpty { layout: layout.number });
        assert_eq!(found.message, "not every header that layout 7 needs gets its device");
        assert_eq!(found.primary.map(|label| label.span), Some(case.job.equipment_span));
        let help = found.help.map(|help| help.text);
        assert_eq!(help.as_deref(), Some("give each pump its number, as in `device: pump 1`"));
    }

    #[test]
    fn a_heater_without_voltage_is_told() {
        let case = Case::new(JOB);
        let three_wire = case.supply("three-wire");
        let b = group(&case.board, "B");
        let voltage = group_voltage(&case.board, three_wire, b);
        let header = header(&case.board, "J1");
        let found =
            refused(&case, &Finding::HeaterWithoutVoltage { header, groups: vec![(b, voltage)] });
        assert_eq!(found.message, "no group gives the heater any voltage on supply four-wire");
        let why = "group B gives nothing: nothing lands on T3, as the supply has no neutral";
        assert_eq!(found.notes, [why]);
        let others: Vec<_> = found.others.into_iter().map(|it| (it.span, it.text)).collect();
        assert_eq!(others, [(case.board[header].span, "feeds the heater".to_owned())]);
    }
}
