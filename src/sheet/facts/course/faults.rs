//! What comes of a mistake, and what is wrong here.

use serde::Serialize;

use super::{PlaceOf, code, device_words};
use crate::board::{BankId, Board, Feed, JumperId};
use crate::decide::exercises::{self, Case, Consequences};
use crate::decide::faults::CheckTarget;
use crate::decide::mistakes::{AsBuilt, Mistake, Observation, PlannedCase, simulate};
use crate::english::{and, capital};
use crate::figure::whole_volts;
use crate::sheet::words;
use crate::units::{Amps, shortest};
use crate::words::Words;

/// A board as it is set up.
#[derive(Clone, Serialize)]
struct Setup {
    supply: String,
    breaker: String,
    layout: String,
    plugs: Vec<Plug>,
    jumpers: Vec<OnGroup>,
    banks: Vec<Ways>,
}

#[derive(Clone, Serialize)]
struct Plug {
    device: String,
    plate: String,
    low: Option<String>,
    high: String,
    header: String,
    /// `None` where the group is fixed.
    jumper: Option<String>,
    group: String,
}

#[derive(Clone, Serialize)]
struct OnGroup {
    code: String,
    group: String,
}

#[derive(Clone, Serialize)]
struct Ways {
    code: String,
    words: String,
}

/// What comes of a mistake.
#[derive(Clone, Serialize)]
pub struct Notice {
    setup: Setup,
    /// As it stands in a sentence, and as a sentence.
    mistake: String,
    said: String,
    options: Vec<Choice>,
    answer: &'static str,
    lines: Vec<String>,
}

#[derive(Clone, Serialize)]
struct Choice {
    letter: &'static str,
    right: bool,
    /// The mistake that it would be right for.
    mistake: String,
    signs: Vec<Sign>,
}

#[derive(Clone, Serialize)]
struct Sign {
    /// Without the numbers of the case.
    words: String,
    /// With them.
    numbers: String,
    noticed: bool,
}

/// The letters of the answers to choose from.
const LETTERS: [&str; 6] = ["A", "B", "C", "D", "E", "F"];

pub fn notice(board: &Board, task: &exercises::Notice, place: PlaceOf<'_>) -> Notice {
    let planned = task.case.planned(board);
    let letter = |index: usize| LETTERS.get(index).copied().unwrap_or_default();
    let choice = |(index, option): (usize, &Consequences)| Choice {
        letter: letter(index),
        right: index == task.answer,
        mistake: said(words::mistake(&Words::english(), &planned, option.mistake)),
        signs: signs(&planned, option.mistake, &option.signs),
    };
    Notice {
        setup: setup(&task.case, &planned, &AsBuilt::as_planned(&planned)),
        mistake: words::mistake(&Words::english(), &planned, task.mistake),
        said: said(words::mistake(&Words::english(), &planned, task.mistake)),
        options: task.options.iter().enumerate().map(choice).collect(),
        answer: letter(task.answer),
        lines: task.lines.iter().map(|line| place(*line)).collect(),
    }
}

/// What is wrong here.
#[derive(Clone, Serialize)]
pub struct WhatsWrong {
    setup: Setup,
    noticed: Vec<Sign>,
    unnoticed: Vec<Sign>,
    answer: String,
    /// What right looks like.
    right: Vec<String>,
    lines: Vec<String>,
    traps: Vec<WrongTrap>,
}

#[derive(Clone, Serialize)]
struct WrongTrap {
    mistake: String,
    sign: String,
}

pub fn whats_wrong(board: &Board, task: &exercises::WhatsWrong, place: PlaceOf<'_>) -> WhatsWrong {
    let planned = task.case.planned(board);
    WhatsWrong {
        setup: setup(&task.case, &planned, &task.seen),
        noticed: signs(&planned, task.answer, &task.noticed),
        unnoticed: signs(&planned, task.answer, &task.unnoticed),
        answer: said(words::mistake(&Words::english(), &planned, task.answer)),
        right: things(&planned, task.answer)
            .into_iter()
            .map(|thing| words::look(&Words::english(), &planned, thing))
            .collect(),
        lines: task.lines.iter().map(|line| place(*line)).collect(),
        traps: task
            .traps
            .iter()
            .map(|trap| WrongTrap {
                mistake: said(words::mistake(&Words::english(), &planned, trap.answer)),
                sign: capital(&words::noticed(&Words::english(), board, trap.mistake)),
            })
            .collect(),
    }
}

fn signs(planned: &PlannedCase<'_>, mistake: Mistake, seen: &[Observation]) -> Vec<Sign> {
    let state = simulate(planned, &AsBuilt::as_planned(planned).with(planned, mistake));
    seen.iter()
        .map(|one| Sign {
            words: said(words::noticed(&Words::english(), planned.board, one.sign)),
            numbers: said(words::observed(&Words::english(), planned, &state, one)),
            noticed: one.sign.is_noticed(),
        })
        .collect()
}

/// A clause as a sentence.
fn said(clause: String) -> String {
    words::sentence(&Words::english(), &clause)
}

/// What a mistake is about.
fn things(planned: &PlannedCase<'_>, mistake: Mistake) -> Vec<CheckTarget> {
    let plug = |device: usize| {
        planned.wiring.devices.get(device).map(|plan| CheckTarget::Plug(plan.device))
    };
    match mistake {
        Mistake::Layout(_) => vec![CheckTarget::Layout],
        Mistake::Jumper { jumper, .. } => vec![CheckTarget::Jumper(jumper)],
        Mistake::JumpersSwapped(two) => two.map(CheckTarget::Jumper).to_vec(),
        Mistake::Plug { device, .. } => plug(device).into_iter().collect(),
        Mistake::PlugsSwapped(two) => two.into_iter().filter_map(plug).collect(),
        Mistake::Way { bank, .. } | Mistake::BankAsShipped(bank) => vec![CheckTarget::Bank(bank)],
        Mistake::Link { link, .. } => vec![CheckTarget::Link(link)],
        Mistake::Supply(_) => vec![CheckTarget::House],
        Mistake::Missing(_) | Mistake::Swapped(_) => vec![CheckTarget::Landing],
        Mistake::Cord { device, .. } => {
            let plan = planned.wiring.devices.get(device);
            plan.map(|plan| CheckTarget::Cord(plan.device)).into_iter().collect()
        }
    }
}

fn setup(case: &Case, planned: &PlannedCase<'_>, built: &AsBuilt) -> Setup {
    let board = planned.board;
    let group_on = |jumper: JumperId| built.jumpers.get(jumper.0).copied();
    let group_code = |jumper: JumperId| {
        group_on(jumper).map_or_else(String::new, |group| board[group].code.clone())
    };
    let plugs = case.wiring.devices.iter().zip(&built.cords).map(|(plan, cord)| Plug {
        device: device_words(plan.device),
        plate: whole_volts(plan.plate),
        low: plan.low.map(amps),
        high: amps(plan.amps),
        header: code(board, cord.header),
        jumper: match board[cord.header].feed {
            Feed::Jumper(jumper) => Some(board[jumper].code.clone()),
            Feed::Group(_) => None,
        },
        group: match board[cord.header].feed {
            Feed::Jumper(jumper) => group_code(jumper),
            Feed::Group(group) => board[group].code.clone(),
        },
    });
    let jumpers = board.jumpers.iter().enumerate().map(|(index, jumper)| OnGroup {
        code: jumper.code.clone(),
        group: group_code(JumperId(index)),
    });
    Setup {
        supply: board[case.job.supply.value].title.clone(),
        breaker: case.job.breaker.value.to_string(),
        layout: built.layout.to_string(),
        plugs: plugs.collect(),
        jumpers: jumpers.collect(),
        banks: (0..board.banks.len()).map(BankId).map(|id| ways(board, id, built)).collect(),
    }
}

/// `1 and 4 on, all others off`.
fn ways(board: &Board, id: BankId, built: &AsBuilt) -> Ways {
    let positions = built.ways.get(id.0).map(Vec::as_slice).unwrap_or_default();
    let on: Vec<String> = (1..)
        .zip(positions)
        .filter(|(_, on)| **on)
        .map(|(way, _): (u32, &bool)| way.to_string())
        .collect();
    let words = if on.is_empty() {
        "all ways off".to_owned()
    } else {
        format!("{} on, all others off", and(&on))
    };
    Ways { code: board[id].code.clone(), words }
}

/// To a hundredth.
fn amps(amps: Amps) -> String {
    format!("{}\u{a0}A", shortest(amps.0, 2))
}
