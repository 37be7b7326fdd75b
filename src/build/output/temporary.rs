//! Files and folders that are not in their places yet. Each has a hidden name that says what it is, so that
//! what a program left that was killed is known for what it is.

use std::fs;
use std::io::{self, Write};
use std::path::{Path, PathBuf};

use super::OutFile;

/// What the names of all of them end in. They begin with a dot.
const ENDING: &str = ".new";

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

/// Writes a file under a temporary name in the folder that it is for, so that renaming it stays
/// within one file system. What it holds is on the disk before it gets its name.
pub fn write_temporary(folder: &Path, name: &str, bytes: &[u8]) -> io::Result<PathBuf> {
    let process = std::process::id();
    let mut attempt = 0;
    loop {
        let path = folder.join(format!(".{name}.{process}-{attempt}{ENDING}"));
        match fs::File::options().write(true).create_new(true).open(&path) {
            Ok(open) => {
                let mut unfinished = TemporaryFiles(vec![path.clone()]);
                fill(open, bytes)?;
                unfinished.0.clear();
                return Ok(path);
            }
            Err(error) if error.kind() == io::ErrorKind::AlreadyExists && attempt < 99 => {
                attempt += 1;
            }
            Err(error) => return Err(error),
        }
    }
}

/// Writes a new file in a folder that is not in its place yet. It is still to be synced.
pub fn write_new(path: &Path, file: &OutFile) -> io::Result<fs::File> {
    let mut open = fs::File::options().write(true).create_new(true).open(path)?;
    open.write_all(&file.bytes)?;
    Ok(open)
}

fn fill(mut open: fs::File, bytes: &[u8]) -> io::Result<()> {
    open.write_all(bytes)?;
    // A name that survives a power cut must not lead to a file that does not.
    open.sync_all()
}

/// The hidden name of a folder that is to be `name`. `number` tells it from the folder that it is exchanged
/// with.
pub fn folder_name(name: &str, number: u64) -> String {
    format!(".{name}.{number}{ENDING}")
}

/// The name of the folder that a hidden one is to be, and its number; `None` if it is none of these.
pub fn of_folder(hidden: &str) -> Option<(&str, u64)> {
    let (name, number) = parts(hidden)?;
    Some((name, number.parse().ok()?))
}

/// Whether a file is a temporary one, by its name.
pub fn is_file_name(hidden: &str) -> bool {
    let digits = |text: &str| !text.is_empty() && text.bytes().all(|b| b.is_ascii_digit());
    let number = parts(hidden).and_then(|(_, number)| number.split_once('-'));
    number.is_some_and(|(process, attempt)| digits(process) && digits(attempt))
}

/// `.NAME.NUMBER.new` in its parts.
fn parts(hidden: &str) -> Option<(&str, &str)> {
    hidden.strip_prefix('.')?.strip_suffix(ENDING)?.rsplit_once('.')
}
