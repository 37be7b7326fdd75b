//! The switch banks as they must stand for a job, small and side by side.

use std::sync::Arc;

use super::bank::{ON, Way};
use super::look;
use super::mark;
use crate::board::{Bank, Board};
use crate::decide::BankSetting;
use crate::geometry::{Path, Point, Rect, Side, Size};
use crate::scene::{Scene, Stroke};
use crate::text::{Line, Style, Typesetter};
use crate::words::Words;

/// From the middle of one way to the next, mm.
const PITCH: f64 = 5.4;
/// A slot across and along its slider's travel, and how long the slider is, mm.
const SLOT: (f64, f64) = (3.2, 6.0);
const SLIDER: f64 = 2.9;
/// Room at the edges for ON and for the numbers, mm.
const MARGIN: f64 = 4.5;
/// The same at a standing bank, where ON is wider than high, mm.
const WIDE_MARGIN: f64 = 7.2;
/// The code of a bank; ON and the numbers, which are read at arm's length too.
const CODE: Style = Style::bold(11.0);
const MARK: Style = Style::bold(9.0);
/// Between banks, mm.
const GAP: f64 = 7.0;

/// All banks of a board with every way where it must stand, `width` mm wide; wider only if a bank
/// is. A way that is moved from where it is shipped has a thick frame.
pub fn switch_settings(
    board: &Board,
    settings: &[BankSetting],
    words: &Words,
    set: &mut Typesetter,
    width: f64,
) -> Scene {
    let mut scene = Scene::new(Size::new(width, 0.0), words.switches_title(), String::new());
    let (mut x, mut y, mut height) = (0.0, 0.0, 0.0_f64);
    for setting in settings {
        let drawn = bank(&board[setting.bank], setting, words, set);
        if x > 0.0 && x + drawn.size.width > width {
            (x, y, height) = (0.0, y + height + GAP / 2.0, 0.0);
        }
        if !scene.description.is_empty() {
            scene.description.push(' ');
        }
        scene.description.push_str(&drawn.description);
        let size = drawn.size;
        mark::place(&mut scene, drawn, Point::new(x, y));
        scene.size.width = scene.size.width.max(x + size.width);
        x += size.width + GAP;
        height = height.max(size.height);
    }
    scene.size.height = y + height;
    scene
}

/// One bank as it is mounted.
fn bank(bank: &Bank, setting: &BankSetting, words: &Words, set: &mut Typesetter) -> Scene {
    let ways = bank.ways();
    let long = PITCH * f64::from(ways) + 1.6;
    let lying = matches!(bank.on_side, Side::Up | Side::Down);
    let margin = if lying { MARGIN } else { WIDE_MARGIN };
    let wide = SLOT.1 + 2.0 * margin;
    let body = if lying { Size::new(long, wide) } else { Size::new(wide, long) };
    let code = set.line(&bank.code, CODE);
    let area = Rect::at(Point::new(code.width + 1.2, 0.3), body);
    let size = Size::new(area.right + 0.3, area.bottom + 0.3);
    let mut scene = Scene::new(size, bank.code.clone(), description(bank, setting, words));
    scene.text(Point::new(0.0, code.ascent + 0.6), code);
    scene.shape(Path::rounded(area, 0.8), Some(look::HEAD_TINT), Some(look::EDGE));

    let edges = Edges { area, side: bank.on_side, margin };
    let on = set.line(ON, MARK);
    // ON stands at the first way of its edge.
    let start = if lying { area.left } else { area.top };
    let first = if lying { start + 0.8 + on.width / 2.0 } else { start + 0.8 + on.height() / 2.0 };
    mark::words_over(&mut scene, edges.on(first), on);
    let moved_edge = Stroke { width: 0.9, ..look::EDGE };
    for field in &bank.fields {
        for way in field.first..=field.last {
            let index = usize::from(way.saturating_sub(1));
            let on = setting.positions.get(index).copied().unwrap_or_default();
            // Way 1 is at the left with ON up, and the bank turns as a whole.
            let step = match bank.on_side {
                Side::Up | Side::Right => way.saturating_sub(1),
                Side::Down | Side::Left => ways.saturating_sub(way),
            };
            let middle = start + 0.8 + PITCH * (f64::from(step) + 0.5);
            let drawn = Way { middle, on, unused: field.unused(), slot: SLOT, slider: SLIDER };
            let slot = drawn.draw(&mut scene, area, bank.on_side);
            if setting.moved.contains(&way) {
                scene.shape(Path::rounded(slot.grown(0.35), 0.6), None, Some(moved_edge));
            }
            let number: Arc<Line> = set.line(&way.to_string(), MARK);
            mark::words_over(&mut scene, edges.off(middle), number);
        }
    }
    scene
}

/// Where words stand at the two long edges of a bank.
struct Edges {
    area: Rect,
    side: Side,
    margin: f64,
}

impl Edges {
    /// At the edge where ON is printed, so far along it.
    fn on(&self, along: f64) -> Point {
        self.at(self.side, along)
    }

    /// At the other edge.
    fn off(&self, along: f64) -> Point {
        let side = match self.side {
            Side::Up => Side::Down,
            Side::Down => Side::Up,
            Side::Left => Side::Right,
            Side::Right => Side::Left,
        };
        self.at(side, along)
    }

    fn at(&self, side: Side, along: f64) -> Point {
        let Rect { left, top, right, bottom } = self.area;
        let half = self.margin / 2.0;
        match side {
            Side::Up => Point::new(along, top + half),
            Side::Down => Point::new(along, bottom - half),
            Side::Left => Point::new(left + half, along),
            Side::Right => Point::new(right - half, along),
        }
    }
}

fn description(bank: &Bank, setting: &BankSetting, words: &Words) -> String {
    let ways: Vec<String> = setting
        .positions
        .iter()
        .zip(1_u8..)
        .map(|(on, way)| {
            let number = usize::from(way);
            match setting.moved.contains(&way) {
                true => words.way_moved(number, *on),
                false => words.way_position(number, *on),
            }
        })
        .collect();
    words.switches_described(&bank.code, &words.commas(&ways))
}
