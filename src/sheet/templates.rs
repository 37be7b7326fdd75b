//! The templates of a language, with the user's own in their places.

use std::borrow::Cow;
use std::collections::BTreeSet;
use std::sync::{Arc, LazyLock};

use crate::decide::mistakes::PlannedCase;
use crate::diagnostic::{Code, Problem, Problems, Reported};
use crate::document::House;
use crate::mark::{Contents, Edition, Mark};
use crate::meaning::{self, Meaning};
use crate::source::{FileId, Sources, Span};
use crate::words::{BUILT_IN, LANGUAGES, Language, PhraseFault, PhraseFaultKind, Words};

/// The templates of a sheet.
#[derive(Clone, Debug)]
pub struct Templates {
    all: Vec<Template>,
    words: Arc<Words>,
    /// The user's own files of phrases.
    own_phrases: Vec<(FileId, String)>,
    /// The files of phrases that those are put over; none beneath a whole language of the user's own.
    beneath: &'static [(&'static str, &'static str)],
    /// The safety messages of that language.
    cautions: Option<(FileId, Cow<'static, str>)>,
    /// The looks of the user's own house, and the sum of the files that say them.
    house: (House, Option<String>),
}

/// One template.
#[derive(Clone, Debug)]
pub(super) struct Template {
    /// Its name without `.md`.
    pub name: String,
    /// Where it was read from.
    pub file: FileId,
    /// Its text.
    pub text: Cow<'static, str>,
    /// Whether it is the user's own.
    pub own: bool,
}

macro_rules! built_in {
    ($($name:literal),* $(,)?) => {
        &[$(($name, include_str!(concat!("../../templates/en/", $name, ".md")))),*]
    };
}

/// The templates of the wiring sheets that are compiled in, in the order of their sections.
const SECTIONS: &[(&str, &str)] =
    built_in!["front", "supply", "voltages", "layouts", "switches", "panel", "sockets"];

/// Those of sheets that are one template.
const ALONE: &[(&str, &str)] = built_in![
    "fault-finder",
    "intake",
    "work-card",
    "lid-insert",
    "handout",
    "answers",
    "cards",
    "exercise",
    "answer",
    "example",
    "changes",
];

/// The safety messages that every sheet carries. Only a whole language has its own, and it is held
/// to these, message by message.
pub(super) const CAUTIONS: &str = include_str!("../../templates/en/cautions.md");

/// Their file in the folder of a language.
pub const CAUTIONS_FILE: &str = "cautions.md";

/// How the name of a file of phrases ends.
pub const PHRASES: &str = ".ftl";

/// The files of a language that is compiled in, by name: templates, safety messages and phrases.
pub fn template_files(language: &Language) -> Vec<(String, &'static str)> {
    let name = |(name, text): &(&str, &'static str)| (format!("{name}.md"), *text);
    let mut all: Vec<(String, &'static str)> = match language.templates {
        [] => SECTIONS.iter().chain(ALONE).map(name).collect(),
        own => own.iter().map(|(name, text)| ((*name).to_owned(), *text)).collect(),
    };
    if !all.iter().any(|(name, _)| name == CAUTIONS_FILE) {
        all.push((CAUTIONS_FILE.to_owned(), CAUTIONS));
    }
    all.extend(language.phrases.iter().map(|(name, text)| ((*name).to_owned(), *text)));
    all
}

impl Templates {
    /// The templates that are compiled in. Their texts are added to `sources`, so that a problem
    /// can point into them.
    pub fn built_in(sources: &mut Sources) -> Self {
        let all = SECTIONS
            .iter()
            .chain(ALONE)
            .map(|(name, text)| Template {
                name: (*name).to_owned(),
                file: sources.add_built_in(format!("templates/en/{name}.md"), text),
                text: Cow::Borrowed(text),
                own: false,
            })
            .collect();
        Self {
            all,
            words: Words::english(),
            own_phrases: Vec::new(),
            beneath: BUILT_IN,
            cautions: None,
            house: (House::default(), None),
        }
    }

    /// The templates of a language that is compiled in.
    pub fn in_language(language: &'static Language, sources: &mut Sources) -> Self {
        let mut built_in = Self::built_in(sources);
        for (name, text) in language.templates {
            let file = sources.add_built_in(format!("templates/{}/{name}", language.tag), text);
            if *name == CAUTIONS_FILE {
                built_in.cautions = Some((file, Cow::Borrowed(text)));
            } else if let Some(template) = built_in.template(name) {
                (template.file, template.text) = (file, Cow::Borrowed(*text));
            }
        }
        Self { words: language.words(), beneath: language.phrases, ..built_in }
    }

    /// The names under which texts that are compiled in stand among the sources.
    pub fn compiled_in() -> BTreeSet<String> {
        let mut sources = Sources::default();
        for language in &LANGUAGES {
            Self::in_language(language, &mut sources);
        }
        sources.iter().map(|(_, file)| file.name.clone()).collect()
    }

    /// Takes the looks of a house, with the sum of the files that say them.
    pub fn take_house(&mut self, house: House, sum: String) {
        self.house = (house, Some(sum));
    }

    /// The looks of the house.
    pub(super) fn house(&self) -> &House {
        &self.house.0
    }

    /// The phrases of the language.
    pub fn words(&self) -> &Words {
        &self.words
    }

    /// The same, to keep.
    pub fn shared_words(&self) -> Arc<Words> {
        Arc::clone(&self.words)
    }

    /// Puts the phrases of a user's own file, `names.ftl`, in place of those with the same names.
    pub fn replace_phrases(&mut self, file: FileId, text: &str) {
        self.own_phrases.push((file, text.to_owned()));
    }

    /// Reads the user's own phrases, if there are any.
    ///
    /// # Errors
    /// Everything that is wrong with them.
    pub fn read_phrases(&mut self, problems: &mut Problems) -> Result<(), Reported> {
        if self.own_phrases.is_empty() {
            return Ok(());
        }
        let beneath = self.beneath;
        let own = self.own_phrases.iter().map(|(_, text)| text.as_str());
        let texts: Vec<&str> = beneath.iter().map(|(_, text)| *text).chain(own).collect();
        match Words::read(&texts) {
            Ok(words) => {
                let whole = beneath.is_empty();
                if !whole && words.signal_words() != self.words.signal_words() {
                    return Err(problems.error(self.signal_words_replaced()));
                }
                self.words = Arc::new(words);
                Ok(())
            }
            Err(faults) => {
                let all = faults.into_iter().map(|fault| self.phrase_problem(fault, beneath.len()));
                let reported = all.map(|problem| problems.error(problem)).last();
                Err(reported.unwrap_or_else(|| problems.error(nothing_wrong())))
            }
        }
    }

    /// Puts the user's own files, by their names, in place of those that are compiled in: all of them if
    /// they are a `whole` language.
    ///
    /// # Errors
    /// As [`Templates::take_language`] and [`Templates::read_phrases`].
    pub fn put_over(
        &mut self,
        files: &[(&str, FileId, String)],
        whole: bool,
        problems: &mut Problems,
    ) -> Result<(), Reported> {
        if whole {
            return self.take_language(files, problems);
        }
        for (name, file, text) in files {
            if name.ends_with(PHRASES) {
                self.replace_phrases(*file, text);
            } else {
                self.replace(name, *file, text);
            }
        }
        self.read_phrases(problems)
    }

    /// Takes the files of a whole language, by their names, in place of the English ones.
    ///
    /// # Errors
    /// A file that English has and the language lacks; everything that is wrong with its phrases.
    pub fn take_language(
        &mut self,
        files: &[(&str, FileId, String)],
        problems: &mut Problems,
    ) -> Result<(), Reported> {
        self.beneath = &[];
        let mut lacks = None;
        let names: Vec<String> = self.file_names().chain([CAUTIONS_FILE.to_owned()]).collect();
        for name in names {
            match files.iter().find(|(known, ..)| *known == name) {
                Some((_, file, text)) if name == CAUTIONS_FILE => {
                    self.cautions = Some((*file, text.clone().into()));
                }
                Some((_, file, text)) => {
                    self.replace(&name, *file, text);
                }
                None => {
                    let message = format!("the language lacks the file `{name}`");
                    let of = files.first().map(|(_, file, _)| Span::new(*file, 0..0));
                    lacks = Some(problems.error(match of {
                        Some(place) => Problem::new(Code::LanguageIncomplete, place, message),
                        None => Problem::of_file(Code::LanguageIncomplete, name, message),
                    }));
                }
            }
        }
        let phrases = files.iter().filter(|(name, ..)| name.ends_with(".ftl"));
        self.own_phrases = phrases.map(|(_, file, text)| (*file, text.clone())).collect();
        self.read_phrases(problems)?;
        lacks.map_or(Ok(()), Err)
    }

    /// The mark of what is made of a specification, and of a job, if it is one.
    pub fn mark(&self, meanings: &[&Meaning]) -> Mark {
        let edition = self.edition();
        let said: Vec<String> = meanings.iter().map(|meaning| meaning.lines()).collect();
        Mark::of(&Contents { said: &said, language: self.words.tag(), edition: &edition })
    }

    /// The mark of the sheets of a job.
    pub(super) fn mark_of_job(&self, case: &PlannedCase<'_>) -> Mark {
        let (board, job) = (meaning::of_board(case.board), meaning::of_job(case.board, case.job));
        self.mark(&[&board, &job])
    }

    /// The edition that these texts are.
    pub fn edition(&self) -> Edition {
        static BUILT_IN_EDITION: LazyLock<Edition> =
            LazyLock::new(|| Templates::built_in(&mut Sources::default()).sum());
        let own = !self.own_phrases.is_empty()
            || self.all.iter().any(|it| it.own)
            || self.house.1.is_some();
        let english = self.beneath.as_ptr() == BUILT_IN.as_ptr();
        if english && !own { BUILT_IN_EDITION.clone() } else { self.sum() }
    }

    fn sum(&self) -> Edition {
        let templates = self.all.iter().flat_map(|it| [it.name.as_str(), &*it.text]);
        let cautions = self.cautions.as_ref().map_or(CAUTIONS, |(_, text)| &**text);
        let phrases = self.beneath.iter().map(|(_, text)| *text);
        let own = self.own_phrases.iter().map(|(_, text)| text.as_str());
        let house = self.house.1.as_deref();
        Edition::of(templates.chain([cautions]).chain(phrases).chain(own).chain(house))
    }

    /// The safety messages of the language, if it is not English.
    pub(super) fn own_cautions(&self) -> Option<&(FileId, Cow<'static, str>)> {
        self.cautions.as_ref()
    }

    /// Signal words are those of the standard: only a whole language has others.
    fn signal_words_replaced(&self) -> Problem {
        let message = "the signal word of a safety message cannot be replaced";
        let place = self.own_phrases.iter().rev().find_map(|(file, text)| {
            let at = text.find("signal_")?;
            Some(Span::new(*file, at..at + "signal_".len()))
        });
        match place {
            Some(place) => Problem::new(Code::PhraseUnsayable, place, message),
            None => Problem::of_file(Code::Internal, "templates/en", message),
        }
    }

    fn phrase_problem(&self, fault: PhraseFault, beneath: usize) -> Problem {
        let PhraseFault { file, range, what } = fault;
        let own = file.checked_sub(beneath).and_then(|index| self.own_phrases.get(index));
        let place = own.map(|(file, _)| Span::new(*file, range));
        let (code, message, note) = match what {
            PhraseFaultKind::Syntax(why) => {
                (Code::PhraseSyntax, "this is not how phrases are written".to_owned(), Some(why))
            }
            PhraseFaultKind::Unknown(name) => {
                (Code::PhraseUnknown, format!("no sheet has a phrase `{name}`"), None)
            }
            PhraseFaultKind::Missing(name) => {
                (Code::PhraseMissing, format!("the language lacks the phrase `{name}`"), None)
            }
            PhraseFaultKind::Unsayable { key, why } => {
                (Code::PhraseUnsayable, format!("the phrase `{key}` cannot be said"), Some(why))
            }
        };
        let problem = match place {
            Some(place) => Problem::new(code, place, message),
            None => Problem::of_file(Code::Internal, "templates/en", message),
        };
        match note {
            Some(why) => problem.note(why),
            None => problem,
        }
    }

    /// Puts the text of `file` in place of the template with that file name, `supply.md`. Gives
    /// `false` if there is no such template.
    pub fn replace(&mut self, file_name: &str, file: FileId, text: &str) -> bool {
        let Some(template) = self.template(file_name) else { return false };
        (template.file, template.text, template.own) = (file, text.to_owned().into(), true);
        true
    }

    fn template(&mut self, file_name: &str) -> Option<&mut Template> {
        let name = file_name.strip_suffix(".md")?;
        self.all.iter_mut().find(|template| template.name == name)
    }

    /// File names that [`Templates::replace`] knows.
    pub fn file_names(&self) -> impl Iterator<Item = String> {
        self.all.iter().map(|template| format!("{}.md", template.name))
    }

    /// The templates of the wiring sheets in the order of their sections.
    pub(super) fn sections(&self) -> Vec<&Template> {
        self.all.iter().take(SECTIONS.len()).collect()
    }

    /// The template of a sheet that is one template.
    pub(super) fn named(&self, name: &str) -> Vec<&Template> {
        self.all.iter().skip(SECTIONS.len()).filter(|template| template.name == name).collect()
    }
}

fn nothing_wrong() -> Problem {
    Problem::of_file(Code::Internal, "templates/en", "phrases were refused without a reason")
}
