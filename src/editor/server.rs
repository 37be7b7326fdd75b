//! The protocol between an editor and what it asks about (Language Server Protocol 3.17).
//!
//! Messages are worked off in their order. Those that wait are taken first: a request that was
//! cancelled meanwhile is answered as that, and problems are looked for only when nothing waits, so that
//! fast writing costs one look and not one for each letter.

use std::collections::{BTreeMap, BTreeSet, VecDeque};
use std::path::PathBuf;

use ls_types::notification::{
    DidChangeTextDocument, DidChangeWatchedFiles, DidCloseTextDocument, DidOpenTextDocument,
    Notification as _, PublishDiagnostics,
};
use ls_types::request::{
    CodeActionRequest, Completion, DocumentSymbolRequest, GotoDefinition, HoverRequest,
    PrepareRenameRequest, References, Rename, Request as _,
};
use ls_types::{PublishDiagnosticsParams, TextDocumentContentChangeEvent, Uri};
use lsp_server::{Connection, ErrorCode, Message, Notification, Request, RequestId, Response};
use serde::de::DeserializeOwned;

use super::answers::{self, Answers};
use super::place::{Place, offset_of};
use super::uri::path_of;
use super::workspace::Workspace;

/// What an editor is told that can be asked.
pub use super::answers::capabilities;

/// Serves one editor until it says that it ends; `roots` are its folders.
///
/// # Errors
/// If the connection breaks.
pub fn serve(connection: &Connection, roots: Vec<PathBuf>) -> Result<(), String> {
    let mut server = Server {
        connection,
        workspace: Workspace::new(roots),
        versions: BTreeMap::new(),
        published: BTreeSet::new(),
        waiting: VecDeque::new(),
        stale: false,
    };
    loop {
        if server.waiting.is_empty() && server.stale {
            server.take_waiting();
            if server.waiting.is_empty() {
                server.publish()?;
                continue;
            }
        }
        if server.waiting.is_empty() {
            let Ok(message) = connection.receiver.recv() else { return Ok(()) };
            server.waiting.push_back(message);
        }
        server.take_waiting();
        let Some(message) = server.waiting.pop_front() else { continue };
        match message {
            Message::Request(request) => {
                if connection.handle_shutdown(&request).map_err(|error| error.to_string())? {
                    return Ok(());
                }
                server.answer(request)?;
            }
            Message::Notification(note) if note.method == "exit" => return Ok(()),
            Message::Notification(note) => server.note(note),
            Message::Response(_) => {}
        }
    }
}

struct Server<'a> {
    connection: &'a Connection,
    workspace: Workspace,
    /// The version of each open file.
    versions: BTreeMap<PathBuf, i32>,
    /// The files that problems were told of.
    published: BTreeSet<PathBuf>,
    waiting: VecDeque<Message>,
    /// Whether something changed since problems were looked for.
    stale: bool,
}

impl Server<'_> {
    fn take_waiting(&mut self) {
        self.waiting.extend(self.connection.receiver.try_iter());
    }

    fn send(&self, message: Message) -> Result<(), String> {
        self.connection.sender.send(message).map_err(|error| error.to_string())
    }

    fn answer(&mut self, request: Request) -> Result<(), String> {
        let Request { id, method, params } = request;
        if self.is_cancelled(&id) {
            let code = ErrorCode::RequestCanceled as i32;
            let response = Response::new_err(id, code, "it was cancelled".to_owned());
            return self.send(response.into());
        }
        let ask = Answers { workspace: &self.workspace };
        let result = match method.as_str() {
            Completion::METHOD => answered(params, |it| Ok(ask.completion(&it))),
            HoverRequest::METHOD => answered(params, |it| Ok(ask.hover(&it))),
            GotoDefinition::METHOD => answered(params, |it| Ok(ask.definition(&it))),
            References::METHOD => answered(params, |it| Ok(ask.references(&it))),
            PrepareRenameRequest::METHOD => answered(params, |it| Ok(ask.prepare_rename(&it))),
            Rename::METHOD => answered(params, |it| ask.rename(&it)),
            CodeActionRequest::METHOD => answered(params, |it| Ok(ask.actions(&it))),
            DocumentSymbolRequest::METHOD => answered(params, |it| Ok(ask.symbols(&it))),
            _ => Err((ErrorCode::MethodNotFound, format!("`{method}` is not known here"))),
        };
        let response = match result {
            Ok(value) => Response::new_ok(id, value),
            Err((code, message)) => Response::new_err(id, code as i32, message),
        };
        self.send(response.into())
    }

    /// Whether a note that it is cancelled waits behind a request.
    fn is_cancelled(&self, id: &RequestId) -> bool {
        self.waiting.iter().any(|message| match message {
            Message::Notification(note) if note.method == "$/cancelRequest" => {
                let cancelled = note.params.get("id").cloned();
                let cancelled = cancelled.and_then(|it| serde_json::from_value(it).ok());
                cancelled.as_ref() == Some(id)
            }
            _ => false,
        })
    }

    fn note(&mut self, note: Notification) {
        let Notification { method, params } = note;
        match method.as_str() {
            DidOpenTextDocument::METHOD => {
                let Some(it) = read::<ls_types::DidOpenTextDocumentParams>(params) else { return };
                let Some(path) = path_of(&it.text_document.uri) else { return };
                self.versions.insert(path.clone(), it.text_document.version);
                self.workspace.set(&path, it.text_document.text);
                self.stale = true;
            }
            DidChangeTextDocument::METHOD => {
                let Some(it) = read::<ls_types::DidChangeTextDocumentParams>(params) else {
                    return;
                };
                let Some(path) = path_of(&it.text_document.uri) else { return };
                let known = self.versions.get(&path).copied();
                // A change of a file that is not open, or one that came late, would spoil the text.
                if known.is_none_or(|known| it.text_document.version <= known) {
                    return;
                }
                self.versions.insert(path.clone(), it.text_document.version);
                let mut text = self.workspace.text(&path).unwrap_or_default();
                it.content_changes.into_iter().for_each(|change| apply(&mut text, change));
                self.workspace.set(&path, text);
                self.stale = true;
            }
            DidCloseTextDocument::METHOD => {
                let Some(it) = read::<ls_types::DidCloseTextDocumentParams>(params) else { return };
                let Some(path) = path_of(&it.text_document.uri) else { return };
                self.versions.remove(&path);
                self.workspace.close(&path);
                self.stale = true;
            }
            DidChangeWatchedFiles::METHOD => self.stale = true,
            _ => {}
        }
    }

    /// Looks for the problems of all open files and tells them; of a file without any, that it has
    /// none.
    fn publish(&mut self) -> Result<(), String> {
        self.stale = false;
        let told = answers::diagnostics(&self.workspace);
        let now: BTreeSet<PathBuf> = told.keys().cloned().collect();
        let cured = self.published.difference(&now).map(|path| (path.clone(), Vec::new()));
        for (path, diagnostics) in cured.chain(told).collect::<Vec<_>>() {
            let Some(uri) = Uri::from_file_path(&path) else { continue };
            let version = self.versions.get(&path).copied();
            let params = PublishDiagnosticsParams { uri, diagnostics, version };
            let note = Notification::new(PublishDiagnostics::METHOD.to_owned(), params);
            self.send(note.into())?;
        }
        self.published = now;
        Ok(())
    }
}

type Refused = (ErrorCode, String);

/// Reads what is asked and gives the answer as JSON.
fn answered<P: DeserializeOwned, R: serde::Serialize>(
    params: serde_json::Value,
    answer: impl FnOnce(P) -> Result<R, String>,
) -> Result<serde_json::Value, Refused> {
    let asked = serde_json::from_value(params);
    let asked = asked.map_err(|error| (ErrorCode::InvalidParams, error.to_string()))?;
    let answer = answer(asked).map_err(|why| (ErrorCode::RequestFailed, why))?;
    serde_json::to_value(answer).map_err(|error| (ErrorCode::InternalError, error.to_string()))
}

fn read<P: DeserializeOwned>(params: serde_json::Value) -> Option<P> {
    serde_json::from_value(params).ok()
}

/// Changes a part of a text, or all of it.
fn apply(text: &mut String, change: TextDocumentContentChangeEvent) {
    let Some(range) = change.range else {
        *text = change.text;
        return;
    };
    let place = |it: ls_types::Position| Place { line: it.line, column: it.character };
    let (start, end) = (offset_of(text, place(range.start)), offset_of(text, place(range.end)));
    if start <= end {
        text.replace_range(start..end, &change.text);
    }
}

/// The folders that an editor shows.
pub fn roots_of(params: &ls_types::InitializeParams) -> Vec<PathBuf> {
    let folders = params.workspace_folders.iter().flatten();
    folders.filter_map(|folder| path_of(&folder.uri)).collect()
}
