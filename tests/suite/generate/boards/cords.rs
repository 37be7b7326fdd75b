//! The wire colours of a connector family's cords.

use std::fmt::Write as _;

use super::Knobs;

/// Colours of wires on a line; the last two for small voltages alone, where they mean no neutral.
const COLOURS: [&str; 12] =
    ["black", "BN", "red", "OG", "yellow", "VT", "pink", "GD", "turquoise", "SR", "white", "BU"];
const EARTH: [&str; 3] = ["green and yellow", "GN", "bare"];

/// By the number of headers and the name, so that no other choice of the dice is another one for it:
/// of four families one says nothing, and one tells the cord for one speed, too.
pub fn write(out: &mut String, knobs: &Knobs, family: &str, pins: &[&str]) -> std::fmt::Result {
    let luck = knobs.headers + knobs.groups + family.bytes().map(usize::from).sum::<usize>();
    if luck.is_multiple_of(4) {
        return Ok(());
    }
    write!(out, ", wires: [{}]", colours(pins.iter().copied(), luck))?;
    if pins.contains(&"low") && !luck.is_multiple_of(3) {
        let short = pins.iter().copied().filter(|pin| *pin != "low");
        // Not those of the other cord.
        write!(out, ", one speed wires: [{}]", colours(short, luck + 5))?;
    }
    Ok(())
}

fn colours<'p>(pins: impl Iterator<Item = &'p str>, luck: usize) -> String {
    let pins: Vec<&str> = pins.collect();
    let room = if pins.contains(&"high") { COLOURS.len() - 2 } else { COLOURS.len() };
    let all: Vec<&str> = pins
        .iter()
        .enumerate()
        .map(|(index, pin)| match *pin {
            "ground" => EARTH[(luck + index) % EARTH.len()],
            _ => COLOURS[(luck + index) % room],
        })
        .collect();
    all.join(", ")
}
