//! `lidsheet completions`

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

/// Writes the completions of `command`, the whole command line.
pub fn run(args: &Args, mut command: clap::Command, terminal: &Terminal) -> Status {
    let mut script = Vec::new();
    clap_complete::generate(args.shell, &mut command, "lidsheet", &mut script);
    terminal.result(&String::from_utf8_lossy(&script))
}
