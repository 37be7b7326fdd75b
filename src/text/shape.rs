//! Shaping through `parley`: a piece of text without spaces to glyphs, cut where a line may end.
//!
//! Shaping costs far more than all else on a page, and the words of a sheet repeat, so it is done
//! a word at a time and remembered. It is done at the size of one em, so one word serves all
//! sizes.

use std::collections::HashMap;
use std::ops::Range;
use std::sync::Arc;

use parley::fontique::{Blob, Collection, CollectionOptions, SourceCache};
use parley::{FontContext, FontFamily, FontFamilyName, FontWeight, Layout, LayoutContext};
use parley::{LineHeight, StyleProperty};

use super::clean::push_code;
use super::{Face, Glyph, Weight};

/// Units of the layout to an em; the fonts have 1000, so advances stay whole numbers.
const EM: f32 = 1000.0;
/// Text remembered, bytes. When there is more, all is forgotten.
const REMEMBERED: usize = 1 << 20;
/// Longest text shaped at once, bytes: what is longer is a fault or an attack, and may be cut
/// anywhere.
const LONGEST: usize = 512;
/// How far from a space the rules of line breaking look, bytes.
const LOOK: usize = 64;

/// Glyphs that stay on one line. Lengths are in ems.
#[derive(Debug)]
pub(super) struct Unit {
    /// The glyphs, a run for each face.
    pub runs: Vec<UnitRun>,
    /// How far it moves the pen.
    pub advance: f64,
}

/// A word: its units in order.
pub(super) type Units = Arc<[Arc<Unit>]>;

/// Glyphs of one face. Lengths are in ems.
#[derive(Debug)]
pub(super) struct UnitRun {
    pub face: Face,
    pub text: String,
    pub glyphs: Vec<Glyph>,
}

/// Shapes words and remembers them.
pub(super) struct Shaper {
    fonts: FontContext,
    context: LayoutContext<()>,
    layout: Layout<()>,
    families: [FontFamilyName<'static>; 2],
    /// By weight.
    words: [HashMap<Box<str>, Units>; 2],
    /// Whether a line may end between two words, by the words with the space between them.
    parted: HashMap<Box<str>, bool>,
    remembered: usize,
}

impl Shaper {
    pub fn new() -> Self {
        let options = CollectionOptions { shared: false, system_fonts: false };
        let mut collection = Collection::new(options);
        for face in Face::ALL {
            collection.register_fonts(Blob::new(Arc::new(face.file())), None);
        }
        Self {
            fonts: FontContext { collection, source_cache: SourceCache::default() },
            context: LayoutContext::new(),
            layout: Layout::new(),
            families: [Face::Regular, Face::WideRegular]
                .map(|face| FontFamilyName::Named(face.family().into())),
            words: Default::default(),
            parted: HashMap::new(),
            remembered: 0,
        }
    }

    /// Makes room for a text that is to be remembered.
    fn remember(&mut self, text: &str) {
        if self.remembered > REMEMBERED {
            self.words = Default::default();
            self.parted = HashMap::new();
            self.remembered = 0;
        }
        self.remembered += text.len() + 1;
    }

    /// The units of a cleaned text without spaces; a line may end after each.
    pub fn units(&mut self, word: &str, weight: Weight) -> Units {
        if let Some(units) = self.words[weight as usize].get(word) {
            return units.clone();
        }
        let mut units = Vec::new();
        for part in parts(word) {
            self.shape(part, weight, &mut units);
        }
        let units: Units = units.into();
        if word.len() <= LONGEST {
            self.remember(word);
            self.words[weight as usize].insert(word.into(), units.clone());
        }
        units
    }

    fn shape(&mut self, text: &str, weight: Weight, units: &mut Vec<Arc<Unit>>) {
        self.lay_out(text, weight);
        let missing = self.without_glyph(text);
        if missing.is_empty() {
            units.extend(self.layout.lines().map(|line| Arc::new(read_line(&line, text))));
            return;
        }
        // The fonts have each character but not in this company, as with a mark on a letter of
        // another font. What is named is plain ASCII, and that every face has.
        let named = name_characters(text, &missing);
        self.lay_out(&named, weight);
        units.extend(self.layout.lines().map(|line| Arc::new(read_line(&line, &named))));
    }

    fn lay_out(&mut self, text: &str, weight: Weight) {
        let weight = match weight {
            Weight::Regular => FontWeight::NORMAL,
            Weight::Bold => FontWeight::BOLD,
        };
        let mut builder = self.context.ranged_builder(&mut self.fonts, text, 1.0, false);
        builder.push_default(StyleProperty::FontFamily(FontFamily::List((&self.families).into())));
        builder.push_default(StyleProperty::FontWeight(weight));
        builder.push_default(StyleProperty::FontSize(EM));
        builder.push_default(StyleProperty::LineHeight(LineHeight::FontSizeRelative(1.0)));
        builder.build_into(&mut self.layout, text);
        // No width at all: every place where a line may end, ends one.
        self.layout.break_all_lines(Some(0.0));
    }

    /// Whether a line may end at the spaces between two words.
    pub fn may_part(&mut self, before: &str, after: &str) -> bool {
        // The rules look a few characters far; long words need not be shaped whole.
        let start = floor_boundary(before, before.len().saturating_sub(LOOK));
        let before = before.get(start..).unwrap_or(before);
        let after = after.get(..floor_boundary(after, LOOK)).unwrap_or(after);
        let text = format!("{before} {after}");
        if let Some(may) = self.parted.get(text.as_str()) {
            return *may;
        }
        let may = self.line_ends(&text).contains(&(before.len() + 1));
        self.remember(&text);
        self.parted.insert(text.into(), may);
        may
    }

    /// Where lines may end in a text, spaces and all.
    pub fn line_ends(&mut self, text: &str) -> Vec<usize> {
        self.lay_out(text, Weight::Regular);
        self.layout.lines().map(|line| line.text_range().end).collect()
    }

    /// The bytes of the clusters for which no font had a glyph, in order.
    fn without_glyph(&self, text: &str) -> Vec<Range<usize>> {
        let mut missing = Vec::new();
        if text.is_ascii() {
            return missing;
        }
        for run in self.layout.lines().flat_map(|line| line.runs()) {
            let known = face_of(&run).is_some();
            for cluster in run.clusters() {
                if !known || cluster.glyphs().any(|glyph| glyph.id == 0) {
                    missing.push(cluster.text_range());
                }
            }
        }
        missing.sort_by_key(|range| range.start);
        missing
    }
}

/// `text` with the characters in `ranges` written as codes.
fn name_characters(text: &str, ranges: &[Range<usize>]) -> String {
    let mut named = String::with_capacity(text.len() * 2);
    for (at, char) in text.char_indices() {
        if ranges.iter().any(|range| range.contains(&at)) {
            push_code(&mut named, char);
        } else {
            named.push(char);
        }
    }
    named
}

/// `text` in parts short enough to be shaped at once.
fn parts(text: &str) -> impl Iterator<Item = &str> {
    let mut rest = text;
    std::iter::from_fn(move || {
        if rest.is_empty() {
            return None;
        }
        let end = floor_boundary(rest, LONGEST);
        let (part, after) = rest.split_at(end);
        rest = after;
        Some(part)
    })
}

/// The last place up to `at` that is between two characters.
fn floor_boundary(text: &str, at: usize) -> usize {
    (0..=at.min(text.len())).rev().find(|at| text.is_char_boundary(*at)).unwrap_or_default()
}

/// Which of the project's faces a run is set in: the one whose file it points at.
fn face_of(run: &parley::Run<'_, ()>) -> Option<Face> {
    let file = run.font().data.as_ref().as_ptr();
    Face::ALL.into_iter().find(|face| std::ptr::eq(face.file().as_ptr(), file))
}

fn read_line(line: &parley::Line<'_, ()>, text: &str) -> Unit {
    let mut unit = Unit { runs: Vec::new(), advance: 0.0 };
    for run in line.runs() {
        let Some(face) = face_of(&run) else { continue };
        let range = run.text_range();
        let Some(text) = text.get(range.clone()) else { continue };
        let mut glyphs = Vec::with_capacity(text.len());
        for cluster in run.visual_clusters() {
            let bytes = inside(cluster.text_range(), &range);
            let mut any = false;
            for glyph in cluster.glyphs() {
                any = true;
                let advance = f64::from(glyph.advance / EM);
                unit.advance += advance;
                glyphs.push(Glyph {
                    id: u16::try_from(glyph.id).unwrap_or_default(),
                    advance,
                    dx: f64::from(glyph.x / EM),
                    dy: f64::from(-glyph.y / EM),
                    bytes: bytes.clone(),
                });
            }
            // The rest of a ligature has no glyph of its own: its bytes belong to the glyphs of
            // the cluster beside it.
            if !any {
                widen(&mut glyphs, bytes);
            }
        }
        unit.runs.push(UnitRun { face, text: text.to_owned(), glyphs });
    }
    unit
}

/// `range`, counted from the start of `within`.
fn inside(range: Range<usize>, within: &Range<usize>) -> Range<usize> {
    range.start.saturating_sub(within.start)..range.end.saturating_sub(within.start)
}

/// Adds `bytes` to all glyphs of the last cluster.
fn widen(glyphs: &mut [Glyph], bytes: Range<usize>) {
    let Some(last) = glyphs.last().map(|glyph| glyph.bytes.clone()) else { return };
    let wide = last.start.min(bytes.start)..last.end.max(bytes.end);
    for glyph in glyphs.iter_mut().rev().take_while(|glyph| glyph.bytes == last) {
        glyph.bytes = wide.clone();
    }
}
