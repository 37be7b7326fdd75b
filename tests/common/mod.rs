//! What several test programs share.

pub mod boards;

use lidsheet::diagnostic::{Problem, Problems};
use lidsheet::source::Sources;
use lidsheet::spec::{self, Spec};
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

/// Reads a specification that needs no table beside it; whatever is wrong with it comes along.
pub fn read(text: &str) -> (Option<Spec>, Vec<Problem>, Sources) {
    let mut sources = Sources::default();
    let mut problems = Problems::default();
    let file = sources.add("generated.yaml", text);
    let mut load = |path: &str| Err(format!("{path} is not there"));
    let spec = spec::parse(file, &mut sources, &mut load, &mut problems).ok();
    (spec, problems.sorted(), sources)
}

/// Each problem in one line, to be read in a failed test.
pub fn told(problems: &[Problem], sources: &Sources) -> String {
    let line = |problem: &Problem| {
        let place = problem.primary.as_ref().map_or((0, 0), |label| {
            sources.file(label.span.file).position(label.span.start)
        });
        let said = problem.primary.as_ref().map_or("", |label| sources.text(label.span));
        format!("{}:{} {} {} `{said}`", place.0, place.1, problem.code.text(), problem.message)
    };
    problems.iter().map(line).collect::<Vec<_>>().join("\n")
}
