//! What a board does with and without mistakes, on demo jobs and on generated ones.
#![allow(clippy::print_stderr)] // What was gone through is told to who runs it with `--nocapture`.

use crate::compile::{self, demo};
use std::collections::BTreeSet;

use crate::generate::{boards, jobs};
use crate::oracle::lost;
use crate::oracle::wires;
use lidsheet::board::{Board, Conductor, Device, Job, Rules};
use lidsheet::decide::currents::Running;
use lidsheet::decide::mistakes::{
    AsBuilt, Command, Consequence, Heat, House, Metal, Mistake, Observation, PlannedCase, Sign,
    State, Trip, consequences, simulate, single_mistakes,
};
use lidsheet::decide::{self, Plan};

/// Everything that must hold of a plan without a mistake.
fn works(board: &Board, job: &Job, plan: &Plan, name: &str) {
    let right = PlannedCase::new(board, job, plan.sound().expect("it is sound"));
    let state = simulate(&right, &AsBuilt::as_planned(&right));
    let nought = |volts: f64| volts.abs() < 1e-6;
    assert_eq!(state.devices.len(), right.wiring.devices.len(), "{name}");
    for (device, plan) in state.devices.iter().zip(&right.wiring.devices) {
        let say = format!("{name}: {} {device:?}", plan.device);
        assert_eq!(device.role, Some(plan.device), "{say}");
        let off = device.on(Command::Off).expect("everything can be off").measured;
        assert!(nought(off.low.most.0) && nought(off.high.most.0), "{say}");
        let high = device.on(Command::High).unwrap_or_else(|| panic!("{say}: it is never on"));
        let high = high.measured;
        assert!((high.high.least.0 - plan.volts.0).abs() < 1e-6, "{say}");
        assert!((high.high.most.0 - plan.volts.0).abs() < 1e-6, "{say}");
        assert!(nought(high.low.most.0), "{say}");
        assert_eq!(device.on(Command::Low).is_some(), plan.low.is_some(), "{say}");
        if let Some(low) = device.on(Command::Low) {
            assert!((low.measured.low.least.0 - plan.volts.0).abs() < 1e-6, "{say}");
            assert!(nought(low.measured.high.most.0), "{say}");
        }
        // A plate within a tenth of what it gets; the heater may be on less, with a warning.
        let apart = (high.high.most.0 - plan.plate.0).abs();
        assert!(apart <= plan.plate.0 * 0.1 + 1e-6 || plan.fitted.is_none(), "{say}");
        assert!(device.runs.len() >= 2, "{say}");
        for run in device.runs.iter() {
            assert!(!matches!(run.measured.metal, Metal::Live(_)), "{say}");
            assert!(run.measured.earth.0 < 1e-9, "{say}");
        }
    }
    assert_eq!(state.loads.conductors.len(), right.wiring.conductors.len(), "{name}");
    for (found, planned) in state.loads.conductors.iter().zip(&right.wiring.conductors) {
        assert_eq!(found.conductor, planned.conductor, "{name}");
        let apart = (found.amps.0 - planned.amps.0).abs();
        assert!(apart < 1e-6 * planned.amps.0.max(1.0), "{name}: {found:?} {planned:?}");
    }
    for load in &right.wiring.fuses {
        let found = state.loads.fuses.iter().find(|(fuse, _)| *fuse == load.of);
        let found = found.map_or(0.0, |(_, amps)| amps.0);
        assert!((found - load.amps.0).abs() < 1e-6, "{name}: {load:?} {found}");
    }
    for load in &right.wiring.headers {
        let found = state.loads.headers.iter().find(|(header, _)| *header == load.of);
        let found = found.map_or(0.0, |(_, amps)| amps.0);
        assert!((found - load.amps.0).abs() < 1e-6, "{name}: {load:?} {found}");
    }
    assert_eq!(state.allowance, right.wiring.breaker.allowance, "{name}");
}

/// What a sign does to people and things.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Harm {
    Nothing,
    Breaks,
    Burns,
    Kills,
}

/// How bad a sign is, and whether somebody notices it before it does harm; written down here by
/// itself, from what each is.
fn harm(sign: Sign) -> (Harm, bool) {
    match sign {
        // Touching the metal, or a wire that should be off, kills; all looks as ever.
        Sign::AllMetalLive | Sign::MetalLive(_) => (Harm::Kills, false),
        Sign::AllUngrounded | Sign::Ungrounded(_) => (Harm::Kills, false),
        // The day the neutral opens.
        Sign::MetalOnNeutral => (Harm::Kills, false),
        Sign::StaysLive(_) => (Harm::Kills, false),
        // So does what the tripping tells of.
        Sign::GroundFaultTrips(_) => (Harm::Kills, true),
        // Up to 1.45 times what it may carry, heat ages a wire or a contact; beyond, it can burn.
        Sign::Overload(Heat::Burns) | Sign::HeaderHot(_, Heat::Burns) => (Harm::Burns, false),
        Sign::Overload(Heat::Ages) | Sign::HeaderHot(_, Heat::Ages) => (Harm::Breaks, false),
        Sign::Destroyed(_) | Sign::BoardBurns => (Harm::Burns, true),
        Sign::RunsHot(_) | Sign::NeverStops(_) | Sign::BreakerTripsAtOnce => (Harm::Breaks, true),
        // Until it trips, the wires are as warm as with an overload that does not.
        Sign::BreakerTrips | Sign::BreakerMayTrip => (Harm::Breaks, true),
        Sign::FuseBlows(_)
        | Sign::FuseMayBlow(_)
        | Sign::BoardDead
        | Sign::BoardWeak
        | Sign::DoesNothing(_)
        | Sign::OnlyHigh(_)
        | Sign::OnlyLow(_)
        | Sign::SpeedsSwapped(_)
        | Sign::OtherButton(..)
        | Sign::HeaterNever
        | Sign::HeaterSlow
        | Sign::HeaterGoesOff
        | Sign::SpareButton(_)
        | Sign::SetOtherwise(..) => (Harm::Nothing, true),
    }
}

/// Whether a mistake does harm that nobody notices, and the worst harm that it does.
type Rank = (bool, Harm);

/// First what does harm and is never noticed, the worst first; then all else, the worst first; of
/// what is alike, what is common first, then as the board has it.
fn in_order(
    right: &PlannedCase<'_>,
    all: &[Mistake],
    found: &[Consequence],
    name: &str,
    ranks: &mut BTreeSet<Rank>,
) {
    let rank = |one: &Consequence| -> Rank {
        let worst = one.signs.iter().map(|seen| harm(seen.sign).0).max().expect("a sign");
        // A house with bonded metal and ground-fault protection, and one with neither.
        let hidden_in = |absent: &[House]| {
            let there = one.signs.iter().filter(|seen| !absent.contains(&seen.house));
            let noticed: Vec<bool> = there.map(|seen| harm(seen.sign).1).collect();
            !noticed.is_empty() && noticed.iter().all(|noticed| !noticed)
        };
        let hidden = hidden_in(&[House::Bare]) || hidden_in(&[House::Protected, House::Bonded]);
        (worst > Harm::Nothing && hidden, worst)
    };
    let place = |one: &Consequence| all.iter().position(|mistake| *mistake == one.mistake);
    for pair in found.windows(2) {
        let [one, next] = pair else { unreachable!("two at a time") };
        let say = format!("{name}: {:?} before {:?}", one.mistake, next.mistake);
        assert!(rank(one) >= rank(next), "{say}: {:?}, {:?}", rank(one), rank(next));
        if rank(one) == rank(next) {
            let common = |one: &Consequence| (one.mistake.rarity(right), place(one));
            assert!(common(one) < common(next), "{say}: {:?}, {:?}", common(one), common(next));
        }
    }
    ranks.extend(found.iter().map(rank));
}

/// What the breaker does by the sizes of the currents: written down from what the standards say, IEC
/// 60898-1 (carries 1.13 times, trips at 1.45 times) and UL 489 (carries its rating, trips at 1.35
/// times).
fn trips(right: &PlannedCase<'_>, before: &State, one: &Consequence, name: &str) {
    let say = format!("{name}: {:?}", one.mistake);
    let rating = right.job.breaker.value.0;
    let (holds, must) = match right.wiring.breaker.rules.rules {
        Rules::Iec => (1.13, 1.45),
        Rules::Nec => (1.0, 1.35),
    };
    let most = |state: &State| {
        let lines = state.loads.conductors.iter().filter(|load| load.conductor.is_line());
        lines.map(|load| load.amps.0).fold(0.0, f64::max) / rating
    };
    let has = |sign: Sign| one.signs.iter().any(|seen| seen.sign == sign);
    let (was, is) = (most(before), most(&one.state));
    let slack = 1e-5;
    if is < holds - slack {
        assert!(!has(Sign::BreakerTrips) && !has(Sign::BreakerMayTrip), "{say}: {is}");
    } else if is > holds + slack && is < must - slack {
        assert!(!has(Sign::BreakerTrips), "{say}: {is}");
        assert!(has(Sign::BreakerMayTrip) || was > holds, "{say}: {is}");
    } else if is > must + slack {
        assert!(has(Sign::BreakerTrips) || was > must, "{say}: {is}");
    }
    // A fuse: 2.1 times its rating, or 1.6 times for gG and its like from 16 A on; none of class a.
    for (fuse, amps) in &one.state.loads.fuses {
        let fuse_of = &right.board[*fuse];
        let times = amps.0 / fuse_of.rating.0;
        let kind = fuse_of.speed.as_deref().unwrap_or_default();
        let must = match kind {
            "aM" | "aR" => f64::INFINITY,
            "gG" | "general-purpose" | "gM" | "gR" if fuse_of.rating.0 >= 16.0 => 1.6,
            _ => 2.1,
        };
        let before = before.loads.fuses.iter().find(|(it, _)| it == fuse);
        let before = before.map_or(0.0, |(_, amps)| amps.0 / fuse_of.rating.0);
        let new = |limit: f64| times > limit + slack && before <= limit;
        assert!(!has(Sign::FuseBlows(*fuse)) || times > must - slack, "{say}: {times}");
        assert!(!new(must) || has(Sign::FuseBlows(*fuse)), "{say}: {times}");
        let between = times > 1.0 + slack && times < must - slack && must.is_finite();
        assert!(!has(Sign::FuseMayBlow(*fuse)) || between, "{say}: {times}");
        assert!(!(between && before <= 1.0) || has(Sign::FuseMayBlow(*fuse)), "{say}: {times}");
    }
    // What is too much for the wires and trips nothing is said, and nothing that is not.
    for seen in &one.signs {
        if let (Sign::Overload(_), Some((amps, allowed))) = (seen.sign, seen.amps) {
            assert!(amps.0 > allowed.0, "{say}: {seen:?}");
            let line = seen.conductor.expect("it flows somewhere");
            let load = one.state.loads.conductors.iter().find(|load| load.conductor == line);
            assert!((load.expect("it is there").amps.0 - amps.0).abs() < 1e-9, "{say}: {seen:?}");
        }
    }
    let wire = wires::judged(right.board, right.job, 0.0).limit();
    let wire = if wire.is_finite() { wire / rating } else { 1.0 };
    if is > wire + slack && is < holds - slack && was <= wire {
        assert!(one.signs.iter().any(|seen| matches!(seen.sign, Sign::Overload(_))), "{say}: {is}");
    }
}

/// No two signs of one mistake deny each other.
fn agree(one: &Consequence, name: &str) {
    let say = format!("{name}: {:?}: {:?}", one.mistake, one.signs);
    let has = |sign: Sign| one.signs.iter().any(|seen| seen.sign == sign);
    // What the board takes for the heater, and never turns on, does nothing to the supply.
    if one.state.water == Some(false) {
        let heater = one.state.roles.iter().find(|role| role.role == Device::Heater);
        if let Some(plugged) = heater.and_then(|role| role.device) {
            assert!(one.state.devices[plugged].on(Command::High).is_none(), "{say}");
        }
    }
    if has(Sign::HeaterNever) {
        let by_heater = one.signs.iter().any(|seen| {
            let of = |(device, running): &(Device, Running)| {
                *device == Device::Heater && *running != Running::Off
            };
            matches!(seen.sign, Sign::GroundFaultTrips(_)) && seen.running.iter().any(of)
        });
        let dry = one.state.water == Some(false);
        assert!(!(by_heater && dry), "{say}");
    }
    // Nothing is turned on by a board that is dead, so nothing is noticed by it.
    let off = one.state.devices.iter().all(|device| device.on(Command::High).is_none());
    if has(Sign::BoardDead) {
        let by_turning_on = |seen: &&Observation| match seen.sign {
            Sign::DoesNothing(_) | Sign::OnlyHigh(_) | Sign::OnlyLow(_) | Sign::OtherButton(..) => {
                true
            }
            Sign::SpeedsSwapped(_) | Sign::SpareButton(_) | Sign::BoardWeak => true,
            Sign::HeaterNever | Sign::HeaterSlow | Sign::HeaterGoesOff => true,
            Sign::BreakerTrips | Sign::BreakerMayTrip => true,
            Sign::FuseBlows(_) | Sign::FuseMayBlow(_) => true,
            Sign::Overload(_) | Sign::HeaderHot(..) => true,
            Sign::GroundFaultTrips(_) => seen.running.iter().any(|(_, how)| *how != Running::Off),
            _ => false,
        };
        let denied: Vec<&Observation> = one.signs.iter().filter(by_turning_on).collect();
        assert!(off && denied.is_empty(), "{say}: {denied:?}");
    }
    // When it trips is said twice: by the sign, and by what runs then.
    for seen in &one.signs {
        let Sign::GroundFaultTrips(trip) = seen.sign else { continue };
        let when = match seen.running.as_slice() {
            [] | [(_, Running::Off)] => Trip::AtOnce,
            [(Device::Heater, _)] => Trip::Heating,
            _ => Trip::Running,
        };
        assert_eq!(trip, when, "{say}");
    }
    assert!(!has(Sign::BoardBurns) || has(Sign::BoardDead), "{say}");
    for seen in &one.signs {
        if let Sign::Destroyed(device) = seen.sign {
            let no = [Sign::RunsHot(device), Sign::DoesNothing(device)];
            assert!(no.iter().all(|sign| !has(*sign)), "{say}");
            assert!(device != Device::Heater || !has(Sign::HeaterNever), "{say}");
        }
        // Metal on a line is a fault to ground in the one house, and stays live in the other.
        if let Sign::MetalLive(_) | Sign::AllMetalLive = seen.sign {
            let trips = one.signs.iter().any(|it| matches!(it.sign, Sign::GroundFaultTrips(_)));
            assert!(seen.house == House::Bare && trips, "{say}");
        }
    }
}

/// Everything that must hold of the list of mistakes; notes the ranks that occur. Gives how many
/// mistakes there are, and how many change anything.
fn listed(
    board: &Board,
    job: &Job,
    plan: &Plan,
    name: &str,
    ranks: &mut BTreeSet<Rank>,
) -> (usize, usize) {
    let right = PlannedCase::new(board, job, plan.sound().expect("it is sound"));
    let built = AsBuilt::as_planned(&right);
    let before = simulate(&right, &built);
    let all = single_mistakes(&right);
    for mistake in &all {
        assert_ne!(built.with(&right, *mistake), built, "{name}: {mistake:?} changes nothing");
    }
    let mut once: Vec<Mistake> = all.clone();
    once.sort();
    once.dedup();
    assert_eq!(once.len(), all.len(), "{name}: a mistake is made twice");

    let found = consequences(&right);
    in_order(&right, &all, &found, name, ranks);
    for one in &found {
        assert!(!one.signs.is_empty(), "{name}: {:?}", one.mistake);
        let mut signs: Vec<_> = one.signs.iter().map(|seen| seen.sign).collect();
        let harms: Vec<Harm> = signs.iter().map(|sign| harm(*sign).0).collect();
        assert!(harms.is_sorted_by(|one, next| one >= next), "{name}: {signs:?}");
        signs.sort();
        signs.dedup();
        assert_eq!(signs.len(), one.signs.len(), "{name}: {:?}", one.mistake);
        let state = simulate(&right, &built.with(&right, one.mistake));
        assert_eq!(state, one.state, "{name}");
        trips(&right, &before, one, name);
        agree(one, name);
    }
    // What is not listed differs from the right state in nothing that matters: no device gets
    // another voltage by more than a tenth of it, none follows another button, none is live.
    for mistake in &all {
        if found.iter().any(|one| one.mistake == *mistake) {
            continue;
        }
        let after = simulate(&right, &built.with(&right, *mistake));
        assert_eq!(before.ground, after.ground, "{name}: {mistake:?}");
        assert_eq!(after.devices.len(), right.wiring.devices.len(), "{name}: {mistake:?}");
        let pairs = before.devices.iter().zip(&after.devices).zip(&right.wiring.devices);
        for ((was, is), plan) in pairs {
            assert_eq!(was.role, is.role, "{name}: {mistake:?}");
            for run in was.runs.iter() {
                let now = is.on(run.command).map(|run| run.measured);
                let now = now.unwrap_or_else(|| panic!("{name}: {mistake:?} takes a speed away"));
                assert_eq!(run.measured.metal, now.metal, "{name}: {mistake:?}");
                for (was, is) in [(run.measured.low, now.low), (run.measured.high, now.high)] {
                    let apart =
                        (was.most.0 - is.most.0).abs().max((was.least.0 - is.least.0).abs());
                    assert!(
                        apart <= 0.2 * plan.plate.0,
                        "{name}: {mistake:?} gives {is:?} for {was:?}"
                    );
                }
            }
        }
    }
    (all.len(), found.len())
}

#[test]
fn demo_jobs_work_and_their_mistakes_are_listed() {
    let mut ranks = BTreeSet::new();
    for planned in demo::jobs() {
        let demo::Planned { name, board, job, plan } = &planned;
        works(board, job, plan, name);
        let (all, changing) = listed(board, job, plan, name, &mut ranks);
        eprintln!("{name}: {all} mistakes, {changing} change something");
        assert!(changing > 18, "{name}: {changing}");
    }
    assert!(ranks.contains(&(true, Harm::Kills)) && ranks.len() >= 5, "{ranks:?}");
}

/// Generated jobs on generated boards: of any size, with links, isolated groups, three phases.
#[test]
fn generated_jobs_work_and_their_mistakes_are_listed() {
    let (mut count, mut mistakes, mut changing) = (0, 0, 0);
    let mut ranks = BTreeSet::new();
    for seed in 0.. {
        assert!(seed < 3000, "only {count} jobs are sound");
        let board = compile::sound(&boards::generate(seed));
        let Some((job, plan)) = jobs::sound(&board, seed) else { continue };
        works(&board, &job, &plan, &format!("seed {seed}"));
        let (all, some) = listed(&board, &job, &plan, &format!("seed {seed}"), &mut ranks);
        mistakes += all;
        changing += some;
        count += 1;
        if count == 150 {
            break;
        }
    }
    eprintln!("{count} jobs, {mistakes} mistakes, {changing} change something: {ranks:?}");
    assert!(changing > 1500 && ranks.len() >= 6, "{changing} {ranks:?}");
}

/// The board's own fault finder never panics and names what is there.
#[test]
fn generated_boards_have_a_fault_finder() {
    let mut with = 0;
    for seed in 0..60 {
        let board = compile::sound(&boards::generate(seed));
        with += usize::from(!decide::board_faults(&board).is_empty());
    }
    assert!(with > 40, "{with}");
}

/// Job 2237 without its neutral, by hand: pump 1, blower, circulation and ozonator lie on L1, pumps 2
/// and 3 on L2, the heater on L3, each with its amperes over 230 V. Millman: the neutral point is at
/// the sum of Y V over the sum of Y.
///
/// Most for the circulation pump: beside pumps 2 and 3 alone, 15/16.1 of the 398.37 V between the
/// lines: 371.2 V. Most for pump 2: beside the heater and all on L1, with pump 3 off. The point is
/// at (the sum of 13.6 V1, 7.6 V2, 13.04 V3) / 34.24, which is 22.0, 31.7i; V2 is at -115, -199.2i, so
/// it gets 268.5 V. Both burn out, and the heater does come on.
#[test]
fn a_lost_neutral_burns_what_no_pair_shows() {
    let planned = demo::jobs();
    let case = planned.iter().find(|case| case.name == "2237").expect("it is a demo job");
    let right = PlannedCase::new(&case.board, &case.job, case.plan.sound().expect("sound"));
    let all = consequences(&right);
    let x4 = case.board.terminals.iter().position(|it| it.code == "X4").expect("the neutral's");
    let found = all
        .iter()
        .find(|one| matches!(one.mistake, Mistake::Missing(at) if at.0 == x4))
        .expect("it changes something");
    let volts = |device: Device| {
        let seen = found.signs.iter().find(|seen| seen.sign == Sign::Destroyed(device));
        let seen =
            seen.unwrap_or_else(|| panic!("{device} is not said to burn: {:?}", found.signs));
        assert!(seen.swings);
        seen.volts.expect("it has volts").0
    };
    for (device, expected) in [
        (Device::Circulation, 371.15),
        (Device::Pump(1), 343.42),
        (Device::Pump(2), 268.45),
        (Device::Pump(3), 270.03),
        (Device::Blower, 312.86),
        (Device::Ozonator, 393.13),
    ] {
        assert!((volts(device) - expected).abs() < 0.01, "{device}: {} V", volts(device));
    }
    assert!(found.signs.iter().all(|seen| seen.sign != Sign::HeaterNever), "{:?}", found.signs);
}

/// Job 2237 with L1 and L2 from one line, by hand: pump 1, blower, circulation and ozonator on L1 draw
/// 8.2 + 4.1 + 1.1 + 0.2 = 13.6 A, pumps 2 and 3 on L2 15.0 A, all in phase now: 28.6 A in the neutral,
/// which has no breaker. With the heater's 13.04 A on L3 it would be 24.8 A. 4 mm2 may carry 27 A by
/// IEC 60364-5-52 table B.52.4, B2 (from memory, as the table of the compiler).
#[test]
fn two_lines_from_one_add_up_in_the_neutral() {
    let planned = demo::jobs();
    let case = planned.iter().find(|case| case.name == "2237").expect("it is a demo job");
    let right = PlannedCase::new(&case.board, &case.job, case.plan.sound().expect("sound"));
    let all = consequences(&right);
    let same = Mistake::SameLine([Conductor::L1, Conductor::L2]);
    let found = all.iter().find(|one| one.mistake == same).expect("it changes something");
    let neutral = found.state.loads.conductors.iter().find(|it| it.conductor == Conductor::N);
    let amps = neutral.expect("it is there").amps.0;
    assert!((amps - 28.6).abs() < 1e-6, "{amps}");
    let seen = found.signs.iter().find(|seen| seen.conductor == Some(Conductor::N));
    let seen = seen.unwrap_or_else(|| panic!("{:?}", found.signs));
    assert_eq!(seen.sign, Sign::Overload(Heat::Ages));
}

/// A conductor that is missing, by going through every combination with Millman's theorem: on demo
/// jobs and generated ones, without a word of the simulation.
#[test]
fn lost_conductors_agree_with_millman() {
    let mut tally = lost::Tally::default();
    for demo::Planned { name, board, job, plan } in &demo::jobs() {
        lost::compare(board, job, plan, name, &mut tally);
    }
    for seed in 0..1200 {
        let board = compile::sound(&boards::generate(seed));
        if let Some((job, plan)) = jobs::sound(&board, seed) {
            lost::compare(&board, &job, &plan, &format!("seed {seed}"), &mut tally);
        }
    }
    eprintln!("{tally:?}");
    assert!(tally.shared > 40 && tally.runs > 1000 && tally.steady > 100, "{tally:?}");
    assert!(tally.dead > 20 && tally.dead_live > 5, "{tally:?}");
}
