//! The conductors of a supply run by the size and metal that are printed on them, and their
//! resistance.

use std::fmt;

use super::{Clause, Table, iec, nec};
use crate::units::{plain_number, shortest};

/// A conductor of a size that a table holds.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wire {
    /// What it is made of.
    pub metal: Metal,
    /// How thick it is.
    pub size: WireSize,
    /// What the table of the size says, in its unit.
    table_ohms: f64,
}

/// What a conductor is made of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Metal {
    /// Copper.
    Copper,
    /// Aluminum, copper-clad or not.
    Aluminum,
}

/// How thick a conductor is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum WireSize {
    /// American wire gauge; 0 is 1/0.
    Awg(u8),
    /// Square millimetres.
    Mm2(f64),
}

impl Wire {
    /// Reads `8 AWG copper`, `1/0 AWG aluminum` or `6 mm2 copper`; `None` for anything else and for a
    /// size that no table holds. `aluminium` is read as well.
    pub fn parse(text: &str) -> Option<Self> {
        let text = text.trim();
        let metals = [
            ("copper", Metal::Copper),
            ("aluminum", Metal::Aluminum),
            ("aluminium", Metal::Aluminum),
        ];
        let (size, metal) = metals
            .iter()
            .find_map(|(word, metal)| Some((text.strip_suffix(word)?.trim_end(), *metal)))?;
        let size = if let Some(awg) = size.strip_suffix("AWG") {
            match awg.trim_end() {
                "1/0" => WireSize::Awg(0),
                // The gauge of 1/0 is not written as a number.
                awg => WireSize::Awg(awg.parse().ok().filter(|awg| *awg > 0)?),
            }
        } else {
            let mm2 = size.strip_suffix("mm2").or_else(|| size.strip_suffix("mm\u{b2}"))?;
            WireSize::Mm2(plain_number(mm2.trim_end())?)
        };
        Wire::all().into_iter().find(|wire| wire.metal == metal && wire.size == size)
    }

    /// Every conductor that can be written: of each metal the sizes in AWG and then those in mm², from
    /// the thinnest up.
    pub fn all() -> Vec<Wire> {
        let metals = [
            (Metal::Copper, nec::COPPER, iec::COPPER),
            (Metal::Aluminum, nec::ALUMINUM, iec::ALUMINIUM),
        ];
        let of = |(metal, awg, metric): (Metal, Table<nec::WireRow>, Table<iec::WireRow>)| {
            let awg = awg.values.iter().map(move |row| Wire {
                metal,
                size: WireSize::Awg(row.awg),
                table_ohms: row.ohms_per_kft,
            });
            awg.chain(metric.values.iter().map(move |row| Wire {
                metal,
                size: WireSize::Mm2(row.mm2),
                table_ohms: row.ohms_per_km,
            }))
        };
        metals.into_iter().flat_map(of).collect()
    }

    /// Every size that can be written, as it is written.
    pub fn words() -> Vec<String> {
        Wire::all().iter().map(Wire::to_string).collect()
    }

    /// Resistance of one conductor in service, ohm in 1000 m: at 75 degrees Celsius as the American
    /// table gives it, at 70 by the temperature coefficient of the metal where the European table
    /// gives 20.
    pub fn ohms_per_km(self) -> f64 {
        match self.size {
            WireSize::Awg(_) => self.table_ohms / 0.3048,
            WireSize::Mm2(_) => {
                let coefficient = match self.metal {
                    Metal::Copper => iec::COPPER_COEFFICIENT,
                    Metal::Aluminum => iec::ALUMINIUM_COEFFICIENT,
                };
                self.table_ohms * (1.0 + coefficient * (iec::SERVICE_CELSIUS - 20.0))
            }
        }
    }

    /// The temperature that [`Wire::ohms_per_km`] is for, degrees Celsius.
    pub fn celsius(self) -> f64 {
        match self.size {
            WireSize::Awg(_) => 75.0,
            WireSize::Mm2(_) => iec::SERVICE_CELSIUS,
        }
    }

    /// Where its resistance stands.
    pub fn clause(self) -> Clause {
        match (self.size, self.metal) {
            (WireSize::Awg(_), Metal::Copper) => nec::COPPER.clause,
            (WireSize::Awg(_), Metal::Aluminum) => nec::ALUMINUM.clause,
            (WireSize::Mm2(_), Metal::Copper) => iec::COPPER.clause,
            (WireSize::Mm2(_), Metal::Aluminum) => iec::ALUMINIUM.clause,
        }
    }
}

impl fmt::Display for Metal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Metal::Copper => "copper",
            Metal::Aluminum => "aluminum",
        })
    }
}

/// As it is written in a job.
impl fmt::Display for Wire {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.size {
            WireSize::Awg(0) => write!(f, "1/0 AWG {}", self.metal),
            WireSize::Awg(awg) => write!(f, "{awg} AWG {}", self.metal),
            WireSize::Mm2(mm2) => write!(f, "{} mm2 {}", shortest(mm2, 1), self.metal),
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
        assert_eq!(Wire::parse("6 AWG aluminium"), Wire::parse("6 AWG aluminum"));
        assert!(Wire::parse("1/0 AWG aluminum").is_some());
        for wrong in [
            "8 AWG",
            "7 AWG copper",
            "5 mm2 copper",
            "8",
            "copper",
            "0 AWG copper",
            "14 AWG aluminum",
            "6 mm2 aluminum",
            "8 AWG gold",
        ] {
            assert_eq!(Wire::parse(wrong), None, "{wrong}");
        }
    }
}
