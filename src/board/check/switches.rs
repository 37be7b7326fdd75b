//! Switch banks: every way in one field, every combination of positions with one meaning.

use super::super::decision_table::{Entry, Rule, Table, judge};
use super::super::{Allowance, Bank, Effect, Field as Ways, Meaning, PartId, Setting};
use super::allowance::allowance;
use super::effects::effect;
use super::entry::layout_of;
use super::names::Directory;
use super::things::{named, place};
use crate::diagnostic::{Code, Problem, Problems};
use crate::source::{Span, Spanned};
use crate::spec::{self, Field, Name, Spec, SwitchField, Use, Wording};

/// The most ways that are set together.
const TOGETHER: u8 = 6;

/// `switches`.
pub fn banks(spec: &Spec, all: &Directory<'_>, problems: &mut Problems) -> Vec<Option<Bank>> {
    let mut allowance: Option<Span> = None;
    let mut build = |bank: &spec::Bank| {
        let (code, span) = named(&bank.name);
        let place = place(&bank.place, &format!("switch bank {code}"), all, problems);
        let fields: Vec<Option<Ways>> =
            bank.ways.entries.iter().map(|ways| field(&code, ways, problems)).collect();
        let complete = covered(bank, &code, problems);
        for (ways, field) in bank.ways.entries.iter().zip(&fields) {
            let effect = field.as_ref().and_then(|field| field.effect.as_ref());
            if effect == Some(&Effect::HeaterAllowance) {
                once(ways.name.span, &mut allowance, problems);
            }
        }
        let (part, at): (PartId, _) = place?;
        let on_side = *bank.on_side.value()?;
        let mut fields: Vec<Ways> = fields.into_iter().collect::<Option<_>>()?;
        fields.sort_by_key(|field| field.first);
        complete.then_some(Bank { code, part, at, on_side, fields, span })
    };
    spec.switches.entries.iter().map(&mut build).collect()
}

fn once(here: Span, first: &mut Option<Span>, problems: &mut Problems) {
    match first {
        None => *first = Some(here),
        Some(first) => {
            let message = "two fields set the heater allowance";
            problems.error(
                Problem::new(Code::AllowanceTwice, here, message)
                    .label("again here")
                    .other(*first, "first here"),
            );
        }
    }
}

/// Checks that the fields hold every way from 1 once.
fn covered(bank: &spec::Bank, code: &str, problems: &mut Problems) -> bool {
    let mut good = bank.ways.whole;
    let mut ranges: Vec<(u8, u8, &Name)> = Vec::new();
    for ways in &bank.ways.entries {
        match spec::way_range(&ways.name.value) {
            Some((first, last)) => ranges.push((first, last, &ways.name)),
            None => {
                let text = &ways.name.value;
                problems.error(
                    Problem::new(
                        Code::WrongValue,
                        ways.name.span,
                        format!("`{text}` names no ways of switch bank {code}"),
                    )
                    .label("as `3` or `1-2`, from 1 to 16"),
                );
                good = false;
            }
        }
    }
    if bank.ways.entries.is_empty() && bank.ways.whole {
        let message = format!("switch bank {code} has no ways");
        problems.error(Problem::new(Code::NoValue, bank.ways.place, message));
        return false;
    }
    // What cannot be read may be what seems to be missing.
    if !good {
        return false;
    }
    ranges.sort_by_key(|(first, last, _)| (*first, *last));
    let mut before: Option<(u8, &Name)> = None;
    for (first, last, name) in ranges {
        let wanted = before.map_or(1, |(last, _)| last.saturating_add(1));
        if first > wanted {
            let gap = if first - wanted == 1 {
                format!("way {wanted}")
            } else {
                format!("ways {wanted} to {}", first - 1)
            };
            problems.error(
                Problem::new(
                    Code::WayGap,
                    name.span,
                    format!("switch bank {code} says nothing about {gap}"),
                )
                .label("goes on here")
                .help("give the ways a meaning, or write `unused`"),
            );
            good = false;
        } else if let Some((_, other)) = before.filter(|_| first < wanted) {
            problems.error(
                Problem::new(
                    Code::WayTwice,
                    name.span,
                    format!("way {first} of switch bank {code} is in two fields"),
                )
                .label("here")
                .other(other.span, "and here"),
            );
            good = false;
        }
        before = Some((before.map_or(last, |(before, _)| before.max(last)), name));
    }
    good
}

fn field(bank: &str, ways: &spec::Ways, problems: &mut Problems) -> Option<Ways> {
    let (first, last) = spec::way_range(&ways.name.value)?;
    let count = last - first + 1;
    let span = ways.name.span;
    let written = match &ways.purpose {
        Use::Unread => return None,
        Use::Nothing => {
            let shipped = vec![false; usize::from(count)];
            return Some(Ways { first, last, effect: None, settings: Vec::new(), shipped, span });
        }
        Use::Field(written) => written,
    };
    if count > TOGETHER {
        problems.error(
            Problem::new(
                Code::OutOfRange,
                span,
                format!("field {} of {bank} has {count} ways", ways.name.value),
            )
            .label(format!("at most {TOGETHER} ways can be one field")),
        );
        return None;
    }
    let what = if count == 1 {
        format!("way {first} of {bank}")
    } else {
        format!("ways {first}-{last} of {bank}")
    };
    let effect = effect(&what, &written.effect, &written.title, problems);
    let field = Settings { what: &what, count: usize::from(count), name: span, written };
    let pairs = field.pairs(problems);
    // Of ways whose effect is unknown nobody knows what their settings must be.
    let settings = pairs
        .filter(|_| effect.is_some())
        .and_then(|pairs| field.read(&pairs, effect.as_ref()?.as_ref(), problems));
    let shipped = written.shipped.get().and_then(|text| {
        field.positions(&Name::new(text.value.clone(), text.span), "shipped position", problems)
    });
    Some(Ways { first, last, effect: effect?, settings: settings?, shipped: shipped?, span })
}

/// The settings of one field, on their way to being read.
struct Settings<'a> {
    what: &'a str,
    count: usize,
    name: Span,
    written: &'a SwitchField,
}

impl Settings<'_> {
    /// Positions and meanings, as `settings` or as `when off` and `when on`.
    fn pairs(&self, problems: &mut Problems) -> Option<Vec<(Name, Spanned<Wording>)>> {
        let SwitchField { settings, when_off, when_on, .. } = self.written;
        let what = self.what;
        let whens = !when_off.is_absent() || !when_on.is_absent();
        let unclear = |message: String, label: &str, help: &str| {
            Problem::new(Code::FieldUnclear, self.name, message).label(label).help(help)
        };
        match (settings, whens) {
            (Field::Unread, _) => None,
            (Field::Absent, false) => {
                let (label, help) = if self.count == 1 {
                    ("has neither `when off` nor `when on`", "say what each position does")
                } else {
                    ("has no `settings`", "say what each combination of positions does")
                };
                problems.error(unclear(format!("nothing says what {what} does"), label, help));
                None
            }
            (Field::Is(_), true) => {
                let message = format!("the meaning of {what} is given twice");
                let label = "has `settings` beside `when off` or `when on`";
                problems.error(unclear(message, label, "keep one of the two forms"));
                None
            }
            (Field::Absent, true) if self.count > 1 => {
                let message = format!("the meaning of {what} is given for one way only");
                let label = "`when off` and `when on` are for a single way";
                let help = "give every combination a meaning under `settings`";
                problems.error(unclear(message, label, help));
                None
            }
            (Field::Is(settings), false) => Some(settings.value.clone()),
            (Field::Absent, true) => {
                let pair = |position: &str, meaning: &Field<Wording>, problems: &mut Problems| {
                    if meaning.is_absent() {
                        problems.error(
                            Problem::new(
                                Code::MissingKey,
                                self.name,
                                format!("{what} lacks the key `when {position}`"),
                            )
                            .label(format!("has no `when {position}`")),
                        );
                    }
                    let meaning = meaning.get()?;
                    let position = Name::new(position.to_owned(), meaning.span);
                    Some((position, meaning.clone()))
                };
                let off = pair("off", when_off, problems);
                let on = pair("on", when_on, problems);
                Some(vec![off?, on?])
            }
        }
    }

    /// The settings in the order of their positions, all off first; reports what is missing.
    fn read(
        &self,
        pairs: &[(Name, Spanned<Wording>)],
        effect: Option<&Effect>,
        problems: &mut Problems,
    ) -> Option<Vec<Setting>> {
        let read: Vec<Option<Setting>> = pairs
            .iter()
            .enumerate()
            .map(|(written, (positions, meaning))| {
                let positions = self.positions(positions, "setting", problems);
                let meaning = self.meaning(meaning, effect, problems);
                let both = positions.zip(meaning);
                both.map(|(positions, meaning)| Setting { positions, meaning, written })
            })
            .collect();
        let mut settings: Vec<Setting> = read.into_iter().collect::<Option<_>>()?;
        self.one_kind(&settings, pairs, problems)?;
        if !self.single_hit(&settings, pairs, problems) {
            return None;
        }
        settings.sort_by(|a, b| a.positions.cmp(&b.positions));
        Some(settings)
    }

    /// Reports heater allowances of which some are counts and some currents.
    fn one_kind(
        &self,
        settings: &[Setting],
        pairs: &[(Name, Spanned<Wording>)],
        problems: &mut Problems,
    ) -> Option<()> {
        let of = |counts: bool| {
            let is = |setting: &&Setting| match setting.meaning {
                Meaning::Allowance(Allowance::Loads(_)) => counts,
                Meaning::Allowance(Allowance::Amps(_)) => !counts,
                _ => false,
            };
            pairs.get(settings.iter().find(is)?.written).map(|(_, meaning)| meaning)
        };
        let (Some(count), Some(current)) = (of(true), of(false)) else { return Some(()) };
        problems.error(
            Problem::new(
                Code::WrongAllowance,
                current.span,
                format!("the heater allowances of {} are of two kinds", self.what),
            )
            .label("a current here")
            .other(count.span, "a count of pumps and blowers here")
            .note("a board holds its heater back by the one or by the other"),
        );
        None
    }

    /// Whether the settings are a complete single-hit decision table (ISO 5806); reports what they
    /// lack.
    fn single_hit(
        &self,
        settings: &[Setting],
        pairs: &[(Name, Spanned<Wording>)],
        problems: &mut Problems,
    ) -> bool {
        let entry = |on: &bool| Entry::OneOf(vec![usize::from(*on)]);
        let rule = |(action, setting): (usize, &Setting)| Rule {
            entries: setting.positions.iter().map(entry).collect(),
            action,
        };
        let rules = settings.iter().enumerate().map(rule).collect();
        let table = Table { conditions: vec![2; self.count], rules };
        let Some(verdict) = judge(&table, |_| true) else { return false };
        for (first, second) in &verdict.contradictions {
            if let (Some((first, _)), Some((second, _))) = (pairs.get(*first), pairs.get(*second)) {
                problems.error(
                    Problem::new(
                        Code::SettingTwice,
                        second.span,
                        format!("`{}` has two meanings for {}", second.value, self.what),
                    )
                    .label("again here")
                    .other(first.span, "first here"),
                );
            }
        }
        if !verdict.missing.is_empty() && verdict.contradictions.is_empty() {
            let words: Vec<String> = verdict.missing.iter().take(4).map(|v| positions(v)).collect();
            let more = verdict.missing.len() - words.len();
            let more = if more == 0 { String::new() } else { format!(" and {more} more") };
            // Of a table its last line: there the missing one is added.
            let in_table = pairs.last().filter(|(_, last)| last.span.file != self.name.file);
            let place = self.written.settings.get().map_or(self.name, |settings| settings.span);
            let place = in_table.map_or(place, |(first, last)| first.span.to(last.span));
            let combinations = 1_usize << self.count;
            problems.error(
                Problem::new(
                    Code::SettingMissing,
                    place,
                    format!("a combination of {} has no meaning", self.what),
                )
                .label(format!("says nothing for {}{more}", words.join(", ")))
                .other(
                    self.name,
                    format!("{} make {combinations} combinations", counted(self.count, "way")),
                )
                .note("a person who sets them so would find nothing on the sheet")
                .help(format!("add {} with its meaning", words.join(", "))),
            );
        }
        verdict.missing.is_empty() && verdict.contradictions.is_empty()
    }

    /// One `off` or `on` for each way.
    fn positions(&self, text: &Name, what: &str, problems: &mut Problems) -> Option<Vec<bool>> {
        let words: Vec<&str> = text.value.split_whitespace().collect();
        let read: Option<Vec<bool>> = words
            .iter()
            .map(|word| match *word {
                "on" => Some(true),
                "off" => Some(false),
                _ => None,
            })
            .collect();
        let message = match &read {
            None => format!("a {what} of {} is neither `on` nor `off`", self.what),
            Some(read) if read.len() != self.count => {
                let (words, ways) = (counted(read.len(), "word"), counted(self.count, "way"));
                format!("a {what} of {} has {words} for {ways}", self.what)
            }
            _ => return read,
        };
        let sample = vec!["off"; self.count].join(" ");
        let mut problem = Problem::new(Code::SettingWords, text.span, message)
            .label(format!("one word for each way, such as `{sample}`"));
        // For some programs `off` and `on` are other words for these, and they write these.
        let truths: Option<Vec<&str>> = words
            .iter()
            .map(|word| match *word {
                "true" => Some("on"),
                "false" => Some("off"),
                _ => None,
            })
            .collect();
        if let Some(meant) = truths.filter(|meant| meant.len() == self.count) {
            let meant = meant.join(" ");
            problem = problem.edit(format!("write `{meant}`"), text.span, meant);
        }
        problems.error(problem);
        None
    }

    fn meaning(
        &self,
        words: &Spanned<Wording>,
        effect: Option<&Effect>,
        problems: &mut Problems,
    ) -> Option<Meaning> {
        let number = matches!(effect, Some(Effect::HeaterAllowance | Effect::LayoutNumber));
        if !number {
            return Some(Meaning::Words(words.value.shown()));
        }
        if words.value.is_by_language() {
            let message = format!("a setting of {} is given by language", self.what);
            problems.error(
                Problem::new(Code::WrongKind, words.span, message)
                    .label("a number, which is the same in every language, belongs here"),
            );
            return None;
        }
        let text = &Name::new(String::clone(&words.value), words.span);
        if matches!(effect, Some(Effect::LayoutNumber)) {
            return layout_of(text, problems).map(Meaning::Layout);
        }
        allowance(text, problems).map(Meaning::Allowance)
    }
}

/// `` `on off` `` for values 1 and 0.
fn positions(values: &[usize]) -> String {
    let words: Vec<&str> = values.iter().map(|v| if *v == 1 { "on" } else { "off" }).collect();
    format!("`{}`", words.join(" "))
}

/// `1 way`, `2 ways`.
fn counted(count: usize, what: &str) -> String {
    if count == 1 { format!("1 {what}") } else { format!("{count} {what}s") }
}
