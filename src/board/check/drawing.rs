//! The drawing: nothing on top of anything else, nothing outside its part.

use super::super::footprint::{SELECTOR, bank_size, fixed_sizes, group_size, socket_size};
use super::{Draft, sound};
use crate::diagnostic::{Code, Problem, Problems};
use crate::geometry::{Point, Rect, Side, Size};
use crate::source::{Span, Spanned};
use crate::spec::{self, Field, Name, Spec};

/// How far things may reach into each other, mm: what rounding does, no more.
const SLACK: f64 = 0.001;

/// A thing on a part.
struct Footprint<'a> {
    what: &'static str,
    name: &'a Name,
    part: &'a str,
    /// On its part, mm.
    room: Rect,
    /// Where its position is written.
    place: Span,
}

/// Checks where everything sits.
pub fn check(spec: &Spec, draft: &Draft, problems: &mut Problems) {
    let parts: Vec<Footprint<'_>> = spec.parts.entries.iter().filter_map(part).collect();
    overlaps(&parts, problems);
    let things = things(spec, draft);
    for thing in &things {
        let part = parts.iter().find(|part| part.name.value == thing.part);
        if let Some(part) = part {
            inside(thing, part, problems);
        }
    }
    overlaps(&things, problems);
}

fn part(part: &spec::Part) -> Option<Footprint<'_>> {
    let (size, at) = (part.size.value()?, part.at.get()?);
    let room = Rect::at(at.value, *size);
    Some(Footprint { what: "part", name: &part.name, part: "", room, place: at.span })
}

/// Everything that takes room on a part, in the order of the sections.
fn things<'a>(spec: &'a Spec, draft: &Draft) -> Vec<Footprint<'a>> {
    let [terminal, foot, fuse] = fixed_sizes();
    let mut all = Vec::new();
    for e in &spec.terminals.entries {
        all.extend(thing("terminal", &e.name, &e.place, terminal));
    }
    for e in &spec.links.entries {
        all.extend(thing("link", &e.name, &e.place, foot));
    }
    for e in &spec.groups.entries {
        let tabs = match e.tabs {
            Field::Unread => continue,
            Field::Absent => 1,
            Field::Is(Spanned { value, .. }) => value,
        };
        all.extend(thing("group", &e.name, &e.place, group_size(tabs)));
    }
    for e in &spec.jumpers.entries {
        all.extend(thing("jumper", &e.name, &e.place, foot));
    }
    for e in &spec.fuses.entries {
        all.extend(thing("fuse", &e.name, &e.place, fuse));
    }
    for (index, e) in spec.headers.entries.iter().enumerate() {
        // A header that is broken otherwise may still be drawn.
        let family = match sound(&draft.headers, index) {
            Some(header) => sound(&draft.sockets, header.socket.0),
            None => e.socket.value().and_then(|name| {
                draft.sockets.iter().flatten().find(|socket| socket.name == *name)
            }),
        };
        if let (Some(family), false) = (family, e.key.is_unread()) {
            let size = socket_size(family, e.key.value().copied());
            all.extend(thing("header", &e.name, &e.place, size));
        }
    }
    for e in &spec.switches.entries {
        let ways = e.ways.entries.iter().filter_map(|w| spec::way_range(&w.name.value));
        let (Some(ways), Some(side)) = (ways.map(|(_, last)| last).max(), e.on_side.value()) else {
            continue;
        };
        let side: Side = *side;
        all.extend(thing("switch bank", &e.name, &e.place, bank_size(ways, side)));
    }
    for e in &spec.selectors.entries {
        all.extend(thing("selector", &e.name, &e.place, SELECTOR));
    }
    all
}

fn thing<'a>(
    what: &'static str,
    name: &'a Name,
    place: &'a spec::Place,
    size: Size,
) -> Option<Footprint<'a>> {
    let (part, at) = (place.part.value()?, place.at.get()?);
    let room = Rect::around(at.value, size);
    Some(Footprint { what, name, part, room, place: at.span })
}

fn inside(thing: &Footprint<'_>, part: &Footprint<'_>, problems: &mut Problems) {
    let board = Rect::at(Point::default(), part.room.size());
    if board.grown(SLACK).contains(&thing.room) {
        return;
    }
    let (what, name) = (thing.what, &thing.name.value);
    let Rect { left, top, right, bottom } = thing.room;
    problems.error(
        Problem::new(
            Code::OutsidePart,
            thing.place,
            format!("{what} {name} does not lie on part {} as a whole", part.name.value),
        )
        .label(format!(
            "reaches from {left:.1} to {right:.1} mm across and from {top:.1} to {bottom:.1} mm down"
        ))
        .other(
            part.name.span,
            format!("this part is {} by {} mm", board.width(), board.height()),
        ),
    );
}

/// Reports each thing that lies on an earlier one, once.
fn overlaps(things: &[Footprint<'_>], problems: &mut Problems) {
    for (index, thing) in things.iter().enumerate() {
        let room = thing.room.grown(-SLACK);
        let under =
            things.iter().take(index).find(|t| t.part == thing.part && t.room.overlaps(&room));
        if let Some(under) = under {
            let (what, name) = (thing.what, &thing.name.value);
            let (other, other_name) = (under.what, &under.name.value);
            problems.error(
                Problem::new(
                    Code::Overlap,
                    thing.place,
                    format!("{what} {name} lies on top of {other} {other_name}"),
                )
                .label(size_label(what, name, thing.room.size()))
                .other(under.place, size_label(other, other_name, under.room.size()))
                .note("places are the middle of a thing; a part's place is its top left corner"),
            );
        }
    }
}

fn size_label(what: &str, name: &str, size: Size) -> String {
    format!("{what} {name} takes {:.1} by {:.1} mm", size.width, size.height)
}
