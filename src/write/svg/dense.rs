//! Shorter forms of what a drawing inside of a page repeats a thousand times.

use std::fmt::Write as _;

use crate::geometry::{Path, Point, Step};
use crate::scene::Ink;

/// The width of lines that most have, mm.
pub(super) const USUAL_WIDTH: &str = "0.3";

/// A path with each place told from the one before, to a hundredth of a millimetre.
pub(super) fn push_path(to: &mut String, path: &Path) {
    let mut pen = Pen { to, at: (0, 0), start: (0, 0) };
    for step in &path.steps {
        match step {
            Step::Move(at) => {
                pen.pairs('m', &[*at]);
                pen.start = pen.at;
            }
            Step::Line(at) => pen.line(*at),
            Step::Curve(first, second, at) => pen.pairs('c', &[*first, *second, *at]),
            Step::Close => {
                pen.to.push('z');
                pen.at = pen.start;
            }
        }
    }
}

struct Pen<'a> {
    to: &'a mut String,
    /// Where it is, hundredths of a millimetre.
    at: (i64, i64),
    /// Where the part of the path began.
    start: (i64, i64),
}

impl Pen<'_> {
    fn line(&mut self, at: Point) {
        let to = hundredths(at);
        match (to.0 - self.at.0, to.1 - self.at.1) {
            (across, 0) => self.numbers('h', &[across]),
            (0, down) => self.numbers('v', &[down]),
            (across, down) => self.numbers('l', &[across, down]),
        }
        self.at = to;
    }

    fn pairs(&mut self, letter: char, places: &[Point]) {
        let from = self.at;
        let numbers: Vec<i64> = places
            .iter()
            .map(|at| hundredths(*at))
            .inspect(|to| self.at = *to)
            .flat_map(|to| [to.0 - from.0, to.1 - from.1])
            .collect();
        self.numbers(letter, &numbers);
    }

    fn numbers(&mut self, letter: char, numbers: &[i64]) {
        self.to.push(letter);
        for (index, number) in numbers.iter().enumerate() {
            // A sign parts two numbers as well as a blank.
            if index > 0 && *number >= 0 {
                self.to.push(' ');
            }
            push_hundredths(self.to, *number);
        }
    }
}

/// Adds a number of hundredths without the nought before its point.
fn push_hundredths(to: &mut String, hundredths: i64) {
    if hundredths < 0 {
        to.push('-');
    }
    let (whole, part) = (hundredths.unsigned_abs() / 100, hundredths.unsigned_abs() % 100);
    // Writing to a string cannot fail.
    let _ = match (whole, part) {
        (_, 0) => write!(to, "{whole}"),
        (0, _) if part % 10 == 0 => write!(to, ".{}", part / 10),
        (0, _) => write!(to, ".{part:02}"),
        (_, _) if part % 10 == 0 => write!(to, "{whole}.{}", part / 10),
        _ => write!(to, "{whole}.{part:02}"),
    };
}

fn hundredths(at: Point) -> (i64, i64) {
    let of = |mm: f64| if mm.is_finite() { (mm * 100.0).round() as i64 } else { 0 };
    (of(at.x), of(at.y))
}

/// A color with one digit for each part, where that is the same.
pub(super) fn colour(Ink(red, green, blue): Ink) -> String {
    let short = [red, green, blue].iter().all(|part| part % 17 == 0);
    match short {
        true => format!("#{:x}{:x}{:x}", red / 17, green / 17, blue / 17),
        false => format!("#{red:02x}{green:02x}{blue:02x}"),
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;
    use resvg::usvg;
    use resvg::usvg::tiny_skia_path::PathSegment;

    use super::*;

    fn steps() -> impl Strategy<Value = Vec<Step>> {
        let place = || (-30_000_i32..30_000, -30_000_i32..30_000);
        let at = |(x, y): (i32, i32)| Point::new(f64::from(x) / 100.0, f64::from(y) / 100.0);
        let step =
            (0..6_u8, place(), place(), place()).prop_map(move |(kind, a, b, c)| match kind {
                0 => Step::Move(at(a)),
                1..=3 => Step::Line(at(a)),
                4 => Step::Curve(at(a), at(b), at(c)),
                _ => Step::Close,
            });
        let first = place().prop_map(move |a| Step::Move(at(a)));
        (first, proptest::collection::vec(step, 1..12))
            .prop_map(|(first, rest)| std::iter::once(first).chain(rest).collect())
    }

    /// What a reader of SVG makes of a path: each step with its places.
    fn read(data: &str) -> Vec<String> {
        let svg = format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"9\" height=\"9\">\
             <path stroke=\"#000\" d=\"{data}\"/></svg>"
        );
        let tree = usvg::Tree::from_str(&svg, &usvg::Options::default()).unwrap();
        let Some(usvg::Node::Path(path)) = tree.root().children().first() else {
            return Vec::new();
        };
        let round = |v: f32| (v * 100.0).round();
        path.data()
            .segments()
            .map(|segment| match segment {
                PathSegment::MoveTo(p) => format!("M {} {}", round(p.x), round(p.y)),
                PathSegment::LineTo(p) => format!("L {} {}", round(p.x), round(p.y)),
                PathSegment::QuadTo(..) => "Q".to_owned(),
                PathSegment::CubicTo(a, b, c) => {
                    let all = [a.x, a.y, b.x, b.y, c.x, c.y].map(round);
                    format!("C {all:?}")
                }
                PathSegment::Close => "Z".to_owned(),
            })
            .collect()
    }

    proptest! {
        /// The short form is the same path.
        #[test]
        fn a_path_is_the_same_in_short(steps in steps()) {
            let path = Path { steps };
            let (mut long, mut short) = (String::new(), String::new());
            super::super::push_path(&mut long, &path);
            push_path(&mut short, &path);
            prop_assert_eq!(read(&short), read(&long), "{} and {}", short, long);
        }
    }

    #[test]
    fn a_path_and_a_color_are_short() {
        let at = |x, y| Point::new(x, y);
        let steps = vec![
            Step::Move(at(10.25, 3.0)),
            Step::Line(at(12.0, 3.0)),
            Step::Line(at(12.0, 2.5)),
            Step::Line(at(11.9, 2.0)),
            Step::Close,
        ];
        let mut short = String::new();
        push_path(&mut short, &Path { steps });
        assert_eq!(short, "m10.25 3h1.75v-.5l-.1-.5z");
        assert_eq!(colour(Ink(255, 255, 255)), "#fff");
        assert_eq!(colour(Ink(0, 100, 170)), "#0064aa");
    }
}
