//! Phrases that several problems share.

use crate::board::{Board, Conductor, Device, GroupId, Role};
use crate::decide::GroupVoltage;
use crate::decide::currents::Running;
use crate::decide::voltages::NoVoltage;
use crate::english::and;
use crate::units::Volts;

/// A device whose number may not be decided yet, as it stands in a sentence.
pub fn the_role(role: Role) -> String {
    match role {
        Role::AnyPump => "this pump".to_owned(),
        Role::Named(device) => device.the(),
    }
}

/// What runs, as it stands after *with*: `the heater, pump 1 on low`.
pub fn running(all: &[(Device, Running)]) -> String {
    let words: Vec<String> = all
        .iter()
        .map(|(device, running)| match running {
            Running::Low => format!("{} on low", device.the()),
            Running::High if device.counts_for_allowance() => format!("{} on high", device.the()),
            _ => device.the(),
        })
        .collect();
    and(&words)
}

/// `1 tab`, `3 tabs`.
pub fn count(number: usize, one: &str) -> String {
    if number == 1 { format!("1 {one}") } else { format!("{number} {one}s") }
}

/// `group A`, `groups A, B and C`.
pub fn group_list(board: &Board, groups: impl IntoIterator<Item = GroupId>) -> String {
    let codes: Vec<String> = groups.into_iter().map(|group| board[group].code.clone()).collect();
    let one = if codes.len() == 1 { "group" } else { "groups" };
    format!("{one} {}", and(&codes))
}

/// What a group gives, or why it gives nothing, as a sentence.
pub fn what_it_gives(board: &Board, group: GroupId, voltage: &GroupVoltage) -> String {
    let code = &board[group].code;
    match voltage {
        GroupVoltage::Between { volts, .. } | GroupVoltage::Isolated { volts } => {
            format!("group {code} gives {}", tenths(*volts))
        }
        GroupVoltage::NotAvailable { because: NoVoltage::SamePotential { .. } } => {
            format!("group {code} gives nothing: both of its ends are on one conductor")
        }
        GroupVoltage::NotAvailable { because: NoVoltage::Missing(missing) } => {
            let words: Vec<String> = missing
                .iter()
                .map(|one| {
                    let terminal = &board[one.terminal].code;
                    if one.elsewhere == [Conductor::N] {
                        format!("nothing lands on {terminal}, as the supply has no neutral")
                    } else {
                        format!("nothing lands on {terminal}")
                    }
                })
                .collect();
            format!("group {code} gives nothing: {}", words.join(", and "))
        }
    }
}

/// Rounded to a tenth of a volt.
pub fn tenths(volts: Volts) -> Volts {
    Volts((volts.0 * 10.0).round() / 10.0)
}
