//! What a change sheet draws as it was and as it is: the pins of headers and the switches of banks.

use std::collections::BTreeSet;

use super::Figure;
use super::compared::ChangeSheet;
use crate::board::{BankId, Board, HeaderId};
use crate::compare::ThingChange;
use crate::decide::{BankSetting, pin_order};
use crate::document::Paper;
use crate::figure;
use crate::meaning::{Kind, Property};
use crate::text::Typesetter;
use crate::words::Words;

/// A thing that is drawn twice: with its names on both boards, where it is there.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Pictured {
    /// [`Kind::Header`] or [`Kind::Bank`].
    pub kind: Kind,
    /// What it is called on the old board.
    pub before: Option<String>,
    /// The same on the new one.
    pub after: Option<String>,
}

impl Pictured {
    /// The names of its figures.
    pub fn figures(&self) -> [Option<String>; 2] {
        let name = |side: &str, code: &Option<String>| {
            code.as_ref().map(|code| format!("{side}-{}-{code}", self.kind.word()))
        };
        [name("old", &self.before), name("new", &self.after)]
    }
}

/// Everything that a change sheet draws: headers whose pins or key are not the same, and banks whose
/// shipped switches or edge of ON are not.
pub fn pictured(sheet: &ChangeSheet<'_>) -> Vec<Pictured> {
    let sockets: BTreeSet<&str> = touched(sheet, Kind::Socket, |property| {
        matches!(property, Property::Pins | Property::KeyDrawn)
    });
    let headers: BTreeSet<&str> = touched(sheet, Kind::Header, |property| {
        matches!(property, Property::Key | Property::Socket)
    });
    let banks: BTreeSet<&str> = touched(sheet, Kind::Bank, |property| property == Property::OnSide);
    let switches = touched(sheet, Kind::Switches, |property| property == Property::Shipped);
    // `S1 1-2` names switches of the bank S1.
    let of_switches = switches.iter().filter_map(|name| name.rsplit_once(' '));
    let banks: BTreeSet<&str> =
        banks.into_iter().chain(of_switches.map(|(bank, _)| bank)).collect();
    let has_socket = |board: &Board, id: HeaderId| sockets.contains(&*board[board[id].socket].name);
    let mut all = Vec::new();
    let there = |board: &Board, code: &str| board.headers.iter().any(|it| it.code == code);
    let by_socket = sheet.new.header_ids().filter(|id| has_socket(sheet.new, *id));
    let by_socket = by_socket.map(|id| sheet.new[id].code.as_str());
    for code in headers.into_iter().chain(by_socket).collect::<BTreeSet<_>>() {
        let [before, after] = names(sheet, Kind::Header, code, &there);
        all.push(Pictured { kind: Kind::Header, before, after });
    }
    let there = |board: &Board, code: &str| board.banks.iter().any(|it| it.code == code);
    for code in banks {
        let [before, after] = names(sheet, Kind::Bank, code, &there);
        all.push(Pictured { kind: Kind::Bank, before, after });
    }
    all.retain(|one| one.before.is_some() || one.after.is_some());
    all
}

/// The new names of the things of a kind of which such a fact is another.
fn touched<'a>(
    sheet: &ChangeSheet<'a>,
    kind: Kind,
    matters: impl Fn(Property) -> bool,
) -> BTreeSet<&'a str> {
    let has = |change: &&ThingChange| {
        change.thing.kind == kind && change.facts.iter().any(|it| matters(it.which.property))
    };
    let all = sheet.changes.things.iter().filter(has);
    all.map(|change| change.thing.name.as_str()).collect()
}

/// What a thing is called on both boards, by its new name.
fn names(
    sheet: &ChangeSheet<'_>,
    kind: Kind,
    code: &str,
    there: &dyn Fn(&Board, &str) -> bool,
) -> [Option<String>; 2] {
    let renames = &sheet.changes.renames;
    let renamed = renames.iter().find(|rename| rename.kind == kind && rename.to == code);
    let old = renamed.map_or(code, |rename| &rename.from);
    let known = |board: &Board, code: &str| there(board, code).then(|| code.to_owned());
    [known(sheet.old, old), known(sheet.new, code)]
}

/// The drawings of what [`pictured`] found.
pub fn pictures(
    sheet: &ChangeSheet<'_>,
    words: &Words,
    set: &mut Typesetter,
    paper: Paper,
) -> Vec<Figure> {
    let mut all = Vec::new();
    for one in pictured(sheet) {
        let codes = [&one.before, &one.after];
        for ((board, code), name) in
            [sheet.old, sheet.new].into_iter().zip(codes).zip(one.figures())
        {
            let (Some(code), Some(name)) = (code, name) else { continue };
            let scene = match one.kind {
                Kind::Header => {
                    let mut headers = board.header_ids();
                    let Some(id) = headers.find(|id| board[*id].code == *code) else { continue };
                    let order = pin_order(&board[board[id].socket], board[id].key);
                    figure::drawn_socket(board, id, &order, words, set)
                }
                _ => {
                    let place = board.banks.iter().position(|bank| bank.code == *code);
                    let Some(id) = place.map(BankId) else { continue };
                    let (bank, moved) = (id, Vec::new());
                    let shipped = BankSetting { bank, positions: board[id].shipped(), moved };
                    // Half of a page, as two stand beside each other.
                    let width = paper.area().width() / 2.0 - 6.0;
                    figure::switch_settings(board, &[shipped], words, set, width)
                }
            };
            all.push(Figure::whole(name, scene));
        }
    }
    all
}
