//! Where a word may be parted at the end of a line.

use hypher::{Lang, hyphenate_bounded};

/// Fewer letters than this are not parted: little is won.
const LEAST: usize = 7;
/// Letters that stay before a hyphen: two alone are easily overlooked.
const BEFORE: usize = 3;
/// Letters that go behind one: a shorter rest tells little of the word (`Steckbrü-cke`).
const BEHIND: usize = 4;

/// Parts the words of one language.
#[derive(Clone, Copy, Debug)]
pub(super) struct Hyphenator(Lang);

impl Hyphenator {
    /// The one for a language by its tag; `None` for one without patterns, and for English, whose words are
    /// short.
    pub fn of_tag(tag: &str) -> Option<Self> {
        let code: [u8; 2] = tag.split('-').next()?.as_bytes().try_into().ok()?;
        Lang::from_iso(code).filter(|_| code != *b"en").map(Self)
    }

    /// Where a word with its marks may be parted, bytes. Only words of letters are: no code, nothing with a
    /// digit, nothing in capitals.
    pub fn places(self, text: &str) -> Vec<usize> {
        let core = text.trim_matches(|c: char| !c.is_alphanumeric());
        let start = text.find(core).unwrap_or(0);
        let letters = core.chars().count();
        let prose =
            core.chars().all(char::is_alphabetic) && core.chars().skip(1).all(char::is_lowercase);
        if letters < LEAST || !prose {
            return Vec::new();
        }
        let mut at = start;
        let mut places: Vec<usize> = hyphenate_bounded(core, self.0, BEFORE, BEHIND)
            .map(|syllable| {
                at += syllable.len();
                at
            })
            .collect();
        // The end of the word is none.
        places.pop();
        places
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn parted(tag: &str, text: &str) -> String {
        let mut out = String::new();
        let mut start = 0;
        for place in Hyphenator::of_tag(tag).expect("it has patterns").places(text) {
            out.push_str(text.get(start..place).expect("between letters"));
            out.push('-');
            start = place;
        }
        out + text.get(start..).expect("between letters")
    }

    #[test]
    fn words_are_parted_as_dictionaries_part_them() {
        assert_eq!(parted("de", "(Steckbrücke)"), "(Steck-brücke)");
        assert_eq!(parted("de", "Schutzleiter."), "Schutz-leiter.");
        assert_eq!(parted("es", "interruptor,"), "inte-rruptor,");
        assert_eq!(parted("fr", "disjoncteur"), "dis-jonc-teur");
    }

    #[test]
    fn codes_and_short_words_are_whole() {
        for text in ["J1", "S1-Schalter", "WARNUNG", "OC-8120", "Leiter", "power4header", "HgInCl2"]
        {
            assert!(!parted("de", text).contains("\u{ad}") && parted("de", text) == text, "{text}");
        }
        assert!(Hyphenator::of_tag("en").is_none() && Hyphenator::of_tag("en-US").is_none());
        assert!(Hyphenator::of_tag("xx").is_none() && Hyphenator::of_tag("").is_none());
        assert!(Hyphenator::of_tag("de-AT").is_some());
    }
}
