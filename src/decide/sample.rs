//! Boards for the tests of this folder.

use crate::board::{Board, GroupId, HeaderId, SupplyId, check};
use crate::diagnostic::Problems;
use crate::source::Sources;
use crate::spec;

/// The worked example of the specification language.
pub const HERON: &str = include_str!("../../specs/heron-8.yaml");

/// The board of a specification without errors.
#[track_caller]
pub fn board(yaml: &str) -> Board {
    let (mut sources, mut problems) = (Sources::default(), Problems::default());
    let file = spec::admit("board.yaml", yaml.as_bytes().to_vec(), &mut sources, &mut problems);
    let mut load = |table: &str| Err(format!("no table {table} here"));
    let board = file
        .and_then(|file| spec::parse(file, &mut sources, &mut load, &mut problems))
        .and_then(|spec| check(&spec, &sources, &mut problems));
    board.unwrap_or_else(|_| panic!("{:#?}", problems.sorted()))
}

/// Heron 8 with other words in some places.
#[track_caller]
pub fn heron(changes: &[(&str, &str)]) -> Board {
    let mut yaml = HERON.to_owned();
    for (from, to) in changes {
        assert!(yaml.contains(from), "{from}");
        yaml = yaml.replacen(from, to, 1);
    }
    board(&yaml)
}

/// The supply of that name.
pub fn supply(board: &Board, name: &str) -> SupplyId {
    SupplyId(board.supplies.iter().position(|supply| supply.name == name).expect(name))
}

/// The group of that code.
pub fn group(board: &Board, code: &str) -> GroupId {
    GroupId(board.groups.iter().position(|group| group.code == code).expect(code))
}

/// The header of that code.
pub fn header(board: &Board, code: &str) -> HeaderId {
    HeaderId(board.headers.iter().position(|header| header.code == code).expect(code))
}
