//! A rotary selector: its positions clockwise from the top, and the one that it points to.

use super::look;
use super::mark;
use crate::board::{LayoutNumber, Position, Selector};
use crate::geometry::{Path, Point, Rect, Size};
use crate::scene::{Ink, Scene, Stroke};
use crate::text::Typesetter;
use crate::units::Angle;
use crate::words::Words;

/// The least radius of the knob, and from its rim to the middle of a position's name, mm.
const KNOB: f64 = 5.5;
const NAMES: f64 = 4.2;
/// Between two names along their circle, mm.
const BETWEEN: f64 = 2.4;
/// Height of a digit of a chosen name, mm.
const NAME_HEIGHT: f64 = 2.6;
/// White space round the chosen name within its frame, both sides together, mm.
const FRAME: Size = Size::new(2.2, 1.6);
/// The pointer: how far its base lies behind the middle, and half its width, mm.
const BASE: f64 = 2.2;
const HALF: f64 = 1.5;

/// The selector at one of its positions, by its place among them. One that is turned from where it is
/// shipped has a thick frame there.
pub fn selector_setting(
    selector: &Selector,
    position: usize,
    words: &Words,
    set: &mut Typesetter,
) -> Scene {
    let moved = position != selector.shipped;
    let names: Vec<String> = selector.positions.iter().map(|it| it.name.clone()).collect();
    let frame = |place: usize| (place == position).then_some(if moved { THICK } else { THIN });
    let dial = Dial { selector, position, names: &names, frame: &frame };
    dial.draw(moved, words, set)
}

/// The selector as it is shipped, with the layout behind each position; the positions at these places have
/// a thick frame.
pub fn selector_layouts(
    selector: &Selector,
    framed: &[usize],
    words: &Words,
    set: &mut Typesetter,
) -> Scene {
    let layout = |layout: Option<LayoutNumber>| {
        layout.map_or_else(|| "\u{2013}".to_owned(), |number| number.to_string())
    };
    let name = |it: &Position| format!("{} = {}", it.name, layout(it.layout));
    let names: Vec<String> = selector.positions.iter().map(name).collect();
    let frame = |place: usize| framed.contains(&place).then_some(THICK);
    let dial = Dial { selector, position: selector.shipped, names: &names, frame: &frame };
    dial.draw(false, words, set)
}

/// The width of a frame, mm.
const THICK: f64 = 0.9;
const THIN: f64 = 0.3;

/// A selector as it is drawn.
struct Dial<'a> {
    selector: &'a Selector,
    /// Where it points.
    position: usize,
    /// What stands at each position.
    names: &'a [String],
    /// The width of the frame round a position, if it has one.
    frame: &'a dyn Fn(usize) -> Option<f64>,
}

impl Dial<'_> {
    fn draw(&self, moved: bool, words: &Words, set: &mut Typesetter) -> Scene {
        let Self { selector, position, names, frame: framed } = self;
        let position = *position;
        let count = names.len().max(1);
        let widest = names.iter().map(|name| set.line(name, look::NAME).width);
        let widest = widest.fold(0.0, f64::max);
        let frame = Size::new(widest + FRAME.width, NAME_HEIGHT + FRAME.height);
        let pitch = widest.max(frame.height) + BETWEEN;
        let around = (pitch * count as f64 / std::f64::consts::TAU).max(KNOB + NAMES);
        let knob = around - if widest > 2.0 * NAMES { widest / 2.0 + 1.4 } else { NAMES };
        let half = around + frame.width.max(frame.height) / 2.0 + 0.5;
        let code = set.line(&selector.code, look::NAME);
        let left = code.width + 1.2;
        let size = Size::new(left + 2.0 * half, 2.0 * half);
        let at = selector.positions.get(position).map_or("", |it| it.name.as_str());
        let described = words.selector_described(&selector.code, at, moved, &words.commas(names));
        let mut scene = Scene::new(size, words.selector_title(&selector.code), described);
        scene.text(Point::new(0.0, code.ascent + 0.6), code);
        let middle = Point::new(left + half, half);
        let towards = |place: usize, away: f64, aside: f64| {
            let angle = Angle::degrees(360.0 * place as f64 / count as f64);
            // Clockwise from the top, y downwards.
            let (sin, cos) = (angle.sin(), angle.cos());
            middle.moved(away * sin + aside * cos, -away * cos + aside * sin)
        };
        scene.shape(Path::circle(middle, knob), Some(look::HEAD_TINT), Some(look::EDGE));
        let tip = towards(position, knob - 0.4, 0.0);
        let base = [towards(position, -BASE, -HALF), towards(position, -BASE, HALF)];
        scene.shape(Path::polygon(&[tip, base[0], base[1]]), Some(Ink::BLACK), None);
        for (place, name) in names.iter().enumerate() {
            let tick = [towards(place, knob, 0.0), towards(place, knob + 1.0, 0.0)];
            mark::rule(&mut scene, &tick, look::EDGE);
            let at = towards(place, around, 0.0);
            let width = framed(place);
            if let Some(width) = width {
                let frame = Rect::around(at, frame);
                let stroke = Stroke::solid(Ink::BLACK, width);
                scene.shape(Path::rounded(frame, 0.8), None, Some(stroke));
            }
            let style = if width.is_some() { look::NAME } else { look::NOTE };
            let line = set.line(name, style);
            mark::words_over(&mut scene, at, line);
        }
        scene
    }
}
