//! What stands beside a component: rows of words and of small flags.

use std::sync::Arc;

use crate::figure::look;
use crate::geometry::{Path, Point, Rect, Size};
use crate::scene::{Dash, Ink, Item, Scene, Stroke};
use crate::text::{Line, Style};

/// White inside a flag, left and right of its words, mm.
const PAD: f64 = 0.7;
/// A flag is so much higher than its line of type, mm.
const TALL: f64 = 0.3;
/// Between two flags of a row, mm.
const NEXT: f64 = 0.6;
/// Between words and a flag, mm.
const SPACE: f64 = 0.9;
/// Between two rows if one has a flag, mm.
const BETWEEN: f64 = 0.4;

/// How a flag is drawn. What it means does not hang on its colour: its letter says it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Face {
    /// White words on the colour: where something is.
    Filled(Ink),
    /// Black words in a frame of the colour: what is here.
    Framed(Ink),
    /// Words in a broken frame: where something may go.
    Dashed,
}

/// A part of a row.
#[derive(Clone, Debug)]
pub enum Piece {
    /// Words without a frame.
    Words(Arc<Line>),
    /// Words in a frame.
    Flag(Arc<Line>, Face),
}

impl Piece {
    fn size(&self) -> Size {
        match self {
            Piece::Words(line) => Size::new(line.width, line.height()),
            Piece::Flag(line, _) => flag_size(line),
        }
    }
}

/// Rows of pieces, one under another.
#[derive(Clone, Debug, Default)]
pub struct Wording {
    /// The rows, from the top.
    pub rows: Vec<Vec<Piece>>,
}

impl Wording {
    /// Lines of words.
    pub fn lines(lines: impl IntoIterator<Item = Arc<Line>>) -> Self {
        Self { rows: lines.into_iter().map(|line| vec![Piece::Words(line)]).collect() }
    }

    /// One row.
    pub fn row(pieces: impl IntoIterator<Item = Piece>) -> Self {
        Self { rows: vec![pieces.into_iter().collect()] }
    }

    /// Width and height, mm.
    pub fn size(&self) -> Size {
        let sizes = self.rows.iter().map(|row| row_size(row));
        let gaps = BETWEEN * self.rows.len().saturating_sub(1) as f64;
        let whole = sizes.fold(Size::default(), |all, row| {
            Size::new(all.width.max(row.width), all.height + row.height)
        });
        Size::new(whole.width, whole.height + gaps)
    }

    /// Draws it into `area`, towards its right edge if it stands left of what it names.
    pub fn draw(&self, scene: &mut Scene, area: Rect, from_right: bool, ink: Ink) {
        let mut top = area.top;
        for row in &self.rows {
            let size = row_size(row);
            let left = if from_right { area.right - size.width } else { area.left };
            let (mut x, mut before) = (left, None);
            for piece in row {
                x += before.map_or(0.0, |before| gap(before, piece));
                let own = piece.size();
                let at = Point::new(x, top + (size.height - own.height) / 2.0);
                draw_piece(scene, piece, Rect::at(at, own), ink);
                x += own.width;
                before = Some(piece);
            }
            top += size.height + BETWEEN;
        }
    }
}

fn gap(before: &Piece, after: &Piece) -> f64 {
    match (before, after) {
        (Piece::Flag(..), Piece::Flag(..)) => NEXT,
        _ => SPACE,
    }
}

fn row_size(row: &[Piece]) -> Size {
    let gaps: f64 = row.iter().zip(row.iter().skip(1)).map(|(a, b)| gap(a, b)).sum();
    let all = row.iter().map(Piece::size).fold(Size::default(), |all, piece| {
        Size::new(all.width + piece.width, all.height.max(piece.height))
    });
    Size::new(all.width + gaps, all.height)
}

/// The size of a flag with these words, mm.
pub fn flag_size(line: &Line) -> Size {
    Size::new(line.width + 2.0 * PAD, line.height() + TALL)
}

fn draw_piece(scene: &mut Scene, piece: &Piece, area: Rect, ink: Ink) {
    match piece {
        Piece::Words(line) => {
            let at = Point::new(area.left, area.top + line.ascent);
            scene.items.push(Item::Text { at, line: line.clone(), ink });
        }
        Piece::Flag(line, face) => draw_flag(scene, area, line, *face, ink),
    }
}

/// A flag in its area.
pub fn draw_flag(scene: &mut Scene, area: Rect, line: &Arc<Line>, face: Face, ink: Ink) {
    let dashed = Stroke { ink: look::FAINT, width: 0.25, dash: Dash::Broken { on: 70, off: 50 } };
    let (fill, stroke, words) = match face {
        Face::Filled(colour) => (colour, None, Ink::WHITE),
        Face::Framed(colour) => (Ink::WHITE, Some(Stroke::solid(colour, 0.35)), ink),
        Face::Dashed => (Ink::WHITE, Some(dashed), ink),
    };
    scene.shape(Path::rounded(area.grown(-0.15), 0.5), Some(fill), stroke);
    let middle = area.middle();
    let at = Point::new(middle.x - line.width / 2.0, middle.y + (line.ascent - line.descent) / 2.0);
    scene.items.push(Item::Text { at, line: line.clone(), ink: words });
}

/// Height of capitals and digits in the project's font, from its ascent: 668 of 950 units.
pub fn cap_height(ascent: f64) -> f64 {
    ascent * 668.0 / 950.0
}

/// The sizes of type on a plan.
#[derive(Clone, Copy, Debug)]
pub struct Type {
    /// Codes: what is looked for first.
    pub code: Style,
    /// What a header is called.
    pub title: Style,
    /// The same where it must be found fast.
    pub strong: Style,
    /// All else.
    pub small: Style,
}

impl Type {
    /// On the sheets of a board, read at a desk.
    pub const SHEET: Type = Type {
        code: Style::bold(9.0),
        title: Style::regular(8.5),
        strong: Style::bold(8.5),
        small: Style::regular(8.0),
    };
    /// On a lid insert, read at arm's length.
    pub const INSERT: Type = Type {
        code: Style::bold(9.0),
        title: Style::regular(9.0),
        strong: Style::bold(9.0),
        small: Style::regular(9.0),
    };
}
