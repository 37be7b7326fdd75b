//! The course of a board: every exercise once in the handout, in the answers and on a card, none
//! of them cut, no answer beside its question, and the same bytes for the same seed.

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

use crate::compile::{self, demo};
use crate::generate;
use crate::oracle::drawing;
use crate::plain_words::COURSE;
use crate::readers::reading;
use lidsheet::board::{Board, Device};
use lidsheet::build::{self, Cards, HandoutMade, HandoutOrder};
use lidsheet::compile::Checked;
use lidsheet::decide::exercises::{Exercise, Task, TaskKind, exercises};
use lidsheet::decide::services;
use lidsheet::diagnostic::Problems;
use lidsheet::document::{Block, Density, Document, Inline, plain_text};
use lidsheet::geometry::{Point, Rect};
use lidsheet::page::{Pages, Paper, Role, lay_out};
use lidsheet::reading::{Counts, count, grade};
use lidsheet::scene::Item;
use lidsheet::sheet::{Course, Templates, answer_sheet, course_cards, course_handout};
use lidsheet::source::Sources;
use lidsheet::text::Typesetter;
use proptest::prelude::*;

const BOARDS: [&str; 3] = ["heron-8", "wren-3", "curlew-10"];
const PAPERS: [Paper; 3] = [Paper::A4, Paper::Letter, Paper::A5];

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// The three documents of a course.
struct Made {
    exercises: Vec<Exercise>,
    handout: Document,
    answers: Document,
    cards: Document,
}

fn made(board: &Board, count: usize, seed: u64, paper: Paper) -> Made {
    let all = exercises(board, count, seed);
    let (mut sources, mut problems) = (Sources::default(), Problems::default());
    let templates = Templates::built_in(&mut sources);
    let course = Course { board, exercises: &all, seed };
    let mut set = Typesetter::new();
    let card = (paper.card(Density::Roomy), Density::Roomy);
    let handout = course_handout(&course, &mut set, paper, &templates, &mut problems);
    let answers = answer_sheet(&course, &mut set, paper, &templates, &mut problems);
    let cards = course_cards(&course, &mut set, card, &templates, &mut problems);
    assert!(problems.sorted().is_empty(), "{}", compile::told(&problems.sorted(), &sources));
    Made {
        exercises: all,
        handout: handout.expect("a handout"),
        answers: answers.expect("answers"),
        cards: cards.expect("cards"),
    }
}

/// Where each numbered heading begins: its number, its page and its words.
fn numbered(pages: &Pages) -> Vec<(usize, usize, String)> {
    let numbered = pages.headings.iter().filter_map(|heading| {
        let rest = heading.text.strip_prefix("Exercise ")?;
        let (number, words) = rest.split_once(": ")?;
        Some((number.parse().expect("a number"), heading.page, words.to_owned()))
    });
    numbered.collect()
}

#[test]
fn every_exercise_stands_once_in_each() {
    for name in BOARDS {
        let board = demo::version_1(name);
        let made = made(&board, 14, 1, Paper::A4);
        assert_eq!(made.exercises.len(), 14, "{name}");
        let mut set = Typesetter::new();
        let titles = |document: &Document, set: &mut Typesetter| -> Vec<(usize, String)> {
            let found = numbered(&lay_out(document, Paper::A4, set));
            found.into_iter().map(|(number, _, words)| (number, words)).collect()
        };
        let handout = titles(&made.handout, &mut set);
        let numbers: Vec<usize> = handout.iter().map(|(number, _)| *number).collect();
        assert_eq!(numbers, (1..=14).collect::<Vec<_>>(), "{name}");
        assert_eq!(handout, titles(&made.answers, &mut set), "{name}: the answers");
        assert_eq!(handout, titles(&made.cards, &mut set), "{name}: the cards");
    }
}

/// The page of every strip of text is that of the heading before it, up to the next one: the nodes
/// of a page are read in the order in which they are drawn.
#[test]
fn no_exercise_is_split_over_two_pages() {
    let mut set = Typesetter::new();
    for name in BOARDS {
        let board = demo::version_1(name);
        for (paper, seed) in PAPERS.into_iter().zip([1, 2, 3]) {
            let made = made(&board, 20, seed, paper);
            for document in [&made.handout, &made.answers, &made.cards] {
                let pages = lay_out(document, paper, &mut set);
                let spans = spans(&pages);
                assert_eq!(spans.len(), made.exercises.len(), "{name}: {}", document.title);
                for (number, first, last) in spans {
                    assert_eq!(first, last, "{name} {paper:?} {}: {number}", document.title);
                }
            }
        }
    }
}

/// For each exercise the first and the last page that something of it is drawn on.
fn spans(pages: &Pages) -> Vec<(usize, usize, usize)> {
    let mut pages_of = vec![None; pages.nodes.len()];
    for (number, page) in pages.pages.iter().enumerate() {
        mark(&page.items, number, &mut pages_of);
    }
    let mut all: Vec<(usize, usize, usize)> = Vec::new();
    for (node, page) in pages.nodes.iter().zip(pages_of) {
        if let Role::Heading { text, level } = &node.role {
            match text.strip_prefix("Exercise ").and_then(|rest| rest.split_once(": ")) {
                Some((number, _)) => {
                    let page = page.expect("a heading is drawn");
                    all.push((number.parse().expect("a number"), page, page));
                    continue;
                }
                // The title and the sections.
                None if *level <= 2 => continue,
                None => {}
            }
        }
        if let (Some((_, _, last)), Some(page)) = (all.last_mut(), page) {
            *last = page.max(*last);
        }
    }
    all
}

/// Notes on which page each node is drawn; the last one, if there are several.
fn mark(items: &[Item], page: usize, to: &mut [Option<usize>]) {
    for item in items {
        match item {
            Item::Tagged { node, items } => {
                if let Some(place) = node.and_then(|node| to.get_mut(node)) {
                    *place = Some(page);
                }
                mark(items, page, to);
            }
            Item::Group { items, .. } | Item::Scaled { items, .. } => mark(items, page, to),
            _ => {}
        }
    }
}

/// Texts lie apart and inside the margins, on every paper, and nothing is set under 7 pt.
#[test]
fn every_page_is_clear() {
    let mut set = Typesetter::new();
    for name in BOARDS {
        let board = demo::version_1(name);
        for paper in PAPERS {
            let made = made(&board, 21, 4, paper);
            for document in [&made.handout, &made.answers, &made.cards] {
                let pages = lay_out(document, paper, &mut set);
                for (number, page) in pages.pages.iter().enumerate() {
                    let place = format!("{name} {paper:?} {} page {}", document.title, number + 1);
                    let boxes = page.text_boxes();
                    assert!(!boxes.is_empty(), "{place} is empty");
                    for (index, (one, text)) in boxes.iter().enumerate() {
                        let sides = one.left >= pages.area.left - 1e-6
                            && one.right <= pages.area.right + 1e-6;
                        assert!(sides, "{place}: {text:?} lies outside at {one:?}");
                        for (other, words) in &boxes[index + 1..] {
                            assert!(
                                !one.grown(-0.02).overlaps(&other.grown(-0.02)),
                                "{place}: {text:?} lies on {words:?}"
                            );
                        }
                    }
                    smallest(&page.items, 1.0, &place);
                }
            }
        }
    }
}

fn smallest(items: &[Item], scale: f64, place: &str) {
    for item in items {
        match item {
            Item::Text { line, .. } => {
                let small = line.runs.iter().any(|run| run.size_pt * scale < 7.0 - 1e-9);
                assert!(!small, "{place}: {:?} is set too small", line.text());
            }
            Item::Group { items, .. } | Item::Tagged { items, .. } => {
                smallest(items, scale, place);
            }
            Item::Scaled { by, items } => smallest(items, scale * by, place),
            _ => {}
        }
    }
}

/// Cards fill their pages, the first one after the words on it: where a column ends, the next card
/// would have had no room. No words lie on a line to cut along.
#[test]
fn cards_fill_their_pages_and_none_is_cut() {
    let mut set = Typesetter::new();
    for name in BOARDS {
        let board = demo::version_1(name);
        for paper in [Paper::A4, Paper::Letter] {
            for seed in 1..=4 {
                let made = made(&board, 14, seed, paper);
                let pages = lay_out(&made.cards, paper, &mut set);
                let place = format!("{name} {paper:?} {seed}");
                let cards = cards(&pages);
                assert_eq!(cards.len(), 14, "{place}: {cards:?}");
                for two in cards.windows(2) {
                    let ((page, one), (next, other)) = (two[0], two[1]);
                    let goes_on = page == next && (one.left - other.left).abs() < 0.1;
                    // Below the words of the first page a little is left free.
                    let spare = if page == 0 { 14.0 } else { 0.1 };
                    let full = one.bottom + other.height() > pages.area.bottom - spare;
                    assert!(goes_on || full, "{place}: {two:?}");
                }
                for (page, card) in cards {
                    for (area, text) in pages.pages[page].text_boxes() {
                        let apart = !card.overlaps(&area.grown(-0.1));
                        let inside = card.contains(&area);
                        assert!(apart || inside, "{place}: {text:?} is cut");
                    }
                }
            }
        }
    }
}

/// The cards in their order: page and place of each, by the line to cut along above it, which is half
/// as wide as the page, and the next one below it.
fn cards(pages: &Pages) -> Vec<(usize, Rect)> {
    let mut found = Vec::new();
    let width = pages.area.width() / 2.0;
    for (number, page) in pages.pages.iter().enumerate() {
        let mut lines = Vec::new();
        drawing::stretches(&page.items, Point::default(), &mut lines);
        let half = |(a, b): &(Point, Point)| {
            (a.y - b.y).abs() < 1e-9 && ((b.x - a.x).abs() - width).abs() < 1e-6
        };
        for left in [pages.area.left, pages.area.left + width] {
            let column = lines.iter().filter(|line| half(line));
            let column = column.filter(|(a, b)| (a.x.min(b.x) - left).abs() < 0.1);
            let mut levels: Vec<f64> = column.map(|(a, _)| a.y).collect();
            levels.sort_by(f64::total_cmp);
            levels.dedup_by(|a, b| (*a - *b).abs() < 1e-6);
            found.extend(levels.windows(2).map(|two| {
                let area = Rect { left, top: two[0], right: left + width, bottom: two[1] };
                (number, area)
            }));
        }
    }
    found
}

/// What an answer says in so many words is not in its question: not the pins in their order, not
/// the setting of the ways, not the layout's row.
#[test]
fn no_answer_stands_beside_its_question() {
    let mut checked: BTreeMap<TaskKind, usize> = BTreeMap::new();
    for name in BOARDS {
        let board = demo::version_1(name);
        for seed in 1..=6 {
            let made = made(&board, 21, seed, Paper::A4);
            let asked = questions(&made.handout.blocks);
            assert_eq!(asked.len(), made.exercises.len());
            for (exercise, blocks) in made.exercises.iter().zip(asked) {
                let text = words(blocks);
                *checked.entry(exercise.kind()).or_default() += 1;
                match &exercise.task {
                    Task::DrawPins(task) => {
                        let pins: Vec<String> = task
                            .answer
                            .pins
                            .iter()
                            .map(|pin| pin.map_or("empty".to_owned(), |pin| pin.to_string()))
                            .collect();
                        assert!(!text.contains(&pins.join(", ")), "{name} {seed}: {text}");
                        // Nothing but `empty`, which the question asks for, names a pin.
                        for pin in pins.iter().filter(|pin| *pin != "empty") {
                            let named = text.split(|c: char| !c.is_alphabetic());
                            assert!(named.into_iter().all(|word| word != pin), "{pin}: {text}");
                        }
                    }
                    Task::SetSwitches(task) => {
                        let sum = lidsheet::units::shortest(task.sum.amps.0, 2);
                        let cells: Vec<&str> = text.split_whitespace().collect();
                        let single = task.sum.terms.len() > 1;
                        assert!(!single || !cells.contains(&sum.as_str()), "{name} {seed}: {text}");
                        assert!(!text.contains(" off, "), "{name} {seed}: {text}");
                    }
                    Task::FindLayout(task) => {
                        let number = task.answer.to_string();
                        let question = text.split_once("This is installed").expect("a question").1;
                        let mut parts = question.split(|c: char| !c.is_alphanumeric());
                        assert!(!parts.any(|part| part == number), "{name} {seed}: {text}");
                    }
                    Task::MoveJumpers(_) => {
                        assert!(!text.contains("moved to"), "{name} {seed}: {text}");
                    }
                    _ => {}
                }
            }
        }
    }
    for kind in
        [TaskKind::DrawPins, TaskKind::SetSwitches, TaskKind::FindLayout, TaskKind::MoveJumpers]
    {
        assert!(checked.get(&kind).is_some_and(|count| *count > 15), "{checked:?}");
    }
}

/// The blocks of each exercise of a handout.
fn questions(blocks: &[Block]) -> Vec<&[Block]> {
    let together = blocks.iter().filter_map(|block| match block {
        Block::Together(blocks) => Some(blocks.as_slice()),
        _ => None,
    });
    together.collect()
}

/// All words of blocks, those of drawings included.
fn words(blocks: &[Block]) -> String {
    let mut all = String::new();
    let mut add = |text: &str| {
        all.push_str(text);
        all.push(' ');
    };
    for block in blocks {
        match block {
            Block::Heading { text, .. } | Block::Paragraph(text) => add(&plain_text(text)),
            Block::List { items, .. } => items.iter().for_each(|item| add(&words(item))),
            Block::Table(table) => {
                table.head.iter().chain(table.rows.iter().flatten()).for_each(|cell| {
                    add(&plain_text(cell));
                });
            }
            Block::Figure { scene, alternative, caption, .. } => {
                add(alternative);
                add(&plain_text(caption));
                scene.text_boxes().iter().for_each(|(_, text)| add(text));
            }
            Block::Caution { blocks, .. }
            | Block::Columns { blocks, .. }
            | Block::Together(blocks)
            | Block::Step { blocks, .. }
            | Block::Landscape(blocks) => add(&words(blocks)),
            Block::Cards(cards) | Block::Beside { parts: cards, .. } => {
                cards.iter().for_each(|card| add(&words(card)))
            }
            Block::Title { text, subtitle } => {
                add(text);
                add(subtitle);
            }
            Block::Contents { .. } | Block::PageBreak => {}
        }
    }
    all
}

/// There is room to write in every exercise: a line, a box to tick, an empty cell or a drawing to
/// fill in.
#[test]
fn every_exercise_has_room_for_its_answer() {
    fn room(blocks: &[Block]) -> bool {
        let marks = |inline: &Inline| matches!(inline, Inline::Blank { .. } | Inline::Tick);
        blocks.iter().any(|block| match block {
            Block::Paragraph(text) => text.iter().any(marks),
            Block::Table(table) => {
                let cells = table.rows.iter().flatten();
                let mut cells = cells.filter(|cell| cell.is_empty() || cell.iter().any(marks));
                cells.next().is_some()
            }
            Block::Figure { alternative, .. } => alternative.contains("filled in"),
            Block::Columns { blocks, .. } => room(blocks),
            _ => false,
        })
    }
    for name in BOARDS {
        let board = demo::version_1(name);
        let made = made(&board, 21, 1, Paper::A4);
        let asked = questions(&made.handout.blocks);
        assert_eq!(asked.len(), 21, "{name}");
        for blocks in asked {
            assert!(room(blocks), "{name}: {}", words(blocks));
        }
    }
}

/// The usual cautions stand at the head of all three, whatever the templates say.
#[test]
fn the_cautions_cannot_be_taken_away() {
    let board = demo::version_1("heron-8");
    let all = exercises(&board, 3, 1);
    let (mut sources, mut problems) = (Sources::default(), Problems::default());
    let mut templates = Templates::built_in(&mut sources);
    for name in ["handout.md", "answers.md", "cards.md"] {
        let file = sources.add(name, "");
        assert!(templates.replace(name, file, ""));
    }
    let course = Course { board: &board, exercises: &all, seed: 1 };
    let mut set = Typesetter::new();
    let paper = Paper::A4;
    let card = (80.0, Density::Close);
    let documents = [
        course_handout(&course, &mut set, paper, &templates, &mut problems),
        answer_sheet(&course, &mut set, paper, &templates, &mut problems),
        course_cards(&course, &mut set, card, &templates, &mut problems),
    ];
    for document in documents {
        let document = document.expect("it needs no template");
        let text = words(&document.blocks);
        for wanted in [
            "Line voltage kills",
            "hang a tag on it",
            "licensed electrician",
            "The nameplate comes",
        ] {
            assert!(text.contains(wanted), "{}: {wanted}", document.title);
        }
    }
}

/// The file that `lidsheet handout` writes.
fn order(out: &Path, count: usize, seed: u64) -> HandoutOrder {
    HandoutOrder {
        exercises: count,
        seed,
        cards: Cards::Printed,
        out: out.to_owned(),
        stem: "heron-8".to_owned(),
        input: None,
        paper: Paper::A4,
        language: lidsheet::words::english(),
        templates: None,
    }
}

fn checked(name: &str) -> Checked {
    let bytes = fs::read(root().join("specs").join(format!("{name}.yaml"))).expect("it is there");
    build::check_bytes(&format!("{name}.yaml"), bytes, &root().join("specs"))
}

fn press(order: &HandoutOrder) -> HandoutMade {
    let mut checked = checked("heron-8");
    let report = build::handout(&mut checked, order);
    assert!(report.general.failed().is_none() && checked.problems.failed().is_none());
    report.made.expect("it was made")
}

const FILES: [&str; 3] = ["course-handout.pdf", "course-answers.pdf", "course-cards.pdf"];

fn bytes(out: &Path) -> Vec<Vec<u8>> {
    FILES.iter().map(|name| fs::read(out.join("heron-8").join(name)).expect(name)).collect()
}

#[test]
fn the_same_seed_gives_the_same_bytes_and_another_gives_others() {
    let desks: Vec<tempfile::TempDir> = (0..3).map(|_| tempfile::tempdir().unwrap()).collect();
    let outs: Vec<PathBuf> = desks.iter().map(|desk| desk.path().join("out")).collect();
    press(&order(&outs[0], 9, 1));
    press(&order(&outs[1], 9, 1));
    press(&order(&outs[2], 9, 2));
    assert!(bytes(&outs[0]) == bytes(&outs[1]), "the same seed");
    // Another seed gives other exercises, not only another number on the page.
    let said = |file: &[u8], seed: u64| {
        let text = reading::read(file).text();
        text.replace(&format!("Seed {seed}"), "").replace(&format!("seed {seed}"), "")
    };
    for (one, other) in bytes(&outs[0]).iter().zip(bytes(&outs[2])) {
        assert_ne!(said(one, 1), said(&other, 2), "another seed");
    }
    let again = press(&order(&outs[0], 9, 1));
    assert_eq!((again.placed.written.len(), again.placed.kept.len()), (0, 3));
}

/// On a board without jumpers no exercise lists them, and no caption shows them.
#[test]
fn a_board_without_jumpers_has_a_course_without_them() {
    let mut found = 0;
    for seed in 0..2000 {
        let board = compile::sound(&generate::boards::generate(seed));
        let all = services(&board);
        let mut served = all.iter().flat_map(|service| &service.served);
        let circulation = board.columns.contains(&Device::Circulation)
            || served.any(|it| it.device == Device::Circulation);
        if !board.jumpers.is_empty() || circulation {
            continue;
        }
        let made = made(&board, 14, 1, Paper::A4);
        let kinds: Vec<TaskKind> = made.exercises.iter().map(|exercise| exercise.kind()).collect();
        if !kinds.contains(&TaskKind::WhatsWrong) {
            continue;
        }
        for document in [&made.handout, &made.cards] {
            let text = words(&document.blocks);
            for word in ["Jumpers:", "jumpers as shipped", "irculation pump"] {
                assert!(!text.contains(word), "{seed}: {word}: {text}");
            }
        }
        found += 1;
        if found == 3 {
            return;
        }
    }
    panic!("only {found} boards");
}

/// What a screen reader reads in the files: every exercise once in each, by its heading.
#[test]
fn the_files_say_what_they_should() {
    let desk = tempfile::tempdir().unwrap();
    press(&order(desk.path(), 9, 5));
    for (file, bytes) in FILES.iter().zip(bytes(desk.path())) {
        let reading = reading::read(&bytes);
        let titles: Vec<&String> = reading
            .bookmarks
            .iter()
            .map(|(_, title)| title)
            .filter(|title| title.starts_with("Exercise "))
            .collect();
        assert_eq!(titles.len(), 9, "{file}: {titles:?}");
        let text = reading.text();
        for title in titles {
            assert_eq!(text.matches(title.as_str()).count(), 1, "{file}: {title}");
        }
        assert!(text.contains("Line voltage kills"), "{file}: {text}");
        assert!(!reading.decoration.is_empty(), "{file} has no page");
        assert!(
            reading.decoration.iter().all(|page| page.contains("Seed 5")),
            "{file}: the seed is not on every page"
        );
    }
}

/// Wren 3 has four layouts and few sockets: it cannot give two hundred exercises that differ.
#[test]
fn a_small_board_gives_what_it_can() {
    let desk = tempfile::tempdir().unwrap();
    let mut checked = checked("wren-3");
    let order = HandoutOrder { stem: "wren-3".to_owned(), ..order(desk.path(), 200, 1) };
    let made = build::handout(&mut checked, &order).made.expect("it was made");
    assert!(made.exercises < 200 && made.exercises >= 20, "{}", made.exercises);
    let file = fs::read(desk.path().join("wren-3/course-handout.pdf")).expect("a handout");
    let reading = reading::read(&file);
    let titles = reading.bookmarks.iter().filter(|(_, title)| title.starts_with("Exercise "));
    assert_eq!(titles.count(), made.exercises);
}

/// Flesch-Kincaid, as `lidsheet::reading` measures it, over the running text of all three; and no
/// sentence of more than 25 words.
#[test]
fn the_words_are_plain() {
    for name in BOARDS {
        let board = demo::version_1(name);
        let made = made(&board, 21, 1, Paper::A4);
        for document in [&made.handout, &made.answers, &made.cards] {
            let texts = running(&document.blocks);
            let counts: Counts = texts.iter().map(|text| count(text)).sum();
            let grade = grade(counts).expect("there are words");
            assert!(grade <= 8.0, "{name}, {}: grade {grade:.1}", document.title);
            for sentence in texts.iter().flat_map(|text| text.split_inclusive(['.', '?', ':'])) {
                let words = sentence.split_whitespace();
                let words = words.filter(|word| word.contains(char::is_alphabetic)).count();
                assert!(words <= 25, "{name}, {}: too long: {sentence}", document.title);
            }
        }
    }
}

/// The templates that are compiled in would be silent as a user's own, too.
#[test]
fn our_own_templates_have_no_long_sentence() {
    for name in BOARDS {
        let board = demo::version_1(name);
        let all = exercises(&board, 21, 1);
        let (mut sources, mut problems) = (Sources::default(), Problems::default());
        let mut templates = Templates::built_in(&mut sources);
        for template in COURSE {
            let path = root().join(format!("templates/en/{template}.md"));
            let text = fs::read_to_string(path).expect("it is there");
            let file = sources.add(format!("{template}.md"), text.as_str());
            assert!(templates.replace(&format!("{template}.md"), file, &text), "{template}");
        }
        let course = Course { board: &board, exercises: &all, seed: 1 };
        let mut set = Typesetter::new();
        let card = (Paper::A4.card(Density::Close), Density::Close);
        let documents = [
            course_handout(&course, &mut set, Paper::A4, &templates, &mut problems),
            answer_sheet(&course, &mut set, Paper::A4, &templates, &mut problems),
            course_cards(&course, &mut set, card, &templates, &mut problems),
        ];
        assert!(documents.iter().all(Result::is_ok), "{name}");
        assert!(problems.is_empty(), "{name}: {}", compile::told(&problems.sorted(), &sources));
    }
}

fn running(blocks: &[Block]) -> Vec<String> {
    let mut all = Vec::new();
    for block in blocks {
        match block {
            Block::Paragraph(text) => all.push(plain_text(text)),
            Block::List { items, .. } => items.iter().for_each(|b| all.extend(running(b))),
            Block::Caution { blocks, .. }
            | Block::Columns { blocks, .. }
            | Block::Together(blocks)
            | Block::Step { blocks, .. }
            | Block::Landscape(blocks) => all.extend(running(blocks)),
            Block::Cards(cards) | Block::Beside { parts: cards, .. } => {
                cards.iter().for_each(|card| all.extend(running(card)))
            }
            _ => {}
        }
    }
    all
}

proptest! {
    #![proptest_config(crate::generate::cases(24))]

    /// Any board that is sound has a course, if it gives exercises at all, and its files are sound.
    #[test]
    fn any_board_has_a_course(text in generate::any_board(), seed in any::<u64>()) {
        let board = compile::sound(&text);
        if exercises(&board, 8, seed).is_empty() {
            return Ok(());
        }
        // A board whose plan has no room for everything has no handout, which `inserts` judges.
        let made = made(&board, 8, seed, Paper::A4);
        for document in [&made.handout, &made.answers, &made.cards] {
            let pages = lay_out(document, Paper::A4, &mut Typesetter::new());
            prop_assert_eq!(numbered(&pages).len(), made.exercises.len());
            let file = lidsheet::write::pdf(&pages);
            prop_assert!(file.is_ok(), "{}: {:?}", document.title, file.err());
        }
    }
}
