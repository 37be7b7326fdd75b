//! `lidsheet preview`

use std::path::PathBuf;
use std::process::{Command, Stdio};

use super::Status;
use super::terminal::Terminal;
use crate::preview::{self, Order, ServeFault};

/// Show the sheets in a browser while you write
///
/// Serves a page on this machine alone. It shows the sheets of a board or a job as they are on paper, beside
/// the problems that `check` would report, and shows each change as soon as a file is saved. While a file has
/// errors, its last good sheets stay, under a band. Nothing is written to the disk. Ctrl+C ends it.
#[derive(Debug, clap::Args)]
#[command(after_help = "\
Examples:
  lidsheet preview --open
  lidsheet preview boards/draft.yaml
  lidsheet preview --port 0
  lidsheet preview --templates house")]
pub struct Args {
    /// Specifications, and folders to search for them
    #[arg(default_value = "specs", value_name = "PATH")]
    paths: Vec<PathBuf>,

    /// The port on this machine; with 0 any that is free
    #[arg(long, default_value_t = 8417, value_name = "PORT")]
    port: u16,

    /// Open the page in the browser
    #[arg(long)]
    open: bool,

    /// A folder with templates of your own, in place of those of the same name
    #[arg(long, value_name = "DIR")]
    templates: Option<PathBuf>,
}

pub fn run(args: &Args, terminal: &Terminal) -> Status {
    let order =
        Order { paths: args.paths.clone(), templates: args.templates.clone(), port: args.port };
    let served = preview::serve(order, &|address| {
        let address = format!("http://{address}/");
        terminal.result(&format!("preview at {address} (Ctrl+C ends it)\n"));
        if args.open && !open(&address) {
            terminal.say("note: no browser could be opened; open the address yourself\n");
        }
    });
    match served {
        Ok(()) => Status::Clean,
        Err(ServeFault::PortTaken) => terminal.trouble(&format!(
            "port {} is taken, perhaps by another preview; name another port, or any free one with \
             `--port 0`",
            args.port
        )),
        Err(ServeFault::Other(error)) => {
            terminal.trouble(&format!("the preview cannot be served: {error}"))
        }
    }
}

/// Asks the system to open an address; gives whether there was a program to ask.
fn open(address: &str) -> bool {
    let (program, arguments): (&str, &[&str]) = if cfg!(target_os = "windows") {
        ("rundll32", &["url.dll,FileProtocolHandler"])
    } else if cfg!(target_os = "macos") {
        ("open", &[])
    } else {
        ("xdg-open", &[])
    };
    let mut command = Command::new(program);
    command.args(arguments).arg(address);
    command.stdin(Stdio::null()).stdout(Stdio::null()).stderr(Stdio::null());
    command.spawn().is_ok()
}
