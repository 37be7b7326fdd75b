//! Finding a layout, and finding a header under it.

use serde::Serialize;

use super::{PlaceOf, code, device_words, layout_words, speeds_words};
use crate::board::{Board, Device, Layout, Role, Speeds};
use crate::decide::Wanted;
use crate::decide::exercises::{self, EmptyWhy, HeaderSlip, LayoutSlip};

/// What is fitted, and which layout that is.
#[derive(Clone, Serialize)]
pub struct FindLayout {
    /// `a jet pump with two speeds`.
    fitted: Vec<String>,
    answer: String,
    /// What each of `fitted` is in that layout: `pump 1`.
    places: Vec<String>,
    /// The row as it reads: `circulation 1, pump 1 2`.
    row: Vec<Cell>,
    line: String,
    traps: Vec<LayoutTrap>,
}

/// One entry of a row.
#[derive(Clone, Serialize)]
pub struct Cell {
    column: String,
    entry: &'static str,
}

#[derive(Clone, Serialize)]
struct LayoutTrap {
    answer: String,
    slip: &'static str,
    /// What it is about, with its article.
    what: Option<String>,
    /// `one speed` …
    speeds: Option<&'static str>,
}

pub fn find(board: &Board, task: &exercises::FindLayout, place: PlaceOf<'_>) -> FindLayout {
    let named = |index: usize| {
        let device = task.places.get(index).copied();
        device.map_or_else(String::new, Device::the)
    };
    FindLayout {
        fitted: task.fitted.iter().map(fitted_words).collect(),
        answer: task.answer.to_string(),
        places: task.places.iter().map(|device| device_words(*device)).collect(),
        row: board.layout(task.answer).map(|layout| row(board, layout)).unwrap_or_default(),
        line: place(task.row),
        traps: task
            .traps
            .iter()
            .map(|trap| {
                let (slip, what, speeds) = match trap.mistake {
                    LayoutSlip::CirculationForgotten => ("forgotten", None, None),
                    LayoutSlip::TakenForCirculation { fitted } => {
                        ("taken for circulation", Some(named(fitted)), None)
                    }
                    LayoutSlip::CirculationTakenForPump => ("taken for pump", None, None),
                    LayoutSlip::OtherSpeeds { fitted, taken } => {
                        ("speeds", Some(named(fitted)), Some(speeds_words(taken)))
                    }
                    LayoutSlip::LeftOut { fitted } => ("left out", Some(named(fitted)), None),
                    LayoutSlip::Added { device, speeds } => {
                        ("added", Some(device.the()), Some(speeds_words(speeds)))
                    }
                };
                LayoutTrap { answer: trap.answer.to_string(), slip, what, speeds }
            })
            .collect(),
    }
}

/// The entries of a layout that are not empty.
pub fn row(board: &Board, layout: &Layout) -> Vec<Cell> {
    let cells = board.columns.iter().zip(&layout.speeds);
    cells
        .map(|(device, speeds)| Cell {
            column: device.to_string(),
            entry: match speeds {
                Speeds::None => "\u{2013}",
                Speeds::One => "1",
                Speeds::Two => "2",
            },
        })
        .collect()
}

/// `a jet pump with two speeds`, `a circulation pump`.
pub fn fitted_words(wanted: &Wanted) -> String {
    let speeds = speeds_words(wanted.speeds);
    match wanted.role {
        Role::AnyPump => format!("a jet pump with {speeds}"),
        Role::Named(Device::Pump(number)) => format!("jet pump {number} with {speeds}"),
        Role::Named(Device::Circulation) => "a circulation pump".to_owned(),
        Role::Named(Device::Blower) => format!("a blower with {speeds}"),
        Role::Named(Device::Ozonator) => "an ozonator".to_owned(),
        Role::Named(Device::Sound) => "a sound system".to_owned(),
        Role::Named(device) => format!("a {device}"),
    }
}

/// Which header takes a device.
#[derive(Clone, Serialize)]
pub struct WhichHeader {
    layout: String,
    device: String,
    /// `None` if the matrix has no column for the device.
    speeds: Option<&'static str>,
    /// All headers of the board, to be ticked.
    headers: Vec<String>,
    answer: String,
    title: String,
    /// `None` for all.
    layouts: Option<String>,
    line: String,
    row: String,
    empty: Vec<Empty>,
    traps: Vec<HeaderTrap>,
}

#[derive(Clone, Serialize)]
struct Empty {
    code: String,
    /// The device that it would serve, which the layout has not; `None` if it serves nothing there.
    not_fitted: Option<String>,
    line: String,
}

#[derive(Clone, Serialize)]
struct HeaderTrap {
    answer: String,
    title: String,
    slip: &'static str,
    layouts: Option<String>,
    device: Option<String>,
}

pub fn which(board: &Board, task: &exercises::WhichHeader, place: PlaceOf<'_>) -> WhichHeader {
    WhichHeader {
        layout: task.layout.to_string(),
        device: task.device.the(),
        speeds: board.columns.contains(&task.device).then(|| speeds_words(task.speeds)),
        headers: board.headers.iter().map(|header| header.code.clone()).collect(),
        answer: code(board, task.answer),
        title: board[task.answer].title.clone(),
        layouts: layout_words(&task.layouts),
        line: place(task.line),
        row: place(task.row),
        empty: task
            .empty
            .iter()
            .map(|empty| Empty {
                code: code(board, empty.header),
                not_fitted: match empty.because {
                    EmptyWhy::ServesNothing => None,
                    EmptyWhy::DeviceNotFitted(device) => Some(device.the()),
                },
                line: place(empty.line),
            })
            .collect(),
        traps: task
            .traps
            .iter()
            .map(|trap| {
                let (slip, layouts, device) = match &trap.mistake {
                    HeaderSlip::OtherLayouts(set) => ("layouts", layout_words(set), None),
                    HeaderSlip::TitleOfEmpty => ("title of empty", None, None),
                    HeaderSlip::TitleOfOther(device) => {
                        ("title of other", None, Some(device.the()))
                    }
                };
                let (answer, title) = (code(board, trap.answer), board[trap.answer].title.clone());
                HeaderTrap { answer, title, slip, layouts, device }
            })
            .collect(),
    }
}
