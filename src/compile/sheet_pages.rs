//! One kind of sheets of a checked file, laid out and not written: what a preview shows.

use super::checked::{Checked, Content};
use super::job_sheets::{card_pages, finder_pages, insert_pages};
use super::look::{SheetOptions, templates};
use super::making::{FileContext, catching_panics};
use super::sheet_kind::SheetKind;
use crate::diagnostic::{Problems, Reported};
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

/// The pages of a kind of sheets; none where a file has no such sheets: a kind of the other half, a board of
/// which no job can be planned that a fault finder could be of.
///
/// # Errors
/// Why they cannot be made: what refused the file, or a problem that is added to `problems`.
pub fn sheet_pages(
    checked: &mut Checked,
    kind: SheetKind,
    look: &SheetOptions,
    set: &mut Typesetter,
) -> Result<Option<SheetPages>, Reported> {
    let content = checked.content_in(look.words.tag()).into_owned();
    let Checked { shown, sources, problems, .. } = checked;
    if let Some(reported) = problems.failed() {
        return Err(reported);
    }
    let mut texts = FileContext { shown, sources, problems };
    catching_panics(&mut texts, set, |texts, set| lay_out(&content, kind, texts, look, set))
}

fn lay_out(
    content: &Content,
    kind: SheetKind,
    texts: &mut FileContext<'_>,
    look: &SheetOptions,
    set: &mut Typesetter,
) -> Result<Option<SheetPages>, Reported> {
    let templates = templates(look, texts)?;
    let paper = look.paper;
    let problems: &mut Problems = texts.problems;
    let mut drawings = Vec::new();
    let document = match (content, kind) {
        (Content::Board(board), SheetKind::WiringSheets) => {
            let figures = sheet::figures(board, templates.words(), set, paper);
            let drawing = |figure: &Figure| (figure.name.clone(), figure.scene.description.clone());
            drawings = figures.iter().map(drawing).collect();
            Some(sheet::wiring_sheets(board, &figures, &templates, paper, problems)?)
        }
        (Content::Board(board), SheetKind::IntakeForm) => {
            let file = texts.shown.rsplit('/').next().unwrap_or_default();
            Some(sheet::intake_form(board, file, &templates, problems)?)
        }
        (Content::Board(board), SheetKind::FaultFinder) => {
            sheet::board_fault_finder(board, &templates, problems)?
        }
        (Content::Job(Some(planned)), kind) => {
            let make = match kind {
                SheetKind::LidInsert => insert_pages,
                SheetKind::WorkCard => card_pages,
                SheetKind::FaultFinder => finder_pages,
                SheetKind::WiringSheets | SheetKind::IntakeForm => return Ok(None),
            };
            let pages = make(planned, &templates, paper, set, problems)?;
            return Ok(Some(SheetPages { pages, drawings }));
        }
        (Content::Board(_), SheetKind::WorkCard | SheetKind::LidInsert)
        | (Content::Job(None) | Content::Refused, _) => None,
    };
    let pages = document.map(|document| page::lay_out(&document, paper, set));
    Ok(pages.map(|pages| SheetPages { pages, drawings }))
}
