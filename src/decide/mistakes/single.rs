//! Every single mistake that can be made, whether it changes anything or not.

use super::cords::wrong_fits;
use super::{Mistake, Right};
use crate::board::{BankId, GroupId, HeaderId, JumperId, LinkId, SupplyId, TerminalId};

/// Every single mistake that can be made with the job's things at hand: a plug goes only into a
/// header of its own socket family, a jumper only onto a group that has a tab left.
pub fn single_mistakes(right: &Right<'_>) -> Vec<Mistake> {
    let mut all = Vec::new();
    layouts(right, &mut all);
    jumpers(right, &mut all);
    plugs(right, &mut all);
    switches(right, &mut all);
    supply(right, &mut all);
    cords(right, &mut all);
    all
}

fn layouts(right: &Right<'_>, all: &mut Vec<Mistake>) {
    let numbers = right.board.layouts.iter().map(|layout| layout.number);
    all.extend(numbers.filter(|n| *n != right.layout.number).map(Mistake::Layout));
}

fn jumpers(right: &Right<'_>, all: &mut Vec<Mistake>) {
    let plans = &right.wiring.jumpers;
    for plan in plans {
        for on in &right.board[plan.jumper].groups {
            let taken = plans.iter().filter(|other| other.group == *on).count();
            if *on != plan.group && taken < usize::from(right.board[*on].tabs) {
                all.push(Mistake::Jumper { jumper: plan.jumper, on: *on });
            }
        }
    }
    for (index, a) in plans.iter().enumerate() {
        for b in plans.iter().skip(index + 1) {
            let reaches =
                |jumper: JumperId, group: GroupId| right.board[jumper].groups.contains(&group);
            let can = reaches(a.jumper, b.group) && reaches(b.jumper, a.group);
            if a.group != b.group && can {
                all.push(Mistake::JumpersSwapped([a.jumper, b.jumper]));
            }
        }
    }
}

fn plugs(right: &Right<'_>, all: &mut Vec<Mistake>) {
    let board = right.board;
    let family = |header: HeaderId| board[header].socket;
    let devices = &right.wiring.devices;
    for (index, device) in devices.iter().enumerate() {
        for (into, _) in &right.wiring.empty {
            if family(*into) == family(device.header) {
                all.push(Mistake::Plug { device: index, into: *into });
            }
        }
        for (other, with) in devices.iter().enumerate().skip(index + 1) {
            if family(with.header) == family(device.header) {
                all.push(Mistake::PlugsSwapped([index, other]));
            }
        }
    }
}

fn switches(right: &Right<'_>, all: &mut Vec<Mistake>) {
    for setting in &right.wiring.switches {
        let bank = setting.bank;
        for field in right.board[bank].fields.iter().filter(|field| !field.unused()) {
            all.extend((field.first..=field.last).map(|way| Mistake::Way { bank, way }));
        }
        if setting.moved.len() > 1 {
            all.push(Mistake::BankAsShipped(BankId(bank.0)));
        }
    }
}

fn supply(right: &Right<'_>, all: &mut Vec<Mistake>) {
    let board = right.board;
    let ours = right.job.supply.value;
    let others = (0..board.supplies.len()).map(SupplyId).filter(|supply| *supply != ours);
    all.extend(others.map(Mistake::Supply));
    let lands = board[ours].lands.iter().enumerate();
    let landed: Vec<TerminalId> =
        lands.filter(|(_, c)| c.is_some()).map(|(at, _)| TerminalId(at)).collect();
    all.extend(landed.iter().copied().map(Mistake::Missing));
    for (index, a) in landed.iter().enumerate() {
        all.extend(landed.iter().skip(index + 1).map(|b| Mistake::Swapped([*a, *b])));
    }
    for (index, right_one) in board[ours].links.iter().enumerate() {
        let link = LinkId(index);
        let on = board[link].positions.iter().copied().filter(|on| on != right_one);
        all.extend(on.map(|on| Mistake::Link { link, on }));
    }
}

fn cords(right: &Right<'_>, all: &mut Vec<Mistake>) {
    for (index, device) in right.wiring.devices.iter().enumerate() {
        let socket = &right.board[right.board[device.header].socket];
        let fits = wrong_fits(socket, device.speeds).into_iter();
        all.extend(fits.map(|fit| Mistake::Cord { device: index, fit }));
    }
}
