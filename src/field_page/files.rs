//! The files of the page, found by the path that a job writes wherever its own file lies.

use std::collections::BTreeMap;

use lidsheet::compile::{NamedFiles, Unread};

/// Boards and their tables, by their paths from one folder.
#[derive(Debug, Default)]
pub struct PageFiles(pub BTreeMap<String, String>);

impl PageFiles {
    /// The file that a job means: the one of that name. Of several, the one whose folders agree best with the
    /// path.
    fn meant(&self, path: &str) -> Result<(&str, &str), String> {
        if let Some(exact) = self.0.get_key_value(path) {
            return Ok((exact.0, exact.1));
        }
        let agree = |name: &str| {
            parts(name).rev().zip(parts(path).rev()).take_while(|(a, b)| a == b).count()
        };
        let mut found: Vec<(usize, (&String, &String))> = self
            .0
            .iter()
            .map(|file| (agree(file.0), file))
            .filter(|(count, _)| *count > 0)
            .collect();
        found.sort_by_key(|(count, _)| std::cmp::Reverse(*count));
        match found.as_slice() {
            [] => Err("it is not on this page".to_owned()),
            [(best, _), (next, _), ..] if best == next => {
                Err("several boards of this page have this name".to_owned())
            }
            [(_, (name, text)), ..] => Ok((name, text)),
        }
    }
}

impl PageFiles {
    /// The same for a board itself, whose tables it names by their paths from it.
    pub fn beside<'a>(&'a self, board: &'a str) -> Beside<'a> {
        Beside { files: self, board }
    }
}

/// Files as a board of the page names them.
pub struct Beside<'a> {
    files: &'a PageFiles,
    board: &'a str,
}

impl NamedFiles for Beside<'_> {
    fn board(&self, path: &str) -> Result<Vec<u8>, Unread> {
        self.files.board(path)
    }

    fn table(&self, _: Option<&str>, table: &str) -> Result<Vec<u8>, String> {
        self.files.table(Some(self.board), table)
    }
}

/// The folders and the name of a path, without steps that lead nowhere or up.
fn parts(path: &str) -> impl DoubleEndedIterator<Item = &str> {
    path.split('/').filter(|part| !matches!(*part, "" | "." | ".."))
}

impl NamedFiles for PageFiles {
    fn board(&self, path: &str) -> Result<Vec<u8>, Unread> {
        self.meant(path).map(|(_, text)| text.as_bytes().to_owned()).map_err(Unread::Other)
    }

    fn table(&self, board: Option<&str>, table: &str) -> Result<Vec<u8>, String> {
        let folder = match board {
            Some(path) => self.meant(path)?.0.rsplit_once('/').map_or("", |(folder, _)| folder),
            None => "",
        };
        let wanted: Vec<&str> = parts(folder).chain(parts(table)).collect();
        let mut all = self.0.iter();
        let found = all.find(|(name, _)| parts(name).eq(wanted.iter().copied()));
        found
            .map(|(_, text)| text.as_bytes().to_owned())
            .ok_or_else(|| "it is not there".to_owned())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn files(names: &[&str]) -> PageFiles {
        PageFiles(names.iter().map(|name| ((*name).to_owned(), (*name).to_owned())).collect())
    }

    fn board(files: &PageFiles, path: &str) -> Result<String, String> {
        let found = files.board(path).map_err(|why| why.words());
        found.map(|bytes| String::from_utf8(bytes).unwrap())
    }

    #[test]
    fn a_board_is_found_wherever_the_job_lies() {
        let all = files(&["specs/heron.yaml", "specs/old/heron.yaml", "specs/wren.yaml"]);
        assert_eq!(board(&all, "../wren.yaml").unwrap(), "specs/wren.yaml");
        assert_eq!(board(&all, "wren.yaml").unwrap(), "specs/wren.yaml");
        assert_eq!(board(&all, "../../old/heron.yaml").unwrap(), "specs/old/heron.yaml");
        assert_eq!(board(&all, "../specs/heron.yaml").unwrap(), "specs/heron.yaml");
        assert!(board(&all, "heron.yaml").unwrap_err().contains("several"));
        assert!(board(&all, "curlew.yaml").unwrap_err().contains("not on this page"));
        assert!(board(&all, "").is_err());
    }

    #[test]
    fn a_table_lies_beside_its_board() {
        let all = files(&["a/b.yaml", "a/t.csv", "c/t.csv", "t.csv"]);
        let table = |board, table| all.table(board, table).map(|it| String::from_utf8(it).unwrap());
        assert_eq!(table(Some("../b.yaml"), "t.csv").unwrap(), "a/t.csv");
        assert_eq!(table(None, "t.csv").unwrap(), "t.csv");
        assert!(table(Some("../b.yaml"), "u.csv").is_err());
    }
}
