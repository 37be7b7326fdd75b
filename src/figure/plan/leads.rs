//! Which leads a plan has, and the way of each.

use super::components::{Component, ComponentKind};
use super::lattice::LeadObstacles;
use super::route::LeadRequest;
use super::setup::Show;
use super::{Lead, LeadEnds, LeadKind, PlanLabel};
use crate::board::{Board, GroupId, JumperId, LinkId, TerminalId};
use crate::geometry::{Point, Rect, Size};

/// How a jumper's lead to one of its groups is drawn, if it is.
fn jumper_kind(
    board: &Board,
    show: Show<'_>,
    jumper: JumperId,
    group: GroupId,
) -> Option<LeadKind> {
    let shipped = board[jumper].shipped == group;
    match show {
        Show::Board => Some(board_kind(shipped)),
        Show::Job(setup) => {
            let here = setup.group(board, jumper) == group;
            job_kind(shipped, here, setup.uses_jumper(board, jumper))
        }
    }
}

/// The same for a link and one of its terminals.
fn link_kind(
    board: &Board,
    show: Show<'_>,
    link: LinkId,
    terminal: TerminalId,
) -> Option<LeadKind> {
    let shipped = board[link].shipped == terminal;
    match show {
        Show::Board => Some(board_kind(shipped)),
        Show::Job(setup) => job_kind(shipped, setup.terminal(board, link) == terminal, true),
    }
}

fn board_kind(shipped: bool) -> LeadKind {
    if shipped { LeadKind::Shipped } else { LeadKind::MayGo }
}

/// Of a job only the lead that is `here` is drawn, and where it is shipped only one that is `used`.
fn job_kind(shipped: bool, here: bool, used: bool) -> Option<LeadKind> {
    match (here, shipped) {
        (false, _) => None,
        (true, false) => Some(LeadKind::Moved),
        (true, true) => used.then_some(LeadKind::Shipped),
    }
}

/// How the leads are drawn, all together.
pub fn kinds(board: &Board, show: Show<'_>) -> Vec<LeadKind> {
    let jumpers = board.jumpers.iter().enumerate().flat_map(|(index, jumper)| {
        let kind = move |group: &GroupId| jumper_kind(board, show, JumperId(index), *group);
        jumper.groups.iter().filter_map(kind)
    });
    let links = board.links.iter().enumerate().flat_map(|(index, link)| {
        let kind = move |terminal: &TerminalId| link_kind(board, show, LinkId(index), *terminal);
        link.positions.iter().filter_map(kind)
    });
    jumpers.chain(links).collect()
}

/// Finds a way for every lead of the drawing, round the components and the labels.
pub fn route(
    board: &Board,
    show: Show<'_>,
    components: &[Component],
    labels: &[PlanLabel],
    outlines: &[Rect],
    bounds: Rect,
) -> Vec<Lead> {
    let mut leads = Vec::new();
    let mut requests = Vec::new();
    for component in components {
        match component.kind {
            ComponentKind::Jumper(id) => {
                for group in &board[id].groups {
                    let Some(kind) = jumper_kind(board, show, id, *group) else { continue };
                    let goal = components.iter().find(|t| t.kind == ComponentKind::Group(*group));
                    leads.push(Lead { ends: LeadEnds::Jumper(id, *group), kind, path: None });
                    requests.push(LeadRequest {
                        from: component.body,
                        to: goal.map(|g| g.cells.clone()).unwrap_or_default(),
                        goal: group.0,
                    });
                }
            }
            ComponentKind::Link(id) => {
                for terminal in &board[id].positions {
                    let Some(kind) = link_kind(board, show, id, *terminal) else { continue };
                    let goal =
                        components.iter().find(|t| t.kind == ComponentKind::Terminal(*terminal));
                    leads.push(Lead { ends: LeadEnds::Link(id, *terminal), kind, path: None });
                    requests.push(LeadRequest {
                        from: component.body,
                        to: goal.map(|g| vec![g.body]).unwrap_or_default(),
                        goal: board.groups.len() + terminal.0,
                    });
                }
            }
            _ => {}
        }
    }
    let mut words: Vec<Rect> =
        labels.iter().filter_map(|l| l.placed.as_ref()).map(|p| p.area).collect();
    // A leader is as much in the way as its label.
    words.extend(labels.iter().filter_map(|l| l.placed.as_ref()?.leader).flat_map(thin_boxes));
    let obstacles = LeadObstacles {
        bodies: components.iter().map(|component| component.body).collect(),
        labels: words,
        outlines: outlines.to_vec(),
        bounds: bounds.grown(-1.0),
    };
    for (lead, path) in leads.iter_mut().zip(super::route::route(&requests, &obstacles)) {
        lead.path = path;
    }
    leads
}

/// Small boxes along a slanting line, close enough that nothing slips through between them.
pub fn thin_boxes(line: [Point; 2]) -> Vec<Rect> {
    let [a, b] = line;
    let steps = (libm::hypot(b.x - a.x, b.y - a.y) / 0.5).ceil().clamp(1.0, 200.0) as usize;
    (0..=steps)
        .map(|i| {
            let t = i as f64 / steps as f64;
            let middle = Point::new(a.x + (b.x - a.x) * t, a.y + (b.y - a.y) * t);
            Rect::around(middle, Size::new(0.6, 0.6))
        })
        .collect()
}
