//! The demo boards and jobs that stand in `specs`.

use std::path::Path;

use lidsheet::board::{Board, Job};
use lidsheet::build::check_bytes;
use lidsheet::compile::{Checked, Content};
use lidsheet::decide::Plan;

pub const BOARDS: [&str; 4] = ["heron-8", "wren-3", "curlew-10", "plover-40"];

/// A demo job with all that is decided for it.
pub struct Planned {
    pub name: String,
    pub board: Board,
    pub job: Job,
    pub plan: Plan,
}

fn checked(folder: &Path, name: &str) -> Checked {
    let file = format!("{name}.yaml");
    let bytes = std::fs::read(folder.join(&file)).unwrap_or_else(|why| panic!("{file}: {why}"));
    check_bytes(&file, bytes, folder)
}

/// A demo board.
pub fn board(name: &str) -> Board {
    let checked = checked(&Path::new(env!("CARGO_MANIFEST_DIR")).join("specs"), name);
    match checked.content {
        Content::Board(board) => *board,
        _ => panic!("{name}: {:?}", checked.problems.sorted()),
    }
}

/// A demo board with its words in the language of a tag.
pub fn board_in(name: &str, tag: &str) -> Board {
    let checked = checked(&Path::new(env!("CARGO_MANIFEST_DIR")).join("specs"), name);
    match checked.content_in(tag).into_owned() {
        Content::Board(board) => *board,
        _ => panic!("{name}: {:?}", checked.problems.sorted()),
    }
}

/// The demo board as it was in version 1 of the language: its number entered on a panel, its heater
/// allowance a count. Tests that work a board by hand take these.
pub fn version_1(name: &str) -> Board {
    let checked = checked(&Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/version-1"), name);
    match checked.content {
        Content::Board(board) => *board,
        _ => panic!("{name}: {:?}", checked.problems.sorted()),
    }
}

/// Every demo job, by name.
pub fn jobs() -> Vec<Planned> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("specs/jobs");
    let mut names: Vec<String> = std::fs::read_dir(&folder)
        .expect("the folder is there")
        .filter_map(|entry| {
            let path = entry.expect("it can be read").path();
            let yaml = path.extension().is_some_and(|ending| ending == "yaml");
            yaml.then(|| path.file_stem().expect("it has a name").to_string_lossy().into_owned())
        })
        .collect();
    names.sort();
    let all: Vec<Planned> = names
        .into_iter()
        .map(|name| {
            let checked = checked(&folder, &name);
            let Content::Job(Some(planned)) = checked.content else {
                panic!("{name}: {:?}", checked.problems.sorted())
            };
            Planned { name, board: planned.board, job: planned.job, plan: planned.plan }
        })
        .collect();
    assert!(!all.is_empty());
    all
}
