//! The board plan of every board keeps what every plan must keep, on every paper.

use crate::compile::{self, demo};
use crate::generate::boards::{self, Knobs, dice::Dice};
use crate::oracle;
use lidsheet::figure::plan::{LeadKind, Naming, board_plans};
use lidsheet::geometry::Size;
use lidsheet::text::Typesetter;
use lidsheet::words::Words;

/// The least type on a board's plan, points.
const LEAST: f64 = 8.0;

/// Rooms that a plan gets: beside a table and across a page that lies, on A4 and on A5.
const ROOMS: [Size; 4] = [
    Size::new(175.0, 150.0),
    Size::new(261.0, 150.0),
    Size::new(174.0, 220.0),
    Size::new(128.0, 175.0),
];

#[test]
fn the_plans_of_the_demo_boards_show_every_lead() {
    let mut set = Typesetter::new();
    for name in ["heron-8", "wren-3", "curlew-10"] {
        let board = demo::board(name);
        for room in &ROOMS[..2] {
            let plans = board_plans(&board, &Words::english(), &mut set, *room);
            assert_eq!(oracle::board_plan::faults(&board, &plans, LEAST), [""; 0], "{name}");
            let [plan] = &plans[..] else { panic!("{name}: {} pictures", plans.len()) };
            assert_eq!((plan.naming, plan.undrawn()), (Naming::InPlace, 0), "{name} {room:?}");
            assert!(plan.scene.size.height <= room.height + 1e-6, "{name} is too high");
            assert!(plan.leads.iter().all(|lead| lead.kind == LeadKind::Shipped));
        }
    }
}

#[test]
fn every_jumper_has_one_lead_to_where_it_is_shipped() {
    let board = demo::board("curlew-10");
    let plans = board_plans(&board, &Words::english(), &mut Typesetter::new(), ROOMS[0]);
    let plan = &plans[0];
    let wanted = oracle::board_plan::leads(&board);
    assert!(wanted.len() > 5, "{wanted:?}");
    assert_eq!(oracle::board_plan::planned(&board, plan), wanted);
    // The words for those who cannot see it say the same.
    for jumper in &board.jumpers {
        let said = format!("Jumper {} on group {}", jumper.code, board[jumper.shipped].code);
        assert!(plan.scene.description.contains(&said), "{}", plan.scene.description);
    }
}

/// A board of a number, up to the limits of the language.
fn large(seed: u64) -> String {
    let mut dice = Dice::new(seed);
    let groups = dice.within(1, 14);
    let knobs = Knobs {
        parts: dice.within(1, 3),
        supplies: dice.within(1, 4),
        groups,
        isolated: dice.within(0, 2),
        links: dice.within(0, 2),
        // A group has 40 tabs at most.
        jumpers: dice.within(0, if groups > 3 { 64 } else { 36 }),
        fuses: dice.within(0, 64),
        headers: dice.within(5, 64),
        columns: dice.within(3, 9),
        layouts: dice.within(1, 40),
        banks: dice.within(0, 3),
        panels: dice.within(0, 1),
        iec: dice.often(40),
        awkward: dice.often(60),
    };
    boards::board(&knobs, dice.next())
}

/// Every name is there and no lead is unclear, whatever the board and the paper.
#[test]
fn the_plans_of_generated_boards_are_whole() {
    let mut set = Typesetter::new();
    let (mut leads, mut undrawn, mut columns, mut several) = (0, 0, 0, 0);
    // Take turns with the rooms; LIDSHEET_BOARDS asks for more boards than a daily run has.
    let asked = std::env::var("LIDSHEET_BOARDS").ok().and_then(|n| n.parse().ok());
    let count: u64 = asked.unwrap_or(60);
    for seed in 0..count {
        for (text, turn) in [(boards::generate(seed), 0), (large(seed), 1)] {
            let board = compile::sound(&text);
            let room = ROOMS[(seed as usize + turn) % ROOMS.len()];
            let plans = board_plans(&board, &Words::english(), &mut set, room);
            let faults = oracle::board_plan::faults(&board, &plans, LEAST);
            assert_eq!(faults, [""; 0], "seed {seed}, turn {turn}, {room:?}");
            for plan in &plans {
                assert_eq!(
                    oracle::board_plan::planned(&board, plan),
                    oracle::board_plan::leads(&board)
                );
                assert!(plan.scene.size.width <= room.width + 1e-6);
                assert!(plan.scene.size.height <= room.height + 1e-6, "seed {seed} {room:?}");
            }
            several += usize::from(plans.len() > 1);
            let plan = &plans[0];
            if turn == 0 {
                leads += plan.leads.len();
                undrawn += plan.undrawn();
                columns += usize::from(plan.naming == Naming::InColumns);
            }
        }
    }
    // Flags alone stay the exception on boards of up to 24 headers and 12 jumpers.
    assert!(leads as u64 > count * 2, "{leads} leads");
    assert!(several > 0, "no board needed more than one picture");
    assert!(
        undrawn * 3 <= leads,
        "{undrawn} of {leads} leads are told by flags, {columns} in columns"
    );
}
