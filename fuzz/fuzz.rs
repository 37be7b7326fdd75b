//! Feeds a target with inputs that reach ever new code: `fuzz/run TARGET`.
#![no_main]

use std::sync::OnceLock;

use hayro_syntax::Pdf;
use libfuzzer_sys::fuzz_target;

#[path = "../tests/suite/generate/documents.rs"]
mod documents;
#[path = "../tests/suite/generate/specimen.rs"]
mod specimen;
mod targets;

use targets::{TARGETS, Target};

/// The target that the surroundings name.
fn chosen() -> Target {
    static CHOSEN: OnceLock<Target> = OnceLock::new();
    *CHOSEN.get_or_init(|| {
        let name = std::env::var("LIDSHEET_TARGET").unwrap_or_default();
        let found = TARGETS.iter().find(|(known, _)| *known == name);
        found.unwrap_or_else(|| panic!("LIDSHEET_TARGET names no target: `{name}`")).1
    })
}

fuzz_target!(|data: &[u8]| chosen()(data));
