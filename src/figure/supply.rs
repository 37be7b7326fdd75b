//! How one supply is connected: what goes on which terminal in which order, where each link
//! belongs, and the voltages between the conductors.

use std::sync::Arc;

use super::look;
use super::mark;
use crate::board::voltage::magnitude;
use crate::board::{Board, Conductor, LinkId, SupplyId, TerminalId};
use crate::decide::{GroupVoltage, ReadFrom, SupplyVoltages};
use crate::geometry::{Path, Point, Rect, Size};
use crate::scene::{Dash, Ink, Item, Scene, Stroke};
use crate::text::{Line, Style, Typesetter};
use crate::units::Volts;
use crate::words::Words;

/// The least from one terminal to the next, mm.
const ROW: f64 = 10.5;
/// A terminal's box, mm.
const BOX: Size = Size::new(11.0, 7.4);
/// Radius of the disc that a step's number stands in, mm.
const DISC: f64 = 2.3;
/// Width of the column of step numbers, mm.
const STEPS: f64 = 2.0 * DISC + 1.6;
/// Length of an incoming conductor, mm.
const LEAD: f64 = 13.5;
/// From one conductor's measure of the ladder to the next, mm.
const RUNG: f64 = 17.5;
/// The least width of the words beside a terminal, mm.
const WORDS: f64 = 28.0;
const LEAD_STROKE: Stroke = Stroke::solid(Ink::BLACK, 0.7);
const STRAP: Stroke = Stroke::solid(Ink::BLACK, 1.2);

/// The terminals with what `supply` lands on them and in which order, links where they must be,
/// and the voltages between the conductors; `width` mm wide.
pub fn supply_landing(
    board: &Board,
    supply: SupplyId,
    words: &Words,
    set: &mut Typesetter,
    width: f64,
) -> Scene {
    let order = place_order(board);
    let steps = Steps::of(board, supply, &order.1);
    let title = board[supply].title.clone();
    let description = description(board, supply, &order, &steps, words);
    let mut scene = Scene::new(Size::new(width, 0.0), title, description);
    let (read_from, terminals) = order;
    let heading = set.line(&words.terminals_heading(read_from), look::NOTE_BOLD);
    let mut y = heading.height() + 1.5;
    scene.text(Point::new(0.5, heading.ascent + 0.3), Arc::clone(&heading));

    let words_left = TEXT_LEFT + links_width(board, supply, set);
    let measures = measures(board, supply, &terminals);
    let lanes = lanes(&measures);
    let ladder_width = ladder_width(lanes);
    let ladder_heading = set.lines(&words.voltages_heading(), look::NOTE_BOLD, ladder_width);
    // Where there is no room for the voltages beside the words, they stand below the terminals.
    let beside = width >= width_beside(words_left, ladder_width);
    let taken = if beside { ladder_width + APART } else { 1.0 };
    if beside {
        y = y.max(mark::stack_height(&ladder_heading) + 1.5);
    }
    let words_width = (width - taken - words_left).max(24.0);

    let mut rows = Vec::with_capacity(terminals.len());
    let mut widest = 0.0_f64;
    for terminal in &terminals {
        let texts = terminal_words(board, supply, *terminal, &steps, words);
        let lines: Vec<Arc<Line>> =
            texts.iter().flat_map(|(text, style)| set.lines(text, *style, words_width)).collect();
        let height = ROW.max(mark::stack_height(&lines) + 2.0);
        widest = widest.max(mark::stack_width(&lines));
        rows.push((y + height / 2.0, lines));
        y += height;
    }
    for ((middle, lines), terminal) in rows.iter().zip(&terminals) {
        if let Some(step) = steps.connects(*terminal) {
            draw_step(&mut scene, Point::new(0.5 + DISC, *middle), step, set);
        }
        draw_terminal(&mut scene, board, supply, *terminal, *middle, set);
        draw_links(&mut scene, board, supply, *terminal, Point::new(TEXT_LEFT, *middle), set);
        let top = middle - mark::stack_height(lines) / 2.0;
        mark::stack(&mut scene, Point::new(words_left, top), lines);
    }
    if !measures.is_empty() {
        let mut middles: Vec<f64> = rows.iter().map(|(middle, _)| *middle).collect();
        let left = if beside { words_left + widest + APART } else { 0.5 };
        let mut top = 0.3;
        if !beside {
            // The same rows again under the terminals, as far apart as their arrows need.
            top = y + 1.5;
            let first = top + mark::stack_height(&ladder_heading) + 2.0;
            middles = (0..rows.len()).map(|row| first + ROW * row as f64).collect();
            y = first + ROW * rows.len().saturating_sub(1) as f64 + 2.0;
        }
        mark::stack(&mut scene, Point::new(left, top), &ladder_heading);
        draw_ladder(&mut scene, &measures, &middles, (left, RUNG * lanes as f64), words, set);
    }
    y += 1.0;
    for (text, style) in notes(board, supply, words) {
        let lines = set.lines(&text, style, width - 1.0);
        y = mark::stack(&mut scene, Point::new(0.5, y), &lines) + 0.6;
    }
    scene.size.height = y + 0.6;
    scene
}

/// From the left edge to the words beside a terminal, mm.
const TEXT_LEFT: f64 = 0.5 + STEPS + LEAD + BOX.width + 2.0;
/// Between the words and the voltages, mm.
const APART: f64 = 4.5;
/// Least width of the voltages: two short lines of their heading have room, mm.
const LADDER: f64 = 30.0;

fn lanes(measures: &[Measure]) -> usize {
    measures.iter().map(|measure| measure.lane + 1).max().unwrap_or(0)
}

fn ladder_width(lanes: usize) -> f64 {
    (RUNG * lanes as f64 + 2.0).max(LADDER)
}

/// The least width at which the voltages stand beside words that begin at a place, mm.
fn width_beside(words_left: f64, ladder_width: f64) -> f64 {
    words_left + WORDS + APART + ladder_width
}

/// Whether all supplies of a board can be drawn in a width with the voltages beside the words.
pub fn supplies_fit(board: &Board, set: &mut Typesetter, width: f64) -> bool {
    let (_, terminals) = place_order(board);
    board.handles().all(|supply| {
        let ladder = ladder_width(lanes(&measures(board, supply, &terminals)));
        width_beside(TEXT_LEFT + links_width(board, supply, set), ladder) <= width
    })
}

/// The order in which hands connect a supply: the ground wire first, then the other wires from the
/// first terminal to the last, then the links.
struct Steps {
    terminals: Vec<TerminalId>,
    links: Vec<LinkId>,
}

impl Steps {
    fn of(board: &Board, supply: SupplyId, terminals: &[TerminalId]) -> Self {
        let taken = |wanted: fn(Conductor) -> bool| {
            let all = terminals.iter().copied();
            all.filter(move |id| landed(board, supply, *id).is_some_and(wanted))
        };
        let ground = taken(|conductor| conductor == Conductor::Pe);
        let others = taken(|conductor| conductor != Conductor::Pe);
        let of_links = terminals.iter().flat_map(|id| links_on(board, supply, *id));
        Self { terminals: ground.chain(others).collect(), links: of_links.collect() }
    }

    /// Which step, from 1, connects a wire to this terminal.
    fn connects(&self, terminal: TerminalId) -> Option<usize> {
        self.terminals.iter().position(|other| *other == terminal).map(|index| index + 1)
    }

    /// Which step, from 1, sets this link.
    fn sets(&self, link: LinkId) -> Option<usize> {
        let index = self.links.iter().position(|other| *other == link)?;
        Some(self.terminals.len() + index + 1)
    }
}

/// The terminals in the order of their places, and where that begins.
fn place_order(board: &Board) -> (ReadFrom, Vec<TerminalId>) {
    let mut all: Vec<_> = (0..board.terminals.len())
        .map(TerminalId)
        .map(|id| (id, board.place(board[id].part, board[id].at)))
        .collect();
    let spread = |of: fn(&Point) -> f64| {
        let low = all.iter().map(|(_, at)| of(at)).fold(f64::INFINITY, f64::min);
        let high = all.iter().map(|(_, at)| of(at)).fold(f64::NEG_INFINITY, f64::max);
        high - low
    };
    let from_top = spread(|at| at.y) >= spread(|at| at.x);
    all.sort_by(|(_, a), (_, b)| {
        let (a, b) = if from_top { ((a.y, a.x), (b.y, b.x)) } else { ((a.x, a.y), (b.x, b.y)) };
        a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1))
    });
    let read_from = if from_top { ReadFrom::Top } else { ReadFrom::Left };
    (read_from, all.into_iter().map(|(id, _)| id).collect())
}

fn landed(board: &Board, supply: SupplyId, terminal: TerminalId) -> Option<Conductor> {
    board[supply].lands[terminal]
}

/// The links that this supply puts on `terminal`.
fn links_on(board: &Board, supply: SupplyId, terminal: TerminalId) -> Vec<LinkId> {
    let positions = board[supply].links.entries();
    positions.filter(|(_, position)| **position == terminal).map(|(link, _)| link).collect()
}

/// The steps in their order, then the terminals that take nothing, then the voltages.
fn description(
    board: &Board,
    supply: SupplyId,
    (read_from, terminals): &(ReadFrom, Vec<TerminalId>),
    steps: &Steps,
    words: &Words,
) -> String {
    let mut sentences = Vec::with_capacity(terminals.len());
    for terminal in &steps.terminals {
        if let Some(conductor) = landed(board, supply, *terminal) {
            sentences.push(words.terminal_takes(&board[*terminal].code, conductor));
        }
    }
    sentences.extend(steps.links.iter().map(|link| link_words(board, supply, *link, words)));
    for terminal in terminals {
        if landed(board, supply, *terminal).is_none() {
            sentences.push(words.terminal_takes_nothing(&board[*terminal].code));
        }
    }
    sentences.extend(measures(board, supply, terminals).iter().map(|measure| {
        let [a, b] = measure.between.map(|conductor| conductor.to_string());
        words.voltage_between(&a, &b, &words.whole_volts(measure.volts))
    }));
    words.supply_described(&board[supply].title, *read_from, &sentences.join(" "))
}

/// `Link W11: move from X1 to X2.`, or that it stays where it is shipped.
fn link_words(board: &Board, supply: SupplyId, link: LinkId, words: &Words) -> String {
    let (code, to) = (&board[link].code, board[supply].links[link]);
    let shipped = board[link].shipped;
    if to == shipped {
        words.link_stays(code, &board[to].code)
    } else {
        words.link_moves(code, &board[shipped].code, &board[to].code)
    }
}

/// The words of a terminal's row: what lands there, or that nothing does; the board's colour; what
/// is done with each link that belongs there.
fn terminal_words(
    board: &Board,
    supply: SupplyId,
    terminal: TerminalId,
    steps: &Steps,
    words: &Words,
) -> Vec<(String, Style)> {
    let mut all = vec![match landed(board, supply, terminal) {
        Some(conductor) => (words.conductor_name(conductor), look::NOTE),
        None => (words.nothing_lands(), look::NOTE_BOLD),
    }];
    all.extend(board[terminal].wire.map(|wire| (words.terminal_marked(wire), look::NOTE)));
    for link in links_on(board, supply, terminal) {
        let moves = board[link].shipped != terminal;
        let text = link_words(board, supply, link, words);
        let text = match steps.sets(link) {
            Some(step) => words.step_and_words(step, &text),
            None => text,
        };
        all.push((text, if moves { look::NOTE_BOLD } else { look::NOTE }));
    }
    all
}

/// The number of a step, white on a black disc.
fn draw_step(scene: &mut Scene, middle: Point, step: usize, set: &mut Typesetter) {
    scene.shape(Path::circle(middle, DISC), Some(Ink::BLACK), None);
    let number = set.line(&step.to_string(), look::NOTE_BOLD);
    let at = Point::new(middle.x - number.width / 2.0, mark::baseline(&number, middle.y));
    scene.items.push(Item::Text { at, line: number, ink: Ink::WHITE });
}

fn draw_terminal(
    scene: &mut Scene,
    board: &Board,
    supply: SupplyId,
    terminal: TerminalId,
    middle: f64,
    set: &mut Typesetter,
) {
    let left = 0.5 + STEPS;
    let area = Rect::around(Point::new(left + LEAD + BOX.width / 2.0, middle), BOX);
    match landed(board, supply, terminal) {
        Some(conductor) => {
            let letters = set.line(&conductor.to_string(), look::NAME);
            let start = left + letters.width + 1.2;
            mark::words_from(scene, Point::new(left, middle), letters);
            if conductor == Conductor::Pe {
                mark::protective_earth(scene, Point::new(start + 2.4, middle), 2.2);
                lead(scene, start + 5.4, area.left, middle);
            } else {
                lead(scene, start, area.left, middle);
            }
            scene.shape(Path::rounded(area, 1.0), Some(Ink::WHITE), Some(look::EDGE));
        }
        None => {
            scene.shape(Path::rounded(area, 1.0), Some(look::EMPTY_TINT), None);
            let edge = Stroke { dash: Dash::Broken { on: 90, off: 70 }, ..look::EDGE };
            scene.shape(Path::rounded(area, 1.0), None, Some(edge));
        }
    }
    let code = set.line(&board[terminal].code, look::NAME);
    mark::words_over(scene, area.middle(), code);
}

/// A conductor that comes in from the left and ends at the terminal with an arrow head.
fn lead(scene: &mut Scene, from: f64, to: f64, y: f64) {
    mark::rule(scene, &[Point::new(from, y), Point::new(to - 1.6, y)], LEAD_STROKE);
    mark::arrow_head(scene, Point::new(to, y), (1.0, 0.0), 2.2);
}

/// Length of strap before a link's box, mm.
const STRAP_LENGTH: f64 = 4.0;

fn link_width(code: &str, set: &mut Typesetter) -> f64 {
    STRAP_LENGTH + set.line(code, look::NOTE_BOLD).width + 3.0
}

/// The room that the fullest row needs for its links, mm.
fn links_width(board: &Board, supply: SupplyId, set: &mut Typesetter) -> f64 {
    let mut widest = 0.0_f64;
    for terminal in (0..board.terminals.len()).map(TerminalId) {
        let links = links_on(board, supply, terminal);
        let width: f64 = links.iter().map(|link| link_width(&board[*link].code, set)).sum();
        widest = widest.max(width);
    }
    if widest > 0.0 { widest + 1.5 } else { 0.0 }
}

/// Each link that belongs on this terminal: a thick strap to a box with its code.
fn draw_links(
    scene: &mut Scene,
    board: &Board,
    supply: SupplyId,
    terminal: TerminalId,
    from: Point,
    set: &mut Typesetter,
) {
    let mut x = from.x - 2.0;
    for link in links_on(board, supply, terminal) {
        let code = &board[link].code;
        let width = link_width(code, set);
        let area = Rect::around(
            Point::new(x + (width + STRAP_LENGTH) / 2.0, from.y),
            Size::new(width - STRAP_LENGTH, 5.6),
        );
        mark::rule(scene, &[Point::new(x, from.y), Point::new(area.left, from.y)], STRAP);
        scene.shape(Path::rect(area), Some(look::HEAD_TINT), Some(look::EDGE));
        let line = set.line(code, look::NOTE_BOLD);
        mark::words_over(scene, area.middle(), line);
        x += width;
    }
}

/// A voltage between the conductors of two rows.
struct Measure {
    from: usize,
    to: usize,
    between: [Conductor; 2],
    volts: Volts,
    lane: usize,
}

/// Every pair of live or neutral conductors with its voltage, in lanes in which none lies over
/// another. A conductor that lands on several terminals is measured at the first.
fn measures(board: &Board, supply: SupplyId, terminals: &[TerminalId]) -> Vec<Measure> {
    let system = board[supply].system;
    let mut rows: Vec<(usize, Conductor)> = Vec::new();
    for (row, terminal) in terminals.iter().enumerate() {
        if let Some(conductor) = landed(board, supply, *terminal)
            && conductor != Conductor::Pe
            && rows.iter().all(|(_, other)| *other != conductor)
        {
            rows.push((row, conductor));
        }
    }
    let mut found = Vec::new();
    for (index, (from, a)) in rows.iter().enumerate() {
        for (to, b) in rows.iter().skip(index + 1) {
            if let (Some(at_a), Some(at_b)) = (system.phasor(*a), system.phasor(*b)) {
                let volts = magnitude(at_a - at_b);
                found.push(Measure { from: *from, to: *to, between: [*a, *b], volts, lane: 0 });
            }
        }
    }
    found.sort_by_key(|m| (m.to - m.from, m.from));
    let mut lanes: Vec<Vec<(usize, usize)>> = Vec::new();
    for measure in &mut found {
        let free = lanes
            .iter()
            .position(|lane| lane.iter().all(|(a, b)| measure.to <= *a || *b <= measure.from));
        let lane = free.unwrap_or(lanes.len());
        if lane == lanes.len() {
            lanes.push(Vec::new());
        }
        if let Some(taken) = lanes.get_mut(lane) {
            taken.push((measure.from, measure.to));
        }
        measure.lane = lane;
    }
    found
}

/// A guide for each conductor, and between the guides an arrow for each voltage. The words of a
/// voltage stand beside its arrow, between its upper guide and the next one, so that no guide
/// runs through them.
fn draw_ladder(
    scene: &mut Scene,
    measures: &[Measure],
    middles: &[f64],
    (left, width): (f64, f64),
    words: &Words,
    set: &mut Typesetter,
) {
    let y_of = |row: usize| middles.get(row).copied().unwrap_or(0.0);
    let mut guides: Vec<usize> = measures.iter().flat_map(|m| [m.from, m.to]).collect();
    guides.sort_unstable();
    guides.dedup();
    let guide = Stroke { dash: Dash::Broken { on: 60, off: 60 }, ..look::FINE };
    for row in &guides {
        let y = y_of(*row);
        mark::rule(scene, &[Point::new(left, y), Point::new(left + width, y)], guide);
    }
    for measure in measures {
        let x = left + RUNG * measure.lane as f64 + 2.0;
        let (top, bottom) = (y_of(measure.from), y_of(measure.to));
        mark::rule(scene, &[Point::new(x, top + 1.4), Point::new(x, bottom - 1.4)], look::EDGE);
        mark::arrow_head(scene, Point::new(x, top), (0.0, -1.0), 1.8);
        mark::arrow_head(scene, Point::new(x, bottom), (0.0, 1.0), 1.8);
        let next = guides.iter().find(|row| **row > measure.from).map_or(bottom, |row| y_of(*row));
        let [a, b] = measure.between;
        let lines = [
            set.line(&words.whole_volts(measure.volts), look::NOTE_BOLD),
            set.line(&format!("{a}\u{2013}{b}"), look::NOTE),
        ];
        let y = (top + next) / 2.0 - mark::stack_height(&lines) / 2.0;
        mark::stack(scene, Point::new(x + 1.4, y), &lines);
    }
}

/// The order of the steps, what the groups give, and which of them run nothing.
fn notes(board: &Board, supply: SupplyId, words: &Words) -> Vec<(String, Style)> {
    let mut given = Vec::new();
    let mut missing = Vec::new();
    let voltages = SupplyVoltages::of(board, supply);
    for (group, voltage) in voltages.iter() {
        let code = &board[group].code;
        match voltage {
            GroupVoltage::NotAvailable { .. } => missing.push(code.clone()),
            voltage => {
                if let Some(volts) = voltage.volts() {
                    given.push(words.group_gives(code, &words.whole_volts(volts)));
                }
            }
        }
    }
    let order = match board.links.is_empty() {
        true => words.connect_in_order(),
        false => words.connect_and_link_in_order(),
    };
    let mut all = vec![(order, look::NOTE)];
    if !given.is_empty() {
        all.push((words.groups_give(&words.commas(&given)), look::NOTE));
    }
    if !missing.is_empty() {
        let codes = words.commas(&missing);
        all.push((words.groups_not_available(missing.len(), &codes), look::NOTE_BOLD));
    }
    all
}
