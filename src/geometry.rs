//! Points, rectangles and quarter turns. Millimetres; y grows downwards, as on a page.

/// A place, mm from the left and from the top.
#[derive(Clone, Copy, Debug, PartialEq, Default)]
pub struct Point {
    /// From the left, mm.
    pub x: f64,
    /// From the top, mm.
    pub y: f64,
}

impl Point {
    /// A place from its two coordinates, mm.
    pub const fn new(x: f64, y: f64) -> Self {
        Self { x, y }
    }

    /// This place moved by `dx` and `dy`, mm.
    pub fn moved(self, dx: f64, dy: f64) -> Self {
        Self::new(self.x + dx, self.y + dy)
    }
}

/// A width and a height, mm.
#[derive(Clone, Copy, Debug, PartialEq, Default)]
pub struct Size {
    /// Width, mm.
    pub width: f64,
    /// Height, mm.
    pub height: f64,
}

impl Size {
    /// A size from its two sides, mm.
    pub const fn new(width: f64, height: f64) -> Self {
        Self { width, height }
    }
}

/// A rectangle with sides along the page, mm.
#[derive(Clone, Copy, Debug, PartialEq, Default)]
pub struct Rect {
    /// Left edge.
    pub left: f64,
    /// Top edge.
    pub top: f64,
    /// Right edge; never left of `left`.
    pub right: f64,
    /// Bottom edge; never above `top`.
    pub bottom: f64,
}

impl Rect {
    /// From the top left corner and a size.
    pub fn at(corner: Point, size: Size) -> Self {
        Self {
            left: corner.x,
            top: corner.y,
            right: corner.x + size.width,
            bottom: corner.y + size.height,
        }
    }

    /// From the middle and a size.
    pub fn around(middle: Point, size: Size) -> Self {
        Self::at(middle.moved(-size.width / 2.0, -size.height / 2.0), size)
    }

    /// Width, mm.
    pub fn width(&self) -> f64 {
        self.right - self.left
    }

    /// Height, mm.
    pub fn height(&self) -> f64 {
        self.bottom - self.top
    }

    /// Width and height.
    pub fn size(&self) -> Size {
        Size::new(self.width(), self.height())
    }

    /// Top left corner.
    pub fn corner(&self) -> Point {
        Point::new(self.left, self.top)
    }

    /// Middle.
    pub fn middle(&self) -> Point {
        Point::new((self.left + self.right) / 2.0, (self.top + self.bottom) / 2.0)
    }

    /// The rectangle with `by` mm more on every side (less, if negative).
    pub fn grown(&self, by: f64) -> Self {
        Self {
            left: self.left - by,
            top: self.top - by,
            right: self.right + by,
            bottom: self.bottom + by,
        }
    }

    /// The rectangle moved by `dx` and `dy`.
    pub fn moved(&self, dx: f64, dy: f64) -> Self {
        Self {
            left: self.left + dx,
            top: self.top + dy,
            right: self.right + dx,
            bottom: self.bottom + dy,
        }
    }

    /// Whether the insides of the two share a place; a common edge is no overlap.
    pub fn overlaps(&self, other: &Rect) -> bool {
        self.left < other.right
            && other.left < self.right
            && self.top < other.bottom
            && other.top < self.bottom
    }

    /// Whether `other` lies wholly inside, edges included.
    pub fn contains(&self, other: &Rect) -> bool {
        self.left <= other.left
            && other.right <= self.right
            && self.top <= other.top
            && other.bottom <= self.bottom
    }

    /// The smallest rectangle round both.
    pub fn union(&self, other: &Rect) -> Self {
        Self {
            left: self.left.min(other.left),
            top: self.top.min(other.top),
            right: self.right.max(other.right),
            bottom: self.bottom.max(other.bottom),
        }
    }
}

/// One side of a thing as it is mounted, seen from the front.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Side {
    /// Towards the top.
    Up,
    /// Towards the right.
    Right,
    /// Towards the bottom.
    Down,
    /// Towards the left.
    Left,
}

impl Side {
    /// All four, clockwise from the top.
    pub const ALL: [Side; 4] = [Side::Up, Side::Right, Side::Down, Side::Left];

    /// Reads `up`, `right`, `down` or `left`.
    pub fn parse(text: &str) -> Option<Self> {
        match text {
            "up" => Some(Side::Up),
            "right" => Some(Side::Right),
            "down" => Some(Side::Down),
            "left" => Some(Side::Left),
            _ => None,
        }
    }

    /// The word of the specification language.
    pub fn word(self) -> &'static str {
        match self {
            Side::Up => "up",
            Side::Right => "right",
            Side::Down => "down",
            Side::Left => "left",
        }
    }

    /// Quarter turns clockwise from `Up`.
    pub fn clockwise_from_up(self) -> u8 {
        match self {
            Side::Up => 0,
            Side::Right => 1,
            Side::Down => 2,
            Side::Left => 3,
        }
    }

    /// The side across.
    pub fn opposite(self) -> Self {
        match self {
            Side::Up => Side::Down,
            Side::Right => Side::Left,
            Side::Down => Side::Up,
            Side::Left => Side::Right,
        }
    }

    /// The clockwise quarter turns that bring a thing from facing `self` to facing `to`.
    pub fn turn_to(self, to: Side) -> Turn {
        Turn((to.clockwise_from_up() + 4 - self.clockwise_from_up()) % 4)
    }
}

/// A number of clockwise quarter turns, 0 to 3.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Turn(u8);

impl Turn {
    /// Clockwise quarter turns, 0 to 3.
    pub fn quarters(self) -> u8 {
        self.0
    }

    /// `point` turned about the origin, as seen on the page.
    pub fn apply(self, point: Point) -> Point {
        match self.0 {
            0 => point,
            1 => Point::new(-point.y, point.x),
            2 => Point::new(-point.x, -point.y),
            _ => Point::new(point.y, -point.x),
        }
    }

    /// `size` after the turn.
    pub fn apply_size(self, size: Size) -> Size {
        if self.0.is_multiple_of(2) { size } else { Size::new(size.height, size.width) }
    }
}

/// One step of an outline.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Step {
    /// Start a new line here.
    Move(Point),
    /// Straight to here.
    Line(Point),
    /// A cubic curve by two control points to the third.
    Curve(Point, Point, Point),
    /// Back to the start of this line.
    Close,
}

/// An outline of straight and curved lines.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Path {
    /// The steps in order; the first is a `Move`.
    pub steps: Vec<Step>,
}

/// How far the control points of a quarter circle lie along its tangents, in radii.
const QUARTER: f64 = 0.552_284_749_8;

impl Path {
    /// Straight lines through `points`.
    pub fn polyline(points: &[Point]) -> Self {
        let mut steps = Vec::with_capacity(points.len());
        for (index, point) in points.iter().enumerate() {
            steps.push(if index == 0 { Step::Move(*point) } else { Step::Line(*point) });
        }
        Self { steps }
    }

    /// The same, so many times as large about the origin.
    pub fn scaled(&self, by: f64) -> Self {
        let point = |at: Point| Point::new(at.x * by, at.y * by);
        let step = |step: &Step| match *step {
            Step::Move(to) => Step::Move(point(to)),
            Step::Line(to) => Step::Line(point(to)),
            Step::Curve(first, second, to) => Step::Curve(point(first), point(second), point(to)),
            Step::Close => Step::Close,
        };
        Self { steps: self.steps.iter().map(step).collect() }
    }

    /// A closed figure through `points`.
    pub fn polygon(points: &[Point]) -> Self {
        let mut path = Self::polyline(points);
        path.steps.push(Step::Close);
        path
    }

    /// The outline of a rectangle.
    pub fn rect(r: Rect) -> Self {
        Self::polygon(&[
            Point::new(r.left, r.top),
            Point::new(r.right, r.top),
            Point::new(r.right, r.bottom),
            Point::new(r.left, r.bottom),
        ])
    }

    /// A rectangle with round corners of `radius`, at most half the shorter side.
    pub fn rounded(r: Rect, radius: f64) -> Self {
        let radius = radius.min(r.width() / 2.0).min(r.height() / 2.0);
        let c = radius * (1.0 - QUARTER);
        let p = Point::new;
        Self {
            steps: vec![
                Step::Move(p(r.left + radius, r.top)),
                Step::Line(p(r.right - radius, r.top)),
                Step::Curve(
                    p(r.right - c, r.top),
                    p(r.right, r.top + c),
                    p(r.right, r.top + radius),
                ),
                Step::Line(p(r.right, r.bottom - radius)),
                Step::Curve(
                    p(r.right, r.bottom - c),
                    p(r.right - c, r.bottom),
                    p(r.right - radius, r.bottom),
                ),
                Step::Line(p(r.left + radius, r.bottom)),
                Step::Curve(
                    p(r.left + c, r.bottom),
                    p(r.left, r.bottom - c),
                    p(r.left, r.bottom - radius),
                ),
                Step::Line(p(r.left, r.top + radius)),
                Step::Curve(p(r.left, r.top + c), p(r.left + c, r.top), p(r.left + radius, r.top)),
                Step::Close,
            ],
        }
    }

    /// A circle.
    pub fn circle(middle: Point, radius: f64) -> Self {
        Self::rounded(Rect::around(middle, Size::new(2.0 * radius, 2.0 * radius)), radius)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_quarter_turn_clockwise_takes_up_to_right() {
        assert_eq!(Side::Up.turn_to(Side::Right).quarters(), 1);
        assert_eq!(
            Side::Up.turn_to(Side::Right).apply(Point::new(0.0, -1.0)),
            Point::new(1.0, 0.0)
        );
        assert_eq!(Side::Right.turn_to(Side::Up).quarters(), 3);
    }

    #[test]
    fn a_common_edge_is_no_overlap() {
        let a = Rect::at(Point::new(0.0, 0.0), Size::new(2.0, 2.0));
        assert!(!a.overlaps(&a.moved(2.0, 0.0)));
        assert!(a.overlaps(&a.moved(1.9, 0.0)));
    }
}
