//! The fault finder: the table of mistakes turned round, from what is noticed to what to check.

use std::collections::BTreeMap;

use super::jumpers::suits;
use super::mistakes::{
    Consequence, CordFit, Danger, Mistake, PlannedCase, Sign, Simulation, noticed, worst,
};
use super::plan::{DeviceId, Plan, plan};
use crate::board::{
    BankId, Board, Cord, Current, CurrentSource, Device, Feed, Fitted, GroupId, HeaderId, Heater,
    Job, JumperId, Layout, LayoutNumber, LinkId, Role, Speeds, SupplyId,
};
use crate::source::Spanned;
use crate::units::{Amps, Volts, Watts};

/// What is to be checked.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum CheckTarget {
    /// The layout number that is entered.
    Layout,
    /// The group that a jumper is on.
    Jumper(JumperId),
    /// The header that a device is plugged into.
    Plug(Device),
    /// How the wires of a device meet their pins.
    Cord(Device),
    /// The ways of a bank.
    Bank(BankId),
    /// The terminal that a link is on.
    Link(LinkId),
    /// What lands on the terminals.
    Landing,
    /// Where the neutral goes before it reaches the board: through the ground-fault protection.
    NeutralPath,
    /// Whether the neutral touches the ground behind the protection.
    NeutralGround,
    /// What the house gives. It is measured on live parts: for a competent person only.
    House,
}

/// One thing to check, and what may be found there.
#[derive(Clone, Debug, PartialEq)]
pub struct Check<M> {
    /// What to check.
    pub target: CheckTarget,
    /// The mistakes that give the sign, the likeliest first.
    pub mistakes: Vec<M>,
}

/// What is noticed, and what to check for it.
#[derive(Clone, Debug, PartialEq)]
pub struct Fault<M> {
    /// What is noticed.
    pub sign: Sign,
    /// What to check, the likeliest first and of these the most dangerous.
    pub checks: Vec<Check<M>>,
}

/// The fault finder of a job: every mistake under exactly the signs that it gives. What is dangerous
/// and not noticed comes first.
pub fn fault_finder(planned: &PlannedCase<'_>, all: &[Consequence]) -> Vec<Fault<Mistake>> {
    let seen = all.iter().flat_map(|found| {
        found.signs.iter().map(move |seen| Seen {
            sign: seen.sign,
            target: check_target(planned, seen.sign, found.mistake),
            mistake: found.mistake,
            rank: (found.mistake.rarity(planned), std::cmp::Reverse(found.danger())),
        })
    });
    turned_round(seen)
}

/// A mistake on a board, under a layout that is right.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Instance {
    /// The right layout.
    pub layout: LayoutNumber,
    /// The mistake. Devices are counted in the plan of that layout, so see [`Check::target`] for them.
    pub mistake: Mistake,
    /// The device that the mistake is about, if it is about one.
    pub device: Option<Device>,
}

/// The fault finder of a board: that of jobs which together use every header in every way, with
/// plates for every voltage that it can have. What depends on the currents of real plates (breaker,
/// fuses, ratings) is left out.
pub fn board_faults(board: &Board) -> Vec<Fault<Instance>> {
    let mut seen = Vec::new();
    let jobs = sample_jobs(board);
    let mut simulation = None;
    for (job, plan) in &jobs {
        let Some(decided) = plan.sound() else { continue };
        let planned = PlannedCase::new(board, job, decided);
        let simulation = simulation.get_or_insert_with(|| Simulation::new(&planned));
        for (mistake, signs) in noticed(simulation, &planned) {
            let rank = (mistake.rarity(&planned), std::cmp::Reverse(worst(&signs)));
            for sign in signs.iter().map(|seen| seen.sign).filter(|s| !of_currents(*s)) {
                let target = check_target(&planned, sign, mistake);
                let device = match target {
                    CheckTarget::Plug(device) | CheckTarget::Cord(device) => Some(device),
                    _ => None,
                };
                let layout = decided.0.number;
                seen.push(Seen {
                    sign,
                    target,
                    mistake: Instance { layout, mistake, device },
                    rank,
                });
            }
        }
    }
    turned_round(seen)
}

/// Whether a job on the board can be planned whose plates suit it: there is a fault finder of the board.
pub fn can_be_sampled(board: &Board) -> bool {
    !some_sample_jobs(board, 1).is_empty()
}

fn of_currents(sign: Sign) -> bool {
    matches!(
        sign,
        Sign::Overload(_)
            | Sign::BreakerTrips
            | Sign::BreakerMayTrip
            | Sign::FuseBlows(_)
            | Sign::FuseMayBlow(_)
            | Sign::HeaderHot(..)
    )
}

/// A mistake under one of its signs.
struct Seen<M> {
    sign: Sign,
    target: CheckTarget,
    mistake: M,
    rank: (u8, std::cmp::Reverse<Danger>),
}

/// What is gathered under one thing to check.
type Gathered<M> = Vec<((u8, std::cmp::Reverse<Danger>), M)>;

fn turned_round<M: Clone>(all: impl IntoIterator<Item = Seen<M>>) -> Vec<Fault<M>> {
    let mut signs: BTreeMap<Sign, BTreeMap<CheckTarget, Gathered<M>>> = BTreeMap::new();
    for Seen { sign, target, mistake, rank } in all {
        signs.entry(sign).or_default().entry(target).or_default().push((rank, mistake));
    }
    let mut faults: Vec<Fault<M>> = signs
        .into_iter()
        .map(|(sign, things)| {
            let mut checks: Vec<(CheckTarget, Gathered<M>)> = things.into_iter().collect();
            for (_, gathered) in &mut checks {
                gathered.sort_by_key(|(rank, _)| *rank);
            }
            checks.sort_by_key(|(_, gathered)| gathered.first().map(|(rank, _)| *rank));
            let check = |(target, gathered): (CheckTarget, Gathered<M>)| Check {
                target,
                mistakes: gathered.into_iter().map(|(_, mistake)| mistake).collect(),
            };
            Fault { sign, checks: checks.into_iter().map(check).collect() }
        })
        .collect();
    faults.sort_by_key(|fault| {
        let hidden = !fault.sign.is_noticed() && fault.sign.danger() > Danger::None;
        (!hidden, fault.sign)
    });
    faults
}

/// What to check for a mistake. Of two things that changed places it is the one that the sign is
/// about, else the first.
fn check_target(planned: &PlannedCase<'_>, sign: Sign, mistake: Mistake) -> CheckTarget {
    let device = |id: DeviceId| planned.wiring[id].device;
    if mistake.layout(planned).is_some() {
        return CheckTarget::Layout;
    }
    match mistake {
        Mistake::Layout(_) | Mistake::Selector { .. } => CheckTarget::Layout,
        Mistake::Jumper { jumper, .. } => CheckTarget::Jumper(jumper),
        Mistake::JumpersSwapped([a, b]) => {
            let feeds = |jumper: JumperId| {
                let fed = planned.wiring.devices.iter().filter(|d| d.jumper == Some(jumper));
                fed.map(|plan| plan.device).any(|device| sign.device() == Some(device))
            };
            CheckTarget::Jumper(if !feeds(a) && feeds(b) { b } else { a })
        }
        Mistake::Plug { device: id, .. } => CheckTarget::Plug(device(id)),
        Mistake::PlugsSwapped([a, b]) => {
            // The heater waits for what moves its water.
            let moves = |id: DeviceId| device(id).moves_water();
            let b_is_meant = match sign {
                Sign::HeaterNever => !moves(a) && moves(b) || device(b) == Device::Circulation,
                sign => sign.device() == Some(device(b)),
            };
            CheckTarget::Plug(device(if b_is_meant { b } else { a }))
        }
        Mistake::Way { bank, .. } | Mistake::BankAsShipped(bank) => CheckTarget::Bank(bank),
        Mistake::Supply(_) | Mistake::SameLine(_) => CheckTarget::House,
        Mistake::NeutralPast => CheckTarget::NeutralPath,
        Mistake::NeutralGrounded => CheckTarget::NeutralGround,
        Mistake::Missing(_) | Mistake::Swapped(_) => CheckTarget::Landing,
        Mistake::Link { link, .. } => CheckTarget::Link(link),
        Mistake::Cord { device: id, fit: CordFit::Out } => CheckTarget::Plug(device(id)),
        Mistake::Cord { device: id, .. } => CheckTarget::Cord(device(id)),
    }
}

/// A header with the device and the number of speeds that a layout gives it, and whether that layout
/// leaves another header of its socket family empty, into which its plug can go.
type HeaderUse = (HeaderId, Device, Speeds, bool);

/// Jobs that together use every header for every device and number of speeds that it serves, each
/// with an empty header that its plug fits if any layout has that: as few layouts as a greedy choice
/// finds. Each device is on a group of the first supply that has it, the shipped one if it can be.
fn sample_jobs(board: &Board) -> Vec<(Job, Plan)> {
    some_sample_jobs(board, usize::MAX)
}

/// The first of them, so many as are wanted.
fn some_sample_jobs(board: &Board, wanted: usize) -> Vec<(Job, Plan)> {
    let uses = |layout: &Layout| -> Vec<HeaderUse> {
        let slots = super::layout::slots(board, layout);
        let family = |header: HeaderId| board[header].socket;
        let spare = |of: HeaderId| {
            let empty = |header: &HeaderId| slots.iter().all(|slot| slot.header != *header);
            board.header_ids().filter(empty).any(|header| family(header) == family(of))
        };
        let one =
            |slot: &super::layout::Slot, spare| (slot.header, slot.device, slot.speeds, spare);
        let without = slots.iter().map(|slot| one(slot, false));
        let with = slots.iter().filter(|slot| spare(slot.header)).map(|slot| one(slot, true));
        without.chain(with).collect()
    };
    let mut left: Vec<(&Layout, Vec<HeaderUse>)> =
        board.layouts.iter().map(|layout| (layout, uses(layout))).collect();
    let mut open: Vec<HeaderUse> = left.iter().flat_map(|(_, uses)| uses).copied().collect();
    open.sort();
    open.dedup();
    let mut jobs = Vec::new();
    while !open.is_empty() && jobs.len() < wanted {
        let gain = |uses: &[HeaderUse]| uses.iter().filter(|u| open.contains(u)).count();
        // Of equal ones the first: `max_by_key` would take the last.
        let most = left.iter().enumerate().rev().max_by_key(|(_, (_, uses))| gain(uses));
        let Some((at, _)) = most.filter(|(_, (_, uses))| gain(uses) > 0) else { break };
        let (layout, used) = left.remove(at);
        jobs.extend(sample_jobs_of(board, layout, wanted - jobs.len()));
        open.retain(|one| !used.contains(one));
    }
    jobs
}

/// The current of every sample device, small enough for every header.
const SAMPLE: (Amps, Amps) = (Amps(0.1), Amps(0.05));
/// A breaker that carries everything.
const LARGE: Amps = Amps(1000.0);

/// The jobs of a layout: all plates for the groups that are shipped, then all for the next voltage
/// that a jumper can give, and so on. A jumper that is left where it is shipped is the commonest
/// mistake of all, and only a plate for another voltage shows it. Where the tabs do not hold all
/// jumpers at once, one after the other is on its next voltage.
fn sample_jobs_of(board: &Board, layout: &Layout, wanted: usize) -> Vec<(Job, Plan)> {
    let mut jobs: Vec<(Job, Plan)> = Vec::new();
    // A supply under which every jumper has as many voltages as under one before it shows no other
    // mistake; one under which a jumper has more can burn out what the other cannot.
    let mut seen: Vec<Vec<usize>> = Vec::new();
    for supply in board.handles::<SupplyId>() {
        let counts = board.handles::<JumperId>().map(|it| voltages(board, supply, it).len());
        let counts: Vec<usize> = counts.collect();
        if seen.contains(&counts) {
            continue;
        }
        if jobs.len() >= wanted {
            break;
        }
        let found = sample_jobs_on(board, layout, supply, &counts, wanted - jobs.len());
        if !found.is_empty() {
            seen.push(counts);
        }
        jobs.extend(found);
    }
    jobs
}

/// Those under one supply; `counts` has the number of voltages of each jumper there.
fn sample_jobs_on(
    board: &Board,
    layout: &Layout,
    supply: SupplyId,
    counts: &[usize],
    wanted: usize,
) -> Vec<(Job, Plan)> {
    let jumpers = || board.handles::<JumperId>();
    let count = counts.iter().copied().max().unwrap_or(1);
    let sound = |choice: &dyn Fn(JumperId) -> usize| {
        let job = sample_on(board, layout, supply, choice);
        let plan = plan(board, &job);
        let right = plan.sound().is_some_and(|(found, _)| found.number == layout.number);
        right.then_some((job, plan))
    };
    let used = |jumper: JumperId| {
        let slots = super::layout::slots(board, layout);
        slots.iter().any(|slot| board[slot.header].feed == Feed::Jumper(jumper))
    };
    let mut jobs: Vec<(Job, Plan)> = sound(&|_| 0).into_iter().collect();
    for choice in 1..count {
        if jobs.len() >= wanted {
            break;
        }
        match sound(&|_| choice) {
            Some(job) => jobs.push(job),
            None => jobs.extend(
                jumpers()
                    .filter(|jumper| used(*jumper))
                    .filter_map(|moved| sound(&|jumper| if jumper == moved { choice } else { 0 })),
            ),
        }
    }
    jobs
}

/// The groups that a jumper can go to, one for each voltage, the shipped one first.
fn voltages(board: &Board, supply: SupplyId, jumper: JumperId) -> Vec<GroupId> {
    let jumper = &board[jumper];
    let mut found: Vec<(GroupId, Volts)> = Vec::new();
    for group in std::iter::once(&jumper.shipped).chain(&jumper.groups) {
        let Some(volts) = board.group_volts(supply, *group).filter(|volts| volts.0 > 1.0) else {
            continue;
        };
        if !found.iter().any(|(_, known)| suits(volts, *known)) {
            found.push((*group, volts));
        }
    }
    found.into_iter().map(|(group, _)| group).collect()
}

/// `choice` says which of the voltages of a jumper the plates behind it have; the first if there
/// are fewer.
fn sample_on(
    board: &Board,
    layout: &Layout,
    supply: SupplyId,
    choice: &dyn Fn(JumperId) -> usize,
) -> Job {
    let span = layout.span;
    let group_of = |header: HeaderId| -> Option<GroupId> {
        match board[header].feed {
            Feed::Group(group) => {
                let volts = board.group_volts(supply, group);
                volts.is_some_and(|volts| volts.0 > 1.0).then_some(group)
            }
            Feed::Jumper(jumper) => {
                let all = voltages(board, supply, jumper);
                all.get(choice(jumper)).or(all.first()).copied()
            }
        }
    };
    let mut heater = None;
    let mut equipment = Vec::new();
    for slot in super::layout::slots(board, layout) {
        let group = group_of(slot.header);
        let Some(volts) = group.and_then(|group| board.group_volts(supply, group)) else {
            continue;
        };
        if slot.device == Device::Heater {
            let fits = board.heater.is_some_and(|element| suits(volts, element.at));
            if !fits {
                let element = Heater { watts: Watts(volts.0), at: volts };
                heater = Some(Spanned { value: element, span });
            }
            continue;
        }
        let current = |amps| Current { amps, source: CurrentSource::Plate, span };
        equipment.push(Fitted {
            role: Role::Named(slot.device),
            speeds: slot.speeds,
            volts: Spanned { value: Volts(volts.0.round()), span },
            high: current(SAMPLE.0),
            low: (slot.speeds == Speeds::Two).then(|| current(SAMPLE.1)),
            cord: Cord::AsMade,
            // No current of a sample is printed: what an unknown one could bring is not asked.
            power_factor: Some(1.0),
            span,
        });
    }
    let (supply, breaker) = (Spanned { value: supply, span }, Spanned { value: LARGE, span });
    Job { heater, equipment, ..Job::bare(supply, breaker, span) }
}

#[cfg(test)]
mod tests {
    use super::super::sample::heron;
    use super::*;

    /// A pump for 240 V on a jumper that is shipped on 120 V, and one for 120 V on 240 V: both are
    /// left where they are more often than anything else is got wrong.
    #[test]
    fn a_jumper_left_as_shipped_is_found_either_way() {
        let faults = board_faults(&heron(&[]));
        let first = |sign: Sign| {
            let fault = faults.iter().find(|fault| fault.sign == sign).expect("it is listed");
            fault.checks.first().map(|check| check.target)
        };
        // W3, shipped on 120 V, feeds pump 3; W1, shipped on 240 V, feeds pump 1.
        assert_eq!(first(Sign::RunsHot(Device::Pump(3))), Some(CheckTarget::Jumper(JumperId(2))));
        assert_eq!(first(Sign::Destroyed(Device::Pump(1))), Some(CheckTarget::Jumper(JumperId(0))));
    }

    #[test]
    fn the_samples_use_every_header_in_every_way() {
        let board = heron(&[]);
        let jobs = sample_jobs(&board);
        let layouts: Vec<u8> = jobs
            .iter()
            .map(|(_, plan)| plan.sound().expect("it is sound").0.number.get())
            .collect();
        // 7 uses six headers and leaves J8 empty, into which the plugs of four fit: more than any
        // other. 10 has pump 3 and the blower at J8, and leaves J6 empty; 2 has pump 1 with one
        // speed, 12 pump 2 with two.
        // Each with the plates that it is shipped for, and with all others; and once without a neutral,
        // where a jumper has one voltage. The wye gives the jumpers no other choice.
        assert_eq!(layouts, [7, 7, 7, 10, 10, 10, 2, 2, 2, 12, 12, 12]);
    }
}
