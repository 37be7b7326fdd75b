//! The resistance of a supply run's conductors, by the size that is printed on them.

use std::fmt;

use super::{Clause, iec, nec};
use crate::units::{plain_number, shortest};

/// A copper conductor of a size that a table holds.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Wire {
    /// American wire gauge.
    Awg(nec::WireRow),
    /// Square millimetres.
    Metric(iec::WireRow),
}

impl Wire {
    /// Reads `8 AWG copper` or `6 mm2 copper`; `None` for anything else and for a size that neither
    /// table holds.
    pub fn parse(text: &str) -> Option<Self> {
        let size = text.trim().strip_suffix("copper")?.trim_end();
        if let Some(awg) = size.strip_suffix("AWG") {
            let awg: u8 = awg.trim_end().parse().ok()?;
            let row = nec::COPPER.values.iter().find(|row| row.awg == awg)?;
            return Some(Wire::Awg(*row));
        }
        let mm2 = size.strip_suffix("mm2").or_else(|| size.strip_suffix("mm\u{b2}"))?;
        let mm2 = plain_number(mm2.trim_end())?;
        let row = iec::COPPER.values.iter().find(|row| row.mm2 == mm2)?;
        Some(Wire::Metric(*row))
    }

    /// Every size that can be written, as it is written.
    pub fn words() -> Vec<String> {
        let awg = nec::COPPER.values.iter().map(|row| Wire::Awg(*row).to_string());
        awg.chain(iec::COPPER.values.iter().map(|row| Wire::Metric(*row).to_string())).collect()
    }

    /// Resistance of one conductor in service, ohm in 1000 m: at 75 degrees Celsius as the American
    /// table gives it, at 70 by the temperature coefficient of copper where the European table
    /// gives 20.
    pub fn ohms_per_km(self) -> f64 {
        match self {
            Wire::Awg(row) => row.ohms_per_kft / 0.3048,
            Wire::Metric(row) => {
                row.ohms_per_km * (1.0 + iec::COPPER_COEFFICIENT * (iec::SERVICE_CELSIUS - 20.0))
            }
        }
    }

    /// The temperature that [`Wire::ohms_per_km`] is for, degrees Celsius.
    pub fn celsius(self) -> f64 {
        match self {
            Wire::Awg(_) => 75.0,
            Wire::Metric(_) => iec::SERVICE_CELSIUS,
        }
    }

    /// Where its resistance stands.
    pub fn clause(self) -> Clause {
        match self {
            Wire::Awg(_) => nec::COPPER.clause,
            Wire::Metric(_) => iec::COPPER.clause,
        }
    }
}

/// As it is written in a job.
impl fmt::Display for Wire {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Wire::Awg(row) => write!(f, "{} AWG copper", row.awg),
            Wire::Metric(row) => write!(f, "{} mm2 copper", shortest(row.mm2, 1)),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_size_reads_back() {
        for word in Wire::words() {
            assert_eq!(Wire::parse(&word).map(|wire| wire.to_string()), Some(word));
        }
        assert!(Wire::parse("6 mm\u{b2} copper").is_some());
        for wrong in ["8 AWG", "8 AWG aluminium", "7 AWG copper", "5 mm2 copper", "8", "copper"] {
            assert_eq!(Wire::parse(wrong), None, "{wrong}");
        }
    }
}
