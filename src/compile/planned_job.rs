//! A job: read, its board fetched and checked, and planned.

use super::files::{NamedFiles, Unread};
use super::spoken::Spoken;
use crate::board::{self, Board, Job};
use crate::decide::{self, Plan};
use crate::diagnostic::{Code, Problem, Problems, Reported};
use crate::job_problems::job_problems;
use crate::mark::Mark;
use crate::meaning;
use crate::sheet::Templates;
use crate::source::{FileId, Sources, Spanned};
use crate::spec;

/// A job whose names are sound, with its board and what is decided for it. The plan may refuse it:
/// see [`Plan::sound`].
#[derive(Clone, Debug)]
pub struct PlannedJob {
    /// The board.
    pub board: Board,
    /// The job.
    pub job: Job,
    /// What is decided; what it found is in words among the problems of the file.
    pub plan: Plan,
}

/// Reads the job of `file` with its board, which is in `files`, and plans it. What is wrong with the board is
/// told in one message: its own check tells the rest.
pub fn plan(
    file: FileId,
    files: &dyn NamedFiles,
    (sources, problems): (&mut Sources, &mut Problems),
) -> Result<(PlannedJob, Option<Box<Spoken>>), Reported> {
    let spec = spec::parse_job(file, sources, problems)?;
    let Some(path) = spec.board.get() else {
        return Err(problems.failed().unwrap_or_else(|| {
            let message = "the job names no board";
            problems.error(Problem::new(Code::MissingKey, spec.place, message))
        }));
    };
    let fetched = fetch(path, file, files, sources);
    let fetched = fetched.map_err(|problem| problems.error(*problem))?;
    let (board, spoken) = fetched;
    let (job, plan) = planned(&spec, &board, problems)?;
    Ok((PlannedJob { board, job, plan }, spoken))
}

/// Reads the job of `file` and plans it on `board`, whatever board it names.
pub fn plan_on(
    file: FileId,
    board: &Board,
    sources: &Sources,
    problems: &mut Problems,
) -> Result<(Job, Plan), Reported> {
    let spec = spec::parse_job(file, sources, problems)?;
    planned(&spec, board, problems)
}

fn planned(
    spec: &spec::Job,
    board: &Board,
    problems: &mut Problems,
) -> Result<(Job, Plan), Reported> {
    let accepted = board::Acceptances::read(&spec.accepted, problems);
    let job = board::check_job(spec, board, problems)?;
    let plan = decide::plan(board, &job);
    problems.extend(job_problems(board, &job, &plan));
    accepted.apply(problems);
    Ok((job, plan))
}

/// The content mark of a job's English sheets, with the templates that are compiled in.
pub fn mark_of_job(planned: &PlannedJob) -> Mark {
    let PlannedJob { board, job, .. } = planned;
    let both = [&meaning::of_board(board), &meaning::of_job(board, job)];
    Templates::built_in(&mut Sources::default()).mark(&both)
}

/// The content mark of a board's English sheets, with the templates that are compiled in.
pub fn mark_of_board(board: &Board) -> Mark {
    Templates::built_in(&mut Sources::default()).mark(&[&meaning::of_board(board)])
}

/// The board that a job names.
fn fetch(
    path: &Spanned<String>,
    job: FileId,
    files: &dyn NamedFiles,
    sources: &mut Sources,
) -> Result<(Board, Option<Box<Spoken>>), Box<Problem>> {
    let shown = path_from_job(&sources.file(job).name, &path.value);
    let unusable = |what: String| Problem::new(Code::BoardUnusable, path.span, what);
    let bytes = files.board(&path.value).map_err(|why| {
        let code = match why {
            Unread::TooLarge(_) => Code::BoardUnusable,
            Unread::Other(_) => Code::FileUnread,
        };
        let problem = Problem::new(code, path.span, format!("the board {shown} cannot be read"))
            .note(why.words())
            .help("name the specification by its path from this file, upwards with `..`");
        Box::new(problem)
    })?;
    let mut found = Problems::default();
    let checked = spec::admit(shown.as_str(), bytes, sources, &mut found).and_then(|file| {
        if spec::is_job(&sources.file(file).text) {
            let start = crate::source::Span::new(file, 0..0);
            let message = "this is a job, not the specification of a board";
            return Err(found.error(Problem::new(Code::BoardUnusable, start, message)));
        }
        let mut load = |table: &str| files.table(Some(&path.value), table);
        let spec = spec::parse(file, sources, &mut load, &mut found)?;
        board::check_languages(&spec, sources, &mut found).map(|board| Spoken::of(spec, board))
    });
    checked.map_err(|_| {
        let (errors, _) = found.counts();
        let all = found.sorted();
        let first = all.iter().find(|problem| problem.code.severity().word() == "error");
        let count = if errors == 1 { "an error".to_owned() } else { format!("{errors} errors") };
        // What cannot be read is told with its own code: the machine is at fault, not the words.
        let unread = all.iter().any(|problem| problem.code == Code::TableUnread);
        let mut problem = if unread {
            let message = format!("a table of the board {shown} cannot be read");
            Problem::new(Code::FileUnread, path.span, message)
        } else {
            unusable(format!("the board {shown} has {count}"))
        };
        if let Some(first) = first {
            problem = problem.note(format!("{}: {}", first.code.text(), first.message));
        }
        let help = format!("mend the board first: `lidsheet check {shown}` shows where");
        Box::new(problem.help(help))
    })
}

/// The path of a board as people are shown it: from where the job is shown, steps upwards taken out
/// where that can be done.
fn path_from_job(job: &str, path: &str) -> String {
    let folder = job.rsplit_once('/').map_or("", |(folder, _)| folder);
    let mut steps: Vec<&str> = folder.split('/').filter(|step| !step.is_empty()).collect();
    for step in path.split('/') {
        let up = step == ".." && steps.last().is_some_and(|last| *last != ".." && *last != ".");
        if up {
            steps.pop();
        } else {
            steps.push(step);
        }
    }
    let start = if folder.starts_with('/') { "/" } else { "" };
    format!("{start}{}", steps.join("/"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_board_is_shown_from_where_the_job_is_shown() {
        assert_eq!(path_from_job("specs/jobs/a.yaml", "../b.yaml"), "specs/b.yaml");
        assert_eq!(path_from_job("a.yaml", "b.yaml"), "b.yaml");
        assert_eq!(path_from_job("a.yaml", "../b.yaml"), "../b.yaml");
        assert_eq!(path_from_job("../jobs/a.yaml", "../../b.yaml"), "../../b.yaml");
        assert_eq!(path_from_job("/x/jobs/a.yaml", "../b.yaml"), "/x/b.yaml");
        assert_eq!(path_from_job("./jobs/a.yaml", "../b.yaml"), "./b.yaml");
        assert_eq!(path_from_job("standard input", "b.yaml"), "b.yaml");
    }
}
