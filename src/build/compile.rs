//! One specification: read, checked, and made into sheets. In memory; only tables are read.

use std::borrow::Cow;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::Path;
use std::sync::Arc;

use super::find::Input;
use super::index;
use super::job::{self, PlannedJob};
use super::output::OutFile;
use super::own::OwnFolder;
use super::read::{OpenFiles, read, read_table};
use super::spoken::Spoken;
use crate::board::{self, Board};
use crate::diagnostic::{Code, Problem, Problems, Reported};
use crate::document::{Document, House};
use crate::mark::{Contents, Edition, Mark};
use crate::meaning;
use crate::page::{self, Pages, Paper};
use crate::sheet::{self, Figure, Templates};
use crate::source::{FileId, Sources};
use crate::spec;
use crate::text::Typesetter;
use crate::words::{Language, Words};
use crate::write::{self, Dpi, PngFault};

/// What was found in a file.
#[derive(Clone, Debug)]
pub enum Content {
    /// A sound board.
    Board(Box<Board>),
    /// A job: one installation of a board; `None` if an error was reported before it was planned.
    Job(Option<Box<PlannedJob>>),
    /// Something that an error was reported of.
    Refused,
}

/// A file that was read and checked.
#[derive(Clone, Debug)]
pub struct Checked {
    /// The file as people are shown it.
    pub shown: String,
    /// Its text and that of its tables.
    pub sources: Sources,
    /// What is wrong with them.
    pub problems: Problems,
    /// What is in it; words that are given by language in English, or else in the first that there is.
    pub content: Content,
    /// The words of the board in other languages, if they are given by language.
    pub spoken: Option<Box<Spoken>>,
}

impl Checked {
    /// A file of which nothing is known yet.
    pub fn new(shown: &str) -> Self {
        Self {
            shown: shown.to_owned(),
            sources: Sources::default(),
            problems: Problems::default(),
            content: Content::Refused,
            spoken: None,
        }
    }

    /// Reports an error that leaves nothing in it.
    pub fn refuse(&mut self, problem: Problem) {
        self.problems.error(problem);
        self.content = Content::Refused;
    }

    /// What is in it, with the words of the board in the language of a tag.
    pub fn content_in(&self, tag: &str) -> Cow<'_, Content> {
        let board = self.spoken.as_ref().and_then(|spoken| spoken.board_in(tag, &self.sources));
        match (board, &self.content) {
            (Some(board), Content::Board(_)) => Cow::Owned(Content::Board(Box::new(board))),
            (Some(board), Content::Job(Some(planned))) => {
                let PlannedJob { job, plan, .. } = (**planned).clone();
                Cow::Owned(Content::Job(Some(Box::new(PlannedJob { board, job, plan }))))
            }
            _ => Cow::Borrowed(&self.content),
        }
    }

    /// Warns if the board's words are given by language and none of them is in that of a tag.
    pub fn warn_of_language(&mut self, tag: &str) {
        let Content::Board(_) = self.content else { return };
        if let Some(problem) = self.spoken.as_ref().and_then(|spoken| spoken.lacks(tag)) {
            self.problems.warning(problem);
        }
    }
}

/// Reads and checks the file of `input`.
pub fn check_file(input: &Input) -> Checked {
    match read(&input.path) {
        Ok(bytes) => {
            let folder = input.path.parent().filter(|parent| !parent.as_os_str().is_empty());
            check_bytes(&input.shown, bytes, folder.unwrap_or(Path::new(".")))
        }
        Err(refused) => {
            let mut checked = Checked::new(&input.shown);
            checked.refuse(refused.of(&input.shown));
            checked
        }
    }
}

/// Checks a text that people are shown as `shown`; the tables that it names lie in or below
/// `folder`.
pub fn check_bytes(shown: &str, bytes: Vec<u8>, folder: &Path) -> Checked {
    check_open(shown, bytes, folder, &|_| None)
}

/// The same, with texts that somebody has open in place of those on disk.
pub fn check_open(shown: &str, bytes: Vec<u8>, folder: &Path, open: &OpenFiles<'_>) -> Checked {
    caught(shown, |checked| judge(checked, bytes, folder, open))
}

/// Checks the text of a board whose tables come from `load`.
pub fn check_board(shown: &str, bytes: Vec<u8>, load: &mut LoadTable<'_>) -> Checked {
    caught(shown, |checked| {
        let Checked { shown, sources, problems, .. } = checked;
        let Ok(file) = spec::admit(shown.as_str(), bytes, sources, problems) else { return };
        if spec::is_job(&sources.file(file).text) {
            checked.content = Content::Job(None);
            return;
        }
        judge_board(checked, file, load);
    })
}

/// Gives the bytes of a table that a board names, or why it cannot.
pub type LoadTable<'a> = dyn FnMut(&str) -> Result<Vec<u8>, String> + 'a;

/// What `judge` makes of a file. If it stops half-way, that is a mistake of ours, and an error of the
/// file.
fn caught(shown: &str, judge: impl FnOnce(&mut Checked)) -> Checked {
    let mut checked = Checked::new(shown);
    let outcome = catch_unwind(AssertUnwindSafe(|| judge(&mut checked)));
    if outcome.is_err() {
        checked.refuse(our_fault(shown, "checking stopped half-way"));
    }
    checked
}

fn judge(checked: &mut Checked, bytes: Vec<u8>, folder: &Path, open: &OpenFiles<'_>) {
    let Checked { shown, sources, problems, content, spoken } = checked;
    let Ok(file) = spec::admit(shown.as_str(), bytes, sources, problems) else { return };
    if spec::is_job(&sources.file(file).text) {
        *content = Content::Job(match job::plan(file, folder, open, (sources, problems)) {
            Ok((planned, words)) => {
                *spoken = words;
                Some(Box::new(planned))
            }
            Err(_) => None,
        });
        return;
    }
    judge_board(checked, file, &mut |table| read_table(folder, table, open));
}

fn judge_board(checked: &mut Checked, file: FileId, load: &mut LoadTable<'_>) {
    let Checked { sources, problems, content, spoken, .. } = checked;
    let Ok(spec) = spec::parse(file, sources, &mut |table: &str| load(table), problems) else {
        return;
    };
    if let Ok(checked) = board::check_languages(&spec, sources, problems) {
        let (board, words) = Spoken::of(spec, checked);
        *content = Content::Board(Box::new(board));
        *spoken = words;
    }
}

/// All files of a board's sheets, or that an error was reported of them.
pub fn sheets(
    board: &Board,
    checked: &mut FileContext<'_>,
    look: &SheetOptions,
    set: &mut Typesetter,
) -> Result<Vec<OutFile>, Reported> {
    catching_panics(checked, set, |texts, set| make_sheets(board, texts, look, set))
}

/// What `make` gives. If it stops half-way, that is a mistake of ours, and an error of the file.
pub fn catching_panics<T>(
    texts: &mut FileContext<'_>,
    set: &mut Typesetter,
    make: impl FnOnce(&mut FileContext<'_>, &mut Typesetter) -> Result<T, Reported>,
) -> Result<T, Reported> {
    let made = catch_unwind(AssertUnwindSafe(|| make(texts, set)));
    made.unwrap_or_else(|_| {
        *set = Typesetter::new();
        let fault = our_fault(texts.shown, "making the sheets stopped half-way");
        Err(texts.problems.error(fault))
    })
}

/// What belongs to a file while its sheets are made.
pub struct FileContext<'a> {
    /// The file as people are shown it.
    pub shown: &'a str,
    /// Takes the texts of the templates.
    pub sources: &'a mut Sources,
    /// Takes what is wrong with them.
    pub problems: &'a mut Problems,
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

fn make_sheets(
    board: &Board,
    texts: &mut FileContext<'_>,
    look: &SheetOptions,
    set: &mut Typesetter,
) -> Result<Vec<OutFile>, Reported> {
    let templates = templates(look, texts)?;
    let figures = sheet::figures(board, templates.words(), set, look.paper);
    let known = sheet::BoardFacts::new(board, &templates);
    let document = sheet::wiring_sheets_of(&known, &figures, look.paper, texts.problems)?;
    let sheets = sheet_file(index::SHEETS, &document, texts, look, set)?;
    let file = texts.shown.rsplit('/').next().unwrap_or_default();
    let form = sheet::intake_form_of(&known, file, texts.problems)?;
    let form = sheet_file(index::FORM, &form, texts, look, set)?;
    let finder = sheet::board_fault_finder_of(&known, texts.problems)?;
    let finder = finder.map(|finder| sheet_file(index::FINDER, &finder, texts, look, set));
    let finder = finder.transpose()?;
    let drawings = drawings(&figures, texts, look)?;
    Ok([sheets, form].into_iter().chain(finder).chain(drawings).collect())
}

/// Figures as files: each as SVG, and as PNG if that is asked for.
pub fn drawings(
    figures: &[Figure],
    texts: &mut FileContext<'_>,
    look: &SheetOptions,
) -> Result<Vec<OutFile>, Reported> {
    let mut files = Vec::new();
    for Figure { name, scene, .. } in figures {
        let file = |ending, bytes| OutFile { name: format!("{name}.{ending}"), bytes };
        files.push(file("svg", write::svg(scene).into_bytes()));
        let Some(dpi) = look.png else { continue };
        match write::png(scene, dpi) {
            Ok(bytes) => files.push(file("png", bytes)),
            Err(PngFault::TooLarge { width, height, most }) => {
                let message = format!(
                    "the figure `{name}` would have {width} by {height} pixels at {} dots to the inch",
                    dpi.get()
                );
                let problem = Problem::of_file(Code::PictureTooLarge, texts.shown, message);
                let help = format!("ask for {most} or fewer with `--png`");
                return Err(texts.problems.error(problem.help(help)));
            }
            Err(PngFault::Undrawn(why)) => {
                return Err(texts.problems.error(our_fault(texts.shown, &why)));
            }
        }
    }
    Ok(files)
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

/// A document as a file of that name, on the paper of the sheets.
pub fn sheet_file(
    name: &str,
    document: &Document,
    texts: &mut FileContext<'_>,
    look: &SheetOptions,
    set: &mut Typesetter,
) -> Result<OutFile, Reported> {
    let bytes = pdf(&page::lay_out(document, look.paper, set), texts)?;
    Ok(OutFile { name: name.to_owned(), bytes })
}

/// Pages as a file.
pub fn pdf(pages: &Pages, texts: &mut FileContext<'_>) -> Result<Vec<u8>, Reported> {
    write::pdf(pages).map_err(|faults| {
        let words: Vec<_> = faults
            .into_iter()
            .map(|fault| match fault.page {
                Some(page) => format!("page {page}: {}", fault.message),
                None => fault.message,
            })
            .collect();
        texts.problems.error(our_fault(texts.shown, &words.join("; ")))
    })
}

/// A mistake of our own.
pub fn our_fault(shown: &str, what: &str) -> Problem {
    Problem::of_file(Code::Internal, shown, format!("{what}; this is a mistake in lidsheet"))
        .help("report it, with this file; the last good sheets were left as they are")
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A board that the checker would never let through stops the drawing half-way.
    #[test]
    fn our_own_mistakes_are_problems() {
        let heron = include_bytes!("../../tests/version-1/heron-8.yaml").to_vec();
        let Checked { shown, mut sources, mut problems, content, .. } =
            check_bytes("heron.yaml", heron, Path::new("."));
        let Content::Board(mut board) = content else { panic!("{:?}", problems.sorted()) };
        board.parts.clear();
        let mut texts =
            FileContext { shown: &shown, sources: &mut sources, problems: &mut problems };
        let look = SheetOptions::new(Paper::A4, crate::words::english(), OwnFolder::default());
        assert!(sheets(&board, &mut texts, &look, &mut Typesetter::new()).is_err());
        let ours = problems.sorted().into_iter().find(|problem| problem.code == Code::Internal);
        assert_eq!(ours.and_then(|problem| problem.file).as_deref(), Some("heron.yaml"));
    }
}
