//! Tables of comma-separated values (RFC 4180), every cell with its place.

use crate::source::{File, FileId, Span, Spanned};

/// A line of a table.
pub type Record = Vec<Spanned<String>>;

/// A cell that cannot be read: where, and why.
pub struct Broken {
    /// The place.
    pub span: Span,
    /// Why: small first letter, no full stop.
    pub why: &'static str,
}

/// Reads all records of `file`. Empty lines are left out; a byte order mark is left out; spaces
/// round an unquoted cell are left out. A quoted cell may hold commas, line ends and doubled quotes.
pub fn records(id: FileId, file: &File) -> Result<Vec<Record>, Broken> {
    let text = &*file.text;
    let mut all = Vec::new();
    let mut at = if text.starts_with('\u{feff}') { '\u{feff}'.len_utf8() } else { 0 };
    let mut record = Vec::new();
    while at < text.len() || !record.is_empty() {
        let (cell, after) = cell(id, text, at)?;
        record.push(cell);
        let rest = text.get(after..).unwrap_or("");
        let line_end = ["\r\n", "\n", "\r"].iter().find(|end| rest.starts_with(**end));
        if let Some(next) = rest.strip_prefix(',') {
            at = text.len() - next.len();
            continue;
        }
        at = after + line_end.map_or(0, |end| end.len());
        let blank = matches!(record.as_slice(), [only] if only.value.is_empty());
        let done = std::mem::take(&mut record);
        if !blank {
            all.push(done);
        }
    }
    Ok(all)
}

/// The cell that starts at byte `start`, and where it ends.
fn cell(id: FileId, text: &str, start: usize) -> Result<(Spanned<String>, usize), Broken> {
    let rest = text.get(start..).unwrap_or("");
    let lead = rest.len() - rest.trim_start_matches([' ', '\t']).len();
    if let Some(quoted) = rest.get(lead..).and_then(|rest| rest.strip_prefix('"')) {
        return quoted_cell(id, text, text.len() - quoted.len());
    }
    let length = rest.find([',', '\n', '\r']).unwrap_or(rest.len());
    let value = rest.get(..length).unwrap_or("").trim();
    let end = start + length;
    let first = if value.is_empty() { start } else { start + lead };
    let span = Span::new(id, first..first + value.len());
    if value.contains('"') {
        return Err(Broken {
            span,
            why: "a quote stands inside a cell that does not start with one",
        });
    }
    Ok((Spanned::new(value.to_owned(), span), end))
}

/// The cell whose opening quote ends at byte `start`.
fn quoted_cell(id: FileId, text: &str, start: usize) -> Result<(Spanned<String>, usize), Broken> {
    let mut value = String::new();
    let mut at = start;
    loop {
        let rest = text.get(at..).unwrap_or("");
        let Some(length) = rest.find('"') else {
            let span = Span::new(id, start - 1..start);
            return Err(Broken { span, why: "a quoted cell is not closed" });
        };
        value.push_str(rest.get(..length).unwrap_or(""));
        at += length + 1;
        match text.get(at..).and_then(|rest| rest.chars().next()) {
            Some('"') => {
                value.push('"');
                at += 1;
            }
            None | Some(',' | '\n' | '\r') => {
                let span = Span::new(id, start - 1..at);
                return Ok((Spanned::new(value.trim().to_owned(), span), at));
            }
            Some(' ' | '\t') if blank_to_end(text, at) => {
                let span = Span::new(id, start - 1..at);
                let blanks = text
                    .get(at..)
                    .map_or(0, |rest| rest.len() - rest.trim_start_matches([' ', '\t']).len());
                return Ok((Spanned::new(value.trim().to_owned(), span), at + blanks));
            }
            Some(other) => {
                let span = Span::new(id, at..at + other.len_utf8());
                return Err(Broken { span, why: "something follows the closing quote of a cell" });
            }
        }
    }
}

/// Whether only blanks stand between `at` and the next comma or line end.
fn blank_to_end(text: &str, at: usize) -> bool {
    let rest = text.get(at..).unwrap_or("").trim_start_matches([' ', '\t']);
    rest.is_empty() || rest.starts_with([',', '\n', '\r'])
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::source::Sources;

    fn read(text: &str) -> Result<Vec<Vec<String>>, &'static str> {
        let mut sources = Sources::default();
        let id = sources.add("t.csv", text);
        let records = records(id, sources.file(id)).map_err(|broken| broken.why)?;
        for cell in records.iter().flatten() {
            let shown = sources.text(cell.span);
            if !shown.starts_with('"') {
                assert_eq!(shown, cell.value);
            }
        }
        Ok(records.into_iter().map(|r| r.into_iter().map(|c| c.value).collect()).collect())
    }

    /// RFC 4180 section 2, rules 1 to 7.
    #[test]
    fn reads_what_rfc_4180_shows() {
        let two = vec![vec!["aaa", "bbb", "ccc"], vec!["zzz", "yyy", "xxx"]];
        let two: Vec<Vec<String>> =
            two.into_iter().map(|r| r.into_iter().map(str::to_owned).collect()).collect();
        assert_eq!(read("aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n").as_ref(), Ok(&two));
        assert_eq!(read("aaa,bbb,ccc\r\nzzz,yyy,xxx").as_ref(), Ok(&two));
        assert_eq!(read("\"aaa\",\"bbb\",\"ccc\"\nzzz,yyy,xxx").as_ref(), Ok(&two));
        assert_eq!(
            read("\"aaa\",\"b\r\nbb\",\"c\"\"cc\"\r\n"),
            Ok(vec![vec!["aaa".into(), "b\r\nbb".into(), "c\"cc".into()]])
        );
    }

    #[test]
    fn an_empty_cell_counts_and_an_empty_line_does_not() {
        assert_eq!(
            read("a,\n\n,b\n"),
            Ok(vec![vec!["a".into(), String::new()], vec![String::new(), "b".into()]])
        );
    }

    #[test]
    fn broken_quotes_are_refused() {
        assert!(read("a,\"b").is_err());
        assert!(read("a,\"b\"c").is_err());
        assert!(read("a,b\"c").is_err());
    }
}
