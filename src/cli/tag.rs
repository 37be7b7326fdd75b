//! The tag of a language as an argument.

use crate::words::{LANGUAGES, Language};

/// The language of a tag.
pub fn language(tag: &str) -> Result<&'static Language, String> {
    Language::of_tag(tag).ok_or_else(|| {
        let known: Vec<&str> = LANGUAGES.iter().map(|language| language.tag).collect();
        format!("the sheets are made in {}", known.join(", "))
    })
}
