//! Problems as a log of SARIF 2.1.0, the OASIS standard for what programs find in a source.

use std::collections::BTreeSet;
use std::path::Path;

use serde_json::{Value, json};

use super::{STANDARD_INPUT, Shown, harmless, relative, words};
use crate::cli::Status;
use crate::diagnostic::{Code, Edit, Label, explain, page};
use crate::source::{Sources, Span};

const SCHEMA: &str =
    "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json";
/// The folder that paths begin at.
const BASE: &str = "%SRCROOT%";

/// The log of one run. `here` is the folder that it ran in; nothing of it stands in the log.
pub fn log(all: &[Shown<'_>], with_accepted: bool, status: Status, here: &Path) -> Value {
    let codes: BTreeSet<Code> = all.iter().map(|shown| shown.problem.code).collect();
    let codes: Vec<Code> = codes.into_iter().collect();
    let rules: Vec<Value> = codes.iter().map(|code| rule(*code)).collect();
    let results: Vec<Value> = all
        .iter()
        .map(|shown| {
            let mut result = result(shown, here);
            let index = codes.iter().position(|code| *code == shown.problem.code);
            result["ruleIndex"] = json!(index);
            if with_accepted {
                // Where one result says whether it is suppressed, all of them must.
                let reasons = shown.accepted.iter();
                let one = |why: &String| json!({"kind": "inSource", "justification": why});
                result["suppressions"] = reasons.map(one).collect();
            }
            result
        })
        .collect();
    let version = env!("CARGO_PKG_VERSION");
    json!({
        "$schema": SCHEMA,
        "version": "2.1.0",
        "runs": [{
            "tool": {"driver": {
                "name": "lidsheet",
                "version": version,
                "semanticVersion": version,
                "rules": rules,
            }},
            // As `Sources` counts.
            "columnKind": "unicodeCodePoints",
            "originalUriBaseIds": {
                BASE: {"description": {"text": "the folder that the program ran in"}},
            },
            "invocations": [{
                "executionSuccessful": status != Status::Trouble,
                "exitCode": status.number(),
            }],
            "results": results,
        }],
    })
}

/// A code with its page of the catalogue. There is no web page of it, so no `helpUri`.
fn rule(code: Code) -> Value {
    let page = page(code);
    let first = page.text.split("\n\n").next().unwrap_or(page.text);
    json!({
        "id": code.text(),
        "shortDescription": {"text": page.title},
        "fullDescription": {"text": first.replace('\n', " ")},
        "help": {"text": page.text, "markdown": explain(code)},
        "defaultConfiguration": {"level": code.severity().word()},
    })
}

fn result(shown: &Shown<'_>, here: &Path) -> Value {
    let Shown { problem, sources, .. } = shown;
    let place = |label: &Label| place(label, sources, here);
    let mut result = json!({
        "ruleId": problem.code.text(),
        "level": problem.code.severity().word(),
        "rank": f64::from(problem.code.risk().rank()),
        "message": message(&words(problem, here)),
    });
    let location = match (&problem.primary, &problem.file) {
        (Some(label), _) => Some(place(label)),
        (None, Some(file)) if !file.is_empty() => {
            Some(json!({"physicalLocation": {"artifactLocation": artifact(file, here)}}))
        }
        (None, _) => None,
    };
    if let Some(location) = location {
        result["locations"] = json!([location]);
    }
    if !problem.others.is_empty() {
        let related = problem.others.iter().enumerate().map(|(index, label)| {
            let mut place = place(label);
            place["id"] = json!(index);
            place
        });
        result["relatedLocations"] = related.collect();
    }
    if let Some(help) = &problem.help
        && let Some(edit) = &help.edit
    {
        result["fixes"] = json!([fix(&help.text, edit, sources, here)]);
    }
    result
}

fn place(label: &Label, sources: &Sources, here: &Path) -> Value {
    let mut place = json!({
        "physicalLocation": {
            "artifactLocation": artifact(&sources.file(label.span.file).name, here),
            "region": region(label.span, sources),
        },
    });
    if !label.text.is_empty() {
        place["message"] = message(&harmless(&label.text, here));
    }
    place
}

fn region(span: Span, sources: &Sources) -> Value {
    let (line, column) = sources.file(span.file).position(span.start);
    let (end_line, end_column) = sources.end(span);
    json!({"startLine": line, "startColumn": column, "endLine": end_line, "endColumn": end_column})
}

/// An edit; `properties.kind` tells whether it is one of spelling or needs a person.
fn fix(text: &str, edit: &Edit, sources: &Sources, here: &Path) -> Value {
    json!({
        "description": message(&harmless(text, here)),
        "artifactChanges": [{
            "artifactLocation": artifact(&sources.file(edit.span.file).name, here),
            "replacements": [{
                "deletedRegion": region(edit.span, sources),
                "insertedContent": {"text": edit.text},
            }],
        }],
        "properties": {"kind": edit.kind.word()},
    })
}

fn artifact(name: &str, here: &Path) -> Value {
    if name == STANDARD_INPUT {
        return json!({"description": {"text": STANDARD_INPUT}});
    }
    json!({"uri": uri(&relative(name, here)), "uriBaseId": BASE})
}

/// A path as a relative reference of RFC 3986.
fn uri(path: &str) -> String {
    let mut uri = String::new();
    for byte in path.bytes() {
        if byte.is_ascii_alphanumeric() || b"-._~/".contains(&byte) {
            uri.push(char::from(byte));
        } else {
            uri.push_str(&format!("%{byte:02X}"));
        }
    }
    uri
}

/// A message in plain text. It has no arguments, so curly brackets are themselves; square ones before
/// round ones would be a link, and a specification may come from anybody.
fn message(text: &str) -> Value {
    json!({"text": text.replace("](", "] (")})
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_path_is_a_relative_reference() {
        assert_eq!(uri("specs/a b:c%ä.yaml"), "specs/a%20b%3Ac%25%C3%A4.yaml");
        assert_eq!(uri("../x~y_1-2.yaml"), "../x~y_1-2.yaml");
    }

    #[test]
    fn no_text_of_a_file_becomes_a_link() {
        assert_eq!(message("[here](http)")["text"], "[here] (http)");
    }
}
