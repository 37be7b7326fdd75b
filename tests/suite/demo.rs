//! The demo boards' sheets as a reader has them: the words of the PDF, and every figure drawn by
//! two renderers.

use crate::compile::demo;
use crate::oracle;
use crate::readers::{pictures, reading};
use lidsheet::board::Board;
use lidsheet::diagnostic::Problems;
use lidsheet::page::{Paper, lay_out};
use lidsheet::scene::{Item, Scene};
use lidsheet::sheet::{Figure, Templates, figures, wiring_sheets};
use lidsheet::source::Sources;
use lidsheet::text::Typesetter;
use lidsheet::words::Words;
use lidsheet::write::pdf;

const NAMES: [&str; 3] = ["heron-8", "wren-3", "curlew-10"];

fn drawings(board: &Board, set: &mut Typesetter) -> Vec<Figure> {
    figures(board, &Words::english(), set, Paper::A4)
}

#[test]
fn the_words_of_the_pdf_name_everything() {
    let mut set = Typesetter::new();
    for name in NAMES {
        let board = demo::board(name);
        let (mut sources, mut problems) = (Sources::default(), Problems::default());
        let templates = Templates::built_in(&mut sources);
        let figures = drawings(&board, &mut set);
        let document = wiring_sheets(&board, &figures, &templates, Paper::A4, &mut problems)
            .expect("sheets are made");
        let file = pdf(&lay_out(&document, Paper::A4, &mut set)).expect("a sound PDF");
        let reading = reading::read(&file);

        let cells: Vec<&str> = reading.said.iter().map(|said| said.text.trim()).collect();
        let says = |word: &str| {
            cells
                .iter()
                .any(|cell| cell.split(|c: char| !c.is_alphanumeric()).any(|part| part == word))
        };
        for header in &board.headers {
            assert!(says(&header.code), "{name}: header {}", header.code);
            let title = cells.iter().any(|cell| cell.contains(&header.title));
            assert!(title, "{name}: title {}", header.title);
        }
        for code in board
            .groups
            .iter()
            .map(|g| &g.code)
            .chain(board.jumpers.iter().map(|j| &j.code))
            .chain(board.fuses.iter().map(|f| &f.code))
            .chain(board.terminals.iter().map(|t| &t.code))
            .chain(board.links.iter().map(|l| &l.code))
            .chain(board.banks.iter().map(|b| &b.code))
        {
            assert!(says(code), "{name}: {code}");
        }
        for layout in &board.layouts {
            let number = layout.number.to_string();
            assert!(cells.contains(&number.as_str()), "{name}: layout {number}");
        }
        for field in board.banks.iter().flat_map(|bank| &bank.fields) {
            // The settings are drawn, and read by their alternative texts.
            let label = field.label();
            let said = reading.alternatives.iter().any(|text| oracle::words::says(text, &label));
            assert!(said, "{name}: switches {label}");
        }
        assert!(!says("J99"), "the check sees what is not there");
    }
}

/// The drawing alone, which is on no page that its links could lead to.
pub fn without_links(mut scene: Scene) -> Scene {
    fn strip(items: &mut Vec<Item>) {
        items.retain(|item| !matches!(item, Item::Link { .. }));
        for item in items {
            match item {
                Item::Group { items, .. }
                | Item::Scaled { items, .. }
                | Item::Tagged { items, .. } => strip(items),
                _ => {}
            }
        }
    }
    strip(&mut scene.items);
    scene
}

/// Every figure looks the same in its SVG and on its page. Measured on blocks of 1 mm: mean 0.6 to
/// 2.7, greatest 27 to 43 of 255, most where fine lines lie close; one missing word gives more than
/// 60, which is tried on the last.
#[test]
fn every_figure_is_the_same_in_svg_and_pdf() {
    let mut set = Typesetter::new();
    let (mut seen, mut tried) = (0, 0);
    for name in NAMES {
        for figure in drawings(&demo::board(name), &mut set) {
            let mut scene = without_links(figure.scene);
            let (svg, pdf) = pictures::both(&scene, 4);
            let (mean, greatest) = svg.coarse(4).difference(&pdf.coarse(4));
            assert!(svg.darkest() > 200, "{name}, {}: nothing is drawn", figure.name);
            assert!(
                // The more words, the greater the mean of what two renderers smooth in their own ways.
                mean < 3.2 && greatest < 50,
                "{name}, {}: mean {mean}, greatest {greatest}",
                figure.name
            );
            seen += 1;
            if let Some(word) = scene.items.iter().rposition(|i| matches!(i, Item::Text { .. })) {
                scene.items.remove(word);
                tried += 1;
                let (less, _) = pictures::both(&scene, 4);
                let (_, greatest) = less.coarse(4).difference(&pdf.coarse(4));
                assert!(greatest > 60, "{name}, {}: {greatest}", figure.name);
            }
        }
    }
    assert!(seen > 15 && tried > 10, "{seen} figures were seen, {tried} with a word less");
}
