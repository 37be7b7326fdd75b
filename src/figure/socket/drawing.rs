//! A socket from the front: its body with the key, its cavities, and the words beside them.

use std::sync::Arc;

use super::{look, mark};
use crate::board::{Pin, WireColour};
use crate::decide::{PinOrder, ReadFrom};
use crate::geometry::{Path, Point, Rect, Side, Size};
use crate::scene::{Ink, Scene, Stroke};
use crate::text::Line;
use crate::words::Words;

/// How large a socket is drawn, mm.
#[derive(Clone, Copy)]
pub(in crate::figure) struct Scale {
    pub pitch: f64,
    pub cavity: f64,
    /// Across the row of cavities.
    pub body: f64,
    pub key_deep: f64,
    pub key_long: f64,
}

const LARGE: Scale = Scale { pitch: 6.4, cavity: 4.8, body: 8.4, key_deep: 1.8, key_long: 6.0 };
/// Names stand below a row, between the leaders of its neighbors: they want more room.
const LARGE_ROW: Scale = Scale { pitch: 7.2, ..LARGE };
pub(super) const SMALL: Scale =
    Scale { pitch: 4.2, cavity: 3.0, body: 5.6, key_deep: 1.3, key_long: 4.0 };

/// The large scale of a socket that is read so.
pub(super) fn large(read_from: ReadFrom) -> Scale {
    match read_from {
        ReadFrom::Top => LARGE,
        ReadFrom::Left => LARGE_ROW,
    }
}

/// Words beside a cavity: one line or two.
pub(in crate::figure) type Label = Vec<Arc<Line>>;

/// One socket with its words, in a scene just large enough. `key_word` stands beside the key; without
/// it, other words must say where the key is.
pub(in crate::figure) fn drawing(
    seen: &PinOrder,
    key: Option<Side>,
    labels: &[Label],
    scale: Scale,
    key_word: Option<Arc<Line>>,
) -> Scene {
    let key_word = key_word.filter(|_| key.is_some());
    match seen.read_from {
        ReadFrom::Top => column(seen, key, labels, scale, key_word),
        ReadFrom::Left => row(seen, key, labels, scale, key_word),
    }
}

/// The name of a pin with the letters of its wire, in lines: one line beside a column of pins, two
/// below a row, where there is more room downwards than to the sides.
pub(in crate::figure) fn named(
    pin: Pin,
    colour: Option<WireColour>,
    read_from: ReadFrom,
    words: &Words,
) -> Vec<String> {
    match (colour, read_from) {
        (None, _) => vec![words.pin_name(pin)],
        (Some(colour), ReadFrom::Top) => vec![words.pin_and_letters(pin, colour)],
        (Some(colour), ReadFrom::Left) => vec![words.pin_name(pin), words.wire_letters(colour)],
    }
}

/// Pins in a column: words on the side away from the key.
fn column(
    seen: &PinOrder,
    key: Option<Side>,
    labels: &[Label],
    scale: Scale,
    key_word: Option<Arc<Line>>,
) -> Scene {
    // Words of two lines have room beside their neighbours.
    let heights = labels.iter().map(|label| mark::stack_height(label));
    let next = labels.iter().skip(1).map(|label| mark::stack_height(label));
    let pitch = heights.zip(next).map(|(a, b)| (a + b) / 2.0).fold(scale.pitch, f64::max);
    let long = pitch * seen.pins.len() as f64 + 1.0;
    let words = labels.iter().map(|label| mark::stack_width(label)).fold(0.0, f64::max);
    let leader = if words > 0.0 { 2.4 } else { 0.0 };
    let key_room = key.map_or(0.0, |_| scale.key_deep)
        + key_word.as_ref().map_or(0.0, |word| word.width + 1.0);
    let width = words + leader + scale.body + key_room + 0.4;
    let mut scene = Scene::new(Size::new(width, long + 0.4), "", "");
    let words_left = key == Some(Side::Right);
    let body_left = if words_left { words + leader } else { key_room } + 0.2;
    let body = Rect::at(Point::new(body_left, 0.2), Size::new(scale.body, long));
    draw_body(&mut scene, body, key, scale);
    if let Some(word) = key_word {
        let y = body.middle().y;
        if words_left {
            let x = body.right + scale.key_deep + 0.8;
            mark::words_from(&mut scene, Point::new(x, y), word);
        } else {
            let x = body.left - scale.key_deep - 0.8;
            mark::words_to(&mut scene, Point::new(x, y), word);
        }
    }
    for (index, (pin, label)) in seen.pins.iter().zip(labels).enumerate() {
        let y = body.top + 0.5 + pitch * (index as f64 + 0.5);
        let middle = Point::new(body.middle().x, y);
        draw_cavity(&mut scene, middle, *pin, key.is_none(), scale);
        if label.is_empty() {
            continue;
        }
        let half = scale.cavity / 2.0;
        let (from, to) = if words_left {
            (middle.x - half, body.left - leader + 0.8)
        } else {
            (middle.x + half, body.right + leader - 0.8)
        };
        mark::rule(&mut scene, &[Point::new(from, y), Point::new(to, y)], look::FINE);
        let mut line_y = y - mark::stack_height(label) / 2.0;
        for line in label {
            let at_y = line_y + line.height() / 2.0;
            if words_left {
                let x = body.left - leader;
                mark::words_to(&mut scene, Point::new(x, at_y), Arc::clone(line));
            } else {
                let x = body.right + leader;
                mark::words_from(&mut scene, Point::new(x, at_y), Arc::clone(line));
            }
            line_y += line.height();
        }
    }
    scene
}

/// Pins in a row: words in two levels on the side away from the key, every second pin further
/// out. *Common* is always on the outer level, where there is room for a second line.
fn row(
    seen: &PinOrder,
    key: Option<Side>,
    labels: &[Label],
    scale: Scale,
    key_word: Option<Arc<Line>>,
) -> Scene {
    let count = seen.pins.len();
    let words_above = key == Some(Side::Down);
    let common = seen.pins.iter().position(|pin| *pin == Some(Pin::Common)).unwrap_or(1);
    let outer = |index: usize| index % 2 == common % 2;
    let pitch = row_pitch(labels, outer, scale);
    let long = pitch * count as f64 + 1.0;
    let level_height = |wanted: bool| {
        labels
            .iter()
            .enumerate()
            .filter(|(index, _)| outer(*index) == wanted)
            .map(|(_, label)| mark::stack_height(label))
            .fold(0.0, f64::max)
    };
    let (inner_height, outer_height) = (level_height(false), level_height(true));
    let leader = if inner_height + outer_height > 0.0 { 2.0 } else { 0.0 };
    let between = if inner_height > 0.0 && outer_height > 0.0 { 0.8 } else { 0.0 };
    let words = leader + inner_height + between + outer_height;
    let key_room =
        key.map_or(0.0, |_| scale.key_deep) + key_word.as_ref().map_or(0.0, |word| word.height());
    // Words at the ends may be wider than the socket.
    let overhang = labels
        .iter()
        .enumerate()
        .map(|(index, label)| {
            let from_end = 0.5 + pitch * (index.min(count - 1 - index) as f64 + 0.5);
            mark::stack_width(label) / 2.0 - from_end
        })
        .fold(0.0, f64::max)
        + 0.2;
    let size = Size::new(long + 2.0 * overhang, scale.body + key_room + words + 0.4);
    let mut scene = Scene::new(size, "", "");
    let body_top = 0.2 + if words_above { words } else { key_room };
    let body = Rect::at(Point::new(overhang, body_top), Size::new(long, scale.body));
    draw_body(&mut scene, body, key, scale);
    if let Some(word) = key_word {
        let far = scale.key_deep + word.height() / 2.0;
        let y = if words_above { body.bottom + far } else { body.top - far };
        mark::words_over(&mut scene, Point::new(body.middle().x, y), word);
    }
    for (index, (pin, label)) in seen.pins.iter().zip(labels).enumerate() {
        let x = body.left + 0.5 + pitch * (index as f64 + 0.5);
        let middle = Point::new(x, body.middle().y);
        draw_cavity(&mut scene, middle, *pin, key.is_none(), scale);
        if label.is_empty() {
            continue;
        }
        let height = mark::stack_height(label);
        let out = leader + if outer(index) { inner_height + between } else { 0.0 };
        let (from, to, block_top) = if words_above {
            let edge = body.top - out;
            (middle.y - scale.cavity / 2.0, edge + 0.5, edge - height)
        } else {
            let edge = body.bottom + out;
            (middle.y + scale.cavity / 2.0, edge - 0.5, edge)
        };
        mark::rule(&mut scene, &[Point::new(x, from), Point::new(x, to)], look::FINE);
        let mut y = block_top;
        for line in label {
            mark::words_over(&mut scene, Point::new(x, y + line.height() / 2.0), Arc::clone(line));
            y += line.height();
        }
    }
    scene
}

/// Between the words of two pins on one level, mm: more than between two words of one pin.
const APART: f64 = 2.2;
/// Between the words of a pin and the leader of its neighbor, mm.
const ASIDE: f64 = 0.8;

/// From one pin to the next in a row: leaders to the outer words pass beside the inner ones, and words
/// stand apart from the next ones of their level.
fn row_pitch(labels: &[Label], outer: impl Fn(usize) -> bool, scale: Scale) -> f64 {
    let width = |index: usize| labels.get(index).map_or(0.0, |label| mark::stack_width(label));
    let level = |wanted: bool| -> Vec<usize> {
        let all = 0..labels.len();
        all.filter(|index| outer(*index) == wanted && width(*index) > 0.0).collect()
    };
    let (inner, far) = (level(false), level(true));
    let mut pitch = scale.pitch;
    if !far.is_empty() {
        pitch = inner.iter().map(|index| width(*index) / 2.0 + ASIDE).fold(pitch, f64::max);
    }
    for level in [inner, far] {
        for (a, b) in level.iter().zip(level.iter().skip(1)) {
            pitch = pitch.max(((width(*a) + width(*b)) / 2.0 + APART) / (b - a) as f64);
        }
    }
    pitch
}

/// The body with its key as a tab on one side. Without a key there is only a plate.
pub(super) fn draw_body(scene: &mut Scene, body: Rect, key: Option<Side>, scale: Scale) {
    let Some(side) = key else {
        scene.shape(Path::rounded(body, 0.6), Some(look::HEAD_TINT), Some(look::FINE));
        return;
    };
    let half = scale.key_long / 2.0;
    let middle = body.middle();
    let tab = match side {
        Side::Right => Rect {
            left: body.right,
            top: middle.y - half,
            right: body.right + scale.key_deep,
            bottom: middle.y + half,
        },
        Side::Left => Rect {
            left: body.left - scale.key_deep,
            top: middle.y - half,
            right: body.left,
            bottom: middle.y + half,
        },
        Side::Up => Rect {
            left: middle.x - half,
            top: body.top - scale.key_deep,
            right: middle.x + half,
            bottom: body.top,
        },
        Side::Down => Rect {
            left: middle.x - half,
            top: body.bottom,
            right: middle.x + half,
            bottom: body.bottom + scale.key_deep,
        },
    };
    let edge = Stroke { width: 0.45, ..look::EDGE };
    scene.shape(Path::rounded(body, 0.8), Some(look::HEAD_TINT), Some(edge));
    scene.shape(Path::rect(tab), Some(Ink::BLACK), None);
}

/// The edge of a cavity, or of a stud, with nothing in it.
pub(super) fn draw_hole(scene: &mut Scene, middle: Point, stud: bool, scale: Scale) {
    let path = if stud {
        Path::circle(middle, scale.cavity / 2.0)
    } else {
        Path::rounded(Rect::around(middle, Size::new(scale.cavity, scale.cavity)), 0.6)
    };
    scene.shape(path, Some(Ink::WHITE), Some(look::EDGE));
}

/// A cavity with its contact, or a stud; ground carries the earth symbol, an empty one a cross.
fn draw_cavity(scene: &mut Scene, middle: Point, pin: Option<Pin>, stud: bool, scale: Scale) {
    let half = scale.cavity / 2.0;
    let square = Rect::around(middle, Size::new(scale.cavity, scale.cavity));
    draw_hole(scene, middle, stud, scale);
    match pin {
        None => {
            mark::hatch(scene, square.grown(-0.15), 0.9);
            mark::cross(scene, square.grown(-0.15));
        }
        Some(Pin::Ground) => mark::protective_earth(scene, middle, half * 0.86),
        Some(_) if stud => {
            scene.shape(Path::circle(middle, half * 0.5), Some(Ink::BLACK), None);
        }
        Some(_) => {
            let contact = Rect::around(middle, Size::new(half * 0.9, half * 0.9));
            scene.shape(Path::rect(contact), Some(Ink::BLACK), None);
        }
    }
}
