//! Puts files where they belong: only what changed, whole or not at all.

use std::fs;
use std::io::{self, Write};
use std::path::{Path, PathBuf};

use super::find::{reason, shown};
use crate::mark::sum_of;

/// A file to be.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OutFile {
    /// Its name in its folder.
    pub name: String,
    /// What it holds.
    pub bytes: Vec<u8>,
}

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

/// Puts `files` into `folder`, which is made if it is not there.
///
/// All that changed are written beside their places first and then renamed, so a reader never
/// sees half a file, and if one cannot be written, all stay as they were. Nothing is deleted.
///
/// # Errors
/// The first place that cannot be written to.
pub fn place(folder: &Path, files: &[OutFile]) -> Result<Placed, Unwritten> {
    make_folder(folder)?;
    let mut placed = Placed::default();
    let mut changed = Vec::new();
    for file in files {
        let path = folder.join(&file.name);
        placed.sums.push((file.name.clone(), sum_of(&file.bytes)));
        if is_same(&path, &file.bytes)? {
            placed.kept.push(shown(&path));
        } else {
            changed.push((file, path));
        }
    }
    let mut temporary_files = TemporaryFiles(Vec::new());
    for (file, path) in &changed {
        let temporary = write_temporary(folder, file).map_err(|error| unwritten(path, &error))?;
        temporary_files.0.push(temporary);
    }
    for (_, path) in changed {
        if let Some(temporary) = temporary_files.0.first() {
            fs::rename(temporary, &path).map_err(|error| unwritten(&path, &error))?;
            temporary_files.0.remove(0);
        }
        placed.written.push(shown(&path));
    }
    placed.stale = stale(folder, files).map_err(|error| unwritten(folder, &error))?;
    Ok(placed)
}

/// Drawings in `folder` that are none of `files`, by name.
fn stale(folder: &Path, files: &[OutFile]) -> io::Result<Vec<String>> {
    let mut found = Vec::new();
    for entry in fs::read_dir(folder)? {
        let path = entry?.path();
        let drawing = path.extension().is_some_and(|ending| ending == "svg");
        let ours =
            files.iter().any(|file| path.file_name().is_some_and(|name| *name == *file.name));
        if drawing && !ours {
            found.push(shown(&path));
        }
    }
    found.sort();
    Ok(found)
}

/// Temporary files that are not renamed yet; they go when this goes.
pub struct TemporaryFiles(pub Vec<PathBuf>);

impl Drop for TemporaryFiles {
    fn drop(&mut self) {
        for path in &self.0 {
            // If even this fails, nothing better can be done; the name says what it is.
            let _ = fs::remove_file(path);
        }
    }
}

/// Why `path` cannot be written.
pub fn unwritten(path: &Path, error: &io::Error) -> Unwritten {
    Unwritten { path: shown(path), why: reason(error) }
}

fn make_folder(folder: &Path) -> Result<(), Unwritten> {
    fs::create_dir_all(folder).map_err(|error| {
        let why = match error.kind() {
            io::ErrorKind::AlreadyExists => {
                "something that is not a folder is in its place".to_owned()
            }
            io::ErrorKind::NotADirectory => "a part of its path is not a folder".to_owned(),
            _ => reason(&error),
        };
        Unwritten { path: shown(folder), why }
    })
}

/// Whether a file holds exactly `bytes`; false if there is none.
///
/// # Errors
/// If something else than a file is in its place: replacing it would delete what is not ours.
fn is_same(path: &Path, bytes: &[u8]) -> Result<bool, Unwritten> {
    let about = match fs::symlink_metadata(path) {
        Ok(about) => about,
        Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(false),
        Err(error) => return Err(unwritten(path, &error)),
    };
    if !about.is_file() {
        let what = if about.is_dir() {
            "a folder"
        } else if about.is_symlink() {
            "a link"
        } else {
            "something that is not a file"
        };
        return Err(Unwritten { path: shown(path), why: format!("{what} is in its place") });
    }
    if about.len() != bytes.len() as u64 {
        return Ok(false);
    }
    fs::read(path).map(|held| held == bytes).map_err(|error| unwritten(path, &error))
}

/// Writes a file under a temporary name in the folder that it is for, so that renaming it stays
/// within one file system.
pub fn write_temporary(folder: &Path, file: &OutFile) -> io::Result<PathBuf> {
    let process = std::process::id();
    let mut attempt = 0;
    loop {
        let path = folder.join(format!(".{}.{process}-{attempt}.new", file.name));
        match fs::File::options().write(true).create_new(true).open(&path) {
            Ok(mut open) => {
                if let Err(error) = open.write_all(&file.bytes) {
                    drop(TemporaryFiles(vec![path]));
                    return Err(error);
                }
                return Ok(path);
            }
            Err(error) if error.kind() == io::ErrorKind::AlreadyExists && attempt < 99 => {
                attempt += 1;
            }
            Err(error) => return Err(error),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn file(name: &str, text: &str) -> OutFile {
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

    #[test]
    fn only_what_changed_is_written() {
        let scratch = tempfile::tempdir().unwrap();
        let out = scratch.path().join("out/board");
        let first = place(&out, &[file("a", "one"), file("b", "two")]).unwrap();
        assert_eq!((first.written.len(), first.kept.len()), (2, 0));
        let second = place(&out, &[file("a", "one"), file("b", "TWO")]).unwrap();
        assert_eq!(second.written, [shown(&out.join("b"))]);
        assert_eq!(second.kept, [shown(&out.join("a"))]);
        assert_eq!(fs::read_to_string(out.join("b")).unwrap(), "TWO");
        assert_eq!(names(&out), ["a", "b"]);
    }

    #[test]
    fn a_drawing_that_nothing_makes_any_more_is_named_and_left() {
        let scratch = tempfile::tempdir().unwrap();
        place(scratch.path(), &[file("J1.svg", "one"), file("J2.svg", "two")]).unwrap();
        let placed = place(scratch.path(), &[file("J1.svg", "one")]).unwrap();
        assert_eq!(placed.stale, [shown(&scratch.path().join("J2.svg"))]);
        assert_eq!(names(scratch.path()), ["J1.svg", "J2.svg"]);
    }

    #[test]
    fn a_place_that_is_taken_leaves_all_as_it_was() {
        let scratch = tempfile::tempdir().unwrap();
        let out = scratch.path().join("out");
        place(&out, &[file("a", "old")]).unwrap();
        fs::create_dir(out.join("b")).unwrap();
        let refused = place(&out, &[file("a", "new"), file("b", "new")]).unwrap_err();
        assert_eq!(refused.why, "a folder is in its place");
        assert_eq!(fs::read_to_string(out.join("a")).unwrap(), "old");
        assert_eq!(names(&out), ["a", "b"]);
    }

    /// A file that cannot be written (its temporary name is too long) takes back the one before.
    #[test]
    fn what_was_written_beside_is_taken_back() {
        let scratch = tempfile::tempdir().unwrap();
        let long = "x".repeat(250);
        place(scratch.path(), &[file("a", "new"), file(&long, "new")]).unwrap_err();
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
    }

    #[cfg(unix)]
    #[test]
    fn a_link_is_never_replaced() {
        let scratch = tempfile::tempdir().unwrap();
        fs::write(scratch.path().join("theirs"), "theirs").unwrap();
        std::os::unix::fs::symlink(scratch.path().join("theirs"), scratch.path().join("a"))
            .unwrap();
        let refused = place(scratch.path(), &[file("a", "new")]).unwrap_err();
        assert_eq!(refused.why, "a link is in its place");
        assert_eq!(fs::read_to_string(scratch.path().join("theirs")).unwrap(), "theirs");
    }
}
