//! Makes the edits of spelling in the files themselves: what the checks say of an error, if only the
//! writing changes by it. Nothing of a file without errors is touched, as what it says is settled.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};

use super::check;
use super::find::reason;
use super::output::{TemporaryFiles, write_temporary};
use crate::compile::Checked;
use crate::diagnostic::{Code, Edit, EditKind, Problem, Problems, Severity};
use crate::source::{File, Sources};

/// An edit that was made.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct MadeEdit {
    /// The file as people are shown it.
    pub file: String,
    /// Line, from 1, as the file was.
    pub line: usize,
    /// Column, from 1, in code points.
    pub column: usize,
    /// What stood there.
    pub old: String,
    /// What stands there now.
    pub new: String,
    /// The problem that it was made for.
    pub code: Code,
}

/// An edit may bring a next one to light, as of a key that was not read before. No file has a chain as
/// long as this.
const ROUNDS: usize = 24;

/// Checks every specification at and under `paths` and makes the edits of spelling, again and again
/// until none is left. Gives the files as they are then, and the edits in the order in which they were
/// made. A file that cannot be written is a problem in `general` and stays as it was.
pub fn fix(paths: &[PathBuf], general: &mut Problems) -> (Vec<Checked>, Vec<MadeEdit>) {
    let mut made = Vec::new();
    let mut refused: BTreeSet<String> = BTreeSet::new();
    for _ in 0..ROUNDS {
        let files = check(paths, &mut Problems::default());
        let mut any = false;
        for (name, text, edits) in edits_by_file(&files) {
            if refused.contains(&name) {
                continue;
            }
            let (new, of_file) = apply(&name, &text, &edits);
            if of_file.is_empty() {
                continue;
            }
            match replace(Path::new(&name), &text, &new) {
                Ok(()) => {
                    any = true;
                    made.extend(of_file);
                }
                Err(why) => {
                    let message = format!("this file cannot be mended: {why}");
                    let code = Code::OutputUnwritten;
                    general.error(Problem::of_file(code, name.as_str(), message));
                    refused.insert(name);
                }
            }
        }
        if !any {
            break;
        }
    }
    (check(paths, general), made)
}

type EditsOfFile = (String, String, Vec<(Edit, Code)>);

/// Each file that has edits to be made, with its text and them, by name.
fn edits_by_file(files: &[Checked]) -> Vec<EditsOfFile> {
    let mut all: BTreeMap<String, (String, Vec<(Edit, Code)>)> = BTreeMap::new();
    for checked in files {
        for problem in checked.problems.sorted() {
            let Some(edit) = problem.help.as_ref().and_then(|help| help.edit.as_ref()) else {
                continue;
            };
            let own = problem.primary.as_ref().is_some_and(|it| it.span.file == edit.span.file);
            let error = problem.code.severity() == Severity::Error;
            let Some(file) = checked.sources.get(edit.span.file) else { continue };
            if own && error && edit.kind == EditKind::Spelling && fits(&edit.text, file) {
                let entry = all.entry(file.name.clone());
                let (_, edits) = entry.or_insert_with(|| (file.text.to_string(), Vec::new()));
                edits.push((edit.clone(), problem.code));
            }
        }
    }
    all.into_iter().map(|(name, (text, edits))| (name, text, edits)).collect()
}

/// Whether a text can stand in a file as it is, and means itself there: a plain one anywhere, one in
/// quotes where it is YAML.
fn fits(text: &str, file: &File) -> bool {
    let quoted = text.len() > 1 && text.starts_with('"') && text.ends_with('"');
    let plain = text.starts_with(char::is_alphanumeric)
        && !text.ends_with(' ')
        && text.chars().all(|c| c.is_alphanumeric() || " -_/.+".contains(c))
        && !text.eq_ignore_ascii_case("null");
    plain || quoted && !file.name.ends_with(".csv")
}

/// The text with its edits made from start to end. One that overlaps an earlier one waits: what it says
/// may be true no more.
fn apply(name: &str, text: &str, edits: &[(Edit, Code)]) -> (String, Vec<MadeEdit>) {
    let mut edits: Vec<&(Edit, Code)> = edits.iter().collect();
    edits.sort_by(|(one, _), (other, _)| {
        (one.span.start, one.span.end, &one.text).cmp(&(
            other.span.start,
            other.span.end,
            &other.text,
        ))
    });
    let mut sources = Sources::default();
    let id = sources.add(name, text);
    let file = sources.file(id);
    let (mut new, mut made, mut done) = (String::new(), Vec::new(), 0);
    for (edit, code) in edits {
        let range = edit.span.range();
        let (Some(kept), Some(old)) = (text.get(done..range.start), text.get(range.clone())) else {
            continue;
        };
        // An edit of nothing, or one that changes nothing, mends nothing.
        if old.is_empty() || old == edit.text {
            continue;
        }
        let (line, column) = file.position(edit.span.start);
        new.push_str(kept);
        new.push_str(&edit.text);
        done = range.end;
        made.push(MadeEdit {
            file: name.to_owned(),
            line,
            column,
            old: old.to_owned(),
            new: edit.text.clone(),
            code: *code,
        });
    }
    new.push_str(text.get(done..).unwrap_or_default());
    (new, made)
}

/// Puts `new` in the place of the file that held `old`, whole or not at all, with the same permissions.
/// Of a link the file that it leads to is replaced.
///
/// # Errors
/// Why it stays as it was: it holds something else by now, or the system does not permit it.
fn replace(path: &Path, old: &str, new: &str) -> Result<(), String> {
    let told = |error: std::io::Error| reason(&error);
    let real = fs::canonicalize(path).map_err(told)?;
    let about = fs::metadata(&real).map_err(told)?;
    if about.permissions().readonly() {
        return Err("it may only be read".to_owned());
    }
    let (Some(folder), Some(name)) = (real.parent(), real.file_name()) else {
        return Err("it is not a file".to_owned());
    };
    let temporary =
        write_temporary(folder, &name.to_string_lossy(), new.as_bytes()).map_err(told)?;
    let mut temporary_files = TemporaryFiles(vec![temporary.clone()]);
    fs::set_permissions(&temporary, about.permissions()).map_err(told)?;
    // As late as can be: what somebody saves between this and the next line is lost.
    if fs::read(&real).map_err(told)? != old.as_bytes() {
        return Err("it was changed while it was checked".to_owned());
    }
    fs::rename(&temporary, &real).map_err(told)?;
    temporary_files.0.clear();
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::source::{FileId, Span};

    fn edit(range: std::ops::Range<usize>, text: &str) -> (Edit, Code) {
        let span = Span::new(FileId(0), range);
        (Edit { span, text: text.into(), kind: EditKind::Spelling }, Code::UnknownName)
    }

    #[test]
    fn of_edits_that_overlap_the_first_is_made() {
        let edits = [edit(4..8, "Two"), edit(0..3, "One"), edit(2..5, "x"), edit(4..8, "Two")];
        let (new, made) = apply("a.yaml", "one two three", &edits);
        assert_eq!(new, "One Twothree");
        assert_eq!(made.len(), 2);
        // Nothing of a text that has changed lengths, or between letters of two bytes.
        assert_eq!(apply("a", "ä", &[edit(0..1, "x"), edit(5..9, "y")]), ("ä".to_owned(), vec![]));
    }

    #[test]
    fn what_would_be_read_as_something_else_is_not_written() {
        let mut sources = Sources::default();
        let yaml = sources.add("a.yaml", "");
        let csv = sources.add("a.csv", "");
        let fits_in = |text, id| fits(text, sources.file(id));
        for text in ["a: b", "a #b", "null", "~", "- a", "a,b", " a", "a ", "[a", "", "\"", "x\ny"]
        {
            assert!(!fits_in(text, yaml) && !fits_in(text, csv), "{text}");
        }
        assert!(fits_in("pump 1", yaml) && fits_in("pump 1", csv));
        assert!(fits_in("\"a, b\"", yaml) && !fits_in("\"a, b\"", csv));
    }

    #[test]
    fn a_file_that_somebody_changed_stays_as_it_is() {
        let folder = tempfile::tempdir().expect("a folder");
        let path = folder.path().join("a.yaml");
        fs::write(&path, "theirs").expect("written");
        let refused = replace(&path, "what was checked", "new");
        assert_eq!(refused, Err("it was changed while it was checked".to_owned()));
        assert_eq!(fs::read_to_string(&path).expect("read"), "theirs");
        assert_eq!(fs::read_dir(folder.path()).expect("read").count(), 1, "no temporary file");
        assert_eq!(replace(&path, "theirs", "new"), Ok(()));
        assert_eq!(fs::read_to_string(&path).expect("read"), "new");
    }
}
