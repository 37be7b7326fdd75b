//! Arguments that all commands share, and the list of commands.

use clap::{Parser, Subcommand};

use super::terminal::Color;
use super::{
    build, changes, check, completions, handout, language_server, man, mistakes, plan, preview,
    reference, start, tables,
};

/// Compiles the specification of a control board into wiring sheets.
#[derive(Debug, Parser)]
#[command(name = "lidsheet", version, max_term_width = 100, after_help = EXIT)]
pub struct Args {
    #[command(subcommand)]
    pub command: Command,

    /// Colours in what is shown; `auto` follows the terminal and NO_COLOR
    #[arg(long, global = true, value_enum, value_name = "WHEN", default_value_t = Color::Auto)]
    pub color: Color,

    /// Show problems only
    #[arg(long, short, global = true)]
    pub quiet: bool,

    /// With --version: also the edition of the language, that of the sheets, and the standards used
    #[arg(long, requires = "version")]
    pub verbose: bool,
}

const EXIT: &str = "\
Exit status:
  0  all is well
  1  a specification has errors, or a job is refused; for `changes`: something differs
  2  the command line is wrong, or a file cannot be read or written
  130, 143  a build was stopped: what was begun is finished, the rest is as it was";

#[derive(Debug, Subcommand)]
pub enum Command {
    Build(build::Args),
    Check(check::Args),
    Plan(plan::Args),
    Mistakes(mistakes::Args),
    Changes(changes::Args),
    Tables(tables::Args),
    Handout(handout::Args),
    Preview(preview::Args),
    Start(start::Args),
    Reference(reference::Args),
    Schema(reference::SchemaArgs),
    LanguageServer(language_server::Args),
    Completions(completions::Args),
    Man(man::Args),
}
