//! The lid insert of a job: one page that is glued inside the lid, with the fault finder on its
//! back.

use super::compose::{Material, compose};
use super::facts;
use super::figures::{BOARD_PLAN, Figure};
use super::panel::panel_prose_of;
use super::templates::Templates;
use crate::board::{Board, Job};
use crate::decide::{LayoutChoice, Wiring};
use crate::diagnostic::{Problems, Reported};
use crate::document::{Density, Document, Paper};
use crate::figure::plan::{Setup, job_plan};
use crate::figure::{cord_rows, switch_settings};
use crate::geometry::{Rect, Size};
use crate::scene::Scene;
use crate::text::Typesetter;
use crate::words::Words;

/// The room that an insert has.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct InsertRoom {
    /// The paper.
    pub paper: Paper,
    /// Width of one of two columns, mm.
    pub column: f64,
    /// How high the board plan may be with its legend, mm. It takes what the words leave.
    pub plan_height: f64,
    /// Whether it is drawn.
    pub plan: PlanDetail,
    /// How much is made.
    pub sides: Sides,
}

impl InsertRoom {
    /// The page without its margins, mm.
    fn page(&self) -> Size {
        self.paper.area_for(Density::Close).size()
    }
}

/// How much of the board plan is made.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PlanDetail {
    /// All of it.
    Drawn,
    /// An empty space of its height, to see whether the page holds it.
    Space,
}

/// How much of an insert is made.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sides {
    /// What is seen in the open lid.
    Front,
    /// That, and from a new page the fault finder.
    Both,
}

/// How many times wider than high a board is whose plan goes over the whole page; another stands
/// in a column.
const WIDE: f64 = 1.35;
/// The same on small paper, where the words need the page.
const WIDE_ON_SMALL: f64 = 1.6;

/// A narrower column lists the pins of cords in words, mm.
const SMALL: f64 = 75.0;

/// The insert of a job. `decided` is what [`crate::decide::Plan::sound`] gives: there is no insert
/// of anything else. Whether it is one page is seen when it is laid out.
///
/// # Errors
/// A template that cannot be filled, or that holds what a sheet cannot hold; a board plan that has
/// no room for all that the job needs.
pub fn lid_insert(
    board: &Board,
    job: &Job,
    decided: (&LayoutChoice, &Wiring),
    set: &mut Typesetter,
    room: InsertRoom,
    templates: &Templates,
    problems: &mut Problems,
) -> Result<Document, Reported> {
    let (layout, wiring) = decided;
    let shape = facts::Shape { wide: is_wide(board, room), small: room.column < SMALL };
    let figures = figures(board, (job, wiring), templates.words(), set, room);
    let names: Vec<(String, String)> =
        figures.iter().map(|f| (f.name.clone(), f.scene.title.clone())).collect();
    let number = layout.number.to_string();
    let mut parts = templates.named("insert");
    let facts = match room.sides {
        Sides::Front => {
            facts::facts_of_insert(templates.words(), board, job, decided, &names, shape)
        }
        Sides::Both => {
            parts.extend(templates.named("back"));
            facts::facts_of_back(templates.words(), board, job, decided, &names, shape)
        }
    };
    let material = Material {
        board,
        words: templates.words(),
        cautions: templates.own_cautions(),
        templates: parts,
        facts: &facts,
        figures: &figures,
        prose: &|name| panel_prose_of(board, name, &number),
        pieces: &[],
        density: Density::Close,
    };
    compose(&material, problems)
}

fn is_wide(board: &Board, room: InsertRoom) -> bool {
    let all = board.parts.iter().map(|part| Rect::at(part.at, part.size));
    let extent = all.reduce(|a, b| a.union(&b)).unwrap_or_default();
    let wide = if room.column < SMALL { WIDE_ON_SMALL } else { WIDE };
    extent.width() > extent.height() * wide
}

fn figures(
    board: &Board,
    (job, wiring): (&Job, &Wiring),
    words: &Words,
    set: &mut Typesetter,
    room: InsertRoom,
) -> Vec<Figure> {
    let setup = Setup::of(board, job.supply.value, wiring);
    let column = room.column;
    let width = if is_wide(board, room) { room.page().width } else { column };
    let size = Size::new(width, room.plan_height);
    let plan = match room.plan {
        PlanDetail::Drawn => {
            let plan = job_plan(board, &setup, words, set, size);
            let lost = plan.problems().into_iter();
            let lost = lost.map(|p| p.other(job.span, "on the lid insert of this job")).collect();
            Figure { name: BOARD_PLAN.to_owned(), scene: plan.scene, lost }
        }
        PlanDetail::Space => {
            Figure::whole(BOARD_PLAN, Scene::new(size, words.board_plan_title(), ""))
        }
    };
    let mut all = vec![plan];
    if !wiring.switches.is_empty() {
        let scene = switch_settings(board, &wiring.switches, words, set, column);
        all.push(Figure::whole("switches", scene));
    }
    let drawn = if column < SMALL { &[] } else { &*wiring.devices };
    let rows = cord_rows(board, drawn, words, set, column);
    all.extend(
        rows.into_iter()
            .enumerate()
            .map(|(index, scene)| Figure::whole(format!("cords-{}", index + 1), scene)),
    );
    all
}
