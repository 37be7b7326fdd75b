//! The sheets of a job that was planned: its work card, its lid insert and its board plan.

use super::compile::{FileContext, SheetOptions, catching_panics, drawings, pdf, templates};
use super::index;
use super::job::PlannedJob;
use super::output::OutFile;
use crate::diagnostic::{Code, Problem, Problems, Reported};
use crate::document::{Block, Document};
use crate::page::{self, Pages, Paper};
use crate::sheet::{self, Figure, SoundJob, Templates};
use crate::text::Typesetter;

/// The files of a job, or that an error was reported of it.
pub fn job_sheets(
    planned: &PlannedJob,
    texts: &mut FileContext<'_>,
    look: &SheetOptions,
    set: &mut Typesetter,
) -> Result<Vec<OutFile>, Reported> {
    catching_panics(texts, set, |texts, set| make_sheets(planned, texts, look, set))
}

fn make_sheets(
    planned: &PlannedJob,
    texts: &mut FileContext<'_>,
    look: &SheetOptions,
    set: &mut Typesetter,
) -> Result<Vec<OutFile>, Reported> {
    let templates = templates(look, texts)?;
    let job = sound(planned, texts.problems)?;
    let card = card_of(&job, &templates, look.paper, set, texts.problems)?;
    let plans = sheet::job_board_plans(&job, templates.words(), set, look.paper);
    let drawings = drawings(&plans, texts, look)?;
    let insert = insert_of(&job, plans, &templates, look.paper, set, texts.problems)?;
    let card = OutFile { name: index::CARD.to_owned(), bytes: pdf(&card, texts)? };
    let insert = OutFile { name: index::INSERT.to_owned(), bytes: pdf(&insert, texts)? };
    Ok([card, insert].into_iter().chain(drawings).collect())
}

/// A job's work card.
///
/// # Errors
/// The job is refused, or a template cannot be used.
pub fn card_pages(
    planned: &PlannedJob,
    templates: &Templates,
    paper: Paper,
    set: &mut Typesetter,
    problems: &mut Problems,
) -> Result<Pages, Reported> {
    card_of(&sound(planned, problems)?, templates, paper, set, problems)
}

fn card_of(
    job: &SoundJob<'_>,
    templates: &Templates,
    paper: Paper,
    set: &mut Typesetter,
    problems: &mut Problems,
) -> Result<Pages, Reported> {
    let document = sheet::work_card(job, set, paper, templates, problems)?;
    Ok(page::lay_out(&document, paper, set))
}

/// A job's lid insert: how its control box is wired, and after it the fault finder, from a new page
/// on unless the last page before it holds only a few lines.
///
/// # Errors
/// The job is refused, a template cannot be used, or the board plan has no room for all that the job
/// needs.
pub fn insert_pages(
    planned: &PlannedJob,
    templates: &Templates,
    paper: Paper,
    set: &mut Typesetter,
    problems: &mut Problems,
) -> Result<Pages, Reported> {
    let job = sound(planned, problems)?;
    let plans = sheet::job_board_plans(&job, templates.words(), set, paper);
    insert_of(&job, plans, templates, paper, set, problems)
}

fn insert_of(
    job: &SoundJob<'_>,
    plans: Vec<Figure>,
    templates: &Templates,
    paper: Paper,
    set: &mut Typesetter,
    problems: &mut Problems,
) -> Result<Pages, Reported> {
    let mut document = sheet::lid_insert(job, plans, set, paper, templates, problems)?;
    let back = document.blocks.iter().position(|block| *block == Block::PageBreak);
    if let Some(back) = back {
        let blocks = document.blocks.get(..back).unwrap_or_default().to_vec();
        let front = page::lay_out(&Document { blocks, ..document.clone() }, paper, set);
        if front.pages.len() > 1 && last_page(&front) < LEAST {
            document.blocks.remove(back);
        }
    }
    Ok(page::lay_out(&document, paper, set))
}

/// Where the last page of what comes before the fault finder is filled less than this, the fault
/// finder begins on it: no page is there for a few lines.
const LEAST: f64 = 0.6;

/// How far down the last page is filled, as a part of its height.
fn last_page(pages: &Pages) -> f64 {
    let boxes = pages.pages.last().map(|page| page.text_boxes()).unwrap_or_default();
    let bottoms = boxes.iter().map(|(area, _)| area.bottom);
    let lowest = bottoms.filter(|bottom| *bottom <= pages.area.bottom).fold(0.0, f64::max);
    (lowest - pages.area.top) / pages.area.height()
}

/// What the sheets of a job say, each with its name, without the board plan; none if it is refused.
pub fn job_words(
    planned: &PlannedJob,
    templates: &Templates,
    paper: Paper,
    set: &mut Typesetter,
    problems: &mut Problems,
) -> Vec<(&'static str, Document)> {
    let PlannedJob { board, job, plan } = planned;
    let Some(job) = SoundJob::of(board, job, plan) else { return Vec::new() };
    let card = sheet::work_card(&job, set, paper, templates, problems);
    let space = vec![Figure::no_board_plan()];
    let insert = sheet::lid_insert(&job, space, set, paper, templates, problems);
    let all = [("work card", card), ("lid insert", insert)];
    all.into_iter().filter_map(|(name, made)| Some((name, made.ok()?))).collect()
}

/// The job, if it may be wired as it is planned.
fn sound<'a>(planned: &'a PlannedJob, problems: &mut Problems) -> Result<SoundJob<'a>, Reported> {
    let PlannedJob { board, job, plan } = planned;
    SoundJob::of(board, job, plan).ok_or_else(|| {
        // The refusal's reasons are among the problems of the file already.
        let ours = Problem::new(Code::Internal, job.span, "a job is refused without a reason");
        problems.failed().unwrap_or_else(|| problems.error(ours))
    })
}
