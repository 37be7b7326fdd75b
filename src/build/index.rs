//! The list of all sheets that lie in the folder of outputs.
//!
//! It lists what is there, not only what this build made: compiling one board of many must not
//! hide the others, and sheets of an earlier build are still there if a board is refused.

use std::collections::BTreeMap;
use std::fs;
use std::io;
use std::path::Path;

use super::field_page;
use super::output::{self, OutputRoot, Placed, Unwritten};
use crate::board::{About, Board};
use crate::compile::{OutFile, PlannedJob, SheetKind};
use crate::mark::Mark;
use crate::words::{LANGUAGES, Words};
use crate::write::html::{self, Cell, Link, Table};

/// The name of the list.
pub const NAME: &str = "index.html";

/// The course of a board: what `build` never makes, and lists where it lies.
pub const HANDOUT: &str = "course-handout.pdf";
/// Its answers.
pub const ANSWERS: &str = "course-answers.pdf";
/// Its cards.
pub const CARDS: &str = "course-cards.pdf";
/// The change sheet of two boards.
pub const CHANGES: &str = "change-sheet.pdf";
/// The drawing that stands for a board or a job.
const PLAN: &str = "board-plan.svg";

/// What a build knows of the file that a folder has the sheets of.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Listed {
    subject: Subject,
    /// How many errors refused it; `None` if its sheets were made.
    refused: Option<usize>,
    /// The marks of what it says now, by language.
    marks: Vec<(String, Mark)>,
}

#[derive(Clone, Debug, PartialEq, Eq)]
enum Subject {
    Board(BoardWords),
    Job {
        name: String,
        customer: Option<String>,
        board: BoardWords,
        /// `None` if the job is refused.
        layout: Option<String>,
        supply: String,
    },
    /// A file that could not be read so far.
    Unknown,
}

#[derive(Clone, Debug, PartialEq, Eq)]
struct BoardWords {
    name: String,
    maker: String,
    part: String,
    revision: String,
    dated: String,
}

impl BoardWords {
    fn of(board: &Board) -> Self {
        let About { name, maker, part, revision, dated, .. } = &board.about;
        Self {
            name: name.clone(),
            maker: maker.clone(),
            part: part.clone(),
            revision: revision.clone(),
            dated: dated.to_string(),
        }
    }
}

impl Listed {
    /// How the sheets of a board are listed.
    pub fn of_board(board: &Board) -> Self {
        Self { subject: Subject::Board(BoardWords::of(board)), refused: None, marks: Vec::new() }
    }

    /// How the sheets of a job are listed.
    pub fn of_job(planned: &PlannedJob) -> Self {
        let PlannedJob { board, job, plan } = planned;
        let subject = Subject::Job {
            name: job.name.clone(),
            customer: job.customer.clone(),
            board: BoardWords::of(board),
            layout: plan.sound().map(|(layout, _)| layout.number.to_string()),
            supply: board[job.supply.value].title.clone(),
        };
        Self { subject, refused: None, marks: Vec::new() }
    }

    /// How the sheets of a file are listed of which no more than the name is known.
    pub fn unknown() -> Self {
        Self { subject: Subject::Unknown, refused: None, marks: Vec::new() }
    }

    /// The same, refused because of so many errors; `None` if its sheets were made.
    pub fn refused(self, errors: Option<usize>) -> Self {
        Self { refused: errors, ..self }
    }

    /// The same with the marks of its sheets.
    pub fn marked(self, marks: Vec<(String, Mark)>) -> Self {
        Self { marks, ..self }
    }

    /// Whether its sheets were made.
    pub fn is_made(&self) -> bool {
        self.refused.is_none()
    }
}

/// Puts the list into the folder of outputs. `known` are the folders of this build's files; `field_page` says
/// whether this build made the field page.
///
/// # Errors
/// If it cannot be written.
pub fn place(
    words: &Words,
    root: &OutputRoot,
    known: &BTreeMap<String, Listed>,
    field_page: bool,
) -> Result<Placed, Unwritten> {
    let out = root.path();
    let field = field_page::lies_in(out).then(|| {
        let link = Link { label: words.field_title(), path: field_page::NAME.to_owned() };
        let earlier = if field_page { String::new() } else { words.index_earlier() };
        (link, earlier)
    });
    let mut tables = Tables::default();
    for (folder, listed) in known {
        tables.push(words, out, folder, Some(listed));
    }
    for folder in folders(out).map_err(|error| output::unwritten(out, &error))? {
        if !known.contains_key(&folder) {
            tables.push(words, out, &folder, None);
        }
    }
    let page = html::index(&html::Index {
        language: words.tag().to_owned(),
        title: words.index_title(),
        skip: words.index_skip(),
        first: field,
        empty: words.index_empty(),
        tables: tables.with_heads(words),
    });
    root.place_here(&[OutFile { name: NAME.to_owned(), bytes: page.into_bytes() }])
}

/// The rows of the page.
#[derive(Default)]
struct Tables {
    boards: Vec<Vec<Cell>>,
    jobs: Vec<Vec<Cell>>,
    others: Vec<Vec<Cell>>,
}

impl Tables {
    /// A folder with what is known of it, if it holds sheets or this build refused its file.
    fn push(&mut self, words: &Words, out: &Path, folder: &str, listed: Option<&Listed>) {
        let subject = listed.map_or(&Subject::Unknown, |listed| &listed.subject);
        let of = match subject {
            Subject::Board(board) => board.name.clone(),
            Subject::Job { name, .. } => words.index_job(name),
            Subject::Unknown => folder.to_owned(),
        };
        let found = Found::of(words, out, folder, &of);
        let refused = listed.and_then(|listed| listed.refused);
        if found.files.is_empty() && refused.is_none() {
            return;
        }
        let alert = match (listed, refused) {
            (None, _) => None,
            (Some(_), None) => None,
            (Some(_), Some(errors)) => Some(words.index_refused(errors, !found.files.is_empty())),
        };
        let files = Cell {
            alert,
            links: found.files,
            more: (!found.drawings.is_empty())
                .then(|| (words.index_drawings_of(&of), found.drawings)),
            ..Cell::default()
        };
        let plan = Cell { picture: found.plan, ..Cell::default() };
        // What was refused has sheets of an earlier state, with a mark that was then.
        let marks = listed.filter(|listed| listed.is_made()).map(|listed| listed.marks.as_slice());
        let mark = Cell::of(marks_words(words, marks.unwrap_or_default()));
        match subject {
            Subject::Board(board) => self.boards.push(vec![
                Cell::of(&board.name),
                plan,
                Cell::of(&board.maker),
                Cell::of(&board.part),
                Cell::of(words.index_revision(&board.revision, &board.dated)),
                mark,
                files,
            ]),
            Subject::Job { name, customer, board, layout, supply } => self.jobs.push(vec![
                Cell::of(name),
                plan,
                Cell::of(customer.clone().unwrap_or_else(|| words.index_unknown())),
                Cell::of(&board.name),
                Cell::of(words.index_revision(&board.revision, &board.dated)),
                mark,
                Cell::of(layout.clone().unwrap_or_else(|| words.index_unknown())),
                Cell::of(supply),
                files,
            ]),
            Subject::Unknown => {
                let earlier = listed.is_none().then(|| words.index_earlier());
                self.others.push(vec![
                    Cell::of(folder),
                    plan,
                    Cell { text: earlier.unwrap_or_default(), ..files },
                ]);
            }
        }
    }

    fn with_heads(self, words: &Words) -> Vec<Table> {
        let boards = vec![
            words.index_board(),
            words.index_plan(),
            words.index_maker(),
            words.index_part(),
            words.index_revision_head(),
            words.index_mark(),
            words.index_files(),
        ];
        let jobs = vec![
            words.index_job_head(),
            words.index_plan(),
            words.index_place(),
            words.index_board(),
            words.index_revision_head(),
            words.index_mark(),
            words.index_layout(),
            words.index_supply(),
            words.index_files(),
        ];
        let others = vec![words.index_folder(), words.index_plan(), words.index_files()];
        vec![
            table(words.index_boards(), boards, self.boards),
            table(words.index_jobs(), jobs, self.jobs),
            table(words.index_others(), others, self.others),
        ]
    }
}

/// The mark; of several languages each with its tag.
fn marks_words(words: &Words, marks: &[(String, Mark)]) -> String {
    match marks {
        [] => words.index_unknown(),
        [(_, mark)] => mark.to_string(),
        several => {
            let one =
                |(tag, mark): &(String, Mark)| words.index_in_language(&mark.to_string(), tag);
            several
                .iter()
                .map(one)
                .reduce(|all, next| words.semicolon(&all, &next))
                .unwrap_or_default()
        }
    }
}

/// The second column holds the pictures; it is left out if there are none.
fn table(caption: String, mut head: Vec<String>, mut rows: Vec<Vec<Cell>>) -> Table {
    let pictured = |row: &Vec<Cell>| row.get(1).is_some_and(|cell| cell.picture.is_some());
    if !rows.iter().any(pictured) {
        for row in &mut rows {
            row.remove(1);
        }
        head.remove(1);
    }
    Table { caption, head, rows }
}

/// What lies in a folder.
struct Found {
    files: Vec<Link>,
    drawings: Vec<Link>,
    plan: Option<Link>,
}

impl Found {
    /// `of` says whose sheets they are: each link is told from all others of the page.
    fn of(words: &Words, out: &Path, folder: &str, of: &str) -> Self {
        let inside = out.join(folder);
        let path = |name: &str| format!("{folder}/{name}");
        let sheets = [
            (SheetKind::WiringSheets.file(), words.index_sheets_of(of)),
            (SheetKind::IntakeForm.file(), words.index_form_of(of)),
            (SheetKind::WorkCard.file(), words.index_work_card_of(of)),
            (SheetKind::LidInsert.file(), words.index_insert_of(of)),
            (SheetKind::FaultFinder.file(), words.index_finder_of(of)),
            (HANDOUT, words.index_handout_of(of)),
            (ANSWERS, words.index_answers_of(of)),
            (CARDS, words.index_cards_of(of)),
        ];
        let mut found = Self { files: Vec::new(), drawings: Vec::new(), plan: None };
        // The sheets themselves, or those of each language in a folder of its own.
        let languages =
            LANGUAGES.iter().map(|language| (format!("{}/", language.tag), language.name));
        for (part, language) in [(String::new(), "")].into_iter().chain(languages) {
            let said = |what: String| match language {
                "" => what,
                language => words.index_in_language(&what, language),
            };
            let folder = inside.join(&part);
            let link = |name: &str, label| Link { label, path: path(&format!("{part}{name}")) };
            for (name, what) in &sheets {
                let file = folder.join(name);
                if file.is_file() {
                    let label = words.index_pdf(&said(what.clone()), pages(&file).unwrap_or(0));
                    found.files.push(link(name, label));
                }
            }
            for name in drawings(&folder) {
                let what = words.index_drawing_of(name.trim_end_matches(".svg"), of);
                found.drawings.push(link(&name, words.index_svg(&said(what))));
            }
            if found.plan.is_none() && folder.join(PLAN).is_file() {
                found.plan = Some(link(PLAN, words.index_svg(&words.index_plan_of(of))));
            }
        }
        found
    }
}

/// The drawings in a folder but the plan, which has a picture; by name.
fn drawings(folder: &Path) -> Vec<String> {
    let Ok(entries) = fs::read_dir(folder) else { return Vec::new() };
    let mut found: Vec<String> = entries
        .filter_map(|entry| entry.ok()?.file_name().into_string().ok())
        .filter(|name| name.ends_with(".svg") && !name.starts_with('.') && name != PLAN)
        .collect();
    found.sort();
    found
}

/// How many pages a PDF of ours has: what the root of its page tree counts. `None` for a file that
/// does not say it in plain text.
fn pages(path: &Path) -> Option<usize> {
    const COUNT: &[u8] = b"/Type/Pages/Count ";
    let bytes = fs::read(path).ok()?;
    let counts = bytes.windows(COUNT.len()).enumerate().filter(|(_, found)| *found == COUNT);
    let numbers = counts.filter_map(|(at, _)| {
        let rest = bytes.get(at + COUNT.len()..)?;
        let digits: Vec<u8> = rest.iter().copied().take_while(u8::is_ascii_digit).take(9).collect();
        String::from_utf8(digits).ok()?.parse().ok()
    });
    // The root counts all that the nodes below it count.
    numbers.max()
}

/// The folders in `out`, by name; none whose name is hidden or is no text.
fn folders(out: &Path) -> io::Result<Vec<String>> {
    let mut found = Vec::new();
    for entry in fs::read_dir(out)? {
        let entry = entry?;
        if let Ok(name) = entry.file_name().into_string()
            && !name.starts_with('.')
            && entry.path().is_dir()
        {
            found.push(name);
        }
    }
    found.sort();
    Ok(found)
}
