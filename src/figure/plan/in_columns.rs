//! A plan whose names stand in columns at its sides: for a board that is too crowded for them.

use super::components::{self, Component};
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

    let rows = shares.as_ref().map_or(0.0, |shares| shares.height(&left));
    let gather = |view: &View, set: &mut Typesetter| {
        let outlines = sheet.outlines(view);
        let mut components = components::gather(board, show, view, &outlines, false, (words, set));
        components.retain(|component| sheet.shows(component.at));
        components
    };
    // What lies on the edge of a window reaches over it, so the drawing is made once without and
    // once with the room for that.
    let lying = Lying::new(sheet, middle, room.height, rows, Overhang::default());
    let over = lying.overhang(&gather(&lying.view, set));
    let lying = Lying::new(sheet, middle, room.height, rows, over);
    let Lying { view, height, extent } = lying;
    let components = gather(&view, set);
    let outlines = sheet.outlines(&view);

    let sites: Vec<Point> = named.iter().map(|named| view.point(named.site)).collect();
    let places: Vec<Option<MarginLabel>> = match &shares {
        Some(shares) => shares.place(&sites, &sizes, &left, height).into_iter().map(Some).collect(),
        None => vec![None; named.len()],
    };
    let labels = named.into_iter().zip(places).map(|(named, place)| named.placed(place)).collect();
    let legend = legend(board, show, shown(fullness == Fullness::All), room.width, words, set);
    let frame = window.map(|_| view.rect(extent));
    let layers = Layers { components, labels, tags: Vec::new(), leads, outlines, frame };
    sheet.plan(layers, (Naming::InColumns, view.scale), Size::new(room.width, height), legend)
}

/// How far components reach over each edge of the drawn part, mm.
#[derive(Clone, Copy, Default)]
struct Overhang {
    left: f64,
    right: f64,
    top: f64,
    bottom: f64,
}

/// How the drawn part lies between the columns.
struct Lying {
    view: View,
    /// How high the picture is without its legend, mm.
    height: f64,
    /// The drawn part, board mm.
    extent: Rect,
}

impl Lying {
    /// As large as it can be between the columns, at most `most` high and no lower than their `rows`.
    fn new(sheet: &Sheet<'_>, middle: Rect, most: f64, rows: f64, over: Overhang) -> Lying {
        let extent = sheet.extent();
        let across = 2.0 * EDGE + over.left + over.right;
        let down = 2.0 * EDGE + over.top + over.bottom;
        let scale = sheet.fitting(Size::new(middle.width() - across, most - down));
        let drawn = Size::new(extent.width() * scale, extent.height() * scale);
        let height = rows.max(drawn.height + down).min(most);
        let to = Point::new(
            middle.left + over.left + (middle.width() - over.left - over.right - drawn.width) / 2.0,
            over.top + (height - over.top - over.bottom - drawn.height) / 2.0,
        );
        Lying { view: View { scale, from: extent.corner(), to }, height, extent }
    }

    fn overhang(&self, components: &[Component]) -> Overhang {
        let frame = self.view.rect(self.extent);
        components.iter().fold(Overhang::default(), |over, component| Overhang {
            left: over.left.max(frame.left - component.body.left),
            right: over.right.max(component.body.right - frame.right),
            top: over.top.max(frame.top - component.body.top),
            bottom: over.bottom.max(component.body.bottom - frame.bottom),
        })
    }
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
