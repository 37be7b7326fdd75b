//! The layout matrix and which header drives what in which layouts.

use std::collections::BTreeSet;

use super::dice::Dice;

/// What a header must be able to do for a device.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Class {
    /// A resistive element: no low speed.
    Heater,
    /// A jet pump or blower: both speeds.
    Motor,
    /// A circulation pump, an ozonator, a light on the mains: one speed.
    Small,
    /// A light or sound system apart from the mains.
    Low,
}

/// A header as far as its roles go: its class, and devices with their ranges of layouts.
pub struct Role {
    pub class: Class,
    /// `None` for the ranges of a header that serves one device throughout.
    pub serves: Vec<(Option<String>, String)>,
}

pub struct Matrix {
    /// Devices of the board's own, with their keys.
    pub own: Vec<(String, String)>,
    pub columns: Vec<String>,
    pub rows: Vec<(usize, Vec<u8>)>,
    pub headers: Vec<Role>,
}

/// Built-in devices that may be replaced, by what, and with which keys.
const OWN: [(&str, &str, &str); 5] = [
    ("ozonator", "UV lamp", "continuous: true"),
    ("light", "fountain", ""),
    ("circulation", "loop pump", "motor: true, continuous: true, moves water: true"),
    ("blower", "heat pump", "motor: true, counts for allowance: true, continuous: true"),
    ("pump 3", "mist fan", "motor: true, counts for allowance: true"),
];

impl Matrix {
    /// Takes devices of the board's own in place of some built-in ones.
    pub fn declare(&mut self, dice: &mut Dice, isolated: bool) {
        for (built_in, name, keys) in OWN {
            let low = class(built_in, isolated) == Class::Low;
            let served = |role: &Role| role.serves.iter().any(|(_, device)| device == built_in);
            if low || !self.headers.iter().any(served) || !dice.often(50) {
                continue;
            }
            let rename = |device: &mut String| {
                if device == built_in {
                    *device = name.to_owned();
                }
            };
            self.columns.iter_mut().for_each(rename);
            let served = self.headers.iter_mut().flat_map(|role| &mut role.serves);
            served.map(|(_, device)| device).for_each(rename);
            self.own.push((name.to_owned(), keys.to_owned()));
        }
        self.tie(dice);
    }

    /// Lets some of them run with another device that is there in every layout of theirs.
    fn tie(&mut self, dice: &mut Dice) {
        let served: BTreeSet<String> = self
            .headers
            .iter()
            .flat_map(|role| role.serves.iter().map(|(_, device)| device.clone()))
            .collect();
        let entry = |device: &String, row: &[u8]| {
            self.columns.iter().position(|column| column == device).map_or(1, |at| row[at])
        };
        let mut followers: BTreeSet<String> = BTreeSet::new();
        let mut leaders: BTreeSet<String> = BTreeSet::new();
        for (name, keys) in &mut self.own {
            if class(name, false) != Class::Small || leaders.contains(name) || !dice.often(60) {
                continue;
            }
            let fits = |leader: &&String| {
                *leader != name
                    && *leader != "heater"
                    && !followers.contains(*leader)
                    && self
                        .rows
                        .iter()
                        .all(|(_, row)| entry(name, row) == 0 || entry(leader, row) > 0)
            };
            let comma = if keys.is_empty() { "" } else { ", " };
            let column = |it: &&String| {
                self.columns.contains(*it) && *it != name && !followers.contains(*it)
            };
            let columns: Vec<String> = served.iter().filter(column).cloned().collect();
            if !self.columns.contains(name) && !columns.is_empty() && dice.often(50) {
                let leader = dice.pick(&columns).clone();
                *keys += &format!("{comma}cord of: {leader}");
                followers.insert(name.clone());
                leaders.insert(leader);
                continue;
            }
            let all: Vec<String> = served.iter().filter(fits).cloned().collect();
            if all.is_empty() {
                continue;
            }
            let leader = dice.pick(&all).clone();
            *keys += &format!("{comma}runs with: {leader}");
            followers.insert(name.clone());
            leaders.insert(leader);
        }
    }

    /// The most pumps and blowers that any layout has.
    pub fn most_on_high(&self) -> usize {
        let motor = |device: &String| class(device, true) == Class::Motor;
        let served: BTreeSet<&String> = self
            .headers
            .iter()
            .flat_map(|role| role.serves.iter().map(|(_, device)| device))
            .collect();
        // What has no column is there in every layout.
        let always = served.iter().filter(|d| motor(d) && !self.columns.contains(d)).count();
        let in_row = |row: &Vec<u8>| {
            let fitted = self.columns.iter().zip(row).filter(|(_, speeds)| **speeds > 0);
            fitted.filter(|(device, _)| motor(device)).count()
        };
        always + self.rows.iter().map(|(_, row)| in_row(row)).max().unwrap_or(0)
    }
}

pub struct Wish {
    pub headers: usize,
    pub columns: usize,
    pub layouts: usize,
    /// Whether lights and sound hang on an isolated group.
    pub isolated: bool,
}

/// A matrix of distinct rows in which every device has exactly one header in every layout.
pub fn matrix(dice: &mut Dice, wish: &Wish) -> Matrix {
    let devices = devices(dice, wish);
    let mut columns: Vec<usize> =
        (0..devices.len()).filter(|index| devices[*index] != "heater").collect();
    columns = dice.some(&columns, wish.columns.max(1), wish.columns.max(1));
    let rows = rows(dice, wish, &devices, &columns);

    let classes: Vec<Class> = devices.iter().map(|device| class(device, wish.isolated)).collect();
    let blocks = blocks(dice, rows.len());
    let (assigned, headers) = assign(dice, wish, &classes, blocks.len());
    let headers = (0..headers)
        .map(|header| {
            let mut roles: Vec<(usize, Vec<usize>)> = Vec::new();
            for (block, devices) in assigned.iter().enumerate() {
                if let Some(device) = devices.iter().position(|h| *h == header) {
                    match roles.iter_mut().find(|(known, _)| *known == device) {
                        Some((_, there)) => there.push(block),
                        None => roles.push((device, vec![block])),
                    }
                }
            }
            let class = roles.first().map_or(Class::Small, |(device, _)| classes[*device]);
            let whole = roles.len() == 1 && roles[0].1.len() == blocks.len();
            let serves = roles
                .iter()
                .map(|(device, there)| {
                    let range = (!whole).then(|| range(&rows, &blocks, there));
                    (range, devices[*device].clone())
                })
                .collect();
            Role { class, serves }
        })
        .collect();
    let columns = columns.iter().map(|index| devices[*index].clone()).collect();
    Matrix { own: Vec::new(), columns, rows, headers }
}

fn class(device: &str, isolated: bool) -> Class {
    match device {
        "heater" => Class::Heater,
        "light" | "sound" if isolated => Class::Low,
        "circulation" | "ozonator" | "light" | "sound" => Class::Small,
        "UV lamp" | "fountain" | "loop pump" => Class::Small,
        _ => Class::Motor,
    }
}

fn devices(dice: &mut Dice, wish: &Wish) -> Vec<String> {
    let mut pool: Vec<String> = (1..=9).map(|number| format!("pump {number}")).collect();
    for (place, device) in [
        (0, "circulation"),
        (2, "heater"),
        (3, "blower"),
        (4, "ozonator"),
        (6, "light"),
        (8, "sound"),
    ] {
        if dice.often(85) {
            pool.insert(place, device.to_owned());
        }
    }
    // With one layout there are no ranges, so no header can share a device with another.
    let least = if wish.layouts == 1 { wish.headers } else { wish.headers.div_ceil(2) };
    let count = dice.within(least.max(1), wish.headers.max(1)).min(pool.len());
    pool.truncate(count.max(1));
    pool
}

fn rows(
    dice: &mut Dice,
    wish: &Wish,
    devices: &[String],
    columns: &[usize],
) -> Vec<(usize, Vec<u8>)> {
    let mut seen = BTreeSet::new();
    let mut number = if dice.often(80) { 1 } else { dice.within(1, 90) };
    let mut rows = Vec::new();
    for _ in 0..wish.layouts * 6 {
        let row: Vec<u8> = columns
            .iter()
            .map(|index| {
                let most = if class(&devices[*index], false) == Class::Motor { 2 } else { 1 };
                dice.within(0, most) as u8
            })
            .collect();
        if rows.len() < wish.layouts && seen.insert(row.clone()) {
            rows.push((number, row));
            number += if dice.often(95) { 1 } else { dice.within(1, 3) };
        }
    }
    rows
}

/// Cuts `count` rows into one to three runs: first and last row of each.
fn blocks(dice: &mut Dice, count: usize) -> Vec<(usize, usize)> {
    let mut starts: BTreeSet<usize> = [0].into();
    for _ in 0..dice.within(1, 2) {
        starts.insert(dice.within(0, count - 1));
    }
    let starts: Vec<usize> = starts.into_iter().collect();
    starts
        .iter()
        .enumerate()
        .map(|(index, start)| (*start, starts.get(index + 1).map_or(count, |next| *next) - 1))
        .collect()
}

/// For every block the header of every device, and how many headers there are. Device `i` is at
/// home on header `i`; every other header takes a device over in one block, and in some blocks
/// two motors change places.
fn assign(
    dice: &mut Dice,
    wish: &Wish,
    classes: &[Class],
    blocks: usize,
) -> (Vec<Vec<usize>>, usize) {
    let home: Vec<usize> = (0..classes.len()).collect();
    let mut assigned = vec![home; blocks];
    let mut free: Vec<(usize, usize)> = (1..blocks)
        .flat_map(|block| (0..classes.len()).map(move |device| (block, device)))
        .collect();
    dice.shuffle(&mut free);
    let mut headers = classes.len();
    while headers < wish.headers {
        let Some((block, device)) = free.pop() else { break };
        assigned[block][device] = headers;
        headers += 1;
    }
    let motors: Vec<usize> =
        (0..classes.len()).filter(|device| classes[*device] == Class::Motor).collect();
    for block in assigned.iter_mut().skip(1) {
        if motors.len() > 1 && dice.often(50) {
            block.swap(*dice.pick(&motors), *dice.pick(&motors));
        }
    }
    (assigned, headers)
}

/// `1-3, 6` for the rows of some blocks, neighbours joined.
fn range(rows: &[(usize, Vec<u8>)], blocks: &[(usize, usize)], there: &[usize]) -> String {
    let mut runs: Vec<(usize, usize)> = Vec::new();
    for block in there {
        let (first, last) = blocks[*block];
        match runs.last_mut() {
            Some(run) if run.1 + 1 == first => run.1 = last,
            _ => runs.push((first, last)),
        }
    }
    let words: Vec<String> = runs
        .iter()
        .map(|(first, last)| {
            let (first, last) = (rows[*first].0, rows[*last].0);
            if first == last { first.to_string() } else { format!("{first}-{last}") }
        })
        .collect();
    words.join(", ")
}
