//! Which jet pump goes where, and which group each jumper goes to: chosen all together.
//!
//! # What is chosen
//!
//! Under a layout most devices have one header that drives them. A jet pump without a number may
//! take the header of any pump with as many speeds. A header is fed by a fixed group, or by the
//! group that its jumper is on; two headers may share a jumper, and a group has only so many tabs.
//! So a choice is, for each [`Plug`], a [`Seat`]: one of its headers, and there one of the groups
//! that give it its voltage. From the seats follow the places of the jumpers, the current in every
//! supply conductor, and what is needed of the breaker. None of it can be chosen one by one: a pump
//! on another line changes what the neutral carries, and a jumper that is taken is taken for both of
//! its headers.
//!
//! # The order of preference
//!
//! 1. A choice keeps to the tabs and to the ratings of headers and fuses. If there is none, the tabs
//!    are given up, then the ratings in place of the tabs, then both: the job is refused then, and
//!    the refusal tells of what was given up.
//! 2. The highest heater allowance that the breaker, the supply run and the board carry. One that is
//!    a current must let the heater run with what moves its water ([`SearchLimits::heats`]).
//! 3. The smallest current needed of the breaker.
//! 4. The fewest jumpers moved from where they are shipped.
//! 5. The first in the order of the job's equipment and of the board's lists.
//!
//! [`fit`] goes through 1 and 2, from the best down; [`search::best`] answers 3 to 5 for one
//! allowance, or says that there is no choice.
//!
//! # How it is found
//!
//! Depth first: one plug after the other gets a seat, and is taken out again. [`state`] knows at
//! every step what is plugged in and what it carries. There are three rounds.
//!
//! 1. `least_needed`: the smallest needed current, from the largest device down, trying first what
//!    adds least.
//! 2. `fewest_moves_roughly`: how few moves there can be among all that need no more than that.
//! 3. `fewest_moves`: the first choice in order that has both. It ends as soon as it has found as
//!    few moves as round 2.
//!
//! Jumpers that no device holds ([`idle`]) are placed last: they stay unless another needs the tab.
//!
//! # What is left out, and why that loses nothing
//!
//! - *Bounds.* In every allowed state a device may also be off. So the worst current of some of the
//!   devices is never more than that of all of them, and what is plugged in so far bounds from below
//!   what can still come. A branch whose bound is above a limit, or not below the best so far, is
//!   left. The same holds for a fuse. Before anything is plugged in, what a plug draws wherever it
//!   goes is counted already.
//! - *Groups that are alike* ([`alike::alike_groups`]): between the same two conductors they give
//!   the same currents, so one of them stands for all. It is the shipped one if it is among them.
//! - *Headers that are alike* ([`alike::alike_headers`]): if two differ in nothing that a current
//!   depends on, to exchange what is in them changes no current. Rounds 1 and 2 try one of them.
//!   Round 3 tries all, as it has to find the first.
//! - *Tabs.* Both of these hold only if no tab is short. So the search first goes without regard to
//!   the tabs. What it finds is the best of more choices than there are; if it lacks no tab, nothing
//!   better can be had with them. If it does, the search starts anew with every group for itself.
//! - *The lowest allowance.* Fewer devices on high draw no more. So what cannot be had at the lowest
//!   allowance without regard to the breaker cannot be had at any.
//!
//! A count of steps ends a search that takes too long; no sensible board comes near. What was found
//! by then keeps to the terms, and [`Fit::optimal`] is false. If nothing was found by then, there is
//! taken to be nothing.
//!
//! # The files, each of which uses those before it
//!
//! `types`, `plugs` (what can go where), `alike`, `state`, `idle`, `search`.

mod alike;
mod idle;
mod plugs;
mod search;
mod state;
mod types;

pub use plugs::{BAND, carried_by, suits};
pub use types::{Amount, Fit, GroupOption, HeaderOption, Plug, Plugged, Seat};

use super::layout::Slot;
use super::rules::{Rules, carries};
use super::voltages::SupplyVoltages;
use super::wire::load_limit;
use crate::board::{Allowance, Board, Effect, Heater, Job, Layout, Meaning};
use crate::units::Amps;
use search::best;
use types::{SearchLimits, Solution};

/// What can be plugged in where under `layout`, the heater first.
pub fn plugs(
    board: &Board,
    job: &Job,
    layout: &Layout,
    rules: Rules,
    element: Option<Heater>,
) -> (Vec<Slot>, Vec<Plug>) {
    let voltages = SupplyVoltages::of(board, job.supply.value);
    plugs::plugs(board, job, layout, &voltages, rules, element)
}

/// The settings of the heater allowance, the highest first, each once; `None` alone if no switch
/// sets it.
pub fn allowances(board: &Board) -> Vec<Option<Allowance>> {
    let mut all: Vec<Allowance> = board
        .banks
        .iter()
        .flat_map(|bank| &bank.fields)
        .filter(|field| field.effect == Some(Effect::HeaterAllowance))
        .flat_map(|field| &field.settings)
        .filter_map(|setting| match setting.meaning {
            Meaning::Allowance(allowance) => Some(allowance),
            Meaning::Layout(_) | Meaning::Words(_) => None,
        })
        .collect();
    // Those of a board are of one kind, and no current is anything but a number.
    all.sort_by(|a, b| b.partial_cmp(a).unwrap_or(std::cmp::Ordering::Equal));
    all.dedup();
    if all.is_empty() { vec![None] } else { all.into_iter().map(Some).collect() }
}

/// The best choice for a job under a layout that fits it. Where nothing keeps to everything, what
/// cannot be kept is given up: first the tabs, then the ratings; and where no allowance is carried,
/// the lowest is taken. `None` if no group gives some device its voltage, or if no choice gives all
/// of them theirs.
pub fn fit(
    board: &Board,
    job: &Job,
    layout: &Layout,
    voltages: &SupplyVoltages,
    rules: Rules,
    element: Option<Heater>,
) -> Option<Fit> {
    let (slots, plugs) = plugs::plugs(board, job, layout, voltages, rules, element);
    let allowances = allowances(board);
    // A marked circuit that the breaker or the wire does not carry is told by itself: no allowance
    // mends it.
    let most = load_limit(board, job).map_or(f64::INFINITY, |limit| limit.0);
    let most = Amps(most.min(job.breaker.value.0));
    let mark_kept = job.marked.circuit.is_none_or(|marked| carries(most, marked.value));
    for (tabs, ratings) in [(true, true), (false, true), (true, false), (false, false)] {
        let search = |terms| best(board, voltages, &slots, &plugs, terms);
        let terms = |allowance| SearchLimits {
            allowance,
            tabs,
            ratings,
            heats: true,
            ..limits(board, job)
        };
        let lowest = allowances.last().copied().flatten();
        // What the lowest allowance cannot keep to, no other can.
        let free = SearchLimits {
            counted: None,
            line: None,
            neutral: None,
            heats: false,
            ..terms(lowest)
        };
        let Some(at_lowest) = search(free) else { continue };
        let carried =
            |allowance: &Option<Allowance>| Some((*allowance, search(terms(*allowance))?));
        let found = allowances.iter().filter(|_| mark_kept).find_map(carried);
        let is_carried = found.is_some();
        let (allowance, solution) = found.unwrap_or((lowest, at_lowest));
        return Some(Fit {
            plugged: plugged(&slots, &plugs, &solution),
            jumpers: solution.jumpers,
            allowance,
            carried: is_carried,
            tabs,
            ratings,
            optimal: solution.optimal,
        });
    }
    None
}

/// What the breaker, the supply run and the board carry.
fn limits(board: &Board, job: &Job) -> SearchLimits {
    let (breaker, max) = (job.breaker.value, board.max_current(job.supply.value));
    let wire = load_limit(board, job);
    let least = |a: Option<Amps>, b: Option<Amps>| match (a, b) {
        (Some(a), Some(b)) => Some(Amps(a.0.min(b.0))),
        (a, b) => a.or(b),
    };
    // A marked circuit governs what counts; a breaker that would trip is none all the same.
    let marked = job.marked.circuit.is_some();
    let conductor = least(max, wire);
    SearchLimits {
        allowance: None,
        heats: false,
        counted: if marked { None } else { least(Some(breaker), wire) },
        line: if marked { least(conductor, Some(breaker)) } else { conductor },
        neutral: conductor,
        tabs: false,
        ratings: false,
    }
}

fn plugged(slots: &[Slot], plugs: &[Plug], solution: &Solution<'_>) -> Vec<Plugged> {
    let mut all: Vec<Plugged> = plugs
        .iter()
        .zip(&solution.seats)
        .filter_map(|(plug, seat)| {
            let slot = slots.iter().find(|slot| slot.header == seat.place.header)?;
            let (class, choice) = (plug.class, seat.option.clone());
            Some(Plugged { fitted: plug.fitted, slot: *slot, class, choice })
        })
        .collect();
    all.sort_by_key(|plugged| plugged.slot.header);
    all
}
