//! Headers, jumpers and fuses for a template.

use std::collections::BTreeSet;

use minijinja::Value;
use serde::Serialize;

use super::{device_words, fuse_words, layout_words, link, part_title, socket_link};
use crate::board::{Board, Feed, FuseId, HeaderId, JumperId, Pin, Speeds, SupplyId, WireColour};
use crate::decide::{PinOrder, Service, group_voltage, pin_order, pin_order_for, service};
use crate::figure::{CommonLive, common_live, places};
use crate::standards::colours::{BARE, COLOURS};
use crate::words::Words;

#[derive(Serialize)]
pub struct Header {
    code: String,
    /// The code, leading to its close-up.
    link: Value,
    /// The code, leading to its place on the board plan.
    plan: Value,
    title: String,
    part: String,
    socket: String,
    key: Option<String>,
    /// `top` or `left`.
    read_from: String,
    /// Functions in the order in which a person sees them.
    pins: Vec<String>,
    /// The same for the cord of a device with one speed, if it leaves a pin empty.
    one_speed_pins: Option<Vec<String>>,
    jumper: Option<String>,
    fuse: Option<String>,
    fuse_rating: Option<String>,
    /// Its rating without its kind.
    fuse_amps: Option<String>,
    /// The group that it is shipped on, or fixed to.
    shipped_group: String,
    max: Option<String>,
    /// Groups to choose from, under the first supply.
    choices: Vec<GroupChoice>,
    /// What the specification says that it serves.
    serves: Vec<Serves>,
    /// What it serves over the whole matrix, with its speeds.
    served: Vec<Served>,
    /// The same for each device at any speed.
    runs: Vec<Runs>,
    /// Layouts in which it stays empty; `None` if there is none.
    empty: Option<String>,
    /// No layout uses it.
    never_used: bool,
    /// `never`, `sometimes` or `always`.
    common_live: &'static str,
}

#[derive(Serialize)]
struct GroupChoice {
    group: String,
    volts: Option<String>,
    shipped: bool,
}

#[derive(Serialize)]
struct Serves {
    device: String,
    /// `layout 3`, `layouts 1–7`; `None` for all.
    layouts: Option<String>,
}

#[derive(Serialize)]
struct Served {
    device: String,
    /// Whether the matrix has a column for it.
    in_matrix: bool,
    speeds: u8,
    /// `None` for all.
    layouts: Option<String>,
}

#[derive(Serialize)]
struct Runs {
    device: String,
    /// `None` for all.
    layouts: Option<String>,
}

pub fn headers(words: &Words, board: &Board) -> Vec<Header> {
    board.header_ids().map(|id| header(words, board, id)).collect()
}

fn header(words: &Words, board: &Board, id: HeaderId) -> Header {
    let header = &board[id];
    let socket = &board[header.socket];
    let seen = pin_order(socket, header.key);
    let short = pin_order_for(socket, header.key, Speeds::One);
    let service = service(board, id);
    let runs = service.devices(board);
    let Service { served, empty, .. } = service;
    let one_speed = served.iter().any(|s| s.speeds == Speeds::One);
    let fuse = header.fuse.map(|fuse| &board[fuse]);
    Header {
        code: header.code.clone(),
        link: socket_link(&header.code),
        plan: link(&header.code, &places::plan(&header.code)),
        title: header.title.clone(),
        part: part_title(words, &board[header.part]),
        socket: socket.title.clone(),
        key: header.key.map(|side| words.side_name(side)),
        read_from: words.pins_read_from(seen.read_from),
        one_speed_pins: (one_speed && short != seen).then(|| pin_words(words, &short)),
        pins: pin_words(words, &seen),
        jumper: match header.feed {
            Feed::Group(_) => None,
            Feed::Jumper(jumper) => Some(board[jumper].code.clone()),
        },
        fuse: fuse.map(|fuse| fuse.code.clone()),
        fuse_rating: fuse.map(|fuse| fuse_words(words, fuse)),
        fuse_amps: fuse.map(|fuse| words.amps(fuse.rating)),
        shipped_group: board[board.shipped_group(id)].code.clone(),
        max: header.max.map(|amps| words.amps(amps)),
        choices: choices(words, board, id),
        serves: header
            .serves
            .iter()
            .map(|(set, device)| Serves {
                device: device_words(words, *device),
                layouts: layout_words(words, set).map(|layouts| {
                    words.serves_layouts(layouts.contains([',', '\u{2013}']), &layouts)
                }),
            })
            .collect(),
        runs: runs
            .iter()
            .map(|(device, layouts)| Runs {
                device: device_words(words, *device),
                layouts: layout_words(words, layouts),
            })
            .collect(),
        never_used: served.is_empty(),
        served: served
            .iter()
            .map(|s| Served {
                device: device_words(words, s.device),
                in_matrix: board.columns.contains(&s.device),
                speeds: s.speeds.number(),
                layouts: layout_words(words, &s.layouts),
            })
            .collect(),
        empty: empty.map(|set| layout_words(words, &set).unwrap_or_else(|| words.all_layouts())),
        common_live: match common_live(board, id) {
            CommonLive::Never => "never",
            CommonLive::Sometimes => "sometimes",
            CommonLive::Always => "always",
        },
    }
}

fn choices(words: &Words, board: &Board, id: HeaderId) -> Vec<GroupChoice> {
    let shipped = board.shipped_group(id);
    board
        .groups_of(id)
        .into_iter()
        .map(|group| GroupChoice {
            group: board[group].code.clone(),
            volts: group_voltage(board, SupplyId(0), group)
                .volts()
                .map(|volts| words.whole_volts(volts)),
            shipped: group == shipped,
        })
        .collect()
}

/// A wire in the key of the letters that stand beside pins.
#[derive(Serialize)]
pub struct WireKey {
    /// `GNYE`
    letters: String,
    /// `green and yellow`
    colour: String,
}

/// The wires that stand in drawings, each once.
pub fn key_of_letters(
    words: &Words,
    cavities: impl Iterator<Item = (Option<Pin>, Option<WireColour>)>,
) -> Vec<WireKey> {
    let used: BTreeSet<WireColour> = cavities.filter_map(|(_, colour)| colour).collect();
    let standard = COLOURS.iter().chain([&BARE]).map(|colour| colour.letters);
    let of = |letters| used.iter().find(move |colour| colour.letters == letters);
    let key = |colour: &WireColour| WireKey {
        letters: words.wire_letters(*colour),
        colour: words.wire_colour_in_key(*colour),
    };
    standard.filter_map(of).map(key).collect()
}

/// [`key_of_letters`] for all headers of a board and all cords that fit them.
pub fn wire_colours(words: &Words, board: &Board) -> Vec<WireKey> {
    let of_socket = |header: &crate::board::Header| {
        let socket = &board[header.socket];
        let colours = socket.wires.iter().chain(&socket.one_speed_wires);
        colours.map(|colour| (None, *colour)).collect::<Vec<_>>()
    };
    key_of_letters(words, board.headers.iter().flat_map(of_socket))
}

pub fn pin_words(words: &Words, order: &PinOrder) -> Vec<String> {
    let name = |pin: &Option<Pin>| {
        pin.map_or_else(|| words.cavity_empty(), |pin: Pin| words.pin_name(pin))
    };
    order.pins.iter().map(name).collect()
}

#[derive(Serialize)]
pub struct Jumper {
    code: String,
    part: String,
    groups: Vec<String>,
    shipped: String,
    /// Headers whose voltage it sets.
    headers: Vec<Value>,
}

pub fn jumpers(words: &Words, board: &Board) -> Vec<Jumper> {
    (0..board.jumpers.len())
        .map(JumperId)
        .map(|id| {
            let jumper = &board[id];
            Jumper {
                code: jumper.code.clone(),
                part: part_title(words, &board[jumper.part]),
                groups: jumper.groups.iter().map(|group| board[*group].code.clone()).collect(),
                shipped: board[jumper.shipped].code.clone(),
                headers: header_links(board, |header| header.feed == Feed::Jumper(id)),
            }
        })
        .collect()
}

#[derive(Serialize)]
pub struct Fuse {
    code: String,
    part: String,
    rating: String,
    speed: Option<String>,
    /// Headers that it protects.
    headers: Vec<Value>,
}

pub fn fuses(words: &Words, board: &Board) -> Vec<Fuse> {
    (0..board.fuses.len())
        .map(FuseId)
        .map(|id| {
            let fuse = &board[id];
            Fuse {
                code: fuse.code.clone(),
                part: part_title(words, &board[fuse.part]),
                rating: words.amps(fuse.rating),
                speed: fuse.speed.clone(),
                headers: header_links(board, |header| header.fuse == Some(id)),
            }
        })
        .collect()
}

fn header_links(board: &Board, wanted: impl Fn(&crate::board::Header) -> bool) -> Vec<Value> {
    board.headers.iter().filter(|h| wanted(h)).map(|h| socket_link(&h.code)).collect()
}
