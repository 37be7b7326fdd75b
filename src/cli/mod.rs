//! The command line: arguments, a file for each command, the terminal, the wire types of JSON. The
//! only module that prints.
#![allow(clippy::print_stdout, clippy::print_stderr)]

mod args;
mod build;
mod changes;
mod check;
mod completions;
mod explain;
mod handout;
mod json;
mod language;
mod language_server;
mod man;
mod mark;
mod mistakes;
mod plan;
mod preview;
mod reading;
mod reference;
mod start;
mod stop;
mod table;
mod tables;
mod tag;
mod terminal;
mod verdict;
mod version;
mod viewers;

use std::ffi::OsString;
use std::io::{self, Write};
use std::process::ExitCode;

use clap::error::ErrorKind;
use clap::{CommandFactory, Parser};

use args::{Args, Command};
use terminal::{Color, Terminal};

/// How the program ends.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Status {
    /// 0: all is well.
    Clean,
    /// 1: a specification has errors; two boards to compare are not alike.
    Errors,
    /// 2: the command line is wrong, or a file cannot be read or written.
    Trouble,
    /// 130: somebody stopped it from the keyboard.
    Interrupted,
    /// 143: another program stopped it.
    Terminated,
}

impl Status {
    /// What the system is told.
    fn number(self) -> u8 {
        match self {
            Status::Clean => 0,
            Status::Errors => 1,
            Status::Trouble => 2,
            // As shells do: 128 and the number of the signal.
            Status::Interrupted => 130,
            Status::Terminated => 143,
        }
    }
}

impl From<Status> for ExitCode {
    fn from(status: Status) -> Self {
        ExitCode::from(status.number())
    }
}

/// Runs one command; `arguments` begin with the program's own name.
pub fn run(arguments: impl IntoIterator<Item = OsString>) -> ExitCode {
    let arguments: Vec<OsString> = arguments.into_iter().collect();
    // Reading the command line ends at `--version`, whatever stands behind it.
    let verbose = arguments.iter().any(|argument| argument == "--verbose");
    let args = match Args::try_parse_from(arguments) {
        Ok(args) => args,
        Err(error) if error.kind() == ErrorKind::DisplayVersion && verbose => {
            return Terminal::new(Color::Never, false).result(&version::verbose()).into();
        }
        Err(error) => {
            // Help and version go to standard output and are no mistake.
            let written = error.print().and_then(|()| io::stdout().flush());
            let lost = written.is_err_and(|error| error.kind() != io::ErrorKind::BrokenPipe);
            let trouble = error.use_stderr() || lost;
            return if trouble { Status::Trouble } else { Status::Clean }.into();
        }
    };
    let terminal = Terminal::new(args.color, args.quiet);
    match args.command {
        Command::Build(command) => build::run(&command, &terminal),
        Command::Check(command) => check::run(&command, &terminal),
        Command::Plan(command) => plan::run(&command, &terminal),
        Command::Changes(command) => changes::run(&command, &terminal),
        Command::Mistakes(command) => mistakes::run(&command, &terminal),
        Command::Tables(command) => tables::run(&command, &terminal),
        Command::Preview(command) => preview::run(&command, &terminal),
        Command::Start(command) => start::run(&command, &terminal),
        Command::Reference(command) => reference::run(&command, &terminal),
        Command::Schema(command) => reference::schema(&command, &terminal),
        Command::LanguageServer(command) => language_server::run(&command, &terminal),
        Command::Handout(command) => handout::run(&command, &terminal),
        Command::Completions(command) => completions::run(&command, Args::command(), &terminal),
        Command::Man(command) => man::run(&command, Args::command(), &terminal),
    }
    .into()
}
