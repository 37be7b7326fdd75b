//! The edit that was seen last: found by comparing what is read with what was read before.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

use super::edit::{Target, edited_place, first_changed_line, targets};
use super::shown::Edit;
use crate::source::File;

/// The texts as they were read last, and the last edit in them.
#[derive(Default)]
pub struct Edits {
    texts: BTreeMap<String, String>,
    last: Option<LastEdit>,
}

/// The edit that was seen last.
pub struct LastEdit {
    /// Where it is.
    pub edit: Edit,
    /// What it may be seen at.
    pub targets: Vec<Target>,
}

impl Edits {
    /// The last edit, if there was one.
    pub fn last(&self) -> Option<&LastEdit> {
        self.last.as_ref()
    }

    /// Forgets the texts of files that nothing open comes from.
    pub fn forget_all_but(&mut self, used: &BTreeSet<&String>) {
        self.texts.retain(|file, _| used.contains(file));
    }

    /// Compares the texts of a file and of its tables with those before, and notes the first line that is
    /// another.
    pub fn note(&mut self, files: &[&File]) {
        for file in files {
            let before = self.texts.get(&file.name);
            let line = before.and_then(|before| first_changed_line(before, &file.text));
            if let Some(line) = line {
                let (name, text) = (&file.name, &file.text);
                let is_table = Path::new(name).extension().is_some_and(|ending| ending == "csv");
                // A table belongs to the line that names it.
                let named = files.iter().find_map(|of| {
                    let table = name.rsplit('/').next().filter(|_| is_table)?;
                    let line = of.text.lines().position(|line| line.contains(table))?;
                    Some((&*of.text, line + 1))
                });
                let (text, at) = named.unwrap_or((text, line));
                let targets = targets(&edited_place(text, at));
                let number = self.last.as_ref().map_or(1, |last| last.edit.number + 1);
                let edit = Edit { number, file: name.clone(), line };
                self.last = Some(LastEdit { edit, targets });
            }
            if before.is_none() || line.is_some() {
                self.texts.insert(file.name.clone(), file.text.to_string());
            }
        }
    }
}
