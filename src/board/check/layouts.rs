//! The layout matrix itself: its columns, its rows, and whether a person can tell them apart.

use super::super::{Device, Layout, LayoutNumber, Speeds};
use super::roles::Roles;
use crate::diagnostic::{Code, Problem, Problems};
use crate::source::Span;
use crate::spec::{Name, Row, Spec};

/// The devices of the columns, each with its place.
type Columns = Vec<(Device, Span)>;

/// Columns and rows of the layout matrix.
pub fn matrix(
    spec: &Spec,
    roles: &Roles,
    problems: &mut Problems,
) -> (Option<Columns>, Vec<Option<Layout>>) {
    let columns = spec.layouts.columns.get().and_then(|names| {
        if names.value.is_empty() {
            let message = "the layout matrix has no columns";
            problems.error(Problem::new(Code::WrongColumn, names.span, message));
            return None;
        }
        columns(&names.value, roles, problems)
    });
    // Rows are judged by the number of columns written, even if one of them is not a device.
    let width = spec.layouts.columns.value().map(Vec::len);
    let rows: Vec<Option<Layout>> = spec
        .layouts
        .rows
        .entries
        .iter()
        .map(|written| row(written, width, columns.as_deref(), spec, problems))
        .collect();
    if rows.is_empty() && spec.layouts.rows.whole {
        let message = "the layout matrix has no layout";
        problems.error(
            Problem::new(Code::NoValue, spec.layouts.rows.place, message)
                .label("at least one row belongs here"),
        );
    }
    if let Some(columns) = &columns {
        told_apart(columns, &rows, problems);
    }
    (columns, rows)
}

fn columns(names: &[Name], roles: &Roles, problems: &mut Problems) -> Option<Columns> {
    let mut all: Columns = Vec::new();
    let mut good = true;
    for name in names {
        let Some(device) = roles.find(name, problems) else {
            good = false;
            continue;
        };
        let wrong = |message: String| Problem::new(Code::WrongColumn, name.span, message);
        if device == Device::Heater {
            problems.error(
                wrong("the heater cannot be a column of the layout matrix".to_owned())
                    .label("a heater is there under every layout")
                    .help("remove the column and the entry of every row"),
            );
            good = false;
        } else if let Some((_, first)) = all.iter().find(|(known, _)| *known == device) {
            problems.error(
                wrong(format!("the layout matrix has two columns for {device}"))
                    .label("again here")
                    .other(*first, "first here"),
            );
            good = false;
        }
        all.push((device, name.span));
    }
    good.then_some(all)
}

fn row(
    row: &Row,
    width: Option<usize>,
    columns: Option<&[(Device, Span)]>,
    spec: &Spec,
    problems: &mut Problems,
) -> Option<Layout> {
    let cells = row.cells.as_ref()?;
    let number = row.number.as_ref().and_then(|number| LayoutNumber::new(number.value));
    let shown = number.map_or_else(String::new, |number| format!(" {number}"));
    if let Some(width) = width.filter(|width| *width != cells.len()) {
        let entries = cells.len();
        let noun = if entries == 1 { "entry" } else { "entries" };
        let mut problem = Problem::new(
            Code::RowLength,
            row.span,
            format!("layout{shown} has {entries} {noun}, but the matrix has {width} columns"),
        )
        .label(if entries < width { "too few" } else { "too many" });
        if let Some(columns) = spec.layouts.columns.get() {
            problem = problem.other(columns.span, format!("{width} columns"));
        }
        problems.error(problem);
        return None;
    }
    let mut speeds = Some(Vec::with_capacity(cells.len()));
    for (index, cell) in cells.iter().enumerate() {
        let device = columns.and_then(|columns| columns.get(index)).map(|(device, _)| *device);
        let entry = entry(cell, device, &shown, problems);
        speeds = speeds.zip(entry).map(|(mut speeds, entry)| {
            speeds.push(entry);
            speeds
        });
    }
    Some(Layout { number: number?, speeds: speeds?, span: row.span })
}

fn entry(
    cell: &Name,
    device: Option<Device>,
    shown: &str,
    problems: &mut Problems,
) -> Option<Speeds> {
    let Some(speeds) = Speeds::parse(&cell.value) else {
        problems.error(
            Problem::new(
                Code::WrongValue,
                cell.span,
                format!("layout{shown} has `{}` as a number of speeds", cell.value),
            )
            .label("0, 1 or 2 belongs here")
            .note("0 is not installed, 1 is one speed, 2 is two speeds"),
        );
        return None;
    };
    let one_speed = device.filter(|device| !device.counts_for_allowance());
    if let (Some(device), Speeds::Two) = (one_speed, speeds) {
        problems.error(
            Problem::new(
                Code::OutOfRange,
                cell.span,
                format!("layout{shown} gives {device} two speeds"),
            )
            .label("0 or 1 belongs here")
            .note(
                "only pumps, blowers and what else counts for the heater allowance have two speeds",
            ),
        );
        return None;
    }
    Some(speeds)
}

/// Reports layouts that nobody could choose between, and warns once of those that only the
/// circulation pump tells apart.
fn told_apart(columns: &Columns, rows: &[Option<Layout>], problems: &mut Problems) {
    let circulation = columns.iter().position(|(device, _)| *device == Device::Circulation);
    let rows: Vec<&Layout> = rows.iter().flatten().collect();
    let mut close = Vec::new();
    for (place, row) in rows.iter().enumerate() {
        for first in rows.iter().take(place) {
            let differ = |index: usize| row.speeds.get(index) != first.speeds.get(index);
            let mut other = (0..columns.len()).filter(|index| differ(*index));
            match (other.next(), other.next()) {
                (None, _) => {
                    problems.error(same_devices(columns, first, row));
                }
                (only, None) if only.is_some() && only == circulation => {
                    close.push((first.number.min(row.number), first.number.max(row.number)));
                }
                _ => {}
            }
        }
    }
    close.sort();
    let column = circulation.and_then(|index| columns.get(index));
    if let (Some((_, span)), false) = (column, close.is_empty()) {
        let pairs: Vec<String> = close.iter().map(|(a, b)| format!("{a} and {b}")).collect();
        problems.warning(
            Problem::new(
                Code::OnlyCirculation,
                *span,
                "some layouts differ in the circulation pump alone",
            )
            .label("only this column tells them apart")
            .note(format!("these pairs: {}", pairs.join("; ")))
            .note(
                "a filter timer or a two-speed pump is easily taken for a circulation pump; the \
                 sheets put a caution there",
            ),
        );
    }
}

fn same_devices(columns: &Columns, first: &Layout, second: &Layout) -> Problem {
    let devices: Vec<String> = columns
        .iter()
        .zip(&second.speeds)
        .filter_map(|((device, _), speeds)| match speeds {
            Speeds::None => None,
            Speeds::One => Some(device.to_string()),
            Speeds::Two => Some(format!("{device} with two speeds")),
        })
        .collect();
    let devices = if devices.is_empty() { "nothing".to_owned() } else { devices.join(", ") };
    Problem::new(
        Code::SameDevices,
        second.span,
        format!("layouts {} and {} fit the same equipment", first.number, second.number),
    )
    .label("the same row again")
    .other(first.span, "first given here")
    .note(format!("both mean {devices}, so nobody can choose between them"))
    .help("change an entry of one row, or remove a row")
}
