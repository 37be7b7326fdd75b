//! The supply side of a board: terminals, supplies, links and groups.

use super::dice::Dice;

/// A supply system: its words, how many lines, volts line to neutral and line to line.
#[derive(Clone, Copy)]
struct System {
    words: &'static str,
    lines: usize,
    to_neutral: u32,
    between: u32,
}

const fn system(words: &'static str, lines: usize, to_neutral: u32, between: u32) -> System {
    System { words, lines, to_neutral, between }
}

const SYSTEMS: [System; 13] = [
    system("split-phase 120/240 V", 2, 120, 240),
    system("split-phase 110/220 V", 2, 110, 220),
    system("split-phase 127/254 V", 2, 127, 254),
    system("wye 120/208 V", 3, 120, 208),
    system("wye 127/220 V", 3, 127, 220),
    system("wye 230/400 V", 3, 230, 400),
    system("wye 240/415 V", 3, 240, 415),
    system("wye 277/480 V", 3, 277, 480),
    system("single-phase 100 V", 1, 100, 0),
    system("single-phase 120 V", 1, 120, 0),
    system("single-phase 220 V", 1, 220, 0),
    system("single-phase 230 V", 1, 230, 0),
    system("single-phase 240 V", 1, 240, 0),
];

pub struct Terminal {
    pub code: String,
    pub wire: Option<&'static str>,
    pub ground: bool,
}

pub struct Supply {
    pub system: &'static str,
    /// Terminal and conductor.
    pub lands: Vec<(String, &'static str)>,
    /// Link and the terminal that it is on.
    pub links: Vec<(String, String)>,
}

pub struct Link {
    pub code: String,
    pub joins: [String; 2],
    pub shipped: String,
}

pub struct Group {
    pub code: String,
    pub source: Source,
}

pub enum Source {
    Between([String; 2], u32),
    Isolated(u32),
}

/// The supply side.
pub struct Feed {
    pub terminals: Vec<Terminal>,
    pub supplies: Vec<Supply>,
    pub links: Vec<Link>,
    pub groups: Vec<Group>,
}

/// How much of it to make.
pub struct Wish {
    pub iec: bool,
    pub supplies: usize,
    pub links: usize,
    pub mains: usize,
    pub isolated: usize,
}

/// Makes a supply side whose declared volts are those of its first supply.
pub fn feed(dice: &mut Dice, wish: &Wish) -> Feed {
    let mut systems = SYSTEMS.to_vec();
    dice.shuffle(&mut systems);
    systems.truncate(wish.supplies);
    let lines = systems.iter().map(|system| system.lines).max().unwrap_or(1);
    let neutral = lines == 1 || wish.links > 0 || dice.often(85);
    if !neutral {
        systems.retain(|system| system.lines > 1);
    }
    // The neutral and, of several systems, the one with the most lines stand first, so that
    // the first supply reaches every group. A board with links may begin with fewer lines.
    if wish.links == 0 {
        systems.sort_by_key(|system| std::cmp::Reverse(system.lines));
    }
    let letter = if wish.iec { "X" } else { "T" };
    let line = |index: usize| format!("{letter}{}", index + 1);
    let n = format!("{letter}{}", lines + 1);
    let ground = dice.often(90).then(|| format!("{letter}{}", if wish.iec { "9" } else { "G" }));

    let links = links(dice, wish, lines, &n, &line, systems.first());
    let mut supplies = Vec::new();
    for (rank, system) in systems.iter().enumerate() {
        let with_neutral = neutral && (rank == 0 || system.lines == 1 || dice.often(70));
        // A wye service may land two of its three lines, but the first supply lands them all.
        let count = if rank > 0 && system.lines == 3 && dice.often(25) { 2 } else { system.lines };
        let names: &[&str] = if system.lines == 1 { &["L"] } else { &["L1", "L2", "L3"] };
        let mut lands: Vec<(String, &'static str)> = names
            .iter()
            .take(count)
            .enumerate()
            .map(|(index, name)| (line(index), *name))
            .collect();
        if with_neutral {
            lands.push((n.clone(), "N"));
        }
        if let Some(ground) = &ground {
            lands.push((ground.clone(), "PE"));
        }
        let on = links.iter().map(|link| (link.code.clone(), position(link, &lands))).collect();
        supplies.push(Supply { system: system.words, lands, links: on });
    }
    let groups = groups(dice, wish, &links, &n, &systems, &supplies);
    supplies.retain(|supply| groups.iter().any(|group| is_fed(group, supply)));
    let terminals = terminals(dice, wish, lines, neutral.then_some(n), ground, &line);
    Feed { terminals, supplies, links, groups }
}

/// Whether the supply reaches both points of the group.
fn is_fed(group: &Group, supply: &Supply) -> bool {
    let Source::Between(nodes, _) = &group.source else { return false };
    nodes.iter().all(|node| {
        let link = supply.links.iter().find(|(link, _)| link == node);
        let terminal = link.map_or(node, |(_, on)| on);
        supply.lands.iter().any(|(landed, _)| landed == terminal)
    })
}

fn terminals(
    dice: &mut Dice,
    wish: &Wish,
    lines: usize,
    neutral: Option<String>,
    ground: Option<String>,
    line: &dyn Fn(usize) -> String,
) -> Vec<Terminal> {
    let (hues, white, green) = if wish.iec {
        (["BN", "BK", "GY"], "BU", "GNYE")
    } else {
        (["black", "red", "blue"], *dice.pick(&["white", "grey"]), "green")
    };
    let mut all = Vec::new();
    for (index, hue) in hues.iter().enumerate().take(lines) {
        let wire = dice.often(80).then_some(*hue);
        all.push(Terminal { code: line(index), wire, ground: false });
    }
    if let Some(code) = neutral {
        all.push(Terminal { code, wire: dice.often(80).then_some(white), ground: false });
    }
    if let Some(code) = ground {
        all.push(Terminal { code, wire: dice.often(80).then_some(green), ground: true });
    }
    all
}

/// Links join line 2 or 3 to the neutral (then a group lies from line 1 to the link) or to
/// line 1 (then a group lies from the link to the neutral).
fn links(
    dice: &mut Dice,
    wish: &Wish,
    lines: usize,
    neutral: &str,
    line: &dyn Fn(usize) -> String,
    first: Option<&System>,
) -> Vec<Link> {
    let landed = first.map_or(1, |system| system.lines);
    (1..lines)
        .take(wish.links)
        .map(|index| {
            let other = if dice.often(50) { neutral.to_owned() } else { line(0) };
            let joins = [line(index), other];
            let shipped = joins[usize::from(index >= landed)].clone();
            Link { code: format!("W{}", 90 + index), joins, shipped }
        })
        .collect()
}

/// The line of its own if the supply lands it, else the other terminal.
fn position(link: &Link, lands: &[(String, &str)]) -> String {
    let own = lands.iter().any(|(terminal, _)| *terminal == link.joins[0]);
    link.joins[usize::from(!own)].clone()
}

fn groups(
    dice: &mut Dice,
    wish: &Wish,
    links: &[Link],
    neutral: &str,
    systems: &[System],
    supplies: &[Supply],
) -> Vec<Group> {
    let (Some(system), Some(supply)) = (systems.first(), supplies.first()) else {
        return Vec::new();
    };
    let terminals: Vec<&str> = supply
        .lands
        .iter()
        .filter(|(_, conductor)| *conductor != "PE")
        .map(|(terminal, _)| terminal.as_str())
        .collect();
    let volts = |a: &str, b: &str| {
        if a == neutral || b == neutral { system.to_neutral } else { system.between }
    };
    // A link's own pair first: a link that no group uses would be idle.
    let mut pairs: Vec<([String; 2], u32)> = Vec::new();
    for (link, (_, on)) in links.iter().zip(&supply.links) {
        let first = terminals.first().copied().unwrap_or_default();
        if link.joins[1] == neutral {
            pairs.push(([first.to_owned(), link.code.clone()], volts(first, on)));
        } else {
            pairs.push(([link.code.clone(), neutral.to_owned()], volts(on, neutral)));
        }
    }
    let own = pairs.len();
    for (index, a) in terminals.iter().enumerate() {
        for b in &terminals[index + 1..] {
            pairs.push(([(*a).to_owned(), (*b).to_owned()], volts(a, b)));
        }
    }
    dice.shuffle(&mut pairs[own..]);
    let mains = wish.mains.max(own).max(1);
    let mut all: Vec<Group> = (0..mains)
        .map(|index| {
            let (nodes, volts) = pairs[index % pairs.len()].clone();
            Group { code: letter(index), source: Source::Between(nodes, volts) }
        })
        .collect();
    for index in 0..wish.isolated {
        let volts = *dice.pick(&[12, 24]);
        all.push(Group { code: letter(mains + index), source: Source::Isolated(volts) });
    }
    all
}

fn letter(index: usize) -> String {
    char::from(b'A' + (index % 26) as u8).to_string()
}
