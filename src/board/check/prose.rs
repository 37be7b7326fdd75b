//! The sentences of the specification: short enough to follow, and true of this board.

use super::Draft;
use crate::diagnostic::{Code, Problem, Problems};
use crate::source::{Sources, Span};
use crate::spec::{Field, Spec, Use, way_range};

/// The most words of a sentence. Plain-language guides ask for 15 to 20 on average and at most 25
/// (common practice of such guides, from memory).
pub const WORDS: usize = 25;
/// What the steps of a panel show the layout number by.
const NUMBER: &str = "layout";

/// Checks every sentence that a person wrote.
pub fn check(spec: &Spec, sources: &Sources, draft: &Draft, problems: &mut Problems) {
    let _ = draft;
    let prose = Prose { spec, sources };
    prose.sentences("the summary", &spec.about.summary, problems);
    for bank in &spec.switches.entries {
        for ways in &bank.ways.entries {
            let Use::Field(field) = &ways.purpose else { continue };
            let what = format!("way {} of {}", ways.name.value, bank.name.value);
            prose.sentences(&what, &field.when_off, problems);
            prose.sentences(&what, &field.when_on, problems);
            for (_, meaning) in field.settings.value().into_iter().flatten() {
                prose.sentence_lengths(&what, &meaning.value, meaning.span, problems);
                prose.ways_named(&meaning.value, meaning.span, problems);
            }
        }
    }
    for panel in &spec.panels.entries {
        let what = format!("panel {}", panel.name.value);
        prose.sentences(&what, &panel.choose_layout, problems);
        if let Some(steps) = panel.choose_layout.get() {
            prose.placeholders(&what, panel.name.span, &steps.value, steps.span, problems);
        }
    }
}

struct Prose<'a> {
    spec: &'a Spec,
    sources: &'a Sources,
}

impl Prose<'_> {
    fn sentences(&self, what: &str, field: &Field<String>, problems: &mut Problems) {
        if let Some(text) = field.get() {
            self.sentence_lengths(what, &text.value, text.span, problems);
            self.ways_named(&text.value, text.span, problems);
        }
    }

    fn sentence_lengths(&self, what: &str, text: &str, span: Span, problems: &mut Problems) {
        for sentence in split(text) {
            let words = sentence.split_whitespace().filter(|word| has_letter(word)).count();
            if words > WORDS {
                let start: Vec<&str> = sentence.split_whitespace().take(4).collect();
                problems.warning(
                    Problem::new(
                        Code::LongSentence,
                        self.narrow(span, sentence),
                        format!("a sentence of {what} has {words} words"),
                    )
                    .label(format!("`{} …`", start.join(" ")))
                    .help(format!("make sentences of at most {WORDS} words, one idea in each")),
                );
            }
        }
    }

    /// The place of `part` within the text at `span`, if it stands there as it was read.
    fn narrow(&self, span: Span, part: &str) -> Span {
        match self.sources.text(span).find(part) {
            Some(at) => {
                let start = span.start as usize + at;
                Span::new(span.file, start..start + part.len())
            }
            None => span,
        }
    }

    /// Reports `way 9 of S1` where S1 has no way 9.
    fn ways_named(&self, text: &str, span: Span, problems: &mut Problems) {
        for bank in &self.spec.switches.entries {
            let ways = bank.ways.entries.iter().filter_map(|w| way_range(&w.name.value));
            let Some(most) = ways.map(|(_, last)| last).max().filter(|_| bank.ways.whole) else {
                continue;
            };
            let of = format!(" of {}", bank.name.value);
            for (at, _) in text.match_indices(&of) {
                let after = text.get(at + of.len()..).and_then(|rest| rest.chars().next());
                if after.is_some_and(char::is_alphanumeric) {
                    continue;
                }
                let before = text.get(..at).unwrap_or("");
                let digits =
                    before.len() - before.trim_end_matches(|c: char| c.is_ascii_digit()).len();
                let (before, number) = before.split_at(before.len() - digits);
                let lowered = before.trim_end().to_lowercase();
                let named = lowered.ends_with("way") || lowered.ends_with("ways");
                let Some(number) = number.parse::<u32>().ok().filter(|_| named) else { continue };
                if number == 0 || number > u32::from(most) {
                    let code = &bank.name.value;
                    problems.error(
                        Problem::new(
                            Code::WayLacking,
                            self.narrow(span, &format!("{number}{of}")),
                            format!("switch bank {code} has no way {number}"),
                        )
                        .label("no such way")
                        .other(bank.name.span, format!("has ways 1 to {most}")),
                    );
                }
            }
        }
    }

    /// Reports placeholders that nothing fills, and warns if the layout number is never shown.
    fn placeholders(
        &self,
        what: &str,
        name: Span,
        text: &str,
        span: Span,
        problems: &mut Problems,
    ) {
        let mut shown = false;
        let mut strange = false;
        let mut rest = text;
        while let Some(start) = rest.find("{{") {
            let inner = rest.get(start + 2..).unwrap_or("");
            let Some(end) = inner.find("}}") else {
                strange = true;
                problems.error(
                    Problem::new(
                        Code::UnknownPlaceholder,
                        self.narrow(span, "{{"),
                        format!("the steps of {what} have a placeholder that is not closed"),
                    )
                    .help("write `{{ layout }}` where the layout number belongs"),
                );
                break;
            };
            let word = inner.get(..end).unwrap_or("");
            rest = inner.get(end + 2..).unwrap_or("");
            if word.trim() == NUMBER {
                shown = true;
                continue;
            }
            strange = true;
            problems.error(
                Problem::new(
                    Code::UnknownPlaceholder,
                    self.narrow(span, &format!("{{{{{word}}}}}")),
                    format!("the steps of {what} have a placeholder that nothing fills"),
                )
                .label("only `{{ layout }}` is filled in"),
            );
        }
        if let Some(at) = text.find("{%").or_else(|| text.find("{#")) {
            strange = true;
            let mark = text.get(at..at + 2).unwrap_or("");
            problems.error(
                Problem::new(
                    Code::UnknownPlaceholder,
                    self.narrow(span, mark),
                    format!("the steps of {what} hold a template command"),
                )
                .label("only `{{ layout }}` is filled in"),
            );
        }
        if !shown && !strange {
            problems.warning(
                Problem::new(
                    Code::NumberNotShown,
                    name,
                    format!("the steps of {what} never show the layout number"),
                )
                .label("has no `{{ layout }}` in its steps")
                .help("write `{{ layout }}` where the number belongs"),
            );
        }
    }
}

fn has_letter(word: &str) -> bool {
    word.chars().any(char::is_alphanumeric)
}

/// Sentences: up to a full stop, question mark, exclamation mark or semicolon before a blank, or up
/// to the end of a step. A list number (`1.`) ends nothing.
fn split(text: &str) -> Vec<&str> {
    let mut all = Vec::new();
    let mut start = 0;
    let mut chars = text.char_indices().peekable();
    while let Some((at, c)) = chars.next() {
        let next = chars.peek().map(|(_, next)| *next);
        let ends = matches!(c, '.' | '!' | '?' | ';') && next.is_none_or(char::is_whitespace);
        let line = c == '\n' && next_line_is_item(text.get(at + 1..).unwrap_or(""));
        let so_far = text.get(start..at).unwrap_or("").trim();
        let list_number = c == '.' && so_far.bytes().all(|b| b.is_ascii_digit());
        if (ends && !list_number) || line {
            all.push(text.get(start..at + c.len_utf8()).unwrap_or("").trim());
            start = at + c.len_utf8();
        }
    }
    all.push(text.get(start..).unwrap_or("").trim());
    all.retain(|sentence| !sentence.is_empty());
    all
}

/// Whether a line starts a list item, a heading or a paragraph of its own.
fn next_line_is_item(rest: &str) -> bool {
    let line = rest.trim_start_matches(' ');
    let digits = line.trim_start_matches(|c: char| c.is_ascii_digit());
    line.starts_with(['-', '*', '#', '\n'])
        || (digits.len() < line.len() && digits.starts_with(['.', ')']))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn steps_are_sentences_of_their_own() {
        let steps =
            "1. Turn the power off. Put way 8 **on**.\n2. Press **Up** until it shows 3\n3. Wait";
        let sentences = split(steps);
        assert_eq!(sentences.len(), 4, "{sentences:?}");
        assert_eq!(sentences[0], "1. Turn the power off.");
    }

    #[test]
    fn a_decimal_point_ends_no_sentence() {
        assert_eq!(split("It takes 1.5 A. That is little.").len(), 2);
    }
}
