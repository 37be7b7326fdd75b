//! The things on a board: each built from what was written, its names resolved.

use super::super::{
    About, Designators, Fuse, GroupId, Heater, Jumper, Link, Panel, Part, PartId, Terminal,
    TerminalId,
};
use super::names::{Directory, Names};
use super::words;
use crate::diagnostic::{Code, Problem, Problems};
use crate::geometry::Point;
use crate::source::Span;
use crate::spec::{self, Field, Name, Spec, Wording};

/// The board's own data.
pub fn about(
    about: &spec::About,
    standard: Option<Designators>,
    problems: &mut Problems,
) -> Option<About> {
    let dated = words::date(&about.dated, problems);
    Some(About {
        name: about.name.value()?.clone(),
        maker: about.maker.value()?.clone(),
        part: about.part.value()?.clone(),
        revision: about.revision.value()?.clone(),
        dated: dated?,
        summary: about.summary.value()?.shown(),
        max_current: optional(&about.max_current)?,
        designators: standard?,
    })
}

/// `parts`.
pub fn parts(spec: &Spec) -> Vec<Option<Part>> {
    let part = |part: &spec::Part| {
        Some(Part {
            name: part.name.value.clone(),
            title: worded(&part.title)?,
            size: *part.size.value()?,
            at: *part.at.value()?,
            span: part.name.span,
        })
    };
    spec.parts.entries.iter().map(part).collect()
}

/// `terminals`.
pub fn terminals(
    spec: &Spec,
    all: &Directory<'_>,
    problems: &mut Problems,
) -> Vec<Option<Terminal>> {
    let terminal = |terminal: &spec::Terminal| {
        let asker = format!("terminal {}", terminal.name.value);
        let place = place(&terminal.place, &asker, all, problems);
        let wire = words::wire(&terminal.wire, problems);
        if !terminal.wire.is_absent() && wire.is_none() {
            return None;
        }
        let (part, at) = place?;
        let ground = optional(&terminal.ground)?.unwrap_or(false);
        let (code, span) = named(&terminal.name);
        Some(Terminal { code, part, at, wire, ground, span })
    };
    spec.terminals.entries.iter().map(terminal).collect()
}

/// `links`.
pub fn links(spec: &Spec, all: &Directory<'_>, problems: &mut Problems) -> Vec<Option<Link>> {
    let mut build = |link: &spec::Link| {
        let asker = format!("link {}", link.name.value);
        let place = place(&link.place, &asker, all, problems);
        let positions = link.joins.get().and_then(|joins| {
            if joins.value.len() < 2 {
                problems.error(
                    Problem::new(
                        Code::NowhereToGo,
                        joins.span,
                        format!("{asker} joins fewer than two terminals"),
                    )
                    .help("a link that never moves is no link; give a group the terminal itself"),
                );
                return None;
            }
            let found = list(&joins.value, &all.terminals, &asker, all, problems)?;
            for (index, name) in found.iter().zip(&joins.value) {
                let terminal = spec.terminals.entries.get(*index);
                if terminal.is_some_and(|terminal| terminal.ground.value() == Some(&true)) {
                    problems.error(
                        Problem::new(
                            Code::GroupOnEarth,
                            name.span,
                            format!("{asker} joins the ground (PE)"),
                        )
                        .note("the ground terminal carries no current of any load"),
                    );
                    return None;
                }
            }
            Some(found)
        });
        let shipped = all.terminals.find_field(&link.shipped, &asker, all, problems);
        shipped_on(&link.joins, positions.as_deref(), &link.shipped, shipped, &asker, problems);
        let (part, at) = place?;
        let positions = positions?.into_iter().map(TerminalId).collect();
        let (code, span) = named(&link.name);
        Some(Link { code, part, at, positions, shipped: TerminalId(shipped?), span })
    };
    spec.links.entries.iter().map(&mut build).collect()
}

/// `jumpers`.
pub fn jumpers(spec: &Spec, all: &Directory<'_>, problems: &mut Problems) -> Vec<Option<Jumper>> {
    let mut build = |jumper: &spec::Jumper| {
        let asker = format!("jumper {}", jumper.name.value);
        let place = place(&jumper.place, &asker, all, problems);
        let groups = jumper.groups.get().and_then(|groups| {
            if groups.value.is_empty() {
                problems.error(
                    Problem::new(
                        Code::NowhereToGo,
                        groups.span,
                        format!("{asker} has no group to go to"),
                    )
                    .label("empty"),
                );
                return None;
            }
            list(&groups.value, &all.groups, &asker, all, problems)
        });
        let shipped = all.groups.find_field(&jumper.shipped, &asker, all, problems);
        shipped_on(&jumper.groups, groups.as_deref(), &jumper.shipped, shipped, &asker, problems);
        let (part, at) = place?;
        let groups = groups?.into_iter().map(GroupId).collect();
        let (code, span) = named(&jumper.name);
        Some(Jumper { code, part, at, groups, shipped: GroupId(shipped?), span })
    };
    spec.jumpers.entries.iter().map(&mut build).collect()
}

/// Reports a shipped position that is not one of those listed.
fn shipped_on(
    listed: &Field<Vec<Name>>,
    found: Option<&[usize]>,
    shipped: &Field<String>,
    on: Option<usize>,
    asker: &str,
    problems: &mut Problems,
) {
    let (Some(listed), Some(found), Some(shipped), Some(on)) =
        (listed.get(), found, shipped.get(), on)
    else {
        return;
    };
    if !found.contains(&on) {
        problems.error(
            Problem::new(
                Code::ShippedElsewhere,
                shipped.span,
                format!("{asker} is shipped on {}, which it does not list", shipped.value),
            )
            .label("not one of its own")
            .other(listed.span, "it may go to these")
            .help("list it, or ship it on one of the listed"),
        );
    }
}

/// `fuses`.
pub fn fuses(spec: &Spec, all: &Directory<'_>, problems: &mut Problems) -> Vec<Option<Fuse>> {
    let mut build = |fuse: &spec::Fuse| {
        let asker = format!("fuse {}", fuse.name.value);
        let place = place(&fuse.place, &asker, all, problems);
        let speed = words::fuse_kind(&fuse.speed, problems)?.map(str::to_owned);
        let (part, at) = place?;
        let (code, span) = named(&fuse.name);
        Some(Fuse { code, part, at, rating: *fuse.rating.value()?, speed, span })
    };
    spec.fuses.entries.iter().map(&mut build).collect()
}

/// `heater`. The outer `None` says that it could not be read.
pub fn heater(spec: &Spec) -> Option<Option<Heater>> {
    match &spec.heater {
        Field::Absent => Some(None),
        Field::Unread => None,
        Field::Is(heater) => {
            let heater = &heater.value;
            Some(Some(Heater { watts: *heater.watts.value()?, at: *heater.at.value()? }))
        }
    }
}

/// `panels`.
pub fn panels(spec: &Spec) -> Vec<Option<Panel>> {
    let panel = |panel: &spec::Panel| {
        let (name, span) = named(&panel.name);
        Some(Panel {
            name,
            title: panel.title.value()?.shown(),
            choose_layout: worded(&panel.choose_layout)?,
            span,
        })
    };
    spec.panels.entries.iter().map(panel).collect()
}

/// Indices of a list of names. Reports unknown ones, and ones that are there twice.
fn list(
    names: &[Name],
    known: &Names<'_>,
    asker: &str,
    all: &Directory<'_>,
    problems: &mut Problems,
) -> Option<Vec<usize>> {
    let mut found: Vec<(usize, Span)> = Vec::new();
    let mut good = true;
    for name in names {
        let Some(index) = known.find(name, asker, all, problems) else {
            good = false;
            continue;
        };
        if let Some((_, first)) = found.iter().find(|(known, _)| *known == index) {
            problems.error(
                Problem::new(
                    Code::ListedTwice,
                    name.span,
                    format!("{asker} lists {} twice", name.value),
                )
                .label("again here")
                .other(*first, "first here"),
            );
            good = false;
            continue;
        }
        found.push((index, name.span));
    }
    good.then(|| found.into_iter().map(|(index, _)| index).collect())
}

/// Part and position of a thing.
pub fn place(
    place: &spec::Place,
    asker: &str,
    all: &Directory<'_>,
    problems: &mut Problems,
) -> Option<(PartId, Point)> {
    let part = all.parts.find_field(&place.part, asker, all, problems)?;
    Some((PartId(part), *place.at.value()?))
}

/// Words that may be absent, as a sheet shows them; the outer `None` says that they could not be read.
fn worded(field: &Field<Wording>) -> Option<Option<String>> {
    optional(field).map(|words| words.map(|words| words.shown()))
}

/// The value of a field that may be absent; the outer `None` says that it could not be read.
pub fn optional<T: Clone>(field: &Field<T>) -> Option<Option<T>> {
    match field {
        Field::Absent => Some(None),
        Field::Unread => None,
        Field::Is(value) => Some(Some(value.value.clone())),
    }
}

/// A name's text and place.
pub fn named(name: &Name) -> (String, Span) {
    (name.value.clone(), name.span)
}
