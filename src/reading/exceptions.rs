//! Words whose syllables their spelling does not tell.

/// Abbreviations as the words that they stand for, in the case in which they are written: `V` is a
/// volt, `A` an ampere or the article. `W` alone is a watt. In the order of their bytes.
pub(super) const UNITS: &[(&str, usize)] = &[
    ("A", 1),    // amp
    ("AWG", 5),  // A W G
    ("GFCI", 4), // as letters
    ("Hz", 1),   // hertz
    ("IEC", 3),  // as letters
    ("LED", 3),  // as letters
    ("NEC", 3),  // as letters
    ("PE", 2),   // as letters
    ("V", 1),    // volt
    ("VA", 2),   // as letters
    ("W", 1),    // watt
    ("hp", 3),   // horsepower
    ("kVA", 3),  // k V A
    ("kW", 3),   // kilowatt
    ("km", 4),   // kilometre
    ("m", 2),    // metre
    ("mA", 3),   // milliamp
    ("min", 2),  // minute
    ("mm", 4),   // millimetre
    ("mm2", 6),  // square millimetre, as it is written in a job
    ("mm²", 6),  // square millimetre
];

/// Words in small letters, in alphabetical order. The plural of each is known, too.
pub(super) const WORDS: &[(&str, usize)] = &[
    ("area", 3),
    ("argue", 2),
    ("baseboard", 2),
    ("behaviour", 3),
    ("being", 2),
    ("business", 2),
    ("carriage", 2),
    ("create", 2),
    ("created", 3),
    ("element", 3),
    ("evening", 2),
    ("every", 2),
    ("everybody", 4),
    ("everyone", 3),
    ("everything", 3),
    ("everywhere", 3),
    ("eye", 1),
    ("faceplate", 2),
    ("fluid", 2),
    ("friend", 1),
    ("friendly", 2),
    ("gauge", 1),
    ("homeowner", 3),
    ("horsepower", 3),
    ("household", 2),
    ("idea", 3),
    ("ideal", 3),
    ("lifetime", 2),
    ("likewise", 2),
    ("lonely", 2),
    ("makeup", 2),
    ("marriage", 2),
    ("nameplate", 2),
    ("ocean", 2),
    ("people", 2),
    ("pipeline", 2),
    ("poem", 2),
    ("react", 2),
    ("reactance", 3),
    ("reenter", 3),
    ("reinstall", 3),
    ("ruin", 2),
    ("safeguard", 2),
    ("safety", 2),
    ("science", 2),
    ("somebody", 3),
    ("somehow", 2),
    ("someone", 2),
    ("something", 2),
    ("sometime", 2),
    ("sometimes", 2),
    ("somewhere", 2),
    ("theatre", 3),
    ("therefore", 2),
    ("timetable", 3),
    ("tongue", 1),
    ("whereas", 2),
];

/// The count of `word` in a list that is in order.
pub(super) fn found(list: &[(&str, usize)], word: &str) -> Option<usize> {
    let at = list.binary_search_by(|(known, _)| (*known).cmp(word)).ok()?;
    list.get(at).map(|(_, count)| *count)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_lists_are_in_order() {
        for list in [UNITS, WORDS] {
            for pair in list.windows(2) {
                assert!(pair[0].0 < pair[1].0, "{} and {}", pair[0].0, pair[1].0);
            }
        }
    }
}
