//! The lattice that leads run along, and the search for the cheapest way on it.

use std::cmp::Reverse;
use std::collections::BinaryHeap;

use crate::geometry::{Point, Rect};

/// How close leads may come to each other and to bodies.
#[derive(Clone, Copy)]
pub struct Room {
    /// Distance of lattice lines, mm: two leads side by side keep a white gap on paper.
    pub pitch: f64,
    /// Nearest that a lead comes to a body that it does not belong to, mm.
    pub clearance: f64,
}

/// What stands in the way.
#[derive(Clone, Debug, Default)]
pub struct LeadObstacles {
    /// Bodies; the requests' own are among them.
    pub bodies: Vec<Rect>,
    /// Labels.
    pub labels: Vec<Rect>,
    /// Outlines of circuit boards: a lead may cross them, not run along them.
    pub outlines: Vec<Rect>,
    /// Everything lies in here.
    pub bounds: Rect,
}

/// Nearest that a lead comes to a label, mm.
const LABEL_CLEARANCE: f64 = 0.6;
/// What a way costs: each step; each bend and each crossing; each lattice line between an end and
/// the middle of the edge; each step off the circuit boards, where a lead hangs in the air.
const STEP: u32 = 2;
const BEND: u32 = 7;
const CROSSING: u32 = 9;
const OFF_MIDDLE: u32 = 3;
const OFF_BOARD: u32 = 5;

/// A node beside a body, and the point of the body's edge that it faces.
#[derive(Clone, Copy, Debug)]
pub struct End {
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

pub struct FoundPath {
    /// The nodes from the foot to the goal.
    pub nodes: Vec<usize>,
    start: Point,
    end: Point,
}

/// No state, no goal.
const NOWHERE: u32 = u32::MAX;

/// What a search writes down. One for all searches on a lattice: only what the last one wrote is
/// wiped off, which is far less than the whole.
pub struct SearchBuffers {
    /// The cheapest way found to each state.
    cost: Vec<u32>,
    /// The state before each on that way.
    from: Vec<u32>,
    /// Which goal each node is.
    goal_at: Vec<u32>,
    /// The states that were reached.
    reached: Vec<usize>,
    /// The nodes that are goals.
    goals: Vec<usize>,
}

impl SearchBuffers {
    /// A clean one for searches on `lattice` and its copies.
    pub fn new(lattice: &Lattice) -> Self {
        let nodes = lattice.cells.len();
        Self {
            cost: vec![u32::MAX; nodes * 4],
            from: vec![NOWHERE; nodes * 4],
            goal_at: vec![NOWHERE; nodes],
            reached: Vec::new(),
            goals: Vec::new(),
        }
    }

    fn reach(&mut self, state: usize, cost: u32, from: u32) {
        self.cost[state] = cost;
        self.from[state] = from;
        self.reached.push(state);
    }

    fn clear(&mut self) {
        for state in self.reached.drain(..) {
            self.cost[state] = u32::MAX;
            self.from[state] = NOWHERE;
        }
        for node in self.goals.drain(..) {
            self.goal_at[node] = NOWHERE;
        }
    }
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
pub struct Lattice {
    room: Room,
    origin: Point,
    columns: usize,
    rows: usize,
    cells: Vec<Cell>,
}

impl Lattice {
    pub fn new(obstacles: &LeadObstacles, room: Room) -> Self {
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
    pub fn ends(&self, body: Rect) -> Vec<End> {
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

    /// Marks the goals that can be reached, and gives the lowest and the highest column and row that
    /// they have; `None` if there is none.
    fn mark_goals(
        &self,
        goals: &[(usize, End)],
        buffers: &mut SearchBuffers,
    ) -> Option<((usize, usize), (usize, usize))> {
        let (mut low, mut high) = ((usize::MAX, usize::MAX), (0, 0));
        for (index, (_, end)) in goals.iter().enumerate() {
            let cell = self.cells[end.node];
            if cell.passed || buffers.goal_at[end.node] != NOWHERE {
                continue;
            }
            buffers.goal_at[end.node] = index as u32;
            buffers.goals.push(end.node);
            let (column, row) = (end.node % self.columns, end.node / self.columns);
            low = (low.0.min(column), low.1.min(row));
            high = (high.0.max(column), high.1.max(row));
        }
        (low.0 != usize::MAX).then_some((low, high))
    }

    /// The cheapest way from one of `starts` to one of `goals`, and the goal's tab.
    pub fn search(
        &self,
        starts: &[End],
        goals: &[(usize, End)],
        buffers: &mut SearchBuffers,
    ) -> Option<(FoundPath, usize)> {
        buffers.clear();
        let (low, high) = self.mark_goals(goals, buffers)?;
        let rest = |node: usize| {
            let (column, row) = (node % self.columns, node / self.columns);
            let dx = low.0.saturating_sub(column) + column.saturating_sub(high.0);
            let dy = low.1.saturating_sub(row) + row.saturating_sub(high.1);
            (dx + dy) as u32 * STEP + if dx > 0 && dy > 0 { BEND } else { 0 }
        };

        let mut open = BinaryHeap::new();
        for end in starts {
            if self.cells[end.node].passed {
                continue;
            }
            let state = end.node * 4 + end.away as usize;
            let first = end.off_middle * OFF_MIDDLE;
            if buffers.cost[state] > first {
                buffers.reach(state, first, NOWHERE);
                open.push(Reverse((first + rest(end.node), state)));
            }
        }
        while let Some(Reverse((estimate, state))) = open.pop() {
            let (node, way) = (state / 4, Way::ALL[state % 4]);
            let so_far = buffers.cost[state];
            if let Some((tab, end)) = goals.get(buffers.goal_at[node] as usize)
                && way.back() == end.away
            {
                // The middle of a tab's edge is where a lead belongs: elsewhere costs extra, and
                // the state waits in the queue until that is the cheapest left.
                let with_end = so_far + end.off_middle * OFF_MIDDLE;
                if estimate >= with_end {
                    return Some((self.trace(state, &buffers.from, starts, *end), *tab));
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
                if total < buffers.cost[next_state] {
                    buffers.reach(next_state, total, state as u32);
                    open.push(Reverse((total + rest(next), next_state)));
                }
            }
        }
        None
    }

    fn trace(&self, last: usize, from: &[u32], starts: &[End], end: End) -> FoundPath {
        let mut nodes = vec![last / 4];
        let mut state = last;
        while from[state] != NOWHERE {
            state = from[state] as usize;
            nodes.push(state / 4);
        }
        nodes.reverse();
        let away = Way::ALL[state % 4];
        let start = starts.iter().find(|s| s.node == nodes[0] && s.away == away);
        FoundPath { start: start.map_or(self.point(nodes[0]), |s| s.edge), nodes, end: end.edge }
    }

    /// Keeps later leads off this one.
    pub fn occupy(&mut self, nodes: &[usize]) {
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
    pub fn points(&self, found: &FoundPath) -> Vec<Point> {
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
