//! Tables that are worked through row by row, on their pages: groups that stay whole, columns that do not
//! jump, heads and boxes that are read aloud.

use std::collections::{BTreeMap, BTreeSet};

use crate::generate::specimen;
use lidsheet::document::{Align, Block, Density, Document, Inline, RowMark, Table, TableKind};
use lidsheet::page::{Pages, Paper, Role, lay_out};
use lidsheet::text::Typesetter;

/// A document with a matrix of groups, each with so many rows.
fn matrix(groups: &[usize]) -> Document {
    let plain = |text: String| vec![Inline::Plain(text)];
    let (mut rows, mut marks) = (Vec::new(), BTreeMap::new());
    for (group, count) in groups.iter().enumerate() {
        marks.insert(rows.len(), RowMark::Head);
        rows.push(vec![plain(format!("head{group}."))]);
        for row in 0..*count {
            let what = plain(format!("row{group}.{row}."));
            let number = plain((row + 1).to_string());
            rows.push(vec![number, vec![Inline::Tick], what]);
        }
    }
    let head = ["", "", "Check"];
    let table = Table {
        columns: vec![Align::Left; 3],
        head: head.iter().map(|text| plain((*text).to_owned())).collect(),
        rows,
        marks,
        summary: "What to check".into(),
        kind: TableKind::Matrix,
    };
    specimen::document(vec![Block::Table(table)])
}

/// The pages that a text stands on.
fn pages_with(pages: &Pages, text: &str) -> Vec<usize> {
    let on = pages.pages.iter().enumerate();
    on.filter(|(_, page)| page.text_boxes().iter().any(|(_, box_)| box_ == text))
        .map(|(number, _)| number)
        .collect()
}

/// A sign and its checks stay on one page; of one that is too long for that, the head is repeated.
#[test]
fn a_sign_is_not_cut_or_is_named_on_every_page() {
    let mut groups: Vec<usize> = (0..30).map(|group| 2 + group * 5 % 9).collect();
    groups.push(150);
    groups.push(3);
    for paper in Paper::ALL {
        let pages = lay_out(&matrix(&groups), paper, &mut Typesetter::new());
        for (group, count) in groups.iter().enumerate() {
            let heads = pages_with(&pages, &format!("head{group}."));
            let rows =
                (0..*count).flat_map(|row| pages_with(&pages, &format!("row{group}.{row}.")));
            let rows: Vec<usize> = rows.collect();
            assert_eq!(rows.len(), *count, "{paper:?}: each row stands once");
            let on: BTreeSet<usize> = rows.into_iter().collect();
            let on: Vec<usize> = on.into_iter().collect();
            assert_eq!(heads, on, "{paper:?}: group {group} of {count}");
            assert_eq!(on.len() == 1, *count < 100, "{paper:?}: group {group} of {count}");
        }
    }
}

/// Through two columns: each row once, each sign in one column or named again above what goes on, and
/// the first of them in what the page has left.
#[test]
fn a_matrix_runs_through_columns_and_pages() {
    let mut groups: Vec<usize> = (0..60).map(|group| 2 + group * 5 % 9).collect();
    groups.push(150);
    let mut document = matrix(&groups);
    let blocks = std::mem::take(&mut document.blocks);
    document.blocks = vec![
        specimen::paragraph(&"Above the columns. ".repeat(60)),
        Block::Columns { count: 2, blocks },
    ];
    let pages = lay_out(&document, Paper::A4, &mut Typesetter::new());
    assert!(!pages_with(&pages, "row0.0.").contains(&1), "it begins below what stands above");
    let (mut columns, mut named) = (BTreeSet::new(), 0);
    for (group, count) in groups.iter().enumerate() {
        let places = |text: &str| -> Vec<(usize, i64)> {
            let on = pages.pages.iter().enumerate();
            let boxes = on.flat_map(|(number, page)| {
                page.text_boxes().into_iter().map(move |(area, text)| (number, area, text))
            });
            boxes
                .filter(|(.., known)| known == text)
                .map(|(page, area, _)| (page, (area.left / 80.0) as i64))
                .collect()
        };
        let heads = places(&format!("head{group}."));
        let rows: Vec<(usize, i64)> =
            (0..*count).flat_map(|row| places(&format!("row{group}.{row}."))).collect();
        assert_eq!(rows.len(), *count, "each row of {group} stands once");
        let on: BTreeSet<(usize, i64)> = rows.into_iter().collect();
        assert_eq!(heads, on.iter().copied().collect::<Vec<_>>(), "group {group} of {count}");
        columns.extend(on);
        named += heads.len();
    }
    assert!(columns.len() > 6 && named > groups.len(), "{columns:?}, {named}");
}

/// A head over all columns is a cell that spans them, and boxes to tick have a place in what is read.
#[test]
fn a_matrix_is_read_aloud_with_its_heads_and_boxes() {
    let groups = [3, 4];
    let pages = lay_out(&matrix(&groups), Paper::A4, &mut Typesetter::new());
    let count = |wanted: &dyn Fn(&Role) -> bool| {
        pages.nodes.iter().filter(|node| wanted(&node.role)).count()
    };
    let spans = |role: &Role| matches!(role, Role::GroupHead(columns) if columns.get() == 3);
    assert_eq!(count(&spans), groups.len());
    assert_eq!(count(&|role| *role == Role::Tick), groups.iter().sum::<usize>());
    // Seven rows of three cells and the head's.
    assert_eq!(count(&|role| *role == Role::Cell), 7 * 3);
    assert_eq!(count(&|role| *role == Role::HeadCell), 3);
    lidsheet::write::pdf(&pages).expect("it is PDF/UA");
}

/// The columns of all tables of a document stand at the same places.
#[test]
fn columns_do_not_jump() {
    let left = |groups: &[usize]| -> f64 {
        let pages = lay_out(&matrix(groups), Paper::A4, &mut Typesetter::new());
        let boxes = pages.pages[0].text_boxes();
        boxes.iter().find(|(_, text)| text == "Check").expect("it is the head").0.left
    };
    assert_eq!(left(&[1]), left(&[12, 30, 2]));
    assert_eq!(matrix(&[1]).density, Density::Roomy);
}
