//! The lid insert of a job that was planned.

use super::compile::{FileContext, SheetOptions, catching_panics, pdf, templates};
use super::index;
use super::job::PlannedJob;
use super::output::OutFile;
use crate::board::{Board, Job};
use crate::decide::{LayoutChoice, Wiring};
use crate::diagnostic::{Code, Problem, Problems, Reported};
use crate::document::{Density, Document};
use crate::page::{self, Pages, Paper};
use crate::sheet::{self, InsertRoom, PlanDetail, Sides, Templates};
use crate::text::Typesetter;

/// How high the board plan may be with its legend, mm: the least at which it can be read, how finely
/// it grows, and how often.
const LEAST: f64 = 45.0;
const STEP: f64 = 2.5;
const STEPS: u32 = 40;

/// How many smaller board plans are tried where the largest loses something.
const OTHER_HEIGHTS: usize = 4;

/// The files of a job, or that an error was reported of it: the job is refused, or the front of its
/// insert is more than a page.
pub fn insert(
    planned: &PlannedJob,
    texts: &mut FileContext<'_>,
    look: &SheetOptions,
    set: &mut Typesetter,
) -> Result<Vec<OutFile>, Reported> {
    catching_panics(texts, set, |texts, set| make_insert(planned, texts, look, set))
}

fn make_insert(
    planned: &PlannedJob,
    texts: &mut FileContext<'_>,
    look: &SheetOptions,
    set: &mut Typesetter,
) -> Result<Vec<OutFile>, Reported> {
    let templates = templates(look, texts)?;
    let pages = insert_pages(planned, &templates, look.paper, set, texts.problems)?;
    let label = templates.words().index_insert();
    let name = index::INSERT.to_owned();
    Ok(vec![OutFile { name, label, bytes: pdf(&pages, texts)? }])
}

/// A job's lid insert: its front on one page, with the largest board plan that it has room for, and
/// the fault finder from the next page on.
///
/// # Errors
/// The job is refused, a template cannot be used, or a page is not enough for the front.
pub fn insert_pages(
    planned: &PlannedJob,
    templates: &Templates,
    paper: Paper,
    set: &mut Typesetter,
    problems: &mut Problems,
) -> Result<Pages, Reported> {
    let PlannedJob { board, job, plan } = planned;
    let Some(decided) = plan.sound() else {
        // The refusal's reasons are among the problems of the file already.
        let ours = Problem::new(Code::Internal, job.span, "a job is refused without a reason");
        return Err(problems.failed().unwrap_or_else(|| problems.error(ours)));
    };
    InsertBuilder { board, job, decided, templates, paper, set }.fitted(problems)
}

/// What the insert of a job says, with an empty space for the board plan; `None` if it is refused.
pub fn insert_words(
    planned: &PlannedJob,
    templates: &Templates,
    paper: Paper,
    set: &mut Typesetter,
    problems: &mut Problems,
) -> Option<Result<Document, Reported>> {
    let PlannedJob { board, job, plan } = planned;
    let decided = plan.sound()?;
    let mut press = InsertBuilder { board, job, decided, templates, paper, set };
    Some(press.document(0, PlanDetail::Space, Sides::Both, problems))
}

/// What an insert is made of.
struct InsertBuilder<'a> {
    board: &'a Board,
    job: &'a Job,
    decided: (&'a LayoutChoice, &'a Wiring),
    templates: &'a Templates,
    paper: Paper,
    set: &'a mut Typesetter,
}

impl InsertBuilder<'_> {
    fn fitted(&mut self, problems: &mut Problems) -> Result<Pages, Reported> {
        let least = self.front(0, problems)?;
        if least != 1 {
            let message = format!("the lid insert needs {least} pages of {}", self.paper.name());
            let problem = Problem::new(Code::InsertTooLong, self.job.span, message);
            return Err(problems.error(
                problem
                    .label("the front of this job's insert must be one page")
                    .help("take larger paper: `--paper a4` or `--paper letter`"),
            ));
        }
        // `low` fits, `high` does not.
        let (mut low, mut high) = (0, STEPS);
        while high - low > 1 {
            let middle = low + (high - low) / 2;
            if self.front(middle, problems)? == 1 {
                low = middle;
            } else {
                high = middle;
            }
        }
        self.drawn(low, problems)
    }

    /// The insert with its board plan: the largest that fits, or one of the next smaller if that
    /// loses something and they do not.
    ///
    /// A plan that is a little smaller has its names elsewhere, so that a lead may find a way.
    fn drawn(&mut self, largest: u32, problems: &mut Problems) -> Result<Pages, Reported> {
        let mut found = Problems::default();
        let first = self.pages(largest, PlanDetail::Drawn, Sides::Both, &mut found);
        if first.is_err() && lost_something(&found) {
            for steps in (0..largest).rev().take(OTHER_HEIGHTS) {
                let mut others = Problems::default();
                let next = self.pages(steps, PlanDetail::Drawn, Sides::Both, &mut others);
                if next.is_ok() {
                    problems.extend(others);
                    return next;
                }
            }
        }
        problems.extend(found);
        first
    }

    /// How many pages the front takes.
    fn front(&mut self, steps: u32, problems: &mut Problems) -> Result<usize, Reported> {
        Ok(self.pages(steps, PlanDetail::Space, Sides::Front, problems)?.pages.len())
    }

    fn pages(
        &mut self,
        steps: u32,
        plan: PlanDetail,
        sides: Sides,
        problems: &mut Problems,
    ) -> Result<Pages, Reported> {
        let document = self.document(steps, plan, sides, problems)?;
        Ok(page::lay_out(&document, self.paper, self.set))
    }

    fn document(
        &mut self,
        steps: u32,
        plan: PlanDetail,
        sides: Sides,
        problems: &mut Problems,
    ) -> Result<Document, Reported> {
        let InsertBuilder { board, job, decided, templates, paper, set } = self;
        let room = InsertRoom {
            paper: *paper,
            column: paper.column(Density::Close, 2),
            plan_height: LEAST + STEP * f64::from(steps),
            plan,
            sides,
        };
        sheet::lid_insert(board, job, *decided, set, room, templates, problems)
    }
}

fn lost_something(problems: &Problems) -> bool {
    let lost = |code| matches!(code, Code::NoRoomForName | Code::NoRoomForLead);
    problems.sorted().iter().any(|problem| lost(problem.code))
}
