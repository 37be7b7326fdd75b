//! Content marks: eight characters that tell one state of a sheet's contents from another.
//!
//! A mark is made from what the specification says, whatever its form, the language, and the edition
//! of the sheets: their templates and phrases, and the version of this program. It is the same on every
//! machine. Two marks that differ tell that something is another. Equal marks of different contents can
//! be, but are not met: there are 24 to the power of 8, or 110 thousand million.

use std::fmt;

use sha2::{Digest, Sha256};

/// Letters and digits of which no two are taken for each other in print, by hand or by ear: of 2 and Z,
/// 5 and S, 6 and G, 8 and B the digit; of 0, D, O and Q the D; neither of 1, I and L; of U, V and W the
/// W.
const ALPHABET: &[u8; 24] = b"23456789ACDEFHJKMNPRTWXY";

/// How many characters a mark has, in two groups.
const LENGTH: usize = 8;

/// A content mark.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Mark([u8; LENGTH]);

impl Mark {
    /// The mark of some contents.
    pub fn of(contents: &Contents<'_>) -> Self {
        let Contents { said, language, edition } = contents;
        let mut sum = Sha256::new();
        // Each part with its length, so that no end of one can be the start of the next.
        let mut add = |part: &str| {
            sum.update((part.len() as u64).to_be_bytes());
            sum.update(part.as_bytes());
        };
        add("lidsheet mark 1");
        add(language);
        add(&edition.0);
        said.iter().for_each(|facts| add(facts));
        Self::of_sum(&sum.finalize())
    }

    /// Reads a mark as a person writes it: in small letters, with or without the hyphen or spaces, and
    /// with the letter in place of the digit that looks like it.
    pub fn parse(text: &str) -> Option<Self> {
        let letters = text.chars().filter(|letter| !matches!(letter, '-' | ' ' | '\u{2011}'));
        let mut mark = [0; LENGTH];
        let mut count = 0;
        for letter in letters {
            let letter = match letter.to_ascii_uppercase() {
                'Z' => '2',
                'S' => '5',
                'G' => '6',
                'B' => '8',
                'O' | 'Q' | '0' => 'D',
                letter => letter,
            };
            let known = ALPHABET.iter().find(|known| char::from(**known) == letter)?;
            *mark.get_mut(count)? = *known;
            count += 1;
        }
        (count == LENGTH).then_some(Self(mark))
    }

    /// The first 64 bits of a sum in the digits of [`ALPHABET`]: what is lost of the largest numbers
    /// makes some marks more likely by one in a hundred million.
    fn of_sum(sum: &[u8]) -> Self {
        let mut number = sum.iter().take(8).fold(0_u64, |n, byte| n << 8 | u64::from(*byte));
        let mut mark = [0; LENGTH];
        for place in &mut mark {
            let digit = usize::try_from(number % ALPHABET.len() as u64).unwrap_or(0);
            *place = ALPHABET.get(digit).copied().unwrap_or(b'2');
            number /= ALPHABET.len() as u64;
        }
        Self(mark)
    }
}

/// `7F3A-94KD`.
impl fmt::Display for Mark {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (index, letter) in self.0.iter().enumerate() {
            if index == LENGTH / 2 {
                f.write_str("-")?;
            }
            write!(f, "{}", char::from(*letter))?;
        }
        Ok(())
    }
}

/// What a mark is made from.
#[derive(Clone, Copy, Debug)]
pub struct Contents<'a> {
    /// The facts of the specification, one a line, and those of the job, if it is one.
    pub said: &'a [String],
    /// The tag of the language.
    pub language: &'a str,
    /// The edition of the sheets.
    pub edition: &'a Edition,
}

/// The edition of the sheets: another for other templates, phrases or another version of the program.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Edition(String);

impl Edition {
    /// Of all texts that sheets are made with, in a settled order.
    pub fn of<'a>(texts: impl IntoIterator<Item = &'a str>) -> Self {
        let mut sum = Sha256::new();
        sum.update(env!("CARGO_PKG_VERSION").as_bytes());
        for text in texts {
            sum.update((text.len() as u64).to_be_bytes());
            sum.update(text.as_bytes());
        }
        Self(hex(&sum.finalize()))
    }
}

/// The first half of the sum, which is enough to tell editions apart.
impl fmt::Display for Edition {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.0.get(..32).unwrap_or(&self.0))
    }
}

/// The sum of a file's bytes, by which it is known again.
pub fn sum_of(bytes: &[u8]) -> String {
    let mut sum = hex(&Sha256::digest(bytes));
    sum.truncate(32);
    sum
}

fn hex(bytes: &[u8]) -> String {
    bytes.iter().map(|byte| format!("{byte:02x}")).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The first words of the sum of "abc" (FIPS 180-4, example of SHA-256): ba7816bf 8f01cfea.
    #[test]
    fn sums_are_those_of_the_standard() {
        assert_eq!(sum_of(b"abc"), "ba7816bf8f01cfea414140de5dae2223");
    }

    #[test]
    fn a_mark_is_read_as_people_write_it() {
        let mark = Mark::of_sum(&[7; 32]);
        let shown = mark.to_string();
        assert_eq!(shown.len(), 9);
        let loose = shown.to_lowercase().replace('-', " ").replace('5', "s").replace('8', "B");
        assert_eq!(Mark::parse(&loose), Some(mark));
        for wrong in ["", "7F3A", "7F3A-91KD", "7F3A-94KDD", "7F3A_94KD", "ÄÄÄÄ-ÄÄÄÄ"] {
            assert_eq!(Mark::parse(wrong), None, "{wrong}");
        }
    }

    #[test]
    fn parts_do_not_run_into_each_other() {
        let edition = Edition::of(["a", "bc"]);
        assert_ne!(edition, Edition::of(["ab", "c"]));
        let contents = |language| Contents { said: &[], language, edition: &edition };
        assert_ne!(Mark::of(&contents("en")), Mark::of(&contents("de")));
    }
}
