//! Syllables of German, Spanish and French words, by spelling.
//!
//! In all three a syllable is a group of vowels as it is spoken. What parts a group is another matter in each;
//! the rules stand at [`german`], [`spanish`] and [`french`]. They go by letters alone: a few words come out
//! wrong by one. Codes and figures are counted as they are read aloud, letter by letter and digit by digit;
//! the letters and digits are those of the language.

use super::languages::ReadingLanguage;

/// Syllables of one word as it stands in a text; at least one. The parts of `120/240` or `LS-Schalter` are
/// counted each by itself.
pub fn syllables(word: &str, language: ReadingLanguage) -> usize {
    let parts = word.split(|c: char| !c.is_alphanumeric()).filter(|part| !part.is_empty());
    parts.map(|part| of_part(part, language)).sum::<usize>().max(1)
}

fn of_part(part: &str, language: ReadingLanguage) -> usize {
    let unit = language.units().iter().find(|(unit, _)| *unit == part);
    if let Some((_, count)) = unit {
        return *count;
    }
    let letters: Vec<char> = part.chars().flat_map(char::to_lowercase).collect();
    let code = part.contains(char::is_numeric);
    let capitals = letters.len() > 1 && part.chars().all(char::is_uppercase);
    if code || (capitals && !letters.iter().any(|c| is_vowel(*c))) {
        return letters.iter().map(|c| spelt(*c, language)).sum();
    }
    let count = match language {
        ReadingLanguage::English => super::syllables::syllables(part),
        ReadingLanguage::German => german(&letters),
        ReadingLanguage::Spanish => spanish(&letters),
        ReadingLanguage::French => french(&letters),
    };
    count.max(1)
}

/// A letter or digit that is named by itself.
fn spelt(c: char, language: ReadingLanguage) -> usize {
    match (language, c) {
        (ReadingLanguage::German, 'y') => 3,
        (ReadingLanguage::German, '7') => 2,
        (
            ReadingLanguage::Spanish,
            'f' | 'h' | 'j' | 'l' | 'm' | 'n' | 'r' | 's' | 'v' | 'x' | 'z',
        ) => 2,
        (ReadingLanguage::Spanish, 'w') => 3,
        (ReadingLanguage::Spanish, 'y') => 1,
        (ReadingLanguage::Spanish, '0' | '1' | '4' | '5' | '7' | '8' | '9') => 2,
        (ReadingLanguage::French, 'w') => 3,
        (ReadingLanguage::French, 'y' | '0') => 2,
        _ => 1,
    }
}

fn is_vowel(c: char) -> bool {
    matches!(
        c,
        'a' | 'e'
            | 'i'
            | 'o'
            | 'u'
            | 'y'
            | 'ä'
            | 'ö'
            | 'ü'
            | 'á'
            | 'é'
            | 'í'
            | 'ó'
            | 'ú'
            | 'à'
            | 'â'
            | 'è'
            | 'ê'
            | 'ë'
            | 'î'
            | 'ï'
            | 'ô'
            | 'ù'
            | 'û'
            | 'ÿ'
            | 'œ'
            | 'æ'
    )
}

/// German: `ei ai au eu äu ie ee aa oo oi ou` are one sound, and every other vowel beside a vowel is one of
/// its own (be-ach-ten, ge-öff-net, Sta-ti-on). `ie` is one sound but at the end of a word before `n`
/// (Li-ni-en). A `u` after `q`, and a `y` before a vowel at the start, are none.
fn german(letters: &[char]) -> usize {
    const PAIRS: [[char; 2]; 11] = [
        ['e', 'i'],
        ['a', 'i'],
        ['a', 'u'],
        ['e', 'u'],
        ['ä', 'u'],
        ['i', 'e'],
        ['e', 'e'],
        ['a', 'a'],
        ['o', 'o'],
        ['o', 'i'],
        ['o', 'u'],
    ];
    let mut count = 0;
    let mut rest = letters;
    let mut before = None;
    while let [first, after @ ..] = rest {
        rest = after;
        let last = before.replace(*first);
        if !is_vowel(*first)
            || (*first == 'u' && last == Some('q'))
            || (*first == 'y' && last.is_none() && after.first().is_some_and(|c| is_vowel(*c)))
        {
            continue;
        }
        count += 1;
        let Some(second) = after.first() else { break };
        let apart = [*first, *second] == ['i', 'e'] && after == ['e', 'n'] && last.is_some();
        if PAIRS.contains(&[*first, *second]) && !apart {
            rest = after.get(1..).unwrap_or_default();
            before = Some(*second);
        }
    }
    count
}

/// Spanish: `a e o` are strong, `i u ü y` weak. Two strong vowels are two syllables (le-er, ca-er), a weak one
/// beside any other makes one with it (tie-rra, cui-da-do), but one with an accent beside a strong one stands by
/// itself (ba-úl, ali-men-ta-ría). A `u` is silent in `que qui gue gui`; a `y` is a vowel only where no vowel
/// follows.
fn spanish(letters: &[char]) -> usize {
    #[derive(PartialEq)]
    enum Sound {
        Strong,
        Weak,
        Accented,
        None,
    }
    let at = |index: Option<usize>| index.and_then(|index| letters.get(index)).copied();
    let sound = |index: usize| {
        let next = at(index.checked_add(1));
        let before = at(index.checked_sub(1));
        match at(Some(index)) {
            Some('a' | 'e' | 'o' | 'á' | 'é' | 'ó') => Sound::Strong,
            Some('u')
                if matches!(before, Some('q' | 'g'))
                    && matches!(next, Some('e' | 'i' | 'é' | 'í')) =>
            {
                Sound::None
            }
            Some('y') if next.is_some_and(is_vowel) => Sound::None,
            Some('i' | 'u' | 'ü' | 'y') => Sound::Weak,
            Some('í' | 'ú') => Sound::Accented,
            _ => Sound::None,
        }
    };
    let mut count = 0;
    let mut before = Sound::None;
    for index in 0..letters.len() {
        let own = sound(index);
        let joins = match (&before, &own) {
            (_, Sound::None) => true,
            (Sound::None, _) => false,
            (Sound::Strong, Sound::Strong) => false,
            (Sound::Accented, Sound::Strong) | (Sound::Strong, Sound::Accented) => false,
            _ => true,
        };
        count += usize::from(!joins);
        before = own;
    }
    count
}

/// French: a group of vowels is one syllable (ten-sion, lui, eau). Apart are a vowel behind `é` that is not the
/// silent `e` of an ending (ré-ar-mer), one with a trema (maïs), and what stands on both sides of a `y` or of
/// `ao`, `oa`, `éo` (es-sa-yer, cha-os). An `e` or `es` at the end is silent behind a consonant (borne) and
/// belongs to the group behind a vowel (vue, fermée). `u` after `q`, and after `g` before a vowel, is silent.
fn french(letters: &[char]) -> usize {
    let at = |index: Option<usize>| index.and_then(|index| letters.get(index)).copied();
    let sounds = |index: usize| {
        let own = at(Some(index)).unwrap_or(' ');
        let (before, next) = (at(index.checked_sub(1)), at(index.checked_add(1)));
        let vowel_next = next.is_some_and(is_vowel);
        match own {
            'u' if before == Some('q') => false,
            'u' if before == Some('g') && vowel_next => false,
            'y' if vowel_next => before.is_some_and(|c| !is_vowel(c)),
            own => is_vowel(own),
        }
    };
    let silent_end = match letters {
        [stem @ .., 'e'] | [stem @ .., 'e', 's'] => Some(stem.len()),
        _ => None,
    };
    let mut count = 0;
    let mut last: Option<char> = None;
    for (index, own) in letters.iter().enumerate() {
        if !sounds(index) {
            last = None;
            continue;
        }
        let apart = match (last, own) {
            (None, _) => true,
            (_, 'ï' | 'ë' | 'ÿ') => true,
            (Some('é'), _) => Some(index) != silent_end,
            (Some('a'), 'o') | (Some('o'), 'a') => true,
            _ => false,
        };
        // Behind a consonant, if it is not the only vowel.
        let silent = Some(index) == silent_end && last.is_none() && count > 0;
        count += usize::from(apart && !silent);
        last = Some(*own);
    }
    count
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// Counted by hand, as a dictionary divides the word or as it is spoken.
    const GERMAN: &[(usize, &str)] = &[
        (1, "Draht Pult rot weiß Stift null"),
        (2, "Pumpe Heizung Steuer Gerät Quelle Ader prüfen Leiter Bauer Schalter"),
        (3, "Sicherung beachten geöffnet Gebläse Einspeisung Spannungen"),
        (4, "Neutralleiter Ozonator"),
    ];

    fn each(table: &[(usize, &str)], language: ReadingLanguage) {
        for (count, words) in table {
            for word in words.split_whitespace().filter(|word| !word.ends_with("-?")) {
                assert_eq!(syllables(word, language), *count, "{word}");
            }
        }
    }

    #[test]
    fn german_words() {
        each(GERMAN, ReadingLanguage::German);
        each(
            &[
                (1, "Hz ein ist Herz vier"),
                (2, "J5 Nase"),
                (3, "Gebäude Linien Station 240"),
                (4, "Variante LS-Leiter Reparatur"),
                (5, "Situation Zirkulation Steuerplatine"),
            ],
            ReadingLanguage::German,
        );
    }

    #[test]
    fn spanish_words() {
        each(
            &[
                (1, "pie ley luz bien que buey"),
                (2, "agua bomba leer baúl guía guerra tierra"),
                (3, "cuidado fusible caída vacío conector cerradas corriente"),
                (4, "energía calentador interruptor ozonizar"),
                (5, "alimentación temporizador"),
            ],
            ReadingLanguage::Spanish,
        );
    }

    #[test]
    fn french_words() {
        each(
            &[
                (1, "borne prise vue eau lui deux que les fiche broche roue pied"),
                (2, "tension fermée essai maïs chaos moyen jamais appel voyez"),
                (3, "réarmer essayer conducteur étiquette"),
                (4, "circulation interrupteur"),
                (5, "alimentation"),
            ],
            ReadingLanguage::French,
        );
    }

    proptest! {
        #[test]
        fn every_word_has_a_syllable(word in "\\PC{0,30}") {
            for language in ReadingLanguage::ALL {
                prop_assert!(syllables(&word, language) >= 1);
            }
        }
    }
}
