//! The wire types of `changes --format json`. The keys are an interface; values are words and numbers
//! of the specification language.

use serde::Serialize;

use super::words;
use crate::board::Board;
use crate::build::{ComparedJob, Comparison};
use crate::compare::{
    Exchange, JobChange, JobFate, OldWiring, Origin, Presence, Rename, ThingChange,
};
use crate::compile::mark_of_board;
use crate::decide::mistakes::PlannedCase;
use crate::meaning::{Concern, Value};
use crate::report::{ProblemJson, danger_word};
use crate::sheet::words as sheet_words;
use crate::words::Words;

/// What differs between two boards. All but the problems is null if one of them has errors.
#[derive(Debug, Serialize)]
pub struct ChangesJson {
    old: Option<BoardJson>,
    new: Option<BoardJson>,
    /// Whether anything differs.
    differs: Option<bool>,
    renames: Option<Vec<RenameJson>>,
    /// Things that now stand where another of their kind was.
    exchanges: Option<Vec<ExchangeJson>>,
    changes: Option<Vec<ChangeJson>>,
    /// What differs besides in further languages of the words.
    in_languages: Option<Vec<InLanguageJson>>,
    jobs: Option<Vec<JobJson>>,
    problems: Vec<ProblemJson>,
}

#[derive(Debug, Serialize)]
struct BoardJson {
    name: String,
    part: String,
    revision: String,
    dated: String,
    /// The content mark of its English sheets.
    mark: String,
}

#[derive(Debug, Serialize)]
struct RenameJson {
    kind: &'static str,
    from: String,
    to: String,
}

#[derive(Debug, Serialize)]
struct ExchangeJson {
    kind: &'static str,
    /// What stands there.
    now: String,
    /// What stood there.
    was: String,
    danger: &'static str,
}

/// What differs about one thing, under its new name.
#[derive(Debug, Serialize)]
struct ChangeJson {
    /// `wiring`, `words`, `drawing` or `record`.
    concern: &'static str,
    kind: &'static str,
    name: String,
    /// `both`, `new` or `old`: the boards that have it.
    on: &'static str,
    facts: Vec<FactJson>,
}

#[derive(Debug, Serialize)]
struct InLanguageJson {
    /// The tag of the language.
    language: String,
    changes: Vec<ChangeJson>,
}

#[derive(Debug, Serialize)]
struct FactJson {
    fact: &'static str,
    /// Of several facts of this name, which: a terminal, a layout, positions of switches.
    of: Option<String>,
    before: Option<String>,
    after: Option<String>,
}

#[derive(Debug, Serialize)]
struct JobJson {
    job: String,
    file: String,
    /// `same`, `changed`, `refused now`, `correct now` or `still refused`.
    result: &'static str,
    /// What the old wiring does on the new board, or that board as it is shipped, where that is dangerous.
    dangers: Vec<DangerJson>,
    /// Differences that no simulation judges.
    not_simulated: Vec<String>,
    /// What to do at the locked-off box with the new board, which is as it is shipped, in order.
    steps: Vec<String>,
    renames: Vec<RenameJson>,
    decisions: Vec<DecisionJson>,
    /// What is wrong with it on the new board.
    problems: Vec<ProblemJson>,
}

#[derive(Debug, Serialize)]
struct DangerJson {
    /// `old wiring`, `as shipped` or `both`: why it can be so.
    because: &'static str,
    mistakes: Vec<String>,
    danger: &'static str,
    noticed: bool,
    signs: Vec<String>,
}

#[derive(Debug, Serialize)]
struct DecisionJson {
    decision: String,
    before: Option<String>,
    after: Option<String>,
}

impl ChangesJson {
    /// The wire form.
    pub fn new(found: &Comparison, problems: Vec<ProblemJson>) -> Self {
        let both = found.boards().zip(found.changes.as_ref());
        let Some(((old, new), changes)) = both else {
            let (old, new, differs) = (None, None, None);
            let (renames, exchanges, changes) = (None, None, None);
            let (in_languages, jobs) = (None, None);
            return Self {
                old,
                new,
                differs,
                renames,
                exchanges,
                changes,
                in_languages,
                jobs,
                problems,
            };
        };
        Self {
            old: Some(board(old)),
            new: Some(board(new)),
            differs: found.differs(),
            renames: Some(changes.renames.iter().map(rename).collect()),
            exchanges: Some(changes.exchanges.iter().map(exchange).collect()),
            changes: Some(changes.things.iter().map(change).collect()),
            in_languages: Some(found.in_languages.iter().map(in_language).collect()),
            jobs: Some(found.jobs.iter().map(|one| job(one, new)).collect()),
            problems,
        }
    }
}

fn board(board: &Board) -> BoardJson {
    let about = &board.about;
    BoardJson {
        name: about.name.clone(),
        part: about.part.clone(),
        revision: about.revision.clone(),
        dated: about.dated.to_string(),
        mark: mark_of_board(board).to_string(),
    }
}

fn rename(rename: &Rename) -> RenameJson {
    RenameJson { kind: rename.kind.word(), from: rename.from.clone(), to: rename.to.clone() }
}

fn exchange(exchange: &Exchange) -> ExchangeJson {
    ExchangeJson {
        kind: exchange.kind.word(),
        now: exchange.now.clone(),
        was: exchange.was.clone(),
        danger: danger_word(Exchange::danger_of(exchange.kind)),
    }
}

fn in_language((language, changes): &(String, Vec<ThingChange>)) -> InLanguageJson {
    let changes = changes.iter().map(change).collect();
    InLanguageJson { language: language.clone(), changes }
}

fn change(change: &ThingChange) -> ChangeJson {
    let text = |value: &Option<Value>| value.as_ref().map(ToString::to_string);
    let facts = change.facts.iter().map(|fact| FactJson {
        fact: fact.which.property.word(),
        of: Some(fact.which.of.clone()).filter(|of| !of.is_empty()),
        before: text(&fact.before),
        after: text(&fact.after),
    });
    ChangeJson {
        concern: match change.concern {
            Concern::Wiring => "wiring",
            Concern::Words => "words",
            Concern::Drawing => "drawing",
            Concern::Record => "record",
        },
        kind: change.thing.kind.word(),
        name: change.thing.name.clone(),
        on: match change.presence {
            Presence::Stayed => "both",
            Presence::Added => "new",
            Presence::Removed => "old",
        },
        facts: facts.collect(),
    }
}

fn job(job: &ComparedJob, new: &Board) -> JobJson {
    let bare = JobJson {
        job: job.name.clone(),
        file: job.shown.clone(),
        result: match &job.fate {
            JobFate::Same => "same",
            JobFate::StillRefused => "still refused",
            JobFate::RefusedNow => "refused now",
            JobFate::FineNow => "correct now",
            JobFate::Changed(_) => "changed",
        },
        dangers: Vec::new(),
        not_simulated: Vec::new(),
        steps: Vec::new(),
        renames: Vec::new(),
        decisions: Vec::new(),
        problems: ProblemJson::all(&job.new.problems, &job.new.sources),
    };
    match (&job.fate, job.new.on(new).case()) {
        (JobFate::Changed(change), Some(case)) => changed(bare, change, &case),
        _ => bare,
    }
}

fn changed(bare: JobJson, change: &JobChange, case: &PlannedCase<'_>) -> JobJson {
    let text = |value: &Option<Value>| value.as_ref().map(ToString::to_string);
    let subject = |it| words::subject(change, it);
    let decisions = change.decisions.iter().map(|it| DecisionJson {
        decision: subject(&it.subject),
        before: text(&it.before),
        after: text(&it.after),
    });
    JobJson {
        dangers: change.dangers.iter().map(|found| danger(case, found)).collect(),
        not_simulated: change.unjudged.iter().map(subject).collect(),
        steps: change.steps.iter().map(|step| words::step(change, step)).collect(),
        renames: change.renames.iter().map(rename).collect(),
        decisions: decisions.collect(),
        ..bare
    }
}

fn danger(case: &PlannedCase<'_>, found: &OldWiring) -> DangerJson {
    let english = Words::english();
    let sign = |it| sheet_words::observed(&english, case, &found.state, it);
    DangerJson {
        because: match found.origin {
            Origin::Old => "old wiring",
            Origin::Shipped => "as shipped",
            Origin::Both => "both",
        },
        mistakes: {
            let all = found.mistakes.iter();
            all.map(|it| sheet_words::mistake(&english, case, *it)).collect()
        },
        danger: danger_word(found.danger()),
        noticed: !found.unnoticed(),
        signs: found.signs.iter().map(sign).collect(),
    }
}
