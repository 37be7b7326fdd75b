//! A plan whose names stand in columns at its sides: for a board that is too crowded for them.

use super::components;
use super::draw::{self, Layers};
use super::legend::{Shown, legend};
use super::margin::{self, MarginLabel};
use super::notes::{Detail, Need, Writer};
use super::setup::{Show, Strength};
use super::wording::Wording;
use super::{
    EDGE, LARGEST_SCALE, Lead, LeadKind, Naming, Placed, Plan, PlanLabel, Sheet, View, tags,
};
use crate::geometry::{Point, Rect, Size};
use crate::source::Span;
use crate::text::Typesetter;

/// How much a label says, tried in this order until the board gets room: all, or its code and where
/// its jumper is. What is left out stands in the tables.
const FULLNESS: [Fullness; 2] = [Fullness::All, Fullness::Least];

#[derive(Clone, Copy, PartialEq)]
enum Fullness {
    All,
    Least,
}

/// What is named, where, and how.
struct Named {
    code: String,
    span: Span,
    strength: Strength,
    /// The middle of what it names, on the board.
    site: Point,
    wording: Wording,
}

/// The plan with every code in a column. Each jumper's label says which group it is on; leads are
/// not drawn.
pub fn draw(sheet: &Sheet<'_>, set: &mut Typesetter) -> Plan {
    let Sheet { board, show, words, room, .. } = *sheet;
    let moved = |jumper| match show {
        Show::Board => false,
        Show::Job(setup) => components::moved(board, setup, jumper),
    };
    let leads: Vec<Lead> = tags::leads(board, show)
        .into_iter()
        .map(|(jumper, group)| {
            let kind = if moved(jumper) { LeadKind::Moved } else { LeadKind::Shipped };
            Lead { jumper, group, kind, tab: None, path: None }
        })
        .collect();
    let shown = Shown { tags: false, undrawn: !leads.is_empty(), columns: true, moved: false };
    let legend = legend(board, show, shown, room.width, words, set);
    let room = Size::new(room.width, (room.height - legend.size.height).max(1.0));

    let sharing = |fullness, set: &mut Typesetter| {
        let named = named(sheet, fullness, set);
        let sites: Vec<Point> = named.iter().map(|named| named.site).collect();
        let sizes: Vec<Size> = named.iter().map(|named| named.wording.size()).collect();
        let left = margin::at_left(&sites);
        let shares = margin::share(&sizes, &left, room);
        (named, sites, sizes, left, shares)
    };
    let [first, then] = FULLNESS;
    let mut found = sharing(first, set);
    if found.4.as_ref().is_none_or(|shares| shares.board.width() < room.width / 2.0) {
        found = sharing(then, set);
    }
    let (named, sites, sizes, left, shares) = found;
    let middle = shares.as_ref().map_or(Rect::at(Point::default(), room), |shares| shares.board);

    let extent = sheet.extent();
    let scale = ((middle.width() - 2.0 * EDGE).max(1.0) / extent.width().max(1.0))
        .min((room.height - 2.0 * EDGE).max(1.0) / extent.height().max(1.0))
        .min(LARGEST_SCALE);
    let drawn = Size::new(extent.width() * scale, extent.height() * scale);
    let rows = shares.as_ref().map_or(0.0, |shares| shares.height(&left));
    let height = rows.max(drawn.height + 2.0 * EDGE).min(room.height);
    let to = Point::new(middle.middle().x - drawn.width / 2.0, (height - drawn.height) / 2.0);
    let view = View { scale, from: extent.corner(), to };
    let frame = view.rect(extent);
    let outlines: Vec<Rect> = sheet
        .outlines(&view)
        .into_iter()
        .map(|outline| clipped(outline, frame))
        .filter(|outline| outline.width() > 0.0 && outline.height() > 0.0)
        .collect();
    let mut components = components::gather(board, show, &view, &outlines, false, (words, set));
    let drawn_middles = middles(sheet).into_iter().map(|middle| sheet.shows(middle));
    let mut is_drawn = drawn_middles.into_iter();
    components.retain(|_| is_drawn.next().unwrap_or(true));

    let sites: Vec<Point> = sites.iter().map(|site| view.point(*site)).collect();
    let places: Vec<Option<MarginLabel>> = match &shares {
        Some(shares) => shares.place(&sites, &sizes, &left, height).into_iter().map(Some).collect(),
        None => vec![None; named.len()],
    };
    let labels: Vec<PlanLabel> = named
        .into_iter()
        .zip(places)
        .map(|(named, place)| PlanLabel {
            code: named.code,
            span: named.span,
            strength: named.strength,
            variants: vec![named.wording],
            placed: place.map(|place| Placed {
                area: place.area,
                variant: 0,
                leader: place.leader,
                from_right: place.at_left,
            }),
        })
        .collect();
    let lost = labels.iter().filter(|l| l.placed.is_none()).map(PlanLabel::name).collect();
    let layers = Layers {
        components: &components,
        labels: &labels,
        tags: &[],
        leads: &[],
        outlines: &outlines,
    };
    let scene = draw::draw(board, show, &layers, words, Size::new(room.width, height), legend);
    Plan {
        scene,
        scale,
        leads,
        bodies: components.into_iter().map(|component| (component.code, component.body)).collect(),
        outlines,
        naming: Naming::InColumns,
        lost,
    }
}

/// The middle of every component, board mm, in the order in which they are gathered.
pub fn middles(sheet: &Sheet<'_>) -> Vec<Point> {
    let view = View { scale: 1.0, from: Point::default(), to: Point::default() };
    let bodies = components::bodies(sheet.board, &view);
    bodies.iter().map(|component| component.body.middle()).collect()
}

/// What of an outline lies in the part that is drawn.
fn clipped(outline: Rect, frame: Rect) -> Rect {
    Rect {
        left: outline.left.max(frame.left),
        top: outline.top.max(frame.top),
        right: outline.right.min(frame.right).max(frame.left),
        bottom: outline.bottom.min(frame.bottom).max(frame.top),
    }
}

/// Every code of the board and every title of a part, each in one row.
fn named(sheet: &Sheet<'_>, fullness: Fullness, set: &mut Typesetter) -> Vec<Named> {
    let Sheet { board, show, words, .. } = *sheet;
    // In board mm: the scale follows from the labels.
    let view = View { scale: 1.0, from: Point::default(), to: Point::default() };
    let all = components::gather(board, show, &view, &[], false, (words, set));
    let mut named = Vec::new();
    for part in board.parts.iter() {
        let Some(title) = &part.title else { continue };
        let site = part.at.moved(part.size.width.min(3.0), part.size.height.min(3.0));
        if !sheet.shows(site) {
            continue;
        }
        named.push(Named {
            code: title.clone(),
            span: part.span,
            strength: Strength::Full,
            site,
            wording: Wording::lines([set.line(title, show.type_sizes().strong)]),
        });
    }
    let mut writer = Writer { board, show, words, set, in_columns: true };
    for component in all.iter().filter(|component| sheet.shows(component.body.middle())) {
        let notes = writer.notes(component, Detail::Codes, &[]);
        let Some(note) = notes.into_iter().find(|note| note.need != Need::IfRoom) else {
            continue;
        };
        let wording = one_row(note.variants, fullness);
        named.push(Named {
            code: component.code.clone(),
            span: component.span,
            strength: component.strength,
            site: component.body.middle(),
            wording,
        });
    }
    named
}

/// The fullest wording, or the one that says the least, in one row.
fn one_row(variants: Vec<Wording>, fullness: Fullness) -> Wording {
    let mut rows = variants.iter().map(|w| Wording::row(w.rows.iter().flatten().cloned()));
    let width = |wording: &Wording| wording.size().width;
    match fullness {
        Fullness::All => rows.next(),
        Fullness::Least => rows.min_by(|a, b| width(a).total_cmp(&width(b))),
    }
    .unwrap_or_default()
}
