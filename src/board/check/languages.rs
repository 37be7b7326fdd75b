//! The languages of a specification's words: which there are, and which words lack one.

use crate::diagnostic::{Code, Problem, Problems};
use crate::spec::{Spec, Worded};

/// The language of the sheets that are made if none is asked for.
const USUAL: &str = "en";

/// The languages that words are given in; English first, if it is one of them.
pub fn in_order(spec: &Spec) -> Vec<String> {
    let mut tags = spec.languages();
    tags.sort_by_key(|tag| tag != USUAL);
    tags
}

/// Warns of words that are given by language and lack one that other words have.
pub fn gaps(spec: &Spec, tags: &[String], problems: &mut Problems) {
    for Worded { what, wording } in spec.wordings() {
        if !wording.is_by_language() {
            continue;
        }
        let lacking: Vec<String> =
            tags.iter().filter(|tag| !wording.has(tag)).map(|tag| format!("`{tag}`")).collect();
        let Some((_, first)) = wording.by_language().next().filter(|_| !lacking.is_empty()) else {
            continue;
        };
        let lacking = lacking.join(", ");
        problems.warning(
            Problem::new(
                Code::WordsLacking,
                first.span,
                format!("{what} has no words for {lacking}"),
            )
            .label("shown in their place, and marked")
            .help("give the words of every language that other words of the board have"),
        );
    }
}

/// The problem of sheets in a language that no words of a specification are in, although they are given by
/// language.
pub fn lacks_language(spec: &Spec, tag: &str) -> Option<Problem> {
    let wordings = spec.wordings();
    let mut by_language = wordings.iter().filter(|it| it.wording.is_by_language());
    if by_language.clone().any(|it| it.wording.has(tag)) {
        return None;
    }
    let (_, first) = by_language.next()?.wording.by_language().next()?;
    let message = format!("the board has no words for `{tag}`, the language of these sheets");
    Some(
        Problem::new(Code::WordsLacking, first.span, message)
            .label("the first of those that are shown in their place, and marked")
            .help(format!("give words for `{tag}`, or build the sheets in another language")),
    )
}
