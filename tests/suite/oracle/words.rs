//! Words in a text.

/// Whether `wanted` stands in a text as words of its own: `2` stands in `pump 2`, not in `12 A`.
#[track_caller]
pub fn says(text: &str, wanted: &str) -> bool {
    assert!(!wanted.is_empty(), "nothing is said everywhere");
    let part_of_word = |c: Option<char>| c.is_some_and(char::is_alphanumeric);
    text.match_indices(wanted).any(|(at, _)| {
        !part_of_word(text[..at].chars().next_back())
            && !part_of_word(text[at + wanted.len()..].chars().next())
    })
}

/// The numbers that stand before a unit, as 44.4 in `44.4 A`.
pub fn amounts(text: &str, unit: &str) -> Vec<f64> {
    let words: Vec<&str> = text
        .split(|c: char| c.is_whitespace())
        .map(|word| word.trim_matches(|c: char| !c.is_alphanumeric()))
        .collect();
    let pairs = words.windows(2).filter(|pair| pair[1] == unit);
    pairs.filter_map(|pair| pair[0].parse().ok()).collect()
}

#[test]
fn a_word_is_no_part_of_another() {
    assert!(says("pump 2 runs", "2") && says("(J2)", "J2") && says("12 A", "12 A"));
    assert!(!says("pump 12 runs", "2") && !says("J20", "J2") && !says("blower", "low"));
    assert_eq!(amounts("44.4\u{a0}A flow, and it has 40 A; on 240 V.", "A"), [44.4, 40.0]);
}
