//! Usual causes that no mistake of wiring makes, as checks: common practice.

use minijinja::Value;

use super::FinderCase;
use super::row::{CheckRow, CheckWords, Key};
use crate::decide::heater::resistance_ohms;
use crate::decide::usual::{Cause, Equipment, Share, Symptom, usual_causes};
use crate::units::Watts;

/// Kelvin an hour for a kilowatt in a litre of water, and degrees Fahrenheit for one in a gallon of
/// the United States: 3600 s / (4.186 kJ/kg K), and that times 1.8 / 3.785.
const KELVIN_LITRES: f64 = 860.0;
const FAHRENHEIT_GALLONS: f64 = 409.0;

/// Usual causes under one symptom, the likeliest: a page at the box that lists all that can wear out
/// is not read, and whom these do not help needs a technician.
const MOST: usize = 4;

/// The usual causes of a symptom, as far as they can be with what is fitted.
pub fn checks<M>(symptom: Symptom, case: &impl FinderCase<M>) -> Vec<CheckRow> {
    let devices = case.devices();
    let equipment = Equipment { devices: &devices, neutral: case.has_neutral() };
    let found = usual_causes(symptom).iter().filter(|(cause, _)| cause.can_be(equipment));
    found.filter_map(|(cause, share)| check(*cause, *share, case)).take(MOST).collect()
}

/// `None` where a number that it is about is not known.
fn check<M>(cause: Cause, share: Share, case: &impl FinderCase<M>) -> Option<CheckRow> {
    let (what, correct) = words(cause, case)?;
    let words = CheckWords { what, correct, see: Vec::<Value>::new() };
    Some(CheckRow::new(Key::Usual(cause), (share, cause.work()), words).of_practice())
}

/// What to check, and what is correct.
fn words<M>(cause: Cause, case: &impl FinderCase<M>) -> Option<(String, String)> {
    let w = case.words();
    Some(match cause {
        Cause::AsSet => (w.usual_as_set(), w.usual_as_set_correct()),
        Cause::Flow => (w.usual_flow(), w.usual_flow_correct()),
        Cause::Air => (w.usual_air(), w.usual_air_correct()),
        Cause::HeaterLeak => (w.usual_heater_leak(), w.usual_heater_leak_correct()),
        Cause::HeaterOpen => {
            let ohms = w.measure(resistance_ohms(case.element()?), 1, "\u{3a9}");
            (w.usual_heater_open(), w.usual_heater_open_correct(&ohms))
        }
        Cause::CutOut => (w.usual_cut_out(), w.usual_cut_out_correct()),
        Cause::FlowSwitch => (w.usual_flow_switch(), w.usual_flow_switch_correct()),
        Cause::Sensor => (w.usual_sensor(), w.usual_sensor_correct()),
        Cause::HeatRate => {
            let kilowatts = case.heat()?.0 / 1000.0;
            let whole = |value: f64| w.shortest(value, 0);
            let watts = w.measure(kilowatts * 1000.0, 0, Watts::UNIT);
            let celsius = whole(KELVIN_LITRES * kilowatts);
            let fahrenheit = whole(FAHRENHEIT_GALLONS * kilowatts);
            (w.usual_heat_rate(&watts), w.usual_heat_rate_correct(&celsius, &fahrenheit))
        }
        Cause::MotorCutOut => (w.usual_motor_cut_out(), w.usual_motor_cut_out_correct()),
        Cause::Shaft => (w.usual_shaft(), w.usual_shaft_correct()),
        Cause::Rotor => (w.usual_rotor(), w.usual_rotor_correct()),
        Cause::Capacitor => (w.usual_capacitor(), w.usual_capacitor_correct()),
        Cause::Winding => (w.usual_winding(), w.usual_winding_correct()),
        Cause::MotorLeak => (w.usual_motor_leak(), w.usual_motor_leak_correct()),
        Cause::BlowerWet => (w.usual_blower_wet(), w.usual_blower_wet_correct()),
        Cause::OzonatorWet => (w.usual_ozonator_wet(), w.usual_ozonator_wet_correct()),
        Cause::OzonatorOld => (w.usual_ozonator_old(), w.usual_ozonator_old_correct()),
        Cause::HotPlug => (w.usual_hot_plug(), w.usual_hot_plug_correct()),
        Cause::WetPlug => (w.usual_wet_plug(), w.usual_wet_plug_correct()),
        Cause::Cord => (w.usual_cord(), w.usual_cord_correct()),
        Cause::RelayOpen => (w.usual_relay_open(), w.usual_relay_open_correct()),
        Cause::RelayWelded => (w.usual_relay_welded(), w.usual_relay_welded_correct()),
        Cause::PanelPlug => (w.usual_panel_plug(), w.usual_panel_plug_correct()),
        Cause::Button => (w.usual_button(), w.usual_button_correct()),
        Cause::Off => (w.usual_off(), w.usual_off_correct()),
        Cause::Transformer => (w.usual_transformer(), w.usual_transformer_correct()),
        Cause::LineOpen => (w.usual_line_open(), w.usual_line_open_correct()),
        Cause::NeutralLoose => (w.usual_neutral_loose(), w.usual_neutral_loose_correct()),
        Cause::TerminalLoose => (w.usual_terminal_loose(), w.usual_terminal_loose_correct()),
        Cause::OtherLoads => (w.usual_other_loads(), w.usual_other_loads_correct()),
        Cause::BreakerWorn => (w.usual_breaker_worn(), w.usual_breaker_worn_correct()),
        Cause::BreakerSize => {
            let correct = match case.breaker() {
                Some(amps) => w.usual_breaker_size_correct(&w.amps(amps)),
                None => w.usual_breaker_size_planned(),
            };
            (w.usual_breaker_size(), correct)
        }
        Cause::ProtectionWorn => (w.usual_protection_worn(), w.usual_protection_worn_correct()),
        Cause::NeutralBypass => (w.usual_neutral_bypass(), w.usual_neutral_bypass_correct()),
        Cause::NeutralGrounded => (w.usual_neutral_grounded(), w.usual_neutral_grounded_correct()),
        Cause::Pigtail => (w.usual_pigtail(), w.usual_pigtail_correct()),
        Cause::Divide => (w.usual_divide(), w.usual_divide_correct()),
        Cause::OutdoorWet => (w.usual_outdoor_wet(), w.usual_outdoor_wet_correct()),
        Cause::GroundOpen => (w.usual_ground_open(), w.usual_ground_open_correct()),
    })
}
