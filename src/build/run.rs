//! A build: every specification compiled, and the sheets in their places.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Once;

use rayon::prelude::*;

use super::field_page::{self, PageBoard};
use super::find::{self, Input};
use super::index::{self, Listed};
use super::manifest::{self, Manifest};
use super::output::{OutputRoot, Placed, Unwritten};
use super::own::own_folder;
use super::read::check_file;
use super::state::{self, State};
use super::{FileKind, FileReport, Order, Outcome, Progress, Report, clashes, unwritten};
use crate::compile::{self, Checked, Content, FileContext, OutFile, SheetOptions};
use crate::diagnostic::{Code, Problem, Problems, Reported};
use crate::mark::Mark;
use crate::source::Sources;
use crate::text::Typesetter;
use crate::words::Language;

/// What came of a file, and what it says with the mark of its sheets in each language.
type Noted = (FileReport, Option<(State, Vec<(String, Mark)>)>);

/// Compiles every specification of `order` and puts the sheets in their places. Once `stopped` says so, no
/// other file is begun.
pub fn run(
    order: &Order,
    progress: &(dyn Fn(Progress) + Sync),
    stopped: &(dyn Fn() -> bool + Sync),
) -> Report {
    let mut general = Problems::default();
    let inputs = find::find(&order.paths, &mut general);
    // Sheets with other words than those that were asked for are not made.
    let looks = looks(order, &mut general).unwrap_or_default();
    let Some(first) = looks.first() else { return Report { general, ..Report::default() } };
    let told = Once::new();
    let waits = || {
        told.call_once(|| progress(Progress::Waits));
        !stopped()
    };
    let root = match OutputRoot::open(&order.out, &waits) {
        Ok(root) => root,
        Err(_) if stopped() => return Report { general, stopped: true, ..Report::default() },
        Err(error) => {
            general.error(unwritten(error));
            return Report { general, ..Report::default() };
        }
    };
    root.clear_left_over();
    let mut kept = match Manifest::read(&order.out) {
        Ok(manifest) => Some(manifest),
        Err(why) => {
            let path = find::shown(&order.out.join(manifest::NAME));
            let message = format!("the manifest of the outputs cannot be used: {why}");
            general.error(Problem::of_file(Code::ManifestUnread, path, message));
            None
        }
    };
    let keys: Vec<String> =
        inputs.iter().map(|input| manifest::path_from(&order.out, &input.path)).collect();
    let clashing: BTreeMap<usize, Problem> = clashes(&inputs).into_iter().collect();
    progress(Progress::Found(inputs.len()));
    let work = || {
        // Each is read only when its turn comes: no more boards are in memory than are worked on.
        inputs
            .par_iter()
            .zip(&keys)
            .enumerate()
            .map_init(Typesetter::new, |set, (index, (input, key))| {
                if stopped() {
                    let (sources, problems) = (Sources::default(), Problems::default());
                    let (shown, outcome) = (input.shown.clone(), Outcome::Stopped);
                    let report = FileReport { shown, sources, problems, outcome };
                    return (((report, None), Listed::unknown()), None);
                }
                let mut checked = check_file(input);
                let clashing = clashing.get(&index).cloned();
                let taken = || state::taken(input, key, kept.as_ref()?, &order.out);
                clashing.into_iter().chain(taken()).for_each(|problem| checked.refuse(problem));
                let page = order.field_page.then(|| page_board(&checked, index, &looks, set));
                let made = made(checked, input, &root, &looks, set);
                progress(Progress::Done);
                let kept = made.1.is_made();
                (made, page.flatten().filter(|_| kept))
            })
            .collect()
    };
    let done: Vec<((Noted, Listed), Option<PageBoard>)> = match pool(order.threads) {
        Some(pool) => pool.install(work),
        None => work(),
    };
    let (done, on_page): (Vec<_>, Vec<_>) = done.into_iter().unzip();
    let on_page: Vec<PageBoard> = on_page.into_iter().flatten().collect();
    let (made, listed): (Vec<Noted>, Vec<Listed>) = done.into_iter().unzip();
    let (mut files, states): (Vec<FileReport>, Vec<_>) = made.into_iter().unzip();
    once(&mut files);
    let mut stale = Vec::new();
    let was_stopped = files.iter().any(|file| file.outcome == Outcome::Stopped);
    if let Some(manifest) = &mut kept {
        for (((report, state), input), key) in files.iter_mut().zip(states).zip(&inputs).zip(&keys)
        {
            let Some(state) = state else { continue };
            state::note(manifest, report, state, (input, key), &order.out);
        }
        // Of a build that was stopped nobody knows what is left over.
        if !was_stopped {
            match manifest.sweep(&order.out, order.prune) {
                Ok(found) => stale = found,
                Err(error) => drop(general.error(unwritten(error))),
            }
        }
    }
    // Two files of one name are both refused, and have one row.
    let known: BTreeMap<String, Listed> =
        inputs.iter().map(|input| input.stem.clone()).zip(listed).collect();
    // A list of nothing but refusals is made only where sheets of theirs may lie.
    let worth =
        |(stem, listed): (&String, &Listed)| listed.is_made() || order.out.join(stem).is_dir();
    let stopped = was_stopped;
    let mut report = Report { general, files, stale, stopped, ..Report::default() };
    if !was_stopped && order.field_page {
        match field_page::place(&root, &on_page, &looks) {
            Ok(placed) => report.field_page = placed,
            Err(error) => drop(report.general.error(unwritten(error))),
        }
    }
    report.field_page_left = report.field_page.is_none() && field_page::lies_in(&order.out);
    if !was_stopped && known.iter().any(worth) {
        match index::place(&first.words, &root, &known, report.field_page.is_some()) {
            Ok(placed) => report.index = Some(placed),
            Err(error) => drop(report.general.error(unwritten(error))),
        }
    }
    if let Some(Err(error)) =
        kept.filter(|kept| kept.is_needed(&order.out)).map(|it| it.place(&root))
    {
        report.general.error(unwritten(error));
    }
    report
}

/// How sheets look, in each language; `None` if the user's own templates cannot be used.
fn looks(order: &Order, general: &mut Problems) -> Option<Vec<SheetOptions>> {
    let mut problems = Problems::default();
    let own = order.templates.as_ref().map(|folder| own_folder(folder, &mut problems));
    let unusable = problems.failed().is_some();
    general.extend(problems);
    let own = own.unwrap_or_default();
    let look = |language: &&'static Language| SheetOptions {
        png: order.png,
        ..SheetOptions::new(order.paper, language, own.clone())
    };
    (!unusable).then(|| order.languages.iter().map(look).collect())
}

/// What the field page takes of a checked file; nothing of one whose sheets cannot be made, which is told with
/// the sheets.
fn page_board(
    checked: &Checked,
    index: usize,
    looks: &[SheetOptions],
    set: &mut Typesetter,
) -> Option<PageBoard> {
    field_page::of_board(checked, index + 1, looks, set).unwrap_or(None)
}

/// What becomes of one file that was checked.
fn made(
    checked: Checked,
    input: &Input,
    root: &OutputRoot,
    looks: &[SheetOptions],
    set: &mut Typesetter,
) -> (Noted, Listed) {
    let state = State::of(&checked);
    let marks = state.as_ref().map(|_| state::marks(&checked, looks)).unwrap_or_default();
    let tag = looks.first().map_or("", |look| look.words.tag());
    let listed = match &*checked.content_in(tag) {
        Content::Board(board) => Listed::of_board(board),
        Content::Job(Some(planned)) => Listed::of_job(planned),
        Content::Job(None) | Content::Refused => Listed::unknown(),
    };
    let report = make(checked, input, root, looks, set);
    let (errors, _) = report.problems.counts();
    let refused = report.outcome == Outcome::Refused;
    let listed = listed.refused(refused.then_some(errors)).marked(marks.clone());
    ((report, state.map(|state| (state, marks))), listed)
}

/// What is said of templates, and the same whatever they are filled with.
const ONCE: [Code; 2] = [Code::LongTemplateSentence, Code::LogoCoarse];

/// Leaves out what was said of a template for an earlier file already: its sentences are the same
/// whatever they are filled with.
fn once(files: &mut [FileReport]) {
    let mut told = BTreeSet::new();
    for FileReport { problems, sources, .. } in files {
        problems.retain(|problem| {
            let (file, place) = problem.place(sources);
            !ONCE.contains(&problem.code) || told.insert((file.to_owned(), place))
        });
    }
}

/// A pool of so many threads; `None` for the common one, also if the system gives no threads.
fn pool(threads: Option<usize>) -> Option<rayon::ThreadPool> {
    rayon::ThreadPoolBuilder::new().num_threads(threads?).build().ok()
}

/// The sheets of one file that was checked, in their places.
fn make(
    mut checked: Checked,
    input: &Input,
    out: &OutputRoot,
    looks: &[SheetOptions],
    set: &mut Typesetter,
) -> FileReport {
    looks.iter().for_each(|look| checked.warn_of_language(look.words.tag()));
    let spoken: Vec<Content> =
        looks.iter().map(|look| checked.content_in(look.words.tag()).into_owned()).collect();
    let Checked { shown, mut sources, mut problems, content, .. } = checked;
    let of = match &content {
        Content::Job(Some(_)) => FileKind::Job,
        Content::Board(_) => FileKind::Board,
        Content::Job(None) | Content::Refused => {
            return FileReport { shown, sources, problems, outcome: Outcome::Refused };
        }
    };
    let mut texts = FileContext { shown: &shown, sources: &mut sources, problems: &mut problems };
    let made = looks.iter().zip(&spoken).filter_map(|(look, content)| match content {
        Content::Job(Some(planned)) => Some(compile::job_sheets(planned, &mut texts, look, set)),
        Content::Board(board) => Some(compile::sheets(board, &mut texts, look, set)),
        Content::Job(None) | Content::Refused => None,
    });
    let sheets: Result<Vec<_>, Reported> = made.collect();
    // All languages or none: the sheets of one must not tell what those of another do not.
    let outcome = match sheets {
        Ok(sheets) => match place_each(out, &input.stem, looks, sheets) {
            Ok(placed) => Outcome::Made { placed, of },
            Err(error) => {
                problems.error(unwritten(error));
                Outcome::Refused
            }
        },
        Err(_) => Outcome::Refused,
    };
    FileReport { shown, sources, problems, outcome }
}

/// Puts the sheets of all languages into the folder `name` as one set: into the folder itself, or those of
/// each language into one of its own if there are several.
fn place_each(
    out: &OutputRoot,
    name: &str,
    looks: &[SheetOptions],
    sheets: Vec<Vec<OutFile>>,
) -> Result<Placed, Unwritten> {
    let several = looks.len() > 1;
    let of_language = looks.iter().zip(sheets).flat_map(|(look, files)| {
        let tag = look.words.tag();
        files.into_iter().map(move |file| match several {
            true => OutFile { name: format!("{tag}/{}", file.name), ..file },
            false => file,
        })
    });
    out.place(name, &of_language.collect::<Vec<_>>())
}
