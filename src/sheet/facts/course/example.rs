//! The worked example for a template.

use serde::Serialize;

use super::layout::{Cell, fitted_words, row};
use super::{code, pins, switches};
use crate::board::{Board, Feed, JumperId};
use crate::sheet::course::example;
use crate::words::Words;

#[derive(Serialize)]
pub struct Example {
    supply: String,
    layout: String,
    fitted: Vec<String>,
    /// What is fitted and has no column in the matrix: `the ozonator`.
    others: Vec<String>,
    row: Vec<Cell>,
    devices: Vec<Plugged>,
    empty: Vec<String>,
    jumpers: Vec<Jumper>,
    switches: Option<switches::SetSwitches>,
    pins: Option<pins::DrawPins>,
}

#[derive(Serialize)]
struct Plugged {
    device: String,
    header: String,
    title: String,
    volts: String,
    group: String,
    /// `None` if its group is fixed.
    jumper: Option<String>,
}

#[derive(Serialize)]
struct Jumper {
    code: String,
    group: String,
    shipped: String,
    moved: bool,
    /// What hangs on it.
    devices: Vec<String>,
    volts: Option<String>,
}

pub fn example(words: &Words, board: &Board, example: &example::Example) -> Example {
    let layout = board.layout(example.layout);
    Example {
        supply: board[example.supply].title.clone(),
        layout: example.layout.to_string(),
        fitted: example.fitted.iter().map(|wanted| fitted_words(words, wanted)).collect(),
        others: example
            .devices
            .iter()
            .filter(|plugged| !board.columns.contains(&plugged.device))
            .map(|plugged| words.the_device(plugged.device))
            .collect(),
        row: layout.map(|layout| row(words, board, layout)).unwrap_or_default(),
        devices: example
            .devices
            .iter()
            .map(|plugged| Plugged {
                device: words.device_noun(plugged.device),
                header: code(board, plugged.header),
                title: board[plugged.header].title.clone(),
                volts: words.whole_volts(plugged.volts),
                group: board[plugged.group].code.clone(),
                jumper: match board[plugged.header].feed {
                    Feed::Jumper(jumper) => Some(board[jumper].code.clone()),
                    Feed::Group(_) => None,
                },
            })
            .collect(),
        empty: example.empty.iter().map(|header| code(board, *header)).collect(),
        jumpers: (0..board.jumpers.len())
            .map(JumperId)
            .map(|id| jumper(words, board, example, id))
            .collect(),
        switches: example.switches.as_ref().map(|task| switches::set(words, board, 0, task)),
        pins: example.pins.as_ref().map(|task| pins::draw(words, board, 0, task)),
    }
}

/// Where a jumper goes: to the group of what hangs on it, or where it is shipped.
fn jumper(words: &Words, board: &Board, example: &example::Example, id: JumperId) -> Jumper {
    let on = example.devices.iter().filter(|d| board[d.header].feed == Feed::Jumper(id));
    let on: Vec<_> = on.collect();
    let shipped = board[id].shipped;
    let group = on.first().map_or(shipped, |plugged| plugged.group);
    Jumper {
        code: board[id].code.clone(),
        group: board[group].code.clone(),
        shipped: board[shipped].code.clone(),
        moved: group != shipped,
        devices: on.iter().map(|d| words.device_noun(d.device)).collect(),
        volts: on.first().map(|plugged| words.whole_volts(plugged.volts)),
    }
}
