//! What a form must know of a board.

use serde::Serialize;

use crate::board::{Board, Conductor, Device, Layout, Rules, Supply};
use crate::words::Words;

/// What a form must know of a board, in the words of a language.
#[derive(Debug, Serialize)]
pub struct BoardForm {
    /// The file as a job beside it names it.
    file: String,
    name: String,
    part: String,
    /// What to compare with the board itself.
    compare: String,
    supplies: Vec<SupplyForm>,
    panels: Vec<PanelForm>,
    /// What can be added.
    devices: Vec<DeviceForm>,
}

#[derive(Debug, Serialize)]
struct SupplyForm {
    name: String,
    title: String,
    /// How many wires it brings, and which.
    wires: String,
    /// Whether sizes in AWG are usual for it.
    awg: bool,
}

#[derive(Debug, Serialize)]
struct PanelForm {
    name: String,
    title: String,
}

#[derive(Debug, Serialize)]
struct DeviceForm {
    /// The word of the job file; `pump` for a jet pump of any number.
    device: String,
    /// What people call it.
    words: String,
    /// Whether no header of the board drives it: a plan is then refused, but somebody may have one.
    other: bool,
    /// For a jet pump: each number that the board knows, the word of the job file and what people call it.
    numbers: Vec<[String; 2]>,
    /// Whether it may have two speeds.
    two_speeds: bool,
    /// Whether the number of its speeds must be told.
    asks_speeds: bool,
    /// Whether its nameplate may give horsepower and a power factor.
    motor: bool,
    /// What the nameplate of the heater says if it needs no line; absent for all other devices.
    #[serde(skip_serializing_if = "Option::is_none")]
    known: Option<String>,
}

impl BoardForm {
    /// What a form must know of `board`, whose file a job beside it names `file`.
    pub fn new(board: &Board, file: &str, words: &Words) -> Self {
        let about = &board.about;
        let panel = |panel: &crate::board::Panel| PanelForm {
            name: panel.name.clone(),
            title: panel.title.clone(),
        };
        Self {
            file: file.to_owned(),
            name: about.name.clone(),
            part: about.part.clone(),
            compare: words.field_compare_board(&about.part, &about.revision),
            supplies: board.supplies.iter().map(|supply| SupplyForm::of(supply, words)).collect(),
            panels: board.panels.iter().map(panel).collect(),
            devices: devices(board)
                .into_iter()
                .map(|(device, other)| DeviceForm::of(board, device, other, words))
                .collect(),
        }
    }
}

impl SupplyForm {
    fn of(supply: &Supply, words: &Words) -> Self {
        let conductors = supply.conductors();
        let letters: Vec<String> = conductors.iter().map(Conductor::to_string).collect();
        Self {
            name: supply.name.clone(),
            title: supply.title.clone(),
            wires: words.field_wires(conductors.len(), &words.commas(&letters)),
            awg: Rules::default_for(supply.system).rules == Rules::Nec,
        }
    }
}

impl DeviceForm {
    fn of(board: &Board, device: Device, other: bool, words: &Words) -> Self {
        let pump = matches!(device, Device::Pump(_));
        let is_two = |layout: &Layout| {
            layout.speeds_of(&board.columns, device).is_some_and(|speeds| speeds.number() == 2)
        };
        let numbered = board.headers.iter().flat_map(|header| header.serves.iter());
        let mut numbers: Vec<Device> = numbered.map(|(_, device)| *device).collect();
        numbers.retain(|device| pump && matches!(device, Device::Pump(_)));
        numbers.sort();
        numbers.dedup();
        let known = board.heater.as_ref().filter(|_| device == Device::Heater);
        Self {
            device: if pump { "pump".to_owned() } else { device.to_string() },
            words: if pump { words.field_pump() } else { words.device_noun(device) },
            other,
            numbers: numbers.iter().map(|it| [it.to_string(), words.device_noun(*it)]).collect(),
            // The number of a pump is found by the compiler, so two speeds of one are open to all.
            two_speeds: pump || board.layouts.iter().any(is_two),
            asks_speeds: pump,
            motor: device.is_motor(),
            known: known.map(|heater| {
                words.commas(&[words.watts(heater.watts), words.whole_volts(heater.at)])
            }),
        }
    }
}

/// Every device that some header serves, each once, in the order of the matrix and then of the headers, and
/// then those that none serves, marked; the jet pumps are one.
fn devices(board: &Board) -> Vec<(Device, bool)> {
    let served = board.headers.iter().flat_map(|header| header.serves.iter().map(|(_, it)| *it));
    let mut all: Vec<Device> = Vec::new();
    for device in board.columns.iter().copied().chain(served) {
        let pump = |device: &Device| matches!(device, Device::Pump(_));
        let known = if pump(&device) { all.iter().any(pump) } else { all.contains(&device) };
        // A further cord of a device is no device to add.
        if !known && board.cord_of(device).is_none() {
            all.push(device);
        }
    }
    // It seldom needs a line.
    all.sort_by_key(|device| *device == Device::Heater);
    let served = all.len();
    let usual = [
        Device::Circulation,
        Device::Pump(1),
        Device::Blower,
        Device::Ozonator,
        Device::Light,
        Device::Sound,
        Device::Heater,
    ];
    for device in usual {
        let pump = |device: &Device| matches!(device, Device::Pump(_));
        let known = if pump(&device) { all.iter().any(pump) } else { all.contains(&device) };
        if !known {
            all.push(device);
        }
    }
    all.into_iter().enumerate().map(|(index, device)| (device, index >= served)).collect()
}
