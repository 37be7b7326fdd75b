//! What can be plugged in where, on which groups, and what it then draws.

use super::super::currents::{AllowanceClass, Flow, Together};
use super::super::heater::{amps_on, sizing_amps};
use super::super::layout::{Slot, slots};
use super::super::rules::{Rules, carries};
use super::super::voltages::{GroupVoltage, SupplyVoltages};
use super::types::{Amount, GroupOption, HeaderOption, Plug};
use crate::board::{Board, Device, Feed, Fitted, GroupId, HeaderId, Heater, Job, Layout, Role};
use crate::units::{Amps, Volts};

/// How far a voltage may lie from the plate's: NEMA MG 1, 12.44, for motors; taken over for
/// everything else that is plugged in.
pub const BAND: f64 = 0.10;

/// Whether a device whose plate says `plate` may be fed with `volts`. What is equal but for the
/// last digits of its arithmetic is inside.
pub fn suits(volts: Volts, plate: Volts) -> bool {
    (volts.0 - plate.0).abs() <= plate.0 * BAND * (1.0 + 1e-9)
}

/// What can be plugged in where under `layout`, the heater first.
pub fn plugs(
    board: &Board,
    job: &Job,
    layout: &Layout,
    voltages: &SupplyVoltages,
    rules: Rules,
    element: Option<Heater>,
) -> (Vec<Slot>, Vec<Plug>) {
    let slots = slots(board, layout);
    let mut plugs = Vec::new();
    for (index, slot) in slots.iter().enumerate() {
        if let (Device::Heater, Some(element)) = (slot.device, element) {
            let options = heater_options(board, voltages, *slot, element, rules);
            let places = vec![HeaderOption { header: slot.header, slot: index, options }];
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
                header: slot.header,
                slot: index,
                options: device_options(board, voltages, *slot, fitted, rules),
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
fn groups(board: &Board, slot: Slot) -> Vec<GroupId> {
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
    voltages: &SupplyVoltages,
    slot: Slot,
    element: Heater,
    rules: Rules,
) -> Vec<GroupOption> {
    let all = fed_groups(board, voltages, slot);
    let best = all
        .iter()
        .map(|(_, volts)| volts.0)
        .filter(|volts| *volts < element.at.0)
        .fold(0.0, f64::max);
    let inside = all.iter().any(|(_, volts)| suits(*volts, element.at));
    all.into_iter()
        .filter(|(_, volts)| {
            if inside {
                suits(*volts, element.at)
            } else {
                volts.0 < element.at.0 && volts.0 > best - 0.5
            }
        })
        .map(|(group, volts)| {
            let amount = |amps: Amps| Amount { low: 0.0, high: amps.0 };
            let sizing = sizing_amps(element, volts).amps;
            GroupOption {
                group,
                flow: flow(voltages, group, None),
                real: amount(amps_on(element, volts)),
                counted: amount(Amps(sizing.0 * rules.continuous_factor())),
                together: Together::Alone,
            }
        })
        .collect()
}

fn device_options(
    board: &Board,
    voltages: &SupplyVoltages,
    slot: Slot,
    fitted: &Fitted,
    rules: Rules,
) -> Vec<GroupOption> {
    let factor = rules.continuous_factor();
    let on_high = if slot.device.is_continuous() { factor } else { 1.0 };
    let (low, high) = (fitted.low.map_or(0.0, |low| low.amps.0), fitted.high.amps.0);
    let together = board.together(slot.device).map_or(Together::Alone, Together::With);
    fed_groups(board, voltages, slot)
        .into_iter()
        .filter(|(_, volts)| suits(*volts, fitted.volts.value))
        .map(|(group, _)| GroupOption {
            group,
            flow: flow(voltages, group, fitted.power_factor),
            real: Amount { low, high },
            counted: Amount { low: low * factor, high: high * on_high },
            together,
        })
        .collect()
}

/// The groups of a header that give something, the shipped one first.
fn fed_groups(board: &Board, voltages: &SupplyVoltages, slot: Slot) -> Vec<(GroupId, Volts)> {
    let fed = |group| Some((group, voltages.volts(group)?));
    groups(board, slot).into_iter().filter_map(fed).collect()
}

fn flow(voltages: &SupplyVoltages, group: GroupId, power_factor: Option<f64>) -> Option<Flow> {
    let GroupVoltage::Between { conductors, .. } = voltages[group] else { return None };
    Flow::new(conductors, voltages.phasor(group)?, power_factor)
}

/// Whether `amps` on high are within what `slot`'s header and the fuse in front of it carry.
pub fn carried_by(board: &Board, slot: Slot, amps: f64) -> bool {
    header_carries(board, slot.header, amps)
}

/// Whether `amps` on high are within what a header and the fuse in front of it carry.
pub fn header_carries(board: &Board, header: HeaderId, amps: f64) -> bool {
    let header = &board[header];
    let within = |limit: Option<Amps>| limit.is_none_or(|limit| carries(limit, Amps(amps)));
    within(header.max) && within(header.fuse.map(|fuse| board[fuse].rating))
}
