//! A folder of the user's own, `--templates`, read: templates and phrases in place of those that are compiled
//! in, and the looks of a house.

use std::fs;
use std::path::Path;

use super::find::shown;
use super::read::{read, read_logo};
use crate::compile::{HOUSE, OwnFolder, OwnHouse, OwnTemplate, Unread};
use crate::diagnostic::{Code, Problem, Problems};
use crate::sheet::{self, Templates};
use crate::source::Sources;

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

/// The files of the looks in `folder`; `None` if there are none, or an error went to `general`.
fn read_house(folder: &Path, general: &mut Problems) -> Option<OwnHouse> {
    let path = folder.join(HOUSE);
    // A link that leads nowhere is there, too.
    path.symlink_metadata().ok()?;
    let name = shown(&path);
    match read(&path) {
        Ok(bytes) => {
            let logo = |logo: &str| (shown(&folder.join(logo)), read_logo(folder, logo));
            Some(OwnHouse::new(name, bytes, logo))
        }
        Err(unread) => {
            general.error(unread.of(&name));
            None
        }
    }
}
