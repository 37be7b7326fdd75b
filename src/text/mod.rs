//! The project's fonts; shaping, measuring and breaking of text. Sizes of type are points, all
//! other lengths mm.

mod clean;
mod flow;
mod fonts;
mod hyphens;
mod parts;
mod setter;
mod shape;

use std::collections::HashMap;
use std::sync::Arc;

pub use flow::{Flow, FlowLine, Piece, Span};
pub use fonts::covered;
use hyphens::Hyphenator;
use shape::Shaper;

/// One of the project's fonts.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Face {
    /// Latin, regular.
    Regular,
    /// Latin, bold.
    Bold,
    /// Greek, Cyrillic and what the Latin font lacks, regular.
    WideRegular,
    /// The same, bold.
    WideBold,
}

/// How dark the type is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Weight {
    /// Running text.
    Regular,
    /// Headings, codes, what must be found fast.
    Bold,
}

/// Size and weight of type.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Style {
    /// Size, points.
    pub size_pt: f64,
    /// Weight.
    pub weight: Weight,
}

impl Style {
    /// Regular type of a size in points.
    pub const fn regular(size_pt: f64) -> Self {
        Self { size_pt, weight: Weight::Regular }
    }

    /// Bold type of a size in points.
    pub const fn bold(size_pt: f64) -> Self {
        Self { size_pt, weight: Weight::Bold }
    }
}

/// A glyph of a run.
#[derive(Clone, Debug, PartialEq)]
pub struct Glyph {
    /// Its number in the font.
    pub id: u16,
    /// Advance, mm.
    pub advance: f64,
    /// Shift to the right of where the pen is, mm.
    pub dx: f64,
    /// Shift upwards, mm.
    pub dy: f64,
    /// The bytes of [`Run::text`] that it stands for.
    pub bytes: std::ops::Range<usize>,
}

/// Shaped glyphs of one font, in the order in which they stand from the left.
#[derive(Clone, Debug, PartialEq)]
pub struct Run {
    /// The font.
    pub face: Face,
    /// Size, points.
    pub size_pt: f64,
    /// Where the run begins, mm from the line's left end.
    pub x: f64,
    /// The text that the glyphs stand for.
    pub text: String,
    /// The glyphs.
    pub glyphs: Vec<Glyph>,
}

/// One shaped line of text. Its origin is the left end of the baseline.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// The runs from left to right.
    pub runs: Vec<Run>,
    /// Width, mm.
    pub width: f64,
    /// From the baseline up to the top of the tallest font's ascent, mm.
    pub ascent: f64,
    /// From the baseline down to the bottom of the deepest font's descent, mm.
    pub descent: f64,
}

impl Line {
    /// The text of the line.
    pub fn text(&self) -> String {
        self.runs.iter().map(|run| run.text.as_str()).collect()
    }

    /// Ascent and descent together, mm.
    pub fn height(&self) -> f64 {
        self.ascent + self.descent
    }
}

/// Shapes and measures text. One for each thread; it remembers what it has shaped.
///
/// A character that none of the project's fonts has is written `[U+4E2D]`; control characters
/// are left out, and tabs and line breaks are spaces. [`covered`] tells which characters those
/// are.
pub struct Typesetter {
    shaper: Shaper,
    lines: HashMap<StyleKey, HashMap<Box<str>, Arc<Line>>>,
    remembered: usize,
    hyphenator: Option<Hyphenator>,
}

/// A style as it can be looked up.
type StyleKey = (u64, Weight);

/// Whole lines remembered; when there are more, all are forgotten.
const REMEMBERED: usize = 8192;
/// Longest line remembered, bytes.
const LONGEST: usize = 128;

impl Typesetter {
    /// A typesetter with the project's fonts and no others.
    #[allow(clippy::new_without_default)]
    pub fn new() -> Self {
        Self { shaper: Shaper::new(), lines: HashMap::new(), remembered: 0, hyphenator: None }
    }

    /// From now on words of [`flow`](Self::flow) are parted as the language of a tag parts them; not at all
    /// with `None`, in English, and in a language without patterns.
    pub fn hyphenate_in(&mut self, language: Option<&str>) {
        self.hyphenator = language.and_then(Hyphenator::of_tag);
    }

    /// One line of one style, never broken.
    pub fn line(&mut self, text: &str, style: Style) -> Arc<Line> {
        let key = (style.size_pt.to_bits(), style.weight);
        if let Some(line) = self.lines.get(&key).and_then(|lines| lines.get(text)) {
            return line.clone();
        }
        let span = Span { text, weight: style.weight };
        let line = Flow::new(&mut self.shaper, &[span], style.size_pt, None).whole();
        if text.len() <= LONGEST {
            if self.remembered >= REMEMBERED {
                self.lines.clear();
                self.remembered = 0;
            }
            self.remembered += 1;
            self.lines.entry(key).or_default().insert(text.into(), line.clone());
        }
        line
    }

    /// `text` broken into lines no wider than `width` mm; a word that is wider is cut.
    pub fn lines(&mut self, text: &str, style: Style, width: f64) -> Vec<Arc<Line>> {
        let span = Span { text, weight: style.weight };
        Flow::new(&mut self.shaper, &[span], style.size_pt, None).broken_bare(width)
    }

    /// Text of one size and several weights, ready to be measured and broken.
    ///
    /// A line may end where Unicode's line breaking (UAX 14) allows it; where two spans meet
    /// without a space, it may not. A word is parted with a hyphen only if it is wider than its line, or if
    /// the line before it would be badly filled.
    pub fn flow(&mut self, spans: &[Span<'_>], size_pt: f64) -> Flow {
        Flow::new(&mut self.shaper, spans, size_pt, self.hyphenator)
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    #[test]
    fn odd_text_is_set_without_harm() {
        let mut types = Typesetter::new();
        for (text, shown) in [
            ("", ""),
            ("\u{0}\u{7}", ""),
            ("a\tb\r\nc", "a b  c"),
            ("中", "[U+4E2D]"),
            ("  ", "  "),
            ("Ж1", "Ж1"),
            ("\u{200b}\u{200d}\u{feff}", ""),
            ("ש", "[U+05E9]"),
        ] {
            let line = types.line(text, Style::regular(9.0));
            assert_eq!(line.text(), shown);
            assert!(line.height() > 0.0);
        }
        assert_eq!(types.line("Ж1", Style::bold(9.0)).runs[0].face, Face::WideBold);
        for size in [0.0, -1.0, f64::NAN, f64::INFINITY, 1e9] {
            assert!(types.line("abc", Style::regular(size)).width.is_finite());
        }
        let long = "word ".repeat(20_000);
        assert_eq!(types.line(&long, Style::regular(9.0)).text(), long);
        assert!(types.lines(&"x".repeat(100_000), Style::regular(9.0), 100.0).len() > 1000);
        for width in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, -5.0] {
            assert!(!types.lines("a b", Style::regular(9.0), width).is_empty());
        }
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(300))]

        /// Whatever the text: no missing glyph, and the glyphs' bytes cover the run's text.
        #[test]
        fn every_glyph_is_real_and_stands_for_text(
            text in "\\PC{0,12}|[\u{300}-\u{370}a-zА-я\u{900}-\u{97f}]{0,8}",
        ) {
            let mut types = Typesetter::new();
            let line = types.line(&text, Style::regular(9.0));
            for run in &line.runs {
                let mut seen = vec![false; run.text.len()];
                for glyph in &run.glyphs {
                    prop_assert!(glyph.id != 0, "{:?} in {:?}", glyph, run.text);
                    prop_assert!(run.text.get(glyph.bytes.clone()).is_some_and(|t| !t.is_empty()));
                    seen[glyph.bytes.clone()].fill(true);
                }
                prop_assert!(seen.into_iter().all(|seen| seen), "{:?}", run);
            }
            let advances = line.runs.iter().flat_map(|run| &run.glyphs).map(|g| g.advance);
            prop_assert!((advances.sum::<f64>() - line.width).abs() < 1e-9);
        }
    }
}
