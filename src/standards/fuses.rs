//! Kinds of fuses: how fast one opens, or what it protects.

use super::{Clause, Known, Table};
use crate::units::Amps;

/// A kind of fuse by the words and letters that are printed on fuses and beside their holders.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct FuseKind {
    /// The letters, as they stand on a fuse.
    pub letters: &'static str,
    /// English words; the first is the standard's own, the others are those of the trade.
    pub words: &'static [&'static str],
}

/// The letters are C[T41] of the check values, the words of the trade are from memory.
pub const MINIATURE: Table<FuseKind> = Table {
    values: &[
        FuseKind { letters: "FF", words: &["super-quick-acting", "very fast-acting"] },
        FuseKind { letters: "F", words: &["quick-acting", "fast-acting", "fast-blow"] },
        FuseKind { letters: "M", words: &["medium time-lag"] },
        FuseKind { letters: "T", words: &["time-lag", "time-delay", "slow-blow", "slow-acting"] },
        FuseKind { letters: "TT", words: &["long time-lag", "super time-lag"] },
    ],
    clause: Clause {
        edition: "IEC 60127-1:2006",
        clause: "clause 6.1",
        known: Known::Reproduction,
    },
};

/// Low-voltage fuses, which have letters alone: the first says which currents it opens at, the
/// second what it protects.
pub const LOW_VOLTAGE: Table<FuseKind> = Table {
    values: &[
        FuseKind { letters: "gG", words: &["general-purpose"] },
        FuseKind { letters: "gM", words: &[] },
        FuseKind { letters: "aM", words: &[] },
        FuseKind { letters: "gR", words: &[] },
        FuseKind { letters: "aR", words: &[] },
    ],
    clause: Clause { edition: "IEC 60269-1:2006", clause: "clause 5.7.1", known: Known::Memory },
};

/// The letters of the kind that a word or letters stand for.
pub fn fuse_letters(text: &str) -> Option<&'static str> {
    let mut kinds = MINIATURE.values.iter().chain(LOW_VOLTAGE.values);
    let found = kinds.find(|kind| kind.letters == text || kind.words.contains(&text));
    found.map(|kind| kind.letters)
}

/// The multiple of its rating at which a fuse must open in the end, by every standard that its word can
/// stand for; `None` if its kind opens on short circuits alone. Below, and above its rating, it may.
///
/// A miniature fuse of IEC 60127-2 opens within two or thirty minutes at 2.1 times (sheets 3 and 5:
/// reproduction; sheets 1 and 2: memory). One of UL 248-14 opens earlier, at 1.35 times (memory), and
/// may carry the same words. A gG fuse of 16 A or more opens at 1.6 times (IEC 60269-1; reproduction), a
/// smaller one at 2.1 times at the latest (memory).
pub fn must_open(kind: Option<&str>, rating: Amps) -> Option<f64> {
    match kind.and_then(fuse_letters) {
        Some("aM" | "aR") => None,
        Some("gG" | "gM" | "gR") if rating.0 >= 16.0 => Some(1.6),
        _ => Some(2.1),
    }
}

/// Every word and every group of letters for a kind of fuse.
pub fn fuse_words() -> impl Iterator<Item = &'static str> {
    let kinds = MINIATURE.values.iter().chain(LOW_VOLTAGE.values);
    kinds.flat_map(|kind| kind.words.iter().copied().chain([kind.letters]))
}

/// The word or letters of the list that `text` is.
pub fn fuse_word(text: &str) -> Option<&'static str> {
    fuse_words().find(|word| *word == text)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Check-values section 17: 2.1 times for both sheets of T, 1.6 times for gG of 16 A or more. The trap
    /// T39: a fuse of class a is for short circuits, not for overloads.
    #[test]
    fn a_fuse_opens_where_its_standard_says_so() {
        assert_eq!(must_open(Some("slow-blow"), Amps(5.0)), Some(2.1));
        assert_eq!(must_open(None, Amps(5.0)), Some(2.1));
        assert_eq!(must_open(Some("gG"), Amps(16.0)), Some(1.6));
        assert_eq!(must_open(Some("gG"), Amps(15.9)), Some(2.1));
        assert_eq!(must_open(Some("aM"), Amps(16.0)), None);
    }

    /// Check-values section 17: "FF F M T TT: super quick, quick, medium, time-lag, long".
    #[test]
    fn the_letters_stand_in_the_order_of_iec_60127() {
        let letters: Vec<_> = MINIATURE.values.iter().map(|kind| kind.letters).collect();
        assert_eq!(letters.join(" "), "FF F M T TT");
        assert_eq!(fuse_word("time-lag"), Some("time-lag"));
        assert_eq!(fuse_word("banana"), None);
        // Check 17d: what is time-lag and what is quick are two kinds, whatever the trade calls them.
        assert_eq!(fuse_letters("slow-blow"), fuse_letters("time-lag"));
        assert_eq!(fuse_letters("T"), Some("T"));
        assert_ne!(fuse_letters("fast-blow"), fuse_letters("slow-blow"));
        let mut all: Vec<_> = fuse_words().collect();
        all.sort_unstable();
        assert!(all.windows(2).all(|pair| pair[0] != pair[1]), "one word, one kind: {all:?}");
    }
}
