//! `lidsheet changes` for people.

use super::super::table::{columns, paragraph, table};
use super::words;
use crate::board::Board;
use crate::build::{ComparedJob, Comparison, PlannedOn};
use crate::compare::{
    Changes, Exchange, JobChange, JobFate, OldWiring, Origin, Presence, Rename, Step, ThingChange,
};
use crate::compile::mark_of_board;
use crate::decide::mistakes::PlannedCase;
use crate::english::and;
use crate::meaning::{Concern, Kind};
use crate::sheet::words as sheet_words;
use crate::words::Words;

/// Everything that differs; `None` if a board has errors.
pub fn text(found: &Comparison) -> Option<String> {
    let (old, new) = found.boards()?;
    let changes = found.changes.as_ref()?;
    let mut out = format!("Old: {}\nNew: {}\n", board(old), board(new));
    if found.differs() == Some(false) {
        out.push_str("\nNothing differs.\n");
        return Some(out);
    }
    if old.about.is_same_revision(&new.about) {
        let words = "Revision and date are the same. Only the marks tell their sheets apart.";
        out.push_str(&paragraph(words, 0));
    }
    of_boards(&mut out, changes);
    for (tag, things) in &found.in_languages {
        let rows = rows_of(things.iter());
        heading(&mut out, &format!("Words in other languages: {tag}"));
        out.push_str(&table(&["thing", "what", "before", "now"], &rows));
    }
    of_jobs(&mut out, found, new);
    Some(out)
}

/// A board with what its sheets say in their foot.
fn board(board: &Board) -> String {
    let about = &board.about;
    format!(
        "{} {}, revision {} of {}, mark {}",
        about.name,
        about.part,
        about.revision,
        about.dated,
        mark_of_board(board)
    )
}

fn heading(out: &mut String, words: &str) {
    out.push_str(&format!("\n{}\n", words.to_uppercase()));
}

fn of_boards(out: &mut String, changes: &Changes) {
    let renames: Vec<&Rename> = changes.renames.iter().collect();
    if !renames.is_empty() {
        heading(out, "New names, otherwise the same");
        let row = |it: &&Rename| vec![it.kind.to_string(), it.from.clone(), it.to.clone()];
        let rows: Vec<_> = renames.iter().map(row).collect();
        out.push_str(&table(&["thing", "old name", "new name"], &rows));
    }
    for concern in [Concern::Wiring, Concern::Words, Concern::Drawing, Concern::Record] {
        let rows = rows_of(changes.things.iter().filter(|it| it.concern == concern));
        if !rows.is_empty() {
            heading(out, words::concern(concern));
            out.push_str(&table(&["thing", "what", "before", "now"], &rows));
        }
        if concern == Concern::Wiring {
            of_exchanges(out, &changes.exchanges);
        }
    }
}

fn rows_of<'a>(changes: impl Iterator<Item = &'a ThingChange>) -> Vec<Vec<String>> {
    let mut rows = Vec::new();
    for change in changes {
        let name = words::thing(&change.thing);
        let mut first = match change.presence {
            Presence::Stayed => name,
            Presence::Added => format!("{name}: new"),
            Presence::Removed => format!("{name}: removed"),
        };
        if change.facts.is_empty() {
            rows.push(vec![std::mem::take(&mut first), "-".into(), "-".into(), "-".into()]);
        }
        for fact in &change.facts {
            rows.push(vec![
                std::mem::take(&mut first),
                words::fact(&fact.which),
                words::value(fact.before.as_ref()),
                words::value(fact.after.as_ref()),
            ]);
        }
    }
    rows
}

/// Things that stand where others stood.
fn of_exchanges(out: &mut String, exchanges: &[Exchange]) {
    for kind in Kind::ALL {
        let mut all = exchanges.iter().filter(|it| it.kind == *kind).peekable();
        if all.peek().is_none() {
            continue;
        }
        let signal = sheet_words::signal(Exchange::danger_of(*kind)).word();
        let moved: Vec<String> =
            all.map(|it| format!("{} is now where {} was", it.now, it.was)).collect();
        let words = format!("{signal}: {kind} {}. Go by the label, not by the place.", and(&moved));
        out.push_str(&paragraph(&words, 0));
    }
}

fn of_jobs(out: &mut String, found: &Comparison, new: &Board) {
    if found.jobs.iter().any(|job| matches!(job.fate, JobFate::Changed(_))) {
        heading(out, "Jobs to change");
        let words = "These steps are for a control box where the new board takes the place of the old one. \
                     They begin with the new board as it is shipped. If no step says otherwise, each wire and \
                     each plug goes to the label where it was. A control box with the old board keeps its \
                     old lid insert.";
        out.push_str(&paragraph(words, 0));
    }
    for job in &found.jobs {
        if let JobFate::Changed(change) = &job.fate {
            heading(out, &format!("Job {}", job.name));
            of_change(out, job, change, new);
        }
    }
    let mut refused = String::new();
    for job in found.jobs.iter().filter(|job| matches!(job.fate, JobFate::RefusedNow)) {
        refused.push_str(&columns(&format!("  {}  ", job.name), &reasons(&job.new)));
    }
    if !refused.is_empty() {
        heading(out, "Jobs that are refused now");
        out.push_str(&refused);
        out.push_str(&paragraph(
            "Do not use the new board in these jobs. Their sheets are for the old board only.",
            0,
        ));
    }
    let (mut correct, mut refused, mut same) = (Vec::new(), Vec::new(), Vec::new());
    for job in &found.jobs {
        match job.fate {
            JobFate::FineNow => correct.push(job.name.clone()),
            JobFate::StillRefused => refused.push(job.name.clone()),
            JobFate::Same => same.push(job.name.clone()),
            JobFate::RefusedNow | JobFate::Changed(_) => {}
        }
    }
    let lines = [
        ("Jobs that were refused and are correct now", correct),
        ("Jobs that are refused on both boards", refused),
        ("Jobs with the same wiring and settings on both boards", same),
    ];
    for (words, names) in lines.iter().filter(|(_, names)| !names.is_empty()) {
        out.push('\n');
        out.push_str(&paragraph(&format!("{words}: {}.", and(names)), 0));
    }
    if lines.last().is_some_and(|(_, names)| !names.is_empty()) {
        out.push_str(&paragraph("Set the new board as their lid inserts show.", 0));
    }
}

/// The errors of a job, each with its code.
fn reasons(on: &PlannedOn) -> String {
    let errors = on.problems.sorted().into_iter();
    let errors = errors.filter(|problem| problem.code.severity().word() == "error");
    let all: Vec<String> = errors.map(|it| format!("{}: {}", it.code.text(), it.message)).collect();
    all.join("; ")
}

fn of_change(out: &mut String, job: &ComparedJob, change: &JobChange, new: &Board) {
    for rename in &change.renames {
        out.push_str(&paragraph(
            &format!("The {} {} is now called {}.", rename.kind, rename.from, rename.to),
            0,
        ));
    }
    if let Some(case) = job.new.on(new).case() {
        for found in &change.dangers {
            out.push_str(&danger(&case, found));
        }
    }
    if !change.unjudged.is_empty() {
        let all: Vec<String> =
            change.unjudged.iter().map(|subject| words::subject(change, subject)).collect();
        let words = format!("Effect of the old wiring not simulated: {}.", and(&all));
        out.push_str(&paragraph(&words, 0));
    }
    if change.steps.is_empty() {
        out.push_str("Wiring and settings are the same on both boards.\n");
    } else {
        let first = "Turn off every supply. Lock off, tag and test.".to_owned();
        let closed =
            "Put the new lid insert and fault finder into the lid. Close and fasten the cover."
                .to_owned();
        // A panel works with the supply on: that comes when the cover is closed.
        let on_panel = |step: &&Step| matches!(step, Step::Layout { .. });
        let (entry, work): (Vec<&Step>, Vec<&Step>) = change.steps.iter().partition(on_panel);
        let [entry, work] = [entry, work].map(|steps| {
            steps.into_iter().map(|step| words::step(change, step)).collect::<Vec<_>>()
        });
        let all = std::iter::once(first).chain(work).chain([closed]).chain(entry);
        for (number, step) in (1..).zip(all) {
            out.push_str(&columns(&format!("{number:>3}. "), &step));
        }
    }
    let beside: Vec<Vec<String>> = change
        .decisions
        .iter()
        .filter(|decision| words::beside_steps(change, decision))
        .map(|it| {
            let [before, after] = words::pair(it.before.as_ref(), it.after.as_ref());
            vec![words::subject(change, &it.subject), before, after]
        })
        .collect();
    if !beside.is_empty() {
        out.push_str(&table(&["result", "before", "now"], &beside));
    }
}

/// What the old wiring, or what is shipped, does on the new board.
fn danger(case: &PlannedCase<'_>, found: &OldWiring) -> String {
    let english = Words::english();
    let mistakes: Vec<String> =
        found.mistakes.iter().map(|it| sheet_words::mistake(&english, case, *it)).collect();
    let hidden = if found.unnoticed() { ", not seen in use" } else { "" };
    let stays = match found.origin {
        Origin::Old => "if the old wiring stays",
        Origin::Shipped => "if the new board stays as it is shipped",
        Origin::Both => "if the old wiring stays, or the new board stays as it is shipped",
    };
    let clause = format!(
        "{}{hidden}, {stays}: {}",
        sheet_words::signal(found.danger()).word(),
        mistakes.join("; and ")
    );
    let mut out = paragraph(&sheet_words::sentence(&english, &clause), 0);
    for sign in &found.signs {
        let words = sheet_words::observed(&english, case, &found.state, sign);
        out.push_str(&columns("  - ", &words));
    }
    out
}
