//! What differs between two boards, for the change sheet: words of the specification language where
//! the template has its own, values in the words of the language.

use serde::Serialize;

use crate::board::{Board, Speeds};
use crate::compare::{
    Changes, JobChange, JobFate, OldWiring, Plug, Presence, Rename, Step, ThingChange,
};
use crate::decide::mistakes::PlannedCase;
use crate::mark::Mark;
use crate::meaning::{Concern, Kind, Property, Value, Which, unpadded};
use crate::sheet::words::{self as clauses, signal};
use crate::words::Words;

/// What a change sheet is about.
#[derive(Clone, Copy, Debug)]
pub struct ChangeSheet<'a> {
    /// The old board.
    pub old: &'a Board,
    /// The new board.
    pub new: &'a Board,
    /// The content marks of their sheets.
    pub marks: [Mark; 2],
    /// What differs.
    pub changes: &'a Changes,
    /// The jobs that were planned on both.
    pub jobs: &'a [SheetJob<'a>],
}

/// A job of a change sheet.
#[derive(Clone, Debug)]
pub struct SheetJob<'a> {
    /// Its name.
    pub name: &'a str,
    /// What becomes of it.
    pub fate: &'a JobFate,
    /// The job on the new board; `None` if it is refused there.
    pub case: Option<PlannedCase<'a>>,
    /// The codes of what refuses it there.
    pub codes: Vec<&'static str>,
}

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
}

#[derive(Serialize)]
struct ThingFacts {
    kind: &'static str,
    name: String,
    /// `both`, `new` or `old`: the boards that have it.
    on: &'static str,
    facts: Vec<FactFacts>,
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
    codes: String,
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
        groups: groups(words, &sheet.changes.things),
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
            .map(|job| Refused { name: job.name.to_owned(), codes: job.codes.join(", ") })
            .collect(),
        correct: named(|fate| matches!(fate, JobFate::FineNow)),
        still_refused: named(|fate| matches!(fate, JobFate::StillRefused)),
        unchanged: named(|fate| matches!(fate, JobFate::Same)),
    }
}

fn about(board: &Board, mark: Mark) -> About {
    let about = &board.about;
    let (revision, dated) = (about.revision.clone(), about.dated.to_string());
    About { revision, dated, mark: mark.to_string() }
}

fn rename(rename: &Rename) -> RenameFacts {
    RenameFacts { kind: rename.kind.word(), from: rename.from.clone(), to: rename.to.clone() }
}

fn groups(words: &Words, things: &[ThingChange]) -> Vec<Group> {
    let concerns = [
        (Concern::Wiring, "wiring"),
        (Concern::Words, "words"),
        (Concern::Drawing, "drawing"),
        (Concern::Record, "record"),
    ];
    let group = |(concern, word)| Group {
        concern: word,
        things: {
            let own = things.iter().filter(|thing| thing.concern == concern);
            own.map(|it| thing(words, it)).collect()
        },
    };
    concerns.into_iter().map(group).filter(|group| !group.things.is_empty()).collect()
}

fn thing(words: &Words, change: &ThingChange) -> ThingFacts {
    let facts = change.facts.iter().map(|fact| FactFacts {
        fact: fact.which.property.word(),
        of: of(&fact.which),
        before: value(words, fact.before.as_ref()),
        after: value(words, fact.after.as_ref()),
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
    }
}

/// Of several facts, which.
fn of(which: &Which) -> String {
    match which.property {
        Property::Serves => unpadded(&which.of).to_owned(),
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
        Some(Value::Device(device)) => text(words.device_name(*device)),
        Some(Value::Amps(amps)) => text(words.amps(*amps)),
        Some(Value::Volts(volts)) => text(words.volts(*volts)),
        Some(Value::Watts(watts)) => text(words.watts(*watts)),
        Some(other) => text(other.to_string()),
    }
}

fn job_facts(words: &Words, name: &str, change: &JobChange, case: &PlannedCase<'_>) -> JobFacts {
    JobFacts {
        name: name.to_owned(),
        dangers: change.dangers.iter().map(|found| danger(words, case, found)).collect(),
        unjudged: !change.unjudged.is_empty(),
        steps: change.steps.iter().map(|it| step(words, change, case, it)).collect(),
        renames: change.renames.iter().map(rename).collect(),
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
