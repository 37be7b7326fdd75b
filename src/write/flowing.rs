//! A document as HTML that flows: the same words and drawings as on its pages, in their reading order, for
//! any width of a window.
//!
//! What is written is a piece of a page: well-formed, without a script, and without a style inside of an
//! element, so that a page may forbid both. Its looks are [`FLOWING_STYLE`].

mod folded;

use std::fmt::Write as _;

use super::{escape, svg};
use crate::document::{
    Align, Block, Document, Inline, ListKind, RowMark, Signal, Table, TableKind, plain_text,
};
use crate::scene::Target;

pub use folded::{first_cautions_html, folded_html};

/// The looks of what [`flowing_html`] writes. Colours are those of the page around it: `--paper`, `--ink`,
/// `--line` and `--head`; each drawing stands on white.
pub const FLOWING_STYLE: &str = include_str!("flowing.css");

/// Drawings that are wider, mm, do not get smaller than is legible in a narrow window (`flowing.css`: 32rem):
/// they are scrolled sideways there, and so they are reached by the keyboard.
const WIDE: f64 = 130.0;

/// A document as a piece of HTML. Its title is a heading of level `first_level`, and the names that are led to
/// begin with `names`, which no other document on the page has.
pub fn flowing_html(document: &Document, first_level: u8, names: &str) -> String {
    let mut piece = Piece::new(document, first_level, names);
    let (left, right) = &document.head;
    piece.add(format_args!("<article class=\"sheet\" lang=\""));
    piece.text(&document.language);
    piece.add(format_args!("\">\n<p class=\"sheet-head\"><span>"));
    piece.text(left);
    piece.to.push_str("</span> <span>");
    piece.text(right);
    piece.to.push_str("</span></p>\n");
    piece.blocks(&document.blocks);
    piece.to.push_str("<p class=\"sheet-foot\">");
    piece.text(&document.foot);
    piece.to.push_str("</p>\n</article>\n");
    piece.to
}

struct Piece<'a> {
    to: String,
    document: &'a Document,
    first_level: u8,
    /// Level of the last heading.
    depth: u8,
    names: &'a str,
    /// Headings of level 1 so far, whose contents are a list of links.
    sections: usize,
    /// Boxes to tick so far.
    ticks: usize,
    /// Drawings so far.
    figures: usize,
    /// Whether it is one document of many on its page: then its tables are no landmarks, and its list of
    /// contents is left out.
    one_of_many: bool,
}

impl<'a> Piece<'a> {
    fn new(document: &'a Document, first_level: u8, names: &'a str) -> Self {
        Self {
            to: String::new(),
            document,
            first_level,
            depth: first_level,
            names,
            sections: 0,
            ticks: 0,
            figures: 0,
            one_of_many: false,
        }
    }

    fn add(&mut self, words: std::fmt::Arguments<'_>) {
        // Writing to a string cannot fail.
        let _ = self.to.write_fmt(words);
    }

    fn text(&mut self, text: &str) {
        escape::push(&mut self.to, text);
    }

    fn blocks(&mut self, blocks: &[Block]) {
        blocks.iter().for_each(|block| self.block(block));
    }

    fn block(&mut self, block: &Block) {
        match block {
            Block::Title { text, subtitle } => {
                let level = self.first_level;
                self.add(format_args!("<h{level}>"));
                self.text(text);
                self.add(format_args!("</h{level}>\n"));
                if !subtitle.is_empty() {
                    self.to.push_str("<p class=\"subtitle\">");
                    self.text(subtitle);
                    self.to.push_str("</p>\n");
                }
            }
            Block::Heading { level, text, anchor } => self.heading(*level, text, anchor.as_deref()),
            Block::Paragraph(words) => self.element("p", words),
            Block::List { kind, items } => self.list(*kind, items),
            Block::Table(table) => self.table(table),
            Block::Figure { scene, alternative, caption, anchor } => {
                self.to.push_str("<figure");
                if scene.size.width > WIDE {
                    self.to.push_str(" tabindex=\"0\"");
                }
                self.name(anchor.as_deref());
                self.to.push_str(">\n");
                self.figures += 1;
                let clips = format!("{}figure-{}-clip", self.names, self.figures);
                let drawing = svg::svg_within(scene, alternative, self.names, clips);
                self.to.push_str(&drawing);
                if !caption.is_empty() {
                    self.element("figcaption", caption);
                }
                self.to.push_str("</figure>\n");
            }
            Block::Caution { signal, blocks } => self.caution(*signal, blocks),
            Block::Contents { title } => self.contents(title),
            Block::Columns { blocks, .. } => self.inside("columns", blocks),
            Block::Beside { parts, .. } => {
                self.to.push_str("<div class=\"beside\">\n");
                parts.iter().for_each(|part| self.inside("part", part));
                self.to.push_str("</div>\n");
            }
            Block::Together(blocks) | Block::Landscape(blocks) => self.blocks(blocks),
            Block::Step { number, blocks } => {
                self.add(format_args!(
                    "<section class=\"step\">\n<p class=\"number\">{number}</p>\n"
                ));
                self.blocks(blocks);
                self.to.push_str("</section>\n");
            }
            Block::Cards(cards) => cards.iter().for_each(|card| self.inside("card", card)),
            Block::PageBreak => {}
        }
    }

    fn inside(&mut self, class: &str, blocks: &[Block]) {
        self.add(format_args!("<div class=\"{class}\">\n"));
        self.blocks(blocks);
        self.to.push_str("</div>\n");
    }

    fn heading(&mut self, level: u8, words: &[Inline], anchor: Option<&str>) {
        // A form begins with a small heading; for who goes by the headings there is no gap.
        let depth = (self.first_level + level).min(self.depth + 1).min(6);
        self.depth = depth;
        self.add(format_args!("<h{depth}"));
        if level == 1 {
            self.sections += 1;
        }
        match anchor {
            None if level == 1 => {
                let section = section_name(self.sections);
                self.name(Some(&section));
            }
            anchor => self.name(anchor),
        }
        self.to.push('>');
        self.inlines(words);
        self.add(format_args!("</h{depth}>\n"));
    }

    fn id(&self, anchor: &str) -> String {
        format!("{}{}", self.names, svg::id(anchor))
    }

    /// The name that links lead to, as an attribute.
    fn name(&mut self, anchor: Option<&str>) {
        if let Some(anchor) = anchor {
            let name = self.id(anchor);
            self.add(format_args!(" id=\"{name}\""));
        }
    }

    fn element(&mut self, tag: &str, words: &[Inline]) {
        self.add(format_args!("<{tag}>"));
        self.inlines(words);
        self.add(format_args!("</{tag}>\n"));
    }

    fn inlines(&mut self, words: &[Inline]) {
        let mut after_tick = false;
        for inline in words {
            match inline {
                // A box stays with the words that it is for.
                Inline::Plain(text) if after_tick && text.starts_with(' ') => {
                    self.to.push('\u{a0}');
                    self.text(&text[1..]);
                }
                Inline::Plain(text) => self.text(text),
                Inline::Strong(text) => self.strong(text),
                Inline::Link { text, strong, target: Target::Anchor(anchor) } => {
                    let name = self.id(anchor);
                    self.add(format_args!("<a href=\"#{name}\">"));
                    match strong {
                        true => self.strong(text),
                        false => self.text(text),
                    }
                    self.to.push_str("</a>");
                }
                Inline::Break => self.to.push_str("<br/>"),
                Inline::Tick => self.to.push_str("<span class=\"tick\"></span>"),
                Inline::Blank { .. } => self.to.push_str("<span class=\"blank\"></span>"),
            }
            after_tick = *inline == Inline::Tick;
        }
    }

    fn strong(&mut self, text: &str) {
        self.to.push_str("<strong>");
        self.text(text);
        self.to.push_str("</strong>");
    }

    fn list(&mut self, kind: ListKind, items: &[Vec<Block>]) {
        let (tag, start, ticked) = match kind {
            ListKind::Bullets => ("ul", None, false),
            ListKind::Numbers(start) => ("ol", Some(start), false),
            ListKind::Steps(start) => ("ol", Some(start), true),
            ListKind::Ticks => ("ul", None, true),
        };
        self.add(format_args!("<{tag}"));
        if let Some(start) = start.filter(|start| *start != 1) {
            self.add(format_args!(" start=\"{start}\""));
        }
        self.to.push_str(if ticked { " class=\"ticked\">\n" } else { ">\n" });
        for item in items {
            self.to.push_str("<li>");
            if ticked {
                self.ticks += 1;
                let name = format!("{}tick-{}", self.names, self.ticks);
                self.add(format_args!(
                    "<input type=\"checkbox\" aria-labelledby=\"{name}\"/><div id=\"{name}\">"
                ));
            }
            match item.as_slice() {
                [Block::Paragraph(words)] => self.inlines(words),
                blocks => self.blocks(blocks),
            }
            self.to.push_str(if ticked { "</div></li>\n" } else { "</li>\n" });
        }
        self.add(format_args!("</{tag}>\n"));
    }

    /// A few values, each with its name over it, so that none is scrolled out of view.
    fn summary(&mut self, table: &Table) {
        self.to.push_str("<dl class=\"summary\">\n");
        for (column, name) in table.head.iter().enumerate() {
            self.to.push_str("<div><dt>");
            self.inlines(name);
            self.to.push_str("</dt>");
            for value in table.rows.iter().filter_map(|row| row.get(column)) {
                if !value.is_empty() {
                    self.to.push_str("<dd>");
                    self.inlines(value);
                    self.to.push_str("</dd>");
                }
            }
            self.to.push_str("</div>\n");
        }
        self.to.push_str("</dl>\n");
    }

    /// A table in a frame of its own, which a narrow window scrolls sideways.
    fn table(&mut self, table: &Table) {
        let kind = match table.kind {
            TableKind::Reading => "reading",
            TableKind::Form => "form",
            TableKind::Summary => return self.summary(table),
            TableKind::Matrix => "matrix",
        };
        let role = if self.one_of_many { "group" } else { "region" };
        self.add(format_args!("<div class=\"wide\" role=\"{role}\" tabindex=\"0\" aria-label=\""));
        self.text(&table.summary);
        self.add(format_args!("\">\n<table class=\"{kind}\">\n"));
        if table.head.iter().any(|cell| !cell.is_empty()) {
            self.to.push_str("<thead>\n<tr>");
            for (cell, align) in table.head.iter().zip(&table.columns) {
                // A head without words heads nothing.
                let (tag, scope) = match plain_text(cell).trim().is_empty() {
                    true => ("td", ""),
                    false => ("th", " scope=\"col\""),
                };
                self.add(format_args!("<{tag}{scope}{}>", class_of(*align)));
                self.inlines(cell);
                self.add(format_args!("</{tag}>"));
            }
            self.to.push_str("</tr>\n</thead>\n");
        }
        self.to.push_str("<tbody>\n");
        for (index, row) in table.rows.iter().enumerate() {
            match table.marks.get(&index) {
                Some(RowMark::Head) => {
                    let count = table.columns.len();
                    self.add(format_args!("<tr class=\"head\"><th colspan=\"{count}\">"));
                    self.inlines(row.first().map_or(&[], Vec::as_slice));
                    self.to.push_str("</th></tr>\n");
                    continue;
                }
                Some(RowMark::Apart) => self.to.push_str("<tr class=\"apart\">"),
                None => self.to.push_str("<tr>"),
            }
            for (cell, align) in row.iter().zip(&table.columns) {
                self.add(format_args!("<td{}>", class_of(*align)));
                self.inlines(cell);
                self.to.push_str("</td>");
            }
            self.to.push_str("</tr>\n");
        }
        self.to.push_str("</tbody>\n</table>\n</div>\n");
    }

    fn caution(&mut self, signal: Signal, blocks: &[Block]) {
        let class = signal.word().to_lowercase();
        self.add(format_args!("<section class=\"message {class}\">\n<p class=\"signal\">"));
        if signal != Signal::Notice {
            self.to.push_str(ALERT);
        }
        let document = self.document;
        self.text(signal.word_in(&document.signal_words));
        self.to.push_str("</p>\n");
        self.blocks(blocks);
        self.to.push_str("</section>\n");
    }

    fn contents(&mut self, title: &str) {
        if self.one_of_many {
            return;
        }
        let mut sections = Vec::new();
        sections_of(&self.document.blocks, &mut sections);
        self.add(format_args!("<nav aria-label=\""));
        self.text(title);
        self.to.push_str("\">\n<p class=\"contents\">");
        self.text(title);
        self.to.push_str("</p>\n<ul>\n");
        for (index, (words, anchor)) in sections.into_iter().enumerate() {
            let own = section_name(index + 1);
            let name = self.id(anchor.unwrap_or(&own));
            self.add(format_args!("<li><a href=\"#{name}\">"));
            self.text(&plain_text(words));
            self.to.push_str("</a></li>\n");
        }
        self.to.push_str("</ul>\n</nav>\n");
    }
}

/// The safety alert symbol: never without the word beside it.
const ALERT: &str = "<svg class=\"alert\" viewBox=\"0 0 22 20\" aria-hidden=\"true\">\
    <path d=\"M11 1 21 19H1z\"/><path class=\"mark\" d=\"M10 7h2v6h-2zm0 7.5h2v2h-2z\"/></svg>";

fn class_of(align: Align) -> &'static str {
    match align {
        Align::Left => "",
        Align::Centre => " class=\"centre\"",
        Align::Right => " class=\"right\"",
    }
}

/// The name of a heading of level 1 that nobody has named, by its place among them.
fn section_name(number: usize) -> String {
    format!("section-{number}")
}

/// All headings of level 1, in their order.
fn sections_of<'a>(blocks: &'a [Block], to: &mut Vec<(&'a [Inline], Option<&'a str>)>) {
    for block in blocks {
        match block {
            Block::Heading { level: 1, text, anchor } => to.push((text, anchor.as_deref())),
            Block::List { items: parts, .. }
            | Block::Beside { parts, .. }
            | Block::Cards(parts) => parts.iter().for_each(|part| sections_of(part, to)),
            Block::Caution { blocks, .. }
            | Block::Columns { blocks, .. }
            | Block::Together(blocks)
            | Block::Step { blocks, .. }
            | Block::Landscape(blocks) => sections_of(blocks, to),
            Block::Heading { .. }
            | Block::Title { .. }
            | Block::Paragraph(_)
            | Block::Table(_)
            | Block::Figure { .. }
            | Block::Contents { .. }
            | Block::PageBreak => {}
        }
    }
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeMap;

    use resvg::usvg::roxmltree::Document as Xml;

    use super::*;
    use crate::document::{Density, House};

    fn words(text: &str) -> Vec<Inline> {
        vec![Inline::Plain(text.to_owned())]
    }

    fn document(blocks: Vec<Block>) -> Document {
        Document {
            title: "A & B".into(),
            language: "en".into(),
            author: String::new(),
            dated: (2026, 1, 2),
            head: ("<left>".into(), "right".into()),
            foot: "foot".into(),
            page_of: String::new(),
            signal_words: Signal::ALL.map(|signal| signal.word().to_owned()),
            mark: None,
            house: House::default(),
            density: Density::Roomy,
            blocks,
        }
    }

    /// The words of all elements, with a slash between two texts.
    fn heard(html: &str) -> String {
        let xml = Xml::parse(html).unwrap();
        let texts = xml.descendants().filter(|node| node.is_text());
        let texts = texts.filter_map(|node| node.text().map(str::trim));
        texts.filter(|text| !text.is_empty()).collect::<Vec<_>>().join("/")
    }

    #[test]
    fn words_come_in_their_order_and_are_never_markup() {
        let table = Table {
            columns: vec![Align::Left, Align::Right],
            head: vec![words("h1"), words("h2")],
            rows: vec![vec![words("group"), Vec::new()], vec![words("a"), words("b")]],
            marks: BTreeMap::from([(0, RowMark::Head)]),
            summary: "what it shows".into(),
            kind: TableKind::Reading,
        };
        let html = flowing_html(
            &document(vec![
                Block::Title { text: "<script>".into(), subtitle: "]]>".into() },
                Block::Caution {
                    signal: Signal::Danger,
                    blocks: vec![Block::Paragraph(words("Switch off."))],
                },
                Block::Contents { title: "Contents".into() },
                Block::Heading { level: 1, text: words("One"), anchor: None },
                Block::Table(table),
                Block::Heading { level: 1, text: words("Two"), anchor: Some("two".into()) },
                Block::List {
                    kind: ListKind::Steps(3),
                    items: vec![vec![Block::Paragraph(words("do it"))]],
                },
            ]),
            2,
            "x-",
        );
        assert_eq!(
            heard(&html),
            "<left>/right/<script>/]]>/DANGER/Switch off./Contents/One/Two/One/h1/h2/group/a/b/Two/\
             do it/foot"
        );
        let xml = Xml::parse(&html).unwrap();
        let named: Vec<&str> = xml.descendants().filter_map(|node| node.attribute("id")).collect();
        let led: Vec<&str> = xml.descendants().filter_map(|node| node.attribute("href")).collect();
        assert_eq!(named, ["x-at-section-1", "x-at-two", "x-tick-1"]);
        assert_eq!(led, ["#x-at-section-1", "#x-at-two"]);
        assert!(xml.descendants().all(|node| node.attribute("style").is_none()));
        let list = xml.descendants().find(|node| node.has_tag_name("ol")).unwrap();
        assert_eq!(list.attribute("start"), Some("3"));
    }
}
