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

pub use case::Case;
pub use draw_pins::{DrawPins, PinSlip};
pub use find_layout::{FindLayout, LayoutSlip};
pub use line_sum::{LineSum, LoadAt, Term};
pub use move_jumpers::{JumperAnswer, JumperSlip, JumperWhy, MoveJumpers, PlateAt};
pub use notice::{Consequences, Notice, OPTIONS};
pub use set_switches::{SetSwitches, SwitchAnswer, SwitchSlip};
pub use whats_wrong::WhatsWrong;
pub use which_header::{EmptyHeader, EmptyWhy, HeaderSlip, WhichHeader};

use crate::board::Board;
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
    found
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
