//! The project's fonts; shaping, measuring and breaking of text. Sizes of type are points, all
//! other lengths mm.

use std::sync::Arc;

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
/// are left out, and tabs and line breaks are spaces.
pub struct Typesetter {}

impl Typesetter {
    /// A typesetter with the project's fonts and no others.
    #[allow(clippy::new_without_default)]
    pub fn new() -> Self {
        todo!()
    }

    /// One line of one style, never broken.
    pub fn line(&mut self, text: &str, style: Style) -> Arc<Line> {
        let _ = (text, style);
        todo!()
    }

    /// `text` broken into lines no wider than `width` mm; a word that is wider is cut.
    pub fn lines(&mut self, text: &str, style: Style, width: f64) -> Vec<Arc<Line>> {
        let _ = (text, style, width);
        todo!()
    }
}
