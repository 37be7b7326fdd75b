//! What a template of a lid insert can name.

use serde::Serialize;

/// All that a lid insert says beside its drawings.
#[derive(Serialize)]
pub struct Insert {
    pub name: String,
    pub customer: Option<String>,
    pub supply: String,
    pub has_neutral: bool,
    /// Every terminal in the order of the board.
    pub landings: Vec<Landing>,
    pub links: Vec<Lead>,
    pub jumpers: Vec<Lead>,
    /// Whether some jumper or link is moved from where it is shipped.
    pub moves: bool,
    /// Every cord, in the order of the headers.
    pub cords: Vec<Cord>,
    pub empty: Vec<Empty>,
    pub layout: u8,
    /// The layout that is the same but for the circulation pump.
    pub but_for_circulation: Option<u8>,
    pub circulation: bool,
    pub panel: Option<Panel>,
    pub switches: Vec<Switches>,
    pub moved_ways: Vec<String>,
    pub heater: Option<Heater>,
    /// What may run while the heater is on; `None` if there is nothing to say.
    pub allowance: Option<String>,
    /// Why the allowance is no higher; `None` if it is the highest.
    pub why_allowance: Option<String>,
    pub conductors: Vec<Conductor>,
    /// `N 24.8 A`: what conductors can carry if those devices lag whose power factor nobody gives.
    pub up_to: Vec<String>,
    /// Whether the breaker or the board may not carry that.
    pub up_to_too_much: bool,
    pub breaker: Breaker,
    pub run: Option<Run>,
    /// Devices whose current comes from a table of motors.
    pub from_table: Vec<String>,
    /// Devices whose current on low is taken to be that on high.
    pub low_unknown: Vec<String>,
    /// Headers whose *common* pin is live, by the line that it is on.
    pub live: Vec<Live>,
    /// Whether there is something with a button.
    pub buttons: bool,
    /// `20 A time-lag: F1, F2`, of those in use.
    pub fuses: Vec<String>,
}

#[derive(Serialize)]
pub struct Landing {
    pub terminal: String,
    pub wire: Option<String>,
    pub conductor: Option<String>,
}

/// A cord at its header.
#[derive(Serialize)]
pub struct Cord {
    pub code: String,
    pub device: String,
    pub volts: String,
    /// `top` or `left`.
    pub read_from: String,
    pub pins: Vec<Cavity>,
}

#[derive(Serialize)]
pub struct Cavity {
    /// What it is, or that it has no wire.
    pub words: String,
    /// Whether the cord has no wire there.
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
    pub used: bool,
    /// What hangs on it.
    pub feeds: String,
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
    /// How many steps it has.
    pub steps: u32,
}

/// A field of a bank whose meaning must be known.
#[derive(Serialize)]
pub struct Switches {
    pub bank: String,
    pub positions: String,
    pub meaning: String,
}

#[derive(Serialize)]
pub struct Heater {
    pub watts: String,
    pub volts: String,
    pub from_job: bool,
    pub element: String,
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
}

#[derive(Serialize)]
pub struct Run {
    pub length: String,
    pub wire: String,
    pub drop: String,
    pub percent: String,
    pub too_much: bool,
}

#[derive(Serialize)]
pub struct Live {
    pub codes: Vec<String>,
    pub line: String,
}
