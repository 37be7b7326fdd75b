use std::io::Write as _;

use proptest::prelude::*;

use super::*;
use crate::geometry::{Point, Step};

/// A logo with everything that is taken: a rule of style, both rules of filling, lines with round
/// ends, a moved group, curves of both kinds.
const SVG: &str = r##"<?xml version="1.0" encoding="UTF-8"?>
<!DOCTYPE svg PUBLIC "-//W3C//DTD SVG 1.1//EN" "http://www.w3.org/Graphics/SVG/1.1/DTD/svg11.dtd">
<svg xmlns="http://www.w3.org/2000/svg" xmlns:tool="https://example.org/tool" viewBox="0 0 320 90">
  <title>Orla</title><tool:note onload="x">a note</tool:note>
  <style>.ink { fill: #0b5c8a }</style>
  <path class="ink" fill-rule="evenodd" d="M45 3a42 42 0 1 0 .1 0z M45 18a27 27 0 1 1 -.1 0z"/>
  <g transform="translate(100 0)" fill="none" stroke="#222" stroke-width="9" stroke-linejoin="round">
    <circle cx="32" cy="45" r="24"/><path d="M8 58 q18 -16 37 0 t37 0" stroke-linecap="round"/>
  </g>
  <rect x="200" y="10" width="20" height="30" fill="red" display="none"/>
</svg>"##;

fn svg(inside: &str) -> String {
    format!("<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 40 20\">{inside}</svg>")
}

/// A PNG of pixels with colour type and samples as given.
fn png(width: u32, height: u32, color: ::png::ColorType, data: &[u8]) -> Vec<u8> {
    let mut file = Vec::new();
    let mut encoder = ::png::Encoder::new(&mut file, width, height);
    encoder.set_color(color);
    encoder.set_depth(::png::BitDepth::Eight);
    let mut writer = encoder.write_header().unwrap();
    writer.write_image_data(data).unwrap();
    writer.finish().unwrap();
    file
}

fn outlines(picture: &Picture) -> &[Outline] {
    match &picture.content {
        PictureContent::Outlines(outlines) => outlines,
        PictureContent::Pixels(_) => panic!("pixels"),
    }
}

#[test]
fn an_svg_becomes_outlines() {
    let picture = Picture::read(SVG.as_bytes()).unwrap();
    assert_eq!(picture.size, Size::new(320.0, 90.0));
    let all = outlines(&picture);
    let looks: Vec<(Ink, bool)> = all.iter().map(|it| (it.fill, it.even_odd)).collect();
    let (blue, gray) = (Ink(0x0b, 0x5c, 0x8a), Ink(0x22, 0x22, 0x22));
    assert_eq!(looks, [(blue, true), (gray, false), (gray, false)]);
    // The line of the circle is as wide as it is drawn, where the group moves it to.
    let points = all[1].path.steps.iter().filter_map(|step| match step {
        Step::Move(to) | Step::Line(to) | Step::Curve(_, _, to) => Some(*to),
        Step::Close => None,
    });
    let from_middle: Vec<f64> = points.map(|at| libm::hypot(at.x - 132.0, at.y - 45.0)).collect();
    assert!(from_middle.iter().all(|r| (r - 24.0).abs() < 4.6), "{from_middle:?}");
    assert!(from_middle.iter().any(|r| (r - 28.5).abs() < 0.1));
    assert!(from_middle.iter().any(|r| (r - 19.5).abs() < 0.1));
}

#[test]
fn a_quadratic_curve_is_the_same_as_a_cubic() {
    let picture = Picture::read(svg("<path d=\"M0 0 Q 20 20 40 0 Z\"/>").as_bytes()).unwrap();
    let curve = outlines(&picture)[0].path.steps[1];
    let Step::Curve(first, second, to) = curve else { panic!("{curve:?}") };
    for (found, wanted) in
        [(first, Point::new(40.0 / 3.0, 40.0 / 3.0)), (second, Point::new(80.0 / 3.0, 40.0 / 3.0))]
    {
        assert!((found.x - wanted.x).abs() + (found.y - wanted.y).abs() < 1e-4, "{curve:?}");
    }
    assert_eq!(to, Point::new(40.0, 0.0));
}

#[test]
fn what_is_not_taken_is_named() {
    use NotTaken as N;
    let shape = "<rect width=\"9\" height=\"9\"/>";
    let with = |attributes: &str| format!("<rect width=\"9\" height=\"9\" {attributes}/>");
    let cases = [
        (format!("{shape}<text y=\"9\">Orla</text>"), N::Text),
        (format!("{shape}<image href=\"data:image/png;base64,AAAA\"/>"), N::Image),
        (format!("{shape}<image href=\"file:///etc/passwd\"/>"), N::Image),
        (format!("{shape}<script>alert(1)</script>"), N::Script),
        (with("onclick=\"x()\""), N::Script),
        (format!("<g>{shape}<animate/></g>"), N::Animation),
        (format!("<g id=\"a\">{shape}</g><use href=\"#a\"/>"), N::Copy),
        (format!("<defs><linearGradient id=\"a\" href=\"b.svg#a\"/></defs>{shape}"), N::Outside),
        (with("fill=\"url(https://example.org/a#b)\""), N::Outside),
        (format!("<style>@import 'a.css';</style>{shape}"), N::Outside),
        (with("fill=\"url(#a)\""), N::Gradient),
        (with("style=\"stroke: url(#a)\""), N::Gradient),
        (format!("<style>rect {{ fill: url( '#a' ) }}</style>{shape}"), N::Gradient),
        (with("filter=\"url(#a)\""), N::Filter),
        (with("style=\"filter: blur(3px)\""), N::Filter),
        (with("mask=\"url(#a)\""), N::Mask),
        (with("clip-path=\"url(#a)\""), N::Clip),
        (format!("<svg x=\"3\" width=\"5\" height=\"5\">{shape}</svg>"), N::Clip),
        (with("style=\"marker-end: url(#a)\""), N::Marker),
        (with("opacity=\"0.5\""), N::SeeThrough),
        (with("fill-opacity=\"0.5\""), N::SeeThrough),
        (with("fill=\"#ff000080\""), N::SeeThrough),
        (with("style=\"mix-blend-mode: multiply\""), N::SeeThrough),
        (with("stroke=\"red\" stroke-dasharray=\"0.001\""), N::Dashes),
        (format!("{shape}<foreignObject/>"), N::Element("foreignObject".to_owned())),
        (format!("{}{shape}{}", "<g>".repeat(70), "</g>".repeat(70)), N::Depth),
    ];
    for (inside, what) in cases {
        let found = Picture::read(svg(&inside).as_bytes());
        assert_eq!(found, Err(PictureFault::Holds(what)), "{inside}");
    }
    let entities = format!("<!DOCTYPE svg [<!ENTITY a \"b\">]>{}", svg(shape));
    let found = Picture::read(entities.as_bytes());
    assert_eq!(found, Err(PictureFault::Holds(N::Entities)));
    // Definitions that nothing refers to are no fault: drawing programs leave them behind.
    let left =
        format!("<defs><clipPath id=\"a\">{shape}</clipPath><filter id=\"b\"/></defs>{shape}");
    assert!(Picture::read(svg(&left).as_bytes()).is_ok());
}

#[test]
fn what_is_no_picture_is_refused() {
    use PictureFault as F;
    let blank = svg("<g><rect width=\"0\" height=\"9\"/></g>");
    assert_eq!(Picture::read(blank.as_bytes()), Err(F::Blank));
    for other in [&b""[..], b"GIF89a", b"\xff\xd8\xff\xe0", b"logo: a", b"\xfe\xff\0<"] {
        assert_eq!(Picture::read(other), Err(F::NeitherKind), "{other:?}");
    }
    let broken: [&[u8]; 4] = [b"<svg", b"<a/><b/>", b"\x89PNG\r\n\x1a\n", b"\x89PNG\r\n\x1a\nIHDR"];
    for broken in broken {
        let found = Picture::read(broken);
        assert!(matches!(found, Err(F::Unreadable(_))), "{broken:?} {found:?}");
    }
    assert!(matches!(Picture::read(b"<html/>"), Err(F::Holds(NotTaken::Element(_)))));
    let many = format!("<path d=\"M0 0{}\"/>", " 1 1 0 1".repeat(MOST_PICTURE_STEPS / 2));
    assert_eq!(Picture::read(svg(&many).as_bytes()), Err(F::TooIntricate));
    let many = "<rect width=\"1\" height=\"1\"/>".repeat(20_000);
    assert_eq!(Picture::read(svg(&many).as_bytes()), Err(F::TooIntricate));
    let style = format!("<style>{}</style>", "a{fill:red}".repeat(2000));
    assert_eq!(Picture::read(svg(&style).as_bytes()), Err(F::TooIntricate));
}

/// Nothing comes of a million levels but a message: no stack is that deep.
#[test]
fn what_is_as_deep_as_a_file_can_be_is_refused() {
    for tag in ["<g>", "<a:b>", "<g a=\"/>\">"] {
        let deep = svg(&tag.repeat((1 << 20) / tag.len()));
        assert!(Picture::read(deep.as_bytes()).is_err());
        let closed = format!("{}{}", "<g>".repeat(9000), "</g>".repeat(9000));
        assert!(Picture::read(svg(&closed).as_bytes()).is_err());
    }
}

#[test]
fn pixels_lie_on_white() {
    use ::png::ColorType::{Grayscale, GrayscaleAlpha, Rgb, Rgba};
    let cases: [(::png::ColorType, &[u8], [u8; 3]); 6] = [
        (Grayscale, &[100], [100; 3]),
        (GrayscaleAlpha, &[0, 255], [0; 3]),
        (GrayscaleAlpha, &[0, 51], [204; 3]),
        (Rgb, &[1, 2, 3], [1, 2, 3]),
        (Rgba, &[1, 2, 3, 255], [1, 2, 3]),
        (Rgba, &[255, 0, 0, 128], [255, 127, 127]),
    ];
    for (color, data, wanted) in cases {
        let picture = Picture::read(&png(1, 1, color, data)).unwrap();
        let PictureContent::Pixels(pixels) = picture.content else { panic!("outlines") };
        assert_eq!(pixels.rgb, wanted, "{color:?} {data:?}");
    }
    let unseen = png(1, 1, Rgba, &[1, 2, 3, 0]);
    assert_eq!(Picture::read(&unseen), Err(PictureFault::Blank));
}

/// 20 bytes of a header can promise any number of pixels, and a thousand of data can hold them.
#[test]
fn a_png_that_is_a_bomb_is_not_taken_apart() {
    let width = 100_000_u32;
    let mut file = Vec::new();
    let mut encoder = ::png::Encoder::new(&mut file, width, 1000);
    encoder.set_color(::png::ColorType::Grayscale);
    encoder.set_depth(::png::BitDepth::One);
    let mut writer = encoder.write_header().unwrap();
    let mut stream = writer.stream_writer().unwrap();
    let row = vec![0; width as usize / 8];
    (0..1000).for_each(|_| stream.write_all(&row).unwrap());
    stream.finish().unwrap();
    drop(writer);
    assert!(file.len() < 60_000, "{}", file.len());
    let found = Picture::read(&file);
    assert_eq!(found, Err(PictureFault::TooManyPixels { width, height: 1000 }));
}

#[test]
fn a_picture_is_as_large_as_its_room_lets_it_be() {
    let picture = Picture::read(&png(300, 100, ::png::ColorType::Grayscale, &[0; 30_000])).unwrap();
    assert_eq!(picture.fitted(Size::new(45.0, 12.0)), Size::new(36.0, 12.0));
    assert_eq!(picture.fitted(Size::new(30.0, 12.0)), Size::new(30.0, 10.0));
    assert_eq!(picture.dots_to_the_inch(25.4), Some(300.0));
    assert_eq!(Picture::read(SVG.as_bytes()).unwrap().dots_to_the_inch(25.4), None);
}

/// Bytes changed, taken out and doubled.
fn mutated(file: Vec<u8>, changes: &[(usize, u8, u8)]) -> Vec<u8> {
    let mut file = file;
    for (at, kind, byte) in changes {
        if file.is_empty() {
            break;
        }
        let at = at % file.len();
        match kind % 4 {
            0 => file[at] = *byte,
            1 => drop(file.remove(at)),
            2 => file.truncate(at),
            _ => {
                let part = file[at..(at + usize::from(*byte)).min(file.len())].to_vec();
                file.splice(at..at, part);
            }
        }
    }
    file
}

/// The sum of each part of a PNG made right again, so that what is in it is read, too.
fn with_sums(file: &[u8]) -> Vec<u8> {
    let mut out = file.to_vec();
    let mut at = PNG_SIGNATURE.len();
    while let Some(head) = out.get(at..at + 8) {
        let length = u32::from_be_bytes([head[0], head[1], head[2], head[3]]) as usize;
        let Some(body) = out.get(at + 4..at.saturating_add(8).saturating_add(length)) else {
            break;
        };
        let sum = crc(body).to_be_bytes();
        let end = at + 8 + length;
        let Some(place) = out.get_mut(end..end + 4) else { break };
        place.copy_from_slice(&sum);
        at = end + 4;
    }
    out
}

/// CRC-32 of ISO 3309, as PNG has it.
fn crc(bytes: &[u8]) -> u32 {
    !bytes.iter().fold(u32::MAX, |sum, byte| {
        (0..8).fold(sum ^ u32::from(*byte), |sum, _| {
            if sum & 1 == 1 { sum >> 1 ^ 0xedb8_8320 } else { sum >> 1 }
        })
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 400, failure_persistence: None, ..ProptestConfig::default() })]

    /// Any bytes give a picture or a fault, and a picture can be drawn.
    #[test]
    fn no_file_makes_it_panic(
        changes in prop::collection::vec((any::<usize>(), any::<u8>(), any::<u8>()), 0..8),
        letters in prop::collection::vec((any::<usize>(), 0_u8..4, 32_u8..127), 0..8),
    ) {
        let data: Vec<u8> = (0..12 * 7 * 4).map(|n| (n * 5) as u8).collect();
        let sample = png(12, 7, ::png::ColorType::Rgba, &data);
        let broken = mutated(sample, &changes);
        for file in [with_sums(&broken), broken, mutated(SVG.into(), &changes), mutated(SVG.into(), &letters)] {
            if let Ok(picture) = Picture::read(&file) {
                prop_assert!(picture.size.width > 0.0 && picture.size.height > 0.0);
                if let PictureContent::Outlines(all) = &picture.content {
                    for step in all.iter().flat_map(|it| &it.path.steps) {
                        if let Step::Move(at) | Step::Line(at) | Step::Curve(_, _, at) = step {
                            prop_assert!(at.x.is_finite() && at.y.is_finite());
                        }
                    }
                }
            }
        }
    }
}
