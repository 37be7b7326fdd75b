//! Which files are specifications.

use std::collections::BTreeSet;
use std::ffi::OsStr;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use crate::diagnostic::{Code, Problem, Problems, is_harmful};

/// A file that holds a specification, or a job.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Input {
    /// Where it lies.
    pub path: PathBuf,
    /// The same as people are shown it: with `/`.
    pub shown: String,
    /// The file's name without its ending; names the folder of its outputs.
    pub stem: String,
}

/// Finds every `*.yaml` and `*.yml` at and under `paths`, each once, in the order of the paths and
/// under each by name. A path that is a file is taken whatever its ending.
///
/// Files and folders whose name begins with a dot are left out. Links are followed, but no folder
/// is entered twice; one that leads to a folder above itself is a warning.
pub fn find(paths: &[PathBuf], problems: &mut Problems) -> Vec<Input> {
    let mut search = Search { seen: BTreeSet::new(), found: Vec::new(), problems };
    for path in paths {
        match fs::metadata(path) {
            Ok(about) if about.is_dir() => search.folder(path),
            Ok(_) => search.file(path),
            Err(error) => search.unread(path, &error),
        }
    }
    let found = search.found;
    if found.is_empty() && problems.failed().is_none() {
        let places: Vec<_> = paths.iter().map(|path| shown(path)).collect();
        problems.error(
            Problem::of_file(
                Code::NothingFound,
                places.join(", "),
                "there is no specification here",
            )
            .help("put a specification there whose name ends in `.yaml`, or name another place"),
        );
    }
    found
}

/// A path as people are shown it. A name may hold anything; nothing in it steers a terminal or turns the
/// order in which the rest of its line is read.
pub fn shown(path: &Path) -> String {
    let steers = |c: char| c.is_control() || is_harmful(c);
    path.to_string_lossy().replace('\\', "/").replace(steers, "\u{fffd}")
}

/// Why a file or folder cannot be used, in plain words.
pub fn reason(error: &io::Error) -> String {
    match error.kind() {
        io::ErrorKind::NotFound => "there is nothing of this name".to_owned(),
        io::ErrorKind::PermissionDenied => "the system does not permit it".to_owned(),
        _ => {
            // The system's own words, without its number.
            let words = error.to_string();
            words.split(" (os error").next().unwrap_or_default().to_owned()
        }
    }
}

struct Search<'a> {
    /// Real paths of the files and folders that were met.
    seen: BTreeSet<PathBuf>,
    found: Vec<Input>,
    problems: &'a mut Problems,
}

impl Search<'_> {
    /// Everything under `start`, depth first. A stack of our own: no tree is too deep.
    fn folder(&mut self, start: &Path) {
        let mut waiting = vec![start.to_owned()];
        while let Some(path) = waiting.pop() {
            let about = match fs::metadata(&path) {
                Ok(about) => about,
                Err(error) => {
                    if path == start || is_specification(&path) {
                        self.unread(&path, &error);
                    }
                    continue;
                }
            };
            if !about.is_dir() {
                if is_specification(&path) {
                    self.file(&path);
                }
                continue;
            }
            match self.entries(&path) {
                // The last is taken first.
                Ok(mut entries) => {
                    entries.sort_by(|a, b| b.cmp(a));
                    waiting.append(&mut entries);
                }
                Err(error) => self.unread(&path, &error),
            }
        }
    }

    /// What lies in a folder; nothing if it was entered before.
    fn entries(&mut self, folder: &Path) -> io::Result<Vec<PathBuf>> {
        let real = fs::canonicalize(folder)?;
        if !self.seen.insert(real.clone()) {
            self.report_loop(folder, &real);
            return Ok(Vec::new());
        }
        let mut entries = Vec::new();
        for entry in fs::read_dir(folder)? {
            let path = entry?.path();
            if !path.file_name().is_some_and(is_hidden) {
                entries.push(path);
            }
        }
        Ok(entries)
    }

    /// Warns if `folder`, whose real path is `real`, is a link to a folder that it lies in.
    fn report_loop(&mut self, folder: &Path, real: &Path) {
        let parent = folder.parent().filter(|parent| !parent.as_os_str().is_empty());
        let parent = fs::canonicalize(parent.unwrap_or(Path::new(".")));
        if parent.is_ok_and(|parent| parent.starts_with(real)) {
            self.problems.warning(
                Problem::of_file(
                    Code::FolderLoop,
                    shown(folder),
                    "this link leads to a folder that it lies in",
                )
                .note("the folder is read once, without the link"),
            );
        }
    }

    fn file(&mut self, path: &Path) {
        let real = fs::canonicalize(path).unwrap_or_else(|_| path.to_owned());
        if self.seen.insert(real) {
            let stem = path.file_stem().unwrap_or_default().to_string_lossy().into_owned();
            self.found.push(Input { path: path.to_owned(), shown: shown(path), stem });
        }
    }

    fn unread(&mut self, path: &Path, error: &io::Error) {
        let message = format!("this cannot be read: {}", reason(error));
        let mut problem = Problem::of_file(Code::FileUnread, shown(path), message);
        if error.kind() == io::ErrorKind::NotFound {
            problem = problem.help("name the file or the folder that the specifications are in");
        }
        self.problems.error(problem);
    }
}

fn is_specification(path: &Path) -> bool {
    path.extension().is_some_and(|ending| ending == "yaml" || ending == "yml")
}

fn is_hidden(name: &OsStr) -> bool {
    name.to_string_lossy().starts_with('.')
}

#[cfg(test)]
mod tests {
    use super::*;

    fn folder(files: &[&str]) -> tempfile::TempDir {
        let folder = tempfile::tempdir().unwrap();
        for file in files {
            let path = folder.path().join(file);
            fs::create_dir_all(path.parent().unwrap()).unwrap();
            fs::write(path, "lidsheet: 1\n").unwrap();
        }
        folder
    }

    fn stems(found: &[Input]) -> Vec<&str> {
        found.iter().map(|input| input.stem.as_str()).collect()
    }

    #[test]
    fn every_specification_is_found_once_and_in_order() {
        let desk = folder(&["b/y.yml", "b/a.yaml", "a.yaml", ".git/x.yaml", "t.csv", "b.yaml"]);
        let mut problems = Problems::default();
        let paths = [desk.path().to_owned(), desk.path().join("b"), desk.path().join("t.csv")];
        assert_eq!(stems(&find(&paths, &mut problems)), ["a", "a", "y", "b", "t"]);
        assert!(problems.is_empty());
    }

    #[test]
    fn a_name_never_steers_a_terminal() {
        assert_eq!(shown(Path::new("a\u{1b}[2J\nb.yaml")), "a\u{fffd}[2J\u{fffd}b.yaml");
        assert_eq!(shown(Path::new("a\u{202e}lmay.b")), "a\u{fffd}lmay.b");
    }

    #[test]
    fn a_place_without_specifications_is_an_error() {
        let desk = folder(&["t.csv"]);
        let mut problems = Problems::default();
        assert!(find(&[desk.path().to_owned()], &mut problems).is_empty());
        assert_eq!(problems.sorted()[0].code, Code::NothingFound);
        let mut problems = Problems::default();
        assert!(find(&[desk.path().join("none")], &mut problems).is_empty());
        assert_eq!(problems.sorted()[0].code, Code::FileUnread);
    }

    #[cfg(unix)]
    #[test]
    fn links_that_lead_back_end() {
        use std::os::unix::fs::symlink;
        let desk = folder(&["specs/a.yaml", "specs/b/c.yaml", "far/d.yaml"]);
        let at = |path: &str| desk.path().join(path);
        symlink(at("specs"), at("specs/b/up")).unwrap();
        symlink(at("far"), at("specs/near")).unwrap();
        symlink(at("specs"), at("far/back")).unwrap();
        symlink(at("specs/e.yaml"), at("specs/e.yaml")).unwrap();
        let mut problems = Problems::default();
        let found = find(&[at("specs")], &mut problems);
        assert_eq!(stems(&found), ["a", "c", "d"]);
        let codes: Vec<_> = problems.sorted().iter().map(|problem| problem.code).collect();
        assert_eq!(codes, [Code::FileUnread, Code::FolderLoop]);
    }
}
