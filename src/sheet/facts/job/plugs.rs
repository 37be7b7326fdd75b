//! Each plug at its header, and which of several pumps belongs there.

use super::super::headers::{WireKey, key_of_letters};
use super::types::{Cavity, Live, Plug};
use crate::board::{Board, Device, Job, Pin, Speeds, WireColour};
use crate::decide::{
    DevicePlan, GroupVoltage, Nameplate, PlateLoad, PumpMark, Wiring, nameplate, pump_mark,
};
use crate::units::Watts;
use crate::words::Words;

/// The name of the drawing of a plug at a header.
pub fn plug_figure(code: &str) -> String {
    format!("plug-{code}")
}

pub fn plugs(words: &Words, board: &Board, job: &Job, wiring: &Wiring) -> Vec<Plug> {
    wiring.devices.iter().map(|plan| plug(words, board, job, wiring, plan)).collect()
}

fn plug(words: &Words, board: &Board, job: &Job, wiring: &Wiring, plan: &DevicePlan) -> Plug {
    let header = &board[plan.header];
    let live = plan.voltage.live_common();
    let cavity = |(pin, colour): (Option<Pin>, Option<WireColour>)| Cavity {
        words: words.cavity(pin, colour),
        empty: pin.is_none(),
        live: live.filter(|_| pin == Some(Pin::Common)).map(|line| line.to_string()),
    };
    let plate = nameplate(job, plan);
    Plug {
        code: header.code.clone(),
        device: words.device_noun(plan.device),
        the_device: words.the_device(plan.device),
        volts: words.whole_volts(plan.volts),
        plate: plate.as_ref().map(|plate| says(words, plan.device, plate)),
        alike: matches!(pump_mark(job, wiring, plan), Some(PumpMark::Alike { .. })),
        which: plate.as_ref().and_then(|plate| which(words, job, wiring, plan, plate)),
        read_from: words.pins_read_from(plan.pins.read_from),
        key: header.key.map(|side| words.key_side(side)),
        pins: plan.pins.cavities().map(cavity).collect(),
        ground: plan.pins.pins.contains(&Some(Pin::Ground)),
        isolated: matches!(plan.voltage, GroupVoltage::Isolated { .. }),
        figure: plug_figure(&header.code),
    }
}

/// The wires in all plugs.
pub fn colours(words: &Words, wiring: &Wiring) -> Vec<WireKey> {
    key_of_letters(words, wiring.devices.iter().flat_map(|plan| plan.pins.cavities()))
}

/// What a nameplate says. Speeds are told only of what can have two.
fn says(words: &Words, device: Device, plate: &Nameplate) -> String {
    let speeds = if device.counts_for_allowance() { plate.speeds } else { Speeds::None };
    let high = load(words, plate.high);
    let load = match plate.low {
        Some(low) => words.load_high_and_low(&high, &load(words, low)),
        None => high,
    };
    words.nameplate_says(speeds, &words.volts(plate.volts), &load)
}

fn load(words: &Words, load: PlateLoad) -> String {
    match load {
        PlateLoad::Amps(amps) => words.amps(amps),
        PlateLoad::Power(power) => words.horsepower(power),
        PlateLoad::Watts(watts) => words.measure(watts.0, 2, Watts::UNIT),
    }
}

/// Which of the job's jet pumps this is, in a sentence; `None` if there is no other.
fn which(
    words: &Words,
    job: &Job,
    wiring: &Wiring,
    plan: &DevicePlan,
    plate: &Nameplate,
) -> Option<String> {
    let device = plan.device;
    match pump_mark(job, wiring, plan)? {
        PumpMark::Only => None,
        PumpMark::SpeedsAndLoad => {
            Some(words.pump_by_load(device, plate.speeds, &load(words, plate.high)))
        }
        PumpMark::Nameplate => Some(words.pump_by_nameplate(device, &says(words, device, plate))),
        PumpMark::Alike { all, any } => Some(words.pump_alike(device, &all, any)),
    }
}

/// Headers whose *common* pin is live, by the line that it is on.
pub fn live(board: &Board, wiring: &Wiring) -> Vec<Live> {
    let mut found: Vec<Live> = Vec::new();
    for plan in &wiring.devices {
        let Some(line) = plan.voltage.live_common() else { continue };
        if !plan.pins.pins.contains(&Some(Pin::Common)) {
            continue;
        }
        let (line, code) = (line.to_string(), board[plan.header].code.clone());
        match found.iter_mut().find(|live| live.line == line) {
            Some(live) => live.codes.push(code),
            None => found.push(Live { codes: vec![code], line }),
        }
    }
    found
}
