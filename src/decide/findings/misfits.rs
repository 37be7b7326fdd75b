//! What does not fit where no assignment of devices to headers gives each its voltage.

use super::super::jumpers::{HeaderOption, Plug};
use super::super::layout::Slot;
use crate::board::{Board, Feed, GroupId, JumperId};

/// The most assignments of devices to headers that are looked through.
const MOST: usize = 2000;

/// One thing that does not fit in an assignment of devices to headers.
pub enum Misfit<'p> {
    /// The header gives the device no voltage that suits it.
    Place {
        /// The device.
        plug: &'p Plug,
        /// Which slot its header is.
        slot: usize,
    },
    /// The devices on the jumper have no group in common.
    Jumper {
        /// The jumper.
        jumper: JumperId,
        /// The devices and where each is.
        plugs: Vec<(&'p Plug, &'p HeaderOption)>,
    },
}

/// Looks through the assignments of devices to headers, in the order of the job, for the first
/// with the fewest misfits; gives these.
pub fn fewest_misfits<'p>(board: &Board, slots: &[Slot], plugs: &[&'p Plug]) -> Vec<Misfit<'p>> {
    let mut search = Search { board, slots, plugs, assigned: Vec::new(), left: MOST, fewest: None };
    search.walk();
    search.fewest.unwrap_or_default()
}

struct Search<'a, 'p> {
    board: &'a Board,
    slots: &'a [Slot],
    plugs: &'a [&'p Plug],
    /// The places of the first of `plugs`.
    assigned: Vec<&'p HeaderOption>,
    /// How many more assignments are looked at.
    left: usize,
    fewest: Option<Vec<Misfit<'p>>>,
}

impl<'p> Search<'_, 'p> {
    fn walk(&mut self) {
        let Some(plug) = self.plugs.get(self.assigned.len()).copied() else {
            self.left = self.left.saturating_sub(1);
            let misfits = self.misfits();
            if self.fewest.as_ref().is_none_or(|fewest| misfits.len() < fewest.len()) {
                self.fewest = Some(misfits);
            }
            return;
        };
        for place in &plug.places {
            if self.left > 0 && self.assigned.iter().all(|taken| taken.slot != place.slot) {
                self.assigned.push(place);
                self.walk();
                self.assigned.pop();
            }
        }
    }

    /// What does not fit where everything is now.
    fn misfits(&self) -> Vec<Misfit<'p>> {
        let mut misfits = Vec::new();
        let mut jumpers: Vec<(JumperId, Vec<(&'p Plug, &'p HeaderOption)>)> = Vec::new();
        for (plug, place) in self.plugs.iter().copied().zip(self.assigned.iter().copied()) {
            if place.options.is_empty() {
                misfits.push(Misfit::Place { plug, slot: place.slot });
                continue;
            }
            let Some(slot) = self.slots.get(place.slot) else { continue };
            let Feed::Jumper(jumper) = self.board[slot.header].feed else { continue };
            match jumpers.iter_mut().find(|(known, _)| *known == jumper) {
                Some((_, plugs)) => plugs.push((plug, place)),
                None => jumpers.push((jumper, vec![(plug, place)])),
            }
        }
        for (jumper, plugs) in jumpers {
            let groups = &self.board[jumper].groups;
            let suits_all = |group: &&GroupId| {
                plugs.iter().all(|(_, place)| place.options.iter().any(|o| o.group == **group))
            };
            if !groups.iter().any(|group| suits_all(&group)) {
                misfits.push(Misfit::Jumper { jumper, plugs });
            }
        }
        misfits
    }
}
