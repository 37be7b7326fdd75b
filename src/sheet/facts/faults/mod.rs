//! The fault finder for a template: from what is noticed to what to check, gathered by device so that
//! a list is short. Nothing is added to what was simulated but the fuse of a header and the row of
//! [`Row::by_hand`].

mod board;
mod hidden;
mod job;

use minijinja::Value;
use serde::Serialize;

use super::super::words::{does, has_button};
use crate::board::{Board, Device, Feed, GroupId, HeaderId, Speeds, TerminalId};
use crate::decide::faults::{Check, CheckTarget, Fault};
use crate::decide::mistakes::{Mistake, Sign};
use crate::decide::{PinOrder, ReadFrom};
use crate::english::{and, capital};
use crate::figure::whole_volts;
use crate::units::Volts;

pub use board::finder as of_board;
pub use job::finder as of_job;

use hidden::{Hidden, hidden};

/// The fault finder of a board or of a job.
#[derive(Serialize)]
pub struct Finder {
    /// What nobody notices.
    hidden: Vec<Hidden>,
    /// What is about no device.
    whole: Vec<Row>,
    /// One block for each device, the heater first.
    devices: Vec<Block>,
    /// What the house gives, if that is to be checked and is known.
    house: Option<String>,
}

/// What is noticed, and what to check.
#[derive(Clone, Serialize)]
struct Row {
    noticed: String,
    checks: Vec<Words>,
    /// Common practice, not simulated: the currents of the plates are not known.
    by_hand: bool,
}

/// A check.
#[derive(Clone, PartialEq, Serialize)]
struct Words {
    words: String,
    /// It is measured on live parts.
    live: bool,
    /// It is looked at last of what is not measured: at the terminals.
    #[serde(skip)]
    late: bool,
}

/// What there is of a device.
#[derive(Serialize)]
struct Block {
    name: String,
    places: Vec<Place>,
    rows: Vec<Row>,
}

/// What right looks like for a device at a header.
#[derive(Serialize)]
struct Place {
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
    read_from: &'static str,
    pins: Vec<String>,
    /// With one speed too, where a cord with one speed leaves a pin empty and one with two does not.
    one_speed_pins: Option<Vec<String>>,
}

/// How a board and a job put things.
trait Tongue<M> {
    fn board(&self) -> &Board;
    /// The devices that are there, in the order of their blocks.
    fn devices(&self) -> Vec<Device>;
    /// The speeds that a device can have.
    fn speeds(&self, device: Device) -> Vec<Speeds>;
    fn places(&self, device: Device) -> Vec<Place>;
    /// A check under a sign. `own` is the device in whose block it stands.
    fn check(&self, own: Option<Device>, sign: Sign, check: &Check<M>) -> Words;
    /// A check of all devices at once, in the list of what nobody notices.
    fn check_all(&self, thing: CheckTarget) -> Words;
    /// That the panel has a button, or the board a use, for what is not fitted.
    fn spare(&self, devices: &[Device]) -> String;
    /// The settings of switches that are not as they should be.
    fn settings(&self, faults: &[Fault<M>]) -> Vec<Row>;
    /// What the simulation cannot know.
    fn by_hand(&self) -> Vec<Row>;
}

fn gathered<M: Clone>(faults: &[Fault<M>], tongue: &impl Tongue<M>) -> Finder {
    let devices = tongue.devices();
    let block = |device: &Device| Block {
        name: capital(&super::device_words(*device)),
        places: tongue.places(*device),
        rows: rows_of(*device, faults, tongue),
    };
    Finder {
        hidden: hidden(faults, tongue),
        whole: whole(faults, tongue),
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

fn rows_of<M: Clone>(device: Device, faults: &[Fault<M>], tongue: &impl Tongue<M>) -> Vec<Row> {
    let ours = |fault: &&Fault<M>| {
        let spare = matches!(fault.sign, Sign::SpareButton(_));
        fault.sign.device() == Some(device) && fault.sign.is_noticed() && !spare
    };
    let mut ours: Vec<&Fault<M>> = faults.iter().filter(ours).collect();
    ours.sort_by_key(|fault| order(fault.sign));
    let mut rows: Vec<(Vec<Sign>, Vec<Words>)> = Vec::new();
    for fault in ours {
        let mut checks = checks(Some(device), fault, tongue);
        if matches!(fault.sign, Sign::DoesNothing(_) | Sign::HeaterNever) {
            add_fuses(device, &mut checks, tongue);
        }
        match rows.iter_mut().find(|(_, known)| *known == checks) {
            Some((signs, _)) => signs.push(fault.sign),
            None => rows.push((vec![fault.sign], checks)),
        }
    }
    let speeds = tongue.speeds(device);
    rows.into_iter()
        .map(|(signs, checks)| Row {
            noticed: capital(&phrases(&signs, &speeds).join("; ")),
            checks,
            by_hand: false,
        })
        .collect()
}

/// Every technician looks at the fuse. It stands before what is checked at the terminals.
fn add_fuses<M>(device: Device, checks: &mut Vec<Words>, tongue: &impl Tongue<M>) {
    let places = tongue.places(device);
    let mut codes: Vec<String> = places.into_iter().filter_map(|place| place.fuse_code).collect();
    codes.dedup();
    if codes.is_empty() {
        return;
    }
    let words = format!("fuse {}", or(&codes));
    let at = checks.iter().position(|check| check.late || check.live);
    let fuse = Words { words, live: false, late: false };
    checks.insert(at.unwrap_or(checks.len()), fuse);
}

/// What signs of one device say, those of other buttons in one phrase.
fn phrases(signs: &[Sign], speeds: &[Speeds]) -> Vec<String> {
    let mut all: Vec<String> = Vec::new();
    let mut buttons: Vec<String> = Vec::new();
    for sign in signs {
        match sign {
            Sign::OtherButton(_, role) if has_button(*role) => buttons.push(role.the()),
            sign => all.push(does(*sign, speeds)),
        }
    }
    match buttons.as_slice() {
        [] => {}
        [one] => all.push(format!("runs on the button of {one}")),
        _ => all.push("runs on another button".to_owned()),
    }
    all
}

/// Devices as they stand in a sentence: `the blower, pump 1, 2 or 3`.
fn names(devices: &[Device]) -> String {
    let mut after_pump = false;
    let words: Vec<String> = devices
        .iter()
        .map(|device| match device {
            Device::Pump(number) if after_pump => number.to_string(),
            device => {
                after_pump = matches!(device, Device::Pump(_));
                device.the()
            }
        })
        .collect();
    or(&words)
}

/// `a`, `a or b`, `a, b or c`.
fn or(words: &[String]) -> String {
    match words.split_last() {
        None => String::new(),
        Some((last, [])) => last.clone(),
        Some((last, rest)) => format!("{} or {last}", rest.join(", ")),
    }
}

/// The checks under a sign, each in its words once.
fn checks<M: Clone>(own: Option<Device>, fault: &Fault<M>, tongue: &impl Tongue<M>) -> Vec<Words> {
    let mut all: Vec<Words> = Vec::new();
    for check in &fault.checks {
        let words = tongue.check(own, fault.sign, check);
        if !all.contains(&words) {
            all.push(words);
        }
    }
    // What is measured on live parts comes last: everything else can be looked at first.
    all.sort_by_key(|check| check.live);
    all
}

fn whole<M: Clone>(faults: &[Fault<M>], tongue: &impl Tongue<M>) -> Vec<Row> {
    let board = tongue.board();
    let mut rows: Vec<Row> = Vec::new();
    let mut spare: Vec<(Vec<Device>, Vec<Words>)> = Vec::new();
    let mut fuses: Vec<(Vec<String>, Vec<Words>)> = Vec::new();
    for fault in faults.iter().filter(|fault| fault.sign.is_noticed()) {
        let checks = || checks(None, fault, tongue);
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
            sign => rows.push(Row {
                noticed: capital(&super::super::words::noticed(
                    &crate::words::Words::english(),
                    board,
                    sign,
                )),
                checks: checks(),
                by_hand: false,
            }),
        }
    }
    rows.extend(tongue.by_hand());
    for (codes, checks) in fuses {
        rows.push(Row { noticed: format!("Fuse {} blows", or(&codes)), checks, by_hand: false });
    }
    for (devices, checks) in spare {
        rows.push(Row { noticed: capital(&tongue.spare(&devices)), checks, by_hand: false });
    }
    rows.extend(tongue.settings(faults));
    rows
}

fn spare_words(devices: &[Device]) -> String {
    let (buttons, others): (Vec<Device>, Vec<Device>) =
        devices.iter().copied().partition(|device| has_button(*device));
    let mut parts = Vec::new();
    if !buttons.is_empty() {
        parts.push(format!("the panel has a button for {}", names(&buttons)));
    }
    if !others.is_empty() {
        parts.push(format!("the board calls for {}", names(&others)));
    }
    format!("{}, which is not fitted", parts.join(", or "))
}

/// A header as a place of a device.
fn place(board: &Board, header: HeaderId, pins: &PinOrder) -> Place {
    let it = &board[header];
    let fuse = it.fuse.map(|fuse| &board[fuse]);
    Place {
        code: it.code.clone(),
        link: super::socket_link(&it.code),
        layouts: None,
        jumper: match it.feed {
            Feed::Group(_) => None,
            Feed::Jumper(jumper) => Some(board[jumper].code.clone()),
        },
        groups: Vec::new(),
        fuse: fuse.map(|fuse| match &fuse.speed {
            Some(speed) => format!("{}, {} {speed}", fuse.code, fuse.rating),
            None => format!("{}, {}", fuse.code, fuse.rating),
        }),
        fuse_code: fuse.map(|fuse| fuse.code.clone()),
        read_from: match pins.read_from {
            ReadFrom::Top => "top",
            ReadFrom::Left => "left",
        },
        pins: super::headers::pin_words(pins),
        one_speed_pins: None,
    }
}

/// `A 240 V`, or `A` where it has none.
fn group_words(board: &Board, group: GroupId, volts: Option<Volts>) -> String {
    let code = &board[group].code;
    volts.map_or(code.clone(), |volts| format!("{code}\u{a0}{}", whole_volts(volts)))
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
fn terminals(board: &Board, mistakes: impl Iterator<Item = Mistake>) -> String {
    let all = terminal_ids(mistakes).into_iter();
    and(&all.map(|id| board[id].code.clone()).collect::<Vec<_>>())
}
