//! What must hold for every sound board, not only for the ones in `specs`.

mod common;

use proptest::prelude::*;

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    #[test]
    fn every_board_is_read_without_a_problem(text in common::any_board()) {
        let (spec, problems, sources) = common::read(&text);
        prop_assert!(problems.is_empty() && spec.is_some(), "{}", common::told(&problems, &sources));
    }
}

