//! Long sentences in templates of the user's own.

use std::collections::{BTreeMap, BTreeSet};

use super::filling::Filled;
use super::markdown;
use crate::diagnostic::{Code, Problem};
use crate::reading::{LONGEST_SENTENCE, sentences};

/// A problem for each sentence of a filled template that is longer than [`LONGEST_SENTENCE`] words,
/// from byte `start` of its Markdown on.
///
/// Words are counted where they stand in the template, so it is the template that is judged and not
/// the board: what a loop repeats counts once, and a placeholder is one word, whatever is filled in.
pub fn too_long(filled: &Filled, start: usize) -> Vec<Problem> {
    // The same sentence may be there several times, in branches of several lengths.
    let mut found: BTreeMap<usize, (usize, usize)> = BTreeMap::new();
    let body = filled.text.get(start..).unwrap_or_default();
    for words in markdown::running(body) {
        for sentence in sentences(&words.text) {
            let mut places = BTreeSet::new();
            let mut end = 0;
            for word in sentence.words() {
                let Some(at) = offset(&words.text, word) else { continue };
                let origin = |at| filled.origin(words.place(at)? + start);
                let Some(first) = origin(at) else { continue };
                places.insert(first);
                end = end.max(origin(at + word.len() - 1).map_or(first, |last| last + 1));
            }
            let Some(first) = places.first().copied() else { continue };
            if places.len() > LONGEST_SENTENCE {
                let longest = found.entry(first).or_default();
                *longest = (*longest).max((places.len(), end));
            }
        }
    }
    let problem = |(first, (words, end)): (usize, (usize, usize))| {
        let message = format!("a sentence of the template has {words} words");
        let place = filled.span(first..end.max(first));
        Problem::new(Code::LongTemplateSentence, place, message)
            .help(format!("make sentences of at most {LONGEST_SENTENCE} words, one idea in each"))
    };
    found.into_iter().map(problem).collect()
}

/// Where `part` begins, which is a slice of `text`.
fn offset(text: &str, part: &str) -> Option<usize> {
    (part.as_ptr() as usize).checked_sub(text.as_ptr() as usize)
}
