//! The JSON Schema against an independent validator (boon, draft 2020-12) and an independent reader of
//! YAML (serde_yaml_ng): it takes all that is sound, and what it refuses the compiler refuses.

use std::path::{Path, PathBuf};

use boon::{Compiler, SchemaIndex, Schemas};
use lidsheet::build;
use lidsheet::reference::SAMPLES;
use lidsheet::spec::language::Form;
use lidsheet::spec::language::board::BOARD;
use lidsheet::spec::language::job::JOB;
use serde_json::Value;

use crate::reference::{changed, entries};

struct Validator {
    schemas: Schemas,
    of: SchemaIndex,
}

impl Validator {
    fn new(form: &'static Form) -> Self {
        let (mut schemas, mut compiler) = (Schemas::new(), Compiler::new());
        let schema: Value = serde_json::from_str(&build::schema_text(form)).expect("it is JSON");
        compiler.add_resource("lidsheet.json", schema).expect("it has a name");
        let of = compiler.compile("lidsheet.json", &mut schemas).expect("it is a schema");
        Self { schemas, of }
    }

    /// Why it refuses a file; `None` if it does not, or if the text cannot be made into JSON.
    fn refuses(&self, text: &str) -> Option<String> {
        let value: Value = serde_yaml_ng::from_str(text).ok()?;
        self.schemas.validate(&value, self.of).err().map(|error| error.to_string())
    }
}

/// The files of the demo, and the boards and jobs of the first version.
fn files() -> Vec<(PathBuf, &'static Form)> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut all = Vec::new();
    for (folder, form) in [
        ("specs", &BOARD),
        ("specs/jobs", &JOB),
        ("tests/version-1", &BOARD),
        ("tests/version-1/jobs", &JOB),
    ] {
        let read = std::fs::read_dir(root.join(folder)).expect("a folder");
        let mut paths: Vec<PathBuf> = read.map(|entry| entry.expect("an entry").path()).collect();
        paths.retain(|path| path.extension().is_some_and(|ending| ending == "yaml"));
        paths.sort();
        all.extend(paths.into_iter().map(|path| (path, form)));
    }
    all
}

fn text_of(path: &Path) -> String {
    std::fs::read_to_string(path).expect("a text")
}

#[test]
fn it_takes_every_sound_file() {
    let validators = [Validator::new(&BOARD), Validator::new(&JOB)];
    let mut taken = 0;
    for (path, form) in files() {
        let validator = &validators[usize::from(std::ptr::eq(form, &JOB))];
        let text = text_of(&path);
        assert!(serde_yaml_ng::from_str::<Value>(&text).is_ok(), "{}", path.display());
        assert_eq!(validator.refuses(&text), None, "{}", path.display());
        taken += 1;
    }
    assert!(taken >= 25, "{taken}");
    for sample in &SAMPLES {
        let validator = &validators[usize::from(std::ptr::eq(sample.form, &JOB))];
        assert_eq!(validator.refuses(sample.text), None, "{}", sample.name);
    }
    // A job is no board, and a board no job.
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    assert!(validators[0].refuses(&text_of(&root.join("specs/jobs/2231.yaml"))).is_some());
    assert!(validators[1].refuses(&text_of(&root.join("specs/heron-8.yaml"))).is_some());
}

/// What a value is replaced by, and in the place of a key.
const VALUES: [&str; 14] = [
    "banana", "12", "-5", "1e9", "20 A", "20 a", "20", "0.5 V", "true", "[]", "{}", "[1, 2]",
    "{ a: b }", "\"\"",
];
const KEYS: [&str; 3] = ["banana", "Part", "titel"];

/// 300 files with one thing changed, by a plain generator of pseudo-random numbers (Knuth's 64 bits).
#[test]
fn what_it_refuses_the_compiler_refuses() {
    let validators = [Validator::new(&BOARD), Validator::new(&JOB)];
    let files = files();
    let mut state = 20_261_128_u64;
    let mut draw = |below: usize| {
        state =
            state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        ((state >> 33) as usize) % below
    };
    let (mut by_schema, mut by_compiler) = (0, 0);
    for _ in 0..300 {
        let (path, form) = &files[draw(files.len())];
        let text = text_of(path);
        let all = entries(&text, form);
        let entry = &all[draw(all.len())];
        let new = if draw(4) == 0 {
            changed(&text, entry.key_span, KEYS[draw(KEYS.len())])
        } else {
            changed(&text, entry.span, VALUES[draw(VALUES.len())])
        };
        let validator = &validators[usize::from(std::ptr::eq(*form, &JOB))];
        let folder = path.parent().expect("a folder");
        let checked = build::check_bytes("changed.yaml", new.clone().into(), folder);
        let refused = checked.problems.failed().is_some();
        by_compiler += usize::from(refused);
        if let Some(why) = validator.refuses(&new) {
            by_schema += 1;
            assert!(refused, "the compiler takes what the schema refuses: {why}\n{new}");
        }
    }
    // The schema is of use: it tells most of what the compiler tells.
    assert!(by_schema * 10 > by_compiler * 7, "{by_schema} of {by_compiler}");
}

/// Every key is in the schema with its sentence.
#[test]
fn every_key_is_in_it() {
    for form in [&BOARD, &JOB] {
        let text = build::schema_text(form);
        for inner in form.within() {
            for key in inner.keys {
                let words = serde_json::to_string(key.says).expect("a text");
                let said = words.trim_matches('"');
                assert!(text.contains(said), "`{}` of {}", key.name, inner.name);
            }
        }
    }
}
