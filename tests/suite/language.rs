//! The language as a whole: what is printed reads back, a table is as good as rows in the file, and
//! each problem is reported beside all others.

use std::path::Path;

use crate::compile::{compile, compile_file, compile_with};
use crate::generate;
use lidsheet::board::{Conductor, Device, Effect, GroupSource, Node, Speeds, TerminalId};
use lidsheet::build;
use lidsheet::spec::{is_job, print};
use proptest::prelude::*;

const BASE: &str = include_str!("../diagnostics/base.yaml");

#[test]
fn what_is_printed_reads_back_as_the_same() {
    for name in ["heron-8", "wren-3", "curlew-10"] {
        let first = compile_file(&format!("specs/{name}.yaml"));
        let spec = first.spec.expect("sound");
        let printed = print(&spec);
        let second = compile(&printed);
        assert!(second.board.is_some(), "{name}: {}\n{printed}", second.shown());
        let again = second.spec.expect("sound");
        assert!(spec == again, "{name}\n{printed}");
        assert_eq!(printed, print(&again));
    }
}

proptest! {
    #![proptest_config(crate::generate::cases(300))]

    /// Any text that the language takes survives printing, whatever YAML would make of it bare.
    #[test]
    fn any_title_survives_printing(title in "[ -~äß€—:#&*!|>'\"%@`{}\\[\\],?~-]{1,60}") {
        let title = title.trim();
        prop_assume!(!title.is_empty());
        let escaped = title.replace('\\', "\\\\").replace('"', "\\\"");
        let text = BASE.replace("title: Blower", &format!("title: \"{escaped}\""));
        let first = compile(&text);
        prop_assert!(first.board.is_some(), "{}", first.shown());
        let first = first.spec.expect("sound");
        let read = first.headers.entries[1].title.value().expect("read").clone();
        prop_assert_eq!(read.as_str(), title);
        let second = compile(&print(&first)).spec.expect("readable");
        prop_assert!(first == second);
    }
}

proptest! {
    #![proptest_config(crate::generate::cases(100))]

    #[test]
    fn any_board_survives_printing(text in generate::any_board()) {
        let first = compile(&text);
        prop_assert!(first.board.is_some(), "{}\n{text}", first.shown());
        let first = first.spec.expect("sound");
        let printed = print(&first);
        let second = compile(&printed);
        prop_assert!(second.spec.as_ref() == Some(&first), "{}\n{printed}", second.shown());
        prop_assert_eq!(print(&second.spec.expect("sound")), printed);
    }
}

/// What the compiler shows as the smallest specification and the smallest job are sound.
#[test]
fn nothing_much_gets_one_message_that_shows_the_shape() {
    for text in ["", "# nothing\n", "lidsheet: 1\n", "board:\n", "job: 7\n", "equipment: [a]\n"] {
        let checked = build::check_bytes("a.yaml", text.into(), Path::new("."));
        let problems = checked.problems.sorted();
        let shown: Vec<&str> = problems.iter().filter_map(|problem| problem.shape).collect();
        let [shape] = shown.as_slice() else { panic!("{text:?}: {problems:#?}") };
        let missing = problems.iter().filter(|p| p.message.contains("lacks the key")).count();
        assert_eq!(missing, usize::from(!text.is_empty() && !text.starts_with('#')), "{text:?}");
        if text.starts_with("job") || text.starts_with("equipment") {
            let job =
                crate::compile::job::plan_on(include_str!("../version-1/heron-8.yaml"), shape);
            assert!(job.sound().1.sound().is_some());
        } else {
            let board = compile(shape);
            assert!(board.board.is_some() && board.problems.is_empty(), "{}", board.shown());
        }
    }
    // Of one or two missing keys no shape is shown.
    let board = BASE.replace("terminals:", "terminls:").replace("sockets:", "sokets:");
    assert!(compile(&board).problems.iter().all(|problem| problem.shape.is_none()));
}

/// Keys between quotes, JSON and keys out of order; and boards that only look like jobs.
#[test]
fn a_job_is_told_from_a_board_by_its_outermost_keys() {
    for job in [
        "job: 7",
        "lidsheet: 1\n\"job\": 7\n",
        "'job' : 7",
        "{ \"lidsheet\": 1, \"board\": { \"a\": [1] }, \"job\": 7 }",
        "a: &x [b]\nc: *x\njob: 7\n",
        "job: 7\nbroken: [",
        "? job\n: 7\n",
        "equipment: []\n",
    ] {
        assert!(is_job(job), "{job}");
    }
    for board in [
        "",
        "board:\n  job: 7\n",
        "jobs: 7",
        "board: job\n",
        "board: &x job\n",
        "- job: 7\n",
        "a: [job, { job: 7 }]\n",
        "a: 1\n--- \njob: 7\n",
        "job",
    ] {
        assert!(!is_job(board), "{board}");
    }
}

#[test]
fn a_table_is_as_good_as_rows_in_the_file() {
    let rows = "layouts:\n  columns: [pump 1, blower]\n  rows:\n    1: [2, 0]\n    2: [1, 1]\n";
    assert!(BASE.contains(rows));
    let inline = compile(BASE);
    for table in [
        "layout,pump 1,blower\n1,2,0\n2,1,1\n",
        "\u{feff}layout,pump 1,blower\r\n1,2,0\r\n\r\n2,1,1",
        "layout, \"pump 1\" ,blower\n1 , 2,\"0\"\n2,1,1\n",
    ] {
        let text = BASE.replace(rows, "layouts: { rows: a/b.csv }\n");
        let outcome = compile_with(&text, &[("a/b.csv", table.as_bytes())]);
        assert!(outcome.board.is_some(), "{}", outcome.shown());
        assert!(outcome.spec == inline.spec, "{table:?}");
    }
}

#[test]
fn a_place_in_a_table_is_a_place_in_that_file() {
    let outcome = compile_file("tests/diagnostics/table-row.yaml");
    let place = outcome.problems[0].primary.as_ref().expect("has a place").span;
    let file = outcome.sources.file(place.file);
    assert_eq!(file.name, "tests/diagnostics/tables/ragged.csv");
    assert_eq!(file.position(place.start), (3, 3));
}

#[test]
fn all_problems_come_in_one_run() {
    let text = BASE
        .replace("title: Power socket,", "titel: Power socket,")
        .replace("groups: [north, south], shipped: north", "groups: [nroth, south], shipped: south")
        .replace("T2: L2", "T2: L4")
        .replace("2: [1, 1]", "2: [1, 3]");
    let outcome = compile(&text);
    assert_eq!(outcome.codes(), ["L011", "L015", "L020", "L101"], "{}", outcome.shown());
    assert_eq!(outcome.problems.len(), 4, "{}", outcome.shown());
    let places: Vec<_> = outcome.problems.iter().filter_map(|p| p.primary.as_ref()).collect();
    assert!(places.windows(2).all(|pair| pair[0].span <= pair[1].span), "in the file's order");
}

#[test]
fn one_mistake_one_message() {
    // Each of these breaks a thing that others depend on.
    for (from, to, code) in [
        ("main: { size: [120, 80], at: [0, 0] }", "main: { size: [120], at: [0, 0] }", "L015"),
        ("main: { size: [120, 80], at: [0, 0] }", "mian: { size: [120, 80], at: [0, 0] }", "L101"),
        ("pins: [ground, common, low, high]", "pins: [ground, common, low, hihg]", "L020"),
        ("system: split-phase 120/240 V", "system: split-phase 120 V", "L201"),
        ("T2: L2", "T2: L5", "L020"),
        ("groups:\n", "gruops:\n", "L011"),
        ("between: [T1, T2]", "between: [T1, T9]", "L101"),
        ("columns: [pump 1, blower]", "columns: [pump 1, blowr]", "L020"),
        ("serves: blower", "serves: blowr", "L020"),
        ("1: [2, 0]", "1: [2]", "L303"),
        ("jumpers:\n", "jumpers: 5\nfuses:\n", "L014"),
    ] {
        assert!(BASE.contains(from), "{from}");
        let outcome = compile(&BASE.replacen(from, to, 1));
        let of_code = outcome.problems.iter().filter(|p| p.code.text() == code).count();
        if to.starts_with("mian") {
            // Every thing names the part, each in its own line.
            assert_eq!(outcome.codes(), ["L101"], "{to}\n{}", outcome.shown());
        } else if to.starts_with("jumpers: 5") {
            // The jumpers' entries stand under fuses here, which have other keys.
            assert_eq!(of_code, 1, "{to}\n{}", outcome.shown());
        } else {
            assert_eq!((outcome.problems.len(), of_code), (1, 1), "{to}\n{}", outcome.shown());
        }
    }
}

#[test]
fn the_larger_board_is_read_as_it_is_written() {
    let board = compile_file("specs/heron-8.yaml").board.expect("sound");
    let j5 = board.header_ids().find(|id| board[*id].code == "J5").expect("has J5");
    let layout = |number: u8| board.layouts.iter().find(|l| l.number.get() == number);
    // J5 serves 1-7: blower, 8-12: pump 3; layout 1 has no blower.
    assert_eq!(board.device_at(j5, layout(1).expect("has 1")), None);
    assert_eq!(board.device_at(j5, layout(2).expect("has 2")), Some(Device::Blower));
    assert_eq!(board.device_at(j5, layout(8).expect("has 8")), Some(Device::Pump(3)));
    assert_eq!(
        layout(12).expect("has 12").speeds_of(&board.columns, Device::Pump(2)),
        Some(Speeds::Two)
    );
    assert_eq!(board.supplies[1].lands.iter().flatten().count(), 3);
    assert_eq!(board.supplies[1].lands[TerminalId(3)], Some(Conductor::Pe));
    let bank = &board.banks[0];
    assert_eq!(bank.fields[0].effect, Some(Effect::HeaterAllowance));
    let positions: Vec<&[bool]> =
        bank.fields[0].settings.iter().map(|s| s.positions.as_slice()).collect();
    assert_eq!(positions, [[false, false], [false, true], [true, false], [true, true]]);
    assert!(bank.fields.iter().filter(|field| field.unused()).count() == 1);
}

#[test]
fn a_link_gives_its_group_the_potential_of_its_terminal() {
    let text = BASE
        .replace(
            "jumpers:\n",
            "links:\n  W9: { part: main, at: [20, 60], joins: [T2, T3], shipped: T3 }\njumpers:\n",
        )
        .replace("TG: PE } }", "TG: PE }, links: { W9: T2 } }")
        .replace("between: [T1, T2], volts: 240", "between: [T1, W9], volts: 240");
    let board = compile(&text);
    let board = board.board.as_ref().unwrap_or_else(|| panic!("{}", board.shown()));
    let GroupSource::Between { nodes, .. } = board.groups[0].source else { panic!("between") };
    assert!(matches!(nodes[1], Node::Link(_)));
    // With the link moved to the neutral the same group has 120 V.
    let moved = compile(&text.replace("links: { W9: T2 }", "links: { W9: T3 }"));
    assert_eq!(moved.codes(), ["L208"], "{}", moved.shown());
}

/// Limits from both sides.
#[test]
fn limits_are_where_they_are_said_to_be() {
    let codes = |from: &str, to: &str| {
        assert!(BASE.contains(from), "{from}");
        compile(&BASE.replacen(from, to, 1)).codes()
    };
    // Declared volts: half a per cent, as names round.
    assert!(codes("volts: 240", "volts: 241.2").is_empty());
    assert_eq!(codes("volts: 240", "volts: 241.3"), ["L208"]);
    assert!(codes("volts: 240", "volts: 238.8").is_empty());
    assert_eq!(codes("volts: 240", "volts: 238.7"), ["L208"]);
    // A terminal takes 8 by 8 mm: T1 at 10 mm and T2 at 22 mm down.
    assert!(codes("at: [8, 22]", "at: [8, 18]").is_empty());
    assert_eq!(codes("at: [8, 22]", "at: [8, 17.9]"), ["L501"]);
    assert!(codes("at: [8, 22]", "at: [4, 22]").is_empty());
    assert_eq!(codes("at: [8, 22]", "at: [3.9, 22]"), ["L502"]);
    // 25 words.
    let summary = |words: usize| format!("{}end.", "word ".repeat(words - 1));
    assert!(codes("A small board for samples.", &summary(25)).is_empty());
    assert_eq!(codes("A small board for samples.", &summary(26)), ["L701"]);
    // 60 characters of a title, and 300 of the summary.
    assert!(codes("title: Blower", &format!("title: {}", "x".repeat(60))).is_empty());
    assert_eq!(codes("title: Blower", &format!("title: {}", "x".repeat(61))), ["L019"]);
    let summary =
        |length: usize| format!("{}x.", "Short words. ".repeat(30)).split_off(392 - length);
    assert!(codes("A small board for samples.", &summary(300)).is_empty());
    assert_eq!(codes("A small board for samples.", &summary(301)), ["L019"]);
    // 50 to 600 V.
    for (system, found) in [("49", true), ("50", false), ("600", false), ("601", true)] {
        let text = BASE
            .replace("split-phase 120/240 V", &format!("single-phase {system} V"))
            .replace("T1: L1, T2: L2, T3: N", "T1: L, T3: N")
            .replace("between: [T1, T2], volts: 240", "between: [T1, T3], volts: X")
            .replace("volts: 120", "volts: X")
            .replace("volts: X", &format!("volts: {system}"));
        assert_eq!(compile(&text).codes().contains(&"L016"), found, "{system}");
    }
}

/// The pairs are those of heron-8.yaml, read by eye: 4 and 2 differ in pump 1 alone and are none.
#[test]
fn only_pairs_that_the_circulation_pump_parts_are_warned_of() {
    let outcome = compile_file("specs/heron-8.yaml");
    assert_eq!(outcome.codes(), ["L309"], "{}", outcome.shown());
    assert_eq!(
        outcome.problems[0].notes[0],
        "these pairs: 2 and 3; 4 and 5; 6 and 7; 8 and 9; 10 and 11"
    );
}
