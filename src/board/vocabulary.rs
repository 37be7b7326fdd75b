//! Every list of words of the language, each word with what it says.

use std::borrow::Cow;

use super::Rules;
use super::check::{CODED, DEVICES, EFFECTS};
use super::model::{Designators, Pin};
use crate::spec::language::Words;
use crate::standards::colours::{BARE, COLOURS};
use crate::standards::fuses::{LOW_VOLTAGE, MINIATURE};
use crate::standards::iec::{Insulation, Method};

/// A word of a list, and what it says; empty where the word says it itself.
pub type Word = (&'static str, Cow<'static, str>);

/// The words of a list, in the order in which people are shown them. Of devices the built-in ones: a
/// board's own stand in its `devices`.
pub fn vocabulary(words: Words) -> Vec<Word> {
    match words {
        Words::Designators => Designators::ALL.map(|one| plain(one.title(), "")).to_vec(),
        Words::Coded => CODED.map(|word| plain(word, "")).to_vec(),
        Words::Color => colors().collect(),
        Words::CordWire => colors().chain([plain(BARE.words, "without insulation")]).collect(),
        Words::Conductor => vec![
            plain("L1", "first line"),
            plain("L2", "second line"),
            plain("L3", "third line"),
            plain("L", "the only line"),
            plain("N", "neutral"),
            plain("PE", "ground"),
        ],
        Words::Fuse => fuses(),
        Words::Pin => Pin::WORDS.map(|(word, pin)| plain(word, pin_says(pin))).to_vec(),
        Words::Device => DEVICES.map(|word| plain(word, device_says(word))).to_vec(),
        Words::Fitted => {
            let pump = plain("pump", "a jet pump of whichever number fits");
            [pump].into_iter().chain(vocabulary(Words::Device)).collect()
        }
        Words::Effect => EFFECTS.iter().map(|(word, _, says)| plain(word, says)).collect(),
        Words::Rules => vec![
            plain(
                Rules::Nec.word(),
                "what can flow for three hours counts at 125 %; sizes of NEC 240.6(A)",
            ),
            plain(Rules::Iec.word(), "the design current itself; sizes of IEC 60898-1"),
        ],
        Words::Terminals => vec![
            plain("60 C", "marked for conductors of 60 degrees Celsius"),
            plain("75 C", "marked for conductors of 75 degrees Celsius"),
        ],
        Words::Method => {
            Method::ALL.map(|method| plain(method.word(), method_says(method))).to_vec()
        }
        Words::Insulation => vec![
            plain(Insulation::Pvc.word(), "70 degrees Celsius at the conductor"),
            plain(Insulation::Xlpe.word(), "XLPE or EPR, 90 degrees Celsius at the conductor"),
        ],
        Words::Cord => vec![
            plain("re-ended", "somebody put a plug on its end"),
            plain("adapter", "it is plugged in through an adapter"),
        ],
    }
}

fn plain(word: &'static str, says: &'static str) -> Word {
    (word, Cow::Borrowed(says))
}

/// Words, and then letters.
fn colors() -> impl Iterator<Item = Word> {
    let letters = |says: &'static str| Cow::Owned(format!("{says}, in letters of IEC 60757"));
    let words = COLOURS.iter().map(|color| plain(color.words, ""));
    words.chain(COLOURS.iter().map(move |color| (color.letters, letters(color.words))))
}

fn fuses() -> Vec<Word> {
    let mut all = Vec::new();
    for (table, of) in [(&MINIATURE, "miniature fuses"), (&LOW_VOLTAGE, "low-voltage fuses")] {
        let standard = table.clause.edition.split(':').next().unwrap_or_default();
        for kind in table.values {
            let same = format!("`{}` of {standard}", kind.letters);
            all.extend(kind.words.iter().map(|word| (*word, Cow::Owned(same.clone()))));
            let letters = format!("letters of {standard} on {of}");
            all.push((kind.letters, Cow::Owned(letters)));
        }
    }
    all
}

fn pin_says(pin: Pin) -> &'static str {
    match pin {
        Pin::Ground => "the ground wire (PE)",
        Pin::Common => "the return of all speeds",
        Pin::Low => "low speed",
        Pin::High => "high speed, or the only one",
        Pin::Positive => "positive of a low voltage",
        Pin::Negative => "negative of a low voltage",
        Pin::Signal => "a signal that carries no power",
        Pin::Screen => "the screen of a signal lead",
    }
}

fn device_says(word: &str) -> &'static str {
    match word {
        "heater" => "the water heater",
        "circulation" => "a pump that only circulates: small, one speed",
        "blower" => "an air blower",
        "ozonator" => "an ozone generator",
        "light" => "a light",
        "sound" => "a sound system",
        _ => "a jet pump by its number",
    }
}

fn method_says(method: Method) -> &'static str {
    match method {
        Method::A1 => "conductors in conduit in an insulated wall",
        Method::A2 => "a cable in conduit in an insulated wall",
        Method::B1 => "conductors in conduit on a wall",
        Method::B2 => "a cable in conduit on a wall",
        Method::C => "a cable on a wall",
        Method::D1 => "a cable in a duct in the ground",
        Method::D2 => "a cable in the ground",
    }
}
