//! What packagers and automatic checks need: pages of the manual, the long version, licenses of the
//! dependencies, hooks and an example of a workflow.

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;
use std::process::Output;

use assert_cmd::Command;
use serde_json::Value;

use lidsheet::build;
use lidsheet::diagnostic::Problems;
use lidsheet::{spec, standards};

const HOOKS: &str = include_str!("../../.pre-commit-hooks.yaml");
const WORKFLOW: &str = include_str!("../../specs/.github/workflows/check-specifications.yml");
const DENY: &str = include_str!("../../deny.toml");

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

fn lidsheet(folder: &Path, arguments: &[&str]) -> Output {
    let mut command = Command::cargo_bin("lidsheet").expect("it is built");
    command.args(arguments).current_dir(folder).output().expect("it runs")
}

#[track_caller]
fn out(folder: &Path, arguments: &[&str]) -> String {
    let output = lidsheet(folder, arguments);
    assert!(output.status.success(), "{arguments:?}");
    String::from_utf8(output.stdout).expect("UTF-8")
}

/// The commands that the help lists.
fn commands(folder: &Path) -> Vec<String> {
    let help = out(folder, &["--help"]);
    let (_, list) = help.split_once("Commands:\n").expect("a list");
    let (list, _) = list.split_once("\n\n").expect("an end");
    let first = |line: &str| {
        let name = line.strip_prefix("  ").filter(|line| !line.starts_with(' '))?;
        name.split_whitespace().next().map(str::to_owned)
    };
    list.lines().filter_map(first).filter(|name| name != "help").collect()
}

#[test]
fn every_command_has_a_page_of_the_manual() {
    let folder = tempfile::tempdir().expect("a folder");
    let here = folder.path();
    let said = out(here, &["man", "--out", "man1"]);
    let mut expected: Vec<String> =
        commands(here).iter().map(|name| format!("lidsheet-{name}.1")).collect();
    assert!(expected.len() > 9, "{expected:?}");
    expected.push("lidsheet.1".to_owned());
    expected.sort();
    let mut found: Vec<String> = fs::read_dir(here.join("man1"))
        .expect("made")
        .map(|entry| entry.expect("readable").file_name().to_string_lossy().into_owned())
        .collect();
    found.sort();
    assert_eq!(found, expected);
    assert_eq!(said, format!("{} pages written, 0 unchanged\n", found.len()));
    for name in &found {
        let page = fs::read_to_string(here.join("man1").join(name)).expect("UTF-8");
        let head = page.lines().find(|line| line.starts_with(".TH")).expect("a head");
        assert!(head.starts_with(&format!(".TH {} 1", name.trim_end_matches(".1"))), "{head}");
        // A date would make another page of the same program each day.
        assert!(!head.contains("20"), "{head}");
        assert!(page.contains(".SH SYNOPSIS") && page.contains(".SH DESCRIPTION"), "{name}");
    }
    assert_eq!(
        out(here, &["man"]),
        fs::read_to_string(here.join("man1/lidsheet.1")).expect("UTF-8")
    );
    let again = out(here, &["man", "--out", "man1"]);
    assert_eq!(again, format!("no pages written, {} unchanged\n", found.len()));
    let check = fs::read_to_string(here.join("man1/lidsheet-check.1")).expect("UTF-8");
    assert!(check.contains("\\-\\-deny\\-warnings") && check.contains("\\-\\-fix"));
}

#[test]
fn the_long_version_names_editions_and_standards() {
    let folder = tempfile::tempdir().expect("a folder");
    let here = folder.path();
    let short = format!("lidsheet {}\n", env!("CARGO_PKG_VERSION"));
    assert_eq!(out(here, &["--version"]), short);
    assert_eq!(out(here, &["-V"]), short);
    let long = out(here, &["--version", "--verbose"]);
    assert_eq!(long, out(here, &["--verbose", "--version"]));
    assert!(long.starts_with(&short));
    assert!(long.contains(&format!("language of specifications: {}\n", spec::VERSION)));
    let edition = long.lines().find_map(|line| line.strip_prefix("edition of the sheets: "));
    let edition = edition.expect("an edition");
    assert!(edition.len() == 32 && edition.bytes().all(|b| b.is_ascii_hexdigit()), "{edition}");
    let clauses = standards::clauses();
    assert!(clauses.len() > 20);
    for clause in clauses {
        let line = long.lines().find_map(|line| {
            line.strip_prefix("  ")?.strip_prefix(clause.edition)?.strip_prefix(": ")
        });
        assert!(line.is_some_and(|line| line.contains(clause.clause)), "{clause}\n{long}");
    }
    assert_eq!(lidsheet(here, &["--verbose", "check"]).status.code(), Some(2));
}

/// Reads the source text, so that no new table is forgotten.
#[test]
fn no_clause_of_the_tables_is_left_out() {
    let mut written: BTreeSet<(String, String)> = BTreeSet::new();
    for entry in fs::read_dir(root().join("src/standards")).expect("the folder is there") {
        let text = fs::read_to_string(entry.expect("readable").path()).expect("UTF-8");
        for part in text.split("edition: \"").skip(1) {
            let (edition, rest) = part.split_once('"').expect("a text ends");
            let rest = rest.trim_start_matches([',', ' ', '\n']);
            // Where one edition serves several tables, the clause stands elsewhere.
            let Some(clause) = rest.strip_prefix("clause: \"") else { continue };
            let (clause, _) = clause.split_once('"').expect("a text ends");
            written.insert((edition.to_owned(), clause.to_owned()));
        }
    }
    assert!(written.len() > 15, "{written:?}");
    let all = standards::clauses();
    let listed: BTreeSet<(String, String)> =
        all.iter().map(|it| (it.edition.to_owned(), it.clause.to_owned())).collect();
    let lacking: Vec<_> = written.difference(&listed).collect();
    assert!(lacking.is_empty(), "{lacking:?}");
    assert!(listed.contains(&("IEC 60364-5-52:2009".into(), "table B.52.5".into())));
}

/// The licenses that `deny.toml` allows.
fn allowed() -> Vec<&'static str> {
    let (_, list) = DENY.split_once("allow = [").expect("a list");
    let (list, _) = list.split_once(']').expect("an end");
    list.split('"').skip(1).step_by(2).collect()
}

/// Whether an SPDX expression is satisfied by licenses that are allowed; names that satisfied it are
/// added to `met`.
fn satisfied(expression: &str, allowed: &[&str], met: &mut Vec<String>) -> bool {
    let spaced = expression.replace('(', " ( ").replace(')', " ) ").replace('/', " OR ");
    let words: Vec<&str> = spaced.split_whitespace().collect();
    let mut at = 0;
    let value = any(&words, &mut at, allowed, met);
    assert_eq!(at, words.len(), "{expression}");
    value
}

fn any(words: &[&str], at: &mut usize, allowed: &[&str], met: &mut Vec<String>) -> bool {
    let mut value = every(words, at, allowed, met);
    while words.get(*at) == Some(&"OR") {
        *at += 1;
        // Both sides are read, whatever the first one says.
        value |= every(words, at, allowed, met);
    }
    value
}

fn every(words: &[&str], at: &mut usize, allowed: &[&str], met: &mut Vec<String>) -> bool {
    let mut value = one(words, at, allowed, met);
    while words.get(*at) == Some(&"AND") {
        *at += 1;
        value &= one(words, at, allowed, met);
    }
    value
}

fn one(words: &[&str], at: &mut usize, allowed: &[&str], met: &mut Vec<String>) -> bool {
    let word = words.get(*at).expect("a license");
    *at += 1;
    if *word == "(" {
        let value = any(words, at, allowed, met);
        assert_eq!(words.get(*at), Some(&")"));
        *at += 1;
        return value;
    }
    let mut name = (*word).to_owned();
    if words.get(*at) == Some(&"WITH") {
        name = format!("{name} WITH {}", words.get(*at + 1).expect("an exception"));
        *at += 2;
    }
    let value = allowed.contains(&name.as_str());
    if value {
        met.push(name);
    }
    value
}

#[test]
fn expressions_of_licenses_are_read() {
    let of = |expression: &str| satisfied(expression, &["MIT", "Zlib"], &mut Vec::new());
    for yes in ["MIT", "MIT OR GPL-2.0-only", "GPL-2.0-only/MIT", "MIT AND Zlib"] {
        assert!(of(yes), "{yes}");
    }
    let nos = ["BSD-2-Clause", "MIT AND BSD-2-Clause", "(MIT OR Zlib) AND X", "MIT WITH exception"];
    for no in nos {
        assert!(!of(no), "{no}");
    }
}

/// All packages of Cargo.lock, or those of this system where the others are not at hand.
fn packages() -> Vec<Value> {
    let cargo = |arguments: &[&str]| {
        let mut command = std::process::Command::new(env!("CARGO"));
        let output = command.args(arguments).current_dir(root()).output().expect("cargo runs");
        output.status.success().then_some(output.stdout)
    };
    let metadata = ["metadata", "--format-version", "1", "--locked"];
    let whole = cargo(&[&metadata[..], &["--offline"]].concat()).or_else(|| cargo(&metadata));
    let bytes = whole.unwrap_or_else(|| {
        let version = String::from_utf8(cargo(&["-vV"]).expect("a version")).expect("UTF-8");
        let host = version.lines().find_map(|line| line.strip_prefix("host: ")).expect("a host");
        let host = ["--offline", "--filter-platform", host];
        cargo(&[&metadata[..], &host].concat()).expect("the packages of this build are at hand")
    });
    let all: Value = serde_json::from_slice(&bytes).expect("JSON");
    all["packages"].as_array().expect("packages").clone()
}

#[test]
fn every_dependency_has_a_license_that_is_allowed() {
    let (allowed, mut met) = (allowed(), Vec::new());
    let packages = packages();
    assert!(packages.len() > 150, "{}", packages.len());
    for package in &packages {
        let license = package["license"].as_str().unwrap_or("");
        let name = &package["name"];
        assert!(satisfied(license, &allowed, &mut met), "{name} has the license `{license}`");
    }
    for license in allowed {
        assert!(met.iter().any(|met| met == license), "{license} is allowed and nothing has it");
    }
}

#[test]
fn hooks_and_the_workflow_run_commands_that_there_are() {
    let folder = tempfile::tempdir().expect("a folder");
    fs::create_dir(folder.path().join("specs")).expect("made");
    let board = include_str!("../diagnostics/base.yaml");
    fs::write(folder.path().join("specs/a.yaml"), board).expect("written");
    let entries = HOOKS.lines().filter_map(|line| line.trim().strip_prefix("entry: "));
    let runs = WORKFLOW.lines().filter_map(|line| line.trim().strip_prefix("run: "));
    let plain = |line: &str| {
        let line = line.split(['>', '|']).next().unwrap_or(line);
        line.replace("\"$SPECIFICATIONS\"", "specs").trim().to_owned()
    };
    let lines: Vec<String> = entries.chain(runs).map(plain).collect();
    let ours: Vec<&str> = lines.iter().filter_map(|line| line.strip_prefix("lidsheet ")).collect();
    assert_eq!(ours.len(), 4, "{lines:?}");
    for line in ours {
        let arguments: Vec<&str> = line.split_whitespace().collect();
        out(folder.path(), &arguments);
    }
}

#[test]
fn the_workflow_beside_the_demo_is_taken_for_no_board() {
    let mut general = Problems::default();
    let files = build::check(&[root().join("specs")], &mut general);
    assert!(general.is_empty() && files.len() > 10);
    assert!(files.iter().all(|file| !file.shown.contains(".github")));
    let workflow = root().join("specs/.github/workflows/check-specifications.yml");
    let named = build::check(&[workflow], &mut general);
    assert!(named[0].problems.failed().is_some(), "named, it would be refused");
}
