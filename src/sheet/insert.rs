//! The lid insert of a job: how its control box is wired.

use super::compose::{Material, compose};
use super::facts;
use super::figures::Figure;
use super::templates::Templates;
use crate::board::{Board, Job};
use crate::decide::mistakes::PlannedCase;
use crate::decide::{Finding, Plan};
use crate::diagnostic::{Problems, Reported};
use crate::document::{Density, Document, Paper};
use crate::figure::plan::{Setup, job_plans};
use crate::figure::switch_settings;
use crate::geometry::Size;
use crate::text::Typesetter;
use crate::words::Words;

/// A job that may be wired as it is planned: there are no sheets of any other.
#[derive(Clone, Copy, Debug)]
pub struct SoundJob<'a> {
    /// The board, the job, its layout and what follows from it.
    pub case: PlannedCase<'a>,
    /// What whoever follows the plan must be warned of.
    pub findings: &'a [Finding],
}

impl<'a> SoundJob<'a> {
    /// The job with its plan; `None` if something refuses it.
    pub fn of(board: &'a Board, job: &'a Job, plan: &'a Plan) -> Option<Self> {
        let case = PlannedCase::new(board, job, plan.sound()?);
        Some(Self { case, findings: &plan.findings })
    }
}

/// A column that is narrower has no room for the tables and drawings of an insert, mm.
const COLUMN: f64 = 80.0;

/// How high the board plan may be with its legend, in parts of the page's height.
const PLAN_HEIGHT: f64 = 0.5;

/// The room for the board plan of a job.
pub fn job_plan_room(paper: Paper) -> Size {
    let area = paper.area_for(Density::Reach).size();
    Size::new(area.width, area.height * PLAN_HEIGHT)
}

/// The board as the job sets it up, as wide as a page of its sheets.
pub fn job_board_plans(
    job: &SoundJob<'_>,
    words: &Words,
    set: &mut Typesetter,
    paper: Paper,
) -> Vec<Figure> {
    let PlannedCase { board, job, wiring, .. } = job.case;
    let setup = Setup::of(board, job.supply.value, wiring);
    let plans = job_plans(board, &setup, words, set, job_plan_room(paper));
    let mut figures = Figure::of_plans(plans);
    for figure in &mut figures {
        let lost = figure.lost.drain(..);
        figure.lost = lost.map(|p| p.other(job.span, "on the lid insert of this job")).collect();
    }
    figures
}

/// The lid insert of a job with its board plan, which [`job_board_plans`] draws.
///
/// # Errors
/// A template that cannot be filled, or that holds what a sheet cannot hold; a board plan that has
/// no room for all that the job needs.
pub fn lid_insert(
    job: &SoundJob<'_>,
    plans: Vec<Figure>,
    set: &mut Typesetter,
    paper: Paper,
    templates: &Templates,
    problems: &mut Problems,
) -> Result<Document, Reported> {
    let words = templates.words();
    let PlannedCase { board, wiring, .. } = job.case;
    let mut figures = plans;
    let column = paper.column(Density::Reach, 2);
    let wide = column >= COLUMN;
    if !wiring.switches.is_empty() {
        let width = if wide { column } else { paper.area_for(Density::Reach).width() };
        figures.push(Figure::whole(
            "switches",
            switch_settings(board, &wiring.switches, words, set, width),
        ));
    }
    figures.extend(super::figures::of_selector(board, wiring, words, set));
    let names = super::figures::names(&figures);
    let facts = facts::facts_of_insert(words, &job.case, job.findings, &names, wide);
    let mark = templates.mark_of_job(&job.case);
    let material = Material {
        figures: &figures,
        ..Material::new(board, templates, "lid-insert", &facts, mark, Density::Reach)
    };
    compose(&material, problems)
}
