//! The layout matrix and the switch banks: what may also stand in a table beside the specification.

use super::csv::{self, Record};
use super::fields::{Field, Fields, Named, Section, Value, section, wrong_kind};
use super::intake::{admit, path_problem};
use super::language::{COLUMNS, MEANING, MOST_LAYOUTS, PATH, WAYS, service};
use super::model::{Bank, Layouts, Name, Row, SwitchField, Use, Ways};
use super::things::{open, sits};
use super::tree::YamlKind;
use super::values::{side, text, whole_of, word, words};
use super::wording::{Wording, text_pairs, texts, titles};
use crate::diagnostic::{Code, Problem, Problems, Reported};
use crate::source::{FileId, Sources, Span, Spanned};

/// How a table beside the specification is fetched.
pub struct Tables<'a> {
    /// The specification's own file.
    pub file: FileId,
    /// Where the tables' texts go.
    pub sources: &'a mut Sources,
    /// Gives the bytes of a file named relative to the specification, or why it cannot.
    pub load: &'a mut dyn FnMut(&str) -> Result<Vec<u8>, String>,
}

impl Tables<'_> {
    /// The records of the table that `value` names; at least one.
    fn read(&mut self, value: Value<'_>, problems: &mut Problems) -> Result<Vec<Record>, Reported> {
        let span = value.node.span;
        let Some(path) = text(value, PATH, problems) else {
            // `text` has said why.
            let message = "the table has no name that could be read";
            return Err(problems
                .failed()
                .unwrap_or_else(|| problems.error(Problem::new(Code::WrongValue, span, message))));
        };
        if let Some(problem) = path_problem(&path, span) {
            return Err(problems.error(problem));
        }
        let bytes = match (self.load)(&path) {
            Ok(bytes) => bytes,
            Err(why) => {
                let message = format!("the table {path} cannot be read");
                return Err(
                    problems.error(Problem::new(Code::TableUnread, span, message).note(why))
                );
            }
        };
        let own = self.sources.file(self.file).name.clone();
        let folder = own.rfind('/').and_then(|slash| own.get(..=slash)).unwrap_or("");
        let id = admit(format!("{folder}{path}"), bytes, self.sources, problems)?;
        let records = csv::records(id, self.sources.file(id)).map_err(|broken| {
            problems.error(
                Problem::new(Code::NotCsv, broken.span, format!("the table {path} is not CSV"))
                    .label(broken.why),
            )
        })?;
        if records.is_empty() {
            let start = Span::new(id, 0..0);
            let message = format!("the table {path} is empty");
            return Err(problems.error(Problem::new(Code::CsvHeading, start, message)));
        }
        Ok(records)
    }
}

/// Reads `layouts`.
pub fn layouts(
    value: Value<'_>,
    place: Span,
    tables: &mut Tables<'_>,
    problems: &mut Problems,
) -> Layouts {
    let fields = Fields::open(value.node, "the layout matrix", place, &service::LAYOUTS, problems);
    let mut columns = fields.get("columns", problems, words);
    let mut rows = Section { place, whole: false, entries: Vec::new() };
    let key = fields.key_span("rows").unwrap_or(place);
    let mut in_table = false;
    fields.get("rows", problems, |value, problems| {
        rows = match &value.node.kind {
            YamlKind::Text(_) => {
                in_table = true;
                let at = value.node.span;
                let given = std::mem::replace(&mut columns, Field::Unread);
                if let Some(given) = given.get() {
                    problems.error(
                        Problem::new(
                            Code::RepeatedKey,
                            given.span,
                            "the layout matrix has its columns twice",
                        )
                        .label("given here")
                        .other(at, "this table has them in its first line")
                        .help("remove `columns`"),
                    );
                }
                match tables.read(value, problems) {
                    Ok(records) => matrix(records, at, &mut columns, problems),
                    Err(_) => Section { place: at, whole: false, entries: Vec::new() },
                }
            }
            _ => inline_rows(value, key, problems),
        };
        Some(())
    });
    if columns.is_absent() && !in_table && fields.is_readable() {
        problems.error(
            Problem::new(Code::MissingKey, place, "the layout matrix lacks the key `columns`")
                .label("has no `columns`"),
        );
    }
    if columns.is_absent() {
        columns = Field::Unread;
    }
    if let Some(wide) = columns.get().filter(|columns| columns.value.len() > COLUMNS) {
        let message = format!("the layout matrix has more than {COLUMNS} columns");
        problems.error(Problem::new(Code::TooMany, wide.span, message));
        columns = Field::Unread;
    }
    Layouts { columns, rows }
}

const LAYOUT: Named = Named { one: "layout", many: "layouts", limit: MOST_LAYOUTS };

fn inline_rows(value: Value<'_>, key: Span, problems: &mut Problems) -> Section<Row> {
    section(value, &LAYOUT, key, problems, |name, value, problems| Row {
        number: layout_number(name, problems),
        span: value.node.span,
        cells: words(value, problems),
    })
}

fn layout_number(name: &Name, problems: &mut Problems) -> Option<Spanned<u8>> {
    whole_of(&name.value, 1, 255, "the number of a layout", name.span, problems)
        .map(|number| Spanned::new(number, name.span))
}

/// The matrix out of a table: first line `layout` and the columns, then a line for each layout.
fn matrix(
    records: Vec<Record>,
    place: Span,
    columns: &mut Field<Vec<Name>>,
    problems: &mut Problems,
) -> Section<Row> {
    let mut section = Section { place, whole: true, entries: Vec::new() };
    let mut records = records.into_iter();
    let Some(heading) = records.next() else { return section };
    let mut names = heading.into_iter();
    match names.next() {
        Some(first) if first.value == "layout" => {
            let names: Vec<Name> = names.collect();
            let span = names.first().map_or(first.span, |name| name.span);
            let span = names.last().map_or(span, |last| span.to(last.span));
            *columns = Field::Is(Spanned::new(names, span));
        }
        Some(first) => {
            problems.error(
                Problem::new(
                    Code::CsvHeading,
                    first.span,
                    "the table's first line does not start with `layout`",
                )
                .help(
                    "write `layout` and then the columns, separated by commas, not by semicolons",
                ),
            );
            section.whole = false;
            return section;
        }
        None => return section,
    }
    for record in records {
        let mut cells = record.into_iter();
        let Some(first) = cells.next() else { continue };
        if section.entries.len() >= MOST_LAYOUTS {
            let message = format!("the table has more than {MOST_LAYOUTS} layouts");
            problems.error(Problem::new(Code::TooMany, first.span, message));
            section.whole = false;
            break;
        }
        let number = layout_number(&first, problems);
        let twice = section.entries.iter().filter_map(|row: &Row| row.number.as_ref());
        let twice =
            twice.into_iter().find(|old| Some(old.value) == number.as_ref().map(|n| n.value));
        if let Some(old) = twice {
            problems.error(
                Problem::new(
                    Code::DefinedTwice,
                    first.span,
                    format!("layout {} is defined twice", old.value),
                )
                .label("defined again here")
                .other(old.span, "first defined here"),
            );
            continue;
        }
        let cells: Vec<Name> = cells.collect();
        let span = cells.first().zip(cells.last());
        let span = span.map_or(first.span, |(first, last)| first.span.to(last.span));
        section.entries.push(Row { number, cells: Some(cells), span });
    }
    section
}

/// Reads one of `switches`.
pub fn bank(
    name: &Name,
    value: Value<'_>,
    tables: &mut Tables<'_>,
    problems: &mut Problems,
) -> Bank {
    let fields = open(name, value, &service::BANK, problems);
    let mut ways = Section { place: name.span, whole: false, entries: Vec::new() };
    let place = sits(&fields, problems);
    let on_side = fields.get("on side", problems, side);
    let key = fields.key_span("ways").unwrap_or(name.span);
    fields.get("ways", problems, |value, problems| {
        let named = Named { one: "ways", many: "fields", limit: WAYS };
        ways = section(value, &named, key, problems, |range, value, problems| Ways {
            name: range.clone(),
            purpose: purpose(name, range, value, tables, problems),
        });
        Some(())
    });
    Bank { name: name.clone(), place, on_side, ways }
}

fn purpose(
    bank: &Name,
    range: &Name,
    value: Value<'_>,
    tables: &mut Tables<'_>,
    problems: &mut Problems,
) -> Use {
    let what = format!("{} of {}", value.name.replacen("ways", "way", 1), bank.value);
    match &value.node.kind {
        YamlKind::Text(text) if text.trim() == "unused" => return Use::Nothing,
        YamlKind::Map(_) => {}
        _ => {
            wrong_kind(value.node, &what, "`unused` or a map of settings", problems);
            return Use::Unread;
        }
    }
    let fields = Fields::open(value.node, what, range.span, &service::FIELD, problems);
    Use::Field(Box::new(SwitchField {
        effect: fields.get("effect", problems, word),
        title: fields.get("title", problems, titles),
        settings: fields.get("settings", problems, |value, problems| match &value.node.kind {
            YamlKind::Text(_) => {
                let records = tables.read(value, problems).ok()?;
                settings(records, range, bank, problems)
            }
            _ => text_pairs(value, MEANING, problems),
        }),
        when_off: fields.get("when off", problems, |v, p| texts(v, MEANING, p)),
        when_on: fields.get("when on", problems, |v, p| texts(v, MEANING, p)),
        shipped: fields.get("shipped", problems, positions),
    }))
}

/// `off on`: the position of each way, not yet read.
fn positions(value: Value<'_>, problems: &mut Problems) -> Option<String> {
    let Some(words) = value.node.positions() else { return word(value, problems) };
    let span = value.node.span;
    problems.error(
        Problem::new(Code::WrongKind, span, format!("{} is a list, not a text", value.name))
            .label("the words stand side by side, with blanks between them")
            .spelling(format!("write `{words}`"), span, words),
    );
    None
}

/// The first and last way that `text` names: `3`, `1-2`. Ways count from 1.
pub fn way_range(text: &str) -> Option<(u8, u8)> {
    let number = |text: &str| {
        let text = text.trim();
        let digits = !text.is_empty() && text.bytes().all(|b| b.is_ascii_digit());
        text.parse::<u8>().ok().filter(|n| digits && (1..=WAYS as u8).contains(n))
    };
    match text.split_once('-') {
        None => number(text).map(|way| (way, way)),
        Some((first, last)) => number(first).zip(number(last)).filter(|(first, last)| first < last),
    }
}

/// Settings out of a table: first line `way 4,way 5,meaning`, then a line for each setting.
fn settings(
    records: Vec<Record>,
    range: &Name,
    bank: &Name,
    problems: &mut Problems,
) -> Option<Vec<(Name, Spanned<Wording>)>> {
    let mut records = records.into_iter();
    let heading = records.next()?;
    // A range that cannot be read is reported by the checker.
    let (first, last) = way_range(&range.value)?;
    let mut wanted: Vec<String> = (first..=last).map(|way| format!("way {way}")).collect();
    wanted.push("meaning".to_owned());
    if let Some((found, _)) = heading.iter().zip(&wanted).find(|(f, w)| f.value != **w) {
        let way = found.value.strip_prefix("way ");
        let lacking = way.is_some_and(|way| way.bytes().all(|b| b.is_ascii_digit()));
        let (code, message) = if lacking {
            let message = format!("ways {} of {} have no {}", range.value, bank.value, found.value);
            (Code::WayLacking, message)
        } else {
            (Code::CsvHeading, "the table's first line does not name the ways".to_owned())
        };
        let semicolons = found.value.contains(';');
        let instead = if semicolons { ", with commas in place of semicolons" } else { "" };
        let help = format!("the first line must be `{}`{instead}", wanted.join(","));
        problems.error(
            Problem::new(code, found.span, message)
                .other(range.span, "the table is for these ways")
                .help(help),
        );
        return None;
    }
    if heading.len() != wanted.len() {
        let at = heading.last().map_or(range.span, |cell| cell.span);
        let message = format!("the table has {} columns, not {}", heading.len(), wanted.len());
        let help = format!("the first line must be `{}`", wanted.join(","));
        problems.error(Problem::new(Code::CsvHeading, at, message).help(help));
        return None;
    }
    let mut all = Some(Vec::new());
    for mut record in records {
        let columns = record.len();
        let (Some(meaning), Some(start)) = (record.pop(), record.first().map(|cell| cell.span))
        else {
            all = unread_row(&wanted, columns, range.span, problems);
            continue;
        };
        if columns != wanted.len() {
            all = unread_row(&wanted, columns, start.to(meaning.span), problems);
            continue;
        }
        if meaning.value.is_empty() || meaning.value.chars().count() > MEANING {
            let message = "a setting's meaning is empty or too long";
            problems.error(Problem::new(Code::WrongValue, meaning.span, message));
            all = None;
            continue;
        }
        let end = record.last().map_or(start, |cell| cell.span);
        let positions: Vec<&str> = record.iter().map(|cell| cell.value.as_str()).collect();
        let positions = Spanned::new(positions.join(" "), start.to(end));
        if let Some(all) = &mut all {
            let words = Wording::plain(&meaning.value, meaning.span);
            all.push((positions, Spanned::new(words, meaning.span)));
        }
    }
    all
}

fn unread_row<T>(
    wanted: &[String],
    columns: usize,
    at: Span,
    problems: &mut Problems,
) -> Option<T> {
    let message = format!("a line of the table has {columns} cells, not {}", wanted.len());
    problems.error(Problem::new(Code::NotCsv, at, message));
    None
}
