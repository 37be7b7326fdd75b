//! What the field page holds of a board before any script runs.

use super::checked::{Checked, Content};
use super::look::SheetOptions;
use super::sheet_kind::SheetKind;
use super::sheet_pages::sheet_document;
use crate::diagnostic::Reported;
use crate::sheet;
use crate::text::Typesetter;
use crate::write;

/// A board on the field page, as pieces of HTML.
#[derive(Clone, Debug)]
pub struct FieldBoardHtml {
    /// The safety messages that its sheets begin with.
    pub cautions: String,
    /// The questions that find a layout number, and its wiring sheets, opened part by part.
    pub sheets: String,
}

/// What the page holds of a board. Its title is a heading of level `first_level`, and the names in it begin with
/// `names`. Nothing if `checked` is no sound board.
///
/// # Errors
/// Why its sheets cannot be made.
pub fn field_board(
    checked: &mut Checked,
    look: &SheetOptions,
    (first_level, names): (u8, &str),
    set: &mut Typesetter,
) -> Result<Option<FieldBoardHtml>, Reported> {
    let content = checked.content_in(look.words.tag()).into_owned();
    let Content::Board(board) = content else { return Ok(None) };
    let questions = sheet::question_steps(&board, &look.words);
    let document = sheet_document(checked, SheetKind::WiringSheets, look, set)?;
    Ok(document.map(|document| FieldBoardHtml {
        cautions: write::first_cautions_html(&document, names),
        sheets: write::folded_html(&document, first_level, names, questions.as_ref()),
    }))
}
