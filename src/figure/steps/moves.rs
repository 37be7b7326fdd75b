//! What is moved from where to where: jumpers between groups, links between terminals.

use super::{CODE, EDGE, LEFT_BEHIND};
use crate::board::Board;
use crate::decide::Wiring;
use crate::figure::mark;
use crate::geometry::{Path, Point, Rect, Size};
use crate::scene::{Ink, Item, Scene, Stroke};
use crate::text::Typesetter;
use crate::words::Words;

/// From one row to the next, and height of a box, mm.
const ROW: f64 = 9.0;
const BOX: f64 = 7.0;
/// The least width of a box, space beside a code in it, length of an arrow, mm.
const NARROW: f64 = 8.0;
const PAD: f64 = 1.1;
const ARROW: f64 = 6.6;
/// Corners of what is moved, which is rounder than a place, mm.
const CORNER: f64 = 2.2;
/// Between what is moved and where it was, and between columns, mm.
const GAP: f64 = 2.2;
const BETWEEN: f64 = 8.0;
/// More rows than this stand in columns.
const ROWS: usize = 10;

/// A thing and where it goes.
struct Move<'a> {
    code: &'a str,
    from: &'a str,
    to: &'a str,
}

/// Every jumper that is moved. `page` is the width that the drawing may take where one column of
/// `width` mm is too high; `None` if no jumper is moved.
pub fn jumper_moves(
    board: &Board,
    wiring: &Wiring,
    words: &Words,
    set: &mut Typesetter,
    (width, page): (f64, f64),
) -> Option<Scene> {
    let moved: Vec<Move<'_>> = wiring
        .jumpers
        .iter()
        .filter(|plan| plan.moved)
        .map(|plan| Move {
            code: &board[plan.jumper].code,
            from: &board[board[plan.jumper].shipped].code,
            to: &board[plan.group].code,
        })
        .collect();
    let told = |one: &Move<'_>| words.jumper_moves_told(one.code, one.from, one.to);
    drawn(&moved, words.jumper_moves_title(), &told, set, (width, page))
}

/// The same for links.
pub fn link_moves(
    board: &Board,
    wiring: &Wiring,
    words: &Words,
    set: &mut Typesetter,
    (width, page): (f64, f64),
) -> Option<Scene> {
    let moved: Vec<Move<'_>> = wiring
        .links
        .iter()
        .filter(|plan| plan.moved)
        .map(|plan| Move {
            code: &board[plan.link].code,
            from: &board[board[plan.link].shipped].code,
            to: &board[plan.terminal].code,
        })
        .collect();
    let told = |one: &Move<'_>| words.link_moves_told(one.code, one.from, one.to);
    drawn(&moved, words.link_moves_title(), &told, set, (width, page))
}

fn drawn(
    moved: &[Move<'_>],
    title: String,
    told: &dyn Fn(&Move<'_>) -> String,
    set: &mut Typesetter,
    (width, page): (f64, f64),
) -> Option<Scene> {
    if moved.is_empty() {
        return None;
    }
    let told: Vec<String> = moved.iter().map(told).collect();
    let mut scene = Scene::new(Size::new(width, 0.0), title, told.join(" "));
    let mut widest = |of: &dyn Fn(&Move<'_>) -> String| {
        let widths = moved.iter().map(|one| set.line(&of(one), CODE).width + 2.0 * PAD);
        widths.fold(NARROW, f64::max)
    };
    let code = widest(&|one| one.code.to_owned());
    let place = widest(&|one| one.from.to_owned()).max(widest(&|one| one.to.to_owned()));
    let across = code + GAP + place + ARROW + place + 0.8;
    let most = ((page + BETWEEN) / (across + BETWEEN)).floor().max(1.0) as usize;
    let columns = moved.len().div_ceil(ROWS).min(most);
    let rows = moved.len().div_ceil(columns);
    for (index, one) in moved.iter().enumerate() {
        let left = 0.4 + (index / rows) as f64 * (across + BETWEEN);
        let y = ROW * ((index % rows) as f64 + 0.5);
        let at = |left: f64, width: f64| {
            Rect::around(Point::new(left + width / 2.0, y), Size::new(width, BOX))
        };
        let thing = at(left, code);
        let from = at(thing.right + GAP, place);
        let to = at(from.right + ARROW, place);
        let edge = Stroke { width: 0.8, ..EDGE };
        scene.shape(Path::rounded(thing, CORNER), Some(Ink::WHITE), Some(edge));
        scene.shape(Path::rounded(from, 0.8), Some(Ink::WHITE), Some(LEFT_BEHIND));
        scene.shape(Path::rounded(to, 0.8), Some(Ink::BLACK), None);
        let tip = Point::new(to.left - 0.8, y);
        let shaft = [Point::new(from.right + 1.0, y), tip.moved(-1.5, 0.0)];
        mark::rule(&mut scene, &shaft, Stroke::solid(Ink::BLACK, 0.9));
        mark::arrow_head(&mut scene, tip, (1.0, 0.0), 3.2);
        let line = set.line(one.code, CODE);
        mark::words_over(&mut scene, thing.middle(), line);
        let line = set.line(one.from, CODE);
        mark::words_over(&mut scene, from.middle(), line);
        let line = set.line(one.to, CODE);
        let middle = to.middle();
        let at = Point::new(middle.x - line.width / 2.0, mark::baseline(&line, middle.y));
        scene.items.push(Item::Text { at, line, ink: Ink::WHITE });
    }
    let wide = columns as f64 * (across + BETWEEN) - BETWEEN;
    scene.size =
        Size::new(if columns > 1 { wide } else { wide.max(scene.size.width) }, ROW * rows as f64);
    Some(scene)
}
