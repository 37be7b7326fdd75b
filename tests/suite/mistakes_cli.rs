//! `lidsheet mistakes` from outside.

use std::path::Path;

use assert_cmd::Command;
use serde_json::Value;

fn run(arguments: &[&str]) -> (i32, String, String) {
    let output = Command::cargo_bin("lidsheet")
        .expect("it is built")
        .arg("mistakes")
        .args(arguments)
        .current_dir(Path::new(env!("CARGO_MANIFEST_DIR")))
        .output()
        .expect("it runs");
    let text = |bytes: Vec<u8>| String::from_utf8(bytes).expect("text");
    (output.status.code().expect("it ends by itself"), text(output.stdout), text(output.stderr))
}

#[test]
fn the_mistakes_of_a_job_read_well() {
    let (status, out, err) = run(&["specs/jobs/2231.yaml"]);
    assert_eq!(status, 0);
    assert!(err.starts_with("warning[L626]") && err.matches("warning[").count() == 1, "{err}");
    assert_snapshot!("mistakes_cli__the_mistakes_of_a_job_read_well", out);
    for job in ["2233", "2238", "2239"] {
        let (status, out, err) = run(&[&format!("specs/jobs/{job}.yaml")]);
        assert_eq!(status, 0, "{job}: {err}");
        assert!(out.lines().count() > 50, "{out}");
        assert!(out.lines().all(|line| line.chars().count() <= 80), "{out}");
    }
}

#[test]
fn machines_get_the_same() {
    let (status, out, _) = run(&["specs/jobs/2231.yaml", "--format", "json"]);
    let list: Value = serde_json::from_str(&out).expect("one object");
    assert_eq!(status, 0);
    let first = &list["list"][0];
    assert_eq!(first["danger"], "deadly");
    assert_eq!(first["noticed"], false);
    let (_, text, _) = run(&["specs/jobs/2231.yaml"]);
    let count = list["list"].as_array().expect("a list").len();
    assert!(text.contains(&format!(" {count} single mistakes ")), "{text}");
    let dangers = list["list"].as_array().expect("a list").iter();
    let places = dangers.map(|one| {
        let place = |word| ["deadly", "fire", "damage", "none"].iter().position(|it| *it == word);
        let danger = one["danger"].as_str().and_then(place).expect("a danger");
        let noticed = one["noticed"].as_bool().expect("yes or no");
        (noticed || danger == 3, danger)
    });
    let places: Vec<(bool, usize)> = places.collect();
    assert!(places.is_sorted(), "what nobody notices first, then by danger: {places:?}");

    let (_, out, _) = run(&["specs/jobs/2233.yaml", "--pairs", "--format", "json"]);
    let list: Value = serde_json::from_str(&out).expect("one object");
    let pairs = list["list"].as_array().expect("a list");
    assert!(pairs.len() > 20, "{}", pairs.len());
    assert!(pairs.iter().all(|pair| pair["mistakes"].as_array().is_some_and(|m| m.len() == 2)));
}

#[test]
fn what_is_no_sound_job_is_told() {
    let (status, _, err) = run(&["specs/heron-8.yaml"]);
    assert_eq!(status, 2);
    assert!(err.contains("this is a board; name a job"), "{err}");
    let (status, out, err) = run(&["tests/jobs-refused/no-layout.yaml"]);
    assert_eq!(status, 1, "{out} {err}");
    assert!(err.contains("error[L6") && out.contains("the job is refused"), "{out} {err}");
    let (status, _, err) = run(&["specs"]);
    assert_eq!(status, 2);
    assert!(err.contains("name one job"), "{err}");
}
