//! A box of a few values that are looked for first: a cell for each, with its name, the value in
//! large type and what else is to know about it.

use std::collections::BTreeMap;

use crate::document::{Cell, Table};
use crate::geometry::{Path, Point, Rect, Size};
use crate::scene::{Ink, Item};
use crate::text::Style;

use super::collector::{Collector, Column, Within, strong};
use super::look::TextLook;
use super::paragraph::{LineContext, UnbrokenText, inline_nodes};
use super::strip::{After, Strip};
use super::{Role, look, table};

/// Type of the values, pt.
const VALUE: f64 = 12.5;
/// Space inside the box, mm.
const SIDE: f64 = 2.4;
const END: f64 = 1.8;
/// A box is not higher than this, in parts of a page's height.
const TALL: f64 = 0.4;
/// A cell is not narrower than this, mm: what has no room goes into a second row of cells.
const NARROWEST: f64 = 28.0;

/// Pushes the box, which stays on one page.
pub(super) fn push(to: &mut Collector<'_>, table: &Table, column: Column, within: Within) {
    let count = table.rows.iter().map(Vec::len).chain([table.head.len()]).max().unwrap_or(0);
    if count == 0 {
        return;
    }
    let most = (column.width / NARROWEST).floor().max(1.0) as usize;
    let across = if count <= most { count } else { count.div_ceil(count.div_ceil(most)) };
    let (before, nodes) = (to.gap(to.look.block_gap), to.to.nodes.len());
    let grid = SummaryGrid { column, across, width: column.width / across as f64 };
    let node = to.node(Role::Table(table.summary.clone()), within.parent);
    // Every row of the table in its reading order; where each cell of the box ends so far.
    let mut tops = vec![END; count];
    let mut items = Vec::new();
    // Without rows the head is all that there is.
    let role = if table.rows.is_empty() { Role::TableBody } else { Role::TableHead };
    let head = to.node(role, Some(node));
    let name = TextLook { style: to.look.cell, leading: to.look.leading, ink: look::QUIET };
    let mut lines = vec![(&table.head, name, Role::HeadCell, head)];
    let body = to.node(Role::TableBody, Some(node));
    for (index, row) in table.rows.iter().enumerate() {
        let style = if index == 0 { strong(Style::bold(VALUE)) } else { to.look.cell };
        let leading = to.look.tight_leading;
        lines.push((row, TextLook { style, leading, ink: Ink::BLACK }, Role::Cell, body));
    }
    let mut drawn: Vec<Vec<(usize, Item)>> = Vec::new();
    for (row, set, role, parent) in lines {
        drawn.push(grid.row(to, row, (set, role, parent), &mut tops));
    }
    // The cells of one row of the box are as high as the highest of them.
    let heights: Vec<f64> =
        tops.chunks(across).map(|row| row.iter().copied().fold(0.0, f64::max) + END).collect();
    let above = |cell: usize| heights.iter().take(cell / across).sum::<f64>();
    for (cell, item) in drawn.into_iter().flatten() {
        items.push(match item {
            Item::Tagged { node, items } => {
                let shift = Point::new(0.0, above(cell));
                Item::Tagged { node, items: vec![Item::Group { shift, clip: None, items }] }
            }
            item => item,
        });
    }
    let height: f64 = heights.iter().sum();
    if height > to.area_height * TALL {
        // Too much for a box: what is read in it stays, in the form of any table.
        to.to.nodes.truncate(nodes);
        return table::push(to, table, column, within);
    }
    let under = grid.frames(&heights);
    to.to.strips.push(Strip {
        before,
        height,
        under,
        items,
        after: After::Free,
        ..Strip::default()
    });
}

/// Where the cells of the box lie.
struct SummaryGrid {
    column: Column,
    /// Cells side by side.
    across: usize,
    /// Width of each, mm.
    width: f64,
}

impl SummaryGrid {
    /// The words of one row of the table, each with the cell of the box that it stands in; `tops` is
    /// moved below them.
    fn row(
        &self,
        to: &mut Collector<'_>,
        row: &[Cell],
        (set, role, parent): (TextLook, Role, usize),
        tops: &mut [f64],
    ) -> Vec<(usize, Item)> {
        let node = to.node(Role::Row, Some(parent));
        let empty = Cell::new();
        let mut drawn = Vec::new();
        for (index, top) in tops.iter_mut().enumerate() {
            let inlines = row.get(index).unwrap_or(&empty);
            let cell = to.node(role.clone(), Some(node));
            let links: BTreeMap<usize, usize> = inline_nodes(to, inlines, Some(cell));
            let context = LineContext { inlines, nodes: &links, node: Some(cell), ink: set.ink };
            let words = UnbrokenText::new(to.types, inlines, set.style);
            let left = self.column.left + (index % self.across) as f64 * self.width + SIDE;
            let mut items = Vec::new();
            let lines =
                if inlines.is_empty() { Vec::new() } else { words.broken(self.width - 2.0 * SIDE) };
            for line in lines {
                let height = line.height(set.line_height());
                context.items(&line, Point::new(left, *top + line.baseline(height)), &mut items);
                *top += height;
            }
            if items.is_empty() {
                items.push(Item::Tagged { node: Some(cell), items: Vec::new() });
            }
            drawn.extend(items.into_iter().map(|item| (index, item)));
        }
        drawn
    }

    /// The box and the lines between its cells.
    fn frames(&self, heights: &[f64]) -> Vec<Item> {
        let left = self.column.left;
        let height: f64 = heights.iter().sum();
        let corner = Point::new(left, 0.0);
        let frame = Path::rounded(Rect::at(corner, Size::new(self.column.width, height)), 1.4);
        let mut all =
            vec![Item::Shape { path: frame, fill: None, stroke: Some(look::STRONG_RULE) }];
        let mut rule = |from: Point, end: Point| {
            let path = Path::polyline(&[from, end]);
            all.push(Item::Shape { path, fill: None, stroke: Some(look::RULE) });
        };
        for index in 1..self.across {
            let x = left + index as f64 * self.width;
            rule(Point::new(x, 0.0), Point::new(x, height));
        }
        let mut y = 0.0;
        for height in heights.iter().rev().skip(1).rev() {
            y += height;
            rule(Point::new(left, y), Point::new(left + self.column.width, y));
        }
        all
    }
}
