//! What comes of a mistake, and what is wrong here.

use serde::Serialize;

use super::code;
use crate::board::{BankId, Board, Feed, JumperId};
use crate::decide::DeviceId;
use crate::decide::exercises::{self, Case, Consequences, TableRow};
use crate::decide::faults::CheckTarget;
use crate::decide::mistakes::{AsBuilt, Mistake, Observation, PlannedCase, simulate};
use crate::english::capital;
use crate::sheet::words::{look, mistake, noticed, observed, sentence};
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
    options: Vec<MistakeChoice>,
    answer: &'static str,
    lines: Vec<String>,
}

#[derive(Clone, Serialize)]
struct MistakeChoice {
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

pub fn notice(words: &Words, board: &Board, task: &exercises::Notice) -> Notice {
    let planned = task.case.planned(board);
    let letter = |index: usize| LETTERS.get(index).copied().unwrap_or_default();
    let choice = |(index, option): (usize, &Consequences)| MistakeChoice {
        letter: letter(index),
        right: index == task.answer,
        mistake: sentence(words, &mistake(words, &planned, option.mistake)),
        signs: signs(words, &planned, option.mistake, &option.signs),
    };
    Notice {
        setup: setup(words, &task.case, &planned, &AsBuilt::as_planned(&planned)),
        mistake: mistake(words, &planned, task.mistake),
        said: sentence(words, &mistake(words, &planned, task.mistake)),
        options: task.options.iter().enumerate().map(choice).collect(),
        answer: letter(task.answer),
        lines: task.rows.iter().map(|row| row_words(words, board, *row)).collect(),
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

pub fn whats_wrong(words: &Words, board: &Board, task: &exercises::WhatsWrong) -> WhatsWrong {
    let planned = task.case.planned(board);
    WhatsWrong {
        setup: setup(words, &task.case, &planned, &task.seen),
        noticed: signs(words, &planned, task.answer, &task.noticed),
        unnoticed: signs(words, &planned, task.answer, &task.unnoticed),
        answer: sentence(words, &mistake(words, &planned, task.answer)),
        right: things(&planned, task.answer)
            .into_iter()
            .map(|thing| look(words, &planned, thing))
            .collect(),
        lines: task.rows.iter().map(|row| row_words(words, board, *row)).collect(),
        traps: task
            .traps
            .iter()
            .map(|trap| WrongTrap {
                mistake: sentence(words, &mistake(words, &planned, trap.answer)),
                sign: capital(&noticed(words, board, trap.mistake)),
            })
            .collect(),
    }
}

/// Where a trainee looks something up: a table of the handout and its row.
fn row_words(words: &Words, board: &Board, row: TableRow) -> String {
    match row {
        TableRow::Layout(number) => words.row_of_layout(&number.to_string()),
        TableRow::Header(header) => words.row_of_header(&board[header].code),
        TableRow::Jumper(jumper) => words.row_of_jumper(&board[jumper].code),
        TableRow::Pins(socket) => words.row_of_pins(&board[socket].title),
        TableRow::Bank(bank) => words.settings_table(&board[bank].code),
        TableRow::Settings { bank, way } => {
            let mut fields = board[bank].fields.iter();
            let field = fields.find(|field| (field.first..=field.last).contains(&way));
            field.map_or_else(String::new, |field| {
                let ways = usize::from(field.last - field.first) + 1;
                words.row_of_settings(&board[bank].code, ways, &field.label())
            })
        }
        TableRow::Supply(supply) => words.column_of_supply(&board[supply].title),
        TableRow::Terminal(terminal) => words.picture_of_terminal(&board[terminal].code),
        TableRow::Link(link) => words.picture_of_link(&board[link].code),
    }
}

fn signs(
    words: &Words,
    planned: &PlannedCase<'_>,
    mistake: Mistake,
    seen: &[Observation],
) -> Vec<Sign> {
    let state = simulate(planned, &AsBuilt::as_planned(planned).with(planned, mistake));
    seen.iter()
        .map(|one| Sign {
            words: sentence(words, &noticed(words, planned.board, one.sign)),
            numbers: sentence(words, &observed(words, planned, &state, one)),
            noticed: one.sign.is_noticed(),
        })
        .collect()
}

/// What a mistake is about.
fn things(planned: &PlannedCase<'_>, mistake: Mistake) -> Vec<CheckTarget> {
    let plug = |device: DeviceId| CheckTarget::Plug(planned.wiring[device].device);
    if mistake.layout(planned).is_some() {
        return vec![CheckTarget::Layout];
    }
    match mistake {
        Mistake::Layout(_) | Mistake::Selector { .. } => vec![CheckTarget::Layout],
        Mistake::Jumper { jumper, .. } => vec![CheckTarget::Jumper(jumper)],
        Mistake::JumpersSwapped(two) => two.map(CheckTarget::Jumper).to_vec(),
        Mistake::Plug { device, .. } => vec![plug(device)],
        Mistake::PlugsSwapped(two) => two.map(plug).to_vec(),
        Mistake::Way { bank, .. } | Mistake::BankAsShipped(bank) => vec![CheckTarget::Bank(bank)],
        Mistake::Link { link, .. } => vec![CheckTarget::Link(link)],
        Mistake::Supply(_) | Mistake::SameLine(_) => vec![CheckTarget::House],
        Mistake::NeutralPast => vec![CheckTarget::NeutralPath],
        Mistake::NeutralGrounded => vec![CheckTarget::NeutralGround],
        Mistake::Missing(_) | Mistake::Swapped(_) => vec![CheckTarget::Landing],
        Mistake::Cord { device, .. } => {
            vec![CheckTarget::Cord(planned.wiring[device].device)]
        }
    }
}

fn setup(words: &Words, case: &Case, planned: &PlannedCase<'_>, built: &AsBuilt) -> Setup {
    let board = planned.board;
    let group_on = |jumper: JumperId| built.jumpers.get(jumper.0).copied();
    let group_code = |jumper: JumperId| {
        group_on(jumper).map_or_else(String::new, |group| board[group].code.clone())
    };
    let plugs = case.wiring.devices.iter().zip(&built.cords).map(|(plan, cord)| Plug {
        device: words.device_noun(plan.device),
        plate: words.whole_volts(plan.plate),
        low: plan.low.map(|low| words.amps(low)),
        high: words.amps(plan.amps),
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
        breaker: words.amps(case.job.breaker.value),
        layout: built
            .layout(board)
            .map_or_else(|| words.no_layout_meant(), |number| number.to_string()),
        plugs: plugs.collect(),
        jumpers: jumpers.collect(),
        banks: (0..board.banks.len()).map(BankId).map(|id| ways(words, board, id, built)).collect(),
    }
}

/// `1 and 4 on, all others off`.
fn ways(words: &Words, board: &Board, id: BankId, built: &AsBuilt) -> Ways {
    let positions = built.ways.get(id.0).map(Vec::as_slice).unwrap_or_default();
    let on: Vec<String> = (1..)
        .zip(positions)
        .filter(|(_, on)| **on)
        .map(|(way, _): (u32, &bool)| way.to_string())
        .collect();
    let stand = match on.as_slice() {
        [] => words.all_ways_off(),
        on => words.bank_ways_on(on.len(), &words.and(on)),
    };
    Ways { code: board[id].code.clone(), words: stand }
}
