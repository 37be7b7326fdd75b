//! The worked example of a handout: one spa, taken from the same generator as the exercises.

use crate::board::{Board, Device, GroupId, HeaderId, LayoutNumber, Role, Speeds, SupplyId};
use crate::decide::exercises::{DrawPins, Exercise, MoveJumpers, SetSwitches, Task, exercises};
use crate::decide::{Wanted, fitting, pin_order, pin_order_for};
use crate::units::Volts;

/// How many exercises the example is chosen from.
const POOL: usize = 60;
/// Keeps the pool's seed from that of the exercises; an odd number of our own.
const OTHER: u64 = 0x51d5_ee7b_0a2d_1c39;

/// One spa, worked from its equipment to its sockets.
#[derive(Clone, Debug)]
pub struct Example {
    /// What feeds it.
    pub supply: SupplyId,
    /// Its layout: the only one that fits.
    pub layout: LayoutNumber,
    /// What is fitted, as the matrix is asked.
    pub fitted: Vec<Wanted>,
    /// What is plugged in where, in the order of the headers.
    pub devices: Vec<Plugged>,
    /// The headers that stay empty.
    pub empty: Vec<HeaderId>,
    /// The sum for its breaker.
    pub switches: Option<SetSwitches>,
    /// One of its cords.
    pub pins: Option<DrawPins>,
}

/// A device at its header.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Plugged {
    /// The header.
    pub header: HeaderId,
    /// The device.
    pub device: Device,
    /// Its speeds.
    pub speeds: Speeds,
    /// The group that feeds it.
    pub group: GroupId,
    /// The voltage on its plate.
    pub volts: Volts,
}

/// The example for a handout with these exercises: of all that the generator gives from another
/// seed, the first that tells least about them. `None` if there is none at all.
pub fn example(board: &Board, asked: &[Exercise], seed: u64) -> Option<Example> {
    let pool = exercises(board, POOL, seed ^ OTHER);
    let mut best: Option<(usize, Example)> = None;
    for candidate in &pool {
        let made = match &candidate.task {
            Task::SetSwitches(task) => of_switches(board, task),
            Task::MoveJumpers(task) => of_jumpers(board, task),
            _ => None,
        };
        let Some(made) = made else { continue };
        let told = told(&made, asked);
        if best.as_ref().is_none_or(|(least, _)| told < *least) {
            best = Some((told, made));
        }
    }
    let (_, mut example) = best?;
    example.pins = cord(board, &example, asked);
    Some(example)
}

/// How much of the exercises an example gives away, and what it leaves out.
fn told(example: &Example, asked: &[Exercise]) -> usize {
    let of_one = |exercise: &Exercise| match &exercise.task {
        Task::FindLayout(task) => 4 * usize::from(task.answer == example.layout),
        Task::WhichHeader(task) => 4 * usize::from(task.layout == example.layout),
        Task::MoveJumpers(task) => 2 * usize::from(task.layout == example.layout),
        Task::SetSwitches(task) => match &example.switches {
            Some(shown) if shown.layout == task.layout => {
                if shown.breaker == task.breaker && shown.supply == task.supply { 4 } else { 1 }
            }
            _ => 0,
        },
        Task::DrawPins(_) | Task::Notice(_) | Task::WhatsWrong(_) => 0,
    };
    asked.iter().map(of_one).sum::<usize>() + lacks(example)
}

/// How much an example leaves out: there should be a sum, a setting that is too high, and more than
/// one pump or blower.
fn lacks(example: &Example) -> usize {
    let next = example.switches.as_ref().is_some_and(|task| task.next.is_some());
    let busy = example.devices.iter().filter(|d| d.device.counts_for_allowance()).count() > 1;
    3 * usize::from(example.switches.is_none()) + 2 * usize::from(!next) + usize::from(!busy)
}

fn of_switches(board: &Board, task: &SetSwitches) -> Option<Example> {
    let devices = task.loads.iter().map(|load| Plugged {
        header: load.header,
        device: load.device,
        speeds: if load.low.is_some() { Speeds::Two } else { Speeds::One },
        group: load.group,
        volts: load.volts,
    });
    let example = made(board, (task.supply, task.layout), devices.collect())?;
    Some(Example { switches: Some(task.clone()), ..example })
}

fn of_jumpers(board: &Board, task: &MoveJumpers) -> Option<Example> {
    let layout = board.layout(task.layout)?;
    let mut devices = Vec::new();
    for plate in &task.plates {
        let speeds = board.speeds_at(layout, plate.device).unwrap_or(Speeds::One);
        let jumper = match board[plate.header].feed {
            crate::board::Feed::Jumper(jumper) => jumper,
            crate::board::Feed::Group(_) => return None,
        };
        let group = task.answer.iter().find(|answer| answer.jumper == jumper)?.group;
        let (header, device, volts) = (plate.header, plate.device, plate.volts);
        devices.push(Plugged { header, device, speeds, group, volts });
    }
    made(board, (task.supply, task.layout), devices)
}

/// The example, if its equipment has one layout only.
fn made(
    board: &Board,
    (supply, number): (SupplyId, LayoutNumber),
    devices: Vec<Plugged>,
) -> Option<Example> {
    let layout = board.layout(number)?;
    let fitted: Vec<Wanted> = devices
        .iter()
        .filter(|plugged| board.columns.contains(&plugged.device))
        .map(|plugged| Wanted {
            role: match plugged.device {
                Device::Pump(_) => Role::AnyPump,
                device => Role::Named(device),
            },
            speeds: plugged.speeds,
        })
        .collect();
    if fitting(board, &fitted) != [number] {
        return None;
    }
    let empty = board.header_ids().filter(|id| board.device_at(*id, layout).is_none()).collect();
    Some(Example { supply, layout: number, fitted, devices, empty, switches: None, pins: None })
}

/// A cord of the example that no exercise asks for: one that is turned, or has a gap, if there is
/// one.
fn cord(board: &Board, example: &Example, asked: &[Exercise]) -> Option<DrawPins> {
    let is_asked = |plugged: &Plugged| {
        asked.iter().any(|exercise| match &exercise.task {
            Task::DrawPins(task) => task.header == plugged.header && task.speeds == plugged.speeds,
            _ => false,
        })
    };
    let worth = |plugged: &Plugged| {
        let header = &board[plugged.header];
        let socket = &board[header.socket];
        let turned = header.key.is_some() && header.key != socket.key_drawn;
        let gap =
            pin_order_for(socket, header.key, plugged.speeds) != pin_order(socket, header.key);
        2 * usize::from(turned) + usize::from(gap)
    };
    let free = example.devices.iter().filter(|plugged| !is_asked(plugged));
    // Of equals the first: `max_by_key` would take the last.
    let plugged = free.rev().max_by_key(|plugged| worth(plugged))?;
    let header = &board[plugged.header];
    let socket = &board[header.socket];
    let answer = pin_order_for(socket, header.key, plugged.speeds);
    Some(DrawPins {
        header: plugged.header,
        speeds: plugged.speeds,
        gap: answer.pins.contains(&None),
        answer,
        turn: socket.key_drawn.zip(header.key),
        socket_line: socket.span,
        header_line: header.span,
        traps: Vec::new(),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::board::check;
    use crate::decide::{group_voltage, suits};
    use crate::diagnostic::Problems;
    use crate::source::Sources;
    use crate::spec;

    fn heron() -> Board {
        let (mut sources, mut problems) = (Sources::default(), Problems::default());
        let text = include_str!("../../../tests/version-1/heron-8.yaml");
        let file = sources.add("heron-8.yaml", text);
        let mut load = |table: &str| Err(format!("no table {table} here"));
        spec::parse(file, &mut sources, &mut load, &mut problems)
            .and_then(|spec| check(&spec, &sources, &mut problems))
            .unwrap_or_else(|_| panic!("{:#?}", problems.clone().sorted()))
    }

    /// Every device has its plate's voltage, at the header that serves it in the only layout that
    /// fits; and no exercise asks what the example shows.
    #[test]
    fn an_example_is_right_and_tells_no_answer() {
        let board = heron();
        for seed in 0..12 {
            let asked = exercises(&board, 14, seed);
            let example = example(&board, &asked, seed).expect("Heron 8 has one");
            assert_eq!(fitting(&board, &example.fitted), [example.layout]);
            let layout = board.layout(example.layout).expect("it is there");
            for plugged in &example.devices {
                assert_eq!(board.device_at(plugged.header, layout), Some(plugged.device));
                let volts = group_voltage(&board, example.supply, plugged.group).volts();
                let heater = plugged.device == Device::Heater;
                assert!(heater || volts.is_some_and(|volts| suits(volts, plugged.volts)));
                assert!(!example.empty.contains(&plugged.header));
            }
            let pins = example.pins.as_ref().expect("a cord");
            for exercise in &asked {
                match &exercise.task {
                    Task::DrawPins(task) => {
                        assert!((task.header, task.speeds) != (pins.header, pins.speeds));
                    }
                    Task::FindLayout(task) => assert_ne!(task.answer, example.layout, "{seed}"),
                    Task::WhichHeader(task) => assert_ne!(task.layout, example.layout, "{seed}"),
                    _ => {}
                }
            }
        }
    }
}
