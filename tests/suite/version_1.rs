//! Files of the language as it was first keep their meaning: the boards and jobs in
//! `tests/version-1/` give the decisions that they gave when they were written. Keys may be added
//! to what `lidsheet plan` prints; none may change.

use std::path::Path;

use assert_cmd::Command;
use serde_json::Value;

fn folder() -> std::path::PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/version-1")
}

/// Where `found` is not as `kept` was, each as `devices/2/header`.
fn changes(place: &str, kept: &Value, found: &Value, all: &mut Vec<String>) {
    match (kept, found) {
        (Value::Object(kept), Value::Object(found)) => {
            for (key, kept) in kept {
                let place = format!("{place}/{key}");
                match found.get(key) {
                    Some(found) => changes(&place, kept, found, all),
                    None => all.push(format!("{place} is gone")),
                }
            }
        }
        (Value::Array(kept), Value::Array(found)) if kept.len() == found.len() => {
            for (index, (kept, found)) in kept.iter().zip(found).enumerate() {
                changes(&format!("{place}/{index}"), kept, found, all);
            }
        }
        _ if kept == found => {}
        _ => all.push(format!("{place} is {found}, and was {kept}")),
    }
}

#[test]
fn old_files_keep_their_meaning() {
    let plans = std::fs::read_dir(folder().join("plans")).expect("it is there");
    let mut names: Vec<String> = plans
        .map(|entry| entry.expect("readable").file_name().to_string_lossy().into_owned())
        .collect();
    names.sort();
    let mut wrong = Vec::new();
    for name in &names {
        let kept = std::fs::read(folder().join("plans").join(name)).expect("readable");
        let kept: Value = serde_json::from_slice(&kept).expect("an object");
        let job = format!("jobs/{}", name.replace(".json", ".yaml"));
        let output = Command::cargo_bin("lidsheet")
            .expect("it is built")
            .args(["plan", &job, "--format", "json"])
            .current_dir(folder())
            .output()
            .expect("it runs");
        let found: Value = serde_json::from_slice(&output.stdout).expect("an object");
        changes(name, &kept, &found, &mut wrong);
    }
    assert_eq!(names.len(), 10);
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// The comparison would see a change of a value, a key that is gone, and a list that is longer; a
/// key that is added is none.
#[test]
fn a_change_is_seen() {
    let of = |kept: &str, found: &str| {
        let read = |text: &str| serde_json::from_str(text).expect("JSON");
        let mut all = Vec::new();
        changes("plan", &read(kept), &read(found), &mut all);
        all
    };
    let kept = r#"{"layout": 7, "jumpers": [{"to": "A"}]}"#;
    assert!(of(kept, r#"{"layout": 7, "jumpers": [{"to": "A", "by": 1}], "new": 1}"#).is_empty());
    assert_eq!(of(kept, r#"{"layout": 7, "jumpers": [{"to": "B"}]}"#).len(), 1);
    assert_eq!(of(kept, r#"{"jumpers": [{"to": "A"}]}"#), ["plan/layout is gone"]);
    assert_eq!(of(kept, r#"{"layout": 7, "jumpers": []}"#).len(), 1);
}
