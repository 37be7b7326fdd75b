//! `lidsheet check --fix` changes how something is written and never what it says.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Output;

use assert_cmd::Command;

use crate::catalogue::merged;
use lidsheet::build::{self, MadeEdit};
use lidsheet::diagnostic::{Code, EditKind, Problems, page};

const BASE: &str = include_str!("../diagnostics/base.yaml");

fn fix(folder: &Path, arguments: &str) -> Output {
    let mut command = Command::cargo_bin("lidsheet").expect("it is built");
    command.args(["check", "--fix"]).args(arguments.split_whitespace()).current_dir(folder);
    command.output().expect("it runs")
}

#[track_caller]
fn told(output: &Output, status: i32) -> String {
    let text = String::from_utf8(output.stderr.clone()).expect("UTF-8");
    assert_eq!(output.status.code(), Some(status), "{text}");
    text
}

/// Copies what lies in a folder of the tests, and gives the specifications among it.
fn copied(from: &Path, to: &Path, all: &mut Vec<PathBuf>) {
    fs::create_dir_all(to).expect("made");
    for entry in fs::read_dir(from).expect("it is there") {
        let path = entry.expect("readable").path();
        let there = to.join(path.file_name().expect("a name"));
        if path.is_dir() {
            copied(&path, &there, all);
        } else {
            fs::copy(&path, &there).expect("copied");
            if path.extension().is_some_and(|ending| ending == "yaml") {
                all.push(there);
            }
        }
    }
}

/// Every sample of a problem that there is, and every demo, in a folder of its own.
fn samples() -> (tempfile::TempDir, Vec<PathBuf>) {
    let folder = tempfile::tempdir().expect("a folder");
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut all = Vec::new();
    for part in ["tests/diagnostics", "tests/jobs-refused", "tests/version-1", "specs"] {
        copied(&root.join(part), &folder.path().join(part), &mut all);
    }
    let of_jobs = include_str!("../diagnostics/jobs/base.yaml");
    for code in Code::ALL {
        let (base, inside) = if code.text().starts_with("L6") {
            (of_jobs, "tests/diagnostics/jobs")
        } else {
            (BASE, "tests/diagnostics")
        };
        let page = page(*code);
        for (name, sample) in [("wrong", page.wrong), ("right", page.right)] {
            let whole = sample.starts_with("lidsheet:") && sample.contains("\nboard:");
            let text = if whole { sample.to_owned() } else { merged(base, sample) };
            let path = folder.path().join(inside).join(format!("page-{}-{name}.yaml", code.text()));
            fs::write(&path, text).expect("written");
            all.push(path);
        }
    }
    all.sort();
    (folder, all)
}

fn digits(text: &[u8]) -> Vec<u8> {
    text.iter().copied().filter(u8::is_ascii_digit).collect()
}

/// All files under a folder with what they hold.
fn contents(folder: &Path) -> Vec<(PathBuf, Vec<u8>)> {
    let mut all = Vec::new();
    for entry in fs::read_dir(folder).expect("it is there") {
        let path = entry.expect("readable").path();
        if path.is_dir() {
            all.extend(contents(&path));
        } else {
            let bytes = fs::read(&path).expect("readable");
            all.push((path, bytes));
        }
    }
    all.sort();
    all
}

#[test]
fn no_sample_gets_another_meaning() {
    let (folder, files) = samples();
    assert!(files.len() > 300, "{}", files.len());
    let mut list = String::new();
    for path in files {
        let before = contents(path.parent().expect("a folder"));
        let paths = [path.clone()];
        let checked = build::check(&paths, &mut Problems::default());
        let errors = checked.iter().any(|file| file.problems.failed().is_some());
        let mut general = Problems::default();
        let (left, made) = build::fix(&paths, &mut general);
        assert!(general.is_empty(), "{}: {general:?}", path.display());
        let after = contents(path.parent().expect("a folder"));
        if !errors || made.is_empty() {
            assert!(before == after, "{} had no error and was changed", path.display());
            assert!(made.is_empty());
            continue;
        }
        for ((name, before), (_, after)) in before.iter().zip(&after) {
            assert_eq!(digits(before), digits(after), "{}: another number", name.display());
        }
        assert_eq!(before.len(), after.len(), "nothing is left beside the files");
        // What was mended is told no more, and nothing is to be mended a second time.
        let shown =
            |edit: &MadeEdit| format!("{} `{}` -> `{}`", edit.code.text(), edit.old, edit.new);
        let again = build::fix(&paths, &mut Problems::default()).1;
        assert!(again.is_empty(), "{}: {again:?}", path.display());
        assert!(after == contents(path.parent().expect("a folder")));
        let name = path.strip_prefix(folder.path()).expect("in it").display().to_string();
        let left: usize = left.iter().map(|file| file.problems.counts().0).sum();
        let made: Vec<String> = made.iter().map(shown).collect();
        list.push_str(&format!("{name}: {}; errors left: {left}\n", made.join(", ")));
    }
    assert_snapshot!("check_fix__no_sample_gets_another_meaning", list);
}

#[test]
fn slips_are_mended_and_told_and_the_rest_is_left() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("a.yaml");
    let wrong = BASE
        .replace("summary: A small", "sumary: A small")
        .replace("shipped: north", "shipped: nroth")
        .replace("pitch: 6.35 mm", "pitch: 6.35mm ")
        .replace("serves: blower", "serves: blwoer")
        .replace("wire: red", "wire: rad")
        .replace("volts: 120", "volts: 125");
    fs::write(&path, &wrong).expect("written");
    let text = told(&fix(folder.path(), "a.yaml"), 1);
    let mended: Vec<&str> = text.lines().filter(|line| line.starts_with("fixed[")).collect();
    assert_eq!(mended.len(), 3, "{text}");
    let line = wrong.lines().position(|line| line.contains("nroth")).expect("it is there");
    let column = wrong.lines().nth(line).and_then(|line| line.find("nroth")).expect("there");
    let place = format!("a.yaml:{}:{}", line + 1, column + 1);
    let first = format!("fixed[L101] {place}: `nroth` is now `north`");
    assert!(mended.contains(&first.as_str()), "{text}");
    // Another letter could be another color, and a voltage is no spelling.
    assert!(text.contains("`rad` is not a wire color") && text.contains("L208"), "{text}");
    let now = fs::read_to_string(&path).expect("readable");
    let expected =
        wrong.replace("sumary", "summary").replace("nroth", "north").replace("blwoer", "blower");
    assert_eq!(now, expected);
    // Once more changes nothing, not even the time of the file.
    let time = fs::metadata(&path).expect("there").modified().expect("known");
    let text = told(&fix(folder.path(), "a.yaml"), 1);
    assert!(!text.contains("fixed["), "{text}");
    assert_eq!(fs::metadata(&path).expect("there").modified().expect("known"), time);
}

#[test]
fn units_tables_and_texts_with_commas_are_mended() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("a.yaml");
    let headers = "headers:\n  J1: { title: Pump 1, big and loud, part: main,";
    let wrong = BASE
        .replace("pitch: 6.35 mm", "pitch: 6.35 millimetres")
        .replace("headers:\n  J1: { title: Pump 1, part: main,", headers)
        + "fuses:\n  F1: { part: main, at: [60, 60], rating: 20amps }\n";
    assert!(wrong.contains(headers) && wrong.contains("20amps"));
    fs::write(&path, &wrong).expect("written");
    told(&fix(folder.path(), "a.yaml"), 0);
    let now = fs::read_to_string(&path).expect("readable");
    assert!(now.contains("pitch: 6.35 mm,") && now.contains("rating: 20 A }"), "{now}");
    assert!(now.contains("title: \"Pump 1, big and loud\", part: main"), "{now}");
}

#[test]
fn a_cell_of_a_table_is_mended_where_it_stands() {
    let folder = tempfile::tempdir().expect("a folder");
    let version_1 = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/version-1");
    let names = ["curlew-10.yaml", "curlew-10-layouts.csv", "curlew-10-s2.csv"];
    fs::create_dir(folder.path().join("in")).expect("made");
    for name in names {
        fs::copy(version_1.join(name), folder.path().join("in").join(name)).expect("copied");
    }
    let table = folder.path().join("in/curlew-10-layouts.csv");
    let right = fs::read_to_string(&table).expect("readable");
    // Once bare and once in quotes.
    for written in ["circulaton", "\"circulaton\""] {
        let wrong = right.replacen("circulation", written, 1);
        assert_ne!(wrong, right);
        fs::write(&table, wrong).expect("written");
        let text = told(&fix(folder.path(), "in"), 0);
        assert!(text.starts_with("fixed[L020] in/curlew-10-layouts.csv:1:"), "{text}");
        assert_eq!(fs::read_to_string(&table).expect("readable"), right);
    }
}

#[test]
fn what_a_person_must_decide_is_left() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("a.yaml");
    let switches = |shipped: &str, effect: &str| {
        format!(
            "{BASE}switches:\n  S1:\n    part: main\n    at: [60, 65]\n    on side: up\n    ways:\n      \
             1:\n        effect: {effect}\n        when off: {{ off: none }}\n        shipped: {shipped}\n"
        )
    };
    for text in [
        switches("\"true\"", "restore"),
        switches("off", "reset"),
        BASE.replace("between: [T1, T3]", "between: [T1, T4]"),
        BASE.replace("volts: 240", "volts: 230"),
    ] {
        fs::write(&path, &text).expect("written");
        let checked = build::check(std::slice::from_ref(&path), &mut Problems::default());
        assert!(checked[0].problems.failed().is_some(), "an error to begin with");
        let told = told(&fix(folder.path(), "a.yaml"), 1);
        assert!(!told.contains("fixed["), "{told}");
        assert_eq!(fs::read_to_string(&path).expect("readable"), text);
    }
    // A warning with a ready edit: the sentence is its writer's, and the file has a meaning.
    let prose = page(Code::NamedInProse)
        .wrong
        .replace("the plug out of J7", "the wire out of terminal TGA");
    let prose = merged(BASE, &prose);
    fs::write(&path, &prose).expect("written");
    let checked = build::check(std::slice::from_ref(&path), &mut Problems::default());
    let all = checked[0].problems.sorted();
    let edits = all.iter().filter_map(|problem| problem.help.as_ref()?.edit.as_ref());
    let edits: Vec<_> = edits.map(|edit| (edit.text.as_str(), edit.kind)).collect();
    assert_eq!(edits, [("TG", EditKind::Value)]);
    told(&fix(folder.path(), "a.yaml"), 0);
    assert_eq!(fs::read_to_string(&path).expect("readable"), prose);
}

#[test]
fn standard_input_is_no_file() {
    let folder = tempfile::tempdir().expect("a folder");
    assert!(told(&fix(folder.path(), "-"), 2).contains("corrects files"));
}

#[cfg(unix)]
#[test]
fn permissions_and_links_are_kept() {
    use std::os::unix::fs::{PermissionsExt, symlink};
    let folder = tempfile::tempdir().expect("a folder");
    let at = |name: &str| folder.path().join(name);
    let wrong = BASE.replace("shipped: north", "shipped: nroth");
    let mode = |name: &str| fs::metadata(at(name)).expect("there").permissions().mode() & 0o777;
    fs::write(at("real.txt"), &wrong).expect("written");
    fs::set_permissions(at("real.txt"), fs::Permissions::from_mode(0o640)).expect("ours");
    symlink("real.txt", at("link.yaml")).expect("made");
    told(&fix(folder.path(), "link.yaml"), 0);
    assert!(fs::symlink_metadata(at("link.yaml")).expect("there").is_symlink());
    assert_eq!(fs::read_to_string(at("real.txt")).expect("readable"), BASE);
    assert_eq!(mode("real.txt"), 0o640);
    // What may only be read stays, and that is trouble.
    fs::write(at("real.txt"), &wrong).expect("written");
    fs::set_permissions(at("real.txt"), fs::Permissions::from_mode(0o440)).expect("ours");
    let text = told(&fix(folder.path(), "link.yaml"), 2);
    assert!(text.contains("cannot be mended: it may only be read"), "{text}");
    assert_eq!(fs::read_to_string(at("real.txt")).expect("readable"), wrong);
    assert_eq!(fs::read_dir(folder.path()).expect("readable").count(), 2);
}
