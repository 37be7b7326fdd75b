//! Things that stand where another of their kind stood: whoever goes by the place takes the one for the
//! other, so such a move is no mere drawing.

use super::renames::Renames;
use crate::board::{Board, PartId};
use crate::decide::mistakes::Danger;
use crate::geometry::Point;
use crate::meaning::{Kind, Thing};

/// A thing that now stands where another of its kind was, by the names of the new board.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Exchange {
    /// [`Kind::Terminal`], [`Kind::Link`], [`Kind::Jumper`], [`Kind::Fuse`], [`Kind::Header`] or
    /// [`Kind::Bank`].
    pub kind: Kind,
    /// What stands there.
    pub now: String,
    /// What stood there.
    pub was: String,
}

impl Exchange {
    /// How bad it is to take the one for the other: at a terminal the wrong wire makes metal live.
    pub fn danger_of(kind: Kind) -> Danger {
        if kind == Kind::Terminal { Danger::Deadly } else { Danger::Fire }
    }

    /// Both things.
    pub fn things(&self) -> [Thing; 2] {
        [&self.now, &self.was].map(|name| Thing { kind: self.kind, name: name.clone() })
    }
}

/// Where a thing is.
struct Spot {
    kind: Kind,
    /// Its name on the new board.
    code: String,
    /// The circuit board that it is on, likewise.
    part: String,
    at: Point,
    /// The connector type of a header, likewise: a plug goes into no other.
    family: Option<String>,
}

/// The things of a new board that stand where others stood. Such is one that is nearer to the old place
/// of another than that one is now, and than it is to its own old place, if it had one. Headers count
/// only with those of their connector type.
pub fn exchanges(old: &Board, new: &Board, renames: &Renames) -> Vec<Exchange> {
    let (before, after) = (spots(old, renames), spots(new, &Renames::default()));
    let same = |a: &Spot, b: &Spot| (a.kind, &a.code) == (b.kind, &b.code);
    let on = |all: &[Spot], spot: &Spot| all.iter().position(|other| same(other, spot));
    let mut found = Vec::new();
    for was in &before {
        let Some(stays) = on(&after, was).and_then(|at| after.get(at)) else { continue };
        let takes_its_place = |now: &&Spot| {
            let alike = (now.kind, &now.part, &now.family) == (was.kind, &was.part, &was.family);
            let own = on(&before, now).and_then(|at| before.get(at));
            alike
                && !same(now, was)
                && nearer(now, was, stays)
                && own.is_none_or(|own| away(now, was) < away(now, own))
        };
        let nearest = after.iter().filter(takes_its_place);
        let nearest = nearest.min_by(|a, b| away(a, was).total_cmp(&away(b, was)));
        found.extend(nearest.map(|now| Exchange {
            kind: was.kind,
            now: now.code.clone(),
            was: was.code.clone(),
        }));
    }
    found.sort();
    found
}

/// Whether `now` is nearer to the old place of a thing than the thing itself.
fn nearer(now: &Spot, was: &Spot, stays: &Spot) -> bool {
    away(now, was) < away(stays, was)
}

/// From one to the other, the square of it, mm²; without end between two circuit boards.
fn away(a: &Spot, b: &Spot) -> f64 {
    match a.part == b.part {
        true => (a.at.x - b.at.x).powi(2) + (a.at.y - b.at.y).powi(2),
        false => f64::INFINITY,
    }
}

fn spots(board: &Board, renames: &Renames) -> Vec<Spot> {
    let spot = |kind: Kind, code: &str, part: PartId, at: Point| Spot {
        kind,
        code: renames.new_name(kind, code).to_owned(),
        part: renames.new_name(Kind::Part, &board[part].name).to_owned(),
        at,
        family: None,
    };
    let mut all = Vec::new();
    all.extend(board.terminals.iter().map(|it| spot(Kind::Terminal, &it.code, it.part, it.at)));
    all.extend(board.links.iter().map(|it| spot(Kind::Link, &it.code, it.part, it.at)));
    all.extend(board.jumpers.iter().map(|it| spot(Kind::Jumper, &it.code, it.part, it.at)));
    all.extend(board.fuses.iter().map(|it| spot(Kind::Fuse, &it.code, it.part, it.at)));
    all.extend(board.banks.iter().map(|it| spot(Kind::Bank, &it.code, it.part, it.at)));
    all.extend(board.headers.iter().map(|it| Spot {
        family: Some(renames.new_name(Kind::Socket, &board[it.socket].name).to_owned()),
        ..spot(Kind::Header, &it.code, it.part, it.at)
    }));
    all
}
