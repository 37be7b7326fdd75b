//! How a lead finds its way from its jumper to a tab.
//!
//! The drawing is laid out on a lattice. A lead runs along its lines from a node just outside the
//! jumper to a node just outside its tab, by A* search over (node, direction): a step costs its
//! length, a bend and a crossing cost extra. Bodies and words block the nodes that lie in them or
//! too near. Each finished lead keeps others from running beside it; a later lead may cross it at a
//! right angle, but not at a bend and not at an end, so that a crossing never looks like a joint.
//!
//! Leads are drawn shortest first. If one finds no way, it goes to the front and all are drawn
//! anew, a few times; one that still finds none is told by its flags.
//!
//! Each lead's way with nothing but bodies and words on the board is found once. Other leads only take
//! from what is allowed: where none of them touches that way, it is still the cheapest, and no search is
//! needed, in whatever order they are drawn.

use super::lattice::{End, FoundPath, Lattice, LeadObstacles, SearchBuffers};
use super::queue::place_in_turn;
use crate::geometry::{Point, Rect, Side};

/// How often the order is changed when a lead finds no way.
const ROUNDS: usize = 3;

/// What a lead is to join.
#[derive(Clone, Debug)]
pub struct LeadRequest {
    /// The body that it starts from.
    pub from: Rect,
    /// The tab that it ends at.
    pub to: Rect,
    /// The side of the tab that it comes to; any if it does not matter.
    pub side: Option<Side>,
    /// The circuit boards of both ends, counted from 1.
    pub parts: [u8; 2],
    /// The rectangle round both of them.
    pub between: Rect,
}

/// The way of each request from the edge of its foot to the edge of its goal, with right angles
/// only; `None` where there is none. If more than `most_lost` of them can have none, no more is looked for
/// and none is given.
pub fn route(
    requests: &[LeadRequest],
    obstacles: &LeadObstacles,
    most_lost: usize,
) -> Vec<Option<Vec<Point>>> {
    let ends: Vec<Rect> = requests.iter().flat_map(|request| [request.from, request.to]).collect();
    let mut router = Router::new(requests, Lattice::new(obstacles, &ends));
    // A lead that finds no way while it is alone will find none in any order.
    let mut order: Vec<usize> = (0..requests.len()).filter(|i| router.can_be(*i)).collect();
    if requests.len() - order.len() > most_lost {
        return vec![None; requests.len()];
    }
    order.sort_by_key(|i| (requests.get(*i).map_or(0, distance), *i));
    place_in_turn(order, ROUNDS, |order| router.attempt(order))
}

/// Distance from foot to goal along the axes, 1/100 mm.
fn distance(request: &LeadRequest) -> u64 {
    let (from, to) = (request.from.middle(), request.to.middle());
    (((from.x - to.x).abs() + (from.y - to.y).abs()).min(1e9) * 100.0) as u64
}

/// Leads and where they may run.
struct Router<'a> {
    requests: &'a [LeadRequest],
    /// The board without leads.
    free: Lattice,
    /// The way of each lead on it, with the ends that it was looked for between.
    alone: Vec<Option<Alone>>,
    /// The board with the leads of an attempt.
    lattice: Lattice,
    buffers: SearchBuffers,
}

/// The way of a lead on a board without others.
struct Alone {
    starts: Vec<End>,
    goals: Vec<End>,
    path: FoundPath,
}

impl<'a> Router<'a> {
    fn new(requests: &'a [LeadRequest], free: Lattice) -> Self {
        let (lattice, mut buffers) = (free.clone(), SearchBuffers::new(&free));
        let alone = |request: &LeadRequest| {
            let (starts, goals) = ends(request, &free);
            let limits = (request.parts, request.between);
            let path = free.search(&starts, &goals, limits, &mut buffers)?;
            Some(Alone { starts, goals, path })
        };
        let alone = requests.iter().map(alone).collect();
        Self { requests, free, alone, lattice, buffers }
    }

    /// Whether a lead finds a way while it is alone.
    fn can_be(&self, index: usize) -> bool {
        self.alone.get(index).is_some_and(Option::is_some)
    }

    /// Draws leads in an order on a board without any.
    fn attempt(&mut self, order: &[usize]) -> Vec<Option<Vec<Point>>> {
        self.lattice.clone_from(&self.free);
        let mut found = vec![None; self.requests.len()];
        for &index in order {
            if let Some(path) = self.way(index) {
                self.lattice.occupy(&path);
                found[index] = Some(self.lattice.points(&path));
            }
        }
        found
    }

    /// The way of a lead beside those that are drawn.
    fn way(&mut self, index: usize) -> Option<FoundPath> {
        let request = self.requests.get(index)?;
        let alone = self.alone.get(index)?.as_ref()?;
        let (starts, goals) = ends(request, &self.lattice);
        if starts == alone.starts && goals == alone.goals && self.lattice.leaves(&alone.path) {
            return Some(alone.path.clone());
        }
        let limits = (request.parts, request.between);
        self.lattice.search(&starts, &goals, limits, &mut self.buffers)
    }
}

/// Where a lead can leave its foot and come to its tab.
fn ends(request: &LeadRequest, lattice: &Lattice) -> (Vec<End>, Vec<End>) {
    (lattice.ends(request.from, None), lattice.ends(request.to, request.side))
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::geometry::Size;

    fn rect(x: f64, y: f64, w: f64, h: f64) -> Rect {
        Rect::at(Point::new(x, y), Size::new(w, h))
    }

    fn all(requests: &[LeadRequest], obstacles: &LeadObstacles) -> Vec<Option<Vec<Point>>> {
        route(requests, obstacles, requests.len())
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
        let requests = [LeadRequest {
            from: foot,
            to: tab,
            side: None,
            parts: [1, 1],
            between: Rect::default(),
        }];
        let obstacles = LeadObstacles {
            bodies: vec![foot, tab, wall],
            bounds: rect(0.0, 0.0, 60.0, 40.0),
            outlines: vec![rect(0.0, 0.0, 60.0, 40.0)],
            ..LeadObstacles::default()
        };
        let path = all(&requests, &obstacles)[0].clone().expect("there is room");
        assert!(!crosses(&path, &wall), "{path:?}");
        assert!(path.windows(2).all(|p| p[0].x == p[1].x || p[0].y == p[1].y), "{path:?}");
        // A wall from edge to edge leaves no way.
        let shut =
            LeadObstacles { bodies: vec![foot, tab, rect(25.0, -1.0, 6.0, 50.0)], ..obstacles };
        assert_eq!(all(&requests, &shut), [None]);
    }

    fn place() -> impl Strategy<Value = Rect> {
        (2_u32..75, 2_u32..55).prop_map(|(x, y)| rect(f64::from(x), f64::from(y), 3.0, 2.0))
    }

    proptest! {
        #![proptest_config(ProptestConfig {
            failure_persistence: None,
            ..ProptestConfig::with_cases(400)
        })]

        /// Each lead beside those before it: the way that is kept is the one that a search finds.
        #[test]
        fn a_way_that_nothing_touches_is_what_a_search_finds(
            ends in prop::collection::vec((place(), place()), 1..9),
            others in prop::collection::vec(place(), 0..8),
            sides in prop::collection::vec(prop::option::of(prop::bool::ANY), 9),
        ) {
            let bounds = rect(0.0, 0.0, 80.0, 60.0);
            let requests: Vec<LeadRequest> = ends
                .iter()
                .zip(sides)
                .map(|((from, to), up)| LeadRequest {
                    from: *from,
                    to: *to,
                    side: up.map(|up| if up { Side::Up } else { Side::Down }),
                    parts: [1, 1],
                    between: Rect::default(),
                })
                .collect();
            let bodies = ends.iter().flat_map(|(from, to)| [*from, *to]).chain(others).collect();
            let outlines = vec![bounds];
            let obstacles = LeadObstacles { bodies, words: Vec::new(), outlines, bounds };
            let around: Vec<Rect> = ends.iter().flat_map(|(from, to)| [*from, *to]).collect();
            let mut router = Router::new(&requests, Lattice::new(&obstacles, &around));
            for (index, request) in requests.iter().enumerate() {
                let (starts, goals) = super::ends(request, &router.lattice);
                let limits = (request.parts, request.between);
                let anew =
                    router.lattice.search(&starts, &goals, limits, &mut router.buffers);
                let kept = router.way(index);
                let points = |path: &Option<FoundPath>| {
                    path.as_ref().map(|path| router.lattice.points(path))
                };
                prop_assert_eq!(points(&anew), points(&kept));
                kept.into_iter().for_each(|path| router.lattice.occupy(&path));
            }
        }
    }

    #[test]
    fn two_leads_never_share_a_stretch() {
        let feet = [rect(5.0, 10.0, 3.0, 3.0), rect(5.0, 20.0, 3.0, 3.0)];
        let tabs = [rect(40.0, 10.0, 3.0, 3.0), rect(40.0, 20.0, 3.0, 3.0)];
        // Crosswise, so that one must go over the other.
        let requests: Vec<LeadRequest> = [0, 1]
            .map(|i| LeadRequest {
                from: feet[i],
                to: tabs[1 - i],
                side: None,
                parts: [1, 1],
                between: Rect::default(),
            })
            .to_vec();
        let obstacles = LeadObstacles {
            bodies: feet.iter().chain(&tabs).copied().collect(),
            bounds: rect(0.0, 0.0, 60.0, 40.0),
            outlines: vec![rect(0.0, 0.0, 60.0, 40.0)],
            ..LeadObstacles::default()
        };
        let found: Vec<_> = all(&requests, &obstacles).into_iter().flatten().collect();
        assert_eq!(found.len(), 2);
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
