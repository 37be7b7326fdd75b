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

/// The kinds of things that a person names, those first that others are told by.
const NAMED: [Kind; 8] = [
    Kind::Part,
    Kind::Terminal,
    Kind::Link,
    Kind::Group,
    Kind::Jumper,
    Kind::Fuse,
    Kind::Socket,
    Kind::Header,
];

impl Renames {
    /// The things of `old` that are in `new` under another name: a header whose place, connector type
    /// and devices agree, anything else that a person names of which all facts agree. Where two could be
    /// meant, none is.
    pub fn between(old: &Meaning, new: &Meaning) -> Self {
        let mut all = Self::default();
        let new = super::facts_of(new);
        for kind in NAMED {
            // What it is told by is in the names of the new board already.
            let known = all.applied_to(old);
            let (gone, came) = (only_in(&known, &new, kind), only_in(&new, &known, kind));
            for (from, marks) in &gone {
                let alike = |them: &Names| -> Vec<String> {
                    let alike = them.iter().filter(|(_, theirs)| theirs == marks);
                    alike.map(|(name, _)| name.clone()).collect()
                };
                if let ([_], [to]) = (&alike(&gone)[..], &alike(&came)[..]) {
                    all.0.push(Rename { kind, from: from.clone(), to: to.clone() });
                }
            }
        }
        all.0.sort();
        all
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
        let kind_of_fact = match (of, which.property) {
            (Kind::Supply, P::Lands) => Some(Kind::Terminal),
            (Kind::Supply, P::Links) => Some(Kind::Link),
            _ => None,
        };
        if let Some(kind) = kind_of_fact {
            which.of = self.new_name(kind, &which.of).to_owned();
        }
        // A name is that of the first kind of which there is such a thing.
        let new = |name: &String| {
            let mut kinds = named_kinds(of, which.property).iter();
            let is = |kind: &&Kind| old.of(&Thing { kind: **kind, name: name.clone() }).is_some();
            kinds.find(is).map_or(name.as_str(), |kind| self.new_name(*kind, name)).to_owned()
        };
        let value = match value {
            Value::Code(code) => Value::Code(new(code)),
            Value::Codes(codes) => {
                let mut codes: Vec<String> = codes.iter().map(new).collect();
                // Of a group the order counts: where *common* is. So it does where nothing is named.
                if of != Kind::Group && !named_kinds(of, which.property).is_empty() {
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
fn only_in(these: &Facts, those: &Facts, kind: Kind) -> Names {
    let only = |thing: &Thing| thing.kind == kind && !those.contains_key(thing);
    let told_by = |which: &Which| {
        kind != Kind::Header || matches!(which.property, P::On | P::At | P::Socket | P::Serves)
    };
    these
        .iter()
        .filter(|(thing, _)| only(thing))
        .map(|(thing, facts)| {
            let marks = facts.iter().filter(|(which, _)| told_by(which));
            let marks = marks.map(|(which, value)| (which.clone(), value.clone())).collect();
            (thing.name.clone(), marks)
        })
        .collect()
}

/// The kinds of the things that a fact may name.
fn named_kinds(of: Kind, property: P) -> &'static [Kind] {
    match (of, property) {
        (_, P::On) => &[Kind::Part],
        (Kind::Group | Kind::Electronics, P::Between) => &[Kind::Terminal, Kind::Link],
        (Kind::Link, P::Between | P::Shipped) | (Kind::Supply, P::Links) => &[Kind::Terminal],
        (Kind::Jumper, P::Groups | P::Shipped) => &[Kind::Group],
        (Kind::Header, P::Fuse) => &[Kind::Fuse],
        (Kind::Header, P::Socket) => &[Kind::Socket],
        (Kind::Header, P::Feed) => &[Kind::Jumper, Kind::Group],
        _ => &[],
    }
}
