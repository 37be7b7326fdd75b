//! The fault finder for a template: from what is noticed to what to check, gathered by device so that
//! a list is short. Nothing is added to what was simulated but the fuse of a header and the row of
//! [`SignRow::by_hand`].

mod board;
mod hidden;
mod job;

use minijinja::Value;
use serde::Serialize;

use super::super::words::{does, has_button, noticed};
use crate::board::{Board, Device, Feed, GroupId, HeaderId, Speeds, TerminalId};
use crate::decide::PinOrder;
use crate::decide::faults::{Check, CheckTarget, Fault};
use crate::decide::mistakes::{Mistake, Sign};
use crate::english::capital;
use crate::units::Volts;
use crate::words::Words;

pub use board::finder as of_board;
pub use job::finder as of_job;

use hidden::{Hidden, hidden};

/// The fault finder of a board or of a job.
#[derive(Serialize)]
pub struct Finder {
    /// What nobody notices.
    hidden: Vec<Hidden>,
    /// What is about no device.
    whole: Vec<SignRow>,
    /// One block for each device, the heater first.
    devices: Vec<DeviceSigns>,
    /// What the house gives, if that is to be checked and is known.
    house: Option<String>,
}

/// What is noticed, and what to check.
#[derive(Clone, Serialize)]
struct SignRow {
    noticed: String,
    checks: Vec<CheckText>,
    /// Common practice, not simulated: the currents of the plates are not known.
    by_hand: bool,
}

/// A check.
#[derive(Clone, PartialEq, Serialize)]
struct CheckText {
    words: String,
    /// It is measured on live parts.
    live: bool,
    /// It is looked at last of what is not measured: at the terminals.
    #[serde(skip)]
    late: bool,
}

/// What there is of a device.
#[derive(Serialize)]
struct DeviceSigns {
    name: String,
    places: Vec<DevicePlace>,
    rows: Vec<SignRow>,
}

/// What right looks like for a device at a header.
#[derive(Serialize)]
struct DevicePlace {
    code: String,
    link: Value,
    /// The layouts under which it is there; `None` for all.
    layouts: Option<String>,
    jumper: Option<String>,
    /// `A 240 V`, of those to choose from.
    groups: Vec<String>,
    /// `F2, 20 A time-lag`.
    fuse: Option<String>,
    fuse_code: Option<String>,
    /// `top` or `left`.
    read_from: String,
    pins: Vec<String>,
    /// With one speed too, where a cord with one speed leaves a pin empty and one with two does not.
    one_speed_pins: Option<Vec<String>>,
}

/// What the fault finder is about: a board, or a job on it.
trait FinderCase<M> {
    /// The phrases of the language.
    fn words(&self) -> &Words;
    fn board(&self) -> &Board;
    /// The devices that are there, in the order of their blocks.
    fn devices(&self) -> Vec<Device>;
    /// The speeds that a device can have.
    fn speeds(&self, device: Device) -> Vec<Speeds>;
    fn places(&self, device: Device) -> Vec<DevicePlace>;
    /// A check under a sign. `own` is the device in whose block it stands.
    fn check(&self, own: Option<Device>, sign: Sign, check: &Check<M>) -> CheckText;
    /// A check of all devices at once, in the list of what nobody notices.
    fn check_all(&self, thing: CheckTarget) -> CheckText;
    /// That the panel has a button, or the board a use, for what is not fitted.
    fn spare(&self, devices: &[Device]) -> String;
    /// The settings of switches that are not as they should be.
    fn settings(&self, faults: &[Fault<M>]) -> Vec<SignRow>;
    /// What the simulation cannot know.
    fn by_hand(&self) -> Vec<SignRow>;
}

fn gathered<M: Clone>(faults: &[Fault<M>], case: &impl FinderCase<M>) -> Finder {
    let devices = case.devices();
    let block = |device: &Device| DeviceSigns {
        name: capital(&super::device_words(case.words(), *device)),
        places: case.places(*device),
        rows: rows_of(*device, faults, case),
    };
    Finder {
        hidden: hidden(faults, case),
        whole: whole(faults, case),
        devices: devices.iter().map(block).collect(),
        house: None,
    }
}

/// What stands in the block of a device: what is noticed most, first. Common practice.
fn order(sign: Sign) -> u8 {
    match sign {
        Sign::HeaterNever | Sign::DoesNothing(_) => 0,
        Sign::HeaterSlow => 1,
        Sign::HeaterGoesOff => 2,
        Sign::OnlyHigh(_) | Sign::OnlyLow(_) => 3,
        Sign::SpeedsSwapped(_) => 4,
        Sign::OtherButton(..) => 5,
        Sign::RunsHot(_) => 6,
        Sign::NeverStops(_) => 7,
        _ => 8,
    }
}

fn rows_of<M: Clone>(
    device: Device,
    faults: &[Fault<M>],
    case: &impl FinderCase<M>,
) -> Vec<SignRow> {
    let ours = |fault: &&Fault<M>| {
        let spare = matches!(fault.sign, Sign::SpareButton(_));
        fault.sign.device() == Some(device) && fault.sign.is_noticed() && !spare
    };
    let mut ours: Vec<&Fault<M>> = faults.iter().filter(ours).collect();
    ours.sort_by_key(|fault| order(fault.sign));
    let mut rows: Vec<(Vec<Sign>, Vec<CheckText>)> = Vec::new();
    for fault in ours {
        let mut checks = checks(Some(device), fault, case);
        if matches!(fault.sign, Sign::DoesNothing(_) | Sign::HeaterNever) {
            add_fuses(device, &mut checks, case);
        }
        match rows.iter_mut().find(|(_, known)| *known == checks) {
            Some((signs, _)) => signs.push(fault.sign),
            None => rows.push((vec![fault.sign], checks)),
        }
    }
    let speeds = case.speeds(device);
    rows.into_iter()
        .map(|(signs, checks)| SignRow {
            noticed: capital(&phrases(case.words(), &signs, &speeds)),
            checks,
            by_hand: false,
        })
        .collect()
}

/// Every technician looks at the fuse. It stands before what is checked at the terminals.
fn add_fuses<M>(device: Device, checks: &mut Vec<CheckText>, case: &impl FinderCase<M>) {
    let places = case.places(device);
    let mut codes: Vec<String> = places.into_iter().filter_map(|place| place.fuse_code).collect();
    codes.dedup();
    if codes.is_empty() {
        return;
    }
    let words = case.words().check_fuse(&case.words().or(&codes));
    let at = checks.iter().position(|check| check.late || check.live);
    let fuse = CheckText { words, live: false, late: false };
    checks.insert(at.unwrap_or(checks.len()), fuse);
}

/// What signs of one device say, those of other buttons in one phrase.
fn phrases(words: &Words, signs: &[Sign], speeds: &[Speeds]) -> String {
    let mut all: Vec<String> = Vec::new();
    let mut buttons: Vec<Device> = Vec::new();
    for sign in signs {
        match sign {
            Sign::OtherButton(_, role) if has_button(*role) => buttons.push(*role),
            sign => all.push(does(words, *sign, speeds)),
        }
    }
    match buttons.as_slice() {
        [] => {}
        [one] => all.push(words.does_run_on_button(*one)),
        _ => all.push(words.does_run_on_another_button()),
    }
    all.into_iter().reduce(|listed, next| words.semicolon(&listed, &next)).unwrap_or_default()
}

/// Devices as they stand in a sentence: `the blower, pump 1, 2 or 3`.
fn names(words: &Words, devices: &[Device]) -> String {
    let mut after_pump = false;
    let all: Vec<String> = devices
        .iter()
        .map(|device| match device {
            Device::Pump(number) if after_pump => number.to_string(),
            device => {
                after_pump = matches!(device, Device::Pump(_));
                words.the_device(*device)
            }
        })
        .collect();
    words.or(&all)
}

/// The checks under a sign, each in its words once.
fn checks<M: Clone>(
    own: Option<Device>,
    fault: &Fault<M>,
    case: &impl FinderCase<M>,
) -> Vec<CheckText> {
    let mut all: Vec<CheckText> = Vec::new();
    for check in &fault.checks {
        let words = case.check(own, fault.sign, check);
        if !all.contains(&words) {
            all.push(words);
        }
    }
    // What is measured on live parts comes last: everything else can be looked at first.
    all.sort_by_key(|check| check.live);
    all
}

fn whole<M: Clone>(faults: &[Fault<M>], case: &impl FinderCase<M>) -> Vec<SignRow> {
    let board = case.board();
    let mut rows: Vec<SignRow> = Vec::new();
    let mut spare: Vec<(Vec<Device>, Vec<CheckText>)> = Vec::new();
    let mut fuses: Vec<(Vec<String>, Vec<CheckText>)> = Vec::new();
    for fault in faults.iter().filter(|fault| fault.sign.is_noticed()) {
        let checks = || checks(None, fault, case);
        match fault.sign {
            Sign::SpareButton(device) => {
                let checks = checks();
                match spare.iter_mut().find(|(_, known)| *known == checks) {
                    Some((devices, _)) => devices.push(device),
                    None => spare.push((vec![device], checks)),
                }
            }
            Sign::FuseBlows(fuse) => {
                let (checks, code) = (checks(), board[fuse].code.clone());
                match fuses.iter_mut().find(|(_, known)| *known == checks) {
                    Some((codes, _)) => codes.push(code),
                    None => fuses.push((vec![code], checks)),
                }
            }
            Sign::SetOtherwise(..) => {}
            sign if sign.device().is_some() => {}
            sign => rows.push(SignRow {
                noticed: capital(&noticed(case.words(), board, sign)),
                checks: checks(),
                by_hand: false,
            }),
        }
    }
    rows.extend(case.by_hand());
    for (codes, checks) in fuses {
        let noticed = case.words().some_fuse_blows(&case.words().or(&codes));
        rows.push(SignRow { noticed, checks, by_hand: false });
    }
    for (devices, checks) in spare {
        rows.push(SignRow { noticed: capital(&case.spare(&devices)), checks, by_hand: false });
    }
    rows.extend(case.settings(faults));
    rows
}

fn spare_words(words: &Words, devices: &[Device]) -> String {
    let (buttons, others): (Vec<Device>, Vec<Device>) =
        devices.iter().copied().partition(|device| has_button(*device));
    let (with_button, called) = (names(words, &buttons), names(words, &others));
    match (buttons.is_empty(), others.is_empty()) {
        (false, true) => words.spare_buttons(&with_button),
        (true, false) => words.spare_calls(&called),
        _ => words.spare_buttons_and_calls(&with_button, &called),
    }
}

/// Where a plug belongs; `own` is the device in whose block the check stands.
fn plug_check(words: &Words, own: Option<Device>, device: Device, headers: &str) -> String {
    if own == Some(device) {
        words.check_plug(headers)
    } else {
        words.check_plug_of(device, headers)
    }
}

/// Where a cord belongs; `own` is the device in whose block the check stands.
fn cord_check(words: &Words, own: Option<Device>, device: Device, headers: &str) -> String {
    if own == Some(device) {
        words.check_cord(headers)
    } else {
        words.check_cord_of(device, headers)
    }
}

/// A header as a place of a device.
fn place(words: &Words, board: &Board, header: HeaderId, pins: &PinOrder) -> DevicePlace {
    let it = &board[header];
    let fuse = it.fuse.map(|fuse| &board[fuse]);
    DevicePlace {
        code: it.code.clone(),
        link: super::socket_link(&it.code),
        layouts: None,
        jumper: match it.feed {
            Feed::Group(_) => None,
            Feed::Jumper(jumper) => Some(board[jumper].code.clone()),
        },
        groups: Vec::new(),
        fuse: fuse.map(|fuse| words.fuse_and_rating(&fuse.code, &super::fuse_words(words, fuse))),
        fuse_code: fuse.map(|fuse| fuse.code.clone()),
        read_from: words.pins_read_from(pins.read_from),
        pins: super::headers::pin_words(words, pins),
        one_speed_pins: None,
    }
}

/// `A 240 V`, or `A` where it has none.
fn group_words(words: &Words, board: &Board, group: GroupId, volts: Option<Volts>) -> String {
    let code = &board[group].code;
    volts.map_or_else(|| code.clone(), |v| words.group_and_volts(code, &words.whole_volts(v)))
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

/// `T1, T2 and T3`.
fn terminals(words: &Words, board: &Board, mistakes: impl Iterator<Item = Mistake>) -> String {
    let all = terminal_ids(mistakes).into_iter();
    words.and(&all.map(|id| board[id].code.clone()).collect::<Vec<_>>())
}
