//! The paper half as a user sees it: pages, PDF, SVG. Renderers and readers that are not ours
//! judge the files.

use crate::generate::{documents, specimen};
use crate::readers::{pictures, reading};
use hayro::hayro_syntax::Pdf;
use lidsheet::document::{Align, Block, Cell, Document, Inline, Table};
use lidsheet::geometry::{Point, Rect, Size};
use lidsheet::page::{Pages, Paper, Role, lay_out};
use lidsheet::scene::{Ink, Item, Scene, Target};
use lidsheet::text::{Face, Style, Typesetter};
use lidsheet::write;
use proptest::prelude::*;
use std::collections::BTreeMap;
use std::slice;

fn laid(document: &Document, paper: Paper) -> Pages {
    lay_out(document, paper, &mut Typesetter::new())
}

fn file(document: &Document) -> Vec<u8> {
    write::pdf(&laid(document, Paper::A4)).expect("a PDF")
}

fn bare(text: &str) -> String {
    text.chars().filter(|char| !char.is_whitespace()).collect()
}

proptest! {
    #![proptest_config(crate::generate::cases(60))]

    /// The invariant of pages: every text box inside the margins or in the edge zone, and no two
    /// that overlap.
    #[test]
    fn text_boxes_lie_inside_the_margins_and_apart(document in documents::any()) {
        for paper in Paper::ALL {
            let pages = laid(&document, paper);
            for (number, page) in pages.pages.iter().enumerate() {
                let area = page.area.grown(1e-6);
                let sheet = Rect::at(Point::new(0.0, 0.0), page.size);
                let boxes = page.text_boxes();
                for (index, (one, text)) in boxes.iter().enumerate() {
                    let edge = one.bottom <= area.top || one.top >= area.bottom;
                    let inside = sheet.contains(one) && one.left >= area.left && one.right <= area.right;
                    prop_assert!(area.contains(one) || edge && inside,
                        "{text:?} at {one:?} on page {number} of {paper:?}");
                    for (other, other_text) in &boxes[index + 1..] {
                        prop_assert!(!one.grown(-1e-6).overlaps(other),
                            "{text:?} and {other_text:?} on page {number} of {paper:?}");
                    }
                }
            }
        }
    }

    /// Nothing is lost, and it is read in order: the PDF's tag tree, read by another program,
    /// says the words of the document.
    #[test]
    fn a_screen_reader_hears_all_words_in_order(document in documents::any()) {
        let document = with_numbered_tables(document);
        let reading = reading::read(&file(&document));
        let heard: String = reading.said.iter()
            .filter(|said| !said.path.contains("TOC") && !said.path.ends_with("Lbl"))
            .map(|said| bare(&said.text))
            .collect();
        let said = with_parted_tables(&document, &laid(&document, Paper::A4));
        prop_assert_eq!(heard, bare(&documents::words(&said.blocks)));
    }

    /// No heading is the last thing on a page unless nothing follows it.
    #[test]
    fn no_heading_stands_at_the_foot_of_a_page(document in documents::any()) {
        let pages = laid(&document, Paper::A5);
        let count = pages.pages.len();
        for page in &pages.pages[..count - 1] {
            // A break inside a safety message can leave a page to its frame, which is decoration.
            let Some(last) = nodes_drawn(&page.items).into_iter().next_back() else { continue };
            let role = &pages.nodes[last].role;
            // A safety message may have no more than its signal word, and a title more lines than a
            // page has room for.
            let marked = |text: &String| pages.headings.iter().any(|own| own.text == *text);
            let heading = matches!(role, Role::Heading { text, .. } if marked(text));
            prop_assert!(!heading, "{role:?}");
        }
    }

    /// The same document gives the same bytes, whatever the typesetter has set before.
    #[test]
    fn the_same_document_gives_the_same_bytes(document in documents::any()) {
        let mut used = Typesetter::new();
        for text in ["other", "words", "before"] {
            used.line(text, Style::bold(9.5));
        }
        let again = write::pdf(&lay_out(&document, Paper::A4, &mut used)).expect("a PDF");
        prop_assert!(file(&document) == again);
    }
}

/// The document with another summary for each table.
fn with_numbered_tables(mut document: Document) -> Document {
    let mut number = 0;
    documents::each_list(&mut document.blocks, &mut |blocks| {
        for block in blocks {
            if let Block::Table(table) = block {
                number += 1;
                table.summary = format!("table {number}");
            }
        }
    });
    document
}

/// The document with each table as its pages have it: one that is too wide is several, each with the
/// first column and some of the others, all of them in order.
fn with_parted_tables(document: &Document, pages: &Pages) -> Document {
    let children = |parent: usize| {
        let nodes = pages.nodes.iter().enumerate();
        nodes.filter(move |(_, node)| node.parent == Some(parent)).map(|(index, _)| index)
    };
    // How many columns each part of a table has, by its summary.
    let mut widths: BTreeMap<String, Vec<usize>> = BTreeMap::new();
    for (index, node) in pages.nodes.iter().enumerate() {
        let Role::Table(name) = &node.role else { continue };
        let Some((summary, number)) = name.split_once(" (") else { continue };
        let row = children(index).flat_map(children).next().expect("it has a row");
        let of = widths.entry(summary.to_owned()).or_default();
        of.push(children(row).count());
        assert!(number.starts_with(&of.len().to_string()), "{name}");
    }
    let mut document = document.clone();
    documents::each_list(&mut document.blocks, &mut |blocks| {
        let parted = |block: Block| {
            let Block::Table(table) = block else { return vec![block] };
            let Some(widths) = widths.get(&table.summary) else { return vec![Block::Table(table)] };
            assert!(widths.len() > 1, "{}", table.summary);
            let others: usize = widths.iter().map(|width| width - 1).sum();
            assert_eq!(others + 1, table.columns.len(), "{}", table.summary);
            let mut from = 1;
            let parts = widths.iter().map(|width| {
                let columns = from..from + width - 1;
                from = columns.end;
                let row = |row: &Vec<Cell>| match row.split_first() {
                    Some((first, _)) => [slice::from_ref(first), &row[columns.clone()]].concat(),
                    None => Vec::new(),
                };
                let (head, rows) = (row(&table.head), table.rows.iter().map(row).collect());
                Block::Table(Table { head, rows, ..table.clone() })
            });
            parts.collect()
        };
        *blocks = std::mem::take(blocks).into_iter().flat_map(parted).collect();
    });
    document
}

/// The nodes of what is drawn, in order, decoration left out.
fn nodes_drawn(items: &[Item]) -> Vec<usize> {
    items
        .iter()
        .flat_map(|item| match item {
            Item::Tagged { node, .. } => node.iter().copied().collect(),
            Item::Group { items, .. } | Item::Scaled { items, .. } => nodes_drawn(items),
            _ => Vec::new(),
        })
        .collect()
}

/// A3 to A5 by ISO 216, letter by ANSI/ASME Y14.1; in points of 1/72 inch (project's check
/// values, section 13).
#[test]
fn pages_have_their_standard_size() {
    for (paper, width, height) in
        [(Paper::A4, 595.28, 841.89), (Paper::A5, 419.53, 595.28), (Paper::Letter, 612.0, 792.0)]
    {
        let document = specimen::six_pages(&mut Typesetter::new(), 1);
        let file = write::pdf(&laid(&document, paper)).expect("a PDF");
        let pdf = Pdf::new(file).expect("a PDF");
        assert!(!pdf.pages().is_empty());
        for page in pdf.pages().iter() {
            let area = page.media_box();
            assert!((area.width() - width).abs() < 0.5, "{paper:?}");
            assert!((area.height() - height).abs() < 0.5, "{paper:?}");
        }
    }
}

/// A document with a landscape page between upright ones: a plan of two thirds of the width and the
/// table that explains it.
fn with_landscape(rows: usize) -> Document {
    let mut types = Typesetter::new();
    let width = Paper::A4.share(lidsheet::document::Density::Roomy, true, &[2, 1], 0);
    let mut plan = specimen::plan(&mut types, 5);
    plan.size.width = width;
    let rows: Vec<Vec<String>> =
        (1..=rows).map(|row| vec![format!("J{row}"), format!("row {row}")]).collect();
    let parts = vec![
        vec![figure(plan), specimen::paragraph("Below the plan.")],
        vec![specimen::table(&[Align::Left; 2], &["Header", "Purpose"], &rows)],
    ];
    let glance = vec![
        Block::Title { text: "Heron 8".into(), subtitle: "At a glance".into() },
        specimen::heading(1, "Board at a glance", Some("glance")),
        Block::Beside { shares: vec![2, 1], parts },
    ];
    let link = Inline::Link {
        text: "the board at a glance".into(),
        strong: false,
        target: Target::Anchor("glance".into()),
    };
    specimen::document(vec![
        Block::Contents { title: "Contents".into() },
        Block::PageBreak,
        Block::Landscape(glance),
        Block::PageBreak,
        specimen::heading(1, "Supply", None),
        Block::Paragraph(vec![Inline::Plain("See ".into()), link]),
    ])
}

/// Paper, head, foot, links, bookmarks and tags of pages that lie on their long side.
#[test]
fn landscape_pages_lie_between_upright_ones() {
    let document = with_landscape(12);
    let pages = laid(&document, Paper::A4);
    assert_eq!(pages.pages.len(), 3, "no page is empty, and none is double");
    let file = write::pdf(&pages).expect("a PDF");
    let pdf = Pdf::new(file.clone()).expect("a PDF");
    let sizes: Vec<(i32, i32)> = pdf
        .pages()
        .iter()
        .map(|page| page.media_box())
        .map(|area| (area.width().round() as i32, area.height().round() as i32))
        .collect();
    assert_eq!(sizes, [(595, 842), (842, 595), (595, 842)]);
    for (number, page) in pages.pages.iter().enumerate() {
        let words: Vec<String> = page.text_boxes().into_iter().map(|(_, text)| text).collect();
        assert!(words.contains(&document.head.0), "{words:?}");
        assert!(words.contains(&format!("page {} of 3", number + 1)), "{words:?}");
    }
    // Side by side: the table begins beside the plan, not under it.
    let middle = pages.pages[1].area.width() * 0.6;
    let boxes = pages.pages[1].text_boxes();
    let at = |wanted: &str| boxes.iter().find(|(_, text)| text == wanted).expect(wanted).0;
    assert!(at("Purpose").left > middle && at("Below the plan.").left < middle);
    assert!(at("Purpose").top < at("Below the plan.").top);

    let reading = reading::read(&file);
    let glance = reading.bookmarks.iter().map(|(_, title)| title.as_str()).collect::<Vec<_>>();
    assert_eq!(glance, ["Board at a glance", "Supply"]);
    assert!(reading.links.contains(&("the board at a glance".to_owned(), 1)));
    assert!(reading.links.contains(&("Board at a glance".to_owned(), 1)), "{:?}", reading.links);
    // One part is read before the other.
    let text = bare(&reading.text());
    assert!(text.find("Belowtheplan.") < text.find("J1row1"), "{text}");
}

/// What has no room beside the plan goes on, in its own column, on another landscape page.
#[test]
fn what_stands_beside_a_plan_goes_on_over_the_page() {
    let pages = laid(&with_landscape(60), Paper::A4);
    let landscape: Vec<&lidsheet::page::Page> =
        pages.pages.iter().filter(|page| page.size.width > page.size.height).collect();
    assert!(landscape.len() > 1);
    let mut said = Vec::new();
    for page in landscape {
        let left = page.area.left + page.area.width() * 0.6;
        let rows = page.text_boxes().into_iter().filter(|(_, text)| text.starts_with("row "));
        said.extend(rows.map(|(place, text)| {
            assert!(place.left > left, "{text} at {place:?}");
            text
        }));
    }
    assert_eq!(said, (1..=60).map(|row| format!("row {row}")).collect::<Vec<_>>());
}

#[test]
fn a_long_table_is_one_table_whose_head_is_seen_on_every_page() {
    let rows: Vec<Vec<String>> =
        (1..=120).map(|row| vec![format!("row {row}"), "what it is for".into()]).collect();
    let table = specimen::table(&[Align::Left; 2], &["Header", "Purpose"], &rows);
    let document = specimen::document(vec![specimen::heading(1, "Table", None), table]);
    let reading = reading::read(&file(&document));
    assert!(reading.decoration.len() >= 3, "several pages");
    for (page, decoration) in reading.decoration.iter().enumerate().skip(1) {
        assert!(decoration.contains("HeaderPurpose"), "page {page}: {decoration:?}");
    }
    assert!(!reading.decoration[0].contains("HeaderPurpose"), "the first is read aloud");
    let count = |path: &str| reading.elements.iter().filter(|own| own.ends_with(path)).count();
    assert_eq!((count("/Table"), count("/THead"), count("/TBody")), (1, 1, 1));
    let cells = (count("/THead/TR/TH"), count("/TBody/TR/TH"), count("/TBody/TR/TD"));
    assert_eq!((count("/TBody/TR"), cells), (120, (2, 120, 120)));
    let heard: Vec<String> = (1..=120).map(|row| format!("row {row}")).collect();
    assert_eq!(reading.under("/TBody/TR/TH"), heard);
}

/// A reader that goes along a column needs every cell, the empty ones too.
#[test]
fn every_row_of_a_table_has_all_its_cells() {
    let rows: Vec<Vec<String>> = ["", "a", "b"].map(|cell| vec![cell.into(), "".into()]).into();
    let mut document = specimen::document(vec![
        specimen::heading(1, "Table", None),
        specimen::table(&[Align::Left; 3], &["Header", "", "Purpose"], &rows),
    ]);
    if let Some(Block::Table(table)) = document.blocks.last_mut() {
        table.rows.push(Vec::new());
        table.rows.push(vec![vec![Inline::Tick], vec![Inline::Break]]);
    }
    let reading = reading::read(&file(&document));
    let count = |path: &str| reading.elements.iter().filter(|own| own.ends_with(path)).count();
    assert_eq!((count("/THead/TR/TH"), count("/TBody/TR"), count("/TBody/TR/TD")), (3, 5, 15));
}

#[test]
fn a_row_taller_than_a_page_goes_on_over_it() {
    let long = "word ".repeat(3000);
    let rows = vec![vec!["before".into(), "x".into()], vec!["long".into(), long.clone()]];
    let table = specimen::table(&[Align::Left; 2], &["Header", "Purpose"], &rows);
    let document = specimen::document(vec![specimen::heading(1, "Table", None), table]);
    let reading = reading::read(&file(&document));
    assert!(reading.decoration.len() > 1);
    let heard: String =
        ["/TBody/TR/TH", "/TBody/TR/TD"].map(|cell| reading.under(cell).concat()).concat();
    assert_eq!(bare(&heard), bare(&format!("before long x {long}")));
    assert_eq!(reading.elements.iter().filter(|path| path.contains("/TBody/TR/T")).count(), 4);
}

/// Two lines at least stand together at the foot and at the head of a page.
#[test]
fn no_line_of_a_paragraph_stands_alone() {
    let mut dice = specimen::Dice::new(11);
    let mut parted = 0;
    for words in 30..130 {
        let paragraph = |words| specimen::paragraph(&specimen::sentence(&mut dice, words));
        let blocks = std::iter::repeat_n(words, 12).map(paragraph).collect();
        let pages = laid(&specimen::document(blocks), Paper::A5);
        for (one, next) in pages.pages.iter().zip(pages.pages.iter().skip(1)) {
            let (foot, head) = (nodes_drawn(&one.items), nodes_drawn(&next.items));
            if foot.last() == head.first() {
                parted += 1;
                let node = foot.last().expect("words");
                assert!(foot.iter().filter(|own| *own == node).count() >= 2);
                assert!(head.iter().filter(|own| *own == node).count() >= 2);
            }
        }
    }
    assert!(parted > 10, "{parted} paragraphs go on over a page");
}

#[test]
fn a_safety_message_stays_whole() {
    let mut types = Typesetter::new();
    for lines in 1..40 {
        let mut blocks = vec![specimen::paragraph(&"filler ".repeat(lines * 14))];
        blocks.push(Block::Caution {
            signal: lidsheet::document::Signal::Danger,
            blocks: vec![specimen::paragraph(&"isolate first ".repeat(30))],
        });
        let pages = lay_out(&specimen::document(blocks), Paper::A5, &mut types);
        let with = |word: &str| -> Vec<usize> {
            let has = |page: &lidsheet::page::Page| {
                page.text_boxes().iter().any(|(_, text)| text.contains(word))
            };
            (0..pages.pages.len()).filter(|page| has(&pages.pages[*page])).collect()
        };
        assert_eq!(with("DANGER").len(), 1);
        assert_eq!(with("DANGER"), with("isolate first"));
    }
}

#[test]
fn a_figure_is_made_smaller_only_if_it_must() {
    let mut types = Typesetter::new();
    let area = Paper::A4.area();
    for (width, height, scale) in [
        (100.0, 80.0, 1.0),
        (area.width(), 50.0, 1.0),
        (area.width() * 2.0, 50.0, 0.5),
        (50.0, 10_000.0, 0.0),
    ] {
        let mut scene = Scene::new(Size::new(width, height), "t", "d");
        scene.text(Point::new(1.0, 6.0), types.line("in it", Style::regular(9.0)));
        let blocks = vec![specimen::heading(1, "H", None), figure(scene)];
        let pages = laid(&specimen::document(blocks), Paper::A4);
        let found = pages.nodes.iter().find_map(|node| match &node.role {
            Role::Figure { area, .. } => Some(*area),
            _ => None,
        });
        let found = found.expect("a figure");
        assert!(area.grown(1e-6).contains(&found), "{found:?}");
        if scale > 0.0 {
            assert!((found.width() - width * scale).abs() < 1e-6);
        }
        assert_eq!(pages.pages.len(), 1, "the heading stays with it");
    }
}

fn figure(scene: Scene) -> Block {
    Block::Figure { scene, alternative: "drawing".into(), caption: Vec::new(), anchor: None }
}

#[test]
fn links_lead_from_words_and_drawings_to_their_places() {
    let document = specimen::everything(&mut Typesetter::new());
    let reading = reading::read(&file(&document));
    // Six of the contents, one in a step, one in the drawing, one in its caption.
    assert_eq!(reading.links.len(), 9);
    assert_eq!(reading.bookmarks[1], (0, "Setting the layout".into()));
    assert_eq!(reading.bookmarks[2], (1, "Enter the number".into()));
    assert_eq!(reading.bookmarks[4], (2, "A note on names".into()));
    assert_eq!(reading.alternatives.len(), 2);
    let in_figure: Vec<&str> = reading
        .instead
        .iter()
        .filter(|(path, _)| path == "Document/Div/Figure/Link")
        .map(|(_, words)| words.as_str())
        .collect();
    assert_eq!(in_figure.len(), 1, "the link in the drawing has words: {:?}", reading.instead);
    assert!(!in_figure[0].is_empty());
    // The contents name the page on which the section is.
    let pages = laid(&document, Paper::A4);
    let contents: Vec<&str> = reading
        .said
        .iter()
        .filter(|said| said.path.ends_with("TOCI"))
        .map(|s| s.text.as_str())
        .collect();
    let truth: Vec<String> = pages
        .headings
        .iter()
        .filter(|heading| heading.level == 1)
        .map(|heading| (heading.page + 1).to_string())
        .collect();
    assert_eq!(contents, truth);
    // And every link leads to the page of the heading that it names.
    for (words, page) in &reading.links {
        let named = words.trim_start_matches("The ").to_lowercase();
        let heading = pages.headings.iter().find(|heading| heading.text.to_lowercase() == named);
        assert_eq!(heading.map(|heading| heading.page), Some(*page), "{words}");
    }
}

#[test]
fn a_link_to_nowhere_is_a_fault_with_its_page() {
    let link = Inline::Link {
        text: "there".into(),
        strong: false,
        target: Target::Anchor("nowhere".into()),
    };
    let blocks = vec![specimen::heading(1, "H", None), Block::Paragraph(vec![link])];
    let faults = write::pdf(&laid(&specimen::document(blocks), Paper::A4)).expect_err("a fault");
    assert_eq!(faults.len(), 1);
    assert_eq!(faults[0].page, Some(1));
    assert!(faults[0].message.contains("`nowhere`"), "{faults:?}");
}

/// What the two standards ask for and `krilla` cannot supply: without a title there is no file.
#[test]
fn what_the_standards_refuse_is_told() {
    let mut document = specimen::document(vec![specimen::heading(1, "H", None)]);
    document.language.clear();
    document.title.clear();
    let mut drawing = figure(Scene::new(Size::new(20.0, 20.0), "t", "d"));
    if let Block::Figure { alternative, .. } = &mut drawing {
        alternative.clear();
    }
    document.blocks.extend([Block::PageBreak, drawing]);
    document.blocks.insert(1, specimen::paragraph("On the first page."));
    let result = write::pdf(&laid(&document, Paper::A4));
    let mut faults = result.expect_err("a document without a title");
    faults.sort_by(|a, b| a.message.cmp(&b.message));
    let told: Vec<(&str, Option<usize>)> = faults
        .iter()
        .map(|fault| (fault.message.rsplit(": ").next().unwrap_or_default(), fault.page))
        .collect();
    assert_eq!(
        told,
        [
            ("a drawing has no alternative text", Some(2)),
            ("the document has no title", None),
            ("the document names no language", None),
        ]
    );
}

#[test]
fn a_sheet_without_headings_has_its_title_as_bookmark() {
    let document = specimen::document(vec![specimen::paragraph("One line.")]);
    let reading = reading::read(&file(&document));
    assert_eq!(reading.bookmarks, [(0, "Heron 8 wiring sheets".to_owned())]);
    assert!(
        write::pdf(&laid(&specimen::document(Vec::new()), Paper::A4)).is_ok(),
        "nothing at all"
    );
}

/// Lengths that no drawing has must not end the program.
#[test]
fn impossible_numbers_do_no_harm() {
    let mut types = Typesetter::new();
    for odd in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, 1e300, -1e300, 0.0] {
        let mut scene = Scene::new(Size::new(odd, odd), "t", "d");
        let corner = Point::new(odd, odd);
        let edge = lidsheet::scene::Stroke::solid(Ink::BLACK, odd);
        let path = lidsheet::geometry::Path::rect(Rect::at(corner, Size::new(odd, 5.0)));
        scene.shape(path.clone(), Some(Ink::BLACK), Some(edge));
        scene.shape(path, None, Some(edge));
        scene.text(corner, types.line("abc", Style::regular(odd)));
        let clip = Some(Rect::at(corner, Size::new(5.0, 5.0)));
        let items = std::mem::take(&mut scene.items);
        let scaled = Item::Scaled { by: odd, items };
        scene.items.push(Item::Group { shift: corner, clip, items: vec![scaled] });
        assert!(resvg::usvg::roxmltree::Document::parse(&write::svg(&scene)).is_ok());
        let document = specimen::document(vec![specimen::heading(1, "H", None), figure(scene)]);
        let file = file(&document);
        assert!(Pdf::new(file.clone()).is_ok());
        pictures::of_pdf(&file, 0, 1.0);
    }
}

const NASTY: &str =
    "<script>alert('x')</script> ](javascript:alert(1)) & \"q\" \\ ) ( %00 &amp; ]]> <!-- {{ x }}";

/// Every field that carries text, in the PDF: it comes back as it went in, and means nothing.
#[test]
fn nasty_text_stays_text_in_a_pdf() {
    let mut document = specimen::document(vec![
        Block::Title { text: NASTY.into(), subtitle: NASTY.into() },
        specimen::heading(1, NASTY, Some(NASTY)),
        Block::Paragraph(vec![
            Inline::Strong(NASTY.into()),
            Inline::Link { text: NASTY.into(), strong: true, target: Target::Anchor(NASTY.into()) },
        ]),
        specimen::table(&[Align::Left], &[NASTY], &[vec![NASTY.into()]]),
        Block::Figure {
            scene: nasty_scene(),
            alternative: NASTY.into(),
            caption: specimen::plain(NASTY),
            anchor: Some(format!("{NASTY}2")),
        },
    ]);
    document.title = NASTY.into();
    document.author = NASTY.into();
    document.head = (NASTY.into(), NASTY.into());
    document.foot = NASTY.into();
    document.page_of = NASTY.into();
    let file = file(&document);
    let reading = reading::read(&file);
    assert_eq!(reading.bookmarks, [(0, NASTY.to_owned())]);
    assert_eq!(reading.alternatives, [NASTY]);
    for path in ["/P", "/H1", "/H2", "/Link", "/TH", "/TD", "/Caption", "/Figure"] {
        let heard = bare(&reading.under(path).concat());
        assert!(heard.contains(&bare(NASTY)), "{path}: {heard:?}");
    }
    let pdf = Pdf::new(file.clone()).expect("a PDF");
    assert_eq!(pdf.metadata().title.as_deref().map(utf16), Some(NASTY.to_owned()));
    for word in [&b"/JavaScript"[..], b"/JS", b"/Launch", b"/URI"] {
        assert!(!file.windows(word.len()).any(|window| window == word));
    }
}

/// A text string of PDF: UTF-16 with a mark, or one byte a character.
fn utf16(bytes: &[u8]) -> String {
    match bytes {
        [0xfe, 0xff, rest @ ..] => {
            let units = rest.chunks_exact(2).map(|pair| u16::from_be_bytes([pair[0], pair[1]]));
            char::decode_utf16(units).map(|char| char.unwrap_or('?')).collect()
        }
        bytes => bytes.iter().map(|byte| char::from(*byte)).collect(),
    }
}

fn nasty_scene() -> Scene {
    let mut types = Typesetter::new();
    let mut scene = Scene::new(Size::new(170.0, 20.0), NASTY, NASTY);
    scene.text(Point::new(1.0, 8.0), types.line(NASTY, Style::regular(8.0)));
    scene.items.push(Item::Anchor { name: format!("{NASTY}3"), at: Point::new(1.0, 1.0) });
    scene.items.push(Item::Link {
        area: Rect::at(Point::new(1.0, 1.0), Size::new(9.0, 9.0)),
        target: Target::Anchor(format!("{NASTY}3")),
        description: NASTY.into(),
    });
    scene
}

#[test]
fn nasty_text_stays_text_in_an_svg() {
    let file = write::svg(&nasty_scene());
    let parsed = resvg::usvg::roxmltree::Document::parse(&file).expect("well formed");
    let text = |tag: &str| {
        let found = parsed.descendants().find(|node| node.has_tag_name(tag));
        found.and_then(|node| node.text()).map(str::to_owned)
    };
    assert_eq!(text("title").as_deref(), Some(NASTY));
    assert_eq!(text("desc").as_deref(), Some(NASTY));
    assert_eq!(text("text").as_deref(), Some(NASTY));
    let known = ["svg", "title", "desc", "style", "text", "path", "g", "a", "clipPath"];
    let mut links = 0;
    for node in parsed.descendants().filter(|node| node.is_element()) {
        assert!(known.contains(&node.tag_name().name()), "{node:?}");
        for attribute in node.attributes() {
            assert!(!attribute.name().starts_with("on"), "{attribute:?}");
            if attribute.name() == "href" {
                links += 1;
                let rest = attribute.value().strip_prefix("#at-").expect("a place in this file");
                assert!(rest.chars().all(|c| c.is_ascii_alphanumeric() || "-_".contains(c)));
                let id = attribute.value().get(1..);
                assert!(parsed.descendants().any(|node| node.attribute("id") == id));
            }
        }
    }
    assert_eq!(links, 1, "the link of the drawing");
}

/// Width and height in mm, one user unit a mm: what a drawing shop and a browser need.
#[test]
fn an_svg_has_the_drawings_own_size() {
    let scene = Scene::new(Size::new(170.25, 130.0), "t", "d");
    let file = write::svg(&scene);
    let parsed = resvg::usvg::roxmltree::Document::parse(&file).expect("well formed");
    let root = parsed.root_element();
    assert_eq!(root.attribute("width"), Some("170.25mm"));
    assert_eq!(root.attribute("height"), Some("130mm"));
    assert_eq!(root.attribute("viewBox"), Some("0 0 170.25 130"));
    assert_eq!(root.attribute("role"), Some("img"));
}

/// A browser reads the words with the fonts inside the file: each has the tables that browsers
/// ask for, and its characters lead to the same outlines as in the whole font.
#[test]
fn the_fonts_inside_an_svg_are_whole_for_its_words() {
    use base64::Engine;
    use skrifa::MetadataProvider;
    use skrifa::instance::{LocationRef, Size as FontSize};
    use skrifa::outline::DrawSettings;
    use skrifa::outline::pen::SvgPen;
    use skrifa::raw::TableProvider;

    let words = "Pump 1: 240 V, Ж Ω é [U+4E2D] (see F1)";
    let mut types = Typesetter::new();
    let mut scene = Scene::new(Size::new(100.0, 20.0), "t", "d");
    scene.text(Point::new(1.0, 8.0), types.line(words, Style::regular(8.0)));
    scene.text(Point::new(1.0, 16.0), types.line(words, Style::bold(8.0)));
    let file = write::svg(&scene);
    let outline = |font: &skrifa::FontRef<'_>, glyph: skrifa::GlyphId| {
        let mut pen = SvgPen::new();
        let settings = DrawSettings::unhinted(FontSize::unscaled(), LocationRef::default());
        font.outline_glyphs().get(glyph).expect("a glyph").draw(settings, &mut pen).expect("drawn");
        pen.to_string()
    };
    let mut seen = std::collections::BTreeSet::new();
    for part in file.split("@font-face{").skip(1) {
        let bold = part.contains("font-weight:700");
        let wide = part.contains("Noto Sans");
        let face = match (wide, bold) {
            (false, false) => Face::Regular,
            (false, true) => Face::Bold,
            (true, false) => Face::WideRegular,
            (true, true) => Face::WideBold,
        };
        let data = part.split("base64,").nth(1).and_then(|rest| rest.split(')').next());
        let data = base64::engine::general_purpose::STANDARD.decode(data.expect("data"));
        let data = data.expect("base64");
        let font = skrifa::FontRef::new(&data).expect("a font");
        let whole = skrifa::FontRef::new(face.file()).expect("a font");
        for tag in [
            b"OS/2", b"cmap", b"glyf", b"head", b"hhea", b"hmtx", b"loca", b"maxp", b"name",
            b"post",
        ] {
            let tag = skrifa::raw::types::Tag::new(tag);
            assert!(font.table_data(tag).is_some(), "{tag} of {face:?}");
        }
        assert_eq!(font.head().expect("head").units_per_em(), 1000);
        let mapped: Vec<(u32, skrifa::GlyphId)> = font.charmap().mappings().collect();
        assert!(!mapped.is_empty());
        for (code, glyph) in mapped {
            let own = whole.charmap().map(code).expect("in the font");
            assert_eq!(outline(&font, glyph), outline(&whole, own), "{code:x} of {face:?}");
            let metrics = |font: &skrifa::FontRef<'_>, glyph| {
                font.glyph_metrics(FontSize::unscaled(), LocationRef::default())
                    .advance_width(glyph)
            };
            assert_eq!(metrics(&font, glyph), metrics(&whole, own));
            seen.insert((bold, code));
        }
    }
    // Every character of the words once in each weight, whichever family has it.
    let mut characters: Vec<char> = words.chars().collect();
    characters.sort_unstable();
    characters.dedup();
    assert_eq!(seen.len(), 2 * characters.len());
}

/// A drawing looks the same in its SVG and in its PDF. Measured on blocks of 1 mm: mean 1.2,
/// greatest 21 of 255, which is how the two renderers smooth edges; a word that is missing gives
/// more than 60.
#[test]
fn svg_and_pdf_show_the_same_drawing() {
    let mut types = Typesetter::new();
    let mut scene = specimen::plan(&mut types, 3);
    let inner = vec![
        Item::Text {
            at: Point::new(4.0, 5.0),
            line: types.line("AVAToTe Ж é", Style::bold(9.0)),
            ink: Ink(0, 60, 110),
        },
        Item::Shape {
            path: lidsheet::geometry::Path::circle(Point::new(10.0, 10.0), 8.0),
            fill: Some(Ink(226, 232, 238)),
            stroke: None,
        },
    ];
    let scaled = Item::Scaled { by: 1.5, items: inner };
    let clip = Some(Rect::at(Point::new(0.0, 0.0), Size::new(40.0, 16.0)));
    scene.items.push(Item::Group { shift: Point::new(60.0, 1.0), clip, items: vec![scaled] });
    let (svg, pdf) = pictures::both(&scene, 4);
    assert!(svg.darkest() > 200 && pdf.darkest() > 200, "something is drawn");
    let (mean, greatest) = svg.coarse(4).difference(&pdf.coarse(4));
    assert!(mean < 2.0 && greatest < 35, "mean {mean}, greatest {greatest}");

    scene.items.pop();
    let (without, _) = pictures::both(&scene, 4);
    let (_, greatest) = without.coarse(4).difference(&pdf.coarse(4));
    assert!(greatest > 60, "the comparison sees what is missing: {greatest}");
}
