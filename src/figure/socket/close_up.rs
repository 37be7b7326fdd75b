//! One cell of the grid: a header's name, how to read it, its socket, and a shorter cord.

use super::drawing::{self, Label, SMALL, drawing, large};
use super::{CommonLive, common_live, look, mark, places};
use crate::board::{Board, Header, HeaderId, Pin, Speeds, WireColour};
use crate::decide::{PinOrder, ReadFrom, pin_order, pin_order_for, service};
use crate::geometry::{Point, Rect, Side, Size};
use crate::scene::{Item, Scene, Target};
use crate::text::Typesetter;
use crate::words::Words;

/// Space inside a cell's frame, mm.
const PAD: f64 = 1.5;
/// Between the two drawings of a cell, mm.
const GAP: f64 = 2.4;

/// One header: its code and title, how to read it, its socket, and beside it the cord of a
/// device with one speed if that leaves a cavity empty.
pub(super) fn close_up(
    board: &Board,
    id: HeaderId,
    words: &Words,
    set: &mut Typesetter,
    cell: f64,
) -> Scene {
    let header = &board[id];
    let socket = &board[header.socket];
    let seen = pin_order(socket, header.key);
    let served = service(board, id).served;
    let one_speed = served.iter().any(|s| s.speeds == Speeds::One);
    let two_speeds = served.iter().any(|s| s.speeds == Speeds::Two);
    let short_cord = pin_order_for(socket, header.key, Speeds::One);
    let shows_short_cord = one_speed && short_cord != seen;
    let live = common_live(board, id);

    let labels: Vec<Label> = seen
        .cavities()
        .map(|(pin, colour)| function((pin, colour), seen.read_from, live, words, set))
        .collect();
    let key_word = set.line(&words.key_mark(), look::NOTE);
    let side = shows_short_cord.then(|| {
        let labels: Vec<Label> = short_cord
            .cavities()
            .map(|cavity| match cavity {
                (None, _) => vec![set.line(&words.cavity_empty(), look::NOTE_BOLD)],
                (Some(_), Some(colour)) => vec![set.line(&words.wire_letters(colour), look::NOTE)],
                (Some(_), None) => Vec::new(),
            })
            .collect();
        drawing(&short_cord, header.key, &labels, SMALL, None)
    });
    let both = |main: &Scene| match &side {
        Some(side) => mark::beside(main.size, side.size, GAP),
        None => main.size,
    };
    let spans_of = |main: &Scene| ((both(main).width + 2.0 * PAD) / cell - 1e-6).ceil().max(1.0);
    let scale = large(seen.read_from);
    let named = drawing(&seen, header.key, &labels, scale, Some(key_word));
    let plain = drawing(&seen, header.key, &labels, scale, None);
    // The line over the picture says where the key is, so its word is not worth another column.
    let main = if spans_of(&plain) < spans_of(&named) { plain } else { named };
    let (drawn, spans) = (both(&main), spans_of(&main));
    let width = spans * cell;
    let mut scene = Scene::new(Size::new(width, 0.0), header.code.clone(), String::new());
    let inner = width - 2.0 * PAD;
    let mut y = mark::code_and_words(
        &mut scene,
        set,
        Point::new(PAD, PAD),
        inner,
        (&header.code, look::NAME),
        (&header.title, look::NOTE),
    );
    scene.items.push(Item::Link {
        area: Rect::at(Point::new(PAD, PAD), Size::new(inner, y - PAD)),
        target: Target::Anchor(places::plan(&header.code)),
        description: words.header_on_plan(&header.code),
    });
    let reading = reading_words(&seen, header.key, words);
    for text in [socket.title.as_str(), reading.as_str()] {
        let lines = set.lines(text, look::NOTE, inner);
        y = mark::stack(&mut scene, Point::new(PAD, y), &lines);
    }
    y += 1.0;
    let (main_size, drawn_width) = (main.size, drawn.width);
    let left = PAD + ((inner - drawn_width) / 2.0).max(0.0);
    if let Some(side) = side {
        let first = set.line(&words.whole_socket(two_speeds), look::NOTE);
        let second = set.line(&words.one_speed_cord(), look::NOTE);
        let right = left + main_size.width + GAP;
        let level = y + first.height() / 2.0;
        let side_width = side.size.width;
        y += first.height() + 0.8;
        mark::place(&mut scene, side, Point::new(right, y));
        mark::words_over(&mut scene, Point::new(left + main_size.width / 2.0, level), first);
        mark::words_over(&mut scene, Point::new(right + side_width / 2.0, level), second);
    }
    mark::place(&mut scene, main, Point::new(left, y));
    scene.size.height = y + drawn.height + PAD;
    scene.description = description(
        header,
        &reading,
        (&seen, shows_short_cord.then_some(&short_cord)),
        live,
        words,
    );
    scene
}

/// `Key to the right. Read from the top.`
fn reading_words(seen: &PinOrder, key: Option<Side>, words: &Words) -> String {
    match key {
        Some(side) => words.socket_reading(side, seen.read_from),
        None => words.socket_reading_without_key(seen.read_from),
    }
}

/// One sentence or more, with a space after the last: those of the next header follow.
fn description(
    header: &Header,
    reading: &str,
    (seen, short_cord): (&PinOrder, Option<&PinOrder>),
    live: CommonLive,
    words: &Words,
) -> String {
    let pins = words.pin_names(seen);
    let mut sentences = vec![words.socket_described(&header.code, &header.title, reading, &pins)];
    match live {
        CommonLive::Never => {}
        CommonLive::Sometimes => sentences.push(words.common_can_be_live()),
        CommonLive::Always => sentences.push(words.common_is_live()),
    }
    if let Some(order) = short_cord {
        sentences.push(words.one_speed_cord_described(&words.pin_names(order)));
    }
    sentences.join(" ") + " "
}

/// The words beside a pin.
fn function(
    (pin, colour): (Option<Pin>, Option<WireColour>),
    read_from: ReadFrom,
    live: CommonLive,
    words: &Words,
    set: &mut Typesetter,
) -> Label {
    let Some(pin) = pin else { return vec![set.line(&words.cavity_empty(), look::NOTE_BOLD)] };
    let mut label: Label = drawing::named(pin, colour, read_from, words)
        .iter()
        .map(|text| set.line(text, look::NOTE))
        .collect();
    let mark = match (pin, live) {
        (Pin::Common, CommonLive::Sometimes) => Some(words.can_be_live_mark()),
        (Pin::Common, CommonLive::Always) => Some(words.live_mark()),
        _ => None,
    };
    label.extend(mark.map(|mark| set.line(&mark, look::NOTE_BOLD)));
    label
}
