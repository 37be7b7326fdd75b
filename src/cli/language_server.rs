//! `lidsheet language-server`

use lsp_server::Connection;

use super::Status;
use super::terminal::Terminal;
use crate::editor;

/// Answer an editor: problems while one writes, completion, help, names (Language Server Protocol)
///
/// It speaks over standard input and output. README.md says how to set it up in an editor.
#[derive(Debug, clap::Args)]
pub struct Args {}

pub fn run(_: &Args, terminal: &Terminal) -> Status {
    let (connection, threads) = Connection::stdio();
    let served = served(&connection);
    // The threads end when nobody holds the connection.
    drop(connection);
    let joined = threads.join().map_err(|error| error.to_string());
    match served.and(joined) {
        Ok(()) => Status::Clean,
        Err(why) => {
            terminal.trouble(&why);
            Status::Trouble
        }
    }
}

fn served(connection: &Connection) -> Result<(), String> {
    let (id, params) = connection.initialize_start().map_err(|error| error.to_string())?;
    let params: ls_types::InitializeParams =
        serde_json::from_value(params).map_err(|error| error.to_string())?;
    let answer = ls_types::InitializeResult {
        capabilities: editor::capabilities(),
        server_info: Some(ls_types::ServerInfo {
            name: "lidsheet".to_owned(),
            version: Some(env!("CARGO_PKG_VERSION").to_owned()),
        }),
        ..ls_types::InitializeResult::default()
    };
    let answer = serde_json::to_value(answer).map_err(|error| error.to_string())?;
    connection.initialize_finish(id, answer).map_err(|error| error.to_string())?;
    editor::serve(connection, editor::roots_of(&params))
}
