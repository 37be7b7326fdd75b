//! The board plan: every part to scale, every header, fuse, terminal and switch bank at its
//! place, and each jumper's leads to the groups that it may go to.
//!
//! [`board_plan`] shows the board as it is delivered; [`job_plan`] what one job uses of it.
//!
//! `things` gathers what is to be drawn, in paper mm; `label` finds places for the words;
//! `route` finds ways for the leads round both; `draw` puts it on paper.

mod draw;
mod job_words;
mod label;
mod lattice;
mod legend;
mod queue;
mod route;
mod setup;
mod things;

use crate::board::{Board, GroupId, JumperId, LinkId, TerminalId};
use crate::diagnostic::{Code, Problem};
use crate::geometry::{Point, Rect, Size};
use crate::page::Paper;
use crate::scene::Scene;
use crate::source::Span;
use crate::text::Typesetter;

pub use setup::Setup;
use setup::{Show, Strength};
use things::{Kind, Thing};

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
    /// Codes of things that the drawing must name and whose label found no place, with their places
    /// in the specification.
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
pub fn board_plan(board: &Board, set: &mut Typesetter, width: f64) -> Plan {
    plan(board, Show::Board, set, Size::new(width, HIGHEST), 1.0)
}

/// Draws the board as a job sets it up: what the job uses in full strength, the rest faint, the
/// headers that stay empty hatched. It is as wide as `room`, and with its legend no higher.
///
/// Where a name or a lead finds no place, the board is drawn a little smaller in the same room, and
/// the names stand round it.
pub fn job_plan(board: &Board, setup: &Setup, set: &mut Typesetter, room: Size) -> Plan {
    let mut best = plan(board, Show::Job(setup), set, room, 1.0);
    for shrunk in SHRUNK {
        if best.fault() < CALM {
            break;
        }
        let next = plan(board, Show::Job(setup), set, room, shrunk);
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
fn plan(board: &Board, show: Show<'_>, set: &mut Typesetter, room: Size, shrunk: f64) -> Plan {
    let width = room.width;
    let legend = legend::legend(board, show, &lead_kinds(board, show), width, set);
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

    let mut things = things::gather(board, show, &view, set);
    things::add_on_words(board, &mut things, &outlines);
    let bodies: Vec<Rect> = things.iter().map(|thing| thing.body).collect();
    let labels = place_labels(&things, board, &view, set, &outlines, bounds);
    let leads = route_leads(board, show, &things, &bodies, &labels, &outlines, bounds);

    let unlabelled = labels
        .iter()
        .filter(|l| l.placed.is_none() && l.needed && !l.extra)
        .map(|l| (l.code.clone(), l.span))
        .collect();
    let size = bounds.size();
    let scene = draw::draw(board, show, &things, &labels, &leads, &outlines, size, legend);
    Plan {
        scene,
        scale,
        leads,
        bodies: things.into_iter().map(|thing| (thing.code, thing.body)).collect(),
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
struct Label {
    code: String,
    span: Span,
    /// Whether the thing has no name on the drawing without it.
    needed: bool,
    /// The lowest are placed first.
    rank: u8,
    /// Whether the drawing is of use without it.
    extra: bool,
    strength: Strength,
    wish: label::Wish,
    placed: Option<label::Placed>,
}

fn place_labels(
    things: &[Thing],
    board: &Board,
    view: &View,
    set: &mut Typesetter,
    outlines: &[Rect],
    bounds: Rect,
) -> Vec<Label> {
    let mut labels: Vec<Label> = things::part_titles(board, view, set, bounds);
    for thing in things {
        if !thing.label.is_empty() {
            labels.push(Label {
                code: thing.code.clone(),
                span: thing.span,
                needed: thing.strength == Strength::Empty
                    || (thing.inside.is_none() && thing.strength == Strength::Full),
                rank: thing.rank,
                extra: thing.extra,
                strength: thing.strength,
                wish: label::Wish {
                    body: thing.body,
                    variants: thing.label.clone(),
                    home: outlines.get(thing.part.0).copied().unwrap_or(bounds),
                    first: thing.first,
                    far: thing.far,
                },
                placed: None,
            });
        }
    }
    // What has no name without its label is placed before what has one inside its body.
    labels.sort_by_key(|l| (!l.needed, l.rank));
    // Room beside the tabs and between a link and its terminals belongs to the leads.
    let tabs = things.iter().filter(|t| matches!(t.kind, Kind::Group(_)));
    let tabs = tabs.map(|t| t.body.grown(2.6));
    let straps = things.iter().filter_map(|t| match t.kind {
        Kind::Link(id) => {
            let ends = things.iter().filter(|t| match t.kind {
                Kind::Terminal(terminal) => board[id].positions.contains(&terminal),
                _ => false,
            });
            Some(ends.fold(t.body, |all, end| all.union(&end.body)))
        }
        _ => None,
    });
    let mut obstacles = label::Obstacles {
        bodies: things.iter().map(|thing| thing.body).collect(),
        outlines: outlines.to_vec(),
        reserved: tabs.chain(straps).collect(),
        bounds,
    };
    // What a job can do without never takes the place of what it needs.
    labels.sort_by_key(|label| label.extra);
    for same in labels.chunk_by_mut(|a, b| a.extra == b.extra) {
        let wishes: Vec<label::Wish> = same.iter().map(|l| l.wish.clone()).collect();
        for (label, placed) in same.iter_mut().zip(label::place(&wishes, &obstacles)) {
            obstacles.bodies.extend(placed.iter().map(|placed| placed.area));
            let leader = placed.iter().filter_map(|placed| placed.leader);
            obstacles.bodies.extend(leader.flat_map(thin_boxes));
            label.placed = placed;
        }
    }
    labels
}

/// How a jumper's lead to one of its groups is drawn, if it is.
fn jumper_kind(
    board: &Board,
    show: Show<'_>,
    jumper: JumperId,
    group: GroupId,
) -> Option<LeadKind> {
    let shipped = board[jumper].shipped == group;
    match show {
        Show::Board => Some(board_kind(shipped)),
        Show::Job(setup) => {
            let here = setup.group(board, jumper) == group;
            job_kind(shipped, here, setup.uses_jumper(board, jumper))
        }
    }
}

/// The same for a link and one of its terminals.
fn link_kind(
    board: &Board,
    show: Show<'_>,
    link: LinkId,
    terminal: TerminalId,
) -> Option<LeadKind> {
    let shipped = board[link].shipped == terminal;
    match show {
        Show::Board => Some(board_kind(shipped)),
        Show::Job(setup) => job_kind(shipped, setup.terminal(board, link) == terminal, true),
    }
}

fn board_kind(shipped: bool) -> LeadKind {
    if shipped { LeadKind::Shipped } else { LeadKind::MayGo }
}

/// Of a job only the lead that is `here` is drawn, and where it is shipped only one that is `used`.
fn job_kind(shipped: bool, here: bool, used: bool) -> Option<LeadKind> {
    match (here, shipped) {
        (false, _) => None,
        (true, false) => Some(LeadKind::Moved),
        (true, true) => used.then_some(LeadKind::Shipped),
    }
}

/// How the leads are drawn, all together.
fn lead_kinds(board: &Board, show: Show<'_>) -> Vec<LeadKind> {
    let jumpers = board.jumpers.iter().enumerate().flat_map(|(index, jumper)| {
        let kind = move |group: &GroupId| jumper_kind(board, show, JumperId(index), *group);
        jumper.groups.iter().filter_map(kind)
    });
    let links = board.links.iter().enumerate().flat_map(|(index, link)| {
        let kind = move |terminal: &TerminalId| link_kind(board, show, LinkId(index), *terminal);
        link.positions.iter().filter_map(kind)
    });
    jumpers.chain(links).collect()
}

fn route_leads(
    board: &Board,
    show: Show<'_>,
    things: &[Thing],
    bodies: &[Rect],
    labels: &[Label],
    outlines: &[Rect],
    bounds: Rect,
) -> Vec<Lead> {
    let mut leads = Vec::new();
    let mut wishes = Vec::new();
    for thing in things {
        match thing.kind {
            Kind::Jumper(id) => {
                for group in &board[id].groups {
                    let Some(kind) = jumper_kind(board, show, id, *group) else { continue };
                    let goal = things.iter().find(|t| t.kind == Kind::Group(*group));
                    leads.push(Lead { ends: LeadEnds::Jumper(id, *group), kind, path: None });
                    wishes.push(route::Wish {
                        from: thing.body,
                        to: goal.map(|g| g.cells.clone()).unwrap_or_default(),
                        goal: group.0,
                    });
                }
            }
            Kind::Link(id) => {
                for terminal in &board[id].positions {
                    let Some(kind) = link_kind(board, show, id, *terminal) else { continue };
                    let goal = things.iter().find(|t| t.kind == Kind::Terminal(*terminal));
                    leads.push(Lead { ends: LeadEnds::Link(id, *terminal), kind, path: None });
                    wishes.push(route::Wish {
                        from: thing.body,
                        to: goal.map(|g| vec![g.body]).unwrap_or_default(),
                        goal: board.groups.len() + terminal.0,
                    });
                }
            }
            _ => {}
        }
    }
    let mut words: Vec<Rect> =
        labels.iter().filter_map(|l| l.placed.as_ref()).map(|p| p.area).collect();
    // A leader is as much in the way as its label.
    words.extend(labels.iter().filter_map(|l| l.placed.as_ref()?.leader).flat_map(thin_boxes));
    let obstacles = route::Obstacles {
        bodies: bodies.to_vec(),
        labels: words,
        outlines: outlines.to_vec(),
        bounds: bounds.grown(-1.0),
    };
    for (lead, path) in leads.iter_mut().zip(route::route(&wishes, &obstacles)) {
        lead.path = path;
    }
    leads
}

/// Small boxes along a slanting line, close enough that nothing slips through between them.
fn thin_boxes(line: [Point; 2]) -> Vec<Rect> {
    let [a, b] = line;
    let steps = (libm::hypot(b.x - a.x, b.y - a.y) / 0.5).ceil().clamp(1.0, 200.0) as usize;
    (0..=steps)
        .map(|i| {
            let t = i as f64 / steps as f64;
            let middle = Point::new(a.x + (b.x - a.x) * t, a.y + (b.y - a.y) * t);
            Rect::around(middle, Size::new(0.6, 0.6))
        })
        .collect()
}
