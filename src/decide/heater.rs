//! A resistive heater on the voltage that it really gets.

use crate::board::Heater;
use crate::units::{Amps, Volts, Watts};

/// Resistance of the element, ohm.
pub fn resistance_ohms(heater: Heater) -> f64 {
    heater.at.0 * heater.at.0 / heater.watts.0
}

/// Power on `volts`: watts scale with the square of the voltage.
pub fn watts_on(heater: Heater, volts: Volts) -> Watts {
    let ratio = volts.0 / heater.at.0;
    Watts(heater.watts.0 * ratio * ratio)
}

/// Current on `volts`: amps scale with the voltage.
pub fn amps_on(heater: Heater, volts: Volts) -> Amps {
    Amps(plate_amps(heater).0 * (volts.0 / heater.at.0))
}

/// Heat that a litre of water takes for each kelvin, J: 4.18 kJ/(kg K) at 30 degrees Celsius (handbook
/// value, from memory), and 0.996 kg.
const JOULES_PER_LITRE_KELVIN: f64 = 4180.0 * 0.996;

/// Litres of a US gallon: 231 cubic inches, exactly.
pub const LITRES_PER_GALLON: f64 = 3.785411784;

/// How fast a power warms so much water, K in an hour, if nothing is lost to the air.
pub fn kelvin_per_hour(watts: Watts, litres: f64) -> f64 {
    watts.0 * 3600.0 / (JOULES_PER_LITRE_KELVIN * litres)
}

/// Current on the voltage of the plate.
pub fn plate_amps(heater: Heater) -> Amps {
    Amps(heater.watts.0 / heater.at.0)
}

/// The current that a breaker is sized for, and why.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SizingAmps {
    /// The current, before any factor.
    pub amps: Amps,
    /// Why this one.
    pub because: SizingReason,
}

/// Why a heater counts with a current.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SizingReason {
    /// It is the plate's; a supply that sags a little must not make a breaker look large enough.
    Plate,
    /// The voltage is a little above the plate's, and so is the current.
    AbovePlate,
    /// The voltage is another than the plate's altogether, and so is the current.
    OtherVoltage,
}

/// The band round a plate's voltage within which a supply counts as the same: NEMA MG 1, 12.44
/// gives it for motors; for heaters it is taken over here.
const BAND: f64 = 0.10;

/// The current of a heater on `volts` for which a breaker is sized: within 10 % of the plate's
/// voltage the larger of the plate's and the real current, on another voltage the real one.
pub fn sizing_amps(heater: Heater, volts: Volts) -> SizingAmps {
    let (plate, real) = (plate_amps(heater), amps_on(heater, volts));
    let apart = (volts.0 - heater.at.0).abs();
    if apart > heater.at.0 * BAND * (1.0 + 1e-9) {
        SizingAmps { amps: real, because: SizingReason::OtherVoltage }
    } else if real.0 > plate.0 {
        SizingAmps { amps: real, because: SizingReason::AbovePlate }
    } else {
        SizingAmps { amps: plate, because: SizingReason::Plate }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const HEATER: Heater = Heater { watts: Watts(4800.0), at: Volts(240.0) };

    #[test]
    fn a_little_less_voltage_does_not_shrink_the_breaker() {
        let sized = |volts| sizing_amps(HEATER, Volts(volts));
        assert_eq!(sized(240.0), SizingAmps { amps: Amps(20.0), because: SizingReason::Plate });
        assert_eq!(sized(216.0), SizingAmps { amps: Amps(20.0), because: SizingReason::Plate });
        assert_eq!(sized(215.9).because, SizingReason::OtherVoltage);
        assert_eq!(
            sized(120.0),
            SizingAmps { amps: Amps(10.0), because: SizingReason::OtherVoltage }
        );
        assert_eq!(
            sized(252.0),
            SizingAmps { amps: Amps(21.0), because: SizingReason::AbovePlate }
        );
    }
}
