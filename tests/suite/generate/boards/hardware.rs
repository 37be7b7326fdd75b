//! The things that a person plugs, moves and sets, with their places.

use super::Knobs;
use super::dice::Dice;
use super::feed::{Feed, Source};
use super::place::{Room, half_up, pack, row};
use super::roles::{Class, Matrix};

/// Which thing of the board, by its place in its list.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Thing {
    Terminal(usize),
    Link(usize),
    Group(usize),
    Jumper(usize),
    Fuse(usize),
    Header(usize),
    Bank(usize),
    Selector,
}

pub struct Part {
    pub name: &'static str,
    pub at: (f64, f64),
    pub size: (f64, f64),
}

pub struct Jumper {
    pub groups: Vec<String>,
    pub shipped: String,
}

pub struct Socket {
    pub name: String,
    pub pitch: f64,
    pub key: Option<&'static str>,
    pub pins: Vec<&'static str>,
    class: Class,
}

pub enum Feeding {
    Group(String),
    Jumper(usize),
}

pub struct Header {
    pub socket: usize,
    pub key: Option<&'static str>,
    pub feed: Feeding,
    pub fuse: Option<usize>,
    pub max: usize,
}

pub struct Bank {
    pub on_side: &'static str,
    /// How many ways each field has.
    pub fields: Vec<usize>,
}

/// How the layout number is entered.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Entry {
    Panel,
    /// By the last field of the last bank.
    Ways,
    Selector,
}

pub struct Hardware {
    pub parts: Vec<Part>,
    pub tabs: Vec<usize>,
    pub jumpers: Vec<Jumper>,
    /// Rated currents, A.
    pub fuses: Vec<f64>,
    pub sockets: Vec<Socket>,
    pub headers: Vec<Header>,
    pub heater_volts: u32,
    pub banks: Vec<Bank>,
    pub entry: Entry,
    /// Whether the heater allowance is a current.
    pub keeps: bool,
    spots: Vec<(Thing, &'static str, (f64, f64))>,
}

impl Hardware {
    /// Gives the last bank as many ways more as set every layout; where it has no room for them, the
    /// number is entered on a panel.
    fn ways_for_layouts(&mut self, layouts: usize) {
        if self.entry != Entry::Ways {
            return;
        }
        let ways = (1..=6).find(|ways| 1_usize << ways >= layouts);
        match (self.banks.last_mut(), ways) {
            (Some(bank), Some(ways)) if bank.fields.iter().sum::<usize>() + ways <= 16 => {
                bank.fields.push(ways);
            }
            _ => self.entry = Entry::Panel,
        }
    }

    /// The part's name and the place there.
    pub fn spot(&self, thing: Thing) -> (&'static str, (f64, f64)) {
        let spot = self.spots.iter().find(|(known, ..)| *known == thing).expect("all are placed");
        (spot.1, spot.2)
    }
}

const SIDES: [&str; 4] = ["up", "right", "down", "left"];
const RATINGS: [f64; 17] = [
    1.0, 2.0, 3.15, 4.0, 5.0, 6.3, 8.0, 10.0, 12.0, 15.0, 16.0, 20.0, 25.0, 32.0, 40.0, 50.0, 63.0,
];

/// The designator of a header by its place in the list.
pub fn header_code(knobs: &Knobs, index: usize) -> String {
    if knobs.iec { format!("X{}", index + 10) } else { format!("J{}", index + 1) }
}

/// All things of a board with this supply side and this matrix.
pub fn hardware(
    dice: &mut Dice,
    knobs: &Knobs,
    feed: &Feed,
    matrix: &Matrix,
    entry: Entry,
) -> Hardware {
    let codes = |isolated: bool| -> Vec<String> {
        let kind = |source: &Source| matches!(source, Source::Isolated(_)) == isolated;
        feed.groups.iter().filter(|g| kind(&g.source)).map(|g| g.code.clone()).collect()
    };
    let (mains, low) = (codes(false), codes(true));
    let sockets = sockets(dice, matrix);
    let (headers, jumpers) = plugs(dice, knobs, matrix, &sockets, &mains, &low);
    let jumpers: Vec<Jumper> = (0..jumpers).map(|_| jumper(dice, &mains)).collect();
    let mut made = Hardware {
        parts: Vec::new(),
        tabs: feed.groups.iter().map(|group| tabs(dice, &group.code, &jumpers)).collect(),
        jumpers,
        fuses: Vec::new(),
        sockets,
        headers,
        heater_volts: heater_volts(dice, feed),
        banks: (0..knobs.banks).map(|_| bank(dice)).collect(),
        entry,
        keeps: false,
        spots: Vec::new(),
    };
    made.ways_for_layouts(matrix.rows.len());
    made.fuses = fuses(dice, knobs, &mut made.headers);
    lay_out(dice, knobs, feed, &mut made);
    made
}

/// One or two families for each class that the matrix needs.
fn sockets(dice: &mut Dice, matrix: &Matrix) -> Vec<Socket> {
    let mut all = Vec::new();
    for class in [Class::Heater, Class::Motor, Class::Small, Class::Low] {
        let count = matrix.headers.iter().filter(|role| role.class == class).count();
        for _ in 0..count.min(dice.within(1, 2)) {
            let mut pins = match class {
                Class::Motor => vec!["common", "low", "high"],
                Class::Heater | Class::Small => vec!["common", "high"],
                Class::Low => vec!["positive", "negative"],
            };
            if class == Class::Low {
                // These may be there more than once; a socket has at most twelve pins.
                let more = if dice.often(15) { 10 } else { 2 };
                for _ in 0..dice.within(0, more) {
                    pins.push(*dice.pick(&["signal", "screen", "ground"]));
                }
            } else if dice.often(85) {
                pins.push("ground");
            }
            dice.shuffle(&mut pins);
            let pitch = *dice.pick(match class {
                Class::Low => &[2.54, 3.96, 5.0],
                Class::Heater => &[9.5, 10.0, 12.0],
                _ => &[5.0, 6.35, 7.5],
            });
            let key = dice.often(80).then(|| *dice.pick(&SIDES));
            let name = format!("family-{}", all.len() + 1);
            all.push(Socket { name, pitch, key, pins, class });
        }
    }
    all
}

/// The headers, and how many jumpers they name: every jumper at least once.
fn plugs(
    dice: &mut Dice,
    knobs: &Knobs,
    matrix: &Matrix,
    sockets: &[Socket],
    mains: &[String],
    low: &[String],
) -> (Vec<Header>, usize) {
    let on_mains = matrix.headers.iter().filter(|role| role.class != Class::Low).count();
    let jumpers = knobs.jumpers.min(on_mains);
    let mut named = 0;
    let mut all = Vec::new();
    // The first header of each family, so that no family stays unused.
    let mut unused: Vec<usize> = (0..sockets.len()).collect();
    for role in &matrix.headers {
        let fits: Vec<usize> =
            (0..sockets.len()).filter(|index| sockets[*index].class == role.class).collect();
        let socket = match unused.iter().position(|index| fits.contains(index)) {
            Some(place) => unused.remove(place),
            None => *dice.pick(&fits),
        };
        let feed = if role.class == Class::Low {
            Feeding::Group(dice.pick(low).clone())
        } else if named < jumpers {
            named += 1;
            Feeding::Jumper(named - 1)
        } else if jumpers > 0 && dice.often(50) {
            Feeding::Jumper(dice.within(0, jumpers - 1))
        } else {
            Feeding::Group(dice.pick(mains).clone())
        };
        let key = sockets[socket].key.map(|_| *dice.pick(&SIDES));
        let max = if role.class == Class::Motor { dice.within(6, 16) } else { dice.within(1, 6) };
        let max = if role.class == Class::Heater { dice.within(12, 30) } else { max };
        all.push(Header { socket, key, feed, fuse: None, max });
    }
    (all, jumpers)
}

fn jumper(dice: &mut Dice, mains: &[String]) -> Jumper {
    let groups = dice.some(mains, 1, 4);
    let shipped = dice.pick(&groups).clone();
    Jumper { groups, shipped }
}

/// A tab for every jumper that is shipped there, and a few to spare.
fn tabs(dice: &mut Dice, group: &str, jumpers: &[Jumper]) -> usize {
    let shipped = jumpers.iter().filter(|jumper| jumper.shipped == group).count();
    (shipped + dice.within(0, 3)).max(1)
}

fn heater_volts(dice: &mut Dice, feed: &Feed) -> u32 {
    let volts: Vec<u32> = feed
        .groups
        .iter()
        .filter_map(|group| match group.source {
            Source::Between(_, volts) => Some(volts),
            Source::Isolated(_) => None,
        })
        .collect();
    *dice.pick(&volts)
}

fn bank(dice: &mut Dice) -> Bank {
    let mut fields = Vec::new();
    while fields.iter().sum::<usize>() < 6 && (fields.is_empty() || dice.often(80)) {
        fields.push(*dice.pick(&[1, 1, 1, 2, 2, 3, 4]));
    }
    let on_side = *dice.pick(&SIDES);
    Bank { on_side, fields }
}

/// Gives fuses to headers, each to one to three of them, and the smallest rating that carries
/// the sum of what they may carry.
fn fuses(dice: &mut Dice, knobs: &Knobs, headers: &mut [Header]) -> Vec<f64> {
    let mut free: Vec<usize> = (0..headers.len()).collect();
    dice.shuffle(&mut free);
    let mut ratings = Vec::new();
    while ratings.len() < knobs.fuses && !free.is_empty() {
        let mut sum = 0;
        for _ in 0..*dice.pick(&[1, 1, 1, 2, 3]) {
            let Some(header) = free.pop() else { break };
            if sum + headers[header].max > 63 {
                break;
            }
            headers[header].fuse = Some(ratings.len());
            sum += headers[header].max;
        }
        let rating = RATINGS.iter().find(|rating| **rating >= sum as f64);
        ratings.push(*rating.expect("no sum passes the largest rating"));
    }
    ratings
}

/// Places every thing on a part, and the parts beside or below each other.
fn lay_out(dice: &mut Dice, knobs: &Knobs, feed: &Feed, made: &mut Hardware) {
    let names = ["main", "add-on", "far-side"];
    let count = knobs.parts.clamp(1, names.len());
    let mut things: Vec<Vec<(Thing, Room)>> = vec![Vec::new(); count];
    for (thing, room) in rooms(feed, made) {
        let supply = matches!(thing, Thing::Terminal(_) | Thing::Link(_));
        let part = if supply || dice.often(60) { 0 } else { dice.within(0, count - 1) };
        things[part].push((thing, room));
    }
    let below = dice.often(50);
    let mut corner = (0.0, 0.0);
    for (things, name) in things.into_iter().zip(names) {
        let rooms: Vec<Room> = things.iter().map(|(_, room)| *room).collect();
        let gap = dice.within(8, 28) as f64 / 2.0;
        let (places, size) = pack(dice, &rooms, gap);
        let size = (size.0.max(30.0), size.1.max(30.0));
        for ((thing, _), place) in things.into_iter().zip(places) {
            made.spots.push((thing, name, place));
        }
        made.parts.push(Part { name, at: corner, size });
        if below {
            corner.1 += size.1 + 10.0;
        } else {
            corner.0 += size.0 + 10.0;
        }
    }
}

/// Every thing with the room that it is drawn in, mm.
fn rooms(feed: &Feed, made: &Hardware) -> Vec<(Thing, Room)> {
    let mut all = Vec::new();
    all.extend((0..feed.terminals.len()).map(|index| (Thing::Terminal(index), (8.0, 8.0))));
    all.extend((0..feed.links.len()).map(|index| (Thing::Link(index), (4.0, 4.0))));
    for (index, tabs) in made.tabs.iter().enumerate() {
        all.push((Thing::Group(index), (*tabs as f64 * 5.0, 5.0)));
    }
    all.extend((0..made.jumpers.len()).map(|index| (Thing::Jumper(index), (4.0, 4.0))));
    all.extend((0..made.fuses.len()).map(|index| (Thing::Fuse(index), (8.0, 5.0))));
    for (index, header) in made.headers.iter().enumerate() {
        let socket = &made.sockets[header.socket];
        let lying = matches!(header.key, Some("up" | "down"));
        all.push((Thing::Header(index), row(socket.pins.len(), socket.pitch, 8.0, lying)));
    }
    for (index, bank) in made.banks.iter().enumerate() {
        let ways: usize = bank.fields.iter().sum();
        let length = half_up(ways as f64 * 2.54 + 4.0);
        let lying = matches!(bank.on_side, "up" | "down");
        all.push((Thing::Bank(index), if lying { (length, 9.0) } else { (9.0, length) }));
    }
    if made.entry == Entry::Selector {
        all.push((Thing::Selector, (10.0, 10.0)));
    }
    all
}
