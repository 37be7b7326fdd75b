//! The questions of one kind, asked in any order, each exercise kept until its level is wanted.

use super::super::serving::service;
use std::sync::Arc;

use super::case::Case;
use super::dice::Dice;
use super::lookup::BoardLookup;
use super::{
    Exercise, Task, TaskKind, case, draw_pins, find_layout, move_jumpers, notice, set_switches,
    whats_wrong, which_header,
};
use crate::board::{Device, HeaderId, LayoutNumber, Speeds, SupplyId};

/// How often a supply and a layout are tried with other plates and currents.
const ROUNDS: usize = 6;

/// The most questions that are asked at once before another level is taken; fewer of those that
/// take a hundred simulations each.
const TRIES: usize = 12;
const SIMULATED_TRIES: usize = 2;

/// How many of them are asked for the sake of a subject that was not asked about.
const FEW: usize = 4;

/// The most questions in a row that come to nothing: a kind that a board cannot give must not cost
/// the time of a thousand plans.
const FRUITLESS: usize = 60;

/// A question before chance.
#[derive(Clone, Copy)]
enum Question {
    Layout(LayoutNumber),
    Header(LayoutNumber, Device),
    Cord(HeaderId, Speeds),
    Jumpers(SupplyId, LayoutNumber),
    Switches(SupplyId, LayoutNumber),
    Notice(SupplyId, LayoutNumber),
    Wrong(SupplyId, LayoutNumber),
}

/// The questions of one kind.
pub struct Deck {
    /// Still to be asked, the next one last.
    waiting: Vec<Question>,
    /// Asked, of a level that was not wanted then.
    ready: Vec<Exercise>,
    fruitless: usize,
    tries: usize,
}

impl Deck {
    /// All questions of a kind, in any order.
    pub fn new(lookup: &BoardLookup<'_>, kind: TaskKind, dice: &mut Dice) -> Self {
        let board = lookup.board;
        let numbers = || board.layouts.iter().map(|layout| layout.number);
        let mut waiting: Vec<Question> = Vec::new();
        match kind {
            TaskKind::FindLayout => waiting.extend(numbers().map(Question::Layout)),
            TaskKind::WhichHeader => waiting.extend(numbers().flat_map(|number| {
                let slots = lookup.slots(number).iter();
                slots.map(move |slot| Question::Header(number, slot.device))
            })),
            TaskKind::DrawPins => waiting.extend(board.header_ids().flat_map(|header| {
                let served = service(board, header).served.into_iter();
                served.map(move |served| Question::Cord(header, served.speeds))
            })),
            TaskKind::MoveJumpers if !board.jumpers.is_empty() => {
                waiting = fed(lookup, Question::Jumpers);
            }
            TaskKind::SetSwitches if set_switches::the_field(board).is_some() => {
                waiting = fed(lookup, Question::Switches);
            }
            TaskKind::MoveJumpers | TaskKind::SetSwitches => {}
            TaskKind::Notice => waiting = fed(lookup, Question::Notice),
            TaskKind::WhatsWrong => waiting = fed(lookup, Question::Wrong),
        }
        dice.shuffle(&mut waiting);
        let simulated = matches!(kind, TaskKind::Notice | TaskKind::WhatsWrong);
        let tries = if simulated { SIMULATED_TRIES } else { TRIES };
        Self { waiting, ready: Vec::new(), fruitless: 0, tries }
    }

    /// An exercise that is unlike all of `found`, on a subject that was asked about least, of the
    /// level if one is soon found, else of one that is near; `None` if there is no more.
    pub fn take(
        &mut self,
        lookup: &BoardLookup<'_>,
        level: u8,
        found: &[Exercise],
        dice: &mut Dice,
    ) -> Option<Exercise> {
        let rank =
            |exercise: &Exercise| (asked_before(exercise, found), exercise.level.abs_diff(level));
        for tried in 0..self.tries {
            // A fresh subject of the right level is worth a few questions more, not all of them.
            let wanted = |one: &Exercise| rank(one) == (0, 0) || tried >= FEW && one.level == level;
            if self.ready.iter().any(wanted) {
                break;
            }
            self.ask(lookup, found, dice);
        }
        while self.ready.is_empty() && !self.waiting.is_empty() {
            self.ask(lookup, found, dice);
        }
        let indexed = self.ready.iter().enumerate();
        let best = indexed.min_by_key(|(_, exercise)| rank(exercise));
        let at = best.map(|(at, _)| at)?;
        Some(self.ready.remove(at))
    }

    /// Asks one question.
    fn ask(&mut self, lookup: &BoardLookup<'_>, found: &[Exercise], dice: &mut Dice) {
        let Some(question) = self.waiting.pop() else { return };
        let new = |exercise: &Exercise| {
            let known = found.iter().chain(&self.ready);
            known.into_iter().all(|other| !alike(lookup, &other.task, &exercise.task))
        };
        match pose(lookup, question, dice).filter(new) {
            Some(exercise) => {
                self.ready.push(exercise);
                self.fruitless = 0;
            }
            None => {
                self.fruitless += 1;
                if self.fruitless >= FRUITLESS {
                    self.waiting.clear();
                }
            }
        }
    }
}

/// How often the kind of an exercise was asked about its subject.
fn asked_before(exercise: &Exercise, found: &[Exercise]) -> usize {
    let (kind, subject) = (exercise.kind(), exercise.subject());
    found.iter().filter(|other| other.kind() == kind && other.subject() == subject).count()
}

fn fed(
    lookup: &BoardLookup<'_>,
    question: impl Fn(SupplyId, LayoutNumber) -> Question,
) -> Vec<Question> {
    let mut all = Vec::new();
    for _ in 0..ROUNDS {
        for supply in lookup.board.handles::<SupplyId>() {
            for layout in &lookup.board.layouts {
                all.push(question(supply, layout.number));
            }
        }
    }
    all
}

fn pose(lookup: &BoardLookup<'_>, question: Question, dice: &mut Dice) -> Option<Exercise> {
    let board = lookup.board;
    let layout = |number| board.layout(number);
    match question {
        Question::Layout(number) => find_layout::pose(lookup, layout(number)?, dice),
        Question::Header(number, device) => which_header::pose(lookup, layout(number)?, device),
        Question::Cord(header, speeds) => draw_pins::pose(board, header, speeds),
        Question::Jumpers(supply, number) => {
            move_jumpers::pose(lookup, supply, layout(number)?, dice)
        }
        Question::Switches(supply, number) => {
            let case = case::case(lookup, supply, layout(number)?, dice)?;
            set_switches::pose(board, &case)
        }
        Question::Notice(supply, number) => {
            let case = case::case(lookup, supply, layout(number)?, dice)?;
            notice::pose(board, &Arc::new(case), dice)
        }
        Question::Wrong(supply, number) => {
            let case = case::case(lookup, supply, layout(number)?, dice)?;
            whats_wrong::pose(board, &Arc::new(case), dice)
        }
    }
}

/// Whether two questions are too much alike for one handout; see each kind.
fn alike(lookup: &BoardLookup<'_>, one: &Task, other: &Task) -> bool {
    let board = lookup.board;
    match (one, other) {
        (Task::FindLayout(a), Task::FindLayout(b)) => a.answer == b.answer,
        (Task::WhichHeader(a), Task::WhichHeader(b)) => {
            (a.layout, a.device) == (b.layout, b.device)
        }
        (Task::MoveJumpers(a), Task::MoveJumpers(b)) => {
            let groups = |of: &super::MoveJumpers| -> Vec<_> {
                of.answer.iter().map(|one| one.group).collect()
            };
            (a.supply, a.layout) == (b.supply, b.layout) && groups(a) == groups(b)
        }
        (Task::SetSwitches(a), Task::SetSwitches(b)) => {
            (a.supply, a.layout, a.breaker) == (b.supply, b.layout, b.breaker)
        }
        (Task::DrawPins(a), Task::DrawPins(b)) => {
            let socket = |of: &super::DrawPins| (board[of.header].socket, board[of.header].key);
            socket(a) == socket(b) && a.speeds == b.speeds
        }
        (Task::Notice(a), Task::Notice(b)) => same_job(&a.case, &b.case) && a.mistake == b.mistake,
        (Task::WhatsWrong(a), Task::WhatsWrong(b)) => {
            // Two mistakes can leave the board the same: a way flipped, and a bank left as shipped.
            same_job(&a.case, &b.case) && (a.answer == b.answer || a.seen == b.seen)
        }
        _ => false,
    }
}

fn same_job(a: &Case, b: &Case) -> bool {
    let key = |case: &Case| (case.job.supply.value, case.layout.number);
    key(a) == key(b)
}
