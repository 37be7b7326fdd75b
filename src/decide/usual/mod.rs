//! What a technician looks for beside mistakes of wiring: what wears out, leaks, sticks or is only set
//! so. All of it is common practice, without a source, and so are the shares: one technician's
//! estimate, not counted. Sheets mark it so. The data is in `causes.md` and `signs.md`; its words are
//! phrases of a language.

mod table;

pub use table::{Found, Hazard, Listed, Need};

use super::faults::CheckTarget;
use super::mistakes::{Sign, Trip};
use crate::board::Device;
use table::TABLE;

/// What a spa does, whether a mistake of wiring can do it or not.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Symptom {
    /// Metal or water tingles.
    Tingles,
    /// It smells of burning, or a plug is brown.
    Burnt,
    /// The test button of the ground-fault protection does not trip it.
    TestDoesNotTrip,
    /// A sign that the simulation of mistakes knows.
    Seen(Sign),
    /// Nothing is shown on the panel.
    PanelDead,
    /// Several devices do nothing at once.
    SeveralDead,
    /// The water is hotter than it is set.
    TooHot,
    /// A pump runs but moves no water.
    NoWater,
    /// A pump or the box makes a noise.
    Noise,
    /// The ground-fault protection trips at random.
    TripsAtRandom,
    /// The ground-fault protection trips after rain or splashing.
    TripsWhenWet,
    /// The breaker trips when the heater comes on.
    BreakerTripsWithHeat,
}

/// How often a cause is behind a symptom.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Share {
    /// More often than not.
    Most,
    /// From a tenth to a half.
    Often,
    /// Less than a tenth.
    Seldom,
    /// Less than a hundredth.
    Rare,
}

/// How a check is done.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Work {
    /// With eyes and hands, the cover closed.
    Outside,
    /// In the open box, locked off.
    Inside,
    /// On live parts, by a trained person.
    Live,
}

macro_rules! causes {
    ($($(#[$doc:meta])* $name:ident = $key:literal;)*) => {
        /// A cause that is no mistake of wiring, or one that no specification of a board shows.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
        pub enum Cause {
            $($(#[$doc])* $name,)*
        }

        impl Cause {
            /// All of them.
            pub const ALL: &'static [Cause] = &[$(Cause::$name,)*];

            /// Its key in the files.
            pub fn key(self) -> &'static str {
                match self {
                    $(Cause::$name => $key,)*
                }
            }
        }
    };
}

causes! {
    /// It does what it is set to.
    AsSet = "as_set";
    /// Dirty filter, shut valve, low water.
    Flow = "flow";
    /// Air in the pump after filling.
    Air = "dry_air";
    /// Air is sucked in.
    AirLeak = "air_leak";
    /// The element leaks to ground.
    HeaterLeak = "heater_leak";
    /// The element is burnt through, or one of two is.
    HeaterOpen = "heater_open";
    /// The thermal cut-out has opened.
    CutOut = "cutout";
    /// The flow or pressure switch sticks.
    FlowSwitch = "flow_switch";
    /// The temperature sensor is wrong.
    Sensor = "sensor";
    /// Much water, little power.
    HeatRate = "heat_budget";
    /// A motor's own thermal switch is open.
    MotorCutOut = "motor_cutout";
    /// A motor is seized or its impeller blocked.
    Shaft = "pump_stuck";
    /// Scale or dirt holds the rotor of the circulation pump.
    Rotor = "circ_stuck";
    /// A motor's capacitor.
    Capacitor = "capacitor";
    /// A winding is burnt through.
    Winding = "winding_open";
    /// A motor leaks to ground.
    MotorLeak = "motor_leak";
    /// A motor for another frequency.
    Frequency = "freq";
    /// Water ran back into the blower.
    BlowerWet = "blower_wet";
    /// Water ran back to the ozonator.
    OzonatorWet = "ozone_wet";
    /// The ozonator is at its end.
    OzonatorOld = "ozone_old";
    /// A worn or loose contact.
    HotPlug = "hot_plug";
    /// Water in a plug or on the board.
    WetPlug = "wet_plug";
    /// A cord is cut or pinched.
    Cord = "cord_hurt";
    /// The fuse is blown.
    Fuse = "fuse_blown";
    /// The fuse is of another rating or kind.
    FuseKind = "fuse_kind";
    /// A relay does not close.
    RelayOpen = "relay_dead";
    /// A relay cannot open.
    RelayWelded = "relay_welded";
    /// The plug of the panel.
    PanelPlug = "panel_cable";
    /// The panel belongs to another board.
    PanelOther = "panel_other";
    /// A button of the panel.
    Button = "panel_bad";
    /// A breaker, switch or protection is off.
    Off = "off_upstream";
    /// The fuse of the transformer.
    Transformer = "control_power";
    /// A surge part on the board is shorted.
    SurgePart = "surge_part";
    /// A worn pole or an open joint in the supply run.
    LineOpen = "line_missing";
    /// A loose neutral.
    NeutralLoose = "neutral_loose";
    /// A loose or burnt terminal.
    TerminalLoose = "loose_terminal";
    /// The voltage of the house is low.
    VoltsLow = "volts_low";
    /// Other loads on the circuit.
    OtherLoads = "shared";
    /// The breaker is worn.
    BreakerWorn = "breaker_tired";
    /// The breaker is of another size.
    BreakerSize = "breaker_size";
    /// The ground-fault protection is worn, wet or bridged.
    ProtectionWorn = "gfci_tired";
    /// The neutral goes past the ground-fault protection.
    NeutralBypass = "neutral_bypass";
    /// The neutral touches ground.
    NeutralGrounded = "neutral_grounded";
    /// The ground-fault breaker's own neutral lead is loose.
    Pigtail = "pigtail";
    /// One device leaks, or many leak a little.
    Divide = "leaks_add";
    /// Water in the shut-off switch, conduit or joint boxes.
    OutdoorWet = "outdoor_wet";
    /// The ground wire or a bonding wire is open.
    GroundOpen = "pe_open";
    /// A voltage from the house's or the utility's neutral.
    Stray = "stray";
    /// Feet, blocks or pipes touch the shell.
    Mount = "mount";
}

/// What is fitted, as far as causes ask for it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Equipment<'a> {
    /// The devices.
    pub devices: &'a [Device],
    /// Whether the supply has a neutral.
    pub neutral: bool,
    /// Whether the board has a panel.
    pub panel: bool,
    /// Whether there is a fuse in front of them.
    pub fuse: bool,
}

impl Equipment<'_> {
    fn has(self, need: Need) -> bool {
        let any = |of: fn(Device) -> bool| self.devices.iter().copied().any(of);
        match need {
            Need::Neutral => self.neutral,
            Need::Protection => true,
            Need::Fuse => self.fuse,
            Need::Panel => self.panel,
            Need::Heater => any(|device| device == Device::Heater),
            Need::Circulation => any(|device| device == Device::Circulation),
            Need::Ozonator => any(|device| device == Device::Ozonator),
            Need::Blower => any(|device| device == Device::Blower),
            Need::Pump => any(|device| matches!(device, Device::Pump(_))),
            Need::Motor => any(Device::is_motor),
        }
    }
}

impl Cause {
    /// The cause of a key.
    pub fn parse(key: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|cause| cause.key() == key)
    }

    fn row(self) -> Option<&'static table::CauseRow> {
        TABLE.causes.iter().find(|row| row.listed == Listed::Usual(self))
    }

    /// How it is looked for.
    pub fn work(self) -> Work {
        self.row().map_or(Work::Inside, |row| row.work)
    }

    /// What it can do to people and things.
    pub fn hazards(self) -> &'static [Hazard] {
        self.row().map_or(&[], |row| &row.hazards)
    }

    /// Whether it can be there with this equipment.
    pub fn can_be(self, with: Equipment<'_>) -> bool {
        self.row().is_some_and(|row| row.needs.iter().all(|need| with.has(*need)))
    }
}

/// The symptoms of the spa as a whole that are always listed, in their order; others are only if a
/// mistake gives them.
pub const WHOLE: [Symptom; 17] = [
    Symptom::Tingles,
    Symptom::Burnt,
    Symptom::Seen(Sign::GroundFaultTrips(Trip::AtOnce)),
    Symptom::Seen(Sign::GroundFaultTrips(Trip::Heating)),
    Symptom::Seen(Sign::GroundFaultTrips(Trip::Running)),
    Symptom::TripsAtRandom,
    Symptom::TripsWhenWet,
    Symptom::TestDoesNotTrip,
    Symptom::Seen(Sign::BreakerTripsAtOnce),
    Symptom::BreakerTripsWithHeat,
    Symptom::Seen(Sign::BreakerTrips),
    Symptom::Seen(Sign::BreakerMayTrip),
    Symptom::PanelDead,
    Symptom::SeveralDead,
    Symptom::NoWater,
    Symptom::TooHot,
    Symptom::Noise,
];

/// The signs of a device that are always listed.
pub fn always(device: Device) -> &'static [fn(Device) -> Sign] {
    match device {
        Device::Heater => &[|_| Sign::HeaterNever, |_| Sign::HeaterSlow, |_| Sign::HeaterGoesOff],
        Device::Pump(_) => &[Sign::DoesNothing, Sign::RunsHot, Sign::NeverStops],
        Device::Circulation | Device::Blower => &[Sign::DoesNothing, Sign::NeverStops],
        Device::Own(_) if device.is_motor() => &[Sign::DoesNothing, Sign::NeverStops],
        Device::Ozonator | Device::Light | Device::Sound | Device::Own(_) => &[Sign::DoesNothing],
    }
}

impl Symptom {
    /// Its key in the file of signs, of a device with two speeds or not; `None` if nothing is listed
    /// for it.
    pub fn key(self, two_speeds: bool) -> Option<&'static str> {
        Some(match self {
            Symptom::Tingles => "tingle",
            Symptom::Burnt => "burnt",
            Symptom::TestDoesNotTrip => "gf_dead",
            Symptom::PanelDead => "panel_dead",
            Symptom::SeveralDead => "several",
            Symptom::TooHot => "too_hot",
            Symptom::NoWater => "no_water",
            Symptom::Noise => "noise",
            Symptom::TripsAtRandom => "gf_random",
            Symptom::TripsWhenWet => "gf_wet",
            Symptom::BreakerTripsWithHeat => "brk_heat",
            Symptom::Seen(sign) => match sign {
                Sign::GroundFaultTrips(Trip::AtOnce) => "gf_once",
                Sign::GroundFaultTrips(Trip::Heating) => "gf_heat",
                Sign::GroundFaultTrips(Trip::Running) => "gf_thing",
                Sign::BreakerTripsAtOnce => "brk_once",
                Sign::BreakerTrips => "brk_much",
                Sign::BreakerMayTrip => "brk_later",
                Sign::FuseBlows(_) => "fuse",
                Sign::BoardDead | Sign::BoardWeak => "panel_dead",
                Sign::BoardBurns => "burnt",
                Sign::DoesNothing(_) => "nothing",
                Sign::RunsHot(_) => "hums",
                Sign::NeverStops(_) => "no_stop",
                Sign::OnlyHigh(_) if two_speeds => "only_high",
                Sign::OnlyHigh(_) => "second",
                Sign::OnlyLow(_) => "only_low",
                Sign::HeaterNever => "heat_never",
                Sign::HeaterSlow => "heat_slow",
                Sign::HeaterGoesOff => "heat_drops",
                Sign::SpareButton(_) => "panel_wrong",
                _ => return None,
            },
        })
    }

    fn row(self, two_speeds: bool) -> Option<&'static table::SignRow> {
        let key = self.key(two_speeds)?;
        TABLE.signs.iter().find(|row| row.key == key)
    }
}

/// Every key that a symptom can have.
#[cfg(test)]
fn sign_keys() -> Vec<&'static str> {
    let device = Device::Heater;
    let seen = [
        Sign::FuseBlows(crate::board::FuseId(0)),
        Sign::DoesNothing(device),
        Sign::RunsHot(device),
        Sign::NeverStops(device),
        Sign::OnlyHigh(device),
        Sign::OnlyLow(device),
        Sign::HeaterNever,
        Sign::HeaterSlow,
        Sign::HeaterGoesOff,
        Sign::SpareButton(device),
    ];
    let all = WHOLE.into_iter().chain(seen.map(Symptom::Seen));
    let mut keys: Vec<&str> = all.filter_map(|symptom| symptom.key(true)).collect();
    keys.extend(Symptom::Seen(Sign::OnlyHigh(device)).key(false));
    keys
}

/// Where something stands in the list of a sign: how often it is behind it, and its place there.
pub type ListPlace = (Share, usize);

/// When something is looked at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Moments {
    /// On a board just fitted; `None` if it is not listed.
    pub new: Option<ListPlace>,
    /// In a spa that ran for years; `None` if it is not listed. Of a mistake that means: only if
    /// somebody changed it.
    pub years: Option<ListPlace>,
}

/// How many usual causes a sheet lists for a symptom and a moment: a page at the box that lists all that
/// can wear out is not read, and whom these do not help needs a technician. Under a fuse stands all that
/// can be behind it.
const MOST: usize = 3;

/// The usual causes of a symptom that a sheet lists: of those that `can_be`, the likeliest few of
/// each moment, in their order.
pub fn usual_causes(
    symptom: Symptom,
    two_speeds: bool,
    can_be: impl Fn(Cause) -> bool,
) -> Vec<(Cause, Moments)> {
    let Some(row) = symptom.row(two_speeds) else { return Vec::new() };
    let listed = |list: &[(Listed, Share)]| -> Vec<(Cause, ListPlace)> {
        let places = list.iter().enumerate();
        let usual = places.filter_map(|(at, (listed, share))| match listed {
            Listed::Usual(cause) => Some((*cause, (*share, at))),
            Listed::Found(_) => None,
        });
        usual.filter(|(cause, _)| can_be(*cause)).collect()
    };
    let (new, years) = (listed(&row.new), listed(&row.years));
    let place = |list: &[(Cause, ListPlace)], cause: Cause| {
        list.iter().find(|(known, _)| *known == cause).map(|(_, place)| *place)
    };
    let of_fuse = matches!(symptom, Symptom::Seen(Sign::FuseBlows(_)));
    let most = if of_fuse { usize::MAX } else { MOST };
    let mut found: Vec<(Cause, Moments)> = Vec::new();
    for (cause, _) in new.iter().take(most).chain(years.iter().take(most)) {
        if found.iter().all(|(known, _)| known != cause) {
            let moments = Moments { new: place(&new, *cause), years: place(&years, *cause) };
            found.push((*cause, moments));
        }
    }
    found
}

/// When what the compiler found is looked at, and how. What the lists do not name is seldom behind it
/// on a board just fitted, and in a spa that ran for years only if somebody changed it.
pub fn moments(symptom: Symptom, two_speeds: bool, target: CheckTarget) -> (Moments, Work) {
    let (listed, work) = match target {
        CheckTarget::Layout => (Listed::Found(Found::Layout), Work::Outside),
        CheckTarget::Jumper(_) => (Listed::Found(Found::Jumper), Work::Inside),
        CheckTarget::Plug(_) => (Listed::Found(Found::Plug), Work::Inside),
        CheckTarget::Cord(_) => (Listed::Found(Found::Cord), Work::Inside),
        CheckTarget::Bank(_) => (Listed::Found(Found::Bank), Work::Inside),
        CheckTarget::Link(_) => (Listed::Found(Found::Link), Work::Inside),
        CheckTarget::Landing => (Listed::Found(Found::Landing), Work::Inside),
        CheckTarget::NeutralPath => (Listed::Usual(Cause::NeutralBypass), Work::Inside),
        CheckTarget::NeutralGround => (Listed::Usual(Cause::NeutralGrounded), Work::Inside),
        CheckTarget::House => (Listed::Found(Found::House), Work::Live),
    };
    let row = symptom.row(two_speeds);
    let place = |list: &[(Listed, Share)]| {
        let at = list.iter().position(|(known, _)| *known == listed)?;
        Some((list.get(at)?.1, at))
    };
    let new = row.and_then(|row| place(&row.new)).unwrap_or((Share::Seldom, usize::MAX));
    (Moments { new: Some(new), years: row.and_then(|row| place(&row.years)) }, work)
}
