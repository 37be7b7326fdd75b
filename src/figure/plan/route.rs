//! How a lead finds its way from its foot to a tab.
//!
//! The drawing is laid out on a square lattice. A lead runs along lattice lines from a node just
//! outside its foot to a node just outside its goal, by A* search over (node, direction): a step
//! costs its length, a bend and a crossing cost extra. Bodies and labels block the nodes that lie
//! in them or too near. Each finished lead then blocks its own nodes for lines in the same
//! direction, so that no two lie on top of each other; a later lead may cross it at a right angle,
//! but not at a bend and not at an end, so that a crossing never looks like a joint.
//!
//! Leads are drawn shortest first. If one finds no way, it goes to the front and all are drawn
//! anew, a few times; one that still finds none is left out, and the caller says so in words.

use super::lattice::{Lattice, LeadObstacles, Room, SearchBuffers};
use super::queue::place_in_turn;
use crate::geometry::{Point, Rect};

/// Where there is room.
const WIDE: Room = Room { pitch: 1.25, clearance: 0.9 };
/// For a full board, if some lead finds no way otherwise.
const TIGHT: Room = Room { pitch: 1.0, clearance: 0.5 };
/// How often the order is changed when a lead finds no way.
const ROUNDS: usize = 4;

/// What a lead is to join.
#[derive(Clone, Debug)]
pub struct LeadRequest {
    /// The body that it starts from.
    pub from: Rect,
    /// The bodies that it may end at: the tabs of a group, or one terminal.
    pub to: Vec<Rect>,
    /// Leads with the same number share the goal's tabs: each takes one of its own while there
    /// are enough.
    pub goal: usize,
}

/// The way of each request from the edge of its foot to the edge of its goal, with right angles
/// only; `None` where there is none.
pub fn route(requests: &[LeadRequest], obstacles: &LeadObstacles) -> Vec<Option<Vec<Point>>> {
    let wide = route_with(WIDE, requests, obstacles);
    if count(&wide) == requests.len() {
        return wide;
    }
    let tight = route_with(TIGHT, requests, obstacles);
    if count(&tight) > count(&wide) { tight } else { wide }
}

fn route_with(
    room: Room,
    requests: &[LeadRequest],
    obstacles: &LeadObstacles,
) -> Vec<Option<Vec<Point>>> {
    let free = Lattice::new(obstacles, room);
    let mut order: Vec<usize> = (0..requests.len()).collect();
    order.sort_by_key(|i| (distance(&requests[*i]), *i));
    let first = attempt(requests, &order, &free);
    if count(&first) == requests.len() {
        return first;
    }
    // A lead that finds no way while it is alone will find none in any order.
    order.retain(|i| count(&attempt(requests, &[*i], &free)) == 1);
    place_in_turn(order, ROUNDS, |order| attempt(requests, order, &free))
}

fn count(found: &[Option<Vec<Point>>]) -> usize {
    found.iter().flatten().count()
}

/// Distance from foot to goal along the axes, 1/100 mm.
fn distance(request: &LeadRequest) -> u64 {
    let from = request.from.middle();
    let reach = request.to.iter().map(|to| {
        let to = to.middle();
        (from.x - to.x).abs() + (from.y - to.y).abs()
    });
    (reach.fold(f64::MAX, f64::min).min(1e9) * 100.0) as u64
}

fn attempt(requests: &[LeadRequest], order: &[usize], free: &Lattice) -> Vec<Option<Vec<Point>>> {
    let mut lattice = free.clone();
    let mut buffers = SearchBuffers::new(&lattice);
    let mut taken: Vec<(usize, usize)> = Vec::new();
    let mut found = vec![None; requests.len()];
    for &index in order {
        let request = &requests[index];
        let sharers = order.iter().filter(|i| requests[**i].goal == request.goal).count();
        let tab_is_free =
            |tab: usize| sharers > request.to.len() || !taken.contains(&(request.goal, tab));
        let (mut goals, mut spare) = (Vec::new(), Vec::new());
        for (tab, body) in request.to.iter().enumerate() {
            let ends = lattice.ends(*body).into_iter().map(|end| (tab, end));
            if tab_is_free(tab) { goals.extend(ends) } else { spare.extend(ends) }
        }
        let starts = lattice.ends(request.from);
        // A tab may be shut in by its neighbours: then two leads share one that is not.
        let way = lattice
            .search(&starts, &goals, &mut buffers)
            .or_else(|| lattice.search(&starts, &spare, &mut buffers));
        if let Some((path, tab)) = way {
            lattice.occupy(&path.nodes);
            taken.push((request.goal, tab));
            found[index] = Some(lattice.points(&path));
        }
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::Size;

    fn rect(x: f64, y: f64, w: f64, h: f64) -> Rect {
        Rect::at(Point::new(x, y), Size::new(w, h))
    }

    fn crosses(path: &[Point], body: &Rect) -> bool {
        path.windows(2).any(|pair| {
            let line = Rect {
                left: pair[0].x.min(pair[1].x),
                right: pair[0].x.max(pair[1].x) + 1e-6,
                top: pair[0].y.min(pair[1].y),
                bottom: pair[0].y.max(pair[1].y) + 1e-6,
            };
            line.overlaps(&body.grown(-0.01))
        })
    }

    #[test]
    fn a_lead_goes_round_what_is_in_the_way() {
        let (foot, tab, wall) =
            (rect(5.0, 20.0, 3.0, 3.0), rect(50.0, 20.0, 3.0, 3.0), rect(25.0, 5.0, 6.0, 30.0));
        let requests = [LeadRequest { from: foot, to: vec![tab], goal: 0 }];
        let obstacles = LeadObstacles {
            bodies: vec![foot, tab, wall],
            bounds: rect(0.0, 0.0, 60.0, 40.0),
            ..LeadObstacles::default()
        };
        let path = route(&requests, &obstacles)[0].clone().expect("there is room");
        assert!(!crosses(&path, &wall), "{path:?}");
        assert!(path.windows(2).all(|p| p[0].x == p[1].x || p[0].y == p[1].y), "{path:?}");
        // A wall from edge to edge leaves no way.
        let shut =
            LeadObstacles { bodies: vec![foot, tab, rect(25.0, -1.0, 6.0, 50.0)], ..obstacles };
        assert_eq!(route(&requests, &shut), [None]);
    }

    #[test]
    fn two_leads_never_share_a_stretch() {
        let feet = [rect(5.0, 10.0, 3.0, 3.0), rect(5.0, 20.0, 3.0, 3.0)];
        let tabs = vec![rect(40.0, 10.0, 3.0, 3.0), rect(40.0, 20.0, 3.0, 3.0)];
        let requests: Vec<LeadRequest> = feet
            .iter()
            .flat_map(|foot| {
                [0, 1].map(|goal| LeadRequest { from: *foot, to: vec![tabs[goal]], goal })
            })
            .collect();
        let obstacles = LeadObstacles {
            bodies: feet.iter().chain(&tabs).copied().collect(),
            bounds: rect(0.0, 0.0, 60.0, 40.0),
            ..LeadObstacles::default()
        };
        let found: Vec<_> = route(&requests, &obstacles).into_iter().flatten().collect();
        assert_eq!(found.len(), 4);
        assert_eq!(shared_stretches(&found), 0);
    }

    /// Pairs of stretches of two leads that run along the same line and overlap.
    fn shared_stretches(paths: &[Vec<Point>]) -> usize {
        let mut shared = 0;
        for (i, a) in paths.iter().enumerate() {
            for b in &paths[i + 1..] {
                for p in a.windows(2) {
                    for q in b.windows(2) {
                        let level = p[0].y == p[1].y && q[0].y == q[1].y && p[0].y == q[0].y;
                        let upright = p[0].x == p[1].x && q[0].x == q[1].x && p[0].x == q[0].x;
                        let apart = |a0: f64, a1: f64, b0: f64, b1: f64| {
                            a0.max(a1) <= b0.min(b1) || b0.max(b1) <= a0.min(a1)
                        };
                        if (level && !apart(p[0].x, p[1].x, q[0].x, q[1].x))
                            || (upright && !apart(p[0].y, p[1].y, q[0].y, q[1].y))
                        {
                            shared += 1;
                        }
                    }
                }
            }
        }
        shared
    }
}
