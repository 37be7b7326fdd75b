//! The PDFs that the program itself writes.

use std::path::{Path, PathBuf};
use std::process::Command;
use std::sync::OnceLock;

use assert_cmd::prelude::*;

/// The names of all papers.
pub const PAPERS: [&str; 3] = ["a4", "letter", "a5"];

/// A file with its name.
type Named = (String, Vec<u8>);

/// Every PDF of the demo on a paper of [`PAPERS`], with its name: sheets and forms of the boards,
/// what their jobs give, and the course of each board. Made once.
pub fn demo(paper: &str) -> &'static [Named] {
    static MADE: [OnceLock<Vec<Named>>; 3] = [const { OnceLock::new() }; 3];
    let index = PAPERS.iter().position(|own| *own == paper).expect("a known paper");
    MADE[index].get_or_init(|| make(paper))
}

fn make(paper: &str) -> Vec<Named> {
    let folder = tempfile::tempdir().expect("a folder");
    assert!(lidsheet(&["build", "specs", "--paper", paper], folder.path()), "{paper}");
    for board in ["heron-8", "wren-3", "curlew-10"] {
        let specification = format!("specs/{board}.yaml");
        let course = ["handout", &specification, "--exercises", "12", "--seed", "3", "--cards"];
        let made = lidsheet(&[&course[..], &["--paper", paper]].concat(), folder.path());
        assert!(made, "{board} on {paper}");
    }
    let mut paths = Vec::new();
    pdfs(folder.path(), &mut paths);
    // Sheets, finder, form and course of each board; card, insert and finder of each job.
    // The dense board is there for its sheets alone.
    assert_eq!(paths.len(), 3 * 6 + 3 + 11 * 3, "{paths:?}");
    let name = |path: &Path| path.strip_prefix(folder.path()).expect("in it").display().to_string();
    paths.iter().map(|path| (name(path), std::fs::read(path).expect("it is there"))).collect()
}

/// Runs the program; says whether it found nothing wrong.
fn lidsheet(arguments: &[&str], folder: &Path) -> bool {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut command = Command::cargo_bin("lidsheet").expect("the program");
    command.args(arguments).arg("--out").arg(folder).current_dir(root);
    command.output().expect("it runs").status.success()
}

/// The PDFs under a folder, in order.
fn pdfs(folder: &Path, to: &mut Vec<PathBuf>) {
    let entries = std::fs::read_dir(folder).expect("a folder");
    let mut entries: Vec<PathBuf> = entries.map(|entry| entry.expect("an entry").path()).collect();
    entries.sort();
    for entry in entries {
        if entry.is_dir() {
            pdfs(&entry, to);
        } else if entry.extension().is_some_and(|extension| extension == "pdf") {
            to.push(entry);
        }
    }
}
