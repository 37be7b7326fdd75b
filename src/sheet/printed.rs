//! Where the wiring sheets show a thing, as a change sheet tells it.

use std::collections::{BTreeMap, BTreeSet};

use crate::meaning::{Kind, Thing};

/// What stands on which page of some sheets.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Printed {
    /// The sections in their order.
    pub sections: Vec<PrintedSection>,
    /// The pages in their order.
    pub pages: Vec<PrintedPage>,
}

/// A section.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PrintedSection {
    /// Its heading.
    pub title: String,
    /// The places in it that links lead to.
    pub anchors: Vec<String>,
    /// The page that it begins on, from 1.
    pub first: usize,
}

/// A page.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct PrintedPage {
    /// The words on it, without marks around them, by the place of the section that they stand in.
    pub words: BTreeMap<usize, BTreeSet<String>>,
}

impl Printed {
    /// The pages that show a thing: those on which its label stands, or the section that is about all
    /// things of its kind where a name is no label. By section, in their order; pages from 1.
    pub fn places(&self, thing: &Thing) -> Vec<(String, Vec<usize>)> {
        match thing.kind {
            Kind::Terminal
            | Kind::Link
            | Kind::Jumper
            | Kind::Fuse
            | Kind::Header
            | Kind::Bank
            | Kind::Selector => self.with_word(&thing.name),
            Kind::Switches => {
                self.with_word(thing.name.rsplit_once(' ').map_or("", |(bank, _)| bank))
            }
            Kind::Group | Kind::Electronics => self.sections(&["plan", "supply", "voltages"]),
            Kind::Supply => self.sections(&["supply", "voltages", "switches"]),
            Kind::Part => self.sections(&["plan"]),
            Kind::Socket => self.sections(&["sockets"]),
            Kind::Layout | Kind::Device => self.sections(&["layouts"]),
            Kind::Heater => self.sections(&["switches"]),
            Kind::Panel => self.sections(&["panel"]),
            // Of a board its highest current is shown, where the supplies are.
            Kind::Board => self.sections(&["supply"]),
            Kind::Job | Kind::Equipment => Vec::new(),
        }
    }

    fn with_word(&self, word: &str) -> Vec<(String, Vec<usize>)> {
        let mut of_section: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
        for (page, found) in (1..).zip(&self.pages) {
            for (section, words) in &found.words {
                if words.contains(word) {
                    of_section.entry(*section).or_default().push(page);
                }
            }
        }
        let titled = |(section, pages): (usize, Vec<usize>)| {
            Some((self.sections.get(section)?.title.clone(), pages))
        };
        of_section.into_iter().filter_map(titled).collect()
    }

    fn sections(&self, anchors: &[&str]) -> Vec<(String, Vec<usize>)> {
        let mut all = Vec::new();
        for (at, section) in self.sections.iter().enumerate() {
            if !section.anchors.iter().any(|anchor| anchors.contains(&anchor.as_str())) {
                continue;
            }
            let on = (1..).zip(&self.pages).filter(|(_, page)| page.words.contains_key(&at));
            let mut pages: Vec<usize> = on.map(|(page, _)| page).collect();
            if pages.is_empty() {
                pages.push(section.first);
            }
            all.push((section.title.clone(), pages));
        }
        all
    }
}

/// Pages in their order as ranges: the first and the last of each.
pub fn page_ranges(pages: &[usize]) -> Vec<[usize; 2]> {
    let mut ranges: Vec<[usize; 2]> = Vec::new();
    for page in pages {
        match ranges.last_mut() {
            Some([_, last]) if *last + 1 == *page => *last = *page,
            _ => ranges.push([*page, *page]),
        }
    }
    ranges
}
