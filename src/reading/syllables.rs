//! Syllables of English words, by spelling.
//!
//! A syllable is a group of vowels, with the usual corrections: a silent *e*, vowels side by side
//! that are spoken apart, a *u* after *q*. Words that go another way are in [`super::exceptions`].
//! Letters without a sound of their own, codes and figures are counted as they are read aloud on
//! the job: `J5` is two, `GFCI` four, `240` is three ("two forty") and `208` is three ("two oh
//! eight"): one for each digit. A unit is the word that it stands for.

use super::exceptions::{UNITS, WORDS, found};

/// Syllables of one word as it stands in a text; at least one. The parts of `shut-off` or `120/240`
/// are counted each by itself. A word in letters other than Latin ones is one syllable for each
/// part: this counter knows English only.
pub fn syllables(word: &str) -> usize {
    let parts = word.split(|c: char| !c.is_alphanumeric() && !is_apostrophe(c));
    parts.map(part).sum::<usize>().max(1)
}

fn is_apostrophe(c: char) -> bool {
    matches!(c, '\'' | '’')
}

/// Syllables of a part without marks; none if it is empty.
fn part(part: &str) -> usize {
    let part = part.trim_matches(is_apostrophe);
    if part.is_empty() {
        return 0;
    }
    if let Some(count) = found(UNITS, part) {
        return count;
    }
    let code = part.contains(char::is_numeric);
    let capitals = part.len() > 1 && part.chars().all(|c| c.is_ascii_uppercase());
    let sounds = |c: char| "AEIOUY".contains(c);
    if code || (capitals && !part.contains(sounds)) {
        return part.chars().map(spelt).sum();
    }
    let lower = part.to_lowercase();
    match lower.split_once(is_apostrophe) {
        None => plain(&lower),
        Some((word, "s")) => plain(word) + usize::from(ends_hissing(word)),
        // `isn't` has two syllables, `don't` and `aren't` one.
        Some((word, "t")) => {
            let base = word.strip_suffix('n').unwrap_or(word);
            let apart = base.ends_with(['s', 'd']) || base.ends_with("ve");
            plain(base) + usize::from(apart)
        }
        Some((word, _)) => plain(word),
    }
}

/// One character that is named by itself.
fn spelt(c: char) -> usize {
    if matches!(c, 'w' | 'W') { 3 } else { 1 }
}

fn ends_hissing(word: &str) -> bool {
    ["s", "x", "z", "ch", "sh", "ce", "ge", "se", "ze"].iter().any(|end| word.ends_with(end))
}

/// Endings that leave a silent *e* before them silent, as in `safe-ly`, with their syllables.
const ENDINGS: &[(&str, usize)] =
    &[("fully", 2), ("ful", 1), ("less", 1), ("ly", 1), ("ment", 1), ("ments", 1), ("ness", 1)];

/// Syllables of a word in small letters.
fn plain(word: &str) -> usize {
    if let Some(count) = known(word) {
        return count;
    }
    for (ending, count) in ENDINGS {
        let Some(stem) = word.strip_suffix(ending) else { continue };
        if let Some(known) = known(stem) {
            return known + count;
        }
        if stem.ends_with('e') && stem.len() > 2 && !stem.ends_with("ee") {
            return by_vowels(stem) + count;
        }
    }
    by_vowels(word)
}

/// A word of the list, or its plural or other form that adds no syllable.
fn known(word: &str) -> Option<usize> {
    found(WORDS, word).or_else(|| {
        let one = word.strip_suffix('s')?;
        let count = found(WORDS, one)?;
        Some(count + usize::from(ends_hissing(one)))
    })
}

fn by_vowels(word: &str) -> usize {
    let letters: Vec<u8> = word.chars().map(letter).collect();
    let sound = sounds(&letters);
    let groups = sound.iter().enumerate().filter(|(at, own)| {
        **own && !at.checked_sub(1).and_then(|before| sound.get(before)).copied().unwrap_or(false)
    });
    let (mut count, apart) = (groups.count(), spoken_apart(&letters, &sound));
    count += apart;
    if count > 1 && ends_silent(&letters, &sound) {
        count -= 1;
    }
    if letters.ends_with(b"sm") || letters.ends_with(b"thm") {
        count += 1;
    }
    count.max(1)
}

/// A letter without its accent; `#` for one that is not Latin.
fn letter(c: char) -> u8 {
    match c {
        'a'..='z' => u8::try_from(c).unwrap_or(b'#'),
        'à'..='å' | 'æ' => b'a',
        'è'..='ë' => b'e',
        'ì'..='ï' => b'i',
        'ò'..='ö' | 'ø' | 'œ' => b'o',
        'ù'..='ü' => b'u',
        'ý' | 'ÿ' => b'y',
        'ç' => b'c',
        'ñ' => b'n',
        _ => b'#',
    }
}

fn is_vowel(letter: u8) -> bool {
    b"aeiouy".contains(&letter)
}

/// Which letters are vowels by sound. A *u* after *q*, or between *g* and a vowel, is none; nor is a
/// *y* before a vowel at the start of a word or between two vowels.
fn sounds(letters: &[u8]) -> Vec<bool> {
    let at = |index: Option<usize>| index.and_then(|index| letters.get(index)).copied();
    let of = |(index, own): (usize, &u8)| {
        let before = at(index.checked_sub(1));
        let vowel_next = at(index.checked_add(1)).is_some_and(is_vowel);
        match own {
            b'u' if before == Some(b'q') => false,
            b'u' if before == Some(b'g') => !vowel_next,
            b'y' if vowel_next => before.is_some_and(|before| !is_vowel(before)),
            own => is_vowel(*own),
        }
    };
    letters.iter().enumerate().map(of).collect()
}

/// How many pairs of vowels side by side are spoken apart.
fn spoken_apart(letters: &[u8], sound: &[bool]) -> usize {
    let mut count = 0;
    for (index, pair) in letters.windows(2).enumerate() {
        let [true, true] = sound.get(index..index + 2).unwrap_or_default() else { continue };
        let before = letters.get(..index).unwrap_or_default();
        let after = letters.get(index + 2..).unwrap_or_default();
        let soft = before.ends_with(b"c") || before.ends_with(b"t");
        let earlier = sound.get(..index).unwrap_or_default().contains(&true);
        let apart = match pair {
            // Ma-te-ri-al, but spe-cial.
            b"ia" => !soft && !before.ends_with(b"s"),
            // Pe-ri-od, ra-ti-o, but op-tion, cau-tious, re-gion, mil-lion.
            b"io" => {
                let melts =
                    soft || [b"s", b"g", b"x", b"l", b"n"].iter().any(|m| before.ends_with(*m));
                !(melts && (after.starts_with(b"n") || after.starts_with(b"us")))
            }
            b"iu" | b"uo" | b"ao" => true,
            b"ua" => !(before.ends_with(b"s") && after.starts_with(b"d")),
            b"eo" => {
                !(before.ends_with(b"g") && (after.starts_with(b"n") || after.starts_with(b"us")))
            }
            // Qui-et, cli-ent, car-ri-er, but field and ef-fi-cient.
            b"ie" => match after {
                [b't', ..] => true,
                [b'n', ..] => !soft,
                b"r" | b"rs" | b"st" => earlier,
                _ => false,
            },
            // Fu-el, flu-ent, in-flu-ence.
            b"ue" => {
                after.starts_with(b"l") || after.starts_with(b"nt") || after.starts_with(b"nc")
            }
            // Be-ing, go-ing, car-ry-ing.
            [b'e' | b'i' | b'o' | b'u' | b'y', b'i'] => after.starts_with(b"ng"),
            // Dry-er.
            b"ye" => after == b"r" || after == b"rs",
            _ => false,
        };
        count += usize::from(apart);
    }
    count
}

/// Whether the last *e* is silent: plate, plates, plugged; not table, boxes, fitted.
fn ends_silent(letters: &[u8], sound: &[bool]) -> bool {
    let (stem, ending) = match letters {
        [stem @ .., b'e'] => (stem, ""),
        [stem @ .., b'e', b's'] => (stem, "s"),
        [stem @ .., b'e', b'd'] => (stem, "d"),
        _ => return false,
    };
    // Part of a group of vowels: agree, tied.
    if stem.len().checked_sub(1).and_then(|at| sound.get(at)).copied().unwrap_or(true) {
        return false;
    }
    let consonant_and = |last: u8| match stem {
        [.., before, own] => *own == last && !is_vowel(*before),
        _ => false,
    };
    // Ta-ble, han-dled, but called.
    if consonant_and(b'l') && !stem.ends_with(b"ll") {
        return false;
    }
    // Me-tre, fi-bres.
    if stem.ends_with(b"tr") || stem.ends_with(b"br") || stem.ends_with(b"cr") {
        return false;
    }
    match ending {
        "s" => {
            !["s", "x", "z", "c", "g", "ch", "sh"].iter().any(|end| stem.ends_with(end.as_bytes()))
        }
        "d" => !stem.ends_with(b"t") && !stem.ends_with(b"d"),
        _ => true,
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    /// Counted by hand, syllable by syllable; in doubt as a dictionary divides the word.
    const COUNTED: &[(usize, &str)] = &[
        (
            1,
            "a the plug plate plates fuse wire wires board ground phase keyed called turned plugged \
             shipped moved tagged locked pump through each eye guess square build friend hour fire \
             tied stayed health blue three scale whole there where tongue aren't don't board's \
             guide quite dead lead caused switched charged league",
        ),
        (
            2,
            "breaker jumper header layout layouts switches boxes table tables handle handled fitted \
             added neutral voltage blower heater licensed current supply socket quiet fuel going \
             being dryer power safely movement metre litres colour language million region option \
             business something nameplate people settled trial science friendly isn't haven't \
             house's fuses' fully careful likewise player circuit special minute safety every \
             beyond buyer surgeon persuade cautious doesn't useful useless ruin places judges equal",
        ),
        (
            3,
            "voltages voltage's allowance equipment example terminal conductor continue element protection \
             carrier period radio video various manual annual carrying appliance technician \
             agreement entirely completely portable inspector electric location influence area \
             horsepower exactly together connected completed position idea earlier elements \
             actual usual easiest minimum",
        ),
        (
            4,
            "circulation ozonator ampacity electrician reliable variable material variety society \
             experience geometry mechanism identical temperature information isolated continuous \
             amplifier",
        ),
        (5, "electricity individual manufacturer orientation simultaneous refrigerator"),
        (6, "responsibility"),
    ];

    #[test]
    fn words_counted_by_hand() {
        let mut all = 0;
        let mut wrong = Vec::new();
        for (count, words) in COUNTED {
            for word in words.split_whitespace() {
                all += 1;
                let found = syllables(word);
                if found != *count {
                    wrong.push(format!("{word}: {found}, by hand {count}"));
                }
            }
        }
        assert!(all >= 180, "{all} words");
        assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    }

    #[test]
    fn codes_figures_and_units() {
        let counted = [
            ("J5", 2),
            ("W3", 4),
            ("J10", 3),
            ("L1", 2),
            ("PE", 2),
            ("GFCI", 4),
            ("RCD", 3),
            ("TV", 2),
            ("240", 3),
            ("10", 2),
            ("1.25", 3),
            ("120/240", 6),
            ("V", 1),
            ("A", 1),
            ("kW", 3),
            ("Hz", 1),
            // Words that are printed in capitals are words.
            ("ON", 1),
            ("DANGER", 2),
            // One word, each of its parts counted.
            ("shut-off", 2),
            ("two-speed", 2),
            ("ground-fault", 2),
            ("(jumper),", 2),
            ("**off**.", 1),
            ("Zürich", 2),
            ("насос", 1),
            ("—", 1),
        ];
        for (word, count) in counted {
            assert_eq!(syllables(word), count, "{word}");
        }
    }

    proptest! {
        #[test]
        fn no_word_has_more_syllables_than_letters(word in "[a-zé'-]{1,24}") {
            // A unit is read as the word that it stands for, which is longer.
            let unit = |part: &str| found(UNITS, part.trim_matches(is_apostrophe)).is_some();
            prop_assume!(!word.split('-').any(unit));
            let found = syllables(&word);
            prop_assert!(found >= 1 && found <= word.chars().count().max(1) + 1, "{found}");
        }

        #[test]
        fn any_word_is_counted(word in "\\PC{0,12}") {
            prop_assert!(syllables(&word) >= 1);
        }
    }
}
