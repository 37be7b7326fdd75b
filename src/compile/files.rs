//! The files that a specification or a job names, wherever they are kept.

use std::collections::BTreeMap;

use crate::diagnostic::{Code, Problem};

/// Gives the files that a specification or a job names, by their paths from it.
pub trait NamedFiles {
    /// The board that a job names.
    ///
    /// # Errors
    /// Why it cannot be read.
    fn board(&self, path: &str) -> Result<Vec<u8>, Unread>;

    /// A table that a board names. `board` is the path by which a job named the board; nothing where the
    /// board is what is read.
    ///
    /// # Errors
    /// Why it cannot be read, in a few words.
    fn table(&self, board: Option<&str>, table: &str) -> Result<Vec<u8>, String>;
}

/// Files in memory, by their paths from what names them.
#[derive(Clone, Debug, Default)]
pub struct InMemory(pub BTreeMap<String, Vec<u8>>);

impl InMemory {
    fn of(&self, path: &str) -> Result<Vec<u8>, String> {
        self.0.get(path).cloned().ok_or_else(|| "it is not there".to_owned())
    }
}

impl NamedFiles for InMemory {
    fn board(&self, path: &str) -> Result<Vec<u8>, Unread> {
        self.of(path).map_err(Unread::Other)
    }

    fn table(&self, board: Option<&str>, table: &str) -> Result<Vec<u8>, String> {
        match board.and_then(|path| path.rsplit_once('/')) {
            Some((folder, _)) => self.of(&format!("{folder}/{table}")),
            None => self.of(table),
        }
    }
}

/// Why a file cannot be read.
pub enum Unread {
    /// It has so many bytes.
    TooLarge(u64),
    /// Anything else: small first letter, no full stop.
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
