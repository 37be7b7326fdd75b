//! Ready changes of a text, and which of them need no person.

use super::{Help, Problem};
use crate::source::Span;

/// A ready change: what to put in the place of a text.
#[derive(Clone, Debug, PartialEq)]
pub struct Edit {
    /// What is replaced.
    pub span: Span,
    /// What stands there then.
    pub text: String,
    /// Who may make it.
    pub kind: EditKind,
}

/// Who may make an edit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum EditKind {
    /// Only how something is written changes, never what it says: a slip in a name, a key, a word of
    /// the language or a unit. `lidsheet check --fix` makes it.
    Spelling,
    /// What the file says could become another thing: a voltage, a current, a position, a layout,
    /// another name. A person makes it.
    Value,
}

impl EditKind {
    /// The word for it.
    pub fn word(self) -> &'static str {
        match self {
            EditKind::Spelling => "spelling",
            EditKind::Value => "value",
        }
    }
}

impl Problem {
    /// What to do, as a ready edit that a person must look at: `with` in the place of what stands at
    /// `span`. Only if it can hardly be anything else.
    pub fn edit(self, text: impl Into<String>, span: Span, with: impl Into<String>) -> Self {
        self.edit_of(text.into(), span, with.into(), EditKind::Value)
    }

    /// The same for an edit that changes only how something is written, whoever wrote it.
    pub fn spelling(self, text: impl Into<String>, span: Span, with: impl Into<String>) -> Self {
        self.edit_of(text.into(), span, with.into(), EditKind::Spelling)
    }

    /// A name that looks the same as `known`, but has other letters.
    pub fn same_look(self, name: &str, known: &str) -> Self {
        let Some(primary) = &self.primary else { return self };
        let span = primary.span;
        let text = format!("the name `{known}` looks the same, but has other letters");
        // What looks the same is the same on a print; only a number must be no other one.
        let kind =
            if numbers(name) == numbers(known) { EditKind::Spelling } else { EditKind::Value };
        self.edit_of(text, span, known.to_owned(), kind)
    }

    fn edit_of(mut self, text: String, span: Span, with: String, kind: EditKind) -> Self {
        self.help = Some(Help { text, edit: Some(Edit { span, text: with, kind }) });
        self
    }

    /// The same problem, whose edit, if it has one, is for a person to make.
    pub fn for_a_person(mut self) -> Self {
        if let Some(edit) = self.help.as_mut().and_then(|help| help.edit.as_mut()) {
            edit.kind = EditKind::Value;
        }
        self
    }

    /// The nearest of `names` as a ready edit of the marked place, if it can be no other: it is near
    /// enough, no second one is as near, and its digits are the same; a name of one or two characters
    /// may differ in capitals alone. `T5` could be meant for `T1` as well as for `T2`, and on a board
    /// that is no small matter. It is one of spelling only where `is_slip` says so.
    pub fn nearest<'a>(self, name: &str, names: impl IntoIterator<Item = &'a str>) -> Self {
        let Some(primary) = &self.primary else { return self };
        // No name is as long as this; comparing would cost a hostile file's length squared.
        if name.len() > 80 {
            return self;
        }
        let digits = |text: &str| text.chars().filter(char::is_ascii_digit).collect::<String>();
        let own = digits(name);
        let short = name.chars().count() < 3;
        let limit = (name.chars().count() / 3).max(1);
        let mut near: Vec<(usize, &str)> = names
            .into_iter()
            .filter(|known| digits(known) == own)
            .filter(|known| !short || known.eq_ignore_ascii_case(name))
            .map(|known| (strsim::damerau_levenshtein(name, known), known))
            .filter(|(distance, _)| *distance <= limit)
            .collect();
        near.sort();
        let known = match near.as_slice() {
            [(_, known)] => known,
            [(first, known), (second, _), ..] if first < second => known,
            _ => return self,
        };
        let span = primary.span;
        let kind = if is_slip(name, known) { EditKind::Spelling } else { EditKind::Value };
        self.edit_of(format!("the nearest name is `{known}`"), span, (*known).to_owned(), kind)
    }
}

/// Whether `name` is `known` with a slip of the pen, and no other name: the same words one by one, each
/// number the same, each word the same but for capitals, or one of four letters or more, written small,
/// with the same first letter, in which one letter lacks, is too many or has changed places with the
/// next. Another letter in its place is no slip: `plate` is a word, too, where `plane` is known, and `LVA`
/// another thing than `LVB`.
fn is_slip(name: &str, known: &str) -> bool {
    let (one, other) = (pieces(name), pieces(known));
    let joined = |pieces: &[String]| pieces.concat().to_lowercase();
    // A blank or hyphen that lacks between words; between numbers it would make other numbers.
    if numbers(name) == numbers(known) && joined(&one) == joined(&other) {
        return true;
    }
    one.len() == other.len()
        && one.iter().zip(&other).all(|(piece, known)| {
            piece.to_lowercase() == known.to_lowercase() || is_word_with_a_slip(piece, known)
        })
}

fn is_word_with_a_slip(word: &str, known: &str) -> bool {
    let letters = |word: &str| -> Vec<char> { word.chars().collect() };
    let (one, other) = (letters(word), letters(known));
    let small = |letters: &[char]| {
        letters.len() >= 4 && letters.iter().skip(1).all(|letter| letter.is_lowercase())
    };
    let first = |letters: &[char]| letters.first().map(char::to_ascii_lowercase);
    if !small(&one) || !small(&other) || first(&one) != first(&other) {
        return false;
    }
    let (mut sorted, mut sorted_other) = (one.clone(), other.clone());
    sorted.sort_unstable();
    sorted_other.sort_unstable();
    // Of one length, so only two letters that changed places are no other letter.
    let other_letter = one.len() == other.len() && sorted != sorted_other;
    !other_letter && strsim::damerau_levenshtein(word, known) == 1
}

/// The words and the numbers of a name in their order, without the blanks, hyphens and low lines that
/// part them. Any other mark says something and is a piece of its own, and so is a minus sign.
fn pieces(name: &str) -> Vec<String> {
    let letters: Vec<char> = name.chars().collect();
    let kind = |letter: char| letter.is_alphanumeric().then_some(letter.is_numeric());
    let mut pieces: Vec<String> = Vec::new();
    let mut before: Option<bool> = None;
    for (index, letter) in letters.iter().enumerate() {
        let here = kind(*letter);
        let after = letters.get(index + 1).copied().and_then(kind);
        let minus = *letter == '-' && before.is_none() && after == Some(true);
        match (here, pieces.last_mut()) {
            (Some(_), Some(piece)) if here == before => piece.push(*letter),
            (None, _) if matches!(letter, ' ' | '-' | '_') && !minus => {}
            _ => pieces.push(letter.to_string()),
        }
        before = here;
    }
    pieces
}

fn numbers(name: &str) -> Vec<String> {
    let digit = |piece: &String| piece.chars().all(char::is_numeric);
    pieces(name).into_iter().filter(digit).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::diagnostic::Code;
    use crate::source::FileId;

    fn nearest(name: &str, names: &[&'static str]) -> Option<(String, EditKind)> {
        let problem = Problem::new(Code::UnknownName, Span::new(FileId(0), 0..1), "no such name");
        let help = problem.nearest(name, names.iter().copied()).help?;
        help.edit.map(|edit| (edit.text, edit.kind))
    }

    fn nearest_name(name: &str, names: &[&'static str]) -> Option<String> {
        nearest(name, names).map(|(name, _)| name)
    }

    #[test]
    fn a_name_is_suggested_only_if_it_can_be_no_other() {
        assert_eq!(nearest_name("nroth", &["north", "south"]).as_deref(), Some("north"));
        assert_eq!(nearest_name("circulaton", &["circulation"]).as_deref(), Some("circulation"));
        assert_eq!(nearest_name("w2", &["W2", "W3"]).as_deref(), Some("W2"));
        // Another number is another thing, and of two that are as near nobody knows which.
        assert_eq!(nearest_name("T5", &["T1"]), None);
        assert_eq!(nearest_name("pump 10", &["pump 1", "pump 2"]), None);
        assert_eq!(nearest_name("nort", &["nord", "norm"]), None);
        assert_eq!(nearest_name("C", &["A"]), None);
        assert_eq!(nearest_name("T", &["TG"]), None);
        assert_eq!(nearest_name("east", &["north", "south"]), None);
    }

    #[test]
    fn one_letter_is_one_third_of_three() {
        assert_eq!(nearest_name("abx", &["abc"]).as_deref(), Some("abc"));
        assert_eq!(nearest_name("axx", &["abc"]), None);
    }

    #[test]
    fn a_slip_is_no_other_name() {
        for (name, known) in [
            ("nroth", "north"),
            ("circulaton", "circulation"),
            ("Circulation", "circulation"),
            ("pumpp 1", "pump 1"),
            ("w2", "W2"),
            ("onside", "on side"),
            ("heater-allowance", "heater allowance"),
        ] {
            assert_eq!(nearest(name, &[known]), Some((known.to_owned(), EditKind::Spelling)));
        }
        for (name, known) in [
            // Another letter may be meant, and a letter alone tells two things apart.
            ("plate", "plane"),
            ("line C", "line A"),
            ("LVB", "LVA"),
            ("LAV", "LVA"),
            ("gain", "main"),
            ("when of", "when off"),
            // The same digits, but other numbers.
            ("X1-12", "X11-2"),
            ("rail 1.5", "rail 15"),
            ("rail +5", "rail -5"),
            ("rail -5", "rail 5"),
        ] {
            assert_eq!(
                nearest(name, &[known]),
                Some((known.to_owned(), EditKind::Value)),
                "{name}"
            );
        }
    }
}
