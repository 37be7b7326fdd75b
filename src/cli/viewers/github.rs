//! Problems as commands of a GitHub workflow, which shows them beside the changed lines.

use std::path::Path;

use super::{STANDARD_INPUT, Shown, relative, words};
use crate::diagnostic::{Severity, page};

/// So many errors, and so many warnings, of one step are shown there; the rest would be dropped.
const SHOWN: usize = 10;

/// A line for each problem that the viewer shows, then one that says how many there are and how many
/// are not shown. `summary` is what was checked and found; `here` is the folder of the repository.
pub fn commands(all: &[Shown<'_>], summary: &str, here: &Path) -> String {
    let mut out = String::new();
    let mut left = 0;
    let (mut errors, mut warnings) = (0, 0);
    for shown in all.iter().filter(|shown| shown.accepted.is_none()) {
        let count = match shown.problem.code.severity() {
            Severity::Error => &mut errors,
            Severity::Warning => &mut warnings,
        };
        *count += 1;
        if *count > SHOWN {
            left += 1;
        } else {
            out.push_str(&command(shown, here));
        }
    }
    let summary = summary.trim_end();
    out.push_str(&if left == 0 {
        format!("{summary}\n")
    } else {
        let are = if left == 1 { "is" } else { "are" };
        let text =
            format!("{summary}; {left} of them {are} not shown here, `--format json` has all");
        format!("::notice title=lidsheet::{}\n", data(&text))
    });
    out
}

/// `::error file=…,line=…::message`. A column is a code point from 1, the end is one past the last; the
/// viewer takes columns only where the place is on one line.
fn command(Shown { problem, sources, .. }: &Shown<'_>, here: &Path) -> String {
    let mut properties: Vec<(&str, String)> = Vec::new();
    let (name, start) = problem.place(sources);
    let of_file = start.is_some() || !name.is_empty();
    if of_file && name != STANDARD_INPUT {
        properties.push(("file", relative(name, here)));
    }
    if let (Some((line, column)), Some(label)) = (start, &problem.primary) {
        let (end_line, end_column) = sources.end(label.span);
        properties.push(("line", line.to_string()));
        if line == end_line {
            properties.push(("col", column.to_string()));
        }
        properties.push(("endLine", end_line.to_string()));
        if line == end_line {
            properties.push(("endColumn", end_column.to_string()));
        }
    }
    let code = problem.code;
    properties.push(("title", format!("{}: {}", code.text(), page(code).title)));
    let properties: Vec<String> =
        properties.iter().map(|(name, value)| format!("{name}={}", property(value))).collect();
    let (level, properties) = (code.severity().word(), properties.join(","));
    format!("::{level} {properties}::{}\n", data(&words(problem, here)))
}

/// The text of a command, which ends with its line.
fn data(text: &str) -> String {
    text.replace('%', "%25").replace('\r', "%0D").replace('\n', "%0A")
}

/// The value of a property, which ends with a comma or colon, too.
fn property(text: &str) -> String {
    data(text).replace(':', "%3A").replace(',', "%2C")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_ends_a_command_early() {
        assert_eq!(data("50 %\r\n::error::x"), "50 %25%0D%0A::error::x");
        assert_eq!(property("a:b,c%\n"), "a%3Ab%2Cc%25%0A");
    }
}
