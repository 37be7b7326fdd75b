//! Pictures that come from outside, such as a logo: read once into plain outlines or pixels, so that
//! a writer knows no file format and nothing of the file is drawn that was not looked at.
//!
//! Taken is what is drawn the same everywhere: outlines of one opaque colour, or pixels. All else is
//! refused with what it is; nothing is left out.

mod png;
mod svg;

use crate::geometry::{Path, Size};

use super::Ink;

/// A picture from outside.
#[derive(Clone, Debug, PartialEq)]
pub struct Picture {
    /// Width and height in units of its own: user units or pixels.
    pub size: Size,
    /// What is drawn.
    pub content: PictureContent,
}

/// What a picture is made of.
#[derive(Clone, Debug, PartialEq)]
pub enum PictureContent {
    /// Filled outlines, back to front, in the picture's own units.
    Outlines(Vec<Outline>),
    /// Pixels, row by row from the top.
    Pixels(Pixels),
}

/// A filled outline of a picture.
#[derive(Clone, Debug, PartialEq)]
pub struct Outline {
    /// Where it runs.
    pub path: Path,
    /// Colour of the inside.
    pub fill: Ink,
    /// Whether the inside is where a ray crosses the outline an odd number of times; else where the
    /// crossings do not cancel.
    pub even_odd: bool,
}

/// Pixels on white.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Pixels {
    /// Columns.
    pub width: u32,
    /// Rows.
    pub height: u32,
    /// Red, green and blue of each.
    pub rgb: Vec<u8>,
}

/// The most pixels of a picture from outside: a logo of 45 by 12 mm at 1200 dots to the inch has 1.2
/// million.
pub const MOST_PICTURE_PIXELS: u64 = 2_000_000;
/// The most steps of all its outlines.
pub const MOST_PICTURE_STEPS: usize = 20_000;

/// Why a picture is not taken.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum PictureFault {
    /// The file is neither an SVG nor a PNG.
    NeitherKind,
    /// It cannot be read: what its reader said.
    Unreadable(String),
    /// It holds what is not taken.
    Holds(NotTaken),
    /// It has so many pixels, more than [`MOST_PICTURE_PIXELS`].
    TooManyPixels {
        /// Columns.
        width: u32,
        /// Rows.
        height: u32,
    },
    /// It has more steps than [`MOST_PICTURE_STEPS`], or more elements or rules of style than a logo
    /// has reason to.
    TooIntricate,
    /// Nothing in it is seen.
    Blank,
}

/// What an SVG may hold and a sheet does not draw.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NotTaken {
    /// Text, whose font is another on each machine.
    Text,
    /// A picture of pixels inside.
    Image,
    /// A script, or an attribute that holds one.
    Script,
    /// Something that moves.
    Animation,
    /// Something that lies outside of the file.
    Outside,
    /// A copy of another part: `use`.
    Copy,
    /// A gradient or a pattern.
    Gradient,
    /// A filter.
    Filter,
    /// A mask.
    Mask,
    /// A clip path, or a drawing inside the drawing, which cuts its contents.
    Clip,
    /// Arrowheads on lines.
    Marker,
    /// Something that one can see through, or that is mixed with what lies under it.
    SeeThrough,
    /// A broken line.
    Dashes,
    /// Abbreviations that the file declares for itself: `<!ENTITY`.
    Entities,
    /// Elements inside each other deeper than a drawing has reason to.
    Depth,
    /// Another element.
    Element(String),
}

impl Picture {
    /// Reads an SVG or PNG file. Nothing but `bytes` is read, whatever they name.
    ///
    /// # Errors
    /// If it is neither, cannot be read, is too large, or holds what is not taken.
    pub fn read(bytes: &[u8]) -> Result<Self, PictureFault> {
        if bytes.starts_with(PNG_SIGNATURE) {
            return png::read(bytes);
        }
        let text = std::str::from_utf8(bytes).map_err(|_| PictureFault::NeitherKind)?;
        let text = text.trim_start_matches('\u{feff}');
        match text.trim_start().starts_with('<') {
            true => svg::read(text),
            false => Err(PictureFault::NeitherKind),
        }
    }

    /// Its size when it is as large as `room` lets it be, mm.
    pub fn fitted(&self, room: Size) -> Size {
        let scale = (room.width / self.size.width).min(room.height / self.size.height);
        Size::new(self.size.width * scale, self.size.height * scale)
    }

    /// How many dots to the inch it has at a width, mm; `None` if it has no pixels.
    pub fn dots_to_the_inch(&self, width: f64) -> Option<f64> {
        match &self.content {
            PictureContent::Pixels(pixels) => Some(f64::from(pixels.width) / width * 25.4),
            PictureContent::Outlines(_) => None,
        }
    }
}

/// The first bytes of a PNG file (ISO/IEC 15948, clause 5.2).
const PNG_SIGNATURE: &[u8] = b"\x89PNG\r\n\x1a\n";

#[cfg(test)]
mod tests;
