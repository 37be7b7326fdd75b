//! What a new board asks of a box that was wired by the old one.

use std::collections::{BTreeMap, BTreeSet};

use super::decisions::{DecisionChange, Decisions, Plug, Subject, decisions};
use super::exchanges::Exchange;
use super::old_wiring::{OldWiring, old_wiring};
use super::renames::{Rename, Renames};
use super::steps::{Compared, Step, steps};
use super::{Changes, same};
use crate::board::{Board, Device, Job};
use crate::decide::Plan;
use crate::decide::mistakes::PlannedCase;
use crate::meaning::{Kind, Value};

/// A job as it is planned on one of the boards.
#[derive(Clone, Copy, Debug)]
pub struct JobOn<'a> {
    /// The board.
    pub board: &'a Board,
    /// The job and its plan; `None` if something was wrong before it could be planned.
    pub planned: Option<(&'a Job, &'a Plan)>,
}

impl<'a> JobOn<'a> {
    /// The case, if nothing refuses it.
    pub fn case(self) -> Option<PlannedCase<'a>> {
        let (job, plan) = self.planned?;
        Some(PlannedCase::new(self.board, job, plan.sound()?))
    }
}

/// What becomes of a job.
#[derive(Clone, Debug)]
pub enum JobFate {
    /// All is decided as before.
    Same,
    /// It was refused, and is.
    StillRefused,
    /// It is refused now.
    RefusedNow,
    /// It was refused, and is no more.
    FineNow,
    /// Something is decided otherwise.
    Changed(Box<JobChange>),
}

/// What is decided otherwise, and what to do at the box.
#[derive(Clone, Debug)]
pub struct JobChange {
    /// What the old wiring, or the new board as it is shipped, does where that is dangerous, the worst first.
    pub dangers: Vec<OldWiring>,
    /// Differences of which no simulation tells whether the old wiring is dangerous.
    pub unjudged: Vec<Subject>,
    /// The work at a box with the new board, which is as it is shipped, in its order. Empty if it is the work
    /// of the old plan.
    pub steps: Vec<Step>,
    /// Things that the job's sheets name otherwise.
    pub renames: Vec<Rename>,
    /// Every decision that is another, in the names of the new board.
    pub decisions: Vec<DecisionChange>,
    /// What the new board takes each device for; the old one, where the new one has no header for it.
    pub devices: BTreeMap<Plug, Device>,
}

impl JobFate {
    /// What becomes of a job that was planned on both boards.
    pub fn between(old: JobOn<'_>, new: JobOn<'_>, changes: &Changes) -> Self {
        match (old.case(), new.case()) {
            (None, None) => JobFate::StillRefused,
            (Some(_), None) => JobFate::RefusedNow,
            (None, Some(_)) => JobFate::FineNow,
            (Some(before), Some(after)) => match change(&before, &after, changes) {
                Some(change) => JobFate::Changed(Box::new(change)),
                None => JobFate::Same,
            },
        }
    }
}

fn change(old: &PlannedCase<'_>, new: &PlannedCase<'_>, changes: &Changes) -> Option<JobChange> {
    let all = |case: &PlannedCase<'_>| decisions(case.board, case.job, (case.layout, case.wiring));
    let (before, renames) = renamed(all(old), &changes.renames);
    let mut after = all(new);
    for Exchange { kind, now, was } in &changes.exchanges {
        if uses(new, *kind, now) || uses(new, *kind, was) {
            let subject = Subject::Place { kind: *kind, now: now.clone() };
            after.insert(subject, Value::Code(was.clone()));
        }
    }
    let subjects: BTreeSet<&Subject> = before.keys().chain(after.keys()).collect();
    let decisions: Vec<DecisionChange> = subjects
        .into_iter()
        .map(|subject| (subject, before.get(subject), after.get(subject)))
        .filter(|(_, before, after)| !same(*before, *after))
        .map(|(subject, before, after)| DecisionChange {
            subject: subject.clone(),
            before: before.cloned(),
            after: after.cloned(),
        })
        .collect();
    if decisions.is_empty() && renames.is_empty() {
        return None;
    }
    let job = Compared { old, new, before: &before, after: &after, changes: &decisions };
    let (dangers, unjudged) = old_wiring(&job);
    let steps = steps(&job);
    let device = |case: &PlannedCase<'_>| -> Vec<(Plug, Device)> {
        case.wiring.devices.iter().map(|it| (it.fitted, it.device)).collect()
    };
    // What the new board has no header for keeps its old name.
    let devices = device(old).into_iter().chain(device(new)).collect();
    Some(JobChange { dangers, unjudged, steps, renames, devices, decisions })
}

/// Whether a plan uses a thing: a terminal with a wire, a header with a plug, a fuse in front of one;
/// whatever is set on any board is always used.
fn uses(case: &PlannedCase<'_>, kind: Kind, name: &str) -> bool {
    let PlannedCase { board, job, wiring, .. } = case;
    match kind {
        Kind::Terminal => {
            let lands = board[job.supply.value].lands.iter().zip(&board.terminals);
            let mut lands = lands.filter(|(conductor, _)| conductor.is_some());
            lands.any(|(_, terminal)| terminal.code == name)
        }
        Kind::Header => wiring.devices.iter().any(|device| board[device.header].code == name),
        Kind::Fuse => wiring.fuses.iter().any(|load| board[load.of].code == name),
        _ => true,
    }
}

/// Decisions in the names of the new board, and which of its names they use.
fn renamed(decisions: Decisions, renames: &Renames) -> (Decisions, Vec<Rename>) {
    let mut used = BTreeSet::new();
    let mut name = |kind: Kind, old: &str| -> String {
        let found = renames.iter().find(|rename| rename.kind == kind && rename.from == old);
        // The name of a connector type is in the specification alone.
        used.extend(found.filter(|rename| rename.kind != Kind::Socket).cloned());
        found.map_or(old, |rename| &rename.to).to_owned()
    };
    let mut all = Decisions::new();
    for (subject, value) in decisions {
        let mut of = |subject: Subject| match subject {
            Subject::Terminal(code) => Subject::Terminal(name(Kind::Terminal, &code)),
            Subject::Fuse(code) => Subject::Fuse(name(Kind::Fuse, &code)),
            Subject::Jumper(code) => Subject::Jumper(name(Kind::Jumper, &code)),
            Subject::Empty(code) => Subject::Empty(name(Kind::Header, &code)),
            Subject::Link(code) => Subject::Link(name(Kind::Link, &code)),
            other => other,
        };
        let subject = match subject {
            Subject::Shipped(subject) => of(*subject).as_shipped(),
            other => of(other),
        };
        let plain = match &subject {
            Subject::Shipped(subject) => subject,
            other => other,
        };
        let kind = match plain {
            Subject::Link(_) => Some(Kind::Terminal),
            Subject::Header(_) => Some(Kind::Header),
            Subject::JumperOf(_) => Some(Kind::Jumper),
            Subject::FuseOf(_) => Some(Kind::Fuse),
            Subject::Jumper(_) | Subject::Group(_) => Some(Kind::Group),
            Subject::Connector(_) => Some(Kind::Socket),
            _ => None,
        };
        let value = match (kind, value) {
            (Some(kind), Value::Code(code)) => Value::Code(name(kind, &code)),
            (_, value) => value,
        };
        all.insert(subject, value);
    }
    (all, used.into_iter().collect())
}
