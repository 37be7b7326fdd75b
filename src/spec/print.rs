//! A specification as canonical YAML: one thing a line, keys in the language's order.
//!
//! What is printed reads back as an equal [`Spec`]. Values that could not be read are left out.

use std::fmt::Write;

use super::fields::{Field, Section};
use super::model::{Layouts, Name, Place, Serves, Spec, SwitchField, Use, Ways};
use super::wording::Wording;
use crate::geometry::{Point, Side, Size};
use crate::source::Spanned;
use crate::units::{Amps, Length, Volts, Watts};

/// The whole specification as YAML.
pub fn print(spec: &Spec) -> String {
    let mut out = Out { text: format!("lidsheet: {}\n", super::VERSION) };
    let about = &spec.about;
    let mut map = Map::new();
    map.field("name", &about.name, |v| quoted(v));
    map.field("maker", &about.maker, |v| quoted(v));
    map.field("part", &about.part, |v| quoted(v));
    map.field("revision", &about.revision, |v| quoted(v));
    map.field("dated", &about.dated, |v| quoted(v));
    map.field("summary", &about.summary, wording);
    map.field("max current", &about.max_current, amps);
    map.field("designators", &about.designators, |v| quoted(v));
    map.field("letters", &about.letters, |v| pairs(v));
    out.line("board", &map.close());
    out.section("parts", &spec.parts, |part| {
        let mut map = Map::new();
        map.field("size", &part.size, size);
        map.field("at", &part.at, point);
        map.field("title", &part.title, wording);
        (&part.name, map.close())
    });
    out.section("terminals", &spec.terminals, |terminal| {
        let mut map = Map::placed(&terminal.place);
        map.field("wire", &terminal.wire, |v| quoted(v));
        map.field("ground", &terminal.ground, bool::to_string);
        (&terminal.name, map.close())
    });
    out.section("links", &spec.links, |link| {
        let mut map = Map::placed(&link.place);
        map.field("joins", &link.joins, |v| names(v));
        map.field("shipped", &link.shipped, |v| quoted(v));
        (&link.name, map.close())
    });
    out.section("supplies", &spec.supplies, |supply| {
        let mut map = Map::new();
        map.field("title", &supply.title, wording);
        map.field("system", &supply.system, |v| quoted(v));
        map.field("lands", &supply.lands, |v| pairs(v));
        map.field("links", &supply.links, |v| pairs(v));
        map.field("max current", &supply.max_current, amps);
        (&supply.name, map.close())
    });
    out.section("groups", &spec.groups, |group| {
        let mut map = Map::placed(&group.place);
        map.field("tabs", &group.tabs, u8::to_string);
        map.field("between", &group.between, |v| names(v));
        map.field("volts", &group.volts, |Volts(v)| v.to_string());
        map.field("isolated", &group.isolated, |Volts(v)| format!("{v} V"));
        (&group.name, map.close())
    });
    out.section("jumpers", &spec.jumpers, |jumper| {
        let mut map = Map::placed(&jumper.place);
        map.field("groups", &jumper.groups, |v| names(v));
        map.field("shipped", &jumper.shipped, |v| quoted(v));
        (&jumper.name, map.close())
    });
    out.section("fuses", &spec.fuses, |fuse| {
        let mut map = Map::placed(&fuse.place);
        map.field("rating", &fuse.rating, amps);
        map.field("speed", &fuse.speed, |v| quoted(v));
        (&fuse.name, map.close())
    });
    out.section("sockets", &spec.sockets, |socket| {
        let mut map = Map::new();
        map.field("title", &socket.title, wording);
        map.field("pitch", &socket.pitch, |Length(v)| format!("{v} mm"));
        map.field("key drawn", &socket.key_drawn, side);
        map.field("pins", &socket.pins, |v| names(v));
        map.field("wires", &socket.wires, |v| names(v));
        map.field("one speed wires", &socket.one_speed_wires, |v| names(v));
        (&socket.name, map.close())
    });
    out.section("devices", &spec.devices, |device| {
        let mut map = Map::new();
        map.field("motor", &device.motor, bool::to_string);
        map.field("continuous", &device.continuous, bool::to_string);
        map.field("counts for allowance", &device.counts_for_allowance, bool::to_string);
        map.field("moves water", &device.moves_water, bool::to_string);
        map.field("runs with", &device.runs_with, |v| quoted(v));
        map.field("cord of", &device.cord_of, |v| quoted(v));
        (&device.name, map.close())
    });
    out.section("headers", &spec.headers, |header| {
        let mut map = Map::new();
        map.field("title", &header.title, wording);
        map.place(&header.place);
        map.field("socket", &header.socket, |v| quoted(v));
        map.field("key", &header.key, side);
        map.field("group", &header.group, |v| quoted(v));
        map.field("jumper", &header.jumper, |v| quoted(v));
        map.field("fuse", &header.fuse, |v| quoted(v));
        map.field("max", &header.max, amps);
        map.field("serves", &header.serves, |serves| match serves {
            Serves::Always(device) => quoted(&device.value),
            Serves::Under(under) => pairs(under),
        });
        (&header.name, map.close())
    });
    if let Some(heater) = spec.heater.value() {
        let mut map = Map::new();
        map.field("watts", &heater.watts, |Watts(v)| v.to_string());
        map.field("at volts", &heater.at, |Volts(v)| v.to_string());
        out.line("heater", &map.close());
    }
    if let Some(electronics) = spec.electronics.value() {
        let mut map = Map::new();
        map.field("between", &electronics.between, |v| names(v));
        out.line("electronics", &map.close());
    }
    out.layouts(&spec.layouts);
    out.banks(spec);
    out.section("selectors", &spec.selectors, |selector| {
        let mut map = Map::placed(&selector.place);
        map.field("positions", &selector.positions, |v| pairs(v));
        map.field("shipped", &selector.shipped, |v| quoted(v));
        (&selector.name, map.close())
    });
    out.section("panels", &spec.panels, |panel| {
        let mut map = Map::new();
        map.field("title", &panel.title, wording);
        map.field("choose layout", &panel.choose_layout, wording);
        (&panel.name, map.close())
    });
    if let Some(accepted) = spec.accepted.value() {
        out.line("accepted", &pairs(accepted));
    }
    out.text
}

struct Out {
    text: String,
}

impl Out {
    /// Writing to a string cannot fail.
    fn line(&mut self, key: &str, value: &str) {
        let _ = writeln!(self.text, "{key}: {value}");
    }

    fn section<'s, T>(
        &mut self,
        key: &str,
        section: &'s Section<T>,
        one: impl Fn(&'s T) -> (&'s Name, String),
    ) {
        if section.entries.is_empty() {
            return;
        }
        let _ = writeln!(self.text, "{key}:");
        for entry in &section.entries {
            let (name, value) = one(entry);
            let _ = writeln!(self.text, "  {}: {value}", quoted(&name.value));
        }
    }

    fn layouts(&mut self, layouts: &Layouts) {
        self.text.push_str("layouts:\n");
        if let Some(columns) = layouts.columns.value() {
            let _ = writeln!(self.text, "  columns: {}", names(columns));
        }
        self.text.push_str("  rows:\n");
        for row in &layouts.rows.entries {
            if let (Some(number), Some(cells)) = (&row.number, &row.cells) {
                let _ = writeln!(self.text, "    {}: {}", number.value, names(cells));
            }
        }
    }

    fn banks(&mut self, spec: &Spec) {
        if spec.switches.entries.is_empty() {
            return;
        }
        self.text.push_str("switches:\n");
        for bank in &spec.switches.entries {
            let _ = writeln!(self.text, "  {}:", quoted(&bank.name.value));
            if let Some(part) = bank.place.part.value() {
                let _ = writeln!(self.text, "    part: {}", quoted(part));
            }
            if let Some(at) = bank.place.at.value() {
                let _ = writeln!(self.text, "    at: {}", point(at));
            }
            if let Some(on) = bank.on_side.value() {
                let _ = writeln!(self.text, "    on side: {}", side(on));
            }
            self.text.push_str("    ways:\n");
            for ways in &bank.ways.entries {
                let _ =
                    writeln!(self.text, "      {}: {}", quoted(&ways.name.value), purpose(ways));
            }
        }
    }
}

fn purpose(ways: &Ways) -> String {
    match &ways.purpose {
        Use::Nothing => "unused".to_owned(),
        Use::Unread => "{}".to_owned(),
        Use::Field(field) => {
            let SwitchField { effect, title, settings, when_off, when_on, shipped } =
                field.as_ref();
            let mut map = Map::new();
            map.field("effect", effect, |v| quoted(v));
            map.field("title", title, wording);
            map.field("settings", settings, |v| settings_of(v));
            map.field("when off", when_off, wording);
            map.field("when on", when_on, wording);
            map.field("shipped", shipped, |v| quoted(v));
            map.close()
        }
    }
}

/// A map in curly brackets, on its way.
struct Map {
    entries: Vec<String>,
}

impl Map {
    fn new() -> Self {
        Self { entries: Vec::new() }
    }

    fn placed(place: &Place) -> Self {
        let mut map = Self::new();
        map.place(place);
        map
    }

    fn place(&mut self, place: &Place) {
        self.field("part", &place.part, |v| quoted(v));
        self.field("at", &place.at, point);
    }

    fn field<T>(&mut self, key: &str, field: &Field<T>, show: impl Fn(&T) -> String) {
        if let Some(value) = field.value() {
            self.entries.push(format!("{key}: {}", show(value)));
        }
    }

    fn close(self) -> String {
        format!("{{ {} }}", self.entries.join(", "))
    }
}

fn amps(Amps(value): &Amps) -> String {
    format!("{value} A")
}

fn point(point: &Point) -> String {
    format!("[{}, {}]", point.x, point.y)
}

fn size(size: &Size) -> String {
    format!("[{}, {}]", size.width, size.height)
}

fn side(side: &Side) -> String {
    side.word().to_owned()
}

fn names(names: &[Name]) -> String {
    let names: Vec<String> = names.iter().map(|name| quoted(&name.value)).collect();
    format!("[{}]", names.join(", "))
}

fn pairs(pairs: &[(Name, Name)]) -> String {
    let pairs: Vec<String> =
        pairs.iter().map(|(k, v)| format!("{}: {}", quoted(&k.value), quoted(&v.value))).collect();
    format!("{{ {} }}", pairs.join(", "))
}

/// Words for people; by language if they are given so.
fn wording(wording: &Wording) -> String {
    if !wording.is_by_language() {
        return quoted(wording);
    }
    let all = wording.by_language();
    let all: Vec<String> = all
        .map(|(tag, words)| format!("{}: {}", quoted(&tag.value), quoted(&words.value)))
        .collect();
    format!("{{ {} }}", all.join(", "))
}

fn settings_of(settings: &[(Name, Spanned<Wording>)]) -> String {
    let all: Vec<String> = settings
        .iter()
        .map(|(positions, meaning)| {
            format!("{}: {}", quoted(&positions.value), wording(&meaning.value))
        })
        .collect();
    format!("{{ {} }}", all.join(", "))
}

/// A text as it is, if YAML cannot take it for anything else, or between double quotes.
fn quoted(text: &str) -> String {
    // YAML's word for nothing.
    let nothing = text.eq_ignore_ascii_case("null");
    let plain = !nothing
        && text.starts_with(|c: char| c.is_ascii_alphanumeric())
        && text.ends_with(|c: char| c.is_ascii_alphanumeric())
        && text.chars().all(|c| c.is_ascii_alphanumeric() || matches!(c, ' ' | '-' | '/' | '.'));
    if plain {
        return text.to_owned();
    }
    let mut out = String::from("\"");
    for c in text.chars() {
        match c {
            '"' | '\\' => {
                out.push('\\');
                out.push(c);
            }
            '\n' => out.push_str("\\n"),
            c if (c as u32) < 0x20 || (0x7f..0xa0).contains(&(c as u32)) => {
                let _ = write!(out, "\\x{:02x}", c as u32);
            }
            c => out.push(c),
        }
    }
    out.push('"');
    out
}
