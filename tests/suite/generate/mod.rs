//! Boards, jobs and documents to test with: made by dice, or by hand at the limits.

pub mod boards;
pub mod documents;
pub mod jobs;
pub mod largest;
pub mod specimen;

use proptest::prelude::*;
use proptest::test_runner::RngSeed;

use boards::Knobs;

/// So many cases, the same ones on every run, so that a change is told apart from luck.
/// `LIDSHEET_SEED` asks for others: a number, or `any` for new ones each time. A failed case is
/// printed whole, so none is kept.
pub fn cases(count: u32) -> ProptestConfig {
    let asked = std::env::var("LIDSHEET_SEED").ok();
    let rng_seed = match asked.as_deref() {
        Some("any") => RngSeed::Random,
        Some(number) => RngSeed::Fixed(number.parse().expect("LIDSHEET_SEED is a number or `any`")),
        None => RngSeed::Fixed(20_261_128),
    };
    ProptestConfig { failure_persistence: None, rng_seed, ..ProptestConfig::with_cases(count) }
}

/// A sound board of any size, as YAML text. Its sizes shrink; what fills them does not.
pub fn any_board() -> impl Strategy<Value = String> {
    (knobs(), any::<u64>()).prop_map(|(knobs, seed)| boards::board(&knobs, seed))
}

fn knobs() -> impl Strategy<Value = Knobs> {
    let supply = (1..=3_usize, 1..=4_usize, 1..=6_usize, 0..=2_usize, 0..=2_usize);
    let plugs = (0..=12_usize, 0..=24_usize, 1..=24_usize, 1..=9_usize, 1..=40_usize);
    let rest = (0..=3_usize, 0..=2_usize, any::<bool>(), any::<bool>());
    (supply, plugs, rest).prop_map(|(supply, plugs, rest)| {
        let (parts, supplies, groups, isolated, links) = supply;
        let (jumpers, fuses, headers, columns, layouts) = plugs;
        let (banks, panels, iec, awkward) = rest;
        Knobs {
            parts,
            supplies,
            groups,
            isolated,
            links,
            jumpers,
            fuses,
            headers,
            columns,
            layouts,
            banks,
            panels,
            iec,
            awkward,
        }
    })
}
