//! A switch bank: as it is shipped, and one small bank for each combination of its switches.
//!
//! With ON at the top, switch 1 is at the left (common practice for such banks); a bank that is
//! mounted another way round is that picture turned, with the words kept upright.

use super::look;
use super::mark;
use super::small_bank::{ON, SmallBank, WORD_GAP, description, slot};
use crate::board::{Allowance, Bank, Field, Meaning, Setting};
use crate::geometry::{Path, Point, Rect, Side, Size};
use crate::scene::Scene;
use crate::text::Typesetter;
use crate::words::Words;

/// From the middle of one switch of a blank bank to the next, mm.
const PITCH: f64 = 8.6;
/// The slot that a slider of a blank bank moves in: across and along its travel, mm.
const SLOT: (f64, f64) = (4.4, 10.0);
/// From the body's ON edge to the slots, and from the slots to the other edge, mm. The words ON
/// and the switch numbers stand there.
const MARGIN: f64 = 5.0;
/// What a standing bank is wider on each side, mm: ON is wider than high.
const ON_ROOM: f64 = 1.4;
/// From the edge of a standing bank to the middle of its numbers and of ON, mm.
const NUMBERS: f64 = MARGIN / 2.0 + ON_ROOM - 0.6;
/// Between two fields, or two rows of combinations, mm.
const ROW_GAP: f64 = 2.4;
/// Between two columns of combinations, mm.
const COLUMN_GAP: f64 = 4.0;
/// The most lines that a meaning is broken into, if fewer columns can help it.
const MOST_LINES: usize = 3;

/// The bank in one drawing or more, `width` mm wide and about `height` mm high: first as it is
/// shipped, then for each field a small bank for every combination with its meaning, in the order
/// of the meanings.
pub fn switch_bank(
    bank: &Bank,
    words: &Words,
    set: &mut Typesetter,
    width: f64,
    height: f64,
) -> Vec<Scene> {
    let mut strips = vec![(opening(bank, words, set, width), true)];
    let mut waiting: Option<Scene> = None;
    for field in &bank.fields {
        let half = (width - COLUMN_GAP) / 2.0;
        if let Some(block) = narrow_block(bank, field, words, set, half) {
            match waiting.take() {
                None => waiting = Some(block),
                Some(first) => strips.push((side_by_side(first, Some(block), width), true)),
            }
            continue;
        }
        if let Some(first) = waiting.take() {
            strips.push((side_by_side(first, None, width), true));
        }
        let rows = wide_block(bank, field, words, set, width);
        strips.extend(rows.into_iter().enumerate().map(|(index, row)| (row, index == 0)));
    }
    if let Some(first) = waiting {
        strips.push((side_by_side(first, None, width), true));
    }
    pages(bank, strips, words, width, height)
}

/// The strips one below the other, each with whether it begins a field; a new drawing begins where
/// the next one would pass `height`.
fn pages(
    bank: &Bank,
    strips: Vec<(Scene, bool)>,
    words: &Words,
    width: f64,
    height: f64,
) -> Vec<Scene> {
    let title = words.switch_bank_title(&bank.code);
    let empty = || Scene::new(Size::new(width, 0.0), title.clone(), String::new());
    let mut all = Vec::new();
    let mut page = empty();
    for (strip, begins) in strips {
        if page.size.height > 0.0 && page.size.height + ROW_GAP + strip.size.height > height {
            all.push(std::mem::replace(&mut page, empty()));
        }
        if page.size.height > 0.0 {
            page.size.height += ROW_GAP;
            page.description.push(' ');
            if begins {
                let y = page.size.height - ROW_GAP / 2.0;
                mark::rule(&mut page, &[Point::new(0.0, y), Point::new(width, y)], look::FINE);
            }
        }
        page.description.push_str(&strip.description);
        let at = Point::new(0.0, page.size.height);
        page.size.height += strip.size.height;
        mark::place(&mut page, strip, at);
    }
    all.push(page);
    let count = all.len();
    if count > 1 {
        for (index, scene) in all.iter_mut().enumerate() {
            scene.title = words.switch_bank_title_numbered(&bank.code, index + 1, count);
        }
    }
    all
}

/// The whole bank as it is shipped.
fn opening(bank: &Bank, words: &Words, set: &mut Typesetter, width: f64) -> Scene {
    let shipped = bank.shipped();
    let small = SmallBank {
        on_side: bank.on_side,
        first: 1,
        positions: &shipped,
        unused: &|way| bank.fields.iter().any(|f| f.unused() && f.first <= way && way <= f.last),
        moved: &[],
    };
    let drawn = small.draw(set);
    let text = words.switch_bank_shipped(bank.on_side);
    let left = drawn.size.width + WORD_GAP;
    let lines = set.lines(&text, look::NOTE, (width - left).max(20.0));
    let height = drawn.size.height.max(mark::stack_height(&lines));
    let positions = description(&shipped, 1, &[], words);
    let described = words.switch_bank_described(&bank.code, bank.on_side, &positions);
    let mut scene = Scene::new(Size::new(width, height), "", described);
    mark::place(&mut scene, drawn, Point::default());
    mark::stack(&mut scene, Point::new(left, 0.3), &lines);
    scene
}

/// A field of one switch in half of the width; a field of more needs the whole.
fn narrow_block(
    bank: &Bank,
    field: &Field,
    words: &Words,
    set: &mut Typesetter,
    width: f64,
) -> Option<Scene> {
    if field.settings.len() > 2 {
        return None;
    }
    let mut scene = heading(field, words, set, width);
    let settings = field.by_meaning();
    let Some(cells) = Cells::of(bank, &settings, words, set, width) else { return Some(scene) };
    if !cells.readable {
        return None;
    }
    for row in settings.chunks(cells.columns) {
        cells.row(&mut scene, bank, field, row, words, set);
    }
    Some(scene)
}

/// A field in the whole width, one scene for each row of combinations; the first has the heading.
fn wide_block(
    bank: &Bank,
    field: &Field,
    words: &Words,
    set: &mut Typesetter,
    width: f64,
) -> Vec<Scene> {
    let mut scene = heading(field, words, set, width);
    let settings = field.by_meaning();
    let Some(cells) = Cells::of(bank, &settings, words, set, width) else { return vec![scene] };
    let mut rows = Vec::new();
    for row in settings.chunks(cells.columns) {
        cells.row(&mut scene, bank, field, row, words, set);
        let next = Scene::new(Size::new(width, 0.0), "", "");
        rows.push(std::mem::replace(&mut scene, next));
    }
    rows
}

/// The switches of a field and what they are for.
fn heading(field: &Field, words: &Words, set: &mut Typesetter, width: f64) -> Scene {
    let text = heading_words(field, words);
    let lines = set.lines(&text, look::NOTE_BOLD, width);
    let mut scene = Scene::new(Size::new(width, mark::stack_height(&lines)), "", text);
    mark::stack(&mut scene, Point::default(), &lines);
    scene
}

fn heading_words(field: &Field, words: &Words) -> String {
    let ways = usize::from(field.last.saturating_sub(field.first)) + 1;
    match &field.effect {
        _ if field.unused() => words.switches_not_used(ways, &field.label()),
        Some(effect) => words.switches_and_effect(ways, &field.label(), effect),
        None => words.switches_named(ways, &field.label()),
    }
}

fn meaning(setting: &Setting, words: &Words) -> String {
    match &setting.meaning {
        Meaning::Allowance(Allowance::Loads(count)) => words.allowance_alone(usize::from(*count)),
        Meaning::Allowance(Allowance::Amps(amps)) => words.amps(*amps),
        Meaning::Layout(Some(layout)) => words.layout_meant(&layout.to_string()),
        Meaning::Layout(None) => words.no_layout_meant(),
        Meaning::Words(own) => own.clone(),
    }
}

/// The grid of a field's combinations: a small bank, and what it means beside it.
struct Cells {
    columns: usize,
    cell: f64,
    /// Width of the meaning.
    room: f64,
    bank: f64,
    /// Whether no meaning is broken into more than a few lines.
    readable: bool,
}

impl Cells {
    /// As many columns as leave every meaning readable; `None` if there is nothing to set.
    fn of(
        bank: &Bank,
        settings: &[&Setting],
        words: &Words,
        set: &mut Typesetter,
        width: f64,
    ) -> Option<Self> {
        let ways = settings.first()?.positions.len();
        let bank = SmallBank::size(ways, bank.on_side).width + 0.6;
        let all: Vec<String> = settings.iter().map(|setting| meaning(setting, words)).collect();
        let mut best = None;
        // There are two, four, eight … combinations, so no row of these has a gap.
        for columns in [1, 2, 4].into_iter().filter(|columns| *columns <= settings.len()) {
            let cell = (width + COLUMN_GAP) / columns as f64;
            let room = cell - COLUMN_GAP - bank - WORD_GAP;
            let shipped = words.legend_shipped();
            let texts = all.iter().map(|text| (text, look::NOTE));
            // A word that is wider than its column would run into the next one, or be broken.
            let readable = texts.chain([(&shipped, look::NOTE_BOLD)]).all(|(text, style)| {
                let mut words = text.split_whitespace();
                words.all(|word| set.line(word, style).width <= room)
                    && set.lines(text, style, room.max(8.0)).len() <= MOST_LINES
            });
            if readable || best.is_none() {
                best = Some(Self { columns, cell, room: room.max(8.0), bank, readable });
            }
        }
        best
    }

    /// One row of combinations below what the scene holds.
    fn row(
        &self,
        scene: &mut Scene,
        bank: &Bank,
        field: &Field,
        settings: &[&Setting],
        words: &Words,
        set: &mut Typesetter,
    ) {
        let top = scene.size.height + 0.8;
        let mut height = 0.0_f64;
        for (index, setting) in settings.iter().enumerate() {
            let small = SmallBank {
                on_side: bank.on_side,
                first: field.first,
                positions: &setting.positions,
                unused: &|_| false,
                moved: &[],
            };
            let drawn = small.draw(set);
            let left = self.cell * index as f64;
            let text = meaning(setting, words);
            let mut lines = set.lines(&text, look::NOTE, self.room);
            let shipped = setting.positions == field.shipped;
            if shipped {
                lines.extend(set.lines(&words.legend_shipped(), look::NOTE_BOLD, self.room));
            }
            height = height.max(drawn.size.height).max(mark::stack_height(&lines));
            mark::place(scene, drawn, Point::new(left, top));
            mark::stack(scene, Point::new(left + self.bank + WORD_GAP, top + 0.3), &lines);
            let positions = description(&setting.positions, field.first, &[], words);
            // The phrase has the full stop, because a meaning in own words may come without.
            let text = text.strip_suffix('.').unwrap_or(&text);
            if !scene.description.is_empty() {
                scene.description.push(' ');
            }
            scene.description.push_str(&words.setting_described(&positions, text, shipped));
        }
        scene.size.height = top + height + 0.3;
    }
}

/// Two blocks in the halves of a strip.
fn side_by_side(first: Scene, second: Option<Scene>, width: f64) -> Scene {
    let mut scene = Scene::new(Size::new(width, first.size.height), "", first.description.clone());
    mark::place(&mut scene, first, Point::default());
    if let Some(second) = second {
        scene.size.height = scene.size.height.max(second.size.height);
        scene.description.push(' ');
        scene.description.push_str(&second.description);
        mark::place(&mut scene, second, Point::new((width + COLUMN_GAP) / 2.0, 0.0));
    }
    scene
}

fn draw_body(scene: &mut Scene, area: Rect) {
    scene.shape(Path::rounded(area, 1.0), Some(look::HEAD_TINT), Some(look::EDGE));
}

/// The bank as it is mounted, without its sliders: a person draws where they stand. Its ways stand
/// closer together if `width` mm are not enough for their usual distance.
pub fn blank_bank(bank: &Bank, words: &Words, set: &mut Typesetter, width: f64) -> Scene {
    let ways = bank.ways();
    let code = set.line(&bank.code, look::NAME);
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
    let on = set.line(ON, look::NOTE_BOLD);
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
        let number = set.line(&way.to_string(), look::NOTE_BOLD);
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
