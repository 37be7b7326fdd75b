//! `house.yaml` in a folder of templates: a logo beside the title of every PDF, and an accent.

use std::collections::BTreeSet;
use std::fs;
use std::sync::Arc;

use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use lidsheet::document::{Block, Density, House, Logo};
use lidsheet::geometry::Rect;
use lidsheet::page::{Pages, Paper, Role, lay_out};
use lidsheet::scene::{Ink, Item, Picture};
use lidsheet::text::Typesetter;
use lidsheet::write::{pdf, svg};

use crate::cli::{GOOD, Project};
use crate::generate;
use crate::generate::documents;
use crate::readers::pictures;
use crate::readers::reading;
use crate::readers::validity;
use proptest::prelude::*;
use proptest::strategy::ValueTree;

const JOB: &str = include_str!("../version-1/jobs/2231.yaml");

/// A logo of an invented maker: a ring, a wave, and letters drawn with lines.
const LOGO: &str = r##"<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 320 90">
  <path fill="#0b5c8a" fill-rule="evenodd" d="M45 3a42 42 0 1 0 .1 0z M45 18a27 27 0 1 1 -.1 0z"/>
  <path d="M8 58 q18 -16 37 0 t37 0" fill="none" stroke="#e8a33d" stroke-width="8" stroke-linecap="round"/>
  <g fill="none" stroke="#222" stroke-width="9"><circle cx="132" cy="45" r="24"/>
    <path d="M176 73 V21 H192 a14 14 0 0 1 0 29 H176 M194 50 L208 73 M226 17 V68 H256"/>
    <path d="M266 73 L287 21 L308 73 M274 56 H300"/></g>
</svg>"##;

const HOUSE: &str = "logo: logo.svg\nlogo says: Orla Spas\naccent: \"#0b5c8a\"\n";

/// A square PNG with a cross on a ground that one can see through.
fn cross(side: u32) -> Vec<u8> {
    let pixels: Vec<u8> = (0..side * side)
        .flat_map(|n| {
            let (x, y) = (n % side, n / side);
            if x * 3 / side == 1 || y * 3 / side == 1 { [27, 107, 58, 255] } else { [0; 4] }
        })
        .collect();
    let mut file = Vec::new();
    let mut encoder = ::png::Encoder::new(&mut file, side, side);
    encoder.set_color(::png::ColorType::Rgba);
    encoder.write_header().and_then(|mut it| it.write_image_data(&pixels)).expect("a PNG");
    file
}

fn house(logo: &[u8], accent: Option<Ink>) -> House {
    let picture = Arc::new(Picture::read(logo).expect("a picture"));
    House { logo: Some(Logo { picture, says: "Orla Spas".to_owned() }), accent }
}

/// One board and one job with a folder of a house.
fn project() -> Project {
    Project::new()
        .file("specs/heron-8.yaml", GOOD)
        .file("specs/jobs/2231.yaml", JOB)
        .file("house/house.yaml", HOUSE)
        .file("house/logo.svg", LOGO)
}

const SHEETS: [&str; 6] = [
    "out/heron-8/wiring-sheets.pdf",
    "out/heron-8/intake-form.pdf",
    "out/heron-8/fault-finder.pdf",
    "out/2231/lid-insert.pdf",
    "out/2231/work-card.pdf",
    "out/2231/fault-finder.pdf",
];

/// The colours of what is drawn on a page.
fn inks(items: &[Item], found: &mut BTreeSet<Ink>) {
    for item in items {
        match item {
            Item::Text { ink, .. } => drop(found.insert(*ink)),
            Item::Shape { fill, stroke, .. } => {
                found.extend(fill.iter().chain(stroke.as_ref().map(|stroke| &stroke.ink)));
            }
            Item::Group { items, .. } | Item::Scaled { items, .. } | Item::Tagged { items, .. } => {
                inks(items, found);
            }
            Item::Picture { .. } | Item::Anchor { .. } | Item::Link { .. } => {}
        }
    }
}

/// The logos of a document: page and area of each.
fn logos(pages: &Pages) -> Vec<(usize, Rect)> {
    let logo = |role: &Role| match role {
        Role::Figure { alternative, area, page } if alternative == "Orla Spas" => {
            Some((*page, *area))
        }
        _ => None,
    };
    pages.nodes.iter().filter_map(|node| logo(&node.role)).collect()
}

/// Every PDF of a board and of a job names the logo once, at its beginning, says what it said, and
/// keeps to its standards; without the folder its bytes are those of before.
#[test]
fn every_pdf_has_the_logo_once() {
    for (logo, says) in [(LOGO.as_bytes().to_vec(), "SVG"), (cross(300), "PNG")] {
        let project = project().run("build").ok();
        let read = |project: &Project| SHEETS.map(|it| fs::read(project.at(it)).expect("made"));
        let plain = read(&project);
        let project = project.file("house/logo.svg", logo).run("build --templates house").ok();
        let with_logo = read(&project);
        for ((name, plain), own) in SHEETS.iter().zip(&plain).zip(&with_logo) {
            assert_eq!(validity::faults(own), [""; 0], "{says} {name}");
            let (before, now) = (reading::read(plain), reading::read(own));
            let own = now.alternatives.iter().filter(|it| *it == "Orla Spas").count();
            assert_eq!((now.alternatives.len(), own), (before.alternatives.len() + 1, 1), "{name}");
            assert_eq!(now.alternatives[0], "Orla Spas", "{name}");
            // Title and subtitle are read first.
            let figure = now.elements.iter().position(|it| it.ends_with("Figure")).expect("one");
            assert!(now.elements[..figure].iter().any(|it| it.ends_with("H1")), "{name}");
            assert_eq!(now.text(), before.text(), "{name}");
        }
        let project = project.run("build").ok();
        assert!(read(&project) == plain, "without the folder all is as it was");
    }
}

/// A file that says nothing leaves everything as it is, the mark, too.
#[test]
fn a_house_style_that_is_commented_out_changes_nothing() {
    let project = project().run("build").ok();
    project
        .file("house/house.yaml", "# accent: \"#0b5c8a\"\n\n")
        .run("build --templates house")
        .ok()
        .same(SHEETS[0])
        .same(SHEETS[3]);
}

/// Handouts and change sheets have a head, too.
#[test]
fn sheets_of_other_commands_have_the_logo() {
    let project = project()
        .file("specs/new.yaml", GOOD.replace("revision: D", "revision: E"))
        .run("handout specs/heron-8.yaml --exercises 4 --seed 1 --templates house")
        .ok()
        .run("changes specs/heron-8.yaml specs/new.yaml --out changes --templates house")
        .fails();
    for sheet in [
        "out/heron-8/course-handout.pdf",
        "out/heron-8/course-answers.pdf",
        "changes/change-sheet.pdf",
    ] {
        let file = fs::read(project.at(sheet)).expect("made");
        assert_eq!(validity::faults(&file), [""; 0], "{sheet}");
        assert!(reading::read(&file).alternatives.contains(&"Orla Spas".to_owned()), "{sheet}");
    }
}

/// Make and CI see the files: they are inputs of every output, and what they hold changes the mark.
#[test]
fn the_files_count_as_inputs() {
    let project = project().run("build --templates house --deps out/build.json").ok();
    let deps = |project: &Project| -> serde_json::Value {
        let text = fs::read(project.at("out/build.json")).expect("written");
        serde_json::from_slice(&text).expect("JSON")
    };
    let all = deps(&project);
    for sheet in SHEETS {
        let inputs = all["outputs"][sheet].as_array().expect("inputs");
        for file in ["house/house.yaml", "house/logo.svg"] {
            assert!(inputs.iter().any(|it| it == file), "{sheet}: {inputs:?}");
        }
    }
    let mark = |project: &Project| {
        let text = fs::read(project.at("out/manifest.json")).expect("written");
        let all: serde_json::Value = serde_json::from_slice(&text).expect("JSON");
        all["inputs"]["../specs/heron-8.yaml"]["marks"]["en"]["now"].to_string()
    };
    let mut marks = vec![mark(&project)];
    let mut project = project;
    let other = LOGO.replace("#222", "#333");
    for (name, text) in [("logo.svg", other.as_str()), ("house.yaml", "accent: \"#1b6b3a\"\n")] {
        project = project
            .file(&format!("house/{name}"), text)
            .run("build --templates house")
            .ok()
            .changed("out/heron-8/wiring-sheets.pdf");
        marks.push(mark(&project));
        // The mark that is printed is found again.
        let printed = marks.last().expect("one").trim_matches('"').to_owned();
        project = project.run(&format!("check --mark {printed} --templates house")).ok();
    }
    let project = project.run("build").ok();
    marks.push(mark(&project));
    marks.push(mark(&project.run("build").ok()));
    let different: BTreeSet<&String> = marks.iter().collect();
    assert_eq!((different.len(), &marks[3]), (4, &marks[4]), "{marks:?}");

    // Also of a build that fails, so that Make tries again when the logo is mended.
    let project = self::project().file("house/logo.svg", "<svg>");
    let project = project.run("build --templates house --deps out/build.json").fails();
    let refused = &deps(&project)["refused"]["specs/heron-8.yaml"];
    assert!(refused.to_string().contains("house/logo.svg"), "{refused}");
}

/// What is wrong is found by a build and by a check, with its place, and nothing is made.
#[test]
fn what_is_wrong_is_told_with_its_place() {
    let cases: [(&str, &str, &[&str]); 15] = [
        (
            "accent: \"#777777\"\n",
            LOGO,
            &["L920", "4.48 to 1", "4.5 to 1 or more", "house/house.yaml:1:", "#767676"],
        ),
        ("accent: \"#c8102e\"\n", LOGO, &["L921", "safety message"]),
        ("accent: \"#f9a800\"\n", LOGO, &["L920", "L921"]),
        ("accent: blue\n", LOGO, &["L015", "is not a color"]),
        ("accent: #0b5c8a\n", LOGO, &["`accent`", "begins a comment"]),
        ("logo: logo.svg\n", LOGO, &["L012", "`logo says`"]),
        ("logo says: Orla\n", LOGO, &["lacks `logo`"]),
        ("acent: \"#0b5c8a\"\n", LOGO, &["`acent`", "accent"]),
        ("logo: ../logo.svg\nlogo says: Orla\n", LOGO, &["does not stay in the folder"]),
        ("logo: none.svg\nlogo says: Orla\n", LOGO, &["L918", "there is nothing of this name"]),
        (
            "logo: logo.svg\nlogo says: Orla\n",
            "<svg xmlns='http://www.w3.org/2000/svg'><text y='9'>Orla</text></svg>",
            &["L918", "holds text", "outlines", "house/house.yaml:1:7"],
        ),
        ("logo: logo.svg\nlogo says: Orla\n", "GIF89a", &["L918", "no SVG and no PNG"]),
        ("logo: logo.svg\nlogo says: Orla\n", "<svg", &["L918", "its reader says"]),
        ("- logo\n", LOGO, &["house style"]),
        ("accent: [1, 2]\n", LOGO, &["`accent`", "house/house.yaml:1:9"]),
    ];
    for (yaml, logo, words) in cases {
        let project = project().file("house/house.yaml", yaml).file("house/logo.svg", logo);
        let project = project.run("build --templates house").fails();
        let built = project.err();
        for words in words {
            assert!(built.contains(words), "{yaml}: {words} is not in\n{built}");
        }
        let project =
            project.lacks("out/heron-8").run("check --language en --templates house").fails();
        for words in words {
            assert!(project.err().contains(words), "{yaml}: {words} is not in\n{}", project.err());
        }
    }
    let large = vec![b' '; (1 << 20) + 1];
    project()
        .file("house/logo.svg", large)
        .run("build --templates house")
        .fails()
        .complains("a logo has at most 1 MiB");
}

#[cfg(unix)]
#[test]
fn a_link_out_of_the_folder_is_not_followed() {
    Project::new()
        .file("specs/heron-8.yaml", GOOD)
        .file("mine.svg", LOGO)
        .file("house/house.yaml", "logo: logo.svg\nlogo says: Orla\n")
        .link("house/logo.svg", "mine.svg")
        .run("build --templates house")
        .fails()
        .complains("error[L918]")
        .complains("leaves the folder");
}

/// 45 by 12 mm leave a square 12 mm: 40 pixels are 85 dots to the inch. Said once for all files.
#[test]
fn a_coarse_logo_is_a_warning() {
    let project = project().file("house/logo.svg", cross(40)).run("build --templates house").ok();
    let told = project.err().matches("warning[L919]").count();
    assert_eq!(told, 1, "{}", project.err());
    let project = project.complains("85 dots to the inch").complains("71 pixels");
    let project = project.file("house/logo.svg", cross(71)).run("build --templates house").ok();
    assert!(!project.err().contains("L919"), "{}", project.err());
    project
        .file("house/logo.svg", cross(40))
        .run("check --language en --templates house")
        .ok()
        .complains("warning[L919]");
}

/// The accent is the colour of headings and rules, and of nothing that means something.
#[test]
fn the_accent_leaves_safety_messages_alone() {
    let accent = Ink(1, 99, 123);
    let strategy = documents::any();
    let mut runner = proptest::test_runner::TestRunner::deterministic();
    let (mut with_accent, mut signals) = (0, 0);
    for _ in 0..40 {
        let mut document = strategy.new_tree(&mut runner).expect("a document").current();
        let mut types = Typesetter::new();
        let plain = lay_out(&document, Paper::A4, &mut types);
        document.house = House { logo: None, accent: Some(accent) };
        let own = lay_out(&document, Paper::A4, &mut types);
        let colors = |pages: &Pages| {
            let mut found = BTreeSet::new();
            pages.pages.iter().for_each(|page| inks(&page.items, &mut found));
            found
        };
        let (before, now) = (colors(&plain), colors(&own));
        with_accent += usize::from(now.contains(&accent));
        // Panels, words on them, tints and links keep their colours.
        let black = [Ink::BLACK, Ink(64, 64, 64), Ink(150, 150, 150), accent];
        let others = |all: &BTreeSet<Ink>| -> Vec<Ink> {
            all.iter().filter(|ink| !black.contains(ink)).copied().collect()
        };
        assert_eq!(others(&before), others(&now));
        signals += usize::from(now.contains(&Ink(0x9b, 0x24, 0x23)));
        // It moves nothing.
        let boxes = |pages: &Pages| -> Vec<_> {
            pages.pages.iter().flat_map(|page| page.text_boxes()).collect()
        };
        assert_eq!(boxes(&plain), boxes(&own));
    }
    assert!(with_accent > 20 && signals > 3, "{with_accent} {signals}");
}

/// Up to ten words.
const TITLE: &str = "[a-z]{1,12}( [A-Za-z]{1,12}){0,9}";

/// The logo lies on page one, inside the margins and within 45 by 12 mm, and covers no word.
fn judge_logo(pages: &Pages) -> Result<(), TestCaseError> {
    let found = logos(pages);
    prop_assert_eq!(found.len(), 1);
    for (page, area) in found {
        let page_of = &pages.pages[page];
        let room = Logo::ROOM;
        prop_assert_eq!(page, 0);
        prop_assert!(area.width() <= room.width + 1e-9 && area.height() <= room.height + 1e-9);
        prop_assert!(area.height() > 3.0, "{area:?}");
        prop_assert!(page_of.area.grown(1e-6).contains(&area), "{area:?}");
        for (text, words) in page_of.text_boxes() {
            prop_assert!(!text.overlaps(&area), "{words}: {text:?} {area:?}");
        }
    }
    Ok(())
}

proptest! {
    #![proptest_config(generate::cases(16))]

    #[test]
    fn the_logo_covers_nothing(
        document in documents::any(),
        wide in any::<bool>(),
        text in TITLE,
        subtitle in TITLE,
    ) {
        let mut document = document;
        document.blocks.insert(0, Block::Title { text, subtitle });
        let logo = if wide { LOGO.as_bytes().to_vec() } else { cross(90) };
        document.house = house(&logo, Some(Ink(0x0b, 0x5c, 0x8a)));
        for paper in Paper::ALL {
            for density in [Density::Roomy, Density::Close, Density::Reach] {
                document.density = density;
                let pages = lay_out(&document, paper, &mut Typesetter::new());
                judge_logo(&pages)?;
                if density == Density::Reach {
                    let file = pdf(&pages).expect("a PDF");
                    prop_assert_eq!(validity::faults(&file), [""; 0], "{:?}", paper);
                }
            }
        }
    }
}

/// A logo as a figure by itself, 45 mm wide: what each writer draws.
fn alone(logo: &[u8]) -> lidsheet::scene::Scene {
    let picture = Arc::new(Picture::read(logo).expect("a picture"));
    let size = picture.fitted(Logo::ROOM);
    let mut scene = lidsheet::scene::Scene::new(size, "Orla", "A logo.");
    let area = Rect::at(lidsheet::geometry::Point::default(), size);
    scene.items.push(Item::Picture { area, picture });
    scene
}

/// The PDF and the SVG of a logo are the drawing that another renderer makes of the file itself.
#[test]
fn every_writer_draws_outlines_as_they_are() {
    let scene = alone(LOGO.as_bytes());
    let (of_svg, of_pdf) = pictures::both(&scene, 8);
    let (mean, _) = of_svg.difference(&of_pdf);
    assert!(mean < 3.0, "SVG and PDF differ by {mean}");
    assert!(of_pdf.darkest() > 100, "something is drawn");
    let mm = format!("<svg width=\"{}mm\" height=\"{}mm\" ", scene.size.width, scene.size.height);
    let itself = pictures::of_svg(&LOGO.replacen("<svg ", &mm, 1), 8.0);
    let (mean, _) = of_svg.difference(&itself);
    assert!(mean < 2.0, "the file itself differs by {mean}");
}

/// Pixels stand in the PDF where they are in the file, and an SVG holds them all. (The renderer of SVG takes
/// no pixels here, so the SVG is compared by its data.)
#[test]
fn every_writer_draws_pixels_as_they_are() {
    let logo = cross(120);
    let scene = alone(&logo);
    let file = svg(&scene);
    let data = file.split("base64,").last().and_then(|it| it.split('"').next()).expect("data");
    let data = STANDARD.decode(data).expect("base64");
    assert_eq!(Picture::read(&data), Picture::read(&logo));
    let (_, of_pdf) = pictures::both(&scene, 8);
    // 12 mm are 96 pixels, a third of them the bar: of gray 77, on white where nothing is drawn.
    for (left, top, dark) in [(44, 44, 178), (44, 4, 178), (4, 44, 178), (4, 4, 0), (80, 80, 0)] {
        let found = of_pdf.cut(left, top, 8, 8).darkest();
        assert!(found.abs_diff(dark) < 4, "{left} {top}: {found}");
    }
}
