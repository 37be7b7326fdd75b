//! Boards, jobs and documents to test with: made by dice, or by hand at the limits.

pub mod boards;
pub mod documents;
pub mod jobs;
pub mod largest;
pub mod specimen;

use proptest::prelude::*;

use boards::Knobs;

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
