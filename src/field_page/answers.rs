//! What the page asks, and what it is told.

use std::collections::BTreeMap;

use lidsheet::compile::{self, Checked, Content, OwnFolder, OwnTemplate, SheetKind, SheetOptions};
use lidsheet::document::Document;
use lidsheet::page::{self, Pages, Paper};
use lidsheet::report::{BoardForm, PlanJson, ProblemJson, Told, WrittenJson};
use lidsheet::spec;
use lidsheet::text::{Face, Typesetter, Weight};
use lidsheet::words::Language;
use lidsheet::write;
use serde::{Deserialize, Serialize};

use super::files::PageFiles;

/// A question, as JSON.
#[derive(Debug, Deserialize)]
#[serde(tag = "ask", rename_all = "kebab-case")]
enum Question {
    /// These are the files of the page: boards and their tables, by their paths from one folder, and the
    /// templates and phrases of the user's own.
    Begin {
        files: BTreeMap<String, String>,
        #[serde(default)]
        own: Vec<OwnFile>,
    },
    /// The phrases of a language, and what a form must know of some boards.
    Form { language: String, boards: Vec<String> },
    /// The file of a face that drawings are lettered in, by its place in the answer to `form`.
    Font { face: usize },
    /// The values that a job's file holds.
    Open { text: String },
    /// The file of a job with these values.
    Write { values: WrittenJson },
    /// What is decided for a job, as `plan --format json` tells it.
    Plan { job: JobFile },
    /// The same, and what people are told: the problems, and what a kind of sheets says, as HTML that flows.
    Show { job: JobFile, look: Look },
    /// The pages of a kind of sheets of a job, each a drawing.
    Pages { job: JobFile, look: Look },
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

/// A file of the user's own.
#[derive(Debug, Deserialize)]
struct OwnFile {
    name: String,
    shown: String,
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
enum Answer {
    /// So many files are there.
    Ready(usize),
    /// Phrases by their keys, and boards.
    Form {
        words: BTreeMap<&'static str, String>,
        boards: Vec<BoardForm>,
        faces: Vec<FaceOfDrawings>,
    },
    /// The values of a file, and whether it holds comments; null if it cannot be read at all.
    Opened(Option<Opened>),
    /// A job's file.
    Written(String),
    /// What was decided.
    Shown { plan: Box<PlanJson>, told: Vec<Told>, flowing: Option<String> },
    /// Pages, each a drawing.
    Pages(Vec<String>),
    /// What refuses the job.
    Refused(Vec<Told>),
    /// The question is none: the page and the module are not of one edition.
    Unknown(String),
}

#[derive(Serialize)]
struct FaceOfDrawings {
    family: &'static str,
    bold: bool,
}

#[derive(Serialize)]
struct Opened {
    values: WrittenJson,
    comments: bool,
}

/// Answers questions; remembers the files and what was measured before.
pub struct Desk {
    files: PageFiles,
    own: OwnFolder,
    types: Typesetter,
    looks: BTreeMap<(&'static str, String), SheetOptions>,
}

impl Default for Desk {
    fn default() -> Self {
        Self {
            files: PageFiles::default(),
            own: OwnFolder::default(),
            types: Typesetter::new(),
            looks: BTreeMap::new(),
        }
    }
}

impl Desk {
    /// The answer to a question: JSON, or a file.
    pub fn answer(&mut self, asked: &[u8]) -> Vec<u8> {
        let answer = match serde_json::from_slice(asked) {
            Ok(Question::Begin { files, own }) => self.begin(files, own),
            Ok(Question::Form { language, boards }) => self.form(&language, &boards),
            Ok(Question::Font { face }) => match Face::ALL.get(face) {
                Some(face) => return face.file().to_owned(),
                None => Err(Answer::Unknown(face.to_string())),
            },
            Ok(Question::Open { text }) => Ok(open(&text)),
            Ok(Question::Write { values }) => Ok(Answer::Written(spec::write_job(&values.0))),
            Ok(Question::Plan { job }) => return json(&plan(&self.check(job))),
            Ok(Question::Show { job, look }) => self.show(job, &look),
            Ok(Question::Pages { job, look }) => {
                self.lay_out(job, &look).map(|pages| Answer::Pages(write::svg_pages(&pages, 2)))
            }
            Ok(Question::Pdf { job, look }) => match self.pdf(job, &look) {
                Ok(file) => return file,
                Err(answer) => Err(answer),
            },
            Err(why) => Err(Answer::Unknown(why.to_string())),
        };
        json(&answer.unwrap_or_else(|refused| refused))
    }

    fn begin(
        &mut self,
        files: BTreeMap<String, String>,
        own: Vec<OwnFile>,
    ) -> Result<Answer, Answer> {
        self.files = PageFiles(files);
        let own = own.into_iter().map(|OwnFile { name, shown, text }| OwnTemplate {
            name,
            shown,
            bytes: text.into_bytes(),
        });
        self.own = OwnFolder { templates: own.collect(), house: None };
        self.looks.clear();
        Ok(Answer::Ready(self.files.0.len()))
    }

    fn form(&mut self, language: &str, boards: &[String]) -> Result<Answer, Answer> {
        let words = self.look(language, Paper::A4)?.words.clone();
        let board = |file: &String| {
            let text = self.files.0.get(file)?;
            let checked = compile::check(file, text.clone().into_bytes(), &self.files.beside(file));
            match &*checked.content_in(words.tag()) {
                Content::Board(board) => {
                    let name = file.rsplit('/').next().unwrap_or_default();
                    Some(BoardForm::new(board, name, &words))
                }
                Content::Job(_) | Content::Refused => None,
            }
        };
        let boards = boards.iter().filter_map(board).collect();
        let face = |face: Face| FaceOfDrawings {
            family: face.family(),
            bold: face.weight() == Weight::Bold,
        };
        let faces = Face::ALL.into_iter().map(face).collect();
        Ok(Answer::Form { words: words.field_page().collect(), boards, faces })
    }

    fn show(&mut self, job: JobFile, look: &Look) -> Result<Answer, Answer> {
        let mut checked = self.check(job);
        let document = self.document(&mut checked, look);
        let flowing = match document {
            Ok(document) => Some(write::flowing_html(&document, 3, "plan-")),
            Err(Answer::Refused(_)) => None,
            Err(other) => return Err(other),
        };
        let told = Told::all(&checked.problems, &checked.sources);
        Ok(Answer::Shown { plan: Box::new(plan(&checked)), told, flowing })
    }

    fn check(&self, job: JobFile) -> Checked {
        compile::check(&job.name, job.text.into_bytes(), &self.files)
    }

    fn pdf(&mut self, job: JobFile, look: &Look) -> Result<Vec<u8>, Answer> {
        let pages = self.lay_out(job, look)?;
        write::pdf(&pages).map_err(|faults| {
            let all: Vec<String> = faults.into_iter().map(|fault| fault.message).collect();
            Answer::Unknown(all.join("; "))
        })
    }

    fn lay_out(&mut self, job: JobFile, look: &Look) -> Result<Pages, Answer> {
        let mut checked = self.check(job);
        let document = self.document(&mut checked, look)?;
        Ok(page::lay_out(&document, look.paper()?, &mut self.types))
    }

    fn document(&mut self, checked: &mut Checked, look: &Look) -> Result<Document, Answer> {
        let mut kinds = SheetKind::OF_JOB.into_iter();
        let kind = kinds.find(|kind| kind.name() == look.sheet);
        let kind = kind.ok_or_else(|| Answer::Unknown(look.sheet.clone()))?;
        let options = self.look(&look.language, look.paper()?)?.clone();
        match compile::sheet_document(checked, kind, &options, &mut self.types) {
            Ok(Some(document)) => Ok(document),
            Ok(None) => Err(Answer::Unknown(look.sheet.clone())),
            Err(_) => Err(Answer::Refused(Told::all(&checked.problems, &checked.sources))),
        }
    }

    /// How sheets look, made once for each paper and language.
    fn look(&mut self, language: &str, paper: Paper) -> Result<&SheetOptions, Answer> {
        let unknown = || Answer::Unknown(language.to_owned());
        let language = Language::of_tag(language).ok_or_else(unknown)?;
        let own = &self.own;
        Ok(self
            .looks
            .entry((language.tag, paper.name().to_owned()))
            .or_insert_with(|| SheetOptions::new(paper, language, own.clone())))
    }
}

fn plan(checked: &Checked) -> PlanJson {
    let planned = match &checked.content {
        Content::Job(planned) => planned.as_deref(),
        Content::Board(_) | Content::Refused => None,
    };
    PlanJson::new(planned, ProblemJson::all(&checked.problems, &checked.sources))
}

fn open(text: &str) -> Answer {
    let comments = text.lines().any(|line| line.trim_start().starts_with('#'));
    let values = spec::read_written(text);
    Answer::Opened(values.map(|values| Opened { values: WrittenJson(values), comments }))
}

impl Look {
    fn paper(&self) -> Result<Paper, Answer> {
        let paper = Paper::ALL.into_iter().find(|paper| paper.name() == self.paper);
        paper.ok_or_else(|| Answer::Unknown(self.paper.clone()))
    }
}

fn json(told: &impl Serialize) -> Vec<u8> {
    // Nothing in it can fail to be written.
    serde_json::to_string_pretty(told).map(|text| text + "\n").unwrap_or_default().into_bytes()
}
