//! Going through a file by the language: what each key and each value in it is.
//!
//! It reports nothing and takes whatever can be read, so that an editor gets help in a file that is
//! not whole yet.

use super::language::{Form, Key, Kind, Thing};
use super::tree::{Entry, YamlKind, YamlNode};
use crate::source::Span;

/// What is come upon in a file.
#[derive(Clone, Copy, Debug)]
pub enum Item<'n> {
    /// A map whose keys the language fixes.
    Map(&'static Form, &'n YamlNode),
    /// An entry of such a map.
    Entry(&'static Form, &'static Key, &'n Entry),
    /// An entry of such a map whose key the form does not know.
    Strange(&'static Form, &'n Entry),
    /// A thing under the name that the file gives it.
    Thing(Thing, &'static Form, &'n Entry),
    /// A value, or a key that is a value: its kind, its text, its place.
    Value(&'static Kind, &'n str, Span),
    /// A place where a value of that kind belongs and nothing stands.
    Nothing(&'static Kind, Span),
}

/// Goes through `node`, which is of one of `kinds`, from the top down.
pub fn walk<'n>(node: &'n YamlNode, kind: &'static Kind, visit: &mut dyn FnMut(Item<'n>)) {
    match (kind, &node.kind) {
        (Kind::Either(kinds), _) => {
            if let Some(kind) = kinds.iter().find(|kind| suits(kind, node)) {
                walk(node, kind, visit);
            }
        }
        (Kind::Form(form), _) => walk_form(node, form, visit),
        (Kind::Things(thing, form, _), YamlKind::Map(entries)) => {
            for entry in entries {
                visit(Item::Thing(*thing, form, entry));
                walk_form(&entry.value, form, visit);
            }
        }
        (Kind::Map(key, value, ..), YamlKind::Map(entries)) => {
            for entry in entries {
                visit(Item::Value(key, &entry.key.value, entry.key.span));
                walk(&entry.value, value, visit);
            }
        }
        (Kind::List(of, ..), YamlKind::List(items)) => {
            for item in items {
                walk(item, of, visit);
            }
        }
        // Words by language.
        (Kind::Title(_) | Kind::Prose(_), YamlKind::Map(entries)) => {
            for entry in entries {
                walk(&entry.value, kind, visit);
            }
        }
        (_, YamlKind::Text(text)) => visit(Item::Value(kind, text, node.span)),
        (_, YamlKind::Nothing) => visit(Item::Nothing(kind, node.span)),
        _ => {}
    }
}

/// Goes through `node`, a map of that form.
pub fn walk_form<'n>(node: &'n YamlNode, form: &'static Form, visit: &mut dyn FnMut(Item<'n>)) {
    let YamlKind::Map(entries) = &node.kind else { return };
    visit(Item::Map(form, node));
    for entry in entries {
        let Some(key) = form.key(&entry.key.value) else {
            visit(Item::Strange(form, entry));
            continue;
        };
        visit(Item::Entry(form, key, entry));
        walk(&entry.value, &key.kind, visit);
    }
}

/// Whether a value of that kind has the shape of `node`. A text has the shape of the first kind that
/// is written as one.
fn suits(kind: &Kind, node: &YamlNode) -> bool {
    let is_map = matches!(kind, Kind::Form(_) | Kind::Map(..) | Kind::Things(..));
    let is_list = matches!(kind, Kind::List(..) | Kind::Place | Kind::Size);
    match &node.kind {
        YamlKind::Map(_) => is_map,
        YamlKind::List(_) => is_list,
        YamlKind::Text(text) => match kind {
            Kind::Exactly(word) => text.trim() == *word,
            _ => !is_map && !is_list,
        },
        YamlKind::Nothing => !matches!(kind, Kind::Exactly(_) | Kind::Table),
        YamlKind::Refused => false,
    }
}
