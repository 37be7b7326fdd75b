//! What the ways of a switch bank are for.

use super::super::Effect;
use crate::diagnostic::{Code, Problem, Problems};
use crate::spec::{Field, Name, Wording};

/// Every effect that something depends on, with its word and what that says.
pub const EFFECTS: [(&str, Effect, &str); 5] = [
    (
        "heater allowance",
        Effect::HeaterAllowance,
        "how many pumps and blowers, or how much current, may run on high while the heater is on",
    ),
    (
        "frequency",
        Effect::Frequency,
        "the frequency of the supply: the meanings are printed as they stand, and a plan leaves the \
         switch as it is shipped",
    ),
    ("restore", Effect::Restore, "puts all settings back at the next power-on"),
    ("layout change", Effect::LayoutChange, "allows the layout number to be changed on the panel"),
    ("layout number", Effect::LayoutNumber, "the layout number itself"),
];

/// The word of the specification language for what ways are for, or the title that it gives them.
pub fn effect_word(effect: &Effect) -> &str {
    match effect {
        Effect::Titled(title) => title,
        known => EFFECTS.iter().find(|(_, one, _)| one == known).map_or("", |(word, ..)| word),
    }
}

/// What ways are for by its word; `None` for any other word.
pub fn known_effect(word: &str) -> Option<Effect> {
    EFFECTS.iter().find(|(known, ..)| *known == word).map(|(_, effect, _)| effect.clone())
}

/// What people call an effect, and the word that the language has for it.
const OTHER_WORDS_FOR_EFFECTS: [(&str, &str); 10] = [
    ("reset", "restore"),
    ("factory reset", "restore"),
    ("defaults", "restore"),
    ("heater limit", "heater allowance"),
    ("load limit", "heater allowance"),
    ("hertz", "frequency"),
    ("mains frequency", "frequency"),
    ("layout", "layout number"),
    ("layout lock", "layout change"),
    ("program lock", "layout change"),
];

/// What the ways called `what` are for, by `effect` or else by `title`; the outer `None` says that
/// it could not be read.
pub fn effect(
    what: &str,
    effect: &Field<String>,
    title: &Field<Wording>,
    problems: &mut Problems,
) -> Option<Option<Effect>> {
    if effect.is_unread() || title.is_unread() {
        return None;
    }
    let word = match (effect.get(), title.get()) {
        (None, title) => return Some(title.map(|title| Effect::Titled(title.value.shown()))),
        (Some(word), None) => word,
        (Some(word), Some(title)) => {
            problems.error(
                Problem::new(
                    Code::FieldUnclear,
                    title.span,
                    format!("{what} has both an effect and a title"),
                )
                .label("a title in its own words")
                .other(word.span, "an effect, which the sheets have words for")
                .help("keep `effect` if it is true, else `title`"),
            );
            return None;
        }
    };
    let found = EFFECTS.iter().find(|(known, ..)| *known == word.value);
    if found.is_none() {
        problems.error(unknown_effect(word));
    }
    found.map(|(_, effect, _)| Some(effect.clone()))
}

fn unknown_effect(word: &Name) -> Problem {
    let words = EFFECTS.map(|(word, ..)| word);
    let problem = Problem::new(
        Code::UnknownEffect,
        word.span,
        format!("`{}` is not an effect of switches", word.value),
    )
    .label("no effect of the language")
    .note(
        "breaker, sheets and exercises depend on the effect; with a wrong word a section of the \
         sheets would be missing and nobody would know",
    );
    let lowered = word.value.to_lowercase();
    let meant = OTHER_WORDS_FOR_EFFECTS.iter().find(|(other, _)| *other == lowered);
    if let Some((_, meant)) = meant {
        return problem.edit(format!("the word for it is `{meant}`"), word.span, *meant);
    }
    let near = problem.nearest(&word.value, words);
    if near.help.is_some() {
        return near;
    }
    near.help(format!(
        "the effects are {}; ways for anything else take a `title` instead",
        words.join(", ")
    ))
}
