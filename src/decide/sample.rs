//! Boards, and a job with its plan, for unit tests.

use super::mistakes::PlannedCase;
use super::{DeviceId, Plan, plan};
use crate::board::{
    Board, Device, GroupId, HeaderId, Job, JumperId, SupplyId, TerminalId, check, check_job,
};
use crate::diagnostic::Problems;
use crate::source::Sources;
use crate::spec;

/// The worked example of the specification language.
pub const HERON: &str = include_str!("../../tests/version-1/heron-8.yaml");

/// The job of `tests/version-1/jobs/2231.yaml`, on Heron 8.
pub const JOB: &str = include_str!("../../tests/version-1/jobs/2231.yaml");

/// The board of a specification without errors.
#[track_caller]
pub fn board(yaml: &str) -> Board {
    let (mut sources, mut problems) = (Sources::default(), Problems::default());
    let file = spec::admit("board.yaml", yaml.as_bytes().to_vec(), &mut sources, &mut problems);
    let mut load = |table: &str| Err(format!("no table {table} here"));
    let board = file
        .and_then(|file| spec::parse(file, &mut sources, &mut load, &mut problems))
        .and_then(|spec| check(&spec, &sources, &mut problems));
    board.unwrap_or_else(|_| panic!("{:#?}", problems.sorted()))
}

/// Heron 8 with other words in some places.
#[track_caller]
pub fn heron(changes: &[(&str, &str)]) -> Board {
    let mut yaml = HERON.to_owned();
    for (from, to) in changes {
        assert!(yaml.contains(from), "{from}");
        yaml = yaml.replacen(from, to, 1);
    }
    board(&yaml)
}

/// The supply of that name.
pub fn supply(board: &Board, name: &str) -> SupplyId {
    SupplyId(board.supplies.iter().position(|supply| supply.name == name).expect(name))
}

/// The group of that code.
pub fn group(board: &Board, code: &str) -> GroupId {
    GroupId(board.groups.iter().position(|group| group.code == code).expect(code))
}

/// The header of that code.
pub fn header(board: &Board, code: &str) -> HeaderId {
    HeaderId(board.headers.iter().position(|header| header.code == code).expect(code))
}

/// Heron 8 with a job that nothing refuses, and its plan.
pub struct Case {
    pub board: Board,
    pub job: Job,
    pub plan: Plan,
}

impl Case {
    #[track_caller]
    pub fn new(job: &str) -> Self {
        Self::on(board(HERON), job)
    }

    /// A job on another board.
    #[track_caller]
    pub fn on(board: Board, job: &str) -> Self {
        let (mut sources, mut problems) = (Sources::default(), Problems::default());
        let file = sources.add("job.yaml", job);
        let found = spec::parse_job(file, &sources, &mut problems)
            .and_then(|spec| check_job(&spec, &board, &mut problems));
        let job = found.unwrap_or_else(|_| panic!("{:#?}", problems.sorted()));
        let plan = plan(&board, &job);
        assert!(plan.sound().is_some(), "{:#?}", plan.findings);
        Self { board, job, plan }
    }

    pub fn planned(&self) -> PlannedCase<'_> {
        PlannedCase::new(&self.board, &self.job, self.plan.sound().expect("it is sound"))
    }

    #[track_caller]
    pub fn device(&self, device: Device) -> DeviceId {
        let (_, wiring) = self.plan.sound().expect("it is sound");
        let mut devices = wiring.devices.entries();
        devices.find(|(_, plan)| plan.device == device).expect("it is fitted").0
    }

    #[track_caller]
    pub fn header(&self, code: &str) -> HeaderId {
        header(&self.board, code)
    }

    #[track_caller]
    pub fn jumper(&self, code: &str) -> JumperId {
        JumperId(self.board.jumpers.iter().position(|it| it.code == code).expect(code))
    }

    #[track_caller]
    pub fn terminal(&self, code: &str) -> TerminalId {
        TerminalId(self.board.terminals.iter().position(|it| it.code == code).expect(code))
    }

    #[track_caller]
    pub fn supply(&self, name: &str) -> SupplyId {
        supply(&self.board, name)
    }
}
