//! What the intake form asks for, in the job file's own words.

use serde::Serialize;

use crate::board::voltage::magnitude;
use crate::board::{Board, Conductor, Device, Supply, SupplyId};
use crate::words::Words;

/// What is to be filled in.
#[derive(Serialize)]
pub struct Form {
    /// The board's file as a job beside it names it.
    board_file: String,
    supplies: Vec<Feed>,
    panels: Vec<Panel>,
    devices: Vec<Fitted>,
    /// Whether the matrix asks for a circulation pump.
    asks_for_circulation: bool,
    /// Whether the board has a heater.
    heater: bool,
}

#[derive(Serialize)]
struct Feed {
    /// The word of the job file.
    name: String,
    title: String,
    /// How many wires it brings.
    wires: usize,
    /// `L1, L2, N, PE`.
    conductors: String,
    /// What a meter shows between lines; `None` if there is one only.
    between_lines: Option<String>,
    /// What it shows from a line to the neutral; `None` if there is no neutral.
    to_neutral: Option<String>,
}

#[derive(Serialize)]
struct Panel {
    name: String,
    title: String,
}

/// A row for a device that the board can drive.
#[derive(Serialize)]
struct Fitted {
    /// The word of the job file; `pump` for a jet pump of any number.
    device: String,
    /// What it is, if the word does not say enough.
    words: Option<String>,
    /// Whether some layout has it with two speeds.
    two_speeds: bool,
    /// Whether its plate may give horsepower.
    motor: bool,
}

pub fn form(words: &Words, board: &Board, file: &str) -> Form {
    Form {
        board_file: format!("../{file}"),
        supplies: (0..board.supplies.len())
            .map(|index| feed(words, &board[SupplyId(index)]))
            .collect(),
        panels: board
            .panels
            .iter()
            .map(|panel| Panel { name: panel.name.clone(), title: panel.title.clone() })
            .collect(),
        devices: devices(board).into_iter().map(|device| fitted(words, board, device)).collect(),
        asks_for_circulation: board.columns.contains(&Device::Circulation),
        heater: board.headers.iter().any(|h| h.serves.iter().any(|(_, d)| *d == Device::Heater)),
    }
}

fn feed(words: &Words, supply: &Supply) -> Feed {
    let conductors = supply.conductors();
    let lines: Vec<Conductor> = conductors.iter().copied().filter(|c| c.is_line()).collect();
    let volts = |a: Conductor, b: Conductor| {
        let (a, b) = (supply.system.phasor(a)?, supply.system.phasor(b)?);
        Some(words.whole_volts(magnitude(a - b)))
    };
    Feed {
        name: supply.name.clone(),
        title: supply.title.clone(),
        wires: conductors.len(),
        conductors: words.commas(&conductors.iter().map(Conductor::to_string).collect::<Vec<_>>()),
        between_lines: match lines.as_slice() {
            [first, second, ..] => volts(*first, *second),
            _ => None,
        },
        to_neutral: match lines.first() {
            Some(line) if supply.has_neutral() => volts(*line, Conductor::N),
            _ => None,
        },
    }
}

/// Every device that some header serves but the heater, each once, in the order of the matrix and
/// then of the headers.
fn devices(board: &Board) -> Vec<Device> {
    let served = board.headers.iter().flat_map(|h| h.serves.iter().map(|(_, device)| *device));
    let mut all: Vec<Device> = Vec::new();
    for device in board.columns.iter().copied().chain(served) {
        if device != Device::Heater && !all.contains(&device) {
            all.push(device);
        }
    }
    all
}

fn fitted(words: &Words, board: &Board, device: Device) -> Fitted {
    let is_two = |layout: &crate::board::Layout| {
        layout.speeds_of(&board.columns, device).is_some_and(|speeds| speeds.number() == 2)
    };
    // A pump's number is found by the compiler, so two speeds of one are open to all.
    let two_speeds = matches!(device, Device::Pump(_)) || board.layouts.iter().any(is_two);
    Fitted {
        device: match device {
            Device::Pump(_) => "pump".to_owned(),
            device => device.to_string(),
        },
        words: match device {
            Device::Pump(_) => Some(words.form_pump()),
            Device::Circulation => Some(words.form_circulation()),
            _ => None,
        },
        two_speeds,
        motor: device.is_motor(),
    }
}
