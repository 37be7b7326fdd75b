//! What several test programs share; none of them uses all of it.
#![allow(dead_code)]

pub mod boards;
pub mod demo;
pub mod jobs;
pub mod oracle;
pub mod plan;
pub mod spice;

use lidsheet::board::{self, Board};
use lidsheet::diagnostic::{Problem, Problems};
use lidsheet::source::Sources;
use lidsheet::spec;
use proptest::prelude::*;

use boards::Knobs;

/// A sound board of any size, as YAML text. Its sizes shrink; what fills them does not.
pub fn any_board() -> impl Strategy<Value = String> {
    (knobs(), any::<u64>()).prop_map(|(knobs, seed)| boards::board(&knobs, seed))
}

fn knobs() -> impl Strategy<Value = Knobs> {
    let supply = (1..=3_usize, 1..=4_usize, 1..=6_usize, 0..=2_usize, 0..=2_usize);
    let plugs = (0..=12_usize, 0..=24_usize, 1..=24_usize, 1..=9_usize, 1..=40_usize);
    let rest = (0..=3_usize, 0..=2_usize, any::<bool>(), any::<bool>());
    (supply, plugs, rest).prop_map(|(supply, plugs, rest)| {
        let (parts, supplies, groups, isolated, links) = supply;
        let (jumpers, fuses, headers, columns, layouts) = plugs;
        let (banks, panels, iec, awkward) = rest;
        Knobs {
            parts,
            supplies,
            groups,
            isolated,
            links,
            jumpers,
            fuses,
            headers,
            columns,
            layouts,
            banks,
            panels,
            iec,
            awkward,
        }
    })
}

/// A generated board read and checked; every problem found on the way comes along.
pub fn compile(text: &str) -> (Option<Board>, Vec<Problem>, Sources) {
    let mut sources = Sources::default();
    let mut problems = Problems::default();
    let file = sources.add("generated.yaml", text);
    let mut load = |path: &str| Err(format!("{path} is not there"));
    let board = spec::parse(file, &mut sources, &mut load, &mut problems)
        .and_then(|spec| board::check(&spec, &sources, &mut problems))
        .ok();
    (board, problems.sorted(), sources)
}

/// A generated board, which must be sound.
pub fn sound(text: &str) -> Board {
    let (board, problems, sources) = compile(text);
    board.unwrap_or_else(|| panic!("{}", told(&problems, &sources)))
}

/// A specification whose tables lie in `folder`; it must be sound.
pub fn sound_with_tables(text: &str, folder: &str) -> Board {
    let (mut sources, mut problems) = (Sources::default(), Problems::default());
    let file = sources.add("board.yaml", text);
    let mut load = |table: &str| {
        std::fs::read(std::path::Path::new(folder).join(table)).map_err(|e| e.to_string())
    };
    let board = spec::parse(file, &mut sources, &mut load, &mut problems)
        .and_then(|spec| board::check(&spec, &sources, &mut problems));
    board.unwrap_or_else(|_| panic!("{}", told(&problems.sorted(), &sources)))
}

/// Each problem in one line, to be read in a failed test.
pub fn told(problems: &[Problem], sources: &Sources) -> String {
    let line = |problem: &Problem| {
        let (code, message) = (problem.code.text(), &problem.message);
        match &problem.primary {
            None => format!("{code} {message}"),
            Some(label) => {
                let place = sources.file(label.span.file).position(label.span.start);
                format!("{}:{} {code} {message}: `{}`", place.0, place.1, sources.text(label.span))
            }
        }
    };
    problems.iter().map(line).collect::<Vec<_>>().join("\n")
}
