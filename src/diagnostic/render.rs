//! Problems as text for a terminal, in the manner of rustc. Nothing prints here.
//!
//! A specification may come from anybody, and its text reaches a terminal: whatever could steer the
//! terminal or turn the direction of writing is replaced before it is shown. Only the lines round
//! the marked places are handed to the renderer, so that a problem costs little in a large file.

use std::ops::Range;

use annotate_snippets::renderer::DEFAULT_TERM_WIDTH;
use annotate_snippets::{
    Annotation, AnnotationKind, Group, Level, Origin, Patch, Renderer, Snippet,
};

use super::{Edit, Help, Label, Problem, Severity};
use crate::source::{File, FileId, Sources};

/// Whether the text may hold colours.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Colour {
    /// Plain text.
    Plain,
    /// ANSI escape sequences for a terminal.
    Terminal,
}

/// The longest line that is shown whole or trimmed, bytes; a longer one is named, not shown.
const LONGEST_LINE: usize = 8 * 1024;
/// Labels farther apart than this are shown in snippets of their own, bytes.
const APART: usize = 16 * 1024;
/// The longest message, note or help, characters.
const LONGEST_TEXT: usize = 1000;

/// The problem as it is shown to a person; ends without a line end.
pub fn render(problem: &Problem, sources: &Sources, colour: Colour) -> String {
    let level = match problem.code.severity() {
        Severity::Error => Level::ERROR,
        Severity::Warning => Level::WARNING,
    };
    let title = level.primary_title(clean_line(&problem.message)).id(problem.code.text());
    let mut body = Group::with_title(title);
    match (&problem.primary, &problem.file) {
        (None, Some(file)) => body = body.element(Origin::path(clean_line(file))),
        (None, None) => {}
        (Some(primary), _) => {
            for window in windows(primary, &problem.others, sources) {
                body = window.add_to(body);
            }
        }
    }
    for note in &problem.notes {
        body = body.element(Level::NOTE.message(clean_line(note)));
    }
    let mut groups = Vec::new();
    match &problem.help {
        Some(Help { text, edit: None }) => {
            let mut text = clean_line(text);
            if let Some(shape) = problem.shape {
                text = format!("{text}:\n\n{shape}");
            }
            body = body.element(Level::HELP.message(text));
            groups.push(body);
        }
        Some(Help { text, edit: Some(Edit { span, text: with, .. }) }) => {
            groups.push(body);
            let title = Level::HELP.secondary_title(clean_line(text));
            let label = Label { span: *span, text: String::new() };
            let window = Window::round(span.file, &[(&label, true)], sources);
            let patch = window.filter(|window| !window.too_long).map(|window| {
                let range = window.inner(span.range());
                Snippet::source(window.text)
                    .path(window.name)
                    .line_start(window.first_line)
                    .patch(Patch::new(range, clean_line(with)))
            });
            groups.push(match patch {
                Some(patch) => Group::with_title(title).element(patch),
                None => Group::with_title(title),
            });
        }
        None => groups.push(body),
    }
    let renderer = match colour {
        Colour::Plain => Renderer::plain(),
        Colour::Terminal => Renderer::styled(),
    };
    let text = renderer.term_width(DEFAULT_TERM_WIDTH).render(&groups);
    // Without a line number the renderer leaves no room before the arrow, and a program that looks
    // for ` --> ` would pass over the file's name.
    match (&problem.primary, &problem.file) {
        (None, Some(_)) => text.replacen('\n', "\n ", 1),
        _ => text,
    }
}

/// Some lines of a file, and what is marked in them.
struct Window {
    name: String,
    first_line: usize,
    /// First byte of the window in the file.
    start: usize,
    /// Cleaned, byte for byte as long as in the file.
    text: String,
    marks: Vec<(Range<usize>, String, bool)>,
    /// Line and column of the first mark, for lines too long to be shown.
    position: (usize, usize),
    too_long: bool,
}

/// Windows of a problem: the one with the primary place first, then the others by place.
fn windows(primary: &Label, others: &[Label], sources: &Sources) -> Vec<Window> {
    let mut near = vec![(primary, true)];
    let mut far: Vec<(&Label, bool)> = Vec::new();
    for other in others {
        let apart = primary.span.start.abs_diff(other.span.start) as usize;
        if other.span.file == primary.span.file && apart <= APART {
            near.push((other, false));
        } else {
            far.push((other, false));
        }
    }
    far.sort_by_key(|(label, _)| label.span);
    let mut clusters = vec![near];
    for mark in far {
        let span = mark.0.span;
        let joins = clusters.iter_mut().skip(1).find(|cluster| {
            cluster.iter().any(|(label, _)| {
                label.span.file == span.file
                    && label.span.start.abs_diff(span.start) as usize <= APART / 4
            })
        });
        match joins {
            Some(cluster) => cluster.push(mark),
            None => clusters.push(vec![mark]),
        }
    }
    clusters
        .iter()
        .filter_map(|cluster| {
            let file = cluster.first()?.0.span.file;
            Window::round(file, cluster, sources)
        })
        .collect()
}

impl Window {
    /// The lines of `file` that hold all of `marks`.
    fn round(id: FileId, marks: &[(&Label, bool)], sources: &Sources) -> Option<Self> {
        let file = sources.get(id)?;
        let ranges: Vec<Range<usize>> =
            marks.iter().map(|(label, _)| one_line(file, label.span.range())).collect();
        let first = ranges.iter().map(|range| range.start).min()?;
        let last = ranges.iter().map(|range| range.end).max()?;
        let text = &*file.text;
        let start = text.get(..first)?.rfind('\n').map_or(0, |at| at + 1);
        let end = text.get(last..)?.find('\n').map_or(text.len(), |at| last + at);
        let lines = text.get(start..end)?;
        let primary = ranges.first()?.start;
        // Looked at before the text is copied: a large file in one line may have many problems.
        let too_long = lines.split('\n').any(|line| line.len() > LONGEST_LINE);
        let window = Self {
            name: clean_line(&file.name),
            first_line: file.position(start as u32).0,
            start,
            too_long,
            text: if too_long { String::new() } else { clean_source(lines) },
            marks: ranges
                .into_iter()
                .zip(marks)
                .map(|(range, (label, primary))| (range, clean_line(&label.text), *primary))
                .collect(),
            position: file.position(primary as u32),
        };
        Some(window)
    }

    fn inner(&self, range: Range<usize>) -> Range<usize> {
        let inside = |at: usize| at.saturating_sub(self.start).min(self.text.len());
        inside(range.start)..inside(range.end)
    }

    fn add_to(self, group: Group<'static>) -> Group<'static> {
        if self.too_long {
            let (line, column) = self.position;
            let mut group = group.element(Origin::path(self.name).line(line).char_column(column));
            for (_, label, _) in self.marks {
                if !label.is_empty() {
                    group = group.element(Level::NOTE.message(label));
                }
            }
            return group.element(Level::NOTE.message("the line is too long to be shown"));
        }
        let marks: Vec<Annotation<'static>> = self
            .marks
            .iter()
            .map(|(range, label, primary)| {
                let kind = if *primary { AnnotationKind::Primary } else { AnnotationKind::Context };
                let annotation = kind.span(self.inner(range.clone()));
                if label.is_empty() { annotation } else { annotation.label(label.clone()) }
            })
            .collect();
        let snippet = Snippet::source(self.text).path(self.name).line_start(self.first_line);
        group.element(snippet.annotations(marks))
    }
}

/// The part of `range` on its first line: what runs over many lines is marked where it starts.
fn one_line(file: &File, range: Range<usize>) -> Range<usize> {
    let length = file.text.len();
    let (mut start, mut end) = (range.start.min(length), range.end.min(length));
    while !file.text.is_char_boundary(start) {
        start -= 1;
    }
    while !file.text.is_char_boundary(end) {
        end -= 1;
    }
    let end = end.max(start);
    let text = file.text.get(start..end).unwrap_or("");
    let line = text.find('\n').map_or(text, |at| text.get(..at).unwrap_or(""));
    start..start + line.trim_end().len().max(usize::from(!line.is_empty()))
}

/// Whether a character could steer a terminal or change the direction of writing.
pub fn is_harmful(c: char) -> bool {
    (c.is_control() && !matches!(c, '\n' | '\t'))
        || matches!(c, '\u{61c}' | '\u{200b}'..='\u{200f}' | '\u{2028}'..='\u{202e}')
        || matches!(c, '\u{2060}'..='\u{206f}' | '\u{feff}' | '\u{fff9}'..='\u{fffb}')
}

/// Source text with every harmful character replaced by one of the same number of bytes, so that
/// places in it stay true. A carriage return before a line feed becomes a blank.
fn clean_source(text: &str) -> String {
    text.chars()
        .map(|c| match (is_harmful(c), c.len_utf8()) {
            (false, _) => c,
            (true, _) if c == '\r' => ' ',
            (true, 1) => '?',
            (true, 2) => '\u{bf}',
            (true, _) => '\u{fffd}',
        })
        .collect()
}

/// A message in one line, harmless and not longer than a person reads.
pub fn clean_line(text: &str) -> String {
    let mut line: String = text
        .chars()
        .take(LONGEST_TEXT)
        .map(|c| match c {
            '\n' | '\t' => ' ',
            c if is_harmful(c) => '\u{fffd}',
            c => c,
        })
        .collect();
    if text.chars().nth(LONGEST_TEXT).is_some() {
        line.push('…');
    }
    line
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::diagnostic::{Code, EditKind};
    use crate::source::Span;

    fn shown(text: &str, range: Range<usize>) -> String {
        let mut sources = Sources::default();
        let id = sources.add("a.yaml", text);
        let problem = Problem::new(Code::UnknownName, Span::new(id, range), "no such thing")
            .label("here")
            .note("a note")
            .help("a help");
        render(&problem, &sources, Colour::Plain)
    }

    #[test]
    fn the_end_of_a_file_can_be_marked() {
        for (text, range) in [("", 0..0), ("a: b", 4..4), ("a: b\n", 5..5), ("a", 90..99)] {
            let shown = shown(text, range.clone());
            assert!(shown.contains("error[L101]: no such thing"), "{shown}");
            assert!(shown.contains("a.yaml:"), "{text:?} {range:?}\n{shown}");
        }
    }

    #[test]
    fn the_arrow_stands_off_the_edge_without_a_line_too() {
        let problem = Problem::of_file(Code::UnknownName, "a.yaml", "no such file");
        let text = render(&problem, &Sources::default(), Colour::Plain);
        assert_eq!(text, "error[L101]: no such file\n --> a.yaml");
    }

    #[test]
    fn columns_count_characters() {
        let shown = shown("äöü: 日本 x\n", 15..16);
        assert!(shown.contains("a.yaml:1:9"), "{shown}");
    }

    #[test]
    fn nothing_in_a_file_reaches_the_terminal_raw() {
        let text = "a: \u{1b}[31mred\u{9b}2J\u{202e} x\r\nb";
        for shown in [shown(text, 3..6), shown(text, 20..22)] {
            let harmless = shown.chars().all(|c| !is_harmful(c));
            assert!(harmless, "{shown:?}");
        }
        let mut sources = Sources::default();
        let id = sources.add("a\u{1b}]0;x.yaml", "a: b");
        let label = Label { span: Span::new(id, 0..1), text: "\u{1b}[1m".into() };
        let problem = Problem {
            code: Code::UnknownName,
            message: "\u{1b}[2J".into(),
            primary: Some(label.clone()),
            file: None,
            others: vec![label.clone()],
            notes: vec!["\u{9b}1m".into()],
            help: Some(Help {
                text: "\u{7}".into(),
                edit: Some(Edit {
                    span: label.span,
                    text: "\u{1b}c".into(),
                    kind: EditKind::Value,
                }),
            }),
            shape: None,
        };
        let shown = render(&problem, &sources, Colour::Plain);
        assert!(shown.chars().all(|c| !is_harmful(c)), "{shown:?}");
    }

    #[test]
    fn a_long_line_is_not_shown_whole() {
        for length in [500, LONGEST_LINE + 10, 1 << 20] {
            let text = format!("{}x{}", "a".repeat(length), "b".repeat(length));
            let shown = shown(&text, length..length + 1);
            assert!(shown.len() < 1500, "{length}: {} bytes", shown.len());
            assert!(shown.contains(&format!("a.yaml:1:{}", length + 1)), "{shown}");
        }
    }

    #[test]
    fn far_apart_places_stand_in_snippets_of_their_own() {
        let mut sources = Sources::default();
        let text = format!("first: 1\n{}last: 2\n", "middle: 3\n".repeat(20_000));
        let at = text.len() - 8;
        let id = sources.add("a.yaml", text);
        let problem = Problem::new(Code::DefinedTwice, Span::new(id, at..at + 4), "twice")
            .label("again")
            .other(Span::new(id, 0..5), "first");
        let shown = render(&problem, &sources, Colour::Plain);
        assert!(shown.contains("20002 | last: 2") && shown.contains("| first: 1"), "{shown}");
    }
}
