//! What must hold for every sound board, not only for the ones in `specs`.
//!
//! Each property has its own oracle: a slower or plainer way to the same answer, written without
//! the code that it judges.

use std::collections::{BTreeSet, HashMap};

use crate::compile;
use crate::generate::{self, boards};
use lidsheet::board::{
    Board, Designators, Device, Feed, Field, FuseId, GroupSource, Pin, Socket, Speeds, SupplyId,
};
use lidsheet::decide::{self, ReadFrom, Tree};
use lidsheet::diagnostic::Severity;
use lidsheet::geometry::Side;
use proptest::prelude::*;

proptest! {
    #![proptest_config(crate::generate::cases(256))]

    #[test]
    fn every_board_is_checked_without_an_error(text in generate::any_board()) {
        let compile::Outcome { board, problems, sources, .. } = compile::compile(&text);
        let errors: Vec<_> =
            problems.into_iter().filter(|p| p.code.severity() == Severity::Error).collect();
        prop_assert!(errors.is_empty(), "{}", compile::told(&errors, &sources));
        prop_assert!(board.is_some());
    }

    /// No warning is a false alarm: the generator writes no such boards, but for those that may
    /// carry less than their heater draws, which is worked out again here.
    #[test]
    fn no_warning_is_a_false_alarm(text in generate::any_board()) {
        let compile::Outcome { board, problems, sources, .. } = compile::compile(&text);
        let board = board.expect("sound");
        let codes: Vec<&str> = problems.iter().map(|problem| problem.code.text()).collect();
        for never in ["L113", "L217", "L411", "L706"] {
            prop_assert!(!codes.contains(&never), "{}", compile::told(&problems, &sources));
        }
        let too_much = board.heater.zip(board.about.max_current).is_some_and(|(heater, max)| {
            let ohms = heater.at.0 * heater.at.0 / heater.watts.0;
            let of_heater = board.headers.iter().filter(|header| {
                header.serves.iter().any(|(_, device)| *device == Device::Heater)
            });
            let groups: Vec<_> = of_heater.flat_map(|header| match header.feed {
                Feed::Group(group) => vec![group],
                Feed::Jumper(jumper) => board[jumper].groups.clone(),
            }).collect();
            let volts = (0..board.supplies.len()).flat_map(|supply| {
                let volts = groups.iter().map(move |group| (supply, *group));
                volts.filter_map(|(s, g)| board.group_volts(SupplyId(s), g)).collect::<Vec<_>>()
            });
            volts.filter(|volts| volts.0 <= 1.1 * heater.at.0).any(|volts| volts.0 / ohms > max.0)
        });
        prop_assert_eq!(codes.contains(&"L218"), too_much, "{}", compile::told(&problems, &sources));
    }

    #[test]
    fn pins_are_read_as_the_turned_drawing_shows_them(text in generate::any_board()) {
        let board = compile::sound(&text);
        for header in &board.headers {
            let socket = &board[header.socket];
            let order = decide::pin_order(socket, header.key);
            let (read_from, pins) = turned_drawing(&socket.pins, socket.key_drawn, header.key);
            prop_assert_eq!(order.read_from, read_from, "{}", &header.code);
            prop_assert_eq!(&order.pins, &pins.into_iter().map(Some).collect::<Vec<_>>());
            let (_, wires) = turned_drawing(&socket.wires, socket.key_drawn, header.key);
            prop_assert_eq!(order.colours, wires, "{}", &header.code);
            // A cord for one speed: its own wires, each with its pin, and none for *low*.
            let short = decide::pin_order_for(socket, header.key, Speeds::One);
            let own = socket.pins.contains(&Pin::Low) && socket.pins.contains(&Pin::High);
            let wires = if own { &socket.one_speed_wires } else { &socket.wires };
            let (_, wires) = turned_drawing(wires, socket.key_drawn, header.key);
            prop_assert_eq!(&short.colours, &wires, "{}", &header.code);
            for (pin, colour) in short.cavities() {
                prop_assert!(pin.is_some() || colour.is_none(), "{}", &header.code);
            }
        }
    }

    #[test]
    fn in_every_layout_one_header_serves_each_device(text in generate::any_board()) {
        let board = compile::sound(&text);
        for layout in &board.layouts {
            let mut served: Vec<Device> =
                board.header_ids().filter_map(|header| board.device_at(header, layout)).collect();
            served.sort();
            let mut once = served.clone();
            once.dedup();
            prop_assert_eq!(&served, &once, "layout {}", layout.number);
            prop_assert_eq!(layout.speeds.len(), board.columns.len());
            for (device, speeds) in board.columns.iter().zip(&layout.speeds) {
                prop_assert_eq!(served.contains(device), *speeds != Speeds::None, "{}", device);
            }
        }
    }

    #[test]
    fn the_questions_lead_to_every_layout(text in generate::any_board()) {
        let board = compile::sound(&text);
        let questions = decide::questions(&board).expect("a board has a layout");
        prop_assert!(questions.optimal);
        let (mut worst, mut total) = (0, 0);
        for layout in &board.layouts {
            let mut asked = 0;
            let mut tree = &questions.tree;
            while let Tree::Ask { column, device, answers } = tree {
                prop_assert_eq!(board.columns[*column], *device);
                prop_assert!(answers.len() > 1, "a question with one answer");
                let answer = answers.iter().find(|(speeds, _)| *speeds == layout.speeds[*column]);
                tree = &answer.expect("the question has an answer for every layout").1;
                asked += 1;
            }
            prop_assert_eq!(tree, &Tree::Layout(layout.number));
            worst = worst.max(asked);
            total += asked;
        }
        prop_assert_eq!((questions.worst, questions.total), (worst, total));
    }
}

proptest! {
    #![proptest_config(crate::generate::cases(64))]

    #[test]
    fn no_other_questions_are_fewer(text in generate::any_board()) {
        let board = compile::sound(&text);
        let questions = decide::questions(&board).expect("a board has a layout");
        let rows: Vec<usize> = (0..board.layouts.len()).collect();
        let mut known = HashMap::new();
        let least = (0..).find_map(|depth| {
            Some((depth, fewest(&board, &rows, depth, &mut known)?))
        });
        prop_assert_eq!(least, Some((questions.worst, questions.total)));
    }
}

/// The generator is worth no more than what it makes: over 400 numbers every kind of thing is
/// there, and sizes reach their ends.
#[test]
fn generated_boards_are_of_every_kind() {
    let boards: Vec<Board> = (0..400).map(|seed| compile::sound(&boards::generate(seed))).collect();
    let some = |what: &str, has: &dyn Fn(&Board) -> bool| {
        let count = boards.iter().filter(|board| has(board)).count();
        assert!(count >= 4, "{count} of 400 boards have {what}");
    };
    for parts in 1..=3 {
        some(&format!("{parts} parts"), &|b| b.parts.len() == parts);
    }
    some("no neutral on the first supply", &|b| !b.supplies[0].has_neutral());
    some("links", &|b| !b.links.is_empty());
    some("isolated groups", &|b| {
        b.groups.iter().any(|g| matches!(g.source, GroupSource::Isolated(_)))
    });
    some("no jumper", &|b| b.jumpers.is_empty());
    some("12 jumpers", &|b| b.jumpers.len() == 12);
    some("no fuse", &|b| b.fuses.is_empty());
    some("a shared fuse", &|b| {
        (0..b.fuses.len())
            .any(|fuse| b.headers.iter().filter(|h| h.fuse == Some(FuseId(fuse))).count() > 1)
    });
    some("1 header", &|b| b.headers.len() == 1);
    some("20 headers or more", &|b| b.headers.len() >= 20);
    some("a header that changes its role", &|b| b.headers.iter().any(|h| h.serves.len() > 1));
    some("1 layout", &|b| b.layouts.len() == 1);
    some("30 layouts or more", &|b| b.layouts.len() >= 30);
    some("3 banks", &|b| b.banks.len() == 3);
    some("unused ways", &|b| b.banks.iter().any(|bank| bank.fields.iter().any(Field::unused)));
    some("a field of 4 ways", &|b| {
        b.banks.iter().any(|bank| bank.fields.iter().any(|field| field.last - field.first == 3))
    });
    some("2 panels", &|b| b.panels.len() == 2);
    some("IEC designators", &|b| b.about.designators == Designators::Iec81346);
    some("a title with markup", &|b| b.headers.iter().any(|h| h.title.contains("<script>")));
    for drawn in Side::ALL {
        for key in Side::ALL {
            some(&format!("a key drawn {} that faces {}", drawn.word(), key.word()), &|b| {
                b.headers.iter().any(|h| h.key == Some(key) && b[h.socket].key_drawn == Some(drawn))
            });
        }
    }
    some("a socket without a key", &|b| b.sockets.iter().any(|s| s.key_drawn.is_none()));
    let repeats = |socket: &Socket| {
        let same =
            |kind: Pin| socket.pins.iter().zip(&socket.wires).filter(move |(pin, _)| **pin == kind);
        let colours = |kind| same(kind).filter_map(|(_, wire)| *wire).collect::<BTreeSet<_>>();
        [Pin::Ground, Pin::Signal, Pin::Screen].into_iter().any(|kind| colours(kind).len() > 1)
    };
    some("pins for the same with wires of two colours", &|b| b.sockets.iter().any(repeats));
    some("a cord for one speed with colours, drawn turned by a half", &|b| {
        b.headers.iter().any(|h| {
            let drawn = b[h.socket].key_drawn.zip(h.key);
            drawn.is_some_and(|(drawn, key)| drawn.turn_to(key).quarters() == 2)
                && b[h.socket].one_speed_wires.iter().any(Option::is_some)
        })
    });
    some("a socket of 8 pins or more", &|b| b.sockets.iter().any(|s| s.pins.len() >= 8));
    let texts = |seed| boards::generate(seed);
    assert_eq!(texts(7), texts(7));
    assert_ne!(texts(7), texts(8));
}

/// The first outputs for this seed as Rosetta Code prints them ("Pseudo-random
/// numbers/Splitmix64"; from memory).
#[test]
fn the_numbers_are_those_of_splitmix64() {
    let mut dice = boards::dice::Dice::new(1_234_567);
    assert_eq!(dice.next(), 6_457_827_717_110_365_317);
    assert_eq!(dice.next(), 3_203_168_211_198_807_973);
    assert_eq!(dice.next(), 9_817_491_932_198_370_423);
}

/// The fewest questions in sum over `rows` with at most `depth` on the way to any of them; `None`
/// if so few do not part them all. Tries every question on every set of rows.
fn fewest(
    board: &Board,
    rows: &[usize],
    depth: usize,
    known: &mut HashMap<(Vec<usize>, usize), Option<usize>>,
) -> Option<usize> {
    if rows.len() == 1 {
        return Some(0);
    }
    if depth == 0 {
        return None;
    }
    if let Some(least) = known.get(&(rows.to_vec(), depth)) {
        return *least;
    }
    let mut least = None;
    for column in 0..board.columns.len() {
        let parts = [Speeds::None, Speeds::One, Speeds::Two].map(|entry| -> Vec<usize> {
            let has = |row: &&usize| board.layouts[**row].speeds[column] == entry;
            rows.iter().filter(has).copied().collect()
        });
        if parts.iter().any(|part| part.len() == rows.len()) {
            continue;
        }
        let sum: Option<usize> = parts
            .iter()
            .filter(|part| !part.is_empty())
            .map(|part| fewest(board, part, depth - 1, known))
            .sum();
        if let Some(sum) = sum {
            least =
                Some(least.map_or(sum + rows.len(), |least: usize| least.min(sum + rows.len())));
        }
    }
    known.insert((rows.to_vec(), depth), least);
    least
}

/// The pins of a socket as they are seen when its drawing is turned until the key faces `key`:
/// every pin is a point beside the others, turned a quarter at a time, and read off by its place.
fn turned_drawing<T: Copy>(
    pins: &[T],
    drawn: Option<Side>,
    key: Option<Side>,
) -> (ReadFrom, Vec<T>) {
    // x to the right, y downwards; the list runs down, or to the right if the key is above or
    // below it.
    let in_a_row = matches!(drawn, Some(Side::Up | Side::Down));
    let mut points: Vec<(i32, i32, T)> = pins
        .iter()
        .zip(0..)
        .map(|(pin, place)| if in_a_row { (place, 0, *pin) } else { (0, place, *pin) })
        .collect();
    let towards = |side: Side| match side {
        Side::Up => (0, -1),
        Side::Right => (1, 0),
        Side::Down => (0, 1),
        Side::Left => (-1, 0),
    };
    if let (Some(drawn), Some(key)) = (drawn, key) {
        let mut facing = towards(drawn);
        while facing != towards(key) {
            // A quarter clockwise on a page whose y grows downwards.
            facing = (-facing.1, facing.0);
            for point in &mut points {
                *point = (-point.1, point.0, point.2);
            }
        }
    }
    let column = points.iter().all(|point| point.0 == points[0].0);
    points.sort_by_key(|point| (point.1, point.0));
    let read_from = if column { ReadFrom::Top } else { ReadFrom::Left };
    (read_from, points.into_iter().map(|point| point.2).collect())
}
