//! The small closed vocabulary of what is noticed of a mistake, or should be.

use super::super::currents::Running;
use super::state::Range;
use crate::board::{BankId, Conductor, Device, FuseId, HeaderId};
use crate::standards::trips;
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
    /// The neutral touches the ground at the spa: the ground wire carries a part of its current, and if
    /// the neutral opens, all metal is live.
    MetalOnNeutral,
    /// This device has no ground.
    Ungrounded(Device),
    /// All wires of this device have voltage while it is off, unlike in the right state.
    StaysLive(Device),
    /// The ground-fault protection trips.
    GroundFaultTrips(Trip),
    /// The board itself gets too high a voltage and is destroyed.
    BoardBurns,
    /// The device gets too high a voltage and is destroyed.
    Destroyed(Device),
    /// A supply conductor carries more than it or the board may, and nothing trips.
    Overload(Heat),
    /// A header carries more than it may.
    HeaderHot(HeaderId, Heat),
    /// The device hums, runs hot or is weak: too low a voltage, or both speeds at once.
    RunsHot(Device),
    /// The device cannot be turned off.
    NeverStops(Device),
    /// The board itself gets no voltage: its panel shows nothing, and nothing runs.
    BoardDead,
    /// The board itself gets too low a voltage: whether it starts is not known.
    BoardWeak,
    /// The breaker trips at once: two conductors with a voltage between them meet at the board.
    ///
    /// That the current of such a short passes the breaker's instantaneous limit is taken for granted, as
    /// the supply must disconnect a fault at its end in time (IEC 60364-4-41, 411.3.2, from memory). It
    /// cannot be judged here: no job says the type of the breaker or the impedance of the supply, the
    /// supply run alone gives no more than an upper bound of the current, and UL 489 has no band as the
    /// types B, C and D of IEC 60898 have.
    BreakerTripsAtOnce,
    /// The breaker must trip when much runs at a time, by its standard.
    BreakerTrips,
    /// It may trip after a while, or not: its standard leaves it open.
    BreakerMayTrip,
    /// The fuse must blow, by the standards of its kind.
    FuseBlows(FuseId),
    /// It may blow after a while, or not: the standards leave it open.
    FuseMayBlow(FuseId),
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

/// When ground-fault protection trips.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Trip {
    /// As soon as there is power.
    AtOnce,
    /// When the heater is turned on.
    Heating,
    /// When something else is turned on.
    Running,
}

/// What a current does that is larger than what a conductor or a contact may carry: one scale for
/// wires, boards, headers and breakers.
///
/// Heat goes by the square of the current. Up to 1.45 times what it may carry, a conductor is taken
/// to stand it ([`trips::OVERLOAD_CLAUSE`]): its insulation ages, and nothing burns. That contacts
/// stand the same is common practice, without a source. Beyond that, and if nothing ends it, it can
/// burn. A breaker that trips ends it, so what it lets through is never worse than the first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Heat {
    /// It is warmer than it should be, and ages.
    Ages,
    /// It can burn.
    Burns,
}

impl Heat {
    /// What a current does where less is allowed.
    pub fn of(amps: Amps, allowed: Amps) -> Self {
        if amps.0 > allowed.0 * trips::OVERLOAD_STOOD { Heat::Burns } else { Heat::Ages }
    }
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
            | Sign::MetalOnNeutral
            | Sign::Ungrounded(_)
            | Sign::StaysLive(_)
            | Sign::GroundFaultTrips(_) => Danger::Deadly,
            Sign::BoardBurns
            | Sign::Destroyed(_)
            | Sign::Overload(Heat::Burns)
            | Sign::HeaderHot(_, Heat::Burns) => Danger::Fire,
            Sign::RunsHot(_)
            | Sign::NeverStops(_)
            | Sign::Overload(Heat::Ages)
            | Sign::HeaderHot(_, Heat::Ages)
            | Sign::BreakerTripsAtOnce
            | Sign::BreakerTrips
            | Sign::BreakerMayTrip => Danger::Damage,
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
                | Sign::MetalOnNeutral
                | Sign::Ungrounded(_)
                | Sign::StaysLive(_)
                | Sign::Overload(_)
                | Sign::HeaderHot(..)
        )
    }
}

/// Whose limit is passed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Limit {
    /// The breaker's.
    Breaker,
    /// What the wires of the supply may carry.
    Wire,
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
    /// What runs when it happens; empty if it happens at once.
    pub running: Vec<(Device, Running)>,
    /// In which houses it is so.
    pub house: House,
}

/// How the metal around a spa and its supply are protected. What a mistake does can differ, so both
/// are judged: in the one it trips, in the other it stays and nobody knows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum House {
    /// In both.
    Any,
    /// Only where the supply has ground-fault protection, whether the metal is bonded or not.
    Protected,
    /// Only where it has ground-fault protection and the metal is bonded: metal on a line is then a
    /// fault to ground.
    Bonded,
    /// Only where the metal is not bonded, or nothing trips by a fault to ground.
    Bare,
}

impl House {
    /// Whether it is so where the metal is bonded and the supply has ground-fault protection, and
    /// whether where neither is so.
    fn both(self) -> [bool; 2] {
        match self {
            House::Any => [true, true],
            House::Protected | House::Bonded => [true, false],
            House::Bare => [false, true],
        }
    }
}

/// The worst of what is seen.
pub fn worst(signs: &[Observation]) -> Danger {
    signs.iter().map(|seen| seen.sign.danger()).max().unwrap_or(Danger::None)
}

/// Whether there is a house, protected or not, in which nobody notices anything of this.
pub fn unnoticed(signs: &[Observation]) -> bool {
    (0..2).any(|house| {
        let there = |seen: &&Observation| seen.house.both().get(house) == Some(&true);
        let mut there = signs.iter().filter(there).peekable();
        // Where nothing is wrong, nothing is unnoticed.
        there.peek().is_some() && there.all(|seen| !seen.sign.is_noticed())
    })
}

impl Observation {
    /// Without numbers.
    pub fn new(sign: Sign) -> Self {
        let running = Vec::new();
        let house = House::Any;
        let (volts, amps) = (None, None);
        Self { sign, volts, swings: false, amps, limit: None, conductor: None, running, house }
    }

    /// The same, only in such houses.
    pub fn only(self, house: House) -> Self {
        Self { house, ..self }
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
