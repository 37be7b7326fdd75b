//! A switch bank, drawn with its shipped positions as it is mounted.
//!
//! With ON at the top, way 1 is at the left (common practice for such banks); a bank that is
//! mounted another way round is that picture turned, with the words kept upright.

use std::sync::Arc;

use super::look;
use super::mark;
use crate::board::{Bank, Field, Meaning};
use crate::geometry::{Path, Point, Rect, Side, Size};
use crate::scene::{Ink, Scene, Stroke};
use crate::text::{Line, Typesetter};
use crate::words::Words;

/// The mark at the edge of a bank towards which a slider is on. It is printed on the bank itself, so
/// it is drawn as it is in every language.
pub(super) const ON: &str = "ON";
/// From the middle of one way to the next, mm.
const PITCH: f64 = 8.6;
/// The slot that a slider moves in: across and along its travel, mm.
const SLOT: (f64, f64) = (4.4, 10.0);
/// How long a slider is along its travel, mm.
const SLIDER: f64 = 4.6;
/// From the body's ON edge to the slots, and from the slots to the other edge, mm. The words ON
/// and the way numbers stand there.
const MARGIN: f64 = 5.0;
/// What a standing bank is wider on each side, mm: ON is wider than high.
const ON_ROOM: f64 = 1.4;
/// From the edge of a standing bank to the middle of its numbers and of ON, mm.
const NUMBERS: f64 = MARGIN / 2.0 + ON_ROOM - 0.6;
/// How deep a bracket is, mm.
const BRACKET: f64 = 1.6;
/// From the bracket to the first words, mm.
const LEADER: f64 = 3.0;

/// The bank at a readable size in a drawing that is `width` mm wide: each slider at its shipped
/// position, each field bracketed and named with what its shipped positions mean.
pub fn switch_bank(bank: &Bank, words: &Words, set: &mut Typesetter, width: f64) -> Scene {
    let across = PITCH * f64::from(bank.ways()) + 3.0;
    let along = SLOT.1 + 2.0 * MARGIN;
    let title = words.switch_bank_title(&bank.code);
    let mut scene = Scene::new(Size::new(width, 0.0), title, description(bank, words));
    let height = match bank.on_side {
        Side::Up | Side::Down => lying(&mut scene, bank, words, set, Size::new(across, along)),
        Side::Left | Side::Right => {
            // The word ON is wider than high.
            standing(&mut scene, bank, words, set, Size::new(along + 2.0 * ON_ROOM, across))
        }
    };
    scene.size.height = height;
    scene
}

/// What the bank's drawing says, for a person who cannot see it.
fn description(bank: &Bank, words: &Words) -> String {
    let fields: Vec<String> = bank
        .fields
        .iter()
        .map(|field| {
            let (head, meaning) = field_words(field, words);
            let ways = usize::from(field.last.saturating_sub(field.first)) + 1;
            // The phrase has the full stop, because a meaning in own words may come without.
            let meaning = meaning.strip_suffix('.').unwrap_or(&meaning);
            words.field_described(ways, &head, meaning)
        })
        .collect();
    words.switch_bank_described(bank.on_side, &fields.join(" "))
}

/// `1 off, 2 on` and what that means.
fn field_words(field: &Field, words: &Words) -> (String, String) {
    if field.unused() {
        return (field.label(), words.ways_not_used());
    }
    let head = words.way_positions(field, &field.shipped);
    let meaning = match field.shipped_meaning() {
        Some(Meaning::Allowance(number)) => words.allowance_meaning(usize::from(*number)),
        Some(Meaning::Words(own)) => own.clone(),
        None => String::new(),
    };
    let meaning = match &field.effect {
        Some(effect) => words.field_means(effect, &meaning),
        None => meaning,
    };
    (head, meaning)
}

/// ON at the top or the bottom: the ways stand side by side, and the names hang below or above
/// like stairs, so that no leader crosses a name. Gives the height.
fn lying(scene: &mut Scene, bank: &Bank, words: &Words, set: &mut Typesetter, body: Size) -> f64 {
    let names_below = bank.on_side == Side::Up;
    let left = 1.0;
    let ways = bank.ways();
    // Way 1 is at the left with ON up; a half turn puts it at the right.
    let x_of = |way: u8| {
        let steps = f64::from(if names_below { way - 1 } else { ways - way });
        left + 1.5 + PITCH * (steps + 0.5)
    };
    let mut fields: Vec<&Field> = bank.fields.iter().collect();
    // The field at the right is named nearest to the bank, so its leader is the shortest.
    fields.sort_by(|a, b| x_of(b.first).total_cmp(&x_of(a.first)));
    let middles: Vec<f64> = fields.iter().map(|f| (x_of(f.first) + x_of(f.last)) / 2.0).collect();
    let names: Vec<Vec<Arc<Line>>> = fields
        .iter()
        .zip(&middles)
        .map(|(field, x)| name_lines(field, words, set, scene.size.width - x - LEADER - 1.0))
        .collect();
    let names_height: f64 = names.iter().map(|lines| mark::stack_height(lines) + 1.0).sum();
    let top = if names_below { 1.0 } else { names_height + LEADER + BRACKET + 1.5 };
    let area = Rect::at(Point::new(left, top), body);
    draw_body(scene, area);
    for field in &bank.fields {
        for (index, on) in field.shipped.iter().enumerate() {
            let way = field.first + index as u8;
            way_at(x_of(way), *on, field).draw(scene, area, bank.on_side);
            let number = set.line(&way.to_string(), look::SMALL_BOLD);
            let y = if names_below { area.bottom - MARGIN / 2.0 } else { area.top + MARGIN / 2.0 };
            mark::words_over(scene, Point::new(x_of(way), y), number);
        }
    }
    let on = set.line(ON, look::CODE);
    let on_y = if names_below { area.top + MARGIN / 2.0 } else { area.bottom - MARGIN / 2.0 };
    mark::words_from(scene, Point::new(area.left + 2.0, on_y), on);
    // Downwards below the bank, upwards above it.
    let (edge, down) = if names_below { (area.bottom, 1.0) } else { (area.top, -1.0) };
    let mut reach = LEADER;
    for ((field, middle), lines) in fields.iter().zip(&middles).zip(&names) {
        let (a, b) =
            (x_of(field.first).min(x_of(field.last)), x_of(field.first).max(x_of(field.last)));
        let half = SLOT.0 / 2.0;
        let near = edge + down * 0.8;
        let far = edge + down * (0.8 + BRACKET);
        mark::rule(
            scene,
            &[
                Point::new(a - half, near),
                Point::new(a - half, far),
                Point::new(b + half, far),
                Point::new(b + half, near),
            ],
            look::EDGE,
        );
        let height = mark::stack_height(lines);
        let first = lines.first().map_or(0.0, |line| line.height());
        let block_top = if names_below { far + reach } else { far - reach - height };
        let level = block_top + first / 2.0;
        mark::rule(
            scene,
            &[
                Point::new(*middle, far),
                Point::new(*middle, level),
                Point::new(middle + LEADER - 0.8, level),
            ],
            look::FINE,
        );
        mark::stack(scene, Point::new(middle + LEADER, block_top), lines);
        reach += height + 1.0;
    }
    if names_below { area.bottom + 0.8 + BRACKET + reach + 0.5 } else { area.bottom + 1.0 }
}

/// ON at the left or the right: the ways stand one below the other, and each field is named
/// beside its bracket, on the side away from ON. Gives the height.
fn standing(
    scene: &mut Scene,
    bank: &Bank,
    words: &Words,
    set: &mut Typesetter,
    body: Size,
) -> f64 {
    let names_left = bank.on_side == Side::Right;
    let ways = bank.ways();
    let room = scene.size.width - body.width - BRACKET - LEADER - 4.0;
    // A quarter turn clockwise puts way 1 at the top; the other way round, at the bottom.
    let steps_of = |way: u8| f64::from(if names_left { way - 1 } else { ways - way });
    let mut fields: Vec<&Field> = bank.fields.iter().collect();
    fields.sort_by(|a, b| steps_of(a.first).total_cmp(&steps_of(b.first)));
    let names: Vec<Vec<Arc<Line>>> =
        fields.iter().map(|field| name_lines(field, words, set, room.min(110.0))).collect();
    let top = 1.0;
    let widest = names.iter().map(|lines| mark::stack_width(lines)).fold(0.0, f64::max);
    let left = if names_left { widest + LEADER + BRACKET + 2.3 } else { 1.0 };
    let area = Rect::at(Point::new(left, top), body);
    let y_of = |way: u8| top + 1.5 + PITCH * (steps_of(way) + 0.5);
    draw_body(scene, area);
    for field in &bank.fields {
        for (index, on) in field.shipped.iter().enumerate() {
            let way = field.first + index as u8;
            way_at(y_of(way), *on, field).draw(scene, area, bank.on_side);
            let number = set.line(&way.to_string(), look::SMALL_BOLD);
            let x = if names_left { area.left + NUMBERS } else { area.right - NUMBERS };
            mark::words_over(scene, Point::new(x, y_of(way)), number);
        }
    }
    let on = set.line(ON, look::CODE);
    let on_x = if names_left { area.right - NUMBERS } else { area.left + NUMBERS };
    mark::words_over(scene, Point::new(on_x, area.top + 2.6), on);
    let (edge, out) = if names_left { (area.left, -1.0) } else { (area.right, 1.0) };
    let mut below = 0.0_f64;
    for (field, lines) in fields.iter().zip(&names) {
        let (a, b) =
            (y_of(field.first).min(y_of(field.last)), y_of(field.first).max(y_of(field.last)));
        let half = SLOT.0 / 2.0;
        let near = edge + out * 0.8;
        let far = edge + out * (0.8 + BRACKET);
        mark::rule(
            scene,
            &[
                Point::new(near, a - half),
                Point::new(far, a - half),
                Point::new(far, b + half),
                Point::new(near, b + half),
            ],
            look::EDGE,
        );
        let middle = (a + b) / 2.0;
        let height = mark::stack_height(lines);
        // Long words move down rather than over the ones above them.
        let block_top = (middle - height / 2.0).max(below);
        below = block_top + height + 0.6;
        let level = block_top + height / 2.0;
        let turn = far + out * (LEADER - 1.6);
        mark::rule(
            scene,
            &[
                Point::new(far, middle),
                Point::new(turn, middle),
                Point::new(turn, level),
                Point::new(far + out * (LEADER - 0.6), level),
            ],
            look::FINE,
        );
        for (index, line) in lines.iter().enumerate() {
            let y = block_top
                + lines[..index].iter().map(|above| above.height()).sum::<f64>()
                + line.height() / 2.0;
            let at = Point::new(far + out * LEADER, y);
            if names_left {
                mark::words_to(scene, at, Arc::clone(line));
            } else {
                mark::words_from(scene, at, Arc::clone(line));
            }
        }
    }
    (area.bottom + 1.0).max(below + 0.5)
}

/// The name of a field: its ways and shipped positions in bold, then what they mean.
fn name_lines(field: &Field, words: &Words, set: &mut Typesetter, width: f64) -> Vec<Arc<Line>> {
    let (head, meaning) = field_words(field, words);
    let width = width.max(20.0);
    let mut lines = set.lines(&head, look::SMALL_BOLD, width);
    lines.extend(set.lines(&meaning, look::SMALL, width));
    lines
}

fn draw_body(scene: &mut Scene, area: Rect) {
    scene.shape(Path::rounded(area, 1.0), Some(look::HEAD_TINT), Some(look::EDGE));
}

/// A way of a field in the size of this drawing.
fn way_at(middle: f64, on: bool, field: &Field) -> Way {
    Way { middle, on, unused: field.unused(), slot: SLOT, slider: SLIDER }
}

/// One way of a bank, to be drawn.
pub(super) struct Way {
    /// Its x with ON up or down, its y with ON left or right.
    pub middle: f64,
    /// Where its slider is.
    pub on: bool,
    /// Whether it does nothing.
    pub unused: bool,
    /// Its slot across and along the slider's travel, mm.
    pub slot: (f64, f64),
    /// How long the slider is along its travel, mm.
    pub slider: f64,
}

impl Way {
    /// Draws it in a bank's body; gives its slot.
    pub fn draw(&self, scene: &mut Scene, body: Rect, on_side: Side) -> Rect {
        let (across, along) = self.slot;
        let lying = matches!(on_side, Side::Up | Side::Down);
        let slot = slot(scene, self.middle, self.slot, body, on_side);
        // Towards the ON edge if it is on.
        let towards = if self.on { 1.0 } else { -1.0 };
        let travel = towards * (along - self.slider) / 2.0;
        let (dx, dy) = match on_side {
            Side::Up => (0.0, -travel),
            Side::Down => (0.0, travel),
            Side::Left => (-travel, 0.0),
            Side::Right => (travel, 0.0),
        };
        let size =
            if lying { Size::new(across, self.slider) } else { Size::new(self.slider, across) };
        let slider = Rect::around(slot.middle().moved(dx, dy), size).grown(-0.5);
        if self.unused {
            mark::hatch(scene, slider, 1.0);
            scene.shape(Path::rect(slider), None, Some(Stroke::solid(Ink::BLACK, 0.2)));
        } else {
            scene.shape(Path::rect(slider), Some(Ink::BLACK), None);
        }
        slot
    }
}

/// Draws the empty slot of a way in a bank's body: its place along the bank, its size across and
/// along the slider's travel. Gives where it is.
fn slot(
    scene: &mut Scene,
    middle: f64,
    (across, along): (f64, f64),
    body: Rect,
    on_side: Side,
) -> Rect {
    let area = match on_side {
        Side::Up | Side::Down => {
            Rect::around(Point::new(middle, body.middle().y), Size::new(across, along))
        }
        Side::Left | Side::Right => {
            Rect::around(Point::new(body.middle().x, middle), Size::new(along, across))
        }
    };
    scene.shape(Path::rounded(area, 0.5), Some(Ink::WHITE), Some(look::EDGE));
    area
}

/// The bank as it is mounted, without its sliders: a person draws where they stand. Its ways stand
/// closer together if `width` mm are not enough for their usual distance.
pub fn blank_bank(bank: &Bank, words: &Words, set: &mut Typesetter, width: f64) -> Scene {
    let ways = bank.ways();
    let code = set.line(&bank.code, look::CODE);
    let room = width - code.width - 5.2;
    let pitch = (room / f64::from(ways.max(1))).clamp(SLOT.0 + 0.6, PITCH);
    let across = pitch * f64::from(ways) + 3.0;
    let along = SLOT.1 + 2.0 * MARGIN;
    let lying = matches!(bank.on_side, Side::Up | Side::Down);
    let body =
        if lying { Size::new(across, along) } else { Size::new(along + 2.0 * ON_ROOM, across) };
    let area = Rect::at(Point::new(code.width + 1.6, 0.3), body);
    let description = words.blank_bank_described(&bank.code, usize::from(ways), bank.on_side);
    let size = Size::new(area.right + 0.3, area.bottom + 0.3);
    let mut scene = Scene::new(size, words.switch_bank_title(&bank.code), description);
    scene.text(Point::new(0.0, area.top + code.ascent), code);
    draw_body(&mut scene, area);
    let on = set.line(ON, look::CODE);
    let on_at = match bank.on_side {
        Side::Up => Point::new(area.left + 2.0 + on.width / 2.0, area.top + MARGIN / 2.0),
        Side::Down => Point::new(area.left + 2.0 + on.width / 2.0, area.bottom - MARGIN / 2.0),
        Side::Left => Point::new(area.left + NUMBERS, area.top + 2.6),
        Side::Right => Point::new(area.right - NUMBERS, area.top + 2.6),
    };
    mark::words_over(&mut scene, on_at, on);
    for way in 1..=ways {
        // Way 1 is at the left with ON up, and the bank turns as a whole.
        let step = match bank.on_side {
            Side::Up | Side::Right => way - 1,
            Side::Down | Side::Left => ways - way,
        };
        let start = if lying { area.left } else { area.top };
        let middle = start + 1.5 + pitch * (f64::from(step) + 0.5);
        slot(&mut scene, middle, SLOT, area, bank.on_side);
        let number = set.line(&way.to_string(), look::SMALL_BOLD);
        let at = match bank.on_side {
            Side::Up => Point::new(middle, area.bottom - MARGIN / 2.0),
            Side::Down => Point::new(middle, area.top + MARGIN / 2.0),
            Side::Left => Point::new(area.right - NUMBERS, middle),
            Side::Right => Point::new(area.left + NUMBERS, middle),
        };
        mark::words_over(&mut scene, at, number);
    }
    scene
}
