//! The lid insert of a job that was planned.

use super::compile::{Look, Texts, pdf, templates, undisturbed};
use super::index;
use super::job::PlannedJob;
use super::output::OutFile;
use crate::board::{Board, Job};
use crate::decide::{LayoutChoice, Wiring};
use crate::diagnostic::{Code, Problem, Reported};
use crate::document::Density;
use crate::page::{self, Pages, Paper};
use crate::sheet::{self, InsertRoom, PlanDetail, Templates};
use crate::text::Typesetter;

/// How high the board plan may be with its legend, mm: the least at which it can be read, how finely it grows, and
/// how often.
const LEAST: f64 = 45.0;
const STEP: f64 = 2.5;
const STEPS: u32 = 40;

/// The files of a job, or that an error was reported of it: the job is refused, or its insert is
/// more than a page.
pub fn insert(
    planned: &PlannedJob,
    texts: &mut Texts<'_>,
    look: &Look,
    set: &mut Typesetter,
) -> Result<Vec<OutFile>, Reported> {
    undisturbed(texts, set, |texts, set| make_insert(planned, texts, look, set))
}

fn make_insert(
    planned: &PlannedJob,
    texts: &mut Texts<'_>,
    look: &Look,
    set: &mut Typesetter,
) -> Result<Vec<OutFile>, Reported> {
    let PlannedJob { board, job, plan } = planned;
    let Some(decided) = plan.sound() else {
        let ours = || Problem::of_file(Code::Internal, texts.shown, "a refusal has no reason");
        return Err(texts.problems.failed().unwrap_or_else(|| texts.problems.error(ours())));
    };
    let templates = templates(look, texts)?;
    let mut press = Press { board, job, decided, templates: &templates, paper: look.paper, set };
    let pages = press.fitted(texts)?;
    let label = "Lid insert, PDF".to_owned();
    let name = index::INSERT.to_owned();
    Ok(vec![OutFile { name, label, bytes: pdf(&pages, texts)? }])
}

/// What an insert is made of.
struct Press<'a> {
    board: &'a Board,
    job: &'a Job,
    decided: (&'a LayoutChoice, &'a Wiring),
    templates: &'a Templates,
    paper: Paper,
    set: &'a mut Typesetter,
}

impl Press<'_> {
    /// The insert with the largest board plan that one page has room for.
    fn fitted(&mut self, texts: &mut Texts<'_>) -> Result<Pages, Reported> {
        let least = self.pages(0, PlanDetail::Space, texts)?.pages.len();
        if least != 1 {
            let message = format!("the lid insert needs {least} pages of {}", name(self.paper));
            let problem = Problem::new(Code::InsertTooLong, self.job.span, message);
            return Err(texts.problems.error(
                problem
                    .label("this job's insert must be one page")
                    .help("take larger paper: `--paper a4` or `--paper letter`"),
            ));
        }
        // `low` fits, `high` does not.
        let (mut low, mut high) = (0, STEPS);
        while high - low > 1 {
            let middle = low + (high - low) / 2;
            if self.pages(middle, PlanDetail::Space, texts)?.pages.len() == 1 {
                low = middle;
            } else {
                high = middle;
            }
        }
        self.pages(low, PlanDetail::Drawn, texts)
    }

    fn pages(
        &mut self,
        steps: u32,
        plan: PlanDetail,
        texts: &mut Texts<'_>,
    ) -> Result<Pages, Reported> {
        let Press { board, job, decided, templates, paper, set } = self;
        let room = InsertRoom {
            page: paper.area_for(Density::Close).size(),
            column: paper.column(Density::Close, 2),
            plan_height: LEAST + STEP * f64::from(steps),
            plan,
        };
        let document =
            sheet::lid_insert(board, job, *decided, set, room, templates, texts.problems)?;
        Ok(page::lay_out(&document, *paper, set))
    }
}

fn name(paper: Paper) -> &'static str {
    match paper {
        Paper::A4 => "A4",
        Paper::A5 => "A5",
        Paper::Letter => "letter",
    }
}
