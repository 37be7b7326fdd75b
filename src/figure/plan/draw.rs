//! Puts the gathered components on paper: outlines, then leads, then bodies, then words.

use super::components::{Component, ComponentKind, line_starts};
use super::setup::{Setup, Show, Strength};
use super::{Lead, LeadKind, PlanLabel};
use crate::board::{Bank, Board, Header, JumperId};
use crate::figure::{look, mark, places};
use crate::geometry::{Path, Point, Rect, Side, Size};
use crate::scene::{Ink, Item, Scene, Stroke, Target};
use crate::words::Words;

/// Thickness of the black edge on a socket's key side and on a bank's ON edge, mm.
pub const KEY: f64 = 0.9;
/// Radius of the mark at the end of a lead, mm.
pub const END: f64 = 0.7;
/// White beside a lead where it crosses another, mm.
const HALO: f64 = 0.25;

/// What lies on the paper.
pub struct Layers<'a> {
    /// What is on the board.
    pub components: &'a [Component],
    /// Their labels.
    pub labels: &'a [PlanLabel],
    /// The leads between them.
    pub leads: &'a [Lead],
    /// The circuit boards.
    pub outlines: &'a [Rect],
}

/// The drawing of a `size` with the legend under it.
pub fn draw(
    board: &Board,
    show: Show<'_>,
    layers: &Layers<'_>,
    words: &Words,
    size: Size,
    legend: Scene,
) -> Scene {
    let Layers { components, labels, leads, outlines } = *layers;
    let whole = Size::new(size.width, size.height + legend.size.height);
    let (title, description) = match show {
        Show::Board => (words.board_plan_of(&board.about.name), describe(board, words)),
        Show::Job(setup) => {
            (words.board_set_up(&board.about.name), describe_job(board, setup, words))
        }
    };
    let mut scene = Scene::new(whole, title, description);

    for outline in outlines {
        scene.shape(Path::rounded(*outline, 1.5), Some(look::BOARD_TINT), Some(look::BOARD));
    }
    // What matters more lies on top where leads cross.
    for kind in [LeadKind::MayGo, LeadKind::Shipped, LeadKind::Moved] {
        leads.iter().filter(|l| l.kind == kind).for_each(|lead| draw_lead(&mut scene, lead));
    }
    for component in components {
        draw_component(&mut scene, (board, show), component, words);
    }
    for lead in leads {
        draw_end(&mut scene, lead);
    }
    for label in labels {
        let Some(placed) = &label.placed else { continue };
        if let Some(leader) = placed.leader {
            scene.shape(Path::polyline(&leader), None, Some(look::FINE));
        }
        let Some(lines) = label.request.variants.get(placed.variant) else { continue };
        for (line, at) in lines.iter().zip(line_starts(lines, placed.area, placed.from_right)) {
            let ink = ink(label.strength);
            scene.items.push(Item::Text { at, line: line.clone(), ink });
        }
    }
    scene.items.push(Item::Group {
        shift: Point::new(0.0, size.height),
        clip: None,
        items: legend.items,
    });
    scene
}

fn draw_lead(scene: &mut Scene, lead: &Lead) {
    let Some(path) = &lead.path else { return };
    let stroke = stroke(lead.kind);
    let halo = Stroke::solid(look::BOARD_TINT, stroke.width + 2.0 * HALO);
    scene.shape(Path::polyline(path), None, Some(halo));
    scene.shape(Path::polyline(path), None, Some(stroke));
}

/// The look of a lead's line.
pub fn stroke(kind: LeadKind) -> Stroke {
    match kind {
        LeadKind::Shipped => look::SHIPPED,
        LeadKind::MayGo => look::MAY_GO,
        LeadKind::Moved => look::MOVED,
    }
}

/// The colour of words and edges.
fn ink(strength: Strength) -> Ink {
    if strength == Strength::Faint { look::FAINT } else { Ink::BLACK }
}

/// The mark where a lead ends: open where it may go as well, full where it is.
fn draw_end(scene: &mut Scene, lead: &Lead) {
    let Some(end) = lead.path.as_ref().and_then(|path| path.last()) else { return };
    let stroke = stroke(lead.kind);
    let fill = if lead.kind == LeadKind::MayGo { Ink::WHITE } else { stroke.ink };
    scene.shape(Path::circle(*end, END), Some(fill), Some(Stroke::solid(stroke.ink, 0.3)));
}

fn draw_component(
    scene: &mut Scene,
    (board, show): (&Board, Show<'_>),
    component: &Component,
    words: &Words,
) {
    let body = component.core;
    let edge = match component.strength {
        Strength::Faint => look::FAINT_EDGE,
        Strength::Full | Strength::Empty => look::EDGE,
    };
    let dark = edge.ink;
    match component.kind {
        ComponentKind::Terminal(id) => {
            scene.shape(Path::rounded(body, 0.8), Some(Ink::WHITE), Some(edge));
            if board[id].ground {
                // The earth terminal has a second edge, so that it is told apart in grey.
                scene.shape(Path::rounded(body.grown(-0.5), 0.5), None, Some(look::FINE));
            }
        }
        ComponentKind::Link(_) => {
            scene.shape(Path::rect(body), Some(Ink::WHITE), Some(edge));
            scene.shape(
                Path::rect(body.grown(-0.8)),
                Some(if dark == Ink::BLACK { look::SHIPPED.ink } else { dark }),
                None,
            );
        }
        ComponentKind::Jumper(_) => {
            scene.shape(
                Path::circle(body.middle(), body.width() / 2.0),
                Some(Ink::WHITE),
                Some(edge),
            );
            scene.shape(
                Path::circle(body.middle(), 0.6),
                Some(if dark == Ink::BLACK { look::SHIPPED.ink } else { dark }),
                None,
            );
        }
        ComponentKind::Group(_) => {
            for cell in &component.cells {
                let tab = cell.grown(-0.25);
                scene.shape(Path::rounded(tab, 0.4), Some(look::HEAD_TINT), Some(edge));
            }
        }
        ComponentKind::Fuse(_) => {
            // IEC 60617: a rectangle with the wire straight through.
            scene.shape(Path::rect(body), Some(Ink::WHITE), Some(edge));
            let (a, b) = if body.width() >= body.height() {
                (Point::new(body.left, body.middle().y), Point::new(body.right, body.middle().y))
            } else {
                (Point::new(body.middle().x, body.top), Point::new(body.middle().x, body.bottom))
            };
            scene.shape(Path::polyline(&[a, b]), None, Some(look::FINE));
        }
        ComponentKind::Header(id) => {
            let header = &board[id];
            let link =
                matches!(show, Show::Board).then(|| words.see_socket(&header.code, &header.title));
            draw_header(scene, header, link, component, edge, inner(board, component));
        }
        ComponentKind::Bank(id) => draw_bank(scene, &board[id], component, edge),
    }
    if let Some(code) = &component.inside {
        let middle = inner(board, component).middle();
        let baseline = middle.y + cap_height(code.ascent) / 2.0;
        let at = Point::new(middle.x - code.width / 2.0, baseline);
        scene.items.push(Item::Text { at, line: code.clone(), ink: ink(component.strength) });
    }
}

/// A header: its key or its pins, hatched if it stays empty.
fn draw_header(
    scene: &mut Scene,
    header: &Header,
    link: Option<String>,
    component: &Component,
    edge: Stroke,
    inner: Rect,
) {
    let body = component.core;
    scene.shape(Path::rounded(body, 0.6), Some(Ink::WHITE), Some(edge));
    if component.strength == Strength::Empty {
        mark::hatch(scene, body.grown(-0.2), 1.3);
        if let Some(code) = &component.inside {
            // The code stands on white, so that it can be read among the lines.
            let size = Size::new(code.width + 0.8, code.ascent * 0.9);
            let plate = Rect::around(inner.middle(), size);
            scene.shape(Path::rect(plate), Some(Ink::WHITE), None);
        }
    }
    match header.key {
        Some(side) => {
            scene.shape(Path::rect(edge_of(body, side, KEY)), Some(edge.ink), None);
        }
        None if component.inside.is_none() => {
            for cell in &component.cells {
                let radius = cell.width().min(cell.height()) * 0.3;
                scene.shape(Path::circle(cell.middle(), radius), None, Some(edge));
            }
        }
        None => {}
    }
    if let Some(description) = link {
        let name = places::plan(&header.code);
        scene.items.push(Item::Anchor { name, at: body.corner() });
        scene.items.push(Item::Link {
            area: body,
            target: Target::Anchor(places::socket(&header.code)),
            description,
        });
    }
}

/// A switch bank: its ways, and the edge that is ON.
fn draw_bank(scene: &mut Scene, bank: &Bank, component: &Component, edge: Stroke) {
    let body = component.core;
    scene.shape(Path::rect(body), Some(Ink::WHITE), Some(edge));
    for cell in component.cells.iter().skip(1) {
        let upright = matches!(bank.on_side, Side::Up | Side::Down);
        let end = if upright {
            Point::new(cell.left, cell.bottom)
        } else {
            Point::new(cell.right, cell.top)
        };
        scene.shape(Path::polyline(&[cell.corner(), end]), None, Some(look::FINE));
    }
    let side = bank.on_side;
    scene.shape(Path::rect(edge_of(body, side, KEY)), Some(edge.ink), None);
    if let Some(on) = &component.on {
        let strip = component.body;
        let middle = match side {
            Side::Up => Point::new(body.middle().x, (strip.top + body.top) / 2.0),
            Side::Down => Point::new(body.middle().x, (strip.bottom + body.bottom) / 2.0),
            Side::Left => Point::new((strip.left + body.left) / 2.0, body.middle().y),
            Side::Right => Point::new((strip.right + body.right) / 2.0, body.middle().y),
        };
        let baseline = middle.y + (on.ascent - on.descent) / 2.0;
        scene.text_centred(Point::new(middle.x, baseline), on.clone());
    }
}

/// The body without its key edge, where the code stands.
fn inner(board: &Board, component: &Component) -> Rect {
    let body = component.core;
    match component.kind {
        ComponentKind::Header(id) => match board[id].key {
            Some(Side::Up) => Rect { top: body.top + KEY, ..body },
            Some(Side::Down) => Rect { bottom: body.bottom - KEY, ..body },
            Some(Side::Left) => Rect { left: body.left + KEY, ..body },
            Some(Side::Right) => Rect { right: body.right - KEY, ..body },
            None => body,
        },
        _ => body,
    }
}

/// Height of capitals and digits in the project's font, from its ascent: 668 of 950 units.
fn cap_height(ascent: f64) -> f64 {
    ascent * 668.0 / 950.0
}

/// A strip `thick` mm wide along the inside of one edge.
pub fn edge_of(body: Rect, side: Side, thick: f64) -> Rect {
    match side {
        Side::Up => Rect { bottom: body.top + thick, ..body },
        Side::Down => Rect { top: body.bottom - thick, ..body },
        Side::Left => Rect { right: body.left + thick, ..body },
        Side::Right => Rect { left: body.right - thick, ..body },
    }
}

fn describe_job(board: &Board, setup: &Setup, words: &Words) -> String {
    let mut sentences = vec![words.board_set_up_described(&board.about.name)];
    for header in board.header_ids() {
        let code = &board[header].code;
        sentences.push(match setup.device(header) {
            Some(device) => words.header_takes(code, device),
            None => words.header_stays_empty(code),
        });
    }
    for (index, jumper) in board.jumpers.iter().enumerate() {
        let group = setup.group(board, JumperId(index));
        let moved = group != jumper.shipped;
        sentences.push(words.jumper_stands(&jumper.code, &board[group].code, moved));
    }
    sentences.join(" ")
}

fn describe(board: &Board, words: &Words) -> String {
    let counts = [
        words.parts_counted(board.parts.len()),
        words.headers_counted(board.headers.len()),
        words.groups_counted(board.groups.len()),
        words.jumpers_counted(board.jumpers.len()),
        words.fuses_counted(board.fuses.len()),
        words.banks_counted(board.banks.len()),
    ];
    words.board_plan_described(&board.about.name, &words.commas(&counts))
}
