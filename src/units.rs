//! Quantities with their unit in the type, all trigonometry, and the one place where numbers are
//! rounded for print.
//!
//! Lengths on a board and on paper are millimetres everywhere; only the writers know points.

use std::f64::consts::PI;
use std::fmt;

macro_rules! quantity {
    ($(#[$doc:meta])* $name:ident, $unit:literal) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, PartialOrd, Default)]
        pub struct $name(pub f64);

        impl $name {
            /// The unit as it is written after the number.
            pub const UNIT: &'static str = $unit;

            /// Reads `12.5 UNIT`; the unit must be there. Returns `None` for anything else, for
            /// a number that is not finite and for one below zero.
            pub fn parse(text: &str) -> Option<Self> {
                number_before(text, Self::UNIT).map(Self)
            }
        }

        impl fmt::Display for $name {
            /// The number without needless zeros, a no-break space, the unit.
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                write!(f, "{}\u{a0}{}", shortest(self.0, 2), Self::UNIT)
            }
        }
    };
}

quantity!(
    /// Electric potential difference, root mean square where it alternates.
    Volts,
    "V"
);
quantity!(
    /// Current, root mean square where it alternates.
    Amps,
    "A"
);
quantity!(
    /// Real power.
    Watts,
    "W"
);
quantity!(
    /// Frequency.
    Hertz,
    "Hz"
);
quantity!(
    /// Millimetres, on a board and on paper.
    Length,
    "mm"
);

impl Length {
    /// Points of 1/72 inch (an inch is exactly 25.4 mm).
    pub fn to_pt(self) -> f64 {
        self.0 * 72.0 / 25.4
    }

    /// From metres.
    pub fn metres(metres: f64) -> Self {
        Self(metres * 1000.0)
    }

    /// Metres.
    pub fn to_metres(self) -> f64 {
        self.0 / 1000.0
    }

    /// Reads the length of a run of cable: `18 m`, or `60 ft` of exactly 304.8 mm.
    pub fn parse_run(text: &str) -> Option<Self> {
        match number_before(text, "ft") {
            Some(feet) => Some(Self(feet * 304.8)),
            None if text.trim_end().ends_with("mm") => None,
            None => number_before(text, "m").map(Self::metres),
        }
    }

    /// From points of 1/72 inch.
    pub fn from_pt(points: f64) -> Self {
        Self(points * 25.4 / 72.0)
    }
}

/// Power at the shaft of a motor, horsepower.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Horsepower(pub f64);

impl Horsepower {
    /// Its sign.
    pub const UNIT: &'static str = "hp";

    /// Reads a number as it stands on plates: `2`, `1.5`, `3/4`, `1 1/2`.
    pub fn parse(text: &str) -> Option<Self> {
        let fraction = |text: &str| {
            let (above, below) = text.split_once('/')?;
            let whole = |text: &str| {
                let short = text.len() <= 4 && text.bytes().all(|b| b.is_ascii_digit());
                text.parse::<u16>().ok().filter(|_| short)
            };
            let (above, below) = (whole(above)?, whole(below)?);
            (below > 0).then(|| f64::from(above) / f64::from(below))
        };
        let text = text.trim();
        let read = match text.split_once(' ') {
            Some((whole, rest)) if !whole.contains('.') => {
                Some(plain_number(whole)? + fraction(rest.trim_start())?)
            }
            Some(_) => None,
            None => plain_number(text).or_else(|| fraction(text)),
        };
        read.map(Self)
    }
}

/// As it stands on plates where it is a whole number and a simple fraction, or both.
impl fmt::Display for Horsepower {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let whole = self.0.floor();
        let rest = self.0 - whole;
        let simple = [(1.0, 8.0), (1.0, 6.0), (1.0, 4.0), (1.0, 3.0), (1.0, 2.0), (3.0, 4.0)];
        match simple.iter().find(|(above, below)| (rest - above / below).abs() < 1e-9) {
            Some((above, below)) if whole > 0.0 => write!(f, "{whole} {above}/{below}"),
            Some((above, below)) => write!(f, "{above}/{below}"),
            None => f.write_str(&shortest(self.0, 3)),
        }?;
        write!(f, "\u{a0}{}", Self::UNIT)
    }
}

/// A plane angle, anticlockwise from the positive real axis.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Angle {
    degrees: f64,
}

impl Angle {
    /// From degrees.
    pub const fn degrees(degrees: f64) -> Self {
        Self { degrees }
    }

    /// Sine, the same on every system (`libm` in software, not the platform's).
    pub fn sin(self) -> f64 {
        libm::sin(self.degrees * PI / 180.0)
    }

    /// Cosine, the same on every system.
    pub fn cos(self) -> f64 {
        libm::cos(self.degrees * PI / 180.0)
    }
}

/// Reads a finite number of zero or more that is followed by `unit`, with or without spaces
/// between; `None` for anything else.
fn number_before(text: &str, unit: &str) -> Option<f64> {
    let number = text.trim().strip_suffix(unit)?.trim_end();
    plain_number(number)
}

/// Reads a plain decimal number of zero or more (`12`, `0.5`); no exponent, no sign, no words.
pub fn plain_number(text: &str) -> Option<f64> {
    let plain = !text.is_empty()
        && text.len() <= 12
        && text.bytes().all(|b| b.is_ascii_digit() || b == b'.')
        && text.starts_with(|c: char| c.is_ascii_digit())
        && text.ends_with(|c: char| c.is_ascii_digit());
    if plain { text.parse().ok() } else { None }
}

/// A quantity whose unit is right but written in another way, as it must be written: `20 A` for `20 amps`
/// or `20a`. `None` for any other text, and for one that is written as it must be.
pub fn rewritten(text: &str, unit: &str) -> Option<String> {
    let text = text.trim();
    let end = text.find(|c: char| !c.is_ascii_digit() && c != '.')?;
    let (number, written) = text.split_at_checked(end)?;
    plain_number(number)?;
    let ways: &[&str] = match unit {
        "A" => &["a", "amp", "amps", "ampere", "amperes"],
        "V" => &["v", "volt", "volts"],
        "mm" => &["mm", "millimeter", "millimeters", "millimetre", "millimetres"],
        "m" => &["meter", "meters", "metre", "metres"],
        "ft" => &["ft", "foot", "feet"],
        _ => &[],
    };
    let written = written.trim();
    let meant = written != unit && ways.contains(&written.to_lowercase().as_str());
    meant.then(|| format!("{number} {unit}"))
}

/// `value` with exactly `decimals` decimals; the only rounding for print. Never writes `-0`.
pub fn fixed(value: f64, decimals: usize) -> String {
    let text = format!("{value:.decimals$}");
    match text.strip_prefix('-') {
        Some(rest) if rest.bytes().all(|b| b == b'0' || b == b'.') => rest.to_owned(),
        _ => text,
    }
}

/// `value` with at most `decimals` decimals, without trailing zeros.
pub fn shortest(value: f64, decimals: usize) -> String {
    let text = fixed(value, decimals);
    if text.contains('.') {
        text.trim_end_matches('0').trim_end_matches('.').to_owned()
    } else {
        text
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_quantity_needs_its_unit() {
        assert_eq!(Amps::parse("20 A"), Some(Amps(20.0)));
        assert_eq!(Amps::parse("20A"), Some(Amps(20.0)));
        assert_eq!(Length::parse("6.35 mm"), Some(Length(6.35)));
        for wrong in ["20", "20 V", "-1 A", "1e3 A", "inf A", ". A", "A", "1. A", ""] {
            assert_eq!(Amps::parse(wrong), None, "{wrong}");
        }
    }

    #[test]
    fn horsepower_is_read_as_plates_write_it() {
        for (text, value) in [
            ("2", 2.0),
            ("1.5", 1.5),
            ("3/4", 0.75),
            ("1 1/2", 1.5),
            ("7 1/2", 7.5),
            ("1/6", 1.0 / 6.0),
        ] {
            assert_eq!(Horsepower::parse(text), Some(Horsepower(value)), "{text}");
        }
        for wrong in ["", "2 hp", "1/0", "1.5 1/2", "1/2/3", "/2", "1 2", "-1"] {
            assert_eq!(Horsepower::parse(wrong), None, "{wrong}");
        }
        let shown = |value| Horsepower(value).to_string();
        assert_eq!(shown(1.5), "1 1/2\u{a0}hp");
        assert_eq!(shown(0.75), "3/4\u{a0}hp");
        assert_eq!(shown(0.125), "1/8\u{a0}hp");
        assert_eq!(shown(1.25), "1 1/4\u{a0}hp");
        assert_eq!(shown(10.0), "10\u{a0}hp");
    }

    /// A foot is exactly 304.8 mm.
    #[test]
    fn a_run_is_metres_or_feet() {
        assert_eq!(Length::parse_run("18 m"), Some(Length(18_000.0)));
        assert_eq!(Length::parse_run("100 ft"), Some(Length(30_480.0)));
        for wrong in ["18", "18 mm", "18 km", "18 M", "m", "-2 m", "60 feet"] {
            assert_eq!(Length::parse_run(wrong), None, "{wrong}");
        }
    }

    #[test]
    fn a_unit_is_rewritten_and_never_changed() {
        for (text, unit, right) in [
            ("20a", "A", "20 A"),
            ("0.5 amps", "A", "0.5 A"),
            ("12 Volts", "V", "12 V"),
            ("6.35MM", "mm", "6.35 mm"),
            ("60 feet", "ft", "60 ft"),
        ] {
            assert_eq!(rewritten(text, unit).as_deref(), Some(right));
        }
        for (text, unit) in [
            ("20 A", "A"),
            ("20", "A"),
            ("20 mA", "A"),
            ("20 V", "A"),
            ("20 kV", "V"),
            ("20 VAC", "V"),
            ("6.35 cm", "mm"),
            ("18 M", "m"),
            ("1,5 a", "A"),
            ("-2 a", "A"),
            ("1e2 a", "A"),
            ("a", "A"),
            ("", "A"),
        ] {
            assert_eq!(rewritten(text, unit), None, "{text}");
        }
    }

    #[test]
    fn numbers_print_without_noise() {
        assert_eq!(Volts(240.0).to_string(), "240\u{a0}V");
        assert_eq!(shortest(6.350, 2), "6.35");
        assert_eq!(fixed(-0.001, 2), "0.00");
        assert_eq!(shortest(100.0, 0), "100");
    }
}
