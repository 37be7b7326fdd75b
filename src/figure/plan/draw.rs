//! Puts the gathered components on paper: outlines, then leads, then bodies, then words.

use super::colour::group_colour;
use super::components::{Component, ComponentKind, KEY};
use super::setup::{Show, Strength};
use super::tags::Tag;
use super::wording::{Face, cap_height, draw_flag};
use super::{Lead, LeadKind, PlanLabel};
use crate::board::{Bank, Board, Header, Selector};
use crate::figure::{look, mark, places};
use crate::geometry::{Path, Point, Rect, Side, Size, Step};
use crate::scene::{Ink, Item, Scene, Stroke, Target};
use crate::units::Angle;
use crate::words::Words;

/// Radius of the mark at the end of a lead, mm.
const END: f64 = 0.75;
/// Radius of the bridge by which a lead goes over another, mm.
const BRIDGE: f64 = 0.9;
/// How far a quarter circle's control points lie along its tangents, in radii.
const QUARTER: f64 = 0.552_284_749_8;
/// Radius of the dot at a leader's component, mm.
const DOT: f64 = 0.4;

/// What lies on the paper.
pub struct Layers {
    /// What is on the board.
    pub components: Vec<Component>,
    /// Their labels.
    pub labels: Vec<PlanLabel>,
    /// The tags at the tabs.
    pub tags: Vec<Tag>,
    /// The leads between them.
    pub leads: Vec<Lead>,
    /// The circuit boards.
    pub outlines: Vec<Rect>,
    /// The part of them that is drawn; outside of it they go on in another picture.
    pub frame: Option<Rect>,
}

/// The drawing of a `size` with the legend under it.
pub fn draw(
    board: &Board,
    show: Show<'_>,
    layers: &Layers,
    words: &Words,
    size: Size,
    legend: Scene,
) -> Scene {
    let whole = Size::new(size.width, size.height + legend.size.height);
    let (title, description) = super::describe::describe(board, show, words);
    let mut scene = Scene::new(whole, title, description);

    let outlines = layers.outlines.iter().map(|outline| Item::Shape {
        path: Path::rounded(*outline, 1.5),
        fill: Some(look::BOARD_TINT),
        stroke: Some(look::BOARD),
    });
    match layers.frame {
        // A circuit board that is cut has no edge there.
        Some(frame) => {
            let items = outlines.collect();
            scene.items.push(Item::Group { shift: Point::default(), clip: Some(frame), items });
        }
        None => scene.items.extend(outlines),
    }
    for component in &layers.components {
        draw_component(&mut scene, (board, show), component, words);
    }
    let drawn: Vec<&Lead> = layers.leads.iter().filter(|lead| lead.path.is_some()).collect();
    for (index, lead) in drawn.iter().enumerate() {
        draw_lead(&mut scene, board, lead, drawn.get(..index).unwrap_or_default());
    }
    for tag in &layers.tags {
        let face = Face::Framed(group_colour(board, tag.group));
        draw_flag(&mut scene, tag.area, &tag.line, face, Ink::BLACK);
    }
    for label in &layers.labels {
        draw_label(&mut scene, label);
    }
    scene.items.push(Item::Group {
        shift: Point::new(0.0, size.height),
        clip: None,
        items: legend.items,
    });
    scene
}

fn draw_label(scene: &mut Scene, label: &PlanLabel) {
    let Some(placed) = &label.placed else { return };
    if let Some(start) = placed.leader.first() {
        scene.shape(Path::polyline(&placed.leader), None, Some(look::LEADER));
        scene.shape(Path::circle(*start, DOT), Some(look::LEADER.ink), None);
    }
    if let Some(wording) = label.variants.get(placed.variant) {
        wording.draw(scene, placed.area, placed.from_right, ink(label.strength));
    }
}

/// The look of a lead's line in the colour of its group.
pub fn stroke(kind: LeadKind, colour: Ink) -> Stroke {
    match kind {
        LeadKind::Shipped => Stroke::solid(colour, 0.6),
        LeadKind::Moved => Stroke::solid(colour, 1.0),
    }
}

/// A lead from its jumper to the middle of its tab, with a bridge over each lead drawn before.
fn draw_lead(scene: &mut Scene, board: &Board, lead: &Lead, before: &[&Lead]) {
    let Some(path) = &lead.path else { return };
    let stroke = stroke(lead.kind, group_colour(board, lead.group));
    let under: Vec<[Point; 2]> = before
        .iter()
        .filter_map(|other| other.path.as_ref())
        .flat_map(|path| path.windows(2).map(|pair| [pair[0], pair[1]]))
        .collect();
    let mut steps: Vec<Step> = path.first().map(|at| Step::Move(*at)).into_iter().collect();
    for pair in path.windows(2) {
        let (a, b) = (pair[0], pair[1]);
        let mut over: Vec<Point> =
            under.iter().filter_map(|other| crossing([a, b], *other)).collect();
        let along = |p: &Point| (p.x - a.x).abs() + (p.y - a.y).abs();
        over.sort_by(|p, q| along(p).total_cmp(&along(q)));
        for at in over {
            steps.extend(bridge(a, b, at));
        }
        steps.push(Step::Line(b));
    }
    if let Some(tab) = lead.tab {
        steps.push(Step::Line(tab.middle()));
        scene.shape(Path { steps }, None, Some(stroke));
        scene.shape(Path::circle(tab.middle(), END), Some(stroke.ink), None);
    }
}

/// Where two stretches along the page cross, if they do.
fn crossing(a: [Point; 2], b: [Point; 2]) -> Option<Point> {
    let level = |l: [Point; 2]| (l[0].y - l[1].y).abs() < 1e-9;
    let inside = |v: f64, p: f64, q: f64| p.min(q) + 1e-6 < v && v < p.max(q) - 1e-6;
    let (flat, upright) = match (level(a), level(b)) {
        (true, false) => (a, b),
        (false, true) => (b, a),
        _ => return None,
    };
    let at = Point::new(upright[0].x, flat[0].y);
    (inside(at.x, flat[0].x, flat[1].x) && inside(at.y, upright[0].y, upright[1].y)).then_some(at)
}

/// Half a circle over `at` on the way from `a` to `b`: upwards on a level stretch, to the right on
/// an upright one, wherever the lead comes from.
fn bridge(a: Point, b: Point, at: Point) -> [Step; 3] {
    let level = (a.y - b.y).abs() < 1e-9;
    let forward = if level { (b.x - a.x).signum() } else { (b.y - a.y).signum() };
    // In steps along the lead and away from it.
    let point = |along: f64, away: f64| {
        let (along, away) = (along * BRIDGE * forward, away * BRIDGE);
        if level { at.moved(along, -away) } else { at.moved(away, along) }
    };
    [
        Step::Line(point(-1.0, 0.0)),
        Step::Curve(point(-1.0, QUARTER), point(-QUARTER, 1.0), point(0.0, 1.0)),
        Step::Curve(point(QUARTER, 1.0), point(1.0, QUARTER), point(1.0, 0.0)),
    ]
}

/// The colour of words and edges.
fn ink(strength: Strength) -> Ink {
    if strength == Strength::Faint { look::FAINT } else { Ink::BLACK }
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
    match component.kind {
        ComponentKind::Terminal(id) => {
            scene.shape(Path::rounded(body, 0.8), Some(Ink::WHITE), Some(edge));
            if board[id].ground {
                // The ground terminal has a second edge, so that it is told apart in grey.
                scene.shape(Path::rounded(body.grown(-0.5), 0.5), None, Some(look::FINE));
            }
        }
        ComponentKind::Link(_) => {
            let heavy = Stroke { width: 0.7, ..edge };
            scene.shape(Path::rect(body.grown(-0.2)), Some(Ink::WHITE), Some(heavy));
        }
        ComponentKind::Jumper(id) => {
            let group = match show {
                Show::Board => board[id].shipped,
                Show::Job(setup) => setup.group(board, id),
            };
            let ring = match component.strength {
                Strength::Faint => edge,
                _ => Stroke::solid(group_colour(board, group), 0.7),
            };
            let radius = body.height() / 2.0;
            scene.shape(Path::rounded(body, radius), Some(Ink::WHITE), Some(ring));
        }
        ComponentKind::Group(id) => {
            let colour = group_colour(board, id);
            let ring = match component.strength {
                Strength::Faint => edge,
                _ => Stroke::solid(colour, 0.3),
            };
            for cell in &component.cells {
                let tab = cell.grown(-0.25);
                scene.shape(Path::rounded(tab, 0.4), Some(Ink::WHITE), Some(ring));
            }
        }
        ComponentKind::Fuse(_) => draw_fuse(scene, component, edge),
        ComponentKind::Header(id) => {
            let header = &board[id];
            let link =
                matches!(show, Show::Board).then(|| words.see_socket(&header.code, &header.title));
            draw_header(scene, header, link, component, edge, inner(board, component));
        }
        ComponentKind::Bank(id) => draw_bank(scene, &board[id], component, edge),
        ComponentKind::Selector(id) => {
            let position = match show {
                Show::Board => board[id].shipped,
                Show::Job(setup) => setup.selector.unwrap_or(board[id].shipped),
            };
            draw_selector(scene, &board[id], position, component, edge);
        }
    }
    if let Some(code) = &component.inside {
        let middle = inner(board, component).middle();
        let baseline = middle.y + cap_height(code.ascent) / 2.0;
        let at = Point::new(middle.x - code.width / 2.0, baseline);
        scene.items.push(Item::Text { at, line: code.clone(), ink: ink(component.strength) });
    }
}

/// A rectangle; where it holds no code the wire goes straight through, as in IEC 60617.
fn draw_fuse(scene: &mut Scene, component: &Component, edge: Stroke) {
    let body = component.core;
    scene.shape(Path::rect(body), Some(Ink::WHITE), Some(edge));
    let (mut ends, reach) = (Vec::new(), 1.2);
    let middle = body.middle();
    if component.inside.is_none() {
        ends.push(if body.width() >= body.height() {
            [Point::new(body.left, middle.y), Point::new(body.right, middle.y)]
        } else {
            [Point::new(middle.x, body.top), Point::new(middle.x, body.bottom)]
        });
    } else if body.width() >= body.height() {
        for x in [body.left, body.right] {
            ends.push([Point::new(x, middle.y - reach), Point::new(x, middle.y + reach)]);
        }
    }
    for end in ends {
        let stroke =
            if component.inside.is_some() { Stroke { width: 0.8, ..edge } } else { look::FINE };
        scene.shape(Path::polyline(&end), None, Some(stroke));
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

/// A switch bank: its switches, and the edge that is ON.
fn draw_bank(scene: &mut Scene, bank: &Bank, component: &Component, edge: Stroke) {
    let body = component.core;
    scene.shape(Path::rect(body), Some(look::HEAD_TINT), Some(edge));
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

/// A rotary selector: its knob, a tick at each position, and where it points.
fn draw_selector(
    scene: &mut Scene,
    selector: &Selector,
    position: usize,
    component: &Component,
    edge: Stroke,
) {
    let body = component.core;
    scene.shape(Path::rounded(body, 0.6), Some(look::HEAD_TINT), Some(edge));
    let middle = body.middle();
    let reach = body.width().min(body.height()) / 2.0;
    let at = |place: usize, away: f64, aside: f64| {
        let turn = 360.0 * place as f64 / selector.positions.len().max(1) as f64;
        let (sin, cos) = (Angle::degrees(turn).sin(), Angle::degrees(turn).cos());
        middle.moved(reach * (away * sin + aside * cos), reach * (-away * cos + aside * sin))
    };
    scene.shape(Path::circle(middle, reach * 0.68), Some(Ink::WHITE), Some(edge));
    for place in 0..selector.positions.len() {
        let tick = [at(place, 0.76, 0.0), at(place, 0.92, 0.0)];
        scene.shape(Path::polyline(&tick), None, Some(look::FINE));
    }
    let pointer = [at(position, 0.64, 0.0), at(position, -0.3, -0.22), at(position, -0.3, 0.22)];
    scene.shape(Path::polygon(&pointer), Some(edge.ink), None);
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

/// A strip `thick` mm wide along the inside of one edge.
pub fn edge_of(body: Rect, side: Side, thick: f64) -> Rect {
    match side {
        Side::Up => Rect { bottom: body.top + thick, ..body },
        Side::Down => Rect { top: body.bottom - thick, ..body },
        Side::Left => Rect { right: body.left + thick, ..body },
        Side::Right => Rect { left: body.right - thick, ..body },
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_bridge_goes_up_or_to_the_right_from_either_end() {
        let at = Point::new(10.0, 10.0);
        for (a, b, top) in [
            (Point::new(0.0, 10.0), Point::new(20.0, 10.0), Point::new(10.0, 9.1)),
            (Point::new(20.0, 10.0), Point::new(0.0, 10.0), Point::new(10.0, 9.1)),
            (Point::new(10.0, 0.0), Point::new(10.0, 20.0), Point::new(10.9, 10.0)),
        ] {
            let steps = bridge(a, b, at);
            assert!(matches!(steps[1], Step::Curve(_, _, p) if p == top), "{steps:?}");
        }
    }

    #[test]
    fn only_stretches_that_go_through_each_other_cross() {
        let p = Point::new;
        let level = [p(0.0, 5.0), p(10.0, 5.0)];
        assert_eq!(crossing(level, [p(4.0, 0.0), p(4.0, 9.0)]), Some(p(4.0, 5.0)));
        assert_eq!(crossing(level, [p(4.0, 5.0), p(4.0, 9.0)]), None);
        assert_eq!(crossing(level, [p(0.0, 6.0), p(10.0, 6.0)]), None);
    }
}
