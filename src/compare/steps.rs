//! The work at a box whose board is changed for the new one.
//!
//! The steps begin with the new board as it is shipped: its jumpers, links, switches and selectors stand
//! so. Wires and plugs are what the old board leaves behind: each goes to the label where it was, unless a
//! step says otherwise. So a step tells of whatever differs between the old plan, the new one and the new
//! board as shipped.

use std::collections::{BTreeMap, BTreeSet};

use super::decisions::{DecisionChange, Decisions, Plug, Subject, entry};
use super::plugs::{self, PlugFit, Rewiring};
use super::same;
use crate::board::{Board, Field};
use crate::decide::PinOrder;
use crate::decide::mistakes::PlannedCase;
use crate::geometry::Side;
use crate::meaning::{Kind, Value};

/// One thing to do at the box, which is locked off and tested.
#[derive(Clone, Debug, PartialEq)]
pub enum Step {
    /// A thing stands where another of its kind was: go by the label.
    Place {
        /// What it is.
        kind: Kind,
        /// What stands there.
        now: String,
        /// What stood there.
        was: String,
    },
    /// Connect another supply wire to a terminal; `None` if nothing is connected.
    Connect {
        /// The terminal.
        terminal: String,
        /// What was there.
        before: Option<Value>,
        /// What belongs there; a conductor, or that none does.
        after: Value,
    },
    /// Set a link to a terminal, or leave it there.
    Link(Set),
    /// A fuse has another rating: the old one is not used any more.
    Fuse {
        /// The fuse.
        fuse: String,
        /// The rating before.
        before: Value,
        /// The rating now.
        after: Value,
    },
    /// Set a jumper to a group, or leave it there.
    Jumper(Set),
    /// Move a plug; unplug it where the new board has no header for it.
    Plug {
        /// Whose.
        plug: Plug,
        /// The header where it was; `None` if it was not plugged in.
        from: Option<Value>,
        /// The header where it belongs; `None` if it is not plugged in.
        to: Option<Value>,
        /// The side that the key of that header faces.
        key: Option<Side>,
    },
    /// The header has another connector type: the plug does not fit.
    Connector {
        /// Whose plug.
        plug: Plug,
        /// The header.
        header: String,
    },
    /// Turn a plug: the key of its header faces another side.
    Turn {
        /// Whose.
        plug: Plug,
        /// The header.
        header: String,
        /// How far: clockwise quarter turns, 1 to 3.
        quarters: u8,
        /// The side that the key faces now.
        key: Side,
    },
    /// Move wires of a plug to other cavities.
    Wires {
        /// Whose.
        plug: Plug,
        /// The header.
        header: String,
        /// Which wires, and how they were.
        rewiring: Rewiring,
        /// How they belong.
        now: PinOrder,
    },
    /// Compare each wire of a plug with its pin: it needs other wires.
    Pins {
        /// Whose.
        plug: Plug,
        /// The header.
        header: String,
        /// The pins as a person sees them.
        now: PinOrder,
    },
    /// Leave a header empty.
    Empty {
        /// The header.
        header: String,
    },
    /// Set a switch, or leave it as it is shipped.
    Switch {
        /// The bank.
        bank: String,
        /// Which, from 1.
        number: u8,
        /// Whether it belongs on.
        on: bool,
        /// Whether it is shipped so.
        shipped: bool,
        /// How it was set on the old board, if otherwise.
        old: Option<bool>,
    },
    /// Switches that the plan leaves as they are shipped mean something else.
    Meaning {
        /// The bank.
        bank: String,
        /// The first and the last switch, from 1.
        ways: [u8; 2],
        /// How they stand and what that means.
        now: Stand,
        /// The same on the old board, if it has such switches.
        was: Option<Stand>,
        /// Where they mean on the new board what they meant on the old one.
        instead: Option<Vec<bool>>,
    },
    /// Turn a rotary selector to a position, or leave it there.
    Selector(Set),
    /// Enter the layout on the panel: a new board does not know it.
    Layout {
        /// The number before, if it is another.
        from: Option<Value>,
        /// The number now.
        to: Value,
    },
}

/// Where a thing belongs on a board that is as it is shipped.
#[derive(Clone, Debug, PartialEq)]
pub struct Set {
    /// Its name.
    pub of: String,
    /// Where it is as shipped.
    pub shipped: Value,
    /// Where it belongs.
    pub to: Value,
    /// Where it was on the old board, if elsewhere.
    pub old: Option<Value>,
}

impl Set {
    /// Whether it stays as it is shipped.
    pub fn stays(&self) -> bool {
        same(Some(&self.shipped), Some(&self.to))
    }
}

/// How neighboring switches stand and what that means, in the words of the specification.
#[derive(Clone, Debug, PartialEq)]
pub struct Stand {
    /// Each switch, `true` for on.
    pub positions: Vec<bool>,
    /// What it means.
    pub means: String,
}

/// A job on both boards, in the names of the new one.
#[derive(Clone, Copy)]
pub struct Compared<'a> {
    /// The case on the old board, in its own names.
    pub old: &'a PlannedCase<'a>,
    /// On the new board.
    pub new: &'a PlannedCase<'a>,
    /// What was decided.
    pub before: &'a Decisions,
    /// What is decided.
    pub after: &'a Decisions,
    /// What is decided otherwise.
    pub changes: &'a [DecisionChange],
}

impl Compared<'_> {
    /// The header that a plug was in, by its new name.
    pub fn header_before(&self, plug: Plug) -> String {
        self.before.get(&Subject::Header(plug)).map_or_else(String::new, ToString::to_string)
    }

    fn differs(&self, subject: &Subject) -> bool {
        self.changes.iter().any(|change| change.subject == *subject)
    }
}

/// The work in its order; nothing if nothing of it differs from what the old plan asks for.
pub fn steps(job: &Compared<'_>) -> Vec<Step> {
    let mut all = Vec::new();
    // Whatever is set on the board, with whether anything about it differs.
    let mut differs = false;
    let mut meant = BTreeSet::new();
    let mut plugs: BTreeMap<Plug, ()> = BTreeMap::new();
    for change in job.changes {
        match &change.subject {
            Subject::Header(plug)
            | Subject::Connector(plug)
            | Subject::Pins(plug)
            | Subject::ReadFrom(plug)
            | Subject::Key(plug) => {
                plugs.insert(*plug, ());
            }
            Subject::Meaning { bank, first, last } => {
                meant.extend((*first..=*last).map(|way| (bank.clone(), way)));
            }
            _ => {}
        }
    }
    let mut plugs_told = false;
    for subject in job.before.keys().chain(job.after.keys()).collect::<BTreeSet<_>>() {
        // Plugs come behind what is set before them, all together.
        if !plugs_told && *subject > Subject::Device(None) {
            plugs_told = true;
            for plug in plugs.keys() {
                all.extend(of_plug(job, *plug));
            }
        }
        let is_meant = matches!(subject, Subject::Switch { bank, number }
            if meant.contains(&(bank.clone(), *number)));
        if is_meant {
            continue;
        }
        if let Some((step, news)) = of_setting(job, subject) {
            differs |= news;
            all.push(step);
        } else if let Some(change) = job.changes.iter().find(|it| it.subject == *subject) {
            all.extend(of_change(job, change));
        }
    }
    // Only what is set on any board of its kind is no news.
    let all_old = |step: &Step| {
        matches!(
            step,
            Step::Link(_)
                | Step::Jumper(_)
                | Step::Selector(_)
                | Step::Switch { .. }
                | Step::Layout { from: None, .. }
        )
    };
    if !differs && !job.differs(&Subject::Entry) && all.iter().all(all_old) {
        return Vec::new();
    }
    all
}

/// The step for what is set on a board as it is shipped, if there is one, and whether the old plan for the
/// old board would not have asked for the same.
fn of_setting(job: &Compared<'_>, subject: &Subject) -> Option<(Step, bool)> {
    let by_panel = entry(job.new.board) == "panel";
    if *subject == Subject::Layout && by_panel {
        let (was, to) = (job.before.get(subject), job.after.get(subject)?.clone());
        let from = was.filter(|was| !same(Some(*was), Some(&to))).cloned();
        let news = from.is_some();
        return Some((Step::Layout { from, to }, news));
    }
    let shipped = subject.as_shipped();
    let now_shipped = job.after.get(&shipped)?.clone();
    let to = job.after.get(subject)?.clone();
    let was = job.before.get(subject);
    let news = job.differs(subject) || job.differs(&shipped);
    if !news && same(Some(&now_shipped), Some(&to)) {
        return None;
    }
    let old = was.filter(|was| !same(Some(*was), Some(&to))).cloned();
    let set = |of: &String| Set {
        of: of.clone(),
        shipped: now_shipped.clone(),
        to: to.clone(),
        old: old.clone(),
    };
    let step = match subject {
        Subject::Link(link) => Step::Link(set(link)),
        Subject::Jumper(jumper) => Step::Jumper(set(jumper)),
        Subject::Selector(selector) => Step::Selector(set(selector)),
        Subject::Switch { bank, number } => {
            let on = |value: &Value| *value == Value::Flag(true);
            let (bank, number, old) = (bank.clone(), *number, old.as_ref().map(on));
            let (on, shipped) = (on(&to), on(&now_shipped) == on(&to));
            Step::Switch { bank, number, on, shipped, old }
        }
        _ => return None,
    };
    Some((step, news))
}

/// The step for what is no setting and concerns no plug.
fn of_change(job: &Compared<'_>, change: &DecisionChange) -> Option<Step> {
    let now = change.after.clone()?;
    let before = change.before.clone();
    Some(match &change.subject {
        Subject::Place { kind, now: label } => {
            Step::Place { kind: *kind, now: label.clone(), was: now.to_string() }
        }
        Subject::Terminal(terminal) => {
            if before.is_none() && now == Value::Conductor(None) {
                return None;
            }
            Step::Connect { terminal: terminal.clone(), before, after: now }
        }
        Subject::Fuse(fuse) => Step::Fuse { fuse: fuse.clone(), before: before?, after: now },
        Subject::Empty(header) => Step::Empty { header: header.clone() },
        Subject::Meaning { bank, first, last } => meaning(job, bank, [*first, *last])?,
        _ => return None,
    })
}

/// What a plug asks for: that it moves or turns, and that its wires do.
fn of_plug(job: &Compared<'_>, plug: Plug) -> Vec<Step> {
    let Some(header) = plugs::header_of(job.new, plug) else {
        let from = job.before.get(&Subject::Header(plug)).cloned();
        return vec![Step::Plug { plug, from, to: None, key: None }];
    };
    let mut all = Vec::new();
    let code = header.code.clone();
    let before = job.before.get(&Subject::Header(plug));
    let fits = plugs::fit(job.old, job.new, plug);
    let other_type = job.differs(&Subject::Connector(plug)) && before.is_some();
    if other_type {
        all.push(Step::Connector { plug, header: code.clone() });
    }
    if job.differs(&Subject::Header(plug)) {
        let (from, to) = (before.cloned(), Some(Value::Code(code.clone())));
        all.push(Step::Plug { plug, from, to, key: header.key });
    } else if let Some((quarters, key)) =
        plugs::turn(job.old, job.new, plug, &job.header_before(plug))
    {
        all.push(Step::Turn { plug, header: code.clone(), quarters, key });
    }
    let now = plugs::device_of(job.new, plug).map(|(_, device)| device.pins.clone());
    let now = now.map(PinOrder::without_colours);
    match (fits, now) {
        (Some(PlugFit::Rewired(rewiring)), Some(now)) => {
            all.push(Step::Wires { plug, header: code, rewiring, now });
        }
        (Some(PlugFit::Other) | None, Some(now)) if !other_type => {
            all.push(Step::Pins { plug, header: code, now });
        }
        _ => {}
    }
    all
}

/// What is to be told of switches that mean something else.
fn meaning(job: &Compared<'_>, bank: &str, ways: [u8; 2]) -> Option<Step> {
    let subject = Subject::Meaning { bank: bank.to_owned(), first: ways[0], last: ways[1] };
    let stand = |case: &PlannedCase<'_>, decisions: &Decisions| {
        let positions = stands(case, bank, ways)?;
        Some(Stand { positions, means: decisions.get(&subject)?.to_string() })
    };
    let now = stand(job.new, job.after)?;
    let was = stand(job.old, job.before);
    let field = field_of(job.new.board, bank, ways)?;
    let instead = was.as_ref().and_then(|was| {
        let as_before =
            |it: &&crate::board::Setting| super::decisions::meant(&it.meaning) == was.means;
        field.settings.iter().find(as_before).map(|it| it.positions.clone())
    });
    Some(Step::Meaning { bank: bank.to_owned(), ways, now, was, instead })
}

/// How neighboring switches of a bank are set.
fn stands(case: &PlannedCase<'_>, bank: &str, [first, last]: [u8; 2]) -> Option<Vec<bool>> {
    let mut settings = case.wiring.switches.iter();
    let setting = settings.find(|setting| case.board[setting.bank].code == bank)?;
    let first = usize::from(first).checked_sub(1)?;
    setting.positions.get(first..usize::from(last)).map(<[bool]>::to_vec)
}

/// The field of a bank with these switches.
pub fn field_of<'a>(board: &'a Board, bank: &str, [first, last]: [u8; 2]) -> Option<&'a Field> {
    let bank = board.banks.iter().find(|it| it.code == bank)?;
    bank.fields.iter().find(|field| (field.first, field.last) == (first, last))
}
