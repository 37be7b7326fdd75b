//! Shaped units in parts: a word that is wider than its line, and one that is parted with a hyphen.

use super::Glyph;
use super::shape::{Unit, UnitRun};

/// What the hyphen of a parted word stands for: whoever hears the text, or copies it out of a page, gets the
/// whole word (ISO 32000-1, 14.8.2.2.3, from memory).
pub(super) const SOFT_HYPHEN: char = '\u{ad}';

/// A unit up to a byte of its text, and from there on; `None` inside of glyphs that belong together.
pub(super) fn part_unit(unit: &Unit, at: usize) -> Option<(Unit, Unit)> {
    let mut head = Unit { runs: Vec::new(), advance: 0.0 };
    let mut tail = Unit { runs: Vec::new(), advance: 0.0 };
    let mut start = 0;
    for run in &unit.runs {
        for cluster in run.glyphs.chunk_by(|a, b| a.bytes == b.bytes) {
            let bytes = cluster.first().map_or(0..0, |glyph| glyph.bytes.clone());
            let (from, to) = (start + bytes.start, start + bytes.end);
            if from < at && at < to {
                return None;
            }
            let part = if to <= at { &mut head } else { &mut tail };
            push_cluster(part, run, cluster);
        }
        start += run.text.len();
    }
    (!head.runs.is_empty() && !tail.runs.is_empty()).then_some((head, tail))
}

/// A unit with a hyphen behind it.
pub(super) fn with_hyphen(mut unit: Unit, hyphen: &Unit) -> Unit {
    for run in &hyphen.runs {
        let mut run =
            UnitRun { face: run.face, text: SOFT_HYPHEN.to_string(), glyphs: run.glyphs.clone() };
        let whole = 0..run.text.len();
        run.glyphs.iter_mut().for_each(|glyph| glyph.bytes = whole.clone());
        unit.runs.push(run);
    }
    unit.advance += hyphen.advance;
    unit
}

/// A unit in parts no wider than `limit` ems, each with one cluster of glyphs at least.
pub(super) fn cut_unit(unit: &Unit, limit: f64) -> Vec<Unit> {
    let mut parts = Vec::new();
    let mut part = Unit { runs: Vec::new(), advance: 0.0 };
    for run in &unit.runs {
        for cluster in run.glyphs.chunk_by(|a, b| a.bytes == b.bytes) {
            let advance: f64 = cluster.iter().map(|glyph| glyph.advance).sum();
            if !part.runs.is_empty() && part.advance + advance > limit {
                parts.push(std::mem::replace(&mut part, Unit { runs: Vec::new(), advance: 0.0 }));
            }
            push_cluster(&mut part, run, cluster);
        }
    }
    parts.push(part);
    parts
}

/// Adds glyphs that belong together, with the text that they stand for.
fn push_cluster(to: &mut Unit, run: &UnitRun, cluster: &[Glyph]) {
    let bytes = cluster.first().map_or(0..0, |glyph| glyph.bytes.clone());
    let text = run.text.get(bytes).unwrap_or_default();
    to.advance += cluster.iter().map(|glyph| glyph.advance).sum::<f64>();
    if to.runs.last().is_none_or(|last| last.face != run.face) {
        to.runs.push(UnitRun { face: run.face, text: String::new(), glyphs: Vec::new() });
    }
    if let Some(last) = to.runs.last_mut() {
        let start = last.text.len();
        last.text.push_str(text);
        last.glyphs.extend(cluster.iter().cloned().map(|mut glyph| {
            glyph.bytes = start..last.text.len();
            glyph
        }));
    }
}
