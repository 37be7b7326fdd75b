//! Which output came of which input, kept in the folder of outputs from build to build.
//!
//! Only what stands in it is ever taken to be stale or deleted: a file that this program did not write
//! is not its own. An input is named by its path from the folder of outputs, so that the manifest says
//! the same on another machine and from another folder.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::io;
use std::path::{Component, Path, PathBuf};

use serde::{Deserialize, Serialize};

use super::find::{reason, shown};
use super::output::{self, OutputRoot, Unwritten};
use crate::compile::OutFile;
use crate::mark::{Mark, sum_of};

/// Its name in the folder of outputs.
pub const NAME: &str = "manifest.json";

/// The edition of its own form.
const FORM: u32 = 1;

/// What lies in the folder of outputs, and where it came from.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Manifest {
    lidsheet: u32,
    /// What came of each input, by the input's path from here.
    inputs: BTreeMap<String, Made>,
}

/// What came of an input.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Made {
    /// The folder that its outputs lie in.
    pub folder: String,
    /// What it is called: the name of the board, or of the job.
    pub name: String,
    /// Revision and date of the board.
    pub revision: String,
    /// The sum of what it says, whatever the language and the edition of the sheets.
    pub said: String,
    /// The mark of its sheets in each language, by its tag.
    pub marks: BTreeMap<String, Marks>,
    /// Its outputs by their paths from here, each with the sum of its bytes.
    pub files: BTreeMap<String, String>,
    /// What other commands made of it, by the command: `changes`, `handout`. A build leaves it.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub others: BTreeMap<String, BTreeMap<String, String>>,
    /// Outputs of earlier builds that nothing makes any more, and that still lie there.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub stale: BTreeMap<String, String>,
}

/// The marks of sheets in a language.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Marks {
    /// That of the sheets that lie there.
    pub now: String,
    /// Those of the sheets before, the first first.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub earlier: Vec<Earlier>,
}

/// The mark of sheets that were there.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Earlier {
    /// The mark.
    pub mark: String,
    /// Revision and date of the board then.
    pub revision: String,
}

/// Something that no input makes any more.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Stale {
    /// Its path.
    pub path: String,
    /// What became of it.
    pub fate: Fate,
}

/// What became of something stale.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fate {
    /// It lies where it was: nobody asked to delete it.
    Left,
    /// It was deleted.
    Deleted,
    /// It was not deleted, because somebody changed it since.
    Changed,
}

/// The state that a mark belongs to.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Marked<'a> {
    /// The path of the input from the folder of outputs.
    pub input: &'a str,
    /// What came of it.
    pub made: &'a Made,
    /// Revision and date of the board when its sheets had the mark.
    pub revision: &'a str,
}

impl Default for Manifest {
    fn default() -> Self {
        Self { lidsheet: FORM, inputs: BTreeMap::new() }
    }
}

impl Manifest {
    /// The manifest in a folder; an empty one if there is none.
    ///
    /// # Errors
    /// Why it cannot be used: it cannot be read, or it is not what this program writes.
    pub fn read(out: &Path) -> Result<Self, String> {
        let text = match fs::read(out.join(NAME)) {
            Ok(bytes) => bytes,
            Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(Self::default()),
            Err(error) => return Err(reason(&error)),
        };
        let read: Self = serde_json::from_slice(&text)
            .map_err(|_| "it is not as this program writes it".to_owned())?;
        if read.lidsheet != FORM {
            return Err(format!(
                "it is of edition {}, which this program does not read",
                read.lidsheet
            ));
        }
        // A path that leads out of the folder is not one that this program wrote.
        let paths = read.inputs.values().flat_map(|made| {
            let others = made.others.values().flat_map(BTreeMap::keys);
            made.files.keys().chain(made.stale.keys()).chain(others)
        });
        let leads_out = |path: &String| {
            Path::new(path).components().any(|part| !matches!(part, Component::Normal(_)))
        };
        if paths.into_iter().any(leads_out) {
            return Err("it names files that lie elsewhere".to_owned());
        }
        Ok(read)
    }

    /// Whether there is anything to keep, or one that lies there to be replaced.
    pub fn is_needed(&self, out: &Path) -> bool {
        *self != Self::default() || out.join(NAME).symlink_metadata().is_ok()
    }

    /// Writes it into its folder, if it is another than lies there.
    ///
    /// # Errors
    /// If it cannot be written.
    pub fn place(&self, out: &OutputRoot) -> Result<(), Unwritten> {
        let mut bytes = serde_json::to_vec_pretty(self).unwrap_or_default();
        bytes.push(b'\n');
        out.place_here(&[OutFile { name: NAME.to_owned(), bytes }]).map(drop)
    }

    /// What came of an input.
    pub fn of(&self, input: &str) -> Option<&Made> {
        self.inputs.get(input)
    }

    /// The other input whose outputs lie in a folder, if it is still there. One that is gone was moved
    /// or renamed.
    pub fn holder(&self, out: &Path, folder: &str, input: &str) -> Option<&str> {
        let holds = |(other, made): &(&String, &Made)| {
            *other != input && made.folder.eq_ignore_ascii_case(folder) && out.join(other).exists()
        };
        self.inputs.iter().find(holds).map(|(other, _)| other.as_str())
    }

    /// Takes what a build made of an input in place of what was known of it.
    pub fn take(&mut self, out: &Path, input: &str, mut made: Made) {
        let moved = self.inputs.iter().find(|(other, known)| {
            *other != input && known.folder == made.folder && !out.join(other).exists()
        });
        let before = self
            .inputs
            .get(input)
            .map(|_| input.to_owned())
            .or_else(|| moved.map(|(other, _)| other.clone()));
        if let Some(before) = before.and_then(|before| self.inputs.remove(&before)) {
            let mut stale = before.stale;
            stale.extend(before.files);
            made.others = before.others;
            let others: BTreeSet<&String> = made.others.values().flat_map(BTreeMap::keys).collect();
            stale.retain(|path, _| !made.files.contains_key(path) && !others.contains(path));
            made.stale = stale;
            for (language, marks) in before.marks {
                let now = made.marks.entry(language).or_insert_with(|| marks.clone());
                let mut earlier = marks.earlier;
                let revision = before.revision.clone();
                earlier.push(Earlier { mark: marks.now, revision });
                earlier.retain(|known| known.mark != now.now);
                now.earlier = earlier;
            }
        }
        self.inputs.insert(input.to_owned(), made);
    }

    /// Takes what another command made of an input. What it made before and makes no more is left over.
    /// `unbuilt` is what is known of an input of which nothing was built yet.
    pub fn take_of(
        &mut self,
        command: &str,
        input: &str,
        files: BTreeMap<String, String>,
        unbuilt: Made,
    ) {
        let made = self.inputs.entry(input.to_owned()).or_insert(unbuilt);
        made.stale.retain(|path, _| !files.contains_key(path));
        let before = made.others.insert(command.to_owned(), files).unwrap_or_default();
        let now: BTreeSet<String> =
            made.others.values().flat_map(BTreeMap::keys).cloned().collect();
        made.stale.extend(before.into_iter().filter(|(path, _)| !now.contains(path)));
    }

    /// What no input makes any more: left over from inputs that were made anew, and all of those that
    /// are gone. With `prune` it is deleted, if it holds what this program wrote.
    ///
    /// # Errors
    /// What cannot be deleted.
    pub fn sweep(&mut self, out: &Path, prune: bool) -> Result<Vec<Stale>, Unwritten> {
        let mut found = Vec::new();
        let mut folders = BTreeSet::new();
        for (input, made) in &mut self.inputs {
            if !out.join(input).exists() {
                let files = std::mem::take(&mut made.files);
                made.stale.extend(files);
                made.stale.extend(std::mem::take(&mut made.others).into_values().flatten());
            }
            let mut left = BTreeMap::new();
            for (path, sum) in std::mem::take(&mut made.stale) {
                let place = out.join(&path);
                // Somebody deleted it already, or put something else in its place.
                let Some(bytes) = held(&place) else { continue };
                let fate = match (prune, sum_of(&bytes) == sum) {
                    (false, _) => Fate::Left,
                    (true, true) => Fate::Deleted,
                    (true, false) => Fate::Changed,
                };
                if fate == Fate::Deleted {
                    fs::remove_file(&place).map_err(|error| output::unwritten(&place, &error))?;
                    folders.extend(place.parent().map(Path::to_owned));
                } else {
                    left.insert(path, sum);
                }
                found.push(Stale { path: shown(&place), fate });
            }
            made.stale = left;
        }
        self.inputs.retain(|_, made| {
            !made.files.is_empty() || !made.stale.is_empty() || !made.others.is_empty()
        });
        // The deepest first. One that holds anything stays.
        for folder in folders.into_iter().rev() {
            let _ = fs::remove_dir(folder);
        }
        found.sort_by(|a, b| a.path.cmp(&b.path));
        Ok(found)
    }

    /// The inputs whose sheets have a mark now, or had it.
    pub fn with_mark(&self, mark: Mark) -> impl Iterator<Item = Marked<'_>> {
        let mark = mark.to_string();
        self.inputs.iter().filter_map(move |(input, made)| {
            let now = made.marks.values().any(|marks| marks.now == mark);
            let mut earlier = made.marks.values().flat_map(|marks| &marks.earlier);
            let revision = match now {
                true => &made.revision,
                false => &earlier.find(|known| known.mark == mark)?.revision,
            };
            Some(Marked { input, made, revision })
        })
    }
}

/// What a file holds; `None` if there is none, or something else is in its place.
fn held(path: &Path) -> Option<Vec<u8>> {
    fs::symlink_metadata(path).ok().filter(fs::Metadata::is_file)?;
    fs::read(path).ok()
}

/// The path of an input from the folder of outputs, with `/`; from the root of the disk if they have no
/// folder in common.
pub fn path_from(out: &Path, input: &Path) -> String {
    let (out, input) = (real(out), real(input));
    let (mut from, mut to) = (out.components().peekable(), input.components().peekable());
    let mut common = 0;
    while from.peek().is_some() && from.peek() == to.peek() {
        from.next();
        to.next();
        common += 1;
    }
    if common == 0 {
        return shown(&input);
    }
    let up = from.map(|_| Component::ParentDir);
    shown(&up.chain(to).collect::<PathBuf>())
}

/// A path without links and steps upwards, as far as it is there.
fn real(path: &Path) -> PathBuf {
    let whole = std::path::absolute(path).unwrap_or_else(|_| path.to_owned());
    let mut rest = Vec::new();
    let mut there = whole.as_path();
    loop {
        if let Ok(real) = fs::canonicalize(there) {
            return rest.iter().rev().fold(real, |path, part| path.join(part));
        }
        match (there.parent(), there.file_name()) {
            (Some(parent), Some(name)) => {
                rest.push(name.to_owned());
                there = parent;
            }
            _ => return whole,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn made(folder: &str, mark: &str, files: &[(&str, &str)]) -> Made {
        let sums =
            files.iter().map(|(name, text)| (format!("{folder}/{name}"), sum_of(text.as_bytes())));
        let marks = Marks { now: mark.to_owned(), earlier: Vec::new() };
        Made {
            folder: folder.to_owned(),
            name: "A board".to_owned(),
            revision: "A of 2026-01-01".to_owned(),
            said: String::new(),
            marks: BTreeMap::from([("en".to_owned(), marks)]),
            files: sums.collect(),
            others: BTreeMap::new(),
            stale: BTreeMap::new(),
        }
    }

    /// A folder of outputs beside two specifications.
    fn scratch() -> (tempfile::TempDir, PathBuf) {
        let scratch = tempfile::tempdir().unwrap();
        let out = scratch.path().join("out");
        fs::create_dir_all(out.join("a")).unwrap();
        fs::write(scratch.path().join("a.yaml"), "").unwrap();
        (scratch, out)
    }

    #[test]
    fn what_was_written_and_nothing_makes_is_deleted_on_request_alone() {
        let (scratch, out) = scratch();
        for name in ["old.svg", "mine.txt", "changed.svg", "new.svg"] {
            fs::write(out.join("a").join(name), name).unwrap();
        }
        let mut manifest = Manifest::default();
        let first =
            [("old.svg", "old.svg"), ("changed.svg", "as it was written"), ("gone.svg", "x")];
        manifest.take(&out, "../a.yaml", made("a", "M1", &first));
        manifest.take(&out, "../a.yaml", made("a", "M2", &[("new.svg", "new.svg")]));

        let fates = |manifest: &mut Manifest, prune| -> Vec<(String, Fate)> {
            let found = manifest.sweep(&out, prune).unwrap();
            let name = |path: &str| path.rsplit('/').next().unwrap_or_default().to_owned();
            found.into_iter().map(|stale| (name(&stale.path), stale.fate)).collect()
        };
        let both = |a, b| vec![("changed.svg".to_owned(), a), ("old.svg".to_owned(), b)];
        assert_eq!(fates(&mut manifest, false), both(Fate::Left, Fate::Left));
        assert_eq!(fates(&mut manifest, true), both(Fate::Changed, Fate::Deleted));
        assert_eq!(fates(&mut manifest, true), [("changed.svg".to_owned(), Fate::Changed)]);
        let left = |name: &str| out.join("a").join(name).exists();
        assert!(left("mine.txt") && left("changed.svg") && left("new.svg") && !left("old.svg"));

        // The specification goes: all that came of it is stale, and its folder goes when it is empty.
        fs::remove_file(scratch.path().join("a.yaml")).unwrap();
        fs::remove_file(out.join("a/mine.txt")).unwrap();
        fs::remove_file(out.join("a/changed.svg")).unwrap();
        assert_eq!(fates(&mut manifest, true), [("new.svg".to_owned(), Fate::Deleted)]);
        assert!(!out.join("a").exists());
        assert_eq!(manifest, Manifest::default());
    }

    #[test]
    fn a_folder_is_held_by_an_input_that_is_there() {
        let (scratch, out) = scratch();
        let mut manifest = Manifest::default();
        manifest.take(&out, "../a.yaml", made("a", "M1", &[]));
        assert_eq!(manifest.holder(&out, "A", "../other/a.yaml"), Some("../a.yaml"));
        assert_eq!(manifest.holder(&out, "a", "../a.yaml"), None);
        assert_eq!(manifest.holder(&out, "b", "../other/a.yaml"), None);

        // It was moved: what was made of it is taken over with its marks.
        fs::create_dir(scratch.path().join("other")).unwrap();
        fs::rename(scratch.path().join("a.yaml"), scratch.path().join("other/a.yaml")).unwrap();
        assert_eq!(manifest.holder(&out, "a", "../other/a.yaml"), None);
        manifest.take(&out, "../other/a.yaml", made("a", "M2", &[]));
        assert_eq!(manifest.inputs.len(), 1);
        let marks = &manifest.inputs["../other/a.yaml"].marks["en"];
        assert_eq!((marks.now.as_str(), marks.earlier[0].mark.as_str()), ("M2", "M1"));
    }

    #[test]
    fn it_reads_back_what_it_wrote_and_nothing_that_leads_out() {
        let (_scratch, out) = scratch();
        let mut manifest = Manifest::default();
        manifest.take(&out, "../a.yaml", made("a", "M1", &[("x.svg", "x")]));
        manifest.place(&OutputRoot::open(&out, &|| true).unwrap()).unwrap();
        assert_eq!(Manifest::read(&out), Ok(manifest));
        for hostile in ["../secret", "/etc/secret", "a/../../secret"] {
            let text = fs::read_to_string(out.join(NAME)).unwrap().replace("a/x.svg", hostile);
            fs::write(out.join("other.json"), &text).unwrap();
            let folder = out.join("hostile");
            fs::create_dir_all(&folder).unwrap();
            fs::write(folder.join(NAME), text).unwrap();
            assert!(Manifest::read(&folder).is_err(), "{hostile}");
        }
    }

    #[test]
    fn inputs_are_named_from_the_outputs() {
        let (scratch, out) = scratch();
        let input = scratch.path().join("a.yaml");
        assert_eq!(path_from(&out, &input), "../a.yaml");
        assert_eq!(path_from(&scratch.path().join("not/there/yet"), &input), "../../../a.yaml");
        assert_eq!(path_from(scratch.path(), &input), "a.yaml");
    }
}
