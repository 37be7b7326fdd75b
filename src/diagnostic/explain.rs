//! The pages of the catalogue: what a code means, with a sample that causes it and one that does
//! not. The samples are run by `tests/suite/catalogue.rs`.

use super::Code;

/// A page of the catalogue.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct CodePage {
    /// A few words.
    pub title: &'static str,
    /// Why it is a problem, and what to do: Markdown paragraphs.
    pub text: &'static str,
    /// Lines of a specification that cause it.
    pub wrong: &'static str,
    /// The same lines, mended.
    pub right: &'static str,
}

/// What `lidsheet check --explain CODE` prints: plain Markdown.
pub fn explain(code: Code) -> String {
    let CodePage { title, text, wrong, right } = page(code);
    let mut out = format!("# {} ({}): {title}\n\n{text}\n", code.text(), code.severity().word());
    for (heading, sample) in [("So it happens", wrong), ("So it is right", right)] {
        if !sample.is_empty() {
            out.push_str(&format!("\n{heading}:\n\n```yaml\n{sample}\n```\n"));
        }
    }
    out
}

/// The page of a code.
pub fn page(code: Code) -> CodePage {
    parse(code.page_source())
}

/// A page's source: the title in a heading, the text, and up to two samples between fences.
fn parse(source: &'static str) -> CodePage {
    let (title, rest) = source.split_once('\n').unwrap_or((source, ""));
    let mut parts = rest.split("```yaml\n");
    let text = parts.next().unwrap_or("").trim();
    let mut sample = || {
        let part = parts.next().unwrap_or("");
        part.split("```").next().unwrap_or("").trim_end()
    };
    let (wrong, right) = (sample(), sample());
    CodePage { title: title.trim_start_matches('#').trim(), text, wrong, right }
}
