//! A plug at its header: the pins as they are seen from the front, what each wire is, the side of
//! the key, and what stays empty.

use super::{CODE, STRONG, WORDS};
use crate::board::{Board, Conductor, Pin, WireColour};
use crate::decide::{DevicePlan, ReadFrom};
use crate::figure::mark;
use crate::figure::socket::drawing::{Label, Scale, drawing, named};
use crate::geometry::{Point, Size};
use crate::scene::Scene;
use crate::text::Typesetter;
use crate::words::Words;

/// How large the header is drawn, mm.
const SCALE: Scale = Scale { pitch: 7.1, cavity: 5.0, body: 8.8, key_deep: 1.8, key_long: 6.0 };
/// Between the words above and the header, mm.
const GAP: f64 = 1.4;

/// The header of a device with the pins of its plug; not narrower than `width` mm.
pub fn plug(
    board: &Board,
    plan: &DevicePlan,
    words: &Words,
    set: &mut Typesetter,
    width: f64,
) -> Scene {
    let header = &board[plan.header];
    let live = plan.voltage.live_common();
    let read_from = plan.pins.read_from;
    let labels: Vec<Label> =
        plan.pins.cavities().map(|cavity| label(cavity, read_from, live, words, set)).collect();
    let key = header.key.map(|_| set.line(&words.key_mark(), WORDS));
    let drawn = drawing(&plan.pins, header.key, &labels, SCALE, key);
    let code = set.line(&header.code, CODE);
    let from_front = set.line(&words.seen_from_front(), WORDS);
    let top = code.height() + from_front.height() + GAP;
    let wide = drawn.size.width.max(from_front.width).max(code.width).max(width);
    let size = Size::new(wide, top + drawn.size.height);
    let title = header.code.clone();
    let mut scene = Scene::new(size, title, description(board, plan, words));
    mark::stack(&mut scene, Point::default(), &[code, from_front]);
    mark::place(&mut scene, drawn, Point::new(0.0, top));
    scene
}

fn label(
    (pin, colour): (Option<Pin>, Option<WireColour>),
    read_from: ReadFrom,
    live: Option<Conductor>,
    words: &Words,
    set: &mut Typesetter,
) -> Label {
    let Some(pin) = pin else { return vec![set.line(&words.cavity_empty(), STRONG)] };
    let mut label: Label =
        named(pin, colour, read_from, words).iter().map(|text| set.line(text, WORDS)).collect();
    if let (Pin::Common, Some(line)) = (pin, live) {
        label.push(set.line(&words.live_line_mark(line), STRONG));
    }
    label
}

fn description(board: &Board, plan: &DevicePlan, words: &Words) -> String {
    let header = &board[plan.header];
    let pins = words.pin_names(&plan.pins);
    let volts = words.whole_volts(plan.volts);
    let mut sentences = vec![words.cord_described(&header.code, plan.device, plan.speeds, &volts)];
    sentences.push(match header.key {
        Some(key) => words.socket_reading(key, plan.pins.read_from),
        None => words.socket_reading_without_key(plan.pins.read_from),
    });
    sentences.push(words.cord_pins_described(plan.pins.read_from, &pins));
    if plan.pins.pins.contains(&Some(Pin::Common))
        && let Some(line) = plan.voltage.live_common()
    {
        sentences.push(words.common_is_live_on(line));
    }
    sentences.join(" ")
}
