//! A folder of outputs while somebody writes into it.

use std::fs::{self, File, TryLockError};
use std::io;
use std::path::{Path, PathBuf};
use std::thread::sleep;
use std::time::Duration;

use super::folder::{Replaced, clear_left_over, replace};
use super::temporary::{TemporaryFiles, is_file_name, write_temporary};
use super::{OutFile, Placed, Unwritten, check_folder, is_same, unwritten};
use crate::build::find::shown;
use crate::mark::sum_of;

/// A folder of outputs that nobody else of this program writes into as long as this is there.
pub struct OutputRoot {
    path: PathBuf,
    /// The folder itself, locked; `None` where the system has no locks for folders.
    lock: Option<File>,
    /// The folders that were made for it, the deepest first.
    made: Vec<PathBuf>,
}

impl OutputRoot {
    /// Makes the folder if it is not there, and waits until nobody else writes into it. As long as there is
    /// somebody to wait for `waits` is asked now and then whether to go on.
    ///
    /// # Errors
    /// The folder cannot be made, or it was not waited for long enough.
    pub fn open(path: &Path, waits: &dyn Fn() -> bool) -> Result<Self, Unwritten> {
        let path = if path.as_os_str().is_empty() { Path::new(".") } else { path };
        let mut made = Vec::new();
        loop {
            let missing = path.ancestors().take_while(|it| !it.as_os_str().is_empty());
            let missing = missing.take_while(|it| it.symlink_metadata().is_err());
            made.extend(missing.map(Path::to_owned));
            fs::create_dir_all(path).map_err(|error| unwritten(path, &error))?;
            let lock = lock(path, waits)?;
            // Whoever had it before may have taken the folder away again.
            if lock.is_some() && !path.is_dir() {
                continue;
            }
            return Ok(Self { path: path.to_owned(), lock, made });
        }
    }

    /// The folder.
    pub fn path(&self) -> &Path {
        &self.path
    }

    /// Takes away what killed programs left here. Without a lock it may be that of a living one, and stays.
    pub fn clear_left_over(&self) {
        if self.lock.is_none() {
            return;
        }
        for name in hidden_names(&self.path) {
            if is_file_name(&name) {
                remove_file(&self.path.join(&name));
            } else {
                clear_left_over(&self.path, &name);
            }
        }
    }

    /// Puts `files` into the folder `name` of this one, which is made if it is not there, all in one step
    /// where the system can do that; where it cannot, each by itself. If one cannot be written, all stay as
    /// they were. Nothing is deleted.
    ///
    /// # Errors
    /// The first place that cannot be written to.
    pub fn place(&self, name: &str, files: &[OutFile]) -> Result<Placed, Unwritten> {
        let folder = self.path.join(name);
        let (mut placed, changed) = compare(&self.path, &folder, files)?;
        let whole = match changed.len() {
            0 => true,
            // One file is a set by itself.
            1 if folder.is_dir() => false,
            _ if self.lock.is_none() => false,
            _ => match replace(&self.path, name, &changed) {
                Ok(Replaced::Whole) => true,
                Ok(Replaced::NotHere) => false,
                Err((file, error)) => return Err(unwritten(&folder.join(&file.name), &error)),
            },
        };
        if !whole {
            self.one_by_one(&folder, &changed)?;
        }
        placed.stale = stale(&folder, files).map_err(|error| unwritten(&folder, &error))?;
        Ok(placed)
    }

    /// Puts `files` into this folder itself, one after another: all that changed are written beside their
    /// places first and then renamed. If one cannot be written, all stay as they were.
    ///
    /// # Errors
    /// The first place that cannot be written to.
    pub fn place_here(&self, files: &[OutFile]) -> Result<Placed, Unwritten> {
        let (mut placed, changed) = compare(&self.path, &self.path, files)?;
        self.one_by_one(&self.path, &changed)?;
        placed.stale = stale(&self.path, files).map_err(|error| unwritten(&self.path, &error))?;
        Ok(placed)
    }

    fn one_by_one(&self, folder: &Path, changed: &[&OutFile]) -> Result<(), Unwritten> {
        let mut temporary_files = TemporaryFiles(Vec::new());
        let mut cleared = Vec::new();
        for file in changed {
            let path = folder.join(&file.name);
            let (Some(inside), Some(name)) = (path.parent(), path.file_name()) else { continue };
            let told = |error| unwritten(&path, &error);
            fs::create_dir_all(inside).map_err(|error| unwritten(inside, &error))?;
            if self.lock.is_some() && !cleared.iter().any(|done| done == inside) {
                let hidden = hidden_names(inside).into_iter().filter(|name| is_file_name(name));
                hidden.for_each(|name| remove_file(&inside.join(name)));
                cleared.push(inside.to_owned());
            }
            let temporary = write_temporary(inside, &name.to_string_lossy(), &file.bytes);
            temporary_files.0.push(temporary.map_err(told)?);
        }
        for file in changed {
            let path = folder.join(&file.name);
            if let Some(temporary) = temporary_files.0.first() {
                fs::rename(temporary, &path).map_err(|error| unwritten(&path, &error))?;
                temporary_files.0.remove(0);
            }
        }
        Ok(())
    }
}

impl Drop for OutputRoot {
    fn drop(&mut self) {
        // What was made and nothing was put into goes again; a folder that holds anything stays.
        for folder in &self.made {
            if fs::remove_dir(folder).is_err() {
                break;
            }
        }
    }
}

/// How often a folder is tried that somebody else writes into.
const TRY_AGAIN: Duration = Duration::from_millis(20);

/// The folder itself, locked; `None` where the system has no locks for folders.
fn lock(path: &Path, waits: &dyn Fn() -> bool) -> Result<Option<File>, Unwritten> {
    let Ok(folder) = File::open(path) else { return Ok(None) };
    loop {
        match folder.try_lock() {
            Ok(()) => return Ok(Some(folder)),
            // Not by the system, which would not ask whether to go on.
            Err(TryLockError::WouldBlock) if waits() => sleep(TRY_AGAIN),
            Err(TryLockError::WouldBlock) => {
                let why = "another program writes into it".to_owned();
                return Err(Unwritten { path: shown(path), why });
            }
            Err(TryLockError::Error(_)) => return Ok(None),
        }
    }
}

/// What is to be written, and what is there already.
fn compare<'f>(
    root: &Path,
    folder: &Path,
    files: &'f [OutFile],
) -> Result<(Placed, Vec<&'f OutFile>), Unwritten> {
    let (mut placed, mut changed) = (Placed::default(), Vec::new());
    check_folder(root, folder)?;
    for file in files {
        let path = folder.join(&file.name);
        if file.name.contains('/') {
            path.parent().map_or(Ok(()), |inside| check_folder(root, inside))?;
        }
        placed.sums.push((file.name.clone(), sum_of(&file.bytes)));
        if is_same(&path, &file.bytes)? {
            placed.kept.push(shown(&path));
        } else {
            placed.written.push(shown(&path));
            changed.push(file);
        }
    }
    Ok((placed, changed))
}

/// Drawings in the folders of `files` that are none of these, by name.
fn stale(folder: &Path, files: &[OutFile]) -> io::Result<Vec<String>> {
    let paths: Vec<PathBuf> = files.iter().map(|file| folder.join(&file.name)).collect();
    let mut folders: Vec<&Path> = paths.iter().filter_map(|path| path.parent()).collect();
    folders.sort();
    folders.dedup();
    let mut found = Vec::new();
    for inside in folders {
        for entry in fs::read_dir(inside)? {
            let path = entry?.path();
            let drawing = path.extension().is_some_and(|ending| ending == "svg");
            if drawing && !paths.contains(&path) {
                found.push(shown(&path));
            }
        }
    }
    found.sort();
    Ok(found)
}

/// The names in a folder that begin with a dot.
fn hidden_names(folder: &Path) -> Vec<String> {
    let entries = fs::read_dir(folder).into_iter().flatten().flatten();
    let names = entries.filter_map(|entry| entry.file_name().into_string().ok());
    names.filter(|name| name.starts_with('.')).collect()
}

fn remove_file(path: &Path) {
    // A folder of such a name is not ours.
    if path.symlink_metadata().is_ok_and(|about| about.is_file()) {
        let _ = fs::remove_file(path);
    }
}

#[cfg(all(test, target_os = "linux"))]
mod tests {
    use std::collections::BTreeSet;

    use super::super::folder::Stage;
    use super::*;

    /// What each kind of killed program leaves, and what the next one makes of it.
    #[test]
    fn what_a_killed_program_left_is_taken_away() {
        let scratch = tempfile::tempdir().unwrap();
        let root = scratch.path();
        let ours =
            ["a", "b", "de/c"].map(|name| OutFile { name: name.into(), bytes: "new".into() });
        OutputRoot::open(root, &|| true).unwrap().place("board", &ours).unwrap();
        let board = root.join("board");
        // Killed before the exchange: its number is its own.
        let stage = Stage::new(root, "board").unwrap();
        fs::hard_link(board.join("a"), stage.path.join("a")).unwrap();
        fs::write(stage.path.join("half"), "").unwrap();
        std::mem::forget(stage);
        // Killed as it was made.
        fs::create_dir(root.join(".other.0.new")).unwrap();
        // Killed after the exchange, while the old folder was cleared away; somebody had just put a file there.
        let old = root.join(".board.1.new");
        fs::create_dir_all(old.join("de")).unwrap();
        fs::write(old.join("b"), "old").unwrap();
        fs::write(old.join("de/late"), "mine").unwrap();
        // Killed while a single file was written.
        fs::write(root.join(".manifest.json.77-0.new"), "{").unwrap();
        // None of these is of such a program.
        fs::write(root.join(".hidden"), "").unwrap();
        fs::write(root.join(".a.b.new"), "").unwrap();
        OutputRoot::open(root, &|| true).unwrap().clear_left_over();
        let names = |folder: &Path| {
            let names = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().file_name());
            names.map(|name| name.into_string().unwrap()).collect::<BTreeSet<_>>()
        };
        assert_eq!(names(root), [".a.b.new", ".hidden", "board"].map(str::to_owned).into());
        assert_eq!(names(&board), ["a", "b", "de"].map(str::to_owned).into());
        assert_eq!(names(&board.join("de")), ["c", "late"].map(str::to_owned).into());
        assert_eq!(fs::read_to_string(board.join("b")).unwrap(), "new");
    }
}
