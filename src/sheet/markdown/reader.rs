//! The events of the parser to blocks, without recursion.

mod nesting;

use std::collections::BTreeMap;
use std::ops::Range;

use pulldown_cmark::{Event, Options, Parser, Tag, TagEnd};

use super::command::{self, Command, Stretch};
use super::pieces::{align, figure, level_number, trim};
use super::{Inserts, MarkdownFault};
use crate::document::{Block, Inline, ListKind, RowMark, Table, TableKind};
use crate::scene::Target;

/// Lists, quotations and tables may lie this deep in each other; what is deeper is lifted up.
const DEPTH: usize = 6;

/// Reads a filled template, or the prose of a specification if nothing can be put in.
pub(super) fn read(text: &str, inserts: Option<&Inserts<'_>>) -> (Vec<Block>, Vec<MarkdownFault>) {
    let mut reader = Reader {
        inserts,
        at: 0..0,
        frames: vec![Frame::Blocks(Vec::new())],
        skipped: 0,
        unfit: 0,
        words: Vec::new(),
        strong: 0,
        link: None,
        picture: None,
        anchor: None,
        row_mark: None,
        stands_alone: false,
        faults: Vec::new(),
    };
    let options = Options::ENABLE_TABLES | Options::ENABLE_TASKLISTS;
    let stretches = match inserts {
        Some(_) => command::stretches(text),
        None => vec![Stretch::Markdown(0..text.len())],
    };
    for stretch in stretches {
        match (stretch, inserts) {
            (Stretch::Command(range), Some(inserts)) => {
                let line = text.get(range.clone()).unwrap_or_default();
                reader.at = range;
                reader.command(line, inserts);
            }
            (Stretch::Markdown(range) | Stretch::Command(range), _) => {
                let markdown = text.get(range.clone()).unwrap_or_default();
                for (event, within) in Parser::new_ext(markdown, options).into_offset_iter() {
                    reader.at = range.start + within.start..range.start + within.end;
                    reader.take(event);
                }
            }
        }
    }
    reader.finish()
}

/// What is open around the present place.
enum Frame {
    Blocks(Vec<Block>),
    Quote(Vec<Block>),
    List {
        kind: ListKind,
        items: Vec<Vec<Block>>,
    },
    Item(Vec<Block>),
    Table {
        table: Table,
        row: Vec<Vec<Inline>>,
        in_head: bool,
    },
    /// `at` is where it was opened.
    Columns {
        count: u8,
        blocks: Vec<Block>,
        at: Range<usize>,
    },
    /// `blocks` are those of the part that is open, `parts` the parts before it.
    Beside {
        shares: Vec<u8>,
        parts: Vec<Vec<Block>>,
        blocks: Vec<Block>,
        at: Range<usize>,
    },
    Together {
        blocks: Vec<Block>,
        at: Range<usize>,
    },
    Step {
        number: u32,
        blocks: Vec<Block>,
        at: Range<usize>,
    },
    Landscape {
        blocks: Vec<Block>,
        at: Range<usize>,
    },
}

impl Frame {
    /// Where the command is that opened it; `None` if none did.
    fn command_at(&self) -> Option<&Range<usize>> {
        match self {
            Frame::Columns { at, .. }
            | Frame::Beside { at, .. }
            | Frame::Together { at, .. }
            | Frame::Step { at, .. }
            | Frame::Landscape { at, .. } => Some(at),
            Frame::Blocks(_)
            | Frame::Quote(_)
            | Frame::List { .. }
            | Frame::Item(_)
            | Frame::Table { .. } => None,
        }
    }
}

/// A picture whose words are being read.
struct Picture {
    destination: String,
    caption: String,
    words: String,
}

/// Reads event by event.
struct Reader<'a, 'b> {
    /// `None` for the prose of a specification.
    inserts: Option<&'a Inserts<'b>>,
    /// Where the present event stands in the Markdown.
    at: Range<usize>,
    frames: Vec<Frame>,
    /// How many frames are open beyond [`DEPTH`].
    skipped: usize,
    /// How many commands are open that could not be opened where they stand.
    unfit: usize,
    words: Vec<Inline>,
    strong: usize,
    link: Option<(Option<Target>, String)>,
    picture: Option<Picture>,
    anchor: Option<String>,
    /// What the present row of a table is.
    row_mark: Option<RowMark>,
    /// Whether the present paragraph was a figure.
    stands_alone: bool,
    faults: Vec<MarkdownFault>,
}

impl Reader<'_, '_> {
    fn take(&mut self, event: Event<'_>) {
        match event {
            Event::Start(tag) => self.start(tag),
            Event::End(tag) => self.end(tag),
            Event::Text(text) | Event::Code(text) => self.text(&text),
            Event::SoftBreak => self.text(" "),
            Event::HardBreak => {
                if self.picture.is_some() || self.link.is_some() {
                    self.text(" ");
                } else {
                    self.words.push(Inline::Break);
                }
            }
            Event::Html(html) | Event::InlineHtml(html) => {
                if self.inserts.is_some() {
                    self.fault("a template cannot hold HTML");
                }
                self.text(html.trim_end());
            }
            Event::Rule => {
                self.flush();
                if self.inserts.is_some() {
                    self.rule();
                }
            }
            Event::TaskListMarker(_) => self.tick_box(),
            Event::FootnoteReference(_) | Event::InlineMath(_) | Event::DisplayMath(_) => {}
        }
    }

    fn start(&mut self, tag: Tag<'_>) {
        match tag {
            Tag::Paragraph | Tag::HtmlBlock => self.flush(),
            Tag::CodeBlock(_) => {
                self.flush();
                // Mostly a line that was moved in too far.
                if self.inserts.is_some() {
                    self.fault("a template cannot hold a block of code");
                }
            }
            Tag::Heading { .. } => {
                self.flush();
                self.anchor = None;
            }
            Tag::BlockQuote(_) => self.open(Frame::Quote(Vec::new())),
            Tag::List(first) => {
                let kind = match first {
                    None => ListKind::Bullets,
                    Some(first) => {
                        let first = u32::try_from(first).unwrap_or(1);
                        if self.inserts.is_some() {
                            ListKind::Numbers(first)
                        } else {
                            ListKind::Steps(first)
                        }
                    }
                };
                self.open(Frame::List { kind, items: Vec::new() });
            }
            Tag::Item => self.open(Frame::Item(Vec::new())),
            Tag::Table(columns) => {
                let columns = columns.iter().map(|c| align(*c)).collect();
                let table = Table {
                    columns,
                    head: Vec::new(),
                    rows: Vec::new(),
                    marks: BTreeMap::new(),
                    summary: String::new(),
                    kind: TableKind::Reading,
                };
                self.open(Frame::Table { table, row: Vec::new(), in_head: false });
            }
            Tag::TableHead => {
                if let Some(Frame::Table { in_head, .. }) = self.frames.last_mut() {
                    *in_head = true;
                }
            }
            Tag::Strong => self.strong += 1,
            Tag::Link { dest_url, .. } => {
                let target = match dest_url.strip_prefix('#') {
                    Some(name) if !name.is_empty() => Some(Target::Anchor(name.to_owned())),
                    _ => {
                        if self.inserts.is_some() {
                            let message = "a link can only lead to a place in the sheet, as in \
                                           `#sockets`";
                            self.fault(message);
                        }
                        None
                    }
                };
                let target = target.filter(|_| self.inserts.is_some());
                self.link = Some((target, String::new()));
            }
            Tag::Image { dest_url, title, .. } => {
                self.picture = Some(Picture {
                    destination: dest_url.to_string(),
                    caption: title.to_string(),
                    words: String::new(),
                });
            }
            _ => {}
        }
    }

    fn end(&mut self, tag: TagEnd) {
        match tag {
            TagEnd::Paragraph | TagEnd::HtmlBlock | TagEnd::CodeBlock => self.flush(),
            TagEnd::Heading(level) => {
                let mut text = std::mem::take(&mut self.words);
                trim(&mut text);
                let anchor = self.anchor.take();
                let heading = Block::Heading { level: level_number(level), text, anchor };
                match (self.inserts, heading) {
                    (Some(_), heading) => self.push(heading),
                    (None, Block::Heading { text, .. }) => self.push(Block::Paragraph(text)),
                    (None, _) => {}
                }
            }
            TagEnd::BlockQuote(_) | TagEnd::List(_) | TagEnd::Item | TagEnd::Table => self.close(),
            TagEnd::TableHead | TagEnd::TableRow => self.end_row(),
            TagEnd::TableCell => {
                let cell = std::mem::take(&mut self.words);
                match self.frames.last_mut() {
                    Some(Frame::Table { row, .. }) => row.push(cell),
                    // A table that lies too deep keeps its words, one paragraph a cell.
                    _ => {
                        self.words = cell;
                        self.flush();
                    }
                }
            }
            TagEnd::Strong => self.strong = self.strong.saturating_sub(1),
            TagEnd::Link => {
                if let Some((target, text)) = self.link.take() {
                    match target {
                        Some(target) => {
                            let strong = self.strong > 0;
                            self.words.push(Inline::Link { text, strong, target });
                        }
                        None => self.text(&text),
                    }
                }
            }
            TagEnd::Image => self.end_picture(),
            _ => {}
        }
    }

    fn text(&mut self, text: &str) {
        if let Some(picture) = &mut self.picture {
            picture.words.push_str(text);
            return;
        }
        if let Some((_, words)) = &mut self.link {
            words.push_str(text);
            return;
        }
        match (self.words.last_mut(), self.strong > 0) {
            (Some(Inline::Plain(last)), false) | (Some(Inline::Strong(last)), true) => {
                last.push_str(text);
            }
            (_, true) => self.words.push(Inline::Strong(text.to_owned())),
            (_, false) => self.words.push(Inline::Plain(text.to_owned())),
        }
    }

    fn end_picture(&mut self) {
        let Some(picture) = self.picture.take() else { return };
        let Some(inserts) = self.inserts else {
            self.text(&picture.words);
            return;
        };
        let Picture { destination, caption, words } = picture;
        if let Some(name) = destination.strip_prefix("anchor:") {
            self.anchor = Some(name.to_owned());
            return;
        }
        if destination == "tick:" {
            self.words.push(Inline::Tick);
            return;
        }
        if destination == "break:" {
            self.words.push(Inline::Break);
            return;
        }
        if let Some(mark) = destination.strip_prefix("row:") {
            self.row_mark = match mark {
                "head" => Some(RowMark::Head),
                "apart" => Some(RowMark::Apart),
                _ => {
                    self.fault("a row can only be marked as `row:head` or `row:apart`");
                    None
                }
            };
            return;
        }
        if let Some(width) = destination.strip_prefix("blank:") {
            match crate::units::Length::parse(width) {
                Some(width) => self.words.push(Inline::Blank { width: width.0 }),
                None => self.fault("a line to write on has a length, as in `blank:40mm`"),
            }
            return;
        }
        let Some(name) = destination.strip_prefix("figure:") else {
            let message = "a picture can only be a figure, as in `figure:board-plan`; a command is \
                           a line by itself, as in `:: caution lock`";
            self.fault(message);
            return;
        };
        let Some(scene) = (inserts.figure)(name) else {
            let message = format!("there is no figure `{name}`");
            self.fault(&message);
            return;
        };
        let inside = !matches!(
            self.frames.last(),
            Some(frame) if matches!(frame, Frame::Blocks(_)) || frame.command_at().is_some()
        );
        if !self.words.is_empty() || inside || self.stands_alone {
            self.fault("a figure must stand alone in its paragraph");
            return;
        }
        self.push(figure(scene, &words, caption));
        self.stands_alone = true;
    }

    /// A line that is a command.
    fn command(&mut self, line: &str, inserts: &Inserts<'_>) {
        match command::parse(line) {
            Ok(Command::Columns(count)) => match self.frames.last() {
                Some(Frame::Blocks(_) | Frame::Together { .. } | Frame::Landscape { .. }) => {
                    let at = self.at.clone();
                    self.open(Frame::Columns { count, blocks: Vec::new(), at });
                }
                _ => self.open_unfit("columns stand in no other columns"),
            },
            Ok(Command::Beside(shares)) => match self.frames.last() {
                Some(Frame::Blocks(_) | Frame::Together { .. } | Frame::Landscape { .. }) => {
                    let (parts, blocks, at) = (Vec::new(), Vec::new(), self.at.clone());
                    self.open(Frame::Beside { shares, parts, blocks, at });
                }
                _ => self.open_unfit("columns stand in no other columns"),
            },
            Ok(Command::Landscape) => match self.frames.last() {
                Some(Frame::Blocks(_)) => {
                    self.open(Frame::Landscape { blocks: Vec::new(), at: self.at.clone() });
                }
                _ => self.open_unfit("landscape pages stand in nothing else"),
            },
            Ok(Command::Together) => match self.frames.last() {
                Some(Frame::Blocks(_) | Frame::Landscape { .. }) => {
                    self.open(Frame::Together { blocks: Vec::new(), at: self.at.clone() });
                }
                _ => {
                    self.open_unfit("what stays together stands in no columns and in nothing else")
                }
            },
            Ok(Command::Step(number)) => match self.frames.last() {
                Some(Frame::Blocks(_)) => {
                    self.open(Frame::Step { number, blocks: Vec::new(), at: self.at.clone() });
                }
                _ => self.open_unfit("a step stands in nothing else"),
            },
            Ok(Command::Close) => match self.frames.last() {
                _ if self.unfit > 0 => self.unfit -= 1,
                Some(frame) if frame.command_at().is_some() => self.close(),
                _ => self.fault("nothing is open that this could close"),
            },
            Ok(Command::Contents(title)) => self.push(Block::Contents { title }),
            Ok(Command::Put(insert)) => match (inserts.blocks)(&insert) {
                Some(blocks) => blocks.into_iter().for_each(|block| self.push(block)),
                None => self.fault(&insert.missing()),
            },
            Err(message) => self.fault(&message),
        }
    }

    /// A rule: a new page, or the next of the parts that stand beside each other.
    fn rule(&mut self) {
        match self.frames.last_mut() {
            Some(Frame::Beside { parts, blocks, .. }) => parts.push(std::mem::take(blocks)),
            _ => self.push(Block::PageBreak),
        }
    }

    /// Says that something cannot be opened here; what closes it is not looked for again.
    fn open_unfit(&mut self, message: &str) {
        self.fault(message);
        self.unfit += 1;
    }

    fn fault(&mut self, message: &str) {
        self.faults.push(MarkdownFault { message: message.to_owned(), range: self.at.clone() });
    }
}
