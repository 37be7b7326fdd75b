//! The rows of the matrix: what is noticed, and under it checks with what is correct and where that
//! is drawn.

use minijinja::Value;
use serde::Serialize;

use super::names;
use crate::board::{BankId, Device, LinkId};
use crate::decide::usual::{Cause, Share, Work};
use crate::words::Words;

/// What is noticed, and what to check.
#[derive(Clone, Serialize)]
pub struct SignRow {
    pub noticed: String,
    pub checks: Vec<CheckRow>,
}

/// A check: one line of the matrix.
#[derive(Clone, PartialEq, Serialize)]
pub struct CheckRow {
    /// From 1 under each sign.
    number: usize,
    what: String,
    correct: String,
    /// Where it is drawn.
    see: Vec<Value>,
    /// It is measured on live parts.
    live: bool,
    /// The first of those that are.
    first_live: bool,
    /// It comes from experience, not from the data of the board.
    practice: bool,
    #[serde(skip)]
    key: Key,
    #[serde(skip)]
    rank: (bool, Share, Work),
}

/// What a check is of, apart from the device: checks of the same kind can share a line.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Key {
    Layout,
    Jumper,
    /// The plug of the device itself, or that of another.
    Plug(Option<Device>),
    Cord(Option<Device>),
    Bank(BankId),
    Link(LinkId),
    Landing,
    Voltage,
    Fuse,
    Usual(Cause),
}

/// The words of a check.
pub struct CheckWords {
    pub what: String,
    pub correct: String,
    pub see: Vec<Value>,
}

impl CheckRow {
    /// A check that follows from the data of the board.
    pub fn new(key: Key, (share, work): (Share, Work), words: CheckWords) -> Self {
        let CheckWords { what, correct, see } = words;
        let live = work == Work::Live;
        Self {
            number: 0,
            what,
            correct,
            see,
            live,
            first_live: false,
            practice: false,
            key,
            rank: (live, share, work),
        }
    }

    /// The same as common practice.
    pub fn of_practice(self) -> Self {
        Self { practice: true, ..self }
    }
}

/// The checks under a sign in their order, numbered: the likeliest first, of these what is seen with
/// the cover closed; what is measured on live parts comes last, because everything else can be looked
/// at before it.
pub fn in_order(mut checks: Vec<CheckRow>) -> Vec<CheckRow> {
    let mut known: Vec<CheckRow> = Vec::with_capacity(checks.len());
    for check in checks.drain(..) {
        if !known.contains(&check) {
            known.push(check);
        }
    }
    known.sort_by_key(|check| check.rank);
    let mut live_before = false;
    for (index, check) in known.iter_mut().enumerate() {
        check.number = index + 1;
        check.first_live = check.live && !live_before;
        live_before = check.live;
    }
    known
}

/// The checks of several devices under one sign as one list, each with what is correct for each
/// device; `None` if they are not of the same kinds.
pub fn joined(words: &Words, all: &[(Vec<Device>, Vec<CheckRow>)]) -> Option<Vec<CheckRow>> {
    let (_, first) = all.first()?;
    let keys = |checks: &[CheckRow]| {
        let mut keys: Vec<(Key, bool)> = checks.iter().map(|c| (c.key, c.practice)).collect();
        keys.sort();
        keys
    };
    let same = |(_, checks): &(Vec<Device>, Vec<CheckRow>)| keys(checks) == keys(first);
    if !all.iter().all(same) {
        return None;
    }
    let line = |(index, check): (usize, &CheckRow)| {
        // Of several of one kind, as two jumpers, the first belongs to the first.
        let before = first.iter().take(index).filter(|other| other.key == check.key).count();
        let of_each: Vec<(&[Device], &CheckRow)> = all
            .iter()
            .filter_map(|(devices, checks)| {
                let alike = checks.iter().filter(|other| other.key == check.key);
                Some((devices.as_slice(), alike.into_iter().nth(before)?))
            })
            .collect();
        one_line(words, check, &of_each)
    };
    Some(first.iter().enumerate().map(line).collect())
}

/// One check of several devices.
fn one_line(words: &Words, check: &CheckRow, of_each: &[(&[Device], &CheckRow)]) -> CheckRow {
    let mut corrects: Vec<(&str, Vec<Device>)> = Vec::new();
    let mut see: Vec<Value> = Vec::new();
    for (devices, row) in of_each {
        match corrects.iter_mut().find(|(known, _)| *known == row.correct) {
            Some((_, known)) => known.extend_from_slice(devices),
            None => corrects.push((&row.correct, devices.to_vec())),
        }
        for place in &row.see {
            if !see.contains(place) {
                see.push(place.clone());
            }
        }
    }
    let correct = match corrects.as_slice() {
        [(only, _)] => (*only).to_owned(),
        several => several
            .iter()
            .map(|(correct, devices)| words.correct_for(&names(words, devices), correct))
            .reduce(|listed, next| words.semicolon(&listed, &next))
            .unwrap_or_default(),
    };
    CheckRow { correct, see, ..check.clone() }
}
