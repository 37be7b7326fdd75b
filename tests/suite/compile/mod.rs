//! What tests at the level of the library share: a text in, its board, job and problems out.

pub mod demo;
pub mod job;
pub mod printed;
pub mod prose;

use std::collections::BTreeMap;
use std::path::Path;

use lidsheet::board::{self, Board};
use lidsheet::diagnostic::{Colour, Problem, Problems, render};
use lidsheet::source::Sources;
use lidsheet::spec::{self, Spec};

/// What came of a specification.
pub struct Outcome {
    pub spec: Option<Spec>,
    pub board: Option<Board>,
    pub problems: Vec<Problem>,
    pub sources: Sources,
}

impl Outcome {
    /// The codes that were found, each once, in order.
    pub fn codes(&self) -> Vec<&'static str> {
        codes(&self.problems)
    }

    /// Everything as it would be printed.
    pub fn shown(&self) -> String {
        shown(&self.problems, &self.sources)
    }
}

/// The codes of problems, each once, in order.
pub fn codes(problems: &[Problem]) -> Vec<&'static str> {
    let mut codes: Vec<_> = problems.iter().map(|p| p.code.text()).collect();
    codes.sort_unstable();
    codes.dedup();
    codes
}

/// Problems as they would be printed.
pub fn shown(problems: &[Problem], sources: &Sources) -> String {
    let shown: Vec<String> = problems.iter().map(|p| render(p, sources, Colour::Plain)).collect();
    shown.join("\n\n")
}

/// Compiles bytes; tables come from `load`.
pub fn compile_bytes(
    name: &str,
    bytes: Vec<u8>,
    load: &mut dyn FnMut(&str) -> Result<Vec<u8>, String>,
) -> Outcome {
    let (mut sources, mut problems) = (Sources::default(), Problems::default());
    let spec = spec::admit(name, bytes, &mut sources, &mut problems)
        .and_then(|file| spec::parse(file, &mut sources, load, &mut problems))
        .ok();
    let board = spec.as_ref().and_then(|spec| board::check(spec, &sources, &mut problems).ok());
    Outcome { spec, board, problems: problems.sorted(), sources }
}

/// Compiles a text without tables.
pub fn compile(text: &str) -> Outcome {
    compile_bytes("board.yaml", text.into(), &mut |_| Err("there are no tables here".into()))
}

/// Compiles a text with tables given by name.
pub fn compile_with(text: &str, tables: &[(&str, &[u8])]) -> Outcome {
    let tables: BTreeMap<&str, &[u8]> = tables.iter().copied().collect();
    compile_bytes("specs/board.yaml", text.into(), &mut |path| {
        tables.get(path).map(|bytes| bytes.to_vec()).ok_or_else(|| "no such file".to_owned())
    })
}

/// Compiles a file under the project's folder; tables lie beside it.
pub fn compile_file(path: &str) -> Outcome {
    let full = Path::new(env!("CARGO_MANIFEST_DIR")).join(path);
    let folder = full.parent().expect("a file lies in a folder").to_owned();
    let bytes = std::fs::read(&full).unwrap_or_else(|error| panic!("{path}: {error}"));
    compile_bytes(path, bytes, &mut |table| {
        std::fs::read(folder.join(table)).map_err(|_| "no such file".to_owned())
    })
}

/// The board of a text without tables, which must be sound.
pub fn sound(text: &str) -> Board {
    let outcome = compile(text);
    let told = || told(&outcome.problems, &outcome.sources);
    outcome.board.unwrap_or_else(|| panic!("{}", told()))
}

/// Each problem in one line, to be read in a failed test.
pub fn told(problems: &[Problem], sources: &Sources) -> String {
    let line = |problem: &Problem| {
        let (code, message) = (problem.code.text(), &problem.message);
        match &problem.primary {
            None => format!("{code} {message}"),
            Some(label) => {
                let place = sources.file(label.span.file).position(label.span.start);
                format!("{}:{} {code} {message}: `{}`", place.0, place.1, sources.text(label.span))
            }
        }
    };
    problems.iter().map(line).collect::<Vec<_>>().join("\n")
}
