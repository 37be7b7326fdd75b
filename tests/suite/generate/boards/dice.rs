//! Small seeded random numbers, the same on every machine.

/// SplitMix64 (Steele, Lea, Flood, "Fast splittable pseudorandom number generators", OOPSLA 2014).
pub struct Dice {
    state: u64,
}

impl Dice {
    pub fn new(seed: u64) -> Self {
        Self { state: seed }
    }

    pub fn next(&mut self) -> u64 {
        self.state = self.state.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.state;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    /// A whole number from `low` to `high`, both included.
    pub fn within(&mut self, low: usize, high: usize) -> usize {
        assert!(low <= high, "{low} to {high}");
        low + (self.next() % (high - low + 1) as u64) as usize
    }

    /// Whether a thing that happens `percent` times in a hundred happens.
    pub fn often(&mut self, percent: usize) -> bool {
        self.within(1, 100) <= percent
    }

    pub fn pick<'a, T>(&mut self, from: &'a [T]) -> &'a T {
        &from[self.within(0, from.len() - 1)]
    }

    pub fn shuffle<T>(&mut self, all: &mut [T]) {
        for last in (1..all.len()).rev() {
            all.swap(last, self.within(0, last));
        }
    }

    /// Some of `from`, at least `low`, at most `high`, in their order.
    pub fn some<T: Clone>(&mut self, from: &[T], low: usize, high: usize) -> Vec<T> {
        let count = self.within(low.min(from.len()), high.min(from.len()));
        let mut order: Vec<usize> = (0..from.len()).collect();
        self.shuffle(&mut order);
        order.truncate(count);
        order.sort_unstable();
        order.into_iter().map(|index| from[index].clone()).collect()
    }
}
