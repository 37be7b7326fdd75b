//! What differs between two boards, for the change sheet: words of the specification language where
//! the template has its own, values in the words of the language.

mod jobs;
mod steps;

use serde::Serialize;

use crate::board::{Board, Speeds, known_effect};
use crate::compare::{Exchange, FactChange, JobFate, Presence, Rename, ThingChange};
use crate::mark::Mark;
use crate::meaning::{Concern, Kind, Property, Value, Which, positions_words, unpadded};
use crate::sheet::compared::ChangeSheet;
use crate::sheet::pictured::{Pictured, pictured};
use crate::sheet::printed::page_ranges;
use crate::sheet::words::signal;
use crate::units::Length;
use crate::words::Words;

/// What a change sheet shows.
#[derive(Serialize)]
pub struct Change {
    old: About,
    new: About,
    same: bool,
    /// Whether revision and date do not tell that something differs.
    same_revision: bool,
    renames: Vec<RenameFacts>,
    groups: Vec<Group>,
    /// Things that stand where others of their kind stood, a kind at a time, the worst first.
    exchanges: Vec<ExchangeFacts>,
    pictures: Vec<PictureFacts>,
    /// Those with something to do.
    jobs: Vec<jobs::JobFacts>,
    /// Those that are refused now.
    refused: Vec<Refused>,
    /// Names of those that were refused and are no more.
    correct: Option<String>,
    /// Names of those that are refused on both boards.
    still_refused: Option<String>,
    /// Names of the others.
    unchanged: Option<String>,
}

#[derive(Serialize)]
struct About {
    revision: String,
    dated: String,
    mark: String,
}

#[derive(Serialize)]
struct RenameFacts {
    /// The word of the specification language.
    kind: &'static str,
    from: String,
    to: String,
}

#[derive(Serialize)]
struct ExchangeFacts {
    kind: &'static str,
    /// As templates write it: `DANGER`.
    signal: &'static str,
    pairs: Vec<ExchangedPair>,
}

#[derive(Serialize)]
struct ExchangedPair {
    /// What stands there.
    now: String,
    /// What stood there.
    was: String,
}

#[derive(Serialize)]
struct Group {
    /// `wiring`, `words`, `drawing` or `record`.
    concern: &'static str,
    things: Vec<ThingFacts>,
    /// Whether the sheets show one of them.
    shown: bool,
}

#[derive(Serialize)]
struct ThingFacts {
    kind: &'static str,
    /// Its label, or what the sheets call it.
    name: String,
    /// Whether the name is what the sheets call it, and no label.
    titled: bool,
    /// The bank of switches, whose name tells what they are.
    bank: Option<String>,
    /// `both`, `new` or `old`: the boards that have it.
    on: &'static str,
    facts: Vec<FactFacts>,
    /// Where the new wiring sheets show it.
    places: Vec<PlaceFacts>,
}

#[derive(Serialize)]
struct PlaceFacts {
    section: String,
    /// `3, 5–7`.
    pages: String,
}

/// What is drawn as it was and as it is.
#[derive(Serialize)]
struct PictureFacts {
    kind: &'static str,
    name: String,
    /// The names of its figures; null where it was not or is not.
    before: Option<String>,
    after: Option<String>,
}

#[derive(Serialize)]
struct FactFacts {
    fact: &'static str,
    of: String,
    before: Worded,
    after: Worded,
}

/// A value, or a word of the specification language that the template says in its own.
#[derive(Serialize)]
struct Worded {
    word: &'static str,
    text: String,
}

#[derive(Serialize)]
struct Refused {
    name: String,
    errors: Vec<ErrorFacts>,
}

#[derive(Serialize)]
struct ErrorFacts {
    code: &'static str,
    message: String,
}

pub fn changes(words: &Words, sheet: &ChangeSheet<'_>) -> Change {
    let [old_mark, new_mark] = sheet.marks;
    let jobs = sheet.jobs;
    let named = |is: fn(&JobFate) -> bool| {
        let all = jobs.iter().filter(|job| is(job.fate)).map(|job| job.name.to_owned());
        let all: Vec<String> = all.collect();
        (!all.is_empty()).then(|| words.and(&all))
    };
    let refused = jobs.iter().filter(|job| matches!(job.fate, JobFate::RefusedNow));
    Change {
        old: about(sheet.old, old_mark),
        new: about(sheet.new, new_mark),
        same: sheet.changes.is_empty(),
        same_revision: !sheet.changes.is_empty()
            && sheet.old.about.is_same_revision(&sheet.new.about),
        renames: sheet.changes.renames.iter().map(rename).collect(),
        groups: groups(words, sheet),
        exchanges: exchanges(&sheet.changes.exchanges),
        pictures: pictured(sheet).into_iter().map(picture).collect(),
        jobs: jobs
            .iter()
            .filter_map(|job| match (job.fate, &job.case) {
                (JobFate::Changed(change), Some(case)) => {
                    Some(jobs::job_facts(words, sheet, job.name, change, case))
                }
                _ => None,
            })
            .collect(),
        refused: refused
            .map(|job| Refused { name: job.name.to_owned(), errors: errors(&job.errors) })
            .collect(),
        correct: named(|fate| matches!(fate, JobFate::FineNow)),
        still_refused: named(|fate| matches!(fate, JobFate::StillRefused)),
        unchanged: named(|fate| matches!(fate, JobFate::Same)),
    }
}

fn errors(all: &[(&'static str, String)]) -> Vec<ErrorFacts> {
    let one =
        |(code, message): &(&'static str, String)| ErrorFacts { code, message: message.clone() };
    all.iter().map(one).collect()
}

fn about(board: &Board, mark: Mark) -> About {
    let about = &board.about;
    let (revision, dated) = (about.revision.clone(), about.dated.to_string());
    About { revision, dated, mark: mark.to_string() }
}

fn rename(rename: &Rename) -> RenameFacts {
    RenameFacts { kind: rename.kind.word(), from: rename.from.clone(), to: rename.to.clone() }
}

fn exchanges(all: &[Exchange]) -> Vec<ExchangeFacts> {
    let of_kind = |kind: &Kind| {
        let pairs = all.iter().filter(|it| it.kind == *kind);
        let pair = |it: &Exchange| ExchangedPair { now: it.now.clone(), was: it.was.clone() };
        let (kind, signal) = (kind.word(), signal(Exchange::danger_of(*kind)).word());
        ExchangeFacts { kind, signal, pairs: pairs.map(pair).collect() }
    };
    // Terminals come first of all kinds of which things can be exchanged.
    Kind::ALL.iter().map(of_kind).filter(|exchange| !exchange.pairs.is_empty()).collect()
}

fn groups(words: &Words, sheet: &ChangeSheet<'_>) -> Vec<Group> {
    let concerns = [
        (Concern::Wiring, "wiring"),
        (Concern::Words, "words"),
        (Concern::Drawing, "drawing"),
        (Concern::Record, "record"),
    ];
    let group = |(concern, word)| {
        let own = sheet.changes.things.iter().filter(|thing| thing.concern == concern);
        let things: Vec<ThingFacts> = own.map(|it| thing(words, sheet, it)).collect();
        let shown = things.iter().any(|thing| !thing.places.is_empty());
        Group { concern: word, things, shown }
    };
    concerns.into_iter().map(group).filter(|group| !group.things.is_empty()).collect()
}

fn thing(words: &Words, sheet: &ChangeSheet<'_>, change: &ThingChange) -> ThingFacts {
    let boards = [sheet.new, sheet.old];
    let facts = change.facts.iter().map(|fact| FactFacts {
        fact: fact.which.property.word(),
        of: of(words, boards, &fact.which),
        before: value_of(words, boards, &fact.which, fact.before.as_ref()),
        after: value_of(words, boards, &fact.which, fact.after.as_ref()),
    });
    let name = &change.thing.name;
    let (name, bank) = match change.thing.kind {
        Kind::Layout => (unpadded(name).to_owned(), None),
        Kind::Switches => match name.rsplit_once(' ') {
            Some((bank, ways)) => {
                let count = if ways.contains('\u{2013}') { 2 } else { 1 };
                (words.count_of_ways(count, ways), Some(bank.to_owned()))
            }
            None => (name.clone(), None),
        },
        kind => (titled(boards, kind, name), None),
    };
    ThingFacts {
        kind: change.thing.kind.word(),
        titled: name != change.thing.name
            && matches!(change.thing.kind, Kind::Supply | Kind::Socket | Kind::Panel | Kind::Part),
        name,
        bank,
        on: match change.presence {
            Presence::Stayed => "both",
            Presence::Added => "new",
            Presence::Removed => "old",
        },
        facts: facts.collect(),
        places: match change.presence {
            Presence::Stayed | Presence::Added => places(words, sheet, change),
            Presence::Removed => Vec::new(),
        },
    }
}

/// What the sheets call a thing that has a name in the specification alone.
fn titled(boards: [&Board; 2], kind: Kind, name: &str) -> String {
    let title = |board: &&Board| {
        let supplies = board.supplies.iter().map(|it| (&it.name, Some(&it.title)));
        let sockets = board.sockets.iter().map(|it| (&it.name, Some(&it.title)));
        let panels = board.panels.iter().map(|it| (&it.name, Some(&it.title)));
        let parts = board.parts.iter().map(|it| (&it.name, it.title.as_ref()));
        let found = match kind {
            Kind::Supply => supplies.clone().find(|(key, _)| *key == name),
            Kind::Socket => sockets.clone().find(|(key, _)| *key == name),
            Kind::Panel => panels.clone().find(|(key, _)| *key == name),
            Kind::Part => parts.clone().find(|(key, _)| *key == name),
            _ => None,
        };
        found.and_then(|(_, title)| title).cloned()
    };
    boards.iter().find_map(title).unwrap_or_else(|| name.to_owned())
}

fn places(words: &Words, sheet: &ChangeSheet<'_>, change: &ThingChange) -> Vec<PlaceFacts> {
    // Of what concerns the whole board the sheets show its highest current.
    let shown = |fact: &FactChange| {
        change.thing.kind != Kind::Board || fact.which.property == Property::MaxCurrent
    };
    let printed = sheet.printed.filter(|_| change.facts.iter().any(shown));
    let found = printed.map(|printed| printed.places(&change.thing)).unwrap_or_default();
    let one = |(section, pages): (String, Vec<usize>)| {
        let pages = super::ranges_words(words, page_ranges(&pages).into_iter());
        PlaceFacts { section, pages }
    };
    found.into_iter().map(one).collect()
}

fn picture(one: Pictured) -> PictureFacts {
    let [before, after] = one.figures();
    let name = one.after.or(one.before).unwrap_or_default();
    PictureFacts { kind: one.kind.word(), name, before, after }
}

/// Of several facts, which.
fn of(words: &Words, boards: [&Board; 2], which: &Which) -> String {
    match which.property {
        Property::Serves => unpadded(&which.of).to_owned(),
        Property::Setting => which.of.to_uppercase(),
        Property::Speeds => {
            let device = boards.iter().find_map(|board| board.device(&which.of));
            device.map_or_else(|| which.of.clone(), |device| words.device_name(device))
        }
        Property::Wires if !which.of.is_empty() => words.one_speed_cord(),
        _ => which.of.clone(),
    }
}

fn value(words: &Words, value: Option<&Value>) -> Worded {
    let text = |text: String| Worded { word: "", text };
    let word = |word| Worded { word, text: String::new() };
    match value {
        None | Some(Value::Conductor(None) | Value::Speeds(Speeds::None)) => word("none"),
        Some(Value::Flag(true)) => word("yes"),
        Some(Value::Flag(false)) => word("no"),
        Some(Value::Side(side)) => text(words.side_name(*side)),
        Some(Value::System(system)) => text(super::supplies::system_words(words, *system)),
        Some(Value::Length(length)) => text(millimeters(words, length.0)),
        Some(Value::At(at)) => {
            text(words.place_on_plan(&millimeters(words, at.x), &millimeters(words, at.y)))
        }
        Some(Value::Size(size)) => {
            let [width, height] = [size.width, size.height].map(|it| millimeters(words, it));
            text(words.width_by_height(&width, &height))
        }
        Some(Value::Factor(factor)) => text(words.shortest(*factor, 4)),
        Some(Value::Pins(pins)) => {
            let names: Vec<String> = pins.iter().map(|pin| words.pin_name(*pin)).collect();
            text(words.commas(&names))
        }
        Some(Value::Positions(positions)) => text(positions_words(positions).to_uppercase()),
        Some(Value::Color(color)) => text(words.wire_letters(*color)),

        Some(Value::Device(device)) => text(words.device_name(*device)),
        Some(Value::Amps(amps)) => text(words.amps(*amps)),
        Some(Value::Volts(volts)) => text(words.volts(*volts)),
        Some(Value::Watts(watts)) => text(words.watts(*watts)),
        Some(other) => text(other.to_string()),
    }
}

fn millimeters(words: &Words, length: f64) -> String {
    words.measure(length, 2, Length::UNIT)
}

/// A value where the fact tells what its words mean.
fn value_of(words: &Words, boards: [&Board; 2], which: &Which, it: Option<&Value>) -> Worded {
    let plain = |text: String| Worded { word: "", text };
    let word = match it {
        Some(Value::Text(steps)) if which.property == Property::Steps => {
            return plain(running(steps, &words.any_layout_number()));
        }
        Some(Value::Code(word)) => word.as_str(),
        Some(Value::Codes(codes)) if which.property == Property::Wires => {
            let dash =
                |letters: &String| if letters == NONE { "\u{2013}" } else { letters }.to_owned();
            let all: Vec<String> = codes.iter().map(dash).collect();
            return plain(words.commas(&all));
        }
        _ => return value(words, it),
    };
    match which.property {
        Property::Effect => match known_effect(word) {
            Some(effect) => plain(words.effect_name(&effect)),
            None => value(words, it),
        },
        Property::Setting | Property::Position if word == NONE => plain(words.no_layout_meant()),
        Property::Socket => plain(titled(boards, Kind::Socket, word)),
        Property::On => plain(titled(boards, Kind::Part, word)),
        _ => value(words, it),
    }
}

/// Steps of a panel as words in one line: without their marks, with words for the number to be entered.
fn running(steps: &str, number: &str) -> String {
    let words = steps.replace("**", "").replace("{{ layout }}", number);
    words.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// The word of a fact for what there is not.
const NONE: &str = "none";
