//! The forms of a device's name, and lists: what phrases say with `DEVICE(…)`.
//!
//! A language says in `devices.ftl` what a device is called, with an attribute for each other form
//! that its sentences need: `.the` with the article, in some languages one for each case. A phrase
//! asks for it: `{ DEVICE($device, form: "the") }`. Several devices are listed; `join: "or"` lists
//! them with *or* in place of *and*.

use std::borrow::Cow;
use std::collections::BTreeMap;

use fluent_bundle::concurrent::FluentBundle;
use fluent_bundle::{FluentArgs, FluentError, FluentResource, FluentValue};
use fluent_syntax::ast::{Entry, Expression, InlineExpression, Pattern, PatternElement};

use super::Words;
use super::key::phrases;
use crate::board::Device;

/// Stands where a form is asked for that a device does not have.
pub const UNKNOWN: char = '\u{fffd}';

phrases! {
    /// A list of two things.
    and_two(first: &str, second: &str);
    /// A list of three or more: all but the last, then the last.
    and_last(rest: &str, last: &str);
    /// A choice of two things.
    or_two(first: &str, second: &str);
    /// A choice of three or more: all but the last, then the last.
    or_last(rest: &str, last: &str);
    /// A list without a word before the last.
    comma(first: &str, rest: &str);
    /// A device's name, as a head or in a table.
    device_name(device: Device);
    /// A device in a sentence, with its article.
    the_device(device: Device);
}

/// The texts that the function needs, read off the files before the bundle is made.
#[derive(Clone, Debug, Default)]
pub struct Forms {
    /// By key, or key and attribute: `device_blower.the`. A value is left as `{ $name }`.
    texts: BTreeMap<String, String>,
}

impl Forms {
    /// Reads the plain texts of the files: those without choices, references or functions.
    pub fn of(files: &[FluentResource]) -> Self {
        let mut texts = BTreeMap::new();
        for entry in files.iter().flat_map(FluentResource::entries) {
            let Entry::Message(message) = entry else { continue };
            let name = message.id.name;
            if let Some(text) = message.value.as_ref().and_then(plain) {
                texts.insert(name.to_owned(), text);
            }
            for attribute in &message.attributes {
                if let Some(text) = plain(&attribute.value) {
                    texts.insert(format!("{name}.{}", attribute.id.name), text);
                }
            }
        }
        Self { texts }
    }

    /// The text of a key; empty if it is not there.
    pub fn text(&self, key: &str) -> String {
        self.texts.get(key).cloned().unwrap_or_default()
    }

    /// Gives a bundle the function.
    ///
    /// # Errors
    /// The bundle has a function of that name.
    pub fn into_function(
        self,
        bundle: &mut FluentBundle<FluentResource>,
    ) -> Result<(), FluentError> {
        bundle.add_function("DEVICE", move |positional, named| match positional {
            [FluentValue::String(devices)] => self.devices(devices, named).into(),
            _ => FluentValue::Error,
        })
    }

    fn devices(&self, devices: &str, named: &FluentArgs<'_>) -> String {
        let text = |name| match named.get(name) {
            Some(FluentValue::String(text)) => Some(text.as_ref()),
            _ => None,
        };
        let (form, join) = (text("form"), text("join"));
        if devices.is_empty() {
            return String::new();
        }
        let all: Vec<String> = devices.split('|').map(|device| self.device(device, form)).collect();
        self.listed(&all, if join == Some("or") { "or" } else { "and" })
    }

    fn device(&self, device: &str, form: Option<&str>) -> String {
        let (kind, number) = match device.split_once(' ') {
            Some((kind, number)) => (kind, number),
            None => (device, ""),
        };
        let key = match form {
            Some(form) => format!("device_{kind}.{form}"),
            None => format!("device_{kind}"),
        };
        match self.texts.get(&key) {
            Some(text) => text.replace("{ $number }", number),
            None => UNKNOWN.to_string(),
        }
    }

    /// A list of texts with `and` or `or`.
    fn listed(&self, all: &[String], join: &str) -> String {
        let put = |key: &str, values: [(&str, &str); 2]| {
            let mut text = self.text(key);
            for (name, value) in values {
                text = text.replace(&format!("{{ ${name} }}"), value);
            }
            text
        };
        match all {
            [] => String::new(),
            [only] => only.clone(),
            [first, second] => put(
                &format!("{join}_two"),
                [("first", first.as_str()), ("second", second.as_str())],
            ),
            [first, middle @ .., last] => {
                let rest = middle.iter().fold(first.clone(), |rest, next| {
                    put("comma", [("first", rest.as_str()), ("rest", next.as_str())])
                });
                put(&format!("{join}_last"), [("rest", rest.as_str()), ("last", last.as_str())])
            }
        }
    }
}

/// The text of a pattern that holds nothing but text and values.
fn plain(pattern: &Pattern<&str>) -> Option<String> {
    let mut text = String::new();
    for element in &pattern.elements {
        match element {
            PatternElement::TextElement { value } => text.push_str(value),
            PatternElement::Placeable {
                expression: Expression::Inline(InlineExpression::VariableReference { id }),
            } => text.push_str(&format!("{{ ${} }}", id.name)),
            PatternElement::Placeable {
                expression: Expression::Inline(InlineExpression::StringLiteral { value }),
            } => text.push_str(&unescaped(value)),
            PatternElement::Placeable { .. } => return None,
        }
    }
    Some(text)
}

fn unescaped(text: &str) -> Cow<'_, str> {
    fluent_syntax::unicode::unescape_unicode_to_string(text)
}

/// Whether the function reads this key by itself.
pub fn is_form(name: &str) -> bool {
    name.starts_with("device_") || matches!(name, "language_tag" | "decimal_mark" | "checked_by")
}

/// Whether a text has a phrase that uses the phrase `name`.
pub fn refers(text: &str, name: &str) -> bool {
    text.match_indices(name).any(|(at, _)| {
        let before = text.get(..at).unwrap_or_default().trim_end();
        let after = text.get(at + name.len()..).unwrap_or_default().trim_start();
        before.ends_with('{') && after.starts_with(['}', '-', '.'])
    })
}

impl Words {
    /// `a`, `a and b`, `a, b and c`.
    pub fn and(&self, all: &[String]) -> String {
        self.list(all, Self::and_two, Self::and_last)
    }

    /// `a`, `a or b`, `a, b or c`.
    pub fn or(&self, all: &[String]) -> String {
        self.list(all, Self::or_two, Self::or_last)
    }

    /// `a, b, c`.
    pub fn commas(&self, all: &[String]) -> String {
        match all.split_first() {
            None => String::new(),
            Some((first, rest)) => {
                rest.iter().fold(first.clone(), |listed, next| self.comma(&listed, next))
            }
        }
    }

    fn list(
        &self,
        all: &[String],
        two: fn(&Self, &str, &str) -> String,
        last: fn(&Self, &str, &str) -> String,
    ) -> String {
        match all {
            [] => String::new(),
            [only] => only.clone(),
            [first, second] => two(self, first, second),
            [rest @ .., end] => last(self, &self.commas(rest), end),
        }
    }
}
