//! The language as a JSON Schema (draft 2020-12), for editors and other programs.
//!
//! It says less than the compiler: what it refuses the compiler refuses, but names, ranges behind a
//! unit and everything that depends on another value are left to `lidsheet check`. The one thing that it
//! refuses and the compiler takes is a word of a list between quotes with blanks around it.

use std::collections::BTreeMap;

use serde_json::{Map, Value, json};

use super::samples::example;
use super::values::{default_of, value};
use crate::board::vocabulary;
use crate::spec::language::{Form, Key, Kind, LARGEST, Range, Words};

/// The schema of a file whose outermost map is of that form.
pub fn schema(form: &'static Form) -> Value {
    let mut forms = BTreeMap::new();
    let mut schema = of_form(form, &mut forms);
    if let Value::Object(map) = &mut schema {
        map.insert("$schema".into(), json!("https://json-schema.org/draft/2020-12/schema"));
        map.insert("title".into(), json!(format!("Lidsheet {}, version 1", form.name)));
        map.insert("$defs".into(), Value::Object(forms.into_iter().collect()));
    }
    schema
}

fn of_form(form: &'static Form, forms: &mut BTreeMap<String, Value>) -> Value {
    let properties: Map<String, Value> =
        form.keys.iter().map(|key| (key.name.to_owned(), of_key(form, key, forms))).collect();
    let required: Vec<&str> = form.required().collect();
    json!({
        "type": "object",
        "description": form.says,
        "properties": properties,
        "required": required,
        "additionalProperties": false,
    })
}

fn of_key(form: &Form, key: &'static Key, forms: &mut BTreeMap<String, Value>) -> Value {
    let mut schema = of_kind(&key.kind, forms);
    if let Value::Object(map) = &mut schema {
        let without = default_of(key).map(|it| format!(" Without it: {it}.")).unwrap_or_default();
        let what = value(&key.kind);
        map.insert("description".into(), json!(format!("{} ({what}){without}", key.says)));
        if let Some(example) = example(form, key).filter(|it| !it.contains(['\n', '{', '['])) {
            map.insert("examples".into(), json!([example]));
        }
    }
    schema
}

fn of_kind(kind: &'static Kind, forms: &mut BTreeMap<String, Value>) -> Value {
    match kind {
        Kind::Version => json!({ "enum": [1, "1"] }),
        Kind::Line(most) => line(*most),
        Kind::Title(most) | Kind::Prose(most) => {
            let words = line(*most);
            json!({ "anyOf": [
                words,
                { "type": "object", "minProperties": 1, "additionalProperties": line(*most) },
            ] })
        }
        Kind::Quantity(Range { unit, .. }) => pattern(&format!("^\\s*{NUMBER}\\s*{unit}\\s*$")),
        Kind::Number(range) => number(range),
        Kind::Horsepower(range) => json!({ "anyOf": [
            number(range),
            { "type": "string", "pattern": "^\\s*([0-9]+(\\.[0-9]+)?\\s+)?[0-9]+/[0-9]+\\s*$" },
        ] }),
        Kind::Run(_) => pattern(&format!("^\\s*{NUMBER}\\s*(m|ft)\\s*$")),
        Kind::Whole(least, most) => json!({ "anyOf": [
            { "type": "integer", "minimum": least, "maximum": most },
            { "type": "string", "pattern": "^\\s*[0-9]{1,3}\\s*$" },
        ] }),
        Kind::Truth => json!({ "enum": [true, false, "true", "false"] }),
        Kind::Side => json!({ "enum": ["up", "right", "down", "left"] }),
        Kind::Place => pair(0.0),
        Kind::Size => pair(1.0),
        Kind::Date => pattern("^\\s*[0-9]{4}-[0-9]{2}-[0-9]{2}\\s*$"),
        Kind::System => pattern("^\\s*(single-phase|split-phase|wye) .*V\\s*$"),
        Kind::Wire => pattern("(AWG|mm2|mm\u{b2})\\s*(copper|aluminum|aluminium)\\s*$"),
        Kind::Word(words) => word(*words),
        Kind::Name(_) | Kind::Table | Kind::Path | Kind::PositionName => scalar(),
        Kind::Layouts => pattern_of(SET),
        Kind::Layout => pattern_of("^\\s*[0-9]{1,3}\\s*$"),
        Kind::LayoutOrNone => pattern_of("^\\s*([0-9]{1,3}|no layout)\\s*$"),
        Kind::Ways => pattern_of("^\\s*[0-9]{1,2}(\\s*-\\s*[0-9]{1,2})?\\s*$"),
        // A program that reads YAML 1.1 takes a single `off` for `false`.
        Kind::Positions => json!({ "anyOf": [
            { "type": "boolean" },
            { "type": "string", "pattern": "^\\s*(on|off)(\\s+(on|off))*\\s*$" },
        ] }),
        Kind::Speeds => json!({ "enum": [0, 1, 2, "0", "1", "2"] }),
        Kind::Letters => pattern("^\\s*[A-Z]{1,3}\\s*$"),
        Kind::Code => pattern_of("^\\s*L[0-9]{3}\\s*$"),
        Kind::Exactly(word) => json!({ "const": word }),
        Kind::List(of, least, most) => {
            let mut list = json!({ "type": "array", "items": of_kind(of, forms) });
            bounds(&mut list, ["minItems", "maxItems"], *least, *most);
            list
        }
        Kind::Map(key, of, least, most) => {
            let mut map = json!({ "type": "object", "additionalProperties": of_kind(of, forms) });
            if let Some(names) = name_of(key)
                && let Value::Object(map) = &mut map
            {
                map.insert("propertyNames".into(), names);
            }
            bounds(&mut map, ["minProperties", "maxProperties"], *least, *most);
            map
        }
        Kind::Things(_, form, most) => json!({
            "type": "object",
            "propertyNames": { "pattern": NAME },
            "additionalProperties": reference(form, forms),
            "maxProperties": most,
        }),
        Kind::Form(form) => reference(form, forms),
        Kind::Either(kinds) => {
            let any: Vec<Value> = kinds.iter().map(|kind| of_kind(kind, forms)).collect();
            json!({ "anyOf": any })
        }
    }
}

/// The form once under `$defs`, and where it stands.
fn reference(form: &'static Form, forms: &mut BTreeMap<String, Value>) -> Value {
    if !forms.contains_key(form.name) {
        // Its place is taken first, so that a form could hold itself.
        forms.insert(form.name.to_owned(), Value::Null);
        let schema = of_form(form, forms);
        forms.insert(form.name.to_owned(), schema);
    }
    json!({ "$ref": format!("#/$defs/{}", form.name.replace(' ', "%20")) })
}

/// A plain decimal number.
const NUMBER: &str = "[0-9]+(\\.[0-9]+)?";
/// Layouts and ranges of them.
const SET: &str =
    "^\\s*[0-9]{1,3}\\s*(-\\s*[0-9]{1,3}\\s*)?(,\\s*[0-9]{1,3}\\s*(-\\s*[0-9]{1,3}\\s*)?)*$";
/// A name that the file gives.
const NAME: &str = "^[\\p{L}\\p{N}][\\p{L}\\p{M}\\p{N}_. -]{0,23}$";

/// Any single value: the compiler reads it as a text, however another program takes it.
fn scalar() -> Value {
    json!({ "type": ["string", "number", "boolean"] })
}

/// A text of at most so many characters without the blanks around it.
fn line(most: usize) -> Value {
    json!({
        "type": ["string", "number", "boolean"],
        "pattern": format!("^\\s*\\S(?:[\\s\\S]{{0,{}}}\\S)?\\s*$", most.saturating_sub(2)),
    })
}

fn pattern(pattern: &str) -> Value {
    json!({ "type": "string", "pattern": pattern })
}

/// A text of that pattern, or a number, which another program takes it for.
fn pattern_of(pattern: &str) -> Value {
    json!({ "type": ["string", "number"], "pattern": pattern })
}

fn number(range: &Range) -> Value {
    json!({ "anyOf": [
        { "type": "number", "minimum": range.least, "maximum": range.most },
        { "type": "string", "pattern": format!("^\\s*{NUMBER}\\s*$") },
    ] })
}

fn pair(least: f64) -> Value {
    let one = number(&Range { least, most: LARGEST, unit: "mm" });
    json!({ "type": "array", "items": one, "minItems": 2, "maxItems": 2 })
}

fn word(words: Words) -> Value {
    let known: Vec<&str> = vocabulary(words).iter().map(|(word, _)| *word).collect();
    match words {
        Words::Terminals => json!({ "anyOf": [
            { "enum": known },
            { "type": "string", "pattern": "^\\s*(60|75)\\s*\u{b0}?\\s*C\\s*$" },
        ] }),
        // A board may have devices of its own.
        Words::Device | Words::Fitted => json!({ "anyOf": [{ "enum": known }, scalar()] }),
        _ => json!({ "enum": known }),
    }
}

/// What the keys of a map must look like, where the schema can say it.
fn name_of(key: &'static Kind) -> Option<Value> {
    match key {
        Kind::Name(_) => None,
        _ => {
            let schema = of_kind(key, &mut BTreeMap::new());
            let pattern = schema.get("pattern").cloned();
            let words = schema.get("enum").cloned();
            match (pattern, words, key) {
                (_, _, Kind::Positions) => {
                    Some(json!({ "pattern": "^\\s*(on|off|true|false)(\\s+(on|off))*\\s*$" }))
                }
                (Some(pattern), ..) => Some(json!({ "pattern": pattern })),
                (_, Some(words), _) => Some(json!({ "enum": words })),
                _ => None,
            }
        }
    }
}

fn bounds(schema: &mut Value, names: [&str; 2], least: usize, most: usize) {
    let Value::Object(map) = schema else { return };
    let [min, max] = names;
    if least > 0 {
        map.insert(min.into(), json!(least));
    }
    if most < usize::MAX {
        map.insert(max.into(), json!(most));
    }
}
