//! Reading the things on a board, one function for each kind.

use super::fields::{Fields, Value, wrong_kind};
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
/// Longest summary of a board, characters.
const SUMMARY: usize = 300;
/// Longest steps of a panel, characters.
const STEPS: usize = 4000;

/// Reads `board`.
pub fn about(value: Value<'_>, place: Span, problems: &mut Problems) -> About {
    let known = [
        "name",
        "maker",
        "part",
        "revision",
        "dated",
        "summary",
        "max current",
        "designators",
        "letters",
    ];
    let fields = Fields::open(value.node, "the board", place, &known, problems);
    About {
        name: fields.must("name", problems, title),
        maker: fields.must("maker", problems, title),
        part: fields.must("part", problems, title),
        revision: fields.must("revision", problems, title),
        dated: fields.must("dated", problems, word),
        summary: fields.must("summary", problems, |v, p| texts(v, SUMMARY, p)),
        max_current: fields.may("max current", problems, amps),
        designators: fields.may("designators", problems, word),
        letters: fields.may("letters", problems, |v, p| pairs(v, POSITION, p)),
    }
}

/// Reads one of `parts`.
pub fn part(name: &Name, value: Value<'_>, problems: &mut Problems) -> Part {
    let fields = open(name, value, &["title", "size", "at"], problems);
    Part {
        name: name.clone(),
        title: fields.may("title", problems, titles),
        size: fields.must("size", problems, size),
        at: fields.must("at", problems, point),
    }
}

/// Reads one of `terminals`.
pub fn terminal(name: &Name, value: Value<'_>, problems: &mut Problems) -> Terminal {
    let fields = open(name, value, &["part", "at", "wire", "ground"], problems);
    Terminal {
        name: name.clone(),
        place: sits(&fields, problems),
        wire: fields.may("wire", problems, word),
        ground: fields.may("ground", problems, truth),
    }
}

/// Reads one of `links`.
pub fn link(name: &Name, value: Value<'_>, problems: &mut Problems) -> Link {
    let fields = open(name, value, &["part", "at", "joins", "shipped"], problems);
    Link {
        name: name.clone(),
        place: sits(&fields, problems),
        joins: fields.must("joins", problems, words),
        shipped: fields.must("shipped", problems, word),
    }
}

/// Reads one of `supplies`.
pub fn supply(name: &Name, value: Value<'_>, problems: &mut Problems) -> Supply {
    let fields = open(name, value, &["title", "system", "lands", "links", "max current"], problems);
    Supply {
        name: name.clone(),
        title: fields.must("title", problems, titles),
        system: fields.must("system", problems, word),
        lands: fields.must("lands", problems, |v, p| pairs(v, 60, p)),
        links: fields.may("links", problems, |v, p| pairs(v, 60, p)),
        max_current: fields.may("max current", problems, amps),
    }
}

/// Reads one of `groups`.
pub fn group(name: &Name, value: Value<'_>, problems: &mut Problems) -> Group {
    let known = ["part", "at", "tabs", "between", "volts", "isolated"];
    let fields = open(name, value, &known, problems);
    Group {
        name: name.clone(),
        place: sits(&fields, problems),
        tabs: fields.may("tabs", problems, |v, p| whole(v, 1, 40, p)),
        between: fields.may("between", problems, words),
        volts: fields.may("volts", problems, bare_volts),
        isolated: fields.may("isolated", problems, volts),
    }
}

/// Reads one of `jumpers`.
pub fn jumper(name: &Name, value: Value<'_>, problems: &mut Problems) -> Jumper {
    let fields = open(name, value, &["part", "at", "groups", "shipped"], problems);
    Jumper {
        name: name.clone(),
        place: sits(&fields, problems),
        groups: fields.must("groups", problems, words),
        shipped: fields.must("shipped", problems, word),
    }
}

/// Reads one of `fuses`.
pub fn fuse(name: &Name, value: Value<'_>, problems: &mut Problems) -> Fuse {
    let fields = open(name, value, &["part", "at", "rating", "speed"], problems);
    Fuse {
        name: name.clone(),
        place: sits(&fields, problems),
        rating: fields.must("rating", problems, amps),
        speed: fields.may("speed", problems, word),
    }
}

/// Reads one of `sockets`.
pub fn socket(name: &Name, value: Value<'_>, problems: &mut Problems) -> Socket {
    let known = ["title", "pitch", "key drawn", "pins", "wires", "one speed wires"];
    let fields = open(name, value, &known, problems);
    Socket {
        name: name.clone(),
        title: fields.must("title", problems, titles),
        pitch: fields.must("pitch", problems, pitch),
        key_drawn: fields.may("key drawn", problems, side),
        pins: fields.must("pins", problems, words),
        wires: fields.may("wires", problems, words),
        one_speed_wires: fields.may("one speed wires", problems, words),
    }
}

/// Reads one of `devices`.
pub fn device(name: &Name, value: Value<'_>, problems: &mut Problems) -> OwnDevice {
    let known =
        ["motor", "continuous", "counts for allowance", "moves water", "runs with", "cord of"];
    let fields = open(name, value, &known, problems);
    OwnDevice {
        name: name.clone(),
        motor: fields.may("motor", problems, truth),
        continuous: fields.may("continuous", problems, truth),
        counts_for_allowance: fields.may("counts for allowance", problems, truth),
        moves_water: fields.may("moves water", problems, truth),
        runs_with: fields.may("runs with", problems, word),
        cord_of: fields.may("cord of", problems, word),
    }
}

/// Reads one of `headers`.
pub fn header(name: &Name, value: Value<'_>, problems: &mut Problems) -> Header {
    let known =
        ["title", "part", "at", "socket", "key", "group", "jumper", "fuse", "max", "serves"];
    let fields = open(name, value, &known, problems);
    Header {
        name: name.clone(),
        title: fields.must("title", problems, titles),
        place: sits(&fields, problems),
        socket: fields.must("socket", problems, word),
        key: fields.may("key", problems, side),
        group: fields.may("group", problems, word),
        jumper: fields.may("jumper", problems, word),
        fuse: fields.may("fuse", problems, word),
        max: fields.may("max", problems, amps),
        serves: fields.must("serves", problems, serves),
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
    let fields = Fields::open(value.node, "the heater", place, &["watts", "at volts"], problems);
    Some(Heater {
        watts: fields.must("watts", problems, bare_watts),
        at: fields.must("at volts", problems, bare_volts),
    })
}

/// Reads `electronics`.
pub fn electronics(value: Value<'_>, problems: &mut Problems) -> Option<Electronics> {
    let place = value.node.span;
    let fields = Fields::open(value.node, "the electronics", place, &["between"], problems);
    Some(Electronics { between: fields.must("between", problems, words) })
}

/// Reads one of `selectors`.
pub fn selector(name: &Name, value: Value<'_>, problems: &mut Problems) -> Selector {
    let fields = open(name, value, &["part", "at", "positions", "shipped"], problems);
    Selector {
        name: name.clone(),
        place: sits(&fields, problems),
        positions: fields.must("positions", problems, |v, p| pairs(v, POSITION, p)),
        shipped: fields.must("shipped", problems, word),
    }
}

/// Reads one of `panels`.
pub fn panel(name: &Name, value: Value<'_>, problems: &mut Problems) -> Panel {
    let fields = open(name, value, &["title", "choose layout"], problems);
    Panel {
        name: name.clone(),
        title: fields.must("title", problems, titles),
        choose_layout: fields.may("choose layout", problems, |v, p| texts(v, STEPS, p)),
    }
}

/// Opens the map of the thing `name`.
pub fn open<'n>(
    name: &Name,
    value: Value<'n>,
    known: &[&'static str],
    problems: &mut Problems,
) -> Fields<'n> {
    Fields::open(value.node, value.name, name.span, known, problems)
}

/// Reads `part` and `at`.
pub fn sits(fields: &Fields<'_>, problems: &mut Problems) -> Place {
    Place { part: fields.must("part", problems, word), at: fields.must("at", problems, point) }
}
