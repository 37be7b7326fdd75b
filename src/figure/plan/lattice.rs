//! The lattice that leads run along, and the search for the cheapest way on it.
//!
//! Its lines are not all equally far apart: the middles of jumpers and tabs lie on lines of their
//! own, so that a lead leaves and arrives in the middle of an edge.

use std::cmp::Reverse;
use std::collections::BinaryHeap;

use crate::geometry::{Point, Rect, Side};

/// Distance of two lines at most, mm.
const PITCH: f64 = 1.3;
/// Two lines nearer than this are one, mm.
const SAME: f64 = 0.25;
/// Nearest that the middle lines of two leads run side by side, mm: 1.5 mm of paper between lines
/// of up to 1 mm.
const SPACING: f64 = 2.5;
/// Nearest that a lead comes to a body that it does not belong to, mm.
const CLEARANCE: f64 = 1.0;
/// Nearest that a lead comes to words, mm.
const WORDS: f64 = 0.9;
/// Nearest that a lead runs along the outline of a circuit board, mm.
const OUTLINE: f64 = 1.4;
/// What a way costs: each mm; each bend and each crossing; each mm off the circuit boards.
const STEP: f64 = 10.0;
const BEND: u32 = 55;
const CROSSING: u32 = 90;
const OFF_BOARD: f64 = 15.0;

/// A lead costs at most so many times what it would cost with nothing in the way, and this more.
const DETOUR: u32 = 3;
const ROUND: u32 = 900;

/// What stands in the way.
#[derive(Clone, Debug, Default)]
pub struct LeadObstacles {
    /// Bodies; the requests' own are among them.
    pub bodies: Vec<Rect>,
    /// Words.
    pub words: Vec<Rect>,
    /// Outlines of circuit boards.
    pub outlines: Vec<Rect>,
    /// Everything lies in here.
    pub bounds: Rect,
}

/// A node beside a body, and the point of the body's edge that it faces.
#[derive(Clone, Copy, Debug)]
pub struct End {
    node: usize,
    edge: Point,
    /// The direction that leads away from the body.
    away: Way,
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
        match self {
            Way::Right => Way::Left,
            Way::Down => Way::Up,
            Way::Left => Way::Right,
            Way::Up => Way::Down,
        }
    }
}

/// A way from the edge of a foot to the edge of a goal.
pub struct FoundPath {
    nodes: Vec<usize>,
    start: Point,
    end: Point,
}

/// No state.
const NOWHERE: u32 = u32::MAX;

/// What a search writes down. One for all searches on a lattice: only what the last one wrote is
/// wiped off, which is far less than the whole.
pub struct SearchBuffers {
    /// The cheapest way found to each state.
    cost: Vec<u32>,
    /// The state before each on that way.
    from: Vec<u32>,
    /// The states that were reached.
    reached: Vec<usize>,
}

impl SearchBuffers {
    /// A clean one for searches on `lattice` and its copies.
    pub fn new(lattice: &Lattice) -> Self {
        let states = lattice.cells.len() * 4;
        Self { cost: vec![u32::MAX; states], from: vec![NOWHERE; states], reached: Vec::new() }
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
    }
}

/// What a node allows.
#[derive(Clone, Copy, Default)]
struct Cell {
    /// Nothing may come here.
    blocked: bool,
    /// A level line may not be here.
    level: bool,
    /// An upright line may not be here.
    upright: bool,
    /// A line of another lead passes, so that a bend here would look like a joint.
    passed: bool,
    /// The circuit board that it lies on, counted from 1; 0 beside all.
    part: u8,
}

/// Where leads may run.
#[derive(Clone)]
pub struct Lattice {
    xs: Vec<f64>,
    ys: Vec<f64>,
    cells: Vec<Cell>,
}

/// Lines at `wanted` places and between them, none farther from the next than the pitch.
fn lines(low: f64, high: f64, wanted: impl Iterator<Item = f64>) -> Vec<f64> {
    let mut fixed: Vec<f64> = wanted.filter(|v| (low..=high).contains(v)).collect();
    fixed.sort_by(f64::total_cmp);
    let mut all = vec![low];
    for at in fixed.into_iter().chain([high]) {
        let Some(&last) = all.last() else { break };
        if at - last < SAME {
            continue;
        }
        // A hostile size must not cost a hostile amount of memory: no sheet is a metre wide.
        let count = ((at - last) / PITCH).ceil().clamp(1.0, 1000.0) as usize;
        all.extend((1..=count).map(|i| last + (at - last) * i as f64 / count as f64));
    }
    all
}

impl Lattice {
    /// The lattice round what stands in the way, with lines through the middles of `ends`.
    pub fn new(obstacles: &LeadObstacles, ends: &[Rect]) -> Self {
        let bounds = obstacles.bounds;
        let xs = lines(bounds.left, bounds.right, ends.iter().map(|end| end.middle().x));
        let ys = lines(bounds.top, bounds.bottom, ends.iter().map(|end| end.middle().y));
        let cells = vec![Cell::default(); xs.len() * ys.len()];
        let mut lattice = Self { xs, ys, cells };
        for body in &obstacles.bodies {
            lattice.mark(body.grown(CLEARANCE), |cell| cell.blocked = true);
        }
        for words in &obstacles.words {
            lattice.mark(words.grown(WORDS), |cell| cell.blocked = true);
        }
        for (index, o) in obstacles.outlines.iter().enumerate() {
            lattice.mark(*o, |cell| cell.part = u8::try_from(index + 1).unwrap_or(u8::MAX));
            for y in [o.top, o.bottom] {
                let band =
                    Rect { left: o.left, right: o.right, top: y - OUTLINE, bottom: y + OUTLINE };
                lattice.mark(band, |cell| cell.level = true);
            }
            for x in [o.left, o.right] {
                let band =
                    Rect { left: x - OUTLINE, right: x + OUTLINE, top: o.top, bottom: o.bottom };
                lattice.mark(band, |cell| cell.upright = true);
            }
        }
        lattice
    }

    fn mark(&mut self, area: Rect, change: impl Fn(&mut Cell)) {
        let columns = self.xs.len();
        let (left, right) = within(&self.xs, area.left, area.right);
        let (top, bottom) = within(&self.ys, area.top, area.bottom);
        for row in top..bottom {
            for cell in self.cells.iter_mut().skip(row * columns + left).take(right - left) {
                change(cell);
            }
        }
    }

    fn point(&self, node: usize) -> Point {
        let columns = self.xs.len();
        let x = self.xs.get(node % columns).copied().unwrap_or_default();
        let y = self.ys.get(node / columns).copied().unwrap_or_default();
        Point::new(x, y)
    }

    /// The free nodes just outside the middle of each side of `body`, or of the one side.
    pub fn ends(&self, body: Rect, side: Option<Side>) -> Vec<End> {
        let outside = body.grown(CLEARANCE);
        let middle = body.middle();
        let column = nearest(&self.xs, middle.x);
        let row = nearest(&self.ys, middle.y);
        let (x, y) = (self.xs[column], self.ys[row]);
        let after = |lines: &[f64], v: f64| lines.partition_point(|line| *line <= v + 1e-9);
        let before =
            |lines: &[f64], v: f64| lines.partition_point(|line| *line < v - 1e-9).checked_sub(1);
        let all = [
            (Side::Right, Some(after(&self.xs, outside.right)), Some(row), Way::Right),
            (Side::Down, Some(column), Some(after(&self.ys, outside.bottom)), Way::Down),
            (Side::Left, before(&self.xs, outside.left), Some(row), Way::Left),
            (Side::Up, Some(column), before(&self.ys, outside.top), Way::Up),
        ];
        let mut ends = Vec::new();
        for (at, column, row, away) in all {
            let (Some(column), Some(row)) = (column, row) else { continue };
            if side.is_some_and(|side| side != at)
                || column >= self.xs.len()
                || row >= self.ys.len()
            {
                continue;
            }
            let edge = match at {
                Side::Right => Point::new(body.right, y),
                Side::Left => Point::new(body.left, y),
                Side::Down => Point::new(x, body.bottom),
                Side::Up => Point::new(x, body.top),
            };
            let node = row * self.xs.len() + column;
            let cell = self.cells[node];
            let taken = if away.level() { cell.level } else { cell.upright };
            if !cell.blocked && !taken {
                ends.push(End { node, edge, away });
            }
        }
        ends
    }

    fn neighbour(&self, node: usize, way: Way) -> Option<usize> {
        let columns = self.xs.len();
        let (column, row) = (node % columns, node / columns);
        match way {
            Way::Right => (column + 1 < columns).then(|| node + 1),
            Way::Left => (column > 0).then(|| node - 1),
            Way::Down => (row + 1 < self.ys.len()).then(|| node + columns),
            Way::Up => (row > 0).then(|| node - columns),
        }
    }

    /// The cheapest way from one of `starts` to one of `goals`. Within one circuit board, counted
    /// from 1, it stays on that; from one to another it stays `between` them.
    pub fn search(
        &self,
        starts: &[End],
        goals: &[End],
        (parts, between): ([u8; 2], Rect),
        buffers: &mut SearchBuffers,
    ) -> Option<FoundPath> {
        buffers.clear();
        let reach = goals.iter().map(|goal| {
            let at = self.point(goal.node);
            Rect { left: at.x, right: at.x, top: at.y, bottom: at.y }
        });
        let reach = reach.reduce(|a, b| a.union(&b))?;
        let rest = |node: usize| {
            let at = self.point(node);
            let dx = (reach.left - at.x).max(at.x - reach.right).max(0.0);
            let dy = (reach.top - at.y).max(at.y - reach.bottom).max(0.0);
            ((dx + dy) * STEP) as u32 + if dx > 1e-9 && dy > 1e-9 { BEND } else { 0 }
        };
        // A lead that goes a long way round is harder to follow than its two flags.
        let direct = starts.iter().map(|start| rest(start.node)).min()?;
        let most = direct.saturating_mul(DETOUR).saturating_add(ROUND);
        let leaves = parts[0] != parts[1];
        let allowed = |node: usize| {
            let at = self.point(node);
            let here = Rect { left: at.x, right: at.x, top: at.y, bottom: at.y };
            self.cells[node].part == parts[0] || (leaves && between.contains(&here))
        };

        let mut open = BinaryHeap::new();
        for end in starts {
            let cell = self.cells[end.node];
            let state = end.node * 4 + end.away as usize;
            if !cell.passed && allowed(end.node) && buffers.cost[state] > 0 {
                buffers.reach(state, 0, NOWHERE);
                open.push(Reverse((rest(end.node), state)));
            }
        }
        while let Some(Reverse((estimate, state))) = open.pop() {
            let (node, way) = (state / 4, Way::ALL[state % 4]);
            let so_far = buffers.cost[state];
            let here = self.cells[node];
            if !here.passed
                && let Some(goal) = goals.iter().find(|goal| goal.node == node && goal.away != way)
            {
                // A lead may turn into its tab at the last node; the state then waits in the queue
                // until that is the cheapest left.
                let turn = if goal.away == way.back() { 0 } else { BEND };
                if estimate >= so_far + turn {
                    return Some(self.trace(state, &buffers.from, starts, *goal));
                }
                open.push(Reverse((so_far + turn, state)));
            }
            if estimate > so_far + rest(node) {
                continue;
            }
            for next_way in Way::ALL {
                if next_way == way.back() || (here.passed && next_way != way) {
                    continue;
                }
                let Some(next) = self.neighbour(node, next_way) else { continue };
                let there = self.cells[next];
                let taken = |cell: Cell| if next_way.level() { cell.level } else { cell.upright };
                if there.blocked || taken(here) || taken(there) || !allowed(next) {
                    continue;
                }
                let (a, b) = (self.point(node), self.point(next));
                let length = (a.x - b.x).abs() + (a.y - b.y).abs();
                let per_mm = if there.part == 0 { STEP + OFF_BOARD } else { STEP };
                let bend = if next_way == way { 0 } else { BEND };
                let crossing = if there.passed { CROSSING } else { 0 };
                let total = so_far + (length * per_mm).ceil() as u32 + bend + crossing;
                let next_state = next * 4 + next_way as usize;
                if total + rest(next) <= most && total < buffers.cost[next_state] {
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

    /// Keeps later leads off this one: none runs beside it too near, none bends or ends on it.
    pub fn occupy(&mut self, found: &FoundPath) {
        for node in &found.nodes {
            self.cells[*node].passed = true;
        }
        for pair in self.points(found).windows(2) {
            let (a, b) = (pair[0], pair[1]);
            let stretch = Rect {
                left: a.x.min(b.x),
                right: a.x.max(b.x),
                top: a.y.min(b.y),
                bottom: a.y.max(b.y),
            };
            let near = stretch.grown(SPACING - 1e-6);
            if stretch.height() < 1e-9 {
                self.mark(near, |cell| cell.level = true);
            } else {
                self.mark(near, |cell| cell.upright = true);
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

/// The numbers of the lines from `low` to `high`, the end left out.
fn within(lines: &[f64], low: f64, high: f64) -> (usize, usize) {
    let from = lines.partition_point(|line| *line < low);
    (from, lines.partition_point(|line| *line <= high).max(from))
}

/// The number of the line nearest to `at`; there is at least one.
fn nearest(lines: &[f64], at: f64) -> usize {
    let after = lines.partition_point(|line| *line < at);
    let off = |i: usize| lines.get(i).map_or(f64::MAX, |line| (line - at).abs());
    match after.checked_sub(1) {
        Some(before) if off(before) <= off(after) => before,
        _ => after.min(lines.len().saturating_sub(1)),
    }
}
