//! Kinds of fuses: how fast one opens, or what it protects.

use super::{Clause, Known, Table};

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

    /// Check-values section 17: "FF F M T TT: super quick, quick, medium, time-lag, long".
    #[test]
    fn the_letters_stand_in_the_order_of_iec_60127() {
        let letters: Vec<_> = MINIATURE.values.iter().map(|kind| kind.letters).collect();
        assert_eq!(letters.join(" "), "FF F M T TT");
        assert_eq!(fuse_word("time-lag"), Some("time-lag"));
        assert_eq!(fuse_word("banana"), None);
        let mut all: Vec<_> = fuse_words().collect();
        all.sort_unstable();
        assert!(all.windows(2).all(|pair| pair[0] != pair[1]), "one word, one kind: {all:?}");
    }
}
