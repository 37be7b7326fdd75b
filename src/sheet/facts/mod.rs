//! What a template can name: the board and what was decided, as plain words and numbers.
//!
//! Every value is text or a number; it is escaped when it is put into a template. Only `link`
//! fields are Markdown already: a code that leads to its place.

mod changes;
pub mod course;
mod entry;
mod faults;
mod headers;
mod heater_case;
mod intake;
mod job;
mod layouts;
mod limits;
mod remaining;
mod supplies;
mod switches;

pub use entry::setting;
pub use job::plug_figure;

use std::collections::BTreeMap;

use minijinja::Value;
use minijinja::value::{Serde, merge_maps};
use serde::Serialize;

use super::figures::Room;
use super::markdown::escaped;
use super::panel::panel_prose;
use crate::board::{Board, Device, Fuse, LayoutNumber, LayoutSet};
use crate::decide;
use crate::decide::mistakes::PlannedCase;
use crate::decide::{Finding, services};
use crate::english::capital;
use crate::figure::places;
use crate::sheet::compared::ChangeSheet;
use crate::standards::fuses::fuse_letters;
use crate::units::Amps;
use crate::words::Words;

/// All that a template of the wiring sheets can name.
#[derive(Serialize)]
struct Facts {
    board: About,
    parts: Vec<PartFacts>,
    terminals: Vec<TerminalFacts>,
    supplies: Vec<supplies::Supply>,
    groups: Vec<supplies::Group>,
    links: Vec<supplies::Link>,
    headers: Vec<headers::Header>,
    jumpers: Vec<headers::Jumper>,
    fuses: Vec<headers::Fuse>,
    columns: Vec<String>,
    /// Whether one of them is the circulation pump, whatever it is called.
    has_circulation: bool,
    /// Whether a header can serve a circulation pump, with a column for it or without.
    runs_circulation: bool,
    /// Whether it can run an ozonator, a light, a sound system.
    runs_ozonator: bool,
    runs_light: bool,
    runs_sound: bool,
    /// What its own devices run with, or are a cord of, a sentence each.
    own_notes: Vec<String>,
    /// The devices of its own whose current can flow for three hours or more.
    own_continuous: Option<String>,
    /// Those that count for the heater allowance.
    own_counted: Option<String>,
    /// Those that do neither.
    own_others: Option<String>,
    layouts: Vec<layouts::Layout>,
    /// Pairs of layouts that differ in the circulation pump only.
    pairs: Vec<layouts::Pair>,
    questions: Option<layouts::Questions>,
    banks: Vec<switches::Bank>,
    /// What breakers leave beside the heater.
    remaining: Option<remaining::Remaining>,
    /// The heater allowance where it is a current.
    limits: Option<limits::Limits>,
    example: Option<remaining::Example>,
    /// Whether the board plan of the first page leaves room for the table of headers beside it.
    plan_beside_table: bool,
    heater: Option<Heater>,
    /// How the layout number is entered.
    entry: entry::Entry,
    panels: Vec<Panel>,
    /// The wires in the cords of plugs.
    wire_colours: Vec<headers::WireKey>,
}

#[derive(Serialize)]
struct About {
    name: String,
    maker: String,
    part: String,
    revision: String,
    dated: String,
    summary: String,
    max_current: Option<String>,
    designators: &'static str,
}

#[derive(Serialize)]
struct PartFacts {
    title: String,
    width: String,
    height: String,
}

#[derive(Serialize)]
struct TerminalFacts {
    code: String,
    part: String,
    ground: bool,
    wire: Option<String>,
}

#[derive(Serialize)]
struct Heater {
    watts: String,
    volts: String,
}

#[derive(Serialize)]
struct Panel {
    title: String,
    /// The name under which a template puts in its steps: `:: prose NAME`. `None` if the layout
    /// number is not entered on it.
    prose: Option<String>,
}

#[derive(Serialize)]
struct FigureName {
    name: String,
    title: String,
    kind: &'static str,
}

/// Gathers the facts; `figures` are the names and titles of the drawings that there are.
pub fn facts(words: &Words, board: &Board, figures: &[(String, String)]) -> Value {
    with_figures(bare_facts(words, board), figures)
}

/// All that a board says, for sheets with any figures.
pub fn bare_facts(words: &Words, board: &Board) -> Value {
    Value::from(Serde(gathered(words, board)))
}

/// The facts of a board with the names and titles of the drawings that there are.
fn with_figures(facts: Value, figures: &[(String, String)]) -> Value {
    let names = figures.iter().map(|(name, title)| FigureName {
        kind: kind(name),
        name: name.clone(),
        title: title.clone(),
    });
    let names = Value::from(Serde(names.collect::<Vec<_>>()));
    merge_maps([facts, Value::from(BTreeMap::from([("figures", names)]))])
}

/// The facts of a board, and what has room beside or below what.
pub fn facts_of_sheets(
    bare: Value,
    board: &Board,
    figures: &[(String, String)],
    room: Room,
) -> Value {
    let own = BTreeMap::from([
        ("faulty", Value::from(decide::can_be_sampled(board))),
        ("contents_beside_plan", Value::from(room.contents_beside_plan)),
        ("words_beside_supply", Value::from(room.words_beside_supply)),
    ]);
    merge_maps([with_figures(bare, figures), Value::from(own)])
}

/// The facts of a board and its fault finder; `None` if it has none.
pub fn facts_of_board_faults(bare: Value, words: &Words, board: &Board) -> Option<Value> {
    let finder = Value::from(Serde(faults::of_board(words, board)?));
    Some(merge_maps([with_figures(bare, &[]), Value::from(BTreeMap::from([("faults", finder)]))]))
}

/// The same, and what the intake form asks for. `file` is the name of the board's specification.
pub fn facts_of_intake(bare: Value, words: &Words, board: &Board, file: &str) -> Value {
    let form = Value::from(Serde(intake::form(words, board, file)));
    merge_maps([with_figures(bare, &[]), Value::from(BTreeMap::from([("form", form)]))])
}

/// The facts of the new board, and what differs from the old one.
pub fn facts_of_changes(words: &Words, sheet: &ChangeSheet<'_>) -> Value {
    let change = Value::from(Serde(changes::changes(words, sheet)));
    merge_maps([facts(words, sheet.new, &[]), Value::from(BTreeMap::from([("change", change)]))])
}

/// The same, and what was decided for a job with what its plan found. `figures` are those of the
/// sheet.
pub fn facts_of_job(
    words: &Words,
    case: &PlannedCase<'_>,
    findings: &[Finding],
    figures: &[(String, String)],
) -> Value {
    let PlannedCase { board, job, layout, wiring } = *case;
    let decided = Value::from(Serde(job::job(words, board, job, (layout, wiring), findings)));
    let own = BTreeMap::from([("job", decided)]);
    merge_maps([facts(words, board, figures), Value::from(own)])
}

/// Those of [`facts_of_job`] with the fault finder of the job.
pub fn facts_of_job_faults(words: &Words, case: &PlannedCase<'_>, findings: &[Finding]) -> Value {
    let finder = Value::from(Serde(faults::of_job(words, case)));
    let own = BTreeMap::from([("faults", finder)]);
    merge_maps([facts_of_job(words, case, findings, &[]), Value::from(own)])
}

/// Those of [`facts_of_job`]; `wide` if two columns have room on a page.
pub fn facts_of_insert(
    words: &Words,
    case: &PlannedCase<'_>,
    findings: &[Finding],
    figures: &[(String, String)],
    wide: bool,
) -> Value {
    let job = facts_of_job(words, case, findings, figures);
    let own = BTreeMap::from([("wide", Value::from(wide))]);
    merge_maps([job, Value::from(own)])
}

fn gathered(words: &Words, board: &Board) -> Facts {
    Facts {
        board: about(words, board),
        parts: board
            .parts
            .iter()
            .map(|part| PartFacts {
                title: part_title(words, part),
                width: part.size.width.to_string(),
                height: part.size.height.to_string(),
            })
            .collect(),
        terminals: board
            .terminals
            .iter()
            .map(|terminal| TerminalFacts {
                code: terminal.code.clone(),
                part: part_title(words, &board[terminal.part]),
                ground: terminal.ground,
                wire: terminal.wire.map(|wire| words.colour_and_letters(wire)),
            })
            .collect(),
        supplies: supplies::supplies(words, board),
        groups: supplies::groups(words, board),
        links: supplies::links(words, board),
        headers: headers::headers(words, board),
        jumpers: headers::jumpers(words, board),
        fuses: headers::fuses(words, board),
        columns: board.columns.iter().map(|device| words.device_name(*device)).collect(),
        has_circulation: board.columns.contains(&Device::Circulation),
        runs_circulation: runs_circulation(board),
        runs_ozonator: runs(board, Device::Ozonator),
        runs_light: runs(board, Device::Light),
        runs_sound: runs(board, Device::Sound),
        own_notes: own_notes(words, board),
        own_continuous: own(words, board, |device| device.is_continuous()),
        own_counted: own(words, board, |device| device.counts_for_allowance()),
        own_others: own(words, board, |device| {
            !device.is_continuous() && !device.counts_for_allowance()
        }),
        layouts: layouts::layouts(words, board),
        pairs: layouts::pairs(board),
        questions: layouts::questions(words, board),
        banks: switches::banks(words, board),
        remaining: remaining::remaining(words, board),
        limits: limits::limits(words, board),
        example: remaining::example(words, board),
        plan_beside_table: crate::sheet::figures::plan_beside_table(board),
        heater: board.heater.map(|heater| Heater {
            watts: words.watts(heater.watts),
            volts: words.volts(heater.at),
        }),
        entry: entry::entry(words, board),
        panels: board
            .panels
            .iter()
            .enumerate()
            .map(|(index, panel)| Panel {
                title: panel.title.clone(),
                prose: panel.choose_layout.as_ref().map(|_| panel_prose(index)),
            })
            .collect(),
        wire_colours: headers::wire_colours(words, board),
    }
}

/// Whether the board can run a dedicated circulation pump, whether its layouts ask for one or not.
fn runs_circulation(board: &Board) -> bool {
    runs(board, Device::Circulation)
}

fn own_notes(words: &Words, board: &Board) -> Vec<String> {
    let note = |own: &crate::board::OwnDevice| {
        let leader = own.runs_with?;
        Some(capital(&match own.is_cord {
            true => words.cord_of(own.device, leader),
            false => words.runs_with(own.device, leader),
        }))
    };
    board.devices.iter().filter(|own| runs(board, own.device)).filter_map(note).collect()
}

/// The devices of the board's own that are of a kind, as they stand in a sentence; `None` if there is
/// none.
fn own(words: &Words, board: &Board, kind: fn(Device) -> bool) -> Option<String> {
    let all = board.devices.iter().map(|own| own.device);
    let all: Vec<Device> = all.filter(|device| kind(*device) && runs(board, *device)).collect();
    (!all.is_empty())
        .then(|| words.and(&all.iter().map(|it| words.the_device(*it)).collect::<Vec<_>>()))
}

/// Whether the board can run a device.
fn runs(board: &Board, device: Device) -> bool {
    let all = services(board);
    all.iter().flat_map(|service| &service.served).any(|it| it.device == device)
}

/// What a drawing shows: its name without the number at the end.
fn kind(name: &str) -> &'static str {
    let kinds =
        ["board-plan", "supply", "questions", "switches", "selector", "sockets", "turns", "plug"];
    kinds.into_iter().find(|kind| name.starts_with(kind)).unwrap_or("other")
}

fn about(words: &Words, board: &Board) -> About {
    let about = &board.about;
    About {
        name: about.name.clone(),
        maker: about.maker.clone(),
        part: about.part.clone(),
        revision: about.revision.clone(),
        dated: about.dated.to_string(),
        summary: about.summary.clone(),
        max_current: about.max_current.map(|amps| words.amps(amps)),
        designators: match about.designators {
            crate::board::Designators::Y1444 => "ASME Y14.44",
            crate::board::Designators::Iec81346 => "IEC 81346-2",
        },
    }
}

/// The part's title, or its name if it has none.
fn part_title(words: &Words, part: &crate::board::Part) -> String {
    part.title.clone().unwrap_or_else(|| words.part_named(&capital(&part.name)))
}

/// A code that leads to a place, as Markdown.
fn link(code: &str, place: &str) -> Value {
    Value::from_safe_string(format!("[{}](#{})", escaped(code), escaped(place)))
}

/// A header's code that leads to its close-up.
fn socket_link(code: &str) -> Value {
    link(code, &places::socket(code))
}

/// A device in words that stand in a table.
fn device_words(words: &Words, device: Device) -> String {
    words.device_noun(device)
}

/// `20 A time-lag`.
fn fuse_words(words: &Words, fuse: &Fuse) -> String {
    let rating = words.amps(fuse.rating);
    match &fuse.speed {
        Some(kind) => words.fuse_rating(&rating, fuse_letters(kind).unwrap_or(kind)),
        None => rating,
    }
}

/// `1–7, 9`; `None` for all.
fn layout_words(words: &Words, set: &LayoutSet) -> Option<String> {
    match set {
        LayoutSet::All => None,
        LayoutSet::Ranges(ranges) => {
            let numbers = |(first, last): &(LayoutNumber, LayoutNumber)| {
                [first, last].map(|it| usize::from(it.get()))
            };
            Some(ranges_words(words, ranges.iter().map(numbers)))
        }
    }
}

/// Ranges of numbers: `1–7, 9`. Two neighbors are no range.
fn ranges_words(words: &Words, ranges: impl Iterator<Item = [usize; 2]>) -> String {
    let range = |[first, last]: [usize; 2]| {
        let ends = [first, last].map(|it| it.to_string());
        match (last.saturating_sub(first), ends) {
            (0, [only, _]) => only,
            (1, [first, last]) => words.comma(&first, &last),
            (_, [first, last]) => words.layout_range(&first, &last),
        }
    };
    words.commas(&ranges.map(range).collect::<Vec<_>>())
}

/// Amperes to a tenth, rounded down: what may be used is never promised too high.
fn amps_left(words: &Words, amps: Amps) -> String {
    words.amps(Amps((amps.0 * 10.0 + 1e-6).floor() / 10.0))
}
