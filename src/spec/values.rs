//! Reading single values: texts, quantities with their unit, places, lists of names.
//!
//! Each reader reports what it cannot read and gives `None`.

use super::fields::{Value, bare, comma_in_text, wrong_kind};
use super::language::LARGEST;
use super::tree::{Entry, YamlKind};
use crate::diagnostic::{Code, Problem, Problems};
use crate::geometry::{Point, Side, Size};
use crate::source::{Span, Spanned};
use crate::units::{Amps, Horsepower, Length, Volts, Watts, plain_number, rewritten};

/// A text of one line or more, trimmed, of at most `longest` characters.
pub fn text(value: Value<'_>, longest: usize, problems: &mut Problems) -> Option<String> {
    let span = value.node.span;
    let YamlKind::Text(text) = &value.node.kind else {
        wrong_kind(value.node, &value.name, "a single value", problems);
        return None;
    };
    let text = text.trim();
    if text.is_empty() {
        let message = format!("{} has no value", value.name);
        problems.error(Problem::new(Code::NoValue, span, message).label("needs a value"));
        return None;
    }
    if let Some(control) = text.chars().find(|c| is_control(*c)) {
        let name = &value.name;
        let message = format!("{name} holds a control character, U+{:04X}", control as u32);
        problems.error(
            Problem::new(Code::ControlCharacter, span, message)
                .help("remove the character; it cannot be printed"),
        );
        return None;
    }
    let length = text.chars().count();
    if length > longest {
        let message =
            format!("{} has {length} characters, but its place holds {longest}", value.name);
        problems.error(Problem::new(Code::TextTooLong, span, message).label("too long"));
        return None;
    }
    Some(text.to_owned())
}

/// Control characters, and those that turn the direction of writing: neither belongs on a sheet.
/// A line feed may part the lines of a text.
fn is_control(c: char) -> bool {
    (c.is_control() && c != '\n')
        || matches!(c, '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
        || matches!(c, '\u{2028}' | '\u{2029}' | '\u{feff}')
}

/// A short text in one line: a name or a word.
pub fn word(value: Value<'_>, problems: &mut Problems) -> Option<String> {
    let span = value.node.span;
    let name = value.name.clone();
    let word = text(value, 60, problems)?;
    if word.contains('\n') {
        let message = format!("{name} runs over several lines");
        problems
            .error(Problem::new(Code::WrongValue, span, message).label("one line belongs here"));
        return None;
    }
    Some(word)
}

/// A title: one line, at most 60 characters.
pub fn title(value: Value<'_>, problems: &mut Problems) -> Option<String> {
    word(value, problems)
}

macro_rules! quantity {
    ($($(#[$doc:meta])* $name:ident: $type:ident, $what:literal, $sample:literal, $least:literal, $most:literal;)*) => {$(
        $(#[$doc])*
        pub fn $name(value: Value<'_>, problems: &mut Problems) -> Option<$type> {
            let span = value.node.span;
            let name = value.name.clone();
            let text = word(value, problems)?;
            let Some(read) = $type::parse(&text) else {
                let bare = plain_number(&text).is_some();
                let message = if bare {
                    format!("{name} has no unit")
                } else {
                    format!("{name} is not {}", $what)
                };
                let help = concat!("write ", $what, " with its unit, such as `", $sample, "`");
                let problem = Problem::new(Code::WrongValue, span, message)
                    .label(format!("`{}` belongs after a number", $type::UNIT));
                problems.error(match rewritten(&text, $type::UNIT) {
                    Some(right) => problem.spelling(format!("write `{right}`"), span, right),
                    None => problem.help(help),
                });
                return None;
            };
            in_range(read.0, $least, $most, $type::UNIT, &name, span, problems).then_some(read)
        }
    )*};
}

quantity! {
    /// A current.
    amps: Amps, "a current", "20 A", 0.05, 1000.0;
    /// A voltage.
    volts: Volts, "a voltage", "12 V", 1.0, 1000.0;
    /// The distance of two pins.
    pitch: Length, "a length", "6.35 mm", 1.0, 50.0;
}

/// A bare number of volts, because the key says the unit: `volts: 240`.
pub fn bare_volts(value: Value<'_>, problems: &mut Problems) -> Option<Volts> {
    number(value, 1.0, 1000.0, "V", problems).map(Volts)
}

/// A bare number of watts, because the key says the unit: `watts: 4000`.
pub fn bare_watts(value: Value<'_>, problems: &mut Problems) -> Option<Watts> {
    number(value, 1.0, 100_000.0, "W", problems).map(Watts)
}

/// A bare number of amps, because the key says the unit: `amps: 9.6`.
pub fn bare_amps(value: Value<'_>, problems: &mut Problems) -> Option<Amps> {
    number(value, 0.01, 200.0, "A", problems).map(Amps)
}

/// A bare number of horsepower: `2`, `1.5`, `3/4` or `1 1/2`.
pub fn horsepower(value: Value<'_>, problems: &mut Problems) -> Option<Horsepower> {
    let span = value.node.span;
    let name = value.name.clone();
    let text = word(value, problems)?;
    let Some(read) = Horsepower::parse(&text) else {
        problems.error(
            Problem::new(Code::WrongValue, span, format!("{name} is not a power in hp"))
                .label("a number as on the nameplate belongs here, such as `2`, `3/4` or `1 1/2`"),
        );
        return None;
    };
    in_range(read.0, 0.01, 100.0, "hp", &name, span, problems).then_some(read)
}

/// A number above 0 and up to 1.
pub fn fraction(value: Value<'_>, problems: &mut Problems) -> Option<f64> {
    number(value, 0.05, 1.0, "", problems)
}

/// The length of a supply run: `18 m` or `60 ft`.
pub fn run_length(value: Value<'_>, problems: &mut Problems) -> Option<Length> {
    let span = value.node.span;
    let name = value.name.clone();
    let text = word(value, problems)?;
    let Some(read) = Length::parse_run(&text) else {
        let bare = plain_number(&text).is_some();
        let what = if bare { "has no unit" } else { "is not a length in metres or feet" };
        let problem = Problem::new(Code::WrongValue, span, format!("{name} {what}"))
            .label("`m` or `ft` belongs after a number");
        problems.error(match rewritten(&text, "m").or_else(|| rewritten(&text, "ft")) {
            Some(right) => problem.spelling(format!("write `{right}`"), span, right),
            None => {
                problem.help("write the length of the run, one way, with its unit, such as `18 m`")
            }
        });
        return None;
    };
    in_range(read.to_metres(), 0.1, 1000.0, "m", &name, span, problems).then_some(read)
}

/// A plain number in a unit that its key tells.
fn number(
    value: Value<'_>,
    least: f64,
    most: f64,
    unit: &str,
    problems: &mut Problems,
) -> Option<f64> {
    let span = value.node.span;
    let name = value.name.clone();
    let text = word(value, problems)?;
    let Some(read) = plain_number(&text) else {
        let message = format!("{name} is not a number");
        let unit = if unit.is_empty() { String::new() } else { format!(" in {unit}") };
        problems.error(
            Problem::new(Code::WrongValue, span, message)
                .label(format!("a plain number{unit} belongs here")),
        );
        return None;
    };
    in_range(read, least, most, unit, &name, span, problems).then_some(read)
}

/// A whole number from `least` to `most`.
pub fn whole(value: Value<'_>, least: u8, most: u8, problems: &mut Problems) -> Option<u8> {
    let span = value.node.span;
    let name = value.name.clone();
    let text = word(value, problems)?;
    whole_of(&text, least, most, &name, span, problems)
}

/// A whole number out of a text.
pub fn whole_of(
    text: &str,
    least: u8,
    most: u8,
    name: &str,
    span: Span,
    problems: &mut Problems,
) -> Option<u8> {
    let digits = !text.is_empty() && text.bytes().all(|b| b.is_ascii_digit());
    let number = text.parse::<u8>().ok().filter(|n| digits && (least..=most).contains(n));
    if number.is_none() {
        let code = if digits { Code::OutOfRange } else { Code::WrongValue };
        let message = if digits {
            format!("{name} is not from {least} to {most}")
        } else {
            format!("{name} is not a whole number")
        };
        problems.error(
            Problem::new(code, span, message)
                .label(format!("a whole number from {least} to {most} belongs here")),
        );
    }
    number
}

fn in_range(
    read: f64,
    least: f64,
    most: f64,
    unit: &str,
    name: &str,
    span: Span,
    problems: &mut Problems,
) -> bool {
    let inside = (least..=most).contains(&read);
    if !inside {
        let unit = if unit.is_empty() { String::new() } else { format!(" {unit}") };
        problems.error(
            Problem::new(Code::OutOfRange, span, format!("{name} is out of range"))
                .label(format!("from {least}{unit} to {most}{unit} is possible")),
        );
    }
    inside
}

/// `true` or `false`.
pub fn truth(value: Value<'_>, problems: &mut Problems) -> Option<bool> {
    let span = value.node.span;
    let name = value.name.clone();
    match word(value, problems)?.as_str() {
        "true" => Some(true),
        "false" => Some(false),
        _ => {
            let message = format!("{name} is neither `true` nor `false`");
            problems.error(Problem::new(Code::UnknownWord, span, message));
            None
        }
    }
}

/// `up`, `right`, `down` or `left`.
pub fn side(value: Value<'_>, problems: &mut Problems) -> Option<Side> {
    let span = value.node.span;
    let name = value.name.clone();
    let word = word(value, problems)?;
    let side = Side::parse(&word);
    if side.is_none() {
        let problem = Problem::new(Code::UnknownWord, span, format!("{name} is not a side"))
            .label("`up`, `right`, `down` or `left` belongs here");
        let other_words = [("top", "up"), ("bottom", "down"), ("above", "up"), ("below", "down")];
        let meant = other_words.iter().find(|(other, _)| *other == word.to_lowercase());
        problems.error(match meant {
            Some((_, meant)) => problem.edit(format!("the word for it is `{meant}`"), span, *meant),
            None => problem.nearest(&word, ["up", "right", "down", "left"]),
        });
    }
    side
}

/// `[x, y]` in millimetres.
pub fn point(value: Value<'_>, problems: &mut Problems) -> Option<Point> {
    let (x, y) = pair(value, 0.0, "a place, `[x, y]` in mm", problems)?;
    Some(Point::new(x, y))
}

/// `[width, height]` in millimetres.
pub fn size(value: Value<'_>, problems: &mut Problems) -> Option<Size> {
    let (width, height) = pair(value, 1.0, "a size, `[width, height]` in mm", problems)?;
    Some(Size::new(width, height))
}

fn pair(value: Value<'_>, least: f64, what: &str, problems: &mut Problems) -> Option<(f64, f64)> {
    let span = value.node.span;
    let YamlKind::List(items) = &value.node.kind else {
        wrong_kind(value.node, &value.name, what, problems);
        return None;
    };
    let [first, second] = items.as_slice() else {
        let message = format!("{} has {} numbers, not two", value.name, items.len());
        problems.error(
            Problem::new(Code::WrongValue, span, message).label(format!("{what}, belongs here")),
        );
        return None;
    };
    let mut read =
        |node| number(Value { node, name: value.name.clone() }, least, LARGEST, "mm", problems);
    let (first, second) = (read(first), read(second));
    first.zip(second)
}

/// A list of names or words.
pub fn words(value: Value<'_>, problems: &mut Problems) -> Option<Vec<Spanned<String>>> {
    let YamlKind::List(items) = &value.node.kind else {
        wrong_kind(value.node, &value.name, "a list", problems);
        return None;
    };
    let mut all = Some(Vec::with_capacity(items.len()));
    for node in items {
        let word = word(Value { node, name: format!("an entry of {}", value.name) }, problems);
        all = all.zip(word).map(|(mut all, word)| {
            all.push(Spanned::new(word, node.span));
            all
        });
    }
    all
}

/// A map of words to words, in order. Keys given twice are left to whoever knows what they mean.
pub fn pairs(
    value: Value<'_>,
    longest: usize,
    problems: &mut Problems,
) -> Option<Vec<(Spanned<String>, Spanned<String>)>> {
    let YamlKind::Map(entries) = &value.node.kind else {
        wrong_kind(value.node, &value.name, "a map", problems);
        return None;
    };
    let mut all = Some(Vec::with_capacity(entries.len()));
    let mut rest = entries.as_slice();
    while let [entry, after @ ..] = rest {
        if let Some((problem, others)) = comma_in_set(rest) {
            problems.error(problem);
            rest = others;
            all = None;
            continue;
        }
        // Only behind a text: of a long row of bare keys each is looked at once.
        let is_text = matches!(entry.value.kind, YamlKind::Text(_));
        let (alone, others) = after.split_at(if is_text { bare(after, |_| false) } else { 0 });
        rest = after;
        if let Some(problem) = comma_in_text(entry, alone, false) {
            problems.error(problem);
            rest = others;
            all = None;
        }
        let Entry { key, value: node, .. } = entry;
        let name = format!("`{}` in {}", key.value, value.name);
        let word = text(Value { node, name }, longest, problems);
        all = all.zip(word).map(|(mut all, word)| {
            all.push((key.clone(), Spanned::new(word, node.span)));
            all
        });
    }
    all
}

/// The problem of a set of layouts that is a key between curly brackets and ends at its comma, because it
/// is not between quotes, and the entries behind it.
fn comma_in_set(entries: &[Entry]) -> Option<(Problem, &[Entry])> {
    let count = bare(entries, |_| false);
    let (set, others) = entries.split_at_checked(count + 1).filter(|_| count > 0)?;
    let (first, last) = (set.first()?, set.last()?);
    let numbers = |entry: &Entry| {
        entry.key.value.bytes().all(|b| b.is_ascii_digit() || matches!(b, b'-' | b' '))
    };
    if !set.iter().all(numbers) {
        return None;
    }
    let keys: Vec<&str> = set.iter().map(|entry| entry.key.value.as_str()).collect();
    let quoted = format!("\"{}\"", keys.join(", "));
    let span = first.key.span.to(last.key.span);
    let problem = Problem::new(Code::NoValue, first.key.span, "a set of layouts ends at its comma")
        .label("stands alone, as a key without a value")
        .note("between curly brackets a comma ends a key")
        .edit(format!("put the whole set between quotes: `{quoted}`"), span, quoted);
    Some((problem, others))
}
