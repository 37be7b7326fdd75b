//! Small switch banks: those of a job as they must be set, side by side.

use super::look;
use super::mark;
use super::small_bank::{SmallBank, description};
use crate::board::{Bank, Board};
use crate::decide::BankSetting;
use crate::geometry::{Point, Size};
use crate::scene::Scene;
use crate::text::Typesetter;
use crate::words::Words;

/// Between banks, mm.
const GAP: f64 = 7.0;

/// All banks of a board with every switch as it must be set, `width` mm wide; wider only if a bank
/// is. A switch that is moved from where it is shipped has a thick frame.
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

/// One bank as it is mounted, with its name.
fn bank(bank: &Bank, setting: &BankSetting, words: &Words, set: &mut Typesetter) -> Scene {
    let code = set.line(&bank.code, look::NAME);
    let small = SmallBank {
        on_side: bank.on_side,
        first: 1,
        positions: &setting.positions,
        unused: &|way| bank.fields.iter().any(|f| f.unused() && f.first <= way && way <= f.last),
        moved: &setting.moved,
    };
    let drawn = small.draw(set);
    let left = code.width + 1.2;
    let size = Size::new(left + drawn.size.width, drawn.size.height.max(code.height() + 0.6));
    let positions = description(&setting.positions, 1, &setting.moved, words);
    let described = words.switches_described(&bank.code, &positions);
    let mut scene = Scene::new(size, bank.code.clone(), described);
    scene.text(Point::new(0.0, code.ascent + 0.6), code);
    mark::place(&mut scene, drawn, Point::new(left, 0.0));
    scene
}
