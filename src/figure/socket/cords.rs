//! The cords of one job at their headers: what goes where, and the pins of each.

use super::drawing::{Label, MEDIUM, drawing};
use super::{look, mark};
use crate::board::{Board, Conductor, Pin};
use crate::decide::DevicePlan;
use crate::geometry::{Path, Point, Rect, Size};
use crate::scene::{Ink, Scene, Stroke};
use crate::text::Typesetter;
use crate::words::Words;

/// The least width of a cell, mm.
const CELL: f64 = 28.0;
/// Space inside a cell's frame, mm.
const PAD: f64 = 1.2;
/// Side of the box to tick, mm.
const TICK: f64 = 3.0;

/// A drawing for each row of cells, `width` mm wide: every device with its header, its voltage,
/// and the pins of its cord as they are seen at the header.
pub fn cord_rows(
    board: &Board,
    devices: &[DevicePlan],
    words: &Words,
    set: &mut Typesetter,
    width: f64,
) -> Vec<Scene> {
    let columns = (width / CELL).floor().max(1.0);
    let cell = width / columns;
    let mut rows = Vec::new();
    let mut row = CordRow::default();
    for device in devices {
        let cord = cord(board, device, words, set, cell);
        let spans = (cord.size.width / cell - 1e-6).ceil().clamp(1.0, columns);
        if row.spans + spans > columns {
            rows.push(std::mem::take(&mut row).scene(width, words));
        }
        row.cords.push((row.spans * cell, spans * cell, cord));
        row.spans += spans;
    }
    if !row.cords.is_empty() {
        rows.push(row.scene(width, words));
    }
    rows
}

/// Cords side by side: left edge and width of each.
#[derive(Default)]
struct CordRow {
    spans: f64,
    cords: Vec<(f64, f64, Scene)>,
}

impl CordRow {
    fn scene(self, width: f64, words: &Words) -> Scene {
        let height = self.cords.iter().map(|(.., cord)| cord.size.height).fold(0.0, f64::max);
        let mut scene = Scene::new(Size::new(width, height), words.cords_title(), String::new());
        for (left, width, cord) in self.cords {
            let area = Rect::at(Point::new(left, 0.0), Size::new(width, height));
            scene.shape(Path::rounded(area.grown(-0.4), 0.8), None, Some(look::FINE));
            if !scene.description.is_empty() {
                scene.description.push(' ');
            }
            scene.description.push_str(&cord.description);
            mark::place(&mut scene, cord, area.corner());
        }
        scene
    }
}

/// One device: a box to tick, its header, what it is fed with, and its cord's pins.
fn cord(board: &Board, plan: &DevicePlan, words: &Words, set: &mut Typesetter, cell: f64) -> Scene {
    let header = &board[plan.header];
    let live = plan.voltage.live_common();
    let labels: Vec<Label> =
        plan.pins.pins.iter().map(|pin| label(*pin, live, words, set)).collect();
    let drawn = drawing(&plan.pins, header.key, &labels, MEDIUM, None);
    let width = ((drawn.size.width + 2.0 * PAD) / cell - 1e-6).ceil().max(1.0) * cell;
    let mut scene = Scene::new(Size::new(width, 0.0), header.code.clone(), String::new());
    let code = set.line(&header.code, look::NAME);
    let volts = words.whole_volts(plan.volts);
    let volts_line = set.line(&volts, look::NOTE);
    let middle = PAD + code.height() / 2.0;
    let tick = Rect::around(Point::new(PAD + TICK / 2.0, middle), Size::new(TICK, TICK));
    scene.shape(Path::rect(tick), Some(Ink::WHITE), Some(Stroke::solid(Ink::BLACK, 0.25)));
    let mut y = PAD + code.height();
    let (left, right) = (PAD + TICK + 1.2, width - PAD);
    let beside = left + code.width + 1.0 + volts_line.width <= right;
    mark::words_from(&mut scene, Point::new(left, middle), code);
    let device = words.device_name(plan.device);
    let mut lines = set.lines(&device, look::NOTE_BOLD, width - 2.0 * PAD);
    if beside {
        mark::words_to(&mut scene, Point::new(right, middle), volts_line);
    } else {
        lines.push(volts_line);
    }
    y = mark::stack(&mut scene, Point::new(PAD, y), &lines) + 0.8;
    let at = Point::new(((width - drawn.size.width) / 2.0).max(0.0), y);
    scene.size.height = y + drawn.size.height + PAD;
    scene.description = description(board, plan, &volts, words);
    mark::place(&mut scene, drawn, at);
    scene
}

fn label(pin: Option<Pin>, live: Option<Conductor>, words: &Words, set: &mut Typesetter) -> Label {
    let Some(pin) = pin else { return vec![set.line(&words.cavity_empty(), look::NOTE_BOLD)] };
    let mut label = vec![set.line(&words.pin_name(pin), look::NOTE)];
    if let (Pin::Common, Some(line)) = (pin, live) {
        label.push(set.line(&words.live_line_mark(line), look::NOTE_BOLD));
    }
    label
}

fn description(board: &Board, plan: &DevicePlan, volts: &str, words: &Words) -> String {
    let code = &board[plan.header].code;
    let pins = words.pin_names(&plan.pins.pins);
    let mut sentences = vec![
        words.cord_described(code, plan.device, plan.speeds, volts),
        words.cord_pins_described(plan.pins.read_from, &pins),
    ];
    if plan.pins.pins.contains(&Some(Pin::Common))
        && let Some(line) = plan.voltage.live_common()
    {
        sentences.push(words.common_is_live_on(line));
    }
    sentences.join(" ")
}
