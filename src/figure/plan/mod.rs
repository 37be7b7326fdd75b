//! The board plan: every part to scale, every header, fuse, terminal and switch bank at its
//! place, and each jumper's leads to the groups that it may go to.
//!
//! [`board_plan`] shows the board as it is delivered; [`job_plan`] what one job uses of it.
//!
//! `components` gathers what is to be drawn, in paper mm; `label` finds places for the words;
//! `route` finds ways for the leads round both; `draw` puts it on paper.

mod components;
mod draw;
mod job_words;
mod label;
mod lattice;
mod leads;
mod legend;
mod queue;
mod route;
mod setup;

use crate::board::{Board, GroupId, JumperId, LinkId, TerminalId};
use crate::diagnostic::{Code, Problem};
use crate::document::Paper;
use crate::geometry::{Point, Rect, Size};
use crate::scene::Scene;
use crate::source::Span;
use crate::text::Typesetter;
use crate::words::Words;

use components::{Component, ComponentKind};
pub use setup::Setup;
use setup::{Show, Strength};

/// White space round the parts, mm: part titles stand there, and leads may pass.
const MARGIN: f64 = 6.0;
/// Highest that the drawing may be on its page, mm, without its legend.
const HIGHEST: f64 = 195.0;
/// A drawing is never larger than life, and a small board is not blown up beyond this.
const LARGEST_SCALE: f64 = 1.0;

/// What a lead belongs to and where it ends.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LeadEnds {
    /// A jumper that is, or may be put, on a group.
    Jumper(JumperId, GroupId),
    /// A link that is, or may be put, on a terminal.
    Link(LinkId, TerminalId),
}

/// What a lead of the drawing is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LeadKind {
    /// Where it is when the board is delivered, and in a job stays.
    Shipped,
    /// Where it may be put as well.
    MayGo,
    /// Where a job puts it, away from where it was.
    Moved,
}

/// One lead of the drawing.
#[derive(Clone, Debug, PartialEq)]
pub struct Lead {
    /// What it joins.
    pub ends: LeadEnds,
    /// How it is drawn.
    pub kind: LeadKind,
    /// Its corners from the foot's edge to the goal's edge, mm on the drawing; `None` if there
    /// was no room for it.
    pub path: Option<Vec<Point>>,
}

/// The board plan and what it is made of, so that a test can hold it against the board.
#[derive(Clone, Debug)]
pub struct Plan {
    /// The drawing.
    pub scene: Scene,
    /// Paper mm for each board mm.
    pub scale: f64,
    /// Every lead, drawn or not.
    pub leads: Vec<Lead>,
    /// The bodies on the drawing, with their codes.
    pub bodies: Vec<(String, Rect)>,
    /// Codes of components that the drawing must name and whose label found no place, with their
    /// places in the specification.
    pub unlabelled: Vec<(String, Span)>,
}

impl Plan {
    /// How many names and leads found no place.
    pub fn lost(&self) -> usize {
        let leads = self.leads.iter().filter(|lead| lead.path.is_none());
        self.unlabelled.len() + leads.count()
    }

    /// How far the drawing is from a clear one: what is lost, and how much longer the leads are
    /// than they need to be, as a part of their length.
    fn fault(&self) -> f64 {
        let (mut long, mut direct) = (0.0, 0.0);
        for path in self.leads.iter().filter_map(|lead| lead.path.as_ref()) {
            let across = |a: &Point, b: &Point| (a.x - b.x).abs() + (a.y - b.y).abs();
            long += path.iter().zip(path.iter().skip(1)).map(|(a, b)| across(a, b)).sum::<f64>();
            direct += path.first().zip(path.last()).map_or(0.0, |(a, b)| across(a, b));
        }
        self.lost() as f64 + (long - direct) / direct.max(1.0)
    }

    /// What found no room on the drawing, as errors at its place in the specification: a plan
    /// without them would be believed. `paper` is what it was drawn for.
    pub fn problems(&self, board: &Board, paper: Paper) -> Vec<Problem> {
        let other = match paper {
            Paper::A5 => "take larger paper: `--paper a4` or `--paper letter`",
            Paper::A4 => "take other paper, `--paper letter`",
            Paper::Letter => "take other paper, `--paper a4`",
        };
        let paper = paper.name();
        let names = self.unlabelled.iter().map(|(code, span)| {
            let message =
                format!("there is no room for the name of {code} on the board plan on {paper}");
            Problem::new(Code::NoRoomForName, *span, message)
                .help(format!("{other}, or leave more room round {code} on the board"))
        });
        let lost = self.leads.iter().filter(|lead| lead.path.is_none());
        let leads = lost.map(|lead| {
            let (from, to, span) = match lead.ends {
                LeadEnds::Jumper(j, g) => (&board[j].code, &board[g].code, board[j].span),
                LeadEnds::Link(l, t) => (&board[l].code, &board[t].code, board[l].span),
            };
            let message =
                format!("the lead from {from} to {to} finds no way on the board plan on {paper}");
            Problem::new(Code::NoRoomForLead, span, message)
                .help(format!("{other}, or leave more room round {from} or {to} on the board"))
        });
        names.chain(leads).collect()
    }
}

/// Draws the board plan, `width` mm wide.
pub fn board_plan(board: &Board, words: &Words, set: &mut Typesetter, width: f64) -> Plan {
    plan(board, Show::Board, words, set, Size::new(width, HIGHEST), 1.0)
}

/// Draws the board as a job sets it up: what the job uses in full strength, the rest faint, the
/// headers that stay empty hatched. It is as wide as `room`, and with its legend no higher.
///
/// Where a name or a lead finds no place, the board is drawn a little smaller in the same room, and
/// the names stand round it.
pub fn job_plan(
    board: &Board,
    setup: &Setup,
    words: &Words,
    set: &mut Typesetter,
    room: Size,
) -> Plan {
    let mut best = plan(board, Show::Job(setup), words, set, room, 1.0);
    for shrunk in SHRUNK {
        if best.fault() < CALM {
            break;
        }
        let next = plan(board, Show::Job(setup), words, set, room, shrunk);
        if next.fault() < best.fault() {
            best = next;
        }
    }
    best
}

/// A plan with less fault than this needs no better one.
const CALM: f64 = 0.35;

/// How much smaller than its room asks a job's board is drawn, tried in this order.
const SHRUNK: [f64; 5] = [0.93, 0.86, 0.8, 0.74, 0.68];

/// The plan in a room, drawn `shrunk` times as large as it could be.
fn plan(
    board: &Board,
    show: Show<'_>,
    words: &Words,
    set: &mut Typesetter,
    room: Size,
    shrunk: f64,
) -> Plan {
    let width = room.width;
    let legend = legend::legend(board, show, &leads::kinds(board, show), width, words, set);
    let highest = match show {
        Show::Board => HIGHEST,
        Show::Job(_) => (room.height - legend.size.height - 2.0 * MARGIN).max(1.0),
    };
    let all = board.parts.iter().map(|part| Rect::at(part.at, part.size));
    let extent = all.reduce(|a, b| a.union(&b)).unwrap_or_default();
    let across = (width - 2.0 * MARGIN) / extent.width().max(1.0);
    let most = across.min(highest / extent.height().max(1.0)).min(LARGEST_SCALE);
    let scale = most * shrunk;
    let bounds =
        Rect::at(Point::new(0.0, 0.0), Size::new(width, extent.height() * most + 2.0 * MARGIN));
    let drawn = Size::new(extent.width() * scale, extent.height() * scale);
    let to = Rect::around(bounds.middle(), drawn).corner();
    let view = View { scale, from: extent.corner(), to };
    let outlines: Vec<Rect> =
        board.parts.iter().map(|part| view.rect(Rect::at(part.at, part.size))).collect();

    let mut components = components::gather(board, &view, words, set);
    if let Show::Job(setup) = show {
        for component in &mut components {
            job_words::describe(board, setup, component, words, set);
        }
    }
    components::add_on_words(board, &mut components, &outlines);
    let labels = place_labels(&components, board, &view, set, &outlines, bounds);
    let leads = leads::route(board, show, &components, &labels, &outlines, bounds);

    let unlabelled = labels
        .iter()
        .filter(|l| l.placed.is_none() && l.needed && !l.extra)
        .map(|l| (l.code.clone(), l.span))
        .collect();
    let layers = draw::Layers {
        components: &components,
        labels: &labels,
        leads: &leads,
        outlines: &outlines,
    };
    let scene = draw::draw(board, show, &layers, words, bounds.size(), legend);
    Plan {
        scene,
        scale,
        leads,
        bodies: components.into_iter().map(|component| (component.code, component.body)).collect(),
        unlabelled,
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
    /// Whether the component has no name on the drawing without it.
    needed: bool,
    /// The lowest are placed first.
    rank: u8,
    /// Whether the drawing is of use without it.
    extra: bool,
    strength: Strength,
    request: label::LabelRequest,
    placed: Option<label::PlacedLabel>,
}

fn place_labels(
    components: &[Component],
    board: &Board,
    view: &View,
    set: &mut Typesetter,
    outlines: &[Rect],
    bounds: Rect,
) -> Vec<PlanLabel> {
    let mut labels: Vec<PlanLabel> = components::part_titles(board, view, set, bounds);
    for component in components {
        if !component.label.is_empty() {
            labels.push(PlanLabel {
                code: component.code.clone(),
                span: component.span,
                needed: component.strength == Strength::Empty
                    || (component.inside.is_none() && component.strength == Strength::Full),
                rank: component.rank,
                extra: component.extra,
                strength: component.strength,
                request: label::LabelRequest {
                    body: component.body,
                    variants: component.label.clone(),
                    home: outlines.get(component.part.0).copied().unwrap_or(bounds),
                    first: component.first,
                    far: component.far,
                },
                placed: None,
            });
        }
    }
    // What has no name without its label is placed before what has one inside its body.
    labels.sort_by_key(|l| (!l.needed, l.rank));
    // Room beside the tabs and between a link and its terminals belongs to the leads.
    let tabs = components.iter().filter(|t| matches!(t.kind, ComponentKind::Group(_)));
    let tabs = tabs.map(|t| t.body.grown(2.6));
    let straps = components.iter().filter_map(|t| match t.kind {
        ComponentKind::Link(id) => {
            let ends = components.iter().filter(|t| match t.kind {
                ComponentKind::Terminal(terminal) => board[id].positions.contains(&terminal),
                _ => false,
            });
            Some(ends.fold(t.body, |all, end| all.union(&end.body)))
        }
        _ => None,
    });
    let mut obstacles = label::LabelObstacles {
        bodies: components.iter().map(|component| component.body).collect(),
        outlines: outlines.to_vec(),
        reserved: tabs.chain(straps).collect(),
        bounds,
    };
    // What a job can do without never takes the place of what it needs.
    labels.sort_by_key(|label| label.extra);
    for same in labels.chunk_by_mut(|a, b| a.extra == b.extra) {
        let requests: Vec<label::LabelRequest> = same.iter().map(|l| l.request.clone()).collect();
        for (label, placed) in same.iter_mut().zip(label::place(&requests, &obstacles)) {
            obstacles.bodies.extend(placed.iter().map(|placed| placed.area));
            let leader = placed.iter().filter_map(|placed| placed.leader);
            obstacles.bodies.extend(leader.flat_map(leads::thin_boxes));
            label.placed = placed;
        }
    }
    labels
}
