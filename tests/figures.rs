//! The small drawings: what every one of them must keep, and what those of Heron 8 say.

mod common;
#[path = "common/drawing.rs"]
mod drawing;

use lidsheet::board::{Board, Device, LayoutNumber, Speeds, SupplyId};
use lidsheet::decide::{Tree, questions};
use lidsheet::figure;
use lidsheet::geometry::{Point, Size};
use lidsheet::scene::{Item, Scene};
use lidsheet::sheet::{Figure, figures};
use lidsheet::text::Typesetter;
use lidsheet::words::Words;
use proptest::prelude::*;

/// Room for words on A4 and on Letter, as `page::Paper` has it.
const ROOMS: [Size; 2] = [Size::new(174.0, 258.0), Size::new(179.9, 240.4)];

fn demo(name: &str) -> Board {
    let specs = concat!(env!("CARGO_MANIFEST_DIR"), "/specs");
    let text = std::fs::read_to_string(format!("{specs}/{name}.yaml")).expect("it is there");
    common::sound_with_tables(&text, specs)
}

/// All drawings but the board plan, which has tests of its own.
fn small_figures(board: &Board, set: &mut Typesetter, room: Size) -> Vec<Figure> {
    let all = figures(board, &Words::english(), set, room);
    all.into_iter().filter(|figure| figure.name != "board-plan").collect()
}

#[test]
fn the_drawings_of_the_demo_boards_are_clear() {
    let mut set = Typesetter::new();
    for name in ["heron-8", "wren-3", "curlew-10"] {
        let board = demo(name);
        for room in ROOMS {
            for Figure { name: figure, scene } in small_figures(&board, &mut set, room) {
                assert_eq!(drawing::faults(&scene), [""; 0], "{name} {figure}");
                assert!(scene.size.width <= room.width, "{name} {figure} is too wide");
                assert!(scene.size.height <= 230.0, "{name} {figure} is too high");
            }
        }
    }
}

#[test]
fn the_drawings_of_heron_8() {
    let mut set = Typesetter::new();
    let board = demo("heron-8");
    for Figure { name, scene } in small_figures(&board, &mut set, ROOMS[0]) {
        insta::assert_snapshot!(format!("heron-8-{name}"), drawing::scene_text(&scene));
    }
}

#[test]
fn the_same_board_gives_the_same_drawings() {
    let board = demo("curlew-10");
    let once = figures(&board, &Words::english(), &mut Typesetter::new(), ROOMS[0]);
    let twice = figures(&board, &Words::english(), &mut Typesetter::new(), ROOMS[0]);
    for (a, b) in once.iter().zip(&twice) {
        assert_eq!(a.scene, b.scene, "{}", a.name);
    }
}

/// Key to the right is the list as it is written; key to the left is a half turn, so it reads
/// from the bottom up (design, item 8).
#[test]
fn a_half_turned_socket_shows_its_pins_from_the_bottom_up() {
    let board = demo("heron-8");
    let scenes =
        figure::socket_pages(&board, &Words::english(), &mut Typesetter::new(), 174.0, 200.0);
    let order = |code: &str| {
        let text = &scenes[0].description;
        let start = text.find(&format!("{code}, ")).expect("the header is drawn");
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
    let board = demo("heron-8");
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
    assert!(empty.text_boxes().iter().any(|(_, text)| text == "nothing here"));
    assert!(empty.text_boxes().iter().any(|(_, text)| text == "Not available: B."));
}

/// On Heron 8 group A lies line to line on every supply, so J1 is always on a live *common*; the
/// others can be moved between A and B.
#[test]
fn a_live_common_is_marked() {
    let board = demo("heron-8");
    let marks: Vec<_> =
        board.header_ids().map(|header| figure::common_live(&board, header)).collect();
    assert_eq!(marks[0], figure::CommonLive::Always);
    assert!(marks[1..].iter().all(|mark| *mark == figure::CommonLive::Sometimes));
    // Curlew 10 has no group between two lines.
    let board = demo("curlew-10");
    for header in board.header_ids() {
        assert_eq!(figure::common_live(&board, header), figure::CommonLive::Never);
    }
}

/// Every layout stands in exactly one strong box.
#[test]
fn the_question_tree_ends_in_every_layout() {
    for name in ["heron-8", "wren-3", "curlew-10"] {
        let board = demo(name);
        let tree = questions(&board).expect("it has layouts").tree;
        let scenes =
            figure::question_tree(&tree, &Words::english(), &mut Typesetter::new(), 174.0, 230.0);
        let mut found: Vec<u8> = scenes.iter().flat_map(numbers).collect();
        found.sort();
        let all: Vec<u8> = board.layouts.iter().map(|layout| layout.number.get()).collect();
        assert_eq!(found, all, "{name}");
    }
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
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(64) })]

    #[test]
    fn no_line_of_a_question_tree_crosses_another(tree in any_tree()) {
        let scenes = figure::question_tree(&tree, &Words::english(), &mut Typesetter::new(), 174.0, 230.0);
        let layouts: usize = scenes.iter().map(|scene| numbers(scene).len()).sum();
        prop_assert_eq!(layouts, tree.layouts());
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
    fn the_drawings_of_any_board_are_clear(text in common::any_board()) {
        let board = common::sound(&text);
        for Figure { name, scene } in small_figures(&board, &mut Typesetter::new(), ROOMS[0]) {
            prop_assert_eq!(drawing::faults(&scene), Vec::<String>::new(), "{}", name);
            prop_assert!(scene.size.width <= ROOMS[0].width + 1e-6, "{} is too wide", name);
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
