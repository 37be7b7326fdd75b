//! What makes the heater wait on a board that lets it wait for a current.

use super::budget::keeps;
use super::plan::Wiring;
use super::voltages::GroupVoltage;
use crate::board::{Allowance, Board, Device, Speeds};
use crate::units::Amps;

/// What makes a heater wait.
#[derive(Clone, Debug, PartialEq)]
pub struct Waits {
    /// What all that runs may add up to while the heater is on.
    pub limit: Amps,
    /// What remains beside the heater and the pump that moves its water, which always runs for it.
    pub remains: Amps,
    /// The smallest sets of devices that may not run together beside these: each on high, or on.
    /// Empty if nothing makes it wait.
    pub sets: Vec<Vec<Device>>,
}

/// What makes the heater of a plan wait; `None` if its allowance is no current.
pub fn waits(board: &Board, wiring: &Wiring) -> Option<Waits> {
    let Allowance::Amps(limit) = wiring.heater?.allowance? else { return None };
    let fed = wiring
        .devices
        .iter()
        .filter(|device| !matches!(device.voltage, GroupVoltage::Isolated { .. }));
    let water = fed.clone().map(|it| it.device).filter(|device| device.moves_water()).min();
    let mut base = 0.0;
    // Each device with what it adds beside what always runs.
    let mut others: Vec<(Device, f64)> = Vec::new();
    for device in fed {
        let high = device.amps.0;
        let leads = |other: Device| board.runs_with(device.device, other);
        let leader = wiring.devices.iter().map(|it| it.device).filter(|it| leads(*it)).min();
        if device.device == Device::Heater {
            base += high;
        } else if water.is_some_and(|water| device.device != water && leads(water)) {
            // It runs whenever the water moves.
            base += high;
        } else if leader.is_some_and(|leader| leader < device.device) {
            // It is counted beside the one that it runs with.
        } else if Some(device.device) == water {
            let low = device.low.filter(|_| device.speeds == Speeds::Two);
            let always = low.map_or(high, |low| low.0);
            base += always;
            if high > always {
                others.push((device.device, high - always));
            }
        } else {
            let with = wiring.devices.iter().filter(|it| leads(it.device));
            let with = with.filter(|it| !matches!(it.voltage, GroupVoltage::Isolated { .. }));
            others.push((device.device, with.fold(high, |sum, it| sum + it.amps.0)));
        }
    }
    others.sort_by_key(|(device, _)| *device);
    let remains = Amps((limit.0 - base).max(0.0));
    Some(Waits { limit, remains, sets: smallest(&others, limit.0 - base) })
}

/// The smallest sets that add up to more than `left`, the ones with the fewest devices first.
fn smallest(others: &[(Device, f64)], left: f64) -> Vec<Vec<Device>> {
    let count = others.len().min(16) as u32;
    let mut found: Vec<u32> = Vec::new();
    let mut sets: Vec<u32> = (1..1_u32 << count).collect();
    sets.sort_by_key(|set| (set.count_ones(), set.reverse_bits()));
    for set in sets {
        let within = |(at, _): &(usize, &(Device, f64))| set >> at & 1 == 1;
        let all = others.iter().enumerate().filter(within);
        let added: f64 = all.map(|(_, (_, amps))| amps).sum();
        let has_smaller = found.iter().any(|known| known & set == *known);
        if !has_smaller && !keeps(left, added) {
            found.push(set);
        }
    }
    found.sort_by_key(|set| (set.count_ones(), std::cmp::Reverse(set.reverse_bits())));
    let devices = |set: u32| {
        let within = move |(at, _): &(usize, &(Device, f64))| set >> at & 1 == 1;
        others.iter().enumerate().filter(within).map(|(_, (device, _))| *device).collect()
    };
    found.into_iter().map(devices).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: 20 A are left for 9, 8, 6 and 3 A. Of two no pair is above; 9 + 8 + 6 = 23 A and
    /// 9 + 8 + 3 = 20 A exactly are kept to, so is 9 + 6 + 3 = 18 A: only the three largest wait.
    #[test]
    fn the_smallest_sets_are_found() {
        let pump = Device::Pump;
        let all = [(pump(1), 9.0), (pump(2), 8.0), (pump(3), 6.0), (Device::Blower, 3.0)];
        assert_eq!(smallest(&all, 20.0), [vec![pump(1), pump(2), pump(3)]]);
        assert_eq!(
            smallest(&all, 14.0),
            [
                vec![pump(1), pump(2)],
                vec![pump(1), pump(3)],
                vec![pump(2), pump(3), Device::Blower]
            ]
        );
        assert!(smallest(&all, 26.0).is_empty());
        assert_eq!(smallest(&all, 2.0).len(), 4);
    }
}
