//! Puts files where they belong: only what changed, whole or not at all, and those of a folder as one set.
//!
//! | file | holds |
//! | --- | --- |
//! | `root` | a folder of outputs while somebody writes into it: others wait, and what dead programs left goes |
//! | `folder` | a folder whose files are replaced all at once |
//! | `temporary` | files and folders that are not in their places yet |

mod folder;
mod root;
mod temporary;

use std::fs;
use std::io;
use std::path::Path;

use super::find::{reason, shown};
use crate::compile::OutFile;

pub use root::OutputRoot;
pub use temporary::{TemporaryFiles, write_temporary};

/// What became of some files.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Placed {
    /// Paths of those that were new or changed.
    pub written: Vec<String>,
    /// Paths of those that held the same bytes already and were not touched.
    pub kept: Vec<String>,
    /// Every file by its name in the folder, with the sum of its bytes.
    pub sums: Vec<(String, String)>,
    /// Paths of drawings in the folder that are none of these: an earlier build made them, or
    /// somebody else. They are not touched.
    pub stale: Vec<String>,
}

/// A place that cannot be written to.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Unwritten {
    /// The path.
    pub path: String,
    /// Why: small first letter, no full stop.
    pub why: String,
}

/// Why `path` cannot be written.
pub fn unwritten(path: &Path, error: &io::Error) -> Unwritten {
    let why = match error.kind() {
        io::ErrorKind::AlreadyExists => "something that is not a folder is in its place".to_owned(),
        io::ErrorKind::NotADirectory => "a part of its path is not a folder".to_owned(),
        _ => reason(error),
    };
    Unwritten { path: shown(path), why }
}

/// Puts `files` straight into a folder that the user names, one after another: what else is in it is not
/// ours. See [`OutputRoot::place_here`].
///
/// # Errors
/// The first place that cannot be written to.
pub fn place(folder: &Path, files: &[OutFile]) -> Result<Placed, Unwritten> {
    OutputRoot::open(folder, &|| true)?.place_here(files)
}

/// What is in a place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Held {
    Nothing,
    Folder,
    File,
}

/// What is in a place, which a link never is: what it leads to is not ours to replace.
fn held(path: &Path) -> Result<Held, Unwritten> {
    let about = match fs::symlink_metadata(path) {
        Ok(about) => about,
        Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(Held::Nothing),
        Err(error) => return Err(unwritten(path, &error)),
    };
    let wrong =
        |what: &str| Unwritten { path: shown(path), why: format!("{what} is in its place") };
    match about.file_type() {
        kind if kind.is_dir() => Ok(Held::Folder),
        kind if kind.is_file() => Ok(Held::File),
        kind if kind.is_symlink() => Err(wrong("a link")),
        _ => Err(wrong("something that is not a file")),
    }
}

/// Whether the place of a folder is free or has one; folders between `root` and it, too.
fn check_folder(root: &Path, folder: &Path) -> Result<(), Unwritten> {
    let inside = folder.strip_prefix(root).unwrap_or(folder);
    let mut path = root.to_owned();
    for part in inside.components() {
        path.push(part);
        if held(&path)? == Held::File {
            let why = "something that is not a folder is in its place".to_owned();
            return Err(Unwritten { path: shown(&path), why });
        }
    }
    Ok(())
}

/// Whether a file holds exactly `bytes`; false if there is none.
///
/// # Errors
/// If something else than a file is in its place: replacing it would delete what is not ours.
fn is_same(path: &Path, bytes: &[u8]) -> Result<bool, Unwritten> {
    match held(path)? {
        Held::Nothing => Ok(false),
        Held::Folder => {
            Err(Unwritten { path: shown(path), why: "a folder is in its place".to_owned() })
        }
        Held::File => {
            let told = |error| unwritten(path, &error);
            let length = fs::metadata(path).map_err(told)?.len();
            Ok(length == bytes.len() as u64 && fs::read(path).map_err(told)? == bytes)
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    pub fn file(name: &str, text: &str) -> OutFile {
        OutFile { name: name.into(), bytes: text.into() }
    }

    fn names(folder: &Path) -> Vec<String> {
        let mut all: Vec<_> = fs::read_dir(folder)
            .unwrap()
            .map(|entry| entry.unwrap().file_name().to_string_lossy().into_owned())
            .collect();
        all.sort();
        all
    }

    fn root(path: &Path) -> OutputRoot {
        OutputRoot::open(path, &|| true).unwrap()
    }

    #[test]
    fn only_what_changed_is_written() {
        let scratch = tempfile::tempdir().unwrap();
        let out = root(scratch.path());
        let folder = scratch.path().join("board");
        let first = out.place("board", &[file("a", "one"), file("b", "two")]).unwrap();
        assert_eq!((first.written.len(), first.kept.len()), (2, 0));
        let second = out.place("board", &[file("a", "one"), file("b", "TWO")]).unwrap();
        assert_eq!(second.written, [shown(&folder.join("b"))]);
        assert_eq!(second.kept, [shown(&folder.join("a"))]);
        assert_eq!(fs::read_to_string(folder.join("b")).unwrap(), "TWO");
        assert_eq!(names(&folder), ["a", "b"]);
        assert_eq!(names(scratch.path()), ["board"]);
    }

    #[test]
    fn a_drawing_that_nothing_makes_any_more_is_named_and_left() {
        let scratch = tempfile::tempdir().unwrap();
        let out = root(scratch.path());
        out.place("board", &[file("J1.svg", "one"), file("de/J2.svg", "two")]).unwrap();
        let placed = out.place("board", &[file("J1.svg", "one"), file("de/J3.svg", "")]).unwrap();
        assert_eq!(placed.stale, [shown(&scratch.path().join("board/de/J2.svg"))]);
        assert_eq!(names(&scratch.path().join("board/de")), ["J2.svg", "J3.svg"]);
    }

    #[test]
    fn a_place_that_is_taken_leaves_all_as_it_was() {
        let scratch = tempfile::tempdir().unwrap();
        let out = root(scratch.path());
        let folder = scratch.path().join("board");
        out.place("board", &[file("a", "old")]).unwrap();
        fs::create_dir(folder.join("b")).unwrap();
        let refused = out.place("board", &[file("a", "new"), file("b", "new")]).unwrap_err();
        assert_eq!(refused.why, "a folder is in its place");
        assert_eq!(fs::read_to_string(folder.join("a")).unwrap(), "old");
        assert_eq!(names(&folder), ["a", "b"]);
    }

    /// A file that cannot be written (its name is too long) takes back the one before, in a folder that is
    /// replaced and in one whose files are renamed.
    #[test]
    fn what_was_written_beside_is_taken_back() {
        let scratch = tempfile::tempdir().unwrap();
        let long = "x".repeat(300);
        let files = [file("a", "new"), file(&long, "new")];
        place(scratch.path(), &files).unwrap_err();
        root(scratch.path()).place("board", &files).unwrap_err();
        assert!(names(scratch.path()).is_empty());
    }

    #[test]
    fn a_file_where_a_folder_should_be_is_named() {
        let scratch = tempfile::tempdir().unwrap();
        fs::write(scratch.path().join("out"), "").unwrap();
        let refused = place(&scratch.path().join("out"), &[file("a", "")]).unwrap_err();
        assert_eq!(refused.why, "something that is not a folder is in its place");
        let refused = place(&scratch.path().join("out/board"), &[file("a", "")]).unwrap_err();
        assert!(refused.why.contains("not a folder"), "{}", refused.why);
        let refused = root(scratch.path()).place("out", &[file("a", "")]).unwrap_err();
        assert_eq!(refused.why, "something that is not a folder is in its place");
    }

    /// Nor is a linked folder written into: what it leads to is not ours.
    #[cfg(unix)]
    #[test]
    fn a_link_is_never_replaced_or_followed() {
        let scratch = tempfile::tempdir().unwrap();
        let (here, theirs) = (scratch.path().join("out"), scratch.path().join("theirs"));
        fs::create_dir_all(&here).unwrap();
        fs::create_dir(&theirs).unwrap();
        fs::write(theirs.join("file"), "theirs").unwrap();
        let link = |to: &Path, name: &str| std::os::unix::fs::symlink(to, here.join(name)).unwrap();
        link(&theirs.join("file"), "a");
        link(&theirs, "board");
        let out = root(&here);
        assert_eq!(out.place_here(&[file("a", "new")]).unwrap_err().why, "a link is in its place");
        let refused = out.place("board", &[file("a", "new"), file("b", "")]).unwrap_err();
        assert_eq!(refused.why, "a link is in its place");
        fs::create_dir(here.join("wren")).unwrap();
        link(&theirs, "wren/de");
        let refused = out.place("wren", &[file("de/a", "new"), file("b", "")]).unwrap_err();
        assert_eq!(refused.why, "a link is in its place");
        assert_eq!(names(&theirs), ["file"]);
        assert_eq!(fs::read_to_string(theirs.join("file")).unwrap(), "theirs");
    }

    #[test]
    fn a_folder_that_nothing_was_put_into_goes_again() {
        let scratch = tempfile::tempdir().unwrap();
        drop(root(&scratch.path().join("far/out")));
        assert!(names(scratch.path()).is_empty());
        place(&scratch.path().join("far/out"), &[file("a", "")]).unwrap();
        assert_eq!(names(&scratch.path().join("far/out")), ["a"]);
    }

    #[cfg(target_os = "linux")]
    #[test]
    fn others_wait_until_a_folder_is_free() {
        use std::sync::mpsc::channel;
        let scratch = tempfile::tempdir().unwrap();
        let first = root(scratch.path());
        let (waits, waited) = channel();
        std::thread::scope(|scope| {
            let second = scope.spawn(|| {
                let tell = || waits.send(()).is_ok();
                drop(OutputRoot::open(scratch.path(), &tell).unwrap());
                fs::read_dir(scratch.path()).unwrap().count()
            });
            waited.recv().unwrap();
            assert!(OutputRoot::open(scratch.path(), &|| false).is_err(), "it is not waited for");
            first.place("board", &[file("a", ""), file("b", "")]).unwrap();
            drop(first);
            assert_eq!(second.join().unwrap(), 1, "it came in only after that");
        });
    }
}
