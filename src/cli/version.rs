//! `lidsheet --version --verbose`

use crate::sheet::Templates;
use crate::source::Sources;
use crate::spec;
use crate::standards::{Clause, Known, clauses};

/// What this program reads, makes and follows: its version, the edition of the language and of the sheets,
/// and the standards that its tables come from, a line each.
pub fn verbose() -> String {
    let version = env!("CARGO_PKG_VERSION");
    let language = spec::VERSION;
    let sheets = Templates::built_in(&mut Sources::default()).edition();
    let mut out = format!(
        "lidsheet {version}\nlanguage of specifications: {language}\nedition of the sheets: {sheets}\n\
         standards:\n"
    );
    let all = clauses();
    for of_edition in all.chunk_by(|one, other| one.edition == other.edition) {
        let clauses: Vec<String> = of_edition.iter().map(clause).collect();
        let edition = of_edition.first().map_or("", |clause| clause.edition);
        out.push_str(&format!("  {edition}: {}\n", clauses.join("; ")));
    }
    out
}

fn clause(Clause { clause, known, .. }: &Clause) -> String {
    match known {
        Known::Reproduction => (*clause).to_owned(),
        Known::Memory => format!("{clause} (from memory)"),
    }
}
