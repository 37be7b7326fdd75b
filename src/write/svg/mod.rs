//! A scene as an SVG file that stands alone: real text, its fonts inside, no script.
//!
//! Lengths are millimetres throughout, and every number goes through [`units::shortest`].
//!
//! [`units::shortest`]: crate::units::shortest

mod dense;
mod fonts;
mod page;
mod pictures;

use std::collections::BTreeSet;
use std::fmt::Write;

use crate::geometry::{Path, Point, Rect, Step};
use crate::scene::{Dash, Ink, Item, Scene, Stroke, Target};
use crate::text::{Line, Run};
use crate::units::{Length, shortest};

use super::escape;
use fonts::Used;
#[cfg(feature = "program")]
pub use fonts::font_of_letters;
use page::Reader;
pub use page::{page_style, svg_pages};

/// The scene as a file.
pub fn svg(scene: &Scene) -> String {
    let mut used = Used::default();
    used.collect(&scene.items);
    let mut anchors = BTreeSet::new();
    collect_anchors(&scene.items, &mut anchors);
    let mut drawing = Drawing {
        to: String::new(),
        anchors: &anchors,
        clips: 0,
        clip_name: "clip".to_owned(),
        names: "",
        dense: false,
        reader: None,
    };
    drawing.items(&scene.items);

    let (width, height) = (number(scene.size.width), number(scene.size.height));
    let mut file = String::with_capacity(drawing.to.len() + 40_000);
    let _ = write!(
        file,
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width}mm\" height=\"{height}mm\" \
         viewBox=\"0 0 {width} {height}\" role=\"img\" aria-labelledby=\"title description\" \
         style=\"background:#fff\">\n<title id=\"title\">"
    );
    escape::push(&mut file, &scene.title);
    file.push_str("</title>\n<desc id=\"description\">");
    escape::push(&mut file, &scene.description);
    file.push_str("</desc>\n");
    fonts::push_style(&used, &mut file);
    file.push_str(&drawing.to);
    file.push_str("</svg>\n");
    file
}

/// The scene as an element inside of an HTML document whose style is [`page_style`]; `told` is what a reader
/// who cannot see it is told. The names of places in it begin with `names`, and those of clips with `clips`,
/// which is that of no other drawing. Nothing in it is pressed: to a screen reader it is one picture.
pub(super) fn svg_within(scene: &Scene, told: &str, names: &str, clips: String) -> String {
    let anchors = BTreeSet::new();
    let mut drawing = Drawing {
        to: String::new(),
        anchors: &anchors,
        clips: 0,
        clip_name: clips,
        names,
        dense: true,
        reader: None,
    };
    let (width, height) = (number(scene.size.width), number(scene.size.height));
    drawing.add(format_args!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width}mm\" height=\"{height}mm\" \
         viewBox=\"0 0 {width} {height}\" stroke-width=\"{}\" role=\"img\" aria-label=\"",
        dense::USUAL_WIDTH
    ));
    escape::push(&mut drawing.to, told);
    drawing.to.push_str("\">\n");
    drawing.items(&scene.items);
    drawing.to.push_str("</svg>\n");
    drawing.to
}

/// The part of a file that is drawn.
struct Drawing<'a, 'r> {
    to: String,
    /// Names that links can lead to.
    anchors: &'r BTreeSet<&'a str>,
    /// Clips so far.
    clips: usize,
    /// What the names of clips begin with: they must differ from those of any other drawing beside it.
    clip_name: String,
    /// What the names of places begin with.
    names: &'r str,
    /// Whether paths and colors are written in short, and how lines join is left to the style of the page.
    dense: bool,
    /// What screen readers are told; `None` for a scene, which has words of its own.
    reader: Option<&'r mut Reader<'a>>,
}

impl<'a> Drawing<'a, '_> {
    fn items(&mut self, items: &'a [Item]) {
        for item in items {
            match item {
                Item::Shape { path, fill, stroke } => self.shape(path, *fill, *stroke),
                Item::Text { at, line, ink } => self.text(*at, line, *ink),
                Item::Picture { area, picture } => self.picture(*area, picture),
                Item::Group { shift, clip, items } => self.group(*shift, *clip, items),
                Item::Scaled { by, items } => {
                    self.add(format_args!("<g transform=\"scale({})\">\n", shortest(*by, 6)));
                    self.items(items);
                    self.to.push_str("</g>\n");
                }
                Item::Tagged { node, items } => {
                    let told = self.reader.as_mut().map(|reader| reader.told(*node, items));
                    let Some(told) = told else {
                        self.items(items);
                        continue;
                    };
                    self.add(format_args!("<g{told}>\n"));
                    self.items(items);
                    self.to.push_str("</g>\n");
                }
                Item::Anchor { name, at } => {
                    if self.reader.as_mut().is_some_and(|reader| !reader.is_first(name)) {
                        continue;
                    }
                    let (x, y, id) = (number(at.x), number(at.y), id(name));
                    let id = format!("{}{id}", self.names);
                    match self.reader {
                        // A browser scrolls to nothing that has no extent.
                        Some(_) => self.add(format_args!(
                            "<path id=\"{id}\" d=\"M{x} {y}h.1v.1\" fill=\"none\"/>\n"
                        )),
                        None => self.add(format_args!(
                            "<g id=\"{id}\" transform=\"translate({x} {y})\"/>\n"
                        )),
                    }
                }
                Item::Link { area, target, description } => self.link(*area, target, description),
            }
        }
    }

    fn add(&mut self, text: std::fmt::Arguments<'_>) {
        // Writing to a string cannot fail.
        let _ = self.to.write_fmt(text);
    }

    fn shape(&mut self, path: &Path, fill: Option<Ink>, stroke: Option<Stroke>) {
        if fill.is_none() && stroke.is_none() {
            return;
        }
        self.to.push_str("<path d=\"");
        match self.dense {
            true => dense::push_path(&mut self.to, path),
            false => push_path(&mut self.to, path),
        }
        let colour = if self.dense { dense::colour } else { colour };
        match fill {
            // What a path has if nothing is said.
            Some(Ink::BLACK) if self.dense => self.to.push('"'),
            Some(ink) => self.add(format_args!("\" fill=\"{}\"", colour(ink))),
            None => self.to.push_str("\" fill=\"none\""),
        }
        if let Some(stroke) = stroke {
            let (ink, width) = (colour(stroke.ink), number(stroke.width));
            self.add(format_args!(" stroke=\"{ink}\""));
            if !(self.dense && width == dense::USUAL_WIDTH) {
                self.add(format_args!(" stroke-width=\"{width}\""));
            }
            if !self.dense {
                self.to.push_str(" stroke-linejoin=\"round\"");
            }
            if let Dash::Broken { on, off } = stroke.dash {
                let length = |hundredths: u16| number(f64::from(hundredths) / 100.0);
                self.add(format_args!(" stroke-dasharray=\"{} {}\"", length(on), length(off)));
            }
        }
        self.to.push_str("/>\n");
    }

    fn text(&mut self, at: Point, line: &Line, ink: Ink) {
        for run in line.runs.iter().filter(|run| !run.glyphs.is_empty()) {
            let class = fonts::class(run.face);
            let size = shortest(Length::from_pt(run.size_pt).0, 3);
            self.add(format_args!("<text class=\"{class}\" font-size=\"{size}\""));
            if ink != Ink::BLACK {
                self.add(format_args!(" fill=\"{}\"", colour(ink)));
            }
            self.place(run, at.moved(run.x, 0.0));
            if run.text.starts_with(' ') || run.text.ends_with(' ') || run.text.contains("  ") {
                self.to.push_str(" xml:space=\"preserve\"");
            }
            self.to.push('>');
            escape::push(&mut self.to, &run.text);
            self.to.push_str("</text>\n");
        }
    }

    /// Where a run's characters stand: one place each where the font alone would put them
    /// elsewhere, or else the first place and the length, so that the words keep their room even
    /// in a viewer that has another font.
    fn place(&mut self, run: &Run, at: Point) {
        let mut pen = at.x;
        let mut places = Vec::with_capacity(run.glyphs.len());
        for glyph in &run.glyphs {
            places.push(number(pen + glyph.dx));
            pen += glyph.advance;
        }
        // In short, the pairs of letters that stand closer share what that takes among all.
        if self.dense || fonts::is_spaced_by_font(run) || !is_one_to_one(run) {
            let first = places.first().map_or("0", String::as_str);
            let length = number(pen - at.x);
            self.add(format_args!(" x=\"{first}\" textLength=\"{length}\""));
        } else {
            self.add(format_args!(" x=\"{}\"", places.join(" ")));
        }
        self.add(format_args!(" y=\"{}\"", number(at.y)));
    }

    fn group(&mut self, shift: Point, clip: Option<Rect>, items: &'a [Item]) {
        let (x, y) = (number(shift.x), number(shift.y));
        self.add(format_args!("<g transform=\"translate({x} {y})\""));
        if let Some(clip) = clip {
            self.clips += 1;
            let name = format!("{}{}", self.clip_name, self.clips);
            self.add(format_args!(" clip-path=\"url(#{name})\">\n<clipPath id=\"{name}\">"));
            self.to.push_str("<path d=\"");
            push_path(&mut self.to, &Path::rect(clip));
            self.to.push_str("\"/></clipPath>\n");
        } else {
            self.to.push_str(">\n");
        }
        self.items(items);
        self.to.push_str("</g>\n");
    }

    /// A place to press, if it leads to something in this drawing.
    fn link(&mut self, area: Rect, target: &Target, description: &str) {
        let Target::Anchor(name) = target;
        if !self.anchors.contains(name.as_str()) {
            return;
        }
        let names = self.names;
        self.add(format_args!("<a href=\"#{names}{}\" aria-label=\"", id(name)));
        escape::push(&mut self.to, description);
        self.to.push_str("\"><path d=\"");
        push_path(&mut self.to, &Path::rect(area));
        self.to.push_str("\" fill=\"none\" pointer-events=\"all\"/></a>\n");
    }
}

fn collect_anchors<'a>(items: &'a [Item], to: &mut BTreeSet<&'a str>) {
    for item in items {
        match item {
            Item::Anchor { name, .. } => {
                to.insert(name);
            }
            Item::Group { items, .. } | Item::Scaled { items, .. } | Item::Tagged { items, .. } => {
                collect_anchors(items, to);
            }
            Item::Shape { .. } | Item::Text { .. } | Item::Picture { .. } | Item::Link { .. } => {}
        }
    }
}

/// Whether every glyph stands for one character that is one unit of UTF-16, as a list of places
/// in SVG counts them, in order.
fn is_one_to_one(run: &Run) -> bool {
    let mut end = 0;
    run.glyphs.iter().all(|glyph| {
        let in_order = glyph.bytes.start == end;
        end = glyph.bytes.end;
        let text = run.text.get(glyph.bytes.clone()).unwrap_or_default();
        in_order && text.encode_utf16().count() == 1
    })
}

fn push_path(to: &mut String, path: &Path) {
    for step in &path.steps {
        match step {
            Step::Move(at) => push_pair(to, 'M', *at),
            Step::Line(at) => push_pair(to, 'L', *at),
            Step::Curve(first, second, at) => {
                push_pair(to, 'C', *first);
                push_pair(to, ' ', *second);
                push_pair(to, ' ', *at);
            }
            Step::Close => to.push('Z'),
        }
    }
}

fn push_pair(to: &mut String, letter: char, at: Point) {
    to.push(letter);
    push_number(to, at.x);
    to.push(' ');
    push_number(to, at.y);
}

/// An id that is a plain word whatever the name: other characters become their code.
pub(super) fn id(name: &str) -> String {
    let mut id = String::from("at-");
    for char in name.chars() {
        if char.is_ascii_alphanumeric() || char == '-' {
            id.push(char);
        } else {
            let _ = write!(id, "_{:x}_", char as u32);
        }
    }
    id
}

fn colour(Ink(red, green, blue): Ink) -> String {
    format!("#{red:02x}{green:02x}{blue:02x}")
}

/// A length in mm, to a hundredth.
fn number(mm: f64) -> String {
    let mut text = String::new();
    push_number(&mut text, mm);
    text
}

/// Adds a length in mm, to a hundredth. A drawing has thousands of them.
fn push_number(to: &mut String, mm: f64) {
    if !mm.is_finite() {
        to.push('0');
        return;
    }
    let (scaled, rounded) = (mm * 100.0, (mm * 100.0).round());
    let halfway = ((scaled - rounded).abs() - 0.5).abs() < 1e-6;
    // Which of two hundredths is nearer then hangs on the last digits, and a large number loses its own.
    if halfway || scaled.abs() > 1e9 {
        to.push_str(&shortest(mm, 2));
        return;
    }
    let hundredths = rounded.abs() as u64;
    if rounded < 0.0 {
        to.push('-');
    }
    let (whole, part) = (hundredths / 100, hundredths % 100);
    let _ = match part {
        0 => write!(to, "{whole}"),
        _ if part % 10 == 0 => write!(to, "{whole}.{}", part / 10),
        _ => write!(to, "{whole}.{part:02}"),
    };
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn lengths() -> impl Strategy<Value = f64> {
        let near_halves = (-400_000_i32..400_000, -3_i32..=3)
            .prop_map(|(thousandths, off)| f64::from(thousandths) / 1e3 + f64::from(off) * 1e-13);
        prop_oneof![near_halves, -1e3..1e3, -1e12..1e12, Just(0.0), Just(-0.0), Just(-0.004)]
    }

    proptest! {
        #![proptest_config(ProptestConfig {
            failure_persistence: None,
            ..ProptestConfig::with_cases(20_000)
        })]

        /// The quick way to write a number writes what the slow one does.
        #[test]
        fn a_number_is_written_as_it_is_everywhere(mm in lengths()) {
            prop_assert_eq!(number(mm), shortest(mm, 2));
        }
    }

    #[test]
    fn what_is_no_number_is_nought() {
        assert_eq!([f64::NAN, f64::INFINITY].map(number), ["0", "0"]);
    }
}
