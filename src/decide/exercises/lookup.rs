//! A board with what many exercises ask of it, found once.

use super::super::layout::{Slot, Wanted, differences, slots};
use super::super::serving::set_of;
use crate::board::{Board, Device, HeaderId, Layout, LayoutNumber, LayoutSet};

/// A board and the headers in use under each of its layouts.
pub struct BoardLookup<'a> {
    /// The board.
    pub board: &'a Board,
    slots: Vec<(LayoutNumber, Vec<Slot>)>,
}

impl<'a> BoardLookup<'a> {
    /// Of a board.
    pub fn new(board: &'a Board) -> Self {
        let of = |layout: &Layout| (layout.number, slots(board, layout));
        Self { board, slots: board.layouts.iter().map(of).collect() }
    }

    /// The headers that a layout uses.
    pub fn slots(&self, layout: LayoutNumber) -> &[Slot] {
        let found = self.slots.iter().find(|(number, _)| *number == layout);
        found.map_or(&[], |(_, slots)| slots)
    }

    /// The layouts that fit, as [`super::super::fitting`] finds them.
    pub fn fitting(&self, wanted: &[Wanted]) -> Vec<LayoutNumber> {
        let fits = |(_, slots): &&(LayoutNumber, Vec<Slot>)| differences(slots, wanted).is_empty();
        self.slots.iter().filter(fits).map(|(number, _)| *number).collect()
    }

    /// The layouts in which `header` serves `device`; `None` if there is none.
    pub fn serving(&self, header: HeaderId, device: Device) -> Option<LayoutSet> {
        let serves = |slots: &[Slot]| {
            slots.iter().any(|slot| slot.header == header && slot.device == device)
        };
        let numbers: Vec<LayoutNumber> = self
            .slots
            .iter()
            .filter(|(_, slots)| serves(slots))
            .map(|(number, _)| *number)
            .collect();
        (!numbers.is_empty()).then(|| set_of(self.board, &numbers))
    }
}
