//! Where finished sheets show what, for a sheet about them.

use crate::page::Pages;
use crate::scene;
use crate::sheet::{Printed, PrintedPage, PrintedSection};

/// The sections of some sheets, and the words on each page.
pub fn printed(pages: &Pages) -> Printed {
    let mut printed = Printed::default();
    for (page, found) in pages.pages.iter().enumerate() {
        let mut anchors = Vec::new();
        scene::anchors(&found.items, &mut anchors);
        for heading in pages.headings.iter().filter(|it| it.level == 1 && it.page == page) {
            let title = heading.text.clone();
            printed.sections.push(PrintedSection { title, anchors: Vec::new(), first: page + 1 });
        }
        // Anchors above the first section belong to no section; those of a page to its last one.
        if let Some(section) = printed.sections.last_mut() {
            section.anchors.extend(anchors);
        }
        let boxes = found.text_boxes();
        let words = boxes.iter().flat_map(|(_, text)| text.split_whitespace());
        let bare = |word: &str| word.trim_matches(|c: char| !c.is_alphanumeric()).to_owned();
        printed.pages.push(PrintedPage { words: words.map(bare).collect() });
    }
    printed
}
