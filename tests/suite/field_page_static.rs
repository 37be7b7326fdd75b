//! What the field page holds before any script runs: the questions of every board lead to every layout, and the
//! sheets of a board are all there.

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

use lidsheet::board::{Board, Device, LayoutNumber, Speeds};
use lidsheet::build::{self, Order};
use lidsheet::compile::Content;
use lidsheet::document::{Block, Fold, Inline, plain_text};
use lidsheet::page::Paper;
use lidsheet::sheet::question_steps;
use lidsheet::words::{LANGUAGES, Words, english};
use resvg::usvg::roxmltree::{Document as Xml, Node};
use sha2::{Digest, Sha256};

use crate::compile::demo;
use crate::generate::boards;

fn page(specs: &[&Path], out: &Path, languages: usize) -> String {
    let order = Order {
        paths: specs.iter().map(|path| path.to_path_buf()).collect(),
        out: out.to_owned(),
        paper: Paper::A4,
        languages: LANGUAGES.iter().take(languages).collect(),
        templates: None,
        threads: None,
        prune: false,
        png: None,
        field_page: true,
    };
    let report = build::run(&order, &|_| {}, &|| false);
    assert!(report.field_page.is_some());
    fs::read_to_string(out.join("field.html")).expect("the page")
}

fn words_of(blocks: &[Block]) -> Vec<String> {
    let mut all = Vec::new();
    for block in blocks {
        match block {
            Block::Paragraph(words) => all.push(plain_text(words)),
            Block::List { items, .. } => {
                all.extend(items.iter().flat_map(|item| words_of(item)));
            }
            other => panic!("{other:?}"),
        }
    }
    all
}

/// Follows every way through the questions: each answer rules layouts out, and what is left at the end is the
/// layout that is told.
fn follow(board: &Board, fold: &Fold, left: &[LayoutNumber], ends: &mut Vec<LayoutNumber>) {
    let words = words_of(&fold.blocks);
    if fold.folds.is_empty() {
        let [only] = left else { panic!("{left:?} are left at {words:?}") };
        assert_eq!(words[0], format!("Layout {only}"));
        let layout = board.layouts.iter().find(|it| it.number == *only).expect("a layout");
        // Each header with what it drives, or among those that stay empty.
        for id in board.header_ids() {
            let code = &board[id].code;
            let line = words.iter().filter(|line| match board.device_at(id, layout) {
                Some(_) => line.starts_with(&format!("{code}: ")),
                None => line
                    .strip_prefix("Stays empty: ")
                    .is_some_and(|all| all.split(", ").any(|it| it == code)),
            });
            assert_eq!(line.count(), 1, "{code} in {words:?}");
        }
        ends.push(*only);
        return;
    }
    let question = words.first().expect("a question").to_lowercase();
    let asked = |device: &&Device| format!("{device}?").to_lowercase() == question;
    let device = board.columns.iter().find(asked).unwrap_or_else(|| panic!("{question}"));
    let answers =
        [("Not installed", Speeds::None), ("One speed", Speeds::One), ("Two speeds", Speeds::Two)];
    for next in &fold.folds {
        let (_, speeds) =
            answers.iter().find(|(words, _)| *words == next.summary).expect("an answer");
        let agrees = |number: &&LayoutNumber| {
            let layout = board.layouts.iter().find(|it| it.number == **number).expect("a layout");
            layout.speeds_of(&board.columns, *device) == Some(*speeds)
        };
        let left: Vec<LayoutNumber> = left.iter().filter(agrees).copied().collect();
        follow(board, next, &left, ends);
    }
}

#[test]
fn questions_lead_to_every_layout_once() {
    let words = Words::english();
    let demo = ["heron-8", "wren-3", "curlew-10", "plover-40"].map(demo::board);
    let made = (0..40).map(|seed| {
        let name = format!("{seed}.yaml");
        let checked = build::check_bytes(&name, boards::generate(seed).into_bytes(), Path::new(""));
        let Content::Board(board) = checked.content else { panic!("a made-up board is sound") };
        *board
    });
    for board in demo.into_iter().chain(made) {
        let Some(fold) = question_steps(&board, &words) else {
            assert!(board.layouts.is_empty());
            continue;
        };
        let all: Vec<LayoutNumber> = board.layouts.iter().map(|layout| layout.number).collect();
        let mut ends = Vec::new();
        follow(&board, &fold, &all, &mut ends);
        ends.sort();
        assert_eq!(ends, all, "{}", board.about.name);
    }
}

/// Between `from` and the next `to`.
fn between<'a>(page: &'a str, from: &str, to: &str) -> &'a str {
    let rest = page.split_once(from).unwrap_or_else(|| panic!("{from}")).1;
    rest.split_once(to).unwrap_or_else(|| panic!("{to}")).0
}

/// What one element of the boards says, as XML.
fn boards_of(page: &str) -> String {
    let inside = between(
        page,
        "<section id=\"boards\" aria-labelledby=\"boards-title\">",
        "</section>\n<footer>",
    );
    format!("<section>{inside}</section>")
}

fn heard(node: Node<'_, '_>) -> String {
    node.descendants().filter(|it| it.is_text()).filter_map(|it| it.text()).collect()
}

#[test]
fn every_board_is_there_without_a_script() {
    let folder = tempfile::tempdir().expect("a folder");
    let specs = Path::new(env!("CARGO_MANIFEST_DIR")).join("specs");
    let page = page(&[&specs], folder.path(), 1);
    let text = boards_of(&page);
    let xml = Xml::parse(&text).expect("well-formed");
    let boards: Vec<Node<'_, '_>> =
        xml.descendants().filter(|node| node.attribute("class") == Some("board")).collect();
    assert_eq!(boards.len(), 4);
    for (node, name) in boards.iter().zip(["curlew-10", "heron-8", "plover-40", "wren-3"]) {
        let board = demo::board(name);
        let said = heard(*node);
        let codes = board.headers.iter().map(|it| &it.code);
        let codes = codes.chain(board.banks.iter().map(|it| &it.code));
        for code in codes.chain(board.selectors.iter().map(|it| &it.code)) {
            assert!(said.contains(code.as_str()), "{name}: {code}");
        }
        let leaves = node.descendants().filter(|it| {
            it.attribute("class") == Some("fold")
                && it.descendants().filter(|it| it.attribute("class") == Some("fold")).count() == 1
        });
        assert_eq!(leaves.count(), board.layouts.len(), "{name}");
        let drawings = node.descendants().filter(|it| {
            it.has_tag_name(("http://www.w3.org/2000/svg", "svg"))
                && it.attribute("role") == Some("img")
        });
        assert!(drawings.count() >= 4, "{name}: plan, supply, questions, sockets");
        // Its revision and date, and its mark.
        let foot = between(&page, "<footer>", "</footer>");
        assert!(foot.contains(&format!("revision {}", board.about.revision)), "{foot}");
        assert!(foot.contains(&board.about.dated.to_string()), "{foot}");
    }
    let foot = between(&page, "<footer>", "</footer>");
    assert_eq!(foot.matches("mark ").count(), 4, "{foot}");
    assert!(foot.contains("works offline") && foot.contains("local code"), "{foot}");
    // Cautions stand before everything else.
    let cautions = page.find("class=\"message danger\"").expect("a caution");
    assert!(cautions < page.find("<main").expect("the form"));
    // No names stand twice.
    let whole = Xml::parse(&text).expect("well-formed");
    let mut names = BTreeSet::new();
    for name in whole.descendants().filter_map(|node| node.attribute("id")) {
        assert!(names.insert(name.to_owned()), "{name}");
    }
    for href in whole.descendants().filter_map(|node| node.attribute("href")) {
        assert!(names.contains(href.trim_start_matches('#')), "{href}");
    }
}

/// The policy allows the page's own script and style and no other, and nothing from outside.
#[test]
fn the_policy_is_that_of_the_script_and_the_style() {
    use base64::Engine as _;
    let folder = tempfile::tempdir().expect("a folder");
    let spec = Path::new(env!("CARGO_MANIFEST_DIR")).join("specs/wren-3.yaml");
    let page = page(&[&spec], folder.path(), LANGUAGES.len());
    let policy = between(&page, "Content-Security-Policy\" content=\"", "\"");
    let sum = |text: &str| {
        let sum = base64::engine::general_purpose::STANDARD.encode(Sha256::digest(text));
        format!("'sha256-{sum}'")
    };
    let script = between(&page, "<script type=\"module\">", "</script>");
    let style = between(&page, "<style>", "</style>");
    assert!(policy.starts_with("default-src 'none'; "), "{policy}");
    assert!(
        policy.contains(&format!("script-src {} 'wasm-unsafe-eval';", sum(script))),
        "{policy}"
    );
    assert!(policy.contains(&format!("style-src {};", sum(style))), "{policy}");
    assert!(!policy.contains("unsafe-inline") && !policy.contains("http"), "{policy}");
    let bare = page.replace(between(&page, "type=\"text/plain\"", "</script>"), "");
    assert!(!bare.contains(" style=\"") && !bare.contains(" onclick="));
    for address in ["http://", "https://"] {
        let found: Vec<&str> =
            page.match_indices(address).map(|(at, _)| &page[at..at + 40]).collect();
        let strange: Vec<_> =
            found.iter().filter(|it| !it.starts_with("http://www.w3.org/2000/svg")).collect();
        assert_eq!(strange, Vec::<&&str>::new());
    }
    // In every language of the build, each with its own words.
    let boards = boards_of(&page);
    let xml = Xml::parse(&boards).expect("well-formed");
    let said: Vec<_> = xml
        .descendants()
        .filter(|node| node.attribute("class") == Some("board"))
        .filter_map(|node| node.attribute("lang"))
        .collect();
    assert_eq!(said, LANGUAGES.iter().map(|it| it.tag).collect::<Vec<_>>());
}

/// What a specification says is never markup, in the pieces of the page or in the data of its script.
#[test]
fn hostile_titles_are_words() {
    let folder = tempfile::tempdir().expect("a folder");
    let hostile = "</script><script>alert(1)</script>]]> \u{5d0}\u{5d1} <b>";
    let specs = Path::new(env!("CARGO_MANIFEST_DIR")).join("specs/wren-3.yaml");
    let text = fs::read_to_string(specs).expect("a board");
    let name = text.lines().find(|line| line.trim_start().starts_with("name:")).expect("a name");
    let named = name.split("name:").next().expect("blanks").to_owned();
    let text = text.replacen(name, &format!("{named}name: '{hostile}'"), 1);
    let spec = folder.path().join("hostile.yaml");
    fs::write(&spec, &text).expect("a board");
    let page = page(&[&spec], &folder.path().join("out"), 1);
    assert!(!page.contains("<script>alert"), "it is markup somewhere");
    assert_eq!(page.matches("</script>").count(), 3, "the data, the module and the script");
    let boards = boards_of(&page);
    let xml = Xml::parse(&boards).expect("well-formed");
    assert!(heard(xml.root()).contains("<script>alert(1)</script>]]>"), "it is said all the same");
    let data = between(&page, "type=\"application/json\">", "</script>");
    let data: serde_json::Value = serde_json::from_str(data).expect("JSON");
    assert_eq!(data["files"]["hostile.yaml"], text.as_str());
    assert_eq!(data["boards"], serde_json::json!(["hostile.yaml"]), "no folder of this machine");
}

/// Nothing of a board that is refused is on the page, and without a board there is none.
#[test]
fn a_refused_board_is_not_on_the_page() {
    let folder = tempfile::tempdir().expect("a folder");
    let specs = Path::new(env!("CARGO_MANIFEST_DIR")).join("specs");
    let broken = fs::read_to_string(specs.join("wren-3.yaml")).expect("a board");
    fs::write(folder.path().join("broken.yaml"), broken.replace("groups:", "grups:"))
        .expect("a file");
    let out = folder.path().join("out");
    let order = |paths: Vec<std::path::PathBuf>| Order {
        paths,
        out: out.clone(),
        paper: Paper::A4,
        languages: vec![english()],
        templates: None,
        threads: None,
        prune: false,
        png: None,
        field_page: true,
    };
    let report = build::run(&order(vec![folder.path().join("broken.yaml")]), &|_| {}, &|| false);
    assert!(report.field_page.is_none() && !out.join("field.html").exists());
    let both = vec![folder.path().join("broken.yaml"), specs.join("heron-8.yaml")];
    assert!(build::run(&order(both), &|_| {}, &|| false).field_page.is_some());
    let page = fs::read_to_string(out.join("field.html")).expect("the page");
    assert!(page.contains("Heron 8") && !page.contains("Wren 3") && !page.contains("broken.yaml"));
}

/// Words of several kinds, so that what is compared is not empty.
#[test]
fn what_a_leaf_says_is_said_in_every_language() {
    let board = demo::board("curlew-10");
    for language in &LANGUAGES {
        let fold = question_steps(&board, &language.words()).expect("layouts");
        let mut leaf = &fold;
        while let Some(next) = leaf.folds.first() {
            leaf = next;
        }
        let words = words_of(&leaf.blocks);
        assert!(words.len() > board.columns.len() + 3, "{}: {words:?}", language.tag);
        assert!(words.iter().all(|it| !it.contains('\u{27e6}')), "{}: {words:?}", language.tag);
        let strong = |block: &Block| matches!(block, Block::Paragraph(it) if matches!(it.as_slice(), [Inline::Strong(_)]));
        assert!(leaf.blocks.first().is_some_and(strong));
    }
}
