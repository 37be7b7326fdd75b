//! What is alike in all that a current depends on.

use super::super::layout::Slot;
use super::plugs::Plug;
use super::state::micro;
use crate::board::{Board, Conductor, Feed, GroupId, GroupSource, Supply};

/// For each group the first that lies between the same conductors, or gives the same voltage apart
/// from the mains; itself if there is none.
pub fn alike_groups(board: &Board, supply: &Supply) -> Vec<GroupId> {
    #[derive(PartialEq)]
    enum GroupCurrent {
        Mains([Conductor; 2]),
        Isolated(u64),
    }
    let kind = |source: GroupSource| match source {
        GroupSource::Isolated(volts) => Some(GroupCurrent::Isolated(micro(volts.0))),
        GroupSource::Between { nodes, .. } => {
            let [a, b] = nodes.map(|node| supply.conductor_at(node));
            let (a, b) = (a?, b?);
            Some(GroupCurrent::Mains([a.min(b), a.max(b)]))
        }
    };
    let all: Vec<Option<GroupCurrent>> =
        board.groups.iter().map(|group| kind(group.source)).collect();
    all.iter()
        .enumerate()
        .map(|(index, own)| {
            let first = all.iter().position(|other| own.is_some() && other == own);
            GroupId(first.unwrap_or(index))
        })
        .collect()
}

/// Numbers slots so that those of one number differ in nothing that a current depends on: each has
/// a jumper of its own with the same groups, the same rating, and no fuse with another.
pub fn alike_slots(board: &Board, slots: &[Slot], plugs: &[Plug]) -> Vec<usize> {
    let key = |slot: &Slot| {
        let mut groups = board.groups_of(slot.header);
        groups.sort();
        let header = &board[slot.header];
        let fuse = header.fuse.map(|fuse| micro(board[fuse].rating.0));
        (groups, header.max.map(|max| micro(max.0)), fuse, slot.speeds)
    };
    let mut alike: Vec<usize> = (0..slots.len()).collect();
    for (index, slot) in slots.iter().enumerate() {
        let free = |at: usize, slot: &Slot| {
            is_independent(board, slots, slot) && slot.needed && !is_bound(plugs, at)
        };
        if !free(index, slot) {
            continue;
        }
        let same = slots
            .iter()
            .enumerate()
            .take(index)
            .find(|(other, candidate)| free(*other, candidate) && key(candidate) == key(slot));
        if let (Some((other, _)), Some(own)) = (same, alike.get_mut(index)) {
            *own = other;
        }
    }
    alike
}

/// Whether a slot shares neither its jumper nor its fuse with another.
pub fn is_independent(board: &Board, slots: &[Slot], slot: &Slot) -> bool {
    let Feed::Jumper(jumper) = board[slot.header].feed else { return false };
    let fuse = board[slot.header].fuse;
    slots.iter().filter(|other| other.header != slot.header).all(|other| {
        let other = &board[other.header];
        other.feed != Feed::Jumper(jumper) && (fuse.is_none() || other.fuse != fuse)
    })
}

/// Whether a slot is the only place of some plug: it is no other's to leave for it.
fn is_bound(plugs: &[Plug], slot: usize) -> bool {
    plugs.iter().any(|plug| matches!(plug.places.as_slice(), [only] if only.slot == slot))
}
