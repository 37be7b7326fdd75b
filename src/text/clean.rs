//! Text that the fonts can write: nothing invisible, no control characters, a code in brackets
//! for what no font has.

use std::borrow::Cow;
use std::fmt::Write;

use super::fonts::covered;

/// `text` as it will be set. Never holds a control character or one that no font has.
pub(super) fn clean(text: &str) -> Cow<'_, str> {
    if text.bytes().all(|byte| matches!(byte, b' '..=b'~')) {
        return Cow::Borrowed(text);
    }
    let mut cleaned = String::with_capacity(text.len());
    for char in text.chars() {
        match char {
            '\t' | '\n' | '\u{b}' | '\u{c}' | '\r' | '\u{85}' | '\u{2028}' | '\u{2029}' => {
                cleaned.push(' ');
            }
            // The signs for micro and ohm are older copies of the Greek letters (Unicode gives
            // them as equivalent), and only the letters are in the Latin font.
            '\u{b5}' => cleaned.push('\u{3bc}'),
            '\u{2126}' => cleaned.push('\u{3a9}'),
            char if char.is_control() || is_invisible(char) => {}
            char if covered(char) => cleaned.push(char),
            char => push_code(&mut cleaned, char),
        }
    }
    Cow::Owned(cleaned)
}

/// Writes a character as `[U+4E2D]`.
pub(super) fn push_code(to: &mut String, char: char) {
    // Writing to a string cannot fail.
    let _ = write!(to, "[U+{:04X}]", char as u32);
}

/// Characters that draw nothing: joiners, direction marks, soft hyphens, variation selectors. A
/// direction mark in a specification could make a sheet read differently from its source.
fn is_invisible(char: char) -> bool {
    matches!(
        char,
        '\u{ad}'
            | '\u{34f}'
            | '\u{61c}'
            | '\u{115f}'..='\u{1160}'
            | '\u{17b4}'..='\u{17b5}'
            | '\u{180b}'..='\u{180f}'
            | '\u{200b}'..='\u{200f}'
            | '\u{202a}'..='\u{202e}'
            | '\u{2060}'..='\u{206f}'
            | '\u{3164}'
            | '\u{fe00}'..='\u{fe0f}'
            | '\u{feff}'
            | '\u{ffa0}'
            | '\u{fff0}'..='\u{fffb}'
            | '\u{1bca0}'..='\u{1bca3}'
            | '\u{1d173}'..='\u{1d17a}'
            | '\u{e0000}'..='\u{e0fff}'
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_cannot_be_written_is_named() {
        assert_eq!(clean("plain"), "plain");
        assert_eq!(clean("a\tb\nc\u{0}d\u{200b}e"), "a b cde");
        assert_eq!(clean("中"), "[U+4E2D]");
        assert_eq!(clean("5 µF, 3 \u{2126}"), "5 μF, 3 Ω");
        assert_eq!(clean("\u{202e}off"), "off");
        assert_eq!(clean("שלום"), "[U+05E9][U+05DC][U+05D5][U+05DD]");
    }
}
