//! How a socket that is turned is read: the same four cavities with their key on each side.

use super::drawing::{Scale, draw_body, draw_hole};
use super::{look, mark};
use crate::board::{Board, Pin, Socket};
use crate::decide::{ReadFrom, pin_order};
use crate::geometry::{Point, Rect, Side, Size};
use crate::scene::Scene;
use crate::text::Typesetter;

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
pub fn socket_turns(board: &Board, drawn: Side, set: &mut Typesetter, width: f64) -> Option<Scene> {
    let family = board.sockets.iter().find(|socket| socket.key_drawn == Some(drawn))?;
    let socket = Socket { pins: PLACES.to_vec(), ..family.clone() };
    let mut sides = vec![drawn];
    sides.extend(
        [Side::Right, Side::Up, Side::Left, Side::Down].into_iter().filter(|s| *s != drawn),
    );
    let columns = (width / CELL.width).floor().clamp(1.0, 4.0) as usize;
    let rows = sides.len().div_ceil(columns);
    let size = Size::new(CELL.width * columns as f64, CELL.height * rows as f64);
    let mut scene = Scene::new(size, "One list of pins, turned", "");
    for (index, side) in sides.into_iter().enumerate() {
        let corner = Point::new(
            CELL.width * (index % columns) as f64,
            CELL.height * (index / columns) as f64,
        );
        let words = turned(&mut scene, &socket, side, corner, side == drawn, set);
        scene.description.push_str(&words);
    }
    Some(scene)
}

/// One of them; gives what it says in words.
fn turned(
    scene: &mut Scene,
    socket: &Socket,
    key: Side,
    corner: Point,
    listed: bool,
    set: &mut Typesetter,
) -> String {
    let seen = pin_order(socket, Some(key));
    let place = |pin: &Option<Pin>| {
        let index = PLACES.iter().position(|place| Some(*place) == *pin);
        index.map_or(String::new(), |index| (index + 1).to_string())
    };
    let numbers: Vec<String> = seen.pins.iter().map(place).collect();
    let side = match key {
        Side::Up => "at the top",
        Side::Right => "to the right",
        Side::Down => "at the bottom",
        Side::Left => "to the left",
    };
    let (head, style) = if listed {
        ("as in the list".to_owned(), look::SMALL_BOLD)
    } else {
        ("turned".to_owned(), look::SMALL)
    };
    let head = set.line(&head, style);
    let under = set.line(&format!("key {side}"), look::SMALL);
    let middle = corner.x + CELL.width / 2.0;
    let words_height = head.height() + under.height();
    mark::words_over(scene, Point::new(middle, corner.y + head.height() / 2.0), head.clone());
    let second = corner.y + head.height() + under.height() / 2.0;
    mark::words_over(scene, Point::new(middle, second), under);

    let long = SCALE.pitch * PLACES.len() as f64 + 1.0;
    let room = Point::new(middle, corner.y + words_height + (CELL.height - words_height) / 2.0);
    let standing = seen.read_from == ReadFrom::Top;
    let size = if standing { Size::new(SCALE.body, long) } else { Size::new(long, SCALE.body) };
    let body = Rect::around(room, size);
    draw_body(scene, body, Some(key), SCALE);
    for (index, number) in numbers.iter().enumerate() {
        let along = 0.5 + SCALE.pitch * (index as f64 + 0.5);
        let at = if standing {
            Point::new(body.middle().x, body.top + along)
        } else {
            Point::new(body.left + along, body.middle().y)
        };
        draw_hole(scene, at, false, SCALE);
        let digit = set.line(number, look::TITLE_BOLD);
        mark::words_over(scene, at, digit);
    }
    let from = if standing { "top" } else { "left" };
    format!("Key {side}: from the {from}, places {}. ", numbers.join(", "))
}
