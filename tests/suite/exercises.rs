//! Exercises for a course: each has one right answer, by going through all answers.
#![allow(clippy::print_stderr)] // What was examined is told to who runs it with `--nocapture`.

use std::collections::BTreeMap;
use std::sync::OnceLock;
use std::time::Instant;

use crate::compile::{self, demo};
use crate::generate::boards::dice::Dice;
use crate::generate::boards::{self, Knobs};
use crate::oracle::exam;
use lidsheet::board::Board;
use lidsheet::decide::exercises::{Exercise, Task, TaskKind, exercises};

const DEMOS: [&str; 3] = ["heron-8", "wren-3", "curlew-10"];

/// A generated board, small enough for an examiner who goes through everything.
fn generated(seed: u64) -> Board {
    let mut dice = Dice::new(seed);
    let knobs = Knobs {
        parts: 1,
        supplies: dice.within(1, 3),
        groups: dice.within(2, 4),
        isolated: dice.within(0, 1),
        links: dice.within(0, 1),
        jumpers: dice.within(0, 6),
        fuses: dice.within(0, 8),
        headers: dice.within(5, 12),
        columns: dice.within(3, 6),
        layouts: dice.within(4, 16),
        banks: dice.within(1, 3),
        panels: 1,
        iec: dice.often(40),
        awkward: false,
    };
    compile::sound(&boards::board(&knobs, dice.next()))
}

/// The boards that are examined, each with how many exercises are asked of it.
fn boards() -> Vec<(String, Board, usize)> {
    let demos =
        DEMOS.into_iter().zip([260, 90, 260]).map(|(n, c)| (n.to_owned(), demo::version_1(n), c));
    let others = (1..=48).map(|seed| (format!("generated {seed}"), generated(seed), 24));
    demos.chain(others).collect()
}

fn text(all: &[Exercise]) -> Vec<String> {
    all.iter().map(|exercise| format!("{exercise:?}")).collect()
}

/// Every board with its exercises, made once.
fn all() -> &'static [(String, Board, Vec<Exercise>)] {
    static ALL: OnceLock<Vec<(String, Board, Vec<Exercise>)>> = OnceLock::new();
    ALL.get_or_init(|| {
        let made = |(name, board, count): (String, Board, usize)| {
            let all = exercises(&board, count, 7);
            assert!(all.len() <= count, "{name}");
            (name, board, all)
        };
        boards().into_iter().map(made).collect()
    })
}

/// Goes through all possible answers to every exercise of a kind.
fn each_has_one_right_answer(kind: TaskKind) {
    let mut levels: BTreeMap<u8, usize> = BTreeMap::new();
    let mut on_generated = 0;
    for (name, board, all) in all() {
        for exercise in all.iter().filter(|it| it.kind() == kind) {
            exam::examine(board, exercise);
            *levels.entry(exercise.level).or_default() += 1;
            on_generated += usize::from(name.starts_with("generated"));
        }
    }
    eprintln!("{kind:?} by level: {levels:?}, {on_generated} of them on generated boards");
    assert!(levels.keys().eq([1, 2, 3].iter()), "{kind:?}: {levels:?}");
    assert!(on_generated > 20, "{kind:?}: {on_generated}");
}

#[test]
fn one_layout_fits() {
    each_has_one_right_answer(TaskKind::FindLayout);
}

#[test]
fn one_header_takes_the_device() {
    each_has_one_right_answer(TaskKind::WhichHeader);
}

#[test]
fn one_assignment_of_jumpers_is_right() {
    each_has_one_right_answer(TaskKind::MoveJumpers);
}

#[test]
fn one_position_of_the_ways_is_right() {
    each_has_one_right_answer(TaskKind::SetSwitches);
}

#[test]
fn one_order_of_pins_is_right() {
    each_has_one_right_answer(TaskKind::DrawPins);
}

#[test]
fn one_option_is_what_comes_of_it() {
    each_has_one_right_answer(TaskKind::Notice);
}

#[test]
fn one_change_makes_it_right() {
    each_has_one_right_answer(TaskKind::WhatsWrong);
}

#[test]
fn a_thousand_exercises_differ_and_their_levels_rise() {
    let mut total = 0;
    for (name, board, all) in all() {
        let mut questions: Vec<String> = Vec::new();
        for exercise in all {
            let question = exam::question(board, exercise);
            assert!(!questions.contains(&question), "{name}: twice: {question}");
            questions.push(question);
        }
        assert!(all.windows(2).all(|two| two[0].level <= two[1].level), "{name}");
        total += all.len();
    }
    eprintln!("{total} exercises");
    assert!(total >= 1000, "{total}");
}

/// Whatever the seed: no question stands twice in a handout, of the demo boards as they are today and of
/// generated ones.
#[test]
fn no_seed_asks_the_same_twice() {
    let demos = ["heron-8", "wren-3", "curlew-10"].map(|name| (name.to_owned(), demo::board(name)));
    let others = (1..=24).map(|seed| (format!("generated {seed}"), generated(seed)));
    let mut total = 0;
    for (name, board) in demos.into_iter().chain(others) {
        for seed in 1..=8 {
            let mut questions: Vec<String> = exercises(&board, 90, seed)
                .iter()
                .map(|exercise| exam::question(&board, exercise))
                .collect();
            total += questions.len();
            questions.sort();
            let twice = questions.windows(2).find(|two| two[0] == two[1]);
            assert!(twice.is_none(), "{name}, seed {seed}: {twice:?}");
        }
    }
    assert!(total > 4000, "{total}");
}

#[test]
fn the_same_seed_gives_the_same_exercises_and_another_gives_others() {
    for name in DEMOS {
        let board = demo::version_1(name);
        let first = text(&exercises(&board, 20, 1));
        assert_eq!(first, text(&exercises(&board, 20, 1)), "{name}");
        assert_ne!(first, text(&exercises(&board, 20, 2)), "{name}");
    }
}

/// What a course asks for: kinds in equal parts as far as the board has them, levels rising.
#[test]
fn a_handout_mixes_kinds_and_levels() {
    let heron = exercises(&demo::version_1("heron-8"), 21, 5);
    assert_eq!(heron.len(), 21);
    for kind in TaskKind::ALL {
        assert_eq!(heron.iter().filter(|it| it.kind() == kind).count(), 3, "{kind:?}");
    }
    for level in 1..=3 {
        let there = heron.iter().filter(|it| it.level == level).count();
        assert!((4..=10).contains(&there), "{there} of level {level}");
    }
    let kinds = |name| -> Vec<TaskKind> {
        let mut all: Vec<TaskKind> =
            exercises(&demo::version_1(name), 40, 5).iter().map(|it| it.kind()).collect();
        all.sort();
        all.dedup();
        all
    };
    // Read off the specifications: on Curlew 10 three groups give 230 V, so that the plates alone never say where a jumper goes.
    let lacking = |name| -> Vec<TaskKind> {
        let kinds = kinds(name);
        TaskKind::ALL.into_iter().filter(|kind| !kinds.contains(kind)).collect()
    };
    assert_eq!(lacking("heron-8"), []);
    assert_eq!(lacking("wren-3"), []);
    assert_eq!(lacking("curlew-10"), [TaskKind::MoveJumpers]);
}

/// A handout goes through the subjects of a board: a kind seldom asks about the same thing twice in a
/// row, and the headers that are asked for are those of several devices.
#[test]
fn a_kind_seldom_asks_the_same_twice_in_a_row() {
    let (mut pairs, mut same) = (0, 0);
    for name in DEMOS {
        let board = demo::version_1(name);
        for seed in 1..=6 {
            let all = exercises(&board, 28, seed);
            for kind in TaskKind::ALL {
                let of: Vec<_> = all.iter().filter(|it| it.kind() == kind).collect();
                pairs += of.len().saturating_sub(1);
                let twice = of.windows(2).filter(|two| two[0].subject() == two[1].subject());
                same += twice.count();
            }
            let devices = all.iter().filter_map(|it| match &it.task {
                Task::WhichHeader(task) => Some(task.device),
                _ => None,
            });
            let asked: Vec<_> = devices.collect();
            let mut devices = asked.clone();
            devices.sort();
            devices.dedup();
            // Wren 3 has few headers that share a connector.
            let few = if name == "wren-3" { 1 } else { 3 };
            assert!(devices.len() >= asked.len().min(few), "{name} {seed}: {asked:?}");
        }
    }
    eprintln!("{same} of {pairs} neighbours of a kind ask about the same thing");
    // Measured 32 of 384, where a level has no other subject of that kind.
    assert!(pairs > 300 && same * 10 <= pairs, "{same} of {pairs}");
}

/// A board that has few questions gives those and no more; asked for none, it gives none.
#[test]
fn a_board_gives_what_it_has() {
    let wren = demo::version_1("wren-3");
    assert!(exercises(&wren, 0, 1).is_empty());
    let all = exercises(&wren, 1000, 1);
    assert!(all.len() > 50 && all.len() < 1000, "{}", all.len());
    // Four layouts; the sockets as they are turned, by hand: J2 with a gap, J3 turned by half with
    // and without one (its pump has one speed: with), J4 downwards, J5 upwards.
    let of = |kind| all.iter().filter(|it| it.kind() == kind).count();
    assert_eq!(of(TaskKind::FindLayout), 4);
    assert_eq!(of(TaskKind::DrawPins), 4);
    let bare = compile::sound(
        &std::fs::read_to_string("tests/version-1/wren-3.yaml")
            .expect("it is there")
            .replace("    2: [1, 1]\n    3: [0, 2]\n    4: [1, 2]\n", ""),
    );
    let kinds: Vec<TaskKind> = exercises(&bare, 30, 1).iter().map(|it| it.kind()).collect();
    assert!(!kinds.contains(&TaskKind::FindLayout) && !kinds.is_empty(), "{kinds:?}");
}

/// Measured 20 to 60 ms unoptimised; ten times that would be a mistake. Other tests run beside this
/// one, so the fastest of a few rounds counts.
#[test]
fn fifty_exercises_take_no_time() {
    for name in DEMOS {
        let board = demo::version_1(name);
        let round = || {
            let start = Instant::now();
            assert!(!exercises(&board, 50, 3).is_empty(), "{name}");
            start.elapsed().as_secs_f64() * 1000.0
        };
        let took = (0..5).map(|_| round()).fold(f64::INFINITY, f64::min);
        eprintln!("{name}: 50 exercises in {took:.0} ms");
        assert!(took < 1000.0, "{name}: {took} ms");
    }
}
