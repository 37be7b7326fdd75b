//! What differs between two boards, for the change sheet: words of the specification language where
//! the template has its own, values in the words of the language.

use serde::Serialize;

use crate::board::{Board, Speeds, known_effect};
use crate::compare::{
    DecisionChange, JobChange, JobFate, OldWiring, Plug, Presence, Rename, Step, Subject,
    ThingChange,
};
use crate::decide::mistakes::PlannedCase;
use crate::mark::Mark;
use crate::meaning::{Concern, Kind, Property, Value, Which, positions_words, unpadded};
use crate::sheet::compared::ChangeSheet;
use crate::sheet::pictured::{Pictured, pictured};
use crate::sheet::printed::page_ranges;
use crate::sheet::words::{self as clauses, signal};
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
    pictures: Vec<PictureFacts>,
    /// Those with something to do.
    jobs: Vec<JobFacts>,
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
    name: String,
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
struct JobFacts {
    name: String,
    dangers: Vec<DangerFacts>,
    /// Whether there is a difference of which no simulation tells.
    unjudged: bool,
    steps: Vec<StepFacts>,
    /// What is decided otherwise and asks for no work.
    results: Vec<ResultFacts>,
    renames: Vec<RenameFacts>,
}

#[derive(Serialize)]
struct DangerFacts {
    /// As templates write it: `DANGER`.
    signal: &'static str,
    hidden: bool,
    /// Whether it is what several differences do together.
    together: bool,
    mistakes: String,
    signs: Vec<String>,
}

/// A step by its kind; what a kind does not have is null.
#[derive(Default, Serialize)]
struct StepFacts {
    r#do: &'static str,
    /// The thing that hands touch.
    of: String,
    from: Option<String>,
    to: Option<String>,
    /// The device of a plug.
    plug: Option<String>,
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

/// A decision that asks for no work.
#[derive(Serialize)]
struct ResultFacts {
    /// The word for it, which the template says in its own.
    subject: &'static str,
    /// The device or the conductor; empty if it is about the whole job.
    of: String,
    before: Worded,
    after: Worded,
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
        pictures: pictured(sheet).into_iter().map(picture).collect(),
        jobs: jobs
            .iter()
            .filter_map(|job| match (job.fate, &job.case) {
                (JobFate::Changed(change), Some(case)) => {
                    Some(job_facts(words, job.name, change, case))
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
        before: value_of(words, &fact.which, fact.before.as_ref()),
        after: value_of(words, &fact.which, fact.after.as_ref()),
    });
    let name = &change.thing.name;
    ThingFacts {
        kind: change.thing.kind.word(),
        name: match change.thing.kind {
            Kind::Layout => unpadded(name).to_owned(),
            _ => name.clone(),
        },
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

fn places(words: &Words, sheet: &ChangeSheet<'_>, change: &ThingChange) -> Vec<PlaceFacts> {
    let found = sheet.printed.map(|printed| printed.places(&change.thing)).unwrap_or_default();
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
fn value_of(words: &Words, which: &Which, it: Option<&Value>) -> Worded {
    let word = match it {
        Some(Value::Code(word)) => word.as_str(),
        Some(Value::Codes(codes)) if which.property == Property::Wires => {
            let dash =
                |letters: &String| if letters == NONE { "\u{2013}" } else { letters }.to_owned();
            let all: Vec<String> = codes.iter().map(dash).collect();
            return Worded { word: "", text: words.commas(&all) };
        }
        _ => return value(words, it),
    };
    match which.property {
        Property::Effect => match known_effect(word) {
            Some(effect) => Worded { word: "", text: words.effect_name(&effect) },
            None => value(words, it),
        },
        Property::Setting | Property::Position if word == NONE => {
            Worded { word: "", text: words.no_layout_meant() }
        }
        _ => value(words, it),
    }
}

/// The word of a fact for what there is not.
const NONE: &str = "none";

fn job_facts(words: &Words, name: &str, change: &JobChange, case: &PlannedCase<'_>) -> JobFacts {
    JobFacts {
        name: name.to_owned(),
        dangers: change.dangers.iter().map(|found| danger(words, case, found)).collect(),
        unjudged: !change.unjudged.is_empty(),
        steps: change.steps.iter().map(|it| step(words, change, case, it)).collect(),
        results: change.decisions.iter().filter_map(|it| result(words, change, it)).collect(),
        renames: change.renames.iter().map(rename).collect(),
    }
}

/// A decision that asks for no work; `None` for one that is a step.
fn result(words: &Words, job: &JobChange, change: &DecisionChange) -> Option<ResultFacts> {
    let (subject, plug) = match &change.subject {
        Subject::Device(plug) => ("device", Some(plug)),
        Subject::Allowance => ("allowance", None),
        Subject::Group(plug) => ("group", Some(plug)),
        Subject::JumperOf(plug) => ("jumper", Some(plug)),
        Subject::FuseOf(plug) => ("fuse", Some(plug)),
        Subject::Volts(plug) => ("volts", Some(plug)),
        Subject::Amps(plug) => ("amps", Some(plug)),
        Subject::LowAmps(plug) => ("low", Some(plug)),
        Subject::Colours(plug) => ("colors", Some(plug)),
        Subject::HeaterWatts => ("watts", None),
        Subject::Current(_) => ("current", None),
        Subject::Needed => ("needed", None),
        Subject::Smallest => ("smallest", None),
        Subject::Rules => ("rules", None),
        Subject::Capacity => ("capacity", None),
        Subject::Wires => ("wires", None),
        Subject::Drop => ("drop", None),
        Subject::Terminal(_)
        | Subject::Link(_)
        | Subject::Fuse(_)
        | Subject::Jumper(_)
        | Subject::Header(_)
        | Subject::Connector(_)
        | Subject::Pins(_)
        | Subject::ReadFrom(_)
        | Subject::Empty(_)
        | Subject::Switch { .. }
        | Subject::Selector(_)
        | Subject::Entry
        | Subject::Layout => return None,
    };
    let device = plug.and_then(|plug| job.devices.get(plug));
    let of = match &change.subject {
        Subject::Current(conductor) => conductor.to_string(),
        _ => device.map_or_else(String::new, |device| words.device_name(*device)),
    };
    let shown = |it: &Option<Value>| match (subject, it) {
        ("wires" | "rules", Some(Value::Code(word))) => {
            Worded { word: known(word), text: word.clone() }
        }
        _ => value(words, it.as_ref()),
    };
    Some(ResultFacts { subject, of, before: shown(&change.before), after: shown(&change.after) })
}

/// The words of a plan that a template says in its own, by a key; none for others.
fn known(word: &str) -> &'static str {
    match word.split(' ').next() {
        Some("suits") => "suits",
        Some("only") => "terminals",
        Some("not") => "unjudged",
        Some("nec") => "nec",
        Some("iec") => "iec",
        _ => "",
    }
}

fn danger(words: &Words, case: &PlannedCase<'_>, found: &OldWiring) -> DangerFacts {
    let mistakes = found.mistakes.iter().map(|it| clauses::mistake(words, case, *it));
    let sign = |it| clauses::observed(words, case, &found.state, it);
    DangerFacts {
        signal: signal(found.danger()).word(),
        hidden: found.unnoticed(),
        together: found.mistakes.len() > 1,
        mistakes: words.and(&mistakes.collect::<Vec<_>>()),
        signs: found.signs.iter().map(sign).collect(),
    }
}

fn step(words: &Words, change: &JobChange, case: &PlannedCase<'_>, step: &Step) -> StepFacts {
    let connected = |value: &Value| match value {
        Value::Conductor(None) => None,
        other => Some(other.to_string()),
    };
    let shown = |it: &Value| Some(value(words, Some(it)).text);
    let named = |plug: &Plug| change.devices.get(plug).map(|device| words.the_device(*device));
    let moved = |r#do, of: &String, from: &Option<Value>, to: &Value| {
        let (from, to) = (from.as_ref().and_then(shown), shown(to));
        StepFacts { r#do, of: of.clone(), from, to, plug: None }
    };
    let at = |r#do, plug: &Plug, header: &String, to| StepFacts {
        r#do,
        of: header.clone(),
        from: None,
        to,
        plug: named(plug),
    };
    match step {
        Step::Connect { terminal, before, after } => StepFacts {
            from: before.as_ref().and_then(connected),
            to: connected(after),
            ..moved("connect", terminal, &None, after)
        },
        Step::Link { link, from, to } => moved("link", link, from, to),
        Step::Fuse { fuse, before, after } => moved("fuse", fuse, &Some(before.clone()), after),
        Step::Jumper { jumper, from, to } => moved("jumper", jumper, from, to),
        Step::Plug { plug, from, to } => {
            let [from, to] = [from, to].map(|it| it.as_ref().and_then(shown));
            StepFacts { r#do: "plug", of: String::new(), from, to, plug: named(plug) }
        }
        Step::Connector { plug, header } => at("connector", plug, header, None),
        Step::Turn { plug, header, key } => at("turn", plug, header, Some(words.side_name(*key))),
        Step::Pins { plug, header, .. } => {
            let mut devices = case.wiring.devices.iter();
            let device = devices.find(|device| device.fitted == *plug);
            at("pins", plug, header, device.map(|it| clauses::pins(words, &it.pins)))
        }
        Step::Empty { header } => {
            StepFacts { r#do: "empty", of: header.clone(), ..StepFacts::default() }
        }
        Step::Switch { bank, number, on } => StepFacts {
            r#do: if *on { "on" } else { "off" },
            of: bank.clone(),
            from: Some(number.to_string()),
            ..StepFacts::default()
        },
        Step::Selector { selector, from, to } => moved("selector", selector, from, to),
        Step::Layout { from, to } => moved("layout", &String::new(), from, to),
    }
}
