//! A copy of the built-in templates to begin one's own with, and a page that says what is in them.

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

use super::find::shown;
use super::output::{self, Placed};
use super::unwritten;
use crate::compile::OutFile;
use crate::diagnostic::{Code, Problem};
use crate::sheet::template_files;
use crate::words::{LOOKED_AT, Language, followed_texts, write_looked_at};

/// The page about the files, beside them.
pub const GUIDE: &str = "README.md";
const WORDS: &str = include_str!("start.md");

/// Writes the templates of languages into a folder: of one into the folder itself, of several each into a
/// folder in it. Nothing that is there is overwritten.
///
/// # Errors
/// A file that is there already, or that cannot be written.
pub fn start_templates(folder: &Path, languages: &[&Language]) -> Result<Placed, Box<Problem>> {
    let several = languages.len() > 1;
    let mut folders: Vec<(PathBuf, Vec<OutFile>)> = Vec::new();
    for language in languages {
        let inside = if several { folder.join(language.tag) } else { folder.to_owned() };
        let mut files: Vec<OutFile> = template_files(language)
            .into_iter()
            .map(|(name, text)| OutFile { name, bytes: text.into() })
            .collect();
        files.push(OutFile { name: GUIDE.to_owned(), bytes: guide(language).into_bytes() });
        // Without it a fresh copy would be taken for one that follows older English texts.
        let record = Path::new(LOOKED_AT);
        let about = inside.join(record.parent().unwrap_or(Path::new("")));
        let name = record.file_name().unwrap_or_default().to_string_lossy().into_owned();
        folders.push((inside, files));
        folders.push((about, vec![OutFile { name, bytes: record_of(language).into_bytes() }]));
    }
    let paths =
        folders.iter().flat_map(|(inside, files)| files.iter().map(|file| inside.join(&file.name)));
    none_is_there(paths, "name an empty folder, or a new one")?;
    let mut all = Placed::default();
    for (inside, files) in &folders {
        let placed = output::place(inside, files).map_err(|error| Box::new(unwritten(error)))?;
        all.written.extend(placed.written);
    }
    Ok(all)
}

/// Sees to it that nothing is written over.
///
/// # Errors
/// The first of `paths` that is there already, with what else could be done.
pub fn none_is_there(
    paths: impl IntoIterator<Item = PathBuf>,
    instead: &str,
) -> Result<(), Box<Problem>> {
    let Some(path) = paths.into_iter().find(|path| path.symlink_metadata().is_ok()) else {
        return Ok(());
    };
    let message = "this file is there already; nothing was written".to_owned();
    let problem = Problem::of_file(Code::OutputUnwritten, shown(&path), message);
    Err(Box::new(problem.help(instead)))
}

/// The record for a fresh copy of a language: which English texts it follows. A copy of English follows
/// English as it is now.
fn record_of(language: &Language) -> String {
    match language.looked_at {
        "" => {
            let files = template_files(language);
            let texts = followed_texts(files.iter().map(|(name, text)| (name.as_str(), *text)));
            write_looked_at(&texts.iter().map(|it| (it.key(), it.sum.clone())).collect())
        }
        record => record.to_owned(),
    }
}

/// What each file is, and what it names: read off the files themselves.
pub fn guide(language: &Language) -> String {
    let mut templates = String::new();
    let mut phrases = String::new();
    for (name, text) in template_files(language) {
        if name.ends_with(".md") {
            let list = |names: BTreeSet<String>| -> String {
                let all: Vec<String> = names.iter().map(|name| format!("`{name}`")).collect();
                if all.is_empty() { "\u{2013}".to_owned() } else { all.join(", ") }
            };
            let (facts, macros) = (list(facts_named(text)), list(macros_in(text)));
            templates.push_str(&format!("| `{name}` | {facts} | {macros} |\n"));
        } else {
            let count = text.lines().filter(|line| is_phrase(line)).count();
            phrases.push_str(&format!("| `{name}` | {count} |\n"));
        }
    }
    WORDS
        .replace("TEMPLATES\n", &templates)
        .replace("PHRASES\n", &phrases)
        .replace("LANGUAGE", language.tag)
}

/// The facts that a template names.
fn facts_named(text: &str) -> BTreeSet<String> {
    let engine = minijinja::Environment::new();
    let read = engine.template_from_str(text);
    read.map(|template| template.undeclared_variables(true).into_iter().collect())
        .unwrap_or_default()
}

/// The macros that a template has, with their parameters.
fn macros_in(text: &str) -> BTreeSet<String> {
    let begins = text.split("{% macro ").skip(1);
    begins.filter_map(|rest| Some(format!("{})", rest.split_once(')')?.0))).collect()
}

/// Whether a line of a file of phrases begins one.
fn is_phrase(line: &str) -> bool {
    line.starts_with(|c: char| c.is_ascii_lowercase()) && line.contains(" =")
}
