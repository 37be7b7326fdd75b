//! Mistakes, what is noticed of them, and what to check, in the words of a language.
//!
//! Every function gives a clause: it begins small and has no full stop, so that it can stand in a
//! table, in a question or, through [`sentence`], by itself.

mod check;
mod mistake;
mod sign;

#[cfg(test)]
mod tests;

pub use check::{bank, expected, landing_of, layout, look, pins};
pub use mistake::mistake;
pub use sign::{does, has_button, noticed, observed};

use crate::decide::mistakes::Danger;
use crate::document::Signal;
use crate::english::capital;
use crate::words::Words;

/// A clause as a sentence: with a capital letter and a full stop.
pub fn sentence(_words: &Words, clause: &str) -> String {
    let stop = if clause.ends_with(['.', '?', '!', '\u{201d}']) { "" } else { "." };
    format!("{}{stop}", capital(clause))
}

/// The signal word that a danger asks for.
pub fn signal(danger: Danger) -> Signal {
    match danger {
        Danger::Deadly => Signal::Danger,
        Danger::Fire => Signal::Warning,
        Danger::Damage | Danger::None => Signal::Notice,
    }
}

/// Numbers of ways in a list: `1, 2 and 5`.
pub fn way_numbers(words: &Words, ways: &[u8]) -> String {
    words.and(&ways.iter().map(ToString::to_string).collect::<Vec<_>>())
}

/// `way 3`, `ways 1 and 2`, `ways 1, 2 and 5`.
pub fn ways(words: &Words, ways: &[u8]) -> String {
    words.count_of_ways(ways.len(), &way_numbers(words, ways))
}
