//! `lidsheet completions`

use clap::CommandFactory;

use super::Status;
use super::terminal::Terminal;

/// Write the completions of a shell to standard output
#[derive(Debug, clap::Args)]
#[command(after_help = "\
Example:
  lidsheet completions bash > ~/.local/share/bash-completion/completions/lidsheet")]
pub struct Args {
    /// The shell
    #[arg(value_enum)]
    shell: clap_complete::Shell,
}

pub fn run(args: &Args, terminal: &Terminal) -> Status {
    let mut script = Vec::new();
    let mut command = super::Args::command();
    clap_complete::generate(args.shell, &mut command, "lidsheet", &mut script);
    terminal.result(&String::from_utf8_lossy(&script))
}
