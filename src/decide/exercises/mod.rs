//! Exercises for a course on one board, each with its one right answer.
//!
//! An exercise is data, no sentences: what is given, the answer, why, and the wrong answers that
//! tempt, each with the mistake behind it. Same board, same count and same seed give the same
//! exercises, on every machine.
//!
//! Every kind is asked in questions: a layout, a supply and a layout, a header and a cord. A
//! question is put to chance once or several times, and is kept only if its answer is the only one
//! and is not seen from how it is asked; what that means stands at each kind.

mod case;
mod deck;
mod dice;
mod draw_pins;
mod find_layout;
mod line_sum;
mod lookup;
mod move_jumpers;
mod notice;
mod plates;
mod set_switches;
mod whats_wrong;
mod which_header;

pub use case::{Case, TableRow};
pub use draw_pins::{DrawPins, PinSlip};
pub use find_layout::{FindLayout, LayoutSlip};
pub use line_sum::{LineSum, LoadAt, Term};
pub use move_jumpers::{JumperAnswer, JumperSlip, JumperWhy, MoveJumpers, PlateAt};
pub use notice::{Consequences, Notice, OPTIONS};
pub use set_switches::{SetSwitches, SwitchAnswer, SwitchSlip};
pub use whats_wrong::WhatsWrong;
pub use which_header::{EmptyHeader, EmptyWhy, HeaderSlip, WhichHeader};

use super::mistakes::Mistake;
use crate::board::{BankId, Board, Device, HeaderId, JumperId, LayoutNumber, LinkId, TerminalId};
use deck::Deck;
use dice::Dice;
use lookup::BoardLookup;

/// At most `count` exercises for `board`, with rising [`Exercise::level`] and kinds mixed, no two
/// alike. Fewer than `count` means that the board gives no more that differ: small boards have few
/// layouts and sockets, and a board without jumpers gives none about them.
pub fn exercises(board: &Board, count: usize, seed: u64) -> Vec<Exercise> {
    let lookup = BoardLookup::new(board);
    let mut dice = Dice::new(seed);
    let mut decks: Vec<Deck> =
        TaskKind::ALL.iter().map(|kind| Deck::new(&lookup, *kind, &mut dice)).collect();
    dice.shuffle(&mut decks);
    let mut found: Vec<Exercise> = Vec::new();
    while found.len() < count && !decks.is_empty() {
        let at = found.len();
        let level = 1 + (at * 3 / count) as u8;
        // The decks take turns; one that is spent is put away.
        let turn = at % decks.len();
        match decks.get_mut(turn).and_then(|deck| deck.take(&lookup, level, &found, &mut dice)) {
            Some(exercise) => found.push(exercise),
            None => drop(decks.remove(turn)),
        }
    }
    found.sort_by_key(|exercise| exercise.level);
    spread(&mut found);
    found
}

/// Puts another exercise of the same level between two of a kind that ask about the same subject,
/// as far as there is one: who answers the second from the memory of the first learns nothing.
fn spread(all: &mut [Exercise]) {
    for at in 1..all.len() {
        let (done, open) = all.split_at(at);
        let Some(next) = open.first() else { return };
        let last = |kind| done.iter().rev().find(|one| one.kind() == kind);
        let repeats =
            |one: &Exercise| last(one.kind()).is_some_and(|last| last.subject() == one.subject());
        if !repeats(next) {
            continue;
        }
        let level = next.level;
        let other = open.iter().position(|one| one.level == level && !repeats(one));
        if let Some(other) = other {
            all.swap(at, at + other);
        }
    }
}

/// What an exercise is about. A handout goes through as many subjects as the board has.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Subject {
    /// A row of the layout matrix.
    Layout(LayoutNumber),
    /// A device.
    Device(Device),
    /// A header, or what is plugged into it.
    Header(HeaderId),
    /// A heater allowance.
    Allowance(u8),
    /// A jumper.
    Jumper(JumperId),
    /// A bank of switches.
    Bank(BankId),
    /// What feeds the board.
    Supply,
    /// A terminal of the supply.
    Terminal(TerminalId),
    /// A link.
    Link(LinkId),
}

/// One exercise.
#[derive(Clone, Debug)]
pub struct Exercise {
    /// How hard it is, 1 to 3; what that means stands at each kind.
    pub level: u8,
    /// The question with its answer.
    pub task: Task,
}

impl Exercise {
    /// What kind it is.
    pub fn kind(&self) -> TaskKind {
        match &self.task {
            Task::FindLayout(_) => TaskKind::FindLayout,
            Task::WhichHeader(_) => TaskKind::WhichHeader,
            Task::MoveJumpers(_) => TaskKind::MoveJumpers,
            Task::SetSwitches(_) => TaskKind::SetSwitches,
            Task::DrawPins(_) => TaskKind::DrawPins,
            Task::Notice(_) => TaskKind::Notice,
            Task::WhatsWrong(_) => TaskKind::WhatsWrong,
        }
    }

    /// What it is about.
    pub fn subject(&self) -> Subject {
        match &self.task {
            Task::FindLayout(task) => Subject::Layout(task.answer),
            Task::WhichHeader(task) => Subject::Device(task.device),
            Task::MoveJumpers(task) => Subject::Layout(task.layout),
            Task::SetSwitches(task) => Subject::Allowance(task.answer.allowance),
            Task::DrawPins(task) => Subject::Header(task.header),
            Task::Notice(task) => of_mistake(&task.case, task.mistake),
            Task::WhatsWrong(task) => of_mistake(&task.case, task.answer),
        }
    }
}

fn of_mistake(case: &Case, mistake: Mistake) -> Subject {
    match mistake {
        Mistake::Layout(_) | Mistake::Selector { .. } => Subject::Layout(case.layout.number),
        Mistake::Jumper { jumper, .. } | Mistake::JumpersSwapped([jumper, _]) => {
            Subject::Jumper(jumper)
        }
        Mistake::Plug { device, .. } | Mistake::PlugsSwapped([device, _]) => {
            Subject::Header(case.wiring[device].header)
        }
        Mistake::Way { bank, .. } | Mistake::BankAsShipped(bank) => Subject::Bank(bank),
        Mistake::Supply(_)
        | Mistake::SameLine(_)
        | Mistake::NeutralPast
        | Mistake::NeutralGrounded => Subject::Supply,
        Mistake::Missing(terminal) | Mistake::Swapped([terminal, _]) => Subject::Terminal(terminal),
        Mistake::Link { link, .. } => Subject::Link(link),
        Mistake::Cord { device, .. } => Subject::Device(case.wiring[device].device),
    }
}

/// The kinds of exercise.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum TaskKind {
    /// [`FindLayout`].
    FindLayout,
    /// [`WhichHeader`].
    WhichHeader,
    /// [`MoveJumpers`].
    MoveJumpers,
    /// [`SetSwitches`].
    SetSwitches,
    /// [`DrawPins`].
    DrawPins,
    /// [`Notice`].
    Notice,
    /// [`WhatsWrong`].
    WhatsWrong,
}

impl TaskKind {
    /// All of them.
    pub const ALL: [TaskKind; 7] = [
        TaskKind::FindLayout,
        TaskKind::WhichHeader,
        TaskKind::MoveJumpers,
        TaskKind::SetSwitches,
        TaskKind::DrawPins,
        TaskKind::Notice,
        TaskKind::WhatsWrong,
    ];
}

/// A question, its one right answer, why, and what tempts.
#[derive(Clone, Debug)]
pub enum Task {
    /// Which layout number fits what is fitted?
    FindLayout(FindLayout),
    /// Which header takes a device, and which headers stay empty?
    WhichHeader(WhichHeader),
    /// Where does every jumper go, and which are moved?
    MoveJumpers(MoveJumpers),
    /// How many may run on high beside the heater, and how do the ways stand?
    SetSwitches(SetSwitches),
    /// What is in each cavity of a socket?
    DrawPins(DrawPins),
    /// What comes of a mistake?
    Notice(Notice),
    /// What is wrong here?
    WhatsWrong(WhatsWrong),
}

/// A wrong answer and the mistake behind it. Never the right answer, and no wrong answer twice.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Trap<A, M> {
    /// The wrong answer.
    pub answer: A,
    /// The mistake.
    pub mistake: M,
}
