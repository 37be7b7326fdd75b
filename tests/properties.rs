//! What must hold for every sound board, not only for the ones in `specs`.

mod common;

use proptest::prelude::*;

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    #[test]
    fn tmp(text in common::any_board()) {
        prop_assert!(text.len() < 200_000);
    }
}

#[test]
fn dump() {
    std::fs::create_dir_all("/tmp/boards/gen").unwrap();
    for seed in 0..1000 {
        std::fs::write(format!("/tmp/boards/gen/{seed}.yaml"), common::boards::generate(seed))
            .unwrap();
    }
}
