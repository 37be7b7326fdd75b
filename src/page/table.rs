//! Tables: rows that stay whole, and a head that is repeated on every page.

use std::collections::{BTreeMap, BTreeSet};
use std::num::NonZeroU32;

use crate::document::{Align, Cell, Inline, RowMark, Table, TableKind, plain_text};
use crate::geometry::{Path, Point, Rect};
use crate::scene::{Ink, Item, Stroke};
use crate::text::Style;
use crate::units::Length;

use super::collector::{Collector, Column, Within, strong};
use super::columns::{Asked, type_scale};
use super::paragraph::{LineContext, SetLine, UnbrokenText, inline_nodes};
use super::strip::{After, Strip, TableHead};
use super::{Role, groups, look};

/// A row taller than this, of a page's height, may be broken between its lines.
const TALL: f64 = 0.5;

/// Pushes a table.
pub(super) fn push(to: &mut Collector<'_>, table: &Table, column: Column, within: Within) {
    let count = table.rows.iter().map(Vec::len).chain([table.head.len()]).max().unwrap_or(0);
    if count == 0 {
        return;
    }
    // Elsewhere a row that spans would need columns of its own.
    let nothing = BTreeMap::new();
    let marks = if table.kind == TableKind::Matrix { &table.marks } else { &nothing };
    let look = to.look;
    // What can be parted is, before its type is made smaller.
    let can_part = count > 2 && matches!(table.kind, TableKind::Reading | TableKind::Form);
    let scale = if can_part { 1.0 } else { type_scale(look, count, column.width) };
    let size_pt = match table.kind {
        TableKind::Reading | TableKind::Form | TableKind::Summary => look.cell.size_pt,
        TableKind::Matrix => look.matrix.size_pt,
    };
    let style = Style::regular(size_pt * scale);
    let head_words = cells(to, &table.head, count, strong(style));
    let rows_words: Vec<Vec<UnbrokenText>> = table
        .rows
        .iter()
        .enumerate()
        .map(|(index, row)| match marks.get(&index) {
            Some(RowMark::Head) => cells(to, &[spanning(row)], 1, strong(style)),
            Some(RowMark::Apart) | None => cells(to, row, count, style),
        })
        .collect();
    let asked = Asked { head: &head_words, rows: &rows_words, count, column, scale, look };
    if can_part && let Some(tables) = parted(table, &asked) {
        return tables.iter().for_each(|table| push(to, table, column, within));
    }
    let table_node = to.node(Role::Table(table.summary.clone()), within.parent);
    let grid = Grid {
        edges: match table.kind {
            TableKind::Reading | TableKind::Summary => asked.edges(),
            TableKind::Form => asked.edges_of_form(table),
            TableKind::Matrix => asked.edges_of_matrix(style.size_pt),
        },
        aligns: &table.columns,
        side: match table.kind {
            TableKind::Reading | TableKind::Form | TableKind::Summary => look.cell_side * scale,
            TableKind::Matrix => look::MATRIX_SIDE * scale,
        },
        end: match table.kind {
            TableKind::Reading | TableKind::Form | TableKind::Summary => look.cell_end * scale,
            TableKind::Matrix => look::MATRIX_END * scale,
        },
        line_height: match table.kind {
            TableKind::Reading | TableKind::Form | TableKind::Summary => {
                Length::from_pt(style.size_pt).0 * look.leading
            }
            TableKind::Matrix => {
                Length::from_pt(style.size_pt).0 * look.leading.min(look::MATRIX_LEADING)
            }
        },
        writing: match table.kind {
            TableKind::Reading | TableKind::Summary | TableKind::Matrix => None,
            TableKind::Form => Some(look.writing),
        },
    };

    let start = to.to.strips.len();
    let before = to.gap(to.look.block_gap);
    let mut head = None;
    if !table.head.is_empty() {
        // Without rows the head is all that there is.
        let role = if table.rows.is_empty() { Role::TableBody } else { Role::TableHead };
        let node = to.node(role, Some(table_node));
        head = push_head(to, &grid, &table.head, &head_words, node);
    }
    let body = to.node(Role::TableBody, Some(table_node));
    let first = if has_row_heads(table) { Role::RowHead } else { Role::Cell };
    let section = TableSection { node: body, cells: (first, Role::Cell), head };
    let across = groups::Across {
        left: grid.left(),
        right: grid.right(),
        side: grid.side,
        end: grid.end,
        line_height: grid.line_height,
        columns: u32::try_from(count).ok().and_then(NonZeroU32::new).unwrap_or(NonZeroU32::MIN),
        parent: section.node,
        head,
    };
    let mut group_starts = Vec::new();
    for (index, (row, words)) in table.rows.iter().zip(&rows_words).enumerate() {
        let at = to.to.strips.len();
        match marks.get(&index) {
            Some(RowMark::Head) => {
                group_starts.push(at);
                let inlines = spanning(row);
                let lines =
                    words.first().map(|words| words.broken(across.width())).unwrap_or_default();
                groups::push_head(to, &inlines, &lines, &across);
            }
            Some(RowMark::Apart) | None => push_row(to, &grid, row, words, &section),
        }
        if marks.get(&index) == Some(&RowMark::Apart)
            && let Some(strip) = to.to.strips.get_mut(at)
        {
            strip.under.push(grid.rule(0.0, look::HEAVY_RULE));
        }
    }
    let strips = to.to.strips.get_mut(start..).unwrap_or_default();
    if let Some(first) = strips.first_mut() {
        first.before = before;
    }
    let height: f64 = strips.iter().map(|strip| strip.height).sum();
    let inside = if table.rows.len() < FEW_ROWS && height <= to.area_height {
        After::Never
    } else if height <= KEPT_WHOLE * to.area_height {
        After::Avoid
    } else {
        After::Free
    };
    keep_rows_together(strips, usize::from(head.is_some()), inside);
    if let Some(last) = strips.last_mut() {
        let at = last.height;
        last.under.push(grid.rule(at, look::STRONG_RULE));
    }
    groups::keep_together(to, &group_starts, head);
}

/// A word longer than this, of the width of a table, is broken before a column is made wider.
const LONGEST_WORD: f64 = 0.25;

/// A table whose words have no room beside each other, as several under each other: each has the
/// first column and as many of the others as have room. `None` if nothing is to be parted.
fn parted(table: &Table, asked: &Asked<'_>) -> Option<Vec<Table>> {
    let width = asked.column.width;
    // A longer word is broken wherever it stands.
    let most = width * LONGEST_WORD;
    let least: Vec<f64> = asked.least().into_iter().map(|least| least.min(most)).collect();
    if least.iter().sum::<f64>() <= width {
        return None;
    }
    let (first, others) = least.split_first()?;
    let mut runs: Vec<Vec<usize>> = Vec::new();
    let mut left = 0.0;
    for (index, least) in (1..).zip(others) {
        match runs.last_mut() {
            Some(run) if *least <= left => run.push(index),
            _ => {
                left = width - first;
                runs.push(vec![index]);
            }
        }
        left -= least;
    }
    if runs.len() < 2 {
        return None;
    }
    let of = runs.len();
    let part = |(number, run): (usize, &Vec<usize>)| {
        let picked = || std::iter::once(0).chain(run.iter().copied());
        let row = |row: &Vec<Cell>| -> Vec<Cell> {
            picked().map(|index| row.get(index).cloned().unwrap_or_default()).collect()
        };
        Table {
            columns: picked().filter_map(|index| table.columns.get(index).copied()).collect(),
            head: if table.head.is_empty() { Vec::new() } else { row(&table.head) },
            rows: table.rows.iter().map(row).collect(),
            marks: table.marks.clone(),
            summary: format!("{} ({number}/{of})", table.summary),
            kind: table.kind,
        }
    };
    Some((1..).zip(&runs).map(part).collect())
}

/// A table of fewer rows is never broken, if a page holds it.
const FEW_ROWS: usize = 6;
/// A table no higher than this, of the page's height, is not broken if another place is good.
const KEPT_WHOLE: f64 = 1.0 / 3.0;

/// The first row stays with the head, and no row stands alone at the end or the beginning of a
/// page if another place is good. Between other rows it is as good to break as `inside` says.
fn keep_rows_together(strips: &mut [Strip], first: usize, inside: After) {
    let count = strips.len();
    for (index, strip) in strips.iter_mut().enumerate() {
        if index < first && count > first {
            strip.after = After::Never;
        } else if index + 1 < count && strip.after == After::Free {
            let alone = index == first || index + 2 == count;
            strip.after = if alone { inside.max(After::Avoid) } else { inside };
        }
    }
}

/// The lines between columns and all distances; what every row of a table shares.
struct Grid<'a> {
    /// Left edges of the columns and the right edge of the last.
    edges: Vec<f64>,
    aligns: &'a [Align],
    /// Space inside a cell, left and right.
    side: f64,
    /// Space inside a cell, above and below.
    end: f64,
    line_height: f64,
    /// The least height of a row that is written into; `None` if the table is only read.
    writing: Option<f64>,
}

impl Grid<'_> {
    fn left(&self) -> f64 {
        self.edges.first().copied().unwrap_or_default()
    }

    fn right(&self) -> f64 {
        self.edges.last().copied().unwrap_or_default()
    }

    /// Left and right of the words in a column.
    fn inner(&self, index: usize) -> (f64, f64) {
        let edge = |index: usize| self.edges.get(index).copied().unwrap_or_default();
        (edge(index) + self.side, edge(index + 1) - self.side)
    }

    /// Where a line of a width begins in a column.
    fn line_left(&self, index: usize, width: f64) -> f64 {
        let (left, right) = self.inner(index);
        let spare = (right - left - width).max(0.0);
        match self.aligns.get(index).copied().unwrap_or(Align::Left) {
            Align::Left => left,
            Align::Centre => left + spare / 2.0,
            Align::Right => left + spare,
        }
    }

    /// A rule over the whole width.
    fn rule(&self, y: f64, stroke: Stroke) -> Item {
        let path = Path::polyline(&[Point::new(self.left(), y), Point::new(self.right(), y)]);
        Item::Shape { path, fill: None, stroke: Some(stroke) }
    }

    /// The frames of a form's cells in a row of a height.
    fn cell_frames(&self, height: f64) -> Vec<Item> {
        if self.writing.is_none() {
            return Vec::new();
        }
        let upright = |x: &f64| Path::polyline(&[Point::new(*x, 0.0), Point::new(*x, height)]);
        let level =
            |y: f64| Path::polyline(&[Point::new(self.left(), y), Point::new(self.right(), y)]);
        let paths = self.edges.iter().map(upright).chain([level(0.0), level(height)]);
        let stroke = Some(look::STRONG_RULE);
        paths.map(|path| Item::Shape { path, fill: None, stroke }).collect()
    }

    fn lines(&self, words: &[UnbrokenText]) -> Vec<Vec<SetLine>> {
        let inner = |index| self.inner(index);
        let widths = (0..).map(|index| inner(index).1 - inner(index).0);
        words.iter().zip(widths).map(|(words, width)| words.broken(width)).collect()
    }
}

/// The words of a row, padded to `count` cells.
fn cells(to: &mut Collector<'_>, row: &[Cell], count: usize, style: Style) -> Vec<UnbrokenText> {
    let empty = Cell::new();
    (0..count)
        .map(|index| UnbrokenText::new(to.types, row.get(index).unwrap_or(&empty), style))
        .collect()
}

/// Whether the first cell of each row says what the row is about: each has words of its own.
fn has_row_heads(table: &Table) -> bool {
    let wide = table.rows.iter().all(|row| row.len() > 1);
    let first = |row: &Vec<Cell>| row.first().map(|cell| plain_text(cell).trim().to_owned());
    let words: BTreeSet<String> =
        table.rows.iter().filter_map(first).filter(|words| !words.is_empty()).collect();
    wide && words.len() == table.rows.len()
}

/// The cell that spans all columns: the first, and behind it what the others say.
fn spanning(row: &[Cell]) -> Cell {
    let said: Vec<Cell> = row.iter().filter(|cell| !cell.is_empty()).cloned().collect();
    said.join(&Inline::Plain(" ".to_owned()))
}

/// Rows of one kind.
struct TableSection {
    /// The node of the reading order that they belong to.
    node: usize,
    /// What the first cell of each is, and what the others are.
    cells: (Role, Role),
    /// The head that is repeated above them.
    head: Option<usize>,
}

/// Pushes the head row; returns its number among the heads. A head so tall that it leaves little
/// room for rows is set as a row, and not repeated.
fn push_head(
    to: &mut Collector<'_>,
    grid: &Grid<'_>,
    head: &[Cell],
    words: &[UnbrokenText],
    parent: usize,
) -> Option<usize> {
    let lines = grid.lines(words);
    let height = row_height(grid, &lines, 0..usize::MAX);
    if height > to.area_height * TALL {
        let cells = (Role::HeadCell, Role::HeadCell);
        let section = TableSection { node: parent, cells, head: None };
        push_row(to, grid, head, words, &section);
        return None;
    }
    let tint = Rect { left: grid.left(), top: 0.0, right: grid.right(), bottom: height };
    let tint = Item::Shape { path: Path::rect(tint), fill: Some(look::HEAD_TINT), stroke: None };
    let under = vec![tint, grid.rule(height, look::STRONG_RULE)];

    let row = to.node(Role::Row, Some(parent));
    let (mut items, mut repeated) = (Vec::new(), Vec::new());
    let nothing = BTreeMap::new();
    for (index, lines) in lines.iter().enumerate() {
        let cell = to.node(Role::HeadCell, Some(row));
        let inlines = head.get(index).map(Vec::as_slice).unwrap_or_default();
        let inner = inline_nodes(to, inlines, Some(cell));
        let ink = Ink::BLACK;
        let context = LineContext { inlines, nodes: &inner, node: Some(cell), ink };
        cell_items(grid, (index, grid.end), lines, 0..usize::MAX, &context, &mut items);
        let context = LineContext { inlines, nodes: &nothing, node: None, ink };
        cell_items(grid, (index, grid.end), lines, 0..usize::MAX, &context, &mut repeated);
    }
    to.to.heads.push(TableHead { height, under: under.clone(), items: repeated });
    to.to.strips.push(Strip { height, under, items, ..Strip::default() });
    Some(to.to.heads.len() - 1)
}

/// Pushes a row: one strip, or one for each line if it is too tall to stay whole.
fn push_row(
    to: &mut Collector<'_>,
    grid: &Grid<'_>,
    row: &[Cell],
    words: &[UnbrokenText],
    section: &TableSection,
) {
    let lines = grid.lines(words);
    let node = to.node(Role::Row, Some(section.node));
    let (first, other) = &section.cells;
    let role = |index: usize| if index == 0 { first.clone() } else { other.clone() };
    let nodes: Vec<usize> =
        (0..lines.len()).map(|index| to.node(role(index), Some(node))).collect();
    let inner: Vec<BTreeMap<usize, usize>> = nodes
        .iter()
        .enumerate()
        .map(|(index, node)| {
            let inlines = row.get(index).map(Vec::as_slice).unwrap_or_default();
            inline_nodes(to, inlines, Some(*node))
        })
        .collect();
    let most = lines.iter().map(Vec::len).max().unwrap_or(0).max(1);
    let whole = row_height(grid, &lines, 0..most) <= to.area_height * TALL;
    let step = if whole { most } else { 1 };
    for first in (0..most).step_by(step) {
        let slice = first..first + step;
        let mut height = row_height(grid, &lines, slice.clone());
        let mut end = grid.end;
        let mut items = Vec::new();
        if whole && let Some(writing) = grid.writing {
            end += ((writing - height) / 2.0).max(0.0);
            height = height.max(writing);
        }
        for (index, lines) in lines.iter().enumerate() {
            let inlines = row.get(index).map(Vec::as_slice).unwrap_or_default();
            let (Some(node), Some(inner)) = (nodes.get(index), inner.get(index)) else { continue };
            let context = LineContext { inlines, nodes: inner, node: Some(*node), ink: Ink::BLACK };
            cell_items(grid, (index, end), lines, slice.clone(), &context, &mut items);
        }
        if !whole {
            // Lines of one row have no space between them but at its ends.
            height -= grid.end * 2.0;
            height += if first == 0 || first + 1 == most { grid.end } else { 0.0 };
        }
        let is_last = first + step >= most;
        let mut under = grid.cell_frames(height);
        if is_last && grid.writing.is_none() {
            under.push(grid.rule(height, look::RULE));
        }
        let after = if whole || first + 1 == most { After::Free } else { After::Avoid };
        to.to.strips.push(Strip {
            height,
            under,
            items,
            after,
            head: section.head,
            ..Strip::default()
        });
    }
}

/// Height of the lines of a row that `slice` picks.
fn row_height(grid: &Grid<'_>, lines: &[Vec<SetLine>], slice: std::ops::Range<usize>) -> f64 {
    let cell = |lines: &Vec<SetLine>| -> f64 {
        let picked = lines.iter().skip(slice.start).take(slice.len());
        picked.map(|line| line.height(grid.line_height)).sum()
    };
    lines.iter().map(cell).fold(grid.line_height, f64::max) + 2.0 * grid.end
}

/// The words of a cell that begin `end` mm from its top. A cell without words still has its place in the reading order.
fn cell_items(
    grid: &Grid<'_>,
    (index, end): (usize, f64),
    lines: &[SetLine],
    slice: std::ops::Range<usize>,
    context: &LineContext<'_>,
    to: &mut Vec<Item>,
) {
    let before = to.len();
    let mut y = if slice.start == 0 { end } else { 0.0 };
    for line in lines.iter().skip(slice.start).take(slice.len()) {
        let height = line.height(grid.line_height);
        let left = grid.line_left(index, line.line.width);
        context.items(line, Point::new(left, y + line.baseline(height)), to);
        y += height;
    }
    if to.len() == before && slice.start == 0 && context.node.is_some() {
        to.push(Item::Tagged { node: context.node, items: Vec::new() });
    }
}
