//! What the page asks, and what it is told.

use std::collections::BTreeMap;

use lidsheet::compile::{self, Checked, Content, InMemory, OwnFolder, SheetKind, SheetOptions};
use lidsheet::document::Document;
use lidsheet::page::{self, Pages, Paper};
use lidsheet::report::{PlanJson, ProblemJson};
use lidsheet::text::Typesetter;
use lidsheet::words::Language;
use lidsheet::write;
use serde::{Deserialize, Serialize};

/// A question, as JSON.
#[derive(Debug, Deserialize)]
#[serde(tag = "ask", rename_all = "kebab-case")]
enum Question {
    /// These are the files of the page: boards and their tables, by their names.
    Begin { files: BTreeMap<String, String> },
    /// What is decided for a job, as `plan --format json` tells it.
    Plan { job: JobFile },
    /// The pages of a kind of sheets of a job, each a drawing.
    Pages { job: JobFile, look: Look },
    /// What it says, as HTML that flows.
    Flowing { job: JobFile, look: Look },
    /// Its pages as a file.
    Pdf { job: JobFile, look: Look },
}

/// A job: the name that problems are told with, and its text. The files that it names are sought as it writes
/// them.
#[derive(Debug, Deserialize)]
struct JobFile {
    name: String,
    text: String,
}

/// How sheets look, and which.
#[derive(Debug, Deserialize)]
struct Look {
    sheet: String,
    language: String,
    paper: String,
}

/// What is told where nothing else is.
#[derive(Serialize)]
#[serde(rename_all = "kebab-case")]
enum Told {
    /// All is well.
    Ready(usize),
    /// Pages, each a drawing.
    Pages(Vec<String>),
    /// A piece of HTML.
    Flowing(String),
    /// What refuses the job.
    Problems(Vec<ProblemJson>),
    /// The question is none: the page and the module are not of one edition.
    Unknown(String),
}

/// Answers questions; remembers the files and what was measured before.
pub struct Desk {
    files: InMemory,
    types: Typesetter,
}

impl Default for Desk {
    fn default() -> Self {
        Self { files: InMemory::default(), types: Typesetter::new() }
    }
}

impl Desk {
    /// The answer to a question: JSON, or a file.
    pub fn answer(&mut self, asked: &[u8]) -> Vec<u8> {
        let told = match serde_json::from_slice(asked) {
            Ok(Question::Begin { files }) => {
                let bytes = files.into_iter().map(|(name, text)| (name, text.into_bytes()));
                self.files = InMemory(bytes.collect());
                Told::Ready(self.files.0.len())
            }
            Ok(Question::Plan { job }) => return self.plan(job),
            Ok(Question::Pages { job, look }) => match self.lay_out(job, &look) {
                Ok(pages) => Told::Pages(write::svg_pages(&pages, 2)),
                Err(told) => told,
            },
            Ok(Question::Flowing { job, look }) => match self.document(job, &look) {
                Ok(document) => Told::Flowing(write::flowing_html(&document, 2, "plan-")),
                Err(told) => told,
            },
            Ok(Question::Pdf { job, look }) => {
                let written = self.lay_out(job, &look).and_then(|pages| {
                    write::pdf(&pages).map_err(|faults| {
                        let all: Vec<String> = faults.into_iter().map(|it| it.message).collect();
                        Told::Unknown(all.join("; "))
                    })
                });
                match written {
                    Ok(file) => return file,
                    Err(told) => told,
                }
            }
            Err(why) => Told::Unknown(why.to_string()),
        };
        json(&told)
    }

    fn check(&self, job: JobFile) -> Checked {
        compile::check(&job.name, job.text.into_bytes(), &self.files)
    }

    fn plan(&self, job: JobFile) -> Vec<u8> {
        let checked = self.check(job);
        let planned = match &checked.content {
            Content::Job(planned) => planned.as_deref(),
            Content::Board(_) | Content::Refused => None,
        };
        json(&PlanJson::new(planned, ProblemJson::all(&checked.problems, &checked.sources)))
    }

    fn lay_out(&mut self, job: JobFile, look: &Look) -> Result<Pages, Told> {
        let document = self.document(job, look)?;
        Ok(page::lay_out(&document, look.paper()?, &mut self.types))
    }

    fn document(&mut self, job: JobFile, look: &Look) -> Result<Document, Told> {
        let mut kinds = SheetKind::OF_JOB.into_iter();
        let kind = kinds.find(|kind| kind.name() == look.sheet);
        let kind = kind.ok_or_else(|| Told::Unknown(look.sheet.clone()))?;
        let language = Language::of_tag(&look.language);
        let language = language.ok_or_else(|| Told::Unknown(look.language.clone()))?;
        let options = SheetOptions::new(look.paper()?, language, OwnFolder::default());
        let mut checked = self.check(job);
        match compile::sheet_document(&mut checked, kind, &options, &mut self.types) {
            Ok(Some(document)) => Ok(document),
            Ok(None) => Err(Told::Unknown(look.sheet.clone())),
            Err(_) => Err(Told::Problems(ProblemJson::all(&checked.problems, &checked.sources))),
        }
    }
}

impl Look {
    fn paper(&self) -> Result<Paper, Told> {
        let paper = Paper::ALL.into_iter().find(|paper| paper.name() == self.paper);
        paper.ok_or_else(|| Told::Unknown(self.paper.clone()))
    }
}

fn json(told: &impl Serialize) -> Vec<u8> {
    // Nothing in it can fail to be written.
    serde_json::to_string_pretty(told).map(|text| text + "\n").unwrap_or_default().into_bytes()
}
