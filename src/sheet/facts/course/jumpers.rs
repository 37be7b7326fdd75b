//! Moving jumpers for the plates of what is fitted.

use serde::Serialize;

use super::code;
use crate::board::Board;
use crate::decide::exercises::{self, JumperAnswer, JumperSlip, JumperWhy};
use crate::words::Words;

#[derive(Clone, Serialize)]
pub struct MoveJumpers {
    supply: String,
    layout: String,
    plates: Vec<Plate>,
    jumpers: Vec<Jumper>,
}

#[derive(Clone, Serialize)]
struct Plate {
    header: String,
    title: String,
    device: String,
    volts: String,
}

#[derive(Clone, Serialize)]
struct Jumper {
    code: String,
    /// The groups that it may go to.
    groups: Vec<String>,
    group: String,
    moved: bool,
    shipped: String,
    /// What the group gives; `None` if nothing hangs on the jumper.
    volts: Option<String>,
    /// What hangs on it.
    plates: Vec<Plate>,
    /// Groups that suit as well, but leave no tab for another jumper.
    others: Vec<String>,
    line: String,
    group_line: String,
    traps: Vec<JumperTrap>,
}

#[derive(Clone, Serialize)]
struct JumperTrap {
    group: String,
    left: bool,
    /// What its devices get then; `None` for nothing.
    gives: Option<String>,
}

pub fn jumpers(words: &Words, board: &Board, task: &exercises::MoveJumpers) -> MoveJumpers {
    let plates: Vec<Plate> = task
        .plates
        .iter()
        .map(|plate| Plate {
            header: code(board, plate.header),
            title: board[plate.header].title.clone(),
            device: words.device_noun(plate.device),
            volts: words.whole_volts(plate.volts),
        })
        .collect();
    MoveJumpers {
        supply: board[task.supply].title.clone(),
        layout: task.layout.to_string(),
        jumpers: task.answer.iter().map(|answer| jumper(words, board, answer, &plates)).collect(),
        plates,
    }
}

fn jumper(words: &Words, board: &Board, answer: &JumperAnswer, plates: &[Plate]) -> Jumper {
    let jumper = &board[answer.jumper];
    let hanging = |on: &[usize]| -> Vec<Plate> {
        on.iter().filter_map(|index| plates.get(*index).cloned()).collect()
    };
    let (volts, hanging, others) = match &answer.because {
        JumperWhy::Unused => (None, Vec::new(), &[][..]),
        JumperWhy::Suits { volts, plates: on } => {
            (Some(words.whole_volts(*volts)), hanging(on), &[][..])
        }
        JumperWhy::LeavesTabs { volts, plates: on, others } => {
            (Some(words.whole_volts(*volts)), hanging(on), others.as_slice())
        }
    };
    Jumper {
        code: jumper.code.clone(),
        groups: jumper.groups.iter().map(|group| board[*group].code.clone()).collect(),
        group: board[answer.group].code.clone(),
        moved: answer.moved,
        shipped: board[jumper.shipped].code.clone(),
        volts,
        plates: hanging,
        others: others.iter().map(|group| board[*group].code.clone()).collect(),
        line: words.row_of_jumper(&jumper.code),
        group_line: words.row_of_group(&board[answer.group].code),
        traps: answer
            .traps
            .iter()
            .map(|trap| {
                let (left, gives) = match trap.mistake {
                    JumperSlip::LeftOnShipped { gives } => (true, gives),
                    JumperSlip::NextGroup { gives } => (false, gives),
                };
                let group = board[trap.answer].code.clone();
                JumperTrap { group, left, gives: gives.map(|volts| words.whole_volts(volts)) }
            })
            .collect(),
    }
}
