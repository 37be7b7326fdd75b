//! Files as they are read: of bearable size, and nothing but files.

use std::fs::{self, File};
use std::io::{self, Read};
use std::path::{Path, PathBuf};

use super::find::{reason, shown};
use crate::diagnostic::{Code, Problem};
use crate::spec;

/// Why a file cannot be read.
pub enum Unread {
    TooLarge(u64),
    Other(String),
}

impl Unread {
    /// The problem of a file that cannot be read.
    pub fn of(&self, shown: &str) -> Problem {
        match self {
            Unread::TooLarge(_) => Problem::of_file(Code::FileTooLarge, shown, self.words()),
            Unread::Other(why) => {
                let message = format!("this cannot be read: {why}");
                Problem::of_file(Code::FileUnread, shown, message)
            }
        }
    }

    /// Why, in a few words.
    pub fn words(&self) -> String {
        match self {
            Unread::TooLarge(size) => {
                format!("the file has {size} bytes; a specification has at most 1 MiB")
            }
            Unread::Other(why) => why.clone(),
        }
    }
}

impl From<io::Error> for Unread {
    fn from(error: io::Error) -> Self {
        Unread::Other(reason(&error))
    }
}

/// The bytes of a file of bearable size. Anything but a file is refused unopened: opening a pipe
/// could wait for ever.
pub fn read(path: &Path) -> Result<Vec<u8>, Unread> {
    let about = fs::metadata(path)?;
    if !about.is_file() {
        return Err(Unread::Other("it is not a file".to_owned()));
    }
    if about.len() > spec::LARGEST_FILE as u64 {
        return Err(Unread::TooLarge(about.len()));
    }
    let mut bytes = Vec::new();
    File::open(path)?.take(spec::LARGEST_FILE as u64 + 1).read_to_end(&mut bytes)?;
    Ok(bytes)
}

/// The text of a file of bearable size; `None` if it cannot be read as one.
pub fn text_of(path: &Path) -> Option<String> {
    String::from_utf8(read(path).ok()?).ok()
}

/// Gives the text of a file that somebody has open, by its path.
pub type OpenFiles<'a> = dyn Fn(&Path) -> Option<Vec<u8>> + 'a;

/// The bytes of a table that lies in or below `folder`, links followed; as it is open, if it is.
pub fn read_table(folder: &Path, table: &str, open: &OpenFiles<'_>) -> Result<Vec<u8>, String> {
    if let Some(bytes) = open(&folder.join(table)) {
        return Ok(bytes);
    }
    let path = inside(folder, table)?;
    read(&path).map_err(|unread| unread.words())
}

/// The bytes of a logo that lies in or below `folder`, links followed.
pub fn read_logo(folder: &Path, logo: &str) -> Result<Vec<u8>, String> {
    let path = inside(folder, logo)?;
    read(&path).map_err(|unread| match unread {
        Unread::TooLarge(size) => format!("the file has {size} bytes; a logo has at most 1 MiB"),
        Unread::Other(why) => why,
    })
}

/// The path of a file in or below `folder`, links followed.
fn inside(folder: &Path, file: &str) -> Result<PathBuf, String> {
    let path = folder.join(file);
    let home = fs::canonicalize(folder).map_err(|error| reason(&error))?;
    let real = fs::canonicalize(&path).map_err(|error| reason(&error))?;
    if !real.starts_with(&home) {
        return Err(format!("`{}` is a link that leaves the folder", shown(&path)));
    }
    Ok(path)
}
