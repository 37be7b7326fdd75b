//! How easy a text is to read: its words, sentences and syllables, and published formulas over their
//! counts: two for English, one for German, Spanish and French each.
//!
//! What counts as a word, a sentence and a syllable is ours and is said in [`count`], [`sentences`]
//! and [`syllables`]; the formulas are not. Other programs count a little differently:
//! `tests/suite/textstat.rs` compares and says where.

mod counting;
mod exceptions;
mod languages;
mod sentences;
mod syllables;
mod vowels;

pub use languages::{LEAST_EASE, ReadingLanguage};
pub use sentences::{Sentence, sentences};
pub use syllables::syllables;

use std::ops::{Add, Sub};

/// The most words of a sentence. Plain-language guides ask for 15 to 20 on average and at most 25
/// (common practice of such guides, from memory).
pub const LONGEST_SENTENCE: usize = 25;

/// The highest school grade at which a text is called plain: about what a reader of 13 or 14 years
/// follows. Guides for the public and for patients ask for grade 6 to 8 (common practice, from
/// memory).
pub const HIGHEST_GRADE: f64 = 8.0;

/// Fewer words than this are not measured. The formulas were made for samples of a hundred words;
/// in 30, one syllable more moves the grade by 0.4, and one word cannot carry it from plain to hard.
pub const ENOUGH_WORDS: usize = 30;

/// What the formulas are made of.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Counts {
    /// Words.
    pub words: usize,
    /// Sentences.
    pub sentences: usize,
    /// Syllables.
    pub syllables: usize,
}

impl Counts {
    /// Words in a sentence, on average; `None` where there is no sentence.
    pub fn words_per_sentence(self) -> Option<f64> {
        (self.sentences > 0).then(|| self.words as f64 / self.sentences as f64)
    }

    /// Syllables in a word, on average; `None` where there is no word.
    pub fn syllables_per_word(self) -> Option<f64> {
        (self.words > 0).then(|| self.syllables as f64 / self.words as f64)
    }

    /// Whether there is enough text for a grade to mean something: [`ENOUGH_WORDS`].
    pub fn enough(self) -> bool {
        self.words >= ENOUGH_WORDS
    }

    /// Whether there is enough text, and it reads above [`HIGHEST_GRADE`], to one decimal.
    pub fn hard(self) -> bool {
        self.enough() && grade(self).is_some_and(|grade| grade >= HIGHEST_GRADE + 0.05)
    }
}

impl Add for Counts {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self {
            words: self.words + other.words,
            sentences: self.sentences + other.sentences,
            syllables: self.syllables + other.syllables,
        }
    }
}

/// What is left without a part; never below nothing.
impl Sub for Counts {
    type Output = Self;
    fn sub(self, part: Self) -> Self {
        Self {
            words: self.words.saturating_sub(part.words),
            sentences: self.sentences.saturating_sub(part.sentences),
            syllables: self.syllables.saturating_sub(part.syllables),
        }
    }
}

impl std::iter::Sum for Counts {
    fn sum<I: Iterator<Item = Self>>(all: I) -> Self {
        all.fold(Self::default(), Add::add)
    }
}

/// Flesch reading ease: 206.835 − 1.015 words per sentence − 84.6 syllables per word. The easier,
/// the higher; plain English is 60 to 70. `None` where there is nothing to measure.
///
/// R. Flesch, "A new readability yardstick", Journal of Applied Psychology 32 (1948), 221–233.
pub fn flesch(counts: Counts) -> Option<f64> {
    let (sentence, word) = (counts.words_per_sentence()?, counts.syllables_per_word()?);
    Some(206.835 - 1.015 * sentence - 84.6 * word)
}

/// Flesch-Kincaid grade level: 0.39 words per sentence + 11.8 syllables per word − 15.59, a school
/// grade of the United States. `None` where there is nothing to measure.
///
/// J. P. Kincaid, R. P. Fishburne, R. L. Rogers, B. S. Chissom, "Derivation of new readability
/// formulas", Research Branch Report 8-75, Naval Technical Training Command (1975).
pub fn grade(counts: Counts) -> Option<f64> {
    let (sentence, word) = (counts.words_per_sentence()?, counts.syllables_per_word()?);
    Some(0.39 * sentence + 11.8 * word - 15.59)
}

/// Counts a text. A sentence without any letter, as a value in a table of settings, is no prose and
/// is left out.
pub fn count(text: &str) -> Counts {
    sentences(text).iter().map(Sentence::counts).sum()
}

/// Which of some sentences makes a text hardest: the one without which the rest reads at the lowest
/// grade. The first of several; `None` if none has words.
pub fn hardest(sentences: &[Counts]) -> Option<usize> {
    let all: Counts = sentences.iter().copied().sum();
    let mut best: Option<(usize, f64)> = None;
    for (index, own) in sentences.iter().enumerate().filter(|(_, own)| own.words > 0) {
        let rest = grade(all - *own).unwrap_or(f64::NEG_INFINITY);
        if best.is_none_or(|(_, lowest)| rest < lowest) {
            best = Some((index, rest));
        }
    }
    best.map(|(index, _)| index)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_text_is_counted() {
        let text = "Turn the power off. Put way 8 of S1 on; then wait.\n\n4\n";
        // Turn the pow-er off. (5) Put way eight of ess one on; (8) then wait. (2)
        assert_eq!(count(text), Counts { words: 12, sentences: 3, syllables: 14 });
        assert_eq!(count(""), Counts::default());
        assert_eq!((flesch(count(" … ")), grade(count("12; 4."))), (None, None));
    }

    #[test]
    fn the_hardest_sentence_is_the_one_that_weighs() {
        let text = "Put it on. Nevertheless, the circulation equipment communicates. Wait.";
        let counts: Vec<Counts> = sentences(text).iter().map(Sentence::counts).collect();
        assert_eq!(hardest(&counts), Some(1));
        assert_eq!(hardest(&counts[..1]), Some(0));
        assert_eq!(hardest(&[]), None);
        assert_eq!(hardest(&[Counts::default()]), None);
    }

    #[test]
    fn enough_is_thirty_words_and_hard_is_above_eight() {
        let of = |words, sentences, syllables| Counts { words, sentences, syllables };
        // 3.9 for ten words a sentence, and 11.8 times 1.668 or 1.673, less 15.59: 7.99 and 8.05.
        assert!(!of(1000, 100, 1668).hard(), "{:?}", grade(of(1000, 100, 1668)));
        assert!(of(1000, 100, 1673).hard(), "{:?}", grade(of(1000, 100, 1673)));
        assert!(!of(29, 1, 90).hard());
        assert!(of(30, 1, 90).hard());
    }
}
