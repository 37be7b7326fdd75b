//! The decision tables of the sheets as data, for parts lists and web pages: rows of cells under columns
//! that say what they hold.
//!
//! Every table has the same columns for every board, with the unit of a number in its name. The columns,
//! their explanations and the cells come of one list ([`rows`]), so none can be missing.

mod csv;
mod fill;
mod rows;

use serde::ser::SerializeMap;
use serde::{Serialize, Serializer};

use crate::units::fixed;

pub use csv::csv;
pub use fill::tables;

/// The form of the JSON: a key that is renamed or gets another meaning makes it another.
pub const SCHEMA: u32 = 1;

/// What a cell holds.
#[derive(Clone, Debug, PartialEq)]
pub enum Cell {
    /// A label, a word or a sentence of the specification.
    Text(String),
    /// A number, in the unit of its column.
    Number(f64),
    /// A count, or the number of something.
    Whole(u32),
    /// Yes or no.
    Flag(bool),
    /// There is none.
    Nothing,
}

impl Serialize for Cell {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        match self {
            Cell::Text(text) => serializer.serialize_str(text),
            Cell::Number(number) => serializer.serialize_f64(rounded(*number)),
            Cell::Whole(number) => serializer.serialize_u32(*number),
            Cell::Flag(flag) => serializer.serialize_bool(*flag),
            Cell::Nothing => serializer.serialize_none(),
        }
    }
}

/// Without the noise of its last digits.
fn rounded(number: f64) -> f64 {
    fixed(number, 6).parse().unwrap_or(number)
}

/// A column of a table.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Column {
    /// Its name, with the unit of its numbers.
    pub name: &'static str,
    /// What it holds.
    pub about: &'static str,
    /// `text`, `number`, `whole number` or `true or false`.
    pub kind: &'static str,
    /// Whether a cell may be empty.
    pub optional: bool,
}

/// A kind of table.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct TableKind {
    /// Its name, which is also that of its file.
    pub name: &'static str,
    /// What a row of it is.
    pub about: &'static str,
    /// Its columns in their order.
    pub columns: &'static [Column],
}

/// A table of one board.
#[derive(Clone, Debug, PartialEq)]
pub struct Table {
    /// What it is.
    pub kind: TableKind,
    /// Its rows, each with a cell for every column.
    pub rows: Vec<Vec<Cell>>,
}

/// A list of objects, one for each row.
impl Serialize for Table {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_seq(self.rows.iter().map(|cells| Object { kind: &self.kind, cells }))
    }
}

struct Object<'a> {
    kind: &'a TableKind,
    cells: &'a [Cell],
}

impl Serialize for Object<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut map = serializer.serialize_map(Some(self.cells.len()))?;
        for (column, cell) in self.kind.columns.iter().zip(self.cells) {
            map.serialize_entry(column.name, cell)?;
        }
        map.end()
    }
}

/// Every kind of table, in its order.
pub fn kinds() -> [TableKind; 9] {
    rows::KINDS
}

/// A row of a table.
trait Row {
    const KIND: TableKind;

    fn cells(self) -> Vec<Cell>;
}

/// What a field of a row holds.
trait Value {
    const KIND: &'static str;
    const OPTIONAL: bool = false;

    fn cell(self) -> Cell;
}

macro_rules! values {
    ($($of:ty, $kind:literal, $value:ident => $cell:expr;)*) => {$(
        impl Value for $of {
            const KIND: &'static str = $kind;

            fn cell(self) -> Cell {
                let $value = self;
                $cell
            }
        }
    )*};
}

values! {
    String, "text", it => Cell::Text(it);
    &'static str, "text", it => Cell::Text(it.to_owned());
    f64, "number", it => Cell::Number(it);
    u8, "whole number", it => Cell::Whole(u32::from(it));
    bool, "true or false", it => Cell::Flag(it);
}

impl<T: Value> Value for Option<T> {
    const KIND: &'static str = T::KIND;
    const OPTIONAL: bool = true;

    fn cell(self) -> Cell {
        self.map_or(Cell::Nothing, T::cell)
    }
}
