//! Each question of an editor, answered in the protocol's types.

use std::collections::{BTreeMap, HashMap};
use std::ops::Range;
use std::path::{Path, PathBuf};

use ls_types::{
    CodeAction, CodeActionKind, CodeActionOrCommand, CodeActionParams,
    CodeActionProviderCapability, CompletionItem, CompletionItemKind, CompletionOptions,
    CompletionParams, CompletionResponse, CompletionTextEdit, Diagnostic,
    DiagnosticRelatedInformation, DiagnosticSeverity, DocumentSymbol, DocumentSymbolParams,
    DocumentSymbolResponse, Documentation, GotoDefinitionParams, GotoDefinitionResponse, Hover,
    HoverContents, HoverParams, HoverProviderCapability, Location, MarkupContent, MarkupKind,
    NumberOrString, OneOf, Position, PrepareRenameResponse, ReferenceParams, RenameOptions,
    RenameParams, ServerCapabilities, SymbolKind, TextDocumentPositionParams,
    TextDocumentSyncCapability, TextDocumentSyncKind, TextEdit, Uri, WorkDoneProgressOptions,
    WorkspaceEdit,
};

use super::complete::{Proposal, ProposalKind, complete};
use super::document::{Document, What};
use super::hover::hover;
use super::names::{Name, Names, name_at};
use super::place::{Place, offset_of, place_of};
use super::uri::{is_ours, path_of};
use super::workspace::{Workspace, plain};
use crate::board::Board;
use crate::compile::Content;
use crate::diagnostic::{EditKind, Problem, Severity, page};
use crate::source::{Sources, Span};
use crate::spec::language::Kind;

/// What can be asked here.
pub fn capabilities() -> ServerCapabilities {
    ServerCapabilities {
        text_document_sync: Some(TextDocumentSyncCapability::Kind(
            TextDocumentSyncKind::INCREMENTAL,
        )),
        completion_provider: Some(CompletionOptions {
            trigger_characters: Some([" ", "{", "[", ","].map(str::to_owned).to_vec()),
            ..CompletionOptions::default()
        }),
        hover_provider: Some(HoverProviderCapability::Simple(true)),
        definition_provider: Some(OneOf::Left(true)),
        references_provider: Some(OneOf::Left(true)),
        rename_provider: Some(OneOf::Right(RenameOptions {
            prepare_provider: Some(true),
            work_done_progress_options: WorkDoneProgressOptions::default(),
        })),
        code_action_provider: Some(CodeActionProviderCapability::Simple(true)),
        document_symbol_provider: Some(OneOf::Left(true)),
        ..ServerCapabilities::default()
    }
}

/// The problems of all open files, and of the files that these name, by the file that they are in.
pub fn diagnostics(workspace: &Workspace) -> BTreeMap<PathBuf, Vec<Diagnostic>> {
    let mut all: BTreeMap<PathBuf, Vec<Diagnostic>> = BTreeMap::new();
    for path in workspace.open().filter(|path| is_ours(path)) {
        all.entry(path.to_owned()).or_default();
        let Some(checked) = workspace.check(path) else { continue };
        for problem in checked.problems.sorted() {
            let file = file_of(&problem, &checked.sources).unwrap_or_else(|| path.to_owned());
            let told = all.entry(file).or_default();
            let diagnostic = diagnostic(&problem, &checked.sources);
            // Two jobs of one board find the same in it.
            if !told.contains(&diagnostic) {
                told.push(diagnostic);
            }
        }
    }
    all
}

/// The file that a problem has its place in.
fn file_of(problem: &Problem, sources: &Sources) -> Option<PathBuf> {
    let span = problem.primary.as_ref()?.span;
    Some(PathBuf::from(&sources.get(span.file)?.name))
}

fn diagnostic(problem: &Problem, sources: &Sources) -> Diagnostic {
    let range = problem.primary.as_ref().map(|label| range_in(sources, label.span));
    let related = problem.others.iter().filter_map(|label| {
        let uri = Uri::from_file_path(&sources.get(label.span.file)?.name)?;
        let location = Location { uri, range: range_in(sources, label.span) };
        let message = if label.text.is_empty() { "see here" } else { &label.text };
        Some(DiagnosticRelatedInformation { location, message: message.to_owned() })
    });
    let mut message = problem.message.clone();
    let label =
        problem.primary.as_ref().map(|label| label.text.as_str()).filter(|it| !it.is_empty());
    label.iter().for_each(|label| message.push_str(&format!("\n{label}")));
    problem.notes.iter().for_each(|note| message.push_str(&format!("\nnote: {note}")));
    problem.help.iter().for_each(|help| message.push_str(&format!("\nhelp: {}", help.text)));
    Diagnostic {
        range: range.unwrap_or_default(),
        severity: Some(match problem.code.severity() {
            Severity::Error => DiagnosticSeverity::ERROR,
            Severity::Warning => DiagnosticSeverity::WARNING,
        }),
        code: Some(NumberOrString::String(problem.code.text().to_owned())),
        source: Some("lidsheet".to_owned()),
        message,
        related_information: Some(related.collect()),
        ..Diagnostic::default()
    }
}

/// A place of a file that was checked as an editor counts it.
fn range_in(sources: &Sources, span: Span) -> ls_types::Range {
    let text = sources.get(span.file).map_or("", |file| &*file.text);
    range(text, &span.range())
}

fn range(text: &str, bytes: &Range<usize>) -> ls_types::Range {
    let position = |offset| {
        let Place { line, column } = place_of(text, offset);
        Position { line, character: column }
    };
    ls_types::Range { start: position(bytes.start), end: position(bytes.end) }
}

/// Answers from the files of a workspace.
pub struct Answers<'a> {
    /// The files.
    pub workspace: &'a Workspace,
}

/// A file, and a byte in it.
struct Asked {
    path: PathBuf,
    text: String,
    document: Document,
    offset: usize,
}

impl Answers<'_> {
    fn asked(&self, at: &TextDocumentPositionParams) -> Option<Asked> {
        let path = path_of(&at.text_document.uri)?;
        let text = self.workspace.text(&path)?;
        let place = Place { line: at.position.line, column: at.position.character };
        let (document, offset) = (Document::read(&text), offset_of(&text, place));
        Some(Asked { path, text, document, offset })
    }

    /// What may stand at a place.
    pub fn completion(&self, params: &CompletionParams) -> Option<CompletionResponse> {
        let asked = self.asked(&params.text_document_position)?;
        let names = self.workspace.names(&asked.path);
        let found = complete(&asked.text, asked.document.form, &names, asked.offset);
        let items = found.iter().enumerate().map(|(index, it)| item(&asked.text, index, it));
        Some(CompletionResponse::Array(items.collect()))
    }

    /// Help for what stands at a place: what it is, and the pages of the problems that it has.
    pub fn hover(&self, params: &HoverParams) -> Option<Hover> {
        let asked = self.asked(&params.text_document_position_params)?;
        let names = self.workspace.names(&asked.path);
        let checked = self.workspace.check(&asked.path);
        let about = |board| hover(&asked.document, &names, board, asked.offset);
        let about = match checked.as_ref().map(|it| &it.content) {
            Some(Content::Board(board)) => about(Some(board)),
            // A job's own board; of a file with errors there is none.
            _ => about(self.other_board(&asked.path).as_ref()),
        };
        let mut says: Vec<String> = about.iter().map(|(says, _)| says.clone()).collect();
        let mut place = about.map(|(_, place)| place);
        if let Some(checked) = &checked {
            for problem in checked.problems.sorted() {
                let Some(label) = &problem.primary else { continue };
                let here = file_of(&problem, &checked.sources).as_deref() == Some(&asked.path);
                let bytes = label.span.range();
                if here && (bytes.start..=bytes.end).contains(&asked.offset) {
                    let page = page(problem.code);
                    says.push(format!(
                        "**{}: {}**\n\n{}",
                        problem.code.text(),
                        page.title,
                        page.text
                    ));
                    place.get_or_insert(bytes);
                }
            }
        }
        (!says.is_empty()).then(|| Hover {
            contents: HoverContents::Markup(MarkupContent {
                kind: MarkupKind::Markdown,
                value: says.join("\n\n---\n\n"),
            }),
            range: place.map(|place| range(&asked.text, &place)),
        })
    }

    /// Where the name at a place is given.
    pub fn definition(&self, params: &GotoDefinitionParams) -> Option<GotoDefinitionResponse> {
        let asked = self.asked(&params.text_document_position_params)?;
        let named = self.named(&asked)?;
        let path = &named.board;
        let text = self.workspace.text(path)?;
        let document = Document::read(&text);
        let found = super::names::occurrences(&document, &named.names, &named.name);
        let gives = found.into_iter().find(|it| it.gives)?;
        let uri = Uri::from_file_path(path)?;
        let location = Location { uri, range: range(&text, &gives.range) };
        Some(GotoDefinitionResponse::Scalar(location))
    }

    /// Where the name at a place stands in the board, its tables and its jobs.
    pub fn references(&self, params: &ReferenceParams) -> Option<Vec<Location>> {
        let asked = self.asked(&params.text_document_position)?;
        let named = self.named(&asked)?;
        let mut all = Vec::new();
        for (path, found) in self.workspace.everywhere(&named.board, &named.names, &named.name) {
            let (Some(uri), Some(text)) = (Uri::from_file_path(&path), self.workspace.text(&path))
            else {
                continue;
            };
            let wanted = found.iter().filter(|it| params.context.include_declaration || !it.gives);
            all.extend(
                wanted.map(|it| Location { uri: uri.clone(), range: range(&text, &it.range) }),
            );
        }
        Some(all)
    }

    /// The name at a place that can be renamed.
    pub fn prepare_rename(&self, at: &TextDocumentPositionParams) -> Option<PrepareRenameResponse> {
        let asked = self.asked(at)?;
        let (name, bytes) =
            name_at(&asked.document, &self.workspace.names(&asked.path), asked.offset)?;
        let range = range(&asked.text, &bytes);
        Some(PrepareRenameResponse::RangeWithPlaceholder { range, placeholder: name.text })
    }

    /// Renames the name at a place wherever it stands.
    ///
    /// # Errors
    /// Why it cannot be renamed.
    pub fn rename(&self, params: &RenameParams) -> Result<Option<WorkspaceEdit>, String> {
        let Some(asked) = self.asked(&params.text_document_position) else { return Ok(None) };
        let Some(named) = self.named(&asked) else { return Ok(None) };
        let new = params.new_name.trim();
        let fits = new.starts_with(char::is_alphanumeric)
            && new.chars().count() <= 24
            && new.chars().all(|c| c.is_alphanumeric() || matches!(c, '-' | '_' | '.' | ' '));
        if !fits {
            return Err("a name has up to 24 letters, digits, blanks, `-`, `_` and `.`".to_owned());
        }
        if named.names.has(named.name.thing, new) {
            return Err(format!("`{new}` is there already"));
        }
        let mut changes: HashMap<Uri, Vec<TextEdit>> = HashMap::new();
        for (path, found) in self.workspace.everywhere(&named.board, &named.names, &named.name) {
            let (Some(uri), Some(text)) = (Uri::from_file_path(&path), self.workspace.text(&path))
            else {
                continue;
            };
            let edits = found
                .iter()
                .map(|it| TextEdit { range: range(&text, &it.range), new_text: new.to_owned() });
            changes.insert(uri, edits.collect());
        }
        Ok(Some(WorkspaceEdit { changes: Some(changes), ..WorkspaceEdit::default() }))
    }

    /// The changes that mend the problems in a range.
    pub fn actions(&self, params: &CodeActionParams) -> Option<Vec<CodeActionOrCommand>> {
        let path = path_of(&params.text_document.uri)?;
        let checked = self.workspace.check(&path)?;
        let mut all = Vec::new();
        for problem in checked.problems.sorted() {
            let edit =
                problem.help.as_ref().and_then(|help| Some((&help.text, help.edit.as_ref()?)));
            let (Some((title, edit)), Some(label)) = (edit, &problem.primary) else {
                continue;
            };
            let place = range_in(&checked.sources, label.span);
            let here = file_of(&problem, &checked.sources).as_deref() == Some(path.as_path());
            if !here || place.end < params.range.start || params.range.end < place.start {
                continue;
            }
            let file = checked.sources.get(edit.span.file).map(|file| file.name.clone());
            let Some(uri) = file.and_then(Uri::from_file_path) else { continue };
            let change = TextEdit {
                range: range_in(&checked.sources, edit.span),
                new_text: edit.text.clone(),
            };
            all.push(CodeActionOrCommand::CodeAction(CodeAction {
                title: title.clone(),
                kind: Some(CodeActionKind::QUICKFIX),
                // Only the writing changes, not what the file says.
                is_preferred: Some(edit.kind == EditKind::Spelling),
                diagnostics: Some(vec![diagnostic(&problem, &checked.sources)]),
                edit: Some(WorkspaceEdit {
                    changes: Some(HashMap::from([(uri, vec![change])])),
                    ..WorkspaceEdit::default()
                }),
                ..CodeAction::default()
            }));
        }
        Some(all)
    }

    /// The sections of a file, and the things in them.
    pub fn symbols(&self, params: &DocumentSymbolParams) -> Option<DocumentSymbolResponse> {
        let path = path_of(&params.text_document.uri)?;
        let text = self.workspace.text(&path)?;
        let document = Document::read(&text);
        let mut all: Vec<DocumentSymbol> = Vec::new();
        for mark in &document.marks {
            match mark.what {
                What::Key(form, _) if std::ptr::eq(form, document.form) => {
                    all.push(symbol(&text, mark, SymbolKind::NAMESPACE));
                }
                What::Thing(..) | What::Value(Kind::Layout) => {
                    if let Some(section) = all.last_mut() {
                        let one = symbol(&text, mark, SymbolKind::OBJECT);
                        section.children.get_or_insert_default().push(one);
                    }
                }
                _ => {}
            }
        }
        Some(DocumentSymbolResponse::Nested(all))
    }

    /// The board that a file names, if it is another file and sound.
    fn other_board(&self, path: &Path) -> Option<Board> {
        let board = self.workspace.board_of(path).filter(|board| *board != plain(path))?;
        match self.workspace.check(&board)?.content {
            Content::Board(board) => Some(*board),
            _ => None,
        }
    }

    fn named(&self, asked: &Asked) -> Option<Named> {
        let names = self.workspace.names(&asked.path);
        let (name, _) = name_at(&asked.document, &names, asked.offset)?;
        Some(Named { board: self.workspace.board_of(&asked.path)?, names, name })
    }
}

/// A name and the board that gives it.
struct Named {
    board: PathBuf,
    names: Names,
    name: Name,
}

fn item(text: &str, index: usize, proposal: &Proposal) -> CompletionItem {
    let edit = TextEdit {
        range: range(text, &proposal.replaces),
        new_text: match proposal.kind {
            ProposalKind::Key if !colon_follows(text, proposal.replaces.end) => {
                format!("{}: ", proposal.text)
            }
            _ => proposal.text.clone(),
        },
    };
    CompletionItem {
        label: proposal.text.clone(),
        kind: Some(match proposal.kind {
            ProposalKind::Key => CompletionItemKind::PROPERTY,
            ProposalKind::Word => CompletionItemKind::ENUM_MEMBER,
            ProposalKind::Name => CompletionItemKind::REFERENCE,
        }),
        documentation: (!proposal.says.is_empty()).then(|| {
            let (kind, value) = (MarkupKind::Markdown, proposal.says.clone());
            Documentation::MarkupContent(MarkupContent { kind, value })
        }),
        // In the order in which the language has them.
        sort_text: Some(format!("{index:04}")),
        text_edit: Some(CompletionTextEdit::Edit(edit)),
        ..CompletionItem::default()
    }
}

fn colon_follows(text: &str, offset: usize) -> bool {
    text.get(offset..).is_some_and(|rest| rest.starts_with(':'))
}

#[allow(deprecated, reason = "the type has a field that is deprecated and must be given")]
fn symbol(text: &str, mark: &super::document::Mark, kind: SymbolKind) -> DocumentSymbol {
    let name = if mark.text.is_empty() { "-".to_owned() } else { mark.text.clone() };
    DocumentSymbol {
        name,
        detail: None,
        kind,
        tags: None,
        deprecated: None,
        range: range(text, &mark.whole),
        selection_range: range(text, &mark.range),
        children: None,
    }
}
