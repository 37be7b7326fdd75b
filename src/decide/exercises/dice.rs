//! Chance that is the same on every machine and in every version.
//!
//! ChaCha8 is a published stream whose bytes follow from its key alone. The key is the seed written
//! out, and indices are picked here, because how a library turns bytes into a range may change.

use rand_chacha::ChaCha8Rng;
use rand_chacha::rand_core::{Rng, SeedableRng};

/// A stream of chance.
pub struct Dice(ChaCha8Rng);

impl Dice {
    /// The stream of a seed.
    pub fn new(seed: u64) -> Self {
        let mut key = [0; 32];
        for (to, from) in key.iter_mut().zip(seed.to_le_bytes()) {
            *to = from;
        }
        Self(ChaCha8Rng::from_seed(key))
    }

    /// A number from 0 up to, not including, `count`, all equally likely; 0 if `count` is 0.
    pub fn below(&mut self, count: usize) -> usize {
        let count = count as u64;
        if count < 2 {
            return 0;
        }
        // What lies past the last whole multiple of `count` would favour the small numbers.
        let last = u64::MAX - (u64::MAX % count + 1) % count;
        loop {
            let drawn = self.0.next_u64();
            if drawn <= last {
                return (drawn % count) as usize;
            }
        }
    }

    /// A number from `low` to `high`, both included; `low` if they are the wrong way round.
    pub fn within(&mut self, low: usize, high: usize) -> usize {
        low + self.below(high.saturating_sub(low).saturating_add(1))
    }

    /// One of `from`; `None` if there is none.
    pub fn pick<'a, T>(&mut self, from: &'a [T]) -> Option<&'a T> {
        from.get(self.below(from.len()))
    }

    /// Any order, all equally likely.
    pub fn shuffle<T>(&mut self, all: &mut [T]) {
        for last in (1..all.len()).rev() {
            all.swap(last, self.below(last + 1));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// ChaCha8 with a key and a nonce of noughts, the first bytes of the stream:
    /// draft-strombergson-chacha-test-vectors-01, TC1 (from memory).
    #[test]
    fn the_stream_is_the_published_one() {
        let mut dice = Dice::new(0);
        let first: Vec<u8> = (0..4).flat_map(|_| dice.0.next_u64().to_le_bytes()).collect();
        let hex: String = first.iter().map(|byte| format!("{byte:02x}")).collect();
        assert_eq!(hex, "3e00ef2f895f40d67f5bb8e81f09a5a12c840ec3ce9a7f3b181be188ef711a1e");
    }

    #[test]
    fn every_index_is_as_likely_as_any_other() {
        let mut dice = Dice::new(7);
        let mut seen = [0_u32; 7];
        for _ in 0..7000 {
            seen[dice.below(7)] += 1;
        }
        // Six standard deviations of a binomial with 7000 draws and one in seven are 176.
        assert!(seen.iter().all(|count| count.abs_diff(1000) < 176), "{seen:?}");
        assert_eq!((dice.below(0), dice.below(1), dice.within(5, 3)), (0, 0, 5));
    }

    #[test]
    fn every_order_is_as_likely_as_any_other() {
        let mut dice = Dice::new(3);
        let mut seen = std::collections::BTreeMap::new();
        for _ in 0..6000 {
            let mut all = [1, 2, 3];
            dice.shuffle(&mut all);
            *seen.entry(all).or_insert(0_u32) += 1;
        }
        assert_eq!(seen.len(), 6);
        assert!(seen.values().all(|count| count.abs_diff(1000) < 174), "{seen:?}");
    }
}
