//! Usual causes that no mistake of wiring makes, as checks: common practice.

use super::row::{CheckRow, CheckWords, Key};
use super::{FinderCase, Place, fuses};
use crate::board::{Device, FuseId, Heater, Speeds};
use crate::decide::heater::resistance_ohms;
use crate::decide::mistakes::Sign;
use crate::decide::usual::{Cause, Equipment, Moments, Symptom, usual_causes};
use crate::sheet::words::has_button;
use crate::units::{Amps, Watts};

/// Kelvin an hour for a kilowatt in a litre of water, and degrees Fahrenheit for one in a gallon of
/// the United States: 3600 s / (4.186 kJ/kg K), and that times 1.8 / 3.785.
const KELVIN_LITRES: f64 = 860.0;
const FAHRENHEIT_GALLONS: f64 = 409.0;

/// The usual causes of a symptom, as far as they can be with what is fitted: under a fuse with what is
/// behind it, under a device with that device.
pub fn checks<M: Clone + Ord>(symptom: Symptom, case: &impl FinderCase<M>) -> Vec<CheckRow> {
    let devices = about(symptom, case);
    let fuses = fuses_of(symptom, &devices, case);
    let panel = !case.board().panels.is_empty();
    let (neutral, fuse) = (case.has_neutral(), !fuses.is_empty());
    let equipment = Equipment { devices: &devices, neutral, panel, fuse };
    let button = devices.iter().any(|device| has_button(case.board(), *device));
    let can_be = |cause: Cause| {
        cause.can_be(equipment)
            && (cause != Cause::Button || button)
            && words(cause, &fuses, case).is_some()
    };
    let two = devices.iter().any(|device| case.speeds(*device).contains(&Speeds::Two));
    let found = usual_causes(symptom, two, can_be).into_iter();
    found.filter_map(|(cause, moments)| check(cause, moments, &fuses, case)).collect()
}

/// The devices that a symptom is about. The heater needs those that move its water.
fn about<M>(symptom: Symptom, case: &impl FinderCase<M>) -> Vec<Device> {
    let mut devices = case.devices();
    if let Symptom::Seen(sign) = symptom {
        match (sign, sign.device()) {
            (Sign::FuseBlows(fuse), _) => {
                devices.retain(|device| fuses(*device, case).contains(&fuse));
            }
            (Sign::SpareButton(_), _) | (_, None | Some(Device::Heater)) => {}
            (_, Some(own)) => devices = vec![own],
        }
    }
    devices
}

/// The fuses that a symptom is about.
fn fuses_of<M>(symptom: Symptom, devices: &[Device], case: &impl FinderCase<M>) -> Vec<FuseId> {
    match symptom {
        Symptom::Seen(Sign::FuseBlows(fuse)) => vec![fuse],
        Symptom::Seen(Sign::DoesNothing(_)) => {
            devices.iter().flat_map(|device| fuses(*device, case)).collect()
        }
        Symptom::SeveralDead => super::shared_fuses(case),
        _ => Vec::new(),
    }
}

/// `None` where a number that it is about is not known.
fn check<M>(
    cause: Cause,
    moments: Moments,
    fuses: &[FuseId],
    case: &impl FinderCase<M>,
) -> Option<CheckRow> {
    let (what, correct) = words(cause, fuses, case)?;
    let (key, see) = match cause {
        Cause::Fuse | Cause::FuseKind => (Key::Fuse, vec![case.see(Place::Plan)]),
        cause => (Key::Usual(cause), Vec::new()),
    };
    let words = CheckWords { what, correct, see };
    Some(CheckRow::new(key, (moments, cause.work()), words).of_practice())
}

/// What to check, and what is correct.
fn words<M>(cause: Cause, fuses: &[FuseId], case: &impl FinderCase<M>) -> Option<(String, String)> {
    let w = case.words();
    Some(match cause {
        Cause::AsSet => (w.usual_as_set(), w.usual_as_set_correct()),
        Cause::Flow => (w.usual_flow(), w.usual_flow_correct()),
        Cause::Air => (w.usual_air(), w.usual_air_correct()),
        Cause::HeaterLeak => (w.usual_heater_leak(), w.usual_heater_leak_correct()),
        Cause::HeaterOpen => {
            let element = case.element()?;
            let ohms = w.measure(resistance_ohms(element), 1, "\u{3a9}");
            let amps = in_each(case, |watts| w.measure(amps_of(element, watts), 1, Amps::UNIT))?;
            (w.usual_heater_open(), w.usual_heater_open_correct(&ohms, &amps))
        }
        Cause::AirLeak => (w.usual_air_leak(), w.usual_air_leak_correct()),
        Cause::Frequency => (w.usual_frequency(), w.usual_frequency_correct()),
        Cause::PanelOther => (w.usual_panel_other(), w.usual_panel_other_correct()),
        Cause::SurgePart => (w.usual_surge_part(), w.usual_surge_part_correct()),
        Cause::VoltsLow => (w.usual_volts_low(), w.usual_volts_low_correct()),
        Cause::Stray => (w.usual_stray(), w.usual_stray_correct()),
        Cause::Mount => (w.usual_mount(), w.usual_mount_correct()),
        Cause::Fuse | Cause::FuseKind => {
            let rated = |fuse: &FuseId| {
                let fuse = &case.board()[*fuse];
                w.fuse_and_rating(&fuse.code, &super::super::fuse_words(w, fuse))
            };
            let all = fuses.iter().map(rated).reduce(|all, next| w.semicolon(&all, &next))?;
            (w.check_fuse(), all)
        }
        Cause::CutOut => (w.usual_cut_out(), w.usual_cut_out_correct()),
        Cause::FlowSwitch => (w.usual_flow_switch(), w.usual_flow_switch_correct()),
        Cause::Sensor => (w.usual_sensor(), w.usual_sensor_correct()),
        Cause::HeatRate => {
            let rise =
                |factor: f64| in_each(case, |watts| w.shortest(factor * watts.0 / 1000.0, 0));
            let watts = in_each(case, |watts| w.measure(watts.0, 0, Watts::UNIT))?;
            let celsius = rise(KELVIN_LITRES)?;
            let fahrenheit = rise(FAHRENHEIT_GALLONS)?;
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

/// What the element draws where it gives so much, A.
fn amps_of(element: Heater, watts: Watts) -> f64 {
    // Watts are the square of the current times the resistance.
    (watts.0 / resistance_ohms(element)).sqrt()
}

/// What is said of each power that the heater can have, one or the other; `None` if none is known.
fn in_each<M>(case: &impl FinderCase<M>, say: impl Fn(Watts) -> String) -> Option<String> {
    let all: Vec<String> = case.heats().into_iter().map(say).collect();
    (!all.is_empty()).then(|| case.words().or(&all))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::decide::usual::{Listed, WHOLE, always};

    const DEVICES: [Device; 7] = [
        Device::Heater,
        Device::Pump(1),
        Device::Circulation,
        Device::Blower,
        Device::Ozonator,
        Device::Light,
        Device::Sound,
    ];

    /// Every cause is on a sheet for some symptom and some equipment, and of each moment the likeliest
    /// is listed wherever it can be.
    #[test]
    fn no_cause_is_in_the_file_that_no_sheet_has_room_for() {
        let of_devices = DEVICES.into_iter().flat_map(|device| {
            let only = [Sign::OnlyHigh(device), Sign::OnlyLow(device), Sign::SpareButton(device)];
            always(device).iter().map(move |sign| sign(device)).chain(only)
        });
        let fuse = [Sign::FuseBlows(FuseId(0))];
        let signs = of_devices.chain(fuse).map(Symptom::Seen);
        let mut reached: Vec<Cause> = Vec::new();
        for symptom in WHOLE.into_iter().chain(signs) {
            for set in 0..1_u32 << (DEVICES.len() + 3) {
                let has = |bit: usize| set & 1 << bit != 0;
                let devices = DEVICES.iter().enumerate().filter(|(bit, _)| has(*bit));
                let devices: Vec<Device> = devices.map(|(_, device)| *device).collect();
                let [neutral, panel, fuse] = [7, 8, 9].map(has);
                let equipment = Equipment { devices: &devices, neutral, panel, fuse };
                let found = usual_causes(symptom, has(1), |cause| cause.can_be(equipment));
                assert!(found.iter().all(|(cause, _)| cause.can_be(equipment)), "{symptom:?}");
                let fuse = matches!(symptom, Symptom::Seen(Sign::FuseBlows(_)));
                assert!(found.len() <= 6 || fuse, "{symptom:?}: {found:?}");
                reached.extend(found.iter().map(|(cause, _)| *cause));
            }
        }
        let lacking: Vec<&Cause> =
            Cause::ALL.iter().filter(|cause| !reached.contains(cause)).collect();
        assert!(lacking.is_empty(), "{lacking:?}");
        assert!(!matches!(Listed::Usual(Cause::Mount), Listed::Found(_)));
    }
}
