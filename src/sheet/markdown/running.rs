//! The running text of a filled template with its places.

use std::ops::Range;

use pulldown_cmark::{Event, Options, Parser, Tag, TagEnd};

use super::command::{Stretch, stretches};
use super::pieces::signal;

/// Words of a paragraph or of an item of a list, and where each of their pieces stands in the
/// Markdown.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct RunningText {
    /// The words.
    pub text: String,
    /// Where a piece begins in `text`, and which bytes of the Markdown it is.
    pieces: Vec<(usize, Range<usize>)>,
}

impl RunningText {
    /// Where in the Markdown the letter at `at` stands.
    pub fn place(&self, at: usize) -> Option<usize> {
        let index = self.pieces.partition_point(|(start, _)| *start <= at).checked_sub(1)?;
        let (start, range) = self.pieces.get(index)?;
        // Never behind its piece: a reference such as `&nbsp;` is longer than what it stands for.
        Some((range.start + (at - start)).min(range.end.saturating_sub(1)).max(range.start))
    }

    fn push(&mut self, text: &str, range: Range<usize>) {
        self.pieces.push((self.text.len(), range));
        self.text.push_str(text);
    }
}

/// The paragraphs and items of lists of a filled template: no headings, no tables and what they are
/// announced by, no words of pictures, no signal words. What stands behind a box to tick within a
/// line is an entry, not a sentence, and is left out.
pub fn running(markdown: &str) -> Vec<RunningText> {
    let mut all = vec![RunningText::default()];
    // How many tables, headings and pictures are open, and whether a box has come in this paragraph.
    let (mut closed, mut ticked) = (0_usize, false);
    let options = Options::ENABLE_TABLES | Options::ENABLE_TASKLISTS;
    let stretches = stretches(markdown).into_iter().filter_map(|stretch| match stretch {
        Stretch::Markdown(range) => Some(range),
        Stretch::Command(_) => None,
    });
    let events = stretches.flat_map(|stretch| {
        let text = markdown.get(stretch.clone()).unwrap_or_default();
        let whole = move |at: Range<usize>| stretch.start + at.start..stretch.start + at.end;
        Parser::new_ext(text, options).into_offset_iter().map(move |(event, at)| (event, whole(at)))
    });
    for (event, range) in events {
        let begins = |tag: &Tag<'_>| {
            matches!(tag, Tag::Paragraph | Tag::Item | Tag::List(_) | Tag::BlockQuote(_))
        };
        match event {
            Event::Start(Tag::Image { ref dest_url, .. }) => {
                closed += 1;
                ticked |= &**dest_url == "tick:";
            }
            Event::Start(Tag::Table(_) | Tag::Heading { .. }) => closed += 1,
            Event::End(TagEnd::Image | TagEnd::Table | TagEnd::Heading(_)) => {
                closed = closed.saturating_sub(1);
            }
            Event::Start(tag) if begins(&tag) => {
                (_, ticked) = (all.push(RunningText::default()), false)
            }
            Event::End(TagEnd::Paragraph | TagEnd::Item | TagEnd::List(_)) => {
                (_, ticked) = (all.push(RunningText::default()), false);
            }
            Event::Text(text) | Event::Code(text) if closed == 0 && !ticked => {
                let signal_word = signal(text.trim_end_matches([':', '.'])).is_some();
                if let Some(words) = all.last_mut()
                    && !(signal_word && words.text.is_empty())
                {
                    words.push(&text, range);
                }
            }
            Event::SoftBreak | Event::HardBreak if closed == 0 && !ticked => {
                if let Some(words) = all.last_mut() {
                    words.push(" ", range);
                }
            }
            _ => {}
        }
    }
    const ANNOUNCING: [&str; 3] = ["Table: ", "Form: ", "Matrix: "];
    all.retain(|words| {
        let text = words.text.trim();
        !text.is_empty() && !ANNOUNCING.iter().any(|mark| text.starts_with(mark))
    });
    all
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_runs_and_what_does_not() {
        let markdown = "# Head\n\nOne *two*\nthree &amp; four.\n\n- item ![](tick:) **x** on y\n- [ ] do\n\n\
                        > **DANGER** It kills.\n\nTable: all\n| a |\n|--|\n| b |\n\n![words](figure:f)\n\n1. a\n\n   b\n";
        let texts: Vec<String> = running(markdown).into_iter().map(|words| words.text).collect();
        assert_eq!(texts, ["One two three & four.", "item ", "do", " It kills.", "a", "b"]);
    }

    #[test]
    fn every_letter_knows_its_place() {
        let markdown = ":: cards\nPut \\*W2\\* on **B**,\nthen &amp; now.\n:::";
        let words = running(markdown).remove(0);
        for wanted in ["Put", "W2", "B", "then", "now"] {
            let at = words.text.find(wanted).unwrap();
            assert_eq!(words.place(at), markdown.find(wanted), "{wanted}");
        }
    }
}
