//! One cell of the grid: a header's name, how to read it, its socket, and a shorter cord.

use super::drawing::{LARGE, Label, SMALL, drawing};
use super::{CommonLive, common_live, look, mark, places};
use crate::board::{Board, HeaderId, Pin, Speeds};
use crate::decide::{PinOrder, ReadFrom, pin_order, pin_order_for, service};
use crate::geometry::{Point, Rect, Side, Size};
use crate::scene::{Item, Scene, Target};
use crate::text::Typesetter;

/// Space inside a cell's frame, mm.
const PAD: f64 = 2.2;
/// Between the two drawings of a cell, mm.
const GAP: f64 = 3.0;

/// One header: its code and title, how to read it, its socket, and beside it the cord of a
/// device with one speed if that leaves a cavity empty.
pub(super) fn close_up(board: &Board, id: HeaderId, set: &mut Typesetter, cell: f64) -> Scene {
    let header = &board[id];
    let socket = &board[header.socket];
    let seen = pin_order(socket, header.key);
    let served = service(board, id).served;
    let one_speed = served.iter().any(|s| s.speeds == Speeds::One);
    let two_speeds = served.iter().any(|s| s.speeds == Speeds::Two);
    let short_cord = pin_order_for(socket, header.key, Speeds::One);
    let shows_short_cord = one_speed && short_cord != seen;
    let live = common_live(board, id);

    let labels: Vec<Label> = seen.pins.iter().map(|pin| function(*pin, live, set)).collect();
    let main = drawing(&seen, header.key, &labels, LARGE, set);
    let side = shows_short_cord.then(|| {
        let labels: Vec<Label> = short_cord
            .pins
            .iter()
            .map(|pin| match pin {
                Some(_) => Vec::new(),
                None => vec![set.line("empty", look::SMALL_BOLD)],
            })
            .collect();
        drawing(&short_cord, header.key, &labels, SMALL, set)
    });

    let drawn = match &side {
        Some(side) => mark::beside(main.size, side.size, GAP),
        None => main.size,
    };
    let spans = ((drawn.width + 2.0 * PAD) / cell).ceil().max(1.0);
    let width = spans * cell;
    let mut scene = Scene::new(Size::new(width, 0.0), header.code.clone(), String::new());
    let inner = width - 2.0 * PAD;
    let mut y = mark::code_and_words(
        &mut scene,
        set,
        Point::new(PAD, PAD),
        inner,
        (&header.code, look::CODE),
        (&header.title, look::TITLE),
    );
    scene.items.push(Item::Link {
        area: Rect::at(Point::new(PAD, PAD), Size::new(inner, y - PAD)),
        target: Target::Anchor(places::plan(&header.code)),
        description: format!("{} on the board plan", header.code),
    });
    let reading = reading_words(&seen, header.key);
    for words in [socket.title.as_str(), reading.as_str()] {
        let lines = set.lines(words, look::SMALL, inner);
        y = mark::stack(&mut scene, Point::new(PAD, y), &lines);
    }
    y += 1.6;
    let (main_size, drawn_width) = (main.size, drawn.width);
    let left = PAD + ((inner - drawn_width) / 2.0).max(0.0);
    if let Some(side) = side {
        let first = if two_speeds { "two speeds" } else { "the socket" };
        let first = set.line(first, look::SMALL);
        let second = set.line("one speed", look::SMALL);
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
    scene.description =
        description(board, id, &seen, live, shows_short_cord.then_some(&short_cord));
    scene
}

/// `Key to the right. Read from the top.`
fn reading_words(seen: &PinOrder, key: Option<Side>) -> String {
    let read = match seen.read_from {
        ReadFrom::Top => "Read from the top.",
        ReadFrom::Left => "Read from the left.",
    };
    match key {
        Some(side) => format!("Key {}. {read}", side_words(side)),
        None => format!("No key. {read}"),
    }
}

/// Where the key is, in plain words.
fn side_words(side: Side) -> &'static str {
    match side {
        Side::Up => "at the top",
        Side::Right => "to the right",
        Side::Down => "at the bottom",
        Side::Left => "to the left",
    }
}

fn description(
    board: &Board,
    id: HeaderId,
    seen: &PinOrder,
    live: CommonLive,
    short_cord: Option<&PinOrder>,
) -> String {
    let header = &board[id];
    let words = |order: &PinOrder| -> String {
        let pins: Vec<String> = order
            .pins
            .iter()
            .map(|pin| pin.map_or("empty".to_owned(), |pin| pin.to_string()))
            .collect();
        pins.join(", ")
    };
    let mut text = format!(
        "{}, {}: {} {}.",
        header.code,
        header.title,
        reading_words(seen, header.key),
        words(seen)
    );
    match live {
        CommonLive::Never => {}
        CommonLive::Sometimes => text.push_str(" Common can be live."),
        CommonLive::Always => text.push_str(" Common is live."),
    }
    if let Some(order) = short_cord {
        text.push_str(&format!(" Cord with one speed: {}.", words(order)));
    }
    text.push(' ');
    text
}

/// The words beside a pin.
fn function(pin: Option<Pin>, live: CommonLive, set: &mut Typesetter) -> Label {
    let Some(pin) = pin else { return vec![set.line("empty", look::SMALL_BOLD)] };
    let mut label = vec![set.line(&pin.to_string(), look::SMALL)];
    if pin == Pin::Common {
        match live {
            CommonLive::Never => {}
            CommonLive::Sometimes => label.push(set.line("can be live", look::SMALL_BOLD)),
            CommonLive::Always => label.push(set.line("live", look::SMALL_BOLD)),
        }
    }
    label
}
