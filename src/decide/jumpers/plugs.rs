//! What can be plugged in where, on which groups, and what it then draws.

use super::super::currents::{AllowanceClass, Draw, Flow};
use super::super::heater::{amps_on, sizing_amps};
use super::super::layout::{Slot, slots};
use super::super::rules::{Rules, carries};
use super::super::voltages::{GroupVoltage, group_voltage};
use crate::board::{
    Board, Conductor, Device, Feed, Fitted, GroupId, GroupSource, Heater, Job, Layout, Role,
};
use crate::units::{Amps, Volts};

/// How far a voltage may lie from the plate's: NEMA MG 1, 12.44, for motors; taken over for
/// everything else that is plugged in.
pub const BAND: f64 = 0.10;

/// Whether a device whose plate says `plate` may be fed with `volts`. What is equal but for the
/// last digits of its arithmetic is inside.
pub fn suits(volts: Volts, plate: Volts) -> bool {
    (volts.0 - plate.0).abs() <= plate.0 * BAND * (1.0 + 1e-9)
}

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
    /// Which of the layout's slots.
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
    /// What it draws in `conductor`; `None` if nothing.
    pub fn draw(
        &self,
        conductor: Conductor,
        amount: Amount,
        class: AllowanceClass,
    ) -> Option<Draw> {
        let flow = self.flow.filter(|f| f.from == conductor || f.to == conductor)?;
        let along = flow.in_conductor(conductor);
        Some(Draw { along, low: amount.low, high: amount.high, class })
    }
}

/// Whether a device's current on high can flow for three hours or more. On low every device's can.
pub fn is_continuous(device: Device) -> bool {
    matches!(device, Device::Heater | Device::Circulation | Device::Ozonator)
}

/// What can be plugged in where under `layout`, the heater first.
pub fn plugs(
    board: &Board,
    job: &Job,
    layout: &Layout,
    rules: Rules,
    element: Option<Heater>,
) -> (Vec<Slot>, Vec<Plug>) {
    let slots = slots(board, layout);
    let mut plugs = Vec::new();
    for (index, slot) in slots.iter().enumerate() {
        if let (Device::Heater, Some(element)) = (slot.device, element) {
            let options = heater_options(board, job, *slot, element, rules);
            let places = vec![HeaderOption { slot: index, options }];
            plugs.push(Plug { fitted: None, class: AllowanceClass::Heater, places });
        }
    }
    for (index, fitted) in job.equipment.iter().enumerate() {
        let places = slots
            .iter()
            .enumerate()
            .filter(|(_, slot)| fitted.role.can_be(slot.device) && fitted.speeds == slot.speeds)
            .filter(|(_, slot)| slot.needed || may_be_extra(job, &slots, fitted))
            .map(|(index, slot)| HeaderOption {
                slot: index,
                options: device_options(board, job, *slot, fitted, rules),
            })
            .collect();
        let class = match fitted.role {
            Role::AnyPump => AllowanceClass::Limited,
            Role::Named(device) if device.counts_for_allowance() => AllowanceClass::Limited,
            Role::Named(_) => AllowanceClass::Free,
        };
        plugs.push(Plug { fitted: Some(index), class, places });
    }
    (slots, plugs)
}

/// Whether a device may take a header that the layout does not need. A jet pump without a number may
/// only where more of them are fitted than the layout asks for: else a header that it needs would
/// stay empty.
fn may_be_extra(job: &Job, slots: &[Slot], fitted: &Fitted) -> bool {
    if fitted.role != Role::AnyPump {
        return true;
    }
    let named = |device: Device| job.equipment.iter().any(|it| it.role == Role::Named(device));
    let alike = |it: &&Fitted| it.role == Role::AnyPump && it.speeds == fitted.speeds;
    let asked = slots.iter().filter(|slot| {
        let pump = matches!(slot.device, Device::Pump(_)) && !named(slot.device);
        slot.needed && pump && slot.speeds == fitted.speeds
    });
    job.equipment.iter().filter(alike).count() > asked.count()
}

/// The groups that a header can be fed from, the shipped one first.
pub fn groups(board: &Board, slot: Slot) -> Vec<GroupId> {
    let mut groups = board.groups_of(slot.header);
    if let Feed::Jumper(jumper) = board[slot.header].feed {
        let shipped = board[jumper].shipped;
        groups.sort_by_key(|group| *group != shipped);
    }
    groups
}

/// The groups on which the element gives its heat: those within the band of its plate; if there is
/// none, those with the highest voltage below it. Never one above.
fn heater_options(
    board: &Board,
    job: &Job,
    slot: Slot,
    element: Heater,
    rules: Rules,
) -> Vec<GroupOption> {
    let all: Vec<(GroupId, GroupVoltage, Volts)> = groups(board, slot)
        .into_iter()
        .filter_map(|group| {
            let voltage = group_voltage(board, job.supply.value, group);
            let volts = voltage.volts()?;
            Some((group, voltage, volts))
        })
        .collect();
    let best = all
        .iter()
        .map(|(_, _, volts)| volts.0)
        .filter(|volts| *volts < element.at.0)
        .fold(0.0, f64::max);
    let inside = all.iter().any(|(_, _, volts)| suits(*volts, element.at));
    all.into_iter()
        .filter(|(_, _, volts)| {
            if inside {
                suits(*volts, element.at)
            } else {
                volts.0 < element.at.0 && volts.0 > best - 0.5
            }
        })
        .map(|(group, voltage, volts)| {
            let amount = |amps: Amps| Amount { low: 0.0, high: amps.0 };
            let sizing = sizing_amps(element, volts).amps;
            GroupOption {
                group,
                flow: flow(board, job, group, &voltage, None),
                real: amount(amps_on(element, volts)),
                counted: amount(Amps(sizing.0 * rules.continuous_factor())),
            }
        })
        .collect()
}

fn device_options(
    board: &Board,
    job: &Job,
    slot: Slot,
    fitted: &Fitted,
    rules: Rules,
) -> Vec<GroupOption> {
    let factor = rules.continuous_factor();
    let on_high = if is_continuous(slot.device) { factor } else { 1.0 };
    let (low, high) = (fitted.low.map_or(0.0, |low| low.amps.0), fitted.high.amps.0);
    groups(board, slot)
        .into_iter()
        .filter_map(|group| {
            let voltage = group_voltage(board, job.supply.value, group);
            let volts = voltage.volts()?;
            suits(volts, fitted.volts.value).then(|| GroupOption {
                group,
                flow: flow(board, job, group, &voltage, fitted.power_factor),
                real: Amount { low, high },
                counted: Amount { low: low * factor, high: high * on_high },
            })
        })
        .collect()
}

fn flow(
    board: &Board,
    job: &Job,
    group: GroupId,
    voltage: &GroupVoltage,
    power_factor: Option<f64>,
) -> Option<Flow> {
    let (GroupVoltage::Between { conductors, .. }, GroupSource::Between { nodes, .. }) =
        (voltage, board[group].source)
    else {
        return None;
    };
    Flow::new(*conductors, board[job.supply.value].between(nodes)?, power_factor)
}

/// Whether `amps` on high are within what `slot`'s header and the fuse in front of it carry.
pub fn carried_by(board: &Board, slot: Slot, amps: f64) -> bool {
    let header = &board[slot.header];
    let within = |limit: Option<Amps>| limit.is_none_or(|limit| carries(limit, Amps(amps)));
    within(header.max) && within(header.fuse.map(|fuse| board[fuse].rating))
}
