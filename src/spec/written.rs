//! A job as a form holds it: every value as the text that was written, and back to a file.
//!
//! Nothing is judged here. What a form puts together is read again as any other job.

use std::fmt::Write as _;

use super::language::job::JOB;
use super::language::{Form, Kind};
use super::tree::{self, YamlKind, YamlNode};
use super::{VERSION, admit};
use crate::diagnostic::Problems;
use crate::source::Sources;

/// A value of a file, as it was written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Written {
    /// A text, without its quotes; an empty one if nothing was written.
    Text(String),
    /// A list.
    List(Vec<Written>),
    /// Keys and values, in the order of the file.
    Map(Vec<(String, Written)>),
}

/// The values of a job's file; `None` if it cannot be read as keys and values at all.
pub fn read_written(text: &str) -> Option<Written> {
    let (mut sources, mut problems) = (Sources::default(), Problems::default());
    let file = admit("", text.as_bytes().to_owned(), &mut sources, &mut problems).ok()?;
    let root = tree::read(file, &sources.file(file).text, &mut problems).ok()?;
    let written = written(&root);
    matches!(written, Written::Map(_)).then_some(written)
}

fn written(node: &YamlNode) -> Written {
    match &node.kind {
        YamlKind::Text(text) => Written::Text(text.clone()),
        YamlKind::Nothing | YamlKind::Refused => Written::Text(String::new()),
        YamlKind::List(items) => Written::List(items.iter().map(written).collect()),
        YamlKind::Map(entries) => {
            let entry = |entry: &tree::Entry| (entry.key.value.clone(), written(&entry.value));
            Written::Map(entries.iter().map(entry).collect())
        }
    }
}

/// A job's file that holds these values, with the keys in the order of the language. Values that are empty are
/// left out.
pub fn write_job(values: &Written) -> String {
    let mut text = format!("lidsheet: {VERSION}\n");
    let Written::Map(entries) = values else { return text };
    for (key, value) in in_order(entries, Some(&JOB)) {
        if key == "lidsheet" || is_empty(value) {
            continue;
        }
        text.push_str(&scalar(key, false));
        text.push(':');
        let form = form_of(Some(&JOB), key);
        match value {
            Written::List(items) => {
                for item in items {
                    text.push_str("\n  - ");
                    push_flow(&mut text, item, form);
                }
            }
            value => {
                text.push(' ');
                push_flow(&mut text, value, form);
            }
        }
        text.push('\n');
    }
    text
}

/// The form of what stands under a key.
fn form_of(form: Option<&'static Form>, key: &str) -> Option<&'static Form> {
    let found = form?.keys.iter().find(|it| it.name == key)?;
    form_in(&found.kind)
}

fn form_in(kind: &Kind) -> Option<&'static Form> {
    match kind {
        Kind::Form(form) => Some(form),
        Kind::List(item, ..) => form_in(item),
        Kind::Either(kinds) => kinds.iter().find_map(form_in),
        _ => None,
    }
}

/// Entries in the order of the language; those that it does not know come last, as they are.
fn in_order<'a>(
    entries: &'a [(String, Written)],
    form: Option<&'static Form>,
) -> Vec<(&'a str, &'a Written)> {
    let mut all: Vec<_> = entries.iter().map(|(key, value)| (key.as_str(), value)).collect();
    let place = |key: &str| form.and_then(|form| form.keys.iter().position(|it| it.name == key));
    all.sort_by_key(|(key, _)| place(key).unwrap_or(usize::MAX));
    all
}

fn is_empty(value: &Written) -> bool {
    match value {
        Written::Text(text) => text.is_empty(),
        Written::List(_) => false,
        Written::Map(entries) => entries.iter().all(|(_, value)| is_empty(value)),
    }
}

/// A value in one line.
fn push_flow(to: &mut String, value: &Written, form: Option<&'static Form>) {
    match value {
        Written::Text(text) => to.push_str(&scalar(text, true)),
        Written::List(items) => {
            to.push('[');
            for (index, item) in items.iter().enumerate() {
                to.push_str(if index == 0 { "" } else { ", " });
                push_flow(to, item, form);
            }
            to.push(']');
        }
        Written::Map(entries) => {
            let mut between = "{ ";
            for (key, value) in in_order(entries, form) {
                if is_empty(value) {
                    continue;
                }
                to.push_str(between);
                between = ", ";
                to.push_str(&scalar(key, false));
                to.push_str(": ");
                push_flow(to, value, form_of(form, key));
            }
            to.push_str(if between == "{ " { "{}" } else { " }" });
        }
    }
}

/// A text as YAML: plain where nothing in it can be taken for anything else, else in quotes.
fn scalar(text: &str, is_value: bool) -> String {
    let plain = |c: char| c.is_alphanumeric() || matches!(c, ' ' | '.' | '/' | '_' | '-');
    // To other readers of YAML these are no texts.
    let word = text.to_lowercase();
    let special = ["null", "true", "false", "yes", "no", "on", "off", "y", "n"];
    let quoted = text.is_empty()
        || !text.chars().all(plain)
        || text.starts_with(['-', ' '])
        || text.ends_with(' ')
        || is_value && special.contains(&word.as_str());
    if !quoted {
        return text.to_owned();
    }
    let mut to = String::from("\"");
    for c in text.chars() {
        match c {
            '"' => to.push_str("\\\""),
            '\\' => to.push_str("\\\\"),
            // Line ends of YAML or of Unicode, and what no file may hold.
            c if c.is_control() || matches!(c, '\u{2028}' | '\u{2029}' | '\u{feff}') => {
                // Writing to a string cannot fail.
                let _ = write!(to, "\\U{:08X}", c as u32);
            }
            c => to.push(c),
        }
    }
    to.push('"');
    to
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    const JOB_TEXT: &str = "\
lidsheet: 1
job: 2231
board: ../heron-8.yaml
for: \"Mill Lane spa, deck side\"
supply: four-wire
breaker: 50 A
supply run: { length: 18 m, conductor: 8 AWG copper }
equipment:
  - { device: pump, speeds: 2, volts: 240, amps: { low: 3.1, high: 10.8 } }
  - { device: pump, speeds: 1, volts: 240, hp: 1 1/2 }
";

    #[test]
    fn a_job_is_written_as_people_write_it() {
        let read = read_written(JOB_TEXT).unwrap();
        assert_eq!(write_job(&read), JOB_TEXT);
    }

    #[test]
    fn keys_come_in_the_order_of_the_language_and_empty_values_not_at_all() {
        let text = |text: &str| Written::Text(text.to_owned());
        let map = |entries: &[(&str, Written)]| {
            let own = entries.iter().map(|(key, value)| ((*key).to_owned(), value.clone()));
            Written::Map(own.collect())
        };
        let device = map(&[("volts", text("240")), ("cord", text("")), ("device", text("light"))]);
        let job = map(&[
            ("equipment", Written::List(vec![device])),
            ("marked", map(&[("largest breaker", text(""))])),
            ("stray", text("x: y")),
            ("job", text("no")),
        ]);
        let wanted = "lidsheet: 1\njob: \"no\"\nequipment:\n  - { device: light, volts: 240 }\n\
                      stray: \"x: y\"\n";
        assert_eq!(write_job(&job), wanted);
    }

    #[test]
    fn what_holds_no_keys_is_none() {
        assert_eq!(read_written("- a\n- b\n"), None);
        assert_eq!(read_written("a: [\n"), None);
        assert_eq!(read_written(""), None);
    }

    proptest! {
        /// Whatever somebody types is read back as it was typed.
        #[test]
        fn every_text_comes_back(name in "\\PC{1,60}|[ -~]{1,40}|[\"'\\\\:#{}\\[\\],&*!|>%@`~-]{1,12}") {
            let job = Written::Map(vec![
                ("job".to_owned(), Written::Text(name.clone())),
                ("for".to_owned(), Written::Map(vec![("inner".to_owned(), Written::Text(name))])),
            ]);
            let text = write_job(&job);
            let Some(Written::Map(read)) = read_written(&text) else { panic!("{text}") };
            let Written::Map(wanted) = job else { unreachable!() };
            prop_assert_eq!(&read[1..], wanted.as_slice(), "{}", text);
        }
    }
}
