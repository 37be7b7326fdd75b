//! Every PDF that the program writes keeps to PDF/UA-1 and PDF/A-2a, by a validator that is not
//! ours, and what that one does not look at: cells that a row lacks, levels of headings that are
//! left out, boxes to tick that nobody hears of.

use std::collections::BTreeMap;

use crate::compile::{self, printed};
use crate::generate::{self, documents};
use crate::pages;
use crate::readers::reading::{self, Reading};
use crate::readers::validity;
use lidsheet::page::{Paper, lay_out};
use lidsheet::text::Typesetter;
use lidsheet::write::pdf;
use proptest::prelude::*;

/// Everything that is wrong with a file.
fn faults(file: &[u8]) -> Vec<String> {
    let mut faults = validity::faults(file);
    faults.extend(faults_of_tags(&reading::read(file)));
    faults
}

#[test]
fn every_pdf_of_the_demo_keeps_to_its_standards() {
    for paper in printed::PAPERS {
        for (name, file) in printed::demo(paper) {
            assert_eq!(faults(file), [""; 0], "{name} on {paper}");
        }
    }
}

/// Another program reads them without a complaint.
#[test]
#[ignore = "needs pdfinfo of poppler-utils; tests/all runs it where that is installed"]
fn poppler_reads_every_pdf_of_the_demo() {
    let mut read = 0;
    for paper in printed::PAPERS {
        for (name, file) in printed::demo(paper) {
            assert_eq!(validity::complaints(file), "", "{name} on {paper}");
            read += 1;
        }
    }
    assert!(read > 30, "{read}");
}

proptest! {
    #![proptest_config(crate::generate::cases(24))]

    #[test]
    fn every_document_keeps_to_its_standards(document in documents::any()) {
        for paper in Paper::ALL {
            let file = pdf(&lay_out(&document, paper, &mut Typesetter::new())).expect("a PDF");
            prop_assert_eq!(faults(&file), [""; 0], "{:?}", paper);
        }
    }

    #[test]
    fn the_sheets_of_every_board_keep_to_their_standards(
        text in generate::any_board(),
        paper in prop::sample::select(&pages::PAPERS),
    ) {
        let pages = pages::pages(&compile::sound(&text), paper, &mut Typesetter::new());
        let file = pdf(&pages).expect("a PDF");
        prop_assert_eq!(faults(&file), [""; 0]);
    }
}

/// The validator sees what is taken away.
#[test]
fn the_validator_finds_a_file_that_is_not_marked() {
    let document = generate::specimen::everything(&mut Typesetter::new());
    let file = pdf(&lay_out(&document, Paper::A4, &mut Typesetter::new())).expect("a PDF");
    assert_eq!(faults(&file), [""; 0]);
    let at = file.windows(12).rposition(|bytes| bytes == b"/Marked true").expect("it is marked");
    let mut unmarked = file.clone();
    unmarked[at..at + 12].copy_from_slice(b"/Marked null");
    assert!(validity::faults(&unmarked).len() >= 2, "one by each standard");
}

/// What a screen reader would stumble over, in words.
fn faults_of_tags(reading: &Reading) -> Vec<String> {
    let mut faults = Vec::new();
    let (mut level, mut rows) = (0, Vec::new());
    let finish = |rows: &mut Vec<usize>, faults: &mut Vec<String>| {
        // A row of one cell heads those under it, and spans all columns; the validator counts that.
        let full = || rows.iter().filter(|cells| **cells != 1);
        if full().any(|cells| Some(cells) != full().next()) {
            faults.push(format!("a table has rows of {rows:?} cells"));
        }
        rows.clear();
    };
    for path in &reading.elements {
        let tag = path.rsplit('/').next().unwrap_or_default();
        match tag {
            "Table" => finish(&mut rows, &mut faults),
            "TR" => rows.push(0),
            "TH" | "TD" => *rows.last_mut().expect("a cell is in a row") += 1,
            _ => {}
        }
        let heading = tag.strip_prefix('H').and_then(|level| level.parse::<u32>().ok());
        if let Some(own) = heading {
            if own > level + 1 {
                faults.push(format!("a heading of level {own} follows one of level {level}"));
            }
            level = own;
        }
        let inside = |parent: &str| path.ends_with(&format!("/{parent}/{tag}"));
        let misplaced = match tag {
            "LI" => !inside("L"),
            "Lbl" | "LBody" => !inside("LI"),
            "TR" => !(inside("THead") || inside("TBody")),
            "TOCI" => !inside("TOC"),
            _ => false,
        };
        if misplaced {
            faults.push(format!("{path} stands in the wrong place"));
        }
    }
    finish(&mut rows, &mut faults);
    faults
}

/// A box to tick and a line to write on are heard, in a step, a cell and among words.
#[test]
fn boxes_to_tick_and_lines_to_write_on_are_told() {
    use generate::specimen;
    use lidsheet::document::{Align, Block, Inline, ListKind};
    let words = |text: &str| Inline::Plain(text.to_owned());
    let mut table = specimen::table(&[Align::Left; 2], &["What", "Seen"], &[]);
    if let Block::Table(table) = &mut table {
        table.rows.push(vec![vec![words("W1")], vec![Inline::Tick]]);
        table.rows.push(vec![vec![words("W2")], vec![Inline::Blank { width: 20.0 }]]);
    }
    let document = specimen::document(vec![
        specimen::heading(1, "Check", None),
        Block::List { kind: ListKind::Steps(1), items: vec![vec![specimen::paragraph("Look.")]] },
        table,
        Block::Paragraph(vec![words("Pump "), Inline::Tick, words(" runs.")]),
    ]);
    let file = pdf(&lay_out(&document, Paper::A4, &mut Typesetter::new())).expect("a PDF");
    assert_eq!(faults(&file), [""; 0]);
    let mut told: BTreeMap<String, usize> = BTreeMap::new();
    for (path, text) in reading::read(&file).instead {
        *told.entry(format!("{path} {text}")).or_default() += 1;
    }
    let wanted = [
        ("Document/L/LI/Lbl/Span ☐", 1),
        ("Document/P/Span ☐", 1),
        ("Document/Table/TBody/TR/TD/Span ____", 1),
        ("Document/Table/TBody/TR/TD/Span ☐", 1),
    ];
    let wanted = wanted.map(|(path, count)| (path.to_owned(), count));
    assert_eq!(told, BTreeMap::from(wanted));
}
