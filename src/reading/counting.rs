//! Counting a text by the rules of its language.

use super::languages::ReadingLanguage;
use super::sentences::{Sentence, sentences};
use super::{Counts, vowels};

impl ReadingLanguage {
    /// Counts a text as [`count`](super::count) does for English.
    pub fn count(self, text: &str) -> Counts {
        sentences(text).iter().map(|sentence| self.count_sentence(sentence)).sum()
    }

    /// One sentence with its words and syllables; nothing at all if it has no letter.
    pub fn count_sentence(self, sentence: &Sentence<'_>) -> Counts {
        if self == Self::English {
            return sentence.counts();
        }
        if !sentence.text.contains(char::is_alphabetic) {
            return Counts::default();
        }
        let (mut words, mut syllables) = (0, 0);
        for word in sentence.words() {
            words += 1;
            syllables += vowels::syllables(word, self);
        }
        Counts { words, sentences: 1, syllables }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_text_is_counted_in_its_language() {
        let german = ReadingLanguage::German.count("Die Steuerbox öffnen. 4 A messen!");
        assert_eq!(german, Counts { words: 6, sentences: 2, syllables: 1 + 3 + 2 + 1 + 3 + 2 });
        assert_eq!(ReadingLanguage::of_tag("de-AT"), Some(ReadingLanguage::German));
        assert_eq!(ReadingLanguage::of_tag("nl"), None);
        // What ends with a full stop in the middle of a sentence ends none.
        assert_eq!(ReadingLanguage::German.count("Es sind ca. 4 A bzw. 5 A.").sentences, 1);
    }
}
