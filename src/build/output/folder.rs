//! A folder whose files are replaced all at once.
//!
//! The new folder is made beside the old one under a hidden name: what changed is written, all else (what
//! others put there, too) is linked, so that nothing is copied and nothing can get lost. Then the two
//! change places in one step of the system, and the old one is cleared away. Whoever opens a file by its
//! path finds all as it was or all as it is now, whenever the program is killed.
//!
//! Where the system cannot do that (no hard links, no exchange), files are renamed one after another:
//! each is whole, but for a moment some are new and some old.

use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use super::OutFile;
use super::temporary::{folder_name, of_folder, write_new};

/// So many things in a folder are linked; of more, the files are renamed one after another.
const MOST_LINKS: usize = 10_000;

/// What became of an attempt to replace a folder.
pub enum Replaced {
    /// All files are in their places.
    Whole,
    /// This system or this folder does not allow it; nothing has changed.
    NotHere,
}

/// Puts `changed` into the folder `name` of `root` in one step; all else that is there stays.
///
/// # Errors
/// A file that cannot be written, by its name, and why. Then nothing has changed.
pub fn replace<'f>(
    root: &Path,
    name: &str,
    changed: &[&'f OutFile],
) -> Result<Replaced, (&'f OutFile, io::Error)> {
    let Ok(mut stage) = Stage::new(root, name) else { return Ok(Replaced::NotHere) };
    let folder = root.join(name);
    let is_there = folder.is_dir();
    if is_there {
        let mut left = MOST_LINKS;
        if mirror(&folder, &stage.path, Some(""), changed, &mut left).is_err() {
            return Ok(Replaced::NotHere);
        }
    }
    let mut written = Vec::new();
    for file in changed {
        let path = stage.path.join(&file.name);
        let made = path.parent().map_or(Ok(()), fs::create_dir_all);
        written.push(made.and_then(|()| write_new(&path, file)).map_err(|error| (*file, error))?);
    }
    // Only then, so that the disk can take them together.
    for (file, open) in changed.iter().zip(&written) {
        open.sync_all().map_err(|error| (*file, error))?;
    }
    if sync_folders(&stage.path).is_err() {
        return Ok(Replaced::NotHere);
    }
    let swapped = match is_there {
        true => exchange(&stage.path, &folder),
        false => fs::rename(&stage.path, &folder),
    };
    if swapped.is_err() {
        return Ok(Replaced::NotHere);
    }
    // What is under the hidden name now is the old folder, which is cleared by another rule.
    let old = std::mem::take(&mut stage.path);
    if is_there {
        clear(&old, &folder);
    }
    Ok(Replaced::Whole)
}

/// A folder under a hidden name that has only what was written for it and links to what is elsewhere; it
/// goes when this goes.
pub struct Stage {
    /// Its path; nothing once it is in its place.
    pub path: PathBuf,
}

impl Stage {
    /// An empty one. Its name has the number that the system knows it by: an old folder that was exchanged
    /// with it has another.
    ///
    /// # Errors
    /// The system does not make it, or has no such numbers.
    pub fn new(root: &Path, name: &str) -> io::Result<Self> {
        let path = root.join(folder_name(name, 0));
        fs::create_dir(&path)?;
        let mut stage = Self { path };
        let numbered = root.join(folder_name(name, number_of(&stage.path)?));
        fs::rename(&stage.path, &numbered)?;
        stage.path = numbered;
        Ok(stage)
    }
}

impl Drop for Stage {
    fn drop(&mut self) {
        if !self.path.as_os_str().is_empty() {
            // If it cannot go, the next build finds it by its name.
            let _ = fs::remove_dir_all(&self.path);
        }
    }
}

/// Links all that is in `from` into `to`, but for what will be written there. `inside` is what the names of
/// `changed` begin with there; `None` where none of them can be.
fn mirror(
    from: &Path,
    to: &Path,
    inside: Option<&str>,
    changed: &[&OutFile],
    left: &mut usize,
) -> io::Result<()> {
    fs::set_permissions(to, fs::metadata(from)?.permissions())?;
    for entry in fs::read_dir(from)? {
        let entry = entry?;
        *left = left.checked_sub(1).ok_or(io::ErrorKind::QuotaExceeded)?;
        let name = entry.file_name();
        let place = to.join(&name);
        // A name that is no text is not one of ours.
        let path = inside.zip(name.to_str()).map(|(inside, name)| format!("{inside}{name}"));
        if entry.file_type()?.is_dir() {
            fs::create_dir(&place)?;
            let inside = path.map(|path| path + "/");
            mirror(&entry.path(), &place, inside.as_deref(), changed, left)?;
        } else if !path.is_some_and(|path| changed.iter().any(|file| file.name == path)) {
            fs::hard_link(entry.path(), place)?;
        }
    }
    Ok(())
}

fn sync_folders(folder: &Path) -> io::Result<()> {
    for entry in fs::read_dir(folder)? {
        let entry = entry?;
        if entry.file_type()?.is_dir() {
            sync_folders(&entry.path())?;
        }
    }
    fs::File::open(folder)?.sync_all()
}

/// Takes away a folder that `new` was exchanged with: what has its name there, too, goes; what somebody put
/// there at the last moment goes where it was meant for. What cannot be done the next build does.
fn clear(old: &Path, new: &Path) {
    let Ok(entries) = fs::read_dir(old) else { return };
    for entry in entries.flatten() {
        let (here, there) = (entry.path(), new.join(entry.file_name()));
        let is_folder = |path: &Path| path.symlink_metadata().map(|about| about.is_dir());
        let _ = match (is_folder(&here), is_folder(&there)) {
            (Ok(true), Ok(true)) => {
                clear(&here, &there);
                Ok(())
            }
            (Ok(false), Ok(false)) => fs::remove_file(&here),
            (Ok(_), Err(_)) => fs::rename(&here, &there),
            _ => Ok(()),
        };
    }
    let _ = fs::remove_dir(old);
}

/// Takes away a hidden folder that a program left that was killed, if it is one of ours.
pub fn clear_left_over(root: &Path, hidden: &str) {
    let Some((name, number)) = of_folder(hidden) else { return };
    let (path, folder) = (root.join(hidden), root.join(name));
    let Ok(about) = path.symlink_metadata() else { return };
    if !about.is_dir() {
        return;
    }
    match number_of(&path) {
        // It never got to its place: it has nothing that is not elsewhere, too.
        Ok(own) if number == own || number == 0 => drop(fs::remove_dir_all(&path)),
        Ok(_) if folder.is_dir() => clear(&path, &folder),
        // The folder that took its place is gone: whatever it held is here alone.
        Ok(_) if folder.symlink_metadata().is_err() => drop(fs::rename(&path, &folder)),
        _ => {}
    }
}

/// The number that the file system knows a folder by. It is never nought.
#[cfg(unix)]
fn number_of(folder: &Path) -> io::Result<u64> {
    use std::os::unix::fs::MetadataExt;
    Ok(fs::symlink_metadata(folder)?.ino())
}

#[cfg(not(unix))]
fn number_of(_: &Path) -> io::Result<u64> {
    Err(io::ErrorKind::Unsupported.into())
}

/// Lets two folders change places in one step.
#[cfg(any(target_os = "linux", target_os = "android", target_vendor = "apple"))]
fn exchange(a: &Path, b: &Path) -> io::Result<()> {
    use rustix::fs::{CWD, RenameFlags, renameat_with};
    Ok(renameat_with(CWD, a, CWD, b, RenameFlags::EXCHANGE)?)
}

#[cfg(not(any(target_os = "linux", target_os = "android", target_vendor = "apple")))]
fn exchange(_: &Path, _: &Path) -> io::Result<()> {
    Err(io::ErrorKind::Unsupported.into())
}

#[cfg(all(test, target_os = "linux"))]
mod tests {
    use std::os::unix::fs::{MetadataExt, symlink};
    use std::sync::atomic::{AtomicBool, Ordering};

    use rustix::fs::{Mode, OFlags, openat};

    use super::*;

    fn files(text: &str) -> Vec<OutFile> {
        let names = ["a", "b", "de/c"];
        names.map(|name| OutFile { name: name.into(), bytes: text.into() }).to_vec()
    }

    fn replaced(root: &Path, all: &[OutFile]) {
        let changed: Vec<&OutFile> = all.iter().collect();
        assert!(matches!(replace(root, "board", &changed), Ok(Replaced::Whole)));
    }

    /// The names in a folder and below.
    fn names(folder: &Path) -> Vec<String> {
        let mut all = Vec::new();
        for entry in fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            all.push(path.to_string_lossy().into_owned());
            if path.is_dir() && !path.is_symlink() {
                all.extend(names(&path));
            }
        }
        all.sort();
        all
    }

    #[test]
    fn what_others_put_there_is_still_there() {
        let scratch = tempfile::tempdir().unwrap();
        let board = scratch.path().join("board");
        replaced(scratch.path(), &files("old"));
        fs::write(board.join("notes.txt"), "mine").unwrap();
        fs::create_dir_all(board.join("mine/deep")).unwrap();
        fs::write(board.join("mine/deep/a"), "mine").unwrap();
        fs::write(board.join("de/mine"), "mine").unwrap();
        symlink("/nowhere", board.join("link")).unwrap();
        let before = names(scratch.path());
        let inode = |name: &str| board.join(name).symlink_metadata().unwrap().ino();
        let mine = ["notes.txt", "mine/deep/a", "de/mine", "link"];
        let inodes = mine.map(inode);
        replaced(scratch.path(), &files("new"));
        assert_eq!(names(scratch.path()), before, "and nothing is left over");
        assert_eq!(mine.map(inode), inodes, "they are the same files");
        for name in ["a", "b", "de/c"] {
            assert_eq!(fs::read_to_string(board.join(name)).unwrap(), "new");
        }
    }

    /// Somebody who has opened the folder reads files of one revision, or finds that they are gone and opens it
    /// again: never some of each.
    #[test]
    fn who_reads_finds_all_old_or_all_new() {
        let scratch = tempfile::tempdir().unwrap();
        replaced(scratch.path(), &files("0"));
        let (done, board) = (AtomicBool::new(false), scratch.path().join("board"));
        let read = |folder: &rustix::fd::OwnedFd, name: &str| {
            let file = openat(folder, name, OFlags::RDONLY, Mode::empty()).ok()?;
            io::read_to_string(fs::File::from(file)).ok()
        };
        std::thread::scope(|scope| {
            let reader = scope.spawn(|| {
                let mut whole = 0;
                while !done.load(Ordering::Relaxed) {
                    let folder =
                        openat(rustix::fs::CWD, &board, OFlags::DIRECTORY, Mode::empty()).unwrap();
                    let all = ["a", "b", "de/c"].map(|name| read(&folder, name));
                    if let [Some(a), Some(b), Some(c)] = all {
                        assert!(a == b && b == c, "{a}, {b}, {c}");
                        whole += 1;
                    }
                }
                whole
            });
            for round in 1..100 {
                replaced(scratch.path(), &files(&round.to_string()));
            }
            done.store(true, Ordering::Relaxed);
            assert!(reader.join().unwrap() > 10);
        });
    }
}
