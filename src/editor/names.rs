//! Names of a board: where each is given, and where it is used, in the board, its tables and its jobs.

use std::ops::Range;

use super::document::{Document, What};
use crate::spec::language::{Kind, Thing, Words};
use crate::spec::table_cells;

/// A name that a board gives.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Name {
    /// What it is the name of.
    pub thing: Thing,
    /// As it is written.
    pub text: String,
}

/// All names that a board gives, in its order.
#[derive(Clone, Debug, Default)]
pub struct Names {
    all: Vec<Name>,
    /// The numbers of its layouts.
    pub layouts: Vec<String>,
}

/// A place where a name stands.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Occurrence {
    /// Its bytes.
    pub range: Range<usize>,
    /// Whether the name is given there.
    pub gives: bool,
}

impl Names {
    /// The names of things of that kind.
    pub fn of(&self, thing: Thing) -> impl Iterator<Item = &str> {
        self.all.iter().filter(move |name| name.thing == thing).map(|name| name.text.as_str())
    }

    /// Whether there is such a name.
    pub fn has(&self, thing: Thing, text: &str) -> bool {
        self.of(thing).any(|known| known == text)
    }
}

/// The names that a board gives.
pub fn names_of(board: &Document) -> Names {
    let mut names = Names::default();
    for mark in &board.marks {
        match mark.what {
            What::Thing(thing, _) => names.all.push(Name { thing, text: mark.text.clone() }),
            What::Value(Kind::Layout) => names.layouts.push(mark.text.clone()),
            _ => {}
        }
    }
    names
}

/// The name that stands at a byte of a document, if the board gives it.
pub fn name_at(document: &Document, names: &Names, offset: usize) -> Option<(Name, Range<usize>)> {
    let mark = document.at(offset)?;
    let thing = thing_of(&mark.what, &mark.text, names)?;
    Some((Name { thing, text: mark.text.clone() }, mark.range.clone()))
}

/// Where a name stands in a document.
pub fn occurrences(document: &Document, names: &Names, name: &Name) -> Vec<Occurrence> {
    let same = document.marks.iter().filter(|mark| {
        mark.text == name.text && thing_of(&mark.what, &mark.text, names) == Some(name.thing)
    });
    same.map(|mark| Occurrence {
        range: mark.range.clone(),
        gives: matches!(mark.what, What::Thing(..)),
    })
    .collect()
}

/// Where the name of a device stands in a table of layouts: in its first line.
pub fn table_occurrences(table: &str, name: &Name) -> Vec<Occurrence> {
    if name.thing != Thing::Device {
        return Vec::new();
    }
    let heading = table_cells(table).into_iter().next().unwrap_or_default();
    let same = heading.into_iter().skip(1).filter(|cell| cell.value == name.text);
    same.map(|cell| Occurrence { range: cell.span.range(), gives: false }).collect()
}

/// What a text is the name of.
fn thing_of(what: &What, text: &str, names: &Names) -> Option<Thing> {
    match what {
        What::Thing(thing, _) => Some(*thing),
        What::Value(Kind::Name(things)) => {
            things.iter().copied().find(|thing| names.has(*thing, text))
        }
        What::Value(Kind::Word(Words::Device | Words::Fitted)) => {
            names.has(Thing::Device, text).then_some(Thing::Device)
        }
        _ => None,
    }
}
