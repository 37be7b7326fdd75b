//! What `lidsheet check` shows, and how it ends, where a file cannot be read, has very many problems
//! or has warnings that were weighed.

use std::fs;
use std::path::Path;
use std::process::Output;

use assert_cmd::Command;

const HERON: &str = include_str!("../version-1/heron-8.yaml");
const CURLEW: &str = include_str!("../version-1/curlew-10.yaml");
const JOB: &str = include_str!("../version-1/jobs/2231.yaml");

fn lidsheet(folder: &Path, arguments: &str) -> Output {
    let mut command = Command::cargo_bin("lidsheet").expect("it is built");
    command.args(arguments.split_whitespace()).current_dir(folder);
    command.output().expect("it runs")
}

#[track_caller]
fn told(output: &Output, status: i32) -> String {
    let text = String::from_utf8(output.stderr.clone()).expect("UTF-8");
    assert_eq!(output.status.code(), Some(status), "{text}");
    text
}

/// Whether the system keeps this user from reading a file without permission: it keeps no
/// administrator.
#[cfg(unix)]
fn locked(path: &Path) -> bool {
    use std::os::unix::fs::PermissionsExt;
    fs::set_permissions(path, fs::Permissions::from_mode(0o0)).expect("ours");
    fs::read(path).is_err()
}

#[test]
fn what_cannot_be_read_is_trouble_and_what_is_wrong_is_an_error() {
    let folder = tempfile::tempdir().expect("a folder");
    let at = |name: &str| folder.path().join(name);
    // A board whose table is not there, by itself and for a job.
    fs::write(at("curlew-10.yaml"), CURLEW).expect("written");
    let job = JOB.replace("../heron-8.yaml", "curlew-10.yaml");
    fs::write(at("job.yaml"), &job).expect("written");
    let text = told(&lidsheet(folder.path(), "check curlew-10.yaml"), 2);
    assert!(text.contains("error[L023]: the table curlew-10-layouts.csv cannot be read"), "{text}");
    let text = told(&lidsheet(folder.path(), "check job.yaml"), 2);
    assert!(text.contains("error[L051]: a table of the board curlew-10.yaml"), "{text}");
    // A table that is a folder, and a board that is one.
    fs::create_dir(at("curlew-10-layouts.csv")).expect("made");
    told(&lidsheet(folder.path(), "check curlew-10.yaml"), 2);
    fs::create_dir(at("folder.yaml")).expect("made");
    fs::write(at("job.yaml"), JOB.replace("../heron-8.yaml", "folder.yaml")).expect("written");
    let text = told(&lidsheet(folder.path(), "plan job.yaml"), 2);
    assert!(text.contains("it is not a file"), "{text}");
    // A board with an error is one of the job, and no trouble.
    fs::write(at("heron-8.yaml"), HERON.replace("T2: L2", "T2: L4")).expect("written");
    fs::write(at("job.yaml"), JOB.replace("../heron-8.yaml", "heron-8.yaml")).expect("written");
    let text = told(&lidsheet(folder.path(), "check job.yaml"), 1);
    assert!(text.contains("error[L602]"), "{text}");
    // A table without a name is an error, too.
    let unnamed =
        CURLEW.replace("curlew-10-layouts.csv", "\"\"").replace("curlew-10-s2.csv", "\" \"");
    fs::write(at("no-name.yaml"), unnamed).expect("written");
    told(&lidsheet(folder.path(), "check no-name.yaml"), 1);
    #[cfg(unix)]
    if locked(&at("heron-8.yaml")) {
        told(&lidsheet(folder.path(), "check heron-8.yaml"), 2);
        told(&lidsheet(folder.path(), "check job.yaml"), 2);
    }
}

#[test]
fn of_very_many_problems_two_hundred_are_shown_and_the_rest_counted() {
    let folder = tempfile::tempdir().expect("a folder");
    let write = |keys: usize| {
        let keys: String = (0..keys).map(|key| format!("key {key}: 1\n")).collect();
        fs::write(folder.path().join("a.yaml"), format!("{HERON}{keys}")).expect("written");
        told(&lidsheet(folder.path(), "check a.yaml"), 1)
    };
    // The board has one warning of its own.
    let text = write(199);
    assert_eq!(text.matches("error[L011]").count(), 199);
    assert_eq!(text.matches("warning[").count(), 1);
    assert!(!text.contains("not shown"), "{text}");
    let text = write(700);
    assert_eq!(text.matches("error[").count(), 200);
    assert!(text.ends_with("a.yaml: 501 more problems, not shown; mend these first\n\n"), "{text}");
    // Machines get all.
    let output = lidsheet(folder.path(), "check a.yaml --format json");
    let all: serde_json::Value = serde_json::from_slice(&output.stdout).expect("JSON");
    assert_eq!(all.as_array().map(Vec::len), Some(701));
}

#[test]
fn an_accepted_warning_is_shown_on_request_and_fails_nothing() {
    let folder = tempfile::tempdir().expect("a folder");
    let reason = "The steps of the panel tell them apart.";
    let board = format!("{HERON}accepted:\n  L309: {reason}\n");
    fs::write(folder.path().join("plain.yaml"), HERON).expect("written");
    fs::write(folder.path().join("weighed.yaml"), board).expect("written");
    told(&lidsheet(folder.path(), "check plain.yaml --deny-warnings"), 1);
    let output = lidsheet(folder.path(), "check weighed.yaml --deny-warnings");
    assert_eq!(told(&output, 0), "");
    let said = String::from_utf8_lossy(&output.stdout);
    assert_eq!(said, "1 board checked: no errors, no warnings, 1 accepted\n");
    let text = told(&lidsheet(folder.path(), "check weighed.yaml --accepted"), 0);
    assert!(text.contains("warning[L309]") && text.contains(&format!("accepted: {reason}")));
    let json = lidsheet(folder.path(), "check weighed.yaml --accepted --format json").stdout;
    let json: serde_json::Value = serde_json::from_slice(&json).expect("JSON");
    assert_eq!(json[0]["accepted"], reason);
    told(&lidsheet(folder.path(), "build weighed.yaml --deny-warnings --out out"), 0);
}
