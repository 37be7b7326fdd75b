//! The field page in headless Chromium as a phone has it: opened from a file, without a network. What is typed
//! there gives the plans of the program. As `axe.rs` it needs Node, two packages and Chromium, and is left out
//! unless it is asked for; `tests/all` asks for it wherever they are there.
#![allow(clippy::print_stderr)] // What was measured is told to who runs it with `--nocapture`.

use std::fs;
use std::path::Path;
use std::process::Command;

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD as BASE64;
use lidsheet::board::Device;
use lidsheet::build::{self, Order, Report};
use lidsheet::compile::{Content, SheetKind};
use lidsheet::page::Paper;
use lidsheet::report::{PlanJson, ProblemJson, WrittenJson};
use lidsheet::spec;
use serde_json::{Value, json};

use crate::generate::{boards, jobs};

/// Types jobs into a page, opens others, and tells what the page holds.
const SCRIPT: &str = include_str!("field_page_browser.js");

const BOARDS: u64 = 20;
/// Jobs for each of them, but those that the form cannot say. Typing one takes a second: `FIELD_JOBS` names another
/// number.
const JOBS: u64 = 2;

fn run(script: &str, args: &[&Path]) -> Value {
    let mut command = Command::new("node");
    let output =
        command.args(["-e", script, "--"]).args(args).output().expect(
            "Node runs; AXE_MODULES names the folder with node_modules, CHROMIUM the browser",
        );
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    serde_json::from_slice(&output.stdout).expect("it answers in JSON")
}

fn page_of(specs: &Path, out: &Path) -> Report {
    let order = Order {
        paths: vec![specs.to_owned()],
        out: out.to_owned(),
        paper: Paper::A4,
        languages: vec![lidsheet::words::english()],
        templates: None,
        threads: None,
        prune: false,
        png: None,
        field_page: true,
    };
    build::run(&order, &|_| {}, &|| false)
}

/// What the program decides for a job's file, as it prints it.
fn planned(job: &str, folder: &Path) -> Value {
    let checked = build::check_bytes("job.yaml", job.as_bytes().to_owned(), folder);
    let content = match &checked.content {
        Content::Job(planned) => planned.as_deref(),
        _ => None,
    };
    let problems = ProblemJson::all(&checked.problems, &checked.sources);
    serde_json::to_value(PlanJson::new(content, problems)).expect("a plan is JSON")
}

/// The same without the places of problems: a file that was typed has other lines.
fn without_places(mut plan: Value) -> Value {
    for problem in plan["problems"].as_array_mut().into_iter().flatten() {
        for key in ["file", "line", "column", "end_line", "end_column", "edits"] {
            problem.as_object_mut().expect("a problem is an object").remove(key);
        }
    }
    // They stand in the order of their places.
    if let Some(problems) = plan["problems"].as_array_mut() {
        problems.sort_by_key(Value::to_string);
    }
    plan
}

#[test]
#[ignore = "needs Node, playwright-core and Chromium; tests/all runs it where they are"]
fn what_is_typed_gives_the_plans_of_the_program() {
    let folder = tempfile::tempdir().expect("a folder");
    let specs = folder.path().join("specs");
    fs::create_dir(&specs).expect("a folder");
    let jobs = std::env::var("FIELD_JOBS").ok().and_then(|text| text.parse().ok()).unwrap_or(JOBS);
    let mut typed = Vec::new();
    for seed in 0..BOARDS {
        let name = format!("board-{seed}.yaml");
        let text = boards::generate(seed);
        fs::write(specs.join(&name), &text).expect("a board");
        let checked = build::check_bytes(&name, text.into_bytes(), &specs);
        let Content::Board(board) = checked.content else { panic!("a made-up board is sound") };
        for number in 0..jobs {
            let mut job = jobs::generate(&board, seed * 100 + number);
            // The form offers no number of a pump that the board does not know.
            for pump in (1..=9).map(Device::Pump) {
                let served = board.headers.iter().flat_map(|header| &header.serves);
                if served.into_iter().all(|(_, device)| *device != pump) {
                    job = job.replace(&format!("device: {pump},"), "device: pump,");
                }
            }
            // Nor a further cord of a device, nor one of the board's own devices that no header drives.
            let unserved = board.devices.iter().filter(|own| {
                let mut served = board.headers.iter().flat_map(|header| &header.serves);
                own.is_cord || served.all(|(_, it)| *it != own.device)
            });
            if unserved.into_iter().any(|own| job.contains(&format!("device: {},", own.device))) {
                continue;
            }
            typed.push(job.replace("board: ../board.yaml", &format!("board: {name}")));
        }
    }
    let opened: Vec<&String> = typed.iter().step_by(typed.len() / 8).collect();
    let report = page_of(&specs, &folder.path().join("out"));
    assert!(report.field_page.is_some());
    let values = |job: &String| WrittenJson(spec::read_written(job).expect("a job"));
    let field = |job: &str, key: &str| -> String {
        let at = job.find(&format!("\n{key}: ")).expect("a key") + key.len() + 3;
        job[at..].lines().next().unwrap_or_default().trim_matches('"').to_owned()
    };
    let asked = json!({
        "typed": typed.iter().map(values).collect::<Vec<_>>(),
        "opened": opened
            .iter()
            .map(|job| json!({ "text": job, "name": field(job, "job"), "breaker": "125" }))
            .collect::<Vec<_>>(),
    });
    let cases = folder.path().join("jobs.json");
    fs::write(&cases, asked.to_string()).expect("the jobs");
    let told = run(SCRIPT, &[&folder.path().join("out/field.html"), &cases]);

    assert_eq!(told["console"], json!([]), "the page complains of nothing");
    let requests = told["requests"].as_array().expect("requests");
    let outside = |url: &&Value| {
        let url = url.as_str().unwrap_or_default();
        !url.starts_with("file://") && !url.starts_with("blob:") && !url.starts_with("data:")
    };
    assert_eq!(requests.iter().find(outside), None, "nothing is asked for from outside");

    let (mut sound, mut refused) = (0, 0);
    let held = told["jobs"].as_array().expect("jobs");
    assert_eq!(held.len(), typed.len());
    for (job, held) in typed.iter().zip(held) {
        let native = planned(job, &specs);
        let shown = held["shown"].as_str().expect("an answer");
        let shown: Value = serde_json::from_str(shown).expect("JSON");
        let plan = without_places(shown["shown"]["plan"].clone());
        assert_eq!(plan, without_places(native), "{job}\nwas written as\n{}", held["job"]);
        // The file that the page writes says the same to the program.
        let written = held["job"].as_str().expect("a job");
        assert_eq!(without_places(planned(written, &specs)), plan, "{written}");
        match plan["layout"].as_u64() {
            Some(layout) => {
                sound += 1;
                assert_eq!(held["state"], "planned");
                assert_eq!(held["status"], format!("Layout {layout}"));
                assert!(held["sheets"].as_u64() > Some(500), "{held}");
            }
            None => {
                refused += 1;
                assert_eq!(held["state"], "refused");
                assert_eq!(held["sheets"], 0, "nothing that could be followed");
            }
        }
        let codes = |from: &Value, key: &str| -> Vec<String> {
            let all = from.as_array().into_iter().flatten();
            let code = |it: &Value| match it {
                Value::String(words) => words.chars().take(4).collect(),
                it => it[key].as_str().unwrap_or_default().to_owned(),
            };
            let mut all: Vec<String> = all.map(code).collect();
            all.sort();
            all
        };
        assert_eq!(codes(&held["told"], ""), codes(&plan["problems"], "code"), "{job}");
    }
    eprintln!("{sound} jobs were planned as the program plans them, {refused} refused");
    assert!(sound > 10 && refused > 5, "{sound} and {refused}");

    let mut pdfs = 0;
    for (job, held) in opened.iter().zip(told["opened"].as_array().expect("opened")) {
        let saved = BASE64.decode(held["saved"]["bytes"].as_str().expect("bytes")).expect("bytes");
        let saved = String::from_utf8(saved).expect("a text");
        assert_eq!(held["job"], saved.as_str());
        assert_eq!(held["again"], saved.as_str(), "the address holds the whole job");
        let changed =
            job.replacen(&format!("breaker: {}", field(job, "breaker")), "breaker: 125 A", 1);
        assert_eq!(
            without_places(planned(&saved, &specs)),
            without_places(planned(&changed, &specs)),
            "{saved}"
        );
        let out = folder.path().join("native");
        fs::create_dir_all(&out).expect("a folder");
        for pdf in held["pdfs"].as_array().expect("PDFs") {
            let Some(bytes) = pdf["bytes"].as_str() else { continue };
            let mut checked = build::check_bytes("job.yaml", saved.clone().into_bytes(), &specs);
            let kind = SheetKind::OF_JOB.into_iter().find(|kind| pdf["sheet"] == kind.name());
            let native = native_pdf(&mut checked, kind.expect("a kind of sheets"));
            assert!(BASE64.decode(bytes).expect("bytes") == native, "{pdf:.60} of {saved}");
            pdfs += 1;
        }
    }
    eprintln!("{pdfs} PDFs that the page saved are those of the program");
    assert!(pdfs >= 3, "{pdfs}");
}

fn native_pdf(checked: &mut lidsheet::compile::Checked, kind: SheetKind) -> Vec<u8> {
    use lidsheet::compile::{OwnFolder, SheetOptions, sheet_pages};
    let look = SheetOptions::new(Paper::A4, lidsheet::words::english(), OwnFolder::default());
    let mut set = lidsheet::text::Typesetter::new();
    let pages = sheet_pages(checked, kind, &look, &mut set).expect("sheets").expect("pages");
    lidsheet::write::pdf(&pages.pages).expect("a PDF")
}

/// Looks at pages as people have them, and tells what is there.
const LOOKS: &str = include_str!("field_page_looks.js");

#[test]
#[ignore = "needs Node, playwright-core, axe-core and Chromium; tests/all runs it where they are"]
fn it_holds_up_on_a_phone() {
    let folder = tempfile::tempdir().expect("a folder");
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let out = |name: &str| folder.path().join(name);
    assert!(page_of(&root.join("specs"), &out("demo")).field_page.is_some());

    let wren = fs::read_to_string(root.join("specs/wren-3.yaml")).expect("a board");
    let name = wren.lines().find(|line| line.trim_start().starts_with("name:")).expect("a name");
    let words = "</script><img src=x onerror=alert(1)> ]]> \u{5d0}\u{5d1}";
    let named = format!("{}name: \"{words}\"", name.split("name:").next().unwrap_or_default());
    fs::create_dir(out("hostile-specs")).expect("a folder");
    fs::write(out("hostile-specs/wren-3.yaml"), wren.replacen(name, &named, 1)).expect("a board");
    assert!(page_of(&out("hostile-specs"), &out("hostile")).field_page.is_some());

    fs::create_dir(out("large-specs")).expect("a folder");
    fs::write(out("large-specs/board.yaml"), crate::generate::largest::board()).expect("a board");
    fs::write(out("large.yaml"), crate::generate::largest::job(125, true)).expect("a job");
    assert!(page_of(&out("large-specs"), &out("large")).field_page.is_some());

    let told = run(
        LOOKS,
        &[
            &out("demo/field.html"),
            &out("hostile/field.html"),
            &out("large/field.html"),
            &out("large.yaml"),
            &root.join("specs/jobs/2231.yaml"),
        ],
    );
    assert_eq!(told["dialogs"], 0, "no script of a specification or of a form runs");
    assert_eq!(told["console"], json!([]), "the page complains of nothing");
    for judged in told["axe"].as_array().expect("what axe-core says") {
        eprintln!("{}: {} rules kept", judged["name"], judged["kept"]);
        assert!(judged["kept"].as_u64() > Some(15), "{judged}");
        assert_eq!(judged["broken"], json!([]), "{judged}");
        assert!(judged["wide"].as_f64() <= Some(0.0), "nothing is scrolled sideways: {judged}");
    }
    assert_eq!(told["axe"].as_array().map(Vec::len), Some(10));
    assert_eq!(told["rotated"]["same"], true);
    assert!(told["rotated"]["wide"].as_f64() <= Some(0.0));
    assert_eq!(told["rotated"]["status"], "Layout 7");
    let walk = told["walk"].as_array().expect("stops");
    assert!(walk.iter().all(|stop| stop["seen"] == true), "{walk:?}");
    assert!(walk.iter().any(|stop| stop["name"] == "breaker"), "{walk:?}");
    assert_eq!(told["german"]["lang"], "de");
    assert_eq!(told["german"]["status"], "Variante 7");
    assert_eq!(told["german"]["legend"], "Einspeisung");

    let end = told["bare"]["end"].as_str().expect("an end");
    assert!(end.contains("Layout ") && end.contains("J1: "), "{end}");
    assert!(told["bare"]["way"].as_array().map(Vec::len) > Some(2), "{told}");
    assert!(told["bare"]["note"].as_str().expect("a note").contains("no scripts"));

    let hostile = &told["hostile"];
    assert_eq!(hostile["images"], 0, "{hostile}");
    assert!(hostile["board"].as_str().expect("a board").contains("<img src=x"), "{hostile}");
    assert!(hostile["told"].as_str().expect("problems").contains("breaker"), "{hostile}");
    assert_eq!(hostile["after"]["images"], 0, "{hostile}");
    assert!(told["large"]["status"].as_str().expect("a status").starts_with("Layout "), "{told}");
    assert!(told["large"]["wide"].as_f64() <= Some(0.0));
    for (slower, times) in told["times"].as_object().expect("times") {
        eprintln!("processor {slower} times as slow: {times}");
    }
}
