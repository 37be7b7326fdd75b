//! Sound boards of every size as YAML text: what a test or a bench feeds to the compiler.
//!
//! [`generate`] makes one from a number alone. [`board`] makes one of given sizes, so that a
//! property test can shrink the sizes and keep the number.

mod cords;
pub mod dice;
mod feed;
mod hardware;
mod place;
mod roles;
mod words;

use std::fmt::Write;

use dice::Dice;
use feed::{Feed, Source};
use hardware::{Entry, Hardware, Thing};
use roles::{Class, Matrix};
use words::{quoted, scalar, sentence, title};

/// The sizes of a board. Some are wishes: 24 headers need more than one layout.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Knobs {
    /// Circuit boards, 1 to 3.
    pub parts: usize,
    /// Supplies, 1 to 5.
    pub supplies: usize,
    /// Mains groups, 1 to 8.
    pub groups: usize,
    /// Isolated groups, 0 to 2.
    pub isolated: usize,
    /// Links, 0 to 2; fewer if the supplies have too few lines.
    pub links: usize,
    /// Jumpers, 0 to 12; never more than there are mains headers.
    pub jumpers: usize,
    /// Fuses, 0 to 24; never more than there are headers.
    pub fuses: usize,
    /// Headers, 1 to 24.
    pub headers: usize,
    /// Columns of the matrix, 1 to 12.
    pub columns: usize,
    /// Layouts, 1 to 40; fewer if the columns have too few combinations.
    pub layouts: usize,
    /// Switch banks, 0 to 3.
    pub banks: usize,
    /// Panels, 0 to 2.
    pub panels: usize,
    /// Designators and wire letters of the IEC instead of ASME designators and English words.
    pub iec: bool,
    /// Whether titles and sentences hold awkward characters.
    pub awkward: bool,
}

/// The board of a number: sizes and everything else come from it.
pub fn generate(seed: u64) -> String {
    let mut dice = Dice::new(seed);
    let knobs = Knobs {
        parts: dice.within(1, 3),
        supplies: dice.within(1, 4),
        groups: dice.within(1, 5),
        isolated: dice.within(0, 2),
        links: dice.within(0, 2).saturating_sub(dice.within(0, 1)),
        jumpers: dice.within(0, 12),
        fuses: dice.within(0, 16),
        headers: dice.within(1, 24),
        columns: dice.within(1, 8),
        layouts: dice.within(1, 40),
        banks: dice.within(0, 3),
        panels: dice.within(0, 2),
        iec: dice.often(40),
        awkward: dice.often(60),
    };
    board(&knobs, dice.next())
}

/// A board of these sizes; the same text for the same knobs and number.
pub fn board(knobs: &Knobs, seed: u64) -> String {
    let mut dice = Dice::new(seed);
    let feed = feed::feed(
        &mut dice,
        &feed::Wish {
            iec: knobs.iec,
            supplies: knobs.supplies.max(1),
            links: knobs.links,
            mains: knobs.groups,
            isolated: knobs.isolated,
        },
    );
    let mut matrix = roles::matrix(
        &mut dice,
        &roles::Wish {
            headers: knobs.headers.max(1),
            columns: knobs.columns,
            layouts: knobs.layouts.max(1),
            isolated: knobs.isolated > 0,
        },
    );
    // By dice of its own, so that no other choice is another one for it.
    let mut own = Dice::new(seed ^ 0x0005_E1EC_7012);
    let entry = match own.within(1, 4) {
        1 if matrix.rows.len() < 24 => Entry::Selector,
        2 => Entry::Ways,
        _ => Entry::Panel,
    };
    matrix.declare(&mut Dice::new(seed ^ 0x0D0E_71CE), knobs.isolated > 0);
    let mut hardware = hardware::hardware(&mut dice, knobs, &feed, &matrix, entry);
    hardware.keeps = own.often(35);
    let mut text = String::from("lidsheet: 1\n");
    write(&mut text, &mut dice, knobs, &feed, &matrix, &hardware).expect("a String takes all");
    text
}

fn write(
    out: &mut String,
    dice: &mut Dice,
    knobs: &Knobs,
    feed: &Feed,
    matrix: &Matrix,
    hardware: &Hardware,
) -> std::fmt::Result {
    about(out, dice, knobs)?;
    writeln!(out, "parts:")?;
    for part in &hardware.parts {
        let (x, y) = part.at;
        let (width, height) = part.size;
        write!(out, "  {}: {{ size: [{width}, {height}], at: [{x}, {y}]", part.name)?;
        if dice.often(50) {
            write!(out, ", title: {}", quoted(&title(dice, knobs.awkward)))?;
        }
        writeln!(out, " }}")?;
    }
    supply_side(out, dice, knobs, feed, hardware)?;
    leads_and_fuses(out, dice, hardware)?;
    headers(out, dice, knobs, matrix, hardware)?;
    rows(out, dice, matrix)?;
    banks(out, dice, knobs, hardware, matrix)?;
    if hardware.entry == Entry::Selector {
        selector(out, knobs, hardware, matrix)?;
    }
    panels(out, dice, knobs, hardware.entry)
}

fn about(out: &mut String, dice: &mut Dice, knobs: &Knobs) -> std::fmt::Result {
    writeln!(out, "board:")?;
    writeln!(out, "  name: {}", quoted(&title(dice, knobs.awkward)))?;
    writeln!(out, "  maker: Otterbrook Controls")?;
    writeln!(out, "  part: OC-{}", dice.within(1000, 9999))?;
    writeln!(out, "  revision: {}", dice.pick(&["A", "B", "C2", "\"7\""]))?;
    let (month, day) = (dice.within(1, 12), dice.within(1, 28));
    writeln!(out, "  dated: 20{}-{month:02}-{day:02}", dice.within(20, 29))?;
    writeln!(out, "  summary: {}", quoted(&sentence(dice, knobs.awkward, 1)))?;
    if dice.often(60) {
        writeln!(out, "  max current: {} A", dice.pick(&[16, 32, 40, 48, 63]))?;
    }
    if knobs.iec {
        writeln!(out, "  designators: IEC 81346-2")?;
    }
    Ok(())
}

/// `part: main, at: [10, 24]` of a thing.
fn spot(hardware: &Hardware, thing: Thing) -> String {
    let (part, (x, y)) = hardware.spot(thing);
    format!("part: {part}, at: [{x}, {y}]")
}

/// Whether a supply gives a voltage between two terminals or links.
fn reaches(supply: &feed::Supply, nodes: &[String]) -> bool {
    let conductor = |node: &String| {
        let on = supply.links.iter().find(|(link, _)| link == node).map_or(node, |(_, on)| on);
        supply.lands.iter().find(|(terminal, _)| terminal == on).map(|(_, lands)| *lands)
    };
    let all: Vec<_> = nodes.iter().map(conductor).collect();
    all.iter().all(Option::is_some) && all.first() != all.last()
}

fn supply_side(
    out: &mut String,
    dice: &mut Dice,
    knobs: &Knobs,
    feed: &Feed,
    hardware: &Hardware,
) -> std::fmt::Result {
    writeln!(out, "terminals:")?;
    for (index, terminal) in feed.terminals.iter().enumerate() {
        write!(out, "  {}: {{ {}", terminal.code, spot(hardware, Thing::Terminal(index)))?;
        if let Some(wire) = terminal.wire {
            write!(out, ", wire: {wire}")?;
        }
        writeln!(out, "{} }}", if terminal.ground { ", ground: true" } else { "" })?;
    }
    writeln!(out, "supplies:")?;
    for (index, supply) in feed.supplies.iter().enumerate() {
        writeln!(out, "  feed-{}:", index + 1)?;
        let title = title(dice, knobs.awkward);
        writeln!(out, "    title: {}", quoted(&title))?;
        writeln!(out, "    system: {}", supply.system)?;
        // By its title, so that no other choice of the dice is another one for it.
        if title.len().is_multiple_of(4) {
            writeln!(out, "    max current: {} A", 15 + title.len())?;
        }
        let lands: Vec<String> = supply
            .lands
            .iter()
            .map(|(terminal, conductor)| format!("{terminal}: {conductor}"))
            .collect();
        writeln!(out, "    lands: {{ {} }}", lands.join(", "))?;
        if !supply.links.is_empty() {
            let on: Vec<String> =
                supply.links.iter().map(|(link, on)| format!("{link}: {on}")).collect();
            writeln!(out, "    links: {{ {} }}", on.join(", "))?;
        }
    }
    if !feed.links.is_empty() {
        writeln!(out, "links:")?;
    }
    for (index, link) in feed.links.iter().enumerate() {
        let spot = spot(hardware, Thing::Link(index));
        let joins = link.joins.join(", ");
        writeln!(
            out,
            "  {}: {{ {spot}, joins: [{joins}], shipped: {} }}",
            link.code, link.shipped
        )?;
    }
    // By the number of headers and groups, so that no other choice of the dice is another one for it.
    let fed = feed.groups.iter().find_map(|group| match &group.source {
        Source::Between(nodes, _) if feed.supplies.iter().all(|it| reaches(it, nodes)) => {
            Some(nodes)
        }
        _ => None,
    });
    if let (Some(nodes), true) = (fed, !(knobs.headers + knobs.groups).is_multiple_of(3)) {
        writeln!(out, "electronics: {{ between: [{}] }}", nodes.join(", "))?;
    }
    writeln!(out, "groups:")?;
    for (index, group) in feed.groups.iter().enumerate() {
        let spot = spot(hardware, Thing::Group(index));
        write!(out, "  {}: {{ {spot}, tabs: {}", group.code, hardware.tabs[index])?;
        match &group.source {
            Source::Between(nodes, volts) => {
                writeln!(out, ", between: [{}], volts: {volts} }}", nodes.join(", "))?;
            }
            Source::Isolated(volts) => writeln!(out, ", isolated: {volts} V }}")?,
        }
    }
    Ok(())
}

fn leads_and_fuses(out: &mut String, dice: &mut Dice, hardware: &Hardware) -> std::fmt::Result {
    if !hardware.jumpers.is_empty() {
        writeln!(out, "jumpers:")?;
    }
    for (index, jumper) in hardware.jumpers.iter().enumerate() {
        let spot = spot(hardware, Thing::Jumper(index));
        let groups = jumper.groups.join(", ");
        writeln!(
            out,
            "  W{}: {{ {spot}, groups: [{groups}], shipped: {} }}",
            index + 1,
            jumper.shipped
        )?;
    }
    if !hardware.fuses.is_empty() {
        writeln!(out, "fuses:")?;
    }
    for (index, rating) in hardware.fuses.iter().enumerate() {
        let spot = spot(hardware, Thing::Fuse(index));
        write!(out, "  F{}: {{ {spot}, rating: {rating} A", index + 1)?;
        if dice.often(70) {
            write!(out, ", speed: {}", dice.pick(&["time-lag", "quick-acting", "\"aM\""]))?;
        }
        writeln!(out, " }}")?;
    }
    Ok(())
}

fn headers(
    out: &mut String,
    dice: &mut Dice,
    knobs: &Knobs,
    matrix: &Matrix,
    hardware: &Hardware,
) -> std::fmt::Result {
    writeln!(out, "sockets:")?;
    for socket in &hardware.sockets {
        write!(out, "  {}: {{ title: {}", socket.name, quoted(&title(dice, knobs.awkward)))?;
        write!(out, ", pitch: {} mm", socket.pitch)?;
        if let Some(side) = socket.key {
            write!(out, ", key drawn: {side}")?;
        }
        write!(out, ", pins: [{}]", socket.pins.join(", "))?;
        cords::write(out, knobs, &socket.name, &socket.pins)?;
        writeln!(out, " }}")?;
    }
    if !matrix.own.is_empty() {
        writeln!(out, "devices:")?;
    }
    for (name, keys) in &matrix.own {
        writeln!(out, "  {name}: {{ {keys} }}")?;
    }
    writeln!(out, "headers:")?;
    for (index, (header, role)) in hardware.headers.iter().zip(&matrix.headers).enumerate() {
        let code = hardware::header_code(knobs, index);
        let spot = spot(hardware, Thing::Header(index));
        writeln!(out, "  {code}:")?;
        writeln!(out, "    title: {}", scalar(&title(dice, knobs.awkward)))?;
        writeln!(out, "    {}", spot.replace(", at:", "\n    at:"))?;
        writeln!(out, "    socket: {}", hardware.sockets[header.socket].name)?;
        if let Some(key) = header.key {
            writeln!(out, "    key: {key}")?;
        }
        match &header.feed {
            hardware::Feeding::Group(group) => writeln!(out, "    group: {group}")?,
            hardware::Feeding::Jumper(jumper) => writeln!(out, "    jumper: W{}", jumper + 1)?,
        }
        if let Some(fuse) = header.fuse {
            writeln!(out, "    fuse: F{}", fuse + 1)?;
        }
        if header.fuse.is_some() || dice.often(50) {
            writeln!(out, "    max: {} A", header.max)?;
        }
        let serves: Vec<String> = role
            .serves
            .iter()
            .map(|(range, device)| match range {
                None => device.clone(),
                Some(range) => format!("{}: {device}", quoted(range)),
            })
            .collect();
        let whole = role.serves.iter().all(|(range, _)| range.is_none());
        let serves = serves.join(", ");
        writeln!(out, "    serves: {}", if whole { serves } else { format!("{{ {serves} }}") })?;
    }
    if matrix.headers.iter().any(|role| role.class == Class::Heater) {
        let volts = hardware.heater_volts;
        writeln!(out, "heater: {{ watts: {}, at volts: {volts} }}", dice.within(2, 12) * 500)?;
    }
    Ok(())
}

fn rows(out: &mut String, dice: &mut Dice, matrix: &Matrix) -> std::fmt::Result {
    writeln!(out, "layouts:\n  columns: [{}]\n  rows:", matrix.columns.join(", "))?;
    let mut rows: Vec<_> = matrix.rows.iter().collect();
    if dice.often(20) {
        dice.shuffle(&mut rows);
    }
    for (number, row) in rows {
        let cells: Vec<String> = row.iter().map(u8::to_string).collect();
        writeln!(out, "    {number}: [{}]", cells.join(", "))?;
    }
    Ok(())
}

fn banks(
    out: &mut String,
    dice: &mut Dice,
    knobs: &Knobs,
    hardware: &Hardware,
    matrix: &Matrix,
) -> std::fmt::Result {
    let most_on_high = matrix.most_on_high();
    if hardware.banks.is_empty() {
        return Ok(());
    }
    writeln!(out, "switches:")?;
    // Each of these has one place on a board.
    let mut effects = vec!["heater allowance", "frequency", "restore", "layout change"];
    if hardware.entry != Entry::Panel {
        effects.retain(|effect| *effect != "layout change");
    }
    dice.shuffle(&mut effects);
    if dice.often(60) {
        // The one that most depends on is there most often: it is taken from the end.
        effects.sort_by_key(|effect| *effect == "heater allowance");
    }
    for (index, bank) in hardware.banks.iter().enumerate() {
        writeln!(out, "  S{}:", index + 1)?;
        writeln!(out, "    {}", spot(hardware, Thing::Bank(index)).replace(", at:", "\n    at:"))?;
        writeln!(out, "    on side: {}\n    ways:", bank.on_side)?;
        let mut first = 1;
        for (at, count) in bank.fields.iter().enumerate() {
            let last = at + 1 == bank.fields.len() && index + 1 == hardware.banks.len();
            if last && hardware.entry == Entry::Ways {
                layout_ways(out, first..first + count, matrix)?;
                continue;
            }
            let effect = if dice.often(60) { effects.pop() } else { None };
            let heater = if hardware.keeps { None } else { Some(most_on_high) };
            field(out, dice, knobs, first..first + count, effect, heater)?;
            first += count;
        }
    }
    Ok(())
}

fn field(
    out: &mut String,
    dice: &mut Dice,
    knobs: &Knobs,
    ways: std::ops::Range<usize>,
    effect: Option<&str>,
    // The most that can run; `None` for an allowance that is a current.
    most_on_high: Option<usize>,
) -> std::fmt::Result {
    let (first, last, count) = (ways.start, ways.end - 1, ways.len());
    let key = if count == 1 { first.to_string() } else { format!("{first}-{last}") };
    if effect.is_none() && dice.often(15) {
        return writeln!(out, "      {key}: unused");
    }
    writeln!(out, "      {key}:")?;
    if let Some(effect) = effect {
        writeln!(out, "        effect: {effect}")?;
    } else if first % 3 == 0 {
        writeln!(out, "        title: \"Choice {first}, of its own kind\"")?;
    }
    let mut positions: Vec<usize> = (0..1 << count).collect();
    let words = |position: usize| {
        let ways: Vec<&str> =
            (0..count).map(|way| if position >> way & 1 == 1 { "on" } else { "off" }).collect();
        ways.join(" ")
    };
    let shipped = words(*dice.pick(&positions));
    let mut meanings: Vec<String> = Vec::new();
    for position in &positions {
        meanings.push(match effect {
            Some("heater allowance") => match most_on_high {
                Some(most) => (position % 10).min(most).to_string(),
                None => format!("{} A", 14 + position % 10 * 5),
            },
            _ => quoted(&sentence(dice, knobs.awkward, position + 1)),
        });
    }
    if count == 1 {
        writeln!(out, "        when off: {}\n        when on: {}", meanings[0], meanings[1])?;
    } else {
        writeln!(out, "        settings:")?;
        dice.shuffle(&mut positions);
        for position in positions {
            writeln!(out, "          {}: {}", words(position), meanings[position])?;
        }
    }
    writeln!(out, "        shipped: {shipped}")
}

/// Ways that set the layout number: the rows in their order, and combinations that set none.
fn layout_ways(
    out: &mut String,
    ways: std::ops::Range<usize>,
    matrix: &Matrix,
) -> std::fmt::Result {
    let (first, last, count) = (ways.start, ways.end - 1, ways.len());
    let key = if count == 1 { first.to_string() } else { format!("{first}-{last}") };
    writeln!(out, "      {key}:\n        effect: layout number\n        settings:")?;
    for position in 0..1_usize << count {
        let words: Vec<&str> =
            (0..count).map(|way| if position >> way & 1 == 1 { "on" } else { "off" }).collect();
        let layout = matrix.rows.get(position);
        let layout = layout.map_or_else(|| "no layout".to_owned(), |(row, _)| row.to_string());
        writeln!(out, "          {}: {layout}", words.join(" "))?;
    }
    writeln!(out, "        shipped: {}", vec!["off"; count].join(" "))
}

/// A selector whose positions are named by their layouts, with one more that sets none.
fn selector(
    out: &mut String,
    knobs: &Knobs,
    hardware: &Hardware,
    matrix: &Matrix,
) -> std::fmt::Result {
    let code = if knobs.iec { "S9" } else { "S10" };
    let mut positions = vec!["P: no layout".to_owned()];
    positions.extend(matrix.rows.iter().map(|(row, _)| format!("{row}: {row}")));
    writeln!(
        out,
        "selectors:\n  {code}:\n    {}",
        spot(hardware, Thing::Selector).replace(", at:", "\n    at:")
    )?;
    writeln!(out, "    positions: {{ {} }}\n    shipped: P", positions.join(", "))
}

fn panels(out: &mut String, dice: &mut Dice, knobs: &Knobs, entry: Entry) -> std::fmt::Result {
    if knobs.panels > 0 {
        writeln!(out, "panels:")?;
    }
    for panel in 1..=knobs.panels {
        writeln!(out, "  panel-{panel}:\n    title: {}", quoted(&title(dice, knobs.awkward)))?;
        if entry != Entry::Panel {
            continue;
        }
        writeln!(out, "    choose layout: |")?;
        writeln!(out, "      1. Turn the power off. Wait for ten seconds.")?;
        writeln!(out, "      2. Press **Up** until the panel shows **{{{{ layout }}}}**.")?;
        writeln!(out, "      3. Turn the power off.")?;
    }
    Ok(())
}
