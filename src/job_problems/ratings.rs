//! Tabs, headers and fuses that get more than they take.

use super::phrases::{count, the_role};
use crate::board::{Board, HeaderId};
use crate::decide::findings::{BeyondEveryHeader, FuseOverload, HeaderOverload, TabsTaken};
use crate::diagnostic::{Code, Problem};
use crate::english::and;

pub fn tabs_taken(board: &Board, found: &TabsTaken) -> Problem {
    let group = &board[found.group];
    let tabs = count(usize::from(group.tabs), "tab");
    let codes: Vec<String> = found.jumpers.iter().map(|one| board[*one].code.clone()).collect();
    Problem::new(
        Code::TabsTaken,
        found.place,
        format!("group {} has {tabs}, but {} must go there", group.code, and(&codes)),
    )
    .label(format!("needs group {}", group.code))
    .other(group.span, tabs)
    .help("fit fewer devices of this voltage")
}

pub fn beyond_every_header(board: &Board, found: &BeyondEveryHeader) -> Problem {
    let header = &board[found.header];
    let device = the_role(found.role);
    Problem::new(
        Code::HeaderOverload,
        found.amps.span,
        format!("{device} draws more than header {} or its fuse carries", header.code),
    )
    .label(format!("draws {}", found.amps.value))
    .other(header.span, limits(board, found.header))
    .help("fit a smaller device, or feed it by a contactor of its own")
}

fn limits(board: &Board, header: HeaderId) -> String {
    let fuse = board[header].fuse.map(|fuse| {
        let fuse = &board[fuse];
        format!("fuse {} is for {}", fuse.code, fuse.rating)
    });
    let max = board[header].max.map(|max| format!("may carry {max}"));
    max.into_iter().chain(fuse).collect::<Vec<_>>().join("; ")
}

pub fn header_overload(board: &Board, found: &HeaderOverload) -> Problem {
    let header = &board[found.header];
    Problem::new(
        Code::HeaderOverload,
        found.amps.span,
        format!("{} draws more than header {} may carry", found.device.the(), header.code),
    )
    .label(format!("draws {}", found.amps.value))
    .other(header.span, format!("may carry {}", found.rating))
    .help("fit a smaller device, or feed it by a contactor of its own")
}

pub fn fuse_overload(board: &Board, found: &FuseOverload) -> Problem {
    let FuseOverload { fuse, largest, rest, amps } = found;
    let fuse = &board[*fuse];
    let mut names = vec![largest.device.the()];
    names.extend(rest.iter().map(|behind| behind.device.the()));
    let draw = if rest.is_empty() { "draws" } else { "draw together" };
    let mut problem = Problem::new(
        Code::FuseOverload,
        largest.amps.span,
        format!("{} {draw} more than fuse {} carries", and(&names), fuse.code),
    )
    .label(format!("draws {}", largest.amps.value))
    .other(fuse.span, format!("rated {}", fuse.rating));
    for behind in rest {
        problem = problem.other(behind.amps.span, format!("draws {}", behind.amps.value));
    }
    if !rest.is_empty() {
        problem = problem.note(format!("at the worst they draw {amps} at once"));
    }
    problem.help("fit a smaller device; never fit a larger fuse")
}
