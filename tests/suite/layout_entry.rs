//! The three ways to enter a layout number: on a panel, by ways of a bank, by a rotary selector.
//!
//! The same board in three manners must decide alike, and a wrong position must do to the board what
//! the wrong number at a panel does: that is what these compare, without the code that reads ways.

use std::collections::BTreeMap;

use crate::compile;
use crate::compile::job::plan_on;
use lidsheet::board::{Board, LayoutEntry};
use lidsheet::decide::mistakes::{Mistake, PlannedCase, Sign, State, consequences};

const WREN: &str = include_str!("../version-1/wren-3.yaml");
const JOB: &str = include_str!("../version-1/jobs/2233.yaml");

/// Wren 3 of version 1, its number entered otherwise. What lets a panel change it goes.
fn wren(ways: &str, selector: &str) -> String {
    let lock = "      5: { effect: layout change, when off: The layout number is locked., \
                when on: The layout number can be changed from the panel., shipped: off }\n";
    assert!(WREN.contains(lock));
    let steps = WREN.find("    choose layout: |").expect("a panel has steps");
    WREN[..steps].replace(lock, ways).replace("panels:\n", &format!("{selector}panels:\n"))
}

/// Ways 5 and 7 would be one too many: way 6 is unused on this board, so the two stand at 5 and 6.
fn by_ways() -> String {
    wren(
        "      5-6:\n        effect: layout number\n        settings: { off off: 1, on off: 2, \
         off on: 3, on on: 4 }\n        shipped: on on\n",
        "",
    )
    .replace("      6: unused\n", "")
}

fn by_selector() -> String {
    wren(
        "      5: unused\n",
        "selectors:\n  S2: { part: main, at: [60, 84], positions: { 0: no layout, A: 1, B: 2, C: 3, \
         D: 4 }, shipped: 0 }\n",
    )
}

/// What each wrong layout does: the board's state and what is noticed.
fn of_layouts(board: &str) -> BTreeMap<Option<u8>, (State, Vec<Sign>)> {
    let outcome = plan_on(board, JOB);
    let (job, plan) = outcome.sound();
    let planned = PlannedCase::new(&outcome.board, job, plan.sound().expect("it is sound"));
    consequences(&planned)
        .into_iter()
        .filter_map(|found| {
            let number = found.mistake.layout(&planned)?;
            let signs = found.signs.iter().map(|seen| seen.sign).collect();
            Some((number.map(|number| number.get()), (found.state, signs)))
        })
        .collect()
}

#[test]
fn a_wrong_position_is_a_wrong_layout() {
    let (panel, ways, selector) =
        (of_layouts(WREN), of_layouts(&by_ways()), of_layouts(&by_selector()));
    // Job 2233 has layout 3. On a panel any other can be entered.
    let numbers = |all: &BTreeMap<Option<u8>, _>| all.keys().copied().collect::<Vec<_>>();
    assert_eq!(numbers(&panel), [Some(1), Some(2), Some(4)]);
    // Of the ways one stands otherwise: off on is 3, so off off is 1 and on on is 4.
    assert_eq!(numbers(&ways), [Some(1), Some(4)]);
    assert_eq!(numbers(&selector), [None, Some(1), Some(2), Some(4)]);
    for (number, found) in ways.iter().chain(selector.iter().filter(|(n, _)| n.is_some())) {
        assert_eq!(Some(found), panel.get(number), "{number:?}");
    }
    // Without a layout nothing runs.
    let (state, signs) = &selector[&None];
    assert!(state.roles.is_empty());
    assert!(state.devices.iter().all(|device| device.role.is_none()));
    assert!(signs.contains(&Sign::HeaterNever), "{signs:?}");
}

/// Worked by hand: layout 3 is `off on`, and shipped is `on on`, so way 5 moves.
#[test]
fn the_plan_sets_what_sets_the_layout() {
    let ways = plan_on(&by_ways(), JOB);
    let (layout, wiring) = ways.sound().1.sound().expect("it is sound");
    assert_eq!(layout.number.get(), 3);
    assert_eq!(wiring.switches[0].positions[4..], [false, true]);
    assert!(wiring.switches[0].moved.contains(&5) && !wiring.switches[0].moved.contains(&6));
    assert!(wiring.selector.is_none());

    let turned = plan_on(&by_selector(), JOB);
    let (layout, wiring) = turned.sound().1.sound().expect("it is sound");
    assert_eq!(layout.number.get(), 3);
    let setting = wiring.selector.expect("the board has one");
    assert_eq!(turned.board[setting.selector].positions[setting.position].name, "C");
    assert!(setting.moved);
}

#[test]
fn a_board_knows_how_its_number_is_entered() {
    let entry = |text: &str| compile::sound(text).layout_entry();
    assert_eq!(entry(WREN), LayoutEntry::Panel);
    assert!(matches!(entry(&by_ways()), LayoutEntry::Ways { field: 4, .. }));
    assert!(matches!(entry(&by_selector()), LayoutEntry::Selector(_)));
}

/// On generated boards every layout can be set, once, and what the plan sets is that layout.
#[test]
fn every_layout_of_generated_boards_can_be_set() {
    let mut manners = [0; 3];
    for seed in 0..300 {
        let board: Board = compile::sound(&crate::generate::boards::generate(seed));
        let set: Vec<u8> = match board.layout_entry() {
            LayoutEntry::Panel => {
                manners[0] += 1;
                continue;
            }
            LayoutEntry::Ways { bank, field } => {
                manners[1] += 1;
                let settings = &board[bank].fields[field].settings;
                let layouts = settings.iter().map(|setting| match setting.meaning {
                    lidsheet::board::Meaning::Layout(layout) => layout,
                    _ => panic!("{seed}: {setting:?}"),
                });
                layouts.flatten().map(|layout| layout.get()).collect()
            }
            LayoutEntry::Selector(id) => {
                manners[2] += 1;
                let layouts = board[id].positions.iter().filter_map(|position| position.layout);
                layouts.map(|layout| layout.get()).collect()
            }
        };
        let mut set = set;
        set.sort_unstable();
        let all: Vec<u8> = board.layouts.iter().map(|layout| layout.number.get()).collect();
        assert_eq!(set, all, "{seed}");
        for number in 0..4 {
            let Some((_, plan)) = crate::generate::jobs::sound(&board, number) else { continue };
            let (layout, wiring) = plan.sound().expect("it is sound");
            let found = match board.layout_entry() {
                LayoutEntry::Selector(id) => {
                    let setting = wiring.selector.expect("the board has one");
                    board[id].positions[setting.position].layout
                }
                LayoutEntry::Ways { bank, field } => {
                    let field = &board[bank].fields[field];
                    let setting = wiring.switches.iter().find(|it| it.bank == bank);
                    let ways = &setting.expect("all are there").positions;
                    let ours = &ways[usize::from(field.first) - 1..usize::from(field.last)];
                    let stands = field.settings.iter().find(|it| it.positions == ours);
                    match stands.expect("every combination is there").meaning {
                        lidsheet::board::Meaning::Layout(layout) => layout,
                        _ => None,
                    }
                }
                LayoutEntry::Panel => unreachable!("left above"),
            };
            assert_eq!(found, Some(layout.number), "{seed} {number}");
        }
    }
    assert!(manners.iter().all(|count| *count > 30), "{manners:?}");
}

/// A mistake at a way that sets no layout is none about the layout.
#[test]
fn other_ways_are_no_layout() {
    let outcome = plan_on(&by_ways(), JOB);
    let (job, plan) = outcome.sound();
    let planned = PlannedCase::new(&outcome.board, job, plan.sound().expect("it is sound"));
    let of = |way| {
        let bank = lidsheet::board::BankId(0);
        Mistake::Way { bank, way }.layout(&planned).is_some()
    };
    assert_eq!([1, 2, 3, 4, 5, 6].map(of), [false, false, false, false, true, true]);
}
