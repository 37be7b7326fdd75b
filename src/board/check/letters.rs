//! The letters that codes begin with: those of a standard, or the house's own.

use std::collections::BTreeMap;

use super::super::Designators;
use crate::diagnostic::{Code, Problem, Problems};
use crate::spec::{Name, Spec};
use crate::standards::designators::{Class, iec_81346_2, y14_44};

/// The kinds of things whose codes have letters.
pub const KINDS: [&str; 7] =
    ["terminal", "link", "jumper", "fuse", "header", "switch bank", "selector"];
/// The most letters.
const LETTERS: usize = 3;

/// Checks that each code begins with the letters of its kind: those that `board: letters` declares,
/// or else those of the standard that the board follows.
pub fn check(
    spec: &Spec,
    codes: &[(&'static str, Option<Class>, &Name)],
    standard: Option<Designators>,
    problems: &mut Problems,
) {
    let house = house(spec, problems);
    let mut kinds: Vec<(&str, Class, Vec<&Name>)> = Vec::new();
    for (what, class, name) in codes {
        let Some(class) = class else { continue };
        match kinds.iter_mut().find(|(known, ..)| known == what) {
            Some((.., names)) => names.push(name),
            None => kinds.push((what, *class, vec![name])),
        }
    }
    for (what, class, names) in kinds {
        match (house.get(what), standard) {
            (Some(letters), _) => {
                class_letters(what, &[letters], "this board", &names, problems);
            }
            (None, Some(Designators::Y1444)) => {
                class_letters(what, y14_44(class), "ASME Y14.44", &names, problems);
            }
            (None, Some(Designators::Iec81346)) => {
                class_letters(what, iec_81346_2(class), "IEC 81346-2", &names, problems);
            }
            (None, None) => {}
        }
    }
}

/// The letters that the board declares for its kinds of things.
fn house<'s>(spec: &'s Spec, problems: &mut Problems) -> BTreeMap<&'s str, &'s str> {
    let mut found = BTreeMap::new();
    for (kind, letters) in spec.about.letters.value().into_iter().flatten() {
        let short = (1..=LETTERS).contains(&letters.value.len());
        if !KINDS.contains(&kind.value.as_str()) {
            let message = format!("`{}` is no kind of thing with a code", kind.value);
            let problem = Problem::new(Code::HouseLetters, kind.span, message)
                .label("no kind of the language");
            let near = problem.nearest(&kind.value, KINDS);
            let help = format!("the kinds are {}", KINDS.join(", "));
            problems.error(if near.help.is_some() { near } else { near.help(help) });
        } else if !short || !letters.value.bytes().all(|b| b.is_ascii_uppercase()) {
            let message = format!("`{}` cannot begin the code of a {}", letters.value, kind.value);
            problems.error(
                Problem::new(Code::HouseLetters, letters.span, message)
                    .label(format!("one to {LETTERS} letters from A to Z"))
                    .help("write them as they are printed on the board, without the number"),
            );
        } else {
            found.insert(kind.value.as_str(), letters.value.as_str());
        }
    }
    found
}

/// Warns of the things of one kind whose codes lack the class letter of the standard, once for all.
fn class_letters(
    what: &str,
    letters: &[&str],
    title: &str,
    names: &[&Name],
    problems: &mut Problems,
) {
    // That `j6` stands beside `J6` is told by itself.
    let twin = |name: &Name| {
        names
            .iter()
            .any(|other| other.value != name.value && other.value.eq_ignore_ascii_case(&name.value))
    };
    let lacks =
        |name: &&&Name| !letters.iter().any(|letter| name.value.starts_with(letter)) && !twin(name);
    let lacking: Vec<&Name> = names.iter().filter(lacks).copied().collect();
    let Some((first, others)) = lacking.split_first() else { return };
    let usual = letters.first().copied().unwrap_or_default();
    let message = if others.is_empty() {
        format!("{what} {} does not have the class letter {usual}", first.value)
    } else {
        let plural = if what.ends_with("ch") { "es" } else { "s" };
        let codes = enumerated(&lacking);
        format!("{} {what}{plural} do not have the class letter {usual}: {codes}", lacking.len())
    };
    let mut problem = Problem::new(Code::DesignatorClass, first.span, message)
        .label(format!("{title} gives a {what} the letter {usual}"));
    for name in others.iter().take(MARKED) {
        problem = problem.other(name.span, "");
    }
    let it = if others.is_empty() { "it" } else { "them" };
    problems.warning(problem.help(format!(
        "rename {it}, or name the standard under `board: designators`, or the house's own \
             letters under `board: letters`"
    )));
}

/// So many places of one remark are marked beside the first.
const MARKED: usize = 8;

/// `F1, F2 and F3`; of many the first dozen.
fn enumerated(names: &[&Name]) -> String {
    let shown: Vec<&str> = names.iter().take(12).map(|name| name.value.as_str()).collect();
    match (shown.split_last(), names.len() - shown.len()) {
        (Some((last, rest)), 0) if !rest.is_empty() => format!("{} and {last}", rest.join(", ")),
        (_, 0) => shown.join(", "),
        (_, more) => format!("{} and {more} more", shown.join(", ")),
    }
}
