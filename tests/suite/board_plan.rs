//! The board plan of every board keeps what every plan must keep, on every paper.

use crate::compile::{self, demo};
use crate::generate::boards::{self, Knobs, dice::Dice};
use crate::generate::{self, jobs};
use crate::oracle;
use lidsheet::board::Board;
use lidsheet::figure::plan::{LeadKind, Naming, Setup, board_plans, job_plans};
use lidsheet::geometry::Size;
use lidsheet::page::Paper;
use lidsheet::sheet::{board_plan_room, job_plan_room};
use lidsheet::text::Typesetter;
use lidsheet::words::Words;
use proptest::prelude::*;

/// The least type on a board's plan, and on that of a job, points.
const LEAST: f64 = 8.0;
const LEAST_IN_JOB: f64 = 9.0;

/// The rooms that a plan gets on a paper: on the first page, and in a course handout.
fn rooms(board: &Board, paper: Paper) -> [Size; 2] {
    let Size { width, height } = paper.area().size();
    [board_plan_room(board, paper), Size::new(width, height * 0.8)]
}

#[test]
fn the_plans_of_the_demo_boards_show_every_lead() {
    let mut set = Typesetter::new();
    for name in ["heron-8", "wren-3", "curlew-10"] {
        let board = demo::board(name);
        for paper in [Paper::A4, Paper::Letter] {
            for room in rooms(&board, paper) {
                let plans = board_plans(&board, &Words::english(), &mut set, room);
                assert_eq!(
                    oracle::board_plan::faults(&board, None, &plans, LEAST),
                    [""; 0],
                    "{name}"
                );
                let [plan] = &plans[..] else { panic!("{name}: {} pictures", plans.len()) };
                let whole = (plan.naming, plan.undrawn());
                assert_eq!(whole, (Naming::InPlace, 0), "{name} {paper:?} {room:?}");
                assert!(plan.scene.size.height <= room.height + 1e-6, "{name} is too high");
                assert!(plan.leads.iter().all(|lead| lead.kind == LeadKind::Shipped));
            }
        }
    }
}

/// Forty headers, twenty jumpers and three circuit boards: every name stands in its place, and most
/// leads are drawn; the flags tell the others.
#[test]
fn a_dense_board_is_named_in_place() {
    let board = demo::board("plover-40");
    let mut set = Typesetter::new();
    for paper in [Paper::A4, Paper::Letter] {
        let room = board_plan_room(&board, paper);
        let plans = board_plans(&board, &Words::english(), &mut set, room);
        assert_eq!(oracle::board_plan::faults(&board, None, &plans, LEAST), [""; 0]);
        let [plan] = &plans[..] else { panic!("{} pictures", plans.len()) };
        assert_eq!(plan.naming, Naming::InPlace, "{paper:?}");
        assert_eq!(plan.leads.len(), 20);
        // Measured: 8 of 20 on Letter.
        assert!(plan.undrawn() * 2 < plan.leads.len(), "{} are not drawn", plan.undrawn());
    }
}

/// On an insert it is shown in several pictures, which together name everything.
#[test]
fn a_job_on_a_dense_board_is_named_in_several_pictures() {
    let jobs = demo::jobs();
    let planned = jobs.iter().find(|planned| planned.name == "2241").expect("it is there");
    let (_, wiring) = planned.plan.sound().expect("it is sound");
    let setup = Setup::of(&planned.board, planned.job.supply.value, wiring);
    let mut set = Typesetter::new();
    for paper in Paper::ALL {
        let room = job_plan_room(paper);
        let plans = job_plans(&planned.board, &setup, &Words::english(), &mut set, room);
        assert!((1..=8).contains(&plans.len()), "{} pictures", plans.len());
        let faults = oracle::board_plan::faults(&planned.board, Some(&setup), &plans, LEAST_IN_JOB);
        assert_eq!(faults, [""; 0], "{paper:?}");
    }
}

#[test]
fn every_jumper_has_one_lead_to_where_it_is_shipped() {
    let board = demo::board("curlew-10");
    let room = board_plan_room(&board, Paper::A4);
    let plans = board_plans(&board, &Words::english(), &mut Typesetter::new(), room);
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

/// What came of the plans of many boards.
#[derive(Debug, Default)]
struct Tally {
    leads: usize,
    undrawn: usize,
    several: usize,
}

impl Tally {
    /// Draws a board into a room and holds it against the oracle.
    fn draw(&mut self, board: &Board, room: Size, set: &mut Typesetter, at: &str) {
        let plans = board_plans(board, &Words::english(), set, room);
        let faults = oracle::board_plan::faults(board, None, &plans, LEAST);
        assert_eq!(faults, [""; 0], "{at}, {room:?}");
        for plan in &plans {
            let leads = oracle::board_plan::planned(board, plan);
            assert_eq!(leads, oracle::board_plan::leads(board), "{at}");
            let size = plan.scene.size;
            let fits = size.width <= room.width + 1e-6 && size.height <= room.height + 1e-6;
            assert!(fits, "{at}: {size:?} in {room:?}");
        }
        self.leads += plans[0].leads.len();
        self.undrawn += plans[0].undrawn();
        self.several += usize::from(plans.len() > 1);
    }
}

/// How many boards a test draws; `LIDSHEET_BOARDS` asks for more than a daily run has.
fn count(daily: u64) -> u64 {
    let asked = std::env::var("LIDSHEET_BOARDS").ok().and_then(|n| n.parse().ok());
    asked.unwrap_or(daily)
}

/// Every name is there and no lead is unclear, whatever the board and the paper.
#[test]
fn the_plans_of_generated_boards_are_whole() {
    let mut set = Typesetter::new();
    let (mut roomy, mut small, mut big) = (Tally::default(), Tally::default(), Tally::default());
    for seed in 0..count(60) {
        let board = compile::sound(&boards::generate(seed));
        for paper in Paper::ALL {
            let tally = if paper == Paper::A5 { &mut small } else { &mut roomy };
            let room = rooms(&board, paper)[seed as usize % 2];
            tally.draw(&board, room, &mut set, &format!("seed {seed}, {paper:?}"));
        }
        // The largest cost most: one paper each, by turns.
        let board = compile::sound(&large(seed));
        let paper = Paper::ALL[seed as usize % 3];
        let room = rooms(&board, paper)[seed as usize / 3 % 2];
        big.draw(&board, room, &mut set, &format!("large {seed}, {paper:?}"));
    }
    // Flags alone stay the exception on boards of up to 24 headers and 12 jumpers.
    let few = |tally: &Tally, percent: usize| tally.undrawn * 100 <= tally.leads * percent;
    assert!(roomy.leads > 400 && few(&roomy, 33), "{roomy:?}");
    // On A5 the voltage of every group takes the room of some.
    assert!(small.leads > 200 && few(&small, 80), "{small:?}");
    assert!(big.several > 0, "no board needed more than one picture: {big:?}");
}

/// The same of what jobs make of generated boards, at the size of an insert.
#[test]
fn the_plans_of_generated_jobs_are_whole() {
    let (mut set, mut made) = (Typesetter::new(), 0);
    for seed in 0..count(40) {
        let board = compile::sound(&boards::generate(seed));
        let found = (0..20).find_map(|number| jobs::sound(&board, seed * 100 + number));
        let Some((job, plan)) = found else { continue };
        let (_, wiring) = plan.sound().expect("it is sound");
        let setup = Setup::of(&board, job.supply.value, wiring);
        for paper in Paper::ALL {
            let room = job_plan_room(paper);
            let plans = job_plans(&board, &setup, &Words::english(), &mut set, room);
            let faults = oracle::board_plan::faults(&board, Some(&setup), &plans, LEAST_IN_JOB);
            assert_eq!(faults, [""; 0], "seed {seed} {paper:?}");
            made += 1;
        }
    }
    assert!(made > 60, "{made}");
}

proptest! {
    #![proptest_config(crate::generate::cases(12))]

    /// The same of boards that nobody has seen before.
    #[test]
    fn leads_and_words_keep_clear_of_all_else(
        text in generate::any_board(),
        paper in prop::sample::select(&Paper::ALL[..]),
    ) {
        let board = compile::sound(&text);
        let room = board_plan_room(&board, paper);
        let plans = board_plans(&board, &Words::english(), &mut Typesetter::new(), room);
        let faults = oracle::board_plan::faults(&board, None, &plans, LEAST);
        prop_assert_eq!(faults, [""; 0]);
        let leads = oracle::board_plan::planned(&board, &plans[0]);
        prop_assert_eq!(leads, oracle::board_plan::leads(&board));
    }
}
