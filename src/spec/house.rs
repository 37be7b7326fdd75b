//! `house.yaml` in a folder of templates: the logo and the accent of a house.

use super::fields::{Field, Fields, Value};
use super::language::PATH;
use super::language::house::HOUSE;
use super::tree::{self, YamlKind};
use super::values::{text, word};
use crate::diagnostic::{Code, Problem, Problems, Reported};
use crate::source::{FileId, Sources, Span};

/// The looks of a house, as they are written.
#[derive(Clone, Debug, PartialEq)]
pub struct House {
    /// The file of the logo, in the folder of templates or below it.
    pub logo: Field<String>,
    /// What it says, for those who cannot see it.
    pub says: Field<String>,
    /// Red, green and blue of the accent.
    pub accent: Field<[u8; 3]>,
}

/// Reads the house style that `file` holds.
///
/// # Errors
/// Only if there is nothing to read: the text is not YAML, or its outermost value is no map. All else
/// is in `problems`, and what could be read is in the result.
pub fn parse_house(
    file: FileId,
    sources: &Sources,
    problems: &mut Problems,
) -> Result<House, Reported> {
    let text = &sources.file(file).text;
    // All of it may be commented out for a while.
    let said = |line: &str| !line.trim().is_empty() && !line.trim_start().starts_with('#');
    if !text.lines().any(said) {
        return Ok(House { logo: Field::Absent, says: Field::Absent, accent: Field::Absent });
    }
    let root = tree::read(file, text, problems)?;
    let start = match &root.kind {
        YamlKind::Map(entries) => entries.first().map_or(root.span, |entry| entry.key.span),
        _ => super::first_line(file, sources),
    };
    let top = Fields::open(&root, "the house style", start, &HOUSE, problems);
    if !top.is_readable() {
        let wrong = || Problem::new(Code::WrongKind, start, "the house style is not a map of keys");
        return Err(problems.failed().unwrap_or_else(|| problems.error(wrong())));
    }
    let logo = top.get("logo", problems, path);
    let says = top.get("logo says", problems, word);
    let pair = [("logo", "logo says", &logo, &says), ("logo says", "logo", &says, &logo)];
    for (key, other, has, lacks) in pair {
        if has.is_absent() || !lacks.is_absent() {
            continue;
        }
        let at = top.key_span(key).unwrap_or(start);
        let message = format!("the house style has `{key}` and lacks `{other}`");
        let problem = Problem::new(Code::MissingKey, at, message);
        problems.error(match other {
            "logo" => problem.label("a logo belongs to it, such as `logo: logo.svg`"),
            _ => problem
                .label("needs words for those who cannot see it")
                .help("say the name that the logo shows, such as `logo says: Example Spas`"),
        });
    }
    let accent = top.get("accent", problems, color);
    Ok(House { logo, says, accent })
}

fn path(value: Value<'_>, problems: &mut Problems) -> Option<String> {
    let span = value.node.span;
    let path = text(value, PATH, problems)?;
    let leaves = path.starts_with('/')
        || path.contains(['\\', ':', '\n'])
        || path.split('/').any(|step| matches!(step, "" | "." | ".."));
    if leaves {
        let message = format!("the path `{path}` does not stay in the folder of templates");
        let problem = Problem::new(Code::PathLeavesFolder, span, message);
        problems.error(problem.label("name a file in the folder or below it, such as `logo.svg`"));
        return None;
    }
    Some(path)
}

/// A colour: `"#0b5c8a"`.
fn color(value: Value<'_>, problems: &mut Problems) -> Option<[u8; 3]> {
    let span = value.node.span;
    let wrong = |message: String, span: Span| {
        Problem::new(Code::WrongValue, span, message)
            .label("`#` and six digits from 0 to f belong here, in quotes")
            .help("write the color as red, green, and blue, such as `accent: \"#0b5c8a\"`")
    };
    if value.node.kind == YamlKind::Nothing {
        let message = format!("{} has no value", value.name);
        let note = "after a space, `#` begins a comment unless it stands in quotes";
        problems.error(wrong(message, span).note(note));
        return None;
    }
    let name = value.name.clone();
    let word = word(value, problems)?;
    let digits = word.strip_prefix('#').filter(|digits| {
        digits.len() == 6 && digits.bytes().all(|digit| digit.is_ascii_hexdigit())
    });
    let Some(number) = digits.and_then(|digits| u32::from_str_radix(digits, 16).ok()) else {
        problems.error(wrong(format!("{name} is not a color"), span));
        return None;
    };
    let [_, red, green, blue] = number.to_be_bytes();
    Some([red, green, blue])
}
