//! Outlines, filled and stroked.

use krilla::color::rgb;
use krilla::geom::PathBuilder;
use krilla::num::NormalizedF32;
use krilla::paint::{Fill, LineJoin, StrokeDash};
use krilla::surface::Surface;

use crate::geometry::{Path, Point, Rect, Step};
use crate::scene::{Dash, Ink, Placement, Stroke};

/// Draws an outline.
pub(super) fn draw(
    surface: &mut Surface<'_>,
    path: &Path,
    inside: Option<Ink>,
    edge: Option<Stroke>,
    place: Placement,
) {
    if inside.is_none() && edge.is_none() {
        return;
    }
    let Some(path) = outline(path, place) else { return };
    surface.set_fill(inside.map(fill));
    surface.set_stroke(edge.map(|edge| stroke(edge, place.scale)));
    surface.draw_path(&path);
}

/// Lines of one look that follow each other: drawn at once they look the same, and a page of
/// rules or leads takes a fraction of the time.
#[derive(Default)]
pub(super) struct Lines {
    open: Option<(Stroke, f64, PathBuilder)>,
}

impl Lines {
    /// Adds an outline without inside.
    pub fn add(&mut self, surface: &mut Surface<'_>, path: &Path, edge: Stroke, place: Placement) {
        if self.open.as_ref().is_some_and(|(own, scale, _)| (*own, *scale) != (edge, place.scale)) {
            self.draw(surface);
        }
        let open = self.open.get_or_insert_with(|| (edge, place.scale, PathBuilder::new()));
        push_steps(&mut open.2, path, place);
    }

    /// Draws what has been added.
    pub fn draw(&mut self, surface: &mut Surface<'_>) {
        let Some((edge, scale, builder)) = self.open.take() else { return };
        let Some(path) = builder.finish() else { return };
        surface.set_fill(None);
        surface.set_stroke(Some(stroke(edge, scale)));
        surface.draw_path(&path);
    }
}

/// The inside of a colour.
pub(super) fn fill(ink: Ink) -> Fill {
    Fill { paint: colour(ink).into(), opacity: NormalizedF32::ONE, rule: Default::default() }
}

/// The outline that cuts what lies outside a rectangle.
pub(super) fn clip(area: Rect) -> Option<krilla::geom::Path> {
    outline(&Path::rect(area), Placement::default())
}

fn colour(Ink(red, green, blue): Ink) -> rgb::Color {
    rgb::Color::new(red, green, blue)
}

fn stroke(stroke: Stroke, scale: f64) -> krilla::paint::Stroke {
    let dash = match stroke.dash {
        Dash::Solid => None,
        Dash::Broken { on, off } => {
            let length = |hundredths: u16| super::pt(f64::from(hundredths) / 100.0 * scale);
            Some(StrokeDash { array: vec![length(on), length(off)], offset: 0.0 })
        }
    };
    krilla::paint::Stroke {
        paint: colour(stroke.ink).into(),
        width: super::pt(stroke.width * scale),
        line_join: LineJoin::Round,
        dash,
        ..krilla::paint::Stroke::default()
    }
}

/// An outline in points.
pub(super) fn outline(path: &Path, place: Placement) -> Option<krilla::geom::Path> {
    let mut builder = PathBuilder::new();
    push_steps(&mut builder, path, place);
    builder.finish()
}

fn push_steps(builder: &mut PathBuilder, path: &Path, place: Placement) {
    let at = |point: Point| {
        let at = super::point(place.point(point));
        (at.x, at.y)
    };
    for step in &path.steps {
        match step {
            Step::Move(to) => {
                let (x, y) = at(*to);
                builder.move_to(x, y);
            }
            Step::Line(to) => {
                let (x, y) = at(*to);
                builder.line_to(x, y);
            }
            Step::Curve(first, second, to) => {
                let ((x1, y1), (x2, y2), (x, y)) = (at(*first), at(*second), at(*to));
                builder.cubic_to(x1, y1, x2, y2, x, y);
            }
            Step::Close => builder.close(),
        }
    }
}
