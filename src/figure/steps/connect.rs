//! Which wire of the supply run goes to which terminal, the ground wire first.

use super::{CODE, EDGE, WORDS};
use crate::board::{Board, Conductor, SupplyId, TerminalId};
use crate::figure::mark;
use crate::geometry::{Path, Point, Rect, Size};
use crate::scene::{Ink, Scene, Stroke};
use crate::text::Typesetter;
use crate::words::Words;

/// From one wire to the next, and height of a box, mm.
const ROW: f64 = 7.6;
const BOX: f64 = 6.0;
/// The least width of a box, and the length of a wire, mm.
const NARROW: f64 = 9.0;
const WIRE: f64 = 9.0;
/// Space beside a code in its box, mm.
const PAD: f64 = 1.6;

/// The wires that `supply` brings, in the order in which they are connected.
pub fn connections(
    board: &Board,
    supply: SupplyId,
    words: &Words,
    set: &mut Typesetter,
    width: f64,
) -> Scene {
    let wires = in_order(board, supply);
    let told: Vec<String> = wires
        .iter()
        .map(|(terminal, wire)| words.terminal_takes(&board[*terminal].code, *wire))
        .collect();
    let size = Size::new(width, ROW * wires.len() as f64);
    let mut scene = Scene::new(size, words.connections_title(), told.join(" "));
    let lines: Vec<_> = wires
        .iter()
        .map(|(terminal, wire)| {
            (set.line(&wire.to_string(), CODE), set.line(&board[*terminal].code, CODE))
        })
        .collect();
    let wide = |width: f64| (width + 2.0 * PAD).max(NARROW);
    let first = lines.iter().map(|(wire, _)| wide(wire.width)).fold(0.0, f64::max);
    let second = lines.iter().map(|(_, terminal)| wide(terminal.width)).fold(0.0, f64::max);
    for (index, (wire, terminal)) in lines.into_iter().enumerate() {
        let y = ROW * (index as f64 + 0.5);
        let from = Rect::around(Point::new(0.4 + first / 2.0, y), Size::new(first, BOX));
        let to =
            Rect::around(Point::new(from.right + WIRE + second / 2.0, y), Size::new(second, BOX));
        let line = [Point::new(from.right, y), Point::new(to.left, y)];
        mark::rule(&mut scene, &line, Stroke::solid(Ink::BLACK, 1.0));
        scene.shape(Path::rounded(from, 0.8), Some(Ink::WHITE), Some(EDGE));
        scene.shape(Path::rounded(to, 0.8), Some(Ink::WHITE), Some(EDGE));
        mark::words_over(&mut scene, from.middle(), wire);
        mark::words_over(&mut scene, to.middle(), terminal);
        if index == 0 {
            let word = set.line(&words.first_mark(), WORDS);
            let right = to.right + 1.6 + word.width;
            mark::words_from(&mut scene, Point::new(to.right + 1.6, y), word);
            scene.size.width = scene.size.width.max(right);
        }
        scene.size.width = scene.size.width.max(to.right + 0.4);
    }
    scene
}

/// The terminals that take a wire: those for the ground wire first, the others as the board has
/// them.
fn in_order(board: &Board, supply: SupplyId) -> Vec<(TerminalId, Conductor)> {
    let all = || (0..board.terminals.len()).map(TerminalId);
    let grounds = all().filter(|id| board[*id].ground);
    let others = all().filter(|id| !board[*id].ground);
    let takes = |id: TerminalId| board[supply].lands[id].map(|wire| (id, wire));
    grounds.chain(others).filter_map(takes).collect()
}
