//! Paper, and how much of it a document's words have.

use super::Density;
use crate::geometry::{Rect, Size};

/// A size of paper, upright.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Paper {
    /// 210 mm by 297 mm (ISO 216).
    A4,
    /// 148 mm by 210 mm (ISO 216).
    A5,
    /// 8.5 by 11 inches (ANSI/ASME Y14.1, size A), which is 215.9 mm by 279.4 mm.
    Letter,
}

impl Paper {
    /// All sizes.
    pub const ALL: [Paper; 3] = [Paper::A4, Paper::A5, Paper::Letter];

    /// Its name in a sentence.
    pub fn name(self) -> &'static str {
        match self {
            Paper::A4 => "A4",
            Paper::A5 => "A5",
            Paper::Letter => "letter",
        }
    }

    /// Width and height, mm.
    pub fn size(self) -> Size {
        match self {
            Paper::A4 => Size::new(210.0, 297.0),
            Paper::A5 => Size::new(148.0, 210.0),
            Paper::Letter => Size::new(215.9, 279.4),
        }
    }

    /// Where a roomy document's own words and figures stand: the page without its margins.
    pub fn area(self) -> Rect {
        self.area_for(Density::Roomy)
    }

    /// The same as [`Paper::area`] for a document of a density.
    pub fn area_for(self, density: Density) -> Rect {
        self.inside(self.size(), density)
    }

    /// Width and height of a page that lies on its long side, mm.
    pub fn landscape_size(self) -> Size {
        let Size { width, height } = self.size();
        Size::new(height, width)
    }

    /// The same as [`Paper::area_for`] for a page that lies on its long side.
    pub fn landscape_area(self, density: Density) -> Rect {
        self.inside(self.landscape_size(), density)
    }

    fn inside(self, Size { width, height }: Size, density: Density) -> Rect {
        let (side, top, bottom) = match (density, self) {
            // A hole for a binder ends 16 mm from the edge at most (ISO 838: 6 mm wide, 12 ± 1 mm in).
            (Density::Roomy, Paper::A4 | Paper::Letter) => (16.0, 18.0, 15.0),
            (Density::Roomy, Paper::A5) => (13.0, 18.0, 15.0),
            (Density::Close, Paper::A4 | Paper::Letter) => (12.0, 12.5, 10.0),
            (Density::Close, Paper::A5) => (9.0, 12.0, 9.0),
            (Density::Reach, Paper::A4 | Paper::Letter) => (14.0, 16.0, 14.0),
            (Density::Reach, Paper::A5) => (10.0, 14.0, 12.0),
        };
        Rect { left: side, top, right: width - side, bottom: height - bottom }
    }
}
