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

use std::cmp::Reverse;
use std::collections::BinaryHeap;

use super::queue::place_in_turn;
use crate::geometry::{Point, Rect};

/// How close leads may come to each other and to bodies.
#[derive(Clone, Copy)]
struct Room {
    /// Distance of lattice lines, mm: two leads side by side keep a white gap on paper.
    pitch: f64,
    /// Nearest that a lead comes to a body that it does not belong to, mm.
    clearance: f64,
}
/// Where there is room.
const WIDE: Room = Room { pitch: 1.25, clearance: 0.9 };
/// For a full board, if some lead finds no way otherwise.
const TIGHT: Room = Room { pitch: 1.0, clearance: 0.5 };
/// Nearest that a lead comes to a label, mm.
const LABEL_CLEARANCE: f64 = 0.6;
/// Costs in steps of the lattice.
const STEP: u32 = 2;
const BEND: u32 = 7;
const CROSSING: u32 = 9;
const OFF_MIDDLE: u32 = 3;
/// For each step off the circuit boards, where a lead hangs in the air.
const OFF_BOARD: u32 = 5;
/// How often the order is changed when a lead finds no way.
const ROUNDS: usize = 4;

/// What a lead is to join.
#[derive(Clone, Debug)]
pub struct Wish {
    /// The body that it starts from.
    pub from: Rect,
    /// The bodies that it may end at: the tabs of a group, or one terminal.
    pub to: Vec<Rect>,
    /// Leads with the same number share the goal's tabs: each takes one of its own while there
    /// are enough.
    pub goal: usize,
}

/// What stands in the way.
#[derive(Clone, Debug, Default)]
pub struct Obstacles {
    /// Bodies; the wishes' own are among them.
    pub bodies: Vec<Rect>,
    /// Labels.
    pub labels: Vec<Rect>,
    /// Outlines of circuit boards: a lead may cross them, not run along them.
    pub outlines: Vec<Rect>,
    /// Everything lies in here.
    pub bounds: Rect,
}

/// The way of each wish from the edge of its foot to the edge of its goal, with right angles
/// only; `None` where there is none.
pub fn route(wishes: &[Wish], obstacles: &Obstacles) -> Vec<Option<Vec<Point>>> {
    let wide = route_with(WIDE, wishes, obstacles);
    if count(&wide) == wishes.len() {
        return wide;
    }
    let tight = route_with(TIGHT, wishes, obstacles);
    if count(&tight) > count(&wide) { tight } else { wide }
}

fn route_with(room: Room, wishes: &[Wish], obstacles: &Obstacles) -> Vec<Option<Vec<Point>>> {
    let free = Lattice::new(obstacles, room);
    let mut order: Vec<usize> = (0..wishes.len()).collect();
    order.sort_by_key(|i| (distance(&wishes[*i]), *i));
    let first = attempt(wishes, &order, &free);
    if count(&first) == wishes.len() {
        return first;
    }
    // A lead that finds no way while it is alone will find none in any order.
    order.retain(|i| count(&attempt(wishes, &[*i], &free)) == 1);
    place_in_turn(order, ROUNDS, |order| attempt(wishes, order, &free))
}

fn count(found: &[Option<Vec<Point>>]) -> usize {
    found.iter().flatten().count()
}

/// Distance from foot to goal along the axes, 1/100 mm.
fn distance(wish: &Wish) -> u64 {
    let from = wish.from.middle();
    let reach = wish.to.iter().map(|to| {
        let to = to.middle();
        (from.x - to.x).abs() + (from.y - to.y).abs()
    });
    (reach.fold(f64::MAX, f64::min).min(1e9) * 100.0) as u64
}

fn attempt(wishes: &[Wish], order: &[usize], free: &Lattice) -> Vec<Option<Vec<Point>>> {
    let mut lattice = free.clone();
    let mut taken: Vec<(usize, usize)> = Vec::new();
    let mut found = vec![None; wishes.len()];
    for &index in order {
        let wish = &wishes[index];
        let sharers = order.iter().filter(|i| wishes[**i].goal == wish.goal).count();
        let tab_is_free =
            |tab: usize| sharers > wish.to.len() || !taken.contains(&(wish.goal, tab));
        let (mut goals, mut spare) = (Vec::new(), Vec::new());
        for (tab, body) in wish.to.iter().enumerate() {
            let ends = lattice.ends(*body).into_iter().map(|end| (tab, end));
            if tab_is_free(tab) { goals.extend(ends) } else { spare.extend(ends) }
        }
        let starts = lattice.ends(wish.from);
        // A tab may be shut in by its neighbours: then two leads share one that is not.
        let way = lattice.search(&starts, &goals).or_else(|| lattice.search(&starts, &spare));
        if let Some((path, tab)) = way {
            lattice.occupy(&path.nodes);
            taken.push((wish.goal, tab));
            found[index] = Some(lattice.points(&path));
        }
    }
    found
}

/// A node beside a body, and the point of the body's edge that it faces.
#[derive(Clone, Copy, Debug)]
struct End {
    node: usize,
    edge: Point,
    /// The direction that leads away from the body.
    away: Way,
    /// Lattice lines between this one and the free one that is nearest to the edge's middle.
    off_middle: u32,
}

/// A direction along the lattice.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Way {
    Right,
    Down,
    Left,
    Up,
}

impl Way {
    const ALL: [Way; 4] = [Way::Right, Way::Down, Way::Left, Way::Up];

    fn level(self) -> bool {
        matches!(self, Way::Right | Way::Left)
    }

    fn back(self) -> Way {
        Way::ALL[(self as usize + 2) % 4]
    }
}

struct Found {
    nodes: Vec<usize>,
    start: Point,
    end: Point,
}

/// What a node allows.
#[derive(Clone, Copy, Default)]
struct Cell {
    /// Nothing may come here.
    blocked: bool,
    /// A level line is here already, or may not be.
    level: bool,
    /// An upright line is here already, or may not be.
    upright: bool,
    /// A line of another lead passes, so that a bend here would look like a joint.
    passed: bool,
    /// On a circuit board.
    on_board: bool,
}

#[derive(Clone)]
struct Lattice {
    room: Room,
    origin: Point,
    columns: usize,
    rows: usize,
    cells: Vec<Cell>,
}

impl Lattice {
    fn new(obstacles: &Obstacles, room: Room) -> Self {
        let bounds = obstacles.bounds;
        // A hostile size must not cost a hostile amount of memory: the sheet is never this big.
        let count = |length: f64| ((length / room.pitch).clamp(0.0, 600.0)) as usize + 1;
        let (columns, rows) = (count(bounds.width()), count(bounds.height()));
        let mut lattice = Self {
            room,
            origin: bounds.corner(),
            columns,
            rows,
            cells: vec![Cell::default(); columns * rows],
        };
        for body in &obstacles.bodies {
            lattice.mark(body.grown(room.clearance), |cell| cell.blocked = true);
        }
        for label in &obstacles.labels {
            lattice.mark(label.grown(LABEL_CLEARANCE), |cell| cell.blocked = true);
        }
        for o in &obstacles.outlines {
            lattice.mark(*o, |cell| cell.on_board = true);
            let near = 0.9;
            for y in [o.top, o.bottom] {
                let band = Rect { left: o.left, right: o.right, top: y - near, bottom: y + near };
                lattice.mark(band, |cell| cell.level = true);
            }
            for x in [o.left, o.right] {
                let band = Rect { left: x - near, right: x + near, top: o.top, bottom: o.bottom };
                lattice.mark(band, |cell| cell.upright = true);
            }
        }
        lattice
    }

    fn mark(&mut self, area: Rect, change: impl Fn(&mut Cell)) {
        let pitch = self.room.pitch;
        let first = |v: f64, origin: f64| ((v - origin) / pitch).ceil().max(0.0) as usize;
        let last = |v: f64, origin: f64, n: usize| {
            let at = ((v - origin) / pitch).floor();
            if at < 0.0 { None } else { Some((at as usize).min(n - 1)) }
        };
        let (Some(right), Some(bottom)) = (
            last(area.right, self.origin.x, self.columns),
            last(area.bottom, self.origin.y, self.rows),
        ) else {
            return;
        };
        for row in first(area.top, self.origin.y)..=bottom {
            for column in first(area.left, self.origin.x)..=right {
                change(&mut self.cells[row * self.columns + column]);
            }
        }
    }

    fn point(&self, node: usize) -> Point {
        let pitch = self.room.pitch;
        self.origin
            .moved((node % self.columns) as f64 * pitch, (node / self.columns) as f64 * pitch)
    }

    /// The nodes just outside each side of `body` that are free.
    fn ends(&self, body: Rect) -> Vec<End> {
        let pitch = self.room.pitch;
        let mut ends = Vec::new();
        let outside = body.grown(self.room.clearance);
        let after = |v: f64, origin: f64| ((v - origin) / pitch + 1e-9).floor() as i64 + 1;
        let before = |v: f64, origin: f64| ((v - origin) / pitch - 1e-9).ceil() as i64 - 1;
        let inside = |low: f64, high: f64, origin: f64| {
            let first = ((low - origin) / pitch).ceil() as i64;
            let last = ((high - origin) / pitch).floor() as i64;
            let middle = ((low + high) / 2.0 - origin) / pitch;
            let mut all: Vec<i64> = (first..=last).collect();
            // The middle of an edge looks best; equal costs are decided by order.
            all.sort_by_key(|i| ((*i as f64 - middle).abs() * 1000.0) as i64);
            all
        };
        let mut found = [0u32; 4];
        let mut add = |column: i64, row: i64, away: Way, edge: Point| {
            let fits =
                (0..self.columns as i64).contains(&column) && (0..self.rows as i64).contains(&row);
            if fits {
                let node = row as usize * self.columns + column as usize;
                if !self.cells[node].blocked {
                    let off_middle = found[away as usize];
                    found[away as usize] += 1;
                    ends.push(End { node, edge, away, off_middle });
                }
            }
        };
        let x = |column: i64| self.origin.x + column as f64 * pitch;
        let y = |row: i64| self.origin.y + row as f64 * pitch;
        for column in inside(body.left + 0.2, body.right - 0.2, self.origin.x) {
            let below = after(outside.bottom, self.origin.y);
            add(column, below, Way::Down, Point::new(x(column), body.bottom));
            let above = before(outside.top, self.origin.y);
            add(column, above, Way::Up, Point::new(x(column), body.top));
        }
        for row in inside(body.top + 0.2, body.bottom - 0.2, self.origin.y) {
            let right = after(outside.right, self.origin.x);
            add(right, row, Way::Right, Point::new(body.right, y(row)));
            let left = before(outside.left, self.origin.x);
            add(left, row, Way::Left, Point::new(body.left, y(row)));
        }
        ends
    }

    fn neighbour(&self, node: usize, way: Way) -> Option<usize> {
        let (column, row) = (node % self.columns, node / self.columns);
        match way {
            Way::Right => (column + 1 < self.columns).then(|| node + 1),
            Way::Left => (column > 0).then(|| node - 1),
            Way::Down => (row + 1 < self.rows).then(|| node + self.columns),
            Way::Up => (row > 0).then(|| node - self.columns),
        }
    }

    /// The cheapest way from one of `starts` to one of `goals`, and the goal's tab.
    fn search(&self, starts: &[End], goals: &[(usize, End)]) -> Option<(Found, usize)> {
        let mut goal_at: Vec<Option<usize>> = vec![None; self.cells.len()];
        let (mut low, mut high) = ((usize::MAX, usize::MAX), (0, 0));
        for (index, (_, end)) in goals.iter().enumerate() {
            let cell = self.cells[end.node];
            if cell.passed || goal_at[end.node].is_some() {
                continue;
            }
            goal_at[end.node] = Some(index);
            let (column, row) = (end.node % self.columns, end.node / self.columns);
            low = (low.0.min(column), low.1.min(row));
            high = (high.0.max(column), high.1.max(row));
        }
        if low.0 == usize::MAX {
            return None;
        }
        let rest = |node: usize| {
            let (column, row) = (node % self.columns, node / self.columns);
            let dx = low.0.saturating_sub(column) + column.saturating_sub(high.0);
            let dy = low.1.saturating_sub(row) + row.saturating_sub(high.1);
            (dx + dy) as u32 * STEP + if dx > 0 && dy > 0 { BEND } else { 0 }
        };

        let mut cost = vec![u32::MAX; self.cells.len() * 4];
        let mut from = vec![u32::MAX; self.cells.len() * 4];
        let mut open = BinaryHeap::new();
        for end in starts {
            if self.cells[end.node].passed {
                continue;
            }
            let state = end.node * 4 + end.away as usize;
            let first = end.off_middle * OFF_MIDDLE;
            if cost[state] > first {
                cost[state] = first;
                open.push(Reverse((first + rest(end.node), state)));
            }
        }
        while let Some(Reverse((estimate, state))) = open.pop() {
            let (node, way) = (state / 4, Way::ALL[state % 4]);
            let so_far = cost[state];
            if let Some((tab, end)) = goal_at[node].and_then(|index| goals.get(index))
                && way.back() == end.away
            {
                // The middle of a tab's edge is where a lead belongs: elsewhere costs extra, and
                // the state waits in the queue until that is the cheapest left.
                let with_end = so_far + end.off_middle * OFF_MIDDLE;
                if estimate >= with_end {
                    return Some((self.trace(state, &from, starts, *end), *tab));
                }
                open.push(Reverse((with_end, state)));
            }
            if estimate > so_far + rest(node) {
                continue;
            }
            let passing = self.cells[node].passed;
            for next_way in Way::ALL {
                if next_way == way.back() || (passing && next_way != way) {
                    continue;
                }
                let Some(next) = self.neighbour(node, next_way) else { continue };
                let (here, there) = (self.cells[node], self.cells[next]);
                let taken = |cell: Cell| if next_way.level() { cell.level } else { cell.upright };
                if there.blocked || taken(here) || taken(there) {
                    continue;
                }
                let bend = if next_way == way { 0 } else { BEND };
                let crossing = if there.passed { CROSSING } else { 0 };
                let off_board = if there.on_board { 0 } else { OFF_BOARD };
                let total = so_far + STEP + bend + crossing + off_board;
                let next_state = next * 4 + next_way as usize;
                if total < cost[next_state] {
                    cost[next_state] = total;
                    from[next_state] = state as u32;
                    open.push(Reverse((total + rest(next), next_state)));
                }
            }
        }
        None
    }

    fn trace(&self, last: usize, from: &[u32], starts: &[End], end: End) -> Found {
        let mut nodes = vec![last / 4];
        let mut state = last;
        while from[state] != u32::MAX {
            state = from[state] as usize;
            nodes.push(state / 4);
        }
        nodes.reverse();
        let away = Way::ALL[state % 4];
        let start = starts.iter().find(|s| s.node == nodes[0] && s.away == away);
        Found { start: start.map_or(self.point(nodes[0]), |s| s.edge), nodes, end: end.edge }
    }

    /// Keeps later leads off this one.
    fn occupy(&mut self, nodes: &[usize]) {
        for (index, &node) in nodes.iter().enumerate() {
            let level = |a: usize, b: usize| a.abs_diff(b) == 1;
            let before = index.checked_sub(1).map(|i| level(nodes[i], node));
            let after = nodes.get(index + 1).map(|next| level(node, *next));
            let columns_one = self.columns == 1;
            let cell = &mut self.cells[node];
            match (before, after) {
                (Some(a), Some(b)) if a == b && !columns_one => {
                    cell.passed = true;
                    if a { cell.level = true } else { cell.upright = true }
                }
                // A bend or an end: nobody may come here at all.
                _ => cell.blocked = true,
            }
        }
    }

    /// The corners of a way, from the edge of its foot to the edge of its goal.
    fn points(&self, found: &Found) -> Vec<Point> {
        let mut all = vec![found.start];
        all.extend(found.nodes.iter().map(|node| self.point(*node)));
        all.push(found.end);
        let mut corners: Vec<Point> = Vec::new();
        for point in all {
            if let [.., a, b] = corners[..] {
                let level = (a.y - b.y).abs() < 1e-9 && (b.y - point.y).abs() < 1e-9;
                let upright = (a.x - b.x).abs() < 1e-9 && (b.x - point.x).abs() < 1e-9;
                if level || upright {
                    corners.pop();
                }
            }
            corners.push(point);
        }
        corners
    }
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
        let wishes = [Wish { from: foot, to: vec![tab], goal: 0 }];
        let obstacles = Obstacles {
            bodies: vec![foot, tab, wall],
            bounds: rect(0.0, 0.0, 60.0, 40.0),
            ..Obstacles::default()
        };
        let path = route(&wishes, &obstacles)[0].clone().expect("there is room");
        assert!(!crosses(&path, &wall), "{path:?}");
        assert!(path.windows(2).all(|p| p[0].x == p[1].x || p[0].y == p[1].y), "{path:?}");
        // A wall from edge to edge leaves no way.
        let shut = Obstacles { bodies: vec![foot, tab, rect(25.0, -1.0, 6.0, 50.0)], ..obstacles };
        assert_eq!(route(&wishes, &shut), [None]);
    }

    #[test]
    fn two_leads_never_share_a_stretch() {
        let feet = [rect(5.0, 10.0, 3.0, 3.0), rect(5.0, 20.0, 3.0, 3.0)];
        let tabs = vec![rect(40.0, 10.0, 3.0, 3.0), rect(40.0, 20.0, 3.0, 3.0)];
        let wishes: Vec<Wish> = feet
            .iter()
            .flat_map(|foot| [0, 1].map(|goal| Wish { from: *foot, to: vec![tabs[goal]], goal }))
            .collect();
        let obstacles = Obstacles {
            bodies: feet.iter().chain(&tabs).copied().collect(),
            bounds: rect(0.0, 0.0, 60.0, 40.0),
            ..Obstacles::default()
        };
        let found: Vec<_> = route(&wishes, &obstacles).into_iter().flatten().collect();
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
