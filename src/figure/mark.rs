//! Small marks that several drawings share: words at a place, straight lines, the earth symbol,
//! hatching.

use std::sync::Arc;

use super::look;
use crate::geometry::{Path, Point, Rect, Size};
use crate::scene::{Item, Scene, Stroke};
use crate::text::{Line, Style, Typesetter};

/// The baseline that puts the middle of a line's height at `y`.
pub fn baseline(line: &Line, y: f64) -> f64 {
    y + (line.ascent - line.descent) / 2.0
}

/// Words that begin at `at.x`, with their middle height at `at.y`.
pub fn words_from(scene: &mut Scene, at: Point, line: Arc<Line>) {
    let y = baseline(&line, at.y);
    scene.text(Point::new(at.x, y), line);
}

/// Words that end at `at.x`, with their middle height at `at.y`.
pub fn words_to(scene: &mut Scene, at: Point, line: Arc<Line>) {
    let left = at.x - line.width;
    words_from(scene, Point::new(left, at.y), line);
}

/// Words with their middle at `at`.
pub fn words_over(scene: &mut Scene, at: Point, line: Arc<Line>) {
    let left = at.x - line.width / 2.0;
    words_from(scene, Point::new(left, at.y), line);
}

/// Lines of words one below the other from the corner `at`; gives the y below the last one.
pub fn stack(scene: &mut Scene, at: Point, lines: &[Arc<Line>]) -> f64 {
    let mut y = at.y;
    for line in lines {
        scene.text(Point::new(at.x, y + line.ascent), Arc::clone(line));
        y += line.height();
    }
    y
}

/// Height of lines set one below the other, mm.
pub fn stack_height(lines: &[Arc<Line>]) -> f64 {
    lines.iter().map(|line| line.height()).sum()
}

/// Width of the widest of some lines, mm.
pub fn stack_width(lines: &[Arc<Line>]) -> f64 {
    lines.iter().map(|line| line.width).fold(0.0, f64::max)
}

/// A code in bold and words after it, broken to `width`; the words go on below themselves, not
/// below the code. Drawn from the corner `at`; gives the y below.
pub fn code_and_words(
    scene: &mut Scene,
    set: &mut Typesetter,
    at: Point,
    width: f64,
    (code, code_style): (&str, Style),
    (words, words_style): (&str, Style),
) -> f64 {
    let code = set.line(code, code_style);
    let indent = code.width + 1.6;
    let lines = set.lines(words, words_style, (width - indent).max(8.0));
    let ascent = lines.first().map_or(0.0, |line| line.ascent).max(code.ascent);
    let drop = lines.first().map_or(0.0, |line| ascent - line.ascent);
    let below_code = at.y + ascent + code.descent;
    scene.text(Point::new(at.x, at.y + ascent), code);
    stack(scene, Point::new(at.x + indent, at.y + drop), &lines).max(below_code)
}

/// A line of straight pieces.
pub fn rule(scene: &mut Scene, points: &[Point], stroke: Stroke) {
    scene.shape(Path::polyline(points), None, Some(stroke));
}

/// Puts a whole drawing into another with its corner at `at`.
pub fn place(scene: &mut Scene, part: Scene, at: Point) {
    scene.items.push(Item::Group { shift: at, clip: None, items: part.items });
}

/// The symbol of the protective earth, IEC 60417-5019: an upright that ends on three bars, each
/// shorter than the one above it, inside a circle. (The number is confirmed in check-values.md,
/// section 9; the proportions are our own.)
pub fn protective_earth(scene: &mut Scene, middle: Point, radius: f64) {
    let stroke = Stroke::solid(crate::scene::Ink::BLACK, (radius * 0.14).clamp(0.2, 0.5));
    scene.shape(
        Path::circle(middle, radius),
        Some(crate::scene::Ink::WHITE),
        Some(Stroke { width: stroke.width * 0.8, ..stroke }),
    );
    let bar = |scene: &mut Scene, half: f64, down: f64| {
        rule(
            scene,
            &[
                middle.moved(-half * radius, down * radius),
                middle.moved(half * radius, down * radius),
            ],
            stroke,
        );
    };
    rule(scene, &[middle.moved(0.0, -0.68 * radius), middle.moved(0.0, 0.02 * radius)], stroke);
    bar(scene, 0.62, 0.02);
    bar(scene, 0.40, 0.32);
    bar(scene, 0.18, 0.62);
}

/// Slanted lines over a rectangle: this stays empty.
pub fn hatch(scene: &mut Scene, area: Rect, step: f64) {
    scene.shape(Path::rect(area), Some(look::EMPTY_TINT), None);
    let mut steps = Vec::new();
    let (width, height) = (area.width(), area.height());
    let mut offset = step;
    while offset < width + height {
        // The line x + y = offset, from the left or bottom edge to the top or right edge.
        let from = Point::new((offset - height).max(0.0), offset.min(height));
        let to = Point::new(offset.min(width), (offset - width).max(0.0));
        steps.extend(
            Path::polyline(&[from.moved(area.left, area.top), to.moved(area.left, area.top)]).steps,
        );
        offset += step;
    }
    scene.shape(Path { steps }, None, Some(look::FINE));
}

/// Two lines from corner to corner: this stays empty.
pub fn cross(scene: &mut Scene, area: Rect) {
    let Rect { left, top, right, bottom } = area;
    rule(scene, &[Point::new(left, top), Point::new(right, bottom)], look::EDGE);
    rule(scene, &[Point::new(left, bottom), Point::new(right, top)], look::EDGE);
}

/// A filled arrow head with its point at `tip`, pointing along `(dx, dy)`, which is one of the
/// four directions along the page with length 1.
pub fn arrow_head(scene: &mut Scene, tip: Point, (dx, dy): (f64, f64), length: f64) {
    let half = length * 0.38;
    let base = tip.moved(-dx * length, -dy * length);
    let path =
        Path::polygon(&[tip, base.moved(-dy * half, dx * half), base.moved(dy * half, -dx * half)]);
    scene.shape(path, Some(crate::scene::Ink::BLACK), None);
}

/// The smallest size that holds both, one beside the other with a gap.
pub fn beside(a: Size, b: Size, gap: f64) -> Size {
    Size::new(a.width + gap + b.width, a.height.max(b.height))
}
