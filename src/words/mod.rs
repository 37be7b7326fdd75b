//! The words of sheets, figures, handouts and the list of sheets, in one language.
//!
//! Long texts are Markdown templates (`sheet::templates`). Everything shorter is a *phrase*: a
//! label of a figure, a sign, a mistake, a reason, a device with its article, a list, a number with
//! its unit. The phrases of a language stand in the `.ftl` files of `templates/<language>/`, in
//! Project Fluent's syntax: a key, `=`, the text with `{ $values }`. A documentation writer changes
//! or adds them without Rust.
//!
//! Rust asks for a phrase by a method of [`Words`] that has the name of its key and takes the
//! phrase's values with their types. [`keys`] lists them all. Words are made only if every key is
//! there and can be said with every kind of value, so that no sheet can lack a phrase.

mod course;
mod faults;
// Some of its phrases are the script's alone, and are listed as a whole.
#[allow(dead_code)]
mod field_page;
mod figures;
mod followed;
mod forms;
mod key;
mod languages;
mod numbers;
// The list of sheets is written by a build.
#[cfg_attr(not(feature = "program"), allow(dead_code))]
mod sheets;
mod usual;

#[cfg(test)]
mod tests;

pub use followed::{FollowedText, LOOKED_AT, followed_texts, read_looked_at, write_looked_at};
pub use key::Key;
pub use languages::{LANGUAGES, Language, english};

use std::fmt;
use std::ops::Range;
use std::sync::Arc;

use fluent_bundle::concurrent::FluentBundle;
use fluent_bundle::{FluentArgs, FluentResource, FluentValue};
use fluent_syntax::ast::Entry;

use crate::standards::languages::language_of;
use forms::Forms;

/// Every phrase that Rust asks for.
pub fn keys() -> impl Iterator<Item = &'static Key> {
    [
        figures::KEYS,
        faults::KEYS,
        usual::KEYS,
        sheets::KEYS,
        course::KEYS,
        field_page::KEYS,
        numbers::KEYS,
        forms::KEYS,
    ]
    .into_iter()
    .flatten()
}

macro_rules! built_in {
    ($($name:literal),* $(,)?) => {
        &[$((concat!($name, ".ftl"), include_str!(concat!("../../templates/en/", $name, ".ftl")))),*]
    };
}

/// The phrases that are compiled in, by the name of their file.
pub const BUILT_IN: &[(&str, &str)] =
    built_in!["language", "devices", "figures", "faults", "sheets", "course", "field-page"];

/// The phrases of one language.
pub struct Words {
    bundle: FluentBundle<FluentResource>,
    tag: String,
    decimal_mark: String,
    checked_by: String,
}

/// What is wrong with a file of phrases.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PhraseFault {
    /// Which of the files, counted from 0.
    pub file: usize,
    /// Where in it, bytes.
    pub range: Range<usize>,
    /// What.
    pub what: PhraseFaultKind,
}

/// What can be wrong with a file of phrases.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum PhraseFaultKind {
    /// It is not the syntax of phrases.
    Syntax(String),
    /// No sheet asks for a phrase of this name, and no other phrase uses it.
    Unknown(String),
    /// The language lacks this phrase.
    Missing(&'static str),
    /// The phrase names a value or a function that it does not have.
    Unsayable {
        /// Its name.
        key: String,
        /// What it cannot do, as the library tells it.
        why: String,
    },
}

impl Words {
    /// The English phrases that are compiled in.
    pub fn english() -> Arc<Self> {
        english().words()
    }

    /// Reads the files of a language. A phrase of a later file takes the place of one with the same
    /// name of an earlier file, so that a user's own file may replace single phrases.
    ///
    /// # Errors
    /// Everything that is wrong with the files: nothing is left to be found while a sheet is made.
    pub fn read(files: &[&str]) -> Result<Self, Vec<PhraseFault>> {
        let (words, mut faults) = Self::unchecked(files);
        if faults.is_empty() {
            faults = words.faults(files);
        }
        if faults.is_empty() { Ok(words) } else { Err(faults) }
    }

    fn unchecked(files: &[&str]) -> (Self, Vec<PhraseFault>) {
        let mut faults = Vec::new();
        let mut resources = Vec::with_capacity(files.len());
        for (file, text) in files.iter().enumerate() {
            // What can be read is kept: the fault is reported all the same.
            let resource = FluentResource::try_new((*text).to_owned());
            resources.push(resource.unwrap_or_else(|(resource, errors)| {
                faults.extend(errors.into_iter().map(|error| PhraseFault {
                    file,
                    range: error.slice.clone().unwrap_or(error.pos),
                    what: PhraseFaultKind::Syntax(error.kind.to_string()),
                }));
                resource
            }));
        }
        let forms = Forms::of(&resources);
        let tag = forms.text("language_tag");
        let decimal_mark = forms.text("decimal_mark");
        let checked_by = forms.text("checked_by");
        // Plurals follow the rules of CLDR for the language.
        let language = tag.parse().unwrap_or_default();
        let mut bundle = FluentBundle::new_concurrent(vec![language]);
        // No marks round what is put in: figures measure every letter, and a code is a code.
        bundle.set_use_isolating(false);
        for resource in resources {
            bundle.add_resource_overriding(resource);
        }
        // It fails for a name that is taken, and the bundle is new.
        let _ = forms.into_function(&mut bundle);
        (Self { bundle, tag, decimal_mark, checked_by }, faults)
    }

    /// The tag of the language: `en`.
    pub fn tag(&self) -> &str {
        &self.tag
    }

    /// Whether a person of the trade has checked the words of the language: somebody is named.
    pub fn is_checked(&self) -> bool {
        !matches!(self.checked_by.trim(), "" | "no")
    }

    /// What every sheet must say while nobody of the trade has checked the words: in the language, and in
    /// English.
    pub fn unchecked_notice(&self) -> Option<[String; 2]> {
        (!self.is_checked()).then(|| [self, &Self::english()].map(Self::words_unchecked))
    }

    /// What a sheet must say of words in other languages than its own, whose tags are given; nothing if there
    /// are none.
    pub fn stand_ins(&self, tags: &[String]) -> Option<String> {
        let names: Vec<String> =
            tags.iter().map(|tag| self.language_name(language_of(tag))).collect();
        (!names.is_empty()).then(|| self.stand_in_words(&self.and(&names)))
    }

    /// The signal words, in the order of [`Signal::ALL`](crate::document::Signal::ALL).
    pub fn signal_words(&self) -> [String; 4] {
        [self.signal_danger(), self.signal_warning(), self.signal_caution(), self.signal_notice()]
    }

    /// Says a phrase.
    fn say(&self, key: &str, values: &[(&'static str, FluentValue<'_>)]) -> String {
        self.try_say(key, values).unwrap_or_else(|_| format!("\u{27e6}{key}\u{27e7}"))
    }

    fn try_say(
        &self,
        key: &str,
        values: &[(&'static str, FluentValue<'_>)],
    ) -> Result<String, String> {
        let message = self.bundle.get_message(key).and_then(|message| message.value());
        let Some(pattern) = message else { return Err("it is missing".to_owned()) };
        let values: FluentArgs<'_> = values.iter().cloned().collect();
        let mut errors = Vec::new();
        let text = self.bundle.format_pattern(pattern, Some(&values), &mut errors).into_owned();
        match errors.first() {
            None if text.contains(forms::UNKNOWN) => Err("a device has no such form".to_owned()),
            None => Ok(text),
            Some(error) => Err(error.to_string()),
        }
    }

    /// Says every key with every kind of value that it can get.
    fn faults(&self, files: &[&str]) -> Vec<PhraseFault> {
        let (names, mut faults) = Self::names(files);
        let place = |key: &str| {
            let found = names.iter().rev().find(|(_, _, name)| name == key);
            found.map_or((0, 0..0), |(file, range, _)| (*file, range.clone()))
        };
        for key in keys() {
            if !self.bundle.has_message(key.name) {
                faults.push(PhraseFault {
                    file: 0,
                    range: 0..0,
                    what: PhraseFaultKind::Missing(key.name),
                });
                continue;
            }
            let mut said = key.samples();
            if let Some(why) = said.find_map(|values| self.try_say(key.name, &values).err()) {
                let (file, range) = place(key.name);
                let what = PhraseFaultKind::Unsayable { key: key.name.to_owned(), why };
                faults.push(PhraseFault { file, range, what });
            }
        }
        faults
    }

    /// The names of all phrases with their file and place, and a fault for each that nothing asks
    /// for.
    fn names(files: &[&str]) -> (Vec<Named>, Vec<PhraseFault>) {
        let mut names = Vec::new();
        for (file, text) in files.iter().enumerate() {
            let Ok(resource) = fluent_syntax::parser::parse(*text) else { continue };
            for entry in &resource.body {
                if let Entry::Message(message) = entry {
                    // The parser borrows from the text: a name is a piece of it.
                    let start = message.id.name.as_ptr() as usize - text.as_ptr() as usize;
                    let range = start..start + message.id.name.len();
                    names.push((file, range, message.id.name.to_owned()));
                }
            }
        }
        let asked = |name: &str| {
            keys().any(|key| key.name == name)
                || forms::is_form(name)
                || files.iter().any(|text| forms::refers(text, name))
        };
        let faults = names
            .iter()
            .filter(|(_, _, name)| !asked(name))
            .map(|(file, range, name)| PhraseFault {
                file: *file,
                range: range.clone(),
                what: PhraseFaultKind::Unknown(name.clone()),
            })
            .collect();
        (names, faults)
    }
}

/// The file, the place in it and the name of a phrase.
type Named = (usize, Range<usize>, String);

impl fmt::Debug for Words {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_struct("Words").field("tag", &self.tag).finish_non_exhaustive()
    }
}
