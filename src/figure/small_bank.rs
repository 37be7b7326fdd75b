//! A switch bank, or neighbouring switches of one, small: its edge of ON, its sliders, its numbers.
//!
//! With ON at the top, switch 1 is at the left (common practice for such banks); a bank that is
//! mounted another way round is that picture turned, with the words kept upright.

use std::sync::Arc;

use super::look;
use super::mark;
use crate::geometry::{Path, Point, Rect, Side, Size};
use crate::scene::{Ink, Scene, Stroke};
use crate::text::{Line, Typesetter};
use crate::words::Words;

/// The mark at the edge of a bank towards which a slider is on. It is printed on the bank itself, so
/// it is drawn as it is in every language.
pub(super) const ON: &str = "ON";
/// From the middle of one way to the next, mm.
const PITCH: f64 = 4.8;
/// A slot across and along its slider's travel, and how long the slider is, mm.
const SLOT: (f64, f64) = (2.9, 5.6);
const SLIDER: f64 = 2.7;
/// Room at the edges for ON and for the numbers, mm.
const MARGIN: f64 = 4.4;
/// The same at a standing bank, where ON is wider than high, mm.
const WIDE_MARGIN: f64 = 7.2;
/// Between a small bank and the words beside it, mm.
pub(super) const WORD_GAP: f64 = 1.8;
/// Neighbouring switches of a bank, or all of them, each with its slider.
pub(super) struct SmallBank<'a> {
    /// The edge that ON is printed at.
    pub on_side: Side,
    /// The number of the first switch.
    pub first: u8,
    /// Where each slider is, `true` for on.
    pub positions: &'a [bool],
    /// Whether the switch of a number does nothing.
    pub unused: &'a dyn Fn(u8) -> bool,
    /// The switches that are moved from where they are shipped.
    pub moved: &'a [u8],
}

impl SmallBank<'_> {
    /// Of a bank of so many switches.
    pub fn size(ways: usize, on_side: Side) -> Size {
        let long = PITCH * ways as f64 + 1.6;
        match on_side {
            Side::Up | Side::Down => Size::new(long, SLOT.1 + 2.0 * MARGIN),
            Side::Left | Side::Right => Size::new(SLOT.1 + 2.0 * WIDE_MARGIN, long),
        }
    }

    pub fn draw(&self, set: &mut Typesetter) -> Scene {
        let lying = matches!(self.on_side, Side::Up | Side::Down);
        let body = Self::size(self.positions.len(), self.on_side);
        let area = Rect::at(Point::new(0.3, 0.3), body);
        let mut scene = Scene::new(Size::new(area.right + 0.3, area.bottom + 0.3), "", "");
        scene.shape(Path::rounded(area, 0.8), Some(look::HEAD_TINT), Some(look::EDGE));
        // A heavy edge where ON is printed: it is seen before the word is read.
        let edges =
            Edges { area, side: self.on_side, margin: if lying { MARGIN } else { WIDE_MARGIN } };
        mark::rule(&mut scene, &edges.on_edge(), Stroke { width: 1.0, ..look::EDGE });
        let on = set.line(ON, look::NOTE_BOLD);
        // ON stands at the first switch of its edge.
        let start = if lying { area.left } else { area.top };
        let first = start + 0.8 + if lying { on.width / 2.0 } else { PITCH / 2.0 };
        let first = if lying { first.max(area.left + on.width / 2.0) } else { first };
        mark::words_over(&mut scene, edges.on(first), on);
        let moved_edge = Stroke { width: 0.9, ..look::EDGE };
        let last = self.positions.len().saturating_sub(1);
        for (index, on) in self.positions.iter().enumerate() {
            let way = self.first.saturating_add(u8::try_from(index).unwrap_or(u8::MAX));
            // Switch 1 is at the left with ON up, and the bank turns as a whole.
            let step = match self.on_side {
                Side::Up | Side::Right => index,
                Side::Down | Side::Left => last - index,
            };
            let middle = start + 0.8 + PITCH * (step as f64 + 0.5);
            let unused = (self.unused)(way);
            let drawn = Way { middle, on: *on, unused, slot: SLOT, slider: SLIDER };
            let slot = drawn.draw(&mut scene, area, self.on_side);
            if self.moved.contains(&way) {
                scene.shape(Path::rounded(slot.grown(0.35), 0.6), None, Some(moved_edge));
            }
            let number: Arc<Line> = set.line(&way.to_string(), look::NOTE_BOLD);
            mark::words_over(&mut scene, edges.off(middle), number);
        }
        scene
    }
}

/// Where words stand at the two long edges of a bank.
struct Edges {
    area: Rect,
    side: Side,
    margin: f64,
}

impl Edges {
    /// At the edge where ON is printed, so far along it.
    fn on(&self, along: f64) -> Point {
        self.at(self.side, along)
    }

    /// At the other edge.
    fn off(&self, along: f64) -> Point {
        let side = match self.side {
            Side::Up => Side::Down,
            Side::Down => Side::Up,
            Side::Left => Side::Right,
            Side::Right => Side::Left,
        };
        self.at(side, along)
    }

    /// The edge where ON is printed.
    fn on_edge(&self) -> [Point; 2] {
        let Rect { left, top, right, bottom } = self.area.grown(-0.4);
        match self.side {
            Side::Up => [Point::new(left, top), Point::new(right, top)],
            Side::Down => [Point::new(left, bottom), Point::new(right, bottom)],
            Side::Left => [Point::new(left, top), Point::new(left, bottom)],
            Side::Right => [Point::new(right, top), Point::new(right, bottom)],
        }
    }

    fn at(&self, side: Side, along: f64) -> Point {
        let Rect { left, top, right, bottom } = self.area;
        let half = self.margin / 2.0;
        match side {
            Side::Up => Point::new(along, top + half),
            Side::Down => Point::new(along, bottom - half),
            Side::Left => Point::new(left + half, along),
            Side::Right => Point::new(right - half, along),
        }
    }
}

/// `1 off, 2 on (moved)`: the positions of switches from the number `first`.
pub(super) fn description(positions: &[bool], first: u8, moved: &[u8], words: &Words) -> String {
    let ways: Vec<String> = positions
        .iter()
        .zip(first..)
        .map(|(on, way)| {
            let number = usize::from(way);
            match moved.contains(&way) {
                true => words.way_moved(number, *on),
                false => words.way_position(number, *on),
            }
        })
        .collect();
    words.commas(&ways)
}

/// One way of a bank, to be drawn.
struct Way {
    /// Its x with ON up or down, its y with ON left or right.
    pub middle: f64,
    /// Where its slider is.
    pub on: bool,
    /// Whether it does nothing.
    pub unused: bool,
    /// Its slot across and along the slider's travel, mm.
    pub slot: (f64, f64),
    /// How long the slider is along its travel, mm.
    pub slider: f64,
}

impl Way {
    /// Draws it in a bank's body; gives its slot.
    pub fn draw(&self, scene: &mut Scene, body: Rect, on_side: Side) -> Rect {
        let (across, along) = self.slot;
        let lying = matches!(on_side, Side::Up | Side::Down);
        let slot = slot(scene, self.middle, self.slot, body, on_side);
        // Towards the ON edge if it is on.
        let towards = if self.on { 1.0 } else { -1.0 };
        let travel = towards * (along - self.slider) / 2.0;
        let (dx, dy) = match on_side {
            Side::Up => (0.0, -travel),
            Side::Down => (0.0, travel),
            Side::Left => (-travel, 0.0),
            Side::Right => (travel, 0.0),
        };
        let size =
            if lying { Size::new(across, self.slider) } else { Size::new(self.slider, across) };
        let slider = Rect::around(slot.middle().moved(dx, dy), size).grown(-0.5);
        if self.unused {
            mark::hatch(scene, slider, 1.0);
            scene.shape(Path::rect(slider), None, Some(Stroke::solid(Ink::BLACK, 0.2)));
        } else {
            scene.shape(Path::rect(slider), Some(Ink::BLACK), None);
        }
        slot
    }
}

/// Draws the empty slot of a way in a bank's body: its place along the bank, its size across and
/// along the slider's travel. Gives where it is.
pub(super) fn slot(
    scene: &mut Scene,
    middle: f64,
    (across, along): (f64, f64),
    body: Rect,
    on_side: Side,
) -> Rect {
    let area = match on_side {
        Side::Up | Side::Down => {
            Rect::around(Point::new(middle, body.middle().y), Size::new(across, along))
        }
        Side::Left | Side::Right => {
            Rect::around(Point::new(body.middle().x, middle), Size::new(along, across))
        }
    };
    scene.shape(Path::rounded(area, 0.5), Some(Ink::WHITE), Some(look::EDGE));
    area
}
