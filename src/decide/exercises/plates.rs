//! Voltages as they stand on plates.

use super::super::jumpers::{BAND, suits};
use super::dice::Dice;
use crate::units::Volts;

/// Voltages that plates of motors and small equipment carry (common practice; ANSI C84.1 has the
/// American ones as utilisation voltages, IEC 60038 has 230 V).
const COMMON: [f64; 8] = [12.0, 110.0, 115.0, 120.0, 208.0, 220.0, 230.0, 240.0];

/// How far from the end of a plate's band a supply must stay, volts, so that nobody has to work it
/// out to the last digit.
const CLEAR: f64 = 0.5;

/// A plate that suits `volts`; `None` if none is common.
pub fn plate_for(volts: Volts, dice: &mut Dice) -> Option<Volts> {
    let clear = |plate: &Volts| {
        let off = (volts.0 - plate.0).abs();
        suits(volts, *plate) && (off - plate.0 * BAND).abs() >= CLEAR.min(off)
    };
    let fitting: Vec<Volts> = COMMON.iter().copied().map(Volts).filter(clear).collect();
    match dice.pick(&fitting) {
        Some(plate) => Some(*plate),
        // A group of its own: what hangs there is made for it.
        None => Some(Volts(volts.0.round())).filter(|plate| suits(volts, *plate)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn plates_suit_and_are_never_at_the_end_of_the_band() {
        let mut dice = Dice::new(1);
        for (volts, all) in [
            (120.0, vec![110.0, 115.0, 120.0]),
            (240.0, vec![220.0, 230.0, 240.0]),
            (207.846, vec![208.0, 220.0, 230.0]),
            (230.0, vec![220.0, 230.0, 240.0]),
            (12.0, vec![12.0]),
            (24.0, vec![24.0]),
        ] {
            let mut seen: Vec<f64> =
                (0..200).filter_map(|_| plate_for(Volts(volts), &mut dice)).map(|v| v.0).collect();
            seen.sort_by(f64::total_cmp);
            seen.dedup();
            assert_eq!(seen, all, "{volts}");
        }
    }
}
