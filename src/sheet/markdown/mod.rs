//! Markdown to blocks of a document: CommonMark with tables and tick boxes, and nothing that a
//! sheet cannot hold.
//!
//! A template may hold, beside ordinary Markdown:
//! - a picture alone in its paragraph, `![words](figure:NAME "caption")`: that figure;
//! - a command, which is a line by itself that begins with colons:
//!   - `::: columns 2` … `:::`: what stands between runs through columns;
//!   - `::: columns 2:1` … `---` … `:::`: what stands before and after the rule stands beside each
//!     other, the first twice as wide as the second;
//!   - `::: landscape` … `:::`: what stands between has pages that lie on their long side;
//!   - `::: together` … `:::`: what stands between stays on one page;
//!   - `::: step 3` … `:::`: a step of a work card. Its first figure stands at the left, and its
//!     boxes to tick, `- [ ]` and steps that are put in, at the right edge;
//!   - `:: caution NAME`: a safety message;
//!   - `:: prose NAME`: words of the specification; `:: prose NAME from 5` counts their steps from 5;
//!   - `:: contents HEADING`: the contents;
//!   - `:: exercise 3`, `:: answer 3`, `:: example`, `:: cards`: parts of a course;
//! - a rule `---`: a new page;
//! - `![](tick:)`, `![](blank:40mm)` among words: an empty box to tick, a line to write on;
//! - `![](break:)` in a cell of a table, which has one line in Markdown: a line break;
//! - `![](anchor:NAME)` in a heading: a name that links can lead to. It is written as a picture, as
//!   are the two before, because Markdown has no other mark within a line that no value can imitate;
//! - a quotation that begins with a signal word in bold, `> **WARNING** …`: a safety message;
//! - a paragraph `Table: …` just before a table: what the table shows, for a screen reader;
//!   `Form: …` instead, if the table is there to be filled in by hand; `Matrix: …`, if it is worked
//!   through row by row; `Summary: …` for a box of a few values with their names in the head, each
//!   value in the first row and more about it below;
//! - `![](row:head)`, `![](row:apart)` in a row of a table: its first cell spans all columns and heads
//!   the rows under it; a heavy rule parts it from the row above;
//! - a list with `[ ]`: steps with a box to tick.
//!
//! Links lead to `#anchor` only. Raw HTML is refused.

mod command;
mod pieces;
mod reader;
mod running;

use std::ops::Range;

use crate::document::Block;
use crate::scene::Scene;

pub use command::Insert;
pub use running::running;

use reader::read;

/// Something that a sheet cannot hold.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct MarkdownFault {
    /// What is wrong: small first letter, no full stop.
    pub message: String,
    /// Where it stands in the Markdown, bytes.
    pub range: Range<usize>,
}

/// What a template can put in by name.
pub struct Inserts<'a> {
    /// A figure, for `figure:NAME`.
    pub figure: &'a dyn Fn(&str) -> Option<&'a Scene>,
    /// Blocks, for a command that puts something in.
    pub blocks: &'a dyn Fn(&Insert) -> Option<Vec<Block>>,
}

/// Reads a filled template.
pub fn read_template(text: &str, inserts: &Inserts<'_>) -> (Vec<Block>, Vec<MarkdownFault>) {
    read(text, Some(inserts))
}

/// Reads Markdown of a specification: paragraphs, lists and bold words. Numbered lists are steps.
/// Links keep their words only, pictures their words for a screen reader, HTML is shown as text.
pub fn read_prose(text: &str) -> Vec<Block> {
    read(text, None).0
}

/// `text` with a backslash before every mark that Markdown could take for structure, on one line.
pub fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len() + 8);
    for c in text.chars() {
        if c.is_ascii_punctuation() {
            out.push('\\');
        }
        out.push(if c.is_control() { ' ' } else { c });
    }
    out
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::document::{Align, Inline, ListKind, Signal, plain_text};
    use crate::scene::Target;

    fn nothing() -> Inserts<'static> {
        Inserts { figure: &|_| None, blocks: &|_| None }
    }

    /// What a value looks like when it is shown: control characters as spaces, ends trimmed.
    fn shown(value: &str) -> String {
        let text: String = value.chars().map(|c| if c.is_control() { ' ' } else { c }).collect();
        text.trim_matches(' ').to_owned()
    }

    fn any_value() -> impl Strategy<Value = String> {
        // Marks of Markdown, HTML and tables come often, letters and anything else between them.
        let marks = prop::sample::select(vec![
            "|",
            "\\",
            "`",
            "*",
            "_",
            "[",
            "](",
            ")",
            "!",
            "<",
            ">",
            "#",
            "-",
            "1.",
            "&amp;",
            "~",
            "{",
            "}",
            "$",
            "^",
            ":",
            "=",
            "+",
            " ",
            "  ",
            "a",
            "ö",
            "\u{a0}",
            "javascript:",
            "\n",
        ]);
        prop_oneof![
            prop::collection::vec(marks, 1..12).prop_map(|marks| marks.concat()),
            "\\PC{1,20}",
        ]
    }

    proptest! {
        #[test]
        fn an_escaped_value_is_shown_letter_by_letter(value in any_value()) {
            prop_assume!(!shown(&value).is_empty() && !shown(&value).starts_with(char::is_whitespace));
            prop_assume!(!shown(&value).ends_with(char::is_whitespace));
            let text = format!("Words {} end.", escaped(shown(&value).as_str()));
            let (blocks, faults) = read_template(&text, &nothing());
            prop_assert!(faults.is_empty(), "{faults:?}");
            let wanted = format!("Words {} end.", shown(&value));
            prop_assert_eq!(blocks, vec![Block::Paragraph(vec![Inline::Plain(wanted)])]);
        }

        #[test]
        fn an_escaped_value_stays_in_its_cell(value in any_value()) {
            prop_assume!(!shown(&value).is_empty() && !shown(&value).starts_with(char::is_whitespace));
            prop_assume!(!shown(&value).ends_with(char::is_whitespace));
            let cell = escaped(&shown(&value));
            let text = format!("| a | b | c |\n|:--|:-:|--:|\n| x | {cell} | y |\n");
            let (blocks, faults) = read_template(&text, &nothing());
            prop_assert!(faults.is_empty(), "{faults:?}");
            let [Block::Table(table)] = blocks.as_slice() else {
                return Err(TestCaseError::fail(format!("{blocks:?}")));
            };
            let cells: Vec<String> = table.rows[0].iter().map(|cell| plain_text(cell)).collect();
            prop_assert_eq!(cells, vec!["x".to_owned(), shown(&value), "y".to_owned()]);
        }

        #[test]
        fn any_prose_is_read_without_links_or_figures(text in "[\\PC\n]{0,200}") {
            fn quiet(blocks: &[Block]) -> bool {
                blocks.iter().all(|block| match block {
                    Block::Paragraph(words) => {
                        words.iter().all(|inline| !matches!(inline, Inline::Link { .. }))
                    }
                    Block::List { items, .. } => items.iter().all(|item| quiet(item)),
                    Block::Caution { blocks, .. } => quiet(blocks),
                    Block::Table(_) => true,
                    _ => false,
                })
            }
            prop_assert!(quiet(&read_prose(&text)), "{:?}", read_prose(&text));
        }
    }

    #[test]
    fn what_a_template_may_hold() {
        let text = "# One ![](anchor:one)\n\nA *b* **c** [d](#one).\n\n> **WARNING** Hot.\n> \n> More.\n\n\
                    > Only said.\n\n1. [ ] a\n2. [ ] b\n\n3. c\n\nTable: all of it\n| x |\n|--:|\n| 1 |\n\n---\n\n\
                    :: contents Contents\n";
        let (blocks, faults) = read_template(text, &nothing());
        assert_eq!(faults, []);
        let plain = |text: &str| Inline::Plain(text.to_owned());
        let target = Target::Anchor("one".to_owned());
        assert_eq!(
            blocks[..5],
            [
                Block::Heading { level: 1, text: vec![plain("One")], anchor: Some("one".into()) },
                Block::Paragraph(vec![
                    plain("A b "),
                    Inline::Strong("c".into()),
                    plain(" "),
                    Inline::Link { text: "d".into(), strong: false, target },
                    plain("."),
                ]),
                Block::Caution {
                    signal: Signal::Warning,
                    blocks: vec![
                        Block::Paragraph(vec![plain("Hot.")]),
                        Block::Paragraph(vec![plain("More.")]),
                    ],
                },
                Block::Paragraph(vec![plain("Only said.")]),
                Block::List {
                    kind: ListKind::Steps(1),
                    items: ["a", "b", "c"]
                        .map(|item| vec![Block::Paragraph(vec![plain(item)])])
                        .to_vec(),
                },
            ]
        );
        let Block::Table(table) = &blocks[5] else { panic!("{:?}", blocks[5]) };
        assert_eq!(
            (table.summary.as_str(), &table.columns[..]),
            ("all of it", &[Align::Right][..])
        );
        assert_eq!(blocks[6..], [Block::PageBreak, Block::Contents { title: "Contents".into() }]);
    }

    fn messages(text: &str) -> Vec<(String, &str)> {
        let (_, faults) = read_template(text, &nothing());
        faults.into_iter().map(|fault| (fault.message, &text[fault.range])).collect()
    }

    #[test]
    fn what_is_opened_is_closed() {
        let text = "::: together\na\n::: columns 2\nb\n:::\n:::\nc\n";
        let (blocks, faults) = read_template(text, &nothing());
        assert_eq!(faults, []);
        let words = |text: &str| Block::Paragraph(vec![Inline::Plain(text.to_owned())]);
        let columns = Block::Columns { count: 2, blocks: vec![words("b")] };
        assert_eq!(blocks, [Block::Together(vec![words("a"), columns]), words("c")]);
        let text = "::: landscape\na\n::: columns 2:1\nb\n\n---\nc\n:::\n\n---\n:::\nd\n";
        let (blocks, faults) = read_template(text, &nothing());
        assert_eq!(faults, []);
        let parts = vec![vec![words("b")], vec![words("c")]];
        let beside = Block::Beside { shares: vec![2, 1], parts };
        let landscape = Block::Landscape(vec![words("a"), beside, Block::PageBreak]);
        assert_eq!(blocks, [landscape, words("d")]);
        for (text, message, place) in [
            ("a\n\n::: columns 2\nb\n", "this is never closed by a line `:::`", "::: columns 2"),
            ("::: together\n\n- a\n", "this is never closed by a line `:::`", "::: together"),
            ("a\n:::\n", "nothing is open that this could close", ":::"),
            ("::: columns 2\n::: columns 3\n:::\n:::\n", "columns stand in no", "::: columns 3"),
            ("::: columns 2\n::: together\n:::\n:::\n", "what stays together", "::: together"),
            ("::: columns 2\n::: landscape\n:::\n:::\n", "landscape pages", "::: landscape"),
            ("::: landscape\na\n", "this is never closed by a line `:::`", "::: landscape"),
            ("::: columns 2:1\na\n:::\n", "columns like `2:1` have as", "::: columns 2:1"),
            (":: caution lock\n", "there is no safety message `lock`", ":: caution lock"),
            ("- a\n  :: cards\n", "a command stands at the beginning", "  :: cards"),
            ("![](columns:2)\n", "a picture can only be a figure", "![](columns:2)"),
        ] {
            let told = messages(text);
            assert!(
                matches!(told.as_slice(), [(first, at)] if first.starts_with(message) && *at == place),
                "{text}: {told:?}"
            );
        }
    }

    #[test]
    fn no_value_is_a_command() {
        for value in ["::: columns 2", ":: caution lock", ":::"] {
            let text = format!("{}\n\n{}\n", escaped(value), escaped(value));
            let (blocks, faults) = read_template(&text, &nothing());
            assert_eq!(faults, []);
            let words = Block::Paragraph(vec![Inline::Plain(value.to_owned())]);
            assert_eq!(blocks, [words.clone(), words]);
        }
        // Nor is the prose of a specification.
        let words = Block::Paragraph(vec![Inline::Plain("::: columns 2".to_owned())]);
        assert_eq!(read_prose("::: columns 2"), [words]);
    }

    #[test]
    fn depth_costs_nothing() {
        let text = ">".repeat(4000) + " deep";
        let blocks = read_prose(&text);
        assert!(!blocks.is_empty());
        let lists = "- ".repeat(2000) + "deep";
        assert!(!read_prose(&lists).is_empty());
    }
}
