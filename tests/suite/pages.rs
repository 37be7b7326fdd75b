//! What must hold for the pages of every sound board, from its text to the PDF.

use crate::compile;
use crate::generate::{self, specimen};
use lidsheet::board::Board;
use lidsheet::diagnostic::Problems;
use lidsheet::document::{Align, Block, Inline, Table, TableKind};
use lidsheet::geometry::Rect;
use lidsheet::page::{Page, Pages, Paper, lay_out};
use lidsheet::scene::Item;
use lidsheet::sheet::{Templates, figures, wiring_sheets};
use lidsheet::source::Sources;
use lidsheet::text::Typesetter;
use lidsheet::words::Words;
use lidsheet::write::pdf;
use proptest::prelude::*;

/// The pages of the wiring sheets.
pub fn pages(board: &Board, paper: Paper, set: &mut Typesetter) -> Pages {
    let (mut sources, mut problems) = (Sources::default(), Problems::default());
    let templates = Templates::built_in(&mut sources);
    let mut figures = figures(board, &Words::english(), set, paper);
    // A board that is too full for its plan is refused; its pages are judged all the same.
    figures.iter_mut().for_each(|figure| figure.lost.clear());
    let document = wiring_sheets(board, &figures, &templates, paper, &mut problems);
    let document =
        document.unwrap_or_else(|_| panic!("{}", compile::told(&problems.sorted(), &sources)));
    lay_out(&document, paper, set)
}

/// The papers that a person may ask for.
pub const PAPERS: [Paper; 3] = Paper::ALL;

proptest! {
    #![proptest_config(crate::generate::cases(48))]

    #[test]
    fn words_stand_apart_within_the_margins(
        text in generate::any_board(),
        paper in prop::sample::select(&PAPERS),
    ) {
        let pages = pages(&compile::sound(&text), paper, &mut Typesetter::new());
        prop_assert!(pages.pages.len() > 3, "{} pages", pages.pages.len());
        for (index, page) in pages.pages.iter().enumerate() {
            prop_assert!(!page.text_boxes().is_empty(), "page {} is empty", index + 1);
            prop_assert_eq!(faults(page), [""; 0], "page {}", index + 1);
        }
    }

    #[test]
    fn the_pages_name_everything_on_the_board(text in generate::any_board()) {
        let board = compile::sound(&text);
        let pages = pages(&board, Paper::A4, &mut Typesetter::new());
        let said: Vec<String> =
            pages.pages.iter().flat_map(Page::text_boxes).map(|(_, text)| text).collect();
        for code in codes(&board) {
            let says = |text: &String| {
                text.split(|c: char| !c.is_alphanumeric()).any(|word| word == code)
            };
            prop_assert!(said.iter().any(says), "no page says {}", code);
        }
        for layout in &board.layouts {
            let number = layout.number.to_string();
            prop_assert!(said.contains(&number), "no page has layout {} by itself", number);
        }
    }
}

proptest! {
    #![proptest_config(crate::generate::cases(24))]

    /// Neither the run nor what was made before it shows in a file: a typesetter that has set
    /// another board gives the same bytes as a fresh one.
    #[test]
    fn the_same_board_gives_the_same_bytes(
        text in generate::any_board(),
        before in generate::any_board(),
    ) {
        let board = compile::sound(&text);
        let bytes = |set: &mut Typesetter| pdf(&pages(&board, Paper::A4, set));
        let once = bytes(&mut Typesetter::new()).expect("a board gives a file");
        let mut used = Typesetter::new();
        pages(&compile::sound(&before), Paper::Letter, &mut used);
        prop_assert!(once == bytes(&mut used).expect("a board gives a file"), "other bytes");
    }
}

/// Every designator and group of the board.
fn codes(board: &Board) -> Vec<&str> {
    let mut all: Vec<&str> = Vec::new();
    all.extend(board.terminals.iter().map(|thing| thing.code.as_str()));
    all.extend(board.links.iter().map(|thing| thing.code.as_str()));
    all.extend(board.groups.iter().map(|thing| thing.code.as_str()));
    all.extend(board.jumpers.iter().map(|thing| thing.code.as_str()));
    all.extend(board.fuses.iter().map(|thing| thing.code.as_str()));
    all.extend(board.headers.iter().map(|thing| thing.code.as_str()));
    all.extend(board.banks.iter().map(|thing| thing.code.as_str()));
    all
}

/// What is wrong with a page, in words.
fn faults(page: &Page) -> Vec<String> {
    let mut faults = Vec::new();
    let (size, area) = (page.size, page.area);
    // The running head and foot stand beyond the area, as far in from the sides.
    let head = Rect { top: 0.0, bottom: area.top, ..area };
    let foot = Rect { top: area.bottom, bottom: size.height, ..area };
    let boxes = page.text_boxes();
    for (index, (words, text)) in boxes.iter().enumerate() {
        let inside = |zone: &Rect| zone.grown(0.01).contains(words);
        if !inside(&area) && !inside(&head) && !inside(&foot) {
            faults.push(format!("`{text}` at {words:?} is in no zone"));
        }
        for (other, other_text) in &boxes[index + 1..] {
            if words.grown(-0.05).overlaps(&other.grown(-0.05)) {
                faults.push(format!("`{text}` lies on `{other_text}` at {words:?}"));
            }
        }
    }
    small_type(&page.items, 1.0, &mut faults);
    faults
}

/// Nothing under 7 pt on paper (the design's "Look").
fn small_type(items: &[Item], scale: f64, faults: &mut Vec<String>) {
    for item in items {
        match item {
            Item::Text { line, .. } => {
                let least = line.runs.iter().map(|run| run.size_pt).fold(f64::MAX, f64::min);
                if least * scale < 6.995 {
                    faults.push(format!("`{}` is set in {:.2} pt", line.text(), least * scale));
                }
            }
            Item::Scaled { by, items } => small_type(items, scale * by, faults),
            Item::Group { items, .. } | Item::Tagged { items, .. } => {
                small_type(items, scale, faults);
            }
            Item::Shape { .. } | Item::Picture { .. } | Item::Anchor { .. } | Item::Link { .. } => {
            }
        }
    }
}

/// A table with more columns than paper has room for is several, each with the first column; no word
/// is broken for it and no type is smaller.
#[test]
fn a_table_that_is_too_wide_is_parted() {
    let cell = |text: String| vec![Inline::Plain(text)];
    let row = |name: &str| (0..24).map(|column| cell(format!("{name}{column}"))).collect();
    let table = Table {
        columns: vec![Align::Left; 24],
        head: row("Breaker"),
        rows: vec![row("remaining"), row("other")],
        marks: Default::default(),
        summary: "wide".to_owned(),
        kind: TableKind::Reading,
    };
    for paper in PAPERS {
        let document = specimen::document(vec![Block::Table(table.clone())]);
        let pages = lay_out(&document, paper, &mut Typesetter::new());
        let boxes = pages.pages.iter().flat_map(Page::text_boxes);
        let said: Vec<String> = boxes.map(|(_, text)| text.trim().to_owned()).collect();
        let times = |word: String| said.iter().filter(|said| **said == word).count();
        let parts = times("remaining0".to_owned());
        assert!(parts > 1, "{paper:?}: {said:?}");
        assert_eq!((times("Breaker0".to_owned()), times("other0".to_owned())), (parts, parts));
        for column in 1..24 {
            for name in ["Breaker", "remaining", "other"] {
                assert_eq!(times(format!("{name}{column}")), 1, "{paper:?}: {name}{column}");
            }
        }
        for page in &pages.pages {
            assert_eq!(faults(page), [""; 0], "{paper:?}");
        }
    }
}
