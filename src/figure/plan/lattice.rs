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

/// After so many states a search asks whether there is a way at all: one that finds none goes through all
/// that it can reach, and mostly it is a goal that is shut in.
const PATIENCE: usize = 500;

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
#[derive(Clone, Copy, Debug, PartialEq)]
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
#[derive(Clone, Debug)]
pub struct FoundPath {
    nodes: Vec<usize>,
    start: Point,
    end: Point,
}

/// No state.
const NOWHERE: u32 = u32::MAX;

/// What a search writes down. One for all searches on a lattice: only what the last one wrote is
/// wiped off, which is far less than the whole.
#[derive(Default)]
pub struct SearchBuffers {
    /// The cheapest way found to each state.
    best: Vec<Reached>,
    /// The states that were reached.
    reached: Vec<u32>,
    /// The states to go on from: the estimate of the whole way before the state in one number, so that
    /// they compare at once.
    open: BinaryHeap<Reverse<u64>>,
    /// How far each column and each row lies from the goals, mm.
    off: [Vec<f64>; 2],
    /// The nodes that a lead can come to the goals from, level and upright, and those to go on from.
    joined: Vec<bool>,
    spread: Vec<u32>,
}

/// How a state was reached.
#[derive(Clone, Copy)]
struct Reached {
    /// What the way costs so far.
    cost: u32,
    /// The state before it.
    from: u32,
}

impl Reached {
    const NOT: Self = Self { cost: u32::MAX, from: NOWHERE };
}

impl SearchBuffers {
    /// A clean one for searches on `lattice` and its copies.
    pub fn new(lattice: &Lattice) -> Self {
        Self { best: vec![Reached::NOT; lattice.cells.len() * 4], ..Self::default() }
    }

    fn reach(&mut self, state: usize, cost: u32, from: u32, estimate: u32) {
        self.best[state] = Reached { cost, from };
        self.reached.push(state as u32);
        self.push(estimate, state);
    }

    fn push(&mut self, estimate: u32, state: usize) {
        self.open.push(Reverse(u64::from(estimate) << 32 | state as u64));
    }

    /// The state with the least estimate, of these that with the least number.
    fn pop(&mut self) -> Option<(u32, usize)> {
        let Reverse(next) = self.open.pop()?;
        Some(((next >> 32) as u32, next as u32 as usize))
    }

    fn clear(&mut self) {
        for state in self.reached.drain(..) {
            self.best[state as usize] = Reached::NOT;
        }
        self.open.clear();
    }
}

/// What a node does not allow.
#[derive(Clone, Copy, Default)]
struct Cell {
    /// A sum of the constants below.
    bars: u8,
    /// The circuit board that it lies on, counted from 1; 0 beside all.
    part: u8,
}

impl Cell {
    /// Nothing may come here.
    const BLOCKED: u8 = 1;
    /// A level line may not be here.
    const LEVEL: u8 = 2;
    /// An upright line may not be here.
    const UPRIGHT: u8 = 4;
    /// A line of another lead passes, so that a bend here would look like a joint.
    const PASSED: u8 = 8;

    fn passed(self) -> bool {
        self.bars & Self::PASSED != 0
    }

    /// Whether a line may not run here in a direction.
    fn bars(self, way: Way) -> bool {
        let bar = if way.level() { Self::LEVEL } else { Self::UPRIGHT };
        self.bars & (bar | Self::BLOCKED) != 0
    }
}

/// Where leads may run.
#[derive(Clone)]
pub struct Lattice {
    xs: Vec<f64>,
    ys: Vec<f64>,
    /// Row by row, with a blocked one before and behind each row and a blocked row over and under all:
    /// a search that steps on them stops by itself.
    cells: Vec<Cell>,
    /// What a step costs from each column and from each row to the next: on a circuit board, and beside
    /// all of them.
    steps: [Vec<[u32; 2]>; 2],
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
        let edge = Cell { bars: Cell::BLOCKED, part: 0 };
        let cells = vec![edge; (xs.len() + 2) * (ys.len() + 2)];
        let steps = [&xs, &ys].map(|lines| steps(lines));
        let mut lattice = Self { xs, ys, cells, steps };
        let everything = Rect {
            left: f64::NEG_INFINITY,
            top: f64::NEG_INFINITY,
            right: f64::INFINITY,
            bottom: f64::INFINITY,
        };
        lattice.mark(everything, |cell| cell.bars = 0);
        for body in &obstacles.bodies {
            lattice.mark(body.grown(CLEARANCE), |cell| cell.bars |= Cell::BLOCKED);
        }
        for words in &obstacles.words {
            lattice.mark(words.grown(WORDS), |cell| cell.bars |= Cell::BLOCKED);
        }
        for (index, o) in obstacles.outlines.iter().enumerate() {
            lattice.mark(*o, |cell| cell.part = u8::try_from(index + 1).unwrap_or(u8::MAX));
            for y in [o.top, o.bottom] {
                let band =
                    Rect { left: o.left, right: o.right, top: y - OUTLINE, bottom: y + OUTLINE };
                lattice.mark(band, |cell| cell.bars |= Cell::LEVEL);
            }
            for x in [o.left, o.right] {
                let band =
                    Rect { left: x - OUTLINE, right: x + OUTLINE, top: o.top, bottom: o.bottom };
                lattice.mark(band, |cell| cell.bars |= Cell::UPRIGHT);
            }
        }
        lattice
    }

    fn mark(&mut self, area: Rect, change: impl Fn(&mut Cell)) {
        let (left, right) = within(&self.xs, area.left, area.right);
        let (top, bottom) = within(&self.ys, area.top, area.bottom);
        for row in top..bottom {
            let from = self.node(left, row);
            for cell in self.cells.iter_mut().skip(from).take(right - left) {
                change(cell);
            }
        }
    }

    /// How many nodes it is from one row to the next.
    fn stride(&self) -> usize {
        self.xs.len() + 2
    }

    fn node(&self, column: usize, row: usize) -> usize {
        (row + 1) * self.stride() + column + 1
    }

    /// The column and the row of a node that is not on the edge.
    fn place(&self, node: usize) -> (usize, usize) {
        let (node, stride) = (node as u32, self.stride() as u32);
        ((node % stride - 1) as usize, (node / stride - 1) as usize)
    }

    fn point(&self, node: usize) -> Point {
        let (column, row) = self.place(node);
        let x = self.xs.get(column).copied().unwrap_or_default();
        let y = self.ys.get(row).copied().unwrap_or_default();
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
            let node = self.node(column, row);
            if !self.cells[node].bars(away) {
                ends.push(End { node, edge, away });
            }
        }
        ends
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
        let mut off = std::mem::take(&mut buffers.off);
        for (off, (lines, low, high)) in off
            .iter_mut()
            .zip([(&self.xs, reach.left, reach.right), (&self.ys, reach.top, reach.bottom)])
        {
            off.clear();
            off.extend(lines.iter().map(|at| (low - at).max(at - high).max(0.0)));
        }
        let found = self.search_with(starts, goals, (parts, between), &off, buffers);
        buffers.off = off;
        found
    }

    fn search_with(
        &self,
        starts: &[End],
        goals: &[End],
        (parts, between): ([u8; 2], Rect),
        off: &[Vec<f64>; 2],
        buffers: &mut SearchBuffers,
    ) -> Option<FoundPath> {
        let [off_x, off_y] = off;
        let [steps_x, steps_y] = &self.steps;
        let rest = |column: usize, row: usize| {
            let (dx, dy) = (off_x[column], off_y[row]);
            ((dx + dy) * STEP) as u32 + if dx > 1e-9 && dy > 1e-9 { BEND } else { 0 }
        };
        let rest_of = |node: usize| {
            let (column, row) = self.place(node);
            rest(column, row)
        };
        // A lead that goes a long way round is harder to follow than its two flags.
        let direct = starts.iter().map(|start| rest_of(start.node)).min()?;
        let most = direct.saturating_mul(DETOUR).saturating_add(ROUND);
        let leaves = parts[0] != parts[1];
        let columns = within(&self.xs, between.left, between.right);
        let rows = within(&self.ys, between.top, between.bottom);
        let allowed = |node: usize, column: usize, row: usize| {
            self.cells[node].part == parts[0]
                || (leaves
                    && (columns.0..columns.1).contains(&column)
                    && (rows.0..rows.1).contains(&row))
        };

        for end in starts {
            let state = end.node * 4 + end.away as usize;
            let (column, row) = self.place(end.node);
            let passed = self.cells[end.node].passed();
            if !passed && allowed(end.node, column, row) && buffers.best[state].cost > 0 {
                buffers.reach(state, 0, NOWHERE, rest(column, row));
            }
        }
        let stride = self.stride();
        let mut looked = 0;
        while let Some((estimate, state)) = buffers.pop() {
            looked += 1;
            if looked == PATIENCE && !self.joins(starts, goals, &allowed, buffers) {
                return None;
            }
            let (node, way) = (state / 4, Way::ALL[state % 4]);
            let (column, row) = self.place(node);
            let so_far = buffers.best[state].cost;
            let here = self.cells[node];
            if !here.passed()
                && let Some(goal) = goals.iter().find(|goal| goal.node == node && goal.away != way)
            {
                // A lead may turn into its tab at the last node; the state then waits in the queue
                // until that is the cheapest left.
                let turn = if goal.away == way.back() { 0 } else { BEND };
                if estimate >= so_far + turn {
                    return Some(self.trace(state, &buffers.best, starts, *goal));
                }
                buffers.push(so_far + turn, state);
            }
            if estimate > so_far + rest(column, row) {
                continue;
            }
            for next_way in Way::ALL {
                if next_way == way.back() || (here.passed() && next_way != way) {
                    continue;
                }
                let next = match next_way {
                    Way::Right => node + 1,
                    Way::Down => node + stride,
                    Way::Left => node - 1,
                    Way::Up => node - stride,
                };
                let there = self.cells[next];
                if here.bars(next_way) || there.bars(next_way) {
                    continue;
                }
                // What is not blocked is not on the edge.
                let (column, row, step) = match next_way {
                    Way::Right => (column + 1, row, steps_x[column]),
                    Way::Down => (column, row + 1, steps_y[row]),
                    Way::Left => (column - 1, row, steps_x[column - 1]),
                    Way::Up => (column, row - 1, steps_y[row - 1]),
                };
                if !allowed(next, column, row) {
                    continue;
                }
                let [on_board, off_board] = step;
                let step = if there.part == 0 { off_board } else { on_board };
                let bend = if next_way == way { 0 } else { BEND };
                let crossing = if there.passed() { CROSSING } else { 0 };
                let total = so_far + step + bend + crossing;
                let estimate = total + rest(column, row);
                let next_state = next * 4 + next_way as usize;
                if estimate <= most && total < buffers.best[next_state].cost {
                    buffers.reach(next_state, total, state as u32, estimate);
                }
            }
        }
        None
    }

    /// Whether a line from one of `starts` to one of `goals` is there at all, whatever it costs. It may
    /// find one where none is, as it goes back where a lead must not, but never the other way round.
    fn joins(
        &self,
        starts: &[End],
        goals: &[End],
        allowed: &impl Fn(usize, usize, usize) -> bool,
        buffers: &mut SearchBuffers,
    ) -> bool {
        let SearchBuffers { joined, spread, .. } = buffers;
        joined.clear();
        joined.resize(self.cells.len() * 2, false);
        spread.clear();
        let stride = self.stride();
        let mut reach = |node: usize, upright: usize, spread: &mut Vec<u32>| {
            if let Some(known @ false) = joined.get_mut(node * 2 + upright) {
                *known = true;
                spread.push((node * 2 + upright) as u32);
            }
        };
        for goal in goals.iter().filter(|goal| !self.cells[goal.node].passed()) {
            reach(goal.node, 0, spread);
            reach(goal.node, 1, spread);
        }
        while let Some(line) = spread.pop() {
            let (node, upright) = (line as usize / 2, line as usize % 2);
            let is_start = |start: &End| start.node == node && start.away.level() == (upright == 0);
            if starts.iter().any(is_start) {
                return true;
            }
            let here = self.cells[node];
            if !here.passed() {
                reach(node, 1 - upright, spread);
            }
            let (way, step) = if upright == 0 { (Way::Right, 1) } else { (Way::Down, stride) };
            for next in [node - step, node + step] {
                if here.bars(way) || self.cells[next].bars(way) {
                    continue;
                }
                let (column, row) = self.place(next);
                if allowed(next, column, row) {
                    reach(next, upright, spread);
                }
            }
        }
        false
    }

    fn trace(&self, last: usize, best: &[Reached], starts: &[End], end: End) -> FoundPath {
        let mut nodes = vec![last / 4];
        let mut state = last;
        while best[state].from != NOWHERE {
            state = best[state].from as usize;
            nodes.push(state / 4);
        }
        nodes.reverse();
        let away = Way::ALL[state % 4];
        let start = starts.iter().find(|s| s.node == nodes[0] && s.away == away);
        FoundPath { start: start.map_or(self.point(nodes[0]), |s| s.edge), nodes, end: end.edge }
    }

    /// Whether nothing that was added since a way was found touches it: no line runs beside it or across
    /// it.
    pub fn leaves(&self, found: &FoundPath) -> bool {
        let steps = found.nodes.windows(2).all(|pair| {
            let [a, b] = [pair[0], pair[1]];
            let way = if a.abs_diff(b) == 1 { Way::Right } else { Way::Down };
            !self.cells[a].bars(way) && !self.cells[b].bars(way)
        });
        steps && found.nodes.iter().all(|node| !self.cells[*node].passed())
    }

    /// Keeps later leads off this one: none runs beside it too near, none bends or ends on it.
    pub fn occupy(&mut self, found: &FoundPath) {
        for node in &found.nodes {
            self.cells[*node].bars |= Cell::PASSED;
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
                self.mark(near, |cell| cell.bars |= Cell::LEVEL);
            } else {
                self.mark(near, |cell| cell.bars |= Cell::UPRIGHT);
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

/// What a step costs from each line to the next: on a circuit board, and beside all of them.
fn steps(lines: &[f64]) -> Vec<[u32; 2]> {
    let cost = |pair: &[f64], per_mm: f64| match pair {
        [a, b] => ((a - b).abs() * per_mm).ceil() as u32,
        _ => 0,
    };
    let pairs = lines.windows(2);
    pairs.map(|pair| [cost(pair, STEP), cost(pair, STEP + OFF_BOARD)]).collect()
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
