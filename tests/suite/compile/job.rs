//! A job text on a board text: everything that comes of it.

use lidsheet::board::{self, Board, Job};
use lidsheet::decide::{self, Plan};
use lidsheet::diagnostic::{Problem, Problems};
use lidsheet::job_problems::job_problems;
use lidsheet::source::Sources;
use lidsheet::spec;

use super::{shown, sound};

/// What came of a job.
pub struct Outcome {
    pub board: Board,
    pub job: Option<Job>,
    pub plan: Option<Plan>,
    pub problems: Vec<Problem>,
    pub sources: Sources,
}

impl Outcome {
    /// Everything as it would be printed.
    pub fn shown(&self) -> String {
        shown(&self.problems, &self.sources)
    }

    /// The plan, which nothing may refuse.
    #[track_caller]
    pub fn sound(&self) -> (&Job, &Plan) {
        let plan = self.plan.as_ref().filter(|plan| plan.sound().is_some());
        let plan = plan.unwrap_or_else(|| panic!("{}", self.shown()));
        (self.job.as_ref().expect("a plan has its job"), plan)
    }
}

/// Reads, checks and plans `job` on `board`, which has no tables and must be sound.
pub fn plan_on(board: &str, job: &str) -> Outcome {
    let (mut sources, mut problems) = (Sources::default(), Problems::default());
    let file = sources.add("job.yaml", job);
    let board = sound(board);
    let job = spec::parse_job(file, &sources, &mut problems)
        .and_then(|spec| board::check_job(&spec, &board, &mut problems))
        .ok();
    let plan = job.as_ref().map(|job| decide::plan(&board, job));
    if let Some((job, plan)) = job.as_ref().zip(plan.as_ref()) {
        problems.extend(job_problems(&board, job, plan));
    }
    Outcome { board, job, plan, problems: problems.sorted(), sources }
}
