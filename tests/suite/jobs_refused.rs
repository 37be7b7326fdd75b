//! What the compiler says about jobs that it refuses, and about those that it warns of.
//!
//! Each file of `tests/jobs-refused/` is a job on one of the demo boards, as somebody might write it
//! (the smallest job for each code is in `tests/diagnostics/jobs/`). Its first line names the codes to expect, so that accepting a changed snapshot blindly still
//! fails. The demo jobs in `specs/jobs/` must all be sound.

use std::path::Path;

use lidsheet::build;
use lidsheet::compile::{Checked, Content};
use lidsheet::diagnostic::{Colour, Problems, Severity, render};

fn files(folder: &str) -> Vec<String> {
    let all = std::fs::read_dir(Path::new(env!("CARGO_MANIFEST_DIR")).join(folder));
    let mut names: Vec<String> = all
        .expect("the folder is there")
        .map(|entry| entry.expect("readable").file_name().to_string_lossy().into_owned())
        .filter(|name| name.ends_with(".yaml"))
        .collect();
    names.sort();
    assert!(names.len() >= 8, "{folder}: {names:?}");
    names
}

fn check(folder: &str, name: &str) -> Checked {
    let home = Path::new(env!("CARGO_MANIFEST_DIR")).join(folder);
    let bytes = std::fs::read(home.join(name)).expect("readable");
    build::check_bytes(&format!("{folder}/{name}"), bytes, &home)
}

fn codes(problems: &Problems) -> Vec<&'static str> {
    let mut codes: Vec<_> = problems.sorted().iter().map(|problem| problem.code.text()).collect();
    codes.sort_unstable();
    codes.dedup();
    codes
}

fn shown(checked: &Checked) -> String {
    let all = checked.problems.sorted();
    let all: Vec<String> =
        all.iter().map(|one| render(one, &checked.sources, Colour::Plain)).collect();
    all.join("\n\n")
}

#[test]
fn every_job_causes_what_its_first_line_says() {
    let mut wrong = Vec::new();
    for name in files("tests/jobs-refused") {
        let checked = check("tests/jobs-refused", &name);
        let own = &checked.sources.file(lidsheet::source::FileId(0)).text;
        let first = own.lines().next().and_then(|line| line.strip_prefix("# expect:"));
        let expected: Vec<&str> = first.expect("says what to expect").split_whitespace().collect();
        if codes(&checked.problems) != expected {
            wrong.push(format!(
                "{name}: {:?}, not {expected:?}\n{}",
                codes(&checked.problems),
                shown(&checked)
            ));
        }
        let errors = checked.problems.counts().0 > 0;
        let Content::Job(planned) = &checked.content else { panic!("{name} is no job") };
        let sound = planned.as_ref().is_some_and(|planned| planned.plan.sound().is_some());
        assert_eq!(sound, !errors, "{name}: a plan may be followed if nothing refuses the job");
        insta::with_settings!({
            snapshot_path => "../jobs-refused",
            prepend_module_to_snapshot => false,
            omit_expression => true,
        }, {
            insta::assert_snapshot!(name.trim_end_matches(".yaml"), shown(&checked));
        });
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n\n"));
}

/// Errors of a job are about the job: their place is in its own file.
#[test]
fn every_problem_points_into_the_job() {
    for name in files("tests/jobs-refused") {
        let checked = check("tests/jobs-refused", &name);
        for problem in checked.problems.sorted() {
            let (file, place) = problem.place(&checked.sources);
            assert_eq!(file, format!("tests/jobs-refused/{name}"));
            assert!(place.is_some_and(|(line, _)| line > 2), "{name}: {}", problem.message);
        }
    }
}

/// The warnings are those that the jobs' own comments tell of.
#[test]
fn the_demo_jobs_are_sound() {
    let mut warned = Vec::new();
    let all = files("specs/jobs");
    assert!(all.len() >= 8, "{all:?}");
    for name in &all {
        let checked = check("specs/jobs", name);
        let Content::Job(Some(planned)) = &checked.content else { panic!("{}", shown(&checked)) };
        assert!(planned.plan.sound().is_some(), "{}", shown(&checked));
        for problem in checked.problems.sorted() {
            assert_eq!(problem.code.severity(), Severity::Warning);
            warned.push((name.as_str(), problem.code.text()));
        }
    }
    assert_eq!(
        warned,
        [
            ("2231.yaml", "L626"),
            ("2232.yaml", "L612"),
            ("2232.yaml", "L623"),
            ("2233.yaml", "L612"),
            ("2237.yaml", "L624")
        ],
        "job, warning"
    );
}
