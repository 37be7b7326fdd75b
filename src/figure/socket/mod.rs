//! Every header enlarged, as a person sees it from the front: its pins in their order, the side
//! of its key, and what stays empty for a cord with fewer wires.

mod blank;
mod close_up;
pub(super) mod drawing;
mod live;
mod turns;

use super::{look, mark, places};
use crate::board::{Board, HeaderId};
use crate::geometry::{Path, Point, Rect, Size};
use crate::scene::{Item, Scene};
use crate::text::Typesetter;
use crate::words::Words;

use close_up::close_up;

pub use blank::{blank_socket, drawn_socket};
pub use live::{CommonLive, common_live};
pub use turns::{drawn_sides, socket_turns};

/// The least width of a cell of the grid, mm: three stand side by side on A4.
const CELL: f64 = 58.0;

/// Between the words on the view and the first row, mm.
const VIEW_GAP: f64 = 1.2;

/// All headers of the board in a grid `width` mm wide; a new drawing begins where the next row
/// would pass `height` mm.
pub fn socket_pages(
    board: &Board,
    words: &Words,
    set: &mut Typesetter,
    width: f64,
    height: f64,
) -> Vec<Scene> {
    let columns = (width / CELL).floor().max(1.0);
    let cell = width / columns;
    let view = set.lines(&words.sockets_view(), look::NOTE, width - 1.0);
    let height = height - mark::stack_height(&view) - VIEW_GAP;
    let mut pages: Vec<Vec<SocketRow>> = vec![Vec::new()];
    let mut row = SocketRow::default();
    let mut used = 0.0;
    for header in board.header_ids() {
        let close_up = close_up(board, header, words, set, cell);
        let spans = (close_up.size.width / cell).ceil().clamp(1.0, columns);
        if row.spans + spans > columns {
            push_row(&mut pages, &mut used, std::mem::take(&mut row), height);
        }
        row.height = row.height.max(close_up.size.height);
        row.cells.push((row.spans, spans, header, close_up));
        row.spans += spans;
    }
    if !row.cells.is_empty() {
        push_row(&mut pages, &mut used, row, height);
    }
    let count = pages.len();
    pages
        .into_iter()
        .enumerate()
        .map(|(index, rows)| {
            let title = match count {
                1 => words.sockets_title(),
                _ => words.sockets_title_numbered(index + 1, count),
            };
            let mut scene = Scene::new(Size::new(width, 0.0), title, words.sockets_view() + " ");
            let top = mark::stack(&mut scene, Point::new(0.6, 0.0), &view) + VIEW_GAP;
            page(board, rows, cell, scene, top)
        })
        .collect()
}

/// One row of the grid: cells with their first column and how many columns they span.
#[derive(Default)]
struct SocketRow {
    spans: f64,
    height: f64,
    cells: Vec<(f64, f64, HeaderId, Scene)>,
}

fn push_row(pages: &mut Vec<Vec<SocketRow>>, used: &mut f64, row: SocketRow, height: f64) {
    if *used > 0.0 && *used + row.height > height {
        pages.push(Vec::new());
        *used = 0.0;
    }
    *used += row.height;
    if let Some(page) = pages.last_mut() {
        page.push(row);
    }
}

/// The rows of one drawing, from `top` on.
fn page(board: &Board, rows: Vec<SocketRow>, cell: f64, mut scene: Scene, mut top: f64) -> Scene {
    for row in rows {
        for (first, spans, header, close_up) in row.cells {
            let size = Size::new(spans * cell, row.height);
            let area = Rect::at(Point::new(first * cell, top), size);
            scene.shape(Path::rounded(area.grown(-0.6), 1.0), None, Some(look::FINE));
            let code = &board[header].code;
            scene.items.push(Item::Anchor { name: places::socket(code), at: area.corner() });
            scene.description.push_str(&close_up.description);
            mark::place(&mut scene, close_up, area.corner());
        }
        top += row.height;
    }
    scene.size.height = top;
    scene
}
