//! Where sentences and words begin and end.

use super::{Counts, syllables};

/// A sentence, and where it stands in its text.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Sentence<'a> {
    /// Its words with their marks, without the number or bullet of a list item.
    pub text: &'a str,
    /// Where it begins, bytes.
    pub start: usize,
}

impl<'a> Sentence<'a> {
    /// Its words: what stands between blanks and holds a letter or a digit. `shut-off`, `J5` and
    /// `1.25` are one word each; `–` and `%` alone are none.
    pub fn words(&self) -> impl Iterator<Item = &'a str> {
        self.text.split_whitespace().filter(|word| word.contains(char::is_alphanumeric))
    }

    /// One sentence with its words and syllables; nothing at all if it has no letter.
    pub fn counts(&self) -> Counts {
        if !self.text.contains(char::is_alphabetic) {
            return Counts::default();
        }
        let (mut words, mut all) = (0, 0);
        for word in self.words() {
            words += 1;
            all += syllables(word);
        }
        Counts { words, sentences: 1, syllables: all }
    }
}

/// What ends with a full stop and ends no sentence.
const SHORT: &[&str] = &[
    "e.g.", "i.e.", "approx.", "vs.", "cf.", "Fig.", "fig.", // English
    "z.B.", "d.h.", "bzw.", "ca.", "Nr.", "ggf.", "evtl.", "inkl.", // German
    "aprox.", "núm.", "ej.", // Spanish
    "env.", "ex.", "max.", "min.", // French
];

/// The sentences of a text, Markdown or not. One goes up to a full stop, question mark, exclamation
/// mark or semicolon before a blank, closing quotes and brackets between them, or up to the end of a
/// paragraph or list item. A list number (`1.`), a decimal point and `e.g.` end nothing.
///
/// The semicolon is as Flesch counts: what can stand alone is a sentence (from memory). A colon is
/// not, though he has it too: what it announces is mostly a list, and the count stays on the strict
/// side.
pub fn sentences(text: &str) -> Vec<Sentence<'_>> {
    let mut all = Vec::new();
    let mut start = 0;
    let mut chars = text.char_indices().peekable();
    while let Some((at, c)) = chars.next() {
        let mut end = at + c.len_utf8();
        let ends = match c {
            '.' | '!' | '?' | ';' => {
                while let Some((at, mark)) = chars.next_if(|(_, c)| closes(*c)) {
                    end = at + mark.len_utf8();
                }
                let so_far = text.get(start..end).unwrap_or("").trim();
                chars.peek().is_none_or(|(_, next)| next.is_whitespace())
                    && !is_list_number(so_far)
                    && !so_far.split_whitespace().next_back().is_some_and(|w| SHORT.contains(&w))
            }
            '\n' => begins_anew(text.get(end..).unwrap_or("")),
            _ => false,
        };
        if ends {
            all.extend(sentence(text, start, end));
            start = end;
        }
    }
    all.extend(sentence(text, start, text.len()));
    all
}

/// Marks that may stand between the end of a sentence and the blank after it.
fn closes(c: char) -> bool {
    matches!(c, ')' | ']' | '"' | '\'' | '”' | '’' | '*' | '_')
}

fn is_list_number(text: &str) -> bool {
    text.strip_suffix('.').is_some_and(|number| number.bytes().all(|b| b.is_ascii_digit()))
}

/// Whether a line starts a list item, a heading or a paragraph of its own.
fn begins_anew(rest: &str) -> bool {
    let line = rest.trim_start_matches(' ');
    let digits = line.trim_start_matches(|c: char| c.is_ascii_digit());
    line.starts_with(['-', '*', '#', '\n'])
        || (digits.len() < line.len() && digits.starts_with(['.', ')']))
}

/// The words from `start` to `end` without blanks around them and without the mark of a list item
/// or heading; `None` if there are none.
fn sentence(text: &str, start: usize, end: usize) -> Option<Sentence<'_>> {
    let whole = text.get(start..end)?;
    let mut rest = whole.trim_start();
    let digits = rest.trim_start_matches(|c: char| c.is_ascii_digit());
    let after = if digits.len() < rest.len() {
        digits.strip_prefix(['.', ')'])
    } else {
        rest.strip_prefix(['-', '*', '+']).or_else(|| rest.strip_prefix('#'))
    };
    if let Some(after) = after.map(|after| after.trim_start_matches('#'))
        && after.starts_with(char::is_whitespace)
    {
        rest = after.trim_start();
    }
    let start = start + (whole.len() - rest.len());
    let text = rest.trim_end();
    (!text.is_empty()).then_some(Sentence { text, start })
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn split(text: &str) -> Vec<&str> {
        sentences(text).into_iter().map(|sentence| sentence.text).collect()
    }

    #[test]
    fn steps_are_sentences_of_their_own() {
        let steps =
            "1. Turn the power off. Put way 8 **on**.\n2. Press **Up** until it shows 3\n3. Wait";
        assert_eq!(
            split(steps),
            ["Turn the power off.", "Put way 8 **on**.", "Press **Up** until it shows 3", "Wait"]
        );
        assert_eq!(split("## Why\n- so\n- and so"), ["Why", "so", "and so"]);
    }

    #[test]
    fn a_decimal_point_ends_no_sentence() {
        assert_eq!(split("It takes 1.5 A. That is little.").len(), 2);
        assert_eq!(split("Multiply by 1.25.").len(), 1);
        assert_eq!(split("1.5 A flow."), ["1.5 A flow."]);
        assert_eq!(split("-3 is less; 4) is a mark").len(), 2);
    }

    #[test]
    fn closing_marks_belong_to_the_sentence_before() {
        assert_eq!(
            split("It says “Stop.” Then wait. (It may not.) **Go.** On"),
            ["It says “Stop.”", "Then wait.", "(It may not.)", "**Go.**", "On"]
        );
    }

    #[test]
    fn short_forms_end_nothing() {
        assert_eq!(
            split("Take a tool, e.g. a meter. Use it."),
            ["Take a tool, e.g. a meter.", "Use it."]
        );
    }

    #[test]
    fn one_line_in_a_paragraph_ends_nothing() {
        assert_eq!(split("Turn the power\noff now.\n\nWait").len(), 2);
    }

    #[test]
    fn what_is_a_word() {
        let words = |text| sentences(text).first().map_or(0, |sentence| sentence.words().count());
        assert_eq!(words("A shut-off switch – of 10 % – at J5"), 7);
        assert_eq!(words("Press {{ layout }} now"), 3);
    }

    proptest! {
        #[test]
        fn sentences_lie_in_their_text_in_order(text in "[a-zA-Z0-9 .;?!()\\n\\-#*é“”]{0,80}") {
            let mut end = 0;
            for sentence in sentences(&text) {
                prop_assert!(sentence.start >= end);
                end = sentence.start + sentence.text.len();
                prop_assert_eq!(text.get(sentence.start..end), Some(sentence.text));
            }
            // Nothing but blanks and marks of lists and headings is left out.
            let letters = |text: &str| text.chars().filter(|c| c.is_alphabetic()).count();
            let kept: usize = sentences(&text).iter().map(|sentence| letters(sentence.text)).sum();
            prop_assert_eq!(kept, letters(&text));
        }
    }
}
