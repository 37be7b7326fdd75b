//! Whose sheets have a content mark.

use std::path::{Path, PathBuf};

use super::find::{self, shown};
use super::manifest::{Manifest, path_from};
use super::own::own_folder;
use super::state::{self, State};
use super::{FileKind, check_all};
use crate::compile::SheetOptions;
use crate::diagnostic::Problems;
use crate::mark::Mark;
use crate::page::Paper;
use crate::words::LANGUAGES;

/// Where a mark is looked for.
#[derive(Clone, Copy, Debug)]
pub struct MarkSearch<'a> {
    /// Files, and folders that are searched.
    pub paths: &'a [PathBuf],
    /// The folder of outputs, whose manifest knows the marks of earlier builds.
    pub out: &'a Path,
    /// A folder with templates of the user's own.
    pub templates: Option<&'a Path>,
}

/// A board or job whose sheets have a mark, or had it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct MarkOwner {
    /// The file as people are shown it.
    pub file: String,
    /// What it holds; `None` if it is gone or has errors now.
    pub kind: Option<FileKind>,
    /// The name of the board or job.
    pub name: String,
    /// Revision and date of the board, when sheets with that mark were made; of today's if it is
    /// today's.
    pub revision: String,
    /// The mark of what the file says today; `None` if it is gone or has errors now.
    pub today: Option<Mark>,
}

/// The boards and jobs whose sheets have a mark today, or had it by the manifest of the outputs.
///
/// # Errors
/// Why the manifest cannot be used.
pub fn owners_of_mark(
    mark: Mark,
    search: MarkSearch<'_>,
    general: &mut Problems,
) -> Result<Vec<MarkOwner>, String> {
    let manifest = Manifest::read(search.out)?;
    let own = search.templates.map(|folder| own_folder(folder, general)).unwrap_or_default();
    let looks: Vec<SheetOptions> = LANGUAGES
        .iter()
        .map(|language| SheetOptions::new(Paper::A4, language, own.clone()))
        .collect();
    let inputs = find::find(search.paths, general);
    let mut owners = Vec::new();
    let mut earlier: Vec<_> = manifest.with_mark(mark).collect();
    for (checked, input) in check_all(&inputs).iter().zip(&inputs) {
        let key = path_from(search.out, &input.path);
        let Some(state) = State::of(checked) else { continue };
        let todays = state::marks(checked, &looks);
        // The sheets in any language can be today's; of others the English mark is told.
        let today = todays.iter().find(|(_, today)| *today == mark).or(todays.first());
        let Some((_, today)) = today.cloned() else { continue };
        let before = earlier.iter().position(|known| known.input == key);
        let before = before.map(|index| earlier.remove(index));
        if today != mark && before.is_none() {
            continue;
        }
        let State { kind, name, revision, .. } = state;
        let before = before.filter(|_| today != mark);
        owners.push(MarkOwner {
            file: input.shown.clone(),
            kind: Some(kind),
            name,
            revision: before.map_or(revision, |before| before.revision.to_owned()),
            today: Some(today),
        });
    }
    owners.extend(earlier.into_iter().map(|known| MarkOwner {
        file: shown(&search.out.join(known.input)),
        kind: None,
        name: known.made.name.clone(),
        revision: known.revision.to_owned(),
        today: None,
    }));
    Ok(owners)
}
