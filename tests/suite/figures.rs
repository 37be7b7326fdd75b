//! The small drawings: what every one of them must keep, and what those of Heron 8 say.

use crate::compile::{self, demo};
use crate::generate;
use crate::oracle::drawing;
use lidsheet::board::{Board, Device, LayoutNumber, Speeds, SupplyId};
use lidsheet::decide::{Tree, questions};
use lidsheet::figure;
use lidsheet::geometry::Point;
use lidsheet::page::Paper;
use lidsheet::scene::{Item, Scene};
use lidsheet::sheet::{Figure, figures};
use lidsheet::text::Typesetter;
use lidsheet::words::Words;
use proptest::prelude::*;

const PAPERS: [Paper; 2] = [Paper::A4, Paper::Letter];

/// All drawings but the board plan, which has tests of its own. None is missing: one at least of the
/// sockets and of the questions, one of each supply and of each bank.
fn small_figures(board: &Board, set: &mut Typesetter, paper: Paper) -> Vec<Figure> {
    let all = figures(board, &Words::english(), set, paper);
    let mut names: Vec<&str> = all.iter().map(|figure| figure.name.as_str()).collect();
    let count = |start: &str| names.iter().filter(|name| name.starts_with(start)).count();
    assert_eq!(count("board-plan"), 1, "{names:?}");
    assert!(count("sockets-") > 0 && count("questions-") > 0, "{names:?}");
    assert_eq!(count("supply-"), board.supplies.len(), "{names:?}");
    // A bank that is cut goes on in more drawings.
    let banks = (1..=board.banks.len()).filter(|n| names.contains(&&*format!("switches-{n}")));
    assert_eq!(banks.count(), board.banks.len(), "{names:?}");
    for figure in &all {
        let smallest = drawing::smallest_type(&figure.scene);
        assert!(figure.name == "board-plan" || smallest >= 9.0, "{}: {smallest} pt", figure.name);
    }
    names.sort();
    names.dedup();
    assert_eq!(names.len(), all.len(), "{names:?}");
    all.into_iter().filter(|figure| figure.name != "board-plan").collect()
}

#[test]
fn the_drawings_of_the_demo_boards_are_clear() {
    let mut set = Typesetter::new();
    for name in ["heron-8", "wren-3", "curlew-10"] {
        let board = demo::board(name);
        for paper in PAPERS {
            for Figure { name: figure, scene, .. } in small_figures(&board, &mut set, paper) {
                assert_eq!(drawing::faults(&scene), [""; 0], "{name} {figure}");
                assert!(scene.size.width <= paper.area().width(), "{name} {figure} is too wide");
                assert!(scene.size.height <= 230.0, "{name} {figure} is too high");
            }
        }
    }
}

#[test]
fn the_drawings_of_heron_8() {
    let mut set = Typesetter::new();
    let board = demo::board("heron-8");
    let all = small_figures(&board, &mut set, PAPERS[0]);
    let names: Vec<&str> = all.iter().map(|figure| figure.name.as_str()).collect();
    assert_eq!(
        names,
        [
            &["supply-1", "supply-2", "supply-3"][..],
            &["questions-1", "switches-1", "selector-1"],
            &["sockets-1", "sockets-2"],
        ]
        .concat(),
        "each has a snapshot"
    );
    for Figure { name, scene, .. } in all {
        assert_snapshot!(format!("figures__heron-8-{name}"), drawing::scene_text(&scene));
    }
}

#[test]
fn the_same_board_gives_the_same_drawings() {
    let board = demo::board("curlew-10");
    let once = figures(&board, &Words::english(), &mut Typesetter::new(), PAPERS[0]);
    let twice = figures(&board, &Words::english(), &mut Typesetter::new(), PAPERS[0]);
    let of = |all: &[Figure]| -> Vec<(String, Scene)> {
        all.iter().map(|figure| (figure.name.clone(), figure.scene.clone())).collect()
    };
    assert!(once.len() > 5, "{}", once.len());
    assert_eq!(of(&once), of(&twice));
}

/// Key to the right is the list as it is written; key to the left is a half turn, so it reads
/// from the bottom up (design, item 8).
#[test]
fn a_half_turned_socket_shows_its_pins_from_the_bottom_up() {
    let board = demo::board("heron-8");
    let scenes =
        figure::socket_pages(&board, &Words::english(), &mut Typesetter::new(), 174.0, 200.0);
    let order = |code: &str| {
        let text = &scenes[0].description;
        let start = text.find(&format!(" {code}, ")).expect("the header is drawn");
        text[start..].split('.').nth(2).expect("its pins are named").trim().to_owned()
    };
    assert_eq!(order("J2"), "ground, common, low, high");
    assert_eq!(order("J5"), "high, low, common, ground");
    // And the words stand in that order on the paper: further down for each pin of J5.
    let words = scenes[0].text_boxes();
    let title = words.iter().find(|(_, text)| text == "J5").expect("J5 is drawn").0;
    let below = |wanted: &str| {
        words
            .iter()
            .filter(|(r, text)| {
                text == wanted
                    && r.top > title.top
                    && r.left < title.left + 50.0
                    && r.top < title.top + 45.0
            })
            .map(|(r, _)| r.top)
            .fold(f64::NAN, f64::min)
    };
    let tops: Vec<f64> = ["high", "low", "common", "ground"].map(below).to_vec();
    assert!(tops.windows(2).all(|pair| pair[0] < pair[1]), "{tops:?}");
}

/// 120/240 V and 120/208 V (ANSI C84.1): line to line is 240 V and 208 V.
#[test]
fn the_ladder_of_a_supply_gives_every_pair_once() {
    let board = demo::board("heron-8");
    let mut set = Typesetter::new();
    let mut volts = |supply: usize| {
        let scene =
            figure::supply_landing(&board, SupplyId(supply), &Words::english(), &mut set, 174.0);
        let mut words: Vec<String> = scene.text_boxes().into_iter().map(|(_, text)| text).collect();
        words.retain(|text| text.ends_with("\u{a0}V") && text.len() < 8);
        words.sort();
        words
    };
    assert_eq!(volts(0), ["120\u{a0}V", "120\u{a0}V", "240\u{a0}V"]);
    assert_eq!(volts(1), ["240\u{a0}V"]);
    let mut set = Typesetter::new();
    let scene = figure::supply_landing(&board, SupplyId(2), &Words::english(), &mut set, 174.0);
    assert!(scene.text_boxes().iter().any(|(_, text)| text == "208\u{a0}V"));
    let empty = figure::supply_landing(&board, SupplyId(1), &Words::english(), &mut set, 174.0);
    assert!(empty.text_boxes().iter().any(|(_, text)| text == "connect nothing"));
    assert!(empty.text_boxes().iter().any(|(_, text)| text.starts_with("Group B runs no device")));
}

/// On Heron 8 group A lies line to line on every supply, so J1 is always on a live *common*; the
/// others can be moved between A and B.
#[test]
fn a_live_common_is_marked() {
    let board = demo::board("heron-8");
    let marks: Vec<_> =
        board.header_ids().map(|header| figure::common_live(&board, header)).collect();
    assert_eq!(marks[0], figure::CommonLive::Always);
    assert!(marks[1..].iter().all(|mark| *mark == figure::CommonLive::Sometimes));
    // Curlew 10 has no group between two lines.
    let board = demo::board("curlew-10");
    for header in board.header_ids() {
        assert_eq!(figure::common_live(&board, header), figure::CommonLive::Never);
    }
}

/// Every layout stands in exactly one strong box.
#[test]
fn the_question_tree_ends_in_every_layout() {
    for name in ["heron-8", "wren-3", "curlew-10"] {
        let board = demo::board(name);
        let tree = questions(&board).expect("it has layouts").tree;
        let scenes = tree_of(&tree, &figure::questions_start(&board, &Words::english()));
        let mut found: Vec<u8> = scenes.iter().flat_map(numbers).collect();
        found.sort();
        let all: Vec<u8> = board.layouts.iter().map(|layout| layout.number.get()).collect();
        assert_eq!(found, all, "{name}");
    }
}

fn tree_of(tree: &Tree, start: &str) -> Vec<Scene> {
    let (words, mut set) = (Words::english(), Typesetter::new());
    figure::question_tree(tree, start, (&words, &mut set), 174.0, 230.0)
}

fn numbers(scene: &Scene) -> Vec<u8> {
    scene.text_boxes().into_iter().filter_map(|(_, text)| text.parse().ok()).collect()
}

/// Trees that no board has to have: up to 200 layouts, questions nested up to 10 deep.
fn any_tree() -> impl Strategy<Value = Tree> {
    let leaf = Just(Tree::Layout(LayoutNumber::new(7).expect("not 0")));
    leaf.prop_recursive(10, 200, 3, |inner| {
        (1..=9_u8, prop::collection::vec(inner, 2..=3)).prop_map(|(pump, trees)| {
            let speeds = [Speeds::None, Speeds::One, Speeds::Two];
            Tree::Ask {
                column: 0,
                device: Device::Pump(pump),
                answers: speeds.into_iter().zip(trees).collect(),
            }
        })
    })
}

proptest! {
    #![proptest_config(crate::generate::cases(64))]

    #[test]
    fn no_line_of_a_question_tree_crosses_another(tree in any_tree()) {
        let scenes = tree_of(&tree, "Start here.");
        let layouts: usize = scenes.iter().map(|scene| numbers(scene).len()).sum();
        prop_assert_eq!(layouts, tree.layouts());
        // A line from every question to each of its answers, but for those that go on another page.
        let drawn: usize = scenes.iter().map(|scene| open_lines(scene).len()).sum();
        prop_assert!(drawn >= answers(&tree) && drawn > 0 || layouts == 1, "{} lines", drawn);
        for scene in &scenes {
            prop_assert_eq!(drawing::faults(scene), Vec::<String>::new());
            prop_assert!(scene.size.height <= 230.0, "{} mm high", scene.size.height);
            let leads = open_lines(scene);
            for (index, one) in leads.iter().enumerate() {
                for other in &leads[index + 1..] {
                    for a in one.windows(2) {
                        for b in other.windows(2) {
                            prop_assert!(!cross([a[0], a[1]], [b[0], b[1]]), "{a:?} and {b:?}");
                        }
                    }
                }
            }
        }
    }

    #[test]
    fn the_drawings_of_any_board_are_clear(text in generate::any_board()) {
        let board = compile::sound(&text);
        for Figure { name, scene, .. } in small_figures(&board, &mut Typesetter::new(), PAPERS[0]) {
            prop_assert_eq!(drawing::faults(&scene), Vec::<String>::new(), "{}", name);
            prop_assert!(scene.size.width <= PAPERS[0].area().width() + 1e-6, "{} is too wide", name);
        }
    }
}

/// How many answers all questions of a tree have.
fn answers(tree: &Tree) -> usize {
    match tree {
        Tree::Layout(_) => 0,
        Tree::Ask { answers: all, .. } => {
            all.len() + all.iter().map(|(_, below)| answers(below)).sum::<usize>()
        }
    }
}

/// The polylines of four points that lead from a question to the next box.
fn open_lines(scene: &Scene) -> Vec<Vec<Point>> {
    let mut found = Vec::new();
    for item in &scene.items {
        let Item::Shape { path, fill: None, stroke: Some(_) } = item else { continue };
        let points: Option<Vec<Point>> = path
            .steps
            .iter()
            .map(|step| match step {
                lidsheet::geometry::Step::Move(p) | lidsheet::geometry::Step::Line(p) => Some(*p),
                _ => None,
            })
            .collect();
        found.extend(points.filter(|points| points.len() == 4));
    }
    found
}

/// Whether two stretches along the page share a place.
fn cross(a: [Point; 2], b: [Point; 2]) -> bool {
    let reach = |s: [Point; 2]| {
        (s[0].x.min(s[1].x), s[0].x.max(s[1].x), s[0].y.min(s[1].y), s[0].y.max(s[1].y))
    };
    let (al, ar, at, ab) = reach(a);
    let (bl, br, bt, bb) = reach(b);
    al <= br && bl <= ar && at <= bb && bt <= ab
}
