//! What may stand as a value, in words.

use crate::board::vocabulary;
use crate::spec::language::board::BOARD;
use crate::spec::language::{Key, Kind, LARGEST, Need, Range, Thing, Words};
use crate::units::shortest;

/// What may stand there: `a current, 0.05 A to 1000 A`.
pub fn value(kind: &Kind) -> String {
    match kind {
        Kind::Version => "`1`".to_owned(),
        Kind::Line(most) => format!("one line, up to {most} characters"),
        Kind::Title(most) => {
            format!("one line, up to {most} characters; also by language: `{{ en: …, de: … }}`")
        }
        Kind::Prose(most) => {
            format!("text, up to {most} characters; also by language: `{{ en: …, de: … }}`")
        }
        Kind::Quantity(range) => format!("a number and its unit, {}", between(range)),
        Kind::Number(range) if range.unit.is_empty() => format!("a number, {}", between(range)),
        Kind::Number(range) => {
            format!("a number without its unit, which is {}: {}", range.unit, between(range))
        }
        Kind::Horsepower(range) => {
            format!("horsepower as on the nameplate, such as `2`, `3/4` or `1 1/2`: {}", between(range))
        }
        Kind::Run(range) => {
            format!("a number and m or ft, such as `18 m` or `60 ft`: {}", between(range))
        }
        Kind::Whole(least, most) => format!("a whole number from {least} to {most}"),
        Kind::Truth => "`true` or `false`".to_owned(),
        Kind::Side => "`up`, `right`, `down` or `left`".to_owned(),
        Kind::Place => format!("`[x, y]` in mm, each 0 to {LARGEST}"),
        Kind::Size => format!("`[width, height]` in mm, each 1 to {LARGEST}"),
        Kind::Date => "a date, such as `2026-09-14`".to_owned(),
        Kind::System => "`split-phase 120/240 V`, `wye 120/208 V`, `wye 230/400 V`, \
                         `single-phase 120 V` or `single-phase 230 V`; other voltages of these three"
            .to_owned(),
        Kind::Wire => "a size and `copper` or `aluminum`, such as `8 AWG copper` or `6 mm2 copper`"
            .to_owned(),
        Kind::Word(words) => words_of(*words),
        Kind::Name(things) => format!("the name of {}", names(things)),
        Kind::Layouts => "a set of layouts, such as `1-7` or, with a comma, `\"1-3, 6\"` in quotes".to_owned(),
        Kind::Ways => "a way, such as `3`, or several side by side, such as `1-2`".to_owned(),
        Kind::Positions => "`on` or `off` for each way, such as `off on`".to_owned(),
        Kind::Layout => "the number of a layout, 1 to 255".to_owned(),
        Kind::LayoutOrNone => "the number of a layout, or `no layout`".to_owned(),
        Kind::Speeds => "`0`, `1` or `2`".to_owned(),
        Kind::Letters => "one to three letters from A to Z".to_owned(),
        Kind::PositionName => "what is printed there, up to three letters and digits".to_owned(),
        Kind::Code => "the code of a warning, such as `L213`".to_owned(),
        Kind::Table => "the path of a CSV table beside the specification".to_owned(),
        Kind::Path => "the path of a specification, from the job's own file".to_owned(),
        Kind::Exactly(word) => format!("`{word}`"),
        Kind::List(of, least, most) => format!("a list{}: {}", count(*least, *most), value(of)),
        Kind::Map(key, of, least, most) => {
            format!("a map{}. Key: {}. Value: {}", count(*least, *most), value(key), value(of))
        }
        Kind::Things(thing, _, most) => {
            format!("a map of up to {most}; each {} under its name", one(*thing))
        }
        Kind::Form(form) => format!("a map, see {}", form.name),
        Kind::Either(kinds) => {
            let kinds: Vec<String> = kinds.iter().map(value).collect();
            kinds.join("; or ")
        }
    }
}

/// What holds without the key; `None` for one that must be there.
pub fn default_of(key: &Key) -> Option<&'static str> {
    match key.need {
        Need::Must => None,
        Need::May(without) => Some(without),
    }
}

/// What a person calls one thing of that kind: `header`.
fn one(thing: Thing) -> &'static str {
    let form = BOARD.keys.iter().find_map(|key| match key.kind {
        Kind::Things(of, form, _) if of == thing => Some(form.name),
        _ => None,
    });
    form.unwrap_or("thing")
}

fn names(things: &[Thing]) -> String {
    let all: Vec<String> = things.iter().map(|thing| format!("a {}", one(*thing))).collect();
    all.join(" or ")
}

fn words_of(words: Words) -> String {
    let own = match words {
        Words::Device | Words::Fitted => ", or one of the board's own `devices`",
        _ => "",
    };
    let known = vocabulary(words);
    let quoted = |most: usize| -> Vec<String> {
        known.iter().take(most).map(|(word, _)| format!("`{word}`")).collect()
    };
    if known.len() > FEW {
        return format!("{}, such as {}{own}", noun(words), quoted(2).join(" or "));
    }
    format!("one of {}{own}", quoted(FEW).join(", "))
}

/// So many words are listed; of more, people look at the list.
const FEW: usize = 8;

/// What a person calls a word of that list.
fn noun(words: Words) -> &'static str {
    match words {
        Words::Color | Words::CordWire => "a wire color",
        Words::Fuse => "a kind of fuse",
        Words::Device | Words::Fitted => "a device",
        _ => "a word",
    }
}

fn between(range: &Range) -> String {
    let unit = if range.unit.is_empty() { String::new() } else { format!(" {}", range.unit) };
    format!("{}{unit} to {}{unit}", shortest(range.least, 2), shortest(range.most, 2))
}

fn count(least: usize, most: usize) -> String {
    match (least, most) {
        (0 | 1, usize::MAX) => String::new(),
        (least, usize::MAX) => format!(" of {least} or more"),
        (0 | 1, most) => format!(" of up to {most}"),
        (least, most) if least == most => format!(" of {least}"),
        (least, most) => format!(" of {least} to {most}"),
    }
}
