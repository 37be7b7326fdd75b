//! The sheets of a board.

use super::look::{SheetOptions, templates};
use super::making::{FileContext, OutFile, catching_panics, our_fault};
use super::sheet_kind::SheetKind;
use crate::board::Board;
use crate::diagnostic::{Code, Problem, Reported};
use crate::document::Document;
use crate::page::{self, Pages};
use crate::sheet::{self, Figure};
use crate::text::Typesetter;
use crate::write::{self, PngFault};

/// All files of a board's sheets, or that an error was reported of them.
pub fn sheets(
    board: &Board,
    checked: &mut FileContext<'_>,
    look: &SheetOptions,
    set: &mut Typesetter,
) -> Result<Vec<OutFile>, Reported> {
    catching_panics(checked, set, |texts, set| make_sheets(board, texts, look, set))
}

fn make_sheets(
    board: &Board,
    texts: &mut FileContext<'_>,
    look: &SheetOptions,
    set: &mut Typesetter,
) -> Result<Vec<OutFile>, Reported> {
    let templates = templates(look, texts)?;
    let figures = sheet::figures(board, templates.words(), set, look.paper);
    let known = sheet::BoardFacts::new(board, &templates);
    let document = sheet::wiring_sheets_of(&known, &figures, look.paper, texts.problems)?;
    let sheets = sheet_file(SheetKind::WiringSheets.file(), &document, texts, look, set)?;
    let file = texts.shown.rsplit('/').next().unwrap_or_default();
    let form = sheet::intake_form_of(&known, file, texts.problems)?;
    let form = sheet_file(SheetKind::IntakeForm.file(), &form, texts, look, set)?;
    let finder = sheet::board_fault_finder_of(&known, texts.problems)?;
    let finder =
        finder.map(|finder| sheet_file(SheetKind::FaultFinder.file(), &finder, texts, look, set));
    let finder = finder.transpose()?;
    let drawings = drawings(&figures, texts, look)?;
    Ok([sheets, form].into_iter().chain(finder).chain(drawings).collect())
}

/// Figures as files: each as SVG, and as PNG if that is asked for.
pub fn drawings(
    figures: &[Figure],
    texts: &mut FileContext<'_>,
    look: &SheetOptions,
) -> Result<Vec<OutFile>, Reported> {
    let mut files = Vec::new();
    for Figure { name, scene, .. } in figures {
        let file = |ending, bytes| OutFile { name: format!("{name}.{ending}"), bytes };
        files.push(file("svg", write::svg(scene).into_bytes()));
        let Some(dpi) = look.png else { continue };
        match write::png(scene, dpi) {
            Ok(bytes) => files.push(file("png", bytes)),
            Err(PngFault::TooLarge { width, height, most }) => {
                let message = format!(
                    "the figure `{name}` would have {width} by {height} pixels at {} dots to the inch",
                    dpi.get()
                );
                let problem = Problem::of_file(Code::PictureTooLarge, texts.shown, message);
                let help = format!("ask for {most} or fewer with `--png`");
                return Err(texts.problems.error(problem.help(help)));
            }
            Err(PngFault::Undrawn(why)) => {
                return Err(texts.problems.error(our_fault(texts.shown, &why)));
            }
        }
    }
    Ok(files)
}

/// A document as a file of that name, on the paper of the sheets.
pub fn sheet_file(
    name: &str,
    document: &Document,
    texts: &mut FileContext<'_>,
    look: &SheetOptions,
    set: &mut Typesetter,
) -> Result<OutFile, Reported> {
    let bytes = pdf(&page::lay_out(document, look.paper, set), texts)?;
    Ok(OutFile { name: name.to_owned(), bytes })
}

/// Pages as a file.
pub fn pdf(pages: &Pages, texts: &mut FileContext<'_>) -> Result<Vec<u8>, Reported> {
    write::pdf(pages).map_err(|faults| {
        let words: Vec<_> = faults
            .into_iter()
            .map(|fault| match fault.page {
                Some(page) => format!("page {page}: {}", fault.message),
                None => fault.message,
            })
            .collect();
        texts.problems.error(our_fault(texts.shown, &words.join("; ")))
    })
}

#[cfg(test)]
mod tests {
    use super::super::{Checked, Content, InMemory, OwnFolder, check};
    use super::*;
    use crate::page::Paper;

    /// A board that the checker would never let through stops the drawing half-way.
    #[test]
    fn our_own_mistakes_are_problems() {
        let heron = include_bytes!("../../tests/version-1/heron-8.yaml").to_vec();
        let Checked { shown, mut sources, mut problems, content, .. } =
            check("heron.yaml", heron, &InMemory::default());
        let Content::Board(mut board) = content else { panic!("{:?}", problems.sorted()) };
        board.parts.clear();
        let mut texts =
            FileContext { shown: &shown, sources: &mut sources, problems: &mut problems };
        let look = SheetOptions::new(Paper::A4, crate::words::english(), OwnFolder::default());
        assert!(sheets(&board, &mut texts, &look, &mut Typesetter::new()).is_err());
        let ours = problems.sorted().into_iter().find(|problem| problem.code == Code::Internal);
        assert_eq!(ours.and_then(|problem| problem.file).as_deref(), Some("heron.yaml"));
    }
}
