//! What a person sees: results on standard output, problems and progress on standard error.

use std::io::{self, IsTerminal, Write};
use std::sync::Mutex;

use clap::ValueEnum;
use indicatif::{ProgressBar, ProgressDrawTarget, ProgressStyle};
use serde::Serialize;

use super::Status;
use crate::diagnostic::{Accepted, Colour, Problem, Problems, Severity, render};
use crate::source::Sources;

/// When to show colours.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum Color {
    Auto,
    Always,
    Never,
}

/// Where output goes and how it looks.
pub struct Terminal {
    colour: Colour,
    quiet: bool,
}

impl Terminal {
    /// Decides once whether to show colours.
    pub fn new(color: Color, quiet: bool) -> Self {
        let colours = match color {
            Color::Always => true,
            Color::Never => false,
            Color::Auto => {
                let set = |name| std::env::var_os(name).is_some_and(|value| !value.is_empty());
                let dumb = std::env::var_os("TERM").is_some_and(|term| term == "dumb");
                io::stderr().is_terminal() && !set("NO_COLOR") && !dumb
            }
        };
        Self { colour: if colours { Colour::Terminal } else { Colour::Plain }, quiet }
    }

    /// Writes a command's result to standard output. A reader that went away (`| head`) is no
    /// trouble.
    pub fn result(&self, text: &str) -> Status {
        let mut out = io::stdout().lock();
        match out.write_all(text.as_bytes()).and_then(|()| out.flush()) {
            Ok(()) => Status::Clean,
            Err(error) if error.kind() == io::ErrorKind::BrokenPipe => Status::Clean,
            Err(error) => {
                self.say(&format!("error: standard output cannot be written to: {error}\n"));
                Status::Trouble
            }
        }
    }

    /// Writes a summary to standard output, unless only problems are asked for.
    pub fn summary(&self, text: &str) -> Status {
        if self.quiet { Status::Clean } else { self.result(text) }
    }

    /// Writes one value as JSON to standard output.
    pub fn json(&self, value: &impl Serialize) -> Status {
        match serde_json::to_string_pretty(value) {
            Ok(json) => self.result(&format!("{json}\n")),
            Err(_) => Status::Trouble,
        }
    }

    /// Says what is wrong with the command line.
    pub fn trouble(&self, message: &str) -> Status {
        self.say(&format!("error: {message}\n"));
        Status::Trouble
    }

    /// Says what kept a command from its work.
    pub fn prevented(&self, problem: Problem) -> Status {
        let mut problems = Problems::default();
        problems.error(problem);
        self.problems(&problems, &Sources::default());
        Status::Trouble
    }

    /// Writes to standard error; if that fails, there is nobody left to tell.
    pub fn say(&self, text: &str) {
        let _ = io::stderr().lock().write_all(text.as_bytes());
    }

    /// Shows problems in their order, no more than a person reads; of more than that the errors
    /// before the warnings, and how many are left.
    pub fn problems(&self, problems: &Problems, sources: &Sources) {
        let mut all = problems.sorted();
        let count = all.len();
        if count > SHOWN {
            let (errors, warnings): (Vec<_>, Vec<_>) =
                all.into_iter().partition(|p| p.code.severity() == Severity::Error);
            all = errors.into_iter().chain(warnings).take(SHOWN).collect();
        }
        for problem in &all {
            self.say(&format!("{}\n\n", render(problem, sources, self.colour)));
        }
        let file = all.first().map_or("", |problem| problem.place(sources).0);
        if count > SHOWN {
            let left = count - SHOWN;
            let more = if left == 1 { "problem" } else { "problems" };
            self.say(&format!("{file}: {left} more {more}, not shown; mend these first\n\n"));
        }
    }

    /// Shows the warnings that are accepted, each with its reason.
    pub fn accepted(&self, problems: &Problems, sources: &Sources) {
        for Accepted { problem, reason } in problems.accepted() {
            let problem = problem.note(format!("accepted: {reason}"));
            self.say(&format!("{}\n\n", render(&problem, sources, self.colour)));
        }
    }

    /// A bar that shows how many of these things are done with: only on a terminal, and not if only problems
    /// are asked for.
    pub fn bar(&self, things: &'static str) -> Bar {
        let shown = !self.quiet && io::stderr().is_terminal();
        Bar { bar: shown.then(|| Mutex::new(None)), things }
    }
}

/// So many problems of one file are shown.
const SHOWN: usize = 200;

/// Shows how far the work is.
pub struct Bar {
    bar: Option<Mutex<Option<ProgressBar>>>,
    things: &'static str,
}

impl Bar {
    /// So many there are.
    pub fn of(&self, count: usize) {
        let Some(Ok(mut bar)) = self.bar.as_ref().map(Mutex::lock) else { return };
        let look = format!("{{bar:30}} {{pos}} of {{len}} {}", self.things);
        let new = ProgressBar::with_draw_target(Some(count as u64), ProgressDrawTarget::stderr());
        *bar = Some(match ProgressStyle::with_template(&look) {
            Ok(look) => new.with_style(look),
            Err(_) => new,
        });
    }

    /// One more is done with.
    pub fn one_more(&self) {
        if let Some(Ok(bar)) = self.bar.as_ref().map(Mutex::lock)
            && let Some(bar) = bar.as_ref()
        {
            bar.inc(1);
        }
    }

    /// Takes the bar off the terminal.
    pub fn end(self) {
        if let Some(Ok(Some(bar))) = self.bar.map(Mutex::into_inner) {
            bar.finish_and_clear();
        }
    }
}
