//! How sheets look: the paper, the language, and what the user has put in place of what is compiled in.

use std::sync::Arc;

use super::house::OwnHouse;
use super::making::FileContext;
use crate::board::Board;
use crate::diagnostic::{Problems, Reported};
use crate::document::House;
use crate::mark::{Contents, Edition, Mark};
use crate::meaning;
use crate::page::Paper;
use crate::sheet::Templates;
use crate::source::Sources;
use crate::spec;
use crate::words::{Language, Words};
use crate::write::Dpi;

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

/// How sheets are to look.
#[derive(Clone, Debug)]
pub struct SheetOptions {
    /// The paper.
    pub paper: Paper,
    /// The language that is compiled in.
    pub language: &'static Language,
    /// The user's own folder: templates and phrases in place of those, and the looks of a house.
    pub own: OwnFolder,
    /// The phrases of the list of sheets, which belongs to no file.
    pub words: Arc<Words>,
    /// The edition of the sheets.
    pub edition: Edition,
    /// Whether figures are drawn as PNG, too.
    pub png: Option<Dpi>,
}

impl SheetOptions {
    /// Sheets on `paper` with templates and phrases of the user's own. Phrases that cannot be used
    /// are reported with each file that they would be used for.
    pub fn new(paper: Paper, language: &'static Language, own: OwnFolder) -> Self {
        let (mut sources, mut problems) = (Sources::default(), Problems::default());
        let edition = Templates::in_language(language, &mut sources).edition();
        let words = language.words();
        let mut scratch = Self { paper, language, own, words, edition, png: None };
        let mut texts = FileContext { shown: "", sources: &mut sources, problems: &mut problems };
        if let Ok(read) = templates(&scratch, &mut texts) {
            scratch.words = read.shared_words();
            scratch.edition = read.edition();
        }
        scratch
    }

    /// The mark of the sheets of a board.
    pub fn mark_of_board(&self, board: &Board) -> Mark {
        self.mark(&[meaning::of_board(board).lines()])
    }

    /// The mark of the sheets of what says these facts: of a board, and of a job, if it is one.
    pub fn mark(&self, said: &[String]) -> Mark {
        let (language, edition) = (self.words.tag(), &self.edition);
        Mark::of(&Contents { said, language, edition })
    }
}

/// The templates that are compiled in, with those of the user's own in their places.
pub fn templates(look: &SheetOptions, texts: &mut FileContext<'_>) -> Result<Templates, Reported> {
    let mut templates = Templates::in_language(look.language, texts.sources);
    let mut files = Vec::new();
    for own in &look.own.templates {
        let bytes = own.bytes.clone();
        let file = spec::admit(own.shown.as_str(), bytes, texts.sources, texts.problems)?;
        files.push((own.name.as_str(), file, texts.sources.file(file).text.to_string()));
    }
    let put = templates.put_over(&files, look.own.is_whole_language(), texts.problems);
    if let Some(own) = &look.own.house {
        let house = own.judge(texts.sources, texts.problems)?;
        if house != House::default() {
            templates.take_house(house, own.sum());
        }
    }
    put.map(|()| templates)
}
