//! The drawings of the language's reference: what a place and a side mean.

use super::{blank_bank, look, mark, socket_turns};
use crate::board::{Bank, Board};
use crate::geometry::{Path, Point, Rect, Side, Size};
use crate::scene::{Ink, Scene, Stroke};
use crate::text::Typesetter;
use crate::words::Words;

/// A distance that is shown.
const MEASURE: Stroke = Stroke::solid(Ink::BLACK, 0.2);
/// From a drawing to its caption, mm.
const GAP: f64 = 2.0;

/// The drawings by their names; `board` has a socket family whose key is drawn to the right, and a
/// switch bank.
pub fn directions(
    board: &Board,
    words: &Words,
    set: &mut Typesetter,
) -> Vec<(&'static str, Scene)> {
    let mut all = vec![("places", places(set))];
    all.extend(socket_turns(board, Side::Right, words, set, 130.0).map(|it| ("pin-order", it)));
    all.extend(board.banks.first().map(|bank| ("way-numbers", way_numbers(bank, words, set))));
    all
}

/// A circuit board on the drawing and a header on it, with what `at` and `size` measure.
fn places(set: &mut Typesetter) -> Scene {
    let description = "A circuit board with its top left corner marked as its place, and a header on it \
                       with its middle marked as its place, measured from that corner.";
    let mut scene = Scene::new(Size::new(120.0, 66.0), "Corner and middle", description);
    let part = Rect::at(Point::new(24.0, 12.0), Size::new(88.0, 46.0));
    scene.shape(Path::rect(part), Some(look::BOARD_TINT), Some(look::BOARD));
    let corner = part.corner();
    let header = Point::new(84.0, 44.0);
    let body = Rect::around(header, Size::new(20.0, 8.0));
    scene.shape(Path::rounded(body, 0.8), Some(look::ACTIVE_TINT), Some(look::EDGE));
    for place in [corner, header] {
        scene.shape(Path::circle(place, 1.1), Some(Ink::BLACK), None);
    }
    // Right from the corner, then down to the middle.
    let right = [Point::new(corner.x, 26.0), Point::new(header.x, 26.0)];
    let down = [Point::new(header.x, corner.y), header.moved(0.0, -2.0)];
    mark::rule(&mut scene, &right, MEASURE);
    mark::rule(&mut scene, &down, MEASURE);
    mark::arrow_head(&mut scene, right[1], (1.0, 0.0), 2.0);
    mark::arrow_head(&mut scene, down[1], (0.0, 1.0), 2.0);
    let mut say = |text: &str, left: f64, base: f64| {
        let line = set.line(text, look::NOTE);
        scene.text(Point::new(left, base), line);
    };
    say("parts: at: [0, 0], the corner", 24.0, 9.0);
    say("size: [88, 46]", 88.0, 63.5);
    say("60 to the right", 44.0, 25.0);
    say("32 down", 85.0, 35.0);
    say("headers: at: [60, 32], the middle", 28.0, 54.5);
    scene
}

/// The bank with ON at each edge.
fn way_numbers(bank: &Bank, words: &Words, set: &mut Typesetter) -> Scene {
    let description = "A bank of four switches with ON at the top, the right, the bottom and the left. \
                       Switch 1 is at the left, the top, the right and the bottom.";
    let mut scene = Scene::new(Size::default(), "ON edge and numbers of ways", description);
    let mut left = 0.0;
    let mut low: f64 = 0.0;
    for (side, word) in
        [(Side::Up, "up"), (Side::Right, "right"), (Side::Down, "down"), (Side::Left, "left")]
    {
        let turned = Bank { on_side: side, ..bank.clone() };
        let drawn = blank_bank(&turned, words, set, 40.0);
        let caption = set.line(&format!("on side: {word}"), look::NOTE_BOLD);
        let width = drawn.size.width.max(caption.width);
        let top = caption.height() + GAP;
        low = low.max(top + drawn.size.height);
        scene.text(Point::new(left, caption.ascent), caption);
        mark::place(&mut scene, drawn, Point::new(left, top));
        left += width + 3.0 * GAP;
    }
    scene.size = Size::new(left - 3.0 * GAP, low);
    scene
}
