//! Files as they are read: of bearable size, and nothing but files.

use std::fs::{self, File};
use std::io::{self, Read};
use std::path::{Path, PathBuf};

use super::find::{Input, reason, shown};
use crate::compile::{self, Checked, NamedFiles, Unread};
use crate::spec;

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

/// The files in and below a folder, as somebody has them open, or else as they are on disk.
pub struct FilesOf<'a> {
    /// The folder of the file that names them.
    pub folder: &'a Path,
    /// Those that somebody has open.
    pub open: &'a OpenFiles<'a>,
}

impl NamedFiles for FilesOf<'_> {
    fn board(&self, path: &str) -> Result<Vec<u8>, Unread> {
        let path = self.folder.join(path);
        (self.open)(&path).map_or_else(|| read(&path), Ok)
    }

    /// A table lies in or below the folder of its board, links followed.
    fn table(&self, board: Option<&str>, table: &str) -> Result<Vec<u8>, String> {
        let board = board.map(|path| self.folder.join(path));
        let folder = board.as_deref().and_then(Path::parent).unwrap_or(self.folder);
        if let Some(bytes) = (self.open)(&folder.join(table)) {
            return Ok(bytes);
        }
        let path = inside(folder, table)?;
        read(&path).map_err(|unread| unread.words())
    }
}

/// Reads and checks the file of `input`.
pub fn check_file(input: &Input) -> Checked {
    match read(&input.path) {
        Ok(bytes) => {
            let folder = input.path.parent().filter(|parent| !parent.as_os_str().is_empty());
            check_bytes(&input.shown, bytes, folder.unwrap_or(Path::new(".")))
        }
        Err(refused) => {
            let mut checked = Checked::new(&input.shown);
            checked.refuse(refused.of(&input.shown));
            checked
        }
    }
}

/// Checks a text that people are shown as `shown`; the files that it names lie in or below
/// `folder`, the board of a job anywhere.
pub fn check_bytes(shown: &str, bytes: Vec<u8>, folder: &Path) -> Checked {
    check_open(shown, bytes, folder, &|_| None)
}

/// The same, with texts that somebody has open in place of those on disk.
pub fn check_open(shown: &str, bytes: Vec<u8>, folder: &Path, open: &OpenFiles<'_>) -> Checked {
    compile::check(shown, bytes, &FilesOf { folder, open })
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
