//! Words of the language and short grammars: devices, conductors, systems, dates, ranges.

use crate::diagnostic::{Code, Problem, Problems};
use crate::source::Spanned;
use crate::spec::{Field, Name};
use crate::standards::colours::{BARE, COLOURS, Colour, colour};
use crate::standards::fuses::{fuse_word, fuse_words};
use crate::units::{Volts, plain_number};

use super::super::{
    Conductor, Date, Designators, Device, LayoutNumber, LayoutSet, Pin, System, WireColour,
};

/// Every word for a device.
pub const DEVICES: [&str; 15] = [
    "heater",
    "circulation",
    "pump 1",
    "pump 2",
    "pump 3",
    "pump 4",
    "pump 5",
    "pump 6",
    "pump 7",
    "pump 8",
    "pump 9",
    "blower",
    "ozonator",
    "light",
    "sound",
];

/// How far a nominal system's line-to-line voltage may lie from what follows from its line to
/// neutral voltage, as a part of one. Trade names round: 120/208 is 207.8, 220/380 is 381.1,
/// 347/600 is 601.0.
pub const NAMING: f64 = 0.005;

/// A built-in device; `own` are the words of the board's own, which may be meant.
pub fn device<'a>(
    word: &Name,
    own: impl Iterator<Item = &'a str> + Clone,
    problems: &mut Problems,
) -> Option<Device> {
    let device = Device::parse(&word.value);
    if device.is_none() {
        let mut problem =
            Problem::new(Code::UnknownWord, word.span, format!("`{}` is not a device", word.value))
                .label("no device of the language")
                .nearest(&word.value, DEVICES.into_iter().chain(own.clone()));
        if problem.help.is_none() {
            let own: Vec<&str> = own.collect();
            problem = problem.help(
                "the devices are heater, circulation, pump 1 to pump 9, blower, ozonator, light \
                 and sound",
            );
            problem = if own.is_empty() {
                problem.note("a role that the language lacks is declared under `devices`")
            } else {
                problem.note(format!("the board's own are {}", own.join(", ")))
            };
        }
        problems.error(problem);
    }
    device
}

/// A conductor.
pub fn conductor(word: &Name, problems: &mut Problems) -> Option<Conductor> {
    let conductor = Conductor::parse(&word.value);
    if conductor.is_none() {
        problems.error(
            Problem::new(
                Code::UnknownWord,
                word.span,
                format!("`{}` is not a supply conductor", word.value),
            )
            .help("the conductors are L1, L2, L3, L, N and PE"),
        );
    }
    conductor
}

/// A pin's function.
pub fn pin(word: &Name, problems: &mut Problems) -> Option<Pin> {
    let pin = Pin::parse(&word.value);
    if pin.is_none() {
        let words = Pin::WORDS.map(|(word, _)| word);
        let mut problem = Problem::new(
            Code::UnknownWord,
            word.span,
            format!("`{}` is not what a pin is for", word.value),
        )
        .label("no pin function of the language")
        .nearest(&word.value, words);
        if problem.help.is_none() {
            problem = problem.help(format!("the functions are {}", words.join(", ")));
        }
        problems.error(problem);
    }
    pin
}

/// A wire colour. `Ok(None)` if there is none.
pub fn wire(field: &Field<String>, problems: &mut Problems) -> Option<WireColour> {
    colour_or(field.get()?, None, problems)
}

/// A wire of a cord: a colour, or `bare`.
pub fn cord_wire(word: &Name, problems: &mut Problems) -> Option<WireColour> {
    colour_or(word, Some(BARE), problems)
}

/// A colour, or `other` by its word.
fn colour_or(word: &Name, other: Option<Colour>, problems: &mut Problems) -> Option<WireColour> {
    let found = colour(&word.value).or(other.filter(|other| other.words == word.value));
    if found.is_none() {
        let words = COLOURS.into_iter().chain(other).map(|colour| colour.words);
        let mut problem = Problem::new(
            Code::UnknownWord,
            word.span,
            format!("`{}` is not a wire color", word.value),
        )
        .label("neither a color nor letters of IEC 60757")
        .nearest(&word.value, words.clone());
        if problem.help.is_none() {
            let words: Vec<&str> = words.collect();
            problem = problem.help(format!("the colors are {}", words.join(", ")));
        }
        problems.error(problem);
    }
    found.map(|colour| WireColour { letters: colour.letters, words: colour.words })
}

/// A kind of fuse; the outer `None` says that it is not one of the list.
pub fn fuse_kind(field: &Field<String>, problems: &mut Problems) -> Option<Option<&'static str>> {
    let word = match field {
        Field::Absent => return Some(None),
        Field::Unread => return None,
        Field::Is(word) => word,
    };
    let found = fuse_word(&word.value);
    if found.is_none() {
        let mut problem = Problem::new(
            Code::UnknownWord,
            word.span,
            format!("`{}` is not a kind of fuse", word.value),
        )
        .label("neither a word for how fast it opens nor the letters on it")
        .nearest(&word.value, fuse_words());
        if problem.help.is_none() {
            problem = problem
                .help(format!("the kinds are {}", fuse_words().collect::<Vec<_>>().join(", ")));
        }
        problems.error(problem);
    }
    found.map(Some)
}

/// The standard of designators; the default where none is named, `None` where it is not known.
pub fn designators(field: &Field<String>, problems: &mut Problems) -> Option<Designators> {
    let Some(word) = field.get() else {
        return field.is_absent().then_some(Designators::Y1444);
    };
    let found = Designators::ALL.into_iter().find(|known| known.title() == word.value);
    if found.is_none() {
        let [first, second] = Designators::ALL.map(Designators::title);
        problems.error(
            Problem::new(
                Code::UnknownWord,
                word.span,
                format!("`{}` is not a standard of designators known here", word.value),
            )
            .label(format!("`{first}` or `{second}` belongs here"))
            .nearest(&word.value, [first, second]),
        );
    }
    found
}

/// A date that the Gregorian calendar has.
pub fn date(field: &Field<String>, problems: &mut Problems) -> Option<Date> {
    let text = field.get()?;
    let date = parse_date(&text.value);
    if date.is_none() {
        problems.error(
            Problem::new(Code::WrongValue, text.span, "the board's date is not a date")
                .label("a date as `2026-09-14` belongs here"),
        );
    }
    date
}

fn parse_date(text: &str) -> Option<Date> {
    let mut steps = text.split('-');
    let mut number = |digits: usize| {
        let step = steps.next()?;
        let plain = step.len() == digits && step.bytes().all(|b| b.is_ascii_digit());
        step.parse::<u16>().ok().filter(|_| plain)
    };
    let (year, month, day) = (number(4)?, number(2)?, number(2)?);
    let leap = year.is_multiple_of(4) && (!year.is_multiple_of(100) || year.is_multiple_of(400));
    let days = match month {
        2 if leap => 29,
        2 => 28,
        4 | 6 | 9 | 11 => 30,
        1..=12 => 31,
        _ => return None,
    };
    let there = steps.next().is_none() && year >= 1900 && (1..=days).contains(&day);
    there.then_some(Date { year, month: month as u8, day: day as u8 })
}

/// A supply system: `split-phase 120/240 V`, `wye 230/400 V`, `single-phase 230 V`.
pub fn system(text: &Spanned<String>, problems: &mut Problems) -> Option<System> {
    let unread = || {
        Problem::new(
            Code::WrongSystem,
            text.span,
            format!("`{}` is not a supply system", text.value),
        )
        .help(
            "write it as `split-phase 120/240 V`, `wye 120/208 V`, `wye 230/400 V`, \
             `single-phase 120 V` or `single-phase 230 V`",
        )
    };
    let numbers = |rest: &str| -> Option<Vec<f64>> {
        rest.strip_suffix('V')?.trim().split('/').map(plain_number).collect()
    };
    let Some((kind, rest)) = text.value.split_once(' ') else {
        problems.error(unread());
        return None;
    };
    let numbers = numbers(rest).unwrap_or_default();
    let (system, wanted) = match (kind, numbers.as_slice()) {
        ("single-phase", [line]) => (System::SinglePhase { to_neutral: Volts(*line) }, None),
        ("split-phase", [line, both]) => {
            (System::SplitPhase { to_neutral: Volts(*line) }, Some((2.0 * line, both)))
        }
        ("wye", [line, both]) => {
            let root = libm::sqrt(3.0);
            (System::Wye { to_neutral: Volts(*line) }, Some((root * line, both)))
        }
        _ => {
            problems.error(unread());
            return None;
        }
    };
    if let Some(far) = numbers.iter().find(|volts| !(50.0..=600.0).contains(*volts)) {
        problems.error(
            Problem::new(Code::OutOfRange, text.span, "a supply's voltage is out of range")
                .label(format!("{far} V is not from 50 V to 600 V")),
        );
        return None;
    }
    if let Some((wanted, both)) = wanted
        && (wanted - both).abs() > NAMING * wanted
    {
        let wanted = Volts(wanted);
        problems.error(
            Problem::new(
                Code::WrongSystem,
                text.span,
                "the two voltages of the supply system contradict each other",
            )
            .label(format!("the lines of such a system have {wanted} between them")),
        );
        return None;
    }
    Some(system)
}

/// A set of layouts: `1-7`, `1-3, 6`.
pub fn layout_set(text: &Name, problems: &mut Problems) -> Option<LayoutSet> {
    let ranges = parse_ranges(&text.value);
    if ranges.is_none() {
        problems.error(
            Problem::new(
                Code::WrongRange,
                text.span,
                format!("`{}` is not a set of layouts", text.value),
            )
            .label("as `1-7` or `1-3, 6`, upwards, from 1 to 255"),
        );
    }
    ranges.map(LayoutSet::Ranges)
}

fn parse_ranges(text: &str) -> Option<Vec<(LayoutNumber, LayoutNumber)>> {
    let number = |text: &str| {
        let text = text.trim();
        let digits = !text.is_empty() && text.bytes().all(|b| b.is_ascii_digit());
        text.parse().ok().filter(|_| digits).and_then(LayoutNumber::new)
    };
    let mut ranges: Vec<(LayoutNumber, LayoutNumber)> = Vec::new();
    for range in text.split(',') {
        let (first, last) = match range.split_once('-') {
            Some((first, last)) => (number(first)?, number(last)?),
            None => (number(range)?, number(range)?),
        };
        let upwards = ranges.last().is_none_or(|(_, before)| *before < first);
        if first > last || !upwards {
            return None;
        }
        ranges.push((first, last));
    }
    Some(ranges)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::source::{FileId, Span};

    fn read_system(text: &str) -> Option<System> {
        let place = Span::new(FileId(0), 0..0);
        system(&Spanned::new(text.to_owned(), place), &mut Problems::default())
    }

    /// The nominal systems of IEC 60038 and ANSI C84.1 (check-values section 6), and, from memory,
    /// of the trade: 220/380, 240/415, 277/480, 347/600.
    #[test]
    fn the_names_of_real_systems_are_read() {
        for name in ["120/208", "230/400", "127/220", "220/380", "240/415", "277/480", "347/600"] {
            assert!(read_system(&format!("wye {name} V")).is_some(), "{name}");
        }
        for name in ["120/208.8", "120/206.9"] {
            assert!(read_system(&format!("wye {name} V")).is_some(), "{name}");
        }
        for name in ["120/240", "115/230", "120/241.1"] {
            assert!(read_system(&format!("split-phase {name} V")).is_some(), "{name}");
        }
        assert!(read_system("single-phase 230 V").is_some());
        for wrong in [
            "wye 120/240 V",
            // 207.85 and half a per cent is 208.88.
            "wye 120/208.9 V",
            "split-phase 120/241.3 V",
            "split-phase 120/208 V",
            "split-phase 120 V",
            "single-phase 120/240 V",
            "wye 230/400",
            "delta 240 V",
            "wye",
            "single-phase 20 V",
            "single-phase 700 V",
        ] {
            assert!(read_system(wrong).is_none(), "{wrong}");
        }
    }

    #[test]
    fn only_days_that_the_calendar_has() {
        assert!(parse_date("2024-02-29").is_some());
        for wrong in
            ["2026-02-29", "2100-02-29", "2026-13-01", "2026-04-31", "26-04-01", "2026-4-1"]
        {
            assert!(parse_date(wrong).is_none(), "{wrong}");
        }
        assert!(parse_date("2000-02-29").is_some());
    }

    #[test]
    fn ranges_run_upwards_and_apart() {
        assert!(parse_ranges("1-3, 6").is_some_and(|ranges| ranges.len() == 2));
        for wrong in ["", "0-3", "7-3", "1-3, 3-5", "5, 2", "1-256", "+1", "1-", "1,,2"] {
            assert!(parse_ranges(wrong).is_none(), "{wrong}");
        }
    }
}
