//! What is alike in all that a current depends on.

use super::super::layout::Slot;
use super::super::voltages::{GroupVoltage, NoVoltage, SupplyVoltages};
use super::types::{Plug, micro};
use crate::board::{Board, Conductor, Feed, GroupId, Handle, HandleMap, HeaderId};

/// For each group the first that lies between the same conductors, or gives the same voltage apart
/// from the mains; itself if there is none.
pub fn alike_groups(voltages: &SupplyVoltages) -> HandleMap<GroupId, GroupId> {
    #[derive(PartialEq)]
    enum Source {
        Mains([Conductor; 2]),
        Isolated(u64),
    }
    let source = |voltage: &GroupVoltage| match voltage {
        GroupVoltage::Isolated { volts } => Some(Source::Isolated(micro(volts.0))),
        GroupVoltage::Between { conductors: [a, b], .. }
        | GroupVoltage::NotAvailable { because: NoVoltage::SamePotential { conductors: [a, b] } } => {
            Some(Source::Mains([*a.min(b), *a.max(b)]))
        }
        GroupVoltage::NotAvailable { because: NoVoltage::Missing(_) } => None,
    };
    let all: Vec<Option<Source>> = voltages.iter().map(|(_, voltage)| source(voltage)).collect();
    all.iter()
        .enumerate()
        .map(|(index, own)| {
            let first = all.iter().position(|other| own.is_some() && other == own);
            GroupId::new(first.unwrap_or(index))
        })
        .collect()
}

/// For each header the first that differs from it in nothing that a current depends on: each has a
/// jumper of its own with the same groups, the same rating, and no fuse with another. Itself if
/// there is none.
pub fn alike_headers(
    board: &Board,
    slots: &[Slot],
    plugs: &[Plug],
) -> HandleMap<HeaderId, HeaderId> {
    let key = |slot: &Slot| {
        let mut groups = board.groups_of(slot.header);
        groups.sort();
        let header = &board[slot.header];
        let fuse = header.fuse.map(|fuse| micro(board[fuse].rating.0));
        // A pump that others run with is unlike any other.
        let together = board.together(slot.device);
        (groups, header.max.map(|max| micro(max.0)), fuse, slot.speeds, together)
    };
    let mut first = HandleMap::of(board, |header: HeaderId| header);
    let free: Vec<&Slot> = slots
        .iter()
        .filter(|slot| {
            is_independent(board, slots, slot.header)
                && slot.needed
                && !is_bound(plugs, slot.header)
        })
        .collect();
    for (index, slot) in free.iter().enumerate() {
        if let Some(other) = free.iter().take(index).find(|other| key(other) == key(slot)) {
            first[slot.header] = other.header;
        }
    }
    first
}

/// Whether a header shares neither its jumper nor its fuse with another that the layout uses.
pub fn is_independent(board: &Board, slots: &[Slot], header: HeaderId) -> bool {
    let Feed::Jumper(jumper) = board[header].feed else { return false };
    let fuse = board[header].fuse;
    slots.iter().filter(|other| other.header != header).all(|other| {
        let other = &board[other.header];
        other.feed != Feed::Jumper(jumper) && (fuse.is_none() || other.fuse != fuse)
    })
}

/// Whether a header is the only place of some plug: it is no other's to leave for it.
fn is_bound(plugs: &[Plug], header: HeaderId) -> bool {
    plugs.iter().any(|plug| matches!(plug.places.as_slice(), [only] if only.header == header))
}
