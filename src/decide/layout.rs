//! Which layout fits what is fitted, and which ones nearly do.
//!
//! Named devices are matched one to one. Jet pumps may take any pump's place that has their number
//! of speeds; which of them takes which is decided with the jumpers.

use crate::board::{Board, Device, HeaderId, Job, Layout, LayoutNumber, Role, Speeds};

/// A device to be matched: all that the matrix asks about it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Wanted {
    /// What it can be.
    pub role: Role,
    /// One or two.
    pub speeds: Speeds,
}

/// What the matrix asks of a job's equipment, in its order.
pub fn wanted(job: &Job) -> Vec<Wanted> {
    job.equipment.iter().map(|fitted| Wanted { role: fitted.role, speeds: fitted.speeds }).collect()
}

/// A header that a layout uses.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Slot {
    /// The header.
    pub header: HeaderId,
    /// What it drives.
    pub device: Device,
    /// With how many speeds; one where the matrix does not say.
    pub speeds: Speeds,
    /// Whether the layout has the device; one without a column may be there or not.
    pub needed: bool,
}

/// The headers that `layout` uses, in the specification's order.
pub fn slots(board: &Board, layout: &Layout) -> Vec<Slot> {
    board
        .header_ids()
        .filter_map(|header| {
            let device = board.device_at(header, layout)?;
            let speeds = board.speeds_at(layout, device);
            Some(Slot {
                header,
                device,
                speeds: speeds.unwrap_or(Speeds::One),
                needed: speeds.is_some(),
            })
        })
        .collect()
}

/// The layouts that fit, by number.
pub fn fitting(board: &Board, wanted: &[Wanted]) -> Vec<LayoutNumber> {
    let fits = |layout: &&Layout| differences(&slots(board, layout), wanted).is_empty();
    board.layouts.iter().filter(fits).map(|layout| layout.number).collect()
}

/// A layout that nearly fits.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NearLayout {
    /// Its number.
    pub layout: LayoutNumber,
    /// What differs: as few as there can be.
    pub differences: Vec<Difference>,
}

impl NearLayout {
    /// Whether it would fit but for taking a jet pump for the circulation pump, or the other way
    /// round.
    pub fn is_mix_up(&self) -> bool {
        let mixed = |difference: &Difference| {
            matches!(difference, Difference::IsCirculation { .. } | Difference::IsJetPump { .. })
        };
        self.differences.iter().any(mixed)
    }
}

/// One thing by which a layout differs from what is fitted. `wanted` counts in the order of what
/// was asked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Difference {
    /// The layout has the device, and nothing that is fitted can be it.
    Lacking {
        /// The device.
        device: Device,
        /// With how many speeds.
        speeds: Speeds,
    },
    /// The layout has no place for it.
    NoPlace {
        /// What is fitted.
        wanted: usize,
    },
    /// It has another number of speeds there.
    OtherSpeeds {
        /// What is fitted.
        wanted: usize,
        /// What it would be.
        device: Device,
        /// What the layout gives it.
        speeds: Speeds,
    },
    /// A pump that has no place would be the dedicated circulation pump that the layout has.
    IsCirculation {
        /// What is fitted as a pump.
        wanted: usize,
    },
    /// The circulation pump that has no place would be a jet pump that the layout has: one that
    /// filters on low or by a timer is no dedicated circulation pump.
    IsJetPump {
        /// What is fitted as the circulation pump.
        wanted: usize,
        /// The jet pump.
        device: Device,
        /// With how many speeds.
        speeds: Speeds,
    },
}

/// The `count` layouts with the fewest differences; of those with as many, first the ones that a
/// mistaken circulation pump explains, because nothing that is fitted is left over then; then by
/// number.
pub fn nearest(board: &Board, wanted: &[Wanted], count: usize) -> Vec<NearLayout> {
    let mut all: Vec<NearLayout> = board
        .layouts
        .iter()
        .map(|layout| NearLayout {
            layout: layout.number,
            differences: differences(&slots(board, layout), wanted),
        })
        .collect();
    all.sort_by_key(|near| (near.differences.len(), !near.is_mix_up(), near.layout));
    all.truncate(count);
    all
}

/// The layout that differs from `layout` in the circulation pump alone, if there is one: the one
/// that is entered by whoever overlooks such a pump, or sees one that is not there.
pub fn but_for_circulation(board: &Board, layout: LayoutNumber) -> Option<LayoutNumber> {
    let column = board.columns.iter().position(|device| *device == Device::Circulation)?;
    let own = board.layout(layout)?;
    let same = |other: &&Layout| {
        other.number != layout
            && own
                .speeds
                .iter()
                .zip(&other.speeds)
                .enumerate()
                .all(|(index, (a, b))| index == column || a == b)
    };
    board.layouts.iter().find(same).map(|layout| layout.number)
}

/// The fewest differences between a layout's slots and what is fitted; none if it fits.
pub fn differences(slots: &[Slot], wanted: &[Wanted]) -> Vec<Difference> {
    let mut matching = Matching { slots, taken: vec![false; slots.len()], found: Vec::new() };
    let mut unplaced = matching.named(wanted);
    unplaced.extend(matching.pumps(wanted));
    unplaced.sort_by_key(|(index, _)| *index);
    matching.left_over(unplaced);
    matching.found
}

struct Matching<'a> {
    slots: &'a [Slot],
    taken: Vec<bool>,
    found: Vec<Difference>,
}

impl Matching<'_> {
    /// Takes the first free slot that `fits`.
    fn take(&mut self, fits: impl Fn(&Slot) -> bool) -> Option<Slot> {
        let free = |(slot, taken): &(&Slot, &mut bool)| !**taken && fits(slot);
        let (slot, taken) = self.slots.iter().zip(&mut self.taken).find(free)?;
        *taken = true;
        Some(*slot)
    }

    /// Matches what can be one device only; gives what finds no place.
    fn named(&mut self, wanted: &[Wanted]) -> Vec<(usize, Wanted)> {
        let mut unplaced = Vec::new();
        for (index, one) in wanted.iter().enumerate() {
            let Role::Named(device) = one.role else { continue };
            match self.take(|slot| slot.device == device) {
                None => unplaced.push((index, *one)),
                Some(slot) => self.judge_speeds(index, *one, slot),
            }
        }
        unplaced
    }

    fn judge_speeds(&mut self, index: usize, one: Wanted, slot: Slot) {
        if slot.speeds != one.speeds {
            self.found.push(Difference::OtherSpeeds {
                wanted: index,
                device: slot.device,
                speeds: slot.speeds,
            });
        }
    }

    /// Matches pumps of any number: those with the right speeds first, needed slots first, so that
    /// as few as can be differ; gives what finds no place.
    fn pumps(&mut self, wanted: &[Wanted]) -> Vec<(usize, Wanted)> {
        let is_pump = |slot: &Slot| matches!(slot.device, Device::Pump(_));
        let mut waiting: Vec<(usize, Wanted)> = wanted
            .iter()
            .copied()
            .enumerate()
            .filter(|(_, one)| one.role == Role::AnyPump)
            .collect();
        for needed in [true, false] {
            waiting.retain(|(_, one)| {
                let fits = |slot: &Slot| {
                    is_pump(slot) && slot.needed == needed && slot.speeds == one.speeds
                };
                self.take(fits).is_none()
            });
        }
        waiting.retain(|(index, one)| match self.take(|slot| is_pump(slot) && slot.needed) {
            None => true,
            Some(slot) => {
                self.judge_speeds(*index, *one, slot);
                false
            }
        });
        waiting
    }

    /// What finds no place, and needed slots that nothing took: two of them may be one mistake.
    fn left_over(&mut self, unplaced: Vec<(usize, Wanted)>) {
        for (index, one) in unplaced {
            let pump = one.role == Role::AnyPump && one.speeds == Speeds::One;
            let circulation = one.role == Role::Named(Device::Circulation);
            let difference = if pump
                && self.take(|slot| slot.needed && slot.device == Device::Circulation).is_some()
            {
                Difference::IsCirculation { wanted: index }
            } else if let (true, Some(slot)) = (circulation, self.free_pump(circulation)) {
                Difference::IsJetPump { wanted: index, device: slot.device, speeds: slot.speeds }
            } else {
                Difference::NoPlace { wanted: index }
            };
            self.found.push(difference);
        }
        let free =
            self.slots.iter().zip(&self.taken).filter(|(slot, taken)| slot.needed && !**taken);
        self.found.extend(
            free.map(|(slot, _)| Difference::Lacking { device: slot.device, speeds: slot.speeds }),
        );
    }

    /// Takes a needed jet pump's slot, if it is `asked` for.
    fn free_pump(&mut self, asked: bool) -> Option<Slot> {
        let is_pump = |slot: &Slot| slot.needed && matches!(slot.device, Device::Pump(_));
        if asked { self.take(is_pump) } else { None }
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::heron;
    use super::*;

    fn one(role: Role, speeds: u8) -> Wanted {
        let speeds = if speeds == 2 { Speeds::Two } else { Speeds::One };
        Wanted { role, speeds }
    }

    fn pump(speeds: u8) -> Wanted {
        one(Role::AnyPump, speeds)
    }

    fn named(device: Device) -> Wanted {
        one(Role::Named(device), 1)
    }

    fn numbers(wanted: &[Wanted]) -> Vec<u8> {
        fitting(&heron(&[]), wanted).into_iter().map(LayoutNumber::get).collect()
    }

    /// Read off the matrix of heron-8 by hand.
    #[test]
    fn the_rows_of_heron_8_are_found() {
        let (circulation, blower) = (named(Device::Circulation), named(Device::Blower));
        assert_eq!(numbers(&[pump(2)]), [1]);
        assert_eq!(numbers(&[circulation, pump(2), pump(1), blower]), [7]);
        assert_eq!(numbers(&[pump(1), blower, pump(2), circulation]), [7]);
        assert_eq!(numbers(&[circulation, pump(2), pump(1), pump(2), blower]), [12]);
        assert_eq!(numbers(&[pump(2), pump(2)]), [0; 0]);
        // The ozonator has no column: it may be there under every layout.
        assert_eq!(numbers(&[pump(2), named(Device::Ozonator)]), [1]);
        // Pump 1 has two speeds in layout 6, so a pump 1 with one speed has no place there.
        assert_eq!(numbers(&[one(Role::Named(Device::Pump(2)), 1), pump(2), blower]), [6]);
        assert_eq!(numbers(&[one(Role::Named(Device::Pump(1)), 1), pump(2), blower]), [0; 0]);
        assert_eq!(numbers(&[]), [0; 0]);
    }

    #[test]
    fn near_layouts_say_what_differs() {
        let board = heron(&[]);
        let near = |wanted: &[Wanted]| {
            let first = nearest(&board, wanted, 1).remove(0);
            (first.layout.get(), first.differences)
        };
        // Layout 5 is circulation, a two-speed pump 1 and a blower.
        let blower = named(Device::Blower);
        let (number, found) = near(&[pump(2), pump(1), pump(1)]);
        // Layout 8 is 2, 1, 1 without a circulation pump: it fits.
        assert_eq!((number, found.as_slice()), (8, [].as_slice()));
        // 2, 1 and a blower is layout 6, and with a second one-speed pump it is layout 10: it fits.
        let (number, found) = near(&[pump(2), pump(1), blower, pump(1)]);
        assert_eq!(number, 10);
        assert_eq!(found, []);
        let (number, found) = near(&[pump(1), blower, pump(1)]);
        assert_eq!(
            (number, found.as_slice()),
            (3, [Difference::IsCirculation { wanted: 2 }].as_slice())
        );
        // A two-speed pump described as a circulation pump.
        let (number, found) = near(&[named(Device::Circulation)]);
        let is_pump =
            Difference::IsJetPump { wanted: 0, device: Device::Pump(1), speeds: Speeds::Two };
        assert_eq!((number, found.as_slice()), (1, [is_pump].as_slice()));
        let (number, found) = near(&[pump(2), pump(2)]);
        assert_eq!((number, found), (1, vec![Difference::NoPlace { wanted: 1 }]));
    }

    #[test]
    fn only_the_circulation_pump_differs() {
        let board = heron(&[]);
        let other = |number| {
            but_for_circulation(&board, LayoutNumber::new(number).expect("not 0"))
                .map(LayoutNumber::get)
        };
        assert_eq!((other(6), other(7), other(1), other(12)), (Some(7), Some(6), None, None));
    }
}
