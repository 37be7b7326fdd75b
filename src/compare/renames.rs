//! Things that are the same under another name.

use std::collections::BTreeMap;

use super::Facts;
use crate::meaning::{Kind, Meaning, Property as P, Thing, Value, Which};

/// A thing that has another name.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Rename {
    /// What it is.
    pub kind: Kind,
    /// Its name in the old board.
    pub from: String,
    /// Its name in the new one.
    pub to: String,
}

/// All things that have another name.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Renames(Vec<Rename>);

impl Renames {
    /// The things of `old` that are in `new` under another name: a header whose place, connector type
    /// and devices agree, a jumper, fuse or terminal of which all facts agree. Where two could be
    /// meant, none is.
    pub fn between(old: &Meaning, new: &Meaning) -> Self {
        let mut all = Vec::new();
        for kind in [Kind::Terminal, Kind::Jumper, Kind::Fuse, Kind::Header] {
            let (gone, came) = (only_in(old, new, kind), only_in(new, old, kind));
            for (from, marks) in &gone {
                let alike = |them: &Names| -> Vec<String> {
                    let alike = them.iter().filter(|(_, theirs)| theirs == marks);
                    alike.map(|(name, _)| name.clone()).collect()
                };
                if let ([_], [to]) = (&alike(&gone)[..], &alike(&came)[..]) {
                    all.push(Rename { kind, from: from.clone(), to: to.clone() });
                }
            }
        }
        all.sort();
        Self(all)
    }

    /// All of them.
    pub fn iter(&self) -> impl Iterator<Item = &Rename> {
        self.0.iter()
    }

    /// Whether nothing has another name.
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// The name that a thing of the old board has in the new one.
    pub fn new_name<'a>(&'a self, kind: Kind, old: &'a str) -> &'a str {
        let renamed = self.0.iter().find(|rename| rename.kind == kind && rename.from == old);
        renamed.map_or(old, |rename| &rename.to)
    }

    /// The facts of the old board in the names of the new one.
    pub(super) fn applied_to(&self, old: &Meaning) -> Facts {
        let one = |(thing, facts): (&Thing, &BTreeMap<Which, Value>)| {
            let name = self.new_name(thing.kind, &thing.name).to_owned();
            let facts = facts.iter().map(|(which, value)| self.fact(old, thing.kind, which, value));
            (Thing { kind: thing.kind, name }, facts.collect())
        };
        old.things().map(one).collect()
    }

    /// A fact in the names of the new board.
    fn fact(&self, old: &Meaning, of: Kind, which: &Which, value: &Value) -> (Which, Value) {
        let mut which = which.clone();
        if (of, which.property) == (Kind::Supply, P::Lands) {
            which.of = self.new_name(Kind::Terminal, &which.of).to_owned();
        }
        let Some(kind) = named_kind(old, of, which.property, value) else {
            return (which, value.clone());
        };
        let value = match value {
            Value::Code(code) => Value::Code(self.new_name(kind, code).to_owned()),
            Value::Codes(codes) => {
                let mut codes: Vec<String> =
                    codes.iter().map(|code| self.new_name(kind, code).to_owned()).collect();
                // Of a group the order counts: where *common* is.
                if of != Kind::Group {
                    codes.sort();
                }
                Value::Codes(codes)
            }
            other => other.clone(),
        };
        (which, value)
    }
}

/// What a thing is told by, under its name.
type Names = Vec<(String, BTreeMap<Which, Value>)>;

/// The things of a kind that only `these` has, with what each is told by.
fn only_in(these: &Meaning, those: &Meaning, kind: Kind) -> Names {
    let only = |thing: &Thing| thing.kind == kind && those.of(thing).is_none();
    let told_by = |which: &Which| {
        kind != Kind::Header || matches!(which.property, P::On | P::At | P::Socket | P::Serves)
    };
    these
        .things()
        .filter(|(thing, _)| only(thing))
        .map(|(thing, facts)| {
            let marks = facts.iter().filter(|(which, _)| told_by(which));
            let marks = marks.map(|(which, value)| (which.clone(), value.clone())).collect();
            (thing.name.clone(), marks)
        })
        .collect()
}

/// The kind of the things that a fact names; `None` if it names none that can have another name.
fn named_kind(old: &Meaning, of: Kind, property: P, value: &Value) -> Option<Kind> {
    match (of, property) {
        (Kind::Group | Kind::Link | Kind::Electronics, P::Between) => Some(Kind::Terminal),
        (Kind::Link, P::Shipped) | (Kind::Supply, P::Links) => Some(Kind::Terminal),
        (Kind::Header, P::Fuse) => Some(Kind::Fuse),
        (Kind::Header, P::Feed) => {
            let name = value.to_string();
            old.of(&Thing { kind: Kind::Jumper, name }).map(|_| Kind::Jumper)
        }
        _ => None,
    }
}
