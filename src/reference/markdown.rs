//! The reference of the language as Markdown.

use std::fmt::Write as _;

use super::samples::{example, whole};
use super::values::{default_of, value};
use crate::board::footprint::{SELECTOR, SOCKET_WIDTH, bank_size, fixed_sizes, group_size};
use crate::board::vocabulary;
use crate::diagnostic::{Code, page};
use crate::geometry::{Side, Size};
use crate::spec::VERSION;
use crate::spec::language::board::BOARD;
use crate::spec::language::job::JOB;
use crate::spec::language::{Form, Key, Words};

/// The words before the keys.
const FRONT: &str = include_str!("front.md");
/// What is said of CSV tables.
const TABLES: &str = include_str!("tables.md");

/// Lists of words with more to say than the key that they belong to.
const LISTS: [(Words, &str); 8] = [
    (Words::Effect, "Effects of switches"),
    (Words::Pin, "Functions of pins"),
    (Words::Device, "Devices"),
    (Words::Color, "Wire colors"),
    (Words::Fuse, "Kinds of fuses"),
    (Words::Conductor, "Conductors of a supply"),
    (Words::Method, "Methods of installation (IEC 60364-5-52)"),
    (Words::Rules, "Rules for breakers"),
];

/// The whole reference. `drawings` is what the names of the drawings begin with, from
/// where it is read.
pub fn markdown(drawings: &str) -> String {
    let front = FRONT.replace("VERSION", VERSION).replace("DRAWINGS", drawings);
    let mut out = front.replace("SIZES", &sizes());
    out.push_str("\n## A board\n\n");
    one(&BOARD, None, 3, &mut Vec::new(), &mut out);
    out.push_str("## A job\n\n");
    one(&JOB, None, 3, &mut Vec::new(), &mut out);
    out.push_str(TABLES);
    out.push_str("\n## Words\n");
    for (words, title) in LISTS {
        // Writing to a text cannot fail.
        let _ = write!(out, "\n### {title}\n\n");
        for (word, says) in vocabulary(words) {
            let colon = if says.is_empty() { "" } else { ": " };
            let _ = writeln!(out, "- `{word}`{colon}{says}");
        }
    }
    out.push_str(
        "\n## Codes\n\nWhat `lidsheet check` may report. An error lets no sheet be made.\n",
    );
    for code in Code::ALL {
        let page = page(*code);
        let severity = code.severity().word();
        let _ =
            write!(out, "\n### {} ({severity}): {}\n\n{}\n", code.text(), page.title, page.text);
        for (heading, sample) in [("So it happens", page.wrong), ("So it is right", page.right)] {
            if !sample.is_empty() {
                let _ = write!(out, "\n{heading}:\n\n```yaml\n{sample}\n```\n");
            }
        }
    }
    out
}

/// How much room each thing takes, across and down, as the checker counts it.
fn sizes() -> String {
    let [terminal, foot, fuse] = fixed_sizes();
    let (tab, selector) = (group_size(1), SELECTOR);
    let bank = |ways| bank_size(ways, Side::Up);
    let (one, way) = (bank(1), bank(2).width - bank(1).width);
    let by = |size: Size| format!("{} by {} mm", size.width, size.height);
    format!(
        "A terminal takes {}, the fixed end of a jumper or of a link {}, a fuse {}, a selector {}, a \
         group {} for each tab. A bank takes {} with ON printed up or down, and {} mm more for each \
         way after the first. A header takes its number of pins times `pitch`, by {} mm.",
        by(terminal),
        by(foot),
        by(fuse),
        by(selector),
        by(tab),
        by(one),
        way,
        SOCKET_WIDTH,
    )
}

/// A form with its keys, and then those that it holds; `told` are those before it.
fn one(
    form: &'static Form,
    at: Option<&str>,
    level: usize,
    told: &mut Vec<&'static str>,
    out: &mut String,
) {
    if told.contains(&form.name) {
        return;
    }
    told.push(form.name);
    let heading = at.map_or_else(|| form.name.to_owned(), |key| format!("`{key}`"));
    let _ = write!(out, "{} {heading}\n\n{}\n\n", "#".repeat(level), form.says);
    // A whole specification is shown in its parts.
    let sample = whole(form).filter(|text| text.lines().count() <= 24);
    if let Some(sample) = sample.filter(|_| at.is_some()) {
        let _ = write!(out, "```yaml\n{sample}\n```\n\n");
    }
    for key in form.keys {
        out.push_str(&line(form, key));
    }
    out.push('\n');
    for key in form.keys {
        for inner in key.kind.forms() {
            one(inner, Some(key.name), level, told, out);
        }
    }
}

/// `- **max** …`: one key.
fn line(form: &Form, key: &'static Key) -> String {
    let must = if default_of(key).is_none() { " (required)" } else { "" };
    let mut line = format!("- `{}`{must}: {} *{}.*", key.name, key.says, value(&key.kind));
    if let Some(without) = default_of(key) {
        let _ = write!(line, " Without it: {without}.");
    }
    let short =
        example(form, key).filter(|text| text.chars().count() <= 60 && !text.contains('\n'));
    if let Some(example) = short {
        let _ = write!(line, " Example: `{}: {example}`", key.name);
    }
    if key.since != "1" {
        let _ = write!(line, " Since version {}.", key.since);
    }
    line.push('\n');
    line
}
