//! The signs of devices: what several do is one sign.

use super::row::{CheckRow, SignRow, in_order, united};
use super::{FinderCase, all_checks, labels, names};
use crate::board::Device;
use crate::decide::faults::Fault;
use crate::decide::mistakes::Sign;
use crate::decide::usual::{Symptom, always};
use crate::english::capital;
use crate::sheet::words::{does, has_button};

/// Where signs of other buttons stand.
const BUTTONS: u8 = 6;

/// How a sign of a device stands among the others: what is noticed most, first. Common practice.
fn order(sign: Sign) -> u8 {
    match sign {
        Sign::HeaterNever => 0,
        Sign::HeaterSlow => 1,
        Sign::HeaterGoesOff => 2,
        Sign::DoesNothing(_) => 3,
        Sign::OnlyHigh(_) | Sign::OnlyLow(_) => 4,
        Sign::SpeedsSwapped(_) => 5,
        Sign::OtherButton(..) => BUTTONS,
        Sign::RunsHot(_) => 7,
        Sign::NeverStops(_) => 8,
        _ => 9,
    }
}

/// A sign of devices: what they do, and the checks of each.
struct DeviceSign {
    order: u8,
    does: String,
    of_each: Vec<(Device, Vec<CheckRow>)>,
}

/// The signs of all devices: what several do is one sign, and signs of the same devices with the same
/// checks are one, too.
pub fn of_devices<M: Clone + Ord>(faults: &[Fault<M>], case: &impl FinderCase<M>) -> Vec<SignRow> {
    let words = case.words();
    let mut signs: Vec<DeviceSign> = Vec::new();
    for device in case.devices() {
        for (order, does, checks) in signs_of(device, faults, case) {
            match signs.iter_mut().find(|sign| sign.does == does) {
                Some(sign) => sign.of_each.push((device, checks)),
                None => signs.push(DeviceSign { order, does, of_each: vec![(device, checks)] }),
            }
        }
    }
    signs.sort_by_key(|sign| sign.order);
    let mut rows: Vec<(Vec<Device>, String, Vec<CheckRow>)> = Vec::new();
    for sign in signs {
        let devices: Vec<Device> = sign.of_each.iter().map(|(device, _)| *device).collect();
        let checks =
            in_order(united(words, &sign.of_each, |_, devices| Some(labels(words, devices))));
        match rows.iter_mut().find(|row| row.0 == devices && row.2 == checks) {
            Some((_, does, _)) => *does = words.semicolon(does, &sign.does),
            None => rows.push((devices, sign.does, checks)),
        }
    }
    let one = |(devices, does, checks): (Vec<Device>, String, Vec<CheckRow>)| SignRow {
        noticed: capital(&words.devices_do(&names(words, &devices), &does)),
        checks,
    };
    rows.into_iter().map(one).collect()
}

/// The signs of a device with their checks; those of other buttons with the same checks are one.
fn signs_of<M: Clone + Ord>(
    device: Device,
    faults: &[Fault<M>],
    case: &impl FinderCase<M>,
) -> Vec<(u8, String, Vec<CheckRow>)> {
    let ours = |fault: &&Fault<M>| {
        let spare = matches!(fault.sign, Sign::SpareButton(_));
        fault.sign.device() == Some(device) && fault.sign.is_noticed() && !spare
    };
    let found: Vec<&Fault<M>> = faults.iter().filter(ours).collect();
    let usual = always(device).iter().map(|sign| sign(device));
    let usual = usual.filter(|sign| found.iter().all(|fault| fault.sign != *sign));
    let signs =
        found.iter().map(|fault| (fault.sign, Some(*fault))).chain(usual.map(|s| (s, None)));
    let words = case.words();
    let speeds = case.speeds(device);
    let mut rows: Vec<(u8, String, Vec<CheckRow>)> = Vec::new();
    let mut buttons: Vec<(Vec<Device>, Vec<CheckRow>)> = Vec::new();
    for (sign, fault) in signs {
        let checks = in_order(all_checks(Some(device), Symptom::Seen(sign), fault, case));
        match sign {
            _ if checks.is_empty() => {}
            Sign::OtherButton(_, role) if has_button(case.board(), role) => {
                match buttons.iter_mut().find(|(_, known)| *known == checks) {
                    Some((roles, _)) => roles.push(role),
                    None => buttons.push((vec![role], checks)),
                }
            }
            sign => rows.push((order(sign), does(words, case.board(), sign, &speeds), checks)),
        }
    }
    for (roles, checks) in buttons {
        let does = match roles.as_slice() {
            [only] => words.does_run_on_button(*only),
            _ => words.does_run_on_another_button(),
        };
        rows.push((BUTTONS, does, checks));
    }
    rows
}
