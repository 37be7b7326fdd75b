//! Lock off, tag and test: a breaker that is off, a padlock, a tag, and a meter that reads 0 V.

use super::{CODE, EDGE, STRONG};
use crate::figure::{look, mark};
use crate::geometry::{Path, Point, Rect, Size};
use crate::scene::{Ink, Scene, Stroke};
use crate::text::Typesetter;
use crate::units::Volts;
use crate::words::Words;

/// A breaker, the body of a padlock, a meter, mm.
const BREAKER: Size = Size::new(11.5, 20.0);
const LOCK: Size = Size::new(9.0, 7.0);
const METER: Size = Size::new(19.0, 9.0);
/// Between them, mm.
const GAP: f64 = 3.2;

/// The four things in the order in which they are done, `width` mm wide.
pub fn lock_off(words: &Words, set: &mut Typesetter, width: f64) -> Scene {
    let mut scene =
        Scene::new(Size::new(width, 0.0), words.lock_off_title(), words.lock_off_described());
    let middle = BREAKER.height / 2.0 + 0.4;
    let mut x = 0.4;

    let breaker = Rect::at(Point::new(x, 0.4), BREAKER);
    scene.shape(Path::rounded(breaker, 1.2), Some(Ink::WHITE), Some(EDGE));
    let off = set.line(&words.off_mark(), STRONG);
    mark::words_over(&mut scene, Point::new(breaker.middle().x, breaker.top + 3.6), off);
    let slot = Rect::around(breaker.middle().moved(0.0, 3.4), Size::new(4.6, 9.4));
    scene.shape(Path::rounded(slot, 0.6), Some(look::EMPTY_TINT), Some(look::EDGE));
    let lever = Rect { top: slot.middle().y + 0.4, ..slot.grown(-0.5) };
    scene.shape(Path::rect(lever), Some(Ink::BLACK), None);
    x = breaker.right + GAP;

    let lock = Rect::at(Point::new(x, middle - LOCK.height * 0.3), LOCK);
    let shackle = Stroke::solid(Ink::BLACK, 1.1);
    scene.shape(
        Path::circle(Point::new(lock.middle().x, lock.top), LOCK.width * 0.31),
        Some(Ink::WHITE),
        Some(shackle),
    );
    scene.shape(Path::rounded(lock, 0.8), Some(Ink::BLACK), None);
    scene.shape(Path::circle(lock.middle().moved(0.0, -0.6), 0.9), Some(Ink::WHITE), None);
    x = lock.right + GAP;

    let word = set.line(&words.tag_mark(), STRONG);
    let size = Size::new(word.width + 3.6, 11.5);
    let tag = Rect::at(Point::new(x, middle - size.height / 2.0), size);
    scene.shape(Path::rounded(tag, 0.8), Some(Ink::WHITE), Some(EDGE));
    let hole = Point::new(tag.middle().x, tag.top + 2.0);
    scene.shape(Path::circle(hole, 0.8), Some(Ink::WHITE), Some(look::EDGE));
    mark::words_over(&mut scene, Point::new(tag.middle().x, tag.bottom - 4.2), word);

    let reading = set.line(&words.whole_volts(Volts(0.0)), CODE);
    let size = Size::new(METER.width.max(reading.width + 3.0), METER.height);
    let meter = Rect::at(Point::new(0.4, breaker.bottom + GAP), size);
    scene.shape(Path::rounded(meter, 1.2), Some(Ink::WHITE), Some(EDGE));
    mark::words_over(&mut scene, meter.middle(), reading);
    for down in [2.6, 6.4] {
        let from = Point::new(meter.right, meter.top + down);
        let to = from.moved(9.0, 0.0);
        mark::rule(&mut scene, &[from, to], look::EDGE);
        let probe = [to, to.moved(6.0, 0.0)];
        mark::rule(&mut scene, &probe, Stroke::solid(Ink::BLACK, 1.2));
    }
    scene.size.height = meter.bottom + 0.4;
    scene.size.width = scene.size.width.max(tag.right + 0.4);
    scene
}
