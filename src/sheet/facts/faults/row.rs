//! The rows of the matrix: what is noticed, and under it checks with what is correct and where that
//! is drawn.

use serde::Serialize;

use crate::board::{BankId, Device, LinkId};
use crate::decide::usual::{Cause, ListPlace, Moments, Share, Work};
use crate::english::capital;
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
    /// From 1 under each sign, in the order for a board just fitted; nothing if it is not looked at then.
    number: Option<usize>,
    /// From 1 in the order for a spa that ran for years; nothing for what is then looked at only if
    /// somebody changed it.
    years: Option<usize>,
    what: String,
    /// One part, or one for each device of which something else is correct.
    correct: Vec<Part>,
    /// Where it is drawn.
    see: Vec<String>,
    /// It is measured on live parts.
    live: bool,
    /// The first of those that are.
    first_live: bool,
    /// It comes from experience, not from the data of the board.
    practice: bool,
    #[serde(skip)]
    key: Key,
    #[serde(skip)]
    ranks: Ranks,
}

/// How a check stands among others of its moment: live ones last, then the likeliest first, of these
/// what is looked at with the cover closed, then the order of the list.
type Rank = (bool, Share, Work, usize);

/// Its rank in each moment; `None` if it is not looked at then.
#[derive(Clone, Copy, PartialEq)]
struct Ranks {
    new: Option<Rank>,
    years: Option<Rank>,
}

impl Ranks {
    /// The better of both in each moment.
    fn with(self, other: Self) -> Self {
        let better = |a: Option<Rank>, b: Option<Rank>| a.into_iter().chain(b).min();
        Self { new: better(self.new, other.new), years: better(self.years, other.years) }
    }
}

/// What is correct.
#[derive(Clone, PartialEq, Serialize)]
struct Part {
    /// Of which devices or fuses; of all that the sign is about if it is not said.
    of: Option<String>,
    words: String,
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
    pub see: Vec<String>,
}

impl CheckRow {
    /// A check that follows from the data of the board.
    pub fn new(key: Key, (moments, work): (Moments, Work), words: CheckWords) -> Self {
        let CheckWords { what, correct, see } = words;
        let live = work == Work::Live;
        let rank = |place: Option<ListPlace>| place.map(|(share, at)| (live, share, work, at));
        let ranks = Ranks { new: rank(moments.new), years: rank(moments.years) };
        Self {
            number: None,
            years: None,
            what,
            correct: vec![Part { of: None, words: correct }],
            see,
            live,
            first_live: false,
            practice: false,
            key,
            ranks,
        }
    }

    /// Whether both look at the same.
    pub fn is_same_check(&self, other: &Self) -> bool {
        self.key == other.key
    }

    /// Whether both say the same, whenever it is looked at.
    fn says_the_same(&self, other: &Self) -> bool {
        let Self { what, correct, see, live, practice, key, .. } = self;
        (what, correct, see, live) == (&other.what, &other.correct, &other.see, &other.live)
            && (practice, key) == (&other.practice, &other.key)
    }

    /// The same also where `other` is looked at.
    pub fn also_when(&mut self, other: &Self) {
        self.ranks = self.ranks.with(other.ranks);
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
        match known.iter_mut().find(|known| known.says_the_same(&check)) {
            Some(known) => known.ranks = known.ranks.with(check.ranks),
            None => known.push(check),
        }
    }
    known.sort_by_key(|check| {
        let Ranks { new, years } = check.ranks;
        (check.live, new.is_none(), new.or(years))
    });
    let mut by_years: Vec<&mut CheckRow> =
        known.iter_mut().filter(|check| check.ranks.years.is_some()).collect();
    by_years.sort_by_key(|check| check.ranks.years);
    for (check, number) in by_years.into_iter().zip(1..) {
        check.years = Some(number);
    }
    for (check, number) in known.iter_mut().filter(|check| check.ranks.new.is_some()).zip(1..) {
        check.number = Some(number);
    }
    let mut live_before = false;
    for check in &mut known {
        check.first_live = check.live && !live_before;
        live_before = check.live;
    }
    known
}

/// The checks of several things, devices or fuses, under one sign as one list. A check that is not for
/// all of them, or is correct in another way for each, says for which: `label` names those, unless the
/// words of such a check name them.
pub fn united<T: Copy + PartialEq>(
    words: &Words,
    of_each: &[(T, Vec<CheckRow>)],
    label: impl Fn(Key, &[T]) -> Option<String>,
) -> Vec<CheckRow> {
    let mut all: Vec<Shared<'_, T>> = Vec::new();
    for (thing, checks) in of_each {
        for check in checks {
            match all.iter_mut().find(|shared| shared.first.key == check.key) {
                Some(shared) => shared.of.push((*thing, check)),
                None => all.push(Shared { first: check, of: vec![(*thing, check)] }),
            }
        }
    }
    all.iter().map(|shared| shared.row(words, of_each.len(), &label)).collect()
}

/// A check that several things share.
struct Shared<'a, T> {
    first: &'a CheckRow,
    of: Vec<(T, &'a CheckRow)>,
}

impl<T: Copy + PartialEq> Shared<'_, T> {
    fn row(
        &self,
        words: &Words,
        count: usize,
        label: impl Fn(Key, &[T]) -> Option<String>,
    ) -> CheckRow {
        // A thing can have two of a kind, as a device two jumpers.
        let mut of_each: Vec<(T, String)> = Vec::new();
        let mut see: Vec<String> = Vec::new();
        let mut told: Vec<(T, &str)> = Vec::new();
        for (thing, row) in &self.of {
            for part in &row.correct {
                // Two causes can be found by one check.
                if told.contains(&(*thing, part.words.as_str())) {
                    continue;
                }
                told.push((*thing, &part.words));
                match of_each.last_mut().filter(|(known, _)| known == thing) {
                    Some((_, listed)) => *listed = words.semicolon(listed, &part.words),
                    None => of_each.push((*thing, part.words.clone())),
                }
            }
            for place in &row.see {
                if !see.contains(place) {
                    see.push(place.clone());
                }
            }
        }
        // A usual cause names what it is in.
        let for_all = of_each.len() == count || matches!(self.first.key, Key::Usual(_));
        let mut corrects: Vec<(String, Vec<T>)> = Vec::new();
        for (thing, correct) in of_each {
            match corrects.iter_mut().find(|(known, _)| *known == correct) {
                Some((_, things)) => things.push(thing),
                None => corrects.push((correct, vec![thing])),
            }
        }
        let one_for_all = for_all && corrects.len() == 1;
        let part = |(words_of, things): (String, Vec<T>)| Part {
            of: label(self.first.key, &things).filter(|_| !one_for_all).map(|of| capital(&of)),
            words: words_of,
        };
        let correct = corrects.into_iter().map(part).collect();
        let ranks = self.of.iter().map(|(_, row)| row.ranks).fold(self.first.ranks, Ranks::with);
        let practice = self.of.iter().all(|(_, row)| row.practice);
        CheckRow { practice, correct, see, ranks, first_live: false, ..self.first.clone() }
    }
}
