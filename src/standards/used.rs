//! All clauses that values of this program come from. A test reads the folder, so that none is forgotten.

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
