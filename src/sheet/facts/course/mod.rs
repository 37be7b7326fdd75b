//! A course for a template: its exercises with their answers, and what it is worked from.

mod example;
mod faults;
mod jumpers;
mod layout;
mod pins;
mod switches;

use std::collections::BTreeMap;

use minijinja::Value;
use minijinja::value::{Serde, merge_maps};
use serde::Serialize;

use super::{facts, layout_words, part_title};
use crate::board::{Board, Feed, HeaderId};
use crate::decide::exercises::{Exercise, Task};
use crate::decide::{ReadFrom, service};
use crate::geometry::Side;
use crate::sheet::course::example::Example;
use crate::words::Words;

pub use pins::{blank_name, drawn_name};
pub use switches::set_name;

/// What a course adds to the facts of its board.
#[derive(Serialize)]
struct Course {
    seed: u64,
    /// How many exercises there are.
    count: usize,
    exercises: Vec<ExerciseFacts>,
    /// Connector families with their lists of pins.
    families: Vec<Family>,
    /// Every header, with what an exercise asks of it.
    places: Vec<HeaderRow>,
    tabs: Vec<Tabs>,
}

/// One exercise. Of its kinds one is there.
#[derive(Clone, Serialize)]
pub struct ExerciseFacts {
    number: usize,
    level: u8,
    /// `layout`, `header`, `jumpers`, `switches`, `pins`, `notice` or `wrong`.
    kind: &'static str,
    layout: Option<layout::FindLayout>,
    header: Option<layout::WhichHeader>,
    jumpers: Option<jumpers::MoveJumpers>,
    switches: Option<switches::SetSwitches>,
    pins: Option<pins::DrawPins>,
    notice: Option<faults::Notice>,
    wrong: Option<faults::WhatsWrong>,
}

/// A connector family.
#[derive(Serialize)]
struct Family {
    title: String,
    /// `at the right`; `None` without a key.
    key: Option<String>,
    /// `top` or `left`.
    read_from: String,
    pins: Vec<String>,
    headers: Vec<String>,
}

/// A header in the table of the course.
#[derive(Serialize)]
struct HeaderRow {
    code: String,
    title: String,
    part: String,
    serves: Vec<Serves>,
    /// `None` if there is none.
    empty: Option<String>,
    jumper: Option<String>,
    group: Option<String>,
    socket: String,
    key: Option<String>,
}

#[derive(Serialize)]
struct Serves {
    device: String,
    layouts: Option<String>,
}

/// A jumper in the table of the course.
#[derive(Serialize)]
struct Tabs {
    jumper: String,
    headers: Vec<String>,
    groups: Vec<String>,
    shipped: String,
}

/// The facts of a course. `figures` are its own.
pub fn facts_of_course(
    words: &Words,
    board: &Board,
    (exercises, seed): (&[Exercise], u64),
    figures: &[(String, String)],
) -> Value {
    let course = Course {
        seed,
        count: exercises.len(),
        exercises: (1..).zip(exercises).map(|(n, e)| exercise(words, board, n, e)).collect(),
        families: families(words, board),
        places: board.header_ids().map(|id| header(words, board, id)).collect(),
        tabs: tabs(board),
    };
    let own = BTreeMap::from([("course", Value::from(Serde(course)))]);
    merge_maps([facts(words, board, figures), Value::from(own)])
}

/// Where an exercise is printed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum On {
    /// On a page.
    Page,
    /// On a card, which has less room.
    Card,
}

/// The facts of a course with one of its exercises as `ex`.
pub fn with_exercise(course: &Value, exercise: &ExerciseFacts, on: On) -> Value {
    let own = BTreeMap::from([
        ("ex", Value::from(Serde(exercise.clone()))),
        ("card", Value::from(on == On::Card)),
    ]);
    merge_maps([course.clone(), Value::from(own)])
}

/// The facts of a course with its worked example as `example`.
pub fn with_example(words: &Words, course: &Value, board: &Board, example: &Example) -> Value {
    let example = example::example(words, board, example);
    let own = BTreeMap::from([("example", Value::from(Serde(example)))]);
    merge_maps([course.clone(), Value::from(own)])
}

impl ExerciseFacts {
    /// Its number, from 1.
    pub fn number(&self) -> usize {
        self.number
    }
}

/// One exercise with its number.
pub fn exercise(words: &Words, board: &Board, number: usize, exercise: &Exercise) -> ExerciseFacts {
    let mut facts = ExerciseFacts {
        number,
        level: exercise.level,
        kind: "",
        layout: None,
        header: None,
        jumpers: None,
        switches: None,
        pins: None,
        notice: None,
        wrong: None,
    };
    match &exercise.task {
        Task::FindLayout(task) => {
            (facts.kind, facts.layout) = ("layout", Some(layout::find(words, board, task)));
        }
        Task::WhichHeader(task) => {
            (facts.kind, facts.header) = ("header", Some(layout::which(words, board, task)));
        }
        Task::MoveJumpers(task) => {
            (facts.kind, facts.jumpers) = ("jumpers", Some(jumpers::jumpers(words, board, task)));
        }
        Task::SetSwitches(task) => {
            (facts.kind, facts.switches) =
                ("switches", Some(switches::set(words, board, number, task)));
        }
        Task::DrawPins(task) => {
            (facts.kind, facts.pins) = ("pins", Some(pins::draw(words, board, number, task)));
        }
        Task::Notice(task) => {
            (facts.kind, facts.notice) = ("notice", Some(faults::notice(words, board, task)));
        }
        Task::WhatsWrong(task) => {
            (facts.kind, facts.wrong) = ("wrong", Some(faults::whats_wrong(words, board, task)));
        }
    }
    facts
}

fn families(words: &Words, board: &Board) -> Vec<Family> {
    let of = |socket: usize| {
        let used = board.headers.iter().filter(move |header| header.socket.0 == socket);
        used.map(|header| header.code.clone()).collect()
    };
    let families = board.sockets.iter().enumerate().map(|(index, socket)| Family {
        title: socket.title.clone(),
        key: socket.key_drawn.map(|side| words.key_side(side)),
        read_from: words.pins_read_from(listed_from(socket.key_drawn)),
        pins: socket.pins.iter().map(|pin| words.pin_name(*pin)).collect(),
        headers: of(index),
    });
    families.filter(|family: &Family| !family.headers.is_empty()).collect()
}

fn header(words: &Words, board: &Board, id: HeaderId) -> HeaderRow {
    let header = &board[id];
    let service = service(board, id);
    let mut serves: Vec<Serves> = Vec::new();
    for served in &service.served {
        let has_column = board.columns.contains(&served.device);
        serves.push(Serves {
            device: if has_column {
                words.served_with_speeds(served.device, served.speeds)
            } else {
                words.device_noun(served.device)
            },
            layouts: layout_words(words, &served.layouts),
        });
    }
    HeaderRow {
        code: header.code.clone(),
        title: header.title.clone(),
        part: part_title(words, &board[header.part]),
        serves,
        empty: service
            .empty
            .map(|set| layout_words(words, &set).unwrap_or_else(|| words.all_layouts())),
        jumper: match header.feed {
            Feed::Jumper(jumper) => Some(board[jumper].code.clone()),
            Feed::Group(_) => None,
        },
        group: match header.feed {
            Feed::Group(group) => Some(board[group].code.clone()),
            Feed::Jumper(_) => None,
        },
        socket: board[header.socket].title.clone(),
        key: header.key.map(|side| words.key_side(side)),
    }
}

fn tabs(board: &Board) -> Vec<Tabs> {
    let headers = |index: usize| {
        let fed = board.header_ids().filter(move |id| match board[*id].feed {
            Feed::Jumper(jumper) => jumper.0 == index,
            Feed::Group(_) => false,
        });
        fed.map(|id| board[id].code.clone()).collect()
    };
    let jumpers = board.jumpers.iter().enumerate();
    jumpers
        .map(|(index, jumper)| Tabs {
            jumper: jumper.code.clone(),
            headers: headers(index),
            groups: jumper.groups.iter().map(|group| board[*group].code.clone()).collect(),
            shipped: board[jumper.shipped].code.clone(),
        })
        .collect()
}

/// Where a list of pins is read from, with the key on the side that it is drawn on.
fn listed_from(key: Option<Side>) -> ReadFrom {
    match key {
        None | Some(Side::Right | Side::Left) => ReadFrom::Top,
        Some(Side::Up | Side::Down) => ReadFrom::Left,
    }
}

fn code(board: &Board, header: HeaderId) -> String {
    board[header].code.clone()
}
