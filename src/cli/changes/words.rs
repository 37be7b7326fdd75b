//! What differs, in words for the terminal.

use crate::board::{Device, Speeds};
use crate::compare::{DecisionChange, JobChange, Plug, Step, Subject};
use crate::geometry::Side;
use crate::meaning::{Concern, Kind, Property as P, Thing, Value, Which, unpadded};
use crate::units::shortest;

/// The heading of what concerns somebody.
pub fn concern(concern: Concern) -> &'static str {
    match concern {
        Concern::Wiring => "Wiring and settings",
        Concern::Words => "Words",
        Concern::Drawing => "Places and sizes",
        Concern::Record => "Revision",
    }
}

/// A thing as a person knows it: `header J3`, `switches 1-2 of S1`, `layout 7`.
pub fn thing(thing: &Thing) -> String {
    let Thing { kind, name } = thing;
    match kind {
        Kind::Switches => match name.rsplit_once(' ') {
            Some((bank, numbers)) => format!("switch {numbers} of {bank}"),
            None => format!("switch {name}"),
        },
        Kind::Layout => format!("layout {}", unpadded(name)),
        Kind::Part => format!("circuit board {name}"),
        Kind::Socket => format!("connector type {name}"),
        Kind::Bank => format!("switch bank {name}"),
        Kind::Electronics => "supply of the board itself".to_owned(),
        _ if name.is_empty() => kind.word().to_owned(),
        _ => format!("{kind} {name}"),
    }
}

/// What a fact says of a thing: `key side`, `wire on T1`.
pub fn fact(which: &Which) -> String {
    let of = &which.of;
    let plain = match which.property {
        P::Serves => return format!("device in layout {}", unpadded(of)),
        P::Lands => return format!("wire on {of}"),
        P::Links => return format!("position of link {of}"),
        P::Speeds => return of.clone(),
        P::Setting => return format!("meaning of {of}"),
        P::Position => return format!("layout at {of}"),
        P::At => "place",
        P::On => "circuit board",
        P::Key | P::KeyDrawn => "key side",
        P::Feed => "jumper or group",
        P::Socket => "connector type",
        P::MaxCurrent => "highest current",
        P::Between => "connects",
        P::Shipped => "as shipped",
        P::Groups => "possible groups",
        P::Wire => "wire color",
        P::Ground => "for the ground wire",
        P::System => "supply voltage",
        P::Effect => "function",
        P::OnSide => "ON side",
        P::Steps => "entry of the layout number",
        P::Volts => "voltage",
        P::Isolated => "isolated supply",
        P::Dated => "date",
        other => other.word(),
    };
    plain.to_owned()
}

/// A value for a reader; what is not there is a dash.
pub fn value(value: Option<&Value>) -> String {
    match value {
        None => "-".to_owned(),
        Some(Value::Side(to)) => side(*to).to_owned(),
        Some(Value::Device(device)) => device.the(),
        Some(Value::Conductor(None)) => "not connected".to_owned(),
        Some(Value::Speeds(Speeds::None)) => "not installed".to_owned(),
        Some(Value::Speeds(Speeds::One)) => "one speed".to_owned(),
        Some(Value::Speeds(Speeds::Two)) => "two speeds".to_owned(),
        Some(other) => other.to_string(),
    }
}

/// Both values of a difference; of measures no more digits than show it.
pub fn pair(before: Option<&Value>, after: Option<&Value>) -> [String; 2] {
    let rounded = |it: Option<&Value>| match it {
        Some(Value::Amps(amps)) => format!("{} A", shortest(amps.0, 2)),
        Some(Value::Volts(volts)) => format!("{} V", shortest(volts.0, 2)),
        Some(Value::Watts(watts)) => format!("{} W", shortest(watts.0, 0)),
        other => value(other),
    };
    let few = [before, after].map(rounded);
    if few[0] == few[1] { [before, after].map(value) } else { few }
}

fn side(side: Side) -> &'static str {
    match side {
        Side::Up => "top",
        Side::Right => "right",
        Side::Down => "bottom",
        Side::Left => "left",
    }
}

/// The device of a plug.
fn device(change: &JobChange, plug: Plug) -> String {
    let device = change.devices.get(&plug).copied();
    match (device, plug) {
        (Some(device), _) => device.the(),
        (None, None) => Device::Heater.the(),
        (None, Some(index)) => format!("device {} of the job", index + 1),
    }
}

/// One step at the box, as sentences.
pub fn step(change: &JobChange, step: &Step) -> String {
    let name = |plug: &Plug| device(change, *plug);
    match step {
        Step::Connect { terminal, before, after } => match (before, after) {
            (Some(before), Value::Conductor(None)) => {
                format!("Remove {before} from terminal {terminal}. Leave {terminal} empty.")
            }
            (None | Some(Value::Conductor(None)), after) => {
                format!("Connect {after} to terminal {terminal}. Pull the wire gently.")
            }
            (Some(before), after) => format!(
                "At terminal {terminal}, connect {after} in place of {before}. Pull the wire gently."
            ),
        },
        Step::Link { link, from: Some(from), to } => {
            format!("Move link {link} from {from} to {to}. Tighten both screws.")
        }
        Step::Link { link, from: None, to } => {
            format!("Set link {link} to {to}. Tighten both screws.")
        }
        Step::Fuse { fuse, before, after } => {
            format!("Replace the {before} fuse {fuse} with a {after} fuse.")
        }
        Step::Jumper { jumper, from: Some(from), to } => format!(
            "Move jumper {jumper} from group {from} to group {to}. Push it fully onto a free tab."
        ),
        Step::Jumper { jumper, from: None, to } => {
            format!("Set jumper {jumper} to group {to}. Push it fully onto a free tab.")
        }
        Step::Plug { plug, from, to } => {
            let of = name(plug);
            match (from, to) {
                (Some(from), Some(to)) => format!("Move the plug of {of} from {from} to {to}."),
                (None, Some(to)) => format!("Plug {of} into {to}."),
                (from, None) => format!("Unplug {of} from {}.", value(from.as_ref())),
            }
        }
        Step::Connector { plug, header } => format!(
            "Stop at {header}. It has another connector type, and the plug of {} does not fit.",
            name(plug)
        ),
        Step::Turn { plug, header, key } => format!(
            "Turn the plug at {header} ({}) round. The key of {header} is now on the {}.",
            name(plug),
            side(*key)
        ),
        Step::Pins { plug, header, pins, from_top } => {
            let from = if *from_top { "From the top" } else { "From the left" };
            let pins: Vec<&str> =
                pins.iter().map(|pin| if pin == "-" { "empty" } else { pin }).collect();
            format!(
                "Compare each wire in the plug at {header} ({}). {from}: {}.",
                name(plug),
                pins.join(", ")
            )
        }
        Step::Empty { header } => format!("Leave {header} empty. Its pins can be live."),
        Step::Switch { bank, number, on } => {
            format!("Set switch {number} of {bank} to {}.", if *on { "ON" } else { "OFF" })
        }
        Step::Selector { selector, from: Some(from), to } => {
            format!("Turn selector {selector} from {from} to {to}.")
        }
        Step::Selector { selector, from: None, to } => format!("Set selector {selector} to {to}."),
        Step::Layout { from, to } => {
            let instead = from.as_ref().map(|from| format!(" in place of {from}"));
            format!(
                "With the cover closed, turn the supply on. Enter layout {to}{}, as the new work card shows.",
                instead.unwrap_or_default()
            )
        }
    }
}

/// What is decided: `voltage of pump 1`, `load on L1`.
pub fn subject(change: &JobChange, subject: &Subject) -> String {
    let name = |plug: &Plug| device(change, *plug);
    match subject {
        Subject::Terminal(code) => format!("wire on {code}"),
        Subject::Link(code) => format!("link {code}"),
        Subject::Fuse(code) => format!("fuse {code}"),
        Subject::Jumper(code) => format!("jumper {code}"),
        Subject::Device(plug) => match plug {
            Some(index) => format!("name of device {} of the job", index + 1),
            None => "name of the heater".to_owned(),
        },
        Subject::Header(plug) => format!("header of {}", name(plug)),
        Subject::Connector(plug) => format!("connector type of {}", name(plug)),
        Subject::Pins(plug) => format!("pins of {}", name(plug)),
        Subject::ReadFrom(plug) => format!("first pin of {} is at the", name(plug)),
        Subject::Empty(code) => format!("{code} empty"),
        Subject::Switch { bank, number } => format!("switch {number} of {bank}"),
        Subject::Selector(code) => format!("selector {code}"),
        Subject::Entry => "entry of the layout number".to_owned(),
        Subject::Layout => "layout".to_owned(),
        Subject::Allowance => "heater allowance".to_owned(),
        Subject::Group(plug) => format!("group of {}", name(plug)),
        Subject::JumperOf(plug) => format!("jumper of {}", name(plug)),
        Subject::FuseOf(plug) => format!("fuse of {}", name(plug)),
        Subject::Volts(plug) => format!("voltage of {}", name(plug)),
        Subject::Amps(plug) => format!("current of {}", name(plug)),
        Subject::LowAmps(plug) => format!("current of {} at low speed", name(plug)),
        Subject::Colours(plug) => format!("wire colors of {}", name(plug)),
        Subject::HeaterWatts => "heater output".to_owned(),
        Subject::Current(conductor) => format!("current on {conductor}"),
        Subject::Needed => "load on the breaker".to_owned(),
        Subject::Smallest => "smallest breaker".to_owned(),
        Subject::Rules => "rules for the breaker".to_owned(),
        Subject::Capacity => "ampacity of the supply run".to_owned(),
        Subject::Wires => "wire of the supply run".to_owned(),
        Subject::Drop => "voltage drop of the supply run".to_owned(),
    }
}

/// Whether a difference is told by no step.
pub fn beside_steps(change: &JobChange, decision: &DecisionChange) -> bool {
    let by_panel = change.steps.iter().any(|step| matches!(step, Step::Layout { .. }));
    match &decision.subject {
        Subject::Layout | Subject::Entry => !by_panel,
        Subject::Device(_) | Subject::Header(_) if decision.after.is_none() => false,
        Subject::Device(_) => true,
        subject => *subject > Subject::Layout || decision.after.is_none(),
    }
}
