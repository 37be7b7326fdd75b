//! Breaking text of several weights into lines.
//!
//! The text is a row of words, each an unbreakable [`Unit`] with the spaces after it and whether a
//! line may end there. Lines are filled greedily: sheets are set ragged, in short lines.

use std::sync::Arc;

use super::clean::clean;
use super::hyphens::Hyphenator;
use super::parts::{cut_unit, part_unit, with_hyphen};
use super::setter::Setter;
use super::shape::{Shaper, Unit};
use super::{Face, Line, Weight};

/// How much wider than asked a line may be, mm: room for the rounding of sums.
const SLACK: f64 = 1e-6;

/// How much of a line must be filled, or else the word that would begin the next one is parted.
const FILLED: f64 = 0.6;

/// Words of one look.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Span<'a> {
    /// The words.
    pub text: &'a str,
    /// Their weight.
    pub weight: Weight,
}

/// Shaped text that is not yet broken into lines. Lengths are mm.
#[derive(Debug)]
pub struct Flow {
    words: Vec<Word>,
    /// One em.
    em: f64,
    size_pt: f64,
    /// The face of text without words.
    face: Face,
}

#[derive(Clone, Debug)]
struct Word {
    unit: Arc<Unit>,
    /// The span that it came from.
    span: usize,
    /// Width without the spaces, mm.
    width: f64,
    /// How many spaces follow.
    spaces: u32,
    /// Their width, mm.
    gap: f64,
    /// The span that the first of them came from.
    space_span: usize,
    after: After,
    /// Where it may be parted; `None` for nowhere.
    breaks: Option<Arc<Breaks>>,
}

/// Where a word may be parted.
#[derive(Debug)]
struct Breaks {
    /// Bytes of its text, ascending.
    places: Vec<usize>,
    /// The hyphen that is put there.
    hyphen: Arc<Unit>,
}

impl Word {
    /// The face that the spaces after it are set in.
    fn space_face(&self, first: Face) -> Face {
        self.unit.runs.last().map_or(first, |run| run.face)
    }
}

/// What may happen after a word.
#[derive(Clone, Copy, Debug, PartialEq)]
enum After {
    /// The next word stays on the same line.
    Glue,
    /// The line may end.
    May,
    /// The line ends: a word goes on behind its hyphen.
    Must,
}

/// What stands at the end of a line.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Ending {
    /// All spaces.
    AllSpaces,
    /// One space if any follows, outside the width: who hears the text or copies it out of a page
    /// needs it.
    OneSpace,
    /// Nothing.
    Bare,
}

/// A line of text of several weights. Its origin is the left end of the baseline.
#[derive(Clone, Debug, PartialEq)]
pub struct FlowLine {
    /// What stands on it, from left to right; neighbours come from different spans.
    pub pieces: Vec<Piece>,
    /// Width without the space at its end, mm.
    pub width: f64,
    /// From the baseline up, mm.
    pub ascent: f64,
    /// From the baseline down, mm.
    pub descent: f64,
}

/// The part of a line that came from one span.
#[derive(Clone, Debug, PartialEq)]
pub struct Piece {
    /// From the left end of the line, mm.
    pub x: f64,
    /// The span's place in the list.
    pub span: usize,
    /// The words. At the end of a broken line a space may follow, which its width leaves out.
    pub line: Arc<Line>,
}

impl Flow {
    /// The width below which a word would be cut.
    pub fn min_width(&self) -> f64 {
        groups(&self.words).map(width).fold(0.0, f64::max)
    }

    /// The width at which all stands on one line.
    pub fn max_width(&self) -> f64 {
        width(&self.words)
    }

    /// The text in lines no wider than `width` mm; a word that is wider is cut. There is always
    /// one line at least, and one glyph at least on a line.
    pub fn broken(&self, width: f64) -> Vec<FlowLine> {
        self.break_lines(width, |words| self.set(words, Ending::OneSpace))
    }

    /// The lines of text of a single span, without spaces at their ends.
    pub(super) fn broken_bare(&self, width: f64) -> Vec<Arc<Line>> {
        self.break_lines(width, |words| {
            let set = self.set(words, Ending::Bare).pieces.into_iter().next();
            set.map_or_else(|| self.empty(), |piece| piece.line)
        })
    }

    /// Text of a single span on one line.
    pub(super) fn whole(&self) -> Arc<Line> {
        let set = self.set(&self.words, Ending::AllSpaces).pieces.into_iter().next();
        set.map_or_else(|| self.empty(), |piece| piece.line)
    }

    pub(super) fn new(
        shaper: &mut Shaper,
        spans: &[Span<'_>],
        size_pt: f64,
        hyphenator: Option<Hyphenator>,
    ) -> Self {
        // Sizes that no type has would make lengths that no page has.
        let size_pt = if size_pt.is_finite() { size_pt.clamp(0.1, 1000.0) } else { 1.0 };
        let em = crate::units::Length::from_pt(size_pt).0;
        let weight = spans.first().map_or(Weight::Regular, |span| span.weight);
        let mut flow = Self { words: Vec::new(), em, size_pt, face: Face::first_for(weight) };
        for (index, span) in spans.iter().enumerate() {
            flow.push_span(shaper, index, span, hyphenator);
        }
        flow
    }

    fn push_span(
        &mut self,
        shaper: &mut Shaper,
        span: usize,
        of: &Span<'_>,
        hyphenator: Option<Hyphenator>,
    ) {
        let text = clean(of.text);
        let mut before = "";
        for (nth, word) in text.split(' ').enumerate() {
            if nth > 0 {
                self.push_space(span);
            }
            if word.is_empty() {
                continue;
            }
            if let Some(last) = self.words.last_mut()
                && !before.is_empty()
                && !plainly_apart(before, word)
                && !shaper.may_part(before, word)
            {
                last.after = After::Glue;
            }
            before = word;
            let units = shaper.units(word, of.weight);
            for (nth, unit) in units.iter().enumerate() {
                let width = unit.advance * self.em;
                let range = units.get(nth + 1).is_some_and(|next| joins_a_range(unit, next));
                self.words.push(Word {
                    unit: unit.clone(),
                    span,
                    width,
                    spaces: 0,
                    gap: 0.0,
                    space_span: span,
                    after: if range { After::Glue } else { After::May },
                    breaks: hyphenator.and_then(|it| breaks(it, unit, shaper, of.weight)),
                });
            }
            // Until a space comes: where the next span goes on without one, so does the line.
            if let Some(last) = self.words.last_mut() {
                last.after = After::Glue;
            }
        }
    }

    /// A space after the last word; a line may end there.
    fn push_space(&mut self, span: usize) {
        if self.words.is_empty() {
            let unit = Arc::new(Unit { runs: Vec::new(), advance: 0.0 });
            self.words.push(Word {
                unit,
                span,
                width: 0.0,
                spaces: 0,
                gap: 0.0,
                space_span: span,
                after: After::Glue,
                breaks: None,
            });
        }
        if let Some(last) = self.words.last_mut() {
            let face = last.space_face(self.face);
            if last.spaces == 0 {
                last.space_span = span;
            }
            last.spaces = last.spaces.saturating_add(1);
            last.gap += face.facts().space_advance * self.em;
            last.after = if last.unit.runs.is_empty() { After::Glue } else { After::May };
        }
    }

    /// Fills lines with groups of words that stay together.
    fn break_lines<T>(&self, limit: f64, set: impl Fn(&[Word]) -> T) -> Vec<T> {
        let limit = if limit.is_nan() { 0.0 } else { limit } + SLACK;
        let mut lines = Vec::new();
        let mut words = self.words.as_slice();
        let parted;
        if words.iter().any(|word| word.breaks.is_some()) {
            parted = part_words(words, limit, self.em);
            words = &parted;
        }
        let cut;
        if groups(words).any(|group| width(group) > limit) {
            cut = cut_words(words, limit, self.em);
            words = &cut;
        }
        let (mut start, mut end) = (0, 0);
        // Width of the line so far with the spaces at its end.
        let mut pen = 0.0;
        for group in groups(words) {
            if end > start && pen + width(group) > limit {
                lines.push(set(words.get(start..end).unwrap_or_default()));
                start = end;
                pen = 0.0;
            }
            end += group.len();
            pen += width(group) + group.last().map_or(0.0, |word| word.gap);
            if group.last().is_some_and(|word| word.after == After::Must) {
                lines.push(set(words.get(start..end).unwrap_or_default()));
                start = end;
                pen = 0.0;
            }
        }
        if end > start || lines.is_empty() {
            lines.push(set(words.get(start..end).unwrap_or_default()));
        }
        lines
    }

    /// Sets words side by side on one line.
    fn set(&self, words: &[Word], ending: Ending) -> FlowLine {
        let mut pieces: Vec<Piece> = Vec::new();
        let mut setter = Setter::new(self.em, self.size_pt);
        let mut x = 0.0;
        let mut end = |setter: &mut Setter, span: usize, width: f64| {
            let next = Setter::new(self.em, self.size_pt);
            let line = std::mem::replace(setter, next).finish(width, self.face);
            pieces.push(Piece { x, span, line: Arc::new(line) });
            x += width;
        };
        for (index, word) in words.iter().enumerate() {
            setter.push(&word.unit);
            let Some(next) = words.get(index + 1) else {
                let bare = setter.width();
                let spaces = match ending {
                    Ending::AllSpaces => word.spaces,
                    Ending::OneSpace => word.spaces.min(1),
                    Ending::Bare => 0,
                };
                setter.push_spaces(spaces, word.space_face(self.face));
                let width = if ending == Ending::AllSpaces { setter.width() } else { bare };
                end(&mut setter, word.span, width);
                break;
            };
            // The space between two spans belongs to the one that it was written in: a link is
            // underlined as far as its words go.
            let here = word.space_span == word.span;
            if here {
                setter.push_spaces(word.spaces, word.space_face(self.face));
            }
            if next.span != word.span {
                let width = setter.width();
                end(&mut setter, word.span, width);
            }
            if !here {
                setter.push_spaces(word.spaces, word.space_face(self.face));
            }
        }
        let empty = self.empty();
        let height = |part: fn(&Line) -> f64| {
            let tallest = pieces.iter().map(|piece| part(&piece.line)).fold(0.0, f64::max);
            if pieces.is_empty() { part(&empty) } else { tallest }
        };
        let (ascent, descent) = (height(|line| line.ascent), height(|line| line.descent));
        FlowLine { width: x, pieces, ascent, descent }
    }

    fn empty(&self) -> Arc<Line> {
        Arc::new(Setter::new(self.em, self.size_pt).finish(0.0, self.face))
    }
}

/// Runs of words between which no line may end.
fn groups(words: &[Word]) -> impl Iterator<Item = &[Word]> {
    words.split_inclusive(|word| word.after != After::Glue)
}

/// Width of words on one line without the spaces at its end, mm.
fn width(words: &[Word]) -> f64 {
    let all: f64 = words.iter().map(|word| word.width + word.gap).sum();
    all - words.last().map_or(0.0, |word| word.gap)
}

/// Where the word of a unit may be parted.
fn breaks(
    hyphenator: Hyphenator,
    unit: &Unit,
    shaper: &mut Shaper,
    weight: Weight,
) -> Option<Arc<Breaks>> {
    let text: String = unit.runs.iter().map(|run| run.text.as_str()).collect();
    let places = hyphenator.places(&text);
    if places.is_empty() {
        return None;
    }
    let hyphen = shaper.units("-", weight).first().cloned()?;
    Some(Arc::new(Breaks { places, hyphen }))
}

/// The words, those parted that fit on no line of `limit` mm, or whose line would leave the one before it
/// badly filled.
fn part_words(words: &[Word], limit: f64, em: f64) -> Vec<Word> {
    let mut all = Vec::with_capacity(words.len() + 8);
    let mut pen = 0.0;
    for group in groups(words) {
        let mut rest = group.to_vec();
        while pen + width(&rest) > limit {
            let wanted = width(&rest) > limit || pen < FILLED * limit;
            if let Some((head, tail)) = part_group(&rest, limit - pen, em).filter(|_| wanted) {
                all.extend(head);
                rest = tail;
            } else if pen == 0.0 {
                break;
            }
            pen = 0.0;
        }
        // What fits on no line is cut between its letters.
        for group in groups(&cut_words(&rest, limit, em)) {
            if pen + width(group) > limit {
                pen = 0.0;
            }
            pen += width(group) + group.last().map_or(0.0, |word| word.gap);
            all.extend_from_slice(group);
        }
    }
    all
}

/// Words that stay together, parted at the last place where what stands before it fits into `room` mm with
/// its hyphen.
fn part_group(group: &[Word], room: f64, em: f64) -> Option<(Vec<Word>, Vec<Word>)> {
    let mut before = 0.0;
    let mut best = None;
    for (index, word) in group.iter().enumerate() {
        for place in word.breaks.iter().flat_map(|breaks| &breaks.places) {
            let breaks = word.breaks.as_ref()?;
            let Some((head, tail)) = part_unit(&word.unit, *place) else { continue };
            if before + (head.advance + breaks.hyphen.advance) * em <= room {
                best = Some((index, *place, head, tail));
            }
        }
        before += word.width + word.gap;
    }
    let (index, place, head, tail) = best?;
    let word = group.get(index)?;
    let breaks = word.breaks.as_ref()?;
    let unit = Arc::new(with_hyphen(head, &breaks.hyphen));
    let head = Word {
        width: unit.advance * em,
        unit,
        spaces: 0,
        gap: 0.0,
        after: After::Must,
        breaks: None,
        ..word.clone()
    };
    let later: Vec<usize> =
        breaks.places.iter().filter(|it| **it > place).map(|it| it - place).collect();
    let later = Breaks { places: later, hyphen: breaks.hyphen.clone() };
    let tail = Word {
        width: tail.advance * em,
        unit: Arc::new(tail),
        breaks: (!later.places.is_empty()).then(|| Arc::new(later)),
        ..word.clone()
    };
    let heads = group.iter().take(index).cloned().chain([head]).collect();
    let tails = [tail].into_iter().chain(group.iter().skip(index + 1).cloned()).collect();
    Some((heads, tails))
}

/// The words, where each group fits on a line of `limit` mm: too wide a group may be broken
/// between its words, too wide a word between its letters.
fn cut_words(words: &[Word], limit: f64, em: f64) -> Vec<Word> {
    let mut all = Vec::with_capacity(words.len());
    for group in groups(words) {
        if width(group) <= limit {
            all.extend_from_slice(group);
            continue;
        }
        for word in group {
            if word.width <= limit {
                let after = if word.after == After::Must { After::Must } else { After::May };
                all.push(Word { after, ..word.clone() });
                continue;
            }
            for unit in cut_unit(&word.unit, limit / em) {
                let width = unit.advance * em;
                let span = word.span;
                let unit = Arc::new(unit);
                all.push(Word {
                    unit,
                    span,
                    width,
                    spaces: 0,
                    gap: 0.0,
                    space_span: word.space_span,
                    after: After::May,
                    breaks: None,
                });
            }
            if let Some(last) = all.last_mut() {
                last.spaces = word.spaces;
                last.gap = word.gap;
            }
        }
    }
    all
}

/// Whether a unit ends with the dash of a range, as in 1–7 or A–B: cut there, each half is read as
/// something else.
fn joins_a_range(unit: &Unit, next: &Unit) -> bool {
    let mut back = unit.runs.iter().rev().flat_map(|run| run.text.chars().rev());
    let mut ahead = next.runs.iter().flat_map(|run| run.text.chars());
    back.next() == Some('–')
        && back.next().is_some_and(char::is_alphanumeric)
        && ahead.next().is_some_and(char::is_alphanumeric)
}

/// Whether a line may end at the spaces between two words for certain: UAX 14, LB18, with none of
/// the characters near that other rules are about.
fn plainly_apart(before: &str, after: &str) -> bool {
    let ends = |char: char| char.is_alphanumeric() || ".,;:!?)%".contains(char);
    before.ends_with(ends) && after.starts_with(char::is_alphanumeric)
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use crate::text::parts::SOFT_HYPHEN;
    use crate::text::{Style, Typesetter, Weight};

    use super::*;

    const STYLE: Style = Style::regular(9.0);

    fn texts(lines: &[Arc<Line>]) -> Vec<String> {
        lines.iter().map(|line| line.text()).collect()
    }

    #[test]
    fn a_line_may_end_after_spaces_and_hyphens() {
        let mut types = Typesetter::new();
        let lines = types.lines("time-lag fuse (see F1) off/on", STYLE, 0.0);
        // No width: each glyph stands alone.
        assert_eq!(lines.len(), "time-lag fuse (see F1) off/on".replace(' ', "").len());
        let narrow = types.line("time-lag", STYLE).width - 0.1;
        let lines = types.lines("time-lag fuse ( F1 ) a !", STYLE, narrow);
        assert_eq!(texts(&lines), ["time-", "lag fuse", "( F1 ) a !"]);
    }

    /// A line of German and its width in sizes that part it here and there.
    #[test]
    fn words_are_parted_where_the_line_would_be_badly_filled() {
        let mut types = Typesetter::new();
        types.hyphenate_in(Some("de"));
        let mut shown = |text: &str, width: f64| -> Vec<String> {
            let spans = [Span { text, weight: Weight::Regular }];
            let lines = types.flow(&spans, 9.0).broken(width);
            let text = |line: &FlowLine| -> String {
                line.pieces.iter().map(|piece| piece.line.text()).collect()
            };
            lines.iter().map(text).collect()
        };
        // The first line would be half empty.
        assert_eq!(shown("Die Steckbrücke", 20.0), ["Die Steck\u{ad}", "brücke"]);
        // It is filled well enough.
        assert_eq!(shown("Diese hier Steckbrücke", 20.0), ["Diese hier ", "Steckbrücke"]);
        // The word is wider than any line.
        assert_eq!(shown("Steckbrücke", 12.0), ["Steck\u{ad}", "brücke"]);
        // No code is parted.
        assert_eq!(shown("Die OC8120Steckbrücke", 31.0), ["Die ", "OC8120Steckbrücke"]);
        types.hyphenate_in(Some("en"));
        let spans = [Span { text: "The Steckbrücke", weight: Weight::Regular }];
        assert_eq!(types.flow(&spans, 9.0).broken(20.0).len(), 2);
    }

    #[test]
    fn spans_that_touch_stay_together() {
        let mut types = Typesetter::new();
        let spans = [
            Span { text: "Put way ", weight: Weight::Regular },
            Span { text: "8", weight: Weight::Bold },
            Span { text: "; then wait", weight: Weight::Regular },
        ];
        let flow = types.flow(&spans, 9.0);
        let lines = flow.broken(flow.min_width());
        let shown: Vec<String> = lines
            .iter()
            .map(|line| line.pieces.iter().map(|piece| piece.line.text()).collect())
            .collect();
        assert_eq!(shown, ["Put ", "way ", "8; ", "then ", "wait"]);
    }

    /// The places where parley, given the whole text, ends lines when it has no width.
    fn breaks_by_parley(text: &str) -> Vec<usize> {
        let mut shaper = Shaper::new();
        shaper.line_ends(text)
    }

    fn breaks_by_us(text: &str) -> Vec<usize> {
        let mut shaper = Shaper::new();
        let flow = Flow::new(&mut shaper, &[Span { text, weight: Weight::Regular }], 9.0, None);
        let mut end = 0;
        groups(&flow.words)
            .map(|group| {
                for word in group {
                    end += word.unit.runs.iter().map(|run| run.text.len()).sum::<usize>();
                    end += word.spaces as usize;
                }
                end
            })
            .collect()
    }

    #[test]
    fn no_range_is_broken_at_its_dash() {
        let text = "on 1–7, J1–J6";
        assert_eq!(breaks_by_us(text), [3, 10, 17]);
        assert_eq!(breaks_by_parley(text), [3, 7, 10, 15, 17], "UAX 14 alone lets it be broken");
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(400))]

        /// The short way round, a word at a time, agrees with UAX 14 over the whole text.
        #[test]
        fn breaks_are_those_of_unicode(
            text in "[a-zA-Z0-9(]([a-zA-Z0-9 .,:;!?()/%“”‘’«»\"=+–-]{0,30}[a-z0-9.)])?",
        ) {
            // A mark that begins a number after a space (` .5`): LB15c of newer editions of UAX 14
            // (from memory) lets a line end before it, and so do we; parley's tables do not.
            let mark_begins_number = text.as_bytes().windows(3).any(|w| {
                w[0] == b' ' && b".,:;".contains(&w[1]) && w[2].is_ascii_digit()
            });
            prop_assume!(!mark_begins_number);
            let range = |end: &usize| {
                let before = text.get(..*end).and_then(|text| text.strip_suffix('–'));
                before.is_some_and(|text| text.ends_with(char::is_alphanumeric))
                    && text.get(*end..).is_some_and(|text| text.starts_with(char::is_alphanumeric))
            };
            let wanted = breaks_by_parley(&text).into_iter().filter(|end| !range(end));
            prop_assert_eq!(breaks_by_us(&text), wanted.collect::<Vec<_>>(), "{:?}", text);
        }

        /// Parted words lose no letter, stay within the width, and have their hyphen at the ends of lines.
        #[test]
        fn a_parted_word_loses_no_letter(
            words in prop::collection::vec(
                "(die )?(Steckbr\u{fc}ckengruppe|Wiedereinschalten|Schutzleiterklemme|LS-Schalter|J12345678|ist)[.;]?",
                1..6,
            ),
            width in 5.0..60.0f64,
        ) {
            let text = words.join(" ");
            let mut types = Typesetter::new();
            types.hyphenate_in(Some("de"));
            let spans = [Span { text: &text, weight: Weight::Regular }];
            let lines = types.flow(&spans, 9.0).broken(width);
            let mut all = String::new();
            for line in &lines {
                let said: String = line.pieces.iter().map(|piece| piece.line.text()).collect();
                let glyphs: usize =
                    line.pieces.iter().flat_map(|it| &it.line.runs).map(|run| run.glyphs.len()).sum();
                prop_assert!(line.width <= width + 2.0 * SLACK || glyphs <= 2, "{:?}", said);
                let hyphens = said.matches(SOFT_HYPHEN).count();
                prop_assert!(hyphens == usize::from(said.ends_with(SOFT_HYPHEN)), "{:?}", said);
                all.push_str(said.trim_end_matches(SOFT_HYPHEN));
            }
            prop_assert_eq!(all.replace(' ', ""), text.replace(' ', ""));
        }

        #[test]
        fn no_line_is_too_wide_and_no_letter_lost(
            text in "[ a-zA-Zé–Ж中0-9()-]{0,60}",
            width in 0.0..60.0f64,
        ) {
            let mut types = Typesetter::new();
            let lines = types.lines(&text, STYLE, width);
            prop_assert!(!lines.is_empty());
            for line in &lines {
                let glyphs: usize = line.runs.iter().map(|run| run.glyphs.len()).sum();
                prop_assert!(line.width <= width + 2.0 * SLACK || glyphs == 1, "{:?}", line);
            }
            let bare = |text: &str| text.chars().filter(|c| *c != ' ').collect::<String>();
            prop_assert_eq!(bare(&texts(&lines).concat()), bare(&clean(&text)));
        }
    }
}
