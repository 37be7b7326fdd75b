//! How a socket that is turned is read: the same four cavities with their key on each side.

use super::drawing::{Scale, draw_body, draw_hole};
use super::{look, mark};
use crate::board::{Board, Pin, Socket};
use crate::decide::{PinOrder, ReadFrom, pin_order};
use crate::geometry::{Point, Rect, Side, Size};
use crate::scene::Scene;
use crate::text::Typesetter;
use crate::words::Words;

const SCALE: Scale = Scale { pitch: 5.6, cavity: 4.6, body: 7.2, key_deep: 1.6, key_long: 5.0 };
/// The pins that stand for the places of a list.
const PLACES: [Pin; 4] = [Pin::Ground, Pin::Common, Pin::Low, Pin::High];
/// The cell of one socket, mm: three fit on the smallest paper beside each other.
const CELL: Size = Size { width: 30.0, height: 34.0 };

/// The sides that the keys of a board's socket families are drawn on, each once.
pub fn drawn_sides(board: &Board) -> Vec<Side> {
    let all = board.sockets.iter().filter_map(|socket| socket.key_drawn);
    let mut sides: Vec<Side> = Vec::new();
    for side in all {
        if !sides.contains(&side) {
            sides.push(side);
        }
    }
    sides
}

/// A list of four pins whose key is drawn on the side `drawn`, as it is seen with the key on every
/// side. The numbers are the places in the list.
pub fn socket_turns(
    board: &Board,
    drawn: Side,
    words: &Words,
    set: &mut Typesetter,
    width: f64,
) -> Option<Scene> {
    let family = board.sockets.iter().find(|socket| socket.key_drawn == Some(drawn))?;
    let socket = Socket { pins: PLACES.to_vec(), ..family.clone() };
    let mut sides = vec![drawn];
    sides.extend(
        [Side::Right, Side::Up, Side::Left, Side::Down].into_iter().filter(|s| *s != drawn),
    );
    let columns = (width / CELL.width).floor().clamp(1.0, 4.0) as usize;
    let rows = sides.len().div_ceil(columns);
    let size = Size::new(CELL.width * columns as f64, CELL.height * rows as f64);
    let mut scene = Scene::new(size, words.turns_title(), "");
    for (index, side) in sides.into_iter().enumerate() {
        let corner = Point::new(
            CELL.width * (index % columns) as f64,
            CELL.height * (index / columns) as f64,
        );
        let seen = pin_order(&socket, Some(side));
        let turn = Turn { seen, key: side, listed: side == drawn };
        turn.draw(&mut scene, corner, words, set);
        scene.description.push_str(&turn.described(words));
        scene.description.push(' ');
    }
    Some(scene)
}

/// The list with its key on one side.
struct Turn {
    seen: PinOrder,
    key: Side,
    /// Whether the key is where the list has it.
    listed: bool,
}

impl Turn {
    /// The places in the list in the order in which they are seen.
    fn numbers(&self) -> Vec<String> {
        let place = |pin: &Option<Pin>| {
            let index = PLACES.iter().position(|place| Some(*place) == *pin);
            index.map_or(String::new(), |index| (index + 1).to_string())
        };
        self.seen.pins.iter().map(place).collect()
    }

    fn described(&self, words: &Words) -> String {
        words.turn_described(self.key, self.seen.read_from, &words.commas(&self.numbers()))
    }

    fn draw(&self, scene: &mut Scene, corner: Point, words: &Words, set: &mut Typesetter) {
        let (head, style) = match self.listed {
            true => (words.turn_as_listed(), look::NOTE_BOLD),
            false => (words.turn_turned(), look::NOTE),
        };
        let head = set.line(&head, style);
        let under = set.line(&words.turn_key(self.key), look::NOTE);
        let middle = corner.x + CELL.width / 2.0;
        let words_height = head.height() + under.height();
        mark::words_over(scene, Point::new(middle, corner.y + head.height() / 2.0), head.clone());
        let second = corner.y + head.height() + under.height() / 2.0;
        mark::words_over(scene, Point::new(middle, second), under);

        let long = SCALE.pitch * PLACES.len() as f64 + 1.0;
        let room = Point::new(middle, corner.y + words_height + (CELL.height - words_height) / 2.0);
        let standing = self.seen.read_from == ReadFrom::Top;
        let size = if standing { Size::new(SCALE.body, long) } else { Size::new(long, SCALE.body) };
        let body = Rect::around(room, size);
        draw_body(scene, body, Some(self.key), SCALE);
        for (index, number) in self.numbers().iter().enumerate() {
            let along = 0.5 + SCALE.pitch * (index as f64 + 0.5);
            let at = if standing {
                Point::new(body.middle().x, body.top + along)
            } else {
                Point::new(body.left + along, body.middle().y)
            };
            draw_hole(scene, at, false, SCALE);
            let digit = set.line(number, look::NOTE_BOLD);
            mark::words_over(scene, at, digit);
        }
    }
}
