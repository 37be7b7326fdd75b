//! Finding a layout, and finding a header under it.

use serde::Serialize;

use super::{code, layout_words};
use crate::board::{Board, Device, Layout, Role, Speeds};
use crate::decide::Wanted;
use crate::decide::exercises::{self, EmptyWhy, HeaderSlip, LayoutSlip};
use crate::words::Words;

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
    speeds: Option<String>,
}

pub fn find(words: &Words, board: &Board, task: &exercises::FindLayout) -> FindLayout {
    let named = |index: usize| {
        let device = task.places.get(index).copied();
        device.map_or_else(String::new, |device| words.the_device(device))
    };
    FindLayout {
        fitted: task.fitted.iter().map(|wanted| fitted_words(words, wanted)).collect(),
        answer: task.answer.to_string(),
        places: task.places.iter().map(|device| words.device_noun(*device)).collect(),
        row: board.layout(task.answer).map(|layout| row(words, board, layout)).unwrap_or_default(),
        line: words.row_of_layout(&task.answer.to_string()),
        traps: task
            .traps
            .iter()
            .map(|trap| {
                let (slip, what, speeds) = match trap.mistake {
                    LayoutSlip::CirculationForgotten => ("forgotten", None, None),
                    LayoutSlip::TakenForCirculation { fitted } => {
                        ("taken-for-circulation", Some(named(fitted)), None)
                    }
                    LayoutSlip::CirculationTakenForPump => ("taken-for-pump", None, None),
                    LayoutSlip::OtherSpeeds { fitted, taken } => {
                        ("speeds", Some(named(fitted)), Some(words.device_speeds(taken)))
                    }
                    LayoutSlip::LeftOut { fitted } => ("left-out", Some(named(fitted)), None),
                    LayoutSlip::Added { device, speeds } => {
                        ("added", Some(words.the_device(device)), Some(words.device_speeds(speeds)))
                    }
                };
                LayoutTrap { answer: trap.answer.to_string(), slip, what, speeds }
            })
            .collect(),
    }
}

/// The entries of a layout that are not empty.
pub fn row(words: &Words, board: &Board, layout: &Layout) -> Vec<Cell> {
    let cells = board.columns.iter().zip(&layout.speeds);
    cells
        .map(|(device, speeds)| Cell {
            column: words.device_name(*device),
            entry: match speeds {
                Speeds::None => "\u{2013}",
                Speeds::One => "1",
                Speeds::Two => "2",
            },
        })
        .collect()
}

/// `a jet pump with two speeds`, `a circulation pump`.
pub fn fitted_words(words: &Words, wanted: &Wanted) -> String {
    match wanted.role {
        Role::AnyPump => words.fitted_jet_pump(wanted.speeds),
        Role::Named(Device::Pump(number)) => {
            words.fitted_numbered_jet_pump(&number.to_string(), wanted.speeds)
        }
        // No article fits the words of every board.
        Role::Named(own @ Device::Own(_)) if wanted.speeds == Speeds::Two => {
            words.served_with_speeds(own, wanted.speeds)
        }
        Role::Named(own @ Device::Own(_)) => words.the_device(own),
        Role::Named(device) => words.fitted_device(device, wanted.speeds),
    }
}

/// Which header takes a device.
#[derive(Clone, Serialize)]
pub struct WhichHeader {
    layout: String,
    device: String,
    /// `None` if the matrix has no column for the device.
    speeds: Option<String>,
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

pub fn which(words: &Words, board: &Board, task: &exercises::WhichHeader) -> WhichHeader {
    WhichHeader {
        layout: task.layout.to_string(),
        device: words.the_device(task.device),
        speeds: board.columns.contains(&task.device).then(|| words.device_speeds(task.speeds)),
        headers: board.headers.iter().map(|header| header.code.clone()).collect(),
        answer: code(board, task.answer),
        title: board[task.answer].title.clone(),
        layouts: layout_words(words, &task.layouts),
        line: words.row_of_header(&code(board, task.answer)),
        row: words.row_of_layout(&task.layout.to_string()),
        empty: task
            .empty
            .iter()
            .map(|empty| Empty {
                code: code(board, empty.header),
                not_fitted: match empty.because {
                    EmptyWhy::ServesNothing => None,
                    EmptyWhy::DeviceNotFitted(device) => Some(words.the_device(device)),
                },
                line: words.row_of_header(&code(board, empty.header)),
            })
            .collect(),
        traps: task
            .traps
            .iter()
            .map(|trap| {
                let (slip, layouts, device) = match &trap.mistake {
                    HeaderSlip::OtherLayouts(set) => ("layouts", layout_words(words, set), None),
                    HeaderSlip::TitleOfEmpty => ("title-of-empty", None, None),
                    HeaderSlip::TitleOfOther(device) => {
                        ("title-of-other", None, Some(words.the_device(*device)))
                    }
                    HeaderSlip::PlugFits(here) => {
                        ("plug-fits", None, here.map(|device| words.the_device(device)))
                    }
                };
                let (answer, title) = (code(board, trap.answer), board[trap.answer].title.clone());
                HeaderTrap { answer, title, slip, layouts, device }
            })
            .collect(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A board can name any of these; the generator asks for jet pumps without their numbers only.
    #[test]
    fn what_is_fitted_has_its_article_and_its_speeds() {
        let words = Words::english();
        let said = |role, speeds| fitted_words(&words, &Wanted { role, speeds });
        let named = |device, speeds| said(Role::Named(device), speeds);
        assert_eq!(said(Role::AnyPump, Speeds::Two), "a jet pump with two speeds");
        assert_eq!(named(Device::Pump(3), Speeds::One), "jet pump 3 with one speed");
        assert_eq!(named(Device::Circulation, Speeds::One), "a circulation pump");
        assert_eq!(named(Device::Blower, Speeds::Two), "a blower with two speeds");
        assert_eq!(named(Device::Ozonator, Speeds::One), "an ozonator");
        assert_eq!(named(Device::Sound, Speeds::One), "a sound system");
        assert_eq!(named(Device::Light, Speeds::One), "a light");
        assert_eq!(named(Device::Heater, Speeds::One), "a heater");
    }
}
