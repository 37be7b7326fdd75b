//! The sheets in `out/` are those of the specifications in `specs/`.

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

use lidsheet::build::{self, Order, Outcome};
use lidsheet::page::Paper;

/// Every file under a folder with its bytes.
fn files(root: &Path) -> BTreeMap<String, Vec<u8>> {
    let mut found = BTreeMap::new();
    let mut waiting = vec![root.to_owned()];
    while let Some(folder) = waiting.pop() {
        let Ok(entries) = fs::read_dir(&folder) else { continue };
        for entry in entries {
            let path = entry.unwrap().path();
            if path.is_dir() {
                waiting.push(path);
            } else {
                let name = path.strip_prefix(root).unwrap().to_string_lossy().replace('\\', "/");
                found.insert(name, fs::read(&path).unwrap());
            }
        }
    }
    found
}

#[test]
fn the_sheets_in_out_are_fresh() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let fresh = tempfile::tempdir().unwrap();
    let order = Order {
        paths: vec![root.join("specs")],
        out: fresh.path().to_owned(),
        paper: Paper::A4,
        languages: vec![lidsheet::words::english()],
        templates: None,
        threads: None,
        prune: false,
        png: None,
        field_page: true,
    };
    let report = build::run(&order, &|_| (), &|| false);
    let refused = report.files.iter().filter(|f| f.outcome == Outcome::Refused);
    let stem =
        |shown: &String| Path::new(shown).file_stem().unwrap().to_string_lossy().into_owned();
    assert_eq!(refused.map(|file| stem(&file.shown)).collect::<Vec<_>>(), [""; 0]);

    let (mut kept, mut fresh) = (files(&root.join("out")), files(fresh.path()));
    // It names the inputs by their paths from the outputs, and earlier marks that a first build lacks.
    let [kept_sums, fresh_sums] = [&mut kept, &mut fresh].map(|all| {
        let text = all.remove("manifest.json").expect("a build keeps a manifest");
        let text = String::from_utf8(text).unwrap();
        let sums = text.lines().filter(|line| line.contains(".pdf\"") || line.contains(".svg\""));
        sums.map(str::to_owned).collect::<Vec<_>>()
    });
    assert_eq!(
        kept_sums.len(),
        fresh_sums.len(),
        "run `cargo run --release -- build --field-page`"
    );
    let mut stale: Vec<&String> = Vec::new();
    for name in kept.keys().chain(fresh.keys().filter(|name| !kept.contains_key(*name))) {
        if kept.get(name) != fresh.get(name) {
            stale.push(name);
        }
    }
    let paths: Vec<PathBuf> = stale.iter().map(|name| Path::new("out").join(name)).collect();
    assert!(stale.is_empty(), "run `cargo run --release -- build --field-page`; stale: {paths:?}");
}
