//! What a problem can do, for who has room for a few of many: the worst is shown first.
//!
//! The subject of a code (its hundreds) decides, but for the codes that are named here.

use super::Code;

/// What can come of a problem that nobody mends, the worst first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Risk {
    /// Metal that is live, a ground that lacks, a wrong voltage: voltages, pins and wires.
    Shock,
    /// What gets too hot: currents, fuses, breaker, conductors, heater.
    Fire,
    /// Something is connected, set or found wrong: names, layouts, switches, drawing, other things of a
    /// job.
    Fault,
    /// A file cannot be read or written, so that there are no sheets.
    NoSheet,
    /// Words that are hard to follow, and templates.
    Words,
}

impl Risk {
    /// How far in front it belongs, from 0 to 100 (`rank` of SARIF).
    pub fn rank(self) -> u8 {
        match self {
            Risk::Shock => 100,
            Risk::Fire => 80,
            Risk::Fault => 60,
            Risk::NoSheet => 40,
            Risk::Words => 20,
        }
    }
}

impl Code {
    /// What can come of it.
    pub fn risk(self) -> Risk {
        use Code as C;
        match self {
            C::KeySide | C::PinTwice | C::CordWires | C::EarthColour | C::NeutralColour => {
                Risk::Shock
            }
            C::ColourTwice | C::PinsLacking | C::JumperConflict | C::NoVoltage => Risk::Shock,
            C::FuseBelowHeader | C::BoardBelowHeater => Risk::Fire,
            C::WrongAllowance | C::AllowanceTwice | C::AllowanceTooHigh => Risk::Fire,
            C::CurrentUnclear | C::NoTableRow | C::HeaterTooHigh | C::HeaterUnknown => Risk::Fire,
            C::FuseOverload | C::HeaderOverload | C::BoardOverload => Risk::Fire,
            C::BreakerTooSmall | C::BreakerAboveMark | C::OddBreaker => Risk::Fire,
            C::LowAssumed | C::FactorUnknown | C::MarkBelowLoad => Risk::Fire,
            C::WireTooThin | C::WireNeeds75 | C::RunWordSilent => Risk::Fire,
            C::CapacityAboveTables => Risk::Fire,
            // Nobody is hurt by what does nothing.
            C::SupplyFeedsNothing | C::GroupUnused => Risk::Fault,
            // Sheets that differ have the same revision, so somebody may follow the older ones.
            C::SameRevision => Risk::Fault,
            C::BoardPath | C::BoardUnusable => Risk::NoSheet,
            _ => match self.text().as_bytes().get(1) {
                Some(b'2') => Risk::Shock,
                Some(b'1' | b'3' | b'4' | b'5' | b'6') => Risk::Fault,
                Some(b'7') => Risk::Words,
                _ if self.text() > "L909" => Risk::Words,
                _ => Risk::NoSheet,
            },
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_lacking_ground_comes_before_a_fuse_and_that_before_a_name_a_file_and_prose() {
        let order = [
            Code::EarthMissing,
            Code::FuseOverload,
            Code::UnknownName,
            Code::NotYaml,
            Code::LongSentence,
        ];
        assert!(order.windows(2).all(|pair| pair[0].risk() < pair[1].risk()));
        assert_eq!(Code::VoltsContradicted.risk(), Risk::Shock);
        assert_eq!(Code::Internal.risk(), Risk::NoSheet);
        assert_eq!(Code::PhraseMissing.risk(), Risk::Words);
    }
}
