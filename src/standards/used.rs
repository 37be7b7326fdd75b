//! All clauses that values of this program come from.

use super::{Clause, ansi, fuses, iec, languages, nec, trips, wcag};

/// Every clause of this folder, by edition and clause, each once.
pub fn clauses() -> Vec<Clause> {
    let mut all = vec![
        ansi::NOMINAL_SYSTEMS.clause,
        fuses::MINIATURE.clause,
        fuses::LOW_VOLTAGE.clause,
        iec::BREAKER_SIZES.clause,
        iec::DESIGN_CLAUSE,
        iec::NOMINAL_SYSTEMS.clause,
        iec::COPPER.clause,
        iec::ALUMINIUM.clause,
        languages::CODES.clause,
        nec::BREAKER_SIZES.clause,
        nec::CONTINUOUS_CLAUSE,
        nec::MOTOR_AMPS.clause,
        nec::COPPER.clause,
        nec::AMPACITY.clause,
        nec::AMPACITY_90.clause,
        nec::TERMINALS,
        nec::NEXT_SIZE_UP,
        nec::SMALL_CONDUCTORS.clause,
        nec::CONDUCTOR_LOAD,
        nec::ALUMINUM.clause,
        trips::IEC_60898.clause,
        trips::UL_489.clause,
        trips::OVERLOAD_CLAUSE,
        wcag::CLAUSE,
    ];
    all.extend(iec::CAPACITIES.iter().map(|table| table.clause));
    all.sort_by_key(|clause| (clause.edition, clause.clause));
    all.dedup();
    all
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;
    use std::path::Path;

    /// Reads the source text, so that no new table is forgotten.
    #[test]
    fn no_clause_of_the_folder_is_left_out() {
        let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("src/standards");
        let mut written: BTreeSet<(String, String)> = BTreeSet::new();
        for entry in std::fs::read_dir(folder).expect("the folder is there") {
            let text = std::fs::read_to_string(entry.expect("readable").path()).expect("UTF-8");
            for part in text.split("edition: \"").skip(1) {
                let (edition, rest) = part.split_once('"').expect("a text ends");
                let Some(clause) =
                    rest.trim_start_matches([',', ' ', '\n']).strip_prefix("clause: \"")
                else {
                    continue;
                };
                let (clause, _) = clause.split_once('"').expect("a text ends");
                written.insert((edition.to_owned(), clause.to_owned()));
            }
        }
        let listed: BTreeSet<(String, String)> = clauses()
            .iter()
            .map(|clause| (clause.edition.to_owned(), clause.clause.to_owned()))
            .collect();
        assert!(written.len() > 15, "{written:?}");
        let lacking: Vec<_> = written.difference(&listed).collect();
        assert!(lacking.is_empty(), "{lacking:?}");
        assert!(listed.contains(&("IEC 60364-5-52:2009".into(), "table B.52.5".into())));
    }
}
