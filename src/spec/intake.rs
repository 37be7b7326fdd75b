//! What is refused before anything is read: files too large, not text, or outside the folder.

use crate::diagnostic::{Code, Problem, Problems, Reported};
use crate::source::{FileId, Sources, Span};

/// The largest file, bytes.
pub const LARGEST_FILE: usize = 1 << 20;

/// Takes a file in, if it is a text of a bearable size. `name` is shown to people.
pub fn admit(
    name: impl Into<String>,
    bytes: Vec<u8>,
    sources: &mut Sources,
    problems: &mut Problems,
) -> Result<FileId, Reported> {
    let name = name.into();
    if bytes.len() > LARGEST_FILE {
        let size = bytes.len();
        let message = format!("the file has {size} bytes; a specification has at most 1 MiB");
        return Err(problems.error(Problem::of_file(Code::FileTooLarge, name, message)));
    }
    match String::from_utf8(bytes) {
        Ok(text) => {
            let id = sources.add(name, text);
            judge_text(id, sources, problems)?;
            Ok(id)
        }
        Err(error) => {
            // What was readable is kept, so that the place can be shown.
            let start = error.utf8_error().valid_up_to();
            let text = String::from_utf8_lossy(error.as_bytes()).into_owned();
            let mark = text.get(start..).and_then(|rest| rest.chars().next());
            let length = mark.map_or(0, char::len_utf8);
            let id = sources.add(name, text);
            let span = Span::new(id, start..start + length);
            Err(problems.error(
                Problem::new(Code::NotUtf8, span, "the file is not UTF-8 text")
                    .label("this byte does not belong in UTF-8")
                    .help("save the file in the encoding UTF-8"),
            ))
        }
    }
}

/// Refuses a text with characters that no file of ours may hold: control characters other than
/// tab and line end.
pub fn judge_text(id: FileId, sources: &Sources, problems: &mut Problems) -> Result<(), Reported> {
    let file = sources.file(id);
    if file.text.len() > LARGEST_FILE {
        let size = file.text.len();
        let message = format!("the file has {size} bytes; a specification has at most 1 MiB");
        return Err(problems.error(Problem::of_file(Code::FileTooLarge, &file.name, message)));
    }
    let control = |c: char| c.is_control() && !matches!(c, '\n' | '\r' | '\t' | '\u{85}');
    match file.text.char_indices().find(|(_, c)| control(*c)) {
        None => Ok(()),
        Some((at, found)) => {
            let span = Span::new(id, at..at + found.len_utf8());
            let message = format!("the file holds a control character, U+{:04X}", found as u32);
            Err(problems.error(
                Problem::new(Code::ControlCharacter, span, message)
                    .label("here")
                    .help("remove the character; a specification is plain text"),
            ))
        }
    }
}

/// What is wrong with the path of a table, if anything is. Tables lie beside the specification or
/// below it; a path that could leave its folder on any system is refused.
pub fn path_problem(path: &str, span: Span) -> Option<Problem> {
    let leaves = path.starts_with('/')
        || path.contains(['\\', ':'])
        || path.split('/').any(|step| matches!(step, "" | "." | ".."));
    leaves.then(|| {
        Problem::new(
            Code::PathLeavesFolder,
            span,
            format!("the path `{path}` does not stay in the specification's folder"),
        )
        .label("name a file beside the specification or below it")
        .help("write the name with `/` between folders, such as `tables/layouts.csv`")
    })
}

/// What is wrong with the path of a job's board, if anything is. It is relative to the job's own
/// file and may go up first, because jobs lie in folders of their own; it names a specification, so
/// that no diagnostic shows a line of any other file.
pub fn board_path_problem(path: &str, span: Span) -> Option<Problem> {
    let mut steps = path.split('/').skip_while(|step| *step == "..").peekable();
    let strays = path.contains(['\\', ':'])
        || path.starts_with('/')
        || steps.peek().is_none()
        || steps.any(|step| matches!(step, "" | "." | ".."));
    let ending = path.ends_with(".yaml") || path.ends_with(".yml");
    (strays || !ending).then(|| {
        Problem::new(
            Code::BoardPath,
            span,
            format!("the path `{path}` does not lead to the specification of a board"),
        )
        .label(if strays { "relative to this file, upwards first" } else { "ends in `.yaml`" })
        .help("write it with `/` between folders, such as `../heron-8.yaml`")
    })
}
