//! Layouts, headers, sockets.

use lidsheet::board::{Board, Device, HeaderId, LayoutNumber, Pin, Role, Speeds};
use lidsheet::decide::Wanted;
use lidsheet::decide::exercises::{
    DrawPins, EmptyWhy, FindLayout, HeaderSlip, LayoutSlip, WhichHeader,
};
use lidsheet::decide::pins::{PinOrder, ReadFrom};
use lidsheet::geometry::Side;

use super::all_differ;
use crate::oracle::search::{Slot, slots};

/// Whether everything that is fitted finds a place of its own and no needed place is left: by
/// trying every way to spread them.
fn fits(slots: &[Slot], fitted: &[Wanted], taken: &mut Vec<usize>) -> bool {
    let Some(one) = fitted.get(taken.len()) else {
        return slots.iter().enumerate().all(|(at, slot)| !slot.needed || taken.contains(&at));
    };
    (0..slots.len()).any(|at| {
        let slot = &slots[at];
        let can = match one.role {
            Role::AnyPump => matches!(slot.device, Device::Pump(_)),
            Role::Named(device) => device == slot.device,
        };
        if !can || slot.speeds != one.speeds || taken.contains(&at) {
            return false;
        }
        taken.push(at);
        let found = fits(slots, fitted, taken);
        taken.pop();
        found
    })
}

fn layouts(board: &Board, fitted: &[Wanted]) -> Vec<LayoutNumber> {
    let all = board.layouts.iter().map(|layout| layout.number);
    all.filter(|number| fits(&slots(board, *number), fitted, &mut Vec::new())).collect()
}

pub fn find_layout(board: &Board, task: &FindLayout) {
    assert_eq!(layouts(board, &task.fitted), [task.answer], "{task:?}");
    // What each is, is there, once, and has the right role and speeds.
    let there = slots(board, task.answer);
    assert!(all_differ(&task.places), "{task:?}");
    for (one, place) in task.fitted.iter().zip(&task.places) {
        let slot = there.iter().find(|slot| slot.device == *place).expect("it is there");
        assert_eq!(slot.speeds, one.speeds, "{task:?}");
        match one.role {
            Role::AnyPump => assert!(matches!(place, Device::Pump(_))),
            Role::Named(device) => assert_eq!(device, *place),
        }
    }
    assert_eq!(task.fitted.len(), task.places.len());
    let row = board.layouts.iter().find(|layout| layout.number == task.answer);
    assert_eq!(row.map(|row| row.span), Some(task.row));
    // Not trivial: pumps have no number, the heater is not told of, and another layout tempts.
    for one in &task.fitted {
        let told = matches!(one.role, Role::Named(Device::Pump(_) | Device::Heater));
        assert!(!told, "{task:?}");
    }
    assert!(board.layouts.len() > 1 && !task.traps.is_empty(), "{task:?}");
    let mut answers: Vec<_> = task.traps.iter().map(|trap| trap.answer).collect();
    answers.push(task.answer);
    assert!(all_differ(&answers), "{task:?}");
    for trap in &task.traps {
        assert!(misread(board, task, trap.mistake) == [trap.answer], "{task:?}");
    }
}

/// What comes of a slip.
fn misread(board: &Board, task: &FindLayout, slip: LayoutSlip) -> Vec<LayoutNumber> {
    let circulation = Wanted { role: Role::Named(Device::Circulation), speeds: Speeds::One };
    let at = |one: Wanted| task.fitted.iter().position(|it| *it == one).expect("it is fitted");
    let mut list = task.fitted.clone();
    match slip {
        LayoutSlip::CirculationForgotten => {
            list.remove(at(circulation));
        }
        LayoutSlip::TakenForCirculation { fitted } => {
            assert_eq!(list[fitted].role, Role::AnyPump);
            list[fitted] = circulation;
        }
        LayoutSlip::CirculationTakenForPump => list[at(circulation)].role = Role::AnyPump,
        LayoutSlip::OtherSpeeds { fitted, taken } => {
            assert_ne!(list[fitted].speeds, taken);
            list[fitted].speeds = taken;
        }
        LayoutSlip::LeftOut { fitted } => {
            list.remove(fitted);
        }
        LayoutSlip::Added { device, speeds } => {
            assert!(!task.places.contains(&device), "{task:?}");
            let role = match device {
                Device::Pump(_) => Role::AnyPump,
                device => Role::Named(device),
            };
            list.push(Wanted { role, speeds });
        }
    }
    layouts(board, &list)
}

pub fn which_header(board: &Board, task: &WhichHeader) {
    let takes = |header: HeaderId, number: LayoutNumber| {
        let slots = slots(board, number);
        slots.into_iter().find(|slot| slot.header == header)
    };
    let serves = |header: HeaderId, number: LayoutNumber| {
        takes(header, number).is_some_and(|slot| slot.device == task.device)
    };
    let right: Vec<HeaderId> =
        board.header_ids().filter(|header| serves(*header, task.layout)).collect();
    assert_eq!(right, [task.answer], "{task:?}");
    assert_eq!(takes(task.answer, task.layout).map(|slot| slot.speeds), Some(task.speeds));
    for layout in &board.layouts {
        let there = task.layouts.contains(layout.number);
        assert_eq!(serves(task.answer, layout.number), there, "{task:?}");
    }
    let empty: Vec<HeaderId> =
        board.header_ids().filter(|header| takes(*header, task.layout).is_none()).collect();
    let stated: Vec<HeaderId> = task.empty.iter().map(|empty| empty.header).collect();
    assert_eq!(stated, empty, "{task:?}");
    let row = board.layouts.iter().find(|layout| layout.number == task.layout).expect("there");
    for empty in &task.empty {
        let header = &board[empty.header];
        let would = header.serves.iter().find(|(set, _)| set.contains(task.layout));
        match (empty.because, would) {
            (EmptyWhy::ServesNothing, None) => {}
            (EmptyWhy::DeviceNotFitted(device), Some((_, would))) => {
                assert_eq!(device, *would);
                // A further cord is there whenever its device is.
                let own = board.devices.iter().find(|own| own.device == device && own.is_cord);
                let of = own.and_then(|own| own.runs_with).unwrap_or(device);
                let column = board.columns.iter().position(|it| *it == of).expect("a column");
                assert_eq!(row.speeds[column], Speeds::None);
            }
            other => panic!("{other:?} {task:?}"),
        }
    }
    assert_eq!((task.line, task.row), (board[task.answer].span, row.span));
    // Not trivial: something else could be chosen.
    assert!(!task.traps.is_empty(), "{task:?}");
    let mut answers: Vec<_> = task.traps.iter().map(|trap| trap.answer).collect();
    answers.push(task.answer);
    assert!(all_differ(&answers), "{task:?}");
    for trap in &task.traps {
        let title = board[trap.answer].title.to_lowercase();
        let here = takes(trap.answer, task.layout).map(|slot| slot.device);
        match &trap.mistake {
            HeaderSlip::OtherLayouts(set) => {
                for layout in &board.layouts {
                    let there = set.contains(layout.number);
                    assert_eq!(serves(trap.answer, layout.number), there, "{task:?}");
                }
            }
            HeaderSlip::TitleOfEmpty => {
                assert!(title.contains(&task.device.to_string()) && here.is_none(), "{task:?}");
            }
            HeaderSlip::TitleOfOther(other) => {
                assert!(title.contains(&task.device.to_string()), "{task:?}");
                assert!(here == Some(*other) && *other != task.device, "{task:?}");
            }
            HeaderSlip::PlugFits(there) => {
                assert_eq!(board[trap.answer].socket, board[task.answer].socket, "{task:?}");
                assert!(here == *there && here != Some(task.device), "{task:?}");
                assert!(!title.contains(&task.device.to_string()), "{task:?}");
            }
        }
    }
}

/// Draws the socket on paper, turns the paper, and tries every order of the wires.
pub fn draw_pins(board: &Board, task: &DrawPins) {
    let header = &board[task.header];
    let socket = &board[header.socket];
    let count = socket.pins.len();
    // Where each cavity is drawn: in a column from the top, or in a row from the left.
    let row = matches!(socket.key_drawn, Some(Side::Up | Side::Down));
    let quarter = |side: Side| match side {
        Side::Up => 0,
        Side::Right => 1,
        Side::Down => 2,
        Side::Left => 3,
    };
    let turns = match (socket.key_drawn, header.key) {
        (Some(drawn), Some(key)) => (quarter(key) + 4 - quarter(drawn)) % 4,
        _ => 0,
    };
    let place = |at: usize| {
        let mut here = if row { (at as i32, 0) } else { (0, at as i32) };
        for _ in 0..turns {
            // A quarter turn clockwise, y downwards.
            here = (-here.1, here.0);
        }
        here
    };
    let stands = count > 1 && place(1).0 == place(0).0;
    let mut cavities: Vec<usize> = (0..count).collect();
    cavities.sort_by_key(|at| if stands { place(*at).1 } else { place(*at).0 });
    let wire = |at: usize| {
        let pin = socket.pins[at];
        let brings =
            task.speeds == Speeds::Two || pin != Pin::Low || !socket.pins.contains(&Pin::High);
        brings.then_some(pin)
    };
    let wires: Vec<Option<Pin>> = (0..count).map(wire).collect();
    let right = |order: &[Option<Pin>]| {
        order.len() == count && order.iter().zip(&cavities).all(|(pin, at)| *pin == wires[*at])
    };
    let mut orders: Vec<Vec<Option<Pin>>> = Vec::new();
    permute(&mut wires.clone(), 0, &mut orders);
    orders.sort();
    orders.dedup();
    orders.retain(|order| right(order));
    assert_eq!(orders, std::slice::from_ref(&task.answer.pins), "{task:?}");
    if count > 1 {
        assert_eq!(task.answer.read_from == ReadFrom::Top, stands, "{task:?}");
    }
    assert_eq!(task.gap, wires.contains(&None), "{task:?}");
    assert_eq!(task.turn, socket.key_drawn.zip(header.key), "{task:?}");
    assert_eq!((task.socket_line, task.header_line), (socket.span, header.span));
    // Not trivial: the answer is not the list that stands there.
    let listed: Vec<Option<Pin>> = socket.pins.iter().copied().map(Some).collect();
    assert!(turns != 0 || task.answer.pins != listed, "{task:?}");
    assert!(!task.traps.is_empty(), "{task:?}");
    let mut answers: Vec<PinOrder> = task.traps.iter().map(|trap| trap.answer.clone()).collect();
    assert!(answers.iter().all(|wrong| !right(&wrong.pins)), "{task:?}");
    answers.push(task.answer.clone());
    assert!(all_differ(&answers), "{task:?}");
}

fn permute(all: &mut Vec<Option<Pin>>, from: usize, found: &mut Vec<Vec<Option<Pin>>>) {
    if from == all.len() {
        found.push(all.clone());
        return;
    }
    for at in from..all.len() {
        all.swap(from, at);
        permute(all, from + 1, found);
        all.swap(from, at);
    }
}
