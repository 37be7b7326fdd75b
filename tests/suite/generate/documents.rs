//! Documents of all sorts, for properties, and the words that must be read from them.

use lidsheet::document::{
    Align, Block, Document, Inline, ListKind, RowMark, Signal, Table, TableKind,
};
use lidsheet::geometry::{Path, Point, Rect, Size};
use lidsheet::scene::{Ink, Scene, Stroke};
use lidsheet::text::{Style, Typesetter};
use proptest::prelude::*;

/// A document of up to twelve blocks of every kind, nested up to three deep.
pub fn any() -> impl Strategy<Value = Document> {
    let blocks = prop::collection::vec(block(), 0..12);
    (blocks, words_of(12), words_of(30)).prop_map(|(mut blocks, head, foot)| {
        blocks = blocks.into_iter().map(|block| as_written(block, true)).collect();
        // A page break after a heading is a mistake of who wrote it, not of the page breaker.
        let mut after_words = false;
        blocks.retain(|block| {
            let breaks = matches!(block, Block::PageBreak | Block::Landscape(_));
            let kept = after_words || !breaks;
            after_words = matches!(block, Block::Paragraph(_)) && !plain(block).is_empty();
            kept
        });
        // PDF/UA asks for bookmarks.
        let text = vec![Inline::Plain("Start".into())];
        blocks.insert(0, Block::Heading { level: 1, text, anchor: None });
        let end = Block::Paragraph(vec![Inline::Plain("The end".into())]);
        blocks.push(end);
        let mut document = super::specimen::document(blocks);
        document.head = (head, "Otterbrook Controls".into());
        document.foot = foot;
        document
    })
}

/// A block as a template would have it: what has pages of its own, steps, and what stands beside each
/// other lie in nothing else, but for parts on a landscape page.
fn as_written(block: Block, open: bool) -> Block {
    let all = |blocks: Vec<Block>, open: bool| -> Vec<Block> {
        blocks.into_iter().map(|block| as_written(block, open)).collect()
    };
    let each = |parts: Vec<Vec<Block>>| -> Vec<Vec<Block>> {
        parts.into_iter().map(|part| all(part, false)).collect()
    };
    // A page begins in nothing that stays together, and a drawing beside something is made for it.
    let kept = |block: &Block| match block {
        Block::PageBreak => false,
        Block::Figure { scene, .. } => scene.size.height < 100.0,
        _ => true,
    };
    let fitting = |parts: Vec<Vec<Block>>| -> Vec<Vec<Block>> {
        let only = |part: Vec<Block>| part.into_iter().filter(kept).collect();
        parts.into_iter().map(only).collect()
    };
    match block {
        Block::Landscape(blocks) if open => {
            let parts = |block| match block {
                block @ Block::Beside { .. } => as_written(block, true),
                block => as_written(block, false),
            };
            Block::Landscape(blocks.into_iter().map(parts).collect())
        }
        Block::Step { number, blocks } if open => {
            Block::Step { number, blocks: all(blocks, false) }
        }
        Block::Beside { shares, parts } if open => Block::Beside { shares, parts: each(parts) },
        Block::Landscape(blocks) | Block::Step { blocks, .. } => {
            Block::Together(fitting(vec![all(blocks, false)]).concat())
        }
        Block::Beside { parts, .. } => {
            Block::Together(fitting(vec![all(parts.concat(), false)]).concat())
        }
        Block::Together(blocks) => {
            let blocks =
                if open { all(blocks, false) } else { fitting(vec![all(blocks, false)]).concat() };
            Block::Together(blocks)
        }
        Block::Caution { signal, blocks } => Block::Caution { signal, blocks: all(blocks, false) },
        Block::Columns { count, blocks } => Block::Columns { count, blocks: all(blocks, false) },
        Block::Cards(cards) => Block::Cards(each(cards)),
        Block::List { kind, items } => Block::List { kind, items: each(items) },
        block => block,
    }
}

fn plain(block: &Block) -> String {
    words(std::slice::from_ref(block)).trim().to_owned()
}

/// Blocks without headings at their end, where nothing would follow them.
fn ended(mut blocks: Vec<Block>) -> Vec<Block> {
    while blocks.last().is_some_and(|last| {
        matches!(last, Block::Heading { .. } | Block::Title { .. } | Block::PageBreak)
            || plain(last).is_empty()
    }) {
        blocks.pop();
    }
    blocks
}

/// The words of blocks in reading order, those of drawings and signal words included.
pub fn words(blocks: &[Block]) -> String {
    let inlines = lidsheet::document::plain_text;
    let mut all = String::new();
    for block in blocks {
        match block {
            Block::Heading { text, .. } | Block::Paragraph(text) => all += &inlines(text),
            Block::Title { text, subtitle } => {
                all += text;
                all += subtitle;
            }
            Block::List { items, .. } => items.iter().for_each(|item| all += &words(item)),
            Block::Table(table) => {
                for cell in table.head.iter().chain(table.rows.iter().flatten()) {
                    all += &inlines(cell);
                }
            }
            Block::Figure { scene, caption, .. } => {
                scene.text_boxes().iter().for_each(|(_, text)| all += text);
                all += &inlines(caption);
            }
            Block::Caution { signal, blocks } => {
                all += signal.word();
                all += &words(blocks);
            }
            Block::Columns { blocks, .. } | Block::Together(blocks) | Block::Landscape(blocks) => {
                all += &words(blocks)
            }
            Block::Step { number, blocks } => {
                all += &number.to_string();
                all += &words(blocks);
            }
            Block::Cards(cards) | Block::Beside { parts: cards, .. } => {
                cards.iter().for_each(|card| all += &words(card))
            }
            Block::Contents { title } => all += title,
            Block::PageBreak => {}
        }
    }
    // Tests compare what was set: what no font has is named.
    all.replace('中', "[U+4E2D]")
}

/// Calls a function for each list of blocks, those inside of blocks after the one that holds them.
pub fn each_list(blocks: &mut Vec<Block>, call: &mut impl FnMut(&mut Vec<Block>)) {
    call(blocks);
    for block in blocks {
        match block {
            Block::List { items, .. }
            | Block::Cards(items)
            | Block::Beside { parts: items, .. } => {
                items.iter_mut().for_each(|item| each_list(item, call));
            }
            Block::Caution { blocks, .. }
            | Block::Columns { blocks, .. }
            | Block::Together(blocks)
            | Block::Landscape(blocks)
            | Block::Step { blocks, .. } => each_list(blocks, call),
            Block::Heading { .. }
            | Block::Paragraph(_)
            | Block::Title { .. }
            | Block::Table(_)
            | Block::Figure { .. }
            | Block::Contents { .. }
            | Block::PageBreak => {}
        }
    }
}

fn word() -> impl Strategy<Value = String> {
    prop_oneof![
        12 => "[a-zA-Zéß0-9]{1,10}",
        1 => "[a-z]{60,90}",
        1 => "[A-Z]{2}-[0-9]{1,4}[.,;)]?",
        1 => "[а-яЖ]{1,8}|中|\\(|→x",
    ]
}

/// Up to `most` words.
fn words_of(most: usize) -> impl Strategy<Value = String> {
    prop::collection::vec(word(), 0..most).prop_map(|words| words.join(" ").replace('→', "to "))
}

fn inline() -> impl Strategy<Value = Inline> {
    prop_oneof![
        8 => words_of(40).prop_map(Inline::Plain),
        2 => words_of(4).prop_map(Inline::Strong),
        1 => Just(Inline::Break),
        1 => Just(Inline::Plain(" ".into())),
    ]
}

fn inlines() -> impl Strategy<Value = Vec<Inline>> {
    prop::collection::vec(inline(), 0..5)
}

fn block() -> impl Strategy<Value = Block> {
    let leaf = prop_oneof![
        6 => inlines().prop_map(Block::Paragraph),
        3 => (0..5u8, words_of(5)).prop_map(|(level, text)| Block::Heading {
            level,
            text: vec![Inline::Plain(text)],
            anchor: None,
        }),
        3 => table().prop_map(Block::Table),
        2 => figure(),
        1 => (words_of(8), words_of(8)).prop_map(|(text, subtitle)| Block::Title { text, subtitle }),
        1 => words_of(3).prop_map(|title| Block::Contents { title }),
        1 => Just(Block::PageBreak),
    ];
    leaf.prop_recursive(3, 24, 5, |inner| {
        let kind = prop_oneof![
            Just(ListKind::Bullets),
            (0..2000u32).prop_map(ListKind::Numbers),
            (0..20u32).prop_map(ListKind::Steps),
            Just(ListKind::Ticks),
        ];
        let inside = |most| prop::collection::vec(inner.clone(), 0..most).prop_map(ended);
        let items = prop::collection::vec(inside(3), 0..5);
        let signal = prop::sample::select(vec![
            Signal::Danger,
            Signal::Warning,
            Signal::Caution,
            Signal::Notice,
        ]);
        prop_oneof![
            (kind, items).prop_map(|(kind, items)| Block::List { kind, items }),
            (signal, inside(3)).prop_map(|(signal, blocks)| Block::Caution { signal, blocks }),
            (0..200u32, inside(4)).prop_map(|(number, mut blocks)| {
                // A drawing stands at the left, wherever it is among the blocks.
                blocks.retain(|block| !matches!(block, Block::Figure { .. }));
                Block::Step { number, blocks }
            }),
            (2..4u8, inside(5)).prop_map(|(count, blocks)| Block::Columns { count, blocks }),
            (prop::collection::vec(1..4u8, 2), inside(5), inside(5)).prop_map(
                |(shares, first, second)| Block::Beside { shares, parts: vec![first, second] }
            ),
            inside(3).prop_map(Block::Together),
            inside(4).prop_map(Block::Landscape),
        ]
    })
}

fn table() -> impl Strategy<Value = Table> {
    let align = prop::sample::select(vec![Align::Left, Align::Centre, Align::Right]);
    (
        (0..7usize, prop::bool::weighted(0.2)),
        prop_oneof![9 => 0..9usize, 1 => 60..90usize],
        prop_oneof![9 => 0..2usize, 1 => Just(30)],
    )
        .prop_flat_map(move |((columns, summary), rows, more)| {
            // A summary is a box of a few values, which no page breaks.
            let (columns, rows) =
                if summary { (columns, rows.min(3)) } else { (columns + more, rows) };
            let cell = || prop::collection::vec(words_of(6).prop_map(Inline::Plain), 0..2);
            let row = prop::collection::vec(cell(), columns);
            let head =
                prop_oneof![4 => prop::collection::vec(cell(), columns), 1 => Just(Vec::new())];
            let columns = prop::collection::vec(align.clone(), columns);
            (columns, head, prop::collection::vec(row, rows), Just(summary))
        })
        .prop_flat_map(|(columns, head, rows, summary)| {
            let mark = prop_oneof![
                4 => Just(None),
                1 => Just(Some(RowMark::Head)),
                1 => Just(Some(RowMark::Apart))
            ];
            let marks = prop::collection::vec(mark, rows.len());
            let kind = prop_oneof![
                7 => Just(if summary { TableKind::Summary } else { TableKind::Reading }),
                3 => Just(TableKind::Matrix),
            ];
            (Just((columns, head, rows)), marks, kind)
        })
        .prop_map(|((columns, head, rows), marks, kind)| Table {
            columns,
            head,
            rows,
            marks: marks
                .into_iter()
                .enumerate()
                .filter(|_| kind != TableKind::Summary)
                .filter_map(|(at, mark)| Some((at, mark?)))
                .collect(),
            summary: String::new(),
            kind,
        })
}

fn figure() -> impl Strategy<Value = Block> {
    (30.0..400.0f64, 12.0..500.0f64, words_of(2), inlines()).prop_map(
        |(width, height, words, caption)| {
            let mut scene = Scene::new(Size::new(width, height), "A drawing", "It shows a box.");
            let edge = Stroke::solid(Ink::BLACK, 0.3);
            scene.shape(Path::rect(Rect::at(Point::default(), scene.size)), None, Some(edge));
            let line = Typesetter::new().line(&words, Style::regular(8.0));
            if line.width < width - 2.0 {
                scene.text(Point::new(1.0, 8.0), line);
            }
            Block::Figure { scene, alternative: "A box.".into(), caption, anchor: None }
        },
    )
}
