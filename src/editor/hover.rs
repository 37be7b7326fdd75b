//! What stands at a place, in words for the person who writes it.

use std::fmt::Write as _;
use std::ops::Range;

use super::complete::explained;
use super::document::{Document, What};
use super::names::{Names, name_at};
use crate::board::{Board, Feed, GroupId, HeaderId, SupplyId, vocabulary};
use crate::decide::{ReadFrom, pin_order};
use crate::spec::language::{Kind, Range as Limits, Thing};
use crate::units::{Length, shortest};

/// Help for what stands at a byte, in Markdown, and its bytes. `board` is there if it is sound.
pub fn hover(
    document: &Document,
    names: &Names,
    board: Option<&Board>,
    offset: usize,
) -> Option<(String, Range<usize>)> {
    let mark = document.at(offset)?;
    let about = name_at(document, names, offset)
        .and_then(|(name, _)| named(name.thing, &name.text, board?));
    let says = match mark.what {
        What::Key(_, key) => explained(key),
        What::Thing(_, form) => about.unwrap_or_else(|| form.says.to_owned()),
        What::Value(kind) => about.or_else(|| of_value(kind, &mark.text, board))?,
        What::Nothing(_) | What::Map(_) | What::Strange(_) => return None,
    };
    Some((says, mark.range.clone()))
}

/// What a sound board says of one of its things.
fn named(thing: Thing, text: &str, board: &Board) -> Option<String> {
    match thing {
        Thing::Group => {
            let id = board.groups.iter().position(|group| group.code == text)?;
            let mut out = format!("Group {text}\n");
            for line in volts_of(board, GroupId(id)) {
                let _ = write!(out, "\n- {line}");
            }
            Some(out)
        }
        Thing::Jumper => {
            let jumper = board.jumpers.iter().find(|jumper| jumper.code == text)?;
            let mut out = format!("Jumper {text}, shipped on {}\n", board[jumper.shipped].code);
            for group in &jumper.groups {
                let volts = volts_of(board, *group).join("; ");
                let _ = write!(out, "\n- on {}: {volts}", board[*group].code);
            }
            Some(out)
        }
        Thing::Header => {
            let id = board.headers.iter().position(|header| header.code == text)?;
            Some(header(board, HeaderId(id)))
        }
        Thing::Supply => {
            let supply = board.supplies.iter().find(|supply| supply.name == text)?;
            Some(supply.title.clone())
        }
        Thing::Socket => {
            let socket = board.sockets.iter().find(|socket| socket.name == text)?;
            let pins: Vec<String> = socket.pins.iter().map(ToString::to_string).collect();
            Some(format!("{}: {}", socket.title, pins.join(", ")))
        }
        Thing::Fuse => {
            let fuse = board.fuses.iter().find(|fuse| fuse.code == text)?;
            let speed = fuse.speed.as_ref().map(|it| format!(", {it}")).unwrap_or_default();
            Some(format!("Fuse {text}: {}{speed}", fuse.rating))
        }
        Thing::Panel => board.panels.iter().find(|it| it.name == text).map(|it| it.title.clone()),
        _ => None,
    }
}

/// A group's voltage under every supply.
fn volts_of(board: &Board, group: GroupId) -> Vec<String> {
    let supplies = board.supplies.iter().enumerate();
    supplies
        .map(|(index, supply)| match board.group_volts(SupplyId(index), group) {
            Some(volts) if volts.0 > 1.0 => {
                format!("{} V with {}", shortest(volts.0.round(), 0), supply.name)
            }
            _ => format!("runs nothing with {}", supply.name),
        })
        .collect()
}

/// A header with its pins as they lie on the mounted board.
fn header(board: &Board, id: HeaderId) -> String {
    let header = &board[id];
    let seen = pin_order(&board[header.socket], header.key);
    let feed = match header.feed {
        Feed::Group(group) => format!("group {}", board[group].code),
        Feed::Jumper(jumper) => format!("jumper {}", board[jumper].code),
    };
    let mut out = format!("Header {}, {}: fed by {feed}\n", header.code, header.title);
    let key = header.key.map(|side| format!(", key {}", side.word()));
    let from = match seen.read_from {
        ReadFrom::Top => "from the top down",
        ReadFrom::Left => "from left to right",
    };
    let _ = write!(out, "\nSeen from the front{}, {from}:\n\n```text\n", key.unwrap_or_default());
    let pins: Vec<String> = seen
        .cavities()
        .map(|(pin, color)| {
            let pin = pin.map_or("empty".to_owned(), |pin| pin.to_string());
            color.map_or(pin.clone(), |color| format!("{pin} ({})", color.words))
        })
        .collect();
    let widest = pins.iter().map(|pin| pin.chars().count()).max().unwrap_or(0);
    match seen.read_from {
        ReadFrom::Top => pins.iter().for_each(|pin| {
            let _ = writeln!(out, "| {pin:<widest$} |");
        }),
        ReadFrom::Left => {
            let _ = writeln!(out, "| {} |", pins.join(" | "));
        }
    }
    out.push_str("```");
    out
}

/// Help for a value that is no name.
fn of_value(kind: &Kind, text: &str, board: Option<&Board>) -> Option<String> {
    match kind {
        Kind::Word(words) => {
            let (word, says) = vocabulary(*words).into_iter().find(|(word, _)| *word == text)?;
            Some(if says.is_empty() { word.to_owned() } else { format!("{word}: {says}") })
        }
        Kind::Layout | Kind::LayoutOrNone => layout(board?, text),
        Kind::Quantity(Limits { unit: "mm", .. }) => {
            let length = Length::parse(text)?;
            Some(format!("{} mm = {} in", shortest(length.0, 2), shortest(length.0 / 25.4, 3)))
        }
        Kind::Run(_) => {
            let metres = Length::parse_run(text)?.to_metres();
            Some(format!("{} m = {} ft", shortest(metres, 2), shortest(metres / 0.3048, 1)))
        }
        Kind::Either(kinds) => kinds.iter().find_map(|kind| of_value(kind, text, board)),
        _ => None,
    }
}

/// A row of the layout matrix in words.
fn layout(board: &Board, text: &str) -> Option<String> {
    let number: u8 = text.parse().ok()?;
    let layout = board.layouts.iter().find(|layout| layout.number.get() == number)?;
    let fitted = board.columns.iter().filter_map(|device| {
        match layout.speeds_of(&board.columns, *device)?.number() {
            0 => None,
            1 => Some(format!("{device}, one speed")),
            _ => Some(format!("{device}, two speeds")),
        }
    });
    let fitted: Vec<String> = fitted.collect();
    let list = if fitted.is_empty() { "nothing".to_owned() } else { fitted.join("; ") };
    Some(format!("Layout {number}: {list}"))
}
