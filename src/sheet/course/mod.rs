//! A course: the handout with its exercises, the answers, and the exercises as cards.

pub mod example;
mod figures;

use minijinja::Value;

use super::Figure;
use super::compose::{Material, compose, piece};
use super::facts::course::{ExerciseFacts, On, exercise};
use super::facts::course::{facts_of_course, with_example, with_exercise};
use super::templates::Templates;
use crate::board::Board;
use crate::decide::exercises::Exercise;
use crate::diagnostic::{Problems, Reported};
use crate::document::{Block, Density, Document, Paper};
use crate::meaning;
use crate::text::Typesetter;
use crate::words::Words;

/// What a course is made of.
#[derive(Clone, Copy)]
pub struct Course<'a> {
    /// The board.
    pub board: &'a Board,
    /// The exercises in their order.
    pub exercises: &'a [Exercise],
    /// The number that they were made from.
    pub seed: u64,
}

/// The handout: how to read the sheets of the board, its tables, a worked example, the exercises.
/// No answer stands in it.
///
/// # Errors
/// A template that cannot be filled, or that holds what a sheet cannot hold; a board plan that has
/// no room for all of the board.
pub fn course_handout(
    course: &Course<'_>,
    set: &mut Typesetter,
    paper: Paper,
    templates: &Templates,
    problems: &mut Problems,
) -> Result<Document, Reported> {
    let example = example::example(course.board, course.exercises, course.seed);
    let (words, width) = (templates.words(), paper.area().width());
    let mut figures = figures::of_board(course.board, words, set, paper);
    figures.extend(figures::to_fill_in(course.board, course.exercises, words, set, width));
    figures.extend(figures::of_example(course.board, example.as_ref(), words, set, width));
    let mut facts = facts_of(words, course, &figures);
    let mut pieces = asked(course, (&facts, On::Page), &figures, templates, problems)?;
    if let Some(example) = &example {
        facts = with_example(templates.words(), &facts, course.board, example);
        let blocks = one(templates, "example", &facts, &figures, problems)?;
        pieces.push(("example".to_owned(), blocks));
    } else {
        pieces.push(("example".to_owned(), Vec::new()));
    }
    let sheet = Sheet { name: "handout", density: Density::Roomy };
    composed(course, &sheet, &facts, (&figures, &pieces), templates, problems)
}

/// The answers: for each exercise the right one, why, and the mistake behind each wrong one that
/// tempts.
///
/// # Errors
/// As [`course_handout`].
pub fn answer_sheet(
    course: &Course<'_>,
    set: &mut Typesetter,
    paper: Paper,
    templates: &Templates,
    problems: &mut Problems,
) -> Result<Document, Reported> {
    let (words, width) = (templates.words(), paper.area().width());
    let figures = figures::filled_in(course.board, course.exercises, words, set, width);
    let facts = facts_of(words, course, &figures);
    let mut pieces = Vec::new();
    for ex in numbered(templates.words(), course) {
        let facts = with_exercise(&facts, &ex, On::Page);
        let blocks = one(templates, "answer", &facts, &figures, problems)?;
        pieces.push((format!("answer {}", ex.number()), blocks));
    }
    let sheet = Sheet { name: "answers", density: Density::Roomy };
    composed(course, &sheet, &facts, (&figures, &pieces), templates, problems)
}

/// The exercises as cards to be cut out, each `width` mm wide inside.
///
/// # Errors
/// As [`course_handout`].
pub fn course_cards(
    course: &Course<'_>,
    set: &mut Typesetter,
    (width, density): (f64, Density),
    templates: &Templates,
    problems: &mut Problems,
) -> Result<Document, Reported> {
    let words = templates.words();
    let figures = figures::to_fill_in(course.board, course.exercises, words, set, width);
    let facts = facts_of(words, course, &figures);
    let asked = asked(course, (&facts, On::Card), &figures, templates, problems)?;
    let cards = asked.into_iter().map(|(_, blocks)| blocks).collect();
    let pieces = vec![("cards".to_owned(), vec![Block::Cards(cards)])];
    let sheet = Sheet { name: "cards", density };
    composed(course, &sheet, &facts, (&figures, &pieces), templates, problems)
}

fn facts_of(words: &Words, course: &Course<'_>, figures: &[Figure]) -> Value {
    let names: Vec<(String, String)> =
        figures.iter().map(|f| (f.name.clone(), f.scene.title.clone())).collect();
    facts_of_course(words, course.board, (course.exercises, course.seed), &names)
}

fn numbered<'a>(
    words: &'a Words,
    course: &'a Course<'_>,
) -> impl Iterator<Item = ExerciseFacts> + 'a {
    let Course { board, exercises, .. } = *course;
    (1..).zip(exercises).map(move |(number, ex)| exercise(words, board, number, ex))
}

/// Every exercise as it is asked, under the name `exercise N`.
fn asked(
    course: &Course<'_>,
    (facts, on): (&Value, On),
    figures: &[Figure],
    templates: &Templates,
    problems: &mut Problems,
) -> Result<Vec<(String, Vec<Block>)>, Reported> {
    numbered(templates.words(), course)
        .map(|ex| {
            let facts = with_exercise(facts, &ex, on);
            let blocks = one(templates, "exercise", &facts, figures, problems)?;
            Ok((format!("exercise {}", ex.number()), blocks))
        })
        .collect()
}

/// One piece, of the template of a name.
fn one(
    templates: &Templates,
    name: &str,
    facts: &Value,
    figures: &[Figure],
    problems: &mut Problems,
) -> Result<Vec<Block>, Reported> {
    let mut blocks = Vec::new();
    for template in templates.named(name) {
        blocks.extend(piece(template, facts, figures, problems)?);
    }
    Ok(blocks)
}

struct Sheet {
    name: &'static str,
    density: Density,
}

fn composed(
    course: &Course<'_>,
    sheet: &Sheet,
    facts: &Value,
    (figures, pieces): (&[Figure], &[(String, Vec<Block>)]),
    templates: &Templates,
    problems: &mut Problems,
) -> Result<Document, Reported> {
    let mark = templates.mark(&[&meaning::of_board(course.board)]);
    let material = Material {
        figures,
        pieces,
        ..Material::new(course.board, templates, sheet.name, facts, mark, sheet.density)
    };
    compose(&material, problems)
}
