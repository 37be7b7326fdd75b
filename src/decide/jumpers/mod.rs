//! Which jet pump goes where, and which group each jumper goes to: chosen all together.
//!
//! The highest heater allowance that the breaker and the board carry comes first, then the smallest
//! current needed of the breaker, then the fewest moves from the shipped positions; of choices that
//! are alike in all this, the first in the order of the job's equipment and of the board's lists.

mod alike;
mod idle;
mod plugs;
mod search;
mod state;

pub use plugs::{
    Amount, BAND, GroupOption, HeaderOption, Plug, carried_by, groups, is_continuous, plugs, suits,
};

use super::layout::Slot;
use super::rules::{Rules, carries};
use crate::board::{Board, GroupId, HeaderId, Job, JumperId, Meaning};
use crate::board::{Effect, Heater, Layout};
use crate::units::Amps;
use search::{Solution, Terms, best};

/// A choice of places and groups.
#[derive(Clone, Debug)]
pub struct Fit {
    /// The headers that the layout uses.
    pub slots: Vec<Slot>,
    /// What is plugged in where.
    pub plugged: Vec<Plugged>,
    /// The group of each jumper of the board.
    pub jumpers: Vec<GroupId>,
    /// The heater allowance; `None` if the board sets no limit.
    pub allowance: Option<u8>,
    /// Whether the breaker and the board carry it.
    pub carried: bool,
    /// Whether every jumper has a tab of its own.
    pub tabs: bool,
    /// Whether every header and fuse carries what it gets.
    pub ratings: bool,
    /// Whether no other choice is better; false only for boards beyond all measure.
    pub optimal: bool,
}

/// A device at its header, on its group.
#[derive(Clone, Debug)]
pub struct Plugged {
    /// Which of the job's equipment; `None` for the heater.
    pub fitted: Option<usize>,
    /// Which of the fit's slots.
    pub slot: usize,
    /// The header.
    pub header: HeaderId,
    /// How it counts for the heater allowance.
    pub class: super::currents::AllowanceClass,
    /// Its group and what it draws there.
    pub choice: GroupOption,
}

/// The settings of the heater allowance, the highest first, each once; `None` alone if no switch
/// sets it.
pub fn allowances(board: &Board) -> Vec<Option<u8>> {
    let mut all: Vec<Option<u8>> = board
        .banks
        .iter()
        .flat_map(|bank| &bank.fields)
        .filter(|field| field.effect == Some(Effect::HeaterAllowance))
        .flat_map(|field| &field.settings)
        .filter_map(|setting| match setting.meaning {
            Meaning::Allowance(number) => Some(Some(number)),
            Meaning::Words(_) => None,
        })
        .collect();
    all.sort_by(|a, b| b.cmp(a));
    all.dedup();
    if all.is_empty() { vec![None] } else { all }
}

/// The best choice for a job under a layout that fits it. Where nothing keeps to everything, what
/// cannot be kept is given up: first the tabs, then the ratings; and where no allowance is carried,
/// the lowest is taken. `None` if no group gives some device its voltage, or if no choice gives all
/// of them theirs.
pub fn fit(
    board: &Board,
    job: &Job,
    layout: &Layout,
    rules: Rules,
    element: Option<Heater>,
) -> Option<Fit> {
    let (slots, plugs) = plugs(board, job, layout, rules, element);
    let allowances = allowances(board);
    let supply = &board[job.supply.value];
    let max = board.about.max_current;
    let breaker = job.breaker.value;
    // A marked circuit governs what counts; a breaker that would trip is none all the same.
    let marked = job.marked.circuit.is_some();
    let mark_kept = job.marked.circuit.is_none_or(|marked| carries(breaker, marked.value));
    let line =
        if marked { Some(Amps(max.map_or(breaker.0, |max| max.0.min(breaker.0)))) } else { max };
    for (tabs, ratings) in [(true, true), (false, true), (true, false), (false, false)] {
        let terms = |allowance| Terms {
            allowance,
            counted: (!marked).then_some(breaker),
            line,
            neutral: max,
            tabs,
            ratings,
        };
        let free =
            |allowance| Terms { counted: None, line: None, neutral: None, ..terms(allowance) };
        let carried = |allowance: &Option<u8>| {
            if !mark_kept {
                return None;
            }
            let solution = best(board, supply, &slots, &plugs, terms(*allowance))?;
            Some((*allowance, true, solution))
        };
        let lowest = allowances.last().copied().flatten();
        // What the lowest allowance cannot keep to, no other can.
        let Some(last) = best(board, supply, &slots, &plugs, free(lowest)) else { continue };
        let found = allowances.iter().find_map(carried).unwrap_or((lowest, false, last));
        let (allowance, carried, solution) = found;
        let Solution { jumpers, optimal, .. } = &solution;
        return Some(Fit {
            plugged: plugged(&slots, &plugs, &solution),
            jumpers: jumpers.clone(),
            allowance,
            carried,
            tabs,
            ratings,
            optimal: *optimal,
            slots,
        });
    }
    None
}

fn plugged(slots: &[Slot], plugs: &[Plug], solution: &Solution) -> Vec<Plugged> {
    let mut all: Vec<Plugged> = plugs
        .iter()
        .zip(&solution.plugs)
        .filter_map(|(plug, (place, option))| {
            let place = plug.places.get(*place)?;
            Some(Plugged {
                fitted: plug.fitted,
                slot: place.slot,
                header: slots.get(place.slot)?.header,
                class: plug.class,
                choice: place.options.get(*option)?.clone(),
            })
        })
        .collect();
    all.sort_by_key(|plugged| plugged.slot);
    all
}

/// The moves of a fit: jumpers that are not where they are shipped.
pub fn moves(board: &Board, jumpers: &[GroupId]) -> Vec<JumperId> {
    let moved = |(index, group): (usize, &GroupId)| {
        let shipped = board.jumpers.get(index)?.shipped;
        (shipped != *group).then_some(JumperId(index))
    };
    jumpers.iter().enumerate().filter_map(moved).collect()
}
