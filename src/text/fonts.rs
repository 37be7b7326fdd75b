//! The font files, and what must be known of them without shaping.

use std::sync::OnceLock;

use skrifa::FontRef;
use skrifa::MetadataProvider;
use skrifa::instance::{LocationRef, Size};

use super::{Face, Weight};

/// Every face with its file. The files are part of the program.
const FILES: [(Face, &[u8]); 4] = [
    (Face::Regular, include_bytes!("fonts/AtkinsonHyperlegibleNext-Regular.ttf")),
    (Face::Bold, include_bytes!("fonts/AtkinsonHyperlegibleNext-Bold.ttf")),
    (Face::WideRegular, include_bytes!("fonts/NotoSans-Regular.ttf")),
    (Face::WideBold, include_bytes!("fonts/NotoSans-Bold.ttf")),
];

impl Face {
    /// All faces; a face's place in this list is [`Face::index`].
    pub const ALL: [Face; 4] = [Face::Regular, Face::Bold, Face::WideRegular, Face::WideBold];

    /// The place in [`Face::ALL`].
    pub const fn index(self) -> usize {
        self as usize
    }

    /// The font file, TrueType.
    pub fn file(self) -> &'static [u8] {
        FILES[self.index()].1
    }

    /// The family's name, as the font file gives it.
    pub fn family(self) -> &'static str {
        match self {
            Face::Regular | Face::Bold => "Atkinson Hyperlegible Next",
            Face::WideRegular | Face::WideBold => "Noto Sans",
        }
    }

    /// The face that text of a weight is set in as far as it goes.
    pub(super) fn first_for(weight: Weight) -> Self {
        match weight {
            Weight::Regular => Face::Regular,
            Weight::Bold => Face::Bold,
        }
    }

    /// How dark the face is.
    pub fn weight(self) -> Weight {
        match self {
            Face::Regular | Face::WideRegular => Weight::Regular,
            Face::Bold | Face::WideBold => Weight::Bold,
        }
    }

    /// What was read from the file.
    pub(super) fn facts(self) -> &'static FaceFacts {
        static FACTS: OnceLock<[FaceFacts; 4]> = OnceLock::new();
        let all = FACTS.get_or_init(|| FILES.map(|(_, file)| FaceFacts::read(file)));
        &all[self.index()]
    }
}

/// Whether the project's fonts can write a character; what they cannot is written `[U+4E2D]`.
pub fn covered(char: char) -> bool {
    char == ' ' || (Face::Regular.has(char) || Face::WideRegular.has(char)) && is_public(char)
}

impl Face {
    /// Whether the font has a glyph for a character.
    pub fn has(self, char: char) -> bool {
        let code = char as usize;
        self.facts().coverage.get(code / 64).is_some_and(|word| word >> (code % 64) & 1 == 1)
    }
}

/// Private characters mean nothing to a reader and PDF/A refuses them.
fn is_public(char: char) -> bool {
    !matches!(char, '\u{E000}'..='\u{F8FF}' | '\u{F0000}'..='\u{10FFFF}')
}

/// What is read from a font file once. Lengths are in ems.
#[derive(Debug, Default)]
pub(super) struct FaceFacts {
    /// From the baseline up to the top of the line.
    pub ascent: f64,
    /// From the baseline down to the bottom of the line.
    pub descent: f64,
    /// The glyph of the space.
    pub space: u16,
    /// How far the space moves the pen.
    pub space_advance: f64,
    /// One bit for each character.
    coverage: Vec<u64>,
}

impl FaceFacts {
    /// A file that is no font gives a face without characters, so nothing is ever set in it; the
    /// tests see to it that the four files are fonts.
    fn read(file: &[u8]) -> Self {
        let Ok(font) = FontRef::new(file) else { return Self::default() };
        let metrics = font.metrics(Size::unscaled(), LocationRef::default());
        let em = f64::from(metrics.units_per_em).max(1.0);
        let space = font.charmap().map(' ').unwrap_or_default();
        let advance =
            font.glyph_metrics(Size::unscaled(), LocationRef::default()).advance_width(space);
        let mut coverage = Vec::new();
        for (code, _) in font.charmap().mappings() {
            let word = code as usize / 64;
            if coverage.len() <= word {
                coverage.resize(word + 1, 0u64);
            }
            coverage[word] |= 1 << (code % 64);
        }
        Self {
            ascent: f64::from(metrics.ascent) / em,
            descent: f64::from(-metrics.descent) / em,
            space: u16::try_from(space.to_u32()).unwrap_or_default(),
            space_advance: f64::from(advance.unwrap_or_default()) / em,
            coverage,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_files_are_the_fonts_they_are_named() {
        for (index, face) in Face::ALL.into_iter().enumerate() {
            assert_eq!(face.index(), index);
            assert_eq!(FILES[index].0, face);
            let font = FontRef::new(face.file()).expect("a font file");
            let name = font
                .localized_strings(skrifa::string::StringId::FAMILY_NAME)
                .english_or_first()
                .map(|name| name.to_string());
            assert_eq!(name.as_deref(), Some(face.family()));
            assert_eq!(font.attributes().weight.value() > 500.0, face.weight() == Weight::Bold);
        }
    }

    #[test]
    fn latin_greek_and_cyrillic_are_covered_chinese_is_not() {
        for char in "Aé–≤×·°Ωμµ½\u{a0}Жθ₂".chars() {
            assert!(covered(char), "{char}");
        }
        for char in "中א\u{E000}😀\u{1}\n".chars() {
            assert!(!covered(char), "{char:?}");
        }
    }
}
