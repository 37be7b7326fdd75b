//! What the flags, edges and lines of the board plan mean.

use super::LeadKind;
use super::colour::group_colour;
use super::components::KEY;
use super::draw::{edge_of, stroke};
use super::setup::Show;
use super::wording::{Face, Piece, Wording};
use crate::board::{Board, JumperId};
use crate::figure::{look, mark};
use crate::geometry::{Path, Point, Rect, Side, Size};
use crate::scene::{Ink, Scene, Stroke};
use crate::text::Typesetter;
use crate::words::Words;

/// Between a sample and its meaning, mm.
const AFTER: f64 = 1.6;
/// Between entries, mm.
const GAP: f64 = 5.0;
/// White space above the first row and between rows, mm.
const ABOVE: f64 = 1.4;
/// The body of a sample socket or bank, mm.
const BODY: Size = Size::new(7.0, 3.6);

/// What a plan shows that needs an explanation.
#[derive(Clone, Copy, Debug, Default)]
pub struct Shown {
    /// Tags stand at tabs.
    pub tags: bool,
    /// A jumper's lead is told by its flags alone.
    pub undrawn: bool,
    /// Broken frames say where a jumper may go.
    pub may_go: bool,
    /// The picture shows a part of the board.
    pub part: bool,
    /// A lead of this kind is drawn.
    pub moved: bool,
}

/// A sample of each kind of flag, line and edge that the plan has, with its meaning, in rows.
pub fn legend(
    board: &Board,
    show: Show<'_>,
    shown: Shown,
    width: f64,
    words: &Words,
    set: &mut Typesetter,
) -> Scene {
    let sizes = show.type_sizes();
    let mut entries: Vec<(Sample, String)> = Vec::new();
    let setup = match show {
        Show::Board => None,
        Show::Job(setup) => Some(setup),
    };
    // The first jumper that can move explains the flags with its own letters.
    let jumper = board.jumpers.iter().enumerate().find(|(_, jumper)| jumper.groups.len() > 1);
    if let Some((index, jumper)) = jumper {
        let here = setup.map_or(jumper.shipped, |setup| setup.group(board, JumperId(index)));
        let letter = set.line(&board[here].code, sizes.code);
        let flag = Piece::Flag(letter, Face::Filled(group_colour(board, here)));
        entries
            .push((Sample::Wording(Wording::row([flag])), words.legend_group(&board[here].code)));
        if setup.is_none() && shown.may_go {
            let others = jumper.groups.iter().filter(|group| **group != here);
            let others: Vec<&str> = others.map(|group| board[*group].code.as_str()).collect();
            let frame = Piece::Flag(set.line(&others.join(" "), sizes.small), Face::Dashed);
            entries.push((Sample::Wording(Wording::row([frame])), words.legend_may_go()));
        }
        if shown.tags {
            let tag = set.line(&jumper.code, sizes.small);
            let tag = Piece::Flag(tag, Face::Framed(group_colour(board, here)));
            entries.push((Sample::Wording(Wording::row([tag])), words.legend_tag(&jumper.code)));
        }
    }
    if shown.moved {
        entries.push((Sample::Moved, words.legend_moved()));
    }
    if let Some(setup) = setup
        && board.header_ids().any(|header| setup.device(header).is_none())
    {
        entries.push((Sample::Empty, words.leave_empty()));
    }
    if board.headers.iter().any(|h| h.key.is_some()) {
        entries.push((Sample::Key, words.legend_key()));
    }
    if setup.is_none() && !board.banks.is_empty() {
        entries.push((Sample::On, words.legend_on()));
    }
    if shown.undrawn {
        entries.push((Sample::None, words.legend_flags_alone()));
    }
    if shown.part {
        entries.push((Sample::None, words.legend_part_of_board()));
    }

    let mut scene = Scene::new(Size::new(width, 0.0), words.legend_title(), "");
    let (mut x, mut y, mut row) = (0.0, ABOVE, 0.0_f64);
    for (sample, meaning) in entries {
        let size = sample.size();
        let after = if size.width > 0.0 { size.width + AFTER } else { 0.0 };
        let lines = set.lines(&meaning, sizes.small, width - after);
        let wide = after + mark::stack_width(&lines);
        let high = mark::stack_height(&lines).max(size.height);
        if x > 0.0 && x + wide > width {
            (x, y, row) = (0.0, y + row + ABOVE, 0.0);
        }
        sample.draw(&mut scene, Point::new(x, y), high);
        let top = y + (high - mark::stack_height(&lines)) / 2.0;
        mark::stack(&mut scene, Point::new(x + after, top), &lines);
        row = row.max(high);
        x += wide + GAP;
    }
    scene.size.height = if scene.items.is_empty() { 0.0 } else { y + row };
    scene
}

enum Sample {
    Wording(Wording),
    Moved,
    Empty,
    Key,
    On,
    None,
}

impl Sample {
    fn size(&self) -> Size {
        match self {
            Sample::Wording(wording) => wording.size(),
            Sample::None => Size::default(),
            _ => BODY,
        }
    }

    /// Draws it from `at`, in the middle of a row so high.
    fn draw(&self, scene: &mut Scene, at: Point, high: f64) {
        let size = self.size();
        let body = Rect::at(at.moved(0.0, (high - size.height) / 2.0), size);
        match self {
            Sample::None => {}
            Sample::Wording(wording) => wording.draw(scene, body, false, Ink::BLACK),
            Sample::Moved => {
                let stroke = Stroke { ink: Ink::BLACK, ..stroke(LeadKind::Moved, Ink::BLACK) };
                let y = body.middle().y;
                let line = [Point::new(body.left, y), Point::new(body.right, y)];
                scene.shape(Path::polyline(&line), None, Some(stroke));
            }
            Sample::Empty => {
                scene.shape(Path::rounded(body, 0.6), Some(Ink::WHITE), Some(look::EDGE));
                mark::hatch(scene, body.grown(-0.2), 1.3);
            }
            Sample::Key => {
                scene.shape(Path::rounded(body, 0.6), Some(Ink::WHITE), Some(look::EDGE));
                scene.shape(Path::rect(edge_of(body, Side::Down, KEY)), Some(Ink::BLACK), None);
            }
            Sample::On => {
                scene.shape(Path::rect(body), Some(look::HEAD_TINT), Some(look::EDGE));
                for i in 1..4 {
                    let x = body.left + body.width() * f64::from(i) / 4.0;
                    let tick = [Point::new(x, body.top), Point::new(x, body.bottom)];
                    scene.shape(Path::polyline(&tick), None, Some(look::FINE));
                }
                scene.shape(Path::rect(edge_of(body, Side::Up, KEY)), Some(Ink::BLACK), None);
            }
        }
    }
}
