//! Where the jumpers go for the plates of what is fitted.

use super::super::jumpers::suits;
use super::super::voltages::SupplyVoltages;
use super::dice::Dice;
use super::lookup::BoardLookup;
use super::plates::plate_for;
use super::{Exercise, Task, Trap};
use crate::board::{
    Board, Device, Feed, GroupId, HandleMap, HeaderId, JumperId, Layout, LayoutNumber, SupplyId,
};
use crate::source::Span;
use crate::units::Volts;

/// The most assignments of jumpers to groups that a board may have: so many can be tried one by one.
const ASSIGNMENTS: usize = 50_000;

/// The most jumpers that a board may have: nobody would draw more.
const JUMPERS: usize = 40;

/// Where the jumpers go for the plates of what is fitted.
///
/// Level 1: one jumper is moved; 2: two; 3: more. Not trivial: at least one is moved, and of all
/// assignments of jumpers to their groups one alone gives every plate its voltage within the tabs
/// that there are, unused jumpers staying where they are shipped. Two questions are alike if supply,
/// layout and answer are the same.
#[derive(Clone, Debug, PartialEq)]
pub struct MoveJumpers {
    /// Given: the supply.
    pub supply: SupplyId,
    /// Given: the layout.
    pub layout: LayoutNumber,
    /// Given: what is plugged in where a jumper picks the voltage, in the order of the headers.
    pub plates: Vec<PlateAt>,
    /// Every jumper of the board, in its order. At least one is moved.
    pub answer: Vec<JumperAnswer>,
}

/// A device at its header, with the voltage on its plate.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PlateAt {
    /// The header.
    pub header: HeaderId,
    /// The device.
    pub device: Device,
    /// On its plate.
    pub volts: Volts,
}

/// Where one jumper goes.
#[derive(Clone, Debug, PartialEq)]
pub struct JumperAnswer {
    /// The jumper.
    pub jumper: JumperId,
    /// Its group.
    pub group: GroupId,
    /// Whether it is moved from where it is shipped.
    pub moved: bool,
    /// Why.
    pub because: JumperWhy,
    /// The jumper's line.
    pub line: Span,
    /// The group's line.
    pub group_line: Span,
    /// The other groups that tempt.
    pub traps: Vec<Trap<GroupId, JumperSlip>>,
}

/// Why a jumper goes to its group.
#[derive(Clone, Debug, PartialEq)]
pub enum JumperWhy {
    /// Nothing hangs on it: it stays where it is shipped.
    Unused,
    /// It is the only group that suits what hangs on it.
    Suits {
        /// What the group gives under the supply.
        volts: Volts,
        /// What hangs on the jumper, by its place in [`MoveJumpers::plates`].
        plates: Vec<usize>,
    },
    /// Other groups suit as well, but only this one leaves a tab for every other jumper.
    LeavesTabs {
        /// What the group gives under the supply.
        volts: Volts,
        /// What hangs on the jumper, by its place in [`MoveJumpers::plates`].
        plates: Vec<usize>,
        /// The others that suit.
        others: Vec<GroupId>,
    },
}

/// How a jumper gets to another group.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum JumperSlip {
    /// It is left where it is shipped.
    LeftOnShipped {
        /// What its devices get then; `None` for nothing.
        gives: Option<Volts>,
    },
    /// It is put on the next of its groups.
    NextGroup {
        /// What its devices get then; `None` for nothing.
        gives: Option<Volts>,
    },
}

/// The exercise with some plates under a supply and a layout; `None` if they leave a choice, or
/// nothing to move.
pub fn pose(
    lookup: &BoardLookup<'_>,
    supply: SupplyId,
    layout: &Layout,
    dice: &mut Dice,
) -> Option<Exercise> {
    let board = lookup.board;
    let assignments =
        board.jumpers.iter().try_fold(1_usize, |all, one| all.checked_mul(one.groups.len()));
    assignments.filter(|count| *count <= ASSIGNMENTS && board.jumpers.len() <= JUMPERS)?;
    let voltages = SupplyVoltages::of(board, supply);
    let plates = plates(lookup, &voltages, layout, dice)?;
    let open: HandleMap<JumperId, Vec<GroupId>> =
        HandleMap::of(board, |jumper| open(board, &voltages, jumper, &plates));
    let groups = only(board, &open)?;
    let answer: Vec<JumperAnswer> = open
        .entries()
        .zip(&groups)
        .map(|((jumper, open), group)| answer(board, &voltages, (jumper, *group), open, &plates))
        .collect();
    let level = match answer.iter().filter(|one| one.moved).count() {
        0 => return None,
        1 => 1,
        2 => 2,
        _ => 3,
    };
    let task = MoveJumpers { supply, layout: layout.number, plates, answer };
    Some(Exercise { level, task: Task::MoveJumpers(task) })
}

/// A plate for everything that hangs on a jumper; `None` if no plate suits.
fn plates(
    lookup: &BoardLookup<'_>,
    voltages: &SupplyVoltages,
    layout: &Layout,
    dice: &mut Dice,
) -> Option<Vec<PlateAt>> {
    let board = lookup.board;
    let mut meant: Vec<(JumperId, Volts)> = Vec::new();
    let mut plates = Vec::new();
    for slot in lookup.slots(layout.number) {
        let Feed::Jumper(jumper) = board[slot.header].feed else { continue };
        let element = board.heater.filter(|_| slot.device == Device::Heater);
        if !slot.needed && element.is_none() && dice.below(3) != 0 {
            continue;
        }
        let known = meant.iter().find(|(other, _)| *other == jumper).map(|(_, volts)| *volts);
        let volts = match known {
            Some(volts) => volts,
            None => {
                let groups = board[jumper].groups.iter();
                let fed: Vec<Volts> = groups.filter_map(|group| voltages.volts(*group)).collect();
                let volts = *dice.pick(&fed)?;
                meant.push((jumper, volts));
                volts
            }
        };
        let volts = match element {
            Some(element) => element.at,
            None => plate_for(volts, dice)?,
        };
        plates.push(PlateAt { header: slot.header, device: slot.device, volts });
    }
    (!plates.is_empty()).then_some(plates)
}

/// What hangs on a jumper, each with its place in the list.
fn hanging<'p>(
    board: &Board,
    jumper: JumperId,
    plates: &'p [PlateAt],
) -> Vec<(usize, &'p PlateAt)> {
    let on = |plate: &PlateAt| board[plate.header].feed == Feed::Jumper(jumper);
    plates.iter().enumerate().filter(|(_, plate)| on(plate)).collect()
}

/// The groups that suit everything on a jumper; the shipped one if nothing hangs there.
fn open(
    board: &Board,
    voltages: &SupplyVoltages,
    jumper: JumperId,
    plates: &[PlateAt],
) -> Vec<GroupId> {
    let hanging = hanging(board, jumper, plates);
    if hanging.is_empty() {
        return vec![board[jumper].shipped];
    }
    let suits_all = |group: &GroupId| {
        let Some(volts) = voltages.volts(*group) else { return false };
        hanging.iter().all(|(_, plate)| suits(volts, plate.volts))
    };
    board[jumper].groups.iter().copied().filter(suits_all).collect()
}

/// The only choice of one open group for each jumper that the tabs suffice for.
fn only(board: &Board, open: &[Vec<GroupId>]) -> Option<Vec<GroupId>> {
    let mut found = Vec::new();
    let mut free = HandleMap::of(board, |group: GroupId| usize::from(board[group].tabs));
    choose(open, &mut Vec::new(), &mut free, &mut found);
    if found.len() == 1 { found.pop() } else { None }
}

/// Goes through all choices and keeps the first two.
fn choose(
    open: &[Vec<GroupId>],
    chosen: &mut Vec<GroupId>,
    free: &mut HandleMap<GroupId, usize>,
    found: &mut Vec<Vec<GroupId>>,
) {
    let Some(groups) = open.get(chosen.len()) else {
        found.push(chosen.clone());
        return;
    };
    for group in groups {
        if found.len() > 1 {
            return;
        }
        if free[*group] == 0 {
            continue;
        }
        free[*group] -= 1;
        chosen.push(*group);
        choose(open, chosen, free, found);
        chosen.pop();
        free[*group] += 1;
    }
}

fn answer(
    board: &Board,
    voltages: &SupplyVoltages,
    (id, group): (JumperId, GroupId),
    open: &[GroupId],
    plates: &[PlateAt],
) -> JumperAnswer {
    let jumper = &board[id];
    let plates: Vec<usize> = hanging(board, id, plates).into_iter().map(|(at, _)| at).collect();
    let volts = |group: GroupId| voltages.volts(group);
    let others: Vec<GroupId> = open.iter().copied().filter(|other| *other != group).collect();
    let because = match volts(group) {
        Some(volts) if !plates.is_empty() && others.is_empty() => {
            JumperWhy::Suits { volts, plates }
        }
        Some(volts) if !plates.is_empty() => JumperWhy::LeavesTabs { volts, plates, others },
        _ => JumperWhy::Unused,
    };
    let mut traps = Vec::new();
    if group != jumper.shipped {
        let mistake = JumperSlip::LeftOnShipped { gives: volts(jumper.shipped) };
        traps.push(Trap { answer: jumper.shipped, mistake });
    }
    let after = jumper.groups.iter().cycle().skip_while(|one| **one != group).nth(1);
    if let Some(next) = after.filter(|next| **next != group && **next != jumper.shipped) {
        traps.push(Trap { answer: *next, mistake: JumperSlip::NextGroup { gives: volts(*next) } });
    }
    JumperAnswer {
        jumper: id,
        group,
        moved: group != jumper.shipped,
        because,
        line: jumper.span,
        group_line: board[group].span,
        traps,
    }
}
