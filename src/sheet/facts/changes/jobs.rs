//! What is to be done at the box of a job, for the change sheet.

use serde::Serialize;

use super::steps::{StepFacts, step, switches};
use super::{RenameFacts, Worded, rename, value};
use crate::compare::{DecisionChange, JobChange, OldWiring, Origin, Plug, Step, Subject};
use crate::decide::mistakes::PlannedCase;
use crate::document::Signal;
use crate::meaning::Value;
use crate::sheet::compared::ChangeSheet;
use crate::sheet::words::{self as clauses, sentence, signal};
use crate::words::Words;

#[derive(Serialize)]
pub struct JobFacts {
    name: String,
    /// What is dangerous, one box for each signal word, the worst first.
    boxes: Vec<BoxFacts>,
    /// Differences of which no simulation tells.
    unjudged: Vec<ItemFacts>,
    steps: Vec<StepFacts>,
    /// What is decided otherwise and asks for no work.
    results: Vec<ResultFacts>,
    renames: Vec<RenameFacts>,
}

#[derive(Serialize)]
struct BoxFacts {
    /// As templates write it: `DANGER`.
    signal: &'static str,
    found: Vec<DangerFacts>,
    /// Plugs whose wires are not those that the new header asks for.
    unmatched: Vec<StepFacts>,
}

#[derive(Serialize)]
struct DangerFacts {
    /// `old`, `shipped` or `both`: why it can be so.
    origin: &'static str,
    hidden: bool,
    /// Whether it is what several differences do together.
    together: bool,
    /// A clause.
    mistakes: String,
    /// Sentences.
    signs: Vec<String>,
}

/// Something that no simulation judges.
#[derive(Serialize)]
struct ItemFacts {
    /// What it is: `fuse`, `pins`.
    item: &'static str,
    /// Its label, its device or its switches.
    of: String,
    /// The bank of switches.
    bank: Option<String>,
}

/// A decision that asks for no work.
#[derive(Serialize)]
struct ResultFacts {
    /// The word for it, which the template says in its own.
    subject: &'static str,
    /// The device or the conductor; empty if it is about the whole job.
    of: String,
    /// The place of the device in the job's list, from 1, where its name itself is another.
    number: Option<usize>,
    before: Worded,
    after: Worded,
}

pub fn job_facts(
    words: &Words,
    sheet: &ChangeSheet<'_>,
    name: &str,
    change: &JobChange,
    case: &PlannedCase<'_>,
) -> JobFacts {
    JobFacts {
        name: name.to_owned(),
        boxes: boxes(words, sheet, change, case),
        unjudged: change.unjudged.iter().map(|it| item(words, change, it)).collect(),
        steps: change.steps.iter().map(|it| step(words, sheet, change, it)).collect(),
        results: change.decisions.iter().filter_map(|it| result(words, change, it)).collect(),
        renames: change.renames.iter().map(rename).collect(),
    }
}

/// What is dangerous, by signal word.
fn boxes(
    words: &Words,
    sheet: &ChangeSheet<'_>,
    change: &JobChange,
    case: &PlannedCase<'_>,
) -> Vec<BoxFacts> {
    let one = |shown: Signal| {
        let found = change.dangers.iter().filter(|found| signal(found.danger()) == shown);
        let unmatched = change.steps.iter().filter(|step| {
            shown == Signal::Danger && matches!(step, Step::Pins { .. } | Step::Connector { .. })
        });
        BoxFacts {
            signal: shown.word(),
            found: found.map(|found| danger(words, case, found)).collect(),
            unmatched: unmatched.map(|it| step(words, sheet, change, it)).collect(),
        }
    };
    let all = [Signal::Danger, Signal::Warning, Signal::Notice].map(one);
    all.into_iter().filter(|it| !it.found.is_empty() || !it.unmatched.is_empty()).collect()
}

fn danger(words: &Words, case: &PlannedCase<'_>, found: &OldWiring) -> DangerFacts {
    let mistakes = found.mistakes.iter().map(|it| clauses::mistake(words, case, *it));
    let sign = |it| sentence(words, &clauses::observed(words, case, &found.state, it));
    DangerFacts {
        origin: match found.origin {
            Origin::Old => "old",
            Origin::Shipped => "shipped",
            Origin::Both => "both",
        },
        hidden: found.unnoticed(),
        together: found.mistakes.len() > 1,
        mistakes: words.and(&mistakes.collect::<Vec<_>>()),
        signs: found.signs.iter().map(sign).collect(),
    }
}

/// The device of a plug, as a name.
fn device(words: &Words, change: &JobChange, plug: &Plug) -> String {
    change.devices.get(plug).map_or_else(String::new, |device| words.device_name(*device))
}

/// What no simulation judges, by its kind and name.
fn item(words: &Words, change: &JobChange, subject: &Subject) -> ItemFacts {
    let device = |plug: &Plug| device(words, change, plug);
    let (item, of) = match subject {
        Subject::Terminal(code) => ("terminal", code.clone()),
        Subject::Link(code) => ("link", code.clone()),
        Subject::Fuse(code) => ("fuse", code.clone()),
        Subject::Jumper(code) => ("jumper", code.clone()),
        Subject::Header(plug) => ("header", device(plug)),
        Subject::Connector(plug) => ("connector", device(plug)),
        Subject::Switch { number, .. } => ("switches", words.count_of_ways(1, &number.to_string())),
        Subject::Meaning { first, last, .. } => ("switches", switches(words, [*first, *last])),
        Subject::Selector(code) => ("selector", code.clone()),
        Subject::Entry | Subject::Layout => ("layout", String::new()),
        Subject::Shipped(thing) => return self::item(words, change, thing),
        Subject::Pins(plug)
        | Subject::ReadFrom(plug)
        | Subject::Key(plug)
        | Subject::Device(plug)
        | Subject::Group(plug)
        | Subject::JumperOf(plug)
        | Subject::FuseOf(plug)
        | Subject::Volts(plug)
        | Subject::Amps(plug)
        | Subject::LowAmps(plug)
        | Subject::Colours(plug) => ("pins", device(plug)),
        Subject::Place { now, .. } => ("place", now.clone()),
        Subject::Empty(code) => ("header", code.clone()),
        Subject::Allowance
        | Subject::HeaterWatts
        | Subject::Current(_)
        | Subject::Needed
        | Subject::Smallest
        | Subject::Rules
        | Subject::Capacity
        | Subject::Wires
        | Subject::Drop => ("supply", String::new()),
    };
    let bank = match subject {
        Subject::Switch { bank, .. } | Subject::Meaning { bank, .. } => Some(bank.clone()),
        _ => None,
    };
    ItemFacts { item, of, bank }
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
        Subject::Place { .. }
        | Subject::Terminal(_)
        | Subject::Link(_)
        | Subject::Fuse(_)
        | Subject::Jumper(_)
        | Subject::Header(_)
        | Subject::Connector(_)
        | Subject::Pins(_)
        | Subject::ReadFrom(_)
        | Subject::Key(_)
        | Subject::Empty(_)
        | Subject::Switch { .. }
        | Subject::Meaning { .. }
        | Subject::Selector(_)
        | Subject::Shipped(_)
        | Subject::Entry
        | Subject::Layout => return None,
    };
    let number = match &change.subject {
        Subject::Device(Some(place)) => Some(place + 1),
        _ => None,
    };
    let of = match &change.subject {
        Subject::Current(conductor) => conductor.to_string(),
        _ => plug.map_or_else(String::new, |plug| device(words, job, plug)),
    };
    let shown = |it: &Option<Value>| match (subject, it) {
        ("wires" | "rules", Some(Value::Code(word))) => {
            Worded { word: known(word), text: word.clone() }
        }
        _ => value(words, it.as_ref()),
    };
    let (before, after) = (shown(&change.before), shown(&change.after));
    Some(ResultFacts { subject, of, number, before, after })
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
