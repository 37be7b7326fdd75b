//! Every board in `specs/` is read and found sound.

use std::path::Path;

use lidsheet::board::{self, GroupId, SupplyId};
use lidsheet::diagnostic::Problems;
use lidsheet::source::Sources;
use lidsheet::spec;

fn compile(name: &str) -> (Option<board::Board>, Problems, Sources) {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("specs");
    let mut load = |path: &str| std::fs::read(folder.join(path)).map_err(|e| e.to_string());
    let (mut sources, mut problems) = (Sources::default(), Problems::default());
    let bytes = std::fs::read(folder.join(name)).expect("the example is there");
    let board = spec::admit(format!("specs/{name}"), bytes, &mut sources, &mut problems)
        .and_then(|file| spec::parse(file, &mut sources, &mut load, &mut problems))
        .and_then(|spec| board::check(&spec, &sources, &mut problems))
        .ok();
    (board, problems, sources)
}

#[test]
fn heron_8_is_sound() {
    let (board, problems, _) = compile("heron-8.yaml");
    let board = board.unwrap_or_else(|| panic!("{:#?}", problems.sorted()));
    assert_eq!((board.headers.len(), board.layouts.len(), board.jumpers.len()), (7, 12, 5));
    assert_eq!(board.banks[0].ways(), 8);
    let volts = |supply, group| {
        board.group_volts(SupplyId(supply), GroupId(group)).map(|volts| volts.0.round())
    };
    // 120/240 V split phase with and without neutral, and 120/208 V wye (ANSI C84.1 systems).
    assert_eq!([volts(0, 0), volts(0, 1)], [Some(240.0), Some(120.0)]);
    assert_eq!([volts(1, 0), volts(1, 1)], [Some(240.0), None]);
    assert_eq!([volts(2, 0), volts(2, 1)], [Some(208.0), Some(120.0)]);
}

#[test]
fn the_strap_of_wren_3_doubles_the_voltage() {
    let board = compile("wren-3.yaml").0.expect("it is sound");
    let volts = |supply, group| board.group_volts(SupplyId(supply), GroupId(group));
    let volts = |supply, group| volts(supply, group).map(|volts| volts.0.round());
    // Group A follows the strap: 120 V on the cord, 240 V on four wires. B stays, C is isolated.
    assert_eq!([volts(0, 0), volts(0, 1), volts(0, 2)], [Some(120.0), Some(120.0), Some(12.0)]);
    assert_eq!([volts(1, 0), volts(1, 1), volts(1, 2)], [Some(240.0), Some(120.0), Some(12.0)]);
}

#[test]
fn the_lines_of_curlew_10_all_give_230_volts() {
    let board = compile("curlew-10.yaml").0.expect("it is sound");
    for supply in 0..board.supplies.len() {
        for group in 0..3 {
            let volts = board.group_volts(SupplyId(supply), GroupId(group));
            assert_eq!(volts.map(|volts| volts.0.round()), Some(230.0), "{supply} {group}");
        }
    }
}

/// The only warning is one that every real matrix gives: layouts that differ in the circulation
/// pump alone.
#[test]
fn all_boards_are_sound() {
    for name in ["heron-8.yaml", "wren-3.yaml", "curlew-10.yaml"] {
        let (board, problems, _) = compile(name);
        assert!(board.is_some(), "{name}: {:#?}", problems.sorted());
        let codes: Vec<_> = problems.sorted().iter().map(|problem| problem.code.text()).collect();
        assert_eq!(codes, ["L309"], "{name}");
    }
}
