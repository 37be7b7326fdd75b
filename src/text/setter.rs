//! Putting shaped units side by side into one line.

use super::shape::Unit;
use super::{Face, Glyph, Line, Run};

/// A line that is being set.
pub(super) struct Setter {
    runs: Vec<Run>,
    /// Where the pen is, mm.
    pen: f64,
    em: f64,
    size_pt: f64,
}

impl Setter {
    pub fn new(em: f64, size_pt: f64) -> Self {
        Self { runs: Vec::new(), pen: 0.0, em, size_pt }
    }

    /// Where the pen is, mm.
    pub fn width(&self) -> f64 {
        self.pen
    }

    pub fn push(&mut self, unit: &Unit) {
        let em = self.em;
        for from in &unit.runs {
            let run = self.run(from.face);
            let start = run.text.len();
            run.text.push_str(&from.text);
            run.glyphs.extend(from.glyphs.iter().map(|glyph| Glyph {
                id: glyph.id,
                advance: glyph.advance * em,
                dx: glyph.dx * em,
                dy: glyph.dy * em,
                bytes: start + glyph.bytes.start..start + glyph.bytes.end,
            }));
            self.pen += from.glyphs.iter().map(|glyph| glyph.advance * em).sum::<f64>();
        }
    }

    /// Spaces of a face.
    pub fn push_spaces(&mut self, count: u32, face: Face) {
        if count == 0 {
            return;
        }
        let facts = face.facts();
        let advance = facts.space_advance * self.em;
        let run = self.run(face);
        for _ in 0..count {
            let start = run.text.len();
            run.text.push(' ');
            let bytes = start..start + 1;
            run.glyphs.push(Glyph { id: facts.space, advance, dx: 0.0, dy: 0.0, bytes });
        }
        self.pen += f64::from(count) * advance;
    }

    /// The line, `width` mm wide; `face` gives the height of an empty one.
    pub fn finish(self, width: f64, face: Face) -> Line {
        let faces = || {
            let first = if self.runs.is_empty() { Some(face) } else { None };
            self.runs.iter().map(|run| run.face).chain(first)
        };
        let ascent = faces().map(|face| face.facts().ascent).fold(0.0, f64::max);
        let descent = faces().map(|face| face.facts().descent).fold(0.0, f64::max);
        Line { width, ascent: ascent * self.em, descent: descent * self.em, runs: self.runs }
    }

    /// The run that goes on in `face`.
    fn run(&mut self, face: Face) -> &mut Run {
        if self.runs.last().is_none_or(|run| run.face != face) {
            self.runs.push(Run {
                face,
                size_pt: self.size_pt,
                x: self.pen,
                text: String::new(),
                glyphs: Vec::new(),
            });
        }
        let last = self.runs.len() - 1;
        &mut self.runs[last]
    }
}
