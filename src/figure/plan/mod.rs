//! The board plan: every part to scale, every header, fuse, terminal and switch bank at its place,
//! and each jumper's lead to the group that it is on.
//!
//! [`board_plan`] shows the board as it is delivered; [`job_plan`] what one job uses of it.
//!
//! Both ends of a lead carry a flag: at the jumper stands the letter of its group, at the tab the
//! jumper's code. So a lead that finds no way is still told. Every code is drawn, inside its
//! component, beside it or with a leader ([`in_place`]); on a board that is too crowded for that
//! all of them stand in columns at the sides ([`in_columns`]).
//!
//! `components` gathers what is to be drawn, in paper mm; `notes` words it; `tags` chooses tabs;
//! `label` and `margin` find places for the words; `route` finds ways for the leads round both;
//! `draw` puts it on paper.

mod colour;
mod components;
mod describe;
mod draw;
mod in_columns;
mod in_place;
mod index;
mod label;
mod lattice;
mod legend;
mod margin;
mod notes;
mod queue;
mod route;
mod setup;
mod tags;
mod wording;

use crate::board::{Board, GroupId, JumperId};
use crate::diagnostic::{Code, Problem};
use crate::geometry::{Point, Rect, Size};
use crate::scene::Scene;
use crate::source::Span;
use crate::text::Typesetter;
use crate::words::Words;

use draw::Layers;
pub use setup::Setup;
use setup::{Show, Strength};
use wording::Wording;

/// A drawing is never larger than life, and a small board is not blown up beyond this.
const LARGEST_SCALE: f64 = 1.0;
/// White space left and right of the circuit boards and under them, mm.
const EDGE: f64 = 1.0;

/// How a lead is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LeadKind {
    /// Where it is when the board is delivered, and in a job stays.
    Shipped,
    /// Where a job puts it, away from where it was.
    Moved,
}

impl LeadKind {
    /// How the lead of a jumper is drawn.
    fn of(board: &Board, show: Show<'_>, jumper: JumperId) -> Self {
        match show {
            Show::Job(setup) if components::moved(board, setup, jumper) => LeadKind::Moved,
            Show::Board | Show::Job(_) => LeadKind::Shipped,
        }
    }
}

/// The lead of one jumper.
#[derive(Clone, Debug, PartialEq)]
pub struct Lead {
    /// Whose it is.
    pub jumper: JumperId,
    /// The group that it is on.
    pub group: GroupId,
    /// How it is drawn.
    pub kind: LeadKind,
    /// The tab that it ends at, mm on the drawing.
    pub tab: Option<Rect>,
    /// Its corners from the jumper's edge to the tab's edge, mm on the drawing; `None` if there was
    /// no room for it, and its flags alone tell it.
    pub path: Option<Vec<Point>>,
}

/// How the names of a plan are placed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Naming {
    /// Inside the components or beside them.
    InPlace,
    /// In columns at the sides.
    InColumns,
}

/// The board plan and what it is made of, so that a test can hold it against the board.
#[derive(Clone, Debug)]
pub struct Plan {
    /// The drawing.
    pub scene: Scene,
    /// Paper mm for each board mm.
    pub scale: f64,
    /// Every lead, drawn or told by its flags.
    pub leads: Vec<Lead>,
    /// The bodies on the drawing, with their codes.
    pub bodies: Vec<(String, Rect)>,
    /// The circuit boards on the drawing, in the specification's order.
    pub outlines: Vec<Rect>,
    /// How its names are placed.
    pub naming: Naming,
    /// Codes that found no place. There are none on any paper that the program knows; a plan
    /// without one would be believed, so nothing is made of it.
    pub lost: Vec<(String, Span)>,
}

impl Plan {
    /// What found no place, as faults of ours.
    pub fn problems(&self) -> Vec<Problem> {
        let lost = self.lost.iter();
        lost.map(|(code, span)| {
            let message =
                format!("the board plan does not name {code}; this is a mistake in lidsheet");
            Problem::new(Code::Internal, *span, message)
        })
        .collect()
    }

    /// How many leads are told by their flags alone.
    pub fn undrawn(&self) -> usize {
        self.leads.iter().filter(|lead| lead.path.is_none()).count()
    }
}

/// Draws the board plan into a room: as wide as the room, and with its legend no higher. A board with
/// more names than the room can hold is drawn in several pictures, each a part of it.
pub fn board_plans(board: &Board, words: &Words, set: &mut Typesetter, room: Size) -> Vec<Plan> {
    plans(&Sheet { board, show: Show::Board, words, room, window: None }, set)
}

/// Draws the board as a job sets it up into a room: what the job uses in full strength, the rest
/// faint, the headers that stay empty hatched. As [`board_plans`], it is several if need be.
pub fn job_plans(
    board: &Board,
    setup: &Setup,
    words: &Words,
    set: &mut Typesetter,
    room: Size,
) -> Vec<Plan> {
    plans(&Sheet { board, show: Show::Job(setup), words, room, window: None }, set)
}

fn plans(sheet: &Sheet<'_>, set: &mut Typesetter) -> Vec<Plan> {
    let in_place = in_place::draw(sheet, set);
    if in_place.lost.is_empty() {
        return vec![in_place];
    }
    let mut plans = Vec::new();
    in_windows(sheet, MOST_HALVINGS, &mut plans, set);
    plans
}

/// How often a board may be cut in half: 64 parts have room for all that a board may hold.
const MOST_HALVINGS: u8 = 6;

/// The names in columns, on as few parts of the board as have room for them.
fn in_windows(sheet: &Sheet<'_>, halvings: u8, plans: &mut Vec<Plan>, set: &mut Typesetter) {
    let whole = in_columns::draw(sheet, set);
    match sheet.halves() {
        Some(halves) if !whole.lost.is_empty() && halvings > 0 => {
            for window in halves {
                let half = Sheet { window: Some(window), ..*sheet };
                in_windows(&half, halvings - 1, plans, set);
            }
        }
        _ => plans.push(whole),
    }
}

/// What is drawn, and the room for it.
#[derive(Clone, Copy)]
struct Sheet<'a> {
    board: &'a Board,
    show: Show<'a>,
    words: &'a Words,
    room: Size,
    /// The part of the board that is drawn, board mm; all of it if there is none.
    window: Option<Rect>,
}

impl Sheet<'_> {
    /// The rectangle round all circuit boards that are drawn, board mm.
    fn extent(&self) -> Rect {
        if let Some(window) = self.window {
            return window;
        }
        let all = self.board.parts.iter().map(|part| Rect::at(part.at, part.size));
        all.reduce(|a, b| a.union(&b)).unwrap_or_default()
    }

    /// The largest scale at which all that is drawn fits into a room.
    fn fitting(&self, room: Size) -> f64 {
        let extent = self.extent();
        (room.width.max(1.0) / extent.width().max(1.0))
            .min(room.height.max(1.0) / extent.height().max(1.0))
            .min(LARGEST_SCALE)
    }

    /// The plan of what was placed, in a drawing of a size with the legend under it.
    fn plan(
        &self,
        layers: Layers,
        (naming, scale): (Naming, f64),
        size: Size,
        legend: Scene,
    ) -> Plan {
        let scene = draw::draw(self.board, self.show, &layers, self.words, size, legend);
        let Layers { components, labels, leads, outlines, .. } = layers;
        let lost = labels.into_iter().filter(|label| label.placed.is_none());
        Plan {
            scene,
            scale,
            leads,
            bodies: components.into_iter().map(|it| (it.code, it.body)).collect(),
            outlines,
            naming,
            lost: lost.map(|label| (label.code, label.span)).collect(),
        }
    }

    /// Whether something with its middle at this place is drawn, board mm.
    fn shows(&self, middle: Point) -> bool {
        self.window.is_none_or(|window| {
            (window.left..window.right).contains(&middle.x)
                && (window.top..window.bottom).contains(&middle.y)
        })
    }

    /// The drawn part cut across its longer side, so that each half has as many things as the other;
    /// `None` if there is nothing to part.
    fn halves(&self) -> Option<[Rect; 2]> {
        let extent = self.extent();
        let across = extent.width() >= extent.height();
        let mut places: Vec<f64> = components::bodies(self.board, &View::LIFE_SIZE)
            .into_iter()
            .filter(|component| self.shows(component.at))
            .map(|component| if across { component.at.x } else { component.at.y })
            .collect();
        places.sort_by(f64::total_cmp);
        let middle = places.len() / 2;
        let (low, high) = (places.get(middle.checked_sub(1)?)?, places.get(middle)?);
        // A whole extent shows what lies on its edge; a window leaves that to its neighbour.
        let extent = extent.grown(if self.window.is_none() { 1.0 } else { 0.0 });
        let cut = if high > low { (low + high) / 2.0 } else { *high };
        let halves = match across {
            true => [Rect { right: cut, ..extent }, Rect { left: cut, ..extent }],
            false => [Rect { bottom: cut, ..extent }, Rect { top: cut, ..extent }],
        };
        halves.iter().all(|half| half.width() > 0.0 && half.height() > 0.0).then_some(halves)
    }

    fn outlines(&self, view: &View) -> Vec<Rect> {
        let parts = self.board.parts.iter();
        parts.map(|part| view.rect(Rect::at(part.at, part.size))).collect()
    }
}

/// From board mm to paper mm.
#[derive(Clone, Copy, Debug)]
struct View {
    scale: f64,
    from: Point,
    to: Point,
}

impl View {
    /// Board mm as they are, where only sizes matter.
    const LIFE_SIZE: View =
        View { scale: 1.0, from: Point::new(0.0, 0.0), to: Point::new(0.0, 0.0) };

    fn point(&self, p: Point) -> Point {
        Point::new(
            (p.x - self.from.x) * self.scale + self.to.x,
            (p.y - self.from.y) * self.scale + self.to.y,
        )
    }

    fn rect(&self, r: Rect) -> Rect {
        let size = Size::new(r.width() * self.scale, r.height() * self.scale);
        Rect::at(self.point(r.corner()), size)
    }
}

/// A label and where it went.
struct PlanLabel {
    code: String,
    span: Span,
    strength: Strength,
    variants: Vec<Wording>,
    placed: Option<Placed>,
}

/// Where a label stands.
struct Placed {
    area: Rect,
    /// Which of its variants.
    variant: usize,
    /// From the component to the label; no corner if it stands right beside it.
    leader: Vec<Point>,
    /// Whether it is set towards the right edge of its area.
    from_right: bool,
}
