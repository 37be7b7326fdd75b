//! A socket to be filled in by hand, and the same filled in.

use super::drawing::{Label, Scale, draw_body, draw_hole, drawing, large};
use super::{look, mark};
use crate::board::{Board, HeaderId, Pin};
use crate::decide::{PinOrder, ReadFrom, pin_order};
use crate::geometry::{Point, Rect, Side, Size};
use crate::scene::{Ink, Scene, Stroke};
use crate::text::Typesetter;
use crate::words::Words;

/// Cavities in a column, each with a line to write on beside it.
const COLUMN: Scale = Scale { pitch: 8.6, cavity: 5.4, body: 9.4, key_deep: 1.8, key_long: 6.4 };
/// Cavities in a row: the lines to write on stand on two levels under it.
const ROW: Scale = Scale { pitch: 10.4, ..COLUMN };
/// Length of a line to write on: beside a column, and under a row, mm.
const LINE: (f64, f64) = (26.0, 16.0);
/// Height of a handwritten word, mm.
const HAND: f64 = 7.0;
/// From a socket to the first line to write on, mm.
const LEADER: f64 = 3.0;
/// Lines to write on.
const WRITE: Stroke = Stroke::solid(Ink(64, 64, 64), 0.25);

/// A header's socket as it is mounted, seen from the front: the key and the cavities, nothing in
/// them, and for each a line to write on.
pub fn blank_socket(board: &Board, header: HeaderId, words: &Words, set: &mut Typesetter) -> Scene {
    let key = board[header].key;
    let seen = pin_order(&board[board[header].socket], key);
    let count = seen.pins.len();
    let code = set.line(&board[header].code, look::NAME);
    let title = words.blank_socket_title(&board[header].code);
    let description = words.blank_socket_described(count, seen.read_from);
    let top = code.height() + 0.8;
    let mut scene = Scene::new(Size::default(), title, description);
    let drawn = match seen.read_from {
        ReadFrom::Top => column(count, key, words, set),
        ReadFrom::Left => row(count, key, words, set),
    };
    scene.text(Point::new(0.2, code.ascent), code);
    let size = drawn.size;
    mark::place(&mut scene, drawn, Point::new(0.0, top));
    scene.size = Size::new(size.width, top + size.height);
    scene
}

/// The same with `order` filled in.
pub fn drawn_socket(
    board: &Board,
    header: HeaderId,
    order: &PinOrder,
    words: &Words,
    set: &mut Typesetter,
) -> Scene {
    let label = |pin: &Option<Pin>, set: &mut Typesetter| match pin {
        Some(pin) => vec![set.line(&words.pin_name(*pin), look::NOTE)],
        None => vec![set.line(&words.cavity_empty(), look::NOTE_BOLD)],
    };
    let labels: Vec<Label> = order.pins.iter().map(|pin| label(pin, set)).collect();
    let code = set.line(&board[header].code, look::NAME);
    let top = code.height() + 0.8;
    let key_word = set.line(&words.key_mark(), look::NOTE);
    let drawn = drawing(order, board[header].key, &labels, large(order.read_from), Some(key_word));
    let pins = words.pin_names(order);
    let description = words.drawn_socket_described(order.read_from, &pins);
    let width = drawn.size.width.max(code.width + 0.4);
    let size = Size::new(width, top + drawn.size.height);
    let mut scene = Scene::new(size, words.drawn_socket_title(&board[header].code), description);
    scene.text(Point::new(0.2, code.ascent), code);
    mark::place(&mut scene, drawn, Point::new(0.0, top));
    scene
}

/// Cavities one under the other, the lines to write on at the side away from the key.
fn column(count: usize, key: Option<Side>, words: &Words, set: &mut Typesetter) -> Scene {
    let scale = COLUMN;
    let long = scale.pitch * count as f64 + 1.0;
    let word = key.map(|_| set.line(&words.key_mark(), look::NOTE));
    let key_room = word.as_ref().map_or(0.2, |word| scale.key_deep + 0.8 + word.width);
    let lines_left = key == Some(Side::Right);
    let room = LINE.0 + LEADER;
    let body_left = if lines_left { room } else { key_room };
    let body = Rect::at(Point::new(body_left, 0.3), Size::new(scale.body, long));
    let size = Size::new(room + scale.body + key_room + 0.2, long + 0.6);
    let mut scene = Scene::new(size, "", "");
    draw_body(&mut scene, body, key, scale);
    if let Some(word) = word {
        let away = scale.key_deep + 0.8;
        let y = body.middle().y;
        if lines_left {
            mark::words_from(&mut scene, Point::new(body.right + away, y), word);
        } else {
            mark::words_to(&mut scene, Point::new(body.left - away, y), word);
        }
    }
    for index in 0..count {
        let y = body.top + 0.5 + scale.pitch * (index as f64 + 0.5);
        let middle = Point::new(body.middle().x, y);
        draw_hole(&mut scene, middle, key.is_none(), scale);
        // The line to write on lies at the foot of the cavity, so that the word stands beside it.
        let low = y + scale.cavity / 2.0;
        let (near, far) = if lines_left {
            (body.left - LEADER, body.left - room)
        } else {
            (body.right + LEADER, body.right + room)
        };
        mark::rule(&mut scene, &[Point::new(near, low), Point::new(far, low)], WRITE);
    }
    scene
}

/// Cavities side by side, the lines to write on in two levels on the side away from the key.
fn row(count: usize, key: Option<Side>, words: &Words, set: &mut Typesetter) -> Scene {
    let scale = ROW;
    let long = scale.pitch * count as f64 + 1.0;
    let overhang = ((LINE.1 - scale.pitch) / 2.0).max(0.0);
    let word = key.map(|_| set.line(&words.key_mark(), look::NOTE));
    let key_room = word.as_ref().map_or(0.2, |word| scale.key_deep + 0.4 + word.height());
    let lines_above = key == Some(Side::Down);
    let levels = if count > 1 { 2.0 } else { 1.0 };
    let room = LEADER + levels * HAND;
    let body_top = if lines_above { room } else { key_room };
    let body = Rect::at(Point::new(overhang, body_top), Size::new(long, scale.body));
    let size = Size::new(long + 2.0 * overhang, room + scale.body + key_room + 0.3);
    let mut scene = Scene::new(size, "", "");
    draw_body(&mut scene, body, key, scale);
    if let Some(word) = word {
        let away = scale.key_deep + 0.4 + word.height() / 2.0;
        let y = if lines_above { body.bottom + away } else { body.top - away };
        mark::words_over(&mut scene, Point::new(body.middle().x, y), word);
    }
    for index in 0..count {
        let x = body.left + 0.5 + scale.pitch * (index as f64 + 0.5);
        draw_hole(&mut scene, Point::new(x, body.middle().y), key.is_none(), scale);
        // Every second line lies further out; a leader shows whose it is.
        let out = LEADER + HAND * (1 + index % 2) as f64;
        let (edge, y, end) = if lines_above {
            // The word stands on the line, so the line itself is the nearer end.
            (body.top, body.top - out + HAND, -0.6)
        } else {
            (body.bottom, body.bottom + out, -HAND + 1.4)
        };
        let half = LINE.1 / 2.0;
        mark::rule(&mut scene, &[Point::new(x - half, y), Point::new(x + half, y)], WRITE);
        let leader_end = if lines_above { y } else { y + end };
        mark::rule(&mut scene, &[Point::new(x, edge), Point::new(x, leader_end)], look::FINE);
    }
    scene
}
