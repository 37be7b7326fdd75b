//! The fonts inside an SVG file: only the glyphs that it uses, under their own names.

use std::collections::{BTreeMap, BTreeSet};

use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use skrifa::instance::{LocationRef, Size};
use skrifa::raw::TableProvider;
use skrifa::raw::types::Tag;
use skrifa::{FontRef, GlyphId, MetadataProvider};
use subsetter::GlyphRemapper;
use write_fonts::FontBuilder;
use write_fonts::tables::cmap::Cmap;

use crate::scene::Item;
use crate::text::{Face, Run, Weight};
use crate::units::Length;

/// The glyphs that a drawing uses.
#[derive(Default)]
pub(super) struct Used {
    faces: BTreeMap<Face, UsedOfFace>,
}

#[derive(Default)]
struct UsedOfFace {
    glyphs: BTreeSet<u16>,
    characters: BTreeSet<char>,
}

impl Used {
    /// Adds what `items` use.
    pub fn collect(&mut self, items: &[Item]) {
        for item in items {
            match item {
                Item::Text { line, .. } => {
                    for run in &line.runs {
                        let used = self.faces.entry(run.face).or_default();
                        used.glyphs.extend(run.glyphs.iter().map(|glyph| glyph.id));
                        used.characters.extend(run.text.chars());
                    }
                }
                Item::Group { items, .. }
                | Item::Scaled { items, .. }
                | Item::Tagged { items, .. } => self.collect(items),
                Item::Shape { .. }
                | Item::Picture { .. }
                | Item::Anchor { .. }
                | Item::Link { .. } => {}
            }
        }
    }
}

/// The style class of text in a face.
pub(super) fn class(face: Face) -> &'static str {
    match face {
        Face::Regular => "r",
        Face::Bold => "b",
        Face::WideRegular => "wr",
        Face::WideBold => "wb",
    }
}

/// Adds the style sheet: each face that is used, with its glyphs, and its class.
pub(super) fn push_style(used: &Used, to: &mut String) {
    if used.faces.is_empty() {
        return;
    }
    to.push_str("<style>\n");
    for (face, used) in &used.faces {
        let family = face.family();
        let weight = match face.weight() {
            Weight::Regular => 400,
            Weight::Bold => 700,
        };
        let font = format!("font-family:'{family}';font-weight:{weight}");
        if let Some(file) = subset(*face, used) {
            to.push_str("@font-face{");
            to.push_str(&font);
            to.push_str(";src:url(data:font/ttf;base64,");
            STANDARD.encode_string(file, to);
            to.push_str(")}\n");
        }
        to.push_str(&format!(".{}{{{font}}}\n", class(*face)));
    }
    to.push_str("</style>\n");
}

/// The part of a font that is used, with a character map, which a browser needs and a subset for
/// a PDF lacks.
fn subset(face: Face, used: &UsedOfFace) -> Option<Vec<u8>> {
    let whole = FontRef::new(face.file()).ok()?;
    let charmap = whole.charmap();
    let mut glyphs = used.glyphs.clone();
    let mut characters: BTreeMap<char, u16> = BTreeMap::new();
    for char in &used.characters {
        if let Some(glyph) = charmap.map(*char).and_then(|id| u16::try_from(id.to_u32()).ok()) {
            characters.insert(*char, glyph);
            glyphs.insert(glyph);
        }
    }
    let sorted: Vec<u16> = glyphs.into_iter().collect();
    let mapper = GlyphRemapper::new_from_glyphs_sorted(&sorted);
    let part = subsetter::subset(face.file(), 0, &mapper).ok()?;
    let mappings = characters
        .into_iter()
        .filter_map(|(char, glyph)| Some((char, GlyphId::new(u32::from(mapper.get(glyph)?)))));
    let cmap = Cmap::from_mappings(mappings).ok()?;
    let mut builder = FontBuilder::new();
    builder.add_table(&cmap).ok()?;
    // Browsers want this table; it holds the weight and the heights of lines.
    let os2 = whole.table_data(Tag::new(b"OS/2"))?;
    builder.add_raw(Tag::new(b"OS/2"), os2.as_bytes());
    builder.copy_missing_tables(FontRef::new(&part).ok()?);
    Some(builder.build())
}

/// The part of a font with the glyphs of these letters, with a character map; nothing if it cannot be cut out.
#[cfg(feature = "program")]
pub fn font_of_letters(face: Face, letters: &BTreeSet<char>) -> Option<Vec<u8>> {
    subset(face, &UsedOfFace { glyphs: BTreeSet::new(), characters: letters.clone() })
}

/// Whether the font's own advances put every glyph of a run where it is: a subset has no kerning.
pub(super) fn is_spaced_by_font(run: &Run) -> bool {
    let Ok(font) = FontRef::new(run.face.file()) else { return false };
    let metrics = font.glyph_metrics(Size::unscaled(), LocationRef::default());
    let Ok(head) = font.head() else { return false };
    let unit = Length::from_pt(run.size_pt).0 / f64::from(head.units_per_em().max(1));
    run.glyphs.iter().all(|glyph| {
        let advance = metrics.advance_width(GlyphId::new(u32::from(glyph.id)));
        let own = f64::from(advance.unwrap_or_default()) * unit;
        glyph.dx == 0.0 && glyph.dy == 0.0 && (own - glyph.advance).abs() < unit / 2.0
    })
}
