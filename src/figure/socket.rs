//! Every header enlarged, as a person sees it from the front: its pins in their order, the side
//! of its key, and what stays empty for a cord with fewer wires.

use std::sync::Arc;

use super::look;
use super::mark;
use super::places;
use crate::board::{Board, HeaderId, Pin, Speeds, SupplyId};
use crate::decide::{
    GroupVoltage, PinOrder, ReadFrom, group_voltage, pin_order, pin_order_for, service,
};
use crate::geometry::{Path, Point, Rect, Side, Size};
use crate::scene::{Ink, Item, Scene, Stroke, Target};
use crate::text::{Line, Typesetter};

/// The least width of a cell of the grid, mm: three stand side by side on A4.
const CELL: f64 = 58.0;
/// Space inside a cell's frame, mm.
const PAD: f64 = 2.2;
/// Between the two drawings of a cell, mm.
const GAP: f64 = 3.0;

/// How large a socket is drawn, mm.
#[derive(Clone, Copy)]
struct Scale {
    pitch: f64,
    cavity: f64,
    /// Across the row of cavities.
    body: f64,
    key_deep: f64,
    key_long: f64,
}

const LARGE: Scale = Scale { pitch: 7.2, cavity: 5.0, body: 8.8, key_deep: 1.8, key_long: 6.0 };
const SMALL: Scale = Scale { pitch: 4.6, cavity: 3.2, body: 6.0, key_deep: 1.3, key_long: 4.0 };

/// Words beside a cavity: one line or two.
type Label = Vec<Arc<Line>>;

/// All headers of the board in a grid `width` mm wide; a new drawing begins where the next row
/// would pass `height` mm.
pub fn socket_pages(board: &Board, set: &mut Typesetter, width: f64, height: f64) -> Vec<Scene> {
    let columns = (width / CELL).floor().max(1.0);
    let cell = width / columns;
    let mut pages: Vec<Vec<Row>> = vec![Vec::new()];
    let mut row = Row::default();
    let mut used = 0.0;
    for header in board.header_ids() {
        let close_up = close_up(board, header, set, cell);
        let spans = (close_up.size.width / cell).ceil().clamp(1.0, columns);
        if row.spans + spans > columns {
            push_row(&mut pages, &mut used, std::mem::take(&mut row), height);
        }
        row.height = row.height.max(close_up.size.height);
        row.cells.push((row.spans, spans, header, close_up));
        row.spans += spans;
    }
    if !row.cells.is_empty() {
        push_row(&mut pages, &mut used, row, height);
    }
    let count = pages.len();
    pages
        .into_iter()
        .enumerate()
        .map(|(index, rows)| page(board, rows, width, cell, (index + 1, count)))
        .collect()
}

/// Whether the voltage of a line is on a header's *common* pin.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CommonLive {
    /// It is the neutral, or there is no such pin.
    Never,
    /// On some of its groups, under some supply.
    Sometimes,
    /// On every group that gives a voltage, under every supply.
    Always,
}

/// Whether the *common* pin of a header is live, over all its groups and all supplies.
pub fn common_live(board: &Board, header: HeaderId) -> CommonLive {
    if !board[board[header].socket].pins.contains(&Pin::Common) {
        return CommonLive::Never;
    }
    let (mut live, mut dead) = (false, false);
    for supply in (0..board.supplies.len()).map(SupplyId) {
        for group in board.groups_of(header) {
            match group_voltage(board, supply, group) {
                GroupVoltage::NotAvailable { .. } => {}
                voltage if voltage.live_common().is_some() => live = true,
                _ => dead = true,
            }
        }
    }
    match (live, dead) {
        (true, true) => CommonLive::Sometimes,
        (true, false) => CommonLive::Always,
        (false, _) => CommonLive::Never,
    }
}

/// One row of the grid: cells with their first column and how many columns they span.
#[derive(Default)]
struct Row {
    spans: f64,
    height: f64,
    cells: Vec<(f64, f64, HeaderId, Scene)>,
}

fn push_row(pages: &mut Vec<Vec<Row>>, used: &mut f64, row: Row, height: f64) {
    if *used > 0.0 && *used + row.height > height {
        pages.push(Vec::new());
        *used = 0.0;
    }
    *used += row.height;
    if let Some(page) = pages.last_mut() {
        page.push(row);
    }
}

fn page(
    board: &Board,
    rows: Vec<Row>,
    width: f64,
    cell: f64,
    (number, count): (usize, usize),
) -> Scene {
    let height = rows.iter().map(|row| row.height).sum();
    let title =
        if count > 1 { format!("Sockets, {number} of {count}") } else { "Sockets".to_owned() };
    let mut scene = Scene::new(Size::new(width, height), title, String::new());
    let mut top = 0.0;
    for row in rows {
        for (first, spans, header, close_up) in row.cells {
            let size = Size::new(spans * cell, row.height);
            let area = Rect::at(Point::new(first * cell, top), size);
            scene.shape(Path::rounded(area.grown(-0.6), 1.0), None, Some(look::FINE));
            let code = &board[header].code;
            scene.items.push(Item::Anchor { name: places::socket(code), at: area.corner() });
            scene.description.push_str(&close_up.description);
            mark::place(&mut scene, close_up, area.corner());
        }
        top += row.height;
    }
    scene
}

/// One header: its code and title, how to read it, its socket, and beside it the cord of a
/// device with one speed if that leaves a cavity empty.
fn close_up(board: &Board, id: HeaderId, set: &mut Typesetter, cell: f64) -> Scene {
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
pub(super) fn side_words(side: Side) -> &'static str {
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

/// One socket with its words, in a scene just large enough.
fn drawing(
    seen: &PinOrder,
    key: Option<Side>,
    labels: &[Label],
    scale: Scale,
    set: &mut Typesetter,
) -> Scene {
    let key_word =
        (scale.pitch >= LARGE.pitch && key.is_some()).then(|| set.line("key", look::SMALL));
    match seen.read_from {
        ReadFrom::Top => column(seen, key, labels, scale, key_word),
        ReadFrom::Left => row(seen, key, labels, scale, key_word),
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
    let long = scale.pitch * seen.pins.len() as f64 + 1.0;
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
        let y = body.top + 0.5 + scale.pitch * (index as f64 + 0.5);
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
    let long = scale.pitch * count as f64 + 1.0;
    let words_above = key == Some(Side::Down);
    let common = seen.pins.iter().position(|pin| *pin == Some(Pin::Common)).unwrap_or(1);
    let outer = |index: usize| index % 2 == common % 2;
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
            let from_end = 0.5 + scale.pitch * (index.min(count - 1 - index) as f64 + 0.5);
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
        let x = body.left + 0.5 + scale.pitch * (index as f64 + 0.5);
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

/// The body with its key as a tab on one side. Without a key there is only a plate.
fn draw_body(scene: &mut Scene, body: Rect, key: Option<Side>, scale: Scale) {
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

/// A cavity with its contact, or a stud; ground carries the earth symbol, an empty one a cross.
fn draw_cavity(scene: &mut Scene, middle: Point, pin: Option<Pin>, stud: bool, scale: Scale) {
    let half = scale.cavity / 2.0;
    let square = Rect::around(middle, Size::new(scale.cavity, scale.cavity));
    if stud {
        scene.shape(Path::circle(middle, half), Some(Ink::WHITE), Some(look::EDGE));
    } else {
        scene.shape(Path::rounded(square, 0.6), Some(Ink::WHITE), Some(look::EDGE));
    }
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
