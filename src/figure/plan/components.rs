//! What the board plan shows, with its place in paper mm.

use std::sync::Arc;

use super::View;
use super::setup::{Setup, Show, Strength};
use super::wording::{Type, cap_height};
use crate::board::{
    BankId, Board, FuseId, GroupId, HeaderId, JumperId, LinkId, PartId, SelectorId, TerminalId,
};
use crate::geometry::{Point, Rect, Side, Size};
use crate::source::Span;
use crate::text::{Line, Typesetter};
use crate::words::Words;

/// Thickness of the black edge on a socket's key side and on a bank's ON edge, mm.
pub const KEY: f64 = 0.9;
/// The smallest body, mm on paper.
const LEAST: f64 = 2.0;
/// White space inside a body round its code, mm on all sides together.
const ROOM: Size = Size::new(1.6, 1.2);
/// White space that a body keeps to its neighbours when it is drawn larger for its code, mm.
const NEIGHBOURS: f64 = 1.2;

/// What a component is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ComponentKind {
    /// A terminal.
    Terminal(TerminalId),
    /// A link's fixed end.
    Link(LinkId),
    /// The tabs of a group.
    Group(GroupId),
    /// A jumper's fixed end.
    Jumper(JumperId),
    /// A fuse.
    Fuse(FuseId),
    /// A header.
    Header(HeaderId),
    /// A switch bank.
    Bank(BankId),
    /// A rotary selector.
    Selector(SelectorId),
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
    /// Its middle, board mm.
    pub at: Point,
    /// Its outline, paper mm.
    pub body: Rect,
    /// The body without the strip for the word ON.
    pub core: Rect,
    /// Tabs of a group, switches of a bank, pins of a header, in order.
    pub cells: Vec<Rect>,
    /// The code, set inside the body, if it fits there.
    pub inside: Option<Arc<Line>>,
    /// The word ON, if there is a strip for it.
    pub on: Option<Arc<Line>>,
    /// How it is shown.
    pub strength: Strength,
}

/// Everything on the board, in the specification's order. With `roomy`, a body is drawn larger
/// than to scale where its code needs it and nothing else is there.
pub fn gather(
    board: &Board,
    show: Show<'_>,
    view: &View,
    outlines: &[Rect],
    roomy: bool,
    (words, set): (&Words, &mut Typesetter),
) -> Vec<Component> {
    let mut all = bodies(board, view);
    for component in &mut all {
        component.strength = strength(board, show, component.kind);
    }
    if roomy {
        put_codes_inside(board, &mut all, outlines, show.type_sizes(), set);
        add_on_words(board, &mut all, outlines, show.type_sizes(), (words, set));
    }
    for component in &mut all {
        component.cells = cells(board, component);
    }
    all
}

/// Everything on the board at its size, without its code.
pub fn bodies(board: &Board, view: &View) -> Vec<Component> {
    let mut all = Vec::new();
    let mut add = |kind, code: &str, part, span, footprint: Rect| {
        let body = drawn(view, footprint);
        all.push(Component {
            kind,
            code: code.to_owned(),
            span,
            part,
            at: footprint.middle(),
            body,
            core: body,
            cells: Vec::new(),
            inside: None,
            on: None,
            strength: Strength::Full,
        });
    };
    for (i, t) in board.terminals.iter().enumerate() {
        let id = TerminalId(i);
        add(ComponentKind::Terminal(id), &t.code, t.part, t.span, board.terminal_footprint(id));
    }
    for (i, l) in board.links.iter().enumerate() {
        let id = LinkId(i);
        add(ComponentKind::Link(id), &l.code, l.part, l.span, board.link_footprint(id));
    }
    for (i, g) in board.groups.iter().enumerate() {
        let id = GroupId(i);
        add(ComponentKind::Group(id), &g.code, g.part, g.span, board.group_footprint(id));
    }
    for (i, j) in board.jumpers.iter().enumerate() {
        let id = JumperId(i);
        add(ComponentKind::Jumper(id), &j.code, j.part, j.span, board.jumper_footprint(id));
    }
    for (i, f) in board.fuses.iter().enumerate() {
        let id = FuseId(i);
        add(ComponentKind::Fuse(id), &f.code, f.part, f.span, board.fuse_footprint(id));
    }
    for id in board.header_ids() {
        let h = &board[id];
        add(ComponentKind::Header(id), &h.code, h.part, h.span, board.header_footprint(id));
    }
    for (i, b) in board.banks.iter().enumerate() {
        let id = BankId(i);
        add(ComponentKind::Bank(id), &b.code, b.part, b.span, board.bank_footprint(id));
    }
    for (i, s) in board.selectors.iter().enumerate() {
        let id = SelectorId(i);
        add(ComponentKind::Selector(id), &s.code, s.part, s.span, board.selector_footprint(id));
    }
    all
}

/// A footprint in paper mm, large enough to be seen.
fn drawn(view: &View, footprint: Rect) -> Rect {
    let r = view.rect(footprint);
    Rect::around(r.middle(), Size::new(r.width().max(LEAST), r.height().max(LEAST)))
}

/// On a board that is shown as it is delivered everything matters; of a job, what it uses.
fn strength(board: &Board, show: Show<'_>, kind: ComponentKind) -> Strength {
    let Show::Job(setup) = show else { return Strength::Full };
    let full = |used: bool| if used { Strength::Full } else { Strength::Faint };
    match kind {
        ComponentKind::Terminal(id) => full(board[setup.supply].lands[id].is_some()),
        ComponentKind::Group(id) => full(setup.uses_group(board, id)),
        ComponentKind::Jumper(id) => full(setup.uses_jumper(board, id) || moved(board, setup, id)),
        ComponentKind::Fuse(id) => full(setup.uses_fuse(board, id)),
        ComponentKind::Header(id) if setup.device(id).is_none() => Strength::Empty,
        ComponentKind::Header(_)
        | ComponentKind::Link(_)
        | ComponentKind::Bank(_)
        | ComponentKind::Selector(_) => Strength::Full,
    }
}

/// Whether a job puts a jumper elsewhere than where it was shipped.
pub fn moved(board: &Board, setup: &Setup, jumper: JumperId) -> bool {
    setup.group(board, jumper) != board[jumper].shipped
}

/// Writes each code into its body, which grows for that if nothing is in the way.
fn put_codes_inside(
    board: &Board,
    all: &mut [Component],
    outlines: &[Rect],
    sizes: Type,
    set: &mut Typesetter,
) {
    for index in 0..all.len() {
        let component = &all[index];
        let (wide, high) = match component.kind {
            ComponentKind::Group(_) | ComponentKind::Bank(_) | ComponentKind::Selector(_) => {
                continue;
            }
            ComponentKind::Header(id) => match board[id].key {
                Some(Side::Left | Side::Right) => (KEY, 0.0),
                Some(Side::Up | Side::Down) => (0.0, KEY),
                None => (0.0, 0.0),
            },
            // Its ends are round.
            ComponentKind::Jumper(_) => (1.2, 0.0),
            _ => (0.0, 0.0),
        };
        let code = set.line(&component.code, sizes.code);
        let needed =
            Size::new(code.width + ROOM.width + wide, cap_height(code.ascent) + ROOM.height + high);
        let body = component.body;
        let size = Size::new(body.width().max(needed.width), body.height().max(needed.height));
        let home = outlines.get(component.part.0).map_or(body, |outline| outline.grown(-0.8));
        let larger = held_inside(Rect::around(body.middle(), size), home);
        // What is not drawn larger than it was may touch its neighbours as it did.
        let free = larger == body
            || (home.contains(&larger)
                && all.iter().enumerate().all(|(other, component)| {
                    other == index || !component.body.overlaps(&apart(body, larger))
                }));
        if free {
            let component = &mut all[index];
            component.body = larger;
            component.core = larger;
            component.inside = Some(code);
        }
    }
}

/// `larger` with the white space to its neighbours on those sides that it grew on.
fn apart(body: Rect, larger: Rect) -> Rect {
    let more = |grown: f64| if grown > 1e-9 { NEIGHBOURS } else { 0.0 };
    Rect {
        left: larger.left - more(body.left - larger.left),
        top: larger.top - more(body.top - larger.top),
        right: larger.right + more(larger.right - body.right),
        bottom: larger.bottom + more(larger.bottom - body.bottom),
    }
}

/// `area` moved as little as brings it inside `home`.
fn held_inside(area: Rect, home: Rect) -> Rect {
    let dx = (home.left - area.left).max(0.0) + (home.right - area.right).min(0.0);
    let dy = (home.top - area.top).max(0.0) + (home.bottom - area.bottom).min(0.0);
    area.moved(dx, dy)
}

/// Gives each bank a strip for the word ON beyond its edge, if nothing is there and the strip
/// stays on its circuit board.
fn add_on_words(
    board: &Board,
    all: &mut [Component],
    outlines: &[Rect],
    sizes: Type,
    (words, set): (&Words, &mut Typesetter),
) {
    let on = set.line(&words.on_mark(), sizes.small);
    for index in 0..all.len() {
        let ComponentKind::Bank(bank) = all[index].kind else { continue };
        let core = all[index].core;
        let (deep, wide) = (on.height() + 0.4, on.width + 1.0);
        let strip = match board[bank].on_side {
            Side::Up => Rect { top: core.top - deep, ..core },
            Side::Down => Rect { bottom: core.bottom + deep, ..core },
            Side::Left => Rect { left: core.left - wide, ..core },
            Side::Right => Rect { right: core.right + wide, ..core },
        };
        let wide_enough = strip.width() >= on.width && strip.height() >= on.height();
        let clear = outlines.iter().any(|o| o.contains(&strip))
            && all
                .iter()
                .enumerate()
                .all(|(other, t)| other == index || !t.body.overlaps(&strip.grown(0.5)));
        if wide_enough && clear {
            all[index].body = strip;
            all[index].on = Some(on.clone());
        }
    }
}

/// The parts of a component that are drawn one by one.
fn cells(board: &Board, component: &Component) -> Vec<Rect> {
    let body = component.core;
    match component.kind {
        ComponentKind::Group(id) => split(body, usize::from(board[id].tabs.max(1)), true),
        ComponentKind::Header(id) => {
            let pins = board[board[id].socket].pins.len().max(1);
            split(body, pins, body.width() > body.height())
        }
        ComponentKind::Bank(id) => {
            let level = matches!(board[id].on_side, Side::Up | Side::Down);
            split(body, usize::from(board[id].ways().max(1)), level)
        }
        _ => Vec::new(),
    }
}

/// `body` cut into `count` equal cells, side by side if `level`.
fn split(body: Rect, count: usize, level: bool) -> Vec<Rect> {
    (0..count)
        .map(|i| {
            let part = |low: f64, size: f64, k: usize| low + size * k as f64 / count as f64;
            if level {
                Rect {
                    left: part(body.left, body.width(), i),
                    right: part(body.left, body.width(), i + 1),
                    ..body
                }
            } else {
                Rect {
                    top: part(body.top, body.height(), i),
                    bottom: part(body.top, body.height(), i + 1),
                    ..body
                }
            }
        })
        .collect()
}
