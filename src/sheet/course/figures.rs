//! The drawings of a course.

use super::example::Example;
use crate::board::{BankId, Board, Effect};
use crate::decide::BankSetting;
use crate::decide::exercises::{Exercise, Task};
use crate::document::Paper;
use crate::figure;
use crate::geometry::Size;
use crate::scene::Item;
use crate::sheet::Figure;
use crate::sheet::facts::course::{blank_name, drawn_name, set_name};
use crate::text::Typesetter;
use crate::words::Words;

/// What the reading of the sheets is explained with: the board plan, the switch banks, how a list
/// of pins turns.
pub fn of_board(board: &Board, words: &Words, set: &mut Typesetter, paper: Paper) -> Vec<Figure> {
    let width = paper.area().width();
    let room = Size::new(width, paper.area().height() * 0.8);
    let mut all = Figure::board_plans(board, words, set, room);
    // The close-ups that its codes lead to are not in a handout: they are what is asked.
    all.iter_mut().for_each(|plan| drop_links(&mut plan.scene.items));
    if !board.banks.is_empty() {
        let scene = figure::switch_settings(board, &shipped(board), words, set, width);
        all.push(Figure::whole("switches-1", scene));
    }
    for (index, side) in figure::drawn_sides(board).into_iter().enumerate() {
        if let Some(scene) = figure::socket_turns(board, side, words, set, width) {
            all.push(Figure::whole(format!("turns-{}", index + 1), scene));
        }
    }
    all
}

/// Every bank as it is shipped.
fn shipped(board: &Board) -> Vec<BankSetting> {
    let banks = board.banks.iter().enumerate();
    banks
        .map(|(index, bank)| BankSetting {
            bank: BankId(index),
            positions: bank.shipped(),
            moved: Vec::new(),
        })
        .collect()
}

fn drop_links(items: &mut Vec<Item>) {
    items.retain(|item| !matches!(item, Item::Link { .. }));
    for item in items {
        match item {
            Item::Group { items, .. } | Item::Scaled { items, .. } | Item::Tagged { items, .. } => {
                drop_links(items);
            }
            Item::Shape { .. }
            | Item::Text { .. }
            | Item::Picture { .. }
            | Item::Anchor { .. }
            | Item::Link { .. } => {}
        }
    }
}

/// Empty sockets and banks without sliders, for drawings `width` mm wide.
pub fn to_fill_in(
    board: &Board,
    exercises: &[Exercise],
    words: &Words,
    set: &mut Typesetter,
    width: f64,
) -> Vec<Figure> {
    let mut all = Vec::new();
    for id in board.header_ids() {
        let asked = exercises
            .iter()
            .any(|exercise| matches!(&exercise.task, Task::DrawPins(task) if task.header == id));
        if asked {
            let scene = figure::blank_socket(board, id, words, set);
            all.push(Figure::whole(blank_name(id.0), scene));
        }
    }
    for (index, bank) in board.banks.iter().enumerate() {
        if bank.fields.iter().any(|field| field.effect == Some(Effect::HeaterAllowance)) {
            let scene = figure::blank_bank(bank, words, set, width);
            all.push(Figure::whole(format!("bank-{}", index + 1), scene));
        }
    }
    all
}

/// The sockets and banks of the answers.
pub fn filled_in(
    board: &Board,
    exercises: &[Exercise],
    words: &Words,
    set: &mut Typesetter,
    width: f64,
) -> Vec<Figure> {
    let mut all = Vec::new();
    for (number, exercise) in (1..).zip(exercises) {
        match &exercise.task {
            Task::DrawPins(task) => {
                let scene = figure::drawn_socket(board, task.header, &task.answer, words, set);
                all.push(Figure::whole(drawn_name(number), scene));
            }
            Task::SetSwitches(task) => {
                let scene = figure::switch_settings(board, &task.answer.banks, words, set, width);
                all.push(Figure::whole(set_name(number), scene));
            }
            _ => {}
        }
    }
    all
}

/// The same for the worked example, which counts as number 0.
pub fn of_example(
    board: &Board,
    example: Option<&Example>,
    words: &Words,
    set: &mut Typesetter,
    width: f64,
) -> Vec<Figure> {
    let mut all = Vec::new();
    let Some(example) = example else { return all };
    if let Some(pins) = &example.pins {
        let scene = figure::drawn_socket(board, pins.header, &pins.answer, words, set);
        all.push(Figure::whole(drawn_name(0), scene));
    }
    if let Some(switches) = &example.switches {
        let scene = figure::switch_settings(board, &switches.answer.banks, words, set, width);
        all.push(Figure::whole(set_name(0), scene));
    }
    all
}
