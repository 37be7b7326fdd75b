//! How the layout number is entered, for a template.

use serde::Serialize;

use crate::board::{Board, Field, LayoutEntry, LayoutNumber, Meaning};
use crate::words::Words;

/// How the layout number is entered on a board.
#[derive(Serialize)]
pub struct Entry {
    /// `panel`, `switches` or `selector`; `unknown` if the specification says nothing.
    manner: &'static str,
    /// The label of the switch bank or of the selector.
    code: String,
    /// `1–2`: the switches.
    ways: String,
    /// Settings or positions that set no layout.
    unset: Vec<String>,
}

/// How the layout number is entered on a board.
pub fn entry(words: &Words, board: &Board) -> Entry {
    let (manner, code, ways) = match board.layout_entry() {
        LayoutEntry::Ways { bank, field } => {
            let ways = board[bank].fields.get(field).map_or_else(String::new, Field::label);
            ("switches", board[bank].code.clone(), ways)
        }
        LayoutEntry::Selector(id) => ("selector", board[id].code.clone(), String::new()),
        LayoutEntry::Panel => {
            let told = board.panels.iter().any(|panel| panel.choose_layout.is_some());
            (if told { "panel" } else { "unknown" }, String::new(), String::new())
        }
    };
    let unset = match board.layout_entry() {
        LayoutEntry::Ways { bank, field } => {
            let field = board[bank].fields.get(field);
            let all = field.into_iter().flat_map(|field| {
                let none = field.settings.iter().filter(|s| s.meaning == Meaning::Layout(None));
                none.map(|setting| words.way_positions(field, &setting.positions))
            });
            all.collect()
        }
        LayoutEntry::Selector(id) => {
            let none = board[id].positions.iter().filter(|position| position.layout.is_none());
            none.map(|position| position.name.clone()).collect()
        }
        LayoutEntry::Panel => Vec::new(),
    };
    Entry { manner, code, ways, unset }
}

/// How a layout is set: `1 off, 2 on`, or `A`; `None` where it is entered on a panel.
pub fn setting(words: &Words, board: &Board, layout: LayoutNumber) -> Option<String> {
    match board.layout_entry() {
        LayoutEntry::Panel => None,
        LayoutEntry::Ways { bank, field } => {
            let field = board[bank].fields.get(field)?;
            let sets = |meaning: &Meaning| *meaning == Meaning::Layout(Some(layout));
            let setting = field.settings.iter().find(|setting| sets(&setting.meaning))?;
            Some(words.way_positions(field, &setting.positions))
        }
        LayoutEntry::Selector(id) => {
            let at = board[id].position_of(layout)?;
            Some(board[id].positions.get(at)?.name.clone())
        }
    }
}

/// A selector as a job turns it.
#[derive(Serialize)]
pub struct Turned {
    code: String,
    position: String,
    shipped: String,
    moved: bool,
}

/// The selector as a job turns it; `None` if the board has none.
pub fn turned(board: &Board, wiring: &crate::decide::Wiring) -> Option<Turned> {
    let setting = wiring.selector?;
    let selector = &board[setting.selector];
    let name = |at: usize| selector.positions.get(at).map(|position| position.name.clone());
    Some(Turned {
        code: selector.code.clone(),
        position: name(setting.position)?,
        shipped: name(selector.shipped)?,
        moved: setting.moved,
    })
}
