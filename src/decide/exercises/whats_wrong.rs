//! What is wrong here.

use std::sync::Arc;

use super::super::jumpers::suits;
use super::super::mistakes::{AsBuilt, Mistake, Observation, PlannedCase, Sign, signs, simulate};
use super::super::plan::DeviceId;
use super::case::{Case, TableRow, rows};
use super::dice::Dice;
use super::notice::{Consequences, MistakePool};
use super::{Exercise, Task, Trap};
use crate::board::{Board, Feed, HeaderId, LayoutEntry};
use crate::units::Volts;

/// The most signs that are told.
const SIGNS: usize = 5;

/// How many mistakes are tried on one job.
const MISTAKES: usize = 8;

/// The most wrong answers that are kept.
const TRAPS: usize = 3;

/// What is wrong here: the job, what its owner notices, and how the board is found. How its supply
/// is landed and how the cords are wired is right, and the question says so.
///
/// Level 1: a jumper or a way of the heater allowance; 2: the layout number, or a plug; 3: two
/// things have changed places. Not trivial: another mistake would be noticed in the same way, and
/// no sign names a field of a switch bank. One answer alone is right: of all single changes to the
/// layout number, the jumpers, the plugs and the ways (two of them changing places included), one
/// alone leaves nothing that tells the board from a right one. Two questions are alike if supply,
/// layout and answer are the same.
#[derive(Clone, Debug)]
pub struct WhatsWrong {
    /// Given: the job. Its plan is not given.
    pub case: Arc<Case>,
    /// Given: how the board is found.
    pub seen: AsBuilt,
    /// Given: what the owner notices; at least one.
    pub noticed: Vec<Observation>,
    /// What comes of it and nobody notices, for the answer sheet.
    pub unnoticed: Vec<Observation>,
    /// What is wrong.
    pub answer: Mistake,
    /// The only change that makes it right.
    pub change: Mistake,
    /// Where what is got wrong is looked up.
    pub rows: Vec<TableRow>,
    /// Other mistakes that would give one of the signs that are noticed: this one. They are not
    /// made here. At least one.
    pub traps: Vec<Trap<Mistake, Sign>>,
}

/// The exercise with a mistake on a job; `None` if none was found that one change alone mends.
pub fn pose(board: &Board, case: &Arc<Case>, dice: &mut Dice) -> Option<Exercise> {
    let planned = case.planned(board);
    let pool = MistakePool::new(&planned, dice);
    let tried = pool.mistakes.iter().filter(|mistake| is_seen(**mistake)).take(MISTAKES);
    tried.into_iter().find_map(|mistake| ask(case, &pool, *mistake, dice))
}

/// Whether a mistake lies in what is looked at: layout number, jumpers, plugs, ways.
fn is_seen(mistake: Mistake) -> bool {
    matches!(
        mistake,
        Mistake::Layout(_)
            | Mistake::Jumper { .. }
            | Mistake::JumpersSwapped(_)
            | Mistake::Plug { .. }
            | Mistake::PlugsSwapped(_)
            | Mistake::Way { .. }
    )
}

fn ask(
    case: &Arc<Case>,
    pool: &MistakePool<'_>,
    mistake: Mistake,
    dice: &mut Dice,
) -> Option<Exercise> {
    let Consequences { signs, .. } = pool.comes_of(mistake)?;
    let names_field = |seen: &Observation| matches!(seen.sign, Sign::SetOtherwise(..));
    let (noticed, unnoticed): (Vec<_>, Vec<_>) =
        signs.iter().cloned().partition(|seen| seen.sign.is_noticed());
    if noticed.is_empty() || signs.len() > SIGNS || signs.iter().any(names_field) {
        return None;
    }
    let seen = pool.built.with(pool.planned, mistake);
    let traps = traps(pool, mistake, &noticed, dice);
    if traps.is_empty() {
        return None;
    }
    let change = only_change(pool, &seen)?;
    let level = match mistake {
        Mistake::Jumper { .. } | Mistake::Way { .. } => 1,
        Mistake::Layout(_) | Mistake::Plug { .. } => 2,
        _ => 3,
    };
    let task = WhatsWrong {
        case: Arc::clone(case),
        seen,
        noticed,
        unnoticed,
        answer: mistake,
        change,
        rows: rows(pool.planned, mistake),
        traps,
    };
    Some(Exercise { level, task: Task::WhatsWrong(task) })
}

/// Other mistakes that would be noticed by one of the same signs, each of another sort if there
/// are such.
fn traps(
    pool: &MistakePool<'_>,
    mistake: Mistake,
    noticed: &[Observation],
    dice: &mut Dice,
) -> Vec<Trap<Mistake, Sign>> {
    let mut found: Vec<Trap<Mistake, Sign>> = Vec::new();
    let sort = |mistake: Mistake| std::mem::discriminant(&mistake);
    for other in pool.others(mistake, dice) {
        if found.len() == TRAPS {
            break;
        }
        if found.iter().any(|trap| sort(trap.answer) == sort(other)) {
            continue;
        }
        let Some(comes) = pool.comes_of(other) else { continue };
        let same = |seen: &Observation| noticed.iter().any(|known| known.sign == seen.sign);
        if let Some(shared) = comes.signs.iter().find(|seen| same(seen)) {
            found.push(Trap { answer: other, mistake: shared.sign });
        }
    }
    found
}

/// The only single change after which nothing tells the board from a right one; `None` if several
/// do, or if it does not leave the board as planned.
fn only_change(pool: &MistakePool<'_>, seen: &AsBuilt) -> Option<Mistake> {
    let mut found = None;
    for change in changes(pool.planned, seen) {
        let after = seen.with(pool.planned, change);
        if !may_be_right(pool.planned, &after) {
            continue;
        }
        let is_planned = after == pool.built;
        let state = simulate(pool.planned, &after);
        let told = signs(pool.planned, (&pool.built, &pool.before), (&after, &state));
        if !told.is_empty() {
            continue;
        }
        if found.is_some() || !is_planned {
            return None;
        }
        found = Some(change);
    }
    found
}

/// Whether every device is driven as what it is and gets a voltage that suits its plate: else there
/// is a sign of it, and nothing need be simulated. The heater may be meant to get less.
fn may_be_right(planned: &PlannedCase<'_>, built: &AsBuilt) -> bool {
    let board = planned.board;
    let layout = built.layout(board).and_then(|number| board.layout(number));
    let Some(layout) = layout else { return false };
    let volts = |header: HeaderId| {
        let group = match board[header].feed {
            Feed::Group(group) => group,
            Feed::Jumper(jumper) => built.jumpers[jumper],
        };
        board.group_volts(planned.job.supply.value, group)
    };
    planned.wiring.devices.iter().zip(&built.cords).all(|(plan, cord)| {
        let driven = board.device_at(cord.header, layout) == Some(plan.device);
        let fed = |volts: Volts| plan.fitted.is_none() || suits(volts, plan.plate);
        driven && volts(cord.header).is_some_and(fed)
    })
}

/// Every single change to what is looked at.
fn changes(planned: &PlannedCase<'_>, seen: &AsBuilt) -> Vec<Mistake> {
    let board = planned.board;
    let mut all = Vec::new();
    match board.layout_entry() {
        LayoutEntry::Panel => {
            let numbers = board.layouts.iter().map(|layout| layout.number);
            all.extend(numbers.filter(|number| *number != seen.entered).map(Mistake::Layout));
        }
        LayoutEntry::Selector(selector) => {
            let positions = 0..board[selector].positions.len();
            let others = positions.filter(|position| *position != seen.selectors[selector]);
            all.extend(others.map(|position| Mistake::Selector { selector, position }));
        }
        LayoutEntry::Ways { .. } => {}
    }
    for (plan, on) in planned.wiring.jumpers.iter().zip(&seen.jumpers) {
        let jumper = plan.jumper;
        let others = board[jumper].groups.iter().copied().filter(|group| group != on);
        all.extend(others.map(|on| Mistake::Jumper { jumper, on }));
    }
    let jumpers: Vec<_> = planned.wiring.jumpers.iter().zip(&seen.jumpers).collect();
    for (at, (a, on_a)) in jumpers.iter().enumerate() {
        for (b, on_b) in jumpers.iter().skip(at + 1) {
            let reach =
                board[a.jumper].groups.contains(on_b) && board[b.jumper].groups.contains(on_a);
            if on_a != on_b && reach {
                all.push(Mistake::JumpersSwapped([a.jumper, b.jumper]));
            }
        }
    }
    let devices = &planned.wiring.devices;
    let fits = |device: DeviceId, into: HeaderId| {
        board[devices[device].header].socket == board[into].socket
    };
    let taken = |header: HeaderId| seen.cords.iter().any(|cord| cord.header == header);
    for (device, cord) in seen.cords.entries() {
        let free = board.header_ids().filter(|into| fits(device, *into) && !taken(*into));
        all.extend(free.map(|into| Mistake::Plug { device, into }));
        for (other, with) in seen.cords.entries().skip(device.0 + 1) {
            if fits(device, with.header) && fits(other, cord.header) {
                all.push(Mistake::PlugsSwapped([device, other]));
            }
        }
    }
    for setting in &planned.wiring.switches {
        let bank = setting.bank;
        for field in board[bank].fields.iter().filter(|field| !field.unused()) {
            all.extend((field.first..=field.last).map(|way| Mistake::Way { bank, way }));
        }
    }
    all
}
