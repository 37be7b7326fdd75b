//! What a board does, as data.

use std::sync::Arc;

use super::super::loads::ConductorLoad;
use super::super::plan::DeviceId;
use super::as_built::NeutralPath;
use crate::board::{Allowance, Device, FuseId, HandleMap, HeaderId, Speeds};
use crate::units::{Amps, Volts};

/// What a panel's button, or the board by itself, asks of a header.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Command {
    /// Nothing.
    Off,
    /// Its low speed.
    Low,
    /// Its high speed, or its only one.
    High,
}

/// What a board does.
#[derive(Clone, Debug, PartialEq)]
pub struct State {
    /// What each device of the plan gets.
    pub devices: HandleMap<DeviceId, DeviceState>,
    /// What the layout makes of each header that it uses, with the devices of the plan that are
    /// plugged in there.
    pub roles: Vec<RoleState>,
    /// What may run while the heater is on; `None` if no switch sets it.
    pub allowance: Option<Allowance>,
    /// Whether the water flows that the heater waits for; `None` if the board has no pump.
    pub water: Option<bool>,
    /// The board's ground.
    pub ground: Metal,
    /// Whether two conductors meet at the ground.
    pub short: bool,
    /// Whether the board itself runs.
    pub power: Power,
    /// Where the neutral goes.
    pub neutral: NeutralPath,
    /// Whether the board's own electronics draw from the neutral at all times.
    pub always_on_neutral: bool,
    /// What flows at the worst.
    pub loads: Loads,
}

/// What a board's own electronics get. Every voltage that one of the board's supplies gives them suits
/// them, each within the band of a plate. What they do beyond is common practice, without a source:
/// from a tenth of it downwards they are off, above it they burn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Power {
    /// Nobody says where they are fed from: they are taken to run.
    NotSaid,
    /// What suits them.
    Suits,
    /// Too little: whether they start is not known.
    Weak(Volts),
    /// Nothing, or next to nothing.
    Dead,
    /// Too much.
    Burns(Volts),
}

impl Power {
    /// Whether the board can turn anything on. Where that is not known, it is taken to.
    pub fn runs(self) -> bool {
        !matches!(self, Power::Dead | Power::Burns(_))
    }
}

/// A header that a layout uses.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct RoleState {
    /// What the board takes it for.
    pub role: Device,
    /// With how many speeds.
    pub speeds: Speeds,
    /// The header.
    pub header: HeaderId,
    /// The device of the plan that is plugged in there.
    pub device: Option<DeviceId>,
}

/// What a device gets.
#[derive(Clone, Debug, PartialEq)]
pub struct DeviceState {
    /// What the board takes it for: the button that it follows. `None` at a header that the layout
    /// leaves idle.
    pub role: Option<Device>,
    /// One for each command that the header can have, *off* first.
    pub runs: Arc<[Run]>,
}

impl DeviceState {
    /// What it gets on `command`, if its header can have it.
    pub fn on(&self, command: Command) -> Option<&Run> {
        self.runs.iter().find(|run| run.command == command)
    }
}

/// A device on one command. Where the voltage depends on what else runs, it is a range.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Run {
    /// The command.
    pub command: Command,
    /// What it gets.
    pub measured: Measured,
}

/// What is measured at a device.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Measured {
    /// Across its winding for low speed; nought if it has none.
    pub low: Range,
    /// Across its winding for high speed, or its only one.
    pub high: Range,
    /// Its metalwork.
    pub metal: Metal,
    /// The potential of its *common* wire against ground.
    pub common: Volts,
    /// What flows off into the ground.
    pub earth: Amps,
    /// What flows in the neutral with all other devices off.
    pub neutral: Amps,
    /// Whether a wire joins its metalwork to the neutral: where the metal is bonded, the neutral is then
    /// on the ground at the spa.
    pub metal_on_neutral: bool,
}

/// From the least to the most.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Range {
    /// The least.
    pub least: Volts,
    /// The most.
    pub most: Volts,
}

/// What a device's metalwork is joined to by its cord.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Metal {
    /// The cord has no wire for it.
    NoWire,
    /// The protective earth.
    Grounded,
    /// Nothing, or a conductor that is no ground but has no voltage.
    Loose,
    /// A conductor with this voltage.
    Live(Volts),
}

impl Measured {
    /// Nothing at all.
    pub const NOTHING: Measured = Measured {
        low: Range { least: Volts(0.0), most: Volts(0.0) },
        high: Range { least: Volts(0.0), most: Volts(0.0) },
        metal: Metal::NoWire,
        common: Volts(0.0),
        earth: Amps(0.0),
        neutral: Amps(0.0),
        metal_on_neutral: false,
    };

    /// Both taken together.
    pub fn worse(self, other: Self) -> Self {
        let live = |metal| match metal {
            Metal::NoWire => -3.0,
            Metal::Grounded => -2.0,
            Metal::Loose => -1.0,
            Metal::Live(volts) => volts.0,
        };
        let worse = if live(other.metal) > live(self.metal) { other.metal } else { self.metal };
        Self {
            low: self.low.with(other.low),
            high: self.high.with(other.high),
            metal: worse,
            common: Volts(self.common.0.max(other.common.0)),
            earth: Amps(self.earth.0.max(other.earth.0)),
            neutral: Amps(self.neutral.0.max(other.neutral.0)),
            metal_on_neutral: self.metal_on_neutral || other.metal_on_neutral,
        }
    }
}

impl Range {
    /// One voltage.
    pub fn of(volts: f64) -> Self {
        Self { least: Volts(volts), most: Volts(volts) }
    }

    /// Both taken together.
    pub fn with(self, other: Self) -> Self {
        Self {
            least: Volts(self.least.0.min(other.least.0)),
            most: Volts(self.most.0.max(other.most.0)),
        }
    }
}

/// What flows at the worst.
#[derive(Clone, Debug, PartialEq)]
pub struct Loads {
    /// In each supply conductor but the protective earth.
    pub conductors: Vec<ConductorLoad>,
    /// What all devices add up to, the heater's current among them, if all run at once.
    pub added: Amps,
    /// In each fuse that something hangs on.
    pub fuses: Vec<(FuseId, Amps)>,
    /// In each header that something is plugged into, by the devices of the plan.
    pub headers: Vec<(HeaderId, Amps)>,
}
