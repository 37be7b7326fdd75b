//! One kind of sheets of a checked file, laid out and not written: what a preview shows.

use super::checked::{Checked, Content};
use super::job_sheets::job_document;
use super::look::{SheetOptions, templates};
use super::making::{FileContext, catching_panics};
use super::sheet_kind::SheetKind;
use crate::diagnostic::{Problems, Reported};
use crate::document::Document;
use crate::page::{self, Pages};
use crate::sheet::{self, Figure};
use crate::text::Typesetter;

/// Sheets laid out.
#[derive(Clone, Debug)]
pub struct SheetPages {
    /// The pages.
    pub pages: Pages,
    /// The drawings that were made for them, each by its name and its description.
    pub drawings: Vec<(String, String)>,
}

/// What a kind of sheets says; none where a file has no such sheets: a kind of the other half, a board of
/// which no job can be planned that a fault finder could be of.
///
/// # Errors
/// Why they cannot be made: what refused the file, or a problem that is added to `problems`.
pub fn sheet_document(
    checked: &mut Checked,
    kind: SheetKind,
    look: &SheetOptions,
    set: &mut Typesetter,
) -> Result<Option<Document>, Reported> {
    made(checked, kind, look, set, |document, _, _| document)
}

/// The same, laid out.
///
/// # Errors
/// As [`sheet_document`].
pub fn sheet_pages(
    checked: &mut Checked,
    kind: SheetKind,
    look: &SheetOptions,
    set: &mut Typesetter,
) -> Result<Option<SheetPages>, Reported> {
    made(checked, kind, look, set, |document, drawings, set| SheetPages {
        pages: page::lay_out(&document, look.paper, set),
        drawings,
    })
}

/// What comes of a document and of the names and descriptions of its drawings.
fn made<T>(
    checked: &mut Checked,
    kind: SheetKind,
    look: &SheetOptions,
    set: &mut Typesetter,
    finish: impl FnOnce(Document, Vec<(String, String)>, &mut Typesetter) -> T,
) -> Result<Option<T>, Reported> {
    let content = checked.content_in(look.words.tag()).into_owned();
    let Checked { shown, sources, problems, .. } = checked;
    if let Some(reported) = problems.failed() {
        return Err(reported);
    }
    let mut texts = FileContext { shown, sources, problems };
    catching_panics(&mut texts, set, |texts, set| {
        let mut drawings = Vec::new();
        let document = document(&content, kind, texts, look, set, &mut drawings)?;
        Ok(document.map(|document| finish(document, drawings, set)))
    })
}

fn document(
    content: &Content,
    kind: SheetKind,
    texts: &mut FileContext<'_>,
    look: &SheetOptions,
    set: &mut Typesetter,
    drawings: &mut Vec<(String, String)>,
) -> Result<Option<Document>, Reported> {
    let templates = templates(look, texts)?;
    let paper = look.paper;
    let problems: &mut Problems = texts.problems;
    match (content, kind) {
        (Content::Board(board), SheetKind::WiringSheets) => {
            let figures = sheet::figures(board, templates.words(), set, paper);
            let drawing = |figure: &Figure| (figure.name.clone(), figure.scene.description.clone());
            drawings.extend(figures.iter().map(drawing));
            sheet::wiring_sheets(board, &figures, &templates, paper, problems).map(Some)
        }
        (Content::Board(board), SheetKind::IntakeForm) => {
            let file = texts.shown.rsplit('/').next().unwrap_or_default();
            sheet::intake_form(board, file, &templates, problems).map(Some)
        }
        (Content::Board(board), SheetKind::FaultFinder) => {
            sheet::board_fault_finder(board, &templates, problems)
        }
        (Content::Job(Some(planned)), kind) => {
            job_document(planned, kind, (&templates, paper), set, problems)
        }
        (Content::Board(_), SheetKind::WorkCard | SheetKind::LidInsert)
        | (Content::Job(None) | Content::Refused, _) => Ok(None),
    }
}
