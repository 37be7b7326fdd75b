//! All words for people in a specification, and the languages that they are given in.

use super::model::{Spec, Use, Ways};
use super::wording::Wording;
use crate::source::Spanned;

/// Words of a specification, and what a person calls them.
pub struct Worded<'a> {
    /// `` the title of header J8 ``.
    pub what: String,
    /// The words.
    pub wording: &'a Wording,
}

/// Goes through all words for people, by reference or by mutable reference.
macro_rules! each {
    ($spec:ident, $iter:ident, $value:ident, $take:expr) => {{
        #[allow(unused_mut)]
        let mut take = $take;
        if let Some(summary) = $spec.about.summary.$value() {
            take("the summary".to_owned(), summary);
        }
        each!(@titles $spec.parts, "part", $iter, $value, take);
        each!(@titles $spec.supplies, "supply", $iter, $value, take);
        each!(@titles $spec.sockets, "socket family", $iter, $value, take);
        each!(@titles $spec.headers, "header", $iter, $value, take);
        for bank in $spec.switches.entries.$iter() {
            let code = &bank.name.value;
            for ways in bank.ways.entries.$iter() {
                let Ways { name, purpose: Use::Field(field) } = ways else { continue };
                let what = |key: &str| format!("{key} of way {} of {code}", name.value);
                if let Some(title) = field.title.$value() {
                    take(what("the title"), title);
                }
                if let Some(meaning) = field.when_off.$value() {
                    take(what("`when off`"), meaning);
                }
                if let Some(meaning) = field.when_on.$value() {
                    take(what("`when on`"), meaning);
                }
                if let Some(settings) = field.settings.$value() {
                    for (positions, Spanned { value: meaning, .. }) in settings.$iter() {
                        take(what(&format!("`{}`", positions.value)), meaning);
                    }
                }
            }
        }
        each!(@titles $spec.panels, "panel", $iter, $value, take);
        for panel in $spec.panels.entries.$iter() {
            if let Some(steps) = panel.choose_layout.$value() {
                take(format!("the steps of panel {}", panel.name.value), steps);
            }
        }
    }};
    (@titles $section:expr, $one:literal, $iter:ident, $value:ident, $take:ident) => {
        for thing in $section.entries.$iter() {
            if let Some(title) = thing.title.$value() {
                $take(format!(concat!("the title of ", $one, " {}"), thing.name.value), title);
            }
        }
    };
}

impl Spec {
    /// The specification as it speaks the language of a tag: where words lack it, with the first that are
    /// given.
    pub fn spoken_in(&self, tag: &str) -> Self {
        let mut spoken = self.clone();
        each!(spoken, iter_mut, value_mut, |_: String, wording: &mut Wording| wording.speak(tag));
        spoken
    }

    /// All words for people, in their order.
    pub fn wordings(&self) -> Vec<Worded<'_>> {
        let mut all = Vec::new();
        each!(self, iter, value, |what: String, wording| all.push(Worded { what, wording }));
        all
    }

    /// The languages that words are given in, each once, in their order.
    pub fn languages(&self) -> Vec<String> {
        let mut all: Vec<String> = Vec::new();
        for Worded { wording, .. } in self.wordings() {
            for (tag, _) in wording.by_language() {
                if !all.contains(&tag.value) {
                    all.push(tag.value.clone());
                }
            }
        }
        all
    }

    /// The languages of the words that stand in where those of the language that is spoken are lacking,
    /// each once.
    pub fn stand_ins(&self) -> Vec<String> {
        let mut all: Vec<String> = Vec::new();
        for Worded { wording, .. } in self.wordings() {
            let tag = wording.language().filter(|_| wording.stands_in());
            if let Some(tag) = tag.filter(|tag| !all.iter().any(|known| known == tag)) {
                all.push(tag.to_owned());
            }
        }
        all
    }
}
