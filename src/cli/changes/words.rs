//! What differs, in words for the terminal.

use crate::board::{Device, Pin, Speeds};
use crate::compare::{DecisionChange, JobChange, Plug, Set, Stand, Step, Subject};
use crate::decide::{PinOrder, ReadFrom};
use crate::english::capital;
use crate::geometry::Side;
use crate::meaning::{
    Concern, Kind, Property as P, Thing, Value, Which, positions_words, unpadded,
};
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
            Some((bank, numbers)) if numbers.contains('\u{2013}') => {
                format!("switches {numbers} of {bank}")
            }
            Some((bank, number)) => format!("switch {number} of {bank}"),
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
        Some(Value::Text(text)) => in_line(text),
        Some(Value::Conductor(None)) => "not connected".to_owned(),
        Some(Value::Speeds(Speeds::None)) => "not installed".to_owned(),
        Some(Value::Speeds(Speeds::One)) => "one speed".to_owned(),
        Some(Value::Speeds(Speeds::Two)) => "two speeds".to_owned(),
        Some(other) => other.to_string(),
    }
}

/// A text of several lines in one, without marks around words.
fn in_line(text: &str) -> String {
    let text = text.replace("**", "").replace("{{ layout }}", "the layout number");
    text.split_whitespace().collect::<Vec<_>>().join(" ")
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
    match step {
        Step::Place { kind, now, was } => {
            format!("{} {now} is now where {was} was. Go by the label.", capital(kind.word()))
        }
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
        Step::Link(it) => setting("link", "Move", "on ", it, "Tighten both screws."),
        Step::Fuse { fuse, before, after } => format!(
            "Make sure that the fuse {fuse} on the new board is {after}. Do not use the old fuse of {before}."
        ),
        Step::Jumper(it) => {
            setting("jumper", "Move", "on group ", it, "Push it fully onto a free tab.")
        }
        Step::Plug { .. }
        | Step::Connector { .. }
        | Step::Turn { .. }
        | Step::Wires { .. }
        | Step::Pins { .. } => at_plug(change, step),
        Step::Empty { header } => format!("Leave {header} empty. Its pins can be live."),
        Step::Switch { bank, number, on, shipped, old } => match (shipped, old) {
            (false, _) => format!("Set switch {number} of {bank} to {}.", on_off(*on)),
            (true, None) => format!("Leave switch {number} of {bank} {}, as shipped.", on_off(*on)),
            (true, Some(old)) => format!(
                "Leave switch {number} of {bank} {}, as shipped. On the old board it was {}.",
                on_off(*on),
                on_off(*old)
            ),
        },
        Step::Meaning { bank, ways, now, was, instead } => {
            meaning(bank, *ways, now, was.as_ref(), instead.as_deref())
        }
        Step::Selector(it) => setting("selector", "Turn", "at ", it, ""),
        Step::Layout { from, to } => {
            let old = from.as_ref().map(|from| format!(" On the old board it was {from}."));
            format!(
                "With the cover closed, turn the supply on. Enter layout {to}, as the new work card shows.{}",
                old.unwrap_or_default()
            )
        }
    }
}

/// A step at a plug; nothing for any other.
fn at_plug(change: &JobChange, step: &Step) -> String {
    let name = |plug: &Plug| device(change, *plug);
    match step {
        Step::Plug { plug, from, to, key } => {
            let of = name(plug);
            let moved = match (from, to) {
                (Some(from), Some(to)) => format!("Move the plug of {of} from {from} to {to}."),
                (None, Some(to)) => format!("Plug {of} into {to}."),
                (from, None) => format!("Unplug {of} from {}.", value(from.as_ref())),
            };
            let key = key.zip(to.as_ref());
            let key = key.map(|(key, to)| format!(" The key of {to} is on the {}.", side(key)));
            moved + &key.unwrap_or_default()
        }
        Step::Connector { plug, header } => format!(
            "Stop at {header}. It has another connector type, and the plug of {} does not fit.",
            name(plug)
        ),
        Step::Turn { plug, header, quarters, key } => format!(
            "Turn the plug at {header} ({}) {}. The key of {header} is now on the {}.",
            name(plug),
            match quarters {
                1 => "a quarter turn clockwise",
                2 => "by half a turn",
                _ => "a quarter turn counterclockwise",
            },
            side(*key)
        ),
        Step::Wires { plug, header, rewiring, now } => {
            let moved: Vec<String> = rewiring.moved.iter().map(ToString::to_string).collect();
            format!(
                "In the plug at {header} ({}), move these wires to other cavities: {}. Before, {}. Now, {}.",
                name(plug),
                moved.join(", "),
                pins(&rewiring.before),
                pins(now)
            )
        }
        Step::Pins { plug, header, now } => format!(
            "Compare each wire in the plug at {header} ({}). {}.",
            name(plug),
            capital(&pins(now))
        ),
        _ => String::new(),
    }
}

/// Where a thing belongs on a board that is as it is shipped.
fn setting(what: &str, moves: &str, at: &str, it: &Set, then: &str) -> String {
    let Set { of, shipped, to, old } = it;
    let words = match (it.stays(), old) {
        (true, None) => format!("Leave {what} {of} {at}{to}, as shipped."),
        (true, Some(old)) => {
            format!("Leave {what} {of} {at}{to}, as shipped. On the old board it was {at}{old}.")
        }
        (false, _) => {
            let group = at.strip_prefix("on ").unwrap_or_default();
            format!("{moves} {what} {of} from {group}{shipped}, as shipped, to {group}{to}. {then}")
        }
    };
    words.trim_end().to_owned()
}

/// What switches mean that stay as they are shipped.
fn meaning(
    bank: &str,
    ways: [u8; 2],
    now: &Stand,
    was: Option<&Stand>,
    instead: Option<&[bool]>,
) -> String {
    let stands = |positions: &[bool]| positions_words(positions).to_uppercase();
    let stop = |text: &str| if text.ends_with(['.', '!', '?']) { "" } else { "." };
    let means = |it: &Stand| format!("{}{}", it.means, stop(&it.means));
    let field = numbers(ways);
    let mut words = format!("{} of {bank} {}", capital(&field), stands(&now.positions));
    match was {
        Some(was) if was.positions == now.positions => {
            words.push_str(&format!(" now means: {} It meant: {}", means(now), means(was)));
        }
        Some(was) => words.push_str(&format!(
            ", as shipped, means: {} On the old board it was {} and meant: {}",
            means(now),
            stands(&was.positions),
            means(was)
        )),
        None => words.push_str(&format!(", as shipped, means: {}", means(now))),
    }
    if let Some(instead) = instead {
        let (field, to) = (&field, stands(instead));
        words.push_str(&format!(" If this spa needs what it meant before, set {field} to {to}."));
    }
    words
}

/// `switch 3`, `switches 1-2`.
fn numbers([first, last]: [u8; 2]) -> String {
    if first == last {
        format!("switch {first}")
    } else {
        format!("switches {first}\u{2013}{last}")
    }
}

fn on_off(on: bool) -> &'static str {
    if on { "ON" } else { "OFF" }
}

/// `from the top: ground, common, low, high`.
fn pins(order: &PinOrder) -> String {
    let from = match order.read_from {
        ReadFrom::Top => "from the top",
        ReadFrom::Left => "from the left",
    };
    let name = |pin: &Option<Pin>| pin.map_or_else(|| "empty".to_owned(), |pin| pin.to_string());
    let pins: Vec<String> = order.pins.iter().map(name).collect();
    format!("{from}: {}", pins.join(", "))
}

/// What is decided: `voltage of pump 1`, `load on L1`.
pub fn subject(change: &JobChange, subject: &Subject) -> String {
    let name = |plug: &Plug| device(change, *plug);
    match subject {
        Subject::Place { kind, now } => format!("place of {kind} {now}"),
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
        Subject::Key(plug) => format!("key of the header of {}", name(plug)),
        Subject::Empty(code) => format!("{code} empty"),
        Subject::Switch { bank, number } => format!("switch {number} of {bank}"),
        Subject::Meaning { bank, first, last } => {
            format!("meaning of {} of {bank}", numbers([*first, *last]))
        }
        Subject::Selector(code) => format!("selector {code}"),
        Subject::Shipped(thing) => format!("{}, as shipped", self::subject(change, thing)),
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
        Subject::Place { .. } | Subject::Shipped(_) | Subject::Meaning { .. } => false,
        subject => *subject > Subject::Layout || decision.after.is_none(),
    }
}
