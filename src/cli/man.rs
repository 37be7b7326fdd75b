//! `lidsheet man`

use std::path::PathBuf;

use clap_mangen::Man;

use super::Status;
use super::terminal::Terminal;
use super::verdict::count;
use crate::build::place_files;

/// Write the pages of the manual: the main one to standard output, or all into a folder
#[derive(Debug, clap::Args)]
#[command(after_help = "\
Examples:
  lidsheet man | man -l -
  lidsheet man --out /usr/local/share/man/man1")]
pub struct Args {
    /// The folder that the pages of all commands go to: `lidsheet.1`, `lidsheet-build.1` and so on
    #[arg(long, value_name = "DIR")]
    out: Option<PathBuf>,
}

/// Writes the pages of `command`, the whole command line. They have no date: the same program writes the
/// same pages.
pub fn run(args: &Args, command: clap::Command, terminal: &Terminal) -> Status {
    let mut pages = match pages(command) {
        Ok(pages) => pages,
        Err(error) => return terminal.trouble(&format!("no page can be made: {error}")),
    };
    let Some(out) = &args.out else {
        let main = pages.drain(..1).map(|(_, page)| page).next().unwrap_or_default();
        return terminal.result(&String::from_utf8_lossy(&main));
    };
    match place_files(out, pages) {
        Ok(placed) => terminal.summary(&format!(
            "{} written, {} unchanged\n",
            count(placed.written.len(), "page"),
            placed.kept.len()
        )),
        Err(problem) => terminal.prevented(*problem),
    }
}

/// The main page, then one for each command in their order, with the names of their files.
fn pages(command: clap::Command) -> std::io::Result<Vec<(String, Vec<u8>)>> {
    let mut command = command.disable_help_subcommand(true);
    command.build();
    let commands: Vec<clap::Command> = std::iter::once(command.clone())
        .chain(command.get_subcommands().filter(|it| !it.is_hide_set()).cloned())
        .collect();
    let page = |command| {
        let man = Man::new(command);
        let mut page = Vec::new();
        man.render(&mut page)?;
        Ok((man.get_filename(), page))
    };
    commands.into_iter().map(page).collect()
}
