//! What is another in the second of two boards, and what that asks of whoever has built by the first.
//!
//! Two boards are compared by their facts ([`crate::meaning`]): order, comments and spelling make no
//! difference. A thing that only has another name is told as a rename, and what only names that thing
//! is then no difference. Everything here is data, without words.

mod decisions;
mod exchanges;
mod jobs;
mod old_wiring;
mod plugs;
mod renames;
mod steps;

pub use decisions::{DecisionChange, Decisions, Plug, Subject};
pub use exchanges::Exchange;
pub use jobs::{JobChange, JobFate, JobOn};
pub use old_wiring::{OldWiring, Origin};
pub use plugs::Rewiring;
pub use renames::{Rename, Renames};
pub use steps::{Set, Stand, Step, field_of};

use std::collections::{BTreeMap, BTreeSet};

use crate::board::Board;
use crate::meaning::{self, Concern, Meaning, Property, Thing, Value, Which};

/// What is another in the second of two boards.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Changes {
    /// Things that only have another name, in the order of their kinds and old names.
    pub renames: Renames,
    /// Things that now stand where another of their kind was, in the order of their kinds.
    pub exchanges: Vec<Exchange>,
    /// Everything else: by whom it concerns, then by what it is about, under its new name.
    pub things: Vec<ThingChange>,
}

/// What is another about one thing, for those whom it concerns.
#[derive(Clone, Debug, PartialEq)]
pub struct ThingChange {
    /// Whom it concerns. A thing that came or went stands once, where its gravest fact stands.
    pub concern: Concern,
    /// What it is about, under its new name.
    pub thing: Thing,
    /// Whether it is there before and after.
    pub presence: Presence,
    /// What is another; all facts of a thing that came or went. Never empty but for a thing of which
    /// nothing is said.
    pub facts: Vec<FactChange>,
}

/// Whether a thing is in both boards.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Presence {
    /// In both.
    Stayed,
    /// In the new one alone.
    Added,
    /// In the old one alone.
    Removed,
}

/// One fact that is another; at least one of the values is there.
#[derive(Clone, Debug, PartialEq)]
pub struct FactChange {
    /// Which.
    pub which: Which,
    /// What it said; `None` if nothing did.
    pub before: Option<Value>,
    /// What it says; `None` if nothing does.
    pub after: Option<Value>,
}

impl Changes {
    /// What is another in `new`.
    pub fn between(old: &Board, new: &Board) -> Self {
        let meanings = [old, new].map(meaning::of_board);
        let [before, after] = &meanings;
        let renames = Renames::between(before, after);
        let exchanges = exchanges::exchanges(old, new, &renames);
        let things = between(&renames.applied_to(before), &facts_of(after), &exchanges);
        Self { renames, exchanges, things }
    }

    /// What these changes tell and others do not: that of two boards in one language beyond that of the same
    /// in another.
    pub fn beyond(mut self, others: &Changes) -> Vec<ThingChange> {
        let known = |change: &ThingChange, fact: &FactChange| {
            let same = others.things.iter().filter(|other| other.thing == change.thing);
            same.flat_map(|other| &other.facts).any(|other| other == fact)
        };
        for change in &mut self.things {
            let mut facts = std::mem::take(&mut change.facts);
            facts.retain(|fact| !known(change, fact));
            change.facts = facts;
        }
        self.things.retain(|change| !change.facts.is_empty());
        self.things
    }

    /// Whether both say the same.
    pub fn is_empty(&self) -> bool {
        self.renames.is_empty() && self.things.is_empty()
    }
}

/// All facts of a board, by what they are about.
type Facts = BTreeMap<Thing, BTreeMap<Which, Value>>;

fn facts_of(meaning: &Meaning) -> Facts {
    meaning.things().map(|(thing, facts)| (thing.clone(), facts.clone())).collect()
}

fn between(old: &Facts, new: &Facts, exchanges: &[Exchange]) -> Vec<ThingChange> {
    let exchanged: BTreeSet<Thing> = exchanges.iter().flat_map(Exchange::things).collect();
    // Whoever goes by the place wires the wrong one.
    let concern = |thing: &Thing, property: Property| match property {
        Property::At | Property::On if exchanged.contains(thing) => Concern::Wiring,
        _ => property.concern(),
    };
    let mut found = Vec::new();
    let all: BTreeMap<&Thing, ()> = old.keys().chain(new.keys()).map(|thing| (thing, ())).collect();
    for thing in all.keys() {
        let nothing = BTreeMap::new();
        let (before, after) = (old.get(thing), new.get(thing));
        let facts = other_facts(before.unwrap_or(&nothing), after.unwrap_or(&nothing));
        let presence = match (before, after) {
            (None, _) => Presence::Added,
            (_, None) => Presence::Removed,
            _ => Presence::Stayed,
        };
        let mut parted: BTreeMap<Concern, Vec<FactChange>> = BTreeMap::new();
        if presence == Presence::Stayed {
            for fact in facts {
                parted.entry(concern(thing, fact.which.property)).or_default().push(fact);
            }
        } else {
            let gravest = facts.iter().map(|fact| fact.which.property.concern()).min();
            parted.insert(gravest.unwrap_or(Concern::Wiring), facts);
        }
        let thing = (*thing).clone();
        found.extend(parted.into_iter().map(|(concern, facts)| ThingChange {
            concern,
            thing: thing.clone(),
            presence,
            facts,
        }));
    }
    found.sort_by(|a, b| (a.concern, &a.thing).cmp(&(b.concern, &b.thing)));
    found
}

/// The facts that are not the same, in their order.
fn other_facts(old: &BTreeMap<Which, Value>, new: &BTreeMap<Which, Value>) -> Vec<FactChange> {
    let all: BTreeMap<&Which, ()> = old.keys().chain(new.keys()).map(|which| (which, ())).collect();
    all.keys()
        .map(|which| (*which, old.get(which), new.get(which)))
        .filter(|(_, before, after)| !same(*before, *after))
        .map(|(which, before, after)| FactChange {
            which: which.clone(),
            before: before.cloned(),
            after: after.cloned(),
        })
        .collect()
}

/// Whether two facts say the same. Of numbers what is printed counts, as in a content mark: nobody
/// could see the rest.
pub fn same(a: Option<&Value>, b: Option<&Value>) -> bool {
    match (a, b) {
        (None, None) => true,
        (Some(a), Some(b)) => {
            let worded =
                |value: &Value| matches!(value, Value::Text(_) | Value::Code(_) | Value::Codes(_));
            a == b || (!worded(a) && !worded(b) && a.to_string() == b.to_string())
        }
        _ => false,
    }
}
