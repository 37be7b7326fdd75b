//! Shaped text.

use std::ops::Range;
use std::sync::OnceLock;

use krilla::surface::{Location, Surface};
use krilla::text::{Font, GlyphId};

use crate::geometry::Point;
use crate::scene::{Ink, Placement};
use crate::text::{Face, Glyph, Line};
use crate::units::Length;

/// Draws a line of text from the left end of its baseline.
pub(super) fn draw(surface: &mut Surface<'_>, line: &Line, ink: Ink, at: Point, place: Placement) {
    surface.set_fill(Some(super::shapes::fill(ink)));
    surface.set_stroke(None);
    for run in &line.runs {
        let Some(font) = font(run.face) else { continue };
        let em = Length::from_pt(run.size_pt).0;
        let start = super::point(place.point(at.moved(run.x, 0.0)));
        let glyphs: Vec<InEms> = run.glyphs.iter().map(|glyph| InEms { glyph, em }).collect();
        let size = (run.size_pt * place.scale) as f32;
        surface.draw_glyphs(start, &glyphs, font.clone(), &run.text, size, false);
    }
}

/// The font of a face, read once for the whole process.
fn font(face: Face) -> Option<&'static Font> {
    static FONTS: OnceLock<[Option<Font>; 4]> = OnceLock::new();
    let fonts = FONTS.get_or_init(|| Face::ALL.map(|face| Font::new(face.file().into(), 0)));
    fonts.get(face.index()).and_then(Option::as_ref)
}

/// A glyph with its lengths in ems, as `krilla` asks for them.
struct InEms<'a> {
    glyph: &'a Glyph,
    /// Millimetres to an em.
    em: f64,
}

impl InEms<'_> {
    fn at(&self, mm: f64, size: f32) -> f32 {
        // Fonts have 1000 units to an em: what is smaller is rounding.
        ((mm / self.em * 1e4).round() / 1e4) as f32 * size
    }
}

impl krilla::text::Glyph for InEms<'_> {
    fn glyph_id(&self) -> GlyphId {
        GlyphId::new(u32::from(self.glyph.id))
    }

    fn text_range(&self) -> Range<usize> {
        self.glyph.bytes.clone()
    }

    fn x_advance(&self, size: f32) -> f32 {
        self.at(self.glyph.advance, size)
    }

    fn x_offset(&self, size: f32) -> f32 {
        self.at(self.glyph.dx, size)
    }

    fn y_offset(&self, size: f32) -> f32 {
        self.at(self.glyph.dy, size)
    }

    fn y_advance(&self, _size: f32) -> f32 {
        0.0
    }

    fn location(&self) -> Option<Location> {
        None
    }
}
