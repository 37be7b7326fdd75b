//! What is noticed, or should be.

use super::amps_drawn;
use crate::board::{BankId, Board, Device, Meaning, Speeds};
use crate::decide::DevicePlan;
use crate::decide::currents::Running;
use crate::decide::mistakes::{Limit, Observation, PlannedCase, Sign, State};
use crate::english::and;
use crate::figure::whole_volts;
use crate::units::{Volts, shortest};
use crate::words::Words;

/// Whether a panel has a button for it; the board runs the others by itself. Common practice.
pub fn has_button(device: Device) -> bool {
    match device {
        Device::Pump(_) | Device::Blower | Device::Light | Device::Sound => true,
        Device::Heater | Device::Circulation | Device::Ozonator => false,
    }
}

/// Whether it hums on too low a voltage.
fn is_motor(device: Device) -> bool {
    matches!(device, Device::Pump(_) | Device::Circulation | Device::Blower)
}

/// A sign as it is noticed, without the numbers of a case: `the blower does nothing`.
pub fn noticed(_words: &Words, board: &Board, sign: Sign) -> String {
    match (sign, sign.device()) {
        (Sign::SpareButton(device), _) if has_button(device) => {
            format!("there is a button for {}, which is not fitted", device.the())
        }
        (Sign::SpareButton(device), _) => {
            format!("the board calls for {}, which is not fitted", device.the())
        }
        (Sign::MetalLive(device), _) => format!("the metal of {} is live", device.the()),
        (Sign::OtherButton(device, role), _) if has_button(role) => {
            format!("the button of {} runs {}", role.the(), device.the())
        }
        (_, Some(device)) => format!("{} {}", device.the(), does(sign, &[])),
        (Sign::AllMetalLive, _) => "the metal of all equipment is live".to_owned(),
        (Sign::AllUngrounded, _) => "nothing is grounded".to_owned(),
        (Sign::GroundFaultTrips, _) => "the ground-fault protection trips".to_owned(),
        (Sign::Overload, _) => "the supply wires carry too much, and nothing trips".to_owned(),
        (Sign::HeaderHot(header), _) => {
            format!("{} carries too much and gets hot", board[header].code)
        }
        (Sign::BreakerTripsAtOnce, _) => "the breaker trips at once".to_owned(),
        (Sign::BreakerTrips, _) => "the breaker trips when much runs together".to_owned(),
        (Sign::FuseBlows(fuse), _) => format!("fuse {} blows", board[fuse].code),
        (Sign::SetOtherwise(bank, field), _) => {
            let code = &board[bank].code;
            match board[bank].fields.get(field) {
                Some(it) if it.first == it.last => {
                    format!("way {} of {code} means something else", it.label())
                }
                Some(it) => format!("ways {} of {code} mean something else", it.label()),
                None => format!("{code} means something else"),
            }
        }
        (_, None) => String::new(),
    }
}

/// What a device does by a sign that is about it: `does nothing`. `speeds` are those that it can
/// have; empty if that is not known. Nothing for a sign that is about no device.
pub fn does(sign: Sign, speeds: &[Speeds]) -> String {
    let one = speeds.contains(&Speeds::One) || !speeds.contains(&Speeds::Two);
    let two = speeds.contains(&Speeds::Two) || !speeds.contains(&Speeds::One);
    match sign {
        Sign::MetalLive(_) => "has live metal".to_owned(),
        Sign::Ungrounded(_) => "is not grounded".to_owned(),
        Sign::StaysLive(_) => "is off, but all its wires are live".to_owned(),
        Sign::Destroyed(_) => "burns out, its voltage is too high".to_owned(),
        Sign::RunsHot(device) if is_motor(device) => "hums, runs hot or is weak".to_owned(),
        Sign::RunsHot(_) => "works weakly or not at all".to_owned(),
        Sign::NeverStops(_) => "cannot be turned off".to_owned(),
        Sign::DoesNothing(_) => "does nothing".to_owned(),
        Sign::OnlyHigh(_) => match (one, two) {
            (true, true) => "runs on high only, or on every second press only".to_owned(),
            (false, _) => "runs on high only".to_owned(),
            (true, false) => "runs on every second press only".to_owned(),
        },
        Sign::OnlyLow(_) => "runs on low only".to_owned(),
        Sign::SpeedsSwapped(_) => "runs on high for low, and on low for high".to_owned(),
        Sign::OtherButton(_, role) if has_button(role) => {
            format!("runs on the button of {}", role.the())
        }
        Sign::OtherButton(_, role) => format!("runs in place of {}", role.the()),
        Sign::HeaterNever => "never comes on".to_owned(),
        Sign::HeaterSlow => "heats slowly".to_owned(),
        Sign::HeaterGoesOff => "goes off while pumps or blowers are on high".to_owned(),
        Sign::SpareButton(_) => "is not fitted".to_owned(),
        Sign::AllMetalLive
        | Sign::AllUngrounded
        | Sign::GroundFaultTrips
        | Sign::Overload
        | Sign::HeaderHot(_)
        | Sign::BreakerTripsAtOnce
        | Sign::BreakerTrips
        | Sign::FuseBlows(_)
        | Sign::SetOtherwise(..) => String::new(),
    }
}

/// The same with the numbers of the case: `the blower gets 240 V in place of 120 V and burns out`.
/// `state` is that of the board with the mistake.
pub fn observed(
    words: &Words,
    planned: &PlannedCase<'_>,
    state: &State,
    seen: &Observation,
) -> String {
    let board = planned.board;
    let plan = seen.sign.device().and_then(|device| plan_of(planned, device));
    let plain = || noticed(words, board, seen.sign);
    match (seen.sign, seen.volts, seen.amps) {
        (Sign::AllMetalLive | Sign::MetalLive(_), Some(volts), _) => {
            format!("{}: {}", plain(), whole_volts(volts))
        }
        (Sign::StaysLive(_), Some(volts), _) => {
            format!("{}: {} to ground", plain(), whole_volts(volts))
        }
        (Sign::Destroyed(device), Some(volts), _) => {
            let plate = plan.map_or(String::new(), in_place_of);
            let most = if seen.swings { "up to " } else { "" };
            format!("{} gets {most}{}{plate} and burns out", device.the(), whole_volts(volts))
        }
        (Sign::RunsHot(_), ..) if seen.swings => {
            format!("{}, on a voltage that changes with what else runs", plain())
        }
        (Sign::RunsHot(_), Some(volts), _) => {
            let plate = plan.map_or(String::new(), in_place_of);
            format!("{}, on {}{plate}", plain(), whole_volts(volts))
        }
        (Sign::RunsHot(_), None, _) => format!("{}: both speeds at once", plain()),
        (Sign::GroundFaultTrips, ..) => {
            let when: Vec<String> = seen
                .running
                .iter()
                .map(|(device, running)| match running {
                    Running::Off => format!("even while {} is off", device.the()),
                    Running::Low => format!("when {} is put on low", device.the()),
                    Running::High if is_two(planned, *device) => {
                        format!("when {} is put on high", device.the())
                    }
                    Running::High => format!("when {} is turned on", device.the()),
                })
                .collect();
            format!("{} {}", plain(), and(&when)).trim_end().to_owned()
        }
        (Sign::Overload, _, Some((amps, allowed))) => {
            let line = seen.conductor.map_or(String::new(), |line| format!(" in {line}"));
            let (amps, when) = (amps_drawn(amps), running(planned, &seen.running));
            match seen.limit {
                Some(Limit::Rules) => format!(
                    "{amps} count{line}{when}, and the breaker has {allowed}: the wires get hot"
                ),
                _ => format!("{amps} flow{line}{when}, and the board may carry {allowed}"),
            }
        }
        (Sign::BreakerTrips, _, Some((amps, allowed))) => {
            let line = seen.conductor.map_or(String::new(), |line| format!(" in {line}"));
            let (amps, when) = (amps_drawn(amps), running(planned, &seen.running));
            format!("the breaker of {allowed} trips{when}: {amps}{line}")
        }
        (Sign::HeaderHot(header), _, Some((amps, allowed))) => {
            let code = &board[header].code;
            format!("{code} carries {} and gets hot; it may carry {allowed}", amps_drawn(amps))
        }
        (Sign::FuseBlows(_), _, Some((amps, allowed))) => {
            format!("{}: {} flow, and it has {allowed}", plain(), amps_drawn(amps))
        }
        (Sign::OnlyHigh(device), ..) => match is_two(planned, device) {
            true => format!("{} runs on high only", device.the()),
            false => format!("{} runs on every second press of its button only", device.the()),
        },
        (Sign::HeaterSlow, Some(volts), _) => match planned.wiring.heater {
            Some(heater) => {
                let part = volts.0 / heater.element.at.0;
                let watts = shortest(heater.element.watts.0 * part * part, 0);
                let was = shortest(heater.watts.0, 0);
                format!("{}: {watts}\u{a0}W in place of {was}\u{a0}W", plain())
            }
            None => plain(),
        },
        (Sign::HeaterGoesOff, ..) => match state.allowance {
            Some(0) => "the heater goes off when any pump or blower is on high".to_owned(),
            Some(1) => {
                "the heater goes off when more than one pump or blower is on high".to_owned()
            }
            Some(most) => {
                format!("the heater goes off when more than {most} pumps and blowers are on high")
            }
            None => plain(),
        },
        (Sign::SetOtherwise(bank, field), ..) => {
            let meant = meaning(planned, bank, field);
            meant.map_or_else(plain, |meant| {
                format!("{}; it should be: \u{201c}{meant}\u{201d}", plain())
            })
        }
        _ => plain(),
    }
}

fn plan_of<'a>(planned: &PlannedCase<'a>, device: Device) -> Option<&'a DevicePlan> {
    planned.wiring.devices.iter().find(|plan| plan.device == device)
}

fn is_two(planned: &PlannedCase<'_>, device: Device) -> bool {
    plan_of(planned, device).is_some_and(|plan| plan.speeds == Speeds::Two)
}

fn in_place_of(plan: &DevicePlan) -> String {
    let Volts(plate) = plan.plate;
    format!(" in place of {}", whole_volts(Volts(plate)))
}

/// ` when the heater and pump 1 on high run together`; nothing if nothing is told.
fn running(planned: &PlannedCase<'_>, all: &[(Device, Running)]) -> String {
    let words: Vec<String> = all
        .iter()
        .filter_map(|(device, running)| match running {
            Running::Off => None,
            Running::Low => Some(format!("{} on low", device.the())),
            Running::High if is_two(planned, *device) => Some(format!("{} on high", device.the())),
            Running::High => Some(device.the()),
        })
        .collect();
    match words.as_slice() {
        [] => String::new(),
        [one] => format!(" when {one} runs"),
        all => format!(" when {} run together", and(all)),
    }
}

/// What a field of a bank should mean.
fn meaning(planned: &PlannedCase<'_>, bank: BankId, field: usize) -> Option<String> {
    let field = planned.board[bank].fields.get(field)?;
    let setting = planned.wiring.switches.iter().find(|setting| setting.bank == bank)?;
    let first = usize::from(field.first).checked_sub(1)?;
    let stands = setting.positions.get(first..usize::from(field.last))?;
    match &field.settings.iter().find(|set| set.positions == stands)?.meaning {
        Meaning::Words(words) => Some(words.clone()),
        Meaning::Allowance(_) => None,
    }
}
