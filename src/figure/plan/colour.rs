//! The colours of groups. Each group has its letter beside its colour, so that a copy in grey
//! says as much; the colours only make a lead faster to follow.

use crate::board::{Board, GroupId};
use crate::scene::Ink;

/// Colours that most people with a colour-vision deficiency tell apart (after Okabe and Ito 2008,
/// darkened until white letters on them have a contrast of 4.5 : 1).
const COLOURS: [Ink; 8] = [
    Ink(0, 100, 170),
    Ink(178, 74, 0),
    Ink(0, 112, 82),
    Ink(150, 62, 120),
    Ink(122, 96, 0),
    Ink(92, 66, 160),
    Ink(168, 32, 48),
    Ink(0, 106, 122),
];

/// A group that no jumper can go to, whose wires are fixed.
const FIXED: Ink = Ink(86, 86, 86);

/// The colour of a group. Beyond eight groups with jumpers the colours come round again.
pub fn group_colour(board: &Board, group: GroupId) -> Ink {
    let has_jumpers = |id: GroupId| board.jumpers.iter().any(|jumper| jumper.groups.contains(&id));
    if !has_jumpers(group) {
        return FIXED;
    }
    let before = (0..group.0).filter(|i| has_jumpers(GroupId(*i))).count();
    COLOURS.get(before % COLOURS.len()).copied().unwrap_or(FIXED)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Contrast ratio of two colours, WCAG 2.2, "contrast ratio" and "relative luminance".
    fn contrast(a: Ink, b: Ink) -> f64 {
        let channel = |v: u8| {
            let v = f64::from(v) / 255.0;
            if v <= 0.04045 { v / 12.92 } else { libm::pow((v + 0.055) / 1.055, 2.4) }
        };
        let light =
            |i: Ink| 0.2126 * channel(i.0) + 0.7152 * channel(i.1) + 0.0722 * channel(i.2) + 0.05;
        light(a).max(light(b)) / light(a).min(light(b))
    }

    #[test]
    fn white_letters_can_be_read_on_every_colour() {
        for colour in COLOURS.into_iter().chain([FIXED]) {
            let ratio = contrast(colour, Ink::WHITE);
            assert!(ratio >= 4.5, "{colour:?}: {ratio}");
            assert!(contrast(colour, crate::figure::look::BOARD_TINT) >= 3.0, "{colour:?}");
        }
    }
}
