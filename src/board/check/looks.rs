//! Names that a person cannot tell apart, or hardly.
//!
//! Two names look the same if their skeletons of Unicode UTS 39 are equal: the letters that a
//! person may take for each other are replaced by one of them. A skeleton is compared and never
//! shown.

use std::collections::BTreeMap;

use unicode_security::skeleton;

use crate::diagnostic::{Code, Problem, Problems};
use crate::spec::Name;

/// How alike two different names are.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Likeness {
    /// They differ in capitals alone.
    Capitals,
    /// They look the same, but are of other letters: `A` in Latin and in Cyrillic.
    OtherLetters,
    /// They are hard to tell apart in some type: 0 and O, 1, l and I, m and rn.
    Close,
}

/// How alike `one` and `other` are; `None` if a person tells them apart, or if they are the same.
pub fn likeness(one: &str, other: &str) -> Option<Likeness> {
    let same = |change: fn(&str) -> String| change(one) == change(other);
    if one == other {
        None
    } else if one.is_ascii() && other.is_ascii() {
        // Changing capitals first would make I1 of i1, and so l1, from which i1 is easily told.
        if one.eq_ignore_ascii_case(other) {
            Some(Likeness::Capitals)
        } else {
            same(look).then_some(Likeness::Close)
        }
    } else if same(look) || same(|name| look(&name.to_lowercase())) || same(capitals) {
        Some(Likeness::OtherLetters)
    } else {
        None
    }
}

fn look(name: &str) -> String {
    skeleton(name).collect()
}

fn capitals(name: &str) -> String {
    look(&name.to_uppercase())
}

/// Reports each name that looks like an earlier one of `names`, which come with what they name.
pub fn check<'s>(names: impl Iterator<Item = (&'s str, &'s Name)>, problems: &mut Problems) {
    let mut earlier: Vec<(&str, &Name)> = Vec::new();
    // A few hundred names at most, but a skeleton is long work: each is made once.
    let mut of_look: BTreeMap<String, Vec<usize>> = BTreeMap::new();
    for (what, name) in names {
        let lowered = name.value.to_lowercase();
        let mut looks = vec![look(&name.value), look(&lowered), capitals(&name.value), lowered];
        looks.sort();
        looks.dedup();
        let mut before = looks.iter().flat_map(|look| of_look.get(look).into_iter().flatten());
        let like = before.find_map(|index| {
            let (of, other) = earlier.get(*index)?;
            likeness(&name.value, &other.value).map(|how| (how, *of, *other))
        });
        if let Some((how, of, other)) = like {
            report(how, (what, name), (of, other), problems);
        }
        for look in looks {
            of_look.entry(look).or_default().push(earlier.len());
        }
        earlier.push((what, name));
    }
}

fn report(
    how: Likeness,
    (what, name): (&str, &Name),
    (of, other): (&str, &Name),
    problems: &mut Problems,
) {
    let problem = |code, message: String| {
        Problem::new(code, name.span, message)
            .label(format!("a {what} here"))
            .other(other.span, format!("a {of} here"))
    };
    let (one, two) = (&other.value, &name.value);
    match how {
        Likeness::Capitals => {
            let message = format!("`{one}` and `{two}` differ in capitals alone");
            problems.error(
                problem(Code::SameLook, message)
                    .note("said aloud, or in a table in capitals, they are the same")
                    .help("give one of them another name"),
            );
        }
        Likeness::OtherLetters => {
            let message = format!("`{one}` and `{two}` look the same, but are of other letters");
            let note = match strange(two).or_else(|| strange(one)) {
                Some(letter) => letter,
                None => "they are of other characters".to_owned(),
            };
            problems.error(
                problem(Code::SameLook, message)
                    .note(note)
                    .help("write both with the letters of one script, or give one another name"),
            );
        }
        Likeness::Close => {
            let message = format!("`{one}` and `{two}` are hard to tell apart");
            problems.warning(problem(Code::NearLook, message).note(
                "0 and O, 1, l and I, and m and rn look alike on a board and by torch light",
            ));
        }
    }
}

/// The first letter of `name` that no keyboard for English has, with its number in Unicode.
pub fn strange(name: &str) -> Option<String> {
    let letter = name.chars().find(|c| !c.is_ascii())?;
    let plain: String = skeleton(&letter.to_string()).collect();
    let number = letter as u32;
    Some(if plain.is_ascii() {
        format!("`{letter}` is U+{number:04X}, which looks like `{plain}`")
    } else {
        format!("`{letter}` is U+{number:04X}")
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Check-values section 21, rows 21a to 21g.
    #[test]
    fn the_pairs_of_the_check_values() {
        for (one, other) in [
            ("J1", "\u{408}1"),
            ("TB1", "\u{422}\u{412}1"),
            ("CN1", "\u{421}N1"),
            ("31", "\u{417}1"),
            ("A", "\u{410}"),
            // A small Cyrillic letter and a Latin capital.
            ("A", "\u{430}"),
            ("T-1", "T\u{2212}1"),
        ] {
            assert_eq!(likeness(one, other), Some(Likeness::OtherLetters), "{one} {other}");
            assert_eq!(likeness(other, one), Some(Likeness::OtherLetters), "{one} {other}");
        }
        for (one, other) in
            [("P10", "P1O"), ("SW11", "SWIl"), ("I1", "l1"), ("O0", "00"), ("m", "rn")]
        {
            assert_eq!(likeness(one, other), Some(Likeness::Close), "{one} {other}");
        }
        for (one, other) in [
            ("K1", "K2"),
            ("B8", "B3"),
            ("J5", "JS"),
            ("Z2", "22"),
            ("I1", "L1"),
            ("i1", "11"),
            ("\u{406}1", "L1"),
            ("Über", "Uber"),
            ("north", "south"),
            ("J1", "J1"),
        ] {
            assert_eq!(likeness(one, other), None, "{one} {other}");
        }
        for (one, other) in [("J6", "j6"), ("JP1", "jp1")] {
            assert_eq!(likeness(one, other), Some(Likeness::Capitals), "{one} {other}");
        }
    }

    /// The columns of the table in section 21: each capital of Cyrillic and Greek beside the Latin
    /// one.
    #[test]
    fn the_letters_of_the_check_values() {
        let cyrillic = "АВСЕНЈКМОРЅТХ";
        let greek = "ΑΒϹΕΗͿΚΜΟΡ";
        for (look, latin) in cyrillic.chars().zip("ABCEHJKMOPSTX".chars()) {
            let (look, latin) = (format!("{look}7"), format!("{latin}7"));
            assert_eq!(likeness(&look, &latin), Some(Likeness::OtherLetters), "{look} {latin}");
        }
        for (look, latin) in greek.chars().zip("ABCEHJKMOP".chars()) {
            let (look, latin) = (format!("{look}7"), format!("{latin}7"));
            assert_eq!(likeness(&look, &latin), Some(Likeness::OtherLetters), "{look} {latin}");
        }
    }
}
