//! Find the layout of what is fitted.

use super::super::layout::Wanted;
use super::dice::Dice;
use super::lookup::BoardLookup;
use super::{Exercise, Task, Trap};
use crate::board::{Device, Layout, LayoutNumber, Role, Speeds};
use crate::source::Span;

/// The most wrong answers that are kept.
const TRAPS: usize = 4;

/// Find the layout. Level 1: up to two devices; 2: three; 3: more.
///
/// Not trivial: only one layout fits, and another one is found by a single slip. Two questions are
/// alike if their answer is the same row.
#[derive(Clone, Debug, PartialEq)]
pub struct FindLayout {
    /// Given: what is fitted, in the order in which it is listed; jet pumps without their numbers.
    pub fitted: Vec<Wanted>,
    /// The only layout that fits.
    pub answer: LayoutNumber,
    /// What each of `fitted` is in that layout, in the same order: a jet pump has its number.
    pub places: Vec<Device>,
    /// The row of the matrix.
    pub row: Span,
    /// At least one.
    pub traps: Vec<Trap<LayoutNumber, LayoutSlip>>,
}

/// How another layout number is found. `fitted` counts in [`FindLayout::fitted`].
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LayoutSlip {
    /// The circulation pump is forgotten.
    CirculationForgotten,
    /// A jet pump, of one or two speeds, is taken for a circulation pump.
    TakenForCirculation {
        /// Which.
        fitted: usize,
    },
    /// The circulation pump is taken for a jet pump.
    CirculationTakenForPump,
    /// The number of speeds is misread.
    OtherSpeeds {
        /// Of which.
        fitted: usize,
        /// As what.
        taken: Speeds,
    },
    /// Some other device is left out.
    LeftOut {
        /// Which.
        fitted: usize,
    },
    /// A device is seen that is not there.
    Added {
        /// What.
        device: Device,
        /// With how many speeds.
        speeds: Speeds,
    },
}

/// The exercise whose answer is `layout`; `None` if another layout fits as well, or none tempts.
pub fn pose(lookup: &BoardLookup<'_>, layout: &Layout, dice: &mut Dice) -> Option<Exercise> {
    let mut devices = devices(lookup, layout, dice);
    dice.shuffle(&mut devices);
    let fitted: Vec<Wanted> =
        devices.iter().map(|(device, speeds)| wanted(*device, *speeds)).collect();
    if fitted.is_empty() || lookup.fitting(&fitted) != [layout.number] {
        return None;
    }
    let traps = traps(lookup, layout, &fitted);
    if traps.is_empty() {
        return None;
    }
    let level = match fitted.len() {
        0..=2 => 1,
        3 => 2,
        _ => 3,
    };
    let places = devices.into_iter().map(|(device, _)| device).collect();
    let row = layout.span;
    let task = FindLayout { fitted, answer: layout.number, places, row, traps };
    Some(Exercise { level, task: Task::FindLayout(task) })
}

fn wanted(device: Device, speeds: Speeds) -> Wanted {
    let role = match device {
        Device::Pump(_) => Role::AnyPump,
        device => Role::Named(device),
    };
    Wanted { role, speeds }
}

/// What the layout has, and some of what it may have; the heater is always there and never listed.
fn devices(lookup: &BoardLookup<'_>, layout: &Layout, dice: &mut Dice) -> Vec<(Device, Speeds)> {
    let slots = lookup.slots(layout.number).iter();
    let listed = slots.filter(|slot| slot.device != Device::Heater);
    listed
        .filter(|slot| slot.needed || dice.below(3) == 0)
        .map(|slot| (slot.device, slot.speeds))
        .collect()
}

/// Every single slip that ends at one other layout, the commonest first; each layout once.
fn traps(
    lookup: &BoardLookup<'_>,
    layout: &Layout,
    fitted: &[Wanted],
) -> Vec<Trap<LayoutNumber, LayoutSlip>> {
    let mut traps: Vec<Trap<LayoutNumber, LayoutSlip>> = Vec::new();
    for (slip, taken) in slips(lookup, layout, fitted) {
        let [number] = lookup.fitting(&taken)[..] else { continue };
        if number == layout.number || traps.iter().any(|trap| trap.answer == number) {
            continue;
        }
        let mistake = match (slip, lookup.board.layout(number)) {
            (LayoutSlip::Added { device: Device::Pump(_), speeds }, Some(other)) => {
                let Some(device) = added(lookup, layout, other) else { continue };
                LayoutSlip::Added { device, speeds }
            }
            (slip, _) => slip,
        };
        traps.push(Trap { answer: number, mistake });
        if traps.len() == TRAPS {
            break;
        }
    }
    traps
}

/// The only device that the row `other` has and `layout` has not, all else being the same.
fn added(lookup: &BoardLookup<'_>, layout: &Layout, other: &Layout) -> Option<Device> {
    let columns = lookup.board.columns.iter().zip(layout.speeds.iter().zip(&other.speeds));
    let mut differ = columns.filter(|(_, (own, others))| own != others);
    let (device, (own, _)) = differ.next()?;
    (differ.next().is_none() && *own == Speeds::None).then_some(*device)
}

/// What is fitted with one slip each.
fn slips(
    lookup: &BoardLookup<'_>,
    layout: &Layout,
    fitted: &[Wanted],
) -> Vec<(LayoutSlip, Vec<Wanted>)> {
    let circulation = wanted(Device::Circulation, Speeds::One);
    let changed = |at: usize, to: Wanted| {
        let mut list = fitted.to_vec();
        if let Some(one) = list.get_mut(at) {
            *one = to;
        }
        list
    };
    let without = |at: usize| {
        let kept = fitted.iter().enumerate().filter(|(index, _)| *index != at);
        kept.map(|(_, one)| *one).collect::<Vec<Wanted>>()
    };
    let mut all = Vec::new();
    let indexed = || fitted.iter().copied().enumerate();
    let circulations = || indexed().filter(|(_, one)| *one == circulation);
    let pumps = || indexed().filter(|(_, one)| one.role == Role::AnyPump);
    for (at, _) in circulations() {
        all.push((LayoutSlip::CirculationForgotten, without(at)));
    }
    if circulations().next().is_none() {
        for (at, _) in pumps() {
            let slip = LayoutSlip::TakenForCirculation { fitted: at };
            all.push((slip, changed(at, circulation)));
        }
    }
    for (at, one) in indexed() {
        let taken = if one.speeds == Speeds::Two { Speeds::One } else { Speeds::Two };
        let slip = LayoutSlip::OtherSpeeds { fitted: at, taken };
        all.push((slip, changed(at, Wanted { speeds: taken, ..one })));
    }
    for (at, _) in circulations() {
        let pump = Wanted { role: Role::AnyPump, speeds: Speeds::One };
        all.push((LayoutSlip::CirculationTakenForPump, changed(at, pump)));
    }
    for (at, one) in indexed() {
        if one != circulation {
            all.push((LayoutSlip::LeftOut { fitted: at }, without(at)));
        }
    }
    for (device, speeds) in lookup.board.columns.iter().zip(&layout.speeds) {
        if *speeds != Speeds::None {
            continue;
        }
        for speeds in [Speeds::One, Speeds::Two] {
            let more = [fitted, &[wanted(*device, speeds)]].concat();
            all.push((LayoutSlip::Added { device: *device, speeds }, more));
        }
    }
    all
}
