//! Files of an earlier revision, read with the program `git`. No shell is ever run.

use std::io::{self, Read};
use std::process::{Command, Stdio};

use crate::compile::{NamedFiles, Unread};
use crate::spec;

/// A file at a revision: `REV:path`, as git has it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Revision {
    revision: String,
    path: String,
}

impl Revision {
    /// Reads `REV:path`; `None` if it is nothing of the kind.
    pub fn parse(text: &str) -> Option<Self> {
        let (revision, path) = text.split_once(':')?;
        // What begins with a dash would be an option of git's.
        let sound = !revision.is_empty() && !revision.starts_with('-') && !path.is_empty();
        sound.then(|| Self { revision: revision.to_owned(), path: path.to_owned() })
    }

    /// The path in the checkout.
    pub fn path(&self) -> &str {
        &self.path
    }

    /// The bytes of the file.
    ///
    /// # Errors
    /// Why there are none: git is missing, this is no checkout, there is no such revision or file.
    pub fn read(&self) -> Result<Vec<u8>, String> {
        let mut command = Command::new("git");
        command
            .args(["cat-file", "blob"])
            .arg(format!("{}:{}", self.revision, self.path))
            .env("LC_ALL", "C")
            .stdin(Stdio::null())
            .stdout(Stdio::piped())
            .stderr(Stdio::piped());
        let mut child = command.spawn().map_err(|error| match error.kind() {
            io::ErrorKind::NotFound => {
                "the program `git` is needed for a revision and is not installed".to_owned()
            }
            _ => format!("the program `git` cannot be run: {error}"),
        })?;
        let limit = spec::LARGEST_FILE as u64;
        let mut bytes = Vec::new();
        let read = match child.stdout.take() {
            Some(out) => out.take(limit + 1).read_to_end(&mut bytes).map(|_| ()),
            None => Ok(()),
        };
        // With its pipe closed git ends, whatever it still had to write.
        let ended = child.wait_with_output();
        let (Ok(()), Ok(ended)) = (read, ended) else {
            return Err("the program `git` stopped half-way".to_owned());
        };
        if bytes.len() as u64 > limit {
            return Err("the file is larger than 1 MiB, the most of a specification".to_owned());
        }
        if !ended.status.success() {
            let words = String::from_utf8_lossy(&ended.stderr);
            let first = words.lines().next().unwrap_or("no reason is given");
            let first = first.strip_prefix("fatal: ").unwrap_or(first);
            return Err(format!("git says: {}", first.replace(char::is_control, "\u{fffd}")));
        }
        Ok(bytes)
    }

    /// The bytes of a table that lies in the file's folder or below it.
    ///
    /// # Errors
    /// As [`Revision::read`]; and if the path leaves the folder.
    pub fn read_beside(&self, table: &str) -> Result<Vec<u8>, String> {
        if table.starts_with('/') || table.split('/').any(|step| step == "..") {
            return Err("the table is not in or below the folder of the board".to_owned());
        }
        let path = match self.path.rsplit_once('/') {
            Some((folder, _)) => format!("{folder}/{table}"),
            None => table.to_owned(),
        };
        Self { revision: self.revision.clone(), path }.read()
    }
}

/// The files beside a board of a revision.
impl NamedFiles for Revision {
    fn board(&self, _: &str) -> Result<Vec<u8>, Unread> {
        Err(Unread::Other("a board names no other".to_owned()))
    }

    fn table(&self, _: Option<&str>, table: &str) -> Result<Vec<u8>, String> {
        self.read_beside(table)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_revision_is_told_from_a_path() {
        let of = |text| Revision::parse(text).map(|it| (it.revision, it.path));
        assert_eq!(of("HEAD~1:specs/a.yaml"), Some(("HEAD~1".into(), "specs/a.yaml".into())));
        assert_eq!(of("specs/a.yaml"), None);
        assert_eq!(of("--output=x:specs/a.yaml"), None);
        assert_eq!(of(":a.yaml"), None);
        assert_eq!(of("HEAD:"), None);
    }

    #[test]
    fn no_table_leaves_its_folder() {
        let board = Revision::parse("HEAD:specs/a.yaml").expect("a revision");
        for table in ["/etc/hosts", "../a.csv", "b/../../c.csv"] {
            assert!(board.read_beside(table).unwrap_err().contains("not in or below"), "{table}");
        }
    }
}
