//! A table as CSV (RFC 4180).

use super::{Cell, Table, rounded};

/// What makes a spreadsheet take a text for a formula, if the text begins with it; some read the wide
/// forms of East Asian fonts as well.
const FORMULAS: [char; 11] =
    ['=', '+', '-', '@', '\t', '\r', '\n', '\u{ff1d}', '\u{ff0b}', '\u{ff0d}', '\u{ff20}'];

/// The table as CSV with its columns in the first line; lines end with CR LF.
///
/// A text that a spreadsheet would run as a formula gets an apostrophe before it, and so does one that
/// begins with an apostrophe: a program takes one apostrophe off whatever begins with it. Numbers are
/// written as they are: a spreadsheet can only read those as numbers.
///
/// # Errors
/// What the writer says if it cannot, which is never so for memory.
pub fn csv(table: &Table) -> Result<Vec<u8>, String> {
    let mut writer =
        csv::WriterBuilder::new().terminator(csv::Terminator::CRLF).from_writer(Vec::new());
    let told = |error: csv::Error| error.to_string();
    writer.write_record(table.kind.columns.iter().map(|column| column.name)).map_err(told)?;
    for cells in &table.rows {
        writer.write_record(cells.iter().map(text)).map_err(told)?;
    }
    writer.into_inner().map_err(|error| error.to_string())
}

fn text(cell: &Cell) -> String {
    match cell {
        Cell::Text(text) if text.starts_with(|c| c == '\'' || FORMULAS.contains(&c)) => {
            format!("'{text}")
        }
        Cell::Text(text) => text.clone(),
        Cell::Number(number) => rounded(*number).to_string(),
        Cell::Whole(number) => number.to_string(),
        Cell::Flag(flag) => flag.to_string(),
        Cell::Nothing => String::new(),
    }
}
