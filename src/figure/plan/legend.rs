//! What the lines and edges of the board plan mean.

use super::LeadKind;
use super::draw::{END, KEY, edge_of, stroke};
use super::setup::Show;
use crate::board::Board;
use crate::figure::{look, mark};
use crate::geometry::{Path, Point, Rect, Side, Size};
use crate::scene::{Ink, Scene, Stroke};
use crate::text::Typesetter;
use crate::words::Words;

const SAMPLE: f64 = 9.0;
const ROW: f64 = 5.2;
const INDENT: f64 = 1.0;
/// Between entries, mm.
const GAP: f64 = 4.5;

/// A sample of each kind of line and edge that the plan has, with its meaning, in rows.
pub fn legend(
    board: &Board,
    show: Show<'_>,
    kinds: &[LeadKind],
    width: f64,
    words: &Words,
    set: &mut Typesetter,
) -> Scene {
    let mut entries: Vec<(Sample, String)> = Vec::new();
    // An insert has less room.
    let shipped = match show {
        Show::Board => words.legend_lead_shipped(),
        Show::Job(_) => words.legend_shipped(),
    };
    for (kind, meaning) in [
        (LeadKind::Shipped, shipped),
        (LeadKind::MayGo, words.legend_may_go()),
        (LeadKind::Moved, words.legend_moved()),
    ] {
        if kinds.contains(&kind) {
            entries.push((Sample::Lead(kind), meaning));
        }
    }
    if let Show::Job(setup) = show
        && board.header_ids().any(|header| setup.device(header).is_none())
    {
        entries.push((Sample::Empty, words.leave_empty()));
    }
    // The other drawings of an insert show keys and ON at their size.
    let whole = matches!(show, Show::Board);
    if whole && board.headers.iter().any(|h| h.key.is_some()) {
        entries.push((Sample::Key, words.legend_key()));
    }
    if whole && !board.banks.is_empty() {
        entries.push((Sample::On, words.legend_on()));
    }

    let mut scene = Scene::new(Size::new(width, 0.0), words.legend_title(), "");
    let (mut x, mut y) = (INDENT, 0.0);
    for (sample, meaning) in entries {
        let line = set.line(&meaning, look::SMALL);
        let needed = SAMPLE + 1.5 + line.width + GAP;
        if x > INDENT && x + needed - GAP > width {
            x = INDENT;
            y += ROW;
        }
        let middle = y + ROW / 2.0;
        sample.draw(&mut scene, Point::new(x, middle));
        let baseline = middle + (line.ascent - line.descent) / 2.0;
        scene.text(Point::new(x + SAMPLE + 1.5, baseline), line);
        x += needed;
    }
    scene.size.height = if scene.items.is_empty() { 0.0 } else { y + ROW };
    scene
}

enum Sample {
    Lead(LeadKind),
    Empty,
    Key,
    On,
}

impl Sample {
    fn draw(&self, scene: &mut Scene, left: Point) {
        let end = left.moved(SAMPLE - 1.0, 0.0);
        match self {
            Sample::Empty => {
                let body = Rect::around(left.moved(SAMPLE / 2.0, 0.0), Size::new(7.0, 3.2));
                scene.shape(Path::rounded(body, 0.6), Some(Ink::WHITE), Some(look::EDGE));
                mark::hatch(scene, body.grown(-0.2), 1.3);
            }
            Sample::Lead(kind) => {
                let stroke = stroke(*kind);
                scene.shape(Path::polyline(&[left, end]), None, Some(stroke));
                let fill = if *kind == LeadKind::MayGo { Ink::WHITE } else { stroke.ink };
                let edge = Stroke::solid(stroke.ink, 0.3);
                scene.shape(Path::circle(end, END), Some(fill), Some(edge));
            }
            Sample::Key => {
                let body = Rect::around(left.moved(SAMPLE / 2.0, 0.0), Size::new(7.0, 3.2));
                scene.shape(Path::rounded(body, 0.6), Some(Ink::WHITE), Some(look::EDGE));
                scene.shape(Path::rect(edge_of(body, Side::Down, KEY)), Some(Ink::BLACK), None);
            }
            Sample::On => {
                let body = Rect::around(left.moved(SAMPLE / 2.0, 0.0), Size::new(7.0, 3.2));
                scene.shape(Path::rect(body), Some(Ink::WHITE), Some(look::EDGE));
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
