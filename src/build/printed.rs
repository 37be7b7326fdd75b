//! Where finished sheets show what, for a sheet about them.

use crate::page::Pages;
use crate::scene;
use crate::sheet::{Printed, PrintedPage, PrintedSection};

/// Words and anchors that stand by so much above the top of a heading still belong to its section, mm: a
/// large letter rises above the box that its line was given.
const ABOVE: f64 = 1.0;

/// The sections of some sheets, and the words on each page, each under the section that it stands in.
pub fn printed(pages: &Pages) -> Printed {
    let mut printed = Printed::default();
    for (page, found) in pages.pages.iter().enumerate() {
        // The section that goes on from the page before, if one does, and those that begin on this one.
        let mut begun: Vec<(f64, usize)> = printed
            .sections
            .len()
            .checked_sub(1)
            .map(|last| (f64::NEG_INFINITY, last))
            .into_iter()
            .collect();
        for heading in pages.headings.iter().filter(|it| it.level == 1 && it.page == page) {
            let title = heading.text.clone();
            begun.push((heading.at.y - ABOVE, printed.sections.len()));
            printed.sections.push(PrintedSection { title, anchors: Vec::new(), first: page + 1 });
        }
        // Above the first section there is none.
        let section_at = |y: f64| {
            let above = begun.iter().filter(|(top, _)| *top <= y);
            above.max_by(|a, b| a.0.total_cmp(&b.0)).map(|(_, section)| *section)
        };
        for (at, anchor) in scene::anchor_places(&found.items) {
            let section = section_at(at.y).and_then(|at| printed.sections.get_mut(at));
            section.into_iter().for_each(|section| section.anchors.push(anchor.clone()));
        }
        let mut here = PrintedPage::default();
        for (area, text) in found.text_boxes() {
            let Some(section) = section_at(area.top) else { continue };
            let bare = |word: &str| word.trim_matches(|c: char| !c.is_alphanumeric()).to_owned();
            here.words.entry(section).or_default().extend(text.split_whitespace().map(bare));
        }
        printed.pages.push(here);
    }
    printed
}
