//! Reading the things on a board, one function for each kind.

use super::fields::{Fields, Value, wrong_kind};
use super::language::{Form, MEANING, STEPS, board, circuit, service};
use super::model::{
    About, Electronics, Fuse, Group, Header, Heater, Jumper, Link, Name, OwnDevice, Panel, Part,
    Place, Selector, Serves, Socket, Supply, Terminal,
};
use super::tree::YamlKind;
use super::values::{
    amps, bare_volts, bare_watts, pairs, pitch, point, side, size, title, truth, volts, whole,
    word, words,
};
use super::wording::{texts, titles};
use crate::diagnostic::Problems;
use crate::source::{Span, Spanned};

/// Longest word of what a position of a selector sets, characters.
const POSITION: usize = 24;

/// Reads `board`.
pub fn about(value: Value<'_>, place: Span, problems: &mut Problems) -> About {
    let fields = Fields::open(value.node, "the board", place, &board::ABOUT, problems);
    About {
        name: fields.get("name", problems, title),
        maker: fields.get("maker", problems, title),
        part: fields.get("part", problems, title),
        revision: fields.get("revision", problems, title),
        dated: fields.get("dated", problems, word),
        summary: fields.get("summary", problems, |v, p| texts(v, MEANING, p)),
        max_current: fields.get("max current", problems, amps),
        designators: fields.get("designators", problems, word),
        letters: fields.get("letters", problems, |v, p| pairs(v, POSITION, p)),
    }
}

/// Reads one of `parts`.
pub fn part(name: &Name, value: Value<'_>, problems: &mut Problems) -> Part {
    let fields = open(name, value, &board::PART, problems);
    Part {
        name: name.clone(),
        title: fields.get("title", problems, titles),
        size: fields.get("size", problems, size),
        at: fields.get("at", problems, point),
    }
}

/// Reads one of `terminals`.
pub fn terminal(name: &Name, value: Value<'_>, problems: &mut Problems) -> Terminal {
    let fields = open(name, value, &circuit::TERMINAL, problems);
    Terminal {
        name: name.clone(),
        place: sits(&fields, problems),
        wire: fields.get("wire", problems, word),
        ground: fields.get("ground", problems, truth),
    }
}

/// Reads one of `links`.
pub fn link(name: &Name, value: Value<'_>, problems: &mut Problems) -> Link {
    let fields = open(name, value, &circuit::LINK, problems);
    Link {
        name: name.clone(),
        place: sits(&fields, problems),
        joins: fields.get("joins", problems, words),
        shipped: fields.get("shipped", problems, word),
    }
}

/// Reads one of `supplies`.
pub fn supply(name: &Name, value: Value<'_>, problems: &mut Problems) -> Supply {
    let fields = open(name, value, &circuit::SUPPLY, problems);
    Supply {
        name: name.clone(),
        title: fields.get("title", problems, titles),
        system: fields.get("system", problems, word),
        lands: fields.get("lands", problems, |v, p| pairs(v, 60, p)),
        links: fields.get("links", problems, |v, p| pairs(v, 60, p)),
        max_current: fields.get("max current", problems, amps),
    }
}

/// Reads one of `groups`.
pub fn group(name: &Name, value: Value<'_>, problems: &mut Problems) -> Group {
    let fields = open(name, value, &circuit::GROUP, problems);
    Group {
        name: name.clone(),
        place: sits(&fields, problems),
        tabs: fields.get("tabs", problems, |v, p| whole(v, 1, 40, p)),
        between: fields.get("between", problems, words),
        volts: fields.get("volts", problems, bare_volts),
        isolated: fields.get("isolated", problems, volts),
    }
}

/// Reads one of `jumpers`.
pub fn jumper(name: &Name, value: Value<'_>, problems: &mut Problems) -> Jumper {
    let fields = open(name, value, &circuit::JUMPER, problems);
    Jumper {
        name: name.clone(),
        place: sits(&fields, problems),
        groups: fields.get("groups", problems, words),
        shipped: fields.get("shipped", problems, word),
    }
}

/// Reads one of `fuses`.
pub fn fuse(name: &Name, value: Value<'_>, problems: &mut Problems) -> Fuse {
    let fields = open(name, value, &circuit::FUSE, problems);
    Fuse {
        name: name.clone(),
        place: sits(&fields, problems),
        rating: fields.get("rating", problems, amps),
        speed: fields.get("speed", problems, word),
    }
}

/// Reads one of `sockets`.
pub fn socket(name: &Name, value: Value<'_>, problems: &mut Problems) -> Socket {
    let fields = open(name, value, &service::SOCKET, problems);
    Socket {
        name: name.clone(),
        title: fields.get("title", problems, titles),
        pitch: fields.get("pitch", problems, pitch),
        key_drawn: fields.get("key drawn", problems, side),
        pins: fields.get("pins", problems, words),
        wires: fields.get("wires", problems, words),
        one_speed_wires: fields.get("one speed wires", problems, words),
    }
}

/// Reads one of `devices`.
pub fn device(name: &Name, value: Value<'_>, problems: &mut Problems) -> OwnDevice {
    let fields = open(name, value, &service::DEVICE, problems);
    OwnDevice {
        name: name.clone(),
        motor: fields.get("motor", problems, truth),
        continuous: fields.get("continuous", problems, truth),
        counts_for_allowance: fields.get("counts for allowance", problems, truth),
        moves_water: fields.get("moves water", problems, truth),
        runs_with: fields.get("runs with", problems, word),
        cord_of: fields.get("cord of", problems, word),
    }
}

/// Reads one of `headers`.
pub fn header(name: &Name, value: Value<'_>, problems: &mut Problems) -> Header {
    let fields = open(name, value, &service::HEADER, problems);
    Header {
        name: name.clone(),
        title: fields.get("title", problems, titles),
        place: sits(&fields, problems),
        socket: fields.get("socket", problems, word),
        key: fields.get("key", problems, side),
        group: fields.get("group", problems, word),
        jumper: fields.get("jumper", problems, word),
        fuse: fields.get("fuse", problems, word),
        max: fields.get("max", problems, amps),
        serves: fields.get("serves", problems, serves),
    }
}

fn serves(value: Value<'_>, problems: &mut Problems) -> Option<Serves> {
    let span = value.node.span;
    match &value.node.kind {
        YamlKind::Text(_) => {
            word(value, problems).map(|device| Serves::Always(Spanned::new(device, span)))
        }
        YamlKind::Map(_) => pairs(value, 60, problems).map(Serves::Under),
        _ => {
            let wanted = "a device, or a map of layouts to devices";
            wrong_kind(value.node, &value.name, wanted, problems);
            None
        }
    }
}

/// Reads `heater`.
pub fn heater(value: Value<'_>, problems: &mut Problems) -> Option<Heater> {
    let place = value.node.span;
    let fields = Fields::open(value.node, "the heater", place, &service::HEATER, problems);
    Some(Heater {
        watts: fields.get("watts", problems, bare_watts),
        at: fields.get("at volts", problems, bare_volts),
    })
}

/// Reads `electronics`.
pub fn electronics(value: Value<'_>, problems: &mut Problems) -> Option<Electronics> {
    let place = value.node.span;
    let fields =
        Fields::open(value.node, "the electronics", place, &circuit::ELECTRONICS, problems);
    Some(Electronics { between: fields.get("between", problems, words) })
}

/// Reads one of `selectors`.
pub fn selector(name: &Name, value: Value<'_>, problems: &mut Problems) -> Selector {
    let fields = open(name, value, &service::SELECTOR, problems);
    Selector {
        name: name.clone(),
        place: sits(&fields, problems),
        positions: fields.get("positions", problems, |v, p| pairs(v, POSITION, p)),
        shipped: fields.get("shipped", problems, word),
    }
}

/// Reads one of `panels`.
pub fn panel(name: &Name, value: Value<'_>, problems: &mut Problems) -> Panel {
    let fields = open(name, value, &service::PANEL, problems);
    Panel {
        name: name.clone(),
        title: fields.get("title", problems, titles),
        choose_layout: fields.get("choose layout", problems, |v, p| texts(v, STEPS, p)),
    }
}

/// Opens the map of the thing `name`.
pub fn open<'n>(
    name: &Name,
    value: Value<'n>,
    form: &'static Form,
    problems: &mut Problems,
) -> Fields<'n> {
    Fields::open(value.node, value.name, name.span, form, problems)
}

/// Reads `part` and `at`.
pub fn sits(fields: &Fields<'_>, problems: &mut Problems) -> Place {
    Place { part: fields.get("part", problems, word), at: fields.get("at", problems, point) }
}
