//! How the layout number is entered: on a panel, by ways of a switch bank, or by a rotary selector.

use super::super::{Effect, LayoutNumber, Meaning, PartId, Position, Selector};
use super::names::Directory;
use super::things::{named, place};
use super::{Draft, looks, sound};
use crate::diagnostic::{Code, Problem, Problems};
use crate::source::Span;
use crate::spec::{self, Field, Name, Spec, Use};

/// The words for a setting that sets no layout.
const NO_LAYOUT: &str = "no layout";
/// The most positions of a selector, and the longest name of one.
const POSITIONS: usize = 24;
const NAME: usize = 3;

/// `selectors`.
pub fn selectors(
    spec: &Spec,
    all: &Directory<'_>,
    problems: &mut Problems,
) -> Vec<Option<Selector>> {
    let mut build = |selector: &spec::Selector| {
        let (code, span) = named(&selector.name);
        let what = format!("selector {code}");
        let place = place(&selector.place, &what, all, problems);
        let positions = selector.positions.get().and_then(|written| {
            let read = positions(&what, &written.value, written.span, problems)?;
            Some((read, shipped(&what, &selector.shipped, &written.value, problems)?))
        });
        let (part, at): (PartId, _) = place?;
        let (positions, shipped) = positions?;
        Some(Selector { code, part, at, positions, shipped, span })
    };
    spec.selectors.entries.iter().map(&mut build).collect()
}

fn positions(
    what: &str,
    written: &[(Name, Name)],
    span: Span,
    problems: &mut Problems,
) -> Option<Vec<Position>> {
    if !(2..=POSITIONS).contains(&written.len()) {
        let message = format!("{what} has {} positions", written.len());
        problems.error(
            Problem::new(Code::SelectorPosition, span, message)
                .label(format!("a selector has 2 to {POSITIONS}")),
        );
        return None;
    }
    looks::check(written.iter().map(|(name, _)| ("position", name)), problems);
    let read: Vec<Option<Position>> = written
        .iter()
        .map(|(name, layout)| {
            let layout = layout_of(layout, problems);
            let short = (1..=NAME).contains(&name.value.len());
            if !short || !name.value.bytes().all(|b| b.is_ascii_alphanumeric()) {
                let message = format!("`{}` cannot be printed at a position of {what}", name.value);
                problems.error(
                    Problem::new(Code::SelectorPosition, name.span, message)
                        .label(format!("up to {NAME} letters from A to Z and digits"))
                        .help("write it as it is printed on the selector"),
                );
                return None;
            }
            Some(Position { name: name.value.clone(), layout: layout? })
        })
        .collect();
    read.into_iter().collect()
}

fn shipped(
    what: &str,
    shipped: &Field<String>,
    positions: &[(Name, Name)],
    problems: &mut Problems,
) -> Option<usize> {
    let shipped = shipped.get()?;
    let names = || positions.iter().map(|(name, _)| name.value.as_str());
    let found = names().position(|name| name == shipped.value);
    if found.is_none() {
        let all: Vec<&str> = names().collect();
        problems.error(
            Problem::new(
                Code::ShippedElsewhere,
                shipped.span,
                format!("{what} is shipped at {}, which is none of its positions", shipped.value),
            )
            .label("not one of its positions")
            .help(format!("the positions are {}", all.join(", "))),
        );
    }
    found
}

/// The layout that a setting or a position sets: its number, or [`NO_LAYOUT`]. The outer `None` says
/// that it could not be read.
pub fn layout_of(text: &Name, problems: &mut Problems) -> Option<Option<LayoutNumber>> {
    if text.value == NO_LAYOUT {
        return Some(None);
    }
    let digits = text.value.bytes().all(|b| b.is_ascii_digit());
    let number = text.value.parse::<u8>().ok().filter(|_| digits).and_then(LayoutNumber::new);
    if number.is_none() {
        let message = format!("`{}` is neither a layout nor `{NO_LAYOUT}`", text.value);
        let mut problem = Problem::new(Code::WrongLayoutSetting, text.span, message)
            .label("the number of a layout of the matrix belongs here")
            .note(format!("`{NO_LAYOUT}` is for what sets none: the board then drives nothing"));
        if matches!(text.value.to_lowercase().as_str(), "none" | "unused" | "no" | "-" | "0") {
            let help = format!("the words for that are `{NO_LAYOUT}`");
            problem = problem.edit(help, text.span, NO_LAYOUT);
        }
        problems.error(problem);
        return None;
    }
    Some(number)
}

/// Checks that there is one way to enter the number, and that every layout can be entered.
pub fn check(spec: &Spec, draft: &Draft, problems: &mut Problems) {
    let settings = settings(spec, draft);
    one_manner(spec, draft, problems);
    for (what, place, settings) in &settings {
        every_layout(spec, draft, (what, *place), settings, problems);
    }
    if settings.is_empty() && spec.selectors.entries.is_empty() && !by_ways(draft) {
        steps(spec, problems);
    }
}

/// The layout that each setting of ways or each position of a selector sets, with its place.
type Settings = Vec<(Span, Option<LayoutNumber>)>;

/// What sets the layout number, its place, and its settings; only what could be read.
fn settings(spec: &Spec, draft: &Draft) -> Vec<(String, Span, Settings)> {
    let mut all = Vec::new();
    for (index, written) in spec.switches.entries.iter().enumerate() {
        let Some(bank) = sound(&draft.banks, index) else { continue };
        for field in bank.fields.iter().filter(|f| f.effect == Some(Effect::LayoutNumber)) {
            let ways = written.ways.entries.iter().find(|ways| ways.name.span == field.span);
            let Some(Use::Field(it)) = ways.map(|ways| &ways.purpose) else { continue };
            let whens = [&it.when_off, &it.when_on].into_iter().filter_map(|when| when.get());
            let many = it.settings.value().into_iter().flatten().map(|(positions, _)| positions);
            let spans: Vec<Span> =
                many.map(|name| name.span).chain(whens.map(|when| when.span)).collect();
            let found = field.settings.iter().filter_map(|setting| match setting.meaning {
                Meaning::Layout(layout) => Some((*spans.get(setting.written)?, layout)),
                _ => None,
            });
            let mut found: Settings = found.collect();
            found.sort_by_key(|(span, _)| span.start);
            all.push((format!("ways {} of {}", field.label(), bank.code), field.span, found));
        }
    }
    for (index, written) in spec.selectors.entries.iter().enumerate() {
        let Some(selector) = sound(&draft.selectors, index) else { continue };
        let names = written.positions.value().into_iter().flatten().map(|(name, _)| name.span);
        let layouts = selector.positions.iter().map(|position| position.layout);
        let found = names.zip(layouts).collect();
        all.push((format!("selector {}", selector.code), selector.span, found));
    }
    all
}

fn by_ways(draft: &Draft) -> bool {
    let fields = draft.banks.iter().flatten().flat_map(|bank| &bank.fields);
    fields.into_iter().any(|field| field.effect == Some(Effect::LayoutNumber))
}

/// Reports a second way to enter the layout number.
fn one_manner(spec: &Spec, draft: &Draft, problems: &mut Problems) {
    let mut manners: Vec<(String, Span)> = Vec::new();
    let mut locks: Vec<(String, Span)> = Vec::new();
    for bank in draft.banks.iter().flatten() {
        for field in &bank.fields {
            let what = format!("ways {} of {}", field.label(), bank.code);
            match field.effect {
                Some(Effect::LayoutNumber) => manners.push((what, field.span)),
                Some(Effect::LayoutChange) => locks.push((what, field.span)),
                _ => {}
            }
        }
    }
    for selector in &spec.selectors.entries {
        manners.push((format!("selector {}", selector.name.value), selector.name.span));
    }
    let Some((first, place)) = manners.first().cloned() else { return };
    let steps = spec.panels.entries.iter().find_map(|panel| {
        let steps = panel.choose_layout.get()?;
        Some((format!("the steps of panel {}", panel.name.value), steps.span))
    });
    let second = manners.into_iter().skip(1).chain(steps);
    let second = second.map(|(what, span)| (format!("also by {what}"), span));
    let locks = locks.into_iter();
    let locks = locks.map(|(what, span)| (format!("{what} let a panel change it"), span));
    for (label, span) in second.chain(locks) {
        problems.error(
            Problem::new(
                Code::LayoutEnteredTwice,
                span,
                "the layout number is entered in two ways",
            )
            .label(label)
            .other(place, format!("by {first} here"))
            .note("a person who uses the wrong one gets a layout that nobody chose")
            .help("keep the one that this board has"),
        );
    }
}

/// Reports layouts that nothing sets, that two settings set, and that the matrix lacks.
fn every_layout(
    spec: &Spec,
    draft: &Draft,
    (what, place): (&str, Span),
    settings: &Settings,
    problems: &mut Problems,
) {
    // A row that could not be read may be the one that is missing.
    let rows: Option<Vec<LayoutNumber>> =
        draft.layouts.iter().map(|row| row.as_ref().map(|row| row.number)).collect();
    let Some(rows) = rows.filter(|_| spec.layouts.rows.whole) else { return };
    for (index, (span, layout)) in settings.iter().enumerate() {
        let Some(layout) = layout else { continue };
        let earlier = settings.iter().take(index).find(|(_, other)| *other == Some(*layout));
        if let Some((first, _)) = earlier {
            problems.error(
                Problem::new(
                    Code::LayoutSetTwice,
                    *span,
                    format!("two positions of {what} set layout {layout}"),
                )
                .label("again here")
                .other(*first, "first here")
                .help("a layout has one position; write `no layout` at what sets none"),
            );
        } else if !rows.contains(layout) {
            let all: Vec<String> = rows.iter().map(LayoutNumber::to_string).collect();
            let range = all.first().zip(all.last());
            let range = range.map_or_else(String::new, |(f, l)| format!("{f} to {l}"));
            problems.error(
                Problem::new(
                    Code::UnknownLayout,
                    *span,
                    format!("a position of {what} sets layout {layout}, which the matrix lacks"),
                )
                .label(format!("the layouts run from {range}")),
            );
        }
    }
    let set = |number: &&LayoutNumber| settings.iter().any(|(_, layout)| *layout == Some(**number));
    let lacking: Vec<String> =
        rows.iter().filter(|number| !set(number)).map(LayoutNumber::to_string).collect();
    let Some(first) = lacking.first() else { return };
    let message = match lacking.len() {
        1 => format!("no position of {what} sets layout {first}"),
        _ => format!("no position of {what} sets layouts {}", lacking.join(", ")),
    };
    let row = draft.layouts.iter().flatten().find(|row| row.number.to_string() == *first);
    let mut problem = Problem::new(Code::LayoutNotSet, place, message)
        .label("sets the layout number")
        .note("nobody could enter it")
        .help("add the position, or remove the row");
    if let Some(row) = row {
        problem = problem.other(row.span, "no position sets this row");
    }
    problems.error(problem);
}

/// Where the number is entered at a panel, each panel needs its steps.
fn steps(spec: &Spec, problems: &mut Problems) {
    for panel in spec.panels.entries.iter().filter(|panel| panel.choose_layout.is_absent()) {
        let name = &panel.name;
        problems.error(
            Problem::new(
                Code::MissingKey,
                name.span,
                format!("panel {} lacks the key `choose layout`", name.value),
            )
            .label("has no `choose layout`")
            .help(
                "give the steps, or tell what else sets the layout number: ways with \
                 `effect: layout number`, or a selector",
            ),
        );
    }
}
