//! YAML text to a tree of maps, lists and texts, each with its place.
//!
//! The tree is built from the parser's events with a stack of our own, so no input can exhaust the
//! program's. The parts of YAML that let a small file stand for a huge one, or a text for something
//! else (anchors, aliases, tags, several documents), are refused. Tags of plain types, which other
//! programs write, change nothing: every value is read as a text here.

use granit_parser::{ErrorKind, Event, Parser};

use super::yaml_error;
use crate::diagnostic::{Code, Problem, Problems, Reported, page};
use crate::source::{FileId, Span, Spanned};

/// How deep maps and lists may lie in each other.
pub const DEPTH: usize = 16;
/// How many values a file may have.
pub const VALUES: usize = 20_000;

/// A value of a file.
#[derive(Clone, Debug, PartialEq)]
pub struct YamlNode {
    /// Where it stands. Of an empty value: its key.
    pub span: Span,
    /// What it is.
    pub kind: YamlKind,
}

/// What a value is.
#[derive(Clone, Debug, PartialEq)]
pub enum YamlKind {
    /// Entries in the file's order; a key may be there twice.
    Map(Vec<Entry>),
    /// A list.
    List(Vec<YamlNode>),
    /// A text.
    Text(String),
    /// Nothing was written.
    Nothing,
    /// Something that was refused and reported.
    Refused,
}

impl YamlNode {
    /// `off on` of a list of these words: positions of switches, written as a list.
    pub fn positions(&self) -> Option<String> {
        let YamlKind::List(items) = &self.kind else { return None };
        let word = |item: &YamlNode| match &item.kind {
            YamlKind::Text(text) if matches!(text.trim(), "on" | "off") => {
                Some(text.trim().to_owned())
            }
            _ => None,
        };
        let words: Vec<String> = items.iter().map(word).collect::<Option<_>>()?;
        (!words.is_empty()).then(|| words.join(" "))
    }
}

/// A key and its value.
#[derive(Clone, Debug, PartialEq)]
pub struct Entry {
    /// The key.
    pub key: Spanned<String>,
    /// The value.
    pub value: YamlNode,
    /// Whether it is a key by its place alone: between curly brackets, with no colon after it.
    pub bare: bool,
}

/// Whether `text` is a map that has one of `keys` among its outermost ones. Of a text that is not
/// YAML only the lines before the fault count.
pub fn has_outermost_key(text: &str, keys: &[&str]) -> bool {
    let mut depth = 0_usize;
    let mut key_next = false;
    for next in Parser::new_from_str_with_options(text, options()) {
        let Ok((event, _)) = next else { return false };
        match event {
            Event::Scalar(word, ..) if depth == 1 => {
                if key_next && keys.contains(&word.trim()) {
                    return true;
                }
                key_next = !key_next;
            }
            Event::MappingStart(..) | Event::SequenceStart(..) => {
                depth += 1;
                // The value of an outermost key is over when it is closed.
                key_next = depth == 1 && matches!(event, Event::MappingStart(..));
            }
            Event::MappingEnd | Event::SequenceEnd => {
                depth = depth.saturating_sub(1);
                key_next = depth == 1;
            }
            Event::Alias(_) | Event::UnresolvedAlias(_) if depth == 1 => key_next = !key_next,
            Event::DocumentEnd => return false,
            _ => {}
        }
    }
    false
}

fn options() -> granit_parser::Options {
    granit_parser::options! {
        emit_comments: false,
        emit_anchor_events: true,
        emit_unresolved_aliases: true,
        flow_nesting_limit: 4 * DEPTH,
        block_nesting_limit: 4 * DEPTH,
    }
}

/// Reads `text`, which is the whole of `file`.
pub fn read(file: FileId, text: &str, problems: &mut Problems) -> Result<YamlNode, Reported> {
    let mut tree =
        Tree { file, text, open: Vec::new(), root: None, values: 0, refused: Vec::new() };
    let mut documents = 0;
    for next in Parser::new_from_str_with_options(text, options()) {
        let (event, place) = match next {
            Ok(next) => next,
            Err(error) => {
                let mut problem = syntax_problem(file, text, &error);
                if let Some(open) = tree.open_bracket(text) {
                    problem = problem.other(open, "opened here");
                }
                return Err(problems.error(problem));
            }
        };
        let span = Span::new(file, place.byte_range().unwrap_or(text.len()..text.len()));
        if let Event::DocumentStart(..) = event {
            documents += 1;
            if documents > 1 {
                return Err(problems.error(
                    Problem::new(Code::SeveralDocuments, span, "the file holds several documents")
                        .label("a second one starts here")
                        .help("put each board into a file of its own"),
                ));
            }
        }
        if !changes_nothing(&event) {
            let tag = place.tag_span().and_then(|tag| tag.byte_range());
            let at = tag.map_or(span, |range| Span::new(file, range));
            tree.refuse(
                Problem::new(Code::Tag, at, "a YAML tag is not part of the language")
                    .help("remove the tag"),
                problems,
            );
        }
        tree.take(event, span, problems)?;
    }
    let end = Span::new(file, 0..0);
    let empty = YamlNode { span: end, kind: YamlKind::Nothing };
    let root = tree.root.unwrap_or(empty);
    if root.kind == YamlKind::Nothing {
        return Err(problems.error(
            Problem::new(Code::EmptyFile, end, "the file holds no specification")
                .help("a specification has this shape; put your board's own values in")
                .shape(page(Code::EmptyFile).right),
        ));
    }
    Ok(root)
}

/// Whether a value has no tag, or the tag of a plain type (`!!str`, `!!float`).
fn changes_nothing(event: &Event<'_>) -> bool {
    let Some(tag) = event.tag() else { return true };
    let plain: &[&str] = match event {
        Event::MappingStart(..) => &["map"],
        Event::SequenceStart(..) => &["seq"],
        _ => &["str", "int", "float", "bool", "null"],
    };
    tag.core_suffix().is_some_and(|suffix| plain.contains(&suffix))
}

struct Tree<'t> {
    file: FileId,
    text: &'t str,
    open: Vec<Open>,
    root: Option<YamlNode>,
    values: usize,
    refused: Vec<Code>,
}

/// A map or list whose end has not come yet.
struct Open {
    start: Span,
    items: Items,
}

enum Items {
    /// Entries so far, and a key whose value is awaited. A key of `None` was refused.
    Map(Vec<Entry>, Option<Option<Spanned<String>>>),
    List(Vec<YamlNode>),
}

impl Tree<'_> {
    /// The bracket that was opened last and is not closed yet.
    fn open_bracket(&self, text: &str) -> Option<Span> {
        let span = self.open.last()?.start;
        let bracket = text.get(span.start as usize..)?.starts_with(['[', '{']);
        bracket.then_some(Span { end: span.start + 1, ..span })
    }

    /// Reports each kind of refusal once a file: the first place is enough to mend it.
    fn refuse(&mut self, problem: Problem, problems: &mut Problems) {
        if !self.refused.contains(&problem.code) {
            self.refused.push(problem.code);
            problems.error(problem);
        }
    }

    fn take(
        &mut self,
        event: Event<'_>,
        span: Span,
        problems: &mut Problems,
    ) -> Result<(), Reported> {
        match event {
            Event::Scalar(text, style, _, ref tag) => {
                let tag = tag.as_ref().and_then(|tag| tag.core_suffix());
                let plain = style == granit_parser::ScalarStyle::Plain && tag != Some("str");
                // The parser gives `~`, a word of YAML for nothing, where nothing is written.
                let nothing = text.is_empty() || text == "~" || text.eq_ignore_ascii_case("null");
                let kind = if (plain && nothing) || tag == Some("null") {
                    YamlKind::Nothing
                } else {
                    YamlKind::Text(text.into_owned())
                };
                self.put(YamlNode { span, kind }, problems)
            }
            Event::Anchor(..) => {
                self.refuse(
                    Problem::new(Code::Alias, span, "a YAML anchor is not part of the language")
                        .help("remove the anchor"),
                    problems,
                );
                Ok(())
            }
            Event::Alias(_) | Event::UnresolvedAlias(_) => {
                self.refuse(
                    Problem::new(Code::Alias, span, "a YAML alias is not part of the language")
                        .help("write the value itself"),
                    problems,
                );
                self.put(YamlNode { span, kind: YamlKind::Refused }, problems)
            }
            Event::MappingStart(..) => self.open(span, Items::Map(Vec::new(), None), problems),
            Event::SequenceStart(..) => self.open(span, Items::List(Vec::new()), problems),
            Event::MappingEnd | Event::SequenceEnd => self.close(span, problems),
            _ => Ok(()),
        }
    }

    fn open(&mut self, start: Span, items: Items, problems: &mut Problems) -> Result<(), Reported> {
        if self.open.len() >= DEPTH {
            return Err(problems.error(too_deep(start)));
        }
        self.open.push(Open { start, items });
        Ok(())
    }

    fn close(&mut self, end: Span, problems: &mut Problems) -> Result<(), Reported> {
        let Some(Open { start, items }) = self.open.pop() else { return Ok(()) };
        let (kind, last) = match items {
            Items::Map(entries, _) => {
                let last = entries.last().map(|entry| entry.value.span.end);
                (YamlKind::Map(entries), last)
            }
            Items::List(items) => {
                let last = items.last().map(|item| item.span.end);
                (YamlKind::List(items), last)
            }
        };
        // A block collection ends where the parser notices it, which may be lines further down.
        let end = if end.start == end.end { last.unwrap_or(start.end) } else { end.end };
        let span = Span { end: end.max(start.end), ..start };
        self.put(YamlNode { span, kind }, problems)
    }

    fn put(&mut self, mut node: YamlNode, problems: &mut Problems) -> Result<(), Reported> {
        self.values += 1;
        if self.values > VALUES {
            let message = format!("the file has more than {VALUES} values");
            return Err(problems.error(Problem::new(Code::TooManyValues, node.span, message)));
        }
        let key_not_text = match self.open.last_mut().map(|open| &mut open.items) {
            None => {
                self.root = Some(node);
                None
            }
            Some(Items::List(items)) => {
                items.push(node);
                None
            }
            Some(Items::Map(entries, waiting)) => match waiting.take() {
                None => {
                    let positions = node.positions();
                    let is_text = matches!(node.kind, YamlKind::Text(_));
                    let key = match node.kind {
                        YamlKind::Text(text) => {
                            Some(Spanned::new(text.trim().to_owned(), node.span))
                        }
                        // Refused, but what is meant is plain, so what follows from it is not
                        // told besides.
                        _ => positions.clone().map(|words| Spanned::new(words, node.span)),
                    };
                    let refused = (!is_text).then_some((node.span, positions));
                    *waiting = Some(key);
                    refused
                }
                Some(key) => {
                    if let Some(key) = key {
                        let mut bare = false;
                        if node.kind == YamlKind::Nothing {
                            node.span = key.span;
                            let after = self.text.get(key.span.end as usize..).unwrap_or("");
                            bare = !after.trim_start().starts_with(':');
                        }
                        entries.push(Entry { key, value: node, bare });
                    }
                    None
                }
            },
        };
        if let Some((span, positions)) = key_not_text {
            let mut problem = Problem::new(Code::KeyNotText, span, "a key must be a text")
                .label("this is a list, a map or nothing");
            if let Some(words) = positions {
                problem = problem.spelling(format!("write `{words}`"), span, words);
            }
            self.refuse(problem, problems);
        }
        debug_assert!(self.root.as_ref().is_none_or(|root| root.span.file == self.file));
        Ok(())
    }
}

fn too_deep(span: Span) -> Problem {
    let message = format!("maps and lists lie more than {DEPTH} deep in each other");
    Problem::new(Code::TooDeep, span, message).label("one too deep")
}

fn syntax_problem(file: FileId, text: &str, error: &granit_parser::ScanError) -> Problem {
    let start = error.marker().byte_offset().unwrap_or(text.len()).min(text.len());
    let length = text.get(start..).and_then(|rest| rest.chars().next()).map_or(0, char::len_utf8);
    let span = Span::new(file, start..start + length);
    if *error.kind() == ErrorKind::RecursionLimitExceeded {
        return too_deep(span);
    }
    yaml_error::problem(span, error.kind())
}
