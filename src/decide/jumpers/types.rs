//! What the search chooses among, what it keeps to, and what it gives.

use num_complex::Complex;

use super::super::currents::{AllowanceClass, Draw, Flow, Together};
use super::super::layout::Slot;
use crate::board::{Allowance, Board, Conductor, Device, GroupId, HandleMap, HeaderId, JumperId};
use crate::units::Amps;

/// Something to plug in: a device of the job, or the heater.
#[derive(Clone, Debug)]
pub struct Plug {
    /// Which of the job's equipment; `None` for the heater.
    pub fitted: Option<usize>,
    /// How it counts for the heater allowance.
    pub class: AllowanceClass,
    /// Where it can go.
    pub places: Vec<HeaderOption>,
}

/// A header that a device can go to.
#[derive(Clone, Debug)]
pub struct HeaderOption {
    /// The header.
    pub header: HeaderId,
    /// Which of the layout's slots that is.
    pub slot: usize,
    /// The groups that give it its voltage there: the shipped one first, then in the jumper's order.
    pub options: Vec<GroupOption>,
}

/// One group for a device.
#[derive(Clone, Debug)]
pub struct GroupOption {
    /// The group.
    pub group: GroupId,
    /// Where its current flows; `None` on a group that is apart from the mains.
    pub flow: Option<Flow>,
    /// What it draws.
    pub real: Amount,
    /// What that counts for when a breaker is sized.
    pub counted: Amount,
    /// What the device does when others run.
    pub together: Together,
}

/// Currents on low and on high.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Amount {
    /// 0 for what has no low speed.
    pub low: f64,
    /// On high, or on.
    pub high: f64,
}

impl GroupOption {
    /// What the board adds up for it, on low and on high: what it draws from the supply.
    pub fn adds(&self) -> [f64; 2] {
        match self.flow {
            Some(_) => [self.real.low, self.real.high],
            None => [0.0, 0.0],
        }
    }

    /// What it draws in `conductor`; `None` if nothing, unless it runs only together with others.
    pub fn draw(
        &self,
        conductor: Conductor,
        amount: Amount,
        class: AllowanceClass,
    ) -> Option<Draw> {
        let flow = self.flow.filter(|f| f.from == conductor || f.to == conductor);
        let along = match flow {
            Some(flow) => flow.in_conductor(conductor),
            None if self.together == Together::Alone => return None,
            None => Complex::new(0.0, 0.0),
        };
        let (low, high, together) = (amount.low, amount.high, self.together);
        Some(Draw { along, low, high, class, adds: self.adds(), together })
    }
}

/// Where a plug goes: one of its headers, and one of the groups there.
#[derive(Clone, Copy, Debug)]
pub struct Seat<'a> {
    /// The header.
    pub place: &'a HeaderOption,
    /// The group.
    pub option: &'a GroupOption,
}

/// What a choice must keep to.
#[derive(Clone, Copy, Debug)]
pub struct SearchLimits {
    /// The heater allowance; `None` if the board sets no limit.
    pub allowance: Option<Allowance>,
    /// Whether the allowance must let the heater run.
    pub heats: bool,
    /// The most that may count on a line.
    pub counted: Option<Amps>,
    /// The most that a line may really carry.
    pub line: Option<Amps>,
    /// The most that a neutral may really carry.
    pub neutral: Option<Amps>,
    /// Whether each jumper needs a tab of its own.
    pub tabs: bool,
    /// Whether headers and fuses must carry what they get.
    pub ratings: bool,
}

/// What the search found.
#[derive(Clone, Debug)]
pub struct Solution<'a> {
    /// Where each plug goes, in the order of the plugs.
    pub seats: Vec<Seat<'a>>,
    /// The group of each jumper of the board.
    pub jumpers: HandleMap<JumperId, GroupId>,
    /// Whether no other choice is better. False only where the search gave up.
    pub optimal: bool,
}

/// A choice of places and groups for a job.
#[derive(Clone, Debug)]
pub struct Fit {
    /// What is plugged in where, in the order of the headers.
    pub plugged: Vec<Plugged>,
    /// The group of each jumper of the board.
    pub jumpers: HandleMap<JumperId, GroupId>,
    /// The heater allowance; `None` if the board sets no limit.
    pub allowance: Option<Allowance>,
    /// Whether the breaker and the board carry it.
    pub carried: bool,
    /// Whether every jumper has a tab of its own.
    pub tabs: bool,
    /// Whether every header and fuse carries what it gets.
    pub ratings: bool,
    /// Whether no other choice is better; false only for boards beyond all measure.
    pub optimal: bool,
}

/// A device at its header, on its group.
#[derive(Clone, Debug)]
pub struct Plugged {
    /// Which of the job's equipment; `None` for the heater.
    pub fitted: Option<usize>,
    /// The header, and what it drives there.
    pub slot: Slot,
    /// How it counts for the heater allowance.
    pub class: AllowanceClass,
    /// Its group and what it draws there.
    pub choice: GroupOption,
}

/// What the heater adds up to with what moves its water, which are the least that runs when it heats:
/// the circulation pump, or else the first jet pump on its lowest speed, and what runs with that.
/// `None` without a heater. `all` are devices, with what each adds up to on low and on high.
pub fn heater_needs(
    board: &Board,
    all: impl Iterator<Item = (Device, AllowanceClass, [f64; 2])> + Clone,
) -> Option<f64> {
    let (_, _, [_, heater]) = all.clone().find(|(device, ..)| *device == Device::Heater)?;
    let water = all.clone().filter(|(device, ..)| device.moves_water()).min_by_key(|it| it.0);
    let with = water.map_or(0.0, |(device, ..)| {
        let with = all.filter(|(other, ..)| board.runs_with(*other, device));
        with.map(|(_, _, [_, high])| high).sum()
    });
    let water =
        water.map_or(
            0.0,
            |(_, class, [low, high])| {
                if class == AllowanceClass::Limited && low > 0.0 { low } else { high }
            },
        );
    Some(heater + water + with)
}

impl Fit {
    /// What the heater adds up to with what moves its water; see [`heater_needs`].
    pub fn heater_needs(&self, board: &Board) -> Option<Amps> {
        let all = self.plugged.iter();
        heater_needs(board, all.map(|it| (it.slot.device, it.class, it.choice.adds()))).map(Amps)
    }
}

/// Amps as whole microamps: what differs by less is the same.
pub fn micro(amps: f64) -> u64 {
    (amps * 1e6).round() as u64
}
