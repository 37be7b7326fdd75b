//! The small closed vocabulary of what is noticed of a mistake, or should be.

use super::super::currents::Running;
use super::state::Range;
use crate::board::{BankId, Conductor, Device, FuseId, HeaderId};
use crate::units::{Amps, Volts};

/// What can be noticed, or should be. This list is all there is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Sign {
    /// The metalwork of everything that the board grounds has voltage.
    AllMetalLive,
    /// The metalwork of this device has voltage, at all times or while it is on.
    MetalLive(Device),
    /// Nothing that the board grounds has a ground.
    AllUngrounded,
    /// This device has no ground.
    Ungrounded(Device),
    /// All wires of this device have voltage while it is off, unlike in the right state.
    StaysLive(Device),
    /// The ground-fault protection trips.
    GroundFaultTrips,
    /// The device gets too high a voltage and is destroyed.
    Destroyed(Device),
    /// A supply conductor or the breaker carries more than the rules or the board allow, and
    /// nothing trips soon.
    Overload,
    /// A header carries more than it may.
    HeaderHot(HeaderId),
    /// The device hums, runs hot or is weak: too low a voltage, or both speeds at once.
    RunsHot(Device),
    /// The device cannot be turned off.
    NeverStops(Device),
    /// The breaker trips at once.
    BreakerTripsAtOnce,
    /// The breaker trips when much runs at a time.
    BreakerTrips,
    /// The fuse blows.
    FuseBlows(FuseId),
    /// The device does nothing.
    DoesNothing(Device),
    /// The device, which has two speeds, runs on high only; or the button of one that has one
    /// speed works on every second press only.
    OnlyHigh(Device),
    /// The device, which has two speeds, runs on low only.
    OnlyLow(Device),
    /// Low and high have changed places.
    SpeedsSwapped(Device),
    /// The device follows another button, or the board runs it for something else.
    OtherButton(Device, Device),
    /// The heater never comes on.
    HeaterNever,
    /// The heater gives much less heat.
    HeaterSlow,
    /// The heater goes off when more pumps and blowers are on high than the switches allow.
    HeaterGoesOff,
    /// The panel has a button for what is not fitted.
    SpareButton(Device),
    /// A field of a bank is set to mean something else.
    SetOtherwise(BankId, usize),
}

/// How bad it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Danger {
    /// Nobody and nothing is hurt.
    None,
    /// Something breaks.
    Damage,
    /// Something can burn.
    Fire,
    /// Somebody can be killed.
    Deadly,
}

impl Sign {
    /// How bad it is.
    pub fn danger(self) -> Danger {
        match self {
            Sign::AllMetalLive
            | Sign::MetalLive(_)
            | Sign::AllUngrounded
            | Sign::Ungrounded(_)
            | Sign::StaysLive(_)
            | Sign::GroundFaultTrips => Danger::Deadly,
            Sign::Destroyed(_) | Sign::Overload | Sign::HeaderHot(_) => Danger::Fire,
            Sign::RunsHot(_) | Sign::NeverStops(_) | Sign::BreakerTripsAtOnce => Danger::Damage,
            _ => Danger::None,
        }
    }

    /// The device that it is about, if it is about one.
    pub fn device(self) -> Option<Device> {
        match self {
            Sign::MetalLive(device)
            | Sign::Ungrounded(device)
            | Sign::StaysLive(device)
            | Sign::Destroyed(device)
            | Sign::RunsHot(device)
            | Sign::NeverStops(device)
            | Sign::DoesNothing(device)
            | Sign::OnlyHigh(device)
            | Sign::OnlyLow(device)
            | Sign::SpeedsSwapped(device)
            | Sign::OtherButton(device, _)
            | Sign::SpareButton(device) => Some(device),
            Sign::HeaterNever | Sign::HeaterSlow | Sign::HeaterGoesOff => Some(Device::Heater),
            _ => None,
        }
    }

    /// The devices that it tells of: also the one whose button runs another.
    pub fn devices(self) -> impl Iterator<Item = Device> {
        let role = match self {
            Sign::OtherButton(_, role) => Some(role),
            _ => None,
        };
        self.device().into_iter().chain(role)
    }

    /// Whether who uses the spa notices it, before anybody is hurt.
    pub fn is_noticed(self) -> bool {
        !matches!(
            self,
            Sign::AllMetalLive
                | Sign::MetalLive(_)
                | Sign::AllUngrounded
                | Sign::Ungrounded(_)
                | Sign::StaysLive(_)
                | Sign::Overload
                | Sign::HeaderHot(_)
        )
    }
}

/// Whose limit is passed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Limit {
    /// The breaker's, by what really flows.
    Breaker,
    /// The breaker's, by what counts under the rules.
    Rules,
    /// What a supply conductor of the board may carry.
    Board,
    /// The rating of a fuse or a header.
    Rating,
    /// What ground-fault protection lets pass.
    GroundFault,
}

/// A sign with its numbers.
#[derive(Clone, Debug, PartialEq)]
pub struct Observation {
    /// What is noticed.
    pub sign: Sign,
    /// The voltage that does it; `None` where it is none, or where both speeds are on at once.
    pub volts: Option<Volts>,
    /// Whether that voltage changes with what else runs; it is then the most.
    pub swings: bool,
    /// The current that does it, and what allows less.
    pub amps: Option<(Amps, Amps)>,
    /// Whose limit that is.
    pub limit: Option<Limit>,
    /// Where that current flows.
    pub conductor: Option<Conductor>,
    /// What runs when it happens.
    pub running: Vec<(Device, Running)>,
}

impl Observation {
    /// Without numbers.
    pub fn new(sign: Sign) -> Self {
        let running = Vec::new();
        Self { sign, volts: None, swings: false, amps: None, limit: None, conductor: None, running }
    }

    /// The same on a voltage that may change with what else runs.
    pub fn on(self, range: Range) -> Self {
        let swings = range.most.0 - range.least.0 > 1.0;
        Self { volts: Some(range.most), swings, ..self }
    }

    /// With the voltage that does it.
    pub fn of(sign: Sign, volts: Volts) -> Self {
        Self { volts: Some(volts), ..Self::new(sign) }
    }
}
