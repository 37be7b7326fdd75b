//! Labels in columns at both sides of the board, each with a leader to what it names: the way to
//! name everything on a board that is too crowded for labels beside their components.
//!
//! This is boundary labelling (Bekos, Kaufmann, Symvonis and Wolff, "Boundary labeling: models and
//! efficient algorithms for rectangular maps", Computational Geometry 36, 2007). A leader runs
//! straight from its component to a port at the edge of the board, then level to its label. Straight
//! leaders to ports in a line can always be drawn so that no two cross: of all ways to join them
//! the shortest has no crossing, for two that cross become shorter when they trade their ports.
//! Inside the board there are no words at all, so no leader runs through one.

use crate::geometry::{Point, Rect, Size};

/// Between two rows of labels, and between two leaders that run level, mm.
const GAP: f64 = 0.8;
/// Between two columns of labels, mm.
const COLUMNS: f64 = 2.0;
/// Between the board and the nearest column, where the leaders turn level, mm.
const TURN: f64 = 2.0;
/// The least width that is left for the board, mm.
const LEAST: f64 = 24.0;
/// Most columns at one side.
const MOST: usize = 12;

/// How the room is shared out.
#[derive(Clone, Debug, PartialEq)]
pub struct Shares {
    /// Columns of labels at the left and at the right.
    columns: [usize; 2],
    /// Width of a column at the left and at the right, mm.
    widths: [f64; 2],
    /// Height of the rows of labels, mm.
    row: f64,
    /// What is left for the board, in the middle, mm.
    pub board: Rect,
}

/// A label in its column.
#[derive(Clone, Debug, PartialEq)]
pub struct MarginLabel {
    /// Where its words go.
    pub area: Rect,
    /// The corners of its leader, from the component to the label.
    pub leader: Vec<Point>,
    /// Whether it stands left of the board, set towards it.
    pub at_left: bool,
}

/// Which of the labels go to the left: the half of them that is further left.
pub fn at_left(sites: &[Point]) -> Vec<bool> {
    let mut order: Vec<usize> = (0..sites.len()).collect();
    let x = |i: &usize| sites.get(*i).map_or(0.0, |site| site.x);
    order.sort_by(|a, b| x(a).total_cmp(&x(b)).then(a.cmp(b)));
    let mut left = vec![false; sites.len()];
    for index in order.into_iter().take(sites.len().div_ceil(2)) {
        if let Some(side) = left.get_mut(index) {
            *side = true;
        }
    }
    left
}

/// Shares a room between labels of these sizes and the board; `None` if the board gets none.
pub fn share(sizes: &[Size], left: &[bool], room: Size) -> Option<Shares> {
    let side = |wanted: bool| {
        let mine = sizes.iter().zip(left).filter(move |(_, side)| **side == wanted);
        let count = mine.clone().count();
        let width = mine.map(|(size, _)| size.width).fold(0.0, f64::max);
        (count, width)
    };
    let (sides, row) =
        ([side(true), side(false)], sizes.iter().map(|size| size.height).fold(0.0, f64::max));
    let columns = sides.map(|(count, _)| {
        (1..=MOST).find(|columns| rows_height(count, *columns, row) <= room.height)
    });
    let columns = [columns[0]?, columns[1]?];
    let widths = sides.map(|(_, width)| width);
    let taken = |side: usize| columns[side] as f64 * (widths[side] + COLUMNS) + TURN;
    let (from, to) = (taken(0), room.width - taken(1));
    let board = Rect { left: from, right: to.max(from), top: 0.0, bottom: room.height };
    (board.width() >= LEAST).then_some(Shares { columns, widths, row, board })
}

fn rows_height(count: usize, columns: usize, row: f64) -> f64 {
    count.div_ceil(columns) as f64 * pitch(columns, row)
}

/// From one row to the next: the label of the nearest column, and under it a leader to each of the
/// other columns.
fn pitch(columns: usize, row: f64) -> f64 {
    row + GAP * columns as f64
}

impl Shares {
    /// How high the rows are, mm.
    pub fn height(&self, left: &[bool]) -> f64 {
        let count = |wanted| left.iter().filter(|side| **side == wanted).count();
        rows_height(count(true), self.columns[0], self.row).max(rows_height(
            count(false),
            self.columns[1],
            self.row,
        ))
    }

    /// Puts each label into its column, with its leader.
    pub fn place(
        &self,
        sites: &[Point],
        sizes: &[Size],
        left: &[bool],
        height: f64,
    ) -> Vec<MarginLabel> {
        let mut placed: Vec<Option<MarginLabel>> = vec![None; sites.len()];
        for at_left in [true, false] {
            let mut mine: Vec<usize> =
                (0..sites.len()).filter(|i| left.get(*i) == Some(&at_left)).collect();
            let y = |i: &usize| sites.get(*i).map_or(0.0, |site| site.y);
            mine.sort_by(|a, b| y(a).total_cmp(&y(b)).then(a.cmp(b)));
            let ports = self.ports(mine.len(), at_left, height);
            let points: Vec<Point> = mine.iter().filter_map(|i| sites.get(*i).copied()).collect();
            let joined = without_crossings(&points, &ports);
            for (index, port) in mine.into_iter().zip(joined) {
                let (Some(site), Some(size), Some(port)) =
                    (sites.get(index), sizes.get(index), ports.get(port))
                else {
                    continue;
                };
                if let Some(slot) = placed.get_mut(index) {
                    *slot = Some(self.label(*site, *size, port, at_left));
                }
            }
        }
        placed.into_iter().flatten().collect()
    }

    fn ports(&self, count: usize, at_left: bool, height: f64) -> Vec<Port> {
        let side = usize::from(!at_left);
        let columns = self.columns[side];
        let step = pitch(columns, self.row);
        let top = (height - rows_height(count, columns, self.row)).max(0.0) / 2.0;
        let x = if at_left { self.board.left - TURN / 2.0 } else { self.board.right + TURN / 2.0 };
        (0..count)
            .map(|index| {
                let (band, column) = (index / columns, index % columns);
                let row = top + band as f64 * step;
                let middle = row + self.row / 2.0;
                let track =
                    if column == 0 { middle } else { row + self.row + GAP * (column as f64 - 0.4) };
                Port { at: Point::new(x, track), column, middle }
            })
            .collect()
    }

    fn label(&self, site: Point, size: Size, port: &Port, at_left: bool) -> MarginLabel {
        let side = usize::from(!at_left);
        let out = TURN + port.column as f64 * (self.widths[side] + COLUMNS);
        let toward = if at_left { -1.0 } else { 1.0 };
        let from = if at_left { self.board.left } else { self.board.right };
        // The edge of the label that faces the board.
        let edge = from + toward * out;
        let left = if at_left { edge - size.width } else { edge };
        let area = Rect::at(Point::new(left, port.middle - size.height / 2.0), size);
        let mut leader = vec![site, port.at];
        let before = edge - toward * 0.5;
        if port.column > 0 {
            leader.push(Point::new(before - toward * 0.6, port.at.y));
        }
        leader.push(Point::new(before, port.middle));
        MarginLabel { area, leader, at_left }
    }
}

/// Where a leader leaves the board.
struct Port {
    at: Point,
    /// Its label's column, counted from the board.
    column: usize,
    /// Its label's middle height.
    middle: f64,
}

/// The port of each site, so that no two of the straight lines between them cross.
fn without_crossings(sites: &[Point], ports: &[Port]) -> Vec<usize> {
    let mut port: Vec<usize> = (0..sites.len()).collect();
    let line = |site: usize, port: &[usize]| {
        let at = ports.get(*port.get(site)?)?.at;
        Some([*sites.get(site)?, at])
    };
    // Each trade makes the lines shorter together, so it ends; the limit is for what rounding makes.
    for _ in 0..sites.len().pow(2).min(4000) {
        let mut traded = false;
        for a in 0..sites.len() {
            for b in a + 1..sites.len() {
                let (Some(one), Some(other)) = (line(a, &port), line(b, &port)) else { continue };
                if cross(one, other) {
                    port.swap(a, b);
                    traded = true;
                }
            }
        }
        if !traded {
            break;
        }
    }
    port
}

/// Whether two lines have a point in common that is inside of both.
fn cross(a: [Point; 2], b: [Point; 2]) -> bool {
    let side = |l: [Point; 2], p: Point| {
        (l[1].x - l[0].x) * (p.y - l[0].y) - (l[1].y - l[0].y) * (p.x - l[0].x)
    };
    side(a, b[0]) * side(a, b[1]) < 0.0 && side(b, a[0]) * side(b, a[1]) < 0.0
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Sites all over a board from a small congruential generator.
    fn scattered(count: usize, seed: u64) -> Vec<Point> {
        let mut state = seed;
        let mut next = move || {
            state = state
                .wrapping_mul(6_364_136_223_846_793_005)
                .wrapping_add(1_442_695_040_888_963_407);
            (state >> 33) as f64 / (1_u64 << 31) as f64
        };
        (0..count).map(|_| Point::new(next(), next())).collect()
    }

    #[test]
    fn no_two_leaders_cross_and_no_two_labels_overlap() {
        for (count, seed) in [(1, 1), (12, 2), (40, 3), (120, 4), (200, 5)] {
            let sites = scattered(count, seed);
            let sizes = vec![Size::new(8.0, 3.6); count];
            let left = at_left(&sites);
            let shares = share(&sizes, &left, Size::new(190.0, 130.0)).expect("there is room");
            // All over the board, whatever room it got.
            let (board, wide, high) = (shares.board, shares.board.width(), 130.0);
            let on_board = |p: &Point| board.corner().moved(p.x * wide, p.y * high);
            let sites: Vec<Point> = sites.iter().map(on_board).collect();
            let labels = shares.place(&sites, &sizes, &left, 130.0);
            assert_eq!(labels.len(), count);
            let lines: Vec<Vec<[Point; 2]>> = labels
                .iter()
                .map(|l| l.leader.windows(2).map(|pair| [pair[0], pair[1]]).collect())
                .collect();
            for (i, a) in labels.iter().enumerate() {
                for (j, b) in labels.iter().enumerate().skip(i + 1) {
                    assert!(!a.area.overlaps(&b.area), "{count}: {a:?} {b:?}");
                    let crossed =
                        lines[i].iter().any(|one| lines[j].iter().any(|other| cross(*one, *other)));
                    assert!(!crossed, "{count}: {a:?} {b:?}");
                }
                let through = |l: &[Point; 2]| super::super::label::line_meets(*l, &a.area);
                assert!(
                    !lines.iter().flatten().any(through),
                    "{count}: a leader runs through {a:?}"
                );
            }
        }
    }

    #[test]
    fn a_board_that_gets_no_room_is_refused() {
        let sizes = vec![Size::new(30.0, 3.6); 300];
        let left = at_left(&scattered(300, 9));
        assert_eq!(share(&sizes, &left, Size::new(120.0, 100.0)), None);
    }
}
