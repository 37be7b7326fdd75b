//! What a reader of the preview is told, and its form on the wire.

use std::collections::BTreeMap;
use std::sync::Arc;

use serde::Serialize;

use crate::report::Told;

/// What is shown, by the words that stand for it in an address.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Choice {
    /// The file as people are shown it; empty if there is none.
    pub file: String,
    /// The kind of sheets.
    pub sheet: &'static str,
    /// The tag of the language.
    pub language: &'static str,
    /// The paper.
    pub paper: &'static str,
}

/// How the pages that are shown stand to the file.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Standing {
    /// They are what the file says.
    Fresh,
    /// The file has errors: they are those of its last good state.
    Kept,
    /// There are none.
    Nothing,
}

/// A page.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Leaf {
    /// The sum of its drawing, by which it is fetched.
    pub id: String,
    /// Width, mm.
    pub width: f64,
    /// Height, mm.
    pub height: f64,
    /// Its drawing, an `<svg>` element.
    #[serde(skip)]
    pub svg: Arc<str>,
}

/// A place on the pages.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize)]
pub struct Spot {
    /// The page, from 0.
    pub page: usize,
    /// From its upper edge, mm.
    pub top: f64,
}

/// An edit that was seen.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Edit {
    /// Which it is, from 1: the next has the next number.
    pub number: u64,
    /// The file.
    pub file: String,
    /// The first line that is not as it was, from 1.
    pub line: usize,
}

/// What is shown of a file.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Shown {
    /// What was chosen, with what stands in for what was not.
    pub choice: Choice,
    /// The kinds of sheets that the file has.
    pub sheets: Vec<&'static str>,
    /// How the pages stand to the file.
    pub standing: Standing,
    /// What is wrong.
    pub problems: Vec<Told>,
    /// The pages.
    pub pages: Vec<Leaf>,
    /// The edit that was seen last.
    pub edited: Option<Edit>,
    /// Where the pages show it.
    pub spot: Option<Spot>,
}

/// A file that can be chosen.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Listed {
    /// The file as people are shown it.
    pub file: String,
    /// Whether it is a job.
    pub job: bool,
    /// How many errors it has, once that is known.
    pub errors: Option<usize>,
}

/// All that can be chosen.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Choices {
    /// The files, boards before jobs.
    pub files: Vec<Listed>,
    /// The names of the languages by their tags.
    pub languages: BTreeMap<&'static str, &'static str>,
    /// The papers.
    pub papers: Vec<&'static str>,
}
