//! The work card of a job: its steps in the order in which hands do them.

use super::compose::{Material, compose};
use super::facts;
use super::figures::{self, Figure};
use super::insert::SoundJob;
use super::panel::panel_prose_of;
use super::templates::Templates;
use crate::decide::mistakes::PlannedCase;
use crate::diagnostic::{Problems, Reported};
use crate::document::{Density, Document, Paper};
use crate::figure;
use crate::text::Typesetter;
use crate::words::Words;

/// The work card of a job.
///
/// # Errors
/// A template that cannot be filled, or that holds what a sheet cannot hold.
pub fn work_card(
    job: &SoundJob<'_>,
    set: &mut Typesetter,
    paper: Paper,
    templates: &Templates,
    problems: &mut Problems,
) -> Result<Document, Reported> {
    let words = templates.words();
    let drawn = drawings(job, words, set, paper);
    let PlannedCase { board, layout, .. } = job.case;
    let number = layout.number.to_string();
    let facts = facts::facts_of_job(words, &job.case, job.findings, &figures::names(&drawn));
    let mark = templates.mark_of_job(&job.case);
    let material = Material {
        figures: &drawn,
        prose: &|name| panel_prose_of(board, name, &number),
        ..Material::new(board, templates, "work-card", &facts, mark, Density::Reach)
    };
    compose(&material, problems)
}

/// The drawings of the steps that this job has.
fn drawings(job: &SoundJob<'_>, words: &Words, set: &mut Typesetter, paper: Paper) -> Vec<Figure> {
    let PlannedCase { board, job, wiring, .. } = job.case;
    let width = paper.step_drawing(Density::Reach);
    let page = paper.area_for(Density::Reach).width();
    let mut all = vec![
        Figure::whole("lock-off", figure::lock_off(words, set, width)),
        Figure::whole(
            "connections",
            figure::connections(board, job.supply.value, words, set, width),
        ),
    ];
    let links = figure::link_moves(board, wiring, words, set, (width, page));
    all.extend(links.map(|scene| Figure::whole("links", scene)));
    let jumpers = figure::jumper_moves(board, wiring, words, set, (width, page));
    all.extend(jumpers.map(|scene| Figure::whole("jumpers", scene)));
    for plan in wiring.devices.iter() {
        let name = facts::plug_figure(&board[plan.header].code);
        all.push(Figure::whole(name, figure::plug(board, plan, words, set, width)));
    }
    if !wiring.switches.is_empty() {
        let scene = figure::switch_settings(board, &wiring.switches, words, set, width);
        all.push(Figure::whole("switches", scene));
    }
    all.extend(super::figures::of_selector(board, wiring, words, set));
    all
}
