//! A plan whose names stand in columns at its sides: for a board that is too crowded for them.

use super::components;
use super::draw::Layers;
use super::legend::{Shown, legend};
use super::margin::{self, MarginLabel, Shares};
use super::notes::{Detail, Need, Writer};
use super::setup::Strength;
use super::wording::Wording;
use super::{EDGE, Lead, LeadKind, Naming, Placed, Plan, PlanLabel, Sheet, View, tags};
use crate::geometry::{Point, Rect, Size};
use crate::source::Span;
use crate::text::Typesetter;

/// How much a label says.
#[derive(Clone, Copy, PartialEq)]
enum Fullness {
    /// All that there is to say.
    All,
    /// Its code and where its jumper is; what is left out stands in the tables.
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

/// What is named, in how much room.
struct Sharing {
    named: Vec<Named>,
    sizes: Vec<Size>,
    left: Vec<bool>,
    /// `None` if the board gets no room.
    shares: Option<Shares>,
}

/// The plan with every code in a column. Each jumper's label says which group it is on; leads are
/// not drawn.
pub fn draw(sheet: &Sheet<'_>, set: &mut Typesetter) -> Plan {
    let Sheet { board, show, words, room, window } = *sheet;
    let leads: Vec<Lead> = tags::leads(board, show)
        .into_iter()
        .map(|(jumper, group)| {
            let kind = LeadKind::of(board, show, jumper);
            Lead { jumper, group, kind, tab: None, path: None }
        })
        .collect();
    let shown = |may_go| {
        let (undrawn, part) = (!leads.is_empty(), window.is_some());
        Shown { undrawn, part, may_go, ..Shown::default() }
    };
    let most = legend(board, show, shown(true), room.width, words, set).size.height;
    let room = Size::new(room.width, (room.height - most).max(1.0));

    let mut fullness = Fullness::All;
    let mut sharing = share(sheet, fullness, room, set);
    if sharing.shares.as_ref().is_none_or(|shares| shares.board.width() < room.width / 2.0) {
        fullness = Fullness::Least;
        sharing = share(sheet, fullness, room, set);
    }
    let Sharing { named, sizes, left, shares } = sharing;
    let middle = shares.as_ref().map_or(Rect::at(Point::default(), room), |shares| shares.board);

    let extent = sheet.extent();
    let free = Size::new(middle.width() - 2.0 * EDGE, room.height - 2.0 * EDGE);
    let scale = sheet.fitting(free);
    let drawn = Size::new(extent.width() * scale, extent.height() * scale);
    let rows = shares.as_ref().map_or(0.0, |shares| shares.height(&left));
    let height = rows.max(drawn.height + 2.0 * EDGE).min(room.height);
    let to = Point::new(middle.middle().x - drawn.width / 2.0, (height - drawn.height) / 2.0);
    let view = View { scale, from: extent.corner(), to };
    let outlines = sheet.outlines(&view);
    let mut components = components::gather(board, show, &view, &outlines, false, (words, set));
    components.retain(|component| sheet.shows(component.at));

    let sites: Vec<Point> = named.iter().map(|named| view.point(named.site)).collect();
    let places: Vec<Option<MarginLabel>> = match &shares {
        Some(shares) => shares.place(&sites, &sizes, &left, height).into_iter().map(Some).collect(),
        None => vec![None; named.len()],
    };
    let labels = named.into_iter().zip(places).map(|(named, place)| named.placed(place)).collect();
    let legend = legend(board, show, shown(fullness == Fullness::All), room.width, words, set);
    let frame = window.map(|_| view.rect(extent));
    let layers = Layers { components, labels, tags: Vec::new(), leads, outlines, frame };
    sheet.plan(layers, (Naming::InColumns, scale), Size::new(room.width, height), legend)
}

/// Shares a room between the labels and the board.
fn share(sheet: &Sheet<'_>, fullness: Fullness, room: Size, set: &mut Typesetter) -> Sharing {
    let named = named(sheet, fullness, set);
    let sites: Vec<Point> = named.iter().map(|named| named.site).collect();
    let sizes: Vec<Size> = named.iter().map(|named| named.wording.size()).collect();
    let left = margin::at_left(&sites);
    let shares = margin::share(&sizes, &left, room);
    Sharing { named, sizes, left, shares }
}

impl Named {
    /// The label where it was placed, if it was.
    fn placed(self, place: Option<MarginLabel>) -> PlanLabel {
        PlanLabel {
            code: self.code,
            span: self.span,
            strength: self.strength,
            variants: vec![self.wording],
            placed: place.map(|place| Placed {
                area: place.area,
                variant: 0,
                leader: place.leader,
                from_right: place.at_left,
            }),
        }
    }
}

/// Every code of the board and every title of a part, each in one row.
fn named(sheet: &Sheet<'_>, fullness: Fullness, set: &mut Typesetter) -> Vec<Named> {
    let Sheet { board, show, words, .. } = *sheet;
    // In board mm: the scale follows from the labels.
    let all = components::gather(board, show, &View::LIFE_SIZE, &[], false, (words, set));
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
    for component in all.iter().filter(|component| sheet.shows(component.at)) {
        let notes = writer.notes(component, Detail::Codes, &[]);
        let Some(note) = notes.into_iter().find(|note| note.need != Need::IfRoom) else {
            continue;
        };
        let wording = one_row(note.variants, fullness);
        named.push(Named {
            code: component.code.clone(),
            span: component.span,
            strength: component.strength,
            site: component.at,
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
