//! Every single mistake that can be made, whether it changes anything or not.

use super::super::plan::DevicePlan;
use super::cords::{CordFit, wrong_fits};
use super::{Mistake, PlannedCase};
use crate::board::{Conductor, GroupId, HeaderId, JumperId, LayoutEntry, SupplyId, TerminalId};

/// Every single mistake that can be made with the job's things at hand: a plug goes only into a
/// header of its own socket family, a jumper only onto a group that has a tab left.
pub fn single_mistakes(planned: &PlannedCase<'_>) -> Vec<Mistake> {
    let mut all = Vec::new();
    layouts(planned, &mut all);
    jumpers(planned, &mut all);
    plugs(planned, &mut all);
    switches(planned, &mut all);
    supply(planned, &mut all);
    cords(planned, &mut all);
    all
}

fn layouts(planned: &PlannedCase<'_>, all: &mut Vec<Mistake>) {
    match planned.board.layout_entry() {
        LayoutEntry::Panel => {
            let numbers = planned.board.layouts.iter().map(|layout| layout.number);
            all.extend(numbers.filter(|n| *n != planned.layout.number).map(Mistake::Layout));
        }
        LayoutEntry::Selector(selector) => {
            let right = planned.wiring.selector.map(|setting| setting.position);
            let positions = 0..planned.board[selector].positions.len();
            let wrong = positions.filter(|position| Some(*position) != right);
            all.extend(wrong.map(|position| Mistake::Selector { selector, position }));
        }
        // Each way by itself, with all others: see `switches`.
        LayoutEntry::Ways { .. } => {}
    }
}

fn jumpers(planned: &PlannedCase<'_>, all: &mut Vec<Mistake>) {
    let plans = &planned.wiring.jumpers;
    for plan in plans {
        for on in &planned.board[plan.jumper].groups {
            let taken = plans.iter().filter(|other| other.group == *on).count();
            if *on != plan.group && taken < usize::from(planned.board[*on].tabs) {
                all.push(Mistake::Jumper { jumper: plan.jumper, on: *on });
            }
        }
    }
    for (index, a) in plans.iter().enumerate() {
        for b in plans.iter().skip(index + 1) {
            let reaches =
                |jumper: JumperId, group: GroupId| planned.board[jumper].groups.contains(&group);
            let can = reaches(a.jumper, b.group) && reaches(b.jumper, a.group);
            if a.group != b.group && can {
                all.push(Mistake::JumpersSwapped([a.jumper, b.jumper]));
            }
        }
    }
}

fn plugs(planned: &PlannedCase<'_>, all: &mut Vec<Mistake>) {
    let board = planned.board;
    let family = |header: HeaderId| board[header].socket;
    let devices = &planned.wiring.devices;
    for (id, device) in devices.entries() {
        for (into, _) in &planned.wiring.empty {
            if family(*into) == family(device.header) {
                all.push(Mistake::Plug { device: id, into: *into });
            }
        }
        for (other, with) in devices.entries().skip(id.0 + 1) {
            if family(with.header) == family(device.header) {
                all.push(Mistake::PlugsSwapped([id, other]));
            }
        }
    }
}

fn switches(planned: &PlannedCase<'_>, all: &mut Vec<Mistake>) {
    for setting in &planned.wiring.switches {
        let bank = setting.bank;
        for field in planned.board[bank].fields.iter().filter(|field| !field.unused()) {
            all.extend((field.first..=field.last).map(|way| Mistake::Way { bank, way }));
        }
        if setting.moved.len() > 1 {
            all.push(Mistake::BankAsShipped(bank));
        }
    }
}

fn supply(planned: &PlannedCase<'_>, all: &mut Vec<Mistake>) {
    let board = planned.board;
    let ours = planned.job.supply.value;
    let others = board.handles().filter(|supply: &SupplyId| *supply != ours);
    all.extend(others.map(Mistake::Supply));
    let lines: Vec<Conductor> = {
        let lands = board[ours].lands.iter().flatten().copied();
        let mut lines: Vec<Conductor> = lands.filter(|it| it.is_line()).collect();
        lines.sort();
        lines.dedup();
        lines
    };
    // Which of the two has the other's potential makes no difference but for the order of phases.
    for (index, line) in lines.iter().enumerate() {
        all.extend(lines.iter().skip(index + 1).map(|taken| Mistake::SameLine([*line, *taken])));
    }
    let lands = |wanted| board[ours].lands.contains(&Some(wanted));
    if lands(Conductor::N) {
        all.push(Mistake::NeutralPast);
        if lands(Conductor::Pe) {
            all.push(Mistake::NeutralGrounded);
        }
    }
    let lands = board[ours].lands.entries();
    let landed: Vec<TerminalId> =
        lands.filter(|(_, conductor)| conductor.is_some()).map(|(terminal, _)| terminal).collect();
    all.extend(landed.iter().copied().map(Mistake::Missing));
    for (index, a) in landed.iter().enumerate() {
        all.extend(landed.iter().skip(index + 1).map(|b| Mistake::Swapped([*a, *b])));
    }
    for (link, right) in board[ours].links.entries() {
        let on = board[link].positions.iter().copied().filter(|on| on != right);
        all.extend(on.map(|on| Mistake::Link { link, on }));
    }
}

fn cords(planned: &PlannedCase<'_>, all: &mut Vec<Mistake>) {
    for (id, device) in planned.wiring.devices.entries() {
        let socket = &planned.board[planned.board[device.header].socket];
        let fits = wrong_fits(socket, device.speeds).into_iter();
        all.extend(fits.map(|fit| Mistake::Cord { device: id, fit }));
        // Of a device with two plugs one is soon taken for all.
        let other = |it: &DevicePlan| {
            let (ours, theirs) = (device.device, it.device);
            planned.board.cord_of(ours) == Some(theirs)
                || planned.board.cord_of(theirs) == Some(ours)
        };
        if planned.wiring.devices.iter().any(other) {
            all.push(Mistake::Cord { device: id, fit: CordFit::Out });
        }
    }
}
