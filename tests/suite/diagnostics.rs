//! What the compiler says about every mistake that it knows.
//!
//! Each file of `tests/diagnostics/` is the smallest specification that causes a code. Its first
//! line names the codes to expect, so that accepting a changed snapshot blindly still fails.

use std::path::Path;

use crate::compile::compile_file;
use lidsheet::diagnostic::Code;

/// Codes whose sample cannot be a small file; `hostile.rs` makes them.
const WITHOUT_FILE: [Code; 2] = [Code::FileTooLarge, Code::TooManyValues];
/// Jobs are in `jobs.rs`; files, the drawn plan and templates have their own tests, where they are dealt with.
const ELSEWHERE: [&str; 4] = ["L05", "L6", "L705", "L9"];

fn files() -> Vec<String> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/diagnostics");
    let mut names: Vec<String> = std::fs::read_dir(folder)
        .expect("the folder is there")
        .map(|entry| entry.expect("readable").file_name().to_string_lossy().into_owned())
        .filter(|name| name.ends_with(".yaml"))
        .collect();
    names.sort();
    names
}

#[test]
fn every_file_causes_what_its_first_line_says() {
    let mut wrong = Vec::new();
    for name in files() {
        let path = format!("tests/diagnostics/{name}");
        let outcome = compile_file(&path);
        let text = std::fs::read(Path::new(env!("CARGO_MANIFEST_DIR")).join(&path));
        let text = String::from_utf8_lossy(&text.expect("readable")).into_owned();
        let first = text.lines().next().unwrap_or("");
        let expected = first.strip_prefix("# expect:").expect("the first line says what to expect");
        let expected: Vec<&str> = expected.split_whitespace().collect();
        if outcome.codes() != expected {
            wrong.push(format!(
                "{name}: {:?}, not {expected:?}\n{}",
                outcome.codes(),
                outcome.shown()
            ));
        }
        let errors = outcome.problems.iter().any(|p| p.code.severity().word() == "error");
        assert_eq!(outcome.board.is_none(), errors, "{name}: a board exists if it is sound");
        insta::with_settings!({
            snapshot_path => "../diagnostics",
            prepend_module_to_snapshot => false,
            omit_expression => true,
        }, {
            insta::assert_snapshot!(name.trim_end_matches(".yaml"), outcome.shown());
        });
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n\n"));
}

#[test]
fn every_code_has_a_file() {
    let files = files();
    let lacking: Vec<_> = Code::ALL
        .iter()
        .filter(|code| !WITHOUT_FILE.contains(code))
        .filter(|code| !ELSEWHERE.iter().any(|start| code.text().starts_with(start)))
        .filter(|code| !files.contains(&format!("{}.yaml", code.text())))
        .collect();
    assert!(lacking.is_empty(), "{lacking:?}");
}
