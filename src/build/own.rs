//! A folder of the user's own, `--templates`: templates and phrases in place of those that are compiled
//! in, and the looks of a house.

use std::fs;
use std::path::Path;

use super::find::shown;
use super::house::{OwnHouse, read_house};
use super::read::{Unread, read};
use crate::diagnostic::{Code, Problem, Problems};
use crate::sheet::{self, Templates};
use crate::source::Sources;

/// What is in a folder of the user's own.
#[derive(Clone, Debug, Default)]
pub struct OwnFolder {
    /// Templates and phrases.
    pub templates: Vec<OwnTemplate>,
    /// The looks of a house.
    pub house: Option<OwnHouse>,
}

impl OwnFolder {
    /// The files that were read, as people are shown them.
    pub fn files(&self) -> impl Iterator<Item = &str> {
        let templates = self.templates.iter().map(|own| own.shown.as_str());
        templates.chain(self.house.iter().flat_map(OwnHouse::files))
    }

    /// Whether it holds a whole language.
    pub fn is_whole_language(&self) -> bool {
        self.templates.iter().any(OwnTemplate::names_language)
    }
}

/// A template of the user's own.
#[derive(Clone, Debug)]
pub struct OwnTemplate {
    /// The name of its file in its folder.
    pub name: String,
    /// The file as people are shown it.
    pub shown: String,
    /// What it holds.
    pub bytes: Vec<u8>,
}

impl OwnTemplate {
    /// Whether it is the file that makes its folder a whole language.
    fn names_language(&self) -> bool {
        let tag = b"\nlanguage_tag";
        self.name == "language.ftl"
            && (self.bytes.starts_with(&tag[1..])
                || self.bytes.windows(tag.len()).any(|w| w == tag))
    }
}

/// What is in `folder`; what is wrong with it goes to `general`.
pub fn own_folder(folder: &Path, general: &mut Problems) -> OwnFolder {
    OwnFolder { templates: own_templates(folder, general), house: read_house(folder, general) }
}

/// The templates and phrases in `folder`.
fn own_templates(folder: &Path, general: &mut Problems) -> Vec<OwnTemplate> {
    let known: Vec<String> = Templates::built_in(&mut Sources::default()).file_names().collect();
    let entries = match fs::read_dir(folder) {
        Ok(entries) => entries,
        Err(error) => {
            general.error(Unread::from(error).of(&shown(folder)));
            return Vec::new();
        }
    };
    let mut paths: Vec<_> = entries.flatten().map(|entry| entry.path()).collect();
    paths.sort();
    let mut found = Vec::new();
    for path in paths {
        let name = path.file_name().unwrap_or_default().to_string_lossy().into_owned();
        let phrases = name.ends_with(sheet::PHRASES);
        if name == super::GUIDE || !name.ends_with(".md") && !phrases {
            continue;
        }
        let language = name == sheet::CAUTIONS_FILE && folder.join("language.ftl").is_file();
        if !phrases && !language && !known.contains(&name) {
            general.error(
                Problem::of_file(Code::FileUnread, shown(&path), "no template has this name")
                    .help(format!("templates are {}", known.join(", "))),
            );
            continue;
        }
        match read(&path) {
            Ok(bytes) => found.push(OwnTemplate { name, shown: shown(&path), bytes }),
            Err(unread) => {
                general.error(unread.of(&shown(&path)));
            }
        }
    }
    found
}
