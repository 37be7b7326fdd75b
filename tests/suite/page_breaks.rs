//! Where pages end: nothing is parted that is read together, and no page stands for a few lines.
//! Judged by the tags of the finished PDFs.

use std::collections::{BTreeMap, BTreeSet};

use crate::compile::{self, printed};
use crate::generate;
use crate::pages;
use crate::readers::reading::{self, Reading, Said};
use lidsheet::document::{Align, Block, Signal};
use lidsheet::page::{Paper, lay_out};
use lidsheet::text::Typesetter;
use lidsheet::write::pdf;
use proptest::prelude::*;

/// A table of fewer rows is never cut.
const FEW_ROWS: usize = 6;
/// No last page has fewer lines.
const FEW_LINES: usize = 6;

/// What is wrong with the pages of a file, in words.
fn faults(file: &[u8]) -> Vec<String> {
    let reading = reading::read(file);
    let count = reading.decoration.len();
    let on = |page: usize| -> Vec<&Said> {
        reading.said.iter().filter(|said| said.page == Some(page)).collect()
    };
    let mut faults = Vec::new();
    for page in 0..count {
        let said = on(page);
        let Some(last) = said.last() else {
            faults.push(format!("page {} says nothing", page + 1));
            continue;
        };
        if page + 1 < count
            && let Some(first) = on(page + 1).first()
            && let Some(what) = parted(last, first)
        {
            faults.push(format!("page {} ends with {what}: {}", page + 1, last.text));
        }
    }
    faults.extend(cut_tables(&reading));
    faults.extend(cut_ranges(&reading));
    let lines = lines(&on(count - 1));
    if count > 1 && lines < FEW_LINES {
        faults.push(format!("the last of {count} pages has {lines} lines"));
    }
    faults
}

/// What the last words of a page are, if the first of the next should stand beside them.
fn parted(last: &Said, first: &Said) -> Option<&'static str> {
    let tag = last.path.rsplit('/').next().unwrap_or_default();
    if tag.strip_prefix('H').is_some_and(|level| level.parse::<u8>().is_ok()) {
        return Some("a heading");
    }
    if let Some(caution) = last.inside("Sect")
        && first.inside("Sect") != Some(caution)
    {
        return Some("a caution");
    }
    let introduces = tag == "P" && last.text.trim_end().ends_with(':');
    introduces.then_some("what introduces the next")
}

fn cut_tables(reading: &Reading) -> Vec<String> {
    let mut tables: BTreeMap<usize, (BTreeSet<usize>, BTreeSet<usize>)> = BTreeMap::new();
    for said in reading.said.iter().filter(|said| said.path.contains("/TBody/")) {
        let (Some(table), Some(row)) = (said.inside("Table"), said.inside("TR")) else { continue };
        let (rows, pages) = tables.entry(table).or_default();
        rows.insert(row);
        pages.extend(said.page);
    }
    let cut = tables.values().filter(|(rows, pages)| rows.len() < FEW_ROWS && pages.len() > 1);
    cut.map(|(rows, pages)| format!("a table of {} rows is cut: {pages:?}", rows.len())).collect()
}

fn cut_ranges(reading: &Reading) -> Vec<String> {
    let cut = reading.said.iter().filter(|said| {
        let before = said.text.trim_end().strip_suffix('–');
        before.is_some_and(|before| before.ends_with(char::is_alphanumeric))
    });
    cut.map(|said| format!("a line ends within a range: {}", said.text)).collect()
}

/// The lines of a page; a row of a table has those of its highest cell, a drawing is enough.
fn lines(said: &[&Said]) -> usize {
    let mut rows: BTreeMap<usize, BTreeMap<Option<usize>, usize>> = BTreeMap::new();
    let mut lines = 0;
    for said in said {
        match said.inside("TR") {
            Some(row) => {
                let cell = said.inside("TD").or(said.inside("TH"));
                *rows.entry(row).or_default().entry(cell).or_default() += 1;
            }
            None if said.path.contains("Figure") => lines += FEW_LINES,
            // The number of an item stands beside its words.
            None if said.path.contains("/Lbl") => {}
            None => lines += 1,
        }
    }
    let highest = |cells: &BTreeMap<_, usize>| cells.values().copied().max().unwrap_or_default();
    lines + rows.values().map(highest).sum::<usize>()
}

#[test]
fn the_pages_of_the_demo_end_well() {
    let mut found = Vec::new();
    for paper in printed::PAPERS {
        for (name, file) in printed::demo(paper) {
            found.extend(faults(file).into_iter().map(|fault| format!("{name}, {paper}: {fault}")));
        }
    }
    assert_eq!(found, [""; 0], "{found:#?}");
}

proptest! {
    #![proptest_config(crate::generate::cases(24))]

    #[test]
    fn the_pages_of_every_board_end_well(
        text in generate::any_board(),
        paper in prop::sample::select(&pages::PAPERS),
    ) {
        let pages = pages::pages(&compile::sound(&text), paper, &mut Typesetter::new());
        let file = pdf(&pages).expect("a PDF");
        let mut found = faults(&file);
        // Where rows that stay together leave no other choice, a last page can have a few lines.
        found.retain(|fault| !fault.starts_with("the last of"));
        prop_assert_eq!(found, [""; 0]);
    }
}

/// What a writer may put together, moved down a page line by line.
#[test]
fn what_is_read_together_stays_together() {
    use generate::specimen::{self, heading, paragraph};
    let rows: Vec<Vec<String>> =
        (1..6).map(|row| vec![format!("J{row}"), "what it is for".to_owned()]).collect();
    let table = specimen::table(&[Align::Left; 2], &["Header", "Purpose"], &rows);
    let caution = Block::Caution {
        signal: Signal::Warning,
        blocks: vec![paragraph("The pins of a header that is not in use can be live.")],
    };
    let mut types = Typesetter::new();
    for lines in 1..70 {
        let filler = (0..lines).map(|_| paragraph("One line."));
        let mut blocks = vec![heading(1, "Start", None)];
        blocks.extend(filler);
        blocks.extend([
            heading(2, "Headers", None),
            caution.clone(),
            paragraph("These are the headers:"),
            table.clone(),
            paragraph("Layouts 1–7 use them all."),
        ]);
        let document = specimen::document(blocks);
        for paper in Paper::ALL {
            let file = pdf(&lay_out(&document, paper, &mut types)).expect("a PDF");
            assert_eq!(faults(&file), [""; 0], "{lines} lines on {paper:?}");
        }
    }
}

/// The judge sees what a writer's own page breaks do.
#[test]
fn what_is_parted_is_found() {
    use generate::specimen::{document, heading, paragraph};
    let caution = Block::Caution { signal: Signal::Notice, blocks: vec![paragraph("Look.")] };
    for (last, wanted) in [
        (heading(2, "Headers", None), "page 1 ends with a heading: Headers"),
        (caution, "page 1 ends with a caution: Look."),
        (paragraph("These are:"), "page 1 ends with what introduces the next: These are:"),
    ] {
        let mut blocks = vec![heading(1, "Start", None), last, Block::PageBreak];
        blocks.extend((0..FEW_LINES).map(|_| paragraph("One line.")));
        let file = pdf(&lay_out(&document(blocks), Paper::A4, &mut Typesetter::new()));
        assert_eq!(faults(&file.expect("a PDF")), [wanted]);
    }
    let blocks = vec![paragraph("One."), Block::PageBreak, paragraph("Two.")];
    let file = pdf(&lay_out(&document(blocks), Paper::A4, &mut Typesetter::new()));
    assert_eq!(faults(&file.expect("a PDF")), ["the last of 2 pages has 1 lines"]);

    let said = |path: &str, text: &str, page: usize, within: &[usize]| Said {
        path: path.to_owned(),
        text: text.to_owned(),
        page: Some(page),
        within: within.to_owned(),
    };
    let cell = "Document/Table/TBody/TR/TD";
    let said = vec![
        said("Document/P", "Layouts 1–", 0, &[0, 1]),
        said("Document/P", "an aside –", 0, &[0, 1]),
        said(cell, "J1", 0, &[0, 2, 3, 4, 5]),
        said(cell, "J2", 1, &[0, 2, 3, 6, 7]),
    ];
    let reading = Reading { said, ..Reading::default() };
    assert_eq!(cut_ranges(&reading), ["a line ends within a range: Layouts 1–"]);
    assert_eq!(cut_tables(&reading), ["a table of 2 rows is cut: {0, 1}"]);
}
