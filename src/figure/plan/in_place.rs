//! A plan whose names stand inside their components, beside them or near them.

use std::cmp::Ordering;
use std::mem;

use super::components::{self, Component, ComponentKind};
use super::draw::Layers;
use super::label::{self, LabelObstacles, LabelRequest, LabelSide, PlacedLabel};
use super::lattice::LeadObstacles;
use super::legend::{Shown, legend};
use super::notes::{Detail, Need, Writer};
use super::route::{LeadRequest, route};
use super::setup::Strength;
use super::tags::{self, LeadEnd, Tags};
use super::wording::Wording;
use super::{EDGE, Lead, LeadKind, Naming, Placed, Plan, PlanLabel, Sheet, View};
use crate::geometry::{Point, Rect, Side, Size};
use crate::source::Span;
use crate::text::Typesetter;

/// White space over the circuit boards where they have titles, mm.
const TITLES: f64 = 6.5;

/// Half the width of the room in front of a tab, mm.
const LANE: f64 = 1.4;
/// Its depth, mm.
const APPROACH: f64 = 6.0;

/// A board that has no place for more codes than this is too crowded for this kind of plan.
const CROWDED: usize = 12;

/// One lead in so many may be told by its flags alone without another attempt.
const FEW: usize = 10;

/// How much is asked of an attempt.
#[derive(Clone, Copy)]
struct Attempt {
    /// The board is drawn so many times as large as it could be: names may stand round it.
    shrunk: f64,
    /// Tags at the tabs, or the jumpers listed beside their group.
    tagged: bool,
    /// The most that is said beside headers.
    detail: Detail,
}

/// Tried in this order until every code has a place and every lead a way.
const ATTEMPTS: [Attempt; 6] = [
    Attempt { shrunk: 1.0, tagged: true, detail: Detail::Full },
    Attempt { shrunk: 1.0, tagged: true, detail: Detail::Codes },
    Attempt { shrunk: 0.9, tagged: true, detail: Detail::Full },
    Attempt { shrunk: 0.9, tagged: false, detail: Detail::Codes },
    Attempt { shrunk: 0.78, tagged: true, detail: Detail::Titles },
    Attempt { shrunk: 0.66, tagged: true, detail: Detail::Codes },
];

/// The plan that loses the least: first codes, then drawn leads.
pub fn draw(sheet: &Sheet<'_>, set: &mut Typesetter) -> Plan {
    // The most that the legend can be, so that the drawing and it fit in any case.
    let most = Shown { tags: true, undrawn: true, may_go: true, part: false, moved: true };
    let most = legend(sheet.board, sheet.show, most, sheet.room.width, sheet.words, set);
    let mut attempt = |next, known| attempt(sheet, next, most.size.height, known, set);
    let [first, rest @ ..] = ATTEMPTS;
    let mut best = attempt(first, (usize::MAX, usize::MAX));
    for next in rest {
        let known = best.lost();
        let (codes, leads) = known;
        // On a board with many leads the flags carry the few that find no way.
        let few = leads * FEW <= best.layers.leads.len();
        if codes > CROWDED || (codes == 0 && few) {
            break;
        }
        let other = attempt(next, known);
        if other.lost() < known {
            best = other;
        }
    }
    best.drawn(sheet, set)
}

/// All that is on a plan, before it is drawn.
struct Draft {
    layers: Layers,
    scale: f64,
    /// Without the legend.
    size: Size,
}

impl Draft {
    /// How many codes find no place, and how many leads find no way.
    fn lost(&self) -> (usize, usize) {
        let codes = self.layers.labels.iter().filter(|label| label.placed.is_none());
        (codes.count(), undrawn(&self.layers.leads))
    }

    fn drawn(self, sheet: &Sheet<'_>, set: &mut Typesetter) -> Plan {
        let Sheet { board, show, words, room, .. } = *sheet;
        let Layers { tags, leads, .. } = &self.layers;
        let shown = Shown {
            tags: !tags.is_empty(),
            undrawn: undrawn(leads) > 0,
            may_go: true,
            part: false,
            moved: leads.iter().any(|lead| lead.kind == LeadKind::Moved),
        };
        let legend = legend(board, show, shown, room.width, words, set);
        sheet.plan(self.layers, (Naming::InPlace, self.scale), self.size, legend)
    }
}

fn undrawn(leads: &[Lead]) -> usize {
    leads.iter().filter(|lead| lead.path.is_none()).count()
}

/// An attempt that leaves a height for the legend, mm. If it is sure to lose no less than what is `known`,
/// codes and leads, its leads are not looked for.
fn attempt(
    sheet: &Sheet<'_>,
    attempt: Attempt,
    reserved: f64,
    known: (usize, usize),
    set: &mut Typesetter,
) -> Draft {
    let Sheet { board, show, words, room, .. } = *sheet;
    let extent = sheet.extent();
    let titled = board.parts.iter().any(|part| part.title.is_some());
    let above = if titled { TITLES } else { EDGE };
    let free = Size::new(room.width - 2.0 * EDGE, room.height - reserved - above - EDGE);
    let fitting = sheet.fitting(free);
    let scale = fitting * attempt.shrunk;
    let drawn = Size::new(extent.width() * scale, extent.height() * scale);
    let height = extent.height() * fitting + above + EDGE;
    let bounds = Rect::at(Point::default(), Size::new(room.width, height));
    let left = (room.width - drawn.width) / 2.0;
    let top = above + (height - above - EDGE - drawn.height) / 2.0;
    let view = View { scale, from: extent.corner(), to: Point::new(left, top) };
    let outlines = sheet.outlines(&view);

    let components = components::gather(board, show, &view, &outlines, true, (words, set));
    let tags = tags::place(board, show, &components, &outlines, attempt.tagged, set);
    let ground = Ground { components: &components, outlines: &outlines, tags: &tags, bounds };
    let labels = place_labels(sheet, &ground, attempt.detail, set);
    let lost = labels.iter().filter(|label| label.placed.is_none()).count();
    let (known_codes, known_leads) = known;
    // How many leads may find no way, for this to be better than what is known.
    let most_undrawn = match lost.cmp(&known_codes) {
        Ordering::Less => Some(usize::MAX),
        Ordering::Equal => known_leads.checked_sub(1),
        Ordering::Greater => None,
    };
    let leads = route_leads(sheet, &ground, &labels, most_undrawn);
    let Tags { tags, .. } = tags;
    let layers = Layers { components, labels, tags, leads, outlines, frame: None };
    Draft { layers, scale, size: bounds.size() }
}

/// What is on the drawing before its labels and leads.
struct Ground<'a> {
    components: &'a [Component],
    outlines: &'a [Rect],
    tags: &'a Tags,
    bounds: Rect,
}

/// A label that is to be placed.
struct Wanted {
    code: String,
    span: Span,
    /// The circuit board whose headers must all have such a label, or none.
    part: usize,
    /// What it names; `None` for a circuit board.
    kind: Option<ComponentKind>,
    need: Need,
    strength: Strength,
    request: LabelRequest,
}

/// Places all labels, with as much beside the headers of each circuit board as there is room for at
/// all of them. The labels that must be there come first, those that have no place among them.
fn place_labels(
    sheet: &Sheet<'_>,
    ground: &Ground<'_>,
    most: Detail,
    set: &mut Typesetter,
) -> Vec<PlanLabel> {
    let mut detail = vec![most; sheet.board.parts.len()];
    loop {
        let wanted = wanted(sheet, ground, &detail, set);
        let placed = place_in_order(ground, &wanted);
        let mut lowered = false;
        for (label, place) in wanted.iter().zip(&placed) {
            if label.need == Need::AllOrNone
                && place.is_none()
                && let Some(detail) = detail.get_mut(label.part)
                && let Some(less) = detail.less()
                && !lowered
            {
                *detail = less;
                lowered = true;
            }
        }
        if !lowered {
            return kept(wanted, placed);
        }
    }
}

/// What is drawn of the labels. A wire's colour or a fuse's rating is shown at all of their kind or
/// at none: a terminal without a colour would look as if it took no wire.
fn kept(wanted: Vec<Wanted>, placed: Vec<Option<PlacedLabel>>) -> Vec<PlanLabel> {
    let kind = |label: &Wanted| label.kind.as_ref().map(mem::discriminant);
    let short: Vec<_> = wanted
        .iter()
        .zip(&placed)
        .filter(|(label, place)| label.need == Need::IfRoom && place.is_none())
        .map(|(label, _)| kind(label))
        .collect();
    wanted
        .into_iter()
        .zip(placed)
        .filter(|(label, _)| label.need != Need::IfRoom || !short.contains(&kind(label)))
        .map(|(label, place)| PlanLabel {
            code: label.code,
            span: label.span,
            strength: label.strength,
            variants: label.request.variants,
            placed: place.map(|place| Placed {
                area: place.area,
                variant: place.variant,
                leader: place.leader.map(Vec::from).unwrap_or_default(),
                from_right: place.from_right,
            }),
        })
        .collect()
}

/// The labels of all components and circuit boards.
fn wanted(
    sheet: &Sheet<'_>,
    ground: &Ground<'_>,
    detail: &[Detail],
    set: &mut Typesetter,
) -> Vec<Wanted> {
    let Sheet { board, show, words, .. } = *sheet;
    let sizes = show.type_sizes();
    let mut all = Vec::new();
    for (part, outline) in board.parts.iter().zip(ground.outlines) {
        let Some(title) = &part.title else { continue };
        let line = set.line(title, sizes.strong);
        // A strip of the upper edge as long as the title, so that both begin at the corner.
        let right = outline.left + line.width;
        let corner = Rect { right, bottom: outline.top + 0.1, ..*outline };
        let lines = set.lines(title, sizes.strong, outline.width().max(20.0));
        all.push(Wanted {
            code: title.clone(),
            span: part.span,
            part: all.len(),
            kind: None,
            need: Need::Always,
            strength: Strength::Full,
            request: LabelRequest {
                body: corner,
                variants: vec![Wording::lines([line]), Wording::lines(lines)],
                home: ground.bounds,
                first: &[LabelSide::Above],
                far: 2,
            },
        });
    }
    let mut writer = Writer { board, show, words, set, in_columns: false };
    for component in ground.components {
        let part = component.part.0;
        let home = ground.outlines.get(part).copied().unwrap_or(ground.bounds);
        let listed = match component.kind {
            ComponentKind::Group(id) => ground.tags.listed(id),
            _ => &[],
        };
        let detail = detail.get(part).copied().unwrap_or(Detail::Codes);
        for note in writer.notes(component, detail, listed) {
            all.push(Wanted {
                code: component.code.clone(),
                span: component.span,
                part,
                kind: Some(component.kind),
                need: note.need,
                strength: component.strength,
                request: LabelRequest {
                    body: component.body,
                    variants: note.variants,
                    home,
                    first: note.first,
                    far: note.far,
                },
            });
        }
    }
    all
}

/// What must be there first, what may be left out last.
fn place_in_order(ground: &Ground<'_>, wanted: &[Wanted]) -> Vec<Option<PlacedLabel>> {
    let bodies = ground.components.iter().map(|component| component.body);
    let mut obstacles = LabelObstacles {
        bodies: bodies.chain(ground.tags.tags.iter().map(|tag| tag.area)).collect(),
        outlines: ground.outlines.to_vec(),
        reserved: ground.tags.ends.iter().flat_map(approaches).collect(),
        bounds: ground.bounds,
    };
    let mut placed: Vec<Option<PlacedLabel>> = vec![None; wanted.len()];
    for need in [Need::Always, Need::AllOrNone, Need::IfRoom] {
        let now: Vec<usize> =
            (0..wanted.len()).filter(|i| wanted.get(*i).is_some_and(|w| w.need == need)).collect();
        let requests: Vec<LabelRequest> =
            now.iter().filter_map(|i| wanted.get(*i)).map(|w| w.request.clone()).collect();
        for (index, place) in now.into_iter().zip(label::place(&requests, &obstacles)) {
            obstacles.bodies.extend(place.iter().map(|place| place.area));
            let leader = place.iter().filter_map(|place| place.leader);
            obstacles.bodies.extend(leader.flat_map(thin_boxes));
            if let Some(slot) = placed.get_mut(index) {
                *slot = place;
            }
        }
    }
    placed
}

/// The room in front of a tab that its lead comes through.
fn approaches(end: &LeadEnd) -> Vec<Rect> {
    let Some(tab) = end.tab else { return Vec::new() };
    let lane = |from: f64, to: f64| Rect {
        left: tab.middle().x - LANE,
        right: tab.middle().x + LANE,
        top: from,
        bottom: to,
    };
    let above = lane(tab.top - APPROACH, tab.top);
    let below = lane(tab.bottom, tab.bottom + APPROACH);
    match end.from {
        Some(Side::Up) => vec![above],
        Some(_) => vec![below],
        None => vec![above, below],
    }
}

/// Finds a way for every lead, round the components and the words. If more than `most_undrawn` of them can
/// have none, or with `None` in any case, all are left without.
fn route_leads(
    sheet: &Sheet<'_>,
    ground: &Ground<'_>,
    labels: &[PlanLabel],
    most_undrawn: Option<usize>,
) -> Vec<Lead> {
    let Sheet { board, show, .. } = *sheet;
    let mut leads = Vec::new();
    let (mut requests, mut routed) = (Vec::new(), Vec::new());
    for end in &ground.tags.ends {
        let kind = LeadKind::of(board, show, end.jumper);
        let foot = ground.components.iter().find(|c| c.kind == ComponentKind::Jumper(end.jumper));
        if let (Some(foot), Some(to)) = (foot, end.tab) {
            let part = |part: usize| u8::try_from(part + 1).unwrap_or(u8::MAX);
            let parts = [part(foot.part.0), part(board[end.group].part.0)];
            let outline = |part: usize| ground.outlines.get(part).copied().unwrap_or_default();
            let between = outline(foot.part.0).union(&outline(board[end.group].part.0));
            requests.push(LeadRequest { from: foot.body, to, side: end.from, parts, between });
            routed.push(leads.len());
        }
        let (jumper, group, tab) = (end.jumper, end.group, end.tab);
        leads.push(Lead { jumper, group, kind, tab, path: None });
    }
    let placed = || labels.iter().filter_map(|l| l.placed.as_ref());
    let mut words: Vec<Rect> = placed().map(|p| p.area).collect();
    words.extend(ground.tags.tags.iter().map(|tag| tag.area));
    // A leader is as much in the way as its label.
    let leaders = placed().flat_map(|p| p.leader.iter().zip(p.leader.iter().skip(1)));
    words.extend(leaders.flat_map(|(a, b)| thin_boxes([*a, *b])));
    let obstacles = LeadObstacles {
        bodies: ground.components.iter().map(|component| component.body).collect(),
        words,
        outlines: ground.outlines.to_vec(),
        bounds: ground.bounds.grown(-1.0),
    };
    // Those without a tab have none in any case.
    let tabless = leads.len() - requests.len();
    let Some(most_lost) = most_undrawn.and_then(|most| most.checked_sub(tabless)) else {
        return leads;
    };
    for (index, path) in routed.into_iter().zip(route(&requests, &obstacles, most_lost)) {
        if let Some(lead) = leads.get_mut(index) {
            lead.path = path;
        }
    }
    leads
}

/// Small boxes along a slanting line, close enough that nothing slips through between them.
fn thin_boxes(line: [Point; 2]) -> Vec<Rect> {
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
