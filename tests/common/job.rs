//! A job text on a board text: everything that comes of it.

#![allow(dead_code)]

use lidsheet::board::{self, Board, Job};
use lidsheet::decide::{self, Plan};
use lidsheet::diagnostic::{Colour, Problem, Problems, render};
use lidsheet::job_problems::job_problems;
use lidsheet::source::Sources;
use lidsheet::spec;

/// What came of a job.
pub struct Outcome {
    pub board: Board,
    pub job: Option<Job>,
    pub plan: Option<Plan>,
    pub problems: Vec<Problem>,
    pub sources: Sources,
}

impl Outcome {
    /// The codes that were found, each once, in order.
    pub fn codes(&self) -> Vec<&'static str> {
        let mut codes: Vec<_> = self.problems.iter().map(|p| p.code.text()).collect();
        codes.sort_unstable();
        codes.dedup();
        codes
    }

    /// Everything as it would be printed.
    pub fn shown(&self) -> String {
        let shown: Vec<String> =
            self.problems.iter().map(|p| render(p, &self.sources, Colour::Plain)).collect();
        shown.join("\n\n")
    }

    /// The plan, which nothing may refuse.
    #[track_caller]
    pub fn sound(&self) -> (&Job, &Plan) {
        let plan = self.plan.as_ref().filter(|plan| plan.sound().is_some());
        let plan = plan.unwrap_or_else(|| panic!("{}", self.shown()));
        (self.job.as_ref().expect("a plan has its job"), plan)
    }
}

/// Reads, checks and plans `job` on `board`, whose tables lie in `folder`.
pub fn plan_with(board: (&str, &str), job: (&str, &str), folder: &str) -> Outcome {
    let (mut sources, mut problems) = (Sources::default(), Problems::default());
    let file = sources.add(job.0, job.1);
    let mut of_board = Problems::default();
    let board_file = sources.add(board.0, board.1);
    let mut load = |table: &str| {
        std::fs::read(std::path::Path::new(folder).join(table)).map_err(|e| e.to_string())
    };
    let board = spec::parse(board_file, &mut sources, &mut load, &mut of_board)
        .and_then(|spec| board::check(&spec, &sources, &mut of_board));
    let Ok(board) = board else { panic!("{:#?}", of_board.sorted()) };
    let job = spec::parse_job(file, &sources, &mut problems)
        .and_then(|spec| board::check_job(&spec, &board, &mut problems))
        .ok();
    let plan = job.as_ref().map(|job| decide::plan(&board, job));
    if let Some((job, plan)) = job.as_ref().zip(plan.as_ref()) {
        problems.extend(job_problems(&board, job, plan));
    }
    Outcome { board, job, plan, problems: problems.sorted(), sources }
}

/// The same for a board without tables.
pub fn plan_on(board: &str, job: &str) -> Outcome {
    plan_with(("board.yaml", board), ("job.yaml", job), ".")
}
