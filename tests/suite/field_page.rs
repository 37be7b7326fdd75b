//! What the field page asks of the compiler, without its module: the same answers as from the program, and the
//! same bytes.

use std::collections::BTreeMap;
use std::fs;
use std::path::PathBuf;
use std::process::Command;

use lidsheet::build;
use lidsheet::compile::Content;
use lidsheet::report::{PlanJson, ProblemJson};
use lidsheet_field_page::answer_to;
use serde_json::{Value, json};

use crate::generate::{boards, jobs};

const PROGRAM: &str = env!("CARGO_BIN_EXE_lidsheet");

fn root() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

/// All boards of the demo and their tables, as jobs of the demo name them.
pub fn demo_files() -> BTreeMap<String, String> {
    let files = fs::read_dir(root().join("specs")).unwrap().map(|entry| entry.unwrap().path());
    let text = |path: PathBuf| {
        let name = path.file_name()?.to_str()?;
        let wanted = name.ends_with(".yaml") || name.ends_with(".csv");
        wanted.then(|| (format!("../{name}"), fs::read_to_string(&path).unwrap()))
    };
    let files: BTreeMap<String, String> = files.filter_map(text).collect();
    assert!(files.len() > 5);
    files
}

fn begin() {
    let files = demo_files();
    let told = asked(json!({ "ask": "begin", "files": files }));
    assert_eq!(told["ready"], files.len());
}

fn asked(question: Value) -> Value {
    serde_json::from_slice(&answer_to(question.to_string().as_bytes())).unwrap()
}

pub fn jobs_of_the_demo() -> Vec<PathBuf> {
    let entries = fs::read_dir(root().join("specs/jobs")).unwrap();
    let mut all: Vec<PathBuf> = entries.map(|entry| entry.unwrap().path()).collect();
    all.retain(|path| path.extension().is_some_and(|ending| ending == "yaml"));
    all.sort();
    assert!(all.len() > 5);
    all
}

fn plan_of(name: &str, text: &str) -> String {
    let question = json!({ "ask": "plan", "job": { "name": name, "text": text } });
    String::from_utf8(answer_to(question.to_string().as_bytes())).unwrap()
}

/// Byte for byte what `plan --format json` prints, for sound jobs and refused ones.
#[test]
fn plans_are_those_of_the_program() {
    begin();
    let mut refused = 0;
    let folder = tempfile::tempdir().unwrap();
    for path in jobs_of_the_demo() {
        let text = fs::read_to_string(&path).unwrap();
        let spoiled = text.replacen("breaker: ", "breaker: 1", 1);
        for text in [text, spoiled] {
            // Beside a copy of the boards, so that the path of a board in a message is the same.
            let copy = folder.path().join("specs/jobs");
            fs::create_dir_all(&copy).unwrap();
            for entry in fs::read_dir(root().join("specs")).unwrap() {
                let from = entry.unwrap().path();
                if from.is_file() {
                    fs::copy(&from, folder.path().join("specs").join(from.file_name().unwrap()))
                        .unwrap();
                }
            }
            fs::write(copy.join("job.yaml"), &text).unwrap();
            let mut command = Command::new(PROGRAM);
            command.args(["plan", "specs/jobs/job.yaml", "--format", "json"]);
            let output = command.current_dir(folder.path()).output().unwrap();
            refused += usize::from(!output.status.success());
            let told = plan_of("specs/jobs/job.yaml", &text);
            assert_eq!(told, String::from_utf8_lossy(&output.stdout), "{path:?}");
        }
    }
    assert!(refused > 3, "{refused}");
}

/// As the demo has them: the files in `out` were made by `build`.
#[test]
fn files_are_those_of_a_build() {
    begin();
    let mut compared = 0;
    for path in jobs_of_the_demo() {
        let name = path.file_stem().unwrap().to_string_lossy().into_owned();
        let text = fs::read_to_string(&path).unwrap();
        for sheet in ["lid-insert", "work-card", "fault-finder"] {
            let made = root().join(format!("out/{name}/{sheet}.pdf"));
            let Ok(made) = fs::read(made) else { continue };
            let question = json!({
                "ask": "pdf",
                "job": { "name": "job.yaml", "text": text },
                "look": { "sheet": sheet, "language": "en", "paper": "A4" },
            });
            let file = answer_to(question.to_string().as_bytes());
            assert!(
                file == made,
                "{name}/{sheet}.pdf: {} bytes, {} in out",
                file.len(),
                made.len()
            );
            compared += 1;
        }
    }
    assert!(compared > 10, "{compared}");
}

/// On boards that nobody drew for it.
#[test]
fn plans_of_made_up_boards_are_those_of_the_library() {
    let folder = tempfile::tempdir().unwrap();
    let home = folder.path().join("jobs");
    fs::create_dir(&home).unwrap();
    let mut sound = 0;
    for seed in 0..60 {
        let text = boards::generate(seed);
        fs::write(folder.path().join("board.yaml"), &text).unwrap();
        let board = build::check_bytes("board.yaml", text.clone().into_bytes(), folder.path());
        let Content::Board(board) = board.content else { panic!("a made-up board is sound") };
        assert_eq!(
            asked(json!({ "ask": "begin", "files": { "../board.yaml": text } }))["ready"],
            1
        );
        for number in 0..5 {
            let job = jobs::generate(&board, seed.wrapping_add(number));
            let checked = build::check_bytes("job.yaml", job.clone().into_bytes(), &home);
            let planned = match &checked.content {
                Content::Job(planned) => planned.as_deref(),
                _ => None,
            };
            sound += usize::from(planned.is_some_and(|it| it.plan.sound().is_some()));
            let problems = ProblemJson::all(&checked.problems, &checked.sources);
            let native = serde_json::to_string_pretty(&PlanJson::new(planned, problems)).unwrap();
            assert_eq!(plan_of("job.yaml", &job).trim_end(), native, "{seed}, {number}");
        }
    }
    assert!(sound > 60, "{sound} of 300");
}

/// A question that is none is told so, and nothing else happens.
#[test]
fn what_is_no_question_is_told() {
    for question in ["", "{", "[]", "{\"ask\":\"dance\"}", "\u{0}", "{\"ask\":\"plan\"}"] {
        let told: Value = serde_json::from_slice(&answer_to(question.as_bytes())).unwrap();
        assert!(told["unknown"].is_string(), "{question}: {told}");
    }
    let look = json!({ "sheet": "lid-insert", "language": "xx", "paper": "A4" });
    let job = json!({ "name": "a", "text": "" });
    assert_eq!(asked(json!({ "ask": "pdf", "job": job, "look": look }))["unknown"], "xx");
}
