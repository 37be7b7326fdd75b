//! What a new board asks of a box that was wired by the old one.

use std::collections::{BTreeMap, BTreeSet};

use super::decisions::{DecisionChange, Decisions, Plug, Subject, decisions, entry};
use super::old_wiring::{OldWiring, old_wiring};
use super::renames::{Rename, Renames};
use super::same;
use crate::board::{Board, Device, Header, Job};
use crate::decide::Plan;
use crate::decide::mistakes::PlannedCase;
use crate::geometry::Side;
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
    /// What the old wiring does on the new board where that is dangerous, the worst first.
    pub dangers: Vec<OldWiring>,
    /// Differences of which no simulation tells whether the old wiring is dangerous.
    pub unjudged: Vec<Subject>,
    /// The work, in its order.
    pub steps: Vec<Step>,
    /// Things that the job's sheets name otherwise.
    pub renames: Vec<Rename>,
    /// Every decision that is another, in the names of the new board.
    pub decisions: Vec<DecisionChange>,
    /// What the new board takes each device for.
    pub devices: BTreeMap<Plug, Device>,
}

/// One thing to do at the box, which is locked off and tested.
#[derive(Clone, Debug, PartialEq)]
pub enum Step {
    /// Connect another supply wire to a terminal; `None` if nothing is connected.
    Connect {
        /// The terminal.
        terminal: String,
        /// What was there.
        before: Option<Value>,
        /// What belongs there; a conductor, or that none does.
        after: Value,
    },
    /// Move a link.
    Link {
        /// The link.
        link: String,
        /// The terminal where it was; `None` if the old board has no such link.
        from: Option<Value>,
        /// The terminal where it belongs.
        to: Value,
    },
    /// Another rating of a fuse.
    Fuse {
        /// The fuse.
        fuse: String,
        /// The rating before.
        before: Value,
        /// The rating now.
        after: Value,
    },
    /// Move a jumper.
    Jumper {
        /// The jumper.
        jumper: String,
        /// The group where it was; `None` if the old board has no such jumper.
        from: Option<Value>,
        /// The group where it belongs.
        to: Value,
    },
    /// Move a plug; unplug it where the new board has no header for it.
    Plug {
        /// Whose.
        plug: Plug,
        /// The header where it was; `None` if it was not plugged in.
        from: Option<Value>,
        /// The header where it belongs; `None` if it is not plugged in.
        to: Option<Value>,
    },
    /// The header has another connector type: the plug does not fit.
    Connector {
        /// Whose plug.
        plug: Plug,
        /// The header.
        header: String,
    },
    /// Turn a plug round: the key of its header faces another side.
    Turn {
        /// Whose.
        plug: Plug,
        /// The header.
        header: String,
        /// The side that the key faces now.
        key: Side,
    },
    /// Compare each wire of a plug with its pin: the order is another.
    Pins {
        /// Whose.
        plug: Plug,
        /// The header.
        header: String,
        /// The pins as a person sees them; empty cavities are `-`.
        pins: Vec<String>,
        /// Whether they are read from the top, else from the left.
        from_top: bool,
    },
    /// Leave a header empty.
    Empty {
        /// The header.
        header: String,
    },
    /// Set a switch.
    Switch {
        /// The bank.
        bank: String,
        /// Which, from 1.
        number: u8,
        /// Whether to on.
        on: bool,
    },
    /// Turn a rotary selector.
    Selector {
        /// The selector.
        selector: String,
        /// Its position before; `None` if there was none.
        from: Option<Value>,
        /// Its position now.
        to: Value,
    },
    /// Enter a layout on the panel.
    Layout {
        /// The number before.
        from: Option<Value>,
        /// The number now.
        to: Value,
    },
}

impl JobFate {
    /// What becomes of a job that was planned on both boards.
    pub fn between(old: JobOn<'_>, new: JobOn<'_>, renames: &Renames) -> Self {
        match (old.case(), new.case()) {
            (None, None) => JobFate::StillRefused,
            (Some(_), None) => JobFate::RefusedNow,
            (None, Some(_)) => JobFate::FineNow,
            (Some(before), Some(after)) => match change(&before, &after, renames) {
                Some(change) => JobFate::Changed(Box::new(change)),
                None => JobFate::Same,
            },
        }
    }
}

fn change(old: &PlannedCase<'_>, new: &PlannedCase<'_>, renames: &Renames) -> Option<JobChange> {
    let all = |case: &PlannedCase<'_>| decisions(case.board, case.job, (case.layout, case.wiring));
    let (before, renames) = renamed(all(old), renames);
    let after = all(new);
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
    let (dangers, unjudged) = old_wiring(new, &before, &after, &decisions);
    Some(JobChange {
        dangers,
        unjudged,
        steps: steps(old, new, &after, &decisions),
        renames,
        devices: new.wiring.devices.iter().map(|it| (it.fitted, it.device)).collect(),
        decisions,
    })
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
        let subject = match subject {
            Subject::Terminal(code) => Subject::Terminal(name(Kind::Terminal, &code)),
            Subject::Fuse(code) => Subject::Fuse(name(Kind::Fuse, &code)),
            Subject::Jumper(code) => Subject::Jumper(name(Kind::Jumper, &code)),
            Subject::Empty(code) => Subject::Empty(name(Kind::Header, &code)),
            Subject::Link(code) => Subject::Link(name(Kind::Link, &code)),
            other => other,
        };
        let kind = match &subject {
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

/// The work at the box, in its order.
fn steps(
    old: &PlannedCase<'_>,
    new: &PlannedCase<'_>,
    after: &Decisions,
    changes: &[DecisionChange],
) -> Vec<Step> {
    let mut all = Vec::new();
    for DecisionChange { subject, before, after: now } in changes {
        let step = match (subject, now) {
            (Subject::Header(plug), now) => {
                Some(Step::Plug { plug: *plug, from: before.clone(), to: now.clone() })
            }
            (Subject::Pins(plug) | Subject::ReadFrom(plug), Some(_)) => {
                pins(old, new, *plug, after)
            }
            (Subject::Connector(plug), Some(_)) => {
                let moved = changes.iter().any(|it| it.subject == Subject::Header(*plug));
                let header = header_of(after, *plug).filter(|_| !moved);
                header.map(|header| Step::Connector { plug: *plug, header })
            }
            (Subject::Entry | Subject::Layout, Some(_)) if entry(new.board) == "panel" => {
                let to = after.get(&Subject::Layout).cloned();
                let from = changes.iter().find(|it| it.subject == Subject::Layout);
                let from = from.and_then(|change| change.before.clone());
                to.map(|to| Step::Layout { from, to })
            }
            (_, Some(now)) => simple(subject, before.as_ref(), now),
            (_, None) => None,
        };
        // Pins and where their reading begins are one step; so are layout and how it is entered.
        all.extend(step.filter(|step| all.last() != Some(step)));
    }
    all
}

/// The step that follows from one decision alone.
fn simple(subject: &Subject, before: Option<&Value>, now: &Value) -> Option<Step> {
    let (from, to) = (before.cloned(), now.clone());
    Some(match subject {
        Subject::Terminal(terminal) => {
            if from.is_none() && to == Value::Conductor(None) {
                return None;
            }
            Step::Connect { terminal: terminal.clone(), before: from, after: to }
        }
        Subject::Link(link) => Step::Link { link: link.clone(), from, to },
        Subject::Fuse(fuse) => Step::Fuse { fuse: fuse.clone(), before: from?, after: to },
        Subject::Jumper(jumper) => Step::Jumper { jumper: jumper.clone(), from, to },
        Subject::Empty(header) => Step::Empty { header: header.clone() },
        Subject::Switch { bank, number } => {
            Step::Switch { bank: bank.clone(), number: *number, on: to == Value::Flag(true) }
        }
        Subject::Selector(selector) => Step::Selector { selector: selector.clone(), from, to },
        _ => return None,
    })
}

/// What to do with a plug whose pins are in another order.
fn pins(
    old: &PlannedCase<'_>,
    new: &PlannedCase<'_>,
    plug: Plug,
    after: &Decisions,
) -> Option<Step> {
    let header = header_of(after, plug)?;
    if let Some(key) = turned_to(old, new, plug) {
        return Some(Step::Turn { plug, header, key });
    }
    let pins = match after.get(&Subject::Pins(plug))? {
        Value::Codes(pins) => pins.clone(),
        _ => return None,
    };
    let from_top = after.get(&Subject::ReadFrom(plug)) == Some(&Value::Code("top".to_owned()));
    Some(Step::Pins { plug, header, pins, from_top })
}

/// The side that the key of a plug's header faces now, if only that is another.
fn turned_to(old: &PlannedCase<'_>, new: &PlannedCase<'_>, plug: Plug) -> Option<Side> {
    let (was, is) = (header(old, plug)?, header(new, plug)?);
    let (drawn, drawn_now) = (&old.board[was.socket], &new.board[is.socket]);
    let alike = (&drawn.pins, drawn.key_drawn) == (&drawn_now.pins, drawn_now.key_drawn);
    is.key.filter(|_| alike && was.key.is_some() && was.key != is.key)
}

fn header<'a>(case: &PlannedCase<'a>, plug: Plug) -> Option<&'a Header> {
    let mut devices = case.wiring.devices.iter();
    devices.find(|device| device.fitted == plug).map(|device| &case.board[device.header])
}

fn header_of(decisions: &Decisions, plug: Plug) -> Option<String> {
    decisions.get(&Subject::Header(plug)).map(ToString::to_string)
}
