//! Sheets as HTML that flows: what it holds beside the pages of the same document.

use std::collections::BTreeSet;
use std::path::Path;

use lidsheet::build;
use lidsheet::compile::{OwnFolder, SheetKind, SheetOptions, sheet_document};
use lidsheet::diagnostic::Problems;
use lidsheet::document::{Block, Document, Paper, Signal, TableKind, plain_text};
use lidsheet::text::Typesetter;
use lidsheet::words::LANGUAGES;
use lidsheet::write::flowing_html;
use resvg::usvg::roxmltree::{Document as Xml, Node};

/// Every document of the demo in every language, with what to call it.
fn documents() -> Vec<(String, Document)> {
    let specs = Path::new(env!("CARGO_MANIFEST_DIR")).join("specs");
    let mut all = Vec::new();
    let mut set = Typesetter::new();
    for mut checked in build::check(&[specs], &mut Problems::default()) {
        for language in &LANGUAGES {
            let look = SheetOptions::new(Paper::A4, language, OwnFolder::default());
            for kind in SheetKind::ALL {
                let made = sheet_document(&mut checked, kind, &look, &mut set);
                let made = made.unwrap_or_else(|_| panic!("{}: {kind:?}", checked.shown));
                let name = format!("{} {} in {}", checked.shown, kind.name(), language.tag);
                all.extend(made.map(|document| (name, document)));
            }
        }
    }
    assert!(all.len() > 100, "{}", all.len());
    all
}

/// All words of a document but those of drawings, without blanks.
fn written(blocks: &[Block], signal_words: &[String; 4], to: &mut String) {
    let each = |parts: &[Vec<Block>], to: &mut String| {
        parts.iter().for_each(|part| written(part, signal_words, to));
    };
    for block in blocks {
        let own = match block {
            Block::Heading { text, .. }
            | Block::Paragraph(text)
            | Block::Figure { caption: text, .. } => plain_text(text),
            Block::Title { text, subtitle } => format!("{text}{subtitle}"),
            // A name, and what belongs to it.
            Block::Table(table) if table.kind == TableKind::Summary => {
                let of = |column: usize| {
                    let rows = std::iter::once(&table.head).chain(&table.rows);
                    rows.filter_map(move |row| row.get(column)).map(|it| plain_text(it))
                };
                (0..table.columns.len()).flat_map(of).collect()
            }
            Block::Table(table) => table
                .head
                .iter()
                .chain(table.rows.iter().flatten())
                .map(|it| plain_text(it))
                .collect(),
            Block::Caution { signal, .. } => {
                let place = Signal::ALL.iter().position(|each| each == signal).unwrap();
                signal_words[place].clone()
            }
            _ => String::new(),
        };
        to.extend(own.chars().filter(|c| !c.is_whitespace()));
        match block {
            Block::List { items: parts, .. }
            | Block::Beside { parts, .. }
            | Block::Cards(parts) => each(parts, to),
            Block::Caution { blocks, .. }
            | Block::Columns { blocks, .. }
            | Block::Together(blocks)
            | Block::Step { blocks, .. }
            | Block::Landscape(blocks) => written(blocks, signal_words, to),
            _ => {}
        }
    }
}

/// The words of an element but those of drawings, contents, head and foot, and numbers of steps.
fn read(node: Node<'_, '_>, to: &mut String) {
    let class = node.attribute("class").unwrap_or_default();
    let aside = ["sheet-head", "sheet-foot", "number"].contains(&class);
    if aside || node.has_tag_name("nav") || node.tag_name().name() == "svg" {
        return;
    }
    if node.is_text() {
        let text = node.text().unwrap_or_default();
        to.extend(text.chars().filter(|c| !c.is_whitespace()));
    }
    node.children().for_each(|child| read(child, to));
}

#[test]
fn it_says_what_the_pages_say() {
    let mut links = 0;
    for (name, document) in documents() {
        let html = flowing_html(&document, 2, "one-");
        let xml = Xml::parse(&html).unwrap_or_else(|why| panic!("{name}: {why}"));
        let (mut wanted, mut found) = (String::new(), String::new());
        written(&document.blocks, &document.signal_words, &mut wanted);
        read(xml.root(), &mut found);
        assert!(wanted.len() > 200, "{name}: {wanted}");
        assert_eq!(found, wanted, "{name}");
        // What a page forbids that lets nothing run: scripts, and looks inside of an element.
        let nodes = || xml.descendants().filter(Node::is_element);
        assert!(
            nodes().all(|node| !node.has_tag_name("script") && node.attribute("style").is_none())
        );
        let own = |attribute: &str| attribute.starts_with("on") || attribute == "src";
        assert!(nodes().all(|node| node.attributes().all(|it| !own(it.name()))), "{name}");
        // Every name stands once, and whatever is led to is there.
        let names: Vec<&str> = nodes().filter_map(|node| node.attribute("id")).collect();
        let known: BTreeSet<&str> = names.iter().copied().collect();
        assert_eq!(known.len(), names.len(), "{name}: {names:?}");
        for target in nodes().filter_map(|node| node.attribute("href")) {
            let target = target.strip_prefix('#').expect("nothing leads away");
            assert!(known.contains(target), "{name}: {target}");
            links += 1;
        }
    }
    assert!(links > 1000, "{links}");
}

/// Two documents in one page have no name in common.
#[test]
fn documents_stand_beside_each_other() {
    let (_, document) = documents().swap_remove(0);
    let both = ["a-", "b-"].map(|names| flowing_html(&document, 2, names));
    let page = format!("<main>{}{}</main>", both[0], both[1]);
    let xml = Xml::parse(&page).unwrap();
    let names: Vec<&str> = xml.descendants().filter_map(|node| node.attribute("id")).collect();
    assert!(names.len() > 20, "{names:?}");
    assert_eq!(names.iter().collect::<BTreeSet<_>>().len(), names.len());
}
