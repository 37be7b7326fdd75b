//! Mistakes, what is noticed of them, and what to check, in plain words.
//!
//! Every function gives a clause: it begins small and has no full stop, so that it can stand in a
//! table, in a question or, through [`sentence`], by itself.

mod check;
mod mistake;
mod sign;

#[cfg(test)]
mod tests;

pub use check::{bank, house, landing, look, pins};
pub use mistake::mistake;
pub use sign::{does, has_button, noticed, observed};

use crate::board::Conductor;
use crate::english::{and, capital};
use crate::units::{Amps, shortest};
use crate::words::Words;

/// A clause as a sentence: with a capital letter and a full stop.
pub fn sentence(_words: &Words, clause: &str) -> String {
    let stop = if clause.ends_with(['.', '?', '!', '\u{201d}']) { "" } else { "." };
    format!("{}{stop}", capital(clause))
}

/// A supply conductor with its word, where letters alone say too little: `the neutral (N)`.
fn wire(conductor: Conductor) -> String {
    match conductor {
        Conductor::N => "the neutral (N)".to_owned(),
        Conductor::Pe => "the ground (PE)".to_owned(),
        line => line.to_string(),
    }
}

/// Amperes to a tenth, rounded up: what is drawn is never promised too low.
fn amps_drawn(amps: Amps) -> String {
    format!("{}\u{a0}A", shortest((amps.0 * 10.0 - 1e-6).ceil() / 10.0, 1))
}

/// `way 3`, `ways 1 and 2`, `ways 1, 2 and 5`.
pub fn ways(ways: &[u8]) -> String {
    let words: Vec<String> = ways.iter().map(ToString::to_string).collect();
    format!("way{} {}", if ways.len() == 1 { "" } else { "s" }, and(&words))
}
