//! Titles and sentences, some of them awkward for whoever prints them.

use super::dice::Dice;

/// Words that have broken a printer of HTML, Markdown, SVG, YAML or PDF somewhere.
const AWKWARD: [&str; 30] = [
    "<script>alert(1)</script>",
    "](javascript:alert(1))",
    "![x](figure:board-plan)",
    "<!-- -->",
    "]]>",
    "a|b",
    "\"so called\"",
    "it's",
    "`code`",
    "**bold** _it_",
    "# 1",
    "&amp; & &lt;",
    "{{ layout }}",
    "{% if %}",
    "C:\\new\\table",
    "100 % ~ ^",
    "- item: [1, 2]",
    "Überströmöffnung",
    "Filterkreislaufumwälzpumpenanschluss",
    "Żółć ěščř ğışı",
    "Αντλία νερού",
    "Насос ёмкости",
    "½ hp · 2 × 3 – 4 … 5",
    "(unbalanced",
    "null",
    "off",
    "12 V",
    "0x1F",
    "…",
    "office fi fl ffi AVATAR",
];

const PLAIN: [&str; 16] = [
    "Pump",
    "Aux",
    "Heater",
    "Filter",
    "Air",
    "Deck",
    "Far side",
    "Near side",
    "Jets",
    "Foot well",
    "Upper",
    "Lower",
    "Feed",
    "Return",
    "Board",
    "Spare",
];

const SENTENCES: [&str; 8] = [
    "The pump follows the filter timer.",
    "The pump runs all day.",
    "Normal running.",
    "The light goes out after an hour.",
    "The panel is locked.",
    "Every setting returns to its shipped value.",
    "The blower stops after ten minutes.",
    "The ozonator runs at all hours.",
];

/// A title of 1 to 60 characters.
pub fn title(dice: &mut Dice, awkward: bool) -> String {
    let mut title = String::new();
    for _ in 0..dice.within(1, 3) {
        let word =
            if awkward && dice.often(40) { *dice.pick(&AWKWARD) } else { *dice.pick(&PLAIN) };
        let room = 60 - title.chars().count();
        if word.chars().count() < room {
            if !title.is_empty() {
                title.push(' ');
            }
            title.push_str(word);
        }
    }
    if title.is_empty() { "Feed".to_owned() } else { title }
}

/// One sentence, perhaps with an awkward word in it; `number` makes it differ from its fellows.
pub fn sentence(dice: &mut Dice, awkward: bool, number: usize) -> String {
    let sentence = *dice.pick(&SENTENCES);
    let mark = if awkward && dice.often(25) { *dice.pick(&AWKWARD) } else { "Setting" };
    format!("{mark} {number}: {sentence}")
}

/// The text as a double-quoted YAML scalar, or bare where it is a plain English word.
pub fn scalar(text: &str) -> String {
    let bare = text.chars().all(|c| c.is_ascii_alphabetic() || c == ' ')
        && text.len() > 5
        && text.trim() == text;
    if bare { text.to_owned() } else { quoted(text) }
}

/// The text as a double-quoted YAML scalar.
pub fn quoted(text: &str) -> String {
    format!("\"{}\"", text.replace('\\', "\\\\").replace('"', "\\\""))
}
