//! What a change sheet draws as it was and as it is: the pins of headers, the switches of banks and rotary
//! selectors.

use std::collections::BTreeSet;

use super::Figure;
use super::compared::ChangeSheet;
use crate::board::{BankId, Board, HeaderId};
use crate::compare::{FactChange, ThingChange};
use crate::decide::{BankSetting, pin_order};
use crate::document::Paper;
use crate::figure;
use crate::meaning::{Kind, Property};
use crate::scene::Scene;
use crate::text::Typesetter;
use crate::words::Words;

/// A thing that is drawn twice: with its names on both boards, where it is there.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Pictured {
    /// [`Kind::Header`], [`Kind::Bank`] or [`Kind::Selector`].
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

/// Everything that a change sheet draws: headers whose pins or key are not the same, banks of which the
/// edge of ON is not, or of some switch the meaning or the position as shipped, and selectors of which a
/// position is not, or where they are shipped.
pub fn pictured(sheet: &ChangeSheet<'_>) -> Vec<Pictured> {
    let sockets: BTreeSet<&str> = touched(sheet, Kind::Socket, |property| {
        matches!(property, Property::Pins | Property::KeyDrawn)
    });
    let headers: BTreeSet<&str> = touched(sheet, Kind::Header, |property| {
        matches!(property, Property::Key | Property::Socket)
    });
    let banks: BTreeSet<&str> = touched(sheet, Kind::Bank, |property| property == Property::OnSide);
    let switches = touched(sheet, Kind::Switches, is_of_switches);
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
    let there = |board: &Board, code: &str| board.selectors.iter().any(|it| it.code == code);
    let selectors = touched(sheet, Kind::Selector, |property| {
        matches!(property, Property::Position | Property::Shipped | Property::Between)
    });
    for code in selectors {
        let [before, after] = names(sheet, Kind::Selector, code, &there);
        all.push(Pictured { kind: Kind::Selector, before, after });
    }
    all.retain(|one| one.before.is_some() || one.after.is_some());
    all
}

/// Whether a fact of switches is one for which their bank is drawn.
fn is_of_switches(property: Property) -> bool {
    matches!(property, Property::Shipped | Property::Setting)
}

/// The switches of a bank that differ, by their numbers from 1.
fn other_switches(sheet: &ChangeSheet<'_>, bank: &str) -> Vec<u8> {
    let all = touched(sheet, Kind::Switches, is_of_switches);
    let of_bank = all.iter().filter_map(|name| name.rsplit_once(' ')).filter(|it| it.0 == bank);
    let numbers = |(_, label): (&str, &str)| {
        let mut ends = label.split('\u{2013}').filter_map(|number| number.parse::<u8>().ok());
        let first = ends.next();
        first.map(|first| first..=ends.next().unwrap_or(first))
    };
    of_bank.filter_map(numbers).flatten().collect()
}

/// The positions of a selector that differ, by their places on a board.
fn other_positions(sheet: &ChangeSheet<'_>, code: &str, board: &Board) -> Vec<usize> {
    let changes = sheet.changes.things.iter();
    let changes = changes.filter(|it| it.thing.kind == Kind::Selector && it.thing.name == code);
    let facts: Vec<&FactChange> = changes.flat_map(|it| &it.facts).collect();
    let differs = |name: &str| {
        facts.iter().any(|fact| match fact.which.property {
            Property::Position => fact.which.of == name,
            Property::Shipped => [&fact.before, &fact.after]
                .into_iter()
                .flatten()
                .any(|value| value.to_string() == name),
            _ => false,
        })
    };
    let selector = board.selectors.iter().find(|it| it.code == code);
    let positions = selector.map(|it| it.positions.as_slice()).unwrap_or_default();
    let all = positions.iter().enumerate().filter(|(_, position)| differs(&position.name));
    all.map(|(place, _)| place).collect()
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
            let drawn = match one.kind {
                Kind::Header => header(board, code, words, set),
                Kind::Selector => {
                    let framed = other_positions(sheet, code, board);
                    let selector = board.selectors.iter().find(|it| it.code == *code);
                    selector.map(|it| figure::selector_layouts(it, &framed, words, set))
                }
                _ => bank(board, (code, other_switches(sheet, code)), words, set, paper),
            };
            let Some(scene) = drawn else { continue };
            all.push(Figure::whole(name, scene));
        }
    }
    all
}

fn header(board: &Board, code: &str, words: &Words, set: &mut Typesetter) -> Option<Scene> {
    let id = board.header_ids().find(|id| board[*id].code == code)?;
    let order = pin_order(&board[board[id].socket], board[id].key);
    Some(figure::drawn_socket(board, id, &order, words, set))
}

/// A bank as it is shipped, with a frame round the switches that differ.
fn bank(
    board: &Board,
    (code, differ): (&str, Vec<u8>),
    words: &Words,
    set: &mut Typesetter,
    paper: Paper,
) -> Option<Scene> {
    let bank = board.banks.iter().position(|bank| bank.code == code).map(BankId)?;
    // Half of a page, as two stand beside each other.
    let width = paper.area().width() / 2.0 - 6.0;
    let mut drawn = |moved: Vec<u8>| {
        let shipped = BankSetting { bank, positions: board[bank].shipped(), moved };
        figure::switch_settings(board, &[shipped], words, set, width)
    };
    // Whoever hears the picture must not hear that these are moved.
    let description = drawn(Vec::new()).description;
    Some(Scene { description, ..drawn(differ) })
}
