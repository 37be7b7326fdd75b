//! What a template of a work card or of a lid insert can name.

use serde::Serialize;

use super::super::headers::WireKey;

/// All that the sheets of a job say beside their drawings.
#[derive(Serialize)]
pub struct JobFacts {
    pub name: String,
    pub customer: Option<String>,
    pub supply: String,
    /// `120/240 V`: line to neutral, and between lines.
    pub supply_volts: String,
    pub has_neutral: bool,
    /// `L1, L2, N, PE`: the wires that the supply brings.
    pub wires: String,
    /// `L1 to L2`: every two of them.
    pub pairs: Vec<String>,
    /// Every terminal: those of the ground wire, then the others in the order of the board.
    pub landings: Vec<Landing>,
    pub links: Vec<Lead>,
    pub jumpers: Vec<Lead>,
    /// `3 jumpers, 2 links`; `None` if nothing moves.
    pub moving: Option<String>,
    /// Every plug, in the order of the headers.
    pub plugs: Vec<Plug>,
    /// Devices with more than one plug.
    pub further: Vec<FurtherPlugs>,
    pub empty: Vec<Empty>,
    pub layout: u8,
    /// Lower layouts for the same devices that cannot be wired as the job asks.
    pub passed: Option<String>,
    /// The layout that is the same but for the circulation pump.
    pub but_for_circulation: Option<u8>,
    pub circulation: bool,
    /// The steps at its panel, if the layout number is entered there.
    pub panel: Option<Panel>,
    /// The rotary selector, if the board has one.
    pub selector: Option<super::super::entry::Turned>,
    pub switches: Vec<Switches>,
    /// Whether some switch is moved from where it is shipped.
    pub switches_moved: bool,
    pub heater: Option<Heater>,
    /// What may run while the heater is on; `None` if there is nothing to say.
    pub allowance: Option<String>,
    /// Whether the allowance is a count of pumps and blowers.
    pub allowance_counts: bool,
    /// Why the allowance is no higher; `None` if it is the highest.
    pub why_allowance: Option<String>,
    pub conductors: Vec<Conductor>,
    pub breaker: Breaker,
    pub run: Option<Run>,
    /// Whether the supply wires suit, and what that supposes.
    pub wire: String,
    /// How many lines the breaker opens.
    pub poles: usize,
    /// Whether they suit only with terminals for 75 °C.
    pub needs_75: bool,
    /// Whether they are aluminum.
    pub aluminum: bool,
    /// Devices whose current comes from a table of motors.
    pub from_table: Vec<String>,
    /// Devices whose current at low speed is taken to be that at high speed.
    pub low_unknown: Vec<String>,
    /// The wires in the plugs.
    pub wire_colours: Vec<WireKey>,
    /// Headers whose *common* pin is live, by the line that it is on.
    pub live: Vec<Live>,
    /// Whether there is something with a button.
    pub buttons: bool,
    /// `20 A time-lag: F1, F2`, of those in use.
    pub fuses: Vec<String>,
    /// What the plan warns of, a few sentences each.
    pub warnings: Vec<String>,
}

#[derive(Serialize)]
pub struct Landing {
    pub terminal: String,
    /// Whether it is for the ground wire.
    pub ground: bool,
    pub wire: Option<String>,
    pub conductor: Option<String>,
}

/// A plug at its header.
#[derive(Serialize)]
pub struct Plug {
    pub code: String,
    /// `circulation pump`
    pub device: String,
    /// `the blower`
    pub the_device: String,
    /// The voltage that the header gives.
    pub volts: String,
    /// `two speeds, 240 V, 10.8 A`; `None` for the heater.
    pub plate: Option<String>,
    /// Which of several jet pumps it is, in a sentence.
    pub which: Option<String>,
    /// Whether another jet pump has the same nameplate.
    pub alike: bool,
    /// `top` or `left`.
    pub read_from: String,
    /// `at the right`; `None` if the header has no key.
    pub key: Option<String>,
    pub pins: Vec<Cavity>,
    /// Whether the header has a pin for the ground wire.
    pub ground: bool,
    /// Whether the board feeds it apart from the supply, at a low voltage.
    pub isolated: bool,
    /// The name of its drawing.
    pub figure: String,
}

#[derive(Serialize)]
pub struct Cavity {
    /// What it is, or that it has no wire.
    pub words: String,
    /// Whether the plug has no wire there.
    pub empty: bool,
    /// The line, if the pin is *common* and live.
    pub live: Option<String>,
}

/// A jumper or a link.
#[derive(Serialize)]
pub struct Lead {
    pub code: String,
    /// The code of the group or terminal that it goes on.
    pub to: String,
    pub volts: Option<String>,
    pub moved: bool,
    pub shipped: String,
    /// What it feeds, with articles: `the blower and pump 1`.
    pub feeds: String,
    /// Whether there is something to look after: it feeds a device, or it was moved.
    pub counts: bool,
}

#[derive(Serialize)]
pub struct Empty {
    pub code: String,
    pub title: String,
    /// The device that it would drive under this layout, if it would.
    pub drives: Option<String>,
}

#[derive(Serialize)]
pub struct Panel {
    pub title: String,
    pub prose: String,
}

/// A field of a bank that a person sets or checks.
#[derive(Serialize)]
pub struct Switches {
    pub bank: String,
    /// `1 ON, 2 OFF`
    pub ways: String,
    pub meaning: String,
}

#[derive(Serialize)]
pub struct Heater {
    pub watts: String,
    pub volts: String,
    pub from_job: bool,
    pub element: String,
    /// Resistance of its element.
    pub ohms: String,
    /// What it draws here.
    pub amps: String,
    /// How much warmer 1000 litres get in an hour, °C, and 100 gallons, °F, without losses.
    pub kelvin: String,
    pub fahrenheit: String,
}

#[derive(Serialize)]
pub struct Conductor {
    pub name: String,
    pub amps: String,
}

#[derive(Serialize)]
pub struct Breaker {
    pub fitted: String,
    pub needed: String,
    pub smallest: Option<String>,
    pub nec: bool,
    pub marked: bool,
    pub largest: Option<String>,
    /// What the heater counts for, where that is not what it draws.
    pub heater: Option<String>,
}

#[derive(Serialize)]
pub struct Run {
    pub length: String,
    pub wire: String,
    pub drop: String,
    pub percent: String,
}

#[derive(Serialize)]
pub struct Live {
    pub codes: Vec<String>,
    pub line: String,
}

/// A device with more than one plug.
#[derive(Serialize)]
pub struct FurtherPlugs {
    /// The labels of its headers.
    pub codes: Vec<String>,
    /// That all of its plugs must be connected, in a sentence.
    pub says: String,
}
