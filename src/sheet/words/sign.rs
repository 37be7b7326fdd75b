//! What is noticed, or should be.

use crate::board::{Allowance, BankId, Board, Device, Meaning, Speeds};
use crate::decide::DevicePlan;
use crate::decide::currents::Running;
use crate::decide::jumpers::allowances;
use crate::decide::mistakes::{House, Limit, Observation, PlannedCase, Sign, State, Trip};
use crate::units::Watts;
use crate::words::Words;

/// Whether a device is run by a button: the board has a panel, and a panel has a button for it.
pub fn has_button(board: &Board, device: Device) -> bool {
    !board.panels.is_empty() && device.has_button()
}

/// A sign as it is noticed, without the numbers of a case: `the blower does nothing`.
pub fn noticed(words: &Words, board: &Board, sign: Sign) -> String {
    match (sign, sign.device()) {
        (Sign::SpareButton(device), _) if has_button(board, device) => words.spare_button(device),
        (Sign::SpareButton(device), _) => words.spare_call(device),
        (Sign::MetalLive(device), _) => words.metal_is_live(device),
        (Sign::OtherButton(device, role), _) if has_button(board, role) => {
            words.button_runs(role, device)
        }
        (_, Some(device)) => words.device_does(device, &does(words, board, sign, &[])),
        (Sign::AllMetalLive, _) => words.all_metal_is_live(),
        (Sign::AllUngrounded, _) => words.nothing_is_grounded(),
        (Sign::MetalOnNeutral, _) => words.metal_on_neutral(),
        (Sign::BoardBurns, _) => words.board_burns(),
        (Sign::BoardDead, _) if board.panels.is_empty() => words.board_is_dead(),
        (Sign::BoardDead, _) => words.panel_is_dead(),
        (Sign::BoardWeak, _) if board.panels.is_empty() => words.board_is_weak(),
        (Sign::BoardWeak, _) => words.panel_is_weak(),
        (Sign::GroundFaultTrips(Trip::AtOnce), _) => words.ground_fault_at_once(),
        (Sign::GroundFaultTrips(Trip::Heating), _) => words.ground_fault_with_heat(),
        (Sign::GroundFaultTrips(Trip::Running), _) => words.ground_fault_with_device(),
        (Sign::Overload(_), _) => words.overloaded(),
        (Sign::HeaderHot(header, _), _) => words.header_is_hot(&board[header].code),
        (Sign::BreakerTripsAtOnce, _) => words.breaker_trips_at_once(),
        (Sign::BreakerTrips, _) => words.breaker_trips(),
        (Sign::BreakerMayTrip, _) => words.breaker_trips_later(),
        (Sign::FuseMayBlow(fuse), _) => words.fuse_may_blow(&board[fuse].code),
        (Sign::FuseBlows(fuse), _) => words.fuse_blows(&board[fuse].code),
        (Sign::SetOtherwise(bank, field), _) => {
            let code = &board[bank].code;
            match board[bank].fields.get(field) {
                Some(it) => {
                    let count = usize::from(it.last - it.first) + 1;
                    words.ways_mean_otherwise(count, &it.label(), code)
                }
                None => words.bank_means_otherwise(code),
            }
        }
        (_, None) => String::new(),
    }
}

/// What a device does by a sign that is about it: `does nothing`. `speeds` are those that it can
/// have; empty if that is not known. Nothing for a sign that is about no device.
pub fn does(words: &Words, board: &Board, sign: Sign, speeds: &[Speeds]) -> String {
    let one = speeds.contains(&Speeds::One) || !speeds.contains(&Speeds::Two);
    let two = speeds.contains(&Speeds::Two) || !speeds.contains(&Speeds::One);
    match sign {
        Sign::MetalLive(_) => words.does_live_metal(),
        Sign::Ungrounded(_) => words.does_no_ground(),
        Sign::StaysLive(_) => words.does_stay_live(),
        Sign::Destroyed(_) => words.does_burn_out(),
        Sign::RunsHot(device) if device.is_motor() => words.does_hum(),
        Sign::RunsHot(_) => words.does_work_weakly(),
        Sign::NeverStops(_) => words.does_never_stop(),
        Sign::DoesNothing(_) => words.does_nothing(),
        Sign::OnlyHigh(device) => match (one, two, has_button(board, device)) {
            (true, true, true) => words.does_high_only_or_second_press(),
            (true, true, false) => words.does_high_only_or_on_command(),
            (false, ..) => words.does_high_only(),
            (true, false, true) => words.does_second_press(),
            (true, false, false) => words.does_on_command(),
        },
        Sign::OnlyLow(_) => words.does_low_only(),
        Sign::SpeedsSwapped(_) => words.does_swap_speeds(),
        Sign::OtherButton(_, role) if has_button(board, role) => words.does_run_on_button(role),
        Sign::OtherButton(_, role) => words.does_run_in_place(role),
        Sign::HeaterNever => words.does_never_come_on(),
        Sign::HeaterSlow => words.does_heat_slowly(),
        Sign::HeaterGoesOff => match allowances(board).first() {
            Some(Some(Allowance::Amps(_))) => words.does_wait(),
            _ => words.does_go_off(),
        },
        Sign::SpareButton(_) => words.does_lack(),
        Sign::AllMetalLive
        | Sign::AllUngrounded
        | Sign::MetalOnNeutral
        | Sign::BoardBurns
        | Sign::BoardDead
        | Sign::BoardWeak
        | Sign::GroundFaultTrips(_)
        | Sign::Overload(_)
        | Sign::HeaderHot(..)
        | Sign::BreakerTripsAtOnce
        | Sign::BreakerTrips
        | Sign::BreakerMayTrip
        | Sign::FuseBlows(_)
        | Sign::FuseMayBlow(_)
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
    let plain = noticed(words, planned.board, seen.sign);
    let plate = || {
        let plan = seen.sign.device().and_then(|device| plan_of(planned, device))?;
        Some(words.whole_volts(plan.plate))
    };
    let with_numbers = match (seen.sign, seen.volts) {
        (Sign::BoardDead, _) if !planned.board.panels.is_empty() => {
            Some(words.and_nothing_runs(&plain))
        }
        (Sign::BoardBurns | Sign::BoardWeak, Some(volts)) => {
            Some(words.with_volts(&plain, &words.whole_volts(volts)))
        }
        (Sign::AllMetalLive | Sign::MetalLive(_), Some(volts)) => {
            Some(words.unless_it_trips(&plain, &words.whole_volts(volts)))
        }
        (Sign::StaysLive(_), Some(volts)) => {
            Some(words.with_volts_to_ground(&plain, &words.whole_volts(volts)))
        }
        (Sign::Destroyed(device), Some(volts)) => plate().map(|plate| {
            words.burns_out_on(device, seen.swings, &words.whole_volts(volts), &plate)
        }),
        (Sign::RunsHot(_), _) if seen.swings => Some(words.on_changing_volts(&plain)),
        (Sign::RunsHot(_), Some(volts)) => {
            plate().map(|plate| words.on_wrong_volts(&plain, &words.whole_volts(volts), &plate))
        }
        (Sign::RunsHot(_), None) => Some(words.both_speeds_at_once(&plain)),
        (Sign::GroundFaultTrips(_), _) => {
            let plain = words.ground_fault_trips();
            let when = match seen.running.as_slice() {
                [] => words.at_once(),
                running => when_it_trips(words, planned, running),
            };
            let trips = words.trips_when(&plain, &when);
            Some(if seen.house == House::Bonded { words.if_bonded(&trips) } else { trips })
        }
        (Sign::OnlyHigh(device), _) => Some(match is_two(planned, device) {
            true => words.high_only(device),
            false if has_button(planned.board, device) => words.second_press_only(device),
            false => words.on_command_only(device),
        }),
        (Sign::HeaterSlow, _) if seen.swings => Some(words.on_changing_volts(&plain)),
        (Sign::HeaterSlow, Some(volts)) => planned.wiring.heater.map(|heater| {
            let part = volts.0 / heater.element.at.0;
            let watts = words.measure(heater.element.watts.0 * part * part, 0, Watts::UNIT);
            let full = words.measure(heater.watts.0, 0, Watts::UNIT);
            words.watts_in_place_of(&plain, &watts, &full)
        }),
        (Sign::HeaterGoesOff, _) => state.allowance.map(|allowance| match allowance {
            Allowance::Loads(most) => words.heater_goes_off(usize::from(most)),
            Allowance::Amps(most) => words.heater_waits(&words.amps(most)),
        }),
        (Sign::SetOtherwise(bank, field), _) => {
            meaning(planned, bank, field).map(|meant| words.should_mean(&plain, &meant))
        }
        _ => too_much(words, planned, seen, &plain),
    };
    with_numbers.unwrap_or(plain)
}

/// A current that is larger than what may flow.
fn too_much(
    words: &Words,
    planned: &PlannedCase<'_>,
    seen: &Observation,
    plain: &str,
) -> Option<String> {
    let (amps, allowed) = seen.amps?;
    let (amps, allowed) = (words.amps_drawn(amps), words.amps(allowed));
    match seen.sign {
        Sign::Overload(_) => {
            let (line, when) = (seen.conductor?, when_all_run(words, planned, &seen.running));
            Some(match seen.limit {
                Some(Limit::Wire) => words.overload_of_wire(&amps, line, &when, &allowed),
                _ => words.overload_of_board(&amps, line, &when, &allowed),
            })
        }
        Sign::BreakerTrips => {
            let (line, when) = (seen.conductor?, when_all_run(words, planned, &seen.running));
            Some(words.breaker_trips_on(&allowed, &when, &amps, line))
        }
        Sign::BreakerMayTrip => {
            let (line, when) = (seen.conductor?, when_all_run(words, planned, &seen.running));
            Some(words.breaker_may_trip_on(&allowed, &when, &amps, line))
        }
        Sign::HeaderHot(header, _) => {
            Some(words.header_carries(&planned.board[header].code, &amps, &allowed))
        }
        Sign::FuseBlows(_) | Sign::FuseMayBlow(_) => {
            Some(words.fuse_carries(plain, &amps, &allowed))
        }
        _ => None,
    }
}

/// `when the blower is turned on and even while pump 1 is off`.
fn when_it_trips(words: &Words, planned: &PlannedCase<'_>, all: &[(Device, Running)]) -> String {
    let when = |(device, running): &(Device, Running)| match running {
        Running::Off => words.even_while_off(*device),
        Running::Low => words.when_put_on_low(*device),
        Running::High if is_two(planned, *device) => words.when_put_on_high(*device),
        Running::High => words.when_turned_on(*device),
    };
    words.and(&all.iter().map(when).collect::<Vec<_>>())
}

fn plan_of<'a>(planned: &PlannedCase<'a>, device: Device) -> Option<&'a DevicePlan> {
    planned.wiring.devices.iter().find(|plan| plan.device == device)
}

fn is_two(planned: &PlannedCase<'_>, device: Device) -> bool {
    plan_of(planned, device).is_some_and(|plan| plan.speeds == Speeds::Two)
}

/// `when the heater and pump 1 on high run together`.
fn when_all_run(words: &Words, planned: &PlannedCase<'_>, all: &[(Device, Running)]) -> String {
    let what: Vec<String> = all
        .iter()
        .filter_map(|(device, running)| match running {
            Running::Off => None,
            Running::Low => Some(words.device_on_low(*device)),
            Running::High if is_two(planned, *device) => Some(words.device_on_high(*device)),
            Running::High => Some(words.the_device(*device)),
        })
        .collect();
    match what.as_slice() {
        [one] => words.when_one_runs(one),
        all => words.when_all_run(&words.and(all)),
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
        Meaning::Allowance(_) | Meaning::Layout(_) => None,
    }
}
