//! Jobs for a board as YAML text: mostly ones that can be planned, and some that cannot.

use std::collections::BTreeMap;
use std::fmt::Write;

use lidsheet::board::{
    self, Board, Device, Feed, GroupId, Job, JumperId, Layout, Speeds, SupplyId,
};
use lidsheet::decide::{self, Plan};
use lidsheet::diagnostic::Problems;
use lidsheet::source::Sources;
use lidsheet::spec;

use super::boards::dice::Dice;

/// The job of a number on `board`; the same text for the same board and number.
pub fn generate(board: &Board, seed: u64) -> String {
    let mut dice = Dice::new(seed);
    let supply = SupplyId(dice.within(0, board.supplies.len() - 1));
    let layout = dice.pick(&board.layouts).clone();
    let mut text = String::from("lidsheet: 1\n");
    let (entries, amps) = equipment(&mut dice, board, supply, &layout);
    head(&mut text, &mut dice, board, supply, amps).expect("a String takes all");
    text.push_str("equipment:\n");
    for entry in entries {
        writeln!(text, "  - {{ {entry} }}").expect("a String takes all");
    }
    text
}

/// The job of a number, if nothing refuses it.
pub fn sound(board: &Board, seed: u64) -> Option<(Job, Plan)> {
    let text = generate(board, seed);
    let (mut sources, mut problems) = (Sources::default(), Problems::default());
    let file = sources.add("job.yaml", text);
    let spec = spec::parse_job(file, &sources, &mut problems).ok()?;
    let job = board::check_job(&spec, board, &mut problems).ok()?;
    let plan = decide::plan(board, &job);
    plan.sound()?;
    Some((job, plan))
}

fn head(
    out: &mut String,
    dice: &mut Dice,
    board: &Board,
    supply: SupplyId,
    amps: f64,
) -> std::fmt::Result {
    writeln!(out, "job: \"{}\"\nboard: ../board.yaml", dice.within(1000, 9999))?;
    if dice.often(50) {
        writeln!(out, "for: Mill Lane spa, number {}", dice.within(1, 99))?;
    }
    writeln!(out, "supply: {}", board[supply].name)?;
    // Mostly a size at which the settings of the heater allowance part.
    let wanted = amps * dice.within(30, 130) as f64 / 100.0;
    let sizes: &[u32] = if dice.often(60) {
        &[15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 100, 125, 200]
    } else {
        &[6, 10, 13, 16, 20, 25, 32, 40, 50, 63, 80, 100, 125]
    };
    let size = sizes.iter().copied().find(|size| f64::from(*size) >= wanted).unwrap_or(100);
    let size = if dice.often(5) { 44 } else { size };
    writeln!(out, "breaker: {size} A")?;
    if dice.often(50) {
        run(out, dice, size)?;
    }
    if dice.often(25) {
        writeln!(out, "rules: {}", dice.pick(&["nec", "iec"]))?;
    }
    if dice.often(12) {
        let circuit = dice.within(8, 60);
        let largest = circuit + dice.within(0, 60);
        writeln!(
            out,
            "marked: {{ minimum circuit ampacity: {circuit} A, largest breaker: {largest} A }}"
        )?;
    }
    Ok(())
}

/// A supply run, mostly about as thick as its breaker asks for.
fn run(out: &mut String, dice: &mut Dice, breaker: u32) -> std::fmt::Result {
    let american = ["14", "12", "10", "8", "6", "4", "3", "2", "1", "1/0"];
    let (length, unit) = (dice.within(2, 60), *dice.pick(&["m", "ft"]));
    write!(out, "supply run: {{ length: {length} {unit}, conductor: ")?;
    if dice.often(65) {
        let enough = match breaker {
            0..=15 => 0,
            16..=20 => 1,
            21..=30 => 2,
            31..=50 => 3,
            51..=70 => 4,
            _ => 7,
        };
        let aluminum = dice.often(20);
        let size = (enough + dice.within(0, 2) + usize::from(aluminum)).saturating_sub(1);
        let size = american[size.clamp(usize::from(aluminum), american.len() - 1)];
        write!(out, "{size} AWG {}", if aluminum { "aluminum" } else { "copper" })?;
        if dice.often(40) {
            write!(out, ", terminals: {} C", dice.pick(&["60", "75"]))?;
        }
    } else {
        let enough = match breaker {
            0..=13 => 0,
            14..=16 => 1,
            17..=25 => 2,
            26..=32 => 3,
            33..=50 => 4,
            51..=63 => 5,
            _ => 6,
        };
        let sizes = ["1.5", "2.5", "4", "6", "10", "16", "25", "35"];
        let size = sizes[(enough + dice.within(0, 2)).saturating_sub(1).min(sizes.len() - 1)];
        write!(out, "{size} mm2 copper")?;
        let method = dice.often(70);
        if method {
            write!(out, ", method: {}", dice.pick(&["A1", "A2", "B1", "B2", "C", "D1", "D2"]))?;
        }
        if dice.often(40) {
            let insulation = dice.pick(&["PVC", "XLPE"]);
            // Without a method it would say nothing.
            if method {
                write!(out, ", insulation: {insulation}")?;
            }
        }
    }
    if dice.often(10) {
        write!(out, ", capacity: {} A", dice.within(10, 120))?;
    }
    writeln!(out, " }}")
}

/// The entries for what a layout has, in any order, and now and then one too many or too few; and
/// the sum of their currents.
fn equipment(
    dice: &mut Dice,
    board: &Board,
    supply: SupplyId,
    layout: &Layout,
) -> (Vec<String>, f64) {
    let mut sum = 0.0;
    // Headers on one jumper are meant for one group.
    let mut meant: BTreeMap<JumperId, GroupId> = BTreeMap::new();
    let mut entries = Vec::new();
    for header in board.header_ids() {
        let Some(device) = board.device_at(header, layout) else { continue };
        let speeds = board.speeds_at(layout, device);
        let group = match board[header].feed {
            Feed::Group(group) => group,
            Feed::Jumper(jumper) => *meant
                .entry(jumper)
                .or_insert_with(|| *dice.pick(&with_voltage(board, supply, jumper))),
        };
        let volts = board.group_volts(supply, group).map_or(120.0, |volts| volts.0);
        let max = board[header].max.map_or(12.0, |max| max.0);
        if device == Device::Heater {
            sum += 14.0;
            if dice.often(60) {
                let watts = dice.within(4, 22) * 250;
                entries
                    .push(format!("device: heater, watts: {watts}, volts: {}", plate(dice, volts)));
            }
            continue;
        }
        if speeds.is_none() && dice.often(40) {
            continue;
        }
        sum += max * 0.6;
        entries.push(entry(dice, device, speeds.unwrap_or(Speeds::One), volts, max));
    }
    dice.shuffle(&mut entries);
    if dice.often(6) && !entries.is_empty() {
        entries.remove(0);
    }
    if dice.often(6) {
        entries.push(entry(dice, Device::Pump(9), Speeds::One, 230.0, 8.0));
    }
    if entries.is_empty() {
        entries.push(entry(dice, Device::Pump(1), Speeds::One, 230.0, 8.0));
    }
    (entries, sum)
}

/// The groups of a jumper that have a voltage; all of them if none has.
fn with_voltage(board: &Board, supply: SupplyId, jumper: JumperId) -> Vec<GroupId> {
    let all = &board[jumper].groups;
    let fed: Vec<GroupId> =
        all.iter().copied().filter(|group| board.group_volts(supply, *group).is_some()).collect();
    if fed.is_empty() { all.clone() } else { fed }
}

/// The voltage on a plate that is fed with `volts`.
fn plate(dice: &mut Dice, volts: f64) -> u32 {
    let part = *dice.pick(&[100, 100, 100, 96, 95, 104, 108, 92]);
    let part = if dice.often(2) { 180 } else { part };
    (volts * f64::from(part) / 100.0).round().max(1.0) as u32
}

fn entry(dice: &mut Dice, device: Device, speeds: Speeds, volts: f64, max: f64) -> String {
    let word = match device {
        Device::Pump(_) if dice.often(85) => "pump".to_owned(),
        device => device.to_string(),
    };
    let mut out = format!("device: {word}, volts: {}", plate(dice, volts));
    let most = if dice.often(4) { max * 1.3 } else { max };
    let high = (most * dice.within(15, 98) as f64).round() / 100.0;
    let high = high.max(0.1);
    if speeds == Speeds::Two {
        let low = (high * dice.within(10, 100) as f64).floor() / 100.0;
        if dice.often(92) {
            out += &format!(", speeds: 2, amps: {{ low: {}, high: {high} }}", low.max(0.05));
        } else {
            out += &format!(", speeds: 2, amps: {high}");
        }
    } else {
        out += &format!(", speeds: 1, amps: {high}");
    }
    if dice.often(20) {
        out += &format!(", power factor: 0.{}", dice.within(60, 99));
    }
    out
}
