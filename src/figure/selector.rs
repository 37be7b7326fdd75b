//! A rotary selector: its positions clockwise from the top, and the one that it points to.

use super::look;
use super::mark;
use crate::board::Selector;
use crate::geometry::{Path, Point, Rect, Size};
use crate::scene::{Ink, Scene, Stroke};
use crate::text::Typesetter;
use crate::units::Angle;
use crate::words::Words;

/// The least radius of the knob, and from its rim to the middle of a position's name, mm.
const KNOB: f64 = 5.5;
const NAMES: f64 = 4.2;
/// Room for one name along the circle of the names, mm.
const PITCH: f64 = 6.0;
/// The frame round the chosen name, mm.
const FRAME: Size = Size::new(5.4, 5.0);
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
    let count = selector.positions.len().max(1);
    let around = (PITCH * count as f64 / std::f64::consts::TAU).max(KNOB + NAMES);
    let knob = around - NAMES;
    let half = around + FRAME.width / 2.0 + 0.5;
    let code = set.line(&selector.code, look::NAME);
    let left = code.width + 1.2;
    let size = Size::new(left + 2.0 * half, 2.0 * half);
    let name = |at: usize| selector.positions.get(at).map_or("", |it| it.name.as_str());
    let all: Vec<String> = selector.positions.iter().map(|it| it.name.clone()).collect();
    let described =
        words.selector_described(&selector.code, name(position), moved, &words.commas(&all));
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
    for place in 0..selector.positions.len() {
        let tick = [towards(place, knob, 0.0), towards(place, knob + 1.0, 0.0)];
        mark::rule(&mut scene, &tick, look::EDGE);
        let at = towards(place, around, 0.0);
        let chosen = place == position;
        if chosen {
            let width = if moved { 0.9 } else { 0.3 };
            let frame = Rect::around(at, FRAME);
            scene.shape(Path::rounded(frame, 0.8), None, Some(Stroke::solid(Ink::BLACK, width)));
        }
        let style = if chosen { look::NAME } else { look::NOTE };
        let line = set.line(name(place), style);
        mark::words_over(&mut scene, at, line);
    }
    scene
}
