//! The list of all sheets that lie in the folder of outputs.
//!
//! It lists what is there, not only what this build made: compiling one board of many must not
//! hide the others, and sheets of an earlier build are still there if a board is refused.

use std::collections::BTreeMap;
use std::fs;
use std::io;
use std::path::Path;

use super::output::{self, OutFile, Placed, Unwritten};
use crate::board::{About, Job};
use crate::words::Words;
use crate::write::html::{self, Entry};

/// The name of the list.
pub const NAME: &str = "index.html";

/// The sheets of a board.
pub const SHEETS: &str = "wiring-sheets.pdf";
/// The form of a board.
pub const FORM: &str = "intake-form.pdf";
/// The steps of a job.
pub const CARD: &str = "work-card.pdf";
/// What stays in the lid of its control box.
pub const INSERT: &str = "lid-insert.pdf";
/// The course of a board: what `build` never makes, and lists where it lies.
pub const HANDOUT: &str = "course-handout.pdf";
/// Its answers.
pub const ANSWERS: &str = "course-answers.pdf";
/// Its cards.
pub const CARDS: &str = "course-cards.pdf";

/// What the sheets of a course are called, and their files.
fn course(words: &Words) -> [(String, &'static str); 3] {
    [
        (words.index_handout(), HANDOUT),
        (words.index_answers(), ANSWERS),
        (words.index_cards(), CARDS),
    ]
}

/// How a board and its files are listed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Listed {
    /// Name of the board, or the job and whose it is.
    pub title: String,
    /// Maker, part number, revision and date, or the board.
    pub subtitle: String,
    /// What each file is called, and its name in its folder.
    pub files: Vec<(String, String)>,
}

impl Listed {
    /// How a job on a board is listed with `files`.
    pub fn of_job(words: &Words, job: &Job, about: &About, files: &[OutFile]) -> Self {
        let title = match &job.customer {
            Some(customer) => words.index_job_of(&job.name, customer),
            None => words.index_job(&job.name),
        };
        let subtitle = words.index_board(&about.name, &about.part);
        Self { title, subtitle, ..Self::of_board(words, about, files) }
    }

    /// How a board is listed with `files`.
    pub fn of_board(words: &Words, about: &About, files: &[OutFile]) -> Self {
        let About { maker, part, revision, dated, .. } = about;
        Self {
            title: about.name.clone(),
            subtitle: words.index_about(maker, part, revision, &dated.to_string()),
            files: files.iter().map(|file| (file.label.clone(), file.name.clone())).collect(),
        }
    }
}

/// Puts the list into `out`. `made` are the folders whose sheets this build made.
///
/// # Errors
/// If it cannot be written.
pub fn place(
    words: &Words,
    out: &Path,
    made: &BTreeMap<String, Listed>,
) -> Result<Placed, Unwritten> {
    let mut all = made.clone();
    for (folder, listed) in &mut all {
        listed.files.extend(there(&out.join(folder), &course(words)));
    }
    for folder in folders(out).map_err(|error| output::unwritten(out, &error))? {
        if !all.contains_key(&folder)
            && let Some(listed) = of_earlier_build(words, out, &folder)
        {
            all.insert(folder, listed);
        }
    }
    let entries: Vec<Entry> = all
        .into_iter()
        .map(|(folder, Listed { title, subtitle, files })| {
            let path = |name| format!("{folder}/{name}");
            let files = files.into_iter().map(|(label, name)| (label, path(name))).collect();
            Entry { title, subtitle, files }
        })
        .collect();
    let page = html::index(words.tag(), &words.index_title(), &entries);
    let label = String::new();
    output::place(out, &[OutFile { name: NAME.to_owned(), label, bytes: page.into_bytes() }])
}

/// The folders in `out`, by name; none whose name is hidden or is no text.
fn folders(out: &Path) -> io::Result<Vec<String>> {
    let mut found = Vec::new();
    for entry in fs::read_dir(out)? {
        let entry = entry?;
        if let Ok(name) = entry.file_name().into_string()
            && !name.starts_with('.')
            && entry.path().is_dir()
        {
            found.push(name);
        }
    }
    found.sort();
    Ok(found)
}

/// A folder of sheets that another build made; `None` if it holds none.
fn of_earlier_build(words: &Words, out: &Path, folder: &str) -> Option<Listed> {
    let inside = out.join(folder);
    let mut drawings: Vec<String> = fs::read_dir(&inside)
        .ok()?
        .filter_map(|entry| entry.ok()?.file_name().into_string().ok())
        .filter(|name| name.ends_with(".svg") && !name.starts_with('.'))
        .collect();
    drawings.sort();
    let sheets = [
        (words.index_sheets(), SHEETS),
        (words.index_form(), FORM),
        (words.index_card(), CARD),
        (words.index_insert(), INSERT),
    ];
    let (sheets, course) = (there(&inside, &sheets), there(&inside, &course(words)));
    if sheets.is_empty() && course.is_empty() {
        return None;
    }
    let drawings =
        drawings.into_iter().map(|name| (name.trim_end_matches(".svg").to_owned(), name));
    let files = sheets.into_iter().chain(drawings).chain(course).collect();
    Some(Listed { title: folder.to_owned(), subtitle: words.index_earlier(), files })
}

/// Those of some files that lie in a folder, with what they are called.
fn there(folder: &Path, files: &[(String, &str)]) -> Vec<(String, String)> {
    let found = files.iter().filter(|(_, name)| folder.join(name).is_file());
    found.map(|(label, name)| (label.clone(), (*name).to_owned())).collect()
}
