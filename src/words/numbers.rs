//! Numbers and quantities as the language writes them.

use super::Words;
use super::key::phrases;
use crate::standards::nominal;
use crate::units::{Amps, Horsepower, Volts, Watts, fixed, shortest};

phrases! {
    /// A number with its unit.
    quantity(number: &str, unit: &str);
}

impl Words {
    /// A number that was written with a point, with the decimal mark of the language.
    fn mark(&self, number: &str) -> String {
        number.replace('.', &self.decimal_mark)
    }

    /// With exactly so many decimals.
    pub fn fixed(&self, value: f64, decimals: usize) -> String {
        self.mark(&fixed(value, decimals))
    }

    /// With at most so many decimals, without trailing zeros.
    pub fn shortest(&self, value: f64, decimals: usize) -> String {
        self.mark(&shortest(value, decimals))
    }

    /// A number with at most so many decimals and its unit.
    pub fn measure(&self, value: f64, decimals: usize, unit: &str) -> String {
        self.quantity(&self.shortest(value, decimals), unit)
    }

    /// `208 V`: whole volts as a person reads them on a plate. A voltage between lines has the name
    /// of its system: 400 V, not 398 V.
    pub fn whole_volts(&self, volts: Volts) -> String {
        self.measure(nominal(volts).0, 0, Volts::UNIT)
    }

    /// Volts as they were given, to a hundredth.
    pub fn volts(&self, volts: Volts) -> String {
        self.measure(volts.0, 2, Volts::UNIT)
    }

    /// Amperes as they were given, to a hundredth.
    pub fn amps(&self, amps: Amps) -> String {
        self.measure(amps.0, 2, Amps::UNIT)
    }

    /// Amperes to a tenth, rounded up: what is drawn is never promised too low.
    pub fn amps_drawn(&self, amps: Amps) -> String {
        self.measure((amps.0 * 10.0 - 1e-6).ceil() / 10.0, 1, Amps::UNIT)
    }

    /// Horsepower, with fractions as nameplates have them: `1 1/2 hp`.
    pub fn horsepower(&self, power: Horsepower) -> String {
        let shown = power.to_string();
        let number = shown.trim_end_matches(Horsepower::UNIT).trim_end();
        self.quantity(&self.mark(number), Horsepower::UNIT)
    }

    /// Watts, to a hundredth.
    pub fn watts(&self, watts: Watts) -> String {
        self.measure(watts.0, 2, Watts::UNIT)
    }
}
