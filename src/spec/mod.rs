//! The specification language: YAML text (and tables beside it) in, types out.
//!
//! Nothing is decided here, no name is resolved, no file is opened. What cannot be read is reported
//! and left out, and the next value is still read, so that one run shows every problem.

mod csv;
mod fields;
mod house;
mod intake;
mod job;
pub mod language;
mod model;
mod print;
mod tables;
mod things;
pub mod tree;
mod values;
pub mod walk;
mod wording;
mod wordings;
mod written;
mod yaml_error;

pub use fields::{Field, Section};
pub use house::{House, parse_house};
pub use intake::{LARGEST_FILE, admit};
pub use job::{Fitted, Job, Marked, OfSpeeds, SHAPE as JOB_SHAPE, SupplyRun, parse_job};
pub use model::*;
pub use print::print;
pub use tables::way_range;
pub use wording::{STAND_IN, Wording};
pub use wordings::Worded;
pub use written::{Written, read_written, write_job};

use crate::diagnostic::{Code, Problem, Problems, Reported, page};
use crate::source::{FileId, Sources, Span};
use fields::{Fields, Named, Value, section};
use language::MEANING;
use language::board::BOARD;
use tables::Tables;

/// The version of the language that is read here.
pub const VERSION: &str = "1";

/// Whether `text` is a job rather than a board: among its outermost keys is one that only a job
/// has.
pub fn is_job(text: &str) -> bool {
    tree::has_outermost_key(text, &["job", "equipment"])
}

/// Reads the specification that `file` holds.
///
/// `load` gives the bytes of a table that the specification names, relative to it; the path has
/// been judged before. Take files in with [`admit`], which refuses what is not text.
///
/// # Errors
/// Only if there is nothing to read: the text is not YAML, or its outermost value is no map. All
/// else is in `problems`, and what could be read is in the result.
pub fn parse(
    file: FileId,
    sources: &mut Sources,
    load: &mut dyn FnMut(&str) -> Result<Vec<u8>, String>,
    problems: &mut Problems,
) -> Result<Spec, Reported> {
    intake::judge_text(file, sources, problems)?;
    let root = tree::read(file, &sources.file(file).text, problems)?;
    let start = match &root.kind {
        tree::YamlKind::Map(entries) => entries.first().map_or(root.span, |entry| entry.key.span),
        _ => first_line(file, sources),
    };
    let mut top = Fields::open(&root, "the specification", start, &BOARD, problems);
    if !top.is_readable() {
        // `open` has said why.
        let message = "the file's outermost value is not a map of sections";
        return Err(problems
            .failed()
            .unwrap_or_else(|| problems.error(Problem::new(Code::WrongKind, start, message))));
    }
    top.require(page(Code::EmptyFile).right, problems);
    let at = |key: &str| top.key_span(key).unwrap_or(start);
    top.get("lidsheet", problems, version);
    let mut tables = Tables { file, sources, load };

    macro_rules! things {
        ($key:literal, $read:expr) => {{
            let mut read = Section::absent(at($key));
            let named = Named::of(&BOARD, $key);
            let field = top.get($key, problems, |value, problems| {
                read = section(value, &named, at($key), problems, $read);
                Some(())
            });
            read.whole &= !field.is_unread();
            read
        }};
    }

    let mut about = None;
    top.get("board", problems, |value: Value<'_>, problems| {
        about = Some(things::about(value, at("board"), problems));
        Some(())
    });
    let parts = things!("parts", things::part);
    let terminals = things!("terminals", things::terminal);
    let links = things!("links", things::link);
    let supplies = things!("supplies", things::supply);
    let groups = things!("groups", things::group);
    let jumpers = things!("jumpers", things::jumper);
    let fuses = things!("fuses", things::fuse);
    let sockets = things!("sockets", things::socket);
    let devices = things!("devices", things::device);
    let headers = things!("headers", things::header);
    let heater = top.get("heater", problems, things::heater);
    let electronics = top.get("electronics", problems, things::electronics);
    let mut layouts = None;
    top.get("layouts", problems, |value, problems| {
        layouts = Some(tables::layouts(value, at("layouts"), &mut tables, problems));
        Some(())
    });
    let switches = things!("switches", |name, value, problems| {
        tables::bank(name, value, &mut tables, problems)
    });
    let selectors = things!("selectors", things::selector);
    let panels = things!("panels", things::panel);
    Ok(Spec {
        about: about.unwrap_or_default(),
        parts,
        terminals,
        links,
        supplies,
        groups,
        jumpers,
        fuses,
        sockets,
        devices,
        headers,
        heater,
        electronics,
        layouts: layouts.unwrap_or(Layouts {
            columns: Field::Unread,
            rows: Section { place: start, whole: false, entries: Vec::new() },
        }),
        switches,
        selectors,
        panels,
        accepted: top.get("accepted", problems, accepted),
    })
}

/// `accepted`: codes of warnings, and why.
fn accepted(value: Value<'_>, problems: &mut Problems) -> Option<Vec<(Name, Name)>> {
    values::pairs(value, MEANING, problems)
}

fn version(value: Value<'_>, problems: &mut Problems) -> Option<()> {
    let span = value.node.span;
    let version = values::word(value, problems)?;
    if version != VERSION {
        problems.error(
            Problem::new(
                Code::WrongVersion,
                span,
                format!("version `{version}` of the language is not known here"),
            )
            .label(format!("this compiler reads version {VERSION}")),
        );
        return None;
    }
    Some(())
}

/// The cells of a table, each with its place in the text; those before the first that cannot be read.
pub fn table_cells(text: &str) -> Vec<Vec<Name>> {
    let mut sources = Sources::default();
    let id = sources.add("", text);
    csv::records(id, sources.file(id)).unwrap_or_default()
}

/// The first line of a file.
fn first_line(file: FileId, sources: &Sources) -> Span {
    let text = &sources.file(file).text;
    Span::new(file, 0..text.find('\n').unwrap_or(text.len()))
}
