//! One installation of a board: what is fitted and what feeds it, with every name resolved.

mod check;

pub use check::check_job;

use super::{Device, Heater, PanelId, Speeds, SupplyId};
use crate::source::{Span, Spanned};
use crate::standards::conductors::Wire;
use crate::standards::iec::{Insulation, Method};
use crate::units::{Amps, Horsepower, Length, Volts, Watts};

/// A set of rules by which a breaker is sized; what they say is in [`crate::standards`].
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Rules {
    /// A current that can flow for three hours or more counts at 125 %; sizes of NEC 240.6(A).
    Nec,
    /// The design current itself; preferred sizes of IEC 60898-1.
    Iec,
}

impl Rules {
    /// Reads `nec` or `iec`.
    pub fn parse(text: &str) -> Option<Self> {
        match text {
            "nec" => Some(Rules::Nec),
            "iec" => Some(Rules::Iec),
            _ => None,
        }
    }

    /// The word of the job language.
    pub fn word(self) -> &'static str {
        match self {
            Rules::Nec => "nec",
            Rules::Iec => "iec",
        }
    }
}

/// One installation.
#[derive(Clone, Debug)]
pub struct Job {
    /// Its number or name.
    pub name: String,
    /// Whose it is.
    pub customer: Option<String>,
    /// How the board is fed.
    pub supply: Spanned<SupplyId>,
    /// The breaker in front of it.
    pub breaker: Spanned<Amps>,
    /// From the breaker to the board.
    pub run: Option<SupplyRun>,
    /// The panel; where the job names none, the board's only one.
    pub panel: Option<PanelId>,
    /// Rules that the job names in place of the supply's own.
    pub rules: Option<Spanned<Rules>>,
    /// What plates say about the circuit.
    pub marked: Marked,
    /// An element in place of the one that the board's specification gives.
    pub heater: Option<Spanned<Heater>>,
    /// What is fitted, apart from the heater, in the order of the job.
    pub equipment: Vec<Fitted>,
    /// The key `equipment`.
    pub equipment_span: Span,
    /// The first key of the job.
    pub span: Span,
}

impl Job {
    /// A job that says only what feeds the board, and names no equipment.
    pub fn bare(supply: Spanned<SupplyId>, breaker: Spanned<Amps>, span: Span) -> Self {
        Self {
            name: String::new(),
            customer: None,
            supply,
            breaker,
            run: None,
            panel: None,
            rules: None,
            marked: Marked::default(),
            heater: None,
            equipment: Vec::new(),
            equipment_span: span,
            span,
        }
    }
}

/// What the terminals at both ends of a supply run are marked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Terminals {
    /// Conductors of 60 degrees Celsius.
    C60,
    /// Conductors of 75 degrees Celsius.
    C75,
}

impl Terminals {
    /// Reads `60 C` or `75 C`.
    pub fn parse(text: &str) -> Option<Self> {
        match text.strip_suffix('C')?.trim_end().trim_end_matches('\u{b0}').trim_end() {
            "60" => Some(Terminals::C60),
            "75" => Some(Terminals::C75),
            _ => None,
        }
    }

    /// Degrees Celsius.
    pub fn celsius(self) -> u8 {
        match self {
            Terminals::C60 => 60,
            Terminals::C75 => 75,
        }
    }
}

/// The run from the breaker to the board.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SupplyRun {
    /// One way.
    pub length: Length,
    /// Each of its conductors.
    pub wire: Wire,
    /// What the terminals at both of its ends are marked for, if the job says so.
    pub terminals: Option<Terminals>,
    /// How it is installed, if the job says so.
    pub method: Option<Method>,
    /// What its conductors are insulated with; PVC, which may carry the least, where the job does
    /// not say.
    pub insulation: Insulation,
    /// What one of its conductors may carry where it is installed, if somebody states it.
    pub capacity: Option<Spanned<Amps>>,
    /// Where the job names its conductors.
    pub wire_span: Span,
    /// Its place in the job.
    pub span: Span,
}

/// What the plate of the pack or of the tub says about its circuit; it governs.
#[derive(Clone, Copy, Debug, Default)]
pub struct Marked {
    /// Minimum circuit ampacity.
    pub circuit: Option<Spanned<Amps>>,
    /// Largest breaker.
    pub largest: Option<Spanned<Amps>>,
}

/// Which role a device can take.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Role {
    /// This one.
    Named(Device),
    /// A jet pump of whichever number fits.
    AnyPump,
}

impl Role {
    /// Whether a device of this role can serve as `device`.
    pub fn can_be(self, device: Device) -> bool {
        match self {
            Role::Named(named) => named == device,
            Role::AnyPump => matches!(device, Device::Pump(_)),
        }
    }
}

/// The word of the job language.
impl std::fmt::Display for Role {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Role::Named(device) => device.fmt(f),
            Role::AnyPump => f.write_str("pump"),
        }
    }
}

/// What the cord of a device is like. A plug that is moulded on its cord has its wires right and cannot
/// be turned; one that somebody put on can.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Cord {
    /// As it was made.
    #[default]
    AsMade,
    /// Somebody put a plug on its end.
    ReEnded,
    /// It is plugged in through an adapter.
    Adapter,
}

impl Cord {
    /// Reads `re-ended` or `adapter`.
    pub fn parse(word: &str) -> Option<Self> {
        match word {
            "re-ended" => Some(Cord::ReEnded),
            "adapter" => Some(Cord::Adapter),
            _ => None,
        }
    }
}

/// A device that is fitted.
#[derive(Clone, Debug)]
pub struct Fitted {
    /// What it can be.
    pub role: Role,
    /// One or two; never none.
    pub speeds: Speeds,
    /// The voltage on its plate.
    pub volts: Spanned<Volts>,
    /// On high, or when it is on.
    pub high: Current,
    /// On low; there if and only if it has two speeds. Never more than on high.
    pub low: Option<Current>,
    /// What its cord is like.
    pub cord: Cord,
    /// On its plate, above 0 up to 1.
    pub power_factor: Option<f64>,
    /// The word of its device in the job.
    pub span: Span,
}

/// A current and where it was read.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Current {
    /// Root mean square.
    pub amps: Amps,
    /// Where it comes from.
    pub source: CurrentSource,
    /// Its place in the job.
    pub span: Span,
}

/// Where a current comes from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum CurrentSource {
    /// The plate says it.
    Plate,
    /// The full-load current of NEC table 430.248 for the plate's power, to be checked against the
    /// plate.
    Table(Horsepower),
    /// The plate's watts divided by its volts.
    Watts(Watts),
    /// The plate's current on high: on low a motor draws no more, and its own was not given.
    NoMoreThanHigh,
}
