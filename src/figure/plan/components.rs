//! What the board plan shows, with its place in paper mm and the words for it.

use std::sync::Arc;

use super::label::{LabelRequest, LabelSide, size_of};
use super::setup::Strength;
use super::{PlanLabel, View};
use crate::board::{
    BankId, Board, Feed, FuseId, GroupId, HeaderId, JumperId, LinkId, PartId, SupplyId, TerminalId,
};
use crate::figure::look;
use crate::geometry::{Point, Rect, Side, Size};
use crate::source::Span;
use crate::text::{Line, Style, Typesetter};
use crate::units::Volts;
use crate::words::Words;

/// The smallest body that a lead can start from with room for two more, mm on paper.
const LEAST_FOOT: f64 = 3.0;
/// The smallest body of anything else, mm on paper.
const LEAST: f64 = 2.0;

/// What a component is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ComponentKind {
    /// A terminal.
    Terminal(TerminalId),
    /// A link's foot.
    Link(LinkId),
    /// The tabs of a group.
    Group(GroupId),
    /// A jumper's foot.
    Jumper(JumperId),
    /// A fuse.
    Fuse(FuseId),
    /// A header.
    Header(HeaderId),
    /// A switch bank.
    Bank(BankId),
}

/// One component on the drawing.
#[derive(Clone, Debug)]
pub struct Component {
    /// What it is.
    pub kind: ComponentKind,
    /// Its code.
    pub code: String,
    /// Its line in the specification.
    pub span: Span,
    /// The circuit board that it sits on.
    pub part: PartId,
    /// Its outline, paper mm.
    pub body: Rect,
    /// The body without the strip for the word ON.
    pub core: Rect,
    /// Tabs of a group, ways of a bank, pins of a header, in order.
    pub cells: Vec<Rect>,
    /// The code, set inside the body, if it fits there.
    pub inside: Option<Arc<Line>>,
    /// The word ON, if there is a strip for it.
    pub on: Option<Arc<Line>>,
    /// Variants of the label, the fullest first; empty if the component needs none.
    pub label: Vec<Vec<Arc<Line>>>,
    /// How it is shown.
    pub strength: Strength,
    /// How many of the last variants may stand a little way off.
    pub far: usize,
    /// How late the label is placed among those that are needed.
    pub rank: u8,
    /// Whether the drawing is of use without its label.
    pub extra: bool,
    /// Where the label is tried first.
    pub first: &'static [LabelSide],
}

/// Everything on the board, in the specification's order.
pub fn gather(board: &Board, view: &View, words: &Words, set: &mut Typesetter) -> Vec<Component> {
    let mut components = Vec::new();
    let terminals = (0..board.terminals.len()).map(TerminalId);
    components.extend(terminals.map(|id| terminal(board, id, view, words, set)));
    for (i, l) in board.links.iter().enumerate() {
        let body = drawn(view, board.link_footprint(LinkId(i)), LEAST_FOOT);
        let mut component =
            component(ComponentKind::Link(LinkId(i)), &l.code, l.part, l.span, body);
        component.label = vec![vec![set.line(&l.code, look::CODE)]];
        components.push(component);
    }
    for (i, g) in board.groups.iter().enumerate() {
        let id = GroupId(i);
        let body = drawn(view, board.group_footprint(id), LEAST);
        let mut component = component(ComponentKind::Group(id), &g.code, g.part, g.span, body);
        component.cells = split(body, usize::from(g.tabs.max(1)), Along::Level);
        let volts = every_voltage(words, board, id);
        let code = set.line(&g.code, look::CODE);
        component.label = vec![
            vec![set.line(&words.code_and_words(&g.code, &volts), look::CODE)],
            vec![code.clone(), set.line(&volts, look::SMALL)],
            vec![code],
        ];
        component.first = &[LabelSide::Left, LabelSide::Right, LabelSide::Above, LabelSide::Below];
        components.push(component);
    }
    for (i, j) in board.jumpers.iter().enumerate() {
        let body = drawn(view, board.jumper_footprint(JumperId(i)), LEAST_FOOT);
        let mut component =
            component(ComponentKind::Jumper(JumperId(i)), &j.code, j.part, j.span, body);
        component.label = vec![vec![set.line(&j.code, look::CODE)]];
        component.first = &[LabelSide::Right, LabelSide::Above, LabelSide::Left, LabelSide::Below];
        components.push(component);
    }
    for (i, f) in board.fuses.iter().enumerate() {
        let body = drawn(view, board.fuse_footprint(FuseId(i)), LEAST);
        let mut component =
            component(ComponentKind::Fuse(FuseId(i)), &f.code, f.part, f.span, body);
        let code = set.line(&f.code, look::SMALL_BOLD);
        let rating = words.amps(f.rating);
        let both = set.line(&words.code_and_words(&f.code, &rating), look::SMALL);
        let rating = set.line(&rating, look::SMALL);
        component.label = vec![vec![both], vec![code.clone(), rating], vec![code]];
        component.first = &[LabelSide::Right, LabelSide::Left, LabelSide::Below, LabelSide::Above];
        components.push(component);
    }
    for id in board.header_ids() {
        components.push(header(board, id, view, words, set));
    }
    for (i, b) in board.banks.iter().enumerate() {
        let body = drawn(view, board.bank_footprint(BankId(i)), LEAST);
        let mut component =
            component(ComponentKind::Bank(BankId(i)), &b.code, b.part, b.span, body);
        let along = match b.on_side {
            Side::Up | Side::Down => Along::Level,
            Side::Left | Side::Right => Along::Upright,
        };
        component.cells = split(body, usize::from(b.ways().max(1)), along);
        component.label = vec![vec![set.line(&b.code, look::CODE)]];
        component.on = Some(set.line(&words.on_mark(), look::SMALL_BOLD));
        components.push(component);
    }
    components
}

/// The group's volts under every supply that reaches it, each value once, in the order of the
/// supplies: a group that follows the supply must not look as if it did not.
fn every_voltage(words: &Words, board: &Board, id: GroupId) -> String {
    let mut values: Vec<String> = Vec::new();
    for supply in 0..board.supplies.len() {
        let Some(volts) = board.group_volts(SupplyId(supply), id) else { continue };
        let value = words.shortest(volts.0, 0);
        if !values.contains(&value) {
            values.push(value);
        }
    }
    words.quantity(&values.join("\u{a0}/\u{a0}"), Volts::UNIT)
}

fn terminal(
    board: &Board,
    id: TerminalId,
    view: &View,
    words: &Words,
    set: &mut Typesetter,
) -> Component {
    let t = &board[id];
    let body = drawn(view, board.terminal_footprint(id), LEAST);
    let mut component = component(ComponentKind::Terminal(id), &t.code, t.part, t.span, body);
    component.inside = fitting(&t.code, body, set);
    let colour = t.wire.map(|w| set.line(&words.wire_colour(w), look::SMALL));
    let letters = t.wire.map(|w| set.line(w.letters, look::SMALL));
    let code = set.line(&t.code, look::SMALL_BOLD);
    component.label = match (&component.inside, colour, letters) {
        (Some(_), Some(colour), Some(letters)) => vec![vec![colour], vec![letters]],
        (None, Some(colour), Some(letters)) => {
            vec![vec![code.clone(), colour], vec![code.clone(), letters], vec![code]]
        }
        (None, ..) => vec![vec![code]],
        (Some(_), ..) => Vec::new(),
    };
    component
}

fn header(
    board: &Board,
    id: HeaderId,
    view: &View,
    words: &Words,
    set: &mut Typesetter,
) -> Component {
    let h = &board[id];
    let body = drawn(view, board.header_footprint(id), LEAST);
    let mut component = component(ComponentKind::Header(id), &h.code, h.part, h.span, body);
    let along = if body.width() > body.height() { Along::Level } else { Along::Upright };
    component.cells = split(body, board[h.socket].pins.len().max(1), along);
    component.inside = fitting(&h.code, body.grown(-0.9), set);
    let feed = match h.feed {
        Feed::Group(group) => words.group_named(&board[group].code),
        Feed::Jumper(jumper) => board[jumper].code.clone(),
    };
    let small = match h.fuse {
        Some(fuse) => words.comma(&feed, &board[fuse].code),
        None => feed,
    };
    let title = set.line(&h.title, look::TITLE);
    let small = set.line(&small, look::SMALL);
    component.label = if component.inside.is_some() {
        vec![vec![title.clone(), small.clone()], vec![title], vec![small]]
    } else {
        let code = set.line(&h.code, look::CODE);
        vec![
            vec![code.clone(), title.clone(), small.clone()],
            vec![code.clone(), title],
            vec![code.clone(), small],
            vec![code],
        ]
    };
    component.first = &[LabelSide::Right, LabelSide::Below, LabelSide::Left, LabelSide::Above];
    component
}

/// Gives each bank a strip for the word ON beyond its edge, if nothing is there and the strip
/// stays on its circuit board.
pub fn add_on_words(board: &Board, components: &mut [Component], outlines: &[Rect]) {
    for index in 0..components.len() {
        let ComponentKind::Bank(bank) = components[index].kind else { continue };
        let Some(on) = components[index].on.clone() else { continue };
        let core = components[index].core;
        let (deep, wide) = (on.height() + 0.4, on.width + 1.0);
        let strip = match board[bank].on_side {
            Side::Up => Rect { top: core.top - deep, ..core },
            Side::Down => Rect { bottom: core.bottom + deep, ..core },
            Side::Left => Rect { left: core.left - wide, ..core },
            Side::Right => Rect { right: core.right + wide, ..core },
        };
        let clear = outlines.iter().any(|o| o.contains(&strip))
            && components
                .iter()
                .enumerate()
                .all(|(other, t)| other == index || !t.body.overlaps(&strip.grown(0.5)));
        if clear {
            components[index].body = strip;
        } else {
            components[index].on = None;
        }
    }
}

/// Titles of the circuit boards that have one, over their top left corners.
pub fn part_titles(
    board: &Board,
    view: &View,
    set: &mut Typesetter,
    bounds: Rect,
) -> Vec<PlanLabel> {
    let titled = board.parts.iter().filter_map(|part| Some((part, part.title.as_ref()?)));
    titled
        .map(|(part, title)| {
            let outline = view.rect(Rect::at(part.at, part.size));
            let corner = Rect { right: outline.left + 0.1, bottom: outline.top + 0.1, ..outline };
            PlanLabel {
                code: title.clone(),
                span: part.span,
                needed: true,
                rank: 0,
                extra: false,
                strength: Strength::Full,
                request: LabelRequest {
                    body: corner,
                    variants: vec![vec![set.line(title, look::TITLE_BOLD)]],
                    home: bounds,
                    first: &[LabelSide::Above],
                    far: 1,
                },
                placed: None,
            }
        })
        .collect()
}

fn component(kind: ComponentKind, code: &str, part: PartId, span: Span, body: Rect) -> Component {
    Component {
        kind,
        code: code.to_owned(),
        span,
        part,
        body,
        core: body,
        cells: Vec::new(),
        inside: None,
        on: None,
        label: Vec::new(),
        strength: Strength::Full,
        far: 1,
        rank: 0,
        extra: false,
        first: &[],
    }
}

/// A footprint in paper mm, at least `least` each way so that it can be seen.
fn drawn(view: &View, footprint: Rect, least: f64) -> Rect {
    let r = view.rect(footprint);
    Rect::around(r.middle(), Size::new(r.width().max(least), r.height().max(least)))
}

/// `code` in the largest size that fits inside `body`, if any does.
fn fitting(code: &str, body: Rect, set: &mut Typesetter) -> Option<Arc<Line>> {
    [look::CODE, look::SMALL_BOLD].into_iter().map(|style: Style| set.line(code, style)).find(
        |line| {
            let size = size_of(std::slice::from_ref(line));
            size.width + 0.5 <= body.width() && line.ascent * 0.75 + 0.5 <= body.height()
        },
    )
}

#[derive(Clone, Copy)]
enum Along {
    Level,
    Upright,
}

/// `body` cut into `count` equal cells.
fn split(body: Rect, count: usize, along: Along) -> Vec<Rect> {
    (0..count)
        .map(|i| {
            let part = |low: f64, size: f64, k: usize| low + size * k as f64 / count as f64;
            match along {
                Along::Level => Rect {
                    left: part(body.left, body.width(), i),
                    right: part(body.left, body.width(), i + 1),
                    ..body
                },
                Along::Upright => Rect {
                    top: part(body.top, body.height(), i),
                    bottom: part(body.top, body.height(), i + 1),
                    ..body
                },
            }
        })
        .collect()
}

/// Where a leader or a label line begins, for a block of lines set from the left or the right.
pub fn line_starts(lines: &[Arc<Line>], area: Rect, from_right: bool) -> Vec<Point> {
    let mut top = area.top;
    lines
        .iter()
        .map(|line| {
            let x = if from_right { area.right - line.width } else { area.left };
            let at = Point::new(x, top + line.ascent);
            top += line.height();
            at
        })
        .collect()
}
