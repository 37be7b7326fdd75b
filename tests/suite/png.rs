//! `build --png`: figures as pictures.

use std::io::Cursor;

use lidsheet::geometry::Size;
use lidsheet::page::Paper;
use lidsheet::scene::Scene;
use lidsheet::sheet::figures;
use lidsheet::text::Typesetter;
use lidsheet::words::Words;
use lidsheet::write::{Dpi, MOST_PIXELS, PngFault, png};
use serde_json::Value;

use crate::cli::{GOOD, Project};
use crate::compile::demo;
use crate::demo::without_links;
use crate::readers::pictures::{Picture, both};

/// Dots to the inch that are five to the millimetre.
const FIVE_TO_A_MM: u16 = 127;

struct Read {
    picture: Picture,
    per_metre: u32,
}

/// A PNG by the png crate alone.
fn read(file: &[u8]) -> Read {
    let mut reader = png::Decoder::new(Cursor::new(file)).read_info().expect("a PNG");
    let mut bytes = vec![0; reader.output_buffer_size().expect("it fits")];
    let info = reader.next_frame(&mut bytes).expect("a picture");
    assert_eq!(info.color_type, png::ColorType::Rgb);
    let grey = |p: &[u8]| {
        let sum = 299 * u32::from(p[0]) + 587 * u32::from(p[1]) + 114 * u32::from(p[2]);
        (sum / 1000) as u8
    };
    let grey = bytes.chunks_exact(3).map(grey).collect();
    let per_metre = reader.info().pixel_dims.expect("a resolution").xppu;
    let picture = Picture { width: info.width as usize, height: info.height as usize, grey };
    Read { picture, per_metre }
}

fn dpi(dots: u16) -> Dpi {
    Dpi::new(dots).expect("within its range")
}

/// Each figure as PNG shows what the PDF shows, by another renderer: nothing is missing, no words either.
#[test]
fn pictures_are_those_of_the_pdf() {
    let mut compared = 0;
    for name in ["heron-8", "curlew-10"] {
        let board = demo::board(name);
        let all = figures(&board, &Words::english(), &mut Typesetter::new(), Paper::A4);
        for figure in all {
            let file = png(&figure.scene, dpi(FIVE_TO_A_MM)).expect("it is not large");
            let ours = read(&file);
            assert_eq!(ours.per_metre, 5000);
            let (_, pdf) = both(&without_links(figure.scene.clone()), 5);
            let same = |picture: &Picture| {
                let (width, height) =
                    (ours.picture.width.min(pdf.width), ours.picture.height.min(pdf.height));
                picture.cut(0, 0, width, height)
            };
            assert!(ours.picture.width.abs_diff(pdf.width) <= 1, "{name} {}", figure.name);
            let (ours, pdf) = (same(&ours.picture), same(&pdf));
            // On blocks of a millimetre, as the figures of the demo are compared.
            let (mean, most) = ours.coarse(5).difference(&pdf.coarse(5));
            assert!(mean < 3.2 && most < 50, "{name} {}: {mean} {most}", figure.name);
            assert!(ours.darkest() > 200);
            compared += 1;
        }
    }
    assert!(compared >= 16, "{compared}");
}

/// It is as large as the figure on paper, and says so.
#[test]
fn a_picture_has_the_size_of_its_figure() {
    let scene = Scene { size: Size::new(25.4, 50.8), ..Scene::default() };
    let ours = read(&png(&scene, dpi(300)).expect("small"));
    assert_eq!((ours.picture.width, ours.picture.height, ours.per_metre), (300, 600, 11_811));
    assert!(ours.picture.grey.iter().all(|grey| *grey == 255), "white where nothing is");
    assert_eq!((Dpi::new(23), Dpi::new(2401)), (None, None));
}

#[test]
fn one_with_too_many_pixels_is_refused_and_the_help_is_right() {
    let scene = Scene { size: Size::new(280.0, 180.0), ..Scene::default() };
    let Err(PngFault::TooLarge { width, height, most }) = png(&scene, dpi(1200)) else {
        panic!("this has 112 million pixels")
    };
    assert!(width * height > MOST_PIXELS);
    assert!(most > 700 && most < 1200, "{most}");
    let drawn = read(&png(&scene, dpi(most)).expect("what the help says is possible"));
    assert!((drawn.picture.width * drawn.picture.height) as u64 <= MOST_PIXELS);
    let next = png(&scene, dpi(most + 3));
    assert!(matches!(next, Err(PngFault::TooLarge { .. })), "it could be finer than the help says");
}

fn manifest(project: &Project) -> Value {
    let text = std::fs::read(project.at("out/manifest.json")).expect("a manifest");
    serde_json::from_slice(&text).expect("JSON")
}

#[test]
fn a_build_writes_one_beside_each_svg_and_keeps_account() {
    let project = Project::new().file("specs/heron-8.yaml", GOOD);
    let project = project.run("build --png 40 --threads 1 --deps deps.json").ok();
    let mut drawings = 0;
    let told = manifest(&project).to_string();
    let deps = std::fs::read_to_string(project.at("deps.json")).expect("it is there");
    for entry in std::fs::read_dir(project.at("out/heron-8")).expect("a folder") {
        let path = entry.expect("readable").path();
        if path.extension().is_some_and(|ending| ending == "svg") {
            let picture = path.with_extension("png");
            assert!(picture.is_file(), "{}", picture.display());
            let name = picture.file_name().expect("a name").to_string_lossy().into_owned();
            assert!(told.contains(&name) && deps.contains(&format!("heron-8/{name}")), "{name}");
            drawings += 1;
        }
    }
    assert!(drawings >= 8, "{drawings}");
    let project = project.run("build --png 40 --threads 2 --deny-stale").ok();
    assert!(
        project.out().contains(" 0 files written") || project.out().contains("no files written"),
        "{}",
        project.out()
    );
    // Without them they are of an earlier build, and go when that is asked for.
    project
        .run("build --deny-stale")
        .fails()
        .says("note: out/heron-8/board-plan.png is from an earlier build")
        .run("build --prune --deny-stale")
        .ok()
        .lacks("out/heron-8/board-plan.png")
        .has("out/heron-8/board-plan.svg");
}

#[test]
fn a_build_with_pictures_too_large_writes_nothing() {
    Project::new()
        .file("specs/heron-8.yaml", GOOD)
        .run("build --png 2400")
        .fails()
        .complains("error[L059]")
        .complains("with `--png`")
        .lacks("out/heron-8/wiring-sheets.pdf")
        .run("build --png 5")
        .trouble()
        .complains("a whole number from 24 to 2400");
}
