//! Jumpers and switches.

use lidsheet::board::{
    Allowance, Board, Conductor, Device, Effect, Feed, GroupId, JumperId, Meaning, Rules, Setting,
    SupplyId,
};
use lidsheet::decide::exercises::{
    JumperSlip, JumperWhy, LineSum, LoadAt, MoveJumpers, SetSwitches, SwitchAnswer, SwitchSlip,
};

use super::all_differ;
use crate::oracle::search::{Gives, Phasor, gives, limited, long, slots};

fn volts(board: &Board, supply: SupplyId, group: GroupId) -> Option<f64> {
    gives(board, supply, group).volts()
}

/// Tries every assignment of all jumpers to their groups.
pub fn move_jumpers(board: &Board, task: &MoveJumpers) {
    let there = slots(board, task.layout);
    let mut used = vec![false; board.jumpers.len()];
    let mut hung = Vec::new();
    for plate in &task.plates {
        let slot = there.iter().find(|slot| slot.header == plate.header).expect("in use");
        assert_eq!(slot.device, plate.device, "{task:?}");
        let Feed::Jumper(jumper) = board[plate.header].feed else { panic!("{task:?}") };
        used[jumper.0] = true;
        hung.push((jumper.0, plate.volts.0));
    }
    // Everything that the layout needs and a jumper feeds is given.
    for slot in there.iter().filter(|slot| slot.needed) {
        let by_jumper = matches!(board[slot.header].feed, Feed::Jumper(_));
        let given = task.plates.iter().any(|plate| plate.header == slot.header);
        assert_eq!(by_jumper, given, "{task:?}");
    }
    let gives: Vec<Option<f64>> =
        (0..board.groups.len()).map(|group| volts(board, task.supply, GroupId(group))).collect();
    let right = |groups: &[GroupId]| {
        let suits = hung.iter().all(|(jumper, plate)| {
            gives[groups[*jumper].0]
                .is_some_and(|volts| (volts - plate).abs() <= 0.1 * plate + 1e-9)
        });
        let stay = board.jumpers.iter().zip(groups).zip(&used);
        let stay = stay.into_iter().all(|((it, on), used)| *used || *on == it.shipped);
        let tabs = board.groups.iter().enumerate().all(|(at, group)| {
            groups.iter().filter(|on| on.0 == at).count() <= usize::from(group.tabs)
        });
        suits && stay && tabs
    };
    let mut found: Vec<Vec<GroupId>> = Vec::new();
    let mut wheel = vec![0_usize; board.jumpers.len()];
    let mut tried = 0_u64;
    'all: loop {
        let groups: Vec<GroupId> =
            board.jumpers.iter().zip(&wheel).map(|(it, at)| it.groups[*at]).collect();
        tried += 1;
        if right(&groups) {
            found.push(groups);
        }
        for (at, it) in wheel.iter_mut().zip(&board.jumpers) {
            *at += 1;
            if *at < it.groups.len() {
                continue 'all;
            }
            *at = 0;
        }
        break;
    }
    let product: u64 = board.jumpers.iter().map(|it| it.groups.len() as u64).product();
    assert_eq!(tried, product);
    let stated: Vec<GroupId> = task.answer.iter().map(|one| one.group).collect();
    assert_eq!(found, std::slice::from_ref(&stated), "{task:?}");
    for (index, (one, it)) in task.answer.iter().zip(&board.jumpers).enumerate() {
        assert_eq!(one.jumper, JumperId(index));
        assert_eq!(one.moved, one.group != it.shipped);
        assert_eq!((one.line, one.group_line), (it.span, board[one.group].span));
        assert_eq!(used[index], one.because != JumperWhy::Unused, "{task:?}");
        let mut answers: Vec<GroupId> = one.traps.iter().map(|trap| trap.answer).collect();
        answers.push(one.group);
        assert!(all_differ(&answers), "{task:?}");
        for trap in &one.traps {
            let mut other = stated.clone();
            other[index] = trap.answer;
            assert!(!right(&other) && it.groups.contains(&trap.answer), "{task:?}");
            let (JumperSlip::LeftOnShipped { gives: told } | JumperSlip::NextGroup { gives: told }) =
                trap.mistake;
            match (told, gives[trap.answer.0]) {
                (Some(told), Some(volts)) => assert!((told.0 - volts).abs() < 1e-6),
                (None, None) => {}
                other => panic!("{other:?} {task:?}"),
            }
        }
    }
    // Not trivial: who leaves all as it is shipped is wrong.
    assert!(task.answer.iter().any(|one| one.moved), "{task:?}");
}

/// What a load counts for on low and on high.
fn counted(task: &SetSwitches, load: &LoadAt) -> (f64, f64) {
    let long = long(load.device);
    assert_eq!(load.continuous, long);
    let low = load.low.map_or(0.0, |low| low.0 * task.factor);
    (low, if long { load.high.0 * task.factor } else { load.high.0 })
}

/// The largest current that counts in a line over every state that an allowance lets be: the
/// phasors are added.
fn worst(board: &Board, task: &SetSwitches, allowance: u8) -> f64 {
    let lines: Vec<Conductor> =
        [Conductor::L1, Conductor::L2, Conductor::L3, Conductor::L].to_vec();
    let flows: Vec<Option<(Conductor, Conductor, Phasor)>> = task
        .loads
        .iter()
        .map(|load| match gives(board, task.supply, load.group) {
            Gives::Mains(a, b, (x, y)) => {
                assert_eq!(load.conductors, Some([a, b]), "{task:?}");
                let size = (x * x + y * y).sqrt();
                Some((a, b, (x / size, y / size)))
            }
            _ => {
                assert_eq!(load.conductors, None);
                None
            }
        })
        .collect();
    let counts: Vec<(f64, f64)> = task.loads.iter().map(|load| counted(task, load)).collect();
    let limited: Vec<bool> = task.loads.iter().map(|load| limited(load.device)).collect();
    // The hand adds plain numbers: with all on, no line may carry another sum of phasors.
    for line in &lines {
        let mut sum = (0.0, 0.0);
        let mut plain = 0.0;
        for (flow, (_, high)) in flows.iter().zip(&counts) {
            let Some((a, b, (x, y))) = flow else { continue };
            let sign = f64::from(i8::from(line == a) - i8::from(line == b));
            sum = (sum.0 + sign * high * x, sum.1 + sign * high * y);
            plain += sign.abs() * high;
        }
        let size = f64::sqrt(sum.0 * sum.0 + sum.1 * sum.1);
        assert!((size - plain).abs() < 1e-6, "{line} {size} {plain} {task:?}");
    }
    let states: usize = task.loads.iter().map(choices).product();
    assert!(states <= 2_000_000, "too many states: {states}");
    let mut most: f64 = 0.0;
    for number in 0..states {
        let mut rest = number;
        let mut on_high = 0;
        let mut heats = false;
        let mut sums = [(0.0, 0.0); 4];
        for (at, load) in task.loads.iter().enumerate() {
            let choice = rest % choices(load);
            rest /= choices(load);
            // 0 is off, 1 on high, 2 on low.
            let amps = match choice {
                0 => continue,
                1 => counts[at].1,
                _ => counts[at].0,
            };
            on_high += usize::from(limited[at] && choice == 1);
            heats |= load.device == Device::Heater;
            let Some((a, b, (x, y))) = flows[at] else { continue };
            for (line, sum) in lines.iter().zip(&mut sums) {
                let sign = f64::from(i8::from(*line == a) - i8::from(*line == b));
                sum.0 += sign * amps * x;
                sum.1 += sign * amps * y;
            }
        }
        if heats && on_high > usize::from(allowance) {
            continue;
        }
        for (x, y) in sums {
            most = most.max((x * x + y * y).sqrt());
        }
    }
    most
}

fn choices(load: &LoadAt) -> usize {
    if load.low.is_some() { 3 } else { 2 }
}

/// Tries every position of the ways that set the allowance.
pub fn set_switches(board: &Board, task: &SetSwitches) {
    let fields: Vec<_> = board
        .banks
        .iter()
        .enumerate()
        .flat_map(|(bank, it)| it.fields.iter().map(move |field| (bank, field)))
        .filter(|(_, field)| field.effect == Some(Effect::HeaterAllowance))
        .collect();
    let [(bank, field)] = fields[..] else { panic!("{task:?}") };
    assert_eq!(task.line, field.span);
    assert_eq!(task.factor, if task.rules == Rules::Nec { 1.25 } else { 1.0 });
    given(board, task);
    let allowance = |meaning: &Meaning| match meaning {
        Meaning::Allowance(Allowance::Loads(number)) => *number,
        _ => panic!("{task:?}"),
    };
    let mut needs: Vec<(u8, f64)> = Vec::new();
    for setting in &field.settings {
        let number = allowance(&setting.meaning);
        if needs.iter().all(|(known, _)| *known != number) {
            needs.push((number, worst(board, task, number)));
        }
    }
    needs.sort_by_key(|(number, _)| *number);
    let carried = needs.iter().filter(|(_, amps)| *amps <= task.breaker.0 + 1e-9);
    let highest = carried.map(|(number, _)| *number).max().expect("one is carried");
    assert_eq!(task.answer.allowance, highest, "{needs:?} {task:?}");
    // No sum lies so close to the breaker that rounding would decide.
    for (_, amps) in &needs {
        assert!((amps - task.breaker.0).abs() > 0.3, "{needs:?} {task:?}");
    }
    let sum_of = |sum: &LineSum| -> f64 { sum.terms.iter().map(|term| term.counted.0).sum() };
    let need = |number: u8| needs.iter().find(|(known, _)| *known == number).expect("there").1;
    assert!((sum_of(&task.sum) - need(highest)).abs() < 1e-6, "{needs:?} {task:?}");
    assert!((task.sum.amps.0 - need(highest)).abs() < 1e-6, "{task:?}");
    let next = needs.iter().map(|(number, _)| *number).find(|number| *number > highest);
    assert_eq!(task.next.as_ref().map(|(number, _)| *number), next, "{task:?}");
    if let Some((number, sum)) = &task.next {
        assert!((sum_of(sum) - need(*number)).abs() < 1e-6, "{task:?}");
        assert!(sum.amps.0 > task.breaker.0, "{task:?}");
    }
    let right: Vec<&[bool]> = field
        .settings
        .iter()
        .filter(|setting| allowance(&setting.meaning) == highest)
        .map(|setting| setting.positions.as_slice())
        .collect();
    let ways = usize::from(field.first) - 1..usize::from(field.last);
    let stands = |answer: &SwitchAnswer| {
        assert_eq!(answer.banks.len(), board.banks.len());
        answer.banks[bank].positions[ways.clone()].to_vec()
    };
    assert_eq!(right, [stands(&task.answer).as_slice()], "{task:?}");
    for (at, setting) in task.answer.banks.iter().enumerate() {
        let mut shipped = board.banks[at].shipped();
        // Ways that set the layout number stand for the layout of the exercise.
        for field in &board.banks[at].fields {
            let sets = |it: &&Setting| it.meaning == Meaning::Layout(Some(task.layout));
            if let Some(setting) = field.settings.iter().find(sets) {
                let ours = usize::from(field.first) - 1..usize::from(field.last);
                shipped[ours].copy_from_slice(&setting.positions);
            }
        }
        if at == bank {
            shipped[ways.clone()].copy_from_slice(right[0]);
        }
        assert_eq!(setting.positions, shipped, "{task:?}");
    }
    // Not trivial: a slip ends at another allowance.
    let mut others = task.traps.iter().map(|trap| trap.answer.allowance);
    assert!(needs.len() > 1 && others.any(|other| other != highest), "{task:?}");
    slips(board, task, &needs);
    let mut answers: Vec<_> = task.traps.iter().map(|trap| trap.answer.clone()).collect();
    for wrong in &answers {
        assert_ne!(stands(wrong), right[0], "{task:?}");
    }
    answers.push(task.answer.clone());
    assert!(all_differ(&answers), "{task:?}");
}

/// Each slip is made again: it must end where the trap says.
fn slips(board: &Board, task: &SetSwitches, needs: &[(u8, f64)]) {
    let highest = |of: &SetSwitches| {
        let carried = needs.iter().map(|(number, _)| *number);
        carried.filter(|number| worst(board, of, *number) <= task.breaker.0 + 1e-9).max()
    };
    for trap in &task.traps {
        let mut misread = task.clone();
        let found = match &trap.mistake {
            SwitchSlip::FactorForgotten => {
                misread.factor = 1.0;
                highest(&misread)
            }
            SwitchSlip::HeaterForgotten => {
                for load in &mut misread.loads {
                    if load.device == Device::Heater {
                        load.high.0 = 0.0;
                    }
                }
                highest(&misread)
            }
            SwitchSlip::OneHigher(_) => task.next.as_ref().map(|(number, _)| *number),
            SwitchSlip::WaysBackwards => Some(task.answer.allowance),
            SwitchSlip::LinesAdded => added(task, needs),
        };
        assert_eq!(found, Some(trap.answer.allowance), "{:?} {task:?}", trap.mistake);
    }
}

/// The highest setting if all that draws from the mains were added as if in one line: the heater,
/// everything at its least, and what gains most on high; or all on high without the heater.
fn added(task: &SetSwitches, needs: &[(u8, f64)]) -> Option<u8> {
    let mains = || task.loads.iter().filter(|load| load.conductors.is_some());
    let limited = |load: &&LoadAt| limited(load.device);
    let fixed: f64 = mains().filter(|load| !limited(load)).map(|load| counted(task, load).1).sum();
    let heater: f64 = mains()
        .filter(|load| load.device == Device::Heater)
        .map(|load| counted(task, load).1)
        .sum();
    let moving: Vec<(f64, f64)> = mains().filter(limited).map(|load| counted(task, load)).collect();
    let all: f64 = moving.iter().map(|(low, high)| low.max(*high)).sum();
    let mut gains: Vec<f64> = moving.iter().map(|(low, high)| (high - low).max(0.0)).collect();
    gains.sort_by(|a, b| b.total_cmp(a));
    let least: f64 = moving.iter().map(|(low, _)| low).sum();
    let sum = |number: u8| {
        let gained: f64 = gains.iter().take(usize::from(number)).sum();
        (fixed + least + gained).max(fixed - heater + all)
    };
    let carried = needs.iter().map(|(number, _)| *number);
    carried.filter(|number| sum(*number) <= task.breaker.0 + 1e-9).max()
}

/// What is given is what the layout has: all that it needs, each where it belongs.
fn given(board: &Board, task: &SetSwitches) {
    let there = slots(board, task.layout);
    for slot in there.iter().filter(|slot| slot.needed || slot.device == Device::Heater) {
        assert!(task.loads.iter().any(|load| load.header == slot.header), "{slot:?} {task:?}");
    }
    for load in &task.loads {
        let slot = there.iter().find(|slot| slot.header == load.header).expect("in use");
        assert_eq!(slot.device, load.device, "{task:?}");
        let groups = match board[load.header].feed {
            Feed::Group(group) => vec![group],
            Feed::Jumper(jumper) => board[jumper].groups.clone(),
        };
        assert!(groups.contains(&load.group), "{task:?}");
        let volts = volts(board, task.supply, load.group).expect("it has its voltage");
        let plate = load.volts.0;
        if load.device == Device::Heater {
            // The plate's current, or the real one if that is more or the voltage another.
            let element = task.element;
            let real = element.watts.0 / element.at.0 * (volts / element.at.0);
            let near = (volts - element.at.0).abs() <= 0.1 * element.at.0 + 1e-9;
            let counts = if near { real.max(element.watts.0 / element.at.0) } else { real };
            assert!((load.high.0 - counts).abs() < 1e-6, "{task:?}");
        } else {
            assert!((volts - plate).abs() <= 0.1 * plate + 1e-9, "{task:?}");
            for amps in [Some(load.high), load.low].into_iter().flatten() {
                let tenths = amps.0 * 10.0;
                assert!((tenths - tenths.round()).abs() < 1e-9, "{task:?}");
            }
            let max = board[load.header].max.map_or(f64::INFINITY, |max| max.0);
            let fuse = board[load.header].fuse.map_or(f64::INFINITY, |it| board[it].rating.0);
            assert!(load.high.0 <= max.min(fuse), "{task:?}");
        }
    }
}
