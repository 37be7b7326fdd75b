//! Usual causes that no mistake of wiring makes, as checks: common practice.

use minijinja::Value;

use super::row::{CheckRow, CheckWords, Key};
use super::{FinderCase, fuses};
use crate::decide::heater::resistance_ohms;
use crate::decide::mistakes::Sign;
use crate::decide::usual::{Cause, Equipment, Share, Symptom, usual_causes};
use crate::units::Watts;

/// Kelvin an hour for a kilowatt in a litre of water, and degrees Fahrenheit for one in a gallon of
/// the United States: 3600 s / (4.186 kJ/kg K), and that times 1.8 / 3.785.
const KELVIN_LITRES: f64 = 860.0;
const FAHRENHEIT_GALLONS: f64 = 409.0;

/// Usual causes under one symptom, the likeliest: a page at the box that lists all that can wear out
/// is not read, and whom these do not help needs a technician.
const MOST: usize = 4;

/// The usual causes of a symptom, as far as they can be with what is fitted. Under a fuse stand those
/// of what is behind it, all of them.
pub fn checks<M>(symptom: Symptom, case: &impl FinderCase<M>) -> Vec<CheckRow> {
    let mut devices = case.devices();
    if let Symptom::Seen(Sign::FuseBlows(fuse)) = symptom {
        devices.retain(|device| fuses(*device, case).contains(&fuse));
    }
    let panel = !case.board().panels.is_empty();
    let equipment = Equipment { devices: &devices, neutral: case.has_neutral(), panel };
    let found = usual_causes(symptom).iter().filter(|(cause, _)| cause.can_be(equipment));
    found.filter_map(|(cause, share)| check(*cause, *share, case)).take(most(symptom)).collect()
}

/// How many usual causes stand under a symptom.
fn most(symptom: Symptom) -> usize {
    match symptom {
        Symptom::Seen(Sign::FuseBlows(_)) => usize::MAX,
        _ => MOST,
    }
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
        Cause::RelayWelded => {
            let what = match case.board().jumpers.is_empty() {
                true => w.usual_relay_welded_fixed(),
                false => w.usual_relay_welded(),
            };
            (what, w.usual_relay_welded_correct())
        }
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::board::{Device, FuseId};
    use crate::decide::usual::WHOLE;

    const DEVICES: [Device; 7] = [
        Device::Heater,
        Device::Pump(1),
        Device::Circulation,
        Device::Blower,
        Device::Ozonator,
        Device::Light,
        Device::Sound,
    ];

    fn symptoms() -> Vec<Symptom> {
        let signs = DEVICES.into_iter().flat_map(|device| {
            [
                Sign::DoesNothing(device),
                Sign::RunsHot(device),
                Sign::NeverStops(device),
                Sign::OnlyHigh(device),
                Sign::OnlyLow(device),
            ]
        });
        let heater = [Sign::HeaterNever, Sign::HeaterSlow, Sign::HeaterGoesOff];
        let signs = signs.chain(heater).map(Symptom::Seen);
        WHOLE.into_iter().chain(signs).collect()
    }

    /// Each cause is on a sheet for some equipment, and the likeliest is the first.
    #[test]
    fn no_cause_is_listed_that_no_sheet_has_room_for() {
        let mut all = symptoms();
        all.push(Symptom::Seen(Sign::FuseBlows(FuseId(0))));
        for symptom in all {
            let causes = usual_causes(symptom);
            assert!(causes.is_sorted_by_key(|(_, share)| *share), "{symptom:?}");
            let mut reached = Vec::new();
            for set in 0..1_u32 << (DEVICES.len() + 3) {
                let has = |bit: usize| set & 1 << bit != 0;
                let devices = DEVICES.iter().enumerate().filter(|(bit, _)| has(*bit));
                let devices: Vec<Device> = devices.map(|(_, device)| *device).collect();
                let [neutral, panel, element] = [7, 8, 9].map(has);
                let equipment = Equipment { devices: &devices, neutral, panel };
                let can_be = |(cause, _): &&(Cause, Share)| {
                    let known = !matches!(cause, Cause::HeaterOpen | Cause::HeatRate);
                    cause.can_be(equipment) && (element || known)
                };
                let listed = causes.iter().filter(can_be).take(most(symptom));
                reached.extend(listed.map(|(cause, _)| *cause));
            }
            for (cause, _) in causes {
                assert!(reached.contains(cause), "{symptom:?}: {cause:?}");
            }
        }
    }
}
