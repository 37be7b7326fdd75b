//! The fault finder for a template: from what is noticed to what to check, as a matrix. Beside what
//! was simulated there are fuses, a reading of the supply and usual causes that no mistake of wiring
//! makes; they are marked as common practice ([`CheckRow::of_practice`]).

mod board;
mod devices;
mod hidden;
mod job;
mod row;
mod usual;
mod volts;

use std::collections::{BTreeMap, BTreeSet};

use serde::Serialize;

use super::super::words::{has_button, noticed};
use crate::board::{BankId, Board, Device, FuseId, HeaderId, Heater, Speeds, TerminalId};
use crate::decide::faults::{Check, CheckTarget, Fault};
use crate::decide::mistakes::{Mistake, Sign, Trip};
use crate::decide::usual::{Cause, Moments, Share, Symptom, WHOLE, Work, moments};
use crate::english::capital;
use crate::units::{Amps, Watts};
use crate::words::Words;

pub use board::finder as of_board;
pub use job::finder as of_job;

use hidden::{Hidden, HiddenCheck, hidden};
use row::{CheckRow, CheckWords, Key, SignRow, in_order, united};

/// The fault finder of a board or of a job.
#[derive(Serialize)]
pub struct Finder {
    /// What nobody notices.
    hidden: Vec<Hidden>,
    /// What is noticed: first what is about no device, then the devices, the heater first.
    signs: Vec<SignRow>,
}

/// Where something is drawn.
enum Place<'a> {
    Plan,
    Supply,
    Voltages,
    Layouts,
    /// The close-up of a header, by its code.
    Header(&'a str),
    /// A switch bank, by its code.
    Bank(&'a str),
}

/// What the fault finder is about: a board, or a job on it.
trait FinderCase<M> {
    /// The phrases of the language.
    fn words(&self) -> &Words;
    fn board(&self) -> &Board;
    /// The devices that are there, the heater first.
    fn devices(&self) -> Vec<Device>;
    /// The speeds that a device can have.
    fn speeds(&self, device: Device) -> Vec<Speeds>;
    /// The headers that a device can be at.
    fn headers(&self, device: Device) -> Vec<HeaderId>;
    /// Whether the supply has, or can have, a neutral.
    fn has_neutral(&self) -> bool;
    /// The heater's element, if it is known.
    fn element(&self) -> Option<Heater>;
    /// What the element gives on each voltage that it can get, each once, the most first.
    fn heats(&self) -> Vec<Watts>;
    /// The breaker, if it is known.
    fn breaker(&self) -> Option<Amps>;
    /// Whether the wires in the plug of a device can lie in the wrong order: somebody ended its cord anew,
    /// or it has no keyed plug.
    fn can_be_turned(&self, device: Device) -> bool;
    /// Where something is drawn.
    fn see(&self, place: Place<'_>) -> String;
    /// What a meter reads where a sign is looked for: at the terminals of `devices`, or at all.
    fn expected(&self, devices: &[Device]) -> String;
    /// A check under a sign. `own` is the device that the sign is about.
    fn check(&self, own: Option<Device>, sign: Sign, check: &Check<M>) -> (Key, CheckWords);
    /// A check of all devices at once, in the list of what nobody notices.
    fn check_all(&self, thing: CheckTarget) -> HiddenCheck;
    /// That the panel has a button, or the board a use, for what is not fitted.
    fn spare(&self, devices: &[Device]) -> String;
    /// The settings of switches that are not as they should be.
    fn settings(&self, faults: &[Fault<M>]) -> Vec<SignRow>;
    /// What is looked at for a symptom although no plate is known.
    fn by_hand(&self, symptom: Symptom) -> Vec<CheckRow>;
}

fn gathered<M: Clone + Ord>(faults: &[Fault<M>], case: &impl FinderCase<M>) -> Finder {
    let mut signs = whole(faults, case);
    signs.extend(devices::of_devices(faults, case));
    Finder { hidden: hidden(faults, case), signs }
}

/// The fuses in front of a device.
fn fuses<M>(device: Device, case: &impl FinderCase<M>) -> Vec<FuseId> {
    let headers = case.headers(device).into_iter();
    let mut all: Vec<FuseId> = headers.filter_map(|header| case.board()[header].fuse).collect();
    all.dedup();
    all
}

/// Devices as they stand in a sentence: `the blower, pump 1, 2 or 3`.
fn names(words: &Words, devices: &[Device]) -> String {
    words.or(&pumps_by_number(devices, |device| words.the_device(device)))
}

/// Devices before what is correct for them: `blower, pump 1, 2`.
fn labels(words: &Words, devices: &[Device]) -> String {
    words.commas(&pumps_by_number(devices, |device| words.device_noun(device)))
}

/// The name of each device; a pump that follows a pump is named by its number alone.
fn pumps_by_number(devices: &[Device], name: impl Fn(Device) -> String) -> Vec<String> {
    let mut after_pump = false;
    devices
        .iter()
        .map(|device| match device {
            Device::Pump(number) if after_pump => number.to_string(),
            device => {
                after_pump = matches!(device, Device::Pump(_));
                name(*device)
            }
        })
        .collect()
}

/// The checks under a sign that the simulation gives. The wires of a plug that is as it was made lie
/// right: they stand among what is checked even if all works, and here only if somebody ended the cord
/// anew.
fn checks<M: Clone>(
    own: Option<Device>,
    symptom: Symptom,
    fault: &Fault<M>,
    case: &impl FinderCase<M>,
) -> Vec<CheckRow> {
    let two = own.is_some_and(|device| case.speeds(device).contains(&Speeds::Two));
    let listed = |check: &&Check<M>| match check.target {
        CheckTarget::Cord(device) => case.can_be_turned(device),
        _ => true,
    };
    let one = |check: &Check<M>| {
        let (key, words) = case.check(own, fault.sign, check);
        CheckRow::new(key, moments(symptom, two, check.target), words)
    };
    fault.checks.iter().filter(listed).map(one).collect()
}

/// The checks of a symptom: what the simulation gives takes the place of the same as common practice.
fn all_checks<M: Clone + Ord>(
    own: Option<Device>,
    symptom: Symptom,
    fault: Option<&Fault<M>>,
    case: &impl FinderCase<M>,
) -> Vec<CheckRow> {
    let given = fault.map(|fault| checks(own, symptom, fault, case)).unwrap_or_default();
    let mut all = usual::checks(symptom, case);
    all.retain(|row| !given.iter().any(|known| known.is_same_check(row)));
    all.extend(given);
    all
}

/// The reading on live parts that tells whether the supply is the one that is meant.
fn voltage_check<M>(
    own: Option<Device>,
    sign: Option<Sign>,
    case: &impl FinderCase<M>,
) -> (Key, CheckWords) {
    let words = case.words();
    let mut devices: Vec<Device> = own.into_iter().collect();
    if sign == Some(Sign::HeaterNever) {
        devices.extend(moves_water(&case.devices()));
    }
    let runs = matches!(sign, Some(Sign::RunsHot(_) | Sign::HeaterSlow));
    let check = CheckWords {
        what: if runs { words.check_voltage_running() } else { words.check_voltage() },
        correct: case.expected(&devices),
        see: vec![case.see(Place::Supply)],
    };
    (Key::Voltage, check)
}

/// Where the neutral comes from, as it is looked at for a usual cause, too.
fn neutral_path<M>(case: &impl FinderCase<M>) -> (Key, CheckWords) {
    let words = case.words();
    let see = vec![case.see(Place::Supply)];
    let (what, correct) = (words.usual_neutral_bypass(), words.usual_neutral_bypass_correct());
    (Key::Usual(Cause::NeutralBypass), CheckWords { what, correct, see })
}

/// Whether the neutral touches the ground, as it is looked at for a usual cause, too.
fn neutral_ground<M>(case: &impl FinderCase<M>) -> (Key, CheckWords) {
    let words = case.words();
    let see = vec![case.see(Place::Supply)];
    let (what, correct) = (words.usual_neutral_grounded(), words.usual_neutral_grounded_correct());
    (Key::Usual(Cause::NeutralGrounded), CheckWords { what, correct, see })
}

/// What the board moves water with for the heater, as the simulation takes it: the circulation pump,
/// or else its first jet pump.
fn moves_water(devices: &[Device]) -> Option<Device> {
    devices.iter().copied().filter(|device| device.moves_water()).min()
}

/// The signs that are about no device.
fn whole<M: Clone + Ord>(faults: &[Fault<M>], case: &impl FinderCase<M>) -> Vec<SignRow> {
    // When it trips after a while depends on the plates: it is listed if a mistake gives it.
    let after_a_while = Symptom::Seen(Sign::BreakerMayTrip);
    let given = faults.iter().any(|fault| fault.sign == Sign::BreakerMayTrip);
    let listed = WHOLE.iter().filter(|symptom| given || **symptom != after_a_while);
    let mut rows: Vec<SignRow> = listed.filter_map(|s| symptom(*s, faults, case)).collect();
    rows.extend(fuse_row(faults, case));
    let mut spare: Vec<(Vec<Device>, Vec<CheckRow>)> = Vec::new();
    for fault in faults {
        let Sign::SpareButton(device) = fault.sign else { continue };
        let checks = in_order(all_checks(None, Symptom::Seen(fault.sign), Some(fault), case));
        match spare.iter_mut().find(|(_, known)| *known == checks) {
            Some((devices, _)) => devices.push(device),
            None => spare.push((vec![device], checks)),
        }
    }
    for (devices, checks) in spare {
        rows.push(SignRow { noticed: capital(&case.spare(&devices)), checks });
    }
    rows.extend(case.settings(faults));
    rows
}

/// A row for the fuses that something is behind, whether a mistake blows them or not: what is checked
/// when one blows is much the same for all.
fn fuse_row<M: Clone + Ord>(faults: &[Fault<M>], case: &impl FinderCase<M>) -> Option<SignRow> {
    let (words, board) = (case.words(), case.board());
    let mut all: Vec<FuseId> =
        case.devices().into_iter().flat_map(|device| fuses(device, case)).collect();
    all.sort();
    all.dedup();
    let codes = |fuses: &[FuseId]| -> Vec<String> {
        fuses.iter().map(|id| board[*id].code.clone()).collect()
    };
    let noticed = words.some_fuse_blows(&words.or(&codes(&all)));
    let of_one = |fuse: FuseId| {
        let sign = Symptom::Seen(Sign::FuseBlows(fuse));
        (fuse, all_checks(None, sign, simulated(sign, faults).as_ref(), case))
    };
    let of_each: Vec<(FuseId, Vec<CheckRow>)> = all.into_iter().map(of_one).collect();
    // What is correct of a fuse begins with its code.
    let label = |key, fuses: &[FuseId]| (key != Key::Fuse).then(|| words.commas(&codes(fuses)));
    let checks = in_order(united(words, &of_each, label));
    (!checks.is_empty()).then_some(SignRow { noticed, checks })
}

/// A symptom of the spa as a whole; `None` if nothing that is fitted can give it.
fn symptom<M: Clone + Ord>(
    symptom: Symptom,
    faults: &[Fault<M>],
    case: &impl FinderCase<M>,
) -> Option<SignRow> {
    let words = case.words();
    let devices = case.devices();
    let has = |wanted: fn(&Device) -> bool| devices.iter().any(wanted);
    let heats = has(|device| *device == Device::Heater);
    let pumps = has(|device| matches!(device, Device::Pump(_)));
    let found = simulated(symptom, faults);
    let noticed = match symptom {
        Symptom::Tingles => words.symptom_tingles(),
        Symptom::Burnt => words.symptom_burnt(),
        Symptom::TestDoesNotTrip => words.symptom_test(),
        Symptom::Seen(Sign::GroundFaultTrips(Trip::Heating)) if !heats => return None,
        Symptom::Seen(sign) => capital(&noticed(words, case.board(), sign)),
        // Of a board without a panel it is known only if it is said what feeds its electronics.
        Symptom::PanelDead
            if !case.board().panels.is_empty() || case.board().electronics.is_some() =>
        {
            capital(&noticed(words, case.board(), Sign::BoardDead))
        }
        Symptom::SeveralDead => words.symptom_several(),
        Symptom::NoWater if pumps => words.symptom_no_water(),
        Symptom::TooHot if heats => words.symptom_too_hot(),
        Symptom::Noise if pumps => words.symptom_noise(),
        Symptom::TripsAtRandom => words.symptom_trips_at_random(),
        Symptom::TripsWhenWet => words.symptom_trips_when_wet(),
        Symptom::BreakerTripsWithHeat if heats => words.symptom_breaker_with_heat(),
        Symptom::PanelDead
        | Symptom::NoWater
        | Symptom::TooHot
        | Symptom::Noise
        | Symptom::BreakerTripsWithHeat => return None,
    };
    let mut all = all_checks(None, symptom, found.as_ref(), case);
    all.extend(case.by_hand(symptom));
    if matches!(symptom, Symptom::PanelDead | Symptom::SeveralDead) {
        let (key, words) = voltage_check(None, None, case);
        let last = Some((Share::Rare, usize::MAX));
        let moments = Moments { new: last, years: last };
        let reading = CheckRow::new(key, (moments, Work::Live), words).of_practice();
        match all.iter_mut().find(|known| known.is_same_check(&reading)) {
            Some(known) => known.also_when(&reading),
            None => all.push(reading),
        }
    }
    (!all.is_empty()).then(|| SignRow { noticed, checks: in_order(all) })
}

/// What the simulation gives for a symptom: signs that are noticed alike are one. Several devices are
/// dead at once by what they share.
fn simulated<M: Clone + Ord>(symptom: Symptom, faults: &[Fault<M>]) -> Option<Fault<M>> {
    if symptom == Symptom::SeveralDead {
        return shared(faults);
    }
    let is_of = |sign: Sign| match symptom {
        Symptom::PanelDead => matches!(sign, Sign::BoardDead | Sign::BoardWeak),
        Symptom::Burnt => sign == Sign::BoardBurns,
        // One that may blow is noticed when it has.
        Symptom::Seen(Sign::FuseBlows(fuse)) => {
            [Sign::FuseBlows(fuse), Sign::FuseMayBlow(fuse)].contains(&sign)
        }
        symptom => symptom == Symptom::Seen(sign),
    };
    let mut found = faults.iter().filter(|fault| is_of(fault.sign));
    let mut one = found.next()?.clone();
    for check in found.flat_map(|fault| &fault.checks) {
        match one.checks.iter_mut().find(|known| known.target == check.target) {
            Some(known) => known.mistakes.extend(check.mistakes.iter().cloned()),
            None => one.checks.push(check.clone()),
        }
    }
    Some(one)
}

/// The mistakes in the supply that take the voltage of more than one device.
fn shared<M: Clone + Ord>(faults: &[Fault<M>]) -> Option<Fault<M>> {
    let dead = || faults.iter().filter(|fault| matches!(fault.sign, Sign::DoesNothing(_)));
    let of_supply = |check: &&Check<M>| {
        matches!(check.target, CheckTarget::Landing | CheckTarget::Link(_) | CheckTarget::House)
    };
    // How many devices each of them takes it of.
    let mut takes: BTreeMap<&M, usize> = BTreeMap::new();
    for fault in dead() {
        let of_one = fault.checks.iter().filter(of_supply).flat_map(|check| &check.mistakes);
        for mistake in of_one.collect::<BTreeSet<&M>>() {
            *takes.entry(mistake).or_default() += 1;
        }
    }
    let mut checks: Vec<Check<M>> = Vec::new();
    for check in dead().flat_map(|fault| &fault.checks).filter(of_supply) {
        for mistake in &check.mistakes {
            // It is listed where it is met first.
            if takes.remove(mistake).is_none_or(|devices| devices < 2) {
                continue;
            }
            match checks.iter_mut().find(|known| known.target == check.target) {
                Some(known) => known.mistakes.push(mistake.clone()),
                None => {
                    checks.push(Check { target: check.target, mistakes: vec![mistake.clone()] })
                }
            }
        }
    }
    let sign = dead().next()?.sign;
    (!checks.is_empty()).then_some(Fault { sign, checks })
}

/// The fuses that several headers are on.
fn shared_fuses<M>(case: &impl FinderCase<M>) -> Vec<FuseId> {
    let mut headers: Vec<HeaderId> =
        case.devices().into_iter().flat_map(|device| case.headers(device)).collect();
    headers.sort();
    headers.dedup();
    let fuses = headers.into_iter().filter_map(|header| case.board()[header].fuse);
    let mut all: Vec<FuseId> = fuses.collect();
    all.sort();
    let shared = all.chunk_by(|a, b| a == b).filter(|same| same.len() > 1);
    shared.filter_map(|same| same.first().copied()).collect()
}

fn spare_words(words: &Words, board: &Board, devices: &[Device]) -> String {
    let (buttons, others): (Vec<Device>, Vec<Device>) =
        devices.iter().copied().partition(|device| has_button(board, *device));
    let (with_button, called) = (names(words, &buttons), names(words, &others));
    match (buttons.is_empty(), others.is_empty()) {
        (false, true) => words.spare_buttons(&with_button),
        (true, false) => words.spare_calls(&called),
        _ => words.spare_buttons_and_calls(&with_button, &called),
    }
}

/// Where a plug belongs; `own` is the device that the sign is about.
fn plug_what(words: &Words, own: Option<Device>, device: Device) -> (Key, String) {
    if own == Some(device) {
        (Key::Plug(None), words.check_plug())
    } else {
        (Key::Plug(Some(device)), words.check_plug_of(device))
    }
}

/// A switch bank under a function that does not work as wanted.
fn of_bank(bank: BankId) -> (Moments, Work) {
    moments(Symptom::Seen(Sign::SetOtherwise(bank, 0)), false, CheckTarget::Bank(bank))
}

/// Whether the plug of a header cannot be plugged in but the right way round.
fn is_keyed(board: &Board, header: HeaderId) -> bool {
    board[board[header].socket].key_drawn.is_some()
}

/// How the wires of a cord lie; `own` is the device that the sign is about.
fn cord_what(words: &Words, own: Option<Device>, device: Device) -> (Key, String) {
    if own == Some(device) {
        (Key::Cord(None), words.check_cord())
    } else {
        (Key::Cord(Some(device)), words.check_cord_of(device))
    }
}

/// The terminals that mistakes are about.
fn terminal_ids(mistakes: impl Iterator<Item = Mistake>) -> Vec<TerminalId> {
    let mut all: Vec<TerminalId> = mistakes
        .flat_map(|mistake| match mistake {
            Mistake::Missing(terminal) => vec![terminal],
            Mistake::Swapped(both) => both.to_vec(),
            _ => Vec::new(),
        })
        .collect();
    all.sort();
    all.dedup();
    all
}
