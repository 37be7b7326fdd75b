//! The files that an editor has open, over those on disk.

use std::collections::BTreeMap;
use std::path::{Component, Path, PathBuf};

use super::document::{Document, What};
use super::names::{Name, Names, Occurrence, names_of, occurrences, table_occurrences};
use crate::build;
use crate::compile::Checked;
use crate::diagnostic::Problems;
use crate::spec::language::Kind;
use crate::spec::language::job::JOB;

/// The most files that are looked at for jobs of a board.
const MOST_FILES: usize = 2_000;

/// Open files and folders.
#[derive(Clone, Debug, Default)]
pub struct Workspace {
    /// The texts of open files by their absolute paths.
    open: BTreeMap<PathBuf, String>,
    /// The folders that the editor shows.
    roots: Vec<PathBuf>,
}

impl Workspace {
    /// A workspace of folders.
    pub fn new(roots: Vec<PathBuf>) -> Self {
        Self { open: BTreeMap::new(), roots }
    }

    /// Takes the text of an open file in place of what is on disk.
    pub fn set(&mut self, path: &Path, text: String) {
        self.open.insert(plain(path), text);
    }

    /// Forgets an open file: what is on disk counts again.
    pub fn close(&mut self, path: &Path) {
        self.open.remove(&plain(path));
    }

    /// The open files.
    pub fn open(&self) -> impl Iterator<Item = &Path> {
        self.open.keys().map(PathBuf::as_path)
    }

    /// The text of a file: as it is open, or else as it is on disk.
    pub fn text(&self, path: &Path) -> Option<String> {
        let path = plain(path);
        if let Some(text) = self.open.get(&path) {
            return Some(text.clone());
        }
        build::text_of(&path)
    }

    /// Reads and checks a file with all that it names.
    pub fn check(&self, path: &Path) -> Option<Checked> {
        let path = plain(path);
        let text = self.text(&path)?;
        let folder = path.parent().unwrap_or(Path::new("/")).to_owned();
        let open = |path: &Path| self.open.get(&plain(path)).map(|text| text.clone().into_bytes());
        Some(build::check_open(&path.to_string_lossy(), text.into(), &folder, &open))
    }

    /// The board that a file is about: itself, or that of a job.
    pub fn board_of(&self, path: &Path) -> Option<PathBuf> {
        let text = self.text(path)?;
        let document = Document::read(&text);
        if !is_job(&document) {
            return Some(plain(path));
        }
        let written = document.marks.iter().find_map(|mark| match mark.what {
            What::Value(Kind::Path) => Some(mark.text.clone()),
            _ => None,
        })?;
        Some(plain(&path.parent()?.join(written)))
    }

    /// The names of the board that a file is about.
    pub fn names(&self, path: &Path) -> Names {
        let board = self.board_of(path).and_then(|board| self.text(&board));
        board.map(|text| names_of(&Document::read(&text))).unwrap_or_default()
    }

    /// Where a name of a board stands: in the board, in its tables, in its jobs; files in the order of
    /// their paths, the board first.
    pub fn everywhere(
        &self,
        board: &Path,
        names: &Names,
        name: &Name,
    ) -> Vec<(PathBuf, Vec<Occurrence>)> {
        let mut all = Vec::new();
        let Some(text) = self.text(board) else { return all };
        let document = Document::read(&text);
        let mut add = |path: PathBuf, found: Vec<Occurrence>| {
            if !found.is_empty() {
                all.push((path, found));
            }
        };
        add(plain(board), occurrences(&document, names, name));
        for mark in &document.marks {
            let What::Value(Kind::Table) = mark.what else { continue };
            let Some(table) = board.parent().map(|folder| plain(&folder.join(&mark.text))) else {
                continue;
            };
            if let Some(text) = self.text(&table) {
                add(table, table_occurrences(&text, name));
            }
        }
        for job in self.jobs_of(board) {
            if let Some(text) = self.text(&job) {
                add(job, occurrences(&Document::read(&text), names, name));
            }
        }
        all
    }

    /// The jobs of a board in the workspace's folders, or beside and below it if there are none.
    pub fn jobs_of(&self, board: &Path) -> Vec<PathBuf> {
        let board = plain(board);
        let beside = board.parent().map(Path::to_owned);
        let folders: Vec<PathBuf> = self.roots.iter().cloned().chain(beside).collect();
        // What cannot be read there is no concern of whoever asks for a name.
        let found = build::find(&folders, &mut Problems::default());
        let found = found.into_iter().take(MOST_FILES).map(|input| plain(&input.path));
        let mut files: Vec<PathBuf> = self.open.keys().cloned().chain(found).collect();
        files.sort();
        files.dedup();
        files.retain(|file| {
            let text = self.text(file).unwrap_or_default();
            crate::spec::is_job(&text) && self.board_of(file).as_deref() == Some(&*board)
        });
        files
    }
}

/// Whether a file is a job.
pub fn is_job(document: &Document) -> bool {
    std::ptr::eq(document.form, &JOB)
}

/// The path without `.` and, where that can be done by name, without `..`.
pub fn plain(path: &Path) -> PathBuf {
    let mut out = PathBuf::new();
    for part in path.components() {
        match part {
            Component::CurDir => {}
            Component::ParentDir
                if matches!(out.components().next_back(), Some(Component::Normal(_))) =>
            {
                out.pop();
            }
            part => out.push(part),
        }
    }
    out
}
