//! The job language: one installation of a board, what is fitted and what feeds it.

use super::fields::{Field, Fields, Value, wrong_kind};
use super::intake::{board_path_problem, judge_text};
use super::language::job::{FITTED, JOB, MARKED, RUN, SPEED_AMPS, SPEED_HP};
use super::language::{EQUIPMENT, Form, PATH};
use super::model::Name;
use super::tree::{self, YamlKind, YamlNode};
use super::values::{
    amps, bare_amps, bare_volts, bare_watts, fraction, horsepower, run_length, text, title, whole,
    word,
};
use super::{accepted, first_line, version};
use crate::diagnostic::{Code, Problem, Problems, Reported};
use crate::source::{FileId, Sources, Span, Spanned};
use crate::units::{Amps, Horsepower, Length, Volts, Watts};

/// The smallest job.
pub const SHAPE: &str = "\
lidsheet: 1
job: \"2231\"
board: ../heron-8.yaml    # the path of the board's specification from here
supply: four-wire         # one of the board's supplies
breaker: 50 A
equipment:
  - { device: pump, speeds: 2, volts: 240, amps: { low: 3.1, high: 10.8 } }";

/// A whole job as it is written: nothing decided, no name resolved.
#[derive(Clone, Debug)]
pub struct Job {
    /// `job`: its number or name.
    pub name: Field<String>,
    /// `board`: the specification, relative to the job's own file.
    pub board: Field<String>,
    /// `for`: whose it is.
    pub customer: Field<String>,
    /// `supply`: one of the board's.
    pub supply: Field<String>,
    /// `breaker`.
    pub breaker: Field<Amps>,
    /// `supply run`.
    pub run: Field<SupplyRun>,
    /// `panel`: one of the board's.
    pub panel: Field<String>,
    /// `rules`: a word.
    pub rules: Field<String>,
    /// `marked`.
    pub marked: Field<Marked>,
    /// `equipment`.
    pub equipment: Field<Vec<Fitted>>,
    /// `accepted`: codes of warnings, and why.
    pub accepted: Field<Vec<(Name, Name)>>,
    /// The key `equipment`, or the first key of the file.
    pub equipment_key: Span,
    /// The first key of the file.
    pub place: Span,
}

/// `supply run`: from the breaker to the board.
#[derive(Clone, Debug, PartialEq)]
pub struct SupplyRun {
    /// `length`, one way.
    pub length: Field<Length>,
    /// `conductor`, not yet read: `8 AWG copper`.
    pub conductor: Field<String>,
    /// `terminals`, not yet read: `75 C`.
    pub terminals: Field<String>,
    /// `method` of installation, not yet read: `B2`.
    pub method: Field<String>,
    /// `insulation`, not yet read: `PVC`.
    pub insulation: Field<String>,
    /// `capacity` of one conductor.
    pub capacity: Field<Amps>,
}

/// `marked`: what the plate of the pack or of the tub says.
#[derive(Clone, Debug, PartialEq)]
pub struct Marked {
    /// `minimum circuit ampacity`.
    pub circuit: Field<Amps>,
    /// `largest breaker`.
    pub largest: Field<Amps>,
}

/// One of `equipment`.
#[derive(Clone, Debug)]
pub struct Fitted {
    /// `device`: a word; `pump` alone is a jet pump of whichever number fits.
    pub device: Field<String>,
    /// `speeds`.
    pub speeds: Field<u8>,
    /// `volts` on its plate.
    pub volts: Field<Volts>,
    /// `amps` on its plate.
    pub amps: Field<OfSpeeds<Amps>>,
    /// `hp` on its plate.
    pub hp: Field<OfSpeeds<Horsepower>>,
    /// `power factor` on its plate.
    pub power_factor: Field<f64>,
    /// `watts` on its plate.
    pub watts: Field<Watts>,
    /// `cord`: a word; without it the cord is as it was made.
    pub cord: Field<String>,
    /// The whole entry.
    pub span: Span,
}

/// Equal entries are equal wherever they stand.
impl PartialEq for Fitted {
    fn eq(&self, other: &Self) -> bool {
        self.device == other.device
            && self.speeds == other.speeds
            && self.volts == other.volts
            && self.amps == other.amps
            && self.hp == other.hp
            && self.power_factor == other.power_factor
            && self.watts == other.watts
            && self.cord == other.cord
    }
}

/// One value, or one for each speed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OfSpeeds<T> {
    /// On low, if it is given.
    pub low: Option<Spanned<T>>,
    /// On high, or the only one.
    pub high: Option<Spanned<T>>,
}

/// Reads the job that `file` holds.
///
/// # Errors
/// Only if there is nothing to read: the text is not YAML, or its outermost value is no map. All
/// else is in `problems`, and what could be read is in the result.
pub fn parse_job(
    file: FileId,
    sources: &Sources,
    problems: &mut Problems,
) -> Result<Job, Reported> {
    judge_text(file, sources, problems)?;
    let root = tree::read(file, &sources.file(file).text, problems)?;
    let start = match &root.kind {
        YamlKind::Map(entries) => entries.first().map_or(root.span, |entry| entry.key.span),
        _ => first_line(file, sources),
    };
    let mut top = Fields::open(&root, "the job", start, &JOB, problems);
    if !top.is_readable() {
        let message = "the file's outermost value is not a map of keys and values";
        return Err(problems
            .failed()
            .unwrap_or_else(|| problems.error(Problem::new(Code::WrongKind, start, message))));
    }
    top.require(SHAPE, problems);
    top.get("lidsheet", problems, version);
    Ok(Job {
        name: top.get("job", problems, title),
        board: top.get("board", problems, board),
        customer: top.get("for", problems, title),
        supply: top.get("supply", problems, word),
        breaker: top.get("breaker", problems, amps),
        run: top.get("supply run", problems, |value, problems| {
            let place = top.key_span("supply run").unwrap_or(start);
            supply_run(value, place, problems)
        }),
        panel: top.get("panel", problems, word),
        rules: top.get("rules", problems, word),
        marked: top.get("marked", problems, |value, problems| {
            marked(value, top.key_span("marked").unwrap_or(start), problems)
        }),
        equipment: top.get("equipment", problems, equipment),
        accepted: top.get("accepted", problems, accepted),
        equipment_key: top.key_span("equipment").unwrap_or(start),
        place: start,
    })
}

/// A path that can be followed to a specification.
fn board(value: Value<'_>, problems: &mut Problems) -> Option<String> {
    let span = value.node.span;
    let path = text(value, PATH, problems)?;
    match board_path_problem(&path, span) {
        None => Some(path),
        Some(problem) => {
            problems.error(problem);
            None
        }
    }
}

fn supply_run(value: Value<'_>, place: Span, problems: &mut Problems) -> Option<SupplyRun> {
    let fields = Fields::open(value.node, "the supply run", place, &RUN, problems);
    fields.is_readable().then(|| SupplyRun {
        length: fields.get("length", problems, run_length),
        conductor: fields.get("conductor", problems, word),
        terminals: fields.get("terminals", problems, word),
        method: fields.get("method", problems, word),
        insulation: fields.get("insulation", problems, word),
        capacity: fields.get("capacity", problems, amps),
    })
}

fn marked(value: Value<'_>, place: Span, problems: &mut Problems) -> Option<Marked> {
    let fields = Fields::open(value.node, "what is marked", place, &MARKED, problems);
    fields.is_readable().then(|| Marked {
        circuit: fields.get("minimum circuit ampacity", problems, amps),
        largest: fields.get("largest breaker", problems, amps),
    })
}

fn equipment(value: Value<'_>, problems: &mut Problems) -> Option<Vec<Fitted>> {
    let YamlKind::List(items) = &value.node.kind else {
        wrong_kind(value.node, &value.name, "a list of devices", problems);
        return None;
    };
    if let Some(beyond) = items.get(EQUIPMENT) {
        let message = format!("the job has more than {EQUIPMENT} devices");
        let label = format!("number {}", EQUIPMENT + 1);
        problems.error(Problem::new(Code::TooMany, beyond.span, message).label(label));
    }
    let read = items.iter().take(EQUIPMENT).zip(1..);
    Some(read.map(|(node, number)| fitted(node, number, problems)).collect())
}

fn fitted(node: &YamlNode, number: usize, problems: &mut Problems) -> Fitted {
    let named = device_word(node);
    let what = match &named {
        Some(name) => format!("entry {number} ({})", name.value),
        None => format!("entry {number}"),
    };
    let place = named.map_or(node.span, |name| name.span);
    let fields = Fields::open(node, what, place, &FITTED, problems);
    Fitted {
        device: fields.get("device", problems, word),
        speeds: fields.get("speeds", problems, |v, p| whole(v, 1, 2, p)),
        volts: fields.get("volts", problems, bare_volts),
        amps: fields.get("amps", problems, |v, p| of_speeds(v, p, &SPEED_AMPS, bare_amps)),
        hp: fields.get("hp", problems, |v, p| of_speeds(v, p, &SPEED_HP, horsepower)),
        power_factor: fields.get("power factor", problems, fraction),
        watts: fields.get("watts", problems, bare_watts),
        cord: fields.get("cord", problems, word),
        span: node.span,
    }
}

/// What an entry calls its device, to name the entry by, if it can be read.
fn device_word(node: &YamlNode) -> Option<Name> {
    let YamlKind::Map(entries) = &node.kind else { return None };
    let entry = entries.iter().find(|entry| entry.key.value == "device")?;
    let YamlKind::Text(word) = &entry.value.kind else { return None };
    let short = word.trim();
    (short.chars().count() <= 24 && !short.contains(char::is_control))
        .then(|| Spanned::new(short.to_owned(), entry.value.span))
}

/// `3.1`, or `{ low: 3.1, high: 10.8 }`.
fn of_speeds<T>(
    value: Value<'_>,
    problems: &mut Problems,
    form: &'static Form,
    read: impl Fn(Value<'_>, &mut Problems) -> Option<T>,
) -> Option<OfSpeeds<T>> {
    let node = value.node;
    if !matches!(node.kind, YamlKind::Map(_)) {
        let high = read(value, problems)?;
        return Some(OfSpeeds { low: None, high: Some(Spanned::new(high, node.span)) });
    }
    let fields = Fields::open(node, value.name, node.span, form, problems);
    let low = fields.get("low", problems, &read);
    let high = fields.get("high", problems, &read);
    // What could not be read is reported, and half of it is of no use.
    if low.is_unread() || high.is_unread() {
        return None;
    }
    let spanned = |field: Field<T>| match field {
        Field::Is(value) => Some(value),
        _ => None,
    };
    Some(OfSpeeds { low: spanned(low), high: spanned(high) })
}
