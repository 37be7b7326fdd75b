//! Rectangles that are found by their place, so that a look at a place does not go through all.

use std::ops::Range;

use crate::geometry::{Point, Rect};

/// Side of the squares that the drawing is divided into, mm.
const SQUARE: f64 = 8.0;

/// A set of rectangles.
#[derive(Clone, Debug)]
pub struct Index {
    origin: Point,
    across: usize,
    down: usize,
    squares: Vec<Vec<Rect>>,
}

impl Index {
    /// An empty one for a drawing of these bounds. What lies beyond them is found, too.
    pub fn new(bounds: Rect) -> Self {
        // A hostile size must not cost a hostile amount of memory.
        let count = |length: f64| (length / SQUARE).ceil().clamp(1.0, 100.0) as usize;
        let (across, down) = (count(bounds.width()), count(bounds.height()));
        Self { origin: bounds.corner(), across, down, squares: vec![Vec::new(); across * down] }
    }

    /// One that holds these.
    pub fn of(bounds: Rect, all: impl IntoIterator<Item = Rect>) -> Self {
        let mut index = Self::new(bounds);
        all.into_iter().for_each(|rect| index.insert(rect));
        index
    }

    /// The squares that a rectangle touches, row by row; what lies outside belongs to the squares at the edge.
    fn touched(&self, rect: &Rect) -> impl Iterator<Item = Range<usize>> + use<> {
        let square = |v: f64, origin: f64, count: usize| {
            (((v - origin) / SQUARE).max(0.0) as usize).min(count - 1)
        };
        let first = square(rect.left, self.origin.x, self.across);
        let last = square(rect.right, self.origin.x, self.across);
        let rows = square(rect.top, self.origin.y, self.down)
            ..=square(rect.bottom, self.origin.y, self.down);
        let across = self.across;
        rows.map(move |row| row * across + first..row * across + last + 1)
    }

    /// Adds a rectangle.
    pub fn insert(&mut self, rect: Rect) {
        for row in self.touched(&rect) {
            for square in self.squares.get_mut(row).into_iter().flatten() {
                square.push(rect);
            }
        }
    }

    /// Whether any rectangle near `area` passes the test; one that does not touch `area` may be
    /// tested as well, and one may be tested twice.
    pub fn any(&self, area: &Rect, test: impl Fn(&Rect) -> bool) -> bool {
        let mut rows = self.touched(area).filter_map(|row| self.squares.get(row));
        rows.any(|row| row.iter().any(|square| square.iter().any(&test)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::Size;

    #[test]
    fn everything_that_overlaps_is_found_and_nothing_else() {
        let bounds = Rect::at(Point::new(0.0, 0.0), Size::new(50.0, 40.0));
        let rect = |i: usize| {
            let at = Point::new((i * 37 % 67) as f64 - 5.0, (i * 23 % 53) as f64 - 5.0);
            Rect::at(at, Size::new(1.0 + (i % 5) as f64 * 3.0, 2.0))
        };
        let all: Vec<Rect> = (0..60).map(rect).collect();
        let index = Index::of(bounds, all.clone());
        let mut hits = 0;
        for area in (60..300).map(rect) {
            let found = index.any(&area, |other| other.overlaps(&area));
            assert_eq!(found, all.iter().any(|other| other.overlaps(&area)), "{area:?}");
            hits += usize::from(found);
        }
        assert!((20..220).contains(&hits), "{hits}");
    }
}
