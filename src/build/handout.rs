//! The course of one board: a handout with exercises, the answers, and if wanted the cards.

use std::path::{Path, PathBuf};

use super::index::{ANSWERS, CARDS, HANDOUT};
use super::output::{OutputRoot, Placed};
use super::own::own_folder;
use super::state::note_other;
use super::unwritten;
use crate::board::Board;
use crate::compile::{
    Checked, Content, FileContext, OutFile, SheetOptions, catching_panics, pdf, templates,
};
use crate::decide::exercises::{Exercise, exercises};
use crate::diagnostic::{Problems, Reported};
use crate::document::Density;
use crate::page::{self, Pages, Paper};
use crate::sheet::{self, Course, Templates};
use crate::text::Typesetter;
use crate::words::Language;

/// What to make of a board, and where to.
#[derive(Clone, Debug)]
pub struct HandoutOrder {
    /// How many exercises.
    pub exercises: usize,
    /// The number that they are made from: the same number gives the same exercises.
    pub seed: u64,
    /// Whether they are printed as cards, too.
    pub cards: Cards,
    /// The folder that outputs go to; those of a board lie in a folder of it.
    pub out: PathBuf,
    /// The name of the board's folder in `out`.
    pub stem: String,
    /// The file of the board, which the manifest of the outputs knows it by; `None` if there is none.
    pub input: Option<PathBuf>,
    /// The paper.
    pub paper: Paper,
    /// The language.
    pub language: &'static Language,
    /// A folder with templates of the user's own.
    pub templates: Option<PathBuf>,
}

/// Whether the exercises are printed as cards.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Cards {
    /// They are not.
    None,
    /// They are.
    Printed,
}

/// What came of a handout.
#[derive(Clone, Debug, Default)]
pub struct HandoutReport {
    /// Problems that belong to no file's text.
    pub general: Problems,
    /// What was made; `None` if there is an error.
    pub made: Option<HandoutMade>,
}

/// What was made of a board.
#[derive(Clone, Debug)]
pub struct HandoutMade {
    /// How many exercises the board gave.
    pub exercises: usize,
    /// What became of the files.
    pub placed: Placed,
    /// Cards of an earlier handout in the same folder, which this one did not make.
    pub older_cards: Option<String>,
}

/// Makes the course of a checked board; its problems go to those of `checked`.
pub fn handout(checked: &mut Checked, order: &HandoutOrder) -> HandoutReport {
    let mut report = HandoutReport::default();
    let folder = order.templates.as_ref();
    let own = folder.map(|folder| own_folder(folder, &mut report.general));
    let Content::Board(first) = checked.content.clone() else { return report };
    if report.general.failed().is_some() {
        return report;
    }
    let look = SheetOptions::new(order.paper, order.language, own.unwrap_or_default());
    checked.warn_of_language(look.words.tag());
    let spoken = checked.content_in(look.words.tag()).into_owned();
    let Content::Board(board) = spoken else { return report };
    let Checked { shown, sources, problems, .. } = checked;
    let mut given = 0;
    let mut set = Typesetter::new();
    let mut texts = FileContext { shown, sources, problems };
    let files = catching_panics(&mut texts, &mut set, |texts, set| {
        let all = exercises(&first, order.exercises, order.seed);
        given = all.len();
        if all.is_empty() { Ok(Vec::new()) } else { make(&board, &all, texts, &look, order, set) }
    });
    let Ok(files) = files else { return report };
    if files.is_empty() {
        report.made =
            Some(HandoutMade { exercises: 0, placed: Placed::default(), older_cards: None });
        return report;
    }
    let folder = order.out.join(&order.stem);
    let placed = OutputRoot::open(&order.out, &|| true).and_then(|root| {
        root.clear_left_over();
        root.place(&order.stem, &files)
    });
    match placed {
        // Drawings in the folder are those of the sheets; they are none of a handout's business.
        Ok(placed) => {
            let placed = Placed { stale: Vec::new(), ..placed };
            if let Some(input) = &order.input {
                let path = |(name, sum): &(String, String)| {
                    (format!("{}/{name}", order.stem), sum.clone())
                };
                let files = ("handout", placed.sums.iter().map(path).collect());
                let noted = note_other(&order.out, (checked, input), &order.stem, files);
                if let Err(problem) = noted {
                    report.general.error(*problem);
                }
            }
            let older_cards = older_cards(&folder, order.cards);
            report.made = Some(HandoutMade { exercises: given, placed, older_cards });
        }
        Err(error) => drop(report.general.error(unwritten(error))),
    }
    report
}

fn older_cards(folder: &Path, cards: Cards) -> Option<String> {
    let path = folder.join(CARDS);
    (cards == Cards::None && path.is_file()).then(|| super::find::shown(&path))
}

/// The name of the folder of a board that comes without a file: its own name, in small letters,
/// digits and dashes.
pub fn stem_of(board: &Board) -> String {
    let mut stem = String::new();
    for c in board.about.name.chars().flat_map(char::to_lowercase) {
        if c.is_alphanumeric() {
            stem.push(c);
        } else if !stem.is_empty() && !stem.ends_with('-') {
            stem.push('-');
        }
    }
    let stem = stem.trim_end_matches('-');
    if stem.is_empty() { "board".to_owned() } else { stem.to_owned() }
}

fn make(
    board: &Board,
    all: &[Exercise],
    texts: &mut FileContext<'_>,
    look: &SheetOptions,
    order: &HandoutOrder,
    set: &mut Typesetter,
) -> Result<Vec<OutFile>, Reported> {
    let templates = templates(look, texts)?;
    let paper = look.paper;
    let documents = {
        let course = Course { board, exercises: all, seed: order.seed };
        let problems = &mut *texts.problems;
        let handout = sheet::course_handout(&course, set, paper, &templates, problems)?;
        let answers = sheet::answer_sheet(&course, set, paper, &templates, problems)?;
        let handout = page::lay_out(&handout, paper, set);
        let answers = page::lay_out(&answers, paper, set);
        let cards = match order.cards {
            Cards::None => None,
            Cards::Printed => Some(card_pages(&course, paper, set, &templates, problems)?),
        };
        [Some((HANDOUT, handout)), Some((ANSWERS, answers)), cards.map(|cards| (CARDS, cards))]
    };
    let mut files = Vec::new();
    for (name, pages) in documents.into_iter().flatten() {
        let bytes = pdf(&pages, texts)?;
        files.push(OutFile { name: name.to_owned(), bytes });
    }
    Ok(files)
}

/// The cards, as many on a page as it has room for.
fn card_pages(
    course: &Course<'_>,
    paper: Paper,
    set: &mut Typesetter,
    templates: &Templates,
    problems: &mut Problems,
) -> Result<Pages, Reported> {
    let room = (paper.card(Density::Roomy), Density::Roomy);
    let document = sheet::course_cards(course, set, room, templates, problems)?;
    Ok(page::lay_out(&document, paper, set))
}
