//! `lidsheet plan` from outside.

use std::path::Path;

use assert_cmd::Command;
use serde_json::Value;

/// What a run printed, and how it ended.
pub struct Ran {
    pub status: i32,
    pub out: String,
    pub err: String,
}

impl Ran {
    pub fn of(command: &mut Command) -> Self {
        let output = command.output().expect("it runs");
        Self {
            status: output.status.code().expect("it ends by itself"),
            out: String::from_utf8(output.stdout).expect("text"),
            err: String::from_utf8(output.stderr).expect("text"),
        }
    }
}

fn run_with(arguments: &[&str], folder: &str, input: &str) -> Ran {
    let mut command = Command::cargo_bin("lidsheet").expect("it is built");
    let command = command.arg("plan").args(arguments);
    let command = command.current_dir(Path::new(env!("CARGO_MANIFEST_DIR")).join(folder));
    Ran::of(command.env("COLUMNS", "100").write_stdin(input))
}

fn run(arguments: &[&str]) -> Ran {
    run_with(arguments, ".", "")
}

fn json(arguments: &[&str]) -> (i32, Value) {
    let ran = run(&[arguments, &["--format", "json"]].concat());
    assert_eq!(ran.err, "", "the JSON alone tells everything");
    (ran.status, serde_json::from_str(&ran.out).expect("one object"))
}

#[test]
fn a_plan_reads_well() {
    for job in ["2231", "2233", "2239"] {
        let ran = run(&[&format!("specs/jobs/{job}.yaml")]);
        assert_eq!(ran.status, 0, "{}", ran.err);
        assert_snapshot!(format!("plan_cli__plan_{job}"), ran.out);
    }
}

#[test]
fn no_line_of_a_plan_is_longer_than_80() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("specs/jobs");
    let mut seen = 0;
    for entry in std::fs::read_dir(folder).expect("it is there") {
        let name = entry.expect("readable").file_name().to_string_lossy().into_owned();
        let ran = run(&[&format!("specs/jobs/{name}")]);
        assert_eq!(ran.status, 0, "{name}\n{}", ran.err);
        assert!(ran.out.lines().count() > 20, "{name}: {}", ran.out);
        for line in ran.out.lines() {
            assert!(line.chars().count() <= 80, "{name}: {line}");
            assert_eq!(line, line.trim_end(), "{name}");
        }
        seen += 1;
    }
    assert!(seen >= 8);
}

/// The keys of the design, in its order.
const KEYS: [&str; 17] = [
    "board",
    "mark",
    "supply",
    "layout",
    "other_layouts",
    "passed_layouts",
    "devices",
    "empty_headers",
    "jumpers",
    "switches",
    "selector",
    "heater",
    "conductors",
    "breaker",
    "supply_run",
    "wire",
    "problems",
];

/// Worked by hand in `jobs.rs`.
#[test]
fn the_json_is_the_interface_of_the_design() {
    let ran = run(&["tests/version-1/jobs/2231.yaml", "--format", "json"]);
    let found: Value = serde_json::from_str(&ran.out).expect("one object");
    let mark = found["mark"].as_str().expect("a mark");
    assert!(lidsheet::mark::Mark::parse(mark).is_some(), "{mark}");
    // It is another whenever the words of a sheet are.
    assert_snapshot!("plan_cli__plan_2231_json", ran.out.replace(mark, "MARK"));
    let places: Vec<_> =
        KEYS.iter().map(|key| ran.out.find(&format!("\n  \"{key}\":")).expect(key)).collect();
    assert!(places.is_sorted(), "{places:?}");
    assert_eq!(found.as_object().expect("an object").len(), KEYS.len());

    let near = |value: &Value, wanted: f64| {
        let found = value.as_f64().expect("a number");
        assert!((found - wanted).abs() < 0.005, "{found}, not {wanted}");
    };
    assert_eq!(found["layout"], 7);
    near(&found["conductors"]["L1"], 44.37);
    near(&found["conductors"]["L2"], 37.07);
    near(&found["conductors"]["N"], 7.30);
    near(&found["breaker"]["needed_amps"], 48.98);
    assert_eq!(found["breaker"]["smallest"], 50.0);
    assert_eq!(found["breaker"]["rules"], "nec");
    near(&found["heater"]["watts"], 4000.0);
    assert_eq!(found["heater"]["allowance"], 4);
    assert_eq!(found["heater"]["allowance_amps"], Value::Null);
    assert_eq!(found["selector"], Value::Null);
    assert_eq!(found["switches"]["S1"][0], "on");
    assert_eq!(found["wire"]["verdict"], "only with terminals for 75 C");
    near(&found["wire"]["capacity_amps"], 50.0);
    let codes: Vec<&Value> =
        found["problems"].as_array().expect("a list").iter().map(|one| &one["code"]).collect();
    assert_eq!(codes, ["L626"]);
}

/// The same equipment on the board that is set by a selector and held back by a current. By hand: all
/// of it adds up to 44.37 A, which 44 A holds back; without the ozonator it is 43.97 A, and counts
/// 48.98 - 1.25 * 0.4 = 48.48 A.
#[test]
fn a_selector_and_a_current_are_told_in_json() {
    let (status, found) = json(&["specs/jobs/2231.yaml"]);
    assert_eq!(status, 0);
    assert_eq!(found["selector"], serde_json::json!({ "S2": "7" }));
    assert_eq!(found["heater"]["allowance"], Value::Null);
    assert_eq!(found["heater"]["allowance_amps"], 44.0);
    let near = |value: &Value, wanted: f64| {
        let found = value.as_f64().expect("a number");
        assert!((found - wanted).abs() < 0.005, "{found}, not {wanted}");
    };
    near(&found["conductors"]["L1"], 43.97);
    near(&found["breaker"]["needed_amps"], 48.48);
    assert_eq!(found["switches"]["S1"][1], "on");
    let (_, wren) = json(&["specs/jobs/2233.yaml"]);
    assert_eq!(wren["layout"], 3);
    assert_eq!(wren["selector"], Value::Null);
    let ways = &wren["switches"]["S1"];
    assert_eq!((&ways[4], &ways[5]), (&"off".into(), &"on".into()));
}

#[test]
fn a_refused_job_ends_with_1_and_shows_nothing_to_follow() {
    let job = "tests/jobs-refused/fuse.yaml";
    let ran = run(&[job]);
    assert_eq!(ran.status, 1);
    assert!(ran.err.contains("error[L614]"), "{}", ran.err);
    assert_eq!(ran.out, "job fuse is refused: 1 error; no plan is shown\n");

    let (status, found) = json(&[job]);
    assert_eq!(status, 1);
    assert_eq!(found["problems"][0]["code"], "L614");
    assert_eq!(found["problems"][0]["line"], 9);
    assert_eq!(found["board"], "Heron 8");
    for key in KEYS.iter().filter(|key| !["board", "supply", "problems"].contains(key)) {
        assert_eq!(found[key], Value::Null, "{key}");
    }
}

/// A warning is told, and the plan is there.
#[test]
fn a_warning_refuses_nothing() {
    let ran = run(&["specs/jobs/2232.yaml"]);
    assert_eq!(ran.status, 0);
    assert!(ran.err.contains("warning[L612]"), "{}", ran.err);
    let (status, found) = json(&["specs/jobs/2232.yaml"]);
    assert_eq!(status, 0);
    assert_eq!(found["problems"][0]["severity"], "warning");
    // 4,000 W at 240 V on 120 V times the root of 3: three quarters of it.
    assert_eq!(found["heater"]["watts"], 3000.0);
}

#[test]
fn a_job_can_come_on_standard_input() {
    let job = include_str!("../../specs/jobs/2231.yaml");
    let ran = run_with(&["-"], "specs/jobs", job);
    assert_eq!(ran.status, 0, "{}", ran.err);
    assert!(ran.out.starts_with("Job 2231, Mill Lane spa, deck side\n"));
    assert!(ran.out.contains("\nLAYOUT 7\n"));
}

#[test]
fn a_job_that_cannot_be_read_is_trouble() {
    let (status, found) = json(&["specs/jobs/none.yaml"]);
    assert_eq!(status, 2);
    assert_eq!(found["problems"][0]["code"], "L051");
    assert_eq!(found["board"], Value::Null);
}

#[test]
fn what_is_no_job_is_told() {
    for (arguments, words) in [
        (vec!["specs/heron-8.yaml"], "this is a board; name a job"),
        (vec!["specs/jobs/2231.yaml", "--with", "blower"], "this is a job; `--with` asks a board"),
        (vec!["specs"], "specifications here; name one"),
        (vec!["specs/heron-8.yaml", "--with", "pump"], "`pump:1` or `pump:2`"),
    ] {
        let ran = run(&arguments);
        assert_eq!((ran.status, ran.out.as_str()), (2, ""), "{arguments:?}");
        assert!(ran.err.contains(words), "{}", ran.err);
    }
}

#[test]
fn the_quick_question_is_answered() {
    let mut all = String::new();
    for (board, with, status) in [
        ("heron-8", "circulation, pump:2, pump:1, blower", 0),
        ("heron-8", "pump:1, pump:1, blower", 1),
        ("heron-8", "pump:2, pump:2, ozonator", 1),
        ("wren-3", "pump:2, blower", 1),
        ("curlew-10", "pump:2, pump:1, pump:1, light, sound", 0),
    ] {
        let ran = run(&[&format!("specs/{board}.yaml"), "--with", with]);
        assert_eq!((ran.status, ran.err.as_str()), (status, ""), "{with}");
        all.push_str(&format!(
            "$ lidsheet plan specs/{board}.yaml --with \"{with}\"\n{}\n",
            ran.out
        ));
    }
    assert_snapshot!("plan_cli__the_quick_question_is_answered", all);

    let (status, found) = json(&["specs/heron-8.yaml", "--with", "pump:1, pump:1, blower"]);
    assert_eq!(status, 1);
    assert_eq!(found["layouts"], serde_json::json!([]));
    assert_eq!(found["nearest"][0]["layout"], 3);
}
