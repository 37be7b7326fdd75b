//! The work at the box of a job, for the change sheet.

use serde::Serialize;

use super::value;
use crate::board::{Board, Meaning};
use crate::compare::{JobChange, Plug, Set, Stand, Step, field_of};
use crate::decide::PinOrder;
use crate::meaning::{Kind, Value, positions_words};
use crate::sheet::compared::ChangeSheet;
use crate::sheet::pictured::pictured;
use crate::sheet::words as clauses;
use crate::words::Words;

/// A step by its kind; what a kind does not have is null.
#[derive(Default, Serialize)]
pub struct StepFacts {
    r#do: &'static str,
    /// The thing that hands touch.
    of: String,
    /// What was there, or where it is as shipped.
    from: Option<String>,
    /// What belongs there, or where it belongs.
    to: Option<String>,
    /// Whether it stays as the new board is shipped.
    stays: bool,
    /// How it was on the old board, if otherwise and it stays.
    old: Option<String>,
    /// The device of a plug.
    plug: Option<String>,
    /// The side of a key.
    key: Option<String>,
    /// `half`, `clockwise` or `counterclockwise`: how a plug is turned.
    turn: Option<&'static str>,
    /// Wires that move to other cavities.
    moved: Option<String>,
    /// `switch 3`, `switches 1–2`.
    ways: Option<String>,
    /// What they mean now, and meant.
    means: Option<String>,
    meant: Option<String>,
    /// Where they mean what they meant.
    instead: Option<String>,
    /// The names of the figures of the plug's header before and now.
    figures: Option<[String; 2]>,
}

/// A step as a template shows it.
pub fn step(words: &Words, sheet: &ChangeSheet<'_>, change: &JobChange, step: &Step) -> StepFacts {
    let shown = |it: &Value| Some(value(words, Some(it)).text);
    let of = |r#do, of: &String| StepFacts { r#do, of: of.clone(), ..StepFacts::default() };
    match step {
        Step::Place { now, was, .. } => StepFacts { from: Some(was.clone()), ..of("place", now) },
        Step::Connect { terminal, before, after } => StepFacts {
            from: before.as_ref().and_then(connected),
            to: connected(after),
            ..of("connect", terminal)
        },
        Step::Link(set) => setting(words, "link", set),
        Step::Jumper(set) => setting(words, "jumper", set),
        Step::Selector(set) => setting(words, "selector", set),
        Step::Fuse { fuse, before, after } => {
            StepFacts { from: shown(before), to: shown(after), ..of("fuse", fuse) }
        }
        Step::Plug { .. }
        | Step::Connector { .. }
        | Step::Turn { .. }
        | Step::Wires { .. }
        | Step::Pins { .. } => of_plug(words, sheet, change, step),
        Step::Empty { header } => of("empty", header),
        Step::Switch { bank, number, on, shipped, old } => StepFacts {
            from: Some(number.to_string()),
            to: Some(positions(&[*on])),
            stays: *shipped,
            old: old.map(|old| positions(&[old])),
            ..of("switch", bank)
        },
        Step::Meaning { bank, ways, now, was, instead } => {
            let meant = |board, stand| meaning(words, board, (bank, *ways), stand);
            let before = was.as_ref().map(|was| positions(&was.positions));
            let to = positions(&now.positions);
            StepFacts {
                ways: Some(switches(words, *ways)),
                old: before.filter(|before| *before != to),
                to: Some(to),
                means: Some(meant(sheet.new, now)),
                meant: was.as_ref().map(|was| meant(sheet.old, was)),
                instead: instead.as_ref().map(|instead| positions(instead)),
                ..of("meaning", bank)
            }
        }
        Step::Layout { from, to } => StepFacts {
            from: from.as_ref().and_then(shown),
            to: shown(to),
            ..of("layout", &String::new())
        },
    }
}

/// A step at a plug; an empty one for any other.
fn of_plug(words: &Words, sheet: &ChangeSheet<'_>, change: &JobChange, step: &Step) -> StepFacts {
    let shown = |it: &Value| Some(value(words, Some(it)).text);
    let pins = |order: &PinOrder| Some(clauses::pins(words, order));
    let at = |r#do, plug: &Plug, header: &String| StepFacts {
        r#do,
        of: header.clone(),
        plug: change.devices.get(plug).map(|device| words.the_device(*device)),
        ..StepFacts::default()
    };
    match step {
        Step::Plug { plug, from, to, key } => StepFacts {
            from: from.as_ref().and_then(shown),
            to: to.as_ref().and_then(shown),
            key: key.map(|key| words.side_name(key)),
            ..at("plug", plug, &String::new())
        },
        Step::Connector { plug, header } => at("connector", plug, header),
        Step::Turn { plug, header, quarters, key } => StepFacts {
            key: Some(words.side_name(*key)),
            turn: Some(match quarters {
                1 => "clockwise",
                2 => "half",
                _ => "counterclockwise",
            }),
            ..at("turn", plug, header)
        },
        Step::Wires { plug, header, rewiring, now } => {
            let moved = rewiring.moved.iter().map(|pin| words.pin_name(*pin));
            StepFacts {
                from: pins(&rewiring.before),
                to: pins(now),
                moved: Some(words.commas(&moved.collect::<Vec<_>>())),
                figures: figures(sheet, header),
                ..at("wires", plug, header)
            }
        }
        Step::Pins { plug, header, now } => StepFacts { to: pins(now), ..at("pins", plug, header) },
        _ => StepFacts::default(),
    }
}

/// The wire on a terminal, if there is one.
fn connected(value: &Value) -> Option<String> {
    match value {
        Value::Conductor(None) => None,
        other => Some(other.to_string()),
    }
}

/// `switch 3`, `switches 1–2`.
pub fn switches(words: &Words, [first, last]: [u8; 2]) -> String {
    let label = match first == last {
        true => first.to_string(),
        false => format!("{first}\u{2013}{last}"),
    };
    words.count_of_ways(usize::from(last.saturating_sub(first)) + 1, &label)
}

fn setting(words: &Words, r#do: &'static str, set: &Set) -> StepFacts {
    let shown = |it: &Value| Some(value(words, Some(it)).text);
    StepFacts {
        r#do,
        of: set.of.clone(),
        from: shown(&set.shipped),
        to: shown(&set.to),
        stays: set.stays(),
        old: set.old.as_ref().filter(|_| set.stays()).and_then(shown),
        ..StepFacts::default()
    }
}

/// `ON`, `OFF ON`.
fn positions(positions: &[bool]) -> String {
    positions_words(positions).to_uppercase()
}

/// What switches mean, as a sentence: in the words of the board, which are in the language of the sheet.
fn meaning(words: &Words, board: &Board, (bank, ways): (&str, [u8; 2]), stand: &Stand) -> String {
    let field = field_of(board, bank, ways);
    let mut settings = field.into_iter().flat_map(|field| &field.settings);
    let setting = settings.find(|setting| setting.positions == stand.positions);
    let text = match setting.map(|setting| &setting.meaning) {
        Some(Meaning::Words(words)) => words.clone(),
        _ => stand.means.clone(),
    };
    clauses::sentence(words, &text)
}

/// The figures of a header as it was and as it is, if the sheet draws it.
fn figures(sheet: &ChangeSheet<'_>, header: &str) -> Option<[String; 2]> {
    let mut all = pictured(sheet).into_iter();
    let one = all.find(|one| one.kind == Kind::Header && one.after.as_deref() == Some(header))?;
    let [before, after] = one.figures();
    Some([before?, after?])
}
