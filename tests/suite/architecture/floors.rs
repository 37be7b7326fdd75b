//! The floors of the crate: which module may know which, and what only some may do.

use super::sources;

const COMMON: &[&str] =
    &["units", "geometry", "source", "diagnostic", "english", "reading", "mark"];
const BOARD_HALF: &[&str] = &[
    "standards",
    "spec",
    "board",
    "decide",
    "job_problems",
    "meaning",
    "compare",
    "tables",
    "reference",
];
/// Of the common modules those that `decide` has no use for: its results are data.
const WORDING: &[&str] = &["diagnostic", "english"];
const PAPER_HALF: &[&str] = &["text", "scene", "document", "page", "write"];
const BRIDGE: &[&str] = &["words", "figure", "sheet"];
const TOP: &[&str] = &["compile", "report", "field_page", "build", "preview", "editor", "cli"];

/// What a module may import, itself included; `None` for a module that no floor lists.
fn allowed(module: &str) -> Option<Vec<&'static str>> {
    let mut allowed = COMMON.to_vec();
    let left_of = |floor: &'static [&'static str]| {
        floor.iter().position(|name| *name == module).map(|at| &floor[..=at])
    };
    if COMMON.contains(&module) {
        return Some(allowed);
    }
    if module == "decide" {
        allowed.retain(|name| !WORDING.contains(name));
    }
    if let Some(left) = left_of(BOARD_HALF).or_else(|| left_of(PAPER_HALF)) {
        allowed.extend(left);
        return Some(allowed);
    }
    allowed.extend(BOARD_HALF);
    if let Some(left) = left_of(BRIDGE) {
        allowed.extend(["text", "scene", "document"]);
        allowed.extend(left);
        return Some(allowed);
    }
    allowed.extend(PAPER_HALF);
    allowed.extend(BRIDGE);
    allowed.extend(left_of(TOP)?);
    Some(allowed)
}

/// Code without comments, and without what stands in quotes.
fn code(text: &str) -> String {
    let mut out = String::new();
    for line in text.lines() {
        let mut quoted = false;
        let mut chars = line.chars().peekable();
        while let Some(char) = chars.next() {
            match char {
                '\\' if quoted => {
                    chars.next();
                }
                '"' => quoted = !quoted,
                '/' if !quoted && chars.peek() == Some(&'/') => break,
                _ if !quoted => out.push(char),
                _ => {}
            }
        }
        out.push('\n');
    }
    out
}

/// Whether code outside its tests and comments holds any text in quotes.
fn holds_text(text: &str) -> bool {
    let before = text.split("mod tests").next().unwrap_or_default();
    before.lines().any(|line| line.split("//").next().is_some_and(|code| code.contains('"')))
}

/// The modules that a file of `module` names, `depth` folders below the crate's root, and what
/// is wrong with how it names them.
fn named(text: &str, depth: usize) -> (Vec<String>, Vec<String>) {
    let code = code(text);
    let (mut names, mut wrong) = (Vec::new(), Vec::new());
    let mut rest = code.as_str();
    while let Some(at) = rest.find("crate::") {
        let own = rest[..at].ends_with(|c: char| c.is_alphanumeric() || c == '_' || c == '$');
        rest = &rest[at + "crate::".len()..];
        if own {
            continue;
        }
        let name: String = rest.chars().take_while(|c| c.is_alphanumeric() || *c == '_').collect();
        if name.is_empty() {
            wrong.push("imports a group or everything from the crate's root".to_owned());
        } else {
            names.push(name);
        }
    }
    let (before, tests) = code.split_once("mod tests").unwrap_or((&code, ""));
    for (part, floors) in [(before, depth - 1), (tests, depth)] {
        if part.contains(&"super::".repeat(floors + 1)) {
            wrong.push("climbs to the crate's root with super::".to_owned());
        }
    }
    (names, wrong)
}

/// What only some modules may name.
const RESERVED: &[(&str, &[&str])] = &[
    ("println!", &["cli"]),
    ("print!", &["cli"]),
    ("eprintln!", &["cli"]),
    ("eprint!", &["cli"]),
    ("dbg!", &[]),
    ("stdout()", &["cli"]),
    ("stderr()", &["cli"]),
    ("stdin()", &["cli"]),
    ("std::env", &["cli", "main"]),
    ("std::fs", &["build", "preview"]),
    ("std::process", &["build", "cli", "main"]),
    ("std::net", &["preview"]),
    // A build may wait for another, and reads no clock.
    ("std::time", &["build", "preview"]),
    ("Instant", &["preview"]),
    ("SystemTime", &["preview"]),
    ("unsafe ", &[]),
    // What comes with the feature `program`.
    ("clap", &["cli"]),
    ("clap_complete", &["cli"]),
    ("clap_mangen", &["cli"]),
    ("httparse", &["preview"]),
    ("indicatif", &["cli"]),
    ("ls_types", &["cli", "editor"]),
    ("lsp_server", &["cli", "editor"]),
    ("rayon", &["build"]),
    ("rustix", &["build"]),
    ("signal_hook", &["cli"]),
];

/// The modules that come with the feature `program`: only they may read files, listen, print, or start threads.
const OF_PROGRAM: &[&str] = &["build", "cli", "editor", "preview"];

fn reserved(module: &str, text: &str) -> Vec<String> {
    let code = code(text);
    RESERVED
        .iter()
        .filter(|(word, may)| !may.contains(&module) && names_word(&code, word))
        .map(|(word, _)| format!("names {word}"))
        .collect()
}

/// Whether `word` stands in `code`, not as the end of another name (`eprint!` in `print!`).
fn names_word(code: &str, word: &str) -> bool {
    code.match_indices(word)
        .any(|(at, _)| !code[..at].ends_with(|c: char| c.is_alphanumeric() || c == '_'))
}

/// Everything that is wrong with one file, `path` from `src`.
fn faults(path: &str, text: &str) -> Vec<String> {
    let module = path.split('/').next().unwrap_or_default().trim_end_matches(".rs");
    if module == "lib" || module == "main" {
        return reserved(module, text);
    }
    let Some(allowed) = allowed(module) else {
        return vec![format!("{module} stands on no floor")];
    };
    let below = path.trim_end_matches(".rs").trim_end_matches("/mod").split('/').count();
    let (names, mut wrong) = named(text, below);
    for name in names {
        let of_tests = for_tests(path) && WORDING.contains(&name.as_str());
        if !allowed.contains(&name.as_str()) && !of_tests {
            wrong.push(format!("imports {name}, which {module} must not know"));
        }
    }
    // Beside a data file stand the keys that it has.
    let reads_data = path.starts_with("decide/usual/");
    if module == "decide" && !for_tests(path) && !reads_data && holds_text(text) {
        wrong.push("holds text, but what is decided is data: words stand at the edge".to_owned());
    }
    wrong.extend(reserved(module, text));
    wrong
}

/// Files of `decide` that only its unit tests use.
fn for_tests(path: &str) -> bool {
    path == "decide/sample.rs"
        || path == "decide/mistakes/tests.rs"
        || path == "decide/mistakes/combinations/tests.rs"
}

#[test]
fn every_file_keeps_to_its_floor() {
    let mut wrong = Vec::new();
    for (path, text) in sources() {
        wrong.extend(faults(&path, &text).into_iter().map(|fault| format!("src/{path} {fault}")));
    }
    assert!(wrong.is_empty(), "\n{}", wrong.join("\n"));
}

/// What the library is without `program`: every crate of that feature is reserved for modules of it, and exactly
/// those modules wait for it.
#[test]
fn the_library_needs_nothing_of_the_program() {
    let root = |name: &str| {
        std::fs::read_to_string(format!("{}/{name}", env!("CARGO_MANIFEST_DIR"))).unwrap()
    };
    let manifest = root("Cargo.toml");
    let (_, feature) = manifest.split_once("\nprogram = [\n").expect("it has that feature");
    let crates = feature.split("\n]").next().unwrap_or_default().lines();
    // Of others it brings a feature more.
    let crates = crates.filter(|line| line.contains("dep:"));
    let crates: Vec<String> = crates
        .map(|line| line.trim().trim_matches(['"', ',']).replace("dep:", "").replace('-', "_"))
        .map(|line| line.trim_end_matches(['"', ',']).to_owned())
        .collect();
    assert!(crates.len() > 5, "{crates:?}");
    for name in &crates {
        let (_, may) = RESERVED.iter().find(|(word, _)| word == name).expect(name);
        assert!(may.iter().all(|module| OF_PROGRAM.contains(module)), "{name}: {may:?}");
    }
    for (word, may) in RESERVED {
        let outside = may.iter().find(|module| !OF_PROGRAM.contains(module) && **module != "main");
        assert_eq!(outside, None, "{word}");
    }
    let library = root("src/lib.rs");
    let waiting = library.match_indices("#[cfg(feature = \"program\")]\npub mod ");
    let waiting: Vec<&str> = waiting
        .map(|(at, found)| library[at + found.len()..].split(';').next().unwrap_or_default())
        .collect();
    assert_eq!(waiting, OF_PROGRAM);
}

/// The first test above must be able to fail.
#[test]
fn a_wrong_import_is_seen() {
    let fault = |path, text| faults(path, text).join("; ");
    assert_eq!(fault("write/svg.rs", "use crate::scene::Scene;\nuse crate::units;"), "");
    assert_eq!(fault("decide/pins.rs", "//! [`crate::page`]\nuse crate::board::Pin;"), "");
    assert_eq!(
        fault("write/svg.rs", "use crate::board::Board;"),
        "imports board, which write must not know"
    );
    assert_eq!(
        fault("spec/mod.rs", "fn a() { crate::decide::b() }"),
        "imports decide, which spec must not know"
    );
    assert_eq!(
        fault("sheet/mod.rs", "use crate::page::Paper;"),
        "imports page, which sheet must not know"
    );
    assert_eq!(
        fault("figure/look.rs", "use crate::{board, page};"),
        "imports a group or everything from the crate's root"
    );
    assert_eq!(
        fault("decide/plan.rs", "use crate::diagnostic::Problem;"),
        "imports diagnostic, which decide must not know"
    );
    assert_eq!(fault("decide/sample.rs", "use crate::diagnostic::Problems;\nlet a = \"b\";"), "");
    let text = "holds text, but what is decided is data: words stand at the edge";
    assert_eq!(fault("decide/plan.rs", "fn a() -> String { \"no layout fits\".to_owned() }"), text);
    assert_eq!(fault("decide/plan.rs", "// \"a\"\nmod tests { const A: &str = \"a\"; }"), "");
    assert_eq!(
        fault("decide/plan.rs", "use crate::job_problems::problem;"),
        "imports job_problems, which decide must not know"
    );
    assert_eq!(fault("new/mod.rs", ""), "new stands on no floor");
    assert_eq!(
        fault("spec/mod.rs", "use super::decide;"),
        "climbs to the crate's root with super::"
    );
    assert_eq!(fault("spec/mod.rs", "mod tests { use super::*; }"), "");
    assert_eq!(fault("spec/csv.rs", "use super::Spec;\nmod tests { use super::super::Spec; }"), "");
    assert_eq!(
        fault("spec/csv.rs", "use super::super::decide;"),
        "climbs to the crate's root with super::"
    );
    assert_eq!(fault("board/mod.rs", "println!(\"a\")"), "names println!");
    assert_eq!(
        fault("board/mod.rs", "let a = \"println! // std::fs\"; std::fs::read(a)"),
        "names std::fs"
    );
    assert_eq!(fault("cli/mod.rs", "println!(\"a\")"), "");
}
