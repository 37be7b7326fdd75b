//! What a technician looks for beside mistakes of wiring: what wears out, leaks, sticks or is only set
//! so. All of it is common practice, without a source, and so are the shares: one technician's
//! estimate, not counted. Sheets mark it so.

use super::faults::CheckTarget;
use super::mistakes::Sign;
use crate::board::Device;

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

/// A cause that is no mistake of wiring, or one that no specification of a board shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Cause {
    /// It does what it is set to.
    AsSet,
    /// Dirty filter, shut valve, low water.
    Flow,
    /// Air in the pump after filling.
    Air,
    /// The element leaks to ground.
    HeaterLeak,
    /// The element is burnt through, or one of two is.
    HeaterOpen,
    /// The thermal cut-out has opened.
    CutOut,
    /// The flow or pressure switch sticks.
    FlowSwitch,
    /// The temperature sensor is wrong.
    Sensor,
    /// Much water, little power.
    HeatRate,
    /// A motor's own thermal switch is open.
    MotorCutOut,
    /// A motor is seized or its impeller blocked.
    Shaft,
    /// Scale or dirt holds the rotor of the circulation pump.
    Rotor,
    /// A motor's capacitor.
    Capacitor,
    /// A winding is burnt through.
    Winding,
    /// A motor leaks to ground.
    MotorLeak,
    /// Water ran back into the blower.
    BlowerWet,
    /// Water ran back to the ozonator.
    OzonatorWet,
    /// The ozonator is at its end.
    OzonatorOld,
    /// A worn or loose contact.
    HotPlug,
    /// Water in a plug or on the board.
    WetPlug,
    /// A cord is cut or pinched.
    Cord,
    /// A relay does not close.
    RelayOpen,
    /// A relay cannot open.
    RelayWelded,
    /// The plug of the panel.
    PanelPlug,
    /// A button of the panel.
    Button,
    /// A breaker, switch or protection is off.
    Off,
    /// The fuse of the transformer.
    Transformer,
    /// A worn pole or an open joint in the supply run.
    LineOpen,
    /// A loose neutral.
    NeutralLoose,
    /// A loose or burnt terminal.
    TerminalLoose,
    /// Other loads on the circuit.
    OtherLoads,
    /// The breaker is worn.
    BreakerWorn,
    /// The breaker is of another size.
    BreakerSize,
    /// The ground-fault protection is worn, wet or bridged.
    ProtectionWorn,
    /// The neutral goes past the ground-fault protection.
    NeutralBypass,
    /// The neutral touches ground.
    NeutralGrounded,
    /// The ground-fault breaker's own neutral lead is loose.
    Pigtail,
    /// One device leaks, or many leak a little.
    Divide,
    /// Water in the shut-off switch, conduit or joint boxes.
    OutdoorWet,
    /// The ground wire or a bonding wire is open.
    GroundOpen,
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
}

impl Equipment<'_> {
    fn any(self, of: impl Fn(Device) -> bool) -> bool {
        self.devices.iter().copied().any(of)
    }
}

/// Whether a panel has a button for it; the board runs the others by itself. Common practice.
pub fn has_button(device: Device) -> bool {
    match device {
        Device::Pump(_) | Device::Blower | Device::Light | Device::Sound => true,
        Device::Heater | Device::Circulation | Device::Ozonator => false,
    }
}

/// Whether it has a motor. Common practice.
fn has_motor(device: Device) -> bool {
    matches!(device, Device::Pump(_) | Device::Blower | Device::Circulation)
}

impl Cause {
    /// How it is looked for.
    pub fn work(self) -> Work {
        match self {
            Cause::AsSet
            | Cause::Flow
            | Cause::CutOut
            | Cause::Sensor
            | Cause::HeatRate
            | Cause::MotorCutOut
            | Cause::OzonatorOld
            | Cause::RelayOpen
            | Cause::Button
            | Cause::Off
            | Cause::OtherLoads
            | Cause::BreakerWorn
            | Cause::BreakerSize => Work::Outside,
            _ => Work::Inside,
        }
    }

    /// Whether it can be there with this equipment.
    pub fn can_be(self, with: Equipment<'_>) -> bool {
        match self {
            Cause::HeaterLeak
            | Cause::HeaterOpen
            | Cause::CutOut
            | Cause::FlowSwitch
            | Cause::HeatRate => with.any(|device| device == Device::Heater),
            Cause::Sensor => with.panel && with.any(|device| device == Device::Heater),
            Cause::AsSet | Cause::PanelPlug | Cause::Button => with.panel,
            Cause::MotorCutOut | Cause::Winding | Cause::MotorLeak => with.any(has_motor),
            Cause::Air | Cause::Shaft | Cause::Capacitor => {
                with.any(|device| matches!(device, Device::Pump(_)))
            }
            Cause::Rotor => with.any(|device| device == Device::Circulation),
            Cause::BlowerWet => with.any(|device| device == Device::Blower),
            Cause::OzonatorWet | Cause::OzonatorOld => {
                with.any(|device| device == Device::Ozonator)
            }
            Cause::NeutralLoose | Cause::NeutralBypass | Cause::NeutralGrounded => with.neutral,
            _ => true,
        }
    }
}

/// The symptoms of the spa as a whole that are always listed, in their order; others are only if a
/// mistake gives them.
pub const WHOLE: [Symptom; 11] = [
    Symptom::Tingles,
    Symptom::Burnt,
    Symptom::Seen(Sign::GroundFaultTrips),
    Symptom::TestDoesNotTrip,
    Symptom::Seen(Sign::BreakerTripsAtOnce),
    Symptom::Seen(Sign::BreakerTrips),
    Symptom::Seen(Sign::BreakerMayTrip),
    Symptom::PanelDead,
    Symptom::SeveralDead,
    Symptom::NoWater,
    Symptom::TooHot,
];

/// The signs of a device that are always listed.
pub fn always(device: Device) -> &'static [fn(Device) -> Sign] {
    match device {
        Device::Heater => &[|_| Sign::HeaterNever, |_| Sign::HeaterSlow, |_| Sign::HeaterGoesOff],
        Device::Pump(_) => &[Sign::DoesNothing, Sign::RunsHot, Sign::NeverStops],
        Device::Circulation | Device::Blower => &[Sign::DoesNothing, Sign::NeverStops],
        Device::Ozonator | Device::Light | Device::Sound => &[Sign::DoesNothing],
    }
}

/// The usual causes of a symptom, the likeliest first. A sheet lists the first few that can be with
/// what is fitted, so that among equal ones those come first that should be on it.
pub fn usual_causes(symptom: Symptom) -> &'static [(Cause, Share)] {
    use Cause as C;
    use Share::{Most, Often, Seldom};
    match symptom {
        Symptom::Tingles => &[
            (C::GroundOpen, Often),
            (C::HeaterLeak, Often),
            (C::MotorLeak, Seldom),
            (C::ProtectionWorn, Seldom),
        ],
        Symptom::Burnt => &[(C::TerminalLoose, Often), (C::HotPlug, Often), (C::WetPlug, Seldom)],
        Symptom::TestDoesNotTrip => &[(C::ProtectionWorn, Often), (C::Pigtail, Often)],
        Symptom::PanelDead => {
            &[(C::Off, Most), (C::PanelPlug, Often), (C::Transformer, Often), (C::LineOpen, Seldom)]
        }
        Symptom::SeveralDead => &[
            (C::Off, Often),
            (C::LineOpen, Often),
            (C::NeutralLoose, Often),
            (C::TerminalLoose, Often),
        ],
        Symptom::TooHot => &[(C::AsSet, Often), (C::Sensor, Often), (C::RelayWelded, Often)],
        Symptom::NoWater => &[(C::Air, Most), (C::Flow, Most)],
        Symptom::Seen(sign) => of_sign(sign),
    }
}

fn of_sign(sign: Sign) -> &'static [(Cause, Share)] {
    use Cause as C;
    use Share::{Most, Often, Seldom};
    match sign {
        Sign::GroundFaultTrips => &[
            (C::HeaterLeak, Most),
            (C::NeutralBypass, Often),
            (C::Divide, Often),
            (C::WetPlug, Often),
            (C::NeutralGrounded, Often),
            (C::OutdoorWet, Often),
            (C::OzonatorWet, Seldom),
            (C::Cord, Seldom),
        ],
        Sign::BreakerTripsAtOnce => &[
            (C::WetPlug, Often),
            (C::Cord, Often),
            (C::MotorLeak, Often),
            (C::HeaterLeak, Often),
            (C::BreakerWorn, Seldom),
        ],
        Sign::BreakerTrips => &[
            (C::OtherLoads, Often),
            (C::BreakerWorn, Often),
            (C::TerminalLoose, Often),
            (C::BreakerSize, Seldom),
        ],
        Sign::BreakerMayTrip => &[
            (C::TerminalLoose, Often),
            (C::Shaft, Often),
            (C::BreakerWorn, Often),
            (C::OtherLoads, Often),
        ],
        Sign::FuseBlows(_) => &[
            (C::Shaft, Often),
            (C::WetPlug, Often),
            (C::MotorLeak, Often),
            (C::OzonatorWet, Often),
            (C::BlowerWet, Often),
        ],
        Sign::DoesNothing(device) => match device {
            Device::Pump(_) | Device::Blower => &[
                (C::MotorCutOut, Often),
                (C::HotPlug, Often),
                (C::Winding, Often),
                (C::RelayOpen, Seldom),
            ],
            Device::Circulation => &[(C::Rotor, Often), (C::HotPlug, Often), (C::Winding, Often)],
            Device::Ozonator => &[(C::OzonatorOld, Often), (C::HotPlug, Seldom)],
            Device::Heater | Device::Light | Device::Sound => &[(C::HotPlug, Seldom)],
        },
        Sign::RunsHot(device) => match device {
            Device::Pump(_) => &[(C::Shaft, Often), (C::Capacitor, Often)],
            Device::Circulation => &[(C::Rotor, Often)],
            _ => &[],
        },
        Sign::NeverStops(_) => &[(C::AsSet, Most), (C::RelayWelded, Often)],
        Sign::OnlyHigh(device) | Sign::OnlyLow(device) if has_button(device) => {
            &[(C::Button, Often), (C::Winding, Often)]
        }
        Sign::OnlyHigh(_) | Sign::OnlyLow(_) => &[(C::Winding, Often)],
        Sign::HeaterNever => &[
            (C::AsSet, Often),
            (C::Flow, Often),
            (C::CutOut, Often),
            (C::HeaterOpen, Often),
            (C::FlowSwitch, Often),
            (C::RelayOpen, Seldom),
        ],
        Sign::HeaterSlow => {
            &[(C::HeatRate, Most), (C::Flow, Often), (C::AsSet, Often), (C::HeaterOpen, Seldom)]
        }
        Sign::HeaterGoesOff => &[(C::AsSet, Often), (C::Flow, Often)],
        _ => &[],
    }
}

/// How often what is checked at `target` is behind a sign, in a spa whose box was just worked in; and
/// how it is looked at. A plug that is moulded on its cord has its wires right: they are looked at
/// late.
pub fn share(sign: Sign, target: CheckTarget) -> (Share, Work) {
    let work = match target {
        CheckTarget::Layout => Work::Outside,
        CheckTarget::House => Work::Live,
        _ => Work::Inside,
    };
    let share = match (sign, target) {
        (Sign::OnlyHigh(_), CheckTarget::Layout)
        | (Sign::HeaterGoesOff | Sign::BreakerTrips | Sign::BreakerMayTrip, CheckTarget::Bank(_))
        | (Sign::BreakerTripsAtOnce, CheckTarget::Landing) => Share::Most,
        (Sign::GroundFaultTrips, CheckTarget::NeutralPath) => Share::Most,
        (Sign::GroundFaultTrips, CheckTarget::NeutralGround | CheckTarget::Landing) => Share::Often,
        (_, CheckTarget::Cord(_) | CheckTarget::Link(_) | CheckTarget::Landing) => Share::Seldom,
        (_, CheckTarget::House) => Share::Seldom,
        _ => Share::Often,
    };
    (share, work)
}
