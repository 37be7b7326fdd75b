//! The sentences of the specification: easy enough to follow, and true of this board.

use super::named;
use crate::diagnostic::{Code, Problem, Problems};
use crate::reading::{
    Counts, HIGHEST_GRADE, LEAST_EASE, LONGEST_SENTENCE, ReadingLanguage, Sentence, grade, hardest,
    sentences,
};
use crate::source::{Sources, Span, Spanned};
use crate::spec::{Field, Spec, Use, Wording};
use crate::units::fixed;

/// What the steps of a panel show the layout number by.
const NUMBER: &str = "layout";

/// Checks every sentence that a person wrote, and gives the counts of all of them together.
pub fn check(spec: &Spec, sources: &Sources, problems: &mut Problems) -> Counts {
    let prose = Prose { sources };
    let texts = texts(spec);
    for text in &texts {
        named::check(spec, text.words, &|part| prose.narrow(text.span, part), problems);
    }
    for panel in &spec.panels.entries {
        let what = format!("panel {}", panel.name.value);
        if let Some(steps) = panel.choose_layout.get() {
            let place = steps.value.span().unwrap_or(steps.span);
            prose.placeholders(&what, panel.name.span, &steps.value, place, problems);
        }
    }
    let all: Vec<(&Text, Sentence)> = texts
        .iter()
        .flat_map(|text| sentences(text.words).into_iter().map(move |sentence| (text, sentence)))
        .collect();
    let counts: Vec<Counts> =
        all.iter().map(|(text, sentence)| text.reads_as.count_sentence(sentence)).collect();
    let long = prose.long_sentences(&all, problems);
    // One mistake, one message: shorter sentences first.
    if long == 0 {
        for language in ReadingLanguage::ALL {
            let of: Vec<_> = all
                .iter()
                .zip(&counts)
                .filter(|((text, _), _)| text.reads_as == language)
                .map(|((text, sentence), counts)| (*text, *sentence, *counts))
                .collect();
            prose.hard_to_read(language, &of, problems);
        }
    }
    counts.into_iter().sum()
}

/// A text that a person wrote, and what it tells about.
struct Text<'a> {
    what: String,
    words: &'a str,
    /// The language that it is measured in: its own, or English for words that are the same in all.
    reads_as: ReadingLanguage,
    span: Span,
}

/// All prose of a specification: its summary, the meanings of switches, the steps of panels.
fn texts(spec: &Spec) -> Vec<Text<'_>> {
    let mut all = Vec::new();
    all.extend(of("the summary", &spec.about.summary));
    for bank in &spec.switches.entries {
        for ways in &bank.ways.entries {
            let Use::Field(field) = &ways.purpose else { continue };
            let what = format!("way {} of {}", ways.name.value, bank.name.value);
            all.extend(of(&what, &field.when_off));
            all.extend(of(&what, &field.when_on));
            all.extend(
                field.settings.value().into_iter().flatten().map(|(_, it)| text_of(&what, it)),
            );
        }
    }
    for panel in &spec.panels.entries {
        all.extend(of(&format!("panel {}", panel.name.value), &panel.choose_layout));
    }
    all
}

/// The text of a key, if it is there.
fn of<'a>(what: &str, field: &'a Field<Wording>) -> Option<Text<'a>> {
    field.get().map(|text| text_of(what, text))
}

fn text_of<'a>(what: &str, text: &'a Spanned<Wording>) -> Text<'a> {
    let span = text.value.span().unwrap_or(text.span);
    let own = text.value.language().and_then(ReadingLanguage::of_tag);
    let reads_as = own.unwrap_or(ReadingLanguage::English);
    Text { what: what.to_owned(), words: &text.value, reads_as, span }
}

struct Prose<'a> {
    sources: &'a Sources,
}

impl Prose<'_> {
    /// Reports each sentence that is too long, and gives how many there are.
    fn long_sentences(&self, all: &[(&Text, Sentence)], problems: &mut Problems) -> usize {
        let mut found = 0;
        for (text, sentence) in all {
            let words = sentence.words().count();
            if words > LONGEST_SENTENCE {
                found += 1;
                problems.warning(
                    Problem::new(
                        Code::LongSentence,
                        self.narrow(text.span, sentence.text),
                        format!("a sentence of {} has {words} words", text.what),
                    )
                    .label(beginning(sentence))
                    .help(format!(
                        "make sentences of at most {LONGEST_SENTENCE} words, one idea in each"
                    )),
                );
            }
        }
        found
    }

    /// Reports prose in a language that is hard to read, once, at the sentence that weighs most.
    fn hard_to_read(
        &self,
        language: ReadingLanguage,
        all: &[(&Text, Sentence, Counts)],
        problems: &mut Problems,
    ) {
        let counts: Vec<Counts> = all.iter().map(|(.., counts)| *counts).collect();
        let whole: Counts = counts.iter().copied().sum();
        let worst = hardest(&counts).and_then(|index| all.get(index));
        let Some((text, sentence, _)) = worst.filter(|_| language.is_hard(whole)) else { return };
        let average = |value: Option<f64>, digits| fixed(value.unwrap_or_default(), digits);
        let (message, plain) = match language {
            ReadingLanguage::English => (
                format!(
                    "the prose of this specification reads at grade {}",
                    average(grade(whole), 1)
                ),
                format!("plain words read at grade {HIGHEST_GRADE} or below"),
            ),
            _ => {
                let (ease, formula) = (average(language.ease(whole), 1), language.formula());
                (
                    format!(
                        "the {language:?} prose of this specification has a reading ease of {ease}"
                    ),
                    format!("words that are not hard have {LEAST_EASE} or more by {formula}"),
                )
            }
        };
        problems.warning(
            Problem::new(Code::HardProse, self.narrow(text.span, sentence.text), message)
                .label(format!("{} is the hardest of its sentences", beginning(sentence)))
                .note(format!(
                    "{} words, {} to a sentence, {} syllables to a word; {plain}",
                    whole.words,
                    average(whole.words_per_sentence(), 1),
                    average(whole.syllables_per_word(), 2),
                ))
                .help("use short words of everyday speech, and part long sentences"),
        );
    }

    /// The place of `part` within the text at `span`, if it stands there as it was read, perhaps
    /// over several lines.
    fn narrow(&self, span: Span, part: &str) -> Span {
        let text = self.sources.text(span);
        let Some(first) = part.split_whitespace().next() else { return span };
        let found = text.match_indices(first).find_map(|(at, _)| {
            let mut rest = text.get(at..)?;
            for word in part.split_whitespace() {
                rest = rest.trim_start().strip_prefix(word)?;
            }
            Some(at..text.len() - rest.len())
        });
        let start = span.start as usize;
        found.map_or(span, |found| Span::new(span.file, start + found.start..start + found.end))
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

/// The first words of a sentence, in backticks.
fn beginning(sentence: &Sentence) -> String {
    let start: Vec<&str> = sentence.text.split_whitespace().take(4).collect();
    format!("`{} …`", start.join(" "))
}
