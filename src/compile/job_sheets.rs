//! The sheets of a job that was planned: its work card, its lid insert, its fault finder and its board plan.

use super::board_sheets::{drawings, sheet_file};
use super::look::{SheetOptions, templates};
use super::making::{FileContext, OutFile, catching_panics};
use super::planned_job::PlannedJob;
use super::sheet_kind::SheetKind;
use crate::diagnostic::{Code, Problem, Problems, Reported};
use crate::document::Document;
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
    let card = sheet::work_card(&job, set, look.paper, &templates, texts.problems)?;
    let card = sheet_file(SheetKind::WorkCard.file(), &card, texts, look, set)?;
    let plans = sheet::job_board_plans(&job, templates.words(), set, look.paper);
    let drawings = drawings(&plans, texts, look)?;
    let insert = sheet::lid_insert(&job, plans, set, look.paper, &templates, texts.problems)?;
    let insert = sheet_file(SheetKind::LidInsert.file(), &insert, texts, look, set)?;
    let finder = sheet::job_fault_finder(&job, &templates, texts.problems)?;
    let finder = sheet_file(SheetKind::FaultFinder.file(), &finder, texts, look, set)?;
    Ok([card, insert, finder].into_iter().chain(drawings).collect())
}

/// What a kind of sheets of a job says; nothing if it is a kind of a board.
///
/// # Errors
/// The job is refused, a template cannot be used, or the board plan has no room for all that the job
/// needs.
pub fn job_document(
    planned: &PlannedJob,
    kind: SheetKind,
    (templates, paper): (&Templates, Paper),
    set: &mut Typesetter,
    problems: &mut Problems,
) -> Result<Option<Document>, Reported> {
    let job = sound(planned, problems)?;
    Ok(Some(match kind {
        SheetKind::WorkCard => sheet::work_card(&job, set, paper, templates, problems)?,
        SheetKind::LidInsert => {
            let plans = sheet::job_board_plans(&job, templates.words(), set, paper);
            sheet::lid_insert(&job, plans, set, paper, templates, problems)?
        }
        SheetKind::FaultFinder => sheet::job_fault_finder(&job, templates, problems)?,
        SheetKind::WiringSheets | SheetKind::IntakeForm => return Ok(None),
    }))
}

/// The same, laid out.
///
/// # Errors
/// As [`job_document`].
pub fn job_pages(
    planned: &PlannedJob,
    kind: SheetKind,
    (templates, paper): (&Templates, Paper),
    set: &mut Typesetter,
    problems: &mut Problems,
) -> Result<Option<Pages>, Reported> {
    let document = job_document(planned, kind, (templates, paper), set, problems)?;
    Ok(document.map(|document| page::lay_out(&document, paper, set)))
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
    let finder = sheet::job_fault_finder(&job, templates, problems);
    let all = [("work card", card), ("lid insert", insert), ("fault finder", finder)];
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
