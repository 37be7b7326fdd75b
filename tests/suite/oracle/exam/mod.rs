//! Does every exercise again by going through all possible answers, without the code that made it:
//! exactly one must be right, and it must be the stated one. Also: what makes a question trivial by
//! its wording, kind by kind.

mod faults;
mod sockets;
mod wiring;

use lidsheet::board::Board;
use lidsheet::decide::exercises::{Exercise, Task};

/// Panics if the exercise has not exactly one right answer, or states another, or is trivial.
#[track_caller]
pub fn examine(board: &Board, exercise: &Exercise) {
    match &exercise.task {
        Task::FindLayout(task) => sockets::find_layout(board, task),
        Task::WhichHeader(task) => sockets::which_header(board, task),
        Task::DrawPins(task) => sockets::draw_pins(board, task),
        Task::MoveJumpers(task) => wiring::move_jumpers(board, task),
        Task::SetSwitches(task) => wiring::set_switches(board, task),
        Task::Notice(task) => faults::notice(board, task),
        Task::WhatsWrong(task) => faults::whats_wrong(board, task),
    }
}

/// The question without its answer, so that two that are alike give the same text.
pub fn question(board: &Board, exercise: &Exercise) -> String {
    match &exercise.task {
        Task::FindLayout(task) => {
            let mut fitted: Vec<String> = task.fitted.iter().map(|it| format!("{it:?}")).collect();
            fitted.sort();
            format!("find {fitted:?}")
        }
        Task::WhichHeader(task) => format!("header {:?} {:?}", task.layout, task.device),
        Task::DrawPins(task) => {
            let header = &board[task.header];
            format!("pins {:?} {:?} {:?}", header.socket, header.key, task.speeds)
        }
        Task::MoveJumpers(task) => {
            format!("jumpers {:?} {:?} {:?}", task.supply, task.layout, task.plates)
        }
        Task::SetSwitches(task) => {
            format!("ways {:?} {:?} {:?}", task.supply, task.layout, task.breaker)
        }
        Task::Notice(task) => {
            let job = &task.case.job;
            format!("notice {:?} {:?} {:?}", job.supply.value, task.case.layout, task.mistake)
        }
        Task::WhatsWrong(task) => {
            let job = &task.case.job;
            format!("wrong {:?} {:?} {:?}", job.supply.value, task.case.layout, task.seen)
        }
    }
}

/// Whether no two are alike.
fn all_differ<T: PartialEq>(all: &[T]) -> bool {
    all.iter().enumerate().all(|(at, one)| !all[..at].contains(one))
}
