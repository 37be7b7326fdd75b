//! `lidsheet changes`: what differs between two boards, and what that asks of their jobs.

use std::cell::RefCell;
use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::Path;
use std::process::Command;

use lidsheet::board::Board;
use lidsheet::compare::Changes;
use lidsheet::diagnostic::Severity;
use lidsheet::meaning::{self, Concern, Kind, Property, Thing, Which};
use lidsheet::spec;
use proptest::prelude::*;
use proptest::test_runner::TestRunner;
use serde_json::Value;

use crate::compile::compile;
use crate::generate::{self, specimen::Dice};
use crate::marks::in_another_form;
use crate::plan_cli::Ran;
use crate::readers::reading;

fn board_of(text: &str) -> Option<Board> {
    let found = compile(text);
    let sound = found.problems.iter().all(|problem| problem.code.severity() != Severity::Error);
    found.board.filter(|_| sound)
}

/// Which fact a mutation changes.
type Expected = (Thing, Which);

/// The kinds of mutation, as they are counted.
const MUTATIONS: [&str; 7] = ["key", "group", "rating", "title", "place", "switch", "layout"];

/// The value of a key in a thing's line: where it begins and ends.
fn value_at(line: &str, key: &str) -> Option<(usize, usize)> {
    let start = line.find(&format!(", {key}: "))? + key.len() + 4;
    let rest = &line[start..];
    let end = rest.find(", ").unwrap_or(usize::MAX).min(rest.find(" }").unwrap_or(usize::MAX));
    (end <= rest.len()).then_some((start, start + end))
}

/// The canonical text of a board with one thing changed, and the fact that then is another.
fn mutated(text: &str, board: &Board, kind: &str, dice: &mut Dice) -> Option<(String, Expected)> {
    let lines: Vec<&str> = text.lines().collect();
    let mut found: Vec<(usize, String, Expected)> = Vec::new();
    let (mut section, mut bank) = (String::new(), String::new());
    for (at, line) in lines.iter().enumerate() {
        if !line.starts_with(' ') {
            section = line.trim_end_matches(':').to_owned();
        }
        let bare = |name: &str| name.trim().trim_matches('"').to_owned();
        if section == "switches" && line.starts_with("  ") && !line.starts_with("   ") {
            bank = bare(line.trim_end_matches(':'));
        }
        let Some((name, rest)) = line.split_once(": ").map(|(a, b)| (bare(a), b)) else { continue };
        let fact = |kind, property, of: &str| {
            (Thing { kind, name: name.clone() }, Which { property, of: of.to_owned() })
        };
        let with = |(from, until): (usize, usize), new: String| {
            format!("{}{new}{}", &line[..from], &line[until..])
        };
        match (kind, section.as_str()) {
            ("key", "headers") => {
                let Some(range) = value_at(line, "key") else { continue };
                let other = match &line[range.0..range.1] {
                    "right" => "left",
                    "left" => "right",
                    "up" => "down",
                    _ => "up",
                };
                let fact = fact(Kind::Header, Property::Key, "");
                found.push((at, with(range, other.to_owned()), fact));
            }
            ("group", "headers") => {
                let Some(range) = value_at(line, "group") else { continue };
                let own = bare(&line[range.0..range.1]);
                let others = board.groups.iter().filter(|group| group.code != own);
                found.extend(others.map(|group| {
                    let fact = fact(Kind::Header, Property::Feed, "");
                    (at, with(range, format!("\"{}\"", group.code)), fact)
                }));
            }
            ("rating", "fuses") => {
                let Some(range) = value_at(line, "rating") else { continue };
                let amps: f64 = line[range.0..range.1].trim_end_matches(" A").parse().ok()?;
                let fact = fact(Kind::Fuse, Property::Rating, "");
                found.push((at, with(range, format!("{} A", amps + 0.5)), fact));
            }
            ("title", "headers") => {
                let Some(start) = line.find("title: \"") else { continue };
                let start = start + "title: \"".len();
                let fact = fact(Kind::Header, Property::Title, "");
                found.push((at, with((start, start), "Z".to_owned()), fact));
            }
            ("place", "headers" | "fuses") => {
                let Some(start) = line.find(" at: [") else { continue };
                let start = start + " at: [".len();
                let Some(length) = line[start..].find(',') else { continue };
                let x: f64 = line[start..start + length].parse().ok()?;
                let kind = if section == "fuses" { Kind::Fuse } else { Kind::Header };
                let fact = fact(kind, Property::At, "");
                found.push((at, with((start, start + length), (x + 0.25).to_string()), fact));
            }
            ("switch", "switches") => {
                let Some(start) = line.find("when off: \"") else { continue };
                let start = start + "when off: \"".len();
                let thing = Thing { kind: Kind::Switches, name: format!("{bank} {name}") };
                let which = Which { property: Property::Setting, of: "off".to_owned() };
                found.push((at, with((start, start), "Z ".to_owned()), (thing, which)));
            }
            ("layout", "layouts") if line.starts_with("    ") => {
                let cells = rest.trim_matches(['[', ']']).split(", ");
                let cells: Vec<&str> = cells.map(|cell| cell.trim_matches('"')).collect();
                let number: u32 = name.parse().ok()?;
                for (index, cell) in cells.iter().enumerate() {
                    let other = match *cell {
                        "1" => "2",
                        "2" => "1",
                        _ => continue,
                    };
                    let mut row = cells.clone();
                    row[index] = other;
                    let thing = Thing { kind: Kind::Layout, name: format!("{number:03}") };
                    let of = board.columns[index].to_string();
                    let which = Which { property: Property::Speeds, of };
                    found.push((at, format!("    {number}: [{}]", row.join(", ")), (thing, which)));
                }
            }
            _ => {}
        }
    }
    let (at, line, expected) = found.get(dice.roll(found.len().max(1) as u64) as usize).cloned()?;
    let mut all: Vec<&str> = lines;
    all[at] = &line;
    Some((all.join("\n") + "\n", expected))
}

/// Of generated boards: nothing differs from the same board in another form; of one mutation exactly
/// that fact is named, in both directions.
#[test]
fn changes_name_one_mutation_and_nothing_else() {
    let mut runner = TestRunner::new(generate::cases(112));
    let counted = RefCell::new(BTreeMap::<&str, usize>::new());
    let result = runner.run(&(generate::any_board(), any::<u64>()), |(text, seed)| {
        let mut dice = Dice::new(seed);
        let printed = spec::print(&compile(&text).spec.expect("it can be read"));
        let board = board_of(&printed).expect("sound");
        let form = board_of(&in_another_form(&printed, &mut dice)).expect("sound");
        prop_assert!(Changes::between(&board, &form).is_empty());
        for kind in MUTATIONS {
            let Some((other, (thing, which))) = mutated(&printed, &board, kind, &mut dice) else {
                continue;
            };
            let Some(changed) = board_of(&other) else { continue };
            for (old, new) in [(&board, &changed), (&changed, &board)] {
                let found = Changes::between(old, new);
                prop_assert!(found.renames.is_empty(), "{:?}", found);
                let [only] = &found.things[..] else {
                    return Err(TestCaseError::fail(format!("{kind}: {found:#?}\n{other}")));
                };
                prop_assert_eq!(&only.thing, &thing);
                prop_assert_eq!(only.facts.len(), 1, "{:?}", &only);
                prop_assert_eq!(&only.facts[0].which, &which);
                prop_assert_ne!(&only.facts[0].before, &only.facts[0].after);
                // A shift of a quarter of a millimeter puts nothing where another thing was.
                prop_assert!(found.exchanges.is_empty(), "{:?}", &found.exchanges);
                prop_assert_eq!(only.concern == Concern::Drawing, kind == "place");
            }
            *counted.borrow_mut().entry(kind).or_default() += 1;
        }
        Ok(())
    });
    if let Err(error) = result {
        panic!("{error}");
    }
    let counted = counted.into_inner();
    assert!(counted.values().sum::<usize>() >= 500, "{counted:?}");
    for kind in MUTATIONS {
        assert!(counted.get(kind).is_some_and(|count| *count >= 8), "{kind}: {counted:?}");
    }
}

/// Of two boards that have nothing to do with each other every fact is told that the lines of their
/// meanings do not share, and no other.
#[test]
fn changes_are_the_lines_that_are_not_shared() {
    let mut runner = TestRunner::new(generate::cases(64));
    let two = (generate::any_board(), generate::any_board());
    let result = runner.run(&two, |(old, new)| {
        let (old, new) = (board_of(&old).expect("sound"), board_of(&new).expect("sound"));
        let changes = Changes::between(&old, &new);
        if !changes.renames.is_empty() {
            return Ok(());
        }
        let lines = |board: &Board| -> BTreeSet<String> {
            let text = meaning::of_board(board).lines();
            text.lines().map(str::to_owned).collect()
        };
        let (old, new) = (lines(&old), lines(&new));
        let facts = || changes.things.iter().flat_map(|thing| &thing.facts);
        let gone = facts().filter(|fact| fact.before.is_some()).count();
        let came = facts().filter(|fact| fact.after.is_some()).count();
        prop_assert_eq!(gone, old.difference(&new).count());
        prop_assert_eq!(came, new.difference(&old).count());
        Ok(())
    });
    if let Err(error) = result {
        panic!("{error}");
    }
}

const HERON: &str = include_str!("../../specs/heron-8.yaml");

#[test]
fn a_renamed_thing_is_a_rename_and_nothing_else() {
    let board = board_of(HERON).expect("sound");
    for (kind, from, to, places) in [
        (Kind::Header, "J2", "J9", &[("  J2:", "  J9:")][..]),
        (Kind::Jumper, "W4", "W9", &[("  W4:", "  W9:"), ("jumper: W4", "jumper: W9")]),
        (Kind::Fuse, "F4", "F9", &[("  F4:", "  F9:"), ("fuse: F4", "fuse: F9")]),
        (Kind::Terminal, "T3", "T9", &[("  T3:", "  T9:"), ("T3: N", "T9: N"), (", T3]", ", T9]")]),
    ] {
        let text = places.iter().fold(HERON.to_owned(), |text, (a, b)| text.replace(a, b));
        let changed = board_of(&text).expect("sound");
        let found = Changes::between(&board, &changed);
        assert!(found.things.is_empty(), "{to}: {found:#?}");
        let names: Vec<_> =
            found.renames.iter().map(|it| (it.kind, it.from.as_str(), it.to.as_str())).collect();
        assert_eq!(names, [(kind, from, to)]);
    }
    // What a thing is told by may have another name at the same time.
    let wren = include_str!("../../specs/wren-3.yaml");
    for (text, places, renames) in [
        (
            HERON,
            &[
                ("  A: {", "  Z: {"),
                ("[A, B]", "[Z, B]"),
                ("shipped: A", "shipped: Z"),
                ("group: A", "group: Z"),
            ][..],
            &[(Kind::Group, "A", "Z")][..],
        ),
        (HERON, &[("power-4", "supply-4")], &[(Kind::Socket, "power-4", "supply-4")]),
        (
            HERON,
            &[("  add-on:", "  upper:"), ("part: add-on", "part: upper")],
            &[(Kind::Part, "add-on", "upper")],
        ),
        (wren, &[("W9", "W8")], &[(Kind::Link, "W9", "W8")]),
        (
            HERON,
            &[
                ("  A: {", "  Z: {"),
                ("[A, B]", "[Z, B]"),
                ("shipped: A", "shipped: Z"),
                ("group: A", "group: Z"),
                ("T2", "T9"),
                ("W1", "W7"),
            ],
            &[(Kind::Terminal, "T2", "T9"), (Kind::Group, "A", "Z"), (Kind::Jumper, "W1", "W7")],
        ),
    ] {
        let old = board_of(text).expect("sound");
        let other = places.iter().fold(text.to_owned(), |text, (a, b)| text.replace(a, b));
        let found = Changes::between(&old, &board_of(&other).expect("sound"));
        assert!(found.things.is_empty(), "{renames:?}: {found:#?}");
        let names: Vec<_> =
            found.renames.iter().map(|it| (it.kind, it.from.as_str(), it.to.as_str())).collect();
        assert_eq!(names, renames);
    }
    // Two of which each could be meant are none: both groups of a name that is gone are alike in nothing.
    let swapped =
        HERON.replace("  A: {", "  Q: {").replace("  B: {", "  A: {").replace("  Q: {", "  B: {");
    let swapped = Changes::between(&board, &board_of(&swapped).expect("sound"));
    assert!(swapped.renames.is_empty() && !swapped.things.is_empty(), "{swapped:#?}");
    // Elsewhere it is another header.
    let moved = HERON.replace(
        "  J2: { title: { en: Pump 1, de: Pumpe 1, es: Bomba 1, fr: Pompe 1 },\n        part: main, at: [96, 124]",
        "  J9: { title: { en: Pump 1, de: Pumpe 1, es: Bomba 1, fr: Pompe 1 },\n        part: main, at: [95, 124]",
    );
    let found = Changes::between(&board, &board_of(&moved).expect("sound"));
    assert!(found.renames.is_empty());
    assert_eq!(found.things.len(), 2, "{found:#?}");
}

fn run(folder: &Path, arguments: &[&str]) -> Ran {
    let mut command = assert_cmd::Command::cargo_bin("lidsheet").expect("it is built");
    let command = command.args(arguments).current_dir(folder);
    Ran::of(command.env("GIT_CEILING_DIRECTORIES", folder.parent().expect("a parent")))
}

fn json(folder: &Path, arguments: &[&str]) -> (i32, Value) {
    let ran = run(folder, &[arguments, &["--format", "json"]].concat());
    assert_eq!(ran.err, "", "the JSON alone tells everything");
    (ran.status, serde_json::from_str(&ran.out).expect("one object"))
}

/// A folder with the demo board in `old/` and in `new/`, and its jobs beside both.
fn desk() -> (tempfile::TempDir, Vec<String>) {
    let desk = tempfile::tempdir().expect("a folder");
    let specs = Path::new(env!("CARGO_MANIFEST_DIR")).join("specs");
    let mut names = Vec::new();
    for side in ["old", "new"] {
        fs::create_dir_all(desk.path().join(side).join("jobs")).expect("made");
        fs::write(desk.path().join(side).join("heron-8.yaml"), HERON).expect("written");
    }
    for entry in fs::read_dir(specs.join("jobs")).expect("it is there") {
        let path = entry.expect("readable").path();
        let text = fs::read_to_string(&path).expect("text");
        let name = path.file_name().expect("a name").to_string_lossy().into_owned();
        for side in ["old", "new"] {
            fs::write(desk.path().join(side).join("jobs").join(&name), &text).expect("written");
        }
        if text.contains("../heron-8.yaml") {
            names.push(name.trim_end_matches(".yaml").to_owned());
        }
    }
    names.sort();
    assert!(names.len() >= 4, "{names:?}");
    (desk, names)
}

fn change(desk: &tempfile::TempDir, places: &[(&str, &str)]) {
    let mut text = HERON.to_owned();
    for (from, to) in places {
        assert!(text.contains(from), "{from}");
        text = text.replacen(from, to, 1);
    }
    fs::write(desk.path().join("new/heron-8.yaml"), text).expect("written");
}

const BOTH: [&str; 3] = ["changes", "old/heron-8.yaml", "new/heron-8.yaml"];

/// Two JSON values are the same, numbers to a ten thousandth.
fn alike(a: &Value, b: &Value) -> bool {
    match (a, b) {
        (Value::Number(a), Value::Number(b)) => {
            (a.as_f64().expect("a number") - b.as_f64().expect("a number")).abs() < 5e-5
        }
        (Value::Array(a), Value::Array(b)) => {
            a.len() == b.len() && a.iter().zip(b).all(|(a, b)| alike(a, b))
        }
        (Value::Object(a), Value::Object(b)) => {
            a.len() == b.len() && a.iter().all(|(key, a)| b.get(key).is_some_and(|b| alike(a, b)))
        }
        _ => a == b,
    }
}

/// What `plan --format json` decides, without what is only about it.
fn plans(desk: &Path, side: &str, names: &[String]) -> Vec<Value> {
    let one = |name: &String| {
        let (_, mut plan) = json(desk, &["plan", &format!("{side}/jobs/{name}.yaml")]);
        let all = plan.as_object_mut().expect("an object");
        for key in ["board", "mark", "problems", "other_layouts", "passed_layouts"] {
            assert!(all.remove(key).is_some(), "{key}");
        }
        plan
    };
    names.iter().map(one).collect()
}

/// Whether a plan has what the JSON of a plan does not show.
type Beside = fn(&Value) -> bool;

#[test]
fn a_job_is_named_exactly_if_its_decisions_differ() {
    let (desk, names) = desk();
    let before = plans(desk.path(), "old", &names);
    let never: Beside = |_| false;
    let uses_f3: Beside = |plan| {
        let devices = plan["devices"].as_array();
        devices.is_some_and(|all| all.iter().any(|device| device["fuse"] == "F3"))
    };
    let four_wires: Beside = |plan| plan["supply"] == "four-wire";
    let swapped = [
        ("between: [T1, T2], volts: 240", "between: [T1, T3], volts: 120"),
        (
            "between: [T1, T3], volts: 120 }\n\njumpers",
            "between: [T1, T2], volts: 240 }\n\njumpers",
        ),
    ];
    let always: Beside = |_| true;
    let uses_j2_or_j3: Beside = |plan| {
        let devices = plan["devices"].as_array();
        devices.is_some_and(|all| {
            all.iter().any(|device| device["header"] == "J2" || device["header"] == "J3")
        })
    };
    let cases: [(&[(&str, &str)], Beside); 22] = [
        (
            &[(
                "at: [122, 124], socket: power-4, key: right",
                "at: [122, 124], socket: power-4, key: left",
            )],
            never,
        ),
        (&[("en: Pump 2,", "en: Pump two,")], never),
        (&[("revision: D", "revision: E")], never),
        (&[("rating: 15 A", "rating: 12 A")], uses_f3),
        (&[("9:  [1, 2, 1, 1, 0]", "9:  [1, 2, 2, 1, 0]")], never),
        (
            &[
                ("6:  [0, 2, 1, 0, 1]", "6:  [1, 2, 1, 0, 1]"),
                ("7:  [1, 2, 1, 0, 1]", "7:  [0, 2, 1, 0, 1]"),
            ],
            never,
        ),
        (&[("  J2: ", "  J9: ")], never),
        (&[("max current: 48 A", "max current: 40 A")], never),
        (
            &[
                ("off off: 20 A", "off off: 21 A"),
                ("on off: 28 A", "on off: 37 A"),
                ("off on: 36 A", "off on: 28 A"),
            ],
            never,
        ),
        (&swapped, never),
        (
            &[(
                "T1: L1, T2: L2, T3: N, TG: PE }\n  three",
                "T1: L2, T2: L1, T3: N, TG: PE }\n  three",
            )],
            four_wires,
        ),
        (&[("6: 6, 7: 7", "6: 7, 7: 6")], never),
        (
            &[(
                "Alimentation à 50 Hz. }\n        shipped: off",
                "Alimentation à 50 Hz. }\n        shipped: on",
            )],
            never,
        ),
        (&[("socket: power-3, key: up", "socket: power-3, key: down")], never),
        // What the new board is shipped as is no decision of a plan, but the work begins there.
        (
            &[(
                "at: [180, 46], groups: [A, B], shipped: B",
                "at: [180, 46], groups: [A, B], shipped: A",
            )],
            always,
        ),
        (&[("shipped: 0\n", "shipped: 7\n")], always),
        // A switch that means the contrary stays where it was.
        (&FLIPPED, always),
        // Things that stand where others stood.
        (
            &[
                ("at: [10, 24]", "at: [10, 1]"),
                ("at: [10, 76]", "at: [10, 24]"),
                ("at: [10, 1]", "at: [10, 76]"),
            ],
            always,
        ),
        (
            &[
                ("at: [10, 24]", "at: [10, 1]"),
                ("at: [10, 40]", "at: [10, 24]"),
                ("at: [10, 1]", "at: [10, 40]"),
            ],
            always,
        ),
        (&EXCHANGED_HEADERS, uses_j2_or_j3),
        // A shift is none, and neither is a place among things of another kind.
        (&[("at: [10, 40]", "at: [10, 42]")], never),
        (&[("part: main, at: [96, 124]", "part: main, at: [96, 132]")], never),
    ];
    let mut seen = (0, 0);
    for (places, beside) in cases {
        change(&desk, places);
        let after = plans(desk.path(), "new", &names);
        let (status, found) = json(desk.path(), &BOTH);
        assert_eq!(status, 1, "{places:?}");
        let jobs = found["jobs"].as_array().expect("jobs");
        assert_eq!(jobs.len(), names.len(), "jobs of other boards are left out");
        for (((name, before), after), job) in names.iter().zip(&before).zip(&after).zip(jobs) {
            assert_eq!(job["job"], name.as_str());
            let refused = |plan: &Value| plan["layout"].is_null();
            let wanted = match (refused(before), refused(after)) {
                (true, true) => "still refused",
                (false, true) => "refused now",
                (true, false) => "correct now",
                _ if !alike(before, after) || beside(after) => "changed",
                _ => "same",
            };
            assert_eq!(job["result"], wanted, "{name} after {places:?}\n{job:#}");
            let named = job["decisions"].as_array().expect("a list").len()
                + job["renames"].as_array().expect("a list").len();
            assert_eq!(named > 0, wanted == "changed", "{name}");
            match wanted {
                "changed" => seen.0 += 1,
                "same" => seen.1 += 1,
                _ => {}
            }
        }
    }
    assert!(seen.0 >= 20 && seen.1 >= 20, "{seen:?}");
}

/// A switch of which the positions have changed their meanings.
const FLIPPED: [(&str, &str); 2] = [
    ("when off: { en: 60 Hz supply.", "when on: { en: 60 Hz supply."),
    ("when on: { en: 50 Hz supply.", "when off: { en: 50 Hz supply."),
];

/// Two headers of one connector type that have changed places.
const EXCHANGED_HEADERS: [(&str, &str); 3] = [
    ("at: [96, 124]", "at: [1, 124]"),
    ("at: [122, 124]", "at: [96, 124]"),
    ("at: [1, 124]", "at: [122, 124]"),
];

/// All steps of a job in the JSON.
fn steps(job: &Value) -> Vec<&str> {
    job["steps"].as_array().expect("steps").iter().filter_map(Value::as_str).collect()
}

/// A board that is shipped otherwise is set from there: whoever leaves a jumper as it comes burns a pump
/// that the old board fed well.
#[test]
fn the_steps_begin_with_the_new_board_as_it_is_shipped() {
    let (desk, _) = desk();
    let on = |group: &str| format!("at: [180, 46], groups: [A, B], shipped: {group}");
    change(&desk, &[(&on("B"), &on("A"))]);
    let (_, found) = json(desk.path(), &BOTH);
    for job in found["jobs"].as_array().expect("jobs") {
        assert_eq!(job["result"], "changed", "{job:#}");
        let w4: Vec<&str> = steps(job).into_iter().filter(|step| step.contains("W4")).collect();
        assert_eq!(w4.len(), 1, "{job:#}");
        let moves =
            "Move jumper W4 from group A, as shipped, to group B. Push it fully onto a free tab.";
        let stays = "Leave jumper W4 on group A, as shipped.";
        assert!(w4 == [moves] || w4 == [stays], "{w4:?}");
        // What was set on the old board and is set on this one is told, too: the new one is not set yet.
        let selector =
            steps(job).iter().any(|step| step.starts_with("Turn selector S2 from 0, as shipped,"));
        assert!(selector, "{job:#}");
        if w4 == [moves] {
            let danger = &job["dangers"][0];
            assert_eq!(
                (&danger["because"], &danger["danger"]),
                (&"as shipped".into(), &"fire".into()),
                "{job:#}"
            );
            let signs = danger["signs"].to_string();
            assert!(signs.contains("circulation pump") || signs.contains("ozonator"), "{signs}");
        }
    }
    let job = &found["jobs"][0];
    assert_eq!(job["job"], "2231");
    assert!(steps(job).iter().any(|step| step.starts_with("Move jumper W4")), "{job:#}");
    let ran = run(desk.path(), &[&BOTH[..], &["--out", "out"]].concat());
    let file = fs::read(desk.path().join("out/change-sheet.pdf")).expect("written");
    let text = reading::read(&file).text().split_whitespace().collect::<Vec<_>>().join(" ");
    for words in [
        "They begin with the new board as it is shipped.",
        "If the new board stays as it is shipped, W4 is on group A.",
        "Move jumper W4 from group A, as shipped, to group B.",
    ] {
        assert!(text.contains(words), "{words}\n{text}");
        assert!(
            words.starts_with("If") || ran.out.replace('\n', " ").contains(words),
            "{}",
            ran.out
        );
    }
}

/// The sheet names the section that a label stands in, not the last one of its page; it draws a selector with
/// the layouts of its positions, and a bank of which a switch only means something else.
#[test]
fn sections_selectors_and_banks_are_shown() {
    let (desk, _) = desk();
    let sheet = |places: &[(&str, &str)]| {
        change(&desk, places);
        let ran = run(desk.path(), &[&BOTH[..], &["--out", "out"]].concat());
        assert_eq!((ran.status, ran.err.as_str()), (1, ""));
        let file = fs::read(desk.path().join("out/change-sheet.pdf")).expect("written");
        reading::read(&file).text().split_whitespace().collect::<Vec<_>>().join(" ")
    };
    let text = sheet(&[(
        "at: [180, 46], groups: [A, B], shipped: B",
        "at: [180, 46], groups: [A, B], shipped: A",
    )]);
    let places = text.split("Section and page").nth(1).expect("a table");
    let places = places.split("Revision and date").next().expect("it goes on");
    assert!(places.contains("Voltages") && !places.contains("Layouts"), "{places}");
    assert!(!text.contains("As it was"), "{text}");
    let text = sheet(&[("max current: 48 A", "max current: 40 A")]);
    let places = text.split("Section and page").nth(1).expect("a table");
    assert!(places.trim_start().starts_with("boardSupply"), "{places}");
    let text = sheet(&[("6: 6, 7: 7", "6: 7, 7: 6")]);
    for words in ["6 = 6", "7 = 7", "6 = 7", "7 = 6", "layout number", "thick frame"] {
        assert!(text.contains(words), "{words}\n{text}");
    }
    let text = sheet(&FLIPPED);
    assert_eq!(text.matches("As it was").count(), 1, "{text}");
}

/// Steps of a panel are words, in the terminal in their column; a title stands for the key of the file.
#[test]
fn steps_of_a_panel_are_words() {
    let desk = tempfile::tempdir().expect("a folder");
    let specs = Path::new(env!("CARGO_MANIFEST_DIR")).join("specs");
    for file in ["curlew-10.yaml", "curlew-10-layouts.csv"] {
        fs::copy(specs.join(file), desk.path().join(file)).expect("copied");
    }
    let path = desk.path().join("curlew-10.yaml");
    let text = fs::read_to_string(&path).expect("text");
    let (from, to) = ("Turn the dial until", "Turn the large dial until");
    assert!(text.contains(from));
    let text = text
        .replace(from, to)
        .replace("links: { W11: X2, W12: X3 }", "links: { W11: X1, W12: X3 }");
    fs::write(&path, text).expect("written");
    let old = specs.join("curlew-10.yaml");
    let order = ["changes", old.to_str().expect("text"), "curlew-10.yaml", "--out", "out"];
    let ran = run(desk.path(), &order);
    assert!(!ran.out.contains("**") && !ran.out.contains("{{"), "{}", ran.out);
    let file = fs::read(desk.path().join("out/change-sheet.pdf")).expect("written");
    let text = reading::read(&file).text().split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(!text.contains("**") && !text.contains("{{"), "{text}");
    assert!(
        text.contains("Turn the large dial until the panel shows the layout number."),
        "{text}"
    );
    assert!(text.contains("supply: 230/400 V, three lines and neutral"), "{text}");
}

/// What is shipped where the new plan wants it is left there, though the old plan had it elsewhere.
#[test]
fn what_is_shipped_right_is_left_there() {
    let (desk, _) = desk();
    change(&desk, &[("6: 6, 7: 7", "6: 7, 7: 6"), ("shipped: 0\n", "shipped: 6\n")]);
    let (_, found) = json(desk.path(), &BOTH);
    let leave = "Leave selector S2 at 6, as shipped. On the old board it was at 7.";
    assert!(steps(&found["jobs"][0]).contains(&leave), "{:#}", found["jobs"][0]);
}

/// Whoever goes by the place takes one terminal or header for the other, so it is wiring, a danger and a step.
#[test]
fn things_that_exchange_places_are_wiring() {
    let (desk, _) = desk();
    let exchanged = [
        ("at: [10, 24]", "at: [10, 1]"),
        ("at: [10, 76]", "at: [10, 24]"),
        ("at: [10, 1]", "at: [10, 76]"),
    ];
    for (places, kind, pair, danger) in [
        (exchanged, "terminal", ["T1", "TG"], "deadly"),
        (EXCHANGED_HEADERS, "header", ["J2", "J3"], "fire"),
    ] {
        change(&desk, &places);
        let (_, found) = json(desk.path(), &BOTH);
        let expected = [[pair[0], pair[1]], [pair[1], pair[0]]].map(|[now, was]| {
            serde_json::json!({ "kind": kind, "now": now, "was": was, "danger": danger })
        });
        assert_eq!(found["exchanges"], Value::from(expected.to_vec()), "{found:#}");
        let changes = found["changes"].as_array().expect("changes");
        assert_eq!(changes.len(), 2, "{found:#}");
        assert!(changes.iter().all(|change| change["concern"] == "wiring"), "{found:#}");
        for job in found["jobs"].as_array().expect("jobs") {
            for [now, was] in [[pair[0], pair[1]], [pair[1], pair[0]]] {
                let kind = format!("{}{}", kind[..1].to_uppercase(), &kind[1..]);
                let step = format!("{kind} {now} is now where {was} was. Go by the label.");
                assert!(steps(job).contains(&step.as_str()), "{job:#}");
            }
        }
        run(desk.path(), &[&BOTH[..], &["--out", "out"]].concat());
        let file = fs::read(desk.path().join("out/change-sheet.pdf")).expect("written");
        let text = reading::read(&file).text().split_whitespace().collect::<Vec<_>>().join(" ");
        let caution = format!("{} is now where {} was.", pair[0], pair[1]);
        let at = text.find(&caution).expect("it is told");
        assert!(at < text.find("These steps").expect("the jobs"), "{text}");
        assert!(text.contains("Go by the label, not by the place."), "{text}");
    }
    // Three that go round are each where another was; one that comes between two and shifts them is not.
    let board = |text: &str| board_of(text).expect("sound");
    let moved = |places: &[(&str, &str)]| {
        places.iter().fold(HERON.to_owned(), |text, (from, to)| text.replacen(from, to, 1))
    };
    let round = moved(&[
        ("at: [10, 24]", "at: [10, 1]"),
        ("at: [10, 40]", "at: [10, 24]"),
        ("at: [10, 56]", "at: [10, 40]"),
        ("at: [10, 1]", "at: [10, 56]"),
    ]);
    let found = Changes::between(&board(HERON), &board(&round)).exchanges;
    let names: Vec<_> = found.iter().map(|it| (it.now.as_str(), it.was.as_str())).collect();
    assert_eq!(names, [("T1", "T3"), ("T2", "T1"), ("T3", "T2")]);
    let shifted = moved(&[("at: [10, 24]", "at: [10, 18]"), ("at: [10, 40]", "at: [10, 34]")]);
    assert!(Changes::between(&board(HERON), &board(&shifted)).exchanges.is_empty());
}

/// A desk with Wren and its jobs, and one place of the new board changed.
fn wren(from: &str, to: &str) -> tempfile::TempDir {
    let desk = tempfile::tempdir().expect("a folder");
    let text = include_str!("../../specs/wren-3.yaml");
    assert!(text.contains(from), "{from}");
    for side in ["old", "new"] {
        fs::create_dir_all(desk.path().join(side)).expect("made");
    }
    fs::create_dir_all(desk.path().join("jobs")).expect("made");
    fs::write(desk.path().join("old/wren-3.yaml"), text).expect("written");
    fs::write(desk.path().join("new/wren-3.yaml"), text.replace(from, to)).expect("written");
    let job = include_str!("../../specs/jobs/2233.yaml");
    fs::write(desk.path().join("jobs/2233.yaml"), job).expect("written");
    desk
}

const WREN: [&str; 5] = ["changes", "old/wren-3.yaml", "new/wren-3.yaml", "--jobs", "jobs"];

/// Pins that are in another order: the old plug puts the ground wire on *common*.
#[test]
fn wires_in_old_cavities_are_a_danger() {
    let desk = wren(
        "pins: [ground, common, high],\n             wires: [green, white, black]",
        "pins: [common, ground, high],\n             wires: [white, green, black]",
    );
    let (_, found) = json(desk.path(), &WREN);
    let job = &found["jobs"][0];
    let danger = &job["dangers"][0];
    assert_eq!(danger["danger"], "deadly", "{job:#}");
    assert_eq!(
        danger["mistakes"][0],
        "in the plug of the ozonator at J4, the wires are in their old cavities"
    );
    let signs = danger["signs"].to_string();
    assert!(signs.contains("the ozonator is not grounded"), "{signs}");
    assert_eq!(job["not_simulated"], serde_json::json!([]));
    let step = "In the plug at J4 (the ozonator), move these wires to other cavities: ground, common. Before, \
                from the left: high, common, ground. Now, from the left: high, ground, common.";
    assert!(steps(job).contains(&step), "{job:#}");
    // A header whose key is turned with its list of pins reversed looks the same, and no plug fits it so.
    let desk = wren(
        "key drawn: right, pins: [ground, common, high],",
        "key drawn: left, pins: [ground, common, high],",
    );
    let text = fs::read_to_string(desk.path().join("new/wren-3.yaml")).expect("text");
    let mut header = text.lines().skip_while(|line| !line.contains("J4:"));
    let line = header.find(|line| line.contains("key: ")).expect("a key");
    let turned = line.replace("key: down", "key: up");
    assert_ne!(line, turned);
    fs::write(desk.path().join("new/wren-3.yaml"), text.replace(line, &turned)).expect("written");
    let (_, found) = json(desk.path(), &WREN);
    let job = &found["jobs"][0];
    assert_eq!(job["result"], "changed");
    assert!(steps(job).iter().any(|step| step.contains("move these wires")), "{job:#}");
}

/// A switch that means something else where it stands is told, with where it means the old.
#[test]
fn a_switch_that_means_the_contrary_is_told() {
    let (desk, _) = desk();
    change(&desk, &FLIPPED);
    let (_, found) = json(desk.path(), &BOTH);
    let step = "Switch 3 of S1 OFF now means: 50 Hz supply. It meant: 60 Hz supply. If this spa needs what it \
                meant before, set switch 3 to ON.";
    for job in found["jobs"].as_array().expect("jobs") {
        assert!(steps(job).contains(&step), "{job:#}");
        let unknown = serde_json::json!(["meaning of switch 3 of S1"]);
        assert_eq!(job["not_simulated"], unknown, "{job:#}");
    }
    // In the words of the sheet's language.
    run(desk.path(), &[&BOTH[..], &["--out", "out", "--language", "de"]].concat());
    let file = fs::read(desk.path().join("out/change-sheet.pdf")).expect("written");
    let text = reading::read(&file).text().split_whitespace().collect::<Vec<_>>().join(" ");
    let words = "OFF bedeutet jetzt: Netz mit 50 Hz. Vorher hieß es: Netz mit 60 Hz.";
    assert!(text.contains(words), "{text}");
}

/// A plug has one step: it is turned where it stays, as far as its key is, and lined up where it goes.
#[test]
fn a_plug_has_one_step_for_its_key() {
    let desk = tempfile::tempdir().expect("a folder");
    let specs = Path::new(env!("CARGO_MANIFEST_DIR")).join("specs");
    for file in ["curlew-10.yaml", "curlew-10-layouts.csv"] {
        fs::copy(specs.join(file), desk.path().join(file)).expect("copied");
    }
    let mut text = fs::read_to_string(specs.join("curlew-10.yaml")).expect("text");
    for (from, to) in [
        ("max current: 50 A", "max current: 32 A"),
        ("links: { W11: X2, W12: X3 }", "links: { W11: X1, W12: X3 }"),
        (
            "at: [82, 72],  groups: [A, B, C], shipped: B",
            "at: [82, 72],  groups: [A, C], shipped: C",
        ),
        ("at: [58, 120],  socket: mains-4, key: right", "at: [58, 120],  socket: mains-4, key: up"),
    ] {
        assert!(text.contains(from), "{from}");
        text = text.replacen(from, to, 1);
    }
    fs::write(desk.path().join("curlew-10.yaml"), text).expect("written");
    let (old, jobs) = (specs.join("curlew-10.yaml"), specs.join("jobs"));
    let [old, jobs] = [&old, &jobs].map(|path| path.to_str().expect("text"));
    let (_, found) = json(desk.path(), &["changes", old, "curlew-10.yaml", "--jobs", jobs]);
    let (mut turned, mut moved) = (0, 0);
    for job in found["jobs"].as_array().expect("jobs") {
        let all = steps(job);
        let at_x11: Vec<&&str> =
            all.iter().filter(|step| step.contains("The key of X11")).collect();
        assert!(at_x11.len() <= 1, "{all:#?}");
        for step in at_x11 {
            let turn =
                step.contains("a quarter turn counterclockwise. The key of X11 is now on the top.");
            let goes = step.starts_with("Move the plug")
                && step.ends_with("The key of X11 is on the top.");
            assert!(turn != goes, "{step}");
            turned += usize::from(turn);
            moved += usize::from(goes);
        }
        assert!(!job["dangers"].to_string().contains("end for end at X11"), "{job:#}");
    }
    assert!(turned > 0 && moved > 0, "{turned} turned, {moved} moved");
}

/// The most severe first, a current above the board's limit no less than a warning, nothing told twice.
#[test]
fn dangers_are_in_the_order_of_their_weight() {
    let (desk, _) = desk();
    let key = "at: [122, 124], socket: power-4, key: left";
    change(
        &desk,
        &[
            ("max current: 48 A", "max current: 40 A"),
            ("at: [122, 124], socket: power-4, key: right", key),
        ],
    );
    let (_, found) = json(desk.path(), &BOTH);
    let rank = |danger: &Value| match danger["danger"].as_str() {
        Some("deadly") => 3,
        Some("fire") => 2,
        Some("damage") => 1,
        other => panic!("{other:?}"),
    };
    let mut heated = 0;
    for job in found["jobs"].as_array().expect("jobs") {
        let dangers = job["dangers"].as_array().expect("a list");
        assert!(dangers.is_sorted_by_key(|danger| std::cmp::Reverse(rank(danger))), "{job:#}");
        let over = |danger: &&Value| danger["signs"].to_string().contains("limit of the board");
        heated += dangers.iter().filter(over).count();
        assert!(dangers.iter().filter(over).all(|danger| rank(danger) >= 2), "{job:#}");
        let mut together =
            dangers.iter().filter(|danger| danger["mistakes"].as_array().map_or(0, Vec::len) > 1);
        let alone = |sign: &Value| {
            let alone =
                dangers.iter().filter(|it| it["mistakes"].as_array().map(Vec::len) == Some(1));
            alone.into_iter().any(|it| it["signs"].as_array().is_some_and(|all| all.contains(sign)))
        };
        assert!(
            together.all(|it| !it["signs"].as_array().expect("signs").iter().any(alone)),
            "{job:#}"
        );
    }
    assert!(heated > 0);
    // At most one box for each signal word stands before the first step.
    run(desk.path(), &[&BOTH[..], &["--out", "out"]].concat());
    let file = fs::read(desk.path().join("out/change-sheet.pdf")).expect("written");
    let text = reading::read(&file).text().split_whitespace().collect::<Vec<_>>().join(" ");
    for job in text.split("Job 2").skip(1) {
        let Some((before, _)) = job.split_once("Turn off every supply. Lock off, tag and test.")
        else {
            continue;
        };
        for words in ["These mistakes can kill.", "These mistakes can start a fire."] {
            assert!(before.matches(words).count() <= 1, "{before}");
        }
    }
}

/// A key that faces the other side: the plug is turned, and what it does unturned is told first.
#[test]
fn the_danger_of_the_old_wiring_comes_before_the_steps() {
    let (desk, _) = desk();
    change(
        &desk,
        &[(
            "at: [122, 124], socket: power-4, key: right",
            "at: [122, 124], socket: power-4, key: left",
        )],
    );
    let (_, found) = json(desk.path(), &BOTH);
    let job = &found["jobs"][0];
    assert_eq!(job["job"], "2231");
    assert_eq!(job["dangers"][0]["danger"], "deadly");
    let turn = "Turn the plug at J3 (pump 2) by half a turn. The key of J3 is now on the left.";
    let turns = steps(job).into_iter().filter(|step| step.contains("J3"));
    assert_eq!(turns.collect::<Vec<_>>(), [turn]);
    let text = run(desk.path(), &BOTH);
    let (danger, lock, turn) = (
        text.out.find("DANGER, if the old wiring stays"),
        text.out.find("1. Turn off every supply. Lock off, tag and test."),
        text.out.find("Turn the plug at J3"),
    );
    assert!(danger.is_some() && danger < lock && lock < turn, "{}", text.out);
    assert!(text.out.lines().all(|line| line.chars().count() <= 80), "{}", text.out);
    change(&desk, &[("6: 6, 7: 7", "6: 7, 7: 6"), ("rating: 15 A", "rating: 12 A")]);
    let (_, found) = json(desk.path(), &BOTH);
    let steps = found["jobs"][0]["steps"].to_string();
    assert!(steps.contains("Turn selector S2 from 0, as shipped, to 6."), "{steps}");
    let fuse =
        "Make sure that the fuse F3 on the new board is 12 A. Do not use the old fuse of 15 A.";
    assert!(steps.contains(fuse), "{steps}");
    let unknown = found["jobs"][0]["not_simulated"].to_string();
    assert!(unknown.contains("fuse F3"), "{unknown}");
}

#[test]
fn the_same_board_has_no_changes() {
    let (desk, _) = desk();
    let ran = run(desk.path(), &BOTH);
    assert_eq!((ran.status, ran.err.as_str()), (0, ""));
    assert!(ran.out.ends_with("\nNothing differs.\n"), "{}", ran.out);
    let (status, found) = json(desk.path(), &BOTH);
    assert_eq!((status, &found["differs"]), (0, &Value::Bool(false)));
    // Comments and the order of things say nothing.
    change(
        &desk,
        &[
            ("  F1: ", "  # In front of pump 1.\n  F1: "),
            (
                "        part: main, at: [196, 118], socket: studs-2",
                "        socket: studs-2, at: [196, 118], part: main",
            ),
        ],
    );
    assert_eq!(json(desk.path(), &BOTH).0, 0);
}

#[test]
fn what_cannot_be_compared_is_trouble() {
    let (desk, _) = desk();
    let at = |arguments: &[&str]| run(desk.path(), arguments);
    let ran = at(&["changes", "old/none.yaml", "new/heron-8.yaml"]);
    assert_eq!(ran.status, 2);
    assert!(ran.err.contains("old/none.yaml") && ran.out.contains("nothing is compared"));
    let ran = at(&["changes", "old/jobs/2231.yaml", "new/heron-8.yaml"]);
    assert_eq!(ran.status, 2);
    assert!(ran.err.contains("old/jobs/2231.yaml is a job; name two boards"), "{}", ran.err);
    change(&desk, &[("shipped: A }", "shipped: Q }")]);
    let ran = at(&BOTH);
    assert_eq!(ran.status, 2);
    assert!(ran.err.contains("new/heron-8.yaml:"), "{}", ran.err);
    change(&desk, &[]);
    let ran = at(&[&BOTH[..], &["--jobs", "none"]].concat());
    assert_eq!(ran.status, 2);
    assert!(ran.err.contains("none"), "{}", ran.err);
}

fn git(folder: &Path, arguments: &[&str]) {
    let who = ["-c", "user.name=A person", "-c", "user.email=person@example.org"];
    let ran = Command::new("git").args(who).args(arguments).current_dir(folder).output();
    let ran = ran.expect("git is installed");
    assert!(ran.status.success(), "{}", String::from_utf8_lossy(&ran.stderr));
}

/// A board of an earlier revision, with the tables that it had then.
#[test]
fn the_old_board_can_be_a_revision() {
    let desk = tempfile::tempdir().expect("a folder");
    let specs = Path::new(env!("CARGO_MANIFEST_DIR")).join("specs");
    let folder = desk.path().join("boards");
    fs::create_dir(&folder).expect("made");
    for file in ["curlew-10.yaml", "curlew-10-layouts.csv"] {
        fs::copy(specs.join(file), folder.join(file)).expect("copied");
    }
    let old = ["changes", "HEAD:boards/curlew-10.yaml", "boards/curlew-10.yaml"];
    let ran = run(desk.path(), &old);
    assert_eq!(ran.status, 2, "no checkout");
    assert!(ran.err.contains("git says: not a git repository"), "{}", ran.err);

    git(desk.path(), &["init", "--quiet"]);
    git(desk.path(), &["add", "."]);
    git(desk.path(), &["commit", "--quiet", "--message", "Boards"]);
    let ran = run(desk.path(), &old);
    assert_eq!(ran.status, 0, "{}{}", ran.out, ran.err);

    // A cell of the table says one speed in place of two, or the other way round.
    let table = folder.join("curlew-10-layouts.csv");
    let text = fs::read_to_string(&table).expect("text");
    let (head, last) = text.trim_end().rsplit_once('\n').expect("rows");
    let at = last.rfind(['1', '2']).expect("a device");
    let speeds = if last.as_bytes()[at] == b'1' { "2" } else { "1" };
    let row = format!("{}{speeds}{}", &last[..at], &last[at + 1..]);
    fs::write(&table, format!("{head}\n{row}\n")).expect("written");
    let (status, found) = json(desk.path(), &old);
    assert_eq!((status, &found["changes"][0]["kind"]), (1, &Value::from("layout")), "{found:#}");
    let ran = run(desk.path(), &["changes", "v9:boards/curlew-10.yaml", "boards/curlew-10.yaml"]);
    assert_eq!(ran.status, 2);
    assert!(ran.err.contains("git says: ") && ran.err.contains("v9"), "{}", ran.err);
}

#[cfg(unix)]
#[test]
fn a_file_wins_over_a_revision_of_its_name() {
    let (desk, _) = desk();
    let name = "HEAD:heron-8.yaml";
    fs::write(desk.path().join(name), HERON).expect("written");
    let ran = run(desk.path(), &["changes", name, "new/heron-8.yaml"]);
    assert_eq!(ran.status, 0, "{}{}", ran.out, ran.err);
}

/// Danger and lock-off come before the work, in the sheet as in the text.
#[test]
fn a_change_sheet_warns_before_its_steps() {
    let (desk, _) = desk();
    let to = "at: [122, 124], socket: power-4, key: left";
    change(&desk, &[("at: [122, 124], socket: power-4, key: right", to)]);
    let order = [&BOTH[..], &["--out", "out", "--paper", "letter"]].concat();
    let ran = run(desk.path(), &order);
    assert_eq!((ran.status, ran.err.as_str()), (1, ""));
    assert!(ran.out.ends_with("\nwrote out/change-sheet.pdf\n"), "{}", ran.out);
    let file = fs::read(desk.path().join("out/change-sheet.pdf")).expect("written");
    let text = reading::read(&file).text().split_whitespace().collect::<Vec<_>>().join(" ");
    let at = |words: &str| text.find(words).unwrap_or_else(|| panic!("{words}\n{text}"));
    let order = [
        at("key siderightleft"),
        at("These steps are for a control box where the new board takes the place of the old one."),
        at("Live parts in this control box."),
        at("If the old wiring stays, the plug of pump 2 is in end for end at J3."),
        at("The metal of pump 2 is live"),
        at("Turn off every supply. Lock off, tag and test."),
        at("Turn the plug at J3 (pump 2) by half a turn."),
        at("Put the new lid insert and fault finder into the lid. Close and fasten the cover."),
    ];
    assert!(order.is_sorted(), "{order:?}\n{text}");
    for line in ran.out.lines().take(2) {
        let (_, mark) = line.rsplit_once("mark ").expect("a mark");
        at(mark);
    }
    at("Revision and date are the same on both boards.");
    fs::create_dir(desk.path().join("own")).expect("made");
    fs::write(desk.path().join("own/changes.md"), "{{ nothing.of.it }}\n").expect("written");
    let ran = run(desk.path(), &[&order_of_own()[..], &["--out", "out"]].concat());
    assert_eq!(ran.status, 2);
    assert!(ran.err.contains("own/changes.md"), "{}", ran.err);
}

fn order_of_own() -> [&'static str; 5] {
    [BOTH[0], BOTH[1], BOTH[2], "--templates", "own"]
}

/// A number is entered with the supply on, so the cover is closed before; what the panel needs for it
/// stands on the work card.
#[test]
fn a_layout_is_entered_behind_a_closed_cover() {
    let desk = tempfile::tempdir().expect("a folder");
    let specs = Path::new(env!("CARGO_MANIFEST_DIR")).join("specs");
    for file in ["curlew-10.yaml", "curlew-10-layouts.csv"] {
        fs::copy(specs.join(file), desk.path().join(file)).expect("copied");
    }
    let table = desk.path().join("curlew-10-layouts.csv");
    let text = fs::read_to_string(&table).expect("text");
    let row = |number: &str| {
        let row = text.lines().find_map(|line| line.strip_prefix(number)).expect("a row");
        format!("{number}{row}\n")
    };
    let (eleven, twelve) = (row("11,"), row("12,"));
    let swapped = text
        .replace(&eleven, &twelve.replacen("12,", "eleven,", 1))
        .replace(&twelve, &eleven.replacen("11,", "12,", 1))
        .replace("eleven,", "11,");
    fs::write(&table, swapped).expect("written");
    let (old, jobs) = (specs.join("curlew-10.yaml"), specs.join("jobs"));
    let [old, jobs] = [&old, &jobs].map(|path| path.to_str().expect("text"));
    let ran = run(desk.path(), &["changes", old, "curlew-10.yaml", "--jobs", jobs]);
    assert_eq!((ran.status, ran.err.as_str()), (1, ""), "{}", ran.out);
    let job = &ran.out[ran.out.find("JOB 2237").expect("it is named")..];
    let job = job.split_whitespace().collect::<Vec<_>>().join(" ");
    let at = |words: &str| job.find(words).unwrap_or_else(|| panic!("{words}\n{job}"));
    let closed =
        at("Put the new lid insert and fault finder into the lid. Close and fasten the cover.");
    assert!(at("1. Turn off every supply.") < closed);
    let entered = "With the cover closed, turn the supply on. Enter layout 11, as the new work card shows. \
                   On the old board it was 12.";
    assert!(closed < at(entered));
}

/// Colors that are said for the first time are no work and no danger, and they hide neither: a plug whose
/// pins turned is as dangerous as without them.
#[test]
fn colors_of_wires_are_told_apart_from_the_order_of_pins() {
    let colored = include_str!("../../specs/wren-3.yaml");
    let colors = |line: &&str| line.trim_start().starts_with("wires: [");
    assert_eq!(colored.lines().filter(colors).count(), 2);
    let plain: Vec<&str> =
        colored.lines().map(|line| if colors(&line) { "  }" } else { line }).collect();
    let plain = plain.join("\n");
    assert!(!plain.contains("wires: ["), "{plain}");
    let header = plain.lines().skip_while(|line| !line.contains("J2:"));
    let key = header.into_iter().find(|line| line.contains("key: ")).expect("a key");
    let (from, to) = match key.contains("key: right") {
        true => ("key: right", "key: left"),
        false => ("key: left", "key: right"),
    };
    let turned = colored.replace(key, &key.replace(from, to));
    assert_ne!(turned, colored);
    let scratch = tempfile::tempdir().unwrap();
    let folder = scratch.path();
    std::fs::create_dir_all(folder.join("old")).unwrap();
    std::fs::create_dir_all(folder.join("jobs")).unwrap();
    std::fs::write(folder.join("old/wren-3.yaml"), &plain).unwrap();
    let job = include_str!("../../specs/jobs/2233.yaml");
    std::fs::write(folder.join("jobs/2233.yaml"), job).unwrap();
    let compared = |new: &str| {
        std::fs::write(folder.join("wren-3.yaml"), new).unwrap();
        run(folder, &["changes", "old/wren-3.yaml", "wren-3.yaml"])
    };
    let only_colors = compared(colored).out;
    assert!(only_colors.contains("wire colors of pump 1"), "{only_colors}");
    assert!(
        only_colors.contains("Wiring and settings are the same on both boards."),
        "{only_colors}"
    );
    assert!(!only_colors.contains("not simulated"), "{only_colors}");
    let both = compared(&turned).out;
    assert!(both.contains("DANGER"), "{both}");
    assert!(both.contains("Turn the plug at J2"), "{both}");
}

/// The pages that a change sheet names are those of the new wiring sheets on which the label stands.
#[test]
fn the_pages_of_the_new_sheets_are_named() {
    let (desk, _) = desk();
    change(
        &desk,
        &[("122, 124], socket: power-4, key: right", "122, 124], socket: power-4, key: left")],
    );
    let ran = run(desk.path(), &[&BOTH[..], &["--out", "sheet"]].concat());
    assert_eq!(ran.status, 1, "{}", ran.err);
    let sheet = reading::read(&fs::read(desk.path().join("sheet/change-sheet.pdf")).expect("made"));
    let text = sheet.text();
    let mut after = text.split("header J3").map(str::trim_start);
    let line = after.find(|rest| rest.starts_with("The board at a glance")).expect("its line");
    let places = line.split("Pins and switches").next().unwrap_or_default();
    let places = places.split("switch ").next().unwrap_or_default();
    let numbers = places.split(['\u{2013}', ',', ';', ' ']).filter_map(|word| word.parse().ok());
    let named: BTreeSet<usize> = numbers.collect();
    let ran = run(desk.path(), &["build", "new/heron-8.yaml"]);
    assert_eq!(ran.status, 0, "{}", ran.err);
    let made = fs::read(desk.path().join("out/heron-8/wiring-sheets.pdf")).expect("made");
    let made = reading::read(&made);
    let has = |text: &str| text.split(|c: char| !c.is_alphanumeric()).any(|word| word == "J3");
    let said = made.said.iter().filter(|said| has(&said.text)).filter_map(|said| said.page);
    let words: BTreeSet<usize> = said.map(|page| page + 1).collect();
    assert!(words.is_subset(&named), "{places}: {words:?}");
    assert!(
        !named.is_empty() && named.iter().all(|page| *page <= made.decoration.len()),
        "{places}"
    );
    assert!(named.len() < made.decoration.len(), "not every page: {places}");
}

/// Pins are drawn as they were and as they are: of a key that is turned round the other way round.
#[test]
fn pins_are_drawn_both_ways() {
    use lidsheet::document::{Block, Document, plain_text};
    fn figures(blocks: &[Block], to: &mut Vec<(String, Vec<String>)>) {
        for block in blocks {
            match block {
                Block::Figure { scene, caption, .. } => {
                    let mut texts = scene.text_boxes();
                    texts.sort_by(|a, b| a.0.top.total_cmp(&b.0.top));
                    let pins = ["ground", "common", "low", "high"];
                    let texts = texts.into_iter().map(|(_, text)| text.trim().to_owned());
                    let texts = texts.filter(|text| pins.contains(&text.as_str())).collect();
                    to.push((plain_text(caption), texts));
                }
                Block::Columns { blocks, .. } | Block::Together(blocks) => figures(blocks, to),
                Block::Beside { parts, .. } => parts.iter().for_each(|part| figures(part, to)),
                _ => {}
            }
        }
    }
    let turned = HERON
        .replace("122, 124], socket: power-4, key: right", "122, 124], socket: power-4, key: left");
    let (old, new) = (board_of(HERON).expect("sound"), board_of(&turned).expect("sound"));
    let changes = Changes::between(&old, &new);
    let marks = [&old, &new].map(lidsheet::compile::mark_of_board);
    let sheet = lidsheet::sheet::ChangeSheet {
        old: &old,
        new: &new,
        marks,
        changes: &changes,
        jobs: &[],
        printed: None,
    };
    let templates = lidsheet::sheet::Templates::built_in(&mut lidsheet::source::Sources::default());
    let mut problems = lidsheet::diagnostic::Problems::default();
    let (mut set, paper) = (lidsheet::text::Typesetter::new(), lidsheet::page::Paper::A4);
    let made = lidsheet::sheet::change_sheet(&sheet, &mut set, paper, &templates, &mut problems);
    let Document { blocks, .. } = made.expect("the template is sound");
    let mut found = Vec::new();
    figures(&blocks, &mut found);
    let pins = |words: [&str; 4]| words.map(str::to_owned).to_vec();
    let expected = [
        ("As it was".to_owned(), pins(["ground", "common", "low", "high"])),
        ("As it is now".to_owned(), pins(["high", "low", "common", "ground"])),
    ];
    assert_eq!(found, expected);
}
