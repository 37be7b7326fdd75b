//! How the crate is built: which module may know which, and no circles between files. Reads the
//! source text; see the diamond in DEVELOPERS.md.

mod circles;
mod floors;
mod promises;
mod tokens;

use std::fs;
use std::path::{Path, PathBuf};

/// Every file of `src` with its text, by its path from there.
pub fn sources() -> Vec<(String, String)> {
    fn below(folder: &Path, found: &mut Vec<PathBuf>) {
        for entry in fs::read_dir(folder).expect("the folder is there") {
            let path = entry.expect("it can be read").path();
            if path.is_dir() {
                below(&path, found);
            } else if path.extension().is_some_and(|ending| ending == "rs") {
                found.push(path);
            }
        }
    }
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut found = Vec::new();
    below(&root, &mut found);
    found.sort();
    assert!(found.len() > 30, "the source was not found");
    let named = found.iter().map(|file| {
        let path = file.strip_prefix(&root).expect("it lies there");
        let text = fs::read_to_string(file).expect("it can be read");
        (path.to_string_lossy().replace('\\', "/"), text)
    });
    named.collect()
}
