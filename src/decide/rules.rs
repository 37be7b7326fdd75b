//! Which rules size a breaker: what a current counts for, and which sizes there are.

pub use crate::board::Rules;
use crate::board::System;
use crate::standards::trips::{self, TripLimits};
use crate::standards::{Clause, Nominal, ansi, iec, nec};
use crate::units::Amps;

/// A set of rules and why it is taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct RulesChoice {
    /// The rules.
    pub rules: Rules,
    /// Why.
    pub because: RulesReason,
}

/// Why a set of rules is taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RulesReason {
    /// This standard lists the supply's nominal voltage.
    Listed(Clause),
    /// Neither table lists it, so the more cautious rules are taken.
    NotListed,
    /// The job names them.
    Job,
}

impl Rules {
    /// The default for a supply system.
    pub fn default_for(system: System) -> RulesChoice {
        let tables = [(Rules::Nec, ansi::NOMINAL_SYSTEMS), (Rules::Iec, iec::NOMINAL_SYSTEMS)];
        for (rules, table) in tables {
            if table.values.iter().any(|nominal| is_nominal(system, *nominal)) {
                return RulesChoice { rules, because: RulesReason::Listed(table.clause) };
            }
        }
        RulesChoice { rules: Rules::Nec, because: RulesReason::NotListed }
    }

    /// What a current counts for that can flow for three hours or more.
    pub fn continuous_factor(self) -> f64 {
        match self {
            Rules::Nec => nec::CONTINUOUS_FACTOR,
            Rules::Iec => 1.0,
        }
    }

    /// Where [`Rules::continuous_factor`] stands.
    pub fn factor_clause(self) -> Clause {
        match self {
            Rules::Nec => nec::CONTINUOUS_CLAUSE,
            Rules::Iec => iec::DESIGN_CLAUSE,
        }
    }

    /// Standard breaker sizes, ascending.
    pub fn sizes(self) -> &'static [Amps] {
        match self {
            Rules::Nec => nec::BREAKER_SIZES.values,
            Rules::Iec => iec::BREAKER_SIZES.values,
        }
    }

    /// Where [`Rules::sizes`] stand.
    pub fn sizes_clause(self) -> Clause {
        match self {
            Rules::Nec => nec::BREAKER_SIZES.clause,
            Rules::Iec => iec::BREAKER_SIZES.clause,
        }
    }

    /// What breakers of these rules must carry, and at what they must trip.
    pub fn trip_limits(self) -> TripLimits {
        match self {
            Rules::Nec => trips::UL_489,
            Rules::Iec => trips::IEC_60898,
        }
    }

    /// The smallest standard breaker that carries `counted`; `None` above the largest.
    pub fn smallest_breaker(self, counted: Amps) -> Option<Amps> {
        self.sizes().iter().copied().find(|size| carries(*size, counted))
    }
}

/// Whether a breaker of `size` carries a current of which the 125 % are already counted.
///
/// A current that is equal but for the last digits of its arithmetic is carried: 1.25 times 24 A
/// on 30 A passes, 1.25 times 24.001 A does not.
pub fn carries(size: Amps, counted: Amps) -> bool {
    counted.0 <= size.0 * (1.0 + 1e-9)
}

/// Whether the system is that nominal one, to the volt.
fn is_nominal(system: System, nominal: Nominal) -> bool {
    let near = |a: f64, b: f64| (a - b).abs() < 0.5;
    match (system, nominal) {
        (System::SinglePhase { to_neutral }, Nominal::TwoWire { volts }) => {
            near(to_neutral.0, volts)
        }
        (System::SplitPhase { to_neutral: ours }, Nominal::ThreeWire { to_neutral, .. })
        | (System::Wye { to_neutral: ours }, Nominal::Star { to_neutral, .. }) => {
            near(ours.0, to_neutral)
        }
        _ => false,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::Volts;

    #[test]
    fn the_supply_says_which_rules() {
        let single = |v| Rules::default_for(System::SinglePhase { to_neutral: Volts(v) });
        let split = |v| Rules::default_for(System::SplitPhase { to_neutral: Volts(v) });
        let wye = |v| Rules::default_for(System::Wye { to_neutral: Volts(v) });
        for american in [single(120.0), split(120.0), wye(120.0)] {
            assert_eq!(american.rules, Rules::Nec);
            assert_eq!(american.because, RulesReason::Listed(ansi::NOMINAL_SYSTEMS.clause));
        }
        for european in [single(230.0), wye(230.0)] {
            assert_eq!(european.rules, Rules::Iec);
            assert_eq!(european.because, RulesReason::Listed(iec::NOMINAL_SYSTEMS.clause));
        }
        for neither in [single(240.0), split(110.0), wye(127.0)] {
            assert_eq!(neither.rules, Rules::Nec);
            assert_eq!(neither.because, RulesReason::NotListed);
        }
    }

    #[test]
    fn a_limit_is_carried_and_a_milliamp_more_is_not() {
        assert!(carries(Amps(30.0), Amps(24.0 * 1.25)));
        assert!(!carries(Amps(30.0), Amps(24.001 * 1.25)));
        assert!(carries(Amps(24.0), Amps(19.2 * 1.25)));
        assert_eq!(Rules::Nec.smallest_breaker(Amps(6000.1)), None);
        assert_eq!(Rules::Iec.smallest_breaker(Amps(0.0)), Some(Amps(6.0)));
    }
}
