//! Where labels go, so that none lies on another label, on a body or across a line.
//!
//! A label stands right beside its body if any of the places there is free, else a little way off
//! with a leader. The labels are placed one after another; if one finds no place, it moves to the
//! front and all are placed anew, a few times. Each label has variants, the fullest first: what
//! cannot be said beside the body in full is said in the tables of the sheet.

use super::index::Index;
use super::queue::place_in_turn;
use super::wording::Wording;
use crate::geometry::{Point, Rect, Size};

/// White space between a body and its label, mm.
const GAP: f64 = 0.9;
/// White space round a label, mm.
const AIR: f64 = 0.5;
/// White space to a body that the label does not name, mm: more than [`GAP`], so that no label
/// looks like the next component's.
const APART: f64 = 1.8;
/// The same where there is no room for more.
const NEAR: f64 = 1.2;
/// Farthest that a label with a leader lies from its body, mm.
const REACH: f64 = 22.0;
/// How often the order is changed when a label finds no place.
const ROUNDS: usize = 5;

/// A label to be placed.
#[derive(Clone, Debug)]
pub struct LabelRequest {
    /// What it names.
    pub body: Rect,
    /// How it may be worded, the fullest first; at least one variant.
    pub variants: Vec<Wording>,
    /// An area that the label must stay inside, if it can (its circuit board).
    pub home: Rect,
    /// Sides that are tried first, in order.
    pub first: &'static [LabelSide],
    /// How many of the last variants may stand a little way off, the fullest of them first.
    pub far: usize,
}

/// A side of a body.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LabelSide {
    /// To the right.
    Right,
    /// To the left.
    Left,
    /// Over it.
    Above,
    /// Under it.
    Below,
}

const EVERY_SIDE: [LabelSide; 4] =
    [LabelSide::Right, LabelSide::Below, LabelSide::Above, LabelSide::Left];

/// A label that has found its place.
#[derive(Clone, Debug)]
pub struct PlacedLabel {
    /// The whole of its lines.
    pub area: Rect,
    /// Which of the variants.
    pub variant: usize,
    /// The leader from the body to the label, if it does not stand right beside it.
    pub leader: Option<[Point; 2]>,
    /// Whether the lines are set from the right, towards a body on that side.
    pub from_right: bool,
}

/// What a label must not touch.
#[derive(Clone, Debug, Default)]
pub struct LabelObstacles {
    /// Bodies, the requests' own among them.
    pub bodies: Vec<Rect>,
    /// Lines that no label may lie across: outlines of circuit boards.
    pub outlines: Vec<Rect>,
    /// Areas to be kept free for leads, if it can be.
    pub reserved: Vec<Rect>,
    /// Everything lies in here.
    pub bounds: Rect,
}

/// The place of each request, in the order of the requests; `None` where there is none.
pub fn place(requests: &[LabelRequest], obstacles: &LabelObstacles) -> Vec<Option<PlacedLabel>> {
    let bodies = Index::of(obstacles.bounds, obstacles.bodies.iter().copied());
    place_in_turn((0..requests.len()).collect(), ROUNDS, |order| {
        let labels = Index::new(obstacles.bounds);
        let taken = Taken { obstacles, bodies: &bodies, labels, leaders: Vec::new() };
        attempt(requests, order, taken)
    })
}

fn attempt(
    requests: &[LabelRequest],
    order: &[usize],
    mut taken: Taken<'_>,
) -> Vec<Option<PlacedLabel>> {
    let mut found: Vec<Option<PlacedLabel>> = vec![None; requests.len()];
    for &index in order {
        let request = &requests[index];
        let placed = beside(request, &taken).or_else(|| with_leader(request, &taken));
        if let Some(placed) = &placed {
            taken.labels.insert(placed.area);
            taken.leaders.extend(placed.leader);
        }
        found[index] = placed;
    }
    found
}

/// How good a place is, the worst first.
#[derive(Clone, Copy, PartialEq, PartialOrd)]
enum Fit {
    /// Nearer to what it does not name than it should be.
    Near,
    /// On what is reserved for leads.
    UsesReserved,
    /// As it should be.
    KeepsReserved,
}

/// The first of the best places right beside the body.
fn beside(request: &LabelRequest, taken: &Taken) -> Option<PlacedLabel> {
    let mut best: Option<(Fit, PlacedLabel)> = None;
    let others = EVERY_SIDE.iter().filter(|side| !request.first.contains(side));
    let sides: Vec<LabelSide> = request.first.iter().chain(others).copied().collect();
    for (variant, wording) in request.variants.iter().enumerate() {
        let size = wording.size();
        for gap in [GAP, 1.7 * GAP, 3.6 * GAP] {
            for side in &sides {
                for area in areas(request.body, size, *side, gap) {
                    let known = best.as_ref().map(|(fit, _)| *fit);
                    let Some(fit) = taken.fit(area, request.body, request.home, known) else {
                        continue;
                    };
                    let from_right = *side == LabelSide::Left;
                    let placed = PlacedLabel { area, variant, leader: None, from_right };
                    if fit == Fit::KeepsReserved {
                        return Some(placed);
                    }
                    best = Some((fit, placed));
                }
            }
        }
    }
    best.map(|(_, placed)| placed)
}

/// The places on one side: level with the middle, then with either end, then slid along.
fn areas(body: Rect, size: Size, side: LabelSide, gap: f64) -> [Rect; 5] {
    let middle = body.middle();
    let at = |x: f64, y: f64| Rect::at(Point::new(x, y), size);
    match side {
        LabelSide::Right | LabelSide::Left => {
            let x = if side == LabelSide::Right {
                body.right + gap
            } else {
                body.left - gap - size.width
            };
            let low = body.bottom - size.height;
            let slid = [middle.y - 0.8, middle.y - size.height + 0.8];
            [middle.y - size.height / 2.0, body.top, low, slid[0], slid[1]].map(|y| at(x, y))
        }
        LabelSide::Above | LabelSide::Below => {
            let y = if side == LabelSide::Below {
                body.bottom + gap
            } else {
                body.top - gap - size.height
            };
            let right = body.right - size.width;
            let slid = [middle.x - 0.8, middle.x - size.width + 0.8];
            [middle.x - size.width / 2.0, body.left, right, slid[0], slid[1]].map(|x| at(x, y))
        }
    }
}

fn with_leader(request: &LabelRequest, taken: &Taken) -> Option<PlacedLabel> {
    let start = request.variants.len().saturating_sub(request.far);
    let mut far = request.variants.iter().enumerate().skip(start);
    far.find_map(|(variant, wording)| variant_with_leader(request, taken, variant, wording.size()))
}

fn variant_with_leader(
    request: &LabelRequest,
    taken: &Taken,
    variant: usize,
    size: Size,
) -> Option<PlacedLabel> {
    let body = request.body;
    let mut away = 3.0 * GAP;
    while away <= REACH {
        for side in EVERY_SIDE {
            let shifts = [0.0, 1.0, -1.0, 2.0, -2.0, 3.5, -3.5];
            for shift in shifts {
                let [level, ..] = areas(body, size, side, away);
                let (area, start, end) = match side {
                    LabelSide::Right | LabelSide::Left => {
                        let area = level.moved(0.0, shift * size.height / 2.0);
                        let right = side == LabelSide::Right;
                        let y = within(area.middle().y, body.top, body.bottom);
                        let from = if right { body.right } else { body.left };
                        let to = if right { area.left - 0.3 } else { area.right + 0.3 };
                        (area, Point::new(from, y), Point::new(to, area.middle().y))
                    }
                    LabelSide::Above | LabelSide::Below => {
                        let area = level.moved(shift * size.width / 2.0, 0.0);
                        let below = side == LabelSide::Below;
                        let x = within(area.middle().x, body.left, body.right);
                        let from = if below { body.bottom } else { body.top };
                        let to = if below { area.top - 0.3 } else { area.bottom + 0.3 };
                        (area, Point::new(x, from), Point::new(area.middle().x, to))
                    }
                };
                let leader = [start, end];
                if taken.fit(area, body, taken.obstacles.bounds, Some(Fit::Near)).is_some()
                    && taken.allows_leader(leader, body, area)
                {
                    let from_right = side == LabelSide::Left;
                    return Some(PlacedLabel { area, variant, leader: Some(leader), from_right });
                }
            }
        }
        away += 1.3;
    }
    None
}

/// The place nearest to `wished` between two edges, a little in from both; the middle of a component
/// too thin for that, such as the top edge that a part's title belongs to.
fn within(wished: f64, low: f64, high: f64) -> f64 {
    let (low, high) = (low + 0.3, high - 0.3);
    if low < high { wished.clamp(low, high) } else { (low + high) / 2.0 }
}

struct Taken<'a> {
    obstacles: &'a LabelObstacles,
    bodies: &'a Index,
    labels: Index,
    leaders: Vec<[Point; 2]>,
}

impl Taken<'_> {
    /// How good a place is, if it is free at all and better than what is `known`.
    fn fit(&self, area: Rect, own: Rect, home: Rect, known: Option<Fit>) -> Option<Fit> {
        let wide = area.grown(AIR);
        if !home.contains(&wide) || !self.obstacles.bounds.contains(&wide) {
            return None;
        }
        let reserved = || self.obstacles.reserved.iter().any(|lane| wide.overlaps(lane));
        if known == Some(Fit::UsesReserved) && reserved() {
            return None;
        }
        let off_bodies = |by: f64| {
            let apart = area.grown(by);
            // Its own body may come nearer.
            let meets = |body: &Rect| apart.overlaps(body) && (*body != own || wide.overlaps(body));
            !self.bodies.any(&apart, meets)
        };
        let near = known.is_none();
        if !off_bodies(if near { NEAR } else { APART })
            || self.labels.any(&wide, |label| wide.overlaps(label))
            || self.obstacles.outlines.iter().any(|o| wide.overlaps(o) && !o.contains(&wide))
            || self.leaders.iter().any(|leader| line_meets(*leader, &wide))
        {
            return None;
        }
        if near && !off_bodies(APART) {
            return Some(Fit::Near);
        }
        Some(if reserved() { Fit::UsesReserved } else { Fit::KeepsReserved })
    }

    fn allows_leader(&self, leader: [Point; 2], own: Rect, area: Rect) -> bool {
        let [a, b] = leader;
        let around = Rect {
            left: a.x.min(b.x),
            top: a.y.min(b.y),
            right: a.x.max(b.x),
            bottom: a.y.max(b.y),
        };
        let around = around.grown(0.5);
        !self.bodies.any(&around, |body| *body != own && line_meets(leader, &body.grown(0.4)))
            && !self.labels.any(&around, |label| line_meets(leader, &label.grown(0.3)))
            && !self.leaders.iter().any(|other| lines_cross(leader, *other))
            && !line_meets(leader, &area)
    }
}

/// Whether a straight line touches the inside of a rectangle (Liang-Barsky clipping).
pub fn line_meets(line: [Point; 2], area: &Rect) -> bool {
    let [a, b] = line;
    let (dx, dy) = (b.x - a.x, b.y - a.y);
    let (mut enter, mut leave) = (0.0f64, 1.0f64);
    for (delta, low, high) in
        [(dx, area.left - a.x, area.right - a.x), (dy, area.top - a.y, area.bottom - a.y)]
    {
        if delta.abs() < 1e-12 {
            if low >= 0.0 || high <= 0.0 {
                return false;
            }
            continue;
        }
        let (t0, t1) = (low / delta, high / delta);
        enter = enter.max(t0.min(t1));
        leave = leave.min(t0.max(t1));
    }
    enter < leave
}

fn lines_cross(a: [Point; 2], b: [Point; 2]) -> bool {
    let side = |l: [Point; 2], p: Point| {
        (l[1].x - l[0].x) * (p.y - l[0].y) - (l[1].y - l[0].y) * (p.x - l[0].x)
    };
    side(a, b[0]) * side(a, b[1]) <= 0.0 && side(b, a[0]) * side(b, a[1]) <= 0.0
}

#[cfg(test)]
mod tests {
    use super::*;

    fn rect(x: f64, y: f64, w: f64, h: f64) -> Rect {
        Rect::at(Point::new(x, y), Size::new(w, h))
    }

    #[test]
    fn a_line_that_only_touches_an_edge_does_not_meet() {
        let area = rect(10.0, 10.0, 10.0, 10.0);
        assert!(line_meets([Point::new(0.0, 15.0), Point::new(30.0, 15.0)], &area));
        assert!(line_meets([Point::new(0.0, 0.0), Point::new(30.0, 30.0)], &area));
        assert!(!line_meets([Point::new(0.0, 10.0), Point::new(30.0, 10.0)], &area));
        assert!(!line_meets([Point::new(0.0, 15.0), Point::new(9.0, 15.0)], &area));
    }

    #[test]
    fn a_leader_starts_in_the_middle_of_a_thing_too_thin_for_more() {
        assert_eq!(within(9.0, 2.0, 8.0), 7.7);
        assert_eq!(within(0.0, 2.0, 8.0), 2.3);
        // The strip along a part's top edge, which its title belongs to, is 0.1 mm high.
        assert!((within(9.0, 6.0, 6.1) - 6.05).abs() < 1e-9);
    }
}
