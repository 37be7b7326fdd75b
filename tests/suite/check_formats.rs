//! What `lidsheet check` writes for machines: SARIF is held against the committee's schema by a
//! validator that is not ours, the commands of GitHub are read as its runner reads them, and all formats
//! against each other.

use std::fs;
use std::path::Path;
use std::process::Output;

use assert_cmd::Command;
use serde_json::Value;

use lidsheet::diagnostic::{Code, explain, page};

const HERON: &str = include_str!("../version-1/heron-8.yaml");
const BASE: &str = include_str!("../diagnostics/base.yaml");

fn lidsheet(folder: &Path, arguments: &[&str]) -> Output {
    let mut command = Command::cargo_bin("lidsheet").expect("it is built");
    command.args(arguments).current_dir(folder).output().expect("it runs")
}

#[track_caller]
fn out(folder: &Path, arguments: &[&str]) -> String {
    String::from_utf8(lidsheet(folder, arguments).stdout).expect("UTF-8")
}

#[track_caller]
fn json(folder: &Path, arguments: &[&str]) -> Value {
    serde_json::from_str(&out(folder, arguments)).expect("JSON")
}

/// The faults of a log of SARIF, by the schema of the standard.
fn faults(log: &Value) -> Option<String> {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/sarif/sarif-schema-2.1.0.json");
    let schema = serde_json::from_slice(&fs::read(path).expect("readable")).expect("JSON");
    let mut schemas = boon::Schemas::new();
    let mut compiler = boon::Compiler::new();
    compiler.add_resource("sarif.json", schema).expect("a schema");
    let index = compiler.compile("sarif.json", &mut schemas).expect("a schema of draft 7");
    schemas.validate(log, index).err().map(|error| error.to_string())
}

/// All samples of diagnostics, jobs with their boards and tables among them, as they lie there.
fn samples() -> tempfile::TempDir {
    fn copy(from: &Path, to: &Path) {
        fs::create_dir_all(to).expect("made");
        for entry in fs::read_dir(from).expect("it is there") {
            let path = entry.expect("readable").path();
            let there = to.join(path.file_name().expect("a name"));
            if path.is_dir() {
                copy(&path, &there);
            } else if path.extension().is_some_and(|ending| ending != "snap") {
                fs::copy(&path, there).expect("copied");
            }
        }
    }
    let folder = tempfile::tempdir().expect("a folder");
    let tests = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests");
    for part in ["diagnostics", "jobs-refused", "version-1"] {
        copy(&tests.join(part), &folder.path().join("tests").join(part));
    }
    copy(&tests.join("../specs"), &folder.path().join("specs"));
    folder
}

/// Line and column of both ends.
fn region(region: &Value) -> [u64; 4] {
    let of = |key: &str| region[key].as_u64().unwrap_or_else(|| panic!("{key} in {region}"));
    [of("startLine"), of("startColumn"), of("endLine"), of("endColumn")]
}

#[test]
fn sarif_is_valid_and_says_what_json_says() {
    let folder = samples();
    let here = folder.path();
    let check =
        |paths: &[&str], format: &str| out(here, &[&["check", "--format", format], paths].concat());
    let (specs, tests) = (here.join("specs"), here.join("tests"));
    let absolute = [specs, tests].map(|path| path.to_str().expect("UTF-8").to_owned());
    let log = check(&["specs", "tests"], "sarif");
    assert!(log == check(&["specs", "tests"], "sarif"), "the same each time");
    let same = check(&absolute.each_ref().map(String::as_str), "sarif");
    let lines = log.lines().zip(same.lines());
    assert_eq!(lines.clone().find(|(one, other)| one != other), None, "no path of this machine");
    assert!(log == same && !log.contains(here.to_str().expect("UTF-8")));
    let log: Value = serde_json::from_str(&log).expect("JSON");
    let all: Value = serde_json::from_str(&check(&["specs", "tests"], "json")).expect("JSON");
    assert_eq!(faults(&log), None);
    let run = &log["runs"][0];
    assert_eq!(run["columnKind"], "unicodeCodePoints");
    let rules = run["tool"]["driver"]["rules"].as_array().expect("rules");
    let place = |result: &Value| {
        let physical = &result["locations"][0]["physicalLocation"];
        let uri = physical["artifactLocation"]["uri"].as_str().unwrap_or_default().to_owned();
        let region = physical.get("region").map(region);
        (uri, region, result["ruleId"].as_str().expect("a code").to_owned())
    };
    let results = run["results"].as_array().expect("results");
    let mut found: Vec<_> = results.iter().map(place).collect();
    let of = |problem: &Value| {
        let keys = ["line", "column", "end_line", "end_column"];
        let region: Option<Vec<u64>> = keys.iter().map(|key| problem[key].as_u64()).collect();
        let file = problem["file"].as_str().expect("a file").to_owned();
        let region = region.map(|it| [it[0], it[1], it[2], it[3]]);
        (file, region, problem["code"].as_str().expect("a code").to_owned())
    };
    let mut said: Vec<_> = all.as_array().expect("an array").iter().map(of).collect();
    assert!(said.len() > 250, "{}", said.len());
    said.sort();
    found.sort();
    assert_eq!(found, said);
    for result in results {
        let index = result["ruleIndex"].as_u64().expect("an index");
        let rule = &rules[usize::try_from(index).expect("small")];
        let code = Code::parse(rule["id"].as_str().expect("a code")).expect("one of ours");
        assert_eq!(rule["id"], result["ruleId"]);
        assert_eq!(result["level"], code.severity().word());
        assert_eq!(rule["help"]["markdown"], explain(code));
        assert!(rule.get("helpUri").is_none(), "there is no page on the web");
    }
    // The most dangerous first, whatever the file.
    let ranks: Vec<f64> = results.iter().filter_map(|result| result["rank"].as_f64()).collect();
    assert_eq!(ranks.len(), results.len());
    assert!(ranks.windows(2).all(|pair| pair[0] >= pair[1]));
    assert!(results.iter().any(|result| result.get("relatedLocations").is_some()));
    assert!(results.iter().any(|result| result.get("fixes").is_some()));
}

#[test]
fn the_validator_refuses_what_is_no_sarif() {
    let folder = tempfile::tempdir().expect("a folder");
    fs::write(folder.path().join("a.yaml"), HERON).expect("written");
    let log = json(folder.path(), &["check", "a.yaml", "--format", "sarif"]);
    assert_eq!(faults(&log), None);
    for (place, wrong) in [
        ("/runs/0/results/0/level", Value::from("fatal")),
        ("/runs/0/results/0/message", Value::from("a text")),
        ("/runs/0/columnKind", Value::from("bytes")),
        ("/version", Value::from("2.0.0")),
        ("/runs/0/tool/driver/name", Value::Null),
    ] {
        let mut log = log.clone();
        *log.pointer_mut(place).unwrap_or_else(|| panic!("{place}")) = wrong;
        assert!(faults(&log).is_some(), "{place}");
    }
}

/// Letters outside of the first plane are one code point and two units of UTF-16: the text is cut by
/// code points, as `columnKind` says, without a look at bytes.
#[test]
fn fixes_of_sarif_and_edits_of_json_stand_at_code_points() {
    let folder = tempfile::tempdir().expect("a folder");
    let line = "  T1: { part: main, at: [8, 10], wire: black }";
    assert!(BASE.contains(line));
    let text = BASE
        .replace(line, "  T1: { \"\u{1f6c1}\u{e4}\": 1, prat: main, at: [8, 10], wire: black }");
    fs::write(folder.path().join("a b%\u{e4}.yaml"), &text).expect("written");
    let log = json(folder.path(), &["check", ".", "--format", "sarif"]);
    assert_eq!(faults(&log), None);
    let results = log["runs"][0]["results"].as_array().expect("results");
    let fixed = results.iter().find(|result| result.get("fixes").is_some()).expect("a fix");
    let uri = &fixed["locations"][0]["physicalLocation"]["artifactLocation"]["uri"];
    assert_eq!(uri, "a%20b%25%C3%A4.yaml");
    let change = &fixed["fixes"][0]["artifactChanges"][0];
    let replacement = &change["replacements"][0];
    let [line, start, end_line, end] = region(&replacement["deletedRegion"]);
    assert_eq!(line, end_line);
    let cut = |line: u64, start: u64, end: u64| -> String {
        let line = text.lines().nth(line as usize - 1).expect("the line");
        line.chars().skip(start as usize - 1).take((end - start) as usize).collect()
    };
    assert_eq!(cut(line, start, end), "prat");
    assert_eq!(replacement["insertedContent"]["text"], "part");
    assert_eq!(fixed["fixes"][0]["properties"]["kind"], "spelling");
    let all = json(folder.path(), &["check", ".", "--format", "json"]);
    let mut all = all.as_array().expect("an array").iter();
    let edit = &all.find(|it| it["edits"] != Value::Array(vec![])).expect("an edit")["edits"][0];
    let of = |key: &str| edit[key].as_u64().expect("a number");
    assert_eq!(cut(of("line"), of("column"), of("end_column")), "prat");
    assert_eq!((&edit["old"], &edit["new"]), (&"prat".into(), &"part".into()));
    assert_eq!((&edit["kind"], of("end_line")), (&"spelling".into(), line));
}

#[test]
fn what_is_accepted_is_suppressed_and_trouble_is_no_success() {
    let folder = tempfile::tempdir().expect("a folder");
    let board = format!("{HERON}accepted:\n  L309: The steps tell them apart.\n");
    fs::write(folder.path().join("a.yaml"), board).expect("written");
    let log = json(folder.path(), &["check", "a.yaml", "--accepted", "--format", "sarif"]);
    assert_eq!(faults(&log), None);
    let result = &log["runs"][0]["results"][0];
    assert_eq!(result["suppressions"][0]["justification"], "The steps tell them apart.");
    let invocation = |log: &Value| log["runs"][0]["invocations"][0].clone();
    assert_eq!(invocation(&log)["executionSuccessful"], true);
    let plain = json(folder.path(), &["check", "a.yaml", "--format", "sarif"]);
    assert_eq!(plain["runs"][0]["results"], Value::Array(vec![]));
    let nowhere = lidsheet(folder.path(), &["check", "nowhere", "--format", "sarif"]);
    let log: Value = serde_json::from_slice(&nowhere.stdout).expect("JSON");
    assert_eq!(faults(&log), None);
    assert_eq!(invocation(&log)["executionSuccessful"], false);
    assert_eq!((&invocation(&log)["exitCode"], nowhere.status.code()), (&2.into(), Some(2)));
}

/// A command as the runner reads it: its name, its properties and its text.
fn command(line: &str) -> (String, Vec<(String, String)>, String) {
    let (head, text) =
        line.strip_prefix("::").expect("a command").split_once("::").expect("a text");
    let (name, properties) = head.split_once(' ').unwrap_or((head, ""));
    let plain = |text: &str| text.replace("%0D", "\r").replace("%0A", "\n");
    let property = |text: &str| {
        let (name, value) = text.split_once('=').expect("a value");
        let value = plain(&value.replace("%3A", ":").replace("%2C", ",")).replace("%25", "%");
        (name.to_owned(), value)
    };
    let properties = properties.split(',').map(property).collect();
    (name.to_owned(), properties, plain(text).replace("%25", "%"))
}

#[test]
fn github_gets_what_it_shows_the_most_dangerous_first() {
    let folder = tempfile::tempdir().expect("a folder");
    // Twelve keys that nobody knows stand before the ground that carries a group; a name that would
    // end a property early, and a text that would begin a command.
    let keys: String = (1..=12).map(|key| format!("key {key}: 1\n")).collect();
    let board = BASE.replace("between: [T1, T3], volts: 120", "between: [T1, TG], volts: 120");
    let text = format!("\"::error::50%\": 1\n{keys}{board}");
    fs::write(folder.path().join("a,b%.yaml"), text).expect("written");
    let output = lidsheet(folder.path(), &["check", "a,b%.yaml", "--format", "github"]);
    assert_eq!(output.status.code(), Some(1));
    assert!(output.stderr.is_empty());
    let text = String::from_utf8(output.stdout).expect("UTF-8");
    let commands: Vec<_> = text.lines().map(command).collect();
    let errors: Vec<_> = commands.iter().filter(|(name, ..)| name == "error").collect();
    assert_eq!(errors.len(), 10);
    let get = |properties: &[(String, String)], key: &str| {
        properties.iter().find(|(name, _)| name == key).map(|(_, value)| value.clone())
    };
    for (_, properties, _) in &errors {
        assert_eq!(get(properties, "file").as_deref(), Some("a,b%.yaml"));
        let number = |key: &str| get(properties, key).and_then(|it| it.parse::<u32>().ok());
        assert!(number("line").is_some() && number("line") <= number("endLine"), "{properties:?}");
        assert!(number("col") < number("endColumn"), "{properties:?}");
    }
    let (_, properties, text) = errors[0];
    let title = get(properties, "title").expect("a title");
    let code = Code::parse(&title[..4]).expect("a code");
    assert!(title.starts_with("L2"), "{title}");
    assert_eq!(title, format!("{}: {}", code.text(), page(code).title));
    assert!(text.contains('\n'), "what to do has a line of its own: {text}");
    // The last line tells how many more there are.
    let all = json(folder.path(), &["check", "a,b%.yaml", "--format", "json"]);
    let all = all.as_array().expect("an array");
    let count = |level: &str| all.iter().filter(|problem| problem["severity"] == level).count();
    let left = count("error") - 10 + count("warning").saturating_sub(10);
    let (name, _, said) = commands.last().expect("a last line");
    assert_eq!(name, "notice");
    assert!(said.contains(&format!("{} errors", count("error"))), "{said}");
    assert!(said.contains(&format!("; {left} of them are not shown here")), "{said}");
    assert_eq!(commands.len(), 11 + count("warning").min(10));
    // Nothing is left out: a plain line, and no command.
    fs::write(folder.path().join("sound.yaml"), BASE).expect("written");
    let sound = out(folder.path(), &["check", "sound.yaml", "--format", "github"]);
    assert_eq!(sound, "1 board checked: no errors, no warnings\n");
}

#[test]
fn every_format_ends_alike() {
    let folder = tempfile::tempdir().expect("a folder");
    fs::write(folder.path().join("sound.yaml"), BASE).expect("written");
    fs::write(folder.path().join("wrong.yaml"), BASE.replace("T2: L2", "T2: L4")).expect("written");
    for (path, status) in [("sound.yaml", 0), ("wrong.yaml", 1), ("nowhere", 2)] {
        for format in ["text", "json", "sarif", "github"] {
            let output = lidsheet(folder.path(), &["check", path, "--format", format]);
            assert_eq!(output.status.code(), Some(status), "{path} {format}");
        }
    }
}

#[test]
fn every_page_comes_as_json() {
    let folder = tempfile::tempdir().expect("a folder");
    let all = json(folder.path(), &["check", "--explain", "all", "--format", "json"]);
    let all = all.as_array().expect("an array");
    assert_eq!(all.len(), Code::ALL.len());
    for (found, code) in all.iter().zip(Code::ALL) {
        let page = page(*code);
        assert_eq!(found["code"], code.text());
        assert_eq!(found["severity"], code.severity().word());
        assert_eq!((&found["title"], &found["text"]), (&page.title.into(), &page.text.into()));
        let sample = |key: &str| found[key].as_str().unwrap_or("").to_owned();
        assert_eq!((sample("wrong"), sample("right")), (page.wrong.into(), page.right.into()));
    }
    let one = json(folder.path(), &["check", "--explain", "l401", "--format", "json"]);
    assert_eq!(Some(&one), all.iter().find(|page| page["code"] == "L401"));
    let text = out(folder.path(), &["check", "--explain", "all"]);
    assert!(Code::ALL.iter().all(|code| text.contains(&explain(*code))));
    for wrong in [
        ["check", "--explain", "L998", "--format", "json"],
        ["check", "--explain", "L401", "--format", "sarif"],
    ] {
        assert_eq!(lidsheet(folder.path(), &wrong).status.code(), Some(2));
    }
}
