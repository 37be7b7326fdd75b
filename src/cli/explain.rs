//! `lidsheet check --explain`

use serde::Serialize;

use super::Status;
use super::terminal::Terminal;
use crate::diagnostic::{Code, CodePage, explain, page};

/// A page of the catalogue.
#[derive(Serialize)]
struct PageJson {
    code: &'static str,
    severity: &'static str,
    title: &'static str,
    /// Markdown.
    text: &'static str,
    /// Lines of a specification that cause it, if it has a sample.
    wrong: Option<&'static str>,
    /// The same lines, mended.
    right: Option<&'static str>,
}

impl PageJson {
    fn of(code: Code) -> Self {
        let CodePage { title, text, wrong, right } = page(code);
        let sample = |lines: &'static str| (!lines.is_empty()).then_some(lines);
        let severity = code.severity().word();
        Self {
            code: code.text(),
            severity,
            title,
            text,
            wrong: sample(wrong),
            right: sample(right),
        }
    }
}

/// Shows the page of a code, or of `all` codes by number: as Markdown, or as JSON (an object, or an
/// array of them).
pub fn run(code: &str, json: bool, terminal: &Terminal) -> Status {
    if code == "all" {
        return if json {
            terminal.json(&Code::ALL.iter().map(|code| PageJson::of(*code)).collect::<Vec<_>>())
        } else {
            let pages: Vec<String> = Code::ALL.iter().map(|code| explain(*code)).collect();
            terminal.result(&pages.join("\n"))
        };
    }
    match Code::parse(code) {
        Some(code) if json => terminal.json(&PageJson::of(code)),
        Some(code) => terminal.result(&explain(code)),
        None => {
            let wish = "codes look like L401, and `all` is every code";
            terminal.trouble(&format!("there is no code `{code}`; {wish}"))
        }
    }
}
