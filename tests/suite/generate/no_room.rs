//! Jobs whose lid insert is refused because their board plan has no room for all that they need, and
//! what it lacks. To be emptied when the plan is drawn anew.

use lidsheet::page::Paper;

/// The stem of the job's file, the paper, and each problem: its code and what found no room.
pub const NO_ROOM: &[(&str, Paper, &[&str])] = &[
    ("2239", Paper::Letter, LETTER_2239),
    ("curlew-full", Paper::A4, A4_FULL),
    ("curlew-full", Paper::Letter, LETTER_FULL),
];

const LETTER_2239: &[&str] = &[
    "L503 the name of Far-side board",
    "L503 the name of X2",
    "L503 the name of X5",
    "L504 the lead from W11 to X2",
    "L503 the name of W12",
    "L504 the lead from W12 to X3",
    "L503 the name of E",
    "L503 the name of W2",
    "L504 the lead from W2 to B",
    "L503 the name of W3",
    "L503 the name of W6",
    "L504 the lead from W6 to A",
    "L503 the name of W7",
    "L503 the name of X11",
    "L503 the name of X14",
    "L503 the name of X16",
    "L503 the name of X19",
    "L503 the name of S2",
];

const A4_FULL: &[&str] = &[
    "L503 the name of Far-side board",
    "L503 the name of X2",
    "L503 the name of W12",
    "L503 the name of W4",
    "L503 the name of W6",
    "L503 the name of W7",
    "L504 the lead from W7 to A",
    "L503 the name of X14",
    "L503 the name of X19",
];

const LETTER_FULL: &[&str] = &[
    "L503 the name of Far-side board",
    "L503 the name of X2",
    "L503 the name of X5",
    "L504 the lead from W11 to X2",
    "L503 the name of W12",
    "L504 the lead from W12 to X3",
    "L503 the name of E",
    "L503 the name of W2",
    "L503 the name of W3",
    "L504 the lead from W3 to A",
    "L503 the name of W6",
    "L504 the lead from W6 to B",
    "L503 the name of W7",
    "L503 the name of X11",
    "L503 the name of X14",
    "L503 the name of X16",
    "L503 the name of X19",
    "L503 the name of S2",
];

/// What a job's plan lacks on a paper.
pub fn lacking(stem: &str, paper: Paper) -> &'static [&'static str] {
    let found = NO_ROOM.iter().find(|(job, on, _)| *job == stem && *on == paper);
    found.map_or(&[], |(_, _, lacking)| lacking)
}

/// A problem as it is listed here.
pub fn told(problem: &lidsheet::diagnostic::Problem) -> String {
    let message = problem.message.trim_start_matches("there is no room for ");
    let end = message.find(" finds no way").or_else(|| message.find(" on the board plan"));
    format!("{} {}", problem.code.text(), &message[..end.unwrap_or(message.len())])
}
